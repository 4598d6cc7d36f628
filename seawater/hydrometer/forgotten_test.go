package hydrometer

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// A temperature that nobody set is refused wherever an instrument needs one, and
// a freezing point that was set is not.
func TestForgottenTemperature(t *testing.T) {
	var none units.Temperature
	at, ice := units.Celsius(20), units.Celsius(0)
	const want = "temperature: got nothing, want a temperature"
	refused := func(err error, x float64, want string) {
		t.Helper()
		assert.EqualError(t, err, want)
		assert.True(t, math.IsNaN(x))
	}
	r, err := glassSG25.Reading(standard, none)
	refused(err, r, want)
	sa, err := glassSG25.Salinity(1.0264, none)
	refused(err, sa.GramsPerKilogram(), want)
	sa, _, err = laboratory15.Estimate(1026, none, Uncertainty{})
	refused(err, sa.GramsPerKilogram(), want)
	rho, err := tube.Reading(standard, none)
	refused(err, float64(rho), want)
	h, err := glassSG25.Calibrated(1.0264, standard, none)
	refused(err, float64(h.Offset), want)

	const pair = "pair: got none, or half of one, want the pair of temperatures that is marked on the hydrometer, such as 25/25 °C or 60/60 °F"
	for _, p := range []units.GravityPair{{}, {Liquid: at}, {Water: at}, {Liquid: ice}} {
		r, err := Hydrometer{Pair: p, Expansion: Glass}.Reading(standard, at)
		refused(err, r, pair)
	}
	rho, err = DensityHydrometer{Expansion: Glass}.Reading(standard, at)
	refused(err, float64(rho), "reference: got nothing, want the temperature that is marked on the hydrometer, such as 15 °C or 20 °C")

	_, err = Hydrometer{Pair: units.GravityPair{Liquid: ice, Water: ice}, Expansion: Glass}.Reading(standard, ice)
	require.NoError(t, err)
	_, err = DensityHydrometer{Reference: ice, Expansion: Glass}.Salinity(1028, ice)
	require.NoError(t, err)
}

// An offset of more than 5 % is a slip: kg/m³ on a scale of specific gravity, a
// salinity read in place of it.
func TestOffsetThatIsNone(t *testing.T) {
	at := units.Celsius(25)
	for _, slip := range []float64{1023.3, 35, 0.9, 1.09} {
		h, err := glassSG25.Calibrated(slip, standard, at)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(h.Offset)))
		_, err = h.Reading(standard, at)
		assert.ErrorIs(t, err, units.ErrInput, "what stands beside an error is refused")
	}
	for _, slip := range []units.Density{1.0233, 900, 1090} {
		d, err := laboratory15.Calibrated(slip, standard, at)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(d.Offset)))
		tb, err := tube.Calibrated(slip, standard, at)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(tb.Offset)))
	}
	for _, offset := range []float64{-0.0501, 0.0501, 1.2} {
		_, err := Hydrometer{Pair: units.SG25C(), Expansion: Glass, Offset: units.Scalar(offset)}.Reading(standard, at)
		assert.ErrorIs(t, err, units.ErrInput)
		_, err = Densitometer{Offset: units.Density(1000 * offset)}.Reading(standard, at)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	// What Calibrated makes is usable, up to the last of it and in the saltiest water.
	for _, offset := range []float64{-0.05, 0.05} {
		_, err := Hydrometer{Pair: units.SG25C(), Expansion: Glass, Offset: units.Scalar(offset)}.Reading(standard, at)
		assert.NoError(t, err)
		truth, err := glassSG25.Reading(units.Absolute(saltiest), at)
		require.NoError(t, err)
		h, err := glassSG25.Calibrated(truth+offset*0.999, units.Absolute(saltiest), at)
		require.NoError(t, err)
		_, err = h.Reading(standard, at)
		assert.NoError(t, err)
	}
}

func TestWaterThatIsNone(t *testing.T) {
	for _, celsius := range []float64{-40.001, -60, -69.3, 150.001, 400, math.MaxFloat64} {
		assert.True(t, math.IsNaN(float64(WaterDensity(units.Celsius(celsius)))), "%v", celsius)
	}
	for _, celsius := range []float64{-40, 150} {
		assert.InDelta(t, 940, float64(WaterDensity(units.Celsius(celsius))), 40, "%v", celsius)
	}
}
