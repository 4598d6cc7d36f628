package main

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/recipe"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// writer writes the plan for the person with the balance.
type writer struct {
	*paper.Report
	result
	job   *job
	style paper.Style
}

func (w *writer) write() {
	w.verdict()
	w.weigh()
	w.buy()
	w.dissolve()
	w.comesTo()
	w.Care("mixing", w.Plan.Cautions()...)
	w.Assume(w.job.assumed...)
	if w.style.Units != units.Metric {
		w.Assume("Salts are weighed in grams, as balances that are fine enough show.")
	}
	w.Assume(w.Plan.Assumptions...)
}

func (w *writer) say(format string, args ...any) {
	w.Verdict = append(w.Verdict, fmt.Sprintf(format, args...))
}

// verdict says what is made of how much, what it costs, and what it misses.
func (w *writer) verdict() {
	b := w.Plan.Batch
	cost := ""
	if w.Plan.Cost.Currency != "" {
		cost = ", for " + paper.Money(w.Plan.Cost)
		if slices.ContainsFunc(b.Items, func(i recipe.Weighed) bool { return i.Cost.Currency == "" }) {
			cost += " and what has no price here"
		}
	}
	w.say("For %s like %s weigh %d salts, %s together, into %s of pure water%s.", w.style.Of(b.Volume), w.job.like,
		len(b.Items), mass(b.Mass-b.Water), w.style.Of(b.WaterVolume), cost)
	if b.Volume > flood {
		w.say("Is it really %s?", w.style.Of(b.Volume))
	}
	near := w.far()
	if near == "" {
		near = w.near()
	}
	w.say("%s", near)
	if len(w.job.toBuy) > 0 {
		w.say("Not on your shelf, and to be bought first: %s.", formulas(w.job.toBuy))
	}
}

// near tells what is not as near as it was asked for.
func (w *writer) near() string {
	var missed []string
	for _, r := range w.Plan.Missed() {
		missed = append(missed, r.Of.String()+" "+off(r))
	}
	near := "Every ion comes as near as you asked."
	switch n := len(missed); {
	case n > 4:
		near = fmt.Sprintf("%d ions do not come as near as you asked: %s and others.", n, strings.Join(missed[:4], ", "))
	case n > 0:
		near = "Not as near as you asked: " + strings.Join(missed, ", ") + "."
	}
	if len(w.Plan.UsedUp) > 0 {
		near += " That is all there is of " + formulas(w.Plan.UsedUp) + "."
	}
	if made := w.Plan.Salinity().Value(); math.Abs(made-w.job.asked.Value()) > 0.1 {
		near += fmt.Sprintf(" Asked for are %.1f ppt; it comes out at %.1f by its chlorinity.", w.job.asked.Value(), made)
	}
	return near
}

// What is worth a question (common practice): a large ion that is off by two fifths, and more water than
// a house has.
const (
	farOff   = 0.4
	largeIon = 5 * units.MillimolePerKilogram
	flood    = 20_000 * units.Litre
)

// far tells what is so far off that it is another water, and what to get for it.
func (w *writer) far() string {
	var far []string
	var lacking []salts.Compound
	for _, r := range w.Plan.Missed() {
		if r.Amount > largeIon && math.Abs(float64(r.Off()/r.Amount)) > farOff {
			far = append(far, r.Of.String()+" "+off(r))
			if c, found := usualFor(r.Of); found && r.Off() < 0 && !slices.Contains(lacking, c) {
				lacking = append(lacking, c)
			}
		}
	}
	if len(far) == 0 {
		return ""
	}
	text := "This is not the water that was wanted, and no animal belongs in it: " + strings.Join(far, ", ") + "."
	if len(lacking) > 0 {
		text += " Get " + formulas(lacking) + " first."
	}
	return text
}

func formulas(list []salts.Compound) string {
	var names []string
	for _, c := range list {
		names = append(names, c.Formula())
	}
	return strings.Join(names, ", ")
}

// weigh is what stands beside the balance.
func (w *writer) weigh() {
	priced := w.Plan.Cost.Currency != ""
	row := func(name, amount, purity, cost, note string) {
		cells := []string{name, amount, purity, cost, note}
		if !priced {
			cells = slices.Delete(cells, 3, 4)
		}
		w.Glance.Row(cells...)
	}
	w.Glance = &paper.Table{Left: true}
	row("", "weigh", "purity", "cost", "")
	w.Glance.Head, w.Glance.Rows = w.Glance.Rows[0], nil
	for _, i := range w.Plan.Items {
		c := i.Reagent.Compound
		note := c.Name()
		if i.Mass < finest {
			note += ", in a stock solution"
		}
		row(c.Formula(), mass(i.Mass), paper.Digits(i.Reagent.Purity.Percent())+" %", paper.Money(i.Cost), note)
	}
	row("water", w.water(), "", "", "pure")
}

// finest is what a balance of a household weighs to a hundredth, which reads a milligram
// (common practice): less is weighed for a stock solution.
const finest = 100 * units.Milligram

// stocks says how to come to what cannot be weighed: as many times as much as makes a gram,
// dissolved to a litre, of which a part is taken.
func (w *writer) stocks() (body []any) {
	for _, i := range w.Plan.Items {
		if !(i.Mass < finest) || !(i.Mass > 0) {
			continue
		}
		times := math.Pow(10, math.Ceil(math.Log10(float64(units.Gram/i.Mass))-1e-9))
		body = append(body, fmt.Sprintf("%s in a stock solution: %s, %.0f times as much, dissolved to a litre of pure "+
			"water, and of that %s mL. Label it, with what a label of the salt warns of, and keep it locked away.",
			i.Reagent.Compound.Formula(), mass(i.Mass*units.Mass(times)), times, paper.Digits(1000/times)))
	}
	return body
}

// water is what is poured: by the balance, or in the measure of who has no kilograms.
func (w *writer) water() string {
	if w.style.Units == units.Metric {
		return mass(w.Plan.Water)
	}
	return w.style.Of(w.Plan.WaterVolume)
}

// litres are those that a text of the library counts.
var litres = regexp.MustCompile(`\b(\d+\.\d) L\b`)

// inStyle writes the volumes of a text in the units that are wanted.
func (w *writer) inStyle(text string) string {
	return litres.ReplaceAllStringFunc(text, func(found string) string {
		v, err := units.Parse[units.Volume](found)
		if err != nil || w.style.Units == units.Metric {
			return found
		}
		return w.style.Of(v)
	})
}

// buy counts packages: whole ones, as they are sold.
func (w *writer) buy() {
	t := &paper.Table{Head: []string{"", "needs", "package", "packages", "one lasts for"}, Left: true}
	whole := units.Money{}
	for _, i := range w.Plan.Items {
		c := i.Reagent.Compound
		k := slices.IndexFunc(w.job.Shelf, func(j recipe.Jar) bool { return j.Reagent == i.Reagent })
		if k < 0 || !(w.job.Shelf[k].Package > 0) {
			continue
		}
		jar := w.job.Shelf[k]
		n := math.Ceil(float64(i.Mass/jar.Package) * (1 - 1e-9))
		lasts := "less than this batch"
		switch times := math.Floor(float64(jar.Package/i.Mass) * (1 + 1e-9)); {
		case times == 1:
			lasts = "this batch"
		case times > 999:
			lasts = "more than 999 batches"
		case times > 1:
			lasts = fmt.Sprintf("%.0f batches", times)
		}
		t.Row(c.Formula(), mass(i.Mass), size(jar.Package), fmt.Sprintf("%.0f", n), lasts)
		if price := jar.Price.Times(n); price.Currency != "" {
			whole = units.Money{Amount: whole.Amount + price.Amount, Currency: price.Currency}
		}
	}
	if len(t.Rows) == 0 {
		return
	}
	body := []any{t}
	if whole.Currency != "" {
		body = append(body, "All of these packages bought anew cost "+paper.Money(whole)+"; this batch uses up "+
			paper.Money(w.Plan.Cost)+" of them.")
	}
	for _, jar := range w.job.Shelf {
		for _, i := range w.Plan.Items {
			if c := jar.Reagent.Compound; i.Reagent == jar.Reagent && jar.Left > 0 && !slices.Contains(w.Plan.UsedUp, c) {
				body = append(body, fmt.Sprintf("Of the %s of %s there are then %s left.", size(jar.Left), c.Formula(),
					mass(jar.Left-i.Mass)))
			}
		}
	}
	w.Add("Packages", body...)
}

// dissolve tells the order.
func (w *writer) dissolve() {
	var body []any
	for i, step := range w.Plan.Steps() {
		var what []salts.Compound
		for _, item := range step.Items {
			what = append(what, item.Reagent.Compound)
		}
		body = append(body, fmt.Sprintf("%d. %s", i+1, strings.TrimPrefix(formulas(what)+": "+w.inStyle(step.Text), ": ")))
	}
	w.Add("Dissolve, in this order", append(body, w.stocks()...)...)
}

// comesTo puts what was wanted beside what is made.
func (w *writer) comesTo() {
	b := w.Plan.Batch
	t := &paper.Table{Head: []string{"mmol/kg", "wanted", "made", "off", ""}, Left: true}
	for _, r := range w.Plan.Results {
		note := ""
		if !r.Met {
			note = "not as near as asked"
		}
		t.Row(r.Of.String(), fmt.Sprintf("%.4g", r.Amount.MillimolesPerKilogram()),
			fmt.Sprintf("%.4g", r.Got.MillimolesPerKilogram()), off(r), note)
	}
	body := []any{t}
	if len(w.Plan.Unasked) > 0 {
		var names []string
		for _, c := range w.Plan.Unasked {
			names = append(names, c.String())
		}
		body = append(body, "Not asked for, but in it: "+strings.Join(names, ", ")+".")
	}
	body = append(body, fmt.Sprintf("By its chlorinity it has a salinity of %.1f ppt; all of it weighs %s.",
		b.Salinity().Value(), w.all(b.Mass)))
	if settled, err := b.Settled(); err == nil {
		if x, err := settled.Readings(b.Temperature); err == nil {
			shows := func(by ions.Property) float64 { return teos10.PracticalFromAbsolute(x.By[by].Shown).Value() }
			body = append(body, fmt.Sprintf("A hydrometer will make %.2f ppt of it, a conductivity meter %.2f, a refractometer "+
				"for seawater %.2f; dissolved is as much as in sea salt of %.2f.", shows(ions.Density), shows(ions.Conductivity),
				shows(ions.Index), teos10.PracticalFromAbsolute(x.Dissolved).Value()))
		}
	}
	if w.Poured != nil && w.Aired != nil {
		body = append(body, fmt.Sprintf("Poured together it has pH %.2f (total scale) and a saturation of aragonite of "+
			"%.1f; with the air of outdoors, %.2f and %.1f.", w.Poured.PH().Value(), w.Poured.Aragonite(), w.Aired.PH().Value(),
			w.Aired.Aragonite()))
	}
	w.Add("What it comes to", body...)
}

// all writes the mass of the mix, which nobody puts on a balance.
func (w *writer) all(m units.Mass) string {
	if w.style.Units == units.Metric {
		return mass(m)
	}
	return w.style.Of(m)
}

// off is the deviation in percent of what was wanted.
func off(r recipe.Result) string {
	if r.Amount == 0 {
		return fmt.Sprintf("%.3g", r.Off().MillimolesPerKilogram())
	}
	percent := 100 * float64(r.Off()/r.Amount)
	if math.Abs(percent) < 0.05 {
		return "0.0 %"
	}
	return fmt.Sprintf("%+.1f %%", percent)
}

// size writes what is in a package.
func size(m units.Mass) string {
	if m >= units.Kilogram {
		return paper.Digits(m.Kilograms()) + " kg"
	}
	return paper.Digits(m.Grams()) + " g"
}

// mass writes a mass as a balance shows it.
func mass(m units.Mass) string {
	switch g := m.Grams(); {
	case g >= 10_000:
		return fmt.Sprintf("%.2f kg", m.Kilograms())
	case g >= 1000:
		return fmt.Sprintf("%.0f g", g)
	case g >= 100:
		return fmt.Sprintf("%.1f g", g)
	case g >= 1 || g == 0:
		return fmt.Sprintf("%.2f g", g)
	case g < 0.1:
		return fmt.Sprintf("%.3g mg", m.Milligrams())
	}
	return fmt.Sprintf("%.1f mg", m.Milligrams())
}
