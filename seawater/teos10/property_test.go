package teos10

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// eachWater calls f for n waters spread over a box, with -short for a tenth of them.
func eachWater(n int, saMax, tMin, tMax, pMax float64, f func(sa, t, p float64)) {
	r := rand.New(rand.NewPCG(9, 10))
	for i := range checks.Runs(n, n/10) {
		sa, t, p := saMax*r.Float64(), tMin+(tMax-tMin)*r.Float64(), pMax*r.Float64()
		if i%5 == 0 {
			p = 0
		}
		f(sa, t, p)
	}
}

// slope is the fourth-order difference quotient of f.
func slope(f func(x float64) float64, x, h float64) float64 {
	return (8*(f(x+h)-f(x-h)) - (f(x+2*h) - f(x-2*h))) / (12 * h)
}

func TestGibbsDerivativesAreSlopes(t *testing.T) {
	eachWater(200, 110, -5, 40, 9000, func(s, c, p float64) {
		s++
		g := func(s, c, p float64) Derivatives { return Gibbs(absolute(s), celsius(c), pressure(p)) }
		d := g(s, c, p)
		const hS, hT, hP = 1e-2, 0.1, 10. // g/kg, K, dbar
		along := func(what string, got, want, tol float64) {
			t.Helper()
			checks.Absolute(t, what, got, want, tol)
		}
		inS := func(pick func(Derivatives) float64) float64 {
			return slope(func(s float64) float64 { return pick(g(s, c, p)) }, s, hS*s)
		}
		inT := func(pick func(Derivatives) float64) float64 {
			return slope(func(c float64) float64 { return pick(g(s, c, p)) }, c, hT)
		}
		inP := func(pick func(Derivatives) float64) float64 {
			return slope(func(p float64) float64 { return pick(g(s, c, p)) }, p, hP) / 1e4
		}
		along("g_S", inS(func(d Derivatives) float64 { return float64(d.G) }), float64(d.S), 1e-5)
		along("g_T", inT(func(d Derivatives) float64 { return float64(d.G) }), float64(d.T), 1e-7)
		along("g_P", inP(func(d Derivatives) float64 { return float64(d.G) }), float64(d.P), 1e-14)
		along("g_SS", inS(func(d Derivatives) float64 { return float64(d.S) }), float64(d.SS), float64(1e-6*d.SS))
		along("g_ST", inT(func(d Derivatives) float64 { return float64(d.S) }), float64(d.ST), 1e-8)
		along("g_ST", inS(func(d Derivatives) float64 { return float64(d.T) }), float64(d.ST), 1e-6)
		along("g_SP", inP(func(d Derivatives) float64 { return float64(d.S) }), float64(d.SP), 1e-15)
		along("g_SP", inS(func(d Derivatives) float64 { return float64(d.P) }), float64(d.SP), 1e-12)
		along("g_TT", inT(func(d Derivatives) float64 { return float64(d.T) }), float64(d.TT), 1e-7)
		along("g_TP", inT(func(d Derivatives) float64 { return float64(d.P) }), float64(d.TP), 1e-13)
		along("g_TP", inP(func(d Derivatives) float64 { return float64(d.T) }), float64(d.TP), 1e-15)
		along("g_PP", inP(func(d Derivatives) float64 { return float64(d.P) }), float64(d.PP), 1e-20)
	})
}

// The functions that take shortcuts through the Gibbs function agree with its
// ten derivatives.
func TestExactFamilyFollowsFromGibbs(t *testing.T) {
	eachWater(300, 120, -10, 40, 9900, func(s, c, p float64) {
		sa, temp, pr := absolute(s), celsius(c), pressure(p)
		d := Gibbs(sa, temp, pr)
		k, abs := temp.Kelvin(), 1e4*p+101325
		checks.Relative(t, "v", SpecificVolumeExact(sa, temp, pr), float64(d.P), 1e-14)
		checks.Relative(t, "ρ", float64(DensityExact(sa, temp, pr)), float64(1/d.P), 1e-14)
		checks.Absolute(t, "h", EnthalpyExact(sa, temp, pr), float64(d.G)-k*float64(d.T), 1e-9)
		checks.Absolute(t, "u", InternalEnergyExact(sa, temp, pr), float64(d.G)-k*float64(d.T)-abs*float64(d.P), 1e-9)
		checks.Absolute(t, "η", EntropyExact(sa, temp, pr), -float64(d.T), 1e-11)
		checks.Relative(t, "c_p", float64(HeatCapacityExact(sa, temp, pr)), -k*float64(d.TT), 1e-13)
		checks.Absolute(t, "α", ThermalExpansionExact(sa, temp, pr), float64(d.TP/d.P), 1e-17)
		checks.Relative(t, "β", HalineContractionExact(sa, temp, pr), -float64(d.SP)/float64(d.P), 1e-13)
		checks.Relative(t, "κ_T", IsothermalCompressibilityExact(sa, temp, pr), -float64(d.PP)/float64(d.P), 1e-13)
		adiabatic := float64(d.TP*d.TP - d.TT*d.PP)
		checks.Relative(t, "κ", CompressibilityExact(sa, temp, pr), adiabatic/float64(d.P*d.TT), 1e-13)
		checks.Relative(t, "c", float64(SoundSpeedExact(sa, temp, pr)), float64(d.P)*math.Sqrt(float64(d.TT)/adiabatic), 1e-13)
		checks.Absolute(t, "Γ", LapseRateExact(sa, temp, pr), -float64(d.TP)/float64(d.TT), 1e-20)
		checks.Absolute(t, "µ_W", WaterPotential(sa, temp, pr), float64(d.G)-s*float64(d.S), 1e-9)
		checks.Absolute(t, "µ_S", SaltPotential(sa, temp, pr), float64(d.G)+(1000-s)*float64(d.S), 1e-7)
		checks.Absolute(t, "µ", RelativePotential(sa, temp, pr), float64(1000*d.S), 1e-7)
		saline := GibbsSaline(sa, temp, pr)
		checks.Absolute(t, "φ", OsmoticCoefficient(sa, temp, pr),
			-(float64(saline.G)-s*float64(saline.S))/(Molality(sa)*gasConstant*k), 1e-9)

		water := Gibbs(units.AbsoluteSalinity{}, temp, pr)
		assert.Equal(t, float64(GibbsWater(temp, pr).P), float64(water.P))
		checks.Absolute(t, "gW + gS", float64(GibbsWater(temp, pr).G+saline.G), float64(d.G), 1e-9)
	})
}

// The 75-term polynomial is a fit to the Gibbs function. Its largest
// differences from it, in the range that a tank can have:
func TestPolynomialAgreesWithGibbs(t *testing.T) {
	eachWater(1000, 41, 0, 39, 500, func(s, c, p float64) {
		s++
		sa, temp, pr := absolute(s), celsius(c), pressure(p)
		ct := ConservativeFromInSitu(sa, temp, pr)
		// α and β of the polynomial hold CT and not t, so they are compared with the
		// slopes of the exact volume along CT and SA.
		exact := func(s, c float64) float64 {
			sa := absolute(s)
			return SpecificVolumeExact(sa, InSituFromConservative(sa, Conservative(c), pr), pr)
		}
		v := exact(s, ct.celsius)
		checks.Absolute(t, "ρ", float64(Density(sa, ct, pr)), float64(DensityExact(sa, temp, pr)), 1.4e-3)
		if s >= 5 && c >= 10 && c <= 35 && p == 0 {
			checks.Absolute(t, "ρ in a tank", float64(SurfaceDensity(sa, ct)), float64(DensityExact(sa, temp, 0)), 7e-4)
		}
		checks.Absolute(t, "α", ThermalExpansion(sa, ct, pr),
			slope(func(c float64) float64 { return exact(s, c) }, ct.celsius, 0.05)/v, 1.2e-7)
		checks.Absolute(t, "β", HalineContraction(sa, ct, pr),
			-slope(func(s float64) float64 { return exact(s, ct.celsius) }, s, 0.05)/v, 5e-7)
		checks.Absolute(t, "c", float64(SoundSpeed(sa, ct, pr)), float64(SoundSpeedExact(sa, temp, pr)), 0.16)
		checks.Relative(t, "κ", Compressibility(sa, ct, pr), CompressibilityExact(sa, temp, pr), 3e-4)
		checks.Absolute(t, "h", Enthalpy(sa, ct, pr), EnthalpyExact(sa, temp, pr), 0.006)
		checks.Absolute(t, "u", InternalEnergy(sa, ct, pr), InternalEnergyExact(sa, temp, pr), 0.006)
		// ∂h/∂p = v: what the integral was for.
		h := func(p float64) float64 { return Enthalpy(sa, ct, pressure(p)) }
		checks.Relative(t, "v", slope(h, p+10, 1)/1e4, SpecificVolume(sa, ct, pressure(p+10)), 1e-9)
	})
}

// Heat capacity is the slope of enthalpy, and that of potential enthalpy at
// the surface is the scale of Conservative Temperature.
func TestHeatCapacityIsTheSlopeOfEnthalpy(t *testing.T) {
	eachWater(200, 120, -5, 40, 9000, func(s, c, p float64) {
		sa, pr := absolute(s), pressure(p)
		h := func(c float64) float64 { return EnthalpyExact(sa, celsius(c), pr) }
		checks.Relative(t, "c_p", float64(HeatCapacityExact(sa, celsius(c), pr)), slope(h, c, 0.1), 1e-9)
		ct := func(c float64) float64 { return ConservativeFromPotential(sa, Potential(c)).celsius }
		checks.Relative(t, "c_p0", float64(HeatCapacityExact(sa, celsius(c), 0)), heatCapacity0*slope(ct, c, 0.1), 1e-9)
		checks.Absolute(t, "h0", heatCapacity0*ct(c), EnthalpyExact(sa, celsius(c), 0), 1e-9)
		moved := func(p float64) float64 { return MovedTemperature(sa, celsius(c), pr, pressure(p)).Celsius() }
		checks.Absolute(t, "Γ", LapseRateExact(sa, celsius(c), pr), slope(moved, p, 10)/1e4, 1e-13)
	})
}

// The first guess of the potential temperature is as good as its source says.
func TestPotentialTemperatureGuess(t *testing.T) {
	eachWater(500, 42, -1, 40, 0, func(s, c, _ float64) {
		x, _, _ := reduce(absolute(s), c, 0)
		assert.InDelta(t, kelvinUnit*potential(x, c), potentialGuess(x, c), 7e-3)
	})
}

func TestTemperatureInverses(t *testing.T) {
	const tol = 1e-13 // K; a bit of 40 °C is 7e-15
	eachWater(2000, 120, -10, 40, 10000, func(s, c, p float64) {
		sa, temp, pr := absolute(s), celsius(c), pressure(p)
		ct := ConservativeFromInSitu(sa, temp, pr)
		assert.InDelta(t, c, InSituFromConservative(sa, ct, pr).Celsius(), tol)
		pt := PotentialFromInSitu(sa, temp, pr)
		assert.InDelta(t, c, InSituFromPotential(sa, pt, pr).Celsius(), tol)
		assert.InDelta(t, pt.Celsius(), PotentialFromConservative(sa, ct).Celsius(), tol)
		assert.InDelta(t, ct.Celsius(), ConservativeFromPotential(sa, pt).Celsius(), tol)
		moved := MovedTemperature(sa, temp, pr, 3000)
		assert.InDelta(t, c, MovedTemperature(sa, moved, 3000, pr).Celsius(), tol)
		// Constant entropy is what moving means.
		assert.InDelta(t, EntropyExact(sa, temp, pr), EntropyExact(sa, moved, 3000), 1e-11)
	})
	sa := absolute(35)
	assert.Equal(t, 20.0, PotentialFromInSitu(sa, celsius(20), 0).Celsius(), "at the surface nothing moves")
	assert.Equal(t, 20.0, MovedTemperature(sa, celsius(20), 100, 100).Celsius())
}

func TestSalinityFromDensityInverts(t *testing.T) {
	const tol = 3e-12 // g/kg; one bit of the density is 3e-13 g/kg
	eachWater(2000, 42, -1, 40, 1000, func(s, c, p float64) {
		sa, ct, pr := absolute(s), Conservative(c), pressure(p)
		assert.InDelta(t, s, SalinityFromDensity(Density(sa, ct, pr), ct, pr).GramsPerKilogram(), tol)
	})
	eachWater(2000, 120, -5, 40, 9900, func(s, c, p float64) {
		sa, temp, pr := absolute(s), celsius(c), pressure(p)
		assert.InDelta(t, s, SalinityFromDensityExact(DensityExact(sa, temp, pr), temp, pr).GramsPerKilogram(), tol)
	})
	for _, s := range []float64{0, 1e-9, 1e-4} { // from pure water on
		sa, ct, temp := absolute(s), Conservative(25), celsius(25)
		assert.InDelta(t, s, SalinityFromDensity(Density(sa, ct, 0), ct, 0).GramsPerKilogram(), tol)
		assert.InDelta(t, s, SalinityFromDensityExact(DensityExact(sa, temp, 0), temp, 0).GramsPerKilogram(), tol)
	}
	for _, rho := range []units.Density{0, -1, 990, 1e6, units.Density(nan), units.Density(inf)} {
		assert.True(t, math.IsNaN(SalinityFromDensity(rho, Conservative(25), 0).GramsPerKilogram()), rho)
		assert.True(t, math.IsNaN(SalinityFromDensityExact(rho, celsius(25), 0).GramsPerKilogram()), rho)
	}
}

func TestWaterBehaves(t *testing.T) {
	for s := 0.0; s <= 40; s += 2 {
		for c := 5.0; c <= 35; c += 5 {
			sa, more, ct, temp := absolute(s), absolute(s+1), Conservative(c), celsius(c)
			assert.Greater(t, Density(more, ct, 0), Density(sa, ct, 0), "salt makes heavy")
			assert.Greater(t, DensityExact(more, temp, 0), DensityExact(sa, temp, 0))
			assert.Less(t, HeatCapacityExact(more, temp, 0), HeatCapacityExact(sa, temp, 0), "salt holds less heat")
			assert.Less(t, FreezingTemperature(more, 0, units.Share(0)).Celsius(), FreezingTemperature(sa, 0, units.Share(0)).Celsius())
			assert.Greater(t, OsmoticPressure(more, temp, 0), OsmoticPressure(sa, temp, 0))
			assert.Less(t, VapourPressure(more, temp), VapourPressure(sa, temp))
			assert.Greater(t, Viscosity(more, temp), Viscosity(sa, temp))
			assert.Less(t, ThermalConductivity(more, temp), ThermalConductivity(sa, temp))
			assert.Greater(t, SurfaceTension(more, temp), SurfaceTension(sa, temp))
		}
	}
}

// Standard seawater at 0 °C and one atmosphere has no enthalpy and no
// entropy: that is how the free constants of the Gibbs function were chosen,
// with IAPWS-95 for the water; with SR7-09 what is left is 3e-4 J/kg.
func TestReferenceState(t *testing.T) {
	sa, zero := absolute(35.16504), celsius(0)
	assert.InDelta(t, 0, EnthalpyExact(sa, zero, 0), 4e-4, "J/kg")
	assert.InDelta(t, 0, EntropyExact(sa, zero, 0), 2e-6, "J/(kg K)")
	assert.InDelta(t, 0, ConservativeFromInSitu(sa, zero, 0).Celsius(), 1e-7)
	assert.Equal(t, 0.0, OsmoticPressure(absolute(0), celsius(25), 0).Decibars())
	assert.InDelta(t, 1, OsmoticCoefficient(absolute(0), celsius(25), 0), 1e-6)
	// Ice and water at the triple point of water: zero °C of difference of 10 mK.
	assert.InDelta(t, 0.0025, FreezingTemperature(absolute(0), 0, units.Share(0)).Celsius(), 1e-4)
}

// The logarithm leaves enthalpy because its two coefficients are in the ratio
// of 273.15 K to 40 K; the remainder is below the printed digits.
func TestLogarithmLeavesEnthalpy(t *testing.T) {
	assert.InDelta(t, 0, s100-s110*zeroCelsius/kelvinUnit, 1e-11)
}

func TestFreezingPolynomialIsNearTheExact(t *testing.T) {
	eachWater(300, 120, 0, 1, 9900, func(s, _, p float64) {
		sa, pr := absolute(s), pressure(p)
		exact := FreezingTemperature(sa, pr, units.Share(0))
		if CheckRangeFreezing(sa, pr, units.Share(0)) != nil {
			return // too salty that deep: below 261 K
		}
		assert.InDelta(t, ConservativeFromInSitu(sa, exact, pr).Celsius(), FreezingConservativePolynomial(sa, pr, units.Share(0)).Celsius(), 7e-4)
		// Water in seawater and ice are in balance there.
		g, _, _ := ice(exact.Kelvin(), 1e4*p)
		assert.InDelta(t, g, WaterPotential(sa, exact, pr), 1e-9)
	})
}

// Osmotic pressure is where the membrane is in balance.
func TestOsmoticPressureBalances(t *testing.T) {
	eachWater(300, 120, 0, 40, 1000, func(s, c, p float64) {
		sa, temp, pr := absolute(s), celsius(c), pressure(p)
		pi := OsmoticPressure(sa, temp, pr)
		assert.InDelta(t, float64(GibbsWater(temp, pr).G), WaterPotential(sa, temp, pr+pi), 1e-9)
	})
}

func TestIceDerivativesAreSlopes(t *testing.T) {
	for _, k := range []float64{250, 265, 273} {
		for _, p := range []float64{0, 1e6, 1e8} {
			g := func(k float64) float64 { g, _, _ := ice(k, p); return g }
			gT := func(k float64) float64 { _, gT, _ := ice(k, p); return gT }
			_, got, got2 := ice(k, p)
			checks.Relative(t, "g_T", got, slope(g, k, 0.05), 1e-8)
			checks.Relative(t, "g_TT", got2, slope(gT, k, 0.05), 1e-8)
		}
	}
}
