package units

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
)

// What each spelling is worth in the base unit, written a second time from NIST SP 811
// (2008), the UK Weights and Measures Act 1985 and DIN 38409: "1 kWh" is 3600000 J. A
// spelling that is added has to be added here. dKH and ppm CaCO3: 10 mg/L CaO and 1 mg/L
// CaCO3 in equivalents, by IUPAC's atomic weights of 2021.
func TestEverySpelling(t *testing.T) {
	const gallon, imperial, pound, inch, foot = 3.785411784, 4.54609, 453.59237, 25.4, 304.8
	seen := map[*table]bool{&durationUnits: true}
	for _, q := range []struct {
		table  *table
		values map[string]float64
	}{
		{&airPressureUnits, map[string]float64{"hPa|mbar|mb": 1, "Pa": 0.01, "kPa": 10, "bar|bara|bar absolute": 1000, "atm": 1013.25, "mmHg|mm Hg|torr": 1.33322387415, "inHg|in Hg": 33.86388640341, "psia|psi absolute": 68.9475729316836}},
		{&alkalinityUnits, map[string]float64{"meq/L|mEq/L|mval/L": 1, "dKH|°dKH|degrees KH": 10 / (56.077 / 2), "ppm CaCO3|mg/L CaCO3|mg/L as CaCO3|ppm as CaCO3": 1 / (100.086 / 2)}},
		{&amountPerKilogramUnits, map[string]float64{"umol/kg|ueq/kg": 1, "mmol/kg|meq/kg": 1e3, "mol/kg": 1e6}},
		{&amountPerLitreUnits, map[string]float64{"mmol/L|mM": 1, "umol/L|uM": 1e-3, "mol/L": 1e3}},
		{&areaUnits, map[string]float64{"m2|sq m": 1, "cm2|sq cm": 1e-4, "in2|sq in|sqin": 0.00064516, "ft2|sq ft|sqft": 0.09290304}},
		{&conductivityUnits, map[string]float64{"mS/cm": 1, "uS/cm": 1e-3, "S/m": 10}},
		{&densityUnits, map[string]float64{"kg/m3|g/L": 1, "g/mL|g/cm3|kg/L": 1000, "lb/US gal": pound / gallon}},
		{&energyUnits, map[string]float64{"J|joule": 1, "kJ": 1e3, "MJ": 1e6, "Wh": 3600, "kWh": 3.6e6}},
		{&flowUnits, map[string]float64{"L/h|L/hr|litre/hour|liter/hour": 1, "L/day|L/d|litre/day|liter/day": 1. / 24, "L/min|litre/minute|liter/minute": 60,
			"US gal/day|US gal/d|US gallon/day|US gpd": gallon / 24, "US gal/h|US gal/hr|US gph|US gallon/hour": gallon, "US gpm": gallon * 60,
			"imp gpd|UK gpd": imperial / 24, "imp gph|UK gph": imperial}},
		{&gaugePressureUnits, map[string]float64{"bar|barg|bar gauge": 1, "kPa|kPa gauge": 0.01, "MPa": 10, "psi|psig|psi gauge": 0.0689475729316836}},
		{&lengthUnits, map[string]float64{"mm|millimetre|millimeter": 1, "cm|centimetre|centimeter": 10, "m|metre|meter": 1000, `in|inch|inches|"`: inch, "ft|foot|feet|'": foot}},
		{&massUnits, map[string]float64{"g|gram|gramme": 1, "mg|milligram": 1e-3, "kg|kilogram|kilo": 1e3, "lb|lbm|pound": pound, "oz|ounce": pound / 16, "grain": pound / 7000}},
		{&massPerKilogramUnits, map[string]float64{"mg/kg": 1, "ug/kg": 1e-3, "g/kg": 1e3}},
		{&massPerLitreUnits, map[string]float64{"mg/L": 1, "ug/L": 1e-3, "g/L": 1e3, "gpg|grain/gal|grains/gal|grain/US gal": pound / 7 / 3.785411784}},
		{&molarMassUnits, map[string]float64{"g/mol": 1, "kg/mol": 1000}},
		{&powerUnits, map[string]float64{"W|watt": 1, "kW|kilowatt": 1000}},
		{&resistivityUnits, map[string]float64{"Mohm.cm|Mohm cm|Mohm-cm|megohm.cm|megohm cm": 1, "kohm.cm|kohm cm|kohm-cm": 1e-3}},
		{&seaPressureUnits, map[string]float64{"dbar|decibar": 1, "bar": 10, "kPa": 0.1, "MPa": 100}},
		{&specificHeatUnits, map[string]float64{"J/(kg.K)|J/(kg K)|J/kg/K": 1, "kJ/(kg.K)|kJ/(kg K)|kJ/kg/K": 1000}},
		{&speedUnits, map[string]float64{"m/s": 1, "km/h": 1 / 3.6, "ft/s": foot / 1000}},
		{&temperatureDifferenceUnits, map[string]float64{"K|kelvin|C|°C|degC|deg C|degree C|degrees C|celsius|degree celsius|degrees celsius": 1, "F|°F|degF|deg F|degree F|degrees F|fahrenheit|degree fahrenheit|degrees fahrenheit": 5. / 9}},
		{&thermalConductanceUnits, map[string]float64{"W/K|W/C|W/°C": 1}},
		{&temperatureUnits, map[string]float64{"C|°C|degC|deg C|degree C|degrees C|celsius|degree celsius|degrees celsius": 1, "F|°F|degF|deg F|degree F|degrees F|fahrenheit|degree fahrenheit|degrees fahrenheit": -31 / 1.8, "K|°K|kelvin": 1 - 273.15}},
		{&practicalUnits, map[string]float64{"|PSS-78|PSU|ppt|‰": 1}},
		{&absoluteUnits, map[string]float64{"g/kg": 1}},
		{&bareGravityUnits, map[string]float64{"SG|S.G.|sp gr|sp. gr.|specific gravity": 1}},
		// NIST SP 811 B.8: minute 60 s, hour 3600 s, day 86 400 s, year of 365 days 31 536 000 s; a month is a twelfth of that.
		{&durationUnits, map[string]float64{"s|sec|second": 1. / 3600, "min|minute": 60. / 3600, "h|hr|hour": 1, "d|day": 86400. / 3600, "wk|week": 7 * 24,
			"mo|month": 31536000. / 12 / 3600, "yr|year": 31536000. / 3600}},
		{&voltageUnits, map[string]float64{"mV": 1, "V": 1000, "uV": 1e-3}},
		{&volumeUnits, map[string]float64{"L|litre|liter|ltr": 1, "mL|millilitre|milliliter|cm3|cc": 1e-3, "m3|cubic metre|cubic meter": 1000,
			"US gal|US gallon|gal US|gallon US|US liquid gallon": gallon, "US qt|US quart": gallon / 4, "US pint|US pt": gallon / 8, "US cup": gallon / 16, "US fl oz|US fluid ounce": gallon / 128,
			"imp gal|imp gallon|imperial gal|imperial gallon|UK gal|UK gallon|gal imp|gallon imp": imperial, "imp qt|imp quart|imperial quart|UK qt|UK quart": imperial / 4,
			"imp pint|imp pt|imperial pint|UK pint|UK pt": imperial / 8, "imp fl oz|imp fluid ounce|imperial fl oz|imperial fluid ounce|UK fl oz|UK fluid ounce": imperial / 160, "in3|cubic inch|cu in": inch * inch * inch * 1e-6, "ft3|cubic foot|cubic feet|cu ft": foot * foot * foot * 1e-6}},
	} {
		seen[q.table] = true
		worth := map[string]float64{}
		for names, size := range q.values {
			for _, name := range strings.Split(names, "|") {
				worth[name] = size
			}
		}
		for _, u := range q.table.units {
			for _, name := range strings.Split(u.names, "|") {
				text := "1 " + name
				x, err := q.table.read(text)
				if u.refuse != "" {
					assert.ErrorIs(t, err, ErrInput, "%s %q", q.table.quantity, text)
					assert.True(t, math.IsNaN(x))
					continue
				}
				assert.NoError(t, err, "%s %q", q.table.quantity, text)
				if assert.Contains(t, worth, name, "%s: a spelling without its second entry", q.table.quantity) {
					assert.InEpsilon(t, worth[name], x, 1e-11, "%s %q", q.table.quantity, text)
				}
			}
		}
	}
	for _, r := range readers {
		assert.True(t, r.table == nil || seen[r.table], "%s: not in the list", r.name)
	}
	var half Volume
	assert.NoError(t, half.UnmarshalText([]byte(".5 L")))
	assert.Equal(t, Volume(0.5), half)
	assert.ErrorContains(t, half.UnmarshalText([]byte("5")), "a volume such as")
	var air AirPressure
	assert.ErrorContains(t, air.UnmarshalText([]byte("5 of")), "an air pressure such as")
	assert.Contains(t, Fraction{math.NaN()}.String(), "NaN")
	var s AbsoluteSalinity
	assert.NoError(t, s.UnmarshalText([]byte("1000 g/kg")))
	assert.Error(t, s.UnmarshalText([]byte("1001 g/kg")))
}

// The base units count one.
func TestBaseUnits(t *testing.T) {
	for name, x := range map[string]float64{
		"hPa": float64(Hectopascal), "µmol/kg": float64(MicromolePerKilogram), "mmol/L": float64(MillimolePerLitre),
		"m²": float64(SquareMetre), "mS/cm": float64(MillisiemensPerCentimetre), "kg/m³": float64(KilogramPerCubicMetre), "J": float64(Joule),
		"L/h": float64(LitrePerHour), "bar": float64(BarGauge), "mm": float64(Millimetre), "g": float64(Gram), "mg/kg": float64(MilligramPerKilogram),
		"mg/L": float64(MilligramPerLitre), "g/mol": float64(GramPerMole), "W": float64(Watt), "MΩ·cm": float64(MegohmCentimetre), "dbar": float64(Decibar),
		"J/(kg K)": float64(JoulePerKilogramKelvin), "m/s": float64(MetrePerSecond), "K": float64(CelsiusDegree), "W/K": float64(WattPerKelvin),
		"mV": float64(Millivolt), "L": float64(Litre),
	} {
		assert.Equal(t, 1., x, name)
	}
	assert.InEpsilon(t, 1000, float64(MolePerLitre), 1e-15)
	assert.InEpsilon(t, 1e-4, float64(SquareCentimetre), 1e-15)
	assert.InEpsilon(t, 1e-3, float64(MillilitrePerHour), 1e-15)
	assert.InEpsilon(t, 0.02, float64((50*MillisiemensPerCentimetre).Resistivity()/(1000*KilohmCentimetre))*1000, 1e-12) // 20 Ω·cm
}

// An error does not cost as much as the text that caused it, wherever that went.
func TestErrorsAreShort(t *testing.T) {
	long := strings.Repeat("é9", 1<<20)
	for _, e := range []*InputError{{Field: long}, {Got: long}, {Want: long}} {
		assert.Less(t, len(e.Error()), 450)
		assert.Contains(t, e.Error(), "é9é9")
		assert.True(t, utf8.ValidString(e.Error()))
	}
	assert.Equal(t, `volume: got "5 gal", want "5 US gal"`, (&InputError{"volume", `"5 gal"`, `"5 US gal"`}).Error())
}
