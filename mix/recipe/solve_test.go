package recipe

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

func compound(t testing.TB, text string) salts.Compound {
	t.Helper()
	c, err := salts.Find(text)
	require.NoError(t, err)
	return c
}

// jars puts the compounds of a recipe on a shelf, pure and plenty.
func jars(r Recipe) []Jar {
	var list []Jar
	for _, item := range r.Items {
		list = append(list, Jar{Reagent: salts.Reagent{Compound: item.Compound, Purity: units.Share(1)}})
	}
	return list
}

// Given the compounds of a recipe and nothing but what it contains, the solver
// finds the recipe back.
func TestSolveFindsRecipesBack(t *testing.T) {
	worst := 0.
	for _, r := range Published() {
		c, err := r.Composition()
		require.NoError(t, err, r.Name)
		s, err := r.Salinity()
		require.NoError(t, err)
		want, err := r.Batch(s, 100*units.Litre, units.Celsius(25))
		require.NoError(t, err)
		plan, err := Solve(Job{Targets: TargetsOf(c, units.Share(0)), Shelf: jars(r), Volume: 100 * units.Litre, Temperature: units.Celsius(25)})
		require.NoError(t, err, r.Name)
		require.Len(t, plan.Items, len(want.Items), r.Name)
		assert.NotContains(t, strings.Join(plan.Assumptions, " "), "Left on the shelf", r.Name)
		assert.Empty(t, plan.Missed())
		assert.Empty(t, plan.UsedUp)
		assert.Empty(t, plan.Unasked)
		for i := range plan.Items {
			off := math.Abs(float64(plan.Items[i].Mass/want.Items[i].Mass) - 1)
			worst = max(worst, off)
			assert.Less(t, off, 2e-9, "%s %s", r.Name, plan.Items[i].Reagent.Compound)
		}
	}
	t.Logf("worst relative difference %.3g", worst) // what the nudges leave
}

// Random shelves and targets: the solver always ends with a vertex, never finds
// less than a random search does, and keeps its promises.
func TestSolveAtRandom(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	var all []salts.Compound
	for c := range salts.All() {
		all = append(all, c)
	}
	reference := TargetsOf(ions.Reference(units.Practical(35)), units.Share(0))
	solved, failed, refused := 0, 0, map[string]int{}
	for range 200 {
		var job Job
		job.Volume, job.Temperature = 100, units.Celsius(25)
		for _, target := range reference {
			if rng.IntN(4) > 0 {
				target.Weight = math.Pow(10, 2*rng.Float64())
				target.Tolerance = target.Amount * units.AmountPerKilogram([]float64{0, 0.01, 0.1}[rng.IntN(3)])
				job.Targets = append(job.Targets, target)
			}
		}
		for _, c := range all {
			if rng.IntN(3) > 0 {
				jar := Jar{Reagent: salts.Reagent{Compound: c, Purity: units.Share(0.9 + 0.1*rng.Float64())}}
				if rng.IntN(2) == 0 {
					jar.Price, jar.Package = units.Money{Amount: 20 * rng.Float64(), Currency: "EUR"}, 500
				}
				if rng.IntN(3) == 0 {
					jar.Left = units.Mass(math.Pow(10, 4*rng.Float64()))
				}
				jar.Allowed = rng.IntN(3) == 0
				job.Shelf = append(job.Shelf, jar)
			}
		}
		plan, err := Solve(job)
		if errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange) {
			refused[strings.SplitN(err.Error(), ":", 2)[0]]++
			continue
		}
		if err != nil {
			failed++
			t.Log(err)
			continue
		}
		solved++
		best := excess(job, moles(job, plan))
		for range 200 { // the problem is convex: if no neighbour is better, nothing is
			other := moles(job, plan)
			step := math.Pow(10, -1-5*rng.Float64())
			for j := range other {
				if rng.IntN(3) == 0 && (job.Shelf[j].Allowed || job.against(job.Shelf[j].Reagent.Compound) == "") {
					other[j] = max(0, other[j]+step*rng.NormFloat64()*other[j]+step*1e-3*max(0, rng.NormFloat64()))
					if left := job.Shelf[j].Left; left > 0 {
						other[j] = min(other[j], job.Shelf[j].Reagent.Compound.Moles(left*units.Mass(job.Shelf[j].Reagent.Purity.Value()))/plan.Mass.Kilograms())
					}
				}
			}
			assert.GreaterOrEqual(t, excess(job, other), best-1e-6*heaviest(job))
		}
		for _, item := range plan.Items {
			for _, jar := range job.Shelf {
				if jar.Reagent.Compound == item.Reagent.Compound && jar.Left > 0 {
					assert.LessOrEqual(t, float64(item.Mass), float64(jar.Left)*(1+1e-9))
				}
			}
		}
	}
	t.Logf("%d solved, %d failed, refused %v", solved, failed, refused)
	assert.Zero(t, failed)
	assert.Greater(t, solved, 50)
}

// moles per kilogram of mix, by jar.
func moles(job Job, plan Plan) []float64 {
	list := make([]float64, len(job.Shelf))
	for j, jar := range job.Shelf {
		for _, item := range plan.Items {
			if item.Reagent == jar.Reagent {
				list[j] = item.Moles / plan.Mass.Kilograms()
			}
		}
	}
	return list
}

func heaviest(job Job) (w float64) {
	for _, t := range job.Targets {
		w = max(w, t.Weight)
	}
	return w
}

// excess is the first objective of Solve, written out once more.
func excess(job Job, moles []float64) float64 {
	var sum float64
	for _, t := range job.Targets {
		var got float64
		for j, jar := range job.Shelf {
			got += 1e6 * moles[j] * float64(t.Of.In(jar.Reagent.Compound.Dose(1)))
		}
		sum += t.Weight * max(0, math.Abs(got-float64(t.Amount))-float64(t.Tolerance)) / float64(t.Amount)
		if t.Of == Alkalinity() { // carbon from 0.85 to 1.02 of it, in parts of the middle
			var carbon float64
			for j, jar := range job.Shelf {
				carbon += 1e6 * moles[j] * float64(jar.Reagent.Compound.Dose(1).Carbon())
			}
			a, tolerance := float64(t.Amount), float64(t.Tolerance)
			sum += t.Weight / 10 * max(0, 0.85*a-tolerance-carbon, carbon-1.02*a-tolerance) / (0.935 * a)
		}
	}
	return sum
}

// shelf is a list of pure reagents, plenty of each, without a price.
func shelf(t testing.TB, formulas ...string) []Jar {
	t.Helper()
	var list []Jar
	for _, f := range formulas {
		list = append(list, Jar{Reagent: salts.Reagent{Compound: compound(t, f), Purity: units.Share(1)}})
	}
	return list
}

func seawaterJob(t testing.TB, formulas ...string) Job {
	return Job{
		Targets:     TargetsOf(ions.Reference(units.Practical(35)), units.Share(0)),
		Shelf:       shelf(t, formulas...),
		Volume:      100 * units.Litre,
		Temperature: units.Celsius(25),
	}
}

var usual = []string{"NaCl", "MgCl2.6H2O", "Na2SO4", "CaCl2.2H2O", "KCl", "NaHCO3", "KBr", "H3BO3", "SrCl2.6H2O", "NaF"}

func grams(p Plan, formula string) float64 {
	for _, item := range p.Items {
		if item.Reagent.Compound.Formula() == formula {
			return item.Mass.Grams()
		}
	}
	return 0
}

// The ten usual compounds make the reference composition exactly: eleven
// targets, of which the charge balance takes one. Its density, and so the mass
// of the batch, is that of seawater.
func TestSolveSeawater(t *testing.T) {
	p, err := Solve(seawaterJob(t, usual...))
	require.NoError(t, err)
	require.Empty(t, p.Missed())
	assert.InDelta(t, 102.3343, p.Mass.Kilograms(), 0.001) // TEOS-10, 100 L of practical salinity 35
	for _, r := range p.Results {
		assert.InDelta(t, 0, float64(r.Off()/r.Amount), 1e-7, r.Of)
	}
	total := p.Water
	for _, item := range p.Items {
		total += item.Mass
	}
	assert.InEpsilon(t, float64(p.Mass), float64(total), 1e-12)
	assert.InDelta(t, 0, float64(p.Composition.Charge()), 1e-9)
	assert.InDelta(t, 35, p.Salinity().Value(), 0.001)
	settled, err := p.Settled()
	require.NoError(t, err)
	assert.InDelta(t, 2304.4, float64(settled.Alkalinity()), 0.1)
	// magnesium by hand: 52.81706 mmol/kg times 203.295 g/mol
	assert.InDelta(t, 52.81706e-3*203.295*p.Mass.Kilograms(), grams(p, "MgCl2.6H2O"), 0.002)
}

func TestSolvePurityAndHydrates(t *testing.T) {
	pure, err := Solve(seawaterJob(t, usual...))
	require.NoError(t, err)
	job := seawaterJob(t, usual...)
	job.Shelf[0].Reagent.Purity = units.Share(0.98)
	job.Shelf[3].Reagent = salts.Reagent{Compound: compound(t, "CaCl2"), Purity: units.Share(0.94)}
	p, err := Solve(job)
	require.NoError(t, err)
	assert.InEpsilon(t, grams(pure, "NaCl")/0.98, grams(p, "NaCl"), 1e-6)
	assert.InEpsilon(t, grams(pure, "CaCl2.2H2O")*110.978/147.008/0.94, grams(p, "CaCl2"), 1e-6)
	assert.InEpsilon(t, float64(pure.Mass), float64(p.Mass), 1e-9)
}

// Deviation first, price second, weight to carry third.
func TestSolveIsLexicographic(t *testing.T) {
	cheap := func(j *Jar, price float64) {
		j.Price, j.Package = units.Money{Amount: price, Currency: "EUR"}, units.Kilogram
	}
	formulas := append([]string{"CaCl2", "MgCl2"}, usual...)

	job := seawaterJob(t, formulas...)
	p, err := Solve(job)
	require.NoError(t, err)
	assert.Empty(t, p.Missed())
	assert.Zero(t, grams(p, "CaCl2.2H2O"), "without prices the lighter hydrate")
	assert.Positive(t, grams(p, "CaCl2"))
	assert.Zero(t, grams(p, "MgCl2.6H2O"))
	assert.Empty(t, p.Cost.Currency)

	for i := range job.Shelf {
		cheap(&job.Shelf[i], 10)
	}
	cheap(&job.Shelf[0], 14) // CaCl2: dearer per calcium than the dihydrate (13.25)
	p, err = Solve(job)
	require.NoError(t, err)
	assert.Empty(t, p.Missed())
	assert.Zero(t, grams(p, "CaCl2"))
	assert.Positive(t, grams(p, "CaCl2.2H2O"))
	assert.Zero(t, grams(p, "MgCl2.6H2O"))
	sum := 0.
	for _, item := range p.Items {
		sum += item.Cost.Amount
		assert.InEpsilon(t, item.Mass.Kilograms()*10, item.Cost.Amount, 1e-9)
	}
	assert.InEpsilon(t, p.Cost.Amount, sum, 1e-12)
	assert.Equal(t, "EUR", p.Cost.Currency)

	cheap(&job.Shelf[0], 13) // and now cheaper
	p, err = Solve(job)
	require.NoError(t, err)
	assert.Zero(t, grams(p, "CaCl2.2H2O"))

	// magnesium at any price, if the deviation wants it
	cheap(&job.Shelf[1], 1e5)
	cheap(&job.Shelf[3], 1e5)
	p, err = Solve(job)
	require.NoError(t, err)
	assert.Empty(t, p.Missed())

	// the same ions by another way, if that is cheaper: MgSO4 and NaCl for Na2SO4 and MgCl2
	job.Shelf = append(job.Shelf, shelf(t, "MgSO4.7H2O")...)
	cheap(&job.Shelf[len(job.Shelf)-1], 1)
	p, err = Solve(job)
	require.NoError(t, err)
	assert.Empty(t, p.Missed())
	assert.Positive(t, grams(p, "MgSO4.7H2O"))
	assert.Zero(t, grams(p, "Na2SO4"))

	// a tolerance does not make the mix thinner for the sake of the price
	for i := range job.Targets {
		job.Targets[i].Tolerance = job.Targets[i].Amount / 50
	}
	q, err := Solve(job)
	require.NoError(t, err)
	for _, r := range q.Results {
		assert.InDelta(t, 0, float64(r.Off()/r.Amount), 1e-7)
	}
	assert.InEpsilon(t, p.Cost.Amount, q.Cost.Amount, 1e-6)
}

// A tolerance spreads what cannot be met: rather two targets off within their
// tolerances than one beyond its own.
func TestSolveUsesTolerance(t *testing.T) {
	targets := []Target{{Of(ions.Sodium), 100000, 0, 3}, {Of(ions.Chloride), 104000, 0, 1}}
	job := Job{Targets: targets, Shelf: shelf(t, "NaCl"), Volume: 1, Temperature: units.Celsius(20)}
	p, err := Solve(job)
	require.NoError(t, err)
	assert.InDelta(t, 100, p.Results[0].Got.MillimolesPerKilogram(), 1e-4) // all of it on the lighter
	targets[0].Tolerance, targets[1].Tolerance = 3000, 3000
	p, err = Solve(job)
	require.NoError(t, err)
	assert.Empty(t, p.Missed())
	assert.InDelta(t, 101, p.Results[0].Got.MillimolesPerKilogram(), 1e-4) // no further than it must
}

func TestSolveReportsWhatIsMissed(t *testing.T) {
	job := seawaterJob(t, usual...)
	job.Shelf[1].Left = 500 * units.Gram // of 1099 g
	job.Shelf[8].Left = units.Milligram  // and next to no strontium
	p, err := Solve(job)
	require.NoError(t, err)
	assert.InEpsilon(t, 500, grams(p, "MgCl2.6H2O"), 1e-6)
	assert.LessOrEqual(t, grams(p, "MgCl2.6H2O"), 500*(1+1e-12))
	assert.Contains(t, p.UsedUp, compound(t, "MgCl2.6H2O"))
	missed := map[string]units.AmountPerKilogram{}
	for _, r := range p.Missed() {
		missed[r.Of.String()] = r.Off()
	}
	assert.Contains(t, missed, "magnesium")
	assert.Contains(t, missed, "strontium")
	assert.Negative(t, float64(missed["magnesium"]))
	assert.Len(t, p.Results, len(job.Targets))

	// chloride or magnesium: with MgCl2 alone both cannot be had, the weight decides
	chloride, mg := Target{Of(ions.Chloride), 100000, 0, 1}, Target{Of(ions.Magnesium), 40000, 0, 10}
	for _, heavy := range []float64{10, 0.1} {
		mg.Weight = heavy
		p, err := Solve(Job{Targets: []Target{chloride, mg}, Shelf: shelf(t, "MgCl2"), Volume: 1, Temperature: units.Celsius(20)})
		require.NoError(t, err)
		assert.Equal(t, heavy > 1, p.Results[1].Met)
		assert.Equal(t, heavy < 1, p.Results[0].Met)
	}
	// what nobody asked for is named, and a danger
	job = Job{Targets: []Target{{Of(ions.Sodium), 400000, 0, 1}}, Shelf: shelf(t, "NaNO3"), Volume: 1, Temperature: units.Celsius(20)}
	job.Shelf[0].Allowed = true
	p, err = Solve(job)
	require.NoError(t, err)
	assert.Equal(t, []Component{Of(ions.Nitrate)}, p.Unasked)
	assert.Equal(t, advice.Caution{ID: "not-asked-for", Severity: advice.Danger, Text: "The reagents bring nitrate, which no target names: see how much it is, or set a target. Of nitrate little is poison to animals, or feeds what nobody wants."}, p.Cautions()[0])
	job.Shelf = shelf(t, "NaCl")
	p, err = Solve(job)
	require.NoError(t, err)
	assert.Equal(t, advice.Caution{ID: "not-asked-for", Severity: advice.Care, Text: "The reagents bring chloride, which no target names: see how much it is, or set a target."}, p.Cautions()[0])
}

// The counter-ion of what nobody asked for is no way to a target, however well
// it fits: the recipe of the MBL has no fluoride, and takes none from a shelf with
// sodium fluoride on it.
func TestSolveTakesNoUnaskedIons(t *testing.T) {
	mbl, err := find(t, "MBL").Composition()
	require.NoError(t, err)
	job := Job{Targets: TargetsOf(mbl, units.Share(0.01)), Volume: 40 * units.Litre, Temperature: units.Celsius(25)}
	for i := range job.Targets { // not what charges would balance by itself
		if of := job.Targets[i].Of.String(); of == "calcium" || of == "alkalinity" {
			job.Targets[i].Amount *= 1.15
		}
	}
	job.Shelf = shelf(t, append([]string{"KI", "KIO3", "NaNO3", "Na2HPO4", "CH3COONa", "LiCl", "BaCl2", "NH4Cl"}, usual...)...)
	p, err := Solve(job)
	require.NoError(t, err)
	assert.Empty(t, p.Unasked)
	for _, item := range p.Items {
		assert.Contains(t, []string{"NaCl", "MgCl2.6H2O", "Na2SO4", "CaCl2.2H2O", "KCl", "NaHCO3"}, item.Reagent.Compound.Formula())
	}
	for _, r := range p.Results {
		assert.InDelta(t, 1, float64(r.Got/r.Amount), 0.02, r.Of)
	}
	assert.Contains(t, strings.Join(p.Assumptions, " "), "Left on the shelf: KI (it brings iodide, which no target names), KIO3 (it brings iodate")
	assert.NotContains(t, strings.Join(p.Assumptions, " "), "KCl (")

	// not even as the only source: that is said, and has to be allowed
	job.Shelf = shelf(t, "NaCl", "MgCl2.6H2O", "Na2SO4", "CaCl2.2H2O", "KIO3", "NaHCO3")
	_, err = Solve(job)
	assert.ErrorContains(t, err, "shelf: got nothing that brings potassium, want a compound for it, or a target without it; or allow KIO3, left out because it brings iodate, which no target names")
	job.Shelf[4].Allowed = true
	p, err = Solve(job)
	require.NoError(t, err)
	assert.InDelta(t, 9*40*214.001/1000, grams(p, "KIO3"), 0.5) // 9 mmol/L by the recipe
	assert.Equal(t, advice.Danger, p.Cautions()[0].Severity)

	// asked for, it is a source as any
	job = seawaterJob(t, usual...)
	job.Shelf = append(job.Shelf, shelf(t, "KI", "FeCl3.6H2O", "KH2PO4")...)
	job.Targets = append(job.Targets, Target{Of(ions.Iodide), 0.5, 0.01, 1}, Target{Of(ions.Iron), 0.1, 0.01, 1}, Target{Of(ions.Phosphate), 2, 0.01, 1})
	p, err = Solve(job)
	require.NoError(t, err)
	assert.InDelta(t, 0.5, float64(p.Composition.Amount(ions.Iodide)), 0.0101)
	assert.InDelta(t, 0.1, float64(p.Composition.Amount(ions.Iron)), 0.0101)
	assert.InDelta(t, 2, float64(p.Composition.Amount(ions.Phosphate)), 0.0101)
	assert.Empty(t, p.Unasked)
}

// Alkalinity is that of bicarbonate: no lime, lye, chalk, borate or phosphate
// for the sake of it, and of soda only so much that the mix has the pH of the sea.
func TestSolveAlkalinityIsBicarbonate(t *testing.T) {
	others := []string{"Ca(OH)2", "NaOH", "CaO", "CaCO3", "MgCO3", "HCl", "CH3COOH", "CH3COONa", "Na2HPO4", "Na2B4O7.10H2O", "Na2CO3"}
	job := seawaterJob(t, append(others, usual...)...)
	for i := range job.Shelf { // bicarbonate is dear, the others cost next to nothing
		job.Shelf[i].Price, job.Shelf[i].Package = units.Money{Amount: 1, Currency: "EUR"}, units.Kilogram
		if job.Shelf[i].Reagent.Compound.Formula() == "NaHCO3" {
			job.Shelf[i].Price.Amount = 1e4
		}
	}
	p, err := Solve(job)
	require.NoError(t, err)
	assert.Empty(t, p.Missed())
	for _, f := range others[:9] {
		assert.Zero(t, grams(p, f), f)
	}
	assert.Positive(t, grams(p, "NaHCO3"))
	ratio := float64(p.Composition.Carbon() / p.Composition.Alkalinity())
	assert.InDelta(t, 0.85, ratio, 1e-6)
	water, err := p.Carbonate()
	require.NoError(t, err)
	s, err := water.System()
	require.NoError(t, err)
	assert.InDelta(t, 8.1, s.PH().Value(), 0.15)
	for _, c := range p.Cautions() {
		assert.NotContains(t, []string{"alkaline-mix", "chalk-may-fall-out", "acid-mix"}, c.ID)
	}

	// soda alone does meet the alkalinity, and is warned of
	job = seawaterJob(t, "NaCl", "MgCl2.6H2O", "Na2SO4", "CaCl2.2H2O", "KCl", "Na2CO3", "KBr", "H3BO3", "SrCl2.6H2O", "NaF")
	p, err = Solve(job)
	require.NoError(t, err)
	assert.Empty(t, p.Missed())
	var ids []string
	for _, c := range p.Cautions() {
		ids = append(ids, c.ID)
	}
	assert.Contains(t, ids, "alkaline-mix")
	assert.Contains(t, ids, "chalk-may-fall-out")

	// carbon that has a target of its own is left to it
	job.Targets = append(job.Targets, Target{Carbon(), 1000, 10, 1})
	_, ok := job.carbonOf()
	assert.False(t, ok)
}

// More targets than the shelf can meet by design: of sodium chloride with
// unequal amounts of both, the heavier weight wins; equal weights split no hairs
// but give the smaller sum.
func TestSolveDeviationByHand(t *testing.T) {
	// x is moles; |x-400|/400 + |x-500|/500 is least at 400
	p, err := Solve(Job{
		Targets: []Target{{Of(ions.Sodium), 400000, 0, 1}, {Of(ions.Chloride), 500000, 0, 1}},
		Shelf:   shelf(t, "NaCl"), Volume: 1, Temperature: units.Celsius(20),
	})
	require.NoError(t, err)
	assert.InDelta(t, 400, p.Composition.Amount(ions.Sodium).MillimolesPerKilogram(), 1e-5)
	require.Len(t, p.Missed(), 1)
	assert.Equal(t, "chloride", p.Missed()[0].Of.String())
	assert.InDelta(t, -100, p.Missed()[0].Off().MillimolesPerKilogram(), 1e-5)
}

// Lime is a base without carbon, acetic acid an acid that takes hydroxide: both
// are alkalinity, and the mix is a water.
func TestSolveWithAcidAndBase(t *testing.T) {
	for _, formulas := range [][]string{
		{"NaCl", "MgCl2.6H2O", "Na2SO4", "CaCl2.2H2O", "KCl", "Ca(OH)2", "KBr", "SrCl2.6H2O", "NaF", "H3BO3"},
		{"NaCl", "MgCl2.6H2O", "Na2SO4", "CaCl2.2H2O", "KCl", "Na2CO3", "HCl", "KBr", "SrCl2.6H2O", "NaF", "H3BO3"},
		{"NaCl", "MgCl2.6H2O", "Na2SO4", "CaCl2.2H2O", "KCl", "CaCO3", "CH3COOH", "KBr", "SrCl2.6H2O", "NaF", "Na2B4O7.10H2O"},
	} {
		job := seawaterJob(t, formulas...)
		for i := range job.Shelf {
			job.Shelf[i].Allowed = true
		}
		p, err := Solve(job)
		require.NoError(t, err, formulas)
		assert.Empty(t, p.Missed(), formulas)
		assert.InDelta(t, 2304.4, float64(p.Composition.Alkalinity()), 0.1)
		assert.InDelta(t, 0, float64(p.Composition.Charge()), 1e-9)
		assert.InDelta(t, 102.33, p.Mass.Kilograms(), 0.02)
	}
	// only if they are allowed
	_, err := Solve(seawaterJob(t, "NaCl", "MgCl2.6H2O", "Na2SO4", "CaCl2.2H2O", "KCl", "Ca(OH)2", "KBr", "SrCl2.6H2O", "NaF", "H3BO3"))
	assert.ErrorContains(t, err, "nothing that brings alkalinity, want a compound for it, or a target without it; or allow Ca(OH)2, left out because it is a base, which makes alkalinity without carbon")
	// a mix that is all acid is refused
	job := Job{Targets: []Target{{Of(ions.Chloride), 500000, 0, 1}}, Shelf: shelf(t, "HCl"), Volume: 1, Temperature: units.Celsius(20)}
	job.Shelf[0].Allowed = true
	_, err = Solve(job)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.ErrorContains(t, err, "mix.alkalinity: got -500 mmol/kg, want zero or more: less acid, or a target of alkalinity and NaHCO3 on the shelf to meet it")
}

func TestSolveRefuses(t *testing.T) {
	nan := math.NaN()
	for _, r := range []struct {
		change func(*Job)
		want   string
	}{
		{func(j *Job) { j.Volume = 0 }, "volume: got 0 L, want a number above zero"},
		{func(j *Job) { j.Volume = units.Volume(nan) }, "volume: got NaN L, want a number above zero"},
		{func(j *Job) { j.Temperature = units.Temperature{} }, "temperature: got nothing, want a temperature"},
		{func(j *Job) { j.Targets = nil }, "targets: got none, want at least one"},
		{func(j *Job) { j.Shelf = nil }, "shelf: got nothing, want at least one reagent"},
		{func(j *Job) { j.Targets[0].Of = Component{} }, "targets[0]: got no component, want an ion such as"},
		{func(j *Job) { j.Targets[0].Of = Of(ions.Bicarbonate) }, "targets[0]: got no component"},
		{func(j *Job) { j.Targets[1].Of = j.Targets[0].Of }, "targets.sodium: got two of them, want one"},
		{func(j *Job) { j.Targets[0].Amount = -1 }, "targets.sodium: got -0.001 mmol/kg, want zero or more"},
		{func(j *Job) { j.Targets[0].Amount = units.AmountPerKilogram(nan) }, "targets.sodium: got NaN mmol/kg, want zero or more"},
		{func(j *Job) { j.Targets[0].Tolerance = units.AmountPerKilogram(math.Inf(1)) }, "targets.sodium.tolerance: got +Inf mmol/kg"},
		{func(j *Job) { j.Targets[0].Amount, j.Targets[0].Tolerance = 0, 0 }, "targets.sodium: got 0 with no tolerance"},
		{func(j *Job) { j.Targets[0].Weight = 0 }, "targets.sodium.weight: got 0, want a number above zero"},
		{func(j *Job) { j.Targets[0].Weight = 1e7 }, "targets.weight: got from 1 to 1e+07, want within a factor of 1e+06"},
		{func(j *Job) { j.Shelf[2].Reagent = salts.Reagent{} }, "shelf[2].compound: got none, want a compound"},
		{func(j *Job) { j.Shelf[2].Reagent.Purity = units.Share(1.5) }, "shelf[2].Na2SO4.purity: got 150 %, want above 0 and up to 100 %"},
		{func(j *Job) { j.Shelf[2].Left = -1 }, "shelf[2].Na2SO4.left: got -1 g, want zero or more"},
		{func(j *Job) { j.Shelf[2].Price = units.Money{Amount: 5, Currency: "EUR"} }, "shelf[2].Na2SO4.package: got 0 g, want a number above zero"},
		{func(j *Job) { j.Shelf[2].Price, j.Shelf[2].Package = units.Money{Amount: nan, Currency: "EUR"}, 1 }, "shelf[2].Na2SO4.price: got NaN EUR, want zero or more"},
		{func(j *Job) {
			j.Shelf[1].Price, j.Shelf[1].Package = units.Money{Amount: 5, Currency: "EUR"}, 100
			j.Shelf[2].Price, j.Shelf[2].Package = units.Money{Amount: 5, Currency: "USD"}, 100
		}, "shelf[2].Na2SO4.price: got 5 USD, want the currency of the others, EUR"},
		{func(j *Job) { j.Shelf = j.Shelf[:8] }, "shelf: got nothing that brings strontium, fluoride, want a compound for it, or a target without it"},
		{func(j *Job) { j.Shelf = shelf(t, "KI") }, "shelf: got nothing that brings sodium, magnesium, calcium, potassium, strontium, chloride, sulfate, bromide, fluoride, alkalinity, boron"},
	} {
		job := seawaterJob(t, usual...)
		r.change(&job)
		p, err := Solve(job)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.ErrorContains(t, err, r.want)
		assert.Empty(t, p.Items)
	}
	// nothing asked for is nothing to bring
	job := seawaterJob(t, usual[:8]...)
	for i := range job.Targets {
		if of := job.Targets[i].Of.String(); of == "strontium" || of == "fluoride" {
			job.Targets[i].Tolerance = job.Targets[i].Amount
		}
	}
	p, err := Solve(job)
	require.NoError(t, err)
	// the charges of the two are then missing in what has the least part in its target
	require.Len(t, p.Missed(), 1)
	assert.Equal(t, "chloride", p.Missed()[0].Of.String())
	assert.InDelta(t, -(2*0.0907013 - 0.0683059), p.Missed()[0].Off().MillimolesPerKilogram(), 1e-5)
	// a target of nothing keeps a component out
	job = seawaterJob(t, append([]string{"NaNO3"}, usual...)...)
	job.Targets = append(job.Targets, Target{Of(ions.Nitrate), 0, 1, 1})
	_, err = Solve(job)
	require.NoError(t, err)
}

func TestComponents(t *testing.T) {
	water := ions.Reference(units.Practical(35))
	for _, r := range []struct{ text, name string }{
		{"Ca", "calcium"}, {"SO4--", "sulfate"}, {"magnesium", "magnesium"}, {"Alkalinity", "alkalinity"}, {"boron", "boron"}, {"CARBON", "carbon"},
	} {
		var c Component
		require.NoError(t, c.UnmarshalText([]byte(r.text)))
		assert.Equal(t, r.name, c.String())
		text, err := c.MarshalText()
		require.NoError(t, err)
		var back Component
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, c, back)
		assert.Positive(t, float64(c.In(water)))
	}
	for _, text := range []string{"", "unobtainium", "HCO3-", "B(OH)3", "OH-"} {
		c := Alkalinity()
		assert.ErrorIs(t, c.UnmarshalText([]byte(text)), units.ErrInput)
		assert.Equal(t, Component{}, c)
	}
	_, err := Component{}.MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(float64(Component{}.In(water))))
	assert.Equal(t, Component{}, Of(ions.Ion(200)))
	assert.InDelta(t, 2304.4, float64(Alkalinity().In(water)), 0.1)
	assert.InDelta(t, 415.1, float64(Boron().In(water)), 0.1)
	assert.InDelta(t, 1966.3, float64(Carbon().In(water)), 0.1)
	assert.Len(t, TargetsOf(water, units.Share(0.01)), 11)
}

// What is no water makes targets that Solve refuses, instead of fewer targets.
func TestTargetsOfNoWater(t *testing.T) {
	water := ions.Reference(units.Practical(35))
	for _, bad := range []float64{math.NaN(), math.Inf(1), -1} {
		for i := range water.All() {
			targets := TargetsOf(water.With(i, units.AmountPerKilogram(bad)), units.Share(0.01))
			assert.Len(t, targets, 11, "%v of %v", bad, i)
			_, err := Solve(Job{Targets: targets, Shelf: []Jar{{Reagent: salts.Reagent{Compound: compound(t, "NaCl"), Purity: units.Share(1)}}}, Volume: 10, Temperature: units.Celsius(20)})
			assert.ErrorIs(t, err, units.ErrInput)
		}
		targets := TargetsOf(water, units.Share(bad))
		assert.Len(t, targets, 11)
	}
	assert.Empty(t, TargetsOf(ions.Composition{}, units.Share(0.01)))
}

// Targets are as many as there are components, reproduce the water, and are refused if
// that is none.
func FuzzTargetsOf(f *testing.F) {
	f.Add(470000., 10000., 2000., 100., 0.01)
	f.Add(math.NaN(), math.Inf(1), -1., 0., math.NaN())
	f.Add(1e-7, 1e-300, 0., 1e300, -1.)
	f.Fuzz(func(t *testing.T, sodium, calcium, bicarbonate, boric, tolerance float64) {
		water := ions.Composition{}.With(ions.Sodium, units.AmountPerKilogram(sodium)).With(ions.Calcium, units.AmountPerKilogram(calcium)).
			With(ions.Bicarbonate, units.AmountPerKilogram(bicarbonate)).With(ions.BoricAcid, units.AmountPerKilogram(boric))
		sound := water.Check() == nil && tolerance >= 0 && !math.IsInf(tolerance, 0)
		seen := map[Component]bool{}
		for _, target := range TargetsOf(water, units.Share(tolerance)) {
			require.False(t, seen[target.Of], target.Of)
			seen[target.Of] = true
			if got := float64(target.Of.In(water)); math.IsNaN(got) {
				require.True(t, math.IsNaN(float64(target.Amount)))
			} else {
				require.Equal(t, got, float64(target.Amount))
			}
			require.Equal(t, 1., target.Weight)
			if sound {
				require.True(t, target.Tolerance >= 0, target)
			}
		}
		for _, of := range []Component{Of(ions.Sodium), Of(ions.Calcium), Boron(), Alkalinity()} {
			require.True(t, seen[of] || math.Abs(float64(of.In(water))) <= rounding, "%v is lost", of)
		}
	})
}

func FuzzSolve(f *testing.F) {
	f.Add(uint64(1), 420000., 10000., 100., 0.5, 3.)
	f.Add(uint64(1<<40-1), 1e-9, 1e9, 1e-3, 1e4, 0.)
	f.Add(uint64(0b1010101010101), 0., 0., 0., -1., 1.)
	f.Fuzz(func(t *testing.T, choice uint64, sodium, calcium, left, price, tolerance float64) {
		job := Job{Volume: 10, Temperature: units.Celsius(20), Targets: []Target{
			{Of(ions.Sodium), units.AmountPerKilogram(sodium), units.AmountPerKilogram(tolerance), 1},
			{Of(ions.Calcium), units.AmountPerKilogram(calcium), 0, 2},
			{Alkalinity(), 2300, units.AmountPerKilogram(tolerance), 1},
		}}
		i := 0
		for c := range salts.All() {
			if choice>>i&1 == 1 {
				job.Shelf = append(job.Shelf, Jar{salts.Reagent{Compound: c, Purity: units.Share(1)}, units.Money{Amount: price, Currency: "EUR"}, 100, units.Mass(left), i%2 == 0})
			}
			i++
		}
		p, err := Solve(job)
		if err != nil {
			require.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange) || errors.Is(err, units.ErrNoConvergence), err)
			require.Empty(t, p.Items)
			return
		}
		total := p.Water
		for _, item := range p.Items {
			require.True(t, item.Mass >= 0, item)
			require.True(t, left == 0 || item.Mass.Grams() <= left*(1+1e-9), item)
			total += item.Mass
		}
		require.InEpsilon(t, float64(p.Mass), float64(total), 1e-12)
	})
}

func BenchmarkSolve(b *testing.B) {
	b.ReportAllocs()
	job := seawaterJob(b, usual...)
	for b.Loop() {
		if _, err := Solve(job); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBatch(b *testing.B) {
	b.ReportAllocs()
	r := find(b, "Kester")
	for b.Loop() {
		if _, err := r.Batch(units.Practical(35), 100, units.Celsius(25)); err != nil {
			b.Fatal(err)
		}
	}
}
