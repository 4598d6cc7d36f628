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
// in JSON, and with [Parse]; [ReadAny] reads a text of which it is not known what it
// is. Text that could mean two things is refused with a message that says what to
// write. What MarshalText writes is read back to the same bits; what people see is
// written in a [Style].
//
// # What is read
//
// A text is a number and a unit, with or without spaces between, no-break ones too, and
// a byte order mark before.
//
//	text     = [ "+" | dash ] number [ unit ] ;
//	number   = digits [ "." [ digits ] ] [ exponent ] | "." digits [ exponent ]
//	         | [ digits ] ( "½" | "¼" | "¾" | "⅓" | "⅔" | fifths | sixths | eighths ) ;
//	exponent = "e" [ "+" | dash ] digits ;
//	dash     = "-" | hyphen | figure dash | en dash | em dash | minus sign ;
//
// The unit is in its table, in the file of the quantity, or it is a ratio of two units
// where the quantity is: any volume per any time is a flow. It may be typed
//
//   - in either case, except m and M in symbols, which are a thousandth and a million.
//     All in capitals it is read where a million of it cannot be: "760 MMHG", "5 MG/L",
//     "40 CM", but not "20 ML", "5 MG" or "53 MS/CM";
//   - as a word, with a plural s;
//   - with µ, μ or u; Ω or ohm; ² or ^2 or 2; "·", "*" or "."; "/" or "per"; °, deg or
//     nothing, ℃ and ℉; "US gal", "gal (US)", "U.S. gal" and "gal US", "imp", "imperial"
//     or "UK".
//
// More than one number have
//
//	specific gravity  "1.0264 25/25 °C", "1.0268 SG 60/60 °F", "1.0248 (20/4 °C)"
//	conductivity      "53 mS/cm at 25 °C", "53 mS/cm @ 77 °F", or without a temperature
//	dissolved solids  "2 ppm x0.5", "0.3 g/L x0.64"
//	ratio             "3:1", "3 to 1"
//	time              "36 h", "14d", "3 months", "6 h 35 min", "1h30m": each unit once, the
//	                  longest first; a year has 365 days, a month a twelfth of that
//
// Refused are a decimal comma and marks for thousands ("1,5", "1 000"), fractions with a
// slash ("1/2"), powers and products ("10^3", "10³", "2*20"), digits on both sides of a sign
// ("25°5 C"), hexadecimal and infinite numbers, numbers that a float64 cannot hold, and,
// with advice, every word that means several things: "gal", "oz" of a volume, "ppm", "cup",
// "gpd", "psi" of the air, "m" of a time.
//
// # Which unit is written
//
// MarshalText and String write the base unit, but "60 °F" where degrees Celsius have no
// end, and durations in days, hours, minutes and seconds. What was typed as 20 % is written
// as 20 %.
//
// The package needs neither fmt nor reflect. Formulas elsewhere return NaN for
// input without meaning; whatever can fail returns a [*RangeError] or an
// [*InputError].
//
// # Sources
//
// NIST Special Publication 811 (2008), appendix B, for inch, pound, gallon,
// psi, degree Fahrenheit and the year of 365 days; UK Weights and Measures Act 1985 for the imperial
// gallon; DIN 38409 for degrees of carbonate hardness; IUPAC abridged standard
// atomic weights 2021 for molar masses; ASTM E100 for pairs of specific
// gravity; ISO 4217 for currencies.
package units
