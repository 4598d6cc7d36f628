package pitzer

import (
	"iter"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Brine is what is dissolved in a kilogram of water: of each element or strong ion all
// that there is, whatever form it takes. Hydrogen ions are not in it: the balance of the
// charges gives them, and with them the pH.
//
// All amounts are per kilogram of water, not of solution. [From] makes a Brine of a
// composition per kilogram of solution.
type Brine struct {
	Sodium, Potassium, Magnesium, Calcium, Strontium units.AmountPerKilogram
	Chloride, Bromide                                units.AmountPerKilogram
	Sulfate                                          units.AmountPerKilogram // all of S(VI)
	Carbon                                           units.AmountPerKilogram // CO2, bicarbonate and carbonate
	Boron                                            units.AmountPerKilogram

	Lithium, Barium units.AmountPerKilogram
	Manganese, Iron units.AmountPerKilogram // Mn(II), Fe(II)
	Silicon         units.AmountPerKilogram // all dissolved silicate

	// Parameters of single salts at 25 °C only: as a minor part of a solution or alone.
	Ammonium, Nitrate, Fluoride, Iodide units.AmountPerKilogram

	// Charge of what the model knows nothing of, such as phosphate, in equivalents: it takes
	// part in the balance of the charges and in nothing else.
	OtherCharge units.AmountPerKilogram
}

// counted are the species as which the amounts of a Brine are counted, in its order.
var counted = [...]Species{
	Sodium, Potassium, Magnesium, Calcium, Strontium, Chloride, Bromide, Sulfate, Carbonate, BoricAcid,
	Lithium, Barium, Manganese, Iron, SilicicAcid, Ammonium, Nitrate, Fluoride, Iodide,
}

// amounts returns pointers to the amounts, in the order of counted.
func (b *Brine) amounts() [len(counted)]*units.AmountPerKilogram {
	return [...]*units.AmountPerKilogram{
		&b.Sodium, &b.Potassium, &b.Magnesium, &b.Calcium, &b.Strontium, &b.Chloride, &b.Bromide, &b.Sulfate, &b.Carbon,
		&b.Boron, &b.Lithium, &b.Barium, &b.Manganese, &b.Iron, &b.Silicon, &b.Ammonium, &b.Nitrate, &b.Fluoride,
		&b.Iodide,
	}
}

// countedNames are the names of the fields in errors.
var countedNames = [len(counted)]string{
	"sodium", "potassium", "magnesium", "calcium", "strontium", "chloride", "bromide", "sulfate", "carbon", "boron",
	"lithium", "barium", "manganese", "iron", "silicon", "ammonium", "nitrate", "fluoride", "iodide",
}

// perMole is an AmountPerKilogram of one mole.
const perMole = float64(units.MolePerKilogram)

// totals are moles of each counted species, in a kilogram of water or in all, and the charge
// of what else there is.
type totals struct {
	n     [len(counted)]float64
	other float64
}

func (b *Brine) totals() totals {
	var t totals
	for i, amount := range b.amounts() {
		t.n[i] = float64(*amount) / perMole
	}
	t.other = float64(b.OtherCharge) / perMole
	return t
}

// brine is the way back.
func (t *totals) brine() Brine {
	var b Brine
	for i, amount := range b.amounts() {
		*amount = units.AmountPerKilogram(t.n[i] * perMole)
	}
	b.OtherCharge = units.AmountPerKilogram(t.other * perMole)
	return b
}

// excess is the charge that hydroxide and its like have to balance: Σ z n, with carbon
// as carbonate.
func (t *totals) excess() float64 {
	sum := t.other
	for i, n := range t.n {
		sum += speciesTable[counted[i]].charge * n
	}
	return sum
}

// Scale returns x times the amounts: at 1/2 what as much water again makes of it.
func (b Brine) Scale(x float64) Brine {
	t := b.totals()
	for i := range t.n {
		t.n[i] *= x
	}
	t.other *= x
	return t.brine()
}

// Check returns an error if an amount is negative or not a finite number.
func (b Brine) Check() error {
	if b.sound() {
		return nil
	}
	var errs []error
	for i, amount := range b.amounts() {
		errs = append(errs, input.NotNegative(countedNames[i], float64(*amount), "µmol/kg"))
	}
	if x := float64(b.OtherCharge); !(math.Abs(x) <= math.MaxFloat64) {
		errs = append(errs, input.Bad("otherCharge", input.Number(x), "a finite number"))
	}
	return input.Join(errs...)
}

func (b *Brine) sound() bool {
	t := b.totals()
	for _, n := range t.n {
		if !(n >= 0 && n <= math.MaxFloat64) {
			return false
		}
	}
	return math.Abs(t.other) <= math.MaxFloat64
}

// Named is what a composition is made of: something with a formula, a charge and a mass,
// such as an ions.Ion.
type Named interface {
	Symbol() string
	Charge() int
	MolarMass() units.MolarMass
}

// From makes a Brine of a composition per kilogram of solution, such as ions.Composition
// lists it with its method All. What the model has no parameters for is counted by its
// charge alone and listed in without, its amounts per kilogram of water.
func From[N Named](contents iter.Seq2[N, units.AmountPerKilogram]) (b Brine, without []Missing) {
	water := 1.
	for i, amount := range contents {
		water -= float64(amount) / perMole * i.MolarMass().GramsPerMole() / 1000
	}
	scale := units.AmountPerKilogram(1 / water)
	for i, amount := range contents {
		if !b.add(i.Symbol(), amount*scale) {
			charge := i.Charge()
			b.OtherCharge += units.AmountPerKilogram(charge) * amount * scale
			without = append(without, Missing{Formula: i.Symbol(), Amount: amount * scale})
		}
	}
	return b, without
}

// Missing is something dissolved for which the model has no parameters.
type Missing struct {
	Formula string
	Amount  units.AmountPerKilogram // of water
}

// add adds an amount of a species by its formula; false if there is none of that formula.
// Every species is made of counted ones, hydrogen ions and water, and the hydrogen ions
// are in the balance of charges.
func (b *Brine) add(symbol string, amount units.AmountPerKilogram) bool {
	list := b.amounts()
	for i, s := range counted {
		if speciesTable[s].symbol == symbol {
			*list[i] += amount
			return true
		}
	}
	for r := range reactions {
		if speciesTable[reactions[r].gives].symbol != symbol {
			continue
		}
		for i, s := range counted {
			*list[i] += units.AmountPerKilogram(reactions[r].number(s)) * amount
		}
		return true
	}
	return false
}
