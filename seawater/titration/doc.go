// Package titration turns drops and millilitres into alkalinity, calcium,
// magnesium and chlorinity, and says how far off the colour change is.
//
// A [Kit] is a titration to a change of colour, with drops or with a burette: what
// one drop is worth, what the count says, how well it is known.
//
//	kit := titration.Kit{
//		Sample: 5 * units.Millilitre, Titrant: 36 * units.MillimolePerLitre, Step: 0.05 * units.Millilitre,
//	}
//	alkalinity, u, err := kit.Alkalinity(kit.Counted(8), titration.Uncertainty{})
//
// No count finds the error of the end point itself. A [Vessel] computes it, with the
// constants of package carbonate, for the water at hand and for what becomes of its
// CO2: [Vessel.EndPoint] is what a titration to a pH shows, [Vessel.Alkalinity]
// takes the error out of a result, for a closed vial with no more than the pH of the
// water ([ClosedAt]).
//
// A curve, as pH or as millivolts, gives more. [Vessel.Gran] draws the classic
// straight line; [Vessel.FitOpen] is the least-squares fit of SOP 3b, with the CO2
// driven out; [Vessel.FitClosed] fits alkalinity, DIC and the electrode to the whole
// curve of a closed cell, and [Vessel.FitClosedDIC], with that DIC or a better one, the
// alkalinity to its acid end, where it is best. [Vessel.Curve] tells what to expect.
//
// # How wrong is an end point
//
// Seawater of salinity 35 and 25 °C, alkalinity 2300 and DIC 2000 µmol/kg, 100 g with
// acid of 0.1 mol/kg: what the acid shows less what is there, in µmol/kg, of which 100
// are 0.29 dKH. Computed here.
//
//	              closed vessel       open, 420 µatm CO2
//	end point     total      NBS      total      NBS
//	pH 4.5          -53      -18        +32      +45
//	pH 4.2          +22      +58        +65      +90
//	pH 3.0        +1038    +1427      +1041    +1429
//
// In a closed vessel some bicarbonate is left at pH 4.5, the more the higher the
// alkalinity: -100 at alkalinity 3500 and DIC 3100. A sample that is stirred in air
// loses its CO2 and shows the acid that is left over, whatever the alkalinity. So no
// fixed correction fits all. Near pH 3 a third of the acid is left over and has to be
// taken off, which [Vessel.Alkalinity] does.
//
// The straight line of Gran in pH 3 to 3.5 is 7.7 µmol/kg low on the exact curve of
// Dickson 1981 (2.7 where the window is one of the free scale) and 3.3 above the fit on
// the data of SOP 3b: it knows nothing of sulfate, fluoride and the last bicarbonate.
// The fits do.
//
// # What is kept
//
// Masses: a mixture of m grams of acid with m0 of sample has all contents of the
// sample times m0/(m0+m). Equilibrium constants are kept on the free scale, where
// dilution does not touch them; those of carbonate are on the total scale, which the
// diluted sulfate moves, and are moved along. Acid is best made up in sodium
// chloride to the ionic strength of the sample. With acid in pure water salinity
// falls by the share of the acid, about 2 percent, which is not counted.
//
// An electrode does not see that sulfate is diluted. A pH of this package is
// therefore -log10 of [H]free (1 + TS/KS) with the TS of the sample as it was: total
// scale at the start, and one fixed distance from the free scale all along.
//
// # Safety
//
// Acids and sodium hydroxide burn eyes and skin: goggles and gloves, acid into water
// and never water into acid. Silver nitrate stains and burns skin and is very toxic
// to aquatic life; the chromate that shows its end point is toxic and can cause
// cancer. Mouths stay away from pipettes. Nothing that has been titrated goes back
// into the tank. Waste with silver, chromate or EDTA is collected and disposed of by
// the local rules, not poured away. The labels and safety data sheets of the
// reagents come first.
//
// # Symbols
//
//	m0, m  mass of the sample; mass of the acid added
//	C      strength of the acid, mol of H+ per kg
//	h      [H] as an electrode set on the total scale of the sample sees it
//	k      RT/F, 25.69 mV at 25 °C
//	E0     E = E0 + k ln h
//	Z      1 + TS/KS of the sample, so that [H]free = h/Z
//	F      (m0+m) h, the function of Gran
//
// # Sources
//
//	[D81]   Dickson (1981), An exact definition of total alkalinity and a procedure
//	        for the estimation of alkalinity and total inorganic carbon from titration
//	        data, Deep-Sea Res. 28A, 609-623.
//	[DSC]   Dickson, Sabine and Christian (2007), Guide to best practices for ocean
//	        CO2 measurements, PICES Special Publication 3, SOP 3b and chapter 5.
//	[G52]   Gran (1952), Determination of the equivalence point in potentiometric
//	        titrations, Part II, Analyst 77, 661-671.
//	[GUM]   JCGM 100:2008, Guide to the expression of uncertainty in measurement.
//	[JK40]  Jacobsen and Knudsen (1940), see package teos10.
//	[MFWM]  Millero, Feistel, Wright and McDougall (2008), Deep-Sea Res. I 55, 50-72.
package titration
