package seawater

import (
	"math"

	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// HotWater returns water that may be hotter than any tank: pure water up to 100 °C,
// seawater up to 80 °C, at the pressure of the air. It is there to be blended with
// cold water and to be heated. Above 40 °C its density and heat are those of
// teos10.HotDensity and its like; conductivity, expansion, speed of sound, osmotic
// pressure and heat of evaporation are NaN, and planners of a stocked tank refuse it.
//
// No other function makes a Sample hotter than 40 °C: what is typed in the wrong
// unit, 77 °C for 77 °F, must not pass for a tank.
func HotWater(s units.AbsoluteSalinity, t units.Temperature) (Sample, error) {
	if !(t.Celsius() > temperatureRange.Max) {
		return FromAbsolute(s, t)
	}
	made := Sample{units.Absolute(unrounded(s.GramsPerKilogram(), salinityRange)), t}
	if err := salinityRange.Check(made.salinity.GramsPerKilogram()); err != nil {
		return invalid(), err
	}
	if err := teos10.CheckRangeHot(made.salinity, t); err != nil {
		return invalid(), err
	}
	return made, nil
}

// hot tells what only HotWater makes.
func (s Sample) hot() bool { return s.temperature.Celsius() > temperatureRange.Max }

// tepid returns the temperature for the formulas that end at 40 °C, and NaN above.
func (s Sample) tepid() units.Temperature {
	if s.hot() {
		return units.Celsius(math.NaN())
	}
	return s.temperature
}

// heat returns the heat content at the surface as Conservative Temperature in °C,
// which hot water continues.
func (s Sample) heat() float64 {
	if s.hot() {
		return teos10.HotEnthalpy(s.salinity, s.temperature) / conservativeHeat
	}
	return teos10.ConservativeFromInSitu(s.salinity, s.temperature, 0).Celsius()
}

// ofHeat returns the water of a salinity that has this heat content; it undoes heat.
func ofHeat(s units.AbsoluteSalinity, heat float64) Sample {
	t := teos10.InSituFromConservative(s, teos10.Conservative(heat), 0)
	if t.Celsius() > temperatureRange.Max {
		t = teos10.TemperatureFromHotEnthalpy(s, heat*conservativeHeat)
	}
	return Sample{s, t}
}

const conservativeHeat = float64(teos10.ConservativeHeatCapacity)
