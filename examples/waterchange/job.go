package main

import (
	"fmt"
	"math"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// job is the whole water change, worked out in the order of the work.
type job struct {
	in         inputs
	pure       pureWater
	batch      mix.BatchPlan
	heat       mix.HeatPlan
	correction mix.Correction
	ready      seawater.Portion // the batch as it goes into the tank
	change     dilution.ChangePlan
	between    between

	product   *rodi.Product // of the purifier at its pressure and temperature, if it is described
	checkup   *rodi.Checkup // of its stages, if readings are given
	estimates []advice.Estimate
	course    *dilution.CoursePlan
	give      []giveBack
}

// giveBack is a dose for what no change of water brings.
type giveBack struct {
	additive
	plan replenish.DosePlan
}

// pureWater is what the purifier has to do.
type pureWater struct {
	need      units.Volume
	time      time.Duration
	waste     units.Volume
	topOff    units.Volume // beside it, until the next change
	rejection float64      // share of the tap's dissolved solids held back; NaN if the readings do not tell
	advice    string
	bad       bool // the water must not be used
}

// between is what happens until the next change.
type between struct {
	unattended time.Duration
	nitrate    *units.MassPerLitre // right before the next change
	rounds     *rounds             // nil without a nitrate record
}

// rounds is where a routine of such changes takes nitrate.
type rounds struct {
	before, after units.MassPerLitre
	share         units.Fraction // that would hold the limit; NaN if none is needed or none does
	limit         units.MassPerLitre
	note          string
}

func work(in inputs) (job, error) {
	var j job
	var err error
	if j.batch, err = mix.Plan(in.batch); err != nil {
		return job{}, at("batch", err)
	}
	if j.pure, err = purify(in, j.batch.Water); err != nil {
		return job{}, err
	}
	if err := j.stages(in); err != nil {
		return job{}, err
	}
	in.heating.To = in.batch.Temperature
	cold, err := seawater.FromAbsolute(j.batch.Mix.Absolute(), in.batch.WaterTemperature)
	if err != nil {
		return job{}, at("pure_water", err)
	}
	in.heating.Water = cold.OfMass(j.batch.Mix.Mass)
	if j.heat, err = mix.Heat(in.heating); err != nil {
		return job{}, at("heater", err)
	}
	j.ready = j.batch.Mix
	if in.corrects {
		if j.correction, err = correct(in, j.batch); err != nil {
			return job{}, at("batch.measured", err)
		}
		j.ready = j.correction.Mix
	}
	j.in = in
	if _, err := seawater.PureWater(in.temperature); err != nil {
		return job{}, at("tank.temperature", err)
	}
	tank, err := seawater.FromPractical(in.salinity, in.temperature)
	if err != nil {
		return job{}, at("tank.salinity", err)
	}
	before, fresh := in.tank, in.fresh
	before.Portion, fresh.Portion = tank.OfVolume(in.volume), j.ready
	if before, fresh, err = withCarbon(in, before, fresh); err != nil {
		return job{}, err
	}
	if !(in.swap > 0) {
		return job{}, at("change", &units.InputError{Field: "swap", Got: in.swap.String(), Want: "a volume above zero"})
	}
	if j.change, err = dilution.PlanChange(dilution.Change{Tank: before, Batch: fresh, Swap: in.swap}); err != nil {
		return job{}, at("change", err)
	}
	if j.between, err = until(in, j.change); err != nil {
		return job{}, err
	}
	if in.doubtful {
		if j.estimates, err = (dilution.Change{Tank: before, Batch: fresh, Swap: in.swap}).Estimates(in.doubts); err != nil {
			return job{}, at("doubts", err)
		}
	}
	if in.hasGoal {
		if err := j.reach(before, fresh); err != nil {
			return job{}, err
		}
	}
	return j, nil
}

// stages asks what the purifier should give and which of its stages is due.
func (j *job) stages(in inputs) error {
	if in.system.Membrane.Rated.Flow > 0 {
		product, err := in.system.Produce(in.feed)
		if err != nil {
			return at("pure_water", err)
		}
		j.product = &product
	}
	if in.judged {
		checkup, err := rodi.Judge(in.readings, rodi.UsualLimits())
		if err != nil {
			return at("pure_water", err)
		}
		j.checkup = &checkup
	}
	return nil
}

// withCarbon gives both waters the DIC that the pH of the tank and the air of
// the room say, as far as they are given.
func withCarbon(in inputs, tank, fresh tested.Water) (tested.Water, tested.Water, error) {
	ph := in.tankPH
	if in.tankNBS != nil {
		c := carbonate.At(tank.Portion.Practical(), tank.Portion.Temperature(), carbonate.Options{})
		total := in.tankNBS.Total(&c)
		ph = &total
	}
	var err error
	if ph != nil {
		tank.Carbon = carbonate.PH(*ph)
		if tank, err = tank.WithDIC(); err != nil {
			return tank, fresh, at("tank.ph", err)
		}
	}
	if in.air > 0 {
		if _, known := fresh.Level(tested.Alkalinity); known {
			if fresh, err = fresh.Aired(in.air, units.Atmosphere); err != nil {
				return tank, fresh, at("air.co2", err)
			}
		}
	}
	return tank, fresh, nil
}

// reach plans the way to the goal, in the place of the one change, and what has to
// be given back after it.
func (j *job) reach(tank, fresh tested.Water) error {
	in := j.in
	course, err := dilution.PlanCourse(dilution.Course{
		Tank: tank, Batch: fresh, Goal: in.goal,
		Manner: dilution.InSteps, Every: in.goalEvery, Heater: in.heating.Heater,
	})
	if err != nil {
		return at("goal", err)
	}
	j.course = &course
	for _, a := range in.additives {
		if _, lacks := course.Lacks.Of(a.of); !lacks {
			continue
		}
		to, _ := in.goal.Levels.Of(a.of)
		plan, err := replenish.Plan(replenish.Dose{
			Tank:     course.After,
			Air:      in.air,
			To:       to,
			Additive: replenish.Dry(a.reagent),
		})
		if err != nil {
			return at("additives."+string(a.of), err)
		}
		j.give = append(j.give, giveBack{a, plan})
	}
	return nil
}

func at(field string, err error) error { return fmt.Errorf("%s: %w", field, err) }

// purify is the arithmetic of the purifier. That water for salt mixes should
// read 0, and 1 to 2 ppm at the most, is common practice.
func purify(in inputs, need units.Volume) (pureWater, error) {
	p := pureWater{
		need:      need,
		topOff:    in.evaporation.Volume(in.every),
		time:      in.flow.Time(need),
		waste:     need * units.Volume(in.waste),
		rejection: math.NaN(),
	}
	if p.time < 0 {
		return p, &units.InputError{Field: "pure_water.flow", Got: in.flow.String(), Want: "a flow above zero"}
	}
	if in.tap.Scale() == in.product.Scale() && in.tap.PPM() > 0 {
		if in.product.PPM() > in.tap.PPM() {
			return p, &units.InputError{
				Field: "pure_water.product",
				Got:   in.product.String(),
				Want:  "no more than the tap: the two readings may have changed places",
			}
		}
		if in.product.PPM() > 0 { // 0 only bounds it
			p.rejection = 1 - in.product.PPM()/in.tap.PPM()
		}
	}
	switch ppm := in.product.PPM(); {
	case ppm == 0:
		p.advice = "the water is good."
	case ppm <= 2:
		p.advice = "usable, but the resin is near its end: it should read 0, and 1 to 2 ppm at most (common practice)."
	default:
		p.bad = true
		p.advice = "do not use this water: it should read 0, and 1 to 2 ppm at most (common practice). Change the resin, " +
			"and check the membrane."
	}
	return p, nil
}

// resolution is what a hand-held instrument can tell of a practical salinity,
// at best (common practice). Nobody should chase less than that.
const resolution = 0.1

// believed is how far a mix may be off its target before the reading is doubted and
// not the mix.
const believed = 5.

// correct starts from the reading after the night, at the planned volume.
func correct(in inputs, plan mix.BatchPlan) (mix.Correction, error) {
	if off := in.measured.Value() - in.batch.Target.Value(); math.Abs(off) > believed {
		return mix.Correction{}, &units.InputError{
			Field: "measured",
			Got:   in.measured.String(),
			Want: fmt.Sprintf("within %g of the target: the salt that was weighed does not allow it, so clean the instrument "+
				"and read again, or take another", believed),
		}
	}
	found, err := seawater.FromPractical(in.measured, in.batch.Temperature)
	if err != nil {
		return mix.Correction{}, err
	}
	present := found.OfVolume(plan.Volume)
	if off := in.measured.Value() - in.batch.Target.Value(); math.Abs(off) <= resolution*(1+1e-9) {
		return mix.Correction{Mix: present, Volume: plan.Volume}, nil
	}
	return mix.Correct(mix.Mixed{
		Present:          present,
		Target:           in.batch.Target,
		Salt:             in.batch.Salt,
		Scoop:            in.batch.Scoop,
		Most:             in.batch.Vessel.SafeFill(),
		WaterTemperature: in.batch.WaterTemperature,
	})
}

// until looks ahead to the next change.
func until(in inputs, change dilution.ChangePlan) (between, error) {
	var b between
	var err error
	if b.unattended, err = dilution.Unattended(change.After.Portion, in.evaporation, in.salinityLimit); err != nil {
		return b, at("tank", err)
	}
	if in.nitratePerDay == nil {
		if in.nitrateLimit != nil {
			return b, &units.InputError{
				Field: "tank.nitrate_per_day",
				Got:   "nothing",
				Want:  "what the tank adds per day, to judge tank.nitrate_limit",
			}
		}
		return b, nil
	}
	perDay := *in.nitratePerDay
	if after, known := change.After.Level(tested.Nitrate); known {
		then := max(0, after.As(units.AsNitrate).MassPerLitre()+perDay*units.MassPerLitre(in.every.Hours()/24))
		b.nitrate = &then
	}
	level, known := in.fresh.Level(tested.Nitrate)
	if !known {
		return b, nil
	}
	fresh := level.As(units.AsNitrate).MassPerLitre()
	b.rounds = repeat(in, change.Share, fresh, perDay)
	return b, nil
}

// repeat asks where nitrate settles if every change is like this one.
func repeat(in inputs, share units.Fraction, fresh, perDay units.MassPerLitre) *rounds {
	r := &rounds{share: units.Share(math.NaN())}
	routine := dilution.Periodic[units.MassPerLitre]{Share: share, Every: in.every, Fresh: fresh, PerDay: perDay}
	var err error
	if r.before, r.after, err = routine.Steady(); err != nil {
		r.note = "the tank uses up more nitrate than such changes bring in, so it runs out of it."
		return r
	}
	if in.nitrateLimit == nil {
		return r
	}
	limit := *in.nitrateLimit
	r.limit = limit
	switch share, err := dilution.ShareToHold(fresh, perDay, limit, in.every); {
	case r.before <= limit:
		r.note = "such changes keep below " + level(limit) + "."
	case err == nil:
		r.note = fmt.Sprintf("to stay at %s, change %.0f %% each time.", level(limit), math.Ceil(share.Percent()))
		r.share = share
	case limit <= fresh:
		r.note = "no change gets below the new water, which has " + level(fresh) + "."
	default:
		r.note = "no change every " + days(in.every) + " holds " + level(limit) + ": change more often or feed less."
	}
	return r
}
