package carbonate

import (
	"math"

	"example.org/wellmixed/units"
)

// ConstantUncertainty holds the standard uncertainties of what the water was
// solved with: of the pK of the constants, and relative ones of the totals. The
// zero value takes them all for exact.
type ConstantUncertainty struct {
	PK0, PK1, PK2, PKB, PKW, PKCalcite, PKAragonite float64
	Boron, Calcium                                  units.Fraction
	Organic                                         units.AmountPerKilogram // of the organic alkalinity, see Nutrients
}

// LuekerScatter returns the scatter of the measurements about the fits of
// Lueker et al. 2000, 0.0055 in pK1 and 0.0100 in pK2 (p. 110), with everything
// else exact.
func LuekerScatter() ConstantUncertainty { return ConstantUncertainty{PK1: 0.0055, PK2: 0.0100} }

// Uncertainty holds the standard uncertainties of a solved water.
type Uncertainty struct {
	PH                          units.Scalar // total scale
	PCO2                        PCO2
	FCO2                        FCO2
	Alkalinity, DIC             units.AmountPerKilogram
	CO2, Bicarbonate, Carbonate units.AmountPerKilogram
	Calcite, Aragonite          units.Scalar // of the saturation states
}

// Uncertainty returns the standard uncertainties of the water that Solve makes
// of the same pair, from those of the pair (Known.PlusMinus) and of the
// constants. They add in squares, by first-order differences [GUM]; nothing is
// taken to be correlated.
func (c *Constants) Uncertainty(a, b Known, n Nutrients, k ConstantUncertainty) (Uncertainty, error) {
	v, err := c.variances(a, b, Known{}, &n, &k)
	if err != nil {
		nan := math.NaN()
		x := units.AmountPerKilogram(nan)
		return Uncertainty{units.Scalar(nan), PCO2(nan), FCO2(nan), x, x, x, x, x, units.Scalar(nan), units.Scalar(nan)}, err
	}
	for i := range v {
		v[i] = math.Sqrt(v[i])
	}
	return Uncertainty{
		PH: units.Scalar(v[acidity]), PCO2: PCO2(v[partialPressure]), FCO2: FCO2(v[fugacityOfCO2]),
		Alkalinity: units.AmountPerKilogram(v[alkalinity]), DIC: units.AmountPerKilogram(v[dic]),
		CO2: units.AmountPerKilogram(v[dissolved]), Bicarbonate: units.AmountPerKilogram(v[bicarbonate]),
		Carbonate: units.AmountPerKilogram(v[carbonate]),
		Calcite:   units.Scalar(v[ofCalcite]), Aragonite: units.Scalar(v[ofAragonite]),
	}, nil
}

// results are the numbers of a water, each at its kind; the saturation states
// follow.
type results [ofAragonite + 1]float64

const (
	ofCalcite   = fugacityOfCO2 + 1
	ofAragonite = fugacityOfCO2 + 2
)

func (s *System) results() results {
	return results{
		alkalinity: s.alkalinity, dic: s.dic, acidity: s.PH().value,
		dissolved: float64(s.CO2()), bicarbonate: float64(s.Bicarbonate()), carbonate: float64(s.Carbonate()),
		partialPressure: float64(s.PCO2()), fugacityOfCO2: float64(s.FCO2()),
		ofCalcite: s.Calcite(), ofAragonite: s.Aragonite(),
	}
}

// nearest is Solve with a third measurement, if there is one, to tell two waters
// apart.
func (c *Constants) nearest(a, b, third Known, n *Nutrients) (System, error) {
	if third.kind == nothing {
		return c.Solve(a, b, *n)
	}
	acid, basic, err := c.SolveBoth(a, b, *n)
	off := func(s *System) float64 { return math.Abs(s.results()[third.kind] - third.value) }
	if err == nil && off(&basic) < off(&acid) {
		return basic, nil
	}
	return acid, err
}

// variances returns the squares of the standard uncertainties.
func (c *Constants) variances(a, b, third Known, n *Nutrients, k *ConstantUncertainty) (results, error) {
	var v results
	if err := k.check(a, b); err != nil {
		return v, err
	}
	if _, err := c.nearest(a, b, third, n); err != nil {
		return v, err
	}
	// add adds the square of the change of each result over one standard
	// uncertainty, half of it to either side.
	add := func(c1, c2 *Constants, a1, b1, a2, b2 Known, n1, n2 *Nutrients) error {
		lo, err := c1.nearest(a1, b1, third, n1)
		if err != nil {
			return err
		}
		hi, err := c2.nearest(a2, b2, third, n2)
		if err != nil {
			return err
		}
		x, y := lo.results(), hi.results()
		for i := range v {
			v[i] += (y[i] - x[i]) * (y[i] - x[i])
		}
		return nil
	}
	if a.uncertainty > 0 {
		if err := add(c, c, a.shifted(-0.5), b, a.shifted(0.5), b, n, n); err != nil {
			return v, err
		}
	}
	if b.uncertainty > 0 {
		if err := add(c, c, a, b.shifted(-0.5), a, b.shifted(0.5), n, n); err != nil {
			return v, err
		}
	}
	for i := range parameters {
		if u := k.of(i); u > 0 {
			lo, hi := *c, *c
			lo.shift(i, -u/2)
			hi.shift(i, u/2)
			if err := add(&lo, &hi, a, b, a, b, n, n); err != nil {
				return v, err
			}
		}
	}
	if u := k.Organic; u > 0 {
		// There is no less than none: a doubt that reaches below zero counts one way.
		lo, hi := *n, *n
		lo.Organic = max(0, n.Organic-u/2)
		hi.Organic = lo.Organic + u
		if err := add(c, c, a, b, a, b, &lo, &hi); err != nil {
			return v, err
		}
	}
	return v, nil
}

// shifted returns what is known, moved by so many standard uncertainties.
func (k Known) shifted(by float64) Known {
	k.value += by * k.uncertainty
	return k
}

// parameters is how many fields of a ConstantUncertainty move the Constants.
const parameters = 9

// of returns the i-th field.
func (k *ConstantUncertainty) of(i int) float64 {
	return [parameters]float64{
		k.PK0, k.PK1, k.PK2, k.PKB, k.PKW, k.PKCalcite, k.PKAragonite, k.Boron.Value(), k.Calcium.Value(),
	}[i]
}

// shift moves what the i-th field is about: a pK by u, or a total by the share u.
func (c *Constants) shift(i int, u float64) {
	switch i {
	case 7:
		c.Totals.Boron *= units.AmountPerKilogram(1 + u)
	case 8:
		c.Totals.Calcium *= units.AmountPerKilogram(1 + u)
	default:
		*[...]*units.Scalar{&c.K0, &c.K1, &c.K2, &c.KB, &c.KW, &c.Calcite, &c.Aragonite}[i] *= units.Scalar(fromPK(u))
	}
}

// check refuses uncertainties that are none.
func (k *ConstantUncertainty) check(known ...Known) error {
	for _, x := range known {
		if !(x.uncertainty >= 0 && x.uncertainty <= math.MaxFloat64) {
			return &units.InputError{Field: kindNames[x.kind] + " uncertainty", Got: number(x.uncertainty), Want: "zero or more"}
		}
	}
	for i := range parameters {
		if u := k.of(i); !(u >= 0 && u <= 1) {
			return &units.InputError{Field: "uncertainty of the constants", Got: number(u), Want: "0 to 1"}
		}
	}
	if !amount(k.Organic) {
		return &units.InputError{
			Field: "uncertainty of the organic alkalinity",
			Got:   k.Organic.String(),
			Want:  "zero or more",
		}
	}
	return nil
}

// Agreement is what the other two of three measurements say about one.
type Agreement struct {
	Measured Known
	// Expected is what the other two give, with the standard uncertainty that
	// theirs and those of the constants leave it.
	Expected Known
	// Off is measured less expected, in the unit of Known.Value: how wrong the
	// measurement is if it alone is wrong.
	Off units.Scalar
	// Strain is Off over the standard uncertainty of the measurement alone: how
	// hard it is to believe that this one alone is wrong.
	Strain units.Scalar
	// Joint is Off over the standard uncertainty of the difference.
	Joint units.Scalar
}

// Consistency is a verdict on three measurements of one water, of which two
// would do.
type Consistency struct {
	Agreements [3]Agreement // in the order given
	// Consistent is true if the three agree within two standard uncertainties of
	// the differences.
	Consistent bool
	// Suspect is the index of the measurement that needs the least strain to be
	// the only wrong one. Three measurements have but one contradiction between
	// them, so it is a suspicion and no proof: a fourth measurement decides.
	Suspect int
}

// Consistency compares three measurements of one water, each with its standard
// uncertainty (Known.PlusMinus). Where two of them go with two waters, the third
// tells which; where they go with none, it fails as Solve does.
func (c *Constants) Consistency(three [3]Known, n Nutrients, k ConstantUncertainty) (Consistency, error) {
	var out Consistency
	out.Consistent = true
	for i, x := range three {
		if !(x.uncertainty > 0) {
			return Consistency{}, &units.InputError{
				Field: kindNames[x.kind] + " uncertainty",
				Got:   number(x.uncertainty),
				Want:  "above zero",
			}
		}
		if err := x.check(); err != nil {
			return Consistency{}, err
		}
		a, b := three[(i+1)%3], three[(i+2)%3]
		v, err := c.variances(a, b, x, &n, &k)
		if err != nil {
			return Consistency{}, err
		}
		s, err := c.nearest(a, b, x, &n)
		if err != nil {
			return Consistency{}, err
		}
		expected := Known{kind: x.kind, value: s.results()[x.kind], uncertainty: math.Sqrt(v[x.kind])}
		off := x.value - expected.value
		out.Agreements[i] = Agreement{
			Measured: x, Expected: expected, Off: units.Scalar(off), Strain: units.Scalar(off / x.uncertainty),
			Joint: units.Scalar(off / math.Hypot(x.uncertainty, expected.uncertainty)),
		}
		if !(math.Abs(float64(out.Agreements[i].Joint)) <= 2) {
			out.Consistent = false
		}
		if math.Abs(float64(out.Agreements[i].Strain)) < math.Abs(float64(out.Agreements[out.Suspect].Strain)) {
			out.Suspect = i
		}
	}
	return out, nil
}
