package gas

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// CarbonDioxideSaturation returns the dissolved carbon dioxide of water that is in
// balance with air of this content of it, under the barometer p where the water
// stands. It is a hundredth of the inorganic carbon of seawater; package carbonate
// has the rest.
//
//	symbol   [CO2] = K0 φ x (p - pH2O)
//	source   K0 and φ [W74], pH2O [WP80], of package carbonate
//	units    x µmol/mol of dry air, p hPa, result µmol/kg
//	range    -1 <= t <= 45 °C, 0 <= S <= 45
//	outside  extrapolates (CheckRange tells); no such water or air: NaN
func CarbonDioxideSaturation(s units.PracticalSalinity, t units.Temperature, p units.AirPressure,
	air carbonate.XCO2) units.AmountPerKilogram {
	if !possible(s, t) || !(air >= 0 && air <= 1e6) {
		return units.AmountPerKilogram(math.NaN())
	}
	c := carbonate.GasAt(s, t)
	if !breathable(p, float64(c.VapourPressure)) {
		return units.AmountPerKilogram(math.NaN())
	}
	dry := atmospheres(p) - float64(c.VapourPressure)
	return units.AmountPerKilogram(float64(c.K0*c.FugacityRatio) * air.PPM() * dry)
}

// carbonDioxideLitreCoef: ln K0 = a1 + a2 (100/T) + a3 ln(T/100) + S (b1 + b2 (T/100) +
// b3 (T/100)²), mol/(L atm) [W74] table 1.
var carbonDioxideLitreCoef = struct{ a, b [3]float64 }{
	[3]float64{-58.0931, 90.5069, 22.2940}, [3]float64{0.027766, -0.025888, 0.0050578},
}

// CarbonDioxideK0PerLitre returns the solubility of carbon dioxide per litre of
// water. Per kilogram it is the K0 of carbonate.At.
//
//	symbol   ln K0 = a1 + a2 (100/T) + a3 ln(T/100) + S (b1 + b2 (T/100) + b3 (T/100)²)
//	source   [W74] eq. 12 and table 1
//	units    S PSS-78, T K, result mol/(L atm) of fugacity
//	range    -1 <= t <= 45 °C, 0 <= S <= 45
//	outside  extrapolates; no such water: NaN
func CarbonDioxideK0PerLitre(s units.PracticalSalinity, t units.Temperature) float64 {
	if !possible(s, t) {
		return math.NaN()
	}
	c, h := &carbonDioxideLitreCoef, t.Kelvin()/100
	return math.Exp(c.a[0] + c.a[1]/h + c.a[2]*math.Log(h) + s.Value()*poly.P2(h, &c.b))
}

// weissPriceCoef: ln F = a1 + a2 (100/T) + a3 ln(T/100) + a4 (T/100)² + S (b1 + b2 (T/100) +
// b3 (T/100)²), mol/(kg atm) and mol/(L atm) [WP80] table 6.
var weissPriceCoef, weissPriceLitreCoef = weissPrice{
	[4]float64{-162.8301, 218.2968, 90.9241, -1.47696}, [3]float64{0.025695, -0.025225, 0.0049867},
}, weissPrice{
	[4]float64{-160.7333, 215.4152, 89.8920, -1.47759}, [3]float64{0.029941, -0.027455, 0.0053407},
}

type weissPrice struct {
	a [4]float64
	b [3]float64
}

func (c *weissPrice) at(s units.PracticalSalinity, t units.Temperature) float64 {
	if !possible(s, t) {
		return math.NaN()
	}
	h := t.Kelvin() / 100
	return math.Exp(c.a[0] + c.a[1]/h + c.a[2]*math.Log(h) + c.a[3]*h*h + s.Value()*poly.P2(h, &c.b))
}

// CarbonDioxideF returns the dissolved carbon dioxide per mole fraction of it in
// dry air, at one atmosphere: K0, fugacity and water vapour in one fit, within 0.06 %
// of CarbonDioxideSaturation, and a third of its time.
//
//	symbol   ln F = a1 + a2 (100/T) + a3 ln(T/100) + a4 (T/100)² + S (b1 + b2 (T/100) + b3 (T/100)²)
//	source   [WP80] eq. 13 and table 6
//	units    S PSS-78, T K, result mol/kg, that is µmol/kg for each µmol/mol
//	range    -1 <= t <= 40 °C, 0 <= S <= 40 (both from memory)
//	outside  extrapolates; no such water: NaN
func CarbonDioxideF(s units.PracticalSalinity, t units.Temperature) float64 {
	return weissPriceCoef.at(s, t)
}

// CarbonDioxideFPerLitre is CarbonDioxideF per litre of water.
func CarbonDioxideFPerLitre(s units.PracticalSalinity, t units.Temperature) float64 {
	return weissPriceLitreCoef.at(s, t)
}
