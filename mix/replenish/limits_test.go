package replenish

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// What a low pH may be raised by is the limit and no more. Before, a rise up to 7.8
// counted for nothing: these plans went to 7.70 and 7.84 in one step, and a portion
// of lime water to 8.00.
func TestLowPHIsLimited(t *testing.T) {
	tank := reef(t)
	tank.Levels = tested.Levels{tested.AlkalinityOf(6 * units.DKH)}
	tank.Carbon = carbonate.PH(carbonate.PHTotal(7.2))
	d := Dose{Tank: tank, To: tested.AlkalinityOf(7 * units.DKH), Additive: pure(t, "Na2CO3")}
	plan, err := Plan(d)
	require.NoError(t, err)
	assert.Equal(t, 3, len(plan.Steps))
	assert.Equal(t, "pH, 0.2 at a dose (common practice)", plan.LimitedBy)
	respects(t, d, plan)
	assert.Contains(t, identifiers(plan.Cautions), "ammonia-not-tested")

	d.Tank.Carbon, d.Air, d.Limits = carbonate.PH(carbonate.PHTotal(7.4)), 2500, limits(0.1)
	d.Tank = d.Tank.OfVolume(200)
	plan, err = Plan(d)
	require.NoError(t, err)
	assert.Equal(t, 6, len(plan.Steps))
	respects(t, d, plan)

	w := limeWater300(t)
	w.Tank.Carbon = carbonate.PH(carbonate.PHTotal(7.2))
	s, err := Lime(w)
	require.NoError(t, err)
	checks.Absolute(t, "lime", s.AtOnce.PH.Value(), 7.4, 1e-6)
	assert.LessOrEqual(t, s.AtOnce.PH.Value()-7.2, 0.2)
}

// Free ammonia is said in numbers where ammonia was tested, counted as NH3.
func TestFreeAmmoniaOfADose(t *testing.T) {
	tank := reef(t).With(tested.Ammonia.Of(0.4*units.MilligramPerLitre, units.AsNitrogen))
	tank.Carbon = carbonate.PH(carbonate.PHTotal(7.9))
	plan, err := Plan(Dose{Tank: tank, Air: air, To: tested.AlkalinityOf(8 * units.DKH), Additive: pure(t, "Na2CO3")})
	require.NoError(t, err)
	for _, c := range plan.Cautions {
		if c.ID == "free-ammonia" {
			before, after := plan.Before.FreeAmmonia, plan.Steps[len(plan.Steps)-1].AtOnce.FreeAmmonia
			assert.Greater(t, after.Base(), before.Base())
			// 0.4 mg/L N are 0.486 mg/L NH3 and NH4 as NH3, of which 4.3 % are free at pH 7.9
			// (pK 9.24 at 35 and 25 °C, Clegg and Whitfield 1995).
			assert.InDelta(t, 0.0210, before.MassPerLitre().MilligramsPerLitre(), 0.0005)
			assert.Contains(t, c.Text, "raise free ammonia from 0.021 to 0.037 mg/L")
			assert.Contains(t, c.Text, "counted as NH3; above 0.02 animals suffer (common practice)")
			assert.Equal(t, advice.Danger, c.Severity)
			return
		}
	}
	t.Fatal("no caution")
}

// A dose of three and a half times the limit of a day takes four days, of each
// parameter. The limits stand here once more, with no help from the library; they
// are common practice.
func TestPerDay(t *testing.T) {
	for p, perDay := range map[tested.Parameter]float64{ // mg/L as the trade counts; of alkalinity dKH
		tested.Alkalinity: 1, tested.Calcium: 20, tested.Magnesium: 50, tested.Potassium: 10, tested.Strontium: 1,
		tested.Bromide: 5, tested.Boron: 0.5, tested.Fluoride: 0.2, tested.Iodine: 0.01, tested.Iron: 0.002,
		tested.Nitrate: 2, tested.Phosphate: 0.02,
	} {
		tank := reef(t)
		tank.Carbon = carbonate.Known{} // no pH, no limit of it
		present, _ := tank.Level(p)
		counted := map[tested.Parameter]float64{ // g/mol, IUPAC 2021
			tested.Calcium: 40.078, tested.Magnesium: 24.305, tested.Potassium: 39.098, tested.Strontium: 87.62,
			tested.Bromide: 79.904, tested.Boron: 10.81, tested.Fluoride: 18.998, tested.Iodine: 126.90, tested.Iron: 55.845,
			tested.Nitrate: 62.004, tested.Phosphate: 94.970, tested.Alkalinity: 56.077 / 20,
		}
		to := present.WithBase(present.Base() + 3.5*perDay/counted[p])
		source := sources[p][0]
		if p == tested.Alkalinity {
			tank.Carbon = carbonate.PH(carbonate.PHTotal(8.05))
		}
		plan, err := Plan(Dose{Tank: tank, To: to, Additive: pure(t, source)})
		require.NoError(t, err, p)
		assert.Equal(t, 4, len(plan.Steps), "%s by %s: %s", p, source, plan.LimitedBy)
		assert.Contains(t, plan.LimitedBy, string(p)+", ")
	}
}

// No plan passes a limit that it states. The pH of each step is worked out once
// more with carbonate.Water alone, which knows nothing of plans.
func TestNoLimitIsPassed(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	add := map[string]func(w carbonate.Water, equivalents units.AmountPerKilogram) carbonate.Water{
		"NaHCO3": carbonate.Water.AddBicarbonate,
		"Na2CO3": func(w carbonate.Water, x units.AmountPerKilogram) carbonate.Water { return w.AddCarbonate(x / 2) },
		"NaOH":   carbonate.Water.AddHydroxide,
	}
	planned := 0
	for range checks.Runs(3000, 200) {
		salt := []string{"NaHCO3", "Na2CO3", "NaOH"}[r.IntN(3)]
		most := between(0.03, 0.4)
		have := between(0.8, 4)
		tank := tested.Water{
			Portion: water(t, between(20, 42), between(15, 32)).OfVolume(units.Volume(between(20, 2000))),
			Levels:  tested.Levels{tested.AlkalinityOf(units.Alkalinity(have))},
			Carbon:  carbonate.PH(carbonate.PHTotal(between(6.9, 8.5))),
		}
		d := Dose{Tank: tank, Air: carbonate.XCO2(between(100, 3000)), To: tested.AlkalinityOf(units.Alkalinity(have + between(0, 1.5))),
			Additive: pure(t, salt), Limits: limits(most)}
		plan, err := Plan(d)
		if err != nil {
			require.ErrorIs(t, err, units.ErrInput)
			continue
		}
		planned++
		system, err := tank.System()
		require.NoError(t, err)
		w := system.Water()
		step := tested.AlkalinityOf(units.Alkalinity((d.To.Base() - have) / float64(max(1, len(plan.Steps))))).AmountPerLitre().
			PerKilogram(tank.Portion.Density())
		for range plan.Steps {
			before, err := w.System()
			require.NoError(t, err)
			w = add[salt](w, step)
			after, err := w.System()
			require.NoError(t, err)
			// The little that the salt of the dose changes is in the plan and not in this.
			require.LessOrEqual(t, math.Abs(after.PH().Value()-before.PH().Value()), most+2e-3, "%s of %d steps: %+v", salt, len(plan.Steps), d)
			w, err = w.Equilibrate(d.Air, units.Atmosphere)
			require.NoError(t, err)
		}

		u := Upkeep{Tank: tank, Air: d.Air, Use: Use{PerDay: tested.AlkalinityOf(units.Alkalinity(between(0.01, 0.5)))}, Additive: d.Additive, Limits: d.Limits}
		m, err := Maintain(u)
		require.NoError(t, err)
		if start := system.PH().Value(); math.Abs(m.AtOnce.PH.Value()-start) > most {
			require.Equal(t, mostParts, m.Parts)
			require.Contains(t, identifiers(m.Cautions), "ph-swing")
		}
		l, err := Lime(LimeWater{Tank: tank, Air: d.Air, TopOff: units.Flow(tank.Volume().Litres()*between(0.001, 0.05)) * units.LitrePerDay,
			Temperature: units.Celsius(between(5, 30)), Saturation: 1, Limits: d.Limits})
		require.NoError(t, err)
		require.LessOrEqual(t, l.AtOnce.PH.Value()-system.PH().Value(), most)
	}
	assert.Greater(t, planned, checks.Runs(2500, 150))
}

// The thresholds of the cautions, each from both sides.
func TestThresholds(t *testing.T) {
	step := func(omega, aired, ph float64) []string {
		return identifiers(chemistryCautions(
			tested.Chemistry{PH: carbonate.PHTotal(8), Aragonite: 3},
			[]Step{{AtOnce: tested.Chemistry{PH: carbonate.PHTotal(ph), Aragonite: omega}, Aired: tested.Chemistry{PH: carbonate.PHTotal(8), Aragonite: aired}}}))
	}
	assert.Contains(t, step(12.4, 4, 8.05), "aragonite-falls-out")
	assert.NotContains(t, step(12.2, 4, 8.05), "aragonite-falls-out")
	assert.Contains(t, step(5.1, 5.1, 8.05), "aragonite-may-fall-out")
	assert.Contains(t, step(5.1, 4.9, 8.05), "aragonite-passes-5")
	assert.Empty(t, step(4.9, 4.9, 8.05))
	assert.Contains(t, step(4, 4, 9.01), "brucite-may-fall-out")
	assert.NotContains(t, step(4, 4, 8.99), "brucite-may-fall-out")
	for ph, odd := range map[float64]bool{6.99: true, 7.01: false, 8.99: false, 9.01: true} {
		assert.Equal(t, odd, len(chemistryCautions(tested.Chemistry{PH: carbonate.PHTotal(ph)}, nil)) > 0, "%v", ph)
	}
}
