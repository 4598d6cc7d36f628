package electrode

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// A calibration is stored by the controller and is the same after a power cut.
func TestCalibrationIsStored(t *testing.T) {
	at := units.Celsius(24.3)
	u := Uncertainty{Reading: 0.3, Temperature: 0.5}
	nbs, err := Calibrate(seven, Bottle4.Point(171.3, at).PlusMinus(u), Bottle7.Point(4.1, at).PlusMinus(u), Bottle10.Point(-167.7, at).PlusMinus(u))
	require.NoError(t, err)
	nbs.IsopotentialUncertainty = 0.3
	total, err := OnePoint(carbonate.PHTotal(7), Tris(units.Practical(35)).Point(-71.2, at).PlusMinus(u), nbs.Slope, nbs.SlopeUncertainty)
	require.NoError(t, err)
	stored(t, nbs)
	stored(t, total)

	// One of the other scale is no such calibration, nor is one that lost a field.
	text, err := json.Marshal(nbs)
	require.NoError(t, err)
	assert.ErrorIs(t, json.Unmarshal(text, &total), units.ErrInput)
	var lost Calibration[carbonate.NBSPH]
	require.NoError(t, json.Unmarshal([]byte(`{"Slope": "97 %", "Offset": "3 mV"}`), &lost))
	_, err = lost.PH(0, at)
	assert.EqualError(t, err, "isopotential point: 0 is outside 3 to 11 (electrodes are made for about 7, common practice)")
}

func stored[S Scale](t *testing.T, c Calibration[S]) {
	t.Helper()
	text, err := json.Marshal(c)
	require.NoError(t, err)
	var back Calibration[S]
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, c, back, "%s", text)
}

func TestNames(t *testing.T) {
	for b := Phthalate; b <= Bottle10; b++ {
		text, err := b.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, b.String(), string(text))
		back, err := units.Parse[Buffer](" " + string(text))
		require.NoError(t, err)
		assert.Equal(t, b, back)
	}
	for c := Unknown; c <= Doubtful; c++ {
		text, err := c.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, c.String(), string(text))
		back, err := units.Parse[Condition](string(text))
		require.NoError(t, err)
		assert.Equal(t, c, back)
	}
	b, err := units.Parse[Buffer]("Bottle 10")
	require.NoError(t, err)
	assert.Equal(t, Bottle10, b)
	for _, text := range []string{"", "7", "bottle 8", "no buffer", "tris"} {
		b, err := units.Parse[Buffer](text)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.Zero(t, b)
		_, err = units.Parse[Condition](text)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	for _, none := range []Buffer{0, Bottle10 + 1, 255} {
		_, err := none.MarshalText()
		assert.ErrorIs(t, err, units.ErrInput)
		assert.Equal(t, "no buffer", none.String())
	}
	_, err = Condition(9).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	assert.Equal(t, "no condition", Condition(9).String())
}

// What is taken for the uncertainty of buffers where nothing is said: common
// practice, and the bounds of a bottle as a rectangle.
func TestUsualUncertainties(t *testing.T) {
	assert.Equal(t, 0.005, primaryUncertainty)
	assert.InDelta(t, 0.02/math.Sqrt(3), bottleUncertainty, 5e-4)
	assert.Equal(t, 0.005, seawaterUncertainty)
}
