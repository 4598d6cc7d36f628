package replenish

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/gas"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Feeding is the wish to bring nitrate down by food for bacteria that breathe it: ethanol,
// acetic acid or an acetate.
type Feeding struct {
	Tank   tested.Water   // with nitrate among its levels
	To     tested.Level   // of nitrate
	Food   salts.Reagent  // C2H5OH, CH3COOH, CH3COONa or its hydrate
	Growth units.Fraction // of the food that the bacteria build of themselves: 30 to 50 % (common practice); 0: none
	Days   int            // into how many daily doses it is cut, for weeks
}

// FeedingPlan is the answer to a Feeding.
type FeedingPlan struct {
	Amount, PerDay units.Mass // of the food as weighed, in all and in each dose

	// Oxygen is what a day's dose takes out of the water if it is burned with oxygen before
	// it meets nitrate, and Dissolved what there is at saturation: the risk of it.
	Oxygen, Dissolved units.MassPerLitre

	Alkalinity  tested.Level // in all, by the food and by the nitrate that is gone
	Carbon      units.AmountPerLitre
	Assumptions []string
	Cautions    []advice.Caution
}

// Feed works out how much food takes nitrate down to a level.
//
//	symbol   n = ν ΔNO3/(1 - g), ν 5/12 of ethanol and 5/8 of acetate
//	source   [Process.Turns]; the share g that grows as in COD/NO3-N = 2.86/(1 - 1.42 Y)
//	         (Metcalf and Eddy 2003, Wastewater Engineering, 4th ed., from memory), g = 1.42 Y
//
// It is the food that the nitrate takes, no forecast: that bacteria find it without oxygen,
// in rock, sand or a reactor, is up to the tank. What they eat with oxygen beside is lost.
func Feed(f Feeding) (FeedingPlan, error) {
	present, known := f.Tank.Level(tested.Nitrate)
	list := []error{checkTank(f.Tank, 0), f.To.Check("to"), input.In("food", f.Food.Check())}
	if !known {
		list = append(list, input.Bad("tank.nitrate", "nothing", "its present level"))
	}
	if f.To.Exists() && f.To.Parameter() != tested.Nitrate {
		list = append(list, input.Bad("to", string(f.To.Parameter()), "nitrate"))
	}
	process, burning, perMole := f.eats()
	if f.Food.Compound.Exists() && perMole == 0 {
		list = append(list, input.Bad("food", f.Food.Compound.Formula(), "ethanol, acetic acid or an acetate"))
	}
	if !(f.Growth.Value() >= 0 && f.Growth.Value() < 1) {
		list = append(list, input.Bad("growth", f.Growth.String(), "0 to below 100 %"))
	}
	if f.Days < 1 || f.Days > mostSteps {
		list = append(list, input.Bad("days", input.Number(float64(f.Days)), "1 to 365"))
	}
	if err := input.Join(list...); err != nil {
		return FeedingPlan{}, err
	}
	if !(f.To.Base() <= present.Base()) {
		return FeedingPlan{}, f.To.Must("to", false, "at most the present "+present.String()+": food takes nitrate away")
	}
	gone := process.Turns(present.AmountPerLitre() - f.To.AmountPerLitre())
	eaten := -gone.Food / units.AmountPerLitre(1-f.Growth.Value())
	volume := f.Tank.Volume().Litres()
	moles := eaten.MillimolesPerLitre() / 1000 / perMole * volume
	p := FeedingPlan{Amount: f.Food.Compound.Mass(moles) / units.Mass(f.Food.Purity.Value()), Carbon: gone.Carbon}
	p.PerDay = p.Amount / units.Mass(f.Days)
	p.Oxygen = burning.Turns(eaten / units.AmountPerLitre(f.Days)).OxygenDemand()
	sample := f.Tank.Portion
	p.Dissolved = units.AsOxygen.MassPerLitre(gas.OxygenGarciaGordonPerLitre(sample.Practical(), sample.Temperature()))
	byFood := f.Food.Compound.RaisesAlkalinity(f.Food.Compound.Mass(moles), f.Tank.Volume())
	p.Alkalinity = counting(f.Tank, tested.Alkalinity).WithBase(
		byFood.MilliequivalentsPerLitre() + gone.Alkalinity.MilliequivalentsPerLitre())
	p.Assumptions = []string{
		"All of the nitrate that goes becomes nitrogen gas, and " + input.Number(f.Growth.Percent()) +
			" % of the food becomes bacteria; what they take of nitrate and phosphate to grow, and what a skimmer takes of " +
			"them, is not counted.",
		"The tank is well mixed and holds " + litres(f.Tank.Volume()) + " L; what makes nitrate meanwhile is not counted.",
	}
	p.Cautions = f.cautions(p)
	return p, nil
}

// eats returns the processes that a food drives, and how much of what they count is in a mole.
func (f Feeding) eats() (process, burning Process, perMole float64) {
	if n := f.Food.Compound.Gives(ions.Acetate); n > 0 {
		return AcetateDenitrification, AcetateRespiration, n
	}
	if ethanol, err := salts.Find("C2H5OH"); err == nil && f.Food.Compound == ethanol {
		return EthanolDenitrification, EthanolRespiration, 1
	}
	return Nitrification, EthanolRespiration, 0
}

// muchOxygen is the share of the dissolved oxygen that a day's food may burn: a tank at night
// has little more to spare (common practice).
const muchOxygen = 0.1

func (f Feeding) cautions(p FeedingPlan) []advice.Caution {
	list := []advice.Caution{
		{
			ID: "food-takes-oxygen", Severity: advice.Danger,
			Text: "Food for bacteria takes oxygen: too much of it suffocates a tank overnight. Begin with a tenth of the " +
				"dose, raise it over weeks, with strong aeration and skimming, and " +
				"stop where the water clouds or fish breathe fast.",
		},
		fromChildren, testFirst,
	}
	if share := float64(p.Oxygen / p.Dissolved); share > muchOxygen && !math.IsInf(share, 0) {
		list = append(list, advice.Caution{
			ID: "dose-burns-oxygen", Severity: advice.Danger, Here: true,
			Text: "Burned at once, a day's dose of " + f.Food.Compound.Formula() + " takes " +
				input.Fixed(p.Oxygen.MilligramsPerLitre(), 1) + " mg/L of oxygen, of the " +
				input.Fixed(p.Dissolved.MilligramsPerLitre(), 1) + " that are dissolved at the most: more than a tenth is too " +
				"much (" + advice.CommonPractice + "). Cut it into more days.",
		})
	}
	return finish(list, Dry(f.Food))
}
