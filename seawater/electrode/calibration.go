package electrode

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Scale is a pH on one of the two scales for which there are buffers.
type Scale interface {
	carbonate.NBSPH | carbonate.TotalPH
	Value() float64
}

// on returns the pH of value x on the scale S.
func on[S Scale](x float64) S {
	var ph S
	switch p := any(&ph).(type) {
	case *carbonate.NBSPH:
		*p = carbonate.PHNBS(x)
	case *carbonate.TotalPH:
		*p = carbonate.PHTotal(x)
	}
	return ph
}

// Point is a reading in a buffer. Buffer.Point and SeawaterBuffer.Point make it;
// for a buffer with a table of its own write it down:
//
//	electrode.Point[carbonate.NBSPH]{
//		PH: carbonate.PHNBS(7.01), PHUncertainty: 0.01,
//		Reading: 4 * units.Millivolt, Temperature: units.Celsius(22),
//	}
type Point[S Scale] struct {
	PH            S       // of the buffer at the temperature
	PHUncertainty float64 // standard uncertainty of that
	PerKelvin     float64 // how much the pH of the buffer rises with temperature

	Reading     units.Voltage
	Temperature units.Temperature
	Uncertainty Uncertainty // of the two

	refused error // why Calibrate has to refuse it
}

// Uncertainty is how well a reading and the temperature of electrode and solution
// are known, as standard uncertainties; zero where something is known exactly. A
// display of the step d has d/√12 [GUM, 4.3.7].
type Uncertainty struct {
	Reading     units.Voltage // noise, drift and display
	Temperature units.TemperatureDifference
}

// PlusMinus returns the point with the uncertainty of reading and temperature. The
// pH of the buffer has one of its own, PHUncertainty.
func (p Point[S]) PlusMinus(u Uncertainty) Point[S] {
	p.Uncertainty = u
	return p
}

// Calibration is a calibrated electrode: how it turns pH on the scale S into
// millivolts and back. Calibrate and OnePoint make it; all of it can be stored and
// put together again, and an ideal electrode written down:
//
//	electrode.Calibration[carbonate.NBSPH]{Isopotential: carbonate.PHNBS(7), Slope: units.Percent(100)}
type Calibration[S Scale] struct {
	Isopotential S              // the pH at which the reading does not change with temperature
	Slope        units.Fraction // of the Nernst slope
	Offset       units.Voltage  // the reading at the isopotential point

	SlopeUncertainty  units.Fraction // standard uncertainty
	OffsetUncertainty units.Voltage  // standard uncertainty
	Correlation       units.Scalar   // of slope and offset, -1 to 1

	// IsopotentialUncertainty is that of the isopotential point, in units of pH.
	// Calibrate leaves it zero; a few tenths are common for electrodes of which
	// nothing is known (common practice). It counts as far as the temperature
	// is another than Temperature, exactly if all points had that.
	IsopotentialUncertainty units.Scalar
	Temperature             units.Temperature // mean of the points

	// Residual is the largest distance of a point from the line, in mV: zero for
	// two points, through which there always is a line.
	Residual units.Voltage
}

// nearest is how close two buffers of a calibration may be, in units of pH.
const nearest = 0.5

// Calibrate returns the calibration of an electrode from its readings in two or
// more buffers, each at its temperature. The isopotential point is a property of
// the electrode and of no effect where all temperatures are the same; nearly all
// are made for 7; outside 3 to 11 it is refused.
//
//	symbol   E = E0 - s k(T) (pH - pHi), fitted by least squares
//	source   [IUPAC] for the line through several buffers (from memory)
//
// Through three or more points there goes one line, too: glass is straight from pH 4
// to 10 within what buffers are known to, and a buffer that has gone bad shows as a
// Residual. A line from buffer to buffer, the other practice, would take it for
// the truth.
//
// The uncertainties of the points, taken as independent, become those of slope and
// offset to first order [GUM]. Where three or more points lie further off the line than
// that allows, both variances grow by as much:
//
//	symbol   max(1, Σ r²/Σ u² (1 - h)), r the residual of a point, u its uncertainty in mV,
//	         h its leverage; with one u for all it is χ²/(n - 2)
//	source   least squares; for points of which nothing is uncertain the residuals alone
//
// Findings says what the residuals mean (1 mV is 0.017 in pH).
//
// The error is a *SlopeError if no pH electrode gives these readings, a
// *units.RangeError for a temperature outside the table of a buffer and the like, and
// an *units.InputError for fewer than two points or buffers closer than 0.5:
// average the readings in one buffer before. Beside an error the calibration is of
// NaN and refused by its methods.
func Calibrate[S Scale](isopotential S, points ...Point[S]) (Calibration[S], error) {
	if err := checkIsopotential(isopotential.Value()); err != nil {
		return none[S](), err
	}
	if len(points) < 2 {
		return none[S](), input.Bad("points", input.Number(float64(len(points))), "two or more; OnePoint takes one")
	}
	for i := range points {
		if err := points[i].check(); err != nil {
			return none[S](), input.In(input.At("points", i), err)
		}
		for j := range points[:i] {
			if a, b := points[j].PH.Value(), points[i].PH.Value(); math.Abs(a-b) < nearest {
				return none[S](), input.Bad(
					"points "+input.Number(float64(j+1))+" and "+input.Number(float64(i+1)),
					"pH "+input.Fixed(a, 3)+" and "+input.Fixed(b, 3), "different buffers, 0.5 apart")
			}
		}
	}

	// x is -k (pH - pHi), so that the slope of E over x is s.
	n := float64(len(points))
	x := func(i int) float64 { return -points[i].k() * (points[i].PH.Value() - isopotential.Value()) }
	y := func(i int) float64 { return float64(points[i].Reading) }
	var meanX, meanY, meanT float64
	for i := range points {
		meanX += x(i) / n
		meanY += y(i) / n
		meanT += points[i].Temperature.Celsius() / n
	}
	var sxx, sxy float64
	for i := range points {
		sxx += (x(i) - meanX) * (x(i) - meanX)
		sxy += (x(i) - meanX) * (y(i) - meanY)
	}
	slope := sxy / sxx
	if err := checkSlope(slope); err != nil {
		return none[S](), err
	}
	offset := meanY - slope*meanX

	var varSlope, varOffset, covariance, residual, scatter, allowed float64
	for i := range points {
		p := &points[i]
		rest := y(i) - offset - slope*x(i)
		residual = math.Max(residual, math.Abs(rest))
		// What slope and offset change by with the reading, and with x.
		slopeY := (x(i) - meanX) / sxx
		offsetY := 1/n - meanX*slopeY
		slopeX := rest/sxx - slope*slopeY
		offsetX := -slope/n - meanX*slopeX
		// Uncertainties of the reading, and of x by the pH and the temperature.
		uy := float64(p.Uncertainty.Reading)
		uxPH := p.k() * p.PHUncertainty
		uxT := (x(i)/p.Temperature.Kelvin() - p.k()*p.PerKelvin) * p.Uncertainty.Temperature.CelsiusDegrees()
		ux2 := uxPH*uxPH + uxT*uxT
		varSlope += slopeY*slopeY*uy*uy + slopeX*slopeX*ux2
		varOffset += offsetY*offsetY*uy*uy + offsetX*offsetX*ux2
		covariance += slopeY*offsetY*uy*uy + slopeX*offsetX*ux2
		scatter += rest * rest
		allowed += (uy*uy + slope*slope*ux2) * (1 - 1/n - (x(i)-meanX)*slopeY)
	}
	switch {
	case len(points) == 2:
		residual = 0 // but for rounding
	case allowed > 0:
		wider := math.Max(1, scatter/allowed)
		varSlope, varOffset, covariance = wider*varSlope, wider*varOffset, wider*covariance
	default: // all is taken to be exact
		variance := scatter / (n - 2)
		varSlope, varOffset, covariance = variance/sxx, variance*(1/n+meanX*meanX/sxx), -variance*meanX/sxx
	}
	c := Calibration[S]{
		Isopotential: isopotential, Slope: units.Share(slope), Offset: units.Voltage(offset),
		SlopeUncertainty: units.Share(math.Sqrt(varSlope)), OffsetUncertainty: units.Voltage(math.Sqrt(varOffset)),
		Correlation: units.Scalar(correlation(covariance, varSlope, varOffset)),
		Temperature: units.Celsius(meanT), Residual: units.Voltage(residual),
	}
	if err := firstError(c.check(), c.checkUncertainties()); err != nil {
		return none[S](), err
	}
	return c, nil
}

// OnePoint returns the calibration of an electrode whose slope is taken over, with
// its standard uncertainty: from an earlier calibration, or 100 % of a new
// electrode. It sets the offset in one buffer.
//
// So an electrode gets its slope in the bottles 7 and 10 and its offset, and with it
// the total scale, in tris: the slope, a share of the Nernst slope, is the same on
// both.
func OnePoint[S Scale](isopotential S, p Point[S], slope, uncertainty units.Fraction) (Calibration[S], error) {
	err := checkIsopotential(isopotential.Value())
	if err == nil {
		err = p.check()
	}
	if err == nil {
		err = checkSlope(slope.Value())
	}
	if err == nil {
		err = input.NotNegative("uncertainty of the slope", uncertainty.Value(), "")
	}
	if err != nil {
		return none[S](), err
	}
	s, k, away := slope.Value(), p.k(), p.PH.Value()-isopotential.Value()
	bySlope := k * away * uncertainty.Value()
	byPH := s * k * p.PHUncertainty
	byTemperature := s * k * (away/p.Temperature.Kelvin() + p.PerKelvin) * p.Uncertainty.Temperature.CelsiusDegrees()
	varOffset := bySlope*bySlope + byPH*byPH + byTemperature*byTemperature + square(float64(p.Uncertainty.Reading))
	c := Calibration[S]{
		Isopotential: isopotential, Slope: slope, Offset: p.Reading + units.Voltage(s*k*away),
		SlopeUncertainty: uncertainty, OffsetUncertainty: units.Voltage(math.Sqrt(varOffset)),
		Correlation: units.Scalar(correlation(bySlope*uncertainty.Value(), square(uncertainty.Value()), varOffset)),
		Temperature: p.Temperature,
	}
	if err := firstError(c.check(), c.checkUncertainties()); err != nil {
		return none[S](), err
	}
	return c, nil
}

// k returns the Nernst slope at the point, mV.
func (p *Point[S]) k() float64 { return float64(Nernst(p.Temperature)) }

func (p *Point[S]) check() error {
	if p.refused != nil {
		return p.refused
	}
	if err := input.Set("temperature of the buffer", p.Temperature); err != nil {
		return err
	}
	if err := glassTemperature.Check(p.Temperature.Celsius()); err != nil {
		return err
	}
	if err := glassPH.Check(p.PH.Value()); err != nil {
		return err
	}
	if err := glassVoltage.Check(float64(p.Reading)); err != nil {
		return err
	}
	if err := input.NotNegative("uncertainty of the pH", p.PHUncertainty, ""); err != nil {
		return err
	}
	if !(math.Abs(p.PerKelvin) <= 1) {
		return input.Bad("change of the pH per kelvin", input.Number(p.PerKelvin), "-1 to 1, as of a buffer")
	}
	return p.Uncertainty.check()
}

func (u Uncertainty) check() error {
	if err := input.NotNegative("uncertainty of the reading", float64(u.Reading), "mV"); err != nil {
		return err
	}
	return input.NotNegative("uncertainty of the temperature", u.Temperature.CelsiusDegrees(), "K")
}

func checkIsopotential(ph float64) error {
	return glassIsopotential.Check(ph)
}

// check refuses what cannot be a calibration, such as the zero value.
func (c *Calibration[S]) check() error {
	if err := checkSlope(c.Slope.Value()); err != nil {
		return err
	}
	if err := checkIsopotential(c.Isopotential.Value()); err != nil {
		return err
	}
	return input.As("offset", glassVoltage.Check(float64(c.Offset)))
}

// none stands beside an error.
func none[S Scale]() Calibration[S] {
	nan := math.NaN()
	return Calibration[S]{
		Isopotential: on[S](nan), Slope: units.Share(nan), Offset: units.Voltage(nan),
		SlopeUncertainty: units.Share(nan), OffsetUncertainty: units.Voltage(nan), Correlation: units.Scalar(nan),
		IsopotentialUncertainty: units.Scalar(nan), Residual: units.Voltage(nan), Temperature: units.Celsius(nan),
	}
}

// correlation is that of two quantities with this covariance and these variances.
func correlation(covariance, a, b float64) float64 {
	if !(a > 0 && b > 0) {
		return 0
	}
	return math.Max(-1, math.Min(1, covariance/math.Sqrt(a*b)))
}

func square(x float64) float64 { return x * x }
