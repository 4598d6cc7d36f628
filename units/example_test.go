package units_test

import (
	"fmt"

	"example.org/wellmixed/units"
)

// A tank sold as 75 US gallons, in litres.
func Example() {
	tank := 75 * units.USGallon
	fmt.Printf("%.1f L\n", tank.Litres())
	// Output: 283.9 L
}

// Text from a form or a file: what is clear is read, what is not is refused
// with advice.
func ExampleParse() {
	v, err := units.Parse[units.Volume]("5 US gal")
	fmt.Printf("%.2f L %v\n", v.Litres(), err)
	_, err = units.Parse[units.Volume]("5 gal")
	fmt.Println(err)
	// Output:
	// 18.93 L <nil>
	// volume: got "5 gal", want "US gal" (3.785 L) or "imp gal" (4.546 L)
}

// One alkalinity on the three scales of test kits.
func ExampleAlkalinity() {
	a := units.DKH(8.2)
	fmt.Printf("%.2f meq/L, %.0f ppm CaCO3\n", a.MilliequivalentsPerLitre(), a.PPMCaCO3())
	// Output: 2.92 meq/L, 146 ppm CaCO3
}

// A 75 US gal/day membrane fills a 40 L bin.
func ExampleFlow_Time() {
	fmt.Println((75 * units.USGallonPerDay).Time(40 * units.Litre).Round(1e9 * 60))
	// Output: 3h23m0s
}

// A hydrometer marked 60/60 °F; the mark is part of the reading.
func ExampleGravity() {
	fmt.Println(units.Gravity(1.0268, units.SG60F()))
	// Output: 1.0268 60/60 °F
}
