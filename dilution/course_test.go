package dilution_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Nitrate from 60 to 15 mg/L, a change every second day, no more than 1 dKH and
// 1 in salinity a day.
func ExamplePlanCourse() {
	tank, err := seawater.FromPractical(units.Practical(36.5), units.Celsius(25.5))
	if err != nil {
		fmt.Println(err)
		return
	}
	mixed, err := seawater.FromPractical(units.Practical(35), units.Celsius(24))
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := dilution.PlanCourse(dilution.Course{
		Tank: tested.Water{
			Portion: tank.OfVolume(240 * units.Litre),
			Levels: tested.Levels{
				tested.AlkalinityOf(units.DKH(6)).In(tested.DKH),
				tested.Nitrate.Of(60*units.MilligramPerLitre, units.AsNitrate),
			},
		},
		Batch: tested.Water{
			Portion: mixed.OfVolume(40 * units.Litre),
			Levels: tested.Levels{
				tested.AlkalinityOf(units.DKH(9)).In(tested.DKH),
				tested.Nitrate.Of(0*units.MilligramPerLitre, units.AsNitrate),
			},
		},
		Goal: dilution.Goal{Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(9.5)).In(tested.DKH),
			tested.Nitrate.Of(15*units.MilligramPerLitre, units.AsNitrate),
		}},
		Limits: tested.Limits{},
		Manner: dilution.InSteps,
		Every:  48 * time.Hour,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	lacks, _ := alkalinityIn(plan.Lacks)
	fmt.Printf("%d changes of %.0f L, %d vessels, %.0f days\n", plan.Changes, plan.Each.Litres(), plan.Vessels, plan.Duration.Hours()/24)
	fmt.Println("slowed by", plan.Slowed)
	fmt.Printf("%.1f dKH still to be added\n", lacks.DKH())
	// Output:
	// 4 changes of 70 L, 8 vessels, 6 days
	// slowed by Alkalinity by 1 dKH within a day (common practice)
	// 1.3 dKH still to be added
}

// course returns a tank that is to lose its nitrate, with all chemistry known.
func course(t testing.TB) dilution.Course {
	tank := tested.Water{
		Portion: water(t, 36.2, 25.5).OfVolume(240 * units.Litre),
		Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(6.5)).In(tested.DKH),
			tested.Calcium.Of(390*units.MilligramPerLitre, units.AsCalcium),
			tested.Nitrate.Of(60*units.MilligramPerLitre, units.AsNitrate),
			tested.Ammonia.Of(0.1*units.MilligramPerLitre, units.AsNitrogen),
		},
	}
	tank.Carbon = carbonate.PH(carbonate.PHTotal(7.9))
	batch := tested.Water{
		Portion: water(t, 35, 25).OfVolume(40 * units.Litre),
		Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(9)).In(tested.DKH),
			tested.Calcium.Of(430*units.MilligramPerLitre, units.AsCalcium),
			tested.Nitrate.Of(0*units.MilligramPerLitre, units.AsNitrate),
			tested.Ammonia.Of(0*units.MilligramPerLitre, units.AsNitrogen),
		},
	}
	batch, err := batch.Aired(430, units.Atmosphere)
	require.NoError(t, err)
	return dilution.Course{
		Tank: tank, Batch: batch, Limits: tested.Limits{},
		Goal:   dilution.Goal{Levels: tested.Levels{tested.Nitrate.Of(15*units.MilligramPerLitre, units.AsNitrate)}},
		Manner: dilution.InSteps, Every: 24 * time.Hour,
	}
}

// within tells by how much the worst move between two states passes a limit.
func within(l tested.Limit, a, b tested.Water, temperature bool) float64 {
	worst := 0.0
	look := func(x, y, allowed float64) {
		if allowed > 0 && !math.IsNaN(x-y) {
			worst = math.Max(worst, math.Abs(y-x)/allowed)
		}
	}
	look(a.Portion.Practical().Value(), b.Portion.Practical().Value(), l.Salinity.Value())
	if temperature {
		look(a.Portion.Temperature().Celsius(), b.Portion.Temperature().Celsius(), float64(l.Temperature))
	}
	ca, _ := a.Chemistry()
	cb, _ := b.Chemistry()
	look(ca.PH.Value(), cb.PH.Value(), l.PH)
	for _, m := range l.Levels {
		x, knownX := a.Level(m.Parameter())
		y, knownY := b.Level(m.Parameter())
		nutrient := m.Parameter() == tested.Nitrate || m.Parameter() == tested.Phosphate || m.Parameter() == tested.Ammonia
		if knownX && knownY && !(nutrient && y.Base() < x.Base()) {
			look(x.Base(), y.Base(), m.Base())
		}
	}
	return worst
}

// warmed returns a water at another temperature: its mass stays, and what is
// counted by the litre follows the litre.
func warmed(t testing.TB, s tested.Water, to units.Temperature) tested.Water {
	warm, err := s.Portion.At(to)
	require.NoError(t, err)
	old := s.Portion.Volume()
	s.Portion = warm.OfMass(s.Portion.Mass)
	shrunk := float64(old / s.Portion.Volume())
	for _, l := range s.Levels {
		s = s.With(l.WithBase(l.Base() * shrunk))
	}
	return s
}

// holds walks through a plan with PlanChange and returns the worst move of
// each limit: what the plan says, worked out by other means.
func holds(t testing.TB, c dilution.Course, p dilution.CoursePlan) float64 {
	batch := c.Batch
	if p.Adjust {
		batch = warmed(t, batch, c.Tank.Portion.Temperature())
	}
	batch.Portion.Mass *= 1e6 // all vessels at once
	var before, after []tested.Water
	now := c.Tank
	for range p.Changes {
		one, err := dilution.PlanChange(dilution.Change{Tank: now, Batch: batch, Swap: p.Each})
		require.NoError(t, err)
		before, after = append(before, now), append(after, one.After)
		now = warmed(t, one.After, c.Tank.Portion.Temperature())
	}
	worst := 0.0
	for _, l := range c.Limits.List() {
		for i := range before {
			worst = math.Max(worst, within(l, before[i], after[i], true))
			for k := i; k < len(after); k++ {
				if c.Manner == dilution.InSteps && time.Duration(k-i)*c.Every < l.Within {
					worst = math.Max(worst, within(l, before[i], after[k], false))
				}
			}
		}
	}
	return worst
}

func TestCourseInSteps(t *testing.T) {
	c := course(t)
	p, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	got, _ := massIn(p.After, tested.Nitrate)
	assert.InDelta(t, 15, got.MilligramsPerLitre(), 1e-8, "the goal is reached and no more")
	assert.Len(t, p.Steps, p.Changes)
	assert.Equal(t, time.Duration(p.Changes-1)*c.Every, p.Duration)
	assert.InEpsilon(t, float64(p.Changes)*p.Each.Litres(), p.Total.Litres(), 1e-12)
	assert.Equal(t, int(math.Ceil(p.Total.Litres()/40)), p.Vessels)
	assert.LessOrEqual(t, holds(t, c, p), 1+1e-8)

	// One change fewer would pass a limit.
	assert.NotEmpty(t, p.Slowed)
	fewer := c
	fewer.Limits = none
	one, err := dilution.PlanCourse(fewer)
	require.NoError(t, err)
	assert.Equal(t, 1, one.Changes)
	assert.Greater(t, holds(t, c, one), 1.0)
	// One large change takes less water than many small ones (Once and Repeated).
	assert.Less(t, one.Total, p.Total)
	assert.InEpsilon(t, 0.75, float64(one.Each/c.Tank.Portion.Volume()), 1e-3)

	// Twice a day: two changes share the limit of a day.
	often := c
	often.Every = 12 * time.Hour
	q, err := dilution.PlanCourse(often)
	require.NoError(t, err)
	assert.Greater(t, q.Changes, p.Changes)
	assert.LessOrEqual(t, holds(t, often, q), 1+1e-8)
}

func TestCourseAtOnce(t *testing.T) {
	c := course(t)
	c.Manner = dilution.AtOnce
	_, err := dilution.PlanCourse(c)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.ErrorContains(t, err, "Alkalinity by 1 dKH within a day (common practice)")
	assert.ErrorContains(t, err, "change in steps")

	c.Goal.Levels = c.Goal.Levels.With(tested.Nitrate.Of(52*units.MilligramPerLitre, units.AsNitrate))
	p, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	got, _ := massIn(p.After, tested.Nitrate)
	assert.InDelta(t, 52, got.MilligramsPerLitre(), 1e-8)
	assert.LessOrEqual(t, holds(t, c, p), 1.0)
	assert.Zero(t, p.Duration)

	// Salinity by its own inverse.
	c = course(t)
	c.Manner, c.Goal = dilution.AtOnce, dilution.Goal{Salinity: units.Practical(35.8)}
	c.Batch.Portion = water(t, 0, 25.5).OfVolume(40)
	p, err = dilution.PlanCourse(c)
	require.NoError(t, err)
	v, err := dilution.SwapToReach(c.Tank.Portion, c.Batch.Portion.Sample, c.Goal.Salinity)
	require.NoError(t, err)
	assert.InEpsilon(t, v.Litres(), p.Each.Litres(), 1e-9)
}

// A flow leaves exp(-q t/V) of the old water [stirred tank, Levenspiel 1999,
// chapter 13], and within the time of each limit moves by no more than allowed.
func TestCourseContinuously(t *testing.T) {
	c := course(t)
	c.Manner, c.Flow = dilution.Continuously, 100*units.LitrePerHour
	p, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.NotEmpty(t, p.Slowed)
	assert.Less(t, p.Flow, c.Flow)
	got, _ := massIn(p.After, tested.Nitrate)
	assert.InDelta(t, 15, got.MilligramsPerLitre(), 1e-6)
	assert.InEpsilon(t, 240*math.Log(4), p.Total.Litres(), 1e-3)
	for _, s := range p.Steps {
		no3, _ := massIn(s.Water, tested.Nitrate)
		// What the blend contracts by is all that differs from the pure exponential.
		assert.InEpsilon(t, 60*math.Exp(-p.Flow.Volume(s.At).Litres()/240), no3.MilligramsPerLitre(), 1e-3)
	}
	assert.Positive(t, p.Hold)

	// Alkalinity sets the pace in the first day: (9-6.5)(1-exp(-q d/V)) = 1 dKH,
	// or the hour's swing of pH.
	q := 240 / 24. * -math.Log(1-1/2.5)
	assert.LessOrEqual(t, p.Flow.LitresPerHour(), q*1.001)
	only := c
	only.Limits = tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Levels: tested.Levels{tested.AlkalinityOf(units.DKH(1)).In(tested.DKH)}, Within: 24 * time.Hour, Origin: "test"}}}
	p, err = dilution.PlanCourse(only)
	require.NoError(t, err)
	assert.InEpsilon(t, q, p.Flow.LitresPerHour(), 1e-3)

	// Without limits the pump sets the pace.
	c.Limits = none
	p, err = dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.Equal(t, c.Flow, p.Flow)
	assert.Empty(t, p.Slowed)
}

// Low salinity for quarantine: 35 to 16 in steps of no more than 1.5 a day.
func TestCourseToLowSalinity(t *testing.T) {
	c := dilution.Course{
		Tank:  tested.Water{Portion: water(t, 35, 25).OfVolume(80)},
		Batch: tested.Water{Portion: water(t, 0, 25).OfVolume(25)},
		Goal:  dilution.Goal{Salinity: units.Practical(16)},
		Limits: tested.Limits{WithoutUsual: true, Own: []tested.Limit{{
			Salinity: units.Practical(1.5), Within: 24 * time.Hour, Origin: "of my own",
		}}},
		Manner: dilution.InSteps, Every: 12 * time.Hour,
	}
	p, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.InDelta(t, 16, p.After.Portion.Practical().Value(), 1e-9)
	assert.LessOrEqual(t, holds(t, c, p), 1+1e-9)
	assert.Contains(t, p.Slowed, "salinity by 1.5 within a day (of my own)")
	// Equal volumes go fastest at first: 35 (1 - x)^2 = 33.5.
	assert.InDelta(t, 1-math.Sqrt(33.5/35), p.Each.Litres()/80, 0.001)
}

func TestCourseTemperature(t *testing.T) {
	c := course(t)
	c.Batch.Portion = water(t, 35, 14).OfVolume(40)
	c.Heater = 200 * units.Watt
	p, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.True(t, p.Adjust)
	assert.Greater(t, p.BatchFrom.Celsius(), 14.)
	assert.InDelta(t, 40*4.1*11.5/200/3.6, p.Warm.Time.Hours(), 0.2)
	assert.LessOrEqual(t, holds(t, c, p), 1+1e-8)

	// What the plan calls warm enough is warm enough.
	edge := c
	edge.Batch.Portion = water(t, 35, p.BatchFrom.Celsius()+0.02).OfVolume(40)
	q, err := dilution.PlanCourse(edge)
	require.NoError(t, err)
	assert.LessOrEqual(t, holds(t, edge, q), 1+1e-8)
}

func TestCourseRefuses(t *testing.T) {
	for name, r := range map[string]struct {
		spoil func(*dilution.Course)
		want  string
	}{
		"no tank":     {func(c *dilution.Course) { c.Tank.Portion.Mass = 0 }, "tank.volume: got 0 L, want a number above zero"},
		"no vessel":   {func(c *dilution.Course) { c.Batch.Portion.Mass = 0 }, "batch.volume: got 0 L, want a number above zero"},
		"no interval": {func(c *dilution.Course) { c.Every = 0 }, "every: got 0s, want the time from change to change, above zero and below a month"},
		"no flow":     {func(c *dilution.Course) { c.Manner = dilution.Continuously }, "flow: got 0 L/h, the most that the pump gives, want a number above zero"},
		"manner":      {func(c *dilution.Course) { c.Manner = 7 }, "manner: got 7, want AtOnce, InSteps or Continuously"},
		"below fresh": {func(c *dilution.Course) {
			c.Batch = c.Batch.With(tested.Nitrate.Of(20*units.MilligramPerLitre, units.AsNitrate))
		}, "goal.nitrate: got 15 mg/L NO3, want no less than the new water has, 19.997 mg/L NO3"},
		"is fresh": {func(c *dilution.Course) {
			c.Goal.Levels = c.Goal.Levels.With(tested.Nitrate.Of(0*units.MilligramPerLitre, units.AsNitrate))
		}, "goal.nitrate: got 0 mg/L NO3, want a goal short of the new water at 0 mg/L NO3: some of the old water always stays. Make the batch pass the goal, or aim a little short of it"},
		"unknown": {func(c *dilution.Course) {
			c.Goal.Levels = c.Goal.Levels.With(tested.Phosphate.Of(0.03*units.MilligramPerLitre, units.AsPhosphate))
		}, "goal.phosphate: got 0.03 mg/L PO4, want a level that is known in the tank and in the new water"},
		"too salty":  {func(c *dilution.Course) { c.Goal.Salinity = units.Practical(38) }, "goal.salinity: got 38, want no more than the new water has, 35: mix it saltier"},
		"limit time": {func(c *dilution.Course) { c.Limits = tested.Limits{WithoutUsual: true, Own: []tested.Limit{{}}} }, "limits.within: got 0s, want a time above zero"},
		"limit negative": {func(c *dilution.Course) {
			c.Limits = tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Within: 1, PH: -1}}}
		}, "limits.pH: got -1, want zero or more"},
		"limit nothing": {func(c *dilution.Course) {
			c.Limits = tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Within: 1, Levels: tested.Levels{tested.Nitrate.Of(0*units.MilligramPerLitre, units.AsNitrate)}}}}
		}, "limits.nitrate: got 0 mg/L NO3, want above zero: a level that may not move at all allows nothing"},
		"heater": {func(c *dilution.Course) { c.Heater = -1 }, "heater: got -1 W, want zero or more"},
		"goal": {func(c *dilution.Course) {
			c.Goal.Levels = c.Goal.Levels.With(tested.Nitrate.Of(units.MassPerLitre(math.NaN()), units.AsNitrate))
		}, "goal.nitrate: got NaN mg/L NO3, want zero or more"},
	} {
		c := course(t)
		r.spoil(&c)
		p, err := dilution.PlanCourse(c)
		assert.EqualError(t, err, r.want, name)
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.Zero(t, p)
	}
}

func TestCourseThatIsNotNeeded(t *testing.T) {
	c := course(t)
	c.Goal = dilution.Goal{Levels: tested.Levels{
		tested.Nitrate.Of(80*units.MilligramPerLitre, units.AsNitrate),
		tested.AlkalinityOf(units.DKH(9.5)).In(tested.DKH),
	}}
	p, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.Zero(t, p.Changes)
	assert.Empty(t, p.Cautions)
	lacks, known := alkalinityIn(p.Lacks)
	assert.True(t, known)
	assert.InDelta(t, 3, lacks.DKH(), 1e-9)
	_, known = massIn(p.Lacks, tested.Nitrate)
	assert.False(t, known, "less nitrate than the goal is no lack")
}

// A level that is to rise does not make the tank lose all its water, but it may
// ask for a change if nothing else does.
func TestCourseAddsWhatCanBeAdded(t *testing.T) {
	c := course(t)
	plain, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	c.Goal.Levels = c.Goal.Levels.With(tested.AlkalinityOf(units.DKH(8.95)).In(tested.DKH)) // the batch has 9
	p, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.Equal(t, plain.Each, p.Each)
	lacks, _ := alkalinityIn(p.Lacks)
	is, _ := alkalinityIn(p.After)
	assert.InDelta(t, 8.95, units.MilliequivalentsPerLitre(is.MilliequivalentsPerLitre()+lacks.MilliequivalentsPerLitre()).DKH(), 1e-9)

	c.Goal.Levels = c.Goal.Levels.Without(tested.Nitrate)
	c.Goal.Levels = c.Goal.Levels.With(tested.AlkalinityOf(units.DKH(7.5)).In(tested.DKH))
	p, err = dilution.PlanCourse(c)
	require.NoError(t, err)
	is, _ = alkalinityIn(p.After)
	assert.InDelta(t, 7.5, is.DKH(), 1e-8)

	// Half of the water a day is the most by Usual.
	c = course(t)
	c.Limits = tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Share: units.Percent(30), Within: 24 * time.Hour, Origin: "test"}}}
	c.Every = 12 * time.Hour
	p, err = dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.Equal(t, "new water by 30 % within a day (test)", p.Slowed)
	assert.Equal(t, 8, p.Changes) // 0.25^(2/n) >= 0.7
	c.Manner, c.Flow = dilution.Continuously, 100
	p, err = dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.InEpsilon(t, -240*math.Log(0.7)/24, p.Flow.LitresPerHour(), 1e-5)
}

// pH is computed from what mixes. Half and half of two waters lies where the
// carbonate system puts it, not midway.
func TestPHDoesNotMix(t *testing.T) {
	c := course(t)
	p, err := dilution.PlanChange(dilution.Change{Tank: c.Tank, Batch: c.Batch, Swap: 40})
	require.NoError(t, err)
	before, err := p.Before.Chemistry()
	require.NoError(t, err)
	batch, err := p.Batch.Chemistry()
	require.NoError(t, err)
	after, err := p.After.Chemistry()
	require.NoError(t, err)
	assert.InDelta(t, 7.9, before.PH.Value(), 1e-12)
	assert.Greater(t, after.PH.Value(), before.PH.Value())
	assert.Less(t, after.PH.Value(), batch.PH.Value())
	assert.Greater(t, float64(after.Aragonite), float64(before.Aragonite))
	assert.InDelta(t, 430, float64(batch.PCO2)/(1-0.0307), 1)

	// Against carbonate.Water, which blends by mass.
	water := func(s tested.Water) carbonate.Water {
		d := s.Portion.Density()
		alk, _ := alkalinityIn(s)
		ca, _ := massIn(s, tested.Calcium)
		nh, _ := massIn(s, tested.Ammonia)
		dic, _ := s.DIC()
		return carbonate.Water{
			Salinity: s.Portion.Practical(), Temperature: s.Portion.Temperature(),
			Alkalinity: alk.PerKilogram(d), DIC: dic,
			Nutrients: carbonate.Nutrients{Ammonia: units.AsNitrogen.AmountPerKilogram(nh.PerKilogram(d))},
			Options:   carbonate.Options{Calcium: carbonate.Measured(units.AsCalcium.AmountPerKilogram(ca.PerKilogram(d)))},
		}
	}
	poured := c.Batch.Portion.OfVolume(40).Mass
	kept := p.After.Portion.Mass - poured
	blend, err := water(c.Tank).Blend(kept, water(c.Batch), poured, p.After.Portion.Temperature())
	require.NoError(t, err)
	system, err := blend.System()
	require.NoError(t, err)
	assert.InDelta(t, system.PH().Value(), after.PH.Value(), 1e-9)
	assert.InEpsilon(t, system.Aragonite(), float64(after.Aragonite), 1e-9)
	total, _ := p.After.Level(tested.Ammonia)
	assert.InEpsilon(t, system.FreeAmmonia().Value(), after.FreeAmmonia.Base()/total.Base(), 1e-9)

	last := p.Moves()[len(p.Moves())-3:]
	assert.Equal(t, "pH", last[0].Name)
	assert.InDelta(t, 7.9, float64(last[0].Before), 1e-12)

	_, err = tested.Water{Portion: c.Tank.Portion}.Chemistry()
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = tested.Water{Portion: c.Tank.Portion, Levels: c.Tank.Levels}.Chemistry()
	assert.ErrorContains(t, err, "the DIC")
	c.Tank.Carbon = carbonate.PH(carbonate.PHTotal(math.NaN()))
	_, err = c.Tank.Chemistry()
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = c.Tank.Aired(-1, units.Atmosphere)
	assert.ErrorIs(t, err, units.ErrInput)
}

// Random courses keep their limits and lose no nitrate: before = after + what
// ran off.
func FuzzCourse(f *testing.F) {
	f.Add(uint8(1), 36.2, 25.5, 35.0, 22.0, 6.5, 9.0, 60.0, 15.0, 0.5, 24.0)
	f.Add(uint8(0), 33.0, 24.0, 38.0, 26.0, 9.0, 7.0, 20.0, 18.0, 2.0, 6.0)
	f.Add(uint8(2), 20.0, 20.0, 30.0, 20.0, 3.0, 7.0, 5.0, 1.0, 3.0, 1.0)
	f.Fuzz(func(t *testing.T, manner uint8, s, temp, sb, tb, alk, alkb, no3, goal, swing, every float64) {
		tank, err := seawater.FromPractical(units.Practical(s), units.Celsius(temp))
		if err != nil {
			return
		}
		mixed, err := seawater.FromPractical(units.Practical(sb), units.Celsius(tb))
		if err != nil || !(every >= 0 && every < 1e4) {
			return
		}
		c := dilution.Course{
			Tank: tested.Water{Portion: tank.OfVolume(200), Levels: tested.Levels{
				tested.AlkalinityOf(units.MilliequivalentsPerLitre(alk)).In(tested.DKH), tested.Nitrate.Of(units.MassPerLitre(no3), units.AsNitrate)}},
			Batch: tested.Water{Portion: mixed.OfVolume(30), Levels: tested.Levels{
				tested.AlkalinityOf(units.MilliequivalentsPerLitre(alkb)).In(tested.DKH), tested.Nitrate.Of(0*units.MilligramPerLitre, units.AsNitrate)}},
			Goal: dilution.Goal{Levels: tested.Levels{tested.Nitrate.Of(units.MassPerLitre(goal), units.AsNitrate)}},
			Limits: tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Within: 24 * time.Hour, Origin: "fuzz",
				Salinity: units.Practical(math.Abs(swing)), Temperature: units.TemperatureDifference(math.Abs(swing)),
				Levels: tested.Levels{tested.AlkalinityOf(units.MilliequivalentsPerLitre(math.Abs(swing))).In(tested.DKH)}}}},
			Manner: dilution.Manner(manner % 3), Every: time.Duration(every * float64(time.Hour)), Flow: 50,
		}
		p, err := dilution.PlanCourse(c)
		if err != nil {
			require.Zero(t, p)
			return
		}
		got, _ := massIn(p.After, tested.Nitrate)
		if no3 > goal {
			require.LessOrEqual(t, float64(got), goal*(1+1e-6)+1e-9, "goal")
		} else {
			require.Zero(t, p.Changes)
		}
		if p.Flow == 0 && p.Changes < 300 {
			require.LessOrEqual(t, holds(t, c, p), 1+1e-8)
		}
	})
}

// A goal that only looks short of the new water, because that is warm and its litre
// will hold more when it has cooled, is refused; so is a water that nobody made.
func TestCourseThatCannotArrive(t *testing.T) {
	level := func(x float64) tested.Levels {
		return tested.Levels{tested.Nitrate.Of(units.MassPerLitre(x), units.AsNitrate)}
	}
	c := dilution.Course{
		Tank:  tested.Water{Portion: water(t, 35, 20).OfVolume(100), Levels: level(20)},
		Batch: tested.Water{Portion: water(t, 35, 35).OfVolume(20), Levels: level(5)},
		Goal:  dilution.Goal{Levels: level(5.01)}, Every: time.Hour, Flow: 50,
		Limits: tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Temperature: 1, Within: time.Hour, Origin: "test"}}},
	}
	for _, c.Manner = range []dilution.Manner{dilution.AtOnce, dilution.InSteps, dilution.Continuously} {
		p, err := dilution.PlanCourse(c)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.Zero(t, p)
	}
	c = course(t)
	c.Batch.Portion = seawater.Sample{}.OfVolume(20)
	_, err := dilution.PlanCourse(c)
	assert.EqualError(t, err, "batch.temperature: got nothing, want a temperature")
	_, err = dilution.PlanChange(dilution.Change{Tank: c.Tank, Batch: c.Batch, Swap: 10})
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = dilution.SwapToReach(c.Tank.Portion, seawater.Sample{}, units.Practical(34))
	assert.ErrorIs(t, err, units.ErrInput)
}

// One change warns of what it does to pH and to ammonia.
func TestPlanChangeWarnsOfPHAndAmmonia(t *testing.T) {
	c := course(t)
	tank := c.Tank.With(tested.Ammonia.Of(2*units.MilligramPerLitre, units.AsNitrogen))
	tank.Carbon = carbonate.PH(carbonate.PHTotal(7.2))
	c.Batch.Portion.Mass *= 5
	p, err := dilution.PlanChange(dilution.Change{Tank: tank, Batch: c.Batch, Swap: 60})
	require.NoError(t, err)
	ids := map[string]bool{}
	for _, w := range p.Cautions {
		ids[w.ID] = true
	}
	assert.True(t, ids["ph-swing"])
	assert.True(t, ids["free-ammonia"])
}
