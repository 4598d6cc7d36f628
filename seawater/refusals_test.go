package seawater_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// A water that cannot be is no sample, whichever reading it was to be made of, and what
// is no water is not written.
func TestNoSample(t *testing.T) {
	for _, celsius := range []float64{-3, 41, math.NaN()} {
		_, err := seawater.FromConductivity(40*units.MillisiemensPerCentimetre, units.Celsius(celsius))
		assert.Error(t, err, celsius)
	}
	for _, c := range []units.Conductivity{-1, 300, units.Conductivity(math.NaN())} {
		s, err := seawater.FromConductivity(c, units.Celsius(25))
		assert.Error(t, err, c)
		assert.True(t, math.IsNaN(s.Practical().Value()))
	}
	sea, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	require.NoError(t, err)
	text, err := sea.OfMass(units.Mass(math.NaN())).MarshalText()
	assert.Error(t, err)
	assert.Empty(t, text)
	text, err = sea.OfMass(40).MarshalText()
	require.NoError(t, err)
	assert.Equal(t, "40 g of 35.16504 g/kg at 25 °C", string(text))
}
