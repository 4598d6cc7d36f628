package refractometer

import "example.org/wellmixed/units"

const (
	salinityName    = "practical salinity"
	temperatureName = "temperature"
	pressureName    = "sea pressure"
	lightName       = "wavelength"

	msSource    = "Millard and Seaver 1990"
	qfSource    = "Quan and Fry 1995"
	iapwsSource = "IAPWS R9-97"
	saltSource  = "CRC Handbook; Millard and Seaver 1990"
	sugarSource = "ICUMSA 1974; Laliberté 2009"
)

// The ranges in which the formulas hold, as their sources state them.
var (
	msSalinity    = units.Range{Quantity: salinityName, Min: 0, Max: 40, Source: msSource}
	msTemperature = units.Range{Quantity: temperatureName, Min: 0, Max: 30, Unit: "°C", Source: msSource}
	msPressure    = units.Range{Quantity: pressureName, Min: 0, Max: 11000, Unit: "dbar", Source: msSource}
	msLight       = units.Range{Quantity: lightName, Min: 500, Max: 700, Unit: "nm", Source: msSource}

	qfSalinity    = units.Range{Quantity: salinityName, Min: 0, Max: 35, Source: qfSource}
	qfTemperature = units.Range{Quantity: temperatureName, Min: 0, Max: 30, Unit: "°C", Source: qfSource}
	qfLight       = units.Range{Quantity: lightName, Min: 400, Max: 700, Unit: "nm", Source: qfSource}

	waterTemperatures = units.Range{Quantity: temperatureName, Min: -12, Max: 500, Unit: "°C", Source: iapwsSource}
	waterDensities    = units.Range{Quantity: "density", Min: 0, Max: 1060, Unit: "kg/m³", Source: iapwsSource}
	waterWavelengths  = units.Range{Quantity: lightName, Min: 200, Max: 1100, Unit: "nm", Source: iapwsSource}

	airWavelengths = units.Range{Quantity: lightName, Min: 300, Max: 1690, Unit: "nm", Source: "Ciddor 1996"}

	saltStrength     = units.Range{Quantity: "sodium chloride", Min: 0, Max: 26, Unit: "% by mass", Source: saltSource}
	saltTemperature  = units.Range{Quantity: temperatureName, Min: 0, Max: 30, Unit: "°C", Source: saltSource}
	sugarStrength    = units.Range{Quantity: "sucrose", Min: 0, Max: 30, Unit: "% by mass", Source: sugarSource}
	sugarTemperature = units.Range{Quantity: temperatureName, Min: 15, Max: 30, Unit: "°C", Source: sugarSource}
)

// CheckRange returns a *units.RangeError where Seawater and SeawaterSalinity do
// not hold, and nil where they do.
func CheckRange(s units.PracticalSalinity, t units.Temperature) error {
	return CheckRangeMillardSeaver(s, t, 0, SodiumD)
}

// CheckRangeMillardSeaver is CheckRange for MillardSeaver.
func CheckRangeMillardSeaver(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure, w Wavelength) error {
	return first(msSalinity.Check(s.Value()), msTemperature.Check(t.Celsius()),
		msPressure.Check(p.Decibars()), msLight.Check(w.Nanometres()))
}

// CheckRangeQuanFry is CheckRange for QuanFry.
func CheckRangeQuanFry(s units.PracticalSalinity, t units.Temperature, w Wavelength) error {
	return first(qfSalinity.Check(s.Value()), qfTemperature.Check(t.Celsius()), qfLight.Check(w.Nanometres()))
}

// CheckRangeWater is CheckRange for Water.
func CheckRangeWater(t units.Temperature, rho units.Density, w Wavelength) error {
	return first(waterTemperatures.Check(t.Celsius()), waterDensities.Check(float64(rho)),
		waterWavelengths.Check(w.Nanometres()))
}

// CheckRangeStandardAir is CheckRange for StandardAir.
func CheckRangeStandardAir(w Wavelength) error { return airWavelengths.Check(w.Nanometres()) }

// CheckRangeSodiumChloride is CheckRange for SodiumChloride.
func CheckRangeSodiumChloride(w units.Fraction, t units.Temperature) error {
	return first(saltStrength.Check(w.Percent()), saltTemperature.Check(t.Celsius()))
}

// CheckRangeSucrose is CheckRange for Sucrose.
func CheckRangeSucrose(w units.Fraction, t units.Temperature) error {
	return first(sugarStrength.Check(w.Percent()), sugarTemperature.Check(t.Celsius()))
}

// first returns the first error that is one.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
