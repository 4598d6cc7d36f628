package ions

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (c Composition) MarshalJSON() ([]byte, error) { return null.Write(c) }

// UnmarshalJSON reads the text, and null as unknown.
func (c *Composition) UnmarshalJSON(text []byte) error { return null.Read(text, c) }
