package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// way is how the tank comes to its goal. Adding goes first: what an additive at hand gives
// is added, and changes are made for what only they can do. The alternative is to change
// until there is no more to gain.
type way struct {
	Course  *dilution.CoursePlan // for what is too high, and for salinity; nil if nothing asks for it
	Doses   []giveBack           // after the last change
	Reached []string             // goals that the tank meets as it is

	Alternative *dilution.CoursePlan // by changes alone; nil if that is no other way
	Problems    []string
}

// giveBack is a dose of an additive.
type giveBack struct {
	Of   tested.Parameter
	Name string
	Plan replenish.DosePlan
	Cost units.Money
}

// days is how long a way takes, from the first change to the last dose.
func (w *way) days() time.Duration {
	var d time.Duration
	if w.Course != nil {
		d = w.Course.Duration
	}
	longest := 0
	for _, g := range w.Doses {
		longest = max(longest, len(g.Plan.Steps))
	}
	return d + time.Duration(longest)*24*time.Hour
}

// goal weighs adding against changing.
func (j *job) goal() {
	g := j.h.Goal
	if g.Salinity == (units.PracticalSalinity{}) && len(g.Levels) == 0 {
		return
	}
	if j.Change == nil {
		j.r.Hides("tank.volume", "the way to the goal")
		return
	}
	w := &way{}
	j.Way = w
	onlyChanges := dilution.Goal{Salinity: j.within(g.Salinity)}
	var adds tested.Levels
	for _, to := range g.Levels {
		now, known := j.tank.Level(to.Parameter())
		_, additive := j.h.Additive(to.Parameter())
		switch {
		case !known:
			w.Problems = append(w.Problems, string(to.Parameter())+" was not tested in the tank")
		case now.Base() >= to.Base()*(1-1e-9) && now.Base() <= to.Base()*(1+1e-9),
			now.Base() < to.Base() && lowIsBetter(to.Parameter()):
			w.Reached = append(w.Reached, string(to.Parameter()))
		case now.Base() < to.Base() && additive:
			adds = append(adds, to)
		default:
			onlyChanges.Levels = append(onlyChanges.Levels, to)
		}
	}
	tank := j.Change.After
	if onlyChanges.Salinity != (units.PracticalSalinity{}) || len(onlyChanges.Levels) > 0 {
		if c, err := j.course(onlyChanges); err != nil {
			w.Problems = append(w.Problems, err.Error())
		} else {
			w.Course, tank = &c, c.After
			j.r.Care("changing water", c.Cautions...)
			j.r.Assume(c.Assumptions...)
		}
	}
	j.doses(w, tank, adds)
	if len(adds) > 0 {
		if c, err := j.course(g.Goal); err == nil && c.Changes > 0 && (w.Course == nil || c.Changes > w.Course.Changes) {
			w.Alternative = &c
		}
	}
}

// nearEnough is how near to the salinity of the new water a goal may be: the last tenth would
// take most of the tank.
const nearEnough = 0.3

// within is a goal of salinity that changing water reaches.
func (j *job) within(goal units.PracticalSalinity) units.PracticalSalinity {
	fresh, tank := j.new.Portion.Practical().Value(), j.tank.Portion.Practical().Value()
	switch {
	case goal == (units.PracticalSalinity{}) || math.Abs(goal.Value()-fresh) >= nearEnough:
		return goal
	case math.Abs(tank-fresh) <= nearEnough:
		return units.PracticalSalinity{}
	}
	near := fresh + math.Copysign(nearEnough, tank-fresh)
	j.h.Guess("goal.salinity", fmt.Sprintf("planned to %.1f: changes come only near to the %.1f of the "+
		"new water", near, fresh))
	return units.Practical(near)
}

// lowIsBetter tells of what nobody wants more.
func lowIsBetter(p tested.Parameter) bool {
	return slices.Contains([]tested.Parameter{tested.Nitrate, tested.Phosphate, tested.Ammonia, tested.Silicate}, p)
}

// every is the time between changes on the way.
func (j *job) every() time.Duration {
	if d := j.h.Goal.Every; d > 0 {
		return d
	}
	j.h.Note("goal.every", "not said, taken as a change every 2 days")
	return 2 * 24 * time.Hour
}

func (j *job) course(g dilution.Goal) (dilution.CoursePlan, error) {
	return dilution.PlanCourse(dilution.Course{
		Tank: j.tank, Batch: j.new, Goal: g, Manner: dilution.InSteps, Every: j.every(), Heater: j.h.Heater,
	})
}

// doses plans what is added once the changes are made, one parameter after the other:
// each starts from where the ones before have left the tank.
func (j *job) doses(w *way, tank tested.Water, adds tested.Levels) {
	if len(adds) == 0 {
		return
	}
	air := j.h.AnyAir(j.r)
	for _, to := range adds {
		a, _ := j.h.Additive(to.Parameter())
		plan, err := replenish.Plan(replenish.Dose{Tank: tank, Air: air, To: to, Additive: a.Is})
		if err != nil {
			w.Problems = append(w.Problems, fmt.Sprintf("%s: %v", a.Name, err))
			continue
		}
		if plan.Amount == (replenish.Amount{}) {
			w.Reached = append(w.Reached, string(to.Parameter()))
			continue
		}
		give := giveBack{Of: to.Parameter(), Name: a.Name, Plan: plan}
		if a.Package > 0 && a.Price.Currency != "" && plan.Amount.Mass > 0 {
			give.Cost = units.Money{Amount: a.Price.Amount * float64(plan.Amount.Mass/a.Package), Currency: a.Price.Currency}
		}
		w.Doses = append(w.Doses, give)
		j.r.Care("dosing "+a.Name, plan.Cautions...)
		j.r.Assume(plan.Assumptions...)
		for _, l := range plan.After {
			if l.Parameter() == to.Parameter() {
				tank = tank.With(l)
			}
		}
	}
}

// perLitre is what a litre of new water costs in salt and bought water.
func (j *job) perLitre() (units.Money, bool) {
	cost := j.Batch.Cost
	if cost.Currency == "" {
		return cost, false
	}
	sum := cost.Amount
	if b := j.h.Pure.Bought; b.Currency == cost.Currency {
		sum += b.Amount * j.Batch.Water.Litres()
	}
	return units.Money{Amount: sum / j.Batch.Volume.Litres(), Currency: cost.Currency}, true
}

// say writes a way in words.
func (j *job) say(c *dilution.CoursePlan) string {
	s := j.h.Style
	if c.Changes == 0 {
		return "no change"
	}
	text := fmt.Sprintf("%d changes of %s, one every %s", c.Changes, s.Of(c.Each), span(j.every()))
	if c.Changes == 1 {
		text = "one change of " + s.Of(c.Each)
	}
	if price, known := j.perLitre(); known {
		text += fmt.Sprintf(", %.2f %s", price.Amount*c.Total.Litres(), price.Currency)
	}
	return text
}

// capital writes a name at the beginning of a sentence.
func capital(name string) string { return strings.ToUpper(name[:1]) + name[1:] }
