package mix

import (
	"math"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Tempering is a hot and a cold water to be poured together. Either may be salt;
// kettle water is made by [seawater.HotWater].
type Tempering struct {
	Hot, Cold seawater.Sample
	Want      units.Temperature
	Total     units.Volume // measured at the temperature wanted
}

// TemperPlan is the answer to a Tempering.
type TemperPlan struct {
	Hot, Cold units.Volume // to pour, each measured at its own temperature
	Mix       seawater.Portion
	Cautions  []advice.Caution
}

// Temper works out how much of a hot and of a cold water make a volume of a
// temperature, which must lie between theirs. Heat adds up as enthalpy; what the
// bucket takes is not in it. Pour the cold water first.
func Temper(t Tempering) (TemperPlan, error) {
	err := input.Join(
		input.Set("hot.temperature", t.Hot.Temperature()),
		input.Set("cold.temperature", t.Cold.Temperature()),
		input.Set("want", t.Want),
		input.Positive("total", float64(t.Total), "L"))
	if err != nil {
		return TemperPlan{}, err
	}
	hot, cold, want := t.Hot.Temperature().Celsius(), t.Cold.Temperature().Celsius(), t.Want.Celsius()
	if !(cold <= want && want <= hot) {
		return TemperPlan{}, input.Bad("want", t.Want.String(),
			"between "+t.Cold.Temperature().String()+" and "+t.Hot.Temperature().String())
	}
	ofHot, ofCold, err := t.parts()
	if err != nil {
		return TemperPlan{}, err
	}
	p := TemperPlan{
		Hot: ofHot.Volume(), Cold: ofCold.Volume(), Mix: seawater.Blend(ofHot, ofCold),
		Cautions: hotCautions(t.Hot.Temperature(), t.Hot),
	}
	if !(p.Hot+p.Cold <= math.MaxFloat64 && float64(p.Mix.Mass) <= math.MaxFloat64) {
		return TemperPlan{}, input.Bad("total", t.Total.String(), "a volume of ordinary size")
	}
	return p, nil
}

// parts returns the two waters to pour.
func (t Tempering) parts() (ofHot, ofCold seawater.Portion, err error) {
	if t.Hot.Temperature() == t.Cold.Temperature() {
		return t.Hot.OfMass(0), t.Cold.OfVolume(t.Total), nil
	}
	blend := func(share float64) seawater.Portion { // of one gram
		return seawater.Blend(t.Hot.OfMass(units.Mass(share)), t.Cold.OfMass(units.Mass(1-share)))
	}
	share, ok := solve.Brent(func(x float64) float64 {
		return blend(x).Temperature().Celsius() - t.Want.Celsius()
	}, 0, 1, 1e-14)
	if !ok {
		return ofHot, ofCold, units.ErrNoConvergence
	}
	grams := float64(t.Total / blend(share).Volume())
	return t.Hot.OfMass(units.Mass(share * grams)), t.Cold.OfMass(units.Mass((1 - share) * grams)), nil
}

// hotCautions are those of water that is brought to or has a temperature.
func hotCautions(t units.Temperature, water seawater.Sample) []advice.Caution {
	var list []advice.Caution
	if t.Celsius() >= advice.ScaldingCelsius {
		list = append(list, scalds)
	}
	if t.Celsius() > advice.WarmMixCelsius && water.Absolute().GramsPerKilogram() > 0 {
		list = append(list, heatedMix)
	}
	return list
}
