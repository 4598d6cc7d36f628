package mix

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Severity ranks a Caution.
type Severity uint8

// The severities, mildest first.
const (
	Note   Severity = iota // good to know
	Care                   // livestock or equipment can suffer
	Danger                 // people can be hurt
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
func (s Severity) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads the name of a severity.
func (s *Severity) UnmarshalText(text []byte) error {
	for *s = Note; *s <= Danger; *s++ {
		if s.String() == string(text) {
			return nil
		}
	}
	return input.Bad("severity", string(text), "note, care or danger")
}

// Caution is a warning that goes with a plan: a stable identifier for
// programs, a severity, and a sentence for people. Cautions repeat usual good
// practice; local codes, the instructions of the equipment and licensed
// trades come first.
type Caution struct {
	ID       string
	Severity Severity
	Text     string
}

// Cautions of mixing salt water.
var (
	saltIntoWater  = Caution{"salt-into-water", Care, "Water first, then the salt, a scoop at a time into moving water: salt that meets little water cakes and lets calcium carbonate fall out. Never dissolve salt in a vessel with animals in it."}
	mixUntilClear  = Caution{"mix-until-clear", Care, "Circulate until the water is clear, steady in salinity and near pH 8, usually overnight (common practice), with a lid on but air able to reach the water; measure before use."}
	mainsNearWater = Caution{"mains-near-water", Danger, "Pump and heater are mains electricity beside salt water: use a residual-current (ground-fault) protected outlet, leave a drip loop in every cable, unplug before hands go in; wiring is for a licensed electrician under the local code."}
	almostFresh    = Caution{"almost-fresh", Care, "This target is almost fresh water. If a specific gravity was meant, such as 1.026, make the target of that."}
	heaterDry      = Caution{"heater-dry", Danger, "A heater out of water can burst or start a fire: switch it off before the level falls below its mark and let it cool first."}
	dustySalt      = Caution{"dusty-salt", Note, "Dry salt dust irritates eyes and lungs: pour low, keep it closed and dry, keep it from children."}
	settledSalt    = Caution{"settled-salt", Note, "Salt in an opened package settles by grain size and takes up moisture: turn the package over before scooping; a scoop weighs differently from package to package."}
)

// TooHeavy returns the caution for a mass of water that nobody should lift, and
// whether it applies.
func TooHeavy(m units.Mass) (Caution, bool) {
	return Caution{"heavy-water", Danger, input.Fixed(m.Kilograms(), 0) + " kg of water are too heavy to lift: pump them, or carry small parts well below 23 kg, where the NIOSH lifting equation of 1994 starts under ideal conditions. Check that the floor carries it."}, m > liftLimit
}

// liftLimit is the load constant of the revised NIOSH lifting equation
// (Waters, Putz-Anderson and Garg 1994, DHHS (NIOSH) 94-110): 23 kg, under
// ideal conditions.
const liftLimit = 23 * units.Kilogram
