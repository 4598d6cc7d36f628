// Waterchange plans one water change from tap to tank: pure water, salt mix,
// warming, readings to expect, the change itself, and what comes until the
// next one.
//
//	go run ./examples/waterchange
//	go run ./examples/waterchange -target "34 ppt" -mix "12 US gal" -swap "45 L"
//	go run ./examples/waterchange -short
//	go run ./examples/waterchange -scenario my.json -json
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
			fmt.Fprintln(os.Stderr, "waterchange:", err)
			os.Exit(1)
		}
	}
}

// shortcuts are the flags that replace a field of the scenario.
var shortcuts = []struct{ name, field, usage string }{
	{"target", "batch.target", `salinity of the mix, such as "35 ppt"`},
	{"temperature", "batch.temperature", `temperature of the mix, such as "77 °F"`},
	{"mix", "batch.final_volume", `volume of the finished mix, such as "12 US gal"`},
	{"measured", "batch.measured", `salinity that the mix was found to have, such as "34.6 ppt"`},
	{"tank", "tank.volume", `water in the tank, such as "310 L"`},
	{"salinity", "tank.salinity", `salinity of the tank, such as "35.4 ppt"`},
	{"nitrate", "tank.nitrate", `nitrate in the tank, such as "20 mg/L"`},
	{"swap", "change.swap", `how much to swap, such as "40 L"`},
	{"every", "change.every", `time from change to change, such as "2 weeks"`},
}

func run(args []string, stdout, stderr io.Writer) error {
	set := flag.NewFlagSet("waterchange", flag.ContinueOnError)
	set.SetOutput(stderr)
	file := set.String("scenario", "", "a JSON `file` with the scenario (default: an invented one)")
	asJSON := set.Bool("json", false, "write the plan as JSON")
	short := set.Bool("short", false, "write the short form, to hang on the wall")
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
		if c.field == "batch.final_volume" { // in the place of any other amount
			s.Drop("batch.water_volume", "batch.final_level", "batch.water_level")
		}
		s.Set(c.field, c.text)
	}
	in, err := s.read()
	if err != nil {
		return err
	}
	j, err := work(in)
	if err != nil {
		return err
	}
	if *asJSON {
		return j.json(stdout)
	}
	if *short {
		return j.printShort(stdout)
	}
	return j.print(stdout)
}
