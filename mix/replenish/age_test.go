package replenish

import (
	"fmt"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

const oneDay = 24 * time.Hour

// Two-part dosing leaves 0.4 mmol/kg of sodium chloride a day. What do the
// instruments make of the tank after a year, with 10 % new water every two weeks?
func ExampleAge() {
	water, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	leaves := ions.Composition{}.
		Add(ions.Sodium, 0.4*units.MillimolePerKilogram).
		Add(ions.Chloride, 0.4*units.MillimolePerKilogram)
	aged, err := Age(Ageing{Water: water, Leaves: leaves, Change: units.Percent(10), Every: 14 * oneDay, After: 365 * oneDay})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, by := range []ions.Property{ions.Density, ions.Conductivity, ions.Index} {
		fmt.Printf("%s shows %.2f g/kg\n", by, aged.Readings.By[by].Shown.GramsPerKilogram())
	}
	fmt.Printf("%.2f g/kg are dissolved\n", aged.Readings.Dissolved.GramsPerKilogram())
	// Output:
	// density shows 35.02 g/kg
	// conductivity shows 35.35 g/kg
	// refractive index shows 35.02 g/kg
	// 35.17 g/kg are dissolved
}

// The closed form against a year of days.
func TestAgeDayByDay(t *testing.T) {
	water, err := seawater.FromPractical(units.Practical(34), units.Celsius(25))
	require.NoError(t, err)
	leaves := ions.Composition{}.Add(ions.Sodium, 300).Add(ions.Chloride, 500).Add(ions.Magnesium, 100)
	for _, every := range []time.Duration{7 * oneDay, 30 * oneDay, 1000 * oneDay} {
		aged, err := Age(Ageing{Water: water, Leaves: leaves, Change: units.Percent(20), Every: every, After: 365 * oneDay})
		require.NoError(t, err)
		start := ions.Reference(units.Practical(34))
		c := start
		for d := 1; d <= 365; d++ {
			c = c.Plus(leaves)
			if d%int(every/oneDay) == 0 {
				c = c.Scale(0.8).Plus(start.Scale(0.2))
			}
		}
		c = c.Scale(start.SolutionSalinity().GramsPerKilogram() / c.SolutionSalinity().GramsPerKilogram())
		assert.True(t, c.Equal(aged.Composition, 1e-6), every.String())
		assert.InDelta(t, 0, float64(aged.Composition.Charge()), 1e-6)
	}
	// Charges that are left over are made up.
	odd, err := Age(Ageing{Water: water, Leaves: leaves.Add(ions.Chloride, 30), After: 100 * oneDay})
	require.NoError(t, err)
	assert.InDelta(t, 0, float64(odd.Composition.Charge()), 1e-6)
	even, err := Age(Ageing{Water: water, Leaves: leaves.Add(ions.Chloride, 30).Add(ions.Sodium, 30), After: 100 * oneDay})
	require.NoError(t, err)
	assert.True(t, even.Composition.Equal(odd.Composition, 1e-6))

	// Nothing left behind, nothing moved.
	same, err := Age(Ageing{Water: water, After: 3650 * oneDay})
	require.NoError(t, err)
	for _, r := range same.Readings.By {
		assert.InDelta(t, same.Readings.Dissolved.GramsPerKilogram(), r.Shown.GramsPerKilogram(), 1e-6) // the printed mole fractions add up to 1e-9
	}
}

func TestAgeRefuses(t *testing.T) {
	water, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	require.NoError(t, err)
	for name, a := range map[string]Ageing{
		"no water":    {After: oneDay},
		"backwards":   {Water: water, After: -oneDay},
		"share":       {Water: water, Change: units.Share(1.2), Every: oneDay, After: oneDay},
		"no interval": {Water: water, Change: units.Share(0.1), After: oneDay},
		"no number":   {Water: water, Leaves: ions.Composition{}.Add(ions.Sodium, units.AmountPerKilogram(math.NaN())), After: oneDay},
		"takes all":   {Water: water, Leaves: ions.Composition{}.Add(ions.Chloride, -1e6).Add(ions.Sodium, -1e6), After: 365 * oneDay},
	} {
		aged, err := Age(a)
		assert.Error(t, err, name)
		assert.Zero(t, aged, name)
	}
}
