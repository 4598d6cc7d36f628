package teos10

import (
	"math"
	"strconv"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// The spellings of the old scales; the first is written. A bare number is refused,
// and so is one in g/kg alone: that is an absolute salinity.
var (
	chlorinityNames = [...]string{"g/kg Cl", "‰ Cl"}
	chlorosityNames = [...]string{"g/L Cl"}
	knudsenNames    = [...]string{"‰ Knudsen"}
)

// String writes "19.374 g/kg Cl".
func (c Chlorinity) String() string { return oldText(c.gramsPerKilogram, chlorinityNames[0]) }

// MarshalText writes "19.374 g/kg Cl"; reading that gives the same value back.
func (c Chlorinity) MarshalText() ([]byte, error) {
	return writeOld("chlorinity", c.gramsPerKilogram, chlorinityNames[0])
}

// UnmarshalText reads "19.374 g/kg Cl" or, as in old books, "19.374 ‰ Cl".
func (c *Chlorinity) UnmarshalText(text []byte) (err error) {
	c.gramsPerKilogram, err = readOld("chlorinity", string(text), chlorinityNames[:],
		`a chlorinity such as "19.374 g/kg Cl"`)
	return err
}

// String writes "19.85 g/L Cl".
func (c Chlorosity) String() string { return oldText(c.gramsPerLitre, chlorosityNames[0]) }

// MarshalText writes "19.85 g/L Cl"; reading that gives the same value back.
func (c Chlorosity) MarshalText() ([]byte, error) {
	return writeOld("chlorosity", c.gramsPerLitre, chlorosityNames[0])
}

// UnmarshalText reads "19.85 g/L Cl", of 20 °C.
func (c *Chlorosity) UnmarshalText(text []byte) (err error) {
	c.gramsPerLitre, err = readOld("chlorosity", string(text), chlorosityNames[:], `a chlorosity such as "19.85 g/L Cl"`)
	return err
}

// String writes "35.13 ‰ Knudsen".
func (s KnudsenSalinity) String() string { return oldText(s.perMille, knudsenNames[0]) }

// MarshalText writes "35.13 ‰ Knudsen"; reading that gives the same value back.
func (s KnudsenSalinity) MarshalText() ([]byte, error) {
	return writeOld("salinity by Knudsen", s.perMille, knudsenNames[0])
}

// UnmarshalText reads "35.13 ‰ Knudsen".
func (s *KnudsenSalinity) UnmarshalText(text []byte) (err error) {
	s.perMille, err = readOld("salinity by Knudsen", string(text), knudsenNames[:], `a salinity such as "35.13 ‰ Knudsen"`)
	return err
}

func oldText(x float64, name string) string {
	return strconv.FormatFloat(x, 'g', -1, 64) + " " + name
}

// writeOld writes nothing for NaN.
func writeOld(quantity string, x float64, name string) ([]byte, error) {
	if math.IsNaN(x) {
		return nil, nil
	}
	if oldScale(x) != x {
		return nil, &units.InputError{Field: quantity, Got: oldText(x, name), Want: "a finite number of zero or more"}
	}
	return []byte(oldText(x, name)), nil
}

func readOld(quantity, text string, names []string, want string) (float64, error) {
	if text == "" {
		return math.NaN(), nil // unknown
	}
	number, unit, _ := strings.Cut(strings.Join(strings.Fields(text), " "), " ")
	x, err := input.ParseNumber(number)
	if err == nil && oldScale(x) == x {
		for _, name := range names {
			if strings.EqualFold(unit, name) {
				return x, nil
			}
		}
	}
	return math.NaN(), &units.InputError{Field: quantity, Got: input.Quoted(text), Want: want}
}
