package main

import (
	"fmt"
	"math"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater"
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
}

// pureWater is what the purifier has to do.
type pureWater struct {
	need      units.Volume
	time      time.Duration
	waste     units.Volume
	rejection float64 // share of the tap's dissolved solids held back; NaN if the readings do not tell
	advice    string
}

// between is what happens until the next change.
type between struct {
	topOff     units.Volume
	unattended time.Duration
	rounds     *rounds // nil without a nitrate record
}

// rounds is where a routine of such changes takes nitrate.
type rounds struct {
	before, after units.MassPerLitre
	share         units.Fraction // that would hold the limit; NaN if none was given or none does
	limit         units.MassPerLitre
	note          string
}

func work(in inputs) (job, error) {
	j := job{in: in}
	var err error
	if j.batch, err = mix.Plan(in.batch); err != nil {
		return job{}, at("batch", err)
	}
	if j.pure, err = purify(in, j.batch.Water); err != nil {
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
	tank, err := seawater.FromPractical(in.salinity, in.temperature)
	if err != nil {
		return job{}, at("tank", err)
	}
	before, fresh := in.tank, in.fresh
	before.Water, fresh.Water = tank.OfVolume(in.volume), j.ready
	if j.change, err = dilution.PlanChange(dilution.Change{Tank: before, Batch: fresh, Swap: in.swap}); err != nil {
		return job{}, at("change", err)
	}
	if j.between, err = until(in, j.change); err != nil {
		return job{}, err
	}
	return j, nil
}

func at(field string, err error) error { return fmt.Errorf("%s: %w", field, err) }

// purify is the arithmetic of the purifier. That water for salt mixes should
// read 0, and 1 to 2 ppm at the most, is common practice.
func purify(in inputs, need units.Volume) (pureWater, error) {
	p := pureWater{
		need:      need,
		time:      in.flow.Time(need),
		waste:     need * units.Volume(in.waste),
		rejection: math.NaN(),
	}
	if p.time < 0 {
		return p, &units.InputError{Field: "pure_water.flow", Got: in.flow.String(), Want: "a flow above zero"}
	}
	if in.tap.Scale() == in.product.Scale() && in.tap.PPM() > 0 {
		p.rejection = 1 - in.product.PPM()/in.tap.PPM()
	}
	switch ppm := in.product.PPM(); {
	case ppm == 0:
		p.advice = "the water is good."
	case ppm <= 2:
		p.advice = "usable, but the resin is near its end: it should read 0, and 1 to 2 ppm at most (common practice)."
	default:
		p.advice = "do not use this water: it should read 0, and 1 to 2 ppm at most (common practice). Change the resin, and check the membrane."
	}
	return p, nil
}

// correct starts from the reading after the night, at the planned volume.
func correct(in inputs, plan mix.BatchPlan) (mix.Correction, error) {
	found, err := seawater.FromPractical(in.measured, in.batch.Temperature)
	if err != nil {
		return mix.Correction{}, err
	}
	return mix.Correct(mix.Measured{
		Present:          found.OfVolume(plan.Volume),
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
	b.topOff = in.evaporation.Volume(in.every)
	if b.unattended, err = dilution.Unattended(change.After.Water, in.evaporation, in.salinityLimit); err != nil {
		return b, at("tank", err)
	}
	perDay, known := in.nitratePerDay.Value()
	fresh, knownFresh := in.fresh.Nitrate.Value()
	if !known || !knownFresh {
		return b, nil
	}
	routine := dilution.Periodic[units.MassPerLitre]{Share: change.Share, Every: in.every, Fresh: fresh, PerDay: perDay}
	r := rounds{share: units.Fraction(math.NaN())}
	if r.before, r.after, err = routine.Steady(); err != nil {
		return b, at("tank.nitrate_per_day", err)
	}
	if limit, given := in.nitrateLimit.Value(); given {
		r.limit = limit
		share, err := dilution.ShareToHold(fresh, perDay, limit, in.every)
		if err != nil {
			r.note = "no change every " + days(in.every) + " holds " + level(limit) + ": change more often or feed less."
		}
		r.share = share
	}
	b.rounds = &r
	return b, nil
}
