package units

import "time"

// Energy is an energy in joules.
type Energy float64

// Units of Energy.
const (
	Joule        Energy = 1
	WattHour     Energy = 3600
	KilowattHour Energy = 3.6e6
)

// Joules returns the energy in joules.
func (e Energy) Joules() float64 { return float64(e) }

// KilowattHours returns the energy in kilowatt-hours.
func (e Energy) KilowattHours() float64 { return float64(e / KilowattHour) }

// Power returns the mean power of an energy that goes in a time; no time: NaN or Inf.
func (e Energy) Power(d time.Duration) Power { return Power(float64(e) / d.Seconds()) }

var energyUnits = table{
	quantity: "energy", base: "J", example: `"1.2 kWh"`,
	units: []unit{
		{names: "J|joule", size: float64(Joule)},
		{names: "kJ", size: 1e3},
		{names: "MJ", size: 1e6},
		{names: "Wh", size: float64(WattHour)},
		{names: "kWh", size: float64(KilowattHour)},
		{names: "cal|kcal|BTU", refuse: `the energy in kWh or kJ`},
	},
}

// UnmarshalText reads an energy such as "1.2 kWh".
func (e *Energy) UnmarshalText(text []byte) error { return unmarshal(e, text, &energyUnits) }

// String writes the energy in J, as MarshalText does.
func (e Energy) String() string { return withUnit(float64(e), energyUnits.base) }

// AppendText appends what MarshalText writes.
func (e Energy) AppendText(text []byte) ([]byte, error) { return energyUnits.append(text, float64(e)) }

// MarshalText writes the energy in J; reading that gives the same value back.
func (e Energy) MarshalText() ([]byte, error) { return e.AppendText(nil) }
