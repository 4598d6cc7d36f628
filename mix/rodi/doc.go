// Package rodi plans the making of pure water from tap water: sediment filter,
// carbon, reverse-osmosis membrane, mixed-bed resin. How much comes out and how
// pure, at the pressure and temperature of the day; what runs to the drain;
// how long each stage lasts and what a litre costs; which stage is due, judged
// from readings; and what a residue in the water does to a tank in a year.
//
//	product, err := rodi.System{
//		Membrane: rodi.Membrane{Rated: rodi.Rating{
//			Flow: 75 * units.USGallonPerDay, Pressure: 50 * units.PSIGauge,
//			Temperature: units.Celsius(25), Rejection: units.Percent(98),
//		}},
//		WasteRatio: 3,
//	}.Produce(rodi.Feed{
//		TDS: units.TDSReading(280, 0.5), Pressure: 3.5 * units.BarGauge,
//		Temperature: units.Celsius(12),
//	})
//
// Salt is followed by its conductivity at 25 °C, which a dissolved-solids
// reading is a multiple of: what the meter sees is what is balanced. What it
// does not see is named where it matters, carbon dioxide above all: it passes
// the membrane freely and uses up the resin.
//
// What a meter should show in the purest water is for package conductivity:
// PureWater, 18.2 MΩ·cm at 25 °C, and AeratedWater, because standing open it
// takes up carbon dioxide to about 1 µS/cm, half a ppm, without any salt.
//
// # The membrane
//
// Solution and diffusion: water goes through in proportion to the pressure
// that is left after osmosis, salt in proportion to its concentration, and
// warmth helps both alike. With A and B from the rating on the label,
//
//	Q   = A TCF (P - P' - π)     product
//	C'  = b/(1 + b) C g          its salt; b = B/(P - P' - π)
//	g   = -ln(1 - Y)/Y           mean over feed, along the membrane
//	C"  = C (1 - Y (1 - R))/(1 - Y)
//
// # Symbols
//
//	P, P'     gauge pressure before the membrane and behind it, bar
//	π         osmotic pressure of the water along the membrane, bar
//	TCF       flow over that at 25 °C
//	Y         recovery: product over feed
//	R         rejection: 1 - C'/C
//	C, C', C" salt of feed, product and waste
//
// # Sources
//
//	[LMR]   Lonsdale, Merten and Riley (1965), Transport properties of
//	        cellulose acetate osmotic membranes, J. Appl. Polym. Sci. 9,
//	        1341-1362 (from memory): solution and diffusion.
//	[D4516] ASTM D4516, Standard practice for standardizing reverse osmosis
//	        performance data (scope read): membranes differ, so the constants
//	        of temperature are parameters here. The mean along the membrane
//	        is from memory.
//	[MIC]   Michaud (2011), on the capacity of resins, in a water-conditioning
//	        trade journal: 1 eq/L is 21.87 kilograins CaCO3 per cubic foot.
//	[HMM]   Hayden, McClure and Megonnell (2000), on chloramine and carbon beds.
//	[POT]   Potwora (2009), on chlorine and carbon.
//	[M79]   Millero (1979), Geochim. Cosmochim. Acta 43, 1651-1661: carbonic
//	        acid in pure water.
//	[GUM]   JCGM 100:2008, Guide to the expression of uncertainty in measurement.
//
// The two rules of membrane design, [TemperatureFactor] and [OsmoticPressure],
// were read second hand, in design notes without an author; their comments
// say how near they come.
//
// # Errors
//
// A system that cannot work gives an [units.InputError] that names the field,
// its value and what is wanted; a temperature or content outside the range of
// a formula gives a [units.RangeError]. The result beside an error is empty or
// NaN.
package rodi
