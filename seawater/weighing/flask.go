package weighing

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Flask is a vessel that is filled to its line and weighed, its own weight taken
// off, on a balance in some air. The zero value is refused.
//
//	W = V(t) (ρ - ρa)/(1 - ρa/ρb)
type Flask struct {
	Vessel Vessel
	Air    Air
}

// Reading returns what the balance shows when the flask is full of water of
// salinity sa and temperature t.
func (f Flask) Reading(sa units.AbsoluteSalinity, t units.Temperature) (units.Mass, error) {
	err := f.check()
	if err == nil {
		err = checkWater(sa, t)
	}
	if err != nil {
		return input.NaN[units.Mass](), err
	}
	w := f.shown(sa, t)
	if err := input.Positive("reading", w.Grams(), "g"); err != nil {
		return input.NaN[units.Mass](), err
	}
	return w, nil
}

// Salinity returns the salinity of the water of temperature t for which the
// balance shows reading. It is the inverse of Reading.
func (f Flask) Salinity(reading units.Mass, t units.Temperature) (units.AbsoluteSalinity, error) {
	if err := f.check(); err != nil {
		return noSalinity(), err
	}
	if err := checkTemperature(t); err != nil {
		return noSalinity(), err
	}
	air := f.Air.Density()
	rho := units.Density(float64(reading)*steelLift(air)/float64(f.Vessel.Volume(t))) + air
	sa := teos10.SalinityFromDensityExact(rho, t, 0)
	if s := sa.GramsPerKilogram(); s > 0 && s < saltiest { // which spares the two ends
		return sa, nil
	}
	possible := units.Range{Quantity: "reading", Min: f.shown(units.Absolute(0), t).Grams(),
		Max:  f.shown(units.Absolute(saltiest), t).Grams(),
		Unit: "g", Source: "the flask full of pure water, and of water of 120 g/kg"}
	if err := possible.Check(reading.Grams()); err != nil {
		return noSalinity(), err
	}
	return sa, nil
}

// Uncertainty holds standard uncertainties, of zero where something is known
// exactly. That of a display of the step d is d/√12 [GUM, 4.3.7]; a balance tared
// before and read after has two of them, d/√6.
type Uncertainty struct {
	Reading     units.Mass
	Temperature units.TemperatureDifference // of the water
	Capacity    units.Volume                // of the vessel: its tolerance, and how well it was filled to the line
	Expansion   Expansion                   // of the vessel
	Air         units.Density
}

// Estimate is Salinity with its standard uncertainty.
//
// With W' = W (1 - ρa/ρb)/V = ρ - ρa it propagates
//
//	β ρ dSA = W' (dW/W - dV0/V0 - (t - t0)/growth dg) + (ρ α - W' g/growth) dt
//
// and for the air its density times 1 - W/(V ρb).
func (f Flask) Estimate(reading units.Mass, t units.Temperature,
	u Uncertainty) (sa, uncertainty units.AbsoluteSalinity, err error) {
	err = u.check()
	if err == nil {
		sa, err = f.Salinity(reading, t)
	}
	if err != nil {
		return noSalinity(), noSalinity(), err
	}
	rho := float64(teos10.DensityExact(sa, t, 0))
	net := rho - float64(f.Air.Density())
	growth := float64(f.Vessel.growth(t))
	byReading := net * float64(u.Reading/reading)
	byCapacity := net * float64(u.Capacity/f.Vessel.Capacity)
	byExpansion := net * t.Sub(f.Vessel.At).CelsiusDegrees() / growth * float64(u.Expansion)
	byTemperature := (rho*teos10.ThermalExpansionExact(sa, t,
		0) - net*float64(f.Vessel.Expansion)/growth) * u.Temperature.CelsiusDegrees()
	byAir := (1 - float64(reading)/(float64(f.Vessel.Volume(t))*steel)) * float64(u.Air)
	sum := root(byReading, byCapacity, byExpansion, byTemperature, byAir)
	uncertainty = units.Absolute(sum / (rho * teos10.HalineContractionExact(sa, t, 0)))
	if err := input.NotNegative("uncertainty", uncertainty.GramsPerKilogram(), "g/kg"); err != nil {
		return noSalinity(), noSalinity(), err
	}
	return sa, uncertainty, nil
}

// Calibrated returns the flask with the capacity that makes the balance show
// reading when it is full of water of a known salinity sa at the temperature t:
// salinity 0 for purified water. That is how to find what a jug holds to its line.
// The old capacity is not looked at.
func (f Flask) Calibrated(reading units.Mass, sa units.AbsoluteSalinity, t units.Temperature) (Flask, error) {
	f.Vessel.Capacity = 1
	err := f.check()
	if err == nil {
		err = input.Positive("reading", reading.Grams(), "g")
	}
	if err == nil {
		err = checkWater(sa, t)
	}
	if err != nil {
		f.Vessel.Capacity = input.NaN[units.Volume]()
		return f, err
	}
	f.Vessel.Capacity = Volume(reading, teos10.DensityExact(sa, t, 0), f.Air.Density()) / f.Vessel.growth(t)
	if err := f.Vessel.check(); err != nil {
		f.Vessel.Capacity = input.NaN[units.Volume]()
		return f, err
	}
	return f, nil
}

// shown is Reading without questions.
func (f Flask) shown(sa units.AbsoluteSalinity, t units.Temperature) units.Mass {
	rho := teos10.DensityExact(sa, t, 0)
	return Shown(rho.Mass(f.Vessel.Volume(t)), rho, f.Air.Density())
}

func (f Flask) check() error {
	if err := f.Vessel.check(); err != nil {
		return err
	}
	return f.Air.check()
}

func (u Uncertainty) check() error {
	if err := input.NotNegative("uncertainty.reading", u.Reading.Grams(), "g"); err != nil {
		return err
	}
	if err := input.NotNegative("uncertainty.temperature", u.Temperature.CelsiusDegrees(), "K"); err != nil {
		return err
	}
	if err := input.NotNegative("uncertainty.capacity", u.Capacity.Litres(), "L"); err != nil {
		return err
	}
	if err := input.NotNegative("uncertainty.expansion", float64(u.Expansion), "1/K"); err != nil {
		return err
	}
	return input.NotNegative("uncertainty.air", float64(u.Air), "kg/m³")
}

// root returns the root of the sum of the squares.
func root(parts ...float64) float64 {
	sum := 0.0
	for _, x := range parts {
		sum += x * x
	}
	return math.Sqrt(sum)
}

// noSalinity stands beside an error.
func noSalinity() units.AbsoluteSalinity { return units.Absolute(math.NaN()) }
