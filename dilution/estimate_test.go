package dilution_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Half of a tank of 100 L, give or take 10 L, is swapped: how sure is the nitrate
// afterwards?
func ExampleChange_Estimates() {
	w, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	level := func(mg float64) tested.Levels {
		return tested.Levels{tested.Nitrate.Of(units.MassPerLitre(mg), units.AsNitrate)}
	}
	change := dilution.Change{
		Tank:  tested.Water{Portion: w.OfVolume(100 * units.Litre), Levels: level(40)},
		Batch: tested.Water{Portion: w.OfVolume(50 * units.Litre), Levels: level(0)},
		Swap:  50 * units.Litre,
	}
	list, err := change.Estimates(dilution.Doubts{Tank: units.Percent(10), Levels: level(2)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range list {
		if e.Name == "Nitrate" {
			fmt.Printf("%.1f ± %.1f %s, mostly because of %s\n", e.Value, e.Uncertainty, e.Unit, e.Mostly)
		}
	}
	// Output: 20.0 ± 2.5 mg/L NO3, mostly because of the volume of the tank
}

// The propagated uncertainty is that of a simulation (JCGM 101) within 5 %.
func TestEstimatesAgainstMonteCarlo(t *testing.T) {
	c := course(t)
	change := dilution.Change{Tank: c.Tank, Batch: c.Batch, Swap: 38}
	d := dilution.Doubts{
		Tank: units.Percent(5), Swap: units.Percent(2), Salinity: units.Practical(0.3), Temperature: 0.2, PH: 0.03,
		Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(0.2)).In(tested.DKH), tested.Calcium.Of(8*units.MilligramPerLitre, units.AsCalcium),
			tested.Ammonia.Of(0.01*units.MilligramPerLitre, units.AsNitrogen),
		},
	}
	list, err := change.Estimates(d)
	require.NoError(t, err)

	r := rand.New(rand.NewPCG(3, 4))
	runs, wider := checks.Draws(6000)
	var sum, squares [20]float64
	tankPH, err := change.Tank.Chemistry()
	require.NoError(t, err)
	batchPH, err := change.Batch.Chemistry()
	require.NoError(t, err)
	noisy := func(s tested.Water, ph float64) tested.Water {
		v := s.Portion.Volume()
		w, err := seawater.FromPractical(units.Practical(s.Portion.Practical().Value()+0.3*r.NormFloat64()), s.Portion.Temperature().Add(units.TemperatureDifference(0.2*r.NormFloat64())))
		require.NoError(t, err)
		alk, _ := alkalinityIn(s)
		ca, _ := massIn(s, tested.Calcium)
		nh, _ := massIn(s, tested.Ammonia)
		s = s.With(tested.AlkalinityOf(units.MilliequivalentsPerLitre(alk.MilliequivalentsPerLitre() + units.DKH((0.2 * r.NormFloat64())).MilliequivalentsPerLitre())).In(tested.DKH))
		s = s.With(tested.Calcium.Of(ca+units.MassPerLitre(8*r.NormFloat64()), units.AsCalcium))
		s = s.With(tested.Ammonia.Of(units.MassPerLitre(math.Abs(float64(nh)+0.01*r.NormFloat64())), units.AsNitrogen))
		s.Carbon = carbonate.PH(carbonate.PHTotal(ph + 0.03*r.NormFloat64())) // read in the water as it was taken to be
		s, err = s.WithDIC()
		require.NoError(t, err)
		s.Portion = w.OfVolume(v)
		return s
	}
	for range runs {
		m := dilution.Change{Tank: noisy(change.Tank, tankPH.PH.Value()), Batch: noisy(change.Batch, batchPH.PH.Value()), Swap: change.Swap * units.Volume(1+0.02*r.NormFloat64())}
		m.Tank.Portion.Mass *= units.Mass(1 + 0.05*r.NormFloat64())
		m.Batch.Portion.Mass *= 2
		p, err := dilution.PlanChange(m)
		require.NoError(t, err)
		i := 0
		for _, x := range p.Moves() {
			if math.IsNaN(float64(x.After)) {
				continue
			}
			sum[i] += float64(x.After)
			squares[i] += float64(x.After * x.After)
			i++
		}
		require.Len(t, list, i)
	}
	for i, e := range list {
		mean := sum[i] / float64(runs)
		if e.Name == "Ammonia" || e.Name == "Free ammonia" {
			continue // the batch has none, and its spread is one-sided
		}
		assert.InEpsilon(t, math.Sqrt(squares[i]/float64(runs)-mean*mean), float64(e.Uncertainty), 0.05*wider, e.Name)
		assert.NotEmpty(t, e.Mostly)
	}
}

func TestEstimatesRefuse(t *testing.T) {
	c := course(t)
	change := dilution.Change{Tank: c.Tank, Batch: c.Batch, Swap: 30}
	for name, d := range map[string]dilution.Doubts{
		"negative": {Tank: units.Share(-0.1)},
		"NaN":      {PH: math.NaN()},
		"level":    {Levels: tested.Levels{tested.Nitrate.Of(-1*units.MilligramPerLitre, units.AsNitrate)}},
	} {
		_, err := change.Estimates(d)
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.ErrorContains(t, err, "doubts", name)
	}
	none, err := change.Estimates(dilution.Doubts{})
	require.NoError(t, err)
	for _, e := range none {
		assert.Zero(t, float64(e.Uncertainty), e.Name)
		assert.Empty(t, e.Mostly)
	}
	change.Swap = 500
	_, err = change.Estimates(dilution.Doubts{})
	assert.ErrorIs(t, err, units.ErrInput)
}
