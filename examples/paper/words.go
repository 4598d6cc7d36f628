package paper

import (
	"math"
	"strings"

	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
)

// And writes "a, b and c".
func And(list []string) string {
	if n := len(list); n > 1 {
		return strings.Join(list[:n-1], ", ") + " and " + list[n-1]
	}
	return strings.Join(list, "")
}

// Capital begins a text with a capital.
func Capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// Precise writes a level to three digits, for what is computed and then weighed: 0.399 dKH.
func Precise(l tested.Level) string {
	x, unit := l.Counted()
	return strings.TrimSpace(Digits(x) + " " + unit)
}

// PlusMinus writes a level with its standard uncertainty, to the digits that are known, if
// there is one.
func PlusMinus(l, u tested.Level) string {
	x, unit := l.Counted()
	d, _ := u.Counted()
	if decimals, known := places(x, d); u.Exists() && known {
		return Fixed(x, decimals) + " ± " + Fixed(d, decimals) + " " + unit
	}
	return Precise(l)
}

// Between writes two levels to the digits that a standard uncertainty leaves room for, and
// nothing where there is none.
func Between(low, high, u tested.Level) string {
	x, unit := low.Counted()
	y, _ := high.Counted()
	d, _ := u.Counted()
	if decimals, known := places(max(math.Abs(x), math.Abs(y)), d); u.Exists() && known {
		return Fixed(x, decimals) + " to " + Fixed(y, decimals) + " " + unit
	}
	return ""
}

// places are the decimals that a standard uncertainty leaves room for: it has two digits if
// it begins with 1 or 2, and one if with more. It is not known where it is nothing beside
// the value, as of a log whose tests lie on one line.
func places(x, u float64) (decimals int, known bool) {
	u = math.Abs(u)
	if !(u > 1e-6*math.Abs(x)) || math.IsInf(u, 0) {
		return 0, false
	}
	first := math.Floor(math.Log10(u))
	if math.Round(10*u/math.Pow(10, first)) < 30 {
		return int(max(1-first, 0)), true
	}
	return int(max(-first, 0)), true
}

// Amount writes what to measure out of an additive.
func (s Style) Amount(a replenish.Amount) string {
	switch {
	case a.Volume > 0:
		return s.Of(a.Volume)
	case a.Mass > 0:
		return s.Of(a.Mass)
	}
	return "nothing"
}

// Gauge is the salinity of a water as the keeper measures it, a number to draw.
func (s Style) Gauge(w seawater.Sample) float64 {
	switch s.By {
	case "SG":
		return w.SpecificGravity(s.pair()).Ratio()
	case "mS/cm":
		return w.Conductivity().MillisiemensPerCentimetre()
	}
	return w.Practical().Value()
}

// GaugeUnit is the unit of Gauge, and how many decimals are read.
func (s Style) GaugeUnit() (unit string, decimals int) {
	switch s.By {
	case "SG":
		return "SG", 4
	case "mS/cm":
		return "mS/cm", 1
	}
	return "ppt", 2
}
