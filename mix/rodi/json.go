package rodi

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (s Stage) MarshalJSON() ([]byte, error) { return null.Write(s) }

// UnmarshalJSON reads the text, and null as unknown.
func (s *Stage) UnmarshalJSON(text []byte) error { return null.Read(text, s) }
