package ions

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// conditions is the most of an adjustment: the charge and every kind of bulk
// measurement.
const conditions = 1 + int(byMass) + 1

// unknowns is the number of contents and the alkalinity.
const unknowns = int(count) + 1

// adjust moves the unknowns by least squares until the charges balance and the
// properties fit within their uncertainties. The charge is linear in the
// unknowns, the properties nearly so: a few steps of Gauss and Newton do. In the
// first of them what was not reported follows the chloride.
func (c *closing) adjust() error {
	for step := 0; step < 16 && !(step == 0 && c.fits()); step++ {
		a, r, v, n, err := c.conditions()
		if err != nil {
			return err
		}
		// (A U Aᵀ + V) λ = r, d = U Aᵀ λ
		var m [conditions][conditions + 1]float64
		for i := 0; i < n; i++ {
			for j := 0; j < n; j++ {
				for k := range c.u {
					m[i][j] += a[i][k] * c.u[k] * c.u[k] * a[j][k]
				}
			}
			m[i][i] += v[i]
			m[i][n] = r[i]
		}
		lambda, ok := eliminate(&m, n)
		if !ok {
			return &UnclosedError{"the measurements do not determine it", c.imbalance(), ""}
		}
		var moved float64
		for k := range c.u {
			var d float64
			for i := 0; i < n; i++ {
				d += c.u[k] * c.u[k] * a[i][k] * lambda[i]
			}
			moved = math.Max(moved, math.Abs(c.move(k, d)))
		}
		c.balance()
		if err := c.check(); err != nil {
			return err
		}
		if step < 12 {
			moved = math.Max(moved, c.follow())
		}
		if moved < 1e-9 { // µmol/kg
			break
		}
	}
	c.balance()
	made, err := c.settle()
	if err != nil {
		return &UnclosedError{"the carbonate system has no solution: " + err.Error(), c.imbalance(), ""}
	}
	c.made = made
	return nil
}

// fits tells whether the unknowns meet everything as they are, as they do when no
// more was measured than it takes.
func (c *closing) fits() bool {
	if !(math.Abs(float64(c.imbalance())) < 1e-6) { // µmol/kg
		return false
	}
	c.balance()
	made, err := c.settle()
	if err != nil {
		return false
	}
	for i := range c.lines {
		if l := &c.lines[i]; l.kind == bulk && !(math.Abs(l.whole.of(&made, l.at)-l.value) < 1e-9) { // g/kg
			return false
		}
	}
	return c.check() == nil
}

// follow puts the start of what was not reported, and it too, in proportion to
// the chloride that has been found, and returns by how much.
func (c *closing) follow() float64 {
	if !c.reported[Chloride] || c.followed == c.total.content[Chloride] {
		return 0
	}
	found := *c
	found.proportion()
	c.followed = c.total.content[Chloride]
	var moved float64
	for _, x := range referenceFraction {
		if i := x.ion; i != Bicarbonate && found.u[i] != 0 && !c.reported[i] && i != Sodium {
			rise := found.total.content[i] - c.start.content[i]
			c.start.content[i] += rise
			c.total.content[i] += rise
			c.u[i] = found.u[i]
			moved = math.Max(moved, math.Abs(float64(rise)))
		}
	}
	if !c.hasTA {
		rise := found.alkalinity - c.startTA
		c.startTA += rise
		c.alkalinity += rise
		c.u[count] = found.u[count]
		moved = math.Max(moved, math.Abs(rise))
	}
	if !c.hasCarbon {
		c.total.content[Bicarbonate] = c.usualCarbon()
	}
	return moved
}

// move sets an unknown to so much beside its start and returns by how much that
// moved it.
func (c *closing) move(k int, d float64) float64 {
	if k == int(count) {
		before := c.alkalinity
		c.alkalinity = c.startTA + d
		if !c.hasCarbon { // carbon goes along with the alkalinity
			c.total.content[Bicarbonate] = c.usualCarbon()
		}
		return c.alkalinity - before
	}
	if c.u[k] == 0 {
		return 0
	}
	before := c.total.content[k]
	c.total.content[k] = c.start.content[k] + units.AmountPerKilogram(d)
	return float64(c.total.content[k] - before)
}

// balance gives the last bits of charge to sodium.
func (c *closing) balance() {
	for i := 0; i < 2; i++ {
		c.total.content[Sodium] -= c.imbalance()
	}
}

// check refuses contents that the adjustment made negative.
func (c *closing) check() error {
	for i, x := range c.total.content {
		if !(x >= 0) {
			q := units.AmountPerKilogram(c.q)
			if math.IsNaN(c.q) {
				q = c.imbalance()
			}
			return &UnclosedError{species[i].name + " would have to be negative", q, ""}
		}
	}
	return nil
}

// conditions returns what the unknowns have to meet, about the present ones:
// the rows of A, how far the start is from meeting them, and the variances.
func (c *closing) conditions() (a [conditions][unknowns]float64, r, v [conditions]float64, n int, err error) {
	for k := range a[0] {
		a[0][k] = coefficient(k)
	}
	n = 1
	r[0] = -float64(c.start.Alkalinity()) + c.startTA
	whole := false
	for _, l := range c.lines {
		whole = whole || l.kind == bulk
	}
	if !whole {
		return a, r, v, n, nil
	}
	b := c.balanced()
	made, err := b.settle()
	if err != nil {
		return a, r, v, n, &UnclosedError{"the carbonate system has no solution: " + err.Error(), c.imbalance(), ""}
	}
	for i := range c.lines {
		l := &c.lines[i]
		if l.kind != bulk {
			continue
		}
		got := l.whole.of(&made, l.at)
		if math.IsNaN(got) {
			return a, r, v, n, &UnclosedError{"no seawater up to salinity 60 has its " + l.Quantity, c.imbalance(), ""}
		}
		r[n] = l.value - got
		for k := range c.u {
			if c.u[k] == 0 {
				continue
			}
			a[n][k] = l.slope(&made, k)
			r[n] += a[n][k] * b.moved(k)
		}
		v[n] = l.variance(&made, got)
		n++
	}
	return a, r, v, n, nil
}

// balanced is the work with sodium put to where the charges balance.
func (c *closing) balanced() *closing {
	b := *c
	b.balance()
	return &b
}

// moved is how far an unknown is from its start.
func (c *closing) moved(k int) float64 {
	if k == int(count) {
		return c.alkalinity - c.startTA
	}
	return float64(c.total.content[k] - c.start.content[k])
}

// variance is that of a measured property and of the model together.
func (l *line) variance(made *Composition, got float64) float64 {
	u := l.u
	if p, ok := l.whole.property(); ok {
		u = math.Hypot(u, p.uncertainty(made, l.at, got, got-made.grams()))
	}
	return u * u
}

// slope is the change of a property with an unknown, in g/kg per µmol/kg.
func (l *line) slope(made *Composition, k int) float64 {
	ion := Ion(k)
	if k == int(count) {
		ion = Bicarbonate
	}
	h := math.Max(1, 1e-4*float64(made.content[ion]))
	up := made.Add(ion, units.AmountPerKilogram(h))
	return (l.whole.of(&up, l.at) - l.whole.of(made, l.at)) / h
}

// eliminate solves the linear equations by elimination with pivots. m holds the
// right hand side in column n.
func eliminate(m *[conditions][conditions + 1]float64, n int) (x [conditions]float64, ok bool) {
	for i := 0; i < n; i++ {
		pivot := i
		for j := i + 1; j < n; j++ {
			if math.Abs(m[j][i]) > math.Abs(m[pivot][i]) {
				pivot = j
			}
		}
		m[i], m[pivot] = m[pivot], m[i]
		if !(math.Abs(m[i][i]) > 0) {
			return x, false
		}
		for j := i + 1; j < n; j++ {
			f := m[j][i] / m[i][i]
			for k := i; k <= n; k++ {
				m[j][k] -= f * m[i][k]
			}
		}
	}
	for i := n - 1; i >= 0; i-- {
		sum := m[i][n]
		for k := i + 1; k < n; k++ {
			sum -= m[i][k] * x[k]
		}
		x[i] = sum / m[i][i]
	}
	return x, true
}

// closure writes the result.
func (c *closing) closure() Closure {
	out := Closure{
		Composition:          c.made,
		Temperature:          c.t,
		Imbalance:            units.AmountPerKilogram(c.q),
		ImbalanceUncertainty: units.AmountPerKilogram(c.uq),
	}
	largest := 3.0
	for i := range c.lines {
		l := &c.lines[i]
		f := Fit{Quantity: l.Quantity, Unit: "µmol/kg", Measured: l.value, Uncertainty: l.u}
		switch l.kind {
		case content:
			f.Closed = float64(c.total.content[l.ion])
		case alkalinity:
			f.Closed = c.alkalinity
		case carbon:
			f.Closed = float64(c.made.Carbon())
		case bulk:
			f.Unit = "g/kg"
			f.Closed = l.whole.of(&c.made, l.at)
			f.Uncertainty = math.Sqrt(l.variance(&c.made, f.Closed))
		}
		out.Fits = append(out.Fits, f)
		if off := math.Abs(f.Sigmas()); off > largest {
			largest, out.Suspect = off, l.Quantity
		}
	}
	// Least squares lays the blame on the largest contents, whatever is wrong. Where
	// the charges tell, the content that alone explains them is the better suspect; then what
	// the sea makes unlikely; and where the charges agree, the property that does not.
	var unlike string
	out.Doubts, unlike = c.doubts()
	guilty := ""
	if out.Unbalanced() {
		guilty = c.suspect()
	}
	if guilty == "" {
		guilty = unlike
	}
	if guilty == "" && !out.Unbalanced() {
		guilty = c.oddProperty(out.Fits)
	}
	if guilty != "" {
		out.Suspect = guilty
	}
	c.origins(&out)
	out.Assumed = c.assumed
	return out
}

// oddProperty names the property that fits worst, if it is off by more than 3
// standard uncertainties.
func (c *closing) oddProperty(fits []Fit) (name string) {
	largest := 3.0
	for i := range c.lines {
		if off := math.Abs(fits[i].Sigmas()); c.lines[i].kind == bulk && off > largest {
			name, largest = c.lines[i].Quantity, off
		}
	}
	return name
}

// origins says of every species where it comes from, and lists what was
// assumed.
func (c *closing) origins(out *Closure) {
	list := ""
	for i := Ion(0); i < count; i++ {
		if off := c.moved(int(i)) / c.u[i]; !c.reported[i] && c.u[i] > 0 && c.u[i] < freely && math.Abs(off) > 3 {
			c.assume(species[i].name + " was not reported and would have to be " +
				input.Fixed(100*float64(c.total.content[i]/c.start.content[i]), 0) + " % of what belongs to the " +
				"chloride: measure it, or doubt the rest")
		}
		switch {
		case c.reported[i]:
			out.Origins[i] = Measured
		case i == Sodium || i == Chloride:
			out.Origins[i] = Inferred
		case c.made.content[i] != 0:
			out.Origins[i] = Assumed
		}
		switch i {
		case Bicarbonate, Carbonate, CarbonDioxide, Hydroxide, Borate, BoricAcid:
			continue
		}
		if out.Origins[i] == Assumed {
			if list != "" {
				list += ", "
			}
			list += species[i].name
		}
	}
	if !c.reported[BoricAcid] {
		if list != "" {
			list += ", "
		}
		list += "boron"
	}
	carbonOrigin := Assumed
	if c.hasTA && (c.hasCarbon || c.ph != nil) {
		carbonOrigin = Measured
	}
	for _, i := range [...]Ion{Bicarbonate, Carbonate, CarbonDioxide, Hydroxide} {
		out.Origins[i] = carbonOrigin
	}
	out.Origins[Borate] = out.Origins[BoricAcid]
	if list != "" {
		c.assume(list + ": not reported, taken in proportion to chloride as in the sea")
	}
	if !c.hasTA {
		c.assume("alkalinity: not reported, taken in proportion to chloride as in the sea")
	}
	if !c.hasCarbon && c.ph == nil {
		c.assume("neither pH nor DIC is reported: carbon is taken in the sea's proportion to alkalinity")
	}
}
