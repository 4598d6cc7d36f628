package dilution_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Hot water is for pouring together, not for tanks: nobody changes the water of one, or with it.
func TestHotTanksAreRefused(t *testing.T) {
	hot, err := seawater.HotWater(units.Absolute(35), units.Celsius(77))
	require.NoError(t, err)
	cool, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	require.NoError(t, err)
	const refused = ".temperature: 77 °C is outside -2 to 40 °C (IAPWS SR7-09; kettle water is made by HotWater)"
	_, err = dilution.Swap(hot.OfVolume(100), cool, 10)
	assert.EqualError(t, err, "tank"+refused)
	_, err = dilution.Swap(cool.OfVolume(100), hot, 10)
	assert.EqualError(t, err, "newWater"+refused)
	_, err = dilution.SwapToReach(hot.OfVolume(100), cool, units.Practical(35))
	assert.EqualError(t, err, "tank"+refused)
	_, err = dilution.Evaporate(hot.OfVolume(100), 1)
	assert.ErrorIs(t, err, units.ErrRange)
	assert.EqualError(t, tested.Water{Portion: hot.OfVolume(100)}.Check("tank"), "tank"+refused)
}
