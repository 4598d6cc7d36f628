package pss78

import (
	"math"
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
)

func TestUNESCO44(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/unesco44.csv") {
		in := row.Inputs(t, "inputs")
		temperature, p := units.Celsius(in["T68"]/t68PerT90), units.SeaPressure(in["p"])
		var got float64
		switch row["quantity"] {
		case "SP_from_R":
			got = Ratio(in["R"]).Salinity(temperature, p).Value()
		case "R_from_SP":
			got = float64(RatioAt(units.Practical(in["SP"]), temperature, p))
		default:
			t.Fatalf("unknown quantity %q", row["quantity"])
		}
		checks.Printed(t, row["quantity"]+" "+row["inputs"]+" "+row["where"], got, row["value"])
	}
}

// Here and there agree to 2e-13 relative above salinity 0. At salinity 0, where
// the grid stops a little short, they agree to 1.1e-11 (0.0017746776778027917
// here, 0.0017746776777830204 there, at 25 °C); TestZeroCrossing shows which of
// the two is nearer.
// How near the conductivities of the grid come, relative; of salinity 0, where the
// extension of Hill et al. crosses zero, nearer is not to be had.
const (
	gridConductivity     = 1e-12
	gridConductivityZero = 2e-11
	gridSalinity         = 5e-13 // times 1 + S
)

func TestGrid(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/gsw_grid.csv") {
		s, c := row.Float(t, "SP"), units.Conductivity(row.Float(t, "C_mS_cm"))
		temperature, p := units.Celsius(row.Float(t, "t_C")), units.SeaPressure(row.Float(t, "p_dbar"))
		what := "SP=" + row["SP"] + " t=" + row["t_C"] + " p=" + row["p_dbar"]
		checks.Absolute(t, "salinity at "+what, Salinity(c, temperature, p).Value(), s, gridSalinity*(1+s))
		tol := gridConductivity
		if s == 0 {
			s, tol = math.SmallestNonzeroFloat64, gridConductivityZero
		}
		checks.Relative(t, "conductivity at "+what,
			float64(Conductivity(units.Practical(s), temperature, p)), float64(c), tol)
	}
}

func TestCasts(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/gsw_casts.csv") {
		in, want := row.Inputs(t, "inputs"), row.Float(t, "value")
		s, temperature, p := units.Practical(in["SP"]), units.Celsius(in["t"]), units.SeaPressure(in["p"])
		var got float64
		switch row["function"] {
		case "C_from_SP":
			got = float64(Conductivity(s, temperature, p))
			checks.Absolute(t, "SP_from_C "+row["inputs"],
				Salinity(units.Conductivity(want), temperature, p).Value(), in["SP"], 1e-12)
		case "R_from_SP":
			got = float64(RatioAt(s, temperature, p))
			checks.Absolute(t, "SP_from_R "+row["inputs"],
				Ratio(want).Salinity(temperature, p).Value(), in["SP"], 1e-12)
		case "SP_salinometer":
			bath := in["Rt"] * rt(t68PerT90*in["t"])
			got = Ratio(bath).Salinity(temperature, 0).Value()
		default:
			t.Fatalf("unknown function %q", row["function"])
		}
		checks.Absolute(t, row["function"]+" "+row["inputs"], got, want, row.Float(t, "tolerance"))
	}
}

// [PL80]: the a_n sum to 35 and the b_n to 0, so that water which conducts as
// standard seawater does at the same temperature has salinity 35.
func TestStandardSeawater(t *testing.T) {
	for _, celsius := range []float64{-2, 0, 15, 25, 35} {
		r := Ratio(rt(t68PerT90 * celsius))
		assert.InDelta(t, 35, r.Salinity(units.Celsius(celsius), 0).Value(), 1e-12)
		assert.InDelta(t, float64(r), float64(RatioAt(units.Practical(35), units.Celsius(celsius), 0)), 1e-14)
	}
	assert.Equal(t, Ratio(1), RatioOf(StandardConductivity))
	assert.Equal(t, 42.914, Ratio(1).Conductivity().MillisiemensPerCentimetre())
	checks.Printed(t, "C(35, 15, 0) [CS80]", float64(Conductivity(units.Practical(35), units.Celsius(15/t68PerT90), 0)), "42.9140")
}

// The published extension with H = 1, written out as [HDW] print it.
func TestExtension(t *testing.T) {
	for _, celsius := range []float64{-2, 0, 10, 15, 25, 35} {
		t68 := t68PerT90 * celsius
		ft := (t68 - 15) / (1 + 0.0162*(t68-15))
		plain := func(rt float64) float64 {
			s := 0.0
			for n := range aCoef {
				s += (aCoef[n] + ft*bCoef[n]) * math.Pow(rt, float64(n)/2)
			}
			return s
		}
		hill := func(rt float64) float64 {
			x, y := 400*rt, 100*rt
			return plain(rt) - 0.0080/(1+1.5*x+x*x) - 0.0005*ft/(1+math.Pow(y, 0.5)+y+math.Pow(y, 1.5))
		}
		lo, hi := 0.0, 1.0 // bisection for the join
		for range 60 {
			if m := (lo + hi) / 2; plain(m) < 2 {
				lo = m
			} else {
				hi = m
			}
		}
		h := 2 / hill(lo)
		assert.InDelta(t, 1, h, 2.1e-4)
		for _, s := range []float64{0.001, 0.01, 0.1, 0.5, 1, 1.5, 1.9999} {
			r := RatioAt(units.Practical(s), units.Celsius(celsius), 0)
			checks.Absolute(t, "extension", h*hill(float64(r)/rt(t68)), s, 1e-12)
		}
	}
}

// The two branches meet at 2: a hair of conductivity makes a hair of
// salinity.
func TestBranchesMeet(t *testing.T) {
	for celsius := -2.0; celsius <= 35; celsius += 0.5 {
		for _, p := range []units.SeaPressure{0, 100, 10000} {
			temperature := units.Celsius(celsius)
			c := Conductivity(units.Practical(2), temperature, p)
			below := Salinity(c*(1-1e-13), temperature, p).Value()
			above := Salinity(c*(1+1e-13), temperature, p).Value()
			assert.InDelta(t, 2, below, 2e-12)
			assert.InDelta(t, 2, above, 2e-12)
		}
	}
}

func TestRising(t *testing.T) {
	finer := checks.Step(1.001, 1.02)
	for _, p := range []units.SeaPressure{0, 1000, 10000} {
		for _, celsius := range []float64{-2, 0, 7.5, 15, 25, 35} {
			temperature := units.Celsius(celsius)
			zero := Conductivity(units.Practical(math.SmallestNonzeroFloat64), temperature, p)
			assert.Less(t, float64(zero), 0.0024, "where the extension crosses zero")
			last := Salinity(0, temperature, p).Value()
			assert.Zero(t, last)
			for c := units.Conductivity(1e-5); c < 90; c *= units.Conductivity(finer) {
				s := Salinity(c, temperature, p).Value()
				if !(s > last || s == 0 && c <= zero) {
					t.Fatalf("%v at %v, %v: salinity %v after %v", c, temperature, p, s, last)
				}
				last = s
			}
			before := units.Conductivity(0)
			for s := 1e-7; s < 45; s *= finer {
				c := Conductivity(units.Practical(s), temperature, p)
				if !(c > before) {
					t.Fatalf("%v at %v, %v: conductivity %v after %v", s, temperature, p, c, before)
				}
				before = c
			}
		}
	}
}

func TestRoundTrip(t *testing.T) {
	warmer, saltier := checks.Step(0.5, 2.5), checks.Step(0.05, 0.3)
	for _, p := range []units.SeaPressure{0, 10, 1000, 10000} {
		for celsius := -2.0; celsius <= 35; celsius += warmer {
			for s := 0.0; s <= 42; s += saltier {
				roundTrip(t, s, celsius, float64(p))
				roundTrip(t, 2*math.Pow(10, -s/3), celsius, float64(p))
			}
		}
	}
}

// roundTrip fails the test unless conductivity and back is the same salinity.
func roundTrip(t *testing.T, s, celsius, p float64) {
	t.Helper()
	temperature, pressure := units.Celsius(celsius), units.SeaPressure(p)
	c := Conductivity(units.Practical(s), temperature, pressure)
	if got := Salinity(c, temperature, pressure).Value(); !(math.Abs(got-s) <= 1e-12) {
		t.Errorf("S=%v t=%v p=%v: C=%v gives back %v", s, celsius, p, c, got)
	}
}

// Outside the range the inverse remains one, a little less exactly.
func TestExtrapolatedRoundTrip(t *testing.T) {
	for _, celsius := range []float64{-10, 0, 25, 50, 100} {
		for s := 0.5; s <= 1000; s += checks.Step(0.5, 5) {
			c := Conductivity(units.Practical(s), units.Celsius(celsius), 0)
			checks.Relative(t, "salinity", Salinity(c, units.Celsius(celsius), 0).Value(), s, 1e-11)
		}
	}
}

func TestZero(t *testing.T) {
	for _, celsius := range []float64{-2, 0, 15, 25, 35, 100} {
		for _, p := range []units.SeaPressure{-10, 0, 1000} {
			assert.Zero(t, Salinity(0, units.Celsius(celsius), p).Value())
			assert.Zero(t, float64(Conductivity(units.Practical(0), units.Celsius(celsius), p)))
		}
	}
	assert.Zero(t, Salinity(0.055*units.MicrosiemensPerCentimetre, units.Celsius(25), 0).Value(), "the purest water")
}

// The conductivity where the extension crosses zero is one to the last digits.
func TestZeroCrossing(t *testing.T) {
	for celsius := -2.0; celsius <= 40; celsius++ {
		for _, p := range []units.SeaPressure{0, 100, 1000} {
			temperature := units.Celsius(celsius)
			c := Conductivity(units.Practical(math.SmallestNonzeroFloat64), temperature, p)
			assert.Zero(t, Salinity(c*(1-1e-13), temperature, p).Value(), "%v", celsius)
			assert.Positive(t, Salinity(c*(1+1e-13), temperature, p).Value(), "%v", celsius)
		}
	}
}

func TestImpossibleInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, in := range [][3]float64{
		{-1e-300, 25, 0}, {-1, 25, 0}, {nan, 25, 0}, {inf, 25, 0}, {-inf, 25, 0},
		{35, nan, 0}, {35, inf, 0}, {35, -inf, 0}, {35, -274, 0}, {35, coldest, 0},
		{35, 25, nan}, {35, 25, inf}, {35, 25, -inf}, {35, 25, -10.14},
		{nan, nan, nan}, {0, nan, 0}, {0, 25, nan},
	} {
		temperature, p := units.Celsius(in[1]), units.SeaPressure(in[2])
		assert.True(t, math.IsNaN(Salinity(units.Conductivity(in[0]), temperature, p).Value()), "%v", in)
		assert.True(t, math.IsNaN(Ratio(in[0]).Salinity(temperature, p).Value()), "%v", in)
		assert.True(t, math.IsNaN(float64(Conductivity(units.Practical(in[0]), temperature, p))), "%v", in)
		assert.True(t, math.IsNaN(float64(RatioAt(units.Practical(in[0]), temperature, p))), "%v", in)
	}
	assert.True(t, math.IsNaN(float64(Conductivity(units.Practical(1000.1), units.Celsius(25), 0))))
	assert.False(t, math.IsNaN(float64(Conductivity(units.Practical(1000), units.Celsius(25), 0))))
}

func TestCheckRange(t *testing.T) {
	for _, in := range [][3]float64{{0, -2, 0}, {42, 35, 10000}, {35, 25, 0}} {
		assert.NoError(t, CheckRange(units.Practical(in[0]), units.Celsius(in[1]), units.SeaPressure(in[2])))
	}
	for _, row := range []struct {
		s, t, p  float64
		quantity string
		got      float64
	}{
		{-0.001, 25, 0, "practical salinity", -0.001},
		{42.001, 25, 0, "practical salinity", 42.001},
		{35, -2.001, 0, "temperature", -2.001},
		{35, 35.001, 0, "temperature", 35.001},
		{35, 25, -0.001, "sea pressure", -0.001},
		{35, 25, 10001, "sea pressure", 10001},
		{math.Inf(1), 25, 0, "practical salinity", math.Inf(1)},
	} {
		err := CheckRange(units.Practical(row.s), units.Celsius(row.t), units.SeaPressure(row.p))
		var wrong *units.RangeError
		if assert.ErrorAs(t, err, &wrong) {
			assert.Equal(t, row.quantity, wrong.Quantity)
			assert.Equal(t, row.got, float64(wrong.Got))
			assert.ErrorIs(t, err, units.ErrRange)
		}
	}
	for _, in := range [][3]float64{{math.NaN(), 25, 0}, {35, math.NaN(), 0}, {35, 25, math.NaN()}} {
		assert.ErrorIs(t, CheckRange(units.Practical(in[0]), units.Celsius(in[1]), units.SeaPressure(in[2])), units.ErrRange)
	}
}

// A log gives what its readings give one by one, to the end of the shortest.
func TestSalinities(t *testing.T) {
	c := []units.Conductivity{53.06, 0, 1.5, -1, 42.914, units.Conductivity(math.NaN())}
	temperatures := []units.Temperature{units.Celsius(25), units.Celsius(10), units.Celsius(-2), units.Celsius(25), units.Celsius(15), units.Celsius(25)}
	for _, p := range []units.SeaPressure{0, 1000} {
		for _, lengths := range [][3]int{{6, 6, 6}, {4, 6, 6}, {6, 3, 6}, {6, 6, 2}, {0, 6, 6}, {6, 0, 6}, {6, 6, 0}} {
			untouched := units.Practical(-7)
			dst := []units.PracticalSalinity{untouched, untouched, untouched, untouched, untouched, untouched}
			n := Salinities(dst[:lengths[0]], c[:lengths[1]], temperatures[:lengths[2]], p)
			assert.Equal(t, min(lengths[0], lengths[1], lengths[2]), n)
			for i, got := range dst {
				want := untouched
				if i < n {
					want = Salinity(c[i], temperatures[i], p)
				}
				assert.Equal(t, math.Float64bits(want.Value()), math.Float64bits(got.Value()))
			}
		}
	}
	assert.Zero(t, Salinities(nil, nil, nil, 0))
}

func TestNoAllocations(t *testing.T) {
	temperature := units.Celsius(25)
	checks.NoAllocations(t, "Salinity", func() { sinkS = Salinity(53.06, temperature, 10) })
	checks.NoAllocations(t, "Salinity, dilute", func() { sinkS = Salinity(1, temperature, 10) })
	checks.NoAllocations(t, "Conductivity", func() { sinkC = Conductivity(units.Practical(35), temperature, 10) })
	checks.NoAllocations(t, "Conductivity, dilute", func() { sinkC = Conductivity(units.Practical(1), temperature, 10) })
	checks.NoAllocations(t, "Salinities", func() {
		Salinities(make([]units.PracticalSalinity, 8), make([]units.Conductivity, 8), make([]units.Temperature, 8), 10)
	})
	checks.NoAllocations(t, "CheckRange", func() { sinkErr = CheckRange(units.Practical(35), temperature, 0) })
}

// FuzzAnyInput: whatever comes in, an answer comes out, and it is a salinity
// or a conductivity or NaN.
func FuzzAnyInput(f *testing.F) {
	for _, seed := range [][3]float64{
		{35, 25, 0}, {1, 25, 0}, {0, 0, 0}, {42, -2, 10000}, {1e-300, 15, 1},
		{math.MaxFloat64, 1e5, 1e300}, {1000, coldest + 1e-9, -10}, {math.NaN(), 0, 0}, {35, math.Inf(-1), 0},
	} {
		f.Add(seed[0], seed[1], seed[2])
	}
	f.Fuzz(func(t *testing.T, amount, celsius, p float64) {
		temperature, pressure := units.Celsius(celsius), units.SeaPressure(p)
		if s := Salinity(units.Conductivity(amount), temperature, pressure).Value(); s < 0 {
			t.Errorf("C=%v t=%v p=%v: salinity %v", amount, celsius, p, s)
		}
		c := Conductivity(units.Practical(amount), temperature, pressure)
		if CheckRange(units.Practical(amount), temperature, pressure) == nil && !(c >= 0 && c < 200) {
			t.Errorf("S=%v t=%v p=%v: conductivity %v", amount, celsius, p, c)
		}
	})
}

func FuzzRoundTrip(f *testing.F) {
	f.Add(35., 25., 0.)
	f.Add(0., 0., 0.)
	f.Add(2., 10., 100.)
	f.Add(42., 35., 10000.)
	f.Add(1e-300, -2., 10.)
	f.Fuzz(func(t *testing.T, s, celsius, p float64) {
		if CheckRange(units.Practical(s), units.Celsius(celsius), units.SeaPressure(p)) != nil {
			s, celsius, p = inside(s, 0, 42), inside(celsius, -2, 35), inside(p, 0, 10000)
		}
		roundTrip(t, s, celsius, p)
	})
}

// inside folds any number into an interval, so that no run is wasted.
func inside(x, lo, hi float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return lo
	}
	return lo + math.Abs(math.Mod(x, hi-lo))
}
