package tested_test

import (
	"fmt"

	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// A tank, as it was tested; and after a night without top-off, filled up to its
// mark again.
func Example() {
	sea, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	tank := tested.Water{
		Portion: sea.OfVolume(200 * units.Litre),
		Carbon:  carbonate.PH(carbonate.PHTotal(8.1)),
		Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(8.2)).In(tested.DKH),
			tested.Nitrate.Of(24*units.MilligramPerLitre, units.AsNitrate),
		},
	}
	chemistry, _ := tank.Chemistry()
	fmt.Printf("aragonite %.1f\n", chemistry.Aragonite)

	low, _ := tank.Evaporate(3 * units.Litre)
	fmt.Printf("after a hot day: %.2f, %v\n", low.Portion.Practical().Value(), low.Levels[0])

	pure, _ := tested.Pure(1*units.Litre, units.Celsius(20))
	pour, _, _ := low.FillTo(200*units.Litre, pure)
	fmt.Printf("pour %.2f L\n", pour.Litres())
	// Output:
	// aragonite 4.7
	// after a hot day: 35.52, 8.32481 dKH
	// pour 3.00 L
}
