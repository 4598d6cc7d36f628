package checks_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/recipe"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Planners report all that is wrong with a request at once, and a field is the path
// that the caller writes.
func TestPlannersComplainInOneVoice(t *testing.T) {
	second := func(_ any, err error) error { return err }
	sea, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	assert.NoError(t, err)
	tank := tested.Water{Portion: sea.OfVolume(200 * units.Litre)}
	noDate := replenish.Test{Level: tested.AlkalinityOf(units.DKH(8)).In(tested.DKH)}
	for name, x := range map[string]struct {
		err    error
		fields string
	}{
		"mix.Plan": {second(mix.Plan(mix.Batch{
			Present: sea.OfMass(-1), Salt: mix.Salt{SeaSalt: units.Percent(95), Package: -2},
		})), "target temperature waterTemperature present salt.package amount"},
		"mix.Correct": {second(mix.Correct(mix.Mixed{
			Most: -1, Salt: mix.Salt{SeaSalt: units.Percent(95)},
		})), "present target most"},
		"mix.Heat":   {second(mix.Heat(mix.Heating{Loss: 1})), "water heater water.temperature to room"},
		"mix.Temper": {second(mix.Temper(mix.Tempering{Cold: sea, Total: -1})), "hot.temperature want total"},
		"mix.Drift":  {second(mix.Drift(mix.Drifting{Loss: -1, Power: -1, Evaporation: -1, After: -1})), "water water.temperature loss power evaporation after"},
		"mix.LossOf": {second(mix.LossOf(mix.Cooled{Doubt: -1})), "water water.temperature in room doubt"},
		"mix.Chill":  {second(mix.Chill(mix.Chilling{})), "water water.temperature ice"},
		"mix.Freeze": {second(mix.Freeze(mix.Freezing{})), "water water.temperature coldest"},
		"rodi.System.Produce": {second(rodi.System{}.Produce(rodi.Feed{Chlorine: -1})),
			"feed.tds feed.pressure feed.temperature feed.chlorine membrane.rated.flow membrane.rated.rejection"},
		"rodi.System, its parts": {second(rodi.System{
			Carbon: rodi.Carbon{Bed: -1, Chlorine: -1}, Resin: rodi.Resin{Capacity: -1},
		}.Produce(rodi.Feed{})), "carbon.bed carbon.chlorine resin.volume resin.capacity resin.usable"},
		"rodi.Judge, its limits": {second(rodi.Judge(rodi.Readings{}, rodi.Limits{PressureDrop: -1})),
			"limits.rejection limits.afterResin limits.pressureDrop limits.chlorine"},
		"rodi.Judge": {second(rodi.Judge(rodi.Readings{GaugeStep: -1, ChlorineStep: -1}, rodi.UsualLimits())),
			"step gaugeStep chlorineStep"},
		"recipe.Solve": {second(recipe.Solve(recipe.Job{})), "volume temperature targets shelf"},
		"replenish.Plan": {second(replenish.Plan(replenish.Dose{
			Tank: tank, To: tested.Calcium.Of(420*units.MilligramPerLitre, units.AsCalcium),
		})), "tank.calcium additive"},
		"replenish.Lime": {second(replenish.Lime(replenish.LimeWater{Tank: tank})), "topOff temperature saturation"},
		"replenish.Age":  {second(replenish.Age(replenish.Ageing{After: -1, Change: units.Percent(200)})), "water.temperature after change every"},
		"replenish.Consumption": {second(replenish.Consumption(replenish.Log{Tests: []replenish.Test{noDate, noDate}})),
			"volume tests[0].at tests[1].at"},
		"replenish.Maintain": {second(replenish.Maintain(replenish.Upkeep{})), "tank.temperature additive use"},
		"dilution.PlanCourse": {second(dilution.PlanCourse(dilution.Course{Manner: dilution.InSteps, Every: -time.Hour, Heater: -1})),
			"tank.temperature batch.temperature heater every"},
		"dilution.PlanChange": {second(dilution.PlanChange(dilution.Change{})), "tank.temperature batch.temperature"},
		"dilution.Routine": {second(dilution.Routine{Changes: []dilution.Renewal{{}}}.Forecast(-1)),
			"span tank.temperature changes[0].batch.temperature"},
		"dilution.PlanSchedule": {second(dilution.PlanSchedule(dilution.Schedule{})),
			"routine.tank.temperature batch.temperature swaps every span"},
	} {
		fields := complaints(x.err)
		assert.NotEmpty(t, fields, name)
		if x.fields != "" {
			assert.Subset(t, fields, strings.Fields(x.fields), name)
		}
		for _, f := range fields {
			assert.NotRegexp(t, `[ ,:]`, f, "%s: %v", name, x.err)
		}
	}
}

// complaints are the fields of all errors that are joined in one.
func complaints(err error) []string {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var list []string
		for _, one := range joined.Unwrap() {
			list = append(list, complaints(one)...)
		}
		return list
	}
	var bad *units.InputError
	var out *units.RangeError
	switch {
	case errors.As(err, &bad):
		return []string{bad.Field}
	case errors.As(err, &out):
		return []string{out.Quantity}
	}
	return nil
}
