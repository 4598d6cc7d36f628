package pitzer

import (
	"iter"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/units"
)

// Stock is a solution to be kept in a bottle: salts in a kilogram of water, and the coldest
// and the warmest that it gets.
type Stock struct {
	Salts      []Addition // in a kilogram of water
	Cold, Warm units.Temperature

	// Measured are solubilities in pure water that are to stand for the constants of their
	// solids, between the coldest and the warmest point of each: the model then says what other
	// salts do to them, also where it has no sound constant.
	Measured []Solubility
}

// Solubility is how much of a salt is dissolved in a kilogram of pure water over a solid.
type Solubility struct {
	Solid Solid
	Salt  Addition
	At    units.Temperature
}

// Limit is how strong a stock can be.
type Limit struct {
	Salts  []Addition        // in a kilogram of water, at saturation
	By     Solid             // that falls out first
	At     units.Temperature // where it does
	Within units.Fraction    // largest known difference of the solid's solubility from measured ones; NaN: not compared
	// Open: no solid of the table falls out up to here, where comparison with measurements
	// or the model, at an ionic strength of 18, ends. The hydrates of calcium chloride, the
	// bromides and others are not in the table: the stock is clear as far as it goes, and
	// may be stronger.
	Open bool
}

// strongest is the ionic strength up to which the model has been run against its source.
const strongest = 18.

// temperatures at which a stock is looked at, from the coldest to the warmest.
const stations = 5

// Temperatures returns the temperatures at which the stock is looked at, five from the coldest to
// the warmest, or one.
func (s Stock) Temperatures() iter.Seq[units.Temperature] {
	return func(yield func(units.Temperature) bool) {
		n := stations
		if s.Cold == s.Warm {
			n = 1
		}
		for i := range n {
			share := float64(i) / float64(max(n-1, 1))
			d := s.Cold.Celsius() + float64((s.Warm.Celsius()-s.Cold.Celsius())*share)
			if !yield(units.Celsius(d)) {
				return
			}
		}
	}
}

// Strongest returns the strongest stock of the same proportions that is clear from the
// coldest to the warmest temperature, by equilibrium with all solids that form and have a
// sound constant.
//
//	source   [PHREEQC]
//	range    0 to 50 °C; five temperatures are looked at
//	errors   a field: *units.InputError, *units.RangeError; a model that finds no solution:
//	         units.ErrNoConvergence
//
// Where a solid would limit it whose constant is not sound at these temperatures, such as
// nahcolite, natron, borax or boric acid away from 25 °C, and that is not among the Measured,
// it is refused.
func (s Stock) Strongest() (Limit, error) {
	c, err := s.clear()
	if err != nil {
		return Limit{}, err
	}
	if c.n == (totals{}) {
		return Limit{}, input.Bad("salts", "nothing", "an amount of salt")
	}
	lo, hi, ok := c.bracket()
	if !ok {
		return Limit{}, units.ErrNoConvergence
	}
	l := Limit{Open: !(c.index(hi) > 0), Within: units.Share(math.NaN())}
	if !l.Open {
		x, ok := solve.Brent(func(x float64) float64 { return c.index(math.Exp(x)) }, math.Log(lo), math.Log(hi), 1e-9)
		if !ok {
			return Limit{}, units.ErrNoConvergence
		}
		hi = math.Exp(x)
		c.index(hi)
		l.By, l.At, l.Within = c.by, c.at, c.by.Deviation(c.at)
	}
	l.Salts = scaled(s.Salts, hi)
	for _, t := range c.degrees[:c.looks] {
		if c.refused == 0 {
			break
		}
		if err := c.refused.usable(t); err != nil {
			return Limit{}, err
		}
	}
	return l, nil
}

// bracket returns a strength at which nothing falls out, and a higher one at which
// something does or where the range ends.
func (c *clarity) bracket() (lo, hi float64, ok bool) {
	lo = 0.01 / c.strength()
	for c.index(lo) > 0 {
		if lo *= 0.1; lo < 1e-12 {
			return 0, 0, false
		}
	}
	end, growth := c.end(), 0.5
	for lo < end && growth > 0.01 && c.refused == 0 {
		hi = math.Min((1+growth)*lo, end)
		switch index := c.index(hi); {
		case math.IsNaN(index): // too far beyond saturation
			growth /= 2
		case index > 0:
			return lo, hi, true
		default:
			lo = hi
		}
	}
	return lo, lo, true
}

// end is the strength at which the range ends.
func (c *clarity) end() float64 {
	i := c.strength()
	end := strongest / math.Max(i-c.water/molesOfWater*strongest, i*1e-3)
	for j := range compared {
		x := &compared[j]
		salt := saltOf(x.cation, x.anion, content(&c.n, x.cation), content(&c.n, x.anion))
		if to := math.Max(x.to, c.reach[j]); salt > 0 {
			end = math.Min(end, to/math.Max(salt-c.water/molesOfWater*to, salt*1e-3))
		}
	}
	return end
}

// content is mol of a counted species.
func content(n *totals, s Species) float64 {
	for i, x := range counted {
		if x == s {
			return n.n[i]
		}
	}
	return 0
}

func scaled(salts []Addition, x float64) []Addition {
	list := make([]Addition, len(salts))
	for i, a := range salts {
		list[i] = Addition{a.Formula, a.Mass * units.Mass(x)}
	}
	return list
}

// Verdict is whether a stock, or two salts of it in one bottle, stays clear.
type Verdict struct {
	Salts []string     // formulas
	Worst Solid        // that is nearest to falling out; none if nothing can
	Index units.Scalar // its saturation index: above zero it falls out
	At    units.Temperature
	// Unjudged is a solid that may fall out and whose constant is not sound at these
	// temperatures; none if there is no such.
	Unjudged Solid
}

// Clear tells whether nothing can fall out, as far as can be judged.
func (v Verdict) Clear() bool { return !(v.Index > 0) && v.Unjudged == 0 }

// Judge looks at the whole stock at the strength that it has, then at each two of its salts
// as if they shared a bottle.
//
//	errors   as [Stock.Strongest]
func (s Stock) Judge() (whole Verdict, pairs []Verdict, err error) {
	if whole, err = s.judge(); err != nil {
		return Verdict{}, nil, err
	}
	for i, a := range s.Salts {
		for _, b := range s.Salts[i+1:] {
			pair := s
			pair.Salts = []Addition{a, b}
			v, err := pair.judge()
			if err != nil {
				return Verdict{}, nil, err
			}
			pairs = append(pairs, v)
		}
	}
	return whole, pairs, nil
}

func (s Stock) judge() (Verdict, error) {
	c, err := s.clear()
	if err != nil {
		return Verdict{}, err
	}
	v := Verdict{Index: units.Scalar(c.index(1))}
	if math.IsNaN(float64(v.Index)) {
		return Verdict{}, units.ErrNoConvergence
	}
	v.Worst, v.At = c.by, c.at
	v.Unjudged = c.refused
	for _, a := range s.Salts {
		v.Salts = append(v.Salts, a.Formula)
	}
	return v, nil
}

// clarity finds out how far a solution is from the first solid, at several temperatures.
type clarity struct {
	n       totals
	water   float64 // mol that the salts bring into a kilogram of water
	models  [stations]model
	degrees [stations]units.Temperature
	solids  [stations][]Solid
	lnK     [stations][solidEnd]float64 // by what was measured; zero: not measured
	reach   [len(compared)]float64      // the most of these salts in a solution that was measured, mol/kg
	state   state
	by      Solid // of the last index
	at      units.Temperature
	looks   int   // so many temperatures
	refused Solid // one without a sound constant that is near saturation by the one there is
}

func (s Stock) clear() (*clarity, error) {
	err := input.Join(input.As("cold", checkTemperature(s.Cold)), input.As("warm", checkTemperature(s.Warm)))
	if err == nil && s.Warm.Celsius() < s.Cold.Celsius() {
		err = input.Bad("warm", s.Warm.String(), "a temperature not below the coldest")
	}
	b := Batch{Water: units.Kilogram, Add: s.Salts, Temperature: s.Cold}
	if err = input.Join(err, b.additions()); err != nil {
		return nil, err
	}
	c := new(clarity)
	i := 0
	for t := range s.Temperatures() {
		c.degrees[i] = t
		c.models[i].set(c.degrees[i].Kelvin())
		c.solids[i] = usual(c.degrees[i])
		i++
	}
	c.looks = i
	if c.n, _, c.water, err = b.matter(&c.models[0]); err != nil {
		return nil, err
	}
	b.Add = nil
	_, _, pure, err := b.matter(&c.models[0])
	c.water -= pure
	if err == nil {
		err = c.measure(s.Measured)
	}
	return c, err
}

// measure takes the constants of solids from their measured solubility, ln K a straight line in
// 1/T between two points.
func (c *clarity) measure(points []Solubility) error {
	ln := make([]float64, len(points))
	for i, p := range points {
		var err error
		if ln[i], err = c.read(&p); err != nil {
			return input.In(input.At("measured", i), err)
		}
	}
	for i, at := range c.degrees[:c.looks] {
		for _, p := range points {
			below, above := -1, -1
			for k, q := range points {
				if q.Solid != p.Solid {
					continue
				}
				if t := q.At.Celsius(); t <= at.Celsius() && (below < 0 || t > points[below].At.Celsius()) {
					below = k
				}
				if t := q.At.Celsius(); t >= at.Celsius() && (above < 0 || t < points[above].At.Celsius()) {
					above = k
				}
			}
			if below < 0 || above < 0 || c.lnK[i][p.Solid] != 0 {
				continue
			}
			x, y := 1/points[below].At.Kelvin(), 1/points[above].At.Kelvin()
			if c.lnK[i][p.Solid] = ln[below]; x != y {
				c.lnK[i][p.Solid] += (ln[above] - ln[below]) * (1/at.Kelvin() - x) / (y - x)
			}
			if !p.Solid.judged(at) {
				c.solids[i] = append(c.solids[i], p.Solid)
			}
		}
	}
	return nil
}

// read returns ln of the product of activities over the solid, and notes how far it reaches.
func (c *clarity) read(p *Solubility) (float64, error) {
	b := Batch{Water: units.Kilogram, Add: []Addition{p.Salt}, Temperature: p.At}
	err := input.Join(input.As("at", checkTemperature(p.At)), b.additions())
	if p.Solid == 0 || p.Solid >= solidEnd {
		err = input.Join(err, input.Bad("solid", input.Number(float64(p.Solid)), "one of the solids of this package"))
	}
	if err != nil {
		return math.NaN(), err
	}
	var k model
	k.set(p.At.Kelvin())
	n, _, water, err := b.matter(&k)
	if err != nil {
		return math.NaN(), err
	}
	kg := water / molesOfWater
	for i := range n.n {
		n.n[i] /= kg
	}
	var s state
	if !(kg > 0.01) || !k.speciate(&n, &s) {
		return math.NaN(), units.ErrNoConvergence
	}
	ln := s.product(&solids[p.Solid])
	if math.IsInf(ln, 0) || math.IsNaN(ln) {
		return math.NaN(), input.Bad("salt", input.Quoted(p.Salt.Formula), "the salt of "+p.Solid.String())
	}
	for j := range compared {
		x := &compared[j]
		c.reach[j] = math.Max(c.reach[j], saltOf(x.cation, x.anion, content(&n, x.cation), content(&n, x.anion)))
	}
	return ln, nil
}

// strength is about the ionic strength of the salts in a kilogram of water.
func (c *clarity) strength() float64 {
	sum := 0.
	for i, s := range counted {
		z := speciesTable[s].charge
		sum += c.n.n[i] * math.Max(z*z, 0.1) / 2
	}
	return sum
}

// index is the largest saturation index of x times the salts in a kilogram of water.
func (c *clarity) index(x float64) float64 {
	n := c.n
	kg := math.Max(1+c.water*x/molesOfWater, 0.01)
	for i := range n.n {
		n.n[i] *= x / kg
	}
	n.other *= x / kg
	worst := math.Inf(-1)
	c.by, c.at, c.refused = 0, c.degrees[0], 0
	for i := range c.models[:c.looks] {
		k := &c.models[i]
		if !k.speciate(&n, &c.state) {
			return math.NaN()
		}
		for _, s := range c.solids[i] {
			r := &solids[s]
			lnK := c.lnK[i][s]
			if lnK == 0 {
				lnK = r.lnK(&k.warmth, &k.k)
			}
			if index := (c.state.product(r) - lnK) / ln10; index > worst {
				worst, c.by, c.at = index, s, c.degrees[i]
			}
		}
		c.refuse(i)
	}
	return worst
}

// nearly is a saturation index at which a solid whose constant is not sound may be there:
// half saturated by the constant that there is.
const nearly = -0.3

// refuse notes a solid of which the answer would depend and whose constant is not sound.
func (c *clarity) refuse(station int) {
	k, t := &c.models[station], c.degrees[station]
	for s := Halite; s < solidEnd; s++ {
		r := &solids[s]
		if r.grade != only25 && s != Portlandite {
			continue
		}
		if !s.judged(t) && c.lnK[station][s] == 0 && (c.state.product(r)-r.lnK(&k.warmth, &k.k))/ln10 > nearly {
			c.refused = s
			return
		}
	}
}
