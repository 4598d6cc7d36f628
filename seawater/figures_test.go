package seawater

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/units"
)

// Every limit and bound against a second table, written down number by number.
func TestFigures(t *testing.T) {
	for _, c := range []struct {
		figure    string
		got, want float64
		source    string
	}{
		{"g/kg, from", salinityRange.Min, 0, "IAPWS R13-08"}, {"g/kg, to", salinityRange.Max, 120, "IAPWS R13-08"},
		{"°C, from", temperatureRange.Min, -2, "IAPWS SR7-09"}, {"°C, to", temperatureRange.Max, 40, "IAPWS SR7-09"},
		{"practical, from", practicalRange.Min, 0, "PSS-78"}, {"practical, to", practicalRange.Max, 42, "PSS-78"},
		{"significance", significance, 0.05, "Cox 2002"},
		{"χ² of one degree of freedom, upper 5 %", clearly, 3.841, "tables: 3.841"},
		{"most readings", mostReadings, 16, "chosen here: 65536 subsets"},
	} {
		assert.InDelta(t, c.want, c.got, 1e-12, "%s (%s)", c.figure, c.source)
	}
}

// Two that agree against two that stand alone are half of the readings, and half decides
// nothing; against one they do.
func TestHalfDecidesNothing(t *testing.T) {
	at := func(s float64) Reading { return Reading{"", units.Absolute(s), units.Absolute(0.1)} }
	a, err := Agree(at(10), at(10), at(20), at(40))
	assert.NoError(t, err)
	assert.False(t, a.Decided)
	a, err = Agree(at(10), at(10), at(20))
	assert.NoError(t, err)
	assert.True(t, a.Decided)
	assert.Equal(t, []int{2}, a.Apart)
}
