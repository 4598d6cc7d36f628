package tested

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Water is a water with what was tested in it: how much of which salinity and
// temperature, the carbon side, and levels. The methods return another Water and
// leave this one alone.
type Water struct {
	Portion seawater.Portion

	// Carbon is one more thing known of the CO₂ system besides the alkalinity: a pH,
	// the DIC, a pressure of CO₂, at the temperature of the water. The zero value is
	// nothing, and then pH and what goes with it are not known.
	Carbon carbonate.Known

	Levels Levels
}

// Pure is so much pure water, in which nothing was tested.
func Pure(v units.Volume, t units.Temperature) (Water, error) {
	w, err := seawater.PureWater(t)
	if err != nil {
		return Water{}, err
	}
	return Water{Portion: w.OfVolume(v)}, nil
}

// FromComposition is so much of a water whose ions are known, such as a laboratory
// report that was closed: its salinity is what is dissolved in it, its levels are
// the contents of the parameters, and if it holds carbon its DIC is known.
func FromComposition(c ions.Composition, v units.Volume, t units.Temperature) (Water, error) {
	if err := c.Check(); err != nil {
		return Water{}, input.In("composition", err)
	}
	s, err := seawater.FromAbsolute(c.SolutionSalinity(), t)
	if err != nil {
		return Water{}, err
	}
	w := Water{Portion: s.OfVolume(v)}
	density := c.Density(t)
	for i := range known {
		f := &known[i]
		amount := f.name.In(c)
		if amount == 0 {
			continue
		}
		w.Levels = append(w.Levels, f.name.None().WithBase(amount.PerLitre(density).MillimolesPerLitre()))
	}
	if dic := c.Carbon(); dic > 0 {
		w.Carbon = carbonate.DIC(dic)
	}
	return w, nil
}

// Volume is how much water there is, at its temperature.
func (w Water) Volume() units.Volume { return w.Portion.Volume() }

// Level returns what was tested of a parameter, and whether it was.
func (w Water) Level(p Parameter) (Level, bool) { return w.Levels.Of(p) }

// With returns the water with these levels added, or in the place of those that it
// has.
func (w Water) With(levels ...Level) Water {
	w.Levels = w.Levels.With(levels...)
	return w
}

// Check refuses a water that cannot be.
func (w Water) Check(field string) error {
	if err := w.CheckKind(field); err != nil {
		return err
	}
	return input.Positive(field+".volume", w.Volume().Litres(), "L")
}

// CheckKind is Check for a water of which it does not matter how much there is.
func (w Water) CheckKind(field string) error {
	if err := input.Set(field+".temperature", w.Portion.Temperature()); err != nil {
		return err
	}
	if err := input.Positive(field+".density", float64(w.Portion.Density()), "kg/m³"); err != nil {
		return err
	}
	if err := input.As(field+".temperature", w.Portion.CheckTank()); err != nil {
		return err
	}
	return w.Levels.Check(field)
}

// WithDIC returns the water with its carbon side as DIC, which mixes and does not
// depend on the temperature: solve once what is asked for often. On error the water
// comes back as it was.
func (w Water) WithDIC() (Water, error) {
	dic, err := w.DIC()
	if err == nil {
		w.Carbon = carbonate.DIC(dic)
	}
	return w, err
}

// settled is WithDIC, with nothing known where that is an error.
func (w Water) settled() Water {
	out, err := w.WithDIC()
	if err != nil {
		out.Carbon = carbonate.Known{}
	}
	return out
}

// At returns the same water at another temperature, in a closed vessel: mass,
// DIC and all amounts stay; pH and the volume do not, and with the volume not what
// is counted per litre.
func (w Water) At(t units.Temperature) (Water, error) {
	s, err := w.Portion.At(t)
	if err != nil {
		return Water{}, err
	}
	if t == w.Portion.Temperature() {
		return w, nil
	}
	out := w.settled()
	out.Portion = s.OfMass(w.Portion.Mass)
	out.Levels = w.Levels.scaled(float64(out.Portion.Density() / w.Portion.Density()))
	return out, nil
}

// OfVolume returns the same water, so much of it.
func (w Water) OfVolume(v units.Volume) Water {
	w.Portion = w.Portion.OfVolume(v)
	return w
}

// Draw takes a volume out of the water and returns what is left.
func (w Water) Draw(v units.Volume) (Water, error) {
	all := w.Volume()
	if !(v >= 0 && v <= all*(1+rounding)) {
		return Water{}, input.Bad("drawn", v.String(), "zero to the "+input.Fixed(all.Litres(), 2)+" L that there are")
	}
	w.Portion = w.Portion.OfMass(max(0,
		w.Portion.Mass-w.Portion.OfVolume(v).Mass)) // drawing all may leave a rounding error
	return w, nil
}

// rounding is what a volume may pass another by and still be the same.
const rounding = 1e-12

// Blend pours two waters together. Mass and salt add up, heat adds up as
// conservative temperature, levels and carbon add up as amounts; the volume is that
// of the blend. What is not known in both is not known in the blend. Water of no
// mass does not count.
func (w Water) Blend(other Water) Water {
	switch {
	case other.Portion.Mass == 0:
		return w
	case w.Portion.Mass == 0:
		return other
	}
	out := Water{Portion: seawater.Blend(w.Portion, other.Portion)}
	volume := out.Volume()
	out.Levels = w.Levels.blend(float64(w.Volume()/volume), other.Levels, float64(other.Volume()/volume))
	if w.Carbon != (carbonate.Known{}) && other.Carbon != (carbonate.Known{}) {
		a, errA := w.DIC()
		b, errB := other.DIC()
		if errA == nil && errB == nil {
			share := units.AmountPerKilogram(other.Portion.Mass / out.Portion.Mass)
			out.Carbon = carbonate.DIC(units.AmountPerKilogram(float64(a*(1-share))) + units.AmountPerKilogram(float64(b*share)))
		}
	}
	return out
}

// FillTo pours so much of another water in that there is this volume, as one tops
// off to a mark, and returns how much that took, measured at its own temperature.
// A water that is already above the mark is an error.
func (w Water) FillTo(mark units.Volume, with Water) (poured units.Volume, full Water, err error) {
	if err := with.CheckKind("with"); err != nil {
		return input.NaN[units.Volume](), Water{}, err
	}
	short := mark - w.Volume()
	if !(short >= -rounding*mark) {
		return input.NaN[units.Volume](), Water{}, input.Bad("mark", mark.String(),
			"no less than the "+input.Fixed(w.Volume().Litres(), 2)+" L that there are: above the mark there is nothing "+
				"to top off")
	}
	if short <= 0 {
		return 0, w, nil
	}
	// Volumes of two waters do not quite add up, so the last millilitres are solved
	// for.
	over := func(v float64) float64 {
		return float64(seawater.Blend(w.Portion, with.Portion.OfVolume(units.Volume(v))).Volume() - mark)
	}
	v, ok := solve.Brent(over, 0.9*float64(short), 1.1*float64(short), 1e-13*float64(mark))
	if !ok {
		return input.NaN[units.Volume](), Water{}, input.Bad("mark", mark.String(), "a level that pouring this water reaches")
	}
	return units.Volume(v), w.Blend(with.OfVolume(units.Volume(v))), nil
}

// Evaporate takes so much pure water out, measured at the temperature of the water:
// everything else stays, and is stronger.
func (w Water) Evaporate(lost units.Volume) (Water, error) {
	pure, err := seawater.PureWater(w.Portion.Temperature())
	if err != nil {
		return Water{}, err
	}
	if !(lost >= 0) {
		return Water{}, input.Bad("lost", lost.String(), "zero or more")
	}
	left := w.Portion.Mass - pure.OfVolume(lost).Mass
	if !(left > 0) {
		return Water{}, input.Bad("lost", lost.String(), "less than the "+input.Fixed(w.Volume().Litres(), 2)+
			" L that there are")
	}
	s, err := seawater.FromAbsolute(units.Absolute(float64(w.Portion.Salt())/float64(left)*1000), w.Portion.Temperature())
	if err != nil {
		return Water{}, err
	}
	out := w.settled()
	out.Portion = s.OfMass(left)
	out.Levels = w.Levels.scaled(float64(w.Volume() / out.Volume()))
	if dic, err := out.dicIn(w.Portion.Mass / left); err == nil {
		out.Carbon = carbonate.DIC(dic)
	}
	return out, nil
}

// dicIn returns the DIC of a settled water of which there was so many times the
// mass.
func (w Water) dicIn(times units.Mass) (units.AmountPerKilogram, error) {
	dic, known := w.Carbon.DIC()
	if !known {
		return 0, noCarbon()
	}
	return dic * units.AmountPerKilogram(times), nil
}
