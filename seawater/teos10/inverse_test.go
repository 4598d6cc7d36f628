package teos10

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// The 400 points of gsw 3.6.16: enthalpy and entropy lead back to the temperature.
func TestTemperatureFromGrid(t *testing.T) {
	for _, r := range checks.Table(t, "testdata/gsw_grid.csv") {
		sa, p := units.Absolute(r.Float(t, "SR_g_kg")), units.SeaPressure(r.Float(t, "p_dbar"))
		want := r.Float(t, "t_C")
		what := "SA " + r["SR_g_kg"] + " t " + r["t_C"] + " p " + r["p_dbar"]
		checks.Absolute(t, what, TemperatureFromEnthalpyExact(sa, r.Float(t, "enthalpy_t_exact_J_kg"), p).Celsius(), want, 1e-11)
		checks.Absolute(t, what, TemperatureFromEntropyExact(sa, r.Float(t, "entropy_J_kgK"), p).Celsius(), want, 1e-11)
		checks.Absolute(t, what, FreezingSalinity(units.Celsius(r.Float(t, "t_freezing_airsat_C")), p, units.Share(1)).GramsPerKilogram(),
			sa.GramsPerKilogram(), 1e-9)
	}
}

func TestInversesUndo(t *testing.T) {
	eachWater(1000, 120, -12, 40, 9000, func(s, c, p float64) {
		sa, temp, pr := absolute(s), celsius(c), pressure(p)
		assert.InDelta(t, c, TemperatureFromEnthalpyExact(sa, EnthalpyExact(sa, temp, pr), pr).Celsius(), 1e-11)
		assert.InDelta(t, c, TemperatureFromEntropyExact(sa, EntropyExact(sa, temp, pr), pr).Celsius(), 1e-11)
		freezing := FreezingTemperature(sa, 0, units.Share(0.5))
		assert.InDelta(t, s, FreezingSalinity(freezing, 0, units.Share(0.5)).GramsPerKilogram(), 1e-9)
		assert.Equal(t, ConservativeFromInSitu(sa, freezing, 0), FreezingConservative(sa, 0, units.Share(0.5)))
	})
}

// Handbooks: water is heaviest at 3.98 °C, and seawater of some 24 g/kg at its freezing point (24.7 on the older scales,
// at -1.33 °C; Gill 1982, Atmosphere-Ocean Dynamics, from memory).
func TestMaximumDensity(t *testing.T) {
	checks.Printed(t, "pure water", MaximumDensityTemperatureExact(absolute(0), 0).Celsius(), "3.98")
	for s := 0.; s <= 40; s += 5 {
		sa := absolute(s)
		exact, fit := MaximumDensityTemperatureExact(sa, 0), MaximumDensityTemperature(sa, 0)
		checks.Absolute(t, "the two ways", ConservativeFromInSitu(sa, exact, 0).Celsius(), fit.Celsius(), 0.07)
		top := DensityExact(sa, exact, 0)
		assert.Greater(t, top, DensityExact(sa, celsius(exact.Celsius()+0.1), 0))
		assert.Greater(t, top, DensityExact(sa, celsius(exact.Celsius()-0.1), 0))
		assert.Greater(t, SurfaceDensity(sa, fit), SurfaceDensity(sa, Conservative(fit.Celsius()+0.1)))
	}
	above := func(s float64) bool {
		return MaximumDensityTemperatureExact(absolute(s), 0).Celsius() > FreezingTemperature(absolute(s), 0, units.Share(0)).Celsius()
	}
	assert.True(t, above(23))
	assert.False(t, above(25))
}

// Brine of sea ice by the usual fit to Assur 1958, from memory: 1000/(1 - 54.11 °C/t) ‰. A fit of one
// coefficient: at -2 °C it is 35.6 and this library 36.6, at -7 °C 114.5 and 111.6.
func TestFreezingSalinity(t *testing.T) {
	for _, c := range []float64{-2, -3, -4, -5, -6, -7} {
		checks.Relative(t, "brine", FreezingSalinity(celsius(c), 0, units.Share(0)).GramsPerKilogram(), 1000/(1-54.11/c), 0.027)
	}
	pure := FreezingTemperature(absolute(0), 0, units.Share(1))
	assert.Zero(t, FreezingSalinity(pure, 0, units.Share(1)).GramsPerKilogram())
	for _, c := range []float64{pure.Celsius() + 1e-6, 5, -7.8, -30, nan, inf} {
		assert.True(t, math.IsNaN(FreezingSalinity(celsius(c), 0, units.Share(1)).GramsPerKilogram()), "%v", c)
	}
	assert.True(t, math.IsNaN(FreezingSalinity(celsius(-2), pressure(nan), units.Share(1)).GramsPerKilogram()))
	assert.True(t, math.IsNaN(FreezingSalinity(celsius(-2), 0, units.Share(-1)).GramsPerKilogram()))
}

func TestInversesOfNonsense(t *testing.T) {
	for _, in := range [][3]float64{{-1, 1e4, 0}, {nan, 1e4, 0}, {35, nan, 0}, {35, inf, 0}, {35, -inf, 0}, {35, 1e4, nan}, {35, 1e4, inf}} {
		sa, p := absolute(in[0]), pressure(in[2])
		assert.True(t, math.IsNaN(TemperatureFromEnthalpyExact(sa, in[1], p).Celsius()), "%v", in)
		assert.True(t, math.IsNaN(TemperatureFromEntropyExact(sa, in[1], p).Celsius()), "%v", in)
		if in[1] == 1e4 {
			assert.True(t, math.IsNaN(MaximumDensityTemperature(sa, p).Celsius()), "%v", in)
			assert.True(t, math.IsNaN(MaximumDensityTemperatureExact(sa, p).Celsius()), "%v", in)
		}
	}
	assert.True(t, math.IsNaN(MaximumDensityTemperature(absolute(35), pressure(20000)).Celsius()))
}

func TestInversesAllocateNothing(t *testing.T) {
	checks.NoAllocations(t, "the inverses", func() {
		sink = TemperatureFromEnthalpyExact(absolute(35), 1e5, 0).Celsius() + TemperatureFromEntropyExact(absolute(35), 300, 0).Celsius() +
			MaximumDensityTemperature(absolute(35), 0).Celsius() + MaximumDensityTemperatureExact(absolute(35), 0).Celsius() +
			FreezingSalinity(celsius(-2), 0, units.Share(1)).GramsPerKilogram() +
			FreezingConservative(absolute(35), 0, units.Share(1)).Celsius()
	})
}
