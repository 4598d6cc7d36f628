package teos10

import (
	"math/rand/v2"
	"testing"

	"example.org/wellmixed/units"
)

// BenchmarkPoints calls each function directly on 200,000 independent waters, salinity 30 to
// 40 g/kg, 0 to 30 °C, 0 to 1000 dbar; ns/value is what counts. How one state compares with
// another is measured by interleaved runs of both, the least of many.
func BenchmarkPoints(b *testing.B) {
	const n = 200_000
	type point struct {
		sa units.AbsoluteSalinity
		t  units.Temperature
		ct ConservativeTemperature
		pt PotentialTemperature
		p  units.SeaPressure
	}
	r := rand.New(rand.NewPCG(1, 2))
	points := make([]point, n)
	for i := range points {
		sa, t, p := units.Absolute(30+10*r.Float64()), 30*r.Float64(), units.SeaPressure(1000*r.Float64())
		points[i] = point{sa, units.Celsius(t), Conservative(t), Potential(t), p}
	}
	run := func(name string, pass func() float64) {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				sink = pass()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/n, "ns/value")
		})
	}
	run("ConservativeFromPotential", func() (sum float64) {
		for i := range points {
			sum += ConservativeFromPotential(points[i].sa, points[i].pt).Celsius()
		}
		return sum
	})
	run("DensityExact", func() (sum float64) {
		for i := range points {
			sum += float64(DensityExact(points[i].sa, points[i].t, points[i].p))
		}
		return sum
	})
	run("DensityExact/surface", func() (sum float64) {
		for i := range points {
			sum += float64(DensityExact(points[i].sa, points[i].t, 0))
		}
		return sum
	})
	run("HeatCapacityExact", func() (sum float64) {
		for i := range points {
			sum += float64(HeatCapacityExact(points[i].sa, points[i].t, points[i].p))
		}
		return sum
	})
	run("HeatCapacityExact/surface", func() (sum float64) {
		for i := range points {
			sum += float64(HeatCapacityExact(points[i].sa, points[i].t, 0))
		}
		return sum
	})
	run("ThermalExpansion", func() (sum float64) {
		for i := range points {
			sum += ThermalExpansion(points[i].sa, points[i].ct, points[i].p)
		}
		return sum
	})
	run("SoundSpeed", func() (sum float64) {
		for i := range points {
			sum += float64(SoundSpeed(points[i].sa, points[i].ct, points[i].p))
		}
		return sum
	})
	run("Density", func() (sum float64) {
		for i := range points {
			sum += float64(Density(points[i].sa, points[i].ct, points[i].p))
		}
		return sum
	})
}
