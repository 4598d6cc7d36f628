package salts

import (
	"errors"
	"math"
	"slices"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/pitzer"
	"example.org/wellmixed/units"
)

// Part is so much of a compound.
type Part struct {
	Compound Compound
	Mass     units.Mass
}

// Bottle is a stock of one or several compounds in one bottle of pure water, and the coldest and
// the warmest that it gets.
type Bottle struct {
	Parts      []Part
	Water      units.Mass
	Cold, Warm units.Temperature
}

// Strength is how strong a bottle can be made.
type Strength struct {
	Parts []Part            // in the water of the bottle, where the first solid falls out
	By    pitzer.Solid      // that falls out first
	At    units.Temperature // where it does
	// Within is the largest known difference of the model's own solubility of that solid from
	// measured ones; NaN: not compared.
	Within units.Fraction
	// Open: no solid of the model falls out up to here. It ends where comparison with
	// measurements does, see [pitzer.Limit], or where one of the compounds, Alone, would be
	// saturated in pure water: the model has no solid of it, and in company it may dissolve less,
	// or more.
	Open  bool
	Alone Compound
}

// Ground is what lies at the bottom at a temperature.
type Ground struct {
	At     units.Temperature
	Solids []pitzer.Deposit
}

// Verdict is whether a bottle stays clear.
type Verdict struct {
	Whole pitzer.Verdict
	Pairs []pitzer.Verdict // each two of its compounds as if they shared a bottle, in this strength
	// Ground is what falls out at the coldest and at the warmest if equilibrium is reached, by
	// the model's own constants, so of the solids only that have sound ones.
	Ground []Ground
}

// Clear tells whether nothing can fall out, as far as can be judged.
func (v Verdict) Clear() bool { return v.Whole.Clear() }

// MadeUp returns the bottle of a litre with so much of each compound in it, made up to the mark
// at a temperature: how much water that takes. The bottle is for that temperature.
//
//	errors   as [Bottle.Density]; more than a litre holds: *units.InputError
func MadeUp(parts []Part, at units.Temperature) (Bottle, error) {
	b := Bottle{Parts: parts, Water: units.Kilogram, Cold: at, Warm: at}
	if _, err := b.Density(at); err != nil && !errors.Is(err, units.ErrRange) {
		return Bottle{}, err
	}
	all := units.Mass(0)
	for _, p := range parts {
		all += p.Mass
	}
	over := func(grams float64) float64 { // of a litre
		b.Water = units.Mass(grams) * units.Gram
		d, err := b.Density(at)
		if err != nil {
			return math.NaN()
		}
		return float64((all+b.Water)/units.Kilogram)/d.GramsPerMillilitre() - 1
	}
	grams := 1000. // with less and less water until it fits
	for x := over(grams); !(x < 0); x = over(grams) {
		if grams *= 0.9; grams < 1 || math.IsNaN(x) {
			_, err := b.Density(at)
			if err == nil {
				err = input.Bad("parts", all.String(), "less than a litre of solution holds")
			}
			return Bottle{}, err
		}
	}
	grams, ok := solve.Brent(over, grams, min(1000, grams/0.9), 1e-12)
	if !ok {
		return Bottle{}, units.ErrNoConvergence
	}
	b.Water = units.Mass(grams) * units.Gram
	return b, nil
}

// Density returns the density of the bottle at a temperature, all dissolved.
//
//	symbol   1/ρ = (1 - w)/ρ_w + Σ w_i/ρ_a,i(w), w = Σ w_i
//	source   Laliberté and Cooper 2004, J. Chem. Eng. Data 49, 1141-1151, with the apparent densities
//	         of [Solution.Density]
//	range    that of each compound alone at all of the content
//	outside  NaN and a *units.RangeError; a compound without measured densities *units.InputError
func (b Bottle) Density(at units.Temperature) (units.Density, error) {
	none := input.NaN[units.Density]()
	if err := input.Join(b.check(), input.Set("temperature", at)); err != nil {
		return none, err
	}
	all, dry := b.Water, units.Mass(0)
	for _, p := range b.Parts {
		all += p.Mass
		dry += p.Mass / units.Mass(p.Compound.dilution())
	}
	w, t := float64(dry/all), at.Celsius()
	volume := (1 - w) / kell(t)
	for i, p := range b.Parts {
		fit, known := p.Compound.Anhydrous().laliberte()
		if !known {
			return none, input.In(input.At("parts", i), input.Bad("compound", p.Compound.Formula(),
				"one whose solutions have measured densities"))
		}
		err := input.Join(units.Range{
			Quantity: "temperature", Min: fit.coldest, Max: fit.hottest, Unit: "°C", Source: fit.source,
		}.Check(t), units.Range{
			Quantity: "content", Max: fit.most * 1000, Unit: "g/kg, anhydrous", Source: fit.source,
		}.Check(w*1000))
		if err != nil {
			return none, input.In(input.At("parts", i), err)
		}
		volume += float64(p.Mass/all) / p.Compound.dilution() / fit.apparent(w, t)
	}
	return units.Density(1/volume) * units.KilogramPerCubicMetre, nil
}

// anchors are the solids that lie under the tabulated solubilities of the compounds, at
// temperatures in °C.
//
//	source   the hydrates beside the table; of calcium and strontium chloride, bromides and
//	         others package pitzer has no solid
var anchors = [...]struct {
	formula    string
	solid      pitzer.Solid
	cold, warm float64
}{
	{"NaCl", pitzer.Halite, 0, 50},
	{"KCl", pitzer.Sylvite, 0, 50},
	{"CaSO4.2H2O", pitzer.Gypsum, 0, 40},
	{"Na2SO4", pitzer.Mirabilite, 0, 30},
	{"Na2SO4", pitzer.Thenardite, 40, 50},
	{"MgSO4", pitzer.Epsomite, 0, 40},
	{"MgCl2", pitzer.Bischofite, 0, 50},
	{"K2SO4", pitzer.Arcanite, 0, 50},
	{"NaHCO3", pitzer.Nahcolite, 0, 50},
	{"Na2CO3", pitzer.Natron, 0, 30},
	{"KHCO3", pitzer.Kalicinite, 0, 50},
	{"H3BO3", pitzer.Sassolite, 0, 50},
	{"Na2B4O7", pitzer.Borax, 20, 50},
	{"Ca(OH)2", pitzer.Portlandite, 0, 50},
}

// Strongest returns the strongest bottle of the same proportions that is clear from the coldest
// to the warmest temperature.
//
//	source   ion-interaction model, see [pitzer.Stock]; in water of one compound the solubilities
//	         are those of [Compound.Solubility], and the model says what the others do to them
//	range    0 to 50 °C
//	errors   a compound that the model does not know, such as phosphate, iodate, acetate, iron(III)
//	         or sugar, or one that would be limited by a solid whose solubility is not known at the
//	         temperatures: *units.InputError, *units.RangeError; units.ErrNoConvergence
//
// It is equilibrium: a stock with a margin stays clear longer.
func (b Bottle) Strongest() (Strength, error) {
	if err := b.known(); err != nil {
		return Strength{}, err
	}
	limit, err := b.stock().Strongest()
	if err != nil {
		return Strength{}, err
	}
	s := Strength{By: limit.By, At: limit.At, Within: limit.Within, Open: limit.Open}
	part := 1.
	if s.Open {
		part, s.Alone = b.alone(limit.Salts)
	}
	for i, p := range b.Parts {
		mass := limit.Salts[i].Mass * units.Mass(part*b.Water.Kilograms())
		s.Parts = append(s.Parts, Part{p.Compound, mass})
	}
	return s, nil
}

// alone returns to which part a stock has to be thinned until none of its compounds is more than
// dissolves of it in pure water at the coldest and at the warmest, and the compound that is.
func (b Bottle) alone(salts []pitzer.Addition) (part float64, c Compound) {
	part = 1
	for i, p := range b.Parts {
		for _, t := range [...]units.Temperature{b.Cold, b.Warm} {
			saturated, err := Saturated(p.Compound, t)
			if err != nil {
				continue
			}
			if most := float64(saturated.Into(units.Kilogram) / salts[i].Mass); most < part {
				part, c = most, p.Compound
			}
		}
	}
	return part, c
}

// Judge tells what falls out of the bottle as it is, and which of its compounds may share it.
//
//	source   as [Bottle.Strongest]; the amounts on the ground by [pitzer.Dissolve]
//	errors   as [Bottle.Strongest]
func (b Bottle) Judge() (Verdict, error) {
	if err := b.known(); err != nil {
		return Verdict{}, err
	}
	stock := b.stock()
	whole, pairs, err := stock.Judge()
	if err != nil {
		return Verdict{}, err
	}
	v := Verdict{Whole: whole, Pairs: pairs}
	for _, t := range [...]units.Temperature{b.Cold, b.Warm} {
		m, err := pitzer.Dissolve(pitzer.Batch{Water: units.Kilogram, Add: stock.Salts, Temperature: t})
		if err != nil {
			return Verdict{}, err
		}
		for i := range m.Solids {
			m.Solids[i].Mass *= units.Mass(b.Water.Kilograms())
			m.Solids[i].Added *= units.Mass(b.Water.Kilograms())
		}
		v.Ground = append(v.Ground, Ground{At: t, Solids: m.Solids})
	}
	return v, nil
}

func (b Bottle) check() error {
	errs := []error{input.Positive("water", b.Water.Grams(), "g")}
	if len(b.Parts) == 0 {
		errs = append(errs, input.Bad("parts", "nothing", "a compound"))
	}
	for i, p := range b.Parts {
		if !p.Compound.Exists() {
			errs = append(errs, input.In(input.At("parts", i), input.Bad("compound", "none", "a compound")))
			continue
		}
		errs = append(errs, input.In(input.At("parts", i), input.Positive("mass", p.Mass.Grams(), "g")))
	}
	return input.Join(errs...)
}

// known refuses what the ion-interaction model does not know.
func (b Bottle) known() error {
	errs := []error{b.check()}
	for i, p := range b.Parts {
		if c := p.Compound; c.Exists() &&
			(len(compounds[c.index].release) == 0 || pitzer.CheckFormula(c.Formula()) != nil) {
			errs = append(errs, input.In(input.At("parts", i), input.Bad("compound", c.String(),
				"a salt, acid or base that the ion-interaction model knows")))
		}
	}
	return input.Join(errs...)
}

// stock is the bottle for a kilogram of water.
func (b Bottle) stock() pitzer.Stock {
	s := pitzer.Stock{Cold: b.Cold, Warm: b.Warm}
	for _, p := range b.Parts {
		s.Salts = append(s.Salts, pitzer.Addition{
			Formula: p.Compound.Formula(), Mass: p.Mass / units.Mass(b.Water.Kilograms()),
		})
	}
	for _, a := range anchors {
		c := of(a.formula)
		if !b.holds(c) {
			continue
		}
		for at := range s.Temperatures() {
			if at.Celsius() < a.cold || at.Celsius() > a.warm {
				continue
			}
			if saturated, err := Saturated(c, at); err == nil {
				s.Measured = append(s.Measured, pitzer.Solubility{
					Solid: a.solid, At: at, Salt: pitzer.Addition{Formula: a.formula, Mass: saturated.Into(units.Kilogram)},
				})
			}
		}
	}
	return s
}

// holds tells whether the bottle has all that a compound is made of, whichever of its parts
// brings it; carbonate, borate and hydroxide come in several forms and are taken to be there.
func (b Bottle) holds(c Compound) bool {
	for _, r := range compounds[c.index].release {
		switch r.Ion {
		case ions.Bicarbonate, ions.Carbonate, ions.Hydroxide, ions.BoricAcid, ions.Borate:
			continue
		}
		if !slices.ContainsFunc(b.Parts, func(p Part) bool { return p.Compound.Gives(r.Ion) > 0 }) {
			return false
		}
	}
	return true
}

// of is a compound of the table by its formula.
func of(formula string) Compound {
	for c := range All() {
		if c.Formula() == formula {
			return c
		}
	}
	return Compound{}
}
