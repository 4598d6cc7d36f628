package replenish

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Tank is a stocked tank as it was measured.
type Tank struct {
	Volume units.Volume    // net: of the water alone, without rock and sand
	Water  seawater.Sample // its salinity and temperature
	Levels []Level         // what was tested, each parameter once

	// Carbon is one more thing known of the carbonate system besides the
	// alkalinity: a pH, or DIC, or a pressure of CO2. Without it the water is
	// taken to be in balance with Air.
	Carbon carbonate.Known
	// Air is the CO2 of the air with which the tank comes into balance again
	// after a dose, 420 ppm outdoors and often the double in a closed room.
	// Without it the tank is taken to keep the pressure of CO2 that it has.
	Air carbonate.XCO2
}

// level returns what was tested of a parameter.
func (t Tank) level(p Parameter) (Level, bool) {
	for _, l := range t.Levels {
		if l.parameter == p {
			return l, true
		}
	}
	return Level{}, false
}

// check refuses a tank that cannot be.
func (t Tank) check(field string) error {
	if err := input.Positive(field+": volume", t.Volume.Litres(), "L"); err != nil {
		return err
	}
	if !(t.Water.Absolute().GramsPerKilogram() > 0) {
		return input.Bad(field+": water", t.Water.String(), "seawater, made by one of the functions of package seawater")
	}
	for i, l := range t.Levels {
		if err := l.check(field); err != nil {
			return err
		}
		for _, other := range t.Levels[:i] {
			if other.parameter == l.parameter {
				return input.Bad(field+": "+l.parameter.String(), "two levels", "one")
			}
		}
	}
	if !(t.Air >= 0) || math.IsInf(float64(t.Air), 0) {
		return input.Bad(field+": air", input.Number(t.Air.PPM())+" ppm", "zero or more")
	}
	return nil
}

// Chemistry is the carbonate side of the whole tank, well mixed. Where it was
// not known, every number is NaN.
type Chemistry struct {
	PH        carbonate.TotalPH
	PCO2      carbonate.PCO2
	Aragonite float64        // saturation state
	Brucite   carbonate.Band // saturation state of Mg(OH)2
	Gypsum    carbonate.Band // saturation state of CaSO4·2H2O
}

func unknownChemistry() Chemistry {
	nan := math.NaN()
	band := carbonate.Band{Low: nan, Likely: nan, High: nan}
	return Chemistry{carbonate.PHTotal(nan), carbonate.PCO2(nan), nan, band, band}
}

func chemistryOf(s *carbonate.System) Chemistry {
	return Chemistry{s.PH(), s.PCO2(), s.Aragonite(), s.Brucite(), s.Gypsum()}
}

// state is a tank in the course of a plan: its water, and what carbonate.Water
// conserves. It keeps its volume, as the top-off sees to.
type state struct {
	volume units.Volume
	water  seawater.Sample
	salt   units.Mass // in the whole tank
	mass   units.Mass // of the whole tank
	carbon carbonate.Water
	known  bool           // carbon is
	air    carbonate.XCO2 // that it comes into balance with
}

// start works out the state of a tank, and what it had to assume. Without
// alkalinity, or without anything on the side of the carbon, the carbonate
// system stays unknown.
func (t Tank) start() (s state, assumed []string, err error) {
	portion := t.Water.OfVolume(t.Volume)
	s = state{volume: t.Volume, water: t.Water, salt: portion.Salt(), mass: portion.Mass, air: t.Air}
	alkalinity, tested := t.level(Alkalinity)
	hasCarbon := t.Carbon != carbonate.Known{}
	if !tested || !hasCarbon && t.Air == 0 {
		return s, []string{"Alkalinity, and pH or the CO2 of the air, are not both known: pH and saturation states were not worked out."}, nil
	}
	var fromSalinity string
	var options carbonate.Options
	for _, x := range [...]struct {
		parameter Parameter
		total     *carbonate.Total
	}{{Calcium, &options.Calcium}, {Magnesium, &options.Magnesium}, {Boron, &options.Boron}, {Fluoride, &options.Fluoride}} {
		if l, tested := t.level(x.parameter); tested {
			*x.total = carbonate.Measured(l.perKilogram(t.Water.Density()))
		} else {
			fromSalinity += ", " + x.parameter.String()
		}
	}
	var nutrients carbonate.Nutrients
	if l, tested := t.level(Phosphate); tested {
		nutrients.Phosphate = l.perKilogram(t.Water.Density())
	}
	c := carbonate.At(t.Water.Practical(), t.Water.Temperature(), options)
	for _, err := range [...]error{
		carbonate.CheckRange(t.Water.Practical(), t.Water.Temperature(), options),
		carbonate.CheckSaturationRange(t.Water.Practical(), t.Water.Temperature()),
	} {
		if err != nil {
			assumed = append(assumed, "The carbonate constants are extrapolated: "+err.Error()+".")
		}
	}
	second := t.Carbon
	if !hasCarbon {
		second = carbonate.PartialPressure(t.Air.PCO2(&c, units.Atmosphere))
		assumed = append(assumed, "The tank is in balance with air of "+input.Number(t.Air.PPM())+" ppm CO2 at sea level: no pH was given.")
	}
	system, err := c.Solve(carbonate.Alkalinity(alkalinity.perKilogram(t.Water.Density())), second, nutrients)
	if err != nil {
		return s, nil, input.In("tank", err)
	}
	if ph := system.PH().Value(); hasCarbon && !(ph >= leastPH && ph <= mostPH) {
		return s, nil, input.Bad("tank: carbon", "pH "+input.Fixed(ph, 2), "pH 6 to 10 (total scale) with this alkalinity: no tank with animals is outside, so test again")
	}
	if t.Air == 0 {
		s.air = system.PCO2().XCO2(&c, units.Atmosphere)
		assumed = append(assumed, "After a dose the tank returns to the CO2 that it has now, that of air with "+input.Fixed(s.air.PPM(), 0)+" ppm at sea level.")
	}
	s.carbon, s.known = system.Water(), true
	// From here on the totals are what they are, whatever a dose does to the
	// salinity.
	totals := c.Totals
	s.carbon.Options.Calcium = carbonate.Measured(totals.Calcium)
	s.carbon.Options.Magnesium = carbonate.Measured(totals.Magnesium)
	s.carbon.Options.Boron = carbonate.Measured(totals.Boron)
	s.carbon.Options.Fluoride = carbonate.Measured(totals.Fluoride)
	s.carbon.Options.Sulfate = carbonate.Measured(totals.Sulfate)
	assumed = append(assumed, "Contents that were not tested are taken from the salinity: sulfate"+fromSalinity+".")
	return s, assumed, nil
}

// A pH outside these is no reading of a tank.
const leastPH, mostPH = 6, 10

// perKilogram returns the level per kilogram of water of a density.
func (l Level) perKilogram(d units.Density) units.AmountPerKilogram {
	return l.AmountPerLitre().PerKilogram(d)
}

// chemistry answers for the carbonate side as it is now.
func (s *state) chemistry() (Chemistry, error) {
	if !s.known {
		return unknownChemistry(), nil
	}
	system, err := s.carbon.System()
	return chemistryOf(&system), err
}

// dose adds contents, in µmol for the whole tank. The salt in it is conserved,
// and so is the volume: what water comes along takes the place of top-off.
func (s *state) dose(brings ions.Composition) error {
	before := s.mass
	s.salt += units.Mass(brings.SolutionSalinity().GramsPerKilogram()) // per "kilogram" of the whole tank
	salinity := s.water.Absolute()
	var err error
	for range saltSteps {
		if s.water, err = seawater.FromAbsolute(salinity, s.water.Temperature()); err != nil {
			return input.In("salinity after the dose", err)
		}
		s.mass = s.water.OfVolume(s.volume).Mass
		salinity = units.Absolute(float64(s.salt/s.mass) * 1000)
	}
	if !s.known {
		return nil
	}
	c := s.carbon.Constants()
	per := units.AmountPerKilogram(1 / s.mass.Kilograms())
	thinned := units.AmountPerKilogram(before / s.mass) // the same content in a little more mass
	w := &s.carbon
	w.Salinity = s.water.Practical()
	w.Alkalinity = w.Alkalinity*thinned + brings.Alkalinity()*per
	w.DIC = w.DIC*thinned + brings.Carbon()*per
	w.Nutrients.Phosphate = w.Nutrients.Phosphate*thinned + brings.Amount(ions.Phosphate)*per
	total := func(has, comes units.AmountPerKilogram) carbonate.Total {
		return carbonate.Measured(has*thinned + comes*per)
	}
	w.Options.Calcium = total(c.Totals.Calcium, brings.Amount(ions.Calcium))
	w.Options.Magnesium = total(c.Totals.Magnesium, brings.Amount(ions.Magnesium))
	w.Options.Boron = total(c.Totals.Boron, brings.Boron())
	w.Options.Fluoride = total(c.Totals.Fluoride, brings.Amount(ions.Fluoride))
	w.Options.Sulfate = total(c.Totals.Sulfate, brings.Amount(ions.Sulfate))
	return nil
}

// saltSteps of S = salt/ρ(S)V; each gains more than a digit and a half, as the
// density hardly depends on the salinity.
const saltSteps = 12

// aerate brings the water into balance with the air.
func (s *state) aerate() error {
	if !s.known {
		return nil
	}
	var err error
	s.carbon, err = s.carbon.Equilibrate(s.air, units.Atmosphere)
	return err
}

// settle answers for the carbonate side as it is, and as it is once aired, and
// leaves it so.
func (s *state) settle() (now, aired Chemistry, err error) {
	if now, err = s.chemistry(); err != nil {
		return now, aired, input.In("tank after the dose", err)
	}
	if err = s.aerate(); err == nil {
		aired, err = s.chemistry()
	}
	return now, aired, input.In("tank after aeration", err)
}
