package mix

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Scoop measures dry salt. Either its level Volume is known, and the bulk
// density of the salt makes a mass of it, or the Mass of one level scoop of
// this salt is known from a balance or from [CalibrateScoop]. A balance is
// better: bulk density changes with moisture and grain.
type Scoop struct {
	Name   string
	Volume units.Volume
	Mass   units.Mass
}

// holds returns the mass of one level scoop of the salt, 0 for the zero Scoop.
func (s Scoop) holds(salt Salt) (units.Mass, error) {
	switch {
	case s.Volume == 0 && s.Mass == 0:
		return 0, nil
	case s.Volume != 0 && s.Mass != 0:
		return input.NaN[units.Mass](), input.Bad("scoop", s.Volume.String()+" and "+s.Mass.String(),
			"the level volume or the mass of a scoop, one of them")
	case s.Mass != 0:
		return s.Mass, input.Positive("scoop.mass", float64(s.Mass), "g")
	}
	if err := input.Positive("scoop.volume", float64(s.Volume), "L"); err != nil {
		return input.NaN[units.Mass](), err
	}
	if !(salt.BulkDensity >= 300 && salt.BulkDensity <= 2200) {
		return input.NaN[units.Mass](), input.Bad("salt.bulkDensity", salt.BulkDensity.String(),
			"300 to 2200 kg/m³ to scoop by volume (2200 kg/m³ is solid salt); or the mass of a scoop")
	}
	return salt.BulkDensity.Mass(s.Volume), nil
}

// PastBatch is a batch that was mixed by counting scoops and then measured.
type PastBatch struct {
	Salt             Salt
	Scoops           float64 // level scoops, not heaped
	Water            units.Volume
	WaterTemperature units.Temperature
	Gave             units.PracticalSalinity
}

// CalibrateScoop returns the scoop with the mass that explains a past batch.
// It is as good as the reading of its salinity: 1 in 35 is 3 % of the mass.
func CalibrateScoop(b PastBatch) (Scoop, error) {
	share, err := b.Salt.SeaSaltShare()
	if err != nil {
		return Scoop{}, err
	}
	if err := input.Positive("scoops", b.Scoops, ""); err != nil {
		return Scoop{}, err
	}
	if err := input.Positive("water", float64(b.Water), "L"); err != nil {
		return Scoop{}, err
	}
	water, err := pureAt("waterTemperature", b.WaterTemperature)
	if err != nil {
		return Scoop{}, err
	}
	mix, err := saltAt("gave", b.Gave, "waterTemperature", b.WaterTemperature)
	if err != nil {
		return Scoop{}, err
	}
	if err := input.Positive("gave", b.Gave.Value(), ""); err != nil {
		return Scoop{}, err
	}
	product := dissolve(water.OfVolume(b.Water), share, mix)
	return Scoop{Mass: units.Mass(float64(product) / b.Scoops)}, nil
}

// dissolve returns the mass of a product with that share of sea salt that
// brings the liquid to the salinity of the target:
//
//	salt + share·m = s (liquid + m)
//
// It is negative if the liquid is saltier already, and zero, not a last bit of it,
// if it is right.
func dissolve(liquid seawater.Portion, share units.Fraction, target seawater.Sample) units.Mass {
	s := target.Absolute().GramsPerKilogram() / 1000
	return units.Mass((float64(s*float64(liquid.Mass)) - float64(liquid.Salt())) / (share.Value() - s))
}
