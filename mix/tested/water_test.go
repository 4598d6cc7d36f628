package tested_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

func sea(t testing.TB, s, celsius float64) seawater.Sample {
	w, err := seawater.FromPractical(units.Practical(s), units.Celsius(celsius))
	require.NoError(t, err)
	return w
}

func reef(t testing.TB) tested.Water {
	return tested.Water{
		Portion: sea(t, 35, 25).OfVolume(200 * units.Litre),
		Carbon:  carbonate.PH(carbonate.PHTotal(8.1)),
		Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(8.2)).In(tested.DKH),
			tested.Calcium.Of(420*units.MilligramPerLitre, units.AsCalcium),
			tested.Nitrate.Of(24*units.MilligramPerLitre, units.AsNitrate),
			tested.Ammonia.Of(0.1*units.MilligramPerLitre, units.AsNitrogen),
		},
	}
}

// What goes in is there afterwards: amounts, mass and salt of random waters.
func TestBlendConserves(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range checks.Runs(500, 50) {
		a, b := reef(t), reef(t)
		a.Portion = sea(t, 40*random.Float64(), 5+30*random.Float64()).OfVolume(units.Volume(1 + 100*random.Float64()))
		b.Portion = sea(t, 40*random.Float64(), 5+30*random.Float64()).OfVolume(units.Volume(1 + 100*random.Float64()))
		b = b.With(tested.Nitrate.Of(units.MassPerLitre(10*random.Float64()), units.AsNitrogen))
		c := a.Blend(b)
		require.Len(t, c.Levels, 4)
		for _, p := range []tested.Parameter{tested.Alkalinity, tested.Calcium, tested.Nitrate, tested.Ammonia} {
			amount := func(w tested.Water) float64 { l, _ := w.Level(p); return l.Base() * w.Volume().Litres() }
			assert.InEpsilon(t, amount(a)+amount(b), amount(c), 1e-12, string(p))
		}
		mass := func(w tested.Water) float64 { return w.Portion.Mass.Grams() }
		assert.InEpsilon(t, mass(a)+mass(b), mass(c), 1e-14)
		carbon := func(w tested.Water) float64 {
			dic, err := w.DIC()
			require.NoError(t, err)
			return dic.MicromolesPerKilogram() * w.Portion.Mass.Kilograms()
		}
		assert.InEpsilon(t, carbon(a)+carbon(b), carbon(c), 1e-12)
	}
}

func TestBlendOfUnknown(t *testing.T) {
	pure, err := tested.Pure(50*units.Litre, units.Celsius(25))
	require.NoError(t, err)
	c := reef(t).Blend(pure)
	assert.Empty(t, c.Levels)
	assert.Equal(t, carbonate.Known{}, c.Carbon)
	assert.Equal(t, reef(t), reef(t).Blend(tested.Water{}))
}

func TestFillTo(t *testing.T) {
	low, err := reef(t).Evaporate(3 * units.Litre)
	require.NoError(t, err)
	assert.Greater(t, low.Portion.Practical().Value(), 35.4)
	rest, err := tested.Pure(1*units.Litre, units.Celsius(18))
	require.NoError(t, err)
	// Pure water holds none of what was tested.
	rest = rest.With(tested.AlkalinityOf(units.MilliequivalentsPerLitre(0)), tested.Calcium.Of(0, units.AsCalcium), tested.Nitrate.Of(0, units.AsNitrate), tested.Ammonia.Of(0, units.AsNitrogen))
	poured, full, err := low.FillTo(200*units.Litre, rest)
	require.NoError(t, err)
	assert.InDelta(t, 200, full.Volume().Litres(), 1e-9)
	assert.InDelta(t, 35, full.Portion.Practical().Value(), 2e-3) // the water was cooler, so a little more went in
	assert.InDelta(t, 2.99, poured.Litres(), 0.02)
	n, _ := full.Level(tested.Nitrate)
	assert.InDelta(t, 24, n.MassPerLitre().MilligramsPerLitre(), 1e-9)

	_, _, err = full.FillTo(190*units.Litre, rest)
	assert.ErrorContains(t, err, "above the mark there is nothing to top off")
	poured, same, err := full.FillTo(full.Volume(), rest)
	require.NoError(t, err)
	assert.Zero(t, poured)
	assert.Equal(t, full, same)
}

func TestEvaporateConserves(t *testing.T) {
	before := reef(t)
	after, err := before.Evaporate(10 * units.Litre)
	require.NoError(t, err)
	for _, p := range []tested.Parameter{tested.Alkalinity, tested.Nitrate} {
		a, _ := before.Level(p)
		b, _ := after.Level(p)
		assert.InEpsilon(t, a.Base()*before.Volume().Litres(), b.Base()*after.Volume().Litres(), 1e-13)
	}
	a, err := before.DIC()
	require.NoError(t, err)
	b, err := after.DIC()
	require.NoError(t, err)
	assert.InEpsilon(t, a.MicromolesPerKilogram()*before.Portion.Mass.Kilograms(), b.MicromolesPerKilogram()*after.Portion.Mass.Kilograms(), 1e-13)
	_, err = before.Evaporate(250 * units.Litre)
	assert.Error(t, err)
}

// The chemistry is that of the carbonate package for the same contents per
// kilogram.
func TestChemistry(t *testing.T) {
	w := reef(t)
	c, err := w.Chemistry()
	require.NoError(t, err)
	assert.InDelta(t, 8.1, c.PH.Value(), 1e-12)
	d := w.Portion.Density()
	k := carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{
		Calcium: carbonate.Measured(units.AsCalcium.AmountPerKilogram((420 * units.MilligramPerLitre).PerKilogram(d))),
	})
	s, err := k.Solve(carbonate.Alkalinity(units.DKH(8.2).PerKilogram(d)), carbonate.PH(carbonate.PHTotal(8.1)), carbonate.Nutrients{
		Ammonia: units.AsNitrogen.AmountPerKilogram((0.1 * units.MilligramPerLitre).PerKilogram(d)),
	})
	require.NoError(t, err)
	assert.InEpsilon(t, s.Aragonite(), float64(c.Aragonite), 1e-12)
	assert.InEpsilon(t, float64(s.PCO2()), float64(c.PCO2), 1e-12)
	want := 0.1 * 17.031 / 14.007 * s.FreeAmmonia().Value()
	assert.InEpsilon(t, want, c.FreeAmmonia.MassPerLitre().MilligramsPerLitre(), 1e-12)

	w.Carbon = carbonate.Known{}
	_, err = w.Chemistry()
	assert.ErrorContains(t, err, "one more thing than the alkalinity")
	_, err = tested.Water{Portion: w.Portion, Carbon: reef(t).Carbon}.Chemistry()
	assert.ErrorContains(t, err, "alkalinity")
}

func TestAtKeepsAmounts(t *testing.T) {
	cold, err := reef(t).At(units.Celsius(10))
	require.NoError(t, err)
	warm, err := cold.At(units.Celsius(25))
	require.NoError(t, err)
	c, err := warm.Chemistry()
	require.NoError(t, err)
	assert.InDelta(t, 8.1, c.PH.Value(), 1e-9)
	n, _ := warm.Level(tested.Nitrate)
	assert.InDelta(t, 24, n.MassPerLitre().MilligramsPerLitre(), 1e-9)
}

// A composition leads to the model and says the same as where it came from.
func TestFromComposition(t *testing.T) {
	c := ions.Reference(units.Practical(35))
	w, err := tested.FromComposition(c, 100*units.Litre, units.Celsius(25))
	require.NoError(t, err)
	assert.InDelta(t, 35, w.Portion.Practical().Value(), 1e-4)
	for _, p := range []tested.Parameter{tested.Calcium, tested.Magnesium, tested.Alkalinity, tested.Strontium} {
		l, tested := w.Level(p)
		require.True(t, tested, string(p))
		assert.InEpsilon(t, float64(p.In(c)), float64(l.AmountPerLitre().PerKilogram(c.Density(units.Celsius(25)))), 1e-12, string(p))
	}
	dic, err := w.DIC()
	require.NoError(t, err)
	assert.Equal(t, c.Carbon(), dic)
}

func TestWaterJSON(t *testing.T) {
	w := reef(t)
	w.Carbon = carbonate.Known{}
	text, err := json.Marshal(w)
	require.NoError(t, err)
	var back tested.Water
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, w.Levels, back.Levels)
	assert.Equal(t, w.Portion, back.Portion)
}

func TestNeverPanics(t *testing.T) {
	for _, w := range []tested.Water{{}, {Levels: tested.Levels{{}, {}}}, {Portion: seawater.Sample{}.OfMass(units.Mass(math.NaN()))}} {
		_, _ = w.Chemistry()
		_, _ = w.DIC()
		_, _ = w.Draw(1)
		_, _ = w.Evaporate(1)
		_, _, _ = w.FillTo(1, reef(t))
		_, _, _ = reef(t).FillTo(300, w)
		_, _ = w.At(units.Celsius(20))
		_ = reef(t).Blend(w)
		_ = w.Blend(reef(t))
		assert.Error(t, w.Check("tank"))
	}
}

func BenchmarkBlend(b *testing.B) {
	tank, batch := reef(b).OfVolume(150), reef(b).OfVolume(50)
	for _, w := range []*tested.Water{&tank, &batch} {
		dic, err := w.DIC()
		require.NoError(b, err)
		w.Carbon = carbonate.DIC(dic)
	}
	b.ReportAllocs()
	for b.Loop() {
		tank.Blend(batch)
	}
}
