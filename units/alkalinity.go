package units

// Alkalinity is a total alkalinity per litre, in meq/L, as a test kit gives it.
// The oceanographer's alkalinity per kilogram is an AmountPerKilogram; going
// from one to the other needs the density of the water.
//
// It is made by DKH, MilliequivalentsPerLitre or PPMCaCO3, because a bare number
// would be read by most as dKH, which it is not; the zero value is none.
type Alkalinity struct{ perLitre float64 } // meq/L

// Molar masses from the IUPAC abridged standard atomic weights of 2021: Ca 40.078,
// C 12.011, O 15.999.
const (
	dkh      = 20 / 56.077 // meq/L: 10 mg/L CaO by definition (DIN 38409); M(CaO) = 56.077 g/mol, two equivalents a mole
	ppmCaCO3 = 2 / 100.086 // meq/L: 1 mg/L CaCO₃; M(CaCO₃) = 100.086 g/mol, two equivalents a mole
)

// MilliequivalentsPerLitre returns an alkalinity of x meq/L.
func MilliequivalentsPerLitre(x float64) Alkalinity { return Alkalinity{x + 0} } // minus zero becomes zero

// DKH returns an alkalinity of x degrees of carbonate hardness (German degrees).
func DKH(x float64) Alkalinity { return Alkalinity{x*dkh + 0} }

// PPMCaCO3 returns an alkalinity of x mg/L as calcium carbonate.
func PPMCaCO3(x float64) Alkalinity { return Alkalinity{x*ppmCaCO3 + 0} }

// MilliequivalentsPerLitre returns the alkalinity in meq/L.
func (a Alkalinity) MilliequivalentsPerLitre() float64 { return a.perLitre }

// DKH returns the alkalinity in degrees of carbonate hardness (German degrees).
func (a Alkalinity) DKH() float64 { return a.perLitre / dkh }

// PPMCaCO3 returns the alkalinity in mg/L as calcium carbonate.
func (a Alkalinity) PPMCaCO3() float64 { return a.perLitre / ppmCaCO3 }

// PerKilogram returns the same alkalinity per kilogram of water of density d.
func (a Alkalinity) PerKilogram(d Density) AmountPerKilogram {
	return AmountPerLitre(a.perLitre).PerKilogram(d)
}

var alkalinityUnits = table{
	quantity: "alkalinity", base: "meq/L", example: `"2.9 meq/L", "8.2 dKH" or "146 ppm CaCO3"`,
	units: []unit{
		{names: "meq/L|mEq/L|mval/L", size: 1, capitals: true},
		{names: "dKH|°dKH|degrees KH", size: dkh},
		{names: "ppm CaCO3|mg/L CaCO3|mg/L as CaCO3|ppm as CaCO3", size: ppmCaCO3, capitals: true},
		{names: "KH|°KH", refuse: `"dKH"`},
		{names: "ppm|mg/L", refuse: `"ppm CaCO3" if the kit counts calcium carbonate`},
		{
			names:  "umol/kg|meq/kg|mmol/kg",
			refuse: `a value per litre: alkalinity per kilogram needs the density of the water`,
		},
	},
}

// UnmarshalText reads an alkalinity such as "2.9 meq/L", "8.2 dKH" or "146 ppm CaCO3".
func (a *Alkalinity) UnmarshalText(text []byte) (err error) {
	a.perLitre, err = alkalinityUnits.read(string(text))
	return err
}

// String writes the alkalinity in meq/L, as MarshalText does.
func (a Alkalinity) String() string { return withUnit(a.perLitre, alkalinityUnits.base) }

// AppendText appends what MarshalText writes.
func (a Alkalinity) AppendText(text []byte) ([]byte, error) {
	return alkalinityUnits.append(text, a.perLitre)
}

// MarshalText writes the alkalinity in meq/L; reading that gives the same value back.
func (a Alkalinity) MarshalText() ([]byte, error) { return a.AppendText(nil) }
