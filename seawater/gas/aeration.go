package gas

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Aeration is water that loses carbon dioxide to the air, or takes it up, until
// the two are in balance. A batch of fresh salt water needs a night of it with a strong
// pump, and more than a day with a weak one: a few parts in a hundred of its inorganic
// carbon have to leave, fewer are there as carbon dioxide, and as those leave, the rest
// makes more of it.
//
//	dDIC/dt = kLa ([CO2]air - [CO2]), at constant alkalinity
//
// Nothing else may change the water meanwhile: no salt still dissolving, no
// calcium carbonate falling out.
type Aeration struct {
	Water    carbonate.Water
	Air      carbonate.XCO2    // of the room: 420 µmol/mol outdoors, 600 to 1500 with people in it
	Pressure units.AirPressure // where the water stands
	Rate     TransferRate      // of carbon dioxide: TransferRate.Of makes it of that of oxygen
}

// Settled is water after some aeration.
type Settled struct {
	Time    time.Duration
	Water   carbonate.Water   // after the time
	PH      carbonate.TotalPH // after the time
	Before  carbonate.TotalPH
	Balance carbonate.TotalPH // where it ends
}

// Settle returns how long the water has to be aerated until its pH is within so
// much of the balance with air, 0.0001 or more.
//
//	symbol   t = ∫ dDIC/(kLa ([CO2] - [CO2]air)), from the DIC asked for to the present
//	source   the carbonate system [W74 and the rest of package carbonate]
//	units    within in units of pH
//	range    relative error of the integral below 1e-8
//
// The chemistry is taken to be at rest all the time. The reaction of carbon dioxide
// with water takes half a minute, which only matters at rates above 20 per hour; in
// very still water it helps, so that less time may do.
func (a Aeration) Settle(within float64) (Settled, error) {
	if !(within >= 1e-4 && within <= 14) {
		return noSettled(), input.Bad("within", input.Number(within), "0.0001 to 14 units of pH")
	}
	p, s, err := a.path()
	if err != nil {
		return noSettled(), err
	}
	gap := s.Before.Value() - s.Balance.Value()
	if math.Abs(gap) <= within {
		return s, nil
	}
	s.PH = carbonate.PHTotal(s.Balance.Value() + math.Copysign(within, gap))
	end, err := p.system.Constants.Solve(carbonate.Alkalinity(a.Water.Alkalinity), carbonate.PH(s.PH), a.Water.Nutrients)
	if err != nil {
		return noSettled(), err
	}
	s.Water.DIC = end.DIC()
	hours := p.time(math.Log(math.Abs(float64(s.Water.DIC-p.balance)))) / a.Rate.PerHour()
	if s.Time, err = duration(hours); err != nil {
		return noSettled(), err
	}
	return s, nil
}

// After returns the water after so much aeration. It is the inverse of Settle.
func (a Aeration) After(d time.Duration) (Settled, error) {
	if d < 0 {
		return noSettled(), input.Bad("time", d.String(), "zero or more")
	}
	p, s, err := a.path()
	if err != nil {
		return noSettled(), err
	}
	s.Time = d
	tau := d.Hours() * a.Rate.PerHour()
	if tau == 0 || p.from < nearest {
		return s, nil
	}
	end, ok := p.after(tau)
	if !ok {
		return noSettled(), units.ErrNoConvergence
	}
	s.Water.DIC = p.dic(math.Exp(end))
	if err := p.system.Update(a.Water.Alkalinity, s.Water.DIC); err != nil {
		return noSettled(), err
	}
	s.PH = p.system.PH()
	return s, nil
}

// path is the way of the water to its balance. Its place on it is v, the logarithm of
// the distance of DIC from the balance: the time to it is then the integral of a
// smooth function, where that by DIC has a pole at the end.
//
//	kLa dt = F dv, F = (DIC - DIC at the balance)/([CO2] - [CO2]air)
type path struct {
	system  carbonate.System
	balance units.AmountPerKilogram // DIC
	air     units.AmountPerKilogram // CO2
	side    units.AmountPerKilogram // 1 if there is too much carbon, -1 if too little
	from    float64                 // v now
}

// nearest is v at a distance of 1e-6 µmol/kg: the balance.
const nearest = -6 * math.Ln10

// path returns the way, and what is known of it at its start.
func (a Aeration) path() (p path, s Settled, err error) {
	if err := a.check(); err != nil {
		return p, s, err
	}
	now, err := a.Water.System()
	if err != nil {
		return p, s, err
	}
	even, err := a.Water.Equilibrate(a.Air, a.Pressure)
	if err != nil {
		return p, s, input.In("balance with the air", err)
	}
	p.balance = even.DIC
	p.system = now
	if err := p.system.Update(even.Alkalinity, even.DIC); err != nil {
		return p, s, err
	}
	p.air = p.system.CO2()
	distance := float64(now.DIC() - p.balance)
	p.side = units.AmountPerKilogram(math.Copysign(1, distance))
	p.from = math.Log(math.Abs(distance))
	s = Settled{Water: a.Water, PH: now.PH(), Before: now.PH(), Balance: p.system.PH()}
	return p, s, nil
}

func (a Aeration) check() error {
	if err := input.Positive("rate", float64(a.Rate), "1/h"); err != nil {
		return err
	}
	if !(a.Air > 0 && a.Air <= 1e6) {
		return input.Bad("air", input.Number(a.Air.PPM())+" µmol/mol", "the carbon dioxide of the room, such as 420 or 800 "+
			"µmol/mol")
	}
	if err := barometer.Check(a.Pressure.Hectopascals()); err != nil {
		return err
	}
	if !a.Water.Temperature.IsSet() {
		return input.Set("water.temperature", a.Water.Temperature)
	}
	return waterTemperature.Check(a.Water.Temperature.Celsius())
}

// time returns kLa t for the way from the present to v.
func (p *path) time(v float64) float64 { return p.between(v, p.from) }

// after returns v once kLa t is tau, or nearest if the balance comes before, by
// Newton's rule: the slowness is the slope of the time, and the time of each step adds
// to that of the steps before. Where a step leads out of what is known to hold v, it is
// halved instead.
func (p *path) after(tau float64) (v float64, ok bool) {
	v = p.from
	low, high := nearest, p.from
	const enough, steps = 1e-6, 60 // the error after a step is below its square
	for range steps {
		next := v - tau/p.slowness(v)
		switch {
		case next <= low && low == nearest: // the balance itself may come before
			next = low
		case !(next > low && next < high):
			next = (low + high) / 2
		}
		tau -= p.between(next, v)
		step := next - v
		v = next
		switch {
		case math.IsNaN(tau):
			return math.NaN(), false
		case v == nearest && tau >= 0, math.Abs(step) <= enough:
			return v, true
		case tau > 0:
			high = v
		default:
			low = v
		}
	}
	return math.NaN(), false
}

// between returns the integral of the slowness, by Gauss-Legendre quadrature on more
// and more panels until two agree.
func (p *path) between(v, to float64) float64 {
	last := math.NaN()
	for panels := 1; panels <= 256; panels *= 2 {
		half := (to - v) / float64(2*panels)
		sum := 0.
		for i := range panels {
			middle := v + half*float64(2*i+1)
			for _, g := range gauss {
				sum += g.weight * p.slowness(middle+half*g.node)
			}
		}
		sum *= half
		if math.Abs(sum-last) <= 1e-9*math.Abs(sum) {
			return sum
		}
		last = sum
	}
	return last
}

// gauss is the Gauss-Legendre rule of five nodes (Abramowitz and Stegun 1964, table
// 25.4).
var gauss = [...]struct{ node, weight float64 }{
	{-0.906179845938664, 0.236926885056189},
	{-0.538469310105683, 0.478628670499366},
	{0, 0.568888888888889},
	{0.538469310105683, 0.478628670499366},
	{0.906179845938664, 0.236926885056189},
}

// slowness returns F: how many times longer the carbon takes than the carbon
// dioxide alone would, 9 to 32 in seawater. Nearer than 0.001 µmol/kg, where the
// differences would lose digits, it is that at 0.001.
func (p *path) slowness(v float64) float64 {
	far := math.Max(math.Exp(v), 1e-3)
	distance := p.side * units.AmountPerKilogram(far)
	if p.system.Update(p.system.Alkalinity(), p.dic(far)) != nil {
		return math.NaN()
	}
	return float64(distance / (p.system.CO2() - p.air))
}

// dic returns the DIC at a distance from the balance: not less than none, by rounding.
func (p *path) dic(distance float64) units.AmountPerKilogram {
	return max(0, p.balance+p.side*units.AmountPerKilogram(distance))
}

// duration refuses what does not fit into a time.Duration.
func duration(hours float64) (time.Duration, error) {
	if !(hours >= 0 && hours < math.MaxInt64/3.6e12) {
		return 0, input.Bad("rate", input.Number(hours)+" h to wait", "a rate with which it does not take centuries")
	}
	return time.Duration(hours * 3.6e12), nil
}

func noSettled() Settled {
	nan := math.NaN()
	ph, x := carbonate.PHTotal(nan), units.AmountPerKilogram(nan)
	return Settled{Water: carbonate.Water{
		Salinity: units.Practical(nan), Temperature: units.Celsius(nan), Alkalinity: x, DIC: x,
	}, PH: ph, Before: ph, Balance: ph}
}
