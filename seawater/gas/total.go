package gas

import (
	"math"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Contents is what a water holds of the gases that matter for supersaturation.
type Contents struct {
	Oxygen, Nitrogen, Argon, CarbonDioxide units.AmountPerKilogram
}

// Equilibrium returns the contents of water in balance with air under a barometer.
// A part of it may then be replaced by a measured one.
func Equilibrium(s units.PracticalSalinity, t units.Temperature, p units.AirPressure, air carbonate.XCO2) Contents {
	return Contents{
		Oxygen:        Oxygen.Saturation(s, t, p),
		Nitrogen:      Nitrogen.Saturation(s, t, p),
		Argon:         Argon.Saturation(s, t, p),
		CarbonDioxide: CarbonDioxideSaturation(s, t, p, air),
	}
}

// Pressures are the pressures with which dissolved gases, and the water itself,
// would fill a bubble.
type Pressures struct {
	Oxygen, Nitrogen, Argon, CarbonDioxide, Vapour units.AirPressure
}

// Pressures returns the pressures of the contents at a salinity and a temperature.
// Warming water in a closed pipe keeps the contents and raises the pressures.
//
//	source   PartialPressure for the gases, VapourPressure for the water
//	outside  no such water: NaN; an infinite content: NaN for that gas
func (c Contents) Pressures(s units.PracticalSalinity, t units.Temperature) Pressures {
	if !possible(s, t) {
		nan := units.AirPressure(math.NaN())
		return Pressures{nan, nan, nan, nan, nan}
	}
	k := carbonate.GasAt(s, t)
	of := func(g Species, c units.AmountPerKilogram) units.AirPressure {
		c += c - c // NaN for infinity
		return units.AirPressure(float64(c) / g.henry(s, t, &k))
	}
	return Pressures{
		Oxygen:        of(Oxygen, c.Oxygen),
		Nitrogen:      of(Nitrogen, c.Nitrogen),
		Argon:         of(Argon, c.Argon),
		CarbonDioxide: of(CarbonDioxide, c.CarbonDioxide),
		Vapour:        units.Atmosphere * units.AirPressure(k.VapourPressure),
	}
}

// Total returns the total gas pressure, which a saturometer shows.
func (p Pressures) Total() units.AirPressure {
	return p.Oxygen + p.Nitrogen + p.Argon + p.CarbonDioxide + p.Vapour
}

// Excess returns the total gas pressure less that of the barometer, the ΔP of fish
// farming. Above zero, bubbles can grow at the surface.
func (p Pressures) Excess(barometer units.AirPressure) units.AirPressure {
	return p.Total() - barometer
}

// OfBarometer returns the total gas pressure as a share of that of the barometer:
// total gas in percent. Without a barometer it is NaN.
func (p Pressures) OfBarometer(barometer units.AirPressure) units.Fraction {
	return ratio(float64(p.Total()), float64(barometer))
}

// TotalGasAlert is the total gas, as a share of the barometer, above which the source has to
// be looked for: hatcheries keep under 103 to 105 % (common practice, from memory).
func TotalGasAlert() units.Fraction { return units.Percent(103) }

// TotalGasLimit is the most total gas, as a share of the barometer, by the water
// quality criteria of the US EPA (1986, EPA 440/5-86-001; from memory), set to
// protect fish in rivers that have deep water to dive into. In a shallow tank gas
// bubble disease has been seen below it: act at TotalGasAlert, and take this for the
// level of an emergency. Fish with
// bubbles in fins or eyes need the source found (air drawn in by a pump, cold water
// warmed under pressure) and a veterinarian.
func TotalGasLimit() units.Fraction { return units.Percent(110) }

// BubbleDepth returns the depth below which the weight of the water keeps this
// excess in solution. Animals above it are at risk.
//
//	symbol   z = ΔP/(ρ g), g = 9.80665 m/s²
//	units    excess hPa, ρ kg/m³
//	outside  no excess: 0 or below; ρ of 0 or below, infinity, NaN: NaN
func BubbleDepth(excess units.AirPressure, rho units.Density) units.Length {
	if !(rho > 0) || math.IsInf(float64(excess)+float64(rho), 0) {
		return units.Length(math.NaN())
	}
	return units.Length(excess.Hectopascals()*100/(rho.KilogramsPerCubicMetre()*9.80665)) * units.Metre
}
