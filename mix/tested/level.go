package tested

import (
	"math"
	"strconv"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/null"
	"example.org/wellmixed/units"
)

// Level is so much of a parameter in a litre of water, and the way in which the
// keeper counts it: calcium as calcium or as calcium carbonate, nitrate as
// nitrate or as nitrogen. Results come in the way the question was put. It is
// made by [AlkalinityOf], [Parameter.Of], [Parameter.OfAmount], [Parameter.OfMass],
// [Parameter.Parse] or read from text; the zero value is "not given", which is
// not zero.
type Level struct {
	parameter Parameter
	number    float64         // as the keeper counts it
	as        units.MolarMass // a mass in mg/L of that; 0: an amount in mmol/L, or an alkalinity
	hardness  Hardness        // in which an alkalinity is counted
}

// Hardness is a unit in which an alkalinity is counted.
type Hardness uint8

// The units of alkalinity.
const (
	Milliequivalents Hardness = iota // meq/L
	DKH                              // degrees of carbonate hardness
	CaCO3                            // mg/L of calcium carbonate

	hardnessEnd
)

// String returns "meq/L", "dKH" or "mg/L CaCO3".
func (h Hardness) String() string {
	if h < hardnessEnd {
		return hardnesses[h].symbol
	}
	return "no unit of alkalinity"
}

// MarshalText writes the unit.
func (h Hardness) MarshalText() ([]byte, error) {
	return input.WriteChoice("unit", h, Milliequivalents, hardnessEnd)
}

// UnmarshalText reads what MarshalText writes.
func (h *Hardness) UnmarshalText(text []byte) (err error) {
	*h, err = input.ReadChoice("unit", text, Milliequivalents, hardnessEnd)
	return err
}

// hardnesses are their names, as they are written, and what they are of.
var hardnesses = [...]struct {
	symbol string
	unit   units.Alkalinity
}{
	{"meq/L", units.MilliequivalentsPerLitre(1)},
	{"dKH", units.DKH(1)},
	{"mg/L CaCO3", units.PPMCaCO3(1)},
}

// AlkalinityOf is a level of alkalinity, counted in meq/L unless In says
// otherwise:
//
//	tested.AlkalinityOf(units.DKH(8.2)).In(tested.DKH)
func AlkalinityOf(a units.Alkalinity) Level {
	return Level{parameter: Alkalinity, number: a.MilliequivalentsPerLitre()}
}

// Of is a level in mass per litre, counted as what a test kit or a laboratory
// counts it:
//
//	tested.Nitrate.Of(1.1*units.MilligramPerLitre, units.AsNitrogen)
//
// A molar mass by which nobody counts the parameter, such as that of nitrogen
// for calcium, is refused where the level is used.
func (p Parameter) Of(c units.MassPerLitre, as units.MolarMass) Level {
	return Level{parameter: p, number: c.MilligramsPerLitre(), as: as}
}

// OfAmount is a level in amount per litre.
func (p Parameter) OfAmount(c units.AmountPerLitre) Level {
	return Level{parameter: p, number: c.MillimolesPerLitre()}
}

// OfMass is a level of a further solute, counted by its own mass:
//
//	tested.Parameter("copper").OfMass(0.2 * units.MilligramPerLitre)
//
// Of a parameter that has ways of counting it is refused where it is used.
func (p Parameter) OfMass(c units.MassPerLitre) Level { return p.Of(c, itself) }

// None is a level of zero, counted as the trade does: to be filled in with WithBase.
func (p Parameter) None() Level {
	f := p.facts()
	switch {
	case p == Alkalinity:
		return Level{parameter: p, hardness: DKH}
	case f == nil:
		return p.OfMass(0)
	case len(f.countings) == 0:
		return p.OfAmount(0)
	}
	return p.Of(0, f.countings[0].mass)
}

// Parse reads a level of the parameter as the trade writes it: "8.2 dKH",
// "420 mg/L", "5 mg/L NO3", "1.1 mg/L N", "0.03 mg/L PO4", "1050 mg/L CaCO3",
// "10.4 mmol/L". Nitrate, phosphate, silicate and ammonia have to say what the
// mass counts.
func (p Parameter) Parse(text string) (Level, error) {
	s := strings.TrimSpace(text)
	if before, of, found := strings.Cut(s, " of "); found {
		if Parameter(strings.ToLower(strings.TrimSpace(of))) != p {
			return Level{}, input.Bad(string(p), input.Quoted(text), "a level of "+string(p))
		}
		s = before
	}
	if !p.Exists() {
		return Level{}, input.Bad("parameter", "none", "one of the parameters")
	}
	if p == Alkalinity {
		return parseAlkalinity(s)
	}
	if c, err := units.Parse[units.AmountPerLitre](s); err == nil && p.facts() != nil {
		return p.OfAmount(c), nil
	}
	c, symbol, err := parseMass(s)
	if err != nil {
		want := "a level such as " + p.example()
		if bad, ok := err.(*units.InputError); ok && (strings.Contains(s, "ppm") || strings.Contains(s, "ppb")) {
			want = bad.Want + ", as in " + p.example()
		}
		return Level{}, input.Bad(string(p), input.Quoted(text), want)
	}
	f := p.facts()
	if f == nil {
		if symbol == "" || strings.EqualFold(symbol, string(p)) {
			return p.OfMass(c), nil
		}
		return Level{}, input.Bad(string(p), input.Quoted(text), "a level such as "+p.example())
	}
	for i, way := range f.countings {
		if way.is(symbol) || symbol == "" && i == 0 && f.bare {
			return p.Of(c, way.mass), nil
		}
	}
	return Level{}, input.Bad(string(p), input.Quoted(text), "what the mass counts: "+p.example())
}

// is tells whether a symbol means this counting of a parameter that is known: "N"
// is enough for "NO3-N".
func (w counting) is(symbol string) bool {
	_, element, compound := strings.Cut(w.symbol, "-")
	return strings.EqualFold(symbol, w.symbol) || compound && strings.EqualFold(symbol, element)
}

// parseMass takes "5 mg/L as NO3" apart.
func parseMass(s string) (c units.MassPerLitre, symbol string, err error) {
	mass := s
	if at := max(strings.LastIndex(mass, "/L"), strings.LastIndex(mass, "/l")); at >= 0 {
		mass, symbol = mass[:at+2], mass[at+2:]
	}
	c, err = units.Parse[units.MassPerLitre](mass)
	return c, strings.TrimPrefix(strings.TrimSpace(symbol), "as "), err
}

// parseAlkalinity keeps the number as it was written.
func parseAlkalinity(s string) (Level, error) {
	a, err := units.Parse[units.Alkalinity](s)
	if err != nil {
		return Level{}, renamed(string(Alkalinity), err)
	}
	l := AlkalinityOf(a)
	for h := DKH; h <= CaCO3; h++ {
		// What reads as one of a unit is written in that unit.
		number, _, _ := strings.Cut(s, " ")
		if one, err := units.Parse[units.Alkalinity]("1 " + strings.TrimSpace(strings.TrimPrefix(s, number))); err == nil &&
			one.MilliequivalentsPerLitre() == hardnesses[h].unit.MilliequivalentsPerLitre() {
			l = l.In(h)
		}
	}
	return l, nil
}

// renamed gives an input error of a lower layer the name of a parameter.
func renamed(field string, err error) error {
	if bad, ok := err.(*units.InputError); ok {
		named := *bad
		named.Field = field
		return &named
	}
	return err
}

// UnmarshalText reads a level that says what it is of: "24 mg/L NO3",
// "8.2 dKH", "420 mg/L Ca", "10.4 mmol/L of calcium", "146 mg/L CaCO3 of
// alkalinity", "0.2 mg/L of copper". An empty text is a level that was not given.
func (l *Level) UnmarshalText(text []byte) error {
	*l = Level{}
	s := strings.TrimSpace(string(text))
	if s == "" {
		return nil
	}
	if _, of, found := strings.Cut(s, " of "); found {
		var p Parameter
		if err := p.UnmarshalText([]byte(of)); err != nil {
			return err
		}
		var err error
		*l, err = p.Parse(s)
		return err
	}
	if a, err := parseAlkalinity(s); err == nil && a.hardness != CaCO3 {
		*l = a
		return nil
	}
	_, symbol, err := parseMass(s)
	if err == nil {
		for i := range known {
			for _, way := range known[i].countings {
				if strings.EqualFold(symbol, way.symbol) && way.symbol != "CaCO3" {
					*l, err = known[i].name.Parse(s)
					return err
				}
			}
		}
	}
	return input.Bad("level", input.Quoted(s),
		`a level that says what it is of, such as "24 mg/L NO3", "8.2 dKH" or "146 mg/L CaCO3 of alkalinity"`)
}

// Parameter returns what this is a level of.
func (l Level) Parameter() Parameter { return l.parameter }

// Exists tells whether a level was given.
func (l Level) Exists() bool { return l.parameter.Exists() }

// Base returns the level in the base unit of its parameter, however it is counted:
// meq/L, mmol/L, or mg/L of a further solute. NaN if it was not given.
func (l Level) Base() float64 {
	switch {
	case !l.Exists():
		return math.NaN()
	case l.parameter == Alkalinity && l.as == 0:
		if int(l.hardness) >= len(hardnesses) {
			return math.NaN()
		}
		return l.number * hardnesses[l.hardness].unit.MilliequivalentsPerLitre()
	case l.as == 0 || l.as == itself:
		return l.number
	}
	return l.number / l.as.GramsPerMole()
}

// WithBase returns so much of the parameter, counted like l.
func (l Level) WithBase(x float64) Level {
	switch {
	case l.parameter == Alkalinity && l.as == 0:
		l.number = math.NaN()
		if int(l.hardness) < len(hardnesses) {
			l.number = x / hardnesses[l.hardness].unit.MilliequivalentsPerLitre()
		}
	case l.as == 0 || l.as == itself:
		l.number = x
	default:
		l.number = x * l.as.GramsPerMole()
	}
	return l
}

// Scale multiplies the level in its place: so many times as much, counted as it is.
func (l *Level) Scale(by float64) { l.number *= by }

// Alkalinity returns a level of alkalinity, and NaN for any other.
func (l Level) Alkalinity() units.Alkalinity {
	if l.parameter != Alkalinity {
		return units.MilliequivalentsPerLitre(math.NaN())
	}
	return units.MilliequivalentsPerLitre(l.Base())
}

// AmountPerLitre returns the level in amount per litre, of alkalinity in
// equivalents; NaN for a level that was not given and for a further solute.
func (l Level) AmountPerLitre() units.AmountPerLitre {
	if l.as == itself {
		return input.NaN[units.AmountPerLitre]()
	}
	return units.AmountPerLitre(l.Base()) * units.MillimolePerLitre
}

// MassPerLitre returns the level as a mass, counted as the test that it came
// from; NaN for alkalinity and for a level that came as an amount.
func (l Level) MassPerLitre() units.MassPerLitre {
	if l.as == 0 {
		return input.NaN[units.MassPerLitre]()
	}
	return units.MassPerLitre(l.number) * units.MilligramPerLitre
}

// As returns the level counted another way.
func (l Level) As(as units.MolarMass) Level {
	base := l.Base()
	l.as = as
	return l.WithBase(base)
}

// In returns a level of alkalinity counted in another unit, and so are the results
// that answer it.
func (l Level) In(h Hardness) Level {
	base := l.Base()
	l.hardness = h
	return l.WithBase(base)
}

// Counted returns the level as the number and the unit in which it is counted:
// 420 and "mg/L Ca", or NaN and "" for a level that was not given.
func (l Level) Counted() (x float64, unit string) {
	switch {
	case !l.Exists():
		return math.NaN(), ""
	case l.parameter == Alkalinity && l.as == 0:
		return l.number, l.hardness.String()
	case l.as == 0:
		return l.number, "mmol/L"
	case l.as == itself:
		return l.number, "mg/L"
	}
	if way := l.way(); way != nil {
		return l.number, "mg/L " + way.symbol
	}
	return l.number, "mg/L as " + l.as.String()
}

// way returns how a mass is counted, nil if nobody counts the parameter so.
func (l Level) way() *counting {
	if f := l.parameter.facts(); f != nil {
		for i := range f.countings {
			if f.countings[i].mass == l.as {
				return &f.countings[i]
			}
		}
	}
	return nil
}

// of is what has to be said besides the unit, for a reader to know of what.
func (l Level) of() string {
	way := l.way()
	switch {
	case l.parameter == Alkalinity && l.hardness != CaCO3, way != nil && way.symbol != "CaCO3":
		return ""
	}
	return " of " + string(l.parameter)
}

// String writes the level as it is counted, "420 mg/L Ca", to six digits.
func (l Level) String() string {
	if !l.Exists() {
		return "nothing"
	}
	x, unit := l.Counted()
	return input.Number(x) + " " + unit + l.of()
}

// AppendText appends what MarshalText writes.
func (l Level) AppendText(text []byte) ([]byte, error) {
	if !l.Exists() {
		return text, nil
	}
	x, unit := l.Counted()
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return text, input.Bad(string(l.parameter), l.String(), "a finite number")
	}
	text = strconv.AppendFloat(text, x, 'g', -1, 64)
	return append(append(append(text, ' '), unit...), l.of()...), nil
}

// MarshalText writes the level as it is counted and what it is of, in full;
// reading that gives the same level back. One that was not given is empty.
func (l Level) MarshalText() ([]byte, error) { return l.AppendText(nil) }

// MarshalJSON writes the text, and null for a level that was not given.
func (l Level) MarshalJSON() ([]byte, error) { return null.Write(l) }

// Check refuses a level that is not given, not finite, below zero or counted as
// nobody does. Alkalinity may be below zero, in acid water.
func (l Level) Check(field string) error {
	if err := l.CheckCounting(field); err != nil {
		return err
	}
	if x := l.Base(); l.parameter == Alkalinity {
		return l.Must(field, math.Abs(x) < mostAlkalinity, "a number of ordinary size")
	} else {
		return l.Must(field, x >= 0 && !math.IsInf(x, 0), "zero or more")
	}
}

// mostAlkalinity is beyond any water, in meq/L.
const mostAlkalinity = 1000

// Must refuses a level for which something does not hold.
func (l Level) Must(field string, holds bool, want string) error {
	if holds {
		return nil
	}
	return input.Bad(field+"."+string(l.parameter), l.String(), want)
}

// CheckCounting refuses a level that is not given or counted as nobody does.
func (l Level) CheckCounting(field string) error {
	f := l.parameter.facts()
	switch {
	case !l.Exists():
		return input.Bad(field, "nothing", "a level")
	case l.parameter == Alkalinity && l.as == 0 && l.hardness <= CaCO3:
		return nil
	case f == nil && l.as == itself, f != nil && l.parameter != Alkalinity && (l.as == 0 || l.way() != nil):
		return nil
	}
	got := "a mass of " + l.as.String()
	if l.as == 0 {
		got = "an amount"
	}
	return input.Bad(field+"."+string(l.parameter), got, l.parameter.example())
}
