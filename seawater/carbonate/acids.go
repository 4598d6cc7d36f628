package carbonate

import "math"

// boricAcid returns ln KB on the total scale, mol/kg:
//
//	ln KB = (a + b S^(1/2) + c S + d S^(3/2) + e S²)/T + f + g S^(1/2) + h S
//	        + (i + j S^(1/2) + k S) ln T + l S^(1/2) T
func boricAcid(c *conditions) float64 {
	a := &kbCoef
	return (a[0]+c.root*(a[1]+a[3]*c.s)+c.s*(a[2]+a[4]*c.s))*c.inverse +
		a[5] + a[6]*c.root + a[7]*c.s + (a[8]+a[9]*c.root+a[10]*c.s)*c.ln + a[11]*c.root*c.k
}

// water returns ln KW on the seawater scale, (mol/kg)²:
//
//	ln KW = a + b/T + c ln T + (d + e/T + f ln T) S^(1/2) + g S
func water(c *conditions) float64 {
	a := &kwCoef
	return a[0] + a[1]*c.inverse + a[2]*c.ln + c.root*(a[3]+a[4]*c.inverse+a[5]*c.ln) + a[6]*c.s
}

// logarithm returns ln KS on the free scale, mol per kg of water.
func (k KS) logarithm(c *conditions) float64 {
	switch k {
	case KSDickson1990:
		return ksDickson(c)
	case KSKhoo1977:
		a := &ksKhooCoef // pKS = a/T + b + c T + d I^(1/2)
		return ofPK(a[0]*c.inverse + a[1] + a[2]*c.k + a[3]*c.rootI)
	case KSWatersMillero2013:
		return ksWatersMillero(c)
	}
	return math.NaN()
}

// ksDickson:
//
//	ln KS = a/T + b + c ln T + (d/T + e + f ln T) I^(1/2) + (g/T + h + i ln T) I
//	        + j/T I^(3/2) + k/T I²
func ksDickson(c *conditions) float64 {
	a := &ksDicksonCoef
	return a[0]*c.inverse + a[1] + a[2]*c.ln +
		c.rootI*(a[3]*c.inverse+a[4]+a[5]*c.ln) +
		c.i*(a[6]*c.inverse+a[7]+a[8]*c.ln+(a[9]*c.rootI+a[10]*c.i)*c.inverse)
}

// ksWatersMillero:
//
//	log KS = a + b ln T + c T² + d T + e/T + (f + g T + h T ln T + i T²) S^(1/2)
//	         + (j + k T + l T ln T) S + (m + n T) S^(3/2) + o S²
func ksWatersMillero(c *conditions) float64 {
	a := &ksWatersMilleroCoef
	return math.Ln10 * (a[0] + a[1]*c.ln + c.k*(a[3]+a[2]*c.k) + a[4]*c.inverse +
		c.root*(a[5]+c.k*(a[6]+a[7]*c.ln+a[8]*c.k)) +
		c.s*(a[9]+c.k*(a[10]+a[11]*c.ln)+c.root*(a[12]+a[13]*c.k)+a[14]*c.s))
}

// logarithm returns ln KF as the authors gave it: [DR] on the free scale, mol
// per kg of water, [PF] on the total scale, mol/kg.
func (k KF) logarithm(c *conditions) float64 {
	switch k {
	case KFDicksonRiley1979:
		a := &kfDicksonRileyCoef // ln KF = a/T + b + c I^(1/2)
		return a[0]*c.inverse + a[1] + a[2]*c.rootI
	case KFPerezFraga1987:
		a := &kfPerezFragaCoef // ln KF = a/T + b + c S^(1/2)
		return a[0]*c.inverse + a[1] + a[2]*c.root
	}
	return math.NaN()
}

// factor takes KF from there to the free scale, mol/kg. free is [H] on the total
// scale over [H] on the free one.
func (k KF) factor(c *conditions, free float64) float64 {
	if k == KFPerezFraga1987 {
		return 1 / free
	}
	return c.water
}

// phosphoricAcid returns ln KP1, ln KP2 or ln KP3 on the seawater scale, mol/kg:
//
//	ln KP = a + b/T + c ln T + (d + e/T) S^(1/2) + (f + g/T) S
func phosphoricAcid(c *conditions, a *[7]float64) float64 {
	return a[0] + a[1]*c.inverse + a[2]*c.ln + c.root*(a[3]+a[4]*c.inverse) + c.s*(a[5]+a[6]*c.inverse)
}

// silicicAcid returns ln KSi on the seawater scale, mol per kg of water:
//
//	ln KSi = a + b/T + c ln T + (d + e/T) I^(1/2) + (f + g/T) I + (h + i/T) I²
func silicicAcid(c *conditions) float64 {
	a := &ksiCoef
	return a[0] + a[1]*c.inverse + a[2]*c.ln + c.rootI*(a[3]+a[4]*c.inverse) +
		c.i*(a[5]+a[6]*c.inverse+c.i*(a[7]+a[8]*c.inverse))
}

// hydrogenSulfide returns ln KH2S on the total scale, mol/kg:
//
//	ln K = a + b/T + c ln T + d S^(1/2) + e S
//
// [YM] repeat the fit as one on the seawater scale; [MPF] made it on the total
// scale.
func hydrogenSulfide(c *conditions) float64 {
	a := &kh2sCoef
	return a[0] + a[1]*c.inverse + a[2]*c.ln + a[3]*c.root + a[4]*c.s
}
