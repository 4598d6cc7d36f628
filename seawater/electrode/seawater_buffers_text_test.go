package electrode

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

func TestSeawaterBufferAsText(t *testing.T) {
	for text, b := range map[string]SeawaterBuffer{
		"": {}, "tris in 35 PSS-78": Tris(units.Practical(35)), "aminopyridine in 33.3 PSS-78": Aminopyridine(units.Practical(33.3)),
		"tris 2018 in 10 PSS-78, 0.04 mol/kg": TrisMueller2018(units.Practical(10), 0.04*units.MolePerKilogram),
	} {
		written, err := b.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, text, string(written))
		back, err := units.Parse[SeawaterBuffer](text)
		require.NoError(t, err)
		assert.Equal(t, b, back)
	}
	for _, bad := range []string{"tris", "tris in ", "tris in 35 g/kg", "tris in water", "tris in 35, 0.04 mol/kg", "tris 2018 in 35",
		"tris 2018 in 35, 0.04", "tris 2018 in 35, -1 mol/kg", " in 35"} {
		b, err := units.Parse[SeawaterBuffer](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.Equal(t, SeawaterBuffer{}, b, bad)
	}
	_, err := Tris(units.Practical(math.NaN())).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
}
