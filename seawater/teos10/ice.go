package teos10

import (
	"math"
	"math/cmplx"

	"example.org/wellmixed/units"
)

// GibbsIce returns the Gibbs function of ice, as it forms from water and from
// seawater: the salt stays outside. Its derivatives in salinity are zero. It counts
// from where [Gibbs] does, so that heat and entropy of ice and of water may be
// subtracted from one another.
//
//	symbol   g = g0(P) - s0 T_t τ + T_t Re Σ r_k [(t_k-τ) ln(t_k-τ) + (t_k+τ) ln(t_k+τ) - 2 t_k ln t_k - τ²/t_k],
//	         τ = T/273.16 K
//	source   [R10] eq. 1; [FW06]
//	units    t °C ITS-90, p dbar; result J/kg and its derivatives
//	range    0 to 273.16 K, p <= 20990 (210 MPa), where ice Ih is stable
//	outside  extrapolates (CheckRangeIce tells); meaningless input: NaN
func GibbsIce(t units.Temperature, p units.SeaPressure) Derivatives {
	if !possible(0, t.Celsius(), p.Decibars()) {
		return noDerivatives()
	}
	tau, pi := t.Kelvin()/triplePointT, p.Decibars()*(pascalDbar/triplePointP)
	r2P, r2PP := iceR21+2*complex(pi, 0)*iceR22, 2*iceR22
	g0P := iceG01 + pi*(2*iceG02+pi*(3*iceG03+pi*(4*iceG04)))
	g0PP := 2*iceG02 + pi*(6*iceG03+pi*(12*iceG04))
	f2, f2T, _ := iceTerm(iceT2, tau)
	g, gT, gTT := ice(t.Kelvin(), p.Decibars()*pascalDbar)
	return Derivatives{
		G: units.Scalar(g), T: units.Scalar(gT), TT: units.Scalar(gTT),
		P:  units.Scalar((g0P + triplePointT*real(r2P*f2)) / triplePointP),
		TP: units.Scalar(real(r2P*f2T) / triplePointP),
		PP: units.Scalar((g0PP + triplePointT*real(r2PP*f2)) / (triplePointP * triplePointP)),
	}
}

// IceEnthalpy returns the specific enthalpy of ice. What a kilogram of ice takes
// up until it is water of a temperature t is EnthalpyExact at t less this.
//
//	symbol   h = g - T g_T
//	source   [R10]
//	units    t °C ITS-90, p dbar; result J/kg
//	range    0 to 273.16 K, p <= 20990 (210 MPa)
//	outside  extrapolates (CheckRangeIce tells); meaningless input: NaN
func IceEnthalpy(t units.Temperature, p units.SeaPressure) float64 {
	if !possible(0, t.Celsius(), p.Decibars()) {
		return math.NaN()
	}
	g, gT, _ := ice(t.Kelvin(), p.Decibars()*pascalDbar)
	return g - t.Kelvin()*gT
}

// IceHeatCapacity returns the heat that warms a kilogram of ice by one kelvin at
// constant pressure.
//
//	symbol   c_p = -T g_TT
//	source   [R10]
//	units    t °C ITS-90, p dbar
//	range    0 to 273.16 K, p <= 20990 (210 MPa)
//	outside  extrapolates (CheckRangeIce tells); meaningless input: NaN
func IceHeatCapacity(t units.Temperature, p units.SeaPressure) units.SpecificHeat {
	if !possible(0, t.Celsius(), p.Decibars()) {
		return units.SpecificHeat(math.NaN())
	}
	_, _, gTT := ice(t.Kelvin(), p.Decibars()*pascalDbar)
	return units.SpecificHeat(-t.Kelvin() * gTT)
}

// IceDensity returns the density of ice without bubbles.
//
//	symbol   ρ = 1/g_P
//	source   [R10]
//	units    t °C ITS-90, p dbar
//	range    0 to 273.16 K, p <= 20990 (210 MPa)
//	outside  extrapolates (CheckRangeIce tells); meaningless input: NaN
func IceDensity(t units.Temperature, p units.SeaPressure) units.Density {
	return units.Density(float64(1 / GibbsIce(t, p).P))
}

// ice returns the Gibbs function of ice Ih and its first two derivatives in
// temperature [R10], in J/kg and kelvin, from the temperature in kelvin and
// the pressure in Pa above one atmosphere: what the freezing point needs.
func ice(t, p float64) (g, gT, gTT float64) {
	pi := p / triplePointP
	g0 := iceG00 + pi*(iceG01+pi*(iceG02+pi*(iceG03+pi*iceG04)))
	r2 := iceR20 + complex(pi, 0)*(iceR21+complex(pi, 0)*iceR22)
	tau := t / triplePointT

	f1, f1T, f1TT := iceTerm(iceT1, tau)
	f2, f2T, f2TT := iceTerm(iceT2, tau)
	g = g0 + triplePointT*(real(iceR1*f1+r2*f2)-iceS0*tau)
	gT = real(iceR1*f1T+r2*f2T) - iceS0
	gTT = real(iceR1*f1TT+r2*f2TT) / triplePointT
	return g, gT, gTT
}

// iceTerm returns (t-τ) ln(t-τ) + (t+τ) ln(t+τ) - 2 t ln t - τ²/t and its
// derivatives in τ [R10].
func iceTerm(t complex128, tau float64) (f, f1, f2 complex128) {
	x := complex(tau, 0)
	minus, plus := cmplx.Log(t-x), cmplx.Log(t+x)
	f = (t-x)*minus + (t+x)*plus - 2*t*cmplx.Log(t) - x*x/t
	f1 = plus - minus - 2*x/t
	f2 = 1/(t-x) + 1/(t+x) - 2/t
	return f, f1, f2
}
