package titration

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (p Point) MarshalJSON() ([]byte, error) { return null.Write(p) }

// UnmarshalJSON reads the text, and null as unknown.
func (p *Point) UnmarshalJSON(text []byte) error { return null.Read(text, p) }
