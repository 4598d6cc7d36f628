package replenish

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// air is that of the room.
const air = carbonate.XCO2(450)

func reef(t testing.TB) tested.Water {
	return tested.Water{
		Portion: water(t, 35, 25).OfVolume(300),
		Levels: tested.Levels{
			tested.AlkalinityOf(units.DKH(7)),
			tested.Calcium.Of(380, units.AsCalcium),
			tested.Magnesium.Of(1290, units.AsMagnesium),
			tested.Potassium.Of(390, units.AsPotassium),
			tested.Strontium.Of(7, units.AsStrontium),
			tested.Bromide.Of(60, units.AsBromide),
			tested.Boron.Of(4, units.AsBoron),
			tested.Fluoride.Of(1, units.AsFluoride),
			tested.Iodine.Of(0.03, units.AsIodine),
			tested.Iron.Of(0, units.AsIron),
			tested.Nitrate.Of(0.1, units.AsNitrogen),
			tested.Phosphate.Of(0.01, units.AsPhosphate),
		},
		Carbon: carbonate.PH(carbonate.PHTotal(8.05)),
	}
}

// raisable are the parameters that have salts.
var raisable = tested.Parameters()[:12]

// sources are salts for each parameter.
var sources = map[tested.Parameter][]string{
	tested.Alkalinity: {"NaHCO3", "Na2CO3", "NaOH", "KHCO3", "Na2CO3.10H2O"},
	tested.Calcium:    {"CaCl2", "CaCl2.2H2O", "CaCl2.6H2O", "CaSO4.2H2O", "Ca(OH)2", "CaO"},
	tested.Magnesium:  {"MgCl2.6H2O", "MgSO4.7H2O", "MgCl2", "MgSO4"},
	tested.Potassium:  {"KCl", "K2SO4"},
	tested.Strontium:  {"SrCl2.6H2O", "SrCl2"},
	tested.Bromide:    {"KBr", "NaBr"},
	tested.Boron:      {"H3BO3", "Na2B4O7.10H2O", "Na2B4O7"},
	tested.Fluoride:   {"NaF"},
	tested.Iodine:     {"KI", "KIO3"},
	tested.Iron:       {"FeCl3.6H2O", "FeCl3"},
	tested.Nitrate:    {"NaNO3", "KNO3"},
	tested.Phosphate:  {"KH2PO4", "Na2HPO4"},
}

// For every parameter and every salt of it: what is in the tank afterwards is
// what was in it and what was dosed; charges balance; the steps add up.
func TestPlanConserves(t *testing.T) {
	tank := reef(t)
	for p, formulas := range sources {
		present, _ := tank.Level(p)
		to := present.WithBase(present.Base() + 1.7*perDay(t, p).Base())
		for _, formula := range formulas {
			c := compound(t, formula)
			const purity = 0.96
			plan, err := Plan(Dose{Tank: tank, Air: air, To: to, Additive: Dry(salts.Reagent{Compound: c, Purity: units.Share(purity)})})
			require.NoError(t, err, formula)
			mole := c.Moles(plan.Amount.Mass) * purity
			content := map[tested.Parameter]float64{tested.Alkalinity: c.Alkalinity()}
			for r := range c.Releases() {
				for _, q := range tested.Parameters() {
					if slices.Contains(q.Ions(), r.Ion) {
						content[q] += float64(r.Moles)
					}
				}
			}
			for _, l := range plan.After {
				was, _ := tank.Level(l.Parameter())
				checks.Relative(t, formula+" "+string(l.Parameter()), l.Base()*300, was.Base()*300+1000*mole*content[l.Parameter()], 1e-12)
				if l.Parameter() == p {
					checks.Relative(t, formula, l.Base(), to.Base(), 1e-12)
				}
			}
			sum := units.Mass(0)
			for _, s := range plan.Steps {
				sum += s.Amount.Mass
			}
			checks.Relative(t, formula+" steps", sum.Grams(), plan.Amount.Mass.Grams(), 1e-12)
			checks.Relative(t, formula+" last step", plan.Steps[len(plan.Steps)-1].Level.Base(), to.Base(), 1e-12)
			checks.Absolute(t, formula+" charge", float64(plan.Brings.Charge()), 0, 1e-9)

			// Salt: that of the tank and that of the dose, in an unchanged volume.
			before := tank.Portion
			salt := before.Salt().Grams() + plan.Brings.SolutionSalinity().GramsPerKilogram()*before.Mass.Kilograms()
			after := water(t, plan.Salinity.After.Value(), 25).OfVolume(tank.Volume())
			checks.Relative(t, formula+" salt", after.Salt().Grams(), salt, 1e-12)
			assert.LessOrEqual(t, plan.Salinity.Lasting.Value(), plan.Salinity.After.Value()+1e-12, formula)
		}
	}
}

// tested.Calcium chloride and bicarbonate, used up together, leave sodium chloride.
func TestLeavesTableSalt(t *testing.T) {
	tank := reef(t)
	tank.Levels[0], tank.Levels[1] = tested.AlkalinityOf(units.MilliequivalentsPerLitre(2.5)), tested.Calcium.OfAmount(9.5)
	chloride, err := Plan(Dose{Tank: tank, Air: air, To: tested.Calcium.OfAmount(10), Additive: pure(t, "CaCl2.2H2O")})
	require.NoError(t, err)
	soda, err := Plan(Dose{Tank: tank, Air: air, To: tested.AlkalinityOf(units.MilliequivalentsPerLitre(3.5)), Additive: pure(t, "NaHCO3")})
	require.NoError(t, err)
	left := chloride.Leaves.Plus(soda.Leaves)
	checks.Absolute(t, "charge", float64(left.Charge()), 0, 1e-9)
	perLitre := left.Amount(ions.Sodium).PerLitre(tank.Portion.Density()).MillimolesPerLitre()
	checks.Relative(t, "1 mmol/L of table salt", perLitre, 1, 1e-12)
	checks.Relative(t, "chloride", float64(left.Amount(ions.Chloride)), float64(left.Amount(ions.Sodium)), 1e-12)
	for i, amount := range left.All() {
		assert.True(t, i == ions.Sodium || i == ions.Chloride, "%v %v", i, amount)
	}
	sulfate, err := Plan(Dose{Tank: tank, Air: air, To: tested.Calcium.OfAmount(10), Additive: pure(t, "CaSO4.2H2O")})
	require.NoError(t, err)
	checks.Relative(t, "sulfate", sulfate.Leaves.Amount(ions.Sulfate).PerLitre(tank.Portion.Density()).MillimolesPerLitre(), 0.5, 1e-12)
}

// The carbonate side of the first step is that of carbonate.Water, but for the
// little that the salt in the dose changes.
func TestChemistry(t *testing.T) {
	tank := reef(t)
	d := tank.Portion.Density()
	c := carbonate.At(tank.Portion.Practical(), tank.Portion.Temperature(), carbonate.Options{
		Calcium:   carbonate.Measured(tank.Levels[1].AmountPerLitre().PerKilogram(d)),
		Magnesium: carbonate.Measured(tank.Levels[2].AmountPerLitre().PerKilogram(d)),
		Boron:     carbonate.Measured(tank.Levels[6].AmountPerLitre().PerKilogram(d)),
		Fluoride:  carbonate.Measured(tank.Levels[7].AmountPerLitre().PerKilogram(d)),
	})
	system, err := c.Solve(carbonate.Alkalinity(tank.Levels[0].AmountPerLitre().PerKilogram(d)), tank.Carbon, carbonate.Nutrients{Phosphate: tank.Levels[11].AmountPerLitre().PerKilogram(d)})
	require.NoError(t, err)
	w := system.Water()
	const raise = 0.1 // meq/L
	dose := tested.AlkalinityOf(units.MilliequivalentsPerLitre(raise)).AmountPerLitre().PerKilogram(d)
	for formula, want := range map[string]carbonate.Water{
		"NaHCO3": w.AddBicarbonate(dose),
		"Na2CO3": w.AddCarbonate(dose / 2),
		"NaOH":   w.AddHydroxide(dose),
	} {
		plan, err := Plan(Dose{Tank: tank, Air: air, To: tested.AlkalinityOf(units.MilliequivalentsPerLitre(tank.Levels[0].Alkalinity().MilliequivalentsPerLitre() + raise)), Additive: pure(t, formula)})
		require.NoError(t, err)
		require.Len(t, plan.Steps, 1, formula)
		s, err := want.System()
		require.NoError(t, err)
		aired, err := want.Equilibrate(450, units.Atmosphere)
		require.NoError(t, err)
		a, err := aired.System()
		require.NoError(t, err)
		checks.Absolute(t, formula+" before", plan.Before.PH.Value(), 8.05, 1e-12)
		checks.Absolute(t, formula+" at once", plan.Steps[0].AtOnce.PH.Value(), s.PH().Value(), 3e-4)
		checks.Relative(t, formula+" aragonite", float64(plan.Steps[0].AtOnce.Aragonite), s.Aragonite(), 1e-3)
		checks.Absolute(t, formula+" aired", plan.Steps[0].Aired.PH.Value(), a.PH().Value(), 3e-4)
		checks.Relative(t, formula+" air", plan.Steps[0].Aired.PCO2.Microatmospheres(), a.PCO2().Microatmospheres(), 1e-4)
	}
	// Without air given the tank returns to the CO2 that it had.
	plan, err := Plan(Dose{Tank: tank, To: tested.AlkalinityOf(units.DKH(8)), Additive: pure(t, "Na2CO3")})
	require.NoError(t, err)
	checks.Relative(t, "pCO2", plan.Steps[0].Aired.PCO2.Microatmospheres(), plan.Before.PCO2.Microatmospheres(), 1e-4)
	// Without a pH it is in balance with the air.
	tank.Carbon = carbonate.Known{}
	plan, err = Plan(Dose{Tank: tank, Air: air, To: tested.AlkalinityOf(units.DKH(8)), Additive: pure(t, "NaHCO3")})
	require.NoError(t, err)
	constants := carbonate.At(tank.Portion.Practical(), tank.Portion.Temperature(), carbonate.Options{})
	checks.Relative(t, "pCO2", plan.Before.PCO2.Microatmospheres(), carbonate.XCO2(450).PCO2(&constants, units.Atmosphere).Microatmospheres(), 1e-12)
	assert.Less(t, plan.Steps[0].AtOnce.PH.Value(), plan.Before.PH.Value(), "bicarbonate lowers pH at first")
	assert.Greater(t, plan.Steps[0].Aired.PH.Value(), plan.Before.PH.Value(), "and raises it, aired")
}

// What had to be assumed is said.
func TestAssumptions(t *testing.T) {
	tank := reef(t)
	tank.Portion = water(t, 15, 1).OfVolume(300)
	tank.Levels = tank.Levels[:2]
	plan, err := Plan(Dose{Tank: tank, To: tested.Calcium.Of(390, units.AsCalcium), Additive: Dry(salts.Reagent{Compound: compound(t, "CaCl2"), Purity: units.Share(0.9)})})
	require.NoError(t, err)
	all := strings.Join(plan.Assumptions, "\n")
	for _, part := range []string{
		"holds 300 L of water", "calcium 20 mg/L Ca a day (common practice), pH 0.2 at a dose (common practice)", "uses up during the steps is not counted", "CaCl2 is 90 % of that",
		"taken from the salinity: sulfate, magnesium, boron, fluoride", "returns to the CO2 that it has now", "A fit is extrapolated: practical salinity: 15 is outside 19 to 43 (K1 and K2: Lueker et al. 2000)", "With the constants of Waters et al. 2014",
	} {
		assert.Contains(t, all, part)
	}
}

// respects fails unless no step moves anything beyond its limit.
func respects(t *testing.T, d Dose, plan DosePlan) {
	t.Helper()
	if len(plan.Steps) == 0 {
		require.Zero(t, plan.Amount)
		return
	}
	steps := float64(len(plan.Steps))
	per := d.Additive.per()
	total, err := d.Additive.count("", plan.Amount)
	require.NoError(t, err)
	for _, p := range tested.Parameters() {
		move := math.Abs(float64(p.In(per.Scale(total)))) / 1000 / d.Tank.Volume().Litres() / steps
		if limit, _, limited := d.Limits.List().PerDay(p); limited {
			require.LessOrEqual(t, move, limit.Base()*(1+1e-9), "%v", p)
		}
	}
	most, _, limited := d.Limits.List().PH(0)
	last := plan.Before
	for i, s := range plan.Steps {
		if move := math.Abs(s.AtOnce.PH.Value() - last.PH.Value()); limited && !math.IsNaN(move) {
			require.LessOrEqual(t, move, most)
		}
		// before the first the tank may not have been in balance with its air
		if move := math.Abs(s.Aired.PH.Value() - last.PH.Value()); i > 0 && limited && !math.IsNaN(move) {
			require.LessOrEqual(t, move, most)
		}
		last = s.Aired
	}
}

// perDay is the usual limit of a parameter.
func perDay(t testing.TB, p tested.Parameter) tested.Level {
	l, _, limited := tested.Limits{}.List().PerDay(p)
	require.True(t, limited, p)
	return l
}

// limits are limits of a day, and of the pH, that a test sets.
func limits(ph float64, levels ...tested.Level) tested.Limits {
	return tested.Limits{Own: []tested.Limit{{Within: 24 * time.Hour, PH: ph, Levels: levels, Origin: "a test"}}}
}

// The steps are as few as the limits let them be.
func TestFewestSteps(t *testing.T) {
	tank := reef(t)
	d := Dose{Tank: tank, Air: air, To: tested.Calcium.Of(440, units.AsCalcium), Additive: pure(t, "CaCl2.2H2O")}
	plan, err := Plan(d)
	require.NoError(t, err)
	require.Len(t, plan.Steps, 3) // 60 mg/L by 20
	assert.Equal(t, "calcium, 20 mg/L Ca a day (common practice)", plan.LimitedBy)
	respects(t, d, plan)

	d.Limits = limits(0, tested.Calcium.Of(50, units.AsCalciumCarbonate))
	plan, err = Plan(d)
	require.NoError(t, err)
	require.Len(t, plan.Steps, 3)
	assert.Contains(t, plan.LimitedBy, "50 mg/L CaCO3 a day (a test)")
	respects(t, d, plan)

	// Lye: pH sets the pace.
	d = Dose{Tank: tank, Air: air, To: tested.AlkalinityOf(units.DKH(9)), Additive: pure(t, "NaOH")}
	plan, err = Plan(d)
	require.NoError(t, err)
	respects(t, d, plan)
	assert.Equal(t, "pH, 0.2 at a dose (common practice)", plan.LimitedBy)
	n := len(plan.Steps)
	s, _, err := start(tank, air)
	require.NoError(t, err)
	present, _ := tank.Level(tested.Alkalinity)
	total, _ := d.Additive.count("", plan.Amount)
	fewer, err := d.steps(s, present, d.Additive.per().Scale(total), total, n-1)
	require.NoError(t, err)
	worst, last := 0.0, plan.Before
	for _, step := range fewer {
		worst = max(worst, math.Abs(step.AtOnce.PH.Value()-last.PH.Value()))
		last = step.Aired
	}
	assert.Greater(t, worst, 0.2)

	// What comes along has its limit too: potassium with nitrate.
	d = Dose{Tank: tank, Air: air, To: tested.Nitrate.Of(30, units.AsNitrate), Additive: pure(t, "KNO3"),
		Limits: limits(0, tested.Potassium.Of(0.5, units.AsPotassium))}
	plan, err = Plan(d)
	require.NoError(t, err)
	assert.Contains(t, plan.LimitedBy, "potassium")
	respects(t, d, plan)

	// Nothing to do is no step.
	plan, err = Plan(Dose{Tank: tank, Air: air, To: tested.Calcium.Of(380, units.AsCalcium), Additive: pure(t, "CaCl2")})
	require.NoError(t, err)
	assert.Empty(t, plan.Steps)
	assert.Zero(t, plan.Amount)
	assert.Equal(t, plan.Salinity.Before, plan.Salinity.After)
}

func TestPlanCautions(t *testing.T) {
	tank := reef(t)
	ids := func(to tested.Level, a Additive) []string {
		plan, err := Plan(Dose{Tank: tank, Air: air, To: to, Additive: a})
		require.NoError(t, err)
		for _, c := range plan.Cautions {
			assert.NotEmpty(t, c.Text)
		}
		return identifiers(plan.Cautions)
	}
	assert.Contains(t, ids(tested.Calcium.Of(400, units.AsCalcium), pure(t, "CaCl2")), "heats-in-water")
	assert.Contains(t, ids(tested.AlkalinityOf(units.DKH(7.2)), pure(t, "NaOH")), "caustic")
	for _, id := range []string{"iodine", "trace-element", "keep-from-children", "reagent-grade", "advice-first", "irritating-dust", "test-first", "dose-slowly"} {
		assert.Contains(t, ids(tested.Iodine.Of(0.05, units.AsIodine), pure(t, "KI")), id)
	}
	assert.Contains(t, ids(tested.Iron.Of(0.001, units.AsIron), pure(t, "FeCl3.6H2O")), "iron-falls-out")
	assert.Contains(t, ids(tested.AlkalinityOf(units.DKH(15)), pure(t, "Na2CO3")), "aragonite-may-fall-out")
	assert.Contains(t, ids(tested.AlkalinityOf(units.DKH(30)), pure(t, "Na2CO3")), "aragonite-falls-out")
	assert.Contains(t, ids(tested.Magnesium.Of(2000, units.AsMagnesium), pure(t, "MgCl2.6H2O")), "salinity-rises")
	assert.Contains(t, ids(tested.Magnesium.Of(3000, units.AsMagnesium), pure(t, "MgCl2.6H2O")), "many-steps")
	assert.NotContains(t, ids(tested.Calcium.Of(400, units.AsCalcium), pure(t, "CaCl2.6H2O")), "aragonite-may-fall-out")
	tank.Carbon = carbonate.Known{}
	plan, err := Plan(Dose{Tank: tank, To: tested.Calcium.Of(400, units.AsCalcium), Additive: pure(t, "CaCl2.6H2O")})
	require.NoError(t, err)
	assert.Contains(t, identifiers(plan.Cautions), "ph-not-checked")
}

// A very large lye dose in one step meets brucite, if the keeper's limits let it.
func TestBruciteCaution(t *testing.T) {
	free := limits(5, tested.AlkalinityOf(units.MilliequivalentsPerLitre(10)))
	for raise, id := range map[float64]string{1.2: "brucite-may-fall-out", 2.5: "brucite-falls-out"} {
		plan, err := Plan(Dose{Tank: reef(t), Air: air, To: tested.AlkalinityOf(units.MilliequivalentsPerLitre(units.DKH(7).MilliequivalentsPerLitre() + raise)), Additive: pure(t, "NaOH"), Limits: free})
		require.NoError(t, err)
		require.Len(t, plan.Steps, 1)
		assert.Contains(t, identifiers(plan.Cautions), id)
	}
}

func TestWrongDoses(t *testing.T) {
	good := func() Dose {
		return Dose{Tank: reef(t), Air: air, To: tested.Calcium.Of(420, units.AsCalcium), Additive: pure(t, "CaCl2.2H2O")}
	}
	stocked := func(parts ...Ingredient) Additive { return Stock(parts...) }
	part := func(formula string, perLitre units.MassPerLitre) Ingredient {
		return Ingredient{salts.Reagent{Compound: compound(t, formula), Purity: units.Share(1)}, perLitre}
	}
	nan := math.NaN()
	for _, r := range []struct {
		spoil func(*Dose)
		want  string
	}{
		{func(d *Dose) { *d = Dose{} }, "tank.temperature: got nothing, want a temperature"},
		{func(d *Dose) { d.Tank = d.Tank.OfVolume(-1) }, "tank.volume: got -1 L, want a number above zero"},
		{func(d *Dose) { d.Tank = d.Tank.OfVolume(units.Volume(math.Inf(1))) }, "tank.volume: got +Inf L, want a number above zero"},
		{func(d *Dose) { d.Tank.Portion = water(t, 0, 25).OfVolume(300) }, "tank.salinity: got 0 g/kg at 25 °C, want seawater"},
		{func(d *Dose) {
			d.Tank.Levels = append(d.Tank.Levels, tested.AlkalinityOf(units.MilliequivalentsPerLitre(2)))
		}, "tank.alkalinity: got two levels, want one"},
		{func(d *Dose) { d.Tank.Levels[1] = tested.Calcium.Of(-380, units.AsCalcium) }, "tank.calcium: got -380 mg/L Ca, want zero or more"},
		{func(d *Dose) { d.Tank.Levels[1] = tested.Calcium.Of(380, units.AsMagnesium) }, "tank.calcium: got a mass of 24.305 g/mol, want"},
		{func(d *Dose) { d.Tank.Levels[0] = tested.Alkalinity.Of(120, units.AsCalciumCarbonate) }, `tank.alkalinity: got a mass of 100.086 g/mol, want "8.2 dKH"`},
		{func(d *Dose) { d.Air = carbonate.XCO2(nan) }, "air: got NaN ppm, want zero or more"},
		{func(d *Dose) { d.Tank.Carbon = carbonate.PH(carbonate.PHTotal(nan)) }, "tank."},
		{func(d *Dose) { d.Tank.Carbon = carbonate.Alkalinity(2300) }, "tank."},
		{func(d *Dose) { d.Tank.Levels = d.Tank.Levels[:1] }, "tank.calcium: got nothing, want its present level"},
		{func(d *Dose) { d.To = tested.Level{} }, "to: got nothing, want a level"},
		{func(d *Dose) { d.To = tested.Calcium.Of(units.MassPerLitre(nan), units.AsCalcium) }, "to.calcium: got NaN mg/L Ca, want zero or more"},
		{func(d *Dose) { d.To = tested.Calcium.Of(370, units.AsCalcium) }, "to.calcium: got 370 mg/L Ca, want at least the present 380 mg/L Ca: a dose cannot lower it"},
		{func(d *Dose) { d.To = tested.Calcium.Of(9000, units.AsCalcium) }, "to.calcium: got 9000 mg/L Ca, want a level nearer to the present 380 mg/L Ca"},
		{func(d *Dose) { d.To = tested.AlkalinityOf(units.MilliequivalentsPerLitre(3)) }, "additive: got CaCl2.2H2O, want one that raises alkalinity"},
		{func(d *Dose) { d.Additive = Additive{} }, "additive: got nothing, want an additive made by Dry or Stock"},
		{func(d *Dose) { d.Additive = Dry(salts.Reagent{Compound: compound(t, "CaCl2")}) }, "additive.CaCl2.purity: got 0 %, want above 0 and up to 100 %"},
		{func(d *Dose) { d.Additive = pure(t, "CaCO3") }, "additive: got CaCO3, want a salt of what the tank uses up that dissolves in seawater"},
		{func(d *Dose) { d.Additive = pure(t, "C2H5OH") }, "food for bacteria"},
		{func(d *Dose) { d.Additive = pure(t, "CH3COONa") }, "food for bacteria"},
		{func(d *Dose) { d.Additive = pure(t, "NH4Cl") }, "ammonium turns to poisonous ammonia"},
		{func(d *Dose) { d.Additive = stocked(part("CaCl2.2H2O", 0)) }, "additive.CaCl2.2H2O: got 0 g/L, want a number above zero"},
		{func(d *Dose) { d.Additive = stocked(part("CaCl2.2H2O", 50000), part("NaHCO3", 10000)) }, "additive: got NaHCO3 and CaCl2.2H2O in one solution, want two bottles: calcium carbonate would fall out"},
		{func(d *Dose) { d.Additive = stocked(part("MgSO4.7H2O", 50000), part("CaCl2", 10000)) }, "gypsum would fall out"},
		{func(d *Dose) {
			d.Additive, d.To = stocked(part("NaHCO3", 150*units.GramPerLitre)), tested.AlkalinityOf(units.MilliequivalentsPerLitre(3))
		}, "additive.content: got 150 g/L of NaHCO3, want at most"},
		{func(d *Dose) { d.Tank.Carbon = carbonate.PH(carbonate.PHTotal(3)) }, "tank.carbon: got pH 3.00"},
		{func(d *Dose) { d.Tank.Carbon = carbonate.PH(carbonate.PHTotal(5.9)) }, "tank.carbon: got pH 5.90, want pH 6 to 10 (total scale)"},
		{func(d *Dose) {
			d.Tank.Carbon, d.Tank.Levels[0] = carbonate.DIC(20), tested.AlkalinityOf(units.MilliequivalentsPerLitre(2))
		}, "tank.carbon: got pH 10."},
		{func(d *Dose) { d.Additive = stocked(part("CaCl2.2H2O", 0.5*units.GramPerLitre)) }, "mL of CaCl2.2H2O in water in a day, want a stronger stock"},
		{func(d *Dose) {
			d.Tank, d.Additive = d.Tank.OfVolume(100), stocked(part("CaCl2.2H2O", 0.2*units.GramPerLitre))
		}, "want a stronger stock, of which 10 % of the tank are enough"},
		{func(d *Dose) {
			d.Additive = stocked(part("CaCl2", 700*units.GramPerLitre), part("MgCl2", 400*units.GramPerLitre))
		}, "additive."},
		{func(d *Dose) {
			d.Additive = stocked(part("CaCl2.2H2O", 600*units.GramPerLitre), part("MgCl2.6H2O", 500*units.GramPerLitre))
		}, "additive: got 1100 g/L in all of CaCl2.2H2O + MgCl2.6H2O in water, want at most 1000 g/L, or two bottles"},
		{func(d *Dose) {
			d.Additive = stocked(part("HCl", 10*units.GramPerLitre), part("NaHCO3", 10*units.GramPerLitre))
		}, "want two bottles: the acid would set free carbon dioxide"},
		{func(d *Dose) { d.Additive = stocked(part("NaF", units.GramPerLitre), part("HCl", units.GramPerLitre)) }, "the acid would set free poisonous hydrogen fluoride"},
		{func(d *Dose) { d.Additive = stocked(part("KI", units.GramPerLitre), part("FeCl3", units.GramPerLitre)) }, "the acid would set free iodine"},
		{func(d *Dose) {
			d.Additive = stocked(part("KH2PO4", units.GramPerLitre), part("KIO3", units.GramPerLitre))
		}, "the acid would set free iodine"},
		{func(d *Dose) {
			d.Additive, d.To = stocked(part("H3BO3", 500*units.GramPerLitre)), tested.Boron.Of(4.2, units.AsBoron)
		}, "additive.content: got 500 g/L of H3BO3, want at most what dissolves"},
		{func(d *Dose) { d.Limits = limits(-1) }, "limits.pH: got -1, want zero or more"},
		{func(d *Dose) { d.Limits = limits(0, tested.AlkalinityOf(units.MilliequivalentsPerLitre(0))) }, "limits.alkalinity: got 0 meq/L, want above zero"},
		{func(d *Dose) {
			d.Limits = limits(0, tested.AlkalinityOf(units.MilliequivalentsPerLitre(1)), tested.AlkalinityOf(units.MilliequivalentsPerLitre(2)))
		}, "limits.alkalinity: got two levels, want one"},
		{func(d *Dose) { d.Limits.Own = []tested.Limit{{PH: 0.1, Within: time.Hour}} }, `limits.origin: got nothing, want who says so`},
		{func(d *Dose) {
			d.Tank.Carbon, d.Air, d.Additive = carbonate.Known{}, 0, pure(t, "Ca(OH)2")
		}, "tank.carbon: got nothing, want the alkalinity, and a pH or the CO2 of the air"},
	} {
		d := good()
		r.spoil(&d)
		plan, err := Plan(d)
		if assert.Error(t, err, r.want) {
			assert.Contains(t, err.Error(), r.want)
			assert.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange), "%T", err)
			assert.Empty(t, plan.Steps)
			assert.Zero(t, plan.Amount)
		}
	}
}

// A goal that nobody keeps a reef at is a slip, and said to be one.
func TestGoalTooHigh(t *testing.T) {
	for _, r := range []struct {
		high, fine tested.Level
		salt       string
	}{
		{tested.Fluoride.Of(30, units.AsFluoride), tested.Fluoride.Of(1.3, units.AsFluoride), "NaF"},
		{tested.Strontium.Of(60, units.AsStrontium), tested.Strontium.Of(9, units.AsStrontium), "SrCl2.6H2O"},
		{tested.Potassium.Of(3800, units.AsPotassium), tested.Potassium.Of(410, units.AsPotassium), "KCl"},
		{tested.Nitrate.Of(400, units.AsNitrate), tested.Nitrate.Of(10, units.AsNitrate), "NaNO3"},
		{tested.Phosphate.Of(2, units.AsPhosphate), tested.Phosphate.Of(0.05, units.AsPhosphate), "Na2HPO4"},
		{tested.Iodine.Of(0.6, units.AsIodine), tested.Iodine.Of(0.06, units.AsIodine), "KI"},
		{tested.Iron.Of(0.1, units.AsIron), tested.Iron.Of(0.001, units.AsIron), "FeCl3.6H2O"},
		{tested.Calcium.Of(700, units.AsCalcium), tested.Calcium.Of(450, units.AsCalcium), "CaCl2.2H2O"},
		{tested.AlkalinityOf(units.DKH(16)), tested.AlkalinityOf(units.DKH(11)), "NaHCO3"},
	} {
		plan, err := Plan(Dose{Tank: reef(t), Air: air, To: r.high, Additive: pure(t, r.salt)})
		require.NoError(t, err, r.salt)
		assert.Contains(t, identifiers(plan.Cautions), "goal-too-high", r.salt)
		plan, err = Plan(Dose{Tank: reef(t), Air: air, To: r.fine, Additive: pure(t, r.salt)})
		require.NoError(t, err, r.salt)
		assert.NotContains(t, identifiers(plan.Cautions), "goal-too-high", r.salt)
		all := strings.Join(plan.Assumptions, " ")
		assert.Equal(t, r.salt == "NaF", strings.Contains(all, "fluorite, CaF2, stays dissolved was not checked"), r.salt)
		assert.Equal(t, r.salt == "SrCl2.6H2O", strings.Contains(all, "celestite"), r.salt)
	}
	// 1.5 times 411 mg/L at 35, so less in brackish water
	tank := reef(t)
	tank.Portion = water(t, 18, 25).OfVolume(300)
	plan, err := Plan(Dose{Tank: tank, Air: air, To: tested.Calcium.Of(450, units.AsCalcium), Additive: pure(t, "CaCl2.2H2O")})
	require.NoError(t, err)
	assert.Contains(t, identifiers(plan.Cautions), "goal-too-high")
}

// A weak stock is much water: more than 2 % of the tank in a step is warned of.
func TestLargeVolume(t *testing.T) {
	for content, warned := range map[units.MassPerLitre]bool{2: true, 50: false} {
		d := Dose{Tank: reef(t), Air: air, To: tested.Calcium.Of(400, units.AsCalcium), Additive: stock(t, "CaCl2.2H2O", content*units.GramPerLitre)}
		plan, err := Plan(d)
		require.NoError(t, err)
		assert.Equal(t, warned, slices.Contains(identifiers(plan.Cautions), "large-volume"), content)
		assert.Equal(t, warned, plan.Steps[0].Amount.Volume > 6*(1+1e-12))
	}
	u := Upkeep{Tank: reef(t), Air: air, Use: Use{PerDay: tested.AlkalinityOf(units.MilliequivalentsPerLitre(0.15))}, Additive: stock(t, "NaHCO3", 0.5*units.GramPerLitre)}
	m, err := Maintain(u)
	require.NoError(t, err)
	assert.Contains(t, identifiers(m.Cautions), "large-volume")
	u.Additive = stock(t, "NaHCO3", 0.05*units.GramPerLitre)
	_, err = Maintain(u)
	assert.ErrorContains(t, err, "want a stronger stock")
}

// A tank that has lost its alkalinity comes back slowly: the limit of pH counts
// from where the tank is. What has none at all left cannot be brought back within
// it; a keeper who lets the pH move further is asked for the ammonia.
func TestLowAlkalinity(t *testing.T) {
	for _, r := range []struct {
		have  units.Alkalinity
		salt  string
		steps int // 0: more than a year
	}{{units.MilliequivalentsPerLitre(0), "NaHCO3", 0}, {units.MilliequivalentsPerLitre(0), "Na2CO3", 0}, {units.MilliequivalentsPerLitre(0.3), "NaHCO3", 14}, {units.MilliequivalentsPerLitre(0.3), "Na2CO3", 83}, {units.MilliequivalentsPerLitre(1), "NaHCO3", 6}, {units.MilliequivalentsPerLitre(1), "Na2CO3", 17}} {
		tank := reef(t)
		tank.Levels[0], tank.Carbon = tested.AlkalinityOf(r.have), carbonate.Known{}
		d := Dose{Tank: tank, Air: air, To: tested.AlkalinityOf(units.DKH(8)), Additive: pure(t, r.salt)}
		plan, err := Plan(d)
		if r.steps == 0 {
			require.ErrorContains(t, err, "within the limits it takes more than a year (pH, 0.2 at a dose")
			d.Limits = limits(4)
			plan, err = Plan(d)
			require.NoError(t, err)
			assert.Subset(t, identifiers(plan.Cautions), []string{"odd-ph", "ammonia-not-tested"})
			continue
		}
		require.NoError(t, err, "%v %s", r.have, r.salt)
		respects(t, d, plan)
		assert.Equal(t, r.steps, len(plan.Steps), "%v %s, %s", r.have, r.salt, plan.LimitedBy)
	}
	plan, err := Plan(Dose{Tank: reef(t), Air: air, To: tested.AlkalinityOf(units.DKH(8)), Additive: pure(t, "NaHCO3")})
	require.NoError(t, err)
	assert.NotContains(t, identifiers(plan.Cautions), "odd-ph")
	// The limit holds from where the tank is, low or not: what is acid holds ammonia.
	at := func(ph float64) tested.Chemistry { return tested.Chemistry{PH: carbonate.PHTotal(ph)} }
	for _, r := range []struct {
		from, to float64
		passes   bool
	}{{7, 7.19, false}, {7, 7.3, true}, {8, 8.1, false}, {8, 8.3, true}, {8, 7.7, true}, {7.7, 7.4, true}, {math.NaN(), 8, false}} {
		held := tested.Limits{}.List()
		assert.Equal(t, r.passes, passes(held, found{at(r.from), at(8)}, at(r.to), at(8)), "at once %v", r)
		assert.Equal(t, r.passes, passes(held, found{at(8), at(r.from)}, at(8), at(r.to)), "lasting %v", r)
	}
}

// Dry lime is dosed as lime water, and the plan says of how much.
func TestDryLime(t *testing.T) {
	for _, formula := range []string{"Ca(OH)2", "CaO"} {
		plan, err := Plan(Dose{Tank: reef(t), Air: air, To: tested.Calcium.Of(385, units.AsCalcium), Additive: pure(t, formula)})
		require.NoError(t, err)
		m, err := Maintain(Upkeep{Tank: reef(t), Air: air, Use: Use{PerDay: tested.AlkalinityOf(units.MilliequivalentsPerLitre(0.1))}, Additive: pure(t, formula)})
		require.NoError(t, err)
		for _, list := range [][]advice.Caution{plan.Cautions, m.Cautions} {
			assert.Subset(t, identifiers(list), []string{"lime-water", "lime-overdose", "lime-needs-water"})
		}
		i := slices.Index(identifiers(m.Cautions), "lime-needs-water")
		// 0.1 meq/L in 300 L are 15 mmol or 1.11 g of Ca(OH)2, of which 1.65 g dissolve in a litre
		assert.Contains(t, m.Cautions[i].Text, "dissolve in no less than 0.7 L of pure water")
	}
}

func TestAmountString(t *testing.T) {
	for want, a := range map[string]Amount{
		"nothing": {}, "12.5 g": {Mass: 12.5}, "40 mL": {Volume: 40 * units.Millilitre},
		"3.25 mg": {Mass: 3.25 * units.Milligram}, "85 µL": {Volume: 85e-6}, "0.012 mg": {Mass: 12e-6},
	} {
		assert.Equal(t, want, a.String())
	}
}

// Several salts in one bottle are judged together, at 20 °C: which may share it, and what is not
// known.
func TestMixedStockIsJudged(t *testing.T) {
	stock := func(one string, oneOf units.MassPerLitre, other string, otherOf units.MassPerLitre) Additive {
		return Stock(Ingredient{salts.Reagent{Compound: compound(t, one), Purity: units.Share(1)}, oneOf * units.GramPerLitre},
			Ingredient{salts.Reagent{Compound: compound(t, other), Purity: units.Share(1)}, otherOf * units.GramPerLitre})
	}
	for _, r := range []struct {
		a    Additive
		note string
		err  string
	}{
		{a: stock("MgCl2.6H2O", 300, "MgSO4.7H2O", 100), note: "in water is 0.28 times saturated with epsomite at 20 °C; above 1 that falls out"},
		{a: stock("MgCl2.6H2O", 250, "MgSO4.7H2O", 400), err: "two bottles, or more water: by the ion-interaction model it is"},
		{a: stock("CaCl2.2H2O", 300, "MgCl2.6H2O", 200), note: "0.00 times saturated with bischofite"},
		{a: stock("NaHCO3", 60, "KHCO3", 60), note: "0.76 times saturated with nahcolite"},
		{a: stock("NaHCO3", 30, "Na2CO3", 30), note: "0.28 times saturated with nahcolite"},
		{a: stock("NaHCO3", 80, "Na2CO3", 120), note: "together less may."}, // no density is known of so much
		{a: stock("KIO3", 1, "KI", 1), note: "it was checked that each dissolves by itself; together less may."},
	} {
		notes, err := r.a.check("additive")
		if r.err != "" {
			assert.ErrorIs(t, err, units.ErrInput, r.a.String())
			assert.ErrorContains(t, err, r.err)
			continue
		}
		require.NoError(t, err, r.a.String())
		assert.Contains(t, strings.Join(notes, " "), r.note)
	}
}

// Any dose gives a plan within the limits, or a typed error.
func FuzzPlan(f *testing.F) {
	f.Add(uint8(1), uint8(0), 300.0, 35.0, 25.0, 2.5, 8.0, 450.0, 1.5, 1.0, 0.2)
	f.Add(uint8(1), uint8(2), 80.0, 33.0, 27.0, 1.0, 7.7, 0.0, 30.0, 0.3, 0.01)
	f.Add(uint8(7), uint8(0), 84.0, 35.0, 2.3, 8.0, 8.0, 42.0, 0.0, 0.1, 1.2)
	f.Add(uint8(2), uint8(4), 1e-3, 5.0, 0.0, 4.0, 0.0, 900.0, 2.0, 5.0, 2.0)
	f.Add(uint8(10), uint8(0), 1e6, 40.0, 33.0, 0.1, 8.6, 300.0, 0.9, 0.5, 0.1)
	f.Fuzz(func(t *testing.T, which, salt uint8, volume, sp, celsius, alkalinity, ph, air, times, limit, swing float64) {
		sample, err := seawater.FromPractical(units.Practical(sp), units.Celsius(celsius))
		if err != nil {
			return
		}
		p := raisable[int(which)%len(raisable)]
		d := Dose{
			Tank: tested.Water{
				Portion: sample.OfVolume(units.Volume(volume)),
				Levels:  tested.Levels{tested.AlkalinityOf(units.MilliequivalentsPerLitre(alkalinity))},
			},
			Air:      carbonate.XCO2(air),
			Additive: pure(t, sources[p][int(salt)%len(sources[p])]),
		}
		if ph != 0 {
			d.Tank.Carbon = carbonate.PH(carbonate.PHTotal(ph))
		}
		day := perDay(t, p)
		present := day.WithBase(10 * day.Base())
		if p == tested.Alkalinity {
			present = d.Tank.Levels[0]
		} else {
			d.Tank.Levels = append(d.Tank.Levels, present)
		}
		d.To = present.WithBase(present.Base() + times*day.Base())
		d.Limits = limits(swing, day.WithBase(limit*day.Base()))
		plan, err := Plan(d)
		if err != nil {
			require.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange) || errors.Is(err, units.ErrNoConvergence) ||
				errors.Is(err, carbonate.ErrNoSolution) || errors.Is(err, carbonate.ErrTwoSolutions), "%T %v", err, err)
			return
		}
		require.LessOrEqual(t, len(plan.Steps), mostSteps)
		require.False(t, math.IsNaN(plan.Salinity.After.Value()))
		respects(t, d, plan)
	})
}

// The same over many ordinary tanks at random, which the fuzzer seldom meets.
func TestStepsRespectLimits(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	planned := 0
	for range 400 {
		p := raisable[r.IntN(len(raisable))]
		d := Dose{Tank: reef(t), Air: air, Additive: pure(t, sources[p][r.IntN(len(sources[p]))])}
		d.Tank = d.Tank.OfVolume(units.Volume(between(20, 2000)))
		d.Tank.Levels[0] = tested.AlkalinityOf(units.MilliequivalentsPerLitre(between(1.5, 4.5)))
		d.Tank.Carbon = carbonate.PH(carbonate.PHTotal(between(7.7, 8.5)))
		d.Air = carbonate.XCO2(between(0, 1500))
		present, _ := d.Tank.Level(p)
		d.To = present.WithBase(present.Base() + between(0, 12)*perDay(t, p).Base())
		plan, err := Plan(d)
		if err != nil { // lye cannot always be spread thin enough within a year
			require.ErrorIs(t, err, units.ErrInput)
			continue
		}
		planned++
		respects(t, d, plan)
	}
	assert.Greater(t, planned, 350)
}

func BenchmarkPlan(b *testing.B) {
	d := Dose{Tank: reef(b), Air: air, To: tested.AlkalinityOf(units.DKH(9)), Additive: pure(b, "Na2CO3")}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Plan(d); err != nil {
			b.Fatal(err)
		}
	}
}
