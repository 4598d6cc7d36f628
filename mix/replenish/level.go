package replenish

import (
	"math"
	"strconv"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Level is so much of a parameter in a litre of water, and the way in which the
// keeper counts it: calcium as calcium or as calcium carbonate, nitrate as
// nitrate or as nitrogen. Results come in the way the question was put. It is
// made by [AlkalinityOf], [Parameter.Of], [Parameter.OfAmount] or
// [Parameter.Parse]; the zero value is "not given", which is not zero.
type Level struct {
	parameter Parameter
	amount    float64          // mmol/L; of alkalinity meq/L
	as        units.MolarMass  // 0: counted as an amount
	unit      units.Alkalinity // in which an alkalinity is written; 0: meq/L
}

// AlkalinityOf is a level of alkalinity, written in meq/L unless In says
// otherwise:
//
//	replenish.AlkalinityOf(8.2*units.DKH).In(units.DKH)
func AlkalinityOf(a units.Alkalinity) Level {
	return Level{parameter: Alkalinity, amount: a.MilliequivalentsPerLitre()}
}

// Of is a level in mass per litre, counted as what a test kit or a laboratory
// counts it:
//
//	replenish.Nitrate.Of(1.1*units.MilligramPerLitre, units.AsNitrogen)
//
// A molar mass by which nobody counts the parameter, such as that of nitrogen
// for calcium, is refused where the level is used.
func (p Parameter) Of(c units.MassPerLitre, as units.MolarMass) Level {
	return Level{parameter: p, amount: as.AmountPerLitre(c).MillimolesPerLitre(), as: as}
}

// OfAmount is a level in amount per litre.
func (p Parameter) OfAmount(c units.AmountPerLitre) Level {
	return Level{parameter: p, amount: c.MillimolesPerLitre()}
}

// Parse reads a level as the trade writes it: "8.2 dKH", "420 mg/L", "5 mg/L NO3",
// "1.1 mg/L N", "0.03 mg/L PO4", "1050 mg/L CaCO3", "10.4 mmol/L". Nitrate and
// phosphate have to say what the mass counts; "NO3-N" and "PO4-P" are N and P.
func (p Parameter) Parse(text string) (Level, error) {
	if !p.exists() {
		return Level{}, input.Bad("parameter", "none", "one of the parameters")
	}
	bad := func(want string) (Level, error) {
		return Level{}, input.Bad(p.String(), strconv.Quote(text), want)
	}
	if p == Alkalinity {
		a, err := units.Parse[units.Alkalinity](text)
		if err != nil {
			return Level{}, renamed(p.String(), err)
		}
		l := AlkalinityOf(a)
		switch text := strings.TrimSpace(text); {
		case strings.HasSuffix(text, "dKH"):
			l.unit = units.DKH
		case strings.HasSuffix(text, "CaCO3"):
			l.unit = units.PPMCaCO3
		}
		return l, nil
	}
	if c, err := units.Parse[units.AmountPerLitre](text); err == nil {
		return p.OfAmount(c), nil
	}
	mass, counted := strings.TrimSpace(text), ""
	if at := strings.LastIndex(mass, "/L"); at >= 0 {
		mass, counted = mass[:at+2], mass[at+2:]
	}
	counted = strings.TrimPrefix(strings.TrimSpace(counted), "as ")
	c, err := units.Parse[units.MassPerLitre](mass)
	if err != nil {
		want := "a level such as " + p.examples()
		if strings.Contains(text, "ppb") {
			want += "; ppb may be ug/L or ug/kg"
		}
		return bad(want)
	}
	for i, way := range about[p].countings {
		if counted == way.text || counted == about[p].countings[0].text+"-"+way.text && about[p].ambiguous || counted == "" && i == 0 && !about[p].ambiguous {
			return p.Of(c, way.mass), nil
		}
	}
	return bad("what the mass counts: " + p.examples())
}

func (p Parameter) examples() string {
	var list []string
	for _, way := range about[p].countings {
		list = append(list, `"mg/L `+way.text+`"`)
	}
	return strings.Join(append(list, `"mmol/L"`), " or ")
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

// Parameter returns what this is a level of.
func (l Level) Parameter() Parameter { return l.parameter }

// Exists tells whether a level was given.
func (l Level) Exists() bool { return l.parameter.exists() }

// Alkalinity returns a level of alkalinity, and NaN for any other.
func (l Level) Alkalinity() units.Alkalinity {
	if l.parameter != Alkalinity {
		return input.NaN[units.Alkalinity]()
	}
	return units.Alkalinity(l.amount) * units.MilliequivalentPerLitre
}

// AmountPerLitre returns the level in amount per litre, of alkalinity in
// equivalents; NaN for a level that was not given.
func (l Level) AmountPerLitre() units.AmountPerLitre {
	if !l.Exists() {
		return input.NaN[units.AmountPerLitre]()
	}
	return units.AmountPerLitre(l.amount) * units.MillimolePerLitre
}

// MassPerLitre returns the level as a mass, counted as the test that it came
// from; NaN for alkalinity and for a level that came as an amount.
func (l Level) MassPerLitre() units.MassPerLitre {
	if l.as == 0 {
		return input.NaN[units.MassPerLitre]()
	}
	return l.as.MassPerLitre(l.AmountPerLitre())
}

// As returns the level counted another way.
func (l Level) As(as units.MolarMass) Level {
	l.as = as
	return l
}

// In returns a level of alkalinity written in units.DKH, units.PPMCaCO3 or
// units.MilliequivalentPerLitre, and so are the results that answer it.
func (l Level) In(unit units.Alkalinity) Level {
	l.unit = unit
	return l
}

// like returns so much of the parameter, counted like l.
func (l Level) like(amount float64) Level {
	l.amount = amount
	return l
}

// Counted returns the level as the number and the unit in which it is counted:
// 420 and "mg/L Ca", or NaN and "" for a level that was not given.
func (l Level) Counted() (x float64, unit string) {
	switch {
	case !l.Exists():
		return math.NaN(), ""
	case l.parameter == Alkalinity && l.unit == units.DKH:
		return l.Alkalinity().DKH(), "dKH"
	case l.parameter == Alkalinity && l.unit == units.PPMCaCO3:
		return l.Alkalinity().PPMCaCO3(), "mg/L CaCO3"
	case l.parameter == Alkalinity:
		return l.amount, "meq/L"
	case l.as == 0:
		return l.amount, "mmol/L"
	}
	x = l.MassPerLitre().MilligramsPerLitre()
	for _, way := range about[l.parameter].countings {
		if way.mass == l.as {
			return x, "mg/L " + way.text
		}
	}
	return x, "mg/L as " + l.as.String()
}

// String writes the level as it is counted, "420 mg/L Ca", to six digits.
func (l Level) String() string {
	if !l.Exists() {
		return "nothing"
	}
	x, unit := l.Counted()
	return input.Number(x) + " " + unit
}

// MarshalText writes the level as it is counted, in full: Parse reads it back.
func (l Level) MarshalText() ([]byte, error) {
	if !l.Exists() {
		return nil, nil
	}
	x, unit := l.Counted()
	return []byte(strconv.FormatFloat(x, 'g', -1, 64) + " " + unit), nil
}

// check refuses a level that is not given, not finite, below zero or counted as
// nobody does.
func (l Level) check(field string) error {
	if err := l.checkCounting(field); err != nil {
		return err
	}
	return l.must(field, l.amount >= 0 && !math.IsInf(l.amount, 0), "zero or more")
}

// must refuses a level for which something does not hold.
func (l Level) must(field string, holds bool, want string) error {
	if holds {
		return nil
	}
	return input.Bad(field+": "+l.parameter.String(), l.String(), want)
}

// checkCounting refuses a level that is not given or counted as nobody does.
func (l Level) checkCounting(field string) error {
	if !l.Exists() {
		return input.Bad(field, "nothing", "a level")
	}
	if l.as == 0 {
		return nil
	}
	for _, way := range about[l.parameter].countings {
		if way.mass == l.as {
			return nil
		}
	}
	want := "an alkalinity (AlkalinityOf)"
	if l.parameter != Alkalinity {
		want = l.parameter.examples()
	}
	return input.Bad(field+": "+l.parameter.String(), "a mass of "+l.as.String(), want)
}
