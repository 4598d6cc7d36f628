package main

import (
	"fmt"
	"math"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// bought is what the span takes of one thing.
type bought struct {
	What     string
	Amount   replenish.Amount
	Packages float64     `json:",omitempty"`
	Cost     units.Money `json:",omitempty"`
	Why      string      // it is needed, or is not known
}

// shop lists what the routine takes over the span.
func (y *year) shop() {
	span, fresh, pure := y.Forecast.Span, y.routine.Stream.Flow.Volume(y.Forecast.Span), units.Volume(0)
	for _, c := range y.routine.Changes {
		switch {
		case c.First > span:
		case c.Every == 0:
			fresh += c.Swap
		default:
			fresh += c.Swap * units.Volume(1+(span-c.First)/c.Every)
		}
	}
	if !y.routine.TopOff.None {
		pure = y.routine.Evaporation.Volume(span)
	}
	if fresh > 0 {
		pure += y.salt(fresh)
	}
	if pure > 0 {
		b := bought{What: "pure water", Amount: replenish.Amount{Volume: pure}}
		if p := y.h.Pure; p.Bought.Currency != "" {
			b.Cost = p.Bought.Times(pure.Litres())
		} else if p.Waste > 0 {
			b.Why = y.h.Style.Of(pure*units.Volume(p.Waste)) + " to the drain besides"
		}
		y.Shopping = append(y.Shopping, b)
	}
	for _, p := range tested.Parameters() {
		if a, has := y.h.Additive(p); has {
			y.additive(p, a)
		}
	}
}

// salt for so much new water; it returns the pure water that goes in, about as much as the
// mix where the salt is not known.
func (y *year) salt(fresh units.Volume) units.Volume {
	s, warm := y.h.Salt, y.batch.Portion.Temperature()
	if s.SeaSalt == (units.Fraction{}) && s.Label == (mix.Label{}) {
		y.r.Hides("salt.per_litre_of_water", "how much salt to buy")
		return fresh
	}
	price := s.Price
	s.Price = units.Money{} // of whole packages
	plan, err := mix.Plan(mix.Batch{Target: y.batch.Portion.Practical(), Temperature: warm, Amount: mix.FinalVolume(fresh),
		Salt: s, WaterTemperature: warm})
	if err != nil {
		y.Shopping = append(y.Shopping, bought{What: "salt", Why: "not known: " + err.Error()})
		return fresh
	}
	why := "for " + y.h.Style.Of(fresh) + " of new water"
	y.packed(bought{What: "salt", Amount: replenish.Amount{Mass: plan.Salt}, Why: why}, s.Package, price)
	return plan.Water
}

// packed counts the packages of what is sold by the package.
func (y *year) packed(b bought, of units.Mass, price units.Money) {
	if of > 0 && b.Amount.Mass > 0 {
		b.Packages = math.Ceil(float64(b.Amount.Mass/of) - 1e-9)
		b.Cost = price.Times(b.Packages)
	}
	y.Shopping = append(y.Shopping, b)
}

// additive is what the doses and pumps of the file take of it, or, if there are none, what
// gives back all that is used.
func (y *year) additive(p tested.Parameter, a home.Additive) {
	rt, perDay, why := y.routine, 0., "for what is dosed of "+string(p)
	if l, has := rt.Pumped.Of(p); has {
		perDay += l.Base()
	}
	for _, d := range rt.Doses {
		if l, has := d.Levels.Of(p); has && d.Every > 0 {
			perDay += l.Base() * float64(day) / float64(d.Every)
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
		y.Shopping = append(y.Shopping, bought{What: a.Name, Why: "not known: " + err.Error()})
		return
	}
	days := y.Forecast.Span.Hours() / 24
	y.packed(bought{What: a.Name, Why: why, Amount: replenish.Amount{
		Mass: plan.PerDay.Mass * units.Mass(days), Volume: plan.PerDay.Volume * units.Volume(days),
	}}, a.Package, a.Price)
	y.r.Care("handling chemicals", a.Holds.Cautions()...)
}

// toBuy writes the list; it returns the same in one line, with what it costs.
func (y *year) toBuy() string {
	t := &paper.Table{Left: true}
	var list []string
	var sum units.Money
	for _, b := range y.Shopping {
		amount, packages := y.h.Style.Amount(b.Amount), ""
		if b.Packages > 0 {
			packages = fmt.Sprintf("packages: %.0f", b.Packages)
		}
		t.Row(b.What, amount, packages, paper.Money(b.Cost), b.Why)
		if b.Amount != (replenish.Amount{}) {
			list = append(list, amount+" of "+b.What)
		}
		if b.Cost.Currency != "" && (sum.Currency == "" || sum.Currency == b.Cost.Currency) {
			sum = units.Money{Amount: sum.Amount + b.Cost.Amount, Currency: b.Cost.Currency}
		}
	}
	if len(t.Rows) == 0 {
		return ""
	}
	y.r.Add("To buy for "+paper.Span(y.Forecast.Span), t)
	if sum.Currency != "" {
		return paper.And(list) + ", " + paper.Money(sum)
	}
	return paper.And(list)
}
