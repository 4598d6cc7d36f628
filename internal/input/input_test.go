package input

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	assert.NoError(t, Positive("x", 1e-300, ""))
	assert.NoError(t, NotNegative("x", 0, ""))
	assert.NoError(t, Share("x", units.Share(1)))
	for _, bad := range []float64{0, -1, nan, inf, -inf} {
		assert.ErrorIs(t, Positive("x", bad, "L"), units.ErrInput)
	}
	for _, bad := range []float64{-1, nan, inf} {
		assert.ErrorIs(t, NotNegative("x", bad, "L"), units.ErrInput)
		assert.ErrorIs(t, Share("x", units.Share(bad)), units.ErrInput)
	}
	assert.ErrorIs(t, Share("x", units.Share(0)), units.ErrInput)
	assert.EqualError(t, Positive("tank", -1, "L"), "tank: got -1 L, want a number above zero")
	assert.EqualError(t, Positive("scoops", 0, ""), "scoops: got 0, want a number above zero")
}

func TestQuotedIsCut(t *testing.T) {
	assert.Equal(t, `"5 gal"`, Quoted("5 gal"))
	assert.Equal(t, `"`+strings.Repeat("x", 60)+`"`, Quoted(strings.Repeat("x", 60)))
	assert.Equal(t, `"`+strings.Repeat("x", 60)+`..."`, Quoted(strings.Repeat("x", 61)))
	assert.Equal(t, `"x`+strings.Repeat("°", 29)+`..."`, Quoted("x"+strings.Repeat("°", 40)), "no letter is cut in half")
	assert.LessOrEqual(t, len(Quoted(strings.Repeat("\xff", 1<<20))), 4*60+5)
}

func TestInNamesTheField(t *testing.T) {
	low := units.Range{Quantity: "temperature", Min: -2, Max: 40, Unit: "°C"}.Check(50)
	assert.EqualError(t, In("water", low), "water.temperature: 50 °C is outside -2 to 40 °C")
	assert.ErrorIs(t, In("water", low), units.ErrRange)
	assert.EqualError(t, low, "temperature: 50 °C is outside -2 to 40 °C", "the first error is left alone")
	assert.EqualError(t, In("salt", Bad("label", "5", "more")), "salt.label: got 5, want more")
	both := In("salt", Join(Bad("sea salt", "5", "more"), low))
	assert.EqualError(t, both, "salt.seaSalt: got 5, want more\nsalt.temperature: 50 °C is outside -2 to 40 °C", "each of several")
	assert.ErrorIs(t, both, units.ErrRange)
	assert.ErrorIs(t, both, units.ErrInput)
	assert.EqualError(t, When("after 3 days", low), "after 3 days: temperature: 50 °C is outside -2 to 40 °C")
	assert.Equal(t, "doses[2]", At("doses", 2))
	other := errors.New("other")
	assert.Equal(t, other, In("x", other))
	assert.NoError(t, In("x", nil))
}

func TestAsRenames(t *testing.T) {
	low := units.Range{Quantity: "temperature", Min: -2, Max: 40, Unit: "°C"}.Check(50)
	assert.EqualError(t, As("water temperature", low), "water temperature: 50 °C is outside -2 to 40 °C")
	assert.EqualError(t, As("salt", Bad("label", "5", "more")), "salt.label: got 5, want more")
}

func TestSet(t *testing.T) {
	assert.NoError(t, Set("to", units.Celsius(0)))
	assert.EqualError(t, Set("to", units.Temperature{}), "to: got nothing, want a temperature")
}

func TestNaN(t *testing.T) {
	assert.True(t, math.IsNaN(NaN[units.Volume]().Litres()))
}

func TestParseNumber(t *testing.T) {
	for text, want := range map[string]float64{"8.1": 8.1, "-1.5e-3": -0.0015, "+2": 2, ".5": 0.5} {
		x, err := ParseNumber(text)
		assert.NoError(t, err)
		assert.Equal(t, want, x)
	}
	for _, text := range []string{"", "0x1p3", "1_000", "Inf", "NaN", "nan", "8,1", "1e999", "e", "--1"} {
		x, err := ParseNumber(text)
		assert.ErrorIs(t, err, units.ErrInput, text)
		assert.True(t, math.IsNaN(x), text)
	}
}
