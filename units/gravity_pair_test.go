package units_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

// A freezing point is kept as minus zero and written as zero.
func TestGravityPairOfIceWater(t *testing.T) {
	pair := units.GravityPair{Liquid: units.Celsius(0), Water: units.Celsius(0)}
	assert.Equal(t, "0/0 °C", pair.String())
	text, err := units.Gravity(1.028, pair).MarshalText()
	assert.NoError(t, err)
	assert.Equal(t, "1.028 0/0 °C", string(text))
}
