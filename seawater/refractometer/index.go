package refractometer

import (
	"math"

	"example.org/wellmixed/units"
)

// AirIndex is a refractive index relative to air, the one on the scale of
// every refractometer. It is made by InAir, so a bare number does not compile.
//
// The zero value is the index of nothing; formulas answer it with NaN.
type AirIndex struct{ value float64 }

// InAir returns the index of value n relative to air.
func InAir(n float64) AirIndex { return AirIndex{n} }

// Value returns the number.
func (n AirIndex) Value() float64 { return n.value }

// Vacuum returns the same index relative to vacuum: n times that of standard
// air. Air of a room at 20 to 25 °C is thinner than standard air of 15 °C; that
// is less than 1e-5 in n.
func (n AirIndex) Vacuum(w Wavelength) VacuumIndex {
	return VacuumIndex{n.value * StandardAir(w).value}
}

// VacuumIndex is a refractive index relative to vacuum, also called absolute:
// 0.00037 more than relative to air. It is made by InVacuum, so a bare number
// does not compile.
//
// The zero value is the index of nothing; formulas answer it with NaN.
type VacuumIndex struct{ value float64 }

// InVacuum returns the index of value n relative to vacuum.
func InVacuum(n float64) VacuumIndex { return VacuumIndex{n} }

// Value returns the number.
func (n VacuumIndex) Value() float64 { return n.value }

// Air returns the same index relative to standard air.
func (n VacuumIndex) Air(w Wavelength) AirIndex {
	return AirIndex{n.value / StandardAir(w).value}
}

// Wavelength is a wavelength of light in nanometres. That of light in air is
// 0.03 % shorter than in vacuum; at the sodium D line that makes 5e-6 in n, and
// the formulas here do not tell them apart.
type Wavelength float64

// The unit, and the light of refractometers.
const (
	Nanometre Wavelength = 1
	SodiumD   Wavelength = 589.3 // the mean of the doublet: what "nD" means
)

// Nanometres returns the wavelength in nanometres.
func (w Wavelength) Nanometres() float64 { return float64(w) }

// Micrometres returns the wavelength in micrometres.
func (w Wavelength) Micrometres() float64 { return float64(w) / 1000 }

// StandardAir returns the index of dry air of 15 °C, 101325 Pa and 450 ppm of
// carbon dioxide.
//
//	symbol   1e8 (n - 1) = k1/(k0 - λ⁻²) + k3/(k2 - λ⁻²)
//	source   [C96] eq. 1
//	units    λ µm
//	range    300 to 1690 nm (from memory)
//	outside  extrapolates (CheckRangeStandardAir tells), to the resonance at
//	         132 nm and through it; λ <= 0, NaN or Inf: NaN
func StandardAir(w Wavelength) VacuumIndex {
	if !lightPossible(w) {
		return VacuumIndex{math.NaN()}
	}
	s2 := 1 / (w.Micrometres() * w.Micrometres())
	return VacuumIndex{1 + 1e-8*(airCoef[1]/(airCoef[0]-s2)+airCoef[3]/(airCoef[2]-s2))}
}

// airCoef is k0 to k3 of [C96], 1/µm².
var airCoef = [...]float64{238.0185, 5792105, 57.362, 167917}

// absoluteZero and vacuumPressure are the ends of the world, °C and dbar.
const (
	absoluteZero   = -273.15
	vacuumPressure = -10.1325
)

// t68PerT90 turns a temperature on ITS-90 into one on IPTS-68 [S90].
const t68PerT90 = 1.00024

func lightPossible(w Wavelength) bool { return w > 0 && w <= math.MaxFloat64 }

func temperaturePossible(t units.Temperature) bool {
	return t.Celsius() >= absoluteZero && t.Celsius() <= math.MaxFloat64
}

func amountPossible(x float64) bool { return x >= 0 && x <= math.MaxFloat64 }

func pressurePossible(p units.SeaPressure) bool { return p >= vacuumPressure && p <= math.MaxFloat64 }

// lorentzLorenz returns LL of a vacuum index, and unrefract undoes it.
func lorentzLorenz(n VacuumIndex) float64 {
	n2 := n.value * n.value
	return (n2 - 1) / (n2 + 2)
}

func unrefract(ll float64) VacuumIndex {
	if !(ll < 1) { // no finite index
		return VacuumIndex{math.NaN()}
	}
	return VacuumIndex{math.Sqrt((2*ll + 1) / (1 - ll))}
}
