package pss78_test

import (
	"fmt"

	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

// A meter without temperature compensation shows 53.06 mS/cm in water of
// 25 °C: what is the salinity?
func ExampleSalinity() {
	s := pss78.Salinity(53.06*units.MillisiemensPerCentimetre, units.Celsius(25), 0)
	fmt.Printf("%.2f\n", s.Value())
	// Output: 34.99
}

// The logger stored a conductivity and a temperature every hour. What was the
// salinity?
func ExampleSalinities() {
	log := []units.Conductivity{53.06, 52.91, 53.34}
	temperatures := []units.Temperature{units.Celsius(25), units.Celsius(24.8), units.Celsius(25.3)}
	salinities := make([]units.PracticalSalinity, len(log)) // once, for all logs
	for _, s := range salinities[:pss78.Salinities(salinities, log, temperatures, 0)] {
		fmt.Printf("%.2f ", s.Value())
	}
	// Output: 34.99 35.04 34.97
}

// What should a meter show in water of salinity 35 at 25 °C?
func ExampleConductivity() {
	c := pss78.Conductivity(units.Practical(35), units.Celsius(25), 0)
	fmt.Printf("%.2f mS/cm\n", c.MillisiemensPerCentimetre())
	// Output: 53.07 mS/cm
}

// A probe was set to 1.0000 in standard seawater at 15 °C. In the tank, at
// 25 °C, it shows 1.2.
func ExampleRatio_Salinity() {
	s := pss78.Ratio(1.2).Salinity(units.Celsius(25), 0)
	fmt.Printf("%.2f\n", s.Value())
	// Output: 33.84
}

// What ratio should that probe show in water of salinity 35 at 25 °C?
func ExampleRatioAt() {
	fmt.Printf("%.4f\n", pss78.RatioAt(units.Practical(35), units.Celsius(25), 0))
	// Output: 1.2367
}

// Is the scale defined for a hot brine?
func ExampleCheckRange() {
	fmt.Println(pss78.CheckRange(units.Practical(45), units.Celsius(30), 0))
	// Output: practical salinity: 45 is outside 0 to 42 (PSS-78; Hill et al. 1986 below 2)
}
