// Meters takes one bucket of water and says what every instrument in the house
// should show in it, and what a set of readings of it amounts to: which of them
// agree, which does not belong, and how salt the water is.
//
//	go run ./examples/meters
//	go run ./examples/meters -salinity "33.5 ppt" -temperature "78 °F"
//	go run ./examples/meters -temperature "24 °C" hydrometer60=1.0258 conductivity=51.9
//
// Readings are given by the short names of the first table, in the unit of the
// scale.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

func main() {
	if err := run(os.Args[1:], os.Stdout, os.Stderr); err != nil {
		if err != flag.ErrHelp {
			fmt.Fprintln(os.Stderr, "meters:", err)
			os.Exit(1)
		}
	}
}

// invented are readings of a bucket at about 34; bubbles hang on the swing arm.
var invented = []string{
	"refractometer=35.2",
	"hydrometer60=1.0240",
	"conductivity25=51.9",
	"flask=1021.5",
	"swingarm=1.0302",
}

func run(args []string, stdout, stderr io.Writer) error {
	salinity, temperature := units.Practical(35), units.Celsius(25)
	set := flag.NewFlagSet("meters", flag.ContinueOnError)
	set.SetOutput(stderr)
	set.TextVar(&salinity, "salinity", salinity, `the water of the first table, such as "35 ppt"`)
	set.TextVar(&temperature, "temperature", temperature, `of the water and the instruments, such as "77 °F"`)
	if err := set.Parse(args); err != nil {
		return err
	}
	water, err := seawater.FromPractical(salinity, temperature)
	if err != nil {
		return err
	}
	readings := set.Args()
	if len(readings) == 0 {
		readings = invented
	}
	var list []seawater.Reading
	for _, text := range readings {
		r, err := read(text, temperature)
		if err != nil {
			return err
		}
		list = append(list, r)
	}
	verdict, err := seawater.Agree(list...)
	if err != nil {
		return err
	}
	p := &printer{w: stdout}
	p.line("Water of %.1f (ppt) at %.1f °C. Each instrument should show:", salinity.Value(), temperature.Celsius())
	p.line("")
	for _, m := range house {
		shows, err := m.shows(water)
		if err != nil { // outside what the instrument can do
			p.line("  %-16s %-8s %s; %v", m.short, "-", m.name, err)
			continue
		}
		p.line("  %-16s %-8s %s", m.short, shows, m.name)
	}
	p.line("")
	p.line("Readings of one water at %.1f °C:", temperature.Celsius())
	p.line("")
	for i, r := range list {
		p.line("  %-22s means %.1f ± %.1f", readings[i], practical(r.Salinity), practical(r.Uncertainty))
	}
	p.line("")
	p.line("%s", sentence(verdict, list))
	p.line("")
	p.line("± is one standard uncertainty, of reading, temperature and instrument together.")
	p.line("Correct a stocked tank slowly, and only on readings that agree.")
	return p.err
}

func sentence(a seawater.Agreement, list []seawater.Reading) string {
	best := fmt.Sprintf("%.1f ± %.1f (ppt)", practical(a.Salinity), practical(a.Uncertainty))
	var apart []string
	for _, i := range a.Apart {
		apart = append(apart, list[i].Name)
	}
	switch {
	case len(list) == 1:
		return "One reading alone: " + best + ". A second instrument of another kind would tell whether to believe it."
	case a.Consistent:
		return "They agree: the water is at " + best + "."
	case a.Decided:
		return "Set aside " + strings.Join(apart, " and ") + ", which cannot belong: clean it and check it in a standard. " +
			"The others agree on " + best + "."
	}
	return "They contradict each other and nothing tells which is right; " +
		"their mean is " + best + ". Check them in a standard before you act."
}

func practical(s units.AbsoluteSalinity) float64 { return s.GramsPerKilogram() * 35 / 35.16504 }

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
