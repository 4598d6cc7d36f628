// Package replenish gives back to a reef tank what its animals take: how much of
// an additive brings a parameter to a level, in what steps and with what side
// effects; what the tank uses in a day, from a log of tests; what to dose every
// day; and what lime water as top-off can do of it.
//
//	plan, err := replenish.Plan(replenish.Dose{
//		Tank:     tank, // volume, water, what was tested
//		To:       replenish.Calcium.Of(420*units.MilligramPerLitre, units.AsCalcium),
//		Additive: replenish.Dry(salts.Reagent{Compound: chloride, Purity: units.Percent(98)}),
//	})
//
//	demand, err := replenish.Consumption(log)
//	use, ok := demand.Of(replenish.Alkalinity)
//	use.Until(replenish.AlkalinityOf(units.DKH(7))) // days
//	replenish.Maintain(replenish.Upkeep{Tank: tank, Use: use, Additive: soda})
//
// Levels are put in as the test kit counts them, and results come back counted
// the same way. A content per kilogram, as an oceanographer has it, becomes one
// per litre by AmountPerKilogram.PerLitre with the density of the water.
//
// # What is exact, and what is not
//
// The amounts are: every dose is its ions, charges balanced, and the tank keeps
// its volume, as the top-off sees to. A carbonate side that is known is solved by
// package carbonate for the whole tank, well mixed: before the dose, at its
// moment, and in balance with the air again. Right where a dose falls in, the
// water is worse off.
//
// The limit of pH holds for every dose, up and down, whatever the pH is; who wants an
// acid tank to come up faster states a wider one. It counts two moves: from where the
// dose finds the tank to where it is when the dose is mixed in; and of the pH in
// balance with the air, from one dose to the next. What aeration does of itself to a
// tank that is not in balance with its air is not counted; a caution tells it. A plan
// that cannot keep a limit is refused.
//
// Limits of how fast a level may move are common practice, and say so; those of
// precipitation come from the literature:
//
//	aragonite 5     grains in the water let precipitation run away [MOR]
//	aragonite 12.3  forms in clear seawater [MMF]
//	pH 9.0          brucite by some sources; its saturation is in Chemistry of package tested,
//	                with the doubt that the sources leave
//
// # Errors
//
// Input that makes no sense gives an [units.InputError] that names the field, its
// value and what is wanted; a salinity or temperature outside the standards a
// [units.RangeError]. The plan beside an error is empty.
//
// # Sources
//
//	[WG]   Wolf-Gladrow, Zeebe, Klaas, Körtzinger and Dickson (2007), Mar. Chem. 106,
//	       287-300: what processes do to alkalinity
//	[MOR]  Moras, Bach, Cyronak, Joannes-Boyau and Schulz (2022), Biogeosciences 19,
//	       3537-3557 (threshold from memory)
//	[MMF]  Marion, Millero and Feistel (2009), Ocean Sci. 5, 285-291 (threshold from
//	       memory)
//	[GUM]  JCGM 100:2008, Guide to the expression of uncertainty in measurement
//	[F]    Fieller (1954), J. R. Stat. Soc. B 16, 175-185
//	[B]    Birge (1932), Phys. Rev. 40, 207-227
package replenish
