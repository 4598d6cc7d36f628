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

	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

var update = flag.Bool("update", false, "rewrite the expected reports")

func report(t *testing.T, args ...string) (string, error) {
	t.Helper()
	var out bytes.Buffer
	err := run(args, &out, io.Discard)
	return out.String(), err
}

func TestReports(t *testing.T) {
	for name, args := range map[string][]string{
		"default":   nil,
		"cool":      {"-temperature", "68 °F", "-salinity", "33.5 ppt", "hydrometer60=1.0250", "salinity=33.6"},
		"disagree":  {"hydrometer60=1.0240", "conductivity=56.5"},
		"one alone": {"conductivity=53.1"},
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
		assert.Empty(t, cmp.Diff(string(want), got), name)
	}
}

// What an instrument of the house shows, it also reads back.
func TestHouseReadsBack(t *testing.T) {
	s, err := seawater.FromPractical(units.Practical(34), units.Celsius(24))
	require.NoError(t, err)
	for _, m := range house {
		shows, err := m.shows(s)
		require.NoError(t, err, m.short)
		r, err := read(m.short+"="+shows, s.Temperature())
		require.NoError(t, err, m.short)
		assert.InDelta(t, s.Absolute().GramsPerKilogram(), r.Salinity.GramsPerKilogram(), 0.15, "%s: the digits shown", m.short)
		assert.Greater(t, r.Uncertainty.GramsPerKilogram(), 0.05, m.short)
		assert.Less(t, r.Uncertainty.GramsPerKilogram(), 2.0, m.short)
	}
}

func TestRefusals(t *testing.T) {
	for in, want := range map[string]string{
		"refractometer":      `reading: got "refractometer", want a name of the table and a number`,
		"refractometer=x":    `reading: got "refractometer=x", want a name of the table and a number`,
		"thermometer=25":     `reading: got "thermometer", want one of refractometer, `,
		"hydrometer60=1026":  "hydrometer60=1026: reading: 1026 is outside 0.99",
		"conductivity=-1":    "conductivity=-1: ",
		"refractometer=80":   "refractometer=80: ",
		"flask=1.0223":       "flask=1.0223: ",
		"salinity=NaN":       "salinity=NaN: ",
		"conductivity25=900": "conductivity25=900: ",
	} {
		out, err := report(t, in)
		assert.ErrorContains(t, err, want, in)
		assert.Empty(t, out, in)
	}
	_, err := report(t, "-salinity", "35 g/kg")
	assert.Error(t, err)
	_, err = report(t, "-salinity", "50")
	assert.ErrorIs(t, err, units.ErrRange)
}
