package teos10

import (
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
)

func TestOldScalesTable(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/old_scales.csv") {
		in := row.Inputs(t, "inputs")
		var got float64
		switch row["function"] {
		case "SP_from_SK":
			got = PracticalFromKnudsen(Knudsen(in["SK"])).Value()
		case "t90_from_t48":
			got = IPTS48(in["t"]).Celsius()
		case "t90_from_t68":
			got = IPTS68(in["t"]).Celsius()
		default:
			t.Fatalf("unknown function %q", row["function"])
		}
		checks.Relative(t, row["function"]+" "+row["inputs"], got, row.Float(t, "value"), 4e-15)
	}
}

// What the papers print.
func TestOldScalesPrinted(t *testing.T) {
	for _, c := range []struct {
		source  string
		got     float64
		printed string
	}{
		{"Knudsen 1901 (the relation, by hand): 0.030 + 1.8050 x 19.381", KnudsenFromChlorinity(Cl(19.381)).PerMille(), "35.013"},
		{"Wooster, Lee and Dietrich 1969: both salinities meet at 35", PracticalFromKnudsen(Knudsen(35)).Value(), "35.000"},
		{"TEOS-10 manual, appendix A.3 (by hand): chlorinity 19.374 is salinity 35", PracticalFromChlorinity(Cl(19.3740)).Value(), "35.000"},
		{"Saunders 1990: 10 °C ITS-90 is 10.0024 °C IPTS-68", OnIPTS68(units.Celsius(10)), "10.0024"},
		{"both fixed points of the scale of 1948: ice", IPTS48(0).Celsius(), "0.0000"},
		{"boiling water is 100 °C on the scales of 1948 and 1968", OnIPTS68(IPTS48(100)), "100.0000"},
	} {
		checks.Printed(t, c.source, c.got, c.printed)
	}
}

func TestOldScalesBackAndForth(t *testing.T) {
	for s := 0.0; s <= 110; s += 0.5 {
		sp := units.Practical(s)
		checks.Absolute(t, "chlorinity", PracticalFromChlorinity(ChlorinityFromPractical(sp)).Value(), s, 1e-13)
		checks.Absolute(t, "Knudsen", PracticalFromKnudsen(KnudsenFromPractical(sp)).Value(), s, 1e-13)
		checks.Absolute(t, "chlorosity", PracticalFromChlorosity(ChlorosityFromPractical(sp)).Value(), s, 1e-11)
		cl := ChlorinityFromPractical(sp)
		checks.Absolute(t, "Knudsen and chlorinity", ChlorinityFromKnudsen(KnudsenFromChlorinity(cl)).GramsPerKilogram(), cl.GramsPerKilogram(), 1e-13)
		checks.Absolute(t, "IPTS-48", OnIPTS48(IPTS48(s-5)), s-5, 1e-13)
		checks.Absolute(t, "IPTS-68", OnIPTS68(IPTS68(s-5)), s-5, 1e-13)
	}
	// 1 L of water of chlorinity 19.374 at 20 °C weighs 1.02476 kg.
	checks.Printed(t, "chlorosity at salinity 35", ChlorosityFromPractical(units.Practical(35)).GramsPerLitre(), "19.854")
	checks.Printed(t, "by a density", ChlorinityFromChlorosity(ClPerLitre(19.854), 1024.76).GramsPerKilogram(), "19.374")
}

func TestOldScalesWithoutMeaning(t *testing.T) {
	for _, x := range []float64{-1e-9, -5, nan, inf, -inf} {
		assert.True(t, isNaN(PracticalFromChlorinity(Cl(x)).Value()), "%v", x)
		assert.True(t, isNaN(ChlorinityFromPractical(units.Practical(x)).GramsPerKilogram()), "%v", x)
		assert.True(t, isNaN(KnudsenFromChlorinity(Cl(x)).PerMille()), "%v", x)
		assert.True(t, isNaN(ChlorinityFromKnudsen(Knudsen(x)).GramsPerKilogram()), "%v", x)
		assert.True(t, isNaN(PracticalFromKnudsen(Knudsen(x)).Value()), "%v", x)
		assert.True(t, isNaN(KnudsenFromPractical(units.Practical(x)).PerMille()), "%v", x)
		assert.True(t, isNaN(ChlorinityFromChlorosity(ClPerLitre(x), 1024).GramsPerKilogram()), "%v", x)
		assert.True(t, isNaN(ChlorinityFromChlorosity(ClPerLitre(19), units.Density(x)).GramsPerKilogram()), "%v", x)
		assert.True(t, isNaN(PracticalFromChlorosity(ClPerLitre(x)).Value()), "%v", x)
		assert.True(t, isNaN(ChlorosityFromPractical(units.Practical(x)).GramsPerLitre()), "%v", x)
	}
	assert.True(t, isNaN(ChlorinityFromChlorosity(ClPerLitre(19), 0).GramsPerKilogram()))
	assert.True(t, isNaN(PracticalFromKnudsen(Knudsen(0.029)).Value()), "no such row")
	assert.InDelta(t, 0, PracticalFromKnudsen(Knudsen(0.030)).Value(), 0, "pure water")
	assert.InDelta(t, 0, PracticalFromChlorosity(ClPerLitre(0)).Value(), 0)
	assert.True(t, isNaN(PracticalFromChlorosity(ClPerLitre(301)).Value()))
	assert.True(t, isNaN(ChlorinityFromChlorosity(ClPerLitre(19.85), 1.02476).GramsPerKilogram()), "kg/L taken for kg/m³")
	assert.True(t, isNaN(ChlorinityFromChlorosity(ClPerLitre(301), 1000).GramsPerKilogram()))
	assert.InDelta(t, 299, ChlorinityFromChlorosity(ClPerLitre(299), 1000).GramsPerKilogram(), 1e-12)
	assert.True(t, isNaN(IPTS48(nan).Celsius()))
	assert.True(t, isNaN(OnIPTS48(units.Celsius(nan))))
}

func isNaN(x float64) bool { return x != x }

func TestOldScalesDoNotAllocate(t *testing.T) {
	checks.NoAllocations(t, "PracticalFromChlorosity", func() { sinkOld = PracticalFromChlorosity(ClPerLitre(19.8)).Value() })
	checks.NoAllocations(t, "OnIPTS48", func() { sinkOld = OnIPTS48(IPTS48(20)) })
}

var sinkOld float64

func FuzzOldScales(f *testing.F) {
	f.Add(19.8, 20.0)
	f.Add(0.0, 0.0)
	f.Add(299.0, -2.0)
	f.Fuzz(func(t *testing.T, clPerLitre, t48 float64) {
		s := PracticalFromChlorosity(ClPerLitre(clPerLitre)).Value()
		if clPerLitre >= 0 && clPerLitre <= 66 { // salinity 110
			checks.Absolute(t, "back", ChlorosityFromPractical(units.Practical(s)).GramsPerLitre(), clPerLitre, 1e-11)
		}
		if t48 > -100 && t48 < 200 {
			checks.Absolute(t, "back", OnIPTS48(IPTS48(t48)), t48, 1e-11)
		}
	})
}

func BenchmarkPracticalFromChlorosity(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkOld = PracticalFromChlorosity(ClPerLitre(19.8)).Value()
	}
}

func BenchmarkIPTS48(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkOld = OnIPTS48(IPTS48(20))
	}
}
