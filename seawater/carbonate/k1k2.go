package carbonate

import "math"

// conditions is what the formulas share, each taken once: salinity, temperature
// and their powers and logarithms.
type conditions struct {
	s, root float64 // S, S^(1/2)
	t, k    float64 // °C, kelvin
	inverse float64 // 1/T
	ln      float64 // ln T
	i       float64 // ionic strength, mol per kg of water
	rootI   float64 // I^(1/2)
	water   float64 // kg of water in a kg of seawater
}

// Ionic strength and share of water of seawater ([DSC] chapter 5):
//
//	I = 19.924 S/(1000 - 1.005 S), water = 1 - 0.001005 S
const (
	ionicStrength = 19.924
	saltShare     = 0.001005
)

func conditionsAt(s, celsius float64) conditions {
	k := celsius + 273.15
	i := ionicStrength * s / (1000 - 1000*saltShare*s)
	return conditions{
		s: s, root: math.Sqrt(s), t: celsius, k: k, inverse: 1 / k, ln: math.Log(k),
		i: i, rootI: math.Sqrt(i), water: 1 - saltShare*s,
	}
}

// basis is the scale on which a fit was made, and what its moles are counted
// per.
type basis uint8

const (
	totalScale    basis = iota
	totalPerWater       // mol per kg of water
	seawaterScale
	nbsScale
)

// fromPK returns 10^-pk.
func fromPK(pk float64) float64 { return math.Exp(-math.Ln10 * pk) }

// ofPK returns ln K.
func ofPK(pk float64) float64 { return -math.Ln10 * pk }

// logarithms returns ln K1 and ln K2 as the authors gave them, K in mol/kg
// unless the basis says otherwise.
func (k K1K2) logarithms(c *conditions) (ln1, ln2 float64, scale basis) {
	switch k {
	case Lueker2000:
		ln1, ln2 = fiveTerms(c, &luekerCoef)
	case MehrbachDickson1987:
		ln1, ln2 = fiveTerms(c, &mehrbachCoef)
		scale = seawaterScale
	case HanssonDickson1987:
		ln1, ln2 = fiveTerms(c, &hanssonCoef)
		scale = seawaterScale
	case HanssonMehrbach1987:
		ln1, ln2 = fiveTerms(c, &hanssonMehrbachCoef)
		scale = seawaterScale
	case Sulpis2020:
		ln1, ln2 = fiveTerms(c, &sulpisCoef)
	case Roy1993:
		ln1, ln2 = roy(c, &royCoef[0]), roy(c, &royCoef[1])
		scale = totalPerWater
	case GoyetPoisson1989:
		ln1, ln2 = goyetPoisson(c, &goyetPoissonCoef[0]), goyetPoisson(c, &goyetPoissonCoef[1])
		scale = seawaterScale
	case Millero2006:
		ln1, ln2 = millero(c, &millero2006Coef[0]), millero(c, &millero2006Coef[1])
		scale = seawaterScale
	case Millero2010:
		ln1, ln2 = millero(c, &millero2010Coef[0]), millero(c, &millero2010Coef[1])
		scale = seawaterScale
	case Waters2014:
		ln1, ln2 = millero(c, &waters2014Coef[0]), millero(c, &waters2014Coef[1])
		scale = seawaterScale
	case Waters2014Total:
		ln1, ln2 = millero(c, &waters2014TotalCoef[0]), millero(c, &waters2014TotalCoef[1])
	case MojicaMillero2002:
		ln1, ln2 = mojicaMillero(c)
		scale = seawaterScale
	case Millero2002:
		ln1, ln2 = millero2002(c, &millero2002Coef[0]), millero2002(c, &millero2002Coef[1])
		scale = seawaterScale
	case CaiWang1998:
		ln1, ln2 = caiWang(c, &caiWangCoef[0]), caiWang(c, &caiWangCoef[1])
		scale = nbsScale
	case Millero1979:
		ln1, ln2 = millero1979(c, &millero1979Coef[0]), millero1979(c, &millero1979Coef[1])
	case SchockmanByrne2021:
		ln1, ln2 = millero(c, &waters2014TotalCoef[0]), schockmanByrne(c)
	case Papadimitriou2018:
		ln1, ln2 = papadimitriou(c, &papadimitriouCoef[0]), papadimitriou(c, &papadimitriouCoef[1])
	default:
		return math.NaN(), math.NaN(), totalScale
	}
	return ln1, ln2, scale
}

// fiveTerms: pK = a/T + b + c ln T + d S + e S²
func fiveTerms(c *conditions, coef *[2][5]float64) (ln1, ln2 float64) {
	a, b := &coef[0], &coef[1]
	return ofPK(a[0]*c.inverse + a[1] + a[2]*c.ln + c.s*(a[3]+a[4]*c.s)),
		ofPK(b[0]*c.inverse + b[1] + b[2]*c.ln + c.s*(b[3]+b[4]*c.s))
}

// roy: ln K = a + b/T + c ln T + (d + e/T) S^(1/2) + f S + g S^(3/2)
func roy(c *conditions, a *[7]float64) float64 {
	return a[0] + a[1]*c.inverse + a[2]*c.ln +
		c.root*(a[3]+a[4]*c.inverse+a[6]*c.s) + a[5]*c.s
}

// goyetPoisson: pK = a/T + b + c S ln T + d S²
func goyetPoisson(c *conditions, a *[4]float64) float64 {
	return ofPK(a[0]*c.inverse + a[1] + c.s*(a[2]*c.ln+a[3]*c.s))
}

// millero, with the first three terms those of fresh water:
//
//	pK = p + q/T + r ln T + (a S^(1/2) + b S + c S²) + (d S^(1/2) + e S)/T + f S^(1/2) ln T
func millero(c *conditions, a *[9]float64) float64 {
	return ofPK(a[0] + a[1]*c.inverse + a[2]*c.ln +
		c.root*(a[3]+a[6]*c.inverse+a[8]*c.ln) +
		c.s*(a[4]+a[5]*c.s+a[7]*c.inverse))
}

// mojicaMillero:
//
//	pK1 = a + b S + c S² + d/T + e ln T
//	pK2 = a + b S + c S² + d/T + e ln T + (f S + g S²)/T + h S ln T
func mojicaMillero(c *conditions) (ln1, ln2 float64) {
	a, b := &mojicaK1Coef, &mojicaK2Coef
	return ofPK(a[0] + c.s*(a[1]+a[2]*c.s) + a[3]*c.inverse + a[4]*c.ln),
		ofPK(b[0] + c.s*(b[1]+b[2]*c.s) + b[3]*c.inverse + b[4]*c.ln +
			c.s*((b[5]+b[6]*c.s)*c.inverse+b[7]*c.ln))
}

// millero2002: pK = a + b S + c t + d t²
func millero2002(c *conditions, a *[4]float64) float64 {
	return ofPK(a[0] + a[1]*c.s + c.t*(a[2]+a[3]*c.t))
}

// caiWang: pK = a/T + b T + c + d (g/T + h) S^(1/2) + e S
func caiWang(c *conditions, a *[7]float64) float64 {
	return ofPK(a[0]*c.inverse + a[1]*c.k + a[2] + a[3]*(a[5]*c.inverse+a[6])*c.root + a[4]*c.s)
}

// millero1979: ln K = a + b/T + c ln T
func millero1979(c *conditions, a *[3]float64) float64 {
	return a[0] + a[1]*c.inverse + a[2]*c.ln
}

// schockmanByrne: pK2 = a + b/T + c ln T + d S + e S^(1/2) + f S² + g S/T
func schockmanByrne(c *conditions) float64 {
	a := &schockmanByrneK2Coef
	return ofPK(a[0] + a[1]*c.inverse + a[2]*c.ln + c.s*(a[3]+a[5]*c.s+a[6]*c.inverse) + a[4]*c.root)
}

// papadimitriou:
//
//	pK = a + b S^(1/2) + c S + d S² + (e + f S^(1/2) + g S)/T + (h + i S^(1/2)) ln T
func papadimitriou(c *conditions, a *[9]float64) float64 {
	return ofPK(a[0] + c.root*a[1] + c.s*(a[2]+a[3]*c.s) +
		(a[4]+c.root*a[5]+c.s*a[6])*c.inverse + (a[7]+c.root*a[8])*c.ln)
}
