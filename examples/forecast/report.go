package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
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

// known are the series that have a value at the end.
func (y *year) known() (known []series) {
	style, limits, none := y.h.Style, y.h.Limits, math.NaN()
	gauge := func(w tested.Water) float64 { return style.Gauge(w.Portion.Sample) }
	at := func(s units.PracticalSalinity) float64 {
		w, err := seawater.FromPractical(s, y.routine.Tank.Portion.Temperature())
		if err != nil || s.Value() == 0 {
			return none
		}
		return style.Gauge(w)
	}
	unit, decimals := style.GaugeUnit()
	low, high := at(limits.Low.Salinity), at(limits.High.Salinity)
	all := []series{{"Salinity", unit, decimals, gauge, low, high, unit == "ppt"}}
	if end := y.Forecast.End.Volume(); math.Abs(float64(end/y.Forecast.Start.Volume())-1) > 0.005 {
		volume := series{"Volume", "L", 1, func(w tested.Water) float64 { return w.Volume().Litres() }, none, none, true}
		if style.Units == units.US {
			volume.of = func(w tested.Water) float64 { return w.Volume().USGallons() }
			volume.unit, volume.doubted = "US gal", false
		}
		all = append(all, volume)
	}
	for _, l := range y.Forecast.End.Levels {
		p := l.Parameter()
		_, unit := l.Counted()
		limit := func(of tested.Levels) float64 {
			if bound, has := of.Of(p); has {
				x, _ := l.WithBase(bound.Base()).Counted()
				return x
			}
			return none
		}
		all = append(all, series{paper.Capital(string(p)), unit, paper.Decimals(string(p)), func(w tested.Water) float64 {
			l, _ := w.Level(p)
			x, _ := l.Counted()
			return x
		}, limit(limits.Low.Levels), limit(limits.High.Levels), true})
	}
	if ph := (series{"pH", "total", 2, y.ph, none, none, false}); !math.IsNaN(y.ph(y.Forecast.Start)) {
		all = append(all, ph)
	}
	return all
}

// ph is that of a water that has come to rest with the air of the room. Of one whose
// alkalinity is used up it is not asked.
func (y *year) ph(w tested.Water) float64 {
	a, _ := w.Level(tested.Alkalinity)
	if was, _ := y.Forecast.Start.Level(tested.Alkalinity); !(a.Base() > nothing*was.Base()) {
		return math.NaN()
	}
	aired, noAir := w.Aired(y.h.Air, units.Atmosphere)
	c, unknown := aired.CarbonChemistry()
	if y.h.Air == 0 || noAir != nil || unknown != nil {
		return math.NaN()
	}
	return c.PH.Value()
}

// keeping is what the cautions of a forecast are for.
const keeping = "changing water and topping off"

func (y *year) report() *paper.Report {
	r := y.r
	r.Title = paper.Capital(strings.TrimPrefix(y.Name+": what becomes of it in "+paper.Span(y.Forecast.Span), ": "))
	head := []string{""}
	for _, s := range y.Steps {
		head = append(head, y.date(s.At).Format("2 Jan"))
	}
	r.Glance = y.table(y.Steps, head)
	y.verdict()
	y.limits()
	y.charts()
	y.longRun()
	y.balances()
	y.calendar()
	if costs := y.toBuy(); costs != "" {
		r.Verdict = append(r.Verdict, "To buy meanwhile: "+costs+".")
	}
	r.Care(keeping, y.Forecast.Cautions...)
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
	kept, others, until := 0, "everything else", y.day(y.Forecast.Span)
	for _, c := range y.Limits {
		switch {
		case c.Crosses():
			passed = append(passed, y.passes(c))
		case y.moved[c.Name]:
			kept++
		default:
			others = "what else has a rate"
		}
	}
	for _, text := range y.byLog {
		y.say(text)
	}
	if y.Ends != "" {
		y.say("The forecast ends on " + until + ", after " + paper.Span(y.Forecast.Span.Round(time.Hour)) + ": " +
			y.Ends + ".")
	}
	switch text := paper.Capital(paper.And(passed)); {
	case y.untold != nil:
		y.say("Nothing is said of the limits: " + asWritten(y.untold).Error() + ".")
	case len(passed) == 0 && kept == 0:
		y.say("No limit is told that a rate could lead to; below is where the numbers lead.")
	case len(passed) == 0:
		y.say(paper.Capital(strings.Replace(others, " else", "", 1)) + " stays within its limits until " + until + ".")
	case kept > 0:
		y.say(text + "; " + others + " stays within its limits.")
	default:
		y.say(text + ".")
	}
	switch {
	case y.Schedule != nil && len(passed) > 0:
		best := y.Schedule.Best
		y.say("Changes of " + y.option(best) + " would keep all limits, for " + paper.Money(best.PerDay) + " a day.")
	case y.dear != nil:
		y.say("No calendar of those to choose from keeps the limits.")
	}
}

func (y *year) say(text string) { y.r.Verdict = append(y.r.Verdict, text) }

// passes says when a limit is left: "nitrate passes 25 mg/L NO3 on 14 August (± 4 days)".
func (y *year) passes(c dilution.Crossing) string {
	i := slices.IndexFunc(y.series, func(s series) bool { return s.name == c.Name })
	is, passes, bound := " is below ", " falls below ", y.series[i].bound(y.series[i].low)
	if c.High {
		is, passes, bound = " is above ", " passes ", y.series[i].bound(y.series[i].high)
	}
	bound += " " + y.series[i].unit
	text := strings.ToLower(c.Name) + passes + bound + " on " + y.day(c.After)
	switch sure, _ := y.sure(c); {
	case c.After == 0:
		return strings.ToLower(c.Name) + is + bound + " already"
	case sure == never:
		return text + " or never"
	case sure != "":
		return text + " (± " + sure + ")"
	}
	return text
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
	mostly = strings.ToLower(y.Estimates[i].Mostly)
	switch x := math.Round(float64(y.Estimates[i].Uncertainty)); {
	case math.IsInf(x, 0):
		return never, mostly
	case x <= 1:
		return "a day", mostly
	default:
		return fmt.Sprintf("%.0f days", x), mostly
	}
}

func (y *year) date(at time.Duration) time.Time { return y.Start.Add(at) }

// day writes a date, with the year where it is another one.
func (y *year) day(at time.Duration) string {
	if t := y.date(at); t.Year() != y.Start.Year() {
		return t.Format("2 January 2006")
	}
	return y.date(at).Format("2 January")
}

// table has a row of each series, and its limits last.
func (y *year) table(steps []dilution.Step, head []string) *paper.Table {
	t := &paper.Table{Head: append(slices.Clone(head), "limits"), Left: true}
	for _, s := range y.series {
		row := []string{s.name + " " + s.unit}
		for _, step := range steps {
			row = append(row, paper.Fixed(s.of(step.Water), s.decimals))
		}
		switch low, high := !math.IsNaN(s.low), !math.IsNaN(s.high); {
		case low && high:
			row = append(row, s.bound(s.low)+" to "+s.bound(s.high))
		case low:
			row = append(row, "at least "+s.bound(s.low))
		case high:
			row = append(row, "at most "+s.bound(s.high))
		}
		t.Row(row...)
	}
	return t
}

// bound writes a limit without zeros at the end.
func (s series) bound(x float64) string {
	x, _ = strconv.ParseFloat(paper.Fixed(x, s.decimals), 64)
	return strconv.FormatFloat(x, 'f', -1, 64)
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
		case !c.Crosses() && !y.moved[c.Name]:
			when = "no rate told"
		case c.After == 0:
			when = "already"
		case c.Crosses():
			when = y.day(c.After)
		}
		sure, mostly := y.sure(c)
		t.Row(strings.TrimSuffix(c.String(), " PSS-78"), when, sure, mostly)
	}
	y.r.Add("Limits", t)
	if y.unsure != nil {
		y.r.Add("How sure that is", "Not worked out: "+y.unsure.Error()+".")
	}
}

// charts draws each series, its limits, what happens and how sure it is.
func (y *year) charts() {
	const points = 240
	span := y.Forecast.Span
	steps, err := y.Forecast.Points(max(span/points, time.Minute))
	if err != nil {
		y.r.Add("Over time", "Not drawn: "+err.Error()+".")
		return
	}
	doubts := y.doubts()
	events, happens := y.events()
	var body []any
	if len(happens) > 0 {
		body = append(body, "The marks below the charts on the page: "+strings.Join(happens, "; ")+".")
	}
	for _, s := range y.series {
		c := paper.NewChart(s.name, s.unit, s.decimals)
		c.Start, c.Low, c.High, c.Events = y.Start, s.low, s.high, events
		for p := range steps {
			c.Add(p.At, s.of(p.Water))
			if len(doubts) > 0 && s.doubted {
				c.Doubt = append(c.Doubt, between(doubts, s.name, float64(p.At)/float64(span)))
			}
		}
		body = append(body, c)
	}
	y.r.Add("Over time", body...)
}

// doubts are the standard uncertainties at the start, at some moments and at the end, for
// the band on the charts; nothing if they are not known.
func (y *year) doubts() (list []map[string]float64) {
	const moments = 12
	if !y.h.Doubts.Given || y.unsure != nil {
		return nil
	}
	for k := range moments + 1 {
		all, err := y.estimates(max(y.Forecast.Span*time.Duration(k)/moments, time.Minute), dilution.Bounds{})
		if err != nil {
			return nil
		}
		at := map[string]float64{}
		for _, e := range all {
			at[e.Name] = float64(e.Uncertainty)
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
func (y *year) events() (list []paper.Event, happens []string) {
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
		happens = append(happens, what+", first on "+y.day(first))
	}
	for _, c := range y.routine.Changes {
		mark(c.First, c.Every, "a change of "+y.h.Style.Of(c.Swap))
	}
	for _, d := range y.routine.Doses {
		var what []string
		for _, l := range d.Levels {
			what = append(what, paper.Precise(l))
		}
		mark(d.First, d.Every, "a dose of "+paper.And(what))
	}
	return list, happens
}

func (y *year) longRun() {
	const title = "In the long run"
	if y.restless != nil {
		y.r.Add(title, "It does not settle: "+y.restless.Error()+".")
		return
	}
	steps := []dilution.Step{{Water: y.Settled.Before}, {Water: y.Settled.After}}
	table := y.table(steps[:1], []string{"", "settles at"})
	if len(y.routine.Changes) > 0 {
		table = y.table(steps, []string{"", "before a change", "after it"})
	}
	var told [][]string // of what a rate is told: of the rest nobody knows where it settles
	for i, s := range y.series {
		if _, level := y.rated[s.name]; !level || y.rated[s.name] {
			told = append(told, table.Rows[i])
		}
	}
	table.Rows = told
	y.r.Add(title, table)
}

func (y *year) balances() {
	t := &paper.Table{Left: true}
	t.Head = []string{"", "before", "made", "dosed", "new water", "top-off", "drawn", "lost", "after", ""}
	for _, b := range y.Forecast.Balances {
		row, unit, scale := []string{b.Name}, b.Unit, 1.
		larger := map[string]string{"g": "kg", "mg": "g"}[unit]
		if larger != "" && max(b.Before, b.After, b.Drawn, b.Dosed) > 1000 {
			scale, unit = 1000, larger
		}
		all := []float64{b.Before, b.Made, b.Dosed, b.Poured, b.Topped, b.Drawn, b.Lost, b.After}
		for i, x := range all {
			all[i] = x / scale
		}
		if rated, level := y.rated[b.Name]; level && !rated && b.Made == 0 {
			all[1] = math.NaN()
		}
		for _, x := range all {
			row = append(row, beside(x, all))
		}
		t.Row(append(row, unit)...)
	}
	y.r.Add("Where it came from and where it went", t)
}

// beside writes a number of a balance to three digits, and nothing of what is less than the
// fourth digit of the largest beside it: what water shrinks by is no top-off.
func beside(x float64, row []float64) string {
	largest := 0.
	for _, other := range row {
		if !math.IsNaN(other) {
			largest = max(largest, math.Abs(other))
		}
	}
	if math.Abs(x) < 5e-4*math.Pow(10, math.Floor(math.Log10(largest))) {
		return "0"
	}
	return paper.Digits(x)
}

func (y *year) calendar() {
	const title = "The cheapest calendar that keeps the limits"
	if y.dear != nil {
		y.r.Add(title, "There is none: "+y.dear.Error()+".")
	}
	if y.Schedule == nil {
		return
	}
	t := &paper.Table{Left: true}
	for _, o := range y.Schedule.Options {
		t.Row(y.option(o), paper.Money(o.PerDay)+" a day", strings.Replace(o.Why, "does not keep", "no:", 1))
	}
	y.r.Add(title, t)
	for _, c := range y.Schedule.Cautions {
		c.Here = false // it is not what is done
		y.r.Care(keeping, c)
	}
}

func (y *year) option(o dilution.Option) string {
	return y.h.Style.Of(o.Swap) + " every " + paper.Span(o.Every)
}
