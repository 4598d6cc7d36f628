package carbonate

import (
	"math"
	"strings"

	"example.org/wellmixed/internal/input"
)

// UnmarshalText reads a pH with its scale, such as "8.1 total". A bare number is
// refused: it could be on any of four scales, a quarter of a unit apart.
func (p *TotalPH) UnmarshalText(text []byte) (err error) {
	p.value, err = readPH(string(text), "total")
	return err
}

// UnmarshalText reads a pH with its scale, such as "8.2 free".
func (p *FreePH) UnmarshalText(text []byte) (err error) {
	p.value, err = readPH(string(text), "free")
	return err
}

// UnmarshalText reads a pH with its scale, such as "8.1 seawater".
func (p *SeawaterPH) UnmarshalText(text []byte) (err error) {
	p.value, err = readPH(string(text), "seawater")
	return err
}

// UnmarshalText reads a pH with its scale, such as "8.2 NBS".
func (p *NBSPH) UnmarshalText(text []byte) (err error) {
	p.value, err = readPH(string(text), "NBS")
	return err
}

// MarshalText writes "8.1 total"; reading that gives the same value back.
func (p TotalPH) MarshalText() ([]byte, error) { return writePH(p.value, "total") }

// MarshalText writes "8.2 free"; reading that gives the same value back.
func (p FreePH) MarshalText() ([]byte, error) { return writePH(p.value, "free") }

// MarshalText writes "8.1 seawater"; reading that gives the same value back.
func (p SeawaterPH) MarshalText() ([]byte, error) { return writePH(p.value, "seawater") }

// MarshalText writes "8.2 NBS"; reading that gives the same value back.
func (p NBSPH) MarshalText() ([]byte, error) { return writePH(p.value, "NBS") }

// readPH reads "8.1 total", also as String writes it, "8.1 (total scale)".
// An empty text is a pH that nobody set.
func readPH(text, scale string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	want := `a pH with its scale, such as "8.1 ` + scale + `"`
	number, name, _ := strings.Cut(strings.TrimSpace(text), " ")
	name = strings.TrimSuffix(strings.Trim(strings.TrimSpace(name), "()"), " scale")
	if name == "NIST" { // the same scale by its newer name
		name = "NBS"
	}
	x, err := input.ParseNumber(number)
	if err != nil || !(math.Abs(x) <= 20) || !strings.EqualFold(name, scale) {
		return math.NaN(), input.Bad("pH", input.Quoted(text), want)
	}
	return kept(x), nil
}

// writePH writes nothing for a pH that nobody set or NaN.
func writePH(x float64, scale string) ([]byte, error) {
	switch {
	case !isSet(x) || math.IsNaN(x):
		return nil, nil
	case math.IsInf(x, 0):
		return nil, input.Bad("pH", number(x), "a number")
	}
	return []byte(number(x+0) + " " + scale), nil // minus zero becomes zero
}
