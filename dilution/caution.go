package dilution

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
)

// Cautions of every change.
var (
	unplug = advice.Caution{
		ID:       "unplug-before-draining",
		Severity: advice.Danger,
		Text: "Switch the heaters and pumps of the tank off before its level falls, let heaters cool in the water, and " +
			"keep hands out while anything in it is plugged in; its outlets want residual-current (ground-fault) protection " +
			"and drip loops, under the local code.",
	}
	measureBatch = advice.Caution{
		ID:       "measure-the-batch",
		Severity: advice.Care,
		Text:     "Measure salinity and temperature of the batch right before use: the plan is no better than the readings.",
	}
	siphonBack = advice.Caution{
		ID:       "no-siphon-back",
		Severity: advice.Care,
		Text:     "Keep the end of the feed line above the water, or a stopped pump lets the tank run back into the vessel.",
	}
	twoFlows = advice.Caution{
		ID:       "two-flows-one-level",
		Severity: advice.Danger,
		Text: "A continuous change needs two flows that stay equal: let tank water run off by an overflow instead of a " +
			"second pump, keep a level alarm, and be there; salt water on the floor reaches outlets and power strips.",
	}
	largeChange = advice.Caution{
		ID:       "large-change",
		Severity: advice.Care,
		Text: "More than " + input.Number(100*advice.SharePerDay) + " % of the water at one go: everything that was not " +
			"measured changes as well, pH and trace elements among it. Several smaller changes are gentler.", Here: true,
	}
)

func cautions(c Change, p ChangePlan) []advice.Caution {
	list := []advice.Caution{unplug, measureBatch}
	add := func(id string, text string) {
		list = append(list, advice.Caution{ID: id, Severity: advice.Care, Text: text, Here: true})
	}
	// The limits that one change is held against: those of an hour, and of a day.
	swing := func(id, name, unit string, by, limit float64, decimals int, remedy string) {
		if math.Abs(by) > limit {
			add(id, name+" moves by "+signed(by, decimals)+unit+" at this change, more than "+input.Number(limit)+unit+
				" at a time ("+advice.CommonPractice+"): "+remedy)
		}
	}
	before, after := p.Before.Portion, p.After.Portion
	if s := before.Practical().Value(); s < advice.LowestReefSalinity || s > advice.HighestReefSalinity {
		add("odd-salinity", "The tank is at "+input.Fixed(s, 1)+", where a reef is kept at 33 to 36 ("+advice.CommonPractice+
			"): measure it a second way, and if it is so, go back slowly.")
	}
	swing("salinity-swing", "Salinity", "", after.Practical().Value()-before.Practical().Value(), advice.SalinityPerDay, 2,
		"correct the batch, or spread the change over days.")
	swing("temperature-swing", "Temperature", " °C", float64(after.Temperature().Sub(before.Temperature())),
		float64(advice.TemperaturePerHour), 1, "bring the batch nearer to the tank first, or pour slowly.")
	for _, parameter := range [...]tested.Parameter{tested.Alkalinity, tested.Calcium, tested.Magnesium} {
		was, known0 := p.Before.Level(parameter)
		is, known1 := p.After.Level(parameter)
		limit, limited := tested.UsualPerDay(parameter)
		if !known0 || !known1 || !limited {
			continue
		}
		by, unit := limit.WithBase(is.Base() - was.Base()).Counted()
		most, _ := limit.Counted()
		swing(string(parameter)+"-swing", capital(string(parameter)), " "+unit, by, most, 1, "make several smaller changes.")
	}
	list = append(list, ammoniaCautions(p.Before, p.After, "after this change")...)
	c0, errBefore := p.Before.CarbonChemistry()
	c1, errAfter := p.After.CarbonChemistry()
	if errBefore == nil && errAfter == nil {
		swing("ph-swing", "pH", "", c1.PH.Value()-c0.PH.Value(), advice.PHPerHour, 2,
			"make several smaller changes, and air the new water first.")
	}
	if p.Share.Value() > advice.SharePerDay {
		list = append(list, largeChange)
	}
	if heavy, applies := advice.TooHeavy(c.Batch.Portion.OfVolume(c.Swap).Mass); applies {
		list = append(list, heavy)
	}
	return list
}

// ammoniaCautions warn of ammonia in a water: of its free part where the pH is
// known, of the pH at which it would harm where it is not. before is the water that
// it was; without ammonia in it, it does not count.
func ammoniaCautions(before, after tested.Water, when string) []advice.Caution {
	total, known := after.Level(tested.Ammonia)
	if !known {
		// The change may have lost sight of it; the tank still has it.
		if total, known = before.Level(tested.Ammonia); !known {
			return nil
		}
		after = before
	}
	limit := input.Number(advice.FreeAmmonia.MilligramsPerLitre()) + " mg/L, counted as NH3 (" + advice.CommonPractice +
		")"
	if c, err := after.CarbonChemistry(); err == nil {
		if !(c.FreeAmmonia.MassPerLitre() > advice.FreeAmmonia) {
			return nil
		}
		text := "Free ammonia comes to " + input.Fixed(milligrams(c.FreeAmmonia), 3) + " mg/L NH3 " + when + ", above " +
			limit
		if was, err := before.CarbonChemistry(); err == nil && was.FreeAmmonia.Exists() {
			text += "; it was " + input.Fixed(milligrams(was.FreeAmmonia), 3)
		}
		return []advice.Caution{{ID: "free-ammonia", Severity: advice.Care, Text: text +
			". New water of higher pH makes more of the ammonia toxic: bind or remove the ammonia first.", Here: true}}
	}
	ph, harms := harmfulPH(total, after)
	if !harms {
		return nil
	}
	return []advice.Caution{{ID: "ammonia-without-ph", Severity: advice.Care, Text: "There is " + total.String() +
		" of ammonia in the water and the pH is not known: above pH " + input.Fixed(ph, 1) +
		" (total scale) its free part passes " + limit + ". Measure the pH, and bind or remove the ammonia before water of " +
		"higher pH goes in.", Here: true}}
}

// highestPH is above what any tank has.
const highestPH = 9.5

// harmfulPH returns the pH at which the free part of a level of ammonia reaches the
// threshold; false if no tank comes there.
func harmfulPH(total tested.Level, w tested.Water) (ph float64, harms bool) {
	s, t := w.Portion.Practical(), w.Portion.Temperature()
	over := func(ph float64) float64 {
		free := tested.FreeAmmoniaOf(total, carbonate.FreeAmmonia(s, t, carbonate.PHTotal(ph)))
		return free.MassPerLitre().MilligramsPerLitre() - advice.FreeAmmonia.MilligramsPerLitre()
	}
	if !(over(highestPH) > 0) {
		return math.NaN(), false
	}
	ph, ok := solve.Brent(over, 0, highestPH, 1e-6)
	return ph, ok
}

// courseCautions are those of a whole course.
func courseCautions(c *Course, p *CoursePlan) []advice.Caution {
	if p.Changes == 0 && p.Flow == 0 {
		return nil
	}
	list := []advice.Caution{unplug, measureBatch}
	if p.Flow > 0 {
		list = append(list, twoFlows, siphonBack)
		if p.Hold > 0 {
			list = append(list, advice.Caution{ID: "heater-must-hold", Severity: advice.Care, Text: "The new water takes " +
				input.Fixed(p.Hold.Watts(), 0) + " W from the heater of the tank while it flows in: a weaker one lets the " +
				"tank cool.", Here: true})
		}
	}
	for i := range p.Steps {
		if more := ammoniaCautions(c.Tank, p.Steps[i].Water, "on the way"); len(more) > 0 {
			list = append(list, more...)
			break
		}
	}
	if heavy, applies := advice.TooHeavy(c.Batch.Portion.OfVolume(min(p.Each, c.Batch.Volume())).Mass); applies {
		list = append(list, heavy)
	}
	return list
}

func signed(x float64, decimals int) string {
	s := input.Fixed(x, decimals)
	if x > 0 {
		return "+" + s
	}
	return s
}
