package seawater_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// permutations visits every order of a list.
func permutations(list []seawater.Reading, visit func([]seawater.Reading)) {
	var place func(k int)
	place = func(k int) {
		if k == len(list) {
			visit(list)
			return
		}
		for i := k; i < len(list); i++ {
			list[k], list[i] = list[i], list[k]
			place(k + 1)
			list[k], list[i] = list[i], list[k]
		}
	}
	place(0)
}

// The reading in the middle goes with either of the others: no order of them
// and no hair's breadth may decide.
func TestAgreeLeavesATieOpen(t *testing.T) {
	for _, middle := range []float64{35, 35.02, 34.98} {
		u, first := 0.0, 0.0
		permutations(readings(34, 0.45, middle, 0.45, 36, 0.45), func(list []seawater.Reading) {
			a, err := seawater.Agree(list...)
			require.NoError(t, err)
			assert.False(t, a.Consistent || a.Decided, "%v", list)
			assert.Empty(t, a.Apart)
			assert.InDelta(t, (70+middle)/3, a.Salinity.GramsPerKilogram(), 1e-12)
			if first == 0 {
				first, u = a.Salinity.GramsPerKilogram(), a.Uncertainty.GramsPerKilogram()
			}
			assert.InDelta(t, first, a.Salinity.GramsPerKilogram(), 1e-12)
			assert.InDelta(t, u, a.Uncertainty.GramsPerKilogram(), 1e-12)
		})
		assert.Greater(t, u, 0.45/math.Sqrt(3))
	}
	// What is clear stays clear in every order.
	permutations(readings(35.1, 0.2, 35, 0.1, 38.2, 0.3, 35.2, 0.2), func(list []seawater.Reading) {
		a, err := seawater.Agree(list...)
		require.NoError(t, err)
		require.True(t, a.Decided)
		require.Len(t, a.Apart, 1)
		assert.Equal(t, 38.2, list[a.Apart[0]].Salinity.GramsPerKilogram())
	})
}

// Two at 20 go with one below or one above. With u = 1 the three have a χ² of 2/3 of
// the square of its distance; which of them is out is clear from 3.84 more on.
func TestAgreeDecidesAtTheLimit(t *testing.T) {
	const near = 5.9 // of the three with the one above; up to 5.99 they are consistent
	for _, row := range []struct {
		excess  float64
		decided bool
	}{{0, false}, {3.83, false}, {3.85, true}, {5, true}} {
		above, below := math.Sqrt(1.5*near), math.Sqrt(1.5*(near-row.excess))
		permutations(readings(20-below, 1, 20, 1, 20, 1, 20+above, 1), func(list []seawater.Reading) {
			a, err := seawater.Agree(list...)
			require.NoError(t, err)
			require.False(t, a.Consistent)
			require.Equal(t, row.decided, a.Decided, "%v", row.excess)
			if row.decided {
				require.Len(t, a.Apart, 1)
				assert.Equal(t, 20+above, list[a.Apart[0]].Salinity.GramsPerKilogram())
			}
		})
	}
}

func TestAgreeWithExtremeUncertainties(t *testing.T) {
	for _, u := range [][2]float64{{1e-200, 1e200}, {1e-150, 1e-150}, {1e200, 1e200}, {0.1, 1e300}} {
		a, err := seawater.Agree(readings(35, u[0], 36, u[1])...)
		require.NoError(t, err)
		for _, x := range []float64{a.Salinity.GramsPerKilogram(), a.Uncertainty.GramsPerKilogram(), a.ChiSquare, a.Probability, a.Birge} {
			assert.False(t, math.IsNaN(x) || math.IsInf(x, 0), "%v: %+v", u, a)
		}
		if u[1] > u[0] {
			assert.Equal(t, 35., a.Salinity.GramsPerKilogram())
			assert.InEpsilon(t, u[0], a.Uncertainty.GramsPerKilogram(), 1e-15)
			assert.True(t, a.Decided)
		}
	}
	// so far apart that e^-χ²/2 is none: still no probability that is NaN
	a, err := seawater.Agree(readings(1, 1e-150, 2, 1e-150, 3, 1e-150)...)
	require.NoError(t, err)
	assert.Zero(t, a.Probability)
	assert.False(t, a.Decided)
	// and farther than that there is no χ², and no uncertainty to enlarge by it
	for _, u := range []float64{1e-160, 1e-200} {
		a, err = seawater.Agree(readings(1, u, 2, u, 3, u)...)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(a.Salinity.GramsPerKilogram()) && math.IsNaN(a.Uncertainty.GramsPerKilogram()))
	}
}

func TestAgreeNamesTheReading(t *testing.T) {
	for _, row := range []struct {
		name, want string
		s, u       float64
	}{
		{"", "reading 2: salinity: got -1 g/kg, want zero or more", -1, 1},
		{"", "reading 2: uncertainty: got 0 g/kg, want a number above zero", 35, 0},
		{"swing arm", "swing arm: uncertainty: got -2 g/kg, want a number above zero", 35, -2},
	} {
		_, err := seawater.Agree(readings(35, 1)[0],
			seawater.Reading{Name: row.name, Salinity: units.Absolute(row.s), Uncertainty: units.Absolute(row.u)})
		assert.EqualError(t, err, row.want)
	}
}

func TestAgreeDoesNotAllocate(t *testing.T) {
	good, open := readings(35.1, 0.2, 35, 0.1, 35.2, 0.2), readings(34, 0.45, 35, 0.45, 36, 0.45)
	checks.NoAllocations(t, "consistent", func() { _, _ = seawater.Agree(good...) })
	checks.NoAllocations(t, "undecided", func() { _, _ = seawater.Agree(open...) })
}

// The search over all subsets at its longest.
func BenchmarkAgreeOfSixteen(b *testing.B) {
	list := readings()
	for i := range 16 {
		list = append(list, readings(30+float64(i), 0.1)...)
	}
	b.ReportAllocs()
	for range b.N {
		_, _ = seawater.Agree(list...)
	}
}
