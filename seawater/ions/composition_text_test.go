package ions_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

func TestCompositionAsText(t *testing.T) {
	for _, c := range []ions.Composition{{}, ions.Reference(units.Practical(35)), ions.Composition{}.With(ions.Calcium, -0.1)} {
		text, err := c.MarshalText()
		require.NoError(t, err)
		back, err := units.Parse[ions.Composition](string(text))
		require.NoError(t, err)
		assert.Equal(t, c, back, string(text))
	}
	text, err := ions.Composition{}.With(ions.Sodium, 5).With(ions.Sulfate, 2.5).MarshalText()
	require.NoError(t, err)
	assert.Equal(t, "Na+ 5 µmol/kg, SO4-- 2.5 µmol/kg", string(text))
	_, err = ions.Composition{}.With(ions.Sodium, units.AmountPerKilogram(math.NaN())).MarshalText()
	assert.EqualError(t, err, "sodium.content: got NaN, want a finite number")
	for _, bad := range []string{" ", "Na", "Na 5", "Na 5 mmol/kg,", "Na 5 mmol/kg, Na 6 mmol/kg", "Xx 5 mmol/kg", "Na 5 mmol/L"} {
		c, err := units.Parse[ions.Composition](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.True(t, math.IsNaN(float64(c.Amount(ions.Sodium))), bad)
	}
}
