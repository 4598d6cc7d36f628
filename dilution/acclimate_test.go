package dilution_test

import (
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// A shrimp comes in 0.8 L of salinity 32; the tank has 35. No more than 1 an hour,
// until it is within 0.3.
func ExamplePlanAcclimation() {
	bag, err := seawater.FromPractical(units.Practical(32), units.Celsius(23))
	if err != nil {
		fmt.Println(err)
		return
	}
	tank, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := dilution.PlanAcclimation(dilution.Acclimation{
		Bag:    tested.Water{Portion: bag.OfVolume(0.8 * units.Litre)},
		Tank:   tested.Water{Portion: tank.OfVolume(200 * units.Litre)},
		Near:   dilution.Near{Salinity: units.Practical(0.3)},
		Limits: tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Salinity: units.Practical(1), Within: time.Hour, Origin: "common practice"}}},
		Flow:   6 * units.LitrePerHour,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f mL/min for %.0f h, %.1f L in the end\n", plan.Flow.MillilitresPerMinute(), plan.Time.Hours(), plan.Final.Portion.Volume().Litres())
	fmt.Println("slowed by", plan.Slowed)
	// Output:
	// 6.7 mL/min for 18 h, 8.0 L in the end
	// slowed by salinity by 1 within an hour (common practice)
}

// By mass the way of the salinity is a closed form: a bag of mass M with d to go is
// within n after M (d/n - 1) of tank water, and the fastest drip for l an hour is M
// l/(d - l) an hour.
func TestAcclimationClosedForm(t *testing.T) {
	rnd := rand.New(rand.NewPCG(61, 62))
	for range checks.Runs(200, 20) {
		bag, tank := water(t, 28+4*rnd.Float64(), 20+5*rnd.Float64()), water(t, 34+4*rnd.Float64(), 25)
		if rnd.IntN(2) == 0 {
			bag, tank = tank, bag
		}
		d := math.Abs(bag.Practical().Value() - tank.Practical().Value())
		near, limit := d*(0.05+0.5*rnd.Float64()), d*(0.1+0.5*rnd.Float64())
		a := dilution.Acclimation{
			Bag: tested.Water{Portion: bag.OfVolume(units.Volume(0.3 + 5*rnd.Float64()))}, Tank: tested.Water{Portion: tank.OfVolume(1)},
			Near: dilution.Near{Salinity: units.Practical(near)}, Flow: 100,
			Limits: tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Salinity: units.Practical(limit), Within: time.Hour, Origin: "here"}}},
		}
		p, err := dilution.PlanAcclimation(a)
		mass := a.Bag.Portion.Mass.Grams() * (d/near - 1)
		if takes := (d/near - 1) * (d - limit) / limit; takes > 48 && d-near > limit {
			assert.ErrorContains(t, err, "carry the animal over step by step")
			continue
		}
		require.NoError(t, err)
		checks.Relative(t, "added", tank.OfVolume(p.Added).Mass.Grams(), mass, 1e-9)
		checks.Relative(t, "near", math.Abs(p.Final.Portion.Practical().Value()-tank.Practical().Value()), near, 1e-9)
		assert.Equal(t, "salinity by "+number(near), p.Decides)
		checks.Relative(t, "final", p.Final.Portion.Mass.Grams(), mass+a.Bag.Portion.Mass.Grams(), 1e-9)
		if d-near <= limit {
			continue // the whole way is within the limit of an hour
		}
		if q := a.Bag.Portion.Mass.Grams() * limit / (d - limit); q < tank.OfVolume(100).Mass.Grams() {
			checks.Relative(t, "flow", tank.OfVolume(units.Volume(p.Flow)).Mass.Grams(), q, 1e-6)
			assert.InEpsilon(t, mass/q, p.Time.Hours(), 1e-6)
			assert.NotEmpty(t, p.Slowed)
		}
	}
}

func number(x float64) string { return fmt.Sprintf("%.6g", x) }

// Levels by amount, pH by alkalinity and carbon; free ammonia is worked out.
func TestAcclimationWithChemistry(t *testing.T) {
	bag := tested.Water{Portion: water(t, 33, 24).OfVolume(1), Levels: tested.Levels{
		tested.AlkalinityOf(units.DKH(6)).In(tested.DKH), tested.Nitrate.Of(40*units.MilligramPerLitre, units.AsNitrate), tested.Ammonia.Of(1.5*units.MilligramPerLitre, units.AsNitrogen),
	}}
	bag.Carbon = carbonate.PH(carbonate.PHTotal(6.9))
	tank := tested.Water{Portion: water(t, 33, 24).OfVolume(100), Levels: tested.Levels{
		tested.AlkalinityOf(units.DKH(8)).In(tested.DKH), tested.Nitrate.Of(4*units.MilligramPerLitre, units.AsNitrate), tested.Ammonia.Of(0*units.MilligramPerLitre, units.AsNitrogen),
	}}
	tank, err := tank.Aired(500, units.Atmosphere)
	require.NoError(t, err)
	a := dilution.Acclimation{Bag: bag, Tank: tank, Near: dilution.Near{Levels: nitrate(9)}, Flow: 1, Limits: none}
	p, err := dilution.PlanAcclimation(a)
	require.NoError(t, err)
	assert.InDelta(t, 3, p.Added.Litres(), 1e-9) // 36/9 - 1
	assert.InDelta(t, 3, p.Time.Hours(), 1e-6)
	assert.InDelta(t, 13, nitrateOf(t, p.Final), 1e-9)
	alk, _ := alkalinityIn(p.Final)
	assert.InDelta(t, 7.5, alk.DKH(), 1e-6)
	before, err := bag.Chemistry()
	require.NoError(t, err)
	chem, err := p.Final.Chemistry()
	require.NoError(t, err)
	assert.Greater(t, chem.PH.Value(), before.PH.Value())
	text := fmt.Sprint(p.Cautions)
	assert.Contains(t, text, fmt.Sprintf("%.3f mg/L is the poisonous NH3 now", before.FreeAmmonia.MassPerLitre().MilligramsPerLitre()))
	assert.Contains(t, text, "above 0.02, counted as NH3 (common practice)")

	a.Near = dilution.Near{PH: 0.1}
	a.Limits = tested.Limits{WithoutUsual: true, Own: []tested.Limit{{PH: 0.3, Within: time.Hour, Origin: "here"}}}
	p, err = dilution.PlanAcclimation(a)
	require.NoError(t, err)
	end, err := p.Final.Chemistry()
	require.NoError(t, err)
	goal, err := tank.Chemistry()
	require.NoError(t, err)
	assert.InDelta(t, 0.1, goal.PH.Value()-end.PH.Value(), 1e-7)
	assert.Contains(t, p.Slowed, "pH by 0.3")
	assert.Greater(t, p.Time, 3*time.Hour)

	// Limits of what is not known are said to be so.
	bare := dilution.Acclimation{
		Bag: tested.Water{Portion: bag.Portion, Levels: nitrate(40)}, Tank: tested.Water{Portion: water(t, 34, 24).OfVolume(1)},
		Near: dilution.Near{Salinity: units.Practical(0.3)}, Limits: tested.Limits{}, Flow: 1,
	}
	p, err = dilution.PlanAcclimation(bare)
	require.NoError(t, err)
	for _, says := range []string{"Nitrate is not known in the bag", "The pH is not known in the bag"} {
		assert.Contains(t, fmt.Sprint(p.Assumptions), says)
	}

	// A bag that is near already takes nothing.
	a.Near, a.Limits = dilution.Near{Temperature: 1}, none
	p, err = dilution.PlanAcclimation(a)
	require.NoError(t, err)
	assert.Zero(t, p.Added)
	assert.Zero(t, p.Time)
	assert.Empty(t, p.Decides)
}

func TestAcclimationRefuses(t *testing.T) {
	for want, spoil := range map[string]func(a *dilution.Acclimation){
		"bag.temperature: got nothing": func(a *dilution.Acclimation) { a.Bag = tested.Water{} },
		"bag.nitrate: got -1":          func(a *dilution.Acclimation) { a.Bag.Levels = nitrate(-1) },
		"tank.temperature":             func(a *dilution.Acclimation) { a.Tank = tested.Water{} },
		"flow: got 0 L/h":              func(a *dilution.Acclimation) { a.Flow = 0 },
		"flow: got NaN":                func(a *dilution.Acclimation) { a.Flow = units.Flow(math.NaN()) },
		"limits.within":                func(a *dilution.Acclimation) { a.Limits = tested.Limits{WithoutUsual: true, Own: []tested.Limit{{}}} },
		"near: got nothing":            func(a *dilution.Acclimation) { a.Near = dilution.Near{} },
		"salinity: got -1":             func(a *dilution.Acclimation) { a.Near.Salinity = units.Practical(-1) },
		"near.nitrate":                 func(a *dilution.Acclimation) { a.Near.Levels = nitrate(1) },
		"bag.carbon":                   func(a *dilution.Acclimation) { a.Near.PH = 0.1 },
		"near: got a swing":            func(a *dilution.Acclimation) { a.Near.Salinity = units.Practical(1e-6) },
		"done within days":             func(a *dilution.Acclimation) { a.Flow = 1e-9 },
		"carry the animal": func(a *dilution.Acclimation) {
			a.Limits = tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Salinity: units.Practical(0.01), Within: time.Hour, Origin: "here"}}}
		},
		"limits.nitrate: got 0": func(a *dilution.Acclimation) {
			a.Limits = tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Levels: nitrate(0), Within: time.Hour, Origin: "here"}}}
		},
	} {
		a := dilution.Acclimation{
			Bag: tested.Water{Portion: water(t, 31, 24).OfVolume(1)}, Tank: tested.Water{Portion: water(t, 35, 25).OfVolume(1)},
			Near: dilution.Near{Salinity: units.Practical(0.5)}, Flow: 2, Limits: none,
		}
		spoil(&a)
		p, err := dilution.PlanAcclimation(a)
		assert.ErrorIs(t, err, units.ErrInput, want)
		if assert.Error(t, err, want) {
			assert.Contains(t, err.Error(), want)
		}
		assert.Zero(t, p.Added)
	}
}

func FuzzPlanAcclimation(f *testing.F) {
	f.Add(uint64(1), 1.0, 32.0, 23.0, 35.0, 25.0, 0.3, 1.0, 6.0, int64(time.Hour))
	f.Fuzz(func(t *testing.T, seed uint64, litres, s0, t0, s1, t1, near, limit, flow float64, within int64) {
		bag, err := seawater.FromPractical(units.Practical(s0), units.Celsius(t0))
		if err != nil {
			return
		}
		tank, err := seawater.FromPractical(units.Practical(s1), units.Celsius(t1))
		if err != nil {
			return
		}
		var bytes [32]byte
		binary.LittleEndian.PutUint64(bytes[:], seed)
		levels := random(t, rand.New(rand.NewChaCha8(bytes))).Tank.Levels
		a := dilution.Acclimation{
			Bag: tested.Water{Portion: bag.OfVolume(units.Volume(litres)), Levels: levels}, Tank: tested.Water{Portion: tank.OfVolume(1), Levels: levels},
			Near: dilution.Near{Salinity: units.Practical(near), Temperature: units.TemperatureDifference(near)}, Flow: units.Flow(flow),
			Limits: tested.Limits{WithoutUsual: true, Own: []tested.Limit{{Salinity: units.Practical(limit), Within: time.Duration(within), Origin: "fuzz"}}},
		}
		p, err := dilution.PlanAcclimation(a)
		if err != nil {
			return
		}
		require.LessOrEqual(t, p.Flow, a.Flow)
		require.GreaterOrEqual(t, p.Time, time.Duration(0))
		require.LessOrEqual(t, math.Abs(p.Final.Portion.Practical().Value()-s1), math.Max(near*(1+1e-6), 1e-9))
	})
}
