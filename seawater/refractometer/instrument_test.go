package refractometer

import (
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// sea is seawater of a practical salinity.
func sea(s float64) units.AbsoluteSalinity {
	return teos10.AbsoluteFromPractical(units.Practical(s))
}

// graduations are all there are, with the mark of pure water.
var graduations = []struct {
	name  string
	scale Graduation
	water Reading
}{
	{"practical", PracticalScale(), 0},
	{"sea salt", SeaSaltScale(), 0},
	{"gravity of seawater 20/20", GravityOfSeawater(units.SG20C()), 1},
	{"gravity of seawater 60/60 °F", GravityOfSeawater(units.SG60F()), 1},
	{"gravity of seawater 25/25", GravityOfSeawater(units.SG25C()), 1},
	{"gravity of seawater 20/4", GravityOfSeawater(units.SG20C4C()), 0.99823},
	{"sodium chloride ‰", SodiumChloridePermille(), 0},
	{"sodium chloride %", SodiumChloridePercent(), 0},
	{"gravity of sodium chloride 20/20", GravityOfSodiumChloride(units.SG20C()), 1},
	{"gravity of sodium chloride 20/4", GravityOfSodiumChloride(units.SG20C4C()), 0.99823},
	{"Brix", BrixScale(), 0},
	{"index", IndexScale(), 1.332986},
}

// settings of one scale: as drawn and set with every kind of standard, each
// with no compensation and with every kind.
func settings(g Graduation) []Instrument {
	var all []Instrument
	mark := func(l Liquid, t units.Temperature) Reading { return g.mark(g.content(l.index(t))) }
	t20, t24 := units.Celsius(20), units.Celsius(24)
	for _, z := range []Zeroing{
		{},
		{PureWater(), t20, mark(PureWater(), t20)},
		{SeawaterStandard(units.Practical(35)), t24, mark(SeawaterStandard(units.Practical(35)), t20)},
		{SaltSolution(units.Share(0.035)), t24, mark(SaltSolution(units.Share(0.035)), t20)},
		{IndexStandard(InAir(1.3394)), t24, mark(IndexStandard(InAir(1.3394)), t20)},
	} {
		for _, l := range []Liquid{{}, PureWater(), SeawaterStandard(units.Practical(35)), SaltSolution(units.Share(0.035)), SugarSolution(units.Share(0.10))} {
			i := Instrument{Graduation: g, Zero: z, Compensation: Automatic(l)}
			if l == (Liquid{}) {
				i.Compensation = Compensation{}
			}
			all = append(all, i)
		}
	}
	return all
}

func TestRoundTrip(t *testing.T) {
	for _, g := range graduations {
		for k, i := range settings(g.scale) {
			if k%checks.Runs(1, 2) != 0 {
				continue
			}
			answers := 0
			for _, celsius := range []float64{0, 10, 15, 18.5, 20, 25, 30} {
				for s := 0.0; s <= 40; s += checks.Step(2.5, 20) {
					temperature := units.Celsius(celsius)
					r, err := i.Reading(sea(s), temperature)
					if err != nil { // not compensated there, or beyond the scale
						assert.ErrorIs(t, err, units.ErrRange)
						assert.True(t, math.IsNaN(float64(r)))
						continue
					}
					answers++
					sa, err := i.Salinity(r, temperature)
					require.NoError(t, err, "%s %d: %v in %v at %v", g.name, k, r, s, celsius)
					checks.Absolute(t, g.name, sa.GramsPerKilogram(), sea(s).GramsPerKilogram(), 1e-9)
					again, err := i.Reading(sa, temperature)
					require.NoError(t, err)
					checks.Absolute(t, g.name, float64(again), float64(r), 1e-9)

					r, err = i.ReadingUnsettled(sea(s), units.Celsius(26), temperature)
					if err != nil {
						continue
					}
					sa, err = i.SalinityUnsettled(r, units.Celsius(26), temperature)
					require.NoError(t, err)
					checks.Absolute(t, g.name, sa.GramsPerKilogram(), sea(s).GramsPerKilogram(), 1e-9)
				}
			}
			assert.Greater(t, answers, checks.Runs(30, 5), "%s %d", g.name, k)
		}
	}
}

// A scale is right in the liquid that it was drawn for, at its temperature and
// wherever it compensates for that liquid; so is one that was set with it.
func TestAsDrawn(t *testing.T) {
	t20 := units.Celsius(20)
	for _, g := range graduations {
		i := Instrument{Graduation: g.scale}
		r, err := i.Reading(sea(0), t20)
		require.NoError(t, err, g.name)
		checks.Absolute(t, g.name+" in water", float64(r), float64(g.water), 5e-6)
		for _, i := range settings(g.scale)[5:10] { // zeroed with water
			r, err := i.Reading(sea(0), t20)
			require.NoError(t, err, g.name)
			checks.Absolute(t, g.name+" in water", float64(r), float64(g.water), 5e-6)
		}
	}
	for celsius := 10.0; celsius <= 30; celsius++ {
		temperature := units.Celsius(celsius)
		i := Instrument{Graduation: PracticalScale(), Compensation: Automatic(SeawaterStandard(units.Practical(35)))}
		r, err := i.Reading(sea(35), temperature)
		require.NoError(t, err)
		checks.Absolute(t, "compensated for seawater", float64(r), 35, 1e-9)
		r, err = Instrument{Graduation: PracticalScale().At(temperature)}.Reading(sea(35), temperature)
		require.NoError(t, err)
		checks.Absolute(t, "drawn for this temperature", float64(r), 35, 1e-9)
		i = Instrument{Graduation: PracticalScale(), Zero: Zeroing{SeawaterStandard(units.Practical(35)), temperature, 35}}
		r, err = i.Reading(sea(35), temperature)
		require.NoError(t, err)
		checks.Absolute(t, "set with seawater at this temperature", float64(r), 35, 1e-9)
	}
}

// Marks of specific gravity are densities of what the scale was drawn for.
func TestGravityScales(t *testing.T) {
	t20 := units.Celsius(20)
	for _, row := range []struct {
		pair    units.GravityPair
		printed string
	}{
		// Practical salinity 35, computed with TEOS-10 (IAPWS R13-08).
		{units.SG60F(), "1.02686"}, {units.SG20C(), "1.02661"}, {units.SG25C(), "1.02637"}, {units.SG20C4C(), "1.02479"},
	} {
		r, err := Instrument{Graduation: GravityOfSeawater(row.pair)}.Reading(sea(35), t20)
		require.NoError(t, err)
		checks.Printed(t, row.pair.String(), float64(r), row.printed)
	}
}

// The independent program starts sodium chloride at 1.33299; here it starts at
// water by [MS90], 1.3329865. That makes 0.02 g/kg and 1.4e-5 in specific
// gravity; shifted by that, the two agree.
func TestSodiumChlorideScaleInSeawater(t *testing.T) {
	t68 := units.Celsius(20 / t68PerT90)
	fresh := Seawater(units.Practical(0), t68).Value()
	for _, row := range checks.Table(t, "testdata/sodium_chloride_scale.csv") {
		s := row.Float(t, "S")
		n := Seawater(units.Practical(s), t68).Value()
		checks.Absolute(t, "index", n, row.Float(t, "n"), 1e-14)
		checks.Absolute(t, "‰ from 1.33299, S="+row["S"], 10*saltPercent(n-1.33299), row.Float(t, "g_kg"), 1e-9)

		r, err := Instrument{Graduation: SodiumChloridePermille().At(t68)}.Reading(sea(s), t68)
		require.NoError(t, err)
		checks.Absolute(t, "‰, S="+row["S"], float64(r)-row.Float(t, "g_kg"), 10*(1.33299-fresh)/saltCoef[0], 5e-4)

		r, err = Instrument{Graduation: GravityOfSodiumChloride(units.SG20C()).At(t68)}.Reading(sea(s), t68)
		require.NoError(t, err)
		checks.Absolute(t, "gravity shown, S="+row["S"], float64(r)-row.Float(t, "SG_shown"), 1.4e-5, 0.15e-5)
		r, err = Instrument{Graduation: GravityOfSeawater(units.SG20C()).At(t68)}.Reading(sea(s), t68)
		require.NoError(t, err)
		checks.Absolute(t, "gravity, S="+row["S"], float64(r), row.Float(t, "SG_sea"), 5e-8)
	}
}

// The faults that everybody meets (common practice), out of the model.
func TestFaults(t *testing.T) {
	c := units.Celsius
	show := func(i Instrument, s float64, sample, prism float64) float64 {
		r, err := i.ReadingUnsettled(sea(s), c(sample), c(prism))
		require.NoError(t, err)
		return float64(r)
	}
	water := Automatic(PureWater())
	hobby := Instrument{PracticalScale(), Zeroing{PureWater(), c(25), 0}, water}
	for _, row := range []struct {
		what    string
		got     float64
		printed string
	}{
		{"compensated for water, 25 °C", show(hobby, 35, 25, 25) - 35, "-0.35"},
		{"compensated for water, 30 °C", show(hobby, 35, 30, 30) - 35, "-0.52"},
		{"compensated for water, 20 °C", show(hobby, 35, 20, 20) - 35, "0.00"},
		{"set with seawater at 25 °C", show(Instrument{PracticalScale(), Zeroing{SeawaterStandard(units.Practical(35)), c(25), 35}, water}, 35, 25, 25) - 35, "0.00"},
		{"no compensation, zeroed with water at 25 °C", show(Instrument{PracticalScale(), Zeroing{PureWater(), c(25), 0}, Compensation{}}, 35, 25, 25) - 35, "-0.35"},
		{"no compensation, as drawn, 25 °C", show(Instrument{Graduation: PracticalScale()}, 35, 25, 25) - 35, "-3.0"},
		{"sodium chloride ‰, zeroed with water", show(Instrument{SodiumChloridePermille(), Zeroing{PureWater(), c(20), 0}, water}, 35, 20, 20) - 35, "1.5"},
		{"the same against g/kg", show(Instrument{SodiumChloridePermille(), Zeroing{PureWater(), c(20), 0}, water}, 35, 20, 20) - 35.16504, "1.3"},
		{"sodium chloride gravity", show(Instrument{GravityOfSodiumChloride(units.SG20C()), Zeroing{PureWater(), c(20), 1}, water}, 35, 20, 20) -
			show(Instrument{Graduation: GravityOfSeawater(units.SG20C())}, 35, 20, 20), "-0.0007"},
		{"true scale set to 35 with 3.5 % sodium chloride", show(Instrument{PracticalScale(), Zeroing{SaltSolution(units.Share(0.035)), c(20), 35}, water}, 35, 20, 20) - 35, "1.4"},
		{"sodium chloride scale set to 35 with seawater of 35", show(Instrument{SodiumChloridePermille(), Zeroing{SeawaterStandard(units.Practical(35)), c(20), 35}, water}, 35, 20, 20) - 35, "0.0"},
		{"drop of 26 °C on a prism of 18 °C, at once", show(hobby, 35, 26, 18) - 35, "-4.6"},
		{"the same, once settled", show(hobby, 35, 18, 18) - 35, "0.18"},
	} {
		checks.Printed(t, row.what, row.got, row.printed)
	}
}

// An instrument that compensates for sugar does better in seawater than one
// that compensates for water.
func TestSugarCompensation(t *testing.T) {
	for _, celsius := range []float64{15, 25, 30} {
		for percent, limit := range map[units.Fraction]float64{units.Share(0.05): 0.31, units.Share(0.10): 0.23} {
			i := Instrument{Graduation: PracticalScale(), Compensation: Automatic(SugarSolution(percent))}
			r, err := i.Reading(sea(35), units.Celsius(celsius))
			require.NoError(t, err)
			assert.InDelta(t, 35, float64(r), limit)
		}
	}
	_, err := Instrument{Graduation: PracticalScale(), Compensation: Automatic(SugarSolution(units.Share(0.1)))}.Reading(sea(35), units.Celsius(14))
	assert.EqualError(t, err, "prism.temperature: 14 °C is outside 15 to 30 °C (compensation of the instrument)")
}

func TestRefusals(t *testing.T) {
	c, nan, inf := units.Celsius, math.NaN(), math.Inf(1)
	good := Instrument{PracticalScale(), Zeroing{PureWater(), c(22), 0}, Automatic(PureWater())}
	with := func(change func(*Instrument)) Instrument {
		i := good
		change(&i)
		return i
	}
	for _, row := range []struct {
		instrument Instrument
		s, celsius float64
		want       string
	}{
		{Instrument{}, 35, 25, "graduation: got none, want one of the scales of this package"},
		{good, 35, 31, "sample.temperature: 31 °C is outside 0 to 30 °C (Millard and Seaver 1990)"},
		{good, 35, nan, "sample.temperature: NaN °C is outside 0 to 30 °C (Millard and Seaver 1990)"},
		{good, 35, 9.9, "prism.temperature: 9.9 °C is outside 10 to 30 °C (compensation of the instrument)"},
		{good, 40.5, 25, "practical salinity: 40.5 is outside 0 to 40 (Millard and Seaver 1990)"},
		{good, -1, 25, "practical salinity: -1 is outside 0 to 40 (Millard and Seaver 1990)"},
		{good, nan, 25, "practical salinity: NaN is outside 0 to 40 (Millard and Seaver 1990)"},
		{with(func(i *Instrument) { i.Graduation = i.Graduation.At(c(-1)) }), 35, 25, "graduation.temperature: -1 °C is outside 0 to 30 °C (Millard and Seaver 1990)"},
		{with(func(i *Instrument) { i.Graduation = GravityOfSeawater(units.GravityPair{Liquid: c(nan)}) }), 35, 25, "graduation.temperature: NaN °C is outside 0 to 40 °C (IAPWS SR7-09; Laliberté 2009)"},
		{with(func(i *Instrument) { i.Graduation = GravityOfSeawater(units.GravityPair{Water: c(41)}) }), 35, 25, "graduation.temperature: 41 °C is outside 0 to 40 °C (IAPWS SR7-09; Laliberté 2009)"},
		{with(func(i *Instrument) { i.Zero.Standard = Liquid{} }), 35, 25, "zero.liquid: got none, want pure water, a standard or a solution of this package"},
		{with(func(i *Instrument) { i.Zero.Standard = SaltSolution(units.Share(0.3)) }), 35, 25, "zero.sodiumChloride: 30 % by mass is outside 0 to 26 % by mass (CRC Handbook; Millard and Seaver 1990)"},
		{with(func(i *Instrument) { i.Zero.Standard = SugarSolution(units.Share(-0.1)) }), 35, 25, "zero.sucrose: -10 % by mass is outside 0 to 30 % by mass (ICUMSA 1974; Laliberté 2009)"},
		{with(func(i *Instrument) { i.Zero.Standard = SeawaterStandard(units.Practical(41)) }), 35, 25, "zero.practicalSalinity: 41 is outside 0 to 40 (Millard and Seaver 1990)"},
		{with(func(i *Instrument) { i.Zero.Standard = IndexStandard(InAir(nan)) }), 35, 25, "zero.refractiveIndex: NaN is outside 1.3 to 1.7 (common practice)"},
		{with(func(i *Instrument) { i.Zero.Temperature = c(5) }), 35, 25, "zero.temperature: 5 °C is outside 10 to 30 °C (compensation of the instrument)"},
		{with(func(i *Instrument) { i.Zero.Mark = -1 }), 35, 25, "zero.reading: -1 is outside 0 to 50 (the ends of the scale)"},
		{with(func(i *Instrument) { i.Zero.Mark = Reading(nan) }), 35, 25, "zero.reading: NaN is outside 0 to 50 (the ends of the scale)"},
		{with(func(i *Instrument) { i.Compensation.Liquid = Liquid{} }), 35, 25, "compensation.liquid: got none, want pure water, a standard or a solution of this package"},
		{with(func(i *Instrument) { i.Compensation.Liquid = IndexStandard(InAir(1.34)) }), 35, 25, "compensation.liquid: got a standard of known index, want one whose drift with temperature is known"},
		{with(func(i *Instrument) { i.Compensation = Compensation{Liquid: PureWater()} }), 35, 25, "compensation.lowestTemperature: got nothing, want a temperature"},
	} {
		r, err := row.instrument.Reading(units.Absolute(gramsPerPractical()*row.s), c(row.celsius))
		assert.EqualError(t, err, row.want)
		assert.True(t, math.IsNaN(float64(r)))
		if strings.HasPrefix(row.want, salinityName) {
			continue // not a fault of the instrument
		}
		sa, err := row.instrument.Salinity(35, c(row.celsius))
		assert.EqualError(t, err, row.want)
		assert.True(t, math.IsNaN(sa.GramsPerKilogram()))
		_, _, err = row.instrument.Estimate(35, c(row.celsius), Uncertainty{})
		assert.EqualError(t, err, row.want)
	}
	for _, bad := range []Reading{-0.1, 50.1, Reading(nan), Reading(inf), Reading(-inf)} {
		sa, err := good.Salinity(bad, c(25))
		assert.ErrorIs(t, err, units.ErrRange)
		assert.True(t, math.IsNaN(sa.GramsPerKilogram()))
	}
	_, err := good.Salinity(45, c(25))
	var salty *units.RangeError
	require.ErrorAs(t, err, &salty)
	assert.Equal(t, "practical salinity", salty.Quantity)
	assert.InDelta(t, 45.4, float64(salty.Got), 0.1)
	_, err = good.ReadingUnsettled(sea(35), c(25), c(nan))
	assert.EqualError(t, err, "prism.temperature: NaN °C is outside 0 to 30 °C (Millard and Seaver 1990)")

	// The number of one scale is refused on another.
	gravity := Instrument{Graduation: GravityOfSeawater(units.SG25C())}
	for _, wrong := range []Reading{35, 1.34, 0, 0.999} {
		_, err := gravity.Salinity(wrong, c(25))
		assert.ErrorIs(t, err, units.ErrRange)
		_, err = Instrument{Graduation: GravityOfSodiumChloride(units.SG25C())}.Salinity(wrong, c(25))
		assert.ErrorIs(t, err, units.ErrRange)
	}

	// Warm pure water on an instrument as drawn: below the end of every scale,
	// and the error says how far.
	for _, g := range graduations[:11] {
		_, err := Instrument{Graduation: g.scale}.Reading(sea(0), c(29))
		var wrong *units.RangeError
		if assert.ErrorAs(t, err, &wrong, g.name) {
			assert.Equal(t, "reading", wrong.Quantity)
			assert.Less(t, float64(wrong.Got), wrong.Min, g.name)
			assert.InDelta(t, 0, (float64(wrong.Got)-wrong.Min)/(wrong.Max-wrong.Min), 0.2, g.name)
		}
	}
	// Set 10 too high, the line leaves the scale of 50.
	high := Instrument{PracticalScale(), Zeroing{SeawaterStandard(units.Practical(25)), c(20), 45}, Compensation{}}
	_, err = high.Reading(sea(35), c(20))
	var wrong *units.RangeError
	require.ErrorAs(t, err, &wrong)
	assert.InDelta(t, 55, float64(wrong.Got), 1e-9)

	for _, u := range []Uncertainty{{Reading: -1}, {Temperature: units.TemperatureDifference(nan)}, {Lag: units.TemperatureDifference(inf)}} {
		sa, width, err := good.Estimate(35, c(25), u)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.True(t, math.IsNaN(sa.GramsPerKilogram()) && math.IsNaN(width.GramsPerKilogram()))
	}
}

// JCGM 101: the first order of Estimate against draws. 20000 draws know a
// standard deviation to 0.5 %.
func TestEstimateAgainstMonteCarlo(t *testing.T) {
	random := rand.New(rand.NewSource(1))
	u := Uncertainty{Reading: 0, Temperature: 1, Lag: 0.5}
	for j, g := range graduations {
		if j%checks.Runs(1, 3) != 0 {
			continue
		}
		for k, i := range settings(g.scale) {
			if k != 0 && k != 6 && k != 14 { // as drawn; water and water; seawater and sugar
				continue
			}
			temperature := units.Celsius(22)
			r, err := i.Reading(sea(33), temperature)
			require.NoError(t, err)
			brackish, err := i.Reading(sea(13), temperature)
			require.NoError(t, err)
			u.Reading = (r - brackish) / 40 // half a unit of salinity
			sa, width, err := i.Estimate(r, temperature, u)
			require.NoError(t, err)
			checks.Absolute(t, g.name, sa.GramsPerKilogram(), sea(33).GramsPerKilogram(), 1e-9)
			var sum, squares float64
			draws, wider := checks.Draws(20000)
			n := float64(draws)
			for range draws {
				prism := temperature.Add(units.TemperatureDifference(random.NormFloat64()))
				sample := prism.Add(0.5 * units.TemperatureDifference(random.NormFloat64()))
				content := g.scale.read(r + Reading(random.NormFloat64())*u.Reading)
				x := absolute(i.practical(content, sample, prism)) - sa.GramsPerKilogram()
				sum += x
				squares += x * x
			}
			spread := math.Sqrt(squares/n - sum/n*sum/n)
			checks.Relative(t, g.name, width.GramsPerKilogram(), spread, 0.02*wider)
			assert.Less(t, math.Abs(sum/n), 0.1*wider*spread, "%s %d: the second order stays small", g.name, k)
		}
	}
}

// Without compensation 1 K costs 0.64 g/kg; with it, only a drop that lags costs
// as much.
func TestSensitivity(t *testing.T) {
	plain := Instrument{Graduation: PracticalScale()}
	hobby := Instrument{Graduation: PracticalScale(), Compensation: Automatic(PureWater())}
	width := func(i Instrument, r Reading, u Uncertainty) float64 {
		_, w, err := i.Estimate(r, units.Celsius(25), u)
		require.NoError(t, err)
		return w.GramsPerKilogram()
	}
	checks.Printed(t, "temperature, plain", width(plain, 32, Uncertainty{Temperature: 1}), "0.64")
	checks.Printed(t, "lag, plain", width(plain, 32, Uncertainty{Lag: 1}), "0.64")
	checks.Printed(t, "temperature, compensated", width(hobby, 34.65, Uncertainty{Temperature: 1}), "0.05")
	checks.Printed(t, "lag, compensated", width(hobby, 34.65, Uncertainty{Lag: 1}), "0.64")
	checks.Printed(t, "reading", width(hobby, 34.65, Uncertainty{Reading: 0.5}), "0.51")
	assert.Zero(t, width(hobby, 34.65, Uncertainty{}))
	// At the end of a scale of specific gravity there is only one side.
	gravity := Instrument{Graduation: GravityOfSeawater(units.SG20C())}
	_, w, err := gravity.Estimate(1, units.Celsius(20), Uncertainty{Reading: 0.001})
	require.NoError(t, err)
	checks.Printed(t, "at the end of the scale", w.GramsPerKilogram(), "1.3")
}

func TestNoAllocations(t *testing.T) {
	for _, g := range graduations {
		for k, i := range settings(g.scale) {
			if k%checks.Runs(1, 6) != 0 {
				continue
			}
			r, err := i.Reading(sea(35), units.Celsius(20))
			require.NoError(t, err)
			checks.NoAllocations(t, g.name+" Reading", func() { sinkR, sinkErr = i.Reading(sea(35), units.Celsius(20)) })
			checks.NoAllocations(t, g.name+" Salinity", func() { sinkS, sinkErr = i.Salinity(r, units.Celsius(20)) })
			checks.NoAllocations(t, g.name+" Estimate", func() { sinkS, sinkS, sinkErr = i.Estimate(r, units.Celsius(20), Uncertainty{Temperature: 1}) })
		}
	}
	for name, f := range map[string]func(){
		"Seawater":               func() { sinkN = Seawater(units.Practical(35), units.Celsius(25)) },
		"QuanFry":                func() { sinkN = QuanFry(units.Practical(35), units.Celsius(25), SodiumD) },
		"Water":                  func() { sinkN = Water(units.Celsius(25), 997, SodiumD).Air(SodiumD) },
		"SodiumChloride":         func() { sinkN = SodiumChloride(units.Share(0.035), units.Celsius(25)) },
		"Sucrose":                func() { sinkN = Sucrose(units.Share(0.1), units.Celsius(25)) },
		"SodiumChlorideStrength": func() { sink = SodiumChlorideStrength(InAir(1.34), units.Celsius(25)).Value() },
		"SucroseStrength":        func() { sink = SucroseStrength(InAir(1.34), units.Celsius(25)).Value() },
	} {
		checks.NoAllocations(t, name, f)
	}
}

// FuzzAnyInput: whatever comes in, an answer or an error comes out; an answer
// is one that water could have, and goes back to where it came from.
func FuzzAnyInput(f *testing.F) {
	for k := range graduations {
		f.Add(k, 7*k, 35.0, 25.0, 20.0, 35.0)
		f.Add(k, k, 1.026, 25.0, 25.0, 0.0)
	}
	f.Add(0, 0, math.NaN(), math.Inf(1), -273.15, math.MaxFloat64)
	f.Add(11, 24, 1.3394, 0.0, 30.0, -1.0)
	f.Fuzz(func(t *testing.T, scale, setting int, reading, sample, prism, salinity float64) {
		g := graduations[uint(scale)%uint(len(graduations))].scale
		all := settings(g)
		i := all[uint(setting)%uint(len(all))]
		ts, tp := units.Celsius(sample), units.Celsius(prism)
		sa, err := i.SalinityUnsettled(Reading(reading), ts, tp)
		if err != nil {
			if !math.IsNaN(sa.GramsPerKilogram()) {
				t.Errorf("%v beside %v", sa, err)
			}
		} else {
			if !(sa.GramsPerKilogram() >= 0 && sa.GramsPerKilogram() < 40.2) {
				t.Errorf("salinity %v", sa)
			}
			r, err := i.ReadingUnsettled(sa, ts, tp)
			if !(err == nil && math.Abs(float64(r)-reading) <= 1e-9) {
				t.Errorf("%v goes back to %v, %v", reading, r, err)
			}
		}
		if r, err := i.ReadingUnsettled(units.Absolute(salinity), ts, tp); (err != nil) != math.IsNaN(float64(r)) {
			t.Errorf("%v beside %v", r, err)
		}
		i.Zero.Mark = Reading(salinity)
		i.Zero.Temperature = tp
		if _, width, err := i.Estimate(Reading(reading), ts, Uncertainty{0.1, 0.1, 0.1}); (err != nil) != math.IsNaN(width.GramsPerKilogram()) {
			t.Errorf("%v beside %v", width, err)
		}
	})
}
