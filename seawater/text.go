package seawater

import (
	"math"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// String writes the sample, "35.16504 g/kg at 25 °C", as MarshalText does.
func (s Sample) String() string {
	if !s.temperature.IsSet() && s == (Sample{}) {
		return ""
	}
	text := s.salinity.String() + " at " + s.temperature.String()
	if s.hot() {
		text += hotMark
	}
	return text
}

// hotMark is how hot water is written, so that none is read by a slip of the unit.
const hotMark = ", hot"

// MarshalText writes "35.16504 g/kg at 25 °C", hot water as "0 g/kg at 95 °C, hot",
// and nothing for the zero value; reading that gives the same sample back.
func (s Sample) MarshalText() ([]byte, error) {
	err := s.check()
	if s.hot() {
		_, err = HotWater(s.salinity, s.temperature)
	}
	if err != nil {
		return nil, err
	}
	return []byte(s.String()), nil
}

const sampleWant = `a salinity and a temperature such as "35 ppt at 25 °C" or "35.165 g/kg at 77 °F"`

// UnmarshalText reads "35 ppt at 25 °C", a practical salinity, or "35.165 g/kg at
// 25 °C", an absolute one. Hotter than 40 °C it has to say so: "0 g/kg at 95 °C, hot".
func (s *Sample) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*s = Sample{}
		return nil
	}
	*s = invalid()
	given, hot := strings.CutSuffix(string(text), hotMark)
	salinity, temperature, found := strings.Cut(given, " at ")
	if !found {
		return input.Bad("water", input.Quoted(string(text)), sampleWant)
	}
	t, err := units.Parse[units.Temperature](strings.TrimSpace(temperature))
	if err != nil {
		return err
	}
	of := FromAbsolute
	if hot {
		of = HotWater
	}
	if strings.HasSuffix(strings.TrimSpace(salinity), "g/kg") {
		absolute, err := units.Parse[units.AbsoluteSalinity](salinity)
		if err != nil {
			return err
		}
		*s, err = of(absolute, t)
		return err
	}
	practical, err := units.Parse[units.PracticalSalinity](salinity)
	if err != nil {
		return err
	}
	if err := practicalRange.Check(practical.Value()); err != nil {
		return err
	}
	*s, err = of(teos10.AbsoluteFromPractical(practical), t)
	return err
}

// String writes the portion, "40 g of 35.16504 g/kg at 25 °C", as MarshalText
// does.
func (p Portion) String() string {
	if p.none() {
		return ""
	}
	return p.Mass.String() + " of " + p.Sample.String()
}

// none tells the zero value, which stands for no water.
func (p Portion) none() bool { return !p.temperature.IsSet() && p == (Portion{}) }

// MarshalText writes "40 g of 35.16504 g/kg at 25 °C", and nothing for the zero
// value; reading that gives the same portion back. A mass of a water whose
// temperature nobody set is refused.
func (p Portion) MarshalText() ([]byte, error) {
	if p.none() {
		return nil, nil
	}
	if err := input.Set("temperature", p.temperature); err != nil {
		return nil, err
	}
	mass, err := p.Mass.MarshalText()
	if err == nil && len(mass) == 0 {
		err = input.Bad("mass", p.Mass.String(), "a finite number")
	}
	if err != nil {
		return nil, err
	}
	sample, err := p.Sample.MarshalText()
	if err != nil {
		return nil, err
	}
	return append(append(mass, " of "...), sample...), nil
}

// UnmarshalText reads "40 kg of 35 ppt at 25 °C" or "40 L of 35 ppt at 25 °C",
// the volume measured at that temperature.
func (p *Portion) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*p = Portion{}
		return nil
	}
	*p = Portion{invalid(), units.Mass(math.NaN())}
	amount, water, found := strings.Cut(string(text), " of ")
	if !found {
		return input.Bad("water", input.Quoted(string(text)), `an amount of a water such as "40 L of 35 ppt at 25 °C"`)
	}
	s, err := units.Parse[Sample](water)
	if err != nil {
		return err
	}
	if err := input.Set("temperature", s.temperature); err != nil { // "40 L of "
		return err
	}
	mass, err := units.Parse[units.Mass](amount)
	if err == nil {
		*p = s.OfMass(mass)
		return nil
	}
	volume, verr := units.Parse[units.Volume](amount)
	if verr != nil {
		return input.Bad("water", input.Quoted(string(text)),
			`a mass or a volume of a water such as "40 L of 35 ppt at 25 °C"`)
	}
	*p = s.OfVolume(volume)
	return nil
}
