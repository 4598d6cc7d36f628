package eos80

import "example.org/wellmixed/units"

// CheckRange returns a *units.RangeError if the equation of state (Density,
// SurfaceDensity, SecantBulkModulus, SpecificVolumeAnomaly) is not fitted to
// water of this salinity, temperature and pressure, and nil if it is.
//
// As all limits are round numbers, the 10 mK between the temperature scales
// are not held against a temperature.
func CheckRange(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) error {
	return densityLimits.check(s, t, p)
}

// CheckRangeHeatCapacity is CheckRange for HeatCapacity. The tables of [U44] go on
// to 40 °C.
func CheckRangeHeatCapacity(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) error {
	return heatLimits.check(s, t, p)
}

// CheckRangeSoundSpeed is CheckRange for SoundSpeed.
func CheckRangeSoundSpeed(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) error {
	return soundLimits.check(s, t, p)
}

// CheckRangeAdiabatic is CheckRange for AdiabaticLapseRate and
// PotentialTemperature. The tables of [U44] go from salinity 25 and from 0 to
// 40 °C.
func CheckRangeAdiabatic(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) error {
	return adiabaticLimits.check(s, t, p)
}

// CheckRangeFreezing is CheckRange for FreezingPoint.
func CheckRangeFreezing(s units.PracticalSalinity, p units.SeaPressure) error {
	if err := freezingSalinity.Check(s.Value()); err != nil {
		return err
	}
	return freezingPressure.Check(p.Decibars())
}

// limits are those of one equation.
type limits struct{ salinity, temperature, pressure units.Range }

func (l *limits) check(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) error {
	if err := l.salinity.Check(s.Value()); err != nil {
		return err
	}
	if err := l.temperature.Check(t.Celsius()); err != nil {
		return err
	}
	return l.pressure.Check(p.Decibars())
}

const (
	salinityName    = "practical salinity"
	temperatureName = "temperature"
	pressureName    = "sea pressure"

	eosSource   = "EOS-80, UNESCO 1983"
	heatSource  = "Millero et al. 1973, UNESCO 1983"
	soundSource = "Chen and Millero 1977, UNESCO 1983"
	iceSource   = "Millero 1978, UNESCO 1983"
	lapseSource = "Bryden 1973, UNESCO 1983"
)

// The ranges of the fits. That of [B73] and the pressure of [M78] are from
// memory.
var (
	densityLimits = limits{
		units.Range{Quantity: salinityName, Min: 0, Max: 42, Source: eosSource},
		units.Range{Quantity: temperatureName, Min: -2, Max: 40, Unit: "°C", Source: eosSource},
		units.Range{Quantity: pressureName, Min: 0, Max: 10000, Unit: "dbar", Source: eosSource},
	}
	heatLimits = limits{
		units.Range{Quantity: salinityName, Min: 0, Max: 40, Source: heatSource},
		units.Range{Quantity: temperatureName, Min: 0, Max: 35, Unit: "°C", Source: heatSource},
		units.Range{Quantity: pressureName, Min: 0, Max: 10000, Unit: "dbar", Source: heatSource},
	}
	soundLimits = limits{
		units.Range{Quantity: salinityName, Min: 0, Max: 40, Source: soundSource},
		units.Range{Quantity: temperatureName, Min: 0, Max: 40, Unit: "°C", Source: soundSource},
		units.Range{Quantity: pressureName, Min: 0, Max: 10000, Unit: "dbar", Source: soundSource},
	}
	adiabaticLimits = limits{
		units.Range{Quantity: salinityName, Min: 30, Max: 40, Source: lapseSource},
		units.Range{Quantity: temperatureName, Min: 2, Max: 30, Unit: "°C", Source: lapseSource},
		units.Range{Quantity: pressureName, Min: 0, Max: 10000, Unit: "dbar", Source: lapseSource},
	}
	freezingSalinity = units.Range{Quantity: salinityName, Min: 4, Max: 40, Source: iceSource}
	freezingPressure = units.Range{Quantity: pressureName, Min: 0, Max: 500, Unit: "dbar", Source: iceSource}
)
