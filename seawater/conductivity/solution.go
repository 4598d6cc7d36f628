package conductivity

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Solution is a salt, or mixture of salts, in whose terms dissolved-solids meters
// are graduated.
type Solution uint8

// The solutions.
const (
	SodiumChloride             Solution = iota + 1
	PotassiumChloride                   // as in calibration fluids
	SulfateBicarbonateChloride          // by mass 40 % Na2SO4, 40 % NaHCO3, 20 % NaCl: a natural fresh water
)

// Conductivity returns the conductivity at 25 °C of the solution that holds so
// much of the salt.
//
//	symbol   κ = Σ N (Λ° - (a |z+ z-| q/(1 + √q) Λ° + b (|z+| + |z-|)) √I/(1 + d √I)),
//	         q = |z+ z-|/(|z+| + |z-|) · Λ°/(|z+| λ- + |z-| λ+), N equivalents per litre
//	source   [RS59] chapter 7, for mixtures each salt at the common ionic strength;
//	         λ [V]
//	units    content mg per L of solution, result mS/cm
//	range    sodium chloride to 40 g/L within 1 %, potassium chloride to 40 g/L within 2 % (to
//	         10 g/L 0.5 %), the mixture to 3 g/L within 4 %: there it lies midway between
//	         the table of the meters, which is 2 to 3.5 % lower, and PHREEQC 3
//	outside  extrapolates (CheckRange tells); content < 0, NaN or Inf, no such solution: NaN
func (s Solution) Conductivity(content units.MassPerLitre) units.Conductivity {
	if !(content >= 0 && content <= math.MaxFloat64) || len(s.salts()) == 0 {
		return units.Conductivity(math.NaN())
	}
	o := s.onsager()
	root := math.Sqrt(o.strength * float64(content))
	return units.Conductivity(float64(content) * (o.limit - o.drag*root/(1+ionSize*root)))
}

// Content returns how much of the salt the solution of the conductivity c at 25 °C
// holds: what a meter graduated with it calls dissolved solids. It is the inverse
// of Conductivity, to the last digits.
func (s Solution) Content(c units.Conductivity) units.MassPerLitre {
	if !possible(c) || len(s.salts()) == 0 {
		return units.MassPerLitre(math.NaN())
	}
	// With x = √I, find the zero of x² (P - Q x/(1 + d x)) - σκ. As Q < P d for every
	// solution here, it rises and is convex for x > 0, so that from any start Newton's
	// rule gets to the right of the zero in one step, and to it from there.
	o := s.onsager()
	target := o.strength * float64(c)
	if target < 1e-34 { // so thin that the ions do not feel each other
		return units.MassPerLitre(float64(c) / o.limit)
	}
	x := math.Sqrt(target / o.limit)
	x = math.Sqrt(target / (o.limit - o.drag*x/(1+ionSize*x)))
	const enough, steps = 1e-9, 30 // a step squares what is left
	for range steps {
		u := 1 / (1 + ionSize*x)
		molar := o.limit - o.drag*x*u
		step := (x*x*molar - target) / (x * (2*molar - o.drag*x*u*u))
		x -= step
		if content := x * x / o.strength; math.Abs(step) <= enough*x && content <= math.MaxFloat64 {
			return units.MassPerLitre(content)
		}
	}
	return units.MassPerLitre(math.NaN())
}

// Scale returns the factor from conductivity to dissolved solids that this
// solution has where its conductivity at 25 °C is c. It rises with c.
func (s Solution) Scale(c units.Conductivity) units.TDSScale {
	return units.TDSScale(s.Content(c).MilligramsPerLitre() / c.MicrosiemensPerCentimetre())
}

// CheckRange returns a *units.RangeError for a content outside the range of
// Conductivity, an *units.InputError for a Solution that is none, and otherwise nil.
func (s Solution) CheckRange(content units.MassPerLitre) error {
	switch s {
	case SodiumChloride, PotassiumChloride:
		return saltRange.Check(content.GramsPerLitre())
	case SulfateBicarbonateChloride:
		return mixtureRange.Check(content.GramsPerLitre())
	}
	return input.Bad("solution", input.Number(float64(s)), "SodiumChloride, PotassiumChloride or "+
		"SulfateBicarbonateChloride")
}

var (
	saltRange = units.Range{Quantity: "content", Min: 0, Max: 40, Unit: "g/L",
		Source: "Robinson and Stokes, equation of Onsager"}
	mixtureRange = units.Range{Quantity: "content", Min: 0, Max: 3, Unit: "g/L",
		Source: "Robinson and Stokes, equation of Onsager"}
)

// salt is one salt of a solution.
type salt struct {
	share         float64 // by mass
	molarMass     float64 // g/mol, standard atomic weights
	cation, anion ion
}

// ion is an ion with its number of charges and its limiting equivalent
// conductivity at 25 °C, S cm²/eq [V].
type ion struct{ charge, conductivity float64 }

func (s Solution) salts() []salt {
	switch s {
	case SodiumChloride:
		return sodiumChloride[:]
	case PotassiumChloride:
		return potassiumChloride[:]
	case SulfateBicarbonateChloride:
		return mixture[:]
	}
	return nil
}

var (
	sodiumChloride    = [...]salt{{share: 1, molarMass: 58.44, cation: ion{1, 50.08}, anion: ion{1, 76.31}}}
	potassiumChloride = [...]salt{{share: 1, molarMass: 74.548, cation: ion{1, 73.48}, anion: ion{1, 76.31}}}
	mixture           = [...]salt{
		{share: 0.4, molarMass: 142.036, cation: ion{1, 50.08}, anion: ion{2, 80.0}}, // sodium sulfate
		{share: 0.4, molarMass: 84.006, cation: ion{1, 50.08}, anion: ion{1, 44.5}},  // sodium hydrogen carbonate
		{share: 0.2, molarMass: 58.44, cation: ion{1, 50.08}, anion: ion{1, 76.31}},  // sodium chloride
	}
)

// The constants of Onsager's equation for water at 25 °C [RS59]. It prints, for
// two ions of one charge, 0.2300 Λ° + 60.65 (from memory; they follow from a
// permittivity of 78.30 and a viscosity of 0.8903 mPa s): relaxation is
// 0.2300 (1 + √½)/½ and electrophoresis half of 60.65. The size of the ions is
// 4 Å, which fits both chlorides: 0.3291 times 4.
const (
	relaxation      = 0.7853 // (L/mol)^½
	electrophoresis = 30.325 // S cm²/eq (L/mol)^½
	ionSize         = 0.3291 * 4
)

// onsager is the conductivity of a solution as a law of its content alone: with
// x = √I = √(σ content), κ = content (P - Q x/(1 + d x)).
type onsager struct {
	strength float64 // σ, ionic strength per mg/L
	limit    float64 // P, mS/cm per mg/L at infinite dilution
	drag     float64 // Q
}

func (s Solution) onsager() (o onsager) {
	mix := s.salts()
	for i := range mix {
		n := mix[i].equivalents()
		limit, drag := mix[i].equivalent()
		o.strength += mix[i].strength() * n
		o.limit += n * limit // eq/L times S cm²/eq is mS/cm
		o.drag += n * drag
	}
	return o
}

// equivalents returns the equivalents per litre in a solution of one mg/L.
func (s *salt) equivalents() float64 {
	// A formula unit holds z- cations and z+ anions, or half of both.
	return s.share / 1000 / s.molarMass * s.cation.charge * s.anion.charge
}

// strength returns the ionic strength of one equivalent per litre.
func (s *salt) strength() float64 { return (s.cation.charge + s.anion.charge) / 2 }

// equivalent returns the equivalent conductivity at infinite dilution and how much
// of it is lost per √I/(1 + d √I).
func (s *salt) equivalent() (limit, drag float64) {
	limit = s.cation.conductivity + s.anion.conductivity
	product, sum := s.cation.charge*s.anion.charge, s.cation.charge+s.anion.charge
	q := product / sum * limit / (s.cation.charge*s.anion.conductivity + s.anion.charge*s.cation.conductivity)
	return limit, relaxation*product*q/(1+math.Sqrt(q))*limit + electrophoresis*sum
}
