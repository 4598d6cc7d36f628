package electrode

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

var (
	seven = carbonate.PHNBS(7)
	ideal = Calibration[carbonate.NBSPH]{Isopotential: seven, Slope: units.Share(1)}
	worn  = Calibration[carbonate.NBSPH]{
		Isopotential: carbonate.PHNBS(7.2), Slope: units.Share(0.94), Offset: -12,
		SlopeUncertainty: units.Share(0.01), OffsetUncertainty: 0.8, Correlation: 0.4,
	}
)

// Worked checks, computed independently to all digits.
func TestWorked(t *testing.T) {
	at := units.Celsius(25)
	// Two points: pH 4.005 at 174.2 mV, 6.865 at 7.9 mV.
	c, err := Calibrate(seven, Phthalate.Point(174.2, at), Phosphate.Point(7.9, at))
	require.NoError(t, err)
	checks.Absolute(t, "efficiency", c.Slope.Percent(), 98.2885265908987, 1e-6)
	// One point in tris of salinity 35: -72.4 mV, sample -67.0 mV.
	one, err := OnePoint(carbonate.PHTotal(7), Tris(units.Practical(35)).Point(-72.4, at), units.Share(1), units.Share(0))
	require.NoError(t, err)
	ph, err := one.PH(-67, at)
	require.NoError(t, err)
	checks.Absolute(t, "sample from tris", ph.Value(), 8.002270200499947, 1e-6)
	// The isopotential point does not matter at one temperature.
	for _, iso := range []float64{4, 7, 9} {
		c, err := OnePoint(carbonate.PHTotal(iso), Tris(units.Practical(35)).Point(-72.4, at), units.Share(1), units.Share(0))
		require.NoError(t, err)
		ph, err := c.PH(-67, at)
		require.NoError(t, err)
		checks.Absolute(t, "sample from tris", ph.Value(), 8.002270200499947, 1e-11)
	}
	// Through two points, by hand: pH = pH1 + (E1 - E)(pH2 - pH1)/(E1 - E2).
	shown, err := c.PH(50, at)
	require.NoError(t, err)
	checks.Absolute(t, "between two points", shown.Value(), 4.005+(174.2-50)*(6.865-4.005)/(174.2-7.9), 1e-12)
}

func TestRoundTrip(t *testing.T) {
	for _, c := range []Calibration[carbonate.NBSPH]{ideal, worn} {
		for ph := 0.0; ph <= 14; ph += 0.5 {
			for _, celsius := range []float64{-2, 0, 20, 25, 60} {
				at := units.Celsius(celsius)
				v, err := c.Reading(carbonate.PHNBS(ph), at)
				require.NoError(t, err)
				back, err := c.PH(v, at)
				if err != nil { // 14 by rounding
					assert.True(t, ph == 0 || ph == 14)
					continue
				}
				assert.InDelta(t, ph, back.Value(), 1e-12)
			}
		}
	}
	// At the isopotential point nothing depends on the temperature.
	for _, celsius := range []float64{0, 25, 60} {
		v, err := worn.Reading(worn.Isopotential, units.Celsius(celsius))
		require.NoError(t, err)
		assert.Equal(t, worn.Offset, v)
	}
	// A stronger acid gives a higher voltage.
	low, _ := worn.Reading(carbonate.PHNBS(8), units.Celsius(25))
	high, _ := worn.Reading(carbonate.PHNBS(7.9), units.Celsius(25))
	checks.Absolute(t, "a tenth of a unit", float64(high-low), 0.1*0.94*59.159349685721516, 1e-9)
}

// An electrode read in buffers, each at a temperature of its own, is found again.
func TestCalibrateFindsTheElectrode(t *testing.T) {
	read := func(b Buffer, celsius float64) Point[carbonate.NBSPH] {
		at := units.Celsius(celsius)
		v, err := worn.Reading(b.PH(at), at)
		require.NoError(t, err)
		return b.Point(v, at)
	}
	for _, points := range [][]Point[carbonate.NBSPH]{
		{read(Bottle7, 20), read(Bottle10, 25)},
		{read(Bottle10, 22), read(Bottle4, 30)},
		{read(Bottle4, 20), read(Bottle7, 22), read(Bottle10, 24)},
		{read(Phthalate, 10), read(Phosphate, 30), read(PhysiologicalPhosphate, 20), read(Borax, 15), read(Carbonate, 25)},
	} {
		c, err := Calibrate(worn.Isopotential, points...)
		require.NoError(t, err)
		assert.InDelta(t, worn.Slope.Value(), c.Slope.Value(), 1e-12)
		assert.InDelta(t, float64(worn.Offset), float64(c.Offset), 1e-10)
		assert.InDelta(t, 0, float64(c.Residual), 1e-10)
	}
	at := units.Celsius(24)
	v, err := worn.Reading(Bottle7.PH(at), at)
	require.NoError(t, err)
	one, err := OnePoint(worn.Isopotential, Bottle7.Point(v, at), worn.Slope, units.Share(0))
	require.NoError(t, err)
	assert.InDelta(t, float64(worn.Offset), float64(one.Offset), 1e-12)

	tris, pyridine := Tris(units.Practical(35)), Aminopyridine(units.Practical(35))
	e := Calibration[carbonate.TotalPH]{Isopotential: carbonate.PHTotal(7), Slope: units.Share(0.985), Offset: 7}
	v1, err := e.Reading(tris.PH(at), at)
	require.NoError(t, err)
	v2, err := e.Reading(pyridine.PH(at), at)
	require.NoError(t, err)
	seawater, err := Calibrate(e.Isopotential, tris.Point(v1, at), pyridine.Point(v2, at))
	require.NoError(t, err)
	assert.InDelta(t, 0.985, seawater.Slope.Value(), 1e-12)
	assert.InDelta(t, 7, float64(seawater.Offset), 1e-11)
}

// Least squares, against the normal equations by hand: x = 3, 0, -3 units and
// readings off the line by 1, -2, 1 mV, which leave the slope alone.
func TestResidual(t *testing.T) {
	at := units.Celsius(25)
	k := Nernst(at)
	point := func(ph float64, v units.Voltage) Point[carbonate.NBSPH] {
		return Point[carbonate.NBSPH]{PH: carbonate.PHNBS(ph), Reading: v, Temperature: at}
	}
	c, err := Calibrate(seven, point(4, 3*k+1), point(7, -2), point(10, -3*k+1))
	require.NoError(t, err)
	assert.InDelta(t, 1, c.Slope.Value(), 1e-12)
	assert.InDelta(t, 0, float64(c.Offset), 1e-12)
	assert.InDelta(t, 2, float64(c.Residual), 1e-12)
	// A bad bottle 10, 0.2 low, shows.
	bad, err := Calibrate(seven, Bottle4.Point(3*k, at), Bottle7.Point(0, at), Bottle10.Point(-3.01*k+0.2*k, at))
	require.NoError(t, err)
	assert.Greater(t, float64(bad.Residual), 3.)
	two, err := Calibrate(seven, Bottle4.Point(3*k, at), Bottle7.Point(0, at))
	require.NoError(t, err)
	assert.Zero(t, two.Residual)
}

// A buffer that lies off the line makes slope and offset as uncertain as the scatter
// says, against a simulation in which the points do scatter so.
func TestScatterWidens(t *testing.T) {
	at := units.Celsius(25)
	buffers := []Buffer{Bottle4, Bottle7, Bottle10}
	calibrated := func(off units.Voltage, u float64) Calibration[carbonate.NBSPH] {
		var points []Point[carbonate.NBSPH]
		for i, b := range buffers {
			v, err := ideal.Reading(b.PH(at), at)
			require.NoError(t, err)
			p := b.Point(v+off*units.Voltage(i%2), at)
			p.PHUncertainty = u
			points = append(points, p)
		}
		c, err := Calibrate(seven, points...)
		require.NoError(t, err)
		return c
	}
	const u = 0.012
	sound, bad := calibrated(0.2, u), calibrated(20, u)
	// Residuals of 20/6, 20/3 and 20/6 mV times two, by hand for evenly spaced points.
	rest := []float64{-20. / 3, 40. / 3, -20. / 3}
	variance := 0.
	for _, r := range rest {
		variance += r * r // one degree of freedom
	}
	k := float64(Nernst(at))
	wider := math.Sqrt(variance) / (bad.Slope.Value() * k * u)
	checks.Relative(t, "slope", float64(bad.SlopeUncertainty.Value()/sound.SlopeUncertainty.Value()), wider, 0.02)
	checks.Relative(t, "offset", float64(bad.OffsetUncertainty/sound.OffsetUncertainty), wider, 0.02)
	assert.Equal(t, Doubtful, bad.Findings().Points.Condition)
	assert.Equal(t, Good, sound.Findings().Points.Condition)

	// Buffers of which nothing is uncertain: the scatter alone.
	exact := calibrated(20, 0)
	checks.Relative(t, "exact buffers, slope", exact.SlopeUncertainty.Value(), bad.SlopeUncertainty.Value(), 0.02)
	checks.Relative(t, "exact buffers, offset", float64(exact.OffsetUncertainty), float64(bad.OffsetUncertainty), 0.02)
	assert.InDelta(t, float64(bad.Correlation), float64(exact.Correlation), 0.02)
}

// What a controller without a temperature probe shows is off by (pH - pHi)(T/T' - 1).
func TestWrongTemperature(t *testing.T) {
	v, err := worn.Reading(carbonate.PHNBS(8.2), units.Celsius(18))
	require.NoError(t, err)
	shown, err := worn.PH(v, units.Celsius(25))
	require.NoError(t, err)
	assert.InDelta(t, (8.2-7.2)*(291.15/298.15-1), shown.Value()-8.2, 1e-12)
}

// The law of propagation against 40000 draws of everything that is uncertain.
func TestEstimateAgainstMonteCarlo(t *testing.T) {
	draws, wider := checks.Draws(40000)
	n := float64(draws)
	u := Uncertainty{Reading: 0.5, Temperature: 0.4}
	tank := units.Celsius(28)
	for name, buffers := range map[string][]Buffer{
		"two":   {Bottle7, Bottle10},
		"three": {Bottle4, Bottle7, Bottle10},
		"one":   {Bottle7},
	} {
		calibrated := func(iso float64, slope units.Fraction, points []Point[carbonate.NBSPH]) (Calibration[carbonate.NBSPH], error) {
			if len(points) == 1 {
				return OnePoint(carbonate.PHNBS(iso), points[0], slope, units.Share(0.02))
			}
			return Calibrate(carbonate.PHNBS(iso), points...)
		}
		var points []Point[carbonate.NBSPH]
		for i, b := range buffers {
			at := units.Celsius(24)
			v, err := worn.Reading(b.PH(at), at)
			require.NoError(t, err)
			// Off the line by as much as the uncertainties allow: more would widen them.
			points = append(points, b.Point(v+units.Voltage(i%2), at).PlusMinus(u))
		}
		c, err := calibrated(7, units.Share(0.94), points)
		require.NoError(t, err, name)
		c.IsopotentialUncertainty = 0.4
		ph, got, err := c.Estimate(-90, tank, u)
		require.NoError(t, err, name)

		random := rand.New(rand.NewSource(1))
		var sum, squares float64
		for range draws {
			moved := make([]Point[carbonate.NBSPH], len(points))
			for i, p := range points {
				// The buffer is not at the temperature it is taken to have: its pH is another.
				d := units.TemperatureDifference(random.NormFloat64()) * u.Temperature
				p.Temperature = p.Temperature.Add(d)
				p.PH = carbonate.PHNBS(buffers[i].PH(p.Temperature).Value() + p.PHUncertainty*random.NormFloat64())
				p.Reading += u.Reading * units.Voltage(random.NormFloat64())
				moved[i] = p
			}
			m, err := calibrated(7+0.4*random.NormFloat64(), units.Share(0.94+0.02*random.NormFloat64()), moved)
			require.NoError(t, err, name)
			x, err := m.PH(-90+u.Reading*units.Voltage(random.NormFloat64()), tank.Add(units.TemperatureDifference(random.NormFloat64())*u.Temperature))
			require.NoError(t, err, name)
			d := x.Value() - ph.Value()
			sum += d
			squares += d * d
		}
		spread := math.Sqrt(squares/n - sum*sum/n/n)
		t.Logf("%s: %.4f, Monte Carlo %.4f", name, got, spread)
		checks.Relative(t, name, got, spread, 0.02*wider)
	}
	_, none, err := ideal.Estimate(-90, tank, Uncertainty{})
	require.NoError(t, err)
	assert.Zero(t, none)
}

func TestFindings(t *testing.T) {
	for _, row := range []struct {
		slope         units.Fraction
		offset        units.Voltage
		first, second Condition
	}{
		{units.Share(1), 0, Good, Good}, {units.Share(0.95), 15, Good, Good}, {units.Share(1.02), -15, Good, Good},
		{units.Share(1.021), 15.1, Doubtful, Clean}, {units.Share(0.949), -15.1, Clean, Clean}, {units.Share(0.90), 30, Clean, Clean},
		{units.Share(0.899), 30.1, Replace, Replace}, {units.Share(0.5), -30.1, Replace, Replace}, {units.Share(1.2), 1000, Doubtful, Replace},
		{units.Share(0.4), 0, Doubtful, Doubtful}, {units.Share(0), 0, Doubtful, Doubtful}, {units.Share(1), units.Voltage(math.NaN()), Doubtful, Doubtful},
	} {
		c := ideal
		c.Slope, c.Offset = row.slope, row.offset
		f := c.Findings()
		assert.Equal(t, row.first, f.Slope.Condition, "%+v", row)
		assert.Equal(t, row.second, f.Offset.Condition, "%+v", row)
		assert.NotEmpty(t, f.Slope.Text)
		assert.NotEmpty(t, f.Offset.Text)
		assert.NotEmpty(t, f.Points.Text)
	}
	for _, row := range []struct {
		residual units.Voltage
		want     Condition
	}{
		{0, Unknown}, {1e-12, Good}, {1.5, Good}, {1.51, Clean}, {3, Clean}, {3.01, Doubtful},
		{-1, Doubtful}, {units.Voltage(math.NaN()), Doubtful}, {units.Voltage(math.Inf(1)), Doubtful},
	} {
		c := ideal
		c.Residual = row.residual
		assert.Equal(t, row.want, c.Findings().Points.Condition, "%v", row.residual)
	}
	// The offset is judged at pH 7 wherever the isopotential point is.
	c := ideal
	c.Isopotential = carbonate.PHNBS(6)
	c.Offset = Nernst(units.Celsius(25))
	assert.Equal(t, Good, c.Findings().Offset.Condition)
}

func TestCalibrateRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	at := units.Celsius(25)
	p7, p10 := Bottle7.Point(0, at), Bottle10.Point(-175, at)
	with := func(change func(*Point[carbonate.NBSPH])) []Point[carbonate.NBSPH] {
		p := p10
		change(&p)
		return []Point[carbonate.NBSPH]{p7, p}
	}
	type points = []Point[carbonate.NBSPH]
	for _, row := range []struct {
		what   string
		points points
		kind   error
	}{
		{"no points", nil, units.ErrInput},
		{"one point", points{p7}, units.ErrInput},
		{"one buffer twice", points{p7, p7}, units.ErrInput},
		{"one buffer twice of three", points{p7, p10, Bottle7.Point(1, at)}, units.ErrInput},
		{"two of one pH", points{Phosphate.Point(0, at), Bottle7.Point(-8, at)}, units.ErrInput},
		{"the same millivolts", points{Bottle7.Point(3, at), Bottle10.Point(3, at)}, ErrSlope},
		{"swapped", points{Bottle7.Point(-175, at), Bottle10.Point(0, at)}, ErrSlope},
		{"49 %", points{p7, Bottle10.Point(-87, at)}, ErrSlope},
		{"121 %", points{p7, Bottle10.Point(-215.5, at)}, ErrSlope},
		{"too warm", points{p7, Bottle10.Point(-175, units.Celsius(50.1))}, units.ErrRange},
		{"too cold", points{p7, Bottle10.Point(-175, units.Celsius(-0.1))}, units.ErrRange},
		{"no temperature", points{p7, Bottle10.Point(-175, units.Temperature{})}, units.ErrInput},
		{"no buffer", points{p7, Buffer(0).Point(-175, at)}, units.ErrInput},
		{"no point", points{p7, {}}, units.ErrInput},
		{"no temperature of a label", with(func(p *Point[carbonate.NBSPH]) { p.Temperature = units.Temperature{} }), units.ErrInput},
		{"hot label", with(func(p *Point[carbonate.NBSPH]) { p.Temperature = units.Celsius(61) }), units.ErrRange},
		{"pH NaN", with(func(p *Point[carbonate.NBSPH]) { p.PH = carbonate.PHNBS(nan) }), units.ErrRange},
		{"pH 15", with(func(p *Point[carbonate.NBSPH]) { p.PH = carbonate.PHNBS(15) }), units.ErrRange},
		{"NaN mV", with(func(p *Point[carbonate.NBSPH]) { p.Reading = units.Voltage(nan) }), units.ErrRange},
		{"Inf mV", with(func(p *Point[carbonate.NBSPH]) { p.Reading = units.Voltage(inf) }), units.ErrRange},
		{"steep buffer", with(func(p *Point[carbonate.NBSPH]) { p.PerKelvin = 1.1 }), units.ErrInput},
		{"uncertainty", with(func(p *Point[carbonate.NBSPH]) { p.PHUncertainty = -1 }), units.ErrInput},
		{"uncertainty NaN", with(func(p *Point[carbonate.NBSPH]) { p.Uncertainty.Reading = units.Voltage(nan) }), units.ErrInput},
		{"uncertainty of temperature", with(func(p *Point[carbonate.NBSPH]) { p.Uncertainty.Temperature = -1 }), units.ErrInput},
		{"per kelvin", with(func(p *Point[carbonate.NBSPH]) { p.PerKelvin = nan }), units.ErrInput},
	} {
		c, err := Calibrate(seven, row.points...)
		assert.ErrorIs(t, err, row.kind, row.what)
		assert.True(t, math.IsNaN(c.Slope.Value()), row.what)
		_, err = c.PH(0, at)
		assert.ErrorIs(t, err, ErrSlope, "what stands beside an error is refused")
	}
	for _, iso := range []float64{-1, 0, 2.99, 11.01, 15, nan, inf} {
		_, err := Calibrate(carbonate.PHNBS(iso), p7, p10)
		assert.ErrorIs(t, err, units.ErrRange)
		_, err = OnePoint(carbonate.PHNBS(iso), p7, units.Share(1), units.Share(0))
		assert.ErrorIs(t, err, units.ErrRange)
	}
	_, err := Calibrate(carbonate.PHTotal(7), Tris(units.Practical(35)).Point(-60, units.Celsius(46)), Aminopyridine(units.Practical(35)).Point(10, at))
	assert.EqualError(t, err, "points[0].temperature: 46 °C is outside 0 to 45 °C (DelValls and Dickson 1998)")
	_, err = Calibrate(seven, p7, p10, Bottle7.Point(0, at))
	assert.EqualError(t, err, "points 1 and 3: got pH 7.000 and 7.000, want different buffers, 0.5 apart")

	// Offsets out of the world.
	_, err = Calibrate(carbonate.PHNBS(3), Bottle7.Point(900, at), Bottle10.Point(725, at))
	assert.ErrorIs(t, err, units.ErrRange)
	assert.ErrorContains(t, err, "offset: ")
	_, err = OnePoint(carbonate.PHNBS(3), Bottle10.Point(1000, at), units.Share(1), units.Share(0))
	assert.ErrorIs(t, err, units.ErrRange)
	_, err = OnePoint(seven, Bottle7.Point(units.Voltage(nan), at), units.Share(1), units.Share(0))
	assert.ErrorIs(t, err, units.ErrRange)
	for _, slope := range []units.Fraction{units.Share(0), units.Share(-1), units.Share(0.499), units.Share(1.201), units.Share(95.2), units.Share(nan), units.Share(inf)} {
		c, err := OnePoint(seven, p7, slope, units.Share(0))
		var of *SlopeError
		require.ErrorAs(t, err, &of)
		assert.NotEmpty(t, of.Reason)
		assert.True(t, math.IsNaN(float64(c.Offset)))
	}
	for _, u := range []units.Fraction{units.Share(-0.1), units.Share(nan), units.Share(inf)} {
		_, err := OnePoint(seven, p7, units.Share(1), u)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	for _, slope := range []units.Fraction{units.Share(0.5), units.Share(1.2)} {
		_, err := OnePoint(seven, p7, slope, units.Share(0))
		assert.NoError(t, err)
	}
}

func TestReadingRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	at := units.Celsius(25)
	refused := func(c Calibration[carbonate.NBSPH], v units.Voltage, at units.Temperature, kind error) {
		t.Helper()
		ph, err := c.PH(v, at)
		assert.ErrorIs(t, err, kind)
		assert.True(t, math.IsNaN(ph.Value()))
		ph, u, err := c.Estimate(v, at, Uncertainty{})
		assert.ErrorIs(t, err, kind)
		assert.True(t, math.IsNaN(ph.Value()))
		assert.True(t, math.IsNaN(u))
	}
	refused(Calibration[carbonate.NBSPH]{}, 0, at, ErrSlope)
	refused(Calibration[carbonate.NBSPH]{Isopotential: carbonate.PHNBS(15), Slope: units.Share(1)}, 0, at, units.ErrRange)
	refused(Calibration[carbonate.NBSPH]{Slope: units.Share(1)}, 0, at, units.ErrRange)
	for _, celsius := range []float64{-2.01, 60.01, nan, inf} {
		refused(ideal, 0, units.Celsius(celsius), units.ErrRange)
		v, err := ideal.Reading(seven, units.Celsius(celsius))
		assert.ErrorIs(t, err, units.ErrRange)
		assert.True(t, math.IsNaN(float64(v)))
	}
	refused(ideal, 0, units.Temperature{}, units.ErrInput)
	for _, v := range []float64{nan, inf, -inf, 1000.1, -1000.1, 420, -420} { // 420 mV is pH -0.1
		refused(ideal, units.Voltage(v), at, units.ErrRange)
	}
	for _, ph := range []float64{-0.001, 14.001, nan, inf} {
		v, err := ideal.Reading(carbonate.PHNBS(ph), at)
		assert.ErrorIs(t, err, units.ErrRange)
		assert.True(t, math.IsNaN(float64(v)))
	}
	for _, change := range []func(*Calibration[carbonate.NBSPH]){
		func(c *Calibration[carbonate.NBSPH]) { c.SlopeUncertainty = units.Share(-1) },
		func(c *Calibration[carbonate.NBSPH]) { c.OffsetUncertainty = units.Voltage(nan) },
		func(c *Calibration[carbonate.NBSPH]) { c.IsopotentialUncertainty = -1 },
		func(c *Calibration[carbonate.NBSPH]) { c.IsopotentialUncertainty = 0.3 }, // without a temperature
		func(c *Calibration[carbonate.NBSPH]) { c.Correlation = 1.01 },
		func(c *Calibration[carbonate.NBSPH]) { c.Correlation = units.Scalar(nan) },
	} {
		c := ideal
		change(&c)
		ph, u, err := c.Estimate(0, at, Uncertainty{})
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(ph.Value()))
		assert.True(t, math.IsNaN(u))
	}
	c := ideal
	c.IsopotentialUncertainty, c.Temperature = 0.3, units.Celsius(1e9)
	_, _, err := c.Estimate(0, at, Uncertainty{})
	assert.ErrorIs(t, err, units.ErrRange)
	// A sound number whose square is none.
	for _, u := range []Uncertainty{{Reading: 1e300}, {Temperature: 1e300}} {
		_, got, err := ideal.Estimate(-50, at, u)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(got))
		of, err := Calibrate(seven, Bottle7.Point(0, at).PlusMinus(u), Bottle10.Point(-175, at).PlusMinus(u))
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(of.Slope.Value()))
		of, err = OnePoint(seven, Bottle10.Point(-175, at).PlusMinus(u), units.Share(1), units.Share(0))
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(of.Slope.Value()))
	}
	for _, u := range []Uncertainty{{Reading: -1}, {Temperature: -1}, {Reading: units.Voltage(nan)}, {Temperature: units.TemperatureDifference(inf)}} {
		_, _, err := ideal.Estimate(0, at, u)
		assert.ErrorIs(t, err, units.ErrInput)
	}
}

func TestNoAllocations(t *testing.T) {
	at := units.Celsius(25)
	p7, p10 := Bottle7.Point(4, at), Bottle10.Point(-165, at)
	c := carbonate.At(units.Practical(35), at, carbonate.Options{})
	checks.NoAllocations(t, "PH", func() { sinkNBS, _ = worn.PH(-68, at) })
	checks.NoAllocations(t, "Reading", func() { sinkVoltage, _ = worn.Reading(seven, at) })
	checks.NoAllocations(t, "Estimate", func() { sinkNBS, _, _ = worn.Estimate(-68, at, Uncertainty{Reading: 1}) })
	checks.NoAllocations(t, "Calibrate", func() { sinkNBSC, _ = Calibrate(seven, p7, p10) })
	checks.NoAllocations(t, "OnePoint", func() { sinkNBSC, _ = OnePoint(seven, p7, units.Share(1), units.Share(0.02)) })
	checks.NoAllocations(t, "Point", func() { p7 = Bottle7.Point(4, at) })
	checks.NoAllocations(t, "tris", func() { _ = Tris(units.Practical(35)).Point(-70, at) })
	checks.NoAllocations(t, "Findings", func() { sinkFindings = worn.Findings() })
	checks.NoAllocations(t, "TotalFromNBS", func() { sinkTotal, _, _ = TotalFromNBS(carbonate.PHNBS(8.2), 0.02, &c) })
	checks.NoAllocations(t, "AtTemperature", func() {
		sinkTotal, _ = AtTemperature(carbonate.PHTotal(8.1), 2400, carbonate.Nutrients{}, &c, units.Celsius(20))
	})
}

// FuzzCalibrate: whatever comes in, either an error beside NaN, or an electrode
// that shows a pH again as it was and the buffers within the residual.
func FuzzCalibrate(f *testing.F) {
	f.Add(7., uint8(Bottle7), 0., 25., uint8(Bottle10), -175., 24., uint8(Bottle4), 175., 26., -68., 25.)
	f.Add(6.5, uint8(Phosphate), 3., 10., uint8(Carbonate), -160., 10., uint8(0), 0., 0., 0., -2.)
	f.Add(math.NaN(), uint8(99), math.Inf(1), -1e300, uint8(0), 1e300, math.NaN(), uint8(1), 0., 0., math.NaN(), math.Inf(-1))
	f.Fuzz(func(t *testing.T, iso float64, b1 uint8, v1, t1 float64, b2 uint8, v2, t2 float64, b3 uint8, v3, t3 float64, reading, celsius float64) {
		u := Uncertainty{Reading: 0.5, Temperature: 0.3}
		points := []Point[carbonate.NBSPH]{
			Buffer(b1).Point(units.Voltage(v1), units.Celsius(t1)).PlusMinus(u),
			Buffer(b2).Point(units.Voltage(v2), units.Celsius(t2)).PlusMinus(u),
			Buffer(b3).Point(units.Voltage(v3), units.Celsius(t3)).PlusMinus(u),
		}
		if b3 == 0 {
			points = points[:2]
		}
		c, err := Calibrate(carbonate.PHNBS(iso), points...)
		if err != nil {
			if !math.IsNaN(c.Slope.Value()) {
				t.Errorf("%v beside %v", c, err)
			}
			return
		}
		for i, p := range points {
			v, err := c.Reading(p.PH, p.Temperature)
			if err != nil || !(math.Abs(float64(v-p.Reading)) <= float64(c.Residual)+1e-6) {
				t.Errorf("point %d: %v instead of %v, residual %v, %v", i, v, p.Reading, c.Residual, err)
			}
		}
		at := units.Celsius(celsius)
		ph, uncertainty, err := c.Estimate(units.Voltage(reading), at, u)
		if err != nil {
			if !math.IsNaN(ph.Value()) || !math.IsNaN(uncertainty) {
				t.Errorf("%v, %v beside %v", ph, uncertainty, err)
			}
			return
		}
		back, err := c.Reading(ph, at)
		if err != nil || !(math.Abs(float64(back)-reading) <= 1e-9) || !(uncertainty > 0 && uncertainty < math.MaxFloat64) {
			t.Errorf("%v became %v, uncertainty %v, %v", reading, back, uncertainty, err)
		}
	})
}
