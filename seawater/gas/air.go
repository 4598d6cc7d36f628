package gas

import (
	"math"

	"example.org/wellmixed/units"
)

// Air is the air of the room in which the tank stands. The zero value has no
// pressure and is refused. Its fields are those of weighing.Air, so that one
// converts to the other.
type Air struct {
	Temperature units.Temperature
	Pressure    units.AirPressure // where the tank stands
	Humidity    units.Fraction    // relative
}

// saturationCoef: ln p = c1/T + c2 + c3 T + c4 T² + c5 T³ + c6 ln T, Pa, over liquid water
// from 0 to 200 °C [HW83], [ASHRAE] ch. 1 eq. 6.
var saturationCoef = [...]float64{-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 6.5459673}

// SaturationPressure returns the pressure of the vapour in saturated air over pure
// water, as heating and ventilation engineers count it. It is 0.1 % above that of
// VapourPressure at 25 °C.
//
//	symbol   ln p = c1/T + c2 + c3 T + c4 T² + c5 T³ + c6 ln T
//	source   [HW83], [ASHRAE] ch. 1 eq. 6
//	units    T K, p Pa in the formula, result hPa
//	range    0 <= t <= 200 °C
//	outside  extrapolates, below 0 °C over water that is colder than ice; t below -50 °C, above
//	         200 °C or NaN: NaN
func SaturationPressure(t units.Temperature) units.AirPressure {
	if !(t.Celsius() >= -50 && t.Celsius() <= 200) {
		return units.AirPressure(math.NaN())
	}
	return units.AirPressure(math.Exp(lnSaturation(t.Kelvin())) / 100)
}

func lnSaturation(k float64) float64 {
	c := &saturationCoef
	return c[0]/k + c[1] + k*(c[2]+k*(c[3]+k*c[4])) + c[5]*math.Log(k)
}

// lnSaturationSlope is the derivative of lnSaturation.
func lnSaturationSlope(k float64) float64 {
	c := &saturationCoef
	return (c[5]-c[0]/k)/k + c[2] + k*(2*c[3]+k*3*c[4])
}

// Constants of moist air [ASHRAE] ch. 1.
const (
	vapourRatio       = 0.621945 // molar mass of water over that of dry air
	vapourBulk        = 1.607858 // its inverse
	dryGasConstant    = 287.042  // J/(kg K)
	dryHeat           = 1.006    // kJ/(kg K)
	vapourHeat        = 1.86     // kJ/(kg K)
	evaporationHeat0  = 2501     // kJ/kg at 0 °C
	wetBulbWaterHeat  = 4.186    // kJ/(kg K)
	wetBulbVapourSlip = 2.326    // kJ/(kg K)
)

// possible keeps to air that can be. NaN fails.
func (a Air) possible() bool {
	t := a.Temperature.Celsius()
	return t >= -50 && t <= 100 && a.Humidity.Value() >= 0 && a.Humidity.Value() <= 1 && a.Pressure <= mostPressure &&
		a.Pressure > units.AirPressure(a.Humidity.Value())*SaturationPressure(a.Temperature)
}

// VapourPressure returns the pressure of the water vapour in the air.
//
//	symbol   pa = φ ps(t)
//	outside  humidity below 0 or above 100 %, no such air: NaN
func (a Air) VapourPressure() units.AirPressure {
	if !a.possible() {
		return units.AirPressure(math.NaN())
	}
	return units.AirPressure(a.Humidity.Value()) * SaturationPressure(a.Temperature)
}

// HumidityRatio returns the mass of water vapour that goes with a mass of dry air.
//
//	symbol   W = 0.621945 pa/(p - pa)
//	source   [ASHRAE] ch. 1 eq. 20
//	units    result kg/kg
//	outside  no such air: NaN
func (a Air) HumidityRatio() float64 { return humidityRatio(a.VapourPressure(), a.Pressure) }

func humidityRatio(vapour, p units.AirPressure) float64 {
	return vapourRatio * float64(vapour/(p-vapour))
}

// DryDensity returns the mass of dry air in a volume of the air, without the vapour
// in it.
//
//	symbol   ρ = p/(Rda T (1 + 1.607858 W)) = (p - pa)/(Rda T)
//	source   [ASHRAE] ch. 1 eq. 26
//	units    result kg of dry air per m³
//	outside  no such air: NaN
//
// Shah's formula of evaporation wants this density. With that of the moist air
// (weighing.Air.Density) it gives 18 to 100 % too little.
func (a Air) DryDensity() units.Density {
	bulk := 1 + vapourBulk*a.HumidityRatio()
	return units.Density(float64(a.Pressure) * 100 / (dryGasConstant * a.Temperature.Kelvin() * bulk))
}

// Enthalpy returns the heat in the air and its vapour, above that of dry air and
// water of 0 °C.
//
//	symbol   h = 1.006 t + W (2501 + 1.86 t)
//	source   [ASHRAE] ch. 1 eq. 30
//	units    result kJ per kg of dry air
//	outside  no such air: NaN
func (a Air) Enthalpy() float64 {
	t := a.Temperature.Celsius()
	return dryHeat*t + a.HumidityRatio()*(evaporationHeat0+vapourHeat*t)
}

// DewPoint returns the temperature below which a surface gets wet. Air without any
// vapour has none.
//
//	symbol   ps(td) = pa, solved to the last digits
//	source   [HW83]
//	range    td >= 0 °C; colder it is that over water, not the frost point
//	outside  below -50 °C, no such air: NaN
func (a Air) DewPoint() units.Temperature {
	ln := math.Log(float64(a.VapourPressure()) * 100)
	// Magnus's formula is within 1 K, from where four of Newton's steps leave
	// nothing: each squares the error and takes a fiftieth of it.
	m := ln - magnusCoef[0]
	k := zeroCelsius + magnusCoef[2]*m/(magnusCoef[1]-m)
	for range 4 {
		k -= (lnSaturation(k) - ln) / lnSaturationSlope(k)
	}
	if !(k >= zeroCelsius-50 && k <= zeroCelsius+101) {
		k = math.NaN()
	}
	return units.Kelvin(k)
}

// magnusCoef: ln p = c0 + c1 t/(c2 + t), Pa and °C, c0 = ln 611.2; from memory. It only
// begins a search.
var magnusCoef = [...]float64{6.41542, 17.62, 243.12}

// WetBulb returns what a thermometer in a wet sock shows in the air: the coldest that
// evaporation can make water, as of a tank under a fan. It is the inverse of
// [HumidityFromWetBulb].
//
//	symbol   W(t, tw) = W, solved to the last digits
//	source   [ASHRAE] ch. 1 eq. 33
//	range    tw >= 0 °C
//	outside  below that, where the sock freezes; no such air: NaN
func (a Air) WetBulb() units.Temperature {
	w, t := a.HumidityRatio(), a.Temperature.Celsius()
	low, high := 0., t
	if !(wetRatio(t, low, a.Pressure) <= w && wetRatio(t, high, a.Pressure) >= w) {
		if a.Humidity.Value() == 1 && t >= 0 { // rounding at the upper end
			return a.Temperature
		}
		return units.Celsius(math.NaN())
	}
	// The ratio rises with tw from the driest air to the dampest: halving is sure, and 60
	// times of it leave less than a last digit.
	for range 60 {
		middle := (low + high) / 2
		if wetRatio(t, middle, a.Pressure) < w {
			low = middle
		} else {
			high = middle
		}
	}
	return units.Celsius((low + high) / 2)
}

// wetRatio returns the humidity ratio of air of t °C in which the wet bulb shows tw.
func wetRatio(t, tw float64, p units.AirPressure) float64 {
	ws := humidityRatio(SaturationPressure(units.Celsius(tw)), p)
	return ((evaporationHeat0-wetBulbVapourSlip*tw)*ws - dryHeat*(t-tw)) /
		(evaporationHeat0 + vapourHeat*t - wetBulbWaterHeat*tw)
}

// HumidityFromWetBulb returns the relative humidity of air of a temperature in
// which a thermometer in a wet sock shows less.
//
//	symbol   W = ((2501 - 2.326 tw) Ws(tw) - 1.006 (t - tw))/(2501 + 1.86 t - 4.186 tw)
//	source   [ASHRAE] ch. 1 eq. 33
//	units    temperatures °C
//	range    tw >= 0 °C
//	outside  wet bulb above the dry one, colder than driest air can make it, no such air: NaN
func HumidityFromWetBulb(dry, wet units.Temperature, p units.AirPressure) units.Fraction {
	t, tw := dry.Celsius(), wet.Celsius()
	ws := Air{wet, p, units.Share(1)}.HumidityRatio()
	w := ((evaporationHeat0-wetBulbVapourSlip*tw)*ws - dryHeat*(t-tw)) /
		(evaporationHeat0 + vapourHeat*t - wetBulbWaterHeat*tw)
	f := units.Share(float64(p/SaturationPressure(dry)) * (w / (vapourRatio + w)))
	if !(w >= 0 && tw <= t && (Air{dry, p, units.Share(0)}).possible()) {
		return units.Share(math.NaN())
	}
	return f
}
