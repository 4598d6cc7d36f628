package ions_test

import (
	"fmt"

	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/units"
)

// A salt with a fifth less sulfate than the sea, made up with chloride: which
// instrument can be believed?
func ExampleComposition_Readings() {
	sulfate := ions.Reference(units.Practical(35)).Amount(ions.Sulfate) / 5
	mix := ions.Reference(units.Practical(35)).Add(ions.Sulfate, -sulfate).Add(ions.Chloride, 2*sulfate)

	r, err := mix.Readings(units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("dissolved         %.2f g/kg\n", r.Dissolved.GramsPerKilogram())
	for p, by := range r.By {
		fmt.Printf("%-17s %.2f ± %.2f g/kg\n", ions.Property(p), by.Shown.GramsPerKilogram(), by.Uncertainty.GramsPerKilogram())
	}
	fmt.Println("closest:", r.Closest())
	// Output:
	// dissolved         35.02 g/kg
	// density           34.82 ± 0.01 g/kg
	// conductivity      35.46 ± 0.05 g/kg
	// refractive index  35.12 ± 0.02 g/kg
	// closest: refractive index
}

// What is on the scale of the hydrometer and of the refractometer in water
// whose salt is not that of the sea.
func ExampleComposition_Shown() {
	mix := ions.Reference(units.Practical(35)).Add(ions.Magnesium, 5000).Add(ions.Chloride, 10000)
	t := units.Celsius(25)

	h := hydrometer.Hydrometer{Pair: units.SG25C(), Expansion: hydrometer.Glass}
	float, _ := h.Reading(mix.Shown(ions.Density, t), t)
	i := refractometer.Instrument{
		Graduation:   refractometer.PracticalScale(),
		Zero:         refractometer.Zeroing{Standard: refractometer.PureWater(), Temperature: units.Celsius(20)},
		Compensation: refractometer.Automatic(refractometer.PureWater()),
	}
	line, _ := i.Reading(mix.Shown(ions.Index, t), t)
	fmt.Printf("hydrometer %.4f, refractometer %.1f, conductivity meter %.1f\n", float, float64(line), mix.PracticalSalinity(t).Value())
	// Output: hydrometer 1.0268, refractometer 35.3, conductivity meter 35.5
}

// A report without sodium and chloride, closed with the conductivity.
func ExampleReport_Close() {
	report, err := ions.ReadReport(`
Mg, 1350, mg/L
Ca, 430, mg/L
K, 405, mg/L
SO4, 2600, mg/L
NO3 as NO3, 12, mg/L
alkalinity, 8.2, dKH
conductivity, 53.1, mS/cm
temperature, 25, °C
`)
	if err != nil {
		fmt.Println(err)
		return
	}
	closed, err := report.Close()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("Na %.1f, Cl %.1f mmol/kg, %.2f g/kg in all\n",
		closed.Composition.Amount(ions.Sodium).MillimolesPerKilogram(),
		closed.Composition.Amount(ions.Chloride).MillimolesPerKilogram(),
		closed.Composition.SolutionSalinity().GramsPerKilogram())
	for _, a := range closed.Assumed {
		fmt.Println("-", a)
	}
	// Output:
	// Na 465.6, Cl 548.6 mmol/kg, 35.09 g/kg in all
	// - contents reported without an uncertainty have one of 2 %
	// - salinity, density and the like reported without an uncertainty have one of 0.3 % in salinity
	// - sodium and chloride are inferred from the balance of charge and the conductivity
	// - strontium, bromide, fluoride, boron: not reported, taken in proportion to chloride as in the sea
	// - neither pH nor DIC is reported: carbon is taken in the sea's proportion to alkalinity
}

// Nitrate may be counted as nitrogen or as nitrate, four and a half times as
// much: nothing is guessed.
func ExampleReadReport() {
	report, _ := ions.ReadReport("Ca, 430, mg/L\nNO3, 5, mg/L\nsalinity, 35, PSU")
	_, err := report.Close()
	fmt.Println(err)
	// Output: quantity: got "NO3", want to know as what a mass of it is counted: "nitrate as N" or "nitrate as NO3"
}

// Corals take half a mmol/kg of calcium carbonate: what is left, in ions.
func ExampleComposition_Calcify() {
	before := ions.Reference(units.Practical(35))
	after, err := before.Calcify(500 * units.MicromolePerKilogram).Settled(units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("calcium %.2f -> %.2f mmol/kg\n", before.Amount(ions.Calcium).MillimolesPerKilogram(), after.Amount(ions.Calcium).MillimolesPerKilogram())
	fmt.Printf("alkalinity %.2f -> %.2f meq/kg\n", before.Alkalinity().MillimolesPerKilogram(), after.Alkalinity().MillimolesPerKilogram())
	// Output:
	// calcium 10.28 -> 9.78 mmol/kg
	// alkalinity 2.30 -> 1.30 meq/kg
}

func ExampleReference() {
	sea := ions.Reference(units.Practical(35))
	fmt.Printf("%.2f mmol/kg of calcium, chlorinity %.3f g/kg, ionic strength %.3f mol/kg\n",
		sea.Amount(ions.Calcium).MillimolesPerKilogram(), sea.Chlorinity().GramsPerKilogram(), sea.IonicStrength())
	// Output: 10.28 mmol/kg of calcium, chlorinity 19.374 g/kg, ionic strength 0.723 mol/kg
}
