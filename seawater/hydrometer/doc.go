// Package hydrometer answers what a hydrometer shows in seawater, and what
// seawater it is in which a hydrometer shows so much: glass floats marked in
// specific gravity or in density, plastic swing arms, electronic densitometers.
//
// A hydrometer compares the density of the water with that of its own body. Both
// change with temperature, the water ten times as much as glass and about as
// much as plastic, and the scale is right at one temperature only: the one of
// the pair that is marked on it. In salinity 35 at 20 °C a glass float for
// 25/25 °C shows 1.0277 instead of 1.0264, which is 1.7 too salty.
//
// Water is described by absolute salinity and temperature, its composition being
// that of reference seawater, and its density comes from the Gibbs function of
// TEOS-10. So does that of the pure water of a pair, so that pure water has a
// specific gravity of exactly 1; it is within 1e-6 of [WaterDensity], the formula
// that metrology uses.
//
// What the library cannot know: read at the level surface, not at the top of
// the meniscus; wipe the stem, knock off the bubbles. Bubbles and a crust of
// salt on a swing arm make it show too much and too little (common practice).
//
// # Symbols
//
//	SA   absolute salinity, g/kg
//	t    temperature of the water and of the body in it, °C ITS-90
//	ρ    density of the water, kg/m³; ρw of pure water
//	Ta   temperature at which the scale is right; Tb that of the water it compares with
//	R    what the scale shows, without its offset
//	g    cubic expansion of the body, 1/K
//	α, β thermal expansion of the water, 1/K, and its contraction by salt, kg/g
//
// # Sources
//
//	[T01]   Tanaka, Girard, Davis, Peuto and Bignell (2001), Recommended table for
//	        the density of water between 0 °C and 40 °C based on recent experimental
//	        reports, Metrologia 38, 301-309; the formula of the CIPM.
//	[ME76]  Millero and Emmet (1976), The effect of dissolved air and natural isotopic
//	        distributions on the density of water, J. Mar. Res. 34, 15-24.
//	[E100]  ASTM E100, Standard Specification for ASTM Hydrometers: relative density
//	        and its pairs of temperatures.
//	[I1768] ISO 1768:1975, Glass hydrometers - Conventional value for the thermal
//	        cubic expansion coefficient (for use in the preparation of measurement
//	        tables for liquids).
//	[R13]   IAPWS R13-08, the Gibbs function of seawater, with SR7-09; see package
//	        teos10.
//	[GUM]   JCGM 100:2008, Guide to the expression of uncertainty in measurement.
package hydrometer
