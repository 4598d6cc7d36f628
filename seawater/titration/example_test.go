package titration_test

import (
	"errors"
	"fmt"
	"math"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/seawater/titration"
	"example.org/wellmixed/units"
)

// The eighth drop of a test kit turns the colour: 5 mL of water, acid of 0.036 mol/L, 20 drops a
// millilitre. The drops are alike to 3 %, the vial is filled to 0.1 mL.
func ExampleKit_Alkalinity() {
	kit := titration.Kit{
		Sample:  5 * units.Millilitre,
		Titrant: 0.036 * units.MolePerLitre,
		Step:    0.05 * units.Millilitre,
	}
	worth, _ := kit.Worth()
	fmt.Printf("one drop is worth %.2f dKH\n", units.MilliequivalentsPerLitre(float64(worth)).DKH())
	a, u, err := kit.Alkalinity(kit.Counted(8), titration.Uncertainty{
		Delivered: units.Percent(3), Strength: units.Percent(1), Sample: 0.1 * units.Millilitre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f ± %.1f dKH\n", a.DKH(), u.DKH())
	// Output:
	// one drop is worth 1.01 dKH
	// 7.6 ± 0.4 dKH
}

// The kit turns colour at pH 4.5 of a meter set in dilute buffers, in a closed vial.
// What does it show of water of 8.0 dKH and pH 8.1, and what is there when it shows 8.0?
func ExampleVessel_EndPoint() {
	salinity, warm := units.Practical(35), units.Celsius(25)
	density := teos10.DensityExact(teos10.AbsoluteFromPractical(salinity), warm, 0)
	c := carbonate.At(salinity, warm, carbonate.Options{})

	kit := titration.Kit{Sample: 5 * units.Millilitre, Titrant: 0.036 * units.MolePerLitre, Step: 0.05 * units.Millilitre}
	vial := kit.Vessel(density, 1*units.GramPerMillilitre, c, carbonate.Nutrients{})
	alkalinity := units.DKH(8).PerKilogram(density)
	water, _ := c.Solve(carbonate.Alkalinity(alkalinity), carbonate.PH(carbonate.PHTotal(8.1)), carbonate.Nutrients{})
	end := carbonate.PHNBS(4.5).Total(&c)

	p, err := vial.EndPoint(end, alkalinity, titration.Closed(water.DIC()))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("shows %.2f dKH\n", p.Apparent.Alkalinity(density).DKH())

	stirred, _ := vial.EndPoint(end, alkalinity, titration.Open(420))
	fmt.Printf("stirred in air %.2f dKH\n", stirred.Apparent.Alkalinity(density).DKH())

	// Backwards: the acid with which the kit shows 8.0, and the pH of the tank.
	acid := vial.Sample * units.Mass(alkalinity/vial.Acid)
	a, _ := vial.Alkalinity(end, acid, titration.ClosedAt(carbonate.PHTotal(8.1)))
	fmt.Printf("where it shows 8.00 there are %.2f dKH\n", a.Alkalinity(density).DKH())
	// Output:
	// shows 7.92 dKH
	// stirred in air 8.13 dKH
	// where it shows 8.00 there are 8.09 dKH
}

// What pH to expect: 100 g of seawater with acid of 0.1 mol/kg.
func ExampleVessel_Mixture() {
	v := titration.Vessel{
		Sample: 100 * units.Gram, Acid: 0.1 * units.MolePerKilogram,
		Constants: carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{}),
	}
	for _, acid := range []units.Mass{0, 1, 2, 2.3, 2.6} {
		m, err := v.Mixture(2300, titration.Closed(2000), acid)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.1f g: pH %.2f\n", acid.Grams(), m.PH.Value())
	}
	// Output:
	// 0.0 g: pH 8.05
	// 1.0 g: pH 6.11
	// 2.0 g: pH 5.11
	// 2.3 g: pH 4.29
	// 2.6 g: pH 3.53
}

// A closed titration with a pH meter that shows 0.08 too much: the fit finds the
// alkalinity, the DIC, and the meter out.
func ExampleVessel_FitClosed() {
	v := titration.Vessel{
		Sample: 100 * units.Gram, Acid: 0.1 * units.MolePerKilogram,
		Constants: carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{}),
	}
	var points []titration.Point
	for i := range 15 {
		acid := units.Mass(0.2 * float64(i))
		m, _ := v.Mixture(2300, titration.Closed(2000), acid)
		points = append(points, titration.PH(acid, carbonate.PHTotal(m.PH.Value()+0.08)))
	}
	fit, err := v.FitClosed(points)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("alkalinity %.2f, DIC %.2f µmol/kg, meter off by %.2f\n",
		fit.Alkalinity.MicromolesPerKilogram(), fit.DIC.MicromolesPerKilogram(), -fit.E0.Millivolts()/59.16)
	// Output: alkalinity 2300.00, DIC 2000.00 µmol/kg, meter off by 0.08
}

// The same with other constants for K1 and K2 than the water has: by its acid end, the
// alkalinity hardly notices.
func ExampleVessel_FitClosedDIC() {
	v := titration.Vessel{
		Sample: 100 * units.Gram, Acid: 0.1 * units.MolePerKilogram,
		Constants: carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{K1K2: carbonate.Millero2010}),
	}
	var acid []units.Mass
	for i := range 35 {
		acid = append(acid, 0.1*units.Mass(i))
	}
	points, err := v.Curve(2300, titration.Closed(2000), acid)
	if err != nil {
		fmt.Println(err)
		return
	}
	v.Constants = carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{K1K2: carbonate.Roy1993})
	whole, err := v.FitClosed(points)
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := v.FitClosedDIC(points, whole.DIC, titration.Window{})
	fmt.Printf("all points %.1f, acid end %.1f µmol/kg, %v\n", whole.Alkalinity.MicromolesPerKilogram(), f.Alkalinity.MicromolesPerKilogram(), err)
	// Output: all points 2297.4, acid end 2299.7 µmol/kg, <nil>
}

// An open cell: acid to pH 3.5, air bubbled through, then points down to pH 3 in
// millivolts. The acid is measured by volume and turned into mass.
func ExampleVessel_FitOpen() {
	v := titration.Vessel{
		Sample: 140.32 * units.Gram, Acid: 0.10046 * units.MolePerKilogram,
		Constants: carbonate.At(units.Practical(33.923), units.Celsius(24.25), carbonate.Options{}),
	}
	const density = 1.02393 * units.GramPerMillilitre
	var points []titration.Point
	for _, p := range []struct{ ml, mV float64 }{
		{3.65, 193.84}, {3.75, 198.00}, {3.85, 201.59}, {3.95, 204.73}, {4.05, 207.53}, {4.15, 210.02}, {4.25, 212.33}, {4.35, 214.46},
	} {
		points = append(points, titration.EMF(density.Mass(units.Volume(p.ml)*units.Millilitre), units.Voltage(p.mV)))
	}
	fit, err := v.FitOpen(points, titration.AcidWindow())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f ± %.1f µmol/kg of %d points, E0 %.1f mV\n",
		fit.Alkalinity.MicromolesPerKilogram(), fit.Standard.Alkalinity.MicromolesPerKilogram(), fit.Points, fit.E0.Millivolts())
	// Output: 2260.6 ± 0.6 µmol/kg of 8 points, E0 394.4 mV
}

// A curve that ends before the acid window is refused by a type that says so.
func ExampleVessel_Gran() {
	v := titration.Vessel{
		Sample: 100 * units.Gram, Acid: 0.1 * units.MolePerKilogram,
		Constants: carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{}),
	}
	points, _ := v.Curve(2300, titration.Closed(2000), []units.Mass{0, 1, 2, 2.3, 2.7, 2.9, 3.1})
	g, err := v.Gran(points, titration.AcidWindow())
	fmt.Printf("%.0f µmol/kg of %d points, error %v\n", g.Alkalinity.MicromolesPerKilogram(), g.Points, err)

	_, err = v.Gran(points[:4], titration.AcidWindow())
	fmt.Println(errors.Is(err, titration.ErrTooFewPoints), err)
	// Output:
	// 2292 µmol/kg of 3 points, error <nil>
	// true too few points: 0 in pH 3 to 3.5, 3 needed
}

// Calcium and magnesium by EDTA of 0.01 mol/L: 10 mL of water take 10.30 mL at pH 12
// to 13. For the total the water is diluted tenfold, and 10 mL of it take 6.32 mL at
// pH 10.
func ExampleKit_CalciumHardness() {
	kit := titration.Kit{Sample: 10 * units.Millilitre, Titrant: 0.01 * units.MolePerLitre, Step: 0.02 * units.Millilitre}
	hardness, u, err := kit.CalciumHardness(10.30*units.Millilitre, titration.Uncertainty{Strength: units.Percent(0.5)})
	if err != nil {
		fmt.Println(err)
		return
	}
	kit.Sample = 1 * units.Millilitre // what is in 10 mL of the dilution
	total, _, err := kit.TotalHardness(6.32*units.Millilitre, titration.Uncertainty{})
	if err != nil {
		fmt.Println(err)
		return
	}
	strontium := titration.Strontium(units.Practical(35)).PerLitre(1023.3)
	fmt.Printf("calcium %.0f ± %.0f mg/L (%.1f of what was found is strontium)\n",
		units.AsCalcium.MassPerLitre(hardness-strontium).MilligramsPerLitre(),
		units.AsCalcium.MassPerLitre(u).MilligramsPerLitre(),
		units.AsCalcium.MassPerLitre(strontium).MilligramsPerLitre())
	fmt.Printf("magnesium %.0f mg/L\n", units.AsMagnesium.MassPerLitre(total-hardness).MilligramsPerLitre())
	// Output:
	// calcium 409 ± 2 mg/L (3.7 of what was found is strontium)
	// magnesium 1286 mg/L
}

// How well is the magnesium of that water known? What the reading of the burette leaves
// is independent in the two titrations; the strength of the EDTA, good to 0.5 %, is off the
// same way in both, so that it counts once, with the difference.
func ExampleKit_TotalHardness() {
	strength := units.Percent(0.5)
	kit := titration.Kit{Sample: 10 * units.Millilitre, Titrant: 0.01 * units.MolePerLitre, Step: 0.02 * units.Millilitre}
	calcium, readCalcium, err := kit.CalciumHardness(10.30*units.Millilitre, titration.Uncertainty{})
	if err != nil {
		fmt.Println(err)
		return
	}
	kit.Sample = 1 * units.Millilitre // what is in 10 mL of the dilution
	total, readTotal, err := kit.TotalHardness(6.32*units.Millilitre, titration.Uncertainty{})
	if err != nil {
		fmt.Println(err)
		return
	}
	magnesium := total - calcium
	read := math.Hypot(float64(readCalcium), float64(readTotal))
	u := units.AmountPerLitre(math.Hypot(read, strength.Value()*float64(magnesium)))
	fmt.Printf("magnesium %.0f ± %.0f mg/L\n",
		units.AsMagnesium.MassPerLitre(magnesium).MilligramsPerLitre(), units.AsMagnesium.MassPerLitre(u).MilligramsPerLitre())
	// Output: magnesium 1286 ± 7 mg/L
}

// Salinity by silver, as it was measured before 1960: 5 mL of water take 28.02 mL of
// silver nitrate of 0.1 mol/L, pure water 0.02.
func ExampleKit_Chlorosity() {
	kit := titration.Kit{
		Sample: 5 * units.Millilitre, Titrant: 0.1 * units.MolePerLitre,
		Step: 0.02 * units.Millilitre, Blank: 0.02 * units.Millilitre,
	}
	cl, u, err := kit.Chlorosity(28.02*units.Millilitre, titration.Uncertainty{Strength: units.Percent(0.1)})
	if err != nil {
		fmt.Println(err)
		return
	}
	s := teos10.PracticalFromChlorosity(cl)
	fmt.Printf("%.2f ± %.2f g/L at 20 °C, practical salinity %.1f\n", cl.GramsPerLitre(), u.GramsPerLitre(), s.Value())
	// Output: 19.84 ± 0.02 g/L at 20 °C, practical salinity 35.0
}

// Acid of 0.1 mol/kg in 0.6 mol/kg of sodium chloride.
func ExampleAcidDensity() {
	d := titration.AcidDensity(0.1*units.MolePerKilogram, 0.6*units.MolePerKilogram)
	fmt.Printf("%.4f g/mL\n", d.GramsPerMillilitre())
	// Output: 1.0236 g/mL
}
