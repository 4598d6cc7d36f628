package pitzer

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

func TestSpecies(t *testing.T) {
	for s, want := range map[Species]struct {
		text   string
		charge int
		mass   float64
	}{
		Hydrogen: {"H+", 1, 1.008}, Sulfate: {"SO4--", -2, 96.056}, BoricAcid: {"B(OH)3", 0, 61.831},
		CalciumBorate: {"CaB(OH)4+", 1, 118.916}, Ammonium: {"NH4+", 1, 18.039}, Calcium: {"Ca++", 2, 40.078},
	} {
		assert.Equal(t, want.text, s.String())
		assert.Equal(t, want.charge, s.Charge())
		checks.Absolute(t, want.text, float64(s.MolarMass()), want.mass, 0.004)
		text, err := s.MarshalText()
		require.NoError(t, err)
		var back Species
		require.NoError(t, back.UnmarshalText(text))
		assert.Equal(t, s, back)
	}
	none := speciesEnd
	assert.Equal(t, "?", none.String())
	assert.Zero(t, none.Charge())
	assert.True(t, math.IsNaN(float64(none.MolarMass())))
	_, err := none.MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	var s Species
	assert.ErrorIs(t, s.UnmarshalText([]byte("Xx")), units.ErrInput)
	assert.Equal(t, speciesEnd, s)
}

// What a solution is asked for that is no number of the tables.
func TestSolutionTells(t *testing.T) {
	at := units.Celsius(20)
	s, err := Solve(sea, at)
	require.NoError(t, err)
	assert.Equal(t, at, s.Temperature())
	assert.Equal(t, sea, s.Brine())
	for _, pair := range [][2]Species{{Sodium, Potassium}, {Chloride, Chloride}, {Sodium, BoricAcid}, {Sodium, speciesEnd}} {
		assert.True(t, math.IsNaN(s.MeanActivityCoefficient(pair[0], pair[1])))
	}
	mean := s.MeanActivityCoefficient(Sodium, Sulfate)
	checks.Relative(t, "mean", math.Pow(mean, 3), math.Pow(s.ActivityCoefficient(Sodium), 2)*s.ActivityCoefficient(Sulfate), 1e-12)

	// A base brings sodium, an acid chloride.
	base, err := AtTotalPH(sea, at, 10)
	require.NoError(t, err)
	b := base.Brine()
	assert.Greater(t, b.Sodium, sea.Sodium)
	assert.Equal(t, sea.Chloride, b.Chloride)
	acid, err := AtTotalPH(sea, at, 4)
	require.NoError(t, err)
	b = acid.Brine()
	assert.Equal(t, sea.Sodium, b.Sodium)
	assert.Greater(t, b.Chloride, sea.Chloride)
	// Total scale and molality: kilograms of solution and bisulfate are the difference.
	solution := 1.
	for i := range speciesEnd {
		solution += s.m[i] * float64(i.MolarMass()) / 1000
	}
	total := (s.m[Hydrogen] + s.m[Bisulfate]) / solution
	checks.Absolute(t, "total", s.TotalPH(), -math.Log10(total), 1e-12)
	checks.Absolute(t, "mass of seawater", solution, 1.03645, 2e-5) // 35.165 g/kg
}
