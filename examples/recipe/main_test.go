package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

var update = flag.Bool("update", false, "rewrite the expected reports")

func output(t *testing.T, args ...string) (string, error) {
	t.Helper()
	var out bytes.Buffer
	err := run(args, &out, io.Discard)
	return out.String(), err
}

// The reports are kept whole, so that a change of any number shows.
func TestReports(t *testing.T) {
	for name, args := range map[string][]string{
		"default": nil,
		"us":      {"-salinity", "33 ppt", "-volume", "20 US gal", "-temperature", "78 °F", "-tolerance", "2 %"},
		"kester":  {"-like", "kester", "-volume", "10 L"},
		"json":    {"-json"},
	} {
		got, err := output(t, args...)
		require.NoError(t, err, name)
		path := filepath.Join("testdata", name+".txt")
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o777))
			require.NoError(t, os.WriteFile(path, []byte(got), 0o666))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		if name == "json" { // the last digits differ between processors
			var a, b any
			require.NoError(t, json.Unmarshal([]byte(got), &a))
			require.NoError(t, json.Unmarshal(want, &b))
			assert.Empty(t, cmp.Diff(b, a, cmp.Comparer(nearly), cmp.Comparer(func(x, y float64) bool { return (x-y)*(x-y) <= 1e-16*x*x })))
			continue
		}
		assert.Empty(t, cmp.Diff(string(want), got), name)
	}
}

// nearly compares texts by their numbers to eight digits.
func nearly(a, b string) bool {
	x, unitX, okX := strings.Cut(a, " ")
	y, unitY, okY := strings.Cut(b, " ")
	var p, q float64
	if !okX || !okY || json.Unmarshal([]byte(x), &p) != nil || json.Unmarshal([]byte(y), &q) != nil {
		return a == b
	}
	return unitX == unitY && (p-q)*(p-q) <= 1e-16*p*p
}

// The masses in the JSON report balance, and the volume is the one asked for.
func TestMassesBalance(t *testing.T) {
	out, err := output(t, "-json", "-volume", "31 L")
	require.NoError(t, err)
	var r struct {
		Volume      units.Volume
		Mass, Water units.Mass
		Weigh       []struct{ Mass units.Mass }
		AllMet      bool
		UsedUp      []string
	}
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	total := r.Water
	for _, item := range r.Weigh {
		total += item.Mass
	}
	assert.InEpsilon(t, float64(r.Mass), float64(total), 1e-12)
	assert.InDelta(t, 31, r.Volume.Litres(), 1e-12)
	assert.True(t, r.AllMet, "0.8 g of strontium chloride are enough for 31 L")
	assert.Empty(t, r.UsedUp)
}

// The recipe of the MBL has no fluoride, bromide, strontium or boron: what would
// bring them stays on the shelf, and the ions come out as they were wanted.
func TestNothingUnasked(t *testing.T) {
	out, err := output(t, "-like", "MBL")
	require.NoError(t, err)
	assert.NotContains(t, out, "NaF  ")
	assert.NotContains(t, out, "NaBr  ")
	assert.NotContains(t, out, "Not asked for")
	assert.Contains(t, out, "Left on the shelf: NaBr (it brings bromide, which no target names), H3BO3 (it brings boron, which no target names)")
	assert.Contains(t, out, "Poured together it has pH 7.")
}

// What is asked and what is made stand side by side.
func TestSalinityAskedAndMade(t *testing.T) {
	out, err := output(t, "-salinity", "3 ppt")
	require.NoError(t, err)
	assert.Contains(t, out, "salinity asked for 3 ppt, made 4.1 by its chlorinity")
}

// A wrong shelf gets an error with the field, the value and what is expected,
// and nothing that looks like a plan.
func TestWrongShelves(t *testing.T) {
	for _, r := range []struct{ old, new, want string }{
		{`"volume": "40 L"`, `"volume": "40 gal"`, `volume: volume: got "40 gal", want`},
		{`"volume": "40 L"`, `"volume": "0 L"`, `volume: got 0 L, want a number above zero`},
		{`"volume": "40 L"`, `"volume": 40`, `the shelf: json: cannot unmarshal number`},
		{`"salinity": "35 ppt"`, `"salinity": "35 g/kg"`, `salinity: `},
		{`"salinity": "35 ppt"`, `"salinity": "90"`, `90 is outside 0 to`},
		{`"temperature": "25 °C"`, `"temperature": "25"`, `temperature: temperature: got "25", want`},
		{`"tolerance": "1 %"`, `"tolerance": "1"`, `tolerance: `},
		{`"tolerance": "1 %"`, `"tolerance": "-1 %"`, `tolerance: share: got -1 %, want 0 % and more, below 100 %`},
		{`"tolerance": "1 %",`, ``, `tolerance: `},
		{`"of": "calcium"`, `"of": "lead"`, `targets[0].of: component: got "lead", want an ion such as`},
		{`"of": "calcium"`, `"of": "HCO3-"`, `targets[0].of: component: got bicarbonate, want "alkalinity", "carbon" or "boron"`},
		{`"amount": "430 mg/L"`, `"amount": "430 ppm"`, `targets[0].amount: content: got "430 ppm", want "10.3 mmol/kg"`},
		{`"amount": "7.5 dKH"`, `"amount": "7.5"`, `targets[1].amount: alkalinity: got "7.5", want`},
		{`"weight": "3" },`, `"weight": "much" },`, `targets[0].weight: weight: got "much", want a number such as "3"`},
		{`"weight": "3" },`, `"weight": "0" },`, `targets.calcium.weight: got 0, want a number above zero`},
		{`"compound": "KCl"`, `"compound": "KCl2O"`, `shelf[6]: compound: got "KCl2O", want one of the compounds`},
		{`"compound": "KCl", "purity": "99 %"`, `"compound": "KCl"`, `shelf[6].purity: `},
		{`"compound": "KCl", "purity": "99 %"`, `"compound": "KCl", "purity": "120 %"`, `shelf[6].KCl.purity: got 120 %, want above 0 and up to 100 %`},
		{`"13 EUR"`, `"13 USD"`, `shelf[6].KCl.price: got 13 USD, want the currency of the others, EUR`},
		{`"13 EUR", "package": "1 kg"`, `"13 EUR"`, `shelf[6].KCl.package: got 0 g, want a number above zero`},
		{`"left": "310 g"`, `"left": "0 g"`, `shelf[1].left: mass: got "0 g", want above zero; leave an empty jar out`},
		{`"left": "310 g"`, `"allowed": "maybe"`, `shelf[1].allowed: allowed: got "maybe", want "yes"`},
		{`"left": "310 g"`, `"lft": "310 g"`, `unknown field "lft"`},
		{`{ "compound": "NaF", "purity": "98 %", "price": "12 EUR", "package": "100 g" }`, `{ "compound": "KI", "purity": "98 %" }`, `shelf: got nothing that brings fluoride, want a compound for it, or a target without it`},
	} {
		require.Equal(t, 1, strings.Count(string(example), r.old), r.old)
		path := filepath.Join(t.TempDir(), "shelf.json")
		require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(example), r.old, r.new, 1)), 0o666))
		out, err := output(t, "-shelf", path)
		if assert.Error(t, err, r.new) {
			assert.Contains(t, err.Error(), r.want)
		}
		assert.Empty(t, out)
	}
}

func TestWrongFilesAndFlags(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"list.json": `[]`, "broken.json": `{`, "empty.json": `{}`, "two.json": string(example) + "{}"} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
		out, err := output(t, "-shelf", path)
		assert.Error(t, err, name)
		assert.Empty(t, out)
	}
	for _, r := range []struct {
		args []string
		want string
	}{
		{[]string{"-shelf", filepath.Join(dir, "none.json")}, "none.json"},
		{[]string{"stray"}, `"stray": want flags only`},
		{[]string{"-volume", "5 gal"}, "volume: "},
		{[]string{"-like", "nobody"}, `recipe: got "nobody", want one of Kester et al. 1967`},
		{[]string{"-unknown"}, "flag provided but not defined"},
	} {
		_, err := output(t, r.args...)
		assert.ErrorContains(t, err, r.want)
	}
	out, err := output(t, "-example")
	require.NoError(t, err)
	assert.Equal(t, string(example), out)
	_, err = output(t, "-help")
	assert.ErrorIs(t, err, flag.ErrHelp)
}
