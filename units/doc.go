// Package units holds the quantities of a marine aquarium as types, so that
// a wrong unit does not compile and an ambiguous one is not read.
//
// A quantity that is simply so many times a unit is a defined float64, used
// in the manner of time.Duration:
//
//	tank := 75 * units.USGallon
//	tank.Litres() // 283.9...
//
// What everyday speech gives several scales or a shifted zero is a small
// struct that only a constructor makes: a bare 25 is not a temperature.
//
//	units.Celsius(25)                      // Temperature, ITS-90
//	units.Practical(35)                    // PracticalSalinity, PSS-78
//	units.Absolute(35.165)                 // AbsoluteSalinity, g/kg
//	units.Gravity(1.0264, units.SG25C())   // SpecificGravity with its pair
//	units.TDSReading(2, 0.5)               // TDS with the factor of the meter
//
// Amounts per litre and per kilogram are different types; a density takes one
// to the other.
//
// Every quantity reads and writes text, so it works in flags (flag.TextVar),
// in JSON, and with [Parse]. Text that could mean two things is refused with a
// message that says what to write. What MarshalText writes is read back to
// the same bits.
//
// The package needs neither fmt nor reflect. Formulas elsewhere return NaN for
// input without meaning; whatever can fail returns a [*RangeError] or an
// [*InputError].
//
// # Sources
//
// NIST Special Publication 811 (2008), appendix B, for inch, pound, gallon,
// psi and degree Fahrenheit; UK Weights and Measures Act 1985 for the imperial
// gallon; DIN 38409 for degrees of carbonate hardness; IUPAC abridged standard
// atomic weights 2021 for molar masses; ASTM E100 for pairs of specific
// gravity; ISO 4217 for currencies.
package units
