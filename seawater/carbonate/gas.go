package carbonate

import (
	"math"

	"example.org/wellmixed/units"
)

// The CO2 that air and water share is counted in three ways, which differ by a
// few percent, so each is a type of its own.
type (
	// PCO2 is a partial pressure in µatm, in air that is saturated with water
	// vapour: what equilibrium with the water is about.
	PCO2 float64
	// FCO2 is a fugacity in µatm: the partial pressure, corrected for CO2 not
	// being an ideal gas, 0.3 percent less at 25 °C.
	FCO2 float64
	// XCO2 is a mole fraction in dry air in µmol/mol, ppm: what a CO2 meter shows
	// and what is meant by "420 ppm".
	XCO2 float64
)

// Microatmospheres returns the partial pressure in µatm.
func (p PCO2) Microatmospheres() float64 { return float64(p) }

// Microatmospheres returns the fugacity in µatm.
func (f FCO2) Microatmospheres() float64 { return float64(f) }

// PPM returns the mole fraction in parts per million.
func (x XCO2) PPM() float64 { return float64(x) }

// FCO2 returns the fugacity of CO2 of this partial pressure, under one
// atmosphere.
func (p PCO2) FCO2(c *Constants) FCO2 { return FCO2(float64(p) * float64(c.FugacityRatio)) }

// PCO2 returns the partial pressure of CO2 of this fugacity, under one
// atmosphere.
func (f FCO2) PCO2(c *Constants) PCO2 { return PCO2(float64(f) / float64(c.FugacityRatio)) }

// PCO2 returns the partial pressure of CO2 in air of this mole fraction that
// is saturated with water vapour over the water: x (P - pH2O), with the barometer
// as it stands at the place, units.Atmosphere where nothing else is known at sea
// level. A barometer not above the vapour pressure, x < 0, NaN or Inf: NaN.
func (x XCO2) PCO2(c *Constants, barometer units.AirPressure) PCO2 {
	return PCO2(notNegative(float64(x)) * c.dryAir(barometer))
}

// XCO2 returns the mole fraction in dry air that goes with this partial
// pressure. It is the inverse of XCO2.PCO2, and NaN where that is.
func (p PCO2) XCO2(c *Constants, barometer units.AirPressure) XCO2 {
	return XCO2(notNegative(float64(p)) / c.dryAir(barometer))
}

// dryAir returns the pressure in atm that the vapour leaves to the rest of the
// air, or NaN if it leaves none.
func (c *Constants) dryAir(barometer units.AirPressure) float64 {
	dry := float64(barometer/units.Atmosphere) - float64(c.VapourPressure)
	if !sound(dry) {
		return math.NaN()
	}
	return dry
}

// notNegative returns x, or NaN if it is no amount of anything.
func notNegative(x float64) float64 {
	if !(x >= 0 && x <= math.MaxFloat64) {
		return math.NaN()
	}
	return x
}

// Gas are the constants that CO2 in water and in air share, a part of Constants
// that costs a tenth of them.
type Gas struct {
	K0             units.Scalar // [CO2]/fCO2, mol/(kg atm) [W74]
	FugacityRatio  units.Scalar // fCO2/pCO2 at one atmosphere [W74]
	VapourPressure units.Scalar // pressure of water vapour over the water, atm [WP]
}

// GasAt returns the constants of gas of water of a salinity and a temperature,
// as At does.
func GasAt(s units.PracticalSalinity, t units.Temperature) Gas {
	if !possible(s, t) {
		nan := math.NaN()
		return Gas{units.Scalar(nan), units.Scalar(nan), units.Scalar(nan)}
	}
	c := conditionsAt(s.Value(), t.Celsius())
	k := [...]float64{solubility(&c), fugacity(&c), vapour(&c)}
	exponentials(k[:])
	return Gas{units.Scalar(k[0]), units.Scalar(k[1]), units.Scalar(k[2])}
}

// k0Coef: ln K0 = a + b (100/T) + c ln(T/100) + S (d + e (T/100) + f (T/100)²),
// mol/(kg atm) [W74].
var k0Coef = [...]float64{-60.2409, 93.4517, 23.3585, 0.023517, -0.023656, 0.0047036}

// solubility returns ln K0.
func solubility(c *conditions) float64 {
	a, h := &k0Coef, c.k/100
	return a[0] + a[1]*100*c.inverse + a[2]*(c.ln-ln100) + c.s*(a[3]+h*(a[4]+a[5]*h))
}

const ln100 = 2 * math.Ln10

// virialCoef: B = b0 + b1 T + b2 T² + b3 T³ of CO2 and delta = d0 + d1 T of CO2
// in air, cm³/mol [W74].
var virialCoef = [...]float64{-1636.75, 12.0408, -0.0327957, 3.16528e-5, 57.7, -0.118}

const (
	gasConstant = 83.14462618 // cm³ bar/(mol K), CODATA 2018
	oneAtm      = 1.01325     // bar
)

// fugacity returns ln(fCO2/pCO2) = P (B + 2 delta)/(R T) at one atmosphere [W74,
// DSC]. The factor (1 - x)² of delta, x the mole fraction of CO2, is
// taken for 1, which changes the result by 4e-6 at 1000 µatm.
func fugacity(c *conditions) float64 {
	a := &virialCoef
	b := a[0] + c.k*(a[1]+c.k*(a[2]+c.k*a[3]))
	return oneAtm * (b + 2*(a[4]+a[5]*c.k)) / gasConstant * c.inverse
}

// vapourCoef: ln pH2O = a + b (100/T) + c ln(T/100) + d S, atm [WP] eq. 10.
var vapourCoef = [...]float64{24.4543, -67.4509, -4.8489, -0.000544}

// vapour returns ln pH2O.
func vapour(c *conditions) float64 {
	a := &vapourCoef
	return a[0] + a[1]*100*c.inverse + a[2]*(c.ln-ln100) + a[3]*c.s
}
