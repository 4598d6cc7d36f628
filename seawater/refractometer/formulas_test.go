package refractometer

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

func TestIAPWS(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/iapws97.csv") {
		got := Water(units.Celsius(row.Float(t, "t_C")), units.Density(row.Float(t, "rho")), Wavelength(row.Float(t, "wavelength_nm")))
		checks.Printed(t, "water, "+row["wavelength_nm"]+" nm, "+row["t_C"]+" °C, "+row["p_MPa"]+" MPa", got.Value(), row["n"])
	}
}

func TestComputed(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/computed.csv") {
		s, celsius, want := units.Practical(row.Float(t, "S")), row.Float(t, "T"), row.Float(t, "n")
		var got float64
		switch row["formula"] {
		case "ms90":
			got = Seawater(s, units.Celsius(celsius/t68PerT90)).Value()
		case "qf95":
			got = QuanFry(s, units.Celsius(celsius/t68PerT90), SodiumD).Value()
		case "r9 vacuum":
			got = Water(units.Celsius(celsius), units.Density(row.Float(t, "rho")), SodiumD).Value()
		case "r9 air":
			got = Water(units.Celsius(celsius), units.Density(row.Float(t, "rho")), SodiumD).Air(SodiumD).Value()
		default:
			t.Fatalf("unknown formula %q", row["formula"])
		}
		checks.Absolute(t, row["formula"]+" S="+row["S"]+" T="+row["T"], got, want, 1e-14)
	}
}

func TestComputedPressure(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/computed_pressure.csv") {
		s, temperature := units.Practical(row.Float(t, "S")), units.Celsius(row.Float(t, "T68")/t68PerT90)
		p, w := units.SeaPressure(row.Float(t, "p")), Wavelength(row.Float(t, "wavelength_nm"))
		checks.Absolute(t, "S="+row["S"]+" T="+row["T68"]+" p="+row["p"]+" λ="+row["wavelength_nm"],
			MillardSeaver(s, temperature, p, w).Value(), row.Float(t, "n"), 1e-14)
	}
}

// The most by which the formulas miss the table of Austin and Halikas: a property of the
// formulas, which these numbers pin and do not check.
const (
	austinHalikasMS90 = 1.7e-5
	austinHalikasQF95 = 5.8e-5
)

// The table has five decimals; [MS90] misses it by up to 1.7e-5 and [QF95],
// though fitted to it, by up to 5.8e-5. Relative to vacuum either would miss it
// by 4e-4.
func TestAustinHalikas(t *testing.T) {
	worst := map[string]float64{}
	for _, row := range checks.Table(t, "testdata/austin_halikas1976.csv") {
		s, temperature := units.Practical(row.Float(t, "S")), units.Celsius(row.Float(t, "T68")/t68PerT90)
		w, want := Wavelength(row.Float(t, "wavelength_nm")), row.Float(t, "n")
		worst["QF95"] = math.Max(worst["QF95"], math.Abs(QuanFry(s, temperature, w).Value()-want))
		if CheckRangeMillardSeaver(s, temperature, 0, w) == nil {
			worst["MS90"] = math.Max(worst["MS90"], math.Abs(MillardSeaver(s, temperature, 0, w).Value()-want))
		}
	}
	assert.InDelta(t, austinHalikasQF95, worst["QF95"], 0.05e-5)
	assert.InDelta(t, austinHalikasMS90, worst["MS90"], 0.1e-5)
	assert.LessOrEqual(t, worst["MS90"], austinHalikasMS90)
}

// What the documentation says of how far the formulas are apart.
func TestFormulasAgree(t *testing.T) {
	var fits, warm, water float64
	for celsius := 0.0; celsius <= 30; celsius += 0.5 {
		temperature := units.Celsius(celsius)
		fresh := Water(temperature, teos10.DensityExact(units.Absolute(0), temperature, 0), SodiumD).Air(SodiumD)
		if celsius >= 15 {
			water = math.Max(water, math.Abs(fresh.Value()-Seawater(units.Practical(0), temperature).Value()))
		}
		for s := 0.0; s <= 40; s += 5 {
			for w := Wavelength(500); w <= 700; w += 10 {
				d := math.Abs(QuanFry(units.Practical(s), temperature, w).Value() - MillardSeaver(units.Practical(s), temperature, 0, w).Value())
				if s <= 35 {
					fits = math.Max(fits, d)
				} else {
					warm = math.Max(warm, d)
				}
			}
		}
	}
	assert.InDelta(t, 4.2e-5, fits, 0.05e-5)
	assert.Less(t, warm, 5e-5)
	assert.InDelta(t, 1.73e-5, water, 0.005e-5)
}

func TestAir(t *testing.T) {
	checks.Absolute(t, "standard air, an independent evaluation of [C96]", StandardAir(SodiumD).Value()-1, 2.771473159779436e-4, 1e-15)
	n := InAir(1.3394)
	assert.InDelta(t, n.Value(), n.Vacuum(SodiumD).Air(SodiumD).Value(), 1e-15)
	// Taking one index for the other costs 2 g/kg.
	s := SeawaterSalinity(InAir(n.Vacuum(SodiumD).Value()), units.Celsius(20)).Value() - SeawaterSalinity(n, units.Celsius(20)).Value()
	assert.InDelta(t, 2, s, 0.05)
	assert.InDelta(t, 0.5893, SodiumD.Micrometres(), 1e-15)
	assert.Equal(t, 589.3, (589.3 * Nanometre).Nanometres())
}

// "nD20" of water and of seawater, common practice and [CRC], [I74].
func TestNumbersOfTheTrade(t *testing.T) {
	t20 := units.Celsius(20)
	checks.Printed(t, "water [CRC]", Seawater(units.Practical(0), t20).Value(), "1.3330")
	checks.Printed(t, "water [I74]", Seawater(units.Practical(0), t20).Value(), "1.33299")
	checks.Printed(t, "seawater, common practice", Seawater(units.Practical(35), t20).Value(), "1.3394")
	checks.Printed(t, "percent of sodium chloride like seawater of 35, common practice",
		SodiumChlorideStrength(Seawater(units.Practical(35), t20), t20).Percent(), "3.65")
	checks.Printed(t, "seawater like sodium chloride of 35 g/kg",
		SeawaterSalinity(SodiumChloride(units.Share(0.035), t20), t20).Value(), "33.6")
}

func TestSodiumChloride(t *testing.T) {
	worst := 0.0
	for _, row := range checks.Table(t, "testdata/crc_sodium_chloride.csv") {
		w := units.Share(row.Float(t, "percent") / 100)
		got := SodiumChloride(w, units.Celsius(20)).Value()
		checks.Printed(t, "sodium chloride, "+row["percent"]+" %", got, row["n"])
		worst = math.Max(worst, math.Abs(got-row.Float(t, "n")))
		// [L09] against the same table: 0.19 kg/m³ to 5 %, 0.54 to 26 %.
		tol := 0.54
		if w.Value() <= 0.05 {
			tol = 0.19
		}
		checks.Absolute(t, "density, "+row["percent"]+" %", float64(saltDensity(w.Value(), units.Celsius(20))), 1000*row.Float(t, "density"), tol)
	}
	assert.InDelta(t, 4.90e-5, worst, 0.005e-5)
}

// [L09] has the water of [K75] in it: with that, an independent program gives
// 1002.62501201, cut, not rounded.
func TestSolutionDensity(t *testing.T) {
	salt := solutionAt(units.Celsius(0), &saltDensityCoef)
	salt.water = 999.83952
	got := salt.of(0.0037838838)
	checks.Printed(t, "0.378 % at 0 °C", math.Floor(got*1e8)/1e8, "1002.62501201")
	worst := map[string]float64{}
	for _, row := range checks.Table(t, "testdata/rogers_pitzer1982.csv") {
		const molar = 0.05844
		salt := row.Float(t, "molality") * molar
		celsius := row.Float(t, "t_C")
		if celsius > 40 {
			continue // beyond the water of TEOS-10
		}
		d := float64(saltDensity(salt/(1+salt), units.Celsius(celsius))) - 1000/row.Float(t, "v")
		worst[row["t_C"]] = math.Max(worst[row["t_C"]], math.Abs(d))
	}
	for celsius, want := range map[string]float64{"0.0": 0.943, "10.0": 0.512, "20.0": 0.253, "25.0": 0.251, "30.0": 0.227} {
		assert.InDelta(t, want, worst[celsius], 0.001, celsius)
	}
}

// How far the drift of sodium chloride and of seawater would be from ours if
// the refraction per kilogram of salt were constant.
func TestDriftOfSalt(t *testing.T) {
	shift := func(n func(units.Temperature) float64, rho func(units.Temperature) units.Density, w float64, celsius float64) float64 {
		t0, warm := units.Celsius(20), units.Celsius(celsius)
		water := func(t units.Temperature) float64 {
			return refraction(Seawater(units.Practical(0), t), waterDensityAt(t))
		}
		salt := refraction(InAir(n(t0)), float64(rho(t0))) - (1-w)*water(t0)
		model := unrefract(float64(rho(warm)) * ((1-w)*water(warm) + salt)).Air(SodiumD).Value()
		return model - n(warm)
	}
	salt := func(celsius float64) float64 {
		return shift(func(t units.Temperature) float64 { return SodiumChloride(units.Share(0.035), t).Value() },
			func(t units.Temperature) units.Density { return saltDensity(0.035, t) }, 0.035, celsius)
	}
	sea := func(celsius float64) float64 {
		return shift(func(t units.Temperature) float64 { return Seawater(units.Practical(35), t).Value() },
			func(t units.Temperature) units.Density { return teos10.DensityExact(units.Absolute(35.16504), t, 0) }, 0.03516504, celsius)
	}
	assert.InDelta(t, -2.4e-5, salt(25), 0.1e-5)
	assert.InDelta(t, -6.9e-5, salt(30), 0.1e-5)
	assert.InDelta(t, -3.0e-5, sea(25), 0.1e-5)
	assert.InDelta(t, -7.6e-5, sea(30), 0.1e-5)
}

// The scale [I74] and the table [CRC], which has four decimals, differ by up to
// 6.4e-5 to 30 %; [L09] and the densities of [CRC] by 0.101 kg/m³.
func TestSucrose(t *testing.T) {
	t20 := units.Celsius(20)
	density := solutionAt(t20, &sugarDensityCoef)
	for _, row := range checks.Table(t, "testdata/crc_sucrose.csv") {
		w := units.Share(row.Float(t, "percent") / 100)
		checks.Absolute(t, "sucrose, "+row["percent"]+" %", Sucrose(w, t20).Value(), row.Float(t, "n"), 6.4e-5)
		checks.Absolute(t, "density, "+row["percent"]+" %", density.of(w.Value()), 1000*row.Float(t, "density"), 0.102)
	}
	checks.Printed(t, "10 % [I74]", Sucrose(units.Share(0.10), t20).Value(), "1.34782")
	// Common practice: a Brix scale shows 4.4 in seawater of 35.
	checks.Printed(t, "Brix of seawater", SucroseStrength(Seawater(units.Practical(35), t20), t20).Percent(), "4.4")
}

func TestInverses(t *testing.T) {
	for celsius := -2.0; celsius <= 40; celsius += checks.Step(1.5, 6) {
		temperature := units.Celsius(celsius)
		for x := 0.0; x <= 1; x += 0.02 {
			s, salt, sucrose := units.Practical(45*x), units.Share(0.3*x), units.Share(0.3*x)
			assert.InDelta(t, s.Value(), SeawaterSalinity(Seawater(s, temperature), temperature).Value(), 1e-10)
			assert.InDelta(t, s.Value(), MillardSeaverSalinity(MillardSeaver(s, temperature, 5000, 650), temperature, 5000, 650).Value(), 1e-10)
			assert.InDelta(t, s.Value(), QuanFrySalinity(QuanFry(s, temperature, 450), temperature, 450).Value(), 1e-10)
			assert.InDelta(t, salt.Value(), SodiumChlorideStrength(SodiumChloride(salt, temperature), temperature).Value(), 1e-14)
			assert.InDelta(t, sucrose.Value(), SucroseStrength(Sucrose(sucrose, temperature), temperature).Value(), 1e-12)
			w := salt.Value()
			assert.InDelta(t, w, saltFromDensity(saltDensity(w, temperature), temperature), 1e-12)
		}
	}
}

func TestRisingWithSaltFallingWithWarmth(t *testing.T) {
	for celsius := 1.0; celsius <= 30; celsius += checks.Step(1, 4) {
		last := [4]float64{}
		for x := 0.0; x <= 1; x += 0.01 {
			for k, f := range []func(units.Temperature) float64{
				func(t units.Temperature) float64 { return Seawater(units.Practical(40*x), t).Value() },
				func(t units.Temperature) float64 { return QuanFry(units.Practical(35*x), t, SodiumD).Value() },
				func(t units.Temperature) float64 { return SodiumChloride(units.Share(0.26*x), t).Value() },
				func(t units.Temperature) float64 { return Sucrose(units.Share(0.3*x), t).Value() },
			} {
				n := f(units.Celsius(celsius))
				assert.Greater(t, n, last[k])
				assert.Less(t, n, f(units.Celsius(celsius-1)))
				last[k] = n
			}
		}
	}
}

// Pressure only adds, and joins the surface without a step.
func TestPressure(t *testing.T) {
	s, t10 := units.Practical(35), units.Celsius(10)
	surface := MillardSeaver(s, t10, 0, SodiumD).Value()
	checks.Absolute(t, "near the surface", MillardSeaver(s, t10, 1e-6, SodiumD).Value(), surface, 1e-11)
	// Gladstone and Dale: (n - 1)/ρ changes little with pressure.
	for _, p := range []units.SeaPressure{100, 1000, 5000, 10000} {
		compressed := float64(teos10.DensityExact(units.Absolute(35.16504), t10, p) / teos10.DensityExact(units.Absolute(35.16504), t10, 0))
		n := MillardSeaver(s, t10, p, SodiumD).Value()
		checks.Relative(t, "Gladstone-Dale", n-surface, (surface-1)*(compressed-1), 0.1)
	}
}

func TestImpossibleInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	s, t25 := units.Practical(35), units.Celsius(25)
	for _, bad := range []float64{nan, inf, -inf, -1e-300, -1} {
		for name, got := range map[string]float64{
			"Seawater":               Seawater(units.Practical(bad), t25).Value(),
			"MillardSeaver light":    MillardSeaver(s, t25, 0, Wavelength(bad)).Value(),
			"QuanFry":                QuanFry(units.Practical(bad), t25, SodiumD).Value(),
			"QuanFry light":          QuanFry(s, t25, Wavelength(bad)).Value(),
			"Water":                  Water(t25, units.Density(bad), SodiumD).Value(),
			"Water light":            Water(t25, 997, Wavelength(bad)).Value(),
			"StandardAir":            StandardAir(Wavelength(bad)).Value(),
			"InAir":                  InAir(bad * 0).Vacuum(Wavelength(bad)).Value(),
			"InVacuum":               InVacuum(1.33).Air(Wavelength(bad)).Value(),
			"SodiumChloride":         SodiumChloride(units.Share(bad), t25).Value(),
			"Sucrose":                Sucrose(units.Share(bad), t25).Value(),
			"SeawaterSalinity":       SeawaterSalinity(InAir(bad), t25).Value(),
			"QuanFrySalinity":        QuanFrySalinity(InAir(bad), t25, SodiumD).Value(),
			"SodiumChlorideStrength": SodiumChlorideStrength(InAir(bad), t25).Value(),
			"SucroseStrength":        SucroseStrength(InAir(bad), t25).Value(),
		} {
			assert.True(t, math.IsNaN(got), "%s of %v: %v", name, bad, got)
		}
	}
	for _, bad := range []float64{nan, inf, -inf, -273.16} {
		temperature := units.Celsius(bad)
		for name, got := range map[string]float64{
			"Seawater":               Seawater(s, temperature).Value(),
			"QuanFry":                QuanFry(s, temperature, SodiumD).Value(),
			"Water":                  Water(temperature, 997, SodiumD).Value(),
			"SodiumChloride":         SodiumChloride(units.Share(0.035), temperature).Value(),
			"Sucrose":                Sucrose(units.Share(0.1), temperature).Value(),
			"SeawaterSalinity":       SeawaterSalinity(InAir(1.3394), temperature).Value(),
			"QuanFrySalinity":        QuanFrySalinity(InAir(1.3394), temperature, SodiumD).Value(),
			"SodiumChlorideStrength": SodiumChlorideStrength(InAir(1.3394), temperature).Value(),
			"SucroseStrength":        SucroseStrength(InAir(1.3394), temperature).Value(),
		} {
			assert.True(t, math.IsNaN(got), "%s at %v: %v", name, bad, got)
		}
	}
	for _, bad := range []float64{nan, inf, -inf, -10.14} {
		assert.True(t, math.IsNaN(MillardSeaver(s, t25, units.SeaPressure(bad), SodiumD).Value()))
	}
	assert.True(t, math.IsNaN(SodiumChlorideStrength(AirIndex{}, t25).Value()), "the index of nothing")
	assert.True(t, math.IsNaN(SeawaterSalinity(AirIndex{}, t25).Value()))
	assert.True(t, math.IsNaN(float64(SodiumChloride(units.Share(1.01), t25).Value())), "more salt than solution")
	assert.Equal(t, 1.0, Water(t25, 0, SodiumD).Value(), "no water at all")
	assert.True(t, math.IsNaN(Water(t25, 1e6, SodiumD).Value()), "no such index")
}

func TestBoundariesGiveNumbers(t *testing.T) {
	for _, celsius := range []float64{-2, -0.1, 0, 30, 30.1, 40} {
		for _, x := range []float64{0, 1, 1.01} {
			for name, got := range map[string]float64{
				"MillardSeaver":  MillardSeaver(units.Practical(40*x), units.Celsius(celsius), 11000, 700).Value(),
				"QuanFry":        QuanFry(units.Practical(40*x), units.Celsius(celsius), 400).Value(),
				"SodiumChloride": SodiumChloride(units.Share(0.26*x), units.Celsius(celsius)).Value(),
				"Sucrose":        Sucrose(units.Share(0.3*x), units.Celsius(celsius)).Value(),
			} {
				assert.True(t, got > 1.3 && got < 1.42, "%s at %v °C, %v: %v", name, celsius, x, got)
			}
		}
	}
}

func TestCheckRanges(t *testing.T) {
	c, sp := units.Celsius, units.Practical
	assert.NoError(t, CheckRange(sp(0), c(0)))
	assert.NoError(t, CheckRange(sp(40), c(30)))
	assert.NoError(t, CheckRangeMillardSeaver(sp(40), c(30), 11000, 700))
	assert.NoError(t, CheckRangeQuanFry(sp(35), c(30), 400))
	assert.NoError(t, CheckRangeWater(c(500), 1060, 1100))
	assert.NoError(t, CheckRangeStandardAir(300))
	assert.NoError(t, CheckRangeSodiumChloride(units.Share(0.26), c(30)))
	assert.NoError(t, CheckRangeSucrose(units.Share(0.30), c(15)))
	assert.EqualError(t, CheckRange(sp(35), c(31)), "temperature: 31 °C is outside 0 to 30 °C (Millard and Seaver 1990)")
	for quantity, errs := range map[string][]error{
		salinityName: {CheckRange(sp(40.01), c(25)), CheckRange(sp(-0.01), c(25)), CheckRange(sp(math.NaN()), c(25)),
			CheckRangeQuanFry(sp(35.01), c(25), SodiumD)},
		temperatureName: {CheckRange(sp(35), c(30.01)), CheckRange(sp(35), c(-0.01)), CheckRange(sp(35), c(math.Inf(1))),
			CheckRangeQuanFry(sp(35), c(30.01), SodiumD), CheckRangeWater(c(-12.1), 997, SodiumD),
			CheckRangeSodiumChloride(units.Share(0.1), c(30.1)), CheckRangeSucrose(units.Share(0.1), c(14.9))},
		pressureName: {CheckRangeMillardSeaver(sp(35), c(25), -1, SodiumD), CheckRangeMillardSeaver(sp(35), c(25), 11001, SodiumD)},
		lightName: {CheckRangeMillardSeaver(sp(35), c(25), 0, 499), CheckRangeQuanFry(sp(35), c(25), 701),
			CheckRangeWater(c(25), 997, 199), CheckRangeStandardAir(1691)},
		"density":         {CheckRangeWater(c(25), 1061, SodiumD)},
		"sodium chloride": {CheckRangeSodiumChloride(units.Share(0.261), c(25)), CheckRangeSodiumChloride(units.Share(-0.001), c(25))},
		"sucrose":         {CheckRangeSucrose(units.Share(0.301), c(25))},
	} {
		for _, err := range errs {
			var wrong *units.RangeError
			if assert.ErrorAs(t, err, &wrong) {
				assert.Equal(t, quantity, wrong.Quantity)
			}
		}
	}
}

// FuzzFormulas: whatever comes in, a number comes out; inside the ranges it is
// an index that the liquid could have, and its inverse leads back.
func FuzzFormulas(f *testing.F) {
	f.Add(35.0, 25.0, 0.0, 589.3)
	f.Add(0.0, 0.0, 11000.0, 500.0)
	f.Add(1e300, -273.15, -10.0, 1e-300)
	f.Add(math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64)
	f.Fuzz(func(t *testing.T, amount, celsius, dbar, nanometres float64) {
		s, share := units.Practical(amount), units.Share(amount/100)
		temperature, p, w := units.Celsius(celsius), units.SeaPressure(dbar), Wavelength(nanometres)
		rho := units.Density(amount)
		inside := func(what string, n AirIndex, lo, hi float64) {
			if !(n.Value() > lo && n.Value() < hi) {
				t.Errorf("%s of %v at %v °C, %v dbar, %v nm: %v", what, amount, celsius, dbar, nanometres, n)
			}
		}
		back := func(what string, got, tol float64) {
			if !(math.Abs(got-amount) <= tol) {
				t.Errorf("%s of %v at %v °C leads back to %v", what, amount, celsius, got)
			}
		}
		sea, fry := MillardSeaver(s, temperature, p, w), QuanFry(s, temperature, w)
		salt, sucrose := SodiumChloride(share, temperature), Sucrose(share, temperature)
		water := Water(temperature, rho, w).Air(w)
		_, _ = SodiumChlorideStrength(InAir(amount), temperature), SucroseStrength(InAir(amount), temperature)
		if CheckRangeMillardSeaver(s, temperature, p, w) == nil {
			inside("seawater", sea, 1.32, 1.37)
			back("seawater", MillardSeaverSalinity(sea, temperature, p, w).Value(), 1e-10)
		}
		if CheckRangeQuanFry(s, temperature, w) == nil {
			inside("seawater [QF95]", fry, 1.32, 1.36)
			back("seawater [QF95]", QuanFrySalinity(fry, temperature, w).Value(), 1e-10)
		}
		if CheckRangeSodiumChloride(share, temperature) == nil {
			inside("sodium chloride", salt, 1.33, 1.39)
			back("sodium chloride", 100*SodiumChlorideStrength(salt, temperature).Value(), 1e-11)
		}
		if CheckRangeSucrose(share, temperature) == nil {
			inside("sucrose", sucrose, 1.33, 1.39)
			back("sucrose", 100*SucroseStrength(sucrose, temperature).Value(), 1e-10)
		}
		if CheckRangeWater(temperature, rho, w) == nil {
			inside("water", water, 0.999, 1.5)
		}
	})
}
