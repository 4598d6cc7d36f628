// Labreport reads a laboratory report of tank water and says what it amounts
// to: whether its charges balance, how the water differs from the sea, how much
// is dissolved, and what that does to every instrument that tells salinity.
//
//	go run ./examples/labreport
//	go run ./examples/labreport -report my.csv -at "77 °F"
//
// Without -report it works on an invented one, printed by -example as a start
// for your own: a line for each quantity, with value, unit and standard
// uncertainty. JSON works too: a list of objects with the fields quantity, value,
// unit, uncertainty and below.
package main

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"

	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

//go:embed report.csv
var example []byte

func main() {
	if err := run(os.Args[1:], os.Stdout, os.Stderr); err != nil {
		if err != flag.ErrHelp {
			fmt.Fprintln(os.Stderr, "labreport:", err)
			os.Exit(1)
		}
	}
}

func run(args []string, stdout, stderr io.Writer) error {
	at := units.Celsius(25)
	set := flag.NewFlagSet("labreport", flag.ContinueOnError)
	set.SetOutput(stderr)
	file := set.String("report", "", "a CSV or JSON `file` with the report (default: an invented one)")
	set.TextVar(&at, "at", at, `temperature at which your instruments are used, such as "77 °F"`)
	show := set.Bool("example", false, "print the invented report and stop")
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
	return report(data, at, stdout)
}

// report reads a report and writes what it amounts to.
func report(data []byte, at units.Temperature, w io.Writer) error {
	lines, err := read(data)
	if err != nil {
		return err
	}
	closed, err := lines.Close()
	if err != nil {
		return err
	}
	readings, err := closed.Composition.Readings(at)
	if err != nil {
		return err
	}
	return write(w, closed, readings)
}

// read takes JSON for what starts like it, and everything else for lines.
func read(data []byte) (ions.Report, error) {
	if !bytes.HasPrefix(bytes.TrimSpace(data), []byte("[")) {
		return ions.ReadReport(string(data))
	}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	var report ions.Report
	if err := d.Decode(&report); err != nil {
		return nil, err
	}
	return report, nil
}
