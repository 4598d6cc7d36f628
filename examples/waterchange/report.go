package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// report writes the job for the person with the bucket: the verdict, the work in its order,
// what it does; and then the details.
func (j *job) report() {
	j.verdict()
	j.steps()
	j.glance()
	j.r.Sections = slices.Insert(j.r.Sections, 0, paper.Section{Title: "When", Body: []any{j.timeline()}})
	j.vessel()
	j.sure()
	j.toGoal()
	j.between()
	j.purifier()
	j.buy()
}

func (j *job) verdict() {
	s, b := j.h.Style, j.Batch
	if bad := j.impure(); bad != "" {
		j.r.Verdict = append(j.r.Verdict, "STOP: "+bad)
	}
	if j.Change == nil {
		j.r.Verdict = append(j.r.Verdict, fmt.Sprintf("Mix %s of %s: %s of salt.", s.Of(b.Volume),
			s.Salinity(b.Mix.Sample), s.Of(b.Salt)))
		return
	}
	text := fmt.Sprintf("Swap %s, %s %%", s.Of(j.swap), paper.Digits(j.Change.Share.Percent()))
	if j.usual {
		text += " (the usual tenth: nobody said how much)"
	}
	var moves []string
	for _, m := range j.moves() {
		if m.Name == "Nitrate" || isSalinity(m.Name) && j.h.Tank.Salinity != nil {
			d := paper.Decimals(m.Name)
			if from, to := paper.Fixed(m.Before, d), paper.Fixed(m.After, d); from == to {
				moves = append(moves, strings.ToLower(m.Name)+" stays at "+from)
			} else {
				moves = append(moves, strings.ToLower(m.Name)+" "+from+" to "+to)
			}
		}
	}
	if len(moves) > 0 {
		text += ": " + strings.Join(moves, ", ")
	}
	j.r.Verdict = append(j.r.Verdict, text+".")
}

func isSalinity(name string) bool {
	return name == "Salinity" || name == "Specific gravity" || name == "Conductivity"
}

// steps are the work in its order.
func (j *job) steps() {
	h, s, b := j.h, j.h.Style, j.Batch
	do := func(format string, args ...any) { j.r.Steps = append(j.r.Steps, fmt.Sprintf(format, args...)) }
	switch f := j.flow(); {
	case h.Pure.Bought.Currency != "":
		do("Buy %s of pure water.", s.Of(b.Water))
	case f > 0:
		do("Make %s of pure water: %s%s.", s.Of(b.Water), span(f.Time(b.Water)), j.waste())
	default:
		do("Have %s of pure water ready.", s.Of(b.Water))
		j.r.Hides("pure_water.flow", "how long that takes")
	}
	at := ""
	if h.Pure.Temperature.IsSet() {
		at = " at " + s.Of(h.Pure.Temperature)
	}
	if n := j.fillings(); n > 1 {
		do("Pour it%s into the clean vessel: it takes %d fillings, one after the other.", at, n)
	} else {
		do("Pour it%s into the clean vessel%s.", at, j.level("up to", b.WaterLevel))
	}
	do("Pump on; %s of salt into the moving water%s.", s.Of(b.Salt), scoops(b.Scoops))
	j.warm(do)
	do("Read: %s.", s.AllSalinity(b.Mix.Sample))
	if c := j.Correction; c != nil {
		do("It read %.1f: %s", h.Mix.Measured.Value(), j.counsel(*c))
	} else if h.Mix.Measured != nil {
		do("It read %.1f: do not believe it; clean the instrument and read again.", h.Mix.Measured.Value())
	}
	if j.Change == nil {
		return
	}
	do("Tank heaters and pumps off; swap %s; on again.", s.Of(j.swap))
	next := j.topOff()
	if h.Change.Every > 0 {
		next += "; next change in " + span(h.Change.Every)
	}
	do("%s.", next)
}

// topOff is what is done about what evaporates.
func (j *job) topOff() string {
	h := j.h
	e, t := h.Routine.Evaporation, h.Routine.TopOff
	switch {
	case e == 0:
		j.r.Hides("evaporation", "how much to top off")
		return "Top off with pure water only"
	case t.None:
		return "Nobody tops off: " + h.Style.Of(e.Volume(24*time.Hour)) + " a day evaporate"
	case t.Hand > 0:
		return "Top off " + h.Style.Of(e.Volume(t.Hand)) + " of pure water every " + span(t.Hand)
	}
	return "Top off " + h.Style.Of(e.Volume(24*time.Hour)) + " of pure water a day"
}

// warm is the step that brings the mix to its temperature.
func (j *job) warm(do func(string, ...any)) {
	h, s, to := j.h, j.h.Style, j.Batch.Mix.Temperature()
	const circulate = "; circulate overnight, lid on"
	room := h.Room
	switch cold := to.Celsius() < j.cold().Celsius(); {
	case cold && room.IsSet() && to.Celsius() < room.Celsius()-0.5:
		do("Cool to %s%s. The room is at %s: that takes a cooler, or ice in a bag.", s.Of(to), circulate, s.Of(room))
	case cold:
		do("Let it cool to %s%s.", s.Of(to), circulate)
	case h.Unheated && room.IsSet():
		do("Let it come to the %s of the room%s.", s.Of(to), circulate)
	case h.Unheated:
		do("It will come to the temperature of the room%s.", circulate)
	case j.Heat != nil && j.Heat.Time > 0:
		do("Warm to %s: %s%s.", s.Of(to), span(j.Heat.Time), circulate)
	default:
		do("Warm to %s%s.", s.Of(to), circulate)
	}
}

// fillings is how often the vessel has to be filled for the batch; 1 if it is not known.
func (j *job) fillings() int {
	if !j.h.Vessel.Exists() || j.Batch.WaterLevel > 0 {
		return 1
	}
	return int(math.Ceil(float64(j.Batch.Volume/j.h.Vessel.SafeFill()) - 1e-9))
}

func (j *job) waste() string {
	if w := j.h.Pure.Waste; w > 0 {
		waste := j.Batch.Water * units.Volume(w)
		if j.h.Style.Units == units.US {
			return ", " + paper.Digits(waste.USGallons()) + " US gal to the drain"
		}
		return ", " + paper.Digits(waste.Litres()) + " L to the drain"
	}
	return ""
}

func (j *job) level(word string, h units.Length) string {
	if h == 0 {
		return ""
	}
	return ", " + word + " " + j.h.Style.Of(h)
}

func scoops(n float64) string {
	if n == 0 {
		return ""
	}
	return ", " + paper.Quarters(n) + " scoops"
}

func (j *job) counsel(c mix.Correction) string {
	s := j.h.Style
	var do []string
	if c.Remove > 0 {
		do = append(do, "take out "+s.Of(c.Remove))
	}
	if c.AddWater > 0 {
		do = append(do, "add "+s.Of(c.AddWater)+" of pure water")
	}
	if c.AddSalt > 0 {
		do = append(do, "dissolve another "+s.Of(c.AddSalt)+" of salt")
	}
	if len(do) == 0 {
		return "as it should be, as near as a hand-held instrument tells."
	}
	return strings.Join(do, ", then ") + ", and measure again."
}

// moves are the rows of the change, with its goals and limits.
func (j *job) moves() []paper.Compared {
	var list []paper.Compared
	for _, m := range j.Change.Moves() {
		row := paper.Compared{
			Name: m.Name, Unit: m.Unit, Before: float64(m.Before), New: float64(m.Batch), After: float64(m.After),
		}
		if m.Name == "Salinity" && j.h.Tank.Salinity == nil {
			row.Before, row.After = math.NaN(), math.NaN()
		}
		if m.Name == "Temperature" && !j.h.Tank.Temperature.IsSet() {
			row.Before, row.After = math.NaN(), math.NaN()
		}
		if math.IsNaN(row.Before) && math.IsNaN(row.New) {
			continue
		}
		row.Goal = of(j.h.Goal.Goal, m.Name)
		row.Low, row.High = of(j.h.Limits.Low, m.Name), of(j.h.Limits.High, m.Name)
		list = append(list, j.inStyle(row))
	}
	return list
}

// inStyle is a row as the keeper measures it.
func (j *job) inStyle(row paper.Compared) paper.Compared {
	all := []*float64{&row.Before, &row.New, &row.After, &row.Goal, &row.Low, &row.High}
	s := j.h.Style
	switch {
	case row.Name == "Temperature" && s.Units == units.US:
		row.Unit = "°F"
		for _, x := range all {
			*x = units.Celsius(*x).Fahrenheit()
		}
	case row.Name == "Salinity" && s.By != "ppt":
		row.Name, row.Unit = "Specific gravity", s.Pair.String()
		if s.By == "mS/cm" {
			row.Name, row.Unit = "Conductivity", "mS/cm at 25 °C"
		}
		for _, x := range all {
			w, err := seawater.FromPractical(units.Practical(*x), units.Celsius(25))
			switch {
			case math.IsNaN(*x) || err != nil:
				*x = math.NaN()
			case s.By == "mS/cm":
				*x = w.Conductivity().MillisiemensPerCentimetre()
			default:
				*x = w.SpecificGravity(s.Pair).Ratio()
			}
		}
	}
	return row
}

// of is what a goal says of a row.
func of(g dilution.Goal, name string) float64 {
	if name == "Salinity" && g.Salinity != (units.PracticalSalinity{}) {
		return g.Salinity.Value()
	}
	for _, l := range g.Levels {
		if strings.EqualFold(string(l.Parameter()), name) {
			x, _ := l.Counted()
			return x
		}
	}
	return math.NaN()
}

// glanced are the rows of the first screen.
var glanced = map[string]bool{
	"Salinity": true, "Specific gravity": true, "Conductivity": true, "Temperature": true, "Alkalinity": true,
	"Calcium": true, "Magnesium": true, "Nitrate": true, "Phosphate": true, "pH": true,
}

func (j *job) glance() {
	if j.Change == nil {
		return
	}
	t := &paper.Table{Head: []string{"", "tank now", "new water", "after", "goal", ""}, Left: true}
	besides := &paper.Table{Head: t.Head, Left: true}
	for _, m := range j.moves() {
		d := paper.Decimals(m.Name)
		goal := ""
		if !math.IsNaN(m.Goal) {
			goal = paper.Fixed(m.Goal, d)
		}
		row := []string{m.Name, paper.Fixed(m.Before, d), paper.Fixed(m.New, d), paper.Fixed(m.After, d), goal, m.Unit}
		if glanced[m.Name] {
			t.Row(row...)
		} else {
			besides.Row(row...)
		}
	}
	j.r.Glance = t
	if len(besides.Rows) > 0 {
		j.r.Add("What the change does besides", besides)
	}
	for _, name := range []tested.Parameter{tested.Alkalinity, tested.Nitrate} {
		if _, known := j.tank.Level(name); !known {
			j.r.Hides("tank."+string(name), "what becomes of it")
		} else if _, known := j.new.Level(name); !known {
			j.r.Hides("mix."+string(name), "what becomes of it")
		}
	}
	if j.h.Tank.Salinity == nil {
		j.r.Hides("tank.salinity", "whether the change moves it too fast")
	}
}

func (j *job) vessel() {
	var body []any
	if j.h.Vessel.Exists() && j.Batch.WaterLevel > 0 {
		body = append(body, &paper.Bucket{Vessel: j.h.Vessel, Water: j.Batch.WaterLevel, Full: j.Batch.FinalLevel,
			Scoops: j.Batch.Scoops, Style: j.h.Style})
	}
	if j.Change != nil {
		body = append(body, &paper.Compare{Rows: j.moves()})
	}
	s, b := j.h.Style, j.Batch
	text := fmt.Sprintf("%s of pure water and %s of salt make %s at %s%s.", s.Of(b.Water), s.Of(b.Salt),
		s.Of(b.Volume), s.Of(b.Mix.Temperature()), j.level("which stand at", b.FinalLevel))
	if b.Batches >= 1 {
		text += fmt.Sprintf(" A package is enough for %.0f such batches", math.Floor(b.Batches+1e-9))
	} else if b.Batches > 0 {
		text += fmt.Sprintf(" A package is not enough for it: it takes %s of them", paper.Digits(1/b.Batches))
	}
	if b.Batches > 0 {
		if b.Cost.Currency != "" {
			text += ", " + paper.Money(b.Cost) + " each"
		}
		text += "."
	}
	if j.Heat != nil && j.Heat.Hold > 0 {
		text += fmt.Sprintf(" Warming takes %.1f kWh, and holding it warm %.0f W.", j.Heat.Energy.KilowattHours(),
			j.Heat.Hold.Watts())
	}
	text += j.leftOver()
	j.r.Add("The mix", append([]any{text}, body...)...)
}

// leftOver is what the change does not take of the mix.
func (j *job) leftOver() string {
	if j.Change == nil || j.Change.BatchLeft < 0.05*units.Litre {
		return ""
	}
	return " The change leaves " + j.h.Style.Of(j.Change.BatchLeft) + " of it."
}

func (j *job) sure() {
	if len(j.Estimates) == 0 {
		return
	}
	t := &paper.Table{Head: []string{"after the change", "", "±", "", "mostly because of"}, Left: true}
	for _, e := range j.Estimates {
		if e.Mostly != "" {
			d := paper.Decimals(e.Name)
			if e.Name == "Temperature" && j.h.Style.Units == units.US {
				e.Value = units.Scalar(units.Celsius(float64(e.Value)).Fahrenheit())
				e.Uncertainty, e.Unit = e.Uncertainty*1.8, "°F"
			}
			off := paper.Fixed(float64(e.Uncertainty), d)
			if !j.doubted(e.Name) {
				off = "at least " + off
			}
			t.Row(e.Name, paper.Fixed(float64(e.Value), d), off, e.Unit, e.Mostly)
		}
	}
	j.r.Add("How sure it is", t, "± is the standard uncertainty: two of three times it is no further off.")
}

// doubted tells whether somebody said how sure a reading of this is: otherwise the rest of
// what is in doubt gives no more than a part.
func (j *job) doubted(name string) bool {
	d := j.h.Doubts
	switch name {
	case "Salinity":
		return d.Salinity.Value() > 0
	case "Temperature":
		return d.Temperature > 0
	case "pH", "Aragonite saturation":
		return d.PH > 0
	case "Free ammonia":
		name = "Ammonia"
	}
	_, given := d.Levels.Of(tested.Parameter(strings.ToLower(name)))
	return given
}

func (j *job) toGoal() {
	w, s := j.Way, j.h.Style
	if w == nil {
		return
	}
	var body []any
	say := func(format string, args ...any) { body = append(body, fmt.Sprintf(format, args...)) }
	if len(w.Reached) > 0 {
		say("%s: there already.", capital(strings.Join(w.Reached, ", ")))
	}
	if c := w.Course; c != nil {
		say("%s, in the place of the change above.", capital(j.say(c)))
		if c.Slowed != "" {
			say("Limit: %s.", c.Slowed)
		}
		if c.Adjust {
			say("Bring the mix to %s to %s first.", s.Of(c.BatchFrom), s.Of(c.BatchTo))
		}
	}
	for _, g := range w.Doses {
		say("%s to %s: %s of %s in all, %s%s.", capital(string(g.Of)), reached(g), dose(s, g.Plan.Amount), g.Name,
			inSteps(s, g.Plan), price(g))
	}
	if w.Course == nil && len(w.Doses) > 0 {
		say("The doses come after the change above, one additive after the other.")
	}
	if w.Course != nil && len(w.Doses) > 0 {
		say("The doses come after the last change, one additive after the other: %s in all.", span(w.days()))
	}
	if a := w.Alternative; a != nil {
		say("By changes alone it would take %s.", j.say(a))
	}
	for _, p := range w.Problems {
		say("Not planned: %s.", p)
	}
	j.r.Add("The way to the goal", body...)
}

func dose(s paper.Style, a replenish.Amount) string {
	if a.Volume > 0 {
		return s.Of(a.Volume)
	}
	return s.Of(a.Mass)
}

func price(g giveBack) string {
	if g.Cost.Currency == "" {
		return ""
	}
	return ", " + paper.Money(g.Cost)
}

// reached is the level that a dose leads to.
func reached(g giveBack) string {
	for _, l := range g.Plan.After {
		if l.Parameter() == g.Of {
			return paper.Level(l)
		}
	}
	return "the goal"
}

func inSteps(s paper.Style, p replenish.DosePlan) string {
	if n := len(p.Steps); n > 1 {
		return fmt.Sprintf("%s a day for %d days (limit: %s)", dose(s, p.Steps[0].Amount), n, p.LimitedBy)
	}
	return "at once"
}

func (j *job) between() {
	h := j.h
	if j.Change == nil || h.Change.Every == 0 {
		return
	}
	var body []any
	say := func(format string, args ...any) { body = append(body, fmt.Sprintf(format, args...)) }
	high := h.Limits.High
	if e := h.Routine.Evaporation; e > 0 && high.Salinity != (units.PracticalSalinity{}) {
		after, err := dilution.Unattended(j.Change.After.Portion, e, high.Salinity)
		switch {
		case err == nil:
			say("Without top-off the tank reaches %.1f ppt after %s.", high.Salinity.Value(), span(after))
		case j.Change.After.Portion.Practical().Value() >= high.Salinity.Value():
			say("After the change it is still above the %.1f ppt that it may have at most.", high.Salinity.Value())
		default:
			say("Without top-off: not worked out: %v.", err)
		}
	}
	j.ahead(say)
	rate, known := h.Routine.PerDay.Of(tested.Nitrate)
	fresh, tested2 := j.new.Level(tested.Nitrate)
	if known && tested2 {
		j.rounds(rate.As(units.AsNitrate).MassPerLitre(), fresh.As(units.AsNitrate).MassPerLitre(), say)
	}
	if len(body) > 0 {
		j.r.Add("Until the next change, "+span(h.Change.Every), body...)
	}
}

// ahead follows the tank to the next change, by all rates that were told, and says which
// limits are passed on the way.
func (j *job) ahead(say func(string, ...any)) {
	h, r := j.h, j.h.Routine
	var unknown []string
	for _, l := range j.Change.After.Levels {
		if _, told := r.PerDay.Of(l.Parameter()); !told {
			unknown = append(unknown, "per_day."+string(l.Parameter()))
		}
	}
	for _, key := range unknown {
		if key == "per_day.nitrate" || key == "per_day.alkalinity" {
			j.r.Hides(key, "what becomes of it until the next change")
		}
	}
	after := j.Change.After
	after.Carbon = carbonate.Known{} // a routine foretells levels, not pH
	routine := dilution.Routine{
		Tank: after, PerDay: r.PerDay, Losses: r.Losses, Evaporation: r.Evaporation, TopOff: r.TopOff, Pumped: r.Pumped,
		Doses: r.Doses,
	}
	f, err := routine.Forecast(h.Change.Every)
	if err != nil {
		say("Not followed: %v.", err)
		return
	}
	for _, l := range r.PerDay {
		if end, known := f.End.Level(l.Parameter()); known {
			say("%s is at about %s right before the next change.", capital(string(l.Parameter())), paper.Level(end))
		}
	}
	if r.TopOff.None && r.Evaporation > 0 {
		say("Without top-off the salinity is at %s then.", h.Style.Salinity(f.End.Portion.Sample))
	}
	crossings, err := f.Until(h.Limits)
	if err != nil {
		say("Limits: not worked out: %v.", err)
		return
	}
	var soon []string
	for _, c := range crossings {
		switch {
		case !c.Crosses():
		case c.After < time.Minute:
			soon = append(soon, fmt.Sprintf("%v is passed as it is", c))
		default:
			soon = append(soon, fmt.Sprintf("%v is passed in %s", c, span(c.After)))
		}
	}
	if len(soon) > 0 {
		j.r.Verdict = append(j.r.Verdict, "Limits after the change: "+paper.And(soon)+".")
	}
}

// rounds says where nitrate settles if every change is like this one.
func (j *job) rounds(perDay, fresh units.MassPerLitre, say func(string, ...any)) {
	every := j.h.Change.Every
	routine := dilution.Periodic[units.MassPerLitre]{Share: j.Change.Share, Every: every, Fresh: fresh, PerDay: perDay}
	before, after, err := routine.Steady()
	if err != nil {
		say("Repeated for good, the tank uses up more nitrate than such changes bring in, and runs out of it.")
		return
	}
	say("Repeated for good, such changes let it settle at %.1f mg/L before and %.1f after each.",
		before.MilligramsPerLitre(), after.MilligramsPerLitre())
	l, limited := j.h.Limits.High.Levels.Of(tested.Nitrate)
	if !limited {
		return
	}
	limit := l.As(units.AsNitrate).MassPerLitre()
	switch share, err := dilution.ShareToHold(fresh, perDay, limit, every); {
	case before <= limit:
		say("That keeps below %.1f mg/L.", limit.MilligramsPerLitre())
	case err == nil:
		say("To stay at %.1f mg/L, change %.0f %% each time.", limit.MilligramsPerLitre(), math.Ceil(share.Percent()))
	case limit <= fresh:
		say("No change gets below the new water, which has %.1f mg/L.", fresh.MilligramsPerLitre())
	default:
		say("No change every %s holds %.1f mg/L: change more often or feed less.", span(every), limit.MilligramsPerLitre())
	}
}

func (j *job) purifier() {
	p, s := j.h.Pure, j.h.Style
	var body []any
	say := func(format string, args ...any) { body = append(body, fmt.Sprintf(format, args...)) }
	if p.Product != (units.TDS{}) && j.impure() == "" {
		switch ppm := p.Product.PPM(); {
		case ppm == 0:
			say("The purified water reads 0 ppm: it is good.")
		default:
			say("The purified water reads %g ppm: usable, but the resin is near its end (common practice: 0, and 1 to 2 "+
				"at most).", ppm)
		}
	}
	if x := j.Purifier; x != nil {
		say("At %.1f bar and %s the membrane should give %s of %.1f ppm.", p.Pressure.Bars(), s.Of(j.cold()),
			s.Flow(x.Flow), x.AfterMembrane.PPM())
		if x.Lasts.Resin > 0 {
			say("Fresh resin lasts for %s of it.", s.Of(x.Lasts.Resin))
		}
	}
	if c := j.Checkup; c != nil {
		for _, f := range c.Findings {
			if f.Verdict != rodi.NotJudged {
				say("%s", f.Sentence)
			}
		}
	}
	if len(body) > 0 {
		j.r.Add("The purifier", body...)
	}
}

func (j *job) buy() {
	if len(j.Shopping) == 0 {
		return
	}
	t := &paper.Table{Left: true}
	sum := units.Money{}
	oneCurrency := true
	for _, p := range j.Shopping {
		packages := ""
		switch {
		case p.Packages == 1:
			packages = "1 package"
		case p.Packages > 1:
			packages = fmt.Sprintf("%.0f packages", p.Packages)
		}
		t.Row(p.What, p.Amount, packages, paper.Money(p.Cost))
		if p.Cost.Currency != "" {
			oneCurrency = oneCurrency && (sum.Currency == "" || sum.Currency == p.Cost.Currency)
			sum.Amount, sum.Currency = sum.Amount+p.Cost.Amount, p.Cost.Currency
		}
	}
	if sum.Currency != "" && oneCurrency {
		t.Row("together", "", "", paper.Money(sum))
	}
	j.r.Add("To buy for "+span(j.span()), t)
}
