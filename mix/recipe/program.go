package recipe

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"example.org/wellmixed/units"
)

// program is a linear program in standard form, A x = b, x ≥ 0, with a basis
// that is feasible. All its rows and columns are scaled to numbers near one.
type program struct {
	columns [][]float64 // of A
	b       []float64
	basis   []int // one column for each row
}

// nudge moves every right-hand side by a different trifle. A shelf that meets
// the targets exactly leaves a vertex where many deviations are zero at once,
// and there the simplex method can turn in circles; nudged, it cannot. The
// masses move by as little.
const nudge = 1e-9

// target adds a row for an amount of zero or more, bound one for an upper
// limit, which a nudge must not raise.
func (p *program) target(b float64) int { return p.row(b + p.phase()) }
func (p *program) bound(b float64) int  { return p.row(b - b*p.phase()) }

func (p *program) row(b float64) int {
	p.b = append(p.b, b)
	return len(p.b) - 1
}

// phase is a different part of the nudge for each row.
func (p *program) phase() float64 {
	_, part := math.Modf(float64(len(p.b)+1) * math.Phi)
	return nudge * (0.1 + part)
}

// column adds a variable with its coefficients by row and returns its number.
func (p *program) column(coefficients map[int]float64) int {
	col := make([]float64, len(p.b))
	for i, a := range coefficients {
		col[i] = a
	}
	p.columns = append(p.columns, col)
	return len(p.columns) - 1
}

// optimum returns the moles of each reagent in a kilogram of mix.
//
// In parts of its scale, a target b with tolerance t has over- and undershoot
// d and the parts e of them beyond the tolerance:
//
//	Σ a x - d⁺ + d⁻ = b;   d⁺ - e⁺ + s⁺ = t;   d⁻ - e⁻ + s⁻ = t
//
// and with t = 0 simply e = d. What is left of a reagent bounds x by a row more,
// x over what is left being at most 1.
func optimum(job Job, mass units.Mass) ([]float64, error) {
	var p program
	targets, silent := job.Targets, -1 // the target whose deviations within the tolerance do not count
	if carbon, ok := job.carbonOf(); ok {
		silent = len(targets)
		targets = append(targets[:silent:silent], carbon)
	}
	aim := make([]int, len(targets))
	above, below := make([]int, len(targets)), make([]int, len(targets))
	heaviest := 0.
	for i, t := range targets {
		aim[i] = p.target(float64(t.Amount) / scaleOf(t))
		heaviest = max(heaviest, t.Weight)
		if tolerant(t) {
			above[i] = p.bound(float64(t.Tolerance) / scaleOf(t))
			below[i] = p.bound(float64(t.Tolerance) / scaleOf(t))
		}
	}
	largest, limit, bound := p.jars(job, targets, mass)

	reagent := make([]int, len(job.Shelf))
	for j, jar := range job.Shelf {
		if largest[j] == 0 || limit[j] < 0 { // of no use
			reagent[j] = -1
			continue
		}
		col := map[int]float64{}
		for i, t := range targets {
			if a := t.Of.perMole(jar.Reagent.Compound); a != 0 {
				col[aim[i]] = a / scaleOf(t) / largest[j]
			}
		}
		if limit[j] > 0 {
			col[bound[j]] = 1 / limit[j]
		}
		reagent[j] = p.column(col)
	}
	var excess, deviation []term
	p.basis = make([]int, len(p.b))
	for i, t := range targets {
		weight := t.Weight / heaviest
		over, under := map[int]float64{aim[i]: -1}, map[int]float64{aim[i]: 1}
		if !tolerant(t) {
			o, u := p.column(over), p.column(under)
			excess = append(excess, term{o, weight}, term{u, weight})
			deviation = append(deviation, term{o, weight}, term{u, weight})
			p.basis[aim[i]] = u
			continue
		}
		over[above[i]], under[below[i]] = 1, 1
		o, u := p.column(over), p.column(under)
		beyondO, beyondU := p.column(map[int]float64{above[i]: -1}), p.column(map[int]float64{below[i]: -1})
		slackO, slackU := p.column(map[int]float64{above[i]: 1}), p.column(map[int]float64{below[i]: 1})
		excess = append(excess, term{beyondO, weight}, term{beyondU, weight})
		if i != silent {
			deviation = append(deviation, term{o, weight}, term{u, weight})
		}
		// nothing in the water: all of the target is undershoot
		p.basis[aim[i]], p.basis[above[i]] = u, slackO
		if p.b[aim[i]] > p.b[below[i]] {
			p.basis[below[i]] = beyondU
		} else {
			p.basis[below[i]] = slackU
		}
	}
	for j := range job.Shelf {
		if limit[j] > 0 {
			p.basis[bound[j]] = p.column(map[int]float64{bound[j]: 1})
		}
	}

	cost, grams := priced(job, reagent, largest)
	x, err := p.lexicographic(excess, deviation, cost, grams)
	if err != nil {
		return nil, err
	}
	moles := make([]float64, len(job.Shelf))
	for j := range moles {
		if reagent[j] >= 0 && x[reagent[j]] > trifle {
			moles[j] = x[reagent[j]] / largest[j] / 1e6
		}
	}
	return moles, nil
}

// jars returns the largest number in the column of each reagent, by which it is
// scaled; how much of it there is in that scale, zero if there is no limit and
// negative if there is as good as none; and the row that holds it to that.
func (p *program) jars(job Job, targets []Target, mass units.Mass) (largest, limit []float64, bound []int) {
	largest, limit = make([]float64, len(job.Shelf)), make([]float64, len(job.Shelf))
	bound = make([]int, len(job.Shelf))
	for j, jar := range job.Shelf {
		for _, t := range targets {
			largest[j] = max(largest[j], math.Abs(t.Of.perMole(jar.Reagent.Compound))/scaleOf(t))
		}
		if !(jar.Left > 0 && largest[j] > 0) {
			continue
		}
		moles := jar.Reagent.Compound.Moles(jar.Left * units.Mass(jar.Reagent.Purity.Value()))
		limit[j] = moles / mass.Kilograms() * 1e6 * largest[j]
		if limit[j] < trifle {
			limit[j] = -1
			continue
		}
		bound[j] = p.bound(1) // x over its limit, so that the nudge is above the last bits
	}
	return largest, limit, bound
}

// priced returns what the reagents cost and weigh.
func priced(job Job, reagent []int, largest []float64) (cost, grams []term) {
	for j, jar := range job.Shelf {
		if reagent[j] < 0 {
			continue
		}
		weigh := float64(jar.Reagent.Compound.MolarMass()) / jar.Reagent.Purity.Value() / largest[j]
		grams = append(grams, term{reagent[j], weigh})
		if jar.Price.Amount > 0 {
			cost = append(cost, term{reagent[j], weigh * jar.Price.Amount / jar.Package.Grams()})
		}
	}
	return cost, grams
}

// tolerant tells whether the tolerance of a target can be told from a nudge.
func tolerant(t Target) bool { return float64(t.Tolerance) > 10*nudge*scaleOf(t) }

// trifle of a target is what nobody weighs: what the nudges leave.
const trifle = 1e-7

// term is one addend of an objective.
type term struct {
	column int
	factor float64
}

// lexicographic minimises one objective after the other, each on the optimal
// face of those before. The face is where every variable that has a price at
// the optimum, a reduced cost above zero, stays out of the mix: so such columns
// are struck, and the basis stays feasible.
func (p *program) lexicographic(objectives ...[]term) ([]float64, error) {
	kept := make([]int, len(p.columns)) // columns still in play
	for j := range kept {
		kept[j] = j
	}
	basis := p.basis
	x := make([]float64, len(p.columns))
	for _, objective := range objectives {
		if len(objective) == 0 {
			continue
		}
		largest := 0.
		for _, t := range objective {
			largest = max(largest, t.factor)
		}
		full := make([]float64, len(p.columns))
		for _, t := range objective {
			full[t.column] = t.factor / largest
		}
		c := make([]float64, len(kept))
		a := mat.NewDense(len(p.b), len(kept), nil)
		place := make(map[int]int, len(kept))
		for k, j := range kept {
			c[k] = full[j]
			a.SetCol(k, p.columns[j])
			place[j] = k
		}
		start := make([]int, len(basis))
		for i, j := range basis {
			start[i] = place[j]
		}
		got, err := simplex(c, a, p.b, start)
		if err != nil {
			return nil, err
		}
		clear(x)
		basis = basis[:0:0]
		for k, v := range got {
			x[kept[k]] = max(v, 0)
			if v > 0 {
				basis = append(basis, kept[k])
			}
		}
		if len(basis) != len(p.b) {
			return nil, units.ErrNoConvergence // not a vertex in spite of the nudges
		}
		prices, err := p.reducedCosts(full, basis)
		if err != nil {
			return nil, err
		}
		var face []int
		for _, j := range kept {
			if prices[j] < 1e-9 {
				face = append(face, j)
			}
		}
		kept = face
		if len(kept) == len(basis) {
			break // a single vertex
		}
	}
	return x, nil
}

// reducedCosts returns c - Aᵀ y with Bᵀ y = c_B; exactly zero in the basis.
func (p *program) reducedCosts(c []float64, basis []int) ([]float64, error) {
	b := mat.NewDense(len(p.b), len(basis), nil)
	cb := make([]float64, len(basis))
	for k, j := range basis {
		b.SetCol(k, p.columns[j])
		cb[k] = c[j]
	}
	var y mat.VecDense
	if err := y.SolveVec(b.T(), mat.NewVecDense(len(cb), cb)); err != nil {
		return nil, units.ErrNoConvergence
	}
	r := make([]float64, len(p.columns))
	for j, col := range p.columns {
		r[j] = c[j] - mat.Dot(&y, mat.NewVecDense(len(col), col))
	}
	for _, j := range basis {
		r[j] = 0
	}
	return r, nil
}

// simplex calls the solver of gonum, which panics on a basis that it takes for
// infeasible and reports trouble in words of linear algebra.
func simplex(c []float64, a *mat.Dense, b []float64, basis []int) (x []float64, err error) {
	defer func() {
		if recover() != nil {
			x, err = nil, units.ErrNoConvergence
		}
	}()
	_, x, err = lp.Simplex(c, a, b, 1e-10, basis)
	if err != nil {
		return nil, units.ErrNoConvergence
	}
	return x, nil
}
