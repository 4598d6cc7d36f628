package mix_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// A batch by fill line and scoop: how sure is its salinity?
func ExampleBatch_Estimates() {
	batch := mix.Batch{
		Target:           units.Practical(35),
		Temperature:      units.Celsius(25),
		Amount:           mix.WaterVolume(40 * units.Litre),
		Salt:             mix.Salt{Name: "house blend", SeaSalt: units.Percent(94)},
		WaterTemperature: units.Celsius(18),
	}
	list, err := batch.Estimates(mix.Doubts{Salt: units.Percent(4), Water: units.Percent(3)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s %.1f ± %.1f, mostly because of %s\n", list[0].Name, list[0].Value, list[0].Uncertainty, list[0].Mostly)
	// Output: Salinity 35.0 ± 1.7, mostly because of salt
}

func TestEstimatesAgainstMonteCarlo(t *testing.T) {
	batch := mix.Batch{
		Target: units.Practical(34), Temperature: units.Celsius(25), Amount: mix.FinalVolume(60), WaterTemperature: units.Celsius(15),
		Salt: mix.Salt{SeaSalt: units.Percent(92)},
	}
	d := mix.Doubts{Salt: units.Percent(2), Water: units.Percent(1), SeaSalt: units.Percent(1), Temperature: 0.5}
	list, err := batch.Estimates(d)
	require.NoError(t, err)
	p, err := mix.Plan(batch)
	require.NoError(t, err)
	r := rand.New(rand.NewPCG(5, 6))
	runs, wider := checks.Draws(20000)
	var sum, squares [3]float64
	for range runs {
		m := float64(p.Salt) * (1 + 0.02*r.NormFloat64())
		w := float64(p.WaterMass) * (1 + 0.01*r.NormFloat64())
		s, err := seawater.FromAbsolute(units.Absolute(m*0.92*(1+0.01*r.NormFloat64())/(m+w)*1000), units.Celsius(25+0.5*r.NormFloat64()))
		require.NoError(t, err)
		for i, x := range []float64{s.Practical().Value(), s.SpecificGravity(units.SG25C()).Ratio(), s.OfMass(units.Mass(m + w)).Volume().Litres()} {
			sum[i] += x
			squares[i] += x * x
		}
	}
	for i, e := range list {
		mean := sum[i] / float64(runs)
		assert.InEpsilon(t, math.Sqrt(squares[i]/float64(runs)-mean*mean), float64(e.Uncertainty), 0.05*wider, e.Name)
	}

	_, err = batch.Estimates(mix.Doubts{Salt: units.Share(-1)})
	assert.EqualError(t, err, "doubts.salt: got -1, want zero or more")
	_, err = batch.Estimates(mix.Doubts{Salt: units.Share(5)})
	assert.ErrorContains(t, err, "doubts")
	batch.Salt = mix.Salt{}
	_, err = batch.Estimates(d)
	assert.Error(t, err)
}
