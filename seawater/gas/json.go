package gas

import "example.org/wellmixed/internal/null"

// MarshalJSON writes the text, null where there is none.
func (k TransferRate) MarshalJSON() ([]byte, error) { return null.Write(k) }

// UnmarshalJSON reads the text, and null as unknown.
func (k *TransferRate) UnmarshalJSON(text []byte) error { return null.Read(text, k) }
