// Package tested is the one model of a water with what was tested in it: a tank, a
// batch, what is poured in. It knows how much water there is, its salinity and
// temperature, the alkalinity and what else settles the CO₂ system, and a list of
// levels. Whatever was not tested is not in the list; nothing here stands for it.
//
//	tank := tested.Water{
//		Portion: sea.OfVolume(200 * units.Litre),
//		Carbon:  carbonate.PH(carbonate.PHTotal(8.1)),
//		Levels: tested.Levels{
//			tested.AlkalinityOf(units.DKH(8.2)).In(tested.DKH),
//			tested.Nitrate.Of(24*units.MilligramPerLitre, units.AsNitrate),
//		},
//	}
//
// A [Level] says what it is of and how it is counted, and cannot be made
// without: 24 mg/L of nitrate are not 24 mg/L of the nitrogen in it. It reads and
// writes one text, "24 mg/L NO3", "5.4 mg/L NO3-N", "8.2 dKH".
//
// Water mixes by mass, heat by conservative temperature, levels by amount. pH does
// not mix: it is solved from the alkalinity and the dissolved inorganic carbon of
// the mixture.
package tested
