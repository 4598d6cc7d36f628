package mix

import "example.org/wellmixed/mix/advice"

// Cautions of mixing salt water.
var (
	saltIntoWater = advice.Caution{
		ID:       "salt-into-water",
		Severity: advice.Care,
		Text: "Water first, then the salt, a scoop at a time into moving water: salt that meets little water cakes and " +
			"lets calcium carbonate fall out. Never dissolve salt in a vessel with animals in it.",
	}
	mixUntilClear = advice.Caution{
		ID:       "mix-until-clear",
		Severity: advice.Care,
		Text: "Circulate until the water is clear, steady in salinity and near pH 8, usually overnight (common " +
			"practice), with a lid on but air able to reach the water; measure before use.",
	}
	mainsNearWater = advice.Caution{
		ID:       "mains-near-water",
		Severity: advice.Danger,
		Text: "Pump and heater are mains electricity beside salt water: use a residual-current (ground-fault) " +
			"protected outlet, leave a drip loop in every cable, unplug before hands go in; wiring is for a licensed " +
			"electrician under the local code.",
	}
	almostFresh = advice.Caution{
		ID:       "almost-fresh",
		Severity: advice.Care,
		Text: "This target is almost fresh water. If a specific gravity was meant, such as 1.026, make the " +
			"target of that.",
	}
	heaterDry = advice.Caution{
		ID:       "heater-dry",
		Severity: advice.Danger,
		Text: "A heater out of water can burst or start a fire: switch it off before the level falls below its mark " +
			"and let it cool first.",
	}
	dustySalt = advice.Caution{
		ID:       "dusty-salt",
		Severity: advice.Note,
		Text:     "Dry salt dust irritates eyes and lungs: pour low, keep it closed and dry, keep it from children.",
	}
	settledSalt = advice.Caution{
		ID:       "settled-salt",
		Severity: advice.Note,
		Text: "Salt in an opened package settles by grain size and takes up moisture: turn the package over before " +
			"scooping; a scoop weighs differently from package to package.",
	}
)
