// Controller watches a tank the way firmware would: a line of conductivity (mS/cm)
// and temperature (°C) in, a line of salinity, drift from the set point and
// alarms out.
//
//	printf '53.1 25.0\n54.9 25.1\n' | go run ./examples/controller
//	go run ./examples/controller "34.5 ppt" < samples.txt
//
// It needs neither fmt nor reflect and allocates nothing per sample: take
// controller.go as it is and feed it from a serial port. Told to stop, by SIGINT or
// SIGTERM, it answers the lines that have come.
package main

import (
	"os"
	"os/signal"
	"syscall"

	"example.org/wellmixed/examples/stop"
	"example.org/wellmixed/units"
)

func main() {
	limits := usual
	if len(os.Args) > 1 {
		set, err := units.Parse[units.PracticalSalinity](os.Args[1])
		if err != nil {
			fail(err)
		}
		if set.Value() < 1 || set.Value() > 42 {
			fail(&units.InputError{Field: "set point", Got: set.String(), Want: "a salinity of 1 to 42, such as 35"})
		}
		limits.set = set
	}
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	if err := run(stop.Reader(os.Stdin, signals), os.Stdout, limits); err != nil && err != stop.ErrSignal {
		fail(err)
	}
}

func fail(err error) {
	os.Stderr.WriteString("controller: " + err.Error() + "\n")
	os.Exit(1)
}
