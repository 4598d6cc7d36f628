package control

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

func exchangeOfTest() ExchangeSettings {
	return ExchangeSettings{
		Watchdog: 10 * time.Second, Tank: 200, Salinity: units.Practical(35), NewSalinity: units.Practical(35),
		Temperature: units.Celsius(25), Swap: 40, Out: 60, In: 60, OutUncertainty: 1, InUncertainty: 1,
		MostImbalance: 2, Area: 0.12, Notice: 3,
	}
}

// By hand, with densities of the UNESCO tables (Technical Papers in Marine Science 44): 1.023343 kg/L
// at 35 and 25 °C, 0.997048 of pure water. 4.1 L into 200 L: 35 · 204.6686/(204.6686 + 4.0879).
func TestWorstCaseByHand(t *testing.T) {
	s := settingsOfRig()
	assert.InDelta(t, 34.3146, s.mixed(35, 4.1).Value(), 0.0005)
	// 9 mm of 0.12 m², 5 % more by two uncertainties of the flow, and two steps of the watchdog.
	wd := 20 * 15 / 3600. * 1.05
	assert.InDelta(t, 9*0.12*1.05+2*wd, s.WorstCase(LevelStuck).Volume.Litres(), 1e-9)
	assert.InDelta(t, 25*0.12+2*wd, s.WorstCase(LevelFalls).Volume.Litres(), 1e-9)
	assert.InDelta(t, 3*0.12+20/30.*1.05+2*wd, s.WorstCase(PumpStuckOn).Volume.Litres(), 1e-9)
	assert.Equal(t, 20.0, s.WorstCase(Siphon).Volume.Litres())
	assert.Equal(t, 5.0, s.WorstCase(Siphon).Spill.Litres())
	assert.Equal(t, Siphon, s.Worst().Fault)
	s.AirGap = true
	assert.Zero(t, s.WorstCase(Siphon).Volume)
	assert.Equal(t, LevelFalls, s.Worst().Fault)
	s.Second, s.SalinityBand = 0, 0
	w := s.WorstCase(LevelFalls)
	assert.True(t, w.PerDay)
	assert.InDelta(t, 8*1.05, w.Volume.Litres(), 1e-12)
	s.SalinityBand = 1
	w = s.WorstCase(LevelFalls)
	assert.False(t, w.PerDay)
	assert.InDelta(t, 34, w.To.Value(), 0.05, "the guard of the salinity is what stops it")
	s.SecondRelay = false
	assert.Equal(t, 20.0, s.WorstCase(PumpStuckOn).Volume.Litres(), "all of the reservoir")
	s.Valve = 10 * units.Millimetre
	assert.InDelta(t, 1.2, s.WorstCase(PumpStuckOn).Volume.Litres(), 1e-12, "a float valve in series")
	s.Switched = true
	assert.InDelta(t, 20*4/60.*1.05, s.WorstCase(LevelStuck).Volume.Litres(), 1e-12, "the longest run")
	// 5.7 L of water of 35 for as much that evaporated leave 5.7·35 more in 200 L: 36.0.
	assert.InDelta(t, 36, s.WorstCase(SaltyReservoir).To.Value(), 0.05)
	s.Flow = -1
	assert.True(t, math.IsNaN(s.WorstCase(LevelStuck).Volume.Litres()))
	assert.True(t, math.IsNaN(settingsOfRig().WorstCase(faults).Volume.Litres()))
}

func TestRefusals(t *testing.T) {
	top, dose, heat, change := settingsOfRig(), doserOfRig(), thermostatOfRig(), exchangeOfTest()
	require.True(t, top.Check().OK() && dose.Check().OK() && heat.Check().OK() && change.Check().OK())
	refused := func(want Setting, r Refusal) {
		t.Helper()
		assert.Equal(t, want, r.Setting)
		assert.False(t, r.Value >= r.Least && r.Value <= r.Most)
	}
	a := top
	a.MaxRun = time.Minute
	refused(SetMaxRun, a.Check()) // 0.6 L at 20 L/h take 108 s
	a = top
	a.Temperature = units.Temperature{}
	refused(SetTemperature, a.Check())
	a = top
	a.Tank = units.Volume(math.NaN())
	refused(SetTank, a.Check())
	a.Tank = units.Volume(math.Inf(1))
	refused(SetTank, a.Check())
	a = top
	a.DayCap = 0.5
	refused(SetDayCap, a.Check())
	off, r := NewTopOff(a)
	assert.False(t, r.OK())
	assert.True(t, off.Alarms().Has(Refused))
	assert.Equal(t, Decision{}, off.Step(1, TopOffInput{Level: Known(-100)}))
	off.Acknowledge()
	assert.Equal(t, Decision{}, off.Step(2, TopOffInput{Level: Known(-100)}))
	b := dose
	b.DayCap = 0.05
	refused(SetDayCap, b.Check())
	b = dose
	b.Kind = 77
	refused(SetKind, b.Check())
	c := heat
	c.Dead = 0.1
	refused(SetDead, c.Check())
	c = heat
	c.Most = units.Celsius(25.2)
	refused(SetMost, c.Check())
	d := change
	d.MostImbalance = 0.5
	refused(SetMostImbalance, d.Check())
	for _, part := range []func() bool{
		func() bool { var z TopOff; return z.Step(1, TopOffInput{Level: Known(-100)}).Pump },
		func() bool { var z Doser; var l Interlock; return z.Step(1, DoserInput{}, &l).Pump },
		func() bool { var z Thermostat; return z.Step(1, ThermostatInput{Known(10), true}).Heater },
		func() bool { var z Exchange; z.Begin(); return z.Step(1, ExchangeInput{}).Out },
	} {
		assert.False(t, part(), "what was not made is off")
	}
}

// A tank that loses power in the middle of every run, for days: what was pumped and not
// written down is charged, and the cap holds.
func TestPowerCutInEveryRun(t *testing.T) {
	s := settingsOfRig()
	s.SalinityBand, s.Second, s.EmptySwitch, s.LeakSwitch = 0, 0, false, false
	top, _ := NewTopOff(s)
	top.Acknowledge()
	var state [TopOffState]byte
	top.Save(&state)
	now, pumped := Clock(0), 0.0
	for range 400 {
		on := 0.0
		for on < 60 && now < 1<<31 { // cut after a minute of pumping, before anything more is written
			now += 10000
			d := top.Step(now, TopOffInput{Level: Known(-20 + 0.01*float64(now/10000%3))})
			if d.Save {
				top.Save(&state)
			}
			if d.Pump {
				on += 10
				pumped += flow * 10 / 3600
			}
			if top.Alarms().Has(DayCap) || top.Alarms().Has(LongRun) {
				break
			}
		}
		top, _ = NewTopOff(s)
		require.True(t, top.Restore(&state))
	}
	assert.LessOrEqual(t, pumped, s.DayCap.Litres())
	assert.Greater(t, pumped, 1.0)
}

func TestTopOffLearns(t *testing.T) {
	var e evaporation
	for i := range 30 {
		for range 24 {
			e.pumped += (3 + 0.3*float64(i%3-1)) / 24
			e.pass(time.Hour, i != 20, false)
		}
	}
	m, u, ok := e.perDay()
	assert.True(t, ok)
	assert.InDelta(t, 3, m, 0.05)
	assert.InDelta(t, 0.3*math.Sqrt(2./3), u, 0.05)
	assert.InDelta(t, 7, e.cap(8), 0.3)
	assert.Equal(t, 4.0, e.cap(4), "never beyond what a person has set")
}

// The second relay opens on every doubt, and in a hold, where nobody watches the level.
func TestSecondRelay(t *testing.T) {
	sound := TopOffInput{Level: Known(-1), Second: Clear, Empty: Clear, Leak: Clear, Salinity: Known(35)}
	for name, c := range map[string]struct {
		change func(*TopOffInput)
		latch  bool
	}{
		"hold":       {func(i *TopOffInput) { i.Hold = true }, false},
		"level":      {func(i *TopOffInput) { i.Level = Reading{-1, Suspect, Stuck} }, false},
		"salinity":   {func(i *TopOffInput) { i.Salinity = Reading{} }, false},
		"too salty":  {func(i *TopOffInput) { i.Salinity = Known(36.1) }, true},
		"too fresh":  {func(i *TopOffInput) { i.Salinity = Known(33.9) }, true},
		"high":       {func(i *TopOffInput) { i.Second = Tripped }, true},
		"high, none": {func(i *TopOffInput) { i.Second = Unknown }, true},
		"leak":       {func(i *TopOffInput) { i.Leak = Tripped }, true},
		"empty":      {func(i *TopOffInput) { i.Empty = Tripped }, true},
	} {
		top, _ := NewTopOff(settingsOfRig())
		assert.False(t, top.Step(1000, sound).Enable, "nothing is known yet")
		top.Acknowledge()
		require.True(t, top.Step(2000, sound).Enable, name)
		in := sound
		c.change(&in)
		assert.False(t, top.Step(3000, in).Enable, name)
		assert.Equal(t, !c.latch, top.Step(4000, sound).Enable, name)
		top.Acknowledge()
		assert.True(t, top.Step(5000, sound).Enable, name)
	}
}

// A top-off of lime water waits while the pH is high or not known, and goes on by itself.
func TestTopOffOfLimeWater(t *testing.T) {
	s := settingsOfRig()
	s.PHMost, s.SalinityBand, s.Second, s.EmptySwitch, s.LeakSwitch = 8.4, 0, 0, false, false
	top, r := NewTopOff(s)
	require.True(t, r.OK())
	top.Acknowledge()
	now := Clock(0)
	step := func(ph Reading, n int) (pump bool) {
		for range n {
			now += 10000
			pump = top.Step(now, TopOffInput{Level: Known(-8), PH: ph}).Pump
		}
		return pump
	}
	assert.True(t, step(Known(8.3), 9))
	assert.False(t, step(Known(8.4), 1))
	assert.True(t, top.Alarms().Has(PHHigh))
	assert.True(t, step(Known(8.3), 9))
	assert.False(t, step(Reading{8.3, Suspect, Stuck}, 1))
	assert.True(t, top.Alarms().Has(PHDoubtful))
	assert.False(t, step(Known(math.NaN()), 20))
}

// After one turnover of the chamber 1/e is left (Levenspiel 1999).
func TestTimeApart(t *testing.T) {
	assert.InDelta(t, 3600, TimeApart(50, 50, units.Share(1/math.E)).Seconds(), 1e-6)
	assert.InDelta(t, 60*math.Log(100), TimeApart(50, 3000, units.Percent(1)).Seconds(), 1e-6)
	for _, x := range []float64{0, 1, -1, math.NaN()} {
		assert.Negative(t, TimeApart(50, 50, units.Share(x)))
	}
	assert.Negative(t, TimeApart(50, 0, units.Percent(1)))
}

func TestInterlock(t *testing.T) {
	for a := Kind(0); a <= allKinds; a++ {
		for b := Kind(0); b <= allKinds; b++ {
			require.Equal(t, a.Precipitates(b), b.Precipitates(a), "%b %b", a, b)
		}
	}
	assert.True(t, Alkalinity.Precipitates(Calcium|Magnesium))
	assert.True(t, Lime.Precipitates(Alkalinity))
	assert.False(t, Calcium.Precipitates(Magnesium))
	assert.False(t, Other.Precipitates(allKinds))
	l := Interlock{Apart: time.Minute}
	now := Clock(0)
	pass := func(n int) {
		for range n {
			now += 5000
			l.Step(now, 10*time.Second)
		}
	}
	pass(12)
	assert.False(t, l.May(Alkalinity), "after a start all count as just dosed")
	pass(1)
	assert.True(t, l.May(Alkalinity))
	l.Dosing(Alkalinity)
	assert.False(t, l.May(Other), "one at a time")
	pass(13)
	assert.False(t, l.May(Calcium), "the pump may have gone on for a watchdog")
	assert.True(t, l.May(Alkalinity))
	pass(1)
	assert.True(t, l.May(Calcium))
	var zero Interlock
	assert.False(t, zero.May(Alkalinity))
}

// Dosed is what the day asks for, in doses, whatever the steps; and after a power cut of a
// day nothing is caught up.
func TestDoserKeepsToItsDay(t *testing.T) {
	for _, every := range []Clock{1000, 7300, 15000} {
		d, r := NewDoser(doserOfRig())
		require.True(t, r.OK())
		assert.False(t, d.Step(1, DoserInput{PH: Known(8), Circulating: true}, &Interlock{Apart: time.Hour}).Pump)
		d.ChangeContainer(1, Alkalinity)
		d.Acknowledge()
		l := Interlock{Apart: time.Minute}
		now, dosed := Clock(1), 0.0
		day := func(ph Reading, circulating bool) {
			dosed = 0
			for ran := Clock(0); ran < 86400000; ran += every {
				now += every
				l.Step(now, watchdog)
				x := d.Step(now, DoserInput{PH: ph, Circulating: circulating}, &l)
				if x.Pump {
					dosed += doseFlow * min(x.For, time.Duration(every)*time.Millisecond).Hours()
				}
			}
		}
		day(Known(8), true)
		day(Known(8), true)
		assert.InDelta(t, 0.05, dosed, 0.0021, "every %d ms", every)
		assert.InDelta(t, d.Dosed().Litres(), dosed, 0.0045)
		day(Known(8.7), true)
		assert.Zero(t, dosed, "pH")
		assert.True(t, d.Alarms().Has(PHHigh))
		day(Reading{8, Suspect, Stuck}, true)
		assert.Zero(t, dosed, "pH doubtful")
		day(Known(8), false)
		assert.Zero(t, dosed, "standing water")
		day(Known(8), true)
		assert.InDelta(t, 0.051, dosed, 0.0021, "no more than one dose is caught up")
		assert.InDelta(t, 1-0.15, d.Left().Litres(), 0.01)
		d.ChangeContainer(0.001, Calcium)
		assert.Equal(t, Alkalinity|Calcium, d.Kind(), "the tube still holds the other")
		day(Known(8), true)
		assert.Zero(t, dosed)
		assert.True(t, d.Alarms().Has(ContainerEmpty))
		d.ChangeContainer(0.5, Calcium)
		day(Known(8), true)
		assert.Zero(t, dosed, "until a person acknowledges")
		d.Acknowledge()
		day(Known(8), true)
		assert.Greater(t, dosed, 0.04)
		assert.Equal(t, Alkalinity, d.Kind(), "the tube is flushed")
	}
	s := doserOfRig()
	assert.Equal(t, 1.0, s.WorstCase(PumpStuckOn).Litres())
	assert.InDelta(t, 0.09*(1+0.2/3), s.WorstCase(LevelStuck).Litres(), 1e-12)
}

// Two pumps, whatever they do: what comes of it stays within the bound that was named.
func TestExchangeStaysWithinItsBound(t *testing.T) {
	for name, c := range map[string]struct {
		out, in  float64 // true flow by nominal
		matched  bool
		level    bool
		wantDone bool
	}{
		"as measured":           {1, 1, false, true, true},
		"one uncertainty each":  {1 + 1/60., 1 - 1/60., false, true, true},
		"two of them":           {1 + 2/60., 1 - 2/60., false, true, false},
		"without a level":       {1 - 2/60., 1 + 2/60., false, false, true},
		"matched":               {1.01, 1, true, true, true},
		"drain stands":          {0, 1, false, true, false},
		"no new water":          {1, 0, false, true, false},
		"matched, drain stands": {0, 1, true, true, false},
	} {
		s := exchangeOfTest()
		s.Matched = c.matched
		if !c.level {
			s.Area = 0
		}
		x, r := NewExchange(s)
		require.True(t, r.OK(), name)
		x.Acknowledge()
		x.Begin()
		now, out, in, done := Clock(0), 0.0, 0.0, false
		for range 2000 {
			now += 2000
			level := Known((in-out)/0.12 + 0.5*math.Sin(float64(now)))
			p := x.Step(now, ExchangeInput{Level: level, High: Clear, NewWater: Clear, Drain: Clear, Leak: Clear})
			assert.LessOrEqual(t, p.For, s.Watchdog)
			if p.Out {
				out += 60 * c.out * 2 / 3600
			}
			if p.In {
				in += 60 * c.in * 2 / 3600
			}
			done = done || p.Done
		}
		assert.Equal(t, c.wantDone, done, name)
		off := math.Abs(in - out)
		bound := s.Imbalance().Litres()
		if !c.wantDone {
			bound = s.seen().Litres()
			assert.True(t, x.Alarms().Has(Imbalance), name)
		}
		assert.LessOrEqual(t, off, bound, name)
		low, planned, high := s.Salinities(!c.wantDone)
		assert.InDelta(t, 35, planned.Value(), 1e-6, name)
		end := s.end(units.Volume(out), units.Volume(in)).Value()
		assert.GreaterOrEqual(t, end, low.Value(), name)
		assert.LessOrEqual(t, end, high.Value(), name)
	}
	// By hand: 2 L of 200 L that are drawn too much and filled with fresh water: 35·198/200.
	s := exchangeOfTest()
	assert.InDelta(t, 34.65, s.end(42, 40).Value(), 0.01)
}

func TestExchangeStops(t *testing.T) {
	clear := ExchangeInput{Level: Known(0), High: Clear, NewWater: Clear, Drain: Clear, Leak: Clear}
	for name, change := range map[string]func(*ExchangeInput){
		"high":            func(i *ExchangeInput) { i.High = Tripped },
		"high, not known": func(i *ExchangeInput) { i.High = Unknown },
		"leak":            func(i *ExchangeInput) { i.Leak = Tripped },
		"new water":       func(i *ExchangeInput) { i.NewWater = Tripped },
		"drain":           func(i *ExchangeInput) { i.Drain = Tripped },
		"level":           func(i *ExchangeInput) { i.Level = Reading{} },
	} {
		x, _ := NewExchange(exchangeOfTest())
		x.Begin()
		assert.False(t, x.Step(0, clear).Out, "nothing is known yet")
		x.Acknowledge()
		x.Begin()
		assert.True(t, x.Step(1000, clear).Out, name)
		in := clear
		change(&in)
		p := x.Step(2000, in)
		assert.False(t, p.Out || p.In, name)
		again := x.Step(3000, clear)
		assert.Equal(t, name == "level", again.Out, "%s: all but a doubtful level latch", name)
	}
	x, _ := NewExchange(exchangeOfTest())
	x.Acknowledge()
	x.Begin()
	x.Step(1000, clear)
	x.Step(2000, clear)
	var b [ExchangeState]byte
	x.Save(&b)
	again, _ := NewExchange(exchangeOfTest())
	require.True(t, again.Restore(&b))
	assert.True(t, again.Alarms().Has(ChangeInterrupted))
	again.Begin()
	assert.False(t, again.Step(3000, clear).Out)
	out, in := again.Moved()
	assert.InDelta(t, 1/60., out.Litres(), 1e-9)
	assert.InDelta(t, 1/60., in.Litres(), 1e-9)
	again.Acknowledge()
	again.Begin()
	assert.True(t, again.Step(4000, clear).Out)
	again.Stop()
	assert.False(t, again.Step(5000, clear).Out)
}

func TestTwoPoint(t *testing.T) {
	h := TwoPoint{On: 24.8, Off: 25.2, MinOn: 20 * time.Second, MinOff: 20 * time.Second}
	now := Clock(0)
	step := func(x float64, may bool) bool {
		now += 10000
		return h.Step(now, Known(x), may, 15*time.Second)
	}
	step(24, true)
	assert.False(t, step(24, true), "MinOff after a start")
	assert.True(t, step(24, true))
	assert.True(t, step(25, true))
	assert.True(t, step(25.19, true))
	assert.False(t, step(25.2, true))
	assert.False(t, step(24, true), "MinOff")
	assert.True(t, step(24, true))
	assert.False(t, step(24, false), "at once")
	now += 100000
	assert.False(t, step(24, true), "a gap")
	cool := TwoPoint{On: 26, Off: 25.5}
	assert.False(t, cool.Step(0, Known(25.9), true, time.Hour))
	assert.True(t, cool.Step(1000, Known(26), true, time.Hour))
	assert.True(t, cool.Step(2000, Known(25.6), true, time.Hour))
	assert.False(t, cool.Step(3000, Known(25.5), true, time.Hour))
	cool.Step(4000, Known(27), true, time.Hour)
	assert.False(t, cool.Step(5000, Reading{27, Suspect, Stuck}, true, time.Hour))
	var zero TwoPoint
	assert.False(t, zero.Step(0, Known(0), true, time.Hour))
}

// A cold tank is led at 1 K an hour however strong its heater, a hot one likewise down.
func TestThermostatLeads(t *testing.T) {
	s := UsualThermostat()
	s.Cooler = true
	s.Least, s.Most = units.Celsius(15), units.Celsius(33)
	h, r := NewThermostat(s)
	require.True(t, r.OK())
	now := Clock(0)
	for _, begin := range []float64{20, 30} {
		x := begin
		h.Acknowledge()
		h.ramp.Reset()
		fastest, log := 0.0, make([]float64, 0, 4000)
		for range 8 * 360 {
			now += 10000
			d := h.Step(now, ThermostatInput{Known(x), true})
			require.False(t, d.Heater && d.Cooler)
			if d.Heater {
				x += 4. / 360
			}
			if d.Cooler {
				x -= 4. / 360
			}
			log = append(log, x)
			if n := len(log); n > 360 {
				fastest = max(fastest, math.Abs(x-log[n-361]))
			}
		}
		assert.LessOrEqual(t, fastest, 1+2*0.3, "within the band of what is led")
		assert.InDelta(t, 25, x, 1.3, "from %v", begin)
	}
}

func TestThermostatGuards(t *testing.T) {
	cases := map[string]struct {
		in   ThermostatInput
		code Code
	}{
		"doubtful": {ThermostatInput{Reading{20, Suspect, Stuck}, true}, TemperatureDoubtful},
		"dry":      {ThermostatInput{Known(20), false}, Uncovered},
	}
	for name, c := range cases {
		h, _ := NewThermostat(UsualThermostat())
		h.Acknowledge()
		now := Clock(0)
		for range 60 {
			now += 10000
			h.Step(now, ThermostatInput{Known(24), true})
		}
		require.True(t, h.state > 0, name)
		now += 10000
		d := h.Step(now, c.in)
		assert.Equal(t, Heat{}, d, name)
		assert.True(t, h.Alarms().Has(c.code), name)
	}
	h, _ := NewThermostat(UsualThermostat())
	h.Acknowledge()
	now := Clock(0)
	run := func(hours float64, x func(h float64) float64) (d Heat) {
		for i := range int(hours * 360) {
			now += 10000
			d = h.Step(now, ThermostatInput{Known(x(float64(i) / 360)), true})
		}
		return d
	}
	assert.False(t, run(2.2, func(float64) float64 { return 24 }).Heater, "without effect for two hours")
	assert.True(t, h.Alarms().Has(NoEffect))
	h.Acknowledge()
	run(3, func(float64) float64 { return 25.3 })
	run(4, func(h float64) float64 { return 25.3 + 0.25*h })
	assert.Zero(t, h.Alarms().Len(), "a warm afternoon")
	run(4, func(h float64) float64 { return 25.3 + 0.7*h })
	assert.True(t, h.Alarms().Has(OnItsOwn))
	var b [ThermostatState]byte
	h.Save(&b)
	again, _ := NewThermostat(UsualThermostat())
	require.True(t, again.Restore(&b))
	assert.True(t, again.Alarms().Has(OnItsOwn))
	h.Acknowledge()
	d := run(0.1, func(float64) float64 { return 28.1 })
	assert.False(t, d.Enable)
	assert.True(t, h.Alarms().Has(TooWarm))
	d = run(1, func(float64) float64 { return 23 })
	assert.False(t, d.Heater, "until a person acknowledges")
	h.Acknowledge()
	assert.True(t, run(0.2, func(h float64) float64 { return 23 + h }).Heater)
}

func TestRamp(t *testing.T) {
	r := Ramp{PerHour: 1}
	assert.Equal(t, 20.5, r.Toward(25, 20, 1, 30*time.Minute))
	assert.Equal(t, 21.0, r.Toward(25, 20, 1, 30*time.Minute))
	assert.Equal(t, 21.0, r.Toward(25, 20, 1, 30*time.Minute), "the water lags behind")
	assert.True(t, math.IsNaN(r.Toward(math.NaN(), 20, 1, 0)))
	assert.Equal(t, 29.5, r.Toward(25, 30, 1, 30*time.Minute), "begins anew")
	var zero Ramp
	assert.True(t, math.IsNaN(zero.Toward(25, 20, 1, 0)))
}

func TestNothingAllocates(t *testing.T) {
	r := learned()
	now := Clock(0)
	var text [8]float64
	x, _ := NewExchange(exchangeOfTest())
	x.Begin()
	var median Median
	var smooth Smooth
	for name, f := range map[string]func(){
		"tank":      func() { r.step() },
		"states":    func() { r.save(); r.restore() },
		"worst":     func() { text[0] = float64(r.settings.Worst().Volume) },
		"bounds":    func() { a, _, _ := exchangeOfTest().Salinities(true); text[1] = a.Value() },
		"new":       func() { r.power() },
		"exchange":  func() { now += 1000; x.Step(now, ExchangeInput{Level: Known(0)}) },
		"filters":   func() { median.Add(now, 1); smooth.Add(now, 1) },
		"refused":   func() { NewTopOff(TopOffSettings{}); NewDoser(DoserSettings{}) },
		"worst, no": func() { text[2] = float64(TopOffSettings{}.WorstCase(LevelStuck).Volume) },
	} {
		checks.NoAllocations(t, name, f)
	}
}
