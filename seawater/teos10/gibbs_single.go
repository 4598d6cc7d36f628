package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

// What is asked for most is one derivative at one temperature, for which a column would
// be too much. The functions of this file write the sums of gibbs_coef.go, and h0 of
// temperature_coef.go, so that each coefficient is multiplied once: ordered by the
// power that the derivative acts on, whose factors are shared. Even powers of ξ stand
// apart from odd ones, so that they need not wait for the root; polynomials in τ
// go by pairs. They take SA in g/kg, °C and dbar as they are, so that what calls them is
// short enough to vanish into its caller; w = ξ², y = τ, z = π.

// gibbsP returns ∂g/∂π of seawater, 10⁸ Pa times the specific volume.
func gibbsP(sa units.AbsoluteSalinity, t, p float64) float64 {
	w, y, z := reduceSquared(sa, t, p)
	x := math.Sqrt(w)
	y2 := y * y
	y4 := y2 * y2
	even := w01 + y*w11 + y2*(w21+y*w31) + y4*(w41+y*w51+y2*(w61+y*w71)) +
		w*(s201+y*s211+y2*(s221+y*s231+y2*s241)+w*(s401+y*s411))
	odd := s301 + y*s311 + y2*(s321+y*s331+y2*s341) + w*s501
	if z != 0 {
		z2, zz := 2*z, z*z
		z3, z4, z5, z6 := 3*zz, 4*zz*z, 5*zz*zz, 6*zz*zz*z
		even += z2*(w02+y*w12+y2*(w22+y*w32)+y4*(w42+y*w52+y2*w62)) +
			z3*(w03+y*w13+y2*(w23+y*w33)+y4*(w43+y*w53+y2*w63)) +
			z4*(w04+y*w14+y2*(w24+y*w34)+y4*(w44+y*w54)) +
			z5*(w05+y*w15+y2*(w25+y*w35)) + z6*w06 +
			w*(z2*(s202+y*s212+y2*(s222+y*s232+y2*s242)+w*s402)+
				z3*(s203+y*s213+y2*(s223+y*s233+y2*s243)+w*s403)+
				z4*(s204+y*s214+y2*(s224+y*s234))+
				z5*(s205+y*s215+y2*s225))
		odd += z2*(s302+y*s312+y2*s322) + z3*(s303+y*s313+y2*s323) + z4*s304
	}
	return even + x*w*odd
}

// heatCapacity returns -T ∂²g/∂T² of seawater, in J/(kg K).
func heatCapacity(sa units.AbsoluteSalinity, t, p float64) float64 {
	w, y, z := reduceSquared(sa, t, p)
	xw := math.Sqrt(w) * w
	c2 := w20 + w*(s220+w*s420) + xw*s320
	c3 := w30 + w*(s230+w*s430) + xw*s330
	c4 := w40 + w*(s240+w*s440) + xw*s340
	c5 := w50 + w*(s250+w*s450)
	c6 := w60 + w*s260
	c7 := w70
	if z != 0 {
		zz := z * z
		c2 += z * (w21 + z*w22 + zz*(w23+z*w24+zz*w25) + w*(s221+z*s222+zz*(s223+z*s224+zz*s225)) +
			xw*(s321+z*s322+zz*s323))
		c3 += z * (w31 + z*w32 + zz*(w33+z*w34+zz*w35) + w*(s231+z*s232+zz*(s233+z*s234)) + xw*s331)
		c4 += z * (w41 + z*w42 + zz*(w43+z*w44) + w*(s241+z*s242+zz*s243) + xw*s341)
		c5 += z * (w51 + z*w52 + zz*(w53+z*w54))
		c6 += z * (w61 + z*w62 + zz*w63)
		c7 += z * w71
	}
	y2 := y * y
	gTT := 2*c2 + 6*y*c3 + y2*(12*c4+20*y*c5+y2*(30*c6+42*y*c7))
	return (t + zeroCelsius) * (-1. / (kelvinUnit * kelvinUnit)) * gTT
}

// potentialEnthalpy returns h0, in J/kg.
func potentialEnthalpy(sa units.AbsoluteSalinity, t float64) float64 {
	w, y, _ := reduceSquared(sa, t, 0)
	x := math.Sqrt(w)
	y2 := y * y
	y4 := y2 * y2
	even := h00 + y*h01 + y2*(h02+y*h03) + y4*(h04+y*h05+y2*(h06+y*h07)) +
		w*(h20+y*h21+y2*(h22+y*h23)+y4*(h24+y*h25+y2*h26)+
			w*(h40+y*h41+y2*(h42+y*h43)+y4*(h44+y*h45)+w*h60))
	odd := h30 + y*h31 + y2*(h32+y*h33+y2*h34) + w*(h50+w*h70)
	return even + x*w*odd
}
