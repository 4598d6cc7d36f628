package dilution

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/units"
)

// Cautions of every change.
var (
	unplug       = advice.Caution{ID: "unplug-before-draining", Severity: advice.Danger, Text: "Switch the heaters and pumps of the tank off before its level falls, let heaters cool in the water, and keep hands out while anything in it is plugged in; its outlets want residual-current (ground-fault) protection and drip loops, under the local code."}
	measureBatch = advice.Caution{ID: "measure-the-batch", Severity: advice.Care, Text: "Measure salinity and temperature of the batch right before use: the plan is no better than the readings."}
)

func cautions(c Change, p ChangePlan) []advice.Caution {
	list := []advice.Caution{unplug, measureBatch}
	add := func(id string, text string) {
		list = append(list, advice.Caution{ID: id, Severity: advice.Care, Text: text})
	}
	before, after := p.Before.Water, p.After.Water
	if d := after.Practical().Value() - before.Practical().Value(); math.Abs(d) > advice.SalinityPerDay {
		add("salinity-swing", "Salinity moves by "+signed(d, 2)+" at this change, more than "+input.Number(advice.SalinityPerDay)+" at a time ("+advice.CommonPractice+"): correct the batch, or spread the change over days.")
	}
	if d := float64(after.Temperature().Sub(before.Temperature())); math.Abs(d) > float64(advice.TemperaturePerHour) {
		add("temperature-swing", "Temperature moves by "+signed(d, 1)+" °C at this change, more than "+input.Number(float64(advice.TemperaturePerHour))+" °C at a time ("+advice.CommonPractice+"): bring the batch nearer to the tank first, or pour slowly.")
	}
	a0, k0 := p.Before.Alkalinity.Value()
	a1, k1 := p.After.Alkalinity.Value()
	if d := a1 - a0; k0 && k1 && math.Abs(float64(d)) > float64(advice.AlkalinityPerDay) {
		add("alkalinity-swing", "Alkalinity moves by "+signed(d.DKH(), 1)+" dKH at this change, more than "+input.Number(advice.AlkalinityPerDay.DKH())+" dKH at a time ("+advice.CommonPractice+"): make several smaller changes.")
	}
	if free, known := freeAmmonia(&p.After); known && free > ammoniaCare {
		add("free-ammonia", "Free ammonia comes to "+input.Fixed(free.MilligramsPerLitre(), 3)+" mg/L of nitrogen, above 0.02 (common practice): new water of higher pH makes more of the ammonia toxic. Bind or remove the ammonia first.")
	}
	c0, errBefore := p.Before.Chemistry()
	c1, errAfter := p.After.Chemistry()
	if d := c1.PH.Value() - c0.PH.Value(); errBefore == nil && errAfter == nil && math.Abs(d) > advice.PHPerHour {
		add("ph-swing", "pH moves by "+signed(d, 2)+" at this change, more than "+input.Number(advice.PHPerHour)+" at a time ("+advice.CommonPractice+"): make several smaller changes, and air the new water first.")
	}
	if p.Share > advice.SharePerDay {
		add("large-change", "More than half of the water at one go changes everything that was not measured as well, pH and trace elements among it: several smaller changes are gentler.")
	}
	if heavy, applies := advice.TooHeavy(c.Batch.Water.OfVolume(c.Swap).Mass); applies {
		list = append(list, heavy)
	}
	return list
}

// courseCautions are those of a whole course.
func courseCautions(c *Course, p *CoursePlan) []advice.Caution {
	if p.Changes == 0 && p.Flow == 0 {
		return nil
	}
	list := []advice.Caution{unplug, measureBatch}
	if p.Flow > 0 {
		list = append(list,
			advice.Caution{ID: "two-flows-one-level", Severity: advice.Danger, Text: "A continuous change needs two flows that stay equal: let tank water run off by an overflow instead of a second pump, keep a level alarm, and be there; salt water on the floor reaches outlets and power strips."},
			advice.Caution{ID: "no-siphon-back", Severity: advice.Care, Text: "Keep the end of the feed line above the water, or a stopped pump lets the tank run back into the vessel."})
	}
	for i := range p.Steps {
		if free, ok := freeAmmonia(&p.Steps[i].State); ok && free > ammoniaCare {
			list = append(list, advice.Caution{ID: "free-ammonia", Severity: advice.Care, Text: "Free ammonia comes to " + input.Fixed(free.MilligramsPerLitre(), 3) + " mg/L of nitrogen on the way, above 0.02 (common practice): new water of higher pH makes more of the ammonia toxic. Bind or remove the ammonia first."})
			break
		}
	}
	if heavy, applies := advice.TooHeavy(c.Batch.Water.OfVolume(min(p.Each, c.Batch.Water.Volume())).Mass); applies {
		list = append(list, heavy)
	}
	return list
}

// ammoniaCare is the free ammonia, as nitrogen, that calls for care (common
// practice).
const ammoniaCare = 0.02 * units.MilligramPerLitre

func freeAmmonia(s *State) (units.MassPerLitre, bool) {
	c, err := s.Chemistry()
	if err != nil {
		return 0, false
	}
	return c.FreeAmmonia.Value()
}

func signed(x float64, decimals int) string {
	s := input.Fixed(x, decimals)
	if x > 0 {
		return "+" + s
	}
	return s
}
