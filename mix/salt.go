package mix

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Salt is a dry sea-salt product, described by its own numbers. Either the
// share of SeaSalt in it is known, from an assay or from weighing a past batch
// (see [SeaSaltOf]), or Label says what the maker promises. What is not sea
// salt in the product counts as water: moisture and water of crystallisation.
type Salt struct {
	Name        string
	SeaSalt     units.Fraction // anhydrous sea salt in the mass of the product; 0: Label tells
	Label       Label          // used if SeaSalt is 0
	BulkDensity units.Density  // as it lies in a scoop; 0 if not known
	Package     units.Mass     // what one package holds; 0 if not known
	Price       units.Money    // of one package
}

// Label is the promise on a package of salt: so many grams to the litre give
// such a salinity. Labels differ in which litre they mean, that of the water
// poured or that of the finished mix, which is 1 to 2 % more: exactly one of
// the two is to be set.
type Label struct {
	PerLitreOfWater units.MassPerLitre
	PerLitreOfMix   units.MassPerLitre
	Gives           units.PracticalSalinity
	At              units.Temperature // of the litre
}

// SeaSaltShare returns the share of anhydrous sea salt in the product, as it is
// given or as the label implies it.
func (s Salt) SeaSaltShare() (units.Fraction, error) {
	switch {
	case s.SeaSalt == 0 && s.Label == Label{}:
		return input.NaN[units.Fraction](), input.Bad("salt", "neither a share of sea salt nor a label", "one of them")
	case s.SeaSalt != 0 && s.Label != Label{}:
		return input.NaN[units.Fraction](), input.Bad("salt", "a share of sea salt and a label", "one of them")
	case s.SeaSalt != 0:
		return s.SeaSalt, checkSeaSalt("salt.seaSalt", s.SeaSalt)
	}
	return s.Label.seaSalt()
}

// seaSalt works out what the product must contain for the label to hold.
func (l Label) seaSalt() (units.Fraction, error) {
	mix, err := seawater.FromPractical(l.Gives, l.At)
	if err != nil {
		return input.NaN[units.Fraction](), input.In("salt.label", err)
	}
	if !(l.Gives.Value() > 0) {
		return input.NaN[units.Fraction](), input.Bad("salt.label.gives", l.Gives.String(), "a salinity above zero")
	}
	perWater, perMix := l.PerLitreOfWater, l.PerLitreOfMix
	var share units.Fraction
	switch {
	case perWater > 0 && perMix == 0:
		water, err := seawater.PureWater(l.At)
		if err != nil {
			return input.NaN[units.Fraction](), input.In("salt.label", err)
		}
		product := perWater.Mass(1 * units.Litre)
		total := water.OfVolume(1*units.Litre).Mass + product
		share = units.Fraction(mix.OfMass(total).Salt() / product)
	case perMix > 0 && perWater == 0:
		share = units.Fraction(mix.OfVolume(1*units.Litre).Salt() / perMix.Mass(1*units.Litre))
	default:
		return input.NaN[units.Fraction](), input.Bad("salt.label", perWater.String()+" of water and "+perMix.String()+" of mix",
			"grams per litre of water or per litre of mix, one of them above zero")
	}
	return share, checkSeaSalt("salt.label", share)
}

// SeaSaltOf returns the share of sea salt in a product from a batch that was
// weighed: so much product in so much water gave that salinity.
func SeaSaltOf(product, water units.Mass, gave units.PracticalSalinity) (units.Fraction, error) {
	if err := input.Positive("product", float64(product), "g"); err != nil {
		return input.NaN[units.Fraction](), err
	}
	if err := input.Positive("water", float64(water), "g"); err != nil {
		return input.NaN[units.Fraction](), err
	}
	mix, err := seawater.FromPractical(gave, units.Celsius(25)) // salt by mass: no temperature matters
	if err != nil {
		return input.NaN[units.Fraction](), err
	}
	share := units.Fraction(mix.OfMass(product+water).Salt() / product)
	return share, checkSeaSalt("sea salt", share)
}

// checkSeaSalt refuses shares that no dry product has. Half of the mass as
// water is more than any hydrate of sea salts holds.
func checkSeaSalt(field string, share units.Fraction) error {
	if share >= 0.5 && share <= 1 {
		return nil
	}
	return input.Bad(field, share.String()+" sea salt",
		"50 to 100 % of the product: check the grams, the litres and the salinity")
}
