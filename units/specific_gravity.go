package units

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// GravityPair is the pair of temperatures that a specific gravity refers to:
// of the liquid, and of the pure water that it is compared with. ASTM E100
// writes the pair as 60/60 °F, 20/20 °C, 20/4 °C. Leaving it out costs up to
// two units of salinity, so this library never does.
type GravityPair struct{ Liquid, Water Temperature }

// SG60F is the pair 60/60 °F.
func SG60F() GravityPair { return GravityPair{Fahrenheit(60), Fahrenheit(60)} }

// SG20C is the pair 20/20 °C.
func SG20C() GravityPair { return GravityPair{Celsius(20), Celsius(20)} }

// SG25C is the pair 25/25 °C.
func SG25C() GravityPair { return GravityPair{Celsius(25), Celsius(25)} }

// SG20C4C is the pair 20/4 °C, that is nearly the density in kg/L.
func SG20C4C() GravityPair { return GravityPair{Celsius(20), Celsius(4)} }

// String writes the pair as the trade does: "25/25 °C", "60/60 °F".
func (p GravityPair) String() string { return string(p.append(nil)) }

func (p GravityPair) append(text []byte) []byte {
	liquid, water, unit := p.Liquid.Celsius(), p.Water.Celsius(), " °C"
	if f := p.Water.Fahrenheit(); p.Liquid.isFahrenheit() && isShort(f) && Fahrenheit(f) == p.Water {
		liquid, water, unit = p.Liquid.Fahrenheit(), f, " °F"
	}
	text = strconv.AppendFloat(text, liquid, 'g', -1, 64)
	text = strconv.AppendFloat(append(text, '/'), water, 'g', -1, 64)
	return append(text, unit...)
}

// SpecificGravity (relative density) is the density of a liquid at one
// temperature divided by that of pure water at another. It is made by
// Gravity, which asks for the pair.
type SpecificGravity struct {
	ratio float64
	pair  GravityPair
}

// Gravity returns the specific gravity of the given ratio for a pair of
// temperatures: units.Gravity(1.0264, units.SG25C()).
func Gravity(ratio float64, pair GravityPair) SpecificGravity { return SpecificGravity{ratio, pair} }

// Ratio returns the number that the instrument shows.
func (g SpecificGravity) Ratio() float64 { return g.ratio }

// Pair returns the temperatures that the ratio refers to.
func (g SpecificGravity) Pair() GravityPair { return g.pair }

// BareGravity is the number that an instrument for specific gravity shows, of which nobody
// has said yet to which pair of temperatures it refers. By itself it is no water.
type BareGravity float64

// Ratio returns the number that the instrument shows.
func (g BareGravity) Ratio() float64 { return float64(g) }

// At returns the specific gravity for the pair of temperatures that the instrument is
// marked with.
func (g BareGravity) At(pair GravityPair) SpecificGravity { return Gravity(float64(g), pair) }

var bareGravityUnits = table{
	quantity: "specific gravity", base: "SG", example: `"1.026 SG"`,
	units: []unit{{names: "SG|S.G.|sp gr|sp. gr.|specific gravity", size: 1}},
	limit: func(ratio float64, _ bool) string {
		if !plausibleGravity(ratio) {
			return bareGravityWant
		}
		return ""
	},
}

const bareGravityWant = `a specific gravity such as "1.026 SG"`

// UnmarshalText reads "1.026 SG".
func (g *BareGravity) UnmarshalText(text []byte) error {
	return unmarshal(g, text, &bareGravityUnits)
}

// String writes "1.026 SG", as MarshalText does.
func (g BareGravity) String() string { return withUnit(float64(g), "SG") }

// AppendText appends what MarshalText writes.
func (g BareGravity) AppendText(text []byte) ([]byte, error) {
	if !math.IsNaN(float64(g)) && !plausibleGravity(float64(g)) {
		return text, &InputError{"specific gravity", number(float64(g)), bareGravityWant}
	}
	return bareGravityUnits.append(text, float64(g))
}

// MarshalText writes "1.026 SG"; reading that gives the same value back.
func (g BareGravity) MarshalText() ([]byte, error) { return g.AppendText(nil) }

const gravityWant = `a specific gravity with its pair of temperatures such as "1.0264 25/25 °C" or "1.0268 60/60 °F"`

// UnmarshalText reads "1.0264 25/25 °C", "1.0268 60/60 °F", "1.0248 (20/4 °C)".
// A bare "1.0264" is refused: the pair is marked on the instrument. An empty text is a
// gravity that was not read.
func (g *SpecificGravity) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*g = SpecificGravity{}
		return nil
	}
	g.ratio = math.NaN()
	given := string(text)
	ratio, pair, ok := parseGravity(given)
	if !ok {
		return &InputError{"specific gravity", Quoted(given), gravityWant}
	}
	*g = SpecificGravity{ratio, pair}
	return nil
}

// plausibleGravity keeps densities in kg/m³ and slips of the decimal point from
// being read as a specific gravity: no water and no brine is outside.
func plausibleGravity(ratio float64) bool { return ratio > 0.9 && ratio < 1.3 }

// parseGravity reads "1.0264 25/25 °C", "1.0264 SG 25/25 °C" and "1.0264 (25/25 °C)"; a
// degree sign may stand at the first temperature too.
func parseGravity(text string) (ratio float64, pair GravityPair, ok bool) {
	text = tidy(text)
	space := strings.IndexFunc(text, unicode.IsSpace)
	if space < 0 || len(text) > longest {
		return 0, pair, false
	}
	var liquid, water typed
	ratio, _, rest, ok := cut(text[:space])
	above, below, _ := strings.Cut(bared(text[space:]), "/")
	liquid.take(above)
	water.take(below)
	switch {
	case !ok || rest != "" || !plausibleGravity(ratio):
		return 0, pair, false
	case !liquid.sound || !liquid.is("|°") || !water.sound || water.fault() != "":
		return 0, pair, false
	case water.is("°C|C"):
		return ratio, GravityPair{Celsius(liquid.x), Celsius(water.x)}, true
	case water.is("°F|F"):
		return ratio, GravityPair{Fahrenheit(liquid.x), Fahrenheit(water.x)}, true
	}
	return 0, pair, false
}

// bared takes "SG" and brackets off a pair of temperatures.
func bared(pair string) string {
	pair = strings.TrimSpace(pair)
	if len(pair) > 2 && strings.EqualFold(pair[:2], "SG") {
		pair = strings.TrimSpace(pair[2:])
	}
	inner, opened := strings.CutPrefix(pair, "(")
	inner, closed := strings.CutSuffix(inner, ")")
	if opened && closed {
		return inner
	}
	return pair
}

// String writes "1.0264 25/25 °C", as MarshalText does.
func (g SpecificGravity) String() string {
	if g == (SpecificGravity{}) {
		return ""
	}
	return number(g.ratio) + " " + g.pair.String()
}

// AppendText appends what MarshalText writes.
func (g SpecificGravity) AppendText(text []byte) ([]byte, error) {
	if math.IsNaN(g.ratio) || g == (SpecificGravity{}) {
		return text, nil
	}
	if !plausibleGravity(g.ratio) || !g.pair.Liquid.IsSet() || !g.pair.Water.IsSet() {
		return text, &InputError{"specific gravity", g.String(), gravityWant}
	}
	return append(text, g.String()...), nil
}

// MarshalText writes "1.0264 25/25 °C", and nothing for the zero value or NaN;
// reading that gives the same value back.
func (g SpecificGravity) MarshalText() ([]byte, error) { return g.AppendText(nil) }
