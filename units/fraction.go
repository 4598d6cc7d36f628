package units

import (
	"math"
	"strconv"
	"strings"
)

// Fraction is a share of a whole. It is made by Percent or Share, so that a bare 15
// for 15 % does not compile. Text needs the percent sign, so that 10 and 0.1 cannot
// be mistaken for each other.
//
// The zero value is nothing of it.
type Fraction struct{ share float64 }

// Percent returns a fraction of x hundredths: what is read from the text of the same number,
// as 399.9/100 is not.
func Percent(x float64) Fraction {
	if n := math.Round(x * 1e6); math.Abs(x) < 1e9 && n/1e6 == x {
		return Fraction{n/1e8 + 0} // minus zero becomes zero
	}
	return Fraction{x/100 + 0}
}

// Share returns a fraction that is x of the whole: 1 is all of it.
func Share(x float64) Fraction { return Fraction{x + 0} }

// Value returns the share of the whole: 1 is all of it.
func (f Fraction) Value() float64 { return f.share }

// Percent returns the fraction in percent: 29 of what was made of 29, to the last bit.
func (f Fraction) Percent() float64 {
	x := f.share * 100
	if short := math.Round(x*1e6) / 1e6; Percent(short) == f {
		return short
	}
	return x
}

const (
	fractionWant = `a percentage such as "10 %"`
	percents     = "%|percent|per cent|pct"
)

// UnmarshalText reads "10 %".
func (f *Fraction) UnmarshalText(text []byte) error {
	*f = Fraction{math.NaN()}
	if len(text) == 0 {
		return nil // unknown
	}
	var t typed
	t.take(string(text))
	want := t.fault()
	if want == "" && !(t.sound && t.is(percents)) {
		want = fractionWant
	}
	if want != "" {
		return t.refuse("fraction", want)
	}
	x, ok := hundredths(&t)
	if !ok {
		return t.refuse("fraction", "a number of ordinary size")
	}
	*f = Fraction{x + 0}
	return nil
}

// hundredths reads "29 %" as 29e-2, because 29 * 0.01 is not the number 0.29.
func hundredths(t *typed) (share float64, ok bool) {
	if over, under, n := vulgar(t.digits, numberLen(t.digits)); n > 0 { // "33⅓ %"
		return over / (100 * under), true
	}
	mantissa, exponent, _ := strings.Cut(strings.ToLower(t.digits), "e")
	tens, _ := strconv.Atoi(exponent) // an exponent beyond an int stands after a zero: others were refused
	digits := mantissa + "e" + strconv.Itoa(tens-2)
	share, err := strconv.ParseFloat(digits, 64)
	return share, err == nil && !lost(share, digits)
}

// String writes "10 %", as MarshalText does. It moves the decimal point of
// the shortest text of the number, so no digit changes: 0.29 is "29 %", not
// "28.999999999999996 %".
func (f Fraction) String() string {
	if math.IsNaN(f.share) || math.IsInf(f.share, 0) {
		return withUnit(f.share, "%")
	}
	s := strconv.FormatFloat(f.share, 'f', -1, 64)
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
	return f.AppendText(nil)
}

// AppendText appends what MarshalText writes.
func (f Fraction) AppendText(text []byte) ([]byte, error) {
	switch {
	case math.IsNaN(f.share):
		return text, nil
	case math.IsInf(f.share, 0):
		return text, &InputError{"fraction", f.String(), "a finite number"}
	}
	return append(text, f.String()...), nil
}
