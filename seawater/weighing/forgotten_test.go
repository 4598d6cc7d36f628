package weighing

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

// A temperature that nobody set is refused, of the water, of the air and of the
// vessel, and a freezing point that was set is not.
func TestForgottenTemperature(t *testing.T) {
	var none units.Temperature
	at, ice := units.Celsius(20), units.Celsius(0)
	refused := func(err error, x float64, want string) {
		t.Helper()
		assert.EqualError(t, err, want)
		assert.True(t, math.IsNaN(x))
	}
	const want = "temperature: got nothing, want a temperature"
	m, err := flask.Reading(standard, none)
	refused(err, m.Grams(), want)
	sa, err := flask.Salinity(1020, none)
	refused(err, sa.GramsPerKilogram(), want)
	f, err := flask.Calibrated(996, units.Absolute(0), none)
	refused(err, f.Vessel.Capacity.Litres(), want)
	v, _, err := Dispensed(1020, standard, none, StandardAir(), Uncertainty{})
	refused(err, v.Litres(), want)

	air := Air{Pressure: units.Atmosphere, Humidity: units.Share(0.5)}
	v, _, err = Dispensed(1020, standard, at, air, Uncertainty{})
	refused(err, v.Litres(), "air.temperature: got nothing, want a temperature")
	m, err = Flask{Vessel: flask.Vessel, Air: air}.Reading(standard, at)
	refused(err, m.Grams(), "air.temperature: got nothing, want a temperature")
	body := flask.Vessel
	body.At = none
	m, err = Flask{Vessel: body, Air: flask.Air}.Reading(standard, at)
	refused(err, m.Grams(), "at: got nothing, want the temperature for which the capacity is said, such as 20 °C")

	body.At, air.Temperature = ice, ice
	_, err = Flask{Vessel: body, Air: air}.Reading(standard, ice)
	assert.NoError(t, err)
}

func TestNoSuchThing(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	// Saturated at 100 °C the vapour has 1014 hPa.
	assert.True(t, math.IsNaN(float64(Air{units.Celsius(100), 900, units.Share(1)}.Density())))
	assert.False(t, math.IsNaN(float64(Air{units.Celsius(100), 900, units.Share(0.5)}.Density())))
	for _, bad := range []units.Mass{units.Mass(inf), units.Mass(-inf), units.Mass(nan)} {
		assert.True(t, math.IsNaN(TrueMass(bad, 1000, 1.2).Grams()))
		assert.True(t, math.IsNaN(Shown(bad, 1000, 1.2).Grams()))
		assert.True(t, math.IsNaN(Volume(bad, 1000, 1.2).Litres()))
	}
	at := units.Celsius(20)
	for _, v := range []Vessel{{}, {-1, at, PVC}, {units.Volume(inf), at, PVC}, {units.Volume(nan), at, PVC}, {1, at, -PVC}, {1, at, Expansion(nan)}, {1, units.Celsius(nan), PVC}} {
		assert.True(t, math.IsNaN(v.Volume(units.Celsius(25)).Litres()), "%v", v)
	}
	assert.True(t, math.IsNaN(Vessel{1, at, 0.002}.Volume(units.Celsius(-500)).Litres()), "shrunk to nothing")
	assert.True(t, math.IsNaN(Vessel{1, at, PVC}.Volume(units.Celsius(nan)).Litres()))
}
