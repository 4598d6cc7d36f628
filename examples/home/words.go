package home

import (
	"math"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// salinity reads a salinity in any of the ways that keepers measure it.
func (h *Home) salinity(f *file, path string, into **units.PracticalSalinity, meaning, example string) {
	f.by(path, func(text string) error {
		s, err := h.Salinity(path, text)
		if err == nil {
			*into = &s
		}
		return err
	}, meaning, example)
}

// Salinity reads "35 ppt", "35.2 g/kg", "1.026 SG", "1.0264 25/25 °C", "53 mS/cm at 25 °C" or
// "36.5 ppt NaCl scale". What it takes for granted is noted, with the name of what is read.
func (h *Home) Salinity(name, text string) (units.PracticalSalinity, error) {
	if number, found := cutWord(text, "ppt nacl scale"); found {
		return h.fromSaltScale(name, number)
	}
	q, _ := units.ReadAny(text, units.PracticalSalinity{}, units.AbsoluteSalinity{}, units.SpecificGravity{},
		units.BareGravity(0), units.ConductivityAt{})
	var water seawater.Sample
	var err error
	switch q := q.(type) {
	case units.PracticalSalinity:
		return q, nil
	case units.AbsoluteSalinity:
		return teos10.PracticalFromAbsolute(q), nil
	case units.SpecificGravity:
		water, err = seawater.FromSpecificGravity(q)
	case units.BareGravity:
		h.Guess("prefer.gravity", "a plain SG is taken at "+h.Pair.String()+
			"; set it if your meter has another pair of temperatures")
		water, err = seawater.FromSpecificGravity(q.At(h.Pair))
	case units.ConductivityAt:
		water, err = seawater.FromConductivity(q.Conductivity, q.Temperature)
	default:
		err = &units.InputError{Field: name, Got: units.Quoted(text),
			Want: `a salinity such as "35 ppt", "35.2 g/kg", "1.026 SG", "1.0264 25/25 °C", "53 mS/cm at 25 °C" or, of a ` +
				`refractometer, "36.5 ppt NaCl scale"`}
	}
	return water.Practical(), err
}

// cutWord cuts a word from the end of a text, in either case.
func cutWord(text, word string) (before string, found bool) {
	text = strings.TrimSpace(text)
	if len(text) <= len(word) || !strings.EqualFold(text[len(text)-len(word):], word) {
		return text, false
	}
	return strings.TrimSpace(text[:len(text)-len(word)]), true
}

// fromSaltScale is what a refractometer means whose scale was drawn for common salt.
func (h *Home) fromSaltScale(name, number string) (units.PracticalSalinity, error) {
	x, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return units.Practical(math.NaN()), &units.InputError{Field: name, Got: units.Quoted(number), Want: "a number of ppt"}
	}
	pure := refractometer.PureWater()
	i := refractometer.Instrument{
		Graduation:   refractometer.SodiumChloridePermille(),
		Zero:         refractometer.Zeroing{Standard: pure, Temperature: units.Celsius(20)},
		Compensation: refractometer.Automatic(pure),
	}
	s, err := i.Salinity(refractometer.Reading(x), units.Celsius(20))
	h.Note(name, "the refractometer is taken as zeroed on pure water, compensated, and read at 20 °C")
	return teos10.PracticalFromAbsolute(s), err
}

// levels reads what is said of all parameters at a path: "tank.nitrate". A mass that does
// not say what it counts is taken as the trade counts, and that is noted.
func (h *Home) levels(f *file, path string, into *tested.Levels, meaning, example string) {
	f.keys = append(f.keys, Key{Path: path + ".LEVEL", Meaning: meaning, Example: example})
	for _, p := range tested.Parameters() {
		if p == tested.FreeAmmonia { // comes of ammonia and pH
			continue
		}
		at := path + "." + strings.ReplaceAll(string(p), " ", "_")
		f.by(at, func(text string) error {
			l, err := p.Parse(text)
			if err != nil && p != tested.Alkalinity {
				var c units.MassPerLitre
				if c, err = units.Parse[units.MassPerLitre](text); err == nil {
					perBase, unit := p.None().WithBase(1).Counted()
					l = p.None().WithBase(c.MilligramsPerLitre() / perBase)
					h.Note(string(p), "mg/L is taken as "+unit)
				}
			}
			if err == nil {
				*into = append(*into, l)
			}
			return err
		}, "", levelExample(strings.ReplaceAll(string(p), " ", "_")))
	}
}

// tds reads a dissolved-solids reading, "236 ppm x0.5", "236 ppm" or "470 µS/cm".
func (h *Home) tds(f *file, path string, into *units.TDS, meaning, example string) {
	f.by(path, func(text string) error {
		r, err := units.Parse[units.TDS](text)
		if c, cond := units.Parse[units.Conductivity](text); err != nil && cond == nil {
			r, err = units.TDSReading(c.MicrosiemensPerCentimetre()*0.5, 0.5), nil
		} else if number, ppm := cutWord(text, "ppm"); err != nil && ppm {
			if r, err = units.Parse[units.TDS](number + " ppm x0.5"); err == nil {
				h.Note("dissolved solids", "ppm is taken as half the µS/cm, as on most hand-held meters; write \"236 ppm x0.7\" "+
					"of another")
			}
		}
		*into = r
		return err
	}, meaning, example)
}

// ratio reads "3:1", or "3".
func ratio(f *file, path string, into *float64, meaning, example string) {
	f.by(path, func(text string) error {
		if x, err := number64(strings.TrimSpace(text)); err == nil && x >= 0 && x < 1000 {
			*into = x
			return nil
		}
		r, err := units.Parse[units.Ratio](text)
		*into = float64(r)
		return err
	}, meaning, example)
}

// number reads a plain number above zero.
func number(f *file, path string, into *float64, meaning, example string) {
	f.by(path, func(text string) error {
		x, err := number64(strings.TrimSpace(text))
		if err != nil || !(x > 0 && x < 1e6) {
			return &units.InputError{Got: text, Want: "a number above zero, such as " + units.Quoted(example)}
		}
		*into = x
		return nil
	}, meaning, example)
}

// number64 reads a decimal number, and not what else Go takes for one, such as 0x10.
func number64(text string) (float64, error) {
	if len(text) > 60 || strings.Trim(text, "0123456789.+-eE") != "" {
		return math.NaN(), strconv.ErrSyntax
	}
	return strconv.ParseFloat(text, 64)
}

// Swap is how much water a change takes: a volume, or a share of the tank.
type Swap struct {
	Volume units.Volume
	Share  units.Fraction
}

// Of is the volume in a tank.
func (s Swap) Of(tank units.Volume) units.Volume {
	return s.Volume + tank*units.Volume(s.Share.Value())
}

// UnmarshalText reads "42 L" or "15 %".
func (s *Swap) UnmarshalText(text []byte) error {
	*s = Swap{}
	if share, err := units.Parse[units.Fraction](string(text)); err == nil {
		s.Share = share
		return nil
	}
	return s.Volume.UnmarshalText(text)
}

// Moment is a date, with or without a time of day.
type Moment struct{ time.Time }

// UnmarshalText reads "2026-03-07" or "2026-03-07 08:00".
func (m *Moment) UnmarshalText(text []byte) error {
	for _, layout := range [...]string{"2006-01-02 15:04", time.DateOnly} {
		if at, err := time.Parse(layout, strings.TrimSpace(string(text))); err == nil {
			m.Time = at
			return nil
		}
	}
	return &units.InputError{Field: "date", Got: units.Quoted(string(text)),
		Want: `a date such as "2026-03-07" or "2026-03-07 08:00"`}
}

// PH is a pH with its scale.
type PH struct {
	total carbonate.TotalPH
	nbs   carbonate.NBSPH
	said  byte // 't', 'n' or nothing
}

// Given tells whether there is one.
func (p PH) Given() bool { return p.said != 0 }

// Total is on the total scale in a water.
func (p PH) Total(w seawater.Sample) carbonate.TotalPH {
	if p.said == 'n' {
		c := carbonate.At(w.Practical(), w.Temperature(), carbonate.Options{})
		return p.nbs.Total(&c)
	}
	return p.total
}

// UnmarshalText reads "8.1 total" or "8.2 NBS".
func (p *PH) UnmarshalText(text []byte) error {
	*p = PH{}
	if p.total.UnmarshalText(text) == nil {
		p.said = 't'
		return nil
	}
	if p.nbs.UnmarshalText(text) == nil {
		p.said = 'n'
		return nil
	}
	return &units.InputError{Field: "pH", Got: units.Quoted(string(text)),
		Want: `a pH with its scale, "8.1 total" or, from a meter set in ordinary buffers, "8.2 NBS"`}
}

// amount reads what was dosed, "12 g" or "40 mL".
func amount(f *file, path string, into *replenish.Amount, meaning, example string) {
	f.by(path, func(text string) error {
		if m, err := units.Parse[units.Mass](text); err == nil {
			*into = replenish.Amount{Mass: m}
			return nil
		}
		v, err := units.Parse[units.Volume](text)
		if err != nil {
			return &units.InputError{Got: text, Want: `an amount such as "12 g" or "40 mL"`}
		}
		*into = replenish.Amount{Volume: v}
		return nil
	}, meaning, example)
}

// levelNames are the parameters as keys write them.
func levelNames() []string {
	var list []string
	for _, p := range tested.Parameters() {
		if p != tested.FreeAmmonia {
			list = append(list, strings.ReplaceAll(string(p), " ", "_"))
		}
	}
	return list
}

// levelExample is a usual level of a parameter, as a keeper writes it.
func levelExample(name string) string {
	for _, l := range append(fullLevels("tank", "8 dKH"), [2]string{"potassium", "400 mg/L"}) {
		if l[0] == name {
			return l[1]
		}
	}
	return "1 mg/L"
}
