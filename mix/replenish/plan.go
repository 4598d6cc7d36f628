package replenish

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Dose is the wish to bring one parameter of a tank to a level.
type Dose struct {
	Tank     tested.Water   // with the present level of the parameter among its levels
	Air      carbonate.XCO2 // of the room; 0: the tank keeps the CO2 that it has
	To       tested.Level
	Additive Additive
	Limits   tested.Limits // the zero value: the usual ones
}

// DosePlan is the answer to a Dose.
type DosePlan struct {
	Amount Amount // of the additive, in all
	Steps  []Step // one a day, all of the same size; none where NotKnown has them
	// LimitedBy names what makes more than one step necessary: a parameter, or
	// "pH"; with its limit and the origin of that.
	LimitedBy string

	// NotKnown names what nobody can tell, because the alkalinity, or a pH or the CO2 of the
	// air, is missing and the additive moves the pH: "pH", "saturation", "steps". The amount
	// and what it raises are right all the same.
	NotKnown []string

	Before tested.Chemistry
	After  []tested.Level // of all that was tested
	Raises []tested.Level // by how much the dose raises each parameter that it brings

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
	Level  tested.Level     // of the parameter after it
	AtOnce tested.Chemistry // of the whole tank, mixed, before any gas has moved
	Aired  tested.Chemistry // when it is in balance with its air again
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
//
// Of an additive that moves the pH, such as soda or borax, in a tank whose pH is not known,
// amount, levels and salinity are told and the steps are left out, see NotKnown. A strong
// base, lime or caustic soda, is refused then.
func Plan(d Dose) (DosePlan, error) {
	present, strength, assumed, err := d.check()
	if err != nil {
		return DosePlan{}, err
	}
	s, more, err := start(d.Tank, d.Air)
	if err != nil {
		return DosePlan{}, err
	}
	if !s.known && d.Additive.per().Amount(ions.Hydroxide) > 0 {
		return DosePlan{}, noCarbon()
	}
	held := d.Limits.List()
	rise := d.To.Base() - present.Base()
	p := DosePlan{Amount: d.Additive.amount(rise * 1000 * d.Tank.Volume().Litres() / strength)}
	total, err := d.Additive.count("dose", p.Amount)
	if err != nil {
		return DosePlan{}, err
	}
	brings := d.Additive.per().Scale(total) // µmol in the whole tank
	tank, err := s.found()
	if err != nil {
		return DosePlan{}, err
	}
	p.Before = tank.now
	switch {
	case total > 0 && !s.known && tested.Alkalinity.In(d.Additive.per()) > 0:
		p.NotKnown = []string{"pH", "saturation", "steps"}
	case total > 0:
		if err := d.spread(&p, held, s, tank, present, brings, total); err != nil {
			return DosePlan{}, err
		}
	}
	if len(p.Steps) > 0 {
		if err := d.Additive.fits(p.Steps[0].Amount, d.Tank); err != nil {
			return DosePlan{}, err
		}
	}
	p.Raises = raises(d.Tank, brings)
	p.After = after(d.Tank, p.Raises)
	p.Brings = brings.Scale(1 / s.mass.Kilograms())
	p.Leaves = leaves(p.Brings, d.To.Parameter())
	if p.Salinity, err = s.rise(brings, leaves(brings, d.To.Parameter())); err != nil {
		return DosePlan{}, err
	}
	p.Assumptions = append(d.assumptions(held, p.Raises), append(assumed, more...)...)
	p.Cautions = d.cautions(held, p, tank)
	return p, nil
}

func noCarbon() error {
	return input.Bad("tank.carbon", "nothing", "the alkalinity, and a pH or the CO2 of the air: without them nobody can "+
		"tell what the dose does to pH")
}

// check refuses what cannot be planned. It returns the present level and how
// much of the parameter, in µmol, a gram or millilitre of the additive brings.
func (d Dose) check() (present tested.Level, strength float64, assumed []string, err error) {
	fail := func(err error) (tested.Level, float64, []string, error) { return tested.Level{}, 0, nil, err }
	present, known := d.Tank.Level(d.To.Parameter())
	var noLevel error
	if d.To.Exists() && !known {
		noLevel = input.Bad("tank."+string(d.To.Parameter()), "nothing", "its present level")
	}
	assumed, noAdditive := d.Additive.check("additive")
	err = input.Join(checkTank(d.Tank, d.Air), noLevel, d.To.Check("to"), d.Limits.Check("limits"), noAdditive)
	if err != nil {
		return fail(err)
	}
	strength = float64(d.To.Parameter().In(d.Additive.per()))
	if !(strength > 0) {
		return fail(input.Bad("additive", d.Additive.String(), "one that raises "+string(d.To.Parameter())))
	}
	if !(d.To.Base() >= present.Base()) {
		return fail(d.To.Must("to", false, "at least the present "+present.String()+
			": a dose cannot lower it, a water change can"))
	}
	return present, strength, assumed, nil
}

// spread cuts the dose into the fewest equal steps that respect the limits.
func (d Dose) spread(p *DosePlan, held tested.Held, s state, tank found, present tested.Level, brings ions.Composition,
	total float64) error {
	var fewest int
	if fewest, p.LimitedBy = d.byLevels(held, brings); fewest > mostSteps {
		return d.tooLong(present, p.LimitedBy)
	}
	by, origin := swing(held)
	quick := s
	quick.search = true
	gentle := func(n int) (bool, error) {
		steps, err := d.steps(quick, present, brings, total, n)
		return err == nil && !jumps(held, tank, steps), err
	}
	take := func(n int) (err error) {
		p.Steps, err = d.steps(s, present, brings, total, n)
		return err
	}
	ok, err := gentle(fewest)
	switch {
	case err != nil:
		return err
	case ok:
		return take(fewest)
	}
	p.LimitedBy = "pH, " + input.Number(by) + " at a dose (" + origin + ")"
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
	return take(high)
}

// byLevels returns the fewest steps in which no parameter moves by more than
// its limit, and the limit that asks for them.
func (d Dose) byLevels(held tested.Held, brings ions.Composition) (n int, limitedBy string) {
	n = 1
	for _, p := range tested.Parameters() {
		limit, origin, limited := held.PerDay(p)
		if !limited {
			continue
		}
		move := math.Abs(float64(p.In(brings))) / 1000 / d.Tank.Volume().Litres()
		steps := math.Ceil(move / limit.Base() * (1 - 1e-12)) // a rounding is no step
		if steps > float64(n) {
			n = int(min(steps, mostSteps+1))
			limitedBy = string(p) + ", " + counted(limit) + " a day (" + origin + ")"
		}
	}
	return n, limitedBy
}

func (d Dose) tooLong(present tested.Level, limitedBy string) error {
	return input.Bad("to."+string(d.To.Parameter()), d.To.String(),
		"a level nearer to the present "+present.String()+": within the limits it takes more than a year ("+limitedBy+
			"); or a milder additive, or a limit of your own")
}

// jumps tells whether a step moves the pH by more than it may.
func jumps(l tested.Held, tank found, steps []Step) bool {
	for _, step := range steps {
		if passes(l, tank, step.AtOnce, step.Aired) {
			return true
		}
		tank = found{step.Aired, step.Aired}
	}
	return false
}

// steps doses n equal parts, each followed by aeration.
func (d Dose) steps(s state, present tested.Level, brings ions.Composition, total float64, n int) ([]Step, error) {
	list := make([]Step, n)
	part := brings.Scale(1 / float64(n))
	for i := range list {
		step := &list[i]
		step.Amount = d.Additive.amount(total / float64(n))
		step.Level = d.To.WithBase(present.Base() + (d.To.Base()-present.Base())*float64(i+1)/float64(n))
		err := s.dose(part)
		if err == nil {
			step.AtOnce, step.Aired, err = s.settle("tank after the dose")
		}
		if err != nil {
			return nil, err
		}
	}
	return list, nil
}

// after returns the tested levels with what a dose raises added.
func after(t tested.Water, raises []tested.Level) []tested.Level {
	list := append([]tested.Level(nil), t.Levels...)
	for i := range list {
		for _, r := range raises {
			if r.Parameter() == list[i].Parameter() {
				list[i] = list[i].WithBase(list[i].Base() + r.Base())
			}
		}
	}
	return list
}

// raises returns by how much a dose raises each parameter, counted as the tank
// was tested, or as the trade does.
func raises(t tested.Water, brings ions.Composition) []tested.Level {
	var list []tested.Level
	for _, p := range tested.Parameters() {
		if amount := float64(p.In(brings)) / 1000 / t.Volume().Litres(); amount != 0 {
			list = append(list, counting(t, p).WithBase(amount))
		}
	}
	return list
}

// counting returns a level of a parameter, whatever it is, counted as the tank
// was tested, or as the trade does.
func counting(t tested.Water, p tested.Parameter) tested.Level {
	if l, tested := t.Level(p); tested {
		return l
	}
	return p.None()
}

// leaves returns what of a dose stays in the water once a parameter, and the
// calcium and carbonate of which skeletons are built, have been used up.
func leaves(brings ions.Composition, p tested.Parameter) ions.Composition {
	for _, i := range [...]ions.Ion{ions.Calcium, ions.Carbonate, ions.Bicarbonate, ions.CarbonDioxide, ions.Hydroxide} {
		brings = brings.With(i, 0)
	}
	if p != tested.Alkalinity {
		for _, i := range p.Ions() {
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

func (d Dose) assumptions(held tested.Held, raises []tested.Level) []string {
	list := []string{
		"The tank is well mixed and holds " + litres(d.Tank.Volume()) + " L of water; topping off keeps " +
			"that volume, and the water of a dose takes the place of top-off.",
		"What the tank uses up during the steps is not counted: dose that besides.",
		"Salinity is by the mass of salts, as if what is added were sea salt; instruments see single salts a little " +
			"differently.",
		"Limits: " + sayLimits(held, raises) + ".",
	}
	for _, r := range d.Additive.reagents() {
		list = append(list, "The product of "+r.Compound.Formula()+" is "+input.Number(r.Purity.Percent())+
			" % of that; the rest of it counts as water.")
	}
	for _, r := range raises {
		switch r.Parameter() {
		case tested.Fluoride:
			list = append(list, "Whether fluorite, CaF2, stays dissolved was not checked.")
		case tested.Strontium:
			list = append(list, "Whether celestite, SrSO4, and strontium carbonate stay dissolved was not checked.")
		}
	}
	if d.To.Parameter() == tested.Nitrate || tested.Nitrate.In(d.Additive.per()) > 0 {
		list = append(list, "Nitrate that is taken up or denitrified gives back one equivalent of alkalinity per mole "+
			"(Wolf-Gladrow et al. 2007); dissolving it changes none.")
	}
	return list
}
