package units

import (
	"math"
	"strconv"
	"strings"
)

// Scalar is a number without a type of its own, in the unit that its field tells, of a result
// that may be unknown, which is NaN, or without an end, as the days until what never comes. It
// is reckoned with as float64(x).
//
// JSON has no such numbers, and encoding/json refuses them in a float64. As a Scalar they go
// there and come back: 4.05 is 4.05, NaN is null, and infinity is the text "+Inf" or "-Inf".
//
// The zero value is zero.
type Scalar float64

// MarshalJSON writes a number, null for NaN, and "+Inf" or "-Inf".
func (s Scalar) MarshalJSON() ([]byte, error) {
	x := float64(s)
	size := math.Abs(x)
	switch {
	case math.IsNaN(x):
		return []byte("null"), nil
	case math.IsInf(x, 0):
		return strconv.AppendQuote(nil, strconv.FormatFloat(x, 'g', -1, 64)), nil
	case size != 0 && (size < 1e-6 || size >= 1e21): // as encoding/json does
		return strconv.AppendFloat(nil, x, 'e', -1, 64), nil
	}
	return strconv.AppendFloat(nil, x, 'f', -1, 64), nil
}

// UnmarshalJSON reads what MarshalJSON writes. What is neither is an *InputError, and the
// number is NaN.
func (s *Scalar) UnmarshalJSON(token []byte) error {
	text := string(token)
	*s = Scalar(math.NaN())
	switch text {
	case "null":
		return nil
	case `"+Inf"`, `"-Inf"`:
		text = text[1 : len(text)-1]
	default:
		if strings.Trim(text, "0123456789+-.eE") != "" {
			return &InputError{"number", Quoted(text), `a number, null, "+Inf" or "-Inf"`}
		}
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || lost(x, text) {
		return &InputError{"number", Quoted(text), "a number of ordinary size"}
	}
	*s = Scalar(x)
	return nil
}
