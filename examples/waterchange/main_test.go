package main

import (
	"bytes"
	"encoding/json"
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
		"us":      {"-target", "33 ppt", "-mix", "12 US gal", "-swap", "11 US gal", "-tank", "90 US gal", "-temperature", "78 °F", "-measured", "33.6"},
		"json":    {"-json"},
		"short":   {"-short"},
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
			assert.Empty(t, cmp.Diff(b, a, cmp.Comparer(nearly), cmp.Comparer(near)))
			continue
		}
		assert.Empty(t, cmp.Diff(string(want), got), name)
	}
}

// near compares numbers to nine digits.
func near(a, b float64) bool { return a == b || math.Abs(a-b) <= 1e-9*max(math.Abs(a), math.Abs(b)) }

// nearly compares texts by their numbers to nine digits.
func nearly(a, b string) bool {
	x, unitX, okX := strings.Cut(a, " ")
	y, unitY, okY := strings.Cut(b, " ")
	var p, q float64
	if !okX || !okY || json.Unmarshal([]byte(x), &p) != nil || json.Unmarshal([]byte(y), &q) != nil {
		return a == b
	}
	return unitX == unitY && near(p, q)
}

// The masses in the JSON report balance: salt and water in, mix out.
func TestMassesBalance(t *testing.T) {
	out, err := report(t, "-json", "-mix", "33 L", "-swap", "30 L")
	require.NoError(t, err)
	var r struct {
		Batch struct {
			Salt, WaterMass units.Mass
			Mix             struct {
				Mass     units.Mass
				Absolute units.AbsoluteSalinity
				Volume   units.Volume
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	assert.InEpsilon(t, float64(r.Batch.Mix.Mass), float64(r.Batch.Salt+r.Batch.WaterMass), 1e-12)
	assert.InDelta(t, 33, r.Batch.Mix.Volume.Litres(), 1e-9)
}

// A wrong scenario gets an error with the field, the value and what is
// expected, and nothing that looks like a plan.
func TestWrongScenarios(t *testing.T) {
	for _, r := range []struct{ field, text, want string }{
		{"tank.volume", "80 gal", `tank.volume: got "80 gal", want "US gal" (3.785 L) or "imp gal" (4.546 L)`},
		{"tank.volume", "310", `tank.volume: got "310", want a volume such as "20 L" or "5 US gal"`},
		{"tank.volume", "-5 L", `change: tank.volume: got -5 L, want a number above zero`},
		{"tank.temperature", "25", `tank.temperature: got "25", want a temperature such as "25 °C" or "77 °F"`},
		{"tank.temperature", "77 °C", `tank.temperature: temperature: 77 °C is outside -2 to 40 °C (IAPWS SR7-09; kettle water is made by HotWater)`},
		{"batch.target", "35 g/kg", `batch.target: got "35 g/kg", want a practical salinity such as "35" (or "35 ppt", which is read the same way); a value in g/kg is absolute salinity (practical 35 is 35.165 g/kg)`},
		{"batch.target", "1.025", `a number just above 1 looks like a specific gravity`},
		{"batch.target", "60", `batch: target: 60 is outside 0 to 42 (PSS-78 and Hill et al. 1986)`},
		{"batch.final_volume", "70 L", `batch: amount: got 70.00 L of mix, want at most the safe fill of the vessel`},
		{"batch.water_volume", "5 L", `batch: got 2 amounts, want one of final_volume, water_volume, final_level, water_level`},
		{"tank.calcium", "405 ppm", `tank.calcium: got "405 ppm", want "mg/L": ppm could also be mg/kg, 2.5 % less in seawater`},
		{"tank.nitrate", "-2 mg/L", `change: tank.nitrate: got -2 mg/L NO3, want zero or more`},
		{"salt.price", "$48", `salt.price: got "$48", want an amount with a currency code such as "18.50 EUR" or "20 USD"`},
		{"salt.sea_salt", "90 %", `batch: salt: got a share of sea salt and a label, want one of them`},
		{"change.every", "fortnight", `change.every: got "fortnight", want a time such as "14 days", "2 weeks" or "36h"`},
		{"change.swap", "60 L", `change: swap: got 60 L, want at most the`},
		{"pure_water.product", "300 ppm x0.5", `pure_water.product: got 300 ppm x0.5, want no more than the tap`},
		{"batch.temperature", "25 °F", `batch: temperature: -3.888888888888889 °C is outside -2 to 40 °C`},
		{"vessel.shape", "barrel", `vessel.shape: got "barrel", want "box", "cylinder", "bucket" or "marks"`},
		{"vessel.safe_fill", "60 cm", `vessel.safeFill: got 600 mm, want above zero and no higher than the brim at 500 mm`},
		{"heater.power", "5 W", `heater: to: got 25 °C, want below 20.7 °C`},
		{"pure_water.product", "0 ppm", `pure_water.product: got "0 ppm", want a dissolved-solids reading with the factor of the meter`},
		{"pure_water.flow", "75 gpd", `pure_water.flow: got "75 gpd", want "US gal/day" or the flow in litres`},
		{"pure_water.flow", "0 L/h", `pure_water.flow: got 0 L/h, want a flow above zero`},
		{"pure_water.waste_ratio", "3:1", `pure_water.waste_ratio: got "3:1", want a number such as "3"`},
		{"tank.ph", "8.1", `tank.ph: got "8.1", want a pH with its scale, "8.1 total" or, from a meter set in ordinary buffers, "8.2 NBS"`},
		{"tank.ph", "14 total", `tank.ph: `},
		{"air.co2", "-400", `air.co2: got "-400", want a number such as "3"`},
		{"pure_water.pressure", "60", `pure_water.pressure: got "60", want`},
		{"pure_water.membrane.rejection", "0.97", `pure_water.membrane.rejection: got "0.97", want`},
		{"pure_water.after_membrane", "6 ppm", `pure_water.after_membrane: got "6 ppm", want`},
		{"pure_water.after_membrane", "400 ppm x0.5", `pure_water: `},
		{"doubts.tank", "-8 %", `doubts: got -0.08 of the volume of the tank, want zero or more`},
		{"doubts.ph", "a bit", `doubts.ph: got "a bit", want a number such as "3"`},
		{"goal.nitrate", "0 mg/L", `goal: goal.nitrate: got 0 mg/L NO3, want a goal short of the new water at 0`},
		{"goal.phosphate", "-1 mg/L", `goal: goal.phosphate: got -1 mg/L PO4, want zero or more`},
		{"goal.every", "0 days", `goal.every: got "0 days", want a time`},
		{"goal.potassium", "400 mg/L", `goal.potassium: got "400 mg/L", want no such field`},
		{"additives.magnesium.compound", "MgCl2.9H2O", `additives.magnesium.compound: got "MgCl2.9H2O", want`},
		{"additives.magnesium.purity", "130 %", `additives.magnesium: `},
		{"tank.volum", "310 L", `tank.volum: got "310 L", want no such field`},
	} {
		path := filepath.Join(t.TempDir(), "scenario.json")
		s, err := parseScenario(example)
		require.NoError(t, err)
		s.Set(r.field, r.text)
		require.NoError(t, os.WriteFile(path, unflatten(t, s.Texts), 0o666))
		out, err := report(t, "-scenario", path)
		if assert.Error(t, err, r) {
			assert.Contains(t, err.Error(), r.want)
		}
		assert.Empty(t, out)
	}
}

// Every field of the scenario is needed or may be left out; none is guessed.
func TestMissingFields(t *testing.T) {
	whole, err := parseScenario(example)
	require.NoError(t, err)
	optional := map[string]bool{
		"salt.bulk_density": false, "salt.package": false, "salt.price": true, "scoop.volume": true,
		"vessel.safe_fill": true, "batch.measured": true, "tank.nitrate_per_day": false, "tank.nitrate_limit": true, "heater.loss": false,
	}
	for _, of := range []string{"batch", "tank", "doubts", "goal"} {
		for _, name := range []string{"alkalinity", "calcium", "magnesium", "nitrate", "phosphate", "ammonia", "ph", "tank", "swap", "salinity", "temperature"} {
			optional[of+"."+name] = true
		}
	}
	optional["pure_water.after_membrane"] = false // its step goes with it
	for _, needed := range []string{"tank.salinity", "tank.temperature", "batch.temperature", "tank.alkalinity", "batch.alkalinity", "batch.nitrate", "batch.magnesium", "tank.nitrate", "tank.magnesium"} {
		delete(optional, needed) // a goal or a pH rests on it
	}
	for field := range whole.Texts {
		s, err := parseScenario(example)
		require.NoError(t, err)
		s.Drop(field)
		in, err := s.read()
		if err == nil {
			_, err = work(in)
		}
		if optional[field] {
			assert.NoError(t, err, field)
			continue
		}
		if assert.Error(t, err, field) {
			assert.NotEmpty(t, err.Error())
		}
	}
}

func TestWrongFilesAndFlags(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"number.json": `{"tank":{"volume":310}}`, "list.json": `[]`, "broken.json": `{`, "empty.json": `{}`} {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
		out, err := report(t, "-scenario", path)
		assert.Error(t, err, name)
		assert.Empty(t, out)
	}
	_, err := report(t, "-scenario", filepath.Join(dir, "number.json"))
	assert.EqualError(t, err, `tank.volume: got 310, want a text in quotes with its unit, such as "20 L"`)
	_, err = report(t, "-scenario", filepath.Join(dir, "none.json"))
	assert.Error(t, err)
	_, err = report(t, "stray")
	assert.EqualError(t, err, `"stray": want flags only`)
	_, err = report(t, "-tank", "5 gal")
	assert.ErrorContains(t, err, "tank.volume")
	out, err := report(t, "-example")
	require.NoError(t, err)
	assert.Equal(t, string(example), out)
}

// Other vessels and other ways to say how much.
func TestOtherVessels(t *testing.T) {
	for name, set := range map[string]map[string]string{
		"box":      {"vessel.shape": "box", "vessel.length": "50 cm", "vessel.width": "40 cm", "vessel.height": "40 cm", "vessel.safe_fill": "38 cm"},
		"cylinder": {"vessel.shape": "cylinder", "vessel.diameter": "18 in", "vessel.height": "50 cm"},
		"marks":    {"vessel.shape": "marks", "vessel.marks.0.height": "20 cm", "vessel.marks.0.volume": "22 L", "vessel.marks.1.height": "50 cm", "vessel.marks.1.volume": "60 L"},
	} {
		s, err := parseScenario(example)
		require.NoError(t, err)
		s.Drop("vessel.bottom_diameter", "vessel.top_diameter")
		if name == "marks" {
			s.Drop("vessel.height")
		}
		for field, text := range set {
			s.Set(field, text)
		}
		s.Drop("batch.final_volume")
		s.Set("batch.final_level", "36 cm")
		s.Set("change.swap", "25 L")
		in, err := s.read()
		require.NoError(t, err, name)
		j, err := work(in)
		require.NoError(t, err, name)
		assert.InDelta(t, 36, j.batch.FinalLevel.Centimetres(), 1e-6, name)
	}
}

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

// Two goals that may kill are two dangers, each in the unit in which it was written;
// only equal sentences are merged. One of the two was left out, and dKH came back
// as meq/L.
func TestTwoDangersOfOneKind(t *testing.T) {
	for written, said := range map[string]string{"15 dKH": "The goal of 15 dKH", "5.35 meq/L": "The goal of 5.35 meq/L"} {
		s, err := parseScenario(example)
		require.NoError(t, err)
		s.Set("goal.magnesium", "2500 mg/L")
		s.Set("goal.alkalinity", written)
		path := filepath.Join(t.TempDir(), "scenario.json")
		require.NoError(t, os.WriteFile(path, unflatten(t, s.Texts), 0o666))
		for _, form := range []string{"", "-short", "-json"} {
			args := []string{"-scenario", path}
			if form != "" {
				args = append(args, form)
			}
			out, err := report(t, args...)
			require.NoError(t, err)
			out = strings.Join(strings.Fields(out), " ")
			assert.Contains(t, out, said, form)
			assert.Contains(t, out, "The goal of 2500 mg/L", form)
			assert.Equal(t, 1, strings.Count(out, "A heater out of water can burst"), "equal cautions are said once")
			if written == "15 dKH" {
				assert.NotContains(t, out, "5.34979")
			}
		}
	}
}

// Odd but possible jobs, and what the report must then say.
func TestOddJobs(t *testing.T) {
	for name, r := range map[string]struct {
		set  map[string]string
		says []string
	}{
		"bad water":     {map[string]string{"pure_water.product": "9 ppm x0.5"}, []string{"STOP: not with this water", "reads too high for animals"}},
		"tired resin":   {map[string]string{"pure_water.product": "2 ppm x0.5"}, []string{"the resin is near its end"}},
		"two meters":    {map[string]string{"pure_water.product": "0 ppm x0.7"}, []string{"236 ppm from the tap: the water is good"}},
		"near enough":   {map[string]string{"batch.measured": "35.1"}, []string{"It reads 35.1: as it should be"}},
		"too salt":      {map[string]string{"batch.measured": "35.8"}, []string{"in the mixing vessel, add 1.2 L"}},
		"warm water":    {map[string]string{"pure_water.temperature": "30 °C"}, []string{"Let it cool from 30.0 °C"}},
		"right already": {map[string]string{"pure_water.temperature": "25 °C"}, []string{"It is at 25.0 °C (77.0 °F) already; holding it takes 18 W."}},
		"hungry tank":   {map[string]string{"tank.nitrate_per_day": "-3 mg/L"}, []string{"the tank uses up more nitrate", "Nitrate is at about 0.0 mg/L"}},
		"low limit":     {map[string]string{"tank.nitrate_limit": "2 mg/L"}, []string{"no change every 14 days holds 2.0 mg/L"}},
		"high limit":    {map[string]string{"tank.nitrate_limit": "60 mg/L"}, []string{"such changes keep below 60.0 mg/L"}},
		"dirty batch":   {map[string]string{"batch.nitrate": "30 mg/L", "goal.nitrate": "40 mg/L"}, []string{"no change gets below the new water"}},
		"old membrane":  {map[string]string{"pure_water.after_membrane": "60 ppm x0.5"}, []string{"The membrane holds back 74.6"}},
		"cold mix":      {map[string]string{"batch.temperature": "14 °C"}, []string{"First bring the mix to"}},
		"near goal":     {map[string]string{"goal.nitrate": "22 mg/L"}, []string{"One change of", "Then bring alkalinity to 8.5 dKH"}},
		"no goal left":  {map[string]string{"goal.nitrate": "30 mg/L", "goal.alkalinity": "7.4 dKH", "goal.magnesium": "1270 mg/L"}, []string{"No change of water is needed"}},
		"pH by a meter": {map[string]string{"tank.ph": "8.15 NBS"}, []string{"  pH                        8.0"}},
		"weeks":         {map[string]string{"change.every": "1 week"}, []string{"Until the next change, 7 days"}},
	} {
		s, err := parseScenario(example)
		require.NoError(t, err)
		for field, text := range r.set {
			s.Set(field, text)
		}
		path := filepath.Join(t.TempDir(), "scenario.json")
		require.NoError(t, os.WriteFile(path, unflatten(t, s.Texts), 0o666))
		out, err := report(t, "-scenario", path)
		require.NoError(t, err, name)
		for _, say := range r.says {
			assert.Contains(t, out, say, name)
		}
	}
}
