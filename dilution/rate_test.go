package dilution_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// N' = a - k N in small steps (classical Runge-Kutta), with changes in between, against the
// closed forms; the mean by Simpson's rule.
func TestPeriodicWithARate(t *testing.T) {
	const ofLevels, ofMean = 1e-9, 1e-7
	r := rand.New(rand.NewPCG(17, 18))
	for range checks.Runs(100, 10) {
		p := dilution.Periodic[float64]{
			Share: units.Share(0.05 + 0.9*r.Float64()), Every: time.Duration(1+r.IntN(20)) * day,
			Fresh: 10 * r.Float64(), PerDay: r.Float64(), Rate: 0.3 * r.Float64(),
		}
		const steps = 2000
		h := p.Every.Hours() / 24 / steps
		slope := func(n float64) float64 { return p.PerDay - p.Rate*n }
		between := func(n float64) (end, mean float64) {
			sum := 0.
			for range steps {
				k1 := slope(n)
				k2 := slope(n + h/2*k1)
				k3 := slope(n + h/2*k2)
				k4 := slope(n + h*k3)
				middle := n + h/48*(10*k1+8*k2+8*k3-2*k4) // Hermite, of third order
				next := n + h/6*(k1+2*k2+2*k3+k4)
				sum += (n + 4*middle + next) / 6
				n = next
			}
			return n, sum / steps
		}
		level := 100 * r.Float64()
		start := level
		for n := 1; n <= 5; n++ {
			level, _ = between(level)
			level = dilution.Level(level, p.Fresh, dilution.Once(p.Share))
			got, err := p.After(start, n)
			require.NoError(t, err)
			assert.InEpsilon(t, level, got, ofLevels)
		}
		before, after, err := p.Steady()
		require.NoError(t, err)
		end, mean := between(after)
		assert.InEpsilon(t, end, before, ofLevels)
		assert.InEpsilon(t, after, dilution.Level(before, p.Fresh, dilution.Once(p.Share)), 1e-12)
		got, err := p.Mean()
		require.NoError(t, err)
		assert.InEpsilon(t, mean, got, ofMean)
		n, err := p.Changes(start, after+(start-after)*0.3)
		require.NoError(t, err)
		at, err := p.After(start, n)
		require.NoError(t, err)
		assert.LessOrEqual(t, math.Abs(at-after), 0.3*math.Abs(start-after)*(1+1e-6))
	}
}

// A rate that goes to zero leaves the straight teeth: both sums join without a step.
func TestPeriodicWithHardlyARate(t *testing.T) {
	p := dilution.Periodic[float64]{Share: units.Percent(20), Every: 10 * day, Fresh: 2, PerDay: 0.5}
	before, after, err := p.Steady()
	require.NoError(t, err)
	mean, err := p.Mean()
	require.NoError(t, err)
	assert.InEpsilon(t, (before+after)/2, mean, 1e-14)
	p.Rate = 1e-12
	small, err := p.Mean()
	require.NoError(t, err)
	assert.InEpsilon(t, mean, small, 1e-9)
	p.Rate = 0.99999e-4 // z just below and just above 1e-3
	below, err := p.Mean()
	require.NoError(t, err)
	p.Rate = 1.00001e-4
	above, err := p.Mean()
	require.NoError(t, err)
	assert.InDelta(t, 0, (below-above)/mean, 1e-7)
	assert.Greater(t, below, above)

	p.Rate = -1
	_, err = p.Mean()
	assert.EqualError(t, err, "rate: got -1, want zero or more a day")
}

// Of mean levels, one number by hand: 14 mg/L a fortnight, half of it changed, from none:
// 28 before, 14 after, 21 in the mean.
func TestMeanByHand(t *testing.T) {
	p := dilution.Periodic[float64]{Share: units.Percent(50), Every: 14 * day, PerDay: 1}
	mean, err := p.Mean()
	require.NoError(t, err)
	assert.InEpsilon(t, 21, mean, 1e-14)
	share, err := dilution.ShareToHoldAfter(0., 1, 14, 14*day)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.5, share.Value(), 1e-14)
	// A use: calcium of 440 in the new water, 2 a day, back to 400 each week: 14/(440 - 400 + 14).
	share, err = dilution.ShareToHoldAfter(440., -2, 400, 7*day)
	require.NoError(t, err)
	assert.InEpsilon(t, 14/54., share.Value(), 1e-14)
	_, err = dilution.ShareToHoldAfter(5., 1, 4, 7*day)
	assert.EqualError(t, err, "limit: got 4, want above 5, which even a full change every time leaves")
	_, err = dilution.ShareToHoldAfter(440., -1, 450, 7*day)
	assert.EqualError(t, err, "limit: got 450, want below 440, which even a full change every time leaves")
	_, err = dilution.ShareToHoldAfter(440., -1, 430, 0)
	assert.ErrorIs(t, err, units.ErrInput)
	share, err = dilution.ShareToHoldAfter(440., 0, 440, 7*day)
	require.NoError(t, err)
	assert.Zero(t, share.Value())
}

// Half-life, share a day and rate constant are one thing said in three ways.
func TestLossRemaining(t *testing.T) {
	half := dilution.Loss{HalfLife: 5 * day}
	for _, l := range []dilution.Loss{half, {PerDay: units.Share(1 - math.Pow(2, -0.2))}, {Rate: math.Ln2 / 5}} {
		left, err := l.Remaining(5 * day)
		require.NoError(t, err)
		assert.InEpsilon(t, 0.5, float64(left), 1e-14)
		left, err = l.Remaining(15 * day)
		require.NoError(t, err)
		assert.InEpsilon(t, 2.5, float64(dilution.Level(20., 0, left)), 1e-14)
	}
	_, err := half.Remaining(-1)
	assert.ErrorContains(t, err, "after")
	for want, l := range map[string]dilution.Loss{
		"loss.perDay: got 0 %, want above 0 and below 100 %, or a half-life or a rate": {},
		"loss.rate: got -1 a day, want a number above zero":                            {Rate: -1},
		"loss: got a rate and something else, want one of them":                        {Rate: 1, HalfLife: day},
	} {
		_, err := l.Remaining(day)
		assert.EqualError(t, err, want)
	}
	// And in a forecast.
	w, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	require.NoError(t, err)
	r := dilution.Routine{Tank: tested.Water{
		Portion: w.OfVolume(100),
		Levels:  tested.Levels{tested.Nitrate.Of(20*units.MilligramPerLitre, units.AsNitrate)},
	}, Losses: []dilution.Loss{{Of: tested.Nitrate, Rate: 0.1}}}
	f, err := r.Forecast(10 * day)
	require.NoError(t, err)
	end, _ := f.End.Level(tested.Nitrate)
	assert.InEpsilon(t, 20/math.E, end.MassPerLitre().MilligramsPerLitre(), 1e-9)
}

// Salt of both parts is that of the blend, and its volume the one asked for.
func TestBlendTo(t *testing.T) {
	a, b := water(t, 41, 8), water(t, 3, 31)
	for _, goal := range []float64{3, 10, 35, 41} {
		ofA, ofB, err := dilution.BlendTo(a, b, units.Practical(goal), 70)
		require.NoError(t, err)
		both := seawater.Blend(ofA, ofB)
		assert.InDelta(t, goal, both.Practical().Value(), 1e-12)
		assert.InEpsilon(t, 70, both.Volume().Litres(), 1e-12)
	}
	for _, goal := range []float64{2.9, 41.1, 500, math.NaN()} {
		ofA, _, err := dilution.BlendTo(a, b, units.Practical(goal), 70)
		assert.ErrorContains(t, err, "goal", goal)
		assert.True(t, math.IsNaN(float64(ofA.Volume())))
	}
	_, _, err := dilution.BlendTo(a, a, units.Practical(41), 70)
	assert.ErrorIs(t, err, units.ErrInput)
	_, _, err = dilution.BlendTo(seawater.Sample{}, b, units.Practical(30), -1)
	assert.EqualError(t, err, "a.temperature: got nothing, want a temperature\nvolume: got -1 L, want a number above zero")
}

// Balance of salt and volume, and the same as Swap where both waters are alike in density.
func TestRefill(t *testing.T) {
	tank, fresh := water(t, 36, 27).OfVolume(150), water(t, 30, 5)
	poured, full, err := dilution.Refill(tank, fresh, 60)
	require.NoError(t, err)
	assert.InEpsilon(t, 150, full.Volume().Litres(), 1e-12)
	salt := float64(tank.OfVolume(90).Salt()) + float64(fresh.OfVolume(poured).Salt())
	assert.InEpsilon(t, salt, float64(full.Salt()), 1e-12)
	assert.Greater(t, poured.Litres(), 60.)

	poured, full, err = dilution.Refill(tank, tank.Sample, 60)
	require.NoError(t, err)
	assert.InEpsilon(t, 60, poured.Litres(), 1e-12)
	swapped, err := dilution.Swap(tank, tank.Sample, 60)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(swapped.Mass), float64(full.Mass), 1e-12)
	poured, full, err = dilution.Refill(tank, fresh, 150)
	require.NoError(t, err)
	assert.Equal(t, tank.Volume(), poured)
	assert.InEpsilon(t, 30, full.Practical().Value(), 1e-12)
	_, _, err = dilution.Refill(tank, fresh, 151)
	assert.ErrorContains(t, err, "drawn")
	_, _, err = dilution.Refill(seawater.Portion{}, fresh, 0)
	assert.ErrorContains(t, err, "tank")
	_, _, err = dilution.Refill(tank, seawater.Sample{}, 1)
	assert.ErrorContains(t, err, "newWater.temperature")
}
