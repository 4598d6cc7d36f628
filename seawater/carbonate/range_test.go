package carbonate

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

func waterOf(s, t float64) Water {
	return Water{Salinity: units.Practical(s), Temperature: units.Celsius(t), Alkalinity: 2300, DIC: 2000}
}

// One call on a result says which fits were left, all of them.
func TestSystemCheckRange(t *testing.T) {
	left := func(w Water) []string {
		s, err := w.System()
		require.NoError(t, err)
		err = s.CheckRange()
		if err == nil {
			return nil
		}
		var list []string
		for _, e := range err.(interface{ Unwrap() []error }).Unwrap() {
			var out *units.RangeError
			require.ErrorAs(t, e, &out)
			list = append(list, out.Source)
		}
		return list
	}
	const lueker, mucci = "K1 and K2: Lueker et al. 2000", "calcite and aragonite: Mucci 1983"
	assert.Empty(t, left(waterOf(35, 25)))
	assert.Equal(t, []string{lueker, "KB: Dickson 1990", "KS: Dickson 1990", mucci}, left(waterOf(2, 39)))
	assert.Equal(t, []string{lueker}, left(waterOf(5, 25)))
	brackish := waterOf(5, 25)
	brackish.Options.K1K2 = Suited(brackish.Salinity, brackish.Temperature)
	assert.Empty(t, left(brackish))
	brine := waterOf(41, 25)
	assert.Empty(t, left(brine))
	brine.Nutrients.Ammonia = 1
	assert.Equal(t, []string{"ammonium: Clegg and Whitfield 1995"}, left(brine))

	// Each fit is left at its own bound, by a hair, with all that a water can hold.
	everything := Nutrients{Phosphate: 1, Silicate: 1, Ammonia: 1, Sulfide: 1}
	all := func(s, celsius float64) []string {
		w := waterOf(s, celsius)
		w.Nutrients, w.Options.K1K2 = everything, Waters2014Total
		return left(w)
	}
	assert.Empty(t, all(5, 5))
	assert.Empty(t, all(40, 40))
	assert.Equal(t, []string{"KB: Dickson 1990", "KS: Dickson 1990", mucci}, all(4.999, 25))
	assert.Equal(t, []string{mucci}, all(35, 4.999))
	yao := []string{"KP: Yao and Millero 1995", "KSi: Yao and Millero 1995"}
	for _, w := range [][2]float64{{45.001, 45}, {45, 45.001}} {
		got := all(w[0], w[1])
		assert.Subset(t, got, append([]string{"KW: Millero 1995", "K0: Weiss 1974", "KF: Dickson and Riley 1979", "KH2S: Millero et al. 1988"}, yao...))
		assert.Len(t, got, 10)
	}
	cold := all(35, -0.001)
	assert.Contains(t, cold, "KW: Millero 1995")
	assert.Contains(t, cold, "KH2S: Millero et al. 1988")
	assert.NotContains(t, cold, "K0: Weiss 1974")
	assert.Subset(t, all(35, -2.001), []string{"K0: Weiss 1974", "ammonium: Clegg and Whitfield 1995"})

	for _, s := range []System{{}, {Constants: At(units.Practical(-999), units.Celsius(25), Options{})}} {
		assert.ErrorIs(t, s.CheckRange(), units.ErrInput)
	}
	s, err := waterOf(35, 25).System()
	require.NoError(t, err)
	s.Constants.Options.K1K2 = 99
	assert.ErrorIs(t, s.CheckRange(), units.ErrInput)
}

// The bounds are those of the papers: Lueker et al. 2000, table 1 (19 to 43, 2 to
// 35 °C), Waters et al. 2014 (1 to 50, 0 to 50 °C).
func TestSuited(t *testing.T) {
	for _, c := range []struct {
		s, t float64
		want K1K2
	}{
		{19, 25, Lueker2000}, {43, 25, Lueker2000}, {35, 2, Lueker2000}, {35, 35, Lueker2000},
		{18.99, 25, Waters2014Total}, {43.01, 25, Waters2014Total}, {35, 1.99, Waters2014Total}, {35, 35.01, Waters2014Total},
		{0.5, 25, Waters2014Total}, {math.NaN(), 25, Waters2014Total},
	} {
		assert.Equal(t, c.want, Suited(units.Practical(c.s), units.Celsius(c.t)), "%v %v", c.s, c.t)
	}
	// The numbers that the comment prints.
	for _, c := range []struct {
		k             K1K2
		ph, aragonite string
	}{{Lueker2000, "8.215", "2.49"}, {Waters2014Total, "8.251", "2.02"}} {
		k := At(units.Practical(5), units.Celsius(25), Options{K1K2: c.k})
		s, err := k.Solve(Alkalinity(2300), PartialPressure(420), Nutrients{})
		require.NoError(t, err)
		checks.Printed(t, "pH", s.PH().Value(), c.ph)
		checks.Printed(t, "aragonite", s.Aragonite(), c.aragonite)
	}
}

// How far apart the two sets of Suited are along the border between them.
func TestSuitedBorder(t *testing.T) {
	for _, w := range []struct{ s, t, ph, saturation float64 }{
		{19, 2, 0.013, 0.022}, {19, 20, 0.013, 0.02}, {19, 35, 0.013, 0.02}, {30, 35, 0.013, 0.02}, {30, 2, 0.013, 0.022},
		{43, 35, 0.013, 0.02}, {43, 20, 0.013, 0.02}, {43, 2, 0.02, 0.06},
	} {
		var ph, saturation [2]float64
		for i, k := range []K1K2{Lueker2000, Waters2014Total} {
			c := At(units.Practical(w.s), units.Celsius(w.t), Options{K1K2: k})
			s, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
			require.NoError(t, err)
			ph[i] = s.PH().Value()
			s, err = c.Solve(Alkalinity(2300), PartialPressure(420), Nutrients{})
			require.NoError(t, err)
			saturation[i] = s.Aragonite()
		}
		assert.InDelta(t, ph[0], ph[1], w.ph, "%v", w)
		assert.InDelta(t, 1, saturation[1]/saturation[0], w.saturation, "%v", w)
	}
}

// Organic alkalinity holds no carbonate: what is left of the alkalinity makes the
// same water as if it were all there is.
func TestOrganicAlkalinity(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	for _, second := range []Known{PH(PHTotal(8.1)), DIC(2000), PartialPressure(420), Bicarbonate(1750), Carbonate(230)} {
		with, err := c.Solve(Alkalinity(2300), second, Nutrients{Organic: 100})
		if second.kind == carbonate {
			_, with, err = c.SolveBoth(Alkalinity(2300), second, Nutrients{Organic: 100})
		}
		require.NoError(t, err, second.String())
		without, err := c.Solve(Alkalinity(2200), second, Nutrients{})
		if second.kind == carbonate {
			_, without, err = c.SolveBoth(Alkalinity(2200), second, Nutrients{})
		}
		require.NoError(t, err)
		checks.Relative(t, second.String(), with.Aragonite(), without.Aragonite(), 1e-12)
		checks.Relative(t, second.String(), float64(with.Alkalinity()), 2300, 1e-12)
	}
	// What leaving it out does, as the comment says.
	wrong := func(organic units.AmountPerKilogram) (omega, pressure float64) {
		taken, err := c.Solve(Alkalinity(2300), PH(PHTotal(8.1)), Nutrients{})
		require.NoError(t, err)
		right, err := c.Solve(Alkalinity(2300), PH(PHTotal(8.1)), Nutrients{Organic: organic})
		require.NoError(t, err)
		return 100 * (taken.Aragonite()/right.Aragonite() - 1), 100 * (float64(taken.PCO2()/right.PCO2()) - 1)
	}
	for organic, printed := range map[units.AmountPerKilogram]string{100: "4.8", 200: "10.0"} {
		omega, pressure := wrong(organic)
		checks.Printed(t, "saturation", omega, printed)
		checks.Printed(t, "pCO2", pressure, printed)
	}
	of := func(second Known, organic units.AmountPerKilogram) System {
		s, err := c.Solve(Alkalinity(2300), second, Nutrients{Organic: organic})
		require.NoError(t, err)
		return s
	}
	air, none := of(PartialPressure(420), 0), of(DIC(2000), 0)
	for organic, printed := range map[units.AmountPerKilogram]string{100: "7.9", 200: "16.9"} {
		right := of(PartialPressure(420), organic)
		checks.Printed(t, "in air", 100*(air.Aragonite()/right.Aragonite()-1), printed)
	}
	right := of(DIC(2000), 100)
	checks.Printed(t, "beside DIC", 100*(none.Aragonite()/right.Aragonite()-1), "44.9")
	checks.Printed(t, "beside DIC", 100*(1-float64(none.PCO2()/right.PCO2())), "35.4")
	_, err := c.Solve(Alkalinity(2300), DIC(2000), Nutrients{Organic: -1})
	assert.ErrorIs(t, err, units.ErrInput)
}

// The doubt about the organic alkalinity moves the results as the doubt about the
// alkalinity itself does.
func TestOrganicUncertainty(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	of := func(a Known, k ConstantUncertainty, n Nutrients) Uncertainty {
		u, err := c.Uncertainty(a, PH(PHTotal(8.1)), n, k)
		require.NoError(t, err)
		return u
	}
	// The same span, from 2250 to 2350 less 100, in both.
	organic := of(Alkalinity(2300), ConstantUncertainty{Organic: 50}, Nutrients{Organic: 100})
	kit := of(Alkalinity(2300).PlusMinus(50), ConstantUncertainty{}, Nutrients{Organic: 100})
	checks.Relative(t, "aragonite", float64(organic.Aragonite), float64(kit.Aragonite), 1e-9)
	checks.Relative(t, "pCO2", float64(organic.PCO2), float64(kit.PCO2), 1e-9)
	assert.Positive(t, float64(of(Alkalinity(2300), ConstantUncertainty{Organic: 50}, Nutrients{}).Aragonite))
	_, err := c.Uncertainty(Alkalinity(2300), DIC(2000), Nutrients{}, ConstantUncertainty{Organic: units.AmountPerKilogram(math.NaN())})
	assert.ErrorIs(t, err, units.ErrInput)
}

// The two conventions for a water poor in sulfate, as Options.Sulfate says: what
// corals and fish feel does not depend on the choice.
func TestSulfateConvention(t *testing.T) {
	solve := func(o Options, free bool) System {
		natural := At(units.Practical(35), units.Celsius(25), Options{})
		c := At(units.Practical(35), units.Celsius(25), o)
		if free { // all constants on the total scale moved so that they stay on the free scale
			by := c.freeFactor() / natural.freeFactor()
			for _, k := range []*units.Scalar{&c.K1, &c.K2, &c.KB, &c.KW} {
				*k *= units.Scalar(by)
			}
		}
		s, err := c.FromAlkalinityDIC(2300, 2000, Nutrients{})
		require.NoError(t, err)
		return s
	}
	for _, x := range []struct {
		what        string
		s           System
		total, free string
	}{
		{"natural", solve(Options{}, false), "8.046", "8.154"},
		{"no sulfate, total scale kept", solve(Options{Sulfate: Measured(0)}, false), "8.046", "8.046"},
		{"no sulfate, free scale kept", solve(Options{Sulfate: Measured(0)}, true), "8.154", "8.154"},
	} {
		checks.Printed(t, x.what, x.s.PH().Value(), x.total)
		checks.Printed(t, x.what, x.s.PH().Free(&x.s.Constants).Value(), x.free)
		checks.Printed(t, x.what, x.s.Aragonite(), "3.39")
	}
}

// Weird but met in the field: what is no water is refused, what is one is answered.
func TestOddReadings(t *testing.T) {
	c := At(units.Practical(35), units.Celsius(25), Options{})
	for _, odd := range [][2]Known{
		{Alkalinity(2300), PartialPressure(-5)},
		{Alkalinity(2300), PartialPressure(0)},
		{Alkalinity(2300), PartialPressure(-999)},
		{Alkalinity(2300), DIC(-999)},
		{Alkalinity(2300), PH(PHTotal(-999))},
		{Alkalinity(-999), PH(PHTotal(8.1))}, // no water at pH 8.1 has less than none
		{Alkalinity(2300), PH(PHTotal(10.5))},
		{Alkalinity(2300), Fugacity(FCO2(math.Inf(1)))},
	} {
		s, err := c.Solve(odd[0], odd[1], Nutrients{})
		assert.Error(t, err, "%v %v", odd[0], odd[1])
		assert.True(t, math.IsNaN(s.Aragonite()))
	}
	// Water as acid as vinegar has a negative alkalinity, and a DIC.
	s, err := c.Solve(Alkalinity(-999), DIC(2000), Nutrients{})
	require.NoError(t, err)
	assert.InDelta(t, 3.0, s.PH().Value(), 0.2)
	w := waterOf(35, 25)
	_, err = w.Equilibrate(-400, units.Atmosphere)
	assert.True(t, errors.Is(err, units.ErrInput))
	for _, s := range []float64{-999, -1, math.NaN(), math.Inf(1)} {
		_, err := waterOf(s, 25).System()
		assert.Error(t, err, "salinity %v", s)
	}
	for _, temperature := range []float64{-999, math.NaN(), math.Inf(1)} {
		_, err := waterOf(35, temperature).System()
		assert.Error(t, err, "temperature %v", temperature)
	}
}

// The criteria of the US EPA, as NH3: 0.035 and 0.233 mg/L (EPA 440/5-88-004, from
// memory). The same as nitrogen, by M(N)/M(NH3) = 14.007/17.031: 0.0288 and 0.1916.
func TestAmmoniaCriteria(t *testing.T) {
	chronic, acute := units.MassPerLitre(ChronicAmmonia), units.MassPerLitre(AcuteAmmonia)
	assert.Equal(t, 0.035, chronic.MilligramsPerLitre())
	assert.Equal(t, 0.233, acute.MilligramsPerLitre())
	asNitrogen := func(c units.MassPerLitre) float64 {
		return units.AsNitrogen.MassPerLitre(units.AsAmmonia.AmountPerLitre(c)).MilligramsPerLitre()
	}
	checks.Printed(t, "chronic as N", asNitrogen(chronic), "0.0288")
	checks.Printed(t, "acute as N", asNitrogen(acute), "0.1916")
}

// The outer limits of what is taken for water, just inside and just outside.
func TestOuterLimits(t *testing.T) {
	for _, c := range []struct {
		inside, outside Known
	}{
		{PartialPressure(1e12), PartialPressure(1.0001e12)},
		{Fugacity(1e12), Fugacity(1.0001e12)},
		{DIC(1e9), DIC(1.0001e9)},
		{Alkalinity(1e9), Alkalinity(1.0001e9)},
		{Alkalinity(-1e9), Alkalinity(-1.0001e9)},
		{PH(PHTotal(20)), PH(PHTotal(20.001))},
		{PH(PHTotal(-5)), PH(PHTotal(-5.001))},
	} {
		assert.NoError(t, c.inside.check(), c.inside.String())
		assert.ErrorIs(t, c.outside.check(), units.ErrInput, c.outside.String())
	}
	for _, w := range [][2]float64{{120, 25}, {35, -100}, {35, 400}, {0, 25}} {
		assert.True(t, possible(units.Practical(w[0]), units.Celsius(w[1])), "%v", w)
	}
	for _, w := range [][2]float64{{120.01, 25}, {35, -100.1}, {35, 400.1}, {-0.001, 25}} {
		assert.False(t, possible(units.Practical(w[0]), units.Celsius(w[1])), "%v", w)
	}
}

// Water in air: the alkalinity stays, the air is met, it settles once and for all,
// and an error leaves no number.
func FuzzEquilibrate(f *testing.F) {
	f.Add(35., 25., 2300., 2000., 420., 101325., 0.)
	f.Add(2., 39., -999., -999., -400., -999., -1.)
	f.Add(0., 0., 1e9, 1e9, 1e12, 1e300, 1e9)
	f.Fuzz(func(t *testing.T, s, celsius, ta, carbon, air, pressure, organic float64) {
		w := Water{Salinity: units.Practical(s), Temperature: units.Celsius(celsius), Alkalinity: units.AmountPerKilogram(ta),
			DIC: units.AmountPerKilogram(carbon), Nutrients: Nutrients{Organic: units.AmountPerKilogram(organic)}}
		barometer := units.AirPressure(pressure)
		settled, err := w.Equilibrate(XCO2(air), barometer)
		if err != nil {
			require.True(t, math.IsNaN(float64(settled.DIC)) && math.IsNaN(float64(settled.Alkalinity)), "%v and %v", err, settled)
			return
		}
		require.Equal(t, w.Alkalinity, settled.Alkalinity)
		require.True(t, settled.DIC >= 0 && settled.DIC <= mostAmount, "%v", settled.DIC)
		again, err := settled.Equilibrate(XCO2(air), barometer)
		require.NoError(t, err)
		require.Equal(t, settled, again)
		system, err := settled.System()
		require.NoError(t, err)
		if c := settled.Constants(); system.CheckRange() == nil && ta > 100 && ta < 1e4 && air > 10 && air < 1e4 && organic < ta-50 {
			checks.Relative(t, "air", float64(system.PCO2().XCO2(&c, barometer)), air, 1e-9)
		}
	})
}

// Uncertainties are never negative and never less for one more doubt; three
// measurements are judged, or refused with an empty verdict.
func FuzzUncertainty(f *testing.F) {
	f.Add(uint8(0), uint8(1), uint8(2), 2300., 2000., 8.05, 10., 8., 0.02, 0.01, 20.)
	f.Add(uint8(0), uint8(5), uint8(2), 2300., 200., 8.05, 10., 8., 0.02, 0.01, 20.)
	f.Add(uint8(6), uint8(1), uint8(0), -999., -999., 2300., 1., 1., 1., 1., -1.)
	f.Add(uint8(7), uint8(4), uint8(3), 1e12, 1e9, 1e-300, 1e300, 0., 1e-300, 1., 1e9)
	f.Fuzz(func(t *testing.T, i, j, k uint8, x, y, z, ux, uy, uz, pk, organic float64) {
		make := func(i uint8, x, u float64) Known {
			a := units.AmountPerKilogram(x)
			return [...]Known{Alkalinity(a), DIC(a), PH(PHTotal(x)), DissolvedCO2(a), Bicarbonate(a), Carbonate(a),
				PartialPressure(PCO2(x)), Fugacity(FCO2(x))}[i%8].PlusMinus(u)
		}
		c := At(units.Practical(35), units.Celsius(25), Options{})
		three := [3]Known{make(i, x, ux), make(j, y, uy), make(k, z, uz)}
		doubt := ConstantUncertainty{PK1: pk, PK2: pk, Organic: units.AmountPerKilogram(organic)}
		list := func(u Uncertainty) [10]float64 {
			return [...]float64{float64(u.PH), float64(u.PCO2), float64(u.FCO2), float64(u.Alkalinity), float64(u.DIC), float64(u.CO2),
				float64(u.Bicarbonate), float64(u.Carbonate), float64(u.Calcite), float64(u.Aragonite)}
		}
		u, err := c.Uncertainty(three[0], three[1], Nutrients{}, doubt)
		less, lessErr := c.Uncertainty(three[0], three[1], Nutrients{}, ConstantUncertainty{})
		for i, x := range list(u) {
			if err != nil {
				require.True(t, math.IsNaN(x), "%v and %v", err, u)
				continue
			}
			require.NoError(t, lessErr)
			require.True(t, x >= 0, "%v", u)
			require.True(t, x >= list(less)[i], "%v less than %v", u, less)
		}
		verdict, err := c.Consistency(three, Nutrients{}, doubt)
		if err != nil {
			require.Equal(t, Consistency{}, verdict)
			return
		}
		require.True(t, verdict.Suspect >= 0 && verdict.Suspect < 3)
		consistent := true
		for i, a := range verdict.Agreements {
			require.Equal(t, three[i], a.Measured)
			require.Equal(t, a.Measured.Value()-a.Expected.Value(), float64(a.Off+0))
			require.True(t, a.Expected.Uncertainty() >= 0)
			consistent = consistent && math.Abs(float64(a.Joint)) <= 2
		}
		require.Equal(t, consistent, verdict.Consistent)
	})
}
