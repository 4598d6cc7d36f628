package ions

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

func TestLookup(t *testing.T) {
	for text, want := range map[string]Ion{
		"Na": Sodium, "Na+": Sodium, "Na⁺": Sodium, "Na+1": Sodium, "Na1+": Sodium, "sodium": Sodium, "Sodium": Sodium,
		"SO4": Sulfate, "SO4--": Sulfate, "SO4-2": Sulfate, "SO4 2-": Sulfate, "SO4^2-": Sulfate, "SO₄²⁻": Sulfate, "sulphate": Sulfate,
		"Mg": Magnesium, "Mg2+": Magnesium, "Ca²⁺": Calcium, "I": Iodide, "IO3-": Iodate, "K": Potassium,
		"NO3": Nitrate, "NO2-": Nitrite, "NH4+": Ammonium, "NH3": Ammonium,
		"PO4": Phosphate, "PO4-3": Phosphate, "PO4---": Phosphate, "HPO4--": Phosphate,
		"B(OH)4-": Borate, "B(OH)3": BoricAcid, "H3BO3": BoricAcid, "boric acid": BoricAcid,
		"Si(OH)4": Silicate, "SiO2": Silicate, "CO2": CarbonDioxide, "CO3--": Carbonate, "HCO3-": Bicarbonate,
		"Fe": Iron, "Fe+3": Iron, "CH3COO-": Acetate,
	} {
		got, ok := Lookup(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "N", "S", "P", "B", "C", "Si", "na", "CA", "Na-", "Na++", "SO4-", "SO42", "SO4+2", "Cl2", "salt", "NaCl", "Mg2", string(make([]byte, 1000))} {
		_, ok := Lookup(text)
		assert.False(t, ok, text)
	}
}

func TestIonTable(t *testing.T) {
	seen := map[string]bool{}
	for i := Ion(0); i < count; i++ {
		assert.NotEmpty(t, i.Symbol())
		assert.False(t, seen[i.Symbol()] || seen[i.Name()], i.Symbol())
		seen[i.Symbol()], seen[i.Name()] = true, true
		signs := 0
		for _, r := range i.Symbol() {
			if r == '+' {
				signs++
			} else if r == '-' {
				signs--
			}
		}
		assert.Equal(t, i.Charge(), signs, "charge and symbol of %s", i)
		assert.LessOrEqual(t, math.Abs(float64(species[i].protons)), math.Abs(float64(i.Charge())))
		assert.Positive(t, i.MolarMass().GramsPerMole())

		text, err := i.MarshalText()
		assert.NoError(t, err)
		back, err := units.Parse[Ion](string(text))
		assert.NoError(t, err)
		assert.Equal(t, i, back)
	}
	for _, none := range []Ion{count, 255} {
		assert.Equal(t, "?", none.String())
		assert.Equal(t, "no ion", none.Name())
		assert.Zero(t, none.Charge())
		assert.True(t, math.IsNaN(float64(none.MolarMass())))
		_, err := none.MarshalText()
		assert.ErrorIs(t, err, units.ErrInput)
	}
	_, err := units.Parse[Ion]("Xy")
	assert.EqualError(t, err, `ion: got "Xy", want a formula or a name such as "Na", "SO4--" or "calcium"`)
}

// Every ion conducts, and every species has a volume and a refraction, but iron
// that is no ion.
func TestNoSpeciesForgotten(t *testing.T) {
	conducts := map[Ion]bool{Chloride: true}
	for _, c := range chlorideOf {
		conducts[c.ion] = true
	}
	for _, a := range insteadOfChloride {
		conducts[a.ion] = true
	}
	for _, a := range limiting {
		conducts[a.ion] = true
	}
	for i := Ion(0); i < count; i++ {
		assert.Equal(t, i.Charge() != 0, conducts[i], i)
		if i != Iron {
			assert.NotZero(t, volumeCoef[i].a[0], i)
			assert.NotZero(t, refractionCoef[i], i)
		}
	}
}
