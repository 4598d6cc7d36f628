package weighing

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

// Air is the air around the balance. The zero value has no pressure and is
// refused; StandardAir will do for a room below 500 m.
type Air struct {
	Temperature units.Temperature
	Pressure    units.AirPressure // where the balance stands
	Humidity    units.Fraction    // relative
}

// StandardAir returns air of 20 °C, 1013.25 hPa and 50 % humidity, 1.1993 kg/m³. Air
// elsewhere at sea level differs by up to 5 %, 50 mg in a litre of water, and is
// 1 % less for each 85 m of height.
func StandardAir() Air {
	return Air{Temperature: units.Celsius(20), Pressure: 1 * units.Atmosphere, Humidity: units.Percent(50)}
}

// Density returns the density of the air, with 0.04 % of carbon dioxide.
//
//	symbol   ρa = p Ma/(Z R T) (1 - xv (1 - Mv/Ma)), xv = h f psv/p,
//	         psv = exp(A T² + B T + C + D/T), f = α + β p + γ t²,
//	         Z = 1 - p/T (a0 + a1 t + a2 t² + (b0 + b1 t) xv + (c0 + c1 t) xv²) + p²/T² (d + e xv²)
//	source   [P08] appendix A1
//	units    p in Pa and T in K in the formula; result kg/m³
//	range    15 <= t <= 27 °C, 600 <= p <= 1100 hPa; relative uncertainty 2.2e-5 (from memory).
//	         At 40 °C it is still within 6e-5
//	outside  extrapolates (CheckRange tells); no such air, or vapour of more than its pressure: NaN
func (a Air) Density() units.Density {
	if !a.possible() {
		return units.Density(math.NaN())
	}
	t, k, p := a.Temperature.Celsius(), a.Temperature.Kelvin(), float64(a.Pressure)*100
	saturation := math.Exp(k*(k*vapourCoef[0]+vapourCoef[1]) + vapourCoef[2] + vapourCoef[3]/k)
	enhancement := enhancementCoef[0] + enhancementCoef[1]*p + enhancementCoef[2]*t*t
	x := a.Humidity.Value() * enhancement * saturation / p
	if !(x <= 1) {
		return units.Density(math.NaN())
	}
	r := p / k
	z := 1 - r*(poly.P2(t, &aCoef)+x*(bCoef[0]+bCoef[1]*t)+x*x*(cCoef[0]+cCoef[1]*t)) +
		r*r*(dCoef+eCoef*x*x)
	return units.Density(p * airMolarMass / (z * gasConstant * k) * (1 - x*(1-waterMolarMass/airMolarMass)))
}

// CheckRange returns a *units.RangeError for air to which CIPM-2007 does not
// apply, and nil for air to which it does.
func (a Air) CheckRange() error {
	if err := airTemperature.Check(a.Temperature.Celsius()); err != nil {
		return err
	}
	if err := airPressure.Check(float64(a.Pressure)); err != nil {
		return err
	}
	return airHumidity.Check(a.Humidity.Value())
}

// check is CheckRange with the temperatures at which people weigh: what the
// formula is off by there, 1e-4 of the density of air, is 1e-7 of the result.
func (a Air) check() error {
	if err := roomTemperature.Check(a.Temperature.Celsius()); err != nil {
		return input.In("air", err)
	}
	if err := airPressure.Check(float64(a.Pressure)); err != nil {
		return input.In("air", err)
	}
	if err := airHumidity.Check(a.Humidity.Value()); err != nil {
		return input.In("air", err)
	}
	return input.Set("air.temperature", a.Temperature)
}

const cipm = "CIPM-2007"

var (
	airTemperature  = units.Range{Quantity: "temperature", Min: 15, Max: 27, Unit: "°C", Source: cipm}
	airPressure     = units.Range{Quantity: "pressure", Min: 600, Max: 1100, Unit: "hPa", Source: cipm}
	airHumidity     = units.Range{Quantity: "relative humidity", Min: 0, Max: 1, Source: cipm}
	roomTemperature = units.Range{
		Quantity: "temperature",
		Min:      0,
		Max:      40,
		Unit:     "°C",
		Source:   "CIPM-2007, extrapolated from 15 to 27 °C",
	}
)

// possible keeps to air in which the formula means something at all.
func (a Air) possible() bool {
	return a.Temperature.Celsius() >= -80 && a.Temperature.Celsius() <= 100 &&
		a.Pressure > 0 && a.Pressure <= 10000 && a.Humidity.Value() >= 0 && a.Humidity.Value() <= 1
}

// Coefficients of [P08], per powers of t in °C, T in K, p in Pa.
var (
	vapourCoef      = [...]float64{1.2378847e-5, -1.9121316e-2, 33.93711047, -6.3431645e3} // A, B, C, D
	enhancementCoef = [...]float64{1.00062, 3.14e-8, 5.6e-7}                               // α, β, γ
	aCoef           = [...]float64{1.58123e-6, -2.9331e-8, 1.1043e-10}                     // K/Pa, 1/Pa, 1/(K Pa)
	bCoef           = [...]float64{5.707e-6, -2.051e-8}
	cCoef           = [...]float64{1.9898e-4, -2.376e-6}
)

const (
	dCoef          = 1.83e-11    // K²/Pa²
	eCoef          = -0.765e-8   // K²/Pa²
	airMolarMass   = 28.96546e-3 // kg/mol, with a carbon dioxide fraction of 0.0004
	waterMolarMass = 18.01528e-3 // kg/mol
	gasConstant    = 8.314472    // J/(mol K)
)
