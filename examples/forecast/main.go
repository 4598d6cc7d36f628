// Forecast tells what becomes of a tank over a year: month by month, when limits
// are passed, where it settles, and which calendar of water changes is the cheapest
// that keeps it within them.
//
//	go run ./examples/forecast
//	go run ./examples/forecast -swap "42 L" -evaporation "5 L/day"
//	go run ./examples/forecast -scenario my.json -csv -step "6h" > year.csv
//
// Without -scenario it works on an invented one, printed by -example as a
// start for your own. Every quantity is a text with its unit.
package main

import (
	_ "embed"
	"flag"
	"fmt"
	"io"
	"os"
)

//go:embed scenario.json
var example []byte

func main() {
	if err := run(os.Args[1:], os.Stdout, os.Stderr); err != nil {
		if err != flag.ErrHelp {
			fmt.Fprintln(os.Stderr, "forecast:", err)
			os.Exit(1)
		}
	}
}

// shortcuts are the flags that replace a field of the scenario.
var shortcuts = []struct{ name, field, usage string }{
	{"span", "span", `how far to look ahead, such as "26 weeks"`},
	{"tank", "tank.volume", `water in the tank, such as "280 L"`},
	{"swap", "changes.0.swap", `how much to change each time, such as "28 L"`},
	{"every", "changes.0.every", `time from change to change, such as "2 weeks"`},
	{"evaporation", "evaporation", `water that evaporates, such as "3.5 L/day"`},
	{"top-off", "top_off.by", `"automatic", "hand" or "none"`},
}

func run(args []string, stdout, stderr io.Writer) error {
	set := flag.NewFlagSet("forecast", flag.ContinueOnError)
	set.SetOutput(stderr)
	file := set.String("scenario", "", "a JSON `file` with the scenario (default: an invented one)")
	asJSON := set.Bool("json", false, "write the forecast as JSON")
	asCSV := set.Bool("csv", false, "write a row for every step as CSV")
	step := set.String("step", "1 day", "the `time` between two rows of the CSV")
	show := set.Bool("example", false, "print the invented scenario and stop")
	type change struct{ field, text string }
	var changes []change
	for _, s := range shortcuts {
		set.Func(s.name, s.usage, func(text string) error {
			changes = append(changes, change{s.field, text})
			return nil
		})
	}
	if err := set.Parse(args); err != nil {
		return err
	}
	if set.NArg() > 0 {
		return fmt.Errorf("%q: want flags only", set.Arg(0))
	}
	if *asJSON && *asCSV {
		return fmt.Errorf("-json and -csv: want one of them")
	}
	if *show {
		_, err := stdout.Write(example)
		return err
	}
	data := example
	if *file != "" {
		var err error
		if data, err = os.ReadFile(*file); err != nil {
			return err
		}
	}
	s, err := parseScenario(data)
	if err != nil {
		return err
	}
	for _, c := range changes {
		s.Set(c.field, c.text)
	}
	s.Set("step", *step)
	in, err := s.read()
	if err != nil {
		return err
	}
	y, err := look(in)
	if err != nil {
		return err
	}
	switch {
	case *asJSON:
		return y.json(stdout)
	case *asCSV:
		return y.csv(stdout)
	}
	return y.print(stdout)
}
