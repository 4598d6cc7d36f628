package units

import (
	"math"
	"strconv"
	"strings"
)

// Fraction is a share of a whole: 1 is all of it, Percent is a hundredth.
// Text needs the percent sign, so that 10 and 0.1 cannot be mistaken for each
// other.
type Fraction float64

// Percent is a hundredth: 93 * units.Percent.
const Percent Fraction = 0.01

// Percent returns the fraction in percent.
func (f Fraction) Percent() float64 { return float64(f) * 100 }

const fractionWant = `a percentage such as "10 %"`

// UnmarshalText reads "10 %".
func (f *Fraction) UnmarshalText(text []byte) error {
	*f = Fraction(math.NaN())
	x, unit, err := split("fraction", string(text), fractionWant)
	if err != nil {
		return err
	}
	if !hasName("%|percent", unit) {
		return &InputError{"fraction", Quoted(string(text)), fractionWant}
	}
	// "29 %" is read as 29e-2, because 29 * 0.01 is not the number 0.29.
	_, digits, _, _ := cut(string(text))
	mantissa, exponent, _ := strings.Cut(strings.ToLower(digits), "e")
	tens, _ := strconv.Atoi(exponent) // an exponent beyond an int stands after a zero: others were refused
	digits = mantissa + "e" + strconv.Itoa(tens-2)
	if x, err = strconv.ParseFloat(digits, 64); err != nil || lost(x, digits) {
		return &InputError{"fraction", Quoted(string(text)), "a number of ordinary size"}
	}
	*f = Fraction(x)
	return nil
}

// String writes "10 %", as MarshalText does. It moves the decimal point of
// the shortest text of the number, so no digit changes: 0.29 is "29 %", not
// "28.999999999999996 %".
func (f Fraction) String() string {
	if math.IsNaN(float64(f)) || math.IsInf(float64(f), 0) {
		return withUnit(float64(f), "%")
	}
	s := strconv.FormatFloat(float64(f), 'f', -1, 64)
	sign := ""
	if s[0] == '-' {
		sign, s = "-", s[1:]
	}
	whole, part, _ := strings.Cut(s, ".")
	part += "00"
	whole, part = strings.TrimLeft(whole+part[:2], "0"), strings.TrimRight(part[2:], "0")
	if whole == "" {
		whole = "0"
	}
	if part != "" {
		part = "." + part
	}
	return sign + whole + part + " %"
}

// MarshalText writes "10 %"; reading that gives the same value back.
func (f Fraction) MarshalText() ([]byte, error) {
	if _, err := marshal("fraction", float64(f), "%"); err != nil {
		return nil, err
	}
	return []byte(f.String()), nil
}
