package teos10

import (
	"math"
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// FuzzWater: whatever the numbers, every function ends without panic, and a
// water inside the published ranges has finite properties.
func FuzzWater(f *testing.F) {
	for _, w := range [][3]float64{
		{35, 25, 0}, {0, 0, 0}, {42, 40, 8000}, {120, -12, 9989}, {-1, -300, -20}, {1000, 1e5, 1e9},
		{math.NaN(), math.Inf(1), math.Inf(-1)}, {math.MaxFloat64, -math.MaxFloat64, math.MaxFloat64},
		{5e-324, 5e-324, 5e-324}, {999.999, -273.15, 1e300}, {35, 1e300, 0}, {35, 373.9, 0}, {35, 374, 0},
	} {
		f.Add(w[0], w[1], w[2])
	}
	f.Fuzz(func(t *testing.T, s, c, p float64) {
		sa, temp, ct, pr := absolute(s), celsius(c), Conservative(c), pressure(p)
		all := append(everything(s, c, p), frozen(s, p)...)
		all = append(all, SalinityFromDensity(units.Density(s), ct, pr).GramsPerKilogram(),
			SalinityFromDensityExact(units.Density(s), temp, pr).GramsPerKilogram(),
			SaltPotential(sa, temp, pr), Molality(sa), IonicStrength(sa))
		if CheckRangeExact(sa, temp, pr) == nil && CheckRangeFreezing(sa, pr, units.Share(0)) == nil && p >= -10 {
			for i, x := range all[:len(all)-5] {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Errorf("result %d of S=%v t=%v p=%v is %v", i, s, c, p, x)
				}
			}
		}
		if CheckRange(sa, ct, pr) == nil {
			// The density knows the salinity, and moving to the surface and back changes nothing.
			if back := SalinityFromDensity(Density(sa, ct, pr), ct, pr).GramsPerKilogram(); !(math.Abs(back-s) <= 1e-10) {
				t.Errorf("salinity of S=%v CT=%v p=%v comes back as %v", s, c, p, back)
			}
			if back := ConservativeFromInSitu(sa, InSituFromConservative(sa, ct, pr), pr).Celsius(); !(math.Abs(back-c) <= 1e-12) {
				t.Errorf("temperature of S=%v CT=%v p=%v comes back as %v", s, c, p, back)
			}
		}
	})
}

// Within its range each inverse undoes its function; anywhere it ends, with a number or NaN.
func FuzzInverses(f *testing.F) {
	f.Add(35.0, 20.0, 0.0)
	f.Add(0.0, 100.0, 0.0)
	f.Add(120.0, -7.6, 9000.0)
	f.Add(1e-300, 1e300, 1e300)
	f.Fuzz(func(t *testing.T, s, c, p float64) {
		sa, temp, pr := absolute(s), celsius(c), pressure(p)
		fromEnthalpy := TemperatureFromEnthalpyExact(sa, EnthalpyExact(sa, temp, pr), pr).Celsius()
		fromEntropy := TemperatureFromEntropyExact(sa, EntropyExact(sa, temp, pr), pr).Celsius()
		fromHot := TemperatureFromHotEnthalpy(sa, HotEnthalpy(sa, temp)).Celsius()
		fromFreezing := FreezingSalinity(FreezingTemperature(sa, pr, units.Share(1)), pr, units.Share(1)).GramsPerKilogram()
		for _, x := range []float64{MaximumDensityTemperature(sa, pr).Celsius(), MaximumDensityTemperatureExact(sa, pr).Celsius(),
			TemperatureFromEnthalpyExact(sa, c, pr).Celsius(), TemperatureFromEntropyExact(sa, c, pr).Celsius(),
			FreezingSalinity(temp, pr, units.Share(0.5)).GramsPerKilogram(), TemperatureFromHotEnthalpy(sa, c).Celsius()} {
			if math.IsInf(x, 0) {
				t.Errorf("%v of %v %v %v", x, s, c, p)
			}
		}
		if CheckRangeExact(sa, temp, pr) == nil {
			checks.Absolute(t, "from enthalpy", fromEnthalpy, c, 1e-10)
			checks.Absolute(t, "from entropy", fromEntropy, c, 1e-10)
		}
		if CheckRangeHot(sa, temp) == nil {
			checks.Absolute(t, "from hot enthalpy", fromHot, c, 1e-9)
		}
		if CheckRangeFreezing(sa, pr, units.Share(1)) == nil {
			checks.Absolute(t, "from freezing", fromFreezing, s, 1e-8)
		}
	})
}
