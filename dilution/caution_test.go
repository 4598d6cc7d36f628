package dilution_test

import (
	"fmt"
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
	for _, r := range []struct{ tank, batch, moves float64 }{
		{7.8, 8.6, 1}, {8.5, 7.6, -1}, {8.1, 8.1, 0}, {8.05, 8.15, 0}, {8.15, 8.05, 0},
	} {
		p := plan(r.tank, r.batch)
		before, err := p.Before.Chemistry()
		require.NoError(t, err)
		after, err := p.After.Chemistry()
		require.NoError(t, err)
		by := after.PH.Value() - before.PH.Value()
		text := caution(p, "ph-swing")
		if r.moves == 0 {
			assert.Less(t, math.Abs(by), 0.2, r)
			assert.Empty(t, text, r)
			continue
		}
		assert.Greater(t, by*r.moves, 0.2, "the row shows nothing: %v moves pH by %v", r, by)
		assert.Contains(t, text, fmt.Sprintf("pH moves by %+.2f", by), r)
		assert.Contains(t, text, "more than 0.2 at a time", r)
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
