package replenish

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
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

// What a low pH may be raised by is the limit and no more. Before, a rise up to 7.8
// counted for nothing: these plans went to 7.70 and 7.84 in one step, and a portion
// of lime water to 8.00.
func TestLowPHIsLimited(t *testing.T) {
	tank := reef(t)
	tank.Levels = tested.Levels{tested.AlkalinityOf(units.DKH(6))}
	tank.Carbon = carbonate.PH(carbonate.PHTotal(7.2))
	d := Dose{Tank: tank, To: tested.AlkalinityOf(units.DKH(7)), Additive: pure(t, "Na2CO3")}
	plan, err := Plan(d)
	require.NoError(t, err)
	assert.Equal(t, 3, len(plan.Steps))
	assert.Equal(t, "pH, 0.2 at a dose (common practice)", plan.LimitedBy)
	respects(t, d, plan)
	for _, c := range plan.Cautions {
		if c.ID == "ammonia-not-tested" { // ten times as much free ammonia with each unit of pH
			var rise, more float64
			_, err := fmt.Sscanf(c.Text, "A dose raises pH by %f, which makes %f %% more", &rise, &more)
			require.NoError(t, err, c.Text)
			assert.InDelta(t, 0.2, rise, 0.011)
			assert.InDelta(t, 100*(math.Pow(10, rise)-1), more, 2.5)
		}
	}
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
	plan, err := Plan(Dose{Tank: tank, Air: air, To: tested.AlkalinityOf(units.DKH(8)), Additive: pure(t, "Na2CO3")})
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

// Ammonia beside a pH that nobody tested: from which pH on it harms. 0.6 mg/L of N are
// 0.73 mg/L as NH3.
func TestAmmoniaWithoutPH(t *testing.T) {
	d := Dose{Tank: reef(t), To: tested.Calcium.Of(400, units.AsCalcium), Additive: pure(t, "CaCl2")}
	d.Tank.Carbon = carbonate.Known{}
	for nitrogen, want := range map[units.MassPerLitre]string{0.6: "from pH 7.6 (total scale) on more than 0.02 mg/L of it may be NH3", 0.01: ""} {
		d.Tank = d.Tank.With(tested.Ammonia.Of(nitrogen, units.AsNitrogen))
		plan, err := Plan(d)
		require.NoError(t, err)
		i := slices.Index(identifiers(plan.Cautions), "free-ammonia")
		assert.Equal(t, want != "", i >= 0)
		if i >= 0 {
			assert.Contains(t, plan.Cautions[i].Text, want)
		}
	}
	free := func(ph float64) float64 {
		return 0.6 / 14.007 * 17.031 * carbonate.FreeAmmonia(units.Practical(35), units.Celsius(25), carbonate.PHTotal(ph)).Value()
	}
	assert.True(t, free(7.6) < 0.02 && free(7.7) > 0.02)

	// Too much of it before any dose is told as well.
	tank := reef(t).With(tested.Ammonia.Of(2, units.AsNitrogen))
	plan, err := Plan(Dose{Tank: tank, To: tested.AlkalinityOf(units.DKH(7)), Additive: pure(t, "Na2CO3")})
	require.NoError(t, err)
	i := slices.Index(identifiers(plan.Cautions), "free-ammonia")
	require.GreaterOrEqual(t, i, 0)
	assert.Contains(t, plan.Cautions[i].Text, "Free ammonia is 0.1")
}

// A limit that 48 parts a day cannot keep is an error, and no plan.
func TestMaintainRefuses(t *testing.T) {
	m, err := Maintain(Upkeep{Tank: reef(t), Air: air, Use: Use{PerDay: tested.AlkalinityOf(units.MilliequivalentsPerLitre(0.35))}, Additive: pure(t, "NaOH"), Limits: limits(1e-4)})
	assert.EqualError(t, err, "additive: got NaOH, want a milder one, or a limit of your own: even in 48 parts a day each dose would move pH by more than 0.0001 (a test)")
	assert.Zero(t, m)
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

// beaker is a tank kept by a second bookkeeping: masses of the whole tank in moles,
// and carbonate.Water made of them anew for every question.
type beaker struct {
	litres                 float64
	celsius                units.Temperature
	salt                   float64 // g
	alkalinity, dic, boron float64 // mol
	fluoride, sulfate      float64 // mol, which no dose here brings
	air                    carbonate.XCO2
}

func fill(t *testing.T, tank tested.Water, air carbonate.XCO2) beaker {
	a, known := tank.Level(tested.Alkalinity)
	require.True(t, known)
	kilograms := tank.Volume().Litres() * tank.Portion.Density().KilogramsPerCubicMetre() / 1000
	c := carbonate.At(tank.Portion.Practical(), tank.Portion.Temperature(), carbonate.Options{})
	second := tank.Carbon
	if (second == carbonate.Known{}) {
		second = carbonate.PartialPressure(air.PCO2(&c, units.Atmosphere))
	}
	moles := a.Base() * tank.Volume().Litres() / 1000
	system, err := c.Solve(carbonate.Alkalinity(units.AmountPerKilogram(moles/kilograms)*units.MolePerKilogram), second, carbonate.Nutrients{})
	require.NoError(t, err)
	b := beaker{tank.Volume().Litres(), tank.Portion.Temperature(), tank.Portion.Absolute().GramsPerKilogram() * kilograms, moles,
		float64(system.Water().DIC) / 1e6 * kilograms, float64(c.Totals.Boron) / 1e6 * kilograms,
		float64(c.Totals.Fluoride) / 1e6 * kilograms, float64(c.Totals.Sulfate) / 1e6 * kilograms, air}
	if b.air == 0 {
		b.air = system.PCO2().XCO2(&c, units.Atmosphere)
	}
	return b
}

func (b *beaker) add(c ions.Composition) { // in µmol, for the whole tank
	b.salt += c.SolutionSalinity().GramsPerKilogram() // of "one kilogram"
	b.alkalinity += float64(c.Alkalinity()) / 1e6
	b.dic += float64(c.Carbon()) / 1e6
	b.boron += float64(c.Boron()) / 1e6
}

// ph asks for the pH, and aired for that in balance with the air, which it then keeps.
func (b *beaker) ph(t *testing.T) (now, aired float64) {
	kilograms := b.litres
	var s seawater.Sample
	for range 40 {
		var err error
		s, err = seawater.FromAbsolute(units.Absolute(b.salt/kilograms), b.celsius)
		require.NoError(t, err)
		kilograms = b.litres * s.Density().KilogramsPerCubicMetre() / 1000
	}
	per := 1e6 / kilograms
	w := carbonate.Water{
		Salinity: s.Practical(), Temperature: b.celsius,
		Alkalinity: units.AmountPerKilogram(b.alkalinity * per), DIC: units.AmountPerKilogram(b.dic * per),
		Options: carbonate.Options{
			Boron:    carbonate.Measured(units.AmountPerKilogram(b.boron * per)),
			Fluoride: carbonate.Measured(units.AmountPerKilogram(b.fluoride * per)),
			Sulfate:  carbonate.Measured(units.AmountPerKilogram(b.sulfate * per)),
		},
	}
	system, err := w.System()
	require.NoError(t, err)
	w, err = w.Equilibrate(b.air, units.Atmosphere)
	require.NoError(t, err)
	settled, err := w.System()
	require.NoError(t, err)
	b.dic = float64(w.DIC) / per
	return system.PH().Value(), settled.PH().Value()
}

// bases are what moves a pH.
var bases = []string{"NaHCO3", "Na2CO3", "NaOH", "KHCO3", "Ca(OH)2", "Na2B4O7.10H2O"}

// anyTank is a tank of a keeper in trouble: any pH, and air that it need not be in
// balance with.
func anyTank(t *testing.T, r *rand.Rand) (tested.Water, carbonate.XCO2, tested.Limits) {
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	tank := tested.Water{
		Portion: water(t, between(28, 38), between(20, 29)).OfVolume(units.Volume(between(20, 1000))),
		Levels:  tested.Levels{tested.AlkalinityOf(units.MilliequivalentsPerLitre(between(0.5, 4.5))), tested.Calcium.Of(380, units.AsCalcium), tested.Boron.Of(4, units.AsBoron)},
		Carbon:  carbonate.PH(carbonate.PHTotal(between(6.8, 8.6))),
	}
	// boron as the sea has it, which the beaker takes from the salinity
	c := carbonate.At(tank.Portion.Practical(), tank.Portion.Temperature(), carbonate.Options{})
	tank.Levels[2] = tested.Boron.OfAmount(c.Totals.Boron.PerLitre(tank.Portion.Density()))
	swing := 0.0
	if r.IntN(3) > 0 {
		swing = between(0.02, 0.5)
	}
	air := carbonate.XCO2(0)
	if r.IntN(3) > 0 {
		air = carbonate.XCO2(between(300, 3000))
	}
	return tank, air, limits(swing, tested.AlkalinityOf(units.MilliequivalentsPerLitre(5)), tested.Calcium.OfAmount(5), tested.Boron.OfAmount(5))
}

// within is far below what an electrode shows, and above what two ways of
// computing differ by.
const within = 1e-6

// No stated limit of pH is ever passed, by Plan, Maintain or Lime: at once from where
// the tank is, nor in balance with the air. Every step is computed a second time.
func TestNoLimitIsPassed(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 11))
	planned, maintained, limed := 0, 0, 0
	for range checks.Runs(4000, 400) {
		tank, air, limits := anyTank(t, r)
		swing, _ := swing(limits.List())
		a := pure(t, bases[r.IntN(len(bases))])
		start := fill(t, tank, air)
		still := start
		before, settled := still.ph(t)
		keeps := func(what string, b *beaker, c ions.Composition, before, settled float64, now, aired tested.Chemistry) (float64, float64) {
			t.Helper()
			b.add(c)
			x, y := b.ph(t)
			require.InDelta(t, x, now.PH.Value(), within, what)
			require.InDelta(t, y, aired.PH.Value(), within, what)
			require.LessOrEqual(t, math.Abs(x-before), swing+within, "%s at once, from %v", what, before)
			require.LessOrEqual(t, math.Abs(y-settled), swing+within, "%s lasting, from %v", what, settled)
			return x, y
		}

		p := []tested.Parameter{tested.Alkalinity, tested.Calcium, tested.Boron}[r.IntN(3)]
		if !(p.In(a.per()) > 0) {
			p = tested.Alkalinity
		}
		present, _ := tank.Level(p)
		rise := []float64{0.2, 1, 2}[r.IntN(3)] * r.Float64()
		plan, err := Plan(Dose{Tank: tank, Air: air, To: present.WithBase(present.Base() + rise), Additive: a, Limits: limits})
		if err == nil {
			planned++
			b, from, at := start, before, settled
			for _, s := range plan.Steps {
				x, err := a.count("", s.Amount)
				require.NoError(t, err)
				_, at = keeps("plan "+a.String(), &b, a.per().Scale(x), from, at, s.AtOnce, s.Aired)
				from = at
			}
		} else {
			require.Zero(t, plan)
			require.ErrorIs(t, err, units.ErrInput)
		}

		m, err := Maintain(Upkeep{Tank: tank, Air: air, Use: Use{PerDay: tested.AlkalinityOf(units.MilliequivalentsPerLitre(rise))}, Additive: a, Limits: limits})
		if err == nil {
			maintained++
			x, err := a.count("", m.PerDay)
			require.NoError(t, err)
			b := start
			keeps("maintain "+a.String(), &b, a.per().Scale(x/float64(m.Parts)), before, settled, m.AtOnce, m.Aired)
		} else {
			require.Zero(t, m)
			require.ErrorIs(t, err, units.ErrInput)
		}

		l, err := Lime(LimeWater{Tank: tank, Air: air, TopOff: units.Flow(tank.Volume().Litres()*0.03*r.Float64()) * units.LitrePerDay, Temperature: units.Celsius(22), Saturation: units.Share(1), Limits: limits})
		require.NoError(t, err)
		limed++
		b := start
		dose := compound(t, "Ca(OH)2").Dose(units.AmountPerKilogram(l.Content.Mass(l.Portion).Grams()/74.092) * units.MolePerKilogram)
		b.add(dose)
		x, y := b.ph(t)
		require.InDelta(t, x, l.AtOnce.PH.Value(), 1e-5, "lime") // by the molar mass typed here
		require.LessOrEqual(t, math.Abs(x-before), swing+1e-5)
		require.LessOrEqual(t, math.Abs(y-settled), swing+1e-5)
		require.Positive(t, l.Portion)
	}
	t.Log(planned, maintained, limed)
	assert.Greater(t, planned, checks.Runs(3000, 300))
	assert.Greater(t, maintained, checks.Runs(3000, 300))
}

// Where each warning of precipitation begins, written down once more: aragonite 5
// (Moras et al. 2022, from memory) and 12.3 (Marion et al. 2009, from memory), pH 9
// for brucite, and saturation 1 of brucite, of gypsum with twice its uncertainty; a pH of a reef 7 to 9 (common
// practice).
func TestWhereCautionsBegin(t *testing.T) {
	calm := tested.Chemistry{PH: carbonate.PHTotal(8), Aragonite: 3}
	ids := func(before, now, aired tested.Chemistry) []string {
		return identifiers(chemistryCautions(tested.Water{}, found{before, before}, tested.Limits{}.List(), []Step{{AtOnce: now, Aired: aired}}))
	}
	omega := func(x float64) tested.Chemistry { c := calm; c.Aragonite = units.Scalar(x); return c }
	ph := func(x float64) tested.Chemistry { c := calm; c.PH = carbonate.PHTotal(x); return c }
	brucite := func(omega float64) tested.Chemistry {
		c := calm
		c.Brucite = carbonate.Saturation{Omega: units.Scalar(omega), Uncertainty: 0.38}
		return c
	}
	gypsum := func(omega, u float64) tested.Chemistry {
		c := calm
		c.Gypsum = carbonate.Saturation{Omega: units.Scalar(omega), Uncertainty: units.Scalar(u)}
		return c
	}
	for _, r := range []struct {
		what               string
		before, now, aired tested.Chemistry
		want               []string
	}{
		{"nothing", calm, calm, calm, nil},
		{"below 5", calm, omega(4.99), omega(4.99), nil},
		{"passes 5", calm, omega(5), omega(4.99), []string{"aragonite-passes-5"}},
		{"stays above 5", calm, omega(6), omega(5), []string{"aragonite-may-fall-out"}},
		{"stays above 5, as it was", omega(5.5), omega(5.5), omega(5.4), []string{"aragonite-passes-5"}},
		{"below 12.3", calm, omega(12.29), omega(6), []string{"aragonite-may-fall-out"}},
		{"12.3 at once", calm, omega(12.3), omega(4), []string{"aragonite-falls-out"}},
		{"12.3 aired", calm, omega(4), omega(12.3), []string{"aragonite-falls-out"}},
		{"pH below 9", ph(8.9), ph(8.99), ph(8.99), nil},
		{"pH 9 at once", ph(8.9), ph(9), ph(8.9), []string{"brucite-may-fall-out"}},
		{"pH 9 aired", ph(8.9), ph(8.9), ph(9), []string{"brucite-may-fall-out"}},
		{"brucite below 1", calm, brucite(0.99), calm, nil},
		{"brucite", calm, brucite(1), calm, []string{"brucite-falls-out"}},
		{"gypsum below 1 by more than twice its uncertainty", calm, gypsum(0.49, 0.15), calm, nil},
		{"gypsum", calm, gypsum(0.51, 0.15), calm, []string{"gypsum-falls-out"}},
		{"pH 7 is a reef's", ph(7), ph(7), ph(7), nil},
		{"below 7", ph(6.99), ph(6.99), ph(6.99), []string{"odd-ph"}},
		{"pH 9 is a reef's", ph(9), ph(8.9), ph(8.9), nil},
		{"above 9", ph(9.01), ph(8.9), ph(8.9), []string{"odd-ph"}},
		{"pH up by 0.2", ph(7.5), ph(7.6), ph(7.6999), nil},
		{"pH up by more", ph(7.5), ph(7.71), ph(7.6), []string{"ammonia-not-tested"}},
		{"pH down by more", ph(8), ph(7.7), ph(7.7), nil},
	} {
		assert.Equal(t, r.want, ids(r.before, r.now, r.aired), r.what)
	}
	for aired, want := range map[float64]bool{8.199: false, 8.21: true, 7.79: true, 7.81: false} {
		list := identifiers(chemistryCautions(tested.Water{}, found{calm, ph(aired)}, tested.Limits{}.List(), nil))
		assert.Equal(t, want, slices.Contains(list, "air-moves-ph"), aired)
	}
}

// Just below and just above each bound of a goal, in a sea of 35 at 25 °C of 1.0233
// kg/L: 1.5 times what a kilogram of Reference Seawater holds (Millero et al. 2008,
// Deep-Sea Res. I 55, 50-72), of alkalinity twice it (in 2.3 mmol/kg); of nitrate,
// phosphate, iodine and iron as written (common practice).
func TestBoundsOfGoals(t *testing.T) {
	const perLitre = 1.0233
	sea := func(p tested.Parameter, millimoles float64) tested.Level {
		return p.OfAmount(units.AmountPerLitre(1.5*millimoles*perLitre) * units.MillimolePerLitre)
	}
	for _, r := range []struct {
		bound tested.Level
		salt  string
	}{
		{tested.AlkalinityOf(units.MilliequivalentsPerLitre(2 * 2.300 * perLitre)), "NaHCO3"},
		{sea(tested.Calcium, 10.2821), "CaCl2.2H2O"},
		{sea(tested.Magnesium, 52.8171), "MgCl2.6H2O"},
		{sea(tested.Potassium, 10.2077), "KCl"},
		{sea(tested.Strontium, 0.0907), "SrCl2.6H2O"},
		{sea(tested.Bromide, 0.8421), "NaBr"},
		{sea(tested.Boron, 0.4156), "H3BO3"}, // B(OH)3 0.3143, B(OH)4 0.1008, and rounding
		{sea(tested.Fluoride, 0.0683), "NaF"},
		{tested.Nitrate.Of(50, 62.004), "NaNO3"},
		{tested.Phosphate.Of(0.5, 94.970), "Na2HPO4"},
		{tested.Iodine.Of(0.09, 126.904), "KI"},
		{tested.Iron.Of(0.01, 55.845), "FeCl3.6H2O"},
	} {
		for _, times := range []float64{0.99, 1.01} {
			d := Dose{Tank: reef(t), To: r.bound.WithBase(times * r.bound.Base()), Additive: pure(t, r.salt)}
			assert.Equal(t, times > 1, slices.Contains(identifiers(d.tooHigh()), "goal-too-high"), "%v × %v", d.To, times)
		}
	}
}

// A dose of 2 % of the tank is warned of, one of 10 % refused (common practice: about
// what evaporates in a day; from memory); a lasting rise of salinity by 0.5 is told, and
// a plan of more than 30 steps; a day's use above the limit of a day.
func TestVolumesAndRises(t *testing.T) {
	tank := reef(t).OfVolume(100)
	for litres, want := range map[float64]struct{ warned, refused bool }{1.99: {}, 2.01: {true, false}, 9.99: {true, false}, 10.01: {true, true}} {
		a := Amount{Volume: units.Volume(litres)}
		assert.Equal(t, want.warned, len(volumeCaution(a, tank)) == 1, litres)
		assert.Equal(t, want.refused, Additive{}.fits(a, tank) != nil, litres)
		if want.warned {
			assert.Contains(t, volumeCaution(a, tank)[0].Text, fmt.Sprintf("are %.1f %% of the tank", litres))
		}
	}
	for rise, want := range map[float64]bool{0.499: false, 0.501: true} {
		s := SalinityRise{Before: units.Practical(35), After: units.Practical(36), Lasting: units.Practical(35 + rise)}
		d := Dose{Tank: reef(t), To: tested.Calcium.Of(400, units.AsCalcium), Additive: pure(t, "CaCl2")}
		assert.Equal(t, want, slices.Contains(identifiers(d.cautions(nil, DosePlan{Salinity: s}, found{})), "salinity-rises"), rise)
		u := Upkeep{Tank: reef(t), Use: Use{PerDay: tested.Calcium.OfAmount(0.1)}, Additive: pure(t, "CaCl2")}
		assert.Equal(t, want, slices.Contains(identifiers(u.cautions(UpkeepPlan{PerMonth: s}, found{})), "salinity-rises"), rise)
	}
	for use, want := range map[float64]bool{19.9: false, 20.1: true} {
		u := Upkeep{Tank: reef(t), Use: Use{PerDay: tested.Calcium.Of(units.MassPerLitre(use), units.AsCalcium)}, Additive: pure(t, "CaCl2")}
		m, err := Maintain(u)
		require.NoError(t, err)
		assert.Equal(t, want, slices.Contains(identifiers(m.Cautions), "large-use"), use)
	}
	for n, want := range map[int]bool{30: false, 31: true} {
		d := Dose{Tank: reef(t), To: tested.Calcium.Of(400, units.AsCalcium), Additive: pure(t, "CaCl2")}
		p := DosePlan{LimitedBy: "calcium", Steps: make([]Step, n)}
		assert.Equal(t, want, slices.Contains(identifiers(d.cautions(nil, p, found{})), "many-steps"), n)
	}
	for use, want := range map[float64]int{365: 365, 366: 0} { // a year of steps
		d := Dose{Tank: reef(t), Additive: pure(t, "NaNO3"), Limits: limits(0, tested.Nitrate.OfAmount(0.001))}
		present, _ := d.Tank.Level(tested.Nitrate)
		d.To = present.WithBase(present.Base() + 0.001*(use-1e-6))
		plan, err := Plan(d)
		assert.Len(t, plan.Steps, want)
		assert.Equal(t, want == 0, err != nil)
	}
}

// Two warnings of one kind are two; the same twice is one.
func TestFinishMergesOnlyEquals(t *testing.T) {
	a, b := advice.Caution{ID: "a", Text: "one"}, advice.Caution{ID: "a", Text: "two"}
	list := finish([]advice.Caution{a, b, a}, pure(t, "CaCl2"))
	assert.Equal(t, []advice.Caution{a, b}, list[:2])
	assert.NotContains(t, list[2:], a)
}

// A log reaches over the years that a time.Duration can, and no further; a compound
// stands once in a stock.
func TestYearsOfALog(t *testing.T) {
	for year, fine := range map[int]bool{1899: false, 1900: true, 2150: true, 2151: false} {
		at := time.Date(year, 6, 1, 0, 0, 0, 0, time.UTC)
		assert.Equal(t, fine, when("log", at) == nil, year)
		err := Log{Volume: 100, Doses: []Dosed{{From: time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC), To: at, Additive: pure(t, "CaCl2")}}}.check()
		assert.Equal(t, year == 2150, err == nil, year)
	}
	soda := Ingredient{salts.Reagent{Compound: compound(t, "Na2CO3"), Purity: units.Share(1)}, 10 * units.GramPerLitre}
	_, err := Stock(soda, soda).check("additive")
	assert.EqualError(t, err, "additive: got Na2CO3 twice in one solution, want each compound once")
}
