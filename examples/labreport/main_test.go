package main

import (
	"bytes"
	"flag"
	"io"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

var update = flag.Bool("update", false, "rewrite the expected reports")

func findings(t *testing.T, args ...string) (string, error) {
	t.Helper()
	var out bytes.Buffer
	err := run(args, &out, io.Discard)
	return out.String(), err
}

func TestFindings(t *testing.T) {
	for name, args := range map[string][]string{
		"default": nil,
		"short":   {"-report", "testdata/short.csv", "-at", "68 °F"},
		"slip":    {"-report", "testdata/slip.json"},
	} {
		got, err := findings(t, args...)
		require.NoError(t, err, name)
		path := filepath.Join("testdata", name+".txt")
		if *update {
			require.NoError(t, os.WriteFile(path, []byte(got), 0o666))
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Empty(t, cmp.Diff(string(want), got), name)
	}
}

// The invented report that -example prints is one that -report reads.
func TestExample(t *testing.T) {
	printed, err := findings(t, "-example")
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "my.csv")
	require.NoError(t, os.WriteFile(path, []byte(printed), 0o666))
	got, err := findings(t, "-report", path)
	require.NoError(t, err)
	want, err := findings(t)
	require.NoError(t, err)
	assert.Equal(t, want, got)
}

// Lines and JSON of the same report are the same.
func TestForms(t *testing.T) {
	lines, err := read([]byte("Ca, 420, mg/L, 5\nLi, <0.2, mg/L"))
	require.NoError(t, err)
	list, err := read([]byte(` [{"quantity": "Ca", "value": 420, "unit": "mg/L", "uncertainty": 5}, {"quantity": "Li", "value": 0.2, "unit": "mg/L", "below": true}]`))
	require.NoError(t, err)
	assert.Equal(t, lines, list)
	assert.Len(t, list, 2)
	_, err = read([]byte(`[{"ion": "Ca"}]`))
	assert.ErrorContains(t, err, "ion")
}

// A slipped unit is named, with what it would mean.
func TestSlippedUnit(t *testing.T) {
	path := filepath.Join(t.TempDir(), "slip.csv")
	require.NoError(t, os.WriteFile(path, []byte("Ca, 0.412, mg/L\nMg, 1290, mg/L\nK, 399, mg/L\nconductivity, 53.1, mS/cm\ntemperature, 25, °C\n"), 0o666))
	got, err := findings(t, "-report", path)
	require.NoError(t, err)
	assert.Contains(t, got, "The value that fits worst is that of Ca: have it measured again.")
	assert.Contains(t, got, "Ca: 0.412 mg/L is 0.00099 times what goes with the rest of the report in the sea")
}

// Whatever the file, there is a whole report or an error and nothing.
func FuzzRead(f *testing.F) {
	f.Add(example)
	slip, err := os.ReadFile("testdata/slip.json")
	require.NoError(f, err)
	f.Add(slip)
	f.Add([]byte(`[{"quantity": "Ca", "value": 1e308, "unit": "mol/kg", "uncertainty": -1}, {"quantity": "salinity", "value": 35, "unit": "PSU"}]`))
	f.Add([]byte(` [] {"quantity": "Ca"}`))
	f.Add([]byte("\xef\xbb\xbfCa;412;mg/L\r\nsalinity;35;PSU\r\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		var out bytes.Buffer
		err := report(data, units.Celsius(25), &out)
		if err != nil {
			require.Empty(t, out.String())
			require.Less(t, len(err.Error()), 2000)
			return
		}
		require.Contains(t, out.String(), "never on one report alone")
		require.NotContains(t, out.String(), "NaN")
	})
}

func TestRefusals(t *testing.T) {
	write := func(text string) string {
		path := filepath.Join(t.TempDir(), "report.csv")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
		return path
	}
	for text, want := range map[string]string{
		"NO3, 5, mg/L":                       `"nitrate as N" or "nitrate as NO3"`,
		"Ca, 400, mg/L":                      "composition cannot be closed: sodium and chloride are missing",
		"Ca, 400, ppm\nsalinity, 35, PSU":    `Ca.unit: got "ppm"`,
		"[{\"quantity\": \"Ca\", \"x\": 1}]": `unknown field "x"`,
	} {
		out, err := findings(t, "-report", write(text))
		assert.ErrorContains(t, err, want, text)
		assert.Empty(t, out)
	}
	_, err := findings(t, "-at", "45 °C")
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = findings(t, "extra")
	assert.ErrorContains(t, err, "want flags only")
	_, err = findings(t, "-report", "testdata/none.csv")
	assert.ErrorIs(t, err, os.ErrNotExist)
	var unclosed *ions.UnclosedError
	_, err = findings(t, "-report", write("Na, 10.78, mg/L\nCl, 19350, mg/L"))
	assert.ErrorAs(t, err, &unclosed)
}
