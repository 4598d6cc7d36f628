package weighing

import (
	"testing"

	"example.org/wellmixed/units"
)

var (
	sinkMass     units.Mass
	sinkSalinity units.AbsoluteSalinity
	sink         float64
)

func BenchmarkAirDensity(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sink = float64(StandardAir().Density())
	}
}

func BenchmarkZ(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sink = Z(units.Celsius(22), StandardAir())
	}
}

func BenchmarkReading(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkMass, _ = flask.Reading(standard, units.Celsius(22))
	}
}

func BenchmarkSalinity(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkSalinity, _ = flask.Salinity(1020, units.Celsius(22))
	}
}

func BenchmarkEstimate(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkSalinity, _, _ = flask.Estimate(1020, units.Celsius(22), Uncertainty{Reading: 0.5, Temperature: 0.3})
	}
}
