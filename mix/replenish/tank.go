package replenish

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// checkTank refuses a tank that cannot be, and air that cannot be.
func checkTank(tank tested.Water, air carbonate.XCO2) error {
	if err := tank.Check("tank"); err != nil {
		return err
	}
	if !(tank.Portion.Absolute().GramsPerKilogram() > 0) {
		return input.Bad("tank.salinity", tank.Portion.Sample.String(), "seawater")
	}
	if alkalinity, tested := tank.Level(tested.Alkalinity); tested && !(alkalinity.Base() >= 0) {
		return input.Bad("tank.alkalinity", alkalinity.String(), "zero or more: acid water is no tank")
	}
	return input.NotNegative("air", air.PPM(), "ppm")
}

// state is a tank in the course of a plan: its water, and what carbonate.Water
// conserves. It keeps its volume, as the top-off sees to.
type state struct {
	volume  units.Volume
	water   seawater.Sample
	salt    units.Mass // in the whole tank
	mass    units.Mass // of the whole tank
	carbon  carbonate.Water
	known   bool           // carbon is
	air     carbonate.XCO2 // that it comes into balance with
	ammonia tested.Level   // if it was tested
	search  bool           // only pH is asked for, see chemistry
}

// start works out the state of a tank, and what it had to assume. Without
// alkalinity, or without anything on the side of the carbon, the carbonate
// system stays unknown.
//
// Air is the CO₂ of the air with which the tank comes into balance again after a
// dose, 420 ppm outdoors and often the double in a closed room. Without it the tank
// is taken to keep the pressure of CO₂ that it has; without Carbon in the tank the
// water is taken to be in balance with it.
func start(tank tested.Water, air carbonate.XCO2) (s state, assumed []string, err error) {
	w := tank.Portion
	s = state{volume: tank.Volume(), water: w.Sample, salt: w.Salt(), mass: w.Mass, air: air}
	s.ammonia, _ = tank.Level(tested.Ammonia)
	_, hasAlkalinity := tank.Level(tested.Alkalinity)
	hasCarbon := tank.Carbon != carbonate.Known{}
	if !hasAlkalinity || !hasCarbon && air == 0 {
		return s, []string{
			"Alkalinity, and pH or the CO2 of the air, are not both known: pH and saturation states were not worked out.",
		}, nil
	}
	if !hasCarbon {
		if tank, err = tank.Aired(air, units.Atmosphere); err != nil {
			return s, nil, input.In("tank", err)
		}
		assumed = append(assumed, "The tank is in balance with air of "+input.Number(air.PPM())+
			" ppm CO2 at sea level: no pH was given.")
	}
	system, err := tank.System()
	if err != nil {
		return s, nil, input.In("tank", err)
	}
	if ph := system.PH().Value(); hasCarbon && !(ph >= leastPH && ph <= mostPH) {
		return s, nil, input.Bad("tank.carbon", "pH "+input.Fixed(ph, 2),
			"pH 6 to 10 (total scale) with this alkalinity: no tank with animals is outside, so test again")
	}
	assumed = append(assumed, tested.Extrapolated(&system)...)
	if air == 0 {
		s.air = system.PCO2().XCO2(&system.Constants, units.Atmosphere)
		assumed = append(assumed, "After a dose the tank returns to the CO2 that it has now, that of air with "+
			input.Fixed(s.air.PPM(), 0)+" ppm at sea level.")
	}
	s.carbon, s.known = system.Water(), true
	// From here on the totals are what they are, whatever a dose does to the
	// salinity.
	totals := system.Constants.Totals
	s.carbon.Options.Calcium = carbonate.Measured(totals.Calcium)
	s.carbon.Options.Magnesium = carbonate.Measured(totals.Magnesium)
	s.carbon.Options.Boron = carbonate.Measured(totals.Boron)
	s.carbon.Options.Fluoride = carbonate.Measured(totals.Fluoride)
	s.carbon.Options.Sulfate = carbonate.Measured(totals.Sulfate)
	fromSalinity := "sulfate"
	for _, p := range [...]tested.Parameter{tested.Calcium, tested.Magnesium, tested.Boron, tested.Fluoride} {
		if _, tested := tank.Level(p); !tested {
			fromSalinity += ", " + string(p)
		}
	}
	return s, append(assumed, "Contents that were not tested are taken from the salinity: "+fromSalinity+"."), nil
}

// A pH outside these is no reading of a tank.
const leastPH, mostPH = 6, 10

// chemistry answers for the carbonate side as it is now.
func (s *state) chemistry() (tested.Chemistry, error) {
	if !s.known {
		return tested.NoChemistry(), nil
	}
	system, err := s.carbon.System()
	if err != nil {
		return tested.NoChemistry(), err
	}
	if s.search { // the model of activities takes a hundred times as long as the rest
		c := tested.NoChemistry()
		c.PH = system.PH()
		return c, nil
	}
	var w tested.Water
	if s.ammonia.Exists() {
		w.Levels = tested.Levels{s.ammonia}
	}
	return w.ChemistryOf(&system), nil
}

// found answers for the carbonate side as it is, and as aeration alone would leave it.
func (s state) found() (f found, err error) {
	if f.now, err = s.chemistry(); err != nil {
		return f, input.When("tank", err)
	}
	s.search = true
	_, f.aired, err = s.settle("tank")
	return f, err
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
			return input.When("after the dose", err)
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
	w.Nutrients.Ammonia *= thinned
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
func (s *state) settle(of string) (now, aired tested.Chemistry, err error) {
	if now, err = s.chemistry(); err != nil {
		return now, aired, input.When(of, err)
	}
	if err = s.aerate(); err == nil {
		aired, err = s.chemistry()
	}
	return now, aired, input.When(of+", aired", err)
}
