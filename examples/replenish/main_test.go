package main

import (
	"flag"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/home/hometest"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

var update = flag.Bool("update", false, "rewrite the expected reports")

func report(args ...string) (string, error) { return hometest.Run(command(), args...) }

// one runs the text of a whole report on one line.
func one(text string) string { return strings.Join(strings.Fields(text), " ") }

// own runs the command on a home of its own: a small tank, and what is said besides.
func own(t *testing.T, rest string, args ...string) string {
	t.Helper()
	out, err := report(append(args, "-file", hometest.File(t, `{"name": "small", `+rest+`}`))...)
	require.NoError(t, err)
	return strings.Join(strings.Fields(out), " ")
}

const small = `"tank": {"volume": "60 L", "salinity": "34 ppt", "temperature": "77 °F"`

// The reports are kept whole, so that a change of any number shows.
func TestReports(t *testing.T) {
	for name, args := range map[string][]string{
		"default.txt": nil,
		"all.txt":     {"-cautions", "-assumptions", "-plain"},
		"us.txt": {"-set", "prefer.units=US", "-volume", "80 US gal", "-temperature", "79 °F", "-ph", "7.95 total", "-co2", "900 ppm",
			"-top_off", "1 US gal/day"},
		"json.json": {"-json"},
	} {
		got, err := report(args...)
		require.NoError(t, err, name)
		hometest.Golden(t, *update, name, got)
	}
	page := hometest.PageOf(t, command())
	assert.Equal(t, 3, hometest.WellFormed(t, page))
	hometest.Golden(t, *update, "default.html", page)
}

func TestFirstScreen(t *testing.T) {
	hometest.Try(t, command())
	hometest.Try(t, command(), "-set", "prefer.units=both")
	hometest.Try(t, command(), "-file", hometest.File(t, `{"tank": {"volume": "40 L"}}`))
}

// The least that can be said is enough, and so is the most.
func TestLeastAndMost(t *testing.T) {
	out := own(t, `"tank": {"volume": "40 L"}`)
	assert.Contains(t, out, "there is nothing to dose")
	for _, hidden := range []string{"tank.salinity: taken as 35", "tests, or per_day: what the tank uses", "goal: what to raise"} {
		assert.Contains(t, out, hidden)
	}
	full := hometest.File(t, string(home.Full()))
	for _, args := range [][]string{nil, {"-json"}} {
		_, err := report(append(args, "-file", full)...)
		assert.NoError(t, err, args)
	}
	hometest.WellFormed(t, hometest.PageOf(t, command(), "-file", full))
	_, err := report("-file", hometest.File(t, `{}`))
	assert.ErrorContains(t, err, "tank.volume: got nothing, want")
}

// The doses of the JSON report carry the calcium that they are for.
func TestCalciumBalances(t *testing.T) {
	var r answer
	hometest.JSON(t, &r, command(), "-volume", "250 L")
	require.Len(t, r.Doses, 3)
	d := r.Doses[1]
	require.Equal(t, tested.Calcium, d.To.Parameter())
	var sum units.Volume
	for _, s := range d.Steps {
		sum += s.Amount.Volume
	}
	// 90 g/L of 97 %, 40.078/147.008 of it calcium, from 405 to 425 mg/L in 250 L
	assert.InEpsilon(t, 20*250/(90*0.97*40.078/147.008)/1000, sum.Litres(), 1e-12)
	assert.InEpsilon(t, d.Amount.Volume.Litres(), sum.Litres(), 1e-12)
}

// What is unknown is null, what never comes infinite, and neither stops the rest.
func TestJSONOfTheUnknown(t *testing.T) {
	out := own(t, small+`, "alkalinity": "7 dKH", "calcium": "420 mg/L"},
		"tests": [{"at": "2026-03-01", "alkalinity": "7.6 dKH", "calcium": "420 mg/L"}, {"at": "2026-03-03", "alkalinity": "7.4 dKH", "calcium": "420 mg/L"},
			{"at": "2026-03-06", "alkalinity": "7.0 dKH", "calcium": "420 mg/L"}], "lowest": {"calcium": "380 mg/L"}`, "-json")
	assert.Contains(t, out, `"Days": "+Inf"`)
	assert.Contains(t, out, `"Ratio": null`)
}

// What cannot be is refused by the path as it is written, all of it at once.
func TestRefusals(t *testing.T) {
	for pair, want := range map[string]string{
		"tank.volume=80 gal":                      `tank.volume: got "80 gal", want "US gal" (3.785 L) or "imp gal" (4.546 L)`,
		"tank.volume=-5 L":                        `tank.volume: got "-5 L", want`,
		"tank.temperature=25":                     `tank.temperature: got "25", want a temperature such as "25 °C" or "77 °F"`,
		"tank.temperature=77 °C":                  `tank.temperature: got "77 °C", want a water temperature, -2 to 40 °C`,
		"tank.salinity=1.026":                     `tank.salinity: got "1.026", want`,
		"tank.ph=8.1":                             `tank.ph: got "8.1", want a pH with its scale`,
		"room.co2=0.04 %":                         `room.co2: got "0.04 %", want`,
		"tank.calcium=420 ppm":                    `tank.calcium: got "420 ppm", want "mg/L": ppm could also be mg/kg, 2.5 % less in seawater`,
		"tank.alkalinity=8 KH":                    `tank.alkalinity: got "8 KH", want "dKH"`,
		"tank.gold=8 mg/L":                        `tank.gold: got "8 mg/L", want no such key`,
		"additives[1].stock[0].compound=CaCl3":    `additives[1].stock[0].compound: got "CaCl3", want`,
		"additives[1].stock[0].purity=97":         `additives[1].stock[0].purity: got "97", want`,
		"additives[0].stock[0].per_litre=400 g/L": `dosed[0].additive.content: got 396 g/L of Na2CO3, want at most`,
		"additives[2].stock[0].compound=KCl":      `additives[2]: got a compound and a stock, or neither, want one of them`,
		"tests[0].at=1 March":                     `tests[0].at: got "1 March", want a date such as`,
		"tests[9].alkalinity=7 dKH":               `tests[9].alkalinity: got "7 dKH", want no such key`,
		"doubts.alkalinity=0 dKH":                 `doubts.alkalinity: got 0 dKH, want a number above zero`,
		"dosed[0].amount=a cup":                   `dosed[0].amount: got "a cup", want an amount such as "12 g" or "40 mL"`,
		"dosed[0].amount=12 g":                    `dosed[0].amount: got 12 g, want a volume of the stock solution`,
		"dosed[0].additive=soada":                 `dosed[0].additive: got "soada", want the name of one of the additives`,
		"dosed[0].to=2026-02-01 09:00":            `dosed[0].to: got 2026-02-01T09:00:00Z, want after from`,
		"changed[0].swap=400 L":                   `changed[0].swap: got 400 L, want zero to the volume of the tank, 310 L`,
		"lime_water.top_off=75 gpd":               `lime_water.top_off: got "75 gpd", want`,
		"goal.fluoride=8 dKH":                     `goal.fluoride: got "8 dKH", want a concentration such as`,
	} {
		out, err := report("-set", pair)
		if assert.Error(t, err, pair) {
			assert.Contains(t, err.Error(), want)
		}
		assert.Empty(t, out)
	}
	_, err := report("-set", "tank.volume=80 gal", "-set", "tank.ph=8.1", "-set", "dosed[0].amount=a cup", "-set", "tank.gold=8 mg/L")
	require.Error(t, err)
	assert.Len(t, strings.Split(err.Error(), "\n"), 4)
	for _, field := range []string{"tests[1].at", "dosed[0].from", "changed[0].at"} {
		at := strings.Replace(string(example), map[string]string{
			"tests[1].at": `"at": "2026-03-04 09:00", `, "dosed[0].from": `"from": "2026-03-01 10:00", `, "changed[0].at": `"at": "2026-03-08 11:00", `,
		}[field], "", 1)
		_, err := report("-file", hometest.File(t, at))
		assert.ErrorContains(t, err, field+": got no time, want when it was")
		assert.Len(t, strings.Split(err.Error(), "\n"), 1)
	}
}

// A side calculation that fails is a line in its section.
func TestSidesThatFail(t *testing.T) {
	for pair, says := range map[string]string{
		"lime_water.saturation=150 %":  "It cannot be planned: lime_water.saturation: got 150 %",
		"lime_water.temperature=80 °C": "It cannot be planned: lime_water: temperature: 80 °C is outside",
		"goal.calcium=300 mg/L":        "Calcium is at its goal already.",
		"goal.calcium=9000 mg/L":       "Calcium to 9000 mg/L Ca The steps cannot be planned: ",
		"goal.fluoride=2 mg/L":         "tank.fluoride: the dose to its goal",
		"lowest.magnesium=1200 mg/L":   "tests of magnesium: how long it lasts",
		"goal.nitrate=2 mg/L":          "The goal of nitrate is for changes of water.",
	} {
		out, err := report("-set", pair, "-assumptions")
		if assert.NoError(t, err, pair) {
			assert.Contains(t, strings.Join(strings.Fields(out), " "), says)
			assert.Contains(t, out, "39.4 mL of soda")
		}
	}
	// A change whose water was not tested tells nothing of what was not tested in it.
	out, err := report("-file", hometest.File(t, strings.Replace(string(example), `"alkalinity": "8.4 dKH", "calcium": "425 mg/L", `, `"alkalinity": "8.4 dKH", `, 1)))
	require.NoError(t, err)
	assert.Contains(t, out, "changed[0].calcium: what the tank uses of it")
	assert.Contains(t, out, "39.4 mL of soda")
	assert.NotContains(t, out, "of calcium chloride (95")
	// One test is no use.
	one := own(t, small+`, "alkalinity": "7 dKH"}, "tests": [{"at": "2026-03-01", "alkalinity": "7.6 dKH"}]`)
	assert.Contains(t, one, "The log does not tell: tests: got 1 tests")
}

// Without a log the goal is planned all the same, and without additives with the usual
// compounds. 1 dKH is 0.35663 mmol/L of alkalinity (DIN 38409-6, 10 mg/L of CaO); NaHCO3
// 84.007 g/mol with one of it, MgCl2.6H2O 203.30 with 24.305 of magnesium.
func TestGoalAlone(t *testing.T) {
	var r answer
	file := hometest.File(t, `{`+small+`, "alkalinity": "7 dKH", "magnesium": "1200 mg/L"}, "room": {"co2": "600 ppm"}, "goal": {"alkalinity": "7.5 dKH", "magnesium": "1240 mg/L"}}`)
	hometest.JSON(t, &r, command(), "-file", file)
	require.Len(t, r.Doses, 2)
	assert.InEpsilon(t, 0.5*0.35663e-3*60*84.007, r.Doses[0].Amount.Mass.Grams(), 1e-4)
	assert.InEpsilon(t, 40e-3*60*203.30/24.305, r.Doses[1].Amount.Mass.Grams(), 1e-4)
	out, err := report("-file", file)
	require.NoError(t, err)
	assert.Contains(t, out, "additives for alkalinity: reckoned with NaHCO3 of 100 %")
	// Without a pH the tank is taken as aired with outdoor air, as by every other command.
	dark := own(t, small+`, "alkalinity": "7 dKH"}, "goal": {"alkalinity": "7.5 dKH"}`)
	assert.Contains(t, dark, "Alkalinity to 7.5 dKH, besides: 899 mg of sodium hydrogen carbonate at once.")
	assert.Contains(t, dark, "tank.ph: by how much a dose of alkalinity may move it, but for a guess from outdoor air")
	outdoor := own(t, small+`, "alkalinity": "7 dKH"}, "room": {"co2": "420 ppm"}, "goal": {"alkalinity": "7.5 dKH"}`)
	steps := func(text string) string {
		_, text, _ = strings.Cut(text, "Alkalinity to 7.5 dKH 899")
		text, _, _ = strings.Cut(text, "Salinity rises")
		return text
	}
	assert.NotEmpty(t, steps(dark))
	assert.Equal(t, steps(outdoor), steps(dark))
	// What the file says of a day stands in for a log.
	told := own(t, small+`, "alkalinity": "7 dKH", "calcium": "420 mg/L"}, "room": {"co2": "600 ppm"}, "per_day": {"alkalinity": "-0.5 dKH"}, "lowest": {"alkalinity": "6 dKH"}`)
	assert.Contains(t, told, "Undosed, alkalinity is down at 6 dKH in 2.0 days.")
	assert.Contains(t, told, "Every day, in all: 899 mg of sodium hydrogen carbonate.")
}

// A plan that fails leaves nothing behind: no numbers of nothing, no table without rows.
func TestFailedPlan(t *testing.T) {
	file := hometest.File(t, `{`+small+`, "alkalinity": "7 dKH", "nitrate": "6 mg/L NO3"},
		"goal": {"alkalinity": "8 dKH"}, "lowest": {"alkalinity": "6 dKH"}, "per_day": {"alkalinity": "-0.2 dKH"}, "lime_water": {"top_off": "1 L/day", "temperature": "19 °C", "saturation": "100 %"},
		"additives": [{"name": "soda", "for": "alkalinity", "compound": "Na2CO3", "purity": "0 %"}]}`)
	var r map[string]any
	hometest.JSON(t, &r, command(), "-file", file)
	for _, list := range []string{"Upkeeps", "Doses"} {
		failed := r[list].([]any)[0].(map[string]any)
		assert.Contains(t, failed["Failed"], "purity: got 0 %", list)
		for _, key := range []string{"PerDay", "Amount", "Low", "Steps"} {
			assert.NotContains(t, failed, key, list)
		}
	}
	out, err := report("-file", file)
	require.NoError(t, err)
	assert.Contains(t, out, "cannot be planned")
	for _, none := range []string{"-0.0", "hydrometer", "95 %\n", "0 g"} {
		assert.NotContains(t, out, none)
	}
}

// What accumulates is made, not used with a minus.
func TestMade(t *testing.T) {
	out, err := report()
	require.NoError(t, err)
	assert.Regexp(t, `nitrate mg/L NO3 +6 +made 0.13 ± 0.09`, out)
	assert.Regexp(t, `nitrate mg/L NO3 +made 0.13 ± 0.09 +-0.05 to 0.31`, out)
	assert.Contains(t, one(out), "420 mL of soda from 1 March to 15 March; a change of 45 L on 8 March")
	// Three tests on one line leave no uncertainty to print, and no band.
	line := own(t, small+`}, "tests": [{"at": "2026-03-01", "alkalinity": "8.5 dKH"}, {"at": "2026-03-04", "alkalinity": "7.9 dKH"}, {"at": "2026-03-08", "alkalinity": "7.1 dKH"}]`)
	assert.Contains(t, line, "alkalinity dKH 0.2 7.1 3")
	assert.NotContains(t, line, "± 0 ")
}

// Trace doses are printed in milligrams and parts of a millilitre, not as zero.
func TestTraceDoses(t *testing.T) {
	for additive, want := range map[string]string{
		`"compound": "KI", "purity": "99 %"`:                                    "0.476 mg of KI at once.",
		`"stock": [{"compound": "KI", "purity": "99 %", "per_litre": "1 g/L"}]`: "0.476 mL of KI at once.",
	} {
		out := own(t, `"prefer": {"units": "metric"}, `+small+`, "iodine": "30 ug/L"}, "additives": [{"name": "KI", `+additive+`}], "goal": {"iodine": "36 ug/L"}`)
		// 6 µg/L in 60 L are 0.36 mg of iodine, of KI 166.00/126.90/0.99 times as much
		assert.Contains(t, out, want)
	}
}

// A soda that is dosed without a known pH goes in many parts; a level that stays where it
// is leaves the ratio open and never reaches its limit.
func TestFlatLogAndUnknownPH(t *testing.T) {
	out := own(t, small+`, "alkalinity": "7 dKH", "calcium": "420 mg/L"},
		"additives": [{"name": "soda", "stock": [{"compound": "Na2CO3", "purity": "99 %", "per_litre": "60 g/L"}]}],
		"tests": [
			{"at": "2026-03-01 09:00", "alkalinity": "7.6 dKH", "calcium": "420 mg/L"},
			{"at": "2026-03-03 09:00", "alkalinity": "7.4 dKH", "calcium": "420 mg/L"},
			{"at": "2026-03-06 09:00", "alkalinity": "7.0 dKH", "calcium": "420 mg/L"}],
		"lowest": {"calcium": "380 mg/L"}`)
	assert.Contains(t, out, "Alkalinity to calcium, where skeletons take 2 to 1: ")
	assert.NotContains(t, out, "e+")
	assert.Contains(t, out, "Undosed, calcium never is at 380 mg/L Ca")
	assert.NotContains(t, out, "never days")
	blind := own(t, small+`}, "per_day": {"alkalinity": "-0.5 dKH"}`)
	assert.Contains(t, blind, "; pH not known: in many small parts")
	assert.Equal(t, ", where skeletons take 2 to 1: the tests leave it open", ratio(replenish.Calcification{Ratio: units.Scalar(math.NaN()), Consistent: true}))
}

// Lime water takes the place of daily doses, and what is left of them is said.
func TestLimeInsteadOfDoses(t *testing.T) {
	out, err := report()
	require.NoError(t, err)
	assert.Contains(t, out, "Lime water as top-off: instead of, not besides, the daily doses")
	assert.Contains(t, out, "With all of it, nothing of soda is left to dose a day, in all.")
	assert.Contains(t, strings.Join(strings.Fields(out), " "), "alkalinity would climb by 1.42 dKH a day, more than the limit of 1 dKH")
	out, err = report("-top_off", "0.4 L/day") // 0.162 of 0.399 dKH, 1.16 of 3.15 mg/L: 59.5 and 63.3 % are left
	require.NoError(t, err)
	assert.Contains(t, out, "With all of it, 23.4 mL of soda is left to dose a day, in all.")
	assert.Contains(t, out, "With all of it, 26 mL of calcium chloride is left to dose a day, in all.")
}

// The line on the chart is the fit: tests that were made up from a use, doses, pumps and a
// change all lie on it.
func TestFittedLine(t *testing.T) {
	// 0.5 dKH a day from 8 dKH in 100 L; on day 2 a dose of NaHCO3 that raises by 1, from day
	// 3 to day 5 a pump with 0.8 in all, on day 6 a change of a quarter for water of 10.
	gram := func(dKH float64) float64 { return dKH * 0.35663e-3 * 100 * 84.007 }
	levels := map[int]float64{0: 8, 2: 7, 3: 7.5, 5: 7.3, 6: 6.8, 7: (6.8*0.75 + 2.5) - 0.5}
	start := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	bottle, err := home.Read([]byte(`{"tank": {"volume": "100 L", "salinity": "35 ppt"}, "additives": [{"name": "soda", "compound": "NaHCO3", "purity": "100 %"}]}`), nil)
	require.NoError(t, err)
	h := *bottle
	on := func(day int) time.Time { return start.AddDate(0, 0, day) }
	alkalinity := func(x float64) tested.Levels { return tested.Levels{tested.AlkalinityOf(units.DKH(x)).In(tested.DKH)} }
	for day, x := range levels {
		h.Tests = append(h.Tests, home.Test{At: on(day), Levels: alkalinity(x)})
	}
	h.Dosed = []home.Dosed{
		{Additive: "soda", From: on(2), Amount: replenish.Amount{Mass: units.Mass(gram(1)) * units.Gram}},
		{Additive: "soda", From: on(3), To: on(5), Amount: replenish.Amount{Mass: units.Mass(gram(0.8)) * units.Gram}},
	}
	h.Changed = []home.Changed{{At: on(6), Swap: 25 * units.Litre, Levels: alkalinity(10)}}
	j, err := work(&h)
	require.NoError(t, err)
	require.Len(t, j.uses, 1)
	assert.InDelta(t, 0.5, j.uses[0].PerDay.Alkalinity().DKH(), 1e-4)
	c := j.chart(j.uses[0])
	require.Len(t, c.Measured, len(levels))
	assert.Len(t, c.Events, 3)
	for _, m := range c.Measured {
		nearest := math.Inf(1)
		for i := range c.At {
			if c.At[i] == m.At {
				nearest = min(nearest, math.Abs(c.Value[i]-m.Value))
			}
		}
		assert.Less(t, nearest, 1e-3, m.At)
	}
}

// A change of all the water leaves nothing to tell what was before.
func TestAllChanged(t *testing.T) {
	out, err := report("-set", "changed[0].swap=310 L", "-json")
	require.NoError(t, err)
	assert.NotContains(t, out, "Inf")
	page := hometest.PageOf(t, command(), "-set", "changed[0].swap=310 L")
	assert.NotContains(t, page, "Inf")
	hometest.WellFormed(t, page)
}

func TestArguments(t *testing.T) {
	out, err := report("-example")
	require.NoError(t, err)
	assert.Equal(t, string(example), out)
	assert.LessOrEqual(t, strings.Count(out, "\n"), 25)
	_, err = report("now")
	assert.EqualError(t, err, `"now": want flags only`)
	_, err = report("-file", "no such file.json")
	assert.Error(t, err)
	_, err = report("-volume", "much")
	assert.ErrorContains(t, err, "tank.volume")
	out, err = report("-keys")
	require.NoError(t, err)
	assert.Contains(t, out, "lime_water.top_off")
}
