package units

import "example.org/wellmixed/internal/null"

// Every quantity goes to JSON as its text, and as null where it is unknown: a
// quantity that is not a number, a temperature that nobody set. null is read as
// that unknown, not as zero.

// MarshalJSON writes the text, null where there is none.
func (s AbsoluteSalinity) MarshalJSON() ([]byte, error) { return null.Write(s) }

// UnmarshalJSON reads the text, and null as unknown.
func (s *AbsoluteSalinity) UnmarshalJSON(text []byte) error { return null.Read(text, s) }

// MarshalJSON writes the text, null where there is none.
func (p AirPressure) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *AirPressure) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// MarshalJSON writes the text, null where there is none.
func (a Alkalinity) MarshalJSON() ([]byte, error) { return null.Write(a) }

// UnmarshalJSON reads the text, and null as unknown.
func (a *Alkalinity) UnmarshalJSON(text []byte) error { return null.Read(text, a) }

// MarshalJSON writes the text, null where there is none.
func (c AmountPerKilogram) MarshalJSON() ([]byte, error) { return null.Write(c) }

// UnmarshalJSON reads the text, and null as unknown.
func (c *AmountPerKilogram) UnmarshalJSON(text []byte) error { return null.Read(text, c) }

// MarshalJSON writes the text, null where there is none.
func (c AmountPerLitre) MarshalJSON() ([]byte, error) { return null.Write(c) }

// UnmarshalJSON reads the text, and null as unknown.
func (c *AmountPerLitre) UnmarshalJSON(text []byte) error { return null.Read(text, c) }

// MarshalJSON writes the text, null where there is none.
func (a Area) MarshalJSON() ([]byte, error) { return null.Write(a) }

// UnmarshalJSON reads the text, and null as unknown.
func (a *Area) UnmarshalJSON(text []byte) error { return null.Read(text, a) }

// MarshalJSON writes the text, null where there is none.
func (c Conductivity) MarshalJSON() ([]byte, error) { return null.Write(c) }

// UnmarshalJSON reads the text, and null as unknown.
func (c *Conductivity) UnmarshalJSON(text []byte) error { return null.Read(text, c) }

// MarshalJSON writes the text, null where there is none.
func (d Density) MarshalJSON() ([]byte, error) { return null.Write(d) }

// UnmarshalJSON reads the text, and null as unknown.
func (d *Density) UnmarshalJSON(text []byte) error { return null.Read(text, d) }

// MarshalJSON writes the text, null where there is none.
func (e Energy) MarshalJSON() ([]byte, error) { return null.Write(e) }

// UnmarshalJSON reads the text, and null as unknown.
func (e *Energy) UnmarshalJSON(text []byte) error { return null.Read(text, e) }

// MarshalJSON writes the text, null where there is none.
func (f Flow) MarshalJSON() ([]byte, error) { return null.Write(f) }

// UnmarshalJSON reads the text, and null as unknown.
func (f *Flow) UnmarshalJSON(text []byte) error { return null.Read(text, f) }

// MarshalJSON writes the text, null where there is none.
func (f Fraction) MarshalJSON() ([]byte, error) { return null.Write(f) }

// UnmarshalJSON reads the text, and null as unknown.
func (f *Fraction) UnmarshalJSON(text []byte) error { return null.Read(text, f) }

// MarshalJSON writes the text, null where there is none.
func (p GaugePressure) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *GaugePressure) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// MarshalJSON writes the text, null where there is none.
func (l Length) MarshalJSON() ([]byte, error) { return null.Write(l) }

// UnmarshalJSON reads the text, and null as unknown.
func (l *Length) UnmarshalJSON(text []byte) error { return null.Read(text, l) }

// MarshalJSON writes the text, null where there is none.
func (m Mass) MarshalJSON() ([]byte, error) { return null.Write(m) }

// UnmarshalJSON reads the text, and null as unknown.
func (m *Mass) UnmarshalJSON(text []byte) error { return null.Read(text, m) }

// MarshalJSON writes the text, null where there is none.
func (c MassPerKilogram) MarshalJSON() ([]byte, error) { return null.Write(c) }

// UnmarshalJSON reads the text, and null as unknown.
func (c *MassPerKilogram) UnmarshalJSON(text []byte) error { return null.Read(text, c) }

// MarshalJSON writes the text, null where there is none.
func (c MassPerLitre) MarshalJSON() ([]byte, error) { return null.Write(c) }

// UnmarshalJSON reads the text, and null as unknown.
func (c *MassPerLitre) UnmarshalJSON(text []byte) error { return null.Read(text, c) }

// MarshalJSON writes the text, null where there is none.
func (m MolarMass) MarshalJSON() ([]byte, error) { return null.Write(m) }

// UnmarshalJSON reads the text, and null as unknown.
func (m *MolarMass) UnmarshalJSON(text []byte) error { return null.Read(text, m) }

// MarshalJSON writes the text, null where there is none.
func (m Money) MarshalJSON() ([]byte, error) { return null.Write(m) }

// UnmarshalJSON reads the text, and null as unknown.
func (m *Money) UnmarshalJSON(text []byte) error { return null.Read(text, m) }

// MarshalJSON writes the text, null where there is none.
func (p Power) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *Power) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// MarshalJSON writes the text, null where there is none.
func (s PracticalSalinity) MarshalJSON() ([]byte, error) { return null.Write(s) }

// UnmarshalJSON reads the text, and null as unknown.
func (s *PracticalSalinity) UnmarshalJSON(text []byte) error { return null.Read(text, s) }

// MarshalJSON writes the text, null where there is none.
func (r Resistivity) MarshalJSON() ([]byte, error) { return null.Write(r) }

// UnmarshalJSON reads the text, and null as unknown.
func (r *Resistivity) UnmarshalJSON(text []byte) error { return null.Read(text, r) }

// MarshalJSON writes the text, null where there is none.
func (p SeaPressure) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *SeaPressure) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// MarshalJSON writes the text, null where there is none.
func (g SpecificGravity) MarshalJSON() ([]byte, error) { return null.Write(g) }

// UnmarshalJSON reads the text, and null as unknown.
func (g *SpecificGravity) UnmarshalJSON(text []byte) error { return null.Read(text, g) }

// MarshalJSON writes the text, null where there is none.
func (c SpecificHeat) MarshalJSON() ([]byte, error) { return null.Write(c) }

// UnmarshalJSON reads the text, and null as unknown.
func (c *SpecificHeat) UnmarshalJSON(text []byte) error { return null.Read(text, c) }

// MarshalJSON writes the text, null where there is none.
func (s Speed) MarshalJSON() ([]byte, error) { return null.Write(s) }

// UnmarshalJSON reads the text, and null as unknown.
func (s *Speed) UnmarshalJSON(text []byte) error { return null.Read(text, s) }

// MarshalJSON writes the text, null where there is none.
func (r TDS) MarshalJSON() ([]byte, error) { return null.Write(r) }

// UnmarshalJSON reads the text, and null as unknown.
func (r *TDS) UnmarshalJSON(text []byte) error { return null.Read(text, r) }

// MarshalJSON writes the text, null where there is none.
func (t Temperature) MarshalJSON() ([]byte, error) { return null.Write(t) }

// UnmarshalJSON reads the text, and null as unknown.
func (t *Temperature) UnmarshalJSON(text []byte) error { return null.Read(text, t) }

// MarshalJSON writes the text, null where there is none.
func (d TemperatureDifference) MarshalJSON() ([]byte, error) { return null.Write(d) }

// UnmarshalJSON reads the text, and null as unknown.
func (d *TemperatureDifference) UnmarshalJSON(text []byte) error { return null.Read(text, d) }

// MarshalJSON writes the text, null where there is none.
func (k ThermalConductance) MarshalJSON() ([]byte, error) { return null.Write(k) }

// UnmarshalJSON reads the text, and null as unknown.
func (k *ThermalConductance) UnmarshalJSON(text []byte) error { return null.Read(text, k) }

// MarshalJSON writes the text, null where there is none.
func (v Voltage) MarshalJSON() ([]byte, error) { return null.Write(v) }

// UnmarshalJSON reads the text, and null as unknown.
func (v *Voltage) UnmarshalJSON(text []byte) error { return null.Read(text, v) }

// MarshalJSON writes the text, null where there is none.
func (v Volume) MarshalJSON() ([]byte, error) { return null.Write(v) }

// UnmarshalJSON reads the text, and null as unknown.
func (v *Volume) UnmarshalJSON(text []byte) error { return null.Read(text, v) }

// MarshalJSON writes the text, null where there is none.
func (g BareGravity) MarshalJSON() ([]byte, error) { return null.Write(g) }

// UnmarshalJSON reads the text, and null as unknown.
func (g *BareGravity) UnmarshalJSON(text []byte) error { return null.Read(text, g) }

// MarshalJSON writes the text, null where there is none.
func (c ConductivityAt) MarshalJSON() ([]byte, error) { return null.Write(c) }

// UnmarshalJSON reads the text, and null as unknown.
func (c *ConductivityAt) UnmarshalJSON(text []byte) error { return null.Read(text, c) }

// MarshalJSON writes the text, null where there is none.
func (d Duration) MarshalJSON() ([]byte, error) { return null.Write(d) }

// UnmarshalJSON reads the text, and null as unknown.
func (d *Duration) UnmarshalJSON(text []byte) error { return null.Read(text, d) }

// MarshalJSON writes the text, null where there is none.
func (r Ratio) MarshalJSON() ([]byte, error) { return null.Write(r) }

// UnmarshalJSON reads the text, and null as unknown.
func (r *Ratio) UnmarshalJSON(text []byte) error { return null.Read(text, r) }
