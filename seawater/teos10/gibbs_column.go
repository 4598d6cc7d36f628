package teos10

// column is a polynomial in τ = t / 40 °C: the Gibbs function, or one of its
// derivatives in salinity and pressure, at a fixed salinity and pressure.
// Value and derivatives in temperature then cost eight terms each, and the
// inverses iterate on those eight numbers alone.
type column [8]float64

// value returns the polynomial, by pairs, so that the processor need not wait
// for one long chain of sums.
func (c *column) value(y float64) float64 {
	y2 := y * y
	return c[0] + y*c[1] + y2*(c[2]+y*c[3]) + y2*y2*(c[4]+y*c[5]+y2*(c[6]+y*c[7]))
}

// slope and curvature are the first two derivatives in τ.
func (c *column) slope(y float64) float64 {
	y2 := y * y
	return c[1] + y*(2*c[2]) + y2*(3*c[3]+y*(4*c[4])) + y2*y2*(5*c[5]+y*(6*c[6])+y2*(7*c[7]))
}

func (c *column) curvature(y float64) float64 {
	y2 := y * y
	return 2*c[2] + y*(6*c[3]) + y2*(12*c[4]+y*(20*c[5])) + y2*y2*(30*c[6]+y*(42*c[7]))
}

// The functions below write the sums of gibbs_coef.go as nested products, with
// x = ξ and z = π. Terms that remain at the surface come first; the others are
// added only under pressure. The logarithm of gS stands in none of them.

// seawater sets c to gW + gS.
func (c *column) seawater(x, z float64) {
	c.surface(x)
	if z != 0 {
		c.press(c, x, z)
	}
	c[0] = level(x, z)
}

// surface sets all of c but c[0] to gW + gS at the surface.
func (c *column) surface(x float64) {
	x2 := x * x
	c[1] = w10 + x2*(s210+x*(s310+x*(s410+x*(s510+x*s610))))
	c[2] = w20 + x2*(s220+x*(s320+x*s420))
	c[3] = w30 + x2*(s230+x*(s330+x*s430))
	c[4] = w40 + x2*(s240+x*(s340+x*s440))
	c[5] = w50 + x2*(s250+x2*s450)
	c[6] = w60 + x2*s260
	c[7] = w70
}

// press sets all of c but c[0] to gW + gS under pressure, from what surface
// gave.
func (c *column) press(surface *column, x, z float64) {
	x2 := x * x
	c[1] = surface[1] + z*(w11+z*(w12+z*(w13+z*(w14+z*w15)))+x2*(s211+x*(s311+x*s411)+z*(s212+x*s312+z*(s213+x*s313+z*(s214+z*s215)))))
	c[2] = surface[2] + z*(w21+z*(w22+z*(w23+z*(w24+z*w25)))+x2*(s221+x*s321+z*(s222+x*s322+z*(s223+x*s323+z*(s224+z*s225)))))
	c[3] = surface[3] + z*(w31+z*(w32+z*(w33+z*(w34+z*w35)))+x2*(s231+x*s331+z*(s232+z*(s233+z*s234))))
	c[4] = surface[4] + z*(w41+z*(w42+z*(w43+z*w44))+x2*(s241+x*s341+z*(s242+z*s243)))
	c[5] = surface[5] + z*(w51+z*(w52+z*(w53+z*w54)))
	c[6] = surface[6] + z*(w61+z*(w62+z*w63))
	c[7] = surface[7] + z*w71
}

// level returns c[0] of gW + gS: the Gibbs function at 0 °C. Entropy and heat
// capacity do without it.
func level(x, z float64) float64 {
	x2 := x * x
	g := w00 + x2*(s200+x*(s300+x*(s400+x*(s500+x*(s600+x*s700)))))
	if z != 0 {
		g += z * (w01 + z*(w02+z*(w03+z*(w04+z*(w05+z*w06)))) + x2*(s201+x*(s301+x*(s401+x*s501))+z*(s202+x*(s302+x*s402)+z*(s203+x*(s303+x*s403)+z*(s204+x*s304+z*s205)))))
	}
	return g
}

// seawaterP sets c to ∂(gW + gS)/∂π.
func (c *column) seawaterP(x, z float64) {
	x2 := x * x
	c[0] = w01 + x2*(s201+x*(s301+x*(s401+x*s501)))
	c[1] = w11 + x2*(s211+x*(s311+x*s411))
	c[2] = w21 + x2*(s221+x*s321)
	c[3] = w31 + x2*(s231+x*s331)
	c[4] = w41 + x2*(s241+x*s341)
	c[5] = w51
	c[6] = w61
	c[7] = w71
	if z != 0 {
		c[0] += z * (2*w02 + z*(3*w03+z*(4*w04+z*(5*w05+z*(6*w06)))) + x2*(2*(s202+x*(s302+x*s402))+z*(3*(s203+x*(s303+x*s403))+z*(4*(s204+x*s304)+z*(5*s205)))))
		c[1] += z * (2*w12 + z*(3*w13+z*(4*w14+z*(5*w15))) + x2*(2*(s212+x*s312)+z*(3*(s213+x*s313)+z*(4*s214+z*(5*s215)))))
		c[2] += z * (2*w22 + z*(3*w23+z*(4*w24+z*(5*w25))) + x2*(2*(s222+x*s322)+z*(3*(s223+x*s323)+z*(4*s224+z*(5*s225)))))
		c[3] += z * (2*w32 + z*(3*w33+z*(4*w34+z*(5*w35))) + x2*(2*s232+z*(3*s233+z*(4*s234))))
		c[4] += z * (2*w42 + z*(3*w43+z*(4*w44)) + x2*(2*s242+z*(3*s243)))
		c[5] += z * (2*w52 + z*(3*w53+z*(4*w54)))
		c[6] += z * (2*w62 + z*(3*w63))
	}
}

// seawaterPP sets c to ∂²(gW + gS)/∂π².
func (c *column) seawaterPP(x, z float64) {
	x2 := x * x
	c[0] = 2*w02 + x2*(2*(s202+x*(s302+x*s402)))
	c[1] = 2*w12 + x2*(2*(s212+x*s312))
	c[2] = 2*w22 + x2*(2*(s222+x*s322))
	c[3] = 2*w32 + x2*(2*s232)
	c[4] = 2*w42 + x2*(2*s242)
	c[5] = 2 * w52
	c[6] = 2 * w62
	c[7] = 0
	if z != 0 {
		c[0] += z * (6*w03 + z*(12*w04+z*(20*w05+z*(30*w06))) + x2*(6*(s203+x*(s303+x*s403))+z*(12*(s204+x*s304)+z*(20*s205))))
		c[1] += z * (6*w13 + z*(12*w14+z*(20*w15)) + x2*(6*(s213+x*s313)+z*(12*s214+z*(20*s215))))
		c[2] += z * (6*w23 + z*(12*w24+z*(20*w25)) + x2*(6*(s223+x*s323)+z*(12*s224+z*(20*s225))))
		c[3] += z * (6*w33 + z*(12*w34+z*(20*w35)) + x2*(6*s233+z*(12*s234)))
		c[4] += z * (6*w43 + z*(12*w44) + x2*(6*s243))
		c[5] += z * (6*w53 + z*(12*w54))
		c[6] += z * (6 * w63)
	}
}

// salineS sets c to (1/ξ) ∂gS/∂ξ without its logarithm: Σ i s_ijk ξⁱ⁻² τʲ πᵏ
// and, from ξ² ln ξ, s1j0.
func (c *column) salineS(x, z float64) {
	c[0] = s100 + 2*s200 + x*(3*s300+x*(4*s400+x*(5*s500+x*(6*s600+x*(7*s700)))))
	c[1] = s110 + 2*s210 + x*(3*s310+x*(4*s410+x*(5*s510+x*(6*s610))))
	c[2] = 2*s220 + x*(3*s320+x*(4*s420))
	c[3] = 2*s230 + x*(3*s330+x*(4*s430))
	c[4] = 2*s240 + x*(3*s340+x*(4*s440))
	c[5] = 2*s250 + x*x*(4*s450)
	c[6] = 2 * s260
	c[7] = 0
	if z != 0 {
		c[0] += z * (2*s201 + x*(3*s301+x*(4*s401+x*(5*s501))) + z*(2*s202+x*(3*s302+x*(4*s402))+z*(2*s203+x*(3*s303+x*(4*s403))+z*(2*s204+x*(3*s304)+z*(2*s205)))))
		c[1] += z * (2*s211 + x*(3*s311+x*(4*s411)) + z*(2*s212+x*(3*s312)+z*(2*s213+x*(3*s313)+z*(2*s214+z*(2*s215)))))
		c[2] += z * (2*s221 + x*(3*s321) + z*(2*s222+x*(3*s322)+z*(2*s223+x*(3*s323)+z*(2*s224+z*(2*s225)))))
		c[3] += z * (2*s231 + x*(3*s331) + z*(2*s232+z*(2*s233+z*(2*s234))))
		c[4] += z * (2*s241 + x*(3*s341) + z*(2*s242+z*(2*s243)))
	}
}

// salineSP sets c to (1/ξ) ∂²gS/∂ξ∂π.
func (c *column) salineSP(x, z float64) {
	c[0] = 2*s201 + x*(3*s301+x*(4*s401+x*(5*s501)))
	c[1] = 2*s211 + x*(3*s311+x*(4*s411))
	c[2] = 2*s221 + x*(3*s321)
	c[3] = 2*s231 + x*(3*s331)
	c[4] = 2*s241 + x*(3*s341)
	c[5] = 0
	c[6] = 0
	c[7] = 0
	if z != 0 {
		c[0] += z * (2*(2*s202+x*(3*s302+x*(4*s402))) + z*(3*(2*s203+x*(3*s303+x*(4*s403)))+z*(4*(2*s204+x*(3*s304))+z*(5*(2*s205)))))
		c[1] += z * (2*(2*s212+x*(3*s312)) + z*(3*(2*s213+x*(3*s313))+z*(4*(2*s214)+z*(5*(2*s215)))))
		c[2] += z * (2*(2*s222+x*(3*s322)) + z*(3*(2*s223+x*(3*s323))+z*(4*(2*s224)+z*(5*(2*s225)))))
		c[3] += z * (2*(2*s232) + z*(3*(2*s233)+z*(4*(2*s234))))
		c[4] += z * (2*(2*s242) + z*(3*(2*s243)))
	}
}

// salineSS sets c to ξ² times (1/ξ) ∂/∂ξ of (1/ξ) ∂gS/∂ξ, that is
// Σ i (i-2) s_ijk ξⁱ⁻² τʲ πᵏ and, from the logarithm, 2 s1j0.
func (c *column) salineSS(x, z float64) {
	c[0] = 2*s100 + x*(3*s300+x*(8*s400+x*(15*s500+x*(24*s600+x*(35*s700)))))
	c[1] = 2*s110 + x*(3*s310+x*(8*s410+x*(15*s510+x*(24*s610))))
	c[2] = x * (3*s320 + x*(8*s420))
	c[3] = x * (3*s330 + x*(8*s430))
	c[4] = x * (3*s340 + x*(8*s440))
	c[5] = x * x * (8 * s450)
	c[6] = 0
	c[7] = 0
	if z != 0 {
		c[0] += x * z * (3*s301 + x*(8*s401+x*(15*s501)) + z*(3*s302+x*(8*s402)+z*(3*s303+x*(8*s403)+z*(3*s304))))
		c[1] += x * z * (3*s311 + x*(8*s411) + z*(3*s312+z*(3*s313)))
		c[2] += x * z * (3*s321 + z*(3*s322+z*(3*s323)))
		c[3] += x * z * (3 * s331)
		c[4] += x * z * (3 * s341)
	}
}

// salineW sets c to -(2/ξ²) (gS - SA ∂gS/∂SA), the salt's share in the chemical
// potential of water: Σ (i-2) s_ijk ξⁱ⁻² τʲ πᵏ and, from the logarithm, s1j0;
// the logarithm itself drops out.
func (c *column) salineW(x, z float64) {
	c[0] = s100 + x*(s300+x*(2*s400+x*(3*s500+x*(4*s600+x*(5*s700)))))
	c[1] = s110 + x*(s310+x*(2*s410+x*(3*s510+x*(4*s610))))
	c[2] = x * (s320 + x*(2*s420))
	c[3] = x * (s330 + x*(2*s430))
	c[4] = x * (s340 + x*(2*s440))
	c[5] = x * x * (2 * s450)
	c[6] = 0
	c[7] = 0
	if z != 0 {
		c[0] += x * z * (s301 + x*(2*s401+x*(3*s501)) + z*(s302+x*(2*s402)+z*(s303+x*(2*s403)+z*s304)))
		c[1] += x * z * (s311 + x*(2*s411) + z*(s312+z*s313))
		c[2] += x * z * (s321 + z*(s322+z*s323))
		c[3] += x * z * s331
		c[4] += x * z * s341
	}
}

// salineWP sets c to the derivative in π of what salineW gives.
func (c *column) salineWP(x, z float64) {
	c[0] = x * (s301 + x*(2*s401+x*(3*s501)))
	c[1] = x * (s311 + x*(2*s411))
	c[2] = x * s321
	c[3] = x * s331
	c[4] = x * s341
	c[5] = 0
	c[6] = 0
	c[7] = 0
	if z != 0 {
		c[0] += x * z * (2*(s302+x*(2*s402)) + z*(3*(s303+x*(2*s403))+z*(4*s304)))
		c[1] += x * z * (2*s312 + z*(3*s313))
		c[2] += x * z * (2*s322 + z*(3*s323))
	}
}

// potentialEnthalpy sets c to h0, in J/kg.
func (c *column) potentialEnthalpy(x float64) {
	x2 := x * x
	c[0] = h00 + x2*(h20+x*(h30+x*(h40+x*(h50+x*(h60+x*h70)))))
	c[1] = h01 + x2*(h21+x*(h31+x*h41))
	c[2] = h02 + x2*(h22+x*(h32+x*h42))
	c[3] = h03 + x2*(h23+x*(h33+x*h43))
	c[4] = h04 + x2*(h24+x*(h34+x*h44))
	c[5] = h05 + x2*(h25+x2*h45)
	c[6] = h06 + x2*h26
	c[7] = h07
}
