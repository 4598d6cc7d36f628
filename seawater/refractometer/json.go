package refractometer

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (n AirIndex) MarshalJSON() ([]byte, error) { return null.Write(n) }

// UnmarshalJSON reads the text, and null as unknown.
func (n *AirIndex) UnmarshalJSON(text []byte) error { return null.Read(text, n) }

// MarshalJSON writes the text, null where there is none.
func (g Graduation) MarshalJSON() ([]byte, error) { return null.Write(g) }

// UnmarshalJSON reads the text, and null as unknown.
func (g *Graduation) UnmarshalJSON(text []byte) error { return null.Read(text, g) }

// MarshalJSON writes the text, null where there is none.
func (l Liquid) MarshalJSON() ([]byte, error) { return null.Write(l) }

// UnmarshalJSON reads the text, and null as unknown.
func (l *Liquid) UnmarshalJSON(text []byte) error { return null.Read(text, l) }

// MarshalJSON writes the text, null where there is none.
func (n VacuumIndex) MarshalJSON() ([]byte, error) { return null.Write(n) }

// UnmarshalJSON reads the text, and null as unknown.
func (n *VacuumIndex) UnmarshalJSON(text []byte) error { return null.Read(text, n) }
