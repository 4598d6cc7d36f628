package solve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestBrentFindsKnownRoots(t *testing.T) {
	rows := []struct {
		name    string
		f       func(float64) float64
		a, b, x float64
	}{
		{"linear", func(x float64) float64 { return 2*x - 3 }, -10, 10, 1.5},
		{"root of two", func(x float64) float64 { return x*x - 2 }, 0, 5, math.Sqrt2},
		{"flat cubic", func(x float64) float64 { return x * x * x }, -1, 2, 0},
		{"cosine", math.Cos, 0, 3, math.Pi / 2},
		{"step", func(x float64) float64 {
			if x < 0.3 {
				return -1
			}
			return 1
		}, -1e6, 1e6, 0.3},
		{"steep", func(x float64) float64 { return math.Exp(50*x) - 1e10 }, -10, 10, math.Log(1e10) / 50},
		{"root at the left end", func(x float64) float64 { return x - 1 }, 1, 2, 1},
		{"root at the right end", func(x float64) float64 { return x - 2 }, 1, 2, 2},
		{"ends swapped", func(x float64) float64 { return x - 1.25 }, 2, 1, 1.25},
	}
	for _, r := range rows {
		calls := 0
		x, ok := Brent(func(x float64) float64 { calls++; return r.f(x) }, r.a, r.b, 1e-15)
		assert.True(t, ok, r.name)
		assert.InDelta(t, r.x, x, 1e-14*(1+math.Abs(r.x)), r.name)
		assert.Less(t, calls, 200, r.name)
	}
}

func TestBrentRefusesWhatHasNoRoot(t *testing.T) {
	for _, f := range []func(float64) float64{
		func(x float64) float64 { return x*x + 1 },
		func(float64) float64 { return math.NaN() },
		func(x float64) float64 { return math.Sqrt(x-1) - 5 }, // NaN at the left end
		func(x float64) float64 { // NaN inside
			if x > 0.2 && x < 1.8 {
				return math.NaN()
			}
			return x - 1
		},
	} {
		x, ok := Brent(f, 0, 2, 0)
		assert.False(t, ok)
		assert.True(t, math.IsNaN(x))
	}
}

func TestBrentAllocatesNothing(t *testing.T) {
	k := 2.0
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		k, _ = Brent(func(x float64) float64 { return x*x - k }, 0, 5, 0)
		k++
	}))
}
