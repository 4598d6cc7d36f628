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

// Ten litres of 25 °C, from a kettle at 95 °C and a tap at 12 °C; and the
// tank of 200 L that stands at 29 °C on a summer day, to be brought to 28 °C with ice of purified water
// out of the freezer, loose or in a bottle.
func Example_kettleAndIce() {
	kettle, err := seawater.HotWater(units.Absolute(0), units.Celsius(95))
	if err != nil {
		fmt.Println(err)
		return
	}
	tap, err := seawater.PureWater(units.Celsius(12))
	if err != nil {
		fmt.Println(err)
		return
	}
	warm, err := mix.Temper(mix.Tempering{
		Hot: kettle, Cold: tap, Want: units.Celsius(25), Total: 10 * units.Litre,
	})
	fmt.Printf("%.2f L cold, then %.2f L of the kettle, %v: %s\n",
		warm.Cold.Litres(), warm.Hot.Litres(), err, warm.Cautions[0].ID)

	tank, err := seawater.FromPractical(units.Practical(35), units.Celsius(29))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, bag := range []bool{false, true} {
		p, err := mix.Chill(mix.Chilling{
			Water: tank.OfVolume(200 * units.Litre),
			To:    units.Celsius(28),
			Ice:   units.Celsius(-18),
			Bag:   bag,
		})
		fmt.Printf("bag %-5v %.2f kg of ice, afterwards %.2f L of %.2f, %v\n",
			bag, p.Ice.Kilograms(), p.Volume.Litres(), p.Mix.Practical().Value(), err)
	}
	// Output:
	// 8.41 L cold, then 1.62 L of the kettle, <nil>: scalds
	// bag false 1.68 kg of ice, afterwards 201.62 L of 34.72, <nil>
	// bag true  1.68 kg of ice, afterwards 199.94 L of 35.00, <nil>
}

// A tank fell from 25.5 to 24.1 °C in a night of eight hours with the heater unplugged, in a room
// of 19 °C. How long does a power cut take to bring it to 22 °C in a room of 15 °C, and how long with
// blankets around it that halve the loss?
func ExampleDrift() {
	sea, err := seawater.FromPractical(units.Practical(35), units.Celsius(25.5))
	if err != nil {
		fmt.Println(err)
		return
	}
	tank := sea.OfVolume(250 * units.Litre)
	found, err := mix.LossOf(mix.Cooled{
		Water: tank, To: units.Celsius(24.1), In: 8 * time.Hour, Room: units.Celsius(19),
		Doubt: 0.1,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("it loses %.0f ± %.0f W/K\n", found.Loss.WattsPerKelvin(), found.Uncertainty.WattsPerKelvin())
	for _, loss := range []units.ThermalConductance{found.Loss, found.Loss / 2} {
		p, err := mix.Drift(mix.Drifting{Water: tank, Room: units.Celsius(15), Loss: loss, To: units.Celsius(22)})
		fmt.Printf("%.1f hours to 22 °C, %v\n", p.Time.Hours(), err)
	}
	// Output:
	// it loses 9 ± 1 W/K
	// 13.4 hours to 22 °C, <nil>
	// 26.7 hours to 22 °C, <nil>
}

// A bin of 100 L at 35 stands outdoors at -3 °C.
func ExampleFreeze() {
	sea, err := seawater.FromPractical(units.Practical(35), units.Celsius(8))
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := mix.Freeze(mix.Freezing{Water: sea.OfVolume(100 * units.Litre), Coldest: units.Celsius(-3)})
	fmt.Printf("from %.2f °C on; at the most %.0f %% are ice, and what is left has %.0f g/kg, %v\n",
		p.Point.Celsius(), p.Share.Percent(), p.Salinity.GramsPerKilogram(), err)
	// Output: from -1.92 °C on; at the most 34 % are ice, and what is left has 54 g/kg, <nil>
}
