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
// what to write.
func Parse[Q any, P interface {
	*Q
	UnmarshalText([]byte) error
}](text string) (Q, error) {
	var q Q
	err := P(&q).UnmarshalText([]byte(text))
	return q, err
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

func (tb *table) marshal(x float64) ([]byte, error) { return marshal(tb.quantity, x, tb.base) }

func (tb *table) want() string {
	article := "a "
	if strings.IndexByte("aeio", tb.quantity[0]) >= 0 {
		article = "an "
	}
	return article + tb.quantity + " such as " + tb.example
}

// unmarshal reads text by the table into dst, which becomes NaN on error, so
// that an ignored error cannot pass for zero.
func unmarshal[Q ~float64](dst *Q, text []byte, tb *table) error {
	x, err := tb.read(string(text))
	*dst = Q(x)
	return err
}

func (tb *table) read(text string) (float64, error) {
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
	x *= u.size
	if u.per != 0 {
		x /= u.per
	}
	if math.IsInf(x, 0) {
		return math.NaN(), &InputError{tb.quantity, Quoted(text), "a number of ordinary size"}
	}
	return x, nil
}

// find looks a spelling up, first as it stands and then without plurals. A
// single letter has none: "5 ms" is no length.
func (tb *table) find(name string) (unit, bool) {
	singular := strings.ReplaceAll(name, "s/", "/")
	if len(name) > 2 {
		singular = strings.TrimSuffix(singular, "s")
	}
	for _, n := range [...]string{name, singular} {
		for _, u := range tb.units {
			if hasName(u.names, n) {
				return u, true
			}
		}
	}
	return unit{}, false
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

// split takes a text apart into its number and its unit, with the spelling
// of the unit made plain: no superscripts, no degree sign, u for micro,
// single spaces.
func split(quantity, text, want string) (x float64, name string, err error) {
	s := plain(text)
	n := numberLen(s)
	x, perr := strconv.ParseFloat(s[:n], 64)
	rest := strings.TrimSpace(s[n:])
	switch {
	case n == 0 || perr != nil:
		return math.NaN(), "", &InputError{quantity, Quoted(text), want}
	case strings.HasPrefix(rest, ","):
		return math.NaN(), "", &InputError{quantity, Quoted(text),
			`a point for decimals and no mark for thousands, as in "1.5" or "1500"`}
	case rest != "" && (rest[0] >= '0' && rest[0] <= '9' || rest[0] == '.'):
		return math.NaN(), "", &InputError{quantity, Quoted(text), "one number and one unit"}
	}
	return x, rest, nil
}

// plainer folds the many ways of typing a unit into one, in this order.
var plainer = [...]struct{ from, to string }{
	{"\u2212", "-"},                  // minus sign
	{"\u00b5", "u"}, {"\u03bc", "u"}, // micro sign, Greek mu
	{"\u2126", "ohm"}, {"\u03a9", "ohm"}, // ohm sign, Greek omega
	{"\u00b0", ""}, {"\u00ba", ""}, // degree sign and its look-alike
	{"\u00b2", "2"}, {"\u00b3", "3"}, {"^", ""},
	{"\u00b7", "."}, {"\u22c5", "."}, {"*", "."},
	{" per ", "/"}, {"/ ", "/"}, {" /", "/"},
}

func plain(text string) string {
	text = strings.Join(strings.Fields(text), " ") // no-break spaces are fields too
	for _, p := range plainer {
		text = strings.ReplaceAll(text, p.from, p.to)
	}
	return strings.TrimSpace(text)
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

func marshal(quantity string, x float64, unit string) ([]byte, error) {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil, &InputError{quantity, number(x), "a finite number"}
	}
	return []byte(withUnit(x, unit)), nil
}
