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
	Units units.Style
	By    string // how salinity is printed: "ppt", "SG", "mS/cm"
	Pair  units.GravityPair
}

// Of writes a quantity in the units that are wanted, "12.7 US gal (48 L)".
func (s Style) Of(q units.Quantity) string { return s.Units.Format(q) }

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

// tenth writes a number to a tenth, and leaves out a zero.
func tenth(x float64) string { return strings.TrimSuffix(Fixed(x, 1), ".0") }

// Flow writes what is slow by the day and the rest by the hour.
func (s Style) Flow(f units.Flow) string {
	if f.LitresPerHour() < 1 {
		return s.Of(f.Volume(24*time.Hour)) + " a day"
	}
	return s.Of(f.Volume(time.Hour)) + " an hour"
}

// Salinity writes that of a water, as the keeper measures it.
func (s Style) Salinity(w seawater.Sample) string {
	switch s.By {
	case "SG":
		return Fixed(w.SpecificGravity(s.pair()).Ratio(), 4) + " SG"
	case "mS/cm":
		return conductivity(w)
	}
	return Fixed(w.Practical().Value(), 1) + " ppt"
}

// conductivity is that of the water at 25 °C: what a compensating meter shows, whatever the
// temperature.
func conductivity(w seawater.Sample) string {
	at, err := w.At(units.Celsius(25))
	if err != nil {
		return "?"
	}
	return Fixed(at.Conductivity().MillisiemensPerCentimetre(), 1) + " mS/cm at 25 °C"
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
		conductivity(w),
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
	case d > 14*24*time.Hour:
		return count(math.Round(d.Hours()/24), "day")
	}
	return count(d.Hours()/24, "day")
}

// Day writes "Saturday 7 March, 09:00".
func Day(t time.Time) string { return t.Format("Monday 2 January, 15:04") }

// Quarters writes a count of scoops to a quarter: "11¼".
func Quarters(n float64) string {
	q := math.Round(4 * n)
	whole, part := math.Floor(q/4), int(q)%4
	text := [...]string{"", "¼", "½", "¾"}[part]
	if whole > 0 || part == 0 {
		text = strconv.FormatFloat(whole, 'f', 0, 64) + text
	}
	return text
}

// Money writes "18.50 EUR", and nothing where there is no price.
func Money(m units.Money) string {
	if m.Currency == "" {
		return ""
	}
	return fmt.Sprintf("%.2f %s", m.Amount, m.Currency)
}
