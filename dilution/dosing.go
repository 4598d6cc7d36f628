package dilution

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Delivery is one run of a pump or drip into a cup on a balance: so much in such a
// time. For the last tenth of a per cent, weighing.Dispensed takes the buoyancy of
// the air off the balance.
type Delivery struct {
	Mass units.Mass
	Time time.Duration
}

// Pump is a dosing pump or a drip as it was found to run.
type Pump struct {
	Flow        units.Flow
	Uncertainty units.Flow // standard, of the mean; NaN from a single run, which tells no scatter
}

// CalibratePump returns the flow of a pump from runs that were weighed, and the density
// of what it pumps. The flow is the mean of those of the runs, and its standard
// uncertainty the experimental standard deviation of the mean (JCGM 100:2008,
// 4.2.3):
//
//	q = Σ q_i/n,   u² = Σ (q_i - q)²/(n (n - 1))
//
// Tubes wear: calibrate again after weeks, and at the height and with the line that
// the pump has in use.
func CalibratePump(runs []Delivery, density units.Density) (Pump, error) {
	none := Pump{input.NaN[units.Flow](), input.NaN[units.Flow]()}
	if len(runs) == 0 {
		return none, input.Bad("runs", "nothing", "one delivery at least, better five")
	}
	if err := input.Positive("density", float64(density), "kg/m³"); err != nil {
		return none, err
	}
	n := float64(len(runs))
	flow := func(d Delivery) float64 { return float64(density.Volume(d.Mass)) / d.Time.Hours() }
	mean := 0.0
	for _, d := range runs {
		if err := input.Positive("run.mass", float64(d.Mass), "g"); err != nil {
			return none, err
		}
		if !(d.Time > 0) {
			return none, input.Bad("run.time", d.Time.String(), "a time above zero")
		}
		mean += flow(d) / n
	}
	if err := input.Positive("runs.flow", mean, "L/h"); err != nil {
		return none, err
	}
	squares := 0.0
	for _, d := range runs {
		squares += (flow(d) - mean) * (flow(d) - mean)
	}
	return Pump{units.Flow(mean), units.Flow(math.Sqrt(squares / n / (n - 1)))}, nil
}

// Time returns how long the pump has to run for a volume, and the standard
// uncertainty of the volume that then comes, from that of the flow.
func (p Pump) Time(v units.Volume) (run time.Duration, uncertainty units.Volume, err error) {
	if err := p.check(); err != nil {
		return 0, input.NaN[units.Volume](), err
	}
	if err := input.NotNegative("dose", float64(v), "L"); err != nil {
		return 0, input.NaN[units.Volume](), err
	}
	run = p.Flow.Time(v)
	if run < 0 {
		return 0, input.NaN[units.Volume](), input.Bad("dose", v.String(), "a volume that the pump gives within a lifetime")
	}
	return run, v * units.Volume(p.Uncertainty/p.Flow), nil
}

// Drops returns how many drops fall in a minute, for a drip that is counted. About
// 20 drops of water make a millilitre (common practice); count them into a measured
// or weighed millilitre, because tubes differ by half.
func (p Pump) Drops(perMillilitre float64) (perMinute float64, err error) {
	if err := p.check(); err != nil {
		return math.NaN(), err
	}
	if err := input.Positive("dropsPerMillilitre", perMillilitre, ""); err != nil {
		return math.NaN(), err
	}
	return p.Flow.MillilitresPerMinute() * perMillilitre, nil
}

// Drip returns the flow of a drip from the drops that were counted in a time. The
// count is good to a drop either way, less being more likely: 1/√6 of one (JCGM
// 100:2008, 4.3.9).
func Drip(drops int, in time.Duration, perMillilitre float64) (Pump, error) {
	none := Pump{input.NaN[units.Flow](), input.NaN[units.Flow]()}
	if drops < 1 {
		return none, input.Bad("drops", input.Number(float64(drops)), "one at least")
	}
	if !(in > 0) {
		return none, input.Bad("time", in.String(), "a time above zero")
	}
	if err := input.Positive("dropsPerMillilitre", perMillilitre, ""); err != nil {
		return none, err
	}
	one := units.Flow(1 / perMillilitre / 1000 / in.Hours())
	p := Pump{units.Flow(drops) * one, one / units.Flow(math.Sqrt(6))}
	if err := p.check(); err != nil {
		return none, err
	}
	return p, nil
}

func (p Pump) check() error {
	if err := input.Positive("pump.flow", float64(p.Flow), "L/h"); err != nil {
		return err
	}
	if u := float64(p.Uncertainty); u < 0 || math.IsInf(u, 0) {
		return input.Bad("pump.uncertainty", input.Number(u)+" L/h", "zero or more")
	}
	return nil
}
