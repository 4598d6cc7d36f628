package control

import (
	"testing"

	"example.org/wellmixed/units"
)

// BenchmarkTank is one step of everything: three signals and a pair, top-off, thermostat,
// two dosers, and the simulated tank itself.
func BenchmarkTank(b *testing.B) {
	r := learned()
	b.ReportAllocs()
	for b.Loop() {
		r.step()
	}
}

func BenchmarkSignal(b *testing.B) {
	g := learned().probeA
	now := Clock(0)
	b.ReportAllocs()
	for b.Loop() {
		now += 1000
		g.Judge(now, Sample{25 + 0.01*float64(now&1024)/1024, true})
	}
}

func BenchmarkTopOff(b *testing.B) {
	r := learned()
	in := TopOffInput{Level: Known(-1), Second: Clear, Empty: Clear, Leak: Clear, Salinity: Known(35)}
	now := Clock(0)
	b.ReportAllocs()
	for b.Loop() {
		now += 1000
		r.top.Step(now, in)
	}
}

func BenchmarkThermostat(b *testing.B) {
	r := learned()
	now := Clock(0)
	b.ReportAllocs()
	for b.Loop() {
		now += 1000
		r.thermo.Step(now, ThermostatInput{Known(25), true})
	}
}

func BenchmarkDoser(b *testing.B) {
	r := learned()
	now := Clock(0)
	b.ReportAllocs()
	for b.Loop() {
		now += 1000
		r.lock.Step(now, watchdog)
		r.doser.Step(now, DoserInput{PH: Known(8.1), Circulating: true}, &r.lock)
	}
}

func BenchmarkExchange(b *testing.B) {
	x, _ := NewExchange(exchangeOfTest())
	x.Acknowledge()
	x.Begin()
	now := Clock(0)
	b.ReportAllocs()
	for b.Loop() {
		now += 1000
		x.lasted = 0
		x.Step(now, ExchangeInput{Level: Known(0), High: Clear, NewWater: Clear, Drain: Clear, Leak: Clear})
	}
}

func BenchmarkAgree(b *testing.B) {
	three := [3]Opinion{{Known(25), 0.1, true}, {Known(29), 0.1, true}, {Known(25.1), 0.1, true}}
	b.ReportAllocs()
	for b.Loop() {
		Agree(three)
	}
}

func BenchmarkSaveTopOff(b *testing.B) {
	r := learned()
	b.ReportAllocs()
	for b.Loop() {
		r.top.Save(&r.savedTop)
	}
}

func BenchmarkWorst(b *testing.B) {
	s := settingsOfRig()
	b.ReportAllocs()
	for b.Loop() {
		s.Worst()
	}
}

func BenchmarkMedian(b *testing.B) {
	m := Median{N: 9}
	now := Clock(0)
	b.ReportAllocs()
	for b.Loop() {
		now += 1000
		m.Add(now, float64(now*2654435761>>20))
	}
}

func BenchmarkSmooth(b *testing.B) {
	s := Smooth{TimeConstant: 10e9}
	now := Clock(0)
	b.ReportAllocs()
	for b.Loop() {
		now += 1000
		s.Add(now, float64(now&7))
	}
}

func BenchmarkSalinities(b *testing.B) {
	s := exchangeOfTest()
	var low units.PracticalSalinity
	b.ReportAllocs()
	for b.Loop() {
		low, _, _ = s.Salinities(false)
	}
	_ = low
}
