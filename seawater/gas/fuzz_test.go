package gas

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

func finite(x float64) bool { return math.Abs(x) <= math.MaxFloat64 }

func typed(err error) bool {
	return errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange)
}

// Inside the published ranges every content is a positive number; elsewhere it is a
// number or NaN, never an infinity.
func FuzzSaturation(f *testing.F) {
	f.Add(35.0, 25.0, 1013.25, 420.0)
	f.Add(0.0, -2.0, 300.0, 0.0)
	f.Add(120.0, 100.0, 10000.0, 1e6)
	f.Fuzz(func(t *testing.T, salinity, celsius, hectopascals, ppm float64) {
		s, c, p := units.Practical(salinity), units.Celsius(celsius), units.AirPressure(hectopascals)
		e := Equilibrium(s, c, p, carbonate.XCO2(ppm))
		for g, x := range [...]units.AmountPerKilogram{e.Oxygen, e.Nitrogen, e.Argon, e.CarbonDioxide} {
			require.False(t, math.IsInf(float64(x), 0))
			if Species(g).CheckRange(s, c) == nil && p >= 300 && p <= 1100 && ppm >= 0 && ppm <= 1e6 {
				require.True(t, x >= 0, "%v of %v", x, Species(g))
			}
			require.False(t, math.IsInf(Species(g).Schmidt(s, c), 0))
			require.False(t, math.IsInf(float64(Species(g).SaturationWeiss(s, c)), 0))
		}
		require.False(t, math.IsInf(float64(e.Pressures(s, c).Total()), 0))
		a := Air{c, p, units.Share(ppm)}
		require.False(t, math.IsInf(ShahRate(s, c, a), 0))
		_ = a.DewPoint()
	})
}

func FuzzFit(f *testing.F) {
	f.Add(0.2, 0.5, 0.7, 0.8, 0.85, int64(6e11), int64(6e11), int64(6e11), 1.0)
	f.Add(0.5, 0.5, 0.5, 0.5, 0.5, int64(1), int64(1), int64(math.MaxInt64), 1.0)
	f.Fuzz(func(t *testing.T, a, b, c, d, e float64, t1, t2, t3 int64, saturation float64) {
		log := []Reading{
			{0, units.Share(a)}, {time.Duration(t1), units.Share(b)}, {time.Duration(t2), units.Share(c)},
			{time.Duration(t3), units.Share(d)}, {time.Duration(t3) + time.Hour, units.Share(e)},
		}
		for _, fit := range []func() (TransferFit, error){
			func() (TransferFit, error) { return FitDeficit(log, units.Share(saturation)) },
			func() (TransferFit, error) { return FitCurve(log) },
		} {
			got, err := fit()
			if err != nil {
				require.True(t, typed(err) || errors.Is(err, units.ErrNoConvergence), "%v", err)
				require.True(t, math.IsNaN(got.Rate.PerHour()))
				continue
			}
			require.True(t, got.Rate > 0 && finite(float64(got.Rate)) && got.Uncertainty >= 0 && finite(float64(got.Uncertainty)), "%+v", got)
			require.True(t, finite(got.Saturation.Value()))
		}
	})
}

func FuzzAeration(f *testing.F) {
	f.Add(35.0, 25.0, 2500.0, 2450.0, 800.0, 1013.25, 1.5, 0.02, 12.0)
	f.Add(0.0, 0.0, 0.0, 0.0, 1.0, 300.0, 1e-6, 1e-4, 1e-9)
	f.Fuzz(func(t *testing.T, salinity, celsius, ta, dic, ppm, hectopascals, rate, within, hours float64) {
		a := Aeration{
			Water: carbonate.Water{Salinity: units.Practical(salinity), Temperature: units.Celsius(celsius),
				Alkalinity: units.AmountPerKilogram(ta), DIC: units.AmountPerKilogram(dic)},
			Air: carbonate.XCO2(ppm), Pressure: units.AirPressure(hectopascals), Rate: TransferRate(rate),
		}
		known := func(err error) bool {
			return typed(err) || errors.Is(err, carbonate.ErrNoSolution) || errors.Is(err, units.ErrNoConvergence)
		}
		s, err := a.Settle(within)
		if err != nil {
			require.True(t, known(err), "%v", err)
			require.True(t, math.IsNaN(s.PH.Value()))
		} else {
			require.True(t, s.Time >= 0 && finite(s.PH.Value()) && finite(float64(s.Water.DIC)), "%+v", s)
		}
		if math.Abs(hours) < 1e6 {
			s, err = a.After(time.Duration(hours * 3.6e12))
			if err != nil {
				require.True(t, known(err), "%v", err)
				require.True(t, math.IsNaN(s.PH.Value()))
			} else {
				require.True(t, finite(s.PH.Value()) && finite(float64(s.Water.DIC)), "%+v", s)
			}
		}
	})
}

func FuzzEvaporate(f *testing.F) {
	f.Add(35.0, 26.0, 0.72, 0.0, 22.0, 1013.25, 0.5)
	f.Add(0.0, -2.0, 1e300, 1e300, 60.0, 300.0, 1.0)
	f.Fuzz(func(t *testing.T, salinity, celsius, area, draught, air, hectopascals, humidity float64) {
		s := Surface{units.Practical(salinity), units.Celsius(celsius), units.Area(area), units.Speed(draught)}
		e, err := s.Evaporate(Air{units.Celsius(air), units.AirPressure(hectopascals), units.Share(humidity)})
		if err != nil {
			require.True(t, typed(err), "%v", err)
			require.True(t, math.IsNaN(float64(e.Likely.TopOff)))
			return
		}
		require.True(t, finite(float64(e.Low.Heat)) && e.Low.TopOff <= e.Likely.TopOff && e.Likely.TopOff <= e.High.TopOff && finite(float64(e.High.Heat)), "%+v", e)
	})
}

func FuzzOutage(f *testing.F) {
	f.Add(200.0, 206.0, 20.0, 0.1, 120.0)
	f.Fuzz(func(t *testing.T, oxygen, saturation, demand, rate, limit float64) {
		r, err := Outage{units.AmountPerKilogram(oxygen), units.AmountPerKilogram(saturation), units.AmountPerKilogram(demand),
			TransferRate(rate), units.AmountPerKilogram(limit)}.Reserve()
		if err != nil {
			require.True(t, typed(err))
			return
		}
		require.True(t, r.Time >= 0 && (!r.Lasts || r.Time == 0), "%+v", r)
	})
}

func FuzzRateText(f *testing.F) {
	f.Add("3.5 1/h")
	f.Add("1e9 per minute")
	f.Fuzz(func(t *testing.T, text string) {
		k, err := units.Parse[TransferRate](text)
		if err != nil {
			require.True(t, typed(err) && math.IsNaN(float64(k)))
			return
		}
		written, err := k.MarshalText()
		require.NoError(t, err)
		back, err := units.Parse[TransferRate](string(written))
		require.NoError(t, err)
		require.Equal(t, k, back)
	})
}
