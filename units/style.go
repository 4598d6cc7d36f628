package units

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// Style says in which units a quantity is written for people, with the digits that matter
// to them: "82 US gal (310 L)". What is to be read back is written by MarshalText.
//
// Numbers get three digits, and all of their whole ones; temperatures one decimal, specific
// gravities four, times their two longest units.
type Style uint8

// The styles.
const (
	Metric Style = iota // "310 L", "25.6 °C"
	US                  // "82 US gal", "78 °F"
	Both                // "82 US gal (310 L)", "78 °F (25.6 °C)"
	numberOfStyles
)

var styles = [...]string{Metric: "metric", US: "US", Both: "both"}

// String returns "metric", "US" or "both".
func (s Style) String() string {
	if s >= numberOfStyles {
		return "no style"
	}
	return styles[s]
}

const styleWant = `"metric", "US" or "both"`

// UnmarshalText reads "metric", "US" or "both", in either case.
func (s *Style) UnmarshalText(text []byte) error {
	for i, name := range styles {
		if strings.EqualFold(name, strings.TrimSpace(string(text))) {
			*s = Style(i)
			return nil
		}
	}
	*s = numberOfStyles
	return &InputError{"style of units", Quoted(string(text)), styleWant}
}

// MarshalText writes what String returns; reading that gives the same style back.
func (s Style) MarshalText() ([]byte, error) {
	if s >= numberOfStyles {
		return nil, &InputError{"style of units", number(float64(s)), styleWant}
	}
	return []byte(styles[s]), nil
}

// Format writes a quantity for people, and "?" for an unknown one.
func (s Style) Format(q Quantity) string { return string(s.Append(nil, q)) }

// Append appends what Format writes. It allocates nothing if there is room.
func (s Style) Append(text []byte, q Quantity) []byte {
	metric, number := metricFace(q)
	us, known := usFace(q)
	switch {
	case !number:
		return s.appendOther(text, q)
	case s == Metric || !known || us.isTiny():
		return metric.append(text)
	case s == US || math.IsNaN(us.x):
		return us.append(text)
	}
	return append(metric.append(append(us.append(text), " ("...)), ')')
}

// face is a quantity as people see it: so many base units, on some scales.
type face struct {
	x        float64
	decimals int // at most, or threeDigits
	scales   []scale
}

const threeDigits = -1

// scale is a unit that is used from a number of it on, the last of a list from zero.
type scale struct {
	size float64 // in the base unit
	from float64
	name string // with the space before it
	zero bool   // nothing is written in it: "0 L", not "0 mL"
}

// isTiny tells what is less than a tenth of the smallest unit: 50 mg are no ounces.
func (f face) isTiny() bool {
	return f.decimals == threeDigits && f.x != 0 && math.Abs(f.x) < 0.1*f.scales[len(f.scales)-1].size
}

func (f face) append(text []byte) []byte {
	if math.IsNaN(f.x) {
		return append(text, '?')
	}
	for _, u := range f.scales {
		y := rounded(f.x/u.size, f.decimals)
		if math.Abs(y) >= u.from || y == 0 && u.zero {
			return append(appendNumber(text, y), u.name...)
		}
	}
	return text
}

// rounded rounds to so many decimals, or to three digits and all whole ones.
func rounded(x float64, decimals int) float64 {
	if decimals == threeDigits {
		decimals = 2
		if magnitude := math.Floor(math.Log10(math.Abs(x))); math.Abs(magnitude) < 300 {
			decimals = max(0, 2-int(magnitude))
		}
	}
	p := math.Pow10(decimals)
	y := math.Round(x*p) / p
	if math.IsInf(x*p, 0) {
		return x
	}
	return y + 0 // minus zero becomes zero
}

func appendNumber(text []byte, x float64) []byte {
	if x != 0 && (math.Abs(x) < 1e-4 || math.Abs(x) >= 1e15) {
		return strconv.AppendFloat(text, x, 'g', 3, 64)
	}
	return strconv.AppendFloat(text, x, 'f', -1, 64)
}

// usFace returns what the trade in the United States gives in units of its own.
func usFace(q Quantity) (face, bool) {
	switch q := q.(type) {
	case Volume:
		return face{float64(q), threeDigits, usVolumes[:]}, true
	case Mass:
		return face{float64(q), threeDigits, usMasses[:]}, true
	case Length:
		return face{float64(q), threeDigits, usLengths[:]}, true
	case Area:
		return face{float64(q), threeDigits, usAreas[:]}, true
	case Flow:
		return face{float64(q), threeDigits, usFlows[:]}, true
	case GaugePressure:
		return face{float64(q), threeDigits, usGauge[:]}, true
	case AirPressure:
		return face{float64(q), 2, usAir[:]}, true
	case Temperature:
		if q.IsSet() {
			return face{q.Fahrenheit(), 1, fahrenheit[:]}, true
		}
		return face{math.NaN(), 1, fahrenheit[:]}, true
	case TemperatureDifference:
		return face{q.FahrenheitDegrees(), threeDigits, fahrenheit[:]}, true
	}
	return face{}, false
}

var (
	usVolumes = [...]scale{{float64(USGallon), 0.25, " US gal", true}, {float64(USFluidOunce), 0, " US fl oz", false}}
	usMasses  = [...]scale{{float64(Pound), 1, " lb", true}, {float64(Ounce), 0, " oz", false}}
	usLengths = [...]scale{{float64(Foot), 10, " ft", false}, {float64(Inch), 0, " in", true}}
	usAreas   = [...]scale{{float64(SquareFoot), 1, " sq ft", true}, {float64(SquareInch), 0, " sq in", false}}
	usFlows   = [...]scale{
		{float64(USGallonPerHour), 10, " US gal/h", true}, {float64(USGallonPerDay), 0, " US gal/day", false},
	}
	usGauge    = [...]scale{{float64(PSIGauge), 0, " psi", false}}
	usAir      = [...]scale{{float64(InchOfMercury), 0, " inHg", false}}
	fahrenheit = [...]scale{{1, 0, " °F", false}}
)

// metricFace returns what is a number with a metric unit; see also solutionFace.
func metricFace(q Quantity) (face, bool) {
	switch q := q.(type) {
	case Volume:
		return face{float64(q), threeDigits, volumes[:]}, true
	case Mass:
		return face{float64(q), threeDigits, masses[:]}, true
	case Length:
		return face{float64(q), threeDigits, lengths[:]}, true
	case Area:
		return face{float64(q), threeDigits, areas[:]}, true
	case Flow:
		return face{float64(q), threeDigits, flows[:]}, true
	case GaugePressure:
		return face{float64(q), threeDigits, gauge[:]}, true
	case SeaPressure:
		return face{float64(q), threeDigits, sea[:]}, true
	case AirPressure:
		return face{float64(q), 0, air[:]}, true
	case Temperature:
		if q.IsSet() {
			return face{q.Celsius(), 1, celsius[:]}, true
		}
		return face{math.NaN(), 1, celsius[:]}, true
	case TemperatureDifference:
		return face{float64(q), threeDigits, celsius[:]}, true
	case Energy:
		return face{float64(q), threeDigits, energies[:]}, true
	case Power:
		return face{float64(q), threeDigits, powers[:]}, true
	case ThermalConductance:
		return face{float64(q), threeDigits, heatLosses[:]}, true
	case SpecificHeat:
		return face{float64(q), 0, specificHeats[:]}, true
	case Speed:
		return face{float64(q), threeDigits, speeds[:]}, true
	case Voltage:
		return face{float64(q), threeDigits, voltages[:]}, true
	}
	return solutionFace(q)
}

// solutionFace returns what a water and what is dissolved in it are given in everywhere.
func solutionFace(q Quantity) (face, bool) {
	switch q := q.(type) {
	case PracticalSalinity:
		return face{q.Value(), 1, practical[:]}, true
	case AbsoluteSalinity:
		return face{q.GramsPerKilogram(), 1, absolute[:]}, true
	case BareGravity:
		return face{float64(q), 4, bareGravity[:]}, true
	case Conductivity:
		return face{float64(q), threeDigits, conductivities[:]}, true
	case Resistivity:
		return face{float64(q), threeDigits, resistivities[:]}, true
	case Density:
		return face{float64(q), 1, densities[:]}, true
	case Alkalinity:
		return face{q.DKH(), threeDigits, alkalinities[:]}, true
	case MassPerLitre:
		return face{float64(q), threeDigits, massesPerLitre[:]}, true
	case MassPerKilogram:
		return face{float64(q), threeDigits, massesPerKilogram[:]}, true
	case AmountPerLitre:
		return face{float64(q), threeDigits, amountsPerLitre[:]}, true
	case AmountPerKilogram:
		return face{float64(q), threeDigits, amountsPerKilogram[:]}, true
	case MolarMass:
		return face{float64(q), 3, molarMasses[:]}, true
	case Fraction:
		return face{q.Percent(), threeDigits, percent[:]}, true
	case Ratio:
		return face{float64(q), threeDigits, ratio[:]}, true
	}
	return face{}, false
}

var (
	volumes            = [...]scale{{1, 1, " L", true}, {1e-3, 0, " mL", false}}
	masses             = [...]scale{{1e3, 1, " kg", false}, {1, 1, " g", true}, {1e-3, 0, " mg", false}}
	lengths            = [...]scale{{1e3, 3, " m", false}, {10, 1, " cm", true}, {1, 0, " mm", false}}
	areas              = [...]scale{{1, 0.1, " m²", true}, {1e-4, 0, " cm²", false}}
	flows              = [...]scale{{1, 1, " L/h", true}, {0.06, 0, " mL/min", false}}
	gauge              = [...]scale{{1, 0, " bar", false}}
	sea                = [...]scale{{1, 0, " dbar", false}}
	air                = [...]scale{{1, 0, " hPa", false}}
	celsius            = [...]scale{{1, 0, " °C", false}}
	energies           = [...]scale{{3.6e6, 0.1, " kWh", true}, {3600, 0.1, " Wh", false}, {1, 0, " J", false}}
	powers             = [...]scale{{1e3, 1, " kW", false}, {1, 0, " W", true}}
	heatLosses         = [...]scale{{1, 0, " W/K", false}}
	specificHeats      = [...]scale{{1, 0, " J/(kg·K)", false}}
	speeds             = [...]scale{{1, 0, " m/s", false}}
	voltages           = [...]scale{{1e3, 1, " V", false}, {1, 0, " mV", true}}
	practical          = [...]scale{{1, 0, " ppt", false}}
	absolute           = [...]scale{{1, 0, " g/kg", false}}
	bareGravity        = [...]scale{{1, 0, " SG", false}}
	conductivities     = [...]scale{{1, 1, " mS/cm", true}, {1e-3, 0, " µS/cm", false}}
	resistivities      = [...]scale{{1, 1, " MΩ·cm", true}, {1e-3, 0, " kΩ·cm", false}}
	densities          = [...]scale{{1, 0, " kg/m³", false}}
	alkalinities       = [...]scale{{1, 0, " dKH", false}}
	massesPerLitre     = [...]scale{{1e3, 10, " g/L", false}, {1, 0.01, " mg/L", true}, {1e-3, 0, " µg/L", false}}
	massesPerKilogram  = [...]scale{{1e3, 10, " g/kg", false}, {1, 0.01, " mg/kg", true}, {1e-3, 0, " µg/kg", false}}
	amountsPerLitre    = [...]scale{{1, 0.1, " mmol/L", true}, {1e-3, 0, " µmol/L", false}}
	amountsPerKilogram = [...]scale{{1e3, 10, " mmol/kg", false}, {1, 0, " µmol/kg", true}}
	molarMasses        = [...]scale{{1, 0, " g/mol", false}}
	percent            = [...]scale{{1, 0, " %", false}}
	ratio              = [...]scale{{1, 0, ":1", false}}
)

// appendOther appends what has more to it than a number and a unit.
func (s Style) appendOther(text []byte, q Quantity) []byte {
	switch q := q.(type) {
	case Duration:
		if q != unknownDuration {
			return appendDuration(text, twoLongest(q))
		}
	case Money:
		if q != (Money{}) && !math.IsNaN(q.Amount) {
			return append(append(strconv.AppendFloat(text, q.Amount, 'f', 2, 64), ' '), q.Currency...)
		}
	case SpecificGravity:
		if q != (SpecificGravity{}) && !math.IsNaN(q.ratio) {
			text = appendNumber(text, rounded(q.ratio, 4))
			return q.pair.append(append(text, ' '))
		}
	case TDS:
		if q != (TDS{}) && !math.IsNaN(q.ppm) {
			text = append(appendNumber(text, rounded(q.ppm, threeDigits)), " ppm x"...)
			return appendNumber(text, float64(q.scale))
		}
	case ConductivityAt:
		if q != (ConductivityAt{}) {
			k, _ := metricFace(q.Conductivity)
			return s.Append(append(k.append(text), " at "...), q.Temperature)
		}
	}
	return append(text, '?')
}

// twoLongest rounds a time to what people say of it: whole seconds below ten minutes, whole
// minutes below a day, whole hours below ten days, then whole days.
func twoLongest(d Duration) Duration {
	t := time.Duration(d)
	for _, r := range [...]struct{ below, to time.Duration }{
		{time.Second, time.Millisecond}, {10 * time.Minute, time.Second}, {24 * time.Hour, time.Minute},
		{240 * time.Hour, time.Hour},
	} {
		if t.Abs() < r.below {
			return Duration(t.Round(r.to))
		}
	}
	return Duration(t.Round(24 * time.Hour))
}
