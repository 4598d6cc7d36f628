// Forecast tells what becomes of a tank: which limits it passes and when, where it
// settles, what to buy meanwhile, and which calendar of water changes is the cheapest
// that keeps it within its limits.
//
//	go run ./examples/forecast
//	go run ./examples/forecast -swap "42 L" -evaporation "5 L/day"
//	go run ./examples/forecast -file my.json -csv -step "6 h" > year.csv
//
// Without -file it works on an invented home, printed by -example as a start for your
// own; -keys lists all that a file can say. The volume of the tank is enough to begin. What
// the tank uses in a day is asked of the log of tests in the file where it is not written down.
package main

import (
	_ "embed"
	"encoding/csv"
	"errors"
	"flag"
	"io"
	"strconv"
	"strings"
	"time"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/units"
)

//go:embed home.json
var example []byte

func main() { command().Main() }

func command() *home.Command {
	var flags *flag.FlagSet
	var y *year
	asCSV, step := false, units.Duration(24*time.Hour)
	return &home.Command{
		Name:    "forecast",
		Example: example,
		Flags: []string{"tank.volume", "change.swap", "change.every", "evaporation", "stream", "forecast.start",
			"forecast.span"},
		More: func(set *flag.FlagSet) {
			flags = set
			set.BoolVar(&asCSV, "csv", false, "write a row for every step as CSV")
			set.Func("step", "the `time` between two rows of the CSV; a day if not said", func(text string) error {
				return step.UnmarshalText([]byte(text))
			})
		},
		Answer: func(h *home.Home) (*paper.Report, any, error) {
			if asCSV && flags.Lookup("json").Value.String() == "true" {
				return nil, nil, errors.New("-json and -csv: want one of them")
			}
			var err error
			if y, err = look(h); err != nil {
				return nil, nil, err
			}
			return y.report(), y.answer, nil
		},
		Instead: func(w io.Writer, _ any) (bool, error) {
			if !asCSV {
				return false, nil
			}
			return true, y.csv(w, time.Duration(step))
		},
	}
}

// csv writes a row for every step.
func (y *year) csv(w io.Writer, step time.Duration) error {
	points, err := y.Forecast.Points(step)
	if err != nil {
		return err
	}
	out := csv.NewWriter(w)
	row := []string{"days", "date"}
	for _, s := range y.series {
		row = append(row, strings.TrimSpace(s.name+" "+s.unit))
	}
	out.Write(row) // the error stays until the end
	for p := range points {
		row = append(row[:0], strconv.FormatFloat(p.At.Hours()/24, 'f', 3, 64), y.date(p.At).Format(time.DateOnly))
		for _, s := range y.series {
			row = append(row, paper.Fixed(s.of(p.Water), s.decimals+2))
		}
		out.Write(row)
	}
	out.Flush()
	return out.Error()
}
