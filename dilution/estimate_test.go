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
	level := func(mg float64) dilution.Levels {
		return dilution.Levels{Nitrate: dilution.Known(units.MassPerLitre(mg))}
	}
	change := dilution.Change{
		Tank:  dilution.State{Water: w.OfVolume(100 * units.Litre), Levels: level(40)},
		Batch: dilution.State{Water: w.OfVolume(50 * units.Litre), Levels: level(0)},
		Swap:  50 * units.Litre,
	}
	list, err := change.Estimates(dilution.Doubts{Tank: 10 * units.Percent, Levels: level(2)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range list {
		if e.Name == "Nitrate" {
			fmt.Printf("%.1f ± %.1f %s, mostly because of %s\n", e.Value, e.Uncertainty, e.Unit, e.Mostly)
		}
	}
	// Output: 20.0 ± 2.5 mg/L, mostly because of the volume of the tank
}

// The propagated uncertainty is that of a simulation (JCGM 101) within 5 %.
func TestEstimatesAgainstMonteCarlo(t *testing.T) {
	c := course(t)
	change := dilution.Change{Tank: c.Tank, Batch: c.Batch, Swap: 38}
	d := dilution.Doubts{
		Tank: 5 * units.Percent, Swap: 2 * units.Percent, Salinity: units.Practical(0.3), Temperature: 0.2, PH: 0.03,
		Levels: dilution.Levels{
			Alkalinity: dilution.Known(0.2 * units.DKH), Calcium: dilution.Known(8 * units.MilligramPerLitre),
			Ammonia: dilution.Known(0.01 * units.MilligramPerLitre),
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
	noisy := func(s dilution.State, ph float64) dilution.State {
		v := s.Water.Volume()
		w, err := seawater.FromPractical(units.Practical(s.Water.Practical().Value()+0.3*r.NormFloat64()), s.Water.Temperature().Add(units.TemperatureDifference(0.2*r.NormFloat64())))
		require.NoError(t, err)
		alk, _ := s.Alkalinity.Value()
		ca, _ := s.Calcium.Value()
		nh, _ := s.Ammonia.Value()
		s.Alkalinity = dilution.Known(alk + units.Alkalinity(0.2*r.NormFloat64())*units.DKH)
		s.Calcium = dilution.Known(ca + units.MassPerLitre(8*r.NormFloat64()))
		s.Ammonia = dilution.Known(units.MassPerLitre(math.Abs(float64(nh) + 0.01*r.NormFloat64())))
		s.DIC = dilution.Measured[units.AmountPerKilogram]{}
		old := s
		s.Water = old.Water // pH was read in the water as it was taken to be
		s, err = s.WithPH(carbonate.PHTotal(ph + 0.03*r.NormFloat64()))
		require.NoError(t, err)
		s.Water = w.OfVolume(v)
		return s
	}
	for range runs {
		m := dilution.Change{Tank: noisy(change.Tank, tankPH.PH.Value()), Batch: noisy(change.Batch, batchPH.PH.Value()), Swap: change.Swap * units.Volume(1+0.02*r.NormFloat64())}
		m.Tank.Water.Mass *= units.Mass(1 + 0.05*r.NormFloat64())
		m.Batch.Water.Mass *= 2
		p, err := dilution.PlanChange(m)
		require.NoError(t, err)
		i := 0
		for _, x := range p.Moves() {
			if math.IsNaN(x.After) {
				continue
			}
			sum[i] += x.After
			squares[i] += x.After * x.After
			i++
		}
		require.Len(t, list, i)
	}
	for i, e := range list {
		mean := sum[i] / float64(runs)
		if e.Name == "Ammonia" || e.Name == "Free ammonia" {
			continue // the batch has none, and its spread is one-sided
		}
		assert.InEpsilon(t, math.Sqrt(squares[i]/float64(runs)-mean*mean), e.Uncertainty, 0.05*wider, e.Name)
		assert.NotEmpty(t, e.Mostly)
	}
}

func TestEstimatesRefuse(t *testing.T) {
	c := course(t)
	change := dilution.Change{Tank: c.Tank, Batch: c.Batch, Swap: 30}
	for name, d := range map[string]dilution.Doubts{
		"negative": {Tank: -0.1},
		"NaN":      {PH: math.NaN()},
		"level":    {Levels: dilution.Levels{Nitrate: dilution.Known(-1 * units.MilligramPerLitre)}},
	} {
		_, err := change.Estimates(d)
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.ErrorContains(t, err, "doubts", name)
	}
	none, err := change.Estimates(dilution.Doubts{})
	require.NoError(t, err)
	for _, e := range none {
		assert.Zero(t, e.Uncertainty, e.Name)
		assert.Empty(t, e.Mostly)
	}
	change.Swap = 500
	_, err = change.Estimates(dilution.Doubts{})
	assert.ErrorIs(t, err, units.ErrInput)
}
