package recipe_test

import (
	"fmt"

	"example.org/wellmixed/mix/recipe"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Forty litres of the artificial seawater of Kester et al. at salinity 34.
func ExampleRecipe_Batch() {
	kester, err := recipe.Find("Kester")
	if err != nil {
		fmt.Println(err)
		return
	}
	batch, err := kester.Batch(units.Practical(34), 40*units.Litre, units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, item := range batch.Items {
		fmt.Printf("%-11s %6.1f g\n", item.Reagent.Compound, item.Mass.Grams())
	}
	fmt.Printf("water       %6.2f kg\n", batch.Water.Kilograms())
	// Output:
	// NaCl         950.7 g
	// Na2SO4       159.3 g
	// KCl           26.9 g
	// NaHCO3         7.8 g
	// KBr            3.9 g
	// H3BO3          1.0 g
	// NaF            0.1 g
	// MgCl2.6H2O   430.3 g
	// CaCl2.2H2O    60.3 g
	// SrCl2.6H2O     1.0 g
	// water        39.26 kg
}

// A shelf without strontium and with the end of a bag of magnesium chloride:
// how near to seawater does it come?
func ExampleSolve() {
	var shelf []recipe.Jar
	for _, name := range []string{"NaCl", "MgCl2.6H2O", "CaCl2.2H2O", "KCl", "NaHCO3", "Na2SO4"} {
		c, err := salts.Find(name)
		if err != nil {
			fmt.Println(err)
			return
		}
		shelf = append(shelf, recipe.Jar{Reagent: salts.Reagent{Compound: c, Purity: units.Percent(99)}})
	}
	shelf[1].Left = 300 * units.Gram

	sea := ions.Reference(units.Practical(35))
	var targets []recipe.Target
	for _, of := range []recipe.Component{recipe.Of(ions.Magnesium), recipe.Of(ions.Calcium), recipe.Of(ions.Potassium), recipe.Of(ions.Chloride), recipe.Of(ions.Sulfate), recipe.Alkalinity()} {
		targets = append(targets, recipe.Target{Of: of, Amount: of.In(sea), Tolerance: of.In(sea) / 100, Weight: 1})
	}
	plan, err := recipe.Solve(recipe.Job{Targets: targets, Shelf: shelf, Volume: 40 * units.Litre, Temperature: units.Celsius(25)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, item := range plan.Items {
		fmt.Printf("%-11s %6.0f g\n", item.Reagent.Compound, item.Mass.Grams())
	}
	for _, r := range plan.Missed() {
		fmt.Printf("%s: %.1f instead of %.1f mmol/kg\n", r.Of, r.Got.MillimolesPerKilogram(), r.Amount.MillimolesPerKilogram())
	}
	fmt.Println("not asked for:", plan.Unasked)
	// Output:
	// NaCl          1072 g
	// MgCl2.6H2O     300 g
	// CaCl2.2H2O      62 g
	// KCl             31 g
	// NaHCO3           8 g
	// Na2SO4         166 g
	// magnesium: 35.7 instead of 52.8 mmol/kg
	// not asked for: [sodium]
}

// What is missing on the shelf is named.
func ExampleSolve_missing() {
	salt, _ := salts.Find("NaCl")
	_, err := recipe.Solve(recipe.Job{
		Targets:     []recipe.Target{{Of: recipe.Of(ions.Calcium), Amount: 10.3 * units.MillimolePerKilogram, Weight: 1}},
		Shelf:       []recipe.Jar{{Reagent: salts.Reagent{Compound: salt, Purity: units.Share(1)}}},
		Volume:      10 * units.Litre,
		Temperature: units.Celsius(25),
	})
	fmt.Println(err)
	// Output: shelf: got nothing that brings calcium, want a compound for it, or a target without it
}

// Where does the recipe of Lyman and Fleming differ from seawater by more than
// three percent?
func ExampleBatch_Deviations() {
	old, _ := recipe.Find("Lyman")
	batch, err := old.Batch(units.Practical(35), units.Litre, units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	list, err := batch.Deviations()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range list {
		if d.Ion.Charge() > 0 && (d.Ratio() < 0.97 || d.Ratio() > 1.03) {
			fmt.Printf("%s: %.2f times\n", d.Ion.Name(), d.Ratio())
		}
	}
	settled, _ := batch.Settled()
	fmt.Printf("alkalinity: %.2f meq/kg\n", settled.Alkalinity().MillimolesPerKilogram())
	// Output:
	// strontium: 1.70 times
	// alkalinity: 2.33 meq/kg
}
