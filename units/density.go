package units

// Density is a mass per volume in kg/m³, which is also g/L. It carries bulk
// densities of dry salt as well as densities of water.
type Density float64

// Units of Density.
const (
	KilogramPerCubicMetre Density = 1 // the same as one gram per litre
	GramPerMillilitre     Density = 1000
)

// KilogramsPerCubicMetre returns the density in kg/m³.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d) }

// GramsPerMillilitre returns the density in g/mL, that is kg/L.
func (d Density) GramsPerMillilitre() float64 { return float64(d / GramPerMillilitre) }

// Mass returns the mass of a volume v of this density.
func (d Density) Mass(v Volume) Mass { return Mass(float64(d) * float64(v)) }

// Volume returns the volume that a mass m of this density takes.
func (d Density) Volume(m Mass) Volume { return Volume(float64(m) / float64(d)) }

var densityUnits = table{
	quantity: "density", base: "kg/m³", example: `"1023.3 kg/m3" or "1.0233 g/mL"`,
	units: []unit{
		{names: "kg/m3|g/L", size: float64(KilogramPerCubicMetre), capitals: true},
		{names: "g/mL", size: float64(GramPerMillilitre)},
		{names: "g/cm3|kg/L", size: float64(GramPerMillilitre), capitals: true},
		{names: "lb/US gal", size: float64(Pound/Gram) / float64(USGallon)},
	},
}

// UnmarshalText reads a density such as "1023.3 kg/m3" or "1.0233 g/mL".
func (d *Density) UnmarshalText(text []byte) error { return unmarshal(d, text, &densityUnits) }

// String writes the density in kg/m³, as MarshalText does.
func (d Density) String() string { return withUnit(float64(d), densityUnits.base) }

// AppendText appends what MarshalText writes.
func (d Density) AppendText(text []byte) ([]byte, error) {
	return densityUnits.append(text, float64(d))
}

// MarshalText writes the density in kg/m³; reading that gives the same value back.
func (d Density) MarshalText() ([]byte, error) { return d.AppendText(nil) }
