package units_test

import (
	"fmt"
	"time"

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

// A salinity, in any of the ways in which people say it.
func ExampleReadAny() {
	for _, text := range []string{"35 ppt", "35.2 g/kg", "1.026 SG", "1.0264 25/25 °C", "53 mS/cm at 25 °C", "35 mg/L"} {
		q, err := units.ReadAny(text, units.PracticalSalinity{}, units.AbsoluteSalinity{},
			units.SpecificGravity{}, units.BareGravity(0), units.ConductivityAt{})
		switch q := q.(type) {
		case nil:
			fmt.Println(err)
		case units.BareGravity: // the mark on the instrument, here assumed
			fmt.Println(units.Kind(q)+":", q, "so", q.At(units.SG25C()))
		default:
			fmt.Println(units.Kind(q)+":", q)
		}
	}
	// Output:
	// practical salinity: 35 PSS-78
	// absolute salinity: 35.2 g/kg
	// specific gravity without its pair of temperatures: 1.026 SG so 1.026 25/25 °C
	// specific gravity: 1.0264 25/25 °C
	// conductivity at a temperature: 53 mS/cm at 25 °C
	// quantity: got "35 mg/L", want an absolute salinity such as "35.165 g/kg", a specific gravity without its pair of temperatures such as "1.026 SG", a conductivity at a temperature such as "53 mS/cm at 25 °C", a practical salinity such as "35" (or "35 ppt", which is read the same way) or a specific gravity such as "1.0264 25/25 °C"
}

// A share or a volume, whichever was typed.
func ExampleReadAny_share() {
	tank := 82 * units.USGallon
	for _, text := range []string{"20 %", "16 US gal", "16 gal"} {
		switch q, err := units.ReadAny(text, units.Fraction{}, units.Volume(0)); q := q.(type) {
		case units.Fraction:
			fmt.Println(units.Both.Format(units.Volume(q.Value() * tank.Litres())))
		case units.Volume:
			fmt.Println(units.Both.Format(q))
		default:
			fmt.Println(err)
		}
	}
	// Output:
	// 16.4 US gal (62.1 L)
	// 16 US gal (60.6 L)
	// volume: got "16 gal", want "US gal" (3.785 L) or "imp gal" (4.546 L)
}

// The same quantities for a keeper in either country.
func ExampleStyle() {
	for _, style := range []units.Style{units.Metric, units.US, units.Both} {
		fmt.Println(style.Format(82*units.USGallon), "at", style.Format(units.Fahrenheit(78)))
	}
	// Output:
	// 310 L at 25.6 °C
	// 82 US gal at 78 °F
	// 82 US gal (310 L) at 78 °F (25.6 °C)
}

// Times as people write them, for the planners that count in time.Duration.
func ExampleDuration() {
	for _, text := range []string{"2 weeks", "36 h", "½ year", "6 h 35 min"} {
		d, err := units.Parse[units.Duration](text)
		fmt.Println(time.Duration(d).Hours(), d, err)
	}
	// Output:
	// 336 14 days <nil>
	// 36 1 day 12 h <nil>
	// 4380 182 days 12 h <nil>
	// 6.583333333333333 6 h 35 min <nil>
}
