// Meters says how salt a water is by all the instruments that were held into it, which
// of their readings does not belong, and what each should show.
//
//	go run ./examples/meters
//	go run ./examples/meters -file my.json hydrometer60=1.0258 conductivity=51.9
//	go run ./examples/meters -salinity "33.5 ppt" -temperature "78 °F" swingarm=1.025
//
// Readings stand behind the flags, or in the file ("readings"), as the short name of a meter and
// what it shows in the unit of its scale; -h lists the meters.
package main

import (
	"cmp"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"math"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

//go:embed home.json
var example []byte

var command = home.Command{
	Name:    "meters",
	Example: example,
	Flags:   []string{"tank.salinity", "tank.temperature", "mix.target"},
	Args: func(h *home.Home, args []string) error {
		if len(args) > 0 { // in the place of those of the file
			h.Readings = args
		}
		return nil
	},
	More:   explain,
	Answer: answer,
}

func main() { command.Main() }

// explain lists the meters beside the flags.
func explain(set *flag.FlagSet) {
	set.Usage = func() {
		out := set.Output()
		fmt.Fprintf(out, "meters [flags] [meter=reading ...]\n\nMeters, and the unit of what they show:\n")
		for _, m := range house {
			fmt.Fprintf(out, "  %-16s %-12s %s\n", m.short, m.scale, m.name)
		}
		fmt.Fprint(out, "\nFlags:\n")
		set.PrintDefaults()
	}
}

// found is what the readings come to, for programs: in the types of the library.
type found struct {
	Water     seawater.Sample // in which each meter should show
	Shows     map[string]string
	Readings  []seawater.Reading
	Agreement *seawater.Agreement // nil without readings
}

func answer(h *home.Home) (*paper.Report, any, error) {
	r := &paper.Report{Title: cmp.Or(h.Name, "Your water") + ": how salt by all meters"}
	t := h.AnyTemperature(r)
	readings, err := readAll(h.Readings, t)
	f := found{Shows: map[string]string{}}
	if err == nil && len(readings) > 0 {
		for _, x := range readings {
			f.Readings = append(f.Readings, x.Reading)
		}
		var a seawater.Agreement
		a, err = seawater.Agree(f.Readings...)
		f.Agreement = &a
	}
	water, missing := expected(h, r, t, f.Agreement)
	if err := errors.Join(err, missing); err != nil {
		return nil, nil, err
	}
	f.Water = water
	if f.Agreement == nil {
		r.Verdict = []string{"At " + h.Style.AllSalinity(water) + " and " + h.Style.Of(t) +
			" every meter should show what stands below."}
		r.Hides("readings", "which of your meters agree, and how salt the water is")
	} else if err := verdict(h, r, f.Agreement, readings, t); err != nil {
		return nil, nil, err
	}
	table(r, &f, readings)
	r.Assume("All meters and the water are at "+h.Style.Of(t)+".",
		"± is one standard uncertainty, of reading, temperature and instrument together, as of good hand-held ones.",
		"The readings are taken as independent: two meters set in one standard share its error.")
	return r, f, nil
}

// readAll reads what the meters show, and complains of all that do not.
func readAll(texts []string, t units.Temperature) ([]reading, error) {
	var list []reading
	var wrong []error
	for i, text := range texts {
		x, err := read(fmt.Sprintf("readings[%d]", i), text, t)
		list, wrong = append(list, x), append(wrong, err)
	}
	return list, errors.Join(wrong...)
}

// expected is the water that the meters are in: as the file says, or as they say themselves.
func expected(h *home.Home, r *paper.Report, t units.Temperature, a *seawater.Agreement) (seawater.Sample, error) {
	switch unknown := h.Tank.Salinity == nil && h.Mix.Target == nil; {
	case unknown && a != nil:
		r.Assume("tank.salinity: not given, taken as what the readings say.")
		return seawater.FromAbsolute(a.Salinity, t)
	case unknown && len(h.Readings) > 0: // which have something wrong themselves
		return seawater.Sample{}, nil
	}
	water, err := seawater.FromPractical(h.AnySalinity(r), t)
	if err != nil {
		return water, home.At("tank", err)
	}
	return water, nil
}

// clearly is how many standard uncertainties the tank may be beside what was said of it.
const clearly = 2

// No sea in a tank is less or more salt than this, in ppt (common practice).
const leastSea, mostSea = 15, 45

func verdict(h *home.Home, r *paper.Report, a *seawater.Agreement, readings []reading, t units.Temperature) error {
	water, err := seawater.FromAbsolute(a.Salinity, t)
	if err != nil {
		return err
	}
	is, u := ppt(a.Salinity), ppt(a.Uncertainty)
	best := fmt.Sprintf("%s, ± %.1f ppt", h.Style.AllSalinity(water), u)
	caution := advice.Caution{ID: "slowly", Severity: advice.Care,
		Text: "Correct a stocked tank slowly, and only on readings that agree."}
	say := func(format string, args ...any) { r.Verdict = append(r.Verdict, fmt.Sprintf(format, args...)) }
	switch {
	case len(readings) == 1:
		say("The water is at %s, by one reading alone.", best)
		say("A second meter of another kind would tell whether to believe it.")
	case a.Consistent:
		say("The water is at %s: the %d readings agree.", best, len(readings))
	case a.Decided:
		say("The water is at %s: %d of %d readings agree.", best, len(readings)-len(a.Apart), len(readings))
		for _, i := range a.Apart {
			x := readings[i]
			say("%s does not belong: %s would mean %s ppt. Clean it, and check it in a standard.", x.Name, x.shown, means(x))
		}
	default:
		say("The readings contradict each other, and nothing tells which is right. Their mean is %s.", best)
		caution.Here, caution.Text = true, "Do not correct anything on these readings: check the meters in a standard first."
	}
	if is < leastSea || is > mostSea {
		say("No sea in a tank is at %.1f ppt: look whether the right scale was read.", is)
	}
	if s := h.Tank.Salinity; s != nil && math.Abs(is-s.Value()) > clearly*u && (a.Decided || len(readings) == 1) {
		say("The tank was taken for %.1f ppt: the readings are %.1f %s.", s.Value(), math.Abs(is-s.Value()),
			map[bool]string{true: "above that", false: "below that"}[is > s.Value()])
	}
	r.Care("correcting the salinity", caution)
	return nil
}

// table puts what each meter should show beside what it shows.
func table(r *paper.Report, f *found, readings []reading) {
	r.Glance = &paper.Table{Head: []string{"meter", "should show", "shows", "that is, ppt", "scale"}, Left: true}
	picture := &paper.Rows{What: "What each reading means, and its standard uncertainty", Unit: "ppt", Mark: math.NaN()}
	if f.Agreement != nil {
		picture.Mark, picture.MarkName = ppt(f.Agreement.Salinity), "their mean"
		picture.Band = ppt(f.Agreement.Uncertainty)
	}
	var kinds, beyond []any
	for i := range house {
		m := &house[i]
		kinds = append(kinds, m.short+": "+m.name+".")
		shows, err := m.shows(f.Water)
		if err != nil { // outside what the instrument can do
			shows = "-"
			beyond = append(beyond, m.short+": "+err.Error()+".")
		} else {
			f.Shows[m.short] = shows
		}
		rows := 0
		for _, x := range readings {
			if x.of != m {
				continue
			}
			r.Glance.Row(m.short, shows, x.shown, means(x), m.scale)
			picture.Rows = append(picture.Rows, paper.Rowed{Name: m.short, Value: ppt(x.Salinity), Doubt: ppt(x.Uncertainty)})
			rows++
		}
		if rows == 0 {
			r.Glance.Row(m.short, shows, "", "", m.scale)
		}
	}
	if len(picture.Rows) > 0 {
		r.Add("The readings", picture)
	}
	if len(beyond) > 0 {
		r.Add("Out of reach", beyond...)
	}
	r.Add("The meters", kinds...)
}

func means(x reading) string {
	return fmt.Sprintf("%.1f ± %.1f", ppt(x.Salinity), ppt(x.Uncertainty))
}

// ppt is a salinity, or a difference of two, on the practical scale.
func ppt(s units.AbsoluteSalinity) float64 { return s.GramsPerKilogram() * 35 / 35.16504 }
