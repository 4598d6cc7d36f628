package titration

import (
	"errors"
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Point is one point of a titration curve: the acid so far, and what the electrode
// shows. It is made by PH or EMF; all points of a curve are made by the same one.
type Point struct {
	acid units.Mass
	kind reading
	x    float64 // pH, or mV
}

type reading uint8

const (
	noReading reading = iota
	readPH
	readEMF
)

// PH returns the point at which a meter shows this pH after so much acid in all,
// given as a mass: AcidDensity or a balance takes a volume there. A pH on another
// scale comes here by its Total, with the constants of the sample.
func PH(acid units.Mass, ph carbonate.TotalPH) Point { return Point{acid, readPH, ph.Value()} }

// EMF returns the point at which a cell with a glass electrode gives this voltage
// after so much acid in all. It has to rise with the acid, by RT/F ln 10 a unit of pH.
func EMF(acid units.Mass, e units.Voltage) Point { return Point{acid, readEMF, e.Millivolts()} }

// Acid returns the acid added so far.
func (p Point) Acid() units.Mass { return p.acid }

// PH returns the pH, NaN if the point was made by EMF.
func (p Point) PH() carbonate.TotalPH {
	if p.kind != readPH {
		return carbonate.PHTotal(math.NaN())
	}
	return carbonate.PHTotal(p.x)
}

// EMF returns the voltage, NaN if the point was made by PH.
func (p Point) EMF() units.Voltage {
	if p.kind != readEMF {
		return input.NaN[units.Voltage]()
	}
	return units.Voltage(p.x)
}

// Window is the stretch of pH of which the points count. The zero value is
// AcidWindow, for FitClosedDIC pH 3 to 4: a curve that begins at the sample, taken as a
// whole, gives half the alkalinity.
type Window struct{ Low, High carbonate.TotalPH }

// AcidWindow returns pH 3 to 3.5, where SOP 3b measures [DSC].
func AcidWindow() Window { return Window{carbonate.PHTotal(3), carbonate.PHTotal(3.5)} }

// WholeCurve returns the window of all points, for a curve that was measured in the acid
// window only.
func WholeCurve() Window {
	return Window{carbonate.PHTotal(math.Inf(-1)), carbonate.PHTotal(math.Inf(1))}
}

func (w Window) all() bool { return w == WholeCurve() }

// or returns the window that w stands for where its zero value means usual.
func (w Window) or(usual Window) Window {
	if w == (Window{}) {
		return usual
	}
	return w
}

func (w Window) holds(ph float64) bool { return ph >= w.Low.Value() && ph <= w.High.Value() }

// String writes "pH 3 to 3.5" or "the curve".
func (w Window) String() string {
	w = w.or(AcidWindow())
	if w.all() {
		return "the curve"
	}
	return "pH " + input.Number(w.Low.Value()) + " to " + input.Number(w.High.Value())
}

// ErrTooFewPoints is the kind of a *TooFewPointsError, for errors.Is.
var ErrTooFewPoints = errors.New("too few points")

// TooFewPointsError reports that a window of a curve holds fewer points than it
// takes; Got is 0 where it holds none. errors.Is is true for ErrTooFewPoints and
// units.ErrInput.
type TooFewPointsError struct {
	Got, Need int
	Window    Window
}

// Error reads "too few points: 1 in pH 3 to 3.5, 3 needed".
func (e *TooFewPointsError) Error() string {
	return ErrTooFewPoints.Error() + ": " + input.Number(float64(e.Got)) + " in " + e.Window.String() + ", " +
		input.Number(float64(e.Need)) + " needed"
}

// Is makes errors.Is true for both kinds.
func (e *TooFewPointsError) Is(target error) bool {
	return target == ErrTooFewPoints || target == units.ErrInput
}

// backlash is how far a reading may go back from one point to the next: noise,
// in units of pH.
const backlash = 0.05

// sample is a point as the fits use it.
type sample struct {
	acid units.Mass
	lnH  float64 // ln h, but for E0/k
}

// ph returns the pH for e0 = E0/k.
func (s *sample) ph(e0 float64) float64 { return -(s.lnH - e0) / math.Ln10 }

// samples checks a curve and returns it.
func (v *Vessel) samples(points []Point, need int) ([]sample, error) {
	if err := v.check(0); err != nil {
		return nil, err
	}
	if len(points) < need {
		return nil, &TooFewPointsError{Got: len(points), Need: need, Window: WholeCurve()}
	}
	k := v.slope()
	if !(k > 0) {
		return nil, input.Bad("temperature", v.Constants.Temperature.String(), "the temperature of the titration")
	}
	list := make([]sample, len(points))
	for i, p := range points {
		lnH := -p.x * math.Ln10
		if p.kind == readEMF {
			lnH = p.x / k
		}
		list[i] = sample{p.acid, lnH}
		bad := func(what, got, want string) error {
			return input.Bad("point "+input.Number(float64(i+1))+": "+what, got, want)
		}
		switch {
		case p.kind != points[0].kind || p.kind == noReading:
			return nil, bad("reading", "another kind", "a curve of pH or a curve of voltages")
		case !(p.acid >= 0 && p.acid <= math.MaxFloat64):
			return nil, bad("acid", p.acid.String(), "zero or more")
		case !(math.Abs(p.x) <= 1e6):
			return nil, bad("reading", input.Number(p.x), "a pH or a voltage in mV")
		case i > 0 && p.acid <= points[i-1].acid:
			return nil, bad("acid", p.acid.String(), "more than at the point before")
		case i > 0 && lnH < list[i-1].lnH-backlash*math.Ln10:
			return nil, bad("reading", input.Number(p.x), "no less acid than at the point before: pH falls and the voltage "+
				"rises with the acid")
		}
	}
	return list, nil
}

// slope returns k = RT/F in mV.
func (v *Vessel) slope() float64 {
	return 1000 * gasConstant / faraday * v.Constants.Temperature.Kelvin()
}

const (
	gasConstant = 8.314462618 // J/(mol K), CODATA 2018
	faraday     = 96485.33212 // C/mol, CODATA 2018
)

// inside returns the points in a window for which fit, given them, returns an E0/k
// that puts these very points into the window. Where that goes in circles, points at
// the rim stay in.
func inside(list []sample, w Window, need int, e0 float64, fit func([]sample) (float64, error)) error {
	if w.all() {
		_, err := fit(list)
		return err
	}
	in := make([]bool, len(list))
	chosen := make([]sample, 0, len(list))
	for round := range len(list) + settle + 1 {
		changed := false
		chosen = chosen[:0]
		for i := range list {
			now := w.holds(list[i].ph(e0)) || round >= settle && in[i]
			changed = changed || now != in[i]
			in[i] = now
			if now {
				chosen = append(chosen, list[i])
			}
		}
		if len(chosen) < need {
			return &TooFewPointsError{Got: len(chosen), Need: need, Window: w}
		}
		if !changed {
			return nil
		}
		var err error
		if e0, err = fit(chosen); err != nil {
			return err
		}
	}
	return units.ErrNoConvergence // cannot happen: from settle on, the set only grows
}

// settle is how many rounds points may leave the window again.
const settle = 10
