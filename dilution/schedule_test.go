package dilution_test

import (
	"encoding/binary"
	"fmt"
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

// The cheapest way to keep nitrate below 25 mg/L, at 0.40 EUR a litre of mix and 2 EUR
// for the work of a change.
func ExamplePlanSchedule() {
	w, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	nitrate := func(mg float64) tested.Levels {
		return tested.Levels{tested.Nitrate.Of(units.MassPerLitre(mg)*units.MilligramPerLitre, units.AsNitrate)}
	}
	const week = 7 * 24 * time.Hour
	plan, err := dilution.PlanSchedule(dilution.Schedule{
		Routine: dilution.Routine{
			Tank:   tested.Water{Portion: w.OfVolume(300 * units.Litre), Levels: nitrate(15)},
			PerDay: nitrate(0.5),
		},
		Batch:  tested.Water{Portion: w.OfVolume(1 * units.Litre), Levels: nitrate(0)},
		Bounds: dilution.Bounds{High: dilution.Goal{Levels: nitrate(25)}},
		Span:   52 * week,
		Swaps:  []units.Volume{20, 40, 60, 90, 120},
		Every:  []time.Duration{week, 2 * week, 4 * week},
		Mix:    units.Money{Amount: 0.4, Currency: "EUR"},
		Work:   units.Money{Amount: 2, Currency: "EUR"},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	b := plan.Best
	fmt.Printf("%.0f L every %.0f days, %.2f %s a day\n", b.Swap.Litres(), b.Every.Hours()/24, b.PerDay.Amount, b.PerDay.Currency)
	fmt.Println(plan.Options[0].Why)
	// Output:
	// 90 L every 14 days, 2.71 EUR a day
	// does not keep Nitrate at most 25 mg/L NO3: left after 20.0 days
}

// schedule returns a search that has an answer, more or less.
func schedule(t testing.TB, rnd *rand.Rand) dilution.Schedule {
	r := random(t, rnd)
	r.Changes, r.Stream = nil, dilution.Stream{}
	r.TopOff.None = false
	for i := range r.Doses {
		r.Doses[i].Salt = 0
	}
	v := r.Tank.Portion.Volume()
	batch := tested.Water{Portion: water(t, 34.5+rnd.Float64(), 24).OfVolume(1), Levels: r.Tank.Levels}
	batch = batch.With(tested.Nitrate.Of(0*units.MilligramPerLitre, units.AsNitrate))
	start := nitrateOf(t, r.Tank)
	return dilution.Schedule{
		Routine: r, Batch: batch, Span: 60 * day,
		Bounds: dilution.Bounds{
			Low:  dilution.Goal{Salinity: units.Practical(29)},
			High: dilution.Goal{Salinity: units.Practical(40), Levels: nitrate(start * (1.02 + rnd.Float64()))},
		},
		Swaps: []units.Volume{v / 20, v / 10, v / 5, v / 2},
		Every: []time.Duration{3 * day, 7 * day, 14 * day},
		Mix:   units.Money{Amount: rnd.Float64(), Currency: "EUR"},
		Work:  units.Money{Amount: 3 * rnd.Float64(), Currency: "EUR"},
	}
}

// kept looks at every hour of the first weeks and of years later.
func kept(t testing.TB, s dilution.Schedule, o dilution.Option) bool {
	r := s.Routine
	r.Changes = []dilution.Renewal{{Batch: s.Batch, Swap: o.Swap, First: o.Every, Every: o.Every}}
	most, _ := massIn(s.Bounds.High, tested.Nitrate)
	for _, span := range []time.Duration{s.Span, 1200 * day} {
		f, err := r.Forecast(span)
		require.NoError(t, err)
		for at := max(0, span-60*day); at < span; at += 3 * time.Hour {
			for _, moment := range []func(time.Duration) (tested.Water, error){f.Before, f.At} {
				p, err := moment(at)
				require.NoError(t, err)
				sp := p.Portion.Practical().Value()
				if nitrateOf(t, p) > most.MilligramsPerLitre()*(1+1e-9) || sp < 29 || sp > 40 {
					return false
				}
			}
		}
	}
	return true
}

// What is returned keeps the bounds, and what is cheaper does not.
func TestPlanScheduleAgainstManyLooks(t *testing.T) {
	rnd := rand.New(rand.NewPCG(41, 42))
	found, none := 0, 0
	for range checks.Runs(60, 5) {
		s := schedule(t, rnd)
		p, err := dilution.PlanSchedule(s)
		if err != nil {
			assert.ErrorIs(t, err, units.ErrInput)
			assert.ErrorContains(t, err, "bounds.")
			none++
			continue
		}
		found++
		assert.True(t, kept(t, s, p.Best))
		assert.Len(t, p.Options, 12)
		best := false
		for i, o := range p.Options {
			assert.NotEmpty(t, o.Why)
			assert.InEpsilon(t, (s.Mix.Amount*o.Swap.Litres()+s.Work.Amount)/(o.Every.Hours()/24), o.PerDay.Amount, 1e-12)
			if i > 0 {
				assert.LessOrEqual(t, p.Options[i-1].PerDay.Amount, o.PerDay.Amount*(1+1e-12))
			}
			if o.Swap == p.Best.Swap && o.Every == p.Best.Every {
				best = true
				continue
			}
			if !best {
				assert.False(t, o.Keeps)
				assert.NotEmpty(t, o.Breaks)
				assert.False(t, kept(t, s, o), "%+v", o)
			}
		}
		assert.True(t, best)
	}
	assert.Greater(t, found, checks.Runs(15, 2))
	assert.Greater(t, none, checks.Runs(0, -1))
}

func TestPlanScheduleRefuses(t *testing.T) {
	for want, spoil := range map[string]func(s *dilution.Schedule){
		"routine.changes":    func(s *dilution.Schedule) { s.Routine.Changes = make([]dilution.Renewal, 1) },
		"evaporation":        func(s *dilution.Schedule) { s.Routine.Evaporation = -1 },
		"batch":              func(s *dilution.Schedule) { s.Batch = tested.Water{} },
		"swaps: got nothing": func(s *dilution.Schedule) { s.Swaps = nil },
		"every: got nothing": func(s *dilution.Schedule) { s.Every = nil },
		"swaps: got 0 L":     func(s *dilution.Schedule) { s.Swaps[0] = 0 },
		"swaps: got 1000 L":  func(s *dilution.Schedule) { s.Swaps[0] = 1000 },
		"every: got -1ns":    func(s *dilution.Schedule) { s.Every[0] = -1 },
		"span":               func(s *dilution.Schedule) { s.Span = 0 },
		"mix: got -1 EUR":    func(s *dilution.Schedule) { s.Mix.Amount = -1 },
		"work: got NaN":      func(s *dilution.Schedule) { s.Work.Amount = math.NaN() },
		"work: got 1 USD":    func(s *dilution.Schedule) { s.Work = units.Money{Amount: 1, Currency: "USD"} },
		"bounds.high.calcium: got 400 mg/L": func(s *dilution.Schedule) {
			s.Bounds.High.Levels = s.Bounds.High.Levels.With(tested.Calcium.Of(400*units.MilligramPerLitre, units.AsCalcium))
		},
		"bounds.high.Nitrate: got Nitrate at most":   func(s *dilution.Schedule) { s.Routine.PerDay = nitrate(20) },
		"bring it there first":                       func(s *dilution.Schedule) { s.Bounds.High.Levels = nitrate(9) },
		"bounds.low.Nitrate: got Nitrate at least 9": func(s *dilution.Schedule) { s.Bounds.Low.Levels, s.Routine.PerDay = nitrate(9), nitrate(0.01) },
		"keeps together with the others": func(s *dilution.Schedule) {
			s.Swaps, s.Every = []units.Volume{4, 100}, []time.Duration{day}
			s.Bounds.Low.Levels, s.Bounds.High.Levels = nitrate(9), nitrate(11)
		},
		"after 10.0 days: absolute salinity": func(s *dilution.Schedule) {
			s.Routine.Evaporation, s.Routine.TopOff.None = 15*units.LitrePerDay, true
			s.Span, s.Every, s.Swaps = 10*day, []time.Duration{30 * day}, s.Swaps[:1]
		},
	} {
		s := dilution.Schedule{
			Routine: closed(t, 10), Batch: tested.Water{Portion: water(t, 35, 25).OfVolume(1), Levels: nitrate(0)},
			Bounds: dilution.Bounds{High: dilution.Goal{Levels: nitrate(20)}},
			Span:   90 * day, Swaps: []units.Volume{10, 20}, Every: []time.Duration{7 * day, 14 * day},
			Mix: units.Money{Amount: 1, Currency: "EUR"},
		}
		s.Routine.PerDay = nitrate(0.5)
		spoil(&s)
		p, err := dilution.PlanSchedule(s)
		assert.ErrorIs(t, err, units.ErrInput, want)
		if assert.Error(t, err, want) {
			assert.Contains(t, err.Error(), want)
		}
		assert.Empty(t, p.Options)
	}
}

// Without prices the least water wins, then the fewest changes.
func TestPlanScheduleWithoutPrices(t *testing.T) {
	s := dilution.Schedule{
		Routine: closed(t, 10), Batch: tested.Water{Portion: water(t, 35, 25).OfVolume(1), Levels: nitrate(0)},
		Bounds: dilution.Bounds{High: dilution.Goal{Levels: nitrate(20)}},
		Span:   90 * day, Swaps: []units.Volume{40, 10, 20}, Every: []time.Duration{14 * day, 7 * day},
	}
	s.Routine.PerDay = nitrate(0.2)
	p, err := dilution.PlanSchedule(s)
	require.NoError(t, err)
	assert.Zero(t, p.Best.PerDay.Amount)
	for _, o := range p.Options {
		if o.Keeps {
			assert.Equal(t, p.Best.Swap, o.Swap, "the first that keeps is the best")
			break
		}
	}
	// By Periodic: 40 L every 14 days and 20 L every 7 both settle at 14 mg/L, half as
	// much at 28.
	assert.EqualValues(t, 40, p.Best.Swap)
	assert.Equal(t, 14*day, p.Best.Every)
}

func FuzzPlanSchedule(f *testing.F) {
	f.Add(uint64(1), 25.0, 0.4, 2.0, int64(7*day))
	f.Add(uint64(2), 0.0, 0.0, 0.0, int64(1))
	f.Fuzz(func(t *testing.T, seed uint64, bound, mix, work float64, every int64) {
		var bytes [32]byte
		binary.LittleEndian.PutUint64(bytes[:], seed)
		s := schedule(t, rand.New(rand.NewChaCha8(bytes)))
		s.Bounds.High.Levels = s.Bounds.High.Levels.With(tested.Nitrate.Of(units.MassPerLitre(bound), units.AsNitrate))
		s.Mix.Amount, s.Work.Amount = mix, work
		if every > int64(day) {
			s.Every[0] = time.Duration(every)
		}
		s.Swaps, s.Every, s.Span = s.Swaps[1:3], s.Every[:2], 30*day
		p, err := dilution.PlanSchedule(s)
		if err != nil {
			return
		}
		require.True(t, p.Best.Keeps)
		r := s.Routine
		r.Changes = []dilution.Renewal{{Batch: s.Batch, Swap: p.Best.Swap, First: p.Best.Every, Every: p.Best.Every}}
		forecast, err := r.Forecast(s.Span)
		require.NoError(t, err)
		for at := time.Duration(0); at <= s.Span; at += 5 * time.Hour {
			state, err := forecast.Before(at)
			require.NoError(t, err)
			require.LessOrEqual(t, nitrateOf(t, state), bound*(1+1e-9))
		}
		for at := time.Duration(0); at <= p.Settled.Round.Span; at += p.Settled.Round.Span / 50 {
			state, err := p.Settled.Round.Before(at)
			require.NoError(t, err)
			require.LessOrEqual(t, nitrateOf(t, state), bound*(1+1e-9))
		}
	})
}
