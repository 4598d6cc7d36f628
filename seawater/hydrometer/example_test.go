package hydrometer_test

import (
	"fmt"

	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// A glass hydrometer marked 60/60 °F stands at 1.0245 in tank water of 78 °F. The
// marks are read to 0.0003, the thermometer to 0.3 °C.
func ExampleHydrometer_Estimate() {
	h := hydrometer.Hydrometer{Pair: units.SG60F(), Expansion: hydrometer.Glass}
	sa, u, err := h.Estimate(1.0245, units.Fahrenheit(78), hydrometer.Uncertainty{Reading: 0.0003, Temperature: 0.3})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("practical %.1f ± %.1f\n", teos10.PracticalFromAbsolute(sa).Value(), teos10.PracticalFromAbsolute(u).Value())
	// Output: practical 35.1 ± 0.4
}

// What should a swing arm, made for 25/25 °C, show in new water of salinity 35 that
// is still at 20 °C, and what a float?
func ExampleHydrometer_Reading() {
	water := teos10.AbsoluteFromPractical(units.Practical(35))
	for _, body := range []hydrometer.Expansion{hydrometer.Acrylic, hydrometer.Glass} {
		h := hydrometer.Hydrometer{Pair: units.SG25C(), Expansion: body}
		r, _ := h.Reading(water, units.Celsius(20))
		fmt.Printf("%.4f\n", r)
	}
	// Output:
	// 1.0266
	// 1.0277
}

// A swing arm shows 1.0285 in a standard of practical salinity 35 at 25 °C. It is
// then put in the tank, at 26 °C, and shows 1.0270.
func ExampleHydrometer_Calibrated() {
	arm := hydrometer.Hydrometer{Pair: units.SG25C(), Expansion: hydrometer.Acrylic}
	arm, err := arm.Calibrated(1.0285, teos10.AbsoluteFromPractical(units.Practical(35)), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	sa, err := arm.Salinity(1.0270, units.Celsius(26))
	fmt.Printf("shows %.4f too much; practical %.1f, error %v\n", arm.Offset, teos10.PracticalFromAbsolute(sa).Value(), err)
	// Output: shows 0.0021 too much; practical 33.1, error <nil>
}

// A hydrometer with no pair on it is not an instrument.
func ExampleHydrometer_Salinity() {
	_, err := hydrometer.Hydrometer{Expansion: hydrometer.Glass}.Salinity(1.026, units.Celsius(25))
	fmt.Println(err)
	// Output: pair: got none, or half of one, want the pair of temperatures that is marked on the hydrometer, such as 25/25 °C or 60/60 °F
}

// The target of the tank is 1.0264 at 25/25 °C. What is that in g/kg, and on the
// 60/60 °F scale of an older book?
func ExampleSalinity() {
	sa := hydrometer.Salinity(units.Gravity(1.0264, units.SG25C()))
	fmt.Printf("%.1f g/kg, %.4f\n", sa.GramsPerKilogram(), hydrometer.Gravity(sa, units.SG60F()).Ratio())
	// Output: 35.2 g/kg, 1.0269
}

// A litre of purified water at 22 °C weighs how much?
func ExampleWaterDensity() {
	fmt.Printf("%.2f g\n", hydrometer.WaterDensity(units.Celsius(22)).KilogramsPerCubicMetre())
	// Output: 997.77 g
}
