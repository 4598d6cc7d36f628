package main

import (
	"encoding/json"
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/home/hometest"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/seawater/ions"
)

var update = flag.Bool("update", false, "rewrite the expected reports")

func TestFindings(t *testing.T) {
	for name, args := range map[string][]string{
		"default": {"-cautions", "-assumptions"},
		"short":   {"-report", "testdata/short.csv", "-temperature", "68 °F", "-plain"},
		"slip":    {"-report", "testdata/slip.json", "-short"},
		"sound":   {"-report", "testdata/sound.csv"},
	} {
		got, err := hometest.Output(t, &command, args...)
		require.NoError(t, err, name)
		hometest.Golden(t, *update, name+".txt", got)
	}
}

func TestEveryHome(t *testing.T) {
	hometest.TryAll(t, &command)
	for _, report := range []string{"short.csv", "slip.json", "sound.csv"} {
		hometest.Try(t, &command, "-report", "testdata/"+report)
		hometest.Try(t, &command, "-report", "testdata/"+report, "-file", hometest.File(t, string(home.Full())))
	}
	hometest.Try(t, &command, "-file", hometest.File(t, `{}`))
	// Whatever slipped, the first screen holds it.
	step := 1
	if testing.Short() {
		step = 5
	}
	for k := 3; k < 14; k += step {
		lines := strings.Split(string(invented), "\n")
		for i := range lines[2:k] {
			lines[i+2] = strings.Replace(lines[i+2], ", ", ", 0.0", 1)
		}
		path := hometest.File(t, strings.Join(lines, "\n"))
		if _, err := hometest.Output(t, &command, "-report", path); err == nil {
			hometest.Try(t, &command, "-report", path)
		}
	}
}

// The invented report that -example-report prints is one that -report reads.
func TestExample(t *testing.T) {
	printed, err := hometest.Output(t, &command, "-example-report")
	require.NoError(t, err)
	assert.Equal(t, string(invented), printed)
	got, err := hometest.Output(t, &command, "-report", hometest.File(t, printed))
	require.NoError(t, err)
	want, err := hometest.Output(t, &command)
	require.NoError(t, err)
	assert.Equal(t, want, got)
}

// Beside a home of one's own the invented report is headed as what it is, and nothing of
// the tank stands beside it.
func TestInvented(t *testing.T) {
	own := hometest.File(t, `{"name": "Mine", "tank": {"volume": "300 L", "salinity": "39 ppt", "temperature": "25 °C", "calcium": "300 mg/L"}}`)
	got, err := hometest.Output(t, &command, "-file", own)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(got, "An invented laboratory report, not of Mine\n"), got)
	assert.Contains(t, got, "Not told: -report")
	assert.NotContains(t, got, "Your own tests")
	assert.NotContains(t, got, "39.0 ppt")
	got, err = hometest.Output(t, &command, "-file", own, "-report", "testdata/sound.csv")
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(got, "Mine: the laboratory report\n"), got)
	assert.NotContains(t, got, "nvented")
	assert.Contains(t, got, "Your own tests")
	assert.Regexp(t, `The tank is said to be at 39.0 ppt, \d\.\d above the report: one of the two is`, strings.Join(strings.Fields(got), " "))
	got, err = hometest.Output(t, &command)
	require.NoError(t, err)
	assert.NotContains(t, got, "is said to be")
}

// Lines and JSON of the same report are the same.
func TestForms(t *testing.T) {
	lines, err := read([]byte("Ca, 420, mg/L, 5\nLi, <0.2, mg/L"))
	require.NoError(t, err)
	list, err := read([]byte("\ufeff" + ` [{"quantity": "Ca", "value": 420, "unit": "mg/L", "uncertainty": 5}, {"quantity": "Li", "value": 0.2, "unit": "mg/L", "below": true}]`))
	require.NoError(t, err)
	assert.Equal(t, lines, list)
	assert.Len(t, list, 2)
	_, err = read([]byte(`[{"ion": "Ca"}]`))
	assert.ErrorContains(t, err, "ion")
}

// What is below detection stands as that, and what nobody measured as a question mark.
func TestNothingLikeAMeasurement(t *testing.T) {
	got, err := hometest.Output(t, &command, "-report", "testdata/sound.csv")
	require.NoError(t, err)
	for _, want := range []string{"< 100 mg/L", "< 0.005 mg/L", "fluoride"} {
		assert.Contains(t, got, want)
	}
	assert.Regexp(t, `(?m)^  boron +\?$`, got)
	assert.Regexp(t, `(?m)^  silicate +\?$`, got)
	for _, half := range []string{"50 mg/L", "50.0 mg/L", "0.0025"} {
		assert.NotContains(t, got, half, "half of a limit is no measurement")
	}
	for _, l := range strings.Split(got, "\n") {
		if strings.HasPrefix(l, "  Br ") || strings.HasPrefix(l, "  PO4-P ") {
			assert.Contains(t, l, "<")
			assert.NotContains(t, l, "%")
		}
	}
}

// slipsOf runs a change of the invented report and returns what slipped.
func slipsOf(t *testing.T, old, new string) (list []ions.Screened, text string) {
	t.Helper()
	require.Contains(t, string(invented), old)
	path := hometest.File(t, strings.Replace(string(invented), old, new, 1))
	text, err := hometest.Output(t, &command, "-report", path)
	if err != nil {
		return nil, err.Error()
	}
	numbers, err := hometest.Output(t, &command, "-report", path, "-json")
	require.NoError(t, err)
	var f findings
	require.NoError(t, json.Unmarshal([]byte(numbers), &f))
	for _, l := range f.Lines {
		if l.Slip > 0 && l.Of != "strontium" {
			list = append(list, l)
		}
	}
	return list, text
}

// A slip is named with its factor, also where the charges then cannot balance.
func TestSlips(t *testing.T) {
	list, text := slipsOf(t, "Ca, 452", "Ca, 45.2")
	require.Len(t, list, 1)
	assert.Equal(t, 0.1, list[0].Slip)
	assert.Contains(t, text, "Ca, 45.2 mg/L, is 0.106 times")
	list, _ = slipsOf(t, "Ca, 452", "Ca, 1129.") // counted as CaCO3: 452 · 100.086/40.078
	require.Len(t, list, 1)
	assert.InDelta(t, 2.497, list[0].Slip, 0.001)
	list, _ = slipsOf(t, "K, 418", "K, 520") // as tanks are
	assert.Empty(t, list)
	_, text = slipsOf(t, "Na, 10750", "Na, 1075")
	assert.Contains(t, text, "composition cannot be closed")
	assert.Contains(t, text, "Na, 1075 mg/L, is 0.09")
	assert.Contains(t, text, "the point or the unit, by 10")
}

// Whatever the file, there is a whole report or an error and nothing.
func FuzzRead(f *testing.F) {
	f.Add(invented)
	slip, err := os.ReadFile("testdata/slip.json")
	require.NoError(f, err)
	f.Add(slip)
	f.Add([]byte(`[{"quantity": "Ca", "value": 1e308, "unit": "mol/kg", "uncertainty": -1}, {"quantity": "salinity", "value": 35, "unit": "PSU"}]`))
	f.Add([]byte(` [] {"quantity": "Ca"}`))
	f.Add([]byte("\xef\xbb\xbfCa;412;mg/L\r\nsalinity;35;PSU\r\n"))
	f.Add([]byte("SG;1.026;25/25\nCa;<0;mg/L\nK;0;mg/L"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, _, err := answer(&home.Home{}, data, false)
		if err != nil {
			require.Nil(t, r)
			require.Less(t, len(err.Error()), 20000)
			return
		}
		var text, page strings.Builder
		require.NoError(t, r.WriteText(&text, paper.Options{Cautions: true, Assumptions: true}))
		require.NotContains(t, text.String(), "NaN")
		require.NoError(t, r.WritePage(&page))
		hometest.WellFormed(t, page.String())
	})
}

func TestRefusals(t *testing.T) {
	for text, want := range map[string]string{
		"NO3, 5, mg/L":                       `"nitrate as N" or "nitrate as NO3"`,
		"Ca, 400, mg/L":                      "composition cannot be closed: sodium and chloride are missing",
		"Ca, 400, ppm\nsalinity, 35, PSU":    `Ca.unit: got "ppm"`,
		"[{\"quantity\": \"Ca\", \"x\": 1}]": `unknown field "x"`,
		"SG, 1.0264, 60/60":                  `SG.unit: got "60/60", want the temperatures`,
		"":                                   "report: got no measurement",
	} {
		_, err := hometest.Output(t, &command, "-report", hometest.File(t, text))
		assert.ErrorContains(t, err, want, text)
	}
	_, err := hometest.Output(t, &command, "-report", hometest.File(t, "Ca, 4o0, mg/L\nMg, 1300 mg/L, x, y\nK, 5; 3, mg/L"))
	for _, want := range []string{"line 1", "line 2", "line 3"} {
		assert.ErrorContains(t, err, want, "all at once")
	}
	_, err = hometest.Output(t, &command, "-report", hometest.File(t, "Ca, 400, ppm\nunicorn, 1300, mg/L\nNO3, 5, mg/L"))
	for _, want := range []string{"Ca.unit", "unicorn", "NO3"} {
		assert.ErrorContains(t, err, want, "all at once")
	}
	_, err = hometest.Output(t, &command, "-temperature", "45 °C")
	assert.ErrorContains(t, err, `tank.temperature: got "45 °C", want a water temperature`)
	_, err = hometest.Output(t, &command, "extra")
	assert.ErrorContains(t, err, "want flags only")
	_, err = hometest.Output(t, &command, "-report", "testdata/none.csv")
	assert.ErrorIs(t, err, os.ErrNotExist)
	var unclosed *ions.UnclosedError
	_, err = hometest.Output(t, &command, "-report", hometest.File(t, "Na, 10.78, mg/L\nCl, 19350, mg/L"))
	assert.ErrorAs(t, err, &unclosed)
}
