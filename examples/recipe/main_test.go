package main

import (
	"encoding/json"
	"flag"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/home/hometest"
)

var update = flag.Bool("update", false, "rewrite the expected reports")

// The reports are kept whole, so that a change of any number shows.
func TestReports(t *testing.T) {
	for name, args := range map[string][]string{
		"default": {"-cautions", "-assumptions"},
		"us":      {"-target", "33 ppt", "-volume", "20 US gal", "-set", "mix.temperature=78 °F", "-tolerance", "2 %", "-set", "prefer.units=US", "-short"},
		"kester":  {"-like", "kester", "-volume", "10 L", "-short"},
		"bare":    {"-file", hometest.File(t, `{"mix": {"target": "1.025 SG", "volume": "12 US gal"}}`), "-assumptions"},
	} {
		got, err := hometest.Output(t, &command, args...)
		require.NoError(t, err, name)
		hometest.Golden(t, *update, name+".txt", got)
	}
}

func TestEveryHome(t *testing.T) {
	hometest.TryAll(t, &command)
	published := []string{"MBL", "kester", "D1141", "Dickson", "ESAW", "Aquil", "Lyman", "Millero"}
	if testing.Short() {
		published = published[:1]
	}
	for _, like := range published {
		if like != "MBL" { // of which there are two, and the name is that of one
			hometest.Try(t, &command, "-like", like)
		}
		hometest.Try(t, &command, "-like", like, "-file", hometest.File(t, `{"tank": {"salinity": "35 ppt", "volume": "200 L"}, "change": {"swap": "20 %"}}`))
	}
}

// planOf runs an order and reads what it writes for programs.
func planOf(t *testing.T, args ...string) result {
	t.Helper()
	out, err := hometest.Output(t, &command, append(args, "-json")...)
	require.NoError(t, err)
	var r result
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	return r
}

// The masses balance, and the volume is the one asked for.
func TestMassesBalance(t *testing.T) {
	r := planOf(t, "-volume", "31 L").Plan
	total := r.Water
	for _, item := range r.Items {
		total += item.Mass
	}
	assert.InEpsilon(t, float64(r.Mass), float64(total), 1e-12)
	assert.InDelta(t, 31, r.Volume.Litres(), 1e-12)
	assert.Empty(t, r.Missed(), "0.8 g of strontium chloride are enough for 31 L")
	assert.Empty(t, r.UsedUp)
}

// A shelf of common names is one of formulas.
func TestCommonNames(t *testing.T) {
	plain := string(example)
	for name, formula := range map[string]string{"table salt": "NaCl", "Epsom salt": "MgSO4.7H2O", "baking soda": "NaHCO3"} {
		require.Contains(t, plain, name)
		plain = strings.Replace(plain, name, formula, 1)
	}
	assert.Equal(t, planOf(t), planOf(t, "-file", hometest.File(t, plain)))
}

// What no jar brings is named as to be bought, and the rest is planned with it.
func TestToBeBought(t *testing.T) {
	out, err := hometest.Output(t, &command, "-file", hometest.File(t, `{"mix": {"target": "35 ppt", "volume": "10 L"},
		"recipe": {"shelf": [{"compound": "NaCl", "price": "3 EUR", "package": "1 kg"}, {"compound": "borax"}]}}`), "-assumptions")
	require.NoError(t, err)
	assert.Contains(t, out, "to be bought first: MgCl2.6H2O,")
	assert.NotContains(t, strings.Split(out, "weigh  purity")[0], "H3BO3", "borax brings boron")
	assert.Contains(t, out, "and what has no price here")
	assert.Contains(t, strings.Join(strings.Fields(out), " "), "NaCl is taken as pure: its purity is not said.")
	assert.Contains(t, out, "Every ion may be off by 1 %.")
}

// What no balance of a household weighs is told in its row, with the way to come to it; a
// column without a price is left out.
func TestStockSolution(t *testing.T) {
	shelf := `"recipe": {"shelf": [{"compound": "NaCl"}, {"compound": "NaF"}]}}`
	out, err := hometest.Output(t, &command, "-file", hometest.File(t, `{"mix": {"target": "35 ppt", "volume": "4 L"}, `+shelf))
	require.NoError(t, err)
	// 0.0683 mmol/kg of fluoride [Millero et al. 2008], 41.99 g/mol: 11.7 mg in 4 L of 1.0233 kg/L
	assert.Regexp(t, `(?m)^  NaF +11\.7 mg +100 % +sodium fluoride, in a stock solution$`, out)
	assert.Contains(t, strings.Join(strings.Fields(out), " "), "NaF in a stock solution: 1.17 g, 100 times as much, dissolved to a litre of pure water, and of that 10 mL.")
	assert.NotContains(t, out, "cost")
	first, err := hometest.Output(t, &command, "-short")
	require.NoError(t, err)
	assert.Contains(t, first, "cost")
	assert.NotContains(t, first, "stock", "117 mg can be weighed")
}

// A keeper who counts gallons pours gallons.
func TestGallons(t *testing.T) {
	out, err := hometest.Output(t, &command, "-set", "prefer.units=US", "-volume", "10 US gal")
	require.NoError(t, err)
	assert.Regexp(t, `(?m)^1\. Pour 8\.8\d US gal of pure water`, out)
	assert.Regexp(t, `(?m)^  water +9\.8\d US gal +pure$`, out)
	assert.NotRegexp(t, `\d L\b`, out)
	big, err := hometest.Output(t, &command, "-volume", "350 L")
	require.NoError(t, err)
	assert.Regexp(t, `NaCl +\d{4} g +99`, big, "no tenth of a gram in kilograms")
}

// A package that is short by a gram is not one batch.
func TestPackagesAreWhole(t *testing.T) {
	need := 0.0
	for _, i := range planOf(t).Plan.Items {
		if i.Reagent.Compound.Formula() == "MgSO4.7H2O" {
			need = i.Mass.Grams()
		}
	}
	require.InDelta(t, 286.3, need, 0.1)
	for size, want := range map[string]string{"285 g": `285 g +2  less than this batch`, "287 g": `287 g +1  this batch`, "573 g": `573 g +1  2 batches`, "572 g": `572 g +1  this batch`} {
		out, err := hometest.Output(t, &command, "-file", hometest.File(t, strings.Replace(string(example), `"250 g"`, `"`+size+`"`, 1)))
		require.NoError(t, err)
		assert.Regexp(t, `(?m)^  MgSO4.7H2O +286.3 g +`+want+`$`, out)
	}
}

// The recipe of the MBL has no fluoride, bromide, strontium or boron: what would
// bring them stays on the shelf, and the ions come out as they were wanted.
func TestNothingUnasked(t *testing.T) {
	out, err := hometest.Output(t, &command, "-like", "MBL", "-assumptions")
	require.NoError(t, err)
	assert.NotContains(t, out, "NaBr  ")
	assert.NotContains(t, out, "Not asked for")
	out = strings.Join(strings.Fields(out), " ")
	assert.Contains(t, out, "Left on the shelf: NaBr (it brings bromide, which no target names), H3BO3 (it brings boron, which no target names)")
	assert.Contains(t, out, "Poured together it has pH 7.")
	assert.Contains(t, out, "like MBL weigh 6 salts")
}

// What is asked and what is made stand side by side.
func TestSalinityAskedAndMade(t *testing.T) {
	out, err := hometest.Output(t, &command, "-target", "3 ppt")
	require.NoError(t, err)
	assert.Contains(t, strings.Join(strings.Fields(out), " "), "Asked for are 3.0 ppt; it comes out at 4.1 by its chlorinity.")
}

// A wrong shelf gets an error with the path, the value and what is expected.
func TestWrongShelves(t *testing.T) {
	all := string(example)
	var old, wants []string
	for _, r := range []struct{ old, new, want string }{
		{`"volume": "40 L"`, `"volume": "40 gal"`, `mix.volume: got "40 gal", want`},
		{`"volume": "40 L"`, `"volume": 40`, `mix.volume: got 40, want a text in quotes`},
		{`"target": "35 ppt"`, `"target": "90"`, `mix.target: `},
		{`"temperature": "25 °C"`, `"temperature": "25"`, `mix.temperature: got "25", want`},
		{`"tolerance": "1 %"`, `"tolerance": "1"`, `recipe.tolerance: got "1"`},
		{`"tolerance": "1 %"`, `"tolerance": "-1 %"`, `recipe.tolerance: got -1 %, want 0 % and more, below 100 %`},
		{`"of": "calcium"`, `"of": "lead"`, `recipe.targets[0].of: got "lead", want an ion such as`},
		{`"of": "calcium"`, `"of": "HCO3-"`, `recipe.targets[0].of: got bicarbonate, want "alkalinity", "carbon" or "boron"`},
		{`"amount": "430 mg/L"`, `"amount": "430 ppm"`, `recipe.targets[0].amount: got "430 ppm", want "10.3 mmol/kg"`},
		{`"amount": "7.5 dKH"`, `"amount": "7.5"`, `recipe.targets[1].amount: got "7.5", want`},
		{`"weight": "3"},`, `"weight": "much"},`, `recipe.targets[0].weight: got "much", want a number above zero such as "3"`},
		{`"weight": "3"},`, `"weight": "0"},`, `recipe.targets[0].weight: got "0", want a number above zero`},
		{`"compound": "KCl"`, `"compound": "KCl2O"`, `recipe.shelf[4].compound: got "KCl2O", want one of the compounds`},
		{`"compound": "KCl", `, ``, `recipe.shelf[4].compound: got nothing, want a compound`},
		{`"compound": "KCl", "purity": "99 %"`, `"compound": "KCl", "purity": "120 %"`, `KCl.purity: got 120 %, want above 0 and up to 100 %`},
		{`"13 EUR"`, `"13 USD"`, `recipe.shelf[4].KCl.price: got 13 USD, want the currency of the others, EUR`},
		{`"13 EUR", "package": "1 kg"`, `"13 EUR"`, `recipe.shelf[4].package: got nothing, want what is in the package`},
		{`"left": "310 g"`, `"left": "0 g"`, `recipe.shelf[1].left: got 0 g, want above zero; leave an empty jar out`},
		{`"left": "310 g"`, `"allowed": "maybe"`, `recipe.shelf[1].allowed: got "maybe", want one of "no", "yes"`},
		{`"left": "310 g"`, `"lft": "310 g"`, `recipe.shelf[].left is near`},
	} {
		require.Equal(t, 1, strings.Count(all, r.old), r.old)
		_, err := hometest.Output(t, &command, "-file", hometest.File(t, strings.Replace(all, r.old, r.new, 1)))
		assert.ErrorContains(t, err, r.want, r.new)
	}
	for _, r := range []struct{ old, new, want string }{
		{`"tolerance": "1 %"`, `"tolerance": "-1 %"`, `recipe.tolerance`},
		{`"of": "calcium"`, `"of": "lead"`, `recipe.targets[0].of`},
		{`"amount": "7.5 dKH"`, `"amount": "7.5"`, `recipe.targets[1].amount`},
		{`"compound": "KCl", `, ``, `recipe.shelf[4].compound`},
		{`"9 EUR", "package": "1 kg"`, `"9 EUR"`, `recipe.shelf[3].package`},
	} {
		require.Equal(t, 1, strings.Count(all, r.old), r.old)
		old, wants = append(old, r.old, r.new), append(wants, r.want)
	}
	_, err := hometest.Output(t, &command, "-file", hometest.File(t, strings.NewReplacer(old...).Replace(all)))
	for _, want := range wants {
		assert.ErrorContains(t, err, want, "all at once")
	}
}

// What can hardly be meant is asked about, on the first screen.
func TestOdd(t *testing.T) {
	out, err := hometest.Output(t, &command, "-short", "-set", "recipe.shelf[0].left=100 g")
	require.NoError(t, err)
	assert.Contains(t, strings.Join(strings.Fields(out), " "), "This is not the water that was wanted, and no animal belongs in it: sodium -90.2 %, chloride -77.1 %. Get NaCl first.")
	hometest.Try(t, &command, "-set", "recipe.shelf[0].left=100 g")
	hometest.Try(t, &command, "-volume", "1e6 L")
	hometest.Try(t, &command, "-set", "recipe.shelf[0].compound=lye")
	out, err = hometest.Output(t, &command, "-short", "-volume", "1e6 L")
	require.NoError(t, err)
	assert.Contains(t, out, "Is it really 1000000 L?")
	out, err = hometest.Output(t, &command, "-short", "-set", "recipe.shelf[0].compound=lye")
	require.NoError(t, err)
	assert.Contains(t, out, "Get NaCl first.", "lye is no source of sodium")
	out, err = hometest.Output(t, &command, "-tolerance", "0 %", "-volume", "20 L")
	require.NoError(t, err)
	assert.Contains(t, out, "Not as near as you asked: chloride 0.0 %.", "nothing is met exactly")
}

func TestWrongFlags(t *testing.T) {
	for _, r := range []struct {
		args []string
		want string
	}{
		{[]string{"stray"}, `"stray": want flags only`},
		{[]string{"-volume", "5 gal"}, "recipe.volume: "},
		{[]string{"-volum", "5 L"}, "-volume is near"},
		{[]string{"-volume", "0 L"}, "recipe.volume: got 0 L, want above zero"},
		{[]string{"-like", "nobody"}, `recipe.like: got "nobody", want one of Kester et al. 1967`},
	} {
		_, err := hometest.Output(t, &command, r.args...)
		assert.ErrorContains(t, err, r.want)
	}
}
