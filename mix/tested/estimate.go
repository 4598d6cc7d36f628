package tested

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
	"example.org/wellmixed/units/spread"
)

// Doubts are the standard uncertainties of what was read of a water, half a step of
// the display at the least. Those that are zero or not in the list are left out.
type Doubts struct {
	Salinity    units.PracticalSalinity
	Temperature units.TemperatureDifference
	PH          float64 // of the pH that Carbon is or that it was taken from
	Levels      Levels
}

// Estimates returns the chemistry of a water with its standard uncertainty and the
// reading that contributes most to it: pH, pressure of CO₂, saturation of aragonite
// and, if ammonia was tested, free ammonia. The readings err independently; the pH was
// read, if it is in doubt, so that it does not follow the alkalinity.
//
//	source   JCGM 100:2008, 5.1.2, by differences ([spread.Through])
//	range    that of [Water.Chemistry]; its constants are taken as exact, but see
//	         carbonate.Constants.Uncertainty
//
// A tenth in pH is a fifth of the free ammonia, and most of its doubt.
func (w Water) Estimates(d Doubts) ([]advice.Estimate, error) {
	now, err := w.CarbonChemistry()
	if err != nil {
		return nil, err
	}
	knobs, err := w.knobs(&d, now.PH)
	if err != nil {
		return nil, err
	}
	u := make([]float64, len(knobs))
	for i, k := range knobs {
		u[i] = k.u
	}
	if d.PH > 0 {
		w.Carbon = carbonate.PH(now.PH)
	}
	value, uncertainty, most, err := spread.Through(u, func(offsets []float64) ([]float64, error) {
		moved := w
		for i, k := range knobs {
			if offsets[i] == 0 {
				continue
			}
			if err := k.move(&moved, offsets[i]); err != nil {
				return nil, err
			}
		}
		c, err := moved.CarbonChemistry()
		if err != nil {
			return nil, err
		}
		list := []float64{c.PH.Value(), c.PCO2.Microatmospheres(), float64(c.Aragonite)}
		if c.FreeAmmonia.Exists() {
			list = append(list, c.FreeAmmonia.MassPerLitre().MilligramsPerLitre())
		}
		return list, nil
	})
	if err != nil {
		return nil, input.In("doubts", err)
	}
	list := []advice.Estimate{
		{Name: "pH", Unit: "total scale"},
		{Name: "Pressure of CO2", Unit: "µatm"},
		{Name: "Aragonite saturation"},
		{Name: "Free ammonia", Unit: "mg/L NH3"},
	}[:len(value)]
	for i := range list {
		list[i].Value, list[i].Uncertainty = units.Scalar(value[i]), units.Scalar(uncertainty[i])
		if most[i] >= 0 {
			list[i].Mostly = knobs[most[i]].name
		}
	}
	return list, nil
}

// knob is one reading that is in doubt: its standard uncertainty, and how to move it.
type knob struct {
	name string
	u    float64
	move func(w *Water, by float64) error
}

// knobs lists the readings that are in doubt.
func (w Water) knobs(d *Doubts, ph carbonate.TotalPH) ([]knob, error) {
	reread := func(w *Water, salinity float64, t units.Temperature) error {
		s, err := seawater.FromPractical(units.Practical(salinity), t)
		if err == nil {
			w.Portion = s.OfVolume(w.Volume())
		}
		return err
	}
	list := []knob{
		{"the salinity", d.Salinity.Value(), func(w *Water, by float64) error {
			return reread(w, w.Portion.Practical().Value()+by, w.Portion.Temperature())
		}},
		{"the temperature", float64(d.Temperature), func(w *Water, by float64) error {
			return reread(w, w.Portion.Practical().Value(), w.Portion.Temperature().Add(units.TemperatureDifference(by)))
		}},
		{"the pH", d.PH, func(w *Water, by float64) error {
			w.Carbon = carbonate.PH(carbonate.PHTotal(ph.Value() + by))
			return nil
		}},
	}
	for _, l := range w.Levels {
		if doubt, has := d.Levels.Of(l.Parameter()); has {
			list = append(list, knob{"the " + string(l.Parameter()), doubt.Base(), func(w *Water, by float64) error {
				*w = w.With(l.WithBase(l.Base() + by))
				return nil
			}})
		}
	}
	errs := []error{d.Levels.Check("doubts")}
	for _, k := range list {
		if !(k.u >= 0 && !math.IsInf(k.u, 0)) {
			errs = append(errs, input.Bad("doubts", input.Number(k.u)+" of "+k.name, "zero or more"))
		}
	}
	return list, input.Join(errs...)
}
