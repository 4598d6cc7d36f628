package pitzer

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (s Solid) MarshalJSON() ([]byte, error) { return null.Write(s) }

// UnmarshalJSON reads the text, and null as unknown.
func (s *Solid) UnmarshalJSON(text []byte) error { return null.Read(text, s) }
