package dilution

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// State is the water of a tank or of a batch: how much of which salinity and
// temperature, and what else is known of it.
//
// Dissolved inorganic carbon stands for pH, because it mixes and pH does not:
// [State.WithPH] takes it from a pH, [State.Aired] from the air of the room, and
// [State.Chemistry] gives the pH back.
type State struct {
	Water seawater.Portion
	DIC   Measured[units.AmountPerKilogram]
	Levels
}

// Levels are what is dissolved in a water besides its salt, as far as it is
// known. They also say what is wanted of a water and what a dose or a day adds
// to it.
type Levels struct {
	Alkalinity Measured[units.Alkalinity]
	Calcium    Measured[units.MassPerLitre]
	Magnesium  Measured[units.MassPerLitre]
	Nitrate    Measured[units.MassPerLitre] // as NO₃
	Phosphate  Measured[units.MassPerLitre] // as PO₄
	Ammonia    Measured[units.MassPerLitre] // NH₃ and NH₄⁺ together, as N
	Others     []Solute
}

// Solute is any further conservative solute, by name.
type Solute struct {
	Name  string
	Level Measured[units.MassPerLitre]
}

// The levels that every Levels has, by number; the others follow.
const (
	alkalinity = iota
	calcium
	magnesium
	nitrate
	phosphate
	ammonia
	fixedLevels
)

// levelNames tells what the levels are called and in which unit the trade
// has them, as so many of the base unit.
var levelNames = [fixedLevels]struct {
	name, field, unit string
	one               float64
}{
	{"Alkalinity", "alkalinity", "dKH", float64(units.DKH)},
	{"Calcium", "calcium", "mg/L", 1},
	{"Magnesium", "magnesium", "mg/L", 1},
	{"Nitrate", "nitrate", "mg/L", 1},
	{"Phosphate", "phosphate", "mg/L", 1},
	{"Ammonia", "ammonia", "mg/L N", 1},
}

// plain forgets the quantity and keeps the number, in its base unit.
func plain[Q ~float64](m Measured[Q]) Measured[float64] {
	return Measured[float64]{float64(m.value), m.known}
}

// get returns a level by its number, in its base unit.
func (l *Levels) get(i int) Measured[float64] {
	switch i {
	case alkalinity:
		return plain(l.Alkalinity)
	case calcium:
		return plain(l.Calcium)
	case magnesium:
		return plain(l.Magnesium)
	case nitrate:
		return plain(l.Nitrate)
	case phosphate:
		return plain(l.Phosphate)
	case ammonia:
		return plain(l.Ammonia)
	}
	return plain(l.Others[i-fixedLevels].Level)
}

// set does the opposite.
func (l *Levels) set(i int, m Measured[float64]) {
	level := Measured[units.MassPerLitre]{units.MassPerLitre(m.value), m.known}
	switch i {
	case alkalinity:
		l.Alkalinity = Measured[units.Alkalinity]{units.Alkalinity(m.value), m.known}
	case calcium:
		l.Calcium = level
	case magnesium:
		l.Magnesium = level
	case nitrate:
		l.Nitrate = level
	case phosphate:
		l.Phosphate = level
	case ammonia:
		l.Ammonia = level
	default:
		l.Others[i-fixedLevels].Level = level
	}
}

// count returns how many levels there are to get.
func (l *Levels) count() int { return fixedLevels + len(l.Others) }

// name returns what a level is called, its unit, and the size of that unit.
func (l *Levels) name(i int) (name, unit string, one float64) {
	if i < fixedLevels {
		n := &levelNames[i]
		return n.name, n.unit, n.one
	}
	return l.Others[i-fixedLevels].Name, "mg/L", 1
}

// find returns the level that other calls by the number i in l.
func (l *Levels) find(other *Levels, i int) Measured[float64] {
	if i < fixedLevels {
		return other.get(i)
	}
	return plain(named(other.Others, l.Others[i-fixedLevels].Name))
}

func named(list []Solute, name string) Measured[units.MassPerLitre] {
	for _, s := range list {
		if s.Name == name {
			return s.Level
		}
	}
	return Measured[units.MassPerLitre]{}
}

func has(list []Solute, name string) bool {
	for _, s := range list {
		if s.Name == name {
			return true
		}
	}
	return false
}

// names returns the levels of l, all unknown, and after them those others
// of the further lists that l does not have.
func (l *Levels) names(further ...*Levels) Levels {
	var all Levels
	for _, o := range l.Others {
		all.Others = append(all.Others, Solute{Name: o.Name})
	}
	for _, f := range further {
		for _, o := range f.Others {
			if !has(all.Others, o.Name) {
				all.Others = append(all.Others, Solute{Name: o.Name})
			}
		}
	}
	return all
}

// check refuses levels that no water has. Alkalinity may be negative in acid
// water, but it is a number.
func (l *Levels) check(of string) error {
	for i, o := range l.Others {
		if o.Name == "" || has(l.Others[:i], o.Name) {
			return input.Bad(of+".others", `"`+o.Name+`"`, "a name of its own for every solute")
		}
	}
	for i := range l.count() {
		m := l.get(i)
		if !m.known {
			continue
		}
		if i == alkalinity {
			if !(math.Abs(m.value) < 1000) {
				return input.Bad(of+".alkalinity", l.Alkalinity.String(), "a number of ordinary size")
			}
			continue
		}
		if err := input.NotNegative(of+"."+l.field(i), m.value, "mg/L"); err != nil {
			return err
		}
	}
	return nil
}

func (l *Levels) field(i int) string {
	if i < fixedLevels {
		return levelNames[i].field
	}
	return l.Others[i-fixedLevels].Name
}

// check refuses a water that cannot be.
func (s *State) check(of string) error {
	if err := s.Levels.check(of); err != nil {
		return err
	}
	if c, known := s.DIC.Value(); known {
		return input.NotNegative(of+".DIC", c.MicromolesPerKilogram(), "µmol/kg")
	}
	return nil
}

// Chemistry is what the carbonate system makes of a water.
type Chemistry struct {
	PH          carbonate.TotalPH
	PCO2        carbonate.PCO2
	Aragonite   float64                      // saturation; below 1 aragonite dissolves
	FreeAmmonia Measured[units.MassPerLitre] // NH₃, as N, if ammonia is known
}

// Chemistry returns the pH and what goes with it. It takes the alkalinity and
// the DIC, and refuses a water whose are not known. A calcium that is not known
// is that of seawater of the salinity, as are borate, sulfate and fluoride.
func (s State) Chemistry() (Chemistry, error) {
	w, err := s.carbonate()
	if err != nil {
		return noChemistry(), err
	}
	if !s.DIC.known {
		return noChemistry(), input.Bad("DIC", "nothing", "the dissolved inorganic carbon, or a pH given by WithPH, or Aired")
	}
	w.DIC = s.DIC.value
	system, err := w.System()
	if err != nil {
		return noChemistry(), err
	}
	c := Chemistry{PH: system.PH(), PCO2: system.PCO2(), Aragonite: system.Aragonite()}
	if s.Ammonia.known {
		c.FreeAmmonia = Known(s.Ammonia.value * units.MassPerLitre(system.FreeAmmonia()))
	}
	return c, nil
}

func noChemistry() Chemistry {
	nan := math.NaN()
	return Chemistry{PH: carbonate.PHTotal(nan), PCO2: carbonate.PCO2(nan), Aragonite: nan}
}

// carbonate returns the water as the carbonate system has it, without its DIC.
func (s *State) carbonate() (carbonate.Water, error) {
	if !s.Alkalinity.known {
		return carbonate.Water{}, input.Bad("alkalinity", "nothing", "the alkalinity of the water")
	}
	d := s.Water.Density()
	perKilogram := func(m Measured[units.MassPerLitre], as units.MolarMass) units.AmountPerKilogram {
		if !m.known {
			return 0
		}
		return as.AmountPerKilogram(m.value.PerKilogram(d))
	}
	w := carbonate.Water{
		Salinity:    s.Water.Practical(),
		Temperature: s.Water.Temperature(),
		Alkalinity:  s.Alkalinity.value.PerKilogram(d),
		Nutrients: carbonate.Nutrients{
			Phosphate: perKilogram(s.Phosphate, units.AsPhosphate),
			Ammonia:   perKilogram(s.Ammonia, units.AsNitrogen),
		},
	}
	if s.Calcium.known {
		w.Options.Calcium = carbonate.Measured(perKilogram(s.Calcium, units.AsCalcium))
	}
	return w, nil
}

// WithPH returns the water with the DIC that it has at this pH, which was
// measured at its temperature. On error the water comes back as it was.
func (s State) WithPH(ph carbonate.TotalPH) (State, error) {
	w, err := s.carbonate()
	if err != nil {
		return s, err
	}
	c := w.Constants()
	system, err := c.Solve(carbonate.Alkalinity(w.Alkalinity), carbonate.PH(ph), w.Nutrients)
	if err != nil {
		return s, err
	}
	s.DIC = Known(system.DIC())
	return s, nil
}

// Aired returns the water with the DIC that it comes to in air of this content
// of CO₂: about 430 ppm outdoors, 600 to 1500 in
// rooms (common practice). On error the water comes back as it was.
func (s State) Aired(air carbonate.XCO2, barometer units.AirPressure) (State, error) {
	w, err := s.carbonate()
	if err != nil {
		return s, err
	}
	w, err = w.Equilibrate(air, barometer)
	if err != nil {
		return s, err
	}
	s.DIC = Known(w.DIC)
	return s, nil
}
