package gas

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// weissCoef: ln C = a1 + a2 (100/T) + a3 ln(T/100) + a4 (T/100) + S (b1 + b2 (T/100) +
// b3 (T/100)²), mL(STP)/L in balance with moist air at one atmosphere [W70].
var weissCoef = [...]struct {
	a [4]float64
	b [3]float64
}{
	Oxygen:   {[4]float64{-173.4292, 249.6339, 143.3483, -21.8492}, [3]float64{-0.033096, 0.014259, -0.0017}},
	Nitrogen: {[4]float64{-172.4965, 248.4262, 143.0738, -21.7120}, [3]float64{-0.049781, 0.025018, -0.0034861}},
	Argon:    {[4]float64{-173.5146, 245.4510, 141.8222, -21.8020}, [3]float64{-0.034474, 0.014934, -0.0017729}},
}

// bunsenCoef: ln β = a1 + a2 (100/T) + a3 ln(T/100) + S (b1 + b2 (T/100) + b3 (T/100)²)
// [W70].
var bunsenCoef = [...]struct {
	a, b [3]float64
}{
	Oxygen:   {[3]float64{-58.3877, 85.8079, 23.8439}, [3]float64{-0.034892, 0.015568, -0.0019387}},
	Nitrogen: {[3]float64{-59.6274, 85.7761, 24.3696}, [3]float64{-0.051580, 0.026329, -0.0037252}},
	Argon:    {[3]float64{-55.6578, 82.0262, 22.5929}, [3]float64{-0.036267, 0.016241, -0.0020114}},
}

// SaturationWeiss returns the oxygen, nitrogen or argon in water that is in balance
// with moist air at one atmosphere by the formula that older tables were made
// with. Its oxygen is up to 0.6 % and its nitrogen up to 1.8 % off the newer ones.
//
//	symbol   ln C = a1 + a2 (100/T) + a3 ln(T/100) + a4 (T/100) + S (b1 + b2 (T/100) + b3 (T/100)²)
//	source   [W70], in mL(STP)/L; over the molar volume
//	units    S PSS-78, T K, IPTS-68 in the formula
//	range    -1 <= t <= 40 °C, 0 <= S <= 40 (both from memory)
//	outside  extrapolates; carbon dioxide and no such water: NaN
func (g Species) SaturationWeiss(s units.PracticalSalinity, t units.Temperature) units.AmountPerLitre {
	if !possible(s, t) || int(g) >= len(weissCoef) {
		return units.AmountPerLitre(math.NaN())
	}
	c, h := &weissCoef[g], (t68(t)+zeroCelsius)/100
	return g.FromMillilitresPerLitre(math.Exp(c.a[0] + c.a[1]/h + c.a[2]*math.Log(h) + c.a[3]*h + s.Value()*poly.P2(h,
		&c.b)))
}

// BunsenWeiss returns the volume of oxygen, nitrogen or argon, at 0 °C and one
// atmosphere, that a volume of water takes up under one atmosphere of the gas
// alone.
//
//	symbol   ln β = a1 + a2 (100/T) + a3 ln(T/100) + S (b1 + b2 (T/100) + b3 (T/100)²)
//	source   [W70]
//	units    S PSS-78, T K, IPTS-68 in the formula, result L(STP)/(L atm)
//	range    -1 <= t <= 40 °C, 0 <= S <= 40 (both from memory)
//	outside  extrapolates; carbon dioxide and no such water: NaN
func (g Species) BunsenWeiss(s units.PracticalSalinity, t units.Temperature) float64 {
	if !possible(s, t) || int(g) >= len(bunsenCoef) {
		return math.NaN()
	}
	c, h := &bunsenCoef[g], (t68(t)+zeroCelsius)/100
	return math.Exp(c.a[0] + c.a[1]/h + c.a[2]*math.Log(h) + s.Value()*poly.P2(h, &c.b))
}
