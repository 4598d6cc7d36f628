package seawater

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// Whatever the readings: an error and nothing, or a mean among them with a finite
// uncertainty, and nobody apart who is in the majority.
func FuzzAgree(f *testing.F) {
	f.Add(35.0, 35.1, 34.9, 38.0, 0.1, 0.1, 0.2, 0.1)
	f.Add(34.0, 35.0, 36.0, 35.5, 0.2, 0.2, 0.2, 5.0)
	f.Add(0.0, 1e308, 1e-310, 35.0, 5e-324, 1e308, 1.0, 1e-160)
	f.Fuzz(func(t *testing.T, a, b, c, d, ua, ub, uc, ud float64) {
		reading := func(s, u float64) Reading { return Reading{"", units.Absolute(s), units.Absolute(u)} }
		all := []Reading{reading(a, ua), reading(b, ub), reading(c, uc), reading(d, ud)}
		for n := 1; n <= len(all); n++ {
			x, err := Agree(all[:n]...)
			mean, u := x.Salinity.GramsPerKilogram(), x.Uncertainty.GramsPerKilogram()
			if err != nil {
				require.ErrorIs(t, err, units.ErrInput)
				require.True(t, math.IsNaN(mean) && math.IsNaN(u) && x.Apart == nil && !x.Decided)
				continue
			}
			least, most := math.Inf(1), 0.
			for _, r := range all[:n] {
				least, most = min(least, r.Salinity.GramsPerKilogram()), max(most, r.Salinity.GramsPerKilogram())
			}
			require.True(t, mean >= least*(1-1e-12) && mean <= most*(1+1e-12), "%v of %v", mean, all[:n])
			require.True(t, u > 0 && u <= math.MaxFloat64, "%v of %v", u, all[:n])
			require.True(t, x.ChiSquare >= 0 && x.ChiSquare <= math.MaxFloat64 && x.Birge >= 0, "%+v of %v", x, all[:n])
			require.True(t, x.Probability >= 0 && x.Probability <= 1, "%+v", x)
			require.True(t, 2*len(x.Apart) < n, "%+v", x)
			require.False(t, x.Consistent && !x.Decided)
		}
	})
}

// Each way to make a sample: refused with NaN, or water that answers every question
// with a number and comes back by the same way.
func FuzzSample(f *testing.F) {
	f.Add(35.0, 25.0)
	f.Add(53.0, 25.0)
	f.Add(1.0, -2.0)
	f.Add(1023.0, 40.0)
	f.Add(1e308, 1e-310)
	f.Fuzz(func(t *testing.T, x, celsius float64) {
		at := units.Celsius(celsius)
		for _, make := range []func() (Sample, error){
			func() (Sample, error) { return FromAbsolute(units.Absolute(x), at) },
			func() (Sample, error) { return FromPractical(units.Practical(x), at) },
			func() (Sample, error) { return FromConductivity(units.Conductivity(x), at) },
			func() (Sample, error) { return FromDensity(units.Density(x), at) },
			func() (Sample, error) { return FromSpecificGravity(units.Gravity(x, units.SG25C())) },
		} {
			s, err := make()
			if err != nil {
				require.True(t, math.IsNaN(s.Absolute().GramsPerKilogram()) && math.IsNaN(s.Density().KilogramsPerCubicMetre()))
				continue
			}
			for _, y := range []float64{s.Absolute().GramsPerKilogram(), s.Density().KilogramsPerCubicMetre(), float64(s.HeatCapacity()),
				s.FreezingPoint().Kelvin(), s.OsmoticPressure().Bars() + 1e-9, float64(s.SoundSpeed()), s.Viscosity(), s.EvaporationHeat()} {
				require.True(t, y >= 0 && y <= math.MaxFloat64, "%v: %v", s, y)
			}
			back, err := FromDensity(s.Density(), s.Temperature())
			require.NoError(t, err)
			require.InDelta(t, s.Absolute().GramsPerKilogram(), back.Absolute().GramsPerKilogram(), 1e-8)
		}
	})
}
