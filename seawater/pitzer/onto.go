package pitzer

import (
	"iter"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/units"
)

// Stage is what there is when so much of the water has been poured onto the dry salt.
type Stage struct {
	Water   units.Mass
	Mixture Mixture
}

// WaterOntoSalt returns the stages of pouring the water of a batch onto its dry salts: at
// each of so many amounts of water, from the least to all of it, in equal ratios, what is
// dissolved and what lies there. The last is that of [Dissolve].
//
// Salt poured into all of the water sees only the last stage, but for the spot where it
// falls. What fell out early and dissolves again in equilibrium may have grown crystals that
// take days: that is what equilibrium cannot tell, and why the trade adds salt to water.
//
// A stage without equilibrium, such as one with too little water, ends the sequence with its error.
func (b Batch) WaterOntoSalt(least units.Mass, stages int) iter.Seq2[Stage, error] {
	return func(yield func(Stage, error) bool) {
		err := input.Positive("least", least.Kilograms(), "kg")
		if err == nil && !(least < b.Water) {
			err = input.Bad("least", least.String(), "less than all of the water")
		}
		if err == nil && (stages < 2 || stages > mostStages) {
			err = input.Bad("stages", input.Number(float64(stages)), "2 to 1000")
		}
		if err != nil {
			yield(Stage{}, err)
			return
		}
		ratio := math.Log(float64(b.Water / least))
		all := b.Water
		for i := range stages {
			part := b
			part.Water = all * units.Mass(math.Exp(-ratio*float64(stages-1-i)/float64(stages-1)))
			m, err := Dissolve(part)
			if !yield(Stage{Water: part.Water, Mixture: m}, err) || err != nil {
				return
			}
		}
	}
}

const mostStages = 1000

// WaterToClear returns with how much water the batch stops being above saturation with a
// solid that is not let fall out on the way, all others being in equilibrium: with less
// water than that it can come, and stays if it found nuclei.
//
//	errors   as [Dissolve]; a solid that is above saturation with all of the water, or below
//	         down to a hundredth of it: *units.InputError
func (b Batch) WaterToClear(s Solid) (units.Mass, error) {
	if err := b.check(); err != nil {
		return input.NaN[units.Mass](), err
	}
	if err := s.usable(b.Temperature); err != nil {
		return input.NaN[units.Mass](), err
	}
	allowed := b.Solids
	if len(allowed) == 0 {
		allowed = usual(b.Temperature)
	}
	others := make([]Solid, 0, len(allowed))
	for _, x := range allowed {
		if x != s && !sameIons(x, s) {
			others = append(others, x)
		}
	}
	all := b.Water
	if len(others) == 0 {
		return input.NaN[units.Mass](), input.Bad("solids", s.String(), "another one beside it, such as halite")
	}
	b.Solids = others
	index := func(ln float64) float64 {
		b.Water = all * units.Mass(math.Exp(ln))
		m, err := Dissolve(b)
		if err != nil {
			return math.NaN()
		}
		return m.Solution.index(s)
	}
	if top := index(0); !(top < 0) {
		return input.NaN[units.Mass](), input.Bad("water", all.String(), "so much that "+s.String()+" is below saturation")
	}
	for ln, step := 0., math.Log(1.25); ln > -math.Log(100); ln -= step {
		if x := index(ln - step); !(x < 0) {
			if math.IsNaN(x) {
				break
			}
			root, ok := solve.Brent(index, ln-step, ln, 1e-6)
			if !ok {
				break
			}
			return all * units.Mass(math.Exp(root)), nil
		}
	}
	return input.NaN[units.Mass](), input.Bad("solid", s.String(), "one that comes above saturation with less water")
}

// sameIons tells whether two solids are of the same ions, as gypsum and anhydrite.
func sameIons(a, b Solid) bool {
	return solids[a].of == solids[b].of && solids[a].hydrogen == solids[b].hydrogen
}
