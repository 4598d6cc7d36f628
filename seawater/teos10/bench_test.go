package teos10

import (
	"math/rand/v2"
	"testing"

	"example.org/wellmixed/units"
)

// waters are independent points over the ranges of a tank and the upper
// ocean, so that no benchmark measures one lucky argument.
type water struct {
	sa units.AbsoluteSalinity
	t  units.Temperature
	ct ConservativeTemperature
	p  units.SeaPressure
	d  units.Density
}

func waters() *[1024]water {
	r := rand.New(rand.NewPCG(1, 2))
	var w [1024]water
	for i := range w {
		sa, t, p := units.Absolute(42*r.Float64()), units.Celsius(40*r.Float64()), units.SeaPressure(1000*r.Float64())
		ct := ConservativeFromInSitu(sa, t, p)
		w[i] = water{sa, t, ct, p, Density(sa, ct, p)}
	}
	return &w
}

var sink float64

func bench(b *testing.B, name string, f func(w *water) float64) {
	b.Run(name, func(b *testing.B) {
		w := waters()
		b.ReportAllocs()
		b.ResetTimer()
		sum := 0.0
		for i := 0; i < b.N; i++ {
			sum += f(&w[i&1023])
		}
		sink = sum
	})
}

// BenchmarkDensity calls directly, without the function value of bench.
func BenchmarkDensity(b *testing.B) {
	w := waters()
	b.ReportAllocs()
	b.ResetTimer()
	sum := 0.0
	for i := 0; i < b.N; i++ {
		x := &w[i&1023]
		sum += float64(Density(x.sa, x.ct, x.p))
	}
	sink = sum
}

func BenchmarkDensityAtZero(b *testing.B) {
	w := waters()
	b.ReportAllocs()
	b.ResetTimer()
	sum := 0.0
	for i := 0; i < b.N; i++ {
		x := &w[i&1023]
		sum += float64(Density(x.sa, x.ct, 0))
	}
	sink = sum
}

func BenchmarkSurfaceDensity(b *testing.B) {
	w := waters()
	b.ReportAllocs()
	b.ResetTimer()
	sum := 0.0
	for i := 0; i < b.N; i++ {
		x := &w[i&1023]
		sum += float64(SurfaceDensity(x.sa, x.ct))
	}
	sink = sum
}

func BenchmarkFormulas(b *testing.B) {
	bench(b, "SpecificVolume", func(w *water) float64 { return SpecificVolume(w.sa, w.ct, w.p) })
	bench(b, "ThermalExpansion", func(w *water) float64 { return ThermalExpansion(w.sa, w.ct, w.p) })
	bench(b, "HalineContraction", func(w *water) float64 { return HalineContraction(w.sa, w.ct, w.p) })
	bench(b, "SoundSpeed", func(w *water) float64 { return float64(SoundSpeed(w.sa, w.ct, w.p)) })
	bench(b, "Enthalpy", func(w *water) float64 { return Enthalpy(w.sa, w.ct, w.p) })
	bench(b, "SalinityFromDensity", func(w *water) float64 {
		return SalinityFromDensity(w.d, w.ct, w.p).GramsPerKilogram()
	})
	bench(b, "ConservativeFromInSitu", func(w *water) float64 { return ConservativeFromInSitu(w.sa, w.t, w.p).celsius })
	bench(b, "ConservativeFromInSitu/surface", func(w *water) float64 { return ConservativeFromInSitu(w.sa, w.t, 0).celsius })
	bench(b, "InSituFromConservative", func(w *water) float64 {
		return InSituFromConservative(w.sa, w.ct, w.p).Celsius()
	})
	bench(b, "InSituFromConservative/surface", func(w *water) float64 {
		return InSituFromConservative(w.sa, w.ct, 0).Celsius()
	})
	bench(b, "HeatCapacityExact", func(w *water) float64 { return float64(HeatCapacityExact(w.sa, w.t, w.p)) })
	bench(b, "HeatCapacityExact/surface", func(w *water) float64 { return float64(HeatCapacityExact(w.sa, w.t, 0)) })
	bench(b, "DensityExact", func(w *water) float64 { return float64(DensityExact(w.sa, w.t, w.p)) })
	bench(b, "DensityExact/surface", func(w *water) float64 { return float64(DensityExact(w.sa, w.t, 0)) })
	bench(b, "SoundSpeedExact", func(w *water) float64 { return float64(SoundSpeedExact(w.sa, w.t, w.p)) })
	bench(b, "EntropyExact", func(w *water) float64 { return EntropyExact(w.sa, w.t, w.p) })
	bench(b, "Gibbs", func(w *water) float64 { return float64(Gibbs(w.sa, w.t, w.p).G) })
	bench(b, "SalinityFromDensityExact", func(w *water) float64 {
		return SalinityFromDensityExact(w.d, w.t, w.p).GramsPerKilogram()
	})
	bench(b, "FreezingTemperature", func(w *water) float64 { return FreezingTemperature(w.sa, w.p, units.Share(0)).Celsius() })
	bench(b, "FreezingConservativePolynomial", func(w *water) float64 { return FreezingConservativePolynomial(w.sa, w.p, units.Share(0)).celsius })
	bench(b, "OsmoticCoefficient", func(w *water) float64 { return OsmoticCoefficient(w.sa, w.t, w.p) })
	bench(b, "OsmoticPressure", func(w *water) float64 { return float64(OsmoticPressure(w.sa, w.t, 0)) })
	bench(b, "EvaporationHeat", func(w *water) float64 { return EvaporationHeat(w.sa, w.ct) })
	bench(b, "VapourPressure", func(w *water) float64 { return VapourPressure(w.sa, w.t) })
	bench(b, "Viscosity", func(w *water) float64 { return Viscosity(w.sa, w.t) })
	bench(b, "ThermalConductivity", func(w *water) float64 { return ThermalConductivity(w.sa, w.t) })
	bench(b, "SurfaceTension", func(w *water) float64 { return SurfaceTension(w.sa, w.t) })
	bench(b, "FreezingConservative", func(w *water) float64 { return FreezingConservative(w.sa, w.p, units.Share(0)).celsius })
	bench(b, "FreezingSalinity", func(w *water) float64 {
		return FreezingSalinity(units.Celsius(-2), w.p, units.Share(0)).GramsPerKilogram()
	})
	bench(b, "MeltingHeat", func(w *water) float64 { return MeltingHeat(w.sa, w.p) })
	bench(b, "GibbsIce", func(w *water) float64 { return float64(GibbsIce(units.Celsius(w.t.Celsius()-40), w.p).G) })
	bench(b, "IceEnthalpy", func(w *water) float64 { return IceEnthalpy(units.Celsius(w.t.Celsius()-40), w.p) })
	bench(b, "HotDensity", func(w *water) float64 { return float64(HotDensity(w.sa, units.Celsius(w.t.Celsius()+50))) })
	bench(b, "HotEnthalpy", func(w *water) float64 { return HotEnthalpy(w.sa, units.Celsius(w.t.Celsius()+50)) })
	bench(b, "HotHeatCapacity", func(w *water) float64 { return float64(HotHeatCapacity(w.sa, units.Celsius(w.t.Celsius()+50))) })
	bench(b, "TemperatureFromHotEnthalpy", func(w *water) float64 { return TemperatureFromHotEnthalpy(w.sa, 2e5+1e3*w.t.Celsius()).Celsius() })
	bench(b, "TemperatureFromEnthalpyExact", func(w *water) float64 { return TemperatureFromEnthalpyExact(w.sa, 4e3*w.t.Celsius(), w.p).Celsius() })
	bench(b, "TemperatureFromEntropyExact", func(w *water) float64 { return TemperatureFromEntropyExact(w.sa, 13*w.t.Celsius(), w.p).Celsius() })
	bench(b, "MaximumDensityTemperature", func(w *water) float64 { return MaximumDensityTemperature(w.sa, w.p).celsius })
	bench(b, "MaximumDensityTemperatureExact", func(w *water) float64 { return MaximumDensityTemperatureExact(w.sa, w.p).Celsius() })
}
