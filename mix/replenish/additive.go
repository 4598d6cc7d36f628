package replenish

import (
	"errors"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Additive is what is dosed: a dry product, or a stock solution made of weighed
// compounds. It is made by [Dry] or [Stock]; the zero value is none.
type Additive struct {
	dry   salts.Reagent
	stock []Ingredient
}

// Ingredient is one of the compounds of a stock solution, and how many grams of
// it, as weighed, a litre of the finished solution holds.
type Ingredient struct {
	salts.Reagent
	PerLitre units.MassPerLitre
}

// Dry is a product that is weighed for each dose.
func Dry(r salts.Reagent) Additive { return Additive{dry: r} }

// Stock is a solution that is measured for each dose.
func Stock(ingredients ...Ingredient) Additive {
	return Additive{stock: append([]Ingredient(nil), ingredients...)}
}

// Exists tells whether there is an additive.
func (a Additive) Exists() bool { return a.dry.Compound.Exists() || len(a.stock) > 0 }

// String names what the additive is made of: "CaCl2.2H2O", "MgCl2.6H2O + MgSO4.7H2O in water".
func (a Additive) String() string {
	if !a.Exists() {
		return "nothing"
	}
	var text string
	for i, r := range a.reagents() {
		if i > 0 {
			text += " + "
		}
		text += r.Compound.Formula()
	}
	if a.isStock() {
		text += " in water"
	}
	return text
}

// isStock tells whether the additive is measured by volume.
func (a Additive) isStock() bool { return len(a.stock) > 0 }

// Amount is so much of an additive: a mass of a dry product, or a volume of a
// stock solution. The other one is zero.
type Amount struct {
	Mass   units.Mass
	Volume units.Volume
}

// String writes "12.5 g" or "40 mL", to six digits.
func (a Amount) String() string {
	if a.Volume != 0 {
		return input.Number(a.Volume.Millilitres()) + " mL"
	}
	return input.Number(a.Mass.Grams()) + " g"
}

// amount is so many grams or millilitres of the additive.
func (a Additive) amount(x float64) Amount {
	if a.isStock() {
		return Amount{Volume: units.Volume(x) * units.Millilitre}
	}
	return Amount{Mass: units.Mass(x) * units.Gram}
}

// count is the inverse of amount, and refuses the wrong one of the two.
func (a Additive) count(field string, amount Amount) (float64, error) {
	x, other, want := amount.Mass.Grams(), amount.Volume.Millilitres(), "a mass of the dry product"
	if a.isStock() {
		x, other, want = other, x, "a volume of the stock solution"
	}
	if other != 0 {
		return 0, input.Bad(field, amount.String(), want)
	}
	return x, input.NotNegative(field, x, "")
}

// per returns what a gram, or a millilitre, of the additive holds, in µmol. It
// is kept in a Composition, which counts the ions for any mass of water, and so
// for one kilogram.
func (a Additive) per() ions.Composition {
	hold := func(r salts.Reagent, m units.Mass) ions.Composition {
		moles := r.Compound.Moles(m * units.Mass(r.Purity))
		return r.Compound.Dose(units.AmountPerKilogram(moles) * units.MolePerKilogram)
	}
	if !a.isStock() {
		return hold(a.dry, 1*units.Gram)
	}
	var sum ions.Composition
	for _, i := range a.stock {
		sum = sum.Plus(hold(i.Reagent, i.PerLitre.Mass(1*units.Millilitre)))
	}
	return sum
}

// roomTemperature is where stock solutions are taken to stand.
func roomTemperature() units.Temperature { return units.Celsius(20) }

// check refuses an additive that cannot be made, and one whose effect is not
// worked out here. It returns what it had to assume.
func (a Additive) check(field string) (assumed []string, err error) {
	if !a.Exists() {
		return nil, input.Bad(field, "nothing", "an additive made by Dry or Stock")
	}
	for _, r := range a.reagents() {
		if err := input.In(field, r.Check()); err != nil {
			return nil, err
		}
		if err := workedOut(field, r.Compound); err != nil {
			return nil, err
		}
	}
	for n, i := range a.stock {
		name := i.Compound.Formula()
		if err := input.Positive(field+": "+name, i.PerLitre.GramsPerLitre(), "g/L"); err != nil {
			return nil, err
		}
		for _, other := range a.stock[:n] {
			if salt, clash := fallsOut(i.Compound, other.Compound); clash {
				return nil, input.Bad(field, name+" and "+other.Compound.Formula()+" in one solution", "two bottles: "+salt+" would fall out")
			}
		}
		note, err := dissolves(field, i)
		if err != nil {
			return nil, err
		}
		if note != "" {
			assumed = append(assumed, note)
		}
	}
	return assumed, nil
}

// reagents lists what the additive is made of.
func (a Additive) reagents() []salts.Reagent {
	if !a.isStock() {
		return []salts.Reagent{a.dry}
	}
	var list []salts.Reagent
	for _, i := range a.stock {
		list = append(list, i.Reagent)
	}
	return list
}

// workedOut refuses what is no replenishment: food for bacteria and ammonium,
// which change the water by what lives in it; and what does not dissolve in
// seawater.
func workedOut(field string, c salts.Compound) error {
	const want = "a salt of what the tank uses up"
	any := false
	for range c.Releases() {
		any = true
	}
	switch {
	case !any || c.Gives(ions.Acetate) != 0:
		return input.Bad(field, c.Formula(), want+": this is food for bacteria")
	case c.Gives(ions.Ammonium) != 0:
		return input.Bad(field, c.Formula(), want+": ammonium turns to poisonous ammonia")
	case c.Gives(ions.Carbonate) > 0 && c.Gives(ions.Sodium) == 0 && c.Gives(ions.Potassium) == 0:
		return input.Bad(field, c.Formula(), want+" that dissolves in seawater")
	}
	return nil
}

// fallsOut tells whether two compounds in one strong solution make a salt that
// does not dissolve, and which.
func fallsOut(a, b salts.Compound) (salt string, clash bool) {
	for _, pair := range [...]struct {
		cation, anion ions.Ion
		salt          string
	}{
		{ions.Calcium, ions.Carbonate, "calcium carbonate"},
		{ions.Calcium, ions.Bicarbonate, "calcium carbonate"},
		{ions.Calcium, ions.Sulfate, "gypsum"},
		{ions.Calcium, ions.Fluoride, "calcium fluoride"},
		{ions.Calcium, ions.Phosphate, "calcium phosphate"},
		{ions.Calcium, ions.Borate, "calcium borate"},
		{ions.Calcium, ions.Hydroxide, "calcium hydroxide"},
		{ions.Calcium, ions.Iodate, "calcium iodate"},
		{ions.Magnesium, ions.Carbonate, "magnesium carbonate"},
		{ions.Magnesium, ions.Bicarbonate, "magnesium carbonate"},
		{ions.Magnesium, ions.Hydroxide, "magnesium hydroxide"},
		{ions.Magnesium, ions.Fluoride, "magnesium fluoride"},
		{ions.Magnesium, ions.Phosphate, "magnesium phosphate"},
		{ions.Strontium, ions.Carbonate, "strontium carbonate"},
		{ions.Strontium, ions.Bicarbonate, "strontium carbonate"},
		{ions.Strontium, ions.Sulfate, "strontium sulfate"},
		{ions.Strontium, ions.Hydroxide, "strontium hydroxide"},
		{ions.Strontium, ions.Fluoride, "strontium fluoride"},
		{ions.Strontium, ions.Phosphate, "strontium phosphate"},
		{ions.Iron, ions.Phosphate, "iron phosphate"},
		{ions.Iron, ions.Carbonate, "iron hydroxide"},
		{ions.Iron, ions.Bicarbonate, "iron hydroxide"},
		{ions.Iron, ions.Hydroxide, "iron hydroxide"},
	} {
		if a.Gives(pair.cation) > 0 && b.Gives(pair.anion) > 0 || b.Gives(pair.cation) > 0 && a.Gives(pair.anion) > 0 {
			return pair.salt, true
		}
	}
	return "", false
}

// dissolves refuses a stock stronger than what dissolves at room temperature.
func dissolves(field string, i Ingredient) (assumed string, err error) {
	name := i.Compound.Formula()
	pure := i.PerLitre * units.MassPerLitre(i.Purity)
	if _, err := i.Compound.Solubility(roomTemperature()); err != nil {
		return "No solubility of " + name + " was at hand: that the stock dissolves was not checked.", nil
	}
	_, err = salts.Stock(i.Compound, pure, roomTemperature())
	var bad *units.InputError
	switch {
	case errors.As(err, &bad) && bad.Field == "content":
		return "", input.In(field, err)
	case err != nil:
		return "No density of the solution of " + name + " was at hand: that the stock dissolves was not checked.", nil
	}
	return "", nil
}

// cautions gathers those of the compounds, each once.
func (a Additive) cautions() []mix.Caution {
	var list []mix.Caution
	for _, r := range a.reagents() {
		list = append(list, r.Compound.Cautions()...)
	}
	return list
}
