package mix

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/ions"
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

	// Ions is the composition of a mix of the product, of any strength: a
	// laboratory report made consistent (ions.Report.Close), or what recipe gives. The
	// zero value is sea salt of the composition of the ocean.
	Ions ions.Composition
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
	case s.SeaSalt.Value() == 0 && s.Label == Label{}:
		return units.Share(math.NaN()), input.Bad("salt", "neither a share of sea salt nor a label", "one of them")
	case s.SeaSalt.Value() != 0 && s.Label != Label{}:
		return units.Share(math.NaN()), input.Bad("salt", "a share of sea salt and a label", "one of them")
	case s.SeaSalt.Value() != 0:
		return soundShare("salt.seaSalt", s.SeaSalt)
	}
	return s.Label.seaSalt()
}

// seaSalt works out what the product must contain for the label to hold.
func (l Label) seaSalt() (units.Fraction, error) {
	mix, err := saltAt("salt.label.gives", l.Gives, "salt.label.at", l.At)
	if err != nil {
		return units.Share(math.NaN()), err
	}
	if err := input.Positive("salt.label.gives", l.Gives.Value(), ""); err != nil {
		return units.Share(math.NaN()), err
	}
	perWater, perMix := l.PerLitreOfWater, l.PerLitreOfMix
	var share units.Fraction
	switch {
	case perWater > 0 && perMix == 0:
		water, err := pureAt("salt.label.at", l.At)
		if err != nil {
			return units.Share(math.NaN()), err
		}
		product := perWater.Mass(1 * units.Litre)
		total := water.OfVolume(1*units.Litre).Mass + product
		share = units.Share(float64(mix.OfMass(total).Salt() / product))
	case perMix > 0 && perWater == 0:
		share = units.Share(float64(mix.OfVolume(1*units.Litre).Salt() / perMix.Mass(1*units.Litre)))
	default:
		return units.Share(math.NaN()), input.Bad("salt.label", perWater.String()+" of water and "+perMix.String()+" of mix",
			"grams per litre of water or per litre of mix, one of them above zero")
	}
	return soundShare("salt.label", share)
}

// SeaSaltOf returns the share of sea salt in a product from a batch that was
// weighed: so much product in so much water gave that salinity.
func SeaSaltOf(product, water units.Mass, gave units.PracticalSalinity) (units.Fraction, error) {
	if err := input.Positive("product", float64(product), "g"); err != nil {
		return units.Share(math.NaN()), err
	}
	if err := input.Positive("water", float64(water), "g"); err != nil {
		return units.Share(math.NaN()), err
	}
	mix, err := seawater.FromPractical(gave, units.Celsius(25)) // salt by mass: no temperature matters
	if err != nil {
		return units.Share(math.NaN()), input.As("gave", err)
	}
	share := units.Share(float64(mix.OfMass(product+water).Salt() / product))
	return soundShare("salt.seaSalt", share)
}

// soundShare refuses shares that no dry product has. Half of the mass as
// water is more than any hydrate of sea salts holds.
func soundShare(field string, share units.Fraction) (units.Fraction, error) {
	if share.Value() >= 0.5 && share.Value() <= 1 {
		return share, nil
	}
	return units.Share(math.NaN()), input.Bad(field, input.Fixed(share.Percent(), 1)+" % of the product",
		"50 to 100 %: check the grams, the litres and the salinity")
}

// checkPrice refuses a package or a price that cannot be.
func (s Salt) checkPrice() error {
	err := input.Join(
		input.NotNegative("salt.package", float64(s.Package), "g"),
		input.NotNegative("salt.price", s.Price.Amount, s.Price.Currency))
	if err == nil && s.Price != (units.Money{}) && s.Package == 0 {
		return input.Bad("salt.price", s.Price.String(), "the mass of the package that it buys too")
	}
	return err
}
