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
	scalds = advice.Caution{
		ID:       "scalds",
		Severity: advice.Danger,
		Text: "Hot water scalds within seconds: pour the cold water first and the hot slowly into it, keep children and " +
			"hands away, carry no open vessel of it, and never pour it where animals are. Glass can crack.",
	}
	heatedMix = advice.Caution{
		ID:       "heated-mix",
		Severity: advice.Care,
		Text: "Heat drives carbon dioxide out of salt water: its pH rises and calcium carbonate falls out, first on the " +
			"heater, and takes alkalinity with it. Heat the fresh water instead, dissolve the salt once it is at " +
			"tank temperature, and test the alkalinity.",
	}
	coolSlowly = advice.Caution{
		ID:       "cool-slowly",
		Severity: advice.Care,
		Text: "This is more than animals should bear within an hour: in a stocked tank add the ice in small parts, in the " +
			"stream of a pump and away from animals, and watch the thermometer.",
	}
	pureIce = advice.Caution{
		ID:       "pure-ice",
		Severity: advice.Care,
		Text: "Ice that melts in the water must be of purified water: tap ice brings what the tap has, and bought ice is " +
			"tap ice. Never use dry ice: it acidifies the water and suffocates people and animals.",
	}
	tightBag = advice.Caution{
		ID:       "tight-bag",
		Severity: advice.Care,
		Text: "A leak makes it fresher: use a clean, closed bottle that is not quite full, as water swells when it " +
			"freezes. Cooling packs can hold poison: none of them in a tank.",
	}
	freshened = advice.Caution{
		ID:       "freshened",
		Severity: advice.Care,
		Text: "The melt water lowers the salinity by more than a stocked tank should change in a day: take ice in a closed " +
			"bottle instead, or draw water and make it up with salt.",
	}
	iceBursts = advice.Caution{
		ID:       "ice-bursts",
		Severity: advice.Danger,
		Text: "Freezing water bursts closed or full vessels, pipes, pumps and glass: empty them, or leave a tenth of the " +
			"space, and switch off pumps and heaters that may run dry. Ice on a vessel does not carry a person.",
	}
	thawAndStir = advice.Caution{
		ID:       "thaw-and-stir",
		Severity: advice.Care,
		Text: "What stays liquid is brine, and the melt water is nearly fresh and floats on it: thaw all of it, stir " +
			"until it is clear, and measure salinity and alkalinity before use. Draw nothing from it half frozen.",
	}
	saltsFall = advice.Caution{
		ID:       "salts-fall",
		Severity: advice.Note,
		Text: "Below about -2.2 °C calcium carbonate falls out of the brine, and below -6.4 °C sodium sulphate; the " +
			"carbonate may not dissolve again for days.",
	}
	airFirst = advice.Caution{
		ID:       "air-first",
		Severity: advice.Danger,
		Text: "Without pumps a stocked tank runs out of oxygen before it gets cold: see to moving the surface first, " +
			"with a battery air pump or by hand; cover the sides and the lid with blankets and leave a gap for air.",
	}
)
