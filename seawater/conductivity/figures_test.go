package conductivity

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
		{"water: °C, from", waterRange.Min, -2, "a tank"}, {"water: °C, to", waterRange.Max, 40, "a tank"},
		{"reference: °C, from", referenceRange.Min, 15, "common practice, 20 or 25"}, {"reference: °C, to", referenceRange.Max, 30, "common practice, 20 or 25"},
		{"ISO 7888: °C, from", naturalRange.Min, 0, "ISO 7888"}, {"ISO 7888: °C, to", naturalRange.Max, 35.9, "ISO 7888"},
		{"pure water: °C, from", pureRange.Min, 0, "McCleskey 2011"}, {"pure water: °C, to", pureRange.Max, 40, "McCleskey 2011"},
		{"aerated water: °C, from", aeratedRange.Min, 0, "Pratt et al. 2001"}, {"aerated water: °C, to", aeratedRange.Max, 50, "Pratt et al. 2001"},
		{"solutions: mS/cm, from", solutionRange.Min, 0, "acids have 850, from memory"}, {"solutions: mS/cm, to", solutionRange.Max, 1000, "acids have 850, from memory"},
		{"salt: g/L, from", saltRange.Min, 0, "chosen here"}, {"salt: g/L, to", saltRange.Max, 40, "chosen here"},
		{"mixture: g/L, from", mixtureRange.Min, 0, "chosen here"}, {"mixture: g/L, to", mixtureRange.Max, 3, "chosen here"},
		{"molal: °C, from", molalRange.Min, 0, "Pratt et al. 2001"}, {"molal: °C, to", molalRange.Max, 50, "Pratt et al. 2001"},
		{"demal: °C, from", demalRange.Min, 15, "tables of the demal"}, {"demal: °C, to", demalRange.Max, 35, "tables of the demal"},
		{"steepest compensation, % per kelvin", 100 * steepest, 10, "ten times too much is another unit"},
		{"largest scale, ppm per µS/cm", largestScale, 2, "common practice: 0.5 to 0.7"},
	} {
		assert.InDelta(t, c.want, c.got, 1e-12*(1+c.want*c.want), "%s (%s)", c.figure, c.source)
	}
}
