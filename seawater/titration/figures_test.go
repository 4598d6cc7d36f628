package titration

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every limit and threshold against a second table, written down number by number.
func TestFigures(t *testing.T) {
	for _, c := range []struct {
		figure    string
		got, want float64
		source    string
	}{
		{"window of acid, from pH", AcidWindow().Low.Value(), 3, "SOP 3b"},
		{"window of acid, to pH", AcidWindow().High.Value(), 3.5, "SOP 3b"},
		{"window of a closed cell, from pH", closedWindow().Low.Value(), 3, "chosen here"},
		{"window of a closed cell, to pH", closedWindow().High.Value(), 4, "chosen here"},
		{"clearly apart, standard uncertainties", clearly, 3, "JCGM 100, table G.1"},
		{"points of Gran's line", granPoints, 3, "two parameters and one"},
		{"points of a fit of two", acidPoints, 3, "two parameters and one"},
		{"backlash, pH", backlash, 0.05, "chosen here: noise"},
		{"most titrant, samples", most, 100, "chosen here"},
		{"coulomb per mole", faraday, 96485.33212, "CODATA 2018"},
		{"J/(mol K)", gasConstant, 8.314462618, "CODATA 2018"},
	} {
		assert.InDelta(t, c.want, c.got, 1e-12*(1+c.want), "%s (%s)", c.figure, c.source)
	}
}
