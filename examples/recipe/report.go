package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/recipe"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// report is a plan with its title.
type report struct {
	name, like, salinity string // as ordered
	plan                 recipe.Plan
}

func (r report) aim() string {
	if r.like == "" {
		return "seawater"
	}
	found, err := recipe.Find(r.like)
	if err != nil {
		return r.like
	}
	return found.Name
}

// print writes the plan for the person with the balance.
func (r report) print(w io.Writer) error {
	p, b := &printer{w: w}, r.plan.Batch
	p.line("%s", r.name)
	p.line("%.4g L like %s, at %.1f °C; salinity asked for %s, made %.1f by its "+
		"chlorinity", b.Volume.Litres(), r.aim(), b.Temperature.Celsius(), r.salinity, b.Salinity().Value())

	p.line("\n1. Weigh")
	for _, item := range b.Items {
		cost := ""
		if item.Cost.Currency != "" {
			cost = fmt.Sprintf("  %.2f %s", item.Cost.Amount, item.Cost.Currency)
		}
		p.line("  %-13s %10s  %s, %.4g %%%s", item.Reagent.Compound, mass(item.Mass), item.Reagent.Compound.Name(),
			item.Reagent.Purity.Percent(), cost)
	}
	p.line("  %-13s %10s  pure, %.1f L of it", "water", mass(b.Water), b.WaterVolume.Litres())
	if r.plan.Cost.Currency != "" {
		p.line("  Together %.2f %s.", r.plan.Cost.Amount, r.plan.Cost.Currency)
	}
	for _, c := range r.plan.UsedUp {
		p.line("  That is all the %s there is.", c)
	}

	p.line("\n2. Dissolve, in this order")
	for i, step := range b.Steps() {
		var names []string
		for _, item := range step.Items {
			names = append(names, item.Reagent.Compound.Formula())
		}
		what := ""
		if len(names) > 0 {
			what = strings.Join(names, ", ") + ": "
		}
		p.line("  %d. %s%s", i+1, what, step.Text)
	}

	p.line("\n3. What it comes to, in mmol/kg")
	p.line("  %-11s %10s %10s %9s", "", "wanted", "made", "off")
	for _, t := range r.plan.Results {
		note := ""
		if !t.Met {
			note = "  NOT MET"
		}
		p.line("  %-11s %10.4g %10.4g %9s%s", t.Of, t.Amount.MillimolesPerKilogram(), t.Got.MillimolesPerKilogram(), off(t),
			note)
	}
	if len(r.plan.Unasked) > 0 {
		p.line("  Not asked for, but in it: %s.", join(r.plan.Unasked))
	}
	if settled, err := b.Settled(); err == nil {
		p.line("  A conductivity meter will show %.1f (ppt), a balance %.2f kg "+
			"for %.4g L.", settled.PracticalSalinity(b.Temperature).Value(), b.Mass.Kilograms(), b.Volume.Litres())
		if x, err := settled.Readings(b.Temperature); err == nil {
			shows := func(by ions.Property) float64 {
				return teos10.PracticalFromAbsolute(x.By[by].Shown).Value()
			}
			p.line("  A hydrometer will make %.2f of it, a conductivity meter %.2f, a refractometer for seawater %.2f; "+
				"dissolved is as much as in sea salt of %.2f.",
				shows(ions.Density), shows(ions.Conductivity), shows(ions.Index), teos10.PracticalFromAbsolute(x.Dissolved).Value())
		}
	}
	r.carbonate(p)
	for _, a := range r.plan.Assumptions {
		p.line("  %s", a)
	}

	p.line("\n4. Mind")
	for _, c := range worstFirst(r.plan.Cautions()) {
		p.line("  %s: %s", strings.ToUpper(c.Severity.String()), c.Text)
	}
	return p.err
}

// states returns the carbonate side of the mix as it is poured together, and
// aired outdoors.
func (r report) states() (poured, aired carbonate.System, err error) {
	water, err := r.plan.Carbonate()
	if err != nil {
		return poured, aired, err
	}
	if poured, err = water.System(); err != nil {
		return poured, aired, err
	}
	if water, err = water.Equilibrate(outdoors, units.Atmosphere); err == nil {
		aired, err = water.System()
	}
	return poured, aired, err
}

// outdoors is the CO2 of the air, in ppm.
const outdoors = 420

func (r report) carbonate(p *printer) {
	poured, aired, err := r.states()
	if err != nil { // a mix without carbon has no such side
		return
	}
	p.line("  Poured together it has pH %.2f (total scale) and a saturation of aragonite of %.1f; with the air of "+
		"outdoors, %.2f and %.1f.",
		poured.PH().Value(), poured.Aragonite(), aired.PH().Value(), aired.Aragonite())
}

// off is the deviation in percent of what was wanted.
func off(t recipe.Result) string {
	if t.Amount == 0 {
		return fmt.Sprintf("%.3g", t.Off().MillimolesPerKilogram())
	}
	percent := 100 * float64(t.Off()/t.Amount)
	if math.Abs(percent) < 0.05 {
		return "0.0 %"
	}
	return fmt.Sprintf("%+.1f %%", percent)
}

// mass writes a mass as a balance shows it.
func mass(m units.Mass) string {
	switch {
	case m >= 10*units.Kilogram:
		return fmt.Sprintf("%.2f kg", m.Kilograms())
	case m >= 100*units.Gram:
		return fmt.Sprintf("%.1f g", m.Grams())
	case m >= units.Gram:
		return fmt.Sprintf("%.2f g", m.Grams())
	case m < 100*units.Milligram:
		return fmt.Sprintf("%.3g mg", m.Milligrams())
	}
	return fmt.Sprintf("%.1f mg", m.Milligrams())
}

func join(list []recipe.Component) string {
	var names []string
	for _, c := range list {
		names = append(names, c.String())
	}
	return strings.Join(names, ", ")
}

func worstFirst(list []advice.Caution) []advice.Caution {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b advice.Caution) int { return int(b.Severity) - int(a.Severity) })
	return list
}

// json writes the plan for programs: every quantity a text with its unit,
// every number in full.
func (r report) json(w io.Writer) error {
	type item struct {
		Compound string
		Name     string
		Purity   units.Fraction
		Mass     units.Mass
		Cost     *units.Money `json:",omitempty"`
	}
	type step struct {
		Text      string
		Compounds []string `json:",omitempty"`
	}
	type target struct {
		Of          recipe.Component
		Wanted, Got units.AmountPerKilogram
		Tolerance   units.AmountPerKilogram
		Met         bool
	}
	type chemistry struct{ PH, Aragonite float64 } // total scale
	b := r.plan.Batch
	out := struct {
		Name, Like  string
		Asked, Made string // salinity, of the mix by its chlorinity
		Volume      units.Volume
		Mass        units.Mass
		Temperature units.Temperature
		Weigh       []item
		Water       units.Mass
		WaterVolume units.Volume
		Cost        *units.Money `json:",omitempty"`
		UsedUp      []string     `json:",omitempty"`
		Steps       []step
		Targets     []target
		AllMet      bool
		Unasked     []recipe.Component `json:",omitempty"`
		Poured      *chemistry         `json:",omitempty"`
		Aired       *chemistry         `json:",omitempty"`
		Assumptions []string
		Cautions    []struct {
			ID       string
			Severity advice.Severity
			Text     string
		}
	}{
		Name: r.name, Like: r.aim(), Asked: r.salinity, Made: fmt.Sprintf("%.3f", b.Salinity().Value()), Volume: b.Volume,
		Mass: b.Mass, Temperature: b.Temperature,
		Water: b.Water, WaterVolume: b.WaterVolume, AllMet: len(r.plan.Missed()) == 0,
		Unasked: r.plan.Unasked, Assumptions: r.plan.Assumptions,
	}
	if poured, aired, err := r.states(); err == nil {
		out.Poured, out.Aired = &chemistry{poured.PH().Value(), poured.Aragonite()}, &chemistry{aired.PH().Value(),
			aired.Aragonite()}
	}
	money := func(m units.Money) *units.Money {
		if m.Currency == "" {
			return nil
		}
		return &m
	}
	out.Cost = money(r.plan.Cost)
	for _, i := range b.Items {
		out.Weigh = append(out.Weigh, item{
			i.Reagent.Compound.Formula(),
			i.Reagent.Compound.Name(),
			i.Reagent.Purity,
			i.Mass,
			money(i.Cost),
		})
	}
	for _, c := range r.plan.UsedUp {
		out.UsedUp = append(out.UsedUp, c.Formula())
	}
	for _, s := range b.Steps() {
		var compounds []string
		for _, i := range s.Items {
			compounds = append(compounds, i.Reagent.Compound.Formula())
		}
		out.Steps = append(out.Steps, step{s.Text, compounds})
	}
	for _, t := range r.plan.Results {
		out.Targets = append(out.Targets, target{t.Of, t.Amount, t.Got, t.Tolerance, t.Met})
	}
	for _, c := range worstFirst(r.plan.Cautions()) {
		out.Cautions = append(out.Cautions, struct {
			ID       string
			Severity advice.Severity
			Text     string
		}(c))
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(out)
}

// printer writes lines until the first error.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}
