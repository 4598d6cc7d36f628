package formula

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// Molar masses by the CRC Handbook, to the digits of the weights of 2021. Packages salts and
// pitzer test what they make of formulas.
func TestParse(t *testing.T) {
	for text, want := range map[string]struct {
		mass   string
		waters uint16
	}{
		"CaCl2·2H2O": {"147.01", 2}, "MgSO4:7H2O": {"246.47", 7}, "B(OH)3": {"61.83", 0}, "(NH4)2SO4": {"132.13", 0},
		"2CaSO4.H2O": {"290.28", 1}, "K2[Fe(SO4)2].6H2O": {"434.24", 6}, "CaCl₂·2H₂O": {"147.01", 2}, "NaOH": {"40.00", 0},
	} {
		f, err := Parse(text)
		require.NoError(t, err, text)
		checks.Printed(t, text, f.MolarMass().GramsPerMole(), want.mass)
		assert.Equal(t, want.waters, f.Water, text)
		assert.Zero(t, f.Dry().Water)
	}
	for _, text := range []string{"", "Xx", "Na)", "(Na", "NaCl.", "Na99999", "Na0", "((((((((((Na))))))))))"} {
		_, err := Parse(text)
		assert.ErrorIs(t, err, units.ErrInput, text)
	}
	assert.Equal(t, -1, Index("na"))
}
