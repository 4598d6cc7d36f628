package salts_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/units"
)

// Formulas are written in the order of Hill (1900, J. Am. Chem. Soc. 22, 478-494), and
// read as what they were.
func TestFormulaAsText(t *testing.T) {
	for given, want := range map[string]string{
		"": "", "NaCl": "ClNa", "CaCl2·2H2O": "CaCl2.2H2O", "MgSO4.7H2O": "MgO4S.7H2O", "B(OH)3": "BH3O3", "NaHCO3": "CHNaO3",
		"H2O": "H2O", "2CaSO4.H2O": "Ca2O8S2.H2O", "CO": "CO", "CoCl2": "Cl2Co",
	} {
		f, err := units.Parse[salts.Formula](given)
		require.NoError(t, err, given)
		written, err := f.MarshalText()
		require.NoError(t, err)
		assert.Equal(t, want, string(written))
		back, err := units.Parse[salts.Formula](want)
		require.NoError(t, err, want)
		assert.Equal(t, f, back, given)
	}
	_, err := units.Parse[salts.Formula]("NaXy")
	assert.ErrorIs(t, err, units.ErrInput)
}
