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

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/home/hometest"
	"example.org/wellmixed/mix"
)

var update = flag.Bool("update", false, "rewrite the expected reports")

func report(t *testing.T, args ...string) (string, error) {
	t.Helper()
	return hometest.Output(t, &command, args...)
}

func file(t *testing.T, text string) string { return hometest.File(t, text) }

// The reports are kept whole, so that a change of any number shows.
func TestReports(t *testing.T) {
	for name, args := range map[string][]string{
		"default": nil,
		"us":      {"-set", "prefer.units=US", "-set", "prefer.salinity=SG", "-target", "1.025 SG", "-mix", "12 US gal", "-swap", "11 US gal", "-tank", "90 US gal", "-temperature", "78 °F", "-measured", "33.6"},
		"whole":   {"-cautions", "-assumptions"},
		"short":   {"-short"},
	} {
		got, err := report(t, args...)
		require.NoError(t, err, name)
		hometest.Golden(t, *update, name+".txt", got)
	}
	hometest.Golden(t, *update, "page.html", hometest.PageOf(t, &command))
}

// The page is well-formed, needs nothing from elsewhere, and says each drawing in words.
func TestPage(t *testing.T) {
	page := hometest.PageOf(t, &command, "-set", `name=<b>"Reef" & more</b>`)
	assert.Equal(t, 2, hometest.WellFormed(t, page))
	assert.NotContains(t, page, "://")
	assert.NotContains(t, page, "<b>")
	hometest.TryAll(t, &command)
}

// tanks are homes of ten lines and less, as somebody new would write them.
var tanks = map[string]string{
	"US, specific gravity only": `{"prefer": {"units": "US", "salinity": "SG"},
		"tank": {"volume": "80 US gal", "temperature": "78 °F", "salinity": "1.025 SG"},
		"mix": {"target": "1.026 SG"}, "salt": {"package": "44 lb", "package_makes": "135 US gal"}, "change": {"swap": "15 US gal"}}`,
	"nano, nothing else": `{"tank": {"volume": "40 L"}, "mix": {"target": "35 ppt"}, "salt": {"per_litre_of_water": "39 g/L"}}`,
	"two cubic metres": `{"tank": {"volume": "2000 L", "salinity": "34.8 ppt", "nitrate": "12 mg/L"}, "mix": {"target": "35 ppt", "nitrate": "0 mg/L"},
		"salt": {"sea_salt": "93 %", "package": "25 kg", "price": "80 EUR"}, "change": {"swap": "10 %", "every": "1 week"}, "per_day": {"nitrate": "0.3 mg/L"}}`,
	"too salty": `{"tank": {"volume": "200 L", "salinity": "39 ppt", "temperature": "25 °C"}, "mix": {"target": "33 ppt"},
		"salt": {"per_litre_of_mix": "36.5 g/L"}, "goal": {"salinity": "35 ppt"}, "evaporation": "3 L/day", "limits": {"high": {"salinity": "36 ppt"}}, "change": {"every": "3 days"}}`,
	"no heater": `{"tank": {"volume": "120 L", "temperature": "26 °C", "alkalinity": "7 dKH"},
		"mix": {"target": "53 mS/cm at 25 °C", "temperature": "19 °C", "alkalinity": "11 dKH"}, "salt": {"per_litre_of_water": "38 g/L"}, "change": {"swap": "40 L"}}`,
	"fill line and scoop": `{"tank": {"volume": "25 US gal"}, "mix": {"target": "35 ppt", "water": "18 L"}, "salt": {"per_litre_of_water": "38.5 g/L"}, "scoop": {"mass": "170 g"}}`,
	"bought water": `{"tank": {"volume": "60 L", "salinity": "36.5 ppt NaCl scale"}, "mix": {"target": "35 ppt"},
		"salt": {"per_litre_of_water": "38.5 g/L", "package": "4 kg", "price": "22 EUR"}, "pure_water": {"bought": "0.45 EUR"}, "change": {"every": "2 weeks"}}`,
	"a mix for no tank": `{"mix": {"target": "1.0264 25/25 °C", "volume": "12 US gal", "temperature": "77 °F"}, "salt": {"sea_salt": "95 %"}}`,
	"goal met in part": `{"tank": {"volume": "310 L", "alkalinity": "7.4 dKH", "nitrate": "23 mg/L", "salinity": "35 ppt", "temperature": "25 °C"},
		"mix": {"target": "35 ppt", "alkalinity": "8 dKH", "nitrate": "0 mg/L"}, "salt": {"per_litre_of_water": "38.5 g/L"},
		"goal": {"alkalinity": "8.5 dKH", "nitrate": "24 mg/L"}, "additives": [{"for": "alkalinity", "compound": "NaHCO3", "purity": "99 %"}]}`,
	"cold sea": `{"tank": {"volume": "150 L", "temperature": "11 °C", "salinity": "32 ppt"}, "mix": {"target": "32 ppt"}, "salt": {"per_litre_of_water": "38.5 g/L"},
		"pure_water": {"temperature": "20 °C"}, "change": {"swap": "30 %"}}`,
}

// Each gets an answer on one screen, as text, as JSON and as a page, and nothing that is
// not known is printed as a number.
func TestTanks(t *testing.T) {
	for name, text := range tanks {
		path := file(t, text)
		screen, err := report(t, "-file", path, "-short")
		require.NoError(t, err, name)
		lines := strings.Count(screen, "\n")
		assert.LessOrEqual(t, lines, 24, "%s:\n%s", name, screen)
		assert.Contains(t, screen, "of salt into the moving water", name)
		whole, err := report(t, "-file", path)
		require.NoError(t, err, name)
		assert.True(t, strings.HasPrefix(whole, screen), name)
		numbers, err := report(t, "-file", path, "-json", "-html", filepath.Join(t.TempDir(), "page.html"))
		require.NoError(t, err, name)
		assert.True(t, json.Valid([]byte(numbers)), name)
		for _, odd := range []string{"NaN", "Inf", "%!", "<nil>", "0001"} {
			assert.NotContains(t, whole, odd, name)
		}
	}
	default24, err := report(t, "-short")
	require.NoError(t, err)
	assert.LessOrEqual(t, strings.Count(default24, "\n"), 24)
}

// What the tanks must be told.
func TestWhatTanksAreTold(t *testing.T) {
	for name, says := range map[string][]string{
		"US, specific gravity only": {"Swap 15 US gal", "1.0260 SG 25/25 °C = 34.5 ppt", "too heavy to lift"},
		"nano, nothing else":        {"the usual tenth: nobody said how much", "tank.nitrate, tank.salinity, change.swap, tank.temperature.", "154 g"},
		"too salty":                 {"salinity 39.0 to 38.4", "The tank is at 39.0, where a reef is kept at 33 to 36", "7 changes of", "one every 2 days", "salinity by 1 within a day", "still above the 36.0 ppt"},
		"no heater":                 {"Let it cool to 19 °C", "Temperature moves by -2.3 °C", "Alkalinity moves by +1.3 dKH"},
		"fill line and scoop":       {"1.53 lb of salt into the moving water, 4 scoops"},
		"bought water":              {"Buy 5.92 L", "pure water", "1 package   22.00 EUR"},
		"goal met in part":          {"Nitrate: there already.", "Alkalinity to 8.5 dKH: 9.76 g of sodium hydrogen carbonate in all"},
	} {
		out, err := report(t, "-file", file(t, tanks[name]))
		require.NoError(t, err)
		plain := strings.Join(strings.Fields(out), " ")
		for _, say := range says {
			assert.Contains(t, plain, strings.Join(strings.Fields(say), " "), name)
		}
	}
}

// The masses balance: salt and water in, mix out.
func TestMassesBalance(t *testing.T) {
	out, err := report(t, "-json", "-mix", "33 L", "-swap", "30 L")
	require.NoError(t, err)
	var r struct{ Batch mix.BatchPlan }
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	assert.InEpsilon(t, float64(r.Batch.Mix.Mass), float64(r.Batch.Salt+r.Batch.WaterMass), 1e-12)
	assert.InDelta(t, 33, r.Batch.Mix.Volume().Litres(), 1e-9)
}

// A wrong file gets an error with the path, the value and what is expected, and nothing
// that looks like a plan.
func TestWrongFiles(t *testing.T) {
	for _, r := range []struct{ path, text, want string }{
		{"tank.volume", "80 gal", `tank.volume: got "80 gal", want "US gal" (3.785 L) or "imp gal" (4.546 L)`},
		{"tank.volume", "310", `tank.volume: got "310", want a volume such as "20 L" or "5 US gal"`},
		{"tank.volume", "-5 L", `tank.volume: got "-5 L", want zero or more`},
		{"tank.temperature", "25", `tank.temperature: got "25", want a temperature such as "25 °C" or "77 °F"`},
		{"tank.temperature", "77 °C", `tank.temperature: got "77 °C", want a water temperature, -2 to 40 °C or 28.4 to 104 °F`},
		{"tank.salinity", "1.025", `tank.salinity: got "1.025", want a salinity such as "35 ppt", "35.2 g/kg", "1.026 SG"`},
		{"mix.target", "60", `mix: target: 60 is outside 0 to 42 (PSS-78 and Hill et al. 1986)`},
		{"mix.target", "35,5 ppt", `mix.target: got "35,5 ppt"`},
		{"change.swap", "0 L", `change.swap: got "0 L", want above zero, or the key left out for a usual change`},
		{"tank", "300 L", `tank: got "300 L", want an object with keys of its own, such as "tank": {"volume": ...}`},
		{"additives[].purity", "99 %", `additives[].purity: got "99 %", want the number of the entry, additives[0].purity`},
		{"tank.nitrate", "3,5 mg/L", `tank.nitrate: got "3,5 mg/L", want a point for decimals`},
		{"mix.measured", "34.4 kg", `mix.measured: got "34.4 kg", want a salinity`},
		{"tank.calcium", "405 ppm", `tank.calcium: got "405 ppm", want "mg/L": ppm could also be mg/kg, 2.5 % less in seawater`},
		{"tank.nitrate", "-2 mg/L", `tank.nitrate: got -2 mg/L NO3, want zero or more`},
		{"salt.price", "$48", `salt.price: got "$48", want an amount with a currency code such as "18.50 EUR" or "20 USD"`},
		{"salt.sea_salt", "90 %", `salt: got a share of sea salt and a label, want one of them`},
		{"change.every", "fortnight", `change.every: got "fortnight", want a time such as "36 h", "14 days"`},
		{"change.every", "0 days", `change.every: got "0 days", want a time above zero`},
		{"change.swap", "60 L", `change.swap: got 60 L, want at most the 50`},
		{"change.at", "Saturday", `change.at: got "Saturday", want a date such as`},
		{"vessel.shape", "barrel", `vessel.shape: got "barrel", want one of "bucket", "box", "cylinder", "marks"`},
		{"vessel.safe_fill", "60 cm", `vessel.safeFill: got 600 mm, want above zero and no higher than the brim at 500 mm`},
		{"pure_water.flow", "75 gpd", `pure_water.flow: got "75 gpd", want "US gal/day" or the flow in litres`},
		{"pure_water.waste", "three", `pure_water.waste: got "three", want a ratio such as "3:1"`},
		{"tank.ph", "8.1", `tank.ph: got "8.1", want a pH with its scale, "8.1 total" or, from a meter set in ordinary buffers, "8.2 NBS"`},
		{"room.co2", "-400 ppm", `room.co2: got "-400 ppm", want`},
		{"pure_water.pressure", "60", `pure_water.pressure: got "60", want`},
		{"pure_water.membrane.rejection", "0.97", `pure_water.membrane.rejection: got "0.97", want`},
		{"doubts.ph", "a bit", `doubts.ph: got "a bit", want a number above zero`},
		{"goal.every", "0 days", `goal.every: got "0 days", want a time`},
		{"additives[1].compound", "MgCl2.9H2O", `additives[1].compound: got "MgCl2.9H2O", want`},
		{"tank.volum", "310 L", `tank.volum: got "310 L", want no such key; tank.volume is near`},
		{"tank.nitrat", "5 mg/L", `tank.nitrat: got "5 mg/L", want no such key; tank.nitrate is near`},
		{"prefer.units", "imperial", `prefer.units: got "imperial", want "metric", "US" or "both"`},
		{"name", " ", `name: got "", want a text such as "Window bay", or the key left out`},
	} {
		out, err := report(t, "-set", r.path+"="+r.text)
		if assert.Error(t, err, r) {
			assert.Contains(t, err.Error(), r.want)
		}
		assert.Empty(t, out, r)
	}
	// All of them at once.
	_, err := report(t, "-set", "tank.volume=80 gal", "-set", "tank.temperature=25", "-set", "salt.price=$48", "-set", "x=y")
	for _, path := range []string{"tank.volume: ", "tank.temperature: ", "salt.price: ", "x: "} {
		assert.ErrorContains(t, err, path)
	}
	for text, want := range map[string]string{
		`{"tank":{"volume":310}}`:                `tank.volume: got 310, want a text in quotes with its unit, such as "20 L"`,
		`[]`:                                     "not a JSON object",
		"{\n\"tank\": {\"volume\": \"3 L\",}\n}": "line 2: ",
		`{}`:                                     "tank.volume: got nothing",
		`{"tank":{"volume":"3 L","volume":"4 L"}}`:              "tank.volume: got two of it, want each key once",
		`{"mix":{"volume":"3 L","water":"4 L"}}`:                "mix: got 2 amounts, want one of volume, water, level and water_level",
		`{"tank.volume":"3 L"}`:                                 `want names without a point`,
		`{"tank":{"volume":"310 L"},"mix":{"target":"35 ppt"}}`: `salt: got nothing, want what its label says`,
	} {
		out, err := report(t, "-file", file(t, text))
		assert.ErrorContains(t, err, want, text)
		assert.Empty(t, out)
	}
	_, err = report(t, "stray")
	assert.EqualError(t, err, `"stray": want flags only`)
	_, err = report(t, "-tnak", "5 L")
	assert.EqualError(t, err, `no flag -tnak; -tank is near (-h lists them all)`)
	_, err = report(t, "-file", filepath.Join(t.TempDir(), "none.json"))
	assert.ErrorIs(t, err, os.ErrNotExist)
}

// Without any one of the keys of the full example there still is a plan, but for what it
// is about.
func TestAnyKeyMayBeMissing(t *testing.T) {
	if testing.Short() {
		t.Skip("a plan for each key")
	}
	whole, err := report(t, "-file", file(t, string(home.Full())))
	require.NoError(t, err)
	assert.NotContains(t, whole, "ot worked out")
	var tree map[string]any
	require.NoError(t, json.Unmarshal(home.Full(), &tree))
	needed := []string{
		"mix.target", "salt.per_litre_of_water", "vessel.shape", "vessel.bottom_diameter", "vessel.top_diameter",
		"vessel.height", "additives[0].compound", "additives[0].name", "additives[0].purity", "dosed[0].additive",
	}
	var walk func(path string, at any, drop func())
	walk = func(path string, at any, drop func()) {
		switch at := at.(type) {
		case map[string]any:
			for k, v := range at {
				walk(strings.TrimPrefix(path+"."+k, "."), v, func() { delete(at, k) })
				at[k] = v
			}
		case []any:
			for i, v := range at {
				if _, leaf := v.(string); !leaf {
					walk(path+"["+string(rune('0'+i))+"]", v, func() {})
				}
			}
		case string:
			drop()
			data, err := json.Marshal(tree)
			require.NoError(t, err)
			_, err = report(t, "-file", file(t, string(data)))
			for _, n := range needed {
				if n == path {
					return
				}
			}
			assert.NoError(t, err, path)
		}
	}
	walk("", tree, func() {})
}

// Other vessels and other ways to say how much.
func TestOtherVessels(t *testing.T) {
	for name, vessel := range map[string]string{
		"box":      `{"shape": "box", "length": "50 cm", "width": "40 cm", "height": "40 cm", "safe_fill": "38 cm"}`,
		"cylinder": `{"shape": "cylinder", "diameter": "18 in", "height": "50 cm"}`,
		"marks":    `{"shape": "marks", "marks": [{"height": "20 cm", "volume": "22 L"}, {"height": "50 cm", "volume": "60 L"}]}`,
	} {
		out, err := report(t, "-json", "-file", file(t, `{"tank": {"volume": "300 L"}, "change": {"swap": "25 L"},
			"mix": {"target": "35 ppt", "level": "36 cm"}, "salt": {"sea_salt": "93 %"}, "vessel": `+vessel+`}`))
		require.NoError(t, err, name)
		var r struct{ Batch mix.BatchPlan }
		require.NoError(t, json.Unmarshal([]byte(out), &r))
		assert.InDelta(t, 36, r.Batch.FinalLevel.Centimetres(), 1e-6, name)
	}
}

// Two goals that may kill are two dangers, each in the unit in which it was written; only
// equal sentences are merged.
func TestTwoDangersOfOneKind(t *testing.T) {
	for written, said := range map[string]string{"15 dKH": "he goal of 15 dKH", "5.35 meq/L": "he goal of 5.35 meq/L"} {
		for _, form := range []string{"-plain", "-json"} {
			out, err := report(t, form, "-set", "goal.magnesium=2500 mg/L", "-set", "goal.alkalinity="+written)
			require.NoError(t, err)
			out = strings.Join(strings.Fields(out), " ")
			assert.Contains(t, out, said, form)
			assert.Contains(t, out, "he goal of 2500 mg/L", form)
			if form == "-plain" {
				assert.Equal(t, 1, strings.Count(out, "A heater out of water can burst"), "equal cautions are said once")
			}
			if written == "15 dKH" {
				assert.NotContains(t, out, "5.34979")
			}
		}
	}
}

// A goal that is met asks for nothing; what an additive gives is not got by changes.
func TestAddingGoesBeforeChanging(t *testing.T) {
	for nitrate, changes := range map[string]int{"23 mg/L": 0, "24 mg/L": 0, "30 mg/L": 0} {
		out, err := report(t, "-json", "-set", "tank.nitrate=23 mg/L", "-set", "goal.nitrate="+nitrate)
		require.NoError(t, err)
		var r struct{ Way way }
		require.NoError(t, json.Unmarshal([]byte(out), &r))
		assert.Nil(t, r.Way.Course, "%s: %d changes", nitrate, changes)
		require.Len(t, r.Way.Doses, 2, nitrate)
		assert.InDelta(t, 8.6, r.Way.Doses[0].Plan.Amount.Mass.Grams(), 0.2, nitrate)
	}
	out, err := report(t, "-json", "-set", "goal.nitrate=22 mg/L")
	require.NoError(t, err)
	var r struct{ Way way }
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	assert.Equal(t, 1, r.Way.Course.Changes)
}

// Odd but possible jobs, and what the report must then say.
func TestOddJobs(t *testing.T) {
	for name, r := range map[string]struct {
		set  string
		says string
	}{
		"bad water":         {"pure_water.product=9 ppm x0.5", "STOP: Do not use this water: it reads 9 ppm"},
		"changed places":    {"pure_water.product=300 ppm x0.5", "STOP: The purified water reads more than the tap"},
		"tired resin":       {"pure_water.product=2 ppm x0.5", "the resin is near its end"},
		"near enough":       {"mix.measured=35.1", "It read 35.1: as it should be"},
		"too salt":          {"mix.measured=35.8", "It read 35.8: add 1.17 L"},
		"not to believe":    {"mix.measured=28", "does not allow it: clean the instrument"},
		"warm water":        {"pure_water.temperature=30 °C", "Let it cool to 25 °C"},
		"weak heater":       {"heater.power=5 W", "Warming Not worked out: to: got 25 °C, want below 20.7 °C"},
		"hungry tank":       {"per_day.nitrate=-3 mg/L", "the tank uses up more nitrate"},
		"low limit":         {"limits.high.nitrate=2 mg/L", "No change every 14 days holds 2.0 mg/L"},
		"high limit":        {"limits.high.nitrate=60 mg/L", "That keeps below 60.0 mg/L"},
		"old membrane":      {"pure_water.after_membrane=60 ppm x0.5", "The membrane holds back 74.6"},
		"swapped meters":    {"pure_water.after_membrane=400 ppm x0.5", "Stages of the purifier Not judged"},
		"cold mix":          {"mix.temperature=14 °C", "Bring the mix to"},
		"pH by a meter":     {"tank.ph=8.15 NBS", "pH 8.0"},
		"odd pH":            {"tank.ph=14 total", "pH Not worked out"},
		"weeks":             {"change.every=1 week", "Until the next change, 7 days"},
		"goal out of reach": {"goal.nitrate=0 mg/L", "Not planned: goal.nitrate: got 0 mg/L NO3, want a goal short of the new water at 0"},
		"too pure":          {"additives[1].purity=130 %", "Not planned: magnesium chloride"},
		"small vessel":      {"mix.volume=140 L", "it takes 3 fillings, one after the other"},
		"half of it":        {"doubts.tank=80 %", "Is it right that doubts.tank is 80 %?"},
		"far too much":      {"tank.nitrate=1e9 mg/L", "Is it right that tank.nitrate is 1e+09 mg/L NO3?"},
		"alkalinity falls":  {"per_day.alkalinity=-1 dKH", "right before the next change"},
		"no top-off":        {"top_off.by=none", "Nobody tops off: 4 L a day evaporate"},
		"small package":     {"salt.package=1.5 kg", "A package is not enough for it: it takes 1.27 of them"},
		"salty tank":        {"tank.salinity=37 ppt", "salinity 37.0 to 36.7"},
	} {
		out, err := report(t, "-set", r.set)
		require.NoError(t, err, name)
		assert.Contains(t, strings.Join(strings.Fields(out), " "), r.says, name)
	}
}

// Fuzzing a whole file: a report or an error, never both, never a panic.
func FuzzFile(f *testing.F) {
	f.Add(string(example))
	f.Add(string(home.Full()))
	for _, text := range tanks {
		f.Add(text)
	}
	f.Add("\ufeff{\"tank\": {\"volume\": \"½ US gal\"}}")
	f.Fuzz(func(t *testing.T, text string) {
		path := filepath.Join(t.TempDir(), "home.json")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
		var out bytes.Buffer
		err := command.Run([]string{"-file", path}, &out, io.Discard)
		if err != nil {
			assert.Empty(t, out.String())
			assert.Less(t, len(err.Error()), 20_000)
			return
		}
		assert.NotContains(t, out.String(), "NaN")
	})
}
