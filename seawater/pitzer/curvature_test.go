package pitzer

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// The second derivatives are those of the first, and symmetric.
func TestCurvatureAgainstDifferences(t *testing.T) {
	for _, b := range []Brine{sea, sea.Scale(8), {Sodium: 5e6, Sulfate: 1e6, Chloride: 3e6}, {Calcium: 2e6, Chloride: 4e6, Boron: 1e5}} {
		s, err := Solve(b, units.Celsius(10))
		require.NoError(t, err)
		var k model
		k.set(283.15)
		var h matrix
		k.curvature(&s.state, &h)
		for j := range speciesEnd {
			if s.m[j] == 0 {
				continue
			}
			up, down := s.state, s.state
			step := 1e-5*s.m[j] + 1e-9
			up.m[j] += step
			down.m[j] -= step
			k.activities(&up)
			k.activities(&down)
			for i := range speciesEnd {
				want := (up.gamma[i] - down.gamma[i]) / (2 * step)
				assert.InDelta(t, want, h[i][j], 1e-6*(1+math.Abs(want))+1e-14/step, "%v by %v", i, j)
				assert.InDelta(t, h[i][j], h[j][i], 1e-14*(1+math.Abs(h[i][j])))
			}
		}
	}
}
