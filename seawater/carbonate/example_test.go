package carbonate_test

import (
	"fmt"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// The kit says 8.2 dKH and the electrode, which was set in NBS buffers, 8.25:
// what is the state of the tank?
func ExampleConstants_Solve() {
	c := carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{})
	ta := units.DKH(8.2).PerKilogram(1.0233 * units.GramPerMillilitre)
	ph := carbonate.PHNBS(8.25).Total(&c)

	s, err := c.Solve(carbonate.Alkalinity(ta), carbonate.PH(ph), carbonate.Nutrients{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("alkalinity %.0f µmol/kg, pH %.2f on the total scale\n", ta.MicromolesPerKilogram(), ph.Value())
	fmt.Printf("pCO2 %.0f µatm, aragonite %.1f times saturated\n", s.PCO2().Microatmospheres(), s.Aragonite())
	// Output:
	// alkalinity 2858 µmol/kg, pH 8.11 on the total scale
	// pCO2 411 µatm, aragonite 4.8 times saturated
}

// Is the new batch ready? It was mixed from salt that brings much alkalinity,
// and has stirred in the air of the room for a while.
func ExampleWater_Equilibrate() {
	batch := carbonate.Water{Salinity: units.Practical(35), Temperature: units.Celsius(25), Alkalinity: 3200, DIC: 2500}
	now, _ := batch.System()
	aired, err := batch.Equilibrate(450, units.Atmosphere) // 450 ppm in the room, an ordinary barometer
	if err != nil {
		fmt.Println(err)
		return
	}
	then, _ := aired.System()
	fmt.Printf("now pH %.2f, pCO2 %.0f µatm\n", now.PH().Value(), now.PCO2().Microatmospheres())
	fmt.Printf("in equilibrium pH %.2f, pCO2 %.0f µatm\n", then.PH().Value(), then.PCO2().Microatmospheres())
	fmt.Printf("CO2 still to come: %.0f µmol/kg\n", (aired.DIC - batch.DIC).MicromolesPerKilogram())
	// Output:
	// now pH 8.40, pCO2 196 µatm
	// in equilibrium pH 8.13, pCO2 436 µatm
	// CO2 still to come: 248 µmol/kg
}

// What will the pH of the tank be after the change? 40 kg of an aired batch go
// into 160 kg that stay.
func ExampleWater_Blend() {
	tank := carbonate.Water{Salinity: units.Practical(35.2), Temperature: units.Celsius(25.5), Alkalinity: 2400, DIC: 2180}
	batch := carbonate.Water{Salinity: units.Practical(35), Temperature: units.Celsius(24), Alkalinity: 3200, DIC: 2748}
	mixed, err := tank.Blend(160*units.Kilogram, batch, 40*units.Kilogram, units.Celsius(25.2))
	if err != nil {
		fmt.Println(err)
		return
	}
	before, _ := tank.System()
	after, _ := mixed.System()
	fmt.Printf("pH %.2f before, %.2f after\n", before.PH().Value(), after.PH().Value())
	fmt.Printf("alkalinity %.0f, aragonite %.1f\n", after.Alkalinity().MicromolesPerKilogram(), after.Aragonite())
	// Output:
	// pH 7.88 before, 7.95 after
	// alkalinity 2560, aragonite 3.2
}

// The kit shows 0.5 mg/L of total ammonia at pH 8.1. How much is poisonous?
func ExampleFreeAmmonia() {
	share := carbonate.FreeAmmonia(units.Practical(35), units.Celsius(25), carbonate.PHTotal(8.1))
	free := 0.5 * units.MilligramPerLitre * units.MassPerLitre(share.Value())
	fmt.Printf("%.1f %%, %.3f mg/L; for long too much: %v\n", share.Percent(), free.MilligramsPerLitre(), free > carbonate.ChronicAmmonia)
	// Output: 6.7 %, 0.033 mg/L; for long too much: false
}

// Corals take 5 g of calcium carbonate from 400 kg of water in a night.
func ExampleWater_Precipitate() {
	evening := carbonate.Water{Salinity: units.Practical(35), Temperature: units.Celsius(25), Alkalinity: 2900, DIC: 2550}
	morning := evening.Precipitate(carbonate.CalciumCarbonate(5*units.Gram, 400*units.Kilogram))
	s, err := morning.System()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("alkalinity %.0f, pH %.2f, aragonite %.1f\n", s.Alkalinity().MicromolesPerKilogram(), s.PH().Value(), s.Aragonite())
	// Output: alkalinity 2650, pH 7.87, aragonite 2.8
}

// How sure is the saturation of aragonite by a kit and an electrode?
func ExampleConstants_Uncertainty() {
	c := carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{})
	u, err := c.Uncertainty(
		carbonate.Alkalinity(2850).PlusMinus(60), carbonate.PH(carbonate.PHTotal(8.1)).PlusMinus(0.05),
		carbonate.Nutrients{}, carbonate.LuekerScatter())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("± %.1f\n", u.Aragonite)
	// Output: ± 0.4
}

// Alkalinity, pH and the CO2 of aerated water do not fit. Which one is off?
func ExampleConstants_Consistency() {
	c := carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{})
	v, err := c.Consistency([3]carbonate.Known{
		carbonate.Alkalinity(2300).PlusMinus(20),
		carbonate.PH(carbonate.PHTotal(8.2)).PlusMinus(0.05),
		carbonate.PartialPressure(410).PlusMinus(20),
	}, carbonate.Nutrients{}, carbonate.LuekerScatter())
	if err != nil {
		fmt.Println(err)
		return
	}
	a := v.Agreements[v.Suspect]
	fmt.Printf("consistent: %v; %v, expected %.2f ± %.2f\n", v.Consistent, a.Measured, a.Expected.Value(), a.Expected.Uncertainty())
	// Output: consistent: false; pH 8.2, expected 8.03 ± 0.02
}

// How far can lime water be dosed at once before it clouds?
func ExampleSystem_Brucite() {
	w := carbonate.Water{Salinity: units.Practical(35), Temperature: units.Celsius(25), Alkalinity: 2300, DIC: 2000}
	dosed := w.AddHydroxide(2 * 400).AddCalcium(400) // 400 µmol/kg of Ca(OH)2
	s, err := dosed.System()
	if err != nil {
		fmt.Println(err)
		return
	}
	b := s.Brucite()
	onset, u := s.BruciteOnset()
	fmt.Printf("pH %.2f, brucite %.2f times saturated, index %.2f ± %.2f\n", s.PH().Value(), b.Omega, b.Index(), b.Uncertainty)
	fmt.Printf("saturated at pH %.2f ± %.2f\n", onset.Value(), u)
	// Output:
	// pH 8.80, brucite 0.11 times saturated, index -0.98 ± 0.38
	// saturated at pH 9.29 ± 0.19
}

// Which constants were used, and what was assumed?
func ExampleSystem() {
	c := carbonate.At(units.Practical(35), units.Celsius(25), carbonate.Options{Calcium: carbonate.Measured(10400)})
	s, _ := c.FromAlkalinityDIC(2300, 2000, carbonate.Nutrients{})
	o := s.Constants.Options
	fmt.Printf("%v; %v; boron by %v\n", o.K1K2, o.KS, o.BoronRatio)
	fmt.Println("calcium measured:", o.Calcium.IsMeasured(), "boron measured:", o.Boron.IsMeasured())
	// Output:
	// Lueker et al. 2000; Dickson 1990; boron by Uppström 1974
	// calcium measured: true boron measured: false
}
