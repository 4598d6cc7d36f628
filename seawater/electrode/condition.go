package electrode

import "example.org/wellmixed/units"

// Condition is what a number of a calibration says of the electrode.
type Condition uint8

// The conditions.
const (
	Unknown Condition = iota // nothing tells
	Good
	Clean    // serviceable: clean it and calibrate again
	Replace  // not to be trusted, unless cleaning helps
	Doubtful // of no electrode: the calibration went wrong
)

// Finding is a condition with the sentence that goes with it.
type Finding struct {
	Condition Condition
	Text      string
}

// Findings judges an electrode and its calibration: by the slope, by the offset, and
// by how well the points lie on one line.
type Findings struct{ Slope, Offset, Points Finding }

// The bounds of the conditions, common practice.
const (
	goodSlope, cleanSlope, highestSlope = 0.95, 0.90, 1.02
	goodOffset, cleanOffset             = 15, 30  // mV from 0, at pH 7
	goodResidual, cleanResidual         = 1.5, 3. // mV
)

// Findings judges the electrode by its slope and by its offset, the reading at pH 7
// and 25 °C. The bounds are common practice: a slope of 95 to 102 % is good, of 90 to
// 95 % asks for cleaning; an offset within 15 mV is good, within 30 mV asks for
// cleaning. On the total scale the same electrode gives 8 mV less at pH 7, which
// the bounds have room for. The slope of OnePoint is the one it was given.
//
// A Residual of three or more points up to 1.5 mV is good, up to 3 mV asks for another
// calibration; more is a spoiled buffer or a slip. One and two points leave none, so that
// their Points is Unknown: a spoiled buffer is then taken for the truth.
//
// Cleaning means what the maker of the electrode says of it: acids and bleach are
// for gloved hands, and away from the tank.
func (c Calibration[S]) Findings() Findings {
	if c.check() != nil {
		none := Finding{Doubtful, "This is no calibration of a pH electrode: calibrate again."}
		return Findings{none, none, none}
	}
	var slope, offset, points Finding
	switch s := c.Slope.Value(); {
	case s > highestSlope:
		slope = Finding{
			Doubtful,
			"The slope is steeper than an electrode can be: a buffer or its temperature is not what it is taken for. " +
				"Calibrate again in fresh buffers.",
		}
	case s >= goodSlope:
		slope = Finding{Good, "The slope is that of a sound electrode."}
	case s >= cleanSlope:
		slope = Finding{
			Clean,
			"The slope is low: clean and soak the electrode as its maker says, and calibrate again in fresh buffers.",
		}
	default:
		slope = Finding{
			Replace,
			"The slope is too low: replace the electrode if it is the same after cleaning, in fresh buffers.",
		}
	}
	atNeutral := c.Offset - c.perUnit(units.Celsius(25))*units.Voltage(7-c.Isopotential.Value())
	switch e := float64(atNeutral); {
	case e >= -goodOffset && e <= goodOffset:
		offset = Finding{Good, "The offset is that of a sound electrode."}
	case e >= -cleanOffset && e <= cleanOffset:
		offset = Finding{
			Clean,
			"The offset is large: clean the junction and refill the electrode, if it can be, and calibrate again.",
		}
	default:
		offset = Finding{
			Replace,
			"The offset is too large: the reference is spent or poisoned. Replace the electrode if it is the same after " +
				"cleaning, in fresh buffers.",
		}
	}
	switch r := float64(c.Residual); {
	case r == 0:
		points = Finding{
			Unknown,
			"Through one or two points there always is a line: a third buffer tells whether all are sound.",
		}
	case r > 0 && r <= goodResidual:
		points = Finding{Good, "The points lie on one line."}
	case r > 0 && r <= cleanResidual:
		points = Finding{
			Clean,
			"The points lie badly on one line: clean the electrode, wait for steady readings, and calibrate again in " +
				"fresh buffers.",
		}
	default:
		points = Finding{
			Doubtful,
			"The points do not lie on one line: a buffer is not what it is taken for, or was not read until it was steady. " +
				"Calibrate again in fresh buffers.",
		}
	}
	return Findings{slope, offset, points}
}
