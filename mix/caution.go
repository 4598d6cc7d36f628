package mix

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
	heaterDry      = Caution{"heater-dry", Danger, "A heater out of water can burst or start a fire: switch it off before the level falls below its mark and let it cool first."}
	heavyVessel    = Caution{"heavy-vessel", Danger, "The filled vessel is too heavy to lift: pump the water, or carry it in small parts (the NIOSH lifting equation of 1994 starts from 23 kg under ideal conditions). Check that the floor carries it."}
	dustySalt      = Caution{"dusty-salt", Note, "Dry salt dust irritates eyes and lungs: pour low, keep it closed and dry, keep it from children."}
	settledSalt    = Caution{"settled-salt", Note, "Salt in an opened package settles by grain size and takes up moisture: turn the package over before scooping; a scoop weighs differently from package to package."}
)

// liftLimit is the load constant of the revised NIOSH lifting equation
// (Waters, Putz-Anderson and Garg 1994, DHHS (NIOSH) 94-110): 23 kg, under
// ideal conditions.
const liftLimit = 23e3 // g
