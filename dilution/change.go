package dilution

import (
	"math"
	"strings"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// Change is one water change: draw Swap from the tank, pour the same volume of
// the batch in, each measured at its own temperature.
type Change struct {
	Tank, Batch tested.Water
	Swap        units.Volume
}

// ChangePlan is the answer to a Change.
type ChangePlan struct {
	Before, Batch tested.Water // as they were given
	After         tested.Water
	Share         units.Fraction // of the tank's water that was swapped
	BatchLeft     units.Volume   // what is left of the batch
	Assumptions   []string
	Cautions      []advice.Caution
}

// Move is what a change does to one parameter, as the tank counts it. What was
// not measured is NaN.
type Move struct {
	Name, Unit           string
	Before, Batch, After units.Scalar
}

// PlanChange works out what one water change does to everything in the tank.
// Salt moves by mass, heat by conservative temperature, and every solute and
// the alkalinity by amount; none of them is lost. A level that is not known in
// both waters is not known afterwards. pH does not mix: it is computed from the
// alkalinity and DIC of the mixture.
func PlanChange(c Change) (ChangePlan, error) {
	err := input.Join(c.Tank.Check("tank"), c.Batch.CheckKind("batch"))
	if err != nil {
		return ChangePlan{}, err
	}
	if err := inside("swap", c.Swap, c.Tank.Volume()); err != nil {
		return ChangePlan{}, err
	}
	if !(c.Swap <= c.Batch.Volume()*(1+1e-12)) {
		return ChangePlan{}, input.Bad("swap", c.Swap.String(),
			"at most the "+input.Fixed(c.Batch.Volume().Litres(), 2)+" L of the batch")
	}
	p := ChangePlan{
		Before:    c.Tank,
		Batch:     c.Batch,
		Share:     units.Share(float64(c.Swap / c.Tank.Volume())),
		BatchLeft: max(0, c.Batch.Volume()-c.Swap),
	}
	if p.After, err = swapped(c.Tank, c.Batch, c.Swap); err != nil {
		return ChangePlan{}, err
	}
	p.Assumptions = []string{
		"The tank is well mixed, and what was drawn is tank water, not a mixture of old and new.",
		"No heat goes to the air or the glass, no gas is exchanged and nothing reacts while the water is swapped.",
	}
	for _, name := range oneSided(c.Tank.Levels, c.Batch.Levels) {
		p.Assumptions = append(p.Assumptions, capital(name)+" is not known in both waters, so it is not known after "+
			"the change.")
	}
	p.Assumptions = append(p.Assumptions, left(c.Tank, p.After)...)
	p.Cautions = cautions(c, p)
	return p, nil
}

// swapped draws a volume from a tank and pours as much of the batch in.
func swapped(tank, batch tested.Water, swap units.Volume) (tested.Water, error) {
	rest, err := tank.Draw(min(swap, tank.Volume()))
	if err != nil {
		return tested.Water{}, err
	}
	if swap == 0 {
		return tank, nil
	}
	return rest.Blend(batch.OfVolume(swap)), nil
}

// oneSided lists the parameters that are known in one of two waters only.
func oneSided(a, b tested.Levels) []string {
	var list []string
	in := make(map[tested.Parameter]int, len(a)+len(b))
	for _, l := range a {
		in[l.Parameter()]++
	}
	for _, l := range b {
		in[l.Parameter()] += 2
	}
	for _, levels := range [...]tested.Levels{a, b} {
		for _, l := range levels {
			if in[l.Parameter()] != 3 {
				list = append(list, string(l.Parameter()))
			}
		}
	}
	return list
}

// left says which fits the chemistry of these waters has left, each sentence once.
func left(waters ...tested.Water) []string {
	var list []string
	for _, w := range waters {
		system, err := w.System()
		if err != nil {
			continue
		}
		for _, text := range tested.Extrapolated(&system) {
			if len(list) == 0 || !contains(list, text) {
				list = append(list, text)
			}
		}
	}
	return list
}

func contains(list []string, text string) bool {
	for _, x := range list {
		if x == text {
			return true
		}
	}
	return false
}

// capital begins a sentence or a row with a name.
func capital(name string) string {
	if name == "" {
		return name
	}
	return strings.ToUpper(name[:1]) + name[1:]
}

// Moves lists what the change does, parameter by parameter: always the same rows
// for the same waters, whatever the numbers.
func (p ChangePlan) Moves() []Move { return moves(&p.Before, &p.Batch, &p.After) }

func moves(before, batch, after *tested.Water) []Move {
	list := make([]Move, 0, 5+len(before.Levels)+len(batch.Levels))
	list = append(list,
		Move{
			"Salinity",
			"PSS-78",
			units.Scalar(before.Portion.Practical().Value()),
			units.Scalar(batch.Portion.Practical().Value()),
			units.Scalar(after.Portion.Practical().Value()),
		},
		Move{
			"Temperature",
			"°C",
			units.Scalar(before.Portion.Temperature().Celsius()),
			units.Scalar(batch.Portion.Temperature().Celsius()),
			units.Scalar(after.Portion.Temperature().Celsius()),
		})
	row := func(l tested.Level) {
		_, unit := l.Counted()
		in := func(w *tested.Water) units.Scalar {
			x, known := w.Level(l.Parameter())
			if !known {
				return units.Scalar(math.NaN())
			}
			n, _ := l.WithBase(x.Base()).Counted()
			return units.Scalar(n)
		}
		list = append(list, Move{capital(string(l.Parameter())), unit, in(before), in(batch), in(after)})
	}
	for _, l := range before.Levels {
		row(l)
	}
	for _, l := range oneSidedLevels(batch.Levels, before.Levels) {
		row(l)
	}
	// An error is a chemistry that is not known, NaN throughout.
	b, berr := before.CarbonChemistry()
	f, ferr := batch.CarbonChemistry()
	a, aerr := after.CarbonChemistry()
	if berr != nil && ferr != nil && aerr != nil {
		return list
	}
	return append(list,
		Move{"pH", "total scale", units.Scalar(b.PH.Value()), units.Scalar(f.PH.Value()), units.Scalar(a.PH.Value())},
		Move{"Aragonite saturation", "", b.Aragonite, f.Aragonite, a.Aragonite},
		Move{
			"Free ammonia",
			"mg/L NH3",
			units.Scalar(milligrams(b.FreeAmmonia)),
			units.Scalar(milligrams(f.FreeAmmonia)),
			units.Scalar(milligrams(a.FreeAmmonia)),
		},
	)
}

// oneSidedLevels returns the levels of a that b does not have.
func oneSidedLevels(a, b tested.Levels) tested.Levels {
	if len(a) > few {
		in := make(map[tested.Parameter]bool, len(b))
		for _, l := range b {
			in[l.Parameter()] = true
		}
		var out tested.Levels
		for _, l := range a {
			if !in[l.Parameter()] {
				out = append(out, l)
			}
		}
		return out
	}
	var out tested.Levels
	for _, l := range a {
		if _, has := b.Of(l.Parameter()); !has {
			out = append(out, l)
		}
	}
	return out
}

// few is how many levels are looked through one by one.
const few = 16

// milligrams returns a level in mg/L as it is counted, NaN if it was not given.
func milligrams(l tested.Level) float64 {
	if !l.Exists() {
		return math.NaN()
	}
	return l.MassPerLitre().MilligramsPerLitre()
}
