package spread_test

import (
	"fmt"
	"math"
	"math/rand/v2"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/units"
	"example.org/wellmixed/units/spread"
)

// How sure is the salt to weigh for a bucket that is filled to 1.5 % of its volume and
// warmed to a degree, of a salt that may have drawn half a per cent of water?
func ExampleOf() {
	x := []float64{float64(40 * units.Litre), 25, 0.90}
	u := []float64{float64(0.6 * units.Litre), 1, 0.005}
	salt := func() float64 {
		plan, err := mix.Plan(mix.Batch{
			Salt:             mix.Salt{SeaSalt: units.Share(x[2])},
			Target:           units.Practical(35),
			Temperature:      units.Celsius(x[1]),
			Amount:           mix.FinalVolume(units.Volume(x[0])),
			WaterTemperature: units.Celsius(18),
		})
		if err != nil {
			return math.NaN() // such as more sea salt than product
		}
		return plan.Salt.Grams()
	}
	grams, uncertainty, most := spread.Of(x, u, salt)
	fmt.Printf("%.0f ± %.0f g, mostly by the %s\n", grams, uncertainty, []string{"volume", "temperature", "salt"}[most])

	draws := make([]float64, 2000)
	mean, deviation := spread.Draw(draws, x, u, rand.New(rand.NewPCG(7, 11)).NormFloat64, salt)
	low, high := spread.Within(draws, 0.95)
	fmt.Printf("by 2000 draws %.0f ± %.0f g, 95 %% of them from %.0f to %.0f g\n", mean, deviation, low, high)
	// Output:
	// 1599 ± 26 g, mostly by the volume
	// by 2000 draws 1600 ± 25 g, 95 % of them from 1552 to 1650 g
}
