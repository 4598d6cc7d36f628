package main

import (
	"fmt"
	"math"
	"time"

	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/units"
)

// due is something to be done before the change.
type due struct {
	Before time.Duration // the change
	What   string
}

// plan is the timeline, backwards from the change.
func (j *job) plan() {
	measure := time.Hour
	circulate := night
	if j.Heat != nil {
		circulate = max(circulate, j.Heat.Time+2*time.Hour)
	}
	mixing := measure + circulate
	if f := j.flow(); f > 0 {
		need := j.Batch.Water
		takes := f.Time(need)
		j.Timeline = append(j.Timeline, due{
			mixing + takes,
			fmt.Sprintf("purifier on: %s in %s", j.h.Style.Of(need), span(takes)),
		})
	}
	j.Timeline = append(j.Timeline, due{mixing, "water in the vessel, pump and heater on, salt in; lid on"},
		due{measure, "measure; correct if it is off, and measure again"}, due{0, "change"})
}

// timeline writes the table.
func (j *job) timeline() *paper.Table {
	t := &paper.Table{Left: true}
	for _, d := range j.Timeline {
		when := span(d.Before) + " before"
		if d.Before == 0 {
			when = "then"
		}
		if at := j.h.Change.At; !at.IsZero() {
			when = paper.Day(at.Add(-d.Before).Round(5 * time.Minute))
		}
		t.Row(when, d.What)
	}
	return t
}

// purchase is what a span of changes takes of one thing.
type purchase struct {
	What     string
	Amount   string
	Packages float64 // whole ones; 0 if it is not sold in packages
	Cost     units.Money
}

// halfYear is how far ahead is bought where nobody says.
const halfYear = 26 * 7 * 24 * time.Hour

// shop adds up what the span takes.
func (j *job) shop() {
	h := j.h
	if h.Change.Every == 0 || j.Change == nil {
		j.r.Hides("change.every", "what to buy, and what comes until the next change")
		return
	}
	changes := math.Ceil(float64(j.span()) / float64(h.Change.Every))
	salt := j.Batch.Salt * units.Mass(changes)
	buy := func(what, amount string, packages float64, each units.Money) {
		p := purchase{What: what, Amount: amount, Packages: packages}
		if each.Currency != "" {
			p.Cost = units.Money{Amount: each.Amount * packages, Currency: each.Currency}
		}
		j.Shopping = append(j.Shopping, p)
	}
	packages := 0.
	if h.Salt.Package > 0 {
		packages = math.Ceil(float64(salt/h.Salt.Package) - 1e-9)
	}
	buy("salt", h.Style.Of(salt), packages, h.Salt.Price)
	water := j.Batch.Water*units.Volume(changes) + h.Routine.Evaporation.Volume(j.span())
	if price := h.Pure.Bought; price.Currency != "" {
		j.Shopping = append(j.Shopping, purchase{What: "pure water", Amount: h.Style.Of(water),
			Cost: units.Money{Amount: price.Amount * water.Litres(), Currency: price.Currency}})
	} else {
		buy("pure water to make", h.Style.Of(water), 0, units.Money{})
	}
	if j.Purifier != nil {
		if life := j.Purifier.Lasts.Resin; life > 0 {
			n := float64(water / life)
			buy("resin", used(n)+" of a filling, which lasts for "+
				h.Style.Of(life), math.Ceil(n-1e-9), h.Pure.System.Resin.Price)
		}
		if life := j.Purifier.Lasts.Sediment; life > 0 {
			n := float64(water / life)
			buy("sediment cartridge", used(n)+" of one", math.Ceil(n-1e-9), h.Pure.System.Sediment.Price)
		}
	}
	if j.Way != nil {
		for _, g := range j.Way.Doses {
			if a, _ := h.Additive(g.Of); g.Plan.Amount.Mass > 0 {
				n := 0.
				if a.Package > 0 {
					n = math.Ceil(float64(g.Plan.Amount.Mass/a.Package) - 1e-9)
				}
				buy(g.Name+", for the goal", h.Style.Of(g.Plan.Amount.Mass), n, a.Price)
			}
		}
	}
}

// used writes how much of something is used up.
func used(n float64) string {
	if n < 2 {
		return paper.Fixed(100*n, 0) + " %"
	}
	return paper.Fixed(n, 1) + " times all"
}

// span is how far ahead to buy.
func (j *job) span() time.Duration {
	if d := j.h.Forecast.Span; d > 0 {
		return d
	}
	return halfYear
}

func span(d time.Duration) string { return paper.Span(d) }
