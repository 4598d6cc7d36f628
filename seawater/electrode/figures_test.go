package electrode

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
		{"glass: °C, from", glassTemperature.Min, -2, "common practice"}, {"glass: °C, to", glassTemperature.Max, 60, "common practice"},
		{"glass: mV, from", glassVoltage.Min, -1000, "common practice"}, {"glass: mV, to", glassVoltage.Max, 1000, "common practice"},
		{"glass: isopotential pH, from", glassIsopotential.Min, 3, "common practice"}, {"glass: isopotential pH, to", glassIsopotential.Max, 11, "common practice"},
		{"glass: pH, from", glassPH.Min, 0, "common practice"}, {"glass: pH, to", glassPH.Max, 14, "common practice"},
		{"glass: slope, from", glassSlope.Min, 0.5, "common practice"}, {"glass: slope, to", glassSlope.Max, 1.2, "common practice"},
		{"bottles: °C, from", dilutePH.Min, 0, "NIST and IUPAC tables"}, {"bottles: °C, to", dilutePH.Max, 50, "NIST and IUPAC tables"},
		{"tris 1998: salinity, from", tris1998Salinity.Min, 20, "DelValls and Dickson 1998"}, {"tris 1998: salinity, to", tris1998Salinity.Max, 40, "DelValls and Dickson 1998"},
		{"tris 1998: °C, from", tris1998Temperature.Min, 0, "DelValls and Dickson 1998"}, {"tris 1998: °C, to", tris1998Temperature.Max, 45, "DelValls and Dickson 1998"},
		{"tris 2018: salinity, from", tris2018Salinity.Min, 5, "Müller et al. 2018"}, {"tris 2018: salinity, to", tris2018Salinity.Max, 40, "Müller et al. 2018"},
		{"tris 2018: °C, from", tris2018Temperature.Min, 5, "Müller et al. 2018"}, {"tris 2018: °C, to", tris2018Temperature.Max, 45, "Müller et al. 2018"},
		{"tris 2018: mol/kg, from", tris2018Molality.Min, 0.01, "Müller et al. 2018"}, {"tris 2018: mol/kg, to", tris2018Molality.Max, 0.04, "Müller et al. 2018"},
		{"tris 2018, brackish: mol/kg, from", tris2018Brackish.Min, 0.01, "chosen here"}, {"tris 2018, brackish: mol/kg, to", tris2018Brackish.Max, 0.03, "chosen here"},
		{"aminopyridine: salinity, from", aminopyridineSalinity.Min, 30, "SOP 6a, from memory"}, {"aminopyridine: salinity, to", aminopyridineSalinity.Max, 40, "SOP 6a, from memory"},
		{"aminopyridine: °C, from", aminopyridineTemperature.Min, 5, "SOP 6a, from memory"}, {"aminopyridine: °C, to", aminopyridineTemperature.Max, 40, "SOP 6a, from memory"},
		{"fH: salinity, from", nbsSalinity.Min, 20, "chosen here"}, {"fH: salinity, to", nbsSalinity.Max, 42, "chosen here"},
		{"good slope", goodSlope, 0.95, "common practice"},
		{"slope to clean", cleanSlope, 0.90, "common practice"},
		{"highest slope", highestSlope, 1.02, "common practice"},
		{"good offset, mV", goodOffset, 15, "common practice"},
		{"offset to clean, mV", cleanOffset, 30, "common practice"},
		{"good residual, mV", goodResidual, 1.5, "common practice"},
		{"residual to clean, mV", cleanResidual, 3, "common practice"},
		{"nearest buffers, pH", nearest, 0.5, "common practice"},
		{"junction, pH", Junction, 0.05, "common practice"},
		{"buffer of seawater, pH", seawaterUncertainty, 0.005, "from memory"},
		{"primary buffer, pH", primaryUncertainty, 0.005, "common practice"},
		{"bottle, pH", bottleUncertainty, 0.012, "0.02/√3, JCGM 100 4.3.7"},
	} {
		assert.InDelta(t, c.want, c.got, 1e-12*(1+c.want*c.want), "%s (%s)", c.figure, c.source)
	}
}
