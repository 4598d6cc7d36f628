package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

const gasConstant = 8.314472 // J/(mol K), CODATA 2002, the value that [R13] is built on

// OsmoticCoefficient returns the ratio of the osmotic effect of sea salt to
// that of the same number of particles in an ideal solution.
//
//	symbol   φ = -(gS - SA gS_S)/(m R T)
//	source   [R13]
//	units    SA g/kg, t °C ITS-90, p dbar
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func OsmoticCoefficient(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) float64 {
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	var c column
	c.salineW(x, z)
	return saltMolarMass * (1000 - sa.GramsPerKilogram()) * c.value(y) /
		(2 * salinityUnit * gasConstant * t.Kelvin())
}

// OsmoticPressure returns the pressure, above that of pure water at p on the
// other side of a membrane, at which seawater draws no more water through it:
// the least that a reverse-osmosis membrane needs.
//
//	symbol   µ_W(SA, t, p + π) = gW(t, p)
//	source   [R13]; [TEOS10] section 3.41
//	units    SA g/kg, t °C ITS-90, p dbar
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p + π <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); NaN if there is no such pressure;
//	         meaningless input: NaN
func OsmoticPressure(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) units.SeaPressure {
	x, y, z0 := reduce(sa, t.Celsius(), p.Decibars())
	var c, w column
	c.seawater(0, z0)
	outside := c.value(y)
	const enough, steps = 1e-9, 30
	z := z0
	for range steps {
		c.waterPotential(x, z)
		f := c.value(y) - outside
		c.seawaterP(0, z)
		w.salineWP(x, z)
		d := f / (c.value(y) - 0.5*x*x*w.value(y))
		z -= d
		if math.Abs(d) < enough {
			return units.SeaPressure(dbarUnit * (z - z0))
		}
	}
	return units.SeaPressure(math.NaN())
}
