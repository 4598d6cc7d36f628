package teos10

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

func TestCheckRange(t *testing.T) {
	freezing := FreezingConservativePolynomial(units.Absolute(35), 0, units.Share(1)).Celsius()
	for _, r := range []struct {
		s, ct, p float64
		bad      string
	}{
		{35, 25, 0, ""}, {0, 25, 0, ""}, {42, 40, 0, ""}, {35, freezing, 0, ""},
		{42.01, 25, 0, "absolute salinity"}, {-0.01, 25, 0, "absolute salinity"},
		{35, 40.01, 0, "Conservative Temperature"}, {35, freezing - 0.01, 0, "Conservative Temperature"},
		{35, 25, -0.1, "sea pressure"}, {35, 25, 8001, "sea pressure"},
		{0, 35, 499, ""}, {0, 30.1, 500, "Conservative Temperature"}, {2.4, 20, 1000, "absolute salinity"},
		{2.6, 20, 1000, ""}, {35, 9.9, 8000, ""}, {35, 10.1, 8000, "Conservative Temperature"},
		{29.9, 5, 7000, "absolute salinity"},
		{nan, 25, 0, "absolute salinity"}, {35, nan, 0, "Conservative Temperature"}, {35, 25, nan, "sea pressure"},
		{inf, 25, 0, "absolute salinity"},
	} {
		out(t, r.bad, CheckRange(absolute(r.s), Conservative(r.ct), pressure(r.p)))
	}
}

func out(t *testing.T, quantity string, err error) {
	t.Helper()
	if quantity == "" {
		assert.NoError(t, err)
		return
	}
	assert.ErrorIs(t, err, units.ErrRange)
	var e *units.RangeError
	if assert.ErrorAs(t, err, &e) {
		assert.Equal(t, quantity, e.Quantity)
		assert.NotEmpty(t, e.Source)
	}
}

func TestCheckRangesOfTheOthers(t *testing.T) {
	for _, r := range []struct {
		s, c, p float64
		bad     string
	}{
		{0, 25, 0, ""}, {120, 40, 9989, ""}, {120.1, 25, 0, "absolute salinity"}, {35, 40.1, 0, "temperature"},
		{35, -12.2, 0, "temperature"}, {35, -12.1, 0, ""}, {35, 25, 9990, "sea pressure"}, {35, 25, -10.2, "sea pressure"},
		{35, nan, 0, "temperature"},
	} {
		out(t, r.bad, CheckRangeExact(absolute(r.s), celsius(r.c), pressure(r.p)))
	}
	out(t, "", CheckRangeFreezing(absolute(120), 0, units.Share(1)))
	out(t, "absolute salinity", CheckRangeFreezing(absolute(121), 0, units.Share(0)))
	out(t, "air saturation", CheckRangeFreezing(absolute(35), 0, units.Share(1.01)))
	out(t, "air saturation", CheckRangeFreezing(absolute(35), 0, units.Share(-0.01)))
	out(t, "sea pressure", CheckRangeFreezing(absolute(35), 10001, units.Share(0)))
	out(t, "temperature", CheckRangeFreezing(absolute(119), 9000, units.Share(0)))
	for _, r := range []struct {
		check        func(s, c float64) error
		s, lo, hi, d float64
	}{
		{func(s, c float64) error { return CheckRangeEvaporation(absolute(s), Conservative(c)) }, 42, 0, 40, 0.01},
		{func(s, c float64) error { return CheckRangeViscosity(absolute(s), celsius(c)) }, 150, 0, 180, 0.01},
		{func(s, c float64) error { return CheckRangeThermalConductivity(absolute(s), celsius(c)) }, 170, 0, 110, 0.01},
		{func(s, c float64) error { return CheckRangeSurfaceTension(absolute(s), celsius(c)) }, 131, 1, 92, 0.01},
	} {
		assert.NoError(t, r.check(0, r.lo))
		assert.NoError(t, r.check(r.s, r.hi))
		for _, bad := range []error{r.check(r.s+r.d, r.lo), r.check(-r.d, r.lo), r.check(r.s, r.hi+r.d),
			r.check(r.s, r.lo-r.d), r.check(nan, r.lo), r.check(0, nan)} {
			assert.ErrorIs(t, bad, units.ErrRange)
		}
	}
}

// everything lists all results for a water; the order does not matter.
func everything(s, c, p float64) []float64 {
	sa, t, ct, pt, pr := absolute(s), celsius(c), Conservative(c), Potential(c), pressure(p)
	d := Gibbs(sa, t, pr)
	return append([]float64{
		SpecificVolume(sa, ct, pr), float64(Density(sa, ct, pr)), ThermalExpansion(sa, ct, pr),
		HalineContraction(sa, ct, pr), Compressibility(sa, ct, pr), float64(SoundSpeed(sa, ct, pr)),
		Enthalpy(sa, ct, pr), InternalEnergy(sa, ct, pr),
		float64(d.G), float64(d.T), float64(d.P), float64(d.SP), float64(d.TT), float64(d.TP), float64(d.PP),
		SpecificVolumeExact(sa, t, pr), float64(DensityExact(sa, t, pr)), EnthalpyExact(sa, t, pr),
		InternalEnergyExact(sa, t, pr), EntropyExact(sa, t, pr), float64(HeatCapacityExact(sa, t, pr)),
		ThermalExpansionExact(sa, t, pr), HalineContractionExact(sa, t, pr), IsothermalCompressibilityExact(sa, t, pr),
		CompressibilityExact(sa, t, pr), float64(SoundSpeedExact(sa, t, pr)), LapseRateExact(sa, t, pr),
		WaterPotential(sa, t, pr), OsmoticCoefficient(sa, t, pr), float64(OsmoticPressure(sa, t, pr)),
		ConservativeFromInSitu(sa, t, pr).Celsius(), InSituFromConservative(sa, ct, pr).Celsius(),
		PotentialFromInSitu(sa, t, pr).Celsius(), InSituFromPotential(sa, pt, pr).Celsius(),
		MovedTemperature(sa, t, pr, 100).Celsius(), MovedTemperature(sa, t, 100, pr).Celsius(),
	}, atSurface(s, c)...)
}

// atSurface lists the results that depend on no pressure.
func atSurface(s, c float64) []float64 {
	sa, t, ct, pt := absolute(s), celsius(c), Conservative(c), Potential(c)
	return []float64{
		float64(SurfaceDensity(sa, ct)), ConservativeFromPotential(sa, pt).Celsius(),
		PotentialFromConservative(sa, ct).Celsius(), EvaporationHeat(sa, ct), VapourPressure(sa, t),
		Viscosity(sa, t), ThermalConductivity(sa, t), SurfaceTension(sa, t),
	}
}

// frozen lists the results that depend on no temperature.
func frozen(s, p float64) []float64 {
	sa, pr := absolute(s), pressure(p)
	return []float64{
		FreezingTemperature(sa, pr, units.Share(1)).Celsius(), FreezingConservativePolynomial(sa, pr, units.Share(1)).Celsius(), MeltingHeat(sa, pr),
	}
}

func TestMeaninglessInputGivesNaN(t *testing.T) {
	for _, bad := range [][3]float64{
		{-1e-9, 25, 0}, {-1, 25, 10}, {1000.1, 25, 0}, {nan, 25, 0}, {inf, 25, 0}, {-inf, 25, 0},
		{35, -273.2, 0}, {35, nan, 0}, {35, inf, 0}, {35, -inf, 0},
	} {
		for i, x := range everything(bad[0], bad[1], bad[2]) {
			assert.True(t, math.IsNaN(x), "result %d of %v is %v", i, bad, x)
		}
	}
	for _, p := range []float64{nan, inf, -inf} {
		n := len(everything(35, 25, p)) - len(atSurface(35, 25))
		for i, x := range everything(35, 25, p)[:n] {
			assert.True(t, math.IsNaN(x), "result %d at p = %v is %v", i, p, x)
		}
	}
	for _, bad := range [][2]float64{{-1e-9, 0}, {1000.1, 0}, {nan, 0}, {inf, 0}, {35, nan}, {35, inf}, {35, -inf}} {
		for i, x := range frozen(bad[0], bad[1]) {
			assert.True(t, math.IsNaN(x), "result %d of %v is %v", i, bad, x)
		}
	}
	sa := absolute(35)
	for _, air := range []float64{-0.1, nan, inf} {
		assert.True(t, math.IsNaN(FreezingTemperature(sa, 0, units.Share(air)).Celsius()), air)
		assert.True(t, math.IsNaN(FreezingConservativePolynomial(sa, 0, units.Share(air)).Celsius()), air)
	}
	assert.True(t, math.IsNaN(SalinityFromDensity(1025, Conservative(nan), 0).GramsPerKilogram()))
	assert.True(t, math.IsNaN(SalinityFromDensityExact(1025, celsius(nan), 0).GramsPerKilogram()))
}

// Pure water is a value like any other; only the potential of salt that is not
// there has no bottom.
func TestPureWaterAndTheBounds(t *testing.T) {
	for _, w := range [][3]float64{{0, 25, 0}, {0, 25, 1000}, {42, 40, 0}, {120, -5, 9900}, {0, 0, 0}} {
		for i, x := range everything(w[0], w[1], w[2]) {
			assert.False(t, math.IsNaN(x) || math.IsInf(x, 0), "result %d of %v is %v", i, w, x)
		}
		for i, x := range frozen(w[0], w[2]) {
			assert.False(t, math.IsNaN(x) || math.IsInf(x, 0), "result %d of %v is %v", i, w, x)
		}
	}
	d := Gibbs(absolute(0), celsius(25), 0)
	assert.True(t, math.IsInf(float64(d.S), -1) && math.IsInf(float64(d.ST), -1) && math.IsInf(float64(d.SS), 1))
	assert.True(t, math.IsInf(RelativePotential(absolute(0), celsius(25), 0), -1))
	assert.True(t, math.IsInf(SaltPotential(absolute(0), celsius(25), 0), -1))
}

func TestNothingAllocates(t *testing.T) {
	s, c, p := 35.0, 25.0, 100.0
	sa, temp, ct, pr := absolute(s), celsius(c), Conservative(c), pressure(p)
	checks.NoAllocations(t, "the polynomial", func() {
		sink += SpecificVolume(sa, ct, pr) + float64(Density(sa, ct, pr)) + ThermalExpansion(sa, ct, pr) +
			HalineContraction(sa, ct, pr) + Compressibility(sa, ct, pr) + float64(SoundSpeed(sa, ct, pr)) +
			Enthalpy(sa, ct, pr) + InternalEnergy(sa, ct, pr) + float64(SurfaceDensity(sa, ct)) +
			SalinityFromDensity(1025, ct, pr).GramsPerKilogram()
	})
	checks.NoAllocations(t, "the Gibbs function", func() {
		sink += float64(Gibbs(sa, temp, pr).G+GibbsWater(temp, pr).G+GibbsSaline(sa, temp, pr).G) +
			SpecificVolumeExact(sa, temp, pr) + float64(DensityExact(sa, temp, pr)) + EnthalpyExact(sa, temp, pr) +
			InternalEnergyExact(sa, temp, pr) + EntropyExact(sa, temp, pr) + float64(HeatCapacityExact(sa, temp, pr)) +
			ThermalExpansionExact(sa, temp, pr) + HalineContractionExact(sa, temp, pr) +
			IsothermalCompressibilityExact(sa, temp, pr) + CompressibilityExact(sa, temp, pr) +
			float64(SoundSpeedExact(sa, temp, pr)) + LapseRateExact(sa, temp, pr) + WaterPotential(sa, temp, pr) +
			SaltPotential(sa, temp, pr) + RelativePotential(sa, temp, pr) + OsmoticCoefficient(sa, temp, pr) +
			float64(OsmoticPressure(sa, temp, pr)) + SalinityFromDensityExact(1025, temp, pr).GramsPerKilogram()
	})
	checks.NoAllocations(t, "temperatures", func() {
		sink += ConservativeFromInSitu(sa, temp, pr).celsius + InSituFromConservative(sa, ct, pr).Celsius() +
			PotentialFromInSitu(sa, temp, pr).celsius + InSituFromPotential(sa, Potential(c), pr).Celsius() +
			MovedTemperature(sa, temp, pr, 0).Celsius() + ConservativeFromPotential(sa, Potential(c)).celsius +
			PotentialFromConservative(sa, ct).celsius
	})
	checks.NoAllocations(t, "the others", func() {
		sink += FreezingTemperature(sa, pr, units.Share(1)).Celsius() + FreezingConservativePolynomial(sa, pr, units.Share(1)).celsius + MeltingHeat(sa, pr) +
			EvaporationHeat(sa, ct) + VapourPressure(sa, temp) + Viscosity(sa, temp) + ThermalConductivity(sa, temp) +
			SurfaceTension(sa, temp) + DensitySalinity(units.Practical(35), Solutes{}).GramsPerKilogram() + Molality(sa)
	})
}

// Each limit of the exact family is in, the next number is out.
func TestExactLimitsAreSharp(t *testing.T) {
	inside := func(s, c, p float64) { out(t, "", CheckRangeExact(absolute(s), celsius(c), pressure(p))) }
	inside(120, 40, 9989.8675)
	inside(0, 261-zeroCelsius, -10.1325)
	out(t, "absolute salinity", CheckRangeExact(absolute(math.Nextafter(120, 121)), celsius(25), 0))
	out(t, "temperature", CheckRangeExact(absolute(35), celsius(math.Nextafter(40, 41)), 0))
	out(t, "temperature", CheckRangeExact(absolute(35), celsius(math.Nextafter(261-zeroCelsius, -20)), 0))
	out(t, "sea pressure", CheckRangeExact(absolute(35), celsius(25), pressure(math.Nextafter(9989.8675, 1e4))))
	out(t, "sea pressure", CheckRangeExact(absolute(35), celsius(25), pressure(math.Nextafter(-10.1325, -11))))
	// Ice in 55 g/kg at 9750 dbar forms above -12.15 °C in situ, though the
	// Conservative Temperature of that water is below.
	out(t, "", CheckRangeFreezing(absolute(55), pressure(9750), units.Share(1)))
	assert.Less(t, FreezingConservativePolynomial(absolute(55), pressure(9750), units.Share(1)).Celsius(), -12.15)
}

func TestImpossibleSalinitiesAreNaN(t *testing.T) {
	fresh := Solutes{Alkalinity: 2300 * units.MicromolePerKilogram}
	assert.True(t, math.IsNaN(PracticalFromDensitySalinity(absolute(0.01), fresh).Value()))
	assert.True(t, math.IsNaN(DensitySalinity(units.Practical(1), Solutes{Alkalinity: -1e6 * units.MillimolePerKilogram}).GramsPerKilogram()))
	assert.True(t, math.IsNaN(SalinityFromDensityExact(DensityExact(absolute(0), celsius(20), 0)-0.001, celsius(20), 0).GramsPerKilogram()))
	assert.True(t, math.IsInf(float64(Gibbs(units.Absolute(math.Copysign(0, -1)), celsius(20), 0).SS), 1))
}
