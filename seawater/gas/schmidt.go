package gas

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// schmidtCoef: Sc = c0 + c1 t + ... + c4 t⁴, of fresh water and of seawater of
// salinity 35 [W14] table 1. Nitrogen in fresh water is the cubic of [W92] table A1;
// no newer set was at hand. Copies of the table in circulation have 2403.8 for the
// first number of nitrogen in seawater: digits swapped, 15 % too high at 20 °C.
var schmidtCoef = [...]struct{ fresh, sea [5]float64 }{
	Oxygen: {
		[5]float64{1745.1, -124.34, 4.8055, -0.10115, 0.00086842},
		[5]float64{1920.4, -135.6, 5.2122, -0.10939, 0.00093777},
	},
	Nitrogen: {
		[5]float64{1970.7, -131.45, 4.139, -0.052106, 0},
		[5]float64{2304.8, -162.75, 6.2557, -0.13129, 0.0011255},
	},
	Argon: {
		[5]float64{1888.4, -134.55, 5.2003, -0.10946, 0.00093975},
		[5]float64{2078.1, -146.74, 5.6403, -0.11838, 0.0010148},
	},
	CarbonDioxide: {
		[5]float64{1923.6, -125.06, 4.3773, -0.085681, 0.00070284},
		[5]float64{2116.8, -136.25, 4.7353, -0.092307, 0.0007555},
	},
}

// Schmidt returns the Schmidt number of the gas: the viscosity of the water over
// the diffusivity of the gas in it. It tells how much slower one gas goes through
// a surface than another.
//
//	symbol   Sc = Σ ci tⁱ, in proportion to S between fresh water and seawater
//	source   [W14] table 1; nitrogen in fresh water [W92], as no newer set was at hand:
//	         in brackish water nitrogen lies between two compilations, which are a few
//	         percent apart (from memory)
//	units    S PSS-78, t °C ITS-90
//	range    -2 <= t <= 40 °C, 0 <= S <= 35
//	outside  extrapolates (CheckRangeSchmidt tells); no such water, or a temperature so high that
//	         the polynomial has fallen to 0: NaN
func (g Species) Schmidt(s units.PracticalSalinity, t units.Temperature) float64 {
	if !possible(s, t) || !g.known() {
		return math.NaN()
	}
	c, x := &schmidtCoef[g], s.Value()/35
	sc := (1-x)*poly.P4(t.Celsius(), &c.fresh) + x*poly.P4(t.Celsius(), &c.sea)
	if !(sc > 0) {
		return math.NaN()
	}
	return sc
}

// diffusivityCoef: A in m²/s and Ea in J/mol of D = A exp(-Ea/(R T)); oxygen and
// nitrogen [FH67], carbon dioxide [J87]. The numbers quoted for argon, 2.227e-6 and
// 16680, are left out: they are 30 % above what Schmidt implies, the others
// within 6 %.
var diffusivityCoef = [...][2]float64{
	Oxygen:        {4.286e-6, 18700},
	Nitrogen:      {3.412e-6, 18500},
	CarbonDioxide: {5.019e-6, 19510},
}

// diffusivityGasConstant, J/(mol K), is CODATA 1986, with which the fits are quoted.
const diffusivityGasConstant = 8.31451

// Diffusivity returns how fast the gas spreads in still water, in m²/s.
//
//	symbol   D = A exp(-Ea/(R T)) (1 - 0.049 S/35.5)
//	source   [FH67], [J87]; the effect of salt [J87], measured in sodium chloride
//	units    S PSS-78, T K
//	range    0 <= t <= 40 °C, 0 <= S <= 35; the Schmidt numbers imply the same to 6 %
//	outside  extrapolates; argon, no such water: NaN
func (g Species) Diffusivity(s units.PracticalSalinity, t units.Temperature) float64 {
	if !possible(s, t) || !g.known() || g == Argon {
		return math.NaN()
	}
	c := &diffusivityCoef[g]
	return c[0] * math.Exp(-c[1]/(diffusivityGasConstant*t.Kelvin())) * (1 - 0.049*s.Value()/35.5)
}
