package recipe

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// of makes a batch of a gram of each compound, for its order and cautions only.
func of(t testing.TB, formulas ...string) Batch {
	t.Helper()
	b := Batch{WaterVolume: 10, Mass: 10000}
	for i, f := range formulas {
		b.Items = append(b.Items, Weighed{Reagent: salts.Reagent{Compound: compound(t, f), Purity: units.Share(1)}, Mass: units.Mass(i + 1)})
	}
	return b
}

func order(b Batch) string {
	var list []string
	for _, s := range b.Steps() {
		var names []string
		for _, item := range s.Items {
			names = append(names, item.Reagent.Compound.Formula())
		}
		list = append(list, strings.Join(names, " "))
	}
	return strings.Join(list, " | ")
}

// The order of Kester et al. 1967: the weighed salts, then the chlorides of
// magnesium, calcium and strontium.
func TestSteps(t *testing.T) {
	b, err := find(t, "Kester").Batch(units.Practical(35), 100, units.Celsius(25))
	require.NoError(t, err)
	assert.Equal(t, " | NaCl Na2SO4 KCl NaHCO3 KBr H3BO3 NaF | MgCl2.6H2O | CaCl2.2H2O | SrCl2.6H2O | ", order(b))
	assert.Equal(t, " | NaCl | MgSO4 | Ca(OH)2 NaOH Na2CO3 | ", order(of(t, "Na2CO3", "NaOH", "Ca(OH)2", "MgSO4", "NaCl")))
	assert.Equal(t, " | BaCl2 | C2H5OH ZnSO4 KI | ", order(of(t, "BaCl2", "KI", "ZnSO4", "C2H5OH")))
	assert.Empty(t, Batch{}.Steps())

	// every reagent goes in once
	var all []string
	for c := range salts.All() {
		all = append(all, c.Formula())
	}
	n := 0
	for _, s := range of(t, all...).Steps() {
		assert.NotEmpty(t, s.Text)
		n += len(s.Items)
	}
	assert.Equal(t, len(all), n)
}

// batchOf is Kester's water of a salinity.
func batchOf(t testing.TB, salinity float64) Batch {
	t.Helper()
	b, err := find(t, "Kester").Batch(units.Practical(salinity), 100, units.Celsius(25))
	require.NoError(t, err)
	return b
}

// Gypsum for the calcium of 100 L: 181 g, of which 2.6 g dissolve in a litre, do not
// go into the ten litres that are kept, calcium chloride does.
func TestStepsKnowWhatHardlyDissolves(t *testing.T) {
	p, err := Solve(seawaterJob(t, "NaCl", "MgCl2.6H2O", "Na2SO4", "CaSO4.2H2O", "KCl", "NaHCO3", "KBr", "H3BO3", "SrCl2.6H2O", "NaF"))
	require.NoError(t, err)
	assert.Empty(t, p.Missed())
	var text string
	for _, s := range p.Steps() {
		text += s.Text
	}
	assert.Contains(t, text, "CaSO4.2H2O needs at least 69.5 L to dissolve, more than is kept: stir it as a powder into the whole batch and give it a day.")
	for _, s := range batchOf(t, 35).Steps() {
		assert.NotContains(t, s.Text, "needs at least")
	}
}

// The carbonate side of the mix: that of package carbonate for the same totals.
func TestBatchCarbonate(t *testing.T) {
	b := batchOf(t, 35)
	w, err := b.Carbonate()
	require.NoError(t, err)
	assert.InDelta(t, 35, w.Salinity.Value(), 0.1)
	assert.InDelta(t, float64(b.Composition.Alkalinity()), float64(w.Alkalinity), 1e-6)
	assert.InDelta(t, float64(b.Composition.Carbon()), float64(w.DIC), 1e-6)
	poured, err := w.System()
	require.NoError(t, err)
	settled, err := b.Settled()
	require.NoError(t, err)
	assert.InDelta(t, float64(settled.Amount(ions.Carbonate)), float64(poured.Carbonate()), 0.01)
	aired, err := w.Equilibrate(420, units.Atmosphere)
	require.NoError(t, err)
	open, err := aired.System()
	require.NoError(t, err)
	assert.Less(t, poured.PH().Value(), open.PH().Value(), "bicarbonate and boric acid: CO2 leaves")
	assert.InDelta(t, 8.03, open.PH().Value(), 0.03)
}

func TestCautions(t *testing.T) {
	has := func(b Batch, id string) bool {
		return slices.ContainsFunc(b.Cautions(), func(c advice.Caution) bool { return c.ID == id })
	}
	for _, r := range []struct {
		id        string
		with, not []string
	}{
		{"calcium-meets-sulfate", []string{"CaCl2", "Na2SO4"}, []string{"CaSO4.2H2O", "NaCl"}},
		{"calcium-meets-carbonate", []string{"CaCl2", "NaHCO3"}, []string{"CaCl2", "Na2SO4"}},
		{"calcium-meets-carbonate", []string{"Ca(OH)2", "NaHCO3"}, []string{"CaCO3", "NaCl"}},
		{"calcium-meets-phosphate", []string{"CaCl2", "KH2PO4"}, []string{"MgCl2", "KH2PO4"}},
		{"calcium-meets-fluoride", []string{"CaCl2.2H2O", "NaF"}, []string{"KCl", "NaF"}},
		{"magnesium-meets-base", []string{"MgCl2", "NaOH"}, []string{"MgCl2", "NaHCO3"}},
		{"magnesium-meets-base", []string{"MgSO4", "Na2CO3"}, []string{"MgSO4", "HCl"}},
		{"strontium-meets-sulfate", []string{"SrCl2", "MgSO4"}, []string{"SrCl2", "MgCl2"}},
		{"barium-meets-sulfate", []string{"BaCl2", "K2SO4"}, []string{"BaCl2", "KCl"}},
		{"heats-in-water", []string{"CaCl2"}, []string{"CaCl2.6H2O"}},
		{"heats-in-water", []string{"MgCl2"}, []string{"MgCl2.6H2O"}},
		{"acid-meets-weak-salt", []string{"HCl", "NaHCO3"}, []string{"HCl", "KBr"}},
		{"acid-meets-weak-salt", []string{"CH3COOH", "KI"}, []string{"NaOH", "KI"}},
		{"acid-meets-weak-salt", []string{"FeCl3", "NaF"}, []string{"NaF", "NaCl"}},
		{"acid-meets-weak-salt", []string{"KH2PO4", "KIO3"}, []string{"Na2HPO4", "KIO3"}},
		{"hardly-soluble", []string{"CaCO3"}, []string{"CaCl2"}},
		{"mix-before-animals", []string{"NaCl"}, nil},
		{"reagent-grade", []string{"NaCl"}, nil},
	} {
		assert.True(t, has(of(t, r.with...), r.id), "%s with %v", r.id, r.with)
		assert.False(t, has(of(t, r.not...), r.id), "%s with %v", r.id, r.not)
	}
	assert.True(t, has(batchOf(t, 2), "density-extrapolated"))
	assert.False(t, has(batchOf(t, 34), "density-extrapolated"))
	heavy := of(t, "NaCl")
	assert.False(t, has(heavy, "heavy-water"))
	heavy.Mass = 40 * units.Kilogram
	assert.True(t, has(heavy, "heavy-water"))
	assert.False(t, has(heavy, "fine-balance"))
	heavy.Items[0].Mass = 50 * units.Milligram
	assert.True(t, has(heavy, "fine-balance"))

	list := of(t, "CaCl2", "NaCl", "MgCl2").Cautions()
	seen := map[string]bool{}
	for _, c := range list {
		assert.False(t, seen[c.ID], c.ID)
		seen[c.ID] = true
		if c.ID == "heats-in-water" {
			assert.True(t, strings.HasPrefix(c.Text, "CaCl2, MgCl2: Gives off heat"), c.Text)
			assert.Equal(t, advice.Danger, c.Severity)
		}
		if c.ID == "reagent-grade" {
			assert.True(t, strings.HasPrefix(c.Text, "Use food"), "it is about all of them")
		}
	}
}

// Figures of mixing, number by number, typed in a second time. All are common practice
// but the air (near 420 ppm in 2023, from memory) and the saturation, which is that of
// package advice.
func TestFigures(t *testing.T) {
	for _, r := range []struct {
		name      string
		got, want float64
	}{
		{"water held back", keptWater, 0.1},
		{"times its mass of water", apart, 5},
		{"pH of an alkaline mix", alkalineMix, 8.8},
		{"CO2 of the air, ppm", outdoors, 420},
		{"mass for a fine balance, g", fineBalance.Grams(), 1},
		{"carbon per alkalinity, seawater", leastCarbon, 0.85},
		{"carbon per alkalinity, bicarbonate and a little", mostCarbon, 1.02},
		{"weight of carbon", carbonWeight, 0.1},
		{"span of weights", mostWeight, 1e6},
	} {
		assert.Equal(t, r.want, r.got, r.name)
	}
}

// The limits of the chemistry, each from just below and just above: pH 8.8 and 7.0 on the
// total scale as poured, aragonite 5 as poured or aired.
func TestChemistryLimits(t *testing.T) {
	base := batchOf(t, 35)
	chemistry := func(alkalinity, carbon float64) (ids []string, ph, omega float64) {
		b := base
		c := ions.Reference(units.Practical(35)).With(ions.Carbonate, 0).With(ions.CarbonDioxide, 0).With(ions.Hydroxide, 0).
			With(ions.Borate, 0).With(ions.BoricAcid, 0).With(ions.Bicarbonate, units.AmountPerKilogram(carbon))
		b.Composition = c.Add(ions.Sodium, units.AmountPerKilogram(alkalinity)-c.Alkalinity())
		for _, x := range b.chemistry() {
			assert.Equal(t, advice.Care, x.Severity)
			ids = append(ids, x.ID)
		}
		w, err := b.Carbonate()
		require.NoError(t, err)
		s, err := w.System()
		require.NoError(t, err)
		aired, err := w.Equilibrate(420, units.Atmosphere)
		require.NoError(t, err)
		open, err := aired.System()
		require.NoError(t, err)
		return ids, s.PH().Value(), max(s.Aragonite(), open.Aragonite())
	}
	seen := map[string]int{}
	for alkalinity := 300.; alkalinity < 5000; alkalinity += 100 {
		for part := 0.3; part < 1.2; part += 0.02 {
			ids, ph, omega := chemistry(alkalinity, part*alkalinity)
			for id, applies := range map[string]bool{"alkaline-mix": ph > 8.8, "acid-mix": ph < 7, "chalk-may-fall-out": omega > 5} {
				assert.Equal(t, applies, slices.Contains(ids, id), "%s at pH %v, aragonite %v", id, ph, omega)
				if applies {
					seen[id]++
				}
			}
		}
	}
	assert.Len(t, seen, 3, "each of them was met")
}
