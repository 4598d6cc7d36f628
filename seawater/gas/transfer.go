package gas

import (
	"math"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// TransferRate is how fast a water and the air come to terms about a gas, per
// hour: the kLa of engineers. Each hour the distance from saturation falls by a
// factor e to that power; 1 per hour leaves 37 % of it.
//
//	dC/dt = kLa (Cs - C)
type TransferRate float64

// Units of TransferRate.
const (
	PerHour   TransferRate = 1
	PerMinute TransferRate = 60
	PerDay    TransferRate = 1. / 24
)

// PerHour returns the rate per hour.
func (k TransferRate) PerHour() float64 { return float64(k) }

// PerMinute returns the rate per minute.
func (k TransferRate) PerMinute() float64 { return float64(k / PerMinute) }

// theta is how much a rate grows for each degree, by convention [ASCE].
const theta = 1.024

// Moved returns the rate of the same pump and vessel at another temperature.
//
//	symbol   kLa(to) = kLa(from) 1.024^(to - from)
//	source   [ASCE], the usual convention
//	range    10 <= t <= 30 °C (common practice)
func (k TransferRate) Moved(from, to units.Temperature) TransferRate {
	return k * TransferRate(math.Pow(theta, to.Celsius()-from.Celsius()))
}

// Exponent is the power of the Schmidt number in a rate. It depends on what the
// surface does.
type Exponent float64

// Exponents of surfaces.
const (
	Rough  Exponent = -1. / 2 // waves, bubbles, a falling jet
	Smooth Exponent = -2. / 3 // still water [J87]
)

// Of returns the rate of another gas, from that of a measured one: a log of oxygen
// tells how fast carbon dioxide leaves. The gas that is asked for comes first, then the
// measured one: oxygen.Of(CarbonDioxide, Oxygen, ...). In seawater of 25 °C it is 8 % slower
// through a Rough surface.
//
//	symbol   kLa(g) = kLa(measured) (Sc(g)/Sc(measured))^n
//	source   [J87], [W14]
//	range    CheckRangeSchmidt tells
//	outside  extrapolates; no such water: NaN
//
// A bubble that rises through deep water gives off oxygen on the way and fills with
// carbon dioxide: such an aerator drives less carbon dioxide out than this says,
// the finer and deeper its bubbles the less.
func (k TransferRate) Of(g, measured Species, s units.PracticalSalinity, t units.Temperature, n Exponent) TransferRate {
	return k * TransferRate(math.Pow(g.Schmidt(s, t)/measured.Schmidt(s, t), float64(n)))
}

// Supply returns how much of the gas comes in from the air each hour. In a tank
// whose oxygen stands still, it is what the animals and bacteria take each hour.
func (k TransferRate) Supply(saturation, content units.AmountPerKilogram) units.AmountPerKilogram {
	return units.AmountPerKilogram(k) * (saturation - content)
}

// After returns what a content has become after some time of approach to
// saturation, if nothing in the water takes or makes the gas.
//
//	symbol   C = Cs - (Cs - C0) exp(-kLa t)
//	source   [ASCE]
func (k TransferRate) After(saturation, content units.AmountPerKilogram, d time.Duration) units.AmountPerKilogram {
	return saturation - (saturation-content)*units.AmountPerKilogram(math.Exp(-float64(k)*d.Hours()))
}

// String writes the rate per hour, as MarshalText does.
func (k TransferRate) String() string {
	return strconv.FormatFloat(float64(k), 'g', -1, 64) + " 1/h"
}

// MarshalText writes the rate per hour, "3.5 1/h"; reading that gives the same
// value back.
func (k TransferRate) MarshalText() ([]byte, error) {
	if math.IsNaN(float64(k)) {
		return nil, nil // unknown
	}
	if math.IsInf(float64(k), 0) {
		return nil, &units.InputError{Field: "transfer rate", Got: k.String(), Want: "a finite number"}
	}
	return []byte(k.String()), nil
}

// UnmarshalText reads a rate such as "3.5 1/h", "3.5 per hour" or "0.06 /min".
func (k *TransferRate) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*k = TransferRate(math.NaN())
		return nil
	}
	s := strings.Join(strings.Fields(string(text)), " ")
	end := strings.IndexAny(s, " /p")
	if end < 0 {
		end = len(s)
	}
	x, err := input.ParseNumber(s[:end])
	unit := rateUnit(strings.TrimSpace(s[end:]))
	*k = TransferRate(x) * unit
	if err != nil || unit == 0 || math.IsNaN(float64(*k)) || math.IsInf(float64(*k), 0) {
		*k = TransferRate(math.NaN())
		return &units.InputError{Field: "transfer rate", Got: input.Quoted(string(text)), Want: `a rate such as "3.5 1/h"`}
	}
	return nil
}

// rateUnit returns the unit that a spelling stands for, 0 if it is none.
func rateUnit(name string) TransferRate {
	switch name {
	case "1/h", "/h", "/ h", "h-1", "h⁻¹", "per hour", "/hour", "1/hour", "1/hr", "/hr":
		return PerHour
	case "1/min", "/min", "/ min", "min-1", "min⁻¹", "per minute":
		return PerMinute
	case "1/d", "/d", "1/day", "/day", "d-1", "d⁻¹", "per day":
		return PerDay
	}
	return 0
}
