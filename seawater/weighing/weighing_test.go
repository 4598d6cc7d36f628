package weighing

import (
	"math"
	"math/rand"
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// standard is salinity 35 on the practical scale.
var standard = units.Absolute(35.16504)

var (
	flask = Flask{Vessel{units.Litre, units.Celsius(20), Borosilicate}, StandardAir()}
	jug   = Flask{Vessel{1.98 * units.Litre, units.Celsius(20), Polypropylene}, StandardAir()}
)

func TestTable(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/weighing.csv") {
		in := row.Inputs(t, "inputs")
		air := Air{units.Celsius(in["t"]), units.AirPressure(in["p"] / 100), units.Share(in["h"])}
		got := float64(air.Density())
		if row["quantity"] == "Z" {
			got = Z(units.Celsius(in["t"]), air)
		}
		checks.Absolute(t, row["quantity"]+" "+row["inputs"]+" "+row["origin"], got, row.Float(t, "value"), row.Float(t, "tolerance"))
	}
}

// Common practice: air is 1.2 kg/m³, a litre of water at 20 °C reads 997.2 g, water is
// 1.05 g/kg heavier than it reads and salt 0.4 g/kg.
func TestCommonPractice(t *testing.T) {
	checks.Printed(t, "air", float64(StandardAir().Density()), "1.2")
	w, err := flask.Reading(units.Absolute(0), units.Celsius(20))
	require.NoError(t, err)
	checks.Printed(t, "a litre of water", w.Grams(), "997.2")
	checks.Printed(t, "buoyancy of water", float64(TrueMass(1, 1000, 1.2)), "1.00105")
	checks.Absolute(t, "buoyancy of salt", float64(TrueMass(1, 2200, 1.2)), 1.000395670365654, 1e-12)
	assert.Equal(t, units.Mass(1), TrueMass(1, steel, 1.2), "steel is what the balance is set with")
	checks.Absolute(t, "a litre of polypropylene at 25 °C",
		Vessel{units.Litre, units.Celsius(20), Polypropylene}.Volume(units.Celsius(25)).Litres(), 1.00225, 1e-12)
}

// Moist air is lighter than dry, warm than cold,
// high than low.
func TestAirMoves(t *testing.T) {
	a := StandardAir()
	rho := a.Density()
	wet, warm, high := a, a, a
	wet.Humidity, warm.Temperature, high.Pressure = units.Share(1), units.Celsius(25), 900
	assert.Less(t, wet.Density(), rho)
	assert.Less(t, warm.Density(), rho)
	assert.Less(t, high.Density(), rho)
	checks.Relative(t, "the gas law", float64(high.Density()/rho), 900/1013.25, 0.001)
	dry := Air{units.Celsius(20), 1013.25, units.Share(0)}
	checks.Printed(t, "dry air at 20 °C", float64(dry.Density()), "1.205")
}

func TestShownIsTheInverse(t *testing.T) {
	for _, rho := range []units.Density{700, 998, 1023, 2200, 8000, 19300} {
		for _, air := range []units.Density{0, 0.9, 1.2} {
			assert.InDelta(t, 250, float64(Shown(TrueMass(250, rho, air), rho, air)), 1e-12)
		}
		assert.Equal(t, units.Mass(250), TrueMass(250, rho, 0), "in vacuum")
	}
	for _, rho := range []units.Density{0, 1.2, -5, units.Density(math.NaN()), units.Density(math.Inf(1))} {
		assert.True(t, math.IsNaN(float64(TrueMass(250, rho, 1.2))))
		assert.True(t, math.IsNaN(float64(Shown(250, rho, 1.2))))
		assert.True(t, math.IsNaN(float64(Volume(250, rho, 1.2))))
	}
	for _, air := range []units.Density{-1, 1000, 1e9, units.Density(math.NaN()), units.Density(math.Inf(1))} {
		assert.True(t, math.IsNaN(float64(TrueMass(250, 1000, air))))
	}
}

// The capacity found by a flask full of pure water is that of the formula of
// laboratories, V20 = W Z (1 - g (t - 20)), as far as the standards of pure water
// agree (1.2e-6) and to first order in g.
func TestCalibratedIsISO4787(t *testing.T) {
	for _, c := range []float64{15, 18, 20, 22, 25, 30} {
		at := units.Celsius(c)
		f, err := flask.Calibrated(996.5, units.Absolute(0), at)
		require.NoError(t, err)
		want := 996.5 * Z(at, StandardAir()) * (1 - float64(Borosilicate)*(c-20)) / 1000
		checks.Relative(t, "capacity", f.Vessel.Capacity.Litres(), want, 1.3e-6)
		back, err := f.Reading(units.Absolute(0), at)
		require.NoError(t, err)
		assert.InDelta(t, 996.5, back.Grams(), 1e-9)
	}
	// It does not matter that the line is wrong or that the balance shows 0.5 % too
	// much: salinity 35 is found all the same.
	truth := Flask{Vessel{1.913 * units.Litre, units.Celsius(20), Polypropylene}, StandardAir()}
	pure, err := truth.Reading(units.Absolute(0), units.Celsius(21))
	require.NoError(t, err)
	salt, err := truth.Reading(standard, units.Celsius(26))
	require.NoError(t, err)
	found, err := jug.Calibrated(pure*1.005, units.Absolute(0), units.Celsius(21))
	require.NoError(t, err)
	sa, err := found.Salinity(salt*1.005, units.Celsius(26))
	require.NoError(t, err)
	assert.InDelta(t, 35.165, sa.GramsPerKilogram(), 0.01)
}

func TestRoundTrip(t *testing.T) {
	for c := -2.0; c <= 40; c += checks.Step(1.5, 6) {
		for s := 0.0; s <= 120; s += 2.5 {
			for _, f := range []Flask{flask, jug} {
				r, err := f.Reading(units.Absolute(s), units.Celsius(c))
				require.NoError(t, err)
				sa, err := f.Salinity(r, units.Celsius(c))
				require.NoError(t, err)
				assert.InDelta(t, s, sa.GramsPerKilogram(), 1e-9)
				again, err := f.Reading(units.Absolute(math.Min(sa.GramsPerKilogram(), saltiest)), units.Celsius(c))
				require.NoError(t, err)
				assert.InDelta(t, r.Grams(), again.Grams(), 1e-9)
			}
		}
	}
}

// First-order propagation [GUM] against a Monte Carlo run (JCGM 101). The spread
// of 20000 draws is known to 0.5 %; the tolerance is five times that.
func TestEstimate(t *testing.T) {
	draws, wider := checks.Draws(20000)
	n := float64(draws)
	random := rand.New(rand.NewSource(1))
	at := units.Celsius(26)
	hill := jug // where the pressure may be drawn without leaving the range
	hill.Air.Pressure = 850
	air := hill.Air.Density()
	for _, u := range []Uncertainty{
		{Reading: 0.5, Temperature: 0.5, Capacity: 0.5 * units.Millilitre, Expansion: 8e-5, Air: 0.03},
		{Reading: 0.4}, {Temperature: 1}, {Capacity: units.Millilitre}, {Expansion: 8e-5}, {Air: 0.03},
	} {
		r, err := hill.Reading(standard, at)
		require.NoError(t, err)
		sa, got, err := hill.Estimate(r, at, u)
		require.NoError(t, err)
		liquid := u
		liquid.Capacity, liquid.Expansion = 0, 0
		volume, ofVolume, err := Dispensed(r, standard, at, hill.Air, liquid)
		require.NoError(t, err)
		assert.InDelta(t, float64(hill.Vessel.Volume(at)), float64(volume), 1e-12)
		var sum, square, volumeSquare float64
		for range draws {
			f := hill
			reading := r + u.Reading*units.Mass(random.NormFloat64())
			warm := at.Add(u.Temperature * units.TemperatureDifference(random.NormFloat64()))
			f.Vessel.Capacity += u.Capacity * units.Volume(random.NormFloat64())
			f.Vessel.Expansion += u.Expansion * Expansion(random.NormFloat64())
			f.Air.Pressure *= units.AirPressure(1 + float64(u.Air/air)*random.NormFloat64()) // which the density follows
			s, err := f.Salinity(reading, warm)
			require.NoError(t, err)
			d := s.GramsPerKilogram() - sa.GramsPerKilogram()
			sum += d
			square += d * d
			dv := float64(Volume(reading, teos10.DensityExact(standard, warm, 0), f.Air.Density()) - volume)
			volumeSquare += dv * dv
		}
		checks.Relative(t, "salinity", got.GramsPerKilogram(), math.Sqrt(square/n-sum*sum/n/n), 0.025*wider)
		if ofVolume > 0 {
			checks.Relative(t, "volume", float64(ofVolume), math.Sqrt(volumeSquare/n), 0.025*wider)
		}
	}
}

func TestRefusals(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	at := units.Celsius(25)
	refused := func(kind, err error, x float64) {
		t.Helper()
		assert.ErrorIs(t, err, kind)
		assert.True(t, math.IsNaN(x))
	}
	good := flask
	change := func(f func(*Flask)) Flask { g := good; f(&g); return g }
	for _, row := range []struct {
		f    Flask
		kind error
	}{
		{Flask{}, units.ErrInput},
		{Flask{Vessel: good.Vessel}, units.ErrRange},
		{Flask{Air: good.Air}, units.ErrInput},
		{change(func(f *Flask) { f.Vessel.Capacity = -1 }), units.ErrInput},
		{change(func(f *Flask) { f.Vessel.Capacity = units.Volume(inf) }), units.ErrInput},
		{change(func(f *Flask) { f.Vessel.At = units.Temperature{} }), units.ErrInput},
		{change(func(f *Flask) { f.Vessel.At = units.Celsius(68) }), units.ErrRange},
		{change(func(f *Flask) { f.Vessel.Expansion = 0 }), units.ErrInput},
		{change(func(f *Flask) { f.Vessel.Expansion = Expansion(nan) }), units.ErrInput},
		{change(func(f *Flask) { f.Vessel.Expansion = 0.1 }), units.ErrInput},
		{change(func(f *Flask) { f.Air.Pressure = 101325 }), units.ErrRange},          // Pa taken for hPa
		{change(func(f *Flask) { f.Air.Humidity = units.Share(50) }), units.ErrRange}, // per cent forgotten
		{change(func(f *Flask) { f.Air.Temperature = units.Celsius(nan) }), units.ErrRange},
	} {
		r, err := row.f.Reading(standard, at)
		refused(row.kind, err, r.Grams())
		sa, err := row.f.Salinity(1020, at)
		refused(row.kind, err, sa.GramsPerKilogram())
		sa, u, err := row.f.Estimate(1020, at, Uncertainty{})
		refused(row.kind, err, sa.GramsPerKilogram())
		assert.True(t, math.IsNaN(u.GramsPerKilogram()))
	}
	for _, bad := range []float64{-2.1, 40.1, nan, inf} {
		r, err := flask.Reading(standard, units.Celsius(bad))
		refused(units.ErrRange, err, r.Grams())
		sa, err := flask.Salinity(1020, units.Celsius(bad))
		refused(units.ErrRange, err, sa.GramsPerKilogram())
	}
	for _, bad := range []float64{-0.1, 120.1, nan, inf} {
		r, err := flask.Reading(units.Absolute(bad), at)
		refused(units.ErrRange, err, r.Grams())
	}
	for _, bad := range []float64{0, -1, 995, 1200, nan, inf} { // a litre of pure water reads 996.0 g
		sa, err := flask.Salinity(units.Mass(bad), at)
		refused(units.ErrRange, err, sa.GramsPerKilogram())
	}
	for _, bad := range []Uncertainty{{Reading: -1}, {Temperature: -1}, {Capacity: -1}, {Expansion: -1}, {Air: units.Density(nan)}} {
		sa, _, err := flask.Estimate(1020, at, bad)
		refused(units.ErrInput, err, sa.GramsPerKilogram())
		v, u, err := Dispensed(1020, standard, at, StandardAir(), bad)
		refused(units.ErrInput, err, v.Litres())
		assert.True(t, math.IsNaN(u.Litres()))
	}
	v, _, err := Dispensed(1020, standard, at, StandardAir(), Uncertainty{Capacity: 1})
	refused(units.ErrInput, err, v.Litres())
	v, _, err = Dispensed(1020, standard, at, Air{}, Uncertainty{})
	refused(units.ErrRange, err, v.Litres())
	v, _, err = Dispensed(0, standard, at, StandardAir(), Uncertainty{})
	refused(units.ErrInput, err, v.Litres())
	v, _, err = Dispensed(1, units.Absolute(-1), at, StandardAir(), Uncertainty{})
	refused(units.ErrRange, err, v.Litres())

	for _, bad := range []float64{0, -1, nan, inf} {
		f, err := flask.Calibrated(units.Mass(bad), units.Absolute(0), at)
		refused(units.ErrInput, err, f.Vessel.Capacity.Litres())
	}
	f, err := flask.Calibrated(996, units.Absolute(0), units.Celsius(50))
	refused(units.ErrRange, err, f.Vessel.Capacity.Litres())
	f, err = Flask{}.Calibrated(996, units.Absolute(0), at)
	refused(units.ErrInput, err, f.Vessel.Capacity.Litres())
	f, err = Flask{Vessel: Vessel{At: units.Celsius(20), Expansion: PVC}, Air: StandardAir()}.Calibrated(996, units.Absolute(0), at)
	require.NoError(t, err, "no capacity is needed to find it")
	assert.InDelta(t, 1, f.Vessel.Capacity.Litres(), 0.001)
}

func TestAirOfNonsense(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, a := range []Air{
		{}, {units.Celsius(-81), 1000, units.Share(0.5)}, {units.Celsius(101), 1000, units.Share(0.5)}, {units.Celsius(20), 0, units.Share(0.5)}, {units.Celsius(20), -5, units.Share(0.5)},
		{units.Celsius(20), 1000, units.Share(-0.1)}, {units.Celsius(20), 1000, units.Share(1.1)}, {units.Celsius(nan), 1000, units.Share(0.5)}, {units.Celsius(20), units.AirPressure(inf), units.Share(0.5)},
		{units.Celsius(20), 1000, units.Share(nan)},
	} {
		assert.True(t, math.IsNaN(float64(a.Density())), "%v", a)
		assert.True(t, math.IsNaN(Z(units.Celsius(20), a)))
		assert.ErrorIs(t, a.CheckRange(), units.ErrRange)
	}
	for _, a := range []Air{StandardAir(), {units.Celsius(15), 600, units.Share(0)}, {units.Celsius(27), 1100, units.Share(1)}} {
		assert.NoError(t, a.CheckRange())
	}
	for _, a := range []Air{{units.Celsius(14.9), 1000, units.Share(0.5)}, {units.Celsius(27.1), 1000, units.Share(0.5)}, {units.Celsius(20), 599, units.Share(0.5)}, {units.Celsius(20), 1101, units.Share(0.5)}} {
		assert.ErrorIs(t, a.CheckRange(), units.ErrRange)
	}
	assert.True(t, math.IsNaN(Z(units.Celsius(nan), StandardAir())))
	assert.InDelta(t, Z(units.Celsius(20), StandardAir()),
		float64(Volume(1, hydrometer.WaterDensity(units.Celsius(20)), StandardAir().Density()))*1000, 1e-15)
}

func TestNoAllocations(t *testing.T) {
	at := units.Celsius(25)
	checks.NoAllocations(t, "Reading", func() { sinkMass, _ = flask.Reading(standard, at) })
	checks.NoAllocations(t, "Salinity", func() { sinkSalinity, _ = flask.Salinity(1020, at) })
	checks.NoAllocations(t, "Estimate", func() { sinkSalinity, _, _ = flask.Estimate(1020, at, Uncertainty{Reading: 1}) })
	checks.NoAllocations(t, "Dispensed", func() { _, _, _ = Dispensed(1020, standard, at, StandardAir(), Uncertainty{Reading: 1}) })
	checks.NoAllocations(t, "Z", func() { _ = Z(at, StandardAir()) })
}

// FuzzSalinity: whatever comes in, an answer comes out: a salinity that reads the
// same again, or an error beside NaN.
func FuzzSalinity(f *testing.F) {
	f.Add(1020., 25., 1., 20., 9.9e-6, 20., 1013.25, 0.5)
	f.Add(2050., 35., 2., 25., 4.5e-4, 30., 900., 1.)
	f.Add(0., 0., 0., 0., 0., 0., 0., 0.)
	f.Add(1e300, math.NaN(), math.Inf(1), -1., 1e300, 1e-300, 700., 0.)
	f.Fuzz(func(t *testing.T, reading, celsius, capacity, at, expansion, room, pressure, humidity float64) {
		k := Flask{Vessel{units.Volume(capacity), units.Celsius(at), Expansion(expansion)}, Air{units.Celsius(room), units.AirPressure(pressure), units.Share(humidity)}}
		sa, err := k.Salinity(units.Mass(reading), units.Celsius(celsius))
		s := sa.GramsPerKilogram()
		if err != nil != math.IsNaN(s) || s < 0 || s > saltiest+1e-9 {
			t.Fatalf("%+v: %v, %v", k, s, err)
		}
		if err == nil {
			again, err := k.Reading(units.Absolute(math.Min(s, saltiest)), units.Celsius(celsius))
			if err != nil || !(math.Abs(float64(again)-reading) <= 1e-9*reading) {
				t.Errorf("%+v at %v: %v became %v, %v", k, celsius, reading, again, err)
			}
		}
	})
}

// Cubic expansion of what vessels are made of: three times the linear one, of ISO 3585
// for glass 3.3, and handbook values.
func TestExpansions(t *testing.T) {
	for name, e := range map[string]struct{ got, linear Expansion }{
		"glass 3.3": {Borosilicate, 3.3e-6}, "soda-lime glass": {SodaLime, 9.1e-6}, "acrylic": {Acrylic, 7.5e-5},
		"PVC": {PVC, 5.2e-5}, "polypropylene": {Polypropylene, 1.5e-4}, "polyethylene": {Polyethylene, 2.0e-4},
		"stainless steel": {StainlessSteel, 1.733e-5},
	} {
		assert.InEpsilon(t, float64(3*e.linear), float64(e.got), 5e-4, name)
	}
}

// What is weighed comes back, an estimate is finite, and beside an error stands nothing.
func FuzzEstimates(f *testing.F) {
	f.Add(1., 20., 9.9e-6, 20., 1013.25, 0.5, 35., 25., 0.1, 0.1, 1e-4, 1e-6, 0.01)
	f.Add(2., 25., 4.5e-4, 40., 600., 1., 0., -2., 0., 0., 0., 0., 0.)
	f.Add(1e300, 20., 0.002, 0., 1100., 0., 120., 40., 1e308, 1e308, 1e308, 1., 1e308)
	f.Fuzz(func(t *testing.T, capacity, at, expansion, room, pressure, humidity, salinity, celsius, ur, ut, uc, ue, ua float64) {
		air := Air{units.Celsius(room), units.AirPressure(pressure), units.Share(humidity)}
		k := Flask{Vessel{units.Volume(capacity), units.Celsius(at), Expansion(expansion)}, air}
		sa, c := units.Absolute(salinity), units.Celsius(celsius)
		u := Uncertainty{units.Mass(ur), units.TemperatureDifference(ut), units.Volume(uc), Expansion(ue), units.Density(ua)}
		w, err := k.Reading(sa, c)
		if err != nil {
			require.True(t, math.IsNaN(w.Grams()), "%v beside %v", w, err)
			return
		}
		s, width, err := k.Estimate(w, c, u)
		require.Equal(t, err != nil, math.IsNaN(s.GramsPerKilogram()) && math.IsNaN(width.GramsPerKilogram()), "%v", err)
		if err == nil {
			require.InDelta(t, salinity, s.GramsPerKilogram(), 1e-7)
			require.True(t, width.GramsPerKilogram() >= 0 && !math.IsInf(width.GramsPerKilogram(), 0))
		}
		set, err := k.Calibrated(w, sa, c)
		require.NoError(t, err)
		require.InEpsilon(t, capacity, set.Vessel.Capacity.Litres(), 1e-12)
		v, uv, err := Dispensed(w, sa, c, air, Uncertainty{Reading: u.Reading, Temperature: u.Temperature, Air: u.Air})
		require.Equal(t, err != nil, math.IsNaN(v.Litres()) && math.IsNaN(uv.Litres()), "%v", err)
		if err == nil {
			require.InEpsilon(t, k.Vessel.Volume(c).Litres(), v.Litres(), 1e-12)
			require.True(t, uv >= 0 && !math.IsInf(uv.Litres(), 0))
		}
	})
}
