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

// The salt to weigh for 100 L, where the share of sea salt is known to a hundredth and the
// fill line to a fiftieth.
func ExampleBatch_SaltEstimate() {
	batch := mix.Batch{
		Target:           units.Practical(35),
		Temperature:      units.Celsius(25),
		Amount:           mix.FinalVolume(100 * units.Litre),
		Salt:             mix.Salt{SeaSalt: units.Percent(94)},
		WaterTemperature: units.Celsius(18),
	}
	e, err := batch.SaltEstimate(mix.Doubts{Water: units.Percent(2), SeaSalt: units.Percent(1)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f ± %.0f g, mostly because of %s\n", e.Value, e.Uncertainty, e.Mostly)
	// Output: 3828 ± 86 g, mostly because of water
}

// m = S ρ V/f for a volume of mix, and m = S M/(f - S) for a mass of water (balance of salt).
func TestSaltEstimate(t *testing.T) {
	batch := mix.Batch{
		Target: units.Practical(35), Temperature: units.Celsius(25), Amount: mix.FinalVolume(100), WaterTemperature: units.Celsius(18),
		Salt: mix.Salt{SeaSalt: units.Percent(90)},
	}
	const s = 0.03516504 // 35/35 of the reference salinity, Millero et al. 2008
	plan, err := mix.Plan(batch)
	require.NoError(t, err)
	check := func(want float64, d mix.Doubts) {
		t.Helper()
		e, err := batch.SaltEstimate(d)
		require.NoError(t, err)
		assert.InEpsilon(t, plan.Salt.Grams(), float64(e.Value), 1e-9)
		assert.InEpsilon(t, want, float64(e.Uncertainty/e.Value), 1e-6)
	}
	check(0.02, mix.Doubts{Water: units.Percent(2), Salt: units.Percent(5)})
	check((1/0.99-1/1.01)/2, mix.Doubts{SeaSalt: units.Percent(1)})
	batch.Amount = mix.WaterVolume(100)
	plan, err = mix.Plan(batch)
	require.NoError(t, err)
	check(0.02, mix.Doubts{Water: units.Percent(2)})
	check((1/(0.9*0.99-s)-1/(0.9*1.01-s))/2*(0.9-s), mix.Doubts{SeaSalt: units.Percent(1)})

	// An old mix in the vessel, read to 0.5: what it holds more needs not be added. m = (S L - s)/(f - S).
	old, err := seawater.FromPractical(units.Practical(20), units.Celsius(25))
	require.NoError(t, err)
	batch.Present = old.OfVolume(40)
	plan, err = mix.Plan(batch)
	require.NoError(t, err)
	e, err := batch.SaltEstimate(mix.Doubts{Present: units.Practical(0.5)})
	require.NoError(t, err)
	// Read saltier, the same 40 L are heavier too: β = 7.35e-4 per g/kg (TEOS-10 at 20 and 25 °C).
	more := 0.5 / 35 * s * batch.Present.Mass.Grams()
	liquid := more * (1 - 15./35*s*1000*7.35e-4)
	assert.InEpsilon(t, liquid/(0.9-s), float64(e.Uncertainty), 0.002)
	assert.Equal(t, "salinity present", e.Mostly)
	list, err := batch.Estimates(mix.Doubts{Present: units.Practical(0.5)})
	require.NoError(t, err)
	assert.InEpsilon(t, 35/s*liquid/plan.Mix.Mass.Grams(), float64(list[0].Uncertainty), 0.002)

	_, err = batch.SaltEstimate(mix.Doubts{Present: units.Practical(-1)})
	assert.ErrorContains(t, err, "doubts.salinity present")
	_, err = batch.SaltEstimate(mix.Doubts{Temperature: 500})
	assert.ErrorContains(t, err, "doubts")
	_, err = mix.Batch{}.SaltEstimate(mix.Doubts{})
	assert.ErrorIs(t, err, units.ErrInput)
}
