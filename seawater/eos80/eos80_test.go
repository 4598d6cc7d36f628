package eos80

import (
	"math"
	"strconv"
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
)

func TestUNESCO44(t *testing.T) {
	for _, row := range checks.Table(t, "testdata/unesco44.csv") {
		in := row.Inputs(t, "inputs")
		s, temperature := units.Practical(in["S"]), units.Celsius(in["T68"]/t68PerT90)
		p := units.SeaPressure(in["p"])
		var got float64
		switch row["quantity"] {
		case "density":
			got = float64(Density(s, temperature, p))
		case "specific volume anomaly":
			got = SpecificVolumeAnomaly(s, temperature, p) * 1e8
		case "heat capacity":
			got = float64(HeatCapacity(s, temperature, p))
		case "sound speed":
			got = float64(SoundSpeed(s, temperature, p))
		case "freezing point":
			got = FreezingPoint(s, p).Celsius() * t68PerT90
		case "lapse rate":
			got = AdiabaticLapseRate(s, temperature, p)
		case "potential temperature":
			got = PotentialTemperature(s, temperature, p, 0).Celsius() * t68PerT90
		case "depth":
			got = Depth(p, in["lat"]).Metres()
		default:
			t.Fatalf("unknown quantity %q", row["quantity"])
		}
		what := row["quantity"] + " " + row["inputs"] + " " + row["where"]
		checks.PrintedWithin(t, what, got, row["value"], row.Float(t, "tolerance"))
		if exact := row["double_precision"]; exact != "" {
			checks.Printed(t, what+" in double precision", got, exact)
		}
	}
}

func TestDensityRisesWithSalinity(t *testing.T) {
	for _, p := range []units.SeaPressure{0, 1000, 10000} {
		for celsius := -2.0; celsius <= 40; celsius += 2 {
			last := units.Density(0)
			for s := 0.0; s <= 42; s += 0.1 {
				rho := Density(units.Practical(s), units.Celsius(celsius), p)
				if !(rho > last) {
					t.Fatalf("S=%v t=%v p=%v: density %v after %v", s, celsius, p, rho, last)
				}
				last = rho
			}
		}
	}
}

// K is the pressure over the part of the volume that it takes away.
func TestSecantBulkModulusIsTheDensitys(t *testing.T) {
	over(func(s units.PracticalSalinity, temperature units.Temperature, p units.SeaPressure) {
		surface := SurfaceDensity(s, temperature)
		assert.Equal(t, Density(s, temperature, 0), surface)
		if p == 0 {
			return
		}
		lost := 1 - float64(surface/Density(s, temperature, p))
		checks.Relative(t, "K", SecantBulkModulus(s, temperature, p), p.Bars()/lost, 1e-11)
	})
}

func TestSpecificVolumeAnomalyOfStandardOceanIsZero(t *testing.T) {
	for p := units.SeaPressure(0); p <= 10000; p += 500 {
		assert.Zero(t, SpecificVolumeAnomaly(units.Practical(35), units.Celsius(0), p))
	}
}

// Maxwell's relation (dcp/dp)_T = -T (d²v/dT²)_p ties heat capacity to
// density. [U44] derived the pressure terms of cp from EOS-80 that way, so the
// change of cp from the surface must come out of Density.
func TestHeatCapacityUnderPressure(t *testing.T) {
	over(func(s units.PracticalSalinity, temperature units.Temperature, p units.SeaPressure) {
		if p == 0 || CheckRangeHeatCapacity(s, temperature, p) != nil {
			return
		}
		bend := func(p float64) float64 { // d²v/dT², m³/(kg K²)
			const h = 0.5
			v := func(d units.TemperatureDifference) float64 {
				return 1 / float64(Density(s, temperature.Add(d), units.SeaPressure(p)))
			}
			return (v(h) - 2*v(0) + v(-h)) / (h * h)
		}
		want := -temperature.Kelvin() * simpson(bend, 0, p.Decibars()) * pascal
		got := float64(HeatCapacity(s, temperature, p) - HeatCapacity(s, temperature, 0))
		checks.Absolute(t, "change of cp "+where(s, temperature, p), got, want, 0.5)
	})
}

// Newton and Laplace: (drho/dp)_T = 1/U² + T (drho/dT)² / (rho² cp) ties the
// speed of sound, fitted to sound, to density and heat capacity. The fits are
// known to part by up to 1.2 m/s in the deep ocean, and agree in a tank.
func TestSoundSpeedFromDensity(t *testing.T) {
	over(func(s units.PracticalSalinity, temperature units.Temperature, p units.SeaPressure) {
		if CheckRangeSoundSpeed(s, temperature, p) != nil || CheckRangeHeatCapacity(s, temperature, p) != nil {
			return
		}
		rho := float64(Density(s, temperature, p))
		slope := thermalSlope(s, temperature, p)
		stiff := float64(Density(s, temperature, p+1)-Density(s, temperature, p-1)) / (2 * pascal)
		adiabatic := stiff - temperature.Kelvin()*slope*slope/(rho*rho*float64(HeatCapacity(s, temperature, p)))
		tol := 0.2
		if p > 10 {
			tol = 1.25
		}
		checks.Absolute(t, "speed of sound "+where(s, temperature, p),
			float64(SoundSpeed(s, temperature, p)), 1/math.Sqrt(adiabatic), tol)
	})
}

// Kelvin: Gamma = T alpha / (rho cp) ties the lapse rate to density and heat
// capacity. [B73] is older than EOS-80; the two part by 1 % at most.
func TestLapseRateFromDensity(t *testing.T) {
	over(func(s units.PracticalSalinity, temperature units.Temperature, p units.SeaPressure) {
		if CheckRangeAdiabatic(s, temperature, p) != nil {
			return
		}
		rho := float64(Density(s, temperature, p))
		want := -temperature.Kelvin() * thermalSlope(s, temperature, p) / (rho * rho * float64(HeatCapacity(s, temperature, p))) * pascal
		checks.Absolute(t, "lapse rate "+where(s, temperature, p), AdiabaticLapseRate(s, temperature, p), want, 2e-6)
	})
}

// What the single step of [F77] misses grows with the fifth power of its
// length, to 0.0001 K over 10000 dbar.
func TestPotentialTemperature(t *testing.T) {
	over(func(s units.PracticalSalinity, temperature units.Temperature, p units.SeaPressure) {
		assert.Equal(t, temperature, PotentialTemperature(s, temperature, p, p), "nowhere to go")
		up := PotentialTemperature(s, temperature, p, 0)
		down := PotentialTemperature(s, up, 0, p)
		checks.Absolute(t, "there and back "+where(s, temperature, p), down.Celsius(), temperature.Celsius(),
			1.2e-4*math.Pow(p.Decibars()/10000, 5)+1e-13)

		slope := PotentialTemperature(s, temperature, p, p+1).Sub(PotentialTemperature(s, temperature, p, p-1)) / 2
		checks.Absolute(t, "slope "+where(s, temperature, p),
			float64(slope)*t68PerT90, AdiabaticLapseRate(s, temperature, p), 1e-11)
	})
}

// Depth is the geopotential of the standard ocean, the integral of v dp, over
// gravity.
func TestDepthFromDensity(t *testing.T) {
	for _, p := range []float64{100, 1000, 5000, 10000} {
		v := func(p float64) float64 {
			return 1 / float64(Density(units.Practical(35), units.Celsius(0), units.SeaPressure(p)))
		}
		want := simpson(v, 0, p) * pascal / (surfaceGravity + gravityPCoef*p)
		checks.Absolute(t, "depth", Depth(units.SeaPressure(p), 0).Metres(), want, 0.1)
	}
	assert.Zero(t, Depth(0, 45).Metres())
	assert.Equal(t, Depth(500, 30), Depth(500, -30))
}

func TestFreezingPointOfPureWaterIsZero(t *testing.T) {
	assert.Zero(t, FreezingPoint(units.Practical(0), 0).Celsius())
}

func TestImpossibleInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, in := range [][3]float64{
		{-1e-300, 25, 0}, {nan, 25, 0}, {inf, 25, 0}, {-inf, 25, 0},
		{35, nan, 0}, {35, inf, 0}, {35, -inf, 0}, {35, -273.16, 0},
		{35, 25, nan}, {35, 25, inf}, {35, 25, -inf}, {35, 25, -10.14},
	} {
		s, temperature, p := units.Practical(in[0]), units.Celsius(in[1]), units.SeaPressure(in[2])
		for name, got := range everything(s, temperature, p) {
			assert.True(t, math.IsNaN(got), "%s of %v: %v", name, in, got)
		}
		if in[2] == 0 {
			assert.True(t, math.IsNaN(float64(SurfaceDensity(s, temperature))), "%v", in)
		}
		if in[1] == 25 {
			assert.True(t, math.IsNaN(FreezingPoint(s, p).Celsius()), "%v", in)
		}
	}
	for _, bad := range []float64{nan, inf, -inf, -10.14} {
		assert.True(t, math.IsNaN(float64(Depth(units.SeaPressure(bad), 45))))
		assert.True(t, math.IsNaN(PotentialTemperature(units.Practical(35), units.Celsius(25), 0, units.SeaPressure(bad)).Celsius()))
	}
	for _, bad := range []float64{nan, inf, -inf, -90.1, 90.1} {
		assert.True(t, math.IsNaN(float64(Depth(100, bad))))
	}
}

func TestBoundariesGiveNumbers(t *testing.T) {
	for _, in := range [][3]float64{
		{0, -2, 0}, {42, 40, 10000}, {0, 40, 10000}, {42.1, 40.1, 10001}, {0, -2.1, -0.1}, {1, -273.15, -10.1325},
	} {
		for name, got := range everything(units.Practical(in[0]), units.Celsius(in[1]), units.SeaPressure(in[2])) {
			assert.False(t, math.IsNaN(got) || math.IsInf(got, 0), "%s of %v: %v", name, in, got)
		}
	}
}

func TestCheckRange(t *testing.T) {
	type check = func(units.PracticalSalinity, units.Temperature, units.SeaPressure) error
	for _, row := range []struct {
		name             string
		check            check
		loS, hiS, lo, hi float64
	}{
		{"equation of state", CheckRange, 0, 42, -2, 40},
		{"heat capacity", CheckRangeHeatCapacity, 0, 40, 0, 35},
		{"speed of sound", CheckRangeSoundSpeed, 0, 40, 0, 40},
		{"adiabatic", CheckRangeAdiabatic, 30, 40, 2, 30},
	} {
		assert.NoError(t, row.check(units.Practical(row.loS), units.Celsius(row.lo), 0), row.name)
		assert.NoError(t, row.check(units.Practical(row.hiS), units.Celsius(row.hi), 10000), row.name)
		for quantity, ins := range map[string][][3]float64{
			"practical salinity": {{row.loS - 1e-9, row.lo, 0}, {row.hiS + 1e-9, row.lo, 0}, {math.NaN(), row.lo, 0}},
			"temperature":        {{row.loS, row.lo - 1e-9, 0}, {row.loS, row.hi + 1e-9, 0}, {row.loS, math.Inf(1), 0}},
			"sea pressure":       {{row.loS, row.lo, -1e-9}, {row.loS, row.lo, 10000.1}, {row.loS, row.lo, math.NaN()}},
		} {
			for _, in := range ins {
				err := row.check(units.Practical(in[0]), units.Celsius(in[1]), units.SeaPressure(in[2]))
				var wrong *units.RangeError
				if assert.ErrorAs(t, err, &wrong, "%s %v", row.name, in) {
					assert.Equal(t, quantity, wrong.Quantity, row.name)
				}
			}
		}
	}
	assert.NoError(t, CheckRangeFreezing(units.Practical(4), 0))
	assert.NoError(t, CheckRangeFreezing(units.Practical(40), 500))
	assert.ErrorIs(t, CheckRangeFreezing(units.Practical(3.9), 0), units.ErrRange)
	assert.ErrorIs(t, CheckRangeFreezing(units.Practical(40.1), 0), units.ErrRange)
	assert.ErrorIs(t, CheckRangeFreezing(units.Practical(35), 501), units.ErrRange)
	assert.ErrorIs(t, CheckRangeFreezing(units.Practical(35), -1), units.ErrRange)
}

func TestNoAllocations(t *testing.T) {
	s, temperature, p := units.Practical(35), units.Celsius(25), units.SeaPressure(10)
	for name, f := range map[string]func(){
		"Density":               func() { sink = float64(Density(s, temperature, p)) },
		"SurfaceDensity":        func() { sink = float64(SurfaceDensity(s, temperature)) },
		"SpecificVolumeAnomaly": func() { sink = SpecificVolumeAnomaly(s, temperature, p) },
		"SecantBulkModulus":     func() { sink = SecantBulkModulus(s, temperature, p) },
		"HeatCapacity":          func() { sink = float64(HeatCapacity(s, temperature, p)) },
		"SoundSpeed":            func() { sink = float64(SoundSpeed(s, temperature, p)) },
		"FreezingPoint":         func() { sink = FreezingPoint(s, p).Celsius() },
		"AdiabaticLapseRate":    func() { sink = AdiabaticLapseRate(s, temperature, p) },
		"PotentialTemperature":  func() { sink = PotentialTemperature(s, temperature, p, 0).Celsius() },
		"Depth":                 func() { sink = float64(Depth(p, 45)) },
		"CheckRange":            func() { sinkErr = CheckRange(s, temperature, p) },
	} {
		checks.NoAllocations(t, name, f)
	}
}

// FuzzAnyInput: whatever comes in, an answer comes out; inside the range of
// the equation of state it is one that water could have.
func FuzzAnyInput(f *testing.F) {
	for _, seed := range [][4]float64{
		{35, 25, 0, 0}, {0, 0, 0, 45}, {42, -2, 10000, 90}, {1e300, 1e300, 1e300, -90},
		{math.MaxFloat64, -273.15, -10, 1e9}, {math.NaN(), 0, 0, 0}, {35, math.Inf(-1), 0, math.Inf(1)},
	} {
		f.Add(seed[0], seed[1], seed[2], seed[3])
	}
	f.Fuzz(func(t *testing.T, salinity, celsius, dbar, latitude float64) {
		s, temperature, p := units.Practical(salinity), units.Celsius(celsius), units.SeaPressure(dbar)
		all := everything(s, temperature, p)
		z := Depth(p, latitude).Metres()
		if CheckRange(s, temperature, p) != nil {
			return
		}
		for name, bounds := range map[string][2]float64{
			"density":     {985, 1080},
			"modulus":     {19000, 30000},
			"heat":        {3600, 4300},
			"sound":       {1380, 1780},
			"freezing":    {-11, 0},
			"lapse":       {-6e-5, 5e-4},
			"theta":       {-5, 40},
			"anomaly 1e8": {-700, 3600},
		} {
			if got := all[name]; !(got >= bounds[0] && got <= bounds[1]) {
				t.Errorf("S=%v t=%v p=%v: %s %v", salinity, celsius, dbar, name, got)
			}
		}
		if math.Abs(latitude) <= 90 && !(z >= 0 && z <= 9800) {
			t.Errorf("p=%v latitude=%v: depth %v", dbar, latitude, z)
		}
	})
}

func everything(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) map[string]float64 {
	return map[string]float64{
		"density":     float64(Density(s, t, p)),
		"anomaly 1e8": SpecificVolumeAnomaly(s, t, p) * 1e8,
		"modulus":     SecantBulkModulus(s, t, p),
		"heat":        float64(HeatCapacity(s, t, p)),
		"sound":       float64(SoundSpeed(s, t, p)),
		"freezing":    freezingIfPossible(s, t, p),
		"lapse":       AdiabaticLapseRate(s, t, p),
		"theta":       PotentialTemperature(s, t, p, 0).Celsius(),
	}
}

// freezingIfPossible is NaN for an impossible temperature too, though the
// freezing point does not ask for one.
func freezingIfPossible(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) float64 {
	if !possible(s, t, p) {
		return math.NaN()
	}
	return FreezingPoint(s, p).Celsius()
}

const pascal = 1e4 // in a dbar

// over calls f on a grid over the range of the equation of state.
func over(f func(units.PracticalSalinity, units.Temperature, units.SeaPressure)) {
	for _, s := range []float64{0, 5, 20, 30, 35, 40, 42} {
		for _, celsius := range []float64{-2, 0, 2, 5, 10, 20, 25, 30, 35, 40} {
			for _, p := range []units.SeaPressure{0, 10, 1000, 5000, 10000} {
				f(units.Practical(s), units.Celsius(celsius), p)
			}
		}
	}
}

// thermalSlope is drho/dT by a central difference.
func thermalSlope(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) float64 {
	const h = 0.01
	return float64(Density(s, t.Add(h), p)-Density(s, t.Add(-h), p)) / (2 * h)
}

func simpson(f func(float64) float64, a, b float64) float64 {
	const n = 100
	h := (b - a) / n
	sum := f(a) + f(b)
	for i := 1; i < n; i++ {
		sum += float64(2+2*(i%2)) * f(a+float64(i)*h)
	}
	return sum * h / 3
}

func where(s units.PracticalSalinity, t units.Temperature, p units.SeaPressure) string {
	return "at " + s.String() + ", " + t.String() + ", " + strconv.FormatFloat(float64(p), 'g', -1, 64) + " dbar"
}
