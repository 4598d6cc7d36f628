package units

import (
	"math"
	"strings"
)

// Ratio is so many parts of one thing to one part of another: 3 for "3:1". Which is which
// the field says that asks for it; of a purifier it is waste to product (common practice).
type Ratio float64

// Share returns the share of the first thing in both together: 75 % of 3:1.
func (r Ratio) Share() Fraction { return Share(float64(r) / (1 + float64(r))) }

const ratioWant = `a ratio such as "3:1"`

// UnmarshalText reads "3:1", "3 to 1" or "1:4".
func (r *Ratio) UnmarshalText(text []byte) error {
	*r = Ratio(math.NaN())
	if len(text) == 0 {
		return nil // unknown
	}
	given := string(text)
	over, _, rest, sound := cut(given)
	under, marked := afterColon(rest)
	per, _, tail, ok := cut(under)
	x := over / per
	switch {
	case !sound || !marked || !ok || tail != "" || !(over >= 0 && per > 0):
		return &InputError{"ratio", Quoted(given), ratioWant}
	case math.IsInf(x, 0) || x == 0 && over != 0:
		return &InputError{"ratio", Quoted(given), "a number of ordinary size"}
	}
	*r = Ratio(x + 0)
	return nil
}

// afterColon returns what the first number of a ratio is compared with.
func afterColon(rest string) (string, bool) {
	if under, found := strings.CutPrefix(rest, ":"); found {
		return under, true
	}
	return strings.CutPrefix(rest, "to ")
}

// String writes "3:1", as MarshalText does.
func (r Ratio) String() string { return number(float64(r)) + ":1" }

// AppendText appends what MarshalText writes.
func (r Ratio) AppendText(text []byte) ([]byte, error) {
	switch x := float64(r); {
	case math.IsNaN(x):
		return text, nil
	case !(x >= 0) || math.IsInf(x, 0):
		return text, &InputError{"ratio", r.String(), ratioWant}
	default:
		text, _ = appendQuantity(text, "ratio", x+0, "")
		return append(text, ":1"...), nil
	}
}

// MarshalText writes "3:1"; reading that gives the same value back.
func (r Ratio) MarshalText() ([]byte, error) { return r.AppendText(nil) }
