package gas

import (
	"math"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// The standard atmosphere: temperature at the datum, K; its fall with geopotential
// height, K/m; the power g M/(R L); and the radius of the earth, m [US76].
const (
	standardTemperature = 288.15
	standardLapse       = 0.0065
	standardPower       = 9.80665 * 0.0289644 / (8.31432 * standardLapse) // 5.255876
	earthRadius         = 6356766
)

// PressureAtAltitude returns what a barometer shows on an average day at a height
// above the sea, as a map gives it. Weather moves it by 3 % either way.
//
//	symbol   p = p0 (1 - L H/T0)^(g M/(R L)), H = r h/(r + h)
//	source   [US76]; H is the geopotential height, 0.8 m less at 2200 m
//	units    h m, result hPa
//	range    -5000 <= h <= 11000 m
//	outside  extrapolates; above 44640 m, NaN or Inf: NaN
func PressureAtAltitude(h units.Length) units.AirPressure {
	return StationPressure(1*units.Atmosphere, h)
}

// StationPressure returns what a barometer shows at a height above the sea where
// the weather report gives the pressure reduced to sea level. Reports always do:
// taking that figure for the pressure in Denver makes oxygen a fifth too high.
//
//	symbol   p = p0 ((q/p0)^(1/n) - L H/T0)^n, n = g M/(R L), H as there
//	source   [US76], the altimeter setting of aviation
//	units    q and result hPa, h m
//	range    as PressureAtAltitude
//	outside  extrapolates; a pressure of 0 or below, NaN or Inf: NaN
func StationPressure(reduced units.AirPressure, h units.Length) units.AirPressure {
	q := float64(reduced / units.Atmosphere)
	z := h.Metres()
	x := 1 - standardLapse*(z/(1+z/earthRadius))/standardTemperature
	if q != 1 {
		x += math.Pow(q, 1/standardPower) - 1
	}
	if !(x > 0 && x <= math.MaxFloat64 && q > 0) {
		return units.AirPressure(math.NaN())
	}
	return units.Atmosphere * units.AirPressure(math.Pow(x, standardPower))
}

// VapourPressure returns the pressure of the water vapour in air that is in
// balance with the water: the part of the barometer that is no gas of dry air.
//
//	symbol   ln pH2O = a + b (100/T) + c ln(T/100) + d S
//	source   [WP80] eq. 10, of package carbonate
//	units    S PSS-78, result hPa
//	range    0 <= t <= 40 °C, 0 <= S <= 40
//	outside  extrapolates; no such water: NaN
func VapourPressure(s units.PracticalSalinity, t units.Temperature) units.AirPressure {
	if !possible(s, t) {
		return units.AirPressure(math.NaN())
	}
	return units.Atmosphere * units.AirPressure(vapour(s, t))
}

// vapour is VapourPressure in atmospheres.
func vapour(s units.PracticalSalinity, t units.Temperature) float64 {
	return float64(carbonate.GasAt(s, t).VapourPressure)
}

// mostPressure, hPa, is more than any barometer shows: ten atmospheres of a diving
// chamber.
const mostPressure = 10000

// breathable tells whether there is room for air beside the vapour: otherwise the
// water boils.
func breathable(p units.AirPressure, vapour float64) bool {
	return atmospheres(p) > vapour && p <= mostPressure
}

func atmospheres(p units.AirPressure) float64 { return float64(p / units.Atmosphere) }
