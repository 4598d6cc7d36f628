package units_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

// everyKind has one of each quantity, of a value that is written.
var everyKind = []units.Quantity{
	units.Absolute(35.2), units.AirPressure(1013), units.DKH(8), units.AmountPerKilogram(2300), units.AmountPerLitre(10), units.Area(0.6), units.BareGravity(1.026),
	units.Conductivity(53), units.ConductivityAt{Conductivity: 53, Temperature: units.Celsius(25)}, units.Density(1023.3), units.Duration(36 * time.Hour), units.Energy(3.6e6),
	units.Flow(8), units.Percent(20), units.GaugePressure(4), units.Length(400), units.Mass(750), units.MassPerKilogram(412), units.MassPerLitre(5), units.MolarMass(58.44),
	units.Money{Amount: 18.5, Currency: "EUR"}, units.Power(300), units.Practical(35), units.Ratio(3), units.Resistivity(18.2), units.SeaPressure(10),
	units.Gravity(1.0264, units.SG25C()), units.SpecificHeat(3990), units.Speed(1530), units.TDSReading(2, 0.5), units.Celsius(25), units.TemperatureDifference(2),
	units.ThermalConductance(3.5), units.Voltage(-58.2), units.Volume(20),
}

// Each kind has a name of its own, and what it writes is read as it, alone and among others.
func TestReadAnyReadsEveryKind(t *testing.T) {
	names := map[string]bool{}
	for _, q := range everyKind {
		name := units.Kind(q)
		assert.NotEmpty(t, name)
		assert.False(t, names[name], name)
		names[name] = true
		text, err := q.MarshalText()
		require.NoError(t, err, name)
		back, err := units.ReadAny(string(text), q)
		if assert.NoError(t, err, "%s %q", name, text) {
			assert.Equal(t, q, back)
		}
		back, err = units.ReadAny(string(text), nil, units.Money{}, q)
		assert.NoError(t, err, "%s %q", name, text)
		assert.Equal(t, q, back)
		back, err = units.ReadAny(string(text))
		switch unit := string(text); {
		case strings.HasSuffix(unit, " bar"), strings.HasSuffix(unit, " g/kg"): // of what?
			assert.ErrorIs(t, err, units.ErrInput, text)
		case name == "temperature difference":
			assert.NotEqual(t, name, units.Kind(back), "asked for or not at all")
		default:
			assert.NoError(t, err, text)
			assert.Equal(t, q, back)
		}
	}
	assert.Empty(t, units.Kind(nil))
}

func TestReadAny(t *testing.T) {
	for in, want := range map[string]string{
		"5 US gal": "volume: 18.92705892 L", "25 ℃": "temperature: 25 °C", "60 °F": "temperature: 60 °F", "20 %": "fraction: 20 %", "3:1": "ratio: 3:1", "14d": "time: 14 days",
		"6 h 35 min": "time: 6 h 35 min", "1.026 SG": "specific gravity without its pair of temperatures: 1.026 SG", "1.0264 25/25 °C": "specific gravity: 1.0264 25/25 °C",
		"53 mS/cm at 25 °C": "conductivity at a temperature: 53 mS/cm at 25 °C", "53 mS/cm": "conductivity: 53 mS/cm", "35 PSU": "practical salinity: 35 PSS-78", "4 barg": "gauge pressure: 4 bar",
		"60 PSI": "gauge pressure: 4.1368543759010175 bar", "14.7 psia": "air pressure: 1013.529322095749 hPa", "101325 Pa": "air pressure: 1013.25 hPa", "10 dbar": "sea pressure: 10 dbar",
		"0.3 g/L x0.5": "dissolved solids: 300 ppm x0.5", "18.50 EUR": "price: 18.5 EUR", "10 US gal/min": "flow: 2271.2470704 L/h", "5 MG/L": "mass per litre: 5 mg/L",
	} {
		q, err := units.ReadAny(in)
		if assert.NoError(t, err, in) {
			assert.Equal(t, want, units.Kind(q)+": "+q.String(), in)
		}
	}
}

// What is several things, or nothing, is refused with what to write.
func TestReadAnySaysWhatIsAmbiguous(t *testing.T) {
	for in, want := range map[string]string{
		"35 ppt":     `quantity: got "35 ppt", want it said of what: a practical salinity, "35 PSS-78", or an absolute one, "35 g/kg"`,
		"35 ‰":       "a practical salinity",
		"35.2 g/kg":  "want it said of what: an absolute salinity or a mass per kilogram",
		"4 bar":      "want it said of what: an air pressure, a gauge pressure or a sea pressure",
		"10 kPa":     "want it said of what: an air pressure, a gauge pressure or a sea pressure",
		"1 g/L":      "want it said of what: a density or a mass per litre",
		"5 ppm":      `"146 ppm CaCO3", or a dissolved-solids reading, "2 ppm x0.5"`,
		"5 PPM":      "a concentration",
		"5 ppb":      `"5 ug/L" or "5 ug/kg"`,
		"8 oz":       "a mass",
		"8 fl oz":    `volume: got "8 fl oz", want "US fl oz" (29.57 mL) or "imp fl oz" (28.41 mL)`,
		"5 m":        `"metre" for a length or "min" for a time`,
		"5 gal":      `volume: got "5 gal", want "US gal" (3.785 L) or "imp gal" (4.546 L)`,
		"5 GAL":      `volume: got "5 GAL", want "US gal" (3.785 L) or "imp gal" (4.546 L)`,
		"75 gpd":     `flow: got "75 gpd", want "US gal/day" or the flow in litres`,
		"20 ML":      `volume: got "20 ML", want "mL" in just these letters: m is a thousandth, M a million`,
		"35":         `want its unit too`,
		"1.026":      `"1.026 SG"`,
		"20,5 L":     "a point for decimals",
		"1/2 US gal": `a decimal such as "0.5", or "½"`,
		"10³ L":      "one number and one unit",
		"-5 EUR":     "an amount with a currency code",
		"":           "a number with its unit",
		" ":          "a number with its unit",
		"warm":       "a number with its unit",
		"20 fathoms": "a number with its unit",
		"NaN L":      "a number with its unit",
		"-300 °C":    "a temperature above absolute zero",
	} {
		q, err := units.ReadAny(in)
		assert.Nil(t, q, in)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.ErrorContains(t, err, want)
	}
}

// Where it is known what is asked for, that decides, and the error names just that.
func TestReadAnyAmong(t *testing.T) {
	for _, r := range []struct {
		in    string
		among []units.Quantity
		want  units.Quantity
	}{
		{"35 ppt", []units.Quantity{units.PracticalSalinity{}, units.BareGravity(0)}, units.Practical(35)},
		{"35", []units.Quantity{units.PracticalSalinity{}, units.BareGravity(0)}, units.Practical(35)},
		{"35.2 g/kg", []units.Quantity{units.PracticalSalinity{}, units.AbsoluteSalinity{}}, units.Absolute(35.2)},
		{"20 %", []units.Quantity{units.Volume(0), units.Fraction{}}, units.Percent(20)},
		{"3:1", []units.Quantity{units.Ratio(0), units.Fraction{}}, units.Ratio(3)},
		{"8 oz", []units.Quantity{units.Mass(0)}, 8 * units.Ounce},
		{"5 m", []units.Quantity{units.Length(0)}, 5 * units.Metre},
		{"4 bar", []units.Quantity{units.GaugePressure(0)}, 4 * units.BarGauge},
		{"1 °C", []units.Quantity{units.TemperatureDifference(0)}, units.CelsiusDegree},
	} {
		got, err := units.ReadAny(r.in, r.among...)
		assert.NoError(t, err, r.in)
		assert.Equal(t, r.want, got, r.in)
	}
	_, err := units.ReadAny("20 kg", units.Volume(0), units.Fraction{})
	assert.EqualError(t, err, `quantity: got "20 kg", want a fraction such as "10 %" or a volume such as "20 L" or "5 US gal"`)
	_, err = units.ReadAny("1 °C", units.Temperature{}, units.TemperatureDifference(0))
	assert.ErrorContains(t, err, "it said of what: a temperature or a temperature difference")
	_, err = units.ReadAny("1.025", units.PracticalSalinity{}, units.BareGravity(0))
	assert.ErrorContains(t, err, "looks like a specific gravity")
	_, err = units.ReadAny("5 ppm", units.MassPerLitre(0), units.MassPerKilogram(0))
	assert.ErrorContains(t, err, `want a mass per kilogram such as "420 mg/kg" or a mass per litre such as "5 mg/L"`)
	_, err = units.ReadAny("20 L", nil)
	assert.ErrorIs(t, err, units.ErrInput, "none of the kinds is one")
}

// A quantity that is read costs the quantity, and a text that is none not more than its error.
func TestReadAnyAllocates(t *testing.T) {
	for in, most := range map[string]float64{"5 US gal": 1, "25 °C": 1, "½ imp pint": 1, "10 gal (US)/min": 1, "760 MMHG": 1, "2 weeks": 4} {
		assert.LessOrEqual(t, testing.AllocsPerRun(100, func() {
			if _, err := units.ReadAny(in); err != nil {
				t.Fatal(err)
			}
		}), most, in)
	}
	long := strings.Repeat("9 L ", 1<<22)
	_, err := units.ReadAny(long)
	assert.Less(t, len(err.Error()), 400)
}

func TestBareGravity(t *testing.T) {
	g := units.BareGravity(1.0268)
	assert.Equal(t, 1.0268, g.Ratio())
	assert.Equal(t, units.Gravity(1.0268, units.SG60F()), g.At(units.SG60F()))
	for _, x := range []units.BareGravity{0, 26.4, 1026, -1, units.BareGravity(math.Inf(1))} {
		_, err := x.MarshalText()
		assert.ErrorIs(t, err, units.ErrInput, x)
	}
}

func TestRatio(t *testing.T) {
	assert.Equal(t, units.Percent(75), units.Ratio(3).Share())
	assert.Equal(t, units.Share(0.5), units.Ratio(1).Share())
	for _, x := range []units.Ratio{-1, units.Ratio(math.Inf(1))} {
		_, err := x.MarshalText()
		assert.ErrorIs(t, err, units.ErrInput, x)
	}
}

func TestConductivityAt(t *testing.T) {
	for _, c := range []units.ConductivityAt{{Conductivity: 53}, {Temperature: units.Celsius(25), Conductivity: units.Conductivity(math.Inf(1))}, {Conductivity: 53, Temperature: units.Celsius(math.NaN())},
		{Conductivity: 53, Temperature: units.Celsius(math.Inf(1))}, {Conductivity: 53, Temperature: units.Celsius(-300)}} {
		text, err := c.MarshalText()
		assert.ErrorIs(t, err, units.ErrInput, c)
		assert.Empty(t, text)
		assert.NotEmpty(t, c.String())
	}
	c, err := units.Parse[units.ConductivityAt]("53 mS/cm")
	assert.EqualError(t, err, `conductivity: got "53 mS/cm", want a conductivity with its temperature such as "53 mS/cm at 25 °C"`)
	assert.True(t, math.IsNaN(float64(c.Conductivity)))
	_, err = units.Parse[units.ConductivityAt]("53 mS/cm at 25")
	assert.ErrorContains(t, err, `want a temperature such as`)
}

// What was typed in °F or % is the same number again, in text and in the accessor. 5/9 and 32
// by NIST SP 811 B.8.
func TestNumbersAreAsTheyWereTyped(t *testing.T) {
	for n := -4000; n <= 4000; n++ {
		f := float64(n) / 10
		assert.Equal(t, f, units.Fahrenheit(f).Fahrenheit())
		assert.InDelta(t, (f-32)*5/9, units.Fahrenheit(f).Celsius(), 1e-13)
		assert.Equal(t, f, (units.TemperatureDifference(f) * units.FahrenheitDegree).FahrenheitDegrees())
		assert.Equal(t, f, units.Percent(f).Percent())
		if written := units.Fahrenheit(f).String(); f > -459.67 {
			assert.LessOrEqual(t, len(written), len("-459.6 °F")+1, written)
			back, err := units.Parse[units.Temperature](written)
			assert.NoError(t, err)
			assert.Equal(t, units.Fahrenheit(f), back)
		}
		assert.LessOrEqual(t, len(units.Percent(f).String()), len("-400.0 %"), units.Percent(f))
		c := units.Celsius(f)
		assert.Equal(t, f, c.Celsius())
		assert.Contains(t, c.String(), " °C", "as it was typed")
	}
	for _, x := range []float64{100. / 3, 12.3456789, 1e-300, 3e9, 1e300, -200. / 7} {
		assert.Equal(t, x/100, units.Percent(x).Value(), "%v has no short text", x)
		assert.InEpsilon(t, x, units.Percent(x).Percent(), 1e-15)
	}
	assert.InDelta(t, 59.00018, units.Celsius(15.0001).Fahrenheit(), 1e-12)
	assert.True(t, math.IsNaN(units.Celsius(math.NaN()).Fahrenheit()))
	assert.True(t, math.IsNaN(units.TemperatureDifference(math.NaN()).FahrenheitDegrees()))
	assert.True(t, math.IsNaN(units.Share(math.NaN()).Percent()))
	assert.True(t, math.IsInf(units.Share(math.Inf(1)).Percent(), 1))
}

// Every fraction that is one sign, by itself and after a whole number.
func TestFractionsOfOneSign(t *testing.T) {
	assert.Len(t, parts, 15)
	for sign, part := range parts {
		v, err := units.Parse[units.Volume](sign + " L")
		assert.NoError(t, err, sign)
		assert.Equal(t, part, v.Litres(), sign)
		v, err = units.Parse[units.Volume]("-12" + sign + " L")
		assert.NoError(t, err, sign)
		assert.InEpsilon(t, -12-part, v.Litres(), 1e-15, sign)
		share, err := units.Parse[units.Fraction](sign + " %")
		assert.NoError(t, err, sign)
		assert.InEpsilon(t, part/100, share.Value(), 3e-16, sign)
	}
}

// Nothing is nothing, without a sign, however it was made or typed.
func TestMinusZeroIsZero(t *testing.T) {
	minus := math.Copysign(0, -1)
	read := func(f units.Fraction, err error) float64 { assert.NoError(t, err); return f.Value() }
	for i, x := range []float64{
		units.Share(minus).Value(), units.Percent(minus).Value(), read(units.Parse[units.Fraction]("-0 %")), units.Practical(minus).Value(), units.Absolute(minus).GramsPerKilogram(),
		units.DKH(minus).MilliequivalentsPerLitre(), units.PPMCaCO3(minus).PPMCaCO3(), units.MilliequivalentsPerLitre(minus).DKH(), units.Celsius(minus).Celsius(),
	} {
		assert.False(t, math.Signbit(x), i)
	}
	r, err := units.Parse[units.Ratio]("-0:1")
	assert.NoError(t, err)
	assert.Equal(t, "0:1", r.String())
	text, _ := units.Ratio(minus).MarshalText()
	assert.Equal(t, "0:1", string(text))
	assert.Equal(t, "0 L", units.Metric.Format(units.Volume(minus)))
}

// What is unknown or cannot be written leaves what stands in the buffer already.
func TestAppendTextKeepsWhatStandsBefore(t *testing.T) {
	nan := math.NaN()
	for _, q := range []units.Quantity{
		units.Volume(nan), units.Duration(math.MinInt64), units.Ratio(nan), units.Ratio(-1), units.ConductivityAt{}, units.ConductivityAt{Conductivity: 53}, units.Money{}, units.Money{Amount: -1},
		units.SpecificGravity{}, units.Gravity(1.02, units.GravityPair{}), units.TDS{}, units.TDSReading(1, 0), units.Temperature{}, units.Celsius(-300), units.BareGravity(nan), units.BareGravity(3),
		units.Share(nan), units.Share(math.Inf(1)), units.Practical(-1), units.Absolute(2000),
	} {
		text, err := q.AppendText([]byte("so: "))
		assert.Equal(t, "so: ", string(text), units.Kind(q))
		text, again := q.MarshalText()
		assert.Empty(t, text)
		assert.Equal(t, err == nil, again == nil, units.Kind(q))
	}
	for _, q := range everyKind {
		text, err := q.AppendText([]byte("so: "))
		assert.NoError(t, err)
		assert.Equal(t, "so: "+q.String(), string(text))
	}
}

func FuzzReadAny(f *testing.F) {
	for _, k := range kinds {
		for in := range k.accept {
			f.Add(in)
		}
		for _, in := range k.refuse {
			f.Add(in)
		}
	}
	f.Fuzz(func(t *testing.T, in string) {
		q, err := units.ReadAny(in)
		if err != nil {
			var bad *units.InputError
			require.ErrorAs(t, err, &bad)
			require.Nil(t, q)
			require.Less(t, len(err.Error()), 1000)
			return
		}
		text, err := q.MarshalText()
		require.NoError(t, err)
		require.Equal(t, q.String(), string(text))
		again, err := units.ReadAny(string(text), q)
		require.NoError(t, err, "%q gave %q", in, text)
		require.Equal(t, q, again)
		for s := units.Metric; s <= units.Both; s++ {
			require.NotContains(t, s.Format(q), "?")
			require.NotContains(t, s.Format(q), "NaN")
		}
	})
}

func BenchmarkReadAny(b *testing.B) {
	for _, text := range []string{"5 US gal", "1.0264 25/25 °C", "6 h 35 min", "35 ppt"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = units.ReadAny(text)
			}
		})
	}
}
