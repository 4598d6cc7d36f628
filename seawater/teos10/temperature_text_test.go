package teos10

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// The temperatures that no thermometer shows say which they are.
func TestTemperaturesAsText(t *testing.T) {
	ct, err := units.Parse[ConservativeTemperature]("-1.25 °C conservative")
	require.NoError(t, err)
	assert.Equal(t, Conservative(-1.25), ct)
	assert.Equal(t, "-1.25 °C conservative", ct.String())
	pt, err := units.Parse[PotentialTemperature]("19.8  C potential")
	require.NoError(t, err)
	assert.Equal(t, Potential(19.8), pt)
	for _, bad := range []string{"", "19.8", "19.8 °C", "19.8 °C potential", "NaN °C conservative", "Inf °C conservative", "20 °F conservative"} {
		ct, err := units.Parse[ConservativeTemperature](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.True(t, isNaN(ct.Celsius()), bad)
	}
	text, err := Potential(nan).MarshalText()
	require.NoError(t, err)
	assert.Empty(t, text)
	_, err = Potential(inf).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
}
