package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// series is a quantity of the tank over time, as the keeper counts it. It is NaN where it
// is not known, and so are limits that there are not.
type series struct {
	name, unit string
	decimals   int
	of         func(tested.Water) float64
	low, high  float64
	doubted    bool // the estimates have its uncertainty, in the same unit
}

// allSeries are those that are known at the end.
func (y *year) allSeries() (known []series) {
	nan, style, limits := math.NaN(), y.h.Style, y.h.Limits
	salinity := series{"Salinity", "ppt", 2, func(w tested.Water) float64 { return w.Portion.Practical().Value() }, nan, nan, true}
	switch style.By {
	case "SG":
		salinity = series{"Salinity", "SG", 4, func(w tested.Water) float64 {
			return w.Portion.SpecificGravity(y.h.Pair).Ratio()
		}, nan, nan, false}
	case "mS/cm":
		salinity = series{"Salinity", "mS/cm", 1, func(w tested.Water) float64 {
			return w.Portion.Conductivity().MillisiemensPerCentimetre()
		}, nan, nan, false}
	}
	salinity.low, salinity.high = y.atSalinity(salinity.of, limits.Low), y.atSalinity(salinity.of, limits.High)
	litres := series{"Volume", "L", 1, func(w tested.Water) float64 { return w.Volume().Litres() }, nan, nan, true}
	if style.Units == "US" {
		litres = series{"Volume", "US gal", 1, func(w tested.Water) float64 { return w.Volume().USGallons() }, nan, nan, false}
	}
	all := []series{salinity}
	if end := y.Forecast.End.Volume(); math.Abs(float64(end/y.Forecast.Start.Volume())-1) > 0.005 {
		all = append(all, litres)
	}
	for _, l := range y.Forecast.End.Levels {
		p := l.Parameter()
		_, unit := l.Counted()
		name := capital(string(p))
		all = append(all, series{name, unit, paper.Decimals(name), func(w tested.Water) float64 {
			l, _ := w.Level(p)
			x, _ := l.Counted()
			return x
		}, counted(limits.Low.Levels, l), counted(limits.High.Levels, l), true})
	}
	all = append(all, series{"pH", "total", 2, y.ph, nan, nan, false})
	for _, s := range all {
		if !math.IsNaN(s.of(y.Forecast.End)) {
			known = append(known, s)
		}
	}
	return known
}

// counted is the limit of a level, counted like it.
func counted(limits tested.Levels, like tested.Level) float64 {
	if l, has := limits.Of(like.Parameter()); has {
		x, _ := like.WithBase(l.Base()).Counted()
		return x
	}
	return math.NaN()
}

// atSalinity is the limit of salinity in the way that the keeper measures it.
func (y *year) atSalinity(of func(tested.Water) float64, g dilution.Goal) float64 {
	if w, err := y.limitWater(g.Salinity); err == nil && g.Salinity.Value() > 0 {
		return of(w)
	}
	return math.NaN()
}

// ph is that of a water that has come to rest with the air of the room.
func (y *year) ph(w tested.Water) float64 {
	if y.h.Air == 0 {
		return math.NaN()
	}
	aired, err := w.Aired(y.h.Air, units.Atmosphere)
	if err != nil {
		return math.NaN()
	}
	c, err := aired.Chemistry()
	if err != nil {
		return math.NaN()
	}
	return c.PH.Value()
}

func (y *year) report() *paper.Report {
	r := y.r
	r.Title = strings.TrimSuffix("What becomes of it in "+y.over()+": "+y.Name, ": ")
	y.verdict()
	r.Glance = y.table(y.Steps, y.heads())
	y.limits()
	y.charts()
	y.longRun()
	y.balances()
	y.calendar()
	y.toBuy()
	for _, c := range y.Forecast.Cautions {
		doing := "changing water"
		if c.ID == "top-off-runs-over" || c.ID == "lime-water" || c.ID == "no-top-off" {
			doing = "topping off"
		}
		r.Care(doing, c)
	}
	r.Assume(y.Forecast.Assumptions...)
	if y.h.Air > 0 {
		r.Assume(fmt.Sprintf("pH is that of water at rest with air of %.0f ppm of CO2.", y.h.Air.PPM()))
	} else {
		r.Hides("room.co2", "pH")
	}
	return r
}

// verdict says what is passed when, and what keeps its limits.
func (y *year) verdict() {
	var passed []string
	kept, others := 0, "everything else"
	for _, c := range y.Limits {
		switch {
		case c.Crosses():
			passed = append(passed, y.passes(c))
		case y.rates[c.Name]:
			kept++
		default:
			others = "what else has a rate"
		}
	}
	var text string
	switch {
	case y.untold != nil:
		text = "Nothing is said of the limits: " + y.untold.Error() + "."
	case len(passed) == 0 && kept == 0:
		text = "Nothing is told that is bound to leave a limit; below is where the numbers lead."
	case len(passed) == 0:
		text = capital(strings.Replace(others, " else", "", 1)) + " stays within its limits until " + y.day(y.Forecast.Span) + "."
	case kept > 0:
		text = capital(join(passed)) + "; " + others + " stays within its limits."
	default:
		text = capital(join(passed)) + "."
	}
	y.r.Verdict = append(y.r.Verdict, text)
	if y.Ends != "" {
		y.r.Verdict = append([]string{"The forecast ends on " + y.day(y.Forecast.Span) + ", after " +
			paper.Span(y.Forecast.Span.Round(time.Hour)) + ": " + y.Ends + "."}, y.r.Verdict...)
	}
	switch {
	case y.Schedule != nil && len(passed) > 0:
		y.r.Verdict = append(y.r.Verdict, "Changes of "+y.option(y.Schedule.Best)+" would keep all limits, for "+
			paper.Money(y.Schedule.Best.PerDay)+" a day.")
	case y.dear != nil:
		y.r.Verdict = append(y.r.Verdict, "No calendar of those to choose from keeps the limits.")
	}
	if costs := y.total(); costs != "" {
		y.r.Verdict = append(y.r.Verdict, "To buy meanwhile: "+costs+".")
	}
}

// passes says when a limit is left: "nitrate passes 25 mg/L NO3 on 14 August".
func (y *year) passes(c dilution.Crossing) string {
	what, bound := strings.ToLower(c.Name), paper.Digits(c.Bound)+" "+c.Unit
	if c.Name == "Salinity" {
		if w, err := y.limitWater(units.Practical(c.Bound)); err == nil {
			bound = y.h.Style.Salinity(w.Portion.Sample)
		}
	}
	switch {
	case c.After == 0 && c.High:
		return what + " is above " + bound + " already"
	case c.After == 0:
		return what + " is below " + bound + " already"
	case c.High:
		what += " passes "
	default:
		what += " falls below "
	}
	what += bound + " on " + y.day(c.After)
	switch sure, _ := y.sure(c); sure {
	case "":
		return what
	case never:
		return what + " or never"
	default:
		return what + " (± " + sure + ")"
	}
}

// never is how sure a day is that may not come for all that is known.
const never = "may never be"

// sure is how sure the day is on which a limit is left, and what makes most of the doubt;
// nothing if there are no doubts.
func (y *year) sure(c dilution.Crossing) (days, mostly string) {
	i := slices.IndexFunc(y.Estimates, func(e advice.Estimate) bool { return e.Name == c.String() })
	if i < 0 || c.After == 0 {
		return "", ""
	}
	e := y.Estimates[i]
	switch days := math.Round(e.Uncertainty); {
	case math.IsInf(days, 0):
		return never, lower(e.Mostly)
	case days == 0:
		return "under a day", lower(e.Mostly)
	case days == 1:
		return "a day", lower(e.Mostly)
	default:
		return fmt.Sprintf("%.0f days", days), lower(e.Mostly)
	}
}

// over is how long the forecast is.
func (y *year) over() string {
	if y.Forecast.Span == 365*24*time.Hour {
		return "a year"
	}
	return paper.Span(y.Forecast.Span)
}

// day writes a date, with the year where it is another one.
func (y *year) day(at time.Duration) string {
	if t := y.date(at); t.Year() != y.Start.Year() {
		return t.Format("2 January 2006")
	}
	return y.date(at).Format("2 January")
}

func (y *year) heads() []string {
	head := []string{""}
	for _, at := range y.times {
		head = append(head, y.date(at).Format("2 Jan"))
	}
	return head
}

// table has a row of each series, and its limits last.
func (y *year) table(steps []dilution.Step, head []string) *paper.Table {
	t := &paper.Table{Head: append(slices.Clone(head), "limits"), Left: true}
	for _, s := range y.series {
		row := []string{s.name + " " + s.unit}
		for _, step := range steps {
			row = append(row, paper.Fixed(s.of(step.Water), s.decimals))
		}
		t.Row(append(row, s.limits())...)
	}
	return t
}

func (s series) limits() string {
	low, high := paper.Fixed(s.low, s.decimals), paper.Fixed(s.high, s.decimals)
	if trimmed := s.decimals > 0; trimmed {
		low, high = trim(low), trim(high)
	}
	switch {
	case low != "?" && high != "?":
		return low + " to " + high
	case low != "?":
		return "at least " + low
	case high != "?":
		return "at most " + high
	}
	return ""
}

func trim(number string) string {
	if strings.Contains(number, ".") {
		return strings.TrimSuffix(strings.TrimRight(number, "0"), ".")
	}
	return number
}

// limits tells of each when it is passed, and how sure that is.
func (y *year) limits() {
	if len(y.Limits) == 0 {
		return
	}
	t := &paper.Table{Left: true, Head: []string{"", "passed on", "give or take", "mostly for"}}
	for _, c := range y.Limits {
		when := "kept"
		switch {
		case !c.Crosses() && !y.rates[c.Name]:
			when = "no rate told"
		case c.After == 0:
			when = "already"
		case c.Crosses():
			when = y.day(c.After)
		}
		sure, mostly := y.sure(c)
		t.Row(strings.TrimSuffix(c.String(), " PSS-78"), when, sure, mostly)
	}
	body := []any{t}
	if y.unsure != nil {
		body = append(body, "How sure that is cannot be told: "+y.unsure.Error()+".")
	}
	y.r.Add("Limits", body...)
}

// points is how many of them a chart has.
const points = 240

// charts draws each series, its limits, what happens and how sure it is.
func (y *year) charts() {
	steps, err := y.Forecast.Points(max(y.Forecast.Span/points, time.Minute))
	if err != nil {
		y.r.Add("Over time", "Not to be drawn: "+err.Error()+".")
		return
	}
	var water []dilution.Step
	for s := range steps {
		water = append(water, s)
	}
	doubts := y.doubts()
	events, happens := y.events()
	var body []any
	if happens != "" {
		body = append(body, happens)
	}
	for _, s := range y.series {
		c := paper.NewChart(s.name, s.unit, s.decimals)
		c.Start, c.Low, c.High, c.Events = y.Start, s.low, s.high, events
		for _, p := range water {
			c.Add(p.At, s.of(p.Water))
			if len(doubts) > 0 && s.doubted {
				c.Doubt = append(c.Doubt, between(doubts, s.name, float64(p.At)/float64(y.Forecast.Span)))
			}
		}
		body = append(body, c)
	}
	y.r.Add("Over time", body...)
}

// doubts are the estimates of the start, the end and some moments between: the band on
// the charts.
func (y *year) doubts() (list []map[string]float64) {
	if !y.h.Doubts.Given || y.unsure != nil {
		return nil
	}
	const moments = 12
	for k := range moments + 1 {
		span := max(y.Forecast.Span*time.Duration(k)/moments, time.Minute)
		all, err := y.estimates(span, dilution.Bounds{})
		if err != nil {
			return nil
		}
		at := map[string]float64{}
		for _, e := range all {
			at[e.Name] = e.Uncertainty
		}
		list = append(list, at)
	}
	return list
}

// between interpolates at a share of the span.
func between(list []map[string]float64, name string, share float64) float64 {
	x := share * float64(len(list)-1)
	k := min(int(x), len(list)-2)
	a, b := list[k][name], list[k+1][name]
	return a + float64((x-float64(k))*(b-a))
}

// events are the marks below the charts, and what they mean. Daily ones would be a line.
func (y *year) events() (list []paper.Event, happens string) {
	const most = 60
	mark := func(first, every time.Duration, what string) {
		n := 1
		if every > 0 {
			n += int((y.Forecast.Span - first) / every)
			what += " every " + paper.Span(every)
		}
		if n > most || first > y.Forecast.Span {
			return
		}
		for k := range n {
			list = append(list, paper.Event{At: first + every*time.Duration(k), What: what})
		}
		happens += "; " + what + ", first on " + y.day(first)
	}
	for _, c := range y.routine.Changes {
		mark(c.First, c.Every, "a change of "+y.h.Style.Volume(c.Swap))
	}
	for _, d := range y.routine.Doses {
		var what []string
		for _, l := range d.Levels {
			what = append(what, paper.Level(l))
		}
		mark(d.First, d.Every, "a dose of "+join(what))
	}
	if happens != "" {
		happens = "The marks below the charts on the page: " + happens[2:] + "."
	}
	return list, happens
}

func (y *year) longRun() {
	const title = "In the long run"
	if y.restless != nil {
		y.r.Add(title, "It does not settle: "+asWritten(y.restless).Error()+".")
		return
	}
	steps, head := []dilution.Step{{Water: y.Settled.Before}, {Water: y.Settled.After}}, []string{"", "before a change", "after it"}
	if len(y.routine.Changes) == 0 {
		steps, head = steps[:1], []string{"", "settles at"}
	}
	y.r.Add(title, y.table(steps, head))
}

func (y *year) balances() {
	t := &paper.Table{Left: true, Head: []string{"", "before", "made", "dosed", "new water", "top-off", "drawn", "lost", "after", ""}}
	for _, b := range y.Forecast.Balances {
		row, unit, scale := []string{b.Name}, b.Unit, 1.
		if larger := map[string]string{"g": "kg", "mg": "g"}[unit]; larger != "" && max(b.Before, b.After, b.Drawn, b.Dosed) > 1000 {
			scale, unit = 1000, larger
		}
		for _, x := range []float64{b.Before, b.Made, b.Dosed, b.Poured, b.Topped, b.Drawn, b.Lost, b.After} {
			row = append(row, paper.Digits(x/scale))
		}
		t.Row(append(row, unit)...)
	}
	y.r.Add("Where it came from and where it went", t)
}

func (y *year) calendar() {
	const title = "The cheapest calendar that keeps the limits"
	switch {
	case y.dear != nil:
		y.r.Add(title, "There is none: "+asWritten(y.dear).Error()+".")
	case y.Schedule != nil:
		t := &paper.Table{Left: true}
		for _, o := range y.Schedule.Options {
			t.Row(y.option(o), paper.Money(o.PerDay)+" a day", strings.Replace(o.Why, "does not keep", "no:", 1))
		}
		y.r.Add(title, t)
		for _, c := range y.Schedule.Cautions {
			c.Here = false // it is not what is done
			y.r.Care("changing water", c)
		}
	}
}

func (y *year) option(o dilution.Option) string {
	return y.h.Style.Volume(o.Swap) + " every " + paper.Span(o.Every)
}

// join writes "a, b and c".
func join(list []string) string {
	if n := len(list); n > 1 {
		return strings.Join(list[:n-1], ", ") + " and " + list[n-1]
	}
	return strings.Join(list, "")
}

func lower(text string) string {
	if text == "" {
		return text
	}
	return strings.ToLower(text[:1]) + text[1:]
}
