package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/units"
)

var update = flag.Bool("update", false, "rewrite the expected reports")

func report(t *testing.T, args ...string) (string, error) {
	t.Helper()
	var out bytes.Buffer
	err := run(args, &out, io.Discard)
	return out.String(), err
}

// The reports are kept whole, so that a change of any number shows.
func TestReports(t *testing.T) {
	for name, args := range map[string][]string{
		"default": nil,
		"us":      {"-volume", "80 US gal", "-temperature", "79 °F", "-ph", "7.95 total", "-air", "900 ppm", "-top-off", "1 US gal/day"},
		"json":    {"-json"},
	} {
		got, err := report(t, args...)
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
			assert.Empty(t, cmp.Diff(b, a, cmp.Comparer(nearly), cmp.Comparer(close)))
			continue
		}
		assert.Empty(t, cmp.Diff(string(want), got), name)
	}
}

// close compares numbers to nine digits; differences of salinities have fewer.
func close(x, y float64) bool { return math.Abs(x-y) <= 1e-9*math.Abs(x)+1e-12 }

// nearly compares texts by their numbers to nine digits.
func nearly(a, b string) bool {
	x, unitX, okX := strings.Cut(a, " ")
	y, unitY, okY := strings.Cut(b, " ")
	var p, q float64
	if !okX || !okY || json.Unmarshal([]byte(x), &p) != nil || json.Unmarshal([]byte(y), &q) != nil {
		return a == b
	}
	return unitX == unitY && close(p, q)
}

// The doses of the JSON report carry the calcium that they are for.
func TestCalciumBalances(t *testing.T) {
	out, err := report(t, "-json", "-volume", "250 L")
	require.NoError(t, err)
	var r struct {
		Doses []struct {
			Parameter string
			Amount    struct{ Volume units.Volume }
			Steps     []struct{ Amount struct{ Volume units.Volume } }
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	d := r.Doses[1]
	require.Equal(t, "calcium", d.Parameter)
	var sum units.Volume
	for _, s := range d.Steps {
		sum += s.Amount.Volume
	}
	// 90 g/L of 97 %, 40.078/147.008 of it calcium, from 405 to 425 mg/L in 250 L
	assert.InEpsilon(t, 20*250/(90*0.97*40.078/147.008)/1000, sum.Litres(), 1e-12)
	assert.InEpsilon(t, d.Amount.Volume.Litres(), sum.Litres(), 1e-12)
}

// A wrong scenario gets an error with the field, the value and what is
// expected, and nothing that looks like a plan.
func TestWrongScenarios(t *testing.T) {
	for _, r := range []struct{ field, text, want string }{
		{"tank.volume", "80 gal", `tank.volume: got "80 gal", want "US gal" (3.785 L) or "imp gal" (4.546 L)`},
		{"tank.volume", "-5 L", `volume: got -5 L, want a number above zero`},
		{"tank.temperature", "25", `tank.temperature: got "25", want a temperature such as "25 °C" or "77 °F"`},
		{"tank.temperature", "77 °C", `tank: temperature: 77 °C is outside -2 to 40 °C`},
		{"tank.salinity", "1.026", `tank.salinity: got "1.026", want`},
		{"tank.ph", "8.1", `tank.ph: got "8.1", want a pH with its scale, such as "8.1 NBS"`},
		{"tank.air", "0.04 %", `tank.air: got "0.04 %", want a content of CO2 such as "600 ppm"`},
		{"levels.calcium", "420 ppm", `levels.calcium: got "420 ppm", want "mg/L": ppm could also be mg/kg, 2.5 % less in seawater`},
		{"levels.nitrate", "6 mg/L", `levels.nitrate: got "6 mg/L", want what the mass counts: "mg/L NO3" or "mg/L NO3-N" or "mmol/L of nitrate"`},
		{"levels.alkalinity", "8 KH", `levels.alkalinity: got "8 KH", want "dKH"`},
		{"levels.gold", "8 mg/L", `levels.gold: got "8 mg/L", want no such field`},
		{"additives.1.stock.0.compound", "CaCl3", `additives.1.stock.0.compound: got "CaCl3", want`},
		{"additives.1.stock.0.purity", "97", `additives.1.stock.0.purity: got "97", want`},
		{"additives.0.stock.0.per_litre", "400 g/L", `doses[0].additive.content: got 396 g/L of Na2CO3, want at most`},
		{"additives.1.name", "soda", `additives.1.name: got "soda", want another name`},
		{"additives.2.stock.0.compound", "KCl", `additives.2: got dry and stock, or neither, want one of them`},
		{"tests.0.at", "1 March", `tests.0.at: got "1 March", want a time such as "2026-03-01 09:00"`},
		{"uncertainty.alkalinity", "0 dKH", `uncertainty.alkalinity: got 0 dKH, want a number above zero`},
		{"doses.0.amount", "a cup", `doses.0.amount: got "a cup", want an amount such as "12 g" or "40 mL"`},
		{"doses.0.amount", "12 g", `doses[0].amount: got 12 g, want a volume of the stock solution`},
		{"doses.0.additive", "soada", `doses.0.additive: got "soada", want the name of one of the additives`},
		{"doses.0.to", "2026-02-01 09:00", `doses[0].to: got 2026-02-01T09:00:00Z, want after from`},
		{"changes.0.swapped", "400 L", `changes[0].swapped: got 400 L, want zero to the volume of the tank, 310 L`},
		{"lowest.magnesium", "1200 mg/L", `lowest.magnesium: the tests do not say how fast it is used`},
		{"every_day.0.parameter", "magnesium", `every_day.0: the tests do not say how fast magnesium is used`},
		{"every_day.0.additive", "calcium chloride", `every_day.0: additive: got CaCl2.2H2O in water, want one that raises alkalinity`},
		{"goals.1.to", "300 mg/L", `goals.1: to.calcium: got 300 mg/L Ca, want at least the present 405 mg/L Ca`},
		{"goals.0.parameter", "fluoride", `goals.0.to: got "8 dKH", want a level such as "mg/L F"`},
		{"lime_water.top_off", "75 gpd", `lime_water.top_off: got "75 gpd", want`},
		{"lime_water.saturation", "150 %", `lime_water: saturation: got 150 %, want above 0 and up to 100 %`},
		{"lime_water.temperature", "80 °C", `lime_water: temperature: 80 °C is outside`},
	} {
		s, err := parseScenario(example)
		require.NoError(t, err)
		s.Set(r.field, r.text)
		in, err := s.read()
		if err == nil {
			_, err = work(in)
		}
		if assert.Error(t, err, r.want) {
			assert.Contains(t, err.Error(), r.want)
		}
	}
	// What is missing is missed by its name.
	for _, field := range []string{"name", "tank.volume", "tank.salinity", "tank.temperature", "tests.1.at", "doses.0.from", "goals.0.to"} {
		s, err := parseScenario(example)
		require.NoError(t, err)
		delete(s.Texts, field)
		_, err = s.read()
		var bad *units.InputError
		require.True(t, errors.As(err, &bad), "%s: %v", field, err)
		assert.Equal(t, field, bad.Field)
		assert.Equal(t, "nothing", bad.Got)
	}
}

// write makes a scenario file of a small tank, with what is asked of it.
func write(t *testing.T, rest string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "own.json")
	require.NoError(t, os.WriteFile(path, []byte(`{"name": "small", "tank": {"volume": "60 L", "salinity": "34 ppt", "temperature": "77 °F"}, `+rest+`}`), 0o666))
	return path
}

// Trace doses are printed in milligrams and microlitres, not as zero.
func TestTraceDoses(t *testing.T) {
	out, err := report(t, "-scenario", write(t, `"levels": {"iodine": "30 ug/L"},
		"additives": [{"name": "iodide", "dry": {"compound": "KI", "purity": "99 %"}}, {"name": "drops", "stock": [{"compound": "KI", "purity": "99 %", "per_litre": "1 g/L"}]}],
		"goals": [{"parameter": "iodine", "to": "36 ug/L", "additive": "iodide"}, {"parameter": "iodine", "to": "36 ug/L", "additive": "drops"}]`))
	require.NoError(t, err)
	// 6 µg/L in 60 L are 0.36 mg of iodine, of KI 166.00/126.90/0.99 times as much
	assert.Contains(t, out, "0.476 mg of iodide at once.")
	assert.Contains(t, out, "476 µL of drops at once.")
	for want, a := range map[string]replenish.Amount{
		"nothing": {}, "0.0123 µL": {Volume: 1.2345e-8}, "1.23 mL": {Volume: 1.2345e-3}, "12.3 g": {Mass: 12.345}, "158.8 g": {Mass: 158.83}, "261 mL": {Volume: 0.2612},
	} {
		assert.Equal(t, want, amount(a))
	}
}

// A soda that is dosed without a known pH goes in many parts; a level that stays
// where it is leaves the ratio open and never reaches its limit.
func TestFlatLogAndUnknownPH(t *testing.T) {
	out, err := report(t, "-scenario", write(t, `"levels": {"alkalinity": "7 dKH", "calcium": "420 mg/L"},
		"additives": [{"name": "soda", "stock": [{"compound": "Na2CO3", "purity": "99 %", "per_litre": "60 g/L"}]}],
		"tests": [
			{"at": "2026-03-01 09:00", "alkalinity": "7.6 dKH", "calcium": "420 mg/L"},
			{"at": "2026-03-03 09:00", "alkalinity": "7.4 dKH", "calcium": "420 mg/L"},
			{"at": "2026-03-06 09:00", "alkalinity": "7.0 dKH", "calcium": "420 mg/L"}],
		"lowest": {"calcium": "380 mg/L"},
		"every_day": [{"parameter": "alkalinity", "additive": "soda"}]`))
	require.NoError(t, err)
	assert.Contains(t, out, "Alkalinity to calcium, where skeletons take 2 to 1: ")
	assert.NotContains(t, out, "e+")
	assert.Contains(t, out, "Undosed, calcium never is at 380 mg/L Ca (95 %: never to never).")
	assert.NotContains(t, out, "never days")
	assert.Contains(t, out, "; pH not known: in many small parts")
	assert.Equal(t, ", where skeletons take 2 to 1: the tests leave it open", ratio(replenish.Calcification{Ratio: math.NaN(), Consistent: true}))
}

// Lime water takes the place of daily doses, and what is left of them is said.
func TestLimeInsteadOfDoses(t *testing.T) {
	out, err := report(t)
	require.NoError(t, err)
	assert.Contains(t, out, "2. Every day, in all, in the place of what is dosed now")
	assert.Contains(t, out, "6. Lime water as top-off: instead of, not besides, section 2")
	assert.Contains(t, out, "With all of it, no soda is dosed any more.")
	assert.Contains(t, strings.Join(strings.Fields(out), " "), "alkalinity would climb by 1.42 dKH a day, more than the limit of 1 dKH")
	out, err = report(t, "-top-off", "0.4 L/day") // 0.162 of 0.399 dKH, 1.16 of 3.15 mg/L: 59.5 and 63.3 % are left
	require.NoError(t, err)
	assert.Contains(t, out, "With all of it, 23.4 mL of soda is left to dose a day, in all.")
	assert.Contains(t, out, "With all of it, 26 mL of calcium chloride is left to dose a day, in all.")
}

func TestArguments(t *testing.T) {
	out, err := report(t, "-example")
	require.NoError(t, err)
	assert.Equal(t, string(example), out)
	_, err = report(t, "now")
	assert.EqualError(t, err, `"now": want flags only`)
	_, err = report(t, "-scenario", "no such file.json")
	assert.Error(t, err)
	_, err = report(t, "-volume", "much")
	assert.ErrorContains(t, err, "tank.volume")

	own := filepath.Join(t.TempDir(), "own.json")
	require.NoError(t, os.WriteFile(own, []byte(`{"name": 3}`), 0o666))
	_, err = report(t, "-scenario", own)
	assert.ErrorContains(t, err, `name: got 3, want a text in quotes`)
	// The least that is a scenario: a tank and one goal.
	require.NoError(t, os.WriteFile(own, []byte(`{
		"name": "small", "tank": {"volume": "60 L", "salinity": "34 ppt", "temperature": "77 °F"},
		"levels": {"potassium": "370 mg/L"},
		"additives": [{"name": "potassium", "dry": {"compound": "KCl", "purity": "99 %"}}],
		"goals": [{"parameter": "potassium", "to": "395 mg/L", "additive": "potassium"}]
	}`), 0o666))
	out, err = report(t, "-scenario", own)
	require.NoError(t, err)
	assert.Contains(t, out, "2.89 g of potassium in all, 963 mg a day for 3 days")
	out, err = report(t, "-scenario", own, "-json")
	require.NoError(t, err)
	assert.Contains(t, out, `"PH": null`)
}
