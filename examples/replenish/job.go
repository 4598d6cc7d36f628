package main

import (
	"fmt"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// job is everything that the scenario asks for.
type job struct {
	in      inputs
	demand  replenish.Demand
	lasts   []lasting
	upkeeps []upkeep
	doses   []dose
	lime    replenish.LimeSupply
}

// lasting is how long a parameter takes to its lowest level, undosed.
type lasting struct {
	limit tested.Level
	left  replenish.Countdown
}

type upkeep struct {
	named
	use  tested.Level
	plan replenish.UpkeepPlan
}

// besides returns what of the day's dose is left to give if lime water brings so
// much of the parameter; nothing if that is all of it.
func (u upkeep) besides(brought tested.Level) replenish.Amount {
	share := max(0, 1-float64(brought.AmountPerLitre()/u.use.AmountPerLitre()))
	return replenish.Amount{
		Mass:   u.plan.PerDay.Mass * units.Mass(share),
		Volume: u.plan.PerDay.Volume * units.Volume(share),
	}
}

type dose struct {
	named
	plan replenish.DosePlan
}

func work(in inputs) (job, error) {
	j := job{in: in}
	at := func(field string, err error) error { return fmt.Errorf("%s: %w", field, err) }
	var err error
	if in.hasLog {
		if j.demand, err = replenish.Consumption(in.log); err != nil {
			return job{}, err
		}
	}
	for _, l := range in.lowest {
		use, known := j.demand.Of(l.Parameter())
		if !known {
			return job{}, fmt.Errorf("lowest.%v: the tests do not say how fast it is used", l.Parameter())
		}
		left, err := use.Until(l)
		if err != nil {
			return job{}, at("lowest", err)
		}
		j.lasts = append(j.lasts, lasting{l, left})
	}
	for _, n := range in.everyDay {
		use, known := j.demand.Of(n.of)
		if !known {
			return job{}, fmt.Errorf("%s: the tests do not say how fast %v is used", n.field, n.of)
		}
		plan, err := replenish.Maintain(replenish.Upkeep{Tank: in.tank, Air: in.air, Use: use, Additive: n.additive})
		if err != nil {
			return job{}, at(n.field, err)
		}
		j.upkeeps = append(j.upkeeps, upkeep{n, use.PerDay, plan})
	}
	for _, n := range in.goals {
		plan, err := replenish.Plan(replenish.Dose{Tank: in.tank, Air: in.air, To: n.to, Additive: n.additive})
		if err != nil {
			return job{}, at(n.field, err)
		}
		j.doses = append(j.doses, dose{n, plan})
	}
	if in.hasLime {
		if use, known := j.demand.Of(tested.Alkalinity); known && use.PerDay.AmountPerLitre() > 0 {
			in.lime.Demand = use.PerDay
		}
		if j.lime, err = replenish.Lime(in.lime); err != nil {
			return job{}, at("lime_water", err)
		}
	}
	return j, nil
}

// assumptions gathers those of all parts, each once.
func (j job) assumptions() []string {
	all := append([]string{
		"Each goal is planned by itself, from the levels as they are now: reach one after the other, and test in between.",
	}, j.demand.Assumptions...)
	for _, u := range j.upkeeps {
		all = append(all, u.plan.Assumptions...)
	}
	for _, d := range j.doses {
		all = append(all, d.plan.Assumptions...)
	}
	all = append(all, j.lime.Assumptions...)
	seen := map[string]bool{}
	var list []string
	for _, a := range all {
		if !seen[a] {
			seen[a] = true
			list = append(list, a)
		}
	}
	return list
}

// cautions gathers those of all parts, each once, the dangers first.
func (j job) cautions() []advice.Caution {
	all := append([]advice.Caution{}, j.demand.Cautions...)
	for _, u := range j.upkeeps {
		all = append(all, u.plan.Cautions...)
	}
	for _, d := range j.doses {
		all = append(all, d.plan.Cautions...)
	}
	all = append(all, j.lime.Cautions...)
	seen := map[string]bool{}
	var list []advice.Caution
	for severity := advice.Danger; ; severity-- {
		for _, c := range all {
			if c.Severity == severity && !seen[c.ID+c.Text] {
				seen[c.ID+c.Text] = true
				list = append(list, c)
			}
		}
		if severity == advice.Note {
			return list
		}
	}
}
