package units

// AmountPerKilogram is an amount of substance per kilogram of solution, in
// µmol/kg: the oceanographer's unit for alkalinity, dissolved inorganic carbon
// and nutrients.
type AmountPerKilogram float64

// Units of AmountPerKilogram.
const (
	MicromolePerKilogram AmountPerKilogram = 1
	MillimolePerKilogram AmountPerKilogram = 1000
	MolePerKilogram      AmountPerKilogram = 1e6
)

// MicromolesPerKilogram returns the content in µmol/kg.
func (c AmountPerKilogram) MicromolesPerKilogram() float64 { return float64(c) }

// MillimolesPerKilogram returns the content in mmol/kg.
func (c AmountPerKilogram) MillimolesPerKilogram() float64 { return float64(c / MillimolePerKilogram) }

// MolesPerKilogram returns the content in mol/kg.
func (c AmountPerKilogram) MolesPerKilogram() float64 { return float64(c / MolePerKilogram) }

// PerLitre returns the same content per litre of water of density d.
func (c AmountPerKilogram) PerLitre(d Density) AmountPerLitre {
	return AmountPerLitre(c.MillimolesPerKilogram() * d.GramsPerMillilitre())
}

// Alkalinity returns an alkalinity given per kilogram as a test kit would,
// per litre of water of density d.
func (c AmountPerKilogram) Alkalinity(d Density) Alkalinity {
	return Alkalinity{float64(c.PerLitre(d))}
}

var amountPerKilogramUnits = table{
	quantity: "content", base: "µmol/kg", example: `"2300 umol/kg" or "2.3 mmol/kg"`,
	units: []unit{
		{names: "umol/kg|ueq/kg", size: float64(MicromolePerKilogram), capitals: true},
		{names: "mmol/kg|meq/kg", size: float64(MillimolePerKilogram), capitals: true},
		{names: "mol/kg", size: float64(MolePerKilogram), capitals: true},
		{names: "meq/L|dKH|mmol/L|umol/L", refuse: `a value per kilogram: one per litre needs the density of the water`},
	},
}

// UnmarshalText reads a content such as "2300 umol/kg" or "2.3 mmol/kg".
func (c *AmountPerKilogram) UnmarshalText(text []byte) error {
	return unmarshal(c, text, &amountPerKilogramUnits)
}

// String writes the content in µmol/kg, as MarshalText does.
func (c AmountPerKilogram) String() string { return withUnit(float64(c), amountPerKilogramUnits.base) }

// AppendText appends what MarshalText writes.
func (c AmountPerKilogram) AppendText(text []byte) ([]byte, error) {
	return amountPerKilogramUnits.append(text, float64(c))
}

// MarshalText writes the content in µmol/kg; reading that gives the same value back.
func (c AmountPerKilogram) MarshalText() ([]byte, error) { return c.AppendText(nil) }
