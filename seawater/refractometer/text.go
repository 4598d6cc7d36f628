package refractometer

import (
	"math"
	"strconv"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

const inAir, inVacuum = " in air", " in vacuum"

// String writes "1.3394 in air".
func (n AirIndex) String() string { return indexText(n.value, inAir) }

// String writes "1.3398 in vacuum".
func (n VacuumIndex) String() string { return indexText(n.value, inVacuum) }

// MarshalText writes "1.3394 in air", and nothing for the index of nothing or NaN; reading
// that gives the same value back.
func (n AirIndex) MarshalText() ([]byte, error) { return writeIndex(n.value, inAir) }

// MarshalText writes "1.3398 in vacuum", and nothing for the index of nothing or NaN;
// reading that gives the same value back.
func (n VacuumIndex) MarshalText() ([]byte, error) { return writeIndex(n.value, inVacuum) }

// UnmarshalText reads "1.3394 in air". A bare number is refused: it is relative to what?
func (n *AirIndex) UnmarshalText(text []byte) (err error) {
	n.value, err = readIndex(string(text), inAir)
	return err
}

// UnmarshalText reads "1.3398 in vacuum".
func (n *VacuumIndex) UnmarshalText(text []byte) (err error) {
	n.value, err = readIndex(string(text), inVacuum)
	return err
}

func indexText(n float64, medium string) string {
	if n == 0 {
		return ""
	}
	return strconv.FormatFloat(n, 'g', -1, 64) + medium
}

func writeIndex(n float64, medium string) ([]byte, error) {
	switch {
	case math.IsNaN(n):
		return nil, nil
	case math.IsInf(n, 0):
		return nil, input.Bad("refractive index", input.Number(n), "a finite number")
	}
	return []byte(indexText(n, medium)), nil
}

func readIndex(text, medium string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	number, found := strings.CutSuffix(text, medium)
	n, err := input.ParseNumber(strings.TrimSpace(number))
	if !found || err != nil || math.IsNaN(n) || math.IsInf(n, 0) {
		return math.NaN(), input.Bad("refractive index", input.Quoted(text), `an index such as "1.3394`+medium+`"`)
	}
	return n, nil
}

// How liquids begin; behind all but pure water stands the content.
const (
	pureWater    = "pure water"
	seawaterOf   = "seawater "
	saltSolution = "sodium chloride "
	sugarOf      = "sucrose "
	liquidIndex  = "index "
)

// String writes "pure water", "seawater 35 PSS-78", "sodium chloride 3.5 %", "sucrose
// 15 %" or "index 1.3394 in air".
func (l Liquid) String() string {
	switch l.solute {
	case seaSalt:
		if l.content == 0 {
			return pureWater
		}
		return seawaterOf + units.Practical(l.content).String()
	case sodiumChloride:
		return saltSolution + units.Share(l.content).String()
	case sugar:
		return sugarOf + units.Share(l.content).String()
	case bare:
		return liquidIndex + InAir(l.content).String()
	}
	return ""
}

// MarshalText writes what String returns, and nothing for no liquid; reading that gives
// the same liquid back.
func (l Liquid) MarshalText() ([]byte, error) {
	if l.content != l.content || l.content < 0 || math.IsInf(l.content, 0) {
		return nil, input.Bad("liquid", l.String(), liquidWant)
	}
	return []byte(l.String()), nil
}

const liquidWant = `a liquid such as "pure water", "seawater 35 PSS-78" or "sodium chloride 3.5 %"`

// UnmarshalText reads what MarshalText writes.
func (l *Liquid) UnmarshalText(text []byte) error {
	*l = Liquid{}
	given := string(text)
	if given == "" {
		return nil
	}
	made, err := parseLiquid(given)
	if err == nil {
		*l = made
	}
	return err
}

func parseLiquid(given string) (Liquid, error) {
	if given == pureWater {
		return PureWater(), nil
	}
	if content, found := strings.CutPrefix(given, seawaterOf); found {
		s, err := units.Parse[units.PracticalSalinity](content)
		return SeawaterStandard(s), input.In("liquid", err)
	}
	if content, found := strings.CutPrefix(given, saltSolution); found {
		w, err := units.Parse[units.Fraction](content)
		return SaltSolution(w), input.In("liquid", err)
	}
	if content, found := strings.CutPrefix(given, sugarOf); found {
		w, err := units.Parse[units.Fraction](content)
		return SugarSolution(w), input.In("liquid", err)
	}
	if content, found := strings.CutPrefix(given, liquidIndex); found {
		n, err := readIndex(content, inAir)
		return IndexStandard(InAir(n)), input.In("liquid", err)
	}
	return Liquid{}, input.Bad("liquid", input.Quoted(given), liquidWant)
}

// scaleNames are the scales as they are written; behind those of gravity stands the pair.
var scaleNames = [...]struct {
	name   string
	solute solute
	unit   unit
}{
	{"practical salinity", seaSalt, plain},
	{"sea salt in g/kg", seaSalt, permille},
	{"gravity of seawater", seaSalt, gravity},
	{"sodium chloride in g/kg", sodiumChloride, permille},
	{"sodium chloride in %", sodiumChloride, percent},
	{"gravity of sodium chloride", sodiumChloride, gravity},
	{"Brix", sugar, percent},
	{"refractive index", bare, plain},
}

const rightAt = " at "

// String writes "practical salinity at 20 °C" or "gravity of seawater 25/25 °C at 20 °C",
// with the temperature at which the scale is right.
func (g Graduation) String() string {
	for _, s := range scaleNames {
		if s.solute != g.solute || s.unit != g.unit {
			continue
		}
		name := s.name
		if g.unit == gravity {
			name += " " + g.pair.String()
		}
		return name + rightAt + g.drawn.String()
	}
	return ""
}

// MarshalText writes what String returns, and nothing for no scale; reading that gives the
// same scale back. A scale that was drawn at no temperature is refused.
func (g Graduation) MarshalText() ([]byte, error) {
	switch {
	case g.solute == nothing:
		return nil, nil
	case !finite(g.drawn) || g.unit == gravity && !(finite(g.pair.Liquid) && finite(g.pair.Water)):
		return nil, input.Bad("graduation", g.String(), graduationWant)
	}
	return []byte(g.String()), nil
}

// finite tells a temperature that was set from none and NaN.
func finite(t units.Temperature) bool {
	return t.IsSet() && !math.IsNaN(t.Celsius()) && !math.IsInf(t.Celsius(), 0)
}

const graduationWant = `a scale such as "practical salinity at 20 °C" or "gravity of seawater 25/25 °C at 20 °C"`

// UnmarshalText reads what MarshalText writes.
func (g *Graduation) UnmarshalText(text []byte) error {
	*g = Graduation{}
	given := string(text)
	if given == "" {
		return nil
	}
	name, temperature, _ := strings.Cut(given, rightAt)
	t, err := units.Parse[units.Temperature](temperature)
	if err == nil {
		err = input.Set("temperature", t)
	}
	if err != nil {
		return input.In("graduation", err)
	}
	for _, s := range scaleNames {
		pair, found := strings.CutPrefix(name, s.name)
		if !found {
			continue
		}
		made := drawn(s.solute, s.unit).At(t)
		if s.unit == gravity {
			of, err := units.Parse[units.SpecificGravity]("1" + pair)
			if err != nil || !strings.HasPrefix(pair, " ") {
				continue
			}
			made = made.with(of.Pair())
		} else if pair != "" {
			continue
		}
		*g = made
		return nil
	}
	return input.Bad("graduation", input.Quoted(given), graduationWant)
}
