package gas

import (
	"encoding"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/eos80"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/seawater/weighing"
	"example.org/wellmixed/units"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)

	sea    = units.Practical(35)
	warm   = units.Celsius(25)
	oneAtm = 1 * units.Atmosphere
	room   = Air{units.Celsius(22), oneAtm, units.Share(0.5)}
)

// Another air must convert: one room, two questions.
func TestAirIsThatOfWeighing(t *testing.T) {
	a := Air(weighing.StandardAir())
	checks.Relative(t, "moist density", float64(a.DryDensity())*(1+a.HumidityRatio()), float64(weighing.StandardAir().Density()), 5e-4)
}

// The formulas that share the name of a quantity differ by what their sources say.
func TestFormulasAgree(t *testing.T) {
	for _, s := range []float64{0, 20, 35, 42} {
		for _, c := range []float64{0, 10, 20, 26, 35} {
			s, c := units.Practical(s), units.Celsius(c)
			rho := eos80.SurfaceDensity(s, c)
			kg := OxygenGarciaGordon(s, c)
			checks.Relative(t, "oxygen per litre", float64(OxygenGarciaGordonPerLitre(s, c).PerKilogram(rho)), float64(kg), 2.1e-4)
			checks.Relative(t, "oxygen, water works", float64(Oxygen.MolarMass().AmountPerLitre(OxygenBensonKrause(s, c))), float64(OxygenGarciaGordonPerLitre(s, c)), 4e-4)
			checks.Relative(t, "oxygen, Weiss", float64(Oxygen.SaturationWeiss(s, c)), float64(OxygenGarciaGordonPerLitre(s, c)), 6e-3)
			checks.Relative(t, "nitrogen, Weiss", float64(Nitrogen.SaturationWeiss(s, c).PerKilogram(rho)), float64(NitrogenHammeEmerson(s, c)), 1.9e-2)
			checks.Relative(t, "argon, Weiss", float64(Argon.SaturationWeiss(s, c).PerKilogram(rho)), float64(ArgonHammeEmerson(s, c)), 1e-2)
			co2 := CarbonDioxideSaturation(s, c, oneAtm, 400)
			checks.Relative(t, "carbon dioxide", 400*CarbonDioxideF(s, c), float64(co2), 6.5e-4)
			checks.Relative(t, "carbon dioxide per litre", 400*CarbonDioxideFPerLitre(s, c)/1000, float64(co2.PerLitre(rho)), 9e-4)
			checks.Relative(t, "vapour", float64(VapourPressure(s, c))*100, teos10.VapourPressure(teos10.AbsoluteFromPractical(s), c), 2.5e-3)
		}
	}
}

// 22263 mL: the ideal volume with the second virial coefficient of Weiss 1974 at 0 °C.
func TestMolarVolumeOfCarbonDioxide(t *testing.T) {
	const k = 273.15
	b := -1636.75 + k*(12.0408+k*(-0.0327957+k*3.16528e-5))
	ideal := 82.057366 * k
	assert.InDelta(t, (ideal+math.Sqrt(ideal*ideal+4*ideal*b))/2, species[CarbonDioxide].volume, 1)
	assert.InDelta(t, 1, CarbonDioxide.MillilitresPerLitre(CarbonDioxide.FromMillilitresPerLitre(1)), 1e-15)
}

func TestSaturationUnderPressure(t *testing.T) {
	v := VapourPressure(sea, warm)
	for _, g := range []Species{Nitrogen, Argon} {
		checks.Relative(t, g.String(), float64(g.Saturation(sea, warm, 700)), float64(g.Saturation(sea, warm, oneAtm)*units.AmountPerKilogram((700-v)/(oneAtm-v))), 1e-14)
	}
	// The correction of Benson and Krause, written as they do.
	const th = 0.000975 + 25.006*(-1.426e-5+25.006*6.436e-8)
	p := 700 / 1013.25
	pw := float64(v) / 1013.25
	checks.Relative(t, "oxygen", float64(Oxygen.Saturation(sea, warm, 700)),
		float64(OxygenGarciaGordon(sea, warm))*p*(1-pw/p)*(1-th*p)/((1-pw)*(1-th)), 1e-14)
	assert.Equal(t, OxygenGarciaGordon(sea, warm), Oxygen.Saturation(sea, warm, oneAtm))

	// Less with warmth, salt and height.
	for g := Oxygen; g <= CarbonDioxide; g++ {
		at := func(s, c, p float64) float64 {
			if g == CarbonDioxide {
				return float64(CarbonDioxideSaturation(units.Practical(s), units.Celsius(c), units.AirPressure(p), 400))
			}
			return float64(g.Saturation(units.Practical(s), units.Celsius(c), units.AirPressure(p)))
		}
		for c := -2.0; c < 40; c++ {
			assert.Less(t, at(35, c+1, 1000), at(35, c, 1000), "%v at %v", g, c)
			assert.Less(t, at(36, c, 1000), at(35, c, 1000))
			assert.Less(t, at(35, c, 990), at(35, c, 1000))
		}
	}
	assert.True(t, math.IsNaN(float64(CarbonDioxide.Saturation(sea, warm, oneAtm))))
}

func TestPartialPressures(t *testing.T) {
	for g := Oxygen; g <= CarbonDioxide; g++ {
		for _, p := range []units.AirPressure{0, 1, 200, 900} {
			back := g.PartialPressure(sea, warm, g.Dissolved(sea, warm, p))
			assert.InDelta(t, float64(p), float64(back), 1e-12*float64(p), g.String())
		}
	}
	// In balance with air at one atmosphere the gas has its share of the dry part.
	dry := oneAtm - VapourPressure(sea, warm)
	for g := Oxygen; g < CarbonDioxide; g++ {
		checks.Relative(t, g.String(), float64(g.PartialPressure(sea, warm, g.Saturation(sea, warm, oneAtm))), float64(dry)*g.InDryAir().Value(), 1e-14)
	}
	checks.Relative(t, "carbon dioxide", float64(CarbonDioxide.PartialPressure(sea, warm, CarbonDioxideSaturation(sea, warm, 800, 1000))), 1e-3*float64(800-VapourPressure(sea, warm)), 1e-13)
}

// Water in balance with the air has the total gas pressure of the barometer, to the
// rounding of the shares of the gases and the deviation of oxygen from Henry's law.
func TestTotalGasPressure(t *testing.T) {
	for _, p := range []units.AirPressure{600, 834, 1013.25, 1050} {
		for _, c := range []float64{5, 15, 25, 30} {
			e := Equilibrium(sea, units.Celsius(c), p, 350).Pressures(sea, units.Celsius(c))
			checks.Relative(t, "total", float64(e.Total()), float64(p), 1.5e-4)
			assert.InDelta(t, 0, float64(e.Excess(p)), 1.5e-4*float64(p))
			assert.InDelta(t, 1, e.OfBarometer(p).Value(), 1.5e-4)
		}
	}
	// Well water of 10 °C warmed to 25 in a closed pipe: 30 % too much gas.
	cold := Equilibrium(units.Practical(0), units.Celsius(10), oneAtm, 400)
	assert.Greater(t, cold.Pressures(units.Practical(0), warm).OfBarometer(oneAtm).Value(), 1.25*TotalGasLimit().Value()/1.1)
	// A pressure of 1025 kg/m³ · 9.80665 m/s² · 1 m.
	assert.InDelta(t, 1000, float64(BubbleDepth(100.5181625, 1025)), 1e-9)
	assert.True(t, math.IsNaN(float64(Contents{}.Pressures(units.Practical(-1), warm).Total())))
	for _, bad := range []float64{inf, -inf, nan} {
		assert.True(t, math.IsNaN(float64(Contents{Oxygen: units.AmountPerKilogram(bad)}.Pressures(sea, warm).Total())))
		assert.True(t, math.IsNaN(float64(BubbleDepth(units.AirPressure(bad), 1025))))
		assert.True(t, math.IsNaN(float64(Oxygen.PartialPressure(sea, warm, units.AmountPerKilogram(bad)))))
		assert.True(t, math.IsNaN(float64(Oxygen.Dissolved(sea, warm, units.AirPressure(bad)))))
		assert.True(t, math.IsNaN(CarrierRate(sea, warm, Air{warm, oneAtm, units.Share(0.5)}, 0, bad)))
	}
}

func TestStationPressure(t *testing.T) {
	assert.Equal(t, oneAtm, PressureAtAltitude(0))
	checks.Relative(t, "at the sea", float64(StationPressure(1030, 0)), 1030, 1e-14)
	h := 1500 * units.Metre
	assert.Equal(t, PressureAtAltitude(h), StationPressure(oneAtm, h))
	// A reduced pressure that is that of an altitude adds the two geopotential heights.
	geometric := func(h float64) units.Length { return units.Length(h/(1-h/6356766)) * units.Metre }
	checks.Relative(t, "sum of heights", float64(StationPressure(PressureAtAltitude(geometric(200)), geometric(1500))), float64(PressureAtAltitude(geometric(1700))), 1e-14)
	for _, bad := range []units.AirPressure{StationPressure(0, h), StationPressure(-1, h), StationPressure(units.AirPressure(nan), h),
		StationPressure(units.AirPressure(inf), h), PressureAtAltitude(45 * 1000 * units.Metre), PressureAtAltitude(units.Length(nan)),
		PressureAtAltitude(units.Length(inf)), PressureAtAltitude(units.Length(-inf))} {
		assert.True(t, math.IsNaN(float64(bad)), bad)
	}
}

// US Standard Atmosphere 1976, table I, pressure against geometric altitude (from
// memory). Taken for geopotential, 2200 m would be 7 Pa too little and 10 km 64.
func TestStandardAtmosphere(t *testing.T) {
	for metres, printed := range map[float64]string{
		-1000: "1139.3", 500: "954.61", 1000: "898.76", 2000: "795.01", 3000: "701.21",
		4000: "616.60", 5000: "540.48", 8000: "356.51", 10000: "264.99", 11000: "226.99",
	} {
		// The table cuts some digits off and rounds others: one unit of the last.
		checks.PrintedWithin(t, "p", PressureAtAltitude(units.Length(metres)*units.Metre).Hectopascals(), printed, 1)
	}
	checks.Absolute(t, "2200 m", PressureAtAltitude(2200*units.Metre).Hectopascals(), 775.4826570099674, 1e-9)
}

func TestSchmidt(t *testing.T) {
	for g := Oxygen; g <= CarbonDioxide; g++ {
		f, m := g.Schmidt(units.Practical(0), warm), g.Schmidt(sea, warm)
		checks.Relative(t, "halfway", g.Schmidt(units.Practical(17.5), warm), (f+m)/2, 1e-14)
		for c := -2.0; c < 40; c++ {
			assert.Less(t, g.Schmidt(sea, units.Celsius(c+1)), g.Schmidt(sea, units.Celsius(c)))
			if g != Argon {
				assert.Greater(t, g.Diffusivity(sea, units.Celsius(c+1)), g.Diffusivity(sea, units.Celsius(c)))
			}
		}
		// The definition, from a viscosity and a diffusivity of other people.
		sa := teos10.AbsoluteFromPractical(sea)
		nu := teos10.Viscosity(sa, warm) / float64(teos10.DensityExact(sa, warm, 0))
		if g != Argon {
			checks.Relative(t, g.String(), nu/g.Diffusivity(sea, warm), m, 0.06)
		}
	}
	k := 2 * PerHour
	assert.Equal(t, k, k.Of(Oxygen, Oxygen, sea, warm, Rough))
	assert.Less(t, k.Of(CarbonDioxide, Oxygen, sea, warm, Smooth), k.Of(CarbonDioxide, Oxygen, sea, warm, Rough))
	checks.Relative(t, "there and back", float64(k.Moved(warm, units.Celsius(15)).Moved(units.Celsius(15), warm)), 2, 1e-14)
}

// 1 mL of oxygen weighs 1.429 mg; mg/L and back.
func TestMassPerLitre(t *testing.T) {
	const rho = 1023.3 * units.KilogramPerCubicMetre
	checks.Absolute(t, "oxygen, by hand", Oxygen.MassPerLitre(200, rho).MilligramsPerLitre(), 200e-3*31.998*1.0233, 1e-12)
	checks.Absolute(t, "carbon dioxide, by hand", CarbonDioxide.MassPerLitre(12, rho).MilligramsPerLitre(), 12e-3*44.009*1.0233, 1e-12)
	for g := Oxygen; g <= CarbonDioxide; g++ {
		checks.Absolute(t, g.String(), float64(g.FromMassPerLitre(g.MassPerLitre(200, rho), rho)), 200, 1e-12)
	}
}

func TestMeaninglessInput(t *testing.T) {
	type question struct {
		s units.PracticalSalinity
		t units.Temperature
		p units.AirPressure
	}
	bad := []question{
		{units.Practical(-1e-9), warm, oneAtm}, {units.Practical(nan), warm, oneAtm}, {units.Practical(inf), warm, oneAtm},
		{units.Practical(120.1), warm, oneAtm}, {sea, units.Celsius(nan), oneAtm}, {sea, units.Celsius(inf), oneAtm},
		{sea, units.Celsius(-300), oneAtm}, {sea, units.Celsius(-50.1), oneAtm}, {sea, units.Celsius(100.1), oneAtm},
	}
	for _, q := range bad {
		for g := Oxygen; g <= CarbonDioxide+1; g++ {
			for i, x := range []float64{
				float64(g.Saturation(q.s, q.t, q.p)), float64(g.PartialPressure(q.s, q.t, 1)), float64(g.Dissolved(q.s, q.t, 1)),
				float64(g.SaturationWeiss(q.s, q.t)), g.BunsenWeiss(q.s, q.t), g.Schmidt(q.s, q.t), g.Diffusivity(q.s, q.t),
				float64(OxygenBensonKrause(q.s, q.t)), float64(OxygenGarciaGordonPerLitre(q.s, q.t)),
				float64(CarbonDioxideSaturation(q.s, q.t, q.p, 400)), CarbonDioxideF(q.s, q.t), CarbonDioxideFPerLitre(q.s, q.t),
				CarbonDioxideK0PerLitre(q.s, q.t), float64(VapourPressure(q.s, q.t)), ShahRate(q.s, q.t, room),
				CarrierRate(q.s, q.t, room, 0, 1), VDIRate(q.s, q.t, room, VDIStill),
			} {
				assert.True(t, math.IsNaN(x), "%d of %v %v", i, g, q)
			}
		}
	}
	for _, p := range []units.AirPressure{0, -1, VapourPressure(sea, warm), 10001, units.AirPressure(nan), units.AirPressure(inf)} {
		assert.True(t, math.IsNaN(float64(Oxygen.Saturation(sea, warm, p))), p)
		assert.True(t, math.IsNaN(float64(CarbonDioxideSaturation(sea, warm, p, 400))), p)
	}
	for _, x := range []carbonate.XCO2{-1, 1e6 + 1, carbonate.XCO2(nan)} {
		assert.True(t, math.IsNaN(float64(CarbonDioxideSaturation(sea, warm, oneAtm, x))))
	}
	// Over nothing there is no ratio.
	for _, x := range []float64{0, -1, nan} {
		assert.True(t, math.IsNaN(Share(100, units.AmountPerKilogram(x)).Value()))
		assert.True(t, math.IsNaN(float64(BubbleDepth(100, units.Density(x)))))
		assert.True(t, math.IsNaN(Pressures{Oxygen: 200}.OfBarometer(units.AirPressure(x)).Value()))
	}
	assert.Zero(t, Share(0, 200))
	none := Species(9)
	assert.True(t, math.IsNaN(float64(none.MassPerLitre(200, 1025))))
	assert.True(t, math.IsNaN(float64(none.FromMassPerLitre(1, 1025))))
	assert.Equal(t, "unknown gas", none.String())
	assert.True(t, math.IsNaN(float64(none.MolarMass())))
	assert.True(t, math.IsNaN(none.InDryAir().Value()))
	assert.True(t, math.IsNaN(CarbonDioxide.InDryAir().Value()))
	assert.True(t, math.IsNaN(none.MillilitresPerLitre(1)))
	assert.True(t, math.IsNaN(float64(none.FromMillilitresPerLitre(1))))
	assert.ErrorIs(t, none.CheckRange(sea, warm), units.ErrInput)
	assert.True(t, math.IsNaN(float64(CarrierRate(sea, warm, room, -1, 1))))
	assert.True(t, math.IsNaN(ShahRate(sea, warm, Air{warm, 20, units.Share(0)})), "boiling")
}

func TestCheckRange(t *testing.T) {
	for _, r := range []struct {
		g          Species
		s, lo, hi  float64
		salty, odd error
	}{
		{g: Oxygen, s: 42, lo: -2.4, hi: 40}, {g: Nitrogen, s: 35, lo: 1, hi: 30},
		{g: Argon, s: 35, lo: 1, hi: 30}, {g: CarbonDioxide, s: 45, lo: -1, hi: 45},
	} {
		for _, s := range []float64{0, r.s} {
			assert.NoError(t, r.g.CheckRange(units.Practical(s), units.Celsius(r.lo)))
			assert.NoError(t, r.g.CheckRange(units.Practical(s), units.Celsius(r.hi)))
			assert.ErrorIs(t, r.g.CheckRange(units.Practical(s), units.Celsius(r.lo-0.01)), units.ErrRange)
			assert.ErrorIs(t, r.g.CheckRange(units.Practical(s), units.Celsius(r.hi+0.01)), units.ErrRange)
			assert.ErrorIs(t, r.g.CheckRange(units.Practical(s), units.Celsius(nan)), units.ErrRange)
		}
		assert.ErrorIs(t, r.g.CheckRange(units.Practical(r.s+0.01), warm), units.ErrRange)
		assert.ErrorIs(t, r.g.CheckRange(units.Practical(-0.01), warm), units.ErrRange)
		assert.ErrorIs(t, r.g.CheckRange(units.Practical(nan), warm), units.ErrRange)
	}
	assert.EqualError(t, Nitrogen.CheckRange(sea, units.Celsius(31)), "temperature: 31 °C is outside 1 to 30 °C (Hamme and Emerson 2004)")
	assert.NoError(t, CheckRangeSchmidt(sea, units.Celsius(-2)))
	assert.ErrorIs(t, CheckRangeSchmidt(sea, units.Celsius(41)), units.ErrRange)
	assert.ErrorIs(t, CheckRangeSchmidt(units.Practical(36), warm), units.ErrRange)
}

func TestRateText(t *testing.T) {
	var (
		_ encoding.TextMarshaler   = TransferRate(0)
		_ encoding.TextUnmarshaler = (*TransferRate)(nil)
	)
	for text, want := range map[string]TransferRate{
		"3.5 1/h": 3.5, "3.5 /h": 3.5, "3.5/h": 3.5, " 3.5  per hour ": 3.5, "3.5 h-1": 3.5, "1 1/min": 60, "0.5 per minute": 30,
		"24 1/d": 1, "48 per day": 2, "1e-3 1/h": 1e-3, "0 1/h": 0, "1/h": 1,
	} {
		got, err := units.Parse[TransferRate](text)
		assert.NoError(t, err, text)
		assert.InDelta(t, float64(want), float64(got), 1e-14, text)
	}
	for _, text := range []string{"", "3.5", "per hour", "3.5 L/h", "3,5 1/h", "3.5 1/s 2", "NaN 1/h", "Inf 1/h", "1e400 1/h", "x 1/h"} {
		got, err := units.Parse[TransferRate](text)
		assert.ErrorIs(t, err, units.ErrInput, text)
		assert.True(t, math.IsNaN(float64(got)), text)
	}
	for _, k := range []TransferRate{0.1, 1. / 3, 1e-9, 12345.678} {
		text, err := k.MarshalText()
		assert.NoError(t, err)
		back, err := units.Parse[TransferRate](string(text))
		assert.NoError(t, err)
		assert.Equal(t, k, back)
	}
	assert.Equal(t, "3.5 1/h", (3.5 * PerHour).String())
	assert.Equal(t, 2.0, (2 * PerMinute).PerMinute())
	_, err := TransferRate(inf).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	unknown, err := TransferRate(nan).MarshalText()
	assert.NoError(t, err)
	assert.Empty(t, unknown)
}
