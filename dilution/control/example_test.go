package control_test

import (
	"fmt"
	"time"

	"example.org/wellmixed/dilution/control"
	"example.org/wellmixed/dilution/control/words"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

// A sensor that speaks in whole numbers, µS/cm and thousandths of a degree, becomes samples,
// a judged salinity, and whole numbers for a display: no decimals on any wire.
func ExampleSignal() {
	conductivity, _ := control.NewSignal(control.Channel{
		Min: 1, Max: 80, PerHour: 6, Noise: 0.03, Step: 0.01, Spike: time.Minute, Gap: 10 * time.Second,
	})
	temperature, _ := control.NewSignal(control.Channel{
		Min: -1, Max: 45, PerHour: 4, Noise: 0.02, Step: 0.01, Spike: time.Minute, Gap: 10 * time.Second,
	})
	now := control.Clock(4294966000) // about to wrap
	for _, raw := range [][2]int32{{53071, 25012}, {53080, 25010}, {31000, 25010}, {53075, 25013}} {
		now += 1000
		c := conductivity.Judge(now, control.Thousandths(raw[0])) // mS/cm
		t := temperature.Judge(now, control.Thousandths(raw[1]))  // °C
		s := pss78.Salinity(units.Conductivity(c.Value), units.Celsius(t.Value), 0)
		shown, _ := control.InThousandths(s.Value())
		fmt.Println(shown, words.Quality(c.Quality), words.Reason(c.Reason))
	}
	// Output:
	// 34991 good fine
	// 34999 good fine
	// 19248 suspect jumped
	// 34993 good fine
}

var tank = control.TopOffSettings{
	Watchdog: 5 * time.Second,
	Tank:     200 * units.Litre, Area: 0.12 * units.SquareMetre, Headroom: 15 * units.Litre,
	Salinity: units.Practical(35), Temperature: units.Celsius(25),
	Reservoir: 20 * units.Litre, Flow: 20, FlowUncertainty: 0.5,
	Band: 5 * units.Millimetre, Notice: 3 * units.Millimetre,
	MaxRun: 4 * time.Minute, DayCap: 6 * units.Litre, SalinityBand: 0.8,
	SecondRelay: true, AirGap: true,
}

// What is the worst that one fault can do, before anything is built? Without a second level
// the salinity has to find a level that reads ever lower; with one it is found before.
func ExampleTopOffSettings_WorstCase() {
	fmt.Printf("worst case: %s\n", words.AppendWorst(nil, tank.Worst()))
	better := tank
	better.Second = 25 * units.Millimetre
	fmt.Printf("with a second level: %s\n", words.AppendWorst(nil, better.Worst()))
	worse := tank
	worse.AirGap = false
	fmt.Printf("without an air gap: %s\n", words.AppendWorst(nil, worse.Worst()))
	// Output:
	// worst case: 9.7 L, 35.0 to 34.2 (level reads ever lower)
	// with a second level: 3.1 L, 35.0 to 34.5 (level reads ever lower)
	// without an air gap: 20.0 L, 35.0 to 31.9, 5.0 L of it on the floor (siphon)
}

// A top-off that a person has started pumps while the level is low, and no longer than it
// brings the level up; the level sensor says here that nothing rises.
func ExampleTopOff() {
	top, refusal := control.NewTopOff(tank)
	fmt.Println(refusal.OK())
	top.Acknowledge() // a person pressed the key: nothing was pumped today
	for now := control.Clock(0); ; now += 2000 {
		d := top.Step(now, control.TopOffInput{Level: control.Known(-6), Salinity: control.Known(35)})
		if top.Alarms().Len() > 0 {
			a := top.Alarms().At(0)
			fmt.Println(d.Pump, words.Code(a.Code), a.Severity(), a.Since)
			fmt.Printf("%.2f L\n", top.Pumped().Litres())
			return
		}
	}
	// Output:
	// true
	// false level does not rise care 4m16s
	// 1.09 L
}

// Two pumps, each measured to 2 %, change 40 of 200 L: how far can the salinity be off once
// the top-off has set the level right?
func ExampleExchangeSettings_Salinities() {
	change := control.ExchangeSettings{
		Watchdog: 10 * time.Second, Tank: 200, Salinity: units.Practical(35), NewSalinity: units.Practical(35),
		Temperature: units.Celsius(25), Swap: 40, Out: 60, In: 60, OutUncertainty: 1.2, InUncertainty: 1.2,
		MostImbalance: 2, Area: 0.12, Notice: 3 * units.Millimetre,
	}
	low, _, high := change.Salinities(false)
	fmt.Printf("%.1f L, %.2f to %.2f\n", change.Imbalance().Litres(), low.Value(), high.Value())
	change.Area = 0 // nobody sees the level
	low, _, high = change.Salinities(true)
	fmt.Printf("a pump that stands: %.1f to %.1f\n", low.Value(), high.Value())
	// Output:
	// 2.7 L, 34.54 to 35.46
	// a pump that stands: 28.1 to 41.8
}

// How long does a coarse thermometer, 0.1 K with a noise of 0.03 K, show the same digits? A
// heater that swings by 0.3 K in an hour at least moves it.
func ExampleStillTime() {
	fmt.Println(control.StillTime(0.1, 0.03, 10*time.Second, 0.3).Round(time.Second))
	fmt.Println(control.StillTime(0.01, 0.03, 10*time.Second, 0).Round(time.Second))
	// Output:
	// 38m12s
	// 1m54s
}

// Alkalinity and calcium go into a chamber of 30 L through which 1500 L run in an hour: how
// long apart until 1 % of the first is left there?
func ExampleTimeApart() {
	fmt.Println(control.TimeApart(30, 1500, units.Percent(1)).Round(time.Second))
	// Output: 5m32s
}

// Three thermometers, one of which is off.
func ExampleAgree() {
	a := control.Agree([3]control.Opinion{
		{Reading: control.Known(25.0), Uncertainty: 0.1, Fitted: true},
		{Reading: control.Known(26.4), Uncertainty: 0.1, Fitted: true},
		{Reading: control.Known(25.1), Uncertainty: 0.1, Fitted: true},
	})
	fmt.Printf("%.2f ± %.2f, %s, apart %03b\n", a.Value, a.Uncertainty, words.Reason(a.Reason), a.Apart)
	// Output: 25.05 ± 0.07, one sensor apart, apart 010
}
