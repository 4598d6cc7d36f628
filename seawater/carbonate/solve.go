package carbonate

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// FromAlkalinityDIC returns the water of this alkalinity and dissolved
// inorganic carbon. It is Solve for the pair that mixes, doses and is
// conserved; there is always exactly one such water [M13]. The error is a
// *units.InputError; units.ErrNoConvergence would be a fault of the solver, and
// no input is known that brings it.
func (c *Constants) FromAlkalinityDIC(ta, carbon units.AmountPerKilogram, n Nutrients) (s System, err error) {
	h, err := c.acidity(ta, carbon, &n)
	s.Constants, s.Nutrients = *c, n
	s.set(h, ta, carbon)
	return s, err
}

// Update solves the system again, with the constants and nutrients that it has,
// for another alkalinity and dissolved inorganic carbon: a loop at one salinity
// and temperature copies nothing that way. Beside an error every number of the
// System is NaN.
func (s *System) Update(ta, carbon units.AmountPerKilogram) error {
	h, err := s.Constants.acidity(ta, carbon, &s.Nutrients)
	s.set(h, ta, carbon)
	return err
}

// set takes a solution over, all NaN if h is.
func (s *System) set(h float64, ta, carbon units.AmountPerKilogram) {
	s.h, s.alkalinity, s.dic = h, float64(ta), float64(carbon)
	if h != h {
		s.alkalinity, s.dic = h, h
	}
}

// acidity returns [H] on the total scale, or NaN and an error.
func (c *Constants) acidity(ta, carbon units.AmountPerKilogram, n *Nutrients) (float64, error) {
	err := c.check(n)
	switch {
	case err != nil:
	case !(ta >= -mostAmount && ta <= mostAmount):
		err = Alkalinity(ta).check()
	case !amount(carbon):
		err = DIC(carbon).check()
	default:
		var b balance
		b.of(c, n)
		b.carbonKind, b.carbon, b.alkalinity = dic, float64(carbon), float64(ta)
		if h := b.fromDIC(); sound(h) {
			return h, nil
		}
		err = units.ErrNoConvergence // not known to happen, but nothing may pass off a NaN as a result
	}
	return math.NaN(), err
}

// Solve returns the water of which these two are known, in any order. The
// error is a *units.InputError if one of them, the nutrients or the totals
// cannot be those of any water, a *NoSolutionError if no water has both, or none
// with a DIC and an alkalinity that Solve would take in turn, and a
// *TwoSolutionsError if two waters have both, which happens to alkalinity with
// carbonate and to DIC with bicarbonate: SolveBoth returns the two. Beside an
// error every number of the System is NaN.
func (c *Constants) Solve(a, b Known, n Nutrients) (System, error) {
	p, err := c.pair(a, b, &n)
	if err != nil {
		return noSystem(c, &n), err
	}
	if p.acid == p.basic {
		return p.system(c, &n, p.acid)
	}
	acid, basic, err := p.both(c, &n)
	if err == nil && acid.h != basic.h {
		return noSystem(c, &n), &TwoSolutionsError{First: p.first, Second: p.second, Acid: acid.PH(), Basic: basic.PH()}
	}
	return acid, err
}

// SolveBoth is Solve for pairs that two waters may have: it returns the one of
// lower and the one of higher pH. Where there is only one, both are that one.
func (c *Constants) SolveBoth(a, b Known, n Nutrients) (acid, basic System, err error) {
	p, err := c.pair(a, b, &n)
	if err != nil {
		return noSystem(c, &n), noSystem(c, &n), err
	}
	return p.both(c, &n)
}

// check refuses constants and contents with which no water can be computed.
func (c *Constants) check(n *Nutrients) error {
	switch {
	case !c.Totals.sound():
		return c.badTotal()
	case !(constant(c.K1) && constant(c.K2) && constant(c.KB) && constant(c.KW) && constant(c.KS) && constant(c.KF)):
		return c.badConstant()
	case n.none():
		return nil
	case !n.sound():
		return badNutrients()
	case !(constant(c.KP1) && constant(c.KP2) && constant(c.KP3) && constant(c.KSi) && constant(c.KNH4) &&
		constant(c.KH2S)):
		return c.badConstant()
	}
	return nil
}

func badNutrients() error {
	return &units.InputError{
		Field: "nutrients",
		Got:   "a content below zero or without meaning",
		Want:  "zero or more, in µmol/kg",
	}
}

// badTotal names the first total that no water has, or the reason why At made
// none.
func (c *Constants) badTotal() error {
	if err := c.noWater(); err != nil {
		return err
	}
	t := &c.Totals
	names := [...]string{"boron", "sulfate", "fluoride", "calcium", "magnesium"}
	for i, x := range [...]units.AmountPerKilogram{t.Boron, t.Sulfate, t.Fluoride, t.Calcium, t.Magnesium} {
		if !amount(x) {
			return &units.InputError{Field: "constants." + names[i], Got: x.String(), Want: "0 to 1e9 µmol/kg"}
		}
	}
	return nil
}

// noWater tells why At made no constants.
func (c *Constants) noWater() error {
	if err := input.Set("constants.temperature", c.Temperature); err != nil {
		return err
	}
	if !possible(c.Salinity, c.Temperature) {
		return &units.InputError{Field: "constants", Got: "salinity " + c.Salinity.String() + " and " +
			c.Temperature.String(),
			Want: "a salinity and a temperature that the fits can be asked for"}
	}
	return nil
}

func (c *Constants) badConstant() error {
	if err := c.noWater(); err != nil {
		return err
	}
	return &units.InputError{Field: "constants", Got: "an equilibrium constant that is none",
		Want: "a salinity and a temperature that the fits can be asked for"}
}

// constant tells whether k can be an equilibrium constant. The products that
// the solver takes of two or three of them neither overflow nor vanish.
func constant(k units.Scalar) bool { return k > 1e-90 && k < 1e90 }

// sound tells whether x is a positive number.
func sound(x float64) bool { return x > 0 && x <= math.MaxFloat64 }

// pair is a pair of known things with the [H] that it leads to: acid and basic
// are the same where there is one solution.
type pair struct {
	first, second Known // as they were given
	balance       balance
	a, b          Known // the same as chemistry, a.kind < b.kind
	acid, basic   float64
}

func (c *Constants) pair(first, second Known, n *Nutrients) (pair, error) {
	p := pair{first: first, second: second}
	if err := c.check(n); err != nil {
		return p, err
	}
	if err := first.check(); err != nil {
		return p, err
	}
	if err := second.check(); err != nil {
		return p, err
	}
	p.a, p.b = first.chemistry(c), second.chemistry(c)
	if (p.a.kind == dissolved || p.b.kind == dissolved) && !(constant(c.K0) && constant(c.FugacityRatio)) {
		return p, c.badConstant()
	}
	if p.a.kind > p.b.kind {
		p.a, p.b = p.b, p.a
	}
	if p.a.kind == p.b.kind {
		return p, &units.InputError{
			Field: "pair",
			Got:   first.String() + " and " + second.String(),
			Want:  "two different quantities",
		}
	}
	p.balance.of(c, n)
	if reason := p.solve(); reason != "" {
		return p, &NoSolutionError{First: first, Second: second, Reason: reason}
	}
	return p, nil
}

// solve finds [H]; it returns the reason if there is none.
func (p *pair) solve() (reason string) {
	b, x, y := &p.balance, p.a.value, p.b.value
	var h float64
	switch {
	case p.a.kind == alkalinity && p.b.kind == acidity:
		h = fromPK(y)
	case p.a.kind == alkalinity:
		b.alkalinity, b.carbonKind, b.carbon = x, p.b.kind, y
		switch p.b.kind {
		case dic:
			h = b.fromDIC()
		case dissolved:
			h = b.fromCO2()
		case bicarbonate:
			h = b.fromBicarbonate()
		case carbonate:
			return p.fromCarbonate()
		}
	case p.a.kind == acidity:
		h = fromPK(x)
	case p.b.kind == acidity:
		h = fromPK(y)

	case p.a.kind == dic && p.b.kind == dissolved:
		if !(x > y) {
			return "CO2 is a part of DIC"
		}
		r := (x - y) / (b.k1 * y) // 1/h + K2/h²
		h = (1 + math.Sqrt(1+4*r*b.k2)) / (2 * r)
	case p.a.kind == dic && p.b.kind == bicarbonate:
		return p.fromShareOfBicarbonate(x, y)
	case p.a.kind == dic && p.b.kind == carbonate:
		if !(x > y) {
			return "carbonate is a part of DIC"
		}
		r := b.k12 * ((x - y) / y) // h² + K1 h
		h = 2 * r / (b.k1 + math.Sqrt(b.k1*b.k1+4*r))

	case p.a.kind == dissolved && p.b.kind == bicarbonate:
		h = b.k1 * (x / y)
	case p.a.kind == dissolved: // and carbonate
		h = math.Sqrt(b.k12 * (x / y))
	default: // bicarbonate and carbonate
		h = b.k2 * (x / y)
	}
	p.acid, p.basic = h, h
	return ""
}

// fromShareOfBicarbonate: the share of bicarbonate in DIC has a highest value,
// between K1 and K2, and every lower share is met twice, at
//
//	h² - K1 (DIC/HCO3 - 1) h + K1 K2 = 0
func (p *pair) fromShareOfBicarbonate(carbon, bicarbonate float64) (reason string) {
	b := &p.balance
	half := b.k1 * ((carbon - bicarbonate) / bicarbonate) / 2
	top := math.Sqrt(b.k12)
	if !(half >= top) {
		return "so large a share of DIC cannot be bicarbonate"
	}
	p.acid = half + math.Sqrt((half-top)*(half+top))
	p.basic = b.k12 / p.acid
	return ""
}

// system completes the water of which h is the [H].
func (p *pair) system(c *Constants, n *Nutrients, h float64) (System, error) {
	b := &p.balance
	s := System{Constants: *c, Nutrients: *n, h: h}
	mean, _, _ := b.charge(h)
	b.carbonKind = nothing // what is asked of b below is the rest

	// carbon first
	held := p.b // the one of the pair that tells the carbon
	if p.a.kind == dic || held.kind == acidity {
		held = p.a
	}
	switch held.kind {
	case dic:
		s.dic = held.value
	case dissolved:
		s.dic = held.value * (1 + (b.k1+b.k12/h)/h)
	case bicarbonate:
		s.dic = held.value * (1 + h/b.k1 + b.k2/h)
	case carbonate:
		s.dic = held.value * (1 + h/b.k2*(1+h/b.k1))
	default: // alkalinity and pH
		b.alkalinity = p.a.value
		s.dic = -b.residual(h).r / mean
		if s.dic < 0 {
			return noSystem(c, n), &NoSolutionError{First: p.first, Second: p.second,
				Reason: "at that pH boron, water and nutrients alone have more alkalinity"}
		}
	}
	if p.a.kind == alkalinity {
		s.alkalinity = p.a.value
	} else {
		b.alkalinity = 0
		s.alkalinity = b.residual(h).r + s.dic*mean
	}
	if !sound(h) || !amount(s.DIC()) || !(math.Abs(s.alkalinity) <= float64(mostAmount)) {
		return noSystem(c, n), &NoSolutionError{First: p.first, Second: p.second,
			Reason: "it would have more than 1e9 µmol/kg of DIC or alkalinity, or no pH"}
	}
	return s, nil
}

// both completes the waters of both [H]. Of two that are the same, or of which
// one is no water, it returns the other twice.
func (p *pair) both(c *Constants, n *Nutrients) (acid, basic System, err error) {
	acid, err = p.system(c, n, p.acid)
	if p.acid == p.basic {
		return acid, acid, err
	}
	basic, basicErr := p.system(c, n, p.basic)
	switch {
	case err != nil:
		return basic, basic, basicErr
	case basicErr != nil:
		return acid, acid, nil
	}
	return acid, basic, nil
}

// fromDIC returns the one root of alkalinity and DIC, of which the residual
// falls all the way with h [M13].
func (b *balance) fromDIC() float64 {
	if h, ok := b.settle(b.start()); ok {
		return h
	}
	least, most := b.bounds()
	return b.between(acidLimit(b.water, b.free, b.alkalinity-least),
		acidLimit(b.water, b.free, b.alkalinity-most-2*b.carbon), false)
}

// settle takes Halley's steps of ln h, of third order, from a guess: after one
// shorter than quick, less than 1e-15 is left. From a fair guess two or three
// steps do; ok is false if six do not, or if one would change h e-fold.
//
// It is for residuals that fall all the way, where whatever it settles on is
// the root.
func (b *balance) settle(h float64) (root float64, ok bool) {
	for range 6 {
		s := b.residual(h)
		up, down := -s.r*s.r1, s.r1*s.r1-s.r*s.r2/2
		if !(math.Abs(up) <= down) {
			break
		}
		h = h * (down + up/2) / (down - up/2) // e^(up/down), to the third order
		if math.Abs(up) <= quick*down {
			return h, true
		}
	}
	return h, false
}

const quick = 1e-5

// start returns the first guess of [M13]: the cubic equation of h that
// carbonate and borate alkalinity make, TA h³ + c2 h² + c1 h + c0 = 0, taken as
// a parabola about its local minimum, where the cubic is c0 + h (c2 h + 2 c1)/3.
// It is good to a few percent.
func (b *balance) start() float64 {
	ta, carbon, boron := b.alkalinity-b.organic, b.carbon, b.boron
	switch {
	case ta <= 0:
		return 1e-3
	case ta >= 2*carbon+boron:
		return 1e-10
	}
	c2 := b.kb*(ta-boron) + b.k1*(ta-carbon)
	c1 := b.k1 * (b.kb*(ta-boron-carbon) + b.k2*(ta-2*carbon))
	c0 := b.k12 * b.kb * (ta - 2*carbon - boron)
	root := math.Sqrt(c2*c2 - 3*ta*c1)
	lowest := (root - c2) * (1 / (3 * ta))
	h := lowest + math.Sqrt(-(c0+lowest*(c2*lowest+2*c1)*(1./3))*(1/root))
	if !(h > 0) {
		return 1e-7
	}
	return h
}

// fromCO2 returns the one root of alkalinity and CO2, of which the residual
// falls all the way with h. The guess counts carbonate alkalinity alone.
//
// Low bound: leave out carbonate and take the least of the rest. High bound:
// take the most of the rest, and the largest root that the cubic equation then
// can have (Fujiwara's bound).
func (b *balance) fromCO2() float64 {
	one, two := b.carbon*b.k1, 2*b.carbon*b.k12
	if ta := b.alkalinity - b.organic; ta > 0 {
		guess := (one + math.Sqrt(one*one+4*two*ta)) / (2 * ta)
		if h, ok := b.settle(guess); ok {
			return h
		}
	}
	least, most := b.bounds()
	one += b.water
	lo := acidLimit(one, b.free, b.alkalinity-least)
	hi := 2 * math.Max(math.Max((most-b.alkalinity)/b.free, math.Sqrt(one/b.free)), math.Cbrt(two/b.free))
	return b.between(lo, hi, false)
}

// fromBicarbonate returns the one root of alkalinity and bicarbonate, of which
// the residual falls all the way with h.
func (b *balance) fromBicarbonate() float64 {
	least, most := b.bounds()
	base := b.water + 2*b.carbon*b.k2
	return b.between(acidLimit(base, b.free, b.alkalinity-b.carbon-least),
		acidLimit(base, b.free, b.alkalinity-b.carbon-most), false)
}

// fromCarbonate finds the roots of alkalinity and carbonate [M21].
//
// Each term of the residual is a convex function of h, so there are two roots
// at most. As h grows, bicarbonate gains CO3/K2 on what the free hydrogen ions
// take. If it gains, the residual has a lowest point, and no root, or one on
// either side of it; if it does not, the residual falls all the way.
func (p *pair) fromCarbonate() (reason string) {
	b := &p.balance
	least, most := b.bounds()
	excess := b.alkalinity - 2*b.carbon
	gain := b.carbon/b.k2 - b.free
	lo := acidLimit(b.water, b.free, excess-least)
	if gain <= 0 {
		if gain == 0 {
			gain = -b.free * 1e-16
		}
		h := b.between(lo, acidLimit(b.water, -gain, excess-most), false)
		p.acid, p.basic = h, h
		return ""
	}
	h := b.lowest(gain)
	s := b.residual(h)
	switch {
	case s.r > 0:
		return "so much carbonate has more alkalinity than that at any pH"
	case s.r == 0:
		p.acid, p.basic = h, h
		return ""
	}
	p.basic = b.between(lo, h, false)
	p.acid = b.between(h, (excess-least)/gain, true)
	return ""
}

// lowest returns the h at which the residual of alkalinity and carbonate is
// least. Its slope is below water's alone at the first bound and above the most
// that all acids can take at the second.
func (b *balance) lowest(gain float64) float64 {
	sites := b.boron*b.kb + b.sulfate*b.ks + b.fluoride*b.kf +
		b.phosphate*b.kp1 + b.silicate*b.ksi + b.ammonia*b.kn + b.sulfide*b.kh
	lo := math.Sqrt(b.water * b.k2 / b.carbon)
	hi := math.Sqrt((b.water + sites) / gain)
	for range bisections {
		h := math.Sqrt(lo) * math.Sqrt(hi)
		if h <= lo || h >= hi {
			break
		}
		if b.residual(h).r1 < 0 {
			lo = h
		} else {
			hi = h
		}
	}
	return hi
}

// bisections is enough to halve the whole range of float64, 1418 in ln h, to its
// last bit.
const bisections = 64

// between returns the root in a bracket [M13, M21]: Newton's steps of ln h, and
// a bisection whenever a step leaves the bracket or fails to halve the
// residual. It ends: of any two steps one halves the bracket or the residual,
// and when that takes too long, only bisections are left. rising tells the
// direction of the residual.
func (b *balance) between(lo, hi float64, rising bool) float64 {
	lo, hi = math.Min(lo, hi), math.Max(lo, hi) // they can be one, but for rounding
	h, last := math.Sqrt(lo)*math.Sqrt(hi), math.Inf(1)
	for i := range 2 * bisections {
		s := b.residual(h)
		if s.r == 0 {
			return h
		}
		if s.r > 0 != rising {
			lo = math.Max(lo, h)
		} else {
			hi = math.Min(hi, h)
		}
		step := -s.r / s.r1
		if math.Abs(step) <= 1e-8 {
			return h * (1 + step) // what is left is the square of it
		}
		next := h * math.Exp(step)
		if !(next >= lo && next <= hi) || math.Abs(s.r) > last/2 || i >= bisections {
			next = math.Sqrt(lo) * math.Sqrt(hi)
		}
		if math.Abs(next-h) <= 2e-16*h {
			return next
		}
		h, last = next, math.Abs(s.r)
	}
	return h
}
