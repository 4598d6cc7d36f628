package teos10

import (
	"math"
	"strings"

	"example.org/wellmixed/internal/input"
)

// The spellings of the temperatures that no thermometer shows; the first is written. A
// bare "20 °C" is refused: that is a temperature in situ.
var (
	conservativeNames = [...]string{"°C conservative", "C conservative"}
	potentialNames    = [...]string{"°C potential", "C potential"}
)

// String writes "19.9 °C conservative".
func (t ConservativeTemperature) String() string { return oldText(t.celsius, conservativeNames[0]) }

// String writes "19.9 °C potential".
func (t PotentialTemperature) String() string { return oldText(t.celsius, potentialNames[0]) }

// MarshalText writes "19.9 °C conservative", and nothing for NaN; reading that gives the
// same value back.
func (t ConservativeTemperature) MarshalText() ([]byte, error) {
	return writeDegrees("Conservative Temperature", t.celsius, conservativeNames[0])
}

// MarshalText writes "19.9 °C potential", and nothing for NaN; reading that gives the same
// value back.
func (t PotentialTemperature) MarshalText() ([]byte, error) {
	return writeDegrees("potential temperature", t.celsius, potentialNames[0])
}

// UnmarshalText reads "19.9 °C conservative"; an empty text is NaN.
func (t *ConservativeTemperature) UnmarshalText(text []byte) (err error) {
	t.celsius, err = readDegrees("Conservative Temperature", string(text), conservativeNames[:])
	return err
}

// UnmarshalText reads "19.9 °C potential"; an empty text is NaN.
func (t *PotentialTemperature) UnmarshalText(text []byte) (err error) {
	t.celsius, err = readDegrees("potential temperature", string(text), potentialNames[:])
	return err
}

func writeDegrees(quantity string, x float64, name string) ([]byte, error) {
	switch {
	case math.IsNaN(x):
		return nil, nil
	case math.IsInf(x, 0):
		return nil, input.Bad(quantity, oldText(x, name), "a finite number")
	}
	return []byte(oldText(x, name)), nil
}

func readDegrees(quantity, text string, names []string) (float64, error) {
	if text == "" {
		return math.NaN(), nil // unknown
	}
	number, unit, _ := strings.Cut(strings.Join(strings.Fields(text), " "), " ")
	x, err := input.ParseNumber(number)
	if err == nil && !math.IsInf(x, 0) && !math.IsNaN(x) {
		for _, name := range names {
			if strings.EqualFold(unit, name) {
				return x, nil
			}
		}
	}
	return math.NaN(), input.Bad(quantity, input.Quoted(text), `"19.9 `+names[0]+`"`)
}
