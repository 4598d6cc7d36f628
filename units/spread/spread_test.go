package spread_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units/spread"
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

// JCGM 100:2008, H.2, the resistance, reactance and impedance of a circuit, from its
// means and their uncertainties taken as independent: R = V cos(phi)/I, with
// V = 4.999 V (0.0032), I = 19.661 mA (0.0095), phi = 1.04446 rad (0.00075) gives
// R = 127.732 ohm. The annex prints u(R) = 0.071 with its correlations; without them the
// law of 5.1.2 is the sum of the three squares, which the test writes out.
func TestOf(t *testing.T) {
	x, u := []float64{4.999, 19.661e-3, 1.04446}, []float64{0.0032, 0.0095e-3, 0.00075}
	resistance := func() float64 { return x[0] / x[1] * math.Cos(x[2]) }
	y, uncertainty, largest := spread.Of(x, u, resistance)
	assert.InDelta(t, 127.732, y, 0.0005)
	want := y * math.Hypot(math.Hypot(u[0]/x[0], u[1]/x[1]), u[2]*math.Tan(x[2]))
	assert.InEpsilon(t, want, uncertainty, 1e-5)
	assert.Equal(t, 2, largest, "the angle")
	assert.Equal(t, []float64{4.999, 19.661e-3, 1.04446}, x, "the inputs are put back")

	draws := make([]float64, 100_000)
	mean, deviation := spread.Draw(draws, x, u, rand.New(rand.NewPCG(1, 2)).NormFloat64, resistance)
	assert.InDelta(t, y, mean, 4*uncertainty/math.Sqrt(1e5))
	assert.InEpsilon(t, uncertainty, deviation, 0.01)
	low, high := spread.Within(draws, 0.95)
	assert.InDelta(t, y-1.96*uncertainty, low, 0.03*uncertainty)
	assert.InDelta(t, y+1.96*uncertainty, high, 0.03*uncertainty)
}

func TestOfAtAnEdge(t *testing.T) {
	x := make([]float64, 1)
	of := func(at, u float64) (float64, float64, int) {
		x[0] = at
		return spread.Of(x, []float64{u}, func() float64 { return math.Sqrt(x[0]) * math.Sqrt(9-x[0]) })
	}
	_, u, most := of(0, 1)
	assert.InDelta(t, math.Sqrt(8), u, 1e-15)
	assert.Zero(t, most)
	_, u, _ = of(9, 1)
	assert.InDelta(t, math.Sqrt(8), u, 1e-15)
	_, u, _ = of(5, 10)
	assert.True(t, math.IsNaN(u), "it cannot be moved either way")
	y, u, most := of(5, 0)
	assert.InDelta(t, math.Sqrt(20), y, 1e-14)
	assert.Zero(t, u)
	assert.Equal(t, -1, most)
	y, _, _ = spread.Of(x, nil, func() float64 { return 1 })
	assert.True(t, math.IsNaN(y))
}

func TestDrawOfWhatCannotBe(t *testing.T) {
	normal := rand.New(rand.NewPCG(3, 4)).NormFloat64
	x := []float64{0}
	positive := func() float64 {
		if x[0] < 0 {
			return math.NaN()
		}
		return x[0]
	}
	draws := make([]float64, 10_000)
	// The half normal distribution: mean √(2/π), variance 1 - 2/π (Johnson, Kotz and
	// Balakrishnan, Continuous Univariate Distributions, 13.10).
	mean, deviation := spread.Draw(draws, x, []float64{1}, normal, positive)
	assert.InDelta(t, math.Sqrt(2/math.Pi), mean, 0.03)
	assert.InDelta(t, math.Sqrt(1-2/math.Pi), deviation, 0.02)
	low, _ := spread.Within(draws, 1)
	assert.GreaterOrEqual(t, low, 0.0)

	for _, bad := range [][2]float64{
		first(spread.Draw(draws[:1], x, []float64{0}, normal, positive)),
		first(spread.Draw(draws, x, nil, normal, positive)),
		first(spread.Draw(draws, make([]float64, 33), make([]float64, 33), normal, positive)),
		first(spread.Within(nil, 0.95)), first(spread.Within([]float64{math.NaN()}, 0.95)),
		first(spread.Within([]float64{1, 2}, 95)), first(spread.Within([]float64{1, 2}, -1)),
	} {
		assert.True(t, math.IsNaN(bad[0]) && math.IsNaN(bad[1]), bad)
	}
	// An even and an odd number of draws, to the middle.
	low, high := spread.Within([]float64{4, 1, 3, 2}, 0)
	assert.Equal(t, [2]float64{2, 3}, [2]float64{low, high})
	low, high = spread.Within([]float64{3, 1, 2}, 0)
	assert.Equal(t, [2]float64{2, 2}, [2]float64{low, high})
}

func first(a, b float64) [2]float64 { return [2]float64{a, b} }

func TestNoAllocations(t *testing.T) {
	draws := make([]float64, 64)
	random := rand.New(rand.NewPCG(5, 6))
	k := 2.0
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		x, u := [...]float64{3, 4}, [...]float64{0.1, 0.2}
		product := func() float64 { return k * x[0] * x[1] }
		spread.Of(x[:], u[:], product)
		spread.Draw(draws, x[:], u[:], random.NormFloat64, product)
		spread.Within(draws, 0.95)
	}))
}
