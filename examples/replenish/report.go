package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/ions"
)

func (j *job) report() *paper.Report {
	r := j.r
	r.Title = paper.Capital(strings.TrimPrefix(j.Name+": what to give back", ": "))
	j.verdict()
	j.glance()
	j.used()
	j.everyDay()
	for _, d := range j.Doses {
		j.toGoal(d)
	}
	j.limeWater()
	if len(j.Doses) > 1 {
		r.Assume("Each goal is planned by itself, from the levels as they are now: reach one after the other, and test in " +
			"between.")
	}
	return r
}

func (j *job) always(doing string, assumed []string, cautions []advice.Caution) {
	j.r.Assume(assumed...)
	j.r.Care(doing, cautions...)
}

// verdict says what is used, what to dose, and in what steps to the goals.
func (j *job) verdict() {
	var uses, daily []string
	for _, u := range j.uses {
		if u.PerDay.Base() > 0 && !u.Parameter.Falls() {
			uses = append(uses, paper.Precise(u.PerDay)+" of "+string(u.Parameter))
		}
	}
	for _, u := range j.Upkeeps {
		if u.UpkeepPlan != nil {
			daily = append(daily, j.h.Style.Amount(u.PerDay)+" of "+u.Additive)
		}
	}
	for _, l := range j.Lasts {
		if l.Countdown != nil && !math.IsInf(float64(l.Days), 0) {
			j.r.Verdict = append(j.r.Verdict, fmt.Sprintf("Undosed, %s is down at %v in %s%s.", l.Limit.Parameter(), l.Limit,
				days(float64(l.Days)), between95(l)))
		}
	}
	if len(uses) > 0 {
		j.r.Verdict = append([]string{"The tank uses " + paper.And(uses) + " a day."}, j.r.Verdict...)
	}
	if len(daily) > 0 {
		instead := ", in the place of what is dosed now"
		if len(j.log.Doses) == 0 {
			instead = ""
		}
		j.r.Steps = append(j.r.Steps, "Every day, in all"+instead+": "+paper.And(daily)+".")
	}
	for _, d := range j.Doses {
		if d.there {
			j.r.Verdict = append(j.r.Verdict, paper.Capital(string(d.To.Parameter()))+" is at its goal already.")
		} else {
			j.r.Steps = append(j.r.Steps, j.step(d))
		}
	}
	if len(j.r.Verdict)+len(j.r.Steps) == 0 {
		j.r.Verdict = []string{"Nothing is told of what is used or wanted, so there is nothing to dose."}
	}
}

// step is the way to a goal in one sentence.
func (j *job) step(d dose) string {
	text := paper.Capital(string(d.To.Parameter())) + " to " + paper.Precise(d.To) + ", besides: "
	switch {
	case d.DosePlan == nil && d.inAll != (replenish.Amount{}):
		return text + j.h.Style.Amount(d.inAll) + " of " + d.Additive + " in all, in steps that cannot be told."
	case d.DosePlan == nil:
		return text + "cannot be planned, see below."
	case len(d.NotKnown) > 0:
		return text + j.h.Style.Amount(d.Amount) + " of " + d.Additive + " in all, in steps that cannot be told."
	case len(d.Steps) == 1:
		return text + j.h.Style.Amount(d.Amount) + " of " + d.Additive + " at once."
	default:
		each := j.h.Style.Amount(d.Steps[0].Amount)
		return fmt.Sprintf("%s%s of %s a day for %d days, and a test before each.", text, each, d.Additive, len(d.Steps))
	}
}

// glance has a row for each parameter that is used or wanted.
func (j *job) glance() {
	t := &paper.Table{Head: []string{"", "now", "used a day", "dose a day", "goal"}}
	for _, p := range tested.Parameters() {
		u, used := j.use(p)
		now, known := j.tank.Level(p)
		to, wanted := j.h.Goal.Levels.Of(p)
		if !used && !wanted {
			continue
		}
		row := []string{string(p), "?", "?", "", ""}
		bare := func(text, unit string) string { return strings.TrimSuffix(text, " "+unit) }
		_, unit := to.Counted()
		if known {
			_, unit = now.Counted()
			row[1] = bare(paper.Precise(now), unit)
		}
		row[0] += " " + unit
		if used {
			row[2] = usedOrMade(u, func(l tested.Level) string { return bare(paper.PlusMinus(l, u.Uncertainty), unit) })
		}
		for _, k := range j.Upkeeps {
			if k.Of == p && k.UpkeepPlan != nil {
				row[3] = j.h.Style.Amount(k.PerDay)
			}
		}
		if wanted {
			row[4] = bare(paper.Precise(to), unit)
		}
		t.Row(row...)
	}
	if len(t.Rows) > 0 {
		j.r.Glance = t
	}
}

// used tells what the log says, and draws it.
func (j *job) used() {
	const title = "What the tank uses in a day"
	if j.silent != nil {
		j.r.Add(title, "The log does not tell: "+j.silent.Error()+".")
	}
	if j.Demand == nil {
		return
	}
	j.always("trusting the tests", j.Demand.Assumptions, j.Demand.Cautions)
	t := &paper.Table{Head: []string{"", "used a day", "95 %", "now", "tests"}}
	for _, u := range j.Demand.Uses {
		_, unit := u.Now.Counted()
		bare := func(text string) string { return strings.TrimSuffix(text, " "+unit) }
		a, b := u.Low, u.High
		if u.PerDay.Base() < 0 { // of what is made, as that is written
			a, b = b.WithBase(-b.Base()), a.WithBase(-a.Base())
		}
		t.Row(string(u.Parameter)+" "+unit,
			usedOrMade(u, func(l tested.Level) string { return bare(paper.PlusMinus(l, u.Uncertainty)) }),
			bare(paper.Between(a, b, u.Uncertainty)), bare(paper.PlusMinus(u.Now, u.NowUncertainty)), fmt.Sprint(u.Tests))
	}
	body := []any{t, "Now is what all tests together say of the end of the log."}
	if c := j.Demand.Calcification; c != nil {
		body = append(body, "Alkalinity to calcium"+ratio(*c)+".")
		if c.ByNitrogen.Base() != 0 {
			body = append(body, "Of the alkalinity, nitrogen takes "+paper.PlusMinus(c.ByNitrogen, c.NitrogenUncertainty)+
				" a day.")
		}
	}
	for _, l := range j.Lasts {
		switch {
		case l.Countdown == nil:
			body = append(body, "How long "+string(l.Limit.Parameter())+" lasts cannot be told: "+l.Failed+".")
		case math.IsInf(float64(l.Days), 0):
			body = append(body, fmt.Sprintf("Undosed, %s never is at %v%s.", l.Limit.Parameter(), l.Limit, between95(l)))
		}
	}
	for _, u := range j.Demand.Uses {
		body = append(body, j.chart(u))
	}
	if len(j.done) > 0 {
		body = append(body, "The marks below the charts on the page: "+strings.Join(j.done, "; ")+".")
	}
	j.r.Add(title, body...)
}

func (j *job) everyDay() {
	if len(j.Upkeeps) == 0 {
		return
	}
	t := &paper.Table{Head: []string{"", "a day", "95 %", ""}, Left: true}
	var body []any
	for _, u := range j.Upkeeps {
		if u.UpkeepPlan == nil {
			body = append(body, paper.Capital(string(u.Of))+" with "+u.Additive+" cannot be planned: "+u.Failed+".")
			continue
		}
		between := ""
		if u.High != (replenish.Amount{}) {
			between = j.h.Style.Amount(u.Low) + " to " + j.h.Style.Amount(u.High)
		}
		j.always("dosing", u.Assumptions, u.Cautions)
		t.Row(string(u.Of), j.h.Style.Amount(u.PerDay), between, "of "+u.Additive+parts(*u.UpkeepPlan))
	}
	if len(t.Rows) > 0 {
		body = append([]any{t}, append(body, j.left()...)...)
	}
	j.r.Add("Every day, to stay where it is", body...)
}

// left tells what a month and a year of upkeep leave in the water.
func (j *job) left() (body []any) {
	var sum ions.Composition
	salinity := 0.
	for _, u := range j.Upkeeps {
		if u.UpkeepPlan == nil {
			continue
		}
		sum = sum.Plus(u.LeavesPerDay)
		salinity += u.PerMonth.Lasting.Value() - u.PerMonth.Before.Value()
	}
	var list []string
	for i, x := range sum.Scale(30).All() {
		mg := i.MolarMass().MassPerLitre(x.PerLitre(j.tank.Portion.Density())).MilligramsPerLitre()
		list = append(list, fmt.Sprintf("%.0f mg/L of %s", mg, i.Name()))
	}
	if len(list) > 0 {
		body = append(body, fmt.Sprintf("In a month that leaves behind %s, %.2f of salinity.", paper.And(list), salinity))
	}
	aged, err := replenish.Age(replenish.Ageing{Water: j.tank.Portion.Sample, Leaves: sum, After: 365 * 24 * time.Hour})
	if err != nil {
		return append(body, "What the instruments make of a year of it cannot be told: "+err.Error()+".")
	}
	off := func(p ions.Property) float64 { // in the units of practical salinity
		return -aged.Readings.By[p].Correction.GramsPerKilogram() * 35 / 35.16504
	}
	if len(list) == 0 {
		return body
	}
	return append(body, fmt.Sprintf("After a year without water changes, at the same %.1f g/kg dissolved, a hydrometer "+
		"is off by %s of salinity and a conductivity meter by %s.", aged.Readings.Dissolved.GramsPerKilogram(),
		signed(off(ions.Density)), signed(off(ions.Conductivity))))
}

// toGoal tells of the steps of a dose what they do to the water.
func (j *job) toGoal(d dose) {
	title := paper.Capital(string(d.To.Parameter())) + " to " + paper.Precise(d.To)
	switch {
	case d.there:
		return
	case d.DosePlan == nil:
		j.r.Add(title, "The steps cannot be planned: "+d.Failed+".")
		return
	}
	j.always("dosing", d.Assumptions, d.Cautions)
	text := paper.Capital(j.h.Style.Amount(d.Amount)) + " of " + d.Additive + " in all."
	was := d.Salinity.Before.Value()
	salinity := fmt.Sprintf("Salinity rises by %.2f, and by %.2f for good.", d.Salinity.After.Value()-was,
		d.Salinity.Lasting.Value()-was)
	if len(d.NotKnown) > 0 {
		j.r.Add(title, text+" Not known: "+paper.And(d.NotKnown)+".", salinity)
		return
	}
	if d.LimitedBy != "" {
		text += " In steps, because of a limit: " + d.LimitedBy + "."
	}
	t := &paper.Table{Head: []string{"", "pH total", "aragonite", string(d.To.Parameter())}}
	row := func(name string, c tested.Chemistry, level string) {
		t.Row(name, paper.Fixed(c.PH.Value(), 2), paper.Fixed(float64(c.Aragonite), 1), level)
	}
	row("now", d.Before, "")
	for i, s := range d.Steps {
		if i < 3 || i == len(d.Steps)-1 {
			row(fmt.Sprintf("day %d, at once", i+1), s.AtOnce, paper.Precise(s.Level))
			row("  aired", s.Aired, "")
		} else if i == 3 {
			t.Row("...", "", "", "")
		}
	}
	j.r.Add(title, text, t, salinity)
}

func (j *job) limeWater() {
	const title = "Lime water as top-off: instead of, not besides, the daily doses"
	if j.noLime != nil {
		j.r.Add(title, "It cannot be planned: "+j.noLime.Error()+".")
	}
	l, style := j.Lime, j.h.Style
	if l == nil {
		return
	}
	j.always("using lime water", l.Assumptions, l.Cautions)
	body := []any{fmt.Sprintf("%s bring %s of alkalinity and %s of calcium (± %.0f %%), %s of Ca(OH)2.",
		style.Flow(j.h.LimeWater.TopOff), paper.Precise(l.Alkalinity), paper.Precise(l.Calcium), l.Uncertainty.Percent(),
		style.Of(l.Hydroxide))}
	if l.Share.Value() > 0 {
		body = append(body, fmt.Sprintf("That is %.0f %% of what the tank uses; %s of it would do, the rest of the "+
			"top-off pure.", l.Share.Percent(), style.Flow(l.Needed)))
	}
	for _, u := range j.Upkeeps {
		if u.UpkeepPlan == nil {
			continue
		}
		if rest, brings := j.besides(u); brings {
			body = append(body, "With all of it, "+style.Amount(rest)+" of "+u.Additive+" is left to dose a day, in all.")
		}
	}
	if l.Portion > 0 {
		body = append(body, fmt.Sprintf("No more than %s at once: pH %.2f then, and %.2f if a day's worth came in one go.",
			style.Of(l.Portion), l.AtOnce.PH.Value(), l.AllDay.PH.Value()))
	}
	j.r.Add(title, body...)
}

// usedOrMade writes what is used in a day, or that it is made.
func usedOrMade(u replenish.Use, write func(tested.Level) string) string {
	if u.PerDay.Base() < 0 {
		return "made " + write(u.PerDay.WithBase(-u.PerDay.Base()))
	}
	return write(u.PerDay)
}

// signed writes a tenth with its sign, if it has one.
func signed(x float64) string {
	text := paper.Fixed(x, 1)
	if x > 0 && text != "0.0" {
		return "+" + text
	}
	return text
}

func parts(u replenish.UpkeepPlan) string {
	changesPH := slices.ContainsFunc(u.Raises, func(l tested.Level) bool { return l.Parameter() == tested.Alkalinity })
	switch {
	case u.Parts == 0 && changesPH:
		return "; pH not known: in many small parts"
	case u.Parts <= 1:
		return ""
	}
	return fmt.Sprintf(", in %d parts", u.Parts)
}

func days(x float64) string {
	if math.IsInf(x, 0) {
		return "never"
	}
	return fmt.Sprintf("%.1f days", x)
}

// between95 is nothing where no uncertainty is known.
func between95(l lasting) string {
	if days(float64(l.Low)) == days(float64(l.High)) {
		return ""
	}
	return fmt.Sprintf(" (95 %%: %s to %s)", days(float64(l.Low)), days(float64(l.High)))
}

func ratio(c replenish.Calcification) string {
	verdict := "they agree"
	if !c.Consistent {
		verdict = "they do not agree"
	}
	switch {
	case !math.IsNaN(float64(c.Ratio)):
		return fmt.Sprintf(": %.1f ± %.1f, where skeletons take 2: %s", c.Ratio, c.Uncertainty, verdict)
	case c.Consistent:
		return ", where skeletons take 2 to 1: the tests leave it open"
	}
	return ", where skeletons take 2 to 1: " + verdict
}
