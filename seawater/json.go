package seawater

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (p Portion) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *Portion) UnmarshalJSON(text []byte) error { return null.Read(text, p) }

// MarshalJSON writes the text, null where there is none.
func (s Sample) MarshalJSON() ([]byte, error) { return null.Write(s) }

// UnmarshalJSON reads the text, and null as unknown.
func (s *Sample) UnmarshalJSON(text []byte) error { return null.Read(text, s) }
