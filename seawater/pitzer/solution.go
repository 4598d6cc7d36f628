package pitzer

import (
	"cmp"
	"math"
	"slices"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/units"
)

// checkTemperature refuses what is not set and what is outside the range in which the
// model has been compared with measurements.
func checkTemperature(t units.Temperature) error {
	if err := input.Set("temperature", t); err != nil {
		return err
	}
	return holds.Check(t.Celsius())
}

var (
	holds  = units.Range{Quantity: "temperature", Min: 0, Max: 50, Unit: "°C", Source: "the parameters"}
	strong = units.Range{Quantity: "ionic strength", Max: 20, Unit: "mol/kg", Source: "the model"}
	full   = units.Range{Quantity: "neutral species", Max: 5, Unit: "mol/kg", Source: "the model"} // CO2, boric acid
)

// inRange refuses what the parameters say nothing of: beyond it the equations have solutions
// that no water has.
func (s *state) inRange() error {
	if err := strong.Check(s.strength); err != nil {
		return err
	}
	neutral := 0.
	for j := firstNeutral; j < speciesEnd; j++ {
		neutral += s.m[j]
	}
	return full.Check(neutral)
}

// Solution is a brine at a temperature with all its species in equilibrium, nothing fallen
// out and no gas exchanged: what [Solve] makes.
type Solution struct {
	brine       Brine
	temperature units.Temperature
	warmth      warmth
	k           [len(reactions)]float64
	shift       float64
	state
}

// Solve distributes what is dissolved over the species of the model.
//
//	range    0 to 50 °C; ionic strength up to 20, neutral species up to 5 mol/kg; single salts as
//	         [Solution.Known] tells
//	outside  *units.RangeError; beyond what Known tells extrapolates
//	errors   an amount below zero or not finite: *units.InputError; no equilibrium found:
//	         units.ErrNoConvergence
//
// The pH follows from the balance of the charges. Where salts of strong acids and bases
// alone are dissolved it hangs on their last digits, and means nothing.
func Solve(b Brine, t units.Temperature) (Solution, error) {
	if err := b.Check(); err != nil {
		return Solution{}, err
	}
	if err := checkTemperature(t); err != nil {
		return Solution{}, err
	}
	var k model
	k.set(t.Kelvin())
	n := b.totals()
	return k.solution(&b, t, &n)
}

// solution solves and packs what was found.
func (k *model) solution(b *Brine, t units.Temperature, n *totals) (Solution, error) {
	s := Solution{brine: *b, temperature: t, warmth: k.warmth, k: k.k}
	if !k.speciate(n, &s.state) {
		return Solution{}, units.ErrNoConvergence
	}
	if err := s.inRange(); err != nil {
		return Solution{}, err
	}
	s.shift = k.shift(&s.state)
	return s, nil
}

// AtTotalPH solves a brine to which as much sodium hydroxide or hydrochloric acid has been
// added as gives it a pH on the total scale.
//
//	range    as [Solve]; pH 1 to 13
//	errors   as [Solve]; a pH that no amount up to 5 mol/kg gives: *units.InputError
func AtTotalPH(b Brine, t units.Temperature, ph float64) (Solution, error) {
	if err := (units.Range{Quantity: "pH", Min: 1, Max: 13}).Check(ph); err != nil {
		return Solution{}, err
	}
	if _, err := Solve(b, t); err != nil {
		return Solution{}, err
	}
	var k model
	k.set(t.Kelvin())
	var s Solution
	over := func(base float64) float64 {
		with := b
		if base > 0 {
			with.Sodium += units.AmountPerKilogram(base * perMole)
		} else {
			with.Chloride -= units.AmountPerKilogram(base * perMole)
		}
		n := with.totals()
		s, _ = k.solution(&with, t, &n)
		return s.TotalPH() - ph
	}
	n := b.totals()
	neutral := -n.excess() // with which no weak acid is dissociated
	base, ok := solve.Brent(over, neutral-1, neutral+5, 1e-12)
	if !ok {
		return Solution{}, input.Bad("pH", input.Number(ph), "one that up to 5 mol/kg of acid or base give")
	}
	over(base)
	return s, nil
}

// Brine returns what is dissolved.
func (s *Solution) Brine() Brine { return s.brine }

// Temperature returns the temperature for which it was solved.
func (s *Solution) Temperature() units.Temperature { return s.temperature }

// Molality returns the content of one species, per kilogram of water.
func (s *Solution) Molality(of Species) units.AmountPerKilogram {
	if of >= speciesEnd {
		return input.NaN[units.AmountPerKilogram]()
	}
	return units.AmountPerKilogram(s.m[of] * perMole)
}

// ActivityCoefficient returns γ of one species, on the molal scale. That of a single ion
// cannot be measured: it is given on the scale of MacInnes, on which chloride and
// potassium in a solution of potassium chloride have the same. Mean coefficients,
// saturation and all else do not depend on it, but for [Solution.PH].
//
//	symbol   ln γ = ln γ(Pitzer) + z d
func (s *Solution) ActivityCoefficient(of Species) float64 {
	if of >= speciesEnd {
		return math.NaN()
	}
	return math.Exp(s.gamma[of] + speciesTable[of].charge*s.shift)
}

// MeanActivityCoefficient returns γ± of a cation and an anion, as tables print it of a salt.
//
//	symbol   γ± = (γc^|za| γa^zc)^(1/(zc+|za|))
//	outside  two charges of one sign or none: NaN
func (s *Solution) MeanActivityCoefficient(cation, anion Species) float64 {
	if cation >= firstAnion || anion < firstAnion || anion >= firstNeutral {
		return math.NaN()
	}
	c, a := speciesTable[cation].charge, -speciesTable[anion].charge
	return math.Exp((a*s.gamma[cation] + c*s.gamma[anion]) / (a + c))
}

// Osmotic returns the osmotic coefficient φ, for the sum of all species.
func (s *Solution) Osmotic() float64 { return s.osmotic }

// WaterActivity returns the activity of water, the vapour pressure over that of pure water.
//
//	symbol   ln a = -φ Σm/55.50837
func (s *Solution) WaterActivity() float64 { return math.Exp(s.water) }

// IonicStrength returns I = ½ Σ m z², mol per kg of water, over all species.
func (s *Solution) IonicStrength() float64 { return s.strength }

// PH returns -log10 of the activity of the hydrogen ion on the scale of MacInnes. It is not
// what an electrode set in dilute buffers shows in seawater; see [Solution.TotalPH].
func (s *Solution) PH() float64 {
	return -(math.Log(s.m[Hydrogen]) + s.gamma[Hydrogen] + s.shift) / ln10
}

// MolalPH returns -log10 of the molality of the hydrogen ion, which does not depend on any
// scale of single ions.
func (s *Solution) MolalPH() float64 { return -math.Log10(s.m[Hydrogen]) }

// TotalPH returns the pH on the total scale: hydrogen ions and bisulfate per kilogram of
// solution.
func (s *Solution) TotalPH() float64 {
	return -math.Log10((s.m[Hydrogen] + s.m[Bisulfate]) / s.mass())
}

// mass is kg of solution per kg of water.
func (s *Solution) mass() float64 {
	sum := 1.
	for i, m := range s.m {
		if m > 0 {
			sum += m * float64(Species(i).MolarMass()) / 1000
		}
	}
	return sum
}

// Saturation returns the saturation index of a solid: zero in equilibrium, above zero it
// can fall out. Whether and when it does, the index does not tell: aragonite and calcite
// stay in seawater far above zero, dolomite never comes.
//
//	symbol   SI = log10(IAP/K)
//	source   [PHREEQC], [A15]
//	outside  without the ions of the solid: -Inf
//	errors   a solid of which the source has no sound constant, or of one for 25 °C only more than
//	         1 K off: *units.InputError, *units.RangeError
//
// Aragonite is taken as the source evaluates it, log K = -8.219 at 25 °C; the fit of
// Plummer and Busenberg (1982), which the source means, is -8.336: by that the index is
// 0.117 higher.
func (s *Solution) Saturation(of Solid) (float64, error) {
	if err := of.usable(s.temperature); err != nil {
		return math.NaN(), err
	}
	return s.index(of), nil
}

// index is the saturation index without asking whether its constant is sound.
func (s *Solution) index(of Solid) float64 {
	r := &solids[of]
	return (s.product(r) - r.lnK(&s.warmth, &s.k)) / ln10
}

// product is ln of the product of activities of a solid.
func (s *state) product(r *solidRow) float64 {
	ln := r.water * s.water
	if r.hydrogen != 0 {
		ln += r.hydrogen * (math.Log(s.m[Hydrogen]) + s.gamma[Hydrogen])
	}
	for _, x := range r.of {
		if x.n != 0 {
			ln += x.n * (math.Log(s.m[x.of]) + s.gamma[x.of])
		}
	}
	return ln
}

// Saturated is a solid and its saturation index.
type Saturated struct {
	Solid Solid
	Index float64
}

// AboveSaturation lists the solids that can fall out, the most oversaturated first,
// without those that do not form in practice or whose constants are refused.
func (s *Solution) AboveSaturation() []Saturated {
	var list []Saturated
	for x := Halite; x < solidEnd; x++ {
		if solids[x].grade == neverForms || !x.judged(s.temperature) {
			continue
		}
		if index := s.index(x); index > 0 {
			list = append(list, Saturated{x, index})
		}
	}
	slices.SortFunc(list, func(a, b Saturated) int { return cmp.Compare(b.Index, a.Index) })
	return list
}
