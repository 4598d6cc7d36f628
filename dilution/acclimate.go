package dilution

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// Acclimation is the way of an animal from the water that it came in to that of the
// tank: tank water drips into its bag or bucket, and nothing runs out.
type Acclimation struct {
	Bag    tested.Water  // its volume is that of the water that the animal came in
	Tank   tested.Water  // its volume does not count
	Near   Near          // how near to the tank the bag has to come
	Limits tested.Limits // of how fast it may; the zero value: the usual ones
	Flow   units.Flow
}

// Near is how near two waters are: what is zero or not in the list does not matter.
type Near struct {
	Salinity    units.PracticalSalinity
	Temperature units.TemperatureDifference
	PH          float64 // total scale
	Levels      tested.Levels
}

// AcclimationPlan is the answer to an Acclimation.
type AcclimationPlan struct {
	Flow        units.Flow // as fast as was asked for, or as the limits allow
	Time        time.Duration
	Added       units.Volume // of tank water
	Final       tested.Water // of both waters together
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
	near := a.Near.limit()
	far := func(v float64) float64 {
		s := a.with(units.Volume(v))
		_, by := passed(&near, &s, &a.Tank, true)
		return by - 1
	}
	if far(0) > 0 {
		v, err := a.volume(far)
		if err != nil {
			return AcclimationPlan{}, err
		}
		p.Added = v
		s := a.with(v * (1 - 1e-9))
		p.Decides, _ = passed(&near, &s, &a.Tank, true)
		if err := a.pace(&p); err != nil {
			return AcclimationPlan{}, err
		}
	}
	p.Final = a.with(p.Added)
	p.Assumptions = []string{
		"Bag and tank water mix at once, and no water is taken out of the bag.",
		"Heat comes from the tank water alone: a bag that floats in the tank, or stands in a cold room, goes another way.",
	}
	p.Assumptions = append(p.Assumptions, unseen(a.held(), &a.Bag, &a.Tank, "the bag and in the tank")...)
	p.Assumptions = append(p.Assumptions, left(a.Bag, a.Tank)...)
	p.Cautions = a.cautions(&p)
	return p, nil
}

// limit writes nearness as a limit of the difference.
func (n *Near) limit() tested.Limit {
	return tested.Limit{Salinity: n.Salinity, Temperature: n.Temperature, PH: n.PH, Levels: n.Levels}
}

// held are the limits that hold for an animal in a bag, which is to come into new
// water altogether.
func (a *Acclimation) held() tested.Held {
	list := a.Limits.List()
	for i := range list {
		list[i].Share = units.Share(0)
	}
	return list
}

// with returns the bag with so much of the tank in it.
func (a *Acclimation) with(v units.Volume) tested.Water {
	if v == 0 {
		return a.Bag
	}
	return a.Bag.Blend(a.Tank.OfVolume(v))
}

// mostTankWater is how many times its own volume a bag may take.
const mostTankWater = 1000

// volume returns how much tank water brings the bag near.
func (a *Acclimation) volume(far func(float64) float64) (units.Volume, error) {
	bag := a.Bag.Volume().Litres()
	for most := bag; ; most = min(2*most, mostTankWater*bag) {
		if far(most) <= 0 {
			if v, ok := solve.Brent(far, 0, most, 1e-12*bag); ok {
				return units.Volume(v), nil
			}
		}
		if most >= mostTankWater*bag {
			break
		}
	}
	return 0, input.Bad("near", "a swing that takes more than "+input.Number(mostTankWater)+" times the water of the bag",
		"a wider one")
}

// pace finds the fastest flow that keeps the limits.
func (a *Acclimation) pace(p *AcclimationPlan) error {
	held := a.held()
	broken := func(q units.Flow) (*tested.Limit, string) {
		all := q.Time(p.Added)
		for i := range held {
			l := &held[i]
			within := min(l.Within, all)
			for k := range moments {
				start := time.Duration(float64(all-within) * float64(k) / (moments - 1))
				from, to := a.with(q.Volume(start)), a.with(q.Volume(start+within))
				if what, by := passed(l, &from, &to, true); by > 1+1e-9 {
					return l, what
				}
				if all == within {
					break
				}
			}
		}
		return nil, ""
	}
	if l, what := broken(p.Flow); l != nil {
		slow := units.Flow(p.Added.Litres() / slowestDrip.Hours())
		if l, what := broken(slow); l != nil || slow >= p.Flow {
			return refused(l, what, "makes the drip take days: carry the animal over step by step, in water that is kept clean")
		}
		p.Slowed = slowed(l, what)
		for fast := p.Flow; fast/slow > 1+1e-9; {
			q := units.Flow(math.Sqrt(float64(fast) * float64(slow)))
			if l, what := broken(q); l == nil {
				slow = q
			} else {
				fast, p.Slowed = q, slowed(l, what)
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
	near := a.Near
	return input.Join(
		a.Bag.Check("bag"),
		a.Tank.CheckKind("tank"),
		input.Positive("flow", float64(a.Flow), "L/h"),
		a.Limits.Check("limits"),
		near.check(a))
}

// check refuses what cannot be told of the two waters.
func (n *Near) check(a *Acclimation) error {
	list := []error{
		input.NotNegative("near.salinity", n.Salinity.Value(), ""),
		input.NotNegative("near.temperature", float64(n.Temperature), "K"),
		input.NotNegative("near.pH", n.PH, ""),
		n.Levels.Check("near"),
	}
	for _, l := range n.Levels {
		_, inBag := a.Bag.Level(l.Parameter())
		_, inTank := a.Tank.Level(l.Parameter())
		list = append(list,
			l.Must("near", inBag && inTank, "a level that is known in the bag and in the tank"),
			l.Must("near", l.Base() > 0, "above zero: two waters are never the same"))
	}
	if n.PH > 0 {
		_, bag := a.Bag.CarbonChemistry()
		_, tank := a.Tank.CarbonChemistry()
		list = append(list, input.In("bag", bag), input.In("tank", tank))
	}
	if !(n.Salinity.Value() > 0 || n.Temperature > 0 || n.PH > 0 || len(n.Levels) > 0) {
		list = append(list, input.Bad("near", "nothing", "a swing of salinity, temperature, pH or a level"))
	}
	return input.Join(list...)
}

// Cautions of every acclimation.
var (
	bagAmmonia = advice.Caution{
		ID:       "ammonia-in-the-bag",
		Severity: advice.Care,
		Text: "Water of a long journey holds ammonia, which the CO₂ of the animal keeps harmless by a low pH. In an " +
			"opened bag the CO₂ leaves, and each unit of pH makes up to ten times as much of the ammonia poisonous: measure " +
			"it first. If there is much, match temperature and salinity elsewhere and move the animal soon instead of " +
			"dripping for hours (common practice).",
	}
	bagWater = advice.Caution{
		ID:       "bag-water-stays-out",
		Severity: advice.Care,
		Text: "Do not pour the water of the bag into the tank: it carries ammonia, medicine and parasites (common " +
			"practice).",
	}
	dripRunsOn = advice.Caution{
		ID:       "drip-runs-on",
		Severity: advice.Care,
		Text: "A drip line goes on until the bucket runs over or the tank is down to its end: hang that just below the " +
			"surface, and stay near. Water on the floor reaches outlets and power strips.",
	}
)

// carbonDioxideOutdoors is the content of CO₂ of fresh air, in ppm (common practice).
const carbonDioxideOutdoors = 430

// cautions are those of an acclimation. Free ammonia is worked out where the bag
// tells enough of itself: as it is, and once it has given its CO₂ to the air.
func (a *Acclimation) cautions(p *AcclimationPlan) []advice.Caution {
	ammonia := bagAmmonia
	total, known := a.Bag.Level(tested.Ammonia)
	aired, err := a.Bag.Aired(carbonDioxideOutdoors, units.Atmosphere)
	if known && err == nil {
		if then, err := aired.CarbonChemistry(); err == nil {
			ammonia.Text = a.ammonia(total, then)
		}
	}
	list := []advice.Caution{ammonia, bagWater}
	if p.Added > 0 {
		list = append(list, dripRunsOn)
	}
	if d := p.Final.Portion.Practical().Value() - a.Bag.Portion.Practical().Value(); d > advice.SalinityPerDay &&
		p.Time < time.Hour {
		list = append(list, advice.Caution{ID: "salinity-swing", Severity: advice.Care, Text: "Salinity rises by " +
			input.Fixed(d, 1) +
			" in less than an hour: animals bear a rise worse " +
			"than a fall (" + advice.CommonPractice + "). Let it drip more slowly.", Here: true})
	}
	return list
}

// ammonia says what the ammonia of the bag is now and will be once it is aired.
func (a *Acclimation) ammonia(total tested.Level, then tested.Chemistry) string {
	text := "Of the " + total.String() + " of ammonia in the bag"
	if now, err := a.Bag.CarbonChemistry(); err == nil {
		text += ", " + input.Fixed(milligrams(now.FreeAmmonia), 3) + " mg/L is the poisonous NH3 now, and"
	}
	text += " " + input.Fixed(milligrams(then.FreeAmmonia), 3) + " mg/L NH3 will be once the CO2 has left the opened " +
		"bag and its pH is " +
		input.Fixed(then.PH.Value(), 2) + " (computed)."
	if then.FreeAmmonia.MassPerLitre() > advice.FreeAmmonia {
		text += " That is above " + input.Number(advice.FreeAmmonia.MilligramsPerLitre()) + ", counted as NH3 (" +
			advice.CommonPractice +
			"): match temperature and salinity elsewhere and move the animal soon instead of dripping for hours."
	}
	return text
}
