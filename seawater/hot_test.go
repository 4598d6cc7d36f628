package seawater_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

func hot(t *testing.T, salinity, celsius float64) seawater.Sample {
	t.Helper()
	s, err := seawater.HotWater(units.Absolute(salinity), units.Celsius(celsius))
	require.NoError(t, err)
	return s
}

func TestHotWater(t *testing.T) {
	kettle := hot(t, 0, 95)
	assert.Equal(t, teos10.HotDensity(units.Absolute(0), units.Celsius(95)), kettle.Density())
	assert.Equal(t, teos10.HotHeatCapacity(units.Absolute(0), units.Celsius(95)), kettle.HeatCapacity())
	for _, x := range []float64{float64(kettle.Conductivity()), kettle.ThermalExpansion(), kettle.HalineContraction(),
		float64(kettle.OsmoticPressure()), float64(kettle.SoundSpeed()), kettle.EvaporationHeat()} {
		assert.True(t, math.IsNaN(x), "no formula reaches there")
	}
	assert.False(t, math.IsNaN(kettle.Viscosity()))
	assert.ErrorIs(t, kettle.CheckTank(), units.ErrRange)
	assert.NoError(t, sample(t, 35, 25).CheckTank())
	assert.Equal(t, sample(t, 35, 40), hot(t, 35.16504, 40), "up to 40 °C it is any water")
	for _, bad := range [][2]float64{{0, 100.1}, {1, 80.1}, {121, 60}, {-1, 60}, {math.NaN(), 60}, {0, math.Inf(1)}, {0, math.NaN()}, {0, -3}} {
		s, err := seawater.HotWater(units.Absolute(bad[0]), units.Celsius(bad[1]))
		assert.ErrorIs(t, err, units.ErrRange, "%v", bad)
		assert.True(t, math.IsNaN(float64(s.Density())))
	}
	_, err := seawater.HotWater(units.Absolute(0), units.Temperature{})
	assert.ErrorIs(t, err, units.ErrInput)
}

func TestHotWaterAsText(t *testing.T) {
	for _, s := range []seawater.Sample{hot(t, 0, 95), hot(t, 35.16504, 60)} {
		text, err := s.MarshalText()
		require.NoError(t, err)
		var back seawater.Sample
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, s, back)
	}
	assert.Equal(t, "0 g/kg at 95 °C, hot", hot(t, 0, 95).String())
	var s seawater.Sample
	require.NoError(t, s.UnmarshalText([]byte("35 ppt at 60 °C, hot")))
	assert.Equal(t, 60., s.Temperature().Celsius())
	assert.ErrorIs(t, s.UnmarshalText([]byte("35 ppt at 77 °C")), units.ErrRange, "77 °F by a slip")
	assert.ErrorIs(t, s.UnmarshalText([]byte("43 ppt at 60 °C, hot")), units.ErrRange)
	assert.ErrorIs(t, s.UnmarshalText([]byte("35 ppt at 90 °C, hot")), units.ErrRange)
}

// Heat is not lost where the two formulations meet, and a blend lies where a calorimeter would find it: the mean of the
// temperatures weighted with the heat capacities in between, by handbook values 4.187 and 4.204 kJ/(kg K).
func TestBlendOfHotAndCold(t *testing.T) {
	half := seawater.Blend(hot(t, 0, 90).OfMass(1000), hot(t, 0, 10).OfMass(1000))
	assert.InDelta(t, 50.06, half.Temperature().Celsius(), 0.03)
	r := rand.New(rand.NewPCG(3, 4))
	for range checks.Runs(500, 50) {
		s := 120 * r.Float64()
		a, b := hot(t, s, 80*r.Float64()).OfMass(units.Mass(1+r.Float64())), hot(t, s, 80*r.Float64()).OfMass(units.Mass(1+r.Float64()))
		c := hot(t, s, 80*r.Float64()).OfMass(1)
		all, stepwise := seawater.Blend(a, b, c), seawater.Blend(seawater.Blend(a, b), c)
		assert.InDelta(t, all.Temperature().Celsius(), stepwise.Temperature().Celsius(), 1e-9)
		pair := seawater.Blend(a, b).Temperature().Celsius()
		assert.GreaterOrEqual(t, pair, min(a.Temperature().Celsius(), b.Temperature().Celsius())-1e-9)
		assert.LessOrEqual(t, pair, max(a.Temperature().Celsius(), b.Temperature().Celsius())+1e-9)
	}
}
