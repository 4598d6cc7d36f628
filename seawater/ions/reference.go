package ions

import (
	"math"

	"example.org/wellmixed/units"
)

// referenceFraction holds the mole fractions of sea salt of the reference
// composition. They are exact, and so is their sum of one.
//
//	source   [MFWM08] table 4; 1e-7 mol per mol of solutes
var referenceFraction = [...]struct {
	ion   Ion
	share float64
}{
	{Sodium, 4188071},
	{Magnesium, 471678},
	{Calcium, 91823},
	{Potassium, 91159},
	{Strontium, 810},
	{Chloride, 4874839},
	{Sulfate, 252152},
	{Bicarbonate, 15340},
	{Bromide, 7520},
	{Carbonate, 2134},
	{Borate, 900},
	{Fluoride, 610},
	{Hydroxide, 71},
	{BoricAcid, 2807},
	{CarbonDioxide, 86},
}

// scaleMass holds the molar masses by which the Reference-Composition Salinity
// Scale counts: for what the reference composition holds the published ones, with
// the atomic weights of 2005; newer ones would move the scale. For all else there
// is none but today's.
//
//	source   [MFWM08] table 4 for the fifteen, [AW21] for the others; g/mol
var scaleMass = [count]float64{
	Sodium:        22.98976928,
	Magnesium:     24.3050,
	Calcium:       40.078,
	Potassium:     39.0983,
	Strontium:     87.62,
	Chloride:      35.453,
	Sulfate:       96.0626,
	Bicarbonate:   61.01684,
	Bromide:       79.904,
	Carbonate:     60.0089,
	Borate:        78.84036,
	Fluoride:      18.9984032,
	Hydroxide:     17.00734,
	BoricAcid:     61.83302,
	CarbonDioxide: 44.0095,

	Lithium:   massLi,
	Barium:    massBa,
	Ammonium:  massN + 4*massH,
	Manganese: massMn,
	Zinc:      massZn,
	Copper:    massCu,
	Iodide:    massI,
	Iodate:    massI + 3*massO,
	Nitrate:   massN + 3*massO,
	Nitrite:   massN + 2*massO,
	Phosphate: massH + massP + 4*massO,
	Molybdate: massMo + 4*massO,
	Acetate:   2*massC + 3*massH + 2*massO,
	Silicate:  massSi + 4*(massO+massH),
	Iron:      massFe,
}

const (
	referenceUnit     = 35.16504 / 35 // g/kg per practical salinity, exact [MFWM08]
	referenceMeanMass = 31.4038218    // g per mol of solutes [MFWM08]
)

// Reference returns the reference composition of seawater: the Atlantic surface
// water to which practical and absolute salinity refer, at 25 °C and in balance
// with the air.
//
//	symbol   n_j = X_j (35.16504/35) S / 31.4038218
//	source   [MFWM08] table 4, equilibrium at 25 °C and 101325 Pa
//	units    S PSS-78
//	range    any; contents are in proportion to salinity
//	outside  S < 0, above 800, NaN or Inf: NaN
func Reference(s units.PracticalSalinity) Composition {
	if !(s.Value() >= 0 && s.Value() <= 800) {
		return invalid()
	}
	return referenceScaled(referenceUnit * s.Value())
}

// referenceScaled is the reference composition with so many g/kg of salt.
func referenceScaled(grams float64) Composition {
	var c Composition
	for _, x := range referenceFraction {
		c.content[x.ion] = units.AmountPerKilogram(x.share * 1e-7 * grams / referenceMeanMass * 1e6)
	}
	return c
}

// Deviation is how the content of one species differs from that of the
// reference composition.
type Deviation struct {
	Ion       Ion
	Amount    units.AmountPerKilogram
	Reference units.AmountPerKilogram // at the same salinity
}

// Ratio returns how many times the reference content there is: 1 is as in the
// sea. It is infinite for what the reference does not hold.
func (d Deviation) Ratio() float64 { return float64(d.Amount / d.Reference) }

// Deviations compares the composition with the reference composition of a
// salinity, species by species; those that neither holds are left out. Which
// salinity is the same one depends on what is asked: with that of [Composition.SolutionSalinity]
// the table shows the make of the salt, with that of an instrument what the
// keeper of the instrument will see.
func (c Composition) Deviations(s units.PracticalSalinity) []Deviation {
	reference := Reference(s)
	table := make([]Deviation, 0, count)
	for i := Ion(0); i < count; i++ {
		d := Deviation{i, c.content[i], reference.content[i]}
		if d.Amount != 0 || d.Reference != 0 {
			table = append(table, d)
		}
	}
	return table
}

// practicalOf is the practical salinity of reference water with so many g/kg.
func practicalOf(grams float64) units.PracticalSalinity {
	if !(grams >= 0) {
		return units.Practical(math.NaN())
	}
	return units.Practical(grams / referenceUnit)
}
