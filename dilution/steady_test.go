package dilution_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// The steady state is where a long forecast goes, and one round comes back to it.
func TestSettlesWhereALongForecastGoes(t *testing.T) {
	rnd := rand.New(rand.NewPCG(21, 22))
	settled := 0
	for range checks.Runs(200, 12) {
		r := random(t, rnd)
		if len(r.Changes) == 0 {
			continue
		}
		s, err := r.Settles()
		if err != nil && (r.TopOff.None || len(r.Doses) > 0) {
			assert.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange), "without top-off, or with more salt than leaves")
			continue
		}
		require.NoError(t, err)
		require.Equal(t, s.Round.Span, s.Period)
		same(t, s.Round.Start, s.Round.End, 1e-11)
		for _, b := range s.Round.Balances {
			in := b.Made + b.Dosed + b.Poured + b.Topped
			assert.InDelta(t, in, b.Drawn+b.Lost, 1e-10*(b.Before+math.Abs(in)), b.Name)
		}
		// As long as it takes for the start to be forgotten: changes alone must do it.
		c := r.Changes[0]
		share := float64(c.Swap / r.Tank.Portion.Volume())
		if share < 0.02 {
			continue
		}
		need := time.Duration(math.Ceil(40/-math.Log(1-share))) * c.Every
		rounds := need/s.Period + 2
		start := c.First
		for _, d := range r.Doses {
			start = max(start, d.First)
		}
		span := rounds*s.Period + start + 30*day
		if float64(span)/float64(6*time.Hour) > 20000 {
			continue
		}
		f, err := r.Forecast(span)
		require.NoError(t, err)
		settled++
		near := math.Inf(1)
		for at := c.First + (f.Span-s.Period-c.First)/c.Every*c.Every; at <= f.Span; at += c.Every {
			b, err := f.Before(at)
			require.NoError(t, err)
			near = math.Min(near, math.Abs(nitrateOf(t, b)/nitrateOf(t, s.Before)-1)+math.Abs(b.Portion.Practical().Value()/s.Before.Portion.Practical().Value()-1))
		}
		assert.Less(t, near, 1e-9)
	}
	assert.Greater(t, settled, checks.Runs(20, 5))
}

// What nothing takes out, and what nobody tops off, does not settle.
func TestSettlesRefuses(t *testing.T) {
	r := closed(t, 10)
	s, err := r.Settles()
	require.NoError(t, err, "a tank that nothing happens to is at rest")
	assert.Equal(t, 10.0, nitrateOf(t, s.Before))

	r.PerDay = nitrate(1)
	_, err = r.Settles()
	assert.ErrorIs(t, err, units.ErrInput)
	assert.ErrorContains(t, err, "Nitrate")

	r.PerDay = nitrate(-1)
	s, err = r.Settles()
	require.NoError(t, err)
	assert.Zero(t, nitrateOf(t, s.After), "what is used for good runs out")

	r = closed(t, 10)
	r.Doses = []dilution.Dose{{Salt: 20, Every: day}}
	_, err = r.Settles()
	assert.ErrorContains(t, err, "Salinity")

	r = closed(t, 10)
	r.Evaporation, r.TopOff.None = 1, true
	_, err = r.Settles()
	assert.ErrorContains(t, err, "topOff")

	r = closed(t, 10)
	batch := tested.Water{Portion: water(t, 35, 25).OfVolume(1), Levels: nitrate(0)}
	r.Changes = []dilution.Renewal{{Batch: batch, Swap: 20, Every: 7*day + 1}, {Batch: batch, Swap: 20, Every: 5*day + 1}}
	_, err = r.Settles()
	assert.ErrorIs(t, err, units.ErrInput, "weeks that never meet")
}

// Salt that doses leave leaves with the changes: at rest as much a round goes as
// comes.
func TestSettlesWithSaltOfDoses(t *testing.T) {
	r := closed(t, 10)
	r.Evaporation = 0.1
	r.Doses = []dilution.Dose{{Salt: 12, Every: day}}
	r.Changes = []dilution.Renewal{{Batch: tested.Water{Portion: water(t, 34, 25).OfVolume(1), Levels: nitrate(0)}, Swap: 30, Every: 7 * day}}
	s, err := r.Settles()
	require.NoError(t, err)
	b := s.Round.Balances[1]
	checks.Relative(t, "dosed", b.Dosed, 7*12, 1e-12)
	checks.Relative(t, "drawn", b.Drawn, b.Dosed+b.Poured, 1e-11)
	assert.Greater(t, s.Before.Portion.Practical().Value(), 36.0)
	assert.Less(t, s.After.Portion.Practical().Value(), s.Before.Portion.Practical().Value())
}
