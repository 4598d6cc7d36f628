// Logbook reads a year of one-second samples of conductivity and temperature and
// says how salt the tank was each day.
//
//	go run ./examples/logbook -generate 31536000 > year.csv   # an invented year
//	go run ./examples/logbook year.csv
//	go run ./examples/logbook -generate 200000 | go run ./examples/logbook
//
// The log is lines of "seconds,conductivity,temperature" after one line of
// headings: Unix seconds in order, mS/cm at the temperature of the water, °C.
// A line that is none is counted and passed over, and so is a sample at a temperature that no
// tank has. If more than 5 % are of these kinds (-wrong says another share), or nothing is left,
// the program ends with status 1 after all that it has to say. A day is written when it ends,
// and what has come of the last one when reading fails or the program is told to stop. The
// memory it takes does not depend on the length of the log, the time is that of reading the text.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"example.org/wellmixed/examples/stop"
	"example.org/wellmixed/units"
)

func main() {
	if err := start(os.Args[1:], os.Stdin, os.Stdout, os.Stderr); err != nil {
		if err != flag.ErrHelp {
			fmt.Fprintln(os.Stderr, "logbook:", err)
			os.Exit(1)
		}
	}
}

func start(args []string, stdin io.Reader, stdout, stderr io.Writer) error {
	set := flag.NewFlagSet("logbook", flag.ContinueOnError)
	set.SetOutput(stderr)
	rows := set.Int64("generate", 0, "write an invented log of so many seconds instead; a year has 31536000")
	wrong := units.Percent(5)
	set.TextVar(&wrong, "wrong", wrong, "`share` of the lines that may be wrong before the program ends with status 1")
	if err := set.Parse(args); err != nil {
		return err
	}
	generating := false
	set.Visit(func(f *flag.Flag) { generating = generating || f.Name == "generate" })
	switch {
	case !(wrong.Value() >= 0 && wrong.Value() <= 1):
		return fmt.Errorf("wrong: got %v, want 0 %% to 100 %%", wrong)
	case generating && *rows <= 0:
		return fmt.Errorf("generate: got %d, want a number of seconds above zero", *rows)
	case generating && set.NArg() > 0:
		return fmt.Errorf("%q: want no file to read with -generate", set.Arg(0))
	case generating:
		return generate(stdout, *rows)
	case set.NArg() > 1:
		return fmt.Errorf("%q: want one file, or several through a pipe: cat *.csv | logbook", set.Arg(1))
	}
	in := stdin
	if set.NArg() > 0 {
		file, err := os.Open(set.Arg(0))
		if err != nil {
			return err
		}
		defer file.Close()
		in = file
	}
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	defer signal.Stop(signals)
	return summarise(stop.Reader(in, signals), stdout, wrong)
}
