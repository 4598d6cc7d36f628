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

// What firmware would do wrong in good faith: each of these passed once.

func clearTopOff(level float64) TopOffInput {
	return TopOffInput{Level: Known(level), Second: Clear, Empty: Clear, Leak: Clear, Salinity: Known(35)}
}

func startedTopOff(t *testing.T, s TopOffSettings) TopOff {
	top, r := NewTopOff(s)
	require.True(t, r.OK(), "%+v", r)
	top.Acknowledge()
	return top
}

func startedDoser(t *testing.T, s DoserSettings) Doser {
	d, r := NewDoser(s)
	require.True(t, r.OK(), "%+v", r)
	d.Acknowledge()
	d.ChangeContainer(s.Container, s.Kind)
	return d
}

func startedThermostat(t *testing.T) Thermostat {
	h, r := NewThermostat(thermostatOfRig())
	require.True(t, r.OK())
	h.Acknowledge()
	return h
}

// The zero value of every decision opens the second relay.
func TestZeroDecisionIsCut(t *testing.T) {
	assert.False(t, Decision{}.Enable || Heat{}.Enable || Heat{}.EnableCooler || Pumps{}.Enable)
	refused, r := NewTopOff(TopOffSettings{SecondRelay: true})
	assert.False(t, r.OK())
	assert.Equal(t, Decision{}, refused.Step(1, clearTopOff(-6)))
	d := startedDoser(t, doserOfRig())
	assert.False(t, d.Step(0, DoserInput{PH: Known(8), Circulating: true}, &Interlock{Apart: time.Hour}).Enable, "of a doser only while it doses")
}

// A latch outlasts a power cut if nothing but Save is obeyed, in every part; so does what a
// person says.
func TestSavesEveryLatch(t *testing.T) {
	top := startedTopOff(t, settingsOfRig())
	now := Clock(0)
	for range 5 {
		now += 5000
		top.Step(now, clearTopOff(-1))
	}
	in := clearTopOff(-1)
	in.Leak = Tripped
	require.False(t, top.Step(now+1000, clearTopOff(-1)).Save)
	require.True(t, top.Step(now+2000, in).Save, "a new latch")
	require.False(t, top.Step(now+3000, in).Save, "once")
	top.Acknowledge()
	require.True(t, top.Step(now+4000, clearTopOff(-1)).Save, "acknowledged")
	require.False(t, top.Step(now+5000, clearTopOff(-1)).Save)
	top.Refilled(10)
	require.True(t, top.Step(now+6000, clearTopOff(-1)).Save, "refilled")

	h := startedThermostat(t)
	require.True(t, h.Step(0, ThermostatInput{Known(25), true}).Save, "acknowledged")
	require.False(t, h.Step(1000, ThermostatInput{Known(25), true}).Save)
	require.True(t, h.Step(2000, ThermostatInput{Known(29), true}).Save)

	d := startedDoser(t, doserOfRig())
	l := Interlock{Apart: time.Hour}
	d.Step(0, DoserInput{}, &l)
	require.False(t, d.Step(1000, DoserInput{}, &l).Save)
	d.ChangeContainer(1, Calcium)
	require.True(t, d.Step(2000, DoserInput{}, &l).Save)

	g, _ := NewSignal(Channel{Min: 0, Max: 45, PerHour: 4, Gap: time.Minute, Calibrate: day})
	require.False(t, g.Unsaved())
	var b [SignalState]byte
	for _, change := range []func(){func() { g.Judge(0, Sample{25, true}) }, g.Calibrated, g.Accept} {
		change()
		require.True(t, g.Unsaved())
		g.Save(&b)
		require.False(t, g.Unsaved())
	}
}

// A pump that sticks on, with power that fails every hour and a state written only when it is asked for.
func TestStuckPumpAndPowerCuts(t *testing.T) {
	s := settingsOfRig()
	s.Second, s.SalinityBand = 0, 0
	top := startedTopOff(t, s)
	var state [TopOffState]byte
	now, level, most, cut := Clock(0), -6.0, 0.0, true
	for range 6 {
		for range 360 {
			now += 10000
			d := top.Step(now, clearTopOff(level))
			if d.Save {
				top.Save(&state)
			}
			if cut = !d.Enable; !cut && (d.Pump || top.Pumped() > 0) { // from its first run on it sticks
				level += flow * 10 / 3600 / 0.12
			}
			most = max(most, level*0.12)
		}
		top, _ = NewTopOff(s)
		require.True(t, top.Restore(&state))
	}
	assert.Greater(t, most, 0.1)
	assert.LessOrEqual(t, most, s.WorstCase(PumpStuckOn).Volume.Litres())
}

// Whoever has latches does not know them without a state.
func TestLostStateWaits(t *testing.T) {
	h, _ := NewThermostat(thermostatOfRig())
	now := Clock(0)
	for range 100 {
		now += 10000
		d := h.Step(now, ThermostatInput{Known(23), true})
		require.False(t, d.Heater || d.Enable)
	}
	assert.True(t, h.Alarms().Has(StateLost))
	x, _ := NewExchange(exchangeOfTest())
	assert.True(t, x.Alarms().Has(StateLost))
	x.Begin()
	p := x.Step(1, ExchangeInput{Level: Known(0), High: Clear, NewWater: Clear, Drain: Clear, Leak: Clear})
	assert.False(t, p.Out || p.In || p.Enable)
}

func temperatureOfRig() Channel {
	return Channel{Min: -1, Max: 45, PerHour: 4, Noise: 0.02, Step: 0.01, Spike: time.Minute, Settle: 30 * time.Second,
		Gap: 30 * time.Second, Still: StillTime(0.01, 0.02, 10*time.Second, 0)}
}

// A probe that hangs in air over a power cut is not believed at its first reading; one in
// the water is.
func TestProbeInAirOverPowerCut(t *testing.T) {
	for _, x := range []struct {
		after float64
		good  bool
	}{{24.5, true}, {20, false}} {
		g, _ := NewSignal(temperatureOfRig())
		var noise rig
		noise.seed = 5
		now := Clock(0)
		for range 20 {
			now += 5000
			g.Judge(now, Sample{digits(25+0.02*noise.random(), 0.01), true})
		}
		var b [SignalState]byte
		g.Save(&b)
		g, _ = NewSignal(temperatureOfRig())
		require.True(t, g.Restore(&b))
		good := false
		for range 2000 {
			now += 5000
			good = good || g.Judge(now, Sample{digits(x.after+0.02*noise.random(), 0.01), true}).Quality == Good
		}
		assert.Equal(t, x.good, good, "%v °C", x.after)
		g.Accept()
		for range 20 {
			now += 5000
			good = g.Judge(now, Sample{digits(x.after+0.02*noise.random(), 0.01), true}).Quality == Good
		}
		assert.True(t, good, "accepted")
	}
}

// A heater is not on for longer than twice Response, nor below Least for longer than it, while
// a room that warms moves the probe now and then.
func TestHeaterTires(t *testing.T) {
	for _, begin := range []float64{20, 23} {
		h, now, on := startedThermostat(t), Clock(0), 0.0
		for i := range 24 * 360 {
			now += 10000
			if h.Step(now, ThermostatInput{Known(begin + 0.06*float64(i)/360), true}).Heater {
				on += 10. / 3600
			}
		}
		limit := 2.0
		if begin > 22 {
			limit = 4
		}
		assert.InDelta(t, limit, on, 0.01, "from %v °C", begin)
		assert.True(t, h.Alarms().Has(NoEffect))
	}
}

// PerHour holds at any rate of sampling: a ramp that is faster is not good for longer than
// the noise hides it.
func TestRampsAreHeldAgainstAMark(t *testing.T) {
	for _, every := range []time.Duration{10 * time.Millisecond, 100 * time.Millisecond, time.Second, 10 * time.Second} {
		for _, perHour := range []float64{20, 60, 180} {
			g, _ := NewSignal(temperatureOfRig())
			var noise rig
			noise.seed = 99
			now, x := Clock(0), 25.0
			step := Clock(every / time.Millisecond)
			for range int(time.Minute/every) + 20 {
				now += step
				g.Judge(now, Sample{digits(x+0.02*noise.random(), 0.01), true})
			}
			believed := x
			for x > 24 {
				now += step
				x -= perHour * every.Hours()
				if g.Judge(now, Sample{digits(x+0.02*noise.random(), 0.01), true}).Quality == Good {
					believed = x
				}
			}
			assert.Greater(t, believed, 24.2, "every %v, %v K/h", every, perHour)
		}
	}
}

// A level that is doubtful now and then, or a hold, begins no run and no reference anew.
func TestDoubtsDoNotPassTheWorstCase(t *testing.T) {
	s := settingsOfRig()
	s.Second, s.SalinityBand = 0, 0
	for name, doubt := range map[string]func(i int, in *TopOffInput){
		"none":             func(int, *TopOffInput) {},
		"sample of twelve": func(i int, in *TopOffInput) { in.Level.Quality -= Quality(b2i(i%12 == 0)) },
		"sample of six":    func(i int, in *TopOffInput) { in.Level.Quality -= Quality(b2i(i%6 == 0)) },
		"hold every 6 min": func(i int, in *TopOffInput) { in.Hold = i%36 < 3 },
		"hold every hour":  func(i int, in *TopOffInput) { in.Hold = i%360 < 30 },
	} {
		for _, f := range []Fault{LevelStuck, PumpStuckOn} {
			top := startedTopOff(t, s)
			var noise rig
			noise.seed = 3
			now, litres, stuck, most := Clock(0), -6*0.12, false, 0.0
			for i := range checks.Runs(4*8640, 4320) {
				now += 10000
				level := -6.0
				if f == PumpStuckOn {
					level = litres / 0.12
				}
				in := clearTopOff(level + 0.3*noise.random())
				doubt(i, &in)
				d := top.Step(now, in)
				stuck = stuck || f == PumpStuckOn && d.Pump
				if d.Pump || stuck && d.Enable {
					litres += flow * 10 / 3600
				}
				if f == LevelStuck {
					most = litres + 6*0.12
				} else {
					most = max(most, litres)
				}
			}
			assert.Greater(t, most, 0.0, "%s: it runs", name)
			assert.LessOrEqual(t, most, s.WorstCase(f).Volume.Litres()+0.05, "%s, fault %d", name, f)
		}
	}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// The reading of the level is a guard of its own.
func TestReadingSaysTooHigh(t *testing.T) {
	s := settingsOfRig()
	for _, second := range []units.Length{25, 0} {
		s.Second = second
		top := startedTopOff(t, s)
		top.Step(1000, clearTopOff(3))
		assert.Zero(t, top.Alarms().Len())
		top.Step(2000, clearTopOff(100))
		assert.True(t, top.Alarms().Has(HighLevel))
	}
}

func clearExchange(level float64) ExchangeInput {
	return ExchangeInput{Level: Known(level), High: Clear, NewWater: Clear, Drain: Clear, Leak: Clear}
}

// A pump that does not stop at the end of a change is seen and cut, within StuckOn.
func TestExchangeWatchesItsEnd(t *testing.T) {
	for name, rate := range map[string]float64{"none": 0, "draws": -60, "fills": 60} {
		s := exchangeOfTest()
		s.SecondRelay = true
		x, _ := NewExchange(s)
		x.Acknowledge()
		x.Begin()
		now, off, most, done := Clock(0), 0.0, 0.0, false
		var p Pumps
		for range 2000 {
			now += 5000
			p = x.Step(now, clearExchange(off/0.12))
			if done = done || p.Done; done && p.Enable {
				off += rate * 5 / 3600
			}
			most = max(most, math.Abs(off))
		}
		assert.True(t, done)
		assert.False(t, p.Enable, "%s: open at the end", name)
		assert.Equal(t, rate != 0, x.Alarms().Has(Imbalance), name)
		assert.LessOrEqual(t, most, s.StuckOn().Litres(), name)
		in := clearExchange(0)
		in.Leak, in.High = Tripped, Tripped
		x.Step(now+1000, in)
		assert.True(t, x.Alarms().Has(Leak) && x.Alarms().Has(HighLevel), "the switches are looked at always")
	}
	s := exchangeOfTest()
	assert.Equal(t, s.Tank, s.StuckOn(), "without a second relay")
	s.Tank = 0
	assert.True(t, math.IsNaN(s.StuckOn().Litres()))
}

func TestSettingsThatCannotWork(t *testing.T) {
	x := exchangeOfTest()
	x.Matched = true
	assert.True(t, x.Check().OK())
	x.In, x.InUncertainty = x.Out/2, 0.1
	assert.Equal(t, SetIn, x.Check().Setting, "matched pumps of two flows")
	s := settingsOfRig()
	s.Band = 1
	assert.Equal(t, SetBand, s.Check().Setting, "a run that is not seen to rise")
	s.Switched = true
	assert.True(t, s.Check().OK(), "of a switch no rise is seen")
	s = settingsOfRig()
	s.Second = 2
	assert.Equal(t, SetSecond, s.Check().Setting, "below the notice")
	s.Second = 126
	assert.Equal(t, SetSecond, s.Check().Setting, "above the rim")
	d := doserOfRig()
	d.Kind = Alkalinity | Calcium
	assert.Equal(t, SetKind, d.Check().Setting, "in one bottle")
	d = doserOfRig()
	d.Container = 0.005
	assert.Equal(t, SetContainer, d.Check().Setting)
	h := thermostatOfRig()
	h.MinOn = time.Hour
	assert.Equal(t, SetMinOn, h.Check().Setting)
}

// Apart counts from when the pump must have stopped, and is more than a watchdog.
func TestApartCountsFromTheEnd(t *testing.T) {
	a := doserOfRig()
	a.PHMost, a.Flow, a.FlowUncertainty, a.PerDay, a.DayCap = 0, 0.1, 0.001, 0.2, 0.5
	b := a
	b.Kind = Calcium
	for _, apart := range []time.Duration{watchdog, watchdog + 1, 332 * time.Second} {
		one, two, l := startedDoser(t, a), startedDoser(t, b), Interlock{Apart: apart}
		nearest, ends := time.Duration(math.MaxInt64), [2]time.Duration{-day, -day}
		runs := 0
		for i := range 5760 {
			at := time.Duration(i) * watchdog
			now := Clock(at.Milliseconds())
			l.Step(now, watchdog)
			d := [2]Decision{one.Step(now, DoserInput{Circulating: true}, &l), two.Step(now, DoserInput{Circulating: true}, &l)}
			for k := range d {
				if d[k].Pump {
					nearest, ends[k] = min(nearest, at-ends[1-k]), at+d[k].For
					runs++
				}
			}
		}
		if apart == watchdog {
			assert.Zero(t, runs)
			continue
		}
		assert.Positive(t, runs)
		assert.GreaterOrEqual(t, nearest, apart)
	}
}

// A dose by hand ends one that runs and precipitates with it, and no other.
func TestDoseByHandEndsARun(t *testing.T) {
	for hand, goesOn := range map[Kind]bool{Calcium: false, Lime: false, Alkalinity: true, Other: true} {
		s := doserOfRig()
		s.PHMost, s.Flow, s.FlowUncertainty = 0, 0.1, 0.001
		d, l, now := startedDoser(t, s), Interlock{Apart: 20 * time.Minute}, Clock(0)
		step := func() Decision {
			now += 5000
			l.Step(now, watchdog)
			return d.Step(now, DoserInput{Circulating: true}, &l)
		}
		for !step().Pump {
		}
		l.Dosing(hand)
		assert.Equal(t, goesOn, step().Pump, "%b", hand)
	}
}

// What is no number is not good, whoever says so.
func TestNoNumberIsNotGood(t *testing.T) {
	nan := Reading{math.NaN(), Good, Fine}
	top, now := startedTopOff(t, settingsOfRig()), Clock(0)
	for range 20 {
		now += 5000
		top.Step(now, clearTopOff(-6))
	}
	require.True(t, top.Step(now+1000, clearTopOff(-6)).Pump)
	in := clearTopOff(0)
	in.Level = nan
	assert.False(t, top.Step(now+2000, in).Pump)
	in = clearTopOff(-6)
	in.Salinity = nan
	for i := range Clock(30) {
		assert.False(t, top.Step(now+3000+5000*i, in).Pump)
	}
	p := TwoPoint{On: 24.8, Off: 25.2}
	p.Step(0, Known(24), true, time.Minute)
	require.True(t, p.Step(1000, Known(24), true, time.Minute))
	assert.False(t, p.Step(2000, nan, true, time.Minute))
	assert.Equal(t, Bad, Agree([3]Opinion{{nan, 0.1, true}}).Quality)
	for _, u := range []float64{1e-200, 1e-160, 1e160, 1e200} {
		assert.Equal(t, Bad, Agree([3]Opinion{{Known(25), u, true}}).Quality, "u %v", u)
		assert.Equal(t, Bad, Agree([3]Opinion{{Known(25), u, true}, {Known(19), u, true}}).Quality, "u %v", u)
	}
	b := SaltBalance{Uncertainty: 0.1}
	b.Begin(units.Practical(35), 200)
	b.Add(units.Volume(math.NaN()), units.Practical(0))
	assert.Equal(t, Drifted, b.Judge(Known(35)).Reason, "a balance that came to no number says nothing good")
}

// The volume of a level that reads ever lower counts from the upper edge of the band: with
// 35.9 in the tank the guard lets in more than with 35. By hand: masses of 36 and 34.
func TestWorstCaseFromTheEdge(t *testing.T) {
	s := settingsOfRig()
	s.Second, s.DayCap, s.Reservoir = 0, 20, 100
	w := s.WorstCase(LevelFalls)
	wd := 2 * 20 * 15 / 3600. * 1.05
	assert.InDelta(t, 200*1.0241/0.99705*(36/34.-1)+wd, w.Volume.Litres(), 0.02)
	assert.InDelta(t, 34, w.To.Value(), 0.05)
	s.SalinityUncertainty = 0.1
	assert.InDelta(t, 200*1.0243/0.99705*(36.2/33.8-1)+wd, s.WorstCase(LevelFalls).Volume.Litres(), 0.02)
	assert.InDelta(t, 33.8, s.WorstCase(LevelFalls).To.Value(), 0.05)
}

// What runs over takes salt with it. A tank that is stirred while 500 L come in, step by step.
func TestSpillDilutes(t *testing.T) {
	s := settingsOfRig()
	for _, reservoir := range []float64{20, 100, 500} {
		s.Reservoir = units.Volume(reservoir)
		litres, salt := 200.0, 7000.0
		for range int(reservoir * 100) {
			litres += 0.01
			if litres > 215 {
				salt -= salt / litres * (litres - 215)
				litres = 215
			}
		}
		w := s.WorstCase(Siphon)
		assert.InDelta(t, salt/litres, w.To.Value(), 0.07, "by mass and by volume, %v L", reservoir)
		assert.InDelta(t, reservoir-15, w.Spill.Litres(), 1e-9)
	}
	// The guard of the salinity stops at last, be the brim reached before: 30 to 24 with a band of 3.
	s.Salinity, s.SalinityBand, s.Headroom, s.Second = units.Practical(27), 3, 15, 0
	v := s.until(30, 24)
	assert.InDelta(t, 24, s.diluted(30, units.Volume(v)).Value(), 0.15)
	assert.LessOrEqual(t, s.diluted(30, units.Volume(v)).Value(), 24.0)
}

// The smallest cap that Check lets pass trips on no sound day.
func TestSmallestCapOfADoser(t *testing.T) {
	s := DoserSettings{Watchdog: time.Second, Kind: Alkalinity, PerDay: 0.1, Each: 0.001, Flow: 3, FlowUncertainty: 0.1, Container: 5}
	r := s.Check()
	require.Equal(t, SetDayCap, r.Setting)
	s.DayCap = units.Volume(r.Least)
	d, l := startedDoser(t, s), Interlock{Apart: time.Minute}
	for i := range checks.Runs(3*86400, 26*3600) {
		now := Clock(i * 1000)
		l.Step(now, s.Watchdog)
		d.Step(now, DoserInput{Circulating: true}, &l)
		require.False(t, d.Alarms().Has(DayCap), "after %d s", i)
	}
}

// A state belongs to its part.
func TestStateOfAnotherPart(t *testing.T) {
	a, b := doserOfRig(), doserOfRig()
	b.Kind = Calcium
	one, _ := NewDoser(a)
	var state [DoserState]byte
	one.Save(&state)
	two, _ := NewDoser(b)
	assert.False(t, two.Restore(&state), "of calcium")
	b = a
	b.Flow *= 1.1
	two, _ = NewDoser(b)
	assert.False(t, two.Restore(&state), "of another flow")
	two, _ = NewDoser(a)
	assert.True(t, two.Restore(&state))
	s := settingsOfRig()
	top, _ := NewTopOff(s)
	var of [TopOffState]byte
	top.Save(&of)
	s.Area = 0.2
	other, _ := NewTopOff(s)
	assert.False(t, other.Restore(&of), "of another tank")
	balance := SaltBalance{Uncertainty: 0.1}
	balance.Begin(units.Practical(35), 200)
	balance.Evaporate(4)
	var kept [BalanceState]byte
	balance.Save(&kept)
	again := SaltBalance{Uncertainty: 0.1}
	require.True(t, again.Restore(&kept))
	assert.Equal(t, balance, again)
	kept[9] ^= 1
	assert.False(t, again.Restore(&kept))
}

// A doubtful temperature every few minutes does not keep the heater off.
func TestDoubtsDoNotFreezeTheTank(t *testing.T) {
	for _, every := range []int{0, 60, 30} { // steps of 10 s
		h, tank := startedThermostat(t), 25.0
		for i := range 2 * 8640 {
			x := Known(tank)
			if every > 0 && i%every == 0 {
				x.Quality, x.Reason = Suspect, Jumped
			}
			watts := 0.0
			if h.Step(Clock(i*10000), ThermostatInput{x, true}).Heater {
				watts = 300
			}
			tank += (watts - 8*(tank-18)) * 10 / (200 * 1.023 * 3990)
		}
		assert.InDelta(t, 25, tank, 0.5, "every %d steps", every)
	}
}

// A day in which doses were broken off or kept back says so, and stops nothing.
func TestDosedLess(t *testing.T) {
	d, l, now := startedDoser(t, doserOfRig()), Interlock{Apart: time.Minute}, Clock(0)
	dosed := 0
	days := func(n float64, ph float64) {
		for range int(n * 8640) {
			now += 10000
			l.Step(now, watchdog)
			if d.Step(now, DoserInput{PH: Known(ph), Circulating: true}, &l).Pump {
				dosed++
			}
		}
	}
	days(1.1, 8)
	assert.False(t, d.Alarms().Has(DosedLess))
	days(0.5, 8.7)
	days(0.5, 8)
	require.True(t, d.Alarms().Has(DosedLess))
	a := d.Alarms().find(DosedLess)
	assert.InDelta(t, 0.025, a.Value, 0.003)
	assert.InDelta(t, 0.05, a.Limit, 1e-12)
	before := dosed
	days(1, 8)
	assert.Greater(t, dosed, before)
	assert.False(t, d.Alarms().Has(DosedLess), "until a day was whole")
}

// The count of the reservoir stops the pump as its switch does, if a person has told it.
func TestReservoirByCount(t *testing.T) {
	s := settingsOfRig()
	s.EmptySwitch = false
	top := startedTopOff(t, s)
	top.Refilled(0.2)
	level := -6.0
	for i := range Clock(200) {
		if top.Step(i*5000, clearTopOff(level)).Pump {
			level += 0.23
		}
	}
	assert.True(t, top.Alarms().Has(ReservoirEmpty))
	assert.LessOrEqual(t, top.Pumped().Litres(), 0.2)
	assert.Positive(t, top.Left().Litres())
}

// A pause every day is no reason not to learn; one of half a day is.
func TestLearnsWithPauses(t *testing.T) {
	for hoursHeld, want := range map[int]bool{1: true, 12: false} {
		var e evaporation
		for range 10 {
			for h := range 24 {
				e.pumped += 3. / 24
				e.pass(time.Hour, h >= hoursHeld, false)
			}
		}
		_, _, known := e.perDay()
		assert.Equal(t, want, known, "%d h", hoursHeld)
	}
}

// Of one step beyond, each of these says the value that passed its limit.
func TestAlarmsSayWhatPassed(t *testing.T) {
	x, _ := NewExchange(exchangeOfTest())
	x.Acknowledge()
	x.Begin()
	in := clearExchange(0)
	in.Drain = Tripped
	x.Step(0, in)
	assert.True(t, x.Alarms().Has(DrainFull))
	assert.False(t, x.Alarms().Has(Imbalance))
	s := settingsOfRig()
	s.Switched = true
	top := startedTopOff(t, s)
	for i := range Clock(80) {
		top.Step(i*5000, clearTopOff(-6))
	}
	a := top.Alarms().find(LongRun)
	require.NotNil(t, a)
	assert.Greater(t, a.Value, a.Limit)
	top = startedTopOff(t, settingsOfRig())
	for i := range Clock(80) {
		top.Step(i*5000, clearTopOff(-6))
	}
	a = top.Alarms().find(NotRising)
	require.NotNil(t, a)
	assert.Equal(t, 3.0, a.Limit, "mm of rise")
	assert.Less(t, a.Value, a.Limit)
}
