package teos10_test

import (
	"fmt"

	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// A station of 1938: salinity 35.13 ‰ by Knudsen's tables; and one of 1960, 18.25 °C.
func ExampleKnudsen() {
	sp := teos10.PracticalFromKnudsen(teos10.Knudsen(35.13))
	fmt.Printf("practical %.4f\n", sp.Value())
	fmt.Printf("%.4f °C ITS-90\n", teos10.IPTS48(18.25).Celsius())
	// Output:
	// practical 35.1301
	// 18.2391 °C ITS-90
}

// A silver titration of a measured volume gives 19.85 g/L.
func ExamplePracticalFromChlorosity() {
	sp := teos10.PracticalFromChlorosity(teos10.ClPerLitre(19.85))
	fmt.Printf("%.2f\n", sp.Value())
	// Output: 34.99
}

// What chlorinity has water of practical salinity 35?
func ExampleChlorinityFromPractical() {
	fmt.Printf("%.3f g/kg\n", teos10.ChlorinityFromPractical(units.Practical(35)).GramsPerKilogram())
	// Output: 19.374 g/kg
}
