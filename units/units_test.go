package units_test

import (
	"encoding"
	"encoding/json"
	"errors"
	"flag"
	"math"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// Each constant against its definition, computed here from the definition's
// own numbers and not from the constants of the package.
func TestConstantsMeetTheirDefinitions(t *testing.T) {
	const relative = 3e-16 // the last bit or the next
	const (
		ca, c, o = 40.078, 12.011, 15.999 // IUPAC abridged standard atomic weights 2021
	)
	for _, r := range []struct {
		src       string
		got, want float64
	}{
		{"NIST SP 811 B.8: US gallon 3.785 411 784 L", units.USGallon.Litres(), 3.785411784},
		{"NIST SP 811 B.8: US liquid quart 0.946 352 946 L", units.USQuart.Litres(), 0.946352946},
		{"NIST SP 811 B.8: US cup 236.588 236 5 mL", units.USCup.Millilitres(), 236.5882365},
		{"NIST SP 811 B.8: US fluid ounce 29.573 529 562 5 mL", units.USFluidOunce.Millilitres(), 29.5735295625},
		{"UK Weights and Measures Act 1985: gallon 4.546 09 L", units.ImperialGallon.Litres(), 4.54609},
		{"NIST SP 811 B.8: cubic inch 16.387 064 mL", units.CubicInch.Millilitres(), 16.387064},
		{"NIST SP 811 B.8: cubic foot 28.316 846 592 L", units.CubicFoot.Litres(), 28.316846592},
		{"SI: m³", units.CubicMetre.Litres(), 1000},
		{"NIST SP 811 B.8: pound 453.592 37 g", units.Pound.Grams(), 453.59237},
		{"NIST SP 811 B.8: ounce 28.349 523 125 g", units.Ounce.Grams(), 28.349523125},
		{"NIST SP 811 B.8: grain 64.798 91 mg", units.Grain.Milligrams(), 64.79891},
		{"NIST SP 811 B.8: grain per gallon (U.S.) 17.118 06 mg/L, here from its grain and gallon", units.GrainPerUSGallon.MilligramsPerLitre(), 64.79891 / 3.785411784},
		{"SI: 1 bar absolute = 1000 hPa", units.BarAbsolute.Hectopascals(), 1000},
		{"NIST SP 811 B.8: psi absolute", units.PSIAbsolute.Hectopascals(), 0.45359237 * 9.80665 / (0.0254 * 0.0254) / 100},
		{"SI: kg", units.Kilogram.Grams(), 1000},
		{"SI: mg", units.Milligram.Grams(), 1e-3},
		{"NIST SP 811 B.8: inch 25.4 mm", units.Inch.Millimetres(), 25.4},
		{"NIST SP 811 B.8: foot 0.3048 m", units.Foot.Metres(), 0.3048},
		{"SI: cm", units.Centimetre.Millimetres(), 10},
		{"SI: m", units.Metre.Centimetres(), 100},
		{"NIST SP 811 B.8: psi 6.894 757 kPa, here from lb, g0 and in", units.PSIGauge.Kilopascals(), 0.45359237 * 9.80665 / (0.0254 * 0.0254) / 1000},
		{"SI: 1 bar = 100 kPa", units.BarGauge.Kilopascals(), 100},
		{"SI: 1 bar = 10 dbar", units.Bar.Decibars(), 10},
		{"SI: 1 dbar = 10 kPa", units.Decibar.Kilopascals(), 10},
		{"NIST SP 811 B.8: mmHg 133.322 4 Pa, here from the density of mercury and g0", units.MillimetreOfMercury.Hectopascals(), 13595.1 * 9.80665 * 1e-3 / 100},
		{"NIST SP 811 B.8: inHg is 25.4 mmHg", units.InchOfMercury.MillimetresOfMercury(), 25.4},
		{"NIST SP 811 B.8: atm 101 325 Pa", units.Atmosphere.Hectopascals(), 1013.25},
		{"SI: 1 g/mL", units.GramPerMillilitre.KilogramsPerCubicMetre(), 1000},
		{"SI: 1 S/m = 10 mS/cm", units.SiemensPerMetre.MillisiemensPerCentimetre(), 10},
		{"SI: 1 mS/cm = 1000 µS/cm", units.MillisiemensPerCentimetre.MicrosiemensPerCentimetre(), 1000},
		{"SI: 1 MΩ·cm is 1 µS/cm", units.MegohmCentimetre.Conductivity().MicrosiemensPerCentimetre(), 1},
		{"SI: 1 MΩ·cm = 1000 kΩ·cm", units.MegohmCentimetre.KilohmCentimetres(), 1000},
		{"DIN 38409: 1 dKH = 10 mg/L CaO, two equivalents a mole", units.DKH(1).MilliequivalentsPerLitre(), 10 / ((ca + o) / 2)},
		{"definition: 1 mg/L CaCO3, two equivalents a mole", units.PPMCaCO3(1).MilliequivalentsPerLitre(), 1 / ((ca + c + 3*o) / 2)},
		{"definition: dKH in ppm CaCO3", units.DKH(1).PPMCaCO3(), 10 * (ca + c + 3*o) / (ca + o)},
		{"SI: 1 g/L", units.GramPerLitre.MilligramsPerLitre(), 1000},
		{"SI: 1 µg/L", units.MicrogramPerLitre.MilligramsPerLitre(), 1e-3},
		{"SI: 1 g/kg", units.GramPerKilogram.MilligramsPerKilogram(), 1000},
		{"SI: 1 mol/kg", units.MolePerKilogram.MicromolesPerKilogram(), 1e6},
		{"SI: 1 mmol/kg", units.MillimolePerKilogram.MicromolesPerKilogram(), 1e3},
		{"SI: 1 µmol/L", units.MicromolePerLitre.MillimolesPerLitre(), 1e-3},
		{"day of 24 h", units.LitrePerHour.LitresPerDay(), 24},
		{"hour of 60 min", units.LitrePerMinute.LitresPerHour(), 60},
		{"definition: mL/min", units.MillilitrePerMinute.LitresPerHour(), 0.06},
		{"definition: US gal/day", units.USGallonPerDay.LitresPerDay(), 3.785411784},
		{"definition: US gal/h", units.USGallonPerHour.LitresPerHour(), 3.785411784},
		{"SI: kW", units.Kilowatt.Watts(), 1000},
		{"SI: kWh", units.KilowattHour.Joules(), 3.6e6},
		{"SI: Wh", units.WattHour.Joules(), 3600},
		{"NIST SP 811 B.8: °F difference 5/9 K", units.FahrenheitDegree.CelsiusDegrees(), 5. / 9},
	} {
		assert.InEpsilon(t, r.want, r.got, relative, r.src)
	}
	// The rounded figures that the trade quotes (common practice).
	assert.InDelta(t, 2.8, units.MilliequivalentsPerLitre(1).DKH(), 0.05)
	assert.InDelta(t, 17.85, units.DKH(1).PPMCaCO3(), 0.005)
	assert.InDelta(t, 50.04, units.MilliequivalentsPerLitre(1).PPMCaCO3(), 0.005)
}

func TestTemperatureScales(t *testing.T) {
	// NIST SP 811 B.8 definitions: fixed points that are exact in both scales.
	for _, r := range []struct{ c, f float64 }{{0, 32}, {100, 212}, {25, 77}, {-40, -40}, {37, 98.6}} {
		assert.InDelta(t, r.f, units.Celsius(r.c).Fahrenheit(), 1e-13)
		assert.InDelta(t, r.c, units.Fahrenheit(r.f).Celsius(), 1e-13)
	}
	assert.Equal(t, 298.15, units.Celsius(25).Kelvin())
	assert.InDelta(t, 25, units.Kelvin(298.15).Celsius(), 1e-13)
	assert.Equal(t, units.TemperatureDifference(2.5), units.Celsius(26).Sub(units.Celsius(23.5)))
	assert.InDelta(t, 78.8, units.Celsius(25).Add(1.8*units.FahrenheitDegree).Fahrenheit(), 1e-12)
	assert.InDelta(t, 4.5, (2.5 * units.CelsiusDegree).FahrenheitDegrees(), 1e-14)
	assert.Zero(t, units.Temperature{}.Celsius())
	assert.Equal(t, "0 °C", units.Celsius(0).String())

	// Freezing is a temperature, the zero value is none, and both are equal.
	var forgotten units.Temperature
	assert.False(t, forgotten.IsSet())
	for _, set := range []units.Temperature{
		units.Celsius(0), units.Fahrenheit(32), units.Kelvin(273.15), units.Celsius(25), units.Celsius(-1),
		units.Celsius(1).Add(-1), units.Celsius(math.NaN()),
	} {
		assert.True(t, set.IsSet(), set)
	}
	read, err := units.Parse[units.Temperature]("0 °C")
	assert.NoError(t, err)
	assert.True(t, read.IsSet())
	assert.True(t, read == forgotten)
	assert.False(t, math.Signbit(read.Celsius()))
}

func TestCrossings(t *testing.T) {
	rho := 1025 * units.KilogramPerCubicMetre
	assert.Equal(t, 20500.0, rho.Mass(20*units.Litre).Grams())
	assert.InDelta(t, 20, rho.Volume(20.5*units.Kilogram).Litres(), 1e-14)
	assert.InDelta(t, 2400/1.025, units.MilliequivalentsPerLitre(2.4).PerKilogram(rho).MicromolesPerKilogram(), 1e-9)
	assert.InDelta(t, 2.4, (2400 / 1.025 * units.MicromolePerKilogram).Alkalinity(rho).MilliequivalentsPerLitre(), 1e-12)
	assert.InDelta(t, 400, (410 * units.MilligramPerLitre).PerKilogram(rho).MilligramsPerKilogram(), 1e-12)
	assert.InDelta(t, 410, (400 * units.MilligramPerKilogram).PerLitre(rho).MilligramsPerLitre(), 1e-12)
	assert.InDelta(t, 0.5, (5 * units.MilligramPerLitre).Mass(100*units.Litre).Grams(), 1e-15)
	assert.InDelta(t, 4, units.TDSReading(2, 0.5).Conductivity().MicrosiemensPerCentimetre(), 1e-14)
	assert.True(t, math.IsInf(float64(units.Conductivity(0).Resistivity()), 1))
}

func TestFlowAndTime(t *testing.T) {
	f := 8 * units.LitrePerHour
	assert.Equal(t, 20.0, f.Volume(150*time.Minute).Litres())
	assert.Equal(t, 150*time.Minute, f.Time(20*units.Litre))
	for _, never := range []units.Flow{0, -1, units.Flow(math.NaN()), 1e-300} {
		assert.Negative(t, never.Time(20*units.Litre))
	}
}

// A reported mass counts another thing than the neighbour's. Ratios computed
// from the IUPAC abridged atomic weights 2021.
func TestMolarMass(t *testing.T) {
	const relative = 1e-15
	ratio := func(a, b units.MolarMass) float64 {
		return a.MassPerLitre(b.AmountPerLitre(units.MilligramPerLitre)).MilligramsPerLitre()
	}
	for _, r := range []struct {
		name string
		got  float64
		want float64
	}{
		{"NO3 per NO3-N", ratio(units.AsNitrate, units.AsNitrogen), (14.007 + 3*15.999) / 14.007},
		{"NO2 per NO2-N", ratio(units.AsNitrite, units.AsNitrogen), (14.007 + 2*15.999) / 14.007},
		{"NH3 per NH3-N", ratio(units.AsAmmonia, units.AsNitrogen), (14.007 + 3*1.0080) / 14.007},
		{"NH4 per NH4-N", ratio(units.AsAmmonium, units.AsNitrogen), (14.007 + 4*1.0080) / 14.007},
		{"PO4 per P", ratio(units.AsPhosphate, units.AsPhosphorus), (30.974 + 4*15.999) / 30.974},
		{"SO4 per S", ratio(units.AsSulfate, units.AsSulfur), (32.06 + 4*15.999) / 32.06},
		{"SiO2 per Si", ratio(units.AsSilica, units.AsSilicon), (28.085 + 2*15.999) / 28.085},
		{"H3BO3 per B", ratio(units.AsBoricAcid, units.AsBoron), (3*1.0080 + 10.81 + 3*15.999) / 10.81},
		{"IO3 per I", ratio(units.AsIodate, units.AsIodine), (126.90 + 3*15.999) / 126.90},
		{"CaCO3 per Ca", ratio(units.AsCalciumCarbonate, units.AsCalcium), (40.078 + 12.011 + 3*15.999) / 40.078},
		{"CO2 per C", ratio(units.AsCarbonDioxide, units.AsCarbon), (12.011 + 2*15.999) / 12.011},
	} {
		assert.InEpsilon(t, r.want, r.got, relative, r.name)
	}
	for _, none := range []units.MolarMass{0, -1, units.MolarMass(math.NaN())} {
		assert.True(t, math.IsNaN(float64(none.AmountPerLitre(5))), none)
		assert.True(t, math.IsNaN(float64(none.MassPerLitre(5))), none)
		assert.True(t, math.IsNaN(float64(none.AmountPerKilogram(5))), none)
		assert.True(t, math.IsNaN(float64(none.MassPerKilogram(5))), none)
	}
	per := units.AsNitrate.AmountPerKilogram(62.004 * units.MilligramPerKilogram)
	assert.InEpsilon(t, 1000, per.MicromolesPerKilogram(), 1e-15)
	assert.InEpsilon(t, 14.007, units.AsNitrogen.MassPerKilogram(per).MilligramsPerKilogram(), 1e-15)
}

// text is what every quantity of the package can do.
type text interface {
	encoding.TextMarshaler
	encoding.TextUnmarshaler
	String() string
}

func read[Q any, P interface {
	*Q
	text
}](s string) (string, error) {
	q, err := units.Parse[Q, P](s)
	if err != nil {
		return "", err
	}
	b, err := P(&q).MarshalText()
	if err != nil {
		return "", err
	}
	if got := P(&q).String(); got != string(b) {
		return "", errors.New("String " + got + " differs from MarshalText " + string(b))
	}
	return string(b), nil
}

// kinds lists every quantity with what may be typed for it and what it reads.
var kinds = []struct {
	name   string
	read   func(string) (string, error)
	accept map[string]string
	refuse []string
}{
	{"volume", read[units.Volume], map[string]string{
		"20 L": "20 L", "20l": "20 L", " 20  litres ": "20 L", "1 liter": "1 L", "500 mL": "0.5 L", "413 mL": "0.413 L", "0.2 m³": "200 L", "0.2 m^3": "200 L",
		"5 US gal": "18.92705892 L", "5 us gallons": "18.92705892 L", "1 imp gal": "4.54609 L", "1 UK gallon": "4.54609 L",
		"2 US cups": "0.473176473 L", "1e3 cm3": "1 L", "1 cubic foot": "28.316846592 L", "3 cubic feet": "84.950539776 L", "20\u00a0L": "20 L", "-1 L": "-1 L", "1 US qt": "0.946352946 L",
		"20 ltr": "20 L", "20 ltrs": "20 L", "20 LITRES": "20 L", "20 CC": "0.02 L", "0.2 M3": "200 L", "½ US gal": "1.892705892 L", "1½ US gal": "5.678117675999999 L", "1 ½ L": "1.5 L", "-½ L": "-0.5 L", "+2¾ L": "2.75 L", "⅓ L": "0.3333333333333333 L",
		"1 US pint": "0.473176473 L", "1 pint (US)": "0.473176473 L", "5 gal (US)": "18.92705892 L", "5 gallons (US)": "18.92705892 L", "5 U.S. gal": "18.92705892 L", "1 gal (imperial)": "4.54609 L", "1 gal (UK)": "4.54609 L", "1 IMP GAL": "4.54609 L",
		"2 imp pints": "1.1365225 L", "1 imp qt": "1.1365225 L", "160 imp fl oz": "4.54609 L", "128 US fl oz": "3.785411784 L", "\ufeff20 L": "20 L", "\ufeff\u00a020\u202fL\u00a0": "20 L", "\u201120 L": "-20 L", "−20 L": "-20 L", "\uff0d20 L": "-20 L", "2e\u20133 L": "0.002 L",
	}, []string{"5 gal", "5 gallons", "5", "", "L", "5,5 L", "1,000 L", "5 5 L", "NaN L", "Inf L", "0x10 L", "1e999 L", "5 kg", "1_000 L", "5 L L", "one L", "5 cups", "3 oz", "5 ML", "5 Ls", "1 qt", "--5 L", ". L", "+ L", "–−5 L", "2–3 L",
		"1/2 US gal", "5 1/2 US gal", "1\u20442 L", "8 fl oz", "1 pint", "5 Ml", "5 gal (DE)", "5 (US)", "5 gal (US", "½", "½ gal", "½5 L", "5 ½ ½ L", "m₃", "5 m₃", "20 L \ufeff L", "9007199254740993½ L"}},
	{"mass", read[units.Mass], map[string]string{
		"750 g": "750 g", "1.5 kg": "1500 g", "2 lb": "907.18474 g", "2 lbs": "907.18474 g", "8 oz": "226.796185 g", "5 mg": "0.005 g", "1.5 lbs": "680.388555 g", "1.5 LBS": "680.388555 g", "5 KG": "5000 g", "¼ lb": "113.3980925 g",
	}, []string{"750", "5 stone", "5 L", "5 Mg", "5 MG", "5 fl oz"}},
	{"length", read[units.Length], map[string]string{
		"40 cm": "400 mm", "16 in": "406.4 mm", "16\"": "406.4 mm", "16 inches": "406.4 mm", "4 ft": "1219.2 mm", "1.2 m": "1200 mm", "5 feet": "1524 mm",
		"16 Inches": "406.4 mm", "3 Metres": "3000 mm", "40 CM": "400 mm", "1.2 M": "1200 mm", "16½ in": "419.09999999999997 mm", "16″": "406.4 mm", "4′": "1219.2 mm",
	}, []string{"40", "40 yd", "5 ms", "5 Mm", "5 MM"}},
	{"temperature", read[units.Temperature], map[string]string{
		"25 °C": "25 °C", "25C": "25 °C", "25 degC": "25 °C", "77 °F": "25 °C", "77 f": "25 °C", "-2 ºC": "-2 °C", "\u22122 °C": "-2 °C", "273.15 K": "0 °C",
		"25 ℃": "25 °C", "77 ℉": "25 °C", "25℃": "25 °C", "25 deg C": "25 °C", "25 degrees C": "25 °C", "25 degrees celsius": "25 °C", "77 deg F": "25 °C", "298.15 \u212a": "25 °C",
		"–2 °C": "-2 °C", "‒2 °C": "-2 °C", "—2 °C": "-2 °C", "32 °F": "0 °C", "60 °F": "60 °F", "78.5 °F": "78.5 °F", "-40 °F": "-40 °C", "75 °F": "75 °F", "15.5556 °C": "15.5556 °C", "25½ °C": "25.5 °C",
	}, []string{"25", "25 X", "-300 °C", "-1 K", "warm", "25 °", "25 °C °C", "25 deg", "25 ℃ C", "-500 °F"}},
	{"temperature difference", read[units.TemperatureDifference], map[string]string{
		"0.5 °C": "0.5 K", "1.8 °F": "1 K", "2 K": "2 K", "1 °F": "1 °F", "3 deg F": "3 °F", "0.5 ℃": "0.5 K", "−3 ℉": "-3 °F",
	}, []string{"1"}},
	{"practical salinity", read[units.PracticalSalinity], map[string]string{
		"35": "35 PSS-78", "35 ppt": "35 PSS-78", "35 PSU": "35 PSS-78", "35 ‰": "35 PSS-78", "35 PSS-78": "35 PSS-78", "0": "0 PSS-78", "1": "1 PSS-78", "1.1": "1.1 PSS-78", "1.025 PSS-78": "1.025 PSS-78",
	}, []string{"1.025", "35 g/kg", "35 ppm", "-1", "35 %", "1.025 SG", ""}},
	{"absolute salinity", read[units.AbsoluteSalinity], map[string]string{
		"35.165 g/kg": "35.165 g/kg",
	}, []string{"35", "35 ppt", "35 g/L", "-1 g/kg", "1001 g/kg", "g/kg"}},
	{"specific gravity", read[units.SpecificGravity], map[string]string{
		"1.0264 25/25 °C": "1.0264 25/25 °C", "1.0264 25/25C": "1.0264 25/25 °C", "1.0268 60/60 °F": "1.0268 60/60 °F", "1.0248 20/4 °C": "1.0248 20/4 °C", "1.0264 77/77 F": "1.0264 25/25 °C", "": "",
		"1.026 SG 25/25 °C": "1.026 25/25 °C", "1.026 sg (20/4 ℃)": "1.026 20/4 °C", "1.0264 (60/60 °F)": "1.0264 60/60 °F", "1.0268 75/75 °F": "1.0268 75/75 °F", "1.0268\u00a075/50 °F": "1.0268 75/50 °F", "\ufeff1.0264 25/25 °C": "1.0264 25/25 °C",
	}, []string{"1.0264", "1.0264 SG", "1.0264 25 °C", "1.0264 25/25", "1.0264 25 °F/25 °C", "25/25 °C", "0 25/25 °C", "-1 25/25 °C", "1.0264 25/25/25 °C", "1.0264 25/25 K", "1026.4 25/25 °C", "10.264 25/25 °C", "1.026 SG", "1.026 SG25", "1.026 (25/25 °C", "1.026 SG ()"}},
	{"specific gravity without its pair", read[units.BareGravity], map[string]string{
		"1.026 SG": "1.026 SG", "1.026 sg": "1.026 SG", "1.026SG": "1.026 SG", "1.026 S.G.": "1.026 SG",
	}, []string{"1.026", "", "1026 SG", "10.26 SG", "0 SG", "-1.026 SG", "1.026 25/25 °C", "1,026 SG"}},
	{"ratio", read[units.Ratio], map[string]string{
		"3:1": "3:1", "3 : 1": "3:1", "3 to 1": "3:1", "1:4": "0.25:1", "2.5:1": "2.5:1", "0:1": "0:1", "1½:1": "1.5:1", "3:2": "1.5:1",
	}, []string{"3", "", "3:", ":1", "3:0", "-3:1", "3:-1", "3:1:1", "3/1", "3:1 L", "3,5:1", "1e300:1e-300", "3to1x"}},
	{"conductivity at a temperature", read[units.ConductivityAt], map[string]string{
		"53 mS/cm at 25 °C": "53 mS/cm at 25 °C", "53 mS/cm @ 77 °F": "53 mS/cm at 25 °C", "53000 µS/cm@25℃": "53 mS/cm at 25 °C", "53 mS/cm at 0 °C": "53 mS/cm at 0 °C", "53 mS/cm at 60 °F": "53 mS/cm at 60 °F", "": "",
	}, []string{"53 mS/cm", "53 mS/cm at", "53 mS/cm at ", "at 25 °C", "53 mS/cm at 25", "53 mS at 25 °C", "53 mS/cm at 25 °C at 25 °C", "53,1 mS/cm at 25 °C", "53 mS/cm at -300 °C"}},
	{"time", read[units.Duration], map[string]string{
		"36 h": "1 day 12 h", "14d": "14 days", "2 weeks": "14 days", "3 months": "91 days 6 h", "1 year": "365 days", "6 months": "182 days 12 h", "½ year": "182 days 12 h", "1½ h": "1 h 30 min", "47 min": "47 min",
		"6 h 35 min": "6 h 35 min", "1h30m0s": "1 h 30 min", "36h0m0s": "1 day 12 h", "0.5 s": "0.5 s", "90 s": "1 min 30 s", "-2 h 30 min": "-2 h 30 min", "0 h": "0 s", "12 MONTHS": "365 days", "10 MIN": "10 min", "1 day 1.5 h": "1 day 1 h 30 min", "1e2 h": "4 days 4 h", "36 hrs": "1 day 12 h", "1 hour": "1 h",
	}, []string{"", "36", "h", "5 m", "5 M", "5 ms", "2 h 3 h", "35 min 6 h", "6 h -35 min", "6 h +35 min", "--6 h", "1,5 h", "6 h 35", "293 years", "1e300 h", "1e-300 h", "6 h,35 min", "6 h 10^3 min", "6 h ½", "1 y", "3 fortnights", "6 h L", "NaN h", "0x10 h", "1_0 h"}},
	{"dissolved solids", read[units.TDS], map[string]string{
		"2 ppm x0.5": "2 ppm x0.5", "0 ppm x 0.64": "0 ppm x0.64", "2 mg/L x0.7": "2 ppm x0.7", "2 ppm ×0.5": "2 ppm x0.5", "2 ppm X0.5": "2 ppm x0.5", "": "", "0.3 g/L x0.5": "300 ppm x0.5", "2 PPM X 0.5": "2 ppm x0.5", "2 MG/L x0.5": "2 ppm x0.5",
	}, []string{"2 ppm", "2", "ppm x0.5", "2 ppm x", "2 ppm x0", "-2 ppm x0.5", "2 ppm x0.5 ppm", "2 ppt x0.5", "2 ppm x500", "2 ppm x0.1", "0.3 g/L", "1e308 g/L x0.5", "2 Mg/L x0.5", "2 x0.5"}},
	{"conductivity", read[units.Conductivity], map[string]string{
		"53.1 mS/cm": "53.1 mS/cm", "1413 µS/cm": "1.413 mS/cm", "1413 μS / cm": "1.413 mS/cm", "5.3 S/m": "53 mS/cm", "53.1 mS per cm": "53.1 mS/cm", "5 US/CM": "0.005 mS/cm",
	}, []string{"53.1", "53.1 mS", "53100 ppm", "53 MS/CM", "53 Ms/cm", "53 mS/cm at 25 °C"}},
	{"resistivity", read[units.Resistivity], map[string]string{
		"18.2 MΩ·cm": "18.2 MΩ·cm", "18.2 Mohm.cm": "18.2 MΩ·cm", "200 kohm cm": "0.2 MΩ·cm",
	}, []string{"18.2", "18.2 Mohm", "18.2 mohm.cm", "18.2 MOHM.CM"}},
	{"sea pressure", read[units.SeaPressure], map[string]string{
		"10 dbar": "10 dbar", "1 bar": "10 dbar", "100 kPa": "10 dbar", "1 MPa": "100 dbar",
	}, []string{"10", "10 m", "10 psi", "10 mPa"}},
	{"gauge pressure", read[units.GaugePressure], map[string]string{
		"4 bar": "4 bar", "400 kPa": "4 bar", "0.4 MPa": "4 bar", "60 psi": "4.1368543759010175 bar", "60 PSI": "4.1368543759010175 bar", "60 psig": "4.1368543759010175 bar", "60 psi gauge": "4.1368543759010175 bar", "4 barg": "4 bar",
	}, []string{"60", "60 lb", "60 psia", "60 psi absolute", "5 bara", "0.4 mPa"}},
	{"air pressure", read[units.AirPressure], map[string]string{
		"1013 hPa": "1013 hPa", "101.3 kPa": "1013 hPa", "1 atm": "1013.25 hPa", "1013 mbar": "1013 hPa", "1013 mb": "1013 hPa", "1013 MB": "1013 hPa", "101325 Pa": "1013.25 hPa", "760 MMHG": "1013.250144354 hPa", "760 mm Hg": "1013.250144354 hPa", "1 ATM": "1013.25 hPa", "14.7 psia": "1013.529322095749 hPa", "1 bar absolute": "1000 hPa",
	}, []string{"1013", "14.7 psi", "14.7 psig", "1 barg", "760 MmHg", "1013 Mbar"}},
	{"density", read[units.Density], map[string]string{
		"1023.3 kg/m³": "1023.3 kg/m³", "1.025 g/mL": "1025 kg/m³", "1.025 kg/L": "1025 kg/m³", "1025 KG/M3": "1025 kg/m³",
	}, []string{"1.0233", "1.0233 SG"}},
	{"alkalinity", read[units.Alkalinity], map[string]string{
		"2.9 meq/L": "2.9 meq/L", "8.2 dKH": "2.9245501720848117 meq/L", "100.086 ppm CaCO3": "2 meq/L", "100.086 ppm caco3": "2 meq/L", "100.086 PPM CACO3": "2 meq/L", "100.086 PPM CaCO3": "2 meq/L", "100.086 MG/L CaCO₃": "2 meq/L", "100.086 mg/l cacO3": "2 meq/L", "100.086 mg/L CaCO₃": "2 meq/L", "2.9 MEQ/L": "2.9 meq/L",
	}, []string{"8.2", "8.2 KH", "146 ppm", "2300 umol/kg", "146 Mg/L CaCO3"}},
	{"mass per litre", read[units.MassPerLitre], map[string]string{
		"5 mg/L": "5 mg/L", "50 µg/L": "0.05 mg/L", "1 g/L": "1000 mg/L", "5 MG/L": "5 mg/L", "5 mg / l": "5 mg/L",
	}, []string{"5", "5 ppm", "5 ppb", "5 mmol/L"}},
	{"mass per kilogram", read[units.MassPerKilogram], map[string]string{
		"412 mg/kg": "412 mg/kg", "5 ug/kg": "0.005 mg/kg", "1 g/kg": "1000 mg/kg", "412 MG/KG": "412 mg/kg",
	}, []string{"412 ppm", "412 mg/L", "412 Mg/kg"}},
	{"amount per litre", read[units.AmountPerLitre], map[string]string{
		"10 mmol/L": "10 mmol/L", "250 umol/L": "0.25 mmol/L", "1 mol/L": "1000 mmol/L", "10 mM": "10 mmol/L", "10 MMOL/L": "10 mmol/L",
	}, []string{"10", "10 mmol/kg", "10 MM", "10 Mmol/L"}},
	{"amount per kilogram", read[units.AmountPerKilogram], map[string]string{
		"2300 µmol/kg": "2300 µmol/kg", "2.3 mmol/kg": "2300 µmol/kg", "2.3 meq/kg": "2300 µmol/kg",
	}, []string{"2.3 meq/L", "2300", "8 dKH"}},
	{"flow", read[units.Flow], map[string]string{
		"8 L/h": "8 L/h", "2 mL/min": "0.12 L/h", "24 L/day": "1 L/h", "75 US gal/day": "11.829411825 L/h", "1 US gph": "3.785411784 L/h", "2 litres per hour": "2 L/h", "8 L/hour": "8 L/h", "8 litres/hr": "8 L/h", "1 US gal/min": "227.12470704 L/h", "1 gal (US)/min": "227.12470704 L/h", "1 US gpm": "227.12470704 L/h",
		"24 imp gal/day": "4.54609 L/h", "1 imp gal/h": "4.54609 L/h", "1 gph (US)": "3.785411784 L/h", "1 L/s": "3600 L/h", "168 L/week": "1 L/h", "8 L/H": "8 L/h", "1 L/MIN": "60 L/h", "2 mL/d": "8.333333333333333e-05 L/h", "730 litres per month": "1 L/h", "½ L/min": "30 L/h",
	}, []string{"75 gpd", "8", "8 L", "75 gal/day", "1 ml/min x", "2 ML/MIN", "2 Ml/min", "5 gal/week", "5 oz/h", "5 L/m", "5 L/ms", "5 L/h/h", "5 /h", "5 L/"}},
	{"power", read[units.Power], map[string]string{"300 W": "300 W", "0.3 kW": "300 W"}, []string{"300", "300 J", "300 Ws"}},
	{"energy", read[units.Energy], map[string]string{"1.5 kWh": "5.4e+06 J", "10 kJ": "10000 J"}, []string{"1.5", "10 kcal", "10 mJ"}},
	{"heat loss", read[units.ThermalConductance], map[string]string{"3.5 W/K": "3.5 W/K", "3.5 W/°C": "3.5 W/K"}, []string{"3.5", "3.5 W"}},
	{"specific heat", read[units.SpecificHeat], map[string]string{"3990 J/(kg·K)": "3990 J/(kg·K)", "3.99 kJ/(kg K)": "3990 J/(kg·K)"}, []string{"3990"}},
	{"speed", read[units.Speed], map[string]string{"1530 m/s": "1530 m/s", "36 km/h": "10 m/s", "1530 M/S": "1530 m/s"}, []string{"1530"}},
	{"fraction", read[units.Fraction], map[string]string{
		"10 %": "10 %", "10%": "10 %", "29 percent": "29 %", "0.07 %": "0.07 %", "-5 %": "-5 %", "1e1 %": "10 %", "0 %": "0 %", "100 %": "100 %", "93.25 %": "93.25 %", "20 %": "20 %", "20 per cent": "20 %", "½ %": "0.5 %", "12½ %": "12.5 %", "33⅓ %": "33.33333333333333 %", "–5 %": "-5 %",
	}, []string{"10", "0.1", "", "10 ppt", "3:1", "10,5 %"}},
	{"molar mass", read[units.MolarMass], map[string]string{"58.44 g/mol": "58.44 g/mol", "0.05844 kg/mol": "58.44 g/mol"}, []string{"58.44", "58.44 g"}},
	{"voltage", read[units.Voltage], map[string]string{"-58.2 mV": "-58.2 mV", "0.4 V": "400 mV", "500 µV": "0.5 mV"}, []string{"59", "59 MV", "59 pH"}},
	{"area", read[units.Area], map[string]string{"0.6 m²": "0.6 m²", "6000 cm2": "0.6 m²", "1 sq ft": "0.09290304 m²", "6 m2": "6 m²"}, []string{"0.6", "0.6 m"}},
	{"price", read[units.Money], map[string]string{"18.50 EUR": "18.5 EUR", "20 USD": "20 USD", "": ""}, []string{"18.50", "$20", "20 $", "20 usd", "-1 EUR", "20 EURO"}},
}

func TestTextThatIsRead(t *testing.T) {
	for _, k := range kinds {
		for in, want := range k.accept {
			got, err := k.read(in)
			if assert.NoError(t, err, "%s %q", k.name, in) {
				assert.Equal(t, want, got, "%s %q", k.name, in)
			}
			again, err := k.read(got)
			assert.NoError(t, err, "%s %q", k.name, got)
			assert.Equal(t, got, again, "%s: what is written is read back", k.name)
		}
	}
}

func TestTextThatIsRefused(t *testing.T) {
	for _, k := range kinds {
		for _, in := range k.refuse {
			got, err := k.read(in)
			var bad *units.InputError
			if !assert.ErrorAs(t, err, &bad, "%s %q gave %s", k.name, in, got) {
				continue
			}
			assert.ErrorIs(t, err, units.ErrInput)
			assert.NotEmpty(t, bad.Field)
			assert.NotEmpty(t, bad.Want, "%s %q", k.name, in)
			assert.Contains(t, err.Error(), bad.Got)
		}
	}
}

func TestRefusalSaysWhatToWrite(t *testing.T) {
	_, err := units.Parse[units.Volume]("5 gal")
	assert.EqualError(t, err, `volume: got "5 gal", want "US gal" (3.785 L) or "imp gal" (4.546 L)`)
	_, err = units.Parse[units.Temperature]("25")
	assert.EqualError(t, err, `temperature: got "25", want a temperature such as "25 °C" or "77 °F"`)
	for text, want := range map[string]string{
		"20 ML": `want "mL" in just these letters: m is a thousandth, M a million`, "20 Ml": `"mL" in just these letters`, "8 oz": `want "US fl oz" (29.57 mL) or "imp fl oz" (28.41 mL)`,
		"1 pint": `want "US pint" (0.473 L) or "imp pint" (0.568 L)`, "1/9 L": `a decimal such as "0.5", or "½"`, "5 1/2 L": "a fraction with a slash is not read", "1\u20442 L": "a fraction with a slash is not read",
		"1/ L": "one number and one unit", "5 5 L": "one number and one unit", "5½½ L": "one number and one unit",
	} {
		_, err = units.Parse[units.Volume](text)
		assert.ErrorContains(t, err, want)
	}
	for text, want := range map[string]string{"5 Mm": `"mm" in just these letters`, "5 MM": `"mm" in just these letters`} {
		_, err = units.Parse[units.Length](text)
		assert.ErrorContains(t, err, want)
	}
	_, err = units.Parse[units.PracticalSalinity]("-1")
	assert.ErrorContains(t, err, "zero or more")
	_, err = units.Parse[units.AirPressure]("14.7 psi")
	assert.EqualError(t, err, `air pressure: got "14.7 psi", want "psia" for an absolute pressure (air is near 14.7), or hPa, kPa or mmHg`)
	_, err = units.Parse[units.GaugePressure]("60 psia")
	assert.EqualError(t, err, `gauge pressure: got "60 psia", want "psi gauge" or "bar gauge": an absolute pressure counts that of the air too`)
	_, err = units.Parse[units.Flow]("2 ML/MIN")
	assert.ErrorContains(t, err, `"mL" in just these letters`)
	_, err = units.Parse[units.Volume]("1,500 L")
	assert.EqualError(t, err, `volume: got "1,500 L", want a point for decimals and no mark for thousands, as in "1.5" or "1500"`)
}

// Text of which a part was left out, or moved into the number. Every one of the
// first two rows was read, as the value beside it.
func TestTextIsNeverReadInPart(t *testing.T) {
	for _, k := range []struct {
		read func(string) (string, error)
		bad  []string
	}{
		{read[units.Volume], []string{"10^3 L" /* 103 L */, "10³ L" /* 103 L */, "2*20 L" /* 2.2 L */, "2·20 L", "20 °L", "20 L°", "2^0 L", "20 L^", "^20 L"}},
		{read[units.Temperature], []string{"25°5 C" /* 255 °C */, "2^5 °C", "25 °°C", "25 C^", "25 °", "°25 C"}},
		{read[units.Volume], []string{"2×20 L", "2/20 L", "1.5½ L", "1e3½ L", "½½ L", "- ½ L", "5½5 L", "½^2 L", "2¹⁄₂ L", "10⁴ L", "5 1/2 L", "2_0 L", "2-0 L", "2+2 L", "20 L*", "2.5.5 L", "5e L", "1e-400 L", "4.9e-324 mL", "1e400 L"}},
		{read[units.Fraction], []string{"1^0 %", "1² %", "10°%", "1e-324 %", "4.9e-324 %"}},
		{read[units.PracticalSalinity], []string{"3^5", "3²", "35°", "3*5 ppt"}},
		{read[units.AbsoluteSalinity], []string{"3^5 g/kg", "35 g°/kg"}},
		{read[units.SpecificGravity], []string{"1.0264^ 25/25 °C", "1.02³ 25/25 °C", "1.0264 2^5/25 °C", "1.0264 25/2^5 °C", "1.0264 25°5/25 °C", "1.0264+25/25 °C", "1.0264 25 °F/25 °C"}},
		{read[units.TDS], []string{"2^ ppm x0.5", "2 ppm x0.5^", "2 ppm x0.³", "2° ppm x0.5", "2 ppm x 0.5 x", "² ppm x0.5"}},
		{read[units.Money], []string{"20 E^UR", "20 °EUR", "2^0 EUR", "2*0 EUR"}},
		{read[units.Speed], []string{"5 ms/s"}},
		{read[units.Volume], []string{strings.Repeat("1", 1<<20) + " L", "1 " + strings.Repeat("L ", 1<<20)}},
	} {
		for _, in := range k.bad {
			got, err := k.read(in)
			assert.ErrorIs(t, err, units.ErrInput, "%.40q gave %s", in, got)
			if err != nil {
				assert.Less(t, len(err.Error()), 400, "%.40q", in)
			}
		}
	}
	for in, want := range map[string]string{"60°/60 °F": "1.025 60/60 °F", "60/60F": "1.025 60/60 °F", "20 / 4 °C": "1.025 20/4 °C"} {
		got, err := read[units.SpecificGravity]("1.025 " + in)
		assert.NoError(t, err, in)
		assert.Equal(t, want, got)
	}
	for in, want := range map[string]string{"25 ºC": "25 °C", "25 ° C": "25 °C", "−25°C": "-25 °C", "298.15 °K": "25 °C", " 25\tC\n": "25 °C"} {
		got, err := read[units.Temperature](in)
		assert.NoError(t, err, in)
		assert.Equal(t, want, got)
	}
	got, err := read[units.Alkalinity]("8 °dKH")
	assert.NoError(t, err)
	assert.Equal(t, units.DKH(8).String(), got)
}

// A temperature that nobody set is that after a trip through text too, and ice
// water stays ice water.
func TestUnsetTemperatureAsText(t *testing.T) {
	type tank struct{ A, B units.Temperature }
	out, err := json.Marshal(tank{B: units.Celsius(0)})
	require.NoError(t, err)
	assert.JSONEq(t, `{"A":null,"B":"0 °C"}`, string(out))
	var back tank
	require.NoError(t, json.Unmarshal(out, &back))
	assert.False(t, back.A.IsSet())
	assert.True(t, back.B.IsSet())
	assert.Empty(t, units.Temperature{}.String())
	require.NoError(t, json.Unmarshal([]byte(`{"A":null}`), &back))
	assert.False(t, back.A.IsSet())
}

// Refusing 16 MiB costs no memory of that size.
func TestRefusalIsCheap(t *testing.T) {
	for _, text := range []string{strings.Repeat("9", 1<<24), strings.Repeat("L ", 1<<23), strings.Repeat("\x00", 1<<24)} {
		in := []byte(text)
		for _, k := range kinds {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			_, err := k.read(text)
			runtime.ReadMemStats(&after)
			require.Error(t, err, k.name)
			require.Less(t, len(err.Error()), 1000, k.name)
			require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(len(in)*5/2), k.name)
		}
	}
}

// An error that is ignored must not look like an empty tank.
func TestRefusedTextLeavesNaN(t *testing.T) {
	v, _ := units.Parse[units.Volume]("5 gal")
	assert.True(t, math.IsNaN(v.Litres()))
	c, _ := units.Parse[units.Temperature]("25")
	assert.True(t, math.IsNaN(c.Celsius()))
	s, _ := units.Parse[units.PracticalSalinity]("35 g/kg")
	assert.True(t, math.IsNaN(s.Value()))
	a, _ := units.Parse[units.AbsoluteSalinity]("35")
	assert.True(t, math.IsNaN(a.GramsPerKilogram()))
	g, _ := units.Parse[units.SpecificGravity]("1.0264")
	assert.True(t, math.IsNaN(g.Ratio()))
	d, _ := units.Parse[units.TDS]("2 ppm")
	assert.True(t, math.IsNaN(d.PPM()))
	f, _ := units.Parse[units.Fraction]("10")
	assert.True(t, math.IsNaN(f.Percent()))
	m, _ := units.Parse[units.Money]("$5")
	assert.True(t, math.IsNaN(m.Amount))
}

func TestWhatCannotBeIsNotWritten(t *testing.T) {
	for _, q := range []encoding.TextMarshaler{
		units.Celsius(math.Inf(1)), units.Practical(-1), units.Absolute(-1), units.Absolute(1001), units.Celsius(-300),
		units.Money{Amount: 5}, units.Gravity(1.026, units.GravityPair{}), units.TDSReading(2, 0),
	} {
		_, err := q.MarshalText()
		assert.ErrorIs(t, err, units.ErrInput)
	}
}

func TestFlagsAndJSON(t *testing.T) {
	var in struct {
		Volume      units.Volume
		Temperature units.Temperature
		Salinity    units.PracticalSalinity
		Share       units.Fraction
	}
	set := flag.NewFlagSet("", flag.ContinueOnError)
	set.TextVar(&in.Volume, "volume", 10*units.Litre, "")
	require.NoError(t, set.Parse([]string{"-volume", "5 US gal"}))
	assert.Equal(t, 5*units.USGallon, in.Volume)

	require.NoError(t, json.Unmarshal([]byte(`{"Volume":"2 L","Temperature":"77 °F","Salinity":"35 ppt","Share":"29 %"}`), &in))
	assert.Equal(t, units.Celsius(25), in.Temperature)
	assert.Equal(t, units.Practical(35), in.Salinity)
	assert.Equal(t, units.Share(0.29), in.Share)
	out, err := json.Marshal(in)
	require.NoError(t, err)
	assert.JSONEq(t, `{"Volume":"2 L","Temperature":"25 °C","Salinity":"35 PSS-78","Share":"29 %"}`, string(out))
	assert.Error(t, json.Unmarshal([]byte(`{"Volume":"2"}`), &in))
}

func TestErrorsNameWhatWhereAndWhy(t *testing.T) {
	r := units.Range{Quantity: "temperature", Min: -2, Max: 40, Unit: "°C", Source: "UNESCO 1983"}
	for _, ok := range []float64{-2, 0, 40} {
		assert.NoError(t, r.Check(ok))
	}
	for _, bad := range []float64{-2.0001, 40.0001, math.NaN(), math.Inf(1), math.Inf(-1)} {
		err := r.Check(bad)
		var re *units.RangeError
		require.ErrorAs(t, err, &re)
		assert.ErrorIs(t, err, units.ErrRange)
		assert.NotErrorIs(t, err, units.ErrInput)
	}
	assert.EqualError(t, r.Check(45), "temperature: 45 °C is outside -2 to 40 °C (UNESCO 1983)")
	assert.EqualError(t, units.Range{Quantity: "practical salinity", Min: 2, Max: 42}.Check(1), "practical salinity: 1 is outside 2 to 42")
}

// What is written is read back to the same bits, whatever the number.
func FuzzRoundTrip(f *testing.F) {
	for _, x := range []float64{0, 1, 0.1, 0.29, -3, 1e-300, 1e300, 35.16504, 4.9e-324} {
		f.Add(x)
	}
	f.Fuzz(func(t *testing.T, x float64) {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return
		}
		same(t, units.AirPressure(x))
		same(t, units.MilliequivalentsPerLitre(x))
		same(t, units.AmountPerKilogram(x))
		same(t, units.AmountPerLitre(x))
		same(t, units.Area(x))
		same(t, units.Conductivity(x))
		same(t, units.Density(x))
		same(t, units.Energy(x))
		same(t, units.Flow(x))
		same(t, units.GaugePressure(x))
		same(t, units.Length(x))
		same(t, units.Mass(x))
		same(t, units.MassPerKilogram(x))
		same(t, units.MassPerLitre(x))
		same(t, units.MolarMass(x))
		same(t, units.Power(x))
		same(t, units.Resistivity(x))
		same(t, units.SeaPressure(x))
		same(t, units.SpecificHeat(x))
		same(t, units.Speed(x))
		same(t, units.TemperatureDifference(x))
		same(t, units.ThermalConductance(x))
		same(t, units.Voltage(x))
		same(t, units.Volume(x))
		same(t, units.Celsius(math.Mod(x, 200)))
		same(t, units.Fahrenheit(math.Mod(math.Round(x), 400)))
		same(t, units.TemperatureDifference(x*5/9))
		same(t, units.TemperatureDifference(math.Round(x))*units.FahrenheitDegree)
		if math.Abs(x) < 1e18 {
			same(t, units.Duration(x))
			same(t, units.Duration(math.Mod(x, 1e12)))
		}
		if math.Abs(x) < 1e300 { // a hundred times it is still a number
			same(t, units.Share(x))
		}
		if x >= -273.15 {
			same(t, units.Celsius(x))
		}
		if x >= 0 {
			same(t, units.Practical(x))
			same(t, units.Money{Amount: x, Currency: "EUR"})
		}
		if x >= 0 && x <= 1000 {
			same(t, units.Absolute(x))
		}
		if x > 0.9 && x < 1.3 {
			same(t, units.BareGravity(x))
			same(t, units.Gravity(x, units.SG60F()))
			same(t, units.Gravity(x, units.GravityPair{Liquid: units.Fahrenheit(math.Round(100 * x)), Water: units.Fahrenheit(39.2)}))
		}
		if x >= 0 {
			same(t, units.Ratio(x))
			same(t, units.ConductivityAt{Conductivity: units.Conductivity(x), Temperature: units.Fahrenheit(75)})
			same(t, units.TDSReading(x, 0.64))
		}
		if x >= 0.3 && x <= 1 {
			same(t, units.TDSReading(2, units.TDSScale(x)))
		}
	})
}

func same[Q comparable, P interface {
	*Q
	text
}](t *testing.T, q Q) {
	t.Helper()
	b, err := P(&q).MarshalText()
	require.NoError(t, err)
	back, err := units.Parse[Q, P](string(b))
	require.NoError(t, err)
	require.Equal(t, q, back, string(b))
}

// Any text at all ends in a finite value or a typed error.
func FuzzParse(f *testing.F) {
	for _, k := range kinds {
		for in := range k.accept {
			f.Add(in)
		}
		for _, in := range k.refuse {
			f.Add(in)
		}
	}
	f.Fuzz(func(t *testing.T, in string) {
		for _, k := range kinds {
			out, err := k.read(in)
			if err != nil {
				var bad *units.InputError
				require.ErrorAs(t, err, &bad, "%s %q", k.name, in)
				continue
			}
			again, err := k.read(out)
			require.NoError(t, err, "%s %q", k.name, in)
			require.Equal(t, out, again)
			wholly(t, k.name, in, out)
		}
	})
}

// leading is a number by another hand than that of the package; powers are the
// digits that units have.
var (
	leading = regexp.MustCompile(`^\x{feff}?[\s\v\p{Z}\x{85}]*[-+\x{2010}-\x{2014}−\x{fe63}\x{ff0d}]?` +
		`([0-9]*[\s\v\p{Z}\x{85}]*[½¼¾⅓⅔⅛⅜⅝⅞⅕⅖⅗⅘⅙⅚]|([0-9]+\.?[0-9]*|\.[0-9]+)([eE][-+\x{2010}-\x{2014}−\x{fe63}\x{ff0d}]?[0-9]+)?)`)
	powers = regexp.MustCompile(`(?i)(m|cm|in|ft|°F|°C)\^?[23²³]|caco[3₃³]|pss[\p{Pd}−]78`)
	minus  = regexp.MustCompile(`[\x{2010}-\x{2014}−\x{fe63}\x{ff0d}]`)
	parts  = map[string]float64{
		"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1. / 3, "⅔": 2. / 3, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875,
		"⅕": 0.2, "⅖": 0.4, "⅗": 0.6, "⅘": 0.8, "⅙": 1. / 6, "⅚": 5. / 6,
	}
)

// valueOf reads what leading finds.
func valueOf(number string) (float64, error) {
	number = minus.ReplaceAllString(strings.TrimSpace(strings.TrimPrefix(number, "\ufeff")), "-")
	for sign, part := range parts {
		if whole, is := strings.CutSuffix(number, sign); is {
			negative := strings.HasPrefix(whole, "-")
			ones, err := strconv.ParseFloat("0"+strings.TrimSpace(strings.TrimLeft(whole, "-+")), 64)
			if negative {
				return -ones - part, err
			}
			return ones + part, err
		}
	}
	return strconv.ParseFloat(number, 64)
}

// wholly checks that what was accepted is one number and one unit, of which nothing
// was left out and nothing moved into the number.
func wholly(t *testing.T, kind, in, out string) {
	if in == "" {
		require.Empty(t, out)
		return
	}
	number := leading.FindString(in)
	require.NotEmpty(t, number, "%s %q gave %s", kind, in, out)
	switch kind {
	case "specific gravity", "dissolved solids", "ratio", "time", "conductivity at a temperature": // more than one number
		return
	}
	unit := powers.ReplaceAllString(strings.TrimPrefix(in, number), "")
	require.NotRegexp(t, `[\p{N}^]`, unit, "%s %q gave %s", kind, in, out)
	if kind == "temperature" {
		return
	}
	want, err := valueOf(number)
	require.NoError(t, err)
	got, err := strconv.ParseFloat(leading.FindString(out), 64)
	require.NoError(t, err)
	require.Equal(t, math.Signbit(want) && want != 0, math.Signbit(got) && got != 0, "%s %q gave %s", kind, in, out)
	require.Equal(t, want == 0, got == 0, "%s %q gave %s", kind, in, out)
}

func BenchmarkParse(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		if _, err := units.Parse[units.Volume]("5 US gal"); err != nil {
			b.Fatal(err)
		}
	}
}
