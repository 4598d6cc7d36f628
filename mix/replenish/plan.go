package replenish

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Dose is the wish to bring one parameter of a tank to a level.
type Dose struct {
	Tank     Tank // with the present level of the parameter among its levels
	To       Level
	Additive Additive
	Limits   Limits // the zero value: the usual ones
}

// DosePlan is the answer to a Dose.
type DosePlan struct {
	Amount Amount // of the additive, in all
	Steps  []Step // one a day, all of the same size
	// LimitedBy names what makes more than one step necessary: a parameter, or
	// "pH"; with its limit and the origin of that.
	LimitedBy string

	Before Chemistry
	After  []Level // of all that was tested
	Raises []Level // by how much the dose raises each parameter that it brings

	// Brings is what the whole dose adds to a kilogram of tank water; Leaves is
	// what of it stays behind once calcium, carbonate and the parameter itself
	// have been used up: sodium and chloride, or sulfate.
	Brings, Leaves ions.Composition
	Salinity       SalinityRise

	Assumptions []string
	Cautions    []advice.Caution
}

// Step is one dose of a plan.
type Step struct {
	Amount Amount
	Level  Level     // of the parameter after it
	AtOnce Chemistry // of the whole tank, mixed, before any gas has moved
	Aired  Chemistry // when it is in balance with its air again
}

// SalinityRise is what a dose does to the salinity.
type SalinityRise struct {
	Before, After units.PracticalSalinity
	Lasting       units.PracticalSalinity // once only what Leaves says is left of the dose
}

// mostSteps bounds a plan to a year.
const mostSteps = 365

// Plan works out how much of an additive brings a parameter to a level, in
// steps of a day that respect the limits, and what else that does.
//
// The masses are exact: so much of an element in the tank before, so much in the
// dose, so much after. What the tank uses up meanwhile is not in it; Maintain
// plans that. A level can only be raised: to lower one, change water.
func Plan(d Dose) (DosePlan, error) {
	present, strength, assumed, err := d.check()
	if err != nil {
		return DosePlan{}, err
	}
	s, more, err := d.Tank.start()
	if err != nil {
		return DosePlan{}, err
	}
	if !s.known && (d.To.parameter == Alkalinity || d.Additive.per().Amount(ions.Hydroxide) > 0) {
		return DosePlan{}, noCarbon()
	}
	rise := d.To.amount - present.amount
	p := DosePlan{Amount: d.Additive.amount(rise * 1000 * d.Tank.Volume.Litres() / strength)}
	total, err := d.Additive.count("dose", p.Amount)
	if err != nil {
		return DosePlan{}, err
	}
	brings := d.Additive.per().Scale(total) // µmol in the whole tank
	if p.Before, err = s.chemistry(); err != nil {
		return DosePlan{}, input.In("tank", err)
	}
	if total > 0 {
		if err := d.spread(&p, s, present, brings, total); err != nil {
			return DosePlan{}, err
		}
	}
	if len(p.Steps) > 0 {
		if err := d.Additive.fits(p.Steps[0].Amount, d.Tank); err != nil {
			return DosePlan{}, err
		}
	}
	p.Raises = d.Tank.raises(brings)
	p.After = d.Tank.after(p.Raises)
	p.Brings = brings.Scale(1 / s.mass.Kilograms())
	p.Leaves = leaves(p.Brings, d.To.parameter)
	if p.Salinity, err = s.rise(brings, leaves(brings, d.To.parameter)); err != nil {
		return DosePlan{}, err
	}
	p.Assumptions = append(d.assumptions(p.Raises), append(assumed, more...)...)
	p.Cautions = d.cautions(p)
	return p, nil
}

func noCarbon() error {
	return input.Bad("tank: carbon", "nothing", "the alkalinity, and a pH or the CO2 of the air: without them nobody can tell what the dose does to pH")
}

// check refuses what cannot be planned. It returns the present level and how
// much of the parameter, in µmol, a gram or millilitre of the additive brings.
func (d Dose) check() (present Level, strength float64, assumed []string, err error) {
	fail := func(err error) (Level, float64, []string, error) { return Level{}, 0, nil, err }
	if err := d.Tank.check("tank"); err != nil {
		return fail(err)
	}
	if err := d.To.check("to"); err != nil {
		return fail(err)
	}
	if err := d.Limits.check(); err != nil {
		return fail(err)
	}
	assumed, err = d.Additive.check("additive")
	if err != nil {
		return fail(err)
	}
	present, tested := d.Tank.level(d.To.parameter)
	if !tested {
		return fail(input.Bad("tank: "+d.To.parameter.String(), "nothing", "its present level"))
	}
	strength = d.To.parameter.of(d.Additive.per())
	if !(strength > 0) {
		return fail(input.Bad("additive", d.Additive.String(), "one that raises "+d.To.parameter.String()))
	}
	if !(d.To.amount >= present.amount) {
		return fail(d.To.must("to", false, "at least the present "+present.String()+": a dose cannot lower it, a water change can"))
	}
	return present, strength, assumed, nil
}

// spread cuts the dose into the fewest equal steps that respect the limits.
func (d Dose) spread(p *DosePlan, s state, present Level, brings ions.Composition, total float64) error {
	var fewest int
	if fewest, p.LimitedBy = d.byLevels(brings); fewest > mostSteps {
		return d.tooLong(present, p.LimitedBy)
	}
	swing, origin := d.Limits.ph()
	gentle := func(n int) (bool, error) {
		var err error
		p.Steps, err = d.steps(s, present, brings, total, n)
		return err == nil && !d.Limits.jumps(p.Before, p.Steps), err
	}
	ok, err := gentle(fewest)
	if ok || err != nil {
		return err
	}
	p.LimitedBy = "pH, " + input.Number(swing) + " at a dose (" + origin + ")"
	low, high := fewest, fewest // low does not do, high may
	for !ok {
		if high == mostSteps {
			return d.tooLong(present, p.LimitedBy)
		}
		low, high = high, min(2*high, mostSteps)
		if ok, err = gentle(high); err != nil {
			return err
		}
	}
	for low+1 < high {
		middle := (low + high) / 2
		if ok, err = gentle(middle); err != nil {
			return err
		}
		if ok {
			high = middle
		} else {
			low = middle
		}
	}
	_, err = gentle(high)
	return err
}

// byLevels returns the fewest steps in which no parameter moves by more than
// its limit, and the limit that asks for them.
func (d Dose) byLevels(brings ions.Composition) (n int, limitedBy string) {
	n = 1
	for p := Parameter(1); p < parameters; p++ {
		limit := d.Limits.of(p)
		move := math.Abs(p.of(brings)) / 1000 / d.Tank.Volume.Litres()
		steps := math.Ceil(move / limit.PerDay.amount * (1 - 1e-12)) // a rounding is no step
		if steps > float64(n) {
			n = int(min(steps, mostSteps+1))
			limitedBy = p.String() + ", " + limit.PerDay.String() + " a day (" + limit.Origin + ")"
		}
	}
	return n, limitedBy
}

func (d Dose) tooLong(present Level, limitedBy string) error {
	return input.Bad("to: "+d.To.parameter.String(), d.To.String(),
		"a level nearer to the present "+present.String()+": within the limits it takes more than a year ("+limitedBy+")")
}

// jumps tells whether a step moves the pH by more than it may.
func (l Limits) jumps(before Chemistry, steps []Step) bool {
	for _, step := range steps {
		if l.passes(before, step.AtOnce) {
			return true
		}
		before = step.Aired
	}
	return false
}

// steps doses n equal parts, each followed by aeration.
func (d Dose) steps(s state, present Level, brings ions.Composition, total float64, n int) ([]Step, error) {
	list := make([]Step, n)
	part := brings.Scale(1 / float64(n))
	for i := range list {
		step := &list[i]
		step.Amount = d.Additive.amount(total / float64(n))
		step.Level = d.To.like(present.amount + (d.To.amount-present.amount)*float64(i+1)/float64(n))
		err := s.dose(part)
		if err == nil {
			step.AtOnce, step.Aired, err = s.settle()
		}
		if err != nil {
			return nil, err
		}
	}
	return list, nil
}

// after returns the tested levels with what a dose raises added.
func (t Tank) after(raises []Level) []Level {
	list := append([]Level(nil), t.Levels...)
	for i := range list {
		for _, r := range raises {
			if r.parameter == list[i].parameter {
				list[i].amount += r.amount
			}
		}
	}
	return list
}

// raises returns by how much a dose raises each parameter, counted as the tank
// was tested, or as the trade does.
func (t Tank) raises(brings ions.Composition) []Level {
	var list []Level
	for p := Parameter(1); p < parameters; p++ {
		if amount := p.of(brings) / 1000 / t.Volume.Litres(); amount != 0 {
			list = append(list, t.counting(p).like(amount))
		}
	}
	return list
}

// counting returns a level of a parameter, whatever it is, counted as the tank
// was tested, or as the trade does.
func (t Tank) counting(p Parameter) Level {
	if l, tested := t.level(p); tested {
		return l
	}
	return usualLimit(p).PerDay
}

// leaves returns what of a dose stays in the water once a parameter, and the
// calcium and carbonate of which skeletons are built, have been used up.
func leaves(brings ions.Composition, p Parameter) ions.Composition {
	for _, i := range [...]ions.Ion{ions.Calcium, ions.Carbonate, ions.Bicarbonate, ions.CarbonDioxide, ions.Hydroxide} {
		brings = brings.With(i, 0)
	}
	if p != Alkalinity {
		for _, i := range about[p].ions {
			brings = brings.With(i, 0)
		}
	}
	return brings
}

// rise works out the salinity after a dose and after its use.
func (s state) rise(brings, leaves ions.Composition) (SalinityRise, error) {
	r := SalinityRise{Before: s.water.Practical()}
	s.known = false
	full, rest := s, s
	if err := full.dose(brings); err != nil {
		return r, err
	}
	if err := rest.dose(leaves); err != nil {
		return r, err
	}
	r.After, r.Lasting = full.water.Practical(), rest.water.Practical()
	return r, nil
}

func (d Dose) assumptions(raises []Level) []string {
	list := []string{
		"The tank is well mixed and holds " + input.Number(d.Tank.Volume.Litres()) + " L of water; topping off keeps that volume, and the water of a dose takes the place of top-off.",
		"What the tank uses up during the steps is not counted: dose that besides.",
		"Salinity is by the mass of salts, as if what is added were sea salt; instruments see single salts a little differently.",
		"Limits: " + d.Limits.list(raises) + ".",
	}
	for _, r := range d.Additive.reagents() {
		list = append(list, "The product of "+r.Compound.Formula()+" is "+input.Number(r.Purity.Percent())+" % of that; the rest of it counts as water.")
	}
	for _, r := range raises {
		switch r.parameter {
		case Fluoride:
			list = append(list, "Whether fluorite, CaF2, stays dissolved was not checked.")
		case Strontium:
			list = append(list, "Whether celestite, SrSO4, and strontium carbonate stay dissolved was not checked.")
		}
	}
	if d.To.parameter == Nitrate || Nitrate.of(d.Additive.per()) > 0 {
		list = append(list, "Nitrate that is taken up or denitrified gives back one equivalent of alkalinity per mole (Wolf-Gladrow et al. 2007); dissolving it changes none.")
	}
	return list
}
