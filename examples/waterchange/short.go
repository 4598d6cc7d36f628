package main

import (
	"io"
	"time"

	"example.org/wellmixed/mix/advice"
)

// swings are the cautions about the animals that the wall shows too.
var swings = map[string]bool{
	"salinity-swing": true, "temperature-swing": true, "alkalinity-swing": true, "large-change": true,
	"free-ammonia": true, "ph-swing": true, "impure-water": true,
}

// printShort writes the job for the wall beside the vessel: what to do, in order,
// and the dangers. The full form has the reasons.
func (j job) printShort(w io.Writer) error {
	p := &printer{w: w}
	in, b, r := j.in, j.batch, j.batch.Reads
	p.line("%s", in.name)
	if j.pure.bad {
		p.line("STOP: %s", j.pure.advice)
	}
	p.line("[ ] make %s pure water, %s", volume(j.pure.need), duration(j.pure.time))
	p.line("[ ] pour %s into the clean vessel%s", volume(b.Water), levelNote("up to", b.WaterLevel))
	p.line("[ ] pump on; %s of salt%s, into the moving water", mass(b.Salt), scoops(b.Scoops))
	if in.batch.Temperature.Celsius() >= in.batch.WaterTemperature.Celsius() {
		p.line("[ ] warm to %s (%s); circulate overnight, lid on", temperature(in.batch.Temperature), duration(j.heat.Time))
	} else {
		p.line("[ ] let it cool to %s; circulate overnight, lid on", temperature(in.batch.Temperature))
	}
	p.line("[ ] read at %s: %.1f ppt = SG %.4f (%s) = %.1f mS/cm", temperature(in.batch.Temperature),
		b.Mix.Practical().Value(), r.SpecificGravity.Ratio(), r.SpecificGravity.Pair(),
		r.Conductivity.MillisiemensPerCentimetre())
	if in.corrects {
		p.line("[ ] it read %.1f: %s", in.measured.Value(), counsel(j.correction))
	}
	p.line("[ ] tank: heaters and pumps off")
	p.line("[ ] draw %s, pour %s of the mix", volume(in.swap), volume(in.swap))
	p.line("[ ] heaters and pumps on once covered")
	if c := j.course; c != nil && c.Adjust {
		p.line("[ ] for the goal, first bring the mix to %s to %s", temperature(c.BatchFrom), temperature(c.BatchTo))
	}
	if c := j.course; c != nil && c.Changes > 0 {
		p.line("[ ] or, instead, to the goal: %d changes of %s, one every %s", c.Changes, volume(c.Each), days(in.goalEvery))
	}
	for _, g := range j.give {
		p.line("[ ] after the goal's last change: %s of %s%s", dose(g.plan.Amount), g.reagent.Compound, inSteps(g.plan))
	}
	p.line("[ ] daily: top off %s pure water", volume(in.evaporation.Volume(24*time.Hour)))
	p.line("[ ] next change in %s", days(in.every))
	p.head("Dangers")
	for _, c := range j.cautions() {
		if c.Severity == advice.Danger || swings[c.ID] {
			p.item(c.Text)
		}
	}
	return p.err
}
