package tested

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Chemistry is what the CO₂ system makes of a water, well mixed.
type Chemistry struct {
	PH          carbonate.TotalPH
	PCO2        carbonate.PCO2
	Aragonite   units.Scalar         // saturation state; below 1 aragonite dissolves
	Brucite     carbonate.Saturation // with Mg(OH)₂
	Gypsum      carbonate.Saturation // with CaSO₄·2H₂O
	FreeAmmonia Level                // NH₃ alone, counted as NH₃; not given if ammonia was not tested
}

// FreeAmmonia is NH₃ alone, the poisonous part of Ammonia.
const FreeAmmonia Parameter = "free ammonia"

// Chemistry returns the pH and what goes with it. It takes the alkalinity and
// Carbon, and refuses a water whose are not known. Contents that were not tested
// are those of seawater of the salinity.
func (w Water) Chemistry() (Chemistry, error) {
	system, err := w.System()
	if err != nil {
		return NoChemistry(), err
	}
	return w.ChemistryOf(&system), nil
}

// CarbonChemistry is Chemistry without brucite and gypsum, which take the model of activities
// and with it thirty times as long: those are NaN. Planners search with it.
func (w Water) CarbonChemistry() (Chemistry, error) {
	system, err := w.System()
	if err != nil {
		return NoChemistry(), err
	}
	return w.carbonOf(&system), nil
}

// ChemistryOf picks out of a solved system what a keeper asks for.
func (w Water) ChemistryOf(s *carbonate.System) Chemistry {
	c, m := w.carbonOf(s), s.Minerals()
	c.Brucite, c.Gypsum = m.Brucite, m.Gypsum
	return c
}

func (w Water) carbonOf(s *carbonate.System) Chemistry {
	c := NoChemistry()
	c.PH, c.PCO2, c.Aragonite = s.PH(), s.PCO2(), units.Scalar(s.Aragonite())
	if l, tested := w.Level(Ammonia); tested {
		c.FreeAmmonia = FreeAmmoniaOf(l, s.FreeAmmonia())
	}
	return c
}

// FreeAmmoniaOf is a share of a level of ammonia, counted as NH₃ whatever the test
// counted.
func FreeAmmoniaOf(total Level, share units.Fraction) Level {
	return FreeAmmonia.OfAmount(total.AmountPerLitre() * units.AmountPerLitre(share.Value())).As(units.AsAmmonia)
}

// NoChemistry is a chemistry that is not known: NaN throughout.
func NoChemistry() Chemistry {
	nan := units.Scalar(math.NaN())
	none := carbonate.Saturation{Omega: nan, Uncertainty: nan}
	return Chemistry{
		PH:        carbonate.PHTotal(math.NaN()),
		PCO2:      carbonate.PCO2(math.NaN()),
		Aragonite: nan,
		Brucite:   none,
		Gypsum:    none,
	}
}

// System solves the CO₂ system of the water. Its CheckRange tells which of the
// fits behind it were left.
func (w Water) System() (carbonate.System, error) {
	if w.Carbon == (carbonate.Known{}) {
		return carbonate.System{}, noCarbon()
	}
	alkalinity, tested := w.Level(Alkalinity)
	if !tested {
		return carbonate.System{}, input.Bad("alkalinity", "nothing", "the alkalinity of the water")
	}
	options, nutrients := w.constituents()
	c := carbonate.At(w.Portion.Practical(), w.Portion.Temperature(), options)
	return c.Solve(carbonate.Alkalinity(w.perKilogram(alkalinity)), w.Carbon, nutrients)
}

func noCarbon() error {
	return input.Bad("carbon", "nothing", "one more thing than the alkalinity: a pH, the DIC, or the CO2 of the "+
		"air by Aired")
}

// constituents returns the contents that the CO₂ system takes from tests.
func (w Water) constituents() (o carbonate.Options, n carbonate.Nutrients) {
	for i := range w.Levels {
		l := w.Levels[i]
		content := w.perKilogram(l)
		switch l.parameter {
		case Calcium:
			o.Calcium = carbonate.Measured(content)
		case Magnesium:
			o.Magnesium = carbonate.Measured(content)
		case Boron:
			o.Boron = carbonate.Measured(content)
		case Fluoride:
			o.Fluoride = carbonate.Measured(content)
		case Phosphate:
			n.Phosphate = content
		case Silicate:
			n.Silicate = content
		case Ammonia:
			n.Ammonia = content
		case OrganicAlkalinity:
			n.Organic = content
		}
	}
	return o, n
}

// perKilogram returns a level per kilogram of the water.
func (w Water) perKilogram(l Level) units.AmountPerKilogram {
	return l.AmountPerLitre().PerKilogram(w.Portion.Density())
}

// DIC returns the dissolved inorganic carbon, as Carbon says or as it follows from
// that and the alkalinity.
func (w Water) DIC() (units.AmountPerKilogram, error) {
	if dic, known := w.Carbon.DIC(); known {
		return dic, nil
	}
	s, err := w.System()
	if err != nil {
		return input.NaN[units.AmountPerKilogram](), err
	}
	return s.DIC(), nil
}

// Aired returns the water with the DIC that it comes to in air of this content
// of CO₂: about 430 ppm outdoors, 600 to 1500 in rooms (common practice). On error
// the water comes back as it was.
func (w Water) Aired(air carbonate.XCO2, barometer units.AirPressure) (Water, error) {
	alkalinity, tested := w.Level(Alkalinity)
	if !tested {
		return w, input.Bad("alkalinity", "nothing", "the alkalinity of the water")
	}
	options, nutrients := w.constituents()
	aired, err := carbonate.Water{
		Salinity: w.Portion.Practical(), Temperature: w.Portion.Temperature(),
		Alkalinity: w.perKilogram(alkalinity), Nutrients: nutrients, Options: options,
	}.Equilibrate(air, barometer)
	if err != nil {
		return w, err
	}
	w.Carbon = carbonate.DIC(aired.DIC)
	return w, nil
}
