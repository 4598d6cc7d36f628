package units

import (
	"math"
	"strings"
)

// ConductivityAt is a conductivity with the temperature that it is stated for, as a meter
// shows the two together. Whether the water has that temperature, or the meter has
// compensated to it, the meter says: see package conductivity.
type ConductivityAt struct {
	Conductivity Conductivity
	Temperature  Temperature
}

const conductivityAtWant = `a conductivity with its temperature such as "53 mS/cm at 25 °C"`

// UnmarshalText reads "53 mS/cm at 25 °C" or "53 mS/cm @ 25 °C". An empty text is a
// conductivity that was not read.
func (c *ConductivityAt) UnmarshalText(text []byte) error {
	*c = ConductivityAt{}
	if len(text) == 0 {
		return nil
	}
	given := string(text)
	reading, temperature, found := cutAt(given)
	k, err := conductivityUnits.read(reading + " ") // with a space an empty one is refused
	at, wrong := Parse[Temperature](temperature)
	switch {
	case !found || !at.IsSet() && wrong == nil:
		err = &InputError{"conductivity", "", conductivityAtWant}
	case err == nil:
		err = wrong
	}
	if bad, refused := err.(*InputError); refused {
		c.Conductivity = Conductivity(math.NaN())
		return &InputError{bad.Field, Quoted(given), bad.Want}
	}
	*c = ConductivityAt{Conductivity(k), at}
	return nil
}

// cutAt parts "53 mS/cm at 25 °C" at the "at".
func cutAt(text string) (reading, temperature string, found bool) {
	text = tidy(text)
	if len(text) > longest {
		return "", "", false
	}
	if reading, temperature, found = strings.Cut(text, "@"); found {
		return reading, temperature, true
	}
	return strings.Cut(text, " at ")
}

// String writes "53 mS/cm at 25 °C", as MarshalText does.
func (c ConductivityAt) String() string {
	text, err := c.AppendText(nil)
	if err != nil {
		return c.Conductivity.String() + " at " + c.Temperature.String()
	}
	return string(text)
}

// AppendText appends what MarshalText writes.
func (c ConductivityAt) AppendText(text []byte) ([]byte, error) {
	before := len(text)
	if c == (ConductivityAt{}) || math.IsNaN(float64(c.Conductivity)) {
		return text, nil
	}
	text, err := c.Conductivity.AppendText(text)
	if err == nil && len(text) > before {
		text, err = c.Temperature.AppendText(append(text, " at "...))
	}
	if err != nil {
		return text[:before], err
	}
	if !c.Temperature.IsSet() || math.IsNaN(c.Temperature.Celsius()) {
		return text[:before], &InputError{"conductivity", c.Conductivity.String(), conductivityAtWant}
	}
	return text, nil
}

// MarshalText writes "53 mS/cm at 25 °C", and nothing for the zero value; reading that gives
// the same value back.
func (c ConductivityAt) MarshalText() ([]byte, error) { return c.AppendText(nil) }
