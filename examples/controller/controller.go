package main

import (
	"bufio"
	"bytes"
	"io"
	"strconv"

	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

// limits are what the keeper sets.
type limits struct {
	set        units.PracticalSalinity
	band       float64 // of salinity around the set point before an alarm
	cold, warm units.Temperature
	jump       float64 // of salinity from one sample to the next that no tank makes
	still      int     // samples without a change of any digit before the sensor counts as stuck
}

var usual = limits{
	set: units.Practical(35), band: 1,
	cold: units.Celsius(23), warm: units.Celsius(28),
	jump: 2, still: 60,
}

// alarm is a set of alarms, one bit each.
type alarm uint8

const (
	high alarm = 1 << iota
	low
	cold
	warm
	stuck
	absurd // not water of a tank, or a jump: the sample sets no other alarm
)

var names = [...]string{"salinity high", "salinity low", "too cold", "too warm", "sensor stuck", "sensor absurd"}

// controller is the state between samples.
type controller struct {
	limits
	alarms alarm

	line         int // number of the last line
	conductivity units.Conductivity
	temperature  units.Temperature
	salinity     float64 // of the last sample
	same         int     // how often it was repeated, digit by digit
	strange      int     // jumps in a row
}

// step takes one line and appends what there is to say about it.
func (c *controller) step(line, out []byte) []byte {
	c.line++
	out = strconv.AppendInt(out, int64(c.line), 10)
	conductivity, t, ok := parse(line)
	if !ok {
		return append(out, ": bad line, want conductivity in mS/cm and temperature in °C such as 53.1 25.0\n"...)
	}
	s := pss78.Salinity(conductivity, t, 0)
	c.judge(conductivity, t, s.Value())
	out = append(out, ": "...)
	out = strconv.AppendFloat(out, s.Value(), 'f', 2, 64)
	if drift := s.Value() - c.set.Value(); c.alarms&absurd == 0 {
		out = append(out, " drift "...)
		if drift >= 0 {
			out = append(out, '+')
		}
		out = strconv.AppendFloat(out, drift, 'f', 2, 64)
	}
	for i, name := range names {
		if c.alarms&(1<<i) != 0 {
			out = append(append(out, ", "...), name...)
		}
	}
	return append(out, '\n')
}

// judge sets the alarms. An alarm of a limit ends only well inside it, so that it
// does not flutter.
func (c *controller) judge(conductivity units.Conductivity, t units.Temperature, s float64) {
	jumped := c.salinity > 0 && !(s-c.salinity <= c.jump && c.salinity-s <= c.jump)
	switch {
	case !(s >= 1 && s <= 42 && t.Celsius() >= -2 && t.Celsius() <= 35): // dry, shorted, broken
		c.alarms |= absurd
		c.strange = 0
		return
	case jumped && c.strange < 3: // a jump that lasts is believed
		c.alarms |= absurd
		c.strange++
		return
	}
	c.same++
	if conductivity != c.conductivity || t != c.temperature {
		c.same = 0
	}
	c.conductivity, c.temperature, c.salinity, c.strange = conductivity, t, s, 0
	drift, kelvin := s-c.set.Value(), t.Celsius()
	c.alarms &^= absurd
	c.latch(high, drift, c.band, c.band/2)
	c.latch(low, -drift, c.band, c.band/2)
	c.latch(warm, kelvin, c.warm.Celsius(), c.warm.Celsius()-0.5)
	c.latch(cold, -kelvin, -c.cold.Celsius(), -c.cold.Celsius()-0.5)
	c.latch(stuck, float64(c.same), float64(c.still)-0.5, 0)
}

// latch raises an alarm above one value and ends it at another.
func (c *controller) latch(a alarm, x, raise, end float64) {
	switch {
	case x > raise:
		c.alarms |= a
	case x <= end:
		c.alarms &^= a
	}
}

// parse reads "53.1 25.0".
func parse(line []byte) (units.Conductivity, units.Temperature, bool) {
	line = bytes.TrimSpace(line)
	gap := bytes.IndexAny(line, " \t")
	if gap < 0 {
		return 0, units.Temperature{}, false
	}
	c, ok := number(line[:gap])
	t, fine := number(bytes.TrimSpace(line[gap:]))
	return units.Conductivity(c) * units.MillisiemensPerCentimetre, units.Celsius(t), ok && fine
}

// number reads digits with a sign and a point, and nothing else: what strconv
// takes beyond that, such as NaN, no sensor sends, and its errors cost memory.
func number(text []byte) (float64, bool) {
	digits, points := 0, 0
	for i, b := range text {
		switch {
		case b >= '0' && b <= '9':
			digits++
		case b == '.':
			points++
		case b != '-' && b != '+' || i > 0:
			return 0, false
		}
	}
	if digits == 0 || digits > 20 || points > 1 {
		return 0, false
	}
	x, err := strconv.ParseFloat(string(text), 64)
	return x, err == nil
}

// run feeds the controller line by line. It writes whenever no whole line is
// waiting, so a live sensor is answered at once, be the next line begun or not.
func run(in io.Reader, out io.Writer, l limits) error {
	c := controller{limits: l}
	r, w := bufio.NewReader(in), bufio.NewWriter(out)
	report := make([]byte, 0, 256)
	for {
		line, err := r.ReadSlice('\n')
		long := err == bufio.ErrBufferFull // no sample is: it counts as one bad line
		for err == bufio.ErrBufferFull {
			line, err = r.ReadSlice('\n')
		}
		if long {
			line = nil
		}
		if err == io.EOF && len(line) == 0 && !long {
			return w.Flush()
		}
		if err != nil && err != io.EOF {
			w.Flush()
			return err
		}
		report = c.step(line, report[:0])
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
