package units

import "time"

// Power is a power in watts.
type Power float64

// Units of Power.
const (
	Watt     Power = 1
	Kilowatt Power = 1000
)

// Watts returns the power in watts.
func (p Power) Watts() float64 { return float64(p) }

// Kilowatts returns the power in kilowatts.
func (p Power) Kilowatts() float64 { return float64(p / Kilowatt) }

// Energy returns what the power comes to in a time: 300 W for a day are 7.2 kWh.
func (p Power) Energy(d time.Duration) Energy { return Energy(float64(p) * d.Seconds()) }

var powerUnits = table{
	quantity: "power", base: "W", example: `"300 W"`,
	units: []unit{
		{names: "W|watt", size: float64(Watt)},
		{names: "kW|kilowatt", size: float64(Kilowatt)},
	},
}

// UnmarshalText reads a power such as "300 W".
func (p *Power) UnmarshalText(text []byte) error { return unmarshal(p, text, &powerUnits) }

// String writes the power in W, as MarshalText does.
func (p Power) String() string { return withUnit(float64(p), powerUnits.base) }

// AppendText appends what MarshalText writes.
func (p Power) AppendText(text []byte) ([]byte, error) { return powerUnits.append(text, float64(p)) }

// MarshalText writes the power in W; reading that gives the same value back.
func (p Power) MarshalText() ([]byte, error) { return p.AppendText(nil) }
