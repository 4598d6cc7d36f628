package units

// Volume is a volume in litres.
//
// A volume of water belongs to a temperature; mass does not. Where both are
// at hand, keep the mass.
type Volume float64

// Units of Volume.
const (
	Litre              Volume = 1
	Millilitre         Volume = 0.001
	CubicMetre         Volume = 1000
	USGallon           Volume = 231 * inch * inch * inch       // 231 in³ exactly (NIST SP 811, appendix B)
	USQuart            Volume = 231 * inch * inch * inch / 4   // a quarter of a US gallon
	USPint             Volume = 231 * inch * inch * inch / 8   // an eighth of a US gallon
	USCup              Volume = 231 * inch * inch * inch / 16  // a sixteenth of a US gallon
	USFluidOunce       Volume = 231 * inch * inch * inch / 128 // 1/128 of a US gallon
	ImperialGallon     Volume = 4.54609                        // exactly (UK Weights and Measures Act 1985, schedule 1)
	ImperialPint       Volume = 4.54609 / 8                    // an eighth of an imperial gallon
	ImperialFluidOunce Volume = 4.54609 / 160                  // 1/160 of an imperial gallon
	CubicInch          Volume = inch * inch * inch
	CubicFoot          Volume = 1728 * inch * inch * inch
)

// Litres returns the volume in litres.
func (v Volume) Litres() float64 { return float64(v) }

// Millilitres returns the volume in millilitres.
func (v Volume) Millilitres() float64 { return float64(v / Millilitre) }

// CubicMetres returns the volume in cubic metres.
func (v Volume) CubicMetres() float64 { return float64(v / CubicMetre) }

// USGallons returns the volume in US liquid gallons.
func (v Volume) USGallons() float64 { return float64(v / USGallon) }

// USCups returns the volume in US cups.
func (v Volume) USCups() float64 { return float64(v / USCup) }

// USFluidOunces returns the volume in US fluid ounces.
func (v Volume) USFluidOunces() float64 { return float64(v / USFluidOunce) }

// ImperialGallons returns the volume in imperial gallons.
func (v Volume) ImperialGallons() float64 { return float64(v / ImperialGallon) }

const inch = 0.254 // dm, exactly (international inch), so inch³ is in litres

var volumeUnits = table{
	quantity: "volume", base: "L", example: `"20 L" or "5 US gal"`,
	units: []unit{
		{names: "L|litre|liter|ltr", size: float64(Litre)},
		{names: "mL|millilitre|milliliter", size: 1, per: 1000},
		{names: "cm3|cc", size: 1, per: 1000, capitals: true},
		{names: "m3|cubic metre|cubic meter", size: float64(CubicMetre), capitals: true},
		{names: "US gal|US gallon|gal US|gallon US|US liquid gallon", size: float64(USGallon)},
		{names: "US qt|US quart", size: float64(USQuart)},
		{names: "US pint|US pt", size: float64(USPint)},
		{names: "US cup", size: float64(USCup)},
		{names: "US fl oz|US fluid ounce", size: float64(USFluidOunce)},
		{
			names: "imp gal|imp gallon|imperial gal|imperial gallon|UK gal|UK gallon|gal imp|gallon imp",
			size:  float64(ImperialGallon), capitals: true,
		},
		{names: "imp qt|imp quart|imperial quart|UK qt|UK quart", size: 4.54609, per: 4, capitals: true},
		{names: "imp pint|imp pt|imperial pint|UK pint|UK pt", size: 4.54609, per: 8, capitals: true},
		{
			names: "imp fl oz|imp fluid ounce|imperial fl oz|imperial fluid ounce|UK fl oz|UK fluid ounce",
			size:  4.54609, per: 160, capitals: true,
		},
		{names: "in3|cubic inch|cu in", size: float64(CubicInch)},
		{names: "ft3|cubic foot|cubic feet|cu ft", size: float64(CubicFoot)},
		{names: "gal|gallon", refuse: `"US gal" (3.785 L) or "imp gal" (4.546 L)`},
		{names: "cup", refuse: `"US cup" (236.6 mL) or the volume in mL: cups differ between countries`},
		{names: "oz|ounce|fl oz|fluid ounce", refuse: `"US fl oz" (29.57 mL) or "imp fl oz" (28.41 mL)`},
		{names: "qt|quart", refuse: `"US qt" (0.946 L) or "imp qt" (1.137 L)`},
		{names: "pint|pt", refuse: `"US pint" (0.473 L) or "imp pint" (0.568 L)`},
	},
}

// UnmarshalText reads a volume such as "20 L", "5 US gal" or "½ imp pint".
func (v *Volume) UnmarshalText(text []byte) error { return unmarshal(v, text, &volumeUnits) }

// String writes the volume in L, as MarshalText does.
func (v Volume) String() string { return withUnit(float64(v), volumeUnits.base) }

// AppendText appends what MarshalText writes.
func (v Volume) AppendText(text []byte) ([]byte, error) { return volumeUnits.append(text, float64(v)) }

// MarshalText writes the volume in L; reading that gives the same value back.
func (v Volume) MarshalText() ([]byte, error) { return v.AppendText(nil) }
