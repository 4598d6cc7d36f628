package hydrometer

import "example.org/wellmixed/units"

// saltiest is the salinity up to which the density of seawater is known, g/kg.
const saltiest = 120

var (
	salinityRange = units.Range{Quantity: "absolute salinity", Min: 0, Max: saltiest, Unit: "g/kg",
		Source: "IAPWS R13-08, at atmospheric pressure"}
	temperatureRange = units.Range{Quantity: "temperature", Min: -2, Max: 40, Unit: "°C",
		Source: "IAPWS SR7-09 to 40 °C; seawater freezes near -2 °C"}
	waterRange = units.Range{Quantity: "temperature", Min: 0, Max: 40, Unit: "°C", Source: "Tanaka et al. 2001"}
)

// CheckRange returns a *units.RangeError for water that this package does not
// know, and nil for water that it does. The instruments refuse the former.
func CheckRange(sa units.AbsoluteSalinity, t units.Temperature) error {
	if err := salinityRange.Check(sa.GramsPerKilogram()); err != nil {
		return err
	}
	return temperatureRange.Check(t.Celsius())
}

// CheckRangeWaterDensity is CheckRange for WaterDensity.
func CheckRangeWaterDensity(t units.Temperature) error { return waterRange.Check(t.Celsius()) }
