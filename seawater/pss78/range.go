package pss78

import "example.org/wellmixed/units"

// The range of the scale [U37, U44], carried from salinity 2 down to 0 by [HDW].
var (
	salinityRange = units.Range{
		Quantity: "practical salinity",
		Min:      0,
		Max:      42,
		Source:   "PSS-78; Hill et al. 1986 below 2",
	}
	temperatureRange = units.Range{Quantity: "temperature", Min: -2, Max: 35, Unit: "°C", Source: "PSS-78"}
	pressureRange    = units.Range{Quantity: "sea pressure", Min: 0, Max: 10000, Unit: "dbar", Source: "PSS-78"}
)

// CheckRange returns a *units.RangeError if the scale is not defined for water
// of this salinity, temperature and pressure, and nil if it is. The functions
// of this package extrapolate there.
func CheckRange(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) error {
	if err := salinityRange.Check(s.Value()); err != nil {
		return err
	}
	if err := temperatureRange.Check(t.Celsius()); err != nil {
		return err
	}
	return pressureRange.Check(p.Decibars())
}
