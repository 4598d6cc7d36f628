package mix_test

import (
	"fmt"
	"time"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Forty litres at 35 from a salt whose package promises 35 ppt from 38 g to the
// litre of water.
func ExamplePlan() {
	plan, err := mix.Plan(mix.Batch{
		Target:           units.Practical(35),
		Temperature:      units.Celsius(25),
		WaterTemperature: units.Celsius(18),
		Amount:           mix.FinalVolume(40 * units.Litre),
		Salt: mix.Salt{
			Label: mix.Label{
				PerLitreOfWater: 38 * units.GramPerLitre,
				Gives:           units.Practical(35),
				At:              units.Celsius(25),
			},
			BulkDensity: 1.1 * units.GramPerMillilitre,
		},
		Scoop: mix.Scoop{Volume: 120 * units.Millilitre},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f g of salt, %.1f scoops, into %.1f L of water\n", plan.Salt.Grams(), plan.Scoops, plan.Water.Litres())
	fmt.Printf("must read SG %.4f, %.1f mS/cm\n", plan.Reads.SpecificGravity.Ratio(), plan.Reads.Conductivity.MillisiemensPerCentimetre())
	// Output:
	// 1503 g of salt, 11.4 scoops, into 39.5 L of water
	// must read SG 1.0264, 53.1 mS/cm
}

// Water to the fill line of a bucket, then salt: where does the level end?
func ExampleWaterLevel() {
	bucket, err := mix.Bucket(26*units.Centimetre, 30*units.Centimetre, 37*units.Centimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := mix.Plan(mix.Batch{
		Target:           units.Practical(35),
		Temperature:      units.Celsius(25),
		WaterTemperature: units.Celsius(20),
		Amount:           mix.WaterLevel(31 * units.Centimetre),
		Salt:             mix.Salt{SeaSalt: units.Percent(94)},
		Vessel:           bucket,
	})
	fmt.Printf("%.0f g of salt, the level rises %.0f mm to %.1f cm, %v\n",
		plan.Salt.Grams(), plan.Rise.Millimetres(), plan.FinalLevel.Centimetres(), err)
	// Output: 724 g of salt, the level rises 4 mm to 31.4 cm, <nil>
}

// The batch reads 36.2 in a bucket that holds no more than 19 L.
func ExampleCorrect() {
	mixed, err := seawater.FromPractical(units.Practical(36.2), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := mix.Correct(mix.Mixed{
		Present:          mixed.OfVolume(18.8 * units.Litre),
		Target:           units.Practical(35),
		Salt:             mix.Salt{SeaSalt: units.Percent(94)},
		Most:             19 * units.Litre,
		WaterTemperature: units.Celsius(22),
	})
	fmt.Printf("take out %.2f L, add %.2f L of water, %v\n", c.Remove.Litres(), c.AddWater.Litres(), err)
	// Output: take out 0.45 L, add 0.65 L of water, <nil>
}

// Six scoops in 17 L gave 33.1: what does a scoop of this salt weigh?
func ExampleCalibrateScoop() {
	scoop, err := mix.CalibrateScoop(mix.PastBatch{
		Salt:             mix.Salt{SeaSalt: units.Percent(94)},
		Scoops:           6,
		Water:            17 * units.Litre,
		WaterTemperature: units.Celsius(21),
		Gave:             units.Practical(33.1),
	})
	fmt.Printf("%.0f g %v\n", scoop.Mass.Grams(), err)
	// Output: 104 g <nil>
}

// Forty litres from 18 to 25 °C with a 200 W heater in a bin that loses 3 W/K.
func ExampleHeat() {
	cold, err := seawater.FromPractical(units.Practical(35), units.Celsius(18))
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := mix.Heat(mix.Heating{
		Water:  cold.OfVolume(40 * units.Litre),
		To:     units.Celsius(25),
		Heater: 200 * units.Watt,
		Loss:   3 * units.WattPerKelvin,
		Room:   units.Celsius(19),
	})
	fmt.Printf("%v, then %.0f W to hold it, %v\n", p.Time.Round(5*time.Minute), p.Hold.Watts(), err)
	// Output: 1h40m0s, then 18 W to hold it, <nil>
}
