package units

// GaugePressure is the pressure in a pipe above that of the air around it, in
// bar, as the gauge on a water main or a membrane housing shows it.
type GaugePressure float64

// Units of GaugePressure.
const (
	BarGauge        GaugePressure = 1
	KilopascalGauge GaugePressure = 0.01
	PSIGauge        GaugePressure = psi
)

// psi is a pound-force per square inch in bar: the pound and the inch, and standard
// gravity (NIST SP 811, B: 6.894757 kPa).
const psi = 0.45359237 * 9.80665 / (0.0254 * 0.0254) * 1e-5

// Bars returns the gauge pressure in bar.
func (p GaugePressure) Bars() float64 { return float64(p) }

// Kilopascals returns the gauge pressure in kilopascals.
func (p GaugePressure) Kilopascals() float64 { return float64(p / KilopascalGauge) }

// PSI returns the gauge pressure in pounds per square inch.
func (p GaugePressure) PSI() float64 { return float64(p / PSIGauge) }

// Absolute returns the pressure that a gauge shows above that of the air around it.
func (p GaugePressure) Absolute(air AirPressure) AirPressure { return AirPressure(p*1000) + air }

// Sea returns the gauge pressure as the sea pressure of the standards, which counts from
// one standard atmosphere, whatever the barometer says.
func (p GaugePressure) Sea(air AirPressure) SeaPressure { return p.Absolute(air).Sea() }

var gaugePressureUnits = table{
	quantity: "gauge pressure", base: "bar", example: `"4 bar" or "60 psi"`,
	units: []unit{
		{names: "bar|barg|bar gauge", size: float64(BarGauge)},
		{names: "kPa|kPa gauge", size: 1, per: 100},
		{names: "MPa", size: 10},
		{names: "psi|psig|psi gauge", size: float64(PSIGauge)},
		{
			names:  "psia|psi absolute|bara|bar absolute",
			refuse: `"psi gauge" or "bar gauge": an absolute pressure counts that of the air too`,
		},
	},
}

// UnmarshalText reads a gauge pressure such as "4 bar" or "60 psi".
func (p *GaugePressure) UnmarshalText(text []byte) error {
	return unmarshal(p, text, &gaugePressureUnits)
}

// String writes the gauge pressure in bar, as MarshalText does.
func (p GaugePressure) String() string { return withUnit(float64(p), gaugePressureUnits.base) }

// AppendText appends what MarshalText writes.
func (p GaugePressure) AppendText(text []byte) ([]byte, error) {
	return gaugePressureUnits.append(text, float64(p))
}

// MarshalText writes the gauge pressure in bar; reading that gives the same value back.
func (p GaugePressure) MarshalText() ([]byte, error) { return p.AppendText(nil) }
