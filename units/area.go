package units

// Area is the size of a surface, in square metres.
type Area float64

// Units of Area.
const (
	SquareMetre      Area = 1
	SquareCentimetre Area = 1e-4
	SquareInch       Area = 0.0254 * 0.0254
	SquareFoot       Area = 0.3048 * 0.3048
)

// SquareMetres returns the area in m².
func (a Area) SquareMetres() float64 { return float64(a) }

// Rectangle returns the area of a rectangle.
func Rectangle(length, width Length) Area {
	return Area(length.Metres() * width.Metres())
}

var areaUnits = table{
	quantity: "area", base: "m²", example: `"0.6 m2" or "6000 cm2"`,
	units: []unit{
		{names: "m2|sq m", size: float64(SquareMetre), capitals: true},
		{names: "cm2|sq cm", size: 1, per: 10000, capitals: true},
		{names: "in2|sq in|sqin", size: float64(SquareInch)},
		{names: "ft2|sq ft|sqft", size: float64(SquareFoot)},
	},
}

// UnmarshalText reads an area such as "0.6 m2" or "6000 cm2".
func (a *Area) UnmarshalText(text []byte) error { return unmarshal(a, text, &areaUnits) }

// String writes the area in m², as MarshalText does.
func (a Area) String() string { return withUnit(float64(a), areaUnits.base) }

// AppendText appends what MarshalText writes.
func (a Area) AppendText(text []byte) ([]byte, error) { return areaUnits.append(text, float64(a)) }

// MarshalText writes the area in m²; reading that gives the same value back.
func (a Area) MarshalText() ([]byte, error) { return a.AppendText(nil) }
