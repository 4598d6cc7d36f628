package weighing_test

import (
	"fmt"

	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/seawater/weighing"
	"example.org/wellmixed/units"
)

// Is the refractometer right? A measuring jug of polypropylene is filled to its
// line with purified water of 22 °C, then with tank water of 25 °C. A kitchen balance
// with steps of 1 g shows 1983 g and 2036 g.
func ExampleFlask_Calibrated() {
	jug := weighing.Flask{
		Vessel: weighing.Vessel{At: units.Celsius(20), Expansion: weighing.Polypropylene},
		Air:    weighing.StandardAir(),
	}
	jug, err := jug.Calibrated(1983*units.Gram, units.Absolute(0), units.Celsius(22))
	if err != nil {
		fmt.Println(err)
		return
	}
	// Each reading and each filling to the line is good to 1 g and 1 mL.
	sa, u, err := jug.Estimate(2036*units.Gram, units.Celsius(25), weighing.Uncertainty{
		Reading: 1 * units.Gram, Temperature: 0.3, Capacity: 1.4 * units.Millilitre, Expansion: 1e-4,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("line at %.4f L; practical %.1f ± %.1f\n", jug.Vessel.Capacity.Litres(),
		teos10.PracticalFromAbsolute(sa).Value(), teos10.PracticalFromAbsolute(u).Value())
	// Output: line at 1.9877 L; practical 34.6 ± 1.3
}

// A volumetric flask of a litre, class A, on a balance with steps of 0.1 g.
func ExampleFlask_Salinity() {
	flask := weighing.Flask{
		Vessel: weighing.Vessel{Capacity: 1 * units.Litre, At: units.Celsius(20), Expansion: weighing.Borosilicate},
		Air:    weighing.StandardAir(),
	}
	sa, err := flask.Salinity(1022.3*units.Gram, units.Celsius(25))
	fmt.Printf("%.1f g/kg, error %v\n", sa.GramsPerKilogram(), err)
	// Output: 35.1 g/kg, error <nil>
}

// A dosing pump is told to give 1 mL a hundred times. What comes out is purified
// water of 23 °C and weighs 96.4 g, to 0.1 g.
func ExampleDispensed() {
	v, u, err := weighing.Dispensed(96.4*units.Gram, units.Absolute(0), units.Celsius(23), weighing.StandardAir(),
		weighing.Uncertainty{Reading: 0.1 * units.Gram, Temperature: 0.5})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.3f ± %.3f mL a stroke\n", v.Millilitres()/100, u.Millilitres()/100)
	// Output: 0.967 ± 0.001 mL a stroke
}

// The factor that turns grams on the balance into millilitres of water at 22 °C.
func ExampleZ() {
	fmt.Printf("%.4f mL/g\n", weighing.Z(units.Celsius(22), weighing.StandardAir()))
	// Output: 1.0033 mL/g
}

// The same room, 1500 m up.
func ExampleAir_Density() {
	air := weighing.Air{Temperature: units.Celsius(20), Pressure: 845 * units.Hectopascal, Humidity: units.Percent(50)}
	fmt.Printf("%.3f kg/m³\n", air.Density().KilogramsPerCubicMetre())
	// Output: 0.999 kg/m³
}
