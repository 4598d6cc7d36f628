package recipe

import (
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/units"
)

// Published returns the artificial seawaters of the literature, their amounts
// as printed.
func Published() []Recipe {
	list := make([]Recipe, len(published))
	for i, p := range published {
		list[i] = Recipe{Name: p.name, Source: p.source, Basis: p.basis, Notes: append([]string(nil), p.notes...)}
		for _, e := range p.items {
			c, _ := salts.Find(e.formula) // of the table; the tests find them all
			list[i].Items = append(list[i].Items, Item{c, units.Mass(e.grams) * units.Gram, e.moles})
		}
	}
	return list
}

// Find returns the published recipe of a name or of an unmistakable part of
// one: "kester" will do. What is not found is an *units.InputError that lists
// the names.
func Find(name string) (Recipe, error) {
	var names []string
	var found []Recipe
	for _, r := range Published() {
		if strings.EqualFold(r.Name, name) {
			return r, nil
		}
		names = append(names, r.Name)
		if name != "" && strings.Contains(strings.ToLower(r.Name), strings.ToLower(name)) {
			found = append(found, r)
		}
	}
	if len(found) == 1 {
		return found[0], nil
	}
	return Recipe{}, input.Bad("recipe", input.Quoted(name), "one of "+strings.Join(names, ", "))
}

// entry is a line of a recipe: grams or moles.
type entry struct {
	formula      string
	grams, moles float64
}

// published holds the recipes, each line with all the digits of its source.
var published = [...]struct {
	name, source string
	basis        Basis
	items        []entry
	notes        []string
}{
	{
		name:   "Kester et al. 1967",
		source: "Kester, Duedall, Connors and Pytkowicz 1967, Limnol. Oceanogr. 12, 176-179",
		basis:  PerKilogram,
		items: []entry{
			{"NaCl", 23.926, 0},
			{"Na2SO4", 4.008, 0},
			{"KCl", 0.677, 0},
			{"NaHCO3", 0.196, 0},
			{"KBr", 0.098, 0},
			{"H3BO3", 0.026, 0},
			{"NaF", 0.003, 0},
			{"MgCl2.6H2O", 0, 0.05327},
			{"CaCl2.2H2O", 0, 0.01033},
			{"SrCl2.6H2O", 0, 0.00009},
		},
		notes: []string{
			"KCl is printed as 0.667 in one later copy; 0.677 is confirmed by a published variant of the recipe (Goyet and " +
				"Poisson 1989).",
		},
	},
	{
		name:   "ASTM D1141",
		source: "ASTM D1141, Standard Practice for the Preparation of Substitute Ocean Water, Table 1",
		basis:  PerLitre,
		items: []entry{
			{"NaCl", 24.53, 0},
			{"MgCl2", 5.2, 0},
			{"Na2SO4", 4.09, 0},
			{"CaCl2", 1.16, 0},
			{"KCl", 0.695, 0},
			{"NaHCO3", 0.201, 0},
			{"KBr", 0.101, 0},
			{"H3BO3", 0.027, 0},
			{"SrCl2", 0.025, 0},
			{"NaF", 0.003, 0},
		},
		notes: []string{
			"The five smallest salts are from memory; they agree with the stock solutions of the standard and with the recipe " +
				"of Lyman and Fleming that it scales up.",
			"The standard then sets pH 8.2 with 0.1 N sodium hydroxide; its heavy metals, all below 0.1 mg/L, are left out.",
		},
	},
	{
		name:   "Lyman and Fleming 1940",
		source: "Lyman and Fleming 1940, J. Mar. Res. 3, 134-146, Table VII",
		basis:  PerKilogram,
		items: []entry{
			{"NaCl", 23.477, 0},
			{"MgCl2", 4.981, 0},
			{"Na2SO4", 3.917, 0},
			{"CaCl2", 1.102, 0},
			{"KCl", 0.664, 0},
			{"NaHCO3", 0.192, 0},
			{"KBr", 0.096, 0},
			{"H3BO3", 0.026, 0},
			{"SrCl2", 0.024, 0},
			{"NaF", 0.003, 0},
		},
		notes: []string{
			"MgCl2, CaCl2 and SrCl2 are anhydrous; copies that call the same grams hydrates lose half of the magnesium.",
			"KBr, SrCl2 and the third decimal of CaCl2 are from memory; they agree with the printed sum of 34.482 g and the " +
				"chlorinity of 19.00.",
		},
	},
	{
		name:   "Millero",
		source: "Millero, Chemical Oceanography, artificial seawater of salinity 35",
		basis:  PerKilogram,
		items: []entry{
			{"NaCl", 23.9849, 0},
			{"MgCl2", 5.029, 0},
			{"Na2SO4", 4.0111, 0},
			{"CaCl2", 1.1409, 0},
			{"KCl", 0.6986, 0},
			{"NaHCO3", 0.1722, 0},
			{"KBr", 0.1, 0},
			{"H3BO3", 0.0254, 0},
			{"SrCl2", 0.0143, 0},
			{"NaF", 0.0029, 0},
		},
		notes: []string{
			"The fourth decimals are from memory; the sum with the water, 1000.000 g, and the ions agree.",
		},
	},
	{
		name: "Dickson 1990",
		source: "Dickson 1990, J. Chem. Thermodyn. 22, 113-127; the medium of the CO2 handbooks, DOE 1994 and Dickson, " +
			"Sabine and Christian 2007",
		basis: PerKilogramOfWater,
		items: []entry{
			{"NaCl", 0, 0.42764},
			{"Na2SO4", 0, 0.02927},
			{"KCl", 0, 0.01058},
			{"MgCl2", 0, 0.05474},
			{"CaCl2", 0, 0.01075},
		},
		notes: []string{
			"A medium for pH buffers, of the ionic strength of seawater: no carbonate, boron, bromide, strontium or fluoride. " +
				"Not for animals as it is.",
		},
	},
	{
		name: "ESAW",
		source: "Harrison, Waters and Taylor 1980, J. Phycol. 16, 28-35, as revised by Berges, Franklin and Harrison 2001, " +
			"J. Phycol. 37, 1138-1145: major salts",
		basis: PerLitre,
		items: []entry{
			{"NaCl", 21.194, 0},
			{"Na2SO4", 3.55, 0},
			{"KCl", 0.599, 0},
			{"NaHCO3", 0.174, 0},
			{"KBr", 0.0863, 0},
			{"H3BO3", 0.023, 0},
			{"NaF", 0.0028, 0},
			{"MgCl2.6H2O", 9.592, 0},
			{"CaCl2.2H2O", 1.344, 0},
			{"SrCl2.6H2O", 0.0218, 0},
		},
		notes: []string{
			"A medium for algae, of salinity 30; its nutrients are left out.",
		},
	},
	{
		name:   "Aquil",
		source: "Morel et al. 1979, J. Phycol. 15, 135-141; Price et al. 1989, Biol. Oceanogr. 6, 443-461: major salts",
		basis:  PerLitre,
		items: []entry{
			{"NaCl", 24.54, 0},
			{"Na2SO4", 4.09, 0},
			{"KCl", 0.7, 0},
			{"NaHCO3", 0.2, 0},
			{"KBr", 0.1, 0},
			{"H3BO3", 0.003, 0},
			{"NaF", 0.003, 0},
			{"MgCl2.6H2O", 11.09, 0},
			{"CaCl2.2H2O", 1.54, 0},
			{"SrCl2.6H2O", 0.017, 0},
		},
		notes: []string{
			"From memory; the molarities agree within 0.4 %.",
			"H3BO3 is suspect: a ninth of the boron of seawater, perhaps a lost factor of ten.",
		},
	},
	{
		name:   "MBL",
		source: "Marine Biological Laboratory, Biological Bulletin Compendium, table 3A no. 1",
		basis:  PerLitre,
		items: []entry{
			{"NaCl", 0, 423.0e-3},
			{"KCl", 0, 9.0e-3},
			{"CaCl2", 0, 9.27e-3},
			{"MgCl2", 0, 22.94e-3},
			{"MgSO4", 0, 25.5e-3},
			{"NaHCO3", 0, 2.14e-3},
		},
		notes: []string{
			"No boron, bromide, strontium or fluoride.",
		},
	},
	{
		name:   "MBL with trace ions",
		source: "Marine Biological Laboratory, Biological Bulletin Compendium, table 3A no. 6",
		basis:  PerLitre,
		items: []entry{
			{"NaCl", 0, 423.0e-3},
			{"KCl", 0, 8.27e-3},
			{"CaCl2", 0, 9.27e-3},
			{"MgCl2", 0, 22.94e-3},
			{"MgSO4", 0, 25.5e-3},
			{"NaHCO3", 0, 2.14e-3},
			{"SrCl2", 0, 0.23e-3},
			{"NaF", 0, 0.07e-3},
			{"H3BO3", 0, 0.39e-3},
			{"KBr", 0, 0.75e-3},
		},
		notes: []string{},
	},
}
