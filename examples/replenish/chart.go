package main

import (
	"math"
	"slices"
	"time"

	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
)

// chart draws the tests of a parameter, what was done meanwhile, and the use that was
// fitted to them.
func (j *job) chart(u replenish.Use) *paper.Chart {
	_, unit := u.Now.Counted()
	c := paper.NewChart(paper.Capital(string(u.Parameter)), unit, paper.Decimals(string(u.Parameter)))
	counted := func(base float64) float64 {
		x, _ := u.Now.WithBase(base).Counted()
		return x
	}
	others := func(t replenish.Test) bool { return t.Level.Parameter() != u.Parameter }
	tests := slices.DeleteFunc(slices.Clone(j.log.Tests), others)
	c.Start = slices.MinFunc(tests, func(a, b replenish.Test) int { return a.At.Compare(b.At) }).At
	for _, t := range tests {
		m := paper.Measured{At: t.At.Sub(c.Start), Value: counted(t.Level.Base())}
		if t.Uncertainty.Exists() {
			m.Doubt = counted(t.Uncertainty.Base())
		}
		c.Measured = append(c.Measured, m)
	}
	if l, has := j.h.Lowest.Of(u.Parameter); has {
		c.Low = counted(l.Base())
	}
	if list, known := j.happened(u, c); known {
		goBack(u, list, c)
	}
	for i, base := range c.Value {
		c.Value[i] = counted(base)
	}
	return c
}

func on(t time.Time) string { return t.Format("2 January") }

// happening is a moment of the log, told backwards: what the level was before it, if it was
// so much after, and by how much less was pumped a day.
type happening struct {
	at     time.Time
	before func(after float64) float64
	pumped float64
}

// happened lists what happened since the first test, the last first, by the bookkeeping of
// replenish.Consumption: uses and pumps run evenly, a change of water takes its share. It
// also marks it on the chart. What a dose brought may not be known.
func (j *job) happened(u replenish.Use, c *paper.Chart) (list []happening, known bool) {
	same := func(x float64) float64 { return x }
	mark := func(at time.Time, what, when string) {
		if !at.Before(c.Start) {
			if done := what + " " + when; !slices.Contains(j.done, done) {
				j.done = append(j.done, done)
			}
			what += " " + when
			c.Events = append(c.Events, paper.Event{At: at.Sub(c.Start), What: what})
		}
	}
	for i, d := range j.h.Dosed {
		brings, known := j.brings(j.log.Doses[i], u.Parameter)
		switch what := j.h.Style.Amount(d.Amount) + " of " + d.Additive; {
		case !known:
			return nil, false
		case brings == 0:
		case d.To.After(d.From):
			mark(d.From, what, "from "+on(d.From)+" to "+on(d.To))
			perDay := brings / (d.To.Sub(d.From).Hours() / 24)
			list = append(list, happening{d.From, same, -perDay}, happening{d.To, same, perDay})
		default:
			mark(d.From, what, "on "+on(d.From))
			list = append(list, happening{d.From, func(x float64) float64 { return x - brings }, 0})
		}
	}
	for _, w := range j.log.Changes {
		fresh, _ := tested.Levels(w.Fresh).Of(u.Parameter)
		share := float64(w.Swapped / j.log.Volume)
		mark(w.At, "a change of "+j.h.Style.Of(w.Swapped), "on "+on(w.At))
		list = append(list, happening{w.At, func(x float64) float64 { return (x - share*fresh.Base()) / (1 - share) }, 0})
	}
	list = append(list, happening{c.Start, same, 0})
	slices.SortStableFunc(list, func(a, b happening) int { return b.at.Compare(a.at) })
	return list, true
}

// goBack draws the line from where the fit ends to the first test, in base units.
func goBack(u replenish.Use, list []happening, c *paper.Chart) {
	at, base, pumped := u.At, u.Now.Base(), 0.
	c.Add(at.Sub(c.Start), base)
	for _, h := range list {
		if h.at.Before(c.Start) || math.IsInf(base, 0) { // before a change of all the water nothing is known
			break
		}
		if h.at.Before(at) {
			base += float64((u.PerDay.Base() - pumped) * at.Sub(h.at).Hours() / 24)
			at = h.at
			c.Add(at.Sub(c.Start), base)
		}
		pumped += h.pumped
		if x := h.before(base); x != base && !math.IsInf(x, 0) {
			c.Add(at.Sub(c.Start), x)
		}
		base = h.before(base)
	}
	slices.Reverse(c.At)
	slices.Reverse(c.Value)
}

// brings is by how much a dose raised a parameter, in its base unit.
func (j *job) brings(d replenish.Dosed, p tested.Parameter) (base float64, known bool) {
	one, err := j.amountFor(d.Additive, p.None().WithBase(1))
	switch {
	case err != nil: // it brings nothing, unless nobody can tell
		return 0, p != tested.Alkalinity && p != tested.Calcium || j.h.Tank.PH.Given() || j.air > 0
	case one.Volume > 0:
		return float64(d.Amount.Volume / one.Volume), true
	}
	return float64(d.Amount.Mass / one.Mass), true
}
