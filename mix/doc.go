// Package mix plans a batch of salt water: how much of a salt product and how
// much pure water make a target salinity, what volume comes out and how far it
// rises in the vessel, what every instrument must then show, and how to correct a
// batch that is off. And its heat: how long a heater takes ([Heat]), how hot and cold
// water make warm ([Temper]), how much ice cools how far ([Chill]), how long a power
// cut leaves a tank warm ([Drift]), what of a batch can freeze ([Freeze]).
//
//	plan, err := mix.Plan(mix.Batch{
//		Target:           units.Practical(35),
//		Temperature:      units.Celsius(25),
//		WaterTemperature: units.Celsius(19),
//		Amount:           mix.FinalVolume(40 * units.Litre),
//		Salt:             mix.Salt{SeaSalt: units.Percent(95)},
//	})
//
// Everything is balanced by mass: salt, the water in the product, the water
// poured. With f the share of sea salt in a product, S the target as a mass
// fraction, L and s the masses of liquid and of salt already there, the product
// that is needed is
//
//	m = (S L - s) / (f - S)
//
// Volumes come from the density of seawater at the temperature in question,
// never from adding volumes up.
//
// A Salt is described by its own numbers only. The composition of what
// dissolves is taken as that of the ocean (the reference composition of Millero
// et al. 2008), which every plan states among its assumptions.
//
// # Errors
//
// Input that no bucket can meet gives an [units.InputError] that names the
// field, its value and what is wanted; a salinity or temperature outside the
// standards gives a [units.RangeError]. The plan beside an error is empty.
package mix
