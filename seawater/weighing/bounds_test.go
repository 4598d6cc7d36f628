package weighing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

// Bounds of what is taken for a vessel, a room, and air (common practice): the last that
// is taken and the first that is not.
func TestBounds(t *testing.T) {
	room := func(celsius float64, p units.AirPressure) error {
		_, _, err := Dispensed(units.Kilogram, standard, units.Celsius(20), Air{units.Celsius(celsius), p, units.Share(0.5)}, Uncertainty{Reading: 1})
		return err
	}
	assert.NoError(t, room(39.9, units.Atmosphere))
	assert.Error(t, room(40.1, units.Atmosphere))
	assert.Error(t, room(-0.1, units.Atmosphere))

	air := func(p units.AirPressure) float64 {
		return float64(Air{units.Celsius(20), p, units.Share(0.5)}.Density())
	}
	assert.False(t, math.IsNaN(air(10000)))
	assert.True(t, math.IsNaN(air(10001)))

	vessel := func(e Expansion) error {
		_, err := Flask{Vessel{units.Litre, units.Celsius(20), e}, StandardAir()}.Salinity(1.02*units.Kilogram, units.Celsius(20))
		return err
	}
	assert.NoError(t, vessel(0.0019))
	assert.ErrorIs(t, vessel(0.0021), units.ErrInput)
}
