package dilution_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// One change warns of each thing that moves by more than is gentle, up or down, and of
// nothing that moves by less. The figures are those of common practice, written here a
// second time.
func TestOneChangeWarnsAtItsLimits(t *testing.T) {
	levels := func(dkh, ca, mg float64) tested.Levels {
		return tested.Levels{
			tested.AlkalinityOf(units.DKH(dkh)).In(tested.DKH),
			tested.Calcium.Of(units.MassPerLitre(ca), units.AsCalcium),
			tested.Magnesium.Of(units.MassPerLitre(mg), units.AsMagnesium),
		}
	}
	const share = 0.4
	plan := func(sp, celsius, dkh, ca, mg, x float64) dilution.ChangePlan {
		p, err := dilution.PlanChange(dilution.Change{
			Tank: tested.Water{Portion: water(t, 35, 25).OfVolume(50), Levels: levels(8, 400, 1300)},
			Batch: tested.Water{
				Portion: water(t, 35+sp/x, 25+celsius/x).OfVolume(50),
				Levels:  levels(8+dkh/x, 400+ca/x, 1300+mg/x),
			},
			Swap: units.Volume(50 * x),
		})
		require.NoError(t, err)
		return p
	}
	for id, by := range map[string]func(k float64) dilution.ChangePlan{
		"salinity-swing":    func(k float64) dilution.ChangePlan { return plan(1*k, 0, 0, 0, 0, share) },
		"temperature-swing": func(k float64) dilution.ChangePlan { return plan(0, 1*k, 0, 0, 0, share) },
		"alkalinity-swing":  func(k float64) dilution.ChangePlan { return plan(0, 0, 1*k, 0, 0, share) },
		"calcium-swing":     func(k float64) dilution.ChangePlan { return plan(0, 0, 0, 20*k, 0, share) },
		"magnesium-swing":   func(k float64) dilution.ChangePlan { return plan(0, 0, 0, 0, 50*k, share) },
	} {
		assert.Contains(t, caution(by(1.05), id), "moves by +", id)
		assert.Contains(t, caution(by(-1.05), id), "moves by -", id)
		assert.Equal(t, []string{"unplug-before-draining", "measure-the-batch"}, ids(by(0.95).Cautions), id)
		assert.Equal(t, []string{"unplug-before-draining", "measure-the-batch"}, ids(by(-0.95).Cautions), id)
	}
	assert.Contains(t, ids(plan(0, 0, 0, 0, 0, 0.51).Cautions), "large-change")
	assert.NotContains(t, ids(plan(0, 0, 0, 0, 0, 0.49).Cautions), "large-change")
}

// A change that moves the pH by more than 0.2 (common practice) is warned of with the
// way that it goes.
func TestOneChangeWarnsOfPH(t *testing.T) {
	plan := func(tank, batch float64) dilution.ChangePlan {
		w := func(ph float64) tested.Water {
			return tested.Water{
				Portion: water(t, 35, 25).OfVolume(50), Carbon: carbonate.PH(carbonate.PHTotal(ph)),
				Levels: tested.Levels{tested.AlkalinityOf(units.DKH(8)).In(tested.DKH)},
			}
		}
		p, err := dilution.PlanChange(dilution.Change{Tank: w(tank), Batch: w(batch), Swap: 24.9})
		require.NoError(t, err)
		return p
	}
	assert.Empty(t, caution(plan(8.1, 8.1), "ph-swing"))
	for _, p := range []dilution.ChangePlan{plan(7.8, 8.5), plan(8.4, 7.6), plan(8, 8.2), plan(8.2, 8)} {
		before, err := p.Before.Chemistry()
		require.NoError(t, err)
		after, err := p.After.Chemistry()
		require.NoError(t, err)
		by := after.PH.Value() - before.PH.Value()
		text := caution(p, "ph-swing")
		switch {
		case math.Abs(by) < 0.2:
			assert.Empty(t, text, by)
		case by > 0:
			assert.Contains(t, text, "pH moves by +", by)
		default:
			assert.Contains(t, text, "pH moves by -", by)
		}
	}
}

// Two flows are warned of where there are two, and of nothing if nothing is changed.
func TestCourseWarnsOfItsFlows(t *testing.T) {
	c := course(t)
	c.Goal = dilution.Goal{Levels: nitrate(50)}
	c.Manner = dilution.InSteps
	c.Every = day
	steps, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.Contains(t, ids(steps.Cautions), "unplug-before-draining")
	assert.NotContains(t, ids(steps.Cautions), "two-flows-one-level")
	c.Manner, c.Flow = dilution.Continuously, 0.5
	flow, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.Subset(t, ids(flow.Cautions), []string{"unplug-before-draining", "two-flows-one-level", "no-siphon-back"})
	c.Goal = dilution.Goal{Levels: nitrate(60)}
	none, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.Empty(t, none.Cautions)
}

func ids(list []advice.Caution) []string {
	var out []string
	for _, c := range list {
		out = append(out, c.ID)
	}
	return out
}
