package rodi

import (
	"math"

	"example.org/wellmixed/units"
)

// FluxConstants say how fast a membrane passes more water when it is warmer.
// They belong to the membrane; the zero value stands for 3020 K below 25 °C
// and 2640 K above, which a plan says among its assumptions.
type FluxConstants struct {
	Cold float64 // k at 25 °C and below, K
	Warm float64 // k above 25 °C, K
}

// usualFlux is what the zero FluxConstants stand for: read second hand in a
// public design note and a general temperature table. Another printed table, for
// 5 to 34 °C, is met by 2700 K throughout.
var usualFlux = FluxConstants{Cold: 3020, Warm: 2640}

func (k FluxConstants) orUsual() FluxConstants {
	if k == (FluxConstants{}) {
		return usualFlux
	}
	return k
}

// TemperatureFactor returns the flow of a membrane over that at 25 °C and the
// same net pressure.
//
//	symbol   TCF = exp(k (1/298 - 1/(273 + t)))
//	source   design rule, see FluxConstants; [D4516] for its use
//	units    t °C ITS-90, k K
//	range    5 <= t <= 35 °C; membranes differ by 4 % at 15 °C and 8 % at 5 °C
//	outside  extrapolates; t <= -273 °C, NaN or Inf: NaN
//
// At 15 °C it is 0.70: two litres where there were three.
func TemperatureFactor(t units.Temperature, k FluxConstants) float64 {
	k = k.orUsual()
	c := t.Celsius()
	if !(c > -273 && c <= math.MaxFloat64) {
		return math.NaN()
	}
	constant := k.Cold
	if c > 25 {
		constant = k.Warm
	}
	return math.Exp(constant * (1./298 - 1/(273+c)))
}
