package main

import (
	"errors"
	"io/fs"
	"os"

	"example.org/wellmixed/dilution/control"
)

// The states of all parts in one file, each with its own version and check word.
const (
	topOffAt       = 0
	thermostatAt   = topOffAt + control.TopOffState
	alkalinityAt   = thermostatAt + control.ThermostatState
	calciumAt      = alkalinityAt + control.DoserState
	levelAt        = calciumAt + control.DoserState
	temperatureAt  = levelAt + control.SignalState
	conductivityAt = temperatureAt + control.SignalState
	holdAt         = conductivityAt + control.SignalState
	stateSize      = holdAt + len(nobody)
)

// nobody is written while nobody works at the tank: whatever else stands there means hold.
const nobody = "free"

// file is where the state is kept: on a disk, or in the tests in memory.
type file interface {
	Write(state []byte) error
}

// disk keeps the state in a file. Each is written beside it and takes its place when it is
// whole, so that a power cut leaves the old or the new one.
type disk string

func (d disk) Write(state []byte) error {
	beside := string(d) + ".new"
	f, err := os.OpenFile(beside, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(state)
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return err
	}
	return os.Rename(beside, string(d))
}

// load takes the state from a file, if there is one. What is damaged starts as if it had
// never been there, and says so by its alarm; a file that cannot be read is an error.
func (c *controller) load(name string) error {
	if name == "" {
		return nil
	}
	c.file = disk(name)
	b, err := os.ReadFile(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case len(b) == stateSize:
		copy(c.state[:], b)
		c.restore()
	}
	return nil
}

func (c *controller) restore() {
	s := &c.state
	c.top.Restore((*[control.TopOffState]byte)(s[topOffAt:]))
	c.thermostat.Restore((*[control.ThermostatState]byte)(s[thermostatAt:]))
	c.alkalinity.Restore((*[control.DoserState]byte)(s[alkalinityAt:]))
	c.calcium.Restore((*[control.DoserState]byte)(s[calciumAt:]))
	c.level.Restore((*[control.SignalState]byte)(s[levelAt:]))
	c.temperature.Restore((*[control.SignalState]byte)(s[temperatureAt:]))
	c.conductivity.Restore((*[control.SignalState]byte)(s[conductivityAt:]))
	c.hold = string(s[holdAt:]) != nobody // whoever worked at the tank has to say that it is done
}

// save writes the state of all parts.
func (c *controller) save() error {
	if c.file == nil {
		return nil
	}
	s := &c.state
	c.top.Save((*[control.TopOffState]byte)(s[topOffAt:]))
	c.thermostat.Save((*[control.ThermostatState]byte)(s[thermostatAt:]))
	c.alkalinity.Save((*[control.DoserState]byte)(s[alkalinityAt:]))
	c.calcium.Save((*[control.DoserState]byte)(s[calciumAt:]))
	c.level.Save((*[control.SignalState]byte)(s[levelAt:]))
	c.temperature.Save((*[control.SignalState]byte)(s[temperatureAt:]))
	c.conductivity.Save((*[control.SignalState]byte)(s[conductivityAt:]))
	copy(s[holdAt:], nobody)
	if c.hold {
		copy(s[holdAt:], "held")
	}
	return c.file.Write(s[:])
}
