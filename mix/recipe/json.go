package recipe

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (b Basis) MarshalJSON() ([]byte, error) { return null.Write(b) }

// UnmarshalJSON reads the text, and null as unknown.
func (b *Basis) UnmarshalJSON(text []byte) error { return null.Read(text, b) }
