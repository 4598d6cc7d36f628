// Recipe makes seawater from the compounds on a shelf: how many grams of each,
// in which order to dissolve them, how near it comes, and what to mind.
//
//	go run ./examples/recipe
//	go run ./examples/recipe -salinity "33 ppt" -volume "10 US gal"
//	go run ./examples/recipe -shelf my.json -like kester -json
//
// Without -shelf it works on an invented one, printed by -example as a start
// for your own. Every quantity is a text with its unit. A compound that would be
// left on the shelf for what else it brings is used if its jar is "allowed": "yes".
package main

import (
	_ "embed"
	"flag"
	"fmt"
	"io"
	"os"

	"example.org/wellmixed/mix/recipe"
)

//go:embed shelf.json
var example []byte

func main() {
	if err := run(os.Args[1:], os.Stdout, os.Stderr); err != nil {
		if err != flag.ErrHelp {
			fmt.Fprintln(os.Stderr, "recipe:", err)
			os.Exit(1)
		}
	}
}

func run(args []string, stdout, stderr io.Writer) error {
	set := flag.NewFlagSet("recipe", flag.ContinueOnError)
	set.SetOutput(stderr)
	file := set.String("shelf", "", "a JSON `file` with the shelf and what to mix (default: an invented one)")
	asJSON := set.Bool("json", false, "write the plan as JSON")
	show := set.Bool("example", false, "print the invented shelf and stop")
	var change order
	set.StringVar(&change.Salinity, "salinity", "", `practical salinity of the mix, such as "35 ppt"`)
	set.StringVar(&change.Volume, "volume", "", `volume of the mix, such as "40 L"`)
	set.StringVar(&change.Temperature, "temperature", "", `temperature of the mix, such as "77 °F"`)
	set.StringVar(&change.Tolerance, "tolerance", "", `deviation of an ion that does not matter, such as "1 %"`)
	set.StringVar(&change.Like, "like", "", "a published `recipe` to aim at instead of seawater, such as kester")
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
	o, err := parse(data)
	if err != nil {
		return err
	}
	o.replace(change)
	job, err := o.job()
	if err != nil {
		return err
	}
	plan, err := recipe.Solve(job)
	if err != nil {
		return err
	}
	r := report{name: o.Name, like: o.Like, salinity: o.Salinity, plan: plan}
	if *asJSON {
		return r.json(stdout)
	}
	return r.print(stdout)
}
