package dilution_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Five minutes of a dosing pump into a cup, three times; then 35 mL of the same stock.
func ExampleCalibratePump() {
	pump, err := dilution.CalibratePump([]dilution.Delivery{
		{Mass: 10.52 * units.Gram, Time: 5 * time.Minute},
		{Mass: 10.61 * units.Gram, Time: 5 * time.Minute},
		{Mass: 10.48 * units.Gram, Time: 5 * time.Minute},
	}, 1042*units.KilogramPerCubicMetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	run, within, err := pump.Time(35 * units.Millilitre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f ± %.3f mL/min\n", pump.Flow.MillilitresPerMinute(), pump.Uncertainty.MillilitresPerMinute())
	fmt.Printf("%.0f s for 35 mL, give or take %.1f mL\n", run.Seconds(), within.Millilitres())
	// Output:
	// 2.022 ± 0.007 mL/min
	// 1038 s for 35 mL, give or take 0.1 mL
}

// How many drops a minute are 1.5 L in two hours, at 20 drops to the millilitre?
func ExamplePump_Drops() {
	drip := dilution.Pump{Flow: 0.75 * units.LitrePerHour}
	drops, err := drip.Drops(20)
	fmt.Printf("%.0f drops a minute %v\n", drops, err)
	// Output: 250 drops a minute <nil>
}

// JCGM 100:2008, 4.2: mean and experimental standard deviation of the mean.
func TestCalibrateByHand(t *testing.T) {
	p, err := dilution.CalibratePump([]dilution.Delivery{
		{Mass: 60, Time: time.Hour}, {Mass: 124, Time: 2 * time.Hour}, {Mass: 32, Time: 30 * time.Minute}, {Mass: 66, Time: time.Hour},
	}, 1000)
	require.NoError(t, err)
	// 60, 62, 64, 66 mL/h: mean 63, squares 9+1+1+9
	checks.Relative(t, "flow", p.Flow.LitresPerHour(), 0.063, 1e-14)
	checks.Relative(t, "uncertainty", p.Uncertainty.LitresPerHour(), math.Sqrt(20./12)/1000, 1e-12)
	run, u, err := p.Time(0.63)
	require.NoError(t, err)
	assert.InDelta(t, 10, run.Hours(), 1e-9)
	checks.Relative(t, "dose", float64(u), 10*math.Sqrt(20./12)/1000, 1e-12)

	one, err := dilution.CalibratePump([]dilution.Delivery{{Mass: 60, Time: time.Hour}}, 1025)
	require.NoError(t, err)
	assert.True(t, math.IsNaN(float64(one.Uncertainty)))
	_, u, err = one.Time(1)
	require.NoError(t, err)
	assert.True(t, math.IsNaN(float64(u)))
}

// The uncertainty of a drip is that of a count that starts and ends anywhere between
// two drops.
func TestDripAgainstCounting(t *testing.T) {
	rnd := rand.New(rand.NewPCG(51, 52))
	runs, wider := checks.Draws(40000)
	sum, squares := 0.0, 0.0
	for range runs {
		rate := 97 + rnd.Float64() // drops a minute, steady
		phase := rnd.Float64()
		n := math.Floor(rate + phase) // drops that fall in the minute
		sum += n - rate
		squares += (n - rate) * (n - rate)
	}
	mean := sum / float64(runs)
	p, err := dilution.Drip(97, time.Minute, 20)
	require.NoError(t, err)
	checks.Relative(t, "flow", p.Flow.MillilitresPerMinute(), 97./20, 1e-12)
	assert.InEpsilon(t, math.Sqrt(squares/float64(runs)-mean*mean), p.Uncertainty.MillilitresPerMinute()*20, 0.05*wider)
	drops, err := p.Drops(20)
	require.NoError(t, err)
	checks.Relative(t, "back", drops, 97, 1e-12)
}

func TestDosingRefusals(t *testing.T) {
	good := []dilution.Delivery{{Mass: 10, Time: time.Minute}}
	nan := math.NaN()
	for want, f := range map[string]func() error{
		"runs: got nothing":            func() error { _, err := dilution.CalibratePump(nil, 1000); return err },
		"density: got 0 kg/m³":         func() error { _, err := dilution.CalibratePump(good, 0); return err },
		"density: got NaN kg/m³":       func() error { _, err := dilution.CalibratePump(good, units.Density(nan)); return err },
		"run.mass: got -1 g":           func() error { _, err := dilution.CalibratePump([]dilution.Delivery{{-1, time.Hour}}, 1000); return err },
		"run.time: got 0s":             func() error { _, err := dilution.CalibratePump([]dilution.Delivery{{1, 0}}, 1000); return err },
		"runs.flow: got +Inf":          func() error { _, err := dilution.CalibratePump([]dilution.Delivery{{1e308, 1}}, 1e-9); return err },
		"pump.flow: got 0 L/h":         func() error { _, _, err := dilution.Pump{}.Time(1); return err },
		"pump.uncertainty: got -1 L/h": func() error { _, _, err := dilution.Pump{Flow: 1, Uncertainty: -1}.Time(1); return err },
		"dose: got NaN L":              func() error { _, _, err := dilution.Pump{Flow: 1}.Time(units.Volume(nan)); return err },
		"dose: got 1 L":                func() error { _, _, err := dilution.Pump{Flow: 1e-300}.Time(1); return err },
		"dropsPerMillilitre: got 0":    func() error { _, err := dilution.Pump{Flow: 1}.Drops(0); return err },
		"drops: got 0":                 func() error { _, err := dilution.Drip(0, time.Minute, 20); return err },
		"time: got -1m0s":              func() error { _, err := dilution.Drip(1, -time.Minute, 20); return err },
		"dropsPerMillilitre: got -1":   func() error { _, err := dilution.Drip(1, time.Minute, -1); return err },
		"pump.flow: got +Inf L/h":      func() error { _, err := dilution.Drip(1, time.Minute, 5e-324); return err },
	} {
		err := f()
		assert.ErrorIs(t, err, units.ErrInput, want)
		assert.ErrorContains(t, err, want)
	}
	p, _ := dilution.CalibratePump(nil, 1000)
	assert.True(t, math.IsNaN(float64(p.Flow)) && math.IsNaN(float64(p.Uncertainty)))
}

// Beside an error there is neither a pump nor a number of changes.
func TestNothingBesideAnError(t *testing.T) {
	p, err := dilution.Drip(math.MaxInt, time.Minute, 1e-310)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(float64(p.Flow)) && math.IsNaN(float64(p.Uncertainty)))
	n, err := dilution.Periodic[float64]{Share: units.Share(1), Every: time.Hour}.Changes(math.Inf(1), 0)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.Zero(t, n)
}

// A tracer tells a volume above zero and an uncertainty that is none below, and the salt
// that went in comes back from them; or there is an error and NaN.
func FuzzTracer(f *testing.F) {
	f.Add(100.0, 34.5, 35.0, 0.05, 25.0, 0.95)
	f.Add(-1.0, 35.0, 35.0, math.Inf(1), -3.0, 2.0)
	f.Add(1e-300, 41.9999, 42.0, 0.0, 40.0, 0.5)
	f.Fuzz(func(t *testing.T, added, before, after, reading, celsius, share float64) {
		x := dilution.Tracer{
			Salt: mix.Salt{SeaSalt: units.Share(share)}, Added: units.Mass(added),
			Before: units.Practical(before), After: units.Practical(after),
			Reading: units.Practical(reading), Temperature: units.Celsius(celsius),
		}
		v, u, err := x.Volume()
		if err != nil {
			require.True(t, math.IsNaN(float64(v)) && math.IsNaN(float64(u)))
			return
		}
		require.GreaterOrEqual(t, float64(v), 0.0)
		require.GreaterOrEqual(t, float64(u), 0.0)
		if !(after-before > 1e-6 && added > 1e-100 && added < 1e100) {
			return // too near to nothing to be weighed again
		}
		w, err := seawater.FromPractical(units.Practical(before), units.Celsius(celsius))
		require.NoError(t, err)
		tank := w.OfVolume(v)
		salt := tank.Salt() + units.Mass(added*share)
		got := float64(salt) / float64(tank.Mass+units.Mass(added)) * 1000
		s, err := seawater.FromPractical(units.Practical(after), units.Celsius(celsius))
		require.NoError(t, err)
		require.InEpsilon(t, s.Absolute().GramsPerKilogram(), got, 1e-9)
	})
}
