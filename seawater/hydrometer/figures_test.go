package hydrometer

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every limit, threshold and bound against a second table, written down number by
// number with its source: a slip of the pen in either is seen.
func TestFigures(t *testing.T) {
	for _, c := range []struct {
		figure    string
		got, want float64
		source    string
	}{
		{"g/kg, from", salinityRange.Min, 0, "IAPWS R13-08"}, {"g/kg, to", salinityRange.Max, 120, "IAPWS R13-08"},
		{"°C, from", temperatureRange.Min, -2, "IAPWS SR7-09"}, {"°C, to", temperatureRange.Max, 40, "IAPWS SR7-09"},
		{"pure water: °C, from", waterRange.Min, 0, "Tanaka et al. 2001"}, {"pure water: °C, to", waterRange.Max, 40, "Tanaka et al. 2001"},
		{"most expansion, 1/K", mostExpansion, 0.002, "petrol has 0.00095, handbooks"},
		{"most offset", mostOffset, 0.05, "all salt of a sea is 0.03"},
		{"glass, 1/K", float64(Glass), 0.000025, "ISO 1768"},
		{"acrylic, 1/K", float64(Acrylic), 0.000225, "handbooks: 75e-6 in length"},
	} {
		assert.InDelta(t, c.want, c.got, 1e-12*(1+c.want*c.want), "%s (%s)", c.figure, c.source)
	}
}
