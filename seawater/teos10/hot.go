package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// The functions of this file are for water that is too hot for [SR7] and with it
// for all functions with Exact in their names: kettle water, a bucket under the hot
// tap. They hold at atmospheric pressure only. At 40 °C they continue
// DensityExact and EnthalpyExact without a step, which moves the density of water by 9e-9.

// warmest is the temperature in °C where [SR7] ends and the formulas here begin.
const warmest = 40

// HotEnthalpy returns the specific enthalpy of hot water at atmospheric pressure,
// counted from where EnthalpyExact counts.
//
//	symbol   h = hW(t) - hW(40 °C) + h0(SA, t) - h0(0, t) + h0(0, 40 °C)
//	source   [SR6] for water; [R13] for the salt, h0 as in ConservativeFromInSitu
//	units    SA g/kg, t °C ITS-90; result J/kg
//	range    SA = 0: 40 <= t <= 100; 0 < SA <= 120: 40 <= t <= 80; pressure of the air.
//	         Of water it is 6 J/kg off IAPWS-95 at 80 °C
//	outside  extrapolates (CheckRangeHot tells); meaningless input: NaN
func HotEnthalpy(sa units.AbsoluteSalinity, t units.Temperature) float64 {
	if !(t.Kelvin() > hotPoleB && t.Kelvin() < hotPoleA) {
		return math.NaN()
	}
	var pure units.AbsoluteSalinity
	return hotEnthalpy(t.Kelvin()) - hotEnthalpy(warmest+zeroCelsius) + potentialEnthalpy(pure, warmest) +
		potentialEnthalpy(sa, t.Celsius()) - potentialEnthalpy(pure, t.Celsius())
}

// HotHeatCapacity returns the heat that warms a kilogram of hot water by one kelvin
// at atmospheric pressure.
//
//	symbol   c_p = cW(t) - T gS_TT
//	source   [SR6] for water; [R13] for the salt
//	units    SA g/kg, t °C ITS-90
//	range    SA = 0: 40 <= t <= 100; 0 < SA <= 120: 40 <= t <= 80; pressure of the air.
//	         Of water it is within 3e-5 of IAPWS-95 at 80 °C, relative, and 2e-5 below HeatCapacityExact at 40 °C
//	outside  extrapolates (CheckRangeHot tells); meaningless input: NaN
func HotHeatCapacity(sa units.AbsoluteSalinity, t units.Temperature) units.SpecificHeat {
	if !(t.Kelvin() > hotPoleB && t.Kelvin() < hotPoleA) {
		return units.SpecificHeat(math.NaN())
	}
	salt := heatCapacity(sa, t.Celsius(), 0) - heatCapacity(units.AbsoluteSalinity{}, t.Celsius(), 0)
	return units.SpecificHeat(hotHeatCapacity(t.Kelvin()) + salt)
}

// HotDensity returns the density of hot water at atmospheric pressure. What salt adds
// goes with temperature as by [SLZ10] and not by [R13], which has no densities above 40
// °C behind it (from memory): at 80 °C and 100 g/kg it gives 1029.86 kg/m³ in its
// table 8, and [SLZ10] 1045.
//
//	symbol   ρ = ρ(SA, 40 °C) + ρW(t) - ρW(40 °C) + Δρ(SA, t) - Δρ(SA, 40 °C), the first by DensityExact
//	source   [SR6] for water; [SLZ10] eq. 8 for how Δρ goes with temperature
//	units    SA g/kg, t °C ITS-90
//	range    SA = 0: 40 <= t <= 100; 0 < SA <= 120: 40 <= t <= 80; pressure of the air.
//	         Of water it is within 2e-8 of IAPWS-95 at 80 °C, relative; with salt within 1e-3
//	outside  extrapolates (CheckRangeHot tells); meaningless input: NaN
func HotDensity(sa units.AbsoluteSalinity, t units.Temperature) units.Density {
	if !(possible(sa.GramsPerKilogram(), t.Celsius(), 0) && t.Kelvin() > hotPoleB && t.Kelvin() < hotPoleA) {
		return units.Density(math.NaN())
	}
	join, s := units.Celsius(warmest), sa.GramsPerKilogram()/1000
	return DensityExact(sa, join, 0) + units.Density(hotDensity(t.Kelvin())-hotDensity(join.Kelvin())+
		saltDensity(s, t.Celsius())-saltDensity(s, warmest))
}

// TemperatureFromHotEnthalpy returns the temperature of hot water that has this
// enthalpy; it undoes HotEnthalpy.
//
//	source   as HotEnthalpy
//	units    SA g/kg, h J/kg; result °C ITS-90
//	range    as HotEnthalpy; inverse to 1e-10 K
//	outside  extrapolates; NaN below 0 and above 150 °C; meaningless input: NaN
func TemperatureFromHotEnthalpy(sa units.AbsoluteSalinity, h float64) units.Temperature {
	const coldest, hottest, enough, steps = 0, 150, 1e-11, 30
	t := warmest + (h-HotEnthalpy(sa, units.Celsius(warmest)))/4000
	for range steps {
		if !(t >= coldest && t <= hottest) {
			break
		}
		at := units.Celsius(t)
		d := (HotEnthalpy(sa, at) - h) / float64(HotHeatCapacity(sa, at))
		t -= d
		if math.Abs(d) < enough*hottest {
			return units.Celsius(t)
		}
	}
	return units.Celsius(math.NaN())
}

// CheckRangeHot returns nil where the functions for hot water hold, and otherwise a
// *units.RangeError.
func CheckRangeHot(sa units.AbsoluteSalinity, t units.Temperature) error {
	if sa.GramsPerKilogram() == 0 {
		return hotWater.Check(t.Celsius())
	}
	return first(gibbsSalinity.Check(sa.GramsPerKilogram()), hotSeawater.Check(t.Celsius()))
}

// hotEnthalpy is that of [SR6], in J/kg, from its own zero: h = g - T g_T.
func hotEnthalpy(kelvin float64) float64 {
	tau, a, b := kelvin/hotTR, hotTR/(hotPoleA-kelvin), hotTR/(kelvin-hotPoleB)
	a4, b2 := a*a*a*a, b*b
	ta, tb := tau*a, tau*b
	return hotR * hotTR * (hotC1 - hotC3*tau +
		a4*(hotA1*(1-4*ta)+a*(hotA2*(1-5*ta)+a*a*(hotA3*(1-7*ta)))) +
		b2*(hotB1*(1+2*tb)+b*(hotB2*(1+3*tb)+b*(hotB3*(1+4*tb)+b*(hotB4*(1+5*tb))))))
}

// hotHeatCapacity is that of [SR6], in J/(kg K).
func hotHeatCapacity(kelvin float64) float64 {
	tau, a, b := kelvin/hotTR, hotTR/(hotPoleA-kelvin), hotTR/(kelvin-hotPoleB)
	a6, b4 := a*a*a*a*a*a, b*b*b*b
	return -hotR * (hotC3 + tau*(a6*(20*hotA1+a*(30*hotA2+a*a*(56*hotA3)))+
		b4*(6*hotB1+b*(12*hotB2+b*(20*hotB3+b*(30*hotB4))))))
}

// hotDensity is that of water at one atmosphere, in kg/m³.
func hotDensity(kelvin float64) float64 {
	return 1 / (hotVolume(kelvin) + (atmosphere-hotP0)*hotVolumeP(kelvin))
}

// hotVolume is that of [SR6] at 0.1 MPa, in m³/kg.
func hotVolume(kelvin float64) float64 {
	a, b := hotTR/(hotPoleA-kelvin), hotTR/(kelvin-hotPoleB)
	a4 := a * a * a * a
	return hotR * hotTR / hotP0 * (hotA5 + a4*(hotA6+a*(hotA7+a*a*(hotA8+a*(hotA9+a*hotA10)))) +
		b*(hotB5+b*(hotB6+b*(hotB7+b*(hotB8+b*(hotB9+b*hotB10))))))
}

// hotVolumeP is how hotVolume goes with pressure, in m³/(kg Pa).
func hotVolumeP(kelvin float64) float64 {
	a, b := hotTR/(hotPoleA-kelvin), hotTR/(kelvin-hotPoleB)
	a2, b2 := a*a, b*b
	return hotR * hotTR / (hotP0 * hotP0) * (a*(hotA11+a2*(hotA12+a2*(hotA13+a*(hotA14+a*hotA15)))) +
		b*(hotB11+b2*(hotB12+b*(hotB13+b*(hotB14+b*(hotB15+b*(hotB16+b2*hotB17)))))))
}

// saltDensity is Δρ of [SLZ10], in kg/m³, from kg/kg and °C.
func saltDensity(s, t float64) float64 {
	return s * (hotSaltB1 + t*(hotSaltB2+t*(hotSaltB3+t*hotSaltB4+s*hotSaltB5)))
}
