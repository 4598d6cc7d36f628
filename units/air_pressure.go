package units

// AirPressure is an absolute pressure of the air where it is measured, not
// reduced to sea level, in hectopascals (the same as millibars).
type AirPressure float64

// Units of AirPressure.
const (
	Hectopascal         AirPressure = 1
	Atmosphere          AirPressure = 1013.25                 // standard atmosphere, exactly
	MillimetreOfMercury AirPressure = 13.5951 * 9.80665 / 100 // conventional (NIST SP 811, B: 133.3224 Pa)
	InchOfMercury       AirPressure = 25.4 * 13.5951 * 9.80665 / 100
	BarAbsolute         AirPressure = 1000
	PSIAbsolute         AirPressure = psi * 1000
)

// Gauge returns what a gauge shows of an absolute pressure where the air around it has
// another; below zero it is a vacuum.
func (p AirPressure) Gauge(air AirPressure) GaugePressure { return GaugePressure((p - air) / 1000) }

// Sea returns an absolute pressure as the sea pressure of the standards: less 10.1325 dbar.
func (p AirPressure) Sea() SeaPressure { return SeaPressure((p - Atmosphere) / 100) }

// PSI returns the absolute pressure in pounds per square inch.
func (p AirPressure) PSI() float64 { return float64(p / PSIAbsolute) }

// Hectopascals returns the pressure in hectopascals.
func (p AirPressure) Hectopascals() float64 { return float64(p) }

// MillimetresOfMercury returns the pressure in millimetres of mercury.
func (p AirPressure) MillimetresOfMercury() float64 { return float64(p / MillimetreOfMercury) }

var airPressureUnits = table{
	quantity: "air pressure", base: "hPa", example: `"1013 hPa" or "760 mmHg"`,
	units: []unit{
		{names: "hPa", size: 1},
		{names: "mbar|mb", size: 1, capitals: true},
		{names: "Pa", size: 1, per: 100},
		{names: "kPa", size: 10},
		{names: "bar|bara|bar absolute", size: 1000},
		{names: "atm", size: float64(Atmosphere), capitals: true},
		{names: "mmHg|mm Hg|torr", size: float64(MillimetreOfMercury), capitals: true},
		{names: "inHg|in Hg", size: float64(InchOfMercury)},
		{names: "psia|psi absolute", size: psi * 1000},
		{names: "psi|psig|psi gauge", refuse: `"psia" for an absolute pressure (air is near 14.7), or hPa, kPa or mmHg`},
		{names: "barg|bar gauge", refuse: `"bar absolute" or the pressure in hPa: a gauge shows it above that of the air`},
	},
}

// UnmarshalText reads an air pressure such as "1013 hPa" or "760 mmHg".
func (p *AirPressure) UnmarshalText(text []byte) error { return unmarshal(p, text, &airPressureUnits) }

// String writes the air pressure in hPa, as MarshalText does.
func (p AirPressure) String() string { return withUnit(float64(p), airPressureUnits.base) }

// AppendText appends what MarshalText writes.
func (p AirPressure) AppendText(text []byte) ([]byte, error) {
	return airPressureUnits.append(text, float64(p))
}

// MarshalText writes the air pressure in hPa; reading that gives the same value
// back.
func (p AirPressure) MarshalText() ([]byte, error) { return p.AppendText(nil) }
