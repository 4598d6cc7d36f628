package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// print writes the job for the keeper of the tank.
func (j job) print(w io.Writer) error {
	p := &printer{w: w}
	p.line("Replenish: %s", j.in.name)
	n, daily := 0, 0 // the section of the daily doses
	head := func(text string) {
		n++
		p.line("\n%d. %s", n, text)
	}
	if j.in.hasLog {
		head("What the tank uses in a day")
		for _, u := range j.demand.Uses {
			p.line("  %-11s %s (95 %%: %s to %s); about %s on %s", u.Parameter, plusMinus(u.PerDay, u.Uncertainty),
				short(u.Low, 3), short(u.High, 3), short(u.Now, 3), u.At.Format("2006-01-02 15:04"))
		}
		if c := j.demand.Calcification; c != nil {
			p.line("Alkalinity to calcium%s.", ratio(*c))
			p.line("Of the alkalinity, nitrogen takes %s a day.", plusMinus(c.ByNitrogen, c.NitrogenUncertainty))
		}
		for _, l := range j.lasts {
			if math.IsInf(l.left.Days, 1) {
				p.line("Undosed, %s never is at %s (95 %%: %s to %s).", l.limit.Parameter(), l.limit, days(l.left.Low),
					days(l.left.High))
				continue
			}
			p.line("Undosed, %s is at %s in %s (95 %%: %s to %s).", l.limit.Parameter(), l.limit, days(l.left.Days),
				days(l.left.Low), days(l.left.High))
		}
	}
	if len(j.upkeeps) > 0 {
		head("Every day, in all, in the place of what is dosed now, to stay where it is")
		daily = n
		for _, u := range j.upkeeps {
			p.line("  %-11s %s of %s (95 %%: %s to %s)%s", u.of, amount(u.plan.PerDay), u.name, amount(u.plan.Low),
				amount(u.plan.High), parts(u.plan))
		}
		p.line("In a month that leaves behind%s.", j.left())
		if y, err := j.aYear(); err == nil {
			p.line("After a year without water changes, at the same %.1f g/kg dissolved, a hydrometer would show %s and a "+
				"conductivity meter %s of salinity.",
				y.Dissolved.GramsPerKilogram(), shift(y, ions.Density), shift(y, ions.Conductivity))
		}
	}
	for _, d := range j.doses {
		head(fmt.Sprintf("%s to %s, besides", capital(string(d.of)), d.to))
		steps := d.plan.Steps
		if len(steps) == 0 {
			p.line("It is there already.")
			continue
		}
		if len(steps) == 1 {
			p.line("%s of %s at once.", capital(amount(d.plan.Amount)), d.name)
		} else {
			p.line("%s of %s in all, %s a day for %d days; limit: %s.", capital(amount(d.plan.Amount)), d.name,
				amount(steps[0].Amount), len(steps), d.plan.LimitedBy)
		}
		p.line("  %-14s %8s %10s %10s", "", "pH total", "aragonite", d.of)
		row := func(name string, c tested.Chemistry, level string) {
			p.line("%s", strings.TrimRight(fmt.Sprintf("  %-14s %8s %10s %10s", name, fixed(c.PH.Value(), 2),
				fixed(c.Aragonite, 1), level), " "))
		}
		row("now", d.plan.Before, "")
		for i, s := range steps {
			if i < 3 || i == len(steps)-1 {
				row(fmt.Sprintf("day %d, at once", i+1), s.AtOnce, short(s.Level, 4))
				row("  aired", s.Aired, "")
			} else if i == 3 {
				p.line("  ...")
			}
		}
		rise := d.plan.Salinity
		p.line("Salinity rises by %.2f, and by %.2f for good.", rise.After.Value()-rise.Before.Value(),
			rise.Lasting.Value()-rise.Before.Value())
	}
	if j.in.hasLime {
		title := "Lime water as top-off"
		if daily > 0 {
			title += fmt.Sprintf(": instead of, not besides, section %d", daily)
		}
		head(title)
		l := j.lime
		p.line("%.1f L a day bring %s of alkalinity and %s of calcium (± %.0f %%), %.1f g "+
			"of Ca(OH)2.", j.in.lime.TopOff.LitresPerDay(), short(l.Alkalinity, 3), short(l.Calcium, 3), l.Uncertainty.Percent(),
			l.Hydroxide.Grams())
		if l.Share.Value() > 0 {
			p.line("That is %.0f %% of what the tank uses; %.1f L of it a day would do, the rest of the "+
				"top-off pure.", l.Share.Percent(), l.Needed.LitresPerDay())
		}
		for _, u := range j.upkeeps {
			brought := map[tested.Parameter]tested.Level{tested.Alkalinity: l.Alkalinity, tested.Calcium: l.Calcium}[u.of]
			if !brought.Exists() {
				continue
			}
			if rest := u.besides(brought); rest == (replenish.Amount{}) {
				p.line("With all of it, no %s is dosed any more.", u.name)
			} else {
				p.line("With all of it, %s of %s is left to dose a day, in all.", amount(rest), u.name)
			}
		}
		if l.Portion > 0 {
			p.line("No more than %.1f L at once: pH %.2f then, and %.2f if a day's worth came "+
				"in one go.", l.Portion.Litres(), l.AtOnce.PH.Value(), l.AllDay.PH.Value())
		}
	}
	p.line("\nAssumed")
	for _, a := range j.assumptions() {
		p.item(a)
	}
	p.line("\nTake care")
	for _, c := range j.cautions() {
		p.item(c.Text)
	}
	return p.err
}

// aYear returns what the instruments make of a year of upkeep. It is an error if
// that is not water any more that the model of the instruments knows.
func (j job) aYear() (ions.Readings, error) {
	var sum ions.Composition
	for _, u := range j.upkeeps {
		sum = sum.Plus(u.plan.LeavesPerDay)
	}
	aged, err := replenish.Age(replenish.Ageing{Water: j.in.tank.Portion.Sample, Leaves: sum, After: 365 * 24 * time.Hour})
	return aged.Readings, err
}

// shift says by how much an instrument is off, in the units of practical salinity.
func shift(r ions.Readings, p ions.Property) string {
	d := -r.By[p].Correction.GramsPerKilogram() * 35 / 35.16504
	if d < 0 {
		return fmt.Sprintf("%.1f too little", -d)
	}
	return fmt.Sprintf("%.1f too much", d)
}

// left lists what thirty days of upkeep leave in the water.
func (j job) left() string {
	var sum ions.Composition
	salinity := 0.0
	for _, u := range j.upkeeps {
		sum = sum.Plus(u.plan.LeavesPerDay.Scale(30))
		salinity += u.plan.PerMonth.Lasting.Value() - u.plan.PerMonth.Before.Value()
	}
	var list []string
	for i, x := range sum.All() {
		mg := i.MolarMass().MassPerLitre(x.PerLitre(j.in.tank.Portion.Density())).MilligramsPerLitre()
		list = append(list, fmt.Sprintf(" %.0f mg/L of %s", mg, i.Name()))
	}
	return strings.Join(list, " and") + fmt.Sprintf(", %.2f of salinity", salinity)
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

// short writes a level to so many digits, in the unit in which it is counted.
func short(l tested.Level, digits int) string {
	x, unit := l.Counted()
	return round(x, digits) + " " + unit
}

// round writes a number to so many digits, and never as a power of ten.
func round(x float64, digits int) string {
	x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// fixed writes a number, or a question mark where it is not known.
func fixed(x float64, decimals int) string {
	if math.IsNaN(x) {
		return "?"
	}
	return strconv.FormatFloat(x, 'f', decimals, 64)
}

func plusMinus(l, u tested.Level) string {
	x, _ := l.Counted()
	return round(x, 3) + " ± " + short(u, 2)
}

// amount writes what to measure out: to whole millilitres and tenths of a gram,
// but never to fewer than three digits, in mg and µL below one of them.
func amount(a replenish.Amount) string {
	of := func(x float64, decimals int, unit, small string) string {
		switch {
		case x < 1:
			return round(x*1000, 3) + " " + small
		case x < 100:
			return round(x, 3) + " " + unit
		}
		return fixed(x, decimals) + " " + unit
	}
	switch {
	case a.Volume > 0:
		return of(a.Volume.Millilitres(), 0, "mL", "µL")
	case a.Mass > 0:
		return of(a.Mass.Grams(), 1, "g", "mg")
	}
	return "nothing"
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
	if math.IsInf(x, 1) {
		return "never"
	}
	return fmt.Sprintf("%.1f days", x)
}

func ratio(c replenish.Calcification) string {
	verdict := "they agree"
	if !c.Consistent {
		verdict = "they do not agree"
	}
	switch {
	case !math.IsNaN(c.Ratio):
		return fmt.Sprintf(": %.1f ± %.1f, where skeletons take 2: %s", c.Ratio, c.Uncertainty, verdict)
	case c.Consistent:
		return ", where skeletons take 2 to 1: the tests leave it open"
	}
	return ", where skeletons take 2 to 1: " + verdict
}

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// json writes the job for programs: every quantity a text with its unit, every
// number in full.
func (j job) json(w io.Writer) error {
	type chemistry struct {
		PH, PCO2, Aragonite, Brucite *float64 // null where it is not known; pCO2 in µatm
	}
	of := func(c tested.Chemistry) chemistry {
		return chemistry{
			number(c.PH.Value()),
			number(c.PCO2.Microatmospheres()),
			number(c.Aragonite),
			number(c.Brucite.Likely),
		}
	}
	type amount struct {
		Mass   *units.Mass   `json:",omitempty"`
		Volume *units.Volume `json:",omitempty"`
	}
	much := func(a replenish.Amount) amount {
		if a.Volume > 0 {
			return amount{Volume: &a.Volume}
		}
		return amount{Mass: &a.Mass}
	}
	type content struct {
		Ion     ions.Ion
		Content units.AmountPerKilogram
	}
	contents := func(c ions.Composition) (list []content) {
		for i, x := range c.All() {
			list = append(list, content{i, x})
		}
		return list
	}
	type use struct {
		Parameter                         tested.Parameter
		PerDay, Uncertainty, Low, High    tested.Level
		Now, NowUncertainty               tested.Level
		Tests                             int
		ChiSquare, Probability            *float64
		Limit                             *tested.Level `json:",omitempty"`
		DaysToLimit, EarliestDay, LastDay *float64      // null: never, or no limit given
	}
	type calcification struct {
		ByNitrogen, NitrogenUncertainty, Alkalinity tested.Level
		Ratio, Uncertainty                          *float64 // null if no calcium is used
		Consistent                                  bool
	}
	type upkeep struct {
		Parameter            tested.Parameter
		Additive             string
		PerDay, Low, High    amount
		Parts                int
		LeavesPerDay         []content
		SalinityRisePerMonth float64
	}
	type step struct {
		Amount        amount
		Level         tested.Level
		AtOnce, Aired chemistry
	}
	type dose struct {
		Parameter     tested.Parameter
		Additive      string
		To            tested.Level
		Amount        amount
		LimitedBy     string
		Before        chemistry
		Steps         []step
		Brings        []content
		Leaves        []content
		SalinityAfter units.PracticalSalinity
		LastingRise   float64
	}
	type rest struct {
		Parameter tested.Parameter
		Additive  string
		PerDay    amount
	}
	type lime struct {
		Content               units.MassPerLitre
		Hydroxide             units.Mass
		Alkalinity, Calcium   tested.Level
		Uncertainty           units.Fraction
		Share                 *units.Fraction `json:",omitempty"`
		Besides               []rest          `json:",omitempty"` // of the daily doses, with all of the lime water
		Needed                *units.Flow     `json:",omitempty"`
		Portion               *units.Volume   `json:",omitempty"`
		AtOnce, AllDay, Aired chemistry
	}
	type caution struct {
		ID       string
		Severity advice.Severity
		Text     string
	}
	out := struct {
		Name          string
		Uses          []use          `json:",omitempty"`
		Calcification *calcification `json:",omitempty"`
		EveryDay      []upkeep       `json:",omitempty"`
		Doses         []dose         `json:",omitempty"`
		LimeWater     *lime          `json:",omitempty"`
		Assumptions   []string
		Cautions      []caution
	}{Name: j.in.name, Assumptions: j.assumptions()}
	for _, u := range j.demand.Uses {
		row := use{
			Parameter: u.Parameter, PerDay: u.PerDay, Uncertainty: u.Uncertainty, Low: u.Low, High: u.High,
			Now: u.Now, NowUncertainty: u.NowUncertainty, Tests: u.Tests, ChiSquare: number(u.ChiSquare),
			Probability: number(u.Probability),
		}
		for _, l := range j.lasts {
			if l.limit.Parameter() == u.Parameter {
				row.Limit, row.DaysToLimit = &l.limit, number(l.left.Days)
				row.EarliestDay, row.LastDay = number(l.left.Low), number(l.left.High)
			}
		}
		out.Uses = append(out.Uses, row)
	}
	if c := j.demand.Calcification; c != nil {
		out.Calcification = &calcification{
			c.ByNitrogen,
			c.NitrogenUncertainty,
			c.Alkalinity,
			number(c.Ratio),
			number(c.Uncertainty),
			c.Consistent,
		}
	}
	for _, u := range j.upkeeps {
		out.EveryDay = append(out.EveryDay, upkeep{
			u.of, u.name, much(u.plan.PerDay), much(u.plan.Low), much(u.plan.High), u.plan.Parts, contents(u.plan.LeavesPerDay),
			u.plan.PerMonth.Lasting.Value() - u.plan.PerMonth.Before.Value(),
		})
	}
	for _, d := range j.doses {
		row := dose{
			Parameter: d.of, Additive: d.name, To: d.to, Amount: much(d.plan.Amount), LimitedBy: d.plan.LimitedBy,
			Before: of(d.plan.Before),
			Brings: contents(d.plan.Brings), Leaves: contents(d.plan.Leaves), SalinityAfter: d.plan.Salinity.After,
			LastingRise: d.plan.Salinity.Lasting.Value() - d.plan.Salinity.Before.Value(),
		}
		for _, s := range d.plan.Steps {
			row.Steps = append(row.Steps, step{much(s.Amount), s.Level, of(s.AtOnce), of(s.Aired)})
		}
		out.Doses = append(out.Doses, row)
	}
	if l := j.lime; j.in.hasLime {
		row := lime{
			Content:     l.Content,
			Hydroxide:   l.Hydroxide,
			Alkalinity:  l.Alkalinity,
			Calcium:     l.Calcium,
			Uncertainty: l.Uncertainty,
			AtOnce:      of(l.AtOnce),
			AllDay:      of(l.AllDay),
			Aired:       of(l.Aired),
		}
		if l.Share.Value() > 0 {
			row.Share, row.Needed = &l.Share, &l.Needed
		}
		if l.Portion > 0 {
			row.Portion = &l.Portion
		}
		for _, u := range j.upkeeps {
			switch u.of {
			case tested.Alkalinity:
				row.Besides = append(row.Besides, rest{u.of, u.name, much(u.besides(l.Alkalinity))})
			case tested.Calcium:
				row.Besides = append(row.Besides, rest{u.of, u.name, much(u.besides(l.Calcium))})
			}
		}
		out.LimeWater = &row
	}
	for _, c := range j.cautions() {
		out.Cautions = append(out.Cautions, caution(c))
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(out)
}

// number is null in JSON where there is none.
func number(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}
