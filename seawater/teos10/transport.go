package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// Viscosity returns the dynamic viscosity of seawater near one atmosphere.
//
//	symbol   µ = µ_w (1 + A s + B s²), s in kg/kg; µ_w = a4 + 1/(a1 (t + a2)² + a3);
//	         A = a5 + a6 t + a7 t², B = a8 + a9 t + a10 t²
//	source   [SLZ10] eqs. 22 and 23, with the authors' full constants
//	units    SA g/kg, t °C ITS-90; result Pa s
//	range    0 <= SA <= 150, 0 <= t <= 180; within 1.5 %
//	outside  extrapolates (CheckRangeViscosity tells); meaningless input: NaN
func Viscosity(sa units.AbsoluteSalinity, t units.Temperature) float64 {
	s, c := sa.GramsPerKilogram()/1000, t.Celsius()
	if !possible(sa.GramsPerKilogram(), c, 0) {
		return math.NaN()
	}
	water := viscosityA4 + 1/(viscosityA1*(c+viscosityA2)*(c+viscosityA2)+viscosityA3)
	a := viscosityA5 + c*(viscosityA6+c*viscosityA7)
	b := viscosityA8 + c*(viscosityA9+c*viscosityA10)
	return water * (1 + s*(a+s*b))
}

// ThermalConductivity returns the thermal conductivity of seawater at one
// atmosphere.
//
//	symbol   λ = λ_w(T) + Δλ; λ_w = Σ c_i (T/300 K)^d_i; Δλ = a (1000 s)^(1+b), s in kg/kg,
//	         a = a1 exp(a2 t), b = b1 exp(b2 t), each of a1, a2, b1, b2 linear in P
//	source   [SR6] eq. 8 for water; [G10] for the salt
//	units    SA g/kg, t °C ITS-90; result W/(m K)
//	range    0 <= SA <= 170, 0 <= t <= 110
//	outside  extrapolates (CheckRangeThermalConductivity tells); meaningless input: NaN
func ThermalConductivity(sa units.AbsoluteSalinity, t units.Temperature) float64 {
	if !possible(sa.GramsPerKilogram(), t.Celsius(), 0) {
		return math.NaN()
	}
	return waterConductivity(t.Kelvin()) + salineConductivity(sa.GramsPerKilogram(), t.Celsius(), atmosphere*1e-6)
}

// waterConductivity is [SR6] eq. 8, in W/(m K), at 0.1 MPa.
func waterConductivity(kelvin float64) float64 {
	ln := math.Log(kelvin / 300)
	return conductivityC1*math.Exp(conductivityD1*ln) + conductivityC2*math.Exp(conductivityD2*ln) +
		conductivityC3*math.Exp(conductivityD3*ln) + conductivityC4*math.Exp(conductivityD4*ln)
}

// salineConductivity is what the salt adds [G10], in W/(m K), from g/kg, °C
// and MPa.
func salineConductivity(s, t, p float64) float64 {
	a := (conductivityA10 + conductivityA11*p) * math.Exp((conductivityA20+conductivityA21*p)*t)
	b := (conductivityB10 + conductivityB11*p) * math.Exp((conductivityB20+conductivityB21*p)*t)
	return a * math.Pow(s, 1+b)
}

// SurfaceTension returns the surface tension of seawater against its vapour
// or air.
//
//	symbol   σ = σ_w (1 + s1 s + s2 s t), s in kg/kg; σ_w = B τ^µ (1 + b τ), τ = 1 - T/T_c
//	source   [R1] for water; [R14] for the salt
//	units    SA g/kg, t °C ITS-90; result N/m
//	range    0 <= SA <= 131, 1 <= t <= 92
//	outside  extrapolates (CheckRangeSurfaceTension tells); above the critical temperature
//	         and for meaningless input: NaN
func SurfaceTension(sa units.AbsoluteSalinity, t units.Temperature) float64 {
	s := sa.GramsPerKilogram() / 1000
	if !possible(sa.GramsPerKilogram(), t.Celsius(), 0) {
		return math.NaN()
	}
	u := 1 - t.Kelvin()/criticalTemperature
	water := tensionB * math.Pow(u, tensionMu) * (1 + tensionSmallB*u)
	return water * (1 + s*(tensionS1+tensionS2*t.Celsius()))
}
