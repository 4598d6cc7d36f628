package replenish

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
	"example.org/wellmixed/units/spread"
)

// Doubts are the standard uncertainties of what a dose is worked out from. Those
// that are zero or not given are left out.
type Doubts struct {
	Tank     units.Fraction // of the volume of water: 5 to 10 % where it was only measured out (common practice)
	Level    tested.Level   // of the test of the parameter
	Strength units.Fraction // of what the additive holds: its purity, the making of a stock
	Amount   units.Fraction // of the weighing or measuring of the dose
}

// Estimates returns the dose, in g or mL, and the level that it comes to if so much is
// dosed, each with its standard uncertainty and what that is mostly from.
//
//	symbol   a = (L1 - L0) V/s; L = L0 + a s'/V'
//	source   balance of the element; JCGM 100:2008, 5.1.2, by differences ([spread.Through])
//
// The doubt of the test is not the smaller in the level, however well the dose is weighed.
func (d Dose) Estimates(doubts Doubts) ([]advice.Estimate, error) {
	present, strength, _, err := d.check()
	if err != nil {
		return nil, err
	}
	names := [...]string{
		"the volume of the tank", "the test of " + string(d.To.Parameter()), "the strength of the additive",
		"the measuring of the dose",
	}
	u := []float64{doubts.Tank.Value(), 0, doubts.Strength.Value(), doubts.Amount.Value()}
	if l := doubts.Level; l.Exists() {
		if l.Parameter() != d.To.Parameter() {
			return nil, input.Bad("doubts.level", string(l.Parameter()), string(d.To.Parameter()))
		}
		if err := l.CheckCounting("doubts.level"); err != nil {
			return nil, err
		}
		u[1] = l.Base()
	}
	for i, x := range u {
		if !(x >= 0 && !math.IsInf(x, 0)) {
			return nil, input.Bad("doubts", input.Number(x)+" of "+names[i], "zero or more")
		}
	}
	litres := d.Tank.Volume().Litres()
	dose := func(off []float64) float64 { // g or mL
		return (d.To.Base() - present.Base() - off[1]) * 1000 * litres * (1 + off[0]) / (strength * (1 + off[2]))
	}
	planned := dose(make([]float64, len(u)))
	value, uncertainty, most, err := spread.Through(u, func(off []float64) ([]float64, error) {
		brought := planned * (1 + off[3]) * strength * (1 + off[2]) / (1000 * litres * (1 + off[0]))
		level, _ := d.To.WithBase(present.Base() + off[1] + brought).Counted()
		return []float64{dose(off), level}, nil
	})
	if err != nil {
		return nil, err
	}
	unit := "g"
	if d.Additive.isStock() {
		unit = "mL"
	}
	_, counted := d.To.Counted()
	list := []advice.Estimate{
		{Name: "Dose", Unit: unit},
		{Name: "Level afterwards", Unit: counted},
	}
	for i := range list {
		list[i].Value, list[i].Uncertainty = units.Scalar(value[i]), units.Scalar(uncertainty[i])
		if most[i] >= 0 {
			list[i].Mostly = names[most[i]]
		}
	}
	return list, nil
}
