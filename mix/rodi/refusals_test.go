package rodi_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/units"
)

// As much chlorine as chloramine is not none of both, and uses the carbon of both.
func TestCarbonForBoth(t *testing.T) {
	c := rodi.Carbon{Bed: 1, Chlorine: 100 * units.Gram, Chloramine: 50 * units.Gram}
	both, err := c.Lasts(2*units.MilligramPerLitre, 2*units.MilligramPerLitre)
	assert.NoError(t, err)
	assert.InEpsilon(t, 1/(0.002/100+0.002/50), both.Litres(), 1e-12)
}

// What is wrong with a stage is refused by whatever asks it.
func TestRefusalsOfStages(t *testing.T) {
	for _, c := range []rodi.Carbon{
		{Bed: -1}, {Chlorine: -1}, {Chloramine: units.Mass(math.NaN())}, {Price: units.Money{Amount: -1, Currency: "EUR"}},
	} {
		_, err := c.Lasts(1, 0)
		assert.ErrorIs(t, err, units.ErrInput, "%+v", c)
	}
	r, doubt, err := rodi.Rejection(units.TDSReading(240, 0.5), units.TDSReading(-9, 0.5), 1)
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(float64(r)) && math.IsNaN(float64(doubt)))
	for _, k := range []rodi.FluxConstants{{Cold: -1, Warm: 3000}, {Cold: 10001, Warm: 3000}, {Cold: 2640, Warm: -1}, {Cold: 2640, Warm: 10001}} {
		system, feed := house()
		system.Membrane.Flux = k
		_, err := system.Produce(feed)
		assert.ErrorIs(t, err, units.ErrInput, "%+v", k)
	}
}
