package units

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longest is more than any number takes that is written here: the smallest
// float64 as a percentage has 343 bytes. longestUnit is more than any unit takes.
const (
	longest     = 400
	longestUnit = 48
)

// typed is a text taken apart into one number and what stands beside it. The number is
// cut off as it was typed, and only the unit is made plain: nothing is dropped, nothing
// moves into the number.
type typed struct {
	text   string // as it was given
	x      float64
	digits string // of the number, as they were typed
	rest   string // beside the number, as it was typed
	sound  bool   // whether there is a number that a float64 can hold
	room   [longestUnit]byte
	plain  int // how much of the room the unit takes; -1 if it is no unit at all
}

// take takes a text apart.
func (t *typed) take(text string) {
	t.text = text
	t.x, t.digits, t.rest, t.sound = cut(text)
	t.plain = -1
	if u := plain(t.room[:0], t.rest); u != nil {
		t.plain = len(u)
	}
}

// unit is the spelling of the unit made plain, nil for what cannot be one. What it does
// not know it leaves as it is, so that no table has it.
func (t *typed) unit() []byte {
	if t.plain < 0 {
		return nil
	}
	return t.room[:t.plain]
}

// is tells whether the unit is one of the names, separated by bars.
func (t *typed) is(names string) bool {
	u := t.unit()
	return u != nil && hasName(names, u)
}

func (t *typed) refuse(quantity, want string) error {
	return &InputError{quantity, Quoted(t.text), want}
}

// fault says what is wanted in place of a number that is written in a way that is not
// read, and nothing if there is no such fault.
func (t *typed) fault() string {
	switch {
	case !t.sound:
		return ""
	case strings.HasPrefix(t.rest, ","):
		return `a point for decimals and no mark for thousands, as in "1.5" or "1500"`
	case isSlashed(t.rest):
		return `a decimal such as "0.5", or "½": a fraction with a slash is not read`
	case strings.IndexAny(t.rest, partOfNumber) == 0:
		return "one number and one unit"
	}
	return ""
}

// isSlashed tells "/2 US gal" after a 1, and "1/2 US gal" after a 5.
func isSlashed(rest string) bool {
	rest = strings.TrimLeft(rest, "0123456789")
	below, slashed := strings.CutPrefix(rest, "/")
	if !slashed {
		below, slashed = strings.CutPrefix(rest, "\u2044") // fraction slash
	}
	return slashed && below != "" && below[0] >= '0' && below[0] <= '9'
}

// partOfNumber is what after a number would belong to it: "1 000", "10^3", "10³",
// "2*20", "2·20", "1/2", "1.5½". Neither is it read, nor left out.
const partOfNumber = "0123456789.^*/_+-·⋅×÷⁄⁰¹²³⁴⁵⁶⁷⁸⁹⁻½¼¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"

// dashes are typed for a minus sign, or put in its place by what typesets a text:
// hyphens, figure dash, en dash, em dash, minus sign, and its small and wide forms.
var dashes = [...]string{
	"\u2010", "\u2011", "\u2012", "\u2013", "\u2014", "\u2212", "\ufe63", "\uff0d",
}

// tidy takes a byte order mark and the spaces around a text off, no-break ones too, and
// makes one minus sign of all dashes.
func tidy(text string) string {
	text = strings.TrimSpace(strings.TrimPrefix(text, "\ufeff"))
	if strings.IndexByte(text, '\xe2') >= 0 || strings.IndexByte(text, '\xef') >= 0 {
		for _, dash := range dashes {
			text = strings.ReplaceAll(text, dash, "-")
		}
	}
	return text
}

// cut takes the number off the front of a text, and returns the digits of the
// number and the rest beside it as they were typed. A number that a float64 cannot
// hold is none.
func cut(text string) (x float64, digits, rest string, ok bool) {
	if len(text) > longest {
		return math.NaN(), "", "", false
	}
	text = tidy(text)
	n := numberLen(text)
	if over, under, m := vulgar(text, n); m > 0 {
		return over / under, text[:m], strings.TrimSpace(text[m:]), true
	}
	if n == 0 {
		return math.NaN(), "", "", false
	}
	digits, rest = text[:n], strings.TrimSpace(text[n:])
	x, err := strconv.ParseFloat(digits, 64)
	if err != nil || lost(x, digits) {
		return math.NaN(), "", "", false
	}
	return x, digits, rest, true
}

// lost tells whether a number came out as zero that was not written as zero.
func lost(x float64, digits string) bool {
	if x != 0 {
		return false
	}
	mantissa, _, _ := strings.Cut(strings.ToLower(digits), "e")
	return strings.ContainsAny(mantissa, "123456789")
}

// vulgars are the fractions that are one sign.
var vulgars = [...]struct {
	sign        rune
	over, under float64
}{
	{'½', 1, 2}, {'¼', 1, 4}, {'¾', 3, 4}, {'⅓', 1, 3}, {'⅔', 2, 3},
	{'⅛', 1, 8}, {'⅜', 3, 8}, {'⅝', 5, 8}, {'⅞', 7, 8},
	{'⅕', 1, 5}, {'⅖', 2, 5}, {'⅗', 3, 5}, {'⅘', 4, 5}, {'⅙', 1, 6}, {'⅚', 5, 6},
}

// vulgar reads "½", "1½" or "1 ½", of which n bytes are the whole number, as a fraction, and
// returns how many bytes it takes: none if there is no such number.
func vulgar(text string, n int) (over, under float64, length int) {
	if n == 0 && text != "" && (text[0] == '-' || text[0] == '+') {
		n = 1
	}
	after := n
	if n < len(text) && n > 0 {
		rest := strings.TrimLeftFunc(text[n:], unicode.IsSpace)
		after = len(text) - len(rest)
	}
	sign, width := utf8.DecodeRuneInString(text[after:])
	for _, v := range vulgars {
		if v.sign != sign {
			continue
		}
		whole, minus := strings.CutPrefix(text[:n], "-")
		whole = strings.TrimPrefix(whole, "+")
		if whole == "" && after > n || strings.Trim(whole, "0123456789") != "" || len(whole) > 15 {
			return 0, 0, 0 // "- ½", "1.5½", "1e3½"
		}
		ones, _ := strconv.ParseFloat("0"+whole, 64)
		over = float64(ones*v.under) + v.over
		if minus {
			over = -over
		}
		return over, v.under, after + width
	}
	return 0, 0, 0
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

// plain folds the many ways of typing a unit into one: u for micro, a point between
// factors, digits for powers, one degree sign, one space between words and none at a
// slash, "US gal" for "gal (US)". It writes into dst and returns nil for what has no room.
func plain(dst []byte, unit string) []byte {
	spaced := false
	for _, r := range unit {
		if unicode.IsSpace(r) {
			spaced = len(dst) > 0
			continue
		}
		glued := r == '/' || len(dst) > 0 && (dst[len(dst)-1] == '/' || bytes.HasSuffix(dst, []byte("°")))
		if spaced && !glued {
			dst = append(dst, ' ')
		}
		spaced = false
		n := len(dst)
		switch {
		case n > 0 && dst[n-1] == '^' && (r == '2' || r == '3'):
			dst[n-1] = byte(r)
		case r == '₃' && n > 0 && lower(dst[n-1]) == 'o': // CaCO₃
			dst = append(dst, '3')
		default:
			dst = appendPlain(dst, r)
		}
		if len(dst) > longestUnit-utf8.UTFMax {
			return nil
		}
	}
	return placeFirst(replace(replace(dst, " per ", "/"), "U.S.", "US"))
}

// appendPlain writes the one way of several in which a sign is typed.
func appendPlain(dst []byte, r rune) []byte {
	switch r {
	case '\u00b5', '\u03bc': // micro sign, Greek mu
		return append(dst, 'u')
	case '\u2126', '\u03a9': // ohm sign, Greek omega
		return append(dst, "ohm"...)
	case '\u00ba': // look-alike of the degree sign
		return append(dst, "°"...)
	case '\u2103':
		return append(dst, "°C"...)
	case '\u2109':
		return append(dst, "°F"...)
	case '\u212a': // kelvin sign
		return append(dst, 'K')
	case '²':
		return append(dst, '2')
	case '³':
		return append(dst, '3')
	case '\u00b7', '\u22c5', '*':
		return append(dst, '.')
	case '\u2032': // prime: feet
		return append(dst, '\'')
	case '\u2033', '\u201d': // double prime, closing quotation mark: inches
		return append(dst, '"')
	}
	return utf8.AppendRune(dst, r)
}

// replace puts a text that is no longer in the place of every old one.
func replace(in []byte, old, with string) []byte {
	for {
		i := bytes.Index(in, []byte(old))
		if i < 0 {
			return in
		}
		n := copy(in[i:], with)
		in = append(in[:i+n], in[i+len(old):]...)
	}
}

// placeFirst makes "US gal" of "gal (US)", and so for the imperial ones.
func placeFirst(unit []byte) []byte {
	before, rest, found := bytes.Cut(unit, []byte(" ("))
	place, after, closed := bytes.Cut(rest, []byte{')'})
	if !found || !closed || !hasName("US|UK|imp|imperial", place) {
		return unit
	}
	var room [longestUnit]byte
	moved := append(append(append(append(room[:0], place...), ' '), before...), after...)
	return unit[:copy(unit, moved)]
}
