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

// A flow comes to its goal: salinity 17 with a batch of 35 to 31 came to 31.041.
func TestFlowReachesItsGoal(t *testing.T) {
	for _, c := range []struct{ tank, batch, goal, tankC, batchC float64 }{
		{17, 35, 31, 25, 25}, {35, 0, 1, 25, 25}, {2, 40, 39, 25, 15}, {35, 20, 20.1, 20, 28}, {17, 35, 17.01, 25, 10},
	} {
		p, err := dilution.PlanCourse(dilution.Course{
			Tank: tested.Water{Portion: water(t, c.tank, c.tankC).OfVolume(100)}, Batch: tested.Water{Portion: water(t, c.batch, c.batchC).OfVolume(20)},
			Goal: dilution.Goal{Salinity: units.Practical(c.goal)}, Manner: dilution.Continuously, Flow: 5, Limits: none,
		})
		require.NoError(t, err, "%+v", c)
		assert.InDelta(t, c.goal, p.After.Portion.Practical().Value(), 1e-8, "%+v", c)
		if p.Hold > 0 {
			for _, s := range p.Steps {
				assert.InDelta(t, c.tankC, s.Water.Portion.Temperature().Celsius(), 1e-9, "the heater holds")
			}
		}
	}
}

// A tank that starts beyond its bound has left it, even if it is changed at once.
func TestUntilSeesTheTankAsGiven(t *testing.T) {
	r := closed(t, 30)
	clean := tested.Water{Portion: water(t, 35, 25).OfVolume(200), Levels: nitrate(0)}
	r.Changes = []dilution.Renewal{{Batch: clean, Swap: 150}}
	f, err := r.Forecast(day)
	require.NoError(t, err)
	list, err := f.Until(dilution.Bounds{High: dilution.Goal{Levels: nitrate(20)}})
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.True(t, list[0].Crosses())
	assert.Zero(t, list[0].After)
}

// A level that no rate is given for keeps its bounds by itself, which is said.
func TestForecastSaysWhatHasNoRate(t *testing.T) {
	r := closed(t, 10)
	f, err := r.Forecast(day)
	require.NoError(t, err)
	assert.Contains(t, fmt.Sprint(f.Assumptions), "No rate is given for these")
	r.PerDay = nitrate(1)
	f, err = r.Forecast(day)
	require.NoError(t, err)
	assert.NotContains(t, fmt.Sprint(f.Assumptions), "No rate is given for these")
}

// A level that is held is one the process comes to; an error is NaN.
func FuzzPeriodic(f *testing.F) {
	f.Add(0.1, int64(7*day), 0.0, 1.0, 10.0, 5)
	f.Add(0.5, int64(1), 5.0, -1.0, 1.0, 100)
	f.Fuzz(func(t *testing.T, share float64, every int64, fresh, perDay, start float64, n int) {
		p := dilution.Periodic[units.MassPerLitre]{Share: units.Share(share), Every: time.Duration(every), Fresh: units.MassPerLitre(fresh), PerDay: units.MassPerLitre(perDay)}
		before, after, err := p.Steady()
		if err != nil {
			require.True(t, math.IsNaN(float64(before)) && math.IsNaN(float64(after)))
		} else {
			require.GreaterOrEqual(t, float64(before), 0.0)
		}
		if x, err := p.After(units.MassPerLitre(start), n); err != nil {
			require.True(t, math.IsNaN(float64(x)))
		}
		if n, err := p.Changes(units.MassPerLitre(start), units.MassPerLitre(fresh)); err == nil {
			require.GreaterOrEqual(t, n, 0)
		}
	})
}

// A pump has a flow above zero, or there is an error.
func FuzzCalibratePump(f *testing.F) {
	f.Add(100.0, int64(time.Minute), 101.0, int64(time.Minute), 998.0)
	f.Fuzz(func(t *testing.T, m1 float64, t1 int64, m2 float64, t2 int64, density float64) {
		runs := []dilution.Delivery{{Mass: units.Mass(m1), Time: time.Duration(t1)}, {Mass: units.Mass(m2), Time: time.Duration(t2)}}
		p, err := dilution.CalibratePump(runs, units.Density(density))
		if err != nil {
			require.True(t, math.IsNaN(float64(p.Flow)))
			return
		}
		require.GreaterOrEqual(t, float64(p.Flow), 0.0)
		require.False(t, p.Uncertainty < 0)
	})
}

func sampleOf(s, c float64) (seawater.Sample, error) {
	return seawater.FromPractical(units.Practical(s), units.Celsius(c))
}

// The usual limits against a second table, number by number (common practice).
func TestUsualNumberByNumber(t *testing.T) {
	list := tested.Limits{}.List()
	perDay := func(p tested.Parameter) float64 {
		l, _, limited := list.PerDay(p)
		require.True(t, limited, "%v", p)
		if p == tested.Alkalinity {
			return l.Alkalinity().DKH()
		}
		return l.MassPerLitre().MilligramsPerLitre()
	}
	hour, _, limited := list.PH(time.Hour)
	require.True(t, limited)
	assert.InDelta(t, 0.2, hour, 1e-12)
	found := 0
	for _, l := range list {
		switch l.Within {
		case time.Hour:
			if l.Temperature > 0 {
				found++
				assert.InDelta(t, 1, float64(l.Temperature), 1e-12)
			}
		case 24 * time.Hour:
			if l.Salinity.Value() > 0 {
				found++
				assert.InDelta(t, 1, l.Salinity.Value(), 1e-12)
				assert.InDelta(t, 50, l.Share.Percent(), 1e-12)
				assert.InDelta(t, 0.3, l.PH, 1e-12)
				assert.InDelta(t, 2, float64(l.Temperature), 1e-12)
			}
		}
	}
	assert.Equal(t, 2, found)
	assert.InDelta(t, 1, perDay(tested.Alkalinity), 1e-12)
	assert.InDelta(t, 20, perDay(tested.Calcium), 1e-12)
	assert.InDelta(t, 50, perDay(tested.Magnesium), 1e-12)
}

// The planner keeps each of them: a change that moves a little less is planned at
// once, one that moves a little more is refused.
func TestUsualThroughThePlanner(t *testing.T) {
	plan := func(salinity, celsius, alk, ca, mg, share float64) error {
		levels := func(dkh, ca, mg, no3 float64) tested.Levels {
			return tested.Levels{
				tested.AlkalinityOf(units.DKH(dkh)), tested.Calcium.Of(units.MassPerLitre(ca), units.AsCalcium),
				tested.Magnesium.Of(units.MassPerLitre(mg), units.AsMagnesium), tested.Nitrate.Of(units.MassPerLitre(no3), units.AsNitrate),
			}
		}
		// Share x of a batch that differs by d/x moves by d.
		_, err := dilution.PlanCourse(dilution.Course{
			Tank:  tested.Water{Portion: water(t, 35, 25).OfVolume(100), Levels: levels(8, 400, 1300, 100)},
			Batch: tested.Water{Portion: water(t, 35+salinity/share, 25+celsius/share).OfVolume(100), Levels: levels(8+alk/share, 400+ca/share, 1300+mg/share, 0)},
			Goal:  dilution.Goal{Levels: nitrate(100 * (1 - share))},
		})
		return err
	}
	const x = 0.4
	for _, c := range []struct {
		name string
		by   func(k float64) error
	}{
		{"salinity", func(k float64) error { return plan(1*k, 0, 0, 0, 0, x) }},
		{"alkalinity", func(k float64) error { return plan(0, 0, 1*k, 0, 0, x) }},
		{"calcium", func(k float64) error { return plan(0, 0, 0, 20*k, 0, x) }},
		{"magnesium", func(k float64) error { return plan(0, 0, 0, 0, 50*k, x) }},
		{"share", func(k float64) error { return plan(0, 0, 0, 0, 0, 0.5*k) }},
	} {
		assert.NoError(t, c.by(0.93), c.name)
		assert.Error(t, c.by(1.07), c.name)
	}
}

// The bounds of the temperature of new water lie on both sides of the tank.
func TestTemperatureBoundsLieAroundTheTank(t *testing.T) {
	c := course(t)
	c.Limits = tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Temperature: 1, Within: time.Hour, Origin: "here"}}}
	c.Manner = dilution.AtOnce
	p, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	share := float64(p.Each / c.Tank.Volume())
	assert.InDelta(t, 25.5-1/share, p.BatchFrom.Celsius(), 1e-6)
	assert.InDelta(t, 25.5+1/share, p.BatchTo.Celsius(), 1e-6)
}

// Ammonia without a pH is warned of, with the pH from which on it harms: there its free
// share comes to 0.02 mg/L as NH3, looked for step by step.
func TestAmmoniaWithoutPH(t *testing.T) {
	plan := func(total float64) string {
		w := tested.Water{Portion: water(t, 35, 25).OfVolume(100), Levels: tested.Levels{tested.Ammonia.Of(units.MassPerLitre(total), units.AsNitrogen)}}
		p, err := dilution.PlanChange(dilution.Change{Tank: w, Batch: w, Swap: 10})
		require.NoError(t, err)
		return caution(p, "ammonia-without-ph")
	}
	ph := 6.0
	for ; 0.5*17.031/14.007*carbonate.FreeAmmonia(units.Practical(35), units.Celsius(25), carbonate.PHTotal(ph)).Value() < 0.02; ph += 1e-4 {
	}
	assert.Contains(t, plan(0.5), fmt.Sprintf("above pH %.1f", ph))
	assert.Contains(t, plan(0.5), "0.02 mg/L, counted as NH3")
	assert.Empty(t, plan(0))
	assert.Empty(t, plan(0.02), "harmless at any pH of a tank")
}

// The threshold counts NH3: 0.0165 mg/L of nitrogen are 0.02 of it.
func TestFreeAmmoniaCountsAsNH3(t *testing.T) {
	share := carbonate.FreeAmmonia(units.Practical(35), units.Celsius(25), carbonate.PHTotal(8)).Value()
	for _, c := range []struct {
		nitrogen float64
		warns    bool
	}{{0.0160, false}, {0.0169, true}} {
		w := tested.Water{Portion: water(t, 35, 25).OfVolume(100), Carbon: carbonate.PH(carbonate.PHTotal(8)), Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(8)), tested.Ammonia.Of(units.MassPerLitre(c.nitrogen/share), units.AsNitrogen)}}
		p, err := dilution.PlanChange(dilution.Change{Tank: w, Batch: w, Swap: 10})
		require.NoError(t, err)
		assert.Equal(t, c.warns, caution(p, "free-ammonia") != "", "%v", c.nitrogen)
	}
}

func caution(p dilution.ChangePlan, id string) string {
	for _, c := range p.Cautions {
		if c.ID == id {
			return c.Text
		}
	}
	return ""
}

func TestWhatIsNoAnswerIsRefused(t *testing.T) {
	tank := water(t, 35, 25).OfVolume(10)
	bad, err := dilution.Swap(tank, tank.Sample, -1)
	require.Error(t, err)
	_, err = dilution.Swap(tank, bad.Sample, 1) // NaN throughout
	assert.Error(t, err)
	for _, x := range []float64{math.Inf(1), math.Inf(-1), math.NaN()} {
		_, err = dilution.For(x, 0, 5)
		assert.Error(t, err)
	}
	c := course(t)
	c.Every = 146 * 365 * day
	_, err = dilution.PlanCourse(c)
	assert.ErrorContains(t, err, "every")
	_, _, err = dilution.Periodic[units.MassPerLitre]{Share: units.Share(0.1), Every: day, PerDay: units.MassPerLitre(math.NaN())}.Steady()
	assert.ErrorContains(t, err, "perDay")
}

// What a change does is conserved, or it is an error and nothing; a doubt that no
// water has is no panic.
func FuzzPlanChange(f *testing.F) {
	f.Add(35.0, 25.0, 100.0, 32.0, 20.0, 50.0, 10.0, 8.0, 2.8, 2.5, 0.1, 5.0)
	f.Add(35.0, 25.0, 100.0, 0.0, 25.0, 100.0, 100.0, 8.0, 2.8, 0.0, 1.5e7, 1.5e7)
	f.Fuzz(func(t *testing.T, s, c, v, sb, cb, vb, swap, ph, alk, alkb, nh, doubt float64) {
		first, err := sampleOf(s, c)
		if err != nil {
			return
		}
		second, err := sampleOf(sb, cb)
		if err != nil {
			return
		}
		ammonia := func(x float64) tested.Level { return tested.Ammonia.Of(units.MassPerLitre(x), units.AsNitrogen) }
		change := dilution.Change{
			Tank: tested.Water{Portion: first.OfVolume(units.Volume(v)), Carbon: carbonate.PH(carbonate.PHTotal(ph)),
				Levels: tested.Levels{tested.AlkalinityOf(units.MilliequivalentsPerLitre(alk)), ammonia(nh)}},
			Batch: tested.Water{Portion: second.OfVolume(units.Volume(vb)), Levels: tested.Levels{tested.AlkalinityOf(units.MilliequivalentsPerLitre(alkb))}},
			Swap:  units.Volume(swap),
		}
		list, err := change.Estimates(dilution.Doubts{
			Swap:  units.Share(0.01),
			Tank:  tested.Doubts{PH: 0.1, Levels: tested.Levels{ammonia(doubt)}},
			Batch: tested.Doubts{PH: 0.1, Levels: tested.Levels{ammonia(doubt)}},
		})
		if err != nil {
			require.Nil(t, list)
		}
		for _, e := range list {
			require.False(t, e.Uncertainty < 0, e.Name)
		}
		p, err := dilution.PlanChange(change)
		if err != nil {
			require.Zero(t, p)
			return
		}
		tank := change.Tank.Portion
		out, in := tank.OfVolume(change.Swap), second.OfVolume(change.Swap)
		want := tank.Salt().Grams() - out.Salt().Grams() + in.Salt().Grams()
		require.InDelta(t, want, p.After.Portion.Salt().Grams(), 1e-9*(tank.Salt().Grams()+in.Salt().Grams()))
		require.GreaterOrEqual(t, float64(p.BatchLeft), 0.0)
	})
}
