package pitzer

import "math"

// matrix is a number for each pair of species.
type matrix [speciesEnd][speciesEnd]float64

func (h *matrix) add(x, y Species, v float64) {
	h[x][y] += v
	if x != y {
		h[y][x] += v
	}
}

// curvature sets ∂ ln γ_i/∂m_j, the second derivatives of the excess Gibbs energy: those
// with which Newton's method finds saturated solutions, where substitution runs away.
//
//	source   derivatives of [HMW84] equations 1 to 6
func (k *model) curvature(s *state, h *matrix) {
	*h = matrix{}
	i := s.strength
	if i < leastStrength {
		return
	}
	root := math.Sqrt(i)
	one := 1 + debye*root
	bent := -k.slope * (1/(one*one) + 2/one) / (2 * root) // dF/dI
	var slope, c [speciesEnd]float64                      // ∂F/∂m_j at constant I, Σ m C
	bent += k.oppositesCurved(s, root, h, &slope, &c)
	bent += k.likesCurved(s, root, h, &slope)
	for r := range psis {
		s.tripleCurved(&psis[r], k.psi[r], h)
	}
	for r := range zetas {
		s.tripleCurved(&zetas[r], k.zeta[r], h)
	}
	for x := range firstNeutral {
		zx := speciesTable[x].charge
		for y := range x + 1 {
			zy := speciesTable[y].charge
			h.add(x, y, zx*zx*zy*zy*bent/2+zx*zx*slope[y]+zy*zy*slope[x]+math.Abs(zx)*c[y]+math.Abs(zy)*c[x])
		}
	}
}

// oppositesCurved adds what cations and anions do to one another, and returns their part of
// dF/dI.
func (k *model) oppositesCurved(s *state, root float64, h *matrix, slope, c *[speciesEnd]float64) (bent float64) {
	single, double, strong := fades(s.strength, root)
	fading := func(a *fade, x, y Species, p float64) {
		h.add(x, y, 2*p*a.g)
		slope[x] += p * a.first * s.m[y]
		slope[y] += p * a.first * s.m[x]
		bent += p * a.second * s.m[x] * s.m[y]
	}
	for r := range beta0 {
		h.add(beta0[r].a, beta0[r].b, 2*k.beta0[r])
	}
	for r := range beta1 {
		x, y, p := beta1[r].a, beta1[r].b, k.beta1[r]
		if speciesTable[x].charge*speciesTable[y].charge == -4 {
			fading(&double, x, y, p)
		} else {
			fading(&single, x, y, p)
		}
	}
	for r := range beta2 {
		fading(&strong, beta2[r].a, beta2[r].b, k.beta2[r])
	}
	for r := range cPhi {
		x, y, p := cPhi[r].a, cPhi[r].b, k.c[r]
		h.add(x, y, s.charge*p)
		c[x] += p * s.m[y]
		c[y] += p * s.m[x]
	}
	return bent
}

// likesCurved adds what ions of one sign do to one another, and returns their part of
// dF/dI.
func (k *model) likesCurved(s *state, root float64, h *matrix, slope *[speciesEnd]float64) (bent float64) {
	e, first, second := unsymmetrical(k.slope, s.strength, root)
	for _, ends := range [...][2]Species{{0, firstAnion}, {firstAnion, firstNeutral}} {
		one, two := s.classes(ends[0], ends[1])
		bent += one * two * second
		for x := ends[0]; x < ends[1]; x++ {
			double := speciesTable[x].charge*speciesTable[x].charge > 1
			if double {
				slope[x] += one * first
			} else {
				slope[x] += two * first
			}
			for y := ends[0]; y < x; y++ {
				if double != (speciesTable[y].charge*speciesTable[y].charge > 1) {
					h.add(x, y, 2*e)
				}
			}
		}
	}
	for r := range thetas {
		h.add(thetas[r].a, thetas[r].b, 2*k.theta[r])
	}
	for r := range lambdas {
		h.add(lambdas[r].a, lambdas[r].b, 2*k.lambda[r])
	}
	return bent
}

func (s *state) tripleCurved(r *tripleRow, p float64, h *matrix) {
	h.add(r.a, r.b, p*s.m[r.c])
	h.add(r.a, r.c, p*s.m[r.b])
	h.add(r.b, r.c, p*s.m[r.a])
}
