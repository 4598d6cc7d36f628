package carbonate

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (f FCO2) MarshalJSON() ([]byte, error) { return null.Write(f) }

// UnmarshalJSON reads the text, and null as unknown.
func (f *FCO2) UnmarshalJSON(text []byte) error { return null.Read(text, f) }

// MarshalJSON writes the text, null where there is none.
func (p FreePH) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *FreePH) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// MarshalJSON writes the text, null where there is none.
func (k Known) MarshalJSON() ([]byte, error) { return null.Write(k) }

// UnmarshalJSON reads the text, and null as unknown.
func (k *Known) UnmarshalJSON(text []byte) error { return null.Read(text, k) }

// MarshalJSON writes the text, null where there is none.
func (p NBSPH) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *NBSPH) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// MarshalJSON writes the text, null where there is none.
func (p PCO2) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *PCO2) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// MarshalJSON writes the text, null where there is none.
func (p SeawaterPH) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *SeawaterPH) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// MarshalJSON writes the text, null where there is none.
func (t Total) MarshalJSON() ([]byte, error) { return null.Write(t) }

// UnmarshalJSON reads the text, and null as unknown.
func (t *Total) UnmarshalJSON(text []byte) error { return null.Read(text, t) }

// MarshalJSON writes the text, null where there is none.
func (p TotalPH) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *TotalPH) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// MarshalJSON writes the text, null where there is none.
func (x XCO2) MarshalJSON() ([]byte, error) { return null.Write(x) }

// UnmarshalJSON reads the text, and null as unknown.
func (x *XCO2) UnmarshalJSON(text []byte) error { return null.Read(text, x) }
