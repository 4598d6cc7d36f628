package recipe

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

func find(t testing.TB, name string) Recipe {
	t.Helper()
	r, err := Find(name)
	require.NoError(t, err)
	return r
}

func TestPublishedMolarities(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/molarities.csv") {
		for _, item := range find(t, row["recipe"]).Items {
			if item.Compound.Formula() != row["formula"] {
				continue
			}
			what := row["recipe"] + " " + row["formula"]
			assert.Equal(t, row.Float(t, "grams"), item.Mass.Grams(), what)
			got, want := item.moles()*1000, row.Float(t, "millimolar")
			// half of the last digit of both numbers
			rounding := checks.LastDigit(row["millimolar"])/2 + 1000*checks.LastDigit(row["grams"])/2/item.Compound.MolarMass().GramsPerMole()
			if what == "ESAW CaCl2.2H2O" {
				// the source contradicts itself: its 1.344 g are 9.142 mmol, not 9.134
				checks.Absolute(t, what, got, 9.142, 0.0005)
				assert.Greater(t, math.Abs(got-want), rounding)
				continue
			}
			checks.Absolute(t, what, got, want, rounding)
		}
	}
}

// The stock solutions of ASTM D1141, with their hydrates, give its table.
func TestASTMStocks(t *testing.T) {
	table := map[string]units.Mass{}
	for _, item := range find(t, "ASTM D1141").Items {
		table[item.Compound.Formula()] = item.Mass
	}
	for _, row := range checks.Table(t, "testdata/astm_stock.csv") {
		perLitre := units.Mass(row.Float(t, "grams_in_7_L")/7*row.Float(t, "mL_per_L")/1000) * units.Gram
		dry, err := salts.Exchange(perLitre, compound(t, row["formula"]), compound(t, row["anhydrous"]))
		require.NoError(t, err)
		checks.Printed(t, row["formula"], dry.Grams(), row["table_g_per_L"])
		assert.Equal(t, row.Float(t, "table_g_per_L"), table[row["anhydrous"]].Grams())
	}
}

// What the sources say of the whole.
func TestPublishedTotals(t *testing.T) {
	for _, r := range []struct{ name, chlorinity, salinity, source string }{
		{"Kester et al. 1967", "", "35.00", "Kester et al. 1967: designed for salinity 35.00"},
		{"ASTM D1141", "19.38", "", "ASTM D1141 (from memory)"},
		{"Lyman and Fleming 1940", "19.00", "", "Lyman and Fleming 1940, Table VII"},
		{"Millero", "", "35.0", "Millero: artificial seawater of salinity 35"},
		{"Aquil", "", "35", "Price et al. 1989"},
		{"ESAW", "", "30", "Berges et al. 2001"},
	} {
		c, err := find(t, r.name).Composition()
		require.NoError(t, err)
		if r.chlorinity != "" {
			checks.Printed(t, r.source, c.Chlorinity().GramsPerKilogram(), r.chlorinity)
		}
		s, err := find(t, r.name).Salinity()
		require.NoError(t, err)
		if r.salinity != "" {
			checks.Printed(t, r.source, s.Value(), r.salinity)
		}
	}
	sum := func(name string) (grams float64) {
		for _, item := range find(t, name).Items {
			grams += item.Mass.Grams()
		}
		return grams
	}
	checks.Printed(t, "Lyman and Fleming 1940, Table VII, sum", sum("Lyman and Fleming"), "34.482")
	// the water of the recipe is remembered as 964.8206 g: together 1000.000 g, to the third decimal
	checks.Printed(t, "Millero, salts and water", sum("Millero")+964.8206, "1000.000")

	// Dickson 1990: no net charge, and the ionic strength of seawater of salinity 35 by
	// the formula of the handbooks, I = 19.924 S/(1000 - 1.005 S), to the third decimal.
	c, err := find(t, "Dickson").Composition()
	require.NoError(t, err)
	assert.InDelta(t, 19.924*35/(1000-1.005*35), c.IonicStrength(), 0.0005)
}

// Ion contents against independent sums: of the printed amounts, by hand.
func TestIonsOfRecipes(t *testing.T) {
	c, err := find(t, "Kester").Composition()
	require.NoError(t, err)
	for _, r := range []struct {
		ion  ions.Ion
		want string // mol per kg of solution
	}{
		{ions.Sodium, "0.4683"},
		{ions.Magnesium, "0.05327"},
		{ions.Calcium, "0.01033"},
		{ions.Potassium, "0.00990"},
		{ions.Chloride, "0.5459"},
		{ions.Sulfate, "0.02822"},
	} {
		checks.Printed(t, r.ion.Name(), c.Amount(r.ion).MolesPerKilogram(), r.want)
	}
	checks.Printed(t, "bicarbonate", c.Amount(ions.Bicarbonate).MillimolesPerKilogram(), "2.333")

	// the molalities of Dickson 1990 come back per kilogram of water
	c, err = find(t, "Dickson").Composition()
	require.NoError(t, err)
	var dry float64
	for _, item := range find(t, "Dickson").Items {
		dry += item.Compound.Mass(item.Moles).Kilograms()
	}
	checks.Relative(t, "Na", c.Amount(ions.Sodium).MolesPerKilogram()*(1+dry), 0.42764+2*0.02927, 1e-12)
	checks.Relative(t, "SO4", c.Amount(ions.Sulfate).MolesPerKilogram()*(1+dry), 0.02927, 1e-12)

	// per litre: density times content gives the printed amounts back, at 20 °C
	mbl := find(t, "MBL")
	c, err = mbl.Composition()
	require.NoError(t, err)
	settled, err := c.Settled(litreAt())
	require.NoError(t, err)
	density := settled.Density(litreAt())
	checks.Relative(t, "MBL Ca", c.Amount(ions.Calcium).PerLitre(density).MillimolesPerLitre(), 9.27, 1e-10)
	checks.Relative(t, "MBL Mg", c.Amount(ions.Magnesium).PerLitre(density).MillimolesPerLitre(), 22.94+25.5, 1e-10)
}

func TestEveryRecipeBalances(t *testing.T) {
	for _, r := range Published() {
		assert.NotEmpty(t, r.Source)
		c, err := r.Composition()
		require.NoError(t, err, r.Name)
		require.NoError(t, c.Check())
		var charges float64
		for i, amount := range c.All() {
			charges += math.Abs(float64(i.Charge()) * float64(amount))
		}
		checks.Absolute(t, r.Name+" charge", float64(c.Charge())/charges, 0, 1e-9)
		for _, s := range []float64{0.5, 20, 35, 40} {
			b, err := r.Batch(units.Practical(s), 80*units.Litre, units.Celsius(24))
			require.NoError(t, err)
			total := b.Water
			for _, item := range b.Items {
				total += item.Mass
				checks.Relative(t, "moles", item.Moles, item.Reagent.Compound.Moles(item.Mass), 1e-12)
			}
			checks.Relative(t, r.Name+" mass", float64(total), float64(b.Mass), 1e-12)
			water := b.Water.Kilograms() // and that of the crystals is the water of the solution
			for _, item := range b.Items {
				solutes := 0.
				for x := range item.Reagent.Compound.Releases() {
					solutes += float64(x.Moles) * x.Ion.MolarMass().GramsPerMole() / 1000
				}
				water += item.Mass.Kilograms() - item.Moles*solutes
			}
			checks.Relative(t, r.Name+" water", water, b.Composition.Water().Value()*b.Mass.Kilograms(), 1e-12)
			checks.Relative(t, r.Name+" salinity", b.Salinity().Value(), s, 1e-12)
			own, err := r.Salinity()
			require.NoError(t, err)
			assert.True(t, b.Composition.Equal(c.Scale(s/own.Value()), 1e-6), r.Name)
			for i, amount := range b.Composition.All() { // every mole weighed is in the water
				var moles float64
				for _, item := range b.Items {
					moles += item.Moles * item.Reagent.Compound.Gives(i)
				}
				checks.Relative(t, r.Name+" "+i.Name(), amount.MolesPerKilogram()*b.Mass.Kilograms(), moles, 1e-12)
			}
		}
	}
}

// At salinity 35 the better recipes are seawater to a few percent, ion by ion.
func TestDeviations(t *testing.T) {
	for _, r := range []struct {
		name   string
		within float64
	}{{"Kester", 0.07}, {"Millero", 0.012}} {
		b, err := find(t, r.name).Batch(units.Practical(35), units.Litre, units.Celsius(25))
		require.NoError(t, err)
		list, err := b.Deviations()
		require.NoError(t, err)
		n := 0
		for _, d := range list {
			switch d.Ion {
			case ions.Sodium, ions.Magnesium, ions.Calcium, ions.Potassium, ions.Strontium, ions.Chloride, ions.Sulfate, ions.Bromide, ions.Fluoride:
				assert.InDelta(t, 1, d.Ratio(), r.within, "%s %s", r.name, d.Ion.Name())
				n++
			}
		}
		assert.Equal(t, 9, n)
	}
	// a buffer medium has neither carbon nor boron, and nothing to settle
	b, err := find(t, "Dickson").Batch(units.Practical(35), units.Litre, units.Celsius(25))
	require.NoError(t, err)
	list, err := b.Deviations()
	require.NoError(t, err)
	for _, d := range list {
		if d.Ion == ions.BoricAcid {
			assert.Zero(t, d.Ratio())
		}
	}
}

// A message is not as long as what it complains of.
func TestMessagesAreShort(t *testing.T) {
	long := strings.Repeat("x", 1<<20)
	_, err := Find(long)
	require.ErrorIs(t, err, units.ErrInput)
	assert.Less(t, len(err.Error()), 500)
	var c Component
	err = c.UnmarshalText([]byte(long))
	require.ErrorIs(t, err, units.ErrInput)
	assert.Less(t, len(err.Error()), 500)
}

func TestFindRefuses(t *testing.T) {
	for _, name := range []string{"", "nobody", "e"} {
		_, err := Find(name)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.ErrorContains(t, err, "want one of Kester et al. 1967, ASTM D1141,")
	}
	assert.Equal(t, "MBL", find(t, "mbl").Name, "a whole name goes before a part of one")
	Published()[0].Items[0].Mass = 1
	assert.NotEqual(t, units.Mass(1), find(t, "Kester").Items[0].Mass, "callers get a copy")
}

func TestRecipeRefuses(t *testing.T) {
	salt := compound(t, "NaCl")
	good := Recipe{Basis: PerLitre, Items: []Item{{Compound: salt, Mass: 35}}}
	_, err := good.Composition()
	require.NoError(t, err)
	nan := math.NaN()
	for _, r := range []struct {
		recipe Recipe
		want   string
	}{
		{Recipe{Items: good.Items}, "basis: got no basis, want per kg of solution, per L of solution or per kg of water"},
		{Recipe{Basis: 9, Items: good.Items}, "basis: got no basis"},
		{Recipe{Basis: PerLitre}, "recipe: got no items, want at least one compound"},
		{Recipe{Basis: PerLitre, Items: []Item{{Mass: 1}}}, "items[0]: got no compound, want a compound"},
		{Recipe{Basis: PerLitre, Items: []Item{{Compound: salt}}}, "items[0]: got 0 mol of NaCl, want a number above zero"},
		{Recipe{Basis: PerLitre, Items: []Item{{salt, 1, 1}}}, "items[0]: got a mass and an amount of NaCl, want one of them"},
		{Recipe{Basis: PerLitre, Items: []Item{{salt, units.Mass(nan), 0}}}, "items[0]: got NaN mol of NaCl"},
		{Recipe{Basis: PerLitre, Items: []Item{{salt, 0, -1}}}, "items[0]: got -1 mol of NaCl"},
		{Recipe{Basis: PerKilogram, Items: []Item{{salt, 1200, 0}}}, "recipe: got more salt than solution, want some water in a kilogram"},
		{Recipe{Basis: PerLitre, Items: []Item{{compound(t, "HCl"), 30, 0}}}, "mix.alkalinity"},
	} {
		_, err := r.recipe.Composition()
		assert.ErrorIs(t, err, units.ErrInput)
		assert.ErrorContains(t, err, r.want)
		_, err = r.recipe.Batch(units.Practical(35), units.Litre, units.Celsius(20))
		assert.ErrorContains(t, err, r.want)
		s, err := r.recipe.Salinity()
		assert.Error(t, err)
		assert.True(t, math.IsNaN(s.Value()))
	}
	for _, r := range []struct {
		s    float64
		v    units.Volume
		t    units.Temperature
		want string
	}{
		{0, 1, units.Celsius(20), "salinity: got 0, want a number above zero"},
		{nan, 1, units.Celsius(20), "salinity: got NaN"},
		{35, 0, units.Celsius(20), "volume: got 0 L, want a number above zero"},
		{35, 1, units.Temperature{}, "temperature: got nothing, want a temperature"},
		{35, 1, units.Celsius(70), "temperature: 70 °C is outside -2 to 40 °C"},
	} {
		_, err := good.Batch(units.Practical(r.s), r.v, r.t)
		assert.ErrorContains(t, err, r.want)
	}
	_, err = Recipe{Basis: PerLitre, Items: []Item{{compound(t, "Na2SO4"), 5, 0}}}.Batch(units.Practical(35), 1, units.Celsius(20))
	assert.EqualError(t, err, "recipe: got no chloride, want chloride, by which it is scaled")
}

// Half a mole of sodium chloride in a kilogram of water has an ionic strength of a
// half, by definition: what is weighed and what it comes to count with one set of
// atomic weights.
func TestIonicStrengthOfHalfAMole(t *testing.T) {
	r := Recipe{Basis: PerKilogramOfWater, Items: []Item{{Compound: compound(t, "NaCl"), Moles: 0.5}}}
	c, err := r.Composition()
	require.NoError(t, err)
	checks.Absolute(t, "I", c.IonicStrength(), 0.5, 1e-15)
	checks.Absolute(t, "water", c.Water().Value(), 1/(1+0.5*58.44/1000), 1e-15)
}

// A batch of anything is balanced in mass, charge and moles, and has steps for each
// of its items; beside an error it is empty.
func FuzzBatch(f *testing.F) {
	f.Add(uint8(1), 24.0, uint8(3), 5.0, uint8(1), 35., 40., 25.)
	f.Add(uint8(40), 1e-300, uint8(2), 1e300, uint8(2), 1., 1e308, 0.)
	f.Add(uint8(0), math.NaN(), uint8(255), -1., uint8(9), math.Inf(1), 5e-324, 60.)
	f.Add(uint8(38), 30., uint8(45), 1., uint8(3), 35., 10., 25.)
	f.Fuzz(func(t *testing.T, first uint8, grams float64, second uint8, moles float64, basis uint8, salinity, litres, celsius float64) {
		var all []salts.Compound
		for c := range salts.All() {
			all = append(all, c)
		}
		r := Recipe{Basis: Basis(basis), Items: []Item{
			{Compound: all[int(first)%len(all)], Mass: units.Mass(grams)},
			{Compound: all[int(second)%len(all)], Moles: moles},
		}}
		allowed := func(err error) {
			require.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange) || errors.Is(err, units.ErrNoConvergence), err)
		}
		if c, err := r.Composition(); err != nil {
			allowed(err)
			require.Equal(t, ions.Composition{}, c)
		}
		if s, err := r.Salinity(); err != nil {
			allowed(err)
			require.True(t, math.IsNaN(s.Value()))
		}
		b, err := r.Batch(units.Practical(salinity), units.Volume(litres), units.Celsius(celsius))
		if err != nil {
			allowed(err)
			require.Equal(t, Batch{}, b)
			return
		}
		require.True(t, b.Water > 0 && b.WaterVolume > 0 && b.Mass > 0)
		total, steps := b.Water, 0
		for _, item := range b.Items {
			require.True(t, item.Mass > 0)
			total += item.Mass
		}
		for _, s := range b.Steps() {
			steps += len(s.Items)
		}
		require.Equal(t, len(b.Items), steps)
		require.InEpsilon(t, float64(b.Mass), float64(total), 1e-12)
		require.InEpsilon(t, salinity, b.Salinity().Value(), 1e-9)
		charges := 0.
		for i, amount := range b.Composition.All() {
			charges += math.Abs(float64(i.Charge()) * float64(amount))
		}
		require.InDelta(t, 0, float64(b.Composition.Charge()), 1e-12*charges)
		for _, c := range b.Cautions() {
			require.NotEmpty(t, c.Text)
		}
	})
}
