package teos10_test

import (
	"fmt"

	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// What does the water of a 200 litre tank weigh?
func ExampleDensity() {
	salinity := teos10.AbsoluteFromPractical(units.Practical(35))
	heat := teos10.ConservativeFromInSitu(salinity, units.Celsius(25), 0)
	density := teos10.Density(salinity, heat, 0)
	fmt.Printf("%.2f kg/m³, %.1f kg\n", density.KilogramsPerCubicMetre(), density.Mass(200*units.Litre).Kilograms())
	// Output: 1023.34 kg/m³, 204.7 kg
}

// The same from the Gibbs function, straight from the thermometer.
func ExampleDensityExact() {
	salinity := teos10.AbsoluteFromPractical(units.Practical(35))
	density := teos10.DensityExact(salinity, units.Celsius(25), 0)
	fmt.Printf("%.2f kg/m³\n", density.KilogramsPerCubicMetre())
	// Output: 1023.34 kg/m³
}

// How many kilowatt-hours warm 20 kg of new salt water from 15 to 25 °C?
func ExampleHeatCapacityExact() {
	salinity := teos10.AbsoluteFromPractical(units.Practical(35))
	c := teos10.HeatCapacityExact(salinity, units.Celsius(20), 0)
	energy := units.Energy(c.JoulesPerKilogramKelvin() * 20 * 10)
	fmt.Printf("%.0f J/(kg K), %.2f kWh\n", c.JoulesPerKilogramKelvin(), energy.KilowattHours())
	// Output: 3996 J/(kg K), 0.22 kWh
}

// Up to which temperature must a barrel of salt water in the yard be kept?
func ExampleFreezingTemperature() {
	salinity := teos10.AbsoluteFromPractical(units.Practical(35))
	fmt.Printf("%.2f °C\n", teos10.FreezingTemperature(salinity, 0, units.Share(1)).Celsius())
	// Output: -1.92 °C
}

// Heat mixes by Conservative Temperature: 10 kg of cold fresh water into
// 90 kg of tank water.
func ExampleConservativeFromInSitu() {
	tank, fresh := units.Absolute(36), units.Absolute(0)
	warm := teos10.ConservativeFromInSitu(tank, units.Celsius(26), 0)
	cold := teos10.ConservativeFromInSitu(fresh, units.Celsius(10), 0)
	mixed := units.Absolute(0.9*36 + 0.1*0)
	heat := teos10.Conservative(0.9*warm.Celsius() + 0.1*cold.Celsius())
	fmt.Printf("CT %.2f °C, thermometer %.2f °C\n", heat.Celsius(),
		teos10.InSituFromConservative(mixed, heat, 0).Celsius())
	// Output: CT 24.43 °C, thermometer 24.33 °C
}

// A weighed flask held water of 1024.5 kg/m³ at 25 °C: how salty is it?
func ExampleSalinityFromDensityExact() {
	sa := teos10.SalinityFromDensityExact(1024.5, units.Celsius(25), 0)
	fmt.Printf("%.2f g/kg, practical %.2f\n", sa.GramsPerKilogram(), teos10.PracticalFromAbsolute(sa).Value())
	// Output: 36.70 g/kg, practical 36.53
}

// A tank of high alkalinity weighs a little more than its conductivity says.
func ExampleDensitySalinity() {
	sp := units.Practical(35)
	sa := teos10.DensitySalinity(sp, teos10.Solutes{
		Alkalinity: 3 * units.MillimolePerKilogram,
		Carbon:     2.7 * units.MillimolePerKilogram,
		Nitrate:    160 * units.MicromolePerKilogram,
	})
	fmt.Printf("%.3f instead of %.3f g/kg\n", sa.GramsPerKilogram(), teos10.AbsoluteFromPractical(sp).GramsPerKilogram())
	// Output: 35.213 instead of 35.165 g/kg
}

// Which pressure does a membrane need at least to press fresh water out of
// salt water?
func ExampleOsmoticPressure() {
	pi := teos10.OsmoticPressure(teos10.AbsoluteFromPractical(units.Practical(35)), units.Celsius(25), 0)
	fmt.Printf("%.1f bar\n", pi.Bars())
	// Output: 25.9 bar
}

// How much power does a litre of evaporation a day take out of a tank?
func ExampleEvaporationHeat() {
	salinity := teos10.AbsoluteFromPractical(units.Practical(35))
	heat := teos10.EvaporationHeat(salinity, teos10.ConservativeFromInSitu(salinity, units.Celsius(25), 0))
	fmt.Printf("%.0f kJ/kg, %.0f W\n", heat/1000, heat/86400)
	// Output: 2439 kJ/kg, 28 W
}

// The range of a formula is checked apart from it.
func ExampleCheckRange() {
	fmt.Println(teos10.CheckRange(units.Absolute(35), teos10.Conservative(25), 0))
	fmt.Println(teos10.CheckRange(units.Absolute(70), teos10.Conservative(25), 0))
	// Output:
	// <nil>
	// absolute salinity: 70 g/kg is outside 0 to 42 g/kg (Roquet et al. 2015, 75-term polynomial)
}
