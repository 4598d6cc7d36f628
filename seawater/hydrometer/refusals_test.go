package hydrometer

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

// Every way into an instrument passes on what was refused below it.
func TestRefusalsArePassedOn(t *testing.T) {
	at, hot := units.Celsius(25), units.Celsius(60)
	boiled := Hydrometer{Pair: units.GravityPair{Liquid: at, Water: hot}, Expansion: Glass}
	_, err := boiled.Reading(standard, at)
	assert.ErrorIs(t, err, units.ErrRange, "water of the pair at 60 °C")

	rho, err := laboratory15.Reading(standard, hot)
	assert.ErrorIs(t, err, units.ErrRange)
	assert.True(t, math.IsNaN(float64(rho)))
	for _, reading := range []units.Density{500, 2000, units.Density(math.NaN())} {
		sa, err := laboratory15.Salinity(reading, at)
		assert.Error(t, err, reading)
		assert.True(t, math.IsNaN(sa.GramsPerKilogram()))
		sa, err = tube.Salinity(reading, at)
		assert.Error(t, err, reading)
		assert.True(t, math.IsNaN(sa.GramsPerKilogram()))
		sa, doubt, err := tube.Estimate(reading, at, Uncertainty{Reading: 0.1})
		assert.Error(t, err, reading)
		assert.True(t, math.IsNaN(sa.GramsPerKilogram()) && math.IsNaN(doubt.GramsPerKilogram()))
	}
}

// No body expands more than 0.002 1/K, which is petrol's; an offset beyond 5 % of pure
// water is a slip, and the sentence says how much that is (common practice).
func TestBoundsOfABody(t *testing.T) {
	at := units.Celsius(25)
	shown := func(e Expansion) error {
		_, err := Hydrometer{Pair: units.SG25C(), Expansion: e}.Reading(standard, at)
		return err
	}
	assert.NoError(t, shown(0.0019))
	assert.ErrorIs(t, shown(0.0021), units.ErrInput)
	_, err := Densitometer{Offset: 51}.Reading(standard, at)
	assert.ErrorContains(t, err, "within 50 of nothing")
}
