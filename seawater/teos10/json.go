package teos10

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (c Chlorinity) MarshalJSON() ([]byte, error) { return null.Write(c) }

// UnmarshalJSON reads the text, and null as unknown.
func (c *Chlorinity) UnmarshalJSON(text []byte) error { return null.Read(text, c) }

// MarshalJSON writes the text, null where there is none.
func (c Chlorosity) MarshalJSON() ([]byte, error) { return null.Write(c) }

// UnmarshalJSON reads the text, and null as unknown.
func (c *Chlorosity) UnmarshalJSON(text []byte) error { return null.Read(text, c) }

// MarshalJSON writes the text, null where there is none.
func (t ConservativeTemperature) MarshalJSON() ([]byte, error) { return null.Write(t) }

// UnmarshalJSON reads the text, and null as unknown.
func (t *ConservativeTemperature) UnmarshalJSON(text []byte) error { return null.Read(text, t) }

// MarshalJSON writes the text, null where there is none.
func (s KnudsenSalinity) MarshalJSON() ([]byte, error) { return null.Write(s) }

// UnmarshalJSON reads the text, and null as unknown.
func (s *KnudsenSalinity) UnmarshalJSON(text []byte) error { return null.Read(text, s) }

// MarshalJSON writes the text, null where there is none.
func (t PotentialTemperature) MarshalJSON() ([]byte, error) { return null.Write(t) }

// UnmarshalJSON reads the text, and null as unknown.
func (t *PotentialTemperature) UnmarshalJSON(text []byte) error { return null.Read(text, t) }
