package units

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// Duration is a length of time that reads and writes text as the other quantities do:
// a time.Duration, to which it converts without loss.
//
//	every, err := units.Parse[units.Duration]("2 weeks")
//	course.Every = time.Duration(every)
//
// It is at most 292 years. The least of all, which text that was refused leaves, is an
// unknown one, and below zero.
type Duration time.Duration

// Lengths of the units that have no fixed one: a year of 365 days (NIST SP 811, appendix
// B.8), and a month of a twelfth of that, 730 h.
const (
	unknownDuration = Duration(math.MinInt64)
	hoursOfYear     = 365 * 24
	hoursOfMonth    = hoursOfYear / 12
)

// durationUnits counts in hours, for flows.
var durationUnits = table{
	quantity: "time", base: "h", example: `"36 h", "14 days", "6 h 35 min" or "3 months"`,
	units: []unit{
		{names: "s|sec|second", size: 1, per: 3600},
		{names: "min|minute", size: 1, per: 60, capitals: true},
		{names: "h|hr|hour", size: 1},
		{names: "d|day", size: 24},
		{names: "wk|week", size: 7 * 24},
		{names: "mo|month", size: hoursOfMonth, capitals: true},
		{names: "yr|year", size: hoursOfYear},
		{names: "m", refuse: `"min" for minutes or "months"`},
		{names: "ms|us|ns", refuse: `the time in s`},
	},
}

const hourNanoseconds = 3.6e12

// UnmarshalText reads "36 h", "14d", "2 weeks", "3 months", "½ year", and from the longest
// unit to the shortest "1 day 12 h", "6 h 35 min", "1h30m0s". A year has 365 days, a month
// a twelfth of that.
func (d *Duration) UnmarshalText(text []byte) error {
	*d = unknownDuration
	if len(text) == 0 {
		return nil
	}
	given := string(text)
	ns, want := parseDuration(given)
	if want != "" {
		return &InputError{"time", Quoted(given), want}
	}
	*d = Duration(ns)
	return nil
}

// parseDuration sums the parts of a duration, and says what is wanted of one that it
// cannot read.
func parseDuration(text string) (ns int64, want string) {
	if len(text) > longest {
		return 0, durationUnits.want()
	}
	rest, minus := strings.CutPrefix(tidy(text), "-")
	last := math.Inf(1) // hours of the unit before
	for first := true; first || rest != ""; first = false {
		if rest == "" || rest[0] == '-' || rest[0] == '+' && !first {
			return 0, durationUnits.want()
		}
		var t typed
		n := partLen(rest)
		t.take(rest[:n])
		rest = strings.TrimSpace(rest[n:])
		part, hours, fault := durationPart(&t, last)
		if fault != "" {
			return 0, fault
		}
		last = hours
		if ns += part; ns < 0 {
			return 0, "at most 292 years"
		}
	}
	if minus {
		ns = -ns
	}
	return ns, ""
}

// durationPart reads "35 min" after a unit of so many hours; what is wanted stands beside
// what it cannot read.
func durationPart(t *typed, after float64) (ns int64, hours float64, want string) {
	if want := t.fault(); want != "" {
		return 0, 0, want
	}
	u, known := durationUnits.find(t.unit())
	if known && u.refuse != "" && !math.IsInf(after, 1) && t.is("m") { // "1h30m": after hours it is minutes
		u = unit{size: 1, per: 60}
	}
	switch hours = u.worth(1); {
	case !t.sound || !known:
		return 0, 0, durationUnits.want()
	case u.refuse != "":
		return 0, 0, u.refuse
	case !(hours < after):
		return 0, 0, `each unit once, the longest first, as in "6 h 35 min"`
	}
	u.size *= hourNanoseconds
	switch x := math.Round(u.worth(t.x)); {
	case !(math.Abs(x) < 1<<63):
		return 0, 0, "at most 292 years"
	case x == 0 && t.x != 0:
		return 0, 0, "a number of ordinary size"
	default:
		return int64(x), hours, ""
	}
}

// partLen returns how many bytes of s a number and its unit take: up to the next number.
func partLen(s string) int {
	unit := numberLen(s)
	if _, _, n := vulgar(s, unit); n > 0 {
		unit = n
	}
	unit += len(s[unit:]) - len(strings.TrimLeft(s[unit:], partOfNumber+","))
	if next := strings.IndexAny(s[unit:], "0123456789-½¼¾⅓⅔"); next >= 0 {
		return unit + next
	}
	return len(s)
}

// parts are the units in which durations are written, the longest first.
var parts = [...]struct {
	ns        int64
	one, many string
}{
	{24 * int64(time.Hour), " day", " days"},
	{int64(time.Hour), " h", " h"},
	{int64(time.Minute), " min", " min"},
	{int64(time.Second), " s", " s"},
}

// appendDuration writes "3 days 6 h 35 min 0.5 s" of what is not zero.
func appendDuration(text []byte, d Duration) []byte {
	ns := int64(d)
	if ns < 0 {
		text, ns = append(text, '-'), -ns
	}
	begin := len(text)
	for i, p := range parts {
		n := ns / p.ns
		ns -= n * p.ns
		last := i == len(parts)-1
		switch {
		case last && ns > 0: // with nine decimals at most, which a float64 has exactly enough digits for
			text = spaced(text, begin)
			text = strconv.AppendFloat(text, float64(n*p.ns+ns)/1e9, 'f', -1, 64)
		case n > 0 || last && len(text) == begin:
			text = spaced(text, begin)
			text = strconv.AppendInt(text, n, 10)
		default:
			continue
		}
		if n == 1 && ns == 0 || n == 1 && !last {
			text = append(text, p.one...)
		} else {
			text = append(text, p.many...)
		}
	}
	return text
}

func spaced(text []byte, begin int) []byte {
	if len(text) > begin {
		return append(text, ' ')
	}
	return text
}

// String writes "6 h 35 min", as MarshalText does.
func (d Duration) String() string {
	if d == unknownDuration {
		return "NaN s"
	}
	return string(appendDuration(nil, d))
}

// AppendText appends what MarshalText writes.
func (d Duration) AppendText(text []byte) ([]byte, error) {
	if d == unknownDuration {
		return text, nil
	}
	return appendDuration(text, d), nil
}

// MarshalText writes "6 h 35 min"; reading that gives the same value back.
func (d Duration) MarshalText() ([]byte, error) { return d.AppendText(nil) }
