package form_test

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/form"
	"example.org/wellmixed/units"
)

func TestForm(t *testing.T) {
	f, err := form.Read([]byte(`{"tank": {"volume": "310 L", "marks": ["1", "2.5"], "every": "2 weeks"}}`))
	require.NoError(t, err)
	assert.Equal(t, 310*units.Litre, form.Get[units.Volume](f, "tank.volume"))
	_, given := form.Optional[units.Mass](f, "tank.salt")
	assert.False(t, given)
	var sum float64
	f.Each("tank.marks", func(entry string) { sum += f.Number(entry) })
	assert.Equal(t, 3.5, sum)
	assert.Equal(t, 14*24*time.Hour, f.Days("tank.every"))
	f.Rest()
	assert.NoError(t, f.Err)
	assert.True(t, f.Has("tank"))
	assert.False(t, f.Has("tan"))

	for text, want := range map[string]string{
		`[]`:                                "the scenario is not a JSON object: ",
		`{"a": {"b": 3}}`:                   `a.b: got 3, want a text in quotes with its unit, such as "20 L"`,
		`{"volume": "3"}`:                   `volume: got "3", want a volume such as "20 L" or "5 US gal"`,
		`{}`:                                `volume: got nothing, want a volume such as "20 L" or "5 US gal"`,
		`{"volume": "3 L", "volum": "3 L"}`: `volum: got "3 L", want no such field: it is misspelt, or does not go with the others`,
	} {
		f, err := form.Read([]byte(text))
		if err == nil {
			form.Get[units.Volume](f, "volume")
			f.Rest()
			err = f.Err
		}
		assert.ErrorContains(t, err, want, text)
	}
	for text, want := range map[string]string{
		`{"tank": {"volume": "310 L", "volume": "31 L"}}`:      `tank.volume: got two of it, want each field once`,
		`{"tank": {"volume": "310 L"}, "tank": {"salt": "1"}}`: `tank: got two of it, want each field once`,
		`{"tank": {"volume": "310 L"}, "tank.volume": "31 L"}`: `scenario: got a field named "tank.volume", want names without a point, as in "tank": {"volume": "20 L"}`,
		`{"tank.volume": "31 L"}`:                              `scenario: got a field named "tank.volume"`,
		`{"": {"tank": "5"}, "tank": "6"}`:                     `scenario: got a field named ""`,
		`{"a": [{"b": "1", "b": "2"}]}`:                        `a.0.b: got two of it, want each field once`,
		`{"a": [{"": "1"}]}`:                                   `a.0: got a field named ""`,
		`{"a": null}`:                                          `a: got null, want a text in quotes with its unit, such as "20 L"`,
		`{"a": true}`:                                          `a: got true, want a text in quotes`,
		`{"a": 1e400}`:                                         `a: got 1e400, want a text in quotes`,
		`{"a":[[[[[[[["1"]]]]]]]]}`:                            `a.0.0.0.0.0.0.0: got fields below it, want a text in quotes`,
		`{"a": "1"} {"a": "2"}`:                                `the scenario is not a JSON object: `,
		`{"a": ` + strings.Repeat("[", 1<<20):                  `the scenario is not a JSON object: `,
		`{"a": ` + strings.Repeat("9", 1<<20) + `}`:            `a: got 999999999999999999999999999999999999999999999999999999999999..., want`,
		`{"` + strings.Repeat("a", 1<<20) + `": 3}`:            `aaa...: got 3, want`,
	} {
		_, err := form.Read([]byte(text))
		if assert.ErrorContains(t, err, want, "%.60s", text) {
			assert.Less(t, len(err.Error()), 400)
		}
	}
	f, err = form.Read([]byte(`{"hex": "0x10", "nan": "NaN", "inf": "Inf", "bare": "36", "now": "0s", "ages": "1e300 days", "none": "NaN days", "hexed": "0x10 days"}`))
	require.NoError(t, err)
	for name := range f.Texts {
		f.Err = nil
		assert.True(t, math.IsNaN(f.Number(name)) || name == "bare", name)
		f.Err = nil
		assert.Zero(t, f.Days(name), name)
		assert.ErrorIs(t, f.Err, units.ErrInput, name)
	}
	f, err = form.Read([]byte(`{"a": "1.5 days", "b": "2 weeks", "c": "1h30m", "d": "7 day", "t": "25 C"}`))
	require.NoError(t, err)
	for name, want := range map[string]time.Duration{"a": 36 * time.Hour, "b": 336 * time.Hour, "c": 90 * time.Minute, "d": 168 * time.Hour} {
		assert.Equal(t, want, f.Days(name))
	}
	assert.Equal(t, units.Celsius(25), form.Get[units.Temperature](f, "t"))
	form.Get[units.Temperature](f, "u")
	assert.EqualError(t, f.Err, `u: got nothing, want a temperature such as "25 °C" or "77 °F"`)

	f, err = form.Read([]byte(`{"n": "-1", "d": "soon", "x": "1"}`))
	require.NoError(t, err)
	f.Number("n")
	f.Days("d")
	assert.EqualError(t, f.Err, `n: got "-1", want a number such as "3"`, "the first complaint stays")
	f.Set("x", "2")
	assert.Equal(t, "2", f.Text("x", ""))
	f.Drop("x")
	assert.False(t, f.Has("x"))
}

// Any bytes give an error, or a form that is the same when its texts are written as a
// file and read again.
func FuzzRead(f *testing.F) {
	for _, text := range []string{`{"tank": {"volume": "310 L", "marks": ["1", "2.5"]}}`, `{"a": "1", "a": "2"}`, `{"a.b": "1"}`, `[]`, `{"a": {"0": "x"}, "b": ["y"]}`, `{"a": {"b": 5}}`} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		read, err := form.Read(data)
		if err != nil {
			require.Less(t, len(err.Error()), 1000)
			return
		}
		tree := map[string]any{}
		for name, text := range read.Texts {
			at, parts := tree, strings.Split(name, ".")
			for _, part := range parts[:len(parts)-1] {
				if at[part] == nil {
					at[part] = map[string]any{}
				}
				at = at[part].(map[string]any)
			}
			at[parts[len(parts)-1]] = text
		}
		again, err := json.Marshal(tree)
		require.NoError(t, err)
		back, err := form.Read(again)
		require.NoError(t, err, string(again))
		require.Equal(t, read.Texts, back.Texts)
		for name := range read.Texts {
			if x := read.Number(name); !math.IsNaN(x) {
				_, err := strconv.ParseFloat(read.Texts[name], 64)
				require.NoError(t, err)
				require.GreaterOrEqual(t, x, 0.0)
			}
			require.GreaterOrEqual(t, read.Days(name), time.Duration(0))
		}
	})
}
