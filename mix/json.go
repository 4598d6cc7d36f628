package mix

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (a Amount) MarshalJSON() ([]byte, error) { return null.Write(a) }

// UnmarshalJSON reads the text, and null as unknown.
func (a *Amount) UnmarshalJSON(text []byte) error { return null.Read(text, a) }

// MarshalJSON writes the text, null where there is none.
func (v Vessel) MarshalJSON() ([]byte, error) { return null.Write(v) }

// UnmarshalJSON reads the text, and null as unknown.
func (v *Vessel) UnmarshalJSON(text []byte) error { return null.Read(text, v) }
