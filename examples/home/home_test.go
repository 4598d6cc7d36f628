package home_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

var update = flag.Bool("update", false, "rewrite the table of keys")

// The table of keys is the schema, written down.
func TestTableOfKeys(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, home.WriteKeys(&b))
	if *update {
		require.NoError(t, os.WriteFile("KEYS.md", b.Bytes(), 0o666))
	}
	want, err := os.ReadFile("KEYS.md")
	require.NoError(t, err)
	assert.Empty(t, cmp.Diff(string(want), b.String()))
}

// Every key has a meaning and an example, stands once, and its example is read where the
// key stands.
func TestKeys(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range home.Keys() {
		assert.NotEmpty(t, k.Meaning, k.Path)
		assert.NotEmpty(t, k.Example, k.Path)
		assert.False(t, seen[k.Path], k.Path)
		seen[k.Path] = true
		path := strings.ReplaceAll(strings.ReplaceAll(k.Path, "[]", "[0]"), "LEVEL", "alkalinity")
		_, err := home.Read([]byte(`{}`), map[string]string{path: k.Example})
		if err != nil { // it may want another beside it, but it is a key, and is read
			assert.NotContains(t, err.Error(), "no such key", k.Path)
			if path != "dosed[0].additive" { // it names one of the additives
				assert.NotContains(t, err.Error(), path+": got \""+k.Example, k.Path)
			}
		}
	}
	h, err := home.Read(home.Full(), nil)
	require.NoError(t, err)
	assert.Equal(t, "Window bay", h.Name)
	assert.Equal(t, 14*24*time.Hour, h.Change.Every)
}

// A salinity is the same in every way of saying it.
func TestSalinities(t *testing.T) {
	h := &home.Home{Pair: units.SG25C()}
	for text, want := range map[string]float64{
		"35 ppt": 35, "35": 35, "35 PSU": 35,
		"35.16504 g/kg": 35, // Millero et al. 2008, the definition of Reference Salinity
		// 42.914 mS/cm at 15 °C on ITS-68's scale is salinity 35 by the definition of PSS-78
		// (UNESCO 44); 53.0649 mS/cm at 25 °C follows from it (UNESCO 44's formula for rt).
		"42.914 mS/cm at 15 °C": 35, "53.065 mS/cm at 25 °C": 35, "53065 µS/cm at 77 °F": 35,
		"1.0264 25/25 °C": 35, "1.0264 SG": 35, "1.0264 sg": 35,
		"36.46 ppt NaCl scale": 35, // Instruments, from the index of refraction [CRC Handbook, sodium chloride; Millard and Seaver 1990]
	} {
		s, err := h.Salinity("x", text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, s.Value(), 0.07, text)
	}
	for _, text := range []string{"", "1.026", "35,2 ppt", "35.2 g/L", "ppt", "1.026 SG SG", "53 mS/cm", "53 mS/cm at 25", "x ppt NaCl scale", "99 mS/cm at 25 °C"} {
		_, err := h.Salinity("x", text)
		assert.Error(t, err, text)
	}
}

func TestWords(t *testing.T) {
	var swap home.Swap
	require.NoError(t, swap.UnmarshalText([]byte("15 %")))
	assert.InDelta(t, 30, swap.Of(200*units.Litre).Litres(), 1e-12)
	require.NoError(t, swap.UnmarshalText([]byte("12 US gal")))
	assert.InDelta(t, 12, swap.Of(200*units.Litre).USGallons(), 1e-12)
	assert.Error(t, swap.UnmarshalText([]byte("15")))
}

// Flags lie over the file, and an amount takes the place of another.
func TestOver(t *testing.T) {
	h, err := home.Read([]byte(`{"tank": {"volume": "300 L"}, "mix": {"water": "40 L"}}`),
		map[string]string{"tank.volume": "80 US gal", "mix.volume": "50 L"})
	require.NoError(t, err)
	assert.InDelta(t, 80, h.Tank.Volume.USGallons(), 1e-12)
	assert.Equal(t, "50 L of mix", h.Mix.Amount.String())
}

// All that is wrong is told at once, at most twenty of it, by the path in the file.
func TestAllAtOnce(t *testing.T) {
	_, err := home.Read([]byte(`{"tank": {"volume": "310", "temprature": "25 °C", "nitrate": "many"},
		"tests": [{"at": "2026-03-01"}, {"at": "yesterday"}], "change": {"every": "soon"}, "null": null}`), nil)
	for _, want := range []string{
		`tank.volume: got "310", want a volume`, `tank.temprature: got "25 °C", want no such key; tank.temperature is near`,
		`tank.nitrate: got "many", want`, `tests[1].at: got "yesterday", want a date`, `change.every: got "soon", want a time`,
	} {
		assert.ErrorContains(t, err, want)
	}
	many := map[string]string{}
	for i := range 100 {
		many["x"+string(rune('a'+i%26))+string(rune('a'+i/26))] = "y"
	}
	_, err = home.Read([]byte(`{}`), many)
	assert.Equal(t, 19, strings.Count(err.Error(), "\n"))
}

// A file in another code, or with quotation marks of a word processor, is told what to do.
func TestCodes(t *testing.T) {
	for data, want := range map[string]string{
		"\xff\xfe{\x00}\x00": "UTF-16: save it as UTF-8", "\xfe\xff\x00{\x00}": "UTF-16: save it as UTF-8",
		"{\x00}\x00": "UTF-16", "\x00{\x00}": "UTF-16",
		"{\n\"tank\": {\"temperature\": \"25 \xb0C\"}}": "line 2 has a character, such as °, in an old code: save it as UTF-8",
		"{\n\n“tank”: {}}":                              `line 3: '“' is no quotation mark here: want straight quotes, "`,
		"{\"tank\": {\n\"volume\": “20 L”}}":            `line 2: '“' is no quotation mark here: want straight quotes`,
		"{‘name’: ‘x’}":                                 `line 1: '‘' is no quotation mark here`,
		"{\n\"name\": \"x\",\n}":                        "line 3: invalid character '}'",
	} {
		_, err := home.Read([]byte(data), nil)
		assert.ErrorContains(t, err, want, data)
	}
	h, err := home.Read([]byte(`{"name": "“Bay” 25 °C"}`), nil) // in a text they are letters
	require.NoError(t, err)
	assert.Equal(t, "“Bay” 25 °C", h.Name)
}

// What one command cannot do with is no reason for another to stop.
func TestNothingToMix(t *testing.T) {
	h, err := home.Read([]byte(`{"recipe": {"volume": "0 L", "shelf": [{"compound": "NaCl", "left": "0 g"}]}}`), nil)
	require.NoError(t, err)
	assert.Zero(t, *h.Recipe.Volume)
	assert.Zero(t, *h.Recipe.Shelf[0].Left)
}

// What nobody measured is taken as something, and the report names it; what was measured is not.
func TestTakenAsSomething(t *testing.T) {
	first := func(text string) string {
		h, err := home.Read([]byte(text), nil)
		require.NoError(t, err)
		r := &paper.Report{}
		_, err = h.AnyTank(r)
		require.NoError(t, err)
		h.AnyAir(r)
		var b bytes.Buffer
		require.NoError(t, r.WriteText(&b, paper.Options{}))
		return strings.Join(strings.Fields(b.String()), " ")
	}
	for text, want := range map[string][]string{
		`{"tank": {"volume": "40 L"}}`: {"Not told: tank.salinity, tank.temperature, tank.ph.", "tank.salinity: taken as 35", "tank.temperature: taken as 25 °C"},
		`{"tank": {"volume": "40 L"}, "mix": {"target": "33 ppt", "temperature": "24 °C"}}`: {
			"tank.salinity: taken as that of the mix, 33", "tank.temperature: taken as that of the mix, 24 °C"},
	} {
		for _, w := range want {
			assert.Contains(t, first(text), w)
		}
	}
	for _, air := range []string{`"room": {"co2": "600 ppm"}`, `"x": null`} {
		text := first(`{"tank": {"volume": "40 L", "salinity": "34 ppt", "temperature": "24 °C", "ph": "8.1 total"}, ` + air + `}`)
		assert.Empty(t, text)
	}
}

// A mass that does not say what it counts is noted.
func TestNotes(t *testing.T) {
	h, err := home.Read([]byte(`{"tank": {"nitrate": "10 mg/L", "phosphate": "0.1 mg/L PO4"}}`), nil)
	require.NoError(t, err)
	assert.Equal(t, []string{"nitrate: mg/L is taken as mg/L NO3."}, h.Notes)
	l, _ := h.Tank.Levels.Of(tested.Nitrate)
	assert.InDelta(t, 10, l.As(units.AsNitrate).MassPerLitre().MilligramsPerLitre(), 1e-12)
}

// Whatever the file, there is a home or an error.
func FuzzRead(f *testing.F) {
	f.Add(home.Full())
	f.Add([]byte(`{"tank": {"volume": "½ US gal", "salinity": "1.026 SG"}, "tests": [{"at": "2026-01-01"}]}`))
	f.Add([]byte("\ufeff{}"))
	f.Fuzz(func(t *testing.T, data []byte) {
		h, err := home.Read(data, nil)
		assert.Equal(t, err == nil, h != nil)
		if err != nil {
			assert.Less(t, len(err.Error()), 50_000)
		} else {
			_, err := json.Marshal(h.Notes)
			assert.NoError(t, err)
		}
	})
}
