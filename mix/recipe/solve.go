package recipe

import (
	"math"
	"slices"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Target is what a mix should hold of one component.
type Target struct {
	Of        Component
	Amount    units.AmountPerKilogram
	Tolerance units.AmountPerKilogram // up to this a deviation counts last, and the target is met
	Weight    float64                 // of a deviation in parts of Amount (of Tolerance, if Amount is zero); above zero
}

// TargetsOf returns the targets that reproduce a water: every ion that stays
// what it is, alkalinity, and boron if there is some, each with the same weight
// and with a tolerance in proportion. Carbon is not among them: it comes with
// the alkalinity and then finds its balance with the air. Of what is no water, or a
// tolerance that is none, come targets that Solve refuses.
func TargetsOf(water ions.Composition, tolerance units.Fraction) []Target {
	var list []Target
	add := func(of Component) {
		if amount := of.In(water); !(math.Abs(float64(amount)) <= rounding) {
			list = append(list, Target{of, amount, units.AmountPerKilogram(math.Abs(float64(amount) * tolerance.Value())), 1})
		}
	}
	for i := range water.All() {
		if of := Of(i); of.kind == oneIon {
			add(of)
		}
	}
	add(Alkalinity())
	add(Boron())
	return list
}

// Jar is a reagent on the shelf.
type Jar struct {
	Reagent salts.Reagent
	Price   units.Money // of one package; no price: it counts as free
	Package units.Mass
	Left    units.Mass // what is at hand; 0: plenty
	Allowed bool       // use it even if Solve, by itself, would leave it on the shelf
}

// Job is a mix to be made of what stands on a shelf.
type Job struct {
	Targets     []Target
	Shelf       []Jar
	Volume      units.Volume
	Temperature units.Temperature
}

// Result is what became of a target.
type Result struct {
	Target
	Got units.AmountPerKilogram
	Met bool // within the tolerance
}

// Off returns how much more there is than was wanted; negative if it is less.
func (r Result) Off() units.AmountPerKilogram { return r.Got - r.Amount }

// Plan is the answer to a Job: a Batch, and how near it comes.
type Plan struct {
	Batch
	Results     []Result         // in the order of the targets, those that could not be met among them
	Unasked     []Component      // that the reagents bring and no target names
	UsedUp      []salts.Compound // of which the shelf had no more
	Cost        units.Money      // of the reagents with a price
	Assumptions []string
}

// Missed returns the targets that could not be met.
func (p Plan) Missed() []Result {
	var list []Result
	for _, r := range p.Results {
		if !r.Met {
			list = append(list, r)
		}
	}
	return list
}

// Solve finds the masses of the reagents that come nearest to the targets. Of
// all mixes it takes
//
//  1. those with the smallest sum of Weight times the relative deviation beyond the
//     tolerance; of them
//  2. those with the smallest such sum of the deviations themselves; of them
//  3. the cheapest, if there are prices; of them
//  4. the one with the least to weigh.
//
// Some reagents it leaves on the shelf, unless their jar is Allowed, because what
// they spoil stands in no target; the assumptions name them:
//
//   - what brings an ion that no target names, however well its counter-ion fits,
//     but sodium, magnesium, calcium, potassium, chloride, sulfate and carbon:
//     rather a target missed than potassium by way of iodate;
//   - acids and bases, which make alkalinity without carbon or destroy it, but
//     for the sake of an ion that is asked for (FeCl3 for iron);
//   - the carbonates of calcium and magnesium, which hardly dissolve.
//
// Where alkalinity is a target and Carbon is not, carbon counts in the first of
// the sums as well, with a tenth of the weight, if it is below 0.85 or above 1.02
// of the alkalinity: seawater has 0.85, bicarbonate 1. So the alkalinity is that
// of bicarbonate, and the mix starts with a pH near that of the sea.
//
// So a price decides only between mixes that are equally near, such as two
// hydrates, or MgCl2 with Na2SO4 against MgSO4 with NaCl. Targets that the shelf
// cannot meet at once are missed as little as their weights say, and Results
// tells each.
//
//	symbol   minimise Σ w |Σ ν x - b| / b over x ≥ 0, x ≤ what is left
//	method   linear programs, one after the other on the optimal face of the one before;
//	         Dantzig's simplex method as implemented by gonum
//	errors   a target that no reagent brings, a shelf or target that makes no sense:
//	         *units.InputError; a mix whose density is not known: as package ions says it
func Solve(job Job) (Plan, error) {
	if err := job.check(); err != nil {
		return Plan{}, err
	}
	job, left := job.sift()
	if err := job.missing(left); err != nil {
		return Plan{}, err
	}
	// what is left per kilogram of mix depends on its mass, and that on what is in it
	density := units.Density(1025)
	for range 30 {
		moles, err := optimum(job, density.Mass(job.Volume))
		if err != nil {
			return Plan{}, err
		}
		plan, err := job.plan(moles)
		if err != nil {
			return Plan{}, err
		}
		next := units.Density(plan.Mass.Grams() / plan.Volume.Litres())
		if !job.limited() || math.Abs(float64(next/density)-1) < 1e-12 {
			if len(left) > 0 {
				plan.Assumptions = append(plan.Assumptions, "Left on the shelf: "+list(left)+".")
			}
			return plan, nil
		}
		density = next
	}
	return Plan{}, units.ErrNoConvergence
}

func (job Job) limited() bool {
	for _, jar := range job.Shelf {
		if jar.Left > 0 {
			return true
		}
	}
	return false
}

// check refuses what cannot be meant.
func (job Job) check() error {
	_, noWater := seawater.PureWater(job.Temperature)
	list := []error{input.Positive("volume", job.Volume.Litres(), "L"), noWater}
	if len(job.Targets) == 0 {
		list = append(list, input.Bad("targets", "none", "at least one"))
	}
	if len(job.Shelf) == 0 {
		list = append(list, input.Bad("shelf", "nothing", "at least one reagent"))
	}
	lightest, heaviest := math.Inf(1), 0.
	for i, t := range job.Targets {
		list = append(list, t.check(job.Targets[:i]))
		lightest, heaviest = min(lightest, t.Weight), max(heaviest, t.Weight)
	}
	if heaviest > mostWeight*lightest && lightest > 0 {
		list = append(list, input.Bad("targets.weight", "from "+input.Number(lightest)+" to "+input.Number(heaviest),
			"within a factor of "+input.Number(mostWeight)))
	}
	currency := ""
	for i, jar := range job.Shelf {
		list = append(list, jar.check(input.At("shelf", i), currency))
		if currency == "" {
			currency = jar.Price.Currency
		}
	}
	return input.Join(list...)
}

// check refuses a target that cannot be meant, after those before it.
func (t Target) check(before []Target) error {
	if t.Of.kind == nothing {
		return input.Bad(input.At("targets", len(before)), "no component", componentWant)
	}
	name := "targets." + t.Of.String()
	list := []error{
		input.NotNegative(name, t.Amount.MillimolesPerKilogram(), "mmol/kg"),
		input.NotNegative(name+".tolerance", t.Tolerance.MillimolesPerKilogram(), "mmol/kg"),
		input.Positive(name+".weight", t.Weight, ""),
	}
	if t.Amount == 0 && t.Tolerance == 0 {
		list = append(list, input.Bad(name, "0 with no tolerance",
			"a tolerance above zero, by which a deviation is measured"))
	}
	if slices.ContainsFunc(before, func(other Target) bool { return other.Of == t.Of }) {
		list = append(list, input.Bad(name, "two of them", "one"))
	}
	return input.Join(list...)
}

// check refuses a jar of nothing, and a price in another currency than the jars
// before it.
func (jar Jar) check(name, currency string) error {
	if err := jar.Reagent.Check(); err != nil {
		return input.In(name, err)
	}
	name += "." + jar.Reagent.Compound.Formula()
	list := []error{input.NotNegative(name+".left", jar.Left.Grams(), "g")}
	if jar.Price != (units.Money{}) {
		list = append(list,
			input.NotNegative(name+".price", jar.Price.Amount, jar.Price.Currency),
			input.Positive(name+".package", jar.Package.Grams(), "g"))
		if currency != "" && currency != jar.Price.Currency {
			list = append(list, input.Bad(name+".price", jar.Price.String(), "the currency of the others, "+currency))
		}
	}
	return input.Join(list...)
}

// mostWeight is the span of weights that the arithmetic can hold apart.
const mostWeight = 1e6

// withheld is a reagent that stays on the shelf, and why.
type withheld struct {
	compound salts.Compound
	why      string
}

func list(left []withheld) string {
	var texts []string
	for _, w := range left {
		texts = append(texts, w.compound.Formula()+" ("+w.why+")")
	}
	return strings.Join(texts, ", ")
}

// sift takes from the shelf what a mix should rather do without.
func (job Job) sift() (Job, []withheld) {
	var shelf []Jar
	var left []withheld
	for _, jar := range job.Shelf {
		if why := job.against(jar.Reagent.Compound); why != "" && !jar.Allowed {
			left = append(left, withheld{jar.Reagent.Compound, why})
			continue
		}
		shelf = append(shelf, jar)
	}
	job.Shelf = shelf
	return job, left
}

// against tells why a compound should stay on the shelf, "" if it need not.
func (job Job) against(c salts.Compound) string {
	wanted := false // for an ion that is no part of most salts
	for r := range c.Releases() {
		of, common := component(r.Ion)
		if common {
			continue
		}
		if !job.names(of) {
			return "it brings " + of.String() + ", which no target names"
		}
		wanted = true
	}
	switch base := c.Gives(ions.Hydroxide); {
	case wanted:
		return ""
	case base > 0:
		return "it is a base, which makes alkalinity without carbon"
	case base < 0:
		return "it is an acid, which destroys alkalinity"
	case c.Gives(ions.Carbonate) > 0 && (c.Gives(ions.Calcium) > 0 || c.Gives(ions.Magnesium) > 0):
		return "it hardly dissolves in seawater"
	}
	return ""
}

// component returns what a species counts for, and whether it is so common that
// it may come along with what is asked for.
func component(i ions.Ion) (of Component, common bool) {
	switch i {
	case ions.Sodium, ions.Magnesium, ions.Calcium, ions.Potassium, ions.Chloride, ions.Sulfate:
		return Of(i), true
	case ions.Bicarbonate, ions.Carbonate, ions.CarbonDioxide, ions.Hydroxide:
		return Carbon(), true
	case ions.BoricAcid, ions.Borate:
		return Boron(), false
	}
	return Of(i), false
}

// names tells whether there is a target for a component.
func (job Job) names(of Component) bool {
	return slices.ContainsFunc(job.Targets, func(t Target) bool { return t.Of == of })
}

// Carbon per alkalinity that a mix should start with: seawater of pH 8 and
// bicarbonate lie between them.
const (
	leastCarbon, mostCarbon = 0.85, 1.02
	carbonWeight            = 0.1 // of that of alkalinity
)

// carbonOf returns the target for carbon that goes with one for alkalinity,
// unless carbon has its own.
func (job Job) carbonOf() (Target, bool) {
	for _, t := range job.Targets {
		if t.Of == Alkalinity() && t.Amount > 0 && !job.names(Carbon()) {
			return Target{
				Carbon(),
				t.Amount * (leastCarbon + mostCarbon) / 2,
				t.Amount*(mostCarbon-leastCarbon)/2 + t.Tolerance,
				t.Weight * carbonWeight,
			}, true
		}
	}
	return Target{}, false
}

// missing names every target that nothing on the shelf brings.
func (job Job) missing(left []withheld) error {
	var list []string
	want := "a compound for it, or a target without it"
	for _, t := range job.Targets {
		found := t.Amount <= t.Tolerance
		for _, jar := range job.Shelf {
			found = found || t.Of.perMole(jar.Reagent.Compound) > 0
		}
		if found {
			continue
		}
		list = append(list, t.Of.String())
		for _, w := range left {
			if t.Of.perMole(w.compound) > 0 {
				want += "; or allow " + w.compound.Formula() + ", left out because " + w.why
			}
		}
	}
	if len(list) == 0 {
		return nil
	}
	return input.Bad("shelf", "nothing that brings "+strings.Join(list, ", "), want)
}

// plan works out the batch of so many moles of each reagent per kilogram.
func (job Job) plan(moles []float64) (Plan, error) {
	var items []Weighed
	var jars []int
	for j, n := range moles {
		if n > 0 {
			items = append(items, Weighed{Reagent: job.Shelf[j].Reagent, Moles: n})
			jars = append(jars, j)
		}
	}
	var p Plan
	var err error
	if p.Batch, err = batch(items, job.Volume, job.Temperature); err != nil {
		return Plan{}, err
	}
	free := false
	for i := range p.Items {
		jar := job.Shelf[jars[i]]
		if jar.Left > 0 && p.Items[i].Mass > jar.Left*(1-1e-6) {
			p.UsedUp = append(p.UsedUp, jar.Reagent.Compound)
		}
		if jar.Price == (units.Money{}) {
			free = true
			continue
		}
		p.Items[i].Cost = jar.Price.Times(float64(p.Items[i].Mass / jar.Package))
		p.Cost.Currency = jar.Price.Currency
		p.Cost.Amount += p.Items[i].Cost.Amount
	}
	named := map[Component]bool{}
	for _, t := range job.Targets {
		got := t.Of.In(p.Composition)
		off := math.Abs(float64(got - t.Amount))
		p.Results = append(p.Results, Result{t, got, off <= float64(t.Tolerance)+1e-6*scaleOf(t)})
		named[t.Of] = true
	}
	for i := range p.Composition.All() {
		if of := Of(i); of.kind == oneIon && !named[of] {
			p.Unasked = append(p.Unasked, of)
		}
	}
	for _, total := range []Component{Alkalinity(), Boron()} {
		if !named[total] && math.Abs(float64(total.In(p.Composition))) > rounding {
			p.Unasked = append(p.Unasked, total)
		}
	}
	p.Assumptions = []string{
		"What a reagent is not pure in is taken as water.",
		"Carbon is as the compounds bring it; the air changes it, and pH with it, within days.",
	}
	if free && p.Cost.Currency != "" {
		p.Assumptions = append(p.Assumptions, "Reagents without a price count as free.")
	}
	return p, nil
}

// rounding is what the sum of many ions leaves of an alkalinity of nothing, in
// µmol/kg, generously.
const rounding = 1e-6

// scaleOf is the unit in which deviations of a target are compared, in µmol/kg.
func scaleOf(t Target) float64 {
	if t.Amount > 0 {
		return float64(t.Amount)
	}
	return float64(t.Tolerance)
}
