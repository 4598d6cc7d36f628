package units

import "math"

// Temperature is a temperature on the International Temperature Scale of
// 1990 (ITS-90), in situ. It is made by Celsius, Fahrenheit or Kelvin, so a
// bare number does not compile, and it is kept in degrees Celsius because a
// trip through kelvin would change the last digits of most readings.
//
// The zero value counts as 0 °C in formulas, but it remembers that nobody set
// it ([Temperature.IsSet]), so that planners can refuse a field that was
// forgotten instead of planning for ice water. As text it is empty, both ways.
type Temperature struct {
	// A freezing point that was set is kept as minus zero, which equals the
	// plus zero of the zero value in every sum and comparison.
	celsius float64
}

// Celsius returns the temperature of t degrees Celsius.
func Celsius(t float64) Temperature {
	if t == 0 {
		t = math.Copysign(0, -1)
	}
	return Temperature{t}
}

// IsSet tells whether the temperature was made by a constructor or read from
// text, 0 °C included, and is not just the zero value.
func (t Temperature) IsSet() bool { return t.celsius != 0 || math.Signbit(t.celsius) }

// Fahrenheit returns the temperature of t degrees Fahrenheit:
// t/°C = (t/°F - 32) / 1.8 (NIST SP 811, appendix B.8).
func Fahrenheit(t float64) Temperature { return Celsius((t - 32) / 1.8) }

// Kelvin returns the temperature of t kelvin: t/°C = T/K - 273.15.
func Kelvin(t float64) Temperature { return Celsius(t - zeroCelsius) }

const zeroCelsius = 273.15 // K, by definition of the Celsius scale

// Celsius returns the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return t.celsius + 0 } // minus zero becomes zero

// Fahrenheit returns the temperature in degrees Fahrenheit: 60 of what was made of 60, to
// the last bit.
func (t Temperature) Fahrenheit() float64 {
	x := float64(t.celsius*1.8) + 32
	if short := math.Round(x*1e6) / 1e6; Fahrenheit(short).celsius == t.celsius {
		return short
	}
	return x
}

// isFahrenheit tells a temperature that has a short number in degrees Fahrenheit, with one
// decimal at most, and none in degrees Celsius.
func (t Temperature) isFahrenheit() bool {
	f := t.Fahrenheit()
	return !isShort(t.celsius) && isShort(f) && Fahrenheit(f).celsius == t.celsius
}

// isShort tells what is written with one decimal at most.
func isShort(x float64) bool { return math.Round(x*10)/10 == x }

// Kelvin returns the temperature in kelvin.
func (t Temperature) Kelvin() float64 { return t.celsius + zeroCelsius }

// Add returns the temperature that is d warmer.
func (t Temperature) Add(d TemperatureDifference) Temperature {
	return Celsius(t.celsius + float64(d))
}

// Sub returns how much warmer t is than u.
func (t Temperature) Sub(u Temperature) TemperatureDifference {
	return TemperatureDifference(t.celsius - u.celsius)
}

var temperatureUnits = table{
	quantity: "temperature", base: "°C", example: `"25 °C" or "77 °F"`,
	units: []unit{
		{names: "°C|C|degC|deg C|degree C|degrees C|celsius|degree celsius|degrees celsius", size: 1},
		{
			names: "°F|F|degF|deg F|degree F|degrees F|fahrenheit|degree fahrenheit|degrees fahrenheit",
			size:  1, per: 1.8, zero: 32,
		},
		{names: "K|°K|kelvin", size: 1, zero: zeroCelsius},
	},
	limit: func(celsius float64, _ bool) string {
		if celsius < -zeroCelsius {
			return aboveZero
		}
		return ""
	},
}

const aboveZero = "a temperature above absolute zero"

// UnmarshalText reads "25 °C", "77 °F", "298.15 K"; the degree sign may be
// left out, the letter may not. An empty text is a temperature that nobody set.
func (t *Temperature) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*t = Temperature{}
		return nil
	}
	x, err := temperatureUnits.read(string(text))
	*t = Celsius(x)
	return err
}

// String writes the temperature, as MarshalText does.
func (t Temperature) String() string {
	switch {
	case !t.IsSet():
		return ""
	case t.isFahrenheit():
		return withUnit(t.Fahrenheit(), "°F")
	}
	return withUnit(t.Celsius(), "°C")
}

// MarshalText writes "25 °C", "60 °F" where the number in degrees Celsius has no end, and
// nothing for a temperature that nobody set or NaN; reading that gives the same
// Temperature back.
func (t Temperature) MarshalText() ([]byte, error) {
	return t.AppendText(nil)
}

// AppendText appends what MarshalText writes.
func (t Temperature) AppendText(text []byte) ([]byte, error) {
	if t.celsius < -zeroCelsius {
		return text, &InputError{"temperature", t.String(), aboveZero}
	}
	switch {
	case !t.IsSet():
		return text, nil
	case t.isFahrenheit():
		return appendQuantity(text, "temperature", t.Fahrenheit(), "°F")
	}
	return appendQuantity(text, "temperature", t.Celsius(), "°C")
}

// TemperatureDifference is the distance between two temperatures, in
// kelvin. It has no zero point, so 1 °F of difference is 5/9 K, never
// -17.2 °C.
type TemperatureDifference float64

// Units of TemperatureDifference.
const (
	CelsiusDegree    TemperatureDifference = 1
	FahrenheitDegree TemperatureDifference = 5. / 9
)

// CelsiusDegrees returns the difference in degrees Celsius, that is kelvin.
func (d TemperatureDifference) CelsiusDegrees() float64 { return float64(d) }

// FahrenheitDegrees returns the difference in degrees Fahrenheit: 3 of what was made of 3,
// to the last bit.
func (d TemperatureDifference) FahrenheitDegrees() float64 {
	x := float64(d) * 1.8
	if short := math.Round(x*1e6) / 1e6; TemperatureDifference(short)*FahrenheitDegree == d {
		return short
	}
	return x
}

// isFahrenheit tells a difference that has a short number in degrees Fahrenheit alone.
func (d TemperatureDifference) isFahrenheit() bool {
	f := d.FahrenheitDegrees()
	return !isShort(float64(d)) && isShort(f) && TemperatureDifference(f)*FahrenheitDegree == d
}

var temperatureDifferenceUnits = table{
	quantity: "temperature difference", base: "K", example: `"0.5 °C", "1 °F" or "0.5 K"`,
	units: []unit{
		{names: "K|°C|C|degC|deg C|degree C|degrees C|kelvin|celsius|degree celsius|degrees celsius", size: 1},
		{
			names: "°F|F|degF|deg F|degree F|degrees F|fahrenheit|degree fahrenheit|degrees fahrenheit",
			size:  float64(FahrenheitDegree),
		},
	},
}

// UnmarshalText reads "0.5 K", "0.5 °C", "1 °F", all as differences.
func (d *TemperatureDifference) UnmarshalText(text []byte) error {
	return unmarshal(d, text, &temperatureDifferenceUnits)
}

// String writes the difference, as MarshalText does.
func (d TemperatureDifference) String() string {
	if d.isFahrenheit() {
		return withUnit(d.FahrenheitDegrees(), "°F")
	}
	return withUnit(float64(d), "K")
}

// AppendText appends what MarshalText writes.
func (d TemperatureDifference) AppendText(text []byte) ([]byte, error) {
	if d.isFahrenheit() {
		return appendQuantity(text, "temperature difference", d.FahrenheitDegrees(), "°F")
	}
	return temperatureDifferenceUnits.append(text, float64(d))
}

// MarshalText writes "0.5 K", and "1 °F" where the number in kelvin has no end; reading that
// gives the same value back.
func (d TemperatureDifference) MarshalText() ([]byte, error) { return d.AppendText(nil) }
