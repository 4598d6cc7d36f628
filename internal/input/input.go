// Package input refuses what a planner cannot work with, in one voice, and
// writes the numbers in its sentences.
package input

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"example.org/wellmixed/units"
)

// NaN stands beside an error, so that an ignored error cannot pass off a
// number as sound.
func NaN[Q ~float64]() Q { return Q(math.NaN()) }

// Bad returns the error for a field: what it was and what is wanted.
func Bad(field, got, want string) error {
	return &units.InputError{Field: field, Got: got, Want: want}
}

// Quoted writes a text that was given, in quotation marks and cut to the length
// of a message: see [units.Quoted].
func Quoted(text string) string { return units.Quoted(text) }

// Positive refuses what is not a finite number above zero.
func Positive(field string, x float64, unit string) error {
	if x > 0 && !math.IsInf(x, 0) {
		return nil
	}
	return Bad(field, withUnit(x, unit), "a number above zero")
}

// NotNegative refuses what is not a finite number of zero or more.
func NotNegative(field string, x float64, unit string) error {
	if x >= 0 && !math.IsInf(x, 0) {
		return nil
	}
	return Bad(field, withUnit(x, unit), "zero or more")
}

// Share refuses what is not a share above nothing and up to all.
func Share(field string, f units.Fraction) error {
	if f.Value() > 0 && f.Value() <= 1 {
		return nil
	}
	return Bad(field, f.String(), "above 0 and up to 100 %")
}

// Set refuses a temperature that nobody set.
func Set(field string, t units.Temperature) error {
	if t.IsSet() {
		return nil
	}
	return Bad(field, "nothing", "a temperature")
}

// As gives the error of a lower layer, which names a quantity, the name of the
// field that the quantity came from.
func As(field string, err error) error {
	if err == nil {
		return nil
	}
	var out *units.RangeError
	if errors.As(err, &out) {
		named := *out
		named.Quantity = field
		return &named
	}
	return In(field, err)
}

// In puts the name of a field before what the error of a lower layer names, of
// every error that is joined in it: "tank" and "absolute salinity" make
// "tank.absoluteSalinity".
func In(field string, err error) error {
	return renamed(err, func(inner string) string { return field + "." + camel(inner) })
}

// When says at which moment or of which water an error of a lower layer tells.
func When(moment string, err error) error {
	return renamed(err, func(inner string) string { return moment + ": " + inner })
}

// At names an element of a list as Go writes it.
func At(list string, i int) string { return list + "[" + strconv.Itoa(i) + "]" }

// renamed gives an error, or each that is joined in it, another field.
func renamed(err error, to func(string) string) error {
	if err == nil {
		return nil
	}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var list []error
		for _, one := range joined.Unwrap() {
			list = append(list, renamed(one, to))
		}
		return Join(list...)
	}
	var out *units.RangeError
	if errors.As(err, &out) {
		named := *out
		named.Quantity = to(out.Quantity)
		return &named
	}
	var bad *units.InputError
	if errors.As(err, &bad) {
		named := *bad
		named.Field = to(bad.Field)
		return &named
	}
	return err
}

// camel writes the words of a quantity as one name: "absoluteSalinity".
func camel(words string) string {
	first, rest, more := strings.Cut(words, " ")
	for more {
		var next string
		next, rest, more = strings.Cut(rest, " ")
		if next != "" {
			first += strings.ToUpper(next[:1]) + next[1:]
		}
	}
	return first
}

// Number writes a number as it is, to six digits.
func Number(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }

// Fixed writes a number with so many decimals.
func Fixed(x float64, decimals int) string { return strconv.FormatFloat(x, 'f', decimals, 64) }

func withUnit(x float64, unit string) string {
	if unit == "" {
		return Number(x)
	}
	return Number(x) + " " + unit
}

// ParseNumber reads a number as people write it: no hexadecimal, no underscores, neither
// infinite nor NaN.
func ParseNumber(text string) (float64, error) {
	if strings.Trim(text, "0123456789+-.eE") != "" {
		return math.NaN(), Bad("number", Quoted(text), `a number such as "8.1"`)
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return math.NaN(), Bad("number", Quoted(text), `a number such as "8.1"`)
	}
	return x, nil
}
