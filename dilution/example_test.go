package dilution_test

import (
	"fmt"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// A 200 L tank has crept up to 36: how much to swap for pure water?
func ExampleSwapToReach() {
	tank, err := seawater.FromPractical(units.Practical(36), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	pure, err := seawater.PureWater(units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	v, err := dilution.SwapToReach(tank.OfVolume(200*units.Litre), pure, units.Practical(35))
	fmt.Printf("%.1f L %v\n", v.Litres(), err)
	// Output: 5.7 L <nil>
}

// Nitrate from 40 to 10 mg/L with fresh water that has none: at one go, and in
// changes of a fifth.
func ExampleFor() {
	left, err := dilution.For(40*units.MilligramPerLitre, 0, 10)
	if err != nil {
		fmt.Println(err)
		return
	}
	times, err := left.Times(units.Percent(20))
	fmt.Printf("%.0f %% at once, or %d changes of 20 %%, %v\n", left.Share().Percent(), times, err)
	// Output: 75 % at once, or 7 changes of 20 %, <nil>
}

// A tank makes 0.7 mg/L nitrate a day and gets 15 % new water every week:
// where does nitrate settle?
func ExamplePeriodic_Steady() {
	routine := dilution.Periodic[units.MassPerLitre]{
		Share:  units.Percent(15),
		Every:  7 * 24 * time.Hour,
		PerDay: 0.7 * units.MilligramPerLitre,
	}
	before, after, err := routine.Steady()
	fmt.Printf("%.1f mg/L before a change, %.1f after, %v\n", before.MilligramsPerLitre(), after.MilligramsPerLitre(), err)
	// Output: 32.7 mg/L before a change, 27.8 after, <nil>
}

// A 300 L tank at 35 loses 3 L a day while nobody tops it off: how long until
// 36.5?
func ExampleUnattended() {
	tank, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := dilution.Unattended(tank.OfVolume(300*units.Litre), 3*units.LitrePerDay, units.Practical(36.5))
	fmt.Printf("%.1f days %v\n", d.Hours()/24, err)
	// Output: 4.2 days <nil>
}

// One change with everything that was measured.
func ExamplePlanChange() {
	tank, err := seawater.FromPractical(units.Practical(35.4), units.Celsius(25.5))
	if err != nil {
		fmt.Println(err)
		return
	}
	batch, err := seawater.FromPractical(units.Practical(35), units.Celsius(24.5))
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := dilution.PlanChange(dilution.Change{
		Tank: tested.Water{
			Portion: tank.OfVolume(250 * units.Litre),
			Levels: tested.Levels{
				tested.AlkalinityOf(units.DKH(7.4)).In(tested.DKH),
				tested.Nitrate.Of(25*units.MilligramPerLitre, units.AsNitrate),
			},
		},
		Batch: tested.Water{
			Portion: batch.OfVolume(50 * units.Litre),
			Levels: tested.Levels{
				tested.AlkalinityOf(units.DKH(8.4)).In(tested.DKH),
				tested.Nitrate.Of(0*units.MilligramPerLitre, units.AsNitrate),
			},
		},
		Swap: 50 * units.Litre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range plan.Moves() {
		if m.After == m.After { // measured
			fmt.Printf("%-11s %6.2f -> %6.2f %s\n", m.Name, m.Before, m.After, m.Unit)
		}
	}
	// Output:
	// Salinity     35.40 ->  35.32 PSS-78
	// Temperature  25.50 ->  25.30 °C
	// Alkalinity    7.40 ->   7.60 dKH
	// Nitrate      25.00 ->  20.00 mg/L NO3
}

// Ninety litres of 25 for a quarantine tank, of tank water of 35 and pure water.
func ExampleBlendTo() {
	sea, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	pure, err := seawater.PureWater(units.Celsius(20))
	if err != nil {
		fmt.Println(err)
		return
	}
	salt, fresh, err := dilution.BlendTo(sea, pure, units.Practical(25), 90*units.Litre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f L of tank water and %.2f L of pure water\n", salt.Volume().Litres(), fresh.Volume().Litres())
	// Output: 63.84 L of tank water and 26.18 L of pure water
}

// Forty litres are drawn from a warm tank and replaced to the line with cool new water.
func ExampleRefill() {
	tank, err := seawater.FromPractical(units.Practical(36), units.Celsius(26))
	if err != nil {
		fmt.Println(err)
		return
	}
	fresh, err := seawater.FromPractical(units.Practical(34), units.Celsius(16))
	if err != nil {
		fmt.Println(err)
		return
	}
	poured, full, err := dilution.Refill(tank.OfVolume(200*units.Litre), fresh, 40*units.Litre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f L to the line of %.0f L: %.2f at %.1f °C\n", poured.Litres(), full.Volume().Litres(),
		full.Practical().Value(), full.Temperature().Celsius())
	// Output: 40.014 L to the line of 200 L: 35.60 at 24.0 °C
}

// The mean that animals live in, where bacteria take 2 % of the nitrate a day besides; and the
// share of the week that holds 20 mg/L on the evening of each change.
func ExamplePeriodic_Mean() {
	routine := dilution.Periodic[units.MassPerLitre]{
		Share:  units.Percent(15),
		Every:  7 * 24 * time.Hour,
		PerDay: 0.7 * units.MilligramPerLitre,
		Rate:   0.02,
	}
	mean, err := routine.Mean()
	if err != nil {
		fmt.Println(err)
		return
	}
	share, err := dilution.ShareToHoldAfter(0, routine.PerDay, 20*units.MilligramPerLitre, routine.Every)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("mean %.1f mg/L; %.1f %% a week hold 20 mg/L without the bacteria\n", mean.MilligramsPerLitre(), share.Percent())
	// Output: mean 16.2 mg/L; 19.7 % a week hold 20 mg/L without the bacteria
}
