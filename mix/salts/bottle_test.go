package salts

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/pitzer"
	"example.org/wellmixed/units"
)

// bottle is so many grams of each compound in a kilogram of water.
func bottle(t testing.TB, cold, warm float64, parts map[string]units.Mass) Bottle {
	t.Helper()
	b := Bottle{Water: units.Kilogram, Cold: units.Celsius(cold), Warm: units.Celsius(warm)}
	for c := range All() {
		if m, in := parts[c.Formula()]; in {
			b.Parts = append(b.Parts, Part{c, m})
		}
	}
	require.Len(t, b.Parts, len(parts))
	return b
}

// Stock solutions of the trade: solubility of handbooks, in g of the compound in a kilogram of
// water, beside the ion-interaction model with its own constants, and by how much in percent the
// model is off. The handbook values are those of the table (secondary, 2 to 3 %).
func TestModelBesideHandbooks(t *testing.T) {
	for _, r := range []struct {
		formula         string
		celsius         float64
		handbook, model string
		percent         string
	}{
		{"NaCl", 25, "359.6", "358.2", "-0.4"},
		{"KCl", 25, "356.9", "357.2", "0.1"},
		{"KCl", 0, "280.0", "267.8", "-4.4"},
		{"MgCl2.6H2O", 20, "3067", "3131", "2.1"},
		{"MgSO4.7H2O", 20, "1131", "1075", "-4.9"},
		{"Na2SO4", 20, "195.0", "195.5", "0.3"},
		{"K2SO4", 20, "111.0", "102.4", "-7.8"},
		{"CaSO4.2H2O", 20, "2.55", "2.54", "-0.3"},
		{"NaHCO3", 25, "102.9", "108.9", "5.9"},
		{"Na2CO3", 25, "289.5", "290.6", "0.4"},
		{"KHCO3", 25, "367.4", "360.8", "-1.8"},
		{"H3BO3", 25, "54.3", "57.7", "6.3"}, // between printed values of 20 and 40 °C
		{"Na2B4O7.10H2O", 25, "62.2", "62.0", "-0.3"},
	} {
		b := bottle(t, r.celsius, r.celsius, map[string]units.Mass{r.formula: units.Gram})
		saturated, err := Saturated(b.Parts[0].Compound, b.Cold)
		require.NoError(t, err, r.formula)
		handbook := saturated.Into(units.Kilogram).Grams()
		bare := b.stock()
		bare.Measured = nil
		limit, err := bare.Strongest()
		require.NoError(t, err, r.formula)
		model := limit.Salts[0].Mass.Grams()
		checks.Printed(t, r.formula+", handbook", handbook, r.handbook)
		checks.Printed(t, r.formula+", model", model, r.model)
		checks.Printed(t, r.formula+", model less handbook in percent", 100*(model/handbook-1), r.percent)
	}
}

// A bottle of one compound is as strong as the table says, wherever a solid of the model lies
// under it.
func TestBottleOfOneIsSaturated(t *testing.T) {
	n := 0
	for _, a := range anchors {
		for celsius := a.cold; celsius <= a.warm; celsius += 2 {
			b := bottle(t, celsius, celsius, map[string]units.Mass{a.formula: 3 * units.Gram})
			s, err := b.Strongest()
			require.NoError(t, err, "%s at %v", a.formula, celsius)
			saturated, err := Saturated(b.Parts[0].Compound, b.Cold)
			require.NoError(t, err)
			if s.Open {
				assert.LessOrEqual(t, s.Parts[0].Mass.Grams(), saturated.Into(units.Kilogram).Grams()*(1+1e-9), a.formula)
				continue
			}
			assert.Equal(t, a.solid, s.By, "%s at %v", a.formula, celsius)
			checks.Relative(t, a.formula, s.Parts[0].Mass.Grams(), saturated.Into(units.Kilogram).Grams(), 1e-6)
			n++
		}
	}
	assert.Greater(t, n, 200)
}

// Where the model has no solid, no compound is stronger than it would be alone.
func TestBottleOpen(t *testing.T) {
	b := bottle(t, 10, 30, map[string]units.Mass{"KNO3": 10, "NaNO3": 10})
	s, err := b.Strongest()
	require.NoError(t, err)
	assert.True(t, s.Open)
	assert.Equal(t, "KNO3", s.Alone.Formula())
	checks.Printed(t, "KNO3, handbooks at 10 °C", s.Parts[1].Mass.Grams()/10, "20.9")

	b = bottle(t, 15, 30, map[string]units.Mass{"CaCl2.2H2O": 10})
	s, err = b.Strongest()
	require.NoError(t, err)
	assert.True(t, s.Open)
	assert.False(t, s.Alone.Exists(), "the comparison with measurements ends first, at 5 mol/kg")
	anhydrous := s.Parts[0].Mass.Grams() / 147.008
	checks.Relative(t, "mol/kg", anhydrous/(1+anhydrous*2*0.018015), 5, 1e-4)
}

// What falls out of a bottle of calcium chloride and Epsom salt, by the balance of masses:
// 172.17 g of gypsum for each mole that has left the water.
func TestBottleJudge(t *testing.T) {
	b := bottle(t, 15, 30, map[string]units.Mass{"CaCl2.2H2O": 75, "MgSO4.7H2O": 60, "KCl": 10})
	b.Water = 500 * units.Gram
	v, err := b.Judge()
	require.NoError(t, err)
	assert.False(t, v.Clear())
	assert.Equal(t, pitzer.Gypsum, v.Whole.Worst)
	require.Len(t, v.Pairs, 3)
	clear := 0
	for _, p := range v.Pairs {
		if p.Clear() {
			clear++
		}
	}
	assert.Equal(t, 2, clear, "only the pair of calcium and sulfate clouds")
	require.Len(t, v.Ground, 2)
	for i, g := range v.Ground {
		require.Len(t, g.Solids, 1)
		assert.Equal(t, pitzer.Gypsum, g.Solids[0].Solid)
		// of 60/246.47 mol of sulfate next to nothing stays
		all := 60 / 246.474 * 172.164
		assert.Less(t, g.Solids[0].Mass.Grams(), all)
		assert.Greater(t, g.Solids[0].Mass.Grams(), 0.95*all, "%d", i)
	}
	b.Parts = b.Parts[:1]
	v, err = b.Judge()
	require.NoError(t, err)
	assert.True(t, v.Clear())
	assert.Empty(t, v.Ground[0].Solids)
}

// Common-ion effect: sodium chloride pushes sodium hydrogen carbonate out.
func TestBottleCommonIon(t *testing.T) {
	alone, err := bottle(t, 20, 20, map[string]units.Mass{"NaHCO3": 10}).Strongest()
	require.NoError(t, err)
	both, err := bottle(t, 20, 20, map[string]units.Mass{"NaHCO3": 10, "NaCl": 20}).Strongest()
	require.NoError(t, err)
	assert.Equal(t, pitzer.Nahcolite, both.By)
	assert.Less(t, both.Parts[1].Mass.Grams(), 0.8*alone.Parts[0].Mass.Grams())
}

func TestBottleRefuses(t *testing.T) {
	good := func() Bottle { return bottle(t, 15, 25, map[string]units.Mass{"NaCl": 100}) }
	for _, r := range []struct {
		spoil func(*Bottle)
		want  string
	}{
		{func(b *Bottle) { b.Parts = nil }, "parts: got nothing, want a compound"},
		{func(b *Bottle) { b.Parts[0].Compound = Compound{} }, "parts[0].compound: got none, want a compound"},
		{func(b *Bottle) { b.Parts[0].Compound = must(t, "KH2PO4") }, "parts[0].compound: got KH2PO4, want a salt"},
		{func(b *Bottle) { b.Parts[0].Compound = must(t, "sucrose") }, "parts[0].compound: got C12H22O11, want a salt"},
		{func(b *Bottle) { b.Parts[0].Mass = 0 }, "parts[0].mass: got 0 g, want"},
		{func(b *Bottle) { b.Water = -1 }, "water: got -1 g, want"},
		{func(b *Bottle) { b.Warm = units.Celsius(60) }, "warm"},
		{func(b *Bottle) { b.Cold = units.Temperature{} }, "cold"},
		{func(b *Bottle) { b.Cold = units.Celsius(30) }, "warm: got 25 °C, want a temperature not below the coldest"},
	} {
		b := good()
		r.spoil(&b)
		_, err := b.Strongest()
		assert.ErrorContains(t, err, r.want)
		_, err = b.Judge()
		assert.ErrorContains(t, err, r.want)
	}
	// soda above 30 °C: its monohydrate is not among the solids
	_, err := bottle(t, 35, 40, map[string]units.Mass{"Na2CO3": 400}).Strongest()
	assert.ErrorIs(t, err, units.ErrRange)
}

// What stands behind the strongest solution. Calcite: 0.013 g/L of CaCO3 in pure water closed to
// the air at 25 °C (0.014 with solubility products of 3.3 to 4.5e-9 in handbooks; from memory).
func TestBound(t *testing.T) {
	at := func(formula string, celsius float64) Bound {
		b, err := must(t, formula).Bound(units.Celsius(celsius))
		require.NoError(t, err, formula)
		return b
	}
	assert.Equal(t, ByHandbook, at("NaCl", 25).By)
	assert.Equal(t, "2.64494 g/kg, by handbook within 3 %", Bound{2644.94, ByHandbook, units.Percent(3)}.String())
	assert.Equal(t, 5., math.Round(at("Ca(OH)2", 25).Within.Percent()))
	chalk := at("CaCO3", 25)
	assert.Equal(t, ByModel, chalk.By)
	assert.InDelta(t, 0.013, chalk.Content.GramsPerKilogram(), 0.001)
	assert.True(t, math.IsNaN(chalk.Within.Value()))
	for formula, percent := range map[string]float64{"C2H5OH": 100, "CH3COOH": 100, "HCl": 37.5698567711746 - 0.0000, "C12H22O11": 50.6635749173615} {
		b := at(formula, 25)
		assert.Equal(t, ByDensity, b.By, formula)
		assert.InDelta(t, percent*10, b.Content.GramsPerKilogram(), 1e-4, formula)
	}
	_, err := must(t, "MgCO3").Bound(units.Celsius(25))
	assert.EqualError(t, err, "compound: got MgCO3, want one with known solubility", "what falls out is another compound")
	_, err = must(t, "C12H22O11").Bound(units.Celsius(10))
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = must(t, "NaHCO3").Bound(units.Celsius(61))
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = must(t, "NaCl").Bound(units.Temperature{})
	assert.ErrorIs(t, err, units.ErrInput)
	for b := ByHandbook; b <= ByDensity; b++ {
		text, err := json.Marshal(b)
		require.NoError(t, err)
		var back Basis
		require.NoError(t, json.Unmarshal(text, &back))
		assert.Equal(t, b, back)
	}
}

// Acids, ethanol and sugar have a density without a solubility: 38.1 g/L of sucrose stock and so
// on. CRC table at 20 °C: sucrose 20 % is 1.0810 kg/L with 216.2 g/L, HCl 30 % 1.1492 with 344.8
// g/L, ethanol 20 % 0.9687, acetic acid 10 % 1.0121 (densities as in testdata/crc_density.csv).
func TestStockWithoutSolubility(t *testing.T) {
	rows := 0
	for _, r := range checks.Table(t, "testdata/crc_density.csv") {
		c := must(t, r["solute"])
		if b, err := c.Bound(units.Celsius(20)); err != nil || b.By != ByDensity {
			continue
		}
		w := r.Float(t, "mass_percent") / 100
		if w == 0 || w > 0.36 {
			continue
		}
		s, err := Dissolve(c, units.Mass(w)*units.Kilogram, units.Mass(1-w)*units.Kilogram, units.Celsius(20))
		require.NoError(t, err, "%s %v", c, w)
		per, err := s.PerLitre()
		require.NoError(t, err)
		assert.InDelta(t, r.Float(t, "density")*w*1000, per.GramsPerLitre(), 3.85*w, "%s %v", c, w)
		again, err := Stock(c, per, units.Celsius(20))
		require.NoError(t, err)
		checks.Relative(t, c.Formula(), again.Content.GramsPerKilogram(), 1000*w, 1e-9)
		rows++
	}
	assert.Greater(t, rows, 60)
	_, err := Dissolve(must(t, "HCl"), 500*units.Gram, 500*units.Gram, units.Celsius(20))
	assert.ErrorContains(t, err, "in so much water (measured densities)")
	_, err = Dissolve(must(t, "CaCO3"), units.Gram, units.Kilogram, units.Celsius(20))
	assert.ErrorContains(t, err, "in so much water (ion-interaction model)")
}

// Density of a mixture: the main salts of seawater of salinity 35, whose density at 25 °C is 1023.34
// kg/m³ (EOS-80, UNESCO 1983); bromide, borate and carbonate, 0.4 g of 35, are left out and chloride
// for them.
func TestBottleDensity(t *testing.T) {
	b := bottle(t, 25, 25, map[string]units.Mass{"NaCl": 23.93, "MgCl2.6H2O": 10.83, "Na2SO4": 4.01, "CaCl2.2H2O": 1.52, "KCl": 0.68, "NaHCO3": 0.2})
	b.Water = 965 - 6.03 + 0.16 // crystal water brings 6 g
	d, err := b.Density(b.Cold)
	require.NoError(t, err)
	checks.Absolute(t, "density", d.KilogramsPerCubicMetre(), 1023.34, 0.35)

	// one compound is what Solution has
	soda := bottle(t, 20, 20, map[string]units.Mass{"NaHCO3": 80})
	one, err := Dissolve(soda.Parts[0].Compound, 80, 1000, soda.Cold)
	require.NoError(t, err)
	want, err := one.Density()
	require.NoError(t, err)
	d, err = soda.Density(soda.Cold)
	require.NoError(t, err)
	checks.Relative(t, "one", d.KilogramsPerCubicMetre(), want.KilogramsPerCubicMetre(), 1e-14)

	// ethanol and acetic acid together have a density, whether the ion model knows them or not
	feed := bottle(t, 20, 20, map[string]units.Mass{"C2H5OH": 100, "CH3COOH": 50})
	_, err = feed.Density(feed.Cold)
	require.NoError(t, err)
	_, err = feed.Strongest()
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = bottle(t, 20, 20, map[string]units.Mass{"H3BO3": 10}).Density(feed.Cold)
	assert.ErrorContains(t, err, "parts[0].compound: got H3BO3, want one whose solutions have measured densities")
	_, err = bottle(t, 20, 20, map[string]units.Mass{"NaCl": 400}).Density(feed.Cold)
	assert.ErrorIs(t, err, units.ErrRange)
}

func TestMadeUp(t *testing.T) {
	parts := []Part{{must(t, "MgCl2.6H2O"), 300}, {must(t, "MgSO4.7H2O"), 100}}
	b, err := MadeUp(parts, units.Celsius(20))
	require.NoError(t, err)
	d, err := b.Density(b.Cold)
	require.NoError(t, err)
	checks.Relative(t, "a litre", (b.Water.Grams()+400)/d.KilogramsPerCubicMetre(), 1, 1e-9)
	// of one compound as Stock has it
	one, err := MadeUp(parts[:1], units.Celsius(20))
	require.NoError(t, err)
	s, err := Stock(parts[0].Compound, 300*units.GramPerLitre, units.Celsius(20))
	require.NoError(t, err)
	checks.Relative(t, "one", 300/(300+one.Water.Grams())*1000, s.Content.GramsPerKilogram(), 1e-9)
	for _, r := range []struct {
		parts []Part
		is    error
	}{
		{nil, units.ErrInput},
		{[]Part{{must(t, "NaCl"), 900}}, units.ErrRange},
		{[]Part{{must(t, "C2H5OH"), 900}}, units.ErrInput},
		{[]Part{{must(t, "H3BO3"), 9}}, units.ErrInput},
	} {
		_, err := MadeUp(r.parts, units.Celsius(20))
		assert.ErrorIs(t, err, r.is)
	}
}

func BenchmarkBottleStrongest(b *testing.B) {
	b.ReportAllocs()
	x := bottle(b, 15, 30, map[string]units.Mass{"NaHCO3": 10, "Na2CO3": 10})
	for b.Loop() {
		if _, err := x.Strongest(); err != nil {
			b.Fatal(err)
		}
	}
}
