package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// The ranges in which the formulas hold, as their sources state them.
var (
	volumeSalinity = units.Range{Quantity: "absolute salinity", Min: 0, Max: 42, Unit: "g/kg",
		Source: "Roquet et al. 2015, 75-term polynomial"}
	volumeTemperature = units.Range{Quantity: "Conservative Temperature", Max: 40, Unit: "°C",
		Source: "Roquet et al. 2015, 75-term polynomial, from freezing up"}
	volumePressure = units.Range{Quantity: "sea pressure", Min: 0, Max: 8000, Unit: "dbar",
		Source: "Roquet et al. 2015, 75-term polynomial"}

	gibbsSalinity = units.Range{Quantity: "absolute salinity", Min: 0, Max: 120, Unit: "g/kg",
		Source: "IAPWS R13-08"}
	gibbsTemperature = units.Range{Quantity: "temperature", Min: 261 - zeroCelsius, Max: 40, Unit: "°C",
		Source: "IAPWS R13-08, SR7-09"}
	gibbsPressure = units.Range{Quantity: "sea pressure", Min: -10.1325, Max: 9989.8675, Unit: "dbar",
		Source: "IAPWS R13-08, 0 to 100 MPa absolute"}

	iceTemperature = units.Range{Quantity: "temperature", Min: -zeroCelsius, Max: triplePointT - zeroCelsius, Unit: "°C",
		Source: "IAPWS R10-06, ice Ih up to the triple point"}
	icePressure = units.Range{Quantity: "sea pressure", Min: -10.1325, Max: 20989.8675, Unit: "dbar",
		Source: "IAPWS R10-06, 0 to 210 MPa absolute"}

	hotWater = units.Range{Quantity: "temperature", Min: warmest, Max: 100, Unit: "°C",
		Source: "IAPWS SR6-08, liquid at the pressure of the air"}
	hotSeawater = units.Range{Quantity: "temperature", Min: warmest, Max: 80, Unit: "°C",
		Source: "IAPWS R13-08, at the pressure of the air"}

	airFraction = units.Range{Quantity: "air saturation", Min: 0, Max: 1, Source: "TEOS-10"}

	evaporationSalinity = units.Range{Quantity: "absolute salinity", Min: 0, Max: 42, Unit: "g/kg",
		Source: "TEOS-10 latent heat of evaporation"}
	evaporationTemperature = units.Range{Quantity: "Conservative Temperature", Min: 0, Max: 40, Unit: "°C",
		Source: "TEOS-10 latent heat of evaporation"}

	viscositySalinity = units.Range{Quantity: "absolute salinity", Min: 0, Max: 150, Unit: "g/kg",
		Source: "Sharqawy et al. 2010"}
	viscosityTemperature = units.Range{Quantity: "temperature", Min: 0, Max: 180, Unit: "°C",
		Source: "Sharqawy et al. 2010"}

	conductivitySalinity = units.Range{Quantity: "absolute salinity", Min: 0, Max: 170, Unit: "g/kg",
		Source: "IAPWS G10-15"}
	conductivityTemperature = units.Range{Quantity: "temperature", Min: 0, Max: 110, Unit: "°C",
		Source: "IAPWS G10-15, SR6-08"}

	tensionSalinity = units.Range{Quantity: "absolute salinity", Min: 0, Max: 131, Unit: "g/kg",
		Source: "IAPWS R14-19"}
	tensionTemperature = units.Range{Quantity: "temperature", Min: 1, Max: 92, Unit: "°C",
		Source: "IAPWS R14-19"}
)

// CheckRange returns nil where the 75-term polynomial holds, and otherwise a
// *units.RangeError. The polynomial was fitted to the waters of the ocean:
// below 500 dbar these get saltier and cooler with depth, and the range
// narrows.
func CheckRange(sa units.AbsoluteSalinity, ct ConservativeTemperature, p units.SeaPressure) error {
	if err := volumePressure.Check(p.Decibars()); err != nil {
		return err
	}
	salinity, temperature := volumeSalinity, volumeTemperature
	if d := math.Min(p.Decibars(), 6500); d >= 500 {
		salinity.Min = 0.005 * (d - 500) // 0 at 500 dbar to the last bit, on every processor
		temperature.Max = (9500 - d) / 300
	}
	if err := salinity.Check(sa.GramsPerKilogram()); err != nil {
		return err
	}
	temperature.Min = FreezingConservativePolynomial(sa, p, units.Share(1)).celsius
	return temperature.Check(ct.celsius)
}

// CheckRangeExact returns nil where the Gibbs function of seawater holds, and
// otherwise a *units.RangeError. It is a box: it lets water pass that is
// colder than its freezing point, and does not narrow under pressure, where
// above 42 g/kg the equation is an extrapolation (from memory of R13-08).
func CheckRangeExact(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) error {
	return first(gibbsSalinity.Check(sa.GramsPerKilogram()),
		gibbsTemperature.Check(t.Celsius()), gibbsPressure.Check(p.Decibars()))
}

// CheckRangeFreezing returns nil where the freezing temperatures hold, and
// otherwise a *units.RangeError: where the Gibbs function holds at the
// freezing point.
func CheckRangeFreezing(sa units.AbsoluteSalinity, p units.SeaPressure, air units.Fraction) error {
	return first(gibbsSalinity.Check(sa.GramsPerKilogram()), gibbsPressure.Check(p.Decibars()),
		airFraction.Check(air.Value()), gibbsTemperature.Check(FreezingTemperature(sa, p, air).Celsius()))
}

// CheckRangeIce returns nil where the Gibbs function of ice holds, and otherwise
// a *units.RangeError. It is a box: it lets ice pass that would melt under its
// pressure.
func CheckRangeIce(t units.Temperature, p units.SeaPressure) error {
	return first(iceTemperature.Check(t.Celsius()), icePressure.Check(p.Decibars()))
}

// CheckRangeEvaporation returns nil where EvaporationHeat holds, and otherwise
// a *units.RangeError.
func CheckRangeEvaporation(sa units.AbsoluteSalinity, ct ConservativeTemperature) error {
	return first(evaporationSalinity.Check(sa.GramsPerKilogram()), evaporationTemperature.Check(ct.celsius))
}

// CheckRangeViscosity returns nil where Viscosity holds, and otherwise a
// *units.RangeError.
func CheckRangeViscosity(sa units.AbsoluteSalinity, t units.Temperature) error {
	return first(viscositySalinity.Check(sa.GramsPerKilogram()), viscosityTemperature.Check(t.Celsius()))
}

// CheckRangeThermalConductivity returns nil where ThermalConductivity holds,
// and otherwise a *units.RangeError.
func CheckRangeThermalConductivity(sa units.AbsoluteSalinity, t units.Temperature) error {
	return first(conductivitySalinity.Check(sa.GramsPerKilogram()), conductivityTemperature.Check(t.Celsius()))
}

// CheckRangeSurfaceTension returns nil where SurfaceTension holds, and
// otherwise a *units.RangeError.
func CheckRangeSurfaceTension(sa units.AbsoluteSalinity, t units.Temperature) error {
	return first(tensionSalinity.Check(sa.GramsPerKilogram()), tensionTemperature.Check(t.Celsius()))
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
