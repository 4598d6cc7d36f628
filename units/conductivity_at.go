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
	reading, temperature, _ := cutAt(given)
	k, err := conductivityUnits.read(reading + " ") // with a space an empty one is refused
	at, wrong := Parse[Temperature](temperature)
	switch {
	case !at.IsSet() && wrong == nil: // or there is no "at"
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
	if c == (ConductivityAt{}) {
		return ""
	}
	return c.Conductivity.String() + " at " + c.Temperature.String()
}

// AppendText appends what MarshalText writes.
func (c ConductivityAt) AppendText(text []byte) ([]byte, error) {
	k, t := float64(c.Conductivity), c.Temperature.Celsius()
	switch {
	case c == (ConductivityAt{}) || math.IsNaN(k):
		return text, nil
	case math.IsInf(k, 0) || !c.Temperature.IsSet() || !(t >= -zeroCelsius && t <= math.MaxFloat64):
		return text, &InputError{"conductivity", c.String(), conductivityAtWant}
	}
	text, _ = c.Conductivity.AppendText(text)
	return c.Temperature.AppendText(append(text, " at "...))
}

// MarshalText writes "53 mS/cm at 25 °C", and nothing for the zero value; reading that gives
// the same value back.
func (c ConductivityAt) MarshalText() ([]byte, error) { return c.AppendText(nil) }
