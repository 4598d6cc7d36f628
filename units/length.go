package units

// Length is a length in millimetres.
type Length float64

// Units of Length.
const (
	Millimetre Length = 1
	Centimetre Length = 10
	Metre      Length = 1000
	Inch       Length = 25.4  // exactly (NIST SP 811, appendix B)
	Foot       Length = 304.8 // 12 in
)

// Millimetres returns the length in millimetres.
func (l Length) Millimetres() float64 { return float64(l) }

// Centimetres returns the length in centimetres.
func (l Length) Centimetres() float64 { return float64(l / Centimetre) }

// Metres returns the length in metres.
func (l Length) Metres() float64 { return float64(l / Metre) }

// Inches returns the length in inches.
func (l Length) Inches() float64 { return float64(l / Inch) }

// Feet returns the length in feet.
func (l Length) Feet() float64 { return float64(l / Foot) }

var lengthUnits = table{
	quantity: "length", base: "mm", example: `"40 cm" or "16 in"`,
	units: []unit{
		{names: "mm|millimetre|millimeter", size: float64(Millimetre)},
		{names: "cm|centimetre|centimeter", size: float64(Centimetre), capitals: true},
		{names: "m|metre|meter", size: float64(Metre), capitals: true},
		{names: "in|inch|inches|\"", size: float64(Inch)},
		{names: "ft|foot|feet|'", size: float64(Foot)},
	},
}

// UnmarshalText reads a length such as "40 cm" or "16 in".
func (l *Length) UnmarshalText(text []byte) error { return unmarshal(l, text, &lengthUnits) }

// String writes the length in mm, as MarshalText does.
func (l Length) String() string { return withUnit(float64(l), lengthUnits.base) }

// AppendText appends what MarshalText writes.
func (l Length) AppendText(text []byte) ([]byte, error) { return lengthUnits.append(text, float64(l)) }

// MarshalText writes the length in mm; reading that gives the same value back.
func (l Length) MarshalText() ([]byte, error) { return l.AppendText(nil) }
