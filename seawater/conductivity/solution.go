package conductivity

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/units"
)

// Solution is a salt, or mixture of salts, in whose terms dissolved-solids meters
// are graduated.
type Solution uint8

const (
	SodiumChloride             Solution = iota + 1
	PotassiumChloride                   // as in calibration fluids
	SulfateBicarbonateChloride          // by mass 40 % sodium sulfate, 40 % sodium hydrogen carbonate, 20 % sodium chloride: a natural fresh water
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
	mix := s.salts()
	if !(content >= 0 && content <= math.MaxFloat64) || len(mix) == 0 {
		return units.Conductivity(math.NaN())
	}
	strength := 0.0
	for i := range mix {
		strength += mix[i].strength() * mix[i].equivalents(float64(content))
	}
	root := math.Sqrt(strength)
	screening := root / (1 + ionSize*root)
	sum := 0.0
	for i := range mix {
		sum += mix[i].equivalents(float64(content)) * mix[i].equivalent(screening)
	}
	return units.Conductivity(sum) // eq/L times S cm²/eq is mS/cm
}

// Content returns how much of the salt the solution of the conductivity c at 25 °C
// holds: what a meter graduated with it calls dissolved solids. It is the inverse
// of Conductivity, to the last digits.
func (s Solution) Content(c units.Conductivity) units.MassPerLitre {
	if !possible(c) || len(s.salts()) == 0 {
		return units.MassPerLitre(math.NaN())
	}
	if c == 0 {
		return 0
	}
	// The slope of no salt here falls to a tenth of that at the start.
	most := 10 * float64(c) / float64(s.Conductivity(1))
	content, ok := solve.Brent(func(x float64) float64 {
		return float64(s.Conductivity(units.MassPerLitre(x)) - c)
	}, 0, most, 0)
	if !ok {
		return units.MassPerLitre(math.NaN())
	}
	return units.MassPerLitre(content)
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
	return input.Bad("solution", input.Number(float64(s)), "SodiumChloride, PotassiumChloride or SulfateBicarbonateChloride")
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

// equivalents returns the equivalents per litre in a solution of so many mg/L.
func (s *salt) equivalents(content float64) float64 {
	// A formula unit holds z- cations and z+ anions, or half of both.
	return s.share * content / 1000 / s.molarMass * s.cation.charge * s.anion.charge
}

// strength returns the ionic strength of one equivalent per litre.
func (s *salt) strength() float64 { return (s.cation.charge + s.anion.charge) / 2 }

// equivalent returns the equivalent conductivity, screening being √I/(1 + d √I).
func (s *salt) equivalent(screening float64) float64 {
	limit := s.cation.conductivity + s.anion.conductivity
	product, sum := s.cation.charge*s.anion.charge, s.cation.charge+s.anion.charge
	q := product / sum * limit / (s.cation.charge*s.anion.conductivity + s.anion.charge*s.cation.conductivity)
	return limit - (relaxation*product*q/(1+math.Sqrt(q))*limit+electrophoresis*sum)*screening
}
