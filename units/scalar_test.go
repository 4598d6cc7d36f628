package units_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// A finite number is written as encoding/json writes a float64, and all numbers come back to
// the same bits.
func TestScalarToJSONAndBack(t *testing.T) {
	for _, x := range []float64{
		0, math.Copysign(0, -1), 1, -4.05, 1.0 / 3, 1e-6, 9.999e-7, 1e20, 1e21, -1e300,
		math.MaxFloat64, math.SmallestNonzeroFloat64, math.Pi * 1e-7,
	} {
		text, err := json.Marshal(units.Scalar(x))
		require.NoError(t, err)
		var plain float64
		require.NoError(t, json.Unmarshal(text, &plain))
		assert.Equal(t, math.Float64bits(x), math.Float64bits(plain), "%s", text)
		back := units.Scalar(7)
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, math.Float64bits(x), math.Float64bits(float64(back)), "%s", text)
	}
	for want, x := range map[string]float64{
		"4.05": 4.05, "1000000": 1e6, "-0.001": -1e-3, "null": math.NaN(), `"+Inf"`: math.Inf(1), `"-Inf"`: math.Inf(-1),
	} {
		text, err := json.Marshal(units.Scalar(x))
		require.NoError(t, err)
		assert.Equal(t, want, string(text))
		back := units.Scalar(7)
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, math.IsNaN(x), math.IsNaN(float64(back)))
		assert.True(t, math.IsNaN(x) || float64(back) == x, "%s", text)
	}
}

// What is no number is refused by name and leaves NaN, not zero.
func TestScalarRefuses(t *testing.T) {
	for text, want := range map[string]string{
		`"4.05"`: `number: got "\"4.05\"", want a number, null, "+Inf" or "-Inf"`,
		`"NaN"`:  `number: got "\"NaN\"", want a number, null, "+Inf" or "-Inf"`,
		`true`:   `number: got "true", want a number, null, "+Inf" or "-Inf"`,
		`1e999`:  `number: got "1e999", want a number of ordinary size`,
		`1e-999`: `number: got "1e-999", want a number of ordinary size`,
	} {
		x := units.Scalar(7)
		err := json.Unmarshal([]byte(text), &x)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.EqualError(t, err, want)
		assert.True(t, math.IsNaN(float64(x)), text)
	}
	var x units.Scalar
	for _, text := range []string{"", "-", "Infinity", "0x10", "1_0"} { // no JSON at all
		assert.ErrorIs(t, x.UnmarshalJSON([]byte(text)), units.ErrInput, text)
	}
}
