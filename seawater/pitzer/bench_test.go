package pitzer

import (
	"testing"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// sea is the reference composition of salinity 35, fluoride counted as chloride, mol per kg
// of water.
//
//	source   Millero, Feistel, Wright and McDougall 2008, table 4
var sea = Brine{
	Sodium: 486059.7, Potassium: 10579.7, Magnesium: 54742.1, Calcium: 10656.8, Strontium: 94,
	Chloride: 565835.5, Bromide: 872.8, Sulfate: 29264.3, Carbon: 2038, Boron: 430.3,
}

func BenchmarkActivities(b *testing.B) {
	b.ReportAllocs()
	s, err := Solve(sea, units.Celsius(25))
	if err != nil {
		b.Fatal(err)
	}
	var k model
	k.set(298.15)
	for b.Loop() {
		k.activities(&s.state)
	}
}

func BenchmarkParameters(b *testing.B) {
	b.ReportAllocs()
	var k model
	for b.Loop() {
		k.set(298.2)
	}
}

func BenchmarkSolve(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Solve(sea, units.Celsius(25)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAtTotalPH(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := AtTotalPH(sea, units.Celsius(25), 9); err != nil {
			b.Fatal(err)
		}
	}
}

func TestNoAllocations(t *testing.T) {
	checks.NoAllocations(t, "Solve", func() { _, _ = Solve(sea, units.Celsius(25)) })
	checks.NoAllocations(t, "AtTotalPH", func() { _, _ = AtTotalPH(sea, units.Celsius(25), 9) })
	s, err := Solve(sea, units.Celsius(25))
	if err != nil {
		t.Fatal(err)
	}
	checks.NoAllocations(t, "Saturation", func() { _, _ = s.Saturation(Brucite) })
	checks.NoAllocations(t, "MolarMass", func() { _ = Gypsum.MolarMass() })
	checks.NoAllocations(t, "TotalPH", func() { _ = s.TotalPH() })
}
