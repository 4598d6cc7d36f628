package titration

import (
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// How a Carbon is written; behind all but the first stands a quantity.
const (
	degassedText = "degassed"
	closedDIC    = "closed, DIC "
	closedPH     = "closed, pH "
	openTo       = "open to "
)

const carbonWant = `"degassed", "closed, DIC 2000 µmol/kg", "closed, pH 8.1 total" or "open to 420 µatm"`

// MarshalText writes "degassed", "closed, DIC 2000 µmol/kg", "closed, pH 8.1 total" or "open
// to 420 µatm"; reading that gives the same back.
func (c Carbon) MarshalText() ([]byte, error) {
	switch c.kind {
	case closed:
		return behind(closedDIC, c.dic)
	case closedAt:
		return behind(closedPH, c.ph)
	case open:
		return behind(openTo, c.pco2)
	}
	return []byte(degassedText), nil
}

// behind writes a quantity behind what it is; one that is unknown is refused.
func behind(what string, quantity interface{ MarshalText() ([]byte, error) }) ([]byte, error) {
	text, err := quantity.MarshalText()
	if err == nil && len(text) == 0 {
		err = input.Bad(strings.TrimSpace(what), "nothing", "a quantity")
	}
	if err != nil {
		return nil, err
	}
	return append([]byte(what), text...), nil
}

// UnmarshalText reads what MarshalText writes.
func (c *Carbon) UnmarshalText(text []byte) error {
	made, err := parseCarbon(string(text))
	if err != nil {
		made = Closed(0) // which is refused
	}
	*c = made
	return err
}

func parseCarbon(given string) (Carbon, error) {
	if given == degassedText {
		return Degassed(), nil
	}
	if dic, found := strings.CutPrefix(given, closedDIC); found {
		x, err := units.Parse[units.AmountPerKilogram](dic)
		return Closed(x), input.In("carbon", err)
	}
	if ph, found := strings.CutPrefix(given, closedPH); found && ph != "" {
		x, err := units.Parse[carbonate.TotalPH](ph)
		return ClosedAt(x), input.In("carbon", err)
	}
	if air, found := strings.CutPrefix(given, openTo); found {
		x, err := units.Parse[carbonate.PCO2](air)
		return Open(x), input.In("carbon", err)
	}
	return Carbon{}, input.Bad("carbon", input.Quoted(given), carbonWant)
}

const afterAcid, pointPH = ": ", "pH "

// MarshalText writes "3 g: pH 4.5 total" or "3 g: 58.2 mV", and nothing for no point;
// reading that gives the same point back.
func (p Point) MarshalText() ([]byte, error) {
	if p.kind == noReading {
		return nil, nil
	}
	text, err := p.acid.MarshalText()
	if err != nil {
		return nil, err
	}
	if len(text) == 0 {
		return nil, input.Bad("acid", "nothing", "a mass")
	}
	if p.kind == readPH {
		return behind(string(text)+afterAcid+pointPH, carbonate.PHTotal(p.x))
	}
	return behind(string(text)+afterAcid, units.Voltage(p.x)*units.Millivolt)
}

// UnmarshalText reads what MarshalText writes, in any unit.
func (p *Point) UnmarshalText(text []byte) error {
	*p = Point{}
	given := string(text)
	if given == "" {
		return nil
	}
	mass, shown, found := strings.Cut(given, afterAcid)
	if !found || shown == pointPH {
		return input.Bad("point", input.Quoted(given), `the acid and what is shown, such as "3 g: pH 4.5 total"`)
	}
	acid, err := units.Parse[units.Mass](mass)
	if err != nil {
		return input.In("point", err)
	}
	if ph, isPH := strings.CutPrefix(shown, pointPH); isPH {
		x, err := units.Parse[carbonate.TotalPH](ph)
		if err == nil {
			*p = PH(acid, x)
		}
		return input.In("point", err)
	}
	e, err := units.Parse[units.Voltage](shown)
	if err == nil {
		*p = EMF(acid, e)
	}
	return input.In("point", err)
}
