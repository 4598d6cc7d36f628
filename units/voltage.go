package units

// Voltage is an electric potential difference, in millivolts: what an
// electrode gives.
type Voltage float64

// Units of Voltage.
const (
	Millivolt Voltage = 1
	Volt      Voltage = 1000
)

// Millivolts returns the voltage in mV.
func (v Voltage) Millivolts() float64 { return float64(v) }

// Volts returns the voltage in V.
func (v Voltage) Volts() float64 { return float64(v / Volt) }

var voltageUnits = table{
	quantity: "voltage", base: "mV", example: `"-58.2 mV"`,
	units: []unit{
		{names: "mV", size: float64(Millivolt)},
		{names: "V", size: float64(Volt)},
		{names: "uV", size: 1, per: 1000},
	},
}

// UnmarshalText reads a voltage such as "-58.2 mV".
func (v *Voltage) UnmarshalText(text []byte) error { return unmarshal(v, text, &voltageUnits) }

// String writes the voltage in mV, as MarshalText does.
func (v Voltage) String() string { return withUnit(float64(v), voltageUnits.base) }

// AppendText appends what MarshalText writes.
func (v Voltage) AppendText(text []byte) ([]byte, error) {
	return voltageUnits.append(text, float64(v))
}

// MarshalText writes the voltage in mV; reading that gives the same value back.
func (v Voltage) MarshalText() ([]byte, error) { return v.AppendText(nil) }
