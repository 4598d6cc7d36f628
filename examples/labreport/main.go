// Labreport reads a laboratory report of tank water and says what it amounts to: whether it
// can be right, which value slipped, how the water differs from the sea, how much is dissolved,
// and what that does to every instrument that tells salinity.
//
//	go run ./examples/labreport
//	go run ./examples/labreport -report my.csv -temperature "77 °F" -html page.html
//
// Without -report it works on an invented one, and beside a file of your own it says so;
// -example-report prints it as a start for yours: a line for each quantity, with value, unit and
// standard uncertainty. JSON works too: a list of objects with the fields quantity, value, unit,
// uncertainty and below. What you tested yourself, in the file of the home, stands beside what
// the laboratory found.
package main

import (
	"bytes"
	"cmp"
	_ "embed"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

//go:embed home.json
var example []byte

//go:embed report.csv
var invented []byte

// file is where the report is, and flags are all of them.
var (
	file  string
	flags *flag.FlagSet
)

var command = home.Command{
	Name:    "labreport",
	Example: example,
	Flags:   []string{"tank.temperature"},
	Shows:   map[string][]byte{"example-report": invented},
	More: func(set *flag.FlagSet) {
		flags = set
		set.StringVar(&file, "report", "", "a CSV or JSON `file` with the report (default: an invented one)")
	},
	Answer: func(h *home.Home) (*paper.Report, any, error) {
		data := invented
		if file != "" {
			var err error
			if data, err = os.ReadFile(file); err != nil {
				return nil, nil, err
			}
		}
		return answer(h, data, file == "" && flags.Lookup("file").Value.String() != "")
	},
}

func main() { command.Main() }

// findings are what a report amounts to, in the types of the library.
type findings struct {
	Lines    []ions.Screened
	Closure  ions.Closure
	Readings ions.Readings
}

// answer reads a report. It may be of no tank at all, and then nothing of the home is held beside it.
func answer(h *home.Home, data []byte, invented bool) (*paper.Report, any, error) {
	r := &paper.Report{Title: cmp.Or(h.Name, "Your tank") + ": the laboratory report"}
	f, err := examine(data, h.AnyTemperature(r))
	if err != nil {
		return nil, nil, err
	}
	if invented {
		r.Title = "An invented laboratory report, not of " + cmp.Or(h.Name, "your tank")
		r.Hides("-report", "what the laboratory found in your water: this is an invented report")
	}
	w := writer{Report: r, findings: f, home: h, invented: invented}
	w.write()
	return w.Report, f, nil
}

// examine reads a report, screens it, and makes a water of it.
func examine(data []byte, at units.Temperature) (findings, error) {
	report, err := read(data)
	if err != nil {
		return findings{}, err
	}
	var f findings
	if f.Lines, err = report.Screen(); err != nil {
		return findings{}, err
	}
	if f.Closure, err = report.Close(); err != nil {
		wrong := []error{err}
		for _, l := range f.Lines { // which may be why
			if l.Slip > 0 {
				wrong = append(wrong, errors.New(slipped(l)))
			}
		}
		return findings{}, errors.Join(wrong...)
	}
	f.Readings, err = f.Closure.Composition.Readings(at)
	return f, err
}

// slipped says what is odd about a value that seems to have slipped.
func slipped(l ions.Screened) string {
	return fmt.Sprintf("%s, %s, is %s times what goes with the rest of the report in the sea. It looks like a slip: %s",
		l.Quantity, reported(l.Measurement), paper.Digits(l.Ratio()), l.How)
}

// read takes JSON for what starts like it, and everything else for lines.
func read(data []byte) (ions.Report, error) {
	if !bytes.HasPrefix(bytes.TrimSpace(bytes.TrimPrefix(data, []byte("\ufeff"))), []byte("[")) {
		return ions.ReadReport(string(data))
	}
	d := json.NewDecoder(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff"))))
	d.DisallowUnknownFields()
	var report ions.Report
	if err := d.Decode(&report); err != nil {
		return nil, fmt.Errorf("the report: %w", err)
	}
	return report, nil
}
