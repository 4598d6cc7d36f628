package control

import (
	"math"
	"time"

	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

// fault is one thing that is broken in the simulated tank.
type fault uint8

const (
	levelFrozen fault = iota
	levelJammedLow
	levelJammedHigh
	levelDriftsDown
	levelDriftsUp
	levelJumps
	levelUnplugged
	levelNoisy
	levelSwapped // with the temperature
	secondNever
	secondAlways
	probeAFrozen
	probeAJammed
	probeADriftsDown
	probeADriftsUp
	probeAJumps
	probeAUnplugged
	probeBDriftsDown
	probesInAir
	conductivityFrozen
	conductivityDriftsDown
	conductivityDriftsUp
	conductivityJumps
	conductivityUnplugged
	conductivityCrept // salt or bubbles: a tenth less, within an hour
	pumpStuckOn
	pumpStuckOff
	pumpWeak
	pumpDry // the reservoir is empty and its switch says nothing of it
	siphon
	leaking
	returnPumpStops // and nobody says so: the sump rises
	reservoirSalty
	heaterStuckOn
	heaterStuckOff
	doserStuckOn
	doserStuckOff
	powerCutSaved
	powerCutLost
	brownOut // cut every seven minutes, state saved
	clockForward
	clockBack
	clockStands
	clockSlow
	clockFast
	hung
	levelFlickers // jammed low, and doubtful every two minutes
	probesInAirCut
	conductivityBiased
	stateReplayed
	coolerStuckOn
	coolerStuckOff

	faultsHere
)

var faultNames = [faultsHere]string{
	"level: frozen", "level: jammed low", "level: jammed high", "level: drifts down 1 mm/h", "level: drifts up 1 mm/h",
	"level: jumps by -60 mm", "level: unplugged", "level: noise tenfold", "level and temperature swapped",
	"second level: never trips", "second level: always tripped",
	"probe A: frozen", "probe A: jammed at 24.7, with noise", "probe A: drifts down 0.1 K/h", "probe A: drifts up 0.1 K/h",
	"probe A: jumps by -4 K", "probe A: unplugged", "probe B: drifts down 0.1 K/h", "probes hang in air",
	"conductivity: frozen", "conductivity: drifts down 1 %/d", "conductivity: drifts up 1 %/d", "conductivity: jumps to 70 %",
	"conductivity: unplugged", "conductivity: 10 % less in an hour",
	"top-off pump: stuck on", "top-off pump: stuck off", "top-off pump: half its flow", "reservoir empty, switch silent",
	"siphon, 3 L/h", "leak, 1 L/h", "return pump stops, unnoticed", "reservoir filled with salt water",
	"heater: stuck on", "heater: stuck off", "doser: stuck on", "doser: stuck off",
	"power cut of 3 h, state saved", "power cut of 3 h, state lost", "power cut every 7 min",
	"clock: 1 h forward", "clock: 1 h back", "clock: stands", "clock: half speed", "clock: double speed", "controller hangs",
	"level: jammed low, doubtful by times", "probes hang in air since a power cut", "conductivity: 1.5 % more, in its band",
	"power cut every 2 h, one old state", "cooler: stuck on", "cooler: stuck off",
}

const (
	simStep  = 10.0 // s
	watchdog = 15 * time.Second
	flow     = 20.0 // L/h
	doseFlow = 3.0  // L/h
	heater   = 200. // W
	cooler   = 150. // W
	loss     = 8.0  // W/K
	leakRate = 1.0  // L/h
	siphons  = 3.0  // L/h
)

// settingsOfRig are an invented tank: 200 L, its sump of 0.12 m², 20 L of reservoir.
func settingsOfRig() TopOffSettings {
	return TopOffSettings{
		Watchdog: watchdog,
		Tank:     200 * units.Litre, Area: 0.12, Headroom: 15 * units.Litre,
		Salinity: units.Practical(35), Temperature: units.Celsius(25),
		Reservoir: 20 * units.Litre, Flow: flow, FlowUncertainty: 0.5,
		Band: 5 * units.Millimetre, Notice: 3 * units.Millimetre,
		MaxRun: 4 * time.Minute, DayCap: 8 * units.Litre,
		Second: 25 * units.Millimetre, SalinityBand: 1,
		EmptySwitch: true, LeakSwitch: true, SecondRelay: true,
	}
}

func thermostatOfRig() ThermostatSettings {
	s := UsualThermostat()
	s.Watchdog = watchdog
	return s
}

func doserOfRig() DoserSettings {
	return DoserSettings{
		Watchdog: watchdog, Kind: Alkalinity, PerDay: 0.05, Each: 0.002, DayCap: 0.09, Flow: doseFlow, FlowUncertainty: 0.1,
		Container: 1, Line: 0.01, PHMost: 8.6,
	}
}

// rig is a tank with its controller. Everything in it is a plain value: a copy is another
// tank in the same state.
type rig struct {
	// the tank
	settings           TopOffSettings
	litres, salt, temp float64
	reservoir, resSalt float64
	spilled, dosed     float64
	container          float64
	seconds            float64 // since the begin
	faultAt            float64
	broken             uint64
	frozen             [4]float64
	seed               uint64
	evaporation        float64 // L/d, of this day
	oneProbe           bool
	supplied           float64 // L that could come from the reservoir
	cooled             bool    // there is a cooler
	room               float64 // °C above that of the year
	dt                 float64 // s between samples
	at                 [faultsHere]float64

	// its electronics
	pump, heat, cut, heatCut, dose bool
	cool, coolCut                  bool
	pumpFor, doseFor               float64 // s
	clock                          float64 // ms
	off                            float64 // s until power is back
	hold                           bool

	// the two pumps of a change
	change               Exchange
	changes              bool
	out, in              bool
	changeFor            float64
	changeCut            bool
	drawFault, fillFault int8 // 1 sticks on, -1 stands
	drawn, filled        float64

	// the controller
	level, probeA, probeB, cond Signal
	top                         TopOff
	thermo                      Thermostat
	doser                       Doser
	second                      Doser // of calcium
	lock                        Interlock
	savedTop, oldTop            [TopOffState]byte
	savedDoser, savedSecond     [DoserState]byte
	savedThermo                 [ThermostatState]byte
	savedSignals                [4][SignalState]byte

	// what is watched
	salinity            Reading
	mostLitres, least   float64
	lowS, highS         float64
	lowT, highT         float64
	pumped              dayTotal // truly, by the pump that was told to
	mostPumped          float64
	dosedDay            dayTotal
	mostDosed           float64
	lastDose, lastOther float64
	nearest             float64 // s between what precipitates
	together            bool
	saves               int
	found               Code
	foundPart           byte
	foundAt, foundS     float64
}

func (r *rig) has(f fault) bool { return r.broken>>f&1 == 1 }

// since returns the hours of a fault.
func (r *rig) since(f fault) float64 { return (r.seconds - r.at[f]) / 3600 }

// random returns a number from a normal distribution, near enough: the sum of four.
func (r *rig) random() float64 {
	sum := 0.0
	for range 4 {
		r.seed ^= r.seed << 13
		r.seed ^= r.seed >> 7
		r.seed ^= r.seed << 17
		sum += float64(r.seed>>11)/(1<<53) - 0.5
	}
	return sum * math.Sqrt(3)
}

func digits(x, step float64) float64 { return math.Round(x/step) * step }

// newRig returns a tank at its level, with a controller that a person has started.
func newRig(seed uint64) *rig {
	r := &rig{settings: settingsOfRig(), seed: seed*0x9E3779B97F4A7C15 | 1, evaporation: 3, clock: 1<<32 - 3600e3, dt: simStep}
	r.litres, r.temp, r.reservoir, r.container = 200, 24.9, 20, 1
	r.salt = 35 * r.litres
	r.power()
	r.top.Acknowledge()
	r.thermo.Acknowledge()
	r.top.Refilled(20)
	r.doser.Acknowledge()
	r.doser.ChangeContainer(1, Alkalinity)
	r.second.Acknowledge()
	r.second.ChangeContainer(1, Calcium)
	r.save()
	r.goOn(0.1)
	r.watchAnew()
	return r
}

// power makes the controller as after a start.
func (r *rig) power() {
	must := func(x Refusal) {
		if !x.OK() {
			panic(x.Setting)
		}
	}
	var x Refusal
	temp := Channel{Min: -1, Max: 45, PerHour: 4, Noise: 0.02, Step: 0.01, Spike: time.Minute, Settle: 30 * time.Second,
		Gap: 30 * time.Second, Still: StillTime(0.01, 0.02, 10*time.Second, 0)}
	r.probeA, x = NewSignal(temp)
	must(x)
	r.probeB, _ = NewSignal(temp)
	r.level, x = NewSignal(Channel{Min: -150, Max: 150, PerHour: 400, Noise: 0.4, Step: 0.1, Spike: time.Minute,
		Settle: 30 * time.Second, Gap: 30 * time.Second, Still: StillTime(0.1, 0.4, 10*time.Second, 0)})
	must(x)
	r.cond, x = NewSignal(Channel{Min: 1, Max: 80, PerHour: 6, Noise: 0.03, Step: 0.01, Spike: time.Minute,
		Settle: 30 * time.Second, Gap: 30 * time.Second, Still: StillTime(0.01, 0.03, 10*time.Second, 0)})
	must(x)
	r.top, x = NewTopOff(r.settings)
	must(x)
	heating := thermostatOfRig()
	heating.Cooler = r.cooled
	r.thermo, x = NewThermostat(heating)
	must(x)
	r.doser, x = NewDoser(doserOfRig())
	must(x)
	other := doserOfRig()
	other.Kind, other.PHMost = Calcium, 0
	r.second, x = NewDoser(other)
	must(x)
	r.lock = Interlock{Apart: 20 * time.Minute}
	r.outputsOff()
}

// outputsOff is what the watchdog does, or a power cut.
func (r *rig) outputsOff() {
	r.pump, r.heat, r.cut, r.heatCut, r.dose, r.cool, r.coolCut = false, false, true, true, false, false, true
}

func (r *rig) save() {
	r.saves++
	r.top.Save(&r.savedTop)
	r.doser.Save(&r.savedDoser)
	r.second.Save(&r.savedSecond)
	r.thermo.Save(&r.savedThermo)
	for i, g := range r.signals() {
		g.Save(&r.savedSignals[i])
	}
}

func (r *rig) signals() [4]*Signal { return [4]*Signal{&r.level, &r.probeA, &r.probeB, &r.cond} }

func (r *rig) restore() {
	if r.has(stateReplayed) {
		r.savedTop = r.oldTop
	}
	r.top.Restore(&r.savedTop)
	r.doser.Restore(&r.savedDoser)
	r.second.Restore(&r.savedSecond)
	r.thermo.Restore(&r.savedThermo)
	for i, g := range r.signals() {
		g.Restore(&r.savedSignals[i])
	}
}

func (r *rig) watchAnew() {
	r.mostLitres, r.least, r.spilled = r.litres, r.litres, 0
	s := r.salt / r.litres
	r.lowS, r.highS, r.lowT, r.highT = s, s, r.temp, r.temp
	r.found, r.foundAt, r.nearest = NoAlarm, 0, math.Inf(1)
	r.dosed, r.mostDosed, r.mostPumped = 0, 0, 0
	r.lastDose, r.lastOther = -1e9, -1e9
}

// breaks begins a fault now.
func (r *rig) breaks(faults ...fault) {
	r.faultAt = r.seconds
	r.broken, r.supplied = 0, r.reservoir
	r.frozen = [4]float64{r.level.Last().Value, r.probeA.Last().Value, 0, r.cond.Last().Value}
	for _, f := range faults {
		r.also(f)
	}
	r.watchAnew()
}

// also begins one more.
func (r *rig) also(f fault) {
	r.broken |= 1 << f
	r.at[f] = r.seconds
	switch f {
	case reservoirSalty:
		r.supplied += 20 - r.reservoir
		r.reservoir, r.resSalt = 20, 35
	case pumpDry:
		r.reservoir = 0
	case clockForward:
		r.clock += 3600e3
	case clockBack:
		r.clock -= 3600e3
	case powerCutSaved, powerCutLost, probesInAirCut:
		r.off = 3 * 3600
	case stateReplayed:
		r.oldTop = r.savedTop
	}
}

// mended ends all faults.
func (r *rig) mended() { r.broken = 0 }

// physics lets the tank go on for a step.
func (r *rig) physics(dt float64) {
	h := dt / 3600
	lost := min(r.evaporation*h/24, r.litres)
	r.litres -= lost
	if r.has(leaking) {
		r.salt -= leakRate * h * r.salt / r.litres
		r.litres -= leakRate * h
	}
	told := 0.0
	if r.pump && !r.has(pumpStuckOff) {
		told = min(dt, r.pumpFor)
	}
	rate := flow
	if r.has(pumpWeak) {
		rate /= 2
	}
	r.pumped.pass(time.Duration(dt * float64(time.Second)))
	r.pumped.add(told / 3600 * rate)
	r.mostPumped = max(r.mostPumped, r.pumped.sum())
	v := told / 3600 * rate
	if r.has(pumpStuckOn) && !r.cut {
		v = h * rate
	}
	if r.has(siphon) && v == 0 {
		v = siphons * h
	}
	v = min(v, r.reservoir)
	r.reservoir -= v
	r.litres += v
	r.salt += v * r.resSalt
	r.doses(dt, h)
	r.swaps(dt)
	if over := r.litres - 200 - r.settings.Headroom.Litres(); over > 0 {
		r.salt -= over * r.salt / r.litres
		r.litres -= over
		r.spilled += over
	}
	watts := 0.0
	if r.heat && !r.has(heaterStuckOff) || r.has(heaterStuckOn) && !r.heatCut {
		watts = heater
	}
	if r.cool && !r.has(coolerStuckOff) || r.has(coolerStuckOn) && !r.coolCut {
		watts -= cooler
	}
	room := r.room + 20 + 2*math.Sin(2*math.Pi*r.seconds/86400) + 3*math.Sin(2*math.Pi*r.seconds/86400/365)
	r.temp += (watts - loss*(r.temp-room)) * dt / (r.litres * 1.023 * 3990)
}

// swaps moves what the pumps of a change do.
func (r *rig) swaps(dt float64) {
	if !r.changes {
		return
	}
	moved := func(on bool, fault int8) float64 {
		ran := 0.0
		if on && fault >= 0 {
			ran = min(dt, r.changeFor)
		}
		if fault > 0 && !r.changeCut {
			ran = dt
		}
		return ran / 3600 * 60
	}
	out, in := moved(r.out, r.drawFault), moved(r.in, r.fillFault)
	r.salt += 35*in - out*r.salt/r.litres
	r.litres += in - out
	r.drawn += out
	r.filled += in
}

func (r *rig) doses(dt, h float64) {
	told := 0.0
	if r.dose && !r.has(doserStuckOff) {
		told = min(dt, r.doseFor)
	}
	if r.has(doserStuckOn) {
		told = dt
	}
	v := min(told/3600*doseFlow, r.container)
	r.container -= v
	r.dosed += v
	r.dosedDay.pass(time.Duration(dt * float64(time.Second)))
	r.dosedDay.add(v)
	r.mostDosed = max(r.mostDosed, r.dosedDay.sum())
}

// sense samples the sensors.
func (r *rig) sense(now Clock) (level, temp Reading) {
	at := digits((r.litres-200)/0.12+0.4*r.random(), 0.1)
	if r.has(returnPumpStops) {
		at += 20
	}
	noise := r.random()
	a, b := digits(r.temp+0.02*r.random(), 0.01), digits(r.temp+0.02*r.random(), 0.01)
	c := pss78.Conductivity(units.Practical(r.salt/r.litres), units.Celsius(r.temp), 0).MillisiemensPerCentimetre()
	c = digits(c+0.03*r.random(), 0.01)
	lOK, aOK, cOK := true, true, true
	if r.broken != 0 {
		at, lOK = r.brokenLevel(at, noise)
		a, aOK = r.brokenProbe(a, noise)
		c, cOK = r.brokenConductivity(c)
		if r.has(probeBDriftsDown) {
			b -= 0.1 * r.since(probeBDriftsDown)
		}
		if r.has(probesInAir) || r.has(probesInAirCut) {
			b = digits(20+0.02*r.random(), 0.01)
		}
		if r.has(levelSwapped) {
			at, a = a, at
		}
	}
	level = r.level.Judge(now, Sample{at, lOK})
	first := r.probeA.Judge(now, Sample{a, aOK})
	other := r.probeB.Judge(now, Sample{b, true})
	cond := r.cond.Judge(now, Sample{c, cOK})
	temp = Agree([3]Opinion{{first, 0.1, true}, {other, 0.1, !r.oneProbe}}).Reading
	if r.oneProbe {
		other = first
	}
	q := min(cond.Quality, other.Quality)
	r.salinity = Reading{pss78.Salinity(units.Conductivity(cond.Value), units.Celsius(other.Value), 0).Value(), q, cond.Reason}
	return level, temp
}

func (r *rig) brokenLevel(x, noise float64) (float64, bool) {
	switch {
	case r.has(levelFrozen):
		return r.frozen[0], true
	case r.has(levelJammedLow):
		return digits(-6+0.4*noise, 0.1), true
	case r.has(levelJammedHigh):
		return digits(1+0.4*noise, 0.1), true
	case r.has(levelDriftsDown):
		return digits(x-r.since(levelDriftsDown), 0.1), true
	case r.has(levelDriftsUp):
		return digits(x+r.since(levelDriftsUp), 0.1), true
	case r.has(levelJumps):
		return x - 60, true
	case r.has(levelNoisy):
		return digits(x+4*noise, 0.1), true
	}
	if r.has(levelFlickers) {
		if math.Mod(r.seconds, 120) < r.dt {
			return -60, true
		}
		return digits(-6+0.4*noise, 0.1), true
	}
	return x, !r.has(levelUnplugged)
}

func (r *rig) brokenProbe(x, noise float64) (float64, bool) {
	switch {
	case r.has(probeAFrozen):
		return r.frozen[1], true
	case r.has(probeAJammed):
		return digits(24.7+0.02*noise, 0.01), true
	case r.has(probeADriftsDown):
		return digits(x-0.1*r.since(probeADriftsDown), 0.01), true
	case r.has(probeADriftsUp):
		return digits(x+0.1*r.since(probeADriftsUp), 0.01), true
	case r.has(probeAJumps):
		return x - 4, true
	case r.has(probesInAir) || r.has(probesInAirCut):
		return digits(20+0.02*noise, 0.01), true
	}
	return x, !r.has(probeAUnplugged)
}

func (r *rig) brokenConductivity(x float64) (float64, bool) {
	switch {
	case r.has(conductivityFrozen):
		return r.frozen[3], true
	case r.has(conductivityDriftsDown):
		return digits(x*(1-0.01*r.since(conductivityDriftsDown)/24), 0.01), true
	case r.has(conductivityDriftsUp):
		return digits(x*(1+0.01*r.since(conductivityDriftsUp)/24), 0.01), true
	case r.has(conductivityJumps):
		return digits(x*0.7, 0.01), true
	case r.has(conductivityCrept):
		return digits(x*(1-0.1*min(r.since(conductivityCrept), 1)), 0.01), true
	case r.has(conductivityBiased):
		return digits(x*(1+0.015*min(r.since(conductivityBiased)/3, 1)), 0.01), true
	case r.has(probesInAir) || r.has(probesInAirCut):
		return 0.02, true
	}
	return x, !r.has(conductivityUnplugged)
}

// time lets the controller's clock run, and tells whether the controller runs.
func (r *rig) time(dt float64) bool {
	if r.has(brownOut) && math.Mod(r.seconds-r.at[brownOut], 420) < dt && r.off <= 0 {
		r.off = 20
	}
	if r.has(stateReplayed) && math.Mod(r.seconds-r.at[stateReplayed], 7200) < dt && r.off <= 0 {
		r.off = 20
	}
	if r.off > 0 {
		r.outputsOff()
		if r.off -= dt; r.off > 0 {
			return false
		}
		r.power()
		r.clock = 0
		if !r.has(powerCutLost) {
			r.restore()
		}
	}
	speed := 1.0
	switch {
	case r.has(clockStands):
		speed = 0
	case r.has(clockSlow):
		speed = 0.5
	case r.has(clockFast):
		speed = 2
	}
	r.clock += 1000 * dt * speed
	if r.has(hung) { // the outputs stay as they were until the watchdog
		if r.seconds-r.at[hung] > watchdog.Seconds() {
			r.outputsOff()
		}
		return false
	}
	return true
}

// step lets the tank and its controller go on for a step.
func (r *rig) step() {
	dt := r.dt
	r.physics(dt)
	r.seconds += dt
	if int(r.seconds)%86400 < int(dt) {
		year := 1 + 0.25*math.Sin(2*math.Pi*r.seconds/86400/365)
		r.evaporation = 3 * year * (1 + 0.15*r.random())
	}
	if r.time(dt) {
		r.control()
	}
	r.watch()
}

func (r *rig) control() {
	now := Clock(uint64(int64(r.clock)) & math.MaxUint32)
	level, temp := r.sense(now)
	height := (r.litres - 200) / 0.12
	in := TopOffInput{Level: level, Second: Clear, Empty: Clear, Leak: Clear, Salinity: r.salinity, Hold: r.hold}
	if height > 25 && !r.has(secondNever) || r.has(secondAlways) {
		in.Second = Tripped
	}
	if r.reservoir < 0.5 && !r.has(pumpDry) {
		in.Empty = Tripped
	}
	if r.spilled > 0 {
		in.Leak = Tripped
	}
	if r.changes {
		p := r.change.Step(now, ExchangeInput{Level: level, High: in.Second, NewWater: Clear, Drain: Clear, Leak: in.Leak})
		r.out, r.in, r.changeFor, r.changeCut = p.Out, p.In, p.For.Seconds(), !p.Enable
		r.hold, in.Hold = p.Enable, p.Enable // until the level is seen to stand
	}
	d := r.top.Step(now, in)
	h := r.thermo.Step(now, ThermostatInput{Temperature: temp, Covered: level.Quality == Good && level.Value > -40})
	r.lock.Step(now, watchdog)
	ph := Known(8.1 + 0.15*math.Sin(2*math.Pi*r.seconds/86400))
	one := r.doser.Step(now, DoserInput{PH: ph, Circulating: true, Hold: r.hold}, &r.lock)
	two := r.second.Step(now, DoserInput{Circulating: true, Hold: r.hold}, &r.lock)
	hourly := int(r.seconds)%3600 < int(r.dt)
	if hourly || d.Save {
		r.saves++
		r.top.Save(&r.savedTop)
	}
	if hourly || one.Save {
		r.saves++
		r.doser.Save(&r.savedDoser)
	}
	if hourly || two.Save {
		r.saves++
		r.second.Save(&r.savedSecond)
	}
	if hourly || h.Save {
		r.saves++
		r.thermo.Save(&r.savedThermo)
	}
	for i, g := range r.signals() {
		if hourly || g.Unsaved() {
			g.Save(&r.savedSignals[i])
		}
	}
	r.pump, r.pumpFor, r.cut = d.Pump, d.For.Seconds(), !d.Enable
	r.heat, r.heatCut, r.cool, r.coolCut = h.Heater, !h.Enable, h.Cooler, !h.EnableCooler
	r.together = r.together || h.Heater && h.Cooler || one.Pump && two.Pump
	r.dose, r.doseFor = one.Pump, one.For.Seconds()
	if one.Pump {
		r.lastDose = r.seconds
		r.nearest = min(r.nearest, r.seconds-r.lastOther)
	}
	if two.Pump {
		r.lastOther = r.seconds
		r.nearest = min(r.nearest, r.seconds-r.lastDose)
	}
}

// watch keeps the extremes, and the first alarm that says something.
func (r *rig) watch() {
	s := r.salt / r.litres
	r.lowS, r.highS = min(r.lowS, s), max(r.highS, s)
	r.lowT, r.highT = min(r.lowT, r.temp), max(r.highT, r.temp)
	r.mostLitres, r.least = max(r.mostLitres, r.litres+r.spilled), min(r.least, r.litres)
	if r.found != NoAlarm {
		return
	}
	for part, a := range [...]*Alarms{&r.top.alarms, &r.thermo.alarms, &r.doser.alarms, &r.second.alarms} {
		for i := range a.Len() {
			if c := a.At(i).Code; c != Waiting && c != PHHigh && c != DosedLess {
				r.found, r.foundAt, r.foundPart, r.foundS = c, r.seconds-r.faultAt, byte(part), s
				return
			}
		}
	}
}

// goOn lets it go on for so many hours.
func (r *rig) goOn(hours float64) {
	for end := r.seconds + hours*3600; r.seconds < end; {
		r.step()
	}
}

// person refills the reservoir and the containers once a week, as a keeper does, and changes
// water of about the same salinity and temperature.
func (r *rig) person() {
	r.reservoir = 20
	r.top.Refilled(20)
	r.container = 1
	r.doser.ChangeContainer(1, Alkalinity)
	r.second.ChangeContainer(1, Calcium)
	r.hold = true
	r.goOn(0.25)
	r.salt -= 20 * r.salt / r.litres
	r.salt += 20 * (35 + 0.1*r.random())
	r.temp += 0.1 * 0.5 * r.random()
	r.goOn(0.25)
	r.hold = false
}
