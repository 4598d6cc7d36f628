package conductivity

import (
	"errors"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

var (
	waterRange = units.Range{Quantity: "temperature", Min: -2, Max: 40, Unit: "°C",
		Source: "liquid water of a tank"}
	referenceRange = units.Range{Quantity: "reference temperature", Min: 15, Max: 30, Unit: "°C",
		Source: "meters refer to 20 or 25 °C"}
	naturalRange = units.Range{Quantity: "temperature", Min: 0, Max: 35.9, Unit: "°C", Source: "ISO 7888"}
	pureRange    = units.Range{Quantity: "temperature", Min: 0, Max: 40, Unit: "°C",
		Source: "McCleskey 2011, IAPWS R11-24 and SR7-09"}
	// The best solutions are acids with some 850 mS/cm at 25 °C (from memory).
	solutionRange = units.Range{Quantity: "conductivity", Min: 0, Max: 1000, Unit: "mS/cm",
		Source: "more than any solution in water; " + microsiemens}
	aeratedRange = units.Range{Quantity: "temperature", Min: 0, Max: 50, Unit: "°C", Source: "Pratt et al. 2001"}
)

// CheckRange returns a *units.RangeError for seawater whose conductivity PSS-78
// does not define, and nil for the rest. The instruments refuse the former.
func CheckRange(sa units.AbsoluteSalinity, t units.Temperature) error {
	return pss78.CheckRange(teos10.PracticalFromAbsolute(sa), t, 0)
}

// CheckRangeNaturalWater is CheckRange for NaturalWater25.
func CheckRangeNaturalWater(t units.Temperature) error { return naturalRange.Check(t.Celsius()) }

// CheckRangePureWater is CheckRange for PureWater.
func CheckRangePureWater(t units.Temperature) error { return pureRange.Check(t.Celsius()) }

// CheckRangeAeratedWater is CheckRange for AeratedWater.
func CheckRangeAeratedWater(t units.Temperature) error { return aeratedRange.Check(t.Celsius()) }

// possible tells whether this can be the conductivity of any water.
func possible(c units.Conductivity) bool { return c >= 0 && c <= math.MaxFloat64 }

// checkConductivity refuses what cannot be one. What is far too large was most likely
// meant in µS/cm.
func checkConductivity(field string, c units.Conductivity) error {
	if err := input.NotNegative(field, float64(c), "mS/cm"); err != nil {
		return err
	}
	return input.As(field, solutionRange.Check(c.MillisiemensPerCentimetre()))
}

// hinted adds to the error of a salinity beyond the scale what may be the matter with the
// conductivity.
func hinted(err error) error {
	if err == nil {
		return nil
	}
	var out *units.RangeError
	if !errors.As(err, &out) || out.Quantity != "practical salinity" {
		return err
	}
	named := *out
	named.Source += "; " + microsiemens
	return &named
}

// microsiemens is what to look at when a conductivity is too large.
const microsiemens = "a bare number counts mS/cm, 1413 µS/cm are 1413 * units.MicrosiemensPerCentimetre"

// noSalinity stands beside an error.
func noSalinity() units.AbsoluteSalinity { return units.Absolute(math.NaN()) }
