package main

import (
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
	for _, p := range j.fitted(u, c) {
		c.Add(p.at.Sub(c.Start), counted(p.base))
	}
	return c
}

// place is the level of the fit at a time, in its base unit.
type place struct {
	at   time.Time
	base float64
}

// happening is a moment of the log, told backwards: what the level was before it, if it was
// so much after, and by how much less was pumped a day.
type happening struct {
	at     time.Time
	before func(after float64) float64
	pumped float64
}

// fitted goes back from where the fit ends to the first test, by the bookkeeping of
// replenish.Consumption: uses and pumps run evenly, a change of water takes its share. It
// also marks on the chart what was done. Without knowing what a dose brought there is no
// line.
func (j *job) fitted(u replenish.Use, c *paper.Chart) []place {
	same := func(x float64) float64 { return x }
	var list []happening
	mark := func(at time.Time, what string) {
		if !at.Before(c.Start) {
			if done := what + ", " + at.Format("2 January"); !slices.Contains(j.done, done) {
				j.done = append(j.done, done)
			}
			c.Events = append(c.Events, paper.Event{At: at.Sub(c.Start), What: what})
		}
	}
	for i, d := range j.h.Dosed {
		brings, known := j.brings(j.log.Doses[i], u.Parameter)
		switch what := j.h.Style.Amount(d.Amount) + " of " + d.Additive; {
		case !known:
			return nil
		case brings == 0:
		case d.To.After(d.From):
			mark(d.From, what+" until "+d.To.Format("2 January"))
			perDay := brings / (d.To.Sub(d.From).Hours() / 24)
			list = append(list, happening{d.From, same, -perDay}, happening{d.To, same, perDay})
		default:
			mark(d.From, what)
			list = append(list, happening{d.From, func(x float64) float64 { return x - brings }, 0})
		}
	}
	for _, w := range j.log.Changes {
		fresh, _ := tested.Levels(w.Fresh).Of(u.Parameter)
		share := float64(w.Swapped / j.log.Volume)
		mark(w.At, "a change of "+j.h.Style.Volume(w.Swapped))
		list = append(list, happening{w.At, func(x float64) float64 { return (x - share*fresh.Base()) / (1 - share) }, 0})
	}
	list = append(list, happening{c.Start, same, 0})
	slices.SortStableFunc(list, func(a, b happening) int { return b.at.Compare(a.at) })
	return goBack(u, c.Start, list)
}

// goBack walks through what happened, the last first.
func goBack(u replenish.Use, start time.Time, list []happening) []place {
	line := []place{{u.At, u.Now.Base()}}
	pumped := 0.
	for _, h := range list {
		now := line[len(line)-1]
		if h.at.Before(start) {
			break
		}
		if days := now.at.Sub(h.at).Hours() / 24; days > 0 {
			now = place{h.at, now.base + float64((u.PerDay.Base()-pumped)*days)}
			line = append(line, now)
		}
		pumped += h.pumped
		if x := h.before(now.base); x != now.base {
			line = append(line, place{h.at, x})
		}
	}
	slices.Reverse(line)
	return line
}

// brings is by how much a dose raised a parameter, in its base unit.
func (j *job) brings(d replenish.Dosed, p tested.Parameter) (base float64, known bool) {
	one, err := j.amountFor(d.Additive, p.None().WithBase(1))
	switch {
	case err != nil: // it brings nothing, unless nobody can tell
		return 0, p != tested.Alkalinity && p != tested.Calcium || j.h.Tank.PH.Given() || j.h.Air > 0
	case one.Volume > 0:
		return float64(d.Amount.Volume / one.Volume), true
	}
	return float64(d.Amount.Mass / one.Mass), true
}
