package checks_test

import (
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/dilution/control"
	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/recipe"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/conductivity"
	"example.org/wellmixed/seawater/electrode"
	"example.org/wellmixed/seawater/eos80"
	"example.org/wellmixed/seawater/gas"
	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/seawater/titration"
	"example.org/wellmixed/seawater/weighing"
	"example.org/wellmixed/units"
)

// TestConcurrentUse calls into every package from many goroutines at once; with
// -race it finds state that they share. All must come to the same answers.
func TestConcurrentUse(t *testing.T) {
	want := askEveryPackage(t)
	var wait sync.WaitGroup
	for range 8 {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for range checks.Runs(5, 1) {
				for i, got := range askEveryPackage(t) {
					assert.Equal(t, want[i], got)
				}
			}
		}()
	}
	wait.Wait()
}

// askEveryPackage asks one question of each.
func askEveryPackage(t *testing.T) []string {
	var answers []string
	add := func(x any, err error) {
		assert.NoError(t, err)
		answers = append(answers, fmt.Sprint(x)) // text, because what is not known is NaN
	}
	s, warm := units.Practical(35), units.Celsius(25)
	sample, err := seawater.FromPractical(s, warm)
	add(sample, err)
	add(pss78.Conductivity(s, warm, 0), nil)
	add(eos80.Density(s, warm, 0), nil)
	add(teos10.SoundSpeedExact(teos10.AbsoluteFromPractical(s), warm, 0), nil)
	add(units.Parse[units.Volume]("5 US gal"))

	add(refractometer.Instrument{
		Graduation: refractometer.PracticalScale(),
		Zero:       refractometer.Zeroing{Standard: refractometer.PureWater(), Temperature: warm},
	}.Reading(sample.Absolute(), warm))
	add(hydrometer.Hydrometer{Pair: units.SG25C(), Expansion: hydrometer.Glass}.Reading(sample.Absolute(), warm))
	add(conductivity.Meter{}.Reading(sample.Absolute(), warm))
	add(weighing.Air{Temperature: warm, Pressure: units.Atmosphere, Humidity: units.Share(0.5)}.Density(), nil)
	agreement, err := seawater.Agree(seawater.Reading{Name: "one", Salinity: sample.Absolute(), Uncertainty: units.Absolute(0.2)}, seawater.Reading{Name: "two", Salinity: units.Absolute(35.3), Uncertainty: units.Absolute(0.2)})
	add(agreement, err)

	add(control.TopOffSettings{
		Watchdog: time.Second, Tank: 200, Area: 0.12, Salinity: s, Temperature: warm, Reservoir: 20, Flow: 20,
		Band: 5, Notice: 3, MaxRun: 4 * time.Minute, DayCap: 6,
	}.Worst(), nil)

	c := carbonate.At(s, warm, carbonate.Options{})
	system, err := c.FromAlkalinityDIC(2300, 2000, carbonate.Nutrients{})
	add(system, err)
	calibration, err := electrode.Calibrate(carbonate.PHNBS(7), electrode.Bottle7.Point(2, warm), electrode.Bottle10.Point(-170, warm))
	add(calibration, err)
	vessel := titration.Vessel{Sample: 100 * units.Gram, Acid: 0.1 * units.MolePerKilogram, Constants: c}
	add(vessel.Mixture(2300, titration.Closed(2000), 1*units.Gram))
	add(gas.Oxygen.Saturation(s, warm, units.Atmosphere), nil)
	water := ions.Reference(s)
	add(water.Readings(warm))

	salt := mix.Salt{SeaSalt: units.Share(0.95)}
	add(mix.Plan(mix.Batch{Target: s, Temperature: warm, WaterTemperature: warm, Amount: mix.FinalVolume(20), Salt: salt}))
	chloride, err := salts.Find("CaCl2.2H2O")
	add(chloride, err)
	add(chloride.Solubility(units.Celsius(20)))
	published, err := recipe.Find(recipe.Published()[0].Name)
	add(published, err)
	add(replenish.Plan(replenish.Dose{
		Tank:     tested.Water{Portion: sample.OfVolume(200), Levels: tested.Levels{tested.Calcium.Of(400, units.AsCalcium)}},
		To:       tested.Calcium.Of(410, units.AsCalcium),
		Additive: replenish.Dry(salts.Reagent{Compound: chloride, Purity: units.Share(1)}),
	}))
	add(rodi.TemperatureFactor(warm, rodi.FluxConstants{}), nil)

	nitrate := func(mg float64) tested.Levels {
		return tested.Levels{tested.Nitrate.Of(units.MassPerLitre(mg)*units.MilligramPerLitre, units.AsNitrate)}
	}
	tank := tested.Water{Portion: sample.OfVolume(200), Levels: nitrate(20)}
	batch := tested.Water{Portion: sample.OfVolume(40), Levels: nitrate(0)}
	add(dilution.PlanChange(dilution.Change{Tank: tank, Batch: batch, Swap: 40}))
	forecast, err := dilution.Routine{
		Tank: tank, PerDay: nitrate(0.5), Evaporation: 3 * units.LitrePerDay,
		Changes: []dilution.Renewal{{First: 7 * 24 * time.Hour, Every: 7 * 24 * time.Hour, Swap: 20, Batch: batch}},
	}.Forecast(30 * 24 * time.Hour)
	add(forecast.End, err)
	return answers
}
