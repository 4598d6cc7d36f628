package salts

import "strings"

// commonNames are what compounds are called outside the laboratory, and on the packages
// that keepers buy. Left out is what means two things: potash (the carbonate, the hydroxide or
// the chloride of potassium), saltpetre, chalk with its binders.
//
//	source  "Common Names of Chemical Substances" in the CRC Handbook of Chemistry and Physics,
//	        and the trivial names that the IUPAC rules of inorganic nomenclature (1957, 1970)
//	        list as older usage; both from memory
var commonNames = [...]struct{ name, formula string }{
	{"baking soda", "NaHCO3"},
	{"bicarbonate of soda", "NaHCO3"},
	{"sodium bicarbonate", "NaHCO3"},
	{"potassium bicarbonate", "KHCO3"},
	{"soda ash", "Na2CO3"},
	{"washing soda", "Na2CO3.10H2O"},
	{"Epsom salt", "MgSO4.7H2O"},
	{"Epsom salts", "MgSO4.7H2O"},
	{"Glauber's salt", "Na2SO4.10H2O"},
	{"Glauber salt", "Na2SO4.10H2O"},
	{"table salt", "NaCl"},
	{"common salt", "NaCl"},
	{"slaked lime", "Ca(OH)2"},
	{"hydrated lime", "Ca(OH)2"},
	{"quicklime", "CaO"},
	{"caustic soda", "NaOH"},
	{"lye", "NaOH"},
	{"borax", "Na2B4O7.10H2O"},
	{"gypsum", "CaSO4.2H2O"},
	{"sal ammoniac", "NH4Cl"},
}

// fromCommon returns the formula of a common name, in either case and with either apostrophe;
// another text as it is.
func fromCommon(text string) string {
	plain := strings.ReplaceAll(text, "’", "'")
	for _, c := range commonNames {
		if strings.EqualFold(plain, c.name) {
			return c.formula
		}
	}
	return text
}
