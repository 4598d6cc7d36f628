package units

// Speed is a speed in metres per second, of sound or of air.
type Speed float64

// Units of Speed.
const (
	MetrePerSecond Speed = 1
)

// MetresPerSecond returns the speed in m/s.
func (s Speed) MetresPerSecond() float64 { return float64(s) }

var speedUnits = table{
	quantity: "speed", base: "m/s", example: `"1530 m/s"`,
	units: []unit{
		{names: "m/s", size: float64(MetrePerSecond), capitals: true},
		{names: "km/h", size: 1, per: 3.6, capitals: true},
		{names: "ft/s", size: 0.3048},
	},
}

// UnmarshalText reads a speed such as "1530 m/s".
func (s *Speed) UnmarshalText(text []byte) error { return unmarshal(s, text, &speedUnits) }

// String writes the speed in m/s, as MarshalText does.
func (s Speed) String() string { return withUnit(float64(s), speedUnits.base) }

// AppendText appends what MarshalText writes.
func (s Speed) AppendText(text []byte) ([]byte, error) { return speedUnits.append(text, float64(s)) }

// MarshalText writes the speed in m/s; reading that gives the same value back.
func (s Speed) MarshalText() ([]byte, error) { return s.AppendText(nil) }
