package titration

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Gran is what the straight line through the function of Gran says.
type Gran struct {
	Alkalinity  units.AmountPerKilogram
	Uncertainty units.AmountPerKilogram // standard, from the scatter about the line: the line itself is off too
	Equivalence units.Mass              // acid at which the line crosses zero
	E0          units.Voltage           // of the electrode; for points as pH, what the meter is off, RT/F ln 10 a unit
	Points      int                     // in the window
}

// Gran draws a straight line through F in a window of pH and takes its zero for the
// equivalence point.
//
//	symbol   F = (m0 + m) h, a straight line in m; F(me) = 0; TA = C me/m0
//	         E0 = mean of E - k ln((m C - m0 TA)/(m0 + m))
//	source   [G52], as in [DSC] SOP 3b
//	range    pH 3 to 3.5 after the equivalence point. It is some µmol/kg off because
//	         of sulfate, fluoride and what is left of bicarbonate; FitOpen is not
//	outside  a *TooFewPointsError with fewer than three points in the window
//
// Points given as pH are put into the window as they are. For voltages the E0 that
// comes out decides; it starts from the last third of the curve.
func (v *Vessel) Gran(points []Point, w Window) (Gran, error) {
	w = w.or(AcidWindow())
	list, err := v.samples(points, granPoints)
	if err != nil {
		return noGran(), err
	}
	var g Gran
	draw := func(chosen []sample) (float64, error) {
		var err error
		g, err = v.gran(chosen)
		return float64(g.E0) / v.slope(), err
	}
	e0, calibrated := 0., points[0].kind == readPH
	if !calibrated && !w.all() {
		if e0, err = v.start(list); err != nil {
			return noGran(), err
		}
	}
	err = inside(list, w, granPoints, e0, func(chosen []sample) (float64, error) {
		e, err := draw(chosen)
		if calibrated {
			e = 0
		}
		return e, err
	})
	if err != nil {
		return noGran(), err
	}
	return g, nil
}

// granPoints leave the line one point more than it takes.
const granPoints = 3

// start returns E0/k by the line through the last third of a curve.
func (v *Vessel) start(list []sample) (float64, error) {
	n := max(granPoints, len(list)/3)
	g, err := v.gran(list[len(list)-min(n, len(list)):])
	return float64(g.E0) / v.slope(), err
}

// gran draws the line through all points of a list.
func (v *Vessel) gran(list []sample) (Gran, error) {
	n := float64(len(list))
	top := list[len(list)-1].lnH // F is in units of (m0 + m) there, so that it is never too large
	f := make([]float64, len(list))
	var meanM, meanF float64
	for i := range list {
		f[i] = float64((v.Sample+list[i].acid)/v.Sample) * math.Exp(list[i].lnH-top)
		meanM += float64(list[i].acid) / n
		meanF += f[i] / n
	}
	var mm, mf float64
	for i := range list {
		dm := float64(list[i].acid) - meanM
		mm += dm * dm
		mf += dm * (f[i] - meanF)
	}
	slope := mf / mm
	zero := meanM - meanF/slope
	if !(slope > 0 && zero > 0 && zero < float64(list[len(list)-1].acid)) {
		return noGran(), input.Bad("points", "a line without a zero between no acid and the last point",
			"points behind the equivalence point, at pH 3 to 3.5")
	}
	var scatter float64
	for i := range list {
		d := f[i] - meanF - slope*(float64(list[i].acid)-meanM)
		scatter += d * d
	}
	scatter /= n - 2
	spread := math.Sqrt(scatter*(1/n+(zero-meanM)*(zero-meanM)/mm)) / slope

	g := Gran{
		Alkalinity: v.Apparent(units.Mass(zero)), Uncertainty: v.Apparent(units.Mass(spread)),
		Equivalence: units.Mass(zero), Points: len(list),
	}
	var e0 float64
	count := 0
	for i := range list {
		excess := v.Acid.MolesPerKilogram() * (float64(list[i].acid) - zero) / float64(v.Sample+list[i].acid)
		if excess > 0 {
			e0 += list[i].lnH - math.Log(excess)
			count++
		}
	}
	g.E0 = units.Voltage(v.slope() * e0 / float64(count))
	if !(math.Abs(float64(g.E0)) <= math.MaxFloat64 && g.Alkalinity <= math.MaxFloat64 &&
		g.Uncertainty <= math.MaxFloat64) {
		return noGran(), units.ErrNoConvergence
	}
	return g, nil
}

// noGran stands beside an error.
func noGran() Gran {
	x := input.NaN[units.AmountPerKilogram]()
	return Gran{Alkalinity: x, Uncertainty: x, Equivalence: input.NaN[units.Mass](), E0: input.NaN[units.Voltage]()}
}
