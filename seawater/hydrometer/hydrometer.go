package hydrometer

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Hydrometer is one that is marked in specific gravity, whether it floats or
// swings. The pair is printed on its scale; without a pair or without an
// expansion, so the zero value too, it is refused.
//
//	Hydrometer{Pair: units.SG25C(), Expansion: Glass}
//
// A float sinks until it has displaced its own mass, so what it shows depends on
// the density of the water times the volume of its own glass:
//
//	R = ρ(SA, t) (1 + g (t - Ta))/ρw(Tb) + offset
//
// A swing arm turns until its weight and its buoyancy balance about the pivot.
// The angle too depends on that product alone, as an arm of one material keeps
// its shape when it grows, so the same equation holds with the expansion of the
// plastic. As that is nearly the one of seawater, a swing arm shows almost the
// same number at any temperature.
type Hydrometer struct {
	Pair      units.GravityPair
	Expansion Expansion
	Offset    units.Scalar // how much too high it shows, as Calibrated finds it
}

// Reading returns what the hydrometer shows in water of salinity sa when both
// have the temperature t.
func (h Hydrometer) Reading(sa units.AbsoluteSalinity, t units.Temperature) (float64, error) {
	if err := h.check(); err != nil {
		return input.NaN[float64](), err
	}
	return h.scale().reading(sa, t)
}

// Salinity returns the salinity of the water of temperature t in which the
// hydrometer shows reading. It is the inverse of Reading.
func (h Hydrometer) Salinity(reading float64, t units.Temperature) (units.AbsoluteSalinity, error) {
	if err := h.check(); err != nil {
		return noSalinity(), err
	}
	return h.scale().salinity(reading, t)
}

// Estimate is Salinity with its standard uncertainty.
func (h Hydrometer) Estimate(reading float64, t units.Temperature,
	u Uncertainty) (sa, uncertainty units.AbsoluteSalinity, err error) {
	if err := h.check(); err != nil {
		return noSalinity(), noSalinity(), err
	}
	return h.scale().estimate(reading, t, u)
}

// Calibrated returns the hydrometer with the offset that makes it show reading
// in water of a known salinity at the temperature t: salinity 0 for a look in
// pure water, or better a standard near that of the tank. A reading that is off by
// more than 5 % of pure water is in another unit and refused.
func (h Hydrometer) Calibrated(reading float64, sa units.AbsoluteSalinity, t units.Temperature) (Hydrometer, error) {
	h.Offset = 0
	err := h.check()
	if err != nil {
		h.Offset = units.Scalar(math.NaN())
		return h, err
	}
	offset, err := h.scale().offsetFor(reading, waterGravity, sa, t)
	h.Offset = units.Scalar(offset)
	return h, err
}

func (h Hydrometer) check() error {
	if !h.Pair.Liquid.IsSet() || !h.Pair.Water.IsSet() {
		return input.Bad("pair", "none, or half of one",
			`the pair of temperatures that is marked on the hydrometer, such as 25/25 °C or 60/60 °F`)
	}
	if err := temperatureRange.Check(h.Pair.Liquid.Celsius()); err != nil {
		return input.In("pair", err)
	}
	if err := temperatureRange.Check(h.Pair.Water.Celsius()); err != nil {
		return input.In("pair", err)
	}
	return checkBody(h.Expansion, float64(h.Offset), waterGravity)
}

func (h Hydrometer) scale() scale {
	return scale{
		unit:      pureWater(h.Pair.Water).KilogramsPerCubicMetre(),
		at:        h.Pair.Liquid,
		expansion: float64(h.Expansion),
		offset:    float64(h.Offset),
	}
}

// DensityHydrometer is a float that is marked in density. The temperature at
// which its scale is right, 15 or 20 °C, is printed on it; without that or
// without an expansion, so the zero value too, it is refused.
//
//	R = ρ(SA, t) (1 + g (t - Ta)) + offset
type DensityHydrometer struct {
	Reference units.Temperature
	Expansion Expansion
	Offset    units.Density // how much too high it shows, as Calibrated finds it
}

// Reading returns what the hydrometer shows in water of salinity sa when both
// have the temperature t.
func (h DensityHydrometer) Reading(sa units.AbsoluteSalinity, t units.Temperature) (units.Density, error) {
	if err := h.check(); err != nil {
		return input.NaN[units.Density](), err
	}
	r, err := h.scale().reading(sa, t)
	return units.Density(r), err
}

// Salinity returns the salinity of the water of temperature t in which the
// hydrometer shows reading. It is the inverse of Reading.
func (h DensityHydrometer) Salinity(reading units.Density, t units.Temperature) (units.AbsoluteSalinity, error) {
	if err := h.check(); err != nil {
		return noSalinity(), err
	}
	return h.scale().salinity(float64(reading), t)
}

// Estimate is Salinity with its standard uncertainty.
func (h DensityHydrometer) Estimate(reading units.Density, t units.Temperature,
	u Uncertainty) (sa, uncertainty units.AbsoluteSalinity, err error) {
	if err := h.check(); err != nil {
		return noSalinity(), noSalinity(), err
	}
	return h.scale().estimate(float64(reading), t, u)
}

// Calibrated returns the hydrometer with the offset that makes it show reading
// in water of a known salinity at the temperature t.
func (h DensityHydrometer) Calibrated(reading units.Density, sa units.AbsoluteSalinity,
	t units.Temperature) (DensityHydrometer, error) {
	h.Offset = 0
	if err := h.check(); err != nil {
		h.Offset = units.Density(math.NaN())
		return h, err
	}
	offset, err := h.scale().offsetFor(float64(reading), waterDensity, sa, t)
	h.Offset = units.Density(offset)
	return h, err
}

func (h DensityHydrometer) check() error {
	if !h.Reference.IsSet() {
		return input.Bad("reference", "nothing", `the temperature that is marked on the hydrometer, such as 15 °C or 20 °C`)
	}
	if err := temperatureRange.Check(h.Reference.Celsius()); err != nil {
		return input.In("reference", err)
	}
	return checkBody(h.Expansion, float64(h.Offset), waterDensity)
}

func (h DensityHydrometer) scale() scale {
	return scale{unit: 1, at: h.Reference, expansion: float64(h.Expansion), offset: float64(h.Offset)}
}

// Densitometer is an instrument that shows the density of the sample at the
// temperature of its cell, such as an oscillating tube. It takes care of its own
// expansion. The zero value is one that shows the truth.
type Densitometer struct {
	Offset units.Density // how much too high it shows, as Calibrated finds it
}

// Reading returns what the densitometer shows for water of salinity sa at the
// temperature t of its cell.
func (d Densitometer) Reading(sa units.AbsoluteSalinity, t units.Temperature) (units.Density, error) {
	if err := d.check(); err != nil {
		return input.NaN[units.Density](), err
	}
	r, err := d.scale().reading(sa, t)
	return units.Density(r), err
}

// Salinity returns the salinity of the water for which the densitometer shows
// reading. It is the inverse of Reading.
func (d Densitometer) Salinity(reading units.Density, t units.Temperature) (units.AbsoluteSalinity, error) {
	if err := d.check(); err != nil {
		return noSalinity(), err
	}
	return d.scale().salinity(float64(reading), t)
}

// Estimate is Salinity with its standard uncertainty. There is no body, so the
// uncertainty of the expansion is not used and has to be zero.
func (d Densitometer) Estimate(reading units.Density, t units.Temperature,
	u Uncertainty) (sa, uncertainty units.AbsoluteSalinity, err error) {
	err = d.check()
	if err == nil && u.Expansion != 0 {
		err = input.Bad("uncertainty.expansion", input.Number(float64(u.Expansion)),
			"zero: a densitometer has no body that grows")
	}
	if err != nil {
		return noSalinity(), noSalinity(), err
	}
	return d.scale().estimate(float64(reading), t, u)
}

// Calibrated returns the densitometer with the offset that makes it show reading
// for water of a known salinity at the temperature t.
func (d Densitometer) Calibrated(reading units.Density, sa units.AbsoluteSalinity,
	t units.Temperature) (Densitometer, error) {
	offset, err := scale{unit: 1}.offsetFor(float64(reading), waterDensity, sa, t)
	return Densitometer{units.Density(offset)}, err
}

func (d Densitometer) check() error { return checkOffset(float64(d.Offset), waterDensity) }

func (d Densitometer) scale() scale { return scale{unit: 1, offset: float64(d.Offset)} }
