package dilution_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/advice"
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
	list, err := change.Estimates(dilution.Doubts{
		Volume: units.Percent(10),
		Tank:   tested.Doubts{Levels: level(2)}, // the batch has none for certain
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, e := range list {
		if e.Name == "Nitrate" {
			fmt.Printf("%.1f ± %.1f %s, mostly because of %s\n", e.Value, e.Uncertainty, e.Unit, e.Mostly)
		}
	}
	// Output: 20.0 ± 2.3 mg/L NO3, mostly because of the volume of the tank
}

// The propagated uncertainty is that of a simulation (JCGM 101) within 5 %.
func TestEstimatesAgainstMonteCarlo(t *testing.T) {
	c := course(t)
	change := dilution.Change{Tank: c.Tank, Batch: c.Batch, Swap: 38}
	d := dilution.Doubts{
		Volume: units.Percent(5), Swap: units.Percent(2),
		Tank: tested.Doubts{
			Salinity: units.Practical(0.3), Temperature: 0.2, PH: 0.03,
			Levels: tested.Levels{
				tested.AlkalinityOf(units.DKH(0.2)).In(tested.DKH), tested.Calcium.Of(8*units.MilligramPerLitre, units.AsCalcium),
				tested.Ammonia.Of(0.01*units.MilligramPerLitre, units.AsNitrogen),
			},
		},
	}
	d.Batch = d.Tank
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

// What each reading makes of a result, by the balance N' = N(1 - x) + n x of two waters of one
// salinity, with x the share (JCGM 100, 5.1.2): tank and batch err apart.
func TestEstimatesOfEachWater(t *testing.T) {
	w, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	require.NoError(t, err)
	calcium := func(mg float64) tested.Levels {
		return tested.Levels{tested.Calcium.Of(units.MassPerLitre(mg), units.AsCalcium)}
	}
	change := dilution.Change{
		Tank:  tested.Water{Portion: w.OfVolume(100 * units.Litre), Levels: calcium(390)},
		Batch: tested.Water{Portion: w.OfVolume(30 * units.Litre), Levels: calcium(440)},
		Swap:  20 * units.Litre,
	}
	for _, u := range [...]struct{ tank, batch, volume, want float64 }{
		{15, 2, 0, math.Hypot(0.8*15, 0.2*2)},
		{2, 15, 0, math.Hypot(0.8*2, 0.2*15)},
		{15, 0, 0, 0.8 * 15},
		{0, 15, 0, 0.2 * 15},
		{0, 0, 0.05, 0.5 * (50*0.2/0.95 - 50*0.2/1.05)},
	} {
		list, err := change.Estimates(dilution.Doubts{
			Volume: units.Share(u.volume),
			Tank:   tested.Doubts{Levels: calcium(u.tank)}, Batch: tested.Doubts{Levels: calcium(u.batch)},
		})
		require.NoError(t, err)
		i := slices.IndexFunc(list, func(e advice.Estimate) bool { return e.Name == "Calcium" })
		assert.InEpsilon(t, u.want, float64(list[i].Uncertainty), 1e-9)
		assert.InEpsilon(t, 400, float64(list[i].Value), 1e-12)
	}
}

func TestEstimatesRefuse(t *testing.T) {
	c := course(t)
	change := dilution.Change{Tank: c.Tank, Batch: c.Batch, Swap: 30}
	for name, d := range map[string]dilution.Doubts{
		"negative": {Volume: units.Share(-0.1)},
		"NaN":      {Tank: tested.Doubts{PH: math.NaN()}},
		"level":    {Batch: tested.Doubts{Levels: tested.Levels{tested.Nitrate.Of(-1*units.MilligramPerLitre, units.AsNitrate)}}},
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

// A tank of about 300 L, give or take 30, is to rise from 33 to 34 by weighed salt; then the
// two readings, each to 0.05, tell its volume.
func ExampleTracer_ToAdd() {
	tracer := dilution.Tracer{
		Salt:   mix.Salt{SeaSalt: units.Percent(95)},
		Before: units.Practical(33), After: units.Practical(34), Reading: units.Practical(0.05),
		Temperature: units.Celsius(25),
	}
	d := dilution.TracerDoubts{Tank: units.Percent(10), Added: units.Percent(0.3), SeaSalt: units.Percent(1)}
	salt, err := tracer.ToAdd(300*units.Litre, d)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("weigh %.0f g; what would be right is within %.0f g of it\n", salt.Value, salt.Uncertainty)
	tracer.Added = 330 * units.Gram
	tracer.After = units.Practical(34.06)
	v, err := tracer.Estimate(d)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f ± %.0f L, mostly because of %s\n", v.Value, v.Uncertainty, v.Mostly)
	// Output:
	// weigh 336 g; what would be right is within 38 g of it
	// 278 ± 19 L, mostly because of the salinity after
}

// With M = m (f - S1)/(S1 - S0), the mass counts once and the share f/(f - S1) times.
func TestTracerEstimates(t *testing.T) {
	tracer := dilution.Tracer{
		Salt: mix.Salt{SeaSalt: units.Percent(95)}, Added: 600,
		Before: units.Practical(33), After: units.Practical(35), Reading: units.Practical(0.01), Temperature: units.Celsius(25),
	}
	v, u, err := tracer.Volume()
	require.NoError(t, err)
	e, err := tracer.Estimate(dilution.TracerDoubts{})
	require.NoError(t, err)
	assert.InEpsilon(t, v.Litres(), float64(e.Value), 1e-12)
	assert.InEpsilon(t, u.Litres(), float64(e.Uncertainty), 2e-3)

	const s = 0.03516504 // at 35, Millero et al. 2008
	tracer.Reading = units.Practical(0)
	e, err = tracer.Estimate(dilution.TracerDoubts{Added: units.Percent(2), SeaSalt: units.Percent(1)})
	require.NoError(t, err)
	assert.InEpsilon(t, math.Hypot(0.02, 0.01*0.95/(0.95-s)), float64(e.Uncertainty/e.Value), 1e-9)
	assert.Equal(t, "the mass of salt", e.Mostly)

	m, err := tracer.ToAdd(v, dilution.TracerDoubts{Tank: units.Percent(10)})
	require.NoError(t, err)
	assert.InEpsilon(t, 600, float64(m.Value), 1e-12)
	assert.InEpsilon(t, 60, float64(m.Uncertainty), 1e-9)

	_, err = tracer.Estimate(dilution.TracerDoubts{Added: units.Share(-1)})
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = tracer.ToAdd(0, dilution.TracerDoubts{})
	assert.ErrorContains(t, err, "about")
	tracer.Salt = mix.Salt{}
	_, err = tracer.Estimate(dilution.TracerDoubts{})
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = tracer.ToAdd(100, dilution.TracerDoubts{})
	assert.ErrorIs(t, err, units.ErrInput)
}
