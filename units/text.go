package units

import (
	"bytes"
	"iter"
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
	zero      float64 // where the scale has its zero: 32 for °F
	refuse    string
	// capitals: "MMHG" is read as "mmHg", because a million of it there cannot be.
	capitals bool
}

// worth returns x of the unit in the base unit.
func (u *unit) worth(x float64) float64 {
	y := (x - u.zero) * u.size
	if u.per != 0 {
		y /= u.per
	}
	return y
}

// table lists what may be written for one kind of quantity.
type table struct {
	quantity string // "volume"
	base     string // the unit of size 1 that is written
	example  string // what to write, for error messages
	units    []unit
	over     *table // with under: units such as "US gal/min" are made of two tables
	under    *table
	limit    func(x float64, bare bool) (want string) // of a value that cannot be; bare has no unit
}

func (tb *table) append(text []byte, x float64) ([]byte, error) {
	return appendQuantity(text, tb.quantity, x, tb.base)
}

func (tb *table) want() string { return withArticle(tb.quantity) + " such as " + tb.example }

func withArticle(noun string) string {
	if noun != "" && strings.IndexByte("aeio", noun[0]) >= 0 {
		return "an " + noun
	}
	return "a " + noun
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
	var t typed
	t.take(text)
	return tb.value(&t)
}

// value reads what was taken apart.
func (tb *table) value(t *typed) (float64, error) {
	if want := t.fault(); want != "" {
		return math.NaN(), t.refuse(tb.quantity, want)
	}
	if !t.sound {
		return math.NaN(), t.refuse(tb.quantity, tb.want())
	}
	u, known := tb.find(t.unit())
	switch {
	case !known:
		return math.NaN(), t.refuse(tb.quantity, tb.want())
	case u.refuse != "":
		return math.NaN(), t.refuse(tb.quantity, u.refuse)
	}
	y := u.worth(t.x)
	if math.IsInf(y, 0) || y == 0 && t.x != u.zero {
		return math.NaN(), t.refuse(tb.quantity, "a number of ordinary size")
	}
	if tb.limit != nil {
		if want := tb.limit(y, t.rest == ""); want != "" {
			return math.NaN(), t.refuse(tb.quantity, want)
		}
	}
	return y, nil
}

// find looks a spelling up: as it stands, without plurals, as a ratio of two units,
// and then in capitals.
func (tb *table) find(name []byte) (unit, bool) {
	if name == nil {
		return unit{}, false
	}
	var room [longestUnit]byte
	one := singular(room[:0], name)
	for _, n := range [...][]byte{name, one} {
		for i := range tb.units {
			if hasName(tb.units[i].names, n) {
				return tb.units[i], true
			}
		}
		if len(one) == len(name) {
			break
		}
	}
	if u, known := tb.ratio(name); known {
		return u, true
	}
	if bytes.IndexByte(name, 'm') < 0 && bytes.IndexByte(name, 'M') < 0 {
		return unit{}, false
	}
	return tb.findCapitals(name, one)
}

// ratio looks up "US gal/min" in the tables of which a ratio is made.
func (tb *table) ratio(name []byte) (unit, bool) {
	slash := bytes.IndexByte(name, '/')
	if tb.over == nil || slash < 0 {
		return unit{}, false
	}
	above, known := tb.over.find(name[:slash])
	below, timed := tb.under.find(name[slash+1:])
	switch {
	case !known || !timed:
		return unit{}, false
	case above.refuse != "":
		return above, true
	case below.refuse != "":
		return below, true
	}
	one := func(per float64) float64 {
		if per == 0 {
			return 1
		}
		return per
	}
	return unit{size: above.size * one(below.per), per: one(above.per) * below.size}, true
}

// findCapitals looks up what differs from a spelling in the case of an m. "MMHG" is
// mmHg and "5 MG/L" is mg/L, but "20 ML" could be a million times a million times more.
func (tb *table) findCapitals(name, one []byte) (unit, bool) {
	for i := range tb.units {
		u := &tb.units[i]
		spelling := nameInAnyCase(u.names, name)
		if spelling == "" {
			spelling = nameInAnyCase(u.names, one)
		}
		switch {
		case spelling == "":
		case u.refuse != "" || u.capitals && inCapitals(name):
			return *u, true
		default:
			return unit{refuse: `"` + spelling + `" in just these letters: m is a thousandth, M a million`}, true
		}
	}
	return unit{}, false
}

// inCapitals tells a symbol without a small letter; what follows a space, as the CaCO3 of
// "PPM CaCO3", has its own spelling.
func inCapitals(name []byte) bool {
	symbol, _, _ := bytes.Cut(name, []byte{' '})
	for _, c := range symbol {
		if c >= 'a' && c <= 'z' {
			return false
		}
	}
	return true
}

// singular takes the plural s from every word of "litres/hour". One or two
// letters have none: "5 ms" is no length.
func singular(dst, name []byte) []byte {
	for {
		over, under, more := bytes.Cut(name, []byte{'/'})
		if n := len(over); n > 2 && (over[n-1] == 's' || over[n-1] == 'S') {
			over = over[:n-1]
		}
		dst = append(dst, over...)
		if !more {
			return dst
		}
		dst = append(dst, '/')
		name = under
	}
}

// hasName tells whether one of the names, separated by bars, is name.
func hasName(names string, name []byte) bool {
	for one := range namesAsLong(names, len(name)) {
		if sameLetters(one, name, isWord(one)) {
			return true
		}
	}
	return false
}

// nameInAnyCase returns the one of the names that is name but for the case of letters.
func nameInAnyCase(names string, name []byte) string {
	for one := range namesAsLong(names, len(name)) {
		if sameLetters(one, name, true) {
			return one
		}
	}
	return ""
}

// namesAsLong yields the names of that many bytes.
func namesAsLong(names string, length int) iter.Seq[string] {
	return func(yield func(string) bool) {
		begin := 0
		for i := 0; i <= len(names); i++ {
			if i < len(names) && names[i] != '|' {
				continue
			}
			if i-begin == length && !yield(names[begin:i]) {
				return
			}
			begin = i + 1
		}
	}
}

// sameLetters compares two spellings of one length without regard to the case of Latin
// letters, except, if it is not any m, of m and M: in symbols they are a thousandth and a
// million.
func sameLetters(a string, b []byte, anyM bool) bool {
	for i := 0; i < len(a); i++ {
		x, y := a[i], b[i]
		if x == y {
			continue
		}
		if lower(x) != lower(y) || !anyM && lower(x) == 'm' {
			return false
		}
	}
	return true
}

func lower(c byte) byte {
	if c >= 'A' && c <= 'Z' {
		c += 'a' - 'A'
	}
	return c
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
