package units

// MassPerKilogram is a mass of solute per kilogram of solution, in mg/kg.
type MassPerKilogram float64

// Units of MassPerKilogram.
const (
	MilligramPerKilogram MassPerKilogram = 1
	MicrogramPerKilogram MassPerKilogram = 0.001
	GramPerKilogram      MassPerKilogram = 1000
)

// MilligramsPerKilogram returns the content in mg/kg.
func (c MassPerKilogram) MilligramsPerKilogram() float64 { return float64(c) }

// MicrogramsPerKilogram returns the content in µg/kg.
func (c MassPerKilogram) MicrogramsPerKilogram() float64 { return float64(c / MicrogramPerKilogram) }

// GramsPerKilogram returns the content in g/kg.
func (c MassPerKilogram) GramsPerKilogram() float64 { return float64(c / GramPerKilogram) }

// PerLitre returns the same content per litre of water of density d.
func (c MassPerKilogram) PerLitre(d Density) MassPerLitre {
	return MassPerLitre(float64(c) * d.GramsPerMillilitre())
}

var massPerKilogramUnits = table{
	quantity: "content", base: "mg/kg", example: `"420 mg/kg"`,
	units: []unit{
		{names: "mg/kg", size: float64(MilligramPerKilogram), capitals: true},
		{names: "ug/kg", size: 1, per: 1000},
		{names: "g/kg", size: float64(GramPerKilogram)},
		{names: "ppm", refuse: `"mg/kg": ppm could also be mg/L, 2.5 % more in seawater`},
	},
}

// UnmarshalText reads a content such as "420 mg/kg".
func (c *MassPerKilogram) UnmarshalText(text []byte) error {
	return unmarshal(c, text, &massPerKilogramUnits)
}

// String writes the content in mg/kg, as MarshalText does.
func (c MassPerKilogram) String() string { return withUnit(float64(c), massPerKilogramUnits.base) }

// AppendText appends what MarshalText writes.
func (c MassPerKilogram) AppendText(text []byte) ([]byte, error) {
	return massPerKilogramUnits.append(text, float64(c))
}

// MarshalText writes the content in mg/kg; reading that gives the same value back.
func (c MassPerKilogram) MarshalText() ([]byte, error) { return c.AppendText(nil) }
