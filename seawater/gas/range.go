package gas

import "example.org/wellmixed/units"

const zeroCelsius = 273.15

// t68 returns a temperature on IPTS-68, on which formulas older than 1990 stand.
func t68(t units.Temperature) float64 { return 1.00024 * t.Celsius() }

// possible keeps to water that a formula can be asked about at all. NaN fails.
func possible(s units.PracticalSalinity, t units.Temperature) bool {
	return s.Value() >= 0 && s.Value() <= 120 && t.Celsius() >= -50 && t.Celsius() <= 100
}

const (
	sourceGG92 = "Garcia and Gordon 1992"
	sourceHE04 = "Hamme and Emerson 2004"
	sourceW74  = "Weiss 1974"
	sourceW14  = "Wanninkhof 2014"
	sourceSHAH = "Shah 2002, 2014"
	sourceHW83 = "Hyland and Wexler 1983"
)

// solubilityRange is where the fits of Saturation were made. The lower end of
// oxygen is the freezing point of seawater of salinity 42.
var solubilityRange = [...]struct{ salinity, temperature units.Range }{
	Oxygen: {
		units.Range{Quantity: "practical salinity", Min: 0, Max: 42, Source: sourceGG92},
		units.Range{Quantity: "temperature", Min: -2.4, Max: 40, Unit: "°C", Source: sourceGG92},
	},
	Nitrogen: {
		units.Range{Quantity: "practical salinity", Min: 0, Max: 35, Source: sourceHE04},
		units.Range{Quantity: "temperature", Min: 1, Max: 30, Unit: "°C", Source: sourceHE04},
	},
	Argon: {
		units.Range{Quantity: "practical salinity", Min: 0, Max: 35, Source: sourceHE04},
		units.Range{Quantity: "temperature", Min: 1, Max: 30, Unit: "°C", Source: sourceHE04},
	},
	CarbonDioxide: {
		units.Range{Quantity: "practical salinity", Min: 0, Max: 45, Source: sourceW74},
		units.Range{Quantity: "temperature", Min: -1, Max: 45, Unit: "°C", Source: sourceW74},
	},
}

// CheckRange returns nil where the solubility of the gas was fitted (Saturation,
// PartialPressure, CarbonDioxideSaturation), and otherwise a *units.RangeError.
// The fits of nitrogen and argon end at 30 °C and salinity 35 and go on smoothly.
func (g Species) CheckRange(s units.PracticalSalinity, t units.Temperature) error {
	if !g.known() {
		return &units.InputError{Field: "gas", Got: g.String(), Want: "oxygen, nitrogen, argon or carbon dioxide"}
	}
	if err := solubilityRange[g].salinity.Check(s.Value()); err != nil {
		return err
	}
	return solubilityRange[g].temperature.Check(t.Celsius())
}

var (
	schmidtSalinity    = units.Range{Quantity: "practical salinity", Min: 0, Max: 35, Source: sourceW14}
	schmidtTemperature = units.Range{Quantity: "temperature", Min: -2, Max: 40, Unit: "°C", Source: sourceW14}
)

// CheckRangeSchmidt returns nil where Schmidt holds, and otherwise a *units.RangeError.
func CheckRangeSchmidt(s units.PracticalSalinity, t units.Temperature) error {
	if err := schmidtSalinity.Check(s.Value()); err != nil {
		return err
	}
	return schmidtTemperature.Check(t.Celsius())
}

// What the measurements behind the formula of Shah cover.
var (
	poolWater    = units.Range{Quantity: "water temperature", Min: 7, Max: 94, Unit: "°C", Source: sourceSHAH}
	poolAir      = units.Range{Quantity: "air temperature", Min: 6, Max: 35, Unit: "°C", Source: sourceSHAH}
	poolHumidity = units.Range{Quantity: "relative humidity", Min: 0.28, Max: 0.95, Source: sourceSHAH}
	poolArea     = units.Range{Quantity: "area", Min: 0.07, Max: 425, Unit: "m²", Source: sourceSHAH}
)

// What the planners accept at all.
var (
	waterTemperature = units.Range{Quantity: "water temperature", Min: -2, Max: 40, Unit: "°C", Source: "TEOS-10"}
	waterSalinity    = units.Range{Quantity: "practical salinity", Min: 0, Max: 42, Source: "PSS-78"}
	roomTemperature  = units.Range{
		Quantity: "air temperature",
		Min:      0,
		Max:      60,
		Unit:     "°C",
		Source:   sourceHW83 + ", over liquid water",
	}
	barometer = units.Range{
		Quantity: "air pressure",
		Min:      300,
		Max:      1100,
		Unit:     "hPa",
		Source:   "US Standard Atmosphere 1976, 9 km to the Dead Sea",
	}
)
