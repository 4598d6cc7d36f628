package dilution_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// The figures of this package that a keeper acts on, each written here a second time.

// What the heater of a tank has to give while cool water flows in: seawater of 35 weighs
// 1025 kg/m³ near 20 °C and takes 3.99 kJ/(kg K) (UNESCO 1983, to three digits).
func TestHeaterOfAFlow(t *testing.T) {
	c := course(t)
	c.Goal = dilution.Goal{Levels: nitrate(50)}
	c.Manner, c.Flow = dilution.Continuously, 0.5
	c.Batch.Portion = water(t, 35, 18.5).OfVolume(40 * units.Litre)
	p, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	require.Positive(t, p.Flow)
	assert.InEpsilon(t, p.Flow.LitresPerHour()*1.025/3600*3990*(25.5-18.5), p.Hold.Watts(), 0.005)
}

// New water is between what a Sample may be, -2 and 40 °C, where no limit is nearer.
func TestNewWaterEndsWhereTheStandardDoes(t *testing.T) {
	c := course(t)
	c.Manner = dilution.AtOnce
	c.Limits = tested.Limits{WithoutUsual: true}
	p, err := dilution.PlanCourse(c)
	require.NoError(t, err)
	assert.InDelta(t, -2, p.BatchFrom.Celsius(), 1e-12)
	assert.InDelta(t, 40, p.BatchTo.Celsius(), 1e-12)
}

// By mass a bag of d to go is within n after d/n - 1 times its mass, and the fastest drip
// for l an hour takes (d/n - 1)(d - l)/l hours: more than 48 are refused, and more than a
// thousand times the water of the bag (common practice: nobody drips for two days).
func TestAcclimationEnds(t *testing.T) {
	const d = 10
	plan := func(near, limit float64) error {
		a := dilution.Acclimation{
			Bag:  tested.Water{Portion: water(t, 25, 24).OfVolume(0.5)},
			Tank: tested.Water{Portion: water(t, 25+d, 24).OfVolume(1)},
			Near: dilution.Near{Salinity: units.Practical(near)}, Flow: 100,
			Limits: tested.Limits{WithoutUsual: true},
		}
		if limit > 0 {
			a.Limits.Own = []tested.Limit{{Salinity: units.Practical(limit), Within: time.Hour, Origin: "here"}}
		}
		_, err := dilution.PlanAcclimation(a)
		return err
	}
	pace := func(hours float64) float64 { return d / (1 + hours/(d/0.5-1)) }
	assert.NoError(t, plan(0.5, pace(47)))
	assert.ErrorContains(t, plan(0.5, pace(49)), "carry the animal over step by step")
	assert.NoError(t, plan(d/951., 0))
	assert.ErrorContains(t, plan(d/1101., 0), "more than 1000 times the water of the bag")
}

// In the opened bag the CO2 goes to that of fresh air, 430 ppm (common practice).
func TestBagIsAiredOutdoors(t *testing.T) {
	bag := tested.Water{
		Portion: water(t, 34, 24).OfVolume(1), Carbon: carbonate.PH(carbonate.PHTotal(7)),
		Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(7)).In(tested.DKH), tested.Ammonia.Of(1*units.MilligramPerLitre, units.AsNitrogen),
		},
	}
	p, err := dilution.PlanAcclimation(dilution.Acclimation{
		Bag: bag, Tank: tested.Water{Portion: water(t, 35, 25).OfVolume(100)},
		Near: dilution.Near{Salinity: units.Practical(0.5)}, Flow: 2,
		Limits: tested.Limits{WithoutUsual: true},
	})
	require.NoError(t, err)
	aired, err := bag.Aired(430, units.Atmosphere)
	require.NoError(t, err)
	then, err := aired.Chemistry()
	require.NoError(t, err)
	require.Equal(t, "ammonia-in-the-bag", p.Cautions[0].ID)
	assert.Contains(t, p.Cautions[0].Text, fmt.Sprintf("its pH is %.2f", then.PH.Value()))
	assert.Contains(t, p.Cautions[0].Text, fmt.Sprintf("%.3f mg/L NH3 will be", then.FreeAmmonia.MassPerLitre().MilligramsPerLitre()))
}

// The practical scale ends at 42 (UNESCO 1981).
func TestForecastBeyondTheScale(t *testing.T) {
	forecast := func(days int) []string {
		r := dilution.Routine{
			Tank:        tested.Water{Portion: water(t, 40, 25).OfVolume(100)},
			Evaporation: units.Flow(1. / 24), TopOff: dilution.TopOff{None: true},
		}
		f, err := r.Forecast(time.Duration(days) * day)
		require.NoError(t, err)
		return ids(f.Cautions)
	}
	assert.NotContains(t, forecast(4), "beyond-the-scale") // near 40 · 100/96 = 41.6
	assert.Contains(t, forecast(6), "beyond-the-scale")    // near 42.5
}

// More than half at one go is called a large change (common practice).
func TestLargeChangeSaysItsShare(t *testing.T) {
	w := tested.Water{Portion: water(t, 35, 25).OfVolume(100)}
	p, err := dilution.PlanChange(dilution.Change{Tank: w, Batch: w, Swap: 60})
	require.NoError(t, err)
	assert.Contains(t, caution(p, "large-change"), "More than 50 % of the water")
}
