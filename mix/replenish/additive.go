package replenish

import (
	"errors"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
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

// String writes "12.5 g", "250 mg", "40 mL" or "85 µL", to six digits, and
// "nothing" for none of it.
func (a Amount) String() string {
	switch m, v := a.Mass.Grams(), a.Volume.Millilitres(); {
	case v == 0 && m == 0:
		return "nothing"
	case v != 0 && math.Abs(v) < 1:
		return input.Number(v*1000) + " µL"
	case v != 0:
		return input.Number(v) + " mL"
	case math.Abs(m) < 1:
		return input.Number(m*1000) + " mg"
	default:
		return input.Number(m) + " g"
	}
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
		moles := r.Compound.Moles(m * units.Mass(r.Purity.Value()))
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
	content := units.MassPerLitre(0)
	for n, i := range a.stock {
		name := i.Compound.Formula()
		if err := input.Positive(field+"."+name, i.PerLitre.GramsPerLitre(), "g/L"); err != nil {
			return nil, err
		}
		for _, other := range a.stock[:n] {
			if other.Compound.Formula() == name {
				return nil, input.Bad(field, name+" twice in one solution", "each compound once")
			}
			if salt, clash := fallsOut(i.Compound, other.Compound); clash {
				return nil, input.Bad(field, name+" and "+other.Compound.Formula()+" in one solution",
					"two bottles: "+salt+" would fall out")
			}
			if gas, clash := setsFree(i.Compound, other.Compound); clash {
				return nil, input.Bad(field, name+" and "+other.Compound.Formula()+" in one solution",
					"two bottles: the acid would set free "+gas)
			}
		}
		note, err := dissolves(field, i)
		if err != nil {
			return nil, err
		}
		if note != "" {
			assumed = append(assumed, note)
		}
		content += i.PerLitre
	}
	if len(a.stock) > 1 {
		if content > densest {
			return nil, input.Bad(field, input.Number(content.GramsPerLitre())+" g/L in all of "+a.String(),
				"at most "+input.Number(densest.GramsPerLitre())+" g/L, or two bottles: nobody "+
					"can tell that so much dissolves together")
		}
		note, err := a.together(field)
		if err != nil {
			return nil, err
		}
		assumed = append(assumed, note)
	}
	return assumed, nil
}

// together refuses a stock of several compounds of which something falls out at room temperature,
// by the ion-interaction model, and says how far that could tell.
func (a Additive) together(field string) (assumed string, err error) {
	parts := make([]salts.Part, len(a.stock))
	for i, x := range a.stock {
		pure := units.Mass(x.PerLitre.GramsPerLitre()*x.Purity.Value()) * units.Gram
		parts[i] = salts.Part{Compound: x.Compound, Mass: pure}
	}
	bottle, err := salts.MadeUp(parts, roomTemperature())
	if err != nil {
		return a.apart(), nil
	}
	v, err := bottle.Judge()
	if err != nil {
		return a.apart(), nil
	}
	at := " at " + input.Number(roomTemperature().Celsius()) + " °C"
	times := input.Fixed(math.Pow(10, float64(v.Whole.Index)), 2) + " times saturated with " + v.Whole.Worst.String() + at
	switch {
	case v.Whole.Index > sure:
		return "", input.Bad(field, a.String()+" in one solution of that strength",
			"two bottles, or more water: by the ion-interaction model it is "+times)
	case v.Whole.Unjudged != 0:
		return a.apart() + " Whether " + v.Whole.Unjudged.String() + " falls out" + at + " is not known.", nil
	case v.Whole.Worst == 0:
		return "By the ion-interaction model nothing falls out of " + a.String() + at + ".", nil
	}
	return "By the ion-interaction model " + a.String() + " is " + times + "; above 1 that falls out, and in the cold " +
		"earlier.", nil
}

// sure is the saturation index from which a stock is refused: in the middle of what the model
// misses measured solubilities by, 3 to 9 % of a salt of two or three ions.
const sure = 0.04

// apart says that only the single compounds were looked at.
func (a Additive) apart() string {
	return "Of " + a.String() + " it was checked that each dissolves by itself; together less may."
}

// densest is how much of several salts a stock may hold in all.
const densest = 1000 * units.GramPerLitre

// A dose of stock solution thins the tank and raises its level, where more comes
// in than evaporates.
const (
	muchVolume = 0.02 // of the tank, in a step; some such part evaporates in a day (common practice)
	mostVolume = 0.1
)

// fits refuses so much of a stock that the tank would not stay what it is.
func (a Additive) fits(step Amount, tank tested.Water) error {
	if step.Volume <= tank.Volume()*mostVolume {
		return nil
	}
	return input.Bad("additive", step.String()+" of "+a.String()+" in a day",
		"a stronger stock, of which "+input.Number(100*mostVolume)+" % of the tank are enough")
}

// volumeCaution warns of more stock in a day than evaporates.
func volumeCaution(step Amount, tank tested.Water) []advice.Caution {
	if step.Volume <= tank.Volume()*muchVolume {
		return nil
	}
	return []advice.Caution{
		{
			ID:       "large-volume",
			Severity: advice.Care,
			Text: step.String() + " of the stock a day are " + input.Fixed(float64(step.Volume/tank.Volume())*100, 1) +
				" % of the tank, more than " +
				"usually evaporates: the level rises and salinity falls. Take out as much tank water first, or make a " +
				"stronger stock.", Here: true,
		},
	}
}

// setsFree tells whether one of two compounds is an acid that drives something
// out of the other, and what.
func setsFree(a, b salts.Compound) (gas string, clash bool) {
	if a.Gives(ions.Hydroxide) >= 0 {
		a, b = b, a
	}
	if a.Gives(ions.Hydroxide) >= 0 {
		return "", false
	}
	for _, pair := range [...]struct {
		anion ions.Ion
		gas   string
	}{
		{ions.Carbonate, "carbon dioxide"},
		{ions.Bicarbonate, "carbon dioxide"},
		{ions.Fluoride, "poisonous hydrogen fluoride"},
		{ions.Iodide, "iodine"},
		{ions.Iodate, "iodine"},
	} {
		if b.Gives(pair.anion) > 0 {
			return pair.gas, true
		}
	}
	return "", false
}

// isLime tells whether the additive is calcium hydroxide, or makes it.
func isLime(c salts.Compound) bool {
	return c.Gives(ions.Calcium) > 0 && c.Gives(ions.Hydroxide) > 0
}

// limeCautions are those of dry lime, which is dosed as lime water.
func (a Additive) limeCautions(step Amount) []advice.Caution {
	if a.isStock() || !isLime(a.dry.Compound) {
		return nil
	}
	list := []advice.Caution{limeWater, limeOverdose}
	lime, err := salts.Find("Ca(OH)2")
	if err != nil {
		return list
	}
	saturated, err := salts.Saturated(lime, roomTemperature())
	if err != nil {
		return list
	}
	hydroxide := lime.Mass(a.dry.Compound.Moles(step.Mass * units.Mass(a.dry.Purity.Value())))
	litres := float64(hydroxide / saturated.Into(1*units.Kilogram))
	return append(list, advice.Caution{
		ID:       "lime-needs-water",
		Severity: advice.Danger,
		Text: step.String() + " of " + a.dry.Compound.Formula() + " dissolve in no less than " + input.Fixed(litres, 1) +
			" L of pure water, at 20 °C: " +
			"dose them only as so much clear lime water in the place of top-off, never as powder or milk. More than " +
			"evaporates in a day does not go.", Here: true,
	})
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
	pure := i.PerLitre * units.MassPerLitre(i.Purity.Value())
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
func (a Additive) cautions() []advice.Caution {
	var list []advice.Caution
	for _, r := range a.reagents() {
		list = append(list, r.Compound.Cautions()...)
	}
	return list
}
