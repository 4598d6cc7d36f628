package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// WaterPotential returns the chemical potential of water in seawater, per
// kilogram of water.
//
//	symbol   µ_W = g - SA g_S
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result J/kg
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func WaterPotential(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	var c column
	c.waterPotential(x, z)
	return c.value(y)
}

// SaltPotential returns the chemical potential of sea salt in seawater, per
// kilogram of salt.
//
//	symbol   µ_S = g + (1000 g/kg - SA) g_S
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result J/kg
//	range    0 < SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); SA = 0: -Inf; meaningless input: NaN
func SaltPotential(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	return WaterPotential(sa, t, p) + RelativePotential(sa, t, p)
}

// RelativePotential returns the chemical potential of sea salt less that of
// water: what a kilogram of salt gains by taking the place of a kilogram of
// water.
//
//	symbol   µ = µ_S - µ_W = 1000 g/kg · g_S
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result J/kg
//	range    0 < SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); SA = 0: -Inf; meaningless input: NaN
func RelativePotential(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	var c column
	c.salineS(x, z)
	return (c.value(y) + 2*math.Log(x)*(s100+s110*y)) * (1000 / (2 * salinityUnit))
}

// waterPotential sets c to the chemical potential of water, in J/kg. It has
// no logarithm and stays finite in pure water.
func (c *column) waterPotential(x, z float64) {
	var w column
	w.salineW(x, z)
	c.seawater(0, z)
	for j := range c {
		c[j] -= 0.5 * x * x * w[j]
	}
}
