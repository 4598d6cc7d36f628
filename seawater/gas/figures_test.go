package gas

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
		{"pool: water, °C, from", poolWater.Min, 7, "Shah 2014, from memory"}, {"pool: water, °C, to", poolWater.Max, 94, "Shah 2014, from memory"},
		{"pool: air, °C, from", poolAir.Min, 6, "Shah 2014, from memory"}, {"pool: air, °C, to", poolAir.Max, 35, "Shah 2014, from memory"},
		{"pool: humidity, from", poolHumidity.Min, 0.28, "Shah 2014, from memory"}, {"pool: humidity, to", poolHumidity.Max, 0.95, "Shah 2014, from memory"},
		{"pool: area, m², from", poolArea.Min, 0.07, "Shah 2014, from memory"}, {"pool: area, m², to", poolArea.Max, 425, "Shah 2014, from memory"},
		{"oxygen: salinity, from", solubilityRange[Oxygen].salinity.Min, 0, "Garcia and Gordon 1992"}, {"oxygen: salinity, to", solubilityRange[Oxygen].salinity.Max, 42, "Garcia and Gordon 1992"},
		{"oxygen: °C, from", solubilityRange[Oxygen].temperature.Min, -2.4, "Garcia and Gordon 1992, freezing at salinity 42"}, {"oxygen: °C, to", solubilityRange[Oxygen].temperature.Max, 40, "Garcia and Gordon 1992, freezing at salinity 42"},
		{"Nitrogen: salinity, from", solubilityRange[Nitrogen].salinity.Min, 0, "Hamme and Emerson 2004"}, {"Nitrogen: salinity, to", solubilityRange[Nitrogen].salinity.Max, 35, "Hamme and Emerson 2004"},
		{"Nitrogen: °C, from", solubilityRange[Nitrogen].temperature.Min, 1, "Hamme and Emerson 2004"}, {"Nitrogen: °C, to", solubilityRange[Nitrogen].temperature.Max, 30, "Hamme and Emerson 2004"},
		{"Argon: salinity, from", solubilityRange[Argon].salinity.Min, 0, "Hamme and Emerson 2004"}, {"Argon: salinity, to", solubilityRange[Argon].salinity.Max, 35, "Hamme and Emerson 2004"},
		{"Argon: °C, from", solubilityRange[Argon].temperature.Min, 1, "Hamme and Emerson 2004"}, {"Argon: °C, to", solubilityRange[Argon].temperature.Max, 30, "Hamme and Emerson 2004"},
		{"carbon dioxide: salinity, from", solubilityRange[CarbonDioxide].salinity.Min, 0, "Weiss 1974"}, {"carbon dioxide: salinity, to", solubilityRange[CarbonDioxide].salinity.Max, 45, "Weiss 1974"},
		{"carbon dioxide: °C, from", solubilityRange[CarbonDioxide].temperature.Min, -1, "Weiss 1974"}, {"carbon dioxide: °C, to", solubilityRange[CarbonDioxide].temperature.Max, 45, "Weiss 1974"},
		{"Schmidt: salinity, from", schmidtSalinity.Min, 0, "Wanninkhof 2014"}, {"Schmidt: salinity, to", schmidtSalinity.Max, 35, "Wanninkhof 2014"},
		{"Schmidt: °C, from", schmidtTemperature.Min, -2, "Wanninkhof 2014"}, {"Schmidt: °C, to", schmidtTemperature.Max, 40, "Wanninkhof 2014"},
		{"water, °C, from", waterTemperature.Min, -2, "IAPWS SR7-09"}, {"water, °C, to", waterTemperature.Max, 40, "IAPWS SR7-09"},
		{"salinity, from", waterSalinity.Min, 0, "PSS-78"}, {"salinity, to", waterSalinity.Max, 42, "PSS-78"},
		{"room, °C, from", roomTemperature.Min, 0, "common practice"}, {"room, °C, to", roomTemperature.Max, 60, "common practice"},
		{"barometer, hPa, from", barometer.Min, 300, "US Standard Atmosphere 1976: 9 km; the Dead Sea"}, {"barometer, hPa, to", barometer.Max, 1100, "US Standard Atmosphere 1976: 9 km; the Dead Sea"},
		{"total gas: look for the source, %", TotalGasAlert().Percent(), 103, "common practice of hatcheries, 103 to 105"},
		{"total gas: limit, %", TotalGasLimit().Percent(), 110, "US EPA 1986, EPA 440/5-86-001"},
		{"most pressure, hPa", mostPressure, 10000, "ten atmospheres"},
		{"most oxygen, %", 100 * mostOxygen, 500, "pure oxygen is 477 % of its 20.946 % in air"},
		{"Shah, factor", shahFactor, 35, "Shah 2014"},
		{"Shah, power", shahPower, 1. / 3, "Shah 2014"},
		{"Shah, forced", shahForced, 0.00005, "Shah 2014, from memory"},
		{"Carrier, still", carrierStill, 0.089, "ASHRAE, natatoriums"},
		{"Carrier, draught", carrierDraught, 0.0782, "ASHRAE, natatoriums"},
		{"VDI, covered", VDICovered, 0.7, "VDI 2089"},
		{"VDI, still", VDIStill, 7, "VDI 2089"},
		{"VDI, in use", VDIInUse, 21, "VDI 2089"},
		{"rate per kelvin", theta, 1.024, "ASCE 2-06"},
	} {
		assert.InDelta(t, c.want, c.got, 1e-12*(1+c.want*c.want), "%s (%s)", c.figure, c.source)
	}
}
