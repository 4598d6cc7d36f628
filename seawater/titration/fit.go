package titration

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
	"gonum.org/v1/gonum/mat"
)

// Fit is what a least-squares fit of a titration curve finds.
type Fit struct {
	Alkalinity units.AmountPerKilogram
	DIC        units.AmountPerKilogram // fitted or given; 0 of FitOpen
	// E0 is that of the electrode, for [H] in mol/kg on the total scale of the sample.
	// For points given as pH it is what the meter is off: RT/F ln 10, 59.16 mV at 25
	// °C, for each unit that it shows too little.
	E0 units.Voltage
	K1 units.Scalar // of the sample on its total scale: fitted, or that of the constants

	Standard FitUncertainty
	// Covariance, of the scatter alone, is of alkalinity (µmol/kg), DIC (µmol/kg), E0 (mV) and pK1, in this
	// order; rows of what was not fitted are zero.
	Covariance [4][4]float64
	Residual   units.AmountPerKilogram // root mean square, with the degrees of freedom: sqrt(Σr²/(n-p))
	Points     int                     // that took part
}

// FitUncertainty holds the standard uncertainties that the scatter about the fit
// leaves, if all residuals are equally good. Noise that is the same in millivolts at all
// points makes the acid ones worse: that of alkalinity is then stated a tenth too large,
// and in a closed cell that of DIC by half too large, of E0 by a third too small.
//
// Alkalinity of FitClosed and FitClosedK1 also covers what the model gets wrong, as far
// as the curve shows it: where the alkalinity that its points of pH 3 to 4 give alone,
// with the DIC found, differs by more than three times its own standard uncertainty, the
// difference is added in quadrature.
//
// The uncertainties of the strength of the acid and of the mass of the sample come on
// top, each by its own share of the alkalinity; those of the constants too.
type FitUncertainty struct {
	Alkalinity, DIC units.AmountPerKilogram
	E0              units.Voltage
	PK1             units.Scalar
}

// The parameters of a fit; the last ones may be left out.
const (
	ofAlkalinity = iota
	ofE0
	ofDIC
	ofK1
	parameters
)

// FitOpen fits alkalinity and E0 to the acid end of a curve, CO2 having been driven
// out: the open-cell titration of SOP 3b.
//
//	symbol   r = TA + (m0 + m)/m0 ([H] + [HSO4] + [HF] - [OH] - ...) - C m/m0, Σr² least;
//	         written out with Z = 1 + ST/KS and the ST, FT of the sample,
//	         r = TA + ST/(1 + KS Z/h) + FT/(1 + KF Z/h) + (m0 + m)/m0 (h/Z - KW/h) - C m/m0
//	source   [DSC] SOP 3b. Borate, 0.003 µmol/kg there, and nutrients count too
//	units    h from the reading with E0; KS and KF on the free scale, KW on the total
//	range    AcidWindow, pH 3 to 3.5, which the zero Window means too; the E0 that is found
//	         decides which points lie in it, from a start as for Gran
//	outside  a *TooFewPointsError with fewer than three points in the window
//
// Residual does not tell whether all CO2 was gone: E0 takes up nearly all of what is
// left. At alkalinity 2300 a DIC of 2000 that stayed makes the alkalinity 10 µmol/kg low
// with a Residual of 0.5, and 200 makes it 1.0 low with 0.05. FitClosed finds what DIC
// there was, of a curve from the sample on.
//
// The guide prints 2260.06 µmol/kg and 0.394401 V for its example. With the
// recommended constants this fit gives 2260.08 and 0.394391 of all its 21 points,
// 2260.45 and 0.394402 of the 20 up to pH 3.5, where rounding of the printed mass,
// strength and density leaves 0.20 µmol/kg open. The scatter of the points leaves 0.36
// µmol/kg and 13 µV. KF matters: with that of Perez and Fraga it is 2259.04 and
// 0.394461, and where that is taken for one on the free scale, 2259.95 and 0.394401.
func (v *Vessel) FitOpen(points []Point, w Window) (Fit, error) {
	list, e0, err := v.begun(points, acidPoints)
	if err != nil {
		return noFit(), err
	}
	return v.fitInside(list, w.or(AcidWindow()), e0, 0)
}

// FitClosedDIC fits alkalinity and E0 to the acid end of the curve of a closed cell whose
// DIC is known. It is the one to take for the alkalinity of a closed cell: at pH 3 to 4
// little of the DIC is charged, so a wrong K1 or K2 and weak acids that nobody counted
// hardly bear on it. An electrode of 99 % slope does, by -5 µmol/kg in 2300.
//
//	symbol   r of FitClosed, with this DIC
//	source   [DSC] chapter 5 and SOP 3a for the cell
//	range    pH 3 to 4, which the zero Window means here
//	outside  a *TooFewPointsError with fewer than three points in the window; DIC
//	         below zero or not a number: an error
//
// DIC need not be known well: 100 µmol/kg of it move the alkalinity by 1. That of
// FitClosed of the same points will do:
//
//	whole, err := cell.FitClosed(points)
//	f, err := cell.FitClosedDIC(points, whole.DIC, titration.Window{})
func (v *Vessel) FitClosedDIC(points []Point, dic units.AmountPerKilogram, w Window) (Fit, error) {
	if err := input.NotNegative("DIC", float64(dic), "µmol/kg"); err != nil {
		return noFit(), err
	}
	list, e0, err := v.begun(points, acidPoints)
	if err != nil {
		return noFit(), err
	}
	return v.fitInside(list, w.or(closedWindow()), e0, float64(dic))
}

// closedWindow returns pH 3 to 4, where the alkalinity of a closed cell hangs on its DIC
// by a hundredth at most.
func closedWindow() Window { return Window{carbonate.PHTotal(3), carbonate.PHTotal(4)} }

// acidPoints leave a fit of alkalinity and E0 one point more than it takes.
const acidPoints = ofE0 + 2

// begun checks a curve and returns it with an E0/k to start from.
func (v *Vessel) begun(points []Point, need int) (list []sample, e0 float64, err error) {
	list, err = v.samples(points, need)
	if err == nil && points[0].kind == readEMF {
		e0, err = v.start(list)
	}
	return list, e0, err
}

// fitInside fits alkalinity and E0 to the points that lie in a window with the E0 that is
// found.
func (v *Vessel) fitInside(list []sample, w Window, e0, dic float64) (Fit, error) {
	var f Fit
	err := inside(list, w, acidPoints, e0, func(chosen []sample) (float64, error) {
		var err error
		f, err = v.fit(chosen, ofE0+1, theta{ofE0: e0, ofDIC: dic})
		return float64(f.E0) / v.slope(), err
	})
	if err != nil {
		return noFit(), err
	}
	return f, nil
}

// FitClosed fits alkalinity, DIC and E0 to the whole curve of a closed cell, which
// keeps its CO2.
//
//	symbol   r = TA - C m/m0 - (m0 + m)/m0 A(h; DIC m0/(m0 + m)), Σr² least
//	source   [D81]; A is the alkalinity of package carbonate
//	range    from the sample to pH 3
//	outside  a *TooFewPointsError with fewer than four points
//
// It asks much of the model. A titration of a certified reference material (batch 144,
// 2238.6 µmol/kg; reported by a user, not among the tests) gave 2250.7 by all its points,
// and 2238.66 by those of pH 3 to 4 with the DIC known: for alkalinity FitClosedDIC is the
// better fit. Standard covers how far the two are apart.
func (v *Vessel) FitClosed(points []Point) (Fit, error) { return v.fitClosed(points, ofDIC+1) }

// FitClosedK1 is FitClosed for K1 as well, five points at the least: a wrong K1
// makes the residuals of FitClosed wavy. K2 stays that of the constants.
func (v *Vessel) FitClosedK1(points []Point) (Fit, error) { return v.fitClosed(points, ofK1+1) }

func (v *Vessel) fitClosed(points []Point, p int) (Fit, error) {
	list, e0, err := v.begun(points, p+1)
	if err != nil {
		return noFit(), err
	}
	f, err := v.fit(list, p, theta{ofE0: e0})
	if err != nil {
		return noFit(), err
	}
	acid, err := v.fitInside(list, closedWindow(), float64(f.E0)/v.slope(), float64(f.DIC))
	if err != nil {
		return f, nil // the curve has no acid end to compare with
	}
	if apart := math.Abs(float64(f.Alkalinity - acid.Alkalinity)); apart > clearly*float64(acid.Standard.Alkalinity) {
		f.Standard.Alkalinity = units.AmountPerKilogram(math.Hypot(float64(f.Standard.Alkalinity), apart))
	}
	return f, nil
}

// clearly is the factor from a standard uncertainty to what scatter hardly ever makes: 3 in
// 1000 times [GUM, table G.1].
const clearly = 3

// theta are the parameters: µmol/kg, E0/k, µmol/kg, and ln of K1 over that of the
// constants.
type theta [parameters]float64

// fit finds the first p parameters, from x on; the others stay as they are there. K1 means
// nothing before there is some DIC, so it joins last.
func (v *Vessel) fit(list []sample, p int, x theta) (Fit, error) {
	m := model{list: list, mixtures: make([]dilution, len(list))}
	for i := range list {
		m.mixtures[i] = v.diluted(list[i].acid)
	}
	for q := min(p, ofDIC+1); q <= p; q++ {
		m.p, m.r, m.j = q, make([]float64, len(list)), make([]float64, len(list)*q)
		if err := m.minimise(&x); err != nil {
			return noFit(), err
		}
	}
	return v.report(&m, &x)
}

// minimise takes steps of Gauss and Newton, halved where the sum of squares does not
// fall. Alkalinity and DIC are linear; only E0 and K1 make more than one step
// necessary.
func (m *model) minimise(x *theta) error {
	sum, err := m.at(x)
	if err != nil {
		return err
	}
	var qr mat.QR
	for range steps {
		qr.Factorize(mat.NewDense(len(m.r), m.p, m.j))
		var d mat.VecDense
		if err := qr.SolveVecTo(&d, false, mat.NewVecDense(len(m.r), m.r)); err != nil {
			return units.ErrNoConvergence // the points do not tell these parameters apart
		}
		size := 0. // of the step, each parameter in its own measure
		for i := range m.p {
			unit := 1.
			if i == ofAlkalinity || i == ofDIC {
				unit = math.Abs(x[i]) + 1
			}
			size = math.Max(size, math.Abs(d.AtVec(i))/unit)
		}
		if !(size <= math.MaxFloat64) {
			return units.ErrNoConvergence
		}
		last, share, better := *x, 1., false
		for range halvings {
			*x = last
			for i := range m.p {
				x[i] -= share * d.AtVec(i)
			}
			if next, err := m.at(x); err == nil && next < sum {
				sum, better = next, true
				break
			}
			share /= 2
		}
		if !better { // there is no way further down, or none that is not rounding
			*x = last
			if _, err := m.at(x); err != nil || size > rounding {
				return units.ErrNoConvergence
			}
			return nil
		}
		if size < fine {
			return nil
		}
	}
	return units.ErrNoConvergence
}

const (
	steps    = 100
	halvings = 40
	fine     = 1e-10 // a step that no longer matters
	rounding = 1e-6  // a step that rounding may keep from doing any good
)

// model computes residuals r, in µmol/kg of sample, and their derivatives j, by rows.
type model struct {
	list     []sample
	mixtures []dilution
	p        int
	r, j     []float64
}

// at fills in r and j and returns the sum of squares.
func (m *model) at(x *theta) (float64, error) {
	sum := 0.
	for i := range m.list {
		d := &m.mixtures[i]
		lnH := m.list[i].lnH - x[ofE0] + math.Log(d.move) // total scale of the mixture
		rest, err := d.c.Solve(carbonate.PH(carbonate.PHTotal(-lnH/math.Ln10)), carbonate.DIC(0), d.n)
		if err != nil {
			return 0, err
		}
		slope := float64(rest.Buffers().BetaAlkalinity) // dA/dln h
		r := x[ofAlkalinity] - d.added - d.growth*float64(rest.Alkalinity())
		byE0 := d.growth * slope
		if m.p > ofDIC || x[ofDIC] != 0 {
			h := math.Exp(lnH)
			k1 := float64(d.c.K1) * math.Exp(x[ofK1])
			k12 := k1 * float64(d.c.K2)
			all := h*h + k1*h + k12
			one, two := k1*h/all, k12/all
			mean := one + 2*two
			r -= x[ofDIC] * mean
			byE0 -= x[ofDIC] * (one + 4*two - mean*mean)
			if m.p > ofDIC {
				m.j[i*m.p+ofDIC] = -mean
			}
			if m.p > ofK1 {
				m.j[i*m.p+ofK1] = -x[ofDIC] * mean * (h * h / all)
			}
		}
		m.r[i] = r
		m.j[i*m.p+ofAlkalinity] = 1
		m.j[i*m.p+ofE0] = byE0
		sum += r * r
	}
	if !(sum <= math.MaxFloat64) {
		return 0, units.ErrNoConvergence
	}
	return sum, nil
}

// report writes the result down. The covariance is s² (J'J)⁻¹, s² = Σr²/(n - p).
func (v *Vessel) report(m *model, x *theta) (Fit, error) {
	n, p, k := len(m.list), m.p, v.slope()
	sum := 0.
	for _, r := range m.r {
		sum += r * r
	}
	var qr mat.QR
	qr.Factorize(mat.NewDense(n, p, m.j))
	var r mat.Dense
	qr.RTo(&r)
	var upper mat.TriDense
	square := mat.NewTriDense(p, mat.Upper, nil)
	for i := range p {
		for j := i; j < p; j++ {
			square.SetTri(i, j, r.At(i, j))
		}
	}
	if err := upper.InverseTri(square); err != nil {
		return noFit(), units.ErrNoConvergence
	}
	s2 := sum / float64(n-p)
	f := Fit{
		Alkalinity: units.AmountPerKilogram(x[ofAlkalinity]), DIC: units.AmountPerKilogram(x[ofDIC]),
		E0: units.Voltage(k * x[ofE0]), K1: units.Scalar(float64(v.Constants.K1) * math.Exp(x[ofK1])),
		Residual: units.AmountPerKilogram(math.Sqrt(s2)), Points: n,
	}
	// In the order and the units of Covariance.
	place := [parameters]int{ofAlkalinity: 0, ofDIC: 1, ofE0: 2, ofK1: 3}
	unit := [parameters]float64{ofAlkalinity: 1, ofDIC: 1, ofE0: k, ofK1: -1 / math.Ln10}
	for i := range p {
		for j := range p {
			c := 0.
			for l := max(i, j); l < p; l++ {
				c += upper.At(i, l) * upper.At(j, l)
			}
			f.Covariance[place[i]][place[j]] = s2 * c * unit[i] * unit[j]
		}
	}
	f.Standard = FitUncertainty{
		Alkalinity: units.AmountPerKilogram(math.Sqrt(f.Covariance[0][0])),
		DIC:        units.AmountPerKilogram(math.Sqrt(f.Covariance[1][1])),
		E0:         units.Voltage(math.Sqrt(f.Covariance[2][2])), PK1: units.Scalar(math.Sqrt(f.Covariance[3][3])),
	}
	for _, x := range [...]float64{
		float64(f.Standard.Alkalinity),
		float64(f.Standard.DIC),
		float64(f.Standard.E0),
		float64(f.Standard.PK1),
		float64(f.K1),
	} {
		if !(x <= math.MaxFloat64) {
			return noFit(), units.ErrNoConvergence
		}
	}
	return f, nil
}

// noFit stands beside an error.
func noFit() Fit {
	x, nan := input.NaN[units.AmountPerKilogram](), math.NaN()
	return Fit{
		Alkalinity: x, DIC: x, E0: units.Voltage(nan), K1: units.Scalar(nan), Residual: x,
		Standard: FitUncertainty{x, x, units.Voltage(nan), units.Scalar(nan)},
	}
}
