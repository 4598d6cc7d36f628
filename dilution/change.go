package dilution

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Solute is any further conservative solute, by name.
type Solute struct {
	Name  string
	Level Measured[units.MassPerLitre]
}

// State is the water of a tank or of a batch: how much of which salinity and
// temperature, and what else was measured in it.
type State struct {
	Water      seawater.Portion
	Alkalinity Measured[units.Alkalinity]
	Calcium    Measured[units.MassPerLitre]
	Magnesium  Measured[units.MassPerLitre]
	Nitrate    Measured[units.MassPerLitre] // as NO₃
	Phosphate  Measured[units.MassPerLitre] // as PO₄
	Others     []Solute
}

// Change is one water change: draw Swap from the tank, pour the same volume of
// the batch in, each measured at its own temperature.
type Change struct {
	Tank, Batch State
	Swap        units.Volume
}

// ChangePlan is the answer to a Change.
type ChangePlan struct {
	Before, Batch State // as they were given
	After         State
	Share         units.Fraction // of the tank's water that was swapped
	BatchLeft     units.Volume   // what is left of the batch
	Assumptions   []string
	Cautions      []mix.Caution
}

// Move is what a change does to one parameter, in a unit of the trade. What was
// not measured is NaN.
type Move struct {
	Name, Unit           string
	Before, Batch, After float64
}

// PlanChange works out what one water change does to everything in the tank.
// Salt moves by mass, heat by conservative temperature, and every solute and
// the alkalinity by amount; none of them is lost. A level that is not measured in
// both waters is not known afterwards. pH is not among them: it does not mix.
func PlanChange(c Change) (ChangePlan, error) {
	tank, batch := c.Tank.Water, c.Batch.Water
	if err := input.Positive("tank", float64(tank.Volume()), "L"); err != nil {
		return ChangePlan{}, err
	}
	if err := inside("swap", c.Swap, tank.Volume()); err != nil {
		return ChangePlan{}, err
	}
	if !(c.Swap <= batch.Volume()*(1+1e-12)) {
		return ChangePlan{}, input.Bad("swap", c.Swap.String(),
			"at most the "+input.Fixed(batch.Volume().Litres(), 2)+" L of the batch")
	}
	for _, s := range [...]struct {
		name string
		State
	}{{"tank", c.Tank}, {"batch", c.Batch}} {
		if err := s.check(s.name); err != nil {
			return ChangePlan{}, err
		}
	}
	water, err := Swap(tank, batch.Sample, c.Swap)
	if err != nil {
		return ChangePlan{}, err
	}
	p := ChangePlan{
		Before:    c.Tank,
		Batch:     c.Batch,
		Share:     units.Fraction(c.Swap / tank.Volume()),
		BatchLeft: max(0, batch.Volume()-c.Swap),
	}
	// Amounts add up; the volume they end up in is that of the blend.
	b := blender{
		kept:   float64((tank.Volume() - c.Swap) / water.Volume()),
		poured: float64(c.Swap / water.Volume()),
	}
	p.After = State{
		Water:      water,
		Alkalinity: blend(b, c.Tank.Alkalinity, c.Batch.Alkalinity),
		Calcium:    blend(b, c.Tank.Calcium, c.Batch.Calcium),
		Magnesium:  blend(b, c.Tank.Magnesium, c.Batch.Magnesium),
		Nitrate:    blend(b, c.Tank.Nitrate, c.Batch.Nitrate),
		Phosphate:  blend(b, c.Tank.Phosphate, c.Batch.Phosphate),
		Others:     blendOthers(b, c.Tank.Others, c.Batch.Others),
	}
	p.Assumptions = []string{
		"The tank is well mixed, and what was drawn is tank water, not a mixture of old and new.",
		"No heat goes to the air or the glass, and nothing reacts while the water is swapped.",
	}
	for _, m := range p.Moves() {
		if math.IsNaN(m.After) && !(math.IsNaN(m.Before) && math.IsNaN(m.Batch)) {
			p.Assumptions = append(p.Assumptions, m.Name+" was not measured in both waters, so it is not known after the change.")
		}
	}
	p.Cautions = cautions(c, p)
	return p, nil
}

// blender holds the volumes of old and of new water in a litre of the blend.
type blender struct{ kept, poured float64 }

func blend[Q ~float64](b blender, tank, batch Measured[Q]) Measured[Q] {
	if !tank.known || !batch.known {
		return Measured[Q]{}
	}
	return Known(Q(b.kept)*tank.value + Q(b.poured)*batch.value)
}

func blendOthers(b blender, tank, batch []Solute) []Solute {
	var after []Solute
	for _, s := range tank {
		after = append(after, Solute{s.Name, blend(b, s.Level, named(batch, s.Name))})
	}
	for _, s := range batch {
		if !has(tank, s.Name) {
			after = append(after, Solute{Name: s.Name})
		}
	}
	return after
}

func named(list []Solute, name string) Measured[units.MassPerLitre] {
	for _, s := range list {
		if s.Name == name {
			return s.Level
		}
	}
	return Measured[units.MassPerLitre]{}
}

func has(list []Solute, name string) bool {
	for _, s := range list {
		if s.Name == name {
			return true
		}
	}
	return false
}

func (s State) check(name string) error {
	levels := [...]struct {
		name string
		Measured[units.MassPerLitre]
	}{{"calcium", s.Calcium}, {"magnesium", s.Magnesium}, {"nitrate", s.Nitrate}, {"phosphate", s.Phosphate}}
	for _, l := range levels {
		if err := checkLevel(name+"."+l.name, l.Measured, "mg/L"); err != nil {
			return err
		}
	}
	for i, l := range s.Others {
		if l.Name == "" || has(s.Others[:i], l.Name) {
			return input.Bad(name+".others", `"`+l.Name+`"`, "a name of its own for every solute")
		}
		if err := checkLevel(name+"."+l.Name, l.Level, "mg/L"); err != nil {
			return err
		}
	}
	// Alkalinity may be negative in acid water, but it is a number.
	if a, known := s.Alkalinity.Value(); known && !(math.Abs(float64(a)) < 1000) {
		return input.Bad(name+".alkalinity", a.String(), "a number of ordinary size")
	}
	return nil
}

func checkLevel[Q ~float64](field string, m Measured[Q], unit string) error {
	if !m.known {
		return nil
	}
	return input.NotNegative(field, float64(m.value), unit)
}

// Moves lists what the change does, parameter by parameter.
func (p ChangePlan) Moves() []Move {
	tank, batch, after := p.Before, p.Batch, p.After
	list := []Move{
		{"Salinity", "PSS-78", tank.Water.Practical().Value(), batch.Water.Practical().Value(), after.Water.Practical().Value()},
		{"Temperature", "°C", tank.Water.Temperature().Celsius(), batch.Water.Temperature().Celsius(), after.Water.Temperature().Celsius()},
		move("Alkalinity", "dKH", units.DKH, tank.Alkalinity, batch.Alkalinity, after.Alkalinity),
		move("Calcium", "mg/L", units.MilligramPerLitre, tank.Calcium, batch.Calcium, after.Calcium),
		move("Magnesium", "mg/L", units.MilligramPerLitre, tank.Magnesium, batch.Magnesium, after.Magnesium),
		move("Nitrate", "mg/L", units.MilligramPerLitre, tank.Nitrate, batch.Nitrate, after.Nitrate),
		move("Phosphate", "mg/L", units.MilligramPerLitre, tank.Phosphate, batch.Phosphate, after.Phosphate),
	}
	for _, s := range after.Others {
		list = append(list, move(s.Name, "mg/L", units.MilligramPerLitre, named(tank.Others, s.Name), named(batch.Others, s.Name), s.Level))
	}
	return list
}

func move[Q ~float64](name, unit string, one Q, tank, batch, after Measured[Q]) Move {
	in := func(m Measured[Q]) float64 { v, _ := m.Value(); return float64(v / one) }
	return Move{name, unit, in(tank), in(batch), in(after)}
}
