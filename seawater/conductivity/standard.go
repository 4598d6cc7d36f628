package conductivity

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

// Standard is a solution in which meters are calibrated.
//
// The bases must not be mixed: a tenth of a mole of potassium chloride per
// kilogram of water, a tenth demal and a tenth of a mole per litre differ by up to
// 0.4 %.
type Standard uint8

const (
	KCl001Molal Standard = iota + 1 // 0.01 mol potassium chloride per kg of water: 1.4082 mS/cm at 25 °C
	KCl01Molal                      // 0.1 mol per kg of water: 12.825 mS/cm
	KCl1Molal                       // 1 mol per kg of water: 108.62 mS/cm
	KCl001Demal                     // 0.745263 g potassium chloride in 1000 g of solution (from memory): 1.4083 mS/cm
	KCl01Demal                      // 7.41913 g in 1000 g of solution (from memory): 12.852 mS/cm
	KCl1Demal                       // 71.1352 g in 1000 g of solution (from memory): 111.31 mS/cm
	KCl1413                         // the bottle "1413 µS/cm at 25 °C", 0.01 mol per litre
	KCl12880                        // the bottle "12.88 mS/cm at 25 °C", 0.1 mol per litre
	Seawater35                      // seawater of practical salinity 35: 53.07 mS/cm at 25 °C
)

// Conductivity returns the conductivity of the standard at a temperature, without
// that of the water it was made with.
//
//	symbol   κ = Σ k_n (t - 25)^n for the molal standards; the demal ones and the bottles
//	         are those times a ratio that hardly depends on temperature
//	source   [PKWB], 0.03 to 0.04 %; [R56], 0.1 %; the bottles as they are labelled;
//	         seawater by PSS-78
//	units    t °C ITS-90, result mS/cm
//	range    molal and bottles 0 <= t <= 50, demal 15 <= t <= 35, seawater -2 <= t <= 35 °C
//	outside  extrapolates (CheckRange tells); t < -10 °C, t > 60 °C or NaN, no such standard: NaN
func (s Standard) Conductivity(t units.Temperature) units.Conductivity {
	c := t.Celsius()
	if !(c >= -10 && c <= 60) {
		return units.Conductivity(math.NaN())
	}
	switch s {
	case KCl001Molal:
		return molal(molal001Coef[:], c)
	case KCl01Molal:
		return molal(molal01Coef[:], c)
	case KCl1Molal:
		return molal(molal1Coef[:], c)
	case KCl001Demal:
		return demal(&demal001Table, molal001Coef[:], c)
	case KCl01Demal:
		return demal(&demal01Table, molal01Coef[:], c)
	case KCl1Demal:
		return demal(&demal1Table, molal1Coef[:], c)
	case KCl1413:
		return 1.413 * molal(molal001Coef[:], c) / molal(molal001Coef[:], 25)
	case KCl12880:
		return 12.88 * molal(molal01Coef[:], c) / molal(molal01Coef[:], 25)
	case Seawater35:
		return pss78.Conductivity(units.Practical(35), t, 0)
	}
	return units.Conductivity(math.NaN())
}

// CheckRange returns a *units.RangeError for a temperature outside the range of
// the standard, an *units.InputError for a Standard that is none, and otherwise nil.
func (s Standard) CheckRange(t units.Temperature) error {
	switch {
	case s == KCl001Demal || s == KCl01Demal || s == KCl1Demal:
		return demalRange.Check(t.Celsius())
	case s >= KCl001Molal && s <= KCl12880:
		return molalRange.Check(t.Celsius())
	case s == Seawater35:
		return pss78.CheckRange(units.Practical(35), t, 0)
	}
	return input.Bad("standard", input.Number(float64(s)), "one of the standards of package conductivity")
}

var (
	molalRange = units.Range{Quantity: "temperature", Min: 0, Max: 50, Unit: "°C", Source: "Pratt et al. 2001"}
	demalRange = units.Range{
		Quantity: "temperature",
		Min:      15,
		Max:      35,
		Unit:     "°C",
		Source:   "demal standards, as tabulated",
	}
)

// mS/cm per powers of t - 25 °C. Fitted here to the tables of [PKWB], 0 to 50 °C;
// each gives back every printed digit.
var (
	molal001Coef = [...]float64{1.4082336, 0.027375518, 6.385357e-05, -5.84523e-07, 9.52635e-11}
	molal01Coef  = [...]float64{12.824575, 0.24445272, 0.0005196481, -5.07744e-06, -2.88043e-09, 2.27307e-12, 2.57416e-12}
	molal1Coef   = [...]float64{108.62437, 1.9075809, 0.00312586, -3.83951e-05}
)

func molal(coef []float64, celsius float64) units.Conductivity {
	return units.Conductivity(poly.Horner(celsius-25, coef))
}

// The demal standards, mS/cm at the temperatures of demalCelsius, as a national list
// of standards prints them. Between these the ratio to the molal standard is
// interpolated. It scatters by 0.08 %, the figures of 20 °C being high.
var (
	demalCelsius  = [...]float64{15, 18, 20, 25, 35}
	demal001Table = [...]float64{1.1414, 1.2200, 1.2737, 1.4083, 1.6876}
	demal01Table  = [...]float64{10.455, 11.163, 11.644, 12.852, 15.353}
	demal1Table   = [...]float64{92.12, 97.80, 101.70, 111.31, 131.10}
)

func demal(table *[5]float64, coef []float64, celsius float64) units.Conductivity {
	i := 1
	for i < len(demalCelsius)-1 && celsius > demalCelsius[i] {
		i++
	}
	low, high := demalCelsius[i-1], demalCelsius[i]
	before := units.Conductivity(table[i-1]) / molal(coef, low)
	after := units.Conductivity(table[i]) / molal(coef, high)
	w := units.Conductivity((celsius - low) / (high - low))
	return molal(coef, celsius) * (before*(1-w) + after*w)
}
