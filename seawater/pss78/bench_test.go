package pss78

import (
	"testing"

	"example.org/wellmixed/units"
)

var (
	sinkS units.PracticalSalinity
	sinkC units.Conductivity
	sinkR Ratio

	sinkErr error
)

func BenchmarkSalinity(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkS = Salinity(53.06, units.Celsius(25), 0)
	}
}

func BenchmarkSalinityAtDepth(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkS = Salinity(53.06, units.Celsius(25), 1000)
	}
}

func BenchmarkSalinityDilute(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkS = Salinity(2, units.Celsius(25), 0)
	}
}

func BenchmarkRatioSalinity(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkS = Ratio(1.2).Salinity(units.Celsius(25), 0)
	}
}

func BenchmarkConductivity(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkC = Conductivity(units.Practical(35), units.Celsius(25), 0)
	}
}

func BenchmarkConductivityAtDepth(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkC = Conductivity(units.Practical(35), units.Celsius(25), 1000)
	}
}

func BenchmarkConductivityDilute(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkC = Conductivity(units.Practical(1), units.Celsius(25), 0)
	}
}

func BenchmarkRatioAt(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkR = RatioAt(units.Practical(35), units.Celsius(25), 0)
	}
}

func BenchmarkRatioOf(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkR = RatioOf(units.Conductivity(i))
	}
}

func BenchmarkRatioConductivity(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkC = Ratio(i).Conductivity()
	}
}

func BenchmarkCheckRange(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkErr = CheckRange(units.Practical(35), units.Celsius(25), 0)
	}
}
