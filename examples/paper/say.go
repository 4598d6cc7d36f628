package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Style is how a keeper wants quantities printed.
type Style struct {
	Units string // "metric", "US", "both"
	By    string // how salinity is printed: "ppt", "SG", "mS/cm"
	Pair  units.GravityPair
}

// both writes a quantity in the units that are wanted.
func (s Style) both(metric, us string) string {
	switch s.Units {
	case "US":
		return us
	case "metric":
		return metric
	}
	return metric + " (" + us + ")"
}

// Digits writes a number to three digits, and never as a power of ten: nobody measures out
// more.
func Digits(x float64) string {
	switch a := math.Abs(x); {
	case math.IsNaN(x):
		return "?"
	case a >= 100 || a == 0:
		return strconv.FormatFloat(x, 'f', 0, 64)
	default:
		x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'e', 2, 64), 64)
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
}

// Fixed writes a number with so many decimals, and a question mark where it is not known.
func Fixed(x float64, decimals int) string {
	if math.IsNaN(x) {
		return "?"
	}
	if text := strconv.FormatFloat(x, 'f', decimals, 64); strings.Trim(text, "-0.") != "" {
		return text
	}
	return strconv.FormatFloat(0, 'f', decimals, 64) // no minus before nothing
}

// Volume writes "47.1 L (12.4 US gal)".
func (s Style) Volume(v units.Volume) string {
	metric, us := Digits(v.Litres())+" L", Digits(v.USGallons())+" US gal"
	if math.Abs(v.Litres()) < 1 {
		metric, us = Digits(v.Millilitres())+" mL", Digits(v.USFluidOunces())+" US fl oz"
	}
	return s.both(metric, us)
}

// Mass writes "1.62 kg (3.57 lb)", and grams where a kitchen balance weighs them.
func (s Style) Mass(m units.Mass) string {
	g := math.Abs(m.Grams())
	switch {
	case g >= 10_000:
		return s.both(Digits(m.Kilograms())+" kg", Digits(m.Pounds())+" lb")
	case g >= 1000:
		return s.both(Fixed(m.Kilograms(), 2)+" kg", Digits(m.Pounds())+" lb")
	case g > 0 && g < 1:
		return s.both(Digits(m.Grams()*1000)+" mg", Digits(m.Ounces())+" oz")
	}
	return s.both(Digits(m.Grams())+" g", Digits(m.Ounces())+" oz")
}

// Temperature writes "25.5 °C (77.9 °F)".
func (s Style) Temperature(t units.Temperature) string {
	if !t.IsSet() {
		return "?"
	}
	return s.both(tenth(t.Celsius())+" °C", tenth(t.Fahrenheit())+" °F")
}

// tenth writes a number to a tenth, and leaves out a zero.
func tenth(x float64) string { return strings.TrimSuffix(Fixed(x, 1), ".0") }

// Length writes "28.4 cm (11.2 in)".
func (s Style) Length(l units.Length) string {
	return s.both(tenth(l.Centimetres())+" cm", tenth(l.Inches())+" in")
}

// Flow writes "4 L/day" for what is slow and "7.5 L/h" for what is not.
func (s Style) Flow(f units.Flow) string {
	if f.LitresPerHour() < 1 {
		return s.Volume(f.Volume(24*time.Hour)) + " a day"
	}
	return s.Volume(f.Volume(time.Hour)) + " an hour"
}

// Salinity writes that of a water, as the keeper measures it.
func (s Style) Salinity(w seawater.Sample) string {
	switch s.By {
	case "SG":
		return Fixed(w.SpecificGravity(s.pair()).Ratio(), 4) + " SG"
	case "mS/cm":
		return Fixed(w.Conductivity().MillisiemensPerCentimetre(), 1) + " mS/cm"
	}
	return Fixed(w.Practical().Value(), 1) + " ppt"
}

func (s Style) pair() units.GravityPair {
	if s.Pair == (units.GravityPair{}) {
		return units.SG25C()
	}
	return s.Pair
}

// AllSalinity writes a salinity in every way, the wanted one first.
func (s Style) AllSalinity(w seawater.Sample) string {
	list := []string{
		Fixed(w.Practical().Value(), 1) + " ppt",
		Fixed(w.SpecificGravity(s.pair()).Ratio(), 4) + " SG " + s.pair().String(),
		Fixed(w.Conductivity().MillisiemensPerCentimetre(), 1) + " mS/cm",
	}
	for i, name := range []string{"ppt", "SG", "mS/cm"} {
		if name == s.By {
			list[0], list[i] = list[i], list[0]
		}
	}
	return strings.Join(list, " = ")
}

// Level writes a level as it is counted, to the digits that a kit gives.
func Level(l tested.Level) string {
	x, unit := l.Counted()
	return Fixed(x, Decimals(string(l.Parameter()))) + " " + unit
}

// Decimals are those that a keeper reads of a quantity.
func Decimals(name string) int {
	switch strings.ToLower(name) {
	case "calcium", "magnesium", "potassium":
		return 0
	case "ph":
		return 2
	case "phosphate", "ammonia", "iodine", "iron":
		return 3
	case "free ammonia", "specific gravity":
		return 4
	}
	return 1
}

// Span writes a time: "47 min", "6 h 35 min", "2.5 days", "3 weeks".
func Span(d time.Duration) string {
	count := func(n float64, unit string) string {
		text := tenth(n) + " " + unit
		if tenth(n) != "1" {
			text += "s"
		}
		return text
	}
	switch d = d.Round(time.Minute); {
	case d < time.Minute:
		return "under a minute"
	case d < time.Hour:
		return fmt.Sprintf("%d min", int(d.Minutes()))
	case d < 36*time.Hour:
		if m := int(d.Minutes()) % 60; m > 0 {
			return fmt.Sprintf("%d h %d min", int(d.Hours()), m)
		}
		return fmt.Sprintf("%d h", int(d.Hours()))
	case d == 365*24*time.Hour:
		return "a year"
	case d >= 28*24*time.Hour && d%(7*24*time.Hour) == 0:
		return count(d.Hours()/168, "week")
	}
	return count(d.Hours()/24, "day")
}

// Day writes "Saturday 7 March, 09:00".
func Day(t time.Time) string { return t.Format("Monday 2 January, 15:04") }

// Money writes "18.50 EUR", and nothing where there is no price.
func Money(m units.Money) string {
	if m.Currency == "" {
		return ""
	}
	return fmt.Sprintf("%.2f %s", m.Amount, m.Currency)
}
