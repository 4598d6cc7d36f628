package ions

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// The stock solution of a calcium test: 20 g of CaCl2 in a kilogram.
func ExampleCheckRangeIndex() {
	const moles = 20 / 110.978 * 1000 // mmol
	c := Composition{}.With(Calcium, moles*units.MillimolePerKilogram).With(Chloride, 2*moles*units.MillimolePerKilogram)
	t := units.Celsius(20)
	fmt.Println(CheckRange(c, t))
	fmt.Printf("%v, index %.4f\n", CheckRangeIndex(c, t), c.Index(t).Value())
	// Output:
	// share of sodium chloride in the charge: 0 % is outside 50 to 100 % (the model is one of waters in which sodium chloride prevails)
	// <nil>, index 1.3377
}

// Each salt of the table within 1.4e-4 as far as the range goes; beyond it, refused.
func TestIndexOfSingleSalts(t *testing.T) {
	const known = 1.4e-4
	of := map[string]struct {
		molar float64 // g/mol, IUPAC 2021
		has   map[Ion]float64
	}{
		"KCl": {74.548, map[Ion]float64{Potassium: 1, Chloride: 1}}, "MgCl2": {95.205, map[Ion]float64{Magnesium: 1, Chloride: 2}},
		"CaCl2": {110.978, map[Ion]float64{Calcium: 1, Chloride: 2}}, "MgSO4": {120.361, map[Ion]float64{Magnesium: 1, Sulfate: 1}},
		"NaHCO3": {84.006, map[Ion]float64{Sodium: 1, Bicarbonate: 1}},
	}
	at := units.Celsius(20)
	within, beyond := map[string]int{}, 0
	for _, r := range checks.Table(t, "testdata/crc_index.csv") {
		salt := of[r["salt"]]
		var c Composition
		for i, n := range salt.has {
			c = c.With(i, units.AmountPerKilogram(n*r.Float(t, "mass_percent")/100/salt.molar*1e9))
		}
		if c.IonicStrength() > 0.7 {
			assert.ErrorIs(t, CheckRangeIndex(c, at), units.ErrRange, r["salt"])
			beyond++
			continue
		}
		require.NoError(t, CheckRangeIndex(c, at), r["salt"])
		assert.ErrorIs(t, CheckRange(c, at), units.ErrRange, r["salt"])
		checks.Absolute(t, r["salt"]+" "+r["mass_percent"], c.Index(at).Value(), r.Float(t, "index"), known)
		within[r["salt"]]++
	}
	assert.Equal(t, map[string]int{"KCl": 4, "MgCl2": 3, "CaCl2": 3, "MgSO4": 2, "NaHCO3": 9}, within)
	assert.Greater(t, beyond, 30)
}

func TestCheckRangeIndex(t *testing.T) {
	two := Composition{}.With(Potassium, 100*units.MillimolePerKilogram).With(Chloride, 100*units.MillimolePerKilogram)
	assert.NoError(t, CheckRangeIndex(two, units.Celsius(18)))
	assert.ErrorIs(t, CheckRangeIndex(two, units.Celsius(25)), units.ErrRange)
	assert.ErrorIs(t, CheckRangeIndex(two, units.Temperature{}), units.ErrInput)
	assert.NoError(t, CheckRangeIndex(Reference(units.Practical(35)), units.Celsius(30)), "as CheckRange")
	assert.ErrorIs(t, CheckRangeIndex(two.With(Chloride, 0), units.Celsius(20)), units.ErrInput, "no balance")
	iodide := Composition{}.With(Potassium, 100*units.MillimolePerKilogram).With(Iodide, 100*units.MillimolePerKilogram)
	assert.ErrorIs(t, CheckRangeIndex(iodide, units.Celsius(20)), units.ErrRange)
	// Nearly no salt: the index of pure water.
	thin := two.Scale(1e-6)
	assert.NoError(t, CheckRangeIndex(thin, units.Celsius(20)))
	assert.InDelta(t, 1.33299, thin.Index(units.Celsius(20)).Value(), 2e-5)
}
