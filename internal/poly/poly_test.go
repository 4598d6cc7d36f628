package poly

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFixedLengthsAgreeWithHorner(t *testing.T) {
	c := [6]float64{3, -2, 0.5, 7, -0.25, 1.5}
	for _, x := range []float64{-2, -0.5, 0, 0.3, 1, 4} {
		want := 0.0
		for i, ci := range c {
			want += ci * math.Pow(x, float64(i))
		}
		assert.InDelta(t, want, Horner(x, c[:]), 1e-12*(1+math.Abs(want)))
		assert.InDelta(t, want, P5(x, &c), 1e-12*(1+math.Abs(want)))
		assert.InDelta(t, Horner(x, c[:5]), P4(x, (*[5]float64)(c[:5])), 1e-12)
		assert.InDelta(t, Horner(x, c[:4]), P3(x, (*[4]float64)(c[:4])), 1e-12)
		assert.InDelta(t, Horner(x, c[:3]), P2(x, (*[3]float64)(c[:3])), 1e-12)
	}
	assert.Zero(t, Horner(2, nil))
}

func TestDerivativeIsTheSlope(t *testing.T) {
	c := []float64{3, -2, 0.5, 7, -0.25, 1.5}
	for _, x := range []float64{-2, -0.5, 0, 0.3, 1, 4} {
		h := 1e-5
		slope := (Horner(x+h, c) - Horner(x-h, c)) / (2 * h)
		assert.InDelta(t, slope, Derivative(x, c), 1e-6*(1+math.Abs(slope)))
	}
	assert.Zero(t, Derivative(2, []float64{5}))
}
