package units

// ThermalConductance is the heat that a vessel loses per kelvin that it is
// warmer than the room, in W/K.
type ThermalConductance float64

// Units of ThermalConductance.
const (
	WattPerKelvin ThermalConductance = 1
)

// WattsPerKelvin returns the heat loss in W/K.
func (k ThermalConductance) WattsPerKelvin() float64 { return float64(k) }

var thermalConductanceUnits = table{
	quantity: "heat loss", base: "W/K", example: `"3.5 W/K"`,
	units: []unit{
		{names: "W/K|W/°C|W/C", size: float64(WattPerKelvin)},
	},
}

// UnmarshalText reads a heat loss such as "3.5 W/K".
func (k *ThermalConductance) UnmarshalText(text []byte) error {
	return unmarshal(k, text, &thermalConductanceUnits)
}

// String writes the heat loss in W/K, as MarshalText does.
func (k ThermalConductance) String() string {
	return withUnit(float64(k), thermalConductanceUnits.base)
}

// AppendText appends what MarshalText writes.
func (k ThermalConductance) AppendText(text []byte) ([]byte, error) {
	return thermalConductanceUnits.append(text, float64(k))
}

// MarshalText writes the heat loss in W/K; reading that gives the same value back.
func (k ThermalConductance) MarshalText() ([]byte, error) { return k.AppendText(nil) }
