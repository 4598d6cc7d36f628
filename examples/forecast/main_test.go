package main

import (
	"encoding/csv"
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/home/hometest"
)

var update = flag.Bool("update", false, "rewrite the expected reports")

func report(args ...string) (string, error) { return hometest.Run(command(), args...) }

// one runs the text of a whole report on one line.
func one(text string) string { return strings.Join(strings.Fields(text), " ") }

// The reports are kept whole, so that a change of any number shows.
func TestReports(t *testing.T) {
	for name, args := range map[string][]string{
		"default.txt":  nil,
		"all.txt":      {"-cautions", "-assumptions", "-plain"},
		"neglect.txt":  {"-set", "top_off.by=none", "-evaporation", "0.25 L/day", "-span", "20 weeks"},
		"dry.txt":      {"-set", "top_off.by=none", "-evaporation", "9 L/day", "-swap", "1 L"},
		"us.txt":       {"-set", "prefer.units=US", "-set", "prefer.salinity=SG", "-volume", "80 US gal", "-swap", "10 %"},
		"too long.txt": {"-every", "10 weeks", "-swap", "84 L", "-volume", "80 US gal"},
		"json.json":    {"-json", "-span", "26 weeks"},
		"weekly.csv":   {"-csv", "-step", "1 week"},
	} {
		got, err := report(args...)
		require.NoError(t, err, name)
		hometest.Golden(t, *update, name, got)
	}
	page := hometest.PageOf(t, command())
	assert.Equal(t, 7, hometest.WellFormed(t, page))
	hometest.Golden(t, *update, "default.html", page)
}

func TestFirstScreen(t *testing.T) {
	hometest.Try(t, command())
	hometest.Try(t, command(), "-file", hometest.File(t, `{"tank": {"volume": "40 L"}}`))
	hometest.Try(t, command(), "-set", "top_off.by=none", "-evaporation", "9 L/day", "-swap", "1 L")
}

// The least that can be said is enough, and so is the most.
func TestLeastAndMost(t *testing.T) {
	out, err := report("-file", hometest.File(t, `{"tank": {"volume": "40 L"}}`))
	require.NoError(t, err)
	for _, hidden := range []string{"tank.salinity: taken as 35", "change.swap: changes of water", "evaporation: how the salinity moves",
		"limits: until when all is well", "room.co2: pH"} {
		assert.Contains(t, one(out), hidden)
	}
	assert.NotContains(t, out, "kept")
	assert.NotContains(t, out, "stays within")
	full := hometest.File(t, string(home.Full()))
	for _, args := range [][]string{nil, {"-json"}, {"-csv"}} {
		_, err = report(append(args, "-file", full)...)
		assert.NoError(t, err, args)
	}
	hometest.WellFormed(t, hometest.PageOf(t, command(), "-file", full))
	_, err = report("-file", hometest.File(t, `{}`))
	assert.ErrorContains(t, err, "tank.volume: got nothing, want")
}

// Rows of another step are the same rows.
func TestStepsOfTheCSV(t *testing.T) {
	read := func(step string) [][]string {
		out, err := report("-csv", "-step", step)
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

// What comes in goes out or is still there, and the JSON is read back by the library.
func TestBalances(t *testing.T) {
	var r answer
	hometest.JSON(t, &r, command())
	require.Len(t, r.Forecast.Balances, 7)
	for _, b := range r.Forecast.Balances {
		assert.InEpsilon(t, b.Before+b.Made+b.Dosed+b.Poured+b.Topped, b.Drawn+b.Lost+b.After, 1e-9)
	}
	assert.Len(t, r.Steps, 5)
	assert.Len(t, r.Limits, 9)
	assert.NotNil(t, r.Settled)
	assert.NotNil(t, r.Schedule)
}

// What is bought is what is used: 26 changes of 28 L in a year, 3.5 L a day of evaporation,
// and 0.43 dKH a day of alkalinity. 1 dKH is 0.35663 mmol/L of alkalinity (DIN 38409-6,
// 10 mg/L of CaO), Na2CO3 105.99 g/mol with two of it.
func TestShopping(t *testing.T) {
	h, err := home.Read(example, nil)
	require.NoError(t, err)
	y, err := look(h)
	require.NoError(t, err)
	require.Len(t, y.Shopping, 3)
	salt, water, soda := y.Shopping[0], y.Shopping[1], y.Shopping[2]
	assert.Equal(t, "for 728 L of new water", salt.Why)
	assert.Equal(t, 2., salt.Packages)
	assert.Equal(t, 136., salt.Cost.Amount)
	// 728 L of mix weigh 1.0233 kg/L (UNESCO 44: 35, 25 °C), with 38.2 g of product to a litre of water
	assert.InEpsilon(t, 728*1.0233*38.2/(997.05+38.2), salt.Amount.Mass.Kilograms(), 2e-3)
	assert.InEpsilon(t, 728*1.0233/(1+38.2/997.05)/0.99705+365*3.5, water.Amount.Volume.Litres(), 2e-3)
	assert.InEpsilon(t, 0.43*0.35663e-3*280*365/2*105.99/0.99, soda.Amount.Mass.Grams(), 1e-3)
}

// with are flags that say more than the example.
func with(pairs ...string) (args []string) {
	for _, p := range pairs {
		args = append(args, "-set", p)
	}
	return args
}

// What cannot be read is refused by the path as it is written.
func TestRefusals(t *testing.T) {
	for pair, want := range map[string]string{
		"tank.volume=280":                    `tank.volume: got "280"`,
		"tank.salinity=50 ppt":               `tank: practical salinity`,
		"tank.nitrate=-1 mg/L":               `tank.nitrate: got -1 mg/L`,
		"forecast.start=31 January":          `forecast.start: got "31 January", want a date such as "2026-03-07"`,
		"forecast.span=a year":               `forecast.span: got "a year", want a time`,
		"room.co2=much":                      `room.co2: got "much"`,
		"top_off.by=magic":                   `top_off.by: got "magic", want one of "automatic", "hand", "none"`,
		"top_off.by=hand":                    `top_off.every: got nothing, want the time`,
		"evaporation=-1 L/day":               `evaporation: got`,
		"loss_per_day.nitrate=100 %":         `loss_per_day: got 100 %`,
		"loss_per_day.Nitrate=1 %":           `loss_per_day.Nitrate: got "1 %", want no such key; loss_per_day.nitrate is near`,
		"doses[0].every=-1 day":              `doses[0].every: got "-1 day"`,
		"change.swap=400 L":                  `change.swap: got 400 L`,
		"change.swap=28 gal":                 `change.swap: got "28 gal"`,
		"limits.high.nitrate=20 ppm":         `limits.high.nitrate: got "20 ppm"`,
		"doubts.tank=5":                      `doubts.tank: got "5"`,
		"calendar.swaps[1]=21":               `calendar.swaps[1]: got "21"`,
		"calendar.mix=0.40 €":                `calendar.mix: got "0.40 €"`,
		"tank.volum=280 L":                   `tank.volum: got "280 L", want no such key; tank.volume is near`,
		"additives[0].compound=NaHCO4":       `additives[0].compound: got "NaHCO4"`,
		"additives[0].stock[0].compound=KCl": `additives[0]: got a compound and a stock, or neither, want one of them`,
	} {
		out, err := report(with(pair)...)
		if assert.Error(t, err, pair) {
			assert.Contains(t, err.Error(), want)
		}
		assert.Empty(t, out)
	}
	// All of it is told at once.
	_, err := report(with("tank.volume=280", "change.swap=28 gal", "limits.high.nitrate=20 ppm", "tank.colour=blue")...)
	require.Error(t, err)
	assert.Len(t, strings.Split(err.Error(), "\n"), 4)
}

func TestWrongFilesAndFlags(t *testing.T) {
	for text, want := range map[string]string{
		`{"tank":{"volume":280}}`: `tank.volume: got 280, want a text in quotes with its unit, such as "20 L"`, `[]`: "not a JSON object", `{`: "line 1",
	} {
		out, err := report("-file", hometest.File(t, text))
		assert.ErrorContains(t, err, want)
		assert.Empty(t, out)
	}
	_, err := report("-file", filepath.Join(t.TempDir(), "none.json"))
	assert.ErrorIs(t, err, os.ErrNotExist)
	_, err = report("stray")
	assert.EqualError(t, err, `"stray": want flags only`)
	_, err = report("-json", "-csv")
	assert.EqualError(t, err, `-json and -csv: want one of them`)
	_, err = report("-csv", "-step", "often")
	assert.ErrorContains(t, err, "step")
	out, err := report("-example")
	require.NoError(t, err)
	assert.Equal(t, string(example), out)
	assert.LessOrEqual(t, strings.Count(out, "\n"), 25)
}

// Odd but possible years, and what the report must then say.
func TestOddYears(t *testing.T) {
	for name, r := range map[string]struct{ set, says []string }{
		"by hand":    {[]string{"top_off.by=hand", "top_off.every=2 days"}, []string{"Nitrate at most 20 mg/L"}},
		"for good":   {[]string{"loss_per_day.nitrate=0.0001 %", "change.swap=0.1 mL"}, []string{"Nitrate passes 20", "It does not settle: "}},
		"hungry":     {[]string{"per_day.nitrate=-3 mg/L"}, []string{"Nitrate is used up after"}},
		"strict":     {[]string{"limits.high.nitrate=5 mg/L"}, []string{"Nitrate is above 5 mg/L NO3 already", "There is none: limits.high.Nitrate", "bring it there first"}},
		"stream":     {[]string{"stream=8 L/day"}, []string{"an overflow", "two flows"}},
		"once":       {[]string{"change.at=2026-01-10 09:00"}, []string{"every 14 days, first on 10 January"}},
		"already on": {[]string{"change.at=2025-12-25 09:00"}, []string{"every 14 days, first on 8 January"}},
		"heavy":      {[]string{"doses[0].alkalinity=3 dKH"}, []string{"A dose of 3.0 dKH"}},
		"bought":     {[]string{"pure_water.bought=0.30 EUR"}, []string{"599."}},
		"drained":    {[]string{"pure_water.waste=3:1"}, []string{"L to the drain"}},
		"conductive": {[]string{"prefer.salinity=mS/cm"}, []string{"Salinity mS/cm"}},
		"a liquid":   {[]string{"additives[1].stock[0].compound=CaCl2.2H2O", "additives[1].stock[0].purity=99 %", "additives[1].stock[0].per_litre=200 g/L"}, []string{"for what is dosed of calcium"}},
		"strong":     {[]string{"additives[1].stock[0].compound=CaCl2.2H2O", "additives[1].stock[0].purity=99 %", "additives[1].stock[0].per_litre=9000 g/L"}, []string{"not known: "}},
		"wild":       {[]string{"doubts.salinity=90"}, []string{"How sure that is Not worked out"}},
		"no salt":    {[]string{"salt.package=200 kg", "mix.target=41.9 ppt"}, []string{"packages: 1"}},
	} {
		out, err := report(append(with(r.set...), "-cautions", "-assumptions")...)
		if !assert.NoError(t, err, name) {
			continue
		}
		for _, say := range r.says {
			assert.Contains(t, one(out), say, name)
		}
	}
}

// A forecast that cannot go on prints as far as it goes, and says why.
func TestEndsEarly(t *testing.T) {
	var r answer
	args := []string{"-set", "top_off.by=none", "-evaporation", "9 L/day", "-swap", "1 L"}
	hometest.JSON(t, &r, command(), args...)
	assert.Contains(t, r.Ends, "saltier")
	// Salt stays, so the water that is left is the salt over the highest salinity, 120 g/kg
	// (TEOS-10: the range of the formulas at 25 °C): 280 L (1 - 35.2/120) at 9 L a day.
	assert.InDelta(t, 280*(1-35.2/120)/9, r.Forecast.Span.Hours()/24, 0.8)
	out, err := report(args...)
	require.NoError(t, err)
	assert.Contains(t, one(out), "The forecast ends on 23 January, after 23 days")
}

// A level that nothing is told of is shown, and never said to be kept.
func TestNoRateIsNotZero(t *testing.T) {
	out, err := report("-file", hometest.File(t, `{"tank": {"volume": "100 L", "nitrate": "5 mg/L NO3", "calcium": "420 mg/L"},
		"evaporation": "1 L/day", "per_day": {"nitrate": "0.01 mg/L NO3"}, "forecast": {"start": "2026-01-01"},
		"limits": {"high": {"nitrate": "25 mg/L NO3", "calcium": "480 mg/L", "phosphate": "0.1 mg/L PO4"}}}`))
	require.NoError(t, err)
	assert.Contains(t, out, "What has a rate stays within its limits until 1 January 2027.")
	assert.Regexp(t, `Calcium at most 480 mg/L Ca\s+no rate told`, out)
	assert.Regexp(t, `Nitrate at most 25 mg/L NO3\s+kept`, out)
	assert.Contains(t, one(out), "per_day.calcium: taken as nothing: where it leads, and whether limits are kept, is not known")
	assert.Contains(t, one(out), "tank.phosphate: where it leads, and whether limits are kept")
}

// A rate that nobody told is named, and where it leads is not printed as if it were nothing.
func TestUnknownRate(t *testing.T) {
	out, err := report("-file", hometest.File(t, `{"tank": {"volume": "100 L", "salinity": "35 ppt", "temperature": "25 °C", "nitrate": "30 mg/L NO3"},
		"mix": {"target": "35 ppt", "nitrate": "0 mg/L NO3"}, "change": {"swap": "10 L", "every": "1 week"}}`))
	require.NoError(t, err)
	assert.Contains(t, one(out), "Not told: evaporation, per_day.nitrate, limits, ")
	_, settled, _ := strings.Cut(out, "In the long run")
	settled, balances, _ := strings.Cut(settled, "Where it came from")
	assert.Contains(t, settled, "Salinity")
	assert.NotContains(t, settled, "Nitrate")
	assert.Regexp(t, `Nitrate +3 +\? +0 +0 +0`, balances)
	for _, line := range strings.Split(balances, "\n") {
		assert.NotRegexp(t, ` 0\.000`, line, "what water shrinks by is no top-off")
	}
}

// The log of the file tells the rate that nobody wrote down, and the level; what is written
// down goes before it.
func TestRatesOfTheLog(t *testing.T) {
	const log = `"tests": [{"at": "2026-03-01 09:00", "alkalinity": "8.5 dKH", "nitrate": "4 mg/L NO3"}, {"at": "2026-03-04 09:00", "alkalinity": "7.9 dKH"},
		{"at": "2026-03-08 09:00", "alkalinity": "7.1 dKH"}], "forecast": {"start": "2026-03-08"}}`
	file := func(rest string) string {
		return hometest.File(t, `{"tank": {"volume": "250 L", "salinity": "35 ppt", "temperature": "25 °C"}, `+rest+log)
	}
	out, err := report("-file", file(""))
	require.NoError(t, err)
	assert.Contains(t, one(out), "By the tests of the log the tank uses 0.2 dKH of alkalinity a day.")
	assert.Contains(t, out, "per_day.nitrate", "one test tells no rate")
	assert.NotContains(t, out, "pumped")
	// 7.1 dKH at 0.2 a day last 35.5 days.
	assert.Contains(t, out, "!! Alkalinity is used up after 35.5 days")
	out, err = report("-file", file(`"per_day": {"alkalinity": "-0.1 dKH"}, `))
	require.NoError(t, err)
	assert.Contains(t, out, "after 71.0 days")
	assert.NotContains(t, out, "By the tests of the log")
	out, err = report("-file", file(`"additives": [{"name": "soda", "compound": "Na2CO3", "purity": "99 %"}],
		"dosed": [{"additive": "soda", "from": "2026-03-02", "amount": "2 g"}], `))
	require.NoError(t, err)
	assert.Contains(t, one(out), "pumped, or doses: what is dosed from now on")
	out, err = report("-file", file(`"dosed": [{"additive": "soda", "amount": "2 g"}], "additives": [{"name": "soda", "compound": "Na2CO3", "purity": "99 %"}], `))
	require.NoError(t, err)
	assert.Contains(t, one(out), "tests: what the tank uses by the log: dosed[0].from: got no time")
	_, err = report("-file", "../replenish/home.json")
	require.NoError(t, err)
	hometest.Try(t, command(), "-file", "../replenish/home.json")
}

// A forecast ends where the alkalinity does: no row says what is no tank any more.
func TestEndsWithItsAlkalinity(t *testing.T) {
	args := with("pumped.alkalinity=0 dKH", "doses[0].alkalinity=0 dKH", "per_day.alkalinity=-2 dKH", "limits.low.alkalinity=7 dKH")
	var r answer
	hometest.JSON(t, &r, command(), args...)
	assert.Equal(t, "alkalinity is used up, and with it the tank", r.Ends)
	assert.Nil(t, r.Settled)
	out, err := report(args...)
	require.NoError(t, err)
	assert.Contains(t, out, "!! Alkalinity is used up after")
	assert.Contains(t, one(out), "It does not settle: alkalinity is used up")
	last := r.Steps[len(r.Steps)-1]
	assert.Equal(t, r.Forecast.Span, last.At)
	a, _ := last.Water.Level("alkalinity")
	assert.Zero(t, a.Base())
	assert.Regexp(t, `pH total .* \?`, out)
	for _, s := range r.Steps[:len(r.Steps)-1] {
		a, _ := s.Water.Level("alkalinity")
		assert.Positive(t, a.Base())
	}
	// Nitrate that is used up ends nothing.
	hometest.JSON(t, &r, command(), with("per_day.nitrate=-3 mg/L")...)
	assert.Equal(t, 365*day, r.Forecast.Span)
}
