package units

// Resistivity is an electrical resistivity in MΩ·cm, the way purified water is
// graded.
type Resistivity float64

// Units of Resistivity.
const (
	MegohmCentimetre Resistivity = 1
	KilohmCentimetre Resistivity = 0.001
)

// MegohmCentimetres returns the resistivity in MΩ·cm.
func (r Resistivity) MegohmCentimetres() float64 { return float64(r) }

// KilohmCentimetres returns the resistivity in kΩ·cm.
func (r Resistivity) KilohmCentimetres() float64 { return float64(r / KilohmCentimetre) }

// Conductivity returns the reciprocal of the resistivity: 1 MΩ·cm is 1 µS/cm.
func (r Resistivity) Conductivity() Conductivity {
	return Conductivity(1/float64(r)) * MicrosiemensPerCentimetre
}

var resistivityUnits = table{
	quantity: "resistivity", base: "MΩ·cm", example: `"18.2 Mohm.cm"`,
	units: []unit{
		{names: "Mohm.cm|Mohm cm|Mohm-cm|megohm.cm|megohm cm", size: float64(MegohmCentimetre)},
		{names: "kohm.cm|kohm cm|kohm-cm", size: 1, per: 1000},
		{names: "Mohm|megohm", refuse: `the length too, as in "18.2 Mohm.cm"`},
	},
}

// UnmarshalText reads a resistivity such as "18.2 Mohm.cm".
func (r *Resistivity) UnmarshalText(text []byte) error { return unmarshal(r, text, &resistivityUnits) }

// String writes the resistivity in MΩ·cm, as MarshalText does.
func (r Resistivity) String() string { return withUnit(float64(r), resistivityUnits.base) }

// AppendText appends what MarshalText writes.
func (r Resistivity) AppendText(text []byte) ([]byte, error) {
	return resistivityUnits.append(text, float64(r))
}

// MarshalText writes the resistivity in MΩ·cm; reading that gives the same value back.
func (r Resistivity) MarshalText() ([]byte, error) { return r.AppendText(nil) }
