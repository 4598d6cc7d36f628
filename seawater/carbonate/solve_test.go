package carbonate

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

func gridOptions(t *testing.T, row checks.Row) Options {
	set, ok := k1k2Names[row["k1k2_set"]]
	require.True(t, ok, row["k1k2_set"])
	o := Options{K1K2: set}
	switch row["total_boron_set"] {
	case "total_boron_uppstrom1974":
	case "total_boron_lee2010":
		o.BoronRatio = BoronLee2010
	default:
		t.Fatalf("boron %q", row["total_boron_set"])
	}
	switch row["kf_set"] {
	case "kf_dickson_riley1979":
	case "kf_perez_fraga1987":
		o.KF = KFPerezFraga1987
	default:
		t.Fatalf("KF %q", row["kf_set"])
	}
	return o
}

func gridPair(t *testing.T, row checks.Row) (a, b Known) {
	x, y := row.Float(t, "par1"), row.Float(t, "par2")
	u, v := units.AmountPerKilogram(x), units.AmountPerKilogram(y)
	switch row["pair"] {
	case "TA_DIC":
		return Alkalinity(u), DIC(v)
	case "TA_pH":
		return Alkalinity(u), PH(PHTotal(y))
	case "TA_pCO2":
		return Alkalinity(u), PartialPressure(PCO2(y))
	case "DIC_pH":
		return DIC(u), PH(PHTotal(y))
	case "DIC_pCO2":
		return DIC(u), PartialPressure(PCO2(y))
	case "pH_pCO2":
		return PH(PHTotal(x)), PartialPressure(PCO2(y))
	}
	t.Fatalf("pair %q", row["pair"])
	return a, b
}

func TestGrid(t *testing.T) {
	const ofPH, ofTheRest = 5e-14, 4e-13
	worst := map[string]float64{}
	for _, row := range checks.Table(t, "testdata/carbonate_grid.csv") {
		c := At(units.Practical(row.Float(t, "s")), units.Celsius(row.Float(t, "t_degc")), gridOptions(t, row))
		n := Nutrients{
			Phosphate: units.AmountPerKilogram(row.Float(t, "total_phosphate_umol_kg")),
			Silicate:  units.AmountPerKilogram(row.Float(t, "total_silicate_umol_kg")),
			Ammonia:   units.AmountPerKilogram(row.Float(t, "total_ammonia_umol_kg")),
			Sulfide:   units.AmountPerKilogram(row.Float(t, "total_sulfide_umol_kg")),
		}
		a, b := gridPair(t, row)
		s, err := c.Solve(a, b, n)
		require.NoError(t, err)
		ph := s.PH()
		sp := s.Species()
		for column, got := range map[string]float64{
			"pH_total": ph.Value(), "pH_free": ph.Free(&c).Value(), "pH_sws": ph.Seawater(&c).Value(), "pH_nbs": ph.NBS(&c).Value(),
		} {
			want := row.Float(t, column)
			checks.Absolute(t, row["id"]+" "+column, got, want, ofPH)
			worst[column] = math.Max(worst[column], math.Abs(got-want))
		}
		for column, got := range map[string]float64{
			"pco2_uatm": float64(s.PCO2()), "fco2_uatm": float64(s.FCO2()), "co2_umol_kg": float64(s.CO2()),
			"hco3_umol_kg": float64(s.Bicarbonate()), "co3_umol_kg": float64(s.Carbonate()),
			"dic_umol_kg": float64(s.DIC()), "ta_umol_kg": float64(s.Alkalinity()),
			"omega_calcite": s.Calcite(), "omega_aragonite": s.Aragonite(),
			"boh4_umol_kg": float64(sp.BOH4), "oh_umol_kg": float64(sp.OH),
			"revelle_factor": float64(s.Buffers().Revelle),
		} {
			want := row.Float(t, column)
			checks.Relative(t, row["id"]+" "+column, got, want, ofTheRest)
			if want != 0 {
				worst[column] = math.Max(worst[column], math.Abs(got/want-1))
			}
		}
	}
	for column, x := range worst {
		t.Logf("%-16s %.2g", column, x)
	}
}

// A run of PyCO2SYS 1.8.3 with Lueker 2000, Dickson 1990, Uppström 1974 and
// Dickson and Riley 1979.
func TestOneWater(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	s, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	require.NoError(t, err)
	checks.Absolute(t, "pH", s.PH().Value(), 8.045886180900592, 1e-13)
	checks.Relative(t, "pCO2", float64(s.PCO2()), 396.9581630249643, 2e-13)
	checks.Relative(t, "aragonite", s.Aragonite(), 3.3862008130878753, 2e-13)
}

// Update is FromAlkalinityDIC in place, errors and NaN included.
func TestUpdate(t *testing.T) {
	c := At(units.Practical(33), units.Celsius(22), Options{})
	n := Nutrients{Phosphate: 2, Silicate: 20}
	s, err := c.FromAlkalinityDIC(2300, 2000, n)
	require.NoError(t, err)
	for _, r := range []struct{ ta, dic units.AmountPerKilogram }{{2500, 2100}, {0, 0}, {-500, 2000}, {1e6, 1}} {
		want, err := c.FromAlkalinityDIC(r.ta, r.dic, n)
		require.NoError(t, err)
		require.NoError(t, s.Update(r.ta, r.dic))
		assert.Equal(t, want, s)
	}
	for _, r := range []struct{ ta, dic units.AmountPerKilogram }{{2300, -1}, {units.AmountPerKilogram(math.NaN()), 2000}, {1e12, 2000}} {
		assert.ErrorIs(t, s.Update(r.ta, r.dic), units.ErrInput)
		assert.True(t, math.IsNaN(s.PH().Value()) && math.IsNaN(float64(s.DIC())) && math.IsNaN(float64(s.Alkalinity())))
	}
	checks.NoAllocations(t, "Update", func() { _ = s.Update(2300, 2000) })
}

// known returns everything that a system tells, to solve with again.
func known(s *System) []Known {
	return []Known{
		Alkalinity(s.Alkalinity()), DIC(s.DIC()), PH(s.PH()), DissolvedCO2(s.CO2()),
		Bicarbonate(s.Bicarbonate()), Carbonate(s.Carbonate()), PartialPressure(s.PCO2()), Fugacity(s.FCO2()),
	}
}

// waters covers fresh, brackish and salt water, acid to caustic, with and
// without nutrients.
func waters(visit func(c *Constants, s *System)) {
	for _, in := range [][2]float64{{0, 20}, {5, 5}, {20, 35}, {35, 25}, {42, 30}}[checks.Runs(0, 2):] {
		c := At(units.Practical(in[0]), units.Celsius(in[1]), Options{K1K2: Waters2014})
		for _, n := range []Nutrients{{}, {Phosphate: 15, Silicate: 180, Ammonia: 45, Sulfide: 4}} {
			for ph := 3.; ph <= 11; ph += checks.Step(0.5, 1.5) {
				for _, carbon := range []units.AmountPerKilogram{1, 500, 2000, 10000} {
					s, err := c.Solve(DIC(carbon), PH(PHTotal(ph)), n)
					if err == nil {
						visit(&c, &s)
					}
				}
			}
		}
	}
}

func TestEveryPair(t *testing.T) {
	count, worst := 0, 0.0
	waters(func(c *Constants, s *System) {
		all := known(s)
		for i, a := range all {
			for j, b := range all {
				if i == j || i >= 6 && j >= 6 || (i == 3 && j >= 6) || (i >= 6 && j == 3) {
					_, err := c.Solve(a, b, s.Nutrients)
					assert.ErrorIs(t, err, units.ErrInput, "%v, %v", a, b)
					continue
				}
				acid, basic, err := c.SolveBoth(a, b, s.Nutrients)
				if errors.Is(err, ErrNoSolution) && nearTop(c, s) {
					continue // rounded to the other side of the highest share
				}
				require.NoError(t, err, "%v, %v: %v", a, b, s.PH())
				off := math.Min(math.Abs(acid.h/s.h-1), math.Abs(basic.h/s.h-1)) / sensitivity(c, s, i, j)
				worst = math.Max(worst, off)
				if !(off < 1e-13) {
					t.Fatalf("%v, %v: pH %v, want %v (off %v)", a, b, acid.PH(), s.PH(), off)
				}
				one, err := c.Solve(a, b, s.Nutrients)
				if acid.h == basic.h {
					require.NoError(t, err)
					assert.Equal(t, acid.h, one.h)
				} else {
					assert.ErrorIs(t, err, ErrTwoSolutions)
					assert.True(t, math.IsNaN(one.PH().Value()))
					assert.Less(t, acid.PH().Value(), basic.PH().Value())
				}
				count++
			}
		}
	})
	t.Logf("%d pairs, largest error of ln [H] %.2g in units of what rounding of the pair explains", count, worst)
}

// nearTop: bicarbonate is so near its highest share that rounding decides.
func nearTop(c *Constants, s *System) bool {
	return math.Abs(float64(s.Bicarbonate()/s.DIC())*(1+2*math.Sqrt(float64(c.K2/c.K1)))-1) < 1e-12
}

// sensitivity returns by how much ln [H] changes when the two that are known
// change by their rounding, in units of that rounding.
func sensitivity(c *Constants, s *System, i, j int) float64 {
	b := s.balance()
	rate := func(i int) (byH, byDIC float64) { // of ln known, by ln h and by ln DIC
		mean, _, _ := b.charge(s.h)
		two, zero := float64(s.Carbonate())/s.dic, float64(s.CO2())/s.dic
		switch i {
		case 0:
			scale := math.Abs(s.alkalinity)
			for _, x := range []float64{float64(c.Totals.Sulfate), float64(c.Totals.Boron), s.h * 1e6, float64(1e6*c.KW) / s.h, s.dic} {
				scale = math.Max(scale, math.Min(x, 1e5))
			}
			return b.residual(s.h).r1 / scale, s.dic * mean / scale
		case 1:
			return 0, 1
		case 2:
			return -1, 0
		case 4:
			return two - zero, 1
		case 5:
			return mean - 2, 1
		}
		return mean, 1
	}
	ah, ad := rate(i)
	bh, bd := rate(j)
	det := math.Abs(ah*bd - bh*ad)
	return 1 + (math.Abs(ad)+math.Abs(bd))/det
}

// The parts add up to the wholes.
func TestSpeciesAddUp(t *testing.T) {
	waters(func(c *Constants, s *System) {
		sp := s.Species()
		sum := sp.HCO3 + 2*sp.CO3 + sp.BOH4 + sp.OH + sp.HPO4 + 2*sp.PO4 - sp.H3PO4 + sp.SiOOH3 + sp.NH3 + sp.HS - sp.H - sp.HSO4 - sp.HF
		largest := math.Max(math.Abs(s.alkalinity), 1e-3*float64(sp.HSO4+sp.H))
		checks.Absolute(t, "alkalinity", float64(sum), s.alkalinity, 1e-10*largest)
		checks.Relative(t, "DIC", float64(sp.CO2+sp.HCO3+sp.CO3), s.dic, 1e-15*4)
		checks.Relative(t, "boron", float64(sp.BOH3+sp.BOH4), float64(c.Totals.Boron), 4e-15)
		checks.Relative(t, "sulfate", float64(sp.HSO4+sp.SO4), float64(c.Totals.Sulfate), 4e-15)
		checks.Relative(t, "fluoride", float64(sp.HF+sp.F), float64(c.Totals.Fluoride), 4e-15)
		checks.Relative(t, "phosphate", float64(sp.H3PO4+sp.H2PO4+sp.HPO4+sp.PO4), float64(s.Nutrients.Phosphate), 4e-15)
		checks.Relative(t, "silicate", float64(sp.SiOH4+sp.SiOOH3), float64(s.Nutrients.Silicate), 4e-15)
		checks.Relative(t, "ammonia", float64(sp.NH3+sp.NH4), float64(s.Nutrients.Ammonia), 4e-15)
		checks.Relative(t, "sulfide", float64(sp.H2S+sp.HS), float64(s.Nutrients.Sulfide), 4e-15)
		if s.Nutrients.Ammonia > 0 {
			checks.Relative(t, "free ammonia", s.FreeAmmonia().Value(), float64(sp.NH3/s.Nutrients.Ammonia), 1e-14)
			checks.Relative(t, "free ammonia", c.FreeAmmonia(s.PH()).Value(), s.FreeAmmonia().Value(), 1e-12)
		}
		checks.Relative(t, "K1", float64(sp.HCO3/sp.CO2)*s.h, float64(c.K1), 1e-14)
		checks.Relative(t, "K2", float64(sp.CO3/sp.HCO3)*s.h, float64(c.K2), 1e-14)
		checks.Relative(t, "KP2", float64(sp.HPO4)*s.h, float64(c.KP2)*float64(sp.H2PO4), 1e-14)
	})
}

// After the solver the alkalinity is met to 1e-10 of itself, over a wide field.
func TestResidual(t *testing.T) {
	step := units.AmountPerKilogram(checks.Step(250, 1250))
	worst := 0.0
	for _, set := range []K1K2{Lueker2000, Waters2014, Roy1993} {
		for _, in := range [][2]float64{{5, 5}, {20, 15}, {35, 25}, {45, 35}} {
			c := At(units.Practical(in[0]), units.Celsius(in[1]), Options{K1K2: set})
			for ta := units.AmountPerKilogram(-5000); ta <= 20000; ta += step {
				for carbon := units.AmountPerKilogram(0); carbon <= 20000; carbon += step {
					s, err := c.FromAlkalinityDIC(ta, carbon, Nutrients{Phosphate: 2})
					require.NoError(t, err)
					b := s.balance()
					r := b.residual(s.h)
					scale := math.Max(math.Abs(s.alkalinity), s.dic)
					worst = math.Max(worst, math.Abs(r.r)/math.Max(scale, 100))
				}
			}
		}
	}
	assert.Less(t, worst, 1e-12)
	t.Logf("largest residual %.2g of alkalinity or DIC", worst)
}

// More alkalinity at the same DIC is a higher pH and less CO2; more DIC at the
// same alkalinity is a lower pH and more CO2.
func TestDirections(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	last := math.Inf(-1)
	for ta := units.AmountPerKilogram(-3000); ta < 8000; ta += 50 {
		s, err := c.FromAlkalinityDIC(ta, 2000, Nutrients{})
		require.NoError(t, err)
		assert.Greater(t, s.PH().Value(), last)
		last = s.PH().Value()
	}
	last = math.Inf(1)
	for carbon := units.AmountPerKilogram(0); carbon < 8000; carbon += 50 {
		s, err := c.FromAlkalinityDIC(2300, carbon, Nutrients{})
		require.NoError(t, err)
		assert.Less(t, s.PH().Value(), last)
		last = s.PH().Value()
	}
}

// The derivatives of the balance are its difference quotients.
func TestDerivatives(t *testing.T) {
	waters(func(c *Constants, s *System) {
		for _, kind := range []kind{dic, dissolved, bicarbonate, carbonate} {
			b := s.balance()
			b.carbonKind, b.carbon = kind, s.results()[kind]
			const e = 1e-4
			lo, mid, hi := b.residual(s.h*math.Exp(-e)), b.residual(s.h), b.residual(s.h*math.Exp(e))
			size := math.Abs(mid.r1) + s.dic + math.Abs(s.alkalinity) + 1e6*s.h + float64(1e6*c.KW)/s.h
			assert.InDelta(t, mid.r1, (hi.r-lo.r)/(2*e), 1e-7*size)
			assert.InDelta(t, mid.r2, (hi.r1-lo.r1)/(2*e), 1e-7*size)
		}
	})
}

// Alkalinity and carbonate: none, one and two solutions.
func TestCarbonateSolutions(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	acid, basic, err := c.SolveBoth(Alkalinity(2300), Carbonate(200), Nutrients{})
	require.NoError(t, err)
	for _, s := range []System{acid, basic} {
		checks.Relative(t, "alkalinity", float64(s.Alkalinity()), 2300, 1e-13)
		checks.Relative(t, "carbonate", float64(s.Carbonate()), 200, 1e-13)
		b := s.balance()
		assert.Less(t, math.Abs(b.residual(s.h).r), 1e-9)
	}
	_, err = c.Solve(Carbonate(200), Alkalinity(2300), Nutrients{})
	var two *TwoSolutionsError
	require.ErrorAs(t, err, &two)
	assert.Equal(t, acid.PH(), two.Acid)
	assert.Equal(t, basic.PH(), two.Basic)
	assert.ErrorContains(t, err, "two waters have this pair: one of pH ")

	_, err = c.Solve(Alkalinity(2300), Carbonate(1200), Nutrients{})
	assert.ErrorIs(t, err, ErrNoSolution, "1200 µmol/kg of carbonate alone have 2400 of alkalinity")
	_, err = c.Solve(Alkalinity(2300), Carbonate(1e-4), Nutrients{})
	assert.NoError(t, err, "less carbonate than K2: one solution")

	// At the limit the two become one.
	lo, hi := 200., 1200.
	for range 100 {
		m := (lo + hi) / 2
		if _, _, err := c.SolveBoth(Alkalinity(2300), Carbonate(units.AmountPerKilogram(m)), Nutrients{}); err == nil {
			lo = m
		} else {
			hi = m
		}
	}
	acid, basic, err = c.SolveBoth(Alkalinity(2300), Carbonate(units.AmountPerKilogram(lo)), Nutrients{})
	require.NoError(t, err)
	assert.InDelta(t, acid.PH().Value(), basic.PH().Value(), 1e-5)
}

// DIC and bicarbonate: the same.
func TestBicarbonateSolutions(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	acid, basic, err := c.SolveBoth(DIC(2000), Bicarbonate(1800), Nutrients{})
	require.NoError(t, err)
	checks.Relative(t, "bicarbonate", float64(acid.Bicarbonate()), 1800, 1e-13)
	checks.Relative(t, "bicarbonate", float64(basic.Bicarbonate()), 1800, 1e-13)
	assert.Less(t, acid.PH().Value(), basic.PH().Value())
	_, err = c.Solve(DIC(2000), Bicarbonate(1990), Nutrients{})
	assert.ErrorIs(t, err, ErrNoSolution)
	assert.EqualError(t, err, "DIC 2000 µmol/kg and bicarbonate 1990 µmol/kg: no water has this pair: so large a share of DIC cannot be bicarbonate")
}

func TestNoSolution(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	for _, pair := range [][2]Known{
		{DIC(10), DissolvedCO2(10)}, {DIC(10), DissolvedCO2(20)}, {DIC(10), Carbonate(10)}, {DIC(10), Carbonate(20)},
		{DIC(10), Bicarbonate(10)}, {DIC(10), Bicarbonate(20)}, {DIC(0), DissolvedCO2(1)},
		{Alkalinity(10), PH(PHTotal(9))}, {Alkalinity(-1000), PH(PHTotal(7))}, {Alkalinity(100), Carbonate(1000)},
	} {
		s, err := c.Solve(pair[0], pair[1], Nutrients{})
		var none *NoSolutionError
		require.ErrorAs(t, err, &none, "%v, %v", pair[0], pair[1])
		assert.ErrorIs(t, err, ErrNoSolution)
		assert.NotEmpty(t, none.Reason)
		assert.Equal(t, pair[0], none.First)
		for _, k := range known(&s) {
			assert.True(t, math.IsNaN(k.Value()), "%v", k)
		}
	}
}

func TestUnusableInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := At(units.Practical(35), units.Celsius(25), Options{})
	for _, x := range []float64{nan, inf, -inf, 2e9} {
		u := units.AmountPerKilogram(x)
		for _, k := range []Known{Alkalinity(u), DIC(u), PH(PHTotal(x)), DissolvedCO2(u), Bicarbonate(u), Carbonate(u),
			PartialPressure(PCO2(x * 1e4)), Fugacity(FCO2(x * 1e4))} {
			other := PH(PHTotal(8))
			if k.kind == acidity {
				other = DIC(2000)
			}
			_, err := good.Solve(k, other, Nutrients{})
			assert.ErrorIs(t, err, units.ErrInput, "%v", k)
			_, err = good.Solve(other, k, Nutrients{})
			assert.ErrorIs(t, err, units.ErrInput, "%v", k)
		}
		_, err := good.FromAlkalinityDIC(u, 2000, Nutrients{})
		assert.ErrorIs(t, err, units.ErrInput)
		_, err = good.FromAlkalinityDIC(2300, u, Nutrients{})
		assert.ErrorIs(t, err, units.ErrInput)
		for _, n := range []Nutrients{{Phosphate: u}, {Silicate: u}, {Ammonia: u}, {Sulfide: u}} {
			s, err := good.FromAlkalinityDIC(2300, 2000, n)
			assert.ErrorIs(t, err, units.ErrInput)
			assert.True(t, math.IsNaN(s.PH().Value()))
		}
	}
	for _, k := range []Known{DIC(-1), DissolvedCO2(0), Bicarbonate(-1), Carbonate(0), PartialPressure(0), Fugacity(-1), PH(PHTotal(21)), {}} {
		_, err := good.Solve(Alkalinity(2300), k, Nutrients{})
		assert.ErrorIs(t, err, units.ErrInput, "%v", k)
	}
	_, err := good.Solve(PartialPressure(-5), Alkalinity(2300), Nutrients{})
	assert.EqualError(t, err, "pCO2: got -5 µatm, want above 0 and up to 1e12 µatm")
	_, err = good.Solve(DIC(1), DIC(2), Nutrients{})
	assert.EqualError(t, err, "pair: got DIC 1 µmol/kg and DIC 2 µmol/kg, want two different quantities")

	for _, bad := range []Constants{
		At(units.Practical(-1), units.Celsius(25), Options{}),
		At(units.Practical(35), units.Celsius(nan), Options{}),
		At(units.Practical(35), units.Celsius(25), Options{Boron: Measured(-1)}),
		At(units.Practical(35), units.Celsius(25), Options{Calcium: Measured(units.AmountPerKilogram(nan))}),
	} {
		_, err := bad.FromAlkalinityDIC(2300, 2000, Nutrients{})
		assert.ErrorIs(t, err, units.ErrInput)
	}
	spoilt := good
	spoilt.K1 = 0
	_, err = spoilt.FromAlkalinityDIC(2300, 2000, Nutrients{})
	assert.ErrorIs(t, err, units.ErrInput)
	spoilt = good
	spoilt.KP2 = units.Scalar(nan)
	_, err = spoilt.FromAlkalinityDIC(2300, 2000, Nutrients{})
	assert.NoError(t, err, "no phosphate")
	_, err = spoilt.FromAlkalinityDIC(2300, 2000, Nutrients{Phosphate: 1})
	assert.ErrorIs(t, err, units.ErrInput)
	spoilt = good
	spoilt.K0 = 0
	_, err = spoilt.Solve(Alkalinity(2300), PartialPressure(400), Nutrients{})
	assert.ErrorIs(t, err, units.ErrInput)
}

// The ends of what a water can be.
func TestBoundaries(t *testing.T) {
	for _, s := range []float64{0, 35} {
		c := At(units.Practical(s), units.Celsius(25), Options{K1K2: Waters2014})
		neutral, err := c.FromAlkalinityDIC(0, 0, Nutrients{})
		require.NoError(t, err)
		if s == 0 {
			checks.Absolute(t, "pure water", neutral.PH().Value(), -math.Log10(float64(c.KW))/2, 1e-13)
		}
		assert.Zero(t, neutral.Carbonate())
		assert.Equal(t, 1., float64(neutral.Buffers().Revelle))
		for _, ta := range []units.AmountPerKilogram{-1e9, -1e6, -1, 1e-12, 1e6, 1e9} {
			for _, carbon := range []units.AmountPerKilogram{0, 1e-12, 1, 1e6, 1e9} {
				water, err := c.FromAlkalinityDIC(ta, carbon, Nutrients{})
				require.NoError(t, err)
				b := water.balance()
				assert.InDelta(t, 0, b.residual(water.h).r/(1+math.Abs(float64(ta))+float64(carbon)), 1e-9, "%v %v", ta, carbon)
			}
		}
	}
}

func TestKnown(t *testing.T) {
	k := PartialPressure(420).PlusMinus(5)
	assert.Equal(t, "pCO2 420 µatm", k.String())
	assert.Equal(t, 420., k.Value())
	assert.Equal(t, 5., k.Uncertainty())
	assert.Equal(t, "pH 8.1", PH(PHTotal(8.1)).String())
	assert.Equal(t, "nothing", Known{}.String())
}

func TestNoAllocations(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	n := Nutrients{Phosphate: 1, Ammonia: 1}
	checks.NoAllocations(t, "At", func() { sinkC = At(units.Practical(35), units.Celsius(25), Options{KF: KFPerezFraga1987}) })
	checks.NoAllocations(t, "FromAlkalinityDIC", func() { sinkS, sinkE = c.FromAlkalinityDIC(2300, 2000, n) })
	for _, pair := range [][2]Known{
		{Alkalinity(2300), DIC(2000)}, {Alkalinity(2300), PH(PHTotal(8))}, {Alkalinity(2300), PartialPressure(400)},
		{Alkalinity(2300), Bicarbonate(1800)}, {DIC(2000), DissolvedCO2(10)}, {DIC(2000), Carbonate(200)},
		{PH(PHTotal(8)), Fugacity(400)}, {Bicarbonate(1800), Carbonate(200)},
	} {
		checks.NoAllocations(t, "Solve", func() { sinkS, sinkE = c.Solve(pair[0], pair[1], n) })
		require.NoError(t, sinkE)
	}
	checks.NoAllocations(t, "SolveBoth", func() { sinkS, _, sinkE = c.SolveBoth(Alkalinity(2300), Carbonate(200), n) })
	s, err := c.FromAlkalinityDIC(2300, 2000, n)
	require.NoError(t, err)
	checks.NoAllocations(t, "results", func() {
		sp, brucite := s.Species(), s.Brucite()
		sinkF = float64(sp.NH3) + float64(s.Buffers().Revelle) + s.PH().NBS(&c).Value() + s.Calcite() + float64(brucite.Omega) + float64(s.Gypsum().Omega)
	})
	a, b := Alkalinity(2300).PlusMinus(5), DIC(2000).PlusMinus(5)
	checks.NoAllocations(t, "Uncertainty", func() {
		u, err := c.Uncertainty(a, b, n, LuekerScatter())
		sinkF, sinkE = float64(u.PH), err
	})
	w := s.Water()
	checks.NoAllocations(t, "Water", func() {
		w2, err := w.AddHydroxide(100).Precipitate(50).Equilibrate(420, units.Atmosphere)
		w3, err2 := w2.Blend(1000, w, 500, units.Celsius(20))
		sinkF, sinkE = float64(w3.DIC), errors.Join(err, err2)
	})
}

// FuzzSolve: whatever comes in, it ends, and either there is an error or every
// number is one.
func FuzzSolve(f *testing.F) {
	f.Add(uint8(0), uint8(1), 2300., 2000., 35., 25., uint8(0), 1.)
	f.Add(uint8(0), uint8(5), 2300., 200., 35., 25., uint8(9), 0.)
	f.Add(uint8(1), uint8(4), 2000., 1800., 0., 0., uint8(14), 0.)
	f.Add(uint8(0), uint8(6), -1e9, 1e12, 900., 1000., uint8(5), 1e9)
	f.Add(uint8(2), uint8(6), 20., 1e-300, 1e-300, -200., uint8(6), 0.)
	f.Add(uint8(0), uint8(5), 2345.6, 204.5, 36.7, 27.8, uint8(144), 7.)
	f.Add(uint8(0), uint8(3), 5e-324, 5e-324, 45., 45., uint8(16), 0.)
	f.Fuzz(func(t *testing.T, i, j uint8, x, y, s, celsius float64, set uint8, nutrient float64) {
		make := func(i uint8, x float64) Known {
			u := units.AmountPerKilogram(x)
			return [...]Known{Alkalinity(u), DIC(u), PH(PHTotal(x)), DissolvedCO2(u), Bicarbonate(u), Carbonate(u),
				PartialPressure(PCO2(x)), Fugacity(FCO2(x))}[i%8]
		}
		if set >= 128 { // half of the runs inside what a water can be
			x, y, s, celsius, nutrient = inside(x, 6000), inside(y, 3000), inside(s, 45), inside(celsius, 40), inside(nutrient, 100)
		}
		o := Options{K1K2: K1K2(set % 18), KF: KF(set % 2), KS: KS(set % 3), KNH4: KNH4(set % 4), BoronRatio: BoronRatio(set % 3)}
		c := At(units.Practical(s), units.Celsius(celsius), o)
		u := units.AmountPerKilogram(nutrient)
		n := Nutrients{Phosphate: u, Silicate: u, Ammonia: u, Sulfide: u}
		acid, basic, err := c.SolveBoth(make(i, x), make(j, y), n)
		for _, got := range []System{acid, basic} {
			for _, k := range known(&got)[:3] {
				if err == nil && (math.IsNaN(k.Value()) || math.IsInf(k.Value(), 0)) {
					t.Errorf("%v at S=%v t=%v: no error and %v", [2]Known{make(i, x), make(j, y)}, s, celsius, k)
				}
				if err != nil && !math.IsNaN(k.Value()) {
					t.Errorf("%v and %v", err, k)
				}
			}
			if err == nil && CheckRange(units.Practical(s), units.Celsius(celsius), o) == nil && got.dic < 1e6 && math.Abs(got.alkalinity) < 1e6 && nutrient < 1e6 {
				b := got.balance()
				r := b.residual(got.h)
				scale := math.Max(math.Abs(r.r1), math.Abs(got.alkalinity)+got.dic) + 1e6*got.h + 4*nutrient + 1e5
				if !(math.Abs(r.r) <= 1e-10*scale) {
					t.Errorf("%v at S=%v t=%v: residual %v", [2]Known{make(i, x), make(j, y)}, s, celsius, r.r)
				}
			}
		}
		if errors.Is(err, units.ErrNoConvergence) && CheckRange(units.Practical(s), units.Celsius(celsius), o) == nil && x > 1e-9 && y > 1e-9 {
			t.Errorf("%v at S=%v t=%v: %v", [2]Known{make(i, x), make(j, y)}, s, celsius, err)
		}
	})
}

// inside folds any number into 0 to hi, so that no run is wasted.
func inside(x, hi float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return hi / 2
	}
	return math.Abs(math.Mod(x, hi))
}
