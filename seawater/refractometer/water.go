package refractometer

import (
	"math"

	"example.org/wellmixed/units"
)

// Water returns the index of pure water, liquid or steam, relative to vacuum.
// In a tank its density is teos10.DensityExact of zero salinity.
//
//	symbol   LL / ρ* = a0 + a1 ρ* + a2 T* + a3 λ*² T* + a4/λ*² + a5/(λ*² - λ_UV²)
//	                   + a6/(λ*² - λ_IR²) + a7 ρ*²,
//	         ρ* = ρ/1000, T* = T/273.15 K, λ* = λ/0.589 µm
//	source   [R9] eq. 1, table 1
//	units    t °C ITS-90, ρ kg/m³, λ µm
//	range    -12 to 500 °C, 0 to 1060 kg/m³, 200 to 1100 nm; at the sodium D line
//	         and 15 to 30 °C within 1.7e-5 of MillardSeaver
//	outside  extrapolates (CheckRangeWater tells), to the resonances at 135 nm and
//	         3200 nm; below absolute zero, ρ < 0, λ <= 0, NaN or Inf: NaN
func Water(t units.Temperature, rho units.Density, w Wavelength) VacuumIndex {
	if !(temperaturePossible(t) && amountPossible(float64(rho)) && lightPossible(w)) {
		return VacuumIndex{math.NaN()}
	}
	d := rho.KilogramsPerCubicMetre() / waterDensity
	tr := t.Kelvin() / waterTemperature
	l := w.Micrometres() / waterLight
	l2 := l * l
	return unrefract(d * (waterCoef[0] + waterCoef[1]*d + waterCoef[2]*tr + waterCoef[3]*l2*tr +
		waterCoef[4]/l2 + waterCoef[5]/(l2-waterUV*waterUV) + waterCoef[6]/(l2-waterIR*waterIR) +
		waterCoef[7]*d*d))
}

// waterCoef is a0 to a7 [R9, table 1].
var waterCoef = [...]float64{
	0.244257733,
	9.74634476e-3,
	-3.73234996e-3,
	2.68678472e-4,
	1.58920570e-3,
	2.45934259e-3,
	0.900704920,
	-1.66626219e-2,
}

// The resonances, as λ*, and what the variables are counted in [R9].
const (
	waterUV = 0.2292020
	waterIR = 5.432937

	waterDensity     = 1000.0 // kg/m³
	waterTemperature = 273.15 // K
	waterLight       = 0.589  // µm
)
