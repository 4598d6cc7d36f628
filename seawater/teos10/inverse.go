package teos10

import (
	"math"

	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/units"
)

// TemperatureFromEnthalpyExact returns the temperature of seawater that has this
// specific enthalpy; it undoes EnthalpyExact.
//
//	symbol   h(SA, t, p) = h
//	source   [R13]
//	units    SA g/kg, h J/kg, p dbar; result °C ITS-90
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa); inverse to 1e-11 K
//	outside  extrapolates (CheckRangeExact of the result tells); NaN if no temperature has
//	         this enthalpy; meaningless input: NaN
func TemperatureFromEnthalpyExact(sa units.AbsoluteSalinity, h float64, p units.SeaPressure) units.Temperature {
	x, _, z := reduce(sa, 0, p.Decibars())
	var g, c column
	g.seawater(x, z)
	c.enthalpyOf(&g)
	return units.Celsius(kelvinUnit * c.root(h, (h-c[0])/c[1]))
}

// TemperatureFromEntropyExact returns the temperature of seawater that has this
// specific entropy; it undoes EntropyExact.
//
//	symbol   η(SA, t, p) = η
//	source   [R13]
//	units    SA g/kg, η J/(kg K), p dbar; result °C ITS-90
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa); inverse to 1e-11 K
//	outside  extrapolates (CheckRangeExact of the result tells); NaN if no temperature has
//	         this entropy; meaningless input: NaN
func TemperatureFromEntropyExact(sa units.AbsoluteSalinity, eta float64, p units.SeaPressure) units.Temperature {
	x, _, z := reduce(sa, 0, p.Decibars())
	var g, c column
	g.seawater(x, z)
	c.slopeOf(&g)
	gT := -(kelvinUnit*eta + squareLog(x)*s110)
	// dη = c_p dT/T: the first guess is right to a hundredth of t.
	kelvin := zeroCelsius * math.Exp((gT-c[0])/(zeroCelsius/kelvinUnit*c[1]))
	return units.Celsius(kelvinUnit * c.root(gT, (kelvin-zeroCelsius)/kelvinUnit))
}

// enthalpyOf sets c to g - T g_T: of a term g_j τʲ there remain (1-j) g_j τʲ and
// -j g_j τʲ⁻¹ · 273.15/40. The logarithm of g has the factor zero in it, see
// enthalpy.
func (c *column) enthalpyOf(g *column) {
	for j := range c {
		c[j] = float64(1-j) * g[j]
		if j+1 < len(g) {
			c[j] -= zeroCelsius / kelvinUnit * float64(j+1) * g[j+1]
		}
	}
}

// MaximumDensityTemperature returns the temperature at which seawater is heaviest
// and does not expand: warmer or colder it is lighter. Above some 24 g/kg it lies
// below the freezing point.
//
//	symbol   ∂v/∂CT(SA, CT, p) = 0
//	source   [RMMB15]; [TEOS10] section 3.42
//	units    SA g/kg, p dbar; result °C
//	range    0 <= SA <= 42, 0 <= p <= 8000, narrower in the deep; for SA > 24 it extrapolates below freezing
//	outside  extrapolates; NaN where none lies between -20 and 10 °C; meaningless input: NaN
func MaximumDensityTemperature(sa units.AbsoluteSalinity, p units.SeaPressure) ConservativeTemperature {
	return ConservativeTemperature{coldRoot(func(t float64) float64 {
		return ThermalExpansion(sa, ConservativeTemperature{t}, p)
	})}
}

// MaximumDensityTemperatureExact returns the temperature at which seawater is
// heaviest, as a thermometer shows it: 3.98 °C for pure water.
//
//	symbol   g_TP(SA, t, p) = 0
//	source   [R13]; [TEOS10] section 3.42
//	units    SA g/kg, p dbar; result °C ITS-90
//	range    0 <= SA <= 120, t >= -12.15, p <= 9989 (100 MPa); for SA > 24 it extrapolates below freezing
//	outside  extrapolates; NaN where none lies between -20 and 10 °C; meaningless input: NaN
func MaximumDensityTemperatureExact(sa units.AbsoluteSalinity, p units.SeaPressure) units.Temperature {
	return units.Celsius(coldRoot(func(t float64) float64 {
		return ThermalExpansionExact(sa, units.Celsius(t), p)
	}))
}

// coldRoot returns where f passes through zero between -20 and 10 °C.
func coldRoot(f func(t float64) float64) float64 {
	t, ok := solve.Brent(f, -20, 10, 1e-13)
	if !ok {
		return math.NaN()
	}
	return t
}

// FreezingSalinity returns the salinity of the seawater that freezes at a
// temperature: of the brine that is in balance with ice there. It undoes
// FreezingTemperature.
//
//	symbol   t_f(SA, p) = t
//	source   [R13]; [R10]; [TEOS10] section 3.33
//	units    t °C ITS-90, p dbar, air f as a share of saturation; result g/kg
//	range    0 <= SA <= 120, which freezes at -7.7 °C at the surface; p <= 9989 (100 MPa), 0 <= f <= 1
//	outside  NaN where water of 0 to 120 g/kg does not freeze; f < 0 or meaningless input: NaN
func FreezingSalinity(t units.Temperature, p units.SeaPressure, air units.Fraction) units.AbsoluteSalinity {
	above := func(s float64) float64 {
		return FreezingTemperature(units.Absolute(s), p, air).Celsius() - t.Celsius()
	}
	const rounding = 1e-12 // K
	if d := above(0); d < 0 && d > -rounding {
		return units.Absolute(0)
	}
	s, ok := solve.Brent(above, gibbsSalinity.Min, gibbsSalinity.Max, 1e-11)
	if !ok {
		s = math.NaN()
	}
	return units.Absolute(s)
}
