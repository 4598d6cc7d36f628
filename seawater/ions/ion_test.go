package ions

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
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

// IUPAC 2021, abridged: Prohaska et al. 2022, Pure Appl. Chem. 94, 573, table 1, typed
// in as printed; the ions are sums of them by hand.
func TestMolarMasses(t *testing.T) {
	printed := [count]string{
		Sodium: "22.990", Magnesium: "24.305", Calcium: "40.078", Potassium: "39.098", Strontium: "87.62", Lithium: "6.94",
		Barium: "137.33", Ammonium: "18.039", Manganese: "54.938", Zinc: "65.38", Copper: "63.546", Chloride: "35.45",
		Sulfate: "96.056", Bicarbonate: "61.016", Carbonate: "60.008", Bromide: "79.904", Borate: "78.838", Fluoride: "18.998",
		Hydroxide: "17.007", Iodide: "126.90", Iodate: "174.897", Nitrate: "62.004", Nitrite: "46.005", Phosphate: "95.978",
		Molybdate: "159.946", Acetate: "59.044", BoricAcid: "61.831", CarbonDioxide: "44.009", Silicate: "96.113", Iron: "55.845",
	}
	for i := range Ion(count) {
		x, err := strconv.ParseFloat(printed[i], 64)
		require.NoError(t, err)
		checks.Absolute(t, i.Name(), i.MolarMass().GramsPerMole(), x, 1e-9)
	}
	for as, want := range map[units.MolarMass]Ion{
		units.AsNitrate: Nitrate, units.AsNitrite: Nitrite, units.AsAmmonium: Ammonium, units.AsSulfate: Sulfate,
		units.AsBoricAcid: BoricAcid, units.AsIodate: Iodate, units.AsCarbonDioxide: CarbonDioxide,
	} {
		checks.Absolute(t, want.Name(), float64(as), species[want].molarMass, 1e-9)
	}
	// As what a mass may be counted, by hand again.
	for _, r := range []struct {
		ion  Ion
		as   string
		want float64
	}{
		{Ammonium, "NH3", 17.031}, {Phosphate, "PO4", 94.970}, {Silicate, "SiO2", 60.083}, {Calcium, "CaCO3", 100.086},
		{Magnesium, "CaCO3", 100.086}, {Molybdate, "Mo", 95.95}, {Molybdate, "MoO4", 159.946}, {Iodate, "I", 126.90},
	} {
		for _, c := range countings {
			if c.ion == r.ion && c.as == r.as {
				checks.Absolute(t, r.as, c.mass, r.want, 1e-9)
			}
		}
	}
}
