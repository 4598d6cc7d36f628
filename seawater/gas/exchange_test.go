package gas

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// synthetic makes a log of n readings over span hours, with normal noise.
func synthetic(n int, span, rate, saturation, start, noise float64, r *rand.Rand) []Reading {
	log := make([]Reading, n)
	for i := range log {
		h := span * float64(i) / float64(n-1)
		c := saturation - (saturation-start)*math.Exp(-rate*h)
		if r != nil {
			c += noise * r.NormFloat64()
		}
		log[i] = Reading{time.Duration(h * 3.6e12), units.Share(c)}
	}
	return log
}

// The stated uncertainty is one: over 4000 logs the true rate lies within the 68.27
// and the 95 % interval of Student's t as often as it should, to three standard
// deviations of the binomial distribution. Quantiles of t are from tables.
func TestFitsCoverTheTruth(t *testing.T) {
	const noise = 0.004
	logs, wider := checks.Draws(4000)
	n := float64(logs)
	for _, r := range []struct {
		name       string
		n          int
		start      float64
		span       float64
		one, nine5 float64 // quantiles of Student's t
		fit        func([]Reading) (TransferFit, error)
		saturation bool
	}{
		{"deficit, 22 readings", 22, 0.2, 0.6, 1.0255, 2.0860, func(l []Reading) (TransferFit, error) { return FitDeficit(l, units.Share(1)) }, false},
		{"deficit, supersaturated", 22, 1.8, 0.6, 1.0255, 2.0860, func(l []Reading) (TransferFit, error) { return FitDeficit(l, units.Share(1)) }, false},
		{"curve, 23 readings", 23, 0.2, 1.2, 1.0255, 2.0860, FitCurve, true},
		{"curve, falling", 23, 1.8, 1.2, 1.0255, 2.0860, FitCurve, true},
	} {
		random := rand.New(rand.NewPCG(1, 2))
		var one, nine5, ones, nine5s int
		var sum, scatter float64
		for range logs {
			f, err := r.fit(synthetic(r.n, r.span, 3.5, 1, r.start, noise, random))
			require.NoError(t, err)
			require.Equal(t, 20, f.Freedom)
			off := math.Abs(f.Rate.PerHour()-3.5) / f.Uncertainty.PerHour()
			sum += (f.Rate.PerHour() - 3.5) / f.Uncertainty.PerHour() / n
			scatter += float64(f.Scatter.Value()*f.Scatter.Value()) / n
			one, nine5 = one+count(off <= r.one), nine5+count(off <= r.nine5)
			if r.saturation {
				off := math.Abs(float64(f.Saturation.Value()-1)) / f.SaturationUncertainty.Value()
				ones, nine5s = ones+count(off <= r.one), nine5s+count(off <= r.nine5)
			}
		}
		within := func(what string, inside int, share float64) {
			got := float64(inside) / n
			assert.InDelta(t, share, got, 3*math.Sqrt(share*(1-share)/n), "%s: %s", r.name, what)
			t.Logf("%s: %s %.2f %% (should be %.2f)", r.name, what, 100*got, 100*share)
		}
		within("rate, 68 %", one, 0.6827)
		within("rate, 95 %", nine5, 0.95)
		if r.saturation {
			within("saturation, 68 %", ones, 0.6827)
			within("saturation, 95 %", nine5s, 0.95)
		}
		assert.Less(t, math.Abs(sum), 0.1*wider, "%s: bias in uncertainties", r.name)
		checks.Relative(t, r.name+": scatter", math.Sqrt(scatter), noise, 0.02*wider)
	}
}

func count(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

func TestFitsOfCleanLogs(t *testing.T) {
	for _, rate := range []float64{0.05, 0.8, 3.5, 40} {
		for _, start := range []float64{0, 0.5, 1.6} {
			log := synthetic(12, 3/rate, rate, 1.02, start, 0, nil)
			f, err := FitDeficit(log, units.Share(1.02))
			require.NoError(t, err)
			checks.Relative(t, "deficit", f.Rate.PerHour(), rate, 1e-9)
			assert.Less(t, f.Uncertainty.PerHour(), 1e-8*rate)
			f, err = FitCurve(log)
			require.NoError(t, err)
			checks.Relative(t, "curve", f.Rate.PerHour(), rate, 1e-8)
			checks.Relative(t, "saturation", f.Saturation.Value(), 1.02, 1e-8)
			assert.Less(t, f.Uncertainty.PerHour(), 1e-7*rate)
		}
	}
}

// A meter whose 100 % are 97: the line is bent and says so by its scatter; the curve
// finds out.
func TestWrongSaturation(t *testing.T) {
	log := synthetic(20, 0.6, 3.5, 0.97, 0.2, 0, nil)
	line, err := FitDeficit(log, units.Share(1))
	require.NoError(t, err)
	assert.Less(t, line.Rate.PerHour(), 3.3)
	assert.Greater(t, line.Scatter.Value(), 1e-3)
	bent, err := FitCurve(log)
	require.NoError(t, err)
	checks.Relative(t, "rate", bent.Rate.PerHour(), 3.5, 1e-8)
}

func TestFitsRefuse(t *testing.T) {
	good := synthetic(8, 1, 3, 1, 0.2, 0, nil)
	change := func(i int, at time.Duration, o units.Fraction) []Reading {
		log := append([]Reading(nil), good...)
		log[i] = Reading{at, o}
		return log
	}
	for name, log := range map[string][]Reading{
		"none": nil, "two": good[:2],
		"not a number":    change(3, good[3].At, units.Share(nan)),
		"negative":        change(3, good[3].At, units.Share(-0.1)),
		"infinite":        change(3, good[3].At, units.Share(inf)),
		"in percent":      change(3, good[3].At, units.Share(70)),
		"above 500 %":     change(3, good[3].At, units.Share(5.01)),
		"same time":       change(3, good[2].At, units.Share(0.7)),
		"backwards":       change(3, -time.Hour, units.Share(0.7)),
		"wraps round":     {{math.MinInt64, units.Share(0.2)}, {0, units.Share(0.5)}, {math.MaxInt64, units.Share(0.6)}, {math.MaxInt64, units.Share(0.6)}},
		"flat":            {{0, units.Share(0.5)}, {1e12, units.Share(0.5)}, {2e12, units.Share(0.5)}, {3e12, units.Share(0.5)}, {4e12, units.Share(0.5)}},
		"away":            {{0, units.Share(0.5)}, {1e12, units.Share(0.4)}, {2e12, units.Share(0.2)}, {3e12, units.Share(0.01)}},
		"away, straight":  {{0, units.Share(0.4)}, {1e12, units.Share(0.3)}, {2e12, units.Share(0.2)}, {3e12, units.Share(0.1)}},
		"straight upward": nil,
	} {
		f, err := FitDeficit(log, units.Share(1))
		assert.ErrorIs(t, err, units.ErrInput, name)
		assert.True(t, math.IsNaN(f.Rate.PerHour()), name)
		f, err = FitCurve(log)
		assert.Error(t, err, name)
		assert.True(t, errors.Is(err, units.ErrInput), name)
		assert.True(t, math.IsNaN(f.Rate.PerHour()), name)
	}
	for _, s := range []units.Fraction{units.Share(98), units.Share(5.01), units.Share(0), units.Share(-1), units.Share(nan), units.Share(inf)} {
		_, err := FitDeficit(good, s)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	_, err := FitDeficit(good, units.Share(0.8))
	assert.EqualError(t, err, "reading 5: oxygen: got 85.6 %, want a reading on the same side of saturation (80.0 %) as the first; end the log before, or fit the saturation too")
	_, err = FitCurve([]Reading{{0, units.Share(0.4)}, {1e12, units.Share(0.5)}, {2e12, units.Share(0.6)}, {3e12, units.Share(0.7)}, {4e12, units.Share(0.8)}})
	assert.ErrorIs(t, err, units.ErrInput, "a straight line has no end")
}

// batch is newly mixed water with too much carbon, in a room of 800 µmol/mol.
var batch = Aeration{
	Water: carbonate.Water{Salinity: units.Practical(35), Temperature: units.Celsius(25), Alkalinity: 2500, DIC: 2450},
	Air:   800, Pressure: 1 * units.Atmosphere, Rate: 1.5,
}

// integrate solves dDIC/dt = kLa ([CO2]air - [CO2]) by the classical method of Runge and
// Kutta in small steps, and returns the DIC after so many hours.
func integrate(t *testing.T, a Aeration, hours float64, steps int) float64 {
	t.Helper()
	s, err := a.Water.System()
	require.NoError(t, err)
	air := CarbonDioxideSaturation(a.Water.Salinity, a.Water.Temperature, a.Pressure, a.Air)
	slope := func(dic float64) float64 {
		require.NoError(t, s.Update(a.Water.Alkalinity, units.AmountPerKilogram(dic)))
		return a.Rate.PerHour() * float64(air-s.CO2())
	}
	h, y := hours/float64(steps), float64(a.Water.DIC)
	for range steps {
		k1 := slope(y)
		k2 := slope(y + h/2*k1)
		k3 := slope(y + h/2*k2)
		k4 := slope(y + h*k3)
		y += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
	}
	return y
}

// The quadrature against the differential equation itself, from both sides, for
// fresh water, strong alkalinity and nutrients.
func TestAerationSolvesTheEquation(t *testing.T) {
	poor := batch
	poor.Water.DIC = 2000
	rich := batch
	rich.Water.Alkalinity, rich.Water.DIC = 9000, 12000
	soft := batch
	soft.Water.Salinity, soft.Water.Alkalinity, soft.Water.DIC = units.Practical(2), 500, 900
	soft.Water.Options.K1K2 = carbonate.Waters2014
	dirty := batch
	dirty.Water.Nutrients = carbonate.Nutrients{Phosphate: 50, Ammonia: 100, Silicate: 100}
	high := batch
	high.Pressure = 700
	for name, a := range map[string]Aeration{"too much": batch, "too little": poor, "rich": rich, "soft": soft, "nutrients": dirty, "high": high} {
		for _, within := range []float64{0.3, 0.1, 0.02, 0.001} {
			s, err := a.Settle(within)
			require.NoError(t, err, name)
			if s.Time == 0 {
				assert.LessOrEqual(t, math.Abs(s.Before.Value()-s.Balance.Value()), within)
				continue
			}
			assert.InDelta(t, within, math.Abs(s.PH.Value()-s.Balance.Value()), 1e-12)
			dic := integrate(t, a, s.Time.Hours(), checks.Runs(4000, 1600))
			even, err := a.Water.Equilibrate(a.Air, a.Pressure)
			require.NoError(t, err)
			left := float64(s.Water.DIC - even.DIC)
			// The end is steep: a relative error of the time of 1e-7 is one of
			// the distance left of about 1e-6.
			assert.InDelta(t, left, dic-float64(even.DIC), 1e-6*math.Abs(left), "%s within %v: %v", name, within, s.Time)

			back, err := a.After(s.Time)
			require.NoError(t, err)
			checks.Relative(t, name+": after", float64(back.Water.DIC-even.DIC), left, 1e-7)
			assert.InDelta(t, s.PH.Value(), back.PH.Value(), 1e-9)
			assert.Equal(t, s.Balance, back.Balance)
		}
	}
}

func TestAerationBehaves(t *testing.T) {
	s, err := batch.Settle(0.02)
	require.NoError(t, err)
	fast := batch
	fast.Rate *= 2
	f, err := fast.Settle(0.02)
	require.NoError(t, err)
	checks.Relative(t, "twice the rate", float64(s.Time), 2*float64(f.Time), 1e-9)

	// How much slower than carbon dioxide alone: dDIC/d[CO2], 9 to 32 in seawater.
	near, err := batch.Settle(0.001)
	require.NoError(t, err)
	nearer, err := batch.Settle(0.0005)
	require.NoError(t, err)
	slow := (nearer.Time - near.Time).Hours() * batch.Rate.PerHour() / math.Ln2
	sys, err := near.Water.System()
	require.NoError(t, err)
	checks.Relative(t, "slowness", slow, float64(sys.DIC())/(float64(sys.CO2())*float64(sys.Buffers().Revelle)), 5e-3)
	assert.InDelta(t, 20, slow, 12)

	// In balance there is nothing to wait for; in the end there is nothing left.
	even, err := batch.Water.Equilibrate(batch.Air, units.Atmosphere)
	require.NoError(t, err)
	still := batch
	still.Water = even
	s, err = still.Settle(1e-4)
	require.NoError(t, err)
	assert.Zero(t, s.Time)
	s, err = still.After(time.Hour)
	require.NoError(t, err)
	assert.InDelta(t, s.Balance.Value(), s.PH.Value(), 1e-8)
	s, err = batch.After(1e6 * time.Hour)
	require.NoError(t, err)
	assert.InDelta(t, float64(even.DIC), float64(s.Water.DIC), 2e-6)
	s, err = batch.After(0)
	require.NoError(t, err)
	assert.Equal(t, batch.Water, s.Water)
	assert.Equal(t, s.Before, s.PH)

	// pH only ever approaches.
	last := math.Inf(-1)
	for h := range 48 {
		s, err := batch.After(time.Duration(h) * time.Hour)
		require.NoError(t, err)
		assert.Greater(t, s.PH.Value(), last)
		assert.LessOrEqual(t, s.PH.Value(), s.Balance.Value())
		last = s.PH.Value()
	}
}

func TestAerationRefuses(t *testing.T) {
	for name, change := range map[string]func(*Aeration){
		"no rate":         func(a *Aeration) { a.Rate = 0 },
		"negative rate":   func(a *Aeration) { a.Rate = -1 },
		"rate NaN":        func(a *Aeration) { a.Rate = TransferRate(nan) },
		"no air":          func(a *Aeration) { a.Air = 0 },
		"air NaN":         func(a *Aeration) { a.Air = carbonate.XCO2(nan) },
		"no pressure":     func(a *Aeration) { a.Pressure = 0 },
		"pressure":        func(a *Aeration) { a.Pressure = 2000 },
		"no temperature":  func(a *Aeration) { a.Water.Temperature = units.Temperature{} },
		"hot":             func(a *Aeration) { a.Water.Temperature = units.Celsius(60) },
		"salinity":        func(a *Aeration) { a.Water.Salinity = units.Practical(-1) },
		"alkalinity":      func(a *Aeration) { a.Water.Alkalinity = units.AmountPerKilogram(nan) },
		"carbon":          func(a *Aeration) { a.Water.DIC = -1 },
		"centuries":       func(a *Aeration) { a.Rate = 1e-9 },
		"constants":       func(a *Aeration) { a.Water.Options.K1K2 = 200 },
		"carbon infinite": func(a *Aeration) { a.Water.DIC = units.AmountPerKilogram(inf) },
	} {
		a := batch
		change(&a)
		s, err := a.Settle(0.02)
		assert.Error(t, err, name)
		assert.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange), "%s: %v", name, err)
		assert.True(t, math.IsNaN(s.PH.Value()), name)
		if name != "centuries" {
			s, err = a.After(time.Hour)
			assert.Error(t, err, name)
			assert.True(t, math.IsNaN(float64(s.Water.DIC)), name)
		}
	}
	// Water without any carbon is water, and takes it up from the first minute.
	for ta := 500.; ta <= 4000; ta += 50 {
		a := batch
		a.Water.Alkalinity, a.Water.DIC = units.AmountPerKilogram(ta), 0
		s, err := a.After(time.Minute)
		require.NoError(t, err, "%v", ta)
		assert.Greater(t, float64(s.Water.DIC), 0.)
		later, err := a.After(2 * time.Minute)
		require.NoError(t, err, "%v", ta)
		checks.Relative(t, "at first in proportion", float64(later.Water.DIC), 2*float64(s.Water.DIC), 1e-2)
		at, err := a.After(1)
		require.NoError(t, err, "%v", ta)
		assert.GreaterOrEqual(t, float64(at.Water.DIC), 0.)
	}
	for _, within := range []float64{0, -1, 9e-5, 15, nan, inf} {
		_, err := batch.Settle(within)
		assert.ErrorIs(t, err, units.ErrInput)
	}
	_, err := batch.After(-1)
	assert.ErrorIs(t, err, units.ErrInput)
}

func TestOutage(t *testing.T) {
	o := Outage{Oxygen: 200, Saturation: 206, Demand: 20, Limit: 120}
	r, err := o.Reserve()
	require.NoError(t, err)
	assert.Equal(t, 4*time.Hour, r.Time, "80 at 20 an hour")
	assert.Zero(t, r.Resting)
	assert.NotEmpty(t, r.Caution)

	// A little from the surface changes little; the general solution is that of the
	// differential equation.
	for _, k := range []TransferRate{1e-12, 1e-6, 0.05, 0.2} {
		o.Rate = k
		r, err = o.Reserve()
		require.NoError(t, err)
		resting := o.Saturation - o.Demand/units.AmountPerKilogram(k)
		end := k.After(resting, o.Oxygen, r.Time)
		assert.InDelta(t, 120, float64(end), math.Max(1e-9, math.Abs(float64(resting))*1e-15), k.String())
		assert.False(t, r.Lasts)
	}
	o.Rate = 1e-12
	r, err = o.Reserve()
	require.NoError(t, err)
	assert.InDelta(t, 4, r.Time.Hours(), 1e-9)

	o.Rate = 0.3 // comes to rest at 139
	r, err = o.Reserve()
	require.NoError(t, err)
	assert.True(t, r.Lasts)
	assert.InDelta(t, 206-20/0.3, float64(r.Resting), 1e-12)
	assert.Zero(t, r.Time)

	r, err = Outage{Oxygen: 200, Saturation: 206, Limit: 120}.Reserve()
	require.NoError(t, err)
	assert.True(t, r.Lasts, "nobody breathes")
	assert.Equal(t, 200*units.MicromolePerKilogram, r.Resting)
	r, err = Outage{Oxygen: 100, Saturation: 206, Demand: 20, Limit: 120}.Reserve()
	require.NoError(t, err)
	assert.Zero(t, r.Time)
	assert.False(t, r.Lasts, "at the limit already")

	// The steady tank: supply is demand.
	k := 1.5 * PerHour
	r, err = Outage{Oxygen: 200, Saturation: 206, Demand: k.Supply(206, 200), Rate: k, Limit: 150}.Reserve()
	require.NoError(t, err)
	assert.True(t, r.Lasts)
	assert.InDelta(t, 200, float64(r.Resting), 1e-12)

	for _, bad := range []Outage{
		{Oxygen: -1}, {Saturation: -1}, {Demand: -1}, {Limit: -1}, {Rate: -1},
		{Oxygen: units.AmountPerKilogram(nan)}, {Rate: TransferRate(inf)}, {Demand: units.AmountPerKilogram(inf)},
		{Oxygen: 1e308, Saturation: 206, Rate: 1e308},
		{Oxygen: 200, Demand: 20, Rate: 0.1, Limit: 120}, // no saturation
	} {
		r, err := bad.Reserve()
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(float64(r.Resting)))
	}
}

func TestPsychrometrics(t *testing.T) {
	for _, c := range []float64{5, 15, 22, 30, 40} {
		for _, h := range []units.Fraction{units.Share(0.3), units.Share(0.5), units.Share(0.99)} {
			a := Air{units.Celsius(c), 950, h}
			d := a.DewPoint()
			checks.Relative(t, "dew point", float64(SaturationPressure(d)), float64(a.VapourPressure()), 1e-10)
			assert.Less(t, d.Celsius(), c)
		}
		full := Air{units.Celsius(c), 950, units.Share(1)}
		assert.InDelta(t, c, full.DewPoint().Celsius(), 1e-8)
		assert.InDelta(t, 1, HumidityFromWetBulb(units.Celsius(c), units.Celsius(c), 950).Value(), 1e-12)
	}
	// Dry density is what is left of the pressure, twice over.
	checks.Relative(t, "dry density", float64(room.DryDensity()), float64(room.Pressure-room.VapourPressure())*100/(dryGasConstant*295.15), 1e-6)
	assert.True(t, math.IsNaN(Air{warm, oneAtm, units.Share(0)}.DewPoint().Celsius()), "no vapour, no dew")
	assert.Zero(t, Air{warm, oneAtm, units.Share(0)}.HumidityRatio())
	for _, a := range []Air{
		{warm, oneAtm, units.Share(1.01)}, {warm, oneAtm, units.Share(-0.01)}, {warm, oneAtm, units.Share(nan)}, {warm, 0, units.Share(0.5)}, {warm, 10, units.Share(0.5)}, {warm, 10001, units.Share(0.5)},
		{units.Celsius(nan), oneAtm, units.Share(0.5)}, {units.Celsius(101), oneAtm, units.Share(0.5)}, {units.Celsius(-51), oneAtm, units.Share(0.5)}, {warm, units.AirPressure(nan), units.Share(0.5)}, {},
	} {
		for _, x := range []float64{float64(a.VapourPressure()), a.HumidityRatio(), float64(a.DryDensity()), a.Enthalpy(), a.DewPoint().Celsius(), ShahRate(sea, warm, a), VDIRate(sea, warm, a, 7), CarrierRate(sea, warm, a, 0, 1)} {
			assert.True(t, math.IsNaN(x), "%v", a)
		}
	}
	for _, x := range []units.Fraction{
		HumidityFromWetBulb(warm, units.Celsius(26), oneAtm), HumidityFromWetBulb(warm, units.Celsius(0), oneAtm),
		HumidityFromWetBulb(units.Celsius(nan), warm, oneAtm), HumidityFromWetBulb(warm, units.Celsius(nan), oneAtm), HumidityFromWetBulb(warm, warm, 0),
	} {
		assert.True(t, math.IsNaN(x.Value()), x)
	}
	assert.True(t, math.IsNaN(float64(SaturationPressure(units.Celsius(nan)))))
	assert.True(t, math.IsNaN(float64(SaturationPressure(units.Celsius(201)))))
}

// Shah with moist-air densities, the mistake that DryDensity warns of, gives too
// little at all nine points of his table.
func TestMoistDensityPitfall(t *testing.T) {
	for w := 28.; w <= 30; w++ {
		for c := 28.; c <= 30; c++ {
			a := Air{units.Celsius(c), oneAtm, units.Share(0.5)}
			full := Air{units.Celsius(w), oneAtm, units.Share(1)}
			right := ShahRate(units.Practical(0), units.Celsius(w), a)
			moist := func(a Air) float64 { return float64(a.DryDensity()) * (1 + a.HumidityRatio()) }
			wrong := shahFactor * moist(full) * math.Cbrt(math.Max(0, moist(a)-moist(full))) * (full.HumidityRatio() - a.HumidityRatio())
			assert.Less(t, wrong, 0.825*right) // 17.6 % less at least
		}
	}
}

var tank = Surface{Salinity: units.Practical(35), Temperature: units.Celsius(26), Area: 0.72}

func TestEvaporation(t *testing.T) {
	e, err := tank.Evaporate(room)
	require.NoError(t, err)
	// The spread holds at least half and double of Shah's rate.
	rate := ShahRate(tank.Salinity, tank.Temperature, room) * tank.Area.SquareMetres()
	rho := 0.9978 // kg/L of water at 22 °C (Tanaka et al. 2001)
	assert.InEpsilon(t, rate/rho, float64(e.Likely.TopOff), 1e-3)
	assert.LessOrEqual(t, float64(e.Low.TopOff), rate/2/rho*1.001)
	assert.GreaterOrEqual(t, float64(e.High.TopOff), rate*2/rho*0.999)
	ordered := func(e Evaporation) {
		t.Helper()
		assert.LessOrEqual(t, float64(e.Low.TopOff), float64(e.Likely.TopOff))
		assert.LessOrEqual(t, float64(e.Likely.TopOff), float64(e.High.TopOff))
		assert.LessOrEqual(t, float64(e.Low.Heat), float64(e.Likely.Heat))
		assert.LessOrEqual(t, float64(e.Likely.Heat), float64(e.High.Heat))
	}
	ordered(e)
	assert.LessOrEqual(t, float64(e.Low.TopOff), float64(e.Likely.TopOff)/2)
	assert.GreaterOrEqual(t, float64(e.High.TopOff), 2*float64(e.Likely.TopOff))
	// The heat is that of the mass which is topped up.
	sa := teos10.AbsoluteFromPractical(tank.Salinity)
	mass := e.Likely.TopOff.LitresPerHour() * teos10.DensityExact(units.Absolute(0), room.Temperature, 0).GramsPerMillilitre()
	checks.Relative(t, "heat", e.Likely.Heat.Watts(), mass/3600*teos10.EvaporationHeat(sa, teos10.ConservativeFromInSitu(sa, tank.Temperature, 0)), 1e-12)
	checks.Relative(t, "rate", mass/0.72, ShahRate(tank.Salinity, tank.Temperature, room), 1e-14)

	change := func(f func(*Surface, *Air)) Evaporation {
		s, a := tank, room
		f(&s, &a)
		e, err := s.Evaporate(a)
		require.NoError(t, err)
		ordered(e)
		return e
	}
	flow := func(e Evaporation) float64 { return e.Likely.TopOff.LitresPerHour() }
	assert.Greater(t, flow(change(func(s *Surface, _ *Air) { s.Temperature = units.Celsius(27) })), flow(e))
	assert.Greater(t, flow(change(func(s *Surface, _ *Air) { s.Draught = 0.5 })), 1.4*flow(e))
	assert.Greater(t, flow(change(func(_ *Surface, a *Air) { a.Humidity = units.Share(0.4) })), flow(e))
	// Under less pressure the air takes up more, but the plume has less weight.
	checks.Relative(t, "pressure", flow(change(func(_ *Surface, a *Air) { a.Pressure = 800 })), flow(e), 0.05)
	checks.Relative(t, "area", flow(change(func(s *Surface, _ *Air) { s.Area = 1.44 })), 2*flow(e), 1e-14)
	salt := flow(e) / flow(change(func(s *Surface, _ *Air) { s.Salinity = units.Practical(0) }))
	assert.InDelta(t, 0.96, salt, 0.01, "1.9 % less vapour pressure is 4 % less of the difference to the room")

	// Cold water in a moist room: the room rains into it.
	dew := change(func(s *Surface, a *Air) { s.Temperature, a.Humidity = units.Celsius(10), units.Share(0.9) })
	assert.Negative(t, flow(dew))
	assert.Negative(t, dew.High.Heat.Watts())

	// Salt by itself: vapour pressure 1.9 % lower at salinity 35, as Weiss and Price have it.
	pure := SaturationPressure(warm)
	checks.Relative(t, "salt", float64(surfacePressure(sea, warm)/pure), math.Exp(-0.000544*35), 5e-4)
}

func TestEvaporationRefuses(t *testing.T) {
	for name, change := range map[string]func(*Surface, *Air){
		"forgotten area":        func(s *Surface, _ *Air) { s.Area = 0 },
		"negative area":         func(s *Surface, _ *Air) { s.Area = -1 },
		"area NaN":              func(s *Surface, _ *Air) { s.Area = units.Area(nan) },
		"infinite area":         func(s *Surface, _ *Air) { s.Area = units.Area(inf) },
		"endless area":          func(s *Surface, _ *Air) { s.Area = math.MaxFloat64 },
		"negative draught":      func(s *Surface, _ *Air) { s.Draught = -1 },
		"salinity":              func(s *Surface, _ *Air) { s.Salinity = units.Practical(-1) },
		"brine":                 func(s *Surface, _ *Air) { s.Salinity = units.Practical(43) },
		"no water temperature":  func(s *Surface, _ *Air) { s.Temperature = units.Temperature{} },
		"boiling":               func(s *Surface, _ *Air) { s.Temperature = units.Celsius(100) },
		"no air":                func(_ *Surface, a *Air) { *a = Air{} },
		"humidity above 100 %":  func(_ *Surface, a *Air) { a.Humidity = units.Share(1.01) },
		"humidity below 0":      func(_ *Surface, a *Air) { a.Humidity = units.Share(-0.01) },
		"humidity in percent":   func(_ *Surface, a *Air) { a.Humidity = units.Share(50) },
		"humidity NaN":          func(_ *Surface, a *Air) { a.Humidity = units.Share(nan) },
		"pressure":              func(_ *Surface, a *Air) { a.Pressure = 0 },
		"pressure in pascals":   func(_ *Surface, a *Air) { a.Pressure = 101325 },
		"air temperature NaN":   func(_ *Surface, a *Air) { a.Temperature = units.Celsius(nan) },
		"freezing room":         func(_ *Surface, a *Air) { a.Temperature = units.Celsius(-1) },
		"water temperature NaN": func(s *Surface, _ *Air) { s.Temperature = units.Celsius(nan) },
	} {
		s, a := tank, room
		change(&s, &a)
		e, err := s.Evaporate(a)
		assert.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange), "%s: %v", name, err)
		assert.True(t, math.IsNaN(float64(e.Likely.TopOff)) && math.IsNaN(float64(e.High.Heat)), name)
	}
	a := room
	a.Humidity = units.Share(1.2)
	_, err := tank.Evaporate(a)
	assert.EqualError(t, err, "relative humidity: got 120 %, want 0 to 100 %")

	assert.NoError(t, tank.CheckRange(room))
	for _, r := range []struct {
		s Surface
		a Air
	}{
		{Surface{sea, units.Celsius(6.9), 1, 0}, room}, {Surface{sea, warm, 0.069, 0}, room}, {Surface{sea, warm, 426, 0}, room},
		{tank, Air{units.Celsius(35.1), oneAtm, units.Share(0.5)}}, {tank, Air{units.Celsius(5.9), oneAtm, units.Share(0.5)}},
		{tank, Air{warm, oneAtm, units.Share(0.279)}}, {tank, Air{warm, oneAtm, units.Share(0.951)}}, {tank, Air{warm, oneAtm, units.Share(nan)}},
	} {
		assert.ErrorIs(t, r.s.CheckRange(r.a), units.ErrRange)
	}
}
