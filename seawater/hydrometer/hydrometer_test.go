package hydrometer

import (
	"errors"
	"math"
	"math/rand"
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	glassSG25    = Hydrometer{Pair: units.SG25C(), Expansion: Glass}
	swingSG25    = Hydrometer{Pair: units.SG25C(), Expansion: Acrylic}
	glass60F     = Hydrometer{Pair: units.SG60F(), Expansion: Glass, Offset: -0.0012}
	laboratory15 = DensityHydrometer{Reference: units.Celsius(15), Expansion: Glass, Offset: 0.2}
	tube         = Densitometer{Offset: 0.05}
)

// standard is salinity 35 on the practical scale.
var standard = units.Absolute(35.16504)

func TestWaterDensity(t *testing.T) {
	const lastBits = 1e-15
	for _, row := range checks.Table(t, "testdata/water_density.csv") {
		got := float64(WaterDensity(units.Celsius(row.Float(t, "T_degC"))))
		if row["origin"] == "published" {
			checks.Printed(t, "water at "+row["T_degC"]+" °C [T01]", got, row["value"])
		} else {
			checks.Relative(t, "water at "+row["T_degC"]+" °C [T01]", got, row.Float(t, "value"), lastBits)
		}
	}
}

// The two standards of pure water, of metrology and of oceanography, agree to
// 0.0011 kg/m³ (1.1 parts in a million), least well at 40 °C.
func TestWaterDensityAgainstIAPWS(t *testing.T) {
	worst := 0.0
	for c := 0.0; c <= 40; c += 0.25 {
		d := math.Abs(float64(WaterDensity(units.Celsius(c)) - pureWater(units.Celsius(c))))
		worst = math.Max(worst, d)
	}
	assert.Less(t, worst, 0.0012)
	t.Logf("largest difference %.5f kg/m³", worst)
}

// Water is heaviest at 3.983035 °C: a1 is minus that temperature [T01].
func TestWaterIsHeaviestAtFourDegrees(t *testing.T) {
	top := float64(WaterDensity(units.Celsius(3.983035)))
	for _, d := range []float64{0.01, 0.1, 1, 3} {
		assert.Less(t, float64(WaterDensity(units.Celsius(3.983035-d))), top)
		assert.Less(t, float64(WaterDensity(units.Celsius(3.983035+d))), top)
	}
	checks.Printed(t, "a5", top, "999.97495")
}

func TestSpecificGravityTable(t *testing.T) {
	worst := 0.0
	for _, row := range checks.Table(t, "testdata/specific_gravity.csv") {
		sa, want := units.Absolute(row.Float(t, "SA")), row.Float(t, "value")
		pair := units.GravityPair{Liquid: units.Celsius(row.Float(t, "liquid")), Water: units.Celsius(row.Float(t, "water_at"))}
		got := Gravity(sa, pair).Ratio()
		if row["water"] == "Tanaka" {
			got = float64(teos10.DensityExact(sa, pair.Liquid, 0) / WaterDensity(pair.Water))
		}
		// IAPWS-95 and the IAPWS-09 used here differ by 3e-7 in density at most.
		worst = math.Max(worst, math.Abs(got-want))
		checks.Absolute(t, "SG "+pair.String()+" of "+row["SA"]+" g/kg", got, want, 3e-7)
		checks.Absolute(t, "and back", Salinity(units.Gravity(Gravity(sa, pair).Ratio(), pair)).GramsPerKilogram(), row.Float(t, "SA"), 1e-10)
	}
	t.Logf("largest difference %.2g", worst)
}

// Common practice: salinity 35 is 1.0264 to 1.0266 at 25/25 °C, and pure water is
// 1 for every pair of equal temperatures.
func TestCommonPractice(t *testing.T) {
	sg := Gravity(standard, units.SG25C()).Ratio()
	assert.True(t, sg >= 1.02635 && sg <= 1.0266, "%v", sg)
	for _, pair := range []units.GravityPair{units.SG20C(), units.SG25C(), units.SG60F()} {
		assert.Equal(t, 1.0, Gravity(units.Absolute(0), pair).Ratio())
		assert.Zero(t, Salinity(units.Gravity(1, pair)).GramsPerKilogram())
	}
	for pair, want := range map[units.GravityPair]string{ // salinity 35, as printed in tables of hydrometers
		units.SG60F(): "1.02686", units.SG20C(): "1.02661", units.SG25C(): "1.02637", units.SG20C4C(): "1.02479",
	} {
		checks.Printed(t, pair.String(), Gravity(standard, pair).Ratio(), want)
	}
}

// At the temperatures of its pair a hydrometer shows the specific gravity.
func TestReadingAtThePair(t *testing.T) {
	for _, h := range []Hydrometer{glassSG25, swingSG25, {Pair: units.SG20C4C(), Expansion: Glass}, {Pair: units.SG60F(), Expansion: Acrylic}} {
		r, err := h.Reading(standard, h.Pair.Liquid)
		require.NoError(t, err)
		assert.InDelta(t, Gravity(standard, h.Pair).Ratio(), r, 1e-15)
	}
}

// The correction, computed by hand for a glass float of 25/25 °C in salinity 35 at
// 20 °C: the liquid contributes +0.00143 and the glass -0.00013 to 1.02637.
func TestReadingElsewhere(t *testing.T) {
	r, err := glassSG25.Reading(standard, units.Celsius(20))
	require.NoError(t, err)
	checks.Printed(t, "glass 25/25 °C at 20 °C", r, "1.02767")
	stiff := Hydrometer{Pair: units.SG25C(), Expansion: 1e-12}
	liquid, err := stiff.Reading(standard, units.Celsius(20))
	require.NoError(t, err)
	checks.Printed(t, "by the liquid", liquid-Gravity(standard, units.SG25C()).Ratio(), "0.00143")
	checks.Printed(t, "by the glass", r-liquid, "-0.00013")
	// A swing arm of plastic moves a fifth as much.
	s, err := swingSG25.Reading(standard, units.Celsius(20))
	require.NoError(t, err)
	assert.InDelta(t, 1.02637, s, 0.0003)
}

func TestRoundTrip(t *testing.T) {
	for c := -2.0; c <= 40; c += checks.Step(1.5, 6) {
		temperature := units.Celsius(c)
		for s := 0.0; s <= 120; s += 1.5 {
			sa := units.Absolute(s)
			for _, h := range []Hydrometer{glassSG25, swingSG25, glass60F} {
				r, err := h.Reading(sa, temperature)
				require.NoError(t, err)
				back, err := h.Salinity(r, temperature)
				require.NoError(t, err)
				assert.InDelta(t, s, back.GramsPerKilogram(), 1e-9)
				again, err := h.Reading(units.Absolute(math.Min(back.GramsPerKilogram(), saltiest)), temperature)
				require.NoError(t, err)
				assert.InDelta(t, r, again, 1e-13)
			}
			r, err := laboratory15.Reading(sa, temperature)
			require.NoError(t, err)
			back, err := laboratory15.Salinity(r, temperature)
			require.NoError(t, err)
			assert.InDelta(t, s, back.GramsPerKilogram(), 1e-9)
			r, err = tube.Reading(sa, temperature)
			require.NoError(t, err)
			back, err = tube.Salinity(r, temperature)
			require.NoError(t, err)
			assert.InDelta(t, s, back.GramsPerKilogram(), 1e-9)
		}
	}
}

func TestReadingRisesWithSalinity(t *testing.T) {
	for c := -2.0; c <= 40; c += 3 {
		last := 0.0
		for s := 0.0; s <= 120; s += 0.5 {
			r, err := glassSG25.Reading(units.Absolute(s), units.Celsius(c))
			require.NoError(t, err)
			assert.Greater(t, r, last)
			last = r
		}
	}
}

// Calibrated in water of known salinity, an instrument that shows too much is put
// right everywhere.
func TestCalibrated(t *testing.T) {
	h, err := glassSG25.Calibrated(1.0290, standard, units.Celsius(22))
	require.NoError(t, err)
	r, err := h.Reading(standard, units.Celsius(22))
	require.NoError(t, err)
	assert.InDelta(t, 1.0290, r, 1e-15)
	straight, err := glassSG25.Reading(standard, units.Celsius(26))
	require.NoError(t, err)
	bent, err := h.Reading(standard, units.Celsius(26))
	require.NoError(t, err)
	assert.InDelta(t, float64(h.Offset), bent-straight, 1e-15)
	h2, err := h.Calibrated(1.0290, standard, units.Celsius(22))
	require.NoError(t, err)
	assert.Equal(t, h, h2, "the old offset is forgotten")

	d, err := DensityHydrometer{Reference: units.Celsius(20), Expansion: Glass}.Calibrated(1025, standard, units.Celsius(25))
	require.NoError(t, err)
	assert.InDelta(t, 1025-1023.343*(1+5*25e-6), float64(d.Offset), 1e-3)
	tb, err := tube.Calibrated(997.05, units.Absolute(0), units.Celsius(25))
	require.NoError(t, err)
	assert.InDelta(t, 997.05-997.0470, float64(tb.Offset), 0.0012, "as far as the standards of pure water agree")

	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		h, err := glassSG25.Calibrated(bad, standard, units.Celsius(22))
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(h.Offset)))
		_, err = h.Reading(standard, units.Celsius(25))
		assert.ErrorIs(t, err, units.ErrInput, "what stands beside an error is refused")
		d, err := laboratory15.Calibrated(units.Density(bad), standard, units.Celsius(22))
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(d.Offset)))
		tb, err := tube.Calibrated(units.Density(bad), standard, units.Celsius(22))
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(tb.Offset)))
	}
	_, err = glassSG25.Calibrated(1.026, units.Absolute(-1), units.Celsius(25))
	assert.ErrorIs(t, err, units.ErrRange)
	unusable, err := Hydrometer{}.Calibrated(1.026, standard, units.Celsius(25))
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(float64(unusable.Offset)), "an offset of zero would pass for a true instrument")
	none, err := DensityHydrometer{}.Calibrated(1026, standard, units.Celsius(25))
	assert.ErrorIs(t, err, units.ErrInput)
	assert.True(t, math.IsNaN(float64(none.Offset)))
}

// First-order propagation [GUM] against a Monte Carlo run (JCGM 101). The spread
// of 20000 draws is known to 0.5 %; the tolerance is five times that.
func TestEstimate(t *testing.T) {
	draws, wider := checks.Draws(20000)
	n := float64(draws)
	u := Uncertainty{Reading: 0.0003, Temperature: 0.5, Expansion: 5e-6}
	lab := Uncertainty{Reading: 0.2, Temperature: 0.3, Expansion: 2e-6}
	oscillating := Uncertainty{Reading: 0.01, Temperature: 0.05}
	for _, row := range []struct {
		name     string
		celsius  float64
		u        Uncertainty
		reading  func(units.AbsoluteSalinity, units.Temperature) (float64, error)
		estimate func(float64, units.Temperature, Uncertainty) (units.AbsoluteSalinity, units.AbsoluteSalinity, error)
		salinity func(reading, celsius, expansion float64) (units.AbsoluteSalinity, error)
	}{
		{"glass", 20, u, glassSG25.Reading, glassSG25.Estimate, func(r, c, e float64) (units.AbsoluteSalinity, error) {
			return Hydrometer{Pair: units.SG25C(), Expansion: Glass + Expansion(e)}.Salinity(r, units.Celsius(c))
		}},
		{"swing arm", 28, u, swingSG25.Reading, swingSG25.Estimate, func(r, c, e float64) (units.AbsoluteSalinity, error) {
			return Hydrometer{Pair: units.SG25C(), Expansion: Acrylic + Expansion(e)}.Salinity(r, units.Celsius(c))
		}},
		{"density", 25, lab,
			func(sa units.AbsoluteSalinity, c units.Temperature) (float64, error) {
				r, err := laboratory15.Reading(sa, c)
				return float64(r), err
			},
			func(r float64, c units.Temperature, u Uncertainty) (units.AbsoluteSalinity, units.AbsoluteSalinity, error) {
				return laboratory15.Estimate(units.Density(r), c, u)
			},
			func(r, c, e float64) (units.AbsoluteSalinity, error) {
				h := laboratory15
				h.Expansion += Expansion(e)
				return h.Salinity(units.Density(r), units.Celsius(c))
			}},
		{"densitometer", 25, oscillating,
			func(sa units.AbsoluteSalinity, c units.Temperature) (float64, error) {
				r, err := tube.Reading(sa, c)
				return float64(r), err
			},
			func(r float64, c units.Temperature, u Uncertainty) (units.AbsoluteSalinity, units.AbsoluteSalinity, error) {
				return tube.Estimate(units.Density(r), c, u)
			},
			func(r, c, _ float64) (units.AbsoluteSalinity, error) {
				return tube.Salinity(units.Density(r), units.Celsius(c))
			}},
	} {
		random := rand.New(rand.NewSource(1))
		r, err := row.reading(standard, units.Celsius(row.celsius))
		require.NoError(t, err)
		sa, got, err := row.estimate(r, units.Celsius(row.celsius), row.u)
		require.NoError(t, err)
		assert.InDelta(t, standard.GramsPerKilogram(), sa.GramsPerKilogram(), 1e-9)
		sum, square := 0.0, 0.0
		for range draws {
			s, err := row.salinity(r+row.u.Reading*random.NormFloat64(),
				row.celsius+float64(row.u.Temperature)*random.NormFloat64(),
				float64(row.u.Expansion)*random.NormFloat64())
			require.NoError(t, err)
			d := s.GramsPerKilogram() - standard.GramsPerKilogram()
			sum += d
			square += d * d
		}
		spread := math.Sqrt(square/n - sum*sum/n/n)
		checks.Relative(t, row.name, got.GramsPerKilogram(), spread, 0.025*wider)
		_, none, err := row.estimate(r, units.Celsius(row.celsius), Uncertainty{})
		require.NoError(t, err)
		assert.Zero(t, none.GramsPerKilogram())
	}
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	at := units.Celsius(25)
	refused := func(kind, err error, sa units.AbsoluteSalinity) {
		t.Helper()
		assert.ErrorIs(t, err, kind)
		assert.True(t, math.IsNaN(sa.GramsPerKilogram()))
	}
	for _, h := range []Hydrometer{
		{}, {Pair: units.SG25C()}, {Expansion: Glass},
		{Pair: units.SG25C(), Expansion: -Glass}, {Pair: units.SG25C(), Expansion: Expansion(nan)}, {Pair: units.SG25C(), Expansion: 0.25},
		{Pair: units.SG25C(), Expansion: Glass, Offset: units.Scalar(nan)}, {Pair: units.SG25C(), Expansion: Glass, Offset: units.Scalar(inf)},
		{Pair: units.SG25C(), Expansion: Glass, Offset: 1e300},
	} {
		sa, err := h.Salinity(float64(1.026+h.Offset), at)
		refused(units.ErrInput, err, sa)
		sa, u, err := h.Estimate(float64(1.026+h.Offset), at, Uncertainty{})
		refused(units.ErrInput, err, sa)
		assert.True(t, math.IsNaN(u.GramsPerKilogram()))
		if h.Offset != 1e300 { // whose reading is finite, if useless
			r, err := h.Reading(standard, at)
			refused(units.ErrInput, err, units.Absolute(r))
		}
	}
	for _, pair := range []units.GravityPair{
		{Liquid: units.Celsius(77), Water: units.Celsius(77)}, // °F taken for °C
		{Liquid: units.Celsius(25), Water: units.Celsius(nan)},
		{Liquid: units.Celsius(-3), Water: units.Celsius(4)},
	} {
		sa, err := Hydrometer{Pair: pair, Expansion: Glass}.Salinity(1.026, at)
		refused(units.ErrRange, err, sa)
	}
	for _, h := range []DensityHydrometer{
		{}, {Reference: units.Celsius(20)}, {Expansion: Glass}, {Reference: units.Celsius(20), Expansion: Glass, Offset: units.Density(nan)},
	} {
		sa, err := h.Salinity(1024, at)
		refused(units.ErrInput, err, sa)
		r, err := h.Reading(standard, at)
		refused(units.ErrInput, err, units.Absolute(float64(r)))
		sa, _, err = h.Estimate(1024, at, Uncertainty{})
		refused(units.ErrInput, err, sa)
	}
	sa, err := DensityHydrometer{Reference: units.Celsius(68), Expansion: Glass}.Salinity(1024, at)
	refused(units.ErrRange, err, sa)
	broken := Densitometer{Offset: units.Density(inf)}
	sa, err = broken.Salinity(1024, at)
	refused(units.ErrInput, err, sa)
	r, err := broken.Reading(standard, at)
	refused(units.ErrInput, err, units.Absolute(float64(r)))
	sa, _, err = tube.Estimate(1024, at, Uncertainty{Expansion: Glass})
	refused(units.ErrInput, err, sa)

	for _, bad := range []float64{-2.001, 40.001, nan, inf, -inf} {
		sa, err := glassSG25.Salinity(1.026, units.Celsius(bad))
		refused(units.ErrRange, err, sa)
		r, err := glassSG25.Reading(standard, units.Celsius(bad))
		refused(units.ErrRange, err, units.Absolute(r))
	}
	for _, bad := range []float64{-0.001, 120.001, nan, inf} {
		r, err := glassSG25.Reading(units.Absolute(bad), at)
		refused(units.ErrRange, err, units.Absolute(r))
	}
	for _, bad := range []float64{0.9999, 0, -1, 1.1, 26, 1e300, nan, inf, -inf} {
		sa, err := glassSG25.Salinity(bad, at)
		refused(units.ErrRange, err, sa)
	}
	for _, bad := range []Uncertainty{{Reading: -1}, {Reading: nan}, {Temperature: -1}, {Temperature: units.TemperatureDifference(inf)}, {Expansion: -1}} {
		sa, u, err := glassSG25.Estimate(1.026, at, bad)
		refused(units.ErrInput, err, sa)
		assert.True(t, math.IsNaN(u.GramsPerKilogram()))
	}
	_, err = glassSG25.Salinity(0.998, units.Celsius(25))
	var low *units.RangeError
	require.True(t, errors.As(err, &low))
	assert.Equal(t, 0.998, float64(low.Got))
	assert.InDelta(t, 1, low.Min, 1e-15)
}

func TestFormulasOfNonsense(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, bad := range []float64{-70, nan, inf, -inf} {
		assert.True(t, math.IsNaN(float64(WaterDensity(units.Celsius(bad)))), "%v", bad)
	}
	for _, bad := range []float64{nan, inf, -inf, 0, -1, 0.9, 1e300} {
		assert.True(t, math.IsNaN(Salinity(units.Gravity(bad, units.SG25C())).GramsPerKilogram()), "%v", bad)
	}
	assert.True(t, math.IsNaN(Salinity(units.Gravity(1.026, units.GravityPair{Liquid: units.Celsius(nan), Water: units.Celsius(25)})).GramsPerKilogram()))
	for _, bad := range []float64{nan, inf, -1} {
		assert.True(t, math.IsNaN(Gravity(units.Absolute(bad), units.SG25C()).Ratio()), "%v", bad)
	}
	for _, ok := range []float64{0, 40} {
		assert.NoError(t, CheckRangeWaterDensity(units.Celsius(ok)))
	}
	for _, bad := range []float64{-0.01, 40.01, nan} {
		assert.ErrorIs(t, CheckRangeWaterDensity(units.Celsius(bad)), units.ErrRange)
	}
	assert.NoError(t, CheckRange(units.Absolute(0), units.Celsius(-2)))
	assert.NoError(t, CheckRange(units.Absolute(120), units.Celsius(40)))
	assert.ErrorIs(t, CheckRange(units.Absolute(120.01), units.Celsius(25)), units.ErrRange)
	assert.ErrorIs(t, CheckRange(units.Absolute(35), units.Celsius(40.01)), units.ErrRange)
}

func TestNoAllocations(t *testing.T) {
	at := units.Celsius(25)
	checks.NoAllocations(t, "Hydrometer.Reading", func() { sink, _ = glassSG25.Reading(standard, at) })
	checks.NoAllocations(t, "Hydrometer.Salinity", func() { sinkSalinity, _ = glassSG25.Salinity(1.026, at) })
	checks.NoAllocations(t, "Hydrometer.Estimate", func() { sinkSalinity, _, _ = glassSG25.Estimate(1.026, at, Uncertainty{Reading: 0.001}) })
	checks.NoAllocations(t, "DensityHydrometer.Salinity", func() { sinkSalinity, _ = laboratory15.Salinity(1024, at) })
	checks.NoAllocations(t, "Densitometer.Salinity", func() { sinkSalinity, _ = tube.Salinity(1024, at) })
	checks.NoAllocations(t, "WaterDensity", func() { sink = float64(WaterDensity(at)) })
	checks.NoAllocations(t, "Gravity", func() { sink = Gravity(standard, units.SG25C()).Ratio() })
	checks.NoAllocations(t, "Salinity", func() { sinkSalinity = Salinity(units.Gravity(1.026, units.SG25C())) })
}

// FuzzSalinity: whatever is read, the answer is a salinity within the range or an
// error beside NaN.
func FuzzSalinity(f *testing.F) {
	for _, seed := range [][4]float64{{1.026, 25, 25e-6, 0}, {1, 25, 2e-4, 0}, {0, 0, 0, 0}, {1e300, -2, 1e-3, 1e300}, {math.NaN(), 40, 1, -1}, {1.08, 3, 1e-9, 0.02}} {
		f.Add(seed[0], seed[1], seed[2], seed[3])
	}
	f.Fuzz(func(t *testing.T, reading, celsius, expansion, offset float64) {
		h := Hydrometer{Pair: units.SG20C(), Expansion: Expansion(expansion), Offset: units.Scalar(offset)}
		sa, err := h.Salinity(reading, units.Celsius(celsius))
		s := sa.GramsPerKilogram()
		if err != nil {
			if !math.IsNaN(s) {
				t.Errorf("%v beside %v", s, err)
			}
			return
		}
		if !(s >= 0 && s <= saltiest+1e-9) && math.Abs(offset) < 1 {
			t.Errorf("%+v shows %v at %v: salinity %v", h, reading, celsius, s)
		}
		again, err := h.Reading(units.Absolute(math.Min(s, saltiest)), units.Celsius(celsius))
		if err == nil && math.Abs(offset) < 1 && !(math.Abs(again-reading) < 1e-9) {
			t.Errorf("%+v at %v: %v became %v", h, celsius, reading, again)
		}
	})
}

// Each instrument: what it shows comes back, an estimate is finite, and beside an error
// stands nothing.
func FuzzInstruments(f *testing.F) {
	f.Add(20., 25., 25e-6, 0., 35., 25., 1e-4, 0.1, 1e-6)
	f.Add(4., 40., 2e-4, -0.02, 0., -2., 0., 0., 0.)
	f.Add(20., 20., 2e-3, 0.05, 120., 40., 1e300, 1e308, 1e308)
	f.Fuzz(func(t *testing.T, at, water, expansion, offset, salinity, celsius, ur, ut, ue float64) {
		sa, c := units.Absolute(salinity), units.Celsius(celsius)
		u := Uncertainty{ur, units.TemperatureDifference(ut), Expansion(ue)}
		h := Hydrometer{units.GravityPair{Liquid: units.Celsius(at), Water: units.Celsius(water)}, Expansion(expansion), units.Scalar(offset)}
		d := DensityHydrometer{units.Celsius(at), Expansion(expansion), units.Density(1000 * offset)}
		o := Densitometer{units.Density(1000 * offset)}
		for i, x := range []struct {
			reading  func() (float64, error)
			salinity func(float64) (units.AbsoluteSalinity, error)
			estimate func(float64) (units.AbsoluteSalinity, units.AbsoluteSalinity, error)
			again    func(float64) (float64, error) // what it shows once set by a reading
		}{
			{func() (float64, error) { return h.Reading(sa, c) },
				func(r float64) (units.AbsoluteSalinity, error) { return h.Salinity(r, c) },
				func(r float64) (units.AbsoluteSalinity, units.AbsoluteSalinity, error) { return h.Estimate(r, c, u) },
				func(r float64) (float64, error) {
					set, err := h.Calibrated(r, sa, c)
					if err != nil {
						return math.NaN(), err
					}
					return set.Reading(sa, c)
				}},
			{func() (float64, error) { r, err := d.Reading(sa, c); return float64(r), err },
				func(r float64) (units.AbsoluteSalinity, error) { return d.Salinity(units.Density(r), c) },
				func(r float64) (units.AbsoluteSalinity, units.AbsoluteSalinity, error) {
					return d.Estimate(units.Density(r), c, u)
				},
				func(r float64) (float64, error) {
					set, err := d.Calibrated(units.Density(r), sa, c)
					if err != nil {
						return math.NaN(), err
					}
					again, err := set.Reading(sa, c)
					return float64(again), err
				}},
			{func() (float64, error) { r, err := o.Reading(sa, c); return float64(r), err },
				func(r float64) (units.AbsoluteSalinity, error) { return o.Salinity(units.Density(r), c) },
				func(r float64) (units.AbsoluteSalinity, units.AbsoluteSalinity, error) {
					return o.Estimate(units.Density(r), c, Uncertainty{Reading: u.Reading, Temperature: u.Temperature})
				},
				func(r float64) (float64, error) {
					set, err := o.Calibrated(units.Density(r), sa, c)
					if err != nil {
						return math.NaN(), err
					}
					again, err := set.Reading(sa, c)
					return float64(again), err
				}},
		} {
			r, err := x.reading()
			if err != nil {
				assert.True(t, math.IsNaN(r), "%d: %v beside %v", i, r, err)
				continue
			}
			back, err := x.salinity(r)
			require.NoError(t, err, "%d", i)
			assert.InDelta(t, salinity, back.GramsPerKilogram(), 1e-8, "%d", i)
			s, width, err := x.estimate(r)
			w := width.GramsPerKilogram()
			assert.Equal(t, err != nil, math.IsNaN(s.GramsPerKilogram()), "%d", i)
			assert.Equal(t, err != nil, math.IsNaN(w), "%d", i)
			assert.False(t, w < 0 || math.IsInf(w, 0), "%d: %v", i, w)
			again, err := x.again(r)
			if err == nil { // an offset of the rounding of two
				assert.InDelta(t, r, again, 1e-9*r, "%d", i)
			}
		}
	})
}
