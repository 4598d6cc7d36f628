package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// The functions of this file are derivatives of the Gibbs function of
// seawater [SR7] [R13], of in-situ temperature.

// SpecificVolumeExact returns the volume of a kilogram of seawater, in m³/kg.
//
//	symbol   v = g_P
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result m³/kg
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func SpecificVolumeExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	return gibbsP(sa, t.Celsius(), p.Decibars()) * (1 / pascalUnit)
}

// DensityExact returns the density of seawater.
//
//	symbol   ρ = 1/g_P
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func DensityExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) units.Density {
	return units.Density(pascalUnit / gibbsP(sa, t.Celsius(), p.Decibars()))
}

// EnthalpyExact returns the specific enthalpy, zero for standard seawater
// (SA = 35.16504 g/kg) at 0 °C and one atmosphere.
//
//	symbol   h = g - T g_T
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result J/kg
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func EnthalpyExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	return enthalpy(x, y, z)
}

// enthalpy is g - T g_T. Its logarithm ξ² ln ξ (s100 - s110 · 273.15/40) has
// the factor zero, to the last digit of the table.
func enthalpy(x, y, z float64) float64 {
	var c column
	c.seawater(x, z)
	return c.value(y) - (y+zeroCelsius/kelvinUnit)*c.slope(y)
}

// InternalEnergyExact returns the specific internal energy.
//
//	symbol   u = g - T g_T - P g_P
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result J/kg
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func InternalEnergyExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	var c column
	c.seawaterP(x, z)
	return enthalpy(x, y, z) - (z+atmosphere/pascalUnit)*c.value(y)
}

// EntropyExact returns the specific entropy, zero for standard seawater
// (SA = 35.16504 g/kg) at 0 °C and one atmosphere.
//
//	symbol   η = -g_T
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result J/(kg K)
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func EntropyExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	var c column
	c.seawater(x, z)
	return -(c.slope(y) + squareLog(x)*s110) * (1. / kelvinUnit)
}

// HeatCapacityExact returns the heat that warms a kilogram of seawater by one
// kelvin at constant pressure.
//
//	symbol   c_p = -T g_TT
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func HeatCapacityExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) units.SpecificHeat {
	return units.SpecificHeat(heatCapacity(sa, t.Celsius(), p.Decibars()))
}

// ThermalExpansionExact returns the thermal expansion coefficient with respect
// to in-situ temperature; ThermalExpansion is the one with respect to CT.
//
//	symbol   α = g_TP/g_P
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result 1/K
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func ThermalExpansionExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	var c column
	c.seawaterP(x, z)
	return c.slope(y) / (kelvinUnit * c.value(y))
}

// HalineContractionExact returns the saline contraction coefficient at constant
// in-situ temperature; HalineContraction is the one at constant CT.
//
//	symbol   β = -g_SP/g_P
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result kg/g
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func HalineContractionExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	var c, cS column
	c.seawaterP(x, z)
	cS.salineSP(x, z)
	return -cS.value(y) / (2 * salinityUnit * c.value(y))
}

// IsothermalCompressibilityExact returns the compressibility at constant
// temperature.
//
//	symbol   κ_T = -g_PP/g_P
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result 1/Pa
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func IsothermalCompressibilityExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	var c, cP column
	c.seawaterP(x, z)
	cP.seawaterPP(x, z)
	return -cP.value(y) / (pascalUnit * c.value(y))
}

// CompressibilityExact returns the compressibility at constant entropy and
// salinity.
//
//	symbol   κ = (g_TP² - g_TT g_PP)/(g_P g_TT)
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result 1/Pa
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func CompressibilityExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	v, vP := adiabaticVolume(sa, t.Celsius(), p.Decibars())
	return -vP / (pascalUnit * v)
}

// SoundSpeedExact returns the speed of sound.
//
//	symbol   c = g_P sqrt(g_TT/(g_TP² - g_TT g_PP))
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func SoundSpeedExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) units.Speed {
	v, vP := adiabaticVolume(sa, t.Celsius(), p.Decibars())
	return units.Speed(v * math.Sqrt(-1/vP))
}

// adiabaticVolume returns g_P and the change of volume with pressure at
// constant entropy, g_PP - g_TP²/g_TT, in J/kg per unit of π and of π².
func adiabaticVolume(sa units.AbsoluteSalinity, t, p float64) (v, vP float64) {
	x, y, z := reduce(sa, t, p)
	var c, cP column
	c.seawaterP(x, z)
	cP.seawaterPP(x, z)
	gTP := c.slope(y)
	return c.value(y), cP.value(y) + gTP*gTP*((t+zeroCelsius)/(kelvinUnit*kelvinUnit))/heatCapacity(sa, t, p)
}

// LapseRateExact returns how much seawater warms under pressure when it
// exchanges no heat.
//
//	symbol   Γ = -g_TP/g_TT
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar; result K/Pa
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func LapseRateExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	var c column
	c.seawaterP(x, z)
	return c.slope(y) * (t.Kelvin() / (kelvinUnit * pascalUnit)) / heatCapacity(sa, t.Celsius(), p.Decibars())
}
