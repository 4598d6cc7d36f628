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

func BenchmarkDissolve(b *testing.B) {
	at := units.Celsius(25)
	for name, batch := range map[string]Batch{
		"two salts":         {Add: []Addition{{"CaCl2·2H2O", 150 * units.Gram}, {"MgSO4·7H2O", 120 * units.Gram}}},
		"seawater 20 times": {Present: sea.Scale(20)}, // of 44 solids, five lie there
	} {
		batch.Water, batch.Temperature = units.Kilogram, at
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Dissolve(batch); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkStrongest(b *testing.B) {
	b.ReportAllocs()
	s := Stock{Salts: []Addition{{"MgSO4·7H2O", units.Gram}}, Cold: units.Celsius(15), Warm: units.Celsius(30)}
	for b.Loop() {
		if _, err := s.Strongest(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFreezingPoint(b *testing.B) {
	b.ReportAllocs()
	s, err := Solve(sea, units.Celsius(25))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := s.FreezingPoint(); err != nil {
			b.Fatal(err)
		}
	}
}
