package carbonate

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Water is a water by what mixing and dosing conserve: salinity, alkalinity,
// dissolved inorganic carbon, nutrients and the totals in Options. pH and all
// that depends on temperature are asked of its System.
//
// The methods return another Water and leave this one alone. Doses are in
// amount per kilogram of water; the water that comes along with a dose is not
// counted.
type Water struct {
	Salinity    units.PracticalSalinity
	Temperature units.Temperature
	Alkalinity  units.AmountPerKilogram
	DIC         units.AmountPerKilogram
	Nutrients   Nutrients
	Options     Options
}

// Water returns the water of the system, to mix and dose. It takes the Options
// along, not the Constants: one that was replaced by one of your own is not in it.
func (s *System) Water() Water {
	return Water{
		Salinity: s.Constants.Salinity, Temperature: s.Constants.Temperature,
		Alkalinity: s.Alkalinity(), DIC: s.DIC(), Nutrients: s.Nutrients, Options: s.Constants.Options,
	}
}

// Constants returns the constants of the water.
func (w Water) Constants() Constants { return At(w.Salinity, w.Temperature, w.Options) }

// System returns the CO2 system of the water. A temperature that nobody set is
// refused.
func (w Water) System() (System, error) {
	c := w.Constants()
	if err := w.check(); err != nil {
		return noSystem(&c, &w.Nutrients), err
	}
	return c.FromAlkalinityDIC(w.Alkalinity, w.DIC, w.Nutrients)
}

// check refuses a temperature that nobody set and an impossible salinity.
func (w Water) check() error {
	if err := input.Set("water.temperature", w.Temperature); err != nil {
		return err
	}
	return input.NotNegative("water.salinity", w.Salinity.Value(), "")
}

// mixable refuses what is no water before it hides in a mixture.
func (w *Water) mixable() error {
	if err := w.check(); err != nil {
		return err
	}
	if err := Alkalinity(w.Alkalinity).check(); err != nil {
		return err
	}
	if err := DIC(w.DIC).check(); err != nil {
		return err
	}
	if !w.Nutrients.sound() {
		return badNutrients()
	}
	return nil
}

// At returns the same water at another temperature, in a closed vessel:
// alkalinity and DIC per kilogram stay, pH does not.
func (w Water) At(t units.Temperature) Water {
	w.Temperature = t
	return w
}

// Equilibrate returns the water after it has come to equilibrium with air of
// this content of CO2, under this barometer. The alkalinity stays, the DIC follows.
// The error is that of Solve; a barometer not above the vapour pressure of the
// water is refused.
func (w Water) Equilibrate(air XCO2, barometer units.AirPressure) (Water, error) {
	if err := w.check(); err != nil {
		return noWater(), err
	}
	c := w.Constants()
	if !(float64(barometer/units.Atmosphere) > float64(c.VapourPressure)) || math.IsInf(float64(barometer), 1) {
		return noWater(), input.Bad("barometer", barometer.String(), "the pressure of the air, such as units.Atmosphere")
	}
	held := PartialPressure(air.PCO2(&c, barometer))
	if err := held.check(); err != nil {
		return noWater(), input.In("air", err)
	}
	s, err := c.Solve(Alkalinity(w.Alkalinity), held, w.Nutrients)
	if err != nil {
		return noWater(), err
	}
	w.DIC = s.DIC()
	return w, nil
}

// AddBicarbonate returns the water with bicarbonate added, such as baking soda.
func (w Water) AddBicarbonate(x units.AmountPerKilogram) Water { return w.add(x, x) }

// AddCarbonate returns the water with carbonate added, such as soda ash.
func (w Water) AddCarbonate(x units.AmountPerKilogram) Water { return w.add(2*x, x) }

// AddHydroxide returns the water with hydroxide added; calcium hydroxide has
// two, and brings the calcium that AddCalcium adds.
func (w Water) AddHydroxide(x units.AmountPerKilogram) Water { return w.add(x, 0) }

// AddAcid returns the water with a strong acid added.
func (w Water) AddAcid(x units.AmountPerKilogram) Water { return w.add(-x, 0) }

// AddCO2 returns the water with CO2 added; a negative amount has been driven
// out.
func (w Water) AddCO2(x units.AmountPerKilogram) Water { return w.add(0, x) }

// AddCalcium returns the water with calcium added, as a salt of a strong acid.
func (w Water) AddCalcium(x units.AmountPerKilogram) Water {
	w.Options.Calcium = w.Options.Calcium.plus(x)
	return w
}

func (w Water) add(alkalinity, carbon units.AmountPerKilogram) Water {
	w.Alkalinity += alkalinity
	w.DIC += carbon
	return w
}

// Precipitate returns the water after an amount of calcium carbonate has left
// it, in a coral or as a powder: two of alkalinity, one of DIC and one of
// calcium for each. A negative amount has dissolved.
func (w Water) Precipitate(x units.AmountPerKilogram) Water {
	return w.add(-2*x, -x).AddCalcium(-x)
}

// Blend returns the mixture of a mass m of w and a mass m2 of other at a
// temperature t. Everything mixes by mass; of practical salinity this is as
// exact as it is a measure of the salt. Both must use the same constants, and be
// waters with a temperature each, though the mixture takes t.
//
// A total that belongs to the salinity in both waters still does in the
// mixture; otherwise it becomes a measured one.
func (w Water) Blend(m units.Mass, other Water, m2 units.Mass, t units.Temperature) (Water, error) {
	if !(m >= 0 && m2 >= 0 && m+m2 > 0 && m+m2 <= math.MaxFloat64) {
		return noWater(), &units.InputError{
			Field: "masses",
			Got:   m.String() + " and " + m2.String(),
			Want:  "masses of zero or more, not both zero",
		}
	}
	if err := w.mixable(); err != nil {
		return noWater(), input.In("first", err)
	}
	if err := other.mixable(); err != nil {
		return noWater(), input.In("second", err)
	}
	if err := input.Set("temperature of the mixture", t); err != nil {
		return noWater(), err
	}
	o, p := &w.Options, &other.Options
	if o.K1K2 != p.K1K2 || o.KS != p.KS || o.KF != p.KF || o.KNH4 != p.KNH4 || o.BoronRatio != p.BoronRatio {
		return noWater(), &units.InputError{
			Field: "options",
			Got:   "different constants in the two waters",
			Want:  "the same ones",
		}
	}
	y := float64(m2 / (m + m2))
	x := 1 - y
	mix := func(a, b units.AmountPerKilogram) units.AmountPerKilogram {
		return a*units.AmountPerKilogram(x) + b*units.AmountPerKilogram(y)
	}
	first, second := o.totals(w.Salinity.Value()), p.totals(other.Salinity.Value())
	total := func(a, b Total, has, also units.AmountPerKilogram) Total {
		if a.measured || b.measured {
			return Measured(mix(has, also))
		}
		return Total{content: mix(a.content, b.content)}
	}
	out := Water{
		Salinity:    units.Practical(w.Salinity.Value()*x + other.Salinity.Value()*y),
		Temperature: t,
		Alkalinity:  mix(w.Alkalinity, other.Alkalinity),
		DIC:         mix(w.DIC, other.DIC),
		Nutrients: Nutrients{
			Phosphate: mix(w.Nutrients.Phosphate, other.Nutrients.Phosphate),
			Silicate:  mix(w.Nutrients.Silicate, other.Nutrients.Silicate),
			Ammonia:   mix(w.Nutrients.Ammonia, other.Nutrients.Ammonia),
			Sulfide:   mix(w.Nutrients.Sulfide, other.Nutrients.Sulfide),
			Organic:   mix(w.Nutrients.Organic, other.Nutrients.Organic),
		},
		Options: *o,
	}
	out.Options.Boron = total(o.Boron, p.Boron, first.Boron, second.Boron)
	out.Options.Sulfate = total(o.Sulfate, p.Sulfate, first.Sulfate, second.Sulfate)
	out.Options.Fluoride = total(o.Fluoride, p.Fluoride, first.Fluoride, second.Fluoride)
	out.Options.Calcium = total(o.Calcium, p.Calcium, first.Calcium, second.Calcium)
	out.Options.Magnesium = total(o.Magnesium, p.Magnesium, first.Magnesium, second.Magnesium)
	return out, nil
}

// noWater stands beside an error: every number of it is NaN.
func noWater() Water {
	nan := math.NaN()
	return Water{
		Salinity: units.Practical(nan), Temperature: units.Celsius(nan),
		Alkalinity: units.AmountPerKilogram(nan), DIC: units.AmountPerKilogram(nan),
	}
}
