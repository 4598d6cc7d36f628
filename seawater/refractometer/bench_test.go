package refractometer

import (
	"testing"

	"example.org/wellmixed/units"
)

var (
	sink    float64
	sinkN   AirIndex
	sinkR   Reading
	sinkS   units.AbsoluteSalinity
	sinkErr error
)

func BenchmarkFormulas(b *testing.B) {
	s, t := units.Practical(35), units.Celsius(25)
	for _, bench := range []struct {
		name string
		f    func()
	}{
		{"Seawater", func() { sinkN = Seawater(s, t) }},
		{"SeawaterSalinity", func() { sink = SeawaterSalinity(InAir(1.3394), t).Value() }},
		{"MillardSeaverAtDepth", func() { sinkN = MillardSeaver(s, t, 1000, SodiumD) }},
		{"QuanFry", func() { sinkN = QuanFry(s, t, SodiumD) }},
		{"Water", func() { sink = Water(t, 997.047, SodiumD).Value() }},
		{"StandardAir", func() { sink = StandardAir(SodiumD).Value() }},
		{"SodiumChloride", func() { sinkN = SodiumChloride(units.Share(0.035), t) }},
		{"SodiumChlorideStrength", func() { sink = SodiumChlorideStrength(InAir(1.3394), t).Value() }},
		{"Sucrose", func() { sinkN = Sucrose(units.Share(0.1), t) }},
		{"SucroseStrength", func() { sink = SucroseStrength(InAir(1.3394), t).Value() }},
		{"CheckRange", func() { sinkErr = CheckRange(s, t) }},
	} {
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; i < b.N; i++ {
				bench.f()
			}
		})
	}
}

func BenchmarkInstruments(b *testing.B) {
	sa, t := units.Absolute(35.16504), units.Celsius(25)
	zero := Zeroing{Standard: PureWater(), Temperature: t}
	gravityZero := Zeroing{PureWater(), t, 1}
	water := Automatic(PureWater())
	for _, bench := range []struct {
		name string
		i    Instrument
	}{
		{"Practical", Instrument{PracticalScale(), zero, water}},
		{"PracticalSugar", Instrument{PracticalScale(), zero, Automatic(SugarSolution(units.Share(0.1)))}},
		{"Gravity", Instrument{GravityOfSeawater(units.SG20C()), gravityZero, water}},
		{"SodiumChloride", Instrument{SodiumChloridePermille(), zero, water}},
		{"SodiumChlorideGravity", Instrument{GravityOfSodiumChloride(units.SG20C()), gravityZero, water}},
		{"Brix", Instrument{BrixScale(), zero, water}},
	} {
		r, err := bench.i.Reading(sa, t)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(bench.name+"/Reading", func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				sinkR, sinkErr = bench.i.Reading(sa, t)
			}
		})
		b.Run(bench.name+"/Salinity", func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				sinkS, sinkErr = bench.i.Salinity(r, t)
			}
		})
		b.Run(bench.name+"/Estimate", func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				sinkS, sinkS, sinkErr = bench.i.Estimate(r, t, Uncertainty{Reading: 0.001, Temperature: 1})
			}
		})
	}
}
