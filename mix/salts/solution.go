package salts

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/units"
)

// Solution is a stock solution: one compound in pure water. It is made by
// Saturated, Dissolve or Stock, which refuse what does not dissolve.
type Solution struct {
	Compound    Compound
	Content     units.MassPerKilogram // of the compound as weighed, in the solution
	Temperature units.Temperature
}

// Saturated returns the strongest solution at a temperature. A stock that
// should stay clear in a cooler room has to be made for the coldest day, and
// with some margin.
func Saturated(c Compound, t units.Temperature) (Solution, error) {
	content, err := c.Solubility(t)
	if err != nil {
		return Solution{}, err
	}
	return Solution{c, content, t}, nil
}

// Dissolve returns the solution of a mass of the compound in a mass of pure
// water. More than dissolves is an *units.InputError that says how much would; what
// that stands on tells [Compound.Bound].
func Dissolve(c Compound, m, water units.Mass, t units.Temperature) (Solution, error) {
	if err := input.Positive("solution."+c.String(), m.Grams(), "g"); err != nil {
		return Solution{}, err
	}
	if err := input.Positive("water", water.Grams(), "g"); err != nil {
		return Solution{}, err
	}
	bound, err := c.Bound(t)
	if err != nil {
		return Solution{}, err
	}
	most := Solution{c, bound.Content, t}
	s := Solution{c, units.MassPerKilogram(m/(m+water)*1000) * units.GramPerKilogram, t}
	if s.Content > most.Content {
		text := "at most " + input.Number(most.Into(water).Grams()) + " g in so much water"
		if bound.By != ByHandbook {
			text += " (" + bound.By.String() + ")"
		}
		return Solution{}, input.Bad("solution."+c.Formula(), input.Number(m.Grams())+" g", text)
	}
	return s, nil
}

// Stock returns the solution with so many grams of the compound in a litre of
// it, made up to the mark at a temperature. More than dissolves is an
// *units.InputError that says how much would, see [Compound.Bound]. Where the density of the saturated
// solution was not measured, that is told from its content and the density of
// no such brine, 1.6 kg/L; what may dissolve then, but is
// stronger than the measured densities, fails as Density does.
func Stock(c Compound, perLitre units.MassPerLitre, t units.Temperature) (Solution, error) {
	if err := input.Positive("content", perLitre.GramsPerLitre(), "g/L"); err != nil {
		return Solution{}, err
	}
	bound, err := c.Bound(t)
	if err != nil {
		return Solution{}, err
	}
	most := Solution{c, bound.Content, t}
	strongest, err := most.PerLitre()
	if err != nil { // saturated is beyond the measured densities
		if limit := most.Content.GramsPerKilogram() * heaviest; perLitre.GramsPerLitre() > limit {
			return Solution{}, input.Bad("content", input.Number(perLitre.GramsPerLitre())+" g/L of "+c.Formula(),
				"at most what dissolves, certainly below "+input.Number(limit)+" g/L")
		}
		fit, known := c.Anhydrous().laliberte()
		if !known || t.Celsius() < fit.coldest || t.Celsius() > fit.hottest {
			return Solution{}, err
		}
		most.Content = c.content(fit.most)
		if strongest, err = most.PerLitre(); err != nil {
			return Solution{}, err
		}
		measured := units.Range{
			Quantity: "content",
			Max:      math.Floor(strongest.GramsPerLitre()),
			Unit:     "g/L",
			Source:   "density of stronger " + c.Formula() + " not measured",
		}
		if err := measured.Check(perLitre.GramsPerLitre()); err != nil {
			return Solution{}, err
		}
	}
	if perLitre > strongest {
		return Solution{}, input.Bad("content", input.Number(perLitre.GramsPerLitre())+" g/L of "+c.Formula(),
			"at most "+input.Number(strongest.GramsPerLitre())+" g/L")
	}
	excess := func(grams float64) float64 {
		s := Solution{c, units.MassPerKilogram(grams) * units.GramPerKilogram, t}
		got, err := s.PerLitre()
		if err != nil {
			return math.NaN()
		}
		return got.GramsPerLitre() - perLitre.GramsPerLitre()
	}
	grams, ok := solve.Brent(excess, 0, most.Content.GramsPerKilogram(), 1e-12)
	if !ok {
		return Solution{}, units.ErrNoConvergence
	}
	return Solution{c, units.MassPerKilogram(grams) * units.GramPerKilogram, t}, nil
}

// heaviest is above the density, in kg/L, of the saturated solutions that have
// no measured one: the heaviest are those of sodium hydroxide and zinc sulfate,
// near 1.55 (from memory).
const heaviest = 1.6

// Into returns the mass of the compound that makes the solution of a mass of
// pure water.
func (s Solution) Into(water units.Mass) units.Mass {
	g := s.Content.GramsPerKilogram()
	return water * units.Mass(g/(1000-g))
}

// PerLitre returns the mass of the compound, as weighed, in a litre of the
// solution at its temperature. It fails as Density does.
func (s Solution) PerLitre() (units.MassPerLitre, error) {
	d, err := s.Density()
	if err != nil {
		return input.NaN[units.MassPerLitre](), err
	}
	return s.Content.PerLitre(d), nil
}

// AmountPerLitre returns the amount of the compound in a litre of the solution
// at its temperature. It fails as Density does.
func (s Solution) AmountPerLitre() (units.AmountPerLitre, error) {
	c, err := s.PerLitre()
	if err != nil {
		return input.NaN[units.AmountPerLitre](), err
	}
	return s.Compound.MolarMass().AmountPerLitre(c), nil
}

// Density returns the density of the solution at its temperature.
//
//	symbol   1/ρ = (1 - w)/ρ_w + w/ρ_a,  ρ_a = (c0 w + c1) exp(1e-6 (t + c4)²)/(w + c2 + c3 t)
//	source   Laliberté 2009, J. Chem. Eng. Data 54, 1725-1760; ρ_w in the form of Kell 1975
//	units    w mass fraction of anhydrous solute, t °C, kg/m³
//	range    that of the measurements, given with each solute; within 1.1 kg/m³ of the CRC
//	         table at 20 °C and up to 30 % (MgCl2 1.7, NaOH 2.0, LiCl 1.4, FeCl3 1.5, KHCO3 3.3,
//	         CH3COONa 2.4, C2H5OH 3.8); NaCl 0.9 kg/m³ low at 0 °C
//	outside  NaN and a *units.RangeError
//
// A solute without measurements in that source, such as Ca(OH)2, has a density
// up to 0.5 % by mass, from 0 to 100 °C: halfway between that of water and that
// of a solute which takes no room, which no solution there misses by more than
// a quarter of a percent. Stronger it is NaN and an *units.InputError.
func (s Solution) Density() (units.Density, error) {
	none := input.NaN[units.Density]()
	if err := input.Set("temperature", s.Temperature); err != nil {
		return none, err
	}
	if !s.Compound.Exists() {
		return none, input.Bad("compound", "none", "a compound")
	}
	w, t := s.Content.GramsPerKilogram()/1000/s.Compound.dilution(), s.Temperature.Celsius()
	fit, known := s.Compound.Anhydrous().laliberte()
	most := s.Compound.content(fit.most)
	if !known && s.Content > most {
		return none, input.Bad("solution."+s.Compound.Formula(), s.Content.String(),
			"a solute with measured densities, or at most "+most.String())
	}
	if err := (units.Range{
		Quantity: "temperature",
		Min:      fit.coldest,
		Max:      fit.hottest,
		Unit:     "°C",
		Source:   fit.source,
	}).Check(t); err != nil {
		return none, err
	}
	if err := (units.Range{
		Quantity: "content",
		Max:      most.GramsPerKilogram(),
		Unit:     "g/kg",
		Source:   fit.source,
	}).Check(s.Content.GramsPerKilogram()); err != nil {
		return none, err
	}
	water := kell(t)
	if !known {
		return units.Density(water*(1+w/2)) * units.KilogramPerCubicMetre, nil
	}
	return units.Density(1/((1-w)/water+w/fit.apparent(w, t))) * units.KilogramPerCubicMetre, nil
}

// kell is the density of water at t °C, kg/m³.
func kell(t float64) float64 { return poly.P5(t, &kellCoef) / (1 + kellDivisor*t) }

// apparent is the density of a solute in a solution with a mass fraction w of all solutes, kg/m³.
func (s *solute) apparent(w, t float64) float64 {
	return (s.c0*w + s.c1) * math.Exp(1e-6*(t+s.c4)*(t+s.c4)) / (w + s.c2 + s.c3*t)
}

// unmeasured stands for a solute without coefficients: water and little else.
var unmeasured = solute{coldest: 0, hottest: 100, most: 0.005, source: "density of a solution that is almost water"}

// dilution is the mass of the compound over that of its anhydrous part.
func (c Compound) dilution() float64 {
	return float64(c.MolarMass() / c.Anhydrous().MolarMass())
}

// content returns a mass fraction of anhydrous solute as content of the compound.
func (c Compound) content(w float64) units.MassPerKilogram {
	return units.MassPerKilogram(w*c.dilution()*1000) * units.GramPerKilogram
}

func (c Compound) laliberte() (fit solute, known bool) {
	for i := range laliberteCoef {
		if laliberteCoef[i].formula == c.Formula() {
			return laliberteCoef[i], true
		}
	}
	return unmeasured, false
}
