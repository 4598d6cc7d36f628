package units

// SpecificHeat is a heat capacity per mass at constant pressure, in J/(kg·K).
type SpecificHeat float64

// Units of SpecificHeat.
const (
	JoulePerKilogramKelvin SpecificHeat = 1
)

// JoulesPerKilogramKelvin returns the specific heat in J/(kg·K).
func (c SpecificHeat) JoulesPerKilogramKelvin() float64 { return float64(c) }

var specificHeatUnits = table{
	quantity: "specific heat", base: "J/(kg·K)", example: `"3990 J/(kg K)"`,
	units: []unit{
		{names: "J/(kg.K)|J/(kg K)|J/kg/K", size: float64(JoulePerKilogramKelvin)},
		{names: "kJ/(kg.K)|kJ/(kg K)|kJ/kg/K", size: 1000},
	},
}

// UnmarshalText reads a specific heat such as "3990 J/(kg K)".
func (c *SpecificHeat) UnmarshalText(text []byte) error {
	return unmarshal(c, text, &specificHeatUnits)
}

// String writes the specific heat in J/(kg·K), as MarshalText does.
func (c SpecificHeat) String() string { return withUnit(float64(c), specificHeatUnits.base) }

// AppendText appends what MarshalText writes.
func (c SpecificHeat) AppendText(text []byte) ([]byte, error) {
	return specificHeatUnits.append(text, float64(c))
}

// MarshalText writes the specific heat in J/(kg·K); reading that gives the same value back.
func (c SpecificHeat) MarshalText() ([]byte, error) { return c.AppendText(nil) }
