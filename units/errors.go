package units

import (
	"errors"
	"strconv"
	"strings"
)

// The kinds of failure of the whole library, for errors.Is.
var (
	// ErrRange: a value lies outside the range in which a formula holds.
	ErrRange = errors.New("outside the range of the formula")
	// ErrInput: a value or a text cannot be used at all.
	ErrInput = errors.New("unusable input")
	// ErrNoConvergence: a solver spent its iterations without an answer.
	ErrNoConvergence = errors.New("no convergence")
)

// Range is the interval in which a formula or an instrument holds, with
// the words and the source needed to say so.
type Range struct {
	Quantity string  // "practical salinity"
	Min, Max float64 // both included
	Unit     string  // "°C"; empty for pure numbers
	Source   string  // where the limits are published
}

// Check returns nil if Min <= x <= Max and otherwise, NaN included, a
// *RangeError.
func (r Range) Check(x float64) error {
	if x >= r.Min && x <= r.Max {
		return nil
	}
	return &RangeError{Range: r, Got: Scalar(x)}
}

// RangeError reports a value outside a Range. errors.Is(err, ErrRange) is
// true for it.
type RangeError struct {
	Range
	Got Scalar
}

// Error reads "temperature: 45 °C is outside -2 to 40 °C (UNESCO 1983)".
func (e *RangeError) Error() string {
	s := e.Quantity + ": " + withUnit(float64(e.Got), e.Unit) + " is outside " +
		number(e.Min) + " to " + withUnit(e.Max, e.Unit)
	if e.Source != "" {
		s += " (" + e.Source + ")"
	}
	return s
}

// Is makes errors.Is(err, ErrRange) true.
func (e *RangeError) Is(target error) bool { return target == ErrRange }

// InputError reports a field or a text that cannot be used: which one, what
// it was, and what is expected instead. errors.Is(err, ErrInput) is true.
type InputError struct {
	Field string // "volume", "vessel.height"
	Got   string // the value as it was given
	Want  string // what is expected, as a phrase after "want"
}

// Error reads `volume: got "5 gal", want "5 US gal" or "5 imp gal"`. Of texts longer than
// a message the beginning stands there.
func (e *InputError) Error() string {
	return beginning(e.Field) + ": got " + beginning(e.Got) + ", want " + beginning(e.Want)
}

// beginning cuts a text that is longer than a message.
func beginning(text string) string {
	const most = 400 // bytes
	if len(text) <= most {
		return text
	}
	return strings.ToValidUTF8(text[:most], "") + "..."
}

// Is makes errors.Is(err, ErrInput) true.
func (e *InputError) Is(target error) bool { return target == ErrInput }

// Quoted puts a text into quotation marks for the Got of an error, cut short
// where it is too long for a message: an error must not cost as much as the
// text that caused it.
func Quoted(text string) string {
	const most = 60 // bytes
	if len(text) > most {
		text = strings.ToValidUTF8(text[:most], "") + "..."
	}
	return strconv.Quote(text)
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

func withUnit(x float64, unit string) string {
	if unit == "" {
		return number(x)
	}
	return number(x) + " " + unit
}
