package dilution_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// A tank of 300 L makes 0.7 mg/L of nitrate a day and gets 45 L of new water every
// week: where is it after three months, and when did it pass 30 mg/L?
func ExampleRoutine_Forecast() {
	w, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	nitrate := func(mg float64) tested.Levels {
		return tested.Levels{tested.Nitrate.Of(units.MassPerLitre(mg)*units.MilligramPerLitre, units.AsNitrate)}
	}
	const week = 7 * 24 * time.Hour
	forecast, err := dilution.Routine{
		Tank:        tested.Water{Portion: w.OfVolume(300 * units.Litre), Levels: nitrate(24)},
		PerDay:      nitrate(0.7),
		Evaporation: 4 * units.LitrePerDay,
		Changes: []dilution.Renewal{
			{Batch: tested.Water{Portion: w.OfVolume(45 * units.Litre), Levels: nitrate(0)}, Swap: 45 * units.Litre, First: week, Every: week},
		},
	}.Forecast(13 * week)
	if err != nil {
		fmt.Println(err)
		return
	}
	end, _ := massIn(forecast.End, tested.Nitrate)
	fmt.Printf("%.1f mg/L after %.0f days\n", end.MilligramsPerLitre(), forecast.Span.Hours()/24)
	crossings, err := forecast.Until(dilution.Bounds{High: dilution.Goal{Levels: nitrate(30)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range crossings {
		fmt.Printf("%s passes %.0f %s after %.1f days\n", c.Name, c.Bound, c.Unit, c.After.Hours()/24)
	}
	// Output:
	// 27.3 mg/L after 91 days
	// Nitrate passes 30 mg/L NO3 after 27.5 days
}

// Corals take 8 mg/L of calcium a day, the top-off is lime water of 450 mg/L, and a
// tenth is changed every week: where does calcium settle?
func ExampleRoutine_Settles() {
	w, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	calcium := func(mg float64) tested.Levels {
		return tested.Levels{tested.Calcium.Of(units.MassPerLitre(mg)*units.MilligramPerLitre, units.AsCalcium)}
	}
	settled, err := dilution.Routine{
		Tank:        tested.Water{Portion: w.OfVolume(200 * units.Litre), Levels: calcium(410)},
		PerDay:      calcium(-8),
		Evaporation: 3 * units.LitrePerDay,
		TopOff:      dilution.TopOff{Water: calcium(450)},
		Changes: []dilution.Renewal{
			{Batch: tested.Water{Portion: w.OfVolume(20 * units.Litre), Levels: calcium(420)}, Swap: 20 * units.Litre, Every: 7 * 24 * time.Hour},
		},
	}.Settles()
	if err != nil {
		fmt.Println(err)
		return
	}
	before, _ := massIn(settled.Before, tested.Calcium)
	after, _ := massIn(settled.After, tested.Calcium)
	fmt.Printf("calcium %.0f mg/L before a change, %.0f after\n", before.MilligramsPerLitre(), after.MilligramsPerLitre())
	// Output: calcium 333 mg/L before a change, 341 after
}

func nitrate(mg float64) tested.Levels {
	return tested.Levels{tested.Nitrate.Of(units.MassPerLitre(mg), units.AsNitrate)}
}

func nitrateOf(t testing.TB, s tested.Water) float64 {
	t.Helper()
	x, known := massIn(s, tested.Nitrate)
	require.True(t, known)
	return x.MilligramsPerLitre()
}

// closed returns a tank of 200 L with nitrate, that nothing happens to.
func closed(t testing.TB, mg float64) dilution.Routine {
	return dilution.Routine{Tank: tested.Water{Portion: water(t, 35, 25).OfVolume(200), Levels: nitrate(mg)}}
}

func at(t testing.TB, f *dilution.Forecast, when time.Duration) tested.Water {
	t.Helper()
	s, err := f.At(when)
	require.NoError(t, err)
	return s
}

// A stirred tank (Levenspiel 1999, Chemical Reaction Engineering, chapter 13), and
// one with a first-order reaction (chapter 5): c = c0 exp(-(q/V + k) t).
func TestForecastOfStirredTank(t *testing.T) {
	r := closed(t, 40)
	r.Stream = dilution.Stream{Batch: tested.Water{Portion: water(t, 35, 25).OfVolume(1), Levels: nitrate(4)}, Flow: 10 * units.LitrePerDay}
	f, err := r.Forecast(100 * day)
	require.NoError(t, err)
	for _, d := range []time.Duration{0, day, 7*day + time.Hour, 50 * day, 100 * day} {
		want := dilution.Level(40., 4, dilution.Continuous(r.Stream.Flow.Volume(d), 200))
		checks.Relative(t, "stirred tank", nitrateOf(t, at(t, &f, d)), want, 1e-12)
	}
	r.Stream.Batch.Levels = nitrate(0)
	r.Losses = []dilution.Loss{{Of: tested.Nitrate, HalfLife: 10 * day}}
	f, err = r.Forecast(100 * day)
	require.NoError(t, err)
	for _, d := range []float64{1, 3.5, 100} {
		checks.Relative(t, "with reaction", nitrateOf(t, at(t, &f, time.Duration(d*float64(day)))), 40*math.Exp(-(10./200+math.Ln2/10)*d), 1e-12)
	}
	// the steady state of the reactor, c = (q c_in + r V)/(q + k V)
	r.Stream.Batch.Levels, r.PerDay = nitrate(6), nitrate(0.5)
	s, err := r.Settles()
	require.NoError(t, err)
	assert.Zero(t, s.Period)
	checks.Relative(t, "at rest", nitrateOf(t, s.Before), (10*6+0.5*200)/(10+math.Ln2/10*200), 1e-12)
	assert.Equal(t, s.Before.Levels, s.After.Levels)
}

func TestForecastOfDecay(t *testing.T) {
	for _, l := range []dilution.Loss{{Of: tested.Nitrate, HalfLife: 5 * day}, {Of: tested.Nitrate, PerDay: units.Share(1 - math.Pow(2, -0.2))}} {
		r := closed(t, 40)
		r.Losses = []dilution.Loss{l}
		f, err := r.Forecast(50 * day)
		require.NoError(t, err)
		for n := range 11 {
			checks.Relative(t, "half-lives", nitrateOf(t, at(t, &f, time.Duration(5*n)*day)), 40*math.Pow(0.5, float64(n)), 1e-12)
		}
		checks.Relative(t, "lost", f.Balances[2].Lost, 200*40*(1-math.Pow(0.5, 10)), 1e-12)
	}
}

// Repeated doses of a drug with first-order elimination (Rowland and Tozer 2011,
// Clinical Pharmacokinetics and Pharmacodynamics, chapter 11): the highest level is
// D/(1 - exp(-kτ)), the lowest exp(-kτ) of it, and the nth highest is (1 -
// exp(-nkτ)) of the highest of all.
func TestForecastOfRepeatedDoses(t *testing.T) {
	const dose, tau, half = 3., 2., 5.
	r := closed(t, 0)
	r.Losses = []dilution.Loss{{Of: tested.Nitrate, HalfLife: 5 * day}}
	r.Doses = []dilution.Dose{{Levels: nitrate(dose), Every: 2 * day}}
	left := math.Pow(2, -tau/half)
	s, err := r.Settles()
	require.NoError(t, err)
	assert.Equal(t, 2*day, s.Period)
	checks.Relative(t, "highest", nitrateOf(t, s.After), dose/(1-left), 1e-12)
	checks.Relative(t, "lowest", nitrateOf(t, s.Before), dose*left/(1-left), 1e-12)
	f, err := r.Forecast(40 * day)
	require.NoError(t, err)
	for n := 1; n <= 20; n++ {
		peak := at(t, &f, time.Duration(n-1)*2*day)
		checks.Relative(t, "nth", nitrateOf(t, peak), dose/(1-left)*(1-math.Pow(left, float64(n))), 1e-12)
	}
	before, err := f.Before(4 * day)
	require.NoError(t, err)
	after := at(t, &f, 4*day)
	checks.Relative(t, "jump", nitrateOf(t, after)-nitrateOf(t, before), dose, 1e-12)
}

// The forecast agrees with Periodic, which works by shares alone.
func TestForecastAgreesWithPeriodic(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 8))
	for range 200 {
		p := dilution.Periodic[units.MassPerLitre]{
			Share:  units.Share(0.01 + 0.9*rnd.Float64()),
			Every:  time.Duration(1+rnd.IntN(20)) * 12 * time.Hour,
			Fresh:  units.MassPerLitre(3 * rnd.Float64()),
			PerDay: units.MassPerLitre(rnd.Float64()),
		}
		start := 50 * rnd.Float64()
		r := closed(t, start)
		r.PerDay = nitrate(p.PerDay.MilligramsPerLitre())
		r.Evaporation = units.Flow(rnd.Float64())
		r.Changes = []dilution.Renewal{{
			Batch: tested.Water{Portion: water(t, 35, 25).OfVolume(1), Levels: nitrate(p.Fresh.MilligramsPerLitre())},
			Swap:  units.Volume(p.Share.Value()) * 200, First: p.Every, Every: p.Every,
		}}
		before, after, err := p.Steady()
		require.NoError(t, err)
		s, err := r.Settles()
		require.NoError(t, err)
		assert.Equal(t, p.Every, s.Period)
		checks.Relative(t, "before", nitrateOf(t, s.Before), before.MilligramsPerLitre(), 1e-12)
		checks.Relative(t, "after", nitrateOf(t, s.After), after.MilligramsPerLitre(), 1e-12)
		n := 1 + rnd.IntN(20)
		want, err := p.After(units.MassPerLitre(start), n)
		require.NoError(t, err)
		f, err := r.Forecast(time.Duration(n) * p.Every)
		require.NoError(t, err)
		checks.Relative(t, "nth", nitrateOf(t, f.End), want.MilligramsPerLitre(), 1e-12)
	}
}

// One change is that of PlanChange but for the heat: the same mass, salt and amounts.
func TestForecastAgreesWithPlanChange(t *testing.T) {
	c := course(t)
	change := dilution.Change{Tank: c.Tank, Batch: c.Batch, Swap: 38}
	p, err := dilution.PlanChange(change)
	require.NoError(t, err)
	f, err := dilution.Routine{
		Tank: c.Tank, TopOff: dilution.TopOff{None: true},
		Changes: []dilution.Renewal{{Batch: c.Batch, Swap: 38}},
	}.Forecast(day)
	require.NoError(t, err)
	checks.Relative(t, "mass", f.End.Portion.Mass.Grams(), p.After.Portion.Mass.Grams(), 1e-12)
	checks.Relative(t, "salt", f.End.Portion.Salt().Grams(), p.After.Portion.Salt().Grams(), 1e-12)
	amount := func(s tested.Water) float64 { return nitrateOf(t, s) * s.Portion.Volume().Litres() }
	checks.Relative(t, "nitrate", amount(f.End), amount(p.After), 1e-12)
	a, _ := alkalinityIn(f.End)
	b, _ := alkalinityIn(p.After)
	checks.Relative(t, "alkalinity", a.MilliequivalentsPerLitre()*f.End.Portion.Volume().Litres(), b.MilliequivalentsPerLitre()*p.After.Portion.Volume().Litres(), 1e-12)
	assert.Equal(t, c.Tank.Portion.Temperature(), f.End.Portion.Temperature())
	// pH on demand
	aired, err := f.End.Aired(430, units.Atmosphere)
	require.NoError(t, err)
	chem, err := aired.Chemistry()
	require.NoError(t, err)
	assert.InDelta(t, 8.1, chem.PH.Value(), 0.3)
}

// Evaporation agrees with Unattended and Evaporate, top-off with Residue.
func TestForecastOfEvaporation(t *testing.T) {
	r := closed(t, 10)
	r.Evaporation = 3 * units.LitrePerDay
	r.TopOff.None = true
	f, err := r.Forecast(10 * day)
	require.NoError(t, err)
	list, err := f.Until(dilution.Bounds{High: dilution.Goal{Salinity: units.Practical(37), Levels: nitrate(11)}})
	require.NoError(t, err)
	require.Len(t, list, 2)
	want, err := dilution.Unattended(r.Tank.Portion, r.Evaporation, units.Practical(37))
	require.NoError(t, err)
	assert.Equal(t, "Salinity", list[0].Name)
	assert.InDelta(t, want.Hours(), list[0].After.Hours(), 1e-6)
	gone, err := dilution.Evaporate(r.Tank.Portion, 30)
	require.NoError(t, err)
	checks.Relative(t, "mass", f.End.Portion.Mass.Grams(), gone.Mass.Grams(), 1e-12)
	checks.Relative(t, "salinity", f.End.Portion.Practical().Value(), gone.Practical().Value(), 1e-12)
	checks.Relative(t, "nitrate", nitrateOf(t, f.End), 10*200/gone.Volume().Litres(), 1e-12)

	r.TopOff = dilution.TopOff{Water: nitrate(5)}
	f, err = r.Forecast(10 * day)
	require.NoError(t, err)
	rise := dilution.Residue(5, r.Evaporation, 200, 10*day)
	checks.Relative(t, "residue", nitrateOf(t, f.End)-10, rise.MilligramsPerLitre(), 1e-12)
	assert.Equal(t, r.Tank.Portion.Mass, f.End.Portion.Mass)

	// By hand it comes to the same whenever the tank was just filled up.
	r.TopOff.Hand = 2 * day
	f, err = r.Forecast(10 * day)
	require.NoError(t, err)
	checks.Relative(t, "by hand", nitrateOf(t, f.End)-10, rise.MilligramsPerLitre(), 1e-12)
	before, err := f.Before(10 * day)
	require.NoError(t, err)
	assert.InDelta(t, 194, before.Volume().Litres(), 0.1)
}

// A use ends where nothing is left, and goes on with what comes.
func TestForecastOfWhatRunsOut(t *testing.T) {
	r := closed(t, 10)
	r.PerDay = nitrate(-3)
	r.Doses = []dilution.Dose{{Levels: nitrate(6), First: 5 * day, Every: 5 * day}}
	f, err := r.Forecast(20 * day)
	require.NoError(t, err)
	for d, want := range map[float64]float64{0: 10, 3: 1, 10. / 3: 0, 4: 0, 5: 6, 6: 3, 7: 0, 9: 0, 10: 6, 11: 3} {
		assert.InDelta(t, want, nitrateOf(t, at(t, &f, time.Duration(d*float64(day)))), 1e-9, d)
	}
	b := f.Balances[2]
	assert.InDelta(t, -(10+6*3)*200, b.Made, 1e-9)
	assert.Contains(t, fmt.Sprint(f.Cautions), "Nitrate is used up after 3.3 days")
	low, err := f.Until(dilution.Bounds{Low: dilution.Goal{Levels: nitrate(1)}})
	require.NoError(t, err)
	assert.InDelta(t, 72, low[0].After.Hours(), 1e-6)
	s, err := r.Settles()
	require.NoError(t, err)
	assert.InDelta(t, 6, nitrateOf(t, s.After), 1e-12)
	assert.InDelta(t, 0, nitrateOf(t, s.Before), 1e-12)
}

// Nitrate that is used up is good news; a tank whose alkalinity is used up is dead before.
func TestForecastRunsOut(t *testing.T) {
	runsOut := func(level, perDay tested.Level) advice.Caution {
		r := closed(t, 10)
		r.Tank = r.Tank.With(level)
		r.PerDay = tested.Levels{perDay}
		f, err := r.Forecast(20 * day)
		require.NoError(t, err)
		i := slices.IndexFunc(f.Cautions, func(c advice.Caution) bool { return c.ID == "runs-out" })
		require.GreaterOrEqual(t, i, 0)
		assert.True(t, f.Cautions[i].Here)
		return f.Cautions[i]
	}
	dKH := func(x float64) tested.Level { return tested.AlkalinityOf(units.DKH(x)).In(tested.DKH) }
	for _, c := range []advice.Caution{
		runsOut(dKH(8), dKH(-1)),
		runsOut(tested.Calcium.Of(400*units.MilligramPerLitre, units.AsCalcium), tested.Calcium.Of(-50*units.MilligramPerLitre, units.AsCalcium)),
	} {
		assert.Equal(t, advice.Danger, c.Severity)
		assert.Contains(t, c.Text, "is used up after 8.0 days")
	}
	c := runsOut(tested.Nitrate.Of(8*units.MilligramPerLitre, units.AsNitrate), tested.Nitrate.Of(-1*units.MilligramPerLitre, units.AsNitrate))
	assert.Equal(t, advice.Care, c.Severity)
}

// random returns a routine with a bit of everything.
func random(t testing.TB, rnd *rand.Rand) dilution.Routine {
	t.Helper()
	levels := func(scale float64) tested.Levels {
		m := func(most float64) units.MassPerLitre { return units.MassPerLitre(scale * most * rnd.Float64()) }
		return tested.Levels{
			tested.AlkalinityOf(units.MilliequivalentsPerLitre(scale * 4 * rnd.Float64())).In(tested.DKH),
			tested.Calcium.Of(m(500), units.AsCalcium), tested.Magnesium.Of(m(1500), units.AsMagnesium),
			tested.Nitrate.Of(m(60), units.AsNitrate), tested.Phosphate.Of(m(1), units.AsPhosphate),
			tested.Ammonia.Of(m(0.5), units.AsNitrogen), tested.Strontium.Of(m(10), units.AsStrontium),
			tested.Parameter("copper").OfMass(m(0.1)),
		}
	}
	rates := levels(0.02)
	if rnd.IntN(2) == 0 {
		a, _ := alkalinityIn(rates)
		rates = rates.With(tested.AlkalinityOf(units.MilliequivalentsPerLitre(-a.MilliequivalentsPerLitre())).In(tested.DKH))
		x, _ := massIn(rates, tested.Calcium)
		rates = rates.With(tested.Calcium.Of(-x, units.AsCalcium))
		copper, _ := massIn(rates, "copper")
		rates = rates.With(tested.Parameter("copper").OfMass(-copper))
	}
	some := func() time.Duration { return time.Duration(1+rnd.IntN(28)) * 6 * time.Hour }
	r := dilution.Routine{
		Tank:        tested.Water{Portion: water(t, 30+8*rnd.Float64(), 20+8*rnd.Float64()).OfVolume(units.Volume(20 + 400*rnd.Float64())), Levels: levels(1)},
		PerDay:      rates,
		Evaporation: units.Flow(0.1 * rnd.Float64()),
		Pumped:      levels(0.01),
	}
	v := r.Tank.Portion.Volume()
	switch rnd.IntN(4) {
	case 0:
		r.TopOff.Hand = some()
	case 1:
		r.TopOff.None = true
		r.Evaporation /= 10
	}
	r.TopOff.Water = levels(0.1)
	for range rnd.IntN(3) {
		r.Doses = append(r.Doses, dilution.Dose{Levels: levels(0.02), Salt: units.Mass(10 * rnd.Float64()), First: some(), Every: some()})
	}
	for range rnd.IntN(3) {
		batch := tested.Water{Portion: water(t, 30+8*rnd.Float64(), 15+12*rnd.Float64()).OfVolume(1), Levels: levels(1)}
		r.Changes = append(r.Changes, dilution.Renewal{Batch: batch, Swap: v * units.Volume(0.4*rnd.Float64()), First: some(), Every: some()})
	}
	if rnd.IntN(2) == 0 {
		batch := tested.Water{Portion: water(t, 30+8*rnd.Float64(), 15+12*rnd.Float64()).OfVolume(1), Levels: levels(1)}
		r.Stream = dilution.Stream{Batch: batch, Flow: units.Flow(0.3 * rnd.Float64())}
	}
	if rnd.IntN(2) == 0 {
		r.Losses = []dilution.Loss{{Of: tested.Nitrate, PerDay: units.Share(0.05)}, {Of: "copper", HalfLife: 4 * day}}
	}
	return r
}

// Nothing is lost and nothing made: salt, mass and every level balance, and the
// balance ends with what is in the tank.
func TestForecastConserves(t *testing.T) {
	rnd := rand.New(rand.NewPCG(9, 10))
	for range checks.Runs(300, 30) {
		r := random(t, rnd)
		f, err := r.Forecast(time.Duration(1+rnd.IntN(60)) * day)
		require.NoError(t, err)
		require.Len(t, f.Balances, 2+6+2)
		for _, b := range f.Balances {
			in := b.Before + b.Made + b.Dosed + b.Poured + b.Topped
			out := b.Drawn + b.Lost + b.After
			scale := b.Before + math.Abs(b.Made) + b.Dosed + b.Poured + math.Abs(b.Topped)
			assert.InDelta(t, in/scale, out/scale, 1e-12, "%s %+v", b.Name, b)
			for _, x := range []float64{b.Before, b.Dosed, b.Poured, b.Drawn, b.Lost, b.After} {
				assert.GreaterOrEqual(t, x, -1e-12*scale, "%+v", b)
			}
		}
		checks.Relative(t, "mass", f.Balances[0].After, f.End.Portion.Mass.Grams(), 1e-14)
		checks.Relative(t, "salt", f.Balances[1].After, f.End.Portion.Salt().Grams(), 1e-12)
		a, _ := alkalinityIn(f.End)
		checks.Relative(t, "alkalinity", f.Balances[2].After, a.MilliequivalentsPerLitre()*f.End.Portion.Volume().Litres(), 1e-12)
		s, _ := massIn(f.End, tested.Strontium)
		checks.Relative(t, "strontium", f.Balances[8].After, float64(s)*f.End.Portion.Volume().Litres(), 1e-12)
	}
}

// same compares two states.
func same(t testing.TB, a, b tested.Water, tolerance float64) {
	t.Helper()
	numbers := func(s tested.Water) []float64 {
		list := []float64{s.Portion.Mass.Grams(), s.Portion.Practical().Value(), s.Portion.Temperature().Celsius()}
		a, _ := alkalinityIn(s)
		list = append(list, a.MilliequivalentsPerLitre())
		for _, l := range s.Levels {
			list = append(list, l.Base())
		}
		return list
	}
	x, y := numbers(a), numbers(b)
	require.Len(t, y, len(x))
	for i := range x {
		assert.LessOrEqual(t, math.Abs(x[i]-y[i]), tolerance*(math.Abs(x[i])+math.Abs(y[i])), "%d: %v %v", i, x[i], y[i])
	}
}

// points are all of a forecast.
func points(t *testing.T, f *dilution.Forecast, step time.Duration) []dilution.Step {
	seq, err := f.Points(step)
	require.NoError(t, err)
	return slices.Collect(seq)
}

// The step of the output changes nothing, nor does a stop on the way.
func TestForecastDoesNotDependOnTheStep(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 12))
	for range checks.Runs(60, 6) {
		r := random(t, rnd)
		f, err := r.Forecast(30 * day)
		require.NoError(t, err)
		fine := points(t, &f, time.Hour)
		require.Len(t, fine, 721)
		coarse := points(t, &f, 7*time.Hour)
		for i, p := range coarse {
			assert.Equal(t, time.Duration(i)*7*time.Hour, p.At)
			same(t, p.Water, fine[7*i].Water, 1e-12)
			same(t, p.Water, at(t, &f, p.At), 1e-12)
		}
		same(t, fine[720].Water, f.End, 1e-12)
		same(t, fine[0].Water, at(t, &f, 0), 1e-12)
		// A shorter forecast has the same beginning.
		half, err := r.Forecast(11*day + time.Hour)
		require.NoError(t, err)
		same(t, half.End, at(t, &f, half.Span), 1e-12)
	}
}

// Small steps of the classical Runge-Kutta rule come to the same. The equations are
// written out here once more, in litres and from the routine alone.
func TestForecastAgainstRungeKutta(t *testing.T) {
	rnd := rand.New(rand.NewPCG(13, 14))
	const step = 15 * time.Minute
	days := float64(step) / float64(day)
	for range checks.Runs(25, 3) {
		r := random(t, rnd)
		r.PerDay = r.PerDay.With(tested.AlkalinityOf(units.MilliequivalentsPerLitre(0.01)), tested.Calcium.Of(2, units.AsCalcium), tested.Parameter("copper").OfMass(0.001)) // nothing runs out
		f, err := r.Forecast(28 * day)
		require.NoError(t, err)

		temperature := r.Tank.Portion.Temperature()
		pure, err := seawater.PureWater(temperature)
		require.NoError(t, err)
		v0 := r.Tank.Portion.Volume().Litres()
		volume := func(mass, salt float64) float64 {
			w, err := seawater.FromAbsolute(units.Absolute(1000*salt/mass), temperature)
			require.NoError(t, err)
			return w.OfMass(units.Mass(mass)).Volume().Litres()
		}
		// full is the mass at the mark, by bisection.
		full := func(salt float64) float64 {
			lo, hi := 900*v0, 1200*v0
			for range 60 {
				if mid := (lo + hi) / 2; volume(mid, salt) < v0 {
					lo = mid
				} else {
					hi = mid
				}
			}
			return (lo + hi) / 2
		}
		get := func(l tested.Levels, i int) float64 {
			if i == 0 {
				x, _ := massIn(l, tested.Calcium)
				return x.MilligramsPerLitre()
			}
			x, _ := massIn(l, tested.Nitrate)
			return x.MilligramsPerLitre()
		}
		rate := 0.0
		for _, l := range r.Losses {
			if l.Of == tested.Nitrate {
				rate = -math.Log(1 - l.PerDay.Value())
			}
		}
		evaporates := r.Evaporation.LitresPerDay() * float64(pure.Density())
		q := r.Stream.Flow.LitresPerDay()
		streams := q * float64(r.Stream.Batch.Portion.Density())
		automatic := !r.TopOff.None && r.TopOff.Hand == 0
		overflow := q > 0 && (automatic || streams >= evaporates)
		above := false         // the mark: nothing is topped off
		type vector [4]float64 // mass, salt, calcium, nitrate
		slope := func(v vector) (d vector) {
			in, out := streams, 0.0
			if automatic && !above {
				in += evaporates
			}
			if overflow { // as much as keeps the volume
				const h = 1e-4
				byMass := (volume(v[0]*(1+h), v[1]) - volume(v[0]*(1-h), v[1])) / (2 * h * v[0])
				bySalt := (volume(v[0], v[1]*(1+h)) - volume(v[0], v[1]*(1-h))) / (2 * h * v[1])
				salt := streams * r.Stream.Batch.Portion.Absolute().GramsPerKilogram() / 1000
				out = (byMass*(in-evaporates) + bySalt*salt) / (byMass + bySalt*v[1]/v[0])
			}
			d[0] = in - evaporates - out
			d[1] = streams*r.Stream.Batch.Portion.Absolute().GramsPerKilogram()/1000 - out*v[1]/v[0]
			for i := range 2 {
				d[2+i] = (get(r.PerDay, i)+get(r.Pumped, i))*v0 - out*v[2+i]/v[0]
				if q > 0 {
					d[2+i] += q * get(r.Stream.Batch.Levels, i)
				}
				if automatic && !above {
					d[2+i] += r.Evaporation.LitresPerDay() * get(r.TopOff.Water, i)
				}
			}
			d[3] -= rate * v[3]
			return d
		}
		along := func(v, d vector, by float64) vector {
			for i := range v {
				v[i] += by * d[i]
			}
			return v
		}
		due := func(now, first, every time.Duration) bool {
			return now >= first && (now == first || every > 0 && (now-first)%every == 0)
		}
		v := vector{r.Tank.Portion.Mass.Grams(), r.Tank.Portion.Salt().Grams(), get(r.Tank.Levels, 0) * v0, get(r.Tank.Levels, 1) * v0}
		fill := func() { // up to the mark, and what is above runs off if there is an overflow
			switch short := full(v[1]) - v[0]; {
			case short > 0 && (automatic || !overflow):
				for i := range 2 {
					v[2+i] += short / float64(pure.Density()) * get(r.TopOff.Water, i)
				}
				v[0] += short
			case short > 0:
				v[0] += short
			case overflow:
				v = along(v, v, v0/volume(v[0], v[1])-1)
			}
		}
		for now := time.Duration(0); ; now += step {
			if hand := r.TopOff.Hand; hand > 0 && due(now, hand, hand) {
				fill()
			}
			for _, c := range r.Changes {
				if !due(now, c.First, c.Every) {
					continue
				}
				w, err := seawater.FromAbsolute(units.Absolute(1000*v[1]/v[0]), temperature)
				require.NoError(t, err)
				x := float64(c.Swap) * float64(w.Density()) / v[0]
				poured := c.Batch.Portion.OfVolume(c.Swap)
				v = along(v, v, -x)
				v = along(v, vector{poured.Mass.Grams(), poured.Salt().Grams(), get(c.Batch.Levels, 0) * float64(c.Swap), get(c.Batch.Levels, 1) * float64(c.Swap)}, 1)
				if automatic || overflow {
					fill()
				}
			}
			for _, d := range r.Doses {
				if due(now, d.First, d.Every) {
					v = along(v, vector{d.Salt.Grams(), d.Salt.Grams(), get(d.Levels, 0) * v0, get(d.Levels, 1) * v0}, 1)
					if automatic || overflow {
						fill()
					}
				}
			}
			if now == f.Span {
				break
			}
			rungeKutta := func(days float64) {
				k1 := slope(v)
				k2 := slope(along(v, k1, days/2))
				k3 := slope(along(v, k2, days/2))
				k4 := slope(along(v, k3, days))
				v = along(along(along(along(v, k1, days/6), k2, days/3), k3, days/3), k4, days/6)
			}
			falls := 0.0
			if automatic && !overflow && evaporates > 0 {
				falls = max(0, min(days, (v[0]-full(v[1]))/evaporates))
			}
			above = true
			rungeKutta(falls)
			above = falls == days
			rungeKutta(days - falls)
			above = false
		}
		// Beside a stream the overflow is simplified, see Forecast.
		tolerance := 1e-9
		if overflow {
			tolerance = 2e-4
		}
		end := f.End.Portion
		checks.Relative(t, "mass", end.Mass.Grams(), v[0], tolerance)
		checks.Relative(t, "salt", end.Salt().Grams(), v[1], tolerance)
		checks.Relative(t, "calcium", get(f.End.Levels, 0), v[2]/end.Volume().Litres(), tolerance)
		checks.Relative(t, "nitrate", get(f.End.Levels, 1), v[3]/end.Volume().Litres(), tolerance)
	}
}

// Bounds are left when Until says, and not before.
func TestUntilAgainstManyLooks(t *testing.T) {
	rnd := rand.New(rand.NewPCG(15, 16))
	left, kept := 0, 0
	for range checks.Runs(80, 8) {
		r := random(t, rnd)
		f, err := r.Forecast(20 * day)
		require.NoError(t, err)
		points := points(t, &f, 10*time.Minute)
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range points {
			lo, hi = math.Min(lo, nitrateOf(t, p.Water)), math.Max(hi, nitrateOf(t, p.Water))
		}
		bound := lo + (hi-lo)*(1.2*rnd.Float64()-0.1)
		for _, high := range []bool{true, false} {
			b := dilution.Bounds{Low: dilution.Goal{Levels: nitrate(bound)}}
			if high {
				b = dilution.Bounds{High: dilution.Goal{Levels: nitrate(bound)}}
			}
			beyond := func(s tested.Water, by float64) bool {
				if high {
					return nitrateOf(t, s) > bound*(1+by)
				}
				return nitrateOf(t, s) < bound*(1-by)
			}
			list, err := f.Until(b)
			require.NoError(t, err)
			require.Len(t, list, 1)
			c := list[0]
			assert.Equal(t, high, c.High)
			for _, p := range points {
				if !c.Crosses() || p.At < c.After-time.Millisecond {
					assert.False(t, beyond(p.Water, 1e-9), "%v %v %v", c, p.At, nitrateOf(t, p.Water))
				}
			}
			if !c.Crosses() {
				kept++
				continue
			}
			left++
			if c.After+time.Minute < f.Span {
				assert.True(t, beyond(at(t, &f, c.After), -1e-8), "%v", c)
				assert.True(t, beyond(at(t, &f, c.After+time.Second), -1e-8))
			}
		}
	}
	assert.Greater(t, left, checks.Runs(30, 3))
	assert.Greater(t, kept, checks.Runs(10, -1))
}

// A level that rises and falls again between two events is seen at its summit.
func TestUntilSeesSummits(t *testing.T) {
	r := closed(t, 20)
	r.Evaporation, r.TopOff.None = 10*units.LitrePerDay, true
	r.Losses = []dilution.Loss{{Of: tested.Nitrate, PerDay: units.Share(0.065)}}
	f, err := r.Forecast(10 * day)
	require.NoError(t, err)
	points := points(t, &f, time.Minute)
	lowest := points[0]
	for _, p := range points {
		if nitrateOf(t, p.Water) < nitrateOf(t, lowest.Water) {
			lowest = p
		}
	}
	require.Greater(t, lowest.At, day)
	require.Less(t, lowest.At, 9*day)
	for by, crosses := range map[float64]bool{1e-6: true, -1e-6: false} {
		list, err := f.Until(dilution.Bounds{Low: dilution.Goal{Levels: nitrate(nitrateOf(t, lowest.Water) * (1 + by))}})
		require.NoError(t, err)
		assert.Equal(t, crosses, list[0].Crosses(), by)
	}
}

// A year of hours of a tank with twelve levels, its changes and daily doses.
func busyYear(t testing.TB) dilution.Routine {
	rnd := rand.New(rand.NewPCG(17, 18))
	for {
		r := random(t, rnd)
		if len(r.Changes) == 0 || len(r.Doses) == 0 || r.TopOff.None || r.Stream.Flow == 0 || len(r.Losses) == 0 {
			continue
		}
		r.Doses[0].Every, r.Changes[0].Every = day, 7*day
		r.Doses, r.Changes = r.Doses[:1], r.Changes[:1]
		for i := range 4 {
			s := tested.Parameter(fmt.Sprint("solute ", i)).OfMass(3 * units.MilligramPerLitre)
			r.Tank, r.Changes[0].Batch, r.Stream.Batch = r.Tank.With(s), r.Changes[0].Batch.With(s), r.Stream.Batch.With(s)
			r.Losses = append(r.Losses, dilution.Loss{Of: s.Parameter(), HalfLife: time.Duration(i+1) * day})
		}
		return r
	}
}

func TestForecastAllocatesLittle(t *testing.T) {
	r := busyYear(t)
	f, err := r.Forecast(365 * day)
	require.NoError(t, err)
	assert.Len(t, f.Balances, 14)
	walk := func() {
		seq, _ := f.Points(time.Hour)
		for range seq {
		}
	}
	assert.LessOrEqual(t, testing.AllocsPerRun(5, walk), 8761.0/16+5, "the levels of 16 points at once")
	whole := testing.AllocsPerRun(5, func() { _, _ = r.Forecast(365 * day) })
	month := testing.AllocsPerRun(5, func() { _, _ = r.Forecast(30 * day) })
	assert.Equal(t, month, whole, "they do not grow with the span")
	assert.LessOrEqual(t, whole, 200.0)
}

func BenchmarkForecastYearOfHours(b *testing.B) {
	r := busyYear(b)
	b.ReportAllocs()
	for b.Loop() {
		f, err := r.Forecast(365 * day)
		if err != nil {
			b.Fatal(err)
		}
		points, err := f.Points(time.Hour)
		if err != nil {
			b.Fatal(err)
		}
		n := 0
		for range points {
			n++
		}
		if n != 8761 {
			b.Fatal(n)
		}
	}
}

func BenchmarkSettles(b *testing.B) {
	r := busyYear(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := r.Settles(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkUntil(b *testing.B) {
	r := busyYear(b)
	f, err := r.Forecast(365 * day)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Until(dilution.Bounds{High: dilution.Goal{Salinity: units.Practical(41), Levels: nitrate(900)}}); err != nil {
			b.Fatal(err)
		}
	}
}

// What builds up against a loss is a/k (1 - exp(-kt)), to the last digits for any
// stretch of time, where the short ones go by a series.
func TestForecastOfWhatBuildsUp(t *testing.T) {
	r := closed(t, 0)
	r.PerDay = nitrate(1)
	r.Losses = []dilution.Loss{{Of: tested.Nitrate, HalfLife: 5 * day}}
	f, err := r.Forecast(200 * day)
	require.NoError(t, err)
	k := math.Ln2 / 5
	for d := time.Minute; d < 200*day; d = d * 21 / 20 {
		x := k * (float64(d) / float64(day))
		checks.Relative(t, d.String(), nitrateOf(t, at(t, &f, d)), -math.Expm1(-x)/k, 2e-15)
	}
}

// Sixty days of 0.3 L for 0.3 L of water a little less salty are sixty times Swap, but
// for the heat of mixing, which Swap keeps and a heater takes away.
func TestForecastAgreesWithRepeatedSwap(t *testing.T) {
	tank := water(t, 35, 25).OfVolume(10)
	fresh := water(t, 32, 25)
	r := dilution.Routine{
		Tank:    tested.Water{Portion: tank},
		TopOff:  dilution.TopOff{None: true},
		Changes: []dilution.Renewal{{Batch: tested.Water{Portion: fresh.OfVolume(1)}, Swap: 0.3, First: day, Every: day}},
	}
	f, err := r.Forecast(60 * day)
	require.NoError(t, err)
	for range 60 {
		tank, err = dilution.Swap(tank, fresh, 0.3)
		require.NoError(t, err)
	}
	checks.Relative(t, "salinity", f.End.Portion.Practical().Value(), tank.Practical().Value(), 1e-8)
	checks.Relative(t, "mass", f.End.Portion.Mass.Grams(), tank.Mass.Grams(), 1e-7)

	// A float valve fills up what mixing shrinks by, which is next to nothing.
	r.TopOff.None = false
	f, err = r.Forecast(60 * day)
	require.NoError(t, err)
	assert.InDelta(t, tank.Practical().Value(), f.End.Portion.Practical().Value(), 1e-3)
	checks.Relative(t, "level", f.End.Portion.Volume().Litres(), 10, 1e-12)
	assert.GreaterOrEqual(t, f.Balances[0].Topped, 0.0)
}

// A tank above its mark is not topped off: after a dose of salt what evaporates
// brings it down first, and Topped is what was poured.
func TestForecastHoldsTheLevel(t *testing.T) {
	r := closed(t, 10)
	r.Evaporation = 1 * units.LitrePerDay
	r.TopOff.Water = nitrate(50)
	r.Doses = []dilution.Dose{{Salt: 2 * units.Kilogram}}
	f, err := r.Forecast(10 * day)
	require.NoError(t, err)
	first := at(t, &f, 0).Volume().Litres()
	require.Greater(t, first, 200.5) // 2 kg of salt take more than half a litre
	falls := time.Duration((first - 200) * float64(day))
	on := at(t, &f, falls/2).Volume().Litres()
	assert.InDelta(t, (first+200)/2, on, 0.02, "halfway down")
	checks.Relative(t, "level", f.End.Portion.Volume().Litres(), 200, 1e-11)
	topped := f.Balances[0].Topped
	assert.Greater(t, topped, 0.0)
	assert.InDelta(t, 10-(first-200), topped/997, 0.05, "only what was poured")
	for _, b := range f.Balances {
		assert.InDelta(t, b.Drawn+b.Lost+b.After, b.Before+b.Made+b.Dosed+b.Poured+b.Topped, 1e-9*(1+b.Before), b.Name)
	}
	checks.Relative(t, "nitrate", nitrateOf(t, f.End)*200, 10*200+50*topped/float64(pure(t)), 1e-9)
}

func pure(t testing.TB) float64 {
	w, err := seawater.PureWater(units.Celsius(25))
	require.NoError(t, err)
	return float64(w.Density())
}
