package advice_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/units"
)

func TestSeverityAsText(t *testing.T) {
	for s, name := range map[advice.Severity]string{advice.Note: "note", advice.Care: "care", advice.Danger: "danger"} {
		assert.Equal(t, name, s.String())
		text, err := s.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, name, string(text))
		back := advice.Severity(9)
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, s, back)
	}
	_, err := advice.Severity(7).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	var s advice.Severity
	assert.EqualError(t, s.UnmarshalText([]byte("grave")), `severity: got "grave", want note, care or danger`)
	assert.NotContains(t, []advice.Severity{advice.Note, advice.Care, advice.Danger}, s, "an error is no severity")
}

// 23 kg is the load constant of the revised NIOSH lifting equation (Waters et al. 1994).
func TestTooHeavy(t *testing.T) {
	c, heavy := advice.TooHeavy(23 * units.Kilogram)
	assert.False(t, heavy)
	assert.Zero(t, c)
	c, heavy = advice.TooHeavy(41.2 * units.Kilogram)
	assert.True(t, heavy)
	assert.Equal(t, advice.Danger, c.Severity)
	assert.Contains(t, c.Text, "41 kg of water are too heavy to lift")
	assert.Contains(t, c.Text, "well below 23 kg")
	_, heavy = advice.TooHeavy(units.Mass(math.NaN()))
	assert.False(t, heavy)
}
