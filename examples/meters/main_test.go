package main

import (
	"bytes"
	"flag"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/home/hometest"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

var update = flag.Bool("update", false, "rewrite the expected reports")

func TestReports(t *testing.T) {
	for name, args := range map[string][]string{
		"default":   {"-cautions", "-assumptions"},
		"cool":      {"-short", "-temperature", "68 °F", "-salinity", "33.5 ppt", "hydrometer60=1.0250", "salinity=33.6"},
		"disagree":  {"-short", "hydrometer60=1.0240", "conductivity=56.5"},
		"one alone": {"-short", "-set", "prefer.salinity=SG", "conductivity=53.1"},
		"none":      {"-file", hometest.File(t, `{"mix": {"target": "1.025 SG"}}`), "-assumptions"},
	} {
		got, err := hometest.Output(t, &command, args...)
		require.NoError(t, err, name)
		hometest.Golden(t, *update, name+".txt", got)
	}
}

func TestEveryHome(t *testing.T) {
	hometest.TryAll(t, &command)
	for _, text := range []string{
		`{"readings": ["conductivity=48.2"]}`, // the readings alone say how salt it is
		`{"tank": {"salinity": "1.027 SG"}}`,
		`{"name": "<Pike & \"sons\">", "tank": {"salinity": "3 ppt", "temperature": "4 °C"}, "readings": ["salinity=40"]}`,
		`{"tank": {"salinity": "39 ppt"}, "readings": ["hydrometer60=1.024", "conductivity=56.5", "flask=1030"]}`,
	} {
		hometest.Try(t, &command, "-file", hometest.File(t, text))
	}
}

// What an instrument of the house shows, it also reads back.
func TestHouseReadsBack(t *testing.T) {
	s, err := seawater.FromPractical(units.Practical(34), units.Celsius(24))
	require.NoError(t, err)
	for _, m := range house {
		shows, err := m.shows(s)
		require.NoError(t, err, m.short)
		r, err := read("readings[0]", m.short+"="+shows, s.Temperature())
		require.NoError(t, err, m.short)
		assert.InDelta(t, s.Absolute().GramsPerKilogram(), r.Salinity.GramsPerKilogram(), 0.15, "%s: the digits shown", m.short)
		assert.Greater(t, r.Uncertainty.GramsPerKilogram(), 0.05, m.short)
		assert.Less(t, r.Uncertainty.GramsPerKilogram(), 2.0, m.short)
	}
}

// -h says what the names mean.
func TestNamesAreExplained(t *testing.T) {
	var help bytes.Buffer
	err := command.Run([]string{"-h"}, &help, &help)
	assert.ErrorIs(t, err, flag.ErrHelp)
	for _, m := range house {
		assert.Contains(t, help.String(), "  "+m.short+" ")
		assert.Contains(t, help.String(), m.name)
	}
	assert.Contains(t, help.String(), "-salinity")
}

func TestRefusals(t *testing.T) {
	for in, want := range map[string]string{
		"refractometer":      `readings[0]: got "refractometer", want a meter and what it shows`,
		"refractometer=x":    `readings[0]: got "refractometer=x", want a number alone`,
		"hydrometer60=1,026": `want a number alone behind the =, with a point for decimals`,
		"flask=0x10":         `want a number alone`,
		"salinity=NaN":       `want a number alone`,
		"thermometer=25":     `readings[0]: got "thermometer=25", want one of the meters refractometer, `,
		"hydrometer60=1026":  "readings[0] hydrometer60=1026: reading: 1026 is outside 0.99",
		"conductivity=-1":    "conductivity=-1: ",
		"refractometer=80":   "refractometer=80: ",
		"flask=1.0223":       "flask=1.0223: ",
		"conductivity25=900": "conductivity25=900: ",
	} {
		_, err := hometest.Output(t, &command, in)
		assert.ErrorContains(t, err, want, in)
		assert.NotContains(t, err.Error(), "tank.salinity")
	}
	_, err := hometest.Output(t, &command, "conductivity=-1", "ruler=5", "-salinity")
	for _, want := range []string{"readings[0]", "readings[1]", "readings[2]", "flags stand before"} {
		assert.ErrorContains(t, err, want, "all at once")
	}
	_, err = hometest.Output(t, &command, "-salinity", "50")
	assert.Error(t, err)
	any, err := hometest.Output(t, &command, "-file", hometest.File(t, `{"tank": {"volume": "100 L"}}`))
	assert.NoError(t, err)
	assert.Contains(t, any, "tank.salinity: taken as 35")
	_, err = hometest.Output(t, &command, "-salinty", "35 ppt")
	assert.ErrorContains(t, err, "-salinity is near")
	many := make([]string, 17)
	for i := range many {
		many[i] = "salinity=35"
	}
	_, err = hometest.Output(t, &command, many...)
	assert.ErrorContains(t, err, "want 1 to 16 readings")
}
