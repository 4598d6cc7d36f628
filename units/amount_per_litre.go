package units

// AmountPerLitre is an amount of substance per litre of solution, in mmol/L.
type AmountPerLitre float64

// Units of AmountPerLitre.
const (
	MillimolePerLitre AmountPerLitre = 1
	MicromolePerLitre AmountPerLitre = 0.001
	MolePerLitre      AmountPerLitre = 1000
)

// MillimolesPerLitre returns the concentration in mmol/L.
func (c AmountPerLitre) MillimolesPerLitre() float64 { return float64(c) }

// MicromolesPerLitre returns the concentration in µmol/L.
func (c AmountPerLitre) MicromolesPerLitre() float64 { return float64(c / MicromolePerLitre) }

// PerKilogram returns the same content per kilogram of water of density d.
func (c AmountPerLitre) PerKilogram(d Density) AmountPerKilogram {
	return AmountPerKilogram(float64(c)/d.GramsPerMillilitre()) * MillimolePerKilogram
}

var amountPerLitreUnits = table{
	quantity: "concentration", base: "mmol/L", example: `"10 mmol/L"`,
	units: []unit{
		{names: "mmol/L", size: float64(MillimolePerLitre), capitals: true},
		{names: "mM", size: float64(MillimolePerLitre)},
		{names: "umol/L", size: 1, per: 1000, capitals: true},
		{names: "uM", size: 1, per: 1000},
		{names: "mol/L", size: 1000, capitals: true},
	},
}

// UnmarshalText reads a concentration such as "10 mmol/L".
func (c *AmountPerLitre) UnmarshalText(text []byte) error {
	return unmarshal(c, text, &amountPerLitreUnits)
}

// String writes the concentration in mmol/L, as MarshalText does.
func (c AmountPerLitre) String() string { return withUnit(float64(c), amountPerLitreUnits.base) }

// AppendText appends what MarshalText writes.
func (c AmountPerLitre) AppendText(text []byte) ([]byte, error) {
	return amountPerLitreUnits.append(text, float64(c))
}

// MarshalText writes the concentration in mmol/L; reading that gives the same value back.
func (c AmountPerLitre) MarshalText() ([]byte, error) { return c.AppendText(nil) }
