package titration

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Vessel is a weighed sample of seawater and the acid that it is titrated with. The
// zero value is refused.
type Vessel struct {
	Sample units.Mass
	// Acid is the strength, moles of H+ per kilogram of acid.
	Acid units.AmountPerKilogram
	// Constants are those of the sample at the temperature of the titration, made by
	// carbonate.At; its alkalinity and DIC are not among them.
	Constants carbonate.Constants
	Nutrients carbonate.Nutrients
}

// Carbon says what becomes of the CO2 during a titration. It is made by Closed,
// ClosedAt, Open or Degassed; the zero value is Degassed.
type Carbon struct {
	kind carbonKind
	dic  units.AmountPerKilogram
	pco2 carbonate.PCO2
	ph   carbonate.TotalPH
}

type carbonKind uint8

const (
	degassed carbonKind = iota
	closed
	closedAt
	open
)

// Closed is a vessel that keeps its CO2: the sample has this DIC to the end. A DIC
// of zero is refused: Degassed says that there is none.
func Closed(dic units.AmountPerKilogram) Carbon { return Carbon{kind: closed, dic: dic} }

// ClosedAt is a vessel that keeps its CO2, of a sample that has this pH before any
// acid, at the temperature of the constants: with its alkalinity, known or to be
// found, that tells the DIC.
func ClosedAt(ph carbonate.TotalPH) Carbon { return Carbon{kind: closedAt, ph: ph} }

// Open is a vessel stirred in air of this partial pressure of CO2 until it is in
// equilibrium at every point.
func Open(air carbonate.PCO2) Carbon { return Carbon{kind: open, pco2: air} }

// Degassed is a vessel out of which all CO2 has been driven.
func Degassed() Carbon { return Carbon{} }

// Mixture is what is in the vessel after an addition of acid.
type Mixture struct {
	Acid units.Mass // in all
	// PH is what an electrode shows that was set on the total scale of the sample.
	// System.PH is less by what diluting the sulfate moves the total scale, 0.002 at
	// the end of a titration.
	PH     carbonate.TotalPH
	System carbonate.System // with the constants and contents of the mixture
}

// Mixture returns what a sample of this alkalinity becomes with so much acid.
//
//	symbol   TA(m) = (m0 TA - m C)/(m0 + m), every content times m0/(m0 + m)
//	source   [D81]
//	outside  an error if a mass or a content is negative or not a number
func (v *Vessel) Mixture(alkalinity units.AmountPerKilogram, carbon Carbon, acid units.Mass) (Mixture, error) {
	if err := v.check(acid); err != nil {
		return noMixture(acid), err
	}
	carbon, err := v.settled(carbon, alkalinity)
	if err != nil {
		return noMixture(acid), err
	}
	d := v.diluted(acid)
	known := d.alkalinity(float64(alkalinity))
	s, err := d.c.Solve(carbonate.Alkalinity(known), d.carbon(carbon), d.n)
	if err != nil {
		return noMixture(acid), err
	}
	return Mixture{Acid: acid, PH: carbonate.PHTotal(s.PH().Value() + math.Log10(d.move)), System: s}, nil
}

// Curve returns the titration curve of a sample of this alkalinity: the pH after
// each amount of acid.
func (v *Vessel) Curve(alkalinity units.AmountPerKilogram, carbon Carbon, acid []units.Mass) ([]Point, error) {
	curve := make([]Point, 0, len(acid))
	for _, m := range acid {
		x, err := v.Mixture(alkalinity, carbon, m)
		if err != nil {
			return nil, err
		}
		curve = append(curve, PH(m, x.PH))
	}
	return curve, nil
}

// EndPoint is what a titration to a fixed pH finds.
type EndPoint struct {
	Acid     units.Mass              // to that pH
	Apparent units.AmountPerKilogram // all that acid, counted as alkalinity
	Error    units.AmountPerKilogram // apparent less true
}

// EndPoint returns what a titration to a fixed pH shows of a sample of this
// alkalinity. A pH on the NBS scale, as a meter has it that was set in dilute
// buffers, comes here by its Total:
//
//	ph := carbonate.PHNBS(4.5).Total(&v.Constants)
//
//	symbol   m of TA(m) = A(h); TA' = C m/m0
//	source   [D81], solved with package carbonate
//	outside  an error if the sample is more acid than that to begin with, or the
//	         acid too weak to get there
func (v *Vessel) EndPoint(ph carbonate.TotalPH, alkalinity units.AmountPerKilogram, carbon Carbon) (EndPoint, error) {
	if err := v.check(0); err != nil {
		return noEndPoint(), err
	}
	if !(math.Abs(float64(alkalinity)) <= math.MaxFloat64) {
		return noEndPoint(), input.Bad("alkalinity", alkalinity.String(), "a number")
	}
	carbon, err := v.settled(carbon, alkalinity)
	if err != nil {
		return noEndPoint(), err
	}
	var failed error
	// left is the alkalinity above that of the end point; it falls as acid is added.
	left := func(m float64) float64 {
		there, err := v.Alkalinity(ph, units.Mass(m), carbon)
		if err != nil {
			failed = err
		}
		return float64(alkalinity - there)
	}
	if first := left(0); failed == nil && first < 0 {
		return noEndPoint(), input.Bad("end point", ph.String(), "a pH below that of the sample")
	}
	// Enough acid is found by doubling, from what would do if none were left over.
	enough := float64(v.Sample) * (math.Abs(float64(alkalinity/v.Acid)) + 1e-3)
	for i := 0; failed == nil && left(enough) > 0; i++ {
		if i == doublings {
			return noEndPoint(), input.Bad("acid", v.Acid.String(), "one strong enough to reach pH "+input.Fixed(ph.Value(), 2))
		}
		enough *= 2
	}
	if failed != nil {
		return noEndPoint(), failed
	}
	m, ok := solve.Brent(left, 0, enough, 1e-15*enough)
	if !ok {
		return noEndPoint(), units.ErrNoConvergence
	}
	apparent := v.Apparent(units.Mass(m))
	return EndPoint{Acid: units.Mass(m), Apparent: apparent, Error: apparent - alkalinity}, nil
}

// doublings of the acid until there is a million times as much of it as of the
// sample, at the least.
const doublings = 30

// noEndPoint stands beside an error.
func noEndPoint() EndPoint {
	x := input.NaN[units.AmountPerKilogram]()
	return EndPoint{Acid: input.NaN[units.Mass](), Apparent: x, Error: x}
}

// Apparent returns the acid counted as alkalinity, C m/m0.
func (v *Vessel) Apparent(acid units.Mass) units.AmountPerKilogram {
	return v.Acid * units.AmountPerKilogram(acid/v.Sample)
}

// Alkalinity returns the true alkalinity of a sample that took so much acid to a
// pH: the acid, less what of it is still free or with sulfate and fluoride, plus
// the bicarbonate and the like that has not taken any yet. It undoes EndPoint.
//
//	symbol   TA = C m/m0 + (m0 + m)/m0 A(h)
//	source   [D81]; with a Degassed vessel it is the single-point titration of [DSC]
//
// With ClosedAt the alkalinity decides on its own DIC, and both are found:
//
//	a, err := vial.Alkalinity(end, density.Mass(kit.Counted(8)), titration.ClosedAt(ph))
func (v *Vessel) Alkalinity(ph carbonate.TotalPH, acid units.Mass, carbon Carbon) (units.AmountPerKilogram, error) {
	if err := v.check(acid); err != nil {
		return input.NaN[units.AmountPerKilogram](), err
	}
	d := v.diluted(acid)
	if carbon.kind == closedAt {
		dic, err := v.dicOf(&d, ph, carbon.ph)
		if err != nil {
			return input.NaN[units.AmountPerKilogram](), err
		}
		carbon = Closed(dic)
	}
	if err := carbon.check(); err != nil {
		return input.NaN[units.AmountPerKilogram](), err
	}
	s, err := d.c.Solve(carbonate.PH(carbonate.PHTotal(ph.Value()-math.Log10(d.move))), d.carbon(carbon), d.n)
	if err != nil {
		return input.NaN[units.AmountPerKilogram](), err
	}
	a := d.added + d.growth*float64(s.Alkalinity())
	if !(math.Abs(a) <= math.MaxFloat64) {
		return input.NaN[units.AmountPerKilogram](), input.Bad("acid added", acid.String(), "amounts of this world")
	}
	return units.AmountPerKilogram(a), nil
}

// dicOf returns the DIC of a sample that has the pH first before any acid and ph in the
// mixture d. At a pH the alkalinity is a straight line in DIC, and it is the same sample.
//
//	a0 + b0 DIC = TA = C m/m0 + (m0 + m)/m0 a + b DIC
func (v *Vessel) dicOf(d *dilution, ph, first carbonate.TotalPH) (units.AmountPerKilogram, error) {
	a0, b0, err := line(&v.Constants, first, v.Nutrients)
	if err != nil {
		return 0, input.In("sample", err)
	}
	a, b, err := line(&d.c, carbonate.PHTotal(ph.Value()-math.Log10(d.move)), d.n)
	if err != nil {
		return 0, err
	}
	dic := (d.added + d.growth*a - a0) / (b0 - b)
	if !(b0-b > 1e-6 && dic > 0 && dic <= math.MaxFloat64) {
		return 0, input.Bad("pH of the sample", first.String(), "the pH before any acid, above that of the end point, and "+
			"acid that goes with it")
	}
	return units.AmountPerKilogram(dic), nil
}

// line returns the alkalinity of a water of this pH without DIC, and what each
// µmol/kg of DIC adds to it.
func line(c *carbonate.Constants, ph carbonate.TotalPH, n carbonate.Nutrients) (rest, each float64, err error) {
	s, err := c.Solve(carbonate.PH(ph), carbonate.DIC(0), n)
	if err != nil {
		return 0, 0, err
	}
	h := math.Pow(10, -ph.Value())
	k12 := float64(c.K1 * c.K2)
	return float64(s.Alkalinity()), (float64(c.K1)*h + 2*k12) / (h*h + float64(c.K1)*h + k12), nil
}

// settled returns what carbon means for a sample of this alkalinity, or an error.
func (v *Vessel) settled(carbon Carbon, alkalinity units.AmountPerKilogram) (Carbon, error) {
	if carbon.kind == closedAt {
		s, err := v.Constants.Solve(carbonate.Alkalinity(alkalinity), carbonate.PH(carbon.ph), v.Nutrients)
		if err != nil {
			return Carbon{}, input.In("sample", err)
		}
		carbon = Closed(s.DIC())
	}
	return carbon, carbon.check()
}

func (c Carbon) check() error {
	if c.kind != closed {
		return nil
	}
	return input.Positive("DIC", float64(c.dic), "µmol/kg")
}

// dilution is the sample after an addition of acid.
type dilution struct {
	c      carbonate.Constants // of the mixture, on its total scale
	n      carbonate.Nutrients
	growth float64 // (m0 + m)/m0
	share  float64 // m0/(m0 + m)
	added  float64 // C m/m0, µmol/kg of sample
	move   float64 // [H] on the total scale of the mixture over that on the one of the sample
}

// diluted dilutes the contents, and moves the constants, which stay on the free
// scale, to the total scale of the mixture.
func (v *Vessel) diluted(acid units.Mass) dilution {
	d := dilution{
		c: v.Constants, n: v.Nutrients,
		growth: float64((v.Sample + acid) / v.Sample), share: float64(v.Sample / (v.Sample + acid)),
		added: float64(v.Apparent(acid)),
	}
	x := units.AmountPerKilogram(d.share)
	t := &d.c.Totals
	sulfate := t.Sulfate.MolesPerKilogram() / float64(d.c.KS)
	for _, content := range [...]*units.AmountPerKilogram{
		&t.Boron, &t.Sulfate, &t.Fluoride, &t.Calcium, &t.Magnesium,
		&d.n.Phosphate, &d.n.Silicate, &d.n.Ammonia, &d.n.Sulfide,
	} {
		*content *= x
	}
	d.move = (1 + sulfate*d.share) / (1 + sulfate)
	for _, k := range [...]*units.Scalar{
		&d.c.K1, &d.c.K2, &d.c.KB, &d.c.KW, &d.c.KP1, &d.c.KP2, &d.c.KP3, &d.c.KSi, &d.c.KH2S, &d.c.KNH4,
	} {
		*k *= units.Scalar(d.move)
	}
	return d
}

// alkalinity returns that of the mixture, of a sample of alkalinity ta.
func (d *dilution) alkalinity(ta float64) units.AmountPerKilogram {
	return units.AmountPerKilogram((ta - d.added) * d.share)
}

// carbon returns what is known of the CO2 of the mixture.
func (d *dilution) carbon(c Carbon) carbonate.Known {
	if c.kind == open && c.pco2 != 0 { // in air without CO2 there is none
		return carbonate.PartialPressure(c.pco2)
	}
	return carbonate.DIC(c.dic * units.AmountPerKilogram(d.share))
}

func (v *Vessel) check(acid units.Mass) error {
	if err := input.Positive("sample", v.Sample.Grams(), "g"); err != nil {
		return err
	}
	if err := input.Positive("acid", v.Acid.MolesPerKilogram(), "mol/kg"); err != nil {
		return err
	}
	if err := input.Set("constants.temperature", v.Constants.Temperature); err != nil {
		return err
	}
	return input.NotNegative("acid added", acid.Grams(), "g")
}

// noMixture stands beside an error.
func noMixture(acid units.Mass) Mixture {
	c := carbonate.At(units.Practical(math.NaN()), units.Celsius(math.NaN()), carbonate.Options{})
	s, _ := c.FromAlkalinityDIC(0, 0, carbonate.Nutrients{}) // of constants that are none: NaN
	return Mixture{Acid: acid, PH: carbonate.PHTotal(math.NaN()), System: s}
}
