package units

// Conductivity is an electrical conductivity in mS/cm, as measured at the
// temperature of the water: not compensated to 25 °C.
type Conductivity float64

// Units of Conductivity.
const (
	MillisiemensPerCentimetre Conductivity = 1
	MicrosiemensPerCentimetre Conductivity = 0.001
	SiemensPerMetre           Conductivity = 10
)

// MillisiemensPerCentimetre returns the conductivity in mS/cm.
func (c Conductivity) MillisiemensPerCentimetre() float64 { return float64(c) }

// MicrosiemensPerCentimetre returns the conductivity in µS/cm.
func (c Conductivity) MicrosiemensPerCentimetre() float64 {
	return float64(c / MicrosiemensPerCentimetre)
}

// SiemensPerMetre returns the conductivity in S/m.
func (c Conductivity) SiemensPerMetre() float64 { return float64(c / SiemensPerMetre) }

// Resistivity returns the reciprocal of the conductivity: 1 µS/cm is 1 MΩ·cm.
// Of zero conductivity it is infinite.
func (c Conductivity) Resistivity() Resistivity {
	return Resistivity(1 / c.MicrosiemensPerCentimetre())
}

var conductivityUnits = table{
	quantity: "conductivity", base: "mS/cm", example: `"53.1 mS/cm" or "5 uS/cm"`,
	units: []unit{
		{names: "mS/cm", size: float64(MillisiemensPerCentimetre)},
		{names: "uS/cm", size: 1, per: 1000, capitals: true},
		{names: "S/m", size: float64(SiemensPerMetre), capitals: true},
		{names: "mS|uS", refuse: `the length too, as in "53.1 mS/cm"`},
	},
}

// UnmarshalText reads a conductivity such as "53.1 mS/cm" or "5 uS/cm".
func (c *Conductivity) UnmarshalText(text []byte) error {
	return unmarshal(c, text, &conductivityUnits)
}

// String writes the conductivity in mS/cm, as MarshalText does.
func (c Conductivity) String() string { return withUnit(float64(c), conductivityUnits.base) }

// AppendText appends what MarshalText writes.
func (c Conductivity) AppendText(text []byte) ([]byte, error) {
	return conductivityUnits.append(text, float64(c))
}

// MarshalText writes the conductivity in mS/cm; reading that gives the same value back.
func (c Conductivity) MarshalText() ([]byte, error) { return c.AppendText(nil) }
