package hydrometer

import (
	"math"

	"example.org/wellmixed/units"
)

// WaterDensity returns the density of pure water free of air, under one
// atmosphere, by the formula that calibration laboratories use.
//
//	symbol   ρ = a5 (1 - (t + a1)² (t + a2)/(a3 (t + a4)))
//	source   [T01]
//	units    t °C ITS-90, result kg/m³
//	range    0 <= t <= 40; expanded uncertainty below 0.001 kg/m³ (from memory)
//	outside  extrapolates (CheckRangeWaterDensity tells); below -40 °C,
//	         above 150 °C or NaN: NaN
//
// The last constant is for water of the isotopes of the ocean; tap water differs
// by up to 0.003 kg/m³ (from memory). Saturated with air, water is lighter by
// 0.003 kg/m³ at 4 °C [ME76]. Neither matters to any hydrometer.
func WaterDensity(t units.Temperature) units.Density {
	c := t.Celsius()
	if !(c >= -40 && c <= 150) {
		return units.Density(math.NaN())
	}
	d := c + waterCoef[0]
	return units.Density(waterCoef[4] * (1 - d*d*(c+waterCoef[1])/(waterCoef[2]*(c+waterCoef[3]))))
}

// waterCoef is a1 to a5 of [T01]: °C, °C, °C², °C, kg/m³.
var waterCoef = [...]float64{-3.983035, 301.797, 522528.9, 69.34881, 999.97495}
