package rodi

import (
	"math"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Upkeep is how a tank is topped off and changed with purified water.
type Upkeep struct {
	Tank        units.Volume // of water
	Evaporation units.Flow   // replaced by purified water
	Change      units.Fraction
	Every       time.Duration // between changes; 0 if there are none
}

// Residue returns how much of a solute a tank holds after a time, when it starts
// with present and all the water for changes and top-off brings content of it:
// what evaporates leaves it behind, what is changed takes it away and brings it
// again. Nothing else adds to it or consumes it.
//
//	symbol   x_n = x_0 (1 - s)^n + c (s + (1 - s) e) (1 - (1 - s)^n)/s, e = E T/V
//	         after n changes of the share s, every T; x = x_n + c E τ/V, a time τ later
//	source   x_(n+1) = (1 - s)(x_n + e c) + s c, summed
//	units    any mass per litre; c may be a share of the residue: 5 % of 20 mg/L
//
// It is the same sum for a salt or top-off water of another making. With s = 0
// it is x_0 + c E t/V.
func (u Upkeep) Residue(present, content units.MassPerLitre, after time.Duration) (units.MassPerLitre, error) {
	nan := input.NaN[units.MassPerLitre]()
	if err := u.check(); err != nil {
		return nan, err
	}
	if err := input.NotNegative("present", float64(present), "mg/L"); err != nil {
		return nan, err
	}
	if err := input.NotNegative("content", float64(content), "mg/L"); err != nil {
		return nan, err
	}
	if after < 0 {
		return nan, input.Bad("after", after.String(), "zero or more")
	}
	changes, rest := time.Duration(0), after
	if u.Every > 0 {
		changes, rest = after/u.Every, after%u.Every
	}
	s := u.Change.Value()
	evaporated := func(d time.Duration) float64 { return float64(u.Evaporation.Volume(d) / u.Tank) }
	left := math.Pow(1-s, float64(changes)) // of what was there
	sum := float64(changes)                 // (1 - (1 - s)^n)/s
	if s > 0 {
		sum = -math.Expm1(float64(changes)*math.Log1p(-s)) / s
	}
	if s == 1 && changes == 0 {
		sum = 0
	}
	gained := (s+(1-s)*evaporated(u.Every))*sum + evaporated(rest)
	x := present*units.MassPerLitre(left) + content*units.MassPerLitre(gained)
	if !(float64(x) <= math.MaxFloat64) {
		return nan, input.Bad("evaporation", u.Evaporation.String(), "that of a tank")
	}
	return x, nil
}

func (u Upkeep) check() error {
	if err := input.Positive("tank", float64(u.Tank), "L"); err != nil {
		return err
	}
	if err := input.NotNegative("evaporation", float64(u.Evaporation), "L/h"); err != nil {
		return err
	}
	if !(u.Change.Value() >= 0 && u.Change.Value() <= 1) {
		return input.Bad("change", u.Change.String(), "0 to 100 %")
	}
	if u.Every < 0 || u.Every == 0 && u.Change.Value() > 0 {
		return input.Bad("every", u.Every.String(), "the time between changes")
	}
	return nil
}
