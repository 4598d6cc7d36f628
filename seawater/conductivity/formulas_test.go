package conductivity

import (
	"math"
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
)

func TestNaturalWater(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/iso7888.csv") {
		f := float64(NaturalWater25(1, units.Celsius(row.Float(t, "T_degC"))))
		checks.Printed(t, "f25 at "+row["T_degC"]+" °C [I7888]", f, row["f25"])
	}
	// The standard prints f20 = f25/1.116 for a reference of 20 °C.
	k := Compensation{Scheme: NaturalWater, Reference: units.Celsius(20)}
	checks.Printed(t, "f25/f20 [I7888]", 1/float64(NaturalWater25(1, units.Celsius(25)))*float64(NaturalWater25(1, units.Celsius(20))), "1.116")
	assert.InDelta(t, 1, k.ratio(units.Celsius(20)), 1e-15)
	for c := 0.0; c < 60; c++ {
		assert.Greater(t, naturalRatio(units.Celsius(c)), naturalRatio(units.Celsius(c-1)))
	}
}

func TestPotassiumChloride(t *testing.T) {
	standards := map[string]Standard{
		"molal 0.01": KCl001Molal, "molal 0.1": KCl01Molal, "molal 1.0": KCl1Molal,
		"demal 0.01": KCl001Demal, "demal 0.1": KCl01Demal, "demal 1.0": KCl1Demal,
	}
	for _, row := range checks.Table(t, "testdata/kcl.csv") {
		at := units.Celsius(row.Float(t, "T_degC"))
		name := row["basis"] + " " + row["concentration"]
		if s, ok := standards[name]; ok {
			checks.Printed(t, name+" at "+at.String(), s.Conductivity(at).SiemensPerMetre(), row["S_per_m"])
			assert.NoError(t, s.CheckRange(at))
		} else {
			checks.Printed(t, "aerated water at "+at.String(), AeratedWater(at).SiemensPerMetre(), row["S_per_m"])
			assert.NoError(t, CheckRangeAeratedWater(at))
		}
	}
}

func TestStandards(t *testing.T) {
	for s, want := range map[Standard]string{
		KCl001Molal: "1.40823", KCl01Molal: "12.8246", // [PKWB]
		KCl001Demal: "1.4083", KCl01Demal: "12.852", KCl1Demal: "111.31", // [R56]
		KCl1413: "1.413", KCl12880: "12.88", // common practice
		Seawater35: "53.07", // PSS-78; common practice says 53.0 mS/cm
	} {
		checks.Printed(t, "standard at 25 °C", float64(s.Conductivity(units.Celsius(25))), want)
	}
	for s := KCl001Molal; s <= Seawater35; s++ {
		last := 0.0
		for c := 0.0; c <= 35; c += 0.25 {
			k := float64(s.Conductivity(units.Celsius(c)))
			assert.Greater(t, k, last, "standard %d at %v °C", s, c)
			last = k
		}
		assert.ErrorIs(t, s.CheckRange(units.Celsius(50.1)), units.ErrRange)
		assert.ErrorIs(t, s.CheckRange(units.Celsius(math.NaN())), units.ErrRange)
		assert.NoError(t, s.CheckRange(units.Celsius(35)))
	}
	assert.ErrorIs(t, KCl1Demal.CheckRange(units.Celsius(14.9)), units.ErrRange)
	for _, s := range []Standard{0, Seawater35 + 1, 255} {
		assert.ErrorIs(t, s.CheckRange(units.Celsius(25)), units.ErrInput)
		assert.True(t, math.IsNaN(float64(s.Conductivity(units.Celsius(25)))))
	}
	for _, bad := range []float64{-10.1, 60.1, math.NaN(), math.Inf(1)} {
		assert.True(t, math.IsNaN(float64(KCl01Molal.Conductivity(units.Celsius(bad)))))
	}
}

// The interpolated ratio of the demal standards scatters by less than 0.08 %,
// most at 20 °C.
func TestDemalIsSmooth(t *testing.T) {
	for c := 15.0; c <= 35; c += 0.25 {
		for _, p := range [][2]Standard{{KCl001Demal, KCl001Molal}, {KCl01Demal, KCl01Molal}, {KCl1Demal, KCl1Molal}} {
			r := float64(p[0].Conductivity(units.Celsius(c)) / p[1].Conductivity(units.Celsius(c)))
			at25 := float64(p[0].Conductivity(units.Celsius(25)) / p[1].Conductivity(units.Celsius(25)))
			assert.InDelta(t, at25, r, 0.0008)
		}
	}
}

// What is published of pure water at 25 °C: 0.05501 ± 0.0001 µS/cm and
// 18.18 ± 0.03 MΩ·cm [LLBM], which the trade rounds to 0.055 and 18.2.
func TestPureWaterPublished(t *testing.T) {
	const ofConductivity, ofResistivity = 0.0001, 0.03
	c := PureWater(units.Celsius(25))
	checks.Absolute(t, "conductivity [LLBM]", c.MicrosiemensPerCentimetre(), 0.05501, ofConductivity)
	checks.Absolute(t, "resistivity [LLBM]", c.Resistivity().MegohmCentimetres(), 18.18, ofResistivity)
	checks.Printed(t, "common practice", c.MicrosiemensPerCentimetre(), "0.055")
	checks.Printed(t, "common practice", c.Resistivity().MegohmCentimetres(), "18.2")
	checks.Printed(t, "slope in % per K, common practice", 100*math.Log(float64(PureWater(units.Celsius(25.5))/PureWater(units.Celsius(24.5)))), "5")
}

func TestPureWaterTable(t *testing.T) {
	worst := 0.0
	for _, row := range checks.Table(t, "testdata/pure_water.csv") {
		at := units.Celsius(row.Float(t, "T_degC"))
		checks.Absolute(t, "pKw at "+at.String(), ionProduct(at, hydrometer.WaterDensity(at).GramsPerMillilitre()), row.Float(t, "pKw"), 1e-12)
		got := PureWater(at).MicrosiemensPerCentimetre()
		worst = math.Max(worst, math.Abs(got/row.Float(t, "uS_per_cm")-1))
		// Two models of how ions move, 1.1 % apart at 0 °C and 0.4 % at 25 °C.
		checks.Relative(t, "pure water at "+at.String(), got, row.Float(t, "uS_per_cm"), 0.012)
		assert.NoError(t, CheckRangePureWater(units.Celsius(math.Max(0, at.Celsius()))))
	}
	t.Logf("largest difference from PHREEQC %.2f %%", worst*100)
	for c := 0.5; c <= 90; c += 0.5 {
		assert.Greater(t, PureWater(units.Celsius(c)), PureWater(units.Celsius(c-0.5)))
		if c <= 50 {
			assert.Greater(t, AeratedWater(units.Celsius(c)), PureWater(units.Celsius(c)))
		}
	}
}

// The check values of the release itself, pKw at 300 K and 600 K (from memory).
func TestIonProductRelease(t *testing.T) {
	checks.Printed(t, "pKw(300 K, 1 g/cm³) [R11]", ionProduct(units.Kelvin(300), 1), "13.906672")
	checks.Printed(t, "pKw(600 K, 0.7 g/cm³) [R11]", ionProduct(units.Kelvin(600), 0.7), "11.147093")
}

func TestSolutions(t *testing.T) {
	solutions := map[string]Solution{"NaCl": SodiumChloride, "KCl": PotassiumChloride, "mixture": SulfateBicarbonateChloride}
	for _, row := range checks.Table(t, "testdata/tds.csv") {
		s, content := solutions[row["solution"]], units.MassPerLitre(row.Float(t, "mg_per_L"))
		if s.CheckRange(content) != nil {
			continue
		}
		c := s.Conductivity(content).MicrosiemensPerCentimetre()
		what := row["solution"] + " " + row["mg_per_L"] + " mg/L"
		switch {
		case row["solution"] == "mixture": // the table and PHREEQC are 6 % apart, except for its row of 84 µS/cm
			checks.Relative(t, what+" by PHREEQC", c, row.Float(t, "phreeqc"), 0.04)
			if row["uS_per_cm"] != "84" {
				checks.Relative(t, what+" as printed", c, row.Float(t, "uS_per_cm"), 0.04)
			}
		case row["sound"] == "yes":
			checks.Relative(t, what+" as printed", c, row.Float(t, "uS_per_cm"), 0.01)
			checks.Relative(t, what+" backwards", float64(s.Content(units.Conductivity(row.Float(t, "uS_per_cm"))*units.MicrosiemensPerCentimetre)), float64(content), 0.01)
			fallthrough
		default: // rows that do not hold are held against PHREEQC alone
			checks.Relative(t, what+" by PHREEQC", c, row.Float(t, "phreeqc"), 0.01)
		}
	}
}

// The primary standards are solutions of so much salt in a kilogram of water; the
// molarity is that of an apparent molar volume of 27.8 mL/mol (from memory).
func TestPotassiumChlorideSolution(t *testing.T) {
	for _, row := range []struct {
		molality, tolerance float64
		standard            Standard
	}{{0.01, 0.001, KCl001Molal}, {0.1, 0.005, KCl01Molal}} {
		molarity := row.molality / (1/hydrometer.WaterDensity(units.Celsius(25)).GramsPerMillilitre() + row.molality*0.0278)
		c := PotassiumChloride.Conductivity(units.MassPerLitre(molarity*74.548) * units.GramPerLitre)
		checks.Relative(t, "KCl", float64(c), float64(row.standard.Conductivity(units.Celsius(25))), row.tolerance)
	}
}

// As the last row but with an apparent molar volume of 17.8 mL/mol for NaCl.
func TestSodiumChlorideSolution(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/pss78.csv") {
		if row["kind"] != "NaCl" {
			continue
		}
		m := row.Float(t, "amount")
		molarity := m / (1/hydrometer.WaterDensity(units.Celsius(25)).GramsPerMillilitre() + m*0.0178)
		c := SodiumChloride.Conductivity(units.MassPerLitre(molarity*58.44) * units.GramPerLitre)
		checks.Relative(t, "NaCl "+row["amount"]+" mol/kg", float64(c), row.Float(t, "mS_per_cm"), 0.005)
	}
}

// [RS59] prints the equation for two ions of one charge with 0.2300 Λ° + 60.65; at
// no concentration the salt has its limiting conductivity.
func TestOnsagerEquation(t *testing.T) {
	limit, drag := sodiumChloride[0].equivalent()
	assert.InDelta(t, 126.39, limit, 1e-12)
	assert.InDelta(t, 0.2300*126.39+60.65, drag, 0.002)
	sulfate := &mixture[0]
	limit, _ = sulfate.equivalent()
	assert.InDelta(t, 130.08, limit, 1e-12)
	assert.InDelta(t, 1.5, sulfate.strength(), 0)
	assert.InDelta(t, 2.0, sulfate.equivalents()*142036/0.4, 1e-12)
	// What Newton's rule in Content rests on.
	for _, s := range []Solution{SodiumChloride, PotassiumChloride, SulfateBicarbonateChloride} {
		o := s.onsager()
		assert.Greater(t, o.limit*ionSize, o.drag)
	}
}

func TestSolutionRoundTrip(t *testing.T) {
	for _, s := range []Solution{SodiumChloride, PotassiumChloride, SulfateBicarbonateChloride} {
		last := -1.0
		scale := 0.0
		for x := 1e-6; x <= 1e5; x *= 1.3 {
			c := s.Conductivity(units.MassPerLitre(x))
			assert.Greater(t, float64(c), last)
			last = float64(c)
			checks.Relative(t, "content", float64(s.Content(c)), x, 1e-12)
			assert.Greater(t, float64(s.Scale(c)), scale, "the factor rises")
			scale = float64(s.Scale(c))
		}
		for _, x := range []float64{1e-300, 1e-100, 1e-32, 1e-31, 1e-30, 1e-20, 1e20, 1e300} {
			checks.Relative(t, "content", float64(s.Content(s.Conductivity(units.MassPerLitre(x)))), x, 1e-12)
		}
		assert.Positive(t, float64(s.Content(math.SmallestNonzeroFloat64)))
		assert.True(t, math.IsNaN(float64(s.Content(math.MaxFloat64))), "more than any number")
		assert.Zero(t, float64(s.Conductivity(0)))
		assert.Zero(t, float64(s.Content(0)))
		assert.NoError(t, s.CheckRange(0))
		assert.ErrorIs(t, s.CheckRange(-1), units.ErrRange)
		assert.ErrorIs(t, s.CheckRange(41*units.GramPerLitre), units.ErrRange)
	}
	// Common practice: about 0.5 for sodium chloride, 0.7 for natural water.
	assert.InDelta(t, 0.5, float64(SodiumChloride.Scale(1.413)), 0.01)
	assert.InDelta(t, 0.7, float64(SulfateBicarbonateChloride.Scale(1.413)), 0.02)
	nan, inf := math.NaN(), math.Inf(1)
	for _, bad := range []float64{-1, nan, inf} {
		assert.True(t, math.IsNaN(float64(SodiumChloride.Conductivity(units.MassPerLitre(bad)))))
		assert.True(t, math.IsNaN(float64(SodiumChloride.Content(units.Conductivity(bad)))))
	}
	for _, s := range []Solution{0, 4, 255} {
		assert.True(t, math.IsNaN(float64(s.Conductivity(1))))
		assert.True(t, math.IsNaN(float64(s.Content(1))))
		assert.True(t, math.IsNaN(float64(s.Scale(1))))
		assert.ErrorIs(t, s.CheckRange(0), units.ErrInput)
	}
}

func TestResidue(t *testing.T) {
	at := units.Celsius(25)
	// What was put into pure water is found again.
	for _, mg := range []float64{0.01, 0.5, 5} {
		c := PureWater(at) + SodiumChloride.Conductivity(units.MassPerLitre(mg))
		checks.Relative(t, "residue", float64(Residue(c, at, SodiumChloride)), mg, 1e-9)
	}
	assert.Zero(t, float64(Residue(PureWater(at), at, SodiumChloride)))
	for _, bad := range []units.Conductivity{0, -1, units.Conductivity(math.NaN())} {
		assert.True(t, math.IsNaN(float64(Residue(bad, at, SodiumChloride))))
	}
	assert.True(t, math.IsNaN(float64(Residue(1, units.Celsius(math.NaN()), SodiumChloride))))
}

func TestFormulasOfNonsense(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, bad := range []float64{-273.15, -60, 101, nan, inf, -inf} {
		at := units.Celsius(bad)
		assert.True(t, math.IsNaN(float64(PureWater(at))))
		assert.True(t, math.IsNaN(float64(AeratedWater(at))))
		assert.True(t, math.IsNaN(float64(NaturalWater25(1, at))))
		assert.ErrorIs(t, CheckRangePureWater(at), units.ErrRange)
		assert.ErrorIs(t, CheckRangeAeratedWater(at), units.ErrRange)
		assert.ErrorIs(t, CheckRangeNaturalWater(at), units.ErrRange)
	}
	for _, bad := range []float64{-1, nan, inf} {
		assert.True(t, math.IsNaN(float64(NaturalWater25(units.Conductivity(bad), units.Celsius(20)))))
	}
	assert.NoError(t, CheckRangeNaturalWater(units.Celsius(35.9)))
	assert.NoError(t, CheckRange(units.Absolute(0), units.Celsius(-2)))
	assert.ErrorIs(t, CheckRange(units.Absolute(42.3), units.Celsius(25)), units.ErrRange)
	assert.ErrorIs(t, CheckRange(units.Absolute(35), units.Celsius(35.1)), units.ErrRange)
	assert.ErrorIs(t, CheckRange(units.Absolute(-1), units.Celsius(25)), units.ErrRange)
}
