// Controller is a small controller of a marine tank: it tops off what evaporates, heats, and
// doses alkalinity and calcium, from lines of whole numbers as sensors send them to lines of
// decisions. It stands on package control, which says what that can do and what not: it is no
// protective device. Mains beside salt water kills: a residual-current device, an independent
// over-temperature cut-out, a float valve in series, local codes and a licensed electrician
// come first.
//
//	go run ./examples/controller tank.state < samples.txt
//
// It imports nothing internal: copy the folder into a module of your own, change settings.go,
// and feed it from a serial port. It needs neither fmt nor reflect and allocates nothing per
// line. Told to stop, by SIGINT or SIGTERM, it answers the lines that have come.
package main

import (
	"os"
	"os/signal"
	"syscall"

	"example.org/wellmixed/dilution/control"
	"example.org/wellmixed/dilution/control/words"
	"example.org/wellmixed/examples/stop"
)

const usage = `usage: controller [state file] < lines

Each line in is answered by a line out. A sample has the time since start in ms, the level in
thousandths of a mm above the one to hold, the temperature in thousandths of a °C, the
conductivity in µS/cm, and the switches for second level, empty reservoir, leak and return
pump, each c for clear (the return pump runs), t for tripped, ? for not known:

    120000 -5400 25012 53071 cccc

A dash stands for a sensor that does not answer. What a person says is a line too:

    acknowledge        the causes of the alarms have been looked at
    accept temperature a probe jumped and is right; the same of level and conductivity
    calibrated         the conductivity probe was calibrated
    refilled 20000     so many mL are in the reservoir now
    alkalinity 1000    the container was changed and holds so many mL
    calcium 1000       the same
    hold, resume       somebody works at the tank; done

Without a state file, or with one that is damaged, nothing is known of what was pumped today:
pumps and heater wait for acknowledge. After a long power cut the water may have gone farther
than a probe is believed: look, then accept. The settings are those of settings.go. Nothing here protects from
mains, floods and fires: see the cautions of package control.

The worst that one fault can do with these settings before it is stopped:

`

// worst lists the worst case of each fault, a line each.
func worst() string {
	text := []byte{}
	for f := control.LevelStuck; f <= control.SaltyReservoir; f++ {
		text = append(words.AppendWorst(append(text, "    "...), topOff.WorstCase(f)), '\n')
	}
	return string(text)
}

func main() {
	name := ""
	switch args := os.Args[1:]; {
	case len(args) > 0 && (args[0] == "-h" || args[0] == "-help" || args[0] == "--help"):
		os.Stdout.WriteString(usage + worst())
		return
	case len(args) > 1:
		fail(`one argument, the state file: "` + args[1] + `" is one too many; -h tells more`)
	case len(args) == 1 && (args[0] == "" || args[0][0] == '-'):
		fail(`"` + args[0] + `" is no state file; -h tells more`)
	case len(args) == 1:
		name = args[0]
	}
	c, refusal := newController()
	if refusal != "" {
		fail(refusal)
	}
	if err := c.load(name); err != nil {
		fail(err.Error())
	}
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	if err := run(stop.Reader(os.Stdin, signals), os.Stdout, c); err != nil && err != stop.ErrSignal {
		fail(err.Error())
	}
}

func fail(what string) {
	os.Stderr.WriteString("controller: " + what + "\n")
	os.Exit(1)
}
