package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// ConservativeTemperature is the heat content of seawater in degrees: its
// potential enthalpy divided by a fixed heat capacity, 3991.86795711963
// J/(kg K) [TEOS10]. It is made by Conservative or from a thermometer's
// reading by ConservativeFromInSitu, so a bare number does not compile and
// the two kinds of degrees cannot be mixed up.
//
// The zero value is 0 °C.
type ConservativeTemperature struct{ celsius float64 }

// Conservative returns the Conservative Temperature of t degrees Celsius.
func Conservative(t float64) ConservativeTemperature { return ConservativeTemperature{t} }

// Celsius returns the Conservative Temperature in degrees Celsius.
func (t ConservativeTemperature) Celsius() float64 { return t.celsius }

// PotentialTemperature is the temperature that seawater takes when it is
// brought to the surface without exchange of heat or salt, on ITS-90.
//
// The zero value is 0 °C.
type PotentialTemperature struct{ celsius float64 }

// Potential returns the potential temperature of t degrees Celsius.
func Potential(t float64) PotentialTemperature { return PotentialTemperature{t} }

// Celsius returns the potential temperature in degrees Celsius.
func (t PotentialTemperature) Celsius() float64 { return t.celsius }

// ConservativeFromInSitu returns the Conservative Temperature of seawater that
// a thermometer finds at t. At the surface (p = 0) it is one polynomial.
//
//	symbol   CT = h0(SA, pt)/c_p0 with η(SA, pt, 0) = η(SA, t, p)
//	source   [TEOS10] section 3.3
//	units    SA g/kg, t °C ITS-90, p dbar; result °C
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func ConservativeFromInSitu(sa units.AbsoluteSalinity, t units.Temperature,
	p units.SeaPressure) ConservativeTemperature {
	if p == 0 {
		return ConservativeFromPotential(sa, PotentialTemperature{t.Celsius()})
	}
	x, y, z := reduce(sa, t.Celsius(), p.Decibars())
	var c, pressed, entropy column
	c.surface(x)
	pressed.press(&c, x, z)
	entropy.slopeOf(&c)
	// Equal entropy gives the potential temperature, and with g_T known, h0 =
	// g - T g_T needs g alone.
	gT := pressed.slope(y)
	c[0] = level(x, 0)
	y = entropy.root(gT, y)
	return ConservativeTemperature{(c.value(y) - (y+zeroCelsius/kelvinUnit)*gT) * (1 / heatCapacity0)}
}

// InSituFromConservative returns what a thermometer shows in seawater of
// Conservative Temperature ct; it undoes ConservativeFromInSitu.
//
//	source   [TEOS10] section 3.3
//	units    SA g/kg, CT °C, p dbar; result °C ITS-90
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa); inverse to 1e-12 K
//	outside  extrapolates (CheckRangeExact tells); NaN if no temperature has this CT;
//	         meaningless input: NaN
func InSituFromConservative(sa units.AbsoluteSalinity, ct ConservativeTemperature,
	p units.SeaPressure) units.Temperature {
	x, _, z := reduce(sa, ct.celsius, p.Decibars())
	return units.Celsius(kelvinUnit * sunk(x, potential(x, ct.celsius), z))
}

// ConservativeFromPotential returns the Conservative Temperature of seawater
// of potential temperature pt.
//
//	symbol   CT = h0(SA, pt)/c_p0
//	source   [TEOS10] section 3.3
//	units    SA g/kg, pt °C ITS-90; result °C
//	range    0 <= SA <= 120, -12.15 <= pt <= 40
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func ConservativeFromPotential(sa units.AbsoluteSalinity, pt PotentialTemperature) ConservativeTemperature {
	return ConservativeTemperature{potentialEnthalpy(sa, pt.celsius) * (1 / heatCapacity0)}
}

// PotentialFromConservative returns the potential temperature of seawater of
// Conservative Temperature ct; it undoes ConservativeFromPotential.
//
//	source   [TEOS10] section 3.3
//	units    SA g/kg, CT °C; result °C ITS-90
//	range    0 <= SA <= 120, -12.15 <= pt <= 40; inverse to 1e-12 K
//	outside  extrapolates (CheckRangeExact tells); NaN if no temperature has this CT;
//	         meaningless input: NaN
func PotentialFromConservative(sa units.AbsoluteSalinity, ct ConservativeTemperature) PotentialTemperature {
	x, _, _ := reduce(sa, ct.celsius, 0)
	return PotentialTemperature{kelvinUnit * potential(x, ct.celsius)}
}

// PotentialFromInSitu returns the potential temperature of seawater that a
// thermometer finds at t.
//
//	symbol   η(SA, pt, 0) = η(SA, t, p)
//	source   [TEOS10] section 3.1
//	units    SA g/kg, t °C ITS-90, p dbar; result °C ITS-90
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func PotentialFromInSitu(sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) PotentialTemperature {
	return PotentialTemperature{MovedTemperature(sa, t, p, 0).Celsius()}
}

// InSituFromPotential returns what a thermometer shows in seawater of
// potential temperature pt; it undoes PotentialFromInSitu.
//
//	symbol   η(SA, t, p) = η(SA, pt, 0)
//	source   [TEOS10] section 3.1
//	units    SA g/kg, pt °C ITS-90, p dbar; result °C ITS-90
//	range    0 <= SA <= 120, -12.15 <= t <= 40, p <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func InSituFromPotential(sa units.AbsoluteSalinity, pt PotentialTemperature, p units.SeaPressure) units.Temperature {
	return MovedTemperature(sa, units.Celsius(pt.celsius), 0, p)
}

// MovedTemperature returns the temperature that seawater at t takes when its
// pressure changes without exchange of heat or salt: the potential
// temperature with any reference pressure.
//
//	symbol   η(SA, t', to) = η(SA, t, from)
//	source   [TEOS10] section 3.1
//	units    SA g/kg, t °C ITS-90, from and to dbar; result °C ITS-90
//	range    0 <= SA <= 120, -12.15 <= t <= 40, from and to <= 9989 (100 MPa)
//	outside  extrapolates (CheckRangeExact tells); meaningless input: NaN
func MovedTemperature(sa units.AbsoluteSalinity, t units.Temperature, from, to units.SeaPressure) units.Temperature {
	x, y, z := reduce(sa, t.Celsius(), from.Decibars())
	if !possible(0, 0, to.Decibars()) || math.IsNaN(x) {
		return units.Celsius(math.NaN())
	}
	if from == to {
		return t
	}
	return units.Celsius(kelvinUnit * sunk(x, raised(x, y, z), to.Decibars()/dbarUnit))
}

// potential returns the potential temperature, in units of τ, of water of
// Conservative Temperature ct in °C.
func potential(x, ct float64) float64 {
	var c column
	c.potentialEnthalpy(x)
	return c.root(heatCapacity0*ct, potentialGuess(x, ct)*(1./kelvinUnit))
}

// potentialGuess returns the potential temperature in °C to 7 mK.
func potentialGuess(x, ct float64) float64 {
	s := x * x * (salinityUnit / practicalUnit)
	return (ptA0 + s*(ptA1+s*ptA2) + ct*(ptA3+s*ptA4+ct*ptA5)) / (ptB0 + s*ptB1 + ct*(ptB2+ct*ptB3))
}

// raised returns the temperature of water of temperature y at pressure z after
// it is brought to the surface at constant entropy. The logarithm in the
// entropy is the same on both sides.
func raised(x, y, z float64) float64 {
	if z == 0 {
		return y + 0*x // NaN if x is
	}
	var surface, pressed, entropy column
	surface.surface(x)
	pressed.press(&surface, x, z)
	entropy.slopeOf(&surface)
	return entropy.root(pressed.slope(y), y)
}

// sunk returns the temperature of water of temperature y at the surface after
// it is brought to pressure z; it undoes raised.
func sunk(x, y, z float64) float64 {
	if z == 0 {
		return y + 0*x
	}
	var surface, pressed, entropy column
	surface.surface(x)
	pressed.press(&surface, x, z)
	entropy.slopeOf(&pressed)
	return entropy.root(surface.slope(y), y)
}

// slopeOf sets c to the derivative of g in τ.
func (c *column) slopeOf(g *column) {
	c[0], c[1], c[2], c[3] = g[1], 2*g[2], 3*g[3], 4*g[4]
	c[4], c[5], c[6], c[7] = 5*g[5], 6*g[6], 7*g[7], 0
}

// root solves c(y) = target from a guess near y. Each round is a step d by
// Newton's rule with its second-order term (Chebyshev's method), which leaves
// the cube of the error, and a step e with the slope carried along instead of
// computed again, which leaves less than 0.1 e d². One round does from the
// guesses made here, down to some 700 dbar; NaN means that no round ended
// well.
func (c *column) root(target, y float64) float64 {
	const enough, rounds = 2e-14, 20
	for range rounds {
		r := 1 / c.slope(y)
		bend := r * c.curvature(y)
		d := r * (c.value(y) - target)
		d *= 1 + 0.5*d*bend
		y -= d
		e := r * (1 + d*bend) * (c.value(y) - target)
		y -= e
		if math.Abs(e) < 1e-6 && math.Abs(e)*d*d < enough {
			return y
		}
	}
	return math.NaN()
}
