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
	x := math.Sqrt(w)
	c2, c3, c4 := w20+w*(s220+w*s420), w30+w*(s230+w*s430), w40+w*(s240+w*s440)
	c5, c6, c7 := w50+w*(s250+w*s450), w60+w*s260, w70
	o2, o3, o4 := s320, s330, s340
	if z != 0 {
		c2 += z * (w21 + w*s221 + z*(w22+w*s222+z*(w23+w*s223+z*(w24+w*s224+z*(w25+w*s225)))))
		c3 += z * (w31 + w*s231 + z*(w32+w*s232+z*(w33+w*s233+z*(w34+w*s234+z*w35))))
		c4 += z * (w41 + w*s241 + z*(w42+w*s242+z*(w43+w*s243+z*w44)))
		c5 += z * (w51 + z*(w52+z*(w53+z*w54)))
		c6 += z * (w61 + z*(w62+z*w63))
		c7 += z * w71
		o2 += z * (s321 + z*(s322+z*s323))
		o3 += z * s331
		o4 += z * s341
	}
	y2 := y * y
	even := c2 + 3*y*c3 + y2*(6*c4+10*y*c5+y2*(15*c6+21*y*c7))
	odd := o2 + 3*y*o3 + 6*y2*o4
	const twice = -2. / (kelvinUnit * kelvinUnit)
	return (t + zeroCelsius) * twice * (even + x*w*odd)
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
