package form

import (
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// Levels reads what is given below a name of these parameters. A mass that does not
// say what it counts is taken as the trade counts: nitrate as NO₃, phosphate as PO₄,
// ammonia as N.
func (f *Form) Levels(of string, parameters ...tested.Parameter) tested.Levels {
	var list tested.Levels
	for _, p := range parameters {
		field := of + "." + string(p)
		if !f.Has(field) {
			continue
		}
		if l, read := f.level(field, p); read {
			list = append(list, l)
		}
	}
	return list
}

func (f *Form) level(field string, p tested.Parameter) (tested.Level, bool) {
	text := f.Text(field, "a level")
	l, err := p.Parse(text)
	if err != nil && p != tested.Alkalinity {
		if c, plain := units.Parse[units.MassPerLitre](text); plain == nil {
			l, err = p.None().WithBase(c.MilligramsPerLitre()/perBase(p)), nil
		}
	}
	f.Complain(field, text, err)
	return l, err == nil
}

// perBase is how many mg/L a base unit of a parameter is, as the trade counts.
func perBase(p tested.Parameter) float64 {
	x, _ := p.None().WithBase(1).Counted()
	return x
}
