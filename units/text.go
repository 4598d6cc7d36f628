package units

import (
	"math"
	"strconv"
	"strings"
)

// Parse reads a quantity from text, for example
//
//	v, err := units.Parse[units.Volume]("5 US gal")
//
// On error the quantity is NaN and the error is an *InputError that says
// what to write. An empty text, as which an unknown quantity is written, reads as
// NaN from a file; here it is refused, because somebody was asked for a quantity.
// What can be unset, as a temperature, is unset.
func Parse[Q any, P interface {
	*Q
	UnmarshalText([]byte) error
}](text string) (Q, error) {
	var q Q
	err := P(&q).UnmarshalText([]byte(text))
	if text == "" && err == nil && isUnknown(q) {
		err = P(&q).UnmarshalText([]byte(" ")) // the same, refused by name
		if bad, ok := err.(*InputError); ok {
			bad.Got = Quoted(text)
		}
	}
	return q, err
}

// isUnknown tells a quantity that was written with NaN from one that was not set.
func isUnknown(q any) bool {
	written, ok := q.(interface{ String() string })
	return ok && strings.HasPrefix(written.String(), "NaN")
}

// unit is one unit of a table: its spellings, separated by bars, and its size
// in the base unit, as size/per so that thousandths stay exact to the last
// bit; or, if the word could mean two things, what to write instead.
type unit struct {
	names     string
	size, per float64 // per 0 counts as 1
	refuse    string
}

// table lists what may be written for one kind of quantity.
type table struct {
	quantity string // "volume"
	base     string // the unit of size 1 that is written
	example  string // what to write, for error messages
	units    []unit
}

func (tb *table) append(text []byte, x float64) ([]byte, error) {
	return appendQuantity(text, tb.quantity, x, tb.base)
}

func (tb *table) want() string {
	article := "a "
	if strings.IndexByte("aeio", tb.quantity[0]) >= 0 {
		article = "an "
	}
	return article + tb.quantity + " such as " + tb.example
}

// unmarshal reads text by the table into dst, which becomes NaN on error, so
// that an ignored error cannot pass for zero. An empty text is an unknown quantity,
// NaN without an error.
func unmarshal[Q ~float64](dst *Q, text []byte, tb *table) error {
	x, err := tb.read(string(text))
	*dst = Q(x)
	return err
}

func (tb *table) read(text string) (float64, error) {
	if text == "" {
		return math.NaN(), nil
	}
	x, name, err := split(tb.quantity, text, tb.want())
	if err != nil {
		return math.NaN(), err
	}
	u, ok := tb.find(name)
	switch {
	case !ok:
		return math.NaN(), &InputError{tb.quantity, Quoted(text), tb.want()}
	case u.refuse != "":
		return math.NaN(), &InputError{tb.quantity, Quoted(text), u.refuse}
	}
	y := x * u.size
	if u.per != 0 {
		y /= u.per
	}
	if math.IsInf(y, 0) || y == 0 && x != 0 {
		return math.NaN(), &InputError{tb.quantity, Quoted(text), "a number of ordinary size"}
	}
	return y, nil
}

// find looks a spelling up, first as it stands and then without plurals.
func (tb *table) find(name string) (unit, bool) {
	for _, n := range [...]string{name, singular(name)} {
		for _, u := range tb.units {
			if hasName(u.names, n) {
				return u, true
			}
		}
	}
	return unit{}, false
}

// singular takes the plural s from every word of "litres/hour". One or two
// letters have none: "5 ms" is no length.
func singular(name string) string {
	over, under, found := strings.Cut(name, "/")
	if len(over) > 2 {
		over = strings.TrimSuffix(over, "s")
	}
	if !found {
		return over
	}
	return over + "/" + singular(under)
}

// hasName tells whether one of the names, separated by bars, is name.
func hasName(names, name string) bool {
	for {
		one, rest, more := strings.Cut(names, "|")
		if same(one, name) {
			return true
		}
		if !more {
			return false
		}
		names = rest
	}
}

// longest is more than any number takes that is written here: the smallest
// float64 as a percentage has 343 bytes.
const longest = 400

// cut takes the number off the front of a text, and returns the digits of the
// number and the rest beside it as they were typed. A number that a float64 cannot
// hold is none.
func cut(text string) (x float64, digits, rest string, ok bool) {
	if len(text) > longest {
		return math.NaN(), "", "", false
	}
	text = strings.TrimSpace(strings.ReplaceAll(text, "\u2212", "-")) // minus sign
	n := numberLen(text)
	digits, rest = text[:n], strings.TrimSpace(text[n:])
	x, err := strconv.ParseFloat(digits, 64)
	if err != nil || lost(x, digits) {
		return math.NaN(), "", "", false
	}
	return x, digits, rest, true
}

// lost tells whether a number came out as zero that was not written as zero.
func lost(x float64, digits string) bool {
	mantissa, _, _ := strings.Cut(strings.ToLower(digits), "e")
	return x == 0 && strings.ContainsAny(mantissa, "123456789")
}

// split takes a text apart into its number and its unit, with the spelling
// of the unit made plain. What it does not know it leaves in the unit, where no
// table has it.
func split(quantity, text, want string) (x float64, unit string, err error) {
	x, _, rest, ok := cut(text)
	switch {
	case !ok:
		return math.NaN(), "", &InputError{quantity, Quoted(text), want}
	case strings.HasPrefix(rest, ","):
		return math.NaN(), "", &InputError{quantity, Quoted(text),
			`a point for decimals and no mark for thousands, as in "1.5" or "1500"`}
	case strings.IndexAny(rest, partOfNumber) == 0:
		return math.NaN(), "", &InputError{quantity, Quoted(text), "one number and one unit"}
	}
	return x, plain(rest), nil
}

// partOfNumber is what after a number would belong to it: "1 000", "10^3", "10³",
// "2*20", "2·20", "1/2", "5½". Neither is it read, nor left out.
const partOfNumber = "0123456789.^*/_+-·⋅×¹²³½¼¾"

// plainer folds the many ways of typing a unit into one, in this order: u for
// micro, a point between factors, digits for powers, one degree sign.
var plainer = [...]struct{ from, to string }{
	{"\u00b5", "u"}, {"\u03bc", "u"}, // micro sign, Greek mu
	{"\u2126", "ohm"}, {"\u03a9", "ohm"}, // ohm sign, Greek omega
	{"\u00ba", "\u00b0"}, {"\u00b0 ", "\u00b0"}, // look-alike of the degree sign
	{"\u00b2", "2"}, {"\u00b3", "3"}, {"^2", "2"}, {"^3", "3"},
	{"\u00b7", "."}, {"\u22c5", "."}, {"*", "."},
	{" per ", "/"}, {"/ ", "/"}, {" /", "/"},
}

func plain(unit string) string {
	unit = strings.Join(strings.Fields(unit), " ") // no-break spaces are fields too
	for _, p := range plainer {
		unit = strings.ReplaceAll(unit, p.from, p.to)
	}
	return unit
}

// numberLen returns how many bytes of s are a decimal number: sign, digits
// with at most one point, and an exponent if digits follow it.
func numberLen(s string) int {
	digits := func(i int) int {
		for i < len(s) && s[i] >= '0' && s[i] <= '9' {
			i++
		}
		return i
	}
	i := 0
	if i < len(s) && (s[i] == '+' || s[i] == '-') {
		i++
	}
	start := i
	i = digits(i)
	if i < len(s) && s[i] == '.' {
		j := digits(i + 1)
		if j == i+1 && i == start {
			return 0 // a lone point
		}
		i = j
	}
	if i == start {
		return 0
	}
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		j := i + 1
		if j < len(s) && (s[j] == '+' || s[j] == '-') {
			j++
		}
		if k := digits(j); k > j {
			i = k
		}
	}
	return i
}

// same compares two spellings without regard to the case of Latin letters,
// except of m and M in symbols: they are a thousandth and a million.
func same(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	word := isWord(a)
	for i := 0; i < len(a); i++ {
		x, y := a[i], b[i]
		if !word && (x == 'm' || x == 'M') && x != y {
			return false
		}
		if x >= 'A' && x <= 'Z' {
			x += 'a' - 'A'
		}
		if y >= 'A' && y <= 'Z' {
			y += 'a' - 'A'
		}
		if x != y {
			return false
		}
	}
	return true
}

// isWord tells a unit that is spelt out, "millilitre", from a symbol, "mL".
func isWord(name string) bool {
	if len(name) < 5 {
		return false
	}
	for i := 0; i < len(name); i++ {
		if c := name[i]; !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z') {
			return false
		}
	}
	return true
}

// appendQuantity writes a number with its unit, and nothing for an unknown one: so a
// struct with NaN in it can be written, and reads back.
func appendQuantity(text []byte, quantity string, x float64, unit string) ([]byte, error) {
	switch {
	case math.IsNaN(x):
		return text, nil
	case math.IsInf(x, 0):
		return text, &InputError{quantity, number(x), "a finite number"}
	}
	text = strconv.AppendFloat(text, x, 'g', -1, 64)
	if unit == "" {
		return text, nil
	}
	return append(append(text, ' '), unit...), nil
}
