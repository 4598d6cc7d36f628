package electrode

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (b SeawaterBuffer) MarshalJSON() ([]byte, error) { return null.Write(b) }

// UnmarshalJSON reads the text, and null as unknown.
func (b *SeawaterBuffer) UnmarshalJSON(text []byte) error { return null.Read(text, b) }
