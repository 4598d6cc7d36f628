package spread_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/spread"
)

// JCGM 100:2008, 5.1.3 and example H.1 in spirit: a sum adds in quadrature, a
// product in quadrature of the relative parts.
func TestThrough(t *testing.T) {
	value, u, most, err := spread.Through([]float64{3, 4, 0}, func(d []float64) ([]float64, error) {
		return []float64{(100 + d[0]) + (50 + d[1]) + d[2], (100 + d[0]) * (50 + d[1]), d[2]}, nil
	})
	require.NoError(t, err)
	assert.Equal(t, []float64{150, 5000, 0}, value)
	assert.InDelta(t, 5, u[0], 1e-12)
	assert.InDelta(t, 5000*math.Hypot(0.03, 0.08), u[1], 1e-9)
	assert.Zero(t, u[2])
	assert.Equal(t, []int{1, 1, -1}, most)

	// A level of zero cannot be moved down, nor one of ten up.
	edge := func(x float64) ([]float64, error) {
		if x < 0 || x > 10 {
			return nil, errors.New("outside")
		}
		return []float64{3 * x}, nil
	}
	for _, x := range []float64{0, 5, 10} {
		_, u, _, err = spread.Through([]float64{2}, func(d []float64) ([]float64, error) { return edge(x + d[0]) })
		require.NoError(t, err)
		assert.InDelta(t, 6, u[0], 1e-12)
	}
	for _, x := range []float64{5, 20} {
		_, _, _, err = spread.Through([]float64{8}, func(d []float64) ([]float64, error) { return edge(x + d[0]) })
		assert.EqualError(t, err, "outside")
	}
}
