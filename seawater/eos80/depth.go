package eos80

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// Depth returns how far below the surface of a standard ocean (salinity 35,
// 0 °C) a pressure is met, at a latitude in degrees, north or south.
//
//	symbol   z = (c1 p + c2 p² + c3 p³ + c4 p⁴) / (g(latitude) + 1.092e-6 p)
//	source   [SF76] refitted to EOS-80, [U44]
//	units    p dbar above the surface, latitude degrees, result a Length
//	range    0 <= p <= 10000 dbar
//	outside  extrapolates; |latitude| > 90, NaN or Inf: NaN
func Depth(p units.SeaPressure, latitude float64) units.Length {
	if !possible(units.PracticalSalinity{}, units.Temperature{}, p) || !(math.Abs(latitude) <= 90) {
		return units.Length(math.NaN())
	}
	dbar := p.Decibars()
	sine := math.Sin(latitude * (math.Pi / 180))
	gravity := surfaceGravity*poly.P2(sine*sine, &latitudeCoef) + gravityPCoef*dbar
	return units.Length(dbar*poly.P3(dbar, &depthCoef)/gravity) * units.Metre
}

// depthCoef is c1 to c4: geopotential of the standard ocean in m²/s², p in
// dbar [U44].
var depthCoef = [...]float64{9.72659, -2.2512e-5, 2.279e-10, -1.82e-15}

// Gravity in m/s²: at the surface surfaceGravity times latitudeCoef in powers 0
// to 2 of the squared sine of the latitude, and its mean down to p dbar [U44].
const (
	surfaceGravity = 9.780318
	gravityPCoef   = 1.092e-6 // per dbar
)

var latitudeCoef = [...]float64{1, 5.2788e-3, 2.36e-5}
