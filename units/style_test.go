package units_test

import (
	"math"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// Values from the definitions: 82 US gal are 310.4 L, 60 °F 15.56 °C, 1 lb 453.6 g, 60 psi
// 4.137 bar, 29.92 inHg one atmosphere (NIST SP 811 B.8).
func TestStyle(t *testing.T) {
	unset := units.Temperature{}
	for _, r := range []struct {
		q                units.Quantity
		metric, us, both string
	}{
		{82 * units.USGallon, "310 L", "82 US gal", "82 US gal (310 L)"},
		{310.016 * units.Litre, "310 L", "81.9 US gal", "81.9 US gal (310 L)"},
		{2 * units.USGallon, "7.57 L", "2 US gal", "2 US gal (7.57 L)"},
		{units.USCup, "237 mL", "8 US fl oz", "8 US fl oz (237 mL)"},
		{12345.6 * units.Litre, "12346 L", "3261 US gal", "3261 US gal (12346 L)"},
		{0.9996 * units.Litre, "1 L", "0.264 US gal", "0.264 US gal (1 L)"},
		{units.Volume(0), "0 L", "0 US gal", "0 US gal (0 L)"},
		{-20 * units.Litre, "-20 L", "-5.28 US gal", "-5.28 US gal (-20 L)"},
		{units.Volume(math.NaN()), "?", "?", "?"},
		{units.Volume(1e16), "1e+16 L", "2.64e+15 US gal", "2.64e+15 US gal (1e+16 L)"},
		{units.Volume(1e-9), "1e-06 mL", "1e-06 mL", "1e-06 mL"},
		{units.Mass(0), "0 g", "0 lb", "0 lb (0 g)"},
		{units.MassPerLitre(0), "0 mg/L", "0 mg/L", "0 mg/L"},
		{0.1 * units.Ounce, "2.83 g", "0.1 oz", "0.1 oz (2.83 g)"},
		{units.Celsius(math.NaN()), "?", "?", "?"},
		{units.Gravity(math.NaN(), units.SG25C()), "?", "?", "?"},
		{units.TDSReading(math.NaN(), 0.5), "?", "?", "?"},
		{units.Money{Amount: math.NaN(), Currency: "EUR"}, "?", "?", "?"},
		{units.ConductivityAt{Conductivity: 53}, "53 mS/cm at ?", "53 mS/cm at ?", "53 mS/cm at ?"},
		{units.Volume(math.Inf(1)), "+Inf L", "+Inf US gal", "+Inf US gal (+Inf L)"},
		{units.Fahrenheit(60), "15.6 °C", "60 °F", "60 °F (15.6 °C)"},
		{units.Celsius(25), "25 °C", "77 °F", "77 °F (25 °C)"},
		{units.Celsius(-0.04), "0 °C", "31.9 °F", "31.9 °F (0 °C)"},
		{unset, "?", "?", "?"},
		{units.TemperatureDifference(9), "9 °C", "16.2 °F", "16.2 °F (9 °C)"},
		{2 * units.Pound, "907 g", "2 lb", "2 lb (907 g)"},
		{8 * units.Ounce, "227 g", "8 oz", "8 oz (227 g)"},
		{999.7 * units.Gram, "1 kg", "2.2 lb", "2.2 lb (1 kg)"},
		{1.75 * units.Kilogram, "1.75 kg", "3.86 lb", "3.86 lb (1.75 kg)"},
		{50 * units.Milligram, "50 mg", "50 mg", "50 mg"},
		{16 * units.Inch, "40.6 cm", "16 in", "16 in (40.6 cm)"},
		{12 * units.Metre, "12 m", "39.4 ft", "39.4 ft (12 m)"},
		{units.Area(0.6), "0.6 m²", "6.46 sq ft", "6.46 sq ft (0.6 m²)"},
		{75 * units.USGallonPerDay, "11.8 L/h", "75 US gal/day", "75 US gal/day (11.8 L/h)"},
		{2000 * units.LitrePerHour, "2000 L/h", "528 US gal/h", "528 US gal/h (2000 L/h)"},
		{2 * units.MillilitrePerMinute, "2 mL/min", "0.761 US gal/day", "0.761 US gal/day (2 mL/min)"},
		{60 * units.PSIGauge, "4.14 bar", "60 psi", "60 psi (4.14 bar)"},
		{units.Atmosphere, "1013 hPa", "29.92 inHg", "29.92 inHg (1013 hPa)"},
		{units.Percent(20), "20 %", "20 %", "20 %"},
		{units.Share(0.2 - 1e-9), "20 %", "20 %", "20 %"},
		{units.Percent(0.07), "0.07 %", "0.07 %", "0.07 %"},
		{units.Ratio(3), "3:1", "3:1", "3:1"},
		{units.Practical(35.1649), "35.2 ppt", "35.2 ppt", "35.2 ppt"},
		{units.Absolute(35.16504), "35.2 g/kg", "35.2 g/kg", "35.2 g/kg"},
		{units.Gravity(1.02641, units.SG60F()), "1.0264 60/60 °F", "1.0264 60/60 °F", "1.0264 60/60 °F"},
		{units.SpecificGravity{}, "?", "?", "?"},
		{units.BareGravity(1.02641), "1.0264 SG", "1.0264 SG", "1.0264 SG"},
		{units.TDSReading(2.25, 0.5), "2.25 ppm x0.5", "2.25 ppm x0.5", "2.25 ppm x0.5"},
		{units.TDS{}, "?", "?", "?"},
		{53.0649 * units.MillisiemensPerCentimetre, "53.1 mS/cm", "53.1 mS/cm", "53.1 mS/cm"},
		{5 * units.MicrosiemensPerCentimetre, "5 µS/cm", "5 µS/cm", "5 µS/cm"},
		{units.ConductivityAt{Conductivity: 53, Temperature: units.Celsius(25)}, "53 mS/cm at 25 °C", "53 mS/cm at 77 °F", "53 mS/cm at 77 °F (25 °C)"},
		{units.ConductivityAt{}, "?", "?", "?"},
		{units.Resistivity(18.2), "18.2 MΩ·cm", "18.2 MΩ·cm", "18.2 MΩ·cm"},
		{units.Density(1023.343), "1023.3 kg/m³", "1023.3 kg/m³", "1023.3 kg/m³"},
		{units.DKH(8.2), "8.2 dKH", "8.2 dKH", "8.2 dKH"},
		{units.MassPerLitre(1305.4), "1305 mg/L", "1305 mg/L", "1305 mg/L"},
		{units.MassPerLitre(0.0301), "0.0301 mg/L", "0.0301 mg/L", "0.0301 mg/L"},
		{units.MassPerLitre(0.003), "3 µg/L", "3 µg/L", "3 µg/L"},
		{units.MassPerKilogram(19350), "19.4 g/kg", "19.4 g/kg", "19.4 g/kg"},
		{units.AmountPerKilogram(2300), "2300 µmol/kg", "2300 µmol/kg", "2300 µmol/kg"},
		{units.AmountPerKilogram(469000), "469 mmol/kg", "469 mmol/kg", "469 mmol/kg"},
		{units.AmountPerLitre(0.02), "20 µmol/L", "20 µmol/L", "20 µmol/L"},
		{units.MolarMass(58.44), "58.44 g/mol", "58.44 g/mol", "58.44 g/mol"},
		{units.SeaPressure(10), "10 dbar", "10 dbar", "10 dbar"},
		{1.2 * units.KilowattHour, "1.2 kWh", "1.2 kWh", "1.2 kWh"},
		{500 * units.WattHour, "0.5 kWh", "0.5 kWh", "0.5 kWh"},
		{50 * units.WattHour, "50 Wh", "50 Wh", "50 Wh"},
		{100 * units.Joule, "100 J", "100 J", "100 J"},
		{units.Power(300), "300 W", "300 W", "300 W"},
		{units.Power(1200), "1.2 kW", "1.2 kW", "1.2 kW"},
		{200 * units.KilohmCentimetre, "200 kΩ·cm", "200 kΩ·cm", "200 kΩ·cm"},
		{units.AmountPerLitre(0.2), "0.2 mmol/L", "0.2 mmol/L", "0.2 mmol/L"},
		{20 * units.USGallonPerHour, "75.7 L/h", "20 US gal/h", "20 US gal/h (75.7 L/h)"},
		{units.MolarMass(62.00494), "62.005 g/mol", "62.005 g/mol", "62.005 g/mol"},
		{units.Ratio(0.0005), "0.0005:1", "0.0005:1", "0.0005:1"},
		{units.ThermalConductance(3.5), "3.5 W/K", "3.5 W/K", "3.5 W/K"},
		{units.SpecificHeat(3994.2), "3994 J/(kg·K)", "3994 J/(kg·K)", "3994 J/(kg·K)"},
		{units.Speed(1533.4), "1533 m/s", "1533 m/s", "1533 m/s"},
		{units.Voltage(-58.2), "-58.2 mV", "-58.2 mV", "-58.2 mV"},
		{units.Money{Amount: 18.5, Currency: "EUR"}, "18.50 EUR", "18.50 EUR", "18.50 EUR"},
		{units.Money{}, "?", "?", "?"},
		{units.Duration(47 * time.Minute), "47 min", "47 min", "47 min"},
		{nil, "?", "?", "?"},
	} {
		assert.Equal(t, r.metric, units.Metric.Format(r.q))
		assert.Equal(t, r.us, units.US.Format(r.q))
		assert.Equal(t, r.both, units.Both.Format(r.q))
	}
}

func TestTimesForPeople(t *testing.T) {
	for _, r := range []struct {
		d     time.Duration
		style string // rounded
		exact string
	}{
		{47 * time.Minute, "47 min", "47 min"},
		{6*time.Hour + 35*time.Minute, "6 h 35 min", "6 h 35 min"},
		{72 * time.Hour, "3 days", "3 days"},
		{24 * time.Hour, "1 day", "1 day"},
		{36 * time.Hour, "1 day 12 h", "1 day 12 h"},
		{0, "0 s", "0 s"},
		{time.Second, "1 s", "1 s"},
		{59*time.Minute + 40*time.Second, "1 h", "59 min 40 s"},
		{24*time.Hour - time.Second, "1 day", "23 h 59 min 59 s"},
		{240*time.Hour - time.Minute, "10 days", "9 days 23 h 59 min"},
		{90 * time.Second, "1 min 30 s", "1 min 30 s"},
		{1500 * time.Millisecond, "2 s", "1.5 s"},
		{500 * time.Millisecond, "0.5 s", "0.5 s"},
		{time.Nanosecond, "0 s", "0.000000001 s"},
		{400*24*time.Hour + 5*time.Hour, "400 days", "400 days 5 h"},
		{-47 * time.Minute, "-47 min", "-47 min"},
		{1<<63 - 1, "106751 days 23 h 47 min 16.854775807 s", "106751 days 23 h 47 min 16.854775807 s"},
		{-1 << 63, "?", "NaN s"},
	} {
		assert.Equal(t, r.style, units.Both.Format(units.Duration(r.d)))
		assert.Equal(t, r.exact, units.Duration(r.d).String())
		back, err := units.Parse[units.Duration](r.exact)
		assert.Equal(t, r.d == -1<<63, err != nil)
		assert.Equal(t, units.Duration(r.d), back)
	}
	d, err := units.Parse[units.Duration]("5 m")
	assert.EqualError(t, err, `time: got "5 m", want "min" for minutes or "months"`)
	assert.Negative(t, d, "an ignored error cannot pass for no time")
	require.NoError(t, d.UnmarshalText(nil))
	assert.Negative(t, d)
}

// No more digits than one can act on, and never a nought of a unit beside another.
func TestStyleKeepsToSensibleDigits(t *testing.T) {
	digits := regexp.MustCompile(`\d+(\.\d+)?`)
	for x := 1.; x < 1e7; x *= 1.0371 {
		for s := units.Metric; s <= units.Both; s++ {
			for _, q := range []units.Quantity{units.Volume(x), units.Mass(x), units.Flow(x), units.Length(x), units.MassPerLitre(x)} {
				for _, number := range digits.FindAllStringSubmatch(s.Format(q), -1) {
					assert.LessOrEqual(t, len(number[0]), max(4, len("0.123"), len(number[0])-len(number[1])), s.Format(q))
					assert.LessOrEqual(t, len(number[1]), 4, s.Format(q))
				}
			}
			assert.NotRegexp(t, `^0 (h|min|days?) |\b0 (h|min|s)$|\b60 (s|min)|\b24 h`, s.Format(units.Duration(x*1e9)), "%v", x)
		}
	}
}

func TestStyleAsText(t *testing.T) {
	for in, want := range map[string]units.Style{"metric": units.Metric, "us": units.US, "US": units.US, " Both ": units.Both} {
		s, err := units.Parse[units.Style](in)
		assert.NoError(t, err)
		assert.Equal(t, want, s)
		text, err := s.MarshalText()
		assert.NoError(t, err)
		assert.Equal(t, s.String(), string(text))
	}
	s, err := units.Parse[units.Style]("imperial")
	assert.EqualError(t, err, `style of units: got "imperial", want "metric", "US" or "both"`)
	_, err = s.MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	assert.Equal(t, "no style", s.String())
	assert.Equal(t, "310 L", units.Style(0).Format(82*units.USGallon))
}

func TestStyleAllocatesNothing(t *testing.T) {
	buffer := make([]byte, 0, 128)
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		buffer = units.Both.Append(buffer[:0], 82*units.USGallon)
		buffer = units.Both.Append(buffer, units.Fahrenheit(78))
		buffer = units.Both.Append(buffer, units.Percent(20))
		buffer = units.Both.Append(buffer, units.Gravity(1.0264, units.SG60F()))
		buffer = units.Both.Append(buffer, units.Duration(47*time.Minute))
		buffer = units.Both.Append(buffer, units.Money{Amount: 5, Currency: "EUR"})
	}))
	assert.Equal(t, "82 US gal (310 L)78 °F (25.6 °C)20 %1.0264 60/60 °F47 min5.00 EUR", string(buffer))
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		buffer, _ = units.Duration(6*time.Hour + 35*time.Minute).AppendText(buffer[:0])
		buffer, _ = units.Ratio(3).AppendText(buffer)
		buffer, _ = units.Fahrenheit(60).AppendText(buffer)
	}))
}

// Every kind has a face: no quantity of the package prints as unknown.
func TestEveryKindHasAFace(t *testing.T) {
	for _, q := range everyKind {
		for s := units.Metric; s <= units.Both; s++ {
			assert.NotContains(t, s.Format(q), "?", units.Kind(q))
			assert.Regexp(t, `^-?[0-9]`, s.Format(q), units.Kind(q))
		}
	}
}

func BenchmarkStyle(b *testing.B) {
	b.ReportAllocs()
	var buffer []byte
	for b.Loop() {
		buffer = units.Both.Append(buffer[:0], 82*units.USGallon)
	}
}
