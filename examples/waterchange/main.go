// Waterchange plans one water change from tap to tank: what to do and how much, when to
// start, what it does to the tank, the way to a goal, and what to buy.
//
//	go run ./examples/waterchange
//	go run ./examples/waterchange -target "34 ppt" -mix "12 US gal" -swap "11 US gal"
//	go run ./examples/waterchange -example > my.json
//	go run ./examples/waterchange -file my.json -html plan.html
//
// The volume of the tank, a target and a salt are enough; what else the file says of the
// home makes the plan say more. -keys lists all that it can say.
package main

import (
	_ "embed"

	"example.org/wellmixed/examples/home"
)

//go:embed home.json
var example []byte

//go:embed start.json
var start []byte

var command = home.Command{
	Name:    "waterchange",
	Example: example,
	Start:   start,
	Flags: []string{
		"tank=tank.volume", "tank.salinity", "tank.nitrate", "mix.target", "mix.temperature", "mix=mix.volume",
		"mix.measured", "change.swap", "change.every", "change.at",
	},
	Answer: answer,
}

func main() { command.Main() }
