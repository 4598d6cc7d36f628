package weighing

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// saltiest is the salinity up to which the density of seawater is known, g/kg.
const saltiest = 120

var (
	salinityRange = units.Range{Quantity: "absolute salinity", Min: 0, Max: saltiest, Unit: "g/kg",
		Source: "IAPWS R13-08, at atmospheric pressure"}
	waterTemperature = units.Range{Quantity: "temperature", Min: -2, Max: 40, Unit: "°C",
		Source: "IAPWS SR7-09 to 40 °C; seawater freezes near -2 °C"}
)

func checkWater(sa units.AbsoluteSalinity, t units.Temperature) error {
	if err := salinityRange.Check(sa.GramsPerKilogram()); err != nil {
		return err
	}
	return checkTemperature(t)
}

// checkTemperature refuses a temperature of the water that nobody set, and one
// that no water in a vessel has.
func checkTemperature(t units.Temperature) error {
	if err := input.Set("temperature", t); err != nil {
		return err
	}
	return waterTemperature.Check(t.Celsius())
}
