package carbonate

import (
	"testing"

	"example.org/wellmixed/units"
)

var (
	sinkC Constants
	sinkS System
	sinkF float64
	sinkE error
)

func BenchmarkAt(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkC = At(units.Practical(35), units.Celsius(25), Options{})
	}
}

func BenchmarkFromNothing(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		c := At(units.Practical(35), units.Celsius(25), Options{})
		s, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
		sinkF, sinkE = s.PH().Value()+s.Aragonite()+s.Calcite(), err
	}
}

func BenchmarkFromAlkalinityDIC(b *testing.B) {
	b.ReportAllocs()
	c := At(units.Practical(35), units.Celsius(25), Options{})
	for i := 0; i < b.N; i++ {
		s, err := c.FromAlkalinityDIC(2300, 2000+units.AmountPerKilogram(i&127), Nutrients{})
		sinkF, sinkE = s.PH().Value()+s.Aragonite(), err
	}
}

func BenchmarkUpdate(b *testing.B) {
	b.ReportAllocs()
	c := At(units.Practical(35), units.Celsius(25), Options{})
	s, _ := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	for i := 0; i < b.N; i++ {
		sinkE = s.Update(2300, 2000+units.AmountPerKilogram(i&127))
		sinkF = s.PH().Value() + s.Aragonite()
	}
}

func BenchmarkFromAlkalinityDICNutrients(b *testing.B) {
	b.ReportAllocs()
	c := At(units.Practical(35), units.Celsius(25), Options{})
	for i := 0; i < b.N; i++ {
		s, err := c.FromAlkalinityDIC(2300, 2000+units.AmountPerKilogram(i&127), Nutrients{Phosphate: 1, Silicate: 10})
		sinkF, sinkE = s.PH().Value()+s.Aragonite(), err
	}
}

func BenchmarkSolveAlkalinityPCO2(b *testing.B) {
	b.ReportAllocs()
	c := At(units.Practical(35), units.Celsius(25), Options{})
	for i := 0; i < b.N; i++ {
		s, err := c.Solve(Alkalinity(2300), PartialPressure(420), Nutrients{})
		sinkF, sinkE = s.PH().Value(), err
	}
}

func BenchmarkBuffers(b *testing.B) {
	b.ReportAllocs()
	c := At(units.Practical(35), units.Celsius(25), Options{})
	s, _ := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	for i := 0; i < b.N; i++ {
		sinkF = float64(s.Buffers().Revelle)
	}
}

func BenchmarkFreeAmmonia(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkF = FreeAmmonia(units.Practical(35), units.Celsius(25), PHTotal(8.1)).Value()
	}
}

func BenchmarkMinerals(b *testing.B) {
	b.ReportAllocs()
	c := At(units.Practical(35), units.Celsius(25), Options{})
	s, _ := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
	for i := 0; i < b.N; i++ {
		sinkF = float64(s.Minerals().Brucite.Omega)
	}
}
