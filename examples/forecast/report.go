package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// year is everything that is said of the span.
type year struct {
	in        inputs
	forecast  dilution.Forecast
	crossings []dilution.Crossing
	estimates []advice.Estimate
	settled   dilution.Settled
	restless  error // why it does not settle
	schedule  dilution.SchedulePlan
	dear      error // why no calendar keeps the limits
}

func look(in inputs) (year, error) {
	y := year{in: in}
	var err error
	if y.forecast, err = in.routine.Forecast(in.span); err != nil {
		return year{}, err
	}
	if y.crossings, err = y.forecast.Until(in.bounds); err != nil {
		return year{}, err
	}
	if in.doubtful {
		if y.estimates, err = in.routine.Estimates(in.span, in.bounds, in.doubts); err != nil {
			return year{}, err
		}
	}
	y.settled, y.restless = in.routine.Settles()
	if in.seeks {
		y.schedule, y.dear = dilution.PlanSchedule(in.schedule)
	}
	return y, nil
}

// column is a parameter of a state, in a unit of the trade. It is NaN if it is not
// known.
type column struct {
	name, unit string
	decimals   int
	of         func(tested.Water) float64
}

// level returns a column of a parameter.
func level(p tested.Parameter, unit string, decimals int) column {
	return column{capital(string(p)), unit, decimals, func(w tested.Water) float64 {
		l, known := w.Level(p)
		if !known {
			return math.NaN()
		}
		x, _ := l.Counted()
		return x
	}}
}

// columns returns those that are known of a state.
func (y year) columns() []column {
	all := []column{
		{"Salinity", "", 2, func(w tested.Water) float64 { return w.Portion.Practical().Value() }},
		{"Volume", "L", 1, func(w tested.Water) float64 { return w.Volume().Litres() }},
		level(tested.Alkalinity, "dKH", 2),
		level(tested.Calcium, "mg/L", 0),
		level(tested.Magnesium, "mg/L", 0),
		level(tested.Nitrate, "mg/L", 1),
		level(tested.Phosphate, "mg/L", 3),
		{"pH", "", 2, y.ph},
	}
	var known []column
	for _, c := range all {
		if !math.IsNaN(c.of(y.forecast.End)) {
			known = append(known, c)
		}
	}
	return known
}

// ph returns the pH of a water that has come to rest with the air of the room.
func (y year) ph(s tested.Water) float64 {
	if y.in.air == 0 {
		return math.NaN()
	}
	aired, err := s.Aired(y.in.air, units.Atmosphere)
	if err != nil {
		return math.NaN()
	}
	c, err := aired.Chemistry()
	if err != nil {
		return math.NaN()
	}
	return c.PH.Value()
}

// moment is a line of the table.
type moment struct {
	at    time.Duration
	date  string
	state tested.Water
}

// months returns the start, the same day of each month, and the end.
func (y year) months() ([]moment, error) {
	var list []moment
	add := func(at time.Duration) error {
		s, err := y.forecast.Before(at)
		list = append(list, moment{at, y.date(at), s})
		return err
	}
	for n := 0; ; n++ {
		at := y.in.start.AddDate(0, n, 0).Sub(y.in.start)
		if at >= y.in.span {
			break
		}
		if err := add(at); err != nil {
			return nil, err
		}
	}
	return list, add(y.in.span)
}

func (y year) date(at time.Duration) string { return y.in.start.Add(at).Format(time.DateOnly) }

// print writes the forecast for people.
func (y year) print(w io.Writer) error {
	p := &printer{w: w}
	p.line("Forecast: %s", y.in.name)

	p.head("Month by month, before what is due on the day")
	columns := y.columns()
	line, unit := fmt.Sprintf("%-10s", "Date"), strings.Repeat(" ", 10)
	for _, c := range columns {
		line += fmt.Sprintf(" %10s", c.name)
		unit += fmt.Sprintf(" %10s", c.unit)
	}
	p.line("%s", line)
	p.line("%s", unit)
	months, err := y.months()
	if err != nil {
		return err
	}
	for _, m := range months {
		line := m.date
		for _, c := range columns {
			line += fmt.Sprintf(" %10.*f", c.decimals, c.of(m.state))
		}
		p.line("%s", line)
	}

	if len(y.crossings) > 0 {
		p.head("Limits")
	}
	for _, c := range y.crossings {
		if !c.Crosses() {
			p.line("%v: kept.", c)
			continue
		}
		p.line("%v: passed after %.1f days, on %s%s.", c, c.After.Hours()/24, y.date(c.After), y.sure(c))
	}

	p.head("In the long run")
	if y.restless != nil {
		p.line("It does not settle: %v.", y.restless)
	} else {
		p.line("%-10s %12s %12s", "", "before", "after")
		for _, c := range columns {
			p.line("%-10s %12.*f %12.*f %s", c.name, c.decimals, c.of(y.settled.Before), c.decimals, c.of(y.settled.After),
				c.unit)
		}
	}

	p.head("Where it came from and where it went")
	p.line("%-10s %10s %10s %10s %10s %10s %10s %10s %10s", "", "before", "made", "dosed", "new water", "top-off", "drawn",
		"lost", "after")
	for _, b := range y.forecast.Balances {
		scale, unit := 1., b.Unit
		if most := max(b.Before, b.After, b.Drawn, b.Dosed, math.Abs(b.Made)); most > 1000 && unit != "meq" {
			scale, unit = 1000, map[string]string{"g": "kg", "mg": "g"}[unit]
		}
		p.line("%-10s %10.2f %10.2f %10.2f %10.2f %10.2f %10.2f %10.2f %10.2f %s", b.Name,
			b.Before/scale, b.Made/scale, b.Dosed/scale, b.Poured/scale, b.Topped/scale, b.Drawn/scale, b.Lost/scale,
			b.After/scale, unit)
	}

	if y.in.seeks {
		p.head("The cheapest calendar that keeps the limits")
		if y.dear != nil {
			p.line("There is none: %v.", y.dear)
		} else {
			p.line("%s, %s a day.", calendar(y.schedule.Best), money(y.schedule.Best.PerDay))
			p.line("")
			for _, o := range y.schedule.Options {
				p.line("  %-20s %9s a day  %s", calendar(o), money(o.PerDay), o.Why)
			}
		}
	}

	p.head("Assumed")
	for _, a := range y.forecast.Assumptions {
		p.item(a)
	}
	if y.in.air > 0 {
		p.item(fmt.Sprintf("pH is that of water at rest with air of %.0f ppm of CO2.", y.in.air.PPM()))
	}
	p.head("Take care")
	for _, severity := range []advice.Severity{advice.Danger, advice.Care, advice.Note} {
		for _, c := range y.forecast.Cautions {
			if c.Severity == severity {
				p.item(c.Text)
			}
		}
	}
	return p.err
}

// sure writes how sure the day is on which a limit is passed.
func (y year) sure(c dilution.Crossing) string {
	for _, e := range y.estimates {
		if e.Name != c.String() {
			continue
		}
		switch {
		case math.IsInf(e.Uncertainty, 1):
			return ", if ever, mostly because of " + e.Mostly
		case e.Uncertainty > 0:
			return fmt.Sprintf(", give or take %.1f days, mostly because of %s", e.Uncertainty, e.Mostly)
		}
	}
	return ""
}

func calendar(o dilution.Option) string {
	return fmt.Sprintf("%.0f L every %s", o.Swap.Litres(), days(o.Every))
}

func money(m units.Money) string { return fmt.Sprintf("%.2f %s", m.Amount, m.Currency) }

func days(d time.Duration) string {
	n := strconv.FormatFloat(math.Round(d.Hours()/2.4)/10, 'f', -1, 64)
	if n == "1" {
		return "1 day"
	}
	return n + " days"
}

// csv writes a row for every step.
func (y year) csv(w io.Writer) error {
	points, err := y.forecast.Points(y.in.step)
	if err != nil {
		return err
	}
	out := csv.NewWriter(w)
	columns := y.columns()
	row := []string{"days", "date"}
	for _, c := range columns {
		row = append(row, strings.TrimSpace(c.name+" "+c.unit))
	}
	if err := out.Write(row); err != nil {
		return err
	}
	for p := range points {
		row = append(row[:0], strconv.FormatFloat(p.At.Hours()/24, 'f', 3, 64), y.date(p.At))
		for _, c := range columns {
			row = append(row, strconv.FormatFloat(c.of(p.Water), 'f', c.decimals+2, 64))
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// json writes the forecast for programs.
func (y year) json(w io.Writer) error {
	type state map[string]float64
	columns := y.columns()
	numbers := func(s tested.Water) state {
		m := state{}
		for _, c := range columns {
			m[strings.TrimSpace(c.name+" "+c.unit)] = c.of(s)
		}
		return m
	}
	type month struct {
		Days  float64
		Date  string
		State state
	}
	type limit struct {
		Limit string
		Days  *float64 // none if it is kept
		Date  string   `json:",omitempty"`
	}
	type settled struct {
		PeriodDays    float64
		Before, After state
	}
	type option struct {
		Swap      units.Volume
		EveryDays float64
		PerDay    string
		Keeps     bool
		Why       string
	}
	var out struct {
		Name        string
		Months      []month
		Limits      []limit
		Settled     *settled `json:",omitempty"`
		Restless    string   `json:",omitempty"`
		Balances    []dilution.Balance
		Best        *option  `json:",omitempty"`
		Options     []option `json:",omitempty"`
		NoOption    string   `json:",omitempty"`
		Assumptions []string
		Cautions    []advice.Caution
	}
	out.Name = y.in.name
	months, err := y.months()
	if err != nil {
		return err
	}
	for _, m := range months {
		out.Months = append(out.Months, month{m.at.Hours() / 24, m.date, numbers(m.state)})
	}
	for _, c := range y.crossings {
		l := limit{Limit: c.String()}
		if c.Crosses() {
			d := c.After.Hours() / 24
			l.Days, l.Date = &d, y.date(c.After)
		}
		out.Limits = append(out.Limits, l)
	}
	if y.restless != nil {
		out.Restless = y.restless.Error()
	} else {
		out.Settled = &settled{y.settled.Period.Hours() / 24, numbers(y.settled.Before), numbers(y.settled.After)}
	}
	out.Balances = y.forecast.Balances
	of := func(o dilution.Option) option {
		return option{o.Swap, o.Every.Hours() / 24, money(o.PerDay), o.Keeps, o.Why}
	}
	if y.dear != nil {
		out.NoOption = y.dear.Error()
	} else if y.in.seeks {
		best := of(y.schedule.Best)
		out.Best = &best
		for _, o := range y.schedule.Options {
			out.Options = append(out.Options, of(o))
		}
	}
	out.Assumptions, out.Cautions = y.forecast.Assumptions, y.forecast.Cautions
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(out)
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
