package conductivity

import (
	"testing"

	"example.org/wellmixed/units"
)

var (
	sinkC units.Conductivity
	sinkS units.AbsoluteSalinity
)

func benchmarkSalinity(b *testing.B, m Meter) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkS, _ = m.Salinity(50, units.Celsius(22))
	}
}

func BenchmarkSalinityRaw(b *testing.B)      { benchmarkSalinity(b, Meter{}) }
func BenchmarkSalinityLinear(b *testing.B)   { benchmarkSalinity(b, Meter{Compensation: twoPercent}) }
func BenchmarkSalinitySeawater(b *testing.B) { benchmarkSalinity(b, Meter{Compensation: bySeawater}) }

func BenchmarkReadingLinear(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkC, _ = Meter{Compensation: twoPercent}.Reading(standard, units.Celsius(22))
	}
}

func BenchmarkEstimate(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkS, _, _ = Meter{Compensation: twoPercent}.Estimate(53, units.Celsius(22), Uncertainty{Reading: 0.1, Cell: units.Share(0.01)})
	}
}

func BenchmarkSaltMeterReading(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		_, _ = tableppt.Reading(standard, units.Celsius(22))
	}
}

func BenchmarkPureWater(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkC = PureWater(units.Celsius(22))
	}
}

func BenchmarkStandard(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkC = KCl01Demal.Conductivity(units.Celsius(22))
	}
}
