package recipe

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Basis says what the amounts of a recipe refer to. Taking one for another is
// wrong by 2 to 4 %.
type Basis uint8

// The bases.
const (
	PerKilogram        Basis = iota + 1 // of finished solution
	PerLitre                            // of finished solution, at 20 °C
	PerKilogramOfWater                  // crystal water counted as water

	bases
)

// String returns "per kg of solution", "per L of solution" or "per kg of water".
func (b Basis) String() string {
	switch b {
	case PerKilogram:
		return "per kg of solution"
	case PerLitre:
		return "per L of solution"
	case PerKilogramOfWater:
		return "per kg of water"
	}
	return "no basis"
}

// MarshalText writes the basis.
func (b Basis) MarshalText() ([]byte, error) {
	return input.WriteChoice("basis", b, PerKilogram, bases)
}

// UnmarshalText reads what MarshalText writes.
func (b *Basis) UnmarshalText(text []byte) (err error) {
	*b, err = input.ReadChoice("basis", text, PerKilogram, bases)
	return err
}

// litreAt is the temperature of the litre: no recipe states it.
func litreAt() units.Temperature { return units.Celsius(20) }

// Item is so much of a compound, in a recipe as printed: either a mass or an
// amount in moles.
type Item struct {
	Compound salts.Compound
	Mass     units.Mass
	Moles    float64
}

func (i Item) moles() float64 {
	if i.Moles != 0 {
		return i.Moles
	}
	return i.Compound.Moles(i.Mass)
}

// Recipe is an artificial seawater, as it was published or as someone writes
// it.
type Recipe struct {
	Name   string
	Source string
	Basis  Basis
	Items  []Item
	Notes  []string // what is known to be wrong, doubtful or left out
}

// check refuses what is no recipe.
func (r Recipe) check() error {
	if r.Basis < PerKilogram || r.Basis > PerKilogramOfWater {
		return input.Bad("basis", r.Basis.String(), "per kg of solution, per L of solution or per kg of water")
	}
	if len(r.Items) == 0 {
		return input.Bad("recipe", "no items", "at least one compound")
	}
	for i, item := range r.Items {
		name := input.At("items", i)
		if !item.Compound.Exists() {
			return input.Bad(name, "no compound", "a compound")
		}
		if item.Mass != 0 && item.Moles != 0 {
			return input.Bad(name, "a mass and an amount of "+item.Compound.Formula(), "one of them")
		}
		if err := input.Positive(name, item.moles(), "mol of "+item.Compound.Formula()); err != nil {
			return err
		}
	}
	return nil
}

// Composition returns what the recipe makes, per kilogram of solution, as the
// compounds release it: before carbon and boron settle and before the air has
// its say ([ions.Composition.Settled]).
//
//	symbol   per kg of solution c = Σ ν n;  per L c/ρ;  per kg of water c/(1 + Σ n M/1000),
//	         M of the anhydrous compounds, g/mol
func (r Recipe) Composition() (ions.Composition, error) {
	amounts, err := r.amounts()
	if err != nil {
		return ions.Composition{}, err
	}
	return compose(r.Items, amounts), nil
}

// amounts returns the moles of each item in a kilogram of solution.
func (r Recipe) amounts() ([]float64, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	amounts := make([]float64, len(r.Items))
	var dry float64 // kg
	for i, item := range r.Items {
		amounts[i] = item.moles()
		dry += amounts[i] * item.Compound.Anhydrous().MolarMass().GramsPerMole() / 1000
	}
	perKilogram := 1.0
	switch r.Basis {
	case PerKilogramOfWater:
		perKilogram = 1 / (1 + dry)
	case PerLitre:
		var err error
		if perKilogram, err = litresInKilogram(compose(r.Items, amounts)); err != nil {
			return nil, err
		}
	}
	for i := range amounts {
		amounts[i] *= perKilogram
	}
	water := 1.0
	for i, item := range r.Items {
		water -= item.Compound.Mass(amounts[i]).Kilograms()
	}
	if !(water > 0) {
		return nil, input.Bad("recipe", "more salt than solution", "some water in a kilogram")
	}
	return amounts, nil
}

// litresInKilogram finds the volume of a kilogram of the solution that holds
// so much in a litre. Density moves by some 3 % of what the salt does, so each
// round gains more than a digit.
func litresInKilogram(inLitre ions.Composition) (float64, error) {
	litres := 1.0
	for range 30 {
		c := inLitre.Scale(litres)
		d, err := densityOf(c, litreAt())
		if err != nil {
			return 0, err
		}
		next := 1 / d.GramsPerMillilitre()
		if math.Abs(next-litres) <= 1e-13 {
			return next, nil
		}
		litres = next
	}
	return 0, units.ErrNoConvergence
}

// compose adds up what so many moles of each item bring.
func compose(items []Item, moles []float64) ions.Composition {
	var c ions.Composition
	for i, item := range items {
		c = c.Plus(item.Compound.Dose(units.AmountPerKilogram(moles[i]) * units.MolePerKilogram))
	}
	return c
}

// Salinity returns the salinity of the recipe by its chlorinity, as the
// authors of recipes reckon.
//
//	symbol   S = 1.80655 Cl
//	source   Wooster, Lee and Dietrich 1969, Limnol. Oceanogr. 14, 437-438; the same number in
//	         the definition of the practical salinity scale 1978
func (r Recipe) Salinity() (units.PracticalSalinity, error) {
	c, err := r.Composition()
	if err != nil {
		return units.Practical(math.NaN()), err
	}
	return byChlorinity(c), nil
}

const perChlorinity = 1.80655

func byChlorinity(c ions.Composition) units.PracticalSalinity {
	return units.Practical(perChlorinity * c.Chlorinity().GramsPerKilogram())
}

// Batch returns what to weigh for a volume of the recipe at a temperature,
// brought to a salinity: everything in proportion, so that the chlorinity is
// S/1.80655. Compounds are counted as pure; for what stands on the shelf, give
// the composition of the recipe to Solve.
func (r Recipe) Batch(s units.PracticalSalinity, v units.Volume, t units.Temperature) (Batch, error) {
	amounts, err := r.amounts()
	if err != nil {
		return Batch{}, err
	}
	if err := input.Positive("salinity", s.Value(), ""); err != nil {
		return Batch{}, err
	}
	own := byChlorinity(compose(r.Items, amounts)).Value()
	if !(own > 0) {
		return Batch{}, input.Bad("recipe", "no chloride", "chloride, by which it is scaled")
	}
	items := make([]Weighed, len(r.Items))
	for i, item := range r.Items {
		items[i] = Weighed{
			Reagent: salts.Reagent{Compound: item.Compound, Purity: units.Share(1)},
			Moles:   amounts[i] * s.Value() / own,
		}
	}
	return batch(items, v, t)
}
