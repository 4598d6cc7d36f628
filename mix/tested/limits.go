package tested

import (
	"math"
	"strings"
	"time"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/units"
)

// Limit is how far things may move within any stretch of time of this length, up
// or down. What is zero or not in the list has no limit. Origin tells where it
// comes from: a paper, or advice.CommonPractice.
//
// A nutrient (nitrate, phosphate, ammonia) is limited in its rise alone: that less
// of it is wanted is what water is changed for.
type Limit struct {
	Within      time.Duration
	Salinity    units.PracticalSalinity
	Temperature units.TemperatureDifference
	PH          float64        // total scale
	Share       units.Fraction // of the water that is new
	Levels      Levels
	Origin      string
}

// Limits are what a plan for a stocked tank respects. The zero value stands for
// the usual ones. Own replaces those of the usual ones that limit the same thing,
// whatever their time, and adds to the others. WithoutUsual leaves the usual ones
// out: with nothing of one's own there is then no limit at all.
type Limits struct {
	Own          []Limit
	WithoutUsual bool
}

// Usual returns the limits for a tank of corals and fish: what the trade holds to
// be gentle. The figures are those of package advice.
func Usual() []Limit {
	perDay := make(Levels, 0, len(usualPerDay))
	for _, x := range usualPerDay {
		l, _ := UsualPerDay(x.of)
		perDay = append(perDay, l)
	}
	return []Limit{
		{
			Within: time.Hour, Temperature: advice.TemperaturePerHour, PH: advice.PHPerHour, Origin: advice.CommonPractice,
		},
		{
			Within:   24 * time.Hour,
			Salinity: units.Practical(advice.SalinityPerDay), Temperature: advice.TemperaturePerDay,
			PH: advice.PHPerDay, Share: units.Share(advice.SharePerDay), Levels: perDay, Origin: advice.CommonPractice,
		},
	}
}

// UsualPerDay returns by how much a level may move in a day by the usual limits;
// false if they do not limit it.
func UsualPerDay(of Parameter) (most Level, limited bool) {
	for _, x := range usualPerDay {
		if x.of != of {
			continue
		}
		if of == Alkalinity {
			return AlkalinityOf(units.DKH(advice.DKHPerDay)).In(DKH), true
		}
		return of.Of(x.most, of.None().as), true
	}
	return Level{}, false
}

var usualPerDay = [...]struct {
	of   Parameter
	most units.MassPerLitre
}{
	{of: Alkalinity}, // dKH
	{Calcium, advice.CalciumPerDay}, {Magnesium, advice.MagnesiumPerDay}, {Potassium, advice.PotassiumPerDay},
	{Strontium, advice.StrontiumPerDay}, {Bromide, advice.BromidePerDay}, {Boron, advice.BoronPerDay},
	{Fluoride, advice.FluoridePerDay}, {Iodine, advice.IodinePerDay}, {Iron, advice.IronPerDay},
	{Nitrate, advice.NitratePerDay}, {Phosphate, advice.PhosphatePerDay},
}

// Held are the limits that hold for a plan.
type Held []Limit

// List returns the limits that hold.
func (l Limits) List() Held {
	if l.WithoutUsual {
		return append(Held(nil), l.Own...)
	}
	list := Held(Usual())
	for _, own := range l.Own {
		for i := range list {
			list[i].leave(&own)
		}
	}
	return append(list, l.Own...)
}

// leave drops what another limit limits too.
func (l *Limit) leave(to *Limit) {
	if to.Salinity.Value() > 0 {
		l.Salinity = units.Practical(0)
	}
	if to.Temperature > 0 {
		l.Temperature = 0
	}
	if to.PH > 0 {
		l.PH = 0
	}
	if to.Share.Value() > 0 {
		l.Share = units.Share(0)
	}
	for i := range to.Levels {
		l.Levels = l.Levels.Without(to.Levels[i].parameter)
	}
}

// Falls tells whether less of the parameter is always as good.
func (p Parameter) Falls() bool { return p == Nitrate || p == Phosphate || p == Ammonia }

// Check refuses limits that nothing can keep, and limits of no origin.
func (l Limits) Check(field string) error {
	for i := range l.Own {
		if err := l.Own[i].check(field); err != nil {
			return err
		}
	}
	return nil
}

func (l *Limit) check(field string) error {
	if !(l.Within > 0) {
		return input.Bad(field+".within", l.Within.String(), "a time above zero")
	}
	for _, x := range [...]struct {
		name  string
		value float64
	}{
		{"salinity", l.Salinity.Value()}, {"temperature", float64(l.Temperature)}, {"pH", l.PH}, {"share", l.Share.Value()},
	} {
		if err := input.NotNegative(field+"."+x.name, x.value, ""); err != nil {
			return err
		}
	}
	if err := l.Levels.Check(field); err != nil {
		return err
	}
	for i := range l.Levels {
		err := l.Levels[i].Must(field, l.Levels[i].Base() > 0, "above zero: a level that may not move at all allows nothing")
		if err != nil {
			return err
		}
	}
	if l.Origin == "" {
		return input.Bad(field+".origin", "nothing", `who says so, such as "`+advice.CommonPractice+`"`)
	}
	return nil
}

// PerDay returns the limit of a parameter that holds for a day, counted as it was
// given, and its origin; false if nothing limits it. One for a longer time counts
// in proportion, as a daily step can use of it.
func (held Held) PerDay(p Parameter) (limit Level, origin string, limited bool) {
	for i := range held {
		x := &held[i]
		level, has := x.Levels.Of(p)
		if !has {
			continue
		}
		if days := float64(x.Within) / float64(24*time.Hour); days > 1 {
			level = level.WithBase(level.Base() / days)
		}
		if !limited || level.Base() < limit.Base() {
			limit, origin, limited = level, x.Origin, true
		}
	}
	return limit, origin, limited
}

// PH returns by how much the pH may move within a time, and the origin of that;
// false if nothing limits it. One for a shorter time is not in it.
func (held Held) PH(within time.Duration) (swing float64, origin string, limited bool) {
	swing = math.Inf(1)
	for i := range held {
		x := &held[i]
		if x.PH > 0 && x.Within >= within && x.PH < swing {
			swing, origin, limited = x.PH, x.Origin, true
		}
	}
	return swing, origin, limited
}

// String lists what the limit limits: "salinity 1, pH 0.3, alkalinity 1 dKH within
// a day (common practice)".
func (l Limit) String() string {
	var list []string
	add := func(name string, x float64, unit string) {
		if x > 0 {
			list = append(list, name+" "+input.Number(x)+unit)
		}
	}
	add("salinity", l.Salinity.Value(), "")
	add("temperature", float64(l.Temperature), " °C")
	add("pH", l.PH, "")
	add("new water", l.Share.Percent(), " %")
	for i := range l.Levels {
		x, unit := l.Levels[i].Counted()
		add(string(l.Levels[i].parameter), x, " "+unit)
	}
	return strings.Join(list, ", ") + " within " + Stretch(l.Within) + " (" + l.Origin + ")"
}

// Stretch says a time as one does: "a day", "an hour", "36 h".
func Stretch(d time.Duration) string {
	switch d {
	case time.Hour:
		return "an hour"
	case 24 * time.Hour:
		return "a day"
	}
	return input.Number(d.Hours()) + " h"
}
