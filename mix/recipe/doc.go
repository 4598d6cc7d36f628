// Package recipe makes artificial seawater from single compounds: by the
// recipes of the literature, or by what stands on a shelf.
//
//	kester, err := recipe.Find("Kester")
//	batch, err := kester.Batch(units.Practical(35), 40*units.Litre, units.Celsius(25))
//	batch.Items                     // what to weigh
//	batch.Steps()                   // in which order to dissolve it
//	batch.Cautions()                // and what to mind
//	batch.Deviations()              // how it differs from seawater
//
// Solve takes targets, each an ion or a total with its tolerance and weight, and
// a shelf of reagents with their purity, price and what is left of them. It
// returns the grams of each, and for every target whether it was met:
//
//	plan, err := recipe.Solve(recipe.Job{
//		Targets:     recipe.TargetsOf(ions.Reference(units.Practical(35)), units.Percent(1)),
//		Shelf:       shelf,
//		Volume:      40 * units.Litre,
//		Temperature: units.Celsius(25),
//	})
//	plan.Missed()                   // targets the shelf cannot meet
//
// A target in mg/L goes through the molar mass it is counted by and the density
// of the mix:
//
//	units.AsCalcium.AmountPerLitre(430 * units.MilligramPerLitre).PerKilogram(density)
//
// Masses balance: the items and the water add up to the mix. Compounds bring
// ions in pairs, so charges balance by themselves; what a reagent is not pure in
// is taken as water.
//
//	n    moles of a compound per kilogram of mix
//	ν    moles of a species, or of a total, per mole of compound
//	b    target, per kilogram of mix
//	w    weight of a target
//	Cl   chlorinity                               g/kg
//	S    salinity, 1.80655 Cl
//
// # Errors
//
// What makes no sense, a target that nothing on the shelf can bring, and a mix
// that is no water are an [units.InputError]; a mix so far from seawater that its
// density cannot be told is what package ions says of it. A mix that is merely
// outside the range of the density model, such as one of salinity 2, is made with
// the extrapolated density and carries a caution. Targets that a sound shelf
// cannot meet are no error: they stand in the plan, each with its miss.
//
// # Sources
//
// Each recipe names its own, and in its notes what could not be read in the
// original. Chlorinity to salinity: Wooster, Lee and Dietrich 1969, Limnol.
// Oceanogr. 14, 437. Order of dissolving: Kester et al. 1967, Limnol. Oceanogr. 12,
// 176. Reference composition: Millero, Feistel, Wright and McDougall 2008,
// Deep-Sea Res. I 55, 50. Linear programs: Dantzig 1963, Linear Programming and
// Extensions.
package recipe
