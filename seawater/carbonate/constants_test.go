package carbonate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

var k1k2Names = map[string]K1K2{
	"k1k2_lueker2000": Lueker2000, "k1k2_mehrbach_dm87": MehrbachDickson1987, "k1k2_hansson_dm87": HanssonDickson1987,
	"k1k2_hm_dm87": HanssonMehrbach1987, "k1k2_sulpis2020": Sulpis2020, "k1k2_roy1993": Roy1993,
	"k1k2_goyet_poisson1989": GoyetPoisson1989, "k1k2_millero2006": Millero2006, "k1k2_millero2010": Millero2010,
	"k1k2_waters2014": Waters2014, "k1k2_waters2014_total": Waters2014Total, "k1k2_mojica2002": MojicaMillero2002,
	"k1k2_millero2002": Millero2002, "k1k2_cai_wang1998": CaiWang1998, "k1k2_millero1979_fresh": Millero1979,
	"k1k2_schockman_byrne2021": SchockmanByrne2021, "k1k2_papadimitriou2018": Papadimitriou2018,
}

// native returns a constant as its authors give it, in mol/kg.
func native(t *testing.T, set, quantity string, c *conditions) float64 {
	if k, ok := k1k2Names[set]; ok {
		ln1, ln2, scale := k.logarithms(c)
		factor := 1.
		if scale == totalPerWater {
			factor = c.water
		}
		if quantity == "K1" {
			return factor * math.Exp(ln1)
		}
		return factor * math.Exp(ln2)
	}
	totals := func(o Options) Totals { return o.totals(c.s) }
	switch set {
	case "kb_dickson1990":
		return math.Exp(boricAcid(c))
	case "kw_millero1995":
		return math.Exp(water(c))
	case "ks_dickson1990":
		return c.water * math.Exp(KSDickson1990.logarithm(c))
	case "ks_khoo1977":
		return c.water * math.Exp(KSKhoo1977.logarithm(c))
	case "ks_waters_millero2013":
		return c.water * math.Exp(KSWatersMillero2013.logarithm(c))
	case "kf_dickson_riley1979":
		return KFDicksonRiley1979.factor(c, 1) * math.Exp(KFDicksonRiley1979.logarithm(c))
	case "kf_perez_fraga1987(total)":
		return math.Exp(KFPerezFraga1987.logarithm(c))
	case "kp1_yao_millero1995":
		return math.Exp(phosphoricAcid(c, &kpCoef[0]))
	case "kp2_yao_millero1995":
		return math.Exp(phosphoricAcid(c, &kpCoef[1]))
	case "kp3_yao_millero1995":
		return math.Exp(phosphoricAcid(c, &kpCoef[2]))
	case "ksi_yao_millero1995":
		return c.water * math.Exp(silicicAcid(c))
	case "kh2s_millero1988":
		return math.Exp(hydrogenSulfide(c))
	case "knh4_clegg_whitfield1995_total":
		return c.water * math.Exp(KNH4CleggWhitfield1995.logarithm(c))
	case "knh4_yao_millero1995":
		return math.Exp(KNH4YaoMillero1995.logarithm(c))
	case "k0_weiss1974":
		return math.Exp(solubility(c))
	case "fugacity_weiss1974":
		return math.Exp(fugacity(c))
	case "vapour_pressure_weiss_price1980":
		return math.Exp(vapour(c))
	case "fh_takahashi1982":
		return takahashi(c)
	case "ionic_strength_doe1994":
		return c.i
	case "ksp_calcite_mucci1983":
		return math.Exp(solubilityProduct(c, &calciteCoef))
	case "ksp_aragonite_mucci1983":
		return math.Exp(solubilityProduct(c, &aragoniteCoef))
	case "total_boron_uppstrom1974":
		return totals(Options{}).Boron.MolesPerKilogram()
	case "total_boron_lee2010":
		return totals(Options{BoronRatio: BoronLee2010}).Boron.MolesPerKilogram()
	case "total_boron_kulinski2018":
		return totals(Options{BoronRatio: BoronKulinski2018}).Boron.MolesPerKilogram()
	case "total_calcium_riley_tongudai1967":
		return totals(Options{}).Calcium.MolesPerKilogram()
	case "total_fluoride_riley1965":
		return totals(Options{}).Fluoride.MolesPerKilogram()
	case "total_sulfate_morris_riley1966":
		return totals(Options{}).Sulfate.MolesPerKilogram()
	}
	t.Fatalf("unknown set %q", set)
	return 0
}

func TestConstantsGrid(t *testing.T) {
	worst := 0.0
	for _, row := range checks.Table(t, "testdata/constants_grid.csv") {
		c := conditionsAt(row.Float(t, "s"), row.Float(t, "t_degc"))
		got, want := native(t, row["set_id"], row["quantity"], &c), row.Float(t, "value")
		what := row["set_id"] + " " + row["quantity"] + " S=" + row["s"] + " t=" + row["t_degc"]
		checks.Relative(t, what, got, want, 1e-12)
		worst = math.Max(worst, math.Abs(got/want-1))
	}
	t.Logf("largest relative difference %.2g", worst)
}

// printed returns a constant at salinity 35 and 25 °C as a source prints it.
func printed(t *testing.T, row checks.Row) float64 {
	plain := At(units.Practical(35), units.Celsius(25), Options{})
	// back to the seawater scale of the fit, with its first coefficient lowered
	lowered := math.Exp(-0.015) * plain.seawaterFactor() / plain.freeFactor()
	k := map[string]float64{
		"K0": float64(plain.K0), "K1": float64(plain.K1), "K2": float64(plain.K2), "KB": float64(plain.KB), "KW": float64(plain.KW), "KSO4": float64(plain.KS),
		"KP1": float64(plain.KP1), "KP2": float64(plain.KP2), "KP3": float64(plain.KP3), "KSi": float64(plain.KSi),
		"Ksp calcite": float64(plain.Calcite), "Ksp aragonite": float64(plain.Aragonite), "KF": float64(plain.KF),
	}[row["quantity"]]
	switch {
	case row["set"] == "kf_perez_fraga1987":
		perez := At(units.Practical(35), units.Celsius(25), Options{KF: KFPerezFraga1987})
		k = float64(perez.KF) * perez.freeFactor()
	case row["variant"] == "total -0.015":
		k *= lowered
	}
	if row["kind"] == "ln" {
		return math.Log(k)
	}
	return -math.Log10(k)
}

func TestPrintedConstants(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/dickson2007.csv") {
		what := row["quantity"] + " " + row["kind"] + " " + row["source"]
		got := printed(t, row)
		switch row["printed"] {
		case "2.627": // the packages that Orr et al. compared give 2.6261, as the formula does
			checks.Absolute(t, what, got, 2.626077, 1e-6)
		case "9.39": // rounded from the rounded ln, -21.61; the formula gives 9.3838
			checks.Absolute(t, what, got, 9.383785, 1e-6)
			checks.Printed(t, what, 21.61/math.Ln10, "9.39")
		default:
			checks.Printed(t, what, got, row["printed"])
		}
	}
}

// The factor fH and a pH from the NBS to the seawater scale, printed in the
// documentation of seacarb (functions fH and pHnbs2sws).
func TestPrintedScales(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	checks.Printed(t, "fH", float64(c.FH), "0.7134043")
	total := PHNBS(8).Total(&c)
	checks.Printed(t, "NBS to seawater", total.Seawater(&c).Value(), "7.853336")
	checks.Printed(t, "free - total, 35, 25 °C", PHTotal(8).Free(&c).Value()-8, "0.108")
	checks.Printed(t, "total - seawater, 35, 25 °C", 8-PHTotal(8).Seawater(&c).Value(), "0.010")
}

func TestScalesRoundTrip(t *testing.T) {
	for _, s := range []float64{0, 1, 20, 35, 45} {
		c := At(units.Practical(s), units.Celsius(15), Options{K1K2: Waters2014})
		for _, x := range []float64{-1, 3, 7, 8.1, 14} {
			p := PHTotal(x)
			assert.InDelta(t, x, p.Free(&c).Total(&c).Value(), 1e-14)
			assert.InDelta(t, x, p.Seawater(&c).Total(&c).Value(), 1e-14)
			assert.InDelta(t, x, p.NBS(&c).Total(&c).Value(), 1e-14)
			if s > 0 {
				assert.Greater(t, p.Free(&c).Value(), x)
				assert.Less(t, p.Seawater(&c).Value(), x)
			}
		}
	}
	c := At(units.Practical(0), units.Celsius(15), Options{})
	assert.Equal(t, 7., PHTotal(7).Free(&c).Value(), "pure water has one scale only")
	assert.Equal(t, 7., PHTotal(7).Seawater(&c).Value())
	assert.Equal(t, "8.1 (total scale)", PHTotal(8.1).String())
	assert.Equal(t, "8.1 (free scale)", PHFree(8.1).String())
	assert.Equal(t, "8.1 (seawater scale)", PHSeawater(8.1).String())
	assert.Equal(t, "8.1 (NBS scale)", PHNBS(8.1).String())
}

func TestExponentials(t *testing.T) {
	step := checks.Step(0.0137, 0.137)
	for x := -705.; x < 705; x += step {
		list := []float64{x, -x, x / 1000}
		exponentials(list)
		checks.Relative(t, "exp", list[0], math.Exp(x), 4e-16)
		checks.Relative(t, "exp", list[1], math.Exp(-x), 4e-16)
		checks.Relative(t, "exp", list[2], math.Exp(x/1000), 4e-16)
	}
	list := []float64{math.Inf(1), math.Inf(-1), math.NaN(), 0, 1e-300, 710, -750}
	exponentials(list)
	assert.Equal(t, math.Inf(1), list[0])
	assert.Zero(t, list[1])
	assert.True(t, math.IsNaN(list[2]))
	assert.Equal(t, []float64{1, 1, math.Inf(1), 0}, list[3:])
}

// The table of exp.go.
func TestRootsOfTwo(t *testing.T) {
	for j, x := range rootsOfTwo {
		checks.Relative(t, "root", x, math.Exp2(float64(j)/32), 2e-16)
	}
}

func TestConstantsOfNoWater(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, in := range [][2]float64{
		{-1e-300, 25}, {-1, 25}, {nan, 25}, {inf, 25}, {120.1, 25}, {35, nan}, {35, inf}, {35, -inf}, {35, -101}, {35, 401},
	} {
		c := At(units.Practical(in[0]), units.Celsius(in[1]), Options{})
		for _, k := range everyConstant(&c) {
			assert.True(t, math.IsNaN(k), "%v", in)
		}
		assert.True(t, math.IsNaN(FreeAmmonia(units.Practical(in[0]), units.Celsius(in[1]), PHTotal(8)).Value()))
	}
	for _, o := range []Options{{K1K2: 17}, {KS: 3}, {KF: 2}, {KNH4: 4}, {BoronRatio: 3}} {
		c := At(units.Practical(35), units.Celsius(25), o)
		assert.True(t, math.IsNaN(float64(c.K1)))
		assert.ErrorIs(t, CheckRange(units.Practical(35), units.Celsius(25), o), units.ErrInput)
	}
	assert.ErrorIs(t, CheckRangeAmmonia(units.Practical(35), units.Celsius(25), 4), units.ErrInput)
}

func everyConstant(c *Constants) []float64 {
	return []float64{
		float64(c.K0), float64(c.K1), float64(c.K2), float64(c.KB), float64(c.KW), float64(c.KS), float64(c.KF), float64(c.KP1), float64(c.KP2), float64(c.KP3), float64(c.KSi), float64(c.KH2S), float64(c.KNH4), float64(c.Calcite), float64(c.Aragonite),
		float64(c.FugacityRatio), float64(c.VapourPressure), float64(c.FH), float64(c.Totals.Boron), float64(c.Totals.Sulfate),
		float64(c.Totals.Fluoride), float64(c.Totals.Calcium), float64(c.Totals.Magnesium),
	}
}

// Wherever a constant is not NaN it is a positive number, and a total not below
// zero.
func TestConstantsAreNumbers(t *testing.T) {
	for set := range K1K2(len(k1k2Domains)) {
		for _, s := range []float64{0, 1e-300, 5, 45, saltiest} {
			for _, celsius := range []float64{coldest, -50, 0, 25, 100, hottest} {
				if set == CaiWang1998 && celsius >= 100 {
					continue // fH has no meaning there, so neither has an NBS set
				}
				o := Options{K1K2: set, KS: KS(set % 3), KF: KF(set % 2), KNH4: KNH4(set % 4)}
				c := At(units.Practical(s), units.Celsius(celsius), o)
				for i, k := range everyConstant(&c) {
					assert.True(t, constant(units.Scalar(k)) || i == 17 && celsius >= 100 || i > 17 && s < 1 && k >= 0, "%v S=%v t=%v: constant %d is %v", set, s, celsius, i, k)
				}
			}
		}
	}
}

func TestTotals(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	checks.Printed(t, "calcium [RT]", c.Totals.Calcium.MolesPerKilogram(), "0.010285")
	checks.Printed(t, "magnesium [RC], computed from the mole fraction", c.Totals.Magnesium.MolesPerKilogram(), "0.052817061066")
	assert.False(t, c.Options.Calcium.IsMeasured())
	c = At(units.Practical(35), units.Celsius(25), Options{Calcium: Measured(10000), Boron: Measured(0)})
	assert.Equal(t, units.AmountPerKilogram(10000), c.Totals.Calcium)
	assert.Zero(t, c.Totals.Boron)
	assert.True(t, c.Options.Boron.IsMeasured())
}

func TestCheckRange(t *testing.T) {
	at := func(s, celsius float64, o Options) error {
		return CheckRange(units.Practical(s), units.Celsius(celsius), o)
	}
	for set := range K1K2(len(k1k2Domains)) {
		d, o := k1k2Domains[set], Options{K1K2: set}
		assert.NotEmpty(t, set.String())
		// Inside its own range a set is refused only for the range of another fit.
		for _, in := range [][2]float64{{d.sMin, d.tMin}, {d.sMax, d.tMax}} {
			var wrong *units.RangeError
			if err := at(in[0], in[1], o); err != nil {
				require.ErrorAs(t, err, &wrong)
				assert.NotContains(t, wrong.Source, "K1 and K2")
			}
		}
		for _, in := range [][2]float64{{d.sMin - 0.001, d.tMin}, {d.sMax + 0.001, d.tMax}, {d.sMin, d.tMin - 0.001}, {d.sMax, d.tMax + 0.001}, {math.NaN(), 25}, {d.sMin, math.NaN()}} {
			var wrong *units.RangeError
			require.ErrorAs(t, at(in[0], in[1], o), &wrong)
			assert.Equal(t, "K1 and K2: "+set.String(), wrong.Source)
		}
	}
	assert.NoError(t, at(35, 25, Options{}))
	assert.NoError(t, at(0, 25, Options{K1K2: Millero1979}), "no boron and no sulfate in pure water")
	assert.ErrorContains(t, at(3, 25, Options{K1K2: Waters2014}), "KB: Dickson 1990")
	assert.ErrorContains(t, at(19, 25, Options{KS: KSKhoo1977}), "KS: Khoo")
	assert.NoError(t, at(19, 25, Options{KS: KSWatersMillero2013}))
	assert.ErrorContains(t, at(35, 5, Options{KF: KFPerezFraga1987}), "KF: Perez and Fraga 1987")
	assert.EqualError(t, at(35, 40, Options{}), "temperature: 40 °C is outside 2 to 35 °C (K1 and K2: Lueker et al. 2000)")
	assert.ErrorContains(t, CheckRangeSaturation(units.Practical(35), units.Celsius(3)), "Mucci 1983")
	assert.NoError(t, CheckRangeSaturation(units.Practical(35), units.Celsius(25)))
	assert.NoError(t, CheckRangeAmmonia(units.Practical(35), units.Celsius(25), KNH4CleggWhitfield1995))
	assert.ErrorContains(t, CheckRangeAmmonia(units.Practical(41), units.Celsius(25), KNH4CleggWhitfield1995), "Clegg and Whitfield")
	assert.Equal(t, "unknown", K1K2(99).String())
	assert.Equal(t, "Uppström 1974", BoronUppstrom1974.String())
	assert.Equal(t, "unknown", BoronRatio(99).String())
	assert.Equal(t, "Dickson 1990", KSDickson1990.String())
	assert.Equal(t, "Dickson and Riley 1979", KFDicksonRiley1979.String())
	assert.Equal(t, "Bell et al. 2008", KNH4Bell2008.String())
}

// The columns of the grid are pK as published; here they come back out of the
// constants on the total scale.
func TestAmmoniaGrid(t *testing.T) {
	worst := 0.0
	near := func(what string, got, want float64) {
		checks.Absolute(t, what, got, want, 2e-14*want)
		worst = math.Max(worst, math.Abs(got-want))
	}
	for _, row := range checks.Table(t, "testdata/ammonia_grid.csv") {
		s, celsius := units.Practical(row.Float(t, "s")), units.Celsius(row.Float(t, "t_degc"))
		what := "S=" + row["s"] + " t=" + row["t_degc"]
		pk := func(k KNH4) (float64, Constants) {
			c := At(s, celsius, Options{KNH4: k})
			return -math.Log10(float64(c.KNH4)), c
		}
		total, c := pk(KNH4CleggWhitfield1995)
		water := math.Log10(1 - 0.001005*s.Value())
		near(what+" total", total, row.Float(t, "cw_total_sw"))
		near(what+" total, per kg of water", total+water, row.Float(t, "cw_total_molal"))
		free, _ := pk(KNH4CleggWhitfield1995Free)
		near(what+" free", free+water+math.Log10(c.freeFactor()), row.Float(t, "cw_free_molal"))
		bell, _ := pk(KNH4Bell2008)
		near(what+" Bell", bell+water+math.Log10(c.freeFactor()), row.Float(t, "bell2008"))
		yao, _ := pk(KNH4YaoMillero1995)
		near(what+" Yao and Millero", yao+math.Log10(c.freeFactor()/c.seawaterFactor()), row.Float(t, "yao_millero_sws"))

		want := row.Float(t, "nh3_fraction_ph8_2_total")
		checks.Relative(t, what+" share", FreeAmmonia(s, celsius, PHTotal(8.2)).Value(), want, 1e-13)
		checks.Relative(t, what+" share", c.FreeAmmonia(PHTotal(8.2)).Value(), want, 1e-13)

		// All four are of one substance: once on the total scale they agree.
		for _, other := range []float64{free, bell, yao} {
			assert.InDelta(t, total, other, 0.035, what)
		}
	}
	t.Logf("largest difference of pK %.2g", worst)
}

// Shares of NH3 printed in the documentation of the function ammFrac of R
// package wq, which takes pK per kg of water with the pH as it is.
func TestPrintedAmmonia(t *testing.T) {
	for _, row := range []struct {
		s, t, ph float64
		free     bool
		want     string
	}{
		{0, 10, 8, false, "0.0183"}, {0, 10, 8, true, "0.0183"}, {0, 25, 8, false, "0.0539"}, {0, 25, 8, true, "0.0539"},
		{35, 25, 8, false, "0.0556"}, {35, 25, 8, true, "0.0440"}, {35, 25, 7.8, false, "0.0358"}, {35, 25, 7.8, true, "0.0282"},
	} {
		c := conditionsAt(row.s, row.t)
		pk := cleggWhitfield(&c)
		if row.free {
			pk = cleggWhitfieldFree(&c)
		}
		checks.Printed(t, "share of NH3", freeShare(fromPK(pk), PHTotal(row.ph)).Value(), row.want)
	}
}

func TestFreeAmmoniaEnds(t *testing.T) {
	s, celsius := units.Practical(35), units.Celsius(25)
	assert.Equal(t, units.Share(1), FreeAmmonia(s, celsius, PHTotal(math.Inf(1))))
	assert.Equal(t, units.Share(0), FreeAmmonia(s, celsius, PHTotal(math.Inf(-1))))
	assert.True(t, math.IsNaN(FreeAmmonia(s, celsius, PHTotal(math.NaN())).Value()))
	last := units.Share(0)
	for ph := 5.; ph < 12; ph += 0.1 {
		share := FreeAmmonia(s, celsius, PHTotal(ph))
		assert.True(t, share.Value() > last.Value() && share.Value() < 1)
		last = share
	}
}

// [W74], [WP]: what the air shares with the water.
func TestGas(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	checks.Printed(t, "fCO2/pCO2 at 25 °C", float64(c.FugacityRatio), "0.9968")
	p := PCO2(400)
	assert.InDelta(t, 400, float64(p.FCO2(&c).PCO2(&c)), 1e-12)
	x := XCO2(420)
	assert.InDelta(t, float64(420*(1-c.VapourPressure)), float64(x.PCO2(&c, units.Atmosphere)), 1e-12)
	assert.InDelta(t, 420, float64(x.PCO2(&c, 950).XCO2(&c, 950)), 1e-12)
	// A barometer at half an atmosphere.
	assert.InDelta(t, float64(420*(0.5-c.VapourPressure)), float64(x.PCO2(&c, units.Atmosphere/2)), 1e-12)
	assert.Equal(t, 400., PCO2(400).Microatmospheres())
	assert.Equal(t, 400., FCO2(400).Microatmospheres())
	assert.Equal(t, 400., XCO2(400).PPM())
}
