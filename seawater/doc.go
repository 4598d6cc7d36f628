// Package seawater is the front door to the properties of sea water: make a
// [Sample] from whatever was measured, ask it for whatever is to be known.
//
//	mix, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
//	mix.Density()                            // 1023.3 kg/m³
//	mix.SpecificGravity(units.SG25C())       // 1.0264 25/25 °C
//	mix.Conductivity()                       // 53.07 mS/cm
//	mix.OfVolume(40 * units.Litre).Salt()    // 1.439 kg
//
// A [Portion] is so much of a sample, kept as mass; [Blend] pours portions
// together, and [Melt] ice into one. [HotWater] is kettle water to blend with.
//
// A sample is water at the surface, of the reference composition of sea salt
// (Millero et al. 2008), described by absolute salinity and in-situ temperature.
// Its properties come from the Gibbs function of TEOS-10 (IAPWS R13-08 with IAPWS
// SR7-09), its conductivity from PSS-78. The packages below this one hold the
// formulas themselves, at any pressure: teos10, pss78, eos80.
//
// Constructors return a [units.RangeError] outside the range of the standards;
// the sample beside an error answers NaN to everything.
package seawater
