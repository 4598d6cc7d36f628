package teos10

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// IAPWS SR6-08(2011) table 6, from memory of the printed table, at 298.15 and 375 K: to
// every digit. Volume, its change with pressure and heat capacity follow from different coefficients.
func TestHotWaterRelease(t *testing.T) {
	for _, c := range []struct {
		kelvin         float64
		rho, cp, sound string
	}{
		{298.15, "997.047013", "4181.44618", "1496.69922"},
		{375, "957.009710", "4217.74697", "1541.46611"},
	} {
		checks.Printed(t, "density", 1/hotVolume(c.kelvin), c.rho)
		checks.Printed(t, "heat capacity", hotHeatCapacity(c.kelvin), c.cp)
		v, vP := hotVolume(c.kelvin), hotVolumeP(c.kelvin)
		vT := slope(hotVolume, c.kelvin, 0.01)
		checks.Printed(t, "sound speed", v*math.Sqrt(-1/(vP+c.kelvin*vT*vT/hotHeatCapacity(c.kelvin))), c.sound)
		// The heat capacity is the slope of the enthalpy: the two are written out apart.
		checks.Relative(t, "slope", slope(hotEnthalpy, c.kelvin, 0.1), hotHeatCapacity(c.kelvin), 1e-9)
	}
}

// Two origins that have nothing to do with SR6-08: the rows of IAPWS R13-08 table 8 at 353 K,
// published, which stand on IAPWS-95; and the density of Kell 1975, J. Chem. Eng. Data 20, 97-105,
// from 50 to 100 °C, by his formula, which is on IPTS-68: 0.01 K at 100 °C are 0.0075 kg/m³.
func TestHotWaterAgainstOthers(t *testing.T) {
	const release = 3e-5 // of heat capacity; 25 parts in a million are found
	pure, hot := absolute(0), units.Celsius(353-273.15)
	checks.Relative(t, "volume at 353 K", 1/float64(HotDensity(pure, hot)), 0.00102892956, 2e-8)
	checks.Relative(t, "heat capacity at 353 K", float64(HotHeatCapacity(pure, hot)), 353*11.8885, release)
	// h = g - T g_T of the water rows: -44611.4969 + 353 * 1073.75993
	checks.Absolute(t, "enthalpy at 353 K", HotEnthalpy(pure, hot), -44611.4969+353*1073.75993, 6)

	salt := absolute(100)
	checks.Absolute(t, "enthalpy, 100 g/kg", HotEnthalpy(salt, hot), 294363.423, 6)
	checks.Relative(t, "heat capacity, 100 g/kg", float64(HotHeatCapacity(salt, hot)), 3745.07355, release)

	kell := func(t float64) float64 {
		return (999.83952 + t*(16.945176+t*(-7.9870401e-3+t*(-46.170461e-6+t*(105.56302e-9-t*280.54253e-12))))) /
			(1 + 16.879850e-3*t)
	}
	for c := 40.; c <= 100; c += 5 {
		checks.Absolute(t, "density by Kell", float64(HotDensity(pure, celsius(c))), kell(c), 0.017)
	}
	// Saturated liquid at 100 °C by IAPWS-95, from memory of its tables: 958.35 kg/m³ and 419.17 kJ/kg,
	// counted from liquid at the triple point.
	checks.Printed(t, "density of boiling water", float64(HotDensity(pure, celsius(100))), "958.35")
	triple := EnthalpyExact(pure, celsius(0.01), pressure((611.657-101325)/1e4))
	checks.Absolute(t, "enthalpy of boiling water", (HotEnthalpy(pure, celsius(100))-triple)/1000, 419.17, 0.01)
}

// Where SR7-09 ends the two ways meet.
func TestHotWaterJoinsAtForty(t *testing.T) {
	at := celsius(40)
	for _, s := range []float64{0, 1, 35.16504, 120} {
		sa := absolute(s)
		checks.Absolute(t, "enthalpy", HotEnthalpy(sa, at), EnthalpyExact(sa, at, 0), 1e-6)
		checks.Relative(t, "heat capacity", float64(HotHeatCapacity(sa, at)), float64(HeatCapacityExact(sa, at, 0)), 2e-5)
		checks.Relative(t, "density", float64(HotDensity(sa, at)), float64(DensityExact(sa, at, 0)), 1e-15)
	}
}

// The salt's density: the formula that carries it on holds beside R13-08 where that holds, within the 0.1 % that its
// authors give it, and beside it up to 60 °C at the salinity of the sea.
func TestHotSaltDensity(t *testing.T) {
	const authors = 1e-3
	for _, s := range []float64{10, 35, 70, 120} {
		for c := 0.; c <= 40; c += 10 {
			water := float64(DensityExact(absolute(0), celsius(c), 0))
			checks.Relative(t, "beside R13-08", water+saltDensity(s/1000, c), float64(DensityExact(absolute(s), celsius(c), 0)), authors)
		}
	}
	for c := 40.; c <= 60; c += 5 {
		sea := absolute(35.16504)
		byGibbs := 1 / (hotVolume(c+273.15) + float64(GibbsSaline(sea, celsius(c), 0).P))
		checks.Relative(t, "beside R13-08, hot", float64(HotDensity(sea, celsius(c))), byGibbs, authors)
	}
}

func TestHotEnthalpyComesBack(t *testing.T) {
	eachWater(300, 120, 40, 100, 0, func(s, c, _ float64) {
		sa := absolute(s)
		checks.Absolute(t, "temperature", TemperatureFromHotEnthalpy(sa, HotEnthalpy(sa, celsius(c))).Celsius(), c, 1e-10)
		checks.Relative(t, "slope", slope(func(c float64) float64 { return HotEnthalpy(sa, celsius(c)) }, c, 0.1),
			float64(HotHeatCapacity(sa, celsius(c))), 2e-7)
	})
}

func TestHotNonsense(t *testing.T) {
	for _, in := range [][2]float64{{nan, 50}, {-1, 50}, {1001, 50}, {35, nan}, {35, inf}, {35, -300}, {35, -50}, {35, 320}} {
		sa, c := absolute(in[0]), celsius(in[1])
		for _, x := range []float64{HotEnthalpy(sa, c), float64(HotHeatCapacity(sa, c)), float64(HotDensity(sa, c))} {
			assert.True(t, math.IsNaN(x), "%v", in)
		}
		assert.ErrorIs(t, CheckRangeHot(sa, c), units.ErrRange)
	}
	for _, h := range []float64{nan, inf, -inf, -1e5, 1e9} {
		assert.True(t, math.IsNaN(TemperatureFromHotEnthalpy(absolute(35), h).Celsius()), "%v", h)
	}
	assert.NoError(t, CheckRangeHot(absolute(0), celsius(100)))
	assert.NoError(t, CheckRangeHot(absolute(120), celsius(80)))
	assert.ErrorIs(t, CheckRangeHot(absolute(0), celsius(100.1)), units.ErrRange)
	assert.ErrorIs(t, CheckRangeHot(absolute(1), celsius(80.1)), units.ErrRange)
	assert.ErrorIs(t, CheckRangeHot(absolute(1), celsius(39.9)), units.ErrRange)
	assert.ErrorIs(t, CheckRangeHot(absolute(121), celsius(50)), units.ErrRange)
}

func TestHotAllocatesNothing(t *testing.T) {
	checks.NoAllocations(t, "hot water", func() {
		sink = HotEnthalpy(absolute(35), celsius(60)) + float64(HotHeatCapacity(absolute(35), celsius(60))) +
			float64(HotDensity(absolute(35), celsius(60))) + TemperatureFromHotEnthalpy(absolute(35), 2e5).Celsius()
	})
}
