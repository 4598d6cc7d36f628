package weighing

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
		{"air: °C, from", airTemperature.Min, 15, "CIPM-2007"}, {"air: °C, to", airTemperature.Max, 27, "CIPM-2007"},
		{"air: hPa, from", airPressure.Min, 600, "CIPM-2007"}, {"air: hPa, to", airPressure.Max, 1100, "CIPM-2007"},
		{"air: humidity, from", airHumidity.Min, 0, "a share"}, {"air: humidity, to", airHumidity.Max, 1, "a share"},
		{"room: °C, from", roomTemperature.Min, 0, "chosen here"}, {"room: °C, to", roomTemperature.Max, 40, "chosen here"},
		{"water: g/kg, from", salinityRange.Min, 0, "IAPWS R13-08"}, {"water: g/kg, to", salinityRange.Max, 120, "IAPWS R13-08"},
		{"water: °C, from", waterTemperature.Min, -2, "IAPWS SR7-09"}, {"water: °C, to", waterTemperature.Max, 40, "IAPWS SR7-09"},
		{"most expansion, 1/K", mostExpansion, 0.002, "petrol has 0.00095, handbooks"},
		{"weights, kg/m³", steel, 8000, "OIML D 28"},
		{"standard air, °C", StandardAir().Temperature.Celsius(), 20, "common practice"},
		{"standard air, hPa", StandardAir().Pressure.Hectopascals(), 1013.25, "common practice"},
		{"standard air, humidity", StandardAir().Humidity.Value(), 0.5, "common practice"},
	} {
		assert.InDelta(t, c.want, c.got, 1e-12*(1+c.want*c.want), "%s (%s)", c.figure, c.source)
	}
}
