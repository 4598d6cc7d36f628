package pitzer

import (
	"math"
	"slices"
)

// system is a closed amount of matter at a temperature: solution and solids, on the way to
// equilibrium.
//
// The unknowns are ln of the molalities, ln of the mass of water, and of each solid its
// moles and its slack, -ln of the saturation, both above zero on the way. An interior point
// method lets the product of the two sink, all solids at once, and needs no guess which of
// them will lie there in the end; Newton's method then makes the balances exact for those
// that do.
type system struct {
	model
	state
	h        matrix
	perKg    float64               // mol of water in a kilogram, for the balance of water
	kg       float64               // mass of water
	n        [len(counted)]float64 // mol of each
	acid     float64               // mol of hydrogen ions that the balance of charges leaves
	water    float64               // mol of water
	list     []Species             // those that there can be
	solids   []heap                // those that may lie there
	balances []conserved
	rows     [len(counted) + 2]conserved // of balances
	storage  [speciesEnd]Species         // of list
	heaps    [solidEnd]heap              // of solids
	a        [unknowns][unknowns]float64
	f        [unknowns]float64
	lnA      [speciesEnd]float64 // ln a_i
	by       matrix              // ∂ ln a_i/∂ ln m_j
	lnW      [speciesEnd]float64
	rounds   int
	bold     float64 // longest step in ln
}

// conserved is a balance: of a counted species, of hydrogen, or for speciesEnd of water.
type conserved struct {
	of    Species
	total float64             // mol
	in    [speciesEnd]float64 // one of each species
}

// heap is a solid on the ground.
type heap struct {
	solid   Solid
	lnK     float64
	n       float64             // mol
	slack   float64             // -ln of the saturation, as the method thinks it
	most    float64             // mol that the matter would make
	awake   bool                // while it may still come
	present bool                // at the end
	over    float64             // ln of the saturation, as it is
	by      [speciesEnd]float64 // ∂ ln of the saturation/∂ ln m
}

// unknowns is more than the species, the water and the solids that can lie together.
const unknowns = int(speciesEnd) + 1 + len(counted) + 2

// The way down, of the product of amount and slack.
const (
	sinks     = 0.1  // in one step
	sunk      = 1e-9 // enough
	mostSteps = 300
	mostTurns = 40 // of solids that come and go at the end
)

// start takes so much matter, with the solids that may fall out.
func (y *system) start(t totals, acid, water float64, allowed []Solid) bool {
	y.n, y.acid, y.water = t.n, acid, water
	y.bold = boldest
	y.kg = water / y.perKg
	strong := 0.
	for i, s := range counted {
		c := speciesTable[s].charge
		strong += t.n[i] * math.Max(c*c, 0.5) / 2
	}
	share := math.Min(1, 2*y.kg/strong) // what may be dissolved at first: ionic strength 2
	first := t
	for i := range first.n {
		first.n[i] *= share / y.kg
	}
	first.other *= share / y.kg
	if !y.speciate(&first, &y.state) {
		return false
	}
	y.list = y.storage[:0]
	for s := range speciesEnd {
		if y.m[s] > 0 {
			y.list = append(y.list, s)
		}
	}
	y.conserve()
	y.solids = y.heaps[:0]
	for _, s := range allowed {
		y.add(s, 1-share)
	}
	for i := range y.solids {
		y.solids[i].n /= float64(len(y.solids))
	}
	return true
}

// conserve sets up the balances.
func (y *system) conserve() {
	y.balances = y.rows[:0]
	for c, s := range counted {
		if y.n[c] > 0 {
			y.balances = append(y.balances, conserved{of: s, total: y.n[c]})
		}
	}
	y.balances = append(y.balances, conserved{of: Hydrogen, total: y.acid}, conserved{of: speciesEnd, total: y.water})
	for i := range y.balances {
		b := &y.balances[i]
		for _, s := range y.list {
			b.in[s] = in(s, b.of)
		}
	}
}

// add takes a solid into account whose matter there is.
func (y *system) add(s Solid, share float64) {
	r := &solids[s]
	most := math.Inf(1)
	for _, x := range r.of {
		if x.n != 0 {
			most = math.Min(most, y.moles(x.of)/x.n)
		}
	}
	known := slices.ContainsFunc(y.solids, func(h heap) bool { return h.solid == s })
	if known || !(most > 0) {
		return
	}
	h := heap{solid: s, lnK: r.lnK(&y.warmth, &y.k), most: most, awake: true}
	h.slack = math.Max(h.lnK-y.product(r), 0.5)
	h.n = most * math.Max(share, 0.01) / (1 + h.slack)
	y.solids = append(y.solids, h)
}

// moles of a counted species in all.
func (y *system) moles(s Species) float64 {
	for i, x := range counted {
		if x == s {
			return y.n[i]
		}
	}
	return 0
}

// settle brings the system to equilibrium. It ends after a bounded number of steps; the
// residual tells how near it came.
func (y *system) settle() bool {
	mu := y.gap()
	for y.rounds = 0; y.rounds < mostSteps; y.rounds++ {
		y.derivatives()
		y.equations(mu, false)
		step, ok := y.solve(len(y.list) + 1)
		if !ok {
			return false
		}
		length := y.advance(step, mu)
		if y.kg*y.perKg < leastWater*y.water {
			return false
		}
		if length > 0.5 {
			if mu < sunk {
				break
			}
			mu = math.Max(mu*sinks, sunk/2)
			y.doze(mu)
		}
	}
	for i := range y.solids {
		h := &y.solids[i]
		h.present = h.awake && h.n/h.most > h.slack
		h.awake = h.present
	}
	return y.polish()
}

// again tries a second time, with shorter steps.
func (y *system) again(t totals, acid, water float64, allowed []Solid) bool {
	if !y.start(t, acid, water, allowed) {
		return false
	}
	y.bold = boldest / 8
	return y.settle()
}

// gap is the mean product of amount and slack.
func (y *system) gap() float64 {
	sum := 0.
	for i := range y.solids {
		h := &y.solids[i]
		sum += h.n * h.slack / h.most
	}
	return sum / math.Max(1, float64(len(y.solids)))
}

// doze forgets solids that are far from saturation, until the end.
func (y *system) doze(mu float64) {
	const far = 2.
	if mu > 1e-3 {
		return
	}
	for i := range y.solids {
		if h := &y.solids[i]; h.awake && h.slack > far && h.n < 0.01*h.most {
			h.awake, h.n = false, 0
		}
	}
}

// leastWater is the share of all water that has to stay liquid.
const leastWater = 1e-3

// derivatives sets the activities and their derivatives by ln m.
func (y *system) derivatives() {
	y.activities(&y.state)
	y.curvature(&y.state, &y.h)
	for _, i := range y.list {
		for _, j := range y.list {
			y.by[i][j] = y.h[i][j] * y.m[j]
		}
		y.by[i][i]++
		y.lnA[i] = math.Log(y.m[i]) + y.gamma[i]
	}
	for _, j := range y.list { // by Gibbs and Duhem
		var sum float64
		for _, i := range y.list {
			sum += y.m[i] * y.by[i][j]
		}
		y.lnW[j] = -sum / molesOfWater
	}
	for i := range y.solids {
		if h := &y.solids[i]; h.awake {
			y.saturation(h)
		}
	}
}

// saturation sets that of a solid and its derivatives.
func (y *system) saturation(h *heap) {
	r := &solids[h.solid]
	h.over = r.water*y.state.water - h.lnK
	for _, j := range y.list {
		h.by[j] = r.water * y.lnW[j]
	}
	y.multiply(h, Hydrogen, r.hydrogen)
	for _, x := range r.of {
		y.multiply(h, x.of, x.n)
	}
}

// multiply adds n times the activity of a species to the saturation.
func (y *system) multiply(h *heap, s Species, n float64) {
	if n == 0 {
		return
	}
	h.over += n * y.lnA[s]
	by := &y.by[s]
	for _, j := range y.list {
		h.by[j] += n * by[j]
	}
}

// equations sets the linear equations of one step: the balances of what is counted, of
// hydrogen and of water, then mass action. With exact, the present solids are unknowns of
// their own and their saturation is an equation; otherwise they are eliminated.
func (y *system) equations(mu float64, exact bool) {
	size := len(y.list) + 1
	for i := range size {
		clear(y.a[i][:])
		y.f[i] = 0
	}
	row := 0
	for i := range y.balances {
		y.balanceOf(row, &y.balances[i], mu, exact)
		row++
	}
	for r := range reactions {
		if y.m[reactions[r].gives] > 0 {
			y.action(row, r)
			row++
		}
	}
}

// in is how much of a counted species, of hydrogen, or for speciesEnd of water there is in
// one of a species.
func in(s, what Species) float64 {
	if s == what {
		return 1
	}
	for r := range reactions {
		x := &reactions[r]
		if x.gives != s {
			continue
		}
		switch what {
		case Hydrogen:
			return x.hydrogen
		case speciesEnd:
			return x.water
		}
		return x.number(what)
	}
	return 0
}

// inSolid is the same for a solid.
func inSolid(r *solidRow, what Species) float64 {
	switch what {
	case Hydrogen:
		return r.hydrogen
	case speciesEnd:
		return r.water
	}
	for _, x := range r.of {
		if x.of == what && x.n != 0 {
			return x.n
		}
	}
	return 0
}

// balanceOf sets the equation of what is conserved, divided by its amount.
func (y *system) balanceOf(row int, b *conserved, mu float64, exact bool) {
	size := len(y.list) + 1
	a, rest, scale := &y.a[row], b.total, 0.
	var inWater float64
	if b.of == speciesEnd {
		inWater = y.perKg
	}
	for j, s := range y.list {
		if v := b.in[s]; v != 0 {
			a[j] = v * y.m[s] * y.kg
			inWater += v * y.m[s]
			scale += math.Abs(a[j])
		}
	}
	a[size-1] = inWater * y.kg
	scale = math.Max(scale, math.Max(math.Abs(a[size-1]), math.Abs(b.total)))
	rest -= inWater * y.kg
	column := size
	for i := range y.solids {
		h := &y.solids[i]
		v := inSolid(&solids[h.solid], b.of)
		switch {
		case exact && !h.present || !h.awake:
			continue
		case exact:
			a[column] = v
			rest -= v * h.n
			column++
		case v != 0:
			// n becomes μ/s - (n/s) δs, δs = -(over + s) - J δ.
			rest -= v * (mu*h.most/h.slack + h.n/h.slack*(h.over+h.slack))
			for j, s := range y.list {
				a[j] += v * h.n / h.slack * h.by[s]
			}
		}
	}
	for j := range a {
		a[j] /= scale
	}
	y.f[row] = rest / scale
}

// action sets the equation of mass action of a reaction.
func (y *system) action(row, r int) {
	x := &reactions[r]
	a := &y.a[row]
	rest := y.k[r] + x.water*y.state.water + x.hydrogen*y.lnA[Hydrogen] - y.lnA[x.gives]
	for j, s := range y.list {
		a[j] = y.by[x.gives][s] - x.water*y.lnW[s] - x.hydrogen*y.by[Hydrogen][s]
	}
	for _, of := range x.of {
		if of.n == 0 {
			break
		}
		rest += of.n * y.lnA[of.of]
		for j, s := range y.list {
			a[j] -= of.n * y.by[of.of][s]
		}
	}
	y.f[row] = rest
}

// solve solves the equations by Gauss's method with pivots.
func (y *system) solve(size int) (*[unknowns]float64, bool) {
	for p := range size {
		best := p
		for q := p + 1; q < size; q++ {
			if math.Abs(y.a[q][p]) > math.Abs(y.a[best][p]) {
				best = q
			}
		}
		if best != p {
			y.a[p], y.a[best] = y.a[best], y.a[p]
			y.f[p], y.f[best] = y.f[best], y.f[p]
		}
		pivot := y.a[p][p]
		if !(math.Abs(pivot) > 1e-300) {
			return nil, false
		}
		for q := p + 1; q < size; q++ {
			ratio := y.a[q][p] / pivot
			if ratio == 0 {
				continue
			}
			to, from := y.a[q][p:size], y.a[p][p:size]
			for c := range to {
				to[c] -= ratio * from[c]
			}
			y.f[q] -= ratio * y.f[p]
		}
	}
	for p := size - 1; p >= 0; p-- {
		sum := y.f[p]
		for c := p + 1; c < size; c++ {
			sum -= y.a[p][c] * y.f[c]
		}
		y.f[p] = sum / y.a[p][p]
		if !(math.Abs(y.f[p]) <= math.MaxFloat64) {
			return nil, false
		}
	}
	return &y.f, true
}

// boldest is the longest step in ln of a molality or of the water at the first attempt, and
// toZero how much of the way to nothing an amount or a slack may go.
const (
	boldest = 2.
	toZero  = 0.95
)

// advance goes a step as far as it may, and returns which part of it that was.
func (y *system) advance(step *[unknowns]float64, mu float64) float64 {
	part := 1.
	for i := range len(y.list) + 1 {
		if d := math.Abs(step[i]); d*part > y.bold {
			part = y.bold / d
		}
	}
	var dn, ds [solidEnd]float64
	for i := range y.solids {
		h := &y.solids[i]
		if !h.awake {
			continue
		}
		d := -(h.over + h.slack)
		for j, s := range y.list {
			d -= h.by[s] * step[j]
		}
		ds[i] = d
		dn[i] = mu*h.most/h.slack - h.n - h.n/h.slack*d
		if d < 0 {
			part = math.Min(part, toZero*h.slack/-d)
		}
		if dn[i] < 0 {
			part = math.Min(part, toZero*h.n/-dn[i])
		}
	}
	y.move(step, part)
	for i := range y.solids {
		y.solids[i].n += part * dn[i]
		y.solids[i].slack += part * ds[i]
	}
	return part
}

func (y *system) move(step *[unknowns]float64, part float64) {
	for j, s := range y.list {
		y.m[s] *= math.Exp(part * step[j])
	}
	y.kg *= math.Exp(part * step[len(y.list)])
}

// polish makes the equations exact for the solids that are present, and corrects which are:
// one of less than nothing goes, the most oversaturated of the others comes.
func (y *system) polish() bool {
	for range mostTurns {
		if !y.newton() {
			return false
		}
		if !y.exchange() {
			return true
		}
	}
	return false
}

// nothing is the saturation, as ln, above which a solid comes, and the share of all that
// could be of it, below zero, at which it goes.
const nothing = 1e-10

// exchange corrects which solids are present and tells whether it had to.
func (y *system) exchange() bool {
	gone, come := -1, -1
	least, most := -nothing, nothing
	for i := range y.solids {
		h := &y.solids[i]
		switch {
		case h.present && h.n/h.most < least:
			gone, least = i, h.n/h.most
		case !h.present:
			if h.over = y.product(&solids[h.solid]) - h.lnK; h.over > most {
				come, most = i, h.over
			}
		}
	}
	switch {
	case gone >= 0:
		y.solids[gone].present, y.solids[gone].awake = false, false
		y.solids[gone].n = 0
	case come >= 0:
		y.solids[come].present, y.solids[come].awake = true, true
		y.solids[come].n = 0
	}
	return gone >= 0 || come >= 0
}

// newton solves the equations for the present solids.
func (y *system) newton() bool {
	for i := range y.solids {
		if !y.solids[i].present {
			y.solids[i].n = 0
		}
	}
	last := math.Inf(1)
	for range mostSteps {
		y.derivatives()
		y.equations(0, true)
		size := len(y.list) + 1
		for i := range y.solids {
			h := &y.solids[i]
			if !h.present {
				continue
			}
			if size == unknowns {
				return false
			}
			clear(y.a[size][:])
			for j, s := range y.list {
				y.a[size][j] = h.by[s]
			}
			y.f[size] = -h.over
			size++
		}
		step, ok := y.solve(size)
		if !ok {
			return false
		}
		largest := 0.
		for _, d := range step[:len(y.list)+1] {
			largest = math.Max(largest, math.Abs(d))
		}
		part := math.Min(1, y.bold/largest)
		y.move(step, part)
		column := len(y.list) + 1
		for i := range y.solids {
			if h := &y.solids[i]; h.present {
				h.n += part * step[column]
				column++
			}
		}
		if largest < 1e-11 || largest < 1e-7 && largest > last/2 { // the last bits
			y.derivatives()
			return true
		}
		last = largest
	}
	return false
}

// residual is how far from equilibrium the system is: the largest of the balances, each
// as a share of its amount, of mass action and of the saturation of what is present or
// above it, as ln.
func (y *system) residual() float64 {
	y.derivatives()
	y.equations(0, true)
	worst := 0.
	for i := range len(y.list) + 1 {
		worst = math.Max(worst, math.Abs(y.f[i]))
	}
	for i := range y.solids {
		h := &y.solids[i]
		if h.present {
			worst = math.Max(worst, math.Abs(h.over))
		} else {
			worst = math.Max(worst, y.product(&solids[h.solid])-h.lnK)
		}
	}
	return worst
}
