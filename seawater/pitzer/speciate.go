package pitzer

import "math"

// masters are the counted species that take part in reactions, each an unknown of the
// balances; hydrogen is the last.
var masters = [...]Species{Magnesium, Calcium, Sulfate, Carbonate, BoricAcid, SilicicAcid, Hydrogen}

const hydrogenAt = len(masters) - 1

// mostRounds bounds the passes of successive substitution. Seawater takes 4, an acid
// sulfate 20.
const mostRounds = 200

// settled is how little ln γ has to move at the end.
const settled = 1e-11

// balance holds what the balances of a speciation need while activity coefficients are held.
type balance struct {
	model  *model
	total  [len(masters)]float64 // the last is the excess of charge
	ln     [len(masters)]float64 // ln m
	shift  [len(reactions)]float64
	active [len(masters)]bool
	order  [len(masters)]int // numbers of the active ones
	size   int
	at     [len(reactions)][2]int // where the masters of a reaction stand; there is none: -1
}

// speciate distributes the totals of one kilogram of water over the species, by mass
// action, mass balance and balance of charge.
//
// Within a pass activity coefficients are held and the balances are solved by Newton's
// method in ln m; passes repeat until the coefficients rest.
func (k *model) speciate(t *totals, s *state) (ok bool) {
	b := balance{model: k}
	b.start(t, s)
	step, last := 1., math.Inf(1)
	for range mostRounds {
		if !b.solve(s, math.Max(near, math.Min(10*last, 0.03))) {
			return false
		}
		before := s.gamma
		k.activities(s)
		moved := 0.
		for i := range s.gamma {
			moved = math.Max(moved, math.Abs(s.gamma[i]-before[i]))
		}
		if !(moved <= math.MaxFloat64) {
			return false
		}
		if moved < settled {
			return true
		}
		if moved > 0.9*last { // it swings: shorter steps from here
			step = math.Max(step/2, 0.1)
		}
		last = moved
		if step < 1 {
			for i := range s.gamma {
				s.gamma[i] = before[i] + step*(s.gamma[i]-before[i])
			}
		}
	}
	return false
}

// start sets molalities as if nothing reacted, and a first guess of the pH.
func (b *balance) start(t *totals, s *state) {
	*s = state{}
	for i, species := range counted {
		s.m[species] = t.n[i]
	}
	for i, species := range masters {
		b.total[i] = s.m[species]
		b.active[i] = s.m[species] > 0
		b.ln[i] = math.Log(s.m[species])
	}
	b.total[hydrogenAt], b.active[hydrogenAt] = t.excess(), true
	for i, active := range b.active {
		if active {
			b.order[b.size] = i
			b.size++
		}
	}
	for r := range reactions {
		b.at[r] = [2]int{-1, -1}
		for i, of := range reactions[r].of {
			if of.n != 0 {
				b.at[r][i] = index(of.of)
			}
		}
	}
	b.ln[hydrogenAt] = -7 * ln10
	b.model.activities(s)
	b.shifts(s)
	b.guess(t)
}

// Where the reactions of the weak acids stand.
const (
	ofHydroxide = iota
	ofBicarbonate
	ofCarbonDioxide
	_ // of bisulfate
	ofBorate
)

// guess sets hydrogen ions and carbonate as if of two neighbouring forms of carbon, or
// of boron, those were there that the alkalinity asks for. It spares Newton's method ten
// steps.
func (b *balance) guess(t *totals) {
	carbon, boron := b.total[3], b.total[4]
	alkalinity := t.excess() + 2*carbon
	h := &b.ln[hydrogenAt]
	switch {
	case alkalinity < 0:
		*h = math.Log(-alkalinity)
	case carbon > 0 && alkalinity > 0 && alkalinity < 0.98*carbon:
		*h = b.shift[ofBicarbonate] - b.shift[ofCarbonDioxide] + math.Log(carbon/alkalinity-1)
	case carbon > 0 && alkalinity > 0 && alkalinity < 2*carbon:
		middle := math.Max(alkalinity, 1.02*carbon)
		*h = -b.shift[ofBicarbonate] + math.Log((2*carbon-middle)/(middle-carbon))
	case boron > 0 && alkalinity > 2*carbon && alkalinity < 2*carbon+0.98*boron:
		*h = b.shift[ofBorate] + math.Log(boron/(alkalinity-2*carbon)-1)
	case alkalinity > 1e-6:
		*h = b.shift[ofHydroxide] - math.Log(math.Max(alkalinity-2*carbon, 1e-6))
	}
	if carbon > 0 {
		one, two := math.Exp(b.shift[ofBicarbonate]+*h), math.Exp(b.shift[ofCarbonDioxide]+2**h)
		b.ln[3] -= math.Log(1 + one + two)
	}
}

// mostNewton bounds the steps of Newton's method in one pass.
const mostNewton = 100

// shifts sets ln K of the reactions in molalities.
func (b *balance) shifts(s *state) {
	for r := range reactions {
		x := &reactions[r]
		shift := b.model.k[r] - s.gamma[x.gives] + x.hydrogen*s.gamma[Hydrogen] + x.water*s.water
		for _, of := range x.of {
			if of.n != 0 {
				shift += of.n * s.gamma[of.of]
			}
		}
		b.shift[r] = shift
	}
}

// near is a step in ln m after which the next one is below 1e-11: its square.
const near = 3e-6

// solve finds the molalities for which all balances hold at the activity coefficients of
// s, up to a last step as small as near.
func (b *balance) solve(s *state, near float64) bool {
	b.shifts(s)
	for range mostNewton {
		var f [len(masters)]float64
		var j [len(masters)][len(masters)]float64
		b.residuals(s, &f, &j)
		step, ok := b.eliminate(&j, &f)
		if !ok {
			return false
		}
		largest := 0.
		for _, d := range step {
			largest = math.Max(largest, math.Abs(d))
		}
		if !(largest <= math.MaxFloat64) {
			return false
		}
		scale := math.Min(1, 3/largest)
		for i, d := range step {
			b.ln[i] -= scale * d
		}
		if largest < near {
			b.spread(s)
			return true
		}
	}
	b.spread(s)
	return true
}

// index returns where a species stands among the masters.
func index(s Species) int {
	switch s {
	case Magnesium:
		return 0
	case Calcium:
		return 1
	case Sulfate:
		return 2
	case Carbonate:
		return 3
	case BoricAcid:
		return 4
	}
	return 5
}

// spread sets the molalities of the masters and of all that is made of them.
func (b *balance) spread(s *state) {
	for i, species := range masters {
		if b.active[i] {
			s.m[species] = math.Exp(b.ln[i])
		}
	}
	for r := range reactions {
		s.m[reactions[r].gives] = b.molality(r)
	}
}

// molality of the species that a reaction gives; zero without what it is made of.
func (b *balance) molality(r int) float64 {
	x := &reactions[r]
	ln := b.shift[r] + x.hydrogen*b.ln[hydrogenAt]
	for j, i := range b.at[r] {
		if i < 0 {
			break
		}
		if !b.active[i] {
			return 0
		}
		ln += x.of[j].n * b.ln[i]
	}
	return math.Exp(ln)
}

// residuals are ln of what there is over what there should be, and of acid over base for
// the charges, and their derivatives by ln m: these are near straight lines in ln m.
func (b *balance) residuals(s *state, f *[len(masters)]float64, j *[len(masters)][len(masters)]float64) {
	b.spread(s)
	acid, base := s.m[Hydrogen], 0.
	if x := b.total[hydrogenAt]; x > 0 {
		acid += x
	} else {
		base -= x
	}
	var sum [len(masters)]float64
	for i := range hydrogenAt {
		sum[i] = s.m[masters[i]]
		j[i][i] = sum[i]
	}
	var ofAcid, ofBase [len(masters)]float64
	ofAcid[hydrogenAt] = s.m[Hydrogen]
	for r := range reactions {
		x := &reactions[r]
		m := s.m[x.gives]
		if m == 0 {
			continue
		}
		if x.hydrogen > 0 {
			acid += x.hydrogen * m
			ofAcid[hydrogenAt] += x.hydrogen * x.hydrogen * m
		} else {
			base -= x.hydrogen * m
			ofBase[hydrogenAt] -= x.hydrogen * x.hydrogen * m
		}
		for one, i := range b.at[r] {
			if i < 0 {
				break
			}
			part := x.of[one].n * m
			sum[i] += part
			j[i][hydrogenAt] += part * x.hydrogen
			for two, i2 := range b.at[r] {
				if i2 >= 0 {
					j[i][i2] += part * x.of[two].n
				}
			}
			if x.hydrogen > 0 {
				ofAcid[i] += x.hydrogen * part
			} else {
				ofBase[i] -= x.hydrogen * part
			}
		}
	}
	for i := range hydrogenAt {
		if !b.active[i] {
			continue
		}
		f[i] = math.Log(sum[i] / b.total[i])
		for c := range j[i] {
			j[i][c] /= sum[i]
		}
	}
	f[hydrogenAt] = math.Log(acid / base)
	for c := range ofAcid {
		j[hydrogenAt][c] = ofAcid[c]/acid - ofBase[c]/base
	}
}

// eliminate solves j x = f for the active unknowns by Gauss's method with pivots.
func (b *balance) eliminate(j *[len(masters)][len(masters)]float64, f *[len(masters)]float64) (
	x [len(masters)]float64, ok bool,
) {
	list := b.order[:b.size]
	for p, row := range list {
		best := row
		for _, other := range list[p+1:] {
			if math.Abs(j[other][row]) > math.Abs(j[best][row]) {
				best = other
			}
		}
		if best != row {
			j[row], j[best] = j[best], j[row]
			f[row], f[best] = f[best], f[row]
		}
		pivot := j[row][row]
		if pivot == 0 {
			return x, false
		}
		for _, other := range list[p+1:] {
			ratio := j[other][row] / pivot
			if ratio == 0 {
				continue
			}
			for _, c := range list[p+1:] {
				j[other][c] -= ratio * j[row][c]
			}
			f[other] -= ratio * f[row]
		}
	}
	for p := len(list) - 1; p >= 0; p-- {
		row := list[p]
		sum := f[row]
		for _, c := range list[p+1:] {
			sum -= j[row][c] * x[c]
		}
		x[row] = sum / j[row][row]
	}
	return x, true
}
