package control

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// FuzzController feeds arbitrary samples, switches, times, acknowledgements, power cuts and
// damaged states to all parts at once. At every step: no panic, never heater and cooler,
// never two dosing pumps, no additive too soon after one that it precipitates with, no pump
// beyond its cap in any 24 h of the clock, none with an alarm that latched, none longer than
// the watchdog, and none without a reading that is good.
func FuzzController(f *testing.F) {
	f.Add([]byte("0123456789abcdefghijklmnopqrstuvwxyz"), false)
	f.Add(soundScript(), true)
	f.Add(soundScript(), false)
	f.Fuzz(func(t *testing.T, script []byte, honest bool) {
		r := fuzzRig{t: t, honest: honest}
		r.start()
		r.play(script[:min(len(script), 2000)])
	})
}

// play turns ten bytes each into up to 1024 steps of one kind.
func (r *fuzzRig) play(script []byte) {
	for ; len(script) >= 10; script = script[10:] {
		for range 1 << min(script[9]&15, 10) {
			r.step(script)
		}
	}
}

// soundScript is a controller that a person starts, with low water, acknowledges and fills.
func soundScript() (script []byte) {
	for i, key := range []byte{0, 4 << 2, 5 << 2, 1 << 2, 2 << 2, 3 << 2, 6 << 2, 0, 0, 0} {
		script = append(script, 160, 200, 120, 122, 128, 0, key|1, 0x15, 0, byte(i))
	}
	return script
}

// fuzzRig is a controller without a tank.
type fuzzRig struct {
	t      *testing.T
	honest bool // readings are known, not judged
	now    Clock

	level, temp, salt Signal
	top               TopOff
	thermo            Thermostat
	one, two          Doser
	lock              Interlock
	change            Exchange
	state             [TopOffState]byte
	changeState       [ExchangeState]byte
	doserState        [DoserState]byte

	told          [3]time.Duration // of top-off and dosers
	pumped        [3][]pumping
	sum           [3]float64
	ran           [3]int        // steps
	time          time.Duration // by the clock, as far as it goes on
	lastOne, last time.Duration // that the doser ran
}

type pumping struct {
	at     time.Duration
	litres float64
}

func (r *fuzzRig) start() {
	heat := thermostatOfRig()
	heat.Cooler = true
	other := doserOfRig()
	other.Kind, other.PHMost = Calcium, 0
	r.level, _ = NewSignal(Channel{Min: -150, Max: 150, PerHour: 4000, Noise: 2, Step: 0.1, Gap: 30 * time.Second})
	r.temp, _ = NewSignal(Channel{Min: -1, Max: 45, PerHour: 400, Noise: 2, Step: 0.01, Gap: 30 * time.Second})
	r.salt, _ = NewSignal(Channel{Min: 1, Max: 45, PerHour: 400, Noise: 2, Step: 0.01, Gap: 30 * time.Second})
	r.top, _ = NewTopOff(settingsOfRig())
	r.thermo, _ = NewThermostat(heat)
	r.one, _ = NewDoser(doserOfRig())
	r.two, _ = NewDoser(other)
	r.change, _ = NewExchange(exchangeOfTest())
	r.lock = Interlock{Apart: 20 * time.Minute}
	r.lastOne, r.last = -day, -day
	r.told = [3]time.Duration{}
}

// reading makes a reading of two bytes, or any float.
func (r *fuzzRig) reading(now Clock, g *Signal, hi, lo byte, middle, scale float64) Reading {
	x := middle + (float64(hi)-128)*scale + float64(lo)*scale/256
	s := Sample{x, true}
	switch {
	case hi == 255:
		s.Value = math.Float64frombits(binary.LittleEndian.Uint64([]byte{hi, lo, lo, hi, lo, hi, 0xF0 | lo, 0x7F | hi}))
	case hi == 254:
		s.OK = false
	}
	if r.honest {
		if hi == 255 { // a firmware that says so of anything
			return Reading{Value: s.Value, Quality: Good}
		}
		return Known(s.Value)
	}
	return g.Judge(now, s)
}

func (r *fuzzRig) step(b []byte) {
	before := r.now
	switch b[0] >> 4 {
	case 15:
		r.now += Clock(b[0]&15) << 27
	case 14:
		r.now -= Clock(b[1]) * 1000
	case 13:
	case 12:
		r.powerCut(b)
		return
	default:
		r.now += Clock(b[0])*60 + 1
	}
	d := r.now.Since(before)
	if d > 0 && d <= watchdog {
		r.time += d
	}
	r.charge(d)
	in := TopOffInput{
		Level:  r.reading(r.now, &r.level, b[2], b[1], 0, 1),
		Second: Switch(b[7] & 3), Empty: Switch(b[7] >> 2 & 3), Leak: Switch(b[7] >> 4 & 3),
		Salinity: r.reading(r.now, &r.salt, b[4], b[1], 35, 0.05), Hold: b[8]&0x0F == 15,
	}
	temp := r.reading(r.now, &r.temp, b[3], b[1], 25, 0.1)
	r.person(b)
	d1 := r.top.Step(r.now, in)
	h := r.thermo.Step(r.now, ThermostatInput{temp, b[8]&0x10 == 0})
	r.lock.Step(r.now, watchdog)
	ph := Known(8 + float64(b[5])/100)
	d2 := r.one.Step(r.now, DoserInput{PH: ph, Circulating: b[8]&0x20 == 0}, &r.lock)
	d3 := r.two.Step(r.now, DoserInput{Circulating: b[8]&0x40 == 0}, &r.lock)
	p := r.change.Step(r.now, ExchangeInput{Level: in.Level, High: in.Second, NewWater: Switch(b[6] & 3), Drain: Clear, Leak: in.Leak})
	r.invariants(in, temp, d1, h, [2]Decision{d2, d3}, p)
	r.told = [3]time.Duration{d1.For, d2.For, d3.For}
	if d1.Save {
		r.top.Save(&r.state)
	}
	if d2.Save {
		r.one.Save(&r.doserState)
	}
	if p.Save {
		r.change.Save(&r.changeState)
	}
}

// charge counts what the pumps have brought since the step before, as long as they were told
// and the watchdog let them.
func (r *fuzzRig) charge(d time.Duration) {
	flows := [3]units.Flow{flow, doseFlow, doseFlow}
	for i, told := range r.told {
		ran := min(told, watchdog)
		if d > 0 {
			ran = min(ran, d)
		}
		if ran > 0 {
			v := flows[i].Volume(ran).Litres()
			r.pumped[i], r.sum[i] = append(r.pumped[i], pumping{r.time, v}), r.sum[i]+v
		}
	}
	r.told = [3]time.Duration{}
}

// person presses keys.
func (r *fuzzRig) person(b []byte) {
	switch b[6] >> 2 {
	case 1:
		r.top.Acknowledge()
	case 2:
		r.one.Acknowledge()
		r.two.Acknowledge()
	case 3:
		r.thermo.Acknowledge()
		r.change.Acknowledge()
	case 4:
		r.top.Refilled(units.Volume(b[1]))
	case 5:
		r.one.ChangeContainer(units.Volume(b[1])/100, Kind(b[2]))
		r.two.ChangeContainer(units.Volume(b[1])/100, Kind(b[2]))
	case 6:
		r.change.Begin()
	case 7:
		r.level.Accept()
		r.temp.Calibrated()
	}
}

// powerCut starts the controller again, from the state that was saved last or a damaged one.
func (r *fuzzRig) powerCut(b []byte) {
	r.charge(-1) // for as long as it may have been on
	pumped, passed, lastOne, last := r.pumped, r.time, r.lastOne, r.last
	top, one, two := r.state, r.doserState, [DoserState]byte{}
	r.two.Save(&two)
	r.start()
	r.pumped, r.time, r.lastOne, r.last = pumped, passed, lastOne, last
	r.now = Clock(binary.LittleEndian.Uint32(b[1:]))
	if b[5]&1 == 1 {
		damaged := top
		damaged[int(b[6])%len(damaged)] ^= b[7] | 1
		r.must(!r.top.Restore(&damaged), "a damaged state is taken")
	}
	r.top.Restore(&top)
	r.one.Restore(&one)
	r.two.Restore(&two)
	r.change.Restore(&r.changeState)
	r.state, r.doserState = top, one
}

func (r *fuzzRig) must(holds bool, what string) {
	if !holds {
		r.t.Helper()
		r.t.Fatal(what)
	}
}

func (r *fuzzRig) invariants(in TopOffInput, temp Reading, d Decision, h Heat, doses [2]Decision, p Pumps) {
	r.must(!h.Heater || !h.Cooler, "heater and cooler")
	r.must(!doses[0].Pump || !doses[1].Pump, "two dosing pumps")
	r.must(!h.Heater && !h.Cooler || temp.good(), "heated without a good temperature")
	r.must(!h.Heater || h.Enable, "heater on and cut")
	r.must(!h.Cooler || h.EnableCooler, "cooler on and cut")
	r.must(!d.Pump || d.Enable, "pump on and cut")
	r.must(!p.Out && !p.In || p.Enable, "a change on and cut")
	for _, x := range [...]Decision{d, doses[0], doses[1]} {
		r.must(x.Pump == (x.For > 0) && x.For <= watchdog, "a run that is not told, or beyond the watchdog")
	}
	if d.Pump {
		r.must(in.Level.good() && in.Salinity.good(), "pump on with a doubtful reading")
		r.must(in.Second == Clear && in.Leak == Clear && in.Empty == Clear && !in.Hold, "pump on against a switch")
		r.must(in.Level.Value < 0 && r.top.alarms.Len() == 0, "pump on above the level or with an alarm")
		r.ran[0]++
	}
	if p.Out || p.In {
		r.must(r.change.alarms.Len() == 0 && in.Level.good(), "a change with an alarm")
	}
	for i, most := range [...]float64{settingsOfRig().DayCap.Litres(), doserOfRig().DayCap.Litres(), doserOfRig().DayCap.Litres()} {
		for len(r.pumped[i]) > 0 && r.pumped[i][0].at < r.time-day {
			r.sum[i] -= r.pumped[i][0].litres
			r.pumped[i] = r.pumped[i][1:]
		}
		r.must(r.sum[i] <= most+1e-9, "a pump beyond its cap")
	}
	if doses[0].Pump {
		r.must(r.time-r.last >= 20*time.Minute, "alkalinity too soon after calcium")
		r.lastOne = r.time
		r.ran[1]++
	}
	if doses[1].Pump {
		r.must(r.time-r.lastOne >= 20*time.Minute, "calcium too soon after alkalinity")
		r.last = r.time
		r.ran[2]++
	}
}

// What the fuzz target begins with makes every pump run: the invariants are not of a
// controller that is off.
func TestFuzzTargetPumps(t *testing.T) {
	r := fuzzRig{t: t, honest: true}
	r.start()
	r.play(soundScript())
	for i, n := range r.ran {
		require.Positive(t, n, "pump %d", i)
	}
}

// The same invariants under random scripts, most of which begin with a controller that runs.
func TestRandomScripts(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 8))
	var ran [3]int
	for i := range checks.Runs(60, 1) {
		r := fuzzRig{t: t, honest: i%3 > 0}
		r.start()
		r.play(soundScript()[:100-10*(i%4)])
		script := make([]byte, 400)
		for j := range script {
			switch script[j] = byte(random.Uint32()); j % 10 {
			case 0: // mostly a clock that runs
				if random.IntN(4) > 0 {
					script[j] = byte(50 + random.IntN(140))
				}
			case 7, 8: // mostly sound switches
				if random.IntN(4) > 0 {
					script[j] = [2]byte{0x15, 0}[j%10-7]
				}
			case 2, 3, 4: // mostly sound readings
				if random.IntN(4) > 0 {
					script[j] = byte(110 + random.IntN(30))
				}
			}
		}
		r.play(script)
		for k, n := range r.ran {
			ran[k] += n
		}
	}
	t.Logf("steps with pumps on: %v", ran)
}
