package carbonate

import (
	"math"
	"strconv"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// The spellings of the units of CO2; the first is written. A fugacity says that it is
// one, because it is counted in the unit of the partial pressure.
var (
	pressureUnits = [...]string{"µatm", "uatm"}
	fugacityUnits = [...]string{"µatm fugacity", "uatm fugacity"}
	fractionUnits = [...]string{"ppm", "ppmv", "µmol/mol", "umol/mol"}
)

const (
	pressureWant = `a partial pressure of CO2 such as "420 µatm"`
	fugacityWant = `a fugacity of CO2 such as "419 µatm fugacity"`
	fractionWant = `a mole fraction of CO2 in dry air such as "420 ppm"`
)

// String writes "420 µatm".
func (p PCO2) String() string { return number(float64(p)) + " " + pressureUnits[0] }

// String writes "419 µatm fugacity".
func (f FCO2) String() string { return number(float64(f)) + " " + fugacityUnits[0] }

// String writes "420 ppm".
func (x XCO2) String() string { return number(float64(x)) + " " + fractionUnits[0] }

// AppendText appends what MarshalText writes.
func (p PCO2) AppendText(text []byte) ([]byte, error) {
	return appendCO2(text, "pCO2", float64(p), pressureUnits[0])
}

// AppendText appends what MarshalText writes.
func (f FCO2) AppendText(text []byte) ([]byte, error) {
	return appendCO2(text, "fCO2", float64(f), fugacityUnits[0])
}

// AppendText appends what MarshalText writes.
func (x XCO2) AppendText(text []byte) ([]byte, error) {
	return appendCO2(text, "xCO2", float64(x), fractionUnits[0])
}

// MarshalText writes "420 µatm", and nothing for NaN; reading that gives the same value
// back.
func (p PCO2) MarshalText() ([]byte, error) { return p.AppendText(nil) }

// MarshalText writes "419 µatm fugacity", and nothing for NaN; reading that gives the same
// value back.
func (f FCO2) MarshalText() ([]byte, error) { return f.AppendText(nil) }

// MarshalText writes "420 ppm", and nothing for NaN; reading that gives the same value
// back.
func (x XCO2) MarshalText() ([]byte, error) { return x.AppendText(nil) }

// UnmarshalText reads a partial pressure such as "420 µatm"; an empty text is NaN. "420 ppm"
// is refused: that is a mole fraction in dry air.
func (p *PCO2) UnmarshalText(text []byte) error {
	x, err := readCO2("pCO2", string(text), pressureUnits[:], pressureWant)
	*p = PCO2(x)
	return err
}

// UnmarshalText reads a fugacity such as "419 µatm fugacity"; an empty text is NaN.
func (f *FCO2) UnmarshalText(text []byte) error {
	x, err := readCO2("fCO2", string(text), fugacityUnits[:], fugacityWant)
	*f = FCO2(x)
	return err
}

// UnmarshalText reads a mole fraction in dry air such as "420 ppm"; an empty text is NaN.
func (x *XCO2) UnmarshalText(text []byte) error {
	value, err := readCO2("xCO2", string(text), fractionUnits[:], fractionWant)
	*x = XCO2(value)
	return err
}

func appendCO2(text []byte, quantity string, x float64, unit string) ([]byte, error) {
	switch {
	case math.IsNaN(x):
		return text, nil
	case math.IsInf(x, 0):
		return text, input.Bad(quantity, number(x), "a finite number")
	}
	return append(append(strconv.AppendFloat(text, x, 'g', -1, 64), ' '), unit...), nil
}

func readCO2(quantity, text string, units []string, want string) (float64, error) {
	if text == "" {
		return math.NaN(), nil
	}
	x, name, ok := cutNumber(text)
	for _, unit := range units {
		if ok && strings.EqualFold(name, unit) {
			return x, nil
		}
	}
	return math.NaN(), input.Bad(quantity, input.Quoted(text), want)
}

// cutNumber takes a finite number off the front of a text. What follows is written
// with single spaces.
func cutNumber(text string) (x float64, rest string, ok bool) {
	text = strings.Join(strings.Fields(text), " ")
	end := strings.IndexFunc(text, func(r rune) bool { return !strings.ContainsRune("+-.0123456789eE", r) })
	if end < 0 {
		end = len(text)
	}
	x, err := input.ParseNumber(text[:end])
	return x, strings.TrimSpace(text[end:]), err == nil
}

// plusMinus stands between a number and its standard uncertainty.
const plusMinus = " ± "

// MarshalText writes "alkalinity 2300 µmol/kg", "pH 8.1 total", "pCO2 420 µatm", with
// " ± 2" behind if there is an uncertainty in the same unit, and nothing if nothing is
// known or it is NaN; reading that gives the same back.
func (k Known) MarshalText() ([]byte, error) {
	if k.kind == nothing || int(k.kind) >= len(kindNames) || math.IsNaN(k.value) {
		return nil, nil
	}
	text := append([]byte(kindNames[k.kind]), ' ')
	number := strconv.AppendFloat(text, k.Value(), 'g', -1, 64)
	switch {
	case math.IsInf(k.value, 0) || math.IsInf(k.uncertainty, 0) || math.IsNaN(k.uncertainty):
		return nil, input.Bad(kindNames[k.kind], k.number(), "a finite number with a finite uncertainty")
	case k.kind == acidity && !isSet(k.value):
		return nil, nil
	}
	text = append(append(number, ' '), k.unit()...)
	if k.uncertainty != 0 {
		text = strconv.AppendFloat(append(text, plusMinus...), k.uncertainty, 'g', -1, 64)
	}
	return text, nil
}

// unit is what the number is counted in, or the scale of a pH.
func (k Known) unit() string {
	switch k.kind {
	case acidity:
		return "total"
	case partialPressure, fugacityOfCO2:
		return pressureUnits[0]
	}
	return "µmol/kg"
}

const knownWant = `something known such as "alkalinity 2300 µmol/kg", "pH 8.1 total" or "pCO2 420 µatm ± 2"`

// UnmarshalText reads what MarshalText writes; contents in any unit of amount per
// kilogram. An empty text is nothing known.
func (k *Known) UnmarshalText(text []byte) error {
	*k = Known{}
	if len(text) == 0 {
		return nil
	}
	known, ok := parseKnown(strings.Join(strings.Fields(string(text)), " "))
	if !ok {
		return input.Bad("known", input.Quoted(string(text)), knownWant)
	}
	*k = known
	return nil
}

func parseKnown(text string) (k Known, ok bool) {
	text, uncertainty, doubted := strings.Cut(text, plusMinus)
	for i := alkalinity; int(i) < len(kindNames); i++ {
		number, found := strings.CutPrefix(text, kindNames[i]+" ")
		if !found {
			continue
		}
		var err error
		k.kind = i
		switch i {
		case acidity:
			k.value, err = readPH(number, "total")
		case partialPressure, fugacityOfCO2:
			k.value, err = readCO2("", number, pressureUnits[:], "")
		default:
			var x units.AmountPerKilogram
			x, err = units.Parse[units.AmountPerKilogram](number)
			k.value = float64(x)
		}
		rest := ""
		ok = err == nil && number != ""
		if doubted && ok {
			k.uncertainty, rest, ok = cutNumber(uncertainty)
		}
		return k, ok && rest == ""
	}
	return k, false
}

// natural begins a total that belongs to the salinity with something on top.
const natural = "natural + "

// MarshalText writes "412 µmol/kg", and nothing for the content that belongs to the
// salinity; reading that gives the same total back. Of a water to which some was added
// it writes "natural + 20 µmol/kg".
func (t Total) MarshalText() ([]byte, error) {
	switch {
	case t.measured:
		return t.content.MarshalText()
	case t.content == 0 || t.content != t.content:
		return nil, nil
	}
	return t.content.AppendText([]byte(natural))
}

// UnmarshalText reads what MarshalText writes, in any unit of amount per kilogram.
func (t *Total) UnmarshalText(text []byte) error {
	*t = Total{}
	if len(text) == 0 {
		return nil
	}
	content, added := strings.CutPrefix(string(text), natural)
	x, err := units.Parse[units.AmountPerKilogram](content)
	if err != nil {
		*t = Measured(x) // NaN
		return input.In("total", err)
	}
	*t = Total{x, !added}
	return nil
}

// The choices of Options are written by the names of the authors.

// MarshalText writes what String returns.
func (k K1K2) MarshalText() ([]byte, error) {
	return input.WriteChoice("K1 and K2", k, 0, K1K2(len(k1k2Domains)))
}

// UnmarshalText reads what String returns.
func (k *K1K2) UnmarshalText(text []byte) (err error) {
	*k, err = input.ReadChoice("K1 and K2", text, 0, K1K2(len(k1k2Domains)))
	return err
}

// MarshalText writes what String returns.
func (k KS) MarshalText() ([]byte, error) { return input.WriteChoice("KS", k, 0, KS(len(ksDomains))) }

// UnmarshalText reads what String returns.
func (k *KS) UnmarshalText(text []byte) (err error) {
	*k, err = input.ReadChoice("KS", text, 0, KS(len(ksDomains)))
	return err
}

// MarshalText writes what String returns.
func (k KF) MarshalText() ([]byte, error) { return input.WriteChoice("KF", k, 0, KF(len(kfDomains))) }

// UnmarshalText reads what String returns.
func (k *KF) UnmarshalText(text []byte) (err error) {
	*k, err = input.ReadChoice("KF", text, 0, KF(len(kfDomains)))
	return err
}

// MarshalText writes what String returns.
func (k KNH4) MarshalText() ([]byte, error) {
	return input.WriteChoice("KNH4", k, 0, KNH4(len(knh4Domains)))
}

// UnmarshalText reads what String returns.
func (k *KNH4) UnmarshalText(text []byte) (err error) {
	*k, err = input.ReadChoice("KNH4", text, 0, KNH4(len(knh4Domains)))
	return err
}

// MarshalText writes what String returns.
func (r BoronRatio) MarshalText() ([]byte, error) {
	return input.WriteChoice("ratio of boron", r, 0, BoronRatio(len(boronNames)))
}

// UnmarshalText reads what String returns.
func (r *BoronRatio) UnmarshalText(text []byte) (err error) {
	*r, err = input.ReadChoice("ratio of boron", text, 0, BoronRatio(len(boronNames)))
	return err
}
