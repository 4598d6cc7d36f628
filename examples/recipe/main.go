// Recipe makes seawater from single salts: how many grams of each, in which order to dissolve
// them, how near it comes, what to buy, and what to mind.
//
//	go run ./examples/recipe
//	go run ./examples/recipe -target "33 ppt" -set "recipe.volume=10 US gal"
//	go run ./examples/recipe -file my.json -like kester -json
//
// What stands on the shelf is said in the file ("recipe.shelf"), by formula or by name. What no jar
// there brings is taken from one to be bought, which the answer names. A compound that
// would be left on the shelf for what else it brings is used if its jar is "allowed": "yes".
package main

import (
	"cmp"
	_ "embed"

	"example.org/wellmixed/examples/home"
	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix/recipe"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

//go:embed home.json
var example []byte

var command = home.Command{
	Name:    "recipe",
	Example: example,
	Flags:   []string{"mix.target", "mix.temperature", "recipe.volume", "recipe.tolerance", "recipe.like"},
	Answer:  answer,
}

func main() { command.Main() }

// result is what comes of an order, in the types of the library.
type result struct {
	Plan          recipe.Plan
	Poured, Aired *carbonate.System // as poured together, and with the air of outdoors; nil without carbon
}

func answer(h *home.Home) (*paper.Report, any, error) {
	o, err := order(h)
	if err != nil {
		return nil, nil, err
	}
	plan, err := recipe.Solve(o.Job)
	if err != nil {
		return nil, nil, home.At("recipe", err)
	}
	out := result{Plan: plan}
	out.Poured, out.Aired = states(plan)
	w := writer{
		Report: &paper.Report{Title: cmp.Or(h.Name, "Your shelf") + ": seawater from single salts"},
		result: out, job: o, style: h.Style,
	}
	w.write()
	return w.Report, out, nil
}

// states returns the carbonate side of the mix. A mix without carbon has none.
func states(plan recipe.Plan) (poured, aired *carbonate.System) {
	water, err := plan.Carbonate()
	if err != nil {
		return nil, nil
	}
	if s, err := water.System(); err == nil {
		poured = &s
	}
	if water, err = water.Equilibrate(home.Outdoors, units.Atmosphere); err == nil {
		if s, err := water.System(); err == nil {
			aired = &s
		}
	}
	return poured, aired
}
