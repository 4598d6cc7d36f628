package teos10

import "math"

// What is asked for most is one derivative at one temperature, for which a column would
// be too much. The functions of this file write the sums of gibbs_coef.go, and h0 of
// temperature_coef.go, so that each coefficient is multiplied once: ordered by the
// power that the derivative acts on, whose factors are shared. Even powers of ξ stand
// apart from odd ones, so that they need not wait for the root; polynomials in τ
// go by pairs. w = ξ², y = τ, z = π, as reduceSquared gives them.

// gibbsP returns ∂g/∂π of seawater, 10⁸ Pa times the specific volume.
func gibbsP(w, y, z float64) float64 {
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

// gibbsTT returns ∂²g/∂τ² of seawater.
func gibbsTT(w, y, z float64) float64 {
	x := math.Sqrt(w)
	y2 := y * y
	y3, y4, y5, y6, y7 := 6*y, 12*y2, 20*y2*y, 30*y2*y2, 42*y2*y2*y
	even := 2*w20 + y3*w30 + y4*w40 + y5*w50 + y6*w60 + y7*w70 +
		w*(2*s220+y3*s230+y4*s240+y5*s250+y6*s260+w*(2*s420+y3*s430+y4*s440+y5*s450))
	odd := 2*s320 + y3*s330 + y4*s340
	if z != 0 {
		zz := z * z
		even += z * (2*(w21+z*w22+zz*(w23+z*w24+zz*w25)) + y3*(w31+z*w32+zz*(w33+z*w34+zz*w35)) +
			y4*(w41+z*w42+zz*(w43+z*w44)) + y5*(w51+z*w52+zz*(w53+z*w54)) + y6*(w61+z*w62+zz*w63) + y7*w71 +
			w*(2*(s221+z*s222+zz*(s223+z*s224+zz*s225))+y3*(s231+z*s232+zz*(s233+z*s234))+y4*(s241+z*s242+zz*s243)))
		odd += z * (2*(s321+z*s322+zz*s323) + y3*s331 + y4*s341)
	}
	return even + x*w*odd
}

// potentialEnthalpy returns h0, in J/kg.
func potentialEnthalpy(w, y float64) float64 {
	x := math.Sqrt(w)
	y2 := y * y
	y4 := y2 * y2
	even := h00 + y*h01 + y2*(h02+y*h03) + y4*(h04+y*h05+y2*(h06+y*h07)) +
		w*(h20+y*h21+y2*(h22+y*h23)+y4*(h24+y*h25+y2*h26)+
			w*(h40+y*h41+y2*(h42+y*h43)+y4*(h44+y*h45)+w*h60))
	odd := h30 + y*h31 + y2*(h32+y*h33+y2*h34) + w*(h50+w*h70)
	return even + x*w*odd
}
