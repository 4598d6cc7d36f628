package units

// SeaPressure is the pressure of the water above that of one standard
// atmosphere (absolute pressure minus 10.1325 dbar), in decibars, the p of
// PSS-78, EOS-80 and TEOS-10. Zero is the surface, right for a tank: ten metres
// of water are about 10 dbar.
type SeaPressure float64

// Units of SeaPressure.
const (
	Decibar    SeaPressure = 1
	Bar        SeaPressure = 10
	Kilopascal SeaPressure = 0.1
)

// Decibars returns the sea pressure in decibars.
func (p SeaPressure) Decibars() float64 { return float64(p) }

// Bars returns the sea pressure in bars.
func (p SeaPressure) Bars() float64 { return float64(p / Bar) }

// Kilopascals returns the sea pressure in kilopascals.
func (p SeaPressure) Kilopascals() float64 { return float64(p / Kilopascal) }

// Absolute returns the absolute pressure: one standard atmosphere more.
func (p SeaPressure) Absolute() AirPressure { return AirPressure(p*100) + Atmosphere }

var seaPressureUnits = table{
	quantity: "sea pressure", base: "dbar", example: `"10 dbar"`,
	units: []unit{
		{names: "dbar|decibar", size: float64(Decibar)},
		{names: "bar", size: float64(Bar)},
		{names: "kPa", size: 1, per: 10},
		{names: "MPa", size: 100},
		{names: "psi|psia|psig|m", refuse: `the pressure in dbar, bar or kPa`},
	},
}

// UnmarshalText reads a sea pressure such as "10 dbar".
func (p *SeaPressure) UnmarshalText(text []byte) error { return unmarshal(p, text, &seaPressureUnits) }

// String writes the sea pressure in dbar, as MarshalText does.
func (p SeaPressure) String() string { return withUnit(float64(p), seaPressureUnits.base) }

// AppendText appends what MarshalText writes.
func (p SeaPressure) AppendText(text []byte) ([]byte, error) {
	return seaPressureUnits.append(text, float64(p))
}

// MarshalText writes the sea pressure in dbar; reading that gives the same value back.
func (p SeaPressure) MarshalText() ([]byte, error) { return p.AppendText(nil) }
