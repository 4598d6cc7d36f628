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
	c := paper.NewChart(capital(string(u.Parameter)), unit, paper.Decimals(string(u.Parameter)))
	counted := func(base float64) float64 {
		x, _ := u.Now.WithBase(base).Counted()
		return x
	}
	for _, t := range j.log.Tests {
		if t.Level.Parameter() == u.Parameter && (c.Start.IsZero() || t.At.Before(c.Start)) {
			c.Start = t.At
		}
	}
	for _, t := range j.log.Tests {
		if t.Level.Parameter() == u.Parameter {
			m := paper.Measured{At: t.At.Sub(c.Start), Value: counted(t.Level.Base())}
			if t.Uncertainty.Exists() {
				m.Doubt = counted(t.Uncertainty.Base())
			}
			c.Measured = append(c.Measured, m)
		}
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
			c.Events = append(c.Events, paper.Event{At: at.Sub(c.Start), What: what})
		}
	}
	for i, d := range j.h.Dosed {
		brings, known := j.brings(j.log.Doses[i], u.Parameter)
		switch what := j.amount(d.Amount) + " of " + d.Additive; {
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

// goBack walks through what happened, the last first, in steps that make a line of the
// terminal too.
func goBack(u replenish.Use, start time.Time, list []happening) []place {
	line := []place{{u.At, u.Now.Base()}}
	pumped := 0.
	step := max(u.At.Sub(start)/100, time.Minute)
	for _, h := range list {
		if h.at.Before(start) {
			break
		}
		for now := line[len(line)-1]; now.at.After(h.at); now = line[len(line)-1] {
			then := now.at.Add(-step)
			if then.Before(h.at) {
				then = h.at
			}
			days := now.at.Sub(then).Hours() / 24
			line = append(line, place{then, now.base + float64((u.PerDay.Base()-pumped)*days)})
		}
		pumped += h.pumped
		if x := h.before(line[len(line)-1].base); x != line[len(line)-1].base && !math.IsInf(x, 0) {
			line = append(line, place{h.at, x})
		}
	}
	slices.Reverse(line)
	return line
}

// brings is by how much a dose raised a parameter, in its base unit.
func (j *job) brings(d replenish.Dosed, p tested.Parameter) (base float64, known bool) {
	const rise = 1e-3
	plan, err := replenish.Maintain(replenish.Upkeep{Tank: j.tank, Air: j.h.Air, Additive: d.Additive,
		Use: replenish.Use{Parameter: p, PerDay: p.None().WithBase(rise)}})
	switch {
	case err != nil: // it brings nothing, unless nobody can tell
		return 0, p != tested.Alkalinity && p != tested.Calcium || j.h.Tank.PH.Given() || j.h.Air > 0
	case plan.PerDay.Volume > 0:
		return rise * float64(d.Amount.Volume/plan.PerDay.Volume), true
	}
	return rise * float64(d.Amount.Mass/plan.PerDay.Mass), true
}
