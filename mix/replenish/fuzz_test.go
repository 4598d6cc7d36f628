package replenish

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// typed fails unless an error is one of those that a caller can tell apart.
func typed(t *testing.T, err error) {
	t.Helper()
	require.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange) || errors.Is(err, units.ErrNoConvergence) ||
		errors.Is(err, carbonate.ErrNoSolution) || errors.Is(err, carbonate.ErrTwoSolutions), "%T %v", err, err)
	require.LessOrEqual(t, len(err.Error()), 1000)
}

// anyOf makes a tank of numbers, if such a water can be.
func anyOf(volume, sp, celsius, alkalinity, ph, ammonia float64) (tested.Water, bool) {
	sample, err := seawater.FromPractical(units.Practical(sp), units.Celsius(celsius))
	tank := tested.Water{Portion: sample.OfVolume(units.Volume(volume)),
		Levels: tested.Levels{tested.AlkalinityOf(units.MilliequivalentsPerLitre(alkalinity)), tested.Ammonia.OfAmount(units.AmountPerLitre(ammonia))}}
	if ph != 0 {
		tank.Carbon = carbonate.PH(carbonate.PHTotal(ph))
	}
	return tank, err == nil
}

// A day's dose is what the tank used, in parts that keep the limit; or an error, and
// nothing beside it.
func FuzzMaintain(f *testing.F) {
	f.Add(uint8(1), uint8(0), 300.0, 35.0, 25.0, 2.5, 8.0, 450.0, 0.1, 0.2, 0.0)
	f.Add(uint8(1), uint8(2), 300.0, 35.0, 25.0, 2.5, 7.2, 0.0, 0.5, 0.01, 0.1)
	f.Add(uint8(7), uint8(0), 1e-6, 40.0, 1.0, 0.0, 9.9, 1e5, 1e300, 9.0, 1e9)
	f.Fuzz(func(t *testing.T, which, salt uint8, volume, sp, celsius, alkalinity, ph, air, use, most, ammonia float64) {
		tank, ok := anyOf(volume, sp, celsius, alkalinity, ph, ammonia)
		if !ok {
			return
		}
		p := raisable[int(which)%len(raisable)]
		u := Upkeep{Tank: tank, Air: carbonate.XCO2(air), Use: Use{PerDay: p.None().WithBase(use)},
			Additive: pure(t, sources[p][int(salt)%len(sources[p])]), Limits: limits(most)}
		m, err := Maintain(u)
		if err != nil {
			typed(t, err)
			require.Zero(t, m)
			return
		}
		x, err := u.Additive.count("", m.PerDay)
		require.NoError(t, err)
		require.True(t, x > 0 && finite(x))
		require.InEpsilon(t, use, float64(p.In(u.Additive.per().Scale(x)))/1000/volume, 1e-9) // what is used is given
		require.False(t, math.IsNaN(m.PerMonth.After.Value()))
		require.True(t, m.Parts >= 0 && m.Parts <= mostParts)
		if m.Parts > 0 {
			s, _, err := start(tank, carbonate.XCO2(air))
			require.NoError(t, err)
			before, err := s.found()
			require.NoError(t, err)
			limit, _ := swing(u.Limits.List())
			require.LessOrEqual(t, before.moved(m.AtOnce, m.Aired), limit)
		}
	})
}

// Lime water gives two equivalents for a mole of calcium, in portions that keep the
// limit; or an error, and nothing beside it.
func FuzzLime(f *testing.F) {
	f.Add(300.0, 35.0, 25.0, 2.5, 8.0, 450.0, 4.0, 22.0, 1.0, 0.3, 0.2)
	f.Add(60.0, 35.0, 25.0, 2.5, 7.2, 0.0, 40.0, 5.0, 0.5, 0.0, 0.01)
	f.Add(1e-3, 2.0, 30.0, 0.0, 0.0, 400.0, 1e-9, 80.0, 1e-9, 1e300, 1e-12)
	f.Fuzz(func(t *testing.T, volume, sp, celsius, alkalinity, ph, air, flow, store, saturation, demand, most float64) {
		tank, ok := anyOf(volume, sp, celsius, alkalinity, ph, 0)
		if !ok {
			return
		}
		w := LimeWater{Tank: tank, Air: carbonate.XCO2(air), TopOff: units.Flow(flow) * units.LitrePerDay, Temperature: units.Celsius(store),
			Saturation: units.Share(saturation), Limits: limits(most)}
		if demand != 0 {
			w.Demand = tested.AlkalinityOf(units.MilliequivalentsPerLitre(demand))
		}
		l, err := Lime(w)
		if err != nil {
			typed(t, err)
			require.Zero(t, l)
			return
		}
		require.True(t, l.Content > 0 && l.Hydroxide >= 0 && !(l.Short.Base() < 0) && l.Share.Value() >= 0 && l.Portion >= 0)
		require.InDelta(t, 2*l.Calcium.Base(), l.Alkalinity.Base(), 1e-9*l.Alkalinity.Base())
		if l.Portion > 0 {
			require.LessOrEqual(t, l.Portion.Litres(), w.TopOff.LitresPerDay()*(1+1e-12))
			s, _, err := start(tank, carbonate.XCO2(air))
			require.NoError(t, err)
			before, err := s.found()
			require.NoError(t, err)
			limit, _ := swing(w.Limits.List())
			require.LessOrEqual(t, apart(before.now, l.AtOnce), limit)
		}
	})
}

// What is dissolved stays what it was, charges balance, and nothing is below zero; or
// an error, and nothing beside it.
func FuzzAge(f *testing.F) {
	f.Add(35.0, 25.0, 400.0, 400.0, 0.0, 0.1, 14.0, 365.0)
	f.Add(2.0, 0.0, -1e3, 1e9, 1e-300, 1.0, 1e-9, 1e6)
	f.Add(40.0, 33.0, 1e300, 0.0, -5.0, 0.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, sp, celsius, sodium, chloride, magnesium, change, every, after float64) {
		sample, err := seawater.FromPractical(units.Practical(sp), units.Celsius(celsius))
		if err != nil {
			return
		}
		days := func(x float64) time.Duration { return time.Duration(x * 24 * float64(time.Hour)) }
		a := Ageing{Water: sample, Change: units.Share(change), Every: days(every), After: days(after),
			Leaves: ions.Composition{}.Add(ions.Sodium, units.AmountPerKilogram(sodium)).
				Add(ions.Chloride, units.AmountPerKilogram(chloride)).Add(ions.Magnesium, units.AmountPerKilogram(magnesium))}
		aged, err := Age(a)
		if err != nil {
			typed(t, err)
			require.Zero(t, aged)
			return
		}
		require.NoError(t, aged.Composition.Check())
		has, had := aged.Composition.SolutionSalinity().GramsPerKilogram(), ions.Reference(sample.Practical()).SolutionSalinity().GramsPerKilogram()
		require.InEpsilon(t, had, has, 1e-9)
		size := 0.0
		for i, x := range aged.Composition.All() {
			require.True(t, x >= 0, "%v %v", i, x)
			size += float64(x)
		}
		require.InDelta(t, 0, float64(aged.Composition.Charge()), 1e-6*size)
	})
}

// The bookkeeping of any log: what is left of a start lies between none and all of it,
// no test is lost, and they stand in the order of time.
func FuzzLog(f *testing.F) {
	f.Add(100.0, 0.0, 1.0, 2.0, 0.5, 1.5, 20.0, 3.0, 0.1)
	f.Add(100.0, 3.0, 1.0, 1.0, 2.5, 2.5, 100.0, 3.0, 1e9)
	f.Add(1e-300, -1e3, 1e3, 0.0, 0.0, -1e3, 1e-301, 0.0, 0.0)
	soda := stock(f, "Na2CO3", 60*units.GramPerLitre)
	f.Fuzz(func(t *testing.T, volume, a, b, c, from, to, swapped, fresh, amount float64) {
		l := Log{Volume: units.Volume(volume),
			Doses:   []Dosed{{From: day(from), To: day(to), Additive: soda, Amount: Amount{Volume: units.Volume(amount)}}},
			Changes: []WaterChange{{At: day(to), Swapped: units.Volume(swapped), Fresh: []tested.Level{tested.AlkalinityOf(units.MilliequivalentsPerLitre(fresh))}}}}
		for _, x := range []float64{a, b, c} {
			l.Tests = append(l.Tests, Test{At: day(x), Level: tested.AlkalinityOf(units.MilliequivalentsPerLitre(3))})
		}
		if err := l.check(); err != nil {
			typed(t, err)
			d, err := Consumption(l)
			require.Error(t, err)
			require.Zero(t, d)
			return
		}
		tests, now, err := l.lines(tested.Alkalinity)
		if err != nil {
			typed(t, err)
			return
		}
		require.Len(t, tests, 3)
		for i, at := range append(tests, now) {
			require.True(t, at.keeps >= 0 && at.keeps <= 1 && at.days >= 0, "%+v", at)
			if i > 0 && i < 3 {
				require.False(t, at.at.Before(tests[i-1].at))
				require.LessOrEqual(t, at.keeps, tests[i-1].keeps)
			}
		}
	})
}
