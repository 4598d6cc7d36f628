package electrode

import "example.org/wellmixed/units"

// Condition is what a slope or an offset says of an electrode.
type Condition uint8

// The conditions.
const (
	Good     Condition = iota + 1
	Clean              // serviceable: clean it and calibrate again
	Replace            // not to be trusted, unless cleaning helps
	Doubtful           // of no electrode: the calibration went wrong
)

// Finding is a condition with the sentence that goes with it.
type Finding struct {
	Condition Condition
	Text      string
}

// The bounds of the conditions, common practice.
const (
	goodSlope, cleanSlope, highestSlope = 0.95, 0.90, 1.02
	goodOffset, cleanOffset             = 15, 30 // mV from 0, at pH 7
)

// Findings judges the electrode by its slope and by its offset, the reading at pH 7
// and 25 °C. The bounds are common practice: a slope of 95 to 102 % is good, of 90 to
// 95 % asks for cleaning; an offset within 15 mV is good, within 30 mV asks for
// cleaning. On the total scale the same electrode gives 8 mV less at pH 7, which
// the bounds have room for. The slope of OnePoint is the one it was given.
//
// Cleaning means what the maker of the electrode says of it: acids and bleach are
// for gloved hands, and away from the tank.
func (c Calibration[S]) Findings() (slope, offset Finding) {
	if c.check() != nil {
		none := Finding{Doubtful, "This is no calibration of a pH electrode: calibrate again."}
		return none, none
	}
	switch s := float64(c.Slope); {
	case s > highestSlope:
		slope = Finding{Doubtful, "The slope is steeper than an electrode can be: a buffer or its temperature is not what it is taken for. Calibrate again in fresh buffers."}
	case s >= goodSlope:
		slope = Finding{Good, "The slope is that of a sound electrode."}
	case s >= cleanSlope:
		slope = Finding{Clean, "The slope is low: clean and soak the electrode as its maker says, and calibrate again in fresh buffers."}
	default:
		slope = Finding{Replace, "The slope is too low: replace the electrode if it is the same after cleaning, in fresh buffers."}
	}
	atNeutral := c.Offset - c.perUnit(units.Celsius(25))*units.Voltage(7-c.Isopotential.Value())
	switch e := float64(atNeutral); {
	case e >= -goodOffset && e <= goodOffset:
		offset = Finding{Good, "The offset is that of a sound electrode."}
	case e >= -cleanOffset && e <= cleanOffset:
		offset = Finding{Clean, "The offset is large: clean the junction and refill the electrode, if it can be, and calibrate again."}
	default:
		offset = Finding{Replace, "The offset is too large: the reference is spent or poisoned. Replace the electrode if it is the same after cleaning, in fresh buffers."}
	}
	return slope, offset
}
