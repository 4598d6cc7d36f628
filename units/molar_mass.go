package units

import "math"

// MolarMass is the mass of one mole, in g/mol. It takes amounts to masses and
// back, and says what a reported mass is a mass of: one millimole of nitrate
// per litre is 62.00 mg/L counted as NO₃ and 14.01 mg/L counted as the nitrogen
// in it.
//
//	units.AsNitrogen.AmountPerLitre(5 * units.MilligramPerLitre) // 0.357 mmol/L of nitrate
//	units.AsNitrate.MassPerLitre(nitrate)                        // 22.1 mg/L
//
// One of zero or below, such as a field that nobody set, makes NaN of everything.
type MolarMass float64

// GramPerMole is the unit of MolarMass.
const GramPerMole MolarMass = 1

// Molar masses by which the trade and laboratories report. The name says as
// what a value is counted, per mole of the element or ion in question.
//
//	source  IUPAC abridged standard atomic weights 2021, Prohaska et al. 2022,
//	        Pure Appl. Chem. 94, 573
const (
	AsNitrogen   MolarMass = 14.007
	AsNitrate    MolarMass = 62.004 // NO₃⁻
	AsNitrite    MolarMass = 46.005 // NO₂⁻
	AsAmmonia    MolarMass = 17.031 // NH₃
	AsAmmonium   MolarMass = 18.039 // NH₄⁺
	AsPhosphorus MolarMass = 30.974 // P
	AsPhosphate  MolarMass = 94.970 // PO₄³⁻
	AsSilicon    MolarMass = 28.085
	AsSilica     MolarMass = 60.083 // SiO₂
	AsSulfur     MolarMass = 32.06
	AsSulfate    MolarMass = 96.056 // SO₄²⁻
	AsBoron      MolarMass = 10.81
	AsBoricAcid  MolarMass = 61.831 // H₃BO₃
	AsCarbon     MolarMass = 12.011

	AsCalcium          MolarMass = 40.078
	AsCalciumCarbonate MolarMass = 100.086 // CaCO₃, per mole of calcium: two equivalents
	AsMagnesium        MolarMass = 24.305
	AsPotassium        MolarMass = 39.098
	AsStrontium        MolarMass = 87.62
	AsSodium           MolarMass = 22.990
	AsChloride         MolarMass = 35.45
	AsBromide          MolarMass = 79.904
	AsFluoride         MolarMass = 18.998
	AsIodine           MolarMass = 126.90  // I
	AsIodate           MolarMass = 174.897 // IO₃⁻
	AsIron             MolarMass = 55.845

	AsOxygen        MolarMass = 31.998 // O₂
	AsDinitrogen    MolarMass = 28.014 // N₂
	AsCarbonDioxide MolarMass = 44.009 // CO₂
)

// GramsPerMole returns the molar mass in g/mol.
func (m MolarMass) GramsPerMole() float64 { return float64(m) }

// AmountPerLitre returns the amount in a mass per litre counted as m.
func (m MolarMass) AmountPerLitre(c MassPerLitre) AmountPerLitre {
	return AmountPerLitre(float64(c) / m.orNaN())
}

// MassPerLitre returns an amount per litre as a mass counted as m.
func (m MolarMass) MassPerLitre(c AmountPerLitre) MassPerLitre {
	return MassPerLitre(float64(c) * m.orNaN())
}

// AmountPerKilogram returns the amount in a mass per kilogram counted as m.
func (m MolarMass) AmountPerKilogram(c MassPerKilogram) AmountPerKilogram {
	return AmountPerKilogram(float64(c)/m.orNaN()) * MillimolePerKilogram
}

// MassPerKilogram returns an amount per kilogram as a mass counted as m.
func (m MolarMass) MassPerKilogram(c AmountPerKilogram) MassPerKilogram {
	return MassPerKilogram(c.MillimolesPerKilogram() * m.orNaN())
}

// orNaN returns what a mole can weigh, and NaN for anything else.
func (m MolarMass) orNaN() float64 {
	if !(m > 0) {
		return math.NaN()
	}
	return float64(m)
}

var molarMassUnits = table{
	quantity: "molar mass", base: "g/mol", example: `"58.44 g/mol"`,
	units: []unit{
		{names: "g/mol", size: 1, capitals: true},
		{names: "kg/mol", size: 1000, capitals: true},
	},
}

// UnmarshalText reads a molar mass such as "58.44 g/mol".
func (m *MolarMass) UnmarshalText(text []byte) error { return unmarshal(m, text, &molarMassUnits) }

// String writes the molar mass in g/mol, as MarshalText does.
func (m MolarMass) String() string { return withUnit(float64(m), molarMassUnits.base) }

// AppendText appends what MarshalText writes.
func (m MolarMass) AppendText(text []byte) ([]byte, error) {
	return molarMassUnits.append(text, float64(m))
}

// MarshalText writes the molar mass in g/mol; reading that gives the same value back.
func (m MolarMass) MarshalText() ([]byte, error) { return m.AppendText(nil) }
