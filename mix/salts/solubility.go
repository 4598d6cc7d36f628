package salts

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Solubility returns how much of the compound, as it is weighed, a kilogram of
// its saturated solution in pure water holds. [Solution.Into] turns that into
// grams for so much water.
//
//	symbol   ln s(t) by monotone cubics through the tabulated values, one curve for each
//	         solid phase; where one gives way to another, the lesser of the two, which is
//	         the stable one: CaCl2 to 30 and near 41 °C, Na2SO4 and Na2CO3 near 33 °C,
//	         MgSO4 at 70 °C
//	         of a hydrate with r = M(hydrate)/M(anhydrous): r s/(100 + s), its water joins the
//	         solvent
//	source   see the table; secondary values, 2 to 3 % (Ca(OH)2 5 %)
//	method   Fritsch and Butland 1984, SIAM J. Sci. Stat. Comput. 5, 300-304 (slopes); in 1/T
//	         instead of t, as van 't Hoff has it, values left out are met no better (1.03 % on
//	         the average, both)
//	units    mg per kg of solution
//	outside  the tabulated temperatures: NaN and a *units.RangeError; a compound without
//	         values, or a hydrate that melts in its own water: NaN and an *units.InputError
func (c Compound) Solubility(t units.Temperature) (units.MassPerKilogram, error) {
	none := input.NaN[units.MassPerKilogram]()
	if err := input.Set("temperature", t); err != nil {
		return none, err
	}
	curve, tabled := c.curve()
	if len(curve) == 0 {
		return none, input.Bad("compound", c.String(), "one with known solubility")
	}
	first, last := curve[0].points, curve[len(curve)-1].points
	limits := units.Range{Quantity: "temperature", Min: first[0].celsius, Max: last[len(last)-1].celsius, Unit: "°C"}
	if limits.Check(t.Celsius()) != nil {
		limits.Source = "solubility of " + tabled.Formula()
		return none, limits.Check(t.Celsius())
	}
	m := tabled.MolarMass().GramsPerMole()
	s := gramsAt(curve, m, t.Celsius())
	share := s / (100 + s) * c.MolarMass().GramsPerMole() / m
	if !(share < 1) {
		return none, input.Bad("temperature", t.String(),
			"a lower one: "+c.Formula()+" melts in its own water of crystallisation")
	}
	return units.MassPerKilogram(share*1000) * units.GramPerKilogram, nil
}

// curve returns the branches of the compound, and the compound in whose grams
// they count: a hydrate without values of its own has those of its parent, and
// a parent those of a tabled hydrate.
func (c Compound) curve() ([]branch, Compound) {
	for d := range All() {
		if d.Anhydrous() != c.Anhydrous() {
			continue
		}
		for i := range solubilities {
			if solubilities[i].formula != d.Formula() {
				continue
			}
			end := i
			for end < len(solubilities) && solubilities[end].formula == d.Formula() {
				end++
			}
			return solubilities[i:end], d
		}
	}
	return nil, Compound{}
}

// gramsAt returns grams in 100 g of water at a temperature within the curve.
func gramsAt(curve []branch, molarMass, celsius float64) float64 {
	for i := range curve {
		points := curve[i].points
		if celsius <= points[len(points)-1].celsius {
			if celsius >= points[0].celsius || i == 0 {
				return math.Exp(logAt(points, molarMass, celsius))
			}
			// between two branches
			return math.Exp(min(logAt(curve[i-1].points, molarMass, celsius), logAt(points, molarMass, celsius)))
		}
	}
	return math.NaN()
}

func (p point) log(molarMass float64) float64 {
	if p.molality > 0 {
		return math.Log(p.molality * molarMass / 10)
	}
	return math.Log(p.grams)
}

// logAt interpolates the logarithm by cubics, and goes on straight beyond the
// ends of the branch.
func logAt(points []point, m, celsius float64) float64 {
	last := len(points) - 1
	if last == 0 || celsius <= points[0].celsius {
		return points[0].log(m) + slopeAt(points, m, 0)*(celsius-points[0].celsius)
	}
	if celsius >= points[last].celsius {
		return points[last].log(m) + slopeAt(points, m, last)*(celsius-points[last].celsius)
	}
	i := 0
	for points[i+1].celsius < celsius {
		i++
	}
	h := points[i+1].celsius - points[i].celsius
	x := (celsius - points[i].celsius) / h
	y0, y1 := points[i].log(m), points[i+1].log(m)
	d0, d1 := slopeAt(points, m, i)*h, slopeAt(points, m, i+1)*h
	return y0 + x*(d0+x*(3*(y1-y0)-2*d0-d1+x*(2*(y0-y1)+d0+d1)))
}

// slopeAt returns the slope of the cubics at a point: the weighted harmonic
// mean of the slopes of the chords beside it, zero at an extremum; at an end
// the three-point slope, held to the shape of the data.
func slopeAt(points []point, m float64, i int) float64 {
	last := len(points) - 1
	chord := func(j int) (h, d float64) {
		h = points[j+1].celsius - points[j].celsius
		return h, (points[j+1].log(m) - points[j].log(m)) / h
	}
	switch {
	case last == 0:
		return 0
	case last == 1:
		_, d := chord(0)
		return d
	case i == 0 || i == last:
		near, far := 0, 1
		if i == last {
			near, far = last-1, last-2
		}
		h0, d0 := chord(near)
		h1, d1 := chord(far)
		slope := ((2*h0+h1)*d0 - h0*d1) / (h0 + h1)
		if slope*d0 <= 0 {
			return 0
		}
		if d0*d1 <= 0 && math.Abs(slope) > 3*math.Abs(d0) {
			return 3 * d0
		}
		return slope
	}
	h0, d0 := chord(i - 1)
	h1, d1 := chord(i)
	if d0*d1 <= 0 {
		return 0
	}
	w0, w1 := 2*h1+h0, h1+2*h0
	return (w0 + w1) / (w0/d0 + w1/d1)
}
