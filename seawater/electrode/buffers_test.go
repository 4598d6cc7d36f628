package electrode

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/units"
)

var bufferNames = map[string]Buffer{
	"Phthalate": Phthalate, "Phosphate": Phosphate, "PhysiologicalPhosphate": PhysiologicalPhosphate,
	"Borax": Borax, "Carbonate": Carbonate, "TrisInWater": TrisInWater, "TechnicalPhosphate": TechnicalPhosphate,
	"Bottle4": Bottle4, "Bottle7": Bottle7, "Bottle10": Bottle10,
}

// largest reports the largest of some differences.
func largest(t *testing.T, what string, worst float64) {
	t.Helper()
	t.Logf("%s: largest difference %.2g", what, worst)
}

func TestBuffersArePrinted(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/buffers.csv") {
		b, ok := bufferNames[row["buffer"]]
		assert.True(t, ok, row["buffer"])
		checks.Printed(t, row["buffer"]+" at "+row["t_degC"], b.PH(units.Celsius(row.Float(t, "t_degC"))).Value(), row["pH"])
	}
}

// The quartics smooth what the tables round: 0.0005 and as much of their own.
// Between the printed values the buffers must not stray from them.
func TestBuffersAgainstFits(t *testing.T) {
	coef := map[string]*[5]float64{}
	for _, row := range checks.Table(t, "testdata/fits.csv") {
		if coef[row["buffer"]] == nil {
			coef[row["buffer"]] = new([5]float64)
		}
		coef[row["buffer"]][int(row.Float(t, "power"))] = row.Float(t, "value")
	}
	assert.Len(t, coef, 7)
	for name, k := range coef {
		worst, steepest := 0.0, 0.0
		for c := 0.0; c <= 50; c += 0.25 {
			worst = math.Max(worst, math.Abs(bufferNames[name].PH(units.Celsius(c)).Value()-poly.P4(c, k)))
			if c >= 1 && c <= 49 {
				steepest = math.Max(steepest, math.Abs(perKelvin(bufferNames[name].PH, units.Celsius(c))-poly.Derivative(c, k[:])))
			}
		}
		largest(t, name, worst)
		assert.Less(t, worst, 0.0007, name)
		assert.Less(t, steepest, 0.0005, name)
	}
}

// JIS makes its buffers per litre, not per kilogram of water, and prints two
// decimals. Phthalate differs most from the NIST series, at 5 °C (4.01 and 3.998).
func TestBuffersAgainstJIS(t *testing.T) {
	worst := map[string]float64{}
	for _, row := range checks.Table(t, "testdata/jis.csv") {
		name := row["buffer"]
		d := math.Abs(bufferNames[name].PH(units.Celsius(row.Float(t, "t_degC"))).Value() - row.Float(t, "pH"))
		worst[name] = math.Max(worst[name], d)
	}
	for name, most := range map[string]float64{"Phthalate": 0.012, "Phosphate": 0.005, "Borax": 0.006, "Carbonate": 0.008} {
		largest(t, "JIS "+name, worst[name])
		assert.LessOrEqual(t, worst[name], most+1e-9, name)
	}
}

// The formulas in the abstracts of [H77] and [HPA] for phthalate: the former, of a
// later measurement, is within 0.0101 of the table, the latter within 0.0128.
func TestPhthalateFormulas(t *testing.T) {
	var hetzer, hamer float64
	for c := 0.0; c <= 50; c += 5 {
		ph := Phthalate.PH(units.Celsius(c)).Value()
		k := c + 273.15
		hetzer = math.Max(hetzer, math.Abs(ph-(2073.44/k-13.327+0.045199*k-3.4846e-05*k*k)))
		k = c + 273.16
		hamer = math.Max(hamer, math.Abs(ph-(1336.08/k-5.2678+0.016069*k)))
	}
	checks.Printed(t, "Hetzer 1977", hetzer, "0.0101")
	checks.Printed(t, "Hamer 1946", hamer, "0.0128")
}

// The published values at 25 °C.
func TestBuffersAt25(t *testing.T) {
	for b, printed := range map[Buffer]string{Phthalate: "4.005", Phosphate: "6.865", PhysiologicalPhosphate: "7.413", Borax: "9.180", Carbonate: "10.012"} {
		checks.Printed(t, "25 °C", b.PH(units.Celsius(25)).Value(), printed)
	}
	// The two series of the technical 7.00 part most at 45 °C.
	worst, at := 0.0, 0.0
	for c := 0.0; c <= 50; c += 5 {
		if d := math.Abs(Bottle7.PH(units.Celsius(c)).Value() - TechnicalPhosphate.PH(units.Celsius(c)).Value()); d > worst {
			worst, at = d, c
		}
	}
	assert.Equal(t, 45., at)
	checks.Printed(t, "two series of 7.00", worst, "0.015")
}

func TestNernstAndSeawaterBuffers(t *testing.T) {
	const ofBuffers, ofSlope = 1e-13, 2e-11 // relative; the slope was computed with R and F to ten digits
	worst := map[string]float64{}
	for _, row := range checks.Table(t, "testdata/checks.csv") {
		in := row.Inputs(t, "inputs")
		at, s := units.Celsius(in["t"]), units.Practical(in["S"])
		var got float64
		switch row["quantity"] {
		case "nernst_slope":
			got = Nernst(at).Millivolts()
		case "tris_delvalls_dickson":
			got = Tris(s).PH(at).Value()
		case "tris_mueller2018":
			got = TrisMueller2018(s, units.AmountPerKilogram(in["b"])*units.MolePerKilogram).PH(at).Value()
		case "amp":
			got = Aminopyridine(s).PH(at).Value()
		default:
			t.Fatal(row)
		}
		if row["kind"] == "printed" {
			checks.Printed(t, row["quantity"], got, row["value"])
			continue
		}
		want := row.Float(t, "value")
		tolerance := ofBuffers
		if row["quantity"] == "nernst_slope" {
			tolerance = ofSlope
		}
		checks.Relative(t, row["quantity"]+" "+row["inputs"], got, want, tolerance)
		worst[row["quantity"]] = math.Max(worst[row["quantity"]], math.Abs(got-want))
	}
	for what, d := range worst {
		largest(t, what, d)
	}
	checks.Printed(t, "Nernst", Nernst(units.Celsius(25)).Millivolts(), "59.16")
	checks.Printed(t, "Nernst per kelvin", float64(Nernst(units.Celsius(26))-Nernst(units.Celsius(25))), "0.198")
	assert.Zero(t, Nernst(units.Kelvin(0)))
}

// The two formulas of tris were made of different measurements.
func TestTrisSetsAgree(t *testing.T) {
	worst := 0.0
	for s := 20.0; s <= 40; s++ {
		for c := 5.0; c <= 45; c++ {
			at := units.Celsius(c)
			d := Tris(units.Practical(s)).PH(at).Value() - TrisMueller2018(units.Practical(s), 40*units.MillimolePerKilogram).PH(at).Value()
			worst = math.Max(worst, math.Abs(d))
		}
	}
	checks.Printed(t, "tris", worst, "0.0012")
}

// Buffers get less alkaline with temperature, tris by 0.03 per kelvin.
func TestPerKelvin(t *testing.T) {
	at := units.Celsius(25)
	checks.Printed(t, "tris", Tris(units.Practical(35)).Point(0, at).PerKelvin, "-0.031")
	checks.Printed(t, "bottle 10", Bottle10.Point(0, at).PerKelvin, "-0.009")
	for c := 0.5; c <= 44; c++ {
		assert.Negative(t, Tris(units.Practical(35)).Point(0, units.Celsius(c)).PerKelvin)
		assert.Negative(t, TrisMueller2018(units.Practical(35), 40000).Point(0, units.Celsius(c)).PerKelvin)
		assert.Negative(t, Aminopyridine(units.Practical(35)).Point(0, units.Celsius(c)).PerKelvin)
		assert.Negative(t, Carbonate.Point(0, units.Celsius(c)).PerKelvin)
	}
}

func TestBufferBounds(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, b := range bufferNames {
		for _, c := range []float64{0, 50} {
			assert.NoError(t, b.CheckRange(units.Celsius(c)))
		}
		for _, c := range []float64{-0.001, 50.001, nan, inf, -inf} {
			assert.ErrorIs(t, b.CheckRange(units.Celsius(c)), units.ErrRange)
		}
		for _, c := range []float64{-10.001, 60.001, nan, inf, -inf} {
			assert.True(t, math.IsNaN(b.PH(units.Celsius(c)).Value()))
		}
		// Beyond the table a straight line, without a jump.
		for end, beyond := range map[float64]float64{0: -10, 50: 60} {
			edge, middle, out := b.PH(units.Celsius(end)).Value(), b.PH(units.Celsius((end+beyond)/2)).Value(), b.PH(units.Celsius(beyond)).Value()
			assert.InDelta(t, (edge+out)/2, middle, 1e-12)
			assert.InDelta(t, b.PH(units.Celsius(end-1e-7)).Value(), b.PH(units.Celsius(end+1e-7)).Value(), 1e-7)
		}
	}
	for _, b := range []Buffer{0, Bottle10 + 1, 255} {
		assert.True(t, math.IsNaN(b.PH(units.Celsius(25)).Value()))
		assert.ErrorIs(t, b.CheckRange(units.Celsius(25)), units.ErrInput)
	}

	at := units.Celsius(25)
	tris := func(s, m float64) SeawaterBuffer {
		return TrisMueller2018(units.Practical(s), units.AmountPerKilogram(m)*units.MolePerKilogram)
	}
	for _, row := range []struct {
		b    SeawaterBuffer
		t    float64
		kind error
	}{
		{Tris(units.Practical(20)), 0, nil}, {Tris(units.Practical(40)), 45, nil},
		{Tris(units.Practical(19.99)), 25, units.ErrRange}, {Tris(units.Practical(40.01)), 25, units.ErrRange},
		{Tris(units.Practical(35)), -0.01, units.ErrRange}, {Tris(units.Practical(35)), 45.01, units.ErrRange},
		{Tris(units.Practical(nan)), 25, units.ErrRange}, {Tris(units.Practical(35)), nan, units.ErrRange},
		{tris(5, 0.01), 5, nil}, {tris(40, 0.04), 45, nil}, {tris(20, 0.04), 25, nil}, {tris(19, 0.03), 25, nil},
		{tris(19, 0.04), 25, units.ErrRange}, {tris(35, 0.0099), 25, units.ErrRange}, {tris(35, 0.0401), 25, units.ErrRange},
		{tris(4.9, 0.02), 25, units.ErrRange}, {tris(35, 0.04), 4.9, units.ErrRange}, {tris(35, nan), 25, units.ErrRange},
		{Aminopyridine(units.Practical(30)), 5, nil}, {Aminopyridine(units.Practical(40)), 40, nil},
		{Aminopyridine(units.Practical(29.9)), 25, units.ErrRange}, {Aminopyridine(units.Practical(35)), 40.1, units.ErrRange},
		{SeawaterBuffer{}, 25, units.ErrInput},
	} {
		err := row.b.CheckRange(units.Celsius(row.t))
		if row.kind == nil {
			assert.NoError(t, err, "%+v", row)
			continue
		}
		assert.ErrorIs(t, err, row.kind, "%+v", row)
	}
	for _, s := range []float64{-1, 121, nan, inf, -inf} {
		for _, b := range []SeawaterBuffer{Tris(units.Practical(s)), tris(s, 0.04), Aminopyridine(units.Practical(s))} {
			assert.True(t, math.IsNaN(b.PH(at).Value()))
		}
	}
	for _, c := range []float64{-101, 401, nan, inf, -inf} {
		for _, b := range []SeawaterBuffer{Tris(units.Practical(35)), tris(35, 0.04), Aminopyridine(units.Practical(35))} {
			assert.True(t, math.IsNaN(b.PH(units.Celsius(c)).Value()))
		}
		if c != 401 && c != -101 {
			assert.True(t, math.IsNaN(float64(Nernst(units.Celsius(c)))))
		}
	}
	for _, m := range []float64{-0.01, nan, inf} {
		assert.True(t, math.IsNaN(tris(35, m).PH(at).Value()))
	}
	assert.True(t, math.IsNaN(SeawaterBuffer{}.PH(at).Value()))
	assert.True(t, math.IsNaN(float64(Nernst(units.Kelvin(-1e-6)))))
}
