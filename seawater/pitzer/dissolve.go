package pitzer

import (
	"cmp"
	"math"
	"slices"

	"example.org/wellmixed/internal/formula"
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Addition is so much of a compound, named by its formula: "CaCl2·2H2O", "NaHCO3", "HCl".
type Addition struct {
	Formula string
	Mass    units.Mass
}

// Batch is what is put together: compounds and water.
type Batch struct {
	Water       units.Mass // the water alone, without what is dissolved in it
	Present     Brine      // what is dissolved in it already
	Add         []Addition
	Temperature units.Temperature

	// Solids that may lie on the ground in the end. None named means all that have a sound
	// constant at the temperature and are known to form. Name some to leave out what takes
	// weeks to form, such as glauberite and polyhalite beside gypsum.
	Solids []Solid
}

// Mixture is what becomes of a Batch.
type Mixture struct {
	Solution Solution   // that stands over the solids
	Water    units.Mass // of the solution: hydrates give theirs, or take it
	Solids   []Deposit  // on the ground, the heaviest first

	// Solids that were not let fall out although their index is above zero: those whose
	// constants are not sound at the temperature, with what these say nevertheless, and those
	// that do not form in days or years.
	NotJudged []Saturated

	// Residual is how far from equilibrium the numbers are: the largest of all balances as a
	// share of its amount, and of mass action and saturation as natural logarithms.
	Residual float64
}

// Deposit is a solid on the ground.
type Deposit struct {
	Solid Solid
	Mass  units.Mass
	Added units.Mass // how much of it was put in as such: what is more than that fell out
}

// FellOut returns the mass that fell out of the solution, beyond what was put in.
func (d Deposit) FellOut() units.Mass { return max(0, d.Mass-d.Added) }

// Found returns the mass of a solid on the ground.
func (m *Mixture) Found(s Solid) units.Mass {
	for _, d := range m.Solids {
		if d.Solid == s {
			return d.Mass
		}
	}
	return 0
}

// Dissolve returns the equilibrium of compounds, water and pure solids, closed to the air:
// how much is dissolved, what stays undissolved and what falls out of the rest.
//
// It is the same whether salt is put into water or water onto salt, and in which order; on
// the way there the two differ, see [Batch.WaterOntoSalt]. How long it takes, whether a
// solid finds nuclei, and which form of calcium carbonate comes first, equilibrium does not
// say: calcite is taken because it is the least soluble, and in seawater it is aragonite
// that comes, if anything does.
//
//	source   [PHREEQC]; an interior point method, ended by Newton's
//	range    0 to 50 °C, ionic strength up to 20, see [Solution.Known]
//	outside  *units.RangeError
//	errors   a field, or water of which less than a thousandth would stay liquid:
//	         *units.InputError; no equilibrium found: units.ErrNoConvergence
//
// It ends after a bounded number of steps and says how near it came. It works in one block of
// 74 kB; [Solve] takes none.
func Dissolve(b Batch) (Mixture, error) {
	if err := b.check(); err != nil {
		return Mixture{}, err
	}
	y := new(system)
	y.set(b.Temperature.Kelvin())
	y.perKg = molesOfWater
	n, acid, water, err := b.matter(&y.model)
	if err != nil {
		return Mixture{}, err
	}
	allowed := b.Solids
	if len(allowed) == 0 {
		allowed = usual(b.Temperature)
	}
	if !y.start(n, acid, water, allowed) || !y.settle() && !y.again(n, acid, water, allowed) {
		if y.kg*y.perKg < leastWater*y.water {
			return Mixture{}, input.Bad("water", b.Water.String(), "more: the solids would take nearly all of it")
		}
		return Mixture{}, units.ErrNoConvergence
	}
	if err := y.inRange(); err != nil {
		return Mixture{}, err
	}
	return y.mixture(&b), nil
}

func (b *Batch) check() error {
	var errs []error
	errs = append(errs, input.Positive("water", b.Water.Kilograms(), "kg"), input.In("present", b.Present.Check()),
		b.additions())
	temperature := checkTemperature(b.Temperature)
	errs = append(errs, temperature)
	for i, s := range b.Solids {
		if temperature == nil {
			errs = append(errs, input.As(input.At("solids", i), s.usable(b.Temperature)))
		}
	}
	return input.Join(errs...)
}

func (b *Batch) additions() error {
	var errs []error
	for i, a := range b.Add {
		_, err := parseFormula(a.Formula)
		err = input.Join(err, input.NotNegative("mass", a.Mass.Grams(), "g"))
		errs = append(errs, input.In(input.At("add", i), err))
	}
	return input.Join(errs...)
}

// usual are the solids that form in practice and have a sound constant at a temperature.
func usual(t units.Temperature) []Solid {
	list := make([]Solid, 0, solidEnd)
	for s := Halite; s < solidEnd; s++ {
		if s.judged(t) && solids[s].grade != neverForms {
			list = append(list, s)
		}
	}
	return list
}

// matter counts all that is put together: mol of each counted species, of hydrogen ions
// and of water.
func (b *Batch) matter(k *model) (n totals, acid, water float64, err error) {
	kg := b.Water.Kilograms()
	n = b.Present.totals()
	var first state
	if !k.speciate(&n, &first) {
		return n, 0, 0, units.ErrNoConvergence
	}
	water = molesOfWater
	for r := range reactions {
		water += reactions[r].water * first.m[reactions[r].gives]
	}
	water *= kg
	for i := range n.n {
		n.n[i] *= kg
	}
	n.other *= kg
	for _, a := range b.Add {
		f, err := parseFormula(a.Formula)
		if err != nil {
			return n, 0, 0, err
		}
		mol := a.Mass.Grams() / f.mass
		for j := range n.n {
			n.n[j] += mol * f.n[j]
		}
		water += mol * f.water
	}
	return n, -n.excess(), water, nil
}

// mixture packs the result.
func (y *system) mixture(b *Batch) Mixture {
	m := Mixture{Water: units.Mass(y.kg) * units.Kilogram, Residual: y.residual()}
	dissolved := totals{n: y.n}
	for i := range y.solids {
		h := &y.solids[i]
		if !h.present || !(h.n > 0) {
			continue
		}
		r := &solids[h.solid]
		d := Deposit{Solid: h.solid, Mass: units.Mass(h.n*h.solid.MolarMass().GramsPerMole()) * units.Gram}
		for _, a := range b.Add {
			if sameFormula(a.Formula, r.formula) {
				d.Added += a.Mass
			}
		}
		m.Solids = append(m.Solids, d)
		for j, s := range counted {
			dissolved.n[j] = math.Max(0, dissolved.n[j]-h.n*inSolid(r, s))
		}
	}
	for i := range dissolved.n {
		dissolved.n[i] /= y.kg
	}
	dissolved.other = float64(b.Present.OtherCharge) / perMole * b.Water.Kilograms() / y.kg
	slices.SortFunc(m.Solids, func(a, b Deposit) int { return cmp.Compare(b.Mass, a.Mass) })
	m.Solution = Solution{
		brine: dissolved.brine(), temperature: b.Temperature, warmth: y.warmth, k: y.k,
		shift: y.shift(&y.state), state: y.state,
	}
	for s := Halite; s < solidEnd; s++ {
		if solids[s].grade == neverForms || !s.judged(b.Temperature) {
			if index := m.Solution.index(s); index > 0 {
				m.NotJudged = append(m.NotJudged, Saturated{s, index})
			}
		}
	}
	return m
}

// sameFormula tells whether two formulas are of one compound.
func sameFormula(a, b string) bool {
	x, err := formula.Parse(a)
	y, err2 := formula.Parse(b)
	return err == nil && err2 == nil && x.Atoms == y.Atoms
}

// InOrder returns what there is after each addition, equilibrium reached each time: the
// last is that of [Dissolve].
func (b Batch) InOrder() ([]Mixture, error) {
	list := make([]Mixture, 0, len(b.Add))
	all := b.Add
	for i := range all {
		b.Add = all[:i+1]
		m, err := Dissolve(b)
		if err != nil {
			return nil, err
		}
		list = append(list, m)
	}
	return list, nil
}
