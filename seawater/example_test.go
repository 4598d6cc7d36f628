package seawater_test

import (
	"fmt"

	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// A meter shows 51.8 mS/cm in water of 24.2 °C, uncompensated: how salt is it,
// and what will a hydrometer marked 60/60 °F say?
func ExampleFromConductivity() {
	s, err := seawater.FromConductivity(51.8*units.MillisiemensPerCentimetre, units.Celsius(24.2))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f, SG %.4f\n", s.Practical().Value(), s.SpecificGravity(units.SG60F()).Ratio())
	// Output: 34.7, SG 1.0266
}

// A litre of water weighs 1024.1 g at 25 °C.
func ExampleFromDensity() {
	s, err := seawater.FromDensity(1024.1*units.KilogramPerCubicMetre, units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f\n", s.Practical().Value())
	// Output: 36.0
}

// Ten litres of a mix that is too salt and half a litre of pure water: what is it
// then?
func ExampleBlend() {
	salt, err := seawater.FromPractical(units.Practical(37), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	pure, err := seawater.PureWater(units.Celsius(18))
	if err != nil {
		fmt.Println(err)
		return
	}
	all := seawater.Blend(salt.OfVolume(10*units.Litre), pure.OfVolume(0.5*units.Litre))
	fmt.Printf("%.1f L at %.1f °C and %.1f\n", all.Volume().Litres(), all.Temperature().Celsius(), all.Practical().Value())
	// Output: 10.5 L at 24.7 °C and 35.3
}
