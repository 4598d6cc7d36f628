package pitzer

import "math"

// warmth is a temperature and what the functions of temperature are made of.
type warmth struct {
	t, ln float64 // K; ln T
	f     [6]float64
}

func warmthAt(t float64) warmth {
	w := warmth{t: t, ln: math.Log(t)}
	w.f = [6]float64{
		1, 1/t - 1/reference, math.Log(t / reference), t - reference, t*t - reference*reference,
		1/(t*t) - 1/(reference*reference),
	}
	return w
}

// term is a parameter as a function of temperature.
type term [6]float64

// at returns the parameter.
//
//	symbol   P = a0 + a1 (1/T - 1/Tr) + a2 ln(T/Tr) + a3 (T-Tr) + a4 (T²-Tr²) + a5 (1/T²-1/Tr²)
//	source   [PHREEQC]; Tr = 298.15 K
func (p *term) at(w *warmth) float64 {
	f := &w.f
	return p[0] + (p[1]*f[1] + p[2]*f[2] + p[3]*f[3]) + (p[4]*f[4] + p[5]*f[5])
}

// pairRow and tripleRow are parameters of the interaction of two and of three species.
type (
	pairRow struct {
		a, b Species
		p    term
	}
	tripleRow struct {
		a, b, c Species
		p       term
	}
)

// model is everything that depends on the temperature alone.
type model struct {
	warmth
	slope  float64 // A-phi
	beta0  [len(beta0)]float64
	beta1  [len(beta1)]float64
	beta2  [len(beta2)]float64
	c      [len(cPhi)]float64 // C, not C-phi
	theta  [len(thetas)]float64
	psi    [len(psis)]float64
	lambda [len(lambdas)]float64
	zeta   [len(zetas)]float64
	k      [len(reactions)]float64 // ln K
}

// set makes the model that of a temperature in K.
func (k *model) set(t float64) {
	k.warmth = warmthAt(t)
	k.slope = debyeHuckel(t)
	pairsAt(beta0[:], k.beta0[:], &k.warmth)
	pairsAt(beta1[:], k.beta1[:], &k.warmth)
	pairsAt(beta2[:], k.beta2[:], &k.warmth)
	pairsAt(cPhi[:], k.c[:], &k.warmth)
	pairsAt(thetas[:], k.theta[:], &k.warmth)
	triplesAt(psis[:], k.psi[:], &k.warmth)
	pairsAt(lambdas[:], k.lambda[:], &k.warmth)
	triplesAt(zetas[:], k.zeta[:], &k.warmth)
	for i := range cPhi {
		r := &cPhi[i]
		k.c[i] /= 2 * math.Sqrt(math.Abs(speciesTable[r.a].charge*speciesTable[r.b].charge))
	}
	for i := range reactions {
		k.k[i] = reactions[i].k.ln(&k.warmth)
	}
}

func pairsAt(rows []pairRow, to []float64, w *warmth) {
	for i := range rows {
		to[i] = rows[i].p.at(w)
	}
}

func triplesAt(rows []tripleRow, to []float64, w *warmth) {
	for i := range rows {
		to[i] = rows[i].p.at(w)
	}
}

// state is a solution and what the model makes of it.
type state struct {
	m        [speciesEnd]float64 // mol per kg of water
	gamma    [speciesEnd]float64 // ln γ, not scaled
	strength float64             // I
	charge   float64             // Z
	sum      float64             // Σ m
	osmotic  float64             // φ
	water    float64             // ln of the activity of water
}

// fade is one of the functions of ionic strength with which β(1) and β(2) fade, and its
// derivatives.
type fade struct {
	g, exp        float64 // g(x), e^-x; x = α √I
	first, second float64 // dg/dI, d²g/dI²
}

// fadeAt returns the functions for one α.
//
//	symbol   g = 2 (1 - (1+x) e^-x)/x², dg/dI = h/I, h = -2 (1 - (1+x+x²/2) e^-x)/x²
//	source   [P73], [HMW84]
func fadeAt(alpha, i, root float64) fade {
	x := alpha * root
	e, square := math.Exp(-x), x*x
	h := -2 * (1 - (1+x+square/2)*e) / square
	slope := (-e - 2*h/x) * alpha / (2 * root) // dh/dI
	return fade{2 * (1 - (1+x)*e) / square, e, h / i, (slope - h/i) / i}
}

// leastStrength is an ionic strength below which nothing differs from the ideal in the
// sixteenth digit, and the functions lose theirs.
const leastStrength = 1e-14

// fades returns the functions for α = 2, 1.4 and 12.
func fades(i, root float64) (single, double, strong fade) {
	return fadeAt(2, i, root), fadeAt(1.4, i, root), fadeAt(12, i, root)
}

// unsymmetrical returns E-theta of a single and a double charge of one sign, and its first
// and second derivative by I. That of equal charges is zero.
//
//	symbol   E = z z'/(4I) (J(x12) - J(x11)/2 - J(x22)/2), x = 6 z z' A √I
//	source   [P75], [HMW84]
func unsymmetrical(a, i, root float64) (e, first, second float64) {
	x := 6 * a * root
	j11, f11, s11 := mixing(x)
	j12, f12, s12 := mixing(2 * x)
	j22, f22, s22 := mixing(4 * x)
	j := j12 - (j11+j22)/2
	f := f12 - (f11+f22)/2
	s := s12 - (s11+s22)/2
	e = j / (2 * i)
	first = -e/i + f/(4*i*i)
	second = (e/i-first)/i + (s/2-2*f)/(4*i*i*i)
	return e, first, second
}

// total sets ionic strength, Z and the sum of the molalities.
func (s *state) total() {
	var i, z, sum float64
	for j := range s.m {
		m, c := s.m[j], speciesTable[j].charge
		i += c * c * m
		z += math.Abs(c) * m
		sum += m
	}
	s.strength, s.charge, s.sum = i/2, z, sum
}

// classes are the sums of the molalities of single and double charges of one sign.
func (s *state) classes(from, to Species) (single, double float64) {
	for j := from; j < to; j++ {
		if c := speciesTable[j].charge; c*c > 1 {
			double += s.m[j]
		} else {
			single += s.m[j]
		}
	}
	return single, double
}

// activities sets the activity coefficients of all species, also of those of which there is
// nothing, the osmotic coefficient and the activity of water.
//
//	source   [HMW84] equations 1 to 6, [P91]
func (k *model) activities(s *state) {
	s.total()
	s.gamma = [speciesEnd]float64{}
	i := s.strength
	if i < leastStrength {
		s.osmotic, s.water = 1, -s.sum/molesOfWater
		return
	}
	root := math.Sqrt(i)
	f := -k.slope * (root/(1+debye*root) + 2/debye*math.Log1p(debye*root))
	g := -k.slope * i * root / (1 + debye*root) // of the osmotic coefficient
	var c float64                               // Σ m m C
	pf, pg, pc := k.opposites(s, root)
	f, g, c = f+pf, g+pg, c+pc
	pf, pg = k.likes(s, root)
	f, g = f+pf, g+pg+k.triples(s)
	for j := range firstNeutral {
		z := speciesTable[j].charge
		s.gamma[j] += z*z*f + math.Abs(z)*c
	}
	s.osmotic = 1 + 2*g/s.sum
	s.water = -s.osmotic * s.sum / molesOfWater
}

// opposites adds what cations and anions do to one another: to the activity coefficients,
// and to F, the sum of the osmotic coefficient and Σ m m C.
func (k *model) opposites(s *state, root float64) (f, g, c float64) {
	single, double, strong := fades(s.strength, root)
	m, gamma := &s.m, &s.gamma
	for r := range beta0 {
		x, y, p := beta0[r].a, beta0[r].b, k.beta0[r]
		gamma[x] += 2 * p * m[y]
		gamma[y] += 2 * p * m[x]
		g += p * m[x] * m[y]
	}
	for r := range beta1 {
		x, y, p := beta1[r].a, beta1[r].b, k.beta1[r]
		a := &single
		if speciesTable[x].charge*speciesTable[y].charge == -4 {
			a = &double
		}
		f1, g1 := a.add(s, x, y, p)
		f, g = f+f1, g+g1
	}
	for r := range beta2 {
		f1, g1 := strong.add(s, beta2[r].a, beta2[r].b, k.beta2[r])
		f, g = f+f1, g+g1
	}
	for r := range cPhi {
		x, y, p := cPhi[r].a, cPhi[r].b, k.c[r]
		gamma[x] += s.charge * p * m[y]
		gamma[y] += s.charge * p * m[x]
		c += p * m[x] * m[y]
	}
	return f, g + s.charge*c, c
}

// add adds one term of β(1) or β(2).
func (a *fade) add(s *state, x, y Species, p float64) (f, g float64) {
	both := s.m[x] * s.m[y] * p
	s.gamma[x] += 2 * p * a.g * s.m[y]
	s.gamma[y] += 2 * p * a.g * s.m[x]
	return both * a.first, both * a.exp
}

// likes adds what ions of one sign do to one another two by two.
func (k *model) likes(s *state, root float64) (f, g float64) {
	e, slope, _ := unsymmetrical(k.slope, s.strength, root)
	for _, ends := range [...][2]Species{{0, firstAnion}, {firstAnion, firstNeutral}} {
		one, two := s.classes(ends[0], ends[1])
		for j := ends[0]; j < ends[1]; j++ {
			if c := speciesTable[j].charge; c*c > 1 {
				s.gamma[j] += 2 * e * one
			} else {
				s.gamma[j] += 2 * e * two
			}
		}
		f += one * two * slope
		g += one * two * (e + s.strength*slope)
	}
	for r := range thetas {
		x, y, p := thetas[r].a, thetas[r].b, k.theta[r]
		s.gamma[x] += 2 * p * s.m[y]
		s.gamma[y] += 2 * p * s.m[x]
		g += p * s.m[x] * s.m[y]
	}
	for r := range lambdas {
		x, y, p := lambdas[r].a, lambdas[r].b, k.lambda[r]
		if x == y {
			s.gamma[x] += 2 * p * s.m[x]
			g += p * s.m[x] * s.m[x] / 2
			continue
		}
		s.gamma[x] += 2 * p * s.m[y]
		s.gamma[y] += 2 * p * s.m[x]
		g += p * s.m[x] * s.m[y]
	}
	return f, g
}

// triples adds what three species do to one another and returns their sum.
func (k *model) triples(s *state) (g float64) {
	for r := range psis {
		g += s.triple(&psis[r], k.psi[r])
	}
	for r := range zetas {
		g += s.triple(&zetas[r], k.zeta[r])
	}
	return g
}

func (s *state) triple(r *tripleRow, p float64) float64 {
	x, y, w := s.m[r.a], s.m[r.b], s.m[r.c]
	s.gamma[r.a] += p * y * w
	s.gamma[r.b] += p * x * w
	s.gamma[r.c] += p * x * y
	return p * x * y * w
}

// shift returns d of the scale of single ions, ln γ + z d: that of chloride here less that of
// chloride in potassium chloride of the same ionic strength, where both ions are alike.
//
//	source   the convention of MacInnes 1919, as in [PHREEQC]
func (k *model) shift(s *state) float64 {
	if s.strength < leastStrength {
		return 0
	}
	return s.gamma[Chloride] - k.chlorideAlone(s.strength)
}

// chlorideAlone is ln γ of chloride, and of potassium, in potassium chloride alone.
func (k *model) chlorideAlone(m float64) float64 {
	root := math.Sqrt(m)
	single := fadeAt(2, m, root)
	b0, b1 := k.beta0[chlorideIn(beta0[:])], k.beta1[chlorideIn(beta1[:])]
	c := k.c[chlorideIn(cPhi[:])]
	f := -k.slope * (root/(1+debye*root) + 2/debye*math.Log1p(debye*root))
	return f + m*(m*b1*single.first+2*(b0+b1*single.g)+3*m*c)
}

// chlorideIn finds the row of potassium chloride.
func chlorideIn(rows []pairRow) int {
	for i := range rows {
		if rows[i].a == Potassium && rows[i].b == Chloride {
			return i
		}
	}
	return 0
}
