package units

// Mass is a mass in grams.
type Mass float64

// Units of Mass.
const (
	Gram      Mass = 1
	Milligram Mass = 0.001
	Kilogram  Mass = 1000
	Pound     Mass = 453.59237      // exactly (international pound of 1959; NIST SP 811, appendix B)
	Ounce     Mass = 453.59237 / 16 // a sixteenth of a pound
	Grain     Mass = 0.06479891     // exactly (a 7000th of a pound; NIST SP 811, appendix B)
)

// Grams returns the mass in grams.
func (m Mass) Grams() float64 { return float64(m) }

// Milligrams returns the mass in milligrams.
func (m Mass) Milligrams() float64 { return float64(m / Milligram) }

// Kilograms returns the mass in kilograms.
func (m Mass) Kilograms() float64 { return float64(m / Kilogram) }

// Pounds returns the mass in avoirdupois pounds.
func (m Mass) Pounds() float64 { return float64(m / Pound) }

// Ounces returns the mass in avoirdupois ounces.
func (m Mass) Ounces() float64 { return float64(m / Ounce) }

var massUnits = table{
	quantity: "mass", base: "g", example: `"750 g" or "1.5 lb"`,
	units: []unit{
		{names: "g|gram|gramme", size: float64(Gram)},
		{names: "mg|milligram", size: 1, per: 1000},
		{names: "kg|kilogram|kilo", size: float64(Kilogram)},
		{names: "lb|lbm|pound", size: float64(Pound)},
		{names: "oz|ounce", size: float64(Ounce)},
		{names: "grain", size: float64(Grain)},
		{names: "gr", refuse: `"g" for grams or "grain"`},
	},
}

// UnmarshalText reads a mass such as "750 g" or "1.5 lb".
func (m *Mass) UnmarshalText(text []byte) error { return unmarshal(m, text, &massUnits) }

// String writes the mass in g, as MarshalText does.
func (m Mass) String() string { return withUnit(float64(m), massUnits.base) }

// AppendText appends what MarshalText writes.
func (m Mass) AppendText(text []byte) ([]byte, error) { return massUnits.append(text, float64(m)) }

// MarshalText writes the mass in g; reading that gives the same value back.
func (m Mass) MarshalText() ([]byte, error) { return m.AppendText(nil) }
