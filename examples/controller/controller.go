package main

import (
	"bufio"
	"bytes"
	"io"
	"strconv"
	"time"

	"example.org/wellmixed/dilution/control"
	"example.org/wellmixed/dilution/control/words"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

// controller is the tank's controller between two lines.
type controller struct {
	level, temperature, conductivity control.Signal
	salinity                         control.Reading
	reason                           control.Reason // of the temperature, beside the conductivity
	top                              control.TopOff
	thermostat                       control.Thermostat
	alkalinity, calcium              control.Doser
	lock                             control.Interlock

	hold  bool
	told  bool // a person said something since the state was written
	line  int  // number of the last line
	saved control.Clock
	file  file
	state [stateSize]byte
	err   error // of the state file
}

// newController returns a controller with the settings of settings.go, or what is wrong with
// them.
func newController() (*controller, string) {
	c := &controller{lock: control.Interlock{Apart: apart()}}
	var refusals [7]control.Refusal
	c.level, refusals[0] = control.NewSignal(levelSensor)
	c.temperature, refusals[1] = control.NewSignal(temperatureSensor)
	c.conductivity, refusals[2] = control.NewSignal(conductivitySensor)
	c.top, refusals[3] = control.NewTopOff(topOff)
	c.thermostat, refusals[4] = control.NewThermostat(heating())
	c.alkalinity, refusals[5] = control.NewDoser(dosing(control.Alkalinity))
	c.calcium, refusals[6] = control.NewDoser(dosing(control.Calcium))
	for i, r := range refusals {
		if !r.OK() {
			part := [...]string{"level", "temperature", "conductivity", "topOff", "heating", "alkalinity", "calcium"}[i]
			return nil, "settings.go: " + part + ": " + string(words.AppendRefusal(nil, r))
		}
	}
	return c, ""
}

// sample is one line of the sensors.
type sample struct {
	now                              control.Clock
	level, temperature, conductivity control.Sample
	second, empty, leak, returnPump  control.Switch
}

// decisions are what is switched until the next line.
type decisions struct {
	top, alkalinity, calcium control.Decision
	heat                     control.Heat
}

// step judges a sample and decides.
func (c *controller) step(s sample) (d decisions) {
	level := c.level.Judge(s.now, s.level)
	conductivity := c.conductivity.Judge(s.now, s.conductivity)
	temperature := c.temperature.Judge(s.now, s.temperature)
	conductivity, temperature = control.InWater(conductivity, temperature, c.conductivity.Accepted())
	c.reason = temperature.Reason
	c.salinity = salinity(conductivity, temperature, c.salinity)

	circulates := s.returnPump == control.Clear
	d.top = c.top.Step(s.now, control.TopOffInput{
		Level: level, Second: s.second, Empty: s.empty, Leak: s.leak, Salinity: c.salinity,
		Hold: c.hold || !circulates,
	})
	d.heat = c.thermostat.Step(s.now, control.ThermostatInput{
		Temperature: temperature,
		Covered:     circulates && level.Quality == control.Good && level.Value > deepest,
	})
	c.lock.Step(s.now, watchdog)
	dose := control.DoserInput{Circulating: circulates, Hold: c.hold}
	d.alkalinity = c.alkalinity.Step(s.now, dose, &c.lock)
	d.calcium = c.calcium.Step(s.now, dose, &c.lock)
	hourly := s.now.Since(c.saved) >= time.Hour || s.now.Since(c.saved) < 0
	news := d.top.Save || d.alkalinity.Save || d.calcium.Save || d.heat.Save ||
		c.level.Unsaved() || c.temperature.Unsaved() || c.conductivity.Unsaved()
	if hourly || news || c.told || c.err != nil {
		c.saved, c.told = s.now, false
		c.err = c.save()
	}
	if c.err != nil { // what is pumped and not written down is not known after a power cut: off, and both relays open
		d.top, d.alkalinity, d.calcium = control.Decision{}, control.Decision{}, control.Decision{}
	}
	return d
}

// salinity is as good as the worse of what it is made of. An answer that is missing holds the
// salinity: of a conductivity and a temperature of two moments none is made.
func salinity(conductivity, temperature, last control.Reading) control.Reading {
	held := conductivity.Reason == control.Held || temperature.Reason == control.Held
	if held && min(last.Quality, conductivity.Quality, temperature.Quality) == control.Good {
		last.Reason = control.Held
		return last
	}
	worse := conductivity
	if temperature.Quality < conductivity.Quality {
		worse = temperature
	}
	s := pss78.Salinity(units.Conductivity(conductivity.Value), units.Celsius(temperature.Value), 0)
	return control.Reading{Value: s.Value(), Quality: worse.Quality, Reason: worse.Reason}
}

// answer takes one line and appends what there is to say about it.
func (c *controller) answer(line, out []byte) []byte {
	c.line++
	out = append(strconv.AppendInt(out, int64(c.line), 10), ": "...)
	line = bytes.TrimSpace(line)
	if s, ok := parse(line); ok {
		return append(c.report(c.step(s), out), '\n')
	}
	if said, ok := c.person(line); ok {
		c.told = true
		return append(append(out, said...), '\n')
	}
	return append(out, "bad line, want a sample such as 120000 -5400 25012 53071 cccc, or acknowledge; -h tells more\n"...)
}

// person does what a person says.
func (c *controller) person(line []byte) (said string, ok bool) {
	word, rest := next(line)
	millilitres, given := number(bytes.TrimSpace(rest))
	volume := units.Volume(millilitres) * units.Millilitre
	amount := given && millilitres >= 0
	switch {
	case amount && string(word) == "refilled":
		c.top.Refilled(volume)
		return "reservoir refilled", true
	case amount && string(word) == "alkalinity":
		c.alkalinity.ChangeContainer(volume, control.Alkalinity)
		return "container of alkalinity changed", true
	case amount && string(word) == "calcium":
		c.calcium.ChangeContainer(volume, control.Calcium)
		return "container of calcium changed", true
	}
	switch string(line) {
	case "acknowledge":
		c.top.Acknowledge()
		c.thermostat.Acknowledge()
		c.alkalinity.Acknowledge()
		c.calcium.Acknowledge()
		return "acknowledged", true
	case "accept level":
		c.level.Accept()
		return "level accepted", true
	case "accept temperature":
		c.temperature.Accept()
		return "temperature accepted", true
	case "accept conductivity":
		c.conductivity.Accept()
		return "conductivity accepted", true
	case "calibrated":
		c.conductivity.Calibrated()
		return "conductivity calibrated", true
	case "hold":
		c.hold = true
		return "held", true
	case "resume":
		c.hold = false
		return "resumed", true
	}
	return "", false
}

// report appends decisions, readings and alarms.
func (c *controller) report(d decisions, out []byte) []byte {
	out = appendPump(out, "pump", d.top)
	switch {
	case d.heat.Heater:
		out = append(out, ", heater on"...)
	case d.heat.Enable:
		out = append(out, ", heater off"...)
	default:
		out = append(out, ", heater cut"...)
	}
	out = appendDose(append(out, ", "...), "alkalinity", d.alkalinity)
	out = appendDose(append(out, ", "...), "calcium", d.calcium)
	out = appendReading(append(out, "; "...), c.salinity, 2, "")
	temperature := c.temperature.Last()
	if temperature.Quality != control.Good {
		temperature.Reason = c.reason
	}
	out = appendReading(append(out, ", "...), temperature, 2, " °C")
	out = appendReading(append(out, ", "...), c.level.Last(), 1, " mm")
	before := len(out)
	out = appendAlarms(out, "top-off", c.top.Alarms())
	out = appendAlarms(out, "heater", c.thermostat.Alarms())
	out = appendAlarms(out, "alkalinity", c.alkalinity.Alarms())
	out = appendAlarms(out, "calcium", c.calcium.Alarms())
	if c.err != nil {
		out = append(out, "; state file: cannot be written, pumps off"...)
	}
	if len(out) > before {
		out[before] = ';'
	}
	return out
}

// appendPump appends "pump on 15000 ms", "pump off", or "pump cut" with the second relay open.
func appendPump(out []byte, name string, d control.Decision) []byte {
	if !d.Enable {
		return append(append(out, name...), " cut"...)
	}
	return appendDose(out, name, d)
}

// appendDose appends the same of a pump without a second relay.
func appendDose(out []byte, name string, d control.Decision) []byte {
	out = append(out, name...)
	if d.Pump {
		out = strconv.AppendInt(append(out, " on "...), d.For.Milliseconds(), 10)
		return append(out, " ms"...)
	}
	return append(out, " off"...)
}

// appendReading appends a value, and why it is not good.
func appendReading(out []byte, r control.Reading, decimals int, unit string) []byte {
	if r.Quality == control.Bad {
		out = append(out, "no reading"...)
	} else {
		out = append(strconv.AppendFloat(out, r.Value, 'f', decimals, 64), unit...)
	}
	if r.Reason != control.Fine {
		out = append(append(append(out, " ("...), words.Reason(r.Reason)...), ')')
	}
	return out
}

// appendAlarms appends the alarms of a part.
func appendAlarms(out []byte, part string, a *control.Alarms) []byte {
	for i := range a.Len() {
		out = append(append(append(out, ", "...), part...), ": "...)
		out = words.AppendAlarm(out, a.At(i))
	}
	return out
}

// parse reads a sample: "120000 -5400 25012 53071 cccc".
func parse(line []byte) (s sample, ok bool) {
	var fields [5][]byte
	for i := range fields {
		fields[i], line = next(line)
	}
	now, ok := number(fields[0])
	if !ok || now < 0 || now > 1<<32-1 || len(fields[4]) != 4 || len(bytes.TrimSpace(line)) > 0 {
		return sample{}, false
	}
	s.now = control.Clock(now)
	for i, to := range [...]*control.Sample{&s.level, &s.temperature, &s.conductivity} {
		text := fields[i+1]
		if string(text) == "-" {
			continue
		}
		n, ok := number(text)
		if !ok || n < -1<<31 || n > 1<<31-1 {
			return sample{}, false
		}
		*to = control.Thousandths(int32(n))
	}
	for i, to := range [...]*control.Switch{&s.second, &s.empty, &s.leak, &s.returnPump} {
		switch fields[4][i] {
		case 'c':
			*to = control.Clear
		case 't':
			*to = control.Tripped
		case '?':
		default:
			return sample{}, false
		}
	}
	return s, true
}

// next cuts off the first word of a line.
func next(line []byte) (word, rest []byte) {
	line = bytes.TrimLeft(line, " \t")
	if gap := bytes.IndexAny(line, " \t"); gap >= 0 {
		return line[:gap], line[gap:]
	}
	return line, nil
}

// number reads a whole number of at most twelve digits.
func number(text []byte) (n int64, ok bool) {
	digits := bytes.TrimPrefix(text, []byte("-"))
	if len(digits) == 0 || len(digits) > 12 {
		return 0, false
	}
	for _, b := range digits {
		if b < '0' || b > '9' {
			return 0, false
		}
		n = n*10 + int64(b-'0')
	}
	if len(digits) < len(text) {
		n = -n
	}
	return n, true
}

// run feeds the controller line by line. It writes whenever no whole line is waiting, so a
// live sensor is answered at once, be the next line begun or not.
func run(in io.Reader, out io.Writer, c *controller) error {
	r, w := bufio.NewReader(in), bufio.NewWriter(out)
	report := make([]byte, 0, 1024)
	for {
		line, err := r.ReadSlice('\n')
		long := err == bufio.ErrBufferFull // no line is: it counts as one bad line
		for err == bufio.ErrBufferFull {
			line, err = r.ReadSlice('\n')
		}
		if long {
			line = nil
		}
		if err == io.EOF && len(line) == 0 && !long {
			return end(w, c)
		}
		if err != nil && err != io.EOF {
			if stopped := end(w, c); stopped != nil {
				return stopped
			}
			return err
		}
		report = c.answer(line, report[:0])
		if _, err := w.Write(report); err != nil {
			return err
		}
		if waiting, _ := r.Peek(r.Buffered()); bytes.IndexByte(waiting, '\n') < 0 {
			if err := w.Flush(); err != nil {
				return err
			}
		}
	}
}

// end writes what is left, and the state.
func end(w *bufio.Writer, c *controller) error {
	saved := c.save()
	if err := w.Flush(); err != nil {
		return err
	}
	return saved
}
