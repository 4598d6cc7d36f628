package advice

import (
	"slices"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Severity ranks a Caution.
type Severity uint8

// The severities, mildest first.
const (
	Note   Severity = iota // good to know
	Care                   // livestock or equipment can suffer
	Danger                 // people can be hurt, or the whole tank can die

	severities
)

// String returns "note", "care" or "danger".
func (s Severity) String() string {
	switch s {
	case Note:
		return "note"
	case Care:
		return "care"
	case Danger:
		return "danger"
	}
	return "unknown"
}

// MarshalText writes the name of the severity.
func (s Severity) MarshalText() ([]byte, error) {
	return input.WriteChoice("severity", s, Note, severities)
}

// UnmarshalText reads the name of a severity.
func (s *Severity) UnmarshalText(text []byte) (err error) {
	*s, err = input.ReadChoice("severity", text, Note, severities)
	return err
}

// Caution is a warning that goes with a plan: a stable identifier for
// programs, a severity, and a sentence for people. Cautions repeat usual good
// practice; local codes, the instructions of the equipment and licensed
// trades come first. Two cautions of one identifier with different sentences are
// two warnings: merge only those that are equal.
type Caution struct {
	ID       string
	Severity Severity
	Text     string
	Here     bool // it speaks of the numbers of this request; otherwise it always holds
}

// TooHeavy returns the caution for a mass of water that nobody should lift, and
// whether it applies.
func TooHeavy(m units.Mass) (Caution, bool) {
	if !(m > LiftLimit) {
		return Caution{}, false
	}
	return Caution{ID: "heavy-water", Severity: Danger, Here: true, Text: input.Fixed(m.Kilograms(), 0) +
		" kg of water are too heavy to lift: " +
		"pump them, or carry small parts well below " + input.Number(LiftLimit.Kilograms()) +
		" kg, where the NIOSH lifting equation of 1994 starts under ideal conditions. Check that the floor carries it."}, true
}

// Once returns the cautions in their order, each once. Only those that are equal
// in every word are the same: two warnings of one kind with different numbers are
// two dangers.
func Once(list []Caution) []Caution {
	once := make([]Caution, 0, len(list))
	for _, c := range list {
		if !slices.Contains(once, c) {
			once = append(once, c)
		}
	}
	return once
}
