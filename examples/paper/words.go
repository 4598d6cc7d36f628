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

// PlusMinus writes a level with its standard uncertainty, of which no more than two digits
// are known, if there is one.
func PlusMinus(l, u tested.Level) string {
	x, unit := l.Counted()
	if !u.Exists() {
		return Precise(l)
	}
	d, _ := u.Counted()
	if d != 0 {
		scale := math.Pow(10, 1-math.Floor(math.Log10(math.Abs(d))))
		d = math.Round(d*scale) / scale
	}
	return Digits(x) + " ± " + Digits(d) + " " + unit
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
