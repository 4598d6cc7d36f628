// Replenish reads the tests, doses and water changes of a reef tank and says
// what it uses in a day, what to dose every day, how to bring what is low to its
// goal in safe steps, and what lime water as top-off can do of it.
//
//	go run ./examples/replenish
//	go run ./examples/replenish -volume "80 US gal" -ph "8.2 NBS"
//	go run ./examples/replenish -scenario my.json -json
//
// Without -scenario it works on an invented one, printed by -example as a start
// for your own. Every quantity is a text with its unit.
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
			fmt.Fprintln(os.Stderr, "replenish:", err)
			os.Exit(1)
		}
	}
}

// shortcuts are the flags that replace a field of the scenario.
var shortcuts = []struct{ name, field, usage string }{
	{"volume", "tank.volume", `net water of the tank, such as "300 L"`},
	{"salinity", "tank.salinity", `salinity of the tank, such as "35 ppt"`},
	{"temperature", "tank.temperature", `temperature of the tank, such as "78 °F"`},
	{"ph", "tank.ph", `pH with its scale, such as "8.1 NBS" or "8.0 total"`},
	{"air", "tank.air", `CO2 of the room, such as "600 ppm"`},
	{"top-off", "lime_water.top_off", `water that evaporates, such as "4 L/day"`},
}

func run(args []string, stdout, stderr io.Writer) error {
	set := flag.NewFlagSet("replenish", flag.ContinueOnError)
	set.SetOutput(stderr)
	file := set.String("scenario", "", "a JSON `file` with the scenario (default: an invented one)")
	asJSON := set.Bool("json", false, "write the plan as JSON")
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
	return j.print(stdout)
}
