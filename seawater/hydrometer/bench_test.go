package hydrometer

import (
	"testing"

	"example.org/wellmixed/units"
)

var (
	sink         float64
	sinkSalinity units.AbsoluteSalinity
)

func BenchmarkWaterDensity(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sink = float64(WaterDensity(units.Celsius(25)))
	}
}

func BenchmarkGravity(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sink = Gravity(standard, units.SG25C()).Ratio()
	}
}

func BenchmarkReading(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sink, _ = glassSG25.Reading(standard, units.Celsius(22))
	}
}

func BenchmarkSalinity(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkSalinity, _ = glassSG25.Salinity(1.026, units.Celsius(22))
	}
}

func BenchmarkEstimate(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkSalinity, _, _ = glassSG25.Estimate(1.026, units.Celsius(22), Uncertainty{Reading: 0.0003, Temperature: 0.5})
	}
}
