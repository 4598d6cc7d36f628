package units

// MassPerLitre is a mass of solute per litre of solution, in mg/L.
type MassPerLitre float64

// Units of MassPerLitre.
const (
	MilligramPerLitre MassPerLitre = 1
	MicrogramPerLitre MassPerLitre = 0.001
	GramPerLitre      MassPerLitre = 1000

	// GrainPerUSGallon, 17.1 mg/L, is in which the trade of softeners counts hardness and
	// salt, as calcium carbonate: half its molar mass makes charge of it,
	// (AsCalciumCarbonate / 2).AmountPerLitre.
	GrainPerUSGallon = MassPerLitre(64.79891 / (231 * 0.0254 * 0.0254 * 0.0254 * 1000))
)

// MilligramsPerLitre returns the concentration in mg/L.
func (c MassPerLitre) MilligramsPerLitre() float64 { return float64(c) }

// MicrogramsPerLitre returns the concentration in µg/L.
func (c MassPerLitre) MicrogramsPerLitre() float64 { return float64(c / MicrogramPerLitre) }

// GramsPerLitre returns the concentration in g/L.
func (c MassPerLitre) GramsPerLitre() float64 { return float64(c / GramPerLitre) }

// GrainsPerUSGallon returns the concentration in grains per US gallon.
func (c MassPerLitre) GrainsPerUSGallon() float64 { return float64(c / GrainPerUSGallon) }

// PerKilogram returns the same content per kilogram of water of density d.
func (c MassPerLitre) PerKilogram(d Density) MassPerKilogram {
	return MassPerKilogram(float64(c) / d.GramsPerMillilitre())
}

// Mass returns the mass of solute in a volume v.
func (c MassPerLitre) Mass(v Volume) Mass { return Mass(float64(c)*float64(v)) * Milligram }

var massPerLitreUnits = table{
	quantity: "concentration", base: "mg/L", example: `"5 mg/L" or "0.05 mg/L"`,
	units: []unit{
		{names: "mg/L", size: float64(MilligramPerLitre), capitals: true},
		{names: "ug/L", size: 1, per: 1000},
		{names: "g/L", size: float64(GramPerLitre)},
		{names: "gpg|grain/gal|grains/gal|grain/US gal", size: float64(GrainPerUSGallon)},
		{names: "ppm", refuse: `"mg/L": ppm could also be mg/kg, 2.5 % less in seawater`},
		{names: "ppb", refuse: `"ug/L": ppb could also be µg/kg, 2.5 % less in seawater`},
		{names: "mmol/L|umol/L", refuse: `a mass per litre: an amount in mmol/L needs the molar mass`},
	},
}

// UnmarshalText reads a concentration such as "5 mg/L" or "0.05 mg/L".
func (c *MassPerLitre) UnmarshalText(text []byte) error {
	return unmarshal(c, text, &massPerLitreUnits)
}

// String writes the concentration in mg/L, as MarshalText does.
func (c MassPerLitre) String() string { return withUnit(float64(c), massPerLitreUnits.base) }

// AppendText appends what MarshalText writes.
func (c MassPerLitre) AppendText(text []byte) ([]byte, error) {
	return massPerLitreUnits.append(text, float64(c))
}

// MarshalText writes the concentration in mg/L; reading that gives the same value back.
func (c MassPerLitre) MarshalText() ([]byte, error) { return c.AppendText(nil) }
