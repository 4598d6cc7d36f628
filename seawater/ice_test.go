package seawater_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// By hand with handbook values: 100 g of ice at 0 °C, heat of melting 333.5 J/g, into 1 kg of water at 30 °C, 4.18
// J/(g K): (1000 · 30 · 4.18 - 100 · 333.5) / (1100 · 4.18) = 20.0 °C.
func TestMelt(t *testing.T) {
	after, err := seawater.Melt(hot(t, 0, 30).OfMass(1000), 100, units.Celsius(0))
	require.NoError(t, err)
	assert.InDelta(t, (1000*30*4.18-100*333.5)/(1100*4.18), after.Temperature().Celsius(), 0.05)
	assert.Equal(t, units.Mass(1100), after.Mass)

	// Colder ice takes 2.05 J/(g K) more (handbooks), seawater needs 3.99 J/(g K).
	sea := sample(t, 35, 27).OfMass(100 * units.Kilogram)
	after, err = seawater.Melt(sea, 5*units.Kilogram, units.Celsius(-18))
	require.NoError(t, err)
	drop := 5 * (18*2.05 + 333.5 + 27*4.18) / (100*3.99 + 5*4.18)
	assert.InDelta(t, 27-drop, after.Temperature().Celsius(), 0.05)
	checks.Relative(t, "salt", float64(after.Salt()), float64(sea.Salt()), 1e-14)

	same, err := seawater.Melt(sea, 0, units.Celsius(-18))
	require.NoError(t, err)
	assert.Equal(t, sea, same)
	from90, err := seawater.Melt(hot(t, 0, 90).OfMass(1000), 300, units.Celsius(0))
	require.NoError(t, err)
	assert.InDelta(t, (90*4.19-0.3*333.5)/(1.3*4.185), from90.Temperature().Celsius(), 0.3)
}

func TestMeltRefuses(t *testing.T) {
	sea := sample(t, 35, 20).OfMass(1000)
	melt := func(water seawater.Portion, ice units.Mass, at units.Temperature) error {
		p, err := seawater.Melt(water, ice, at)
		if err != nil {
			assert.True(t, math.IsNaN(float64(p.Volume())))
		}
		return err
	}
	cold := units.Celsius(-18)
	err := melt(sea, 1000, cold)
	assert.EqualError(t, err, "ice: got 1000 g, want at most the 0.236 kg that this water can melt")
	// By hand 1000 · 21.56 · 4.0/(18 · 2.05 + 333.5 - 1.56 · 4.2) = 237, and it can, just.
	just, err := seawater.Melt(sea, 236, cold)
	require.NoError(t, err)
	assert.InDelta(t, just.FreezingPoint().Celsius(), just.Temperature().Celsius(), 0.1)
	assert.Error(t, melt(sea, 237, cold))
	assert.ErrorIs(t, melt(sea, 10, units.Celsius(1)), units.ErrRange)
	assert.ErrorIs(t, melt(sea, 10, units.Celsius(math.NaN())), units.ErrRange)
	for _, bad := range []error{melt(seawater.Portion{}, 10, cold), melt(sea, -1, cold), melt(sea, units.Mass(math.NaN()), cold),
		melt(sea, units.Mass(math.Inf(1)), cold), melt(sea, 1e308, cold), melt(sea, 10, units.Temperature{}),
		melt(seawater.Blend(sea.OfMass(-1)), 10, cold)} {
		assert.Error(t, bad)
	}
}
