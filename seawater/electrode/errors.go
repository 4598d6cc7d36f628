package electrode

import (
	"errors"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// ErrSlope is the error of readings that are not those of a pH electrode, for errors.Is.
var ErrSlope = errors.New("not the slope of a pH electrode")

// SlopeError reports readings in buffers that no pH electrode gives: the slope
// that they make, as a share of the Nernst slope, and what is likely wrong.
// errors.Is(err, ErrSlope) is true for it.
type SlopeError struct {
	Slope  units.Fraction
	Reason string
}

// Error reads "slope of 3.2 %: not the slope of a pH electrode: ...".
func (e *SlopeError) Error() string {
	percent := input.Number(e.Slope.Percent())
	if math.Abs(e.Slope.Percent()) < 1e4 {
		percent = input.Fixed(e.Slope.Percent(), 1)
	}
	return "slope of " + percent + " %: " + ErrSlope.Error() + ": " + e.Reason
}

// Is makes errors.Is(err, ErrSlope) true.
func (e *SlopeError) Is(target error) bool { return target == ErrSlope }

// checkSlope refuses the slope of what cannot be a pH electrode.
func checkSlope(slope float64) error {
	reason := ""
	switch {
	case slope >= glassSlope.Min && slope <= glassSlope.Max:
		return nil
	case slope <= -0.05:
		reason = "the readings rise with pH: the buffers are swapped, or the leads"
	case slope < 0.05:
		reason = "all buffers give nearly the same voltage: the electrode is broken, its lead shorted, or its cap on"
	case slope < glassSlope.Min:
		reason = "below 50 %: the electrode is worn out, or a buffer is not what it is taken for"
	case slope > glassSlope.Max:
		reason = "above 120 %: a buffer is not what it is taken for"
	default:
		reason = "no number"
	}
	return &SlopeError{Slope: units.Share(slope), Reason: reason}
}
