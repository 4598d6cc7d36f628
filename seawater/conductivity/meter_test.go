package conductivity

import (
	"math"
	"math/rand"
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// standard is salinity 35 on the practical scale.
var standard = units.Absolute(35.16504)

var (
	twoPercent = Compensation{Scheme: Linear, Reference: units.Celsius(25), PerKelvin: units.Percent(2)}
	natural    = Compensation{Scheme: NaturalWater, Reference: units.Celsius(25)}
	bySeawater = Compensation{Scheme: Seawater, Reference: units.Celsius(25)}

	handheld = TDSMeter{Meter: Meter{Compensation: twoPercent}, Scale: 0.5}
	tableppt = SaltMeter{Meter: Meter{Compensation: twoPercent, CellOffset: units.Share(0.01)}, Solution: SodiumChloride}
)

func meters() []Meter {
	var all []Meter
	for _, k := range []Compensation{
		{}, twoPercent, natural, bySeawater,
		{Scheme: Linear, Reference: units.Celsius(20), PerKelvin: units.Percent(1.91)},
		{Scheme: NaturalWater, Reference: units.Celsius(20)},
		{Scheme: Seawater, Reference: units.Celsius(20)},
	} {
		all = append(all, Meter{Compensation: k}, Meter{k, units.Share(0.03), 0.4}, Meter{k, units.Share(-0.02), -0.3})
	}
	return all
}

func TestRawMeterShowsPSS78(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/pss78.csv") {
		if row["kind"] != "seawater" {
			continue
		}
		at := units.Celsius(row.Float(t, "T_degC"))
		c, err := Meter{}.Reading(standard, at)
		require.NoError(t, err)
		checks.Relative(t, "salinity 35 at "+at.String(), float64(c), row.Float(t, "mS_per_cm"), 1e-12)
	}
	// Common practice: 53.0 mS/cm at 25 °C. PSS-78 has 53.07.
	c, err := Meter{}.Reading(standard, units.Celsius(25))
	require.NoError(t, err)
	assert.InDelta(t, 53.0, float64(c), 0.1)
}

// At its reference temperature a true meter shows the conductivity whatever its
// scheme, and elsewhere what the scheme makes of it.
func TestCompensation(t *testing.T) {
	for _, m := range []Meter{{Compensation: twoPercent}, {Compensation: natural}, {Compensation: bySeawater}} {
		c, err := m.Reading(standard, units.Celsius(25))
		require.NoError(t, err)
		checks.Printed(t, "at 25 °C", float64(c), "53.07")
	}
	read := func(k Compensation) float64 {
		c, err := Meter{Compensation: k}.Reading(standard, units.Celsius(20))
		require.NoError(t, err)
		return float64(c)
	}
	// 47.918 mS/cm at 20 °C: with 2 % per kelvin over 0.9, by f25 times 1.116, by
	// PSS-78 the conductivity at 25 °C. The linear rule is 0.32 % high there.
	checks.Printed(t, "linear", read(twoPercent), "53.24")
	checks.Printed(t, "linear, too much in %", 100*(read(twoPercent)/53.07103204872762-1), "0.32")
	checks.Absolute(t, "natural", read(natural), 47.91804402846585*1.116, 0.03)
	checks.Relative(t, "seawater", read(bySeawater), 53.07103204872762, 1e-12)
}

func TestRoundTrip(t *testing.T) {
	for _, m := range meters() {
		for c := 0.5; c <= 34; c += 3.35 {
			at := units.Celsius(c)
			for _, sp := range []float64{0, 1e-3, 0.5, 1.99, 2, 10, 33, 35, 40} {
				sa := teos10.AbsoluteFromPractical(units.Practical(sp))
				r, err := m.Reading(sa, at)
				require.NoError(t, err, "%+v", m)
				back, err := m.Salinity(r, at)
				require.NoError(t, err, "%+v", m)
				assert.InDelta(t, sa.GramsPerKilogram(), back.GramsPerKilogram(), 1e-10)
				again, err := m.Reading(back, at)
				require.NoError(t, err)
				assert.InDelta(t, float64(r), float64(again), 1e-10)

				s := SalinityMeter{m.CellOffset, m.ThermometerOffset}
				p, err := s.Reading(sa, at)
				require.NoError(t, err)
				back, err = s.Salinity(p, at)
				require.NoError(t, err)
				assert.InDelta(t, sa.GramsPerKilogram(), back.GramsPerKilogram(), 1e-10)

				if m.Compensation.Scheme != Raw && m.Compensation.Reference != units.Celsius(25) {
					continue
				}
				tds := TDSMeter{Meter: m, Scale: 0.7}
				ppm, err := tds.Reading(sa, at)
				require.NoError(t, err)
				back, err = tds.Salinity(ppm, at)
				require.NoError(t, err)
				assert.InDelta(t, sa.GramsPerKilogram(), back.GramsPerKilogram(), 1e-10)

				salts := SaltMeter{Meter: m, Solution: SodiumChloride}
				content, err := salts.Reading(sa, at)
				if err != nil { // beyond 40 g/L of sodium chloride
					assert.ErrorIs(t, err, units.ErrRange)
					assert.Greater(t, sp, 35.0)
					continue
				}
				back, err = salts.Salinity(content, at)
				require.NoError(t, err)
				assert.InDelta(t, sa.GramsPerKilogram(), back.GramsPerKilogram(), 1e-10)
			}
		}
	}
}

// Any water, not only seawater, comes back.
func TestMeasuredUndoesShows(t *testing.T) {
	for _, m := range meters() {
		for _, c := range []units.Conductivity{0.01, 1, 20, 30} {
			for _, celsius := range []float64{1, 18, 25, 34} {
				r, err := m.Shows(c, units.Celsius(celsius))
				require.NoError(t, err)
				back, err := m.Measured(r, units.Celsius(celsius))
				require.NoError(t, err)
				checks.Relative(t, "conductivity", float64(back), float64(c), 1e-11)
			}
		}
	}
}

func TestCalibrated(t *testing.T) {
	at := units.Celsius(22)
	for _, m := range meters() {
		for s := KCl001Molal; s <= Seawater35; s++ {
			if s == KCl1Molal || s == KCl1Demal { // beyond the scale of seawater
				continue
			}
			truth := s.Conductivity(at)
			shown, err := m.Shows(truth*1.04, at)
			require.NoError(t, err)
			set, err := m.Calibrated(shown, truth, at)
			require.NoError(t, err)
			assert.InDelta(t, (1+m.CellOffset.Value())*1.04-1, set.CellOffset.Value(), 1e-10)
			again, err := set.Shows(truth, at)
			require.NoError(t, err)
			checks.Relative(t, "the standard", float64(again), float64(shown), 1e-10)
		}
	}
	s, err := SalinityMeter{ThermometerOffset: 0.3}.Calibrated(units.Practical(34.2), standard, at)
	require.NoError(t, err)
	p, err := s.Reading(standard, at)
	require.NoError(t, err)
	assert.InDelta(t, 34.2, p.Value(), 1e-10)
	tds, err := handheld.Calibrated(units.TDSReading(690, 0.5), KCl1413.Conductivity(at), at)
	require.NoError(t, err)
	r, err := tds.Shows(KCl1413.Conductivity(at), at)
	require.NoError(t, err)
	assert.InDelta(t, 690, r.PPM(), 1e-9)
	ppt, err := tableppt.Calibrated(34*units.GramPerLitre, Seawater35.Conductivity(at), at)
	require.NoError(t, err)
	content, err := ppt.Reading(standard, at)
	require.NoError(t, err)
	assert.InDelta(t, 34, content.GramsPerLitre(), 1e-9)

	nan := units.Conductivity(math.NaN())
	for _, bad := range [][2]units.Conductivity{{0, 1}, {-1, 1}, {nan, 1}, {1, 0}, {1, nan}, {100, 1}} {
		m, err := Meter{}.Calibrated(bad[0], bad[1], at)
		assert.ErrorIs(t, err, units.ErrInput)
		_, err = m.Shows(1, at)
		assert.ErrorIs(t, err, units.ErrInput, "what stands beside an error is refused")
	}
	_, err = SalinityMeter{}.Calibrated(units.Practical(0), standard, at)
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = SalinityMeter{}.Calibrated(units.Practical(35), units.Absolute(0), at)
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = SalinityMeter{}.Calibrated(units.Practical(35), units.Absolute(60), at)
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = handheld.Calibrated(units.TDSReading(690, 0.7), 1, at)
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = tableppt.Calibrated(-1, 1, at)
	assert.ErrorIs(t, err, units.ErrRange)
}

// A number meant in µS/cm is seldom silent: no solution has so many mS/cm, and no
// seawater.
func TestMicrosiemensForMillisiemens(t *testing.T) {
	at := units.Celsius(25)
	const hint = "1413 µS/cm are 1413 * units.MicrosiemensPerCentimetre"
	for _, c := range []units.Conductivity{1413, 4000, 53000, math.MaxFloat64} {
		for _, m := range []Meter{{}, {Compensation: twoPercent}, {Compensation: bySeawater}} {
			r, err := m.Shows(c, at)
			assert.ErrorIs(t, err, units.ErrRange)
			assert.ErrorContains(t, err, hint)
			assert.True(t, math.IsNaN(float64(r)))
			_, err = m.Measured(c, at)
			assert.ErrorContains(t, err, hint)
			_, err = m.Salinity(c, at)
			assert.ErrorContains(t, err, hint)
			_, err = m.Calibrated(50, c, at)
			assert.ErrorContains(t, err, "conductivity: ")
			assert.ErrorContains(t, err, hint)
		}
	}
	_, err := Meter{}.Salinity(413, at)
	assert.ErrorIs(t, err, units.ErrRange)
	assert.ErrorContains(t, err, hint)
	_, err = Meter{}.Measured(KCl1Demal.Conductivity(at), at)
	assert.NoError(t, err)
	_, err = Meter{}.Shows(1000, at)
	assert.NoError(t, err)
	_, err = Meter{}.Shows(1000.1, at)
	assert.ErrorIs(t, err, units.ErrRange)
	assert.NoError(t, hinted(nil))
}

// With the scheme Seawater the meter itself works out a salinity, from what its cell
// measures: a cell that reads high comes to the end of the scale before the water does.
func TestScaleEndsForTheCell(t *testing.T) {
	at := units.Celsius(25)
	end := pss78.Conductivity(units.Practical(42), at, 0)
	for _, c := range []struct {
		cell units.Fraction
		of   units.Conductivity // of the conductivity at the end of the scale
		ok   bool
	}{
		{units.Share(0), 1, true}, {units.Share(0), 1 + 1e-12, true}, {units.Share(0), 1 + 1e-8, false},
		{units.Share(0.1), 0.95, false}, {units.Share(0.1), 0.9, true}, {units.Share(-0.1), 1.05, true}, {units.Share(-0.1), 1.12, false},
	} {
		_, err := Meter{Compensation: bySeawater, CellOffset: c.cell}.Shows(end*c.of, at)
		assert.Equal(t, c.ok, err == nil, "%+v: %v", c, err)
	}
	for _, c := range []struct {
		of units.PracticalSalinity
		ok bool
	}{{units.Practical(42), true}, {units.Practical(42 * (1 + 1e-10)), true}, {units.Practical(42 * (1 + 1e-8)), false}} {
		_, err := SalinityMeter{}.Salinity(c.of, at)
		assert.Equal(t, c.ok, err == nil, "%v: %v", c.of, err)
	}
	// The sea pressure of a tank is none: PSS-78 at 10 dbar is 1e-4 lower.
	sa, err := Meter{}.Salinity(pss78.Conductivity(units.Practical(35), at, 0), at)
	require.NoError(t, err)
	assert.InDelta(t, 35, teos10.PracticalFromAbsolute(sa).Value(), 1e-10)
}

func TestCellOffset(t *testing.T) {
	f, err := CellOffset(1.05, 1)
	require.NoError(t, err)
	assert.InDelta(t, 0.05, f.Value(), 1e-15)
	// A meter told 1.05 of a cell of 1 shows 5 % too much: a cell of 0.95 of what it is
	// told too little.
	high, err := Meter{CellOffset: f}.Shows(10, units.Celsius(25))
	require.NoError(t, err)
	assert.InDelta(t, 10.5, float64(high), 1e-12)
	f, err = CellOffset(0.95, 1)
	require.NoError(t, err)
	assert.InDelta(t, -0.05, f.Value(), 1e-15)
	f, err = CellOffset(0.5, 0.4)
	require.NoError(t, err)
	assert.InDelta(t, 0.25, f.Value(), 1e-15)
	for _, bad := range [][2]float64{{0, 1}, {1, 0}, {-1, 1}, {math.NaN(), 1}, {1, math.Inf(1)}} {
		f, err := CellOffset(bad[0], bad[1])
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(f.Value()))
	}
}

// A salinity meter whose thermometer is a degree high shows 2 % too little.
func TestThermometerOffset(t *testing.T) {
	p, err := SalinityMeter{ThermometerOffset: 1}.Reading(standard, units.Celsius(25))
	require.NoError(t, err)
	assert.InDelta(t, pss78.Salinity(53.07103204872762, units.Celsius(26), 0).Value(), p.Value(), 1e-10)
	assert.InDelta(t, 34.24, p.Value(), 0.01)
}

// What the display says of purified water.
func TestHandheldInPurifiedWater(t *testing.T) {
	at := units.Celsius(25)
	r, err := handheld.Shows(PureWater(at), at)
	require.NoError(t, err)
	checks.Printed(t, "deionised", r.PPM(), "0.0275")
	r, err = handheld.Shows(AeratedWater(at), at)
	require.NoError(t, err)
	checks.Printed(t, "deionised, after standing", r.PPM(), "0.55")
	assert.InDelta(t, AeratedWater(at).MicrosiemensPerCentimetre(), r.Conductivity().MicrosiemensPerCentimetre(), 1e-12)

	least, most, err := handheld.Between(units.TDSReading(0, 0.5), 1, at)
	require.NoError(t, err)
	assert.Zero(t, float64(least))
	assert.InDelta(t, 1.0, most.MicrosiemensPerCentimetre(), 1e-12, "half a ppm at 0.5 ppm per µS/cm")
	checks.Printed(t, "residue, mg/L", float64(Residue(most, at, SodiumChloride)), "0.44")
	least, most, err = handheld.Between(units.TDSReading(3, 0.5), 1, at)
	require.NoError(t, err)
	assert.InDelta(t, 5, least.MicrosiemensPerCentimetre(), 1e-12)
	assert.InDelta(t, 7, most.MicrosiemensPerCentimetre(), 1e-12)
	for _, bad := range []float64{0, -1, math.NaN()} {
		_, most, err := handheld.Between(units.TDSReading(0, 0.5), bad, at)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(most)))
	}
	// Warm pure water shows too much at 2 % per kelvin: it rises by 5 %.
	warm, err := handheld.Meter.Shows(PureWater(units.Celsius(35)), units.Celsius(35))
	require.NoError(t, err)
	assert.Greater(t, float64(warm), float64(PureWater(at))*1.3)
}

// First-order propagation [GUM] against a Monte Carlo run (JCGM 101). The spread
// of 20000 draws is known to 0.5 %; the tolerance is five times that.
func TestEstimate(t *testing.T) {
	draws, wider := checks.Draws(20000)
	n := float64(draws)
	at := units.Celsius(22)
	for _, row := range []struct {
		name     string
		u        Uncertainty
		estimate func(Uncertainty) (units.AbsoluteSalinity, units.AbsoluteSalinity, error)
		salinity func(reading float64, t units.Temperature, thermometer units.TemperatureDifference, cell units.Fraction) (units.AbsoluteSalinity, error)
	}{
		{"raw", Uncertainty{0.1, 0.2, 0, units.Share(0.005)},
			func(u Uncertainty) (units.AbsoluteSalinity, units.AbsoluteSalinity, error) {
				return Meter{}.Estimate(50, at, u)
			},
			func(r float64, t units.Temperature, th units.TemperatureDifference, cell units.Fraction) (units.AbsoluteSalinity, error) {
				return Meter{CellOffset: cell}.Salinity(units.Conductivity(r), t)
			}},
		{"linear", Uncertainty{0.1, 0.3, 0.2, units.Share(0.005)},
			func(u Uncertainty) (units.AbsoluteSalinity, units.AbsoluteSalinity, error) {
				return Meter{Compensation: twoPercent}.Estimate(53, at, u)
			},
			func(r float64, t units.Temperature, th units.TemperatureDifference, cell units.Fraction) (units.AbsoluteSalinity, error) {
				return Meter{twoPercent, cell, th}.Salinity(units.Conductivity(r), t)
			}},
		{"salinity", Uncertainty{0.1, 0.3, 0.2, units.Share(0.005)},
			func(u Uncertainty) (units.AbsoluteSalinity, units.AbsoluteSalinity, error) {
				return SalinityMeter{}.Estimate(units.Practical(35), at, u)
			},
			func(r float64, t units.Temperature, th units.TemperatureDifference, cell units.Fraction) (units.AbsoluteSalinity, error) {
				return SalinityMeter{cell, th}.Salinity(units.Practical(r), t)
			}},
		{"tds", Uncertainty{100, 0.3, 0.2, units.Share(0.005)},
			func(u Uncertainty) (units.AbsoluteSalinity, units.AbsoluteSalinity, error) {
				return handheld.Estimate(units.TDSReading(26000, 0.5), at, u)
			},
			func(r float64, t units.Temperature, th units.TemperatureDifference, cell units.Fraction) (units.AbsoluteSalinity, error) {
				return TDSMeter{Meter{twoPercent, cell, th}, 0.5}.Salinity(units.TDSReading(r, 0.5), t)
			}},
		{"salt", Uncertainty{100, 0.3, 0.2, units.Share(0.005)},
			func(u Uncertainty) (units.AbsoluteSalinity, units.AbsoluteSalinity, error) {
				return tableppt.Estimate(33*units.GramPerLitre, at, u)
			},
			func(r float64, t units.Temperature, th units.TemperatureDifference, cell units.Fraction) (units.AbsoluteSalinity, error) {
				return SaltMeter{tableppt.Meter.moved(th, cell), SodiumChloride}.Salinity(units.MassPerLitre(r), t)
			}},
	} {
		random := rand.New(rand.NewSource(1))
		sa, got, err := row.estimate(row.u)
		require.NoError(t, err, row.name)
		reading := map[string]float64{"raw": 50, "linear": 53, "salinity": 35, "tds": 26000, "salt": 33000}[row.name]
		sum, square := 0.0, 0.0
		for range draws {
			s, err := row.salinity(reading+row.u.Reading*random.NormFloat64(),
				at.Add(row.u.Temperature*units.TemperatureDifference(random.NormFloat64())),
				row.u.Thermometer*units.TemperatureDifference(random.NormFloat64()),
				units.Share(row.u.Cell.Value()*random.NormFloat64()))
			require.NoError(t, err, row.name)
			d := s.GramsPerKilogram() - sa.GramsPerKilogram()
			sum += d
			square += d * d
		}
		spread := math.Sqrt(square/n - sum*sum/n/n)
		checks.Relative(t, row.name, got.GramsPerKilogram(), spread, 0.025*wider)
		_, none, err := row.estimate(Uncertainty{})
		require.NoError(t, err)
		assert.Zero(t, none.GramsPerKilogram())
		for _, bad := range []Uncertainty{{Reading: -1}, {Temperature: -1}, {Thermometer: -1}, {Cell: units.Share(-1)}, {Cell: units.Share(math.NaN())}} {
			sa, none, err := row.estimate(bad)
			assert.ErrorIs(t, err, units.ErrInput)
			assert.True(t, math.IsNaN(sa.GramsPerKilogram()))
			assert.True(t, math.IsNaN(none.GramsPerKilogram()))
		}
	}
	// A reading of zero has an upper side only.
	sa, u, err := Meter{}.Estimate(0, at, Uncertainty{Reading: 0.1})
	require.NoError(t, err)
	assert.Zero(t, sa.GramsPerKilogram())
	assert.InDelta(t, plainSalinity(0.1, at), u.GramsPerKilogram(), 1e-12)
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	at := units.Celsius(25)
	refused := func(kind, err error, sa units.AbsoluteSalinity) {
		t.Helper()
		assert.ErrorIs(t, err, kind)
		assert.True(t, math.IsNaN(sa.GramsPerKilogram()))
	}
	for _, m := range []Meter{
		{Compensation: Compensation{Scheme: 4, Reference: at}},
		{Compensation: Compensation{Scheme: Linear, Reference: at}},
		{Compensation: Compensation{Scheme: Linear, Reference: at, PerKelvin: units.Share(2)}}, // 200 %: a percent sign forgotten
		{Compensation: Compensation{Scheme: Seawater, Reference: at, PerKelvin: units.Share(0.02)}},
		{Compensation: Compensation{Reference: at}},
		{CellOffset: units.Share(-1)}, {CellOffset: units.Share(nan)}, {CellOffset: units.Share(10)}, {ThermometerOffset: units.TemperatureDifference(inf)},
	} {
		sa, err := m.Salinity(53, at)
		refused(units.ErrInput, err, sa)
		r, err := m.Reading(standard, at)
		refused(units.ErrInput, err, units.Absolute(float64(r)))
	}
	for _, k := range []Compensation{
		{Scheme: Linear, PerKelvin: units.Share(0.02)}, {Scheme: NaturalWater}, {Scheme: Seawater}, // 0 °C for want of a reference
		{Scheme: Linear, Reference: units.Celsius(77), PerKelvin: units.Share(0.02)}, {Scheme: Seawater, Reference: units.Celsius(nan)},
	} {
		sa, err := Meter{Compensation: k}.Salinity(53, at)
		refused(units.ErrRange, err, sa)
	}
	for _, bad := range []float64{-2.001, 40.001, nan, inf} {
		for _, m := range meters() {
			sa, err := m.Salinity(53, units.Celsius(bad))
			refused(units.ErrRange, err, sa)
			r, err := m.Shows(53, units.Celsius(bad))
			refused(units.ErrRange, err, units.Absolute(float64(r)))
		}
		sa, err := SalinityMeter{}.Salinity(units.Practical(35), units.Celsius(bad))
		refused(units.ErrRange, err, sa)
	}
	for _, m := range []Meter{{Compensation: natural}, {Compensation: bySeawater}} {
		_, err := m.Shows(1, units.Celsius(36))
		assert.ErrorIs(t, err, units.ErrRange)
	}
	_, err := Meter{Compensation: Compensation{Scheme: Linear, Reference: at, PerKelvin: units.Share(0.05)}}.Shows(1, units.Celsius(4))
	assert.ErrorIs(t, err, units.ErrInput, "5 % over 21 K leaves nothing")
	for _, bad := range []float64{-1e-9, nan, inf, -inf} {
		for _, m := range meters() {
			sa, err := m.Salinity(units.Conductivity(bad), at)
			refused(units.ErrInput, err, sa)
			r, err := m.Shows(units.Conductivity(bad), at)
			refused(units.ErrInput, err, units.Absolute(float64(r)))
		}
		sa, err := SalinityMeter{}.Salinity(units.Practical(bad), at)
		refused(units.ErrInput, err, sa)
		sa, err = handheld.Salinity(units.TDSReading(bad, 0.5), at)
		refused(units.ErrInput, err, sa)
		sa, err = tableppt.Salinity(units.MassPerLitre(bad), at)
		refused(units.ErrRange, err, sa)
	}
	for _, bad := range []units.Conductivity{65, 100, 1e300} { // salinity 42 is 62.2 mS/cm at 25 °C
		for _, m := range meters() {
			sa, err := m.Salinity(bad, at)
			if err == nil { // a reading of 65 in a cell that reads 3 % high
				assert.LessOrEqual(t, teos10.PracticalFromAbsolute(sa).Value(), 42.0)
				continue
			}
			assert.True(t, math.IsNaN(sa.GramsPerKilogram()))
		}
		sa, err := Meter{}.Salinity(bad, at)
		refused(units.ErrRange, err, sa)
		r, err := Meter{Compensation: bySeawater}.Shows(bad, at)
		refused(units.ErrRange, err, units.Absolute(float64(r)))
	}
	r, err := Meter{CellOffset: units.Share(9)}.Shows(math.MaxFloat64, at)
	refused(units.ErrRange, err, units.Absolute(float64(r)))
	r, err = Meter{}.Reading(units.Absolute(60), at)
	refused(units.ErrRange, err, units.Absolute(float64(r)))
	sa, err := SalinityMeter{}.Salinity(units.Practical(42.1), at)
	refused(units.ErrRange, err, sa)
	p, err := SalinityMeter{}.Reading(units.Absolute(60), at)
	refused(units.ErrRange, err, units.Absolute(p.Value()))
	p, err = SalinityMeter{ThermometerOffset: 20}.Reading(standard, at)
	refused(units.ErrRange, err, units.Absolute(p.Value()))
	p, err = SalinityMeter{CellOffset: units.Share(-2)}.Reading(standard, at)
	refused(units.ErrInput, err, units.Absolute(p.Value()))

	for _, m := range []TDSMeter{
		{}, {Meter: Meter{Compensation: twoPercent}}, {Scale: -0.5}, {Scale: units.TDSScale(nan)}, {Scale: 500},
		{Scale: 0.5, Meter: Meter{Compensation: Compensation{Scheme: Linear, Reference: units.Celsius(20), PerKelvin: units.Share(0.02)}}},
	} {
		sa, err := m.Salinity(units.TDSReading(20000, m.Scale), at)
		refused(units.ErrInput, err, sa)
		r, err := m.Shows(1, at)
		refused(units.ErrInput, err, units.Absolute(r.PPM()))
		sa, _, err = m.Estimate(units.TDSReading(20000, m.Scale), at, Uncertainty{})
		refused(units.ErrInput, err, sa)
	}
	sa, err = handheld.Salinity(units.TDSReading(20000, 0.7), at)
	refused(units.ErrInput, err, sa)
	ppm, err := handheld.Reading(units.Absolute(60), at)
	refused(units.ErrRange, err, units.Absolute(ppm.PPM()))
	for _, m := range []SaltMeter{{}, {Solution: 9}, {Solution: SodiumChloride, Meter: Meter{Compensation: Compensation{Scheme: NaturalWater, Reference: units.Celsius(20)}}}} {
		sa, err := m.Salinity(20000, at)
		refused(units.ErrInput, err, sa)
		r, err := m.Shows(1, at)
		refused(units.ErrInput, err, units.Absolute(float64(r)))
		sa, _, err = m.Estimate(20000, at, Uncertainty{})
		refused(units.ErrInput, err, sa)
	}
	sa, err = tableppt.Salinity(40.1*units.GramPerLitre, at)
	refused(units.ErrRange, err, sa)
	c, err := SaltMeter{Solution: SulfateBicarbonateChloride}.Reading(standard, at)
	refused(units.ErrRange, err, units.Absolute(float64(c)))
	c, err = tableppt.Reading(units.Absolute(-1), at)
	refused(units.ErrRange, err, units.Absolute(float64(c)))
}

func TestNoAllocations(t *testing.T) {
	at := units.Celsius(22)
	for _, m := range []Meter{{}, {Compensation: twoPercent}, {Compensation: natural}, {Compensation: bySeawater}} {
		checks.NoAllocations(t, "Meter.Reading", func() { sinkC, _ = m.Reading(standard, at) })
		checks.NoAllocations(t, "Meter.Salinity", func() { sinkS, _ = m.Salinity(50, at) })
		checks.NoAllocations(t, "Meter.Estimate", func() { sinkS, _, _ = m.Estimate(50, at, Uncertainty{Reading: 0.1}) })
	}
	reading := units.TDSReading(26000, 0.5)
	checks.NoAllocations(t, "SalinityMeter.Reading", func() { _, _ = SalinityMeter{}.Reading(standard, at) })
	checks.NoAllocations(t, "SalinityMeter.Salinity", func() { sinkS, _ = SalinityMeter{}.Salinity(units.Practical(35), at) })
	checks.NoAllocations(t, "TDSMeter.Reading", func() { _, _ = handheld.Reading(standard, at) })
	checks.NoAllocations(t, "TDSMeter.Salinity", func() { sinkS, _ = handheld.Salinity(reading, at) })
	checks.NoAllocations(t, "SaltMeter.Reading", func() { _, _ = tableppt.Reading(standard, at) })
	checks.NoAllocations(t, "SaltMeter.Salinity", func() { sinkS, _ = tableppt.Salinity(33000, at) })
	checks.NoAllocations(t, "Standard", func() { sinkC = KCl01Demal.Conductivity(at) })
	checks.NoAllocations(t, "PureWater", func() { sinkC = PureWater(at) })
	checks.NoAllocations(t, "Residue", func() { _ = Residue(0.002, at, SodiumChloride) })
}

// FuzzMeter: whatever comes in, an answer comes out: a salinity of the scale that
// reads the same again, or an error beside NaN.
func FuzzMeter(f *testing.F) {
	f.Add(uint8(1), 25., 0.02, 0., 0., 53., 22.)
	f.Add(uint8(3), 20., 0., 0.1, -0.5, 40., 18.)
	f.Add(uint8(2), 25., 0., -0.5, 2., 1e-3, 35.)
	f.Add(uint8(0), 0., 0., 0., 0., 0., -2.)
	f.Add(uint8(9), math.NaN(), math.Inf(1), 1e300, -1e300, math.MaxFloat64, math.NaN())
	f.Fuzz(func(t *testing.T, scheme uint8, reference, slope, cell, thermometer, reading, celsius float64) {
		m := Meter{Compensation{Scheme(scheme), units.Celsius(reference), units.Share(slope)}, units.Share(cell), units.TemperatureDifference(thermometer)}
		at := units.Celsius(celsius)
		sa, err := m.Salinity(units.Conductivity(reading), at)
		if s := sa.GramsPerKilogram(); err != nil != math.IsNaN(s) || s < 0 || s > 42.2 {
			t.Errorf("%+v shows %v at %v: %v, %v", m, reading, celsius, s, err)
		}
		if err == nil {
			s := units.Absolute(math.Min(sa.GramsPerKilogram(), 42.198))
			if again, err := m.Reading(s, at); err == nil && s == sa && sa.GramsPerKilogram() > 0 && !(math.Abs(float64(again)-reading) <= 1e-9*(1+reading)) {
				t.Errorf("%+v at %v: %v became %v", m, celsius, reading, again)
			}
		}
		tds := TDSMeter{m, units.TDSScale(slope)}
		if ppm, err := tds.Shows(units.Conductivity(reading), at); err != nil != math.IsNaN(ppm.PPM()) {
			t.Errorf("%+v: %v, %v", tds, ppm, err)
		}
		salts := SaltMeter{m, Solution(scheme)}
		if content, err := salts.Shows(units.Conductivity(reading), at); err != nil != math.IsNaN(float64(content)) {
			t.Errorf("%+v: %v, %v", salts, content, err)
		}
	})
}

// What each meter shows in seawater comes back, an estimate is finite, and beside an
// error stands nothing.
func FuzzEstimates(f *testing.F) {
	f.Add(uint8(1), 25., 0.02, 0., 0., 35., 22., 0.1, 0.1, 0.1, 0.01)
	f.Add(uint8(3), 20., 0., 0.1, -0.5, 0., 18., 0., 0., 0., 0.)
	f.Add(uint8(0), 0., 0., -0.5, 2., 42., 34., 1e308, 1e308, 1e308, 1e308)
	f.Add(uint8(2), 25., 0., 9., 0., 1e-300, 0., 5e-324, 1e155, 1., 1.)
	f.Fuzz(func(t *testing.T, scheme uint8, reference, slope, cell, thermometer, salinity, celsius, ur, ut, uth, uc float64) {
		m := Meter{Compensation{Scheme: Scheme(scheme), PerKelvin: units.Share(slope)}, units.Share(cell), units.TemperatureDifference(thermometer)}
		if reference != 0 {
			m.Compensation.Reference = units.Celsius(reference)
		}
		sa, at := units.Absolute(salinity), units.Celsius(celsius)
		u := Uncertainty{ur, units.TemperatureDifference(ut), units.TemperatureDifference(uth), units.Share(uc)}
		check := func(what string, s, w units.AbsoluteSalinity, err error) {
			t.Helper()
			if err != nil {
				assert.True(t, math.IsNaN(s.GramsPerKilogram()) && math.IsNaN(w.GramsPerKilogram()), "%s: %v ± %v beside %v", what, s, w, err)
				return
			}
			assert.InDelta(t, salinity, s.GramsPerKilogram(), 3e-4, what) // below salinity 0.0003 PSS-78 is flat
			assert.True(t, w.GramsPerKilogram() >= 0 && !math.IsInf(w.GramsPerKilogram(), 0), "%s: %v", what, w)
		}
		if r, err := m.Reading(sa, at); err == nil {
			s, w, err := m.Estimate(r, at, u)
			check("meter", s, w, err)
		} else {
			assert.True(t, math.IsNaN(float64(r)))
		}
		tds := TDSMeter{m, 0.5}
		if r, err := tds.Reading(sa, at); err == nil {
			s, w, err := tds.Estimate(r, at, u)
			check("tds", s, w, err)
			least, most, err := tds.Between(r, 1, at)
			assert.Equal(t, err != nil, math.IsNaN(float64(least)) && math.IsNaN(float64(most)))
			assert.False(t, least > most)
		} else {
			assert.True(t, math.IsNaN(r.PPM()))
		}
		salts := SaltMeter{m, SodiumChloride}
		if r, err := salts.Reading(sa, at); err == nil {
			s, w, err := salts.Estimate(r, at, u)
			check("salt", s, w, err)
		} else {
			assert.True(t, math.IsNaN(float64(r)))
		}
		psu := SalinityMeter{m.CellOffset, m.ThermometerOffset}
		if r, err := psu.Reading(sa, at); err == nil {
			s, w, err := psu.Estimate(r, at, u)
			check("salinity", s, w, err)
		} else {
			assert.True(t, math.IsNaN(r.Value()))
		}
	})
}
