package replenish

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Ageing is what daily doses leave in a tank for a long time.
type Ageing struct {
	Water  seawater.Sample  // the tank at the start, of the composition of the ocean
	Leaves ions.Composition // in a kilogram of it, every day: the sum of UpkeepPlan.LeavesPerDay
	Change units.Fraction   // of the water at each change, for new water like that at the start; 0 for none
	Every  time.Duration    // from change to change
	After  time.Duration    // how long
}

// Aged is what has become of the tank. The keeper has held the mass dissolved
// where it was, by taking tank water out for pure water.
type Aged struct {
	Composition ions.Composition
	Deviations  []ions.Deviation // from the ocean at the same mass dissolved
	// Readings are what instruments make of it: what each shows, and how far that
	// is from what is dissolved. At the start all agreed.
	Readings ions.Readings
}

// Age works out what years of dosing do to the composition of a tank, and so to
// what its instruments show. After n changes of a share x, each after gaining g,
//
//	c = c0 + g (1 - (1 - x)ⁿ)/x, and what was gained since the last one
//
// then thinned to the mass dissolved at the start. Doses of calcium and of
// alkalinity that are not quite one to two, as uses that were measured never are,
// leave charges over; they are made up with sodium or chloride, because the keeper
// holds the alkalinity. An analysis by a laboratory
// tells what really became of it.
func Age(a Ageing) (Aged, error) {
	if err := a.check(); err != nil {
		return Aged{}, err
	}
	gains := a.After.Hours() / 24 // in days' worth of leavings
	if a.Change.Value() != 0 {
		n := math.Floor(float64(a.After) / float64(a.Every))
		x, interval := a.Change.Value(), a.Every.Hours()/24
		left := 1 - x // of what a change finds
		gains = interval*left*(1-math.Pow(left, n))/x + gains - n*interval
	}
	leaves := a.Leaves
	if q := leaves.Charge(); q > 0 {
		leaves = leaves.Add(ions.Chloride, q)
	} else if q < 0 {
		leaves = leaves.Add(ions.Sodium, -q)
	}
	start := ions.Reference(a.Water.Practical())
	c := start.Plus(leaves.Scale(gains))
	has := c.SolutionSalinity().GramsPerKilogram()
	if !(has > 0) {
		return Aged{}, input.Bad("leaves", input.Number(has)+" g/kg dissolved in the end", "what leaves the water a water")
	}
	c = c.Scale(start.SolutionSalinity().GramsPerKilogram() / has)
	if err := c.Check(); err != nil {
		return Aged{}, input.In("leaves", err)
	}
	r, err := c.Readings(a.Water.Temperature())
	if err != nil {
		return Aged{}, input.In("water", err)
	}
	return Aged{Composition: c, Deviations: c.Deviations(a.Water.Practical()), Readings: r}, nil
}

// check refuses an ageing that no water goes through.
func (a Ageing) check() error {
	list := []error{input.Set("water.temperature", a.Water.Temperature())}
	if !(a.After >= 0) {
		list = append(list, input.Bad("after", a.After.String(), "zero or more"))
	}
	if a.Change.Value() != 0 {
		list = append(list, input.Share("change", a.Change))
		if !(a.Every > 0) {
			list = append(list, input.Bad("every", a.Every.String(), "the time from change to change"))
		}
	}
	return input.Join(list...)
}
