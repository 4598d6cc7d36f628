package rodi

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
)

// Cautions of making pure water.
var (
	drinkingLine = advice.Caution{
		ID:       "drinking-water-line",
		Severity: advice.Danger,
		Text: "The feed is a drinking-water line: a backflow preventer and an air gap at the drain keep waste water " +
			"out of it. Local codes decide how it may be tapped; work on the line is for a licensed plumber.",
	}
	unattended = advice.Caution{
		ID:       "filling-unattended",
		Severity: advice.Care,
		Text: "Do not leave a filling vessel unattended: a float valve together with an automatic shut-off, and a leak " +
			"detector that closes the feed, have saved many floors. Close the tap when you leave.",
	}
	pressureLimit = advice.Caution{
		ID:       "pressure-limit",
		Severity: advice.Care,
		Text: "Housings and hoses burst above the pressure on their labels, and water hammer adds to it: where the " +
			"mains may exceed it, by night too, a pressure reducer belongs before the system.",
	}
	chlorineKills = advice.Caution{
		ID:       "chlorine-membrane",
		Severity: advice.Care,
		Text: "Chlorine destroys thin-film membranes: they need carbon before them, and a chlorine test behind the " +
			"carbon at full flow that shows nothing.",
	}
	chloraminePass = advice.Caution{
		ID:       "chloramine",
		Severity: advice.Care,
		Text: "Chloramine needs several times the contact with carbon that chlorine does: test total chlorine, not " +
			"free, behind the carbon and in the product. The ammonia it leaves is poison to animals; test for that too.",
	}
	notForDrinking = advice.Caution{
		ID:       "not-for-drinking",
		Severity: advice.Danger,
		Text: "Water from resin is not for drinking: resin is not made for it and bacteria live in it. Mark the tap. " +
			"Keep resin from children; it is slippery on floors and hurts eyes.",
	}
	frost = advice.Caution{
		ID:       "frost",
		Severity: advice.Care,
		Text:     "Near freezing: ice breaks housings and membranes, and a system that freezes floods when it thaws.",
	}
	noMetal = advice.Caution{
		ID:       "pure-water-metal",
		Severity: advice.Care,
		Text:     "Pure water dissolves copper, brass and zinc, which kill invertebrates: plastic only behind the membrane.",
	}
	flushFirst = advice.Caution{
		ID:       "flush-first",
		Severity: advice.Note,
		Text: "The first minutes after standstill are salty and wear out resin: let them run off. Run a new membrane " +
			"to waste as its maker says.",
	}
	scaling = advice.Caution{
		ID:       "scaling",
		Severity: advice.Care,
		Text: "With so little waste, lime and silica are left on the membrane unless the feed is soft: more waste, or " +
			"a softener before it.",
	}
)

// The figures of the cautions, common practice.
const (
	hottest       = 45.0 // °C of the feed: thin film and the plastic of the housings bear no more
	frostBelow    = 4.0  // °C of the feed: a pipe in a colder place can freeze
	usualRecovery = 0.5  // of the feed as product; above it, with less than one part of waste to one, hard water scales
)

func hotWater() advice.Caution {
	return advice.Caution{ID: "hot-water", Severity: advice.Care, Text: "Cold feed only: hot water, above " +
		input.Number(hottest) +
		" °C as a rule (common practice), ruins membranes and softens housings. Mixing taps can let it through."}
}

// Cautions are those of making pure water by any system.
func Cautions() []advice.Caution {
	return []advice.Caution{drinkingLine, unattended, pressureLimit, hotWater(), noMetal, flushFirst}
}

func (s System) cautions(f Feed, p Product) []advice.Caution {
	list := Cautions()
	if f.Chlorine > 0 || f.Chloramine > 0 || s.Carbon == (Carbon{}) {
		list = append(list, chlorineKills)
	}
	if f.Chloramine > 0 {
		list = append(list, chloraminePass)
	}
	if s.Resin != (Resin{}) {
		list = append(list, notForDrinking)
	}
	if f.Temperature.Celsius() < frostBelow {
		list = append(list, frost)
	}
	if p.Recovery.Value() > usualRecovery {
		list = append(list, scaling)
	}
	return list
}
