package gas_test

import (
	"fmt"
	"time"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/eos80"
	"example.org/wellmixed/seawater/gas"
	"example.org/wellmixed/units"
)

// How much oxygen should my water hold at 26 °C in Denver, and how much of it is
// there if the meter shows 5.2 mg/L?
func Example() {
	s, t := units.Practical(35), units.Celsius(26)
	p := gas.PressureAtAltitude(5280 * units.Foot)
	rho := eos80.SurfaceDensity(s, t)

	full := gas.Oxygen.Saturation(s, t, p)
	measured := gas.Oxygen.FromMassPerLitre(5.2*units.MilligramPerLitre, rho)

	fmt.Printf("%.0f hPa: %.0f µmol/kg, %.2f mg/L, %.2f mL/L\n", p.Hectopascals(), full.MicromolesPerKilogram(),
		gas.Oxygen.MassPerLitre(full, rho).MilligramsPerLitre(),
		gas.Oxygen.MillilitresPerLitre(full.PerLitre(rho)))
	fmt.Printf("the meter's water: %.0f %%\n", gas.Share(measured, full).Percent())
	// Output:
	// 834 hPa: 166 µmol/kg, 5.44 mg/L, 3.81 mL/L
	// the meter's water: 96 %
}

// The weather report says 1018 hPa. What does a barometer in Denver show?
func ExampleStationPressure() {
	fmt.Printf("%.0f hPa\n", gas.StationPressure(1018*units.Hectopascal, 5280*units.Foot).Hectopascals())
	// Output: 838 hPa
}

// A log of oxygen after nitrogen had been bubbled through the batch: how fast does
// this pump aerate?
func ExampleFitDeficit() {
	log := []gas.Reading{
		{0, units.Percent(20.0)}, {6 * time.Minute, units.Percent(42.9)}, {12 * time.Minute, units.Percent(60.4)},
		{18 * time.Minute, units.Percent(71.7)}, {24 * time.Minute, units.Percent(80.6)}, {30 * time.Minute, units.Percent(85.9)},
	}
	fit, err := gas.FitDeficit(log, units.Percent(100))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f ± %.2f per hour\n", fit.Rate.PerHour(), fit.Uncertainty.PerHour())
	// Output: 3.50 ± 0.03 per hour
}

// The same meter, but is its 100 % the truth?
func ExampleFitCurve() {
	log := []gas.Reading{
		{0, units.Percent(20.0)}, {10 * time.Minute, units.Percent(54.0)}, {20 * time.Minute, units.Percent(73.3)},
		{30 * time.Minute, units.Percent(84.1)}, {45 * time.Minute, units.Percent(91.7)}, {60 * time.Minute, units.Percent(94.7)},
		{90 * time.Minute, units.Percent(96.7)},
	}
	fit, err := gas.FitCurve(log)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f ± %.2f per hour, to %.1f ± %.1f %%\n", fit.Rate.PerHour(), fit.Uncertainty.PerHour(),
		fit.Saturation.Percent(), fit.SaturationUncertainty.Percent())
	// Output: 3.53 ± 0.02 per hour, to 97.1 ± 0.1 %
}

// How long must the batch be aerated until its pH is steady? The salt has made a
// water that is far from balance with a room of 800 ppm; the pump gives oxygen
// 0.8 per hour.
func ExampleAeration_Settle() {
	s, t := units.Practical(35), units.Celsius(25)
	oxygen := 0.8 * gas.PerHour
	a := gas.Aeration{
		Water:    carbonate.Water{Salinity: s, Temperature: t, Alkalinity: 3000, DIC: 2900},
		Air:      800,
		Pressure: 1 * units.Atmosphere,
		Rate:     oxygen.Of(gas.CarbonDioxide, gas.Oxygen, s, t, gas.Rough),
	}
	settled, err := a.Settle(0.02)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("from pH %.2f to %.2f, within 0.02 after %.0f hours\n",
		settled.Before.Value(), settled.Balance.Value(), settled.Time.Hours())
	// Output: from pH 7.58 to 7.90, within 0.02 after 31 hours
}

// The power fails. How long has the tank until its oxygen is down to 120 µmol/kg,
// 4 mg/L? It stood at 195 while the pump brought 3 per hour of what was missing; the
// still surface brings 0.1.
func ExampleOutage_Reserve() {
	saturation := gas.Oxygen.Saturation(units.Practical(35), units.Celsius(25), 1*units.Atmosphere)
	pump := 3 * gas.PerHour
	r, err := gas.Outage{
		Oxygen: 195, Saturation: saturation, Demand: pump.Supply(saturation, 195),
		Rate: 0.1 * gas.PerHour, Limit: 120,
	}.Reserve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f hours, but act at once\n", r.Time.Hours())
	// Output: 2.5 hours, but act at once
}

// How much will my tank evaporate tonight, and how much heat does that take? The
// surface is 120 by 60 cm, the water 26 °C, the room 21 °C and 45 % humid.
func ExampleSurface_Evaporate() {
	tank := gas.Surface{
		Salinity: units.Practical(35), Temperature: units.Celsius(26),
		Area: units.Rectangle(120*units.Centimetre, 60*units.Centimetre),
	}
	room := gas.Air{Temperature: units.Celsius(21), Pressure: 1013 * units.Hectopascal, Humidity: units.Percent(45)}
	e, err := tank.Evaporate(room)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("in 8 hours %.1f L, perhaps %.1f or %.1f\n", e.Likely.TopOff.Volume(8*time.Hour).Litres(),
		e.Low.TopOff.Volume(8*time.Hour).Litres(), e.High.TopOff.Volume(8*time.Hour).Litres())
	fmt.Printf("%.0f W, perhaps %.0f to %.0f\n", e.Likely.Heat.Watts(), e.Low.Heat.Watts(), e.High.Heat.Watts())
	// Output:
	// in 8 hours 1.1 L, perhaps 0.6 or 2.3
	// 97 W, perhaps 49 to 194
}

// A pump draws air in through a leaking joint and presses it into the water. Is
// that dangerous?
func ExamplePressures() {
	s, t, barometer := units.Practical(35), units.Celsius(25), 1*units.Atmosphere
	water := gas.Equilibrium(s, t, barometer, 500)
	water.Nitrogen *= 1.12
	water.Oxygen *= 1.10
	p := water.Pressures(s, t)
	total := p.OfBarometer(barometer)
	fmt.Printf("%.0f %% total gas, ΔP %.0f mmHg\n", total.Percent(), p.Excess(barometer).MillimetresOfMercury())
	fmt.Printf("look for the source: %t, emergency: %t\n", total.Value() > gas.TotalGasAlert().Value(), total.Value() > gas.TotalGasLimit().Value())
	// Output:
	// 111 % total gas, ΔP 85 mmHg
	// look for the source: true, emergency: true
}

// Will the window frame of 12 °C get wet?
func ExampleAir_DewPoint() {
	room := gas.Air{Temperature: units.Celsius(21), Pressure: 1013 * units.Hectopascal, Humidity: units.Percent(60)}
	fmt.Printf("dew point %.1f °C\n", room.DewPoint().Celsius())
	// Output: dew point 12.9 °C
}
