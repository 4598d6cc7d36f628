// Replenish reads the tests, doses and water changes of a reef tank and says what it uses in
// a day, what to dose every day, how to bring what is low to its goal in safe steps, and
// what lime water as top-off can do of it.
//
//	go run ./examples/replenish
//	go run ./examples/replenish -volume "80 US gal" -ph "8.2 NBS"
//	go run ./examples/replenish -file my.json -html plan.html
//
// Without -file it works on an invented home, printed by -example as a start for your own;
// -keys lists all that a file can say. Without a log it plans the goal alone, and without
// additives it reckons with the usual compounds, as pure as can be.
package main

import (
	_ "embed"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
)

//go:embed home.json
var example []byte

func main() { command().Main() }

func command() *home.Command {
	return &home.Command{
		Name:    "replenish",
		Example: example,
		Flags: []string{"tank.volume", "tank.salinity", "tank.temperature", "tank.ph", "room.co2", "goal.alkalinity",
			"goal.calcium", "goal.magnesium", "lime_water.top_off"},
		Answer: func(h *home.Home) (*paper.Report, any, error) {
			j, err := work(h)
			if err != nil {
				return nil, nil, err
			}
			return j.report(), j.answer, nil
		},
	}
}
