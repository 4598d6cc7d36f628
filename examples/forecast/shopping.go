package main

import (
	"fmt"
	"math"
	"time"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// bought is one thing to buy over the span.
type bought struct {
	what, amount, packages, why string
	cost                        units.Money
}

// shop lists what the routine takes over the span. What cannot be told is told so.
func (y *year) shop() {
	days := y.Forecast.Span.Hours() / 24
	fresh := y.routine.Stream.Flow.Volume(y.Forecast.Span)
	for _, c := range y.routine.Changes {
		n := 1.
		if c.Every > 0 {
			n += math.Floor(float64(y.Forecast.Span-c.First) / float64(c.Every))
		}
		if c.First <= y.Forecast.Span {
			fresh += c.Swap * units.Volume(n)
		}
	}
	pure := units.Volume(0)
	if !y.routine.TopOff.None {
		pure = y.routine.Evaporation.Volume(y.Forecast.Span)
	}
	if fresh > 0 {
		pure += y.salt(fresh)
	}
	if pure > 0 {
		water := bought{what: "pure water", amount: y.h.Style.Volume(pure)}
		if p := y.h.Pure; p.Bought.Currency != "" {
			water.cost = p.Bought.Times(pure.Litres())
		} else if p.Waste > 0 {
			water.why = "and " + y.h.Style.Volume(pure*units.Volume(p.Waste)) + " to the drain"
		}
		y.shopping = append(y.shopping, water)
	}
	for _, p := range tested.Parameters() {
		if a, has := y.h.Additive(p); has {
			y.additive(p, a, days)
		}
	}
}

// salt for so much new water; it returns the pure water that goes in. What does not
// tell how much salt is in it leaves the water about as much as the mix.
func (y *year) salt(fresh units.Volume) units.Volume {
	s := y.h.Salt
	if s.SeaSalt == (units.Fraction{}) && s.Label == (mix.Label{}) {
		y.r.Hides("salt.per_litre_of_water", "how much salt to buy")
		return fresh
	}
	s.Name = ""
	plan, err := mix.Plan(mix.Batch{Target: y.batch.Portion.Practical(), Temperature: y.batch.Portion.Temperature(),
		Amount: mix.FinalVolume(fresh), Salt: s, WaterTemperature: y.batch.Portion.Temperature()})
	if err != nil {
		y.shopping = append(y.shopping, bought{what: "salt", why: "cannot be told: " + err.Error()})
		return fresh
	}
	y.shopping = append(y.shopping, y.packed("salt", plan.Salt, s.Package, s.Price, "for "+y.h.Style.Volume(fresh)+" of new water"))
	return plan.Water
}

// packed is so much of what comes in packages.
func (y *year) packed(what string, m, of units.Mass, price units.Money, why string) bought {
	b := bought{what: what, amount: y.h.Style.Mass(m), why: why}
	if of > 0 {
		n := math.Ceil(float64(m/of) - 1e-9)
		b.packages, b.cost = fmt.Sprintf("%.0f x %s", n, y.h.Style.Mass(of)), price.Times(n)
	}
	return b
}

// additive is what the doses and pumps of the file take of an additive, or, if there are
// none, what gives back all that is used.
func (y *year) additive(p tested.Parameter, a home.Additive, days float64) {
	rt, why := y.routine, "for what is dosed of "+string(p)
	perDay := 0.
	if l, has := rt.Pumped.Of(p); has {
		perDay += l.Base()
	}
	for _, d := range rt.Doses {
		if l, has := d.Levels.Of(p); has && d.Every > 0 {
			perDay += l.Base() * float64(24*time.Hour) / float64(d.Every)
		}
	}
	if use, has := rt.PerDay.Of(p); has && perDay == 0 {
		perDay, why = -use.Base(), "to give back the "+string(p)+" that is used"
	}
	if !(perDay > 0) {
		return
	}
	plan, err := replenish.Maintain(replenish.Upkeep{Tank: rt.Tank, Air: y.h.Air, Additive: a.Is,
		Use: replenish.Use{Parameter: p, PerDay: p.None().WithBase(perDay)}})
	if err != nil {
		y.shopping = append(y.shopping, bought{what: a.Name, why: "cannot be told: " + err.Error()})
		return
	}
	b := y.packed(a.Name, plan.PerDay.Mass*units.Mass(days), a.Package, a.Price, why)
	if v := plan.PerDay.Volume * units.Volume(days); v > 0 {
		b = bought{what: a.Name, amount: y.h.Style.Volume(v), why: why}
	}
	y.shopping = append(y.shopping, b)
	y.r.Care("handling chemicals", a.Holds.Cautions()...)
}

// total lists what is bought, in one line.
func (y *year) total() string {
	var list []string
	var sum units.Money
	for _, b := range y.shopping {
		if b.amount != "" {
			list = append(list, b.amount+" of "+b.what)
		}
		if b.cost.Currency != "" && (sum.Currency == "" || sum.Currency == b.cost.Currency) {
			sum = units.Money{Amount: sum.Amount + b.cost.Amount, Currency: b.cost.Currency}
		}
	}
	if text := join(list); text != "" && sum.Currency != "" {
		return text + ", " + paper.Money(sum)
	}
	return join(list)
}

func (y *year) toBuy() {
	if len(y.shopping) == 0 {
		return
	}
	t := &paper.Table{Left: true}
	for _, b := range y.shopping {
		t.Row(b.what, b.amount, b.packages, paper.Money(b.cost), b.why)
	}
	y.r.Add("To buy for "+y.over(), t)
}
