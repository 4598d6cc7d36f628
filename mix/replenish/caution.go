package replenish

import (
	"math"
	"slices"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Cautions of dosing.
var (
	adviceFirst    = mix.Caution{ID: "advice-first", Severity: mix.Note, Text: "The safety data sheet of each product, local rules on chemicals and their disposal, and the advice of a veterinarian or chemist who knows the case come before this plan."}
	fromChildren   = mix.Caution{ID: "keep-from-children", Severity: mix.Danger, Text: "Keep chemicals and stock solutions labelled, closed and locked away from children and pets, never in food containers or beside food."}
	testFirst      = mix.Caution{ID: "test-first", Severity: mix.Care, Text: "Animals suffer from a wrong reading as from a wrong dose: test twice, with a fresh kit or a second method, before the first step, and again before every further one."}
	slowly         = mix.Caution{ID: "dose-slowly", Severity: mix.Care, Text: "Dissolve in pure water first and pour slowly into strong flow, away from animals and heaters: where the dose falls the water is far from the average that is worked out here. Give calcium and alkalinity at different places, hours apart."}
	traces         = mix.Caution{ID: "trace-element", Severity: mix.Danger, Text: "Traces of this feed, a little more poisons: never without a laboratory analysis, from a dilute stock, on a balance that resolves the dose ten times over."}
	dust           = mix.Caution{ID: "irritating-dust", Severity: mix.Note, Text: "Do not breathe the dust of salts: pour low, wear goggles and gloves, with a mask for fine powders."}
	iodine         = mix.Caution{ID: "iodine", Severity: mix.Danger, Text: "Iodide and iodate harm people in small amounts (thyroid) and must never meet acids or bleach, which set free iodine vapour; tinctures and antiseptics are no substitute."}
	ironFalls      = mix.Caution{ID: "iron-falls-out", Severity: mix.Care, Text: "Iron without a chelator falls out of seawater within minutes to hours as hydroxide, and binds phosphate: what stays dissolved is far below what was dosed."}
	unknownCarbon  = mix.Caution{ID: "ph-not-checked", Severity: mix.Care, Text: "pH and the risk of precipitation could not be worked out: test alkalinity and pH first."}
	limeWater      = mix.Caution{ID: "lime-water", Severity: mix.Danger, Text: "Lime water is caustic (pH above 12): goggles and gloves, lid on, away from children; rinse eyes with running water for many minutes and see a doctor at once. Let it settle and use the clear part only: undissolved lime in the tank kills."}
	limeOverdose   = mix.Caution{ID: "lime-overdose", Severity: mix.Danger, Text: "A stuck float valve or pump that pours the store of lime water into the tank can kill everything in it: keep the store small, feed it by a slow drip or a dosing pump with a limit, and dose at night when pH is lowest."}
	limeOversupply = mix.Caution{ID: "lime-oversupply", Severity: mix.Care, Text: "All top-off as lime water of this strength gives more than the tank uses: alkalinity and calcium would climb. Dilute it."}
)

// about the whole tank, from the chemistry of the steps.
func chemistryCautions(before Chemistry, steps []Step) []mix.Caution {
	var list []mix.Caution
	add := func(id string, severity mix.Severity, text string) {
		list = append(list, mix.Caution{ID: id, Severity: severity, Text: text})
	}
	if ph := before.PH.Value(); ph < 7 || ph > 9 {
		add("odd-ph", mix.Care, "The tank has pH "+input.Fixed(ph, 1)+" (total scale), by what was put in: animals of a reef do not stand that for long, and a wrong reading is likelier. Test pH and alkalinity again before anything is dosed.")
	}
	if len(steps) == 0 {
		return list
	}
	highest, omega, aired, brucite, gypsum := math.Inf(-1), 0.0, 0.0, 0.0, 0.0
	for _, s := range steps {
		highest = max(highest, s.AtOnce.PH.Value(), s.Aired.PH.Value())
		omega = max(omega, s.AtOnce.Aragonite, s.Aired.Aragonite)
		aired = max(aired, s.Aired.Aragonite)
		brucite = max(brucite, s.AtOnce.Brucite.Likely)
		gypsum = max(gypsum, s.AtOnce.Gypsum.High)
	}
	if math.IsNaN(highest) {
		return []mix.Caution{unknownCarbon}
	}
	switch {
	case omega >= spontaneousAragonite:
		add("aragonite-falls-out", mix.Danger, "Aragonite reaches a saturation state of "+input.Fixed(omega, 1)+": above about 12.3 calcium carbonate forms in clear seawater (Marion, Millero and Feistel 2009; from memory), takes calcium and alkalinity with it and clouds the tank. Choose a lower level or smaller steps.")
	case aired >= sustainedAragonite && !(before.Aragonite >= aired):
		add("aragonite-may-fall-out", mix.Care, "Aragonite stays at a saturation state of "+input.Fixed(aired, 1)+" afterwards: above about 5, with grains to start on, precipitation can run away (Moras et al. 2022; from memory). Heaters and pumps scale first.")
	case omega >= sustainedAragonite:
		add("aragonite-passes-5", mix.Note, "Aragonite passes a saturation state of "+input.Fixed(omega, 1)+" until the tank is aired: good flow, and no sand or powder stirred up while dosing.")
	}
	switch {
	case brucite >= 1:
		add("brucite-falls-out", mix.Danger, "The water becomes saturated with brucite, Mg(OH)2: a white flock of magnesium hydroxide falls out and pH is far above what animals stand. Smaller steps.")
	case highest >= brucitePH:
		add("brucite-may-fall-out", mix.Care, "pH passes 9.0, where magnesium hydroxide may fall out by some sources: smaller steps.")
	}
	if gypsum >= 1 {
		add("gypsum-falls-out", mix.Care, "The water may become saturated with gypsum: less calcium or sulfate.")
	}
	return list
}

func (d Dose) cautions(p DosePlan) []mix.Caution {
	list := []mix.Caution{fromChildren, testFirst, slowly}
	list = append(list, chemistryCautions(p.Before, p.Steps)...)
	if p.LimitedBy != "" && len(p.Steps) > 30 {
		list = append(list, mix.Caution{ID: "many-steps", Severity: mix.Care, Text: "So many steps change what is not tested as well: water changes, or a salt mix that has more of it, may be the better way."})
	}
	if r := p.Salinity; r.Lasting.Value()-r.Before.Value() > lastingSalinity {
		list = append(list, mix.Caution{ID: "salinity-rises", Severity: mix.Care, Text: "Salinity ends " + input.Fixed(r.Lasting.Value()-r.Before.Value(), 2) + " higher for good: take out tank water and top off with pure water."})
	}
	list = append(list, d.tooHigh()...)
	if len(p.Steps) > 0 {
		list = append(list, volumeCaution(p.Steps[0].Amount, d.Tank)...)
		list = append(list, d.Additive.limeCautions(p.Steps[0].Amount)...)
	}
	list = append(list, forParameter(d.To.parameter)...)
	return finish(list, d.Additive)
}

// tooHigh warns of a goal that no reef is kept at: above 1.5 times the content
// of the sea at the salinity of the tank, of alkalinity twice it, as reefs are
// often kept above the sea; of what the sea holds next to nothing of, above a
// fixed bound. All of them common practice.
func (d Dose) tooHigh() []mix.Caution {
	p := d.To.parameter
	bound := d.To.like(0)
	switch p {
	case Nitrate:
		bound.amount = 50 / units.AsNitrate.GramsPerMole()
	case Phosphate:
		bound.amount = 0.5 / units.AsPhosphate.GramsPerMole()
	case Iodine:
		bound.amount = 0.09 / units.AsIodine.GramsPerMole() // 1.5 times the 0.06 mg/L of the sea, from memory
	case Iron:
		bound.amount = 0.01 / units.AsIron.GramsPerMole()
	default:
		times := 1.5
		if p == Alkalinity {
			times = 2
		}
		sea := units.AmountPerKilogram(times * p.of(ions.Reference(d.Tank.Water.Practical())))
		bound.amount = sea.PerLitre(d.Tank.Water.Density()).MillimolesPerLitre()
	}
	if !(d.To.amount > bound.amount) {
		return nil
	}
	return []mix.Caution{{ID: "goal-too-high", Severity: mix.Danger, Text: "The goal of " + d.To.String() + " is above " + short(bound) + ", what a reef of this salinity is kept at even by those who keep it high (common practice): animals may die of it. Look for a wrong unit or a slip before anything is dosed."}}
}

// lastingSalinity is a rise of practical salinity worth a word (common
// practice: half of what a tank should see in a day).
const lastingSalinity = 0.5

func forParameter(p Parameter) []mix.Caution {
	switch p {
	case Iodine:
		return []mix.Caution{traces, iodine}
	case Iron:
		return []mix.Caution{traces, ironFalls}
	case Fluoride, Boron, Strontium, Bromide:
		return []mix.Caution{traces}
	}
	return nil
}

// finish adds the cautions of the compounds and the general ones, each once.
func finish(list []mix.Caution, a Additive) []mix.Caution {
	list = append(list, a.cautions()...)
	list = append(list, dust, adviceFirst)
	if slices.ContainsFunc(a.reagents(), func(r salts.Reagent) bool { return isLime(r.Compound) }) {
		list = append(list, limeWater)
	}
	seen := map[string]bool{}
	var once []mix.Caution
	for _, c := range list {
		if !seen[c.ID] {
			seen[c.ID] = true
			once = append(once, c)
		}
	}
	return once
}
