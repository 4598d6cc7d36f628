package eos80_test

import (
	"fmt"

	"example.org/wellmixed/seawater/eos80"
	"example.org/wellmixed/units"
)

// What does a bucket of 10 L of seawater of salinity 35 weigh at 25 °C?
func ExampleSurfaceDensity() {
	rho := eos80.SurfaceDensity(units.Practical(35), units.Celsius(25))
	fmt.Printf("%.2f kg/m³\n", rho.KilogramsPerCubicMetre())
	fmt.Printf("%.3f kg\n", rho.Mass(10*units.Litre).Kilograms())
	// Output:
	// 1023.34 kg/m³
	// 10.233 kg
}

// At what temperature does a tub of salt water left outdoors begin to freeze?
func ExampleFreezingPoint() {
	t := eos80.FreezingPoint(units.Practical(35), 0)
	fmt.Printf("%.2f °C\n", t.Celsius())
	// Output: -1.92 °C
}

// How long does a heater of 300 W take to warm 200 kg of new salt water by
// 5 K, if no heat is lost?
func ExampleHeatCapacity() {
	cp := eos80.HeatCapacity(units.Practical(35), units.Celsius(22), 0)
	hours := 200 * 5 * cp.JoulesPerKilogramKelvin() / 300 / 3600
	fmt.Printf("%.1f h\n", hours)
	// Output: 3.7 h
}

// Is the formula for sound made for a hot brine?
func ExampleCheckRangeSoundSpeed() {
	fmt.Println(eos80.CheckRangeSoundSpeed(units.Practical(42), units.Celsius(30), 0))
	// Output: practical salinity: 42 is outside 0 to 40 (Chen and Millero 1977, UNESCO 1983)
}
