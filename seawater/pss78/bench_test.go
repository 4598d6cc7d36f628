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

// A log of a day, a reading a minute; nanoseconds are those of one reading. The loop
// over Salinity is there to compare.
func BenchmarkLog(b *testing.B) {
	const n = 24 * 60
	var (
		dst [n]units.PracticalSalinity
		c   [n]units.Conductivity
		t   [n]units.Temperature
	)
	for i := range c {
		c[i], t[i] = units.Conductivity(40+float64(i)/100), units.Celsius(float64(i)/50)
	}
	for _, at := range []struct {
		name string
		p    units.SeaPressure
	}{{"surface", 0}, {"depth", 1000}} {
		perReading := func(b *testing.B) { b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/n, "ns/reading") }
		b.Run("Salinities/"+at.name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				Salinities(dst[:], c[:], t[:], at.p)
			}
			perReading(b)
		})
		b.Run("loop/"+at.name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				for j := range dst {
					dst[j] = Salinity(c[j], t[j], at.p)
				}
			}
			perReading(b)
		})
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
