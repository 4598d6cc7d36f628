package dilution_test

import (
	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// levelsOf returns the levels of a water, of a goal, or the list itself.
func levelsOf(of any) tested.Levels {
	switch x := of.(type) {
	case tested.Water:
		return x.Levels
	case *tested.Water:
		return x.Levels
	case tested.Levels:
		return x
	case dilution.Goal:
		return x.Levels
	}
	panic("no levels")
}

// massIn returns a level as it is counted.
func massIn(of any, p tested.Parameter) (units.MassPerLitre, bool) {
	l, known := levelsOf(of).Of(p)
	return l.MassPerLitre(), known
}

func alkalinityIn(of any) (units.Alkalinity, bool) {
	l, known := levelsOf(of).Of(tested.Alkalinity)
	return l.Alkalinity(), known
}

// none are no limits at all.
var none = tested.Limits{WithoutUsual: true}
