package dilution

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Acclimation is the way of an animal from the water that it came in to that of the
// tank: tank water drips into its bag or bucket, and nothing runs out.
type Acclimation struct {
	Bag    State   // its volume is that of the water that the animal came in
	Tank   State   // its volume does not count
	Near   Swing   // how near to the tank the bag has to come
	Limits []Limit // of how fast it may; none for none
	Flow   units.Flow
}

// AcclimationPlan is the answer to an Acclimation.
type AcclimationPlan struct {
	Flow        units.Flow // as fast as was asked for, or as the limits allow
	Time        time.Duration
	Added       units.Volume // of tank water
	Final       State        // of both waters together
	Decides     string       // what comes near last, or nothing if the bag is near already
	Slowed      string       // the limit that sets the pace, or nothing
	Assumptions []string
	Cautions    []advice.Caution
}

// slowestDrip is where an acclimation is given up.
const slowestDrip = 48 * time.Hour

// PlanAcclimation works out how long tank water has to drip into a bag until the
// two are near enough, and how fast it may. With v dripped into a volume V, a
// difference d of anything per litre becomes
//
//	d V/(V + v),   so that   v = V (d/near - 1)   and   q <= V l/((d - l) t)
//
// for a limit l in a time t, which the first t is the hardest on. Salt is blended by
// mass and heat by conservative temperature, and pH is computed, so the plan solves
// for v and q with those.
func PlanAcclimation(a Acclimation) (AcclimationPlan, error) {
	if err := a.check(); err != nil {
		return AcclimationPlan{}, err
	}
	p := AcclimationPlan{Flow: a.Flow}
	near := Limit{Swing: a.Near}
	far := func(v float64) float64 {
		s := a.with(units.Volume(v))
		_, by := near.passed(&s, &a.Tank, true)
		return by - 1
	}
	if far(0) > 0 {
		v, err := a.volume(far)
		if err != nil {
			return AcclimationPlan{}, err
		}
		p.Added = v
		s := a.with(v * (1 - 1e-9))
		p.Decides, _ = near.passed(&s, &a.Tank, true)
		if err := a.pace(&p); err != nil {
			return AcclimationPlan{}, err
		}
	}
	p.Final = a.with(p.Added)
	p.Assumptions = []string{
		"Bag and tank water mix at once, and no water is taken out of the bag.",
		"Heat comes from the tank water alone: a bag that floats in the tank, or stands in a cold room, goes another way.",
	}
	p.Assumptions = append(p.Assumptions, a.unseen()...)
	p.Cautions = a.cautions(&p)
	return p, nil
}

// unseen lists the limits that cannot be kept in view.
func (a *Acclimation) unseen() (list []string) {
	_, bagErr := a.Bag.Chemistry()
	_, tankErr := a.Tank.Chemistry()
	for i := range a.Limits {
		l := &a.Limits[i]
		if l.Share > 0 {
			list = append(list, "A limit on the share of new water does not count: an animal is to come into new water altogether.")
		}
		if l.PH > 0 && (bagErr != nil || tankErr != nil) {
			list = append(list, "The pH is not known in the bag and in the tank: its limit could not be kept in view.")
		}
		for k := range l.count() {
			if l.get(k).known && !(l.find(&a.Bag.Levels, k).known && l.find(&a.Tank.Levels, k).known) {
				name, _, _ := l.name(k)
				list = append(list, name+" is not known in the bag and in the tank: its limit could not be kept in view.")
			}
		}
	}
	return list
}

// with returns the bag with so much of the tank in it.
func (a *Acclimation) with(v units.Volume) State {
	if v == 0 {
		return a.Bag
	}
	poured := a.Tank.Water.OfVolume(v)
	water := seawater.Blend(a.Bag.Water, poured)
	kept, share := float64(a.Bag.Water.Volume()/water.Volume()), float64(v/water.Volume())
	out := State{Water: water, Levels: a.Bag.names(&a.Tank.Levels)}
	for i := range out.count() {
		out.set(i, blend(kept, out.find(&a.Bag.Levels, i), share, out.find(&a.Tank.Levels, i)))
	}
	mass := float64(poured.Mass / water.Mass)
	dic := blend(1-mass, plain(a.Bag.DIC), mass, plain(a.Tank.DIC))
	out.DIC = Measured[units.AmountPerKilogram]{units.AmountPerKilogram(dic.value), dic.known}
	return out
}

// mostTankWater is how many times its own volume a bag may take.
const mostTankWater = 1000

// volume returns how much tank water brings the bag near.
func (a *Acclimation) volume(far func(float64) float64) (units.Volume, error) {
	bag := a.Bag.Water.Volume().Litres()
	for most := bag; most <= mostTankWater*bag; most *= 2 {
		if far(most) <= 0 {
			if v, ok := solve.Brent(far, 0, most, 1e-12*bag); ok {
				return units.Volume(v), nil
			}
		}
	}
	return 0, input.Bad("near", "a swing that takes more than "+input.Number(mostTankWater)+" times the water of the bag", "a wider one")
}

// pace finds the fastest flow that keeps the limits.
func (a *Acclimation) pace(p *AcclimationPlan) error {
	passed := func(q units.Flow) (*Limit, string) {
		all := q.Time(p.Added)
		for i := range a.Limits {
			l := &a.Limits[i]
			within := min(l.Within, all)
			for k := range moments {
				start := time.Duration(float64(all-within) * float64(k) / (moments - 1))
				from, to := a.with(q.Volume(start)), a.with(q.Volume(start+within))
				if what, by := l.passed(&from, &to, true); by > 1+1e-9 {
					return l, what
				}
				if all == within {
					break
				}
			}
		}
		return nil, ""
	}
	if l, what := passed(p.Flow); l != nil {
		slow := units.Flow(p.Added.Litres() / slowestDrip.Hours())
		if l, what := passed(slow); l != nil || slow >= p.Flow {
			return refused(l, what, "makes the drip take days: carry the animal over step by step, in water that is kept clean")
		}
		p.Slowed = what + " within " + hours(l.Within) + " (" + l.Origin + ")"
		for fast := p.Flow; fast/slow > 1+1e-9; {
			q := units.Flow(math.Sqrt(float64(fast) * float64(slow)))
			if l, what := passed(q); l == nil {
				slow = q
			} else {
				fast, p.Slowed = q, what+" within "+hours(l.Within)+" ("+l.Origin+")"
			}
		}
		p.Flow = slow
	}
	if p.Time = p.Flow.Time(p.Added); p.Time < 0 || p.Time > 100*slowestDrip {
		return input.Bad("flow", p.Flow.String(), "a drip that is done within days")
	}
	return nil
}

func (a *Acclimation) check() error {
	if err := input.Positive("bag", float64(a.Bag.Water.Volume()), "L"); err != nil {
		return err
	}
	if err := a.Bag.checkWater("bag"); err != nil {
		return err
	}
	if err := a.Tank.checkWater("tank"); err != nil {
		return err
	}
	if err := input.Positive("flow", float64(a.Flow), "L/h"); err != nil {
		return err
	}
	for i := range a.Limits {
		if err := a.Limits[i].check(); err != nil {
			return err
		}
	}
	near := Limit{Swing: a.Near, Within: time.Hour}
	if err := near.check(); err != nil {
		return input.As("near", err)
	}
	if a.Near.Share != 0 {
		return input.Bad("near.share", a.Near.Share.String(), "nothing: how much of the water is new says nothing of how near it is")
	}
	wanted := a.Near.Salinity.Value() > 0 || a.Near.Temperature > 0 || a.Near.PH > 0
	for i := range near.count() {
		if !near.get(i).known {
			continue
		}
		wanted = true
		if !near.find(&a.Bag.Levels, i).known || !near.find(&a.Tank.Levels, i).known {
			return input.Bad("near."+near.field(i), input.Number(near.get(i).value), "a level that is known in the bag and in the tank")
		}
	}
	if a.Near.PH > 0 {
		for _, s := range [...]struct {
			name string
			of   *State
		}{{"bag", &a.Bag}, {"tank", &a.Tank}} {
			if _, err := s.of.Chemistry(); err != nil {
				return input.In(s.name, err)
			}
		}
	}
	if !wanted {
		return input.Bad("near", "nothing", "a swing of salinity, temperature, pH or a level")
	}
	return nil
}

// Cautions of every acclimation.
var (
	bagAmmonia = advice.Caution{ID: "ammonia-in-the-bag", Severity: advice.Care, Text: "Water of a long journey holds ammonia, which the CO₂ of the animal keeps harmless by a low pH. In an opened bag the CO₂ leaves, and each unit of pH makes up to ten times as much of the ammonia poisonous: measure it first. If there is much, match temperature and salinity elsewhere and move the animal soon instead of dripping for hours (common practice)."}
	bagWater   = advice.Caution{ID: "bag-water-stays-out", Severity: advice.Care, Text: "Do not pour the water of the bag into the tank: it carries ammonia, medicine and parasites (common practice)."}
	dripRunsOn = advice.Caution{ID: "drip-runs-on", Severity: advice.Care, Text: "A drip line goes on until the bucket runs over or the tank is down to its end: hang that just below the surface, and stay near. Water on the floor reaches outlets and power strips."}
)

// carbonDioxideOutdoors is the content of CO₂ of fresh air, in ppm (common practice).
const carbonDioxideOutdoors = 430

// cautions are those of an acclimation. Free ammonia is worked out where the bag
// tells enough of itself: as it is, and once it has given its CO₂ to the air.
func (a *Acclimation) cautions(p *AcclimationPlan) []advice.Caution {
	ammonia := bagAmmonia
	total, known := a.Bag.Ammonia.Value()
	aired, err := a.Bag.Aired(carbonDioxideOutdoors, units.Atmosphere)
	if known && err == nil {
		then, _ := freeAmmonia(&aired)
		c, _ := aired.Chemistry()
		text := "Of the " + input.Fixed(total.MilligramsPerLitre(), 2) + " mg/L of ammonia nitrogen in the bag"
		if now, ok := freeAmmonia(&a.Bag); ok {
			text += ", " + input.Fixed(now.MilligramsPerLitre(), 3) + " mg/L is the poisonous NH₃ now, and"
		}
		text += " " + input.Fixed(then.MilligramsPerLitre(), 3) + " mg/L will be once the CO₂ has left the opened bag and its pH is " + input.Fixed(c.PH.Value(), 2) + " (computed)."
		if then > ammoniaCare {
			text += " That is above 0.02 (common practice): match temperature and salinity elsewhere and move the animal soon instead of dripping for hours."
		}
		ammonia.Text = text
	}
	list := []advice.Caution{ammonia, bagWater}
	if p.Added > 0 {
		list = append(list, dripRunsOn)
	}
	if d := p.Final.Water.Practical().Value() - a.Bag.Water.Practical().Value(); d > advice.SalinityPerDay && p.Time < time.Hour {
		list = append(list, advice.Caution{ID: "salinity-swing", Severity: advice.Care, Text: "Salinity rises by " + input.Fixed(d, 1) + " in less than an hour: animals bear a rise worse than a fall (common practice). Let it drip more slowly."})
	}
	return list
}
