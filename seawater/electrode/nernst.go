package electrode

import (
	"math"

	"example.org/wellmixed/units"
)

// The constants of the Nernst slope [CODATA], exact since 2019.
const (
	gasConstant = 8.31446261815324                // J/(mol K)
	faraday     = 1.602176634e-19 * 6.02214076e23 // C/mol: 96485.33212...
)

// Nernst returns the millivolts by which an ideal electrode answers to one unit of
// pH, 59.16 mV at 25 °C and 0.198 mV more for each kelvin.
//
//	symbol   k = R T ln 10/F
//	source   [CODATA]
//	units    t °C ITS-90, result mV per unit of pH
//	range    any; glass electrodes, -2 <= t <= 60 °C
//	outside  t below absolute zero, NaN or Inf: NaN
func Nernst(t units.Temperature) units.Voltage {
	k := t.Kelvin()
	if !(k >= 0 && k <= math.MaxFloat64) {
		return units.Voltage(math.NaN())
	}
	return units.Voltage(gasConstant*math.Ln10/faraday*k) * units.Volt
}
