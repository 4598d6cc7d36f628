package dilution_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

const day = 24 * time.Hour

func water(t testing.TB, sp, celsius float64) seawater.Sample {
	t.Helper()
	s, err := seawater.FromPractical(units.Practical(sp), units.Celsius(celsius))
	require.NoError(t, err)
	return s
}

func TestRemainingByHand(t *testing.T) {
	const byHand = 1e-15
	assert.InDelta(t, 0.75, float64(dilution.Once(units.Share(0.25))), 1e-15)
	assert.InDelta(t, 0.75*0.75*0.75, float64(dilution.Repeated(units.Share(0.25), 3)), 1e-15)
	// Stirred tank (Levenspiel 1999): after one volume 1/e is left.
	assert.InDelta(t, 1/math.E, float64(dilution.Continuous(100, 100)), byHand)
	assert.InDelta(t, 1, float64(dilution.Repeated(units.Share(0.25), 0)), 0)
	// Many small changes tend to the continuous one.
	assert.InDelta(t, 1/math.E, float64(dilution.Repeated(units.Share(1e-6), 1e6)), 1e-6)
	// 40 mg/L, a quarter swapped for water with 4 mg/L: 31 mg/L.
	assert.InDelta(t, 31, dilution.Level(40*units.MilligramPerLitre, 4, dilution.Once(units.Share(0.25))).MilligramsPerLitre(), 1e-12)

	for _, r := range []dilution.Remaining{
		dilution.Once(units.Share(1.1)), dilution.Once(units.Share(-0.1)), dilution.Repeated(units.Share(0.1), -1), dilution.Continuous(-1, 100),
		dilution.Continuous(1, 0), dilution.Once(units.Share(math.NaN())),
	} {
		assert.True(t, math.IsNaN(float64(r)))
	}
	assert.True(t, math.IsNaN(dilution.Once(units.Share(0.5)).ShareEach(0).Value()))
}

func TestRemainingForwardAndBack(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for i := 0; i < 1000; i++ {
		share := units.Share(0.01 + 0.98*r.Float64())
		n := 1 + r.IntN(30)
		left := dilution.Repeated(share, n)
		times, err := left.Times(share)
		require.NoError(t, err)
		assert.Equal(t, n, times, "%v %d", share, n)
		assert.InEpsilon(t, share.Value(), left.ShareEach(n).Value(), 1e-9)
		once := dilution.Once(share)
		assert.InEpsilon(t, share.Value(), once.Share().Value(), 1e-12)
		tank := units.Volume(10 + 1000*r.Float64())
		assert.InEpsilon(t, float64(once), float64(dilution.Continuous(once.Feed(tank), tank)), 1e-12)
		// any level between is reached, from above as from below
		old, fresh := 100*r.Float64(), 100*r.Float64()
		goal := fresh + (old-fresh)*r.Float64()
		need, err := dilution.For(old, fresh, goal)
		require.NoError(t, err)
		assert.InDelta(t, goal, dilution.Level(old, fresh, need), 1e-11)
	}
}

func TestGoalsThatNoChangeReaches(t *testing.T) {
	for _, g := range [][3]float64{{40, 5, 4}, {40, 5, 41}, {5, 40, 41}, {40, 40, 39}, {math.NaN(), 0, 1}, {40, 5, math.NaN()}} {
		_, err := dilution.For(g[0], g[1], g[2])
		assert.ErrorIs(t, err, units.ErrInput, "%v", g)
	}
	r, err := dilution.For(40.0, 40, 40)
	require.NoError(t, err)
	assert.EqualValues(t, 1, r)
	_, err = dilution.Remaining(0).Times(units.Share(0.5)) // the last of it never goes
	assert.ErrorIs(t, err, units.ErrInput)
	n, err := dilution.Remaining(0).Times(units.Share(1))
	require.NoError(t, err)
	assert.Equal(t, 1, n)
	for _, share := range []units.Fraction{units.Share(0), units.Share(-1), units.Share(2), units.Share(1e-300), units.Share(math.NaN())} {
		_, err := dilution.Remaining(0.5).Times(share)
		assert.ErrorIs(t, err, units.ErrInput)
	}
}

// The closed forms against the process itself, step by step.
func TestPeriodicAgainstTheProcess(t *testing.T) {
	const stepByStep = 1e-12
	r := rand.New(rand.NewPCG(7, 8))
	for i := 0; i < 500; i++ {
		p := dilution.Periodic[units.MassPerLitre]{
			Share: units.Share(0.05 + 0.9*r.Float64()), Every: time.Duration(1+r.IntN(30)) * day,
			Fresh: units.MassPerLitre(10 * r.Float64()), PerDay: units.MassPerLitre(r.Float64()),
		}
		start := units.MassPerLitre(100 * r.Float64())
		level := start
		for n := 1; n <= 40; n++ {
			level += p.PerDay * units.MassPerLitre(p.Every.Hours()/24)
			level = dilution.Level(level, p.Fresh, dilution.Once(p.Share))
			got, err := p.After(start, n)
			require.NoError(t, err)
			assert.InEpsilon(t, float64(level), float64(got), stepByStep)
		}
		before, after, err := p.Steady()
		require.NoError(t, err)
		far, err := p.After(start, 100000)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(far), float64(after), 1e-12)
		assert.InEpsilon(t, float64(after), float64(dilution.Level(before, p.Fresh, dilution.Once(p.Share))), 1e-12)

		share, err := dilution.ShareToHold(p.Fresh, p.PerDay, before, p.Every)
		require.NoError(t, err)
		assert.InEpsilon(t, p.Share.Value(), share.Value(), 1e-9)

		goal := after + (start-after)*0.3
		n, err := p.Changes(start, goal)
		require.NoError(t, err)
		at, err := p.After(start, n)
		require.NoError(t, err)
		short, err := p.After(start, n-1)
		require.NoError(t, err)
		assert.True(t, math.Abs(float64(at-after)) <= math.Abs(float64(goal-after))*(1+1e-6))
		assert.True(t, math.Abs(float64(short-after)) >= math.Abs(float64(goal-after))*(1-1e-6))
	}
}

func TestPeriodicRefuses(t *testing.T) {
	good := dilution.Periodic[units.MassPerLitre]{Share: units.Share(0.2), Every: 7 * day, Fresh: 0, PerDay: 1}
	for name, spoil := range map[string]func(*dilution.Periodic[units.MassPerLitre]){
		"no share":       func(p *dilution.Periodic[units.MassPerLitre]) { p.Share = units.Share(0) },
		"20 for 20 %":    func(p *dilution.Periodic[units.MassPerLitre]) { p.Share = units.Share(20) },
		"no interval":    func(p *dilution.Periodic[units.MassPerLitre]) { p.Every = 0 },
		"fresh negative": func(p *dilution.Periodic[units.MassPerLitre]) { p.Fresh = -1 },
		"source NaN":     func(p *dilution.Periodic[units.MassPerLitre]) { p.PerDay = units.MassPerLitre(math.NaN()) },
		"used up":        func(p *dilution.Periodic[units.MassPerLitre]) { p.PerDay = -1 },
	} {
		p := good
		spoil(&p)
		before, after, err := p.Steady()
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.True(t, math.IsNaN(float64(before)) && math.IsNaN(float64(after)), name)
		level, err := p.After(5, 3)
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.True(t, math.IsNaN(float64(level)), name)
	}
	_, err := good.After(5, -1)
	assert.ErrorIs(t, err, units.ErrInput)
	for _, start := range []units.MassPerLitre{-1, units.MassPerLitre(math.NaN())} {
		_, err = good.After(start, 0)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	greedy := good
	greedy.PerDay = -4 // 28 of the 30 there, and then there is not enough
	_, err = greedy.Changes(30, 1)
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = good.Changes(5, 1) // settles at 28
	assert.EqualError(t, err, "goal: got 1, want between 5 now and 28, where this routine settles")
	_, err = dilution.ShareToHold[units.MassPerLitre](0, 1, 5, 7*day)
	assert.EqualError(t, err, "limit: got 5, want beyond 7, which even a full change every time leaves")
	// Calcium into corals: the level falls between changes and that is fine.
	p := dilution.Periodic[units.MassPerLitre]{Share: units.Share(0.2), Every: 7 * day, Fresh: 440, PerDay: -2}
	before, after, err := p.Steady()
	require.NoError(t, err)
	assert.InDelta(t, 440-14/0.2, before.MilligramsPerLitre(), 1e-9)
	assert.InDelta(t, 440-14/0.2+14, after.MilligramsPerLitre(), 1e-9)
}

func TestSwapConservesAndReaches(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	for i := 0; i < 1000; i++ {
		tank := water(t, between(0, 42), between(15, 30)).OfVolume(units.Volume(between(20, 1000)))
		fresh := water(t, between(0, 42), between(10, 35))
		v := tank.Volume() * units.Volume(r.Float64())
		after, err := dilution.Swap(tank, fresh, v)
		require.NoError(t, err)
		out, in := tank.OfVolume(v), fresh.OfVolume(v)
		assert.InEpsilon(t, float64(tank.Mass-out.Mass+in.Mass), float64(after.Mass), 1e-12)
		assert.InDelta(t, float64(tank.Salt()-out.Salt()+in.Salt()), float64(after.Salt()), 1e-12*float64(tank.Mass))
		back, err := dilution.SwapToReach(tank, fresh, after.Practical())
		require.NoError(t, err)
		if math.Abs(tank.Practical().Value()-fresh.Practical().Value()) > 0.1 {
			assert.InDelta(t, float64(v/tank.Volume()), float64(back/tank.Volume()), 1e-9)
		}
	}
}

func TestSwapRefuses(t *testing.T) {
	tank, fresh := water(t, 36, 25).OfVolume(200), water(t, 0, 25)
	for _, v := range []units.Volume{-1, 201, units.Volume(math.NaN())} {
		p, err := dilution.Swap(tank, fresh, v)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(p.Mass.Grams()))
		_, err = dilution.Evaporate(tank, v)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	for _, goal := range []float64{37, -1, 43, math.NaN()} {
		_, err := dilution.SwapToReach(tank, fresh, units.Practical(goal))
		assert.Error(t, err)
	}
	_, err := dilution.SwapToReach(seawater.Portion{}, fresh, units.Practical(35))
	assert.ErrorIs(t, err, units.ErrInput)
	v, err := dilution.SwapToReach(tank, fresh, units.Practical(36))
	require.NoError(t, err)
	assert.Zero(t, v)
	v, err = dilution.SwapToReach(tank, fresh, units.Practical(0))
	require.NoError(t, err)
	assert.InDelta(t, 200, v.Litres(), 1e-9)
}

// Evaporation against its own top-off, and the time to a limit against the
// steps to it.
func TestEvaporation(t *testing.T) {
	tank := water(t, 35, 26).OfVolume(300)
	drier, err := dilution.Evaporate(tank, 6)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(tank.Salt()), float64(drier.Salt()), 1e-14)
	// The water that is left carries all the salt: S' = S M / (M - m).
	lost := water(t, 0, 26).OfVolume(6).Mass
	assert.InEpsilon(t, 35*float64(tank.Mass)/float64(tank.Mass-lost), drier.Practical().Value(), 1e-14)
	again := seawater.Blend(drier, water(t, 0, 26).OfVolume(6))
	assert.InDelta(t, 35, again.Practical().Value(), 1e-12)
	// Mixing fresh water in takes up a little heat; back at 26 °C it is the tank.
	back, err := again.At(units.Celsius(26))
	require.NoError(t, err)
	assert.InDelta(t, 300, back.OfMass(again.Mass).Volume().Litres(), 1e-9)
	assert.InDelta(t, 26, again.Temperature().Celsius(), 0.002)

	d, err := dilution.Unattended(tank, 2*units.LitrePerDay, units.Practical(36))
	require.NoError(t, err)
	at, err := dilution.Evaporate(tank, (2 * units.LitrePerDay).Volume(d))
	require.NoError(t, err)
	assert.InDelta(t, 36, at.Practical().Value(), 1e-9)

	for _, bad := range []struct {
		tank  seawater.Portion
		flow  units.Flow
		limit float64
	}{{seawater.Portion{}, 1, 36}, {tank, 0, 36}, {tank, 1, 34}, {tank, 1, 43}, {tank, 1e-12, 36}, {water(t, 0, 26).OfVolume(10), 1, 36}} {
		_, err := dilution.Unattended(bad.tank, bad.flow, units.Practical(bad.limit))
		assert.Error(t, err)
	}
	_, err = dilution.Evaporate(tank, 300)
	assert.Error(t, err)

	// 2 mg/L in the top-off, 2 L a day, 300 L, a year: 2*2*365/300.
	assert.InDelta(t, 2*2*365/300., dilution.Residue(2, 2*units.LitrePerDay, 300, 365*day).MilligramsPerLitre(), 1e-12)
	assert.True(t, math.IsNaN(float64(dilution.Residue(2, 2, 0, day))))
}

func TestNetVolume(t *testing.T) {
	cm := units.Centimetre
	display, err := mix.Box(120*cm, 50*cm, 50*cm)
	require.NoError(t, err)
	sump, err := mix.Box(80*cm, 40*cm, 40*cm)
	require.NoError(t, err)
	basins := []dilution.Basin{{"display", display, 46 * cm}, {"sump", sump, 22 * cm}}
	v, err := dilution.NetVolume(basins, []dilution.Solid{{"rock", 29.3 * units.Kilogram, 2930}, {"sand", 13.25 * units.Kilogram, 2650}})
	require.NoError(t, err)
	assert.InDelta(t, 12*5*4.6+8*4*2.2-10-5, v.Litres(), 1e-9)
	for _, bad := range [][]dilution.Solid{{{"rock", 2000 * units.Kilogram, 2930}}, {{"rock", 1, 1.5}}, {{"rock", -1, 2930}}} {
		_, err := dilution.NetVolume(basins, bad)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	_, err = dilution.NetVolume([]dilution.Basin{{"display", display, 60 * cm}}, nil)
	assert.EqualError(t, err, "basins.display.height: got 600 mm, want 0 to the brim at 500 mm")
	_, err = dilution.NetVolume(nil, nil)
	assert.ErrorIs(t, err, units.ErrInput)
}

// A tank of known volume gets salt; the tracer finds the volume, and its
// uncertainty is that of a simulation (JCGM 101).
func TestTracer(t *testing.T) {
	tank := water(t, 33, 25).OfVolume(250)
	salt := mix.Salt{SeaSalt: units.Percent(95)}
	added := 600 * units.Gram
	s := (float64(tank.Salt()) + 0.95*added.Grams()) / (float64(tank.Mass) + added.Grams()) * 1000
	after, err := seawater.FromAbsolute(units.Absolute(s), units.Celsius(25))
	require.NoError(t, err)
	tracer := dilution.Tracer{Salt: salt, Added: added, Before: units.Practical(33), After: after.Practical(), Reading: units.Practical(0.05), Temperature: units.Celsius(25)}
	v, u, err := tracer.Volume()
	require.NoError(t, err)
	assert.InDelta(t, 250, v.Litres(), 1e-9)

	r := rand.New(rand.NewPCG(11, 12))
	runs, wider := checks.Draws(40000)
	var sum, squares float64
	for i := 0; i < runs; i++ {
		noisy := tracer
		noisy.Before = units.Practical(33 + 0.01*r.NormFloat64())
		noisy.After = units.Practical(after.Practical().Value() + 0.01*r.NormFloat64())
		noisy.Reading = units.Practical(0)
		x, _, err := noisy.Volume()
		require.NoError(t, err)
		sum += x.Litres()
		squares += x.Litres() * x.Litres()
	}
	mean := sum / float64(runs)
	assert.InEpsilon(t, u.Litres()/5, math.Sqrt(squares/float64(runs)-mean*mean), 0.03*wider, "a fifth of the reading uncertainty gives a fifth")

	for name, spoil := range map[string]func(*dilution.Tracer){
		"no salt":     func(t *dilution.Tracer) { t.Salt = mix.Salt{} },
		"nothing":     func(t *dilution.Tracer) { t.Added = 0 },
		"no rise":     func(t *dilution.Tracer) { t.After = t.Before },
		"bad before":  func(t *dilution.Tracer) { t.Before = units.Practical(-1) },
		"bad after":   func(t *dilution.Tracer) { t.After = units.Practical(50) },
		"bad reading": func(t *dilution.Tracer) { t.Reading = units.Practical(-0.1) },
		"hot":         func(t *dilution.Tracer) { t.Temperature = units.Celsius(78) },
	} {
		bad := tracer
		spoil(&bad)
		v, _, err := bad.Volume()
		assert.Error(t, err, name)
		assert.True(t, math.IsNaN(v.Litres()), name)
	}
}

func change(t *testing.T) dilution.Change {
	return dilution.Change{
		Tank: tested.Water{
			Portion: water(t, 35.6, 25.4).OfVolume(320),
			Levels: tested.Levels{
				tested.AlkalinityOf(units.DKH(7.2)).In(tested.DKH),
				tested.Calcium.Of(400*units.MilligramPerLitre, units.AsCalcium),
				tested.Nitrate.Of(28*units.MilligramPerLitre, units.AsNitrate),
				tested.Phosphate.Of(0.14*units.MilligramPerLitre, units.AsPhosphate),
				tested.Potassium.Of(390*units.MilligramPerLitre, units.AsPotassium),
			},
		},
		Batch: tested.Water{
			Portion: water(t, 35, 24).OfVolume(60),
			Levels: tested.Levels{
				tested.AlkalinityOf(units.DKH(8.5)).In(tested.DKH),
				tested.Calcium.Of(430*units.MilligramPerLitre, units.AsCalcium),
				tested.Magnesium.Of(1300*units.MilligramPerLitre, units.AsMagnesium),
				tested.Nitrate.Of(0*units.MilligramPerLitre, units.AsNitrate),
				tested.Phosphate.Of(0*units.MilligramPerLitre, units.AsPhosphate),
				tested.Potassium.Of(400*units.MilligramPerLitre, units.AsPotassium),
				tested.Parameter("copper").OfMass(0.06 * units.MilligramPerLitre),
			},
		},
		Swap: 60 * units.Litre,
	}
}

func TestPlanChangeConservesEverything(t *testing.T) {
	c := change(t)
	p, err := dilution.PlanChange(c)
	require.NoError(t, err)
	v := p.After.Portion.Volume()
	kept := c.Tank.Portion.Volume() - c.Swap
	for _, parameter := range []tested.Parameter{tested.Calcium, tested.Nitrate, tested.Phosphate, tested.Potassium} {
		a, ok := massIn(p.After, parameter)
		require.True(t, ok)
		x, _ := massIn(c.Tank, parameter)
		y, _ := massIn(c.Batch, parameter)
		assert.InEpsilon(t, float64(x.Mass(kept)+y.Mass(c.Swap)), float64(a.Mass(v)), 1e-12)
	}
	alk, _ := alkalinityIn(p.After)
	assert.InEpsilon(t, 7.2*kept.Litres()+8.5*c.Swap.Litres(), alk.DKH()*v.Litres(), 1e-12)

	water, err := dilution.Swap(c.Tank.Portion, c.Batch.Portion.Sample, c.Swap)
	require.NoError(t, err)
	assert.Equal(t, water, p.After.Portion)
	assert.InDelta(t, 60/320., p.Share.Value(), 1e-12)
	assert.InDelta(t, 0, p.BatchLeft.Litres(), 1e-9)

	// What was measured in one water only is unknown afterwards, and said so.
	_, known := massIn(p.After, tested.Magnesium)
	assert.False(t, known)
	assert.Contains(t, p.Assumptions, "Magnesium is not known in both waters, so it is not known after the change.")
	assert.Contains(t, p.Assumptions, "Copper is not known in both waters, so it is not known after the change.")

	names := []string{}
	for _, m := range p.Moves() {
		names = append(names, m.Name)
	}
	assert.Empty(t, cmp.Diff([]string{"Salinity", "Temperature", "Alkalinity", "Calcium", "Nitrate", "Phosphate", "Potassium", "Magnesium", "Copper"}, names))
}

func TestPlanChangeCautions(t *testing.T) {
	ids := func(c dilution.Change) []string {
		p, err := dilution.PlanChange(c)
		require.NoError(t, err)
		list := []string{}
		for _, c := range p.Cautions {
			list = append(list, c.ID)
			assert.NotEmpty(t, c.Text)
		}
		return list
	}
	usual := []string{"unplug-before-draining", "measure-the-batch"}
	small := change(t)
	small.Swap = 5
	assert.Empty(t, cmp.Diff(usual, ids(small)))

	c := change(t)
	assert.Empty(t, cmp.Diff(append(usual, "heavy-water"), ids(c)))
	c.Batch.Portion = water(t, 28, 15).OfVolume(60)
	c.Batch = c.Batch.With(tested.AlkalinityOf(units.DKH(14)).In(tested.DKH))
	assert.Empty(t, cmp.Diff(append(usual, "salinity-swing", "temperature-swing", "alkalinity-swing", "heavy-water"), ids(c)))
	c = change(t)
	c.Batch.Portion = water(t, 35.6, 25.4).OfVolume(200)
	c.Swap = 170
	assert.Contains(t, ids(c), "large-change")
}

func TestPlanChangeRefuses(t *testing.T) {
	for name, r := range map[string]struct {
		spoil func(*dilution.Change)
		want  string
	}{
		"no tank":         {func(c *dilution.Change) { c.Tank.Portion.Mass = 0 }, "tank.volume: got 0 L, want a number above zero"},
		"more than tank":  {func(c *dilution.Change) { c.Swap = 400 }, "swap: got 400 L, want zero to the 320.00 L of the tank"},
		"negative":        {func(c *dilution.Change) { c.Swap = -1 }, "swap: got -1 L, want zero to the 320.00 L of the tank"},
		"more than batch": {func(c *dilution.Change) { c.Swap = 100 }, "swap: got 100 L, want at most the 60.00 L of the batch"},
		"negative nitrate": {func(c *dilution.Change) {
			c.Tank = c.Tank.With(tested.Nitrate.Of(-1*units.MilligramPerLitre, units.AsNitrate))
		}, "tank.nitrate: got -1 mg/L NO3, want zero or more"},
		"absurd": {func(c *dilution.Change) {
			c.Batch = c.Batch.With(tested.AlkalinityOf(units.MilliequivalentsPerLitre(1e9)))
		}, "batch.alkalinity: got 1e+09 meq/L, want a number of ordinary size"},
		"twice":          {func(c *dilution.Change) { c.Tank.Levels = append(c.Tank.Levels, tested.Potassium.None()) }, "tank.potassium: got two levels, want one"},
		"other negative": {func(c *dilution.Change) { c.Batch = c.Batch.With(tested.Parameter("copper").OfMass(-4)) }, "batch.copper: got -4 mg/L of copper, want zero or more"},
	} {
		c := change(t)
		r.spoil(&c)
		p, err := dilution.PlanChange(c)
		assert.EqualError(t, err, r.want, name)
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.Zero(t, p)
	}
}

// Whatever goes in, the inverse ends and what it returns reaches the goal.
func FuzzSwapToReach(f *testing.F) {
	f.Add(36.0, 25.0, 200.0, 0.0, 25.0, 35.0)
	f.Add(30.0, 20.0, 50.0, 42.0, 5.0, 33.0)
	f.Fuzz(func(t *testing.T, s, c, v, sf, cf, goal float64) {
		tank, err := seawater.FromPractical(units.Practical(s), units.Celsius(c))
		if err != nil {
			return
		}
		fresh, err := seawater.FromPractical(units.Practical(sf), units.Celsius(cf))
		if err != nil || !(v > 1e-6 && v < 1e9) {
			return
		}
		p := tank.OfVolume(units.Volume(v))
		swap, err := dilution.SwapToReach(p, fresh, units.Practical(goal))
		if err != nil {
			require.True(t, math.IsNaN(swap.Litres()))
			return
		}
		after, err := dilution.Swap(p, fresh, swap)
		require.NoError(t, err)
		require.InDelta(t, goal, after.Practical().Value(), 1e-9)
	})
}

func BenchmarkPlanChange(b *testing.B) {
	s, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	require.NoError(b, err)
	c := dilution.Change{Tank: tested.Water{Portion: s.OfVolume(300)}, Batch: tested.Water{Portion: s.OfVolume(60)}, Swap: 60}
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		if _, err := dilution.PlanChange(c); err != nil {
			b.Fatal(err)
		}
	}
}

// Plans go to JSON and come back; what was not measured stays so.
func TestPlansAreJSON(t *testing.T) {
	c := change(t)
	p, err := dilution.PlanChange(c)
	require.NoError(t, err)
	text, err := json.Marshal(p)
	require.NoError(t, err)
	assert.Contains(t, string(text), `"28 mg/L NO3"`)
	var back dilution.ChangePlan
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, p, back)
	assert.Error(t, json.Unmarshal([]byte(`{"Before":{"Levels":["405 ppm"]}}`), &back))
}
