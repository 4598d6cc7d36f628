package carbonate

import "example.org/wellmixed/units"

// Total is the whole content of an element in the water, whatever form it is
// in. The zero value stands for the content that belongs to the salinity;
// Measured makes one that was measured.
type Total struct {
	content  units.AmountPerKilogram // measured, or on top of what belongs to the salinity
	measured bool
}

// Measured returns a total of its own, not bound to the salinity.
func Measured(content units.AmountPerKilogram) Total { return Total{content, true} }

// IsMeasured tells whether the total was given, and not taken from the salinity.
func (t Total) IsMeasured() bool { return t.measured }

// of returns the content, of which ratioed belongs to the salinity.
func (t Total) of(ratioed float64) units.AmountPerKilogram {
	if t.measured {
		return t.content
	}
	return units.AmountPerKilogram(ratioed) + t.content
}

// plus returns the total with an amount added, measured or not as before.
func (t Total) plus(x units.AmountPerKilogram) Total {
	t.content += x
	return t
}

// Totals is what the constants work with: the contents of the water, given or
// from the salinity.
type Totals struct {
	Boron     units.AmountPerKilogram
	Sulfate   units.AmountPerKilogram
	Fluoride  units.AmountPerKilogram
	Calcium   units.AmountPerKilogram
	Magnesium units.AmountPerKilogram
}

// Chlorinity is S over this [MR, RIL, RT].
const salinityPerChlorinity = 1.80655

// Contents by salinity. Those per chlorinity are a ratio of masses r and a
// molar mass M in g/mol, content = r/M S/1.80655 mol/kg; those of boron are
// r S/35 mol/kg, and Kuliński's a straight line; magnesium is a mole fraction
// of the reference composition.
const (
	sulfateRatio, sulfateMass   = 0.14, 96.062         // [MR]
	fluorideRatio, fluorideMass = 6.7e-5, 18.998       // [RIL]
	calciumRatio, calciumMass   = 0.02128, 40.087      // [RT]
	boronUppstrom               = 0.0004157            // [UPP] at salinity 35
	boronLee                    = 0.0004326            // [LEE] at salinity 35
	boronKulinskiSlope          = 1.0838e-5            // [KUL]
	boronKulinskiAtZero         = 1.3821e-5            // [KUL]
	magnesiumFraction           = 0.0471678            // [RC] table 4, mole fraction of the sea salt
	seaSaltAt35, seaSaltMass    = 35.16504, 31.4038218 // [RC] g/kg at salinity 35, g/mol

	// of what no constant takes, [RC] table 4, mole fractions of the sea salt
	sodiumFraction, potassiumFraction, strontiumFraction = 0.4188071, 0.0091159, 0.0000810
	chlorideFraction, bromideFraction                    = 0.4874839, 0.0007520
)

const perMole = 1e6 // µmol in a mole

// totals returns the contents of water of salinity s.
func (o *Options) totals(s float64) Totals {
	boron := boronUppstrom / 35 * s
	switch o.BoronRatio {
	case BoronLee2010:
		boron = boronLee / 35 * s
	case BoronKulinski2018:
		boron = boronKulinskiSlope*s + boronKulinskiAtZero
	}
	return Totals{
		Boron:     o.Boron.of(boron * perMole),
		Sulfate:   o.Sulfate.of(s * (sulfateRatio / sulfateMass / salinityPerChlorinity * perMole)),
		Fluoride:  o.Fluoride.of(s * (fluorideRatio / fluorideMass / salinityPerChlorinity * perMole)),
		Calcium:   o.Calcium.of(s * (calciumRatio / calciumMass / salinityPerChlorinity * perMole)),
		Magnesium: o.Magnesium.of(s * (magnesiumFraction * seaSaltAt35 / seaSaltMass / 35 * perMole)),
	}
}

// sound tells whether the contents can be those of some water.
func (t *Totals) sound() bool {
	return amount(t.Boron) && amount(t.Sulfate) && amount(t.Fluoride) && amount(t.Calcium) && amount(t.Magnesium)
}

// Nutrients are the total contents of phosphate, silicate, ammonia and sulfide,
// which take part in the alkalinity, and what organic bases add to it. The zero
// value is water without any.
type Nutrients struct {
	Phosphate units.AmountPerKilogram
	Silicate  units.AmountPerKilogram
	Ammonia   units.AmountPerKilogram // NH3 and NH4+ together
	Sulfide   units.AmountPerKilogram

	// Organic is the organic alkalinity: how much of what a titration counts are
	// the bases of organic acids, which hold no carbonate. It counts in full at any
	// pH, because nobody knows the acids; near pH 4.5, where a kit ends, real ones
	// have given up a part of it.
	//
	// The open sea has next to none, coastal and Baltic waters 20 to 60 µmol/kg
	// (Kuliński et al. 2014, Mar. Chem. 159, 1-12; Kim and Lee 2009, Geophys. Res.
	// Lett. 36, L20603, for what algae give off; both from memory), closed systems
	// 100 to 200 (from memory). To leave it out makes saturation and pCO2 too high: of
	// an alkalinity of 2300 µmol/kg at pH 8.1, salinity 35 and 25 °C by 4.8 % if 100
	// of it are organic, and 10.0 % if 200 are; in balance with air of 420 µatm
	// saturation alone, by 7.9 and 16.9 %. Beside a DIC of 2000 µmol/kg the same 100
	// make saturation 44.9 % too high and pCO2 35.4 % too low.
	Organic units.AmountPerKilogram
}

// none tells whether there are no nutrients.
func (n *Nutrients) none() bool {
	return n.Phosphate == 0 && n.Silicate == 0 && n.Ammonia == 0 && n.Sulfide == 0 && n.Organic == 0
}

// sound tells whether the contents can be those of some water.
func (n *Nutrients) sound() bool {
	return amount(n.Phosphate) && amount(n.Silicate) && amount(n.Ammonia) && amount(n.Sulfide) && amount(n.Organic)
}

// mostAmount is more than a kilogram of anything can hold: pure water is 55.5
// mol/kg.
const mostAmount = 1000 * units.MolePerKilogram

// amount tells whether x can be the content of some water.
func amount(x units.AmountPerKilogram) bool { return x >= 0 && x <= mostAmount }
