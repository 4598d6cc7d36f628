package conductivity

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
)

// [MC11]: the limiting conductivities whose course with temperature pure water takes.
func TestLimitingConductivitiesArePrinted(t *testing.T) {
	tables := map[string][]float64{"HCl": hydrochloricCoef[:], "NaOH": lyeCoef[:], "NaCl": saltCoef[:]}
	for _, row := range checks.Table(t, "testdata/mccleskey2011.csv") {
		if a, ok := tables[row["salt"]]; ok {
			assert.Equal(t, []float64{row.Float(t, "c3"), row.Float(t, "c2"), row.Float(t, "c1")}, a, row["salt"])
			delete(tables, row["salt"])
		}
	}
	assert.Empty(t, tables)
}

// Onsager's equation for water at 25 °C [RS59]: 0.2300 Λ° + 60.65 for two ions of one
// charge, and 0.3291 √I per ångström of their size.
func TestOnsagerConstants(t *testing.T) {
	checks.Absolute(t, "relaxation", relaxation, 0.2300*(1+0.70710678)/0.5, 1e-4)
	checks.Printed(t, "electrophoresis", 2*electrophoresis, "60.65")
	checks.Printed(t, "size", ionSize/4, "0.3291")
}
