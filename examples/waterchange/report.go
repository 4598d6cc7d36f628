package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/units"
)

// print writes the job for the person with the bucket.
func (j job) print(w io.Writer) error {
	p := &printer{w: w}
	in, b := j.in, j.batch

	p.line("Water change: %s", in.name)

	p.head("1. Pure water")
	p.line("Make %s for the mix, at %s: %s, with %s to the drain.", volume(j.pure.need), flow(in.flow),
		duration(j.pure.time), volume(j.pure.waste))
	p.line("Top-off takes another %s until the next change.", volume(j.pure.topOff))
	p.line("Meter: %g ppm after the purifier, %g ppm from the "+
		"tap%s: %s", in.product.PPM(), in.tap.PPM(), rejection(j.pure.rejection), j.pure.advice)

	if x := j.product; x != nil {
		p.line("At %.1f bar and %s its membrane should give %s of "+
			"%.1f ppm.", in.feed.Pressure.Bars(), temperature(in.feed.Temperature), flow(x.Flow), x.AfterMembrane.PPM())
		if x.Lasts.Resin > 0 {
			p.line("Fresh resin lasts for %s of it.", volume(x.Lasts.Resin))
		}
	}
	if c := j.checkup; c != nil {
		for _, f := range c.Findings {
			if f.Verdict != rodi.NotJudged {
				p.line("  %-9s %s", f.Stage, f.Sentence)
			}
		}
	}

	p.head("2. Mix")
	if j.pure.bad {
		p.line("STOP: not with this water. The rest holds once the meter shows 0 to 2 ppm.")
	}
	p.line("Pour %s of pure water at %s%s.", volume(b.Water), temperature(in.batch.WaterTemperature),
		levelNote("up to", b.WaterLevel))
	p.line("Dissolve %s of %s%s.", mass(b.Salt), in.batch.Salt.Name, scoops(b.Scoops))
	p.line("That makes %s at %s%s.", volume(b.Volume), temperature(in.batch.Temperature),
		levelNote("level at", b.FinalLevel))
	if b.Batches > 0 {
		p.line("A package gives %.1f such batches%s.", b.Batches, cost(b.Cost))
	}

	p.head("3. Warm and circulate, lid on")
	switch from, to := in.batch.WaterTemperature, in.batch.Temperature; {
	case to.Celsius() > from.Celsius():
		p.line("The heater (%g W) takes %s from %s to %s and draws "+
			"%.1f kWh%s.", in.heating.Heater.Watts(), duration(j.heat.Time), temperature(from), temperature(to),
			j.heat.Energy.KilowattHours(), hold(j.heat.Hold))
	case to.Celsius() < from.Celsius():
		p.line("Let it cool from %s to %s: the volume and the readings are for that.", temperature(from), temperature(to))
	default:
		p.line("It is at %s already%s.", temperature(to), hold(j.heat.Hold))
	}

	p.head("4. Measure before use")
	p.line("At %s the mix must read", temperature(in.batch.Temperature))
	p.line("  practical salinity  %.1f (ppt)", b.Mix.Practical().Value())
	p.line("  specific gravity    %.4f at %s", b.Reads.SpecificGravity.Ratio(), b.Reads.SpecificGravity.Pair())
	p.line("  conductivity        %.1f mS/cm (%.1f compensated "+
		"to 25 °C)", b.Reads.Conductivity.MillisiemensPerCentimetre(), b.Reads.Conductivity25.MillisiemensPerCentimetre())
	if in.corrects {
		p.line("It reads %.1f: %s", in.measured.Value(), counsel(j.correction))
	}

	p.head("5. Change")
	p.line("Swap %s, %.1f %% of the tank%s.", volume(in.swap), j.change.Share.Percent(), left(j.change.BatchLeft))
	p.moves(j)

	if j.in.doubtful {
		p.line("± is the standard uncertainty; in brackets the input that makes most of it.")
	}
	j.printGoal(p)

	p.head("7. Until the next change, " + days(in.every))
	p.line("Top off with pure water, about %s a day: salt does not "+
		"evaporate.", volume(in.evaporation.Volume(24*time.Hour)))
	p.line("Without top-off the tank reaches %.1f after %s.", in.salinityLimit.Value(), days(j.between.unattended))
	if j.between.nitrate != nil {
		p.line("Nitrate is at about %s right before the next change.", level(*j.between.nitrate))
	}
	if r := j.between.rounds; r != nil {
		if r.before > 0 {
			p.line("Repeated for good, such changes let it settle at %s before and %s "+
				"after each.", level(r.before), level(r.after))
		}
		if r.note != "" {
			p.line("Nitrate: %s", r.note)
		}
	}

	p.head("Assumed")
	for _, a := range j.assumptions() {
		p.item(a)
	}
	p.head("Take care")
	for _, c := range j.cautions() {
		p.item(c.Text)
	}
	return p.err
}

// moves prints what the change does, with how sure it is.
func (p *printer) moves(j job) {
	p.line("  %-20s %9s %9s %9s", "", "tank now", "new water", "after")
	for _, m := range j.change.Moves() {
		if math.IsNaN(m.Before) && math.IsNaN(m.Batch) {
			continue
		}
		d := decimals(m.Name)
		sure, mostly := "", ""
		for _, e := range j.estimates {
			if e.Name == m.Name && e.Mostly != "" {
				sure, mostly = fmt.Sprintf(" ± %-6s", fixed(e.Uncertainty, d)), "  ("+e.Mostly+")"
			}
		}
		p.line("%s", strings.TrimRight(fmt.Sprintf("  %-20s %9s %9s %9s%s %s%s", m.Name, fixed(m.Before, d),
			fixed(m.Batch, d), fixed(m.After, d), sure, m.Unit, mostly), " "))
	}
}

// dose writes an amount of an additive.
func dose(a replenish.Amount) string {
	if a.Volume > 0 {
		return volume(a.Volume)
	}
	return mass(a.Mass)
}

// printGoal tells the way to the goal and what else is to be given.
func (j job) printGoal(p *printer) {
	c := j.course
	if c == nil {
		return
	}
	p.head("6. The way to the goal, instead of the change above")
	switch {
	case c.Changes == 0:
		p.line("No change of water is needed for it.")
	case c.Changes == 1:
		p.line("One change of %s, %d vessels of mix.", volume(c.Each), c.Vessels)
	default:
		p.line("%d changes of %s, one every %s: %s in all, %d "+
			"vessels of mix.", c.Changes, volume(c.Each), days(j.in.goalEvery), days(c.Duration), c.Vessels)
	}
	if c.Slowed != "" {
		p.line("Limit: %s.", c.Slowed)
	}
	if c.Adjust {
		p.line("First bring the mix to %s to %s.", temperature(c.BatchFrom), temperature(c.BatchTo))
	}
	for _, g := range j.give {
		p.line("Then bring %s to %s: %s of %s%s.", g.of, after(g), dose(g.plan.Amount), g.reagent.Compound, inSteps(g.plan))
	}
}

// assumptions gathers those of all steps, each once.
func (j job) assumptions() []string {
	all := append(append([]string{}, j.batch.Assumptions...), j.change.Assumptions...)
	if j.product != nil {
		all = append(all, j.product.Assumptions...)
	}
	if j.course != nil {
		all = append(all, j.course.Assumptions...)
	}
	for _, g := range j.give {
		all = append(all, g.plan.Assumptions...)
	}
	var list []string
	for _, a := range all {
		if !slices.Contains(list, a) {
			list = append(list, a)
		}
	}
	return list
}

// cautions gathers those of all steps, each once, the dangers first.
func (j job) cautions() []advice.Caution {
	var all []advice.Caution
	if j.product == nil && j.checkup == nil { // else these have more to say of it
		all = append(all, drinkingWaterLine)
	}
	if j.pure.bad {
		all = append(all, advice.Caution{
			ID:       "impure-water",
			Severity: advice.Care,
			Text:     "The purified water reads too high for animals: " + j.pure.advice,
		})
	}
	all = append(all, j.batch.Cautions...)
	all = append(append(all, j.heat.Cautions...), j.change.Cautions...)
	if j.product != nil {
		all = append(all, j.product.Cautions...)
	}
	if j.checkup != nil {
		all = append(all, j.checkup.Cautions...)
	}
	if j.course != nil {
		all = append(all, j.course.Cautions...)
	}
	for _, g := range j.give {
		all = append(all, g.plan.Cautions...)
	}
	var list []advice.Caution
	for severity := advice.Danger; ; severity-- {
		for _, c := range all {
			if c.Severity == severity && !slices.Contains(list, c) { // two of one kind are two
				list = append(list, c)
			}
		}
		if severity == advice.Note {
			return list
		}
	}
}

// drinkingWaterLine goes with a purifier of which nothing more is known.
var drinkingWaterLine = advice.Caution{
	ID:       "drinking-water-line",
	Severity: advice.Care,
	Text: "A purifier on the drinking-water line wants backflow protection and fittings made for potable water " +
		"under the local plumbing code, and an eye on it while it runs: leaks and overfull bins flood homes.",
}

// printer writes lines until the first error.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

func (p *printer) head(text string) { p.line("\n%s", text) }

// item writes a sentence as a list item, folded at 78 columns.
func (p *printer) item(text string) {
	line := "-"
	for _, word := range strings.Fields(text) {
		if len([]rune(line))+1+len([]rune(word)) > 78 {
			p.line("%s", line)
			line = " "
		}
		line += " " + word
	}
	p.line("%s", line)
}

func volume(v units.Volume) string {
	if v < 1*units.Litre {
		return fmt.Sprintf("%.0f mL (%.1f US fl oz)", v.Millilitres(), v.USFluidOunces())
	}
	return fmt.Sprintf("%.1f L (%.1f US gal)", v.Litres(), v.USGallons())
}

func mass(m units.Mass) string {
	if m < 1*units.Kilogram {
		return fmt.Sprintf("%.0f g (%.1f oz)", m.Grams(), m.Ounces())
	}
	return fmt.Sprintf("%.3f kg (%.2f lb)", m.Kilograms(), m.Pounds())
}

func temperature(t units.Temperature) string {
	return fmt.Sprintf("%.1f °C (%.1f °F)", t.Celsius(), t.Fahrenheit())
}

func flow(f units.Flow) string { return fmt.Sprintf("%.1f L/h", f.LitresPerHour()) }

func level(c units.MassPerLitre) string { return fmt.Sprintf("%.1f mg/L", c.MilligramsPerLitre()) }

func duration(d time.Duration) string {
	d = d.Round(time.Minute)
	return fmt.Sprintf("%d h %d min", int(d.Hours()), int(d.Minutes())%60)
}

func days(d time.Duration) string {
	if d < 24*time.Hour {
		return fmt.Sprintf("%.0f h", d.Hours())
	}
	n := strconv.FormatFloat(math.Round(d.Hours()/2.4)/10, 'f', -1, 64)
	if n == "1" {
		return "1 day"
	}
	return n + " days"
}

func rejection(r float64) string {
	if math.IsNaN(r) {
		return ""
	}
	return fmt.Sprintf(" (%.1f %% held back)", 100*r)
}

func levelNote(word string, h units.Length) string {
	if h == 0 {
		return ""
	}
	return fmt.Sprintf(", %s %.1f cm (%.1f in)", word, h.Centimetres(), h.Inches())
}

func scoops(n float64) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf(", about %.1f level scoops", n)
}

func cost(m units.Money) string {
	if m.Currency == "" {
		return ""
	}
	return fmt.Sprintf(", %.2f %s each", m.Amount, m.Currency)
}

func hold(p units.Power) string {
	if p == 0 {
		return ""
	}
	return fmt.Sprintf("; holding it takes %.0f W", p.Watts())
}

func counsel(c mix.Correction) string {
	var do []string
	if c.Remove > 0 {
		do = append(do, "take out "+volume(c.Remove))
	}
	if c.AddWater > 0 {
		do = append(do, "add "+volume(c.AddWater)+" of pure water")
	}
	if c.AddSalt > 0 {
		do = append(do, "dissolve another "+mass(c.AddSalt)+" of salt"+scoops(c.Scoops))
	}
	if len(do) == 0 {
		return "as it should be, within what a hand-held instrument can tell."
	}
	return "in the mixing vessel, " + strings.Join(do, ", then ") + "; circulate and measure again."
}

func left(v units.Volume) string {
	if v < 0.05*units.Litre {
		return ""
	}
	return ", and keep " + volume(v) + " of the mix"
}

// after returns the level that a dose leads to.
func after(g giveBack) string {
	for _, l := range g.plan.After {
		if l.Parameter() == g.of {
			x, unit := l.Counted()
			if unit == "dKH" {
				return fmt.Sprintf("%.1f dKH", x)
			}
			return fmt.Sprintf("%.4g %s", x, unit)
		}
	}
	return "the goal"
}

func inSteps(p replenish.DosePlan) string {
	switch n := len(p.Steps); {
	case n < 2:
		return ", at once"
	default:
		return fmt.Sprintf(", over %d days (limit: %s)", n, p.LimitedBy)
	}
}

func decimals(name string) int {
	switch name {
	case "Calcium", "Magnesium":
		return 0
	case "pH":
		return 2
	case "Phosphate", "Ammonia":
		return 3
	case "Free ammonia":
		return 4
	}
	return 1
}

func fixed(x float64, decimals int) string {
	if math.IsNaN(x) {
		return "?"
	}
	return strconv.FormatFloat(x, 'f', decimals, 64)
}
