package conductivity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

func TestChoicesAsText(t *testing.T) {
	for s := KCl001Molal; s <= Seawater35; s++ {
		text, err := s.MarshalText()
		require.NoError(t, err)
		back, err := units.Parse[Standard](string(text))
		require.NoError(t, err)
		assert.Equal(t, s, back, string(text))
	}
	none, err := Solution(0).MarshalText()
	require.NoError(t, err)
	assert.Empty(t, none)
	_, err = Scheme(9).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = units.Parse[Scheme]("curved")
	assert.EqualError(t, err, `scheme: got "curved", want raw, linear, natural water or seawater`)
}
