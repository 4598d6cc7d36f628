package main

import (
	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// job is everything that the file asks for.
type job struct {
	answer
	h      *home.Home
	r      *paper.Report
	tank   tested.Water
	air    carbonate.XCO2 // that it is at rest with, if its pH is not known
	log    home.Log
	done   []string        // what the charts mark
	uses   []replenish.Use // from the log, or as the file says
	silent error           // why the log says nothing
	noLime error
}

// answer is what is written for programs.
type answer struct {
	Name    string
	Demand  *replenish.Demand `json:",omitempty"`
	Lasts   []lasting         `json:",omitempty"`
	Upkeeps []upkeep          `json:",omitempty"`
	Doses   []dose            `json:",omitempty"`
	Lime    *replenish.LimeSupply
}

// lasting is how long a parameter takes to its lowest level, undosed.
type lasting struct {
	Limit tested.Level
	*replenish.Countdown
	Failed string `json:",omitempty"` // why there is no countdown
}

// upkeep is what gives back the use of a parameter.
type upkeep struct {
	Of       tested.Parameter
	Additive string
	*replenish.UpkeepPlan
	Failed string `json:",omitempty"` // why there is no plan
	use    tested.Level
}

// dose is the way of a parameter to its goal.
type dose struct {
	To       tested.Level
	Additive string `json:",omitempty"`
	*replenish.DosePlan
	Failed string           `json:",omitempty"` // why there is no plan
	there  bool             // already
	inAll  replenish.Amount // where nothing else can be told
}

// work plans it all. What fails beside the tank itself is told where it would have stood.
func work(h *home.Home) (job, error) {
	j := job{h: h, r: &paper.Report{}}
	j.Name = h.Name
	var err error
	if j.tank, err = h.AnyTank(j.r); err != nil {
		return j, err
	}
	if h.Tank.PH.Given() || len(h.Goal.Levels)+len(h.Tests)+len(h.Routine.PerDay) > 0 || h.LimeWater.TopOff > 0 {
		j.air = h.AnyAir(j.r)
	}
	if err := j.read(); err != nil {
		return j, err
	}
	for _, u := range j.uses {
		if !(u.PerDay.Base() > 0) || u.Parameter.Falls() {
			continue
		}
		if a, has := j.additive(u.Parameter); has {
			plan, err := replenish.Maintain(replenish.Upkeep{Tank: j.tank, Air: j.air, Use: u, Additive: a.Is})
			k := upkeep{Of: u.Parameter, Additive: a.Name, use: u.PerDay}
			if err == nil {
				k.UpkeepPlan = &plan
			} else {
				k.Failed = j.log.AsWritten(err).Error()
			}
			j.Upkeeps = append(j.Upkeeps, k)
		}
	}
	for _, l := range h.Lowest {
		if u, known := j.use(l.Parameter()); known {
			last := lasting{Limit: l}
			if left, err := u.Until(l); err == nil {
				last.Countdown = &left
			} else {
				last.Failed = err.Error()
			}
			j.Lasts = append(j.Lasts, last)
		} else {
			j.r.Hides("tests of "+string(l.Parameter()), "how long it lasts")
		}
	}
	for _, l := range h.Goal.Levels {
		j.raise(l)
	}
	if len(h.Goal.Levels) == 0 {
		j.r.Hides("goal", "what to raise")
	}
	if lime := h.LimeWater; lime.TopOff > 0 {
		j.lime(lime)
	}
	return j, nil
}

// read makes a log of what the file says, and asks it what is used. Without a log it is
// what the file says of a day.
func (j *job) read() error {
	h := j.h
	j.log = h.Log(j.tank.Volume())
	for _, key := range j.log.Lacking {
		j.r.Hides(key, "what the tank uses of it")
	}
	if len(j.log.Tests) > 0 {
		demand, err := replenish.Consumption(j.log.Log)
		switch {
		case err == nil:
			j.Demand, j.uses = &demand, demand.Uses
		case j.log.TooFew(err):
			j.silent = err
		default:
			return j.log.AsWritten(err)
		}
	}
	for _, u := range j.uses { // where the fit is better than nothing
		if _, known := j.tank.Level(u.Parameter); !known {
			j.tank = j.tank.With(u.Now)
			j.r.Assume("Of " + string(u.Parameter) + " the tank holds what the tests lead to, " + paper.Level(u.Now) + ".")
		}
	}
	for _, l := range h.Routine.PerDay {
		if _, known := j.use(l.Parameter()); !known {
			now, _ := j.tank.Level(l.Parameter())
			j.uses = append(j.uses, replenish.Use{Parameter: l.Parameter(), PerDay: l.WithBase(-l.Base()), Now: now})
		}
	}
	if len(j.uses) == 0 {
		j.r.Hides("tests, or per_day", "what the tank uses")
	}
	return nil
}

func (j *job) use(p tested.Parameter) (replenish.Use, bool) {
	return replenish.Demand{Uses: j.uses}.Of(p)
}

// additive is what is at hand for a parameter, or the usual compound.
func (j *job) additive(p tested.Parameter) (home.Additive, bool) {
	if a, has := j.h.Additive(p); has {
		return a, true
	}
	usual, has := map[tested.Parameter]string{
		tested.Alkalinity: "NaHCO3", tested.Calcium: "CaCl2.2H2O", tested.Magnesium: "MgCl2.6H2O",
	}[p]
	c, err := salts.Find(usual)
	if !has || err != nil {
		j.r.Hides("additives for "+string(p), "what to dose")
		return home.Additive{}, false
	}
	j.r.Hides("additives for "+string(p), "reckoned with "+usual+" of 100 %")
	pure := salts.Reagent{Compound: c, Purity: units.Percent(100)}
	return home.Additive{Name: c.Name(), Is: replenish.Dry(pure), Holds: c}, true
}

// raise plans the way to a goal.
func (j *job) raise(to tested.Level) {
	p := to.Parameter()
	now, known := j.tank.Level(p)
	switch {
	case p.Falls():
		j.r.Assume("The goal of " + string(p) + " is for changes of water.")
		return
	case !known:
		j.r.Hides("tank."+string(p), "the dose to its goal")
		return
	case now.Base() >= to.Base():
		j.Doses = append(j.Doses, dose{To: to, there: true})
		return
	}
	a, has := j.additive(p)
	if !has {
		return
	}
	plan, err := replenish.Plan(replenish.Dose{Tank: j.tank, Air: j.air, To: to, Additive: a.Is})
	d := dose{To: to, Additive: a.Name}
	if err == nil {
		d.DosePlan = &plan
	} else {
		d.Failed = j.log.AsWritten(err).Error()
		d.inAll, _ = j.amountFor(a.Is, to.WithBase(to.Base()-now.Base()))
		j.r.Care("dosing", a.Holds.Cautions()...)
	}
	j.Doses = append(j.Doses, d)
}

// amountFor is how much of an additive raises a level so far, whatever it does besides.
func (j *job) amountFor(a replenish.Additive, rise tested.Level) (replenish.Amount, error) {
	const part = 1e-3 // of it, of which no pH is in the way
	plan, err := replenish.Maintain(replenish.Upkeep{Tank: j.tank, Air: j.air, Additive: a,
		Use: replenish.Use{Parameter: rise.Parameter(), PerDay: rise.WithBase(rise.Base() * part)}})
	return times(plan.PerDay, 1/part), err
}

func times(a replenish.Amount, x float64) replenish.Amount {
	return replenish.Amount{Mass: a.Mass * units.Mass(x), Volume: a.Volume * units.Volume(x)}
}

// lime plans lime water in the place of top-off.
func (j *job) lime(w home.LimeWater) {
	l := replenish.LimeWater{Tank: j.tank, Air: j.air, TopOff: w.TopOff, Temperature: w.Temperature,
		Saturation: w.Saturation}
	if u, known := j.use(tested.Alkalinity); known && u.PerDay.Base() > 0 {
		l.Demand = u.PerDay
	}
	if supply, err := replenish.Lime(l); err == nil {
		j.Lime = &supply
	} else {
		j.noLime = home.At("lime_water", err)
	}
}

// besides is what of a day's dose is left to give beside the lime water; false if lime
// brings nothing of it.
func (j *job) besides(u upkeep) (replenish.Amount, bool) {
	brought := tested.Level{}
	switch u.Of {
	case tested.Alkalinity:
		brought = j.Lime.Alkalinity
	case tested.Calcium:
		brought = j.Lime.Calcium
	}
	return times(u.PerDay, max(0, 1-brought.Base()/u.use.Base())), brought.Exists()
}
