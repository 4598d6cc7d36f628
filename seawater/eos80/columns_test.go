package eos80

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

// A column is as long as the shortest of the three, and each of its values is that of
// the single call; what lies beyond is left alone.
func TestSurfaceDensities(t *testing.T) {
	s := []units.PracticalSalinity{units.Practical(30), units.Practical(35), units.Practical(40)}
	temperatures := []units.Temperature{units.Celsius(5), units.Celsius(25)}
	dst := []units.Density{-1, -1, -1, -1}
	assert.Equal(t, 2, SurfaceDensities(dst, s, temperatures))
	assert.Equal(t, []units.Density{Density(s[0], temperatures[0], 0), Density(s[1], temperatures[1], 0), -1, -1}, dst)
	assert.Equal(t, 1, SurfaceDensities(dst[:1], s, temperatures))
	assert.Equal(t, 0, SurfaceDensities(nil, s, temperatures))
}
