package units

import (
	"math/bits"
	"strings"
)

// Quantity is any quantity of this package: a Volume, a Temperature, a SpecificGravity. What
// it is tells a type switch, or Kind in words. No other package can add one.
type Quantity interface {
	String() string
	AppendText(text []byte) ([]byte, error)
	MarshalText() ([]byte, error)
	kind() kind
}

// Kind returns what a quantity is, in words: "volume", "practical salinity".
func Kind(q Quantity) string {
	if q == nil {
		return ""
	}
	return readers[q.kind()].name
}

// ReadAny reads a text of which it is not known what it is, as somebody types it at a
// prompt:
//
//	q, err := units.ReadAny("5 US gal")
//	switch q := q.(type) {
//	case units.Volume:
//		...
//
// Among, if given, are quantities of the kinds that fit, of any value, and nothing else is
// read. That decides what would be several things at once:
//
//	q, err := units.ReadAny("20 %", units.Volume(0), units.Fraction{})
//	q, err := units.ReadAny("35 ppt", units.PracticalSalinity{}, units.BareGravity(0))
//
// Text that is several of the kinds is refused with their names: "4 bar" may be of the air,
// a pipe or the sea. So is "35 ppt" if no kind is given. A difference of temperatures is
// read only where one is asked for. On error the quantity is nil and the error an
// *InputError. A number with a unit that is read costs one allocation, that of the quantity.
func ReadAny(text string, among ...Quantity) (Quantity, error) {
	var t typed
	t.take(text)
	wanted := kindsOf(among)
	if len(among) == 0 {
		wanted = 1<<len(readers) - 1 - 1<<temperatureDifferenceKind
		if u, several := severalThings.find(t.unit()); several && t.sound {
			return nil, t.refuse("quantity", u.refuse)
		}
	}
	var fits, refuses kinds
	var advice error // of the last that refuses
	for k := range readers {
		if wanted&(1<<k) == 0 || !readers[k].knows(&t) {
			continue
		}
		if err := readers[k].try(&t); err != nil {
			refuses |= 1 << k
			advice = err
		} else {
			fits |= 1 << k
		}
	}
	if (fits|refuses)&^(1<<moneyKind) != 0 { // "5 GAL" are not so many of a currency
		fits &^= 1 << moneyKind
	}
	switch {
	case fits.count() == 1:
		return readers[fits.first()].read(&t)
	case fits != 0:
		return nil, t.refuse("quantity", "it said of what: "+fits.list(reader.withArticle))
	case refuses.count() == 1:
		return nil, advice
	case t.fault() != "":
		return nil, t.refuse("quantity", t.fault())
	case refuses != 0:
		return nil, t.refuse("quantity", refuses.list(reader.withExample))
	case len(among) > 0:
		return nil, t.refuse("quantity", wanted.list(reader.withExample))
	}
	return nil, t.refuse("quantity", `a number with its unit such as "20 L", "25 °C", "35 PSS-78" or "14 days"`)
}

// reader is how one kind is read: by a table, or by a reader of its own if it has more than
// a number with a unit to look at.
type reader struct {
	name, example string
	table         *table
	make          func(x float64) Quantity
	looks         func(t typed) bool
	parse         func(text string) (Quantity, error)
}

// knows tells whether the text can be of this kind, or is refused by it with a reason.
func (r *reader) knows(t *typed) bool {
	if r.table == nil {
		return r.looks(*t)
	}
	if !t.sound {
		return false
	}
	_, known := r.table.find(t.unit())
	return known
}

// try tells whether what it knows can be read, without making it. Of what is known by its
// looks only read can tell.
func (r *reader) try(t *typed) error {
	if r.table == nil {
		return nil
	}
	_, err := r.table.value(t)
	return err
}

// read makes the quantity.
func (r *reader) read(t *typed) (Quantity, error) {
	if r.table == nil {
		return r.parse(t.text)
	}
	x, err := r.table.value(t)
	if err != nil {
		return nil, err
	}
	return r.make(x), nil
}

func (r reader) withArticle() string { return withArticle(r.name) }

func (r reader) withExample() string {
	if r.table != nil {
		return withArticle(r.name) + " such as " + r.table.example
	}
	return withArticle(r.name) + " such as " + r.example
}

// kind is the place of a quantity in readers, kinds a set of them.
type (
	kind  int
	kinds uint64
)

func (set kinds) count() int { return bits.OnesCount64(uint64(set)) }
func (set kinds) first() int { return bits.TrailingZeros64(uint64(set)) }

func kindsOf(among []Quantity) (set kinds) {
	for _, q := range among {
		if q != nil {
			set |= 1 << q.kind()
		}
	}
	return set
}

// list writes "an air pressure, a gauge pressure or a sea pressure".
func (set kinds) list(say func(reader) string) string {
	var list strings.Builder
	for k := range readers {
		if set&(1<<k) == 0 {
			continue
		}
		switch later := set >> (k + 1); {
		case list.Len() == 0:
		case later == 0:
			list.WriteString(" or ")
		default:
			list.WriteString(", ")
		}
		list.WriteString(say(readers[k]))
	}
	return list.String()
}

// severalThings are words that more than one kind would take for its own, if it is not
// known which is asked for.
var severalThings = table{units: []unit{
	{names: "", refuse: `its unit too, such as "20 L", "25 °C", "35 PSS-78" or "1.026 SG"`},
	{names: "ppt|‰", refuse: `it said of what: a practical salinity, "35 PSS-78", or an absolute one, "35 g/kg"`},
	{
		names: "ppm", capitals: true,
		refuse: `it said of what: a concentration, "5 mg/L" or "5 mg/kg", an alkalinity, "146 ppm CaCO3", ` +
			`or a dissolved-solids reading, "2 ppm x0.5"`,
	},
	{names: "ppb", refuse: `it said of what: a concentration, "5 ug/L" or "5 ug/kg"`},
	{
		names:  "oz|ounce",
		refuse: `it said of what: a mass, "0.5 lb" or "227 g", or a volume, "8 US fl oz" or "8 imp fl oz"`,
	},
	{names: "m", refuse: `"metre" for a length or "min" for a time`},
}}
