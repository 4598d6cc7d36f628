package salts_test

import (
	"fmt"

	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// A tank of 100 L gets 10 g of calcium chloride dihydrate: how much calcium is
// that?
func ExampleCompound_Raises() {
	salt, err := salts.Find("CaCl2.2H2O")
	if err != nil {
		fmt.Println(err)
		return
	}
	rise := salt.Raises(ions.Calcium, 10*units.Gram, 100*units.Litre)
	fmt.Printf("%.1f mg/L\n", units.AsCalcium.MassPerLitre(rise).MilligramsPerLitre())
	// Output: 27.3 mg/L
}

// How much baking soda lifts 300 L from 7 to 8.5 dKH?
func ExampleCompound_ToRaiseAlkalinity() {
	soda, _ := salts.Find("sodium hydrogen carbonate")
	m, err := soda.ToRaiseAlkalinity(units.DKH(1.5), 300*units.Litre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f g\n", m.Grams())
	// Output: 13.5 g
}

// The recipe says 100 g of anhydrous calcium chloride, the jar says dihydrate
// of 99 %.
func ExampleExchange() {
	dry, _ := salts.Find("CaCl2")
	jar, _ := salts.Find("CaCl2.2H2O")
	pure, _ := salts.Exchange(100*units.Gram, dry, jar)
	weigh, _ := salts.Reagent{Compound: jar, Purity: units.Percent(99)}.Weigh(pure)
	fmt.Printf("%.1f g\n", weigh.Grams())
	// Output: 133.8 g
}

// How strong can a stock of baking soda be in a room that may cool to 18 °C?
func ExampleSaturated() {
	soda, _ := salts.Find("NaHCO3")
	stock, err := salts.Saturated(soda, units.Celsius(18))
	if err != nil {
		fmt.Println(err)
		return
	}
	perLitre, _ := stock.PerLitre()
	fmt.Printf("%.0f g in 1 kg of water, %.0f g in 1 L of stock\n", stock.Into(units.Kilogram).Grams(), perLitre.GramsPerLitre())
	// Output: 92 g in 1 kg of water, 89 g in 1 L of stock
}

// Lime dissolves the less the warmer the water is.
func ExampleCompound_Solubility() {
	lime, _ := salts.Find("Ca(OH)2")
	for _, t := range []float64{10, 25, 40} {
		s, _ := lime.Solubility(units.Celsius(t))
		fmt.Printf("%2.0f °C %.2f g/kg\n", t, s.GramsPerKilogram())
	}
	// Output:
	// 10 °C 1.76 g/kg
	// 25 °C 1.59 g/kg
	// 40 °C 1.41 g/kg
}

// A formula of the elements in the table has a mass, whether the package knows
// the compound or not.
func ExampleParseFormula() {
	f, err := salts.ParseFormula("NH4Al(SO4)2·12H2O")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f g/mol, %d waters\n", f.MolarMass().GramsPerMole(), f.Waters())
	_, err = salts.Find("CaCl2.4H2O")
	fmt.Println(err)
	// Output:
	// 453.31 g/mol, 12 waters
	// compound: got "CaCl2.4H2O", want CaCl2 or CaCl2.2H2O or CaCl2.6H2O
}

// How strong may a stock of baking soda and soda ash be that stands between 15 and 28 °C?
func ExampleBottle_Strongest() {
	soda, _ := salts.Find("baking soda")
	ash, _ := salts.Find("soda ash")
	s, err := salts.Bottle{
		Parts: []salts.Part{{Compound: soda, Mass: 50 * units.Gram}, {Compound: ash, Mass: 10 * units.Gram}},
		Water: units.Kilogram, Cold: units.Celsius(15), Warm: units.Celsius(28),
	}.Strongest()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f and %.0f g in a kilogram of water, then %s falls out at %v\n",
		s.Parts[0].Mass.Grams(), s.Parts[1].Mass.Grams(), s.By, s.At)
	// Output:
	// 80 and 16 g in a kilogram of water, then nahcolite falls out at 15 °C
}

// May calcium chloride, magnesium chloride and Epsom salt share a bottle?
func ExampleBottle_Judge() {
	b := salts.Bottle{Water: units.Kilogram, Cold: units.Celsius(15), Warm: units.Celsius(28)}
	for _, part := range []struct {
		formula string
		grams   units.Mass
	}{{"CaCl2.2H2O", 150}, {"MgCl2.6H2O", 200}, {"MgSO4.7H2O", 100}} {
		c, _ := salts.Find(part.formula)
		b.Parts = append(b.Parts, salts.Part{Compound: c, Mass: part.grams * units.Gram})
	}
	v, err := b.Judge()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range v.Pairs {
		fmt.Println(p.Salts[0], "and", p.Salts[1]+", clear:", p.Clear())
	}
	for _, g := range v.Ground {
		for _, d := range g.Solids {
			fmt.Printf("at %v %.0f g of %s fall out\n", g.At, d.Mass.Grams(), d.Solid)
		}
	}
	// Output:
	// CaCl2.2H2O and MgCl2.6H2O, clear: true
	// CaCl2.2H2O and MgSO4.7H2O, clear: false
	// MgCl2.6H2O and MgSO4.7H2O, clear: true
	// at 15 °C 68 g of gypsum fall out
	// at 28 °C 68 g of gypsum fall out
}

// What stands behind the strongest solution, and what a stock of sugar weighs.
func ExampleCompound_Bound() {
	for _, formula := range []string{"MgSO4.7H2O", "CaCO3", "C12H22O11"} {
		c, _ := salts.Find(formula)
		b, err := c.Bound(units.Celsius(20))
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%s: %.3g g/kg by %s\n", formula, b.Content.GramsPerKilogram(), b.By)
	}
	sugar, _ := salts.Find("sucrose")
	stock, err := salts.Stock(sugar, 200*units.GramPerLitre, units.Celsius(20))
	if err != nil {
		fmt.Println(err)
		return
	}
	d, _ := stock.Density()
	fmt.Printf("200 g/L of sugar: %.1f kg/m³\n", d.KilogramsPerCubicMetre())
	// Output:
	// MgSO4.7H2O: 531 g/kg by handbook
	// CaCO3: 0.0119 g/kg by ion-interaction model
	// C12H22O11: 507 g/kg by measured densities
	// 200 g/L of sugar: 1074.9 kg/m³
}
