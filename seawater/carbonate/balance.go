package carbonate

import "math"

// balance is the alkalinity of a water as a function of its [H] on the total
// scale, h in mol/kg:
//
//	TA = [HCO3] + 2[CO3] + [B(OH)4] + [OH] + [HPO4] + 2[PO4] - [H3PO4] + [SiO(OH)3]
//	     + [NH3] + [HS] + organic - [H]free - [HSO4] - [HF]             [DSC, D81]
//
// in µmol/kg. What is known of the carbon is one of DIC, CO2, HCO3 and CO3.
type balance struct {
	carbonKind kind
	carbon     float64 // µmol/kg
	alkalinity float64 // µmol/kg, what the sum has to be

	k1, k2, k12       float64 // K1, K2, K1 K2
	water             float64 // 1e6 KW, so that [OH] = water/h
	free              float64 // 1e6 [H]free/h
	kb, boron         float64
	ks, sulfate       float64 // KS and KF as they are on the total scale
	kf, fluoride      float64
	minor             bool // whether there are any nutrients
	kp1, kp12, kp123  float64
	ksi, kn, kh       float64
	phosphate         float64
	silicate, ammonia float64
	sulfide, organic  float64
}

// of fills in the water, but not what is known of it.
func (b *balance) of(c *Constants, n *Nutrients) {
	f := c.freeFactor()
	b.k1, b.k2, b.k12 = float64(c.K1), float64(c.K2), float64(c.K1*c.K2)
	b.water, b.free = float64(perMole*c.KW), perMole/f
	b.kb, b.boron = float64(c.KB), float64(c.Totals.Boron)
	b.ks, b.sulfate = float64(c.KS)*f, float64(c.Totals.Sulfate)
	b.kf, b.fluoride = float64(c.KF)*f, float64(c.Totals.Fluoride)
	if n.none() {
		return
	}
	b.minor = true
	b.kp1, b.kp12, b.kp123 = float64(c.KP1), float64(c.KP1*c.KP2), float64(c.KP1*c.KP2*c.KP3)
	b.ksi, b.kn, b.kh = float64(c.KSi), float64(c.KNH4), float64(c.KH2S)
	b.phosphate, b.silicate = float64(n.Phosphate), float64(n.Silicate)
	b.ammonia, b.sulfide, b.organic = float64(n.Ammonia), float64(n.Sulfide), float64(n.Organic)
}

// sum is a residual with its first and second derivatives with respect to
// ln h.
//
// An acid that has lost n protons on average brings T n to the alkalinity. The
// derivative of n with respect to ln h is minus the variance of the number of
// protons lost, and the second derivative is its third cumulant, so both come
// from the shares of the species by multiplication alone.
type sum struct{ r, r1, r2 float64 }

// residual returns the alkalinity of the sum above less what it has to be. If
// nothing is known of the carbon, there is none.
func (b *balance) residual(h float64) sum {
	oh, hFree := b.water/h, b.free*h
	s := sum{r: oh - hFree - b.alkalinity, r1: -oh - hFree, r2: oh - hFree}

	x := b.kb / (b.kb + h)
	v := b.boron * x * (1 - x)
	s.r += b.boron * x
	s.r1 -= v
	s.r2 += v * (1 - 2*x)

	y := h / (b.ks + h)
	v = b.sulfate * y * (1 - y)
	s.r -= b.sulfate * y
	s.r1 -= v
	s.r2 += v * (2*y - 1)

	z := h / (b.kf + h)
	v = b.fluoride * z * (1 - z)
	s.r -= b.fluoride * z
	s.r1 -= v
	s.r2 += v * (2*z - 1)

	if b.minor {
		b.addMinor(h, &s)
	}

	switch b.carbonKind {
	case dic:
		m, variance, cumulant := b.charge(h)
		s.r += b.carbon * m
		s.r1 -= b.carbon * variance
		s.r2 += b.carbon * cumulant
	case dissolved:
		one, two := b.carbon*b.k1/h, b.carbon*b.k12/(h*h)
		s.r += one + 2*two
		s.r1 -= one + 4*two
		s.r2 += one + 8*two
	case bicarbonate:
		two := 2 * b.carbon * b.k2 / h
		s.r += b.carbon + two
		s.r1 -= two
		s.r2 += two
	case carbonate:
		one := b.carbon * h / b.k2
		s.r += one + 2*b.carbon
		s.r1 += one
		s.r2 += one
	}
	return s
}

// charge returns the mean number of protons lost by a molecule of dissolved
// carbon, its variance and third cumulant.
func (b *balance) charge(h float64) (mean, variance, cumulant float64) {
	d := 1 / (h*h + b.k1*h + b.k12)
	one, two := b.k1*h*d, b.k12*d
	mean = one + 2*two
	square := one + 4*two
	return mean, square - mean*mean, one + 8*two - mean*(3*square-2*mean*mean)
}

// addMinor adds the nutrients.
func (b *balance) addMinor(h float64, s *sum) {
	s.r += b.organic

	x := b.ksi / (b.ksi + h)
	v := b.silicate * x * (1 - x)
	s.r += b.silicate * x
	s.r1 -= v
	s.r2 += v * (1 - 2*x)

	x = b.kn / (b.kn + h)
	v = b.ammonia * x * (1 - x)
	s.r += b.ammonia * x
	s.r1 -= v
	s.r2 += v * (1 - 2*x)

	x = b.kh / (b.kh + h)
	v = b.sulfide * x * (1 - x)
	s.r += b.sulfide * x
	s.r1 -= v
	s.r2 += v * (1 - 2*x)

	d := 1 / (b.kp123 + h*(b.kp12+h*(b.kp1+h)))
	p1, p2, p3 := b.kp1*h*h*d, b.kp12*h*d, b.kp123*d
	m1, m2, m3 := p1+2*p2+3*p3, p1+4*p2+9*p3, p1+8*p2+27*p3
	s.r += b.phosphate * (m1 - 1)
	s.r1 -= b.phosphate * (m2 - m1*m1)
	s.r2 += b.phosphate * (m3 - m1*(3*m2-2*m1*m1))
}

// bounds are the lowest and the highest value of the alkalinity that is neither
// of water nor of carbon: as h goes to infinity and to 0.
func (b *balance) bounds() (least, most float64) {
	return b.organic - b.phosphate - b.sulfate - b.fluoride,
		b.organic + b.boron + 2*b.phosphate + b.silicate + b.ammonia + b.sulfide
}

// acidLimit returns the h at which base/h - acid h is the excess, in µmol/kg:
// the positive root of acid h² + excess h - base.
func acidLimit(base, acid, excess float64) float64 {
	root := math.Sqrt(excess*excess + 4*acid*base)
	if excess > 0 {
		return 2 * base / (excess + root)
	}
	return (root - excess) / (2 * acid)
}
