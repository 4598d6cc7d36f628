package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
		"default":  nil,
		"neglect":  {"-top-off", "none", "-evaporation", "0.25 L/day", "-span", "20 weeks"},
		"json":     {"-json", "-span", "26 weeks"},
		"weekly":   {"-csv", "-step", "1 week"},
		"too long": {"-every", "10 weeks", "-swap", "84 L", "-tank", "80 US gal"},
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
			assert.Empty(t, cmp.Diff(b, a, cmp.Comparer(nearly)))
			continue
		}
		assert.Empty(t, cmp.Diff(string(want), got), name)
	}
}

func nearly(a, b float64) bool { return (a-b)*(a-b) <= 1e-18*(a*a+b*b) }

// Rows of another step are the same rows.
func TestStepsOfTheCSV(t *testing.T) {
	read := func(step string) [][]string {
		out, err := report(t, "-csv", "-step", step)
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
		require.NoError(t, err)
		return rows
	}
	daily, fine := read("1 day"), read("8h")
	require.Len(t, daily, 1+366)
	require.Len(t, fine, 1+3*365+1)
	assert.Equal(t, daily[0], fine[0])
	for i := range daily[1:] {
		assert.Equal(t, daily[1+i], fine[1+3*i])
		for _, x := range daily[1+i][2:] {
			_, err := strconv.ParseFloat(x, 64)
			require.NoError(t, err)
		}
	}
}

// What comes in goes out or is still there.
func TestBalances(t *testing.T) {
	out, err := report(t, "-json")
	require.NoError(t, err)
	var r struct {
		Balances []struct{ Before, Made, Dosed, Poured, Topped, Drawn, Lost, After float64 }
	}
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	require.Len(t, r.Balances, 7)
	for _, b := range r.Balances {
		assert.InEpsilon(t, b.Before+b.Made+b.Dosed+b.Poured+b.Topped, b.Drawn+b.Lost+b.After, 1e-9)
	}
}

// with writes a scenario with some fields set and others dropped, "" for those.
func with(t *testing.T, fields map[string]string) string {
	t.Helper()
	s, err := parseScenario(example)
	require.NoError(t, err)
	for field, text := range fields {
		if text == "" {
			for name := range s.Texts {
				if name == field || strings.HasPrefix(name, field+".") {
					delete(s.Texts, name)
				}
			}
			continue
		}
		s.Set(field, text)
	}
	path := filepath.Join(t.TempDir(), "scenario.json")
	require.NoError(t, os.WriteFile(path, unflatten(t, s.Texts), 0o666))
	return path
}

// unflatten makes a tree of dotted names. A list is as good as an object with the
// numbers for names, because the scenario is read by dotted names again.
func unflatten(t *testing.T, texts map[string]string) []byte {
	t.Helper()
	tree := map[string]any{}
	for name, text := range texts {
		at := tree
		parts := strings.Split(name, ".")
		for _, p := range parts[:len(parts)-1] {
			next, ok := at[p].(map[string]any)
			if !ok {
				next = map[string]any{}
				at[p] = next
			}
			at = next
		}
		at[parts[len(parts)-1]] = text
	}
	data, err := json.Marshal(tree)
	require.NoError(t, err)
	return data
}

// What cannot be read is refused by name.
func TestRefusals(t *testing.T) {
	for _, r := range []struct{ field, text, want string }{
		{"tank.volume", "280", `tank.volume: got "280"`},
		{"tank.salinity", "35", ``},
		{"tank.salinity", "50 ppt", `tank: practical salinity`},
		{"tank.nitrate", "-1 mg/L", `tank.nitrate: got -1 mg/L`},
		{"start", "31 January", `start: got "31 January", want a date such as "2026-01-31"`},
		{"span", "a year", `span: got "a year", want a time`},
		{"room_air", "800", `room_air: got "800", want the CO2`},
		{"top_off.by", "magic", `top_off.by: got "magic", want "automatic", "hand" or "none"`},
		{"top_off.by", "hand", `top_off.every: got nothing, want a time`},
		{"evaporation", "-1 L/day", `evaporation: got`},
		{"loss_per_day.Nitrate", "100 %", `loss.perDay: got 100 %`},
		{"loss_per_day.nitrate", "1 %", `loss_per_day.nitrate: got "1 %", want no such field`},
		{"doses.0.every", "-1 day", `doses.0.every: got "-1 day"`},
		{"changes.0.swap", "400 L", `change.swap: got 400 L`},
		{"changes.0.swap", "28 gal", `changes.0.swap: got "28 gal"`},
		{"limits.high.nitrate", "20 ppm", `limits.high.nitrate: got "20 ppm"`},
		{"doubts.tank", "5", `doubts.tank: got "5"`},
		{"cheapest.swaps.1", "21", `cheapest.swaps.1: got "21"`},
		{"cheapest.mix", "0.40 €", `cheapest.mix: got "0.40 €"`},
		{"tank.volum", "280 L", `tank.volum: got "280 L", want no such field`},
	} {
		out, err := report(t, "-scenario", with(t, map[string]string{r.field: r.text}))
		if r.want == "" {
			assert.NoError(t, err, r)
			continue
		}
		if assert.Error(t, err, r) {
			assert.Contains(t, err.Error(), r.want)
		}
		assert.Empty(t, out)
	}
}

// Every field is needed or may be left out; none is guessed.
func TestMissingFields(t *testing.T) {
	needed := map[string]bool{
		"name": true, "start": true, "span": true, "evaporation": true, "top_off": true, "tank": true, "batch": true,
	}
	for field := range map[string]bool{
		"name": true, "start": true, "span": true, "tank": true, "batch": true, "evaporation": true, "top_off": true,
		"room_air": true, "per_day": true, "loss_per_day": true, "pumped": true, "doses": true, "changes": true,
		"limits": true, "doubts": true, "cheapest": true,
	} {
		_, err := report(t, "-scenario", with(t, map[string]string{field: ""}))
		if needed[field] {
			assert.ErrorContains(t, err, field)
		} else {
			assert.NoError(t, err, field)
		}
	}
}

func TestWrongFilesAndFlags(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"number.json": `{"tank":{"volume":280}}`, "list.json": `[]`, "broken.json": `{`, "empty.json": `{}`} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
		out, err := report(t, "-scenario", path)
		assert.Error(t, err, name)
		assert.Empty(t, out)
	}
	_, err := report(t, "-scenario", filepath.Join(dir, "number.json"))
	assert.EqualError(t, err, `tank.volume: got 280, want a text in quotes with its unit, such as "20 L"`)
	_, err = report(t, "-scenario", filepath.Join(dir, "none.json"))
	assert.Error(t, err)
	_, err = report(t, "stray")
	assert.EqualError(t, err, `"stray": want flags only`)
	_, err = report(t, "-json", "-csv")
	assert.EqualError(t, err, `-json and -csv: want one of them`)
	_, err = report(t, "-csv", "-step", "often")
	assert.ErrorContains(t, err, "step")
	out, err := report(t, "-example")
	require.NoError(t, err)
	assert.Equal(t, string(example), out)
}

// Odd but possible years, and what the report must then say.
func TestOddYears(t *testing.T) {
	for name, r := range map[string]struct {
		set  map[string]string
		says []string
	}{
		"by hand":      {map[string]string{"top_off.by": "hand", "top_off.every": "2 days"}, []string{"Nitrate at most 20 mg/L"}},
		"no changes":   {map[string]string{"changes": "", "loss_per_day": ""}, []string{"It does not settle: routine: got"}},
		"hungry":       {map[string]string{"per_day.nitrate": "-3 mg/L"}, []string{"Nitrate is used up after"}},
		"strict":       {map[string]string{"limits.high.nitrate": "5 mg/L"}, []string{"There is none: bounds.high.Nitrate", "bring it there first"}},
		"stream":       {map[string]string{"stream.flow": "8 L/day", "changes": "", "cheapest": ""}, []string{"an overflow", "two flows"}},
		"half a week":  {map[string]string{"changes.0.every": "84h"}, []string{"In the long run"}},
		"sure":         {map[string]string{"doubts": "", "per_day.nitrate": "1 mg/L"}, []string{"Nitrate at most 20 mg/L NO3: passed after"}},
		"heavy dosing": {map[string]string{"doses.0.alkalinity": "3 dKH"}, []string{"A dose of 3.0 dKH"}},
	} {
		out, err := report(t, "-scenario", with(t, r.set))
		if !assert.NoError(t, err, name) {
			continue
		}
		for _, say := range r.says {
			assert.Contains(t, strings.Join(strings.Fields(out), " "), say, name)
		}
	}
}
