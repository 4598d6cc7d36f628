package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/mix/recipe"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// job is what to solve, and what was taken for granted in making it.
type job struct {
	recipe.Job
	asked    units.PracticalSalinity
	like     string
	toBuy    []salts.Compound // that no jar on the shelf brings anything of
	assumed  []string
	problems []error
}

func (o *job) bad(field, got, want string) {
	o.problems = append(o.problems, &units.InputError{Field: field, Got: got, Want: want})
}

// order turns what a home says into what Solve works on.
func order(h *home.Home) (*job, error) {
	r := h.Recipe
	o := &job{like: "the sea"}
	switch {
	case r.Volume != nil && !(*r.Volume > 0):
		o.bad("recipe.volume", r.Volume.String(), "above zero")
	case r.Volume != nil:
		o.Volume = *r.Volume
	case h.Mix.Volume > 0:
		o.Volume = h.Mix.Volume
	default:
		if o.Volume, _ = h.SwapVolume(); o.Volume > 0 {
			o.assumed = append(o.assumed, "As much is mixed as a change of water takes.")
		} else {
			o.Volume = 100 * units.Litre
			o.assumed = append(o.assumed, "Nobody said how much to mix, so it is for 100 L.")
		}
	}
	said := "mix.target"
	switch {
	case r.Salinity != nil:
		o.asked, said = *r.Salinity, "recipe.salinity"
	case h.Mix.Target != nil:
		o.asked = *h.Mix.Target
	case h.Tank.Salinity != nil:
		o.asked, said = *h.Tank.Salinity, "tank.salinity"
		o.assumed = append(o.assumed, "The mix is to be as salt as the tank.")
	default:
		o.asked = units.Practical(35)
		o.assumed = append(o.assumed, "Nobody said how salt the mix is to be, so it is for 35 ppt.")
	}
	if o.Temperature = h.Mix.Temperature; !o.Temperature.IsSet() {
		o.Temperature = h.Temperature()
	}
	if len(o.problems) > 0 {
		return nil, errors.Join(o.problems...)
	}
	sea, err := seawater.FromPractical(o.asked, o.Temperature)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", said, err)
	}
	if err := o.aim(h, sea.Density()); err != nil {
		return nil, err
	}
	o.shelf(r.Shelf)
	return o, errors.Join(o.problems...)
}

// aim sets the targets: the reference composition of seawater, or that of a published recipe
// brought to the salinity, with what is to be otherwise in its place.
func (o *job) aim(h *home.Home, density units.Density) error {
	tolerance := units.Percent(1)
	switch said := h.Recipe.Tolerance; {
	case said == nil:
		o.assumed = append(o.assumed, "Every ion may be off by 1 %.")
	case !(said.Value() >= 0 && said.Value() < 1):
		o.bad("recipe.tolerance", said.String(), "0 % and more, below 100 %")
	default:
		tolerance = *said
	}
	water := ions.Reference(o.asked)
	if h.Recipe.Like != "" {
		like, err := recipe.Find(h.Recipe.Like)
		if err != nil {
			return renamed("recipe.like", err)
		}
		batch, err := like.Batch(o.asked, o.Volume, o.Temperature)
		if err != nil {
			return home.At("recipe", err)
		}
		water, o.like = batch.Composition, like.Name
	}
	o.Targets = recipe.TargetsOf(water, tolerance)
	for i, t := range h.Recipe.Targets {
		o.target("recipe.targets["+strconv.Itoa(i)+"]", t, tolerance, density)
	}
	return nil
}

// target adds a target or puts it in the place of the one for the same component.
func (o *job) target(field string, text home.Target, share units.Fraction, density units.Density) {
	t := recipe.Target{Weight: 1}
	if err := t.Of.UnmarshalText([]byte(text.Of)); err != nil {
		o.problems = append(o.problems, renamed(field+".of", err))
		return
	}
	amount, err := content(t.Of, text.Amount, density)
	if err != nil {
		o.bad(field+".amount", units.Quoted(text.Amount), `"10.3 mmol/kg", "430 mg/L" or, of alkalinity, "8 dKH"`)
	}
	t.Amount = amount
	if text.Tolerance != "" {
		if share, err = units.Parse[units.Fraction](text.Tolerance); err != nil {
			o.problems = append(o.problems, renamed(field+".tolerance", err))
		}
	}
	t.Tolerance = t.Amount * units.AmountPerKilogram(share.Value())
	if text.Weight != "" {
		if t.Weight, err = strconv.ParseFloat(text.Weight, 64); err != nil || !(t.Weight > 0) {
			o.bad(field+".weight", units.Quoted(text.Weight), `a number above zero such as "3"`)
		}
	}
	for i := range o.Targets {
		if o.Targets[i].Of == t.Of {
			o.Targets[i] = t
			return
		}
	}
	o.Targets = append(o.Targets, t)
}

// renamed gives an error of reading the field of the file.
func renamed(field string, err error) error {
	var bad *units.InputError
	if errors.As(err, &bad) {
		return &units.InputError{Field: field, Got: bad.Got, Want: bad.Want}
	}
	return fmt.Errorf("%s: %w", field, err)
}

// content reads "10.3 mmol/kg", or as a test kit gives it "430 mg/L" of the
// ion (of the element boron) or "8 dKH".
func content(of recipe.Component, text string, density units.Density) (units.AmountPerKilogram, error) {
	if q, err := units.Parse[units.AmountPerKilogram](text); err == nil {
		return q, nil
	}
	if of == recipe.Alkalinity() {
		a, err := units.Parse[units.Alkalinity](text)
		return a.PerKilogram(density), err
	}
	counted := units.AsBoron
	if i, ok := ions.Lookup(of.String()); ok {
		counted = i.MolarMass()
	} else if of == recipe.Carbon() {
		counted = units.AsCarbon
	}
	q, err := units.Parse[units.MassPerLitre](text)
	return counted.AmountPerLitre(q).PerKilogram(density), err
}

// shelf puts the jars on it, and what they lack beside them.
func (o *job) shelf(jars []home.Jar) {
	for i, jar := range jars {
		field := "recipe.shelf[" + strconv.Itoa(i) + "]"
		if !jar.Compound.Exists() {
			o.bad(field+".compound", "nothing", `a compound such as "NaCl" or "baking soda"`)
			continue
		}
		if jar.Purity == (units.Fraction{}) {
			jar.Purity = units.Share(1)
			o.assumed = append(o.assumed, jar.Compound.Formula()+" is taken as pure: its purity is not said.")
		}
		if jar.Price.Currency != "" && !(jar.Package > 0) {
			o.bad(field+".package", "nothing", "what is in the package that has a price")
		}
		var left units.Mass // zero: plenty
		if jar.Left != nil {
			if left = *jar.Left; !(left > 0) {
				o.bad(field+".left", left.String(), "above zero; leave an empty jar out, and the key if there is plenty")
			}
		}
		o.Shelf = append(o.Shelf, recipe.Jar{
			Reagent: salts.Reagent{Compound: jar.Compound, Purity: jar.Purity},
			Price:   jar.Price, Package: jar.Package, Left: left, Allowed: jar.AllowedByItself,
		})
	}
	var names []string
	for _, t := range o.Targets {
		if c, lacking := o.lacks(t); lacking {
			o.Shelf = append(o.Shelf, recipe.Jar{Reagent: salts.Reagent{Compound: c, Purity: units.Share(1)}})
			o.toBuy = append(o.toBuy, c)
			names = append(names, c.Formula())
		}
	}
	if len(names) > 0 {
		o.assumed = append(o.assumed, "What is to be bought is taken as pure: "+strings.Join(names, ", ")+
			". Once the label tells its purity, put it on the shelf and ask again.")
	}
}

// usual are the compounds that recipes of seawater take for what they hold; what most
// of them bring comes first. Kester et al. 1967 has all of them.
var usual = []string{
	"NaCl", "MgCl2.6H2O", "Na2SO4", "CaCl2.2H2O", "KCl", "NaHCO3", "KBr", "H3BO3", "SrCl2.6H2O", "NaF",
}

// lacks tells what to buy for a target that no jar brings anything of.
func (o *job) lacks(t recipe.Target) (salts.Compound, bool) {
	if t.Amount <= t.Tolerance {
		return salts.Compound{}, false
	}
	for _, jar := range o.Shelf {
		c := jar.Reagent.Compound
		if (jar.Allowed || c.Gives(ions.Hydroxide) == 0) && t.Of.In(c.Dose(1)) > 0 { // Solve passes acids and bases by
			return salts.Compound{}, false
		}
	}
	return usualFor(t.Of)
}

// usualFor is the compound that most of a component usually comes from.
func usualFor(of recipe.Component) (salts.Compound, bool) {
	for _, formula := range usual {
		if c, err := salts.Find(formula); err == nil && of.In(c.Dose(1)) > 0 {
			return c, true
		}
	}
	return salts.Compound{}, false
}
