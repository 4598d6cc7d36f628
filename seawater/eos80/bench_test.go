package eos80

import (
	"testing"

	"example.org/wellmixed/units"
)

var (
	sink    float64
	sinkErr error
)

func BenchmarkFormulas(b *testing.B) {
	s, t, p := units.Practical(35), units.Celsius(25), units.SeaPressure(1000)
	for _, bench := range []struct {
		name string
		f    func()
	}{
		{"Density", func() { sink = float64(Density(s, t, p)) }},
		{"DensityAtSurface", func() { sink = float64(Density(s, t, 0)) }},
		{"SurfaceDensity", func() { sink = float64(SurfaceDensity(s, t)) }},
		{"SpecificVolumeAnomaly", func() { sink = SpecificVolumeAnomaly(s, t, p) }},
		{"SecantBulkModulus", func() { sink = SecantBulkModulus(s, t, p) }},
		{"HeatCapacity", func() { sink = float64(HeatCapacity(s, t, p)) }},
		{"HeatCapacityAtSurface", func() { sink = float64(HeatCapacity(s, t, 0)) }},
		{"SoundSpeed", func() { sink = float64(SoundSpeed(s, t, p)) }},
		{"SoundSpeedAtSurface", func() { sink = float64(SoundSpeed(s, t, 0)) }},
		{"FreezingPoint", func() { sink = FreezingPoint(s, 0).Celsius() }},
		{"AdiabaticLapseRate", func() { sink = AdiabaticLapseRate(s, t, p) }},
		{"PotentialTemperature", func() { sink = PotentialTemperature(s, t, p, 0).Celsius() }},
		{"Depth", func() { sink = float64(Depth(p, 45)) }},
		{"CheckRange", func() { sinkErr = CheckRange(s, t, p) }},
		{"CheckRangeHeatCapacity", func() { sinkErr = CheckRangeHeatCapacity(s, t, p) }},
		{"CheckRangeSoundSpeed", func() { sinkErr = CheckRangeSoundSpeed(s, t, p) }},
		{"CheckRangeAdiabatic", func() { sinkErr = CheckRangeAdiabatic(s, t, p) }},
		{"CheckRangeFreezing", func() { sinkErr = CheckRangeFreezing(s, 0) }},
	} {
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				bench.f()
			}
		})
	}
}
