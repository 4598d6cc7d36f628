package gas

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Outage is a tank whose pump has stopped: animals and bacteria take oxygen, and
// only what the still surface lets in makes up for it.
//
//	dC/dt = kLa (Cs - C) - demand
type Outage struct {
	Oxygen     units.AmountPerKilogram // when the pump stops
	Saturation units.AmountPerKilogram // Oxygen.Saturation of the water; needed if Rate is above 0
	Demand     units.AmountPerKilogram // taken in an hour; TransferRate.Supply tells it of a running tank
	Rate       TransferRate            // through the still surface; 0 counts on nothing
	Limit      units.AmountPerKilogram // below which it must not fall
}

// Reserve is how long the oxygen lasts.
type Reserve struct {
	Time    time.Duration // to the limit; 0 if it is there already
	Lasts   bool          // true if it never gets there, or not in 292 years; Time is then 0
	Resting units.AmountPerKilogram
	Caution string
}

// oxygenCaution goes with every Reserve.
const oxygenCaution = "Animals can die sooner than this says: demand rises with warmth, feeding and fright, " +
	"it is uneven in a tank without flow, and filters that stand still turn foul. Do not wait for the limit: " +
	"bring in air at once (battery air pump, stirring, pouring), stop feeding, do not overcrowd, " +
	"and discard the water of canisters that stood for hours. Use only power that is safe beside water."

// Reserve returns how long it takes until the oxygen has fallen to the limit.
//
//	symbol   t = ln((C - C∞)/(Climit - C∞))/kLa, C∞ = Cs - demand/kLa; without kLa t = (C - Climit)/demand
//	units    µmol/kg, demand per hour
//
// Resting is C∞, where the oxygen would come to rest in the end, or 0 if it is all
// used up first.
func (o Outage) Reserve() (Reserve, error) {
	for _, f := range [...]struct {
		name string
		x    units.AmountPerKilogram
	}{{"oxygen", o.Oxygen}, {"saturation", o.Saturation}, {"demand", o.Demand}, {"limit", o.Limit}} {
		if err := input.NotNegative(f.name, float64(f.x), "µmol/kg"); err != nil {
			return noReserve(), err
		}
	}
	if err := input.NotNegative("rate", float64(o.Rate), "1/h"); err != nil {
		return noReserve(), err
	}
	if o.Rate > 0 && o.Saturation == 0 { // forgotten: air with no oxygen would draw it out
		return noReserve(), input.Bad("saturation", o.Saturation.String(), "Oxygen.Saturation of the water, or a rate of 0")
	}
	r := Reserve{Caution: oxygenCaution}
	// In the terms of the rate of change now and at the limit, nothing is lost when
	// the surface lets hardly anything in.
	now := float64(o.Demand - o.Rate.Supply(o.Saturation, o.Oxygen))
	then := float64(o.Demand - o.Rate.Supply(o.Saturation, o.Limit))
	if math.IsInf(now, 0) || math.IsInf(then, 0) || now != now || then != then {
		return noReserve(), input.Bad("outage", "numbers beyond any water", "contents in µmol/kg and a rate per hour")
	}
	switch {
	case o.Rate > 0:
		r.Resting = max(0, o.Saturation-o.Demand/units.AmountPerKilogram(o.Rate))
	case o.Demand == 0:
		r.Resting = o.Oxygen
	}
	if o.Oxygen <= o.Limit {
		return r, nil
	}
	if !(then > 0) { // at the limit it no longer falls
		r.Lasts = true
		return r, nil
	}
	hours := float64(o.Oxygen-o.Limit) / then
	if x := (now - then) / then; x > 0 { // kLa (C - Climit) over the rate at the limit
		hours *= math.Log1p(x) / x
	}
	var err error
	if r.Time, err = duration(hours); err != nil {
		r.Time, r.Lasts = 0, true
	}
	return r, nil
}

func noReserve() Reserve { return Reserve{Resting: input.NaN[units.AmountPerKilogram]()} }
