package dilution

import (
	"example.org/wellmixed/internal/input"
)

// Measured is a measured level, or none: its zero value is "not measured", which
// is not the same as zero. Known makes one.
type Measured[Q ~float64] struct {
	value Q
	known bool
}

// Known returns a measured level.
func Known[Q ~float64](q Q) Measured[Q] { return Measured[Q]{q, true} }

// Value returns the level, NaN if it was not measured, and whether it was.
func (m Measured[Q]) Value() (Q, bool) {
	if !m.known {
		return input.NaN[Q](), false
	}
	return m.value, true
}

// String writes the level, or nothing if it was not measured.
func (m Measured[Q]) String() string {
	if !m.known {
		return ""
	}
	if q, ok := any(m.value).(interface{ String() string }); ok {
		return q.String()
	}
	return input.Number(float64(m.value))
}

// MarshalText writes the level as its quantity does, or nothing if it was not
// measured.
func (m Measured[Q]) MarshalText() ([]byte, error) {
	if q, ok := any(m.value).(interface{ MarshalText() ([]byte, error) }); ok && m.known {
		return q.MarshalText()
	}
	return []byte(m.String()), nil
}

// UnmarshalText reads a level as its quantity does; an empty text is a level
// that was not measured.
func (m *Measured[Q]) UnmarshalText(text []byte) error {
	*m = Measured[Q]{}
	if len(text) == 0 {
		return nil
	}
	q, ok := any(&m.value).(interface{ UnmarshalText([]byte) error })
	if !ok {
		return input.Bad("level", `"`+string(text)+`"`, "a quantity that can be read from text")
	}
	m.known = true
	return q.UnmarshalText(text)
}
