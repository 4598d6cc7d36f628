package control

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/units"
)

func TestClockWraps(t *testing.T) {
	assert.Equal(t, 20*time.Millisecond, Clock(5).Since(Clock(math.MaxUint32-14)))
	assert.Equal(t, -20*time.Millisecond, Clock(math.MaxUint32-14).Since(5))
	var k ticker
	assert.Equal(t, span{}, k.step(math.MaxUint32-500, time.Second))
	assert.Equal(t, span{credit: time.Second, charge: time.Second}, k.step(499, time.Second), "across the wrap")
	assert.Equal(t, span{charge: time.Second, odd: true}, k.step(499, time.Second), "stands")
	assert.Equal(t, span{charge: time.Second, odd: true}, k.step(400, time.Second), "back")
	assert.Equal(t, span{charge: time.Second, odd: true}, k.step(1500, time.Second), "late")
}

// No 24 h, wherever they begin, hold more than the sum said when the last of it came.
func TestDayTotalHoldsAnyDay(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	var d dayTotal
	type event struct{ at, v float64 }
	var events []event
	now := 0.0
	for range checks.Runs(4000, 500) {
		dt := random.Float64() * 1.5
		now += dt
		d.pass(time.Duration(dt * float64(time.Hour)))
		v := random.Float64()
		d.add(v)
		events = append(events, event{now, v})
		true24, true25 := 0.0, 0.0
		for i := len(events) - 1; i >= 0 && events[i].at > now-25; i-- {
			true25 += events[i].v
			if events[i].at > now-24 {
				true24 += events[i].v
			}
		}
		require.GreaterOrEqual(t, d.sum(), true24-1e-9)
		require.LessOrEqual(t, d.sum(), true25+1e-9)
	}
	d.pass(400 * time.Hour)
	assert.Zero(t, d.sum())
}

func TestSignalReasons(t *testing.T) {
	c := Channel{Min: 0, Max: 45, PerHour: 4, Noise: 0.02, Step: 0.01, Spike: time.Minute, Settle: 10 * time.Second,
		Gap: 20 * time.Second, Still: 2 * time.Minute, Calibrate: 30 * 24 * time.Hour}
	begin := func(t *testing.T) (*Signal, func(x float64, ok bool) Reading) {
		g, r := NewSignal(c)
		require.True(t, r.OK())
		now := Clock(math.MaxUint32 - 60000) // wraps within the test
		feed := func(x float64, ok bool) Reading {
			now += 5000
			return g.Judge(now, Sample{x, ok})
		}
		assert.Equal(t, Reading{25, Suspect, Settling}, feed(25, true))
		feed(25.01, true)
		assert.Equal(t, Reading{25, Good, Fine}, feed(25, true))
		return &g, feed
	}
	t.Run("silent", func(t *testing.T) {
		_, feed := begin(t)
		for range 4 {
			assert.Equal(t, Reading{25, Good, Held}, feed(0, false), "for no longer than the gap")
		}
		r := feed(7, false)
		assert.Equal(t, Bad, r.Quality)
		assert.Equal(t, Silent, r.Reason)
		assert.Equal(t, Settling, feed(25, true).Reason)
	})
	t.Run("out of range", func(t *testing.T) {
		_, feed := begin(t)
		for _, x := range []float64{-1, 46, math.NaN(), math.Inf(1)} {
			assert.Equal(t, Held, feed(x, true).Reason)
		}
		assert.Equal(t, Reading{-127, Bad, OutOfRange}, feed(-127, true))
	})
	t.Run("a spike passes", func(t *testing.T) {
		_, feed := begin(t)
		assert.Equal(t, Reading{29, Suspect, Jumped}, feed(29, true))
		assert.Equal(t, Reading{25.01, Good, Fine}, feed(25.01, true))
	})
	t.Run("a jump that lasts waits for a person", func(t *testing.T) {
		g, feed := begin(t)
		for range 13 { // the first and a minute more
			assert.Equal(t, Jumped, feed(21, true).Reason)
		}
		assert.Equal(t, Reading{21, Suspect, Moved}, feed(21, true))
		assert.Equal(t, Moved, feed(25, true).Reason, "even if it comes back")
		var b [SignalState]byte
		g.Save(&b)
		again, _ := NewSignal(c)
		require.True(t, again.Restore(&b))
		assert.Equal(t, Moved, again.Judge(0, Sample{25, true}).Reason, "and over a power cut")
		g.Accept()
		feed(21, true)
		feed(21.01, true)
		assert.Equal(t, Good, feed(21, true).Quality)
	})
	t.Run("a gap does not make a jump true", func(t *testing.T) {
		_, feed := begin(t)
		for range 10 {
			feed(0, false)
		}
		assert.Equal(t, Jumped, feed(21, true).Reason, "4 K/h for 50 s are 0.06 K")
		assert.Equal(t, Settling, feed(25.01, true).Reason)
		feed(25, true)
		feed(25, true)
		assert.Equal(t, Good, feed(25, true).Quality)
		for range 1200 {
			feed(0, false)
		}
		assert.Equal(t, Settling, feed(21, true).Reason, "in 100 minutes it can")
	})
	t.Run("stuck", func(t *testing.T) {
		_, feed := begin(t)
		for range 23 {
			assert.Equal(t, Good, feed(25, true).Quality)
		}
		feed(25, true)
		assert.Equal(t, Reading{25, Suspect, Stuck}, feed(25, true))
		assert.Equal(t, Good, feed(25.01, true).Quality)
	})
	t.Run("noise", func(t *testing.T) {
		_, feed := begin(t)
		random := rand.New(rand.NewPCG(3, 4))
		for range 400 {
			require.Equal(t, Good, feed(25+0.02*random.NormFloat64(), true).Quality)
		}
		reasons := map[Reason]int{}
		for i := range 400 {
			reasons[feed(25+0.065*float64(i%2*2-1), true).Reason]++
		}
		assert.Greater(t, reasons[Noisy], 100, "%v", reasons)
	})
	t.Run("calibration", func(t *testing.T) {
		g, feed := begin(t)
		g.age = 30*24*time.Hour - 8*time.Second
		assert.Equal(t, Good, feed(25, true).Quality)
		assert.Equal(t, Overdue, feed(25, true).Reason)
		g.Calibrated()
		feed(25, true)
		feed(25.02, true)
		assert.Equal(t, Good, feed(25, true).Quality)
		assert.Equal(t, 15*time.Second, g.Age())
	})
	t.Run("refused", func(t *testing.T) {
		g, r := NewSignal(Channel{Min: 1, Max: math.NaN(), Gap: time.Second})
		assert.Equal(t, SetMax, r.Setting)
		assert.Equal(t, Reading{Reason: Unset}, g.Judge(0, Sample{1, true}))
	})
	t.Run("never made", func(t *testing.T) {
		var g Signal
		assert.Equal(t, Bad, g.Judge(0, Sample{1, true}).Quality)
	})
}

// A slow change at any pace of sampling is what water does.
func TestSignalFollowsWater(t *testing.T) {
	for _, every := range []time.Duration{time.Second, 17 * time.Second, 10 * time.Minute} {
		g, r := NewSignal(Channel{Min: 0, Max: 45, PerHour: 4, Noise: 0.02, Step: 0.01, Spike: 20 * time.Minute, Gap: 15 * time.Minute})
		require.True(t, r.OK())
		now, x := Clock(0), 25.0
		for range 2000 {
			now += Clock(every / time.Millisecond)
			x += 3.5 * every.Hours()
			if x > 30 {
				x = 25
				g.Accept()
			}
			require.Equal(t, Good, g.Judge(now, Sample{digits(x, 0.01), true}).Quality, "%v", every)
		}
	}
}

// By hand: with σ = q the reading in the middle of a digit stays with probability
// erf(1/(2√2)) = 0.3829, the share of a normal distribution within half a standard
// deviation (any table), and 0.3829^24 = 1e-10.
func TestStillTime(t *testing.T) {
	assert.InDelta(t, 24.0, StillTime(0.1, 0.1, time.Second, 0).Seconds(), 0.02)
	assert.Zero(t, StillTime(0.1, 0.001, time.Second, 0), "a coarse meter in a steady water may be still for good")
	assert.Equal(t, 2*time.Hour, StillTime(0.1, 0, time.Second, 0.1), "unless the water moves")
	for _, x := range []float64{math.NaN(), -1, 0} {
		assert.Zero(t, StillTime(x, 1, time.Second, 1))
	}
}

func TestMedian(t *testing.T) {
	m := Median{N: 5}
	y, _ := m.Add(0, math.NaN())
	assert.True(t, math.IsNaN(y))
	var delay time.Duration
	for i := range 20 { // a ramp with a spike: the median is the value two samples ago
		x := float64(i)
		if i == 15 {
			x = 1000
		}
		y, delay = m.Add(Clock(i*1000), x)
	}
	assert.Equal(t, 18.0, y, "19, 18, 17, 16 and a spike")
	m.Reset()
	for i := range 9 {
		y, delay = m.Add(Clock(i*i*1000), float64(i*i))
	}
	assert.Equal(t, 36.0, y)
	assert.Equal(t, 28*time.Second, delay, "64 s less 36 s: irregular samples have their own delay")
	for n, want := range map[int]float64{-3: 9, 1: 9, 2: 9, 3: 8, 8: 6, 9: 5, 100: 5} {
		m := Median{N: n}
		for i := range 10 {
			y, _ = m.Add(Clock(i), float64(i))
		}
		assert.Equal(t, want, y, "N %d", n)
	}
}

// A steady rise lags by the time constant, however it is sampled.
func TestSmoothLagsByItsTimeConstant(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	s := Smooth{TimeConstant: 10 * time.Second}
	now := Clock(math.MaxUint32 - 100000)
	seconds, y := 0.0, 0.0
	for range 300 {
		step := random.IntN(4000) + 1
		now += Clock(step)
		seconds += float64(step) / 1000
		y, _ = s.Add(now, 3*seconds)
	}
	assert.InDelta(t, 3*(seconds-10), y, 1e-9)
	y, _ = s.Add(now+60000, 7)
	assert.Equal(t, 7.0, y, "a gap begins anew")
	y, delay := s.Add(now+60000, math.NaN())
	assert.Equal(t, 7.0, y)
	assert.Equal(t, 10*time.Second, delay)
	none := Smooth{}
	y, _ = none.Add(0, 5)
	assert.Equal(t, 5.0, y)
}

// The points of χ² are those of the table: with one degree of freedom the probability is
// erfc(√(x/2)), with two exp(-x/2).
func TestPointsOfChiSquare(t *testing.T) {
	const ofTheTable = 2e-5 // it has three decimals of χ²
	assert.InDelta(t, 0.001, math.Erfc(math.Sqrt(pairScatter/2)), ofTheTable)
	assert.InDelta(t, 0.001, math.Exp(-threeScatter/2.0), ofTheTable)
	assert.InDelta(t, 0.05, math.Erfc(math.Sqrt(clearlyAhead/2)), ofTheTable)
}

func TestAgree(t *testing.T) {
	good := func(x float64) Opinion { return Opinion{Known(x), 0.1, true} }
	bad := Opinion{Reading{25, Bad, Silent}, 0.1, true}
	stuck := Opinion{Reading{25, Suspect, Stuck}, 0.1, true}
	none := Opinion{}
	for name, c := range map[string]struct {
		in     [3]Opinion
		value  float64
		q      Quality
		reason Reason
		apart  uint8
	}{
		"nothing fitted":                  {[3]Opinion{}, 0, Bad, Fine, 0},
		"one":                             {[3]Opinion{good(25)}, 25, Good, Fine, 0},
		"one, stuck":                      {[3]Opinion{stuck}, 25, Suspect, Stuck, 1},
		"two agree":                       {[3]Opinion{good(25), good(25.2)}, 25.1, Good, Fine, 0},
		"two disagree":                    {[3]Opinion{good(25), none, good(25.6)}, 25.3, Suspect, Disagreeing, 0b101},
		"one of two failed":               {[3]Opinion{good(25), bad}, 25, Suspect, Alone, 0b10},
		"two failed":                      {[3]Opinion{bad, stuck}, 25, Bad, Silent, 0b11},
		"three agree":                     {[3]Opinion{good(25), good(25.1), good(25.2)}, 25.1, Good, Fine, 0},
		"one of three apart":              {[3]Opinion{good(25), good(29), good(25.2)}, 25.1, Good, Outvoted, 0b10},
		"one of three failed":             {[3]Opinion{good(25), bad, good(25.2)}, 25.1, Good, Outvoted, 0b10},
		"the middle one goes with either": {[3]Opinion{good(25), good(25.4), good(25.8)}, 25.4, Suspect, Disagreeing, 0b111},
		"three apart":                     {[3]Opinion{good(20), good(25), good(30)}, 25, Suspect, Disagreeing, 0b111},
		"two of three failed":             {[3]Opinion{bad, bad, good(25)}, 25, Suspect, Alone, 0b11},
	} {
		a := Agree(c.in)
		assert.InDelta(t, c.value, a.Value, 1e-12, name)
		assert.Equal(t, c.q, a.Quality, name)
		assert.Equal(t, c.reason, a.Reason, name)
		assert.Equal(t, c.apart, a.Apart, name)
	}
	// By hand: weights 1 and 4 give (25 + 4·25.5)/5, u = 1/√5.
	a := Agree([3]Opinion{{Known(25), 1, true}, {Known(25.5), 0.5, true}})
	assert.InDelta(t, 25.4, a.Value, 1e-12)
	assert.InDelta(t, 1/math.Sqrt(5), a.Uncertainty, 1e-12)
	assert.Equal(t, Bad, Agree([3]Opinion{{Known(25), 0, true}, {Known(25), math.NaN(), true}}).Quality)
}

func TestInWater(t *testing.T) {
	c, p := InWater(Reading{0.02, Suspect, Jumped}, Reading{21, Suspect, Jumped}, 53)
	assert.Equal(t, InAir, c.Reason)
	assert.Equal(t, InAir, p.Reason)
	c, _ = InWater(Reading{40, Suspect, Jumped}, Known(25), 53)
	assert.Equal(t, Jumped, c.Reason)
}

// Salt stays: 200 L at 35 that lose 4 L and get 2 L of fresh water have 198 L.
func TestSaltBalance(t *testing.T) {
	b := SaltBalance{Uncertainty: 0.1, PerDay: 0.05}
	assert.Equal(t, Good, b.Judge(Known(20)).Quality, "without a balance nothing is judged")
	b.Begin(units.Practical(35), 200)
	b.Evaporate(4)
	b.Add(2, units.Practical(0))
	assert.InDelta(t, 35*200/198., b.Salinity().Value(), 1e-12)
	b.Draw(18)
	b.Add(18, units.Practical(35))
	assert.InDelta(t, (35*200/198.*180+35*18)/198, b.Salinity().Value(), 1e-12)
	want := b.Salinity().Value()
	assert.Equal(t, Good, b.Judge(Known(want+0.29)).Quality)
	assert.Equal(t, Drifted, b.Judge(Known(want+0.31)).Reason)
	b.Age(16)
	assert.Equal(t, Good, b.Judge(Known(want-0.6)).Quality, "after 16 days √(0.1² + 0.2²)")
	assert.Equal(t, Drifted, b.Judge(Known(want-0.7)).Reason)
}

// The check value of CRC-32 in every catalogue: "123456789" gives CBF43926 (from memory).
func TestCheckWord(t *testing.T) {
	assert.Equal(t, uint32(0xCBF43926), checkWord([]byte("123456789")))
	assert.Zero(t, checkWord(nil))
}

// Every state comes back, and none of which a bit has turned.
func TestStates(t *testing.T) {
	r := learned()
	r.top.alarms.raise(Leak, 1, 2)
	r.save()
	var signal [SignalState]byte
	r.level.Save(&signal)
	x, refusal := NewExchange(exchangeOfTest())
	require.True(t, refusal.OK())
	var exchange [ExchangeState]byte
	x.Save(&exchange)
	for name, c := range map[string]struct {
		state   []byte
		restore func() bool
	}{
		"top-off":    {r.savedTop[:], func() bool { t, _ := NewTopOff(settingsOfRig()); return t.Restore(&r.savedTop) }},
		"doser":      {r.savedDoser[:], func() bool { d, _ := NewDoser(doserOfRig()); return d.Restore(&r.savedDoser) }},
		"thermostat": {r.savedThermo[:], func() bool { h, _ := NewThermostat(thermostatOfRig()); return h.Restore(&r.savedThermo) }},
		"signal":     {signal[:], func() bool { return r.level.Restore(&signal) }},
		"exchange":   {exchange[:], func() bool { return x.Restore(&exchange) }},
	} {
		require.True(t, c.restore(), name)
		for i := 0; i < len(c.state); i += checks.Runs(1, 13) {
			for bit := range 8 {
				c.state[i] ^= 1 << bit
				require.False(t, c.restore(), "%s: byte %d bit %d", name, i, bit)
				c.state[i] ^= 1 << bit
			}
		}
		require.True(t, c.restore(), name)
	}
	again, _ := NewTopOff(settingsOfRig())
	require.True(t, again.Restore(&r.savedTop))
	assert.True(t, again.Alarms().Has(Leak))
	assert.False(t, again.Alarms().Has(StateLost))
	assert.Equal(t, r.top.today, again.today)
	assert.Equal(t, r.top.learned, again.learned)
	var twice [TopOffState]byte
	again.Save(&twice)
	assert.Equal(t, r.savedTop, twice)
	var blank [TopOffState]byte
	assert.False(t, again.Restore(&blank), "an empty memory is no state")
	// A state of numbers that cannot be is refused though its check word is right.
	again.learned.mean = math.NaN()
	again.Save(&twice)
	assert.False(t, again.Restore(&twice))
}

func TestAlarmsLatch(t *testing.T) {
	var a Alarms
	a.begin(time.Second)
	a.raise(SalinityDoubtful, 1, 2)
	a.raise(Leak, 3, 4)
	assert.False(t, a.end())
	a.begin(time.Second)
	a.raise(Waiting, 0, 0)
	assert.False(t, a.end())
	assert.Equal(t, 2, a.Len(), "what does not latch is gone")
	assert.Equal(t, Alarm{Leak, false, true, time.Second, 3, 4}, a.At(0))
	assert.Equal(t, advice.Danger, a.At(0).Severity())
	assert.Equal(t, Alarm{}, a.At(2))
	assert.Equal(t, Alarm{}, a.At(-1))
	a.begin(time.Second)
	a.raise(Leak, 5, 4)
	a.acknowledge()
	a.end()
	assert.True(t, a.Has(Leak), "still so")
	a.begin(time.Second)
	assert.False(t, a.end(), "and latched")
	a.acknowledge()
	a.begin(0)
	assert.True(t, a.end())
	assert.Zero(t, a.Len())
	assert.Equal(t, 4*time.Second, a.Running())
	for range 3 {
		for c := range codes {
			a.raise(c, 0, 0)
		}
	}
	assert.Equal(t, mostAlarms, a.Len())
	assert.False(t, Code(200).Latches())
	assert.Equal(t, advice.Note, Code(200).Severity())
}

func TestThousandths(t *testing.T) {
	for n, want := range map[int32]float64{25012: 25.012, -127: -0.127, 0: 0, math.MaxInt32 - 1: 2147483.646} {
		s := Thousandths(n)
		assert.True(t, s.OK)
		assert.InDelta(t, want, s.Value, 1e-9)
		back, ok := InThousandths(s.Value)
		assert.True(t, ok)
		assert.Equal(t, n, back)
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), 3e6, -3e6} {
		n, ok := InThousandths(x)
		assert.False(t, ok)
		assert.Zero(t, n)
	}
}
