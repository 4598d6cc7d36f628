package replenish

import (
	"math"
	"slices"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Cautions of dosing.
var (
	adviceFirst = advice.Caution{
		ID:       "advice-first",
		Severity: advice.Note,
		Text: "The safety data sheet of each product, local rules on chemicals and their disposal, and the advice of a " +
			"veterinarian or chemist who knows the case come before this plan.",
	}
	fromChildren = advice.Caution{
		ID:       "keep-from-children",
		Severity: advice.Danger,
		Text: "Keep chemicals and stock solutions labelled, closed and locked away from children and pets, never in " +
			"food containers or beside food.",
	}
	testFirst = advice.Caution{
		ID:       "test-first",
		Severity: advice.Care,
		Text: "Animals suffer from a wrong reading as from a wrong dose: test twice, with a fresh kit or a second " +
			"method, before the first step, and again before every further one.",
	}
	slowly = advice.Caution{
		ID:       "dose-slowly",
		Severity: advice.Care,
		Text: "Dissolve in pure water first and pour slowly into strong flow, away from animals and heaters: where the " +
			"dose falls the water is far from the average that is worked out here. Give calcium and alkalinity at different " +
			"places, hours apart.",
	}
	traces = advice.Caution{
		ID:       "trace-element",
		Severity: advice.Danger,
		Text: "Traces of this feed, a little more poisons: never without a laboratory analysis, from a dilute stock, " +
			"on a balance that resolves the dose ten times over.",
	}
	dust = advice.Caution{
		ID:       "irritating-dust",
		Severity: advice.Note,
		Text:     "Do not breathe the dust of salts: pour low, wear goggles and gloves, with a mask for fine powders.",
	}
	iodine = advice.Caution{
		ID:       "iodine",
		Severity: advice.Danger,
		Text: "Iodide and iodate harm people in small amounts (thyroid) and must never meet acids or bleach, which set " +
			"free iodine vapour; tinctures and antiseptics are no substitute.",
	}
	ironFalls = advice.Caution{
		ID:       "iron-falls-out",
		Severity: advice.Care,
		Text: "Iron without a chelator falls out of seawater within minutes to hours as hydroxide, and binds " +
			"phosphate: what stays dissolved is far below what was dosed.",
	}
	unknownCarbon = advice.Caution{
		ID:       "ph-not-checked",
		Severity: advice.Care,
		Text:     "pH and the risk of precipitation could not be worked out: test alkalinity and pH first.",
	}
	limeWater = advice.Caution{
		ID:       "lime-water",
		Severity: advice.Danger,
		Text: "Lime water is caustic (pH above 12): goggles and gloves, lid on, away from children; rinse eyes with " +
			"running water for many minutes and see a doctor at once. Let it settle and use the clear part only: undissolved " +
			"lime in the tank kills.",
	}
	limeOverdose = advice.Caution{
		ID:       "lime-overdose",
		Severity: advice.Danger,
		Text: "A stuck float valve or pump that pours the store of lime water into the tank can kill everything in it: " +
			"keep the store small, feed it by a slow drip or a dosing pump with a limit, and dose at night when pH is lowest.",
	}
	limeOversupply = advice.Caution{
		ID:       "lime-oversupply",
		Severity: advice.Care,
		Text: "All top-off as lime water of this strength gives more than the tank uses: alkalinity and calcium would " +
			"climb. Dilute it.",
	}
)

// chemistryCautions are about the whole tank, from the chemistry of the steps.
func chemistryCautions(w tested.Water, tank found, held tested.Held, steps []Step) []advice.Caution {
	list := ammoniaCautions(w, tank.now, steps)
	before := tank.now
	add := func(id string, severity advice.Severity, text string) {
		list = append(list, advice.Caution{ID: id, Severity: severity, Text: text, Here: true})
	}
	if ph := before.PH.Value(); ph < advice.LowestReefPH || ph > advice.HighestReefPH {
		add("odd-ph", advice.Care, "The tank has pH "+input.Fixed(ph, 1)+" (total scale), by what was put in: animals of a "+
			"reef do not stand that for long, and a wrong reading is likelier. Test pH and alkalinity again before anything "+
			"is dosed.")
	}
	if most, _ := swing(held); apart(tank.now, tank.aired) > most {
		add("air-moves-ph", advice.Care, "The tank is not in balance with the air that was stated: aeration alone "+
			"takes pH from "+input.Fixed(before.PH.Value(), 2)+" to "+input.Fixed(tank.aired.PH.Value(),
			2)+" (total scale), which the "+
			"limit of a dose does not count. Check the pH and the CO2 of the room, and let the tank settle before anything "+
			"is dosed.")
	}
	if len(steps) == 0 {
		return list
	}
	highest, omega, aired := math.Inf(-1), 0.0, 0.0
	var brucite, gypsum carbonate.Saturation
	for _, s := range steps {
		highest = max(highest, s.AtOnce.PH.Value(), s.Aired.PH.Value())
		omega = max(omega, float64(s.AtOnce.Aragonite), float64(s.Aired.Aragonite))
		aired = max(aired, float64(s.Aired.Aragonite))
		brucite, gypsum = worse(brucite, s.AtOnce.Brucite), worse(gypsum, s.AtOnce.Gypsum)
	}
	if math.IsNaN(highest) {
		return append(list, unknownCarbon)
	}
	switch {
	case omega >= advice.SpontaneousAragonite:
		add("aragonite-falls-out", advice.Danger,
			"Aragonite reaches a saturation state of "+input.Fixed(omega,
				1)+": above about "+input.Number(advice.SpontaneousAragonite)+" calcium carbonate forms in "+
				"clear seawater (Marion, Millero and Feistel 2009; from memory), takes calcium and alkalinity with it and clouds "+
				"the tank. Choose a lower level or smaller steps.")
	case aired >= advice.SustainedAragonite && !(float64(before.Aragonite) >= aired):
		add("aragonite-may-fall-out", advice.Care,
			"Aragonite stays at a saturation state of "+input.Fixed(aired,
				1)+" afterwards: above about "+input.Number(advice.SustainedAragonite)+", with grains to start on, "+
				"precipitation can run away (Moras et al. 2022; from memory). Heaters and pumps scale first.")
	case omega >= advice.SustainedAragonite:
		add("aragonite-passes-5", advice.Note, "Aragonite passes a saturation state of "+input.Fixed(omega,
			1)+" until the tank is aired: "+
			"good flow, and no sand or powder stirred up while dosing.")
	}
	switch {
	case brucite.Omega >= 1:
		add("brucite-falls-out", advice.Danger, "The water becomes saturated with brucite, Mg(OH)2, "+times(brucite)+
			": a white flock of magnesium hydroxide falls out and pH is far above what animals stand. Smaller steps.")
	case highest >= advice.BrucitePH:
		add("brucite-may-fall-out", advice.Care, "pH passes "+input.Fixed(advice.BrucitePH, 1)+", where magnesium hydroxide "+
			"may fall out by some sources; the saturation state of brucite is "+times(brucite)+". Smaller steps.")
	}
	if gypsum.Index()+2*float64(gypsum.Uncertainty) >= 0 {
		add("gypsum-falls-out", advice.Care, "The water may become saturated with gypsum: its saturation state is "+
			times(gypsum)+". Less calcium or sulfate.")
	}
	return list
}

// worse returns the higher saturation state. One that is not known is not higher.
func worse(a, b carbonate.Saturation) carbonate.Saturation {
	if b.Omega > a.Omega {
		return b
	}
	return a
}

// times writes a saturation state with the factor by which it is uncertain.
func times(s carbonate.Saturation) string {
	if !(s.Omega > 0) {
		return "not known"
	}
	return input.Fixed(float64(s.Omega), 2) + ", uncertain by a factor of " +
		input.Fixed(math.Pow(10, float64(s.Uncertainty)), 1) +
		" (standard uncertainty, ion-interaction model)"
}

// ammoniaCautions warn of what a rise of pH does to ammonia: what is known of it is
// said in numbers, what is not known is asked for.
func ammoniaCautions(w tested.Water, before tested.Chemistry, steps []Step) []advice.Caution {
	if total, tested := w.Level(tested.Ammonia); tested && math.IsNaN(before.PH.Value()) {
		return ammoniaWithoutPH(w, total)
	}
	rise, free := 0.0, before.FreeAmmonia
	last := before
	for _, s := range steps {
		rise = max(rise, s.AtOnce.PH.Value()-last.PH.Value())
		for _, c := range [...]tested.Chemistry{s.AtOnce, s.Aired} {
			if c.FreeAmmonia.Exists() && c.FreeAmmonia.Base() > free.Base() {
				free = c.FreeAmmonia
			}
		}
		last = s.Aired
	}
	mgL := func(l tested.Level) string { return input.Fixed(l.MassPerLitre().MilligramsPerLitre(), 3) }
	switch {
	case !before.FreeAmmonia.Exists() && (rise > advice.PHPerDay || rise >= sharpRise && before.PH.Value() < advice.LowPH):
		return []advice.Caution{{ID: "ammonia-not-tested", Severity: advice.Care, Text: "A dose raises pH by " +
			input.Fixed(rise, 2) + ", which makes " + input.Fixed(100*(math.Pow(10, rise)-1), 0) +
			" % more of any ammonia poisonous: have ammonia tested first.", Here: true}}
	case free.Exists() && free.MassPerLitre() > advice.FreeAmmonia && !(free.Base() > before.FreeAmmonia.Base()):
		return []advice.Caution{{ID: "free-ammonia", Severity: advice.Danger, Text: "Free ammonia is " + mgL(free) +
			" mg/L, counted as NH3; above " +
			input.Number(advice.FreeAmmonia.MilligramsPerLitre()) + " animals suffer (" + advice.CommonPractice +
			"). Remove it by water changes at the pH that the tank has.", Here: true}}
	case free.Exists() && free.MassPerLitre() > advice.FreeAmmonia:
		return []advice.Caution{{ID: "free-ammonia", Severity: advice.Danger, Text: "The doses raise free ammonia from " +
			mgL(before.FreeAmmonia) + " to " + mgL(free) + " mg/L, counted as NH3; above " +
			input.Number(advice.FreeAmmonia.MilligramsPerLitre()) + " animals suffer (" + advice.CommonPractice +
			"). Bind or remove the ammonia first, by water changes at the pH that the tank has.", Here: true}}
	}
	return nil
}

// ammoniaWithoutPH warns of ammonia that was tested beside a pH that was not: it tells
// from which pH on it harms, if from any that a tank has.
//
//	NH3/(NH3 + NH4+) = x at pH = pK + lg x/(1 - x)
func ammoniaWithoutPH(w tested.Water, total tested.Level) []advice.Caution {
	odds := func(share float64) float64 { return math.Log10(share / (1 - share)) }
	share := float64(advice.FreeAmmonia / units.AsAmmonia.MassPerLitre(total.AmountPerLitre()))
	at8 := carbonate.FreeAmmonia(w.Portion.Practical(), w.Portion.Temperature(), carbonate.PHTotal(8)).Value()
	ph := 8 + odds(share) - odds(at8)
	if !(ph < mostPH) { // NaN where there is less of it in all
		return nil
	}
	return []advice.Caution{{ID: "free-ammonia", Severity: advice.Care,
		Text: "Ammonia is in the water and pH is not known: from pH " +
			input.Fixed(math.Floor(10*ph)/10, 1) + " (total scale) on more than " +
			input.Number(advice.FreeAmmonia.MilligramsPerLitre()) +
			" mg/L of it may be NH3, above which animals suffer (" + advice.CommonPractice +
			"). Test pH, and raise nothing that raises it.", Here: true}}
}

// sharpRise of a low pH at a dose is worth asking for ammonia: a quarter more of it
// is then poisonous. Common practice.
const sharpRise = 0.1

// stepsNotKnown warns of a dose that moves a pH which nobody knows. The limits of what is
// known, the levels, say how many days it takes at the least.
func (d Dose) stepsNotKnown(held tested.Held, p DosePlan) []advice.Caution {
	if len(p.NotKnown) == 0 {
		return nil
	}
	text := "How far " + d.Additive.String() + " moves the pH is not known, nor what falls out, so no steps are " +
		"planned: test alkalinity and pH first, and do not give " + p.Amount.String() + " at once."
	brings := d.Additive.per()
	if total, err := d.Additive.count("dose", p.Amount); err == nil {
		if n, by := d.byLevels(held, brings.Scale(total)); by != "" {
			text += " By " + by + ", it takes " + input.Number(float64(n)) + " days at the least."
		}
	}
	return []advice.Caution{{ID: "steps-not-known", Severity: advice.Danger, Text: text, Here: true}}
}

func (d Dose) cautions(held tested.Held, p DosePlan, tank found) []advice.Caution {
	list := []advice.Caution{fromChildren, testFirst, slowly}
	list = append(list, d.stepsNotKnown(held, p)...)
	list = append(list, chemistryCautions(d.Tank, tank, held, p.Steps)...)
	if p.LimitedBy != "" && len(p.Steps) > 30 {
		list = append(list, advice.Caution{
			ID:       "many-steps",
			Severity: advice.Care,
			Text: "So many steps change what is not tested as well: water changes, or a salt mix that has more of it, may " +
				"be the better way.",
		})
	}
	if r := p.Salinity; r.Lasting.Value()-r.Before.Value() > advice.LastingSalinity {
		list = append(list, advice.Caution{
			ID:       "salinity-rises",
			Severity: advice.Care,
			Text: "Salinity ends " + input.Fixed(r.Lasting.Value()-r.Before.Value(), 2) + " higher for good: take out " +
				"tank water and top off with pure water.", Here: true,
		})
	}
	list = append(list, d.tooHigh()...)
	if len(p.Steps) > 0 {
		list = append(list, volumeCaution(p.Steps[0].Amount, d.Tank)...)
		list = append(list, d.Additive.limeCautions(p.Steps[0].Amount)...)
	}
	list = append(list, forParameter(d.To.Parameter())...)
	return finish(list, d.Additive)
}

// tooHigh warns of a goal that no reef is kept at: above 1.5 times the content
// of the sea at the salinity of the tank, of alkalinity twice it, as reefs are
// often kept above the sea; of what the sea holds next to nothing of, above a
// fixed bound. All of them common practice.
func (d Dose) tooHigh() []advice.Caution {
	p := d.To.Parameter()
	var most tested.Level
	switch p {
	case tested.Nitrate:
		most = p.Of(advice.MostNitrate, units.AsNitrate)
	case tested.Phosphate:
		most = p.Of(advice.MostPhosphate, units.AsPhosphate)
	case tested.Iodine:
		most = p.Of(advice.MostIodine, units.AsIodine)
	case tested.Iron:
		most = p.Of(advice.MostIron, units.AsIron)
	default:
		times := advice.MostOfTheSea
		if p == tested.Alkalinity {
			times = advice.MostAlkalinityOfTheSea
		}
		sea := p.In(ions.Reference(d.Tank.Portion.Practical()))
		most = p.OfAmount(units.AmountPerLitre(times) * sea.PerLitre(d.Tank.Portion.Density()))
	}
	bound := d.To.WithBase(most.Base())
	if !(d.To.Base() > bound.Base()) {
		return nil
	}
	return []advice.Caution{
		{
			ID:       "goal-too-high",
			Severity: advice.Danger,
			Text: "The goal of " + d.To.String() + " is above " + short(bound) + ", what a reef of this salinity is kept " +
				"at even by those who keep it high (common practice): animals may die of it. Look for a wrong unit or a slip " +
				"before anything is dosed.", Here: true,
		},
	}
}

func forParameter(p tested.Parameter) []advice.Caution {
	switch p {
	case tested.Iodine:
		return []advice.Caution{traces, iodine}
	case tested.Iron:
		return []advice.Caution{traces, ironFalls}
	case tested.Fluoride, tested.Boron, tested.Strontium, tested.Bromide:
		return []advice.Caution{traces}
	}
	return nil
}

// finish adds the cautions of the compounds and the general ones, each once.
func finish(list []advice.Caution, a Additive) []advice.Caution {
	list = append(list, a.cautions()...)
	list = append(list, dust, adviceFirst)
	if slices.ContainsFunc(a.reagents(), func(r salts.Reagent) bool { return isLime(r.Compound) }) {
		list = append(list, limeWater)
	}
	return advice.Once(list)
}
