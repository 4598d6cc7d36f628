package teos10

import "math/cmplx"

// ice returns the Gibbs function of ice Ih and its first two derivatives in
// temperature [R10], in J/kg and kelvin, from the temperature in kelvin and
// the pressure in Pa above one atmosphere.
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
