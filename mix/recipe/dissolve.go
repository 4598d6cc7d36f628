package recipe

import (
	"errors"
	"math"
	"slices"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/pitzer"
	"example.org/wellmixed/units"
)

// Step is one step of making a batch: what to do, and with which reagents, in
// that order.
type Step struct {
	Text  string
	Items []Weighed
}

// stage sorts compounds by when they go in.
type stage int

const (
	bulk      stage = iota // salts of sodium and potassium, boric acid
	magnesium              // apart, before calcium
	calcium
	heavy  // strontium, barium
	traces // metals, iodine, carbon sources
	strong // acids, bases, carbonates
	stages
)

// text is what to do in a stage.
//
//	source  the order of Kester et al. 1967: the weighed salts in most of the water, then the
//	        chlorides of magnesium, calcium and strontium as solutions; the rest common practice
func (s stage) text() string {
	times := input.Number(apart) + " times their mass of the kept water"
	switch s {
	case bulk:
		return "Dissolve one after the other in the moving water, each clear before the next; boric acid and borax are slow."
	case magnesium:
		return "Dissolve apart in " + times + " and pour in slowly."
	case calcium:
		return "Dissolve apart in " + times + ", let it cool, and pour in slowly where the current is strongest."
	case heavy:
		return "Dissolve apart in a cup of the kept water and pour in slowly."
	case traces:
		return "Dissolve apart as a dilute stock, of which the batch gets its part."
	}
	return "Last, well diluted, a little at a time into strong current and bubbling air; wait whenever the water " +
		"turns cloudy."
}

// keptWater is the part of the water that is held back for dissolving apart: common
// practice.
const keptWater = 0.1

func stageOf(c salts.Compound) stage {
	gives := func(list ...ions.Ion) bool {
		return slices.ContainsFunc(list, func(i ions.Ion) bool { return c.Gives(i) != 0 })
	}
	switch {
	case gives(ions.Iron, ions.Manganese, ions.Zinc, ions.Copper, ions.Iodide, ions.Iodate, ions.Acetate, ions.Molybdate):
		return traces
	case gives(ions.Hydroxide, ions.Carbonate):
		return strong
	case gives(ions.Magnesium):
		return magnesium
	case gives(ions.Calcium):
		return calcium
	case gives(ions.Strontium, ions.Barium):
		return heavy
	}
	if len(slices.Collect(c.Releases())) == 0 { // alcohol, sugars
		return traces
	}
	return bulk
}

// Steps returns the order in which to dissolve the batch so that nothing falls
// out: much water first, then what tolerates company, then each of the rest
// apart, and last what changes pH. Within a step the largest mass comes first.
func (b Batch) Steps() []Step {
	if len(b.Items) == 0 {
		return nil
	}
	held := b.WaterVolume * keptWater
	list := []Step{
		{
			Text: "Pour " + litres(b.WaterVolume-held) + " of pure water into a clean vessel without animals and set it " +
				"moving; keep " + litres(held) + " for dissolving.",
		},
	}
	for s := range stages {
		step := Step{Text: s.text()}
		for _, item := range b.Items {
			if stageOf(item.Reagent.Compound) == s {
				step.Items = append(step.Items, item)
			}
		}
		if len(step.Items) > 0 {
			if s == magnesium || s == calcium || s == heavy || s == strong {
				step.Text += b.hardly(step.Items, held)
			}
			slices.SortStableFunc(step.Items, func(x, y Weighed) int {
				switch {
				case x.Mass > y.Mass:
					return -1
				case x.Mass < y.Mass:
					return 1
				}
				return 0
			})
			list = append(list, step)
		}
	}
	return append(list, Step{
		Text: "Rinse the cups with the rest of the kept water into the batch, aerate overnight, and measure salinity, pH " +
			"and alkalinity before use.",
	})
}

// hardly tells how much water those reagents need that five times their mass
// does not dissolve.
func (b Batch) hardly(items []Weighed, held units.Volume) string {
	text := ""
	for _, item := range items {
		c := item.Reagent.Compound
		saturated, err := salts.Saturated(c, b.Temperature)
		if err != nil {
			continue
		}
		inLitre := saturated.Into(1 * units.Kilogram)
		water := units.Volume(item.Mass*units.Mass(item.Reagent.Purity.Value())/inLitre) * units.Litre
		if water <= units.Volume(apart*item.Mass.Kilograms())*units.Litre {
			continue
		}
		text += " " + c.Formula() + " needs at least " + input.Fixed(water.Litres(), 1) + " L to dissolve"
		if water > held {
			text += ", more than is kept: stir it as a powder into the whole batch and give it a day"
		}
		text += "."
	}
	return text
}

// apart is how many times its mass of water a reagent gets that is dissolved
// apart: common practice.
const apart = 5

func litres(v units.Volume) string { return input.Fixed(v.Litres(), 1) + " L" }

// enemies are pairs of species that fall out where their strong solutions
// meet. The solubility of seawater bears all of them but the carbonates, which
// it holds only for a while.
var enemies = [...]struct {
	a, b    []ions.Ion
	solids  []pitzer.Solid // that fall out, of which package pitzer has a constant
	caution advice.Caution
}{
	{
		[]ions.Ion{ions.Calcium},
		[]ions.Ion{ions.Sulfate},
		[]pitzer.Solid{pitzer.Gypsum, pitzer.Anhydrite, pitzer.Glauberite, pitzer.Syngenite},
		advice.Caution{
			ID:       "calcium-meets-sulfate",
			Severity: advice.Care,
			Text: "Strong solutions of calcium and sulfate make gypsum, which is slow to dissolve again: let them meet " +
				"only in the full volume.",
		},
	},
	{
		[]ions.Ion{ions.Calcium},
		[]ions.Ion{ions.Bicarbonate, ions.Carbonate, ions.Hydroxide},
		[]pitzer.Solid{pitzer.Calcite, pitzer.Aragonite},
		advice.Caution{
			ID:       "calcium-meets-carbonate",
			Severity: advice.Care,
			Text: "Strong solutions of calcium and of bicarbonate or carbonate make chalk, which takes calcium and " +
				"alkalinity with it for good: never mix the stocks, never dissolve both in one cup.",
		},
	},
	{
		[]ions.Ion{ions.Calcium},
		[]ions.Ion{ions.Phosphate},
		nil,
		advice.Caution{
			ID:       "calcium-meets-phosphate",
			Severity: advice.Care,
			Text:     "Calcium and phosphate fall out together where either is strong: add phosphate last and dilute.",
		},
	},
	{
		[]ions.Ion{ions.Calcium},
		[]ions.Ion{ions.Fluoride},
		nil,
		advice.Caution{
			ID:       "calcium-meets-fluoride",
			Severity: advice.Care,
			Text: "Strong solutions of calcium and fluoride make fluorspar, which does not dissolve again: fluoride goes " +
				"into the full volume first.",
		},
	},
	{
		[]ions.Ion{ions.Magnesium},
		[]ions.Ion{ions.Hydroxide, ions.Carbonate},
		[]pitzer.Solid{pitzer.Brucite, pitzer.Nesquehonite, pitzer.Artinite},
		advice.Caution{
			ID:       "magnesium-meets-base",
			Severity: advice.Care,
			Text: "A strong base or carbonate throws out magnesium as hydroxide or carbonate where it enters, as white " +
				"clouds: dilute it and pour slowly.",
		},
	},
	{
		[]ions.Ion{ions.Strontium},
		[]ions.Ion{ions.Sulfate},
		[]pitzer.Solid{pitzer.Celestite},
		advice.Caution{
			ID:       "strontium-meets-sulfate",
			Severity: advice.Care,
			Text: "Strontium and sulfate make celestite, which hardly dissolves again: strontium goes in last of the " +
				"chlorides, dilute.",
		},
	},
	{
		[]ions.Ion{ions.Barium},
		[]ions.Ion{ions.Sulfate},
		[]pitzer.Solid{pitzer.Barite},
		advice.Caution{
			ID:       "barium-meets-sulfate",
			Severity: advice.Care,
			Text:     "Barium falls out with sulfate even in seawater: little of it will stay dissolved.",
		},
	},
}

var (
	unhurried = advice.Caution{
		ID:       "mix-before-animals",
		Severity: advice.Care,
		Text: "Never mix in water with animals. A slip of the balance or a wrong jar is not seen in the salinity: " +
			"label everything, weigh twice, and measure calcium, magnesium and alkalinity of a first batch.",
	}
	onlyMajor = advice.Caution{
		ID:       "major-ions-only",
		Severity: advice.Note,
		Text: "Such a mix holds the ions that were asked for and the impurities of the reagents, and no other " +
			"trace element.",
	}
	reacting = advice.Caution{
		ID:       "acid-meets-weak-salt",
		Severity: advice.Danger,
		Text: "Acid sets free carbon dioxide, which foams, from carbonate and bicarbonate, poisonous hydrogen fluoride " +
			"from fluoride, and iodine vapour from iodide and iodate: never in one cup, the acid last into the full volume.",
	}
	hardly = advice.Caution{
		ID:       "hardly-soluble",
		Severity: advice.Care,
		Text: "Gypsum hardly dissolves, the carbonates of calcium and magnesium in seawater of normal pH not at all: " +
			"another source is better.",
	}
)

// Cautions returns what to mind with the batch: with the mixing, with pairs of
// its reagents, and with each of them. Usual practice only; safety data sheets
// and local rules come first.
func (b Batch) Cautions() []advice.Caution {
	if len(b.Items) == 0 {
		return nil
	}
	list := []advice.Caution{unhurried, onlyMajor}
	if c, applies := advice.TooHeavy(b.Mass); applies {
		list = append(list, c)
	}
	smallest := b.Items[0]
	for _, item := range b.Items {
		if item.Mass < smallest.Mass {
			smallest = item
		}
	}
	if smallest.Mass < fineBalance {
		list = append(list, advice.Caution{
			ID:       "fine-balance",
			Severity: advice.Note,
			Text: "The " + input.Fixed(smallest.Mass.Milligrams(), 1) + " mg of " + smallest.Reagent.Compound.Formula() +
				" need a balance that reads a " +
				"hundredth of that; or weigh ten times as much, dissolve it to a litre, and take 100 mL.", Here: true,
		})
	}
	for _, pair := range enemies {
		if b.meet(pair.a, pair.b) {
			c := pair.caution
			c.Text += b.clouds(pair.a, pair.b, pair.solids)
			list = append(list, c)
		}
	}
	if b.acidMeets() {
		list = append(list, reacting)
	}
	list = append(list, b.chemistry()...)
	if settled, err := b.Settled(); err == nil {
		if err := ions.CheckRange(settled, b.Temperature); errors.Is(err, units.ErrRange) {
			list = append(list, advice.Caution{
				ID:       "density-extrapolated",
				Severity: advice.Note,
				Text: "The mix is outside the range of the model of its density, so the mass of water is less " +
					"certain: " + err.Error() + ".", Here: true,
			})
		}
	}
	return append(list, b.ofReagents()...)
}

// clouds tells how far above saturation the reagents of two enemies are where they meet, each
// dissolved apart as the steps say, and for gypsum what poured onto the dry salts would do. It is
// empty where package pitzer does not know them.
func (b Batch) clouds(a, other []ions.Ion, solids []pitzer.Solid) string {
	var enemies, all []pitzer.Addition
	var mass units.Mass
	for _, item := range b.Items {
		c := item.Reagent.Compound
		add := pitzer.Addition{Formula: c.Formula(), Mass: item.Mass * units.Mass(item.Reagent.Purity.Value())}
		if pitzer.CheckFormula(add.Formula) != nil {
			continue
		}
		all = append(all, add)
		if slices.ContainsFunc(append(slices.Clone(a), other...), func(i ions.Ion) bool { return c.Gives(i) > 0 }) {
			enemies, mass = append(enemies, add), mass+add.Mass
		}
	}
	for i := range enemies {
		enemies[i].Mass /= units.Mass(apart * mass.Kilograms())
	}
	met, _, err := pitzer.Stock{Salts: enemies, Cold: b.Temperature, Warm: b.Temperature}.Judge()
	if err != nil || !slices.Contains(solids, met.Worst) {
		return ""
	}
	text := " Poured together, each in " + input.Number(apart) + " times its mass of water, they would be "
	switch {
	case met.Index > 3:
		text += "more than a thousand times saturated with " + met.Worst.String() + "."
	default:
		text += input.Fixed(math.Pow(10, float64(met.Index)), 1) + " times saturated with " + met.Worst.String() + "."
	}
	if solids[0] != pitzer.Gypsum || !(b.Water > 0) {
		return text
	}
	dry := pitzer.Batch{Water: b.Water, Add: all, Temperature: b.Temperature}
	if water, err := dry.WaterToClear(pitzer.Gypsum); err == nil {
		text += " Water poured onto all the dry salts is above saturation with gypsum until there are " +
			litres(b.WaterVolume*units.Volume(water/b.Water)) + " of the " + litres(b.WaterVolume) + "."
	}
	return text
}

// acidMeets tells whether an acid is among the reagents beside a salt that it
// drives something out of.
func (b Batch) acidMeets() bool {
	acid := slices.ContainsFunc(b.Items, func(w Weighed) bool { return w.Reagent.Compound.Gives(ions.Hydroxide) < 0 })
	return acid && slices.ContainsFunc(b.Items, func(w Weighed) bool {
		for _, i := range [...]ions.Ion{ions.Carbonate, ions.Bicarbonate, ions.Fluoride, ions.Iodide, ions.Iodate} {
			if w.Reagent.Compound.Gives(i) > 0 {
				return true
			}
		}
		return false
	})
}

const (
	// alkalineMix, total scale, is the pH above which a mix waits for the air before it
	// meets animals: common practice.
	alkalineMix = 8.8
	// outdoors is the CO2 that a mix is aired to, in ppm: near that of 2023 (from memory).
	outdoors = 420
	// fineBalance is the mass below which a kitchen balance does not do: common practice.
	fineBalance = 1 * units.Gram
)

// chemistry warns of a mix that is alkaline, acid or about to make chalk, as
// poured together or aired.
func (b Batch) chemistry() []advice.Caution {
	if b.Composition.Carbon() == 0 && math.Abs(float64(b.Composition.Alkalinity())) <= rounding {
		return nil
	}
	water, err := b.Carbonate()
	if err != nil {
		return nil
	}
	poured, err := water.System()
	if err != nil {
		return nil
	}
	var list []advice.Caution
	add := func(id, text string) {
		list = append(list, advice.Caution{ID: id, Severity: advice.Care, Text: text, Here: true})
	}
	minerals := poured.Minerals()
	ph, omega, when := poured.PH().Value(), poured.Aragonite(), "as it is poured together"
	switch {
	case ph > alkalineMix:
		add("alkaline-mix", "Poured together the mix has pH "+input.Fixed(ph, 1)+" (total scale): chalk and magnesium "+
			"hydroxide may fall out"+state(minerals.Brucite, " (brucite ")+", and nothing should live in it before days of air "+
			"have brought it near 8. Bicarbonate for carbonate or a base avoids it.")
	case ph < advice.LowestReefPH:
		add("acid-mix", "Poured together the mix has pH "+input.Fixed(ph, 1)+" (total scale): nothing should live in it. "+
			"Less acid, or more bicarbonate.")
	}
	if g := minerals.Gypsum; g.Index()+2*float64(g.Uncertainty) >= 0 {
		add("gypsum-falls-out", "The mix may be above saturation with gypsum"+state(g, " (")+": less calcium or sulfate.")
	}
	if aired, err := water.Equilibrate(outdoors, units.Atmosphere); err == nil {
		if s, err := aired.System(); err == nil && s.Aragonite() > omega {
			omega, when = s.Aragonite(), "once it is aired"
		}
	}
	if omega > advice.SustainedAragonite {
		add("chalk-may-fall-out", "Aragonite has a saturation state of "+input.Fixed(omega,
			1)+" "+when+": above about "+input.Number(advice.SustainedAragonite)+" chalk can fall out, with "+
			"calcium and alkalinity. Less of one of the two.")
	}
	return list
}

// state writes a saturation state behind what opens a bracket; nothing if it is not known.
func state(s carbonate.Saturation, open string) string {
	if !(s.Omega > 0) {
		return ""
	}
	return open + input.Fixed(float64(s.Omega), 2) + " times saturated, uncertain by a factor of " +
		input.Fixed(math.Pow(10, float64(s.Uncertainty)), 1) + ")"
}

// Cautions returns what to mind with the plan: with its batch, and with what
// nobody asked for.
func (p Plan) Cautions() []advice.Caution {
	list := p.Batch.Cautions()
	if len(p.Unasked) == 0 || len(list) == 0 {
		return list
	}
	c := advice.Caution{ID: "not-asked-for", Severity: advice.Care}
	var all, poison []string
	for _, of := range p.Unasked {
		all = append(all, of.String())
		if _, common := component(of.ion); of.kind == oneIon && !common && of.ion != ions.Bromide &&
			of.ion != ions.Strontium {
			poison = append(poison, of.String())
		}
	}
	c.Text = "The reagents bring " + strings.Join(all, ", ") + ", which no target names: see how much it is, or set " +
		"a target."
	if len(poison) > 0 {
		c.Severity = advice.Danger
		c.Text += " Of " + strings.Join(poison, ", ") + " little is poison to animals, or feeds what nobody wants."
	}
	return append([]advice.Caution{c}, list...)
}

// ofReagents gathers the cautions of the reagents, each once, with the names of
// those that it is about unless that is all of them.
func (b Batch) ofReagents() []advice.Caution {
	var list []advice.Caution
	var about [][]string
	for _, item := range b.Items {
		c := item.Reagent.Compound
		cautions := c.Cautions()
		switch c.Anhydrous().Formula() {
		case "CaCO3", "MgCO3", "CaSO4":
			cautions = append(cautions, hardly)
		}
		for _, caution := range cautions {
			i := slices.IndexFunc(list, func(k advice.Caution) bool { return k == caution })
			if i < 0 {
				i = len(list)
				list, about = append(list, caution), append(about, nil)
			}
			about[i] = append(about[i], c.Formula())
		}
	}
	for i := range list {
		if len(about[i]) < len(b.Items) {
			list[i].Text = strings.Join(about[i], ", ") + ": " + list[i].Text
		}
	}
	return list
}

// meet tells whether one reagent brings one of the species a and another
// reagent one of b.
func (b Batch) meet(a, other []ions.Ion) bool {
	brings := func(w Weighed, list []ions.Ion) bool {
		return slices.ContainsFunc(list, func(i ions.Ion) bool { return w.Reagent.Compound.Gives(i) > 0 })
	}
	var of, ofOther, ofBoth int
	for _, w := range b.Items {
		one, two := brings(w, a), brings(w, other)
		switch {
		case one && two:
			ofBoth++
		case one:
			of++
		case two:
			ofOther++
		}
	}
	return of > 0 && ofOther > 0 || ofBoth > 0 && of+ofOther+ofBoth > 1
}
