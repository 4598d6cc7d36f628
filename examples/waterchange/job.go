package main

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// job is the whole water change, worked out in the order of the work. It is also what is
// written for programs. What is a pointer may be missing.
type job struct {
	h     *home.Home
	r     *paper.Report
	tank  tested.Water
	new   tested.Water
	swap  units.Volume
	usual bool // nobody said how much to swap

	Batch      mix.BatchPlan
	Heat       *mix.HeatPlan
	Correction *mix.Correction
	Purifier   *rodi.Product
	Checkup    *rodi.Checkup
	Change     *dilution.ChangePlan
	Estimates  []advice.Estimate
	Way        *way
	Timeline   []due
	Shopping   []purchase
}

// night is how long a mix is left to circulate (common practice).
const night = 12 * time.Hour

// answer plans the change. What a side calculation cannot do becomes a line of the report;
// without the batch there is no plan.
func answer(h *home.Home) (*paper.Report, any, error) {
	j := &job{h: h, r: &paper.Report{Title: title(h)}}
	if err := j.batch(); err != nil {
		return nil, nil, err
	}
	j.correct()
	j.heat()
	if err := j.change(); err != nil {
		return nil, nil, err
	}
	j.purify()
	j.goal()
	j.plan()
	j.shop()
	j.report()
	return j.r, j, nil
}

func title(h *home.Home) string {
	text := "Water change"
	if h.Name != "" {
		text = h.Name + ": water change"
	}
	if at := h.Change.At; !at.IsZero() {
		text += ", " + paper.Day(at)
	}
	return text
}

// batch plans the mix: as much as was asked for, or as the change takes.
func (j *job) batch() error {
	h := j.h
	j.swap, j.usual = h.SwapVolume()
	var problems []error
	amount := h.Mix.Amount
	if amount == (mix.Amount{}) {
		amount = mix.FinalVolume(j.swap)
		if j.swap <= 0 {
			problems = append(problems,
				home.Missing("tank.volume", `the water in the tank, such as "310 L", or how much to mix`))
		}
	}
	target := units.Practical(math.NaN())
	if h.Mix.Target != nil {
		target = *h.Mix.Target
	} else {
		problems = append(problems, home.Missing("mix.target", `the salinity to mix to, such as "35 ppt" or "1.026 SG"`))
	}
	if h.Salt.SeaSalt == (units.Fraction{}) && h.Salt.Label == (mix.Label{}) {
		problems = append(problems, home.Missing("salt",
			`what its label says: "per_litre_of_water": "38.5 g/L", or "package" and "package_makes"`))
	}
	if len(problems) > 0 {
		return errors.Join(problems...)
	}
	warm := h.Mix.Temperature
	switch {
	case warm.IsSet():
	case h.Unheated && h.Room.IsSet():
		warm = h.Room
	default:
		warm = h.Temperature()
	}
	if h.Scoop.Volume > 0 && h.Salt.BulkDensity == 0 {
		h.Scoop = mix.Scoop{}
		j.r.Hides("salt.bulk_density", "how many scoops that is")
	}
	if h.Salt.Price.Currency != "" && h.Salt.Package == 0 {
		h.Salt.Price = units.Money{}
		j.r.Hides("salt.package", "what the salt costs")
	}
	vessel := h.Vessel
	if v, asked := amountOf(h, j.swap); asked && vessel.Exists() && v > vessel.SafeFill() {
		vessel = mix.Vessel{} // it is filled more than once
	}
	var err error
	j.Batch, err = mix.Plan(mix.Batch{
		Target: target, Temperature: warm, Amount: amount, Salt: h.Salt, Scoop: h.Scoop, Vessel: vessel,
		WaterTemperature: j.cold(),
	})
	if err != nil {
		return ofMix(err)
	}
	j.new = tested.Water{Portion: j.Batch.Mix, Levels: h.Mix.Levels}
	j.r.Care("mixing", j.Batch.Cautions...)
	j.r.Assume(j.Batch.Assumptions...)
	return nil
}

// amountOf is the volume of the mix, if it is asked for as one.
func amountOf(h *home.Home, swap units.Volume) (v units.Volume, asked bool) {
	if h.Mix.Amount == (mix.Amount{}) {
		return swap, true
	}
	return h.Mix.Volume, h.Mix.Volume > 0
}

// ofMix says where in the file an error of the batch lies: what it takes of the salt and
// the pure water stands there.
func ofMix(err error) error {
	var bad *units.InputError
	if errors.As(err, &bad) {
		for field, key := range map[string]string{
			"salt": "salt", "scoop": "scoop", "vessel": "vessel", "waterTemperature": "pure_water.temperature",
		} {
			if bad.Field == field || strings.HasPrefix(bad.Field, field+".") {
				if key == "salt" {
					bad.Want += "; what it says of the salt is salt.per_litre_of_water, per_litre_of_mix or package_makes, with " +
						"salt.gives"
				}
				return &units.InputError{Field: key, Got: bad.Got, Want: bad.Want}
			}
		}
	}
	return home.At("mix", err)
}

// cold is the temperature of the pure water, or a usual one, which is noted.
func (j *job) cold() units.Temperature {
	if t := j.h.Pure.Temperature; t.IsSet() {
		return t
	}
	if t := j.h.Room; t.IsSet() {
		j.h.Note("pure_water.temperature", "not said, taken as that of the room")
		return t
	}
	j.h.Note("pure_water.temperature", "not said, taken as 20 °C")
	return units.Celsius(20)
}

// resolution is what a hand-held instrument can tell of a practical salinity, at best
// (common practice). Nobody should chase less than that.
const resolution = 0.1

// believed is how far a mix may be off its target before the reading is doubted and not
// the mix.
const believed = 5.

// correct starts from the reading after the night, at the planned volume.
func (j *job) correct() {
	measured := j.h.Mix.Measured
	if measured == nil {
		return
	}
	b := j.Batch
	off := measured.Value() - b.Mix.Practical().Value()
	if math.Abs(off) > believed {
		j.r.Add("It read "+paper.Fixed(measured.Value(), 1),
			fmt.Sprintf("That is %.1f off, and the salt that was weighed does "+
				"not allow it: clean the instrument and read again, or take another.", off))
		return
	}
	found, err := seawater.FromPractical(*measured, b.Mix.Temperature())
	if err != nil {
		j.r.Add("It read "+paper.Fixed(measured.Value(), 1), "Not worked out: "+err.Error()+".")
		return
	}
	present := found.OfVolume(b.Volume)
	c := mix.Correction{Mix: present, Volume: b.Volume}
	if math.Abs(off) > resolution*(1+1e-9) {
		c, err = mix.Correct(mix.Mixed{
			Present: present, Target: b.Mix.Practical(), Salt: j.h.Salt, Scoop: j.h.Scoop,
			Most: j.h.Vessel.SafeFill(), WaterTemperature: j.cold(),
		})
	}
	if err != nil {
		j.r.Add("It read "+paper.Fixed(measured.Value(), 1), "Not worked out: "+err.Error()+".")
		return
	}
	j.Correction = &c
	j.new.Portion = c.Mix
}

// heat is the warming of the batch.
func (j *job) heat() {
	h := j.h
	cold, err := seawater.FromAbsolute(j.Batch.Mix.Absolute(), j.cold())
	switch {
	case h.Unheated:
		if !h.Room.IsSet() {
			j.r.Hides("room.temperature", "how warm the mix gets without a heater")
		}
		return
	case h.Heater == 0:
		j.r.Hides("heater.power", "how long warming takes")
		return
	case !h.Pure.Temperature.IsSet():
		h.Guess("pure_water.temperature", "taken as "+h.Style.Of(j.cold())+": colder water takes longer to warm")
	}
	request := mix.Heating{Water: cold.OfMass(j.Batch.Mix.Mass), To: j.Batch.Mix.Temperature(), Heater: h.Heater}
	if h.Room.IsSet() {
		request.Loss, request.Room = h.Loss, h.Room
	}
	if err == nil {
		var plan mix.HeatPlan
		if plan, err = mix.Heat(request); err == nil {
			j.Heat = &plan
			j.r.Care("warming", plan.Cautions...)
			return
		}
	}
	j.r.Add("Warming", "Not worked out: "+err.Error()+".")
}

// change is the swap, if the tank is known.
func (j *job) change() error {
	h := j.h
	if h.Tank.Volume <= 0 {
		j.r.Hides("tank.volume", "what the change does")
		return nil
	}
	var err error
	if j.tank, err = h.TankWater(); err != nil {
		return err
	}
	if settled, err := j.tank.WithDIC(); err == nil {
		j.tank = settled
	} else {
		if h.Tank.PH.Given() {
			j.r.Add("pH", "Not worked out: "+err.Error()+".")
		}
	}
	if _, known := j.new.Level(tested.Alkalinity); known && h.Air > 0 {
		if aired, err := j.new.Aired(h.Air, units.Atmosphere); err == nil {
			j.new = aired
		}
	}
	request := dilution.Change{Tank: j.tank, Batch: j.new, Swap: j.swap}
	plan, err := dilution.PlanChange(request)
	if err != nil {
		return home.At("change", err)
	}
	j.Change = &plan
	j.r.Care("changing water", plan.Cautions...)
	j.r.Assume(plan.Assumptions...)
	if d := h.Doubts; d.Given {
		w := tested.Doubts{Salinity: d.Salinity, Temperature: d.Temperature, PH: d.PH, Levels: d.Levels}
		j.Estimates, err = request.Estimates(dilution.Doubts{Volume: d.Tank, Swap: d.Swap, Tank: w, Batch: w})
		if err != nil {
			j.r.Add("How sure it is", "Not worked out: "+err.Error()+".")
		}
	}
	return nil
}

// purify asks what the purifier should give and which of its stages is due.
func (j *job) purify() {
	p := j.h.Pure
	if p.System.Membrane.Rated.Flow > 0 {
		product, err := p.System.Produce(rodi.Feed{TDS: p.Tap, Pressure: p.Pressure, Temperature: j.cold()})
		if err != nil {
			j.r.Add("Purifier", "Not worked out: "+err.Error()+".")
		} else {
			j.Purifier = &product
			j.r.Care("making pure water", product.Cautions...)
			j.r.Assume(product.Assumptions...)
		}
	}
	if p.AfterMembrane != (units.TDS{}) && p.Tap != (units.TDS{}) {
		checkup, err := rodi.Judge(rodi.Readings{
			Feed: p.Tap, AfterMembrane: p.AfterMembrane, AfterResin: p.Product, Step: p.Step,
		}, rodi.UsualLimits())
		if err != nil {
			j.r.Add("Stages of the purifier", "Not judged: "+err.Error()+".")
		} else {
			j.Checkup = &checkup
			j.r.Care("making pure water", checkup.Cautions...)
		}
	}
	if j.Purifier == nil && j.Checkup == nil && p.Bought == (units.Money{}) {
		j.r.Care("making pure water", rodi.Cautions()...)
	}
}

// flow is what the purifier makes: as it was measured, or as it should.
func (j *job) flow() units.Flow {
	if j.h.Pure.Flow == 0 && j.Purifier != nil {
		return j.Purifier.Flow
	}
	return j.h.Pure.Flow
}

// impure says what is wrong with the purified water, nothing if it may be used.
func (j *job) impure() string {
	p := j.h.Pure
	switch {
	case p.Product == (units.TDS{}):
		return ""
	case p.Product.Scale() == p.Tap.Scale() && p.Product.PPM() > p.Tap.PPM():
		return "The purified water reads more than the tap: the two readings may have changed places."
	case p.Product.PPM() > 2:
		return fmt.Sprintf("Do not use this water: it reads %g ppm and should read 0, 1 to 2 at most (common practice). "+
			"Change the resin and check the membrane.", p.Product.PPM())
	}
	return ""
}
