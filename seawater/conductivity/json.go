package conductivity

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (s Solution) MarshalJSON() ([]byte, error) { return null.Write(s) }

// UnmarshalJSON reads the text, and null as unknown.
func (s *Solution) UnmarshalJSON(text []byte) error { return null.Read(text, s) }

// MarshalJSON writes the text, null where there is none.
func (s Standard) MarshalJSON() ([]byte, error) { return null.Write(s) }

// UnmarshalJSON reads the text, and null as unknown.
func (s *Standard) UnmarshalJSON(text []byte) error { return null.Read(text, s) }
