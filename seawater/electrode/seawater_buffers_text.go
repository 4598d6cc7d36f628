package electrode

import (
	"strconv"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// The names of the seawater buffers; a salinity follows, and of tris 2018 its molality.
var formulaNames = [...]string{tris1998: "tris", tris2018: "tris 2018", aminopyridine2007: "aminopyridine"}

const inSeawater, ofMolality, molesPerKilogram = " in ", ", ", " mol/kg"

// String writes "tris in 35 PSS-78" or "tris 2018 in 35 PSS-78, 0.04 mol/kg".
func (b SeawaterBuffer) String() string {
	if b.formula == 0 || int(b.formula) >= len(formulaNames) {
		return ""
	}
	text := formulaNames[b.formula] + inSeawater + units.Practical(b.salinity).String()
	if b.formula == tris2018 {
		text += ofMolality + strconv.FormatFloat(b.molality, 'g', -1, 64) + molesPerKilogram
	}
	return text
}

// MarshalText writes "tris in 35 PSS-78", "tris 2018 in 35 PSS-78, 0.04 mol/kg" or
// "aminopyridine in 35 PSS-78", and nothing for no buffer; reading that gives the same
// buffer back. The molality is per kilogram of water.
func (b SeawaterBuffer) MarshalText() ([]byte, error) {
	if b.formula == 0 {
		return nil, nil
	}
	if !(b.salinity >= 0 && b.salinity <= 120 && b.molality >= 0 && b.molality <= 100) {
		return nil, input.Bad("buffer", b.String(), "one in water of a salinity, with a molality")
	}
	return []byte(b.String()), nil
}

// UnmarshalText reads what MarshalText writes.
func (b *SeawaterBuffer) UnmarshalText(text []byte) error {
	*b = SeawaterBuffer{}
	if len(text) == 0 {
		return nil
	}
	name, made, _ := strings.Cut(string(text), inSeawater)
	salinity, molality, told := strings.Cut(made, ofMolality)
	s, err := units.Parse[units.PracticalSalinity](salinity)
	if err != nil {
		return input.In("buffer", err)
	}
	switch i := named(formulaNames[:], []byte(name)); {
	case i == int(tris2018) && told:
		number, known := strings.CutSuffix(molality, molesPerKilogram)
		m, err := input.ParseNumber(number)
		if err == nil && known && m >= 0 && m <= 100 {
			*b = SeawaterBuffer{formula: tris2018, salinity: s.Value(), molality: m}
			return nil
		}
	case i == int(tris1998) && !told:
		*b = Tris(s)
		return nil
	case i == int(aminopyridine2007) && !told:
		*b = Aminopyridine(s)
		return nil
	}
	return input.Bad("buffer", input.Quoted(string(text)), `a buffer such as "tris in 35 PSS-78"`)
}
