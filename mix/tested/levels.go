package tested

import (
	"example.org/wellmixed/internal/input"
)

// Levels are what was tested in a water, each parameter once. They also say what
// is wanted of a water, and what a dose or a day adds to it.
type Levels []Level

// Of returns the level of a parameter, and whether there is one.
func (l Levels) Of(p Parameter) (Level, bool) {
	for i := range l {
		if l[i].parameter == p {
			return l[i], true
		}
	}
	return Level{}, false
}

// With returns the levels with these added, or in the place of those of the same
// parameter. The list itself stays as it is.
func (l Levels) With(levels ...Level) Levels {
	out := make(Levels, len(l), len(l)+len(levels))
	copy(out, l)
	for _, x := range levels {
		if i := out.place(x.parameter); i >= 0 {
			out[i] = x
		} else {
			out = append(out, x)
		}
	}
	return out
}

// Without returns the levels but that of a parameter.
func (l Levels) Without(p Parameter) Levels {
	var out Levels
	for _, x := range l {
		if x.parameter != p {
			out = append(out, x)
		}
	}
	return out
}

// place returns the index of a parameter in the list, -1 if it is not in it.
func (l Levels) place(p Parameter) int {
	for i := range l {
		if l[i].parameter == p {
			return i
		}
	}
	return -1
}

// Check refuses levels that no water has, and a parameter that is in the list
// twice.
func (l Levels) Check(field string) error {
	for i := range l {
		if err := l[i].Check(field); err != nil {
			return err
		}
	}
	return l.checkOnce(field)
}

// CheckRates refuses rates that are no numbers. They may be negative: what is used
// up.
func (l Levels) CheckRates(field string) error {
	for i := range l {
		if err := l[i].CheckCounting(field); err != nil {
			return err
		}
		x := l[i].Base()
		err := l[i].Must(field, x > -mostRate && x < mostRate, "a number of ordinary size, below zero for what is used up")
		if err != nil {
			return err
		}
	}
	return l.checkOnce(field)
}

// mostRate is beyond what any tank makes in a day, in the base unit of a level.
const mostRate = 1e9

// checkOnce looks at the names in an order, so that a long list takes no square of
// its length.
func (l Levels) checkOnce(field string) error {
	const few = 16
	if len(l) <= few {
		for i := range l {
			if l[:i].place(l[i].parameter) >= 0 {
				return twice(field, l[i].parameter)
			}
		}
		return nil
	}
	seen := make(map[Parameter]bool, len(l))
	for i := range l {
		if seen[l[i].parameter] {
			return twice(field, l[i].parameter)
		}
		seen[l[i].parameter] = true
	}
	return nil
}

func twice(field string, p Parameter) error {
	return input.Bad(field+"."+string(p), "two levels", "one")
}

// blend returns the levels of a mixture: x of one water's and y of another's. A
// level that is not known in both is not known in the mixture.
func (l Levels) blend(x float64, other Levels, y float64) Levels {
	var out Levels
	if len(l) > 0 && len(other) > 0 {
		out = make(Levels, 0, min(len(l), len(other)))
	}
	for i := range l {
		// Two lists of one tank are in the same order as a rule.
		k := i
		if k >= len(other) || other[k].parameter != l[i].parameter {
			k = other.place(l[i].parameter)
		}
		if k >= 0 {
			out = append(out, l[i].WithBase(float64(x*l[i].Base())+float64(y*other[k].Base())))
		}
	}
	return out
}

// scaled returns so many times the levels.
func (l Levels) scaled(x float64) Levels {
	out := make(Levels, len(l))
	for i := range l {
		out[i] = l[i].WithBase(l[i].Base() * x)
	}
	return out
}
