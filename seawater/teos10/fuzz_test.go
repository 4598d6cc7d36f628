package teos10

import (
	"math"
	"testing"

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
