package dilution_test

import (
	"encoding/binary"
	"errors"
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

// How sure is a forecast whose tank was only measured out?
func ExampleRoutine_Estimates() {
	w, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	nitrate := func(mg float64) tested.Levels {
		return tested.Levels{tested.Nitrate.Of(units.MassPerLitre(mg)*units.MilligramPerLitre, units.AsNitrate)}
	}
	routine := dilution.Routine{
		Tank:   tested.Water{Portion: w.OfVolume(300 * units.Litre), Levels: nitrate(5)},
		PerDay: nitrate(0.5),
	}
	list, err := routine.Estimates(90*24*time.Hour, dilution.Bounds{High: dilution.Goal{Levels: nitrate(25)}},
		dilution.RoutineDoubts{PerDay: nitrate(0.05), Levels: nitrate(2)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range list[2:] {
		fmt.Printf("%s: %.0f ± %.0f %s, mostly because of %s\n", e.Name, e.Value, e.Uncertainty, e.Unit, e.Mostly)
	}
	// Output:
	// Nitrate: 50 ± 5 mg/L NO3, mostly because of Nitrate a day
	// Nitrate at most 25 mg/L NO3: 40 ± 6 days, mostly because of Nitrate a day
}

// The propagated uncertainty is that of a simulation (JCGM 101) within 5 %.
func TestRoutineEstimatesAgainstMonteCarlo(t *testing.T) {
	r := closed(t, 8)
	r.PerDay = nitrate(0.4)
	r.Evaporation, r.TopOff.None = 0.02, true
	r.Pumped = nitrate(0.1)
	r.Losses = []dilution.Loss{{Of: tested.Nitrate, HalfLife: 200 * day}}
	r.Stream = dilution.Stream{Batch: tested.Water{Portion: water(t, 35, 24).OfVolume(1), Levels: nitrate(0)}, Flow: 0.002}
	bounds := dilution.Bounds{High: dilution.Goal{Salinity: units.Practical(36.4), Levels: nitrate(18)}}
	d := dilution.RoutineDoubts{Tank: units.Percent(5), Evaporation: units.Percent(4), Salinity: units.Practical(0.1), PerDay: nitrate(0.02), Levels: nitrate(0.5)}
	const span = 30 * day
	list, err := r.Estimates(span, bounds, d)
	require.NoError(t, err)
	require.Len(t, list, 5)

	rnd := rand.New(rand.NewPCG(31, 32))
	runs, wider := checks.Draws(8000)
	var sum, squares [5]float64
	for range runs {
		m := r
		g := rnd.NormFloat64
		by := 0.05 * g()
		w := water(t, 35+0.1*g(), 25)
		m.Tank.Portion = w.OfVolume(units.Volume(200 * (1 + by)))
		m.Tank.Levels = nitrate(8 + 0.5*g())
		m.Pumped = nitrate(0.1 / (1 + by))
		m.PerDay = nitrate(0.4 + 0.02*g())
		m.Evaporation *= units.Flow(1 + 0.04*g())
		f, err := m.Forecast(4 * span)
		require.NoError(t, err)
		end, err := f.At(span)
		require.NoError(t, err)
		crossings, err := f.Until(bounds)
		require.NoError(t, err)
		values := [5]float64{end.Portion.Practical().Value(), end.Volume().Litres(), nitrateOf(t, end)}
		for _, c := range crossings {
			require.True(t, c.Crosses())
			k := 3
			if c.Name == "Nitrate" {
				k = 4
			}
			values[k] = c.After.Hours() / 24
		}
		for i, x := range values {
			sum[i] += x
			squares[i] += x * x
		}
	}
	for i, e := range list {
		// Names in the order of Until: the first to be left first.
		k := i
		if i >= 3 {
			k = 3
			if e.Name == "Nitrate at most 18 mg/L NO3" {
				k = 4
			}
		}
		mean := sum[k] / float64(runs)
		assert.InEpsilon(t, math.Sqrt(squares[k]/float64(runs)-mean*mean), float64(e.Uncertainty), 0.05*wider, e.Name)
		assert.InEpsilon(t, mean, float64(e.Value), 0.02, e.Name)
		assert.NotEmpty(t, e.Mostly)
	}
}

func TestRoutineEstimatesRefuse(t *testing.T) {
	r := closed(t, 8)
	for name, d := range map[string]dilution.RoutineDoubts{
		"negative": {Tank: units.Share(-0.1)}, "NaN": {Evaporation: units.Share(math.NaN())}, "level": {Levels: nitrate(-1)},
	} {
		_, err := r.Estimates(day, dilution.Bounds{}, d)
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.ErrorContains(t, err, "doubts", name)
	}
	// A bound that may never be left.
	r.PerDay = nitrate(0.01)
	list, err := r.Estimates(300*day, dilution.Bounds{High: dilution.Goal{Levels: nitrate(9)}}, dilution.RoutineDoubts{PerDay: nitrate(0.02)})
	require.NoError(t, err)
	assert.Equal(t, "Nitrate at most 9 mg/L NO3", list[3].Name)
	assert.InDelta(t, 100, float64(list[3].Value), 1e-6)
	assert.True(t, math.IsInf(float64(list[3].Uncertainty), 1))
}

// Everything that cannot be is refused by name.
func TestRoutineRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	batch := tested.Water{Portion: water(t, 35, 25).OfVolume(1), Levels: nitrate(0)}
	for want, spoil := range map[string]func(r *dilution.Routine){
		"tank.volume: got 0 L, want a number above zero": func(r *dilution.Routine) { r.Tank.Portion.Mass = 0 },
		"tank.nitrate: got -1 mg/L":                      func(r *dilution.Routine) { r.Tank.Levels = nitrate(-1) },
		"perDay.nitrate: got NaN":                        func(r *dilution.Routine) { r.PerDay = nitrate(nan) },
		"perDay.nitrate: got -Inf":                       func(r *dilution.Routine) { r.PerDay = nitrate(-inf) },
		"evaporation: got -1 L/h":                        func(r *dilution.Routine) { r.Evaporation = -1 },
		"evaporation: got NaN":                           func(r *dilution.Routine) { r.Evaporation = units.Flow(nan) },
		"topOff.hand: got -1h0m0s":                       func(r *dilution.Routine) { r.TopOff.Hand = -time.Hour },
		"topOff: got none and by hand":                   func(r *dilution.Routine) { r.TopOff = dilution.TopOff{None: true, Hand: day} },
		"topOff.water.nitrate: got -2":                   func(r *dilution.Routine) { r.TopOff.Water = nitrate(-2) },
		"pumped.nitrate: got -2":                         func(r *dilution.Routine) { r.Pumped = nitrate(-2) },
		"doses[0].levels.nitrate: got -2":                func(r *dilution.Routine) { r.Doses = []dilution.Dose{{Levels: nitrate(-2)}} },
		"doses[0].salt: got NaN":                         func(r *dilution.Routine) { r.Doses = []dilution.Dose{{Salt: units.Mass(nan)}} },
		"doses[0].first: got -1ns":                       func(r *dilution.Routine) { r.Doses = []dilution.Dose{{First: -1}} },
		"doses[0].every: got -1ns":                       func(r *dilution.Routine) { r.Doses = []dilution.Dose{{Every: -1}} },
		"changes[0].swap: got 300 L":                     func(r *dilution.Routine) { r.Changes = []dilution.Renewal{{Batch: batch, Swap: 300}} },
		"changes[0].swap: got NaN":                       func(r *dilution.Routine) { r.Changes = []dilution.Renewal{{Batch: batch, Swap: units.Volume(nan)}} },
		"changes[0].first: got -24h0m0s":                 func(r *dilution.Routine) { r.Changes = []dilution.Renewal{{Batch: batch, First: -day}} },
		"changes[0].batch.temperature: got nothing":      func(r *dilution.Routine) { r.Changes = []dilution.Renewal{{Swap: 1}} },
		"stream.flow: got -1":                            func(r *dilution.Routine) { r.Stream.Flow = -1 },
		"stream.batch.temperature: got nothing":          func(r *dilution.Routine) { r.Stream.Flow = 1 },
		`losses[0].of: got "nitrat"`:                     func(r *dilution.Routine) { r.Losses = []dilution.Loss{{Of: "nitrat", HalfLife: day}} },
		"losses[0].halfLife: got -1ns":                   func(r *dilution.Routine) { r.Losses = []dilution.Loss{{Of: tested.Nitrate, HalfLife: -1}} },
		"losses[0].perDay: got 100 %":                    func(r *dilution.Routine) { r.Losses = []dilution.Loss{{Of: tested.Nitrate, PerDay: units.Share(1)}} },
		"losses[0]: got a half-life and a share": func(r *dilution.Routine) {
			r.Losses = []dilution.Loss{{Of: tested.Nitrate, PerDay: units.Share(0.1), HalfLife: 1}}
		},
		"perDay.nitrate: got 1e+307": func(r *dilution.Routine) { r.PerDay = nitrate(1e307) },
		"span: got 4320h0m0s, want a time with fewer than 100000": func(r *dilution.Routine) {
			r.Doses = []dilution.Dose{{Levels: nitrate(1), Every: time.Minute}}
		},
		"changes.swap: got 150 L, want no more than": func(r *dilution.Routine) {
			r.Evaporation, r.TopOff.None = 10*units.LitrePerDay, true
			r.Changes = []dilution.Renewal{{Batch: batch, Swap: 150, First: 10 * day}}
		},
		"after 180.0 days: absolute salinity": func(r *dilution.Routine) {
			r.Evaporation, r.TopOff.None = 0.9*units.LitrePerDay, true
		},
		"topOff: got a dry tank after 180.0 days": func(r *dilution.Routine) {
			r.Evaporation, r.TopOff.None = 2*units.LitrePerDay, true
		},
	} {
		r := closed(t, 10)
		spoil(&r)
		f, err := r.Forecast(180 * day)
		assert.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange), want)
		if assert.Error(t, err, want) {
			assert.Contains(t, err.Error(), want)
		}
		assert.Zero(t, f.Span)
	}
	r := closed(t, 10)
	for _, span := range []time.Duration{0, -day} {
		_, err := r.Forecast(span)
		assert.ErrorContains(t, err, "span")
	}
	f, err := r.Forecast(day)
	require.NoError(t, err)
	for _, step := range []time.Duration{0, -1, 1} {
		_, err := f.Points(step)
		assert.ErrorContains(t, err, "step")
	}
	for _, when := range []time.Duration{-1, day + 1} {
		_, err = f.At(when)
		assert.ErrorContains(t, err, "time")
		_, err = f.Before(when)
		assert.ErrorContains(t, err, "time")
	}
	for want, b := range map[string]dilution.Bounds{
		"bounds.high.calcium":              {High: dilution.Goal{Levels: tested.Levels{tested.Calcium.Of(400*units.MilligramPerLitre, units.AsCalcium)}}},
		"bounds.low.nitrate: got NaN":      {Low: dilution.Goal{Levels: nitrate(nan)}},
		"bounds.low.salinity: got -1":      {Low: dilution.Goal{Salinity: units.Practical(-1)}},
		"bounds.high.boron":                {High: dilution.Goal{Levels: tested.Levels{tested.Boron.Of(1*units.MilligramPerLitre, units.AsBoron)}}},
		"bounds.high: got nothing, want a": {High: dilution.Goal{Levels: tested.Levels{{}}}},
	} {
		_, err := f.Until(b)
		assert.ErrorIs(t, err, units.ErrInput, want)
		assert.ErrorContains(t, err, want)
	}
	var none dilution.Forecast
	_, err = none.At(0)
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = none.Until(dilution.Bounds{})
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = none.Points(day)
	assert.ErrorIs(t, err, units.ErrInput)
}

// What is not known in the tank and in all new water is said, not guessed.
func TestForecastOfWhatIsNotKnown(t *testing.T) {
	r := closed(t, 10)
	r.PerDay = tested.Levels{tested.Phosphate.Of(0.01*units.MilligramPerLitre, units.AsPhosphate)}
	r.Changes = []dilution.Renewal{{Batch: tested.Water{Portion: water(t, 35, 25).OfVolume(1)}, Swap: 10}}
	f, err := r.Forecast(day)
	require.NoError(t, err)
	_, known := massIn(f.End, tested.Nitrate)
	assert.False(t, known)
	assert.Contains(t, fmt.Sprint(f.Assumptions), "Nitrate is not known in the tank and in all new water, so it is not foretold.")
	assert.Contains(t, fmt.Sprint(f.Assumptions), "Phosphate is not known")
	assert.Len(t, f.Balances, 2)
}

func FuzzForecast(f *testing.F) {
	f.Add(uint64(1), 35.0, 25.0, 200.0, 10.0, 0.5, 20.0, int64(7*day), int64(90*day), uint8(0))
	f.Add(uint64(2), 0.0, -2.0, 1e-3, 0.0, -5.0, 0.0, int64(1), int64(1), uint8(7))
	f.Add(uint64(3), 42.0, 40.0, 1e9, 1e9, 1e300, 1e8, int64(math.MaxInt64), int64(math.MaxInt64), uint8(255))
	f.Fuzz(func(t *testing.T, seed uint64, s, c, litres, level, rate, swap float64, every, span int64, flags uint8) {
		w, err := seawater.FromPractical(units.Practical(s), units.Celsius(c))
		if err != nil {
			return
		}
		var bytes [32]byte
		binary.LittleEndian.PutUint64(bytes[:], seed)
		rnd := rand.New(rand.NewChaCha8(bytes))
		r := random(t, rnd)
		r.Tank.Portion = w.OfVolume(units.Volume(litres))
		r.Tank, r.PerDay = r.Tank.With(nitrate(level)...), r.PerDay.With(nitrate(rate)...)
		if flags&1 != 0 {
			r.Doses = append(r.Doses, dilution.Dose{Levels: nitrate(level), Salt: units.Mass(swap), First: time.Duration(every), Every: time.Duration(every)})
		}
		if flags&2 != 0 {
			r.Changes = append(r.Changes, dilution.Renewal{Batch: tested.Water{Portion: w.OfVolume(1), Levels: r.Tank.Levels}, Swap: units.Volume(swap), Every: time.Duration(every)})
		}
		if flags&4 != 0 {
			r.Losses = append(r.Losses, dilution.Loss{Of: tested.Nitrate, HalfLife: time.Duration(every)})
		}
		if flags&8 != 0 {
			r.Evaporation *= 100
		}
		events := 0.0 // bound the work of a run
		for _, c := range r.Changes {
			events += float64(span) / math.Max(1, float64(c.Every))
		}
		for _, d := range r.Doses {
			events += float64(span) / math.Max(1, float64(d.Every))
		}
		if events+float64(span)/float64(6*time.Hour) > 3000 {
			return
		}
		forecast, err := r.Forecast(time.Duration(span))
		if err == nil {
			for _, at := range []time.Duration{0, time.Duration(span / 3), time.Duration(span)} {
				p, err := forecast.At(at)
				require.NoError(t, err)
				for _, x := range []float64{nitrateOf(t, p), p.Volume().Litres(), p.Portion.Practical().Value()} {
					require.False(t, math.IsNaN(x) || math.IsInf(x, 0) || x < 0, "%v", x)
				}
			}
			list, err := forecast.Until(dilution.Bounds{High: dilution.Goal{Salinity: units.Practical(36), Levels: nitrate(math.Abs(level) + 1)}})
			require.NoError(t, err)
			for _, c := range list {
				require.LessOrEqual(t, c.After, forecast.Span)
			}
		}
		if every > int64(time.Hour) {
			settled, err := r.Settles()
			if err == nil {
				require.False(t, math.IsNaN(nitrateOf(t, settled.Before)))
				same(t, settled.Round.Start, settled.Round.End, 1e-6)
			}
		}
	})
}

// What is doubted of a routine has an uncertainty that is none below zero and no NaN, or
// there is an error and no list.
func FuzzRoutineEstimates(f *testing.F) {
	f.Add(uint64(1), 0.05, 0.1, 0.02, 0.5, int64(30*day), 40.0)
	f.Add(uint64(2), -1.0, math.Inf(1), 0.0, math.NaN(), int64(1), 0.0)
	f.Add(uint64(3), 0.5, 3.0, 1e9, 0.0, int64(day), 1e-9)
	f.Fuzz(func(t *testing.T, seed uint64, tank, salinity, rate, level float64, span int64, high float64) {
		if span > int64(60*day) {
			return
		}
		var bytes [32]byte
		binary.LittleEndian.PutUint64(bytes[:], seed)
		r := random(t, rand.New(rand.NewChaCha8(bytes)))
		list, err := r.Estimates(time.Duration(span), dilution.Bounds{High: dilution.Goal{Levels: nitrate(high)}},
			dilution.RoutineDoubts{
				Tank: units.Share(tank), Salinity: units.Practical(salinity), PerDay: nitrate(rate), Levels: nitrate(level),
			})
		if err != nil {
			require.Empty(t, list)
			return
		}
		for _, e := range list {
			require.GreaterOrEqual(t, float64(e.Uncertainty), 0.0, "%+v", e)
			require.False(t, math.IsNaN(float64(e.Value)), "%+v", e)
		}
	})
}
