package dilution

import (
	"math"
	"slices"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// assumptions lists what a forecast takes for granted.
func (r *Routine) assumptions(m *motion) []string {
	list := []string{
		"The tank is well mixed and stays at " + input.Fixed(m.temperature.Celsius(), 1) + " °C: a heater or cooler sees " +
			"to it, after changes of water too.",
		"What the tank makes and uses in a day stays the same all the time, by the amount, and nothing reacts with " +
			"anything else: no lime falls out.",
	}
	switch {
	case m.held && m.overflow:
		list = append(list, "The level in the tank stays what it is at the start: a float valve or a stream makes up for "+
			"evaporation, and an overflow takes what is too much.")
	case m.held:
		list = append(list, "The level in the tank stays what it is at the start: a float valve makes up at once for "+
			"evaporation; what stands above it, after new water that was saltier or colder, has to evaporate first.")
	}
	if r.Evaporation > 0 && !r.TopOff.None {
		for k, l := range m.levels {
			if _, has := r.TopOff.Water.Of(l.Parameter()); !has {
				list = append(list, "The top-off water holds no "+m.name(k)+", because none is given.")
			}
		}
	}
	still := ""
	for k, l := range m.levels {
		if _, given := r.PerDay.Of(l.Parameter()); !given && m.dose[rowLevels+k] == 0 && m.rate[rowLevels+k] == m.runsOff {
			still += ", " + m.name(k)
		}
	}
	if still != "" {
		list = append(list, "No rate is given for these, so nothing but water and doses moves them, and a bound that they "+
			"keep says little: "+still[2:]+".")
	}
	if r.Stream.Flow > 0 {
		list = append(list, "As much tank water runs off as keeps the level, by an overflow.")
	}
	var said []tested.Parameter
	for _, levels := range append([]tested.Levels{r.Tank.Levels}, r.levels()...) {
		for _, l := range levels {
			if p := l.Parameter(); !r.known(p) && !slices.Contains(said, p) {
				said = append(said, p)
				list = append(list, capital(string(p))+" is not known in the tank and in all new water, so it is not foretold.")
			}
		}
	}
	return list
}

// levels lists all levels that the routine has besides those of the tank.
func (r *Routine) levels() []tested.Levels {
	list := []tested.Levels{r.PerDay, r.TopOff.Water, r.Pumped, r.Stream.Batch.Levels}
	for i := range r.Doses {
		list = append(list, r.Doses[i].Levels)
	}
	for i := range r.Changes {
		list = append(list, r.Changes[i].Batch.Levels)
	}
	return list
}

// runsOut warns of what is used up. Where it is an ion that all seawater has much of, or its
// alkalinity, the animals have died before.
func runsOut(p tested.Parameter, at time.Duration) advice.Caution {
	c := advice.Caution{ID: "runs-out", Severity: advice.Care, Here: true,
		Text: capital(string(p)) + " is used up after " + sayDays(at) + ". From there on the forecast has the tank "}
	switch p {
	case tested.Alkalinity, tested.Calcium, tested.Magnesium, tested.Potassium:
		c.Severity = advice.Danger
		c.Text += "live on what comes in, which animals do not: give back what is used long before."
	default:
		c.Text += "live on what comes in, which animals may not."
	}
	return c
}

// scaleEnd is the practical salinity at which the scale ends.
const scaleEnd = 42

// cautions are those of a forecast.
func (r *Routine) cautions(f *Forecast, b *ledger) []advice.Caution {
	var list []advice.Caution
	care := func(id, text string, here bool) {
		list = append(list, advice.Caution{ID: id, Severity: advice.Care, Text: text, Here: here})
	}
	add := func(id, text string) { care(id, text, true) }
	m := f.motion
	if len(r.Changes) > 0 {
		list = append(list, unplug, measureBatch)
	}
	largest := units.Volume(0)
	for i := range r.Changes {
		c := &r.Changes[i]
		largest = max(largest, c.Swap)
		if heavy, applies := advice.TooHeavy(c.Batch.Portion.OfVolume(c.Swap).Mass); applies && c.Swap == largest {
			list = append(list, heavy)
		}
	}
	if largest > advice.SharePerDay*r.Tank.Volume() {
		list = append(list, largeChange)
	}
	if r.Stream.Flow > 0 {
		list = append(list, twoFlows)
	}
	switch {
	case r.Evaporation == 0:
	case r.TopOff.None:
		add("no-top-off", "Nobody tops off: the salinity goes from "+input.Fixed(f.Start.Portion.Practical().Value(),
			1)+" to "+input.Fixed(f.End.Portion.Practical().Value(),
			1)+", and pumps and heaters come out of the water as it falls.")
	case r.TopOff.Hand == 0:
		care("top-off-runs-over", "A float valve that sticks floods the floor and dilutes the tank: keep no more top-off "+
			"water in its vessel than the tank can take, and the end of its line above the water.", false)
	}
	if a, known := r.TopOff.Water.Of(tested.Alkalinity); known && a.Base() > 0 && !r.TopOff.None {
		care("lime-water", "If the alkalinity of the top-off is lime water: it is caustic (a saturated one has a pH above "+
			"12). Gloves and goggles, and only as much in a day as the pH of the tank bears.", false)
	}
	for i := range r.Doses {
		d := &r.Doses[i]
		if l, known := d.Levels.Of(tested.Alkalinity); known && l.Alkalinity().DKH() > advice.DKHPerDay {
			add("alkalinity-swing", "A dose of "+input.Fixed(l.Alkalinity().DKH(),
				1)+" dKH moves alkalinity by more than "+input.Number(advice.DKHPerDay)+" dKH at a time ("+advice.CommonPractice+
				"): spread it over smaller doses.")
			break
		}
	}
	for i, at := range b.ranOut {
		if at >= 0 {
			list = append(list, runsOut(m.levels[i-rowLevels].Parameter(), at))
		}
	}
	highest := math.Max(f.Start.Portion.Practical().Value(), f.End.Portion.Practical().Value())
	for i := range f.times {
		row := f.row(i)
		highest = math.Max(highest, m.water(row).Practical().Value())
	}
	if highest > scaleEnd {
		add("beyond-the-scale", "The salinity goes to "+input.Fixed(highest, 1)+", beyond "+input.Number(scaleEnd)+
			", where the practical scale ends.")
	}
	return list
}
