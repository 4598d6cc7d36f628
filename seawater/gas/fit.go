package gas

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/units"
)

// Reading is one line of a log: when, and how much oxygen as a share of saturation,
// as a meter in percent shows it. One in mg/L or µmol/kg comes here by Share.
type Reading struct {
	At     time.Duration // since any moment
	Oxygen units.Fraction
}

// TransferFit is a transfer rate from a log, with standard uncertainties.
type TransferFit struct {
	Rate        TransferRate
	Uncertainty TransferRate

	// Saturation is where the readings go: as given, or as found with its
	// uncertainty.
	Saturation            units.Fraction
	SaturationUncertainty units.Fraction

	// Scatter is the standard deviation of the readings about the curve, and
	// Freedom the number of readings less that of fitted numbers: with few, a 95 %
	// interval is wider than two uncertainties, by Student's t.
	Scatter units.Fraction
	Freedom int
}

// FitDeficit returns the rate from a log of water that was emptied of oxygen (or
// supersaturated) and goes to a known saturation: the straight line through the
// logarithm of what is missing.
//
//	symbol   ln |Cs - C| = a - kLa t, weighted by (Cs - C)²
//	source   [ASCE], log-deficit method; the weights make the scatter of the readings
//	         themselves even [GUM]
//	units    t h
//
// All readings must lie on one side of saturation: end the log well before it, or
// use FitCurve. A wrong saturation bends the line, so that the rate is off by more
// than its uncertainty.
func FitDeficit(log []Reading, saturation units.Fraction) (TransferFit, error) {
	if !(saturation.Value() > 0 && saturation.Value() <= mostOxygen) {
		return noFit(), input.Bad("saturation", percent(saturation), "a share of saturation, above 0 and up to 500 %")
	}
	if err := checkLog(log, 3); err != nil {
		return noFit(), err
	}
	side := math.Copysign(1, float64(saturation.Value()-log[0].Oxygen.Value()))
	for i := range log {
		if !(side*float64(saturation.Value()-log[i].Oxygen.Value()) > 0) {
			return noFit(), input.Bad(line(i)+"oxygen", percent(log[i].Oxygen),
				"a reading on the same side of saturation ("+percent(saturation)+") as the first; end the log before, or fit the "+
					"saturation too")
		}
	}
	var a, b, sum, center, spread float64 // ln deficit = a + b (t - center)
	for round := range 50 {
		sum, center = 0, 0
		var y0 float64
		for i := range log {
			w, t, y := lineWeight(log, i, saturation, a, b, round)
			sum, center, y0 = sum+w, center+w*t, y0+w*y
		}
		center, y0 = center/sum, y0/sum
		var xy float64
		spread = 0
		for i := range log {
			w, t, y := lineWeight(log, i, saturation, a, b, round)
			spread, xy = spread+w*(t-center)*(t-center), xy+w*(t-center)*(y-y0)
		}
		slope := xy / spread
		done := math.Abs(slope-b) <= 1e-12*math.Abs(slope)
		b, a = slope, y0-slope*center
		if done {
			break
		}
	}
	if !(b < 0 && b >= -math.MaxFloat64) {
		return noFit(), input.Bad("log", "oxygen that does not approach saturation", "a log of water that does")
	}
	var square float64
	for i := range log {
		w, t, y := lineWeight(log, i, saturation, a, b, 1)
		square += w * (y - a - b*t) * (y - a - b*t)
	}
	f := TransferFit{Rate: TransferRate(-b), Saturation: saturation, Freedom: len(log) - 2}
	variance := square / float64(f.Freedom)
	f.Scatter = units.Share(math.Sqrt(variance))
	f.Uncertainty = TransferRate(math.Sqrt(variance / spread))
	if !sound(float64(f.Uncertainty)) {
		return noFit(), units.ErrNoConvergence
	}
	return f, nil
}

// lineWeight returns the weight, the time in hours since the first reading and the
// logarithm of the deficit of a reading. The weight is the square of the deficit:
// of the reading itself in the first round, of the line a + b t after it.
func lineWeight(log []Reading, i int, saturation units.Fraction, a, b float64, round int) (w, t, y float64) {
	d := math.Abs(float64(saturation.Value() - log[i].Oxygen.Value()))
	t, y = hours(log, i), math.Log(d)
	if round > 0 {
		d = math.Exp(a + b*t)
	}
	return d * d, t, y
}

// RateOfTwo returns the rate from two readings on the way to a known saturation, and its
// standard uncertainty from that of each reading.
//
//	symbol   kLa = ln((Cs - C1)/(Cs - C2))/(t2 - t1),
//	         u(kLa)² = u(C)² (1/(Cs - C1)² + 1/(Cs - C2)²)/(t2 - t1)²
//	source   [ASCE], log-deficit method of two points; propagation [GUM] 5.1.2
//	units    t h
//
// Both lie on one side of saturation. Two readings do not show that the saturation is the
// right one: a log does, see [FitDeficit] and [FitCurve].
func RateOfTwo(first, second Reading, saturation, ofEach units.Fraction) (rate, uncertainty TransferRate, err error) {
	nan := TransferRate(math.NaN())
	d1, d2 := saturation.Value()-first.Oxygen.Value(), saturation.Value()-second.Oxygen.Value()
	passed := (second.At - first.At).Hours()
	switch {
	case !(saturation.Value() > 0 && saturation.Value() <= mostOxygen):
		return nan, nan, input.Bad("saturation", percent(saturation), "a share of saturation, above 0 and up to 500 %")
	case !(passed > 0):
		return nan, nan, input.Bad("second.at", second.At.String(), "later than the first, "+first.At.String())
	case !(first.Oxygen.Value() >= 0 && first.Oxygen.Value() <= mostOxygen):
		return nan, nan, input.Bad("first.oxygen", percent(first.Oxygen), "a share of saturation, 0 to 500 %")
	case !(d1/d2 >= 1 && d1/d2 <= math.MaxFloat64):
		return nan, nan, input.Bad("second.oxygen", percent(second.Oxygen), "a reading between the first, "+
			percent(first.Oxygen)+", and saturation, "+percent(saturation))
	}
	if err := input.NotNegative("ofEach", ofEach.Value(), ""); err != nil {
		return nan, nan, err
	}
	return TransferRate(math.Log(d1/d2) / passed), TransferRate(ofEach.Value() * math.Hypot(1/d1, 1/d2) / passed), nil
}

// FitCurve returns rate and saturation from a log: for a meter whose 100 % one does
// not trust, and for water of which animals take oxygen, where it comes to rest
// below saturation.
//
//	symbol   C = Cs - A exp(-kLa t), least squares in Cs, A and kLa
//	source   [ASCE], non-linear method; uncertainties [GUM], from the curvature at the minimum
//	units    t h
//
// The log has to bend: it should last three times 1/kLa, or the two cannot be told
// apart and the uncertainties say so.
func FitCurve(log []Reading) (TransferFit, error) {
	if err := checkLog(log, 4); err != nil {
		return noFit(), err
	}
	span := hours(log, len(log)-1)
	shortest := span
	for i := 1; i < len(log); i++ {
		shortest = math.Min(shortest, hours(log, i)-hours(log, i-1))
	}
	// A ladder of rates, from a curve that hardly bends to one that is over before
	// the second reading; the least squares sum has its minimum between rungs.
	const rungs = 48
	low, high := 0.01/span, 20/shortest
	ratio := math.Pow(high/low, 1./rungs)
	best, least := 0, math.Inf(1)
	mean := meanOxygen(log)
	for i := 0; i <= rungs; i++ {
		if square, _ := misfit(log, mean, low*math.Pow(ratio, float64(i))); square < least {
			best, least = i, square
		}
	}
	if flat(log) || best == 0 || best == rungs {
		return noFit(), input.Bad("log", "readings that do not bend towards a saturation",
			"a log of three times the time in which two thirds of the deficit go")
	}
	k, ok := solve.Brent(func(k float64) float64 {
		_, slope := misfit(log, mean, k)
		return slope
	}, low*math.Pow(ratio, float64(best-1)), low*math.Pow(ratio, float64(best+1)), 0)
	if !ok {
		return noFit(), units.ErrNoConvergence
	}
	c := bestCurve(log, k)
	f := TransferFit{Rate: TransferRate(k), Saturation: units.Share(c.saturation), Freedom: len(log) - 3}
	variance := c.square / float64(f.Freedom)
	f.Scatter = units.Share(math.Sqrt(variance))
	saturationVariance, rateVariance := curvature(log, c)
	f.SaturationUncertainty = units.Share(math.Sqrt(variance * saturationVariance))
	f.Uncertainty = TransferRate(math.Sqrt(variance * rateVariance))
	if !sound(float64(f.Uncertainty)) || !sound(f.SaturationUncertainty.Value()) {
		return noFit(), units.ErrNoConvergence
	}
	return f, nil
}

// misfit returns the sum of squared residuals that the best curve of a rate
// leaves, less that of the mean, and half of its derivative by the rate, in one
// pass over the log. The two linear unknowns being at their best, the sum depends on
// the rate only through the exponential e:
//
//	Σ r² - Σ (C - C̄)² = -ef²/ee, ½ d/dk = -A Σ r t e, A = -ef/ee
//
// with ee = Σ (e - ē)² and ef = Σ (e - ē) (C - C̄).
func misfit(log []Reading, mean, k float64) (square, slope float64) {
	n := float64(len(log))
	// Counted from its last value, e keeps its digits where the curve is flat.
	e0 := math.Exp(-k * hours(log, len(log)-1))
	var e1, ee, ef float64 // sums of e, its square and its product with C - C̄
	var t1, te, tf float64 // the same with t e in the place of one e, or times t e
	for i := range log {
		t := hours(log, i)
		e := math.Exp(-k * t)
		d, f := e-e0, log[i].Oxygen.Value()-mean
		e1, ee, ef = e1+d, ee+d*d, ef+d*f
		t *= e
		t1, te, tf = t1+t, te+t*d, tf+t*f
	}
	ee -= e1 * e1 / n
	te -= t1 * e1 / n
	start := -ef / ee
	return -ef * ef / ee, -start * (tf + start*te)
}

func meanOxygen(log []Reading) float64 {
	var sum float64
	for i := range log {
		sum += log[i].Oxygen.Value()
	}
	return sum / float64(len(log))
}

// curve is the best curve of one rate: C = saturation - start exp(-rate t).
type curve struct {
	rate, saturation, start float64
	square                  float64 // sum of squared residuals
}

// bestCurve solves the two linear unknowns for a rate.
func bestCurve(log []Reading, k float64) curve {
	mean, n := meanOxygen(log), float64(len(log))
	var meanE float64
	for i := range log {
		meanE += math.Exp(-k*hours(log, i)) / n
	}
	var ee, ef float64
	for i := range log {
		e := math.Exp(-k*hours(log, i)) - meanE
		ee += e * e
		ef += e * (log[i].Oxygen.Value() - mean)
	}
	c := curve{rate: k, start: -ef / ee}
	c.saturation = mean + c.start*meanE
	for i := range log {
		r := log[i].Oxygen.Value() - c.saturation + c.start*math.Exp(-k*hours(log, i))
		c.square += r * r
	}
	return c
}

// curvature returns the diagonal of the inverse of JᵀJ for saturation and rate. The
// columns of J are 1, -exp(-kt) and A t exp(-kt).
func curvature(log []Reading, c curve) (saturation, rate float64) {
	var n, e1, g1, ee, eg, gg float64
	for i := range log {
		t := hours(log, i)
		e := -math.Exp(-c.rate * t)
		g := -c.start * t * e
		n, e1, g1 = n+1, e1+e, g1+g
		ee, eg, gg = ee+e*e, eg+e*g, gg+g*g
	}
	determinant := n*(ee*gg-eg*eg) - e1*(e1*gg-eg*g1) + g1*(e1*eg-ee*g1)
	return (ee*gg - eg*eg) / determinant, (n*ee - e1*e1) / determinant
}

func hours(log []Reading, i int) float64 { return (log[i].At - log[0].At).Hours() }

// checkLog refuses a log with too few readings, of impossible content or out of
// order.
func checkLog(log []Reading, least int) error {
	if len(log) < least {
		return input.Bad("log", input.Number(float64(len(log)))+" readings", "at least "+input.Number(float64(least)))
	}
	for i := range log {
		if !(log[i].Oxygen.Value() >= 0 && log[i].Oxygen.Value() <= mostOxygen) {
			return input.Bad(line(i)+"oxygen", percent(log[i].Oxygen), "a share of saturation, 0 to 500 %")
		}
		if i > 0 && !(hours(log, i) > hours(log, i-1)) {
			return input.Bad(line(i)+"time", log[i].At.String(), "a time after that of the reading before")
		}
	}
	return nil
}

// mostOxygen is what pure oxygen brings water to, and a little more. A number of percent
// that was meant for units.Percent is above it.
const mostOxygen = 5.0

func percent(f units.Fraction) string { return input.Fixed(f.Percent(), 1) + " %" }

// flat tells whether the readings are all one, so that no curve is better than
// another.
func flat(log []Reading) bool {
	for i := range log {
		if log[i].Oxygen.Value() != log[0].Oxygen.Value() {
			return false
		}
	}
	return true
}

func line(i int) string { return "reading " + input.Number(float64(i+1)) + ": " }

// sound tells whether x is a finite number of zero or more.
func sound(x float64) bool { return x >= 0 && x <= math.MaxFloat64 }

func noFit() TransferFit {
	nan := math.NaN()
	f := units.Share(nan)
	return TransferFit{
		Rate:                  TransferRate(nan),
		Uncertainty:           TransferRate(nan),
		Saturation:            f,
		SaturationUncertainty: f,
		Scatter:               f,
	}
}
