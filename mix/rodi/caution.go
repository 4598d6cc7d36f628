package rodi

import "example.org/wellmixed/mix"

// Cautions of making pure water.
var (
	drinkingLine   = mix.Caution{ID: "drinking-water-line", Severity: mix.Danger, Text: "The feed is a drinking-water line: a backflow preventer and an air gap at the drain keep waste water out of it. Local codes decide how it may be tapped; work on the line is for a licensed plumber."}
	unattended     = mix.Caution{ID: "filling-unattended", Severity: mix.Care, Text: "Do not leave a filling vessel unattended: a float valve together with an automatic shut-off, and a leak detector that closes the feed, have saved many floors. Close the tap when you leave."}
	pressureLimit  = mix.Caution{ID: "pressure-limit", Severity: mix.Care, Text: "Housings and hoses burst above the pressure on their labels, and water hammer adds to it: where the mains may exceed it, by night too, a pressure reducer belongs before the system."}
	chlorineKills  = mix.Caution{ID: "chlorine-membrane", Severity: mix.Care, Text: "Chlorine destroys thin-film membranes: they need carbon before them, and a chlorine test behind the carbon at full flow that shows nothing."}
	chloraminePass = mix.Caution{ID: "chloramine", Severity: mix.Care, Text: "Chloramine needs several times the contact with carbon that chlorine does: test total chlorine, not free, behind the carbon and in the product. The ammonia it leaves is poison to animals; test for that too."}
	notForDrinking = mix.Caution{ID: "not-for-drinking", Severity: mix.Danger, Text: "Water from resin is not for drinking: resin is not made for it and bacteria live in it. Mark the tap. Keep resin from children; it is slippery on floors and hurts eyes."}
	hotWater       = mix.Caution{ID: "hot-water", Severity: mix.Care, Text: "Cold feed only: hot water, above 45 °C as a rule (common practice), ruins membranes and softens housings. Mixing taps can let it through."}
	frost          = mix.Caution{ID: "frost", Severity: mix.Care, Text: "Near freezing: ice breaks housings and membranes, and a system that freezes floods when it thaws."}
	noMetal        = mix.Caution{ID: "pure-water-metal", Severity: mix.Care, Text: "Pure water dissolves copper, brass and zinc, which kill invertebrates: plastic only behind the membrane."}
	flushFirst     = mix.Caution{ID: "flush-first", Severity: mix.Note, Text: "The first minutes after standstill are salty and wear out resin: let them run off. Run a new membrane to waste as its maker says."}
	scaling        = mix.Caution{ID: "scaling", Severity: mix.Care, Text: "With so little waste, lime and silica are left on the membrane unless the feed is soft: more waste, or a softener before it."}
)

func (s System) cautions(f Feed, p Product) []mix.Caution {
	list := []mix.Caution{drinkingLine, unattended, pressureLimit, hotWater, noMetal, flushFirst}
	if f.Chlorine > 0 || f.Chloramine > 0 || s.Carbon == (Carbon{}) {
		list = append(list, chlorineKills)
	}
	if f.Chloramine > 0 {
		list = append(list, chloraminePass)
	}
	if s.Resin != (Resin{}) {
		list = append(list, notForDrinking)
	}
	if f.Temperature.Celsius() < 4 {
		list = append(list, frost)
	}
	if p.Recovery > usualRecovery {
		list = append(list, scaling)
	}
	return list
}

// usualRecovery is the recovery above which hard water scales a membrane
// (common practice: one part of waste to one of product at most).
const usualRecovery = 0.5
