package replenish_test

import (
	"fmt"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// reef is a tank of 300 L, tested this morning.
func reef() tested.Water {
	water, _ := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	return tested.Water{
		Portion: water.OfVolume(300 * units.Litre),
		Carbon:  carbonate.PH(carbonate.PHTotal(8.05)),
		Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(7.0)),
			tested.Calcium.Of(380*units.MilligramPerLitre, units.AsCalcium),
			tested.Magnesium.Of(1290*units.MilligramPerLitre, units.AsMagnesium),
		},
	}
}

// room is the air over it.
const room = carbonate.XCO2(500)

func jar(formula string, purity units.Fraction) salts.Reagent {
	compound, err := salts.Find(formula)
	if err != nil {
		panic(err)
	}
	return salts.Reagent{Compound: compound, Purity: purity}
}

// Calcium is at 380 mg/L and should be at 430.
func ExamplePlan() {
	plan, err := replenish.Plan(replenish.Dose{
		Tank: reef(), Air: room,
		To:       tested.Calcium.Of(430*units.MilligramPerLitre, units.AsCalcium),
		Additive: replenish.Dry(jar("CaCl2.2H2O", units.Percent(97))),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f g, in %d days %.1f g each\n", plan.Amount.Mass.Grams(), len(plan.Steps), plan.Steps[0].Amount.Mass.Grams())
	fmt.Println("limited by", plan.LimitedBy)
	fmt.Printf("salinity rises by %.2f\n", plan.Salinity.After.Value()-plan.Salinity.Before.Value())
	// Output:
	// 56.7 g, in 3 days 18.9 g each
	// limited by calcium, 20 mg/L Ca a day (common practice)
	// salinity rises by 0.13
}

// Soda ash raises pH at once; aired, the tank comes back.
func ExamplePlan_alkalinity() {
	soda := replenish.Stock(replenish.Ingredient{Reagent: jar("Na2CO3", units.Percent(99)), PerLitre: 60 * units.GramPerLitre})
	plan, err := replenish.Plan(replenish.Dose{Tank: reef(), Air: room, To: tested.AlkalinityOf(units.DKH(8.5)), Additive: soda})
	if err != nil {
		fmt.Println(err)
		return
	}
	first := plan.Steps[0]
	fmt.Printf("%d doses of %.0f mL; pH %.2f before, %.2f at once, %.2f aired\n", len(plan.Steps), first.Amount.Volume.Millilitres(),
		plan.Before.PH.Value(), first.AtOnce.PH.Value(), first.Aired.PH.Value())
	// Output: 2 doses of 72 mL; pH 8.05 before, 8.20 at once, 8.03 aired
}

// Two weeks of tests, doses by a pump, one water change.
func ExampleConsumption() {
	day := func(n float64) time.Time {
		return time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC).Add(time.Duration(n * 24 * float64(time.Hour)))
	}
	kit := tested.AlkalinityOf(units.DKH(0.1))
	test := func(n, dkh float64) replenish.Test {
		return replenish.Test{At: day(n), Level: tested.AlkalinityOf(units.DKH(dkh)), Uncertainty: kit}
	}
	soda := replenish.Stock(replenish.Ingredient{Reagent: jar("NaHCO3", units.Percent(100)), PerLitre: 80 * units.GramPerLitre})
	demand, err := replenish.Consumption(replenish.Log{
		Volume: 300 * units.Litre,
		Tests:  []replenish.Test{test(0, 8.0), test(3, 7.4), test(6, 6.9), test(9, 7.1), test(13, 6.2)},
		Doses:  []replenish.Dosed{{From: day(0), To: day(13), Additive: soda, Amount: replenish.Amount{Volume: 520 * units.Millilitre}}},
		Changes: []replenish.WaterChange{{At: day(7), Swapped: 60 * units.Litre,
			Fresh: []tested.Level{tested.AlkalinityOf(units.DKH(9))}}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	use, _ := demand.Of(tested.Alkalinity)
	left, err := use.Until(tested.AlkalinityOf(units.DKH(5.5)))
	fmt.Printf("%.2f ± %.2f dKH a day\n", use.PerDay.Alkalinity().DKH(), use.Uncertainty.Alkalinity().DKH())
	fmt.Printf("undosed, 5.5 dKH is reached in %.1f days (%.1f to %.1f) %v\n", left.Days, left.Low, left.High, err)
	// Output:
	// 0.52 ± 0.01 dKH a day
	// undosed, 5.5 dKH is reached in 1.5 days (1.1 to 1.8) <nil>
}

// Give back 0.4 dKH a day.
func ExampleMaintain() {
	plan, err := replenish.Maintain(replenish.Upkeep{
		Tank: reef(), Air: room,
		Use:      replenish.Use{PerDay: tested.AlkalinityOf(units.DKH(0.4))},
		Additive: replenish.Dry(jar("NaHCO3", units.Percent(99))),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f g a day; salinity +%.2f a month from what is left\n", plan.PerDay.Mass.Grams(), plan.PerMonth.Lasting.Value()-plan.PerMonth.Before.Value())
	// Output: 3.6 g a day; salinity +0.09 a month from what is left
}

// What a day's dose raises goes into a routine as it is: where does the calcium of a
// tank that uses 0.4 dKH a day end up after two months of it?
func ExampleUpkeepPlan_raises() {
	tank := reef().With(tested.Calcium.Of(420*units.MilligramPerLitre, units.AsCalcium))
	use := tested.AlkalinityOf(units.DKH(0.4))
	plan, err := replenish.Maintain(replenish.Upkeep{
		Tank: tank, Air: room, Use: replenish.Use{PerDay: use},
		Additive: replenish.Dry(jar("NaHCO3", units.Percent(99))),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	tank.Carbon = carbonate.Known{} // a routine foretells levels, not pH
	eaten := use.WithBase(-use.Base())
	routine := dilution.Routine{
		Tank:   tank,
		PerDay: tested.Levels{eaten, tested.Calcium.Of(-2.9*units.MilligramPerLitre, units.AsCalcium)},
		Doses:  []dilution.Dose{{Levels: plan.Raises, Every: 24 * time.Hour}},
	}
	f, err := routine.Forecast(60 * 24 * time.Hour)
	if err != nil {
		fmt.Println(err)
		return
	}
	alkalinity, _ := f.End.Level(tested.Alkalinity)
	calcium, _ := f.End.Level(tested.Calcium)
	fmt.Printf("%.1f dKH, and %.0f mg/L of calcium: dose that too\n",
		alkalinity.Alkalinity().DKH(), calcium.MassPerLitre().MilligramsPerLitre())
	// Output: 7.4 dKH, and 246 mg/L of calcium: dose that too
}

// Four litres evaporate a day: what can lime water do?
func ExampleLime() {
	supply, err := replenish.Lime(replenish.LimeWater{
		Tank: reef(), Air: room,
		TopOff:      4 * units.LitrePerDay,
		Temperature: units.Celsius(22),
		Saturation:  units.Percent(100),
		Demand:      tested.AlkalinityOf(units.DKH(2)),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f dKH and %.1f mg/L calcium a day, %.0f %% of the demand\n",
		supply.Alkalinity.Alkalinity().DKH(), supply.Calcium.MassPerLitre().MilligramsPerLitre(), supply.Share.Percent())
	fmt.Printf("no more than %.1f L at once\n", supply.Portion.Litres())
	// Output:
	// 1.64 dKH and 11.7 mg/L calcium a day, 82 % of the demand
	// no more than 1.1 L at once
}

// A kit for nitrogen, a result in nitrate.
func ExampleParameter_Parse() {
	level, err := tested.Nitrate.Parse("1.1 mg/L N")
	fmt.Println(level, "is", level.As(units.AsNitrate), err)
	_, err = tested.Nitrate.Parse("5 mg/L")
	fmt.Println(err)
	// Output:
	// 1.1 mg/L NO3-N is 4.86931 mg/L NO3 <nil>
	// nitrate: got "5 mg/L", want what the mass counts: "mg/L NO3" or "mg/L NO3-N" or "mmol/L of nitrate"
}
