package gas

import (
	"testing"
	"time"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

var sink float64

var benches = []struct {
	name string
	f    func()
}{
	{"OxygenGarciaGordon", func() { sink = float64(OxygenGarciaGordon(sea, warm)) }},
	{"OxygenGarciaGordonPerLitre", func() { sink = float64(OxygenGarciaGordonPerLitre(sea, warm)) }},
	{"OxygenBensonKrause", func() { sink = float64(OxygenBensonKrause(sea, warm)) }},
	{"NitrogenHammeEmerson", func() { sink = float64(NitrogenHammeEmerson(sea, warm)) }},
	{"ArgonHammeEmerson", func() { sink = float64(ArgonHammeEmerson(sea, warm)) }},
	{"SaturationWeiss", func() { sink = float64(Nitrogen.SaturationWeiss(sea, warm)) }},
	{"BunsenWeiss", func() { sink = Nitrogen.BunsenWeiss(sea, warm) }},
	{"CarbonDioxideK0PerLitre", func() { sink = CarbonDioxideK0PerLitre(sea, warm) }},
	{"CarbonDioxideF", func() { sink = CarbonDioxideF(sea, warm) }},
	{"CarbonDioxideSaturation", func() { sink = float64(CarbonDioxideSaturation(sea, warm, 900, 420)) }},
	{"Saturation", func() { sink = float64(Oxygen.Saturation(sea, warm, 900)) }},
	{"PartialPressure", func() { sink = float64(Oxygen.PartialPressure(sea, warm, 200)) }},
	{"Dissolved", func() { sink = float64(Oxygen.Dissolved(sea, warm, 200)) }},
	{"VapourPressure", func() { sink = float64(VapourPressure(sea, warm)) }},
	{"PressureAtAltitude", func() { sink = float64(PressureAtAltitude(1e6)) }},
	{"StationPressure", func() { sink = float64(StationPressure(1020, 1e6)) }},
	{"Equilibrium", func() { sink = float64(Equilibrium(sea, warm, 900, 420).Oxygen) }},
	{"Pressures", func() { sink = float64(Contents{200, 400, 10, 10}.Pressures(sea, warm).Total()) }},
	{"BubbleDepth", func() { sink = float64(BubbleDepth(100, 1025)) }},
	{"Schmidt", func() { sink = Oxygen.Schmidt(sea, warm) }},
	{"Diffusivity", func() { sink = Oxygen.Diffusivity(sea, warm) }},
	{"TransferRateOf", func() { sink = float64(TransferRate(2).Of(CarbonDioxide, Oxygen, sea, warm, Rough)) }},
	{"TransferRateMoved", func() { sink = float64(TransferRate(2).Moved(warm, warm)) }},
	{"SaturationPressure", func() { sink = float64(SaturationPressure(warm)) }},
	{"HumidityRatio", func() { sink = room.HumidityRatio() }},
	{"DryDensity", func() { sink = float64(room.DryDensity()) }},
	{"Enthalpy", func() { sink = room.Enthalpy() }},
	{"DewPoint", func() { sink = room.DewPoint().Celsius() }},
	{"HumidityFromWetBulb", func() { sink = HumidityFromWetBulb(warm, units.Celsius(20), oneAtm).Value() }},
	{"WetBulb", func() { sink = room.WetBulb().Celsius() }},
	{"RateOfTwo", func() {
		k, _, _ := RateOfTwo(Reading{0, units.Percent(20)}, Reading{time.Hour, units.Percent(60)}, units.Percent(100), units.Percent(1))
		sink = k.PerHour()
	}},
	{"ShahRate", func() { sink = ShahRate(sea, warm, room) }},
	{"CarrierRate", func() { sink = CarrierRate(sea, warm, room, 0.2, CarrierQuiet) }},
	{"VDIRate", func() { sink = VDIRate(sea, warm, room, VDIStill) }},
	{"Evaporate", func() { e, _ := tank.Evaporate(room); sink = float64(e.Likely.Heat) }},
	{"Reserve", func() {
		r, _ := Outage{Oxygen: 200, Saturation: 206, Demand: 20, Rate: 0.1, Limit: 120}.Reserve()
		sink = float64(r.Time)
	}},
	{"FitDeficit30", func() { f, _ := FitDeficit(benchLog, units.Share(1)); sink = float64(f.Rate) }},
	{"FitCurve30", func() { f, _ := FitCurve(benchLog); sink = float64(f.Rate) }},
	{"Settle", func() { s, _ := batch.Settle(0.02); sink = float64(s.Time) }},
	{"After", func() { s, _ := batch.After(12 * time.Hour); sink = s.PH.Value() }},
}

var benchLog = synthetic(30, 1, 3.5, 1, 0.2, 0, nil)

func BenchmarkAll(b *testing.B) {
	for _, c := range benches {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				c.f()
			}
		})
	}
}

func TestNothingAllocates(t *testing.T) {
	for _, c := range benches {
		checks.NoAllocations(t, c.name, c.f)
	}
}
