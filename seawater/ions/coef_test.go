package ions

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
)

// [MC11], number by number, also of the salts that hardly any water holds enough
// of for a reading to tell.
func TestSaltsArePrinted(t *testing.T) {
	number := map[string]int{
		"NaCl": naCl, "KCl": kCl, "MgCl2": mgCl2, "CaCl2": caCl2, "SrCl2": srCl2, "BaCl2": baCl2, "LiCl": liCl,
		"NH4Cl": nH4Cl, "Na2SO4": na2SO4, "K2SO4": k2SO4, "KHCO3": kHCO3, "K2CO3": k2CO3, "KNO3": kNO3,
	}
	found := 0
	for _, row := range checks.Table(t, "testdata/mccleskey2011.csv") {
		i, ok := number[row["salt"]]
		if !ok {
			continue
		}
		found++
		a := saltCoef[i]
		assert.Equal(t, [3]float64{row.Float(t, "c3"), row.Float(t, "c2"), row.Float(t, "c1")}, a.c, row["salt"])
		assert.Equal(t, [3]float64{row.Float(t, "d3"), row.Float(t, "d2"), row.Float(t, "d1")}, a.d, row["salt"])
		assert.Equal(t, row.Float(t, "B"), a.b, row["salt"])
	}
	require.Equal(t, len(saltCoef), found)
}

// CRC Handbook of Chemistry and Physics, ionic conductivity at infinite dilution;
// acetate Marcus 1997; borate and molybdate from memory.
func TestLimitingConductivities(t *testing.T) {
	printed := map[Ion]float64{
		Bromide: 78.1, Fluoride: 55.4, Hydroxide: 198.0, Phosphate: 57.0, Borate: 35.3,
		Iodide: 76.8, Iodate: 40.5, Nitrite: 71.8, Molybdate: 74.5, Acetate: 40.9,
	}
	for _, l := range limiting {
		assert.Equal(t, printed[l.ion], l.value, l.ion.String())
	}
	assert.Len(t, limiting, len(printed))
	assert.Equal(t, 76.31, limitingChloride)
}

// What a report is given where it says nothing: stated in the package comment and in
// what Close assumes.
func TestUsualUncertainties(t *testing.T) {
	assert.Equal(t, []float64{0.02, 0.003, 0.05, 0.2}, []float64{usualUncertainty, bulkUncertainty, proportionScatter, alkalinityScatter})
	assert.Equal(t, 0.02, limitingPerK)
}
