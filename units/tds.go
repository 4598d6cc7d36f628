package units

import (
	"math"
	"strings"
	"unicode/utf8"
)

// TDSScale is the factor by which a meter turns conductivity compensated to
// 25 °C into "total dissolved solids": ppm per µS/cm. Meters differ, and the
// same water reads 40 % more on one than on another, so a reading without its
// scale is not a number to act on. Typical are 0.5, for sodium chloride, and
// 0.7, for natural fresh water (common practice; the manual of the meter
// says which).
type TDSScale float64

// TDS is the reading of a dissolved-solids meter together with the scale of
// that meter. It is made by TDSReading.
type TDS struct {
	ppm   float64
	scale TDSScale
}

// TDSReading returns the reading of ppm parts per million on a scale.
func TDSReading(ppm float64, scale TDSScale) TDS { return TDS{ppm, scale} }

// PPM returns the number that the meter shows.
func (r TDS) PPM() float64 { return r.ppm }

// Scale returns the factor of the meter.
func (r TDS) Scale() TDSScale { return r.scale }

// Conductivity returns the conductivity at 25 °C from which the meter made
// the reading: the reading divided by the scale.
func (r TDS) Conductivity() Conductivity {
	return Conductivity(r.ppm/float64(r.scale)) * MicrosiemensPerCentimetre
}

// plausibleScale holds for every meter: a factor of 0.3 to 1. A meter marked
// "500 scale" has the factor 0.5.
func plausibleScale(scale float64) bool { return scale >= 0.3 && scale <= 1 }

const tdsWant = `a dissolved-solids reading with the factor of the meter such as "2 ppm x0.5" ` +
	`(0.5 is usual for hand-held meters; the manual says)`

// UnmarshalText reads "2 ppm x0.5", "2 mg/L x0.5" or "0.3 g/L x0.5". A bare "2 ppm" is refused: the factor is
// in the manual of the meter. An empty text is a reading that was not taken.
func (r *TDS) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*r = TDS{}
		return nil
	}
	*r = TDS{math.NaN(), TDSScale(math.NaN())}
	given := string(text)
	x, scale, ok := parseTDS(given)
	if !ok {
		return &InputError{"dissolved solids", Quoted(given), tdsWant}
	}
	*r = TDSReading(x, TDSScale(scale))
	return nil
}

// parseTDS reads "2 ppm x0.5" and "0.3 g/L x0.5", as meters for brackish water show it.
func parseTDS(text string) (ppm, scale float64, ok bool) {
	x, _, rest, sound := cut(text)
	perUnit, factor := solids(rest)
	scale, _, tail, ok := cut(factor)
	ppm = x * perUnit
	ok = ok && sound && tail == "" && ppm >= 0 && ppm <= math.MaxFloat64 && (ppm > 0) == (x > 0)
	return ppm, scale, ok && plausibleScale(scale)
}

// solids takes the unit of dissolved solids off what stands beside their number, and
// returns how many ppm it is, NaN for what is none, and the text of the factor.
func solids(rest string) (ppm float64, factor string) {
	i := strings.IndexAny(rest, "xX×")
	if i < 0 {
		return math.NaN(), ""
	}
	_, sign := utf8.DecodeRuneInString(rest[i:])
	var room [longestUnit]byte
	switch unit := plain(room[:0], rest[:i]); {
	case unit == nil:
	case hasName("g/L", unit):
		return 1000, rest[i+sign:]
	case hasName("ppm|mg/L", unit), inCapitals(unit) && nameInAnyCase("ppm|mg/L", unit) != "":
		return 1, rest[i+sign:]
	}
	return math.NaN(), ""
}

// String writes "2 ppm x0.5", as MarshalText does.
func (r TDS) String() string {
	if r == (TDS{}) {
		return ""
	}
	return number(r.ppm) + " ppm x" + number(float64(r.scale))
}

// AppendText appends what MarshalText writes.
func (r TDS) AppendText(text []byte) ([]byte, error) {
	if math.IsNaN(r.ppm) || r == (TDS{}) {
		return text, nil
	}
	if !(r.ppm >= 0) || math.IsInf(r.ppm, 0) || !plausibleScale(float64(r.scale)) {
		return text, &InputError{"dissolved solids", r.String(), tdsWant}
	}
	return append(text, r.String()...), nil
}

// MarshalText writes "2 ppm x0.5", and nothing for the zero value or NaN; reading that
// gives the same value back.
func (r TDS) MarshalText() ([]byte, error) { return r.AppendText(nil) }
