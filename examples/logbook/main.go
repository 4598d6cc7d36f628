// Logbook reads a year of one-second samples of conductivity and temperature and
// says how salt the tank was each day.
//
//	go run ./examples/logbook -generate 31536000 > year.csv   # an invented year
//	go run ./examples/logbook year.csv
//	go run ./examples/logbook -generate 200000 | go run ./examples/logbook
//
// The log is lines of "seconds,conductivity,temperature" after one line of
// headings: Unix seconds in order, mS/cm at the temperature of the water, °C.
// A line that is none is counted and passed over. The memory it takes does not
// depend on the length of the log, the time is that of reading the text.
package main

import (
	"bufio"
	"flag"
	"fmt"
	"io"
	"os"
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
	if err := set.Parse(args); err != nil {
		return err
	}
	if *rows > 0 {
		return generate(stdout, *rows)
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
	out := bufio.NewWriter(stdout)
	if err := summarise(in, out); err != nil {
		return err
	}
	return out.Flush()
}
