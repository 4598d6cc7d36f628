package mix

import (
	"strconv"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

const amountWant = `an amount such as "40 L of mix", "mix up to 45 cm", "38 L of water" or "water up to 40 cm"`

// String writes the amount, "40 L of mix", as MarshalText does.
func (a Amount) String() string {
	switch a.by {
	case finalVolume:
		return a.volume.String() + ofMix
	case finalLevel:
		return mixUpTo + a.level.String()
	case waterVolume:
		return a.volume.String() + ofWater
	case waterLevel:
		return waterUpTo + a.level.String()
	}
	return ""
}

// How the four amounts are written.
const (
	ofMix, mixUpTo     = " of mix", "mix up to "
	ofWater, waterUpTo = " of water", "water up to "
)

// MarshalText writes "40 L of mix", "mix up to 450 mm", "38 L of water" or "water up
// to 400 mm", and nothing for an amount that nobody set; reading that gives the
// same amount back.
func (a Amount) MarshalText() ([]byte, error) {
	if a.volume != a.volume || a.level != a.level {
		return nil, input.Bad("amount", "NaN", amountWant)
	}
	if _, err := a.volume.MarshalText(); err != nil {
		return nil, err
	}
	if _, err := a.level.MarshalText(); err != nil {
		return nil, err
	}
	return []byte(a.String()), nil
}

// UnmarshalText reads what MarshalText writes, in any unit.
func (a *Amount) UnmarshalText(text []byte) error {
	*a = Amount{}
	given := string(text)
	if given == "" {
		return nil
	}
	for _, form := range [...]struct {
		of, upTo string
		volume   func(units.Volume) Amount
		level    func(units.Length) Amount
	}{{ofMix, mixUpTo, FinalVolume, FinalLevel}, {ofWater, waterUpTo, WaterVolume, WaterLevel}} {
		if volume, found := strings.CutSuffix(given, form.of); found {
			v, err := units.Parse[units.Volume](volume)
			if err == nil {
				*a = form.volume(v)
			}
			return input.In("amount", err)
		}
		if level, found := strings.CutPrefix(given, form.upTo); found {
			h, err := units.Parse[units.Length](level)
			if err == nil {
				*a = form.level(h)
			}
			return input.In("amount", err)
		}
	}
	return input.Bad("amount", input.Quoted(given), amountWant)
}

const vesselWant = `a vessel such as "box: 50 cm, 40 cm, 40 cm", "bucket: 36 cm, 42 cm, 50 cm; safe fill 45 cm" ` +
	`or "marks: 20 cm = 22 L, 50 cm = 60 L"`

// String writes the vessel by its inside measures, as MarshalText does.
func (v Vessel) String() string {
	if !v.Exists() {
		return ""
	}
	var measures []string
	for _, m := range v.marks {
		measures = append(measures, m.Height.String()+" = "+m.Volume.String())
	}
	if v.shape != marked {
		for _, l := range v.measures {
			measures = append(measures, l.String())
		}
	}
	text := v.shape + ": " + strings.Join(measures, ", ")
	if v.safe != v.brim {
		text += safeFill + v.safe.String()
	}
	return text
}

// longest is the most bytes that are looked through for a vessel.
const longest = 1 << 16

const safeFill = "; safe fill "

// MarshalText writes "bucket: 360 mm, 420 mm, 500 mm; safe fill 450 mm": the
// shape, the measures in the order of its constructor, and the height that
// SafeFillTo was given; and nothing for no vessel. Reading that gives the same
// vessel back. A cylinder is a bucket.
func (v Vessel) MarshalText() ([]byte, error) {
	text := v.String()
	if len(text) > longest {
		return nil, input.Bad("vessel", strconv.Itoa(len(v.marks))+" marks", "as many as a text of 64 KiB holds")
	}
	return []byte(text), nil
}

// UnmarshalText reads what MarshalText writes, in any unit, and "cylinder: 45 cm,
// 50 cm".
func (v *Vessel) UnmarshalText(text []byte) error {
	*v = Vessel{}
	given := string(text)
	if given == "" {
		return nil
	}
	if len(given) > longest {
		return input.Bad("vessel", input.Quoted(given), vesselWant)
	}
	made, err := parseVessel(given)
	if err != nil {
		return err
	}
	*v = made
	return nil
}

func parseVessel(given string) (Vessel, error) {
	rest, safe, limited := strings.Cut(given, safeFill)
	shape, list, _ := strings.Cut(rest, ":")
	measures := strings.Split(list, ",")
	var v Vessel
	var err error
	switch {
	case shape == marked:
		v, err = parseMarks(measures)
	case shape == box && len(measures) == 3, shape == bucket && len(measures) == 3, shape == "cylinder" &&
		len(measures) == 2:
		var l [3]units.Length
		for i, measure := range measures {
			if l[i], err = units.Parse[units.Length](measure); err != nil {
				return Vessel{}, input.In("vessel."+shape, err)
			}
		}
		switch shape {
		case box:
			v, err = Box(l[0], l[1], l[2])
		case bucket:
			v, err = Bucket(l[0], l[1], l[2])
		default:
			v, err = Cylinder(l[0], l[1])
		}
	default:
		return Vessel{}, input.Bad("vessel", input.Quoted(given), vesselWant)
	}
	if err != nil || !limited {
		return v, err
	}
	height, err := units.Parse[units.Length](safe)
	if err != nil {
		return Vessel{}, input.In("vessel.safeFill", err)
	}
	return v.SafeFillTo(height)
}

func parseMarks(list []string) (Vessel, error) {
	var marks []Mark
	for _, mark := range list {
		height, volume, _ := strings.Cut(mark, "=")
		h, err := units.Parse[units.Length](height)
		if err != nil {
			return Vessel{}, input.In("vessel.marks", err)
		}
		v, err := units.Parse[units.Volume](volume)
		if err != nil {
			return Vessel{}, input.In("vessel.marks", err)
		}
		marks = append(marks, Mark{Height: h, Volume: v})
	}
	return Marked(marks...)
}
