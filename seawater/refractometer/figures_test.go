package refractometer

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
		{"MS: salinity, from", msSalinity.Min, 0, "Millard and Seaver 1990"}, {"MS: salinity, to", msSalinity.Max, 40, "Millard and Seaver 1990"},
		{"MS: °C, from", msTemperature.Min, 0, "Millard and Seaver 1990"}, {"MS: °C, to", msTemperature.Max, 30, "Millard and Seaver 1990"},
		{"MS: dbar, from", msPressure.Min, 0, "Millard and Seaver 1990"}, {"MS: dbar, to", msPressure.Max, 11000, "Millard and Seaver 1990"},
		{"MS: nm, from", msLight.Min, 500, "Millard and Seaver 1990"}, {"MS: nm, to", msLight.Max, 700, "Millard and Seaver 1990"},
		{"QF: salinity, from", qfSalinity.Min, 0, "Quan and Fry 1995"}, {"QF: salinity, to", qfSalinity.Max, 35, "Quan and Fry 1995"},
		{"QF: °C, from", qfTemperature.Min, 0, "Quan and Fry 1995"}, {"QF: °C, to", qfTemperature.Max, 30, "Quan and Fry 1995"},
		{"QF: nm, from", qfLight.Min, 400, "Quan and Fry 1995"}, {"QF: nm, to", qfLight.Max, 700, "Quan and Fry 1995"},
		{"water: °C, from", waterTemperatures.Min, -12, "IAPWS R9-97"}, {"water: °C, to", waterTemperatures.Max, 500, "IAPWS R9-97"},
		{"water: kg/m³, from", waterDensities.Min, 0, "IAPWS R9-97"}, {"water: kg/m³, to", waterDensities.Max, 1060, "IAPWS R9-97"},
		{"water: nm, from", waterWavelengths.Min, 200, "IAPWS R9-97"}, {"water: nm, to", waterWavelengths.Max, 1100, "IAPWS R9-97"},
		{"air: nm, from", airWavelengths.Min, 300, "Ciddor 1996"}, {"air: nm, to", airWavelengths.Max, 1690, "Ciddor 1996"},
		{"salt: %, from", saltStrength.Min, 0, "CRC Handbook"}, {"salt: %, to", saltStrength.Max, 26, "CRC Handbook"},
		{"salt: °C, from", saltTemperature.Min, 0, "Millard and Seaver 1990"}, {"salt: °C, to", saltTemperature.Max, 30, "Millard and Seaver 1990"},
		{"sugar: %, from", sugarStrength.Min, 0, "chosen here"}, {"sugar: %, to", sugarStrength.Max, 30, "chosen here"},
		{"sugar: °C, from", sugarTemperature.Min, 15, "Laliberté 2009"}, {"sugar: °C, to", sugarTemperature.Max, 30, "Laliberté 2009"},
		{"prism: index, from", prismIndex.Min, 1.3, "common practice"}, {"prism: index, to", prismIndex.Max, 1.7, "common practice"},
		{"pair: °C, from", gravityTemperature.Min, 0, "IAPWS SR7-09"}, {"pair: °C, to", gravityTemperature.Max, 40, "IAPWS SR7-09"},
		{"compensation, from, °C", Automatic(PureWater()).Min.Celsius(), 10, "common practice"},
		{"compensation, to, °C", Automatic(PureWater()).Max.Celsius(), 30, "common practice"},
		{"compensation of sugar, from, °C", Automatic(Liquid{solute: sugar}).Min.Celsius(), 15, "Laliberté 2009"},
	} {
		assert.InDelta(t, c.want, c.got, 1e-12*(1+c.want*c.want), "%s (%s)", c.figure, c.source)
	}
}
