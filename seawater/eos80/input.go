package eos80

import (
	"math"

	"example.org/wellmixed/units"
)

// t68PerT90 turns a temperature on ITS-90 into one on IPTS-68 [S90].
const t68PerT90 = 1.00024

// The ends of the world: absolute zero in °C, and the sea pressure of no
// pressure at all in dbar.
const (
	absoluteZero = -273.15
	vacuum       = -10.1325
)

// possible tells whether these can be the salinity, temperature and pressure
// of any water. NaN and Inf cannot; as nothing here is far below zero, one
// infinity makes the sum infinite.
func possible(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) bool {
	return s.Value() >= 0 && t.Celsius() >= absoluteZero && p >= vacuum &&
		s.Value()+t.Celsius()+float64(p) <= math.MaxFloat64
}

// published takes the quantities of the library into the units of most of the
// equations: S, T on IPTS-68, and the pressure in bar.
func published(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) (salinity, t68, bar float64) {
	return s.Value(), t68PerT90 * t.Celsius(), p.Bars()
}
