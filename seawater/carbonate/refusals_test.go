package carbonate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// A pH that nobody set is none, on whatever scale it was forgotten; one of 0 is
// one.
func TestForgottenPH(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	for _, ph := range []TotalPH{{}, FreePH{}.Total(&c), SeawaterPH{}.Total(&c), NBSPH{}.Total(&c), TotalPH{}.Free(&c).Total(&c), TotalPH{}.NBS(&c).Total(&c), TotalPH{}.Seawater(&c).Total(&c)} {
		for _, other := range []Known{Alkalinity(2300), DIC(2000), PartialPressure(400)} {
			s, err := c.Solve(other, PH(ph), Nutrients{})
			assert.EqualError(t, err, "pH: got nothing, want -5 to 20")
			assert.True(t, math.IsNaN(float64(s.DIC())))
		}
		assert.True(t, math.IsNaN(c.FreeAmmonia(ph).Value()))
		assert.True(t, math.IsNaN(FreeAmmonia(units.Practical(35), units.Celsius(25), ph).Value()))
	}
	for _, ph := range []TotalPH{PHTotal(0), PHFree(0).Total(&c), PHTotal(0).Free(&c).Total(&c)} {
		_, err := c.Solve(DIC(2000), PH(ph), Nutrients{})
		assert.NoError(t, err)
		assert.False(t, math.IsNaN(c.FreeAmmonia(ph).Value()))
	}
	assert.False(t, math.Signbit(PHTotal(0).Value()) || math.Signbit(PH(PHTotal(0)).Value()))
	assert.Equal(t, "0 (total scale)", PHTotal(0).String())
	assert.Equal(t, "pH 0", PH(PHTotal(0)).String())
	text, err := PHNBS(0).MarshalText()
	require.NoError(t, err)
	assert.Equal(t, "0 NBS", string(text))
	var read TotalPH
	require.NoError(t, read.UnmarshalText([]byte("0 total")))
	_, err = c.Solve(DIC(2000), PH(read), Nutrients{})
	assert.NoError(t, err)
}

// What Solve returns, Solve takes: no water of more than any input may have.
func TestSolvedWaterKeepsToTheLimits(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	for _, pair := range [][2]Known{
		{Alkalinity(2300), PH(PHTotal(0))}, {Alkalinity(2300), PH(PHTotal(-5))}, {DIC(2000), PH(PHTotal(20))},
		{PH(PHTotal(12)), PartialPressure(1e10)}, {DissolvedCO2(1e-300), Bicarbonate(1e9)}, {Bicarbonate(5e-324), DissolvedCO2(1e9)},
	} {
		s, err := c.Solve(pair[0], pair[1], Nutrients{})
		var none *NoSolutionError
		if assert.ErrorAs(t, err, &none, "%v", pair) {
			assert.Contains(t, none.Reason, "more than 1e9 µmol/kg")
		}
		for _, k := range known(&s) {
			assert.True(t, math.IsNaN(k.Value()), "%v: %v", pair, k)
		}
	}
	// Of two waters, one of which is beyond the limits, the other is the answer.
	c = At(units.Practical(42), units.Celsius(30), Options{K1K2: Waters2014})
	ta, co3 := Alkalinity(-7.571104323952689), Carbonate(0.0011764592954700366)
	acid, basic, err := c.SolveBoth(ta, co3, Nutrients{})
	require.NoError(t, err)
	assert.Equal(t, acid, basic)
	assert.Less(t, float64(acid.DIC()), 1e9)
	one, err := c.Solve(ta, co3, Nutrients{})
	require.NoError(t, err)
	assert.Equal(t, acid, one)
}

// Constants of ice water look like any others: none are made for a temperature
// that nobody set.
func TestConstantsOfAForgottenTemperature(t *testing.T) {
	var none units.Temperature
	c := At(units.Practical(35), none, Options{})
	for _, k := range everyConstant(&c) {
		assert.True(t, math.IsNaN(k))
	}
	const want = "constants.temperature: got nothing, want a temperature"
	_, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	assert.EqualError(t, err, want)
	_, err = c.Solve(Alkalinity(2300), PH(PHTotal(8.1)), Nutrients{})
	assert.EqualError(t, err, want)
	assert.True(t, math.IsNaN(float64(GasAt(units.Practical(35), none).VapourPressure)))
	assert.True(t, math.IsNaN(FreeAmmonia(units.Practical(35), none, PHTotal(8.1)).Value()))
	assert.True(t, math.IsNaN(c.FreeAmmonia(PHTotal(8.1)).Value()))
	ice := At(units.Practical(35), units.Celsius(0), Options{})
	_, err = ice.FromAlkalinityDIC(2300, 2000, Nutrients{})
	assert.NoError(t, err)

	bad := At(units.Practical(-1), units.Celsius(25), Options{})
	_, err = bad.FromAlkalinityDIC(2300, 2000, Nutrients{})
	assert.EqualError(t, err, "constants: got salinity -1 PSS-78 and 25 °C, want a salinity and a temperature that the fits can be asked for")
	bad = At(units.Practical(35), units.Celsius(25), Options{Fluoride: Measured(-3)})
	_, err = bad.FromAlkalinityDIC(2300, 2000, Nutrients{})
	assert.EqualError(t, err, "constants.fluoride: got -3 µmol/kg, want 0 to 1e9 µmol/kg")
}

func TestBlendLooksAtBothWaters(t *testing.T) {
	nan := units.AmountPerKilogram(math.NaN())
	good := tank()
	for name, spoil := range map[string]func(w *Water){
		"temperature": func(w *Water) { w.Temperature = units.Temperature{} },
		"salinity":    func(w *Water) { w.Salinity = units.Practical(-1) },
		"alkalinity":  func(w *Water) { w.Alkalinity = nan },
		"endless":     func(w *Water) { w.Alkalinity = units.AmountPerKilogram(math.Inf(1)) },
		"DIC":         func(w *Water) { w.DIC = -1 },
		"no DIC":      func(w *Water) { w.DIC = nan },
		"nutrients":   func(w *Water) { w.Nutrients.Silicate = nan },
	} {
		bad := good
		spoil(&bad)
		for _, pair := range [][2]Water{{good, bad}, {bad, good}} {
			m, err := pair[0].Blend(1, pair[1], 1, units.Celsius(24))
			assert.ErrorIs(t, err, units.ErrInput, name)
			assert.True(t, math.IsNaN(float64(m.DIC)) && math.IsNaN(m.Salinity.Value()), name)
		}
	}
	_, err := good.Blend(1, good, 1, units.Temperature{})
	assert.EqualError(t, err, "temperature of the mixture: got nothing, want a temperature")
	_, err = good.Blend(1, good, 1, units.Celsius(0))
	assert.NoError(t, err)
}

// Beside an error of Equilibrate is no water, and the error says that it is the
// air.
func TestEquilibrateWithNoAir(t *testing.T) {
	w, err := tank().Equilibrate(-1, units.Atmosphere)
	assert.ErrorContains(t, err, "air.pCO2: got ")
	assert.True(t, math.IsNaN(float64(w.Alkalinity)) && math.IsNaN(w.Salinity.Value()))
	bad := tank()
	bad.Nutrients.Phosphate = -1
	w, err = bad.Equilibrate(420, units.Atmosphere)
	assert.ErrorContains(t, err, "nutrients: got ")
	assert.True(t, math.IsNaN(float64(w.Alkalinity)))
}

func TestNoAir(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	for _, barometer := range []units.AirPressure{0, -5, 30, units.AirPressure(math.NaN()), units.AirPressure(math.Inf(1))} { // 31 hPa is the vapour
		assert.True(t, math.IsNaN(float64(XCO2(420).PCO2(&c, barometer))), "%v", barometer)
		assert.True(t, math.IsNaN(float64(PCO2(420).XCO2(&c, barometer))), "%v", barometer)
	}
	for _, x := range []float64{-1, math.NaN(), math.Inf(1)} {
		assert.True(t, math.IsNaN(float64(XCO2(x).PCO2(&c, units.Atmosphere))))
		assert.True(t, math.IsNaN(float64(PCO2(x).XCO2(&c, units.Atmosphere))))
	}
	assert.Zero(t, XCO2(0).PCO2(&c, units.Atmosphere))
	checks.Relative(t, "back", float64(XCO2(420).PCO2(&c, 850).XCO2(&c, 850)), 420, 1e-15)
}

// A fit is asked if, and only if, there is something that it is about.
func TestCheckRangeAsksWhatCounts(t *testing.T) {
	fresh, at := units.Practical(0), units.Celsius(25)
	pure := Options{K1K2: Millero1979, KF: KFPerezFraga1987}
	assert.NoError(t, CheckRange(fresh, at, pure), "no fluoride, no KF")
	for want, o := range map[string]Options{
		"KB: Dickson 1990":            {K1K2: Millero1979, Boron: Measured(10)},
		"KS: Dickson 1990":            {K1K2: Millero1979, Sulfate: Measured(10)},
		"KF: Perez and Fraga 1987":    {K1K2: Millero1979, KF: KFPerezFraga1987, Fluoride: Measured(10)},
		"boron: Kuliński et al. 2018": {BoronRatio: BoronKulinski2018},
	} {
		s := fresh
		if o.K1K2 != Millero1979 {
			s = units.Practical(35)
		}
		assert.ErrorContains(t, CheckRange(s, at, o), want)
	}
	assert.NoError(t, CheckRange(units.Practical(4), at, Options{K1K2: Waters2014, Boron: Measured(0), Sulfate: Measured(0)}), "neither KB nor KS, which begin at 5")
	baltic := Options{K1K2: Waters2014, BoronRatio: BoronKulinski2018}
	assert.NoError(t, CheckRange(units.Practical(7), at, baltic))
	assert.Error(t, CheckRange(units.Practical(13.4), at, baltic))
	baltic.Boron = Measured(400)
	assert.NoError(t, CheckRange(units.Practical(35), at, baltic), "the ratio is not used")
	assert.InDelta(t, 0, (&Options{}).totals(kulinskiSalinity.Max).Boron.MicromolesPerKilogram()-
		(&Options{BoronRatio: BoronKulinski2018}).totals(kulinskiSalinity.Max).Boron.MicromolesPerKilogram(), 0.1, "where the lines meet")

	assert.NoError(t, CheckRangeVapour(units.Practical(40), units.Celsius(40)))
	for _, in := range [][2]float64{{40.1, 25}, {-0.1, 25}, {35, -0.1}, {35, 40.1}, {math.NaN(), 25}} {
		assert.ErrorIs(t, CheckRangeVapour(units.Practical(in[0]), units.Celsius(in[1])), units.ErrRange)
	}
}

func TestZeroSystemIsNoWater(t *testing.T) {
	var s System
	for _, k := range known(&s) {
		assert.True(t, math.IsNaN(k.Value()), "%v", k)
	}
	sp, b, g := s.Species(), s.Buffers(), s.Gypsum()
	for i, x := range []float64{float64(sp.H), float64(sp.OH), s.Calcite(), s.Aragonite(), s.FreeAmmonia().Value(), float64(s.Brucite().Omega),
		float64(g.Omega), float64(g.Uncertainty), float64(b.Revelle), float64(b.GammaDIC), float64(b.PHPerDIC), float64(s.Water().DIC)} {
		assert.True(t, math.IsNaN(x), "%d: %v", i, x)
	}
}

func TestCalciumCarbonateInNoWater(t *testing.T) {
	for _, water := range []units.Mass{0, -1, units.Mass(math.NaN()), units.Mass(math.Inf(1))} {
		assert.True(t, math.IsNaN(float64(CalciumCarbonate(units.Gram, water))), "%v", water)
	}
}
