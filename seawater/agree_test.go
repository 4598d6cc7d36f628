package seawater_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

func readings(pairs ...float64) []seawater.Reading {
	var list []seawater.Reading
	for i := 0; i < len(pairs); i += 2 {
		list = append(list, seawater.Reading{Name: fmt.Sprint(i / 2), Salinity: units.Absolute(pairs[i]), Uncertainty: units.Absolute(pairs[i+1])})
	}
	return list
}

// By hand: weights 1, 4, 4 give (35 + 4*36 + 4*35.5)/9, u = 1/3,
// χ² = Σ w (S_i - S)².
func TestAgreeByHand(t *testing.T) {
	a, err := seawater.Agree(readings(35, 1, 36, 0.5, 35.5, 0.5)...)
	require.NoError(t, err)
	mean := (35 + 4*36 + 4*35.5) / 9.
	assert.InDelta(t, mean, a.Salinity.GramsPerKilogram(), 1e-13)
	assert.InDelta(t, 1./3, a.Uncertainty.GramsPerKilogram(), 1e-15)
	chi2 := (35-mean)*(35-mean) + 4*(36-mean)*(36-mean) + 4*(35.5-mean)*(35.5-mean)
	assert.InDelta(t, chi2, a.ChiSquare, 1e-12)
	assert.InDelta(t, math.Sqrt(chi2/2), a.Birge, 1e-12)
	assert.InDelta(t, math.Exp(-chi2/2), a.Probability, 1e-14, "two degrees of freedom: exp(-χ²/2)")
	assert.True(t, a.Consistent && a.Decided)
	assert.Empty(t, a.Apart)
}

// Upper 5 % points of χ² (NIST/SEMATECH e-Handbook of Statistical Methods,
// table 1.3.6.7.4): n readings that scatter just so have probability 0.05.
func TestProbabilityAgainstTheTable(t *testing.T) {
	const ofProbability = 2e-5 // the table has three decimals of χ²
	for freedom, critical := range map[int]float64{1: 3.841, 2: 5.991, 3: 7.815, 4: 9.488, 5: 11.070, 9: 16.919, 10: 18.307, 15: 24.996} {
		list := []seawater.Reading{}
		// one reading off the others by d has χ² = d² (n-1)/n
		d := math.Sqrt(critical * float64(freedom+1) / float64(freedom))
		for i := range freedom + 1 {
			s := 20.0
			if i == 0 {
				s += d
			}
			list = append(list, seawater.Reading{Name: "r", Salinity: units.Absolute(s), Uncertainty: units.Absolute(1)})
		}
		a, err := seawater.Agree(list...)
		require.NoError(t, err)
		assert.InDelta(t, critical, a.ChiSquare, 1e-9)
		assert.InDelta(t, 0.05, a.Probability, ofProbability, "%d degrees of freedom", freedom)
	}
}

func TestAgreeNamesTheOddOne(t *testing.T) {
	a, err := seawater.Agree(readings(35.1, 0.2, 35.0, 0.1, 38.2, 0.3, 35.2, 0.2)...)
	require.NoError(t, err)
	assert.False(t, a.Consistent)
	assert.True(t, a.Decided)
	assert.Equal(t, []int{2}, a.Apart)
	good, err := seawater.Agree(readings(35.1, 0.2, 35.0, 0.1, 35.2, 0.2)...)
	require.NoError(t, err)
	assert.InDelta(t, good.Salinity.GramsPerKilogram(), a.Salinity.GramsPerKilogram(), 1e-13)
	assert.InDelta(t, good.Uncertainty.GramsPerKilogram(), a.Uncertainty.GramsPerKilogram(), 1e-15)

	// Two against two, and one against one, leave it open.
	for _, list := range [][]seawater.Reading{readings(33, 0.1, 33, 0.1, 36, 0.1, 36, 0.1), readings(33, 0.1, 36, 0.1)} {
		a, err = seawater.Agree(list...)
		require.NoError(t, err)
		assert.False(t, a.Decided || a.Consistent)
		assert.Empty(t, a.Apart)
		assert.InDelta(t, 34.5, a.Salinity.GramsPerKilogram(), 1e-12)
		assert.Greater(t, a.Uncertainty.GramsPerKilogram(), 0.8)
	}
}

// Readings that scatter as their uncertainties say are called inconsistent in
// one case of twenty, and the mean misses by its uncertainty.
func TestAgreeIsFair(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	u := []float64{0.2, 0.5, 0.1, 0.3, 1}
	const runs = 20000
	doubted, squares := 0, 0.0
	for range runs {
		list := make([]seawater.Reading, len(u))
		for i := range u {
			list[i] = seawater.Reading{Name: "r", Salinity: units.Absolute(35 + u[i]*r.NormFloat64()), Uncertainty: units.Absolute(u[i])}
		}
		a, err := seawater.Agree(list...)
		require.NoError(t, err)
		if !a.Consistent {
			doubted++
			continue
		}
		d := (a.Salinity.GramsPerKilogram() - 35) / a.Uncertainty.GramsPerKilogram()
		squares += d * d
	}
	assert.InDelta(t, 0.05, float64(doubted)/runs, 0.006)
	assert.InDelta(t, 1, squares/float64(runs-doubted), 0.04)
}

func TestAgreeEdges(t *testing.T) {
	a, err := seawater.Agree(readings(35, 0.2)...)
	require.NoError(t, err)
	assert.Equal(t, seawater.Agreement{Salinity: units.Absolute(35), Uncertainty: units.Absolute(0.2), Probability: 1, Birge: 1, Consistent: true, Decided: true}, a)
	for _, bad := range [][]seawater.Reading{
		nil, readings(make([]float64, 34)...), readings(35, 0), readings(35, -1), readings(-1, 1),
		readings(math.NaN(), 1), readings(35, math.NaN()), readings(35, math.Inf(1)),
	} {
		a, err := seawater.Agree(bad...)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(a.Salinity.GramsPerKilogram()))
	}
}

func BenchmarkAgree(b *testing.B) {
	list := readings(35.1, 0.2, 35.0, 0.1, 38.2, 0.3, 35.2, 0.2)
	b.ReportAllocs()
	for range b.N {
		if _, err := seawater.Agree(list...); err != nil {
			b.Fatal(err)
		}
	}
}
