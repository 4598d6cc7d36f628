package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/units"
)

// writer writes the findings for the keeper of the tank.
type writer struct {
	*paper.Report
	findings
	home     *home.Home
	invented bool // the report, beside a home that is not
}

func (w *writer) write() {
	w.verdict()
	w.glance()
	w.lines()
	w.sums()
	w.kits()
	w.instruments()
	w.notMeasured()
	for _, a := range w.Closure.Assumed {
		w.Assume(strings.ToUpper(a[:1]) + a[1:] + ".")
	}
	w.Care("correcting the water", advice.Caution{ID: "one-report", Severity: advice.Care,
		Text: "Correct one thing at a time, slowly, and never on one report alone."})
}

func (w *writer) say(format string, args ...any) {
	w.Verdict = append(w.Verdict, fmt.Sprintf(format, args...))
}

// much is by what factor an ion is worth a word (common practice).
const much = 1.1

// verdict says whether the report can be right, and what is most unlike the sea.
func (w *writer) verdict() {
	c := w.Closure
	slips := slices.ContainsFunc(w.Lines, func(l ions.Screened) bool { return l.Slip > 0 })
	switch {
	case math.IsNaN(float64(c.Imbalance)):
		w.say("Sodium or chloride is not reported, so the charges cannot test the report: a wrong value shows only " +
			"where it is far from the sea.")
	case c.Unbalanced():
		w.say("The report cannot be right as it stands: its positive and negative charges differ by %s.", imbalance(c))
	case slips || c.Suspect != "" || len(c.Doubts) > 0:
		w.say("The charges of the report balance, but not every value can be right.")
	default:
		w.say("The report is sound: positive and negative charges balance.")
	}
	odd := w.odd()
	for i, text := range odd {
		if i < mostOdd {
			w.say("%s.", text)
		}
	}
	if n := len(odd) - mostOdd; n > 0 {
		w.say("So are %d more values: see below.", n)
	}
	if c.Suspect != "" && len(odd) == 0 {
		w.say("The value that fits worst is that of %s: have it measured again.", c.Suspect)
	}
	high, low := w.unlike()
	w.say("More than 10 %% above the sea: %s. More than 10 %% below: %s.", list(high), list(low))
	counted := ""
	if len(odd) > 0 {
		counted = ", what is odd counted as it stands"
	}
	w.say("Dissolved are %.1f g/kg, as in seawater of %.1f ppt%s.", w.Readings.Dissolved.GramsPerKilogram(),
		ppt(w.Readings.Dissolved), counted)
	w.besideTank()
}

// apart is by how much the salinity of the report may be off that of the tank, in ppt: more
// than good instruments and a sample that dried on its way make of one water (common practice).
const apart = 1.5

// besideTank holds the salinity of the report beside that of the tank.
func (w *writer) besideTank() {
	s := w.home.Tank.Salinity
	if w.invented || s == nil {
		return
	}
	if off := s.Value() - ppt(w.Readings.Dissolved); math.Abs(off) > apart {
		w.say("The tank is said to be at %.1f ppt, %.1f %s the report: one of the two is wrong, or they are of different "+
			"water.", s.Value(), math.Abs(off), map[bool]string{true: "above", false: "below"}[off > 0])
	}
}

// mostOdd is how many odd values the first screen has room for.
const mostOdd = 2

// odd lists what looks like a slip, and what is far from the sea without one.
func (w *writer) odd() (list []string) {
	named := map[string]bool{}
	for _, l := range w.Lines {
		if l.Slip > 0 {
			list = append(list, slipped(l))
			named[l.Quantity] = true
		}
	}
	for _, d := range w.Closure.Doubts {
		if quantity, _, _ := strings.Cut(d, ":"); !named[quantity] {
			list = append(list, d)
		}
	}
	return list
}

func imbalance(c ions.Closure) string {
	return fmt.Sprintf("%+.1f ± %.1f mmol/kg", c.Imbalance.MillimolesPerKilogram(),
		c.ImbalanceUncertainty.MillimolesPerKilogram())
}

// unlike lists what is far from the sea. Alkalinity is meant to be.
func (w *writer) unlike() (high, low []string) {
	for _, l := range w.Lines {
		switch ratio := l.Ratio(); {
		case l.Slip > 0 || l.Of == "alkalinity" || l.Of == "carbon":
		case ratio > much:
			high = append(high, l.Of)
		case ratio < 1/much:
			low = append(low, l.Of)
		}
	}
	return high, low
}

// asked is what a keeper asks of a report first.
var asked = []string{
	"alkalinity", "calcium", "magnesium", "potassium", "strontium", "boron", "sulfate", "nitrate", "phosphate", "silicate",
}

// line is which line of the report is of something, -1 if none is.
func (w *writer) line(of string) int {
	return slices.IndexFunc(w.Lines, func(l ions.Screened) bool { return l.Of == of })
}

// glance is what stands on the first screen; what nobody measured is "?".
func (w *writer) glance() {
	w.Glance = &paper.Table{Head: []string{"", "reported", "in the sea", "of the sea"}}
	for _, name := range asked {
		i := w.line(name)
		if i < 0 {
			w.Glance.Row(name, "?", "", "")
			continue
		}
		if q := w.Lines[i].Quantity; q != name {
			w.Glance.Row(beside(name+" ("+q+")", w.Lines[i])...)
		} else {
			w.Glance.Row(beside(name, w.Lines[i])...)
		}
	}
}

// beside is a row of what was reported and what the sea has.
func beside(name string, l ions.Screened) []string {
	sea := ""
	if l.Sea > 0 {
		sea = paper.Digits(l.Sea) + " " + l.Unit
	}
	return []string{name, reported(l.Measurement), sea, times(l)}
}

// times is how many times the sea has what was measured.
func times(l ions.Screened) string {
	switch ratio := l.Ratio(); {
	case math.IsNaN(ratio):
		return ""
	case ratio >= 10:
		return "x " + paper.Digits(ratio)
	default:
		return fmt.Sprintf("%.0f %%", 100*ratio)
	}
}

// reported is a value as the report has it: never like a measurement what is none.
func reported(m ions.Measurement) string {
	text := strings.TrimSpace(strconv.FormatFloat(m.Value, 'f', -1, 64) + " " + m.Unit)
	if m.Below {
		return "< " + text
	}
	return text
}

// lines shows every line of the report, and draws those that the sea has.
func (w *writer) lines() {
	all := &paper.Table{Head: []string{"", "reported", "in the sea", "of the sea", "misfit"}}
	picture := &paper.Rows{What: "What was reported, in times what goes with the rest of the report in the sea",
		Unit: "times the sea; the band is a tenth", Log: true, Mark: 1, MarkName: "as in the sea", Band: much}
	for _, l := range w.Lines {
		all.Row(append(beside(l.Quantity, l), w.misfit(l.Quantity))...)
		row := paper.Rowed{Name: l.Of, Value: l.Ratio(), Doubt: l.Uncertainty / l.Sea}
		switch {
		case !(l.Sea > 0):
			continue
		case l.Below:
			row.Note = "below " + paper.Digits(l.Value/l.Sea)
		case l.Slip > 0:
			row.Note = "a slip?"
		}
		picture.Rows = append(picture.Rows, row)
	}
	if len(picture.Rows) > 0 {
		w.Add("Beside the sea", picture)
	}
	if odd := w.odd(); len(odd) > mostOdd {
		w.Add("What is odd", strings.Join(odd, ". ")+".")
	}
	w.Add("Every line", all, "A slip is named where a value is within a factor of 1.6 of a power of ten, or of 1.25 of "+
		"another way of counting. Tanks differ from the sea by less, or by other factors. The misfit is by how many of its "+
		"standard uncertainties a value had to move until all fitted together.")
}

// misfit is by how many uncertainties a value had to move.
func (w *writer) misfit(quantity string) string {
	for _, f := range w.Closure.Fits {
		if f.Quantity == quantity && math.Abs(f.Sigmas()) >= 0.05 {
			return fmt.Sprintf("%+.1f", f.Sigmas())
		}
	}
	return ""
}

// sums adds up what belongs together.
func (w *writer) sums() {
	var charge float64
	for i, amount := range w.Closure.Composition.All() {
		charge += max(0, float64(i.Charge())) * amount.MillimolesPerKilogram()
	}
	t := &paper.Table{Left: true}
	if c := w.Closure; !math.IsNaN(float64(c.Imbalance)) {
		allowed := map[bool]string{true: "more than", false: "within"}[c.Unbalanced()] + " what the uncertainties allow"
		t.Row("positive less negative charges", imbalance(c), allowed)
	}
	t.Row("positive charges, made to fit", paper.Fixed(charge, 1)+" mmol/kg", "as many as negative ones")
	t.Row("dissolved", paper.Fixed(w.Readings.Dissolved.GramsPerKilogram(), 2)+" g/kg", "")
	var least, most float64 // of nitrogen, mg/L
	var found, missing []string
	for _, i := range []ions.Ion{ions.Nitrate, ions.Nitrite, ions.Ammonium} {
		k := w.line(i.Name())
		if k < 0 {
			missing = append(missing, i.Name())
			continue
		}
		found = append(found, i.Name())
		n := units.AsNitrogen.MassPerLitre(w.Closure.Composition.Amount(i).PerLitre(w.Readings.Density)).MilligramsPerLitre()
		if w.Lines[k].Below { // half of the limit stands in the composition
			most += 2 * n
		} else {
			least, most = least+n, most+n
		}
	}
	if len(found) > 0 {
		text := paper.Digits(least)
		if paper.Digits(most) != text {
			text += " to " + paper.Digits(most)
		}
		note := strings.Join(found, ", ")
		if len(missing) > 0 {
			note += "; " + strings.Join(missing, ", ") + ": ?"
		}
		t.Row("nitrogen", text+" mg/L N", note)
	}
	w.Add("Sums", t)
}

// kits puts what the keeper tested beside what the laboratory found.
func (w *writer) kits() {
	if w.invented {
		return
	}
	t := &paper.Table{Head: []string{"", "your test", "laboratory", "your test is"}}
	for _, l := range w.home.Tank.Levels {
		p := l.Parameter()
		if i := w.line(string(p)); i < 0 || w.Lines[i].Below {
			continue
		}
		rho := w.Readings.Density
		lab := p.OfAmount(p.In(w.Closure.Composition).PerLitre(rho)).Base()
		if p == tested.Alkalinity {
			lab = tested.AlkalinityOf(w.Closure.Composition.Alkalinity().Alkalinity(rho)).Base()
		}
		t.Row(string(p), paper.Level(l), paper.Level(l.WithBase(lab)), fmt.Sprintf("%+.0f %%", 100*(l.Base()/lab-1)))
	}
	if len(t.Rows) > 0 {
		w.Add("Your own tests beside it", t, "The sample aged on its way: alkalinity and nutrients may have changed in it.")
	}
}

// instruments says what each shows and what to add.
func (w *writer) instruments() {
	r := w.Readings
	t := &paper.Table{Head: []string{"", "shows", "as ppt", "add, ppt"}}
	row := func(name, shows string, err error, by ions.Reading) {
		if err != nil { // outside what the instrument can do
			shows = "-"
		}
		t.Row(name, shows, fmt.Sprintf("%.2f ± %.2f", ppt(by.Shown), ppt(by.Uncertainty)),
			fmt.Sprintf("%+.2f", by.Correction.GramsPerKilogram()*perGram))
	}
	h := hydrometer.Hydrometer{Pair: units.SG25C(), Expansion: hydrometer.Glass}
	float, err := h.Reading(r.By[ions.Density].Shown, r.Temperature)
	row("hydrometer, 25/25 °C", paper.Fixed(float, 4), err, r.By[ions.Density])
	row("conductivity meter", paper.Fixed(r.Conductivity.MillisiemensPerCentimetre(), 2)+" mS/cm", nil,
		r.By[ions.Conductivity])
	i := refractometer.Instrument{
		Graduation: refractometer.PracticalScale(),
		Zero: refractometer.Zeroing{
			Standard:    refractometer.SeawaterStandard(units.Practical(35)),
			Temperature: r.Temperature,
			Mark:        35,
		},
		Compensation: refractometer.Automatic(refractometer.PureWater()),
	}
	line, err := i.Reading(r.By[ions.Index].Shown, r.Temperature)
	row("refractometer, set in seawater 35", paper.Fixed(float64(line), 1), err, r.By[ions.Index])
	w.Add("What the instruments make of it at "+w.home.Style.Of(r.Temperature), t,
		"Nearest to what is dissolved comes the "+instrumentOf[r.Closest()]+".")
}

var instrumentOf = [...]string{
	ions.Density:      "hydrometer",
	ions.Conductivity: "conductivity meter",
	ions.Index:        "refractometer",
}

// notMeasured lists what the numbers above need and nobody measured.
func (w *writer) notMeasured() {
	t := &paper.Table{Head: []string{"", "measured", "taken as", "how"}, Left: true}
	var names []string
	for _, i := range []ions.Ion{
		ions.Sodium, ions.Chloride, ions.Magnesium, ions.Calcium, ions.Potassium, ions.Sulfate, ions.Strontium, ions.Bromide,
		ions.BoricAcid, ions.Fluoride,
	} {
		origin := w.Closure.Origin(i)
		if origin == ions.Measured {
			continue
		}
		amount, name, mass := w.Closure.Composition.Amount(i), i.Name(), i.MolarMass()
		if i == ions.BoricAcid {
			amount, name, mass = w.Closure.Composition.Boron(), "boron", units.AsBoron
		}
		t.Row(name, "?", paper.Digits(mass.MassPerLitre(amount.PerLitre(w.Readings.Density)).MilligramsPerLitre())+" mg/L",
			origin.String())
		names = append(names, name)
	}
	if len(t.Rows) > 0 {
		w.Add("What nobody measured", t)
		w.Hides(strings.Join(names, ", "), "nobody measured it, and the sums take it from the rest")
	}
	var nutrients []string
	for _, name := range asked {
		if w.line(name) < 0 && !slices.Contains(names, name) {
			nutrients = append(nutrients, name)
		}
	}
	if len(nutrients) > 0 {
		w.Hides(strings.Join(nutrients, ", "), "nobody measured it")
	}
}

// perGram is practical salinity for a g/kg of sea salt (Millero et al. 2008).
const perGram = 35 / 35.16504

func ppt(s units.AbsoluteSalinity) float64 { return s.GramsPerKilogram() * perGram }

func list(names []string) string {
	if len(names) == 0 {
		return "nothing"
	}
	return strings.Join(names, ", ")
}
