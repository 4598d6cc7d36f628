package pitzer_test

import (
	"fmt"
	"math"

	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/pitzer"
	"example.org/wellmixed/units"
)

// Calcium and magnesium in one bottle: which of these salts falls out of the stock?
func ExampleDissolve() {
	m, err := pitzer.Dissolve(pitzer.Batch{
		Water:       units.Kilogram,
		Temperature: units.Celsius(25),
		Add: []pitzer.Addition{
			{Formula: "CaCl2·2H2O", Mass: 150 * units.Gram},
			{Formula: "MgSO4·7H2O", Mass: 120 * units.Gram},
		},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range m.Solids {
		fmt.Printf("%.0f g of %s, %s\n", d.Mass.Grams(), d.Solid, d.Solid.Formula())
	}
	// Output:
	// 82 g of gypsum, CaSO4·2H2O
}

// How far is seawater from brucite when a strong base has raised it to pH 9.5?
func ExampleAtTotalPH() {
	sea, _ := pitzer.From(ions.Reference(units.Practical(35)).All())
	for _, ph := range []float64{8.1, 9.0, 9.5} {
		s, err := pitzer.AtTotalPH(sea, units.Celsius(25), ph)
		if err != nil {
			fmt.Println(err)
			return
		}
		brucite, _ := s.Saturation(pitzer.Brucite)
		aragonite, _ := s.Saturation(pitzer.Aragonite)
		fmt.Printf("pH %.1f: brucite %+.2f, aragonite %+.2f\n", ph, brucite, aragonite)
	}
	// Output:
	// pH 8.1: brucite -2.41, aragonite +0.59
	// pH 9.0: brucite -0.61, aragonite +1.24
	// pH 9.5: brucite +0.38, aragonite +1.42
}

// The trade says: salt into water, never water onto salt. What does water see that is poured
// onto the dry mix for one kilogram of seawater?
func ExampleBatch_WaterOntoSalt() {
	mix := pitzer.Batch{
		Water:       965 * units.Gram,
		Temperature: units.Celsius(25),
		Add: []pitzer.Addition{
			{Formula: "NaCl", Mass: 23.93 * units.Gram}, {Formula: "MgCl2·6H2O", Mass: 10.83 * units.Gram},
			{Formula: "Na2SO4", Mass: 4.01 * units.Gram}, {Formula: "CaCl2·2H2O", Mass: 1.52 * units.Gram},
			{Formula: "KCl", Mass: 0.68 * units.Gram}, {Formula: "NaHCO3", Mass: 0.2 * units.Gram},
			{Formula: "SrCl2·6H2O", Mass: 0.024 * units.Gram},
		},
	}
	for stage, err := range mix.WaterOntoSalt(30*units.Gram, 6) {
		if err != nil {
			fmt.Println(err)
			return
		}
		m := stage.Mixture
		sulfate := m.Found(pitzer.Gypsum) + m.Found(pitzer.Glauberite) + m.Found(pitzer.Celestite)
		fmt.Printf("%3.0f g of water: %4.1f g of halite, %.2f g of sulfates of calcium and strontium, %.0f mg of calcite\n",
			stage.Water.Grams(), m.Found(pitzer.Halite).Grams(), sulfate.Grams(), 1000*m.Found(pitzer.Calcite).Grams())
	}
	water, err := mix.WaterToClear(pitzer.Gypsum)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("gypsum can come until there are %.0f g of water\n", water.Grams())

	// And if neither gypsum nor a carbonate finds nuclei there?
	mix.Water = 120 * units.Gram
	mix.Solids = []pitzer.Solid{pitzer.Halite}
	held, err := pitzer.Dissolve(mix)
	if err != nil {
		fmt.Println(err)
		return
	}
	gypsum, _ := held.Solution.Saturation(pitzer.Gypsum)
	aragonite, _ := held.Solution.Saturation(pitzer.Aragonite)
	fmt.Printf("with 120 g gypsum is %.0f times saturated and aragonite %.0f times\n", math.Pow(10, gypsum), math.Pow(10, aragonite))
	// Output:
	// 30 g of water: 18.8 g of halite, 2.51 g of sulfates of calcium and strontium, 53 mg of calcite
	//  60 g of water:  8.3 g of halite, 2.13 g of sulfates of calcium and strontium, 54 mg of calcite
	// 120 g of water:  0.0 g of halite, 1.26 g of sulfates of calcium and strontium, 49 mg of calcite
	// 241 g of water:  0.0 g of halite, 0.27 g of sulfates of calcium and strontium, 41 mg of calcite
	// 482 g of water:  0.0 g of halite, 0.00 g of sulfates of calcium and strontium, 21 mg of calcite
	// 965 g of water:  0.0 g of halite, 0.00 g of sulfates of calcium and strontium, 7 mg of calcite
	// gypsum can come until there are 277 g of water
	// with 120 g gypsum is 5 times saturated and aragonite 20 times
}

// How strong may these stocks be that stand between 15 and 30 °C?
func ExampleStock_Strongest() {
	for _, formula := range []string{"MgSO4·7H2O", "Na2SO4", "KCl", "CaCl2·2H2O", "NaHCO3"} {
		limit, err := pitzer.Stock{
			Salts: []pitzer.Addition{{Formula: formula, Mass: 100 * units.Gram}},
			Cold:  units.Celsius(15), Warm: units.Celsius(30),
		}.Strongest()
		switch {
		case err != nil:
			fmt.Println(formula, "is not known:", err)
		case limit.Open:
			fmt.Printf("%s: clear up to %.0f g in a kilogram of water, more is not known\n", formula, limit.Salts[0].Mass.Grams())
		default:
			fmt.Printf("%s: %.0f g in a kilogram of water, then %s at %.0f °C\n",
				formula, limit.Salts[0].Mass.Grams(), limit.By, limit.At.Celsius())
		}
	}
	// Output:
	// MgSO4·7H2O: 975 g in a kilogram of water, then epsomite at 15 °C
	// Na2SO4: 136 g in a kilogram of water, then mirabilite at 15 °C
	// KCl: 324 g in a kilogram of water, then sylvite at 15 °C
	// CaCl2·2H2O: clear up to 897 g in a kilogram of water, more is not known
	// NaHCO3 is not known: temperature: 15 °C is outside 24 to 26 °C (the constant of nahcolite holds at 25 °C only)
}

// Which of these may share a bottle?
func ExampleStock_Judge() {
	_, pairs, err := pitzer.Stock{
		Salts: []pitzer.Addition{
			{Formula: "CaCl2·2H2O", Mass: 150 * units.Gram}, {Formula: "MgCl2·6H2O", Mass: 100 * units.Gram},
			{Formula: "MgSO4·7H2O", Mass: 100 * units.Gram}, {Formula: "NaHCO3", Mass: 50 * units.Gram},
		},
		Cold: units.Celsius(24), Warm: units.Celsius(26),
	}.Judge()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range pairs {
		word := "clear"
		if !p.Clear() {
			word = fmt.Sprintf("%s falls out, index %+.1f", p.Worst, p.Index)
		}
		fmt.Println(p.Salts[0], "and", p.Salts[1]+":", word)
	}
	// Output:
	// CaCl2·2H2O and MgCl2·6H2O: clear
	// CaCl2·2H2O and MgSO4·7H2O: gypsum falls out, index +1.6
	// CaCl2·2H2O and NaHCO3: calcite falls out, index +4.4
	// MgCl2·6H2O and MgSO4·7H2O: clear
	// MgCl2·6H2O and NaHCO3: nesquehonite falls out, index +0.4
	// MgSO4·7H2O and NaHCO3: nesquehonite falls out, index +0.2
}

// What is there in seawater that has been evaporated to a quarter, and what may come next?
func ExampleSolve() {
	sea, without := pitzer.From(ions.Reference(units.Practical(35)).All())
	s, err := pitzer.Solve(sea.Scale(4), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	freezes, err := s.FreezingPoint()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("activity of water %.3f, freezes at %.1f °C, not counted: %v\n", s.WaterActivity(), freezes.Celsius(), without)
	for _, x := range s.AboveSaturation() {
		fmt.Printf("%s %+.2f\n", x.Solid, x.Index)
	}
	halite, _ := s.Saturation(pitzer.Halite)
	fmt.Printf("halite %+.2f\n", halite)
	for _, k := range s.Known() {
		fmt.Printf("%v %v: within %.1f %%\n", k.Cation, k.Anion, 100*k.Within.Value())
	}
	// Output:
	// activity of water 0.919, freezes at -8.3 °C, not counted: []
	// calcite +1.50
	// aragonite +1.28
	// celestite +0.14
	// gypsum +0.12
	// halite -1.26
	// Na+ Cl-: within 0.4 %
	// Na+ SO4--: within 1.5 %
	// Mg++ Cl-: within 5.0 %
	// Mg++ SO4--: within 1.7 %
}
