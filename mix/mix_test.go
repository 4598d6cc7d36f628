package mix_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/eos80"
	"example.org/wellmixed/units"
)

var dry = mix.Salt{SeaSalt: units.Percent(95), BulkDensity: 1150, Package: 10 * units.Kilogram, Price: units.Money{Amount: 40, Currency: "EUR"}}

func water(t *testing.T, celsius float64) seawater.Sample {
	t.Helper()
	s, err := seawater.PureWater(units.Celsius(celsius))
	require.NoError(t, err)
	return s
}

func salty(t *testing.T, sp, celsius float64) seawater.Sample {
	t.Helper()
	s, err := seawater.FromPractical(units.Practical(sp), units.Celsius(celsius))
	require.NoError(t, err)
	return s
}

// Common practice: five US gallons of water take roughly 1.5 lb, 0.67 to
// 0.75 kg, of a dry mix for 35 ppt; such a mix is near SG 1.0264 at 25/25 °C
// and 53 mS/cm at 25 °C.
func TestTradeFacts(t *testing.T) {
	for _, share := range []units.Fraction{units.Share(0.93), units.Share(0.95), units.Share(1)} {
		p, err := mix.Plan(mix.Batch{
			Target: units.Practical(35), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(20),
			Amount: mix.WaterVolume(5 * units.USGallon), Salt: mix.Salt{SeaSalt: share},
		})
		require.NoError(t, err)
		assert.Greater(t, p.Salt.Kilograms(), 0.67)
		assert.Less(t, p.Salt.Kilograms(), 0.75)
		assert.InDelta(t, 1.0264, p.Reads.SpecificGravity.Ratio(), 0.0001)
		assert.InDelta(t, 53, p.Reads.Conductivity.MillisiemensPerCentimetre(), 0.2)
		assert.Equal(t, p.Reads.Conductivity, p.Reads.Conductivity25)
	}
}

// A case done by hand from the definition. Millero et al. 2008: practical 35 is
// 35.16504 g/kg. 10 kg of water, product of 95 % sea salt:
// m = 0.03516504 * 10 / (0.95 - 0.03516504) = 0.384384 kg.
func TestPlanByHand(t *testing.T) {
	p, err := mix.Plan(mix.Batch{
		Target: units.Practical(35), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(25),
		Amount: mix.WaterVolume(water(t, 25).OfMass(10 * units.Kilogram).Volume()), Salt: dry,
		Scoop: mix.Scoop{Volume: 100 * units.Millilitre},
	})
	require.NoError(t, err)
	const want = 0.03516504 * 10 / (0.95 - 0.03516504)
	assert.InEpsilon(t, want, p.Salt.Kilograms(), 1e-12)
	assert.InEpsilon(t, want/0.115, p.Scoops, 1e-12)
	assert.InEpsilon(t, 10/want, p.Batches, 1e-12)
	assert.InEpsilon(t, want*4, p.Cost.Amount, 1e-12)
	assert.Equal(t, "EUR", p.Cost.Currency)
	// The volume by the older standard, which agrees to 1e-5 (UNESCO 1983).
	v := eos80.SurfaceDensity(units.Practical(35), units.Celsius(25)).Volume(units.Mass(10+want) * units.Kilogram)
	assert.InEpsilon(t, v.Litres(), p.Volume.Litres(), 2e-5)
}

// Salt in = salt out and mass in = mass out, for random batches of every kind.
func TestPlanConservesMass(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	planned := 0
	for i := 0; i < 2000; i++ {
		vessel, err := mix.Bucket(units.Length(between(200, 400)), units.Length(between(200, 500)), units.Length(between(300, 800)))
		require.NoError(t, err)
		volume := vessel.Brim() * units.Volume(between(0.3, 0.95))
		level, err := vessel.LevelOf(volume)
		require.NoError(t, err)
		b := mix.Batch{
			Target: units.Practical(between(1, 42)), Temperature: units.Celsius(between(0, 40)), WaterTemperature: units.Celsius(between(0, 40)),
			Amount: [...]mix.Amount{mix.FinalVolume(volume), mix.FinalLevel(level), mix.WaterVolume(volume), mix.WaterLevel(level)}[i%4],
			Salt:   mix.Salt{SeaSalt: units.Share(between(0.6, 1))},
			Vessel: vessel,
		}
		if i%3 == 0 {
			b.Present = salty(t, between(0, 20), between(0, 40)).OfVolume(volume * units.Volume(between(0, 0.3)))
		}
		p, err := mix.Plan(b)
		if err != nil {
			assert.ErrorIs(t, err, units.ErrInput) // too full, or too salt to begin with
			continue
		}
		planned++
		saltIn := b.Salt.SeaSalt.Value()*p.Salt.Grams() + b.Present.Salt().Grams()
		assert.InEpsilon(t, saltIn, p.Mix.Salt().Grams(), 1e-12)
		assert.InEpsilon(t, (b.Present.Mass + p.WaterMass + p.Salt).Grams(), p.Mix.Mass.Grams(), 1e-12)
		assert.InEpsilon(t, b.Target.Value(), p.Mix.Practical().Value(), 1e-12)
		assert.GreaterOrEqual(t, p.Salt.Grams(), 0.0)
		assert.GreaterOrEqual(t, p.Water.Litres(), 0.0)
		switch i % 4 {
		case 0, 1:
			assert.InEpsilon(t, volume.Litres(), p.Volume.Litres(), 1e-12)
			assert.InDelta(t, level.Millimetres(), p.FinalLevel.Millimetres(), 1e-6)
		case 2:
			assert.InEpsilon(t, volume.Litres(), p.Water.Litres(), 1e-12)
		case 3:
			assert.InDelta(t, level.Millimetres(), p.WaterLevel.Millimetres(), 1e-6)
		}
		assert.InDelta(t, float64(p.FinalLevel-p.WaterLevel), float64(p.Rise), 1e-12)
	}
	assert.Greater(t, planned, 1000)
}

// A bucket that already holds pure water ends as if it had been empty.
func TestPlanCountsWhatIsThere(t *testing.T) {
	b := mix.Batch{
		Target: units.Practical(35), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(20),
		Amount: mix.FinalVolume(20 * units.Litre), Salt: dry,
	}
	fresh, err := mix.Plan(b)
	require.NoError(t, err)
	b.Present = water(t, 20).OfVolume(6 * units.Litre)
	topped, err := mix.Plan(b)
	require.NoError(t, err)
	assert.InEpsilon(t, fresh.Salt.Grams(), topped.Salt.Grams(), 1e-12)
	assert.InDelta(t, fresh.Water.Litres()-6, topped.Water.Litres(), 1e-9)
	b.Present = salty(t, 35, 25).OfVolume(6 * units.Litre)
	topped, err = mix.Plan(b)
	require.NoError(t, err)
	assert.InEpsilon(t, fresh.Salt.Grams()*14/20, topped.Salt.Grams(), 1e-12)
}

func TestPlanRefuses(t *testing.T) {
	vessel, err := mix.Box(30*units.Centimetre, 30*units.Centimetre, 40*units.Centimetre)
	require.NoError(t, err)
	vessel, err = vessel.SafeFillTo(35 * units.Centimetre)
	require.NoError(t, err)
	good := mix.Batch{
		Target: units.Practical(35), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(20),
		Amount: mix.FinalVolume(20 * units.Litre), Salt: dry, Vessel: vessel,
	}
	_, err = mix.Plan(good)
	require.NoError(t, err)
	nan, inf := math.NaN(), math.Inf(1)
	for name, spoil := range map[string]func(*mix.Batch){
		"no salt":                   func(b *mix.Batch) { b.Salt = mix.Salt{} },
		"salt twice":                func(b *mix.Batch) { b.Salt.Label.PerLitreOfMix = 38 * units.GramPerLitre },
		"salt of 9500 %":            func(b *mix.Batch) { b.Salt.SeaSalt = units.Share(95) },
		"salt of 10 %":              func(b *mix.Batch) { b.Salt.SeaSalt = units.Share(0.1) },
		"salt NaN":                  func(b *mix.Batch) { b.Salt.SeaSalt = units.Share(nan) },
		"target zero":               func(b *mix.Batch) { b.Target = units.Practical(0) },
		"target negative":           func(b *mix.Batch) { b.Target = units.Practical(-1) },
		"target NaN":                func(b *mix.Batch) { b.Target = units.Practical(nan) },
		"target above the scale":    func(b *mix.Batch) { b.Target = units.Practical(43) },
		"mix too hot":               func(b *mix.Batch) { b.Temperature = units.Celsius(60) },
		"mix at 77 °C for °F":       func(b *mix.Batch) { b.Temperature = units.Celsius(77) },
		"water too hot":             func(b *mix.Batch) { b.WaterTemperature = units.Celsius(41) },
		"water NaN":                 func(b *mix.Batch) { b.WaterTemperature = units.Celsius(nan) },
		"package negative":          func(b *mix.Batch) { b.Salt.Package = -5 },
		"price NaN":                 func(b *mix.Batch) { b.Salt.Price.Amount = nan },
		"price of what":             func(b *mix.Batch) { b.Salt.Package = 0 },
		"amount absurd":             func(b *mix.Batch) { b.Amount, b.Vessel = mix.FinalVolume(1e308), mix.Vessel{} },
		"no amount":                 func(b *mix.Batch) { b.Amount = mix.Amount{} },
		"amount zero":               func(b *mix.Batch) { b.Amount = mix.FinalVolume(0) },
		"amount negative":           func(b *mix.Batch) { b.Amount = mix.WaterVolume(-1) },
		"amount NaN":                func(b *mix.Batch) { b.Amount = mix.WaterVolume(units.Volume(nan)) },
		"amount infinite":           func(b *mix.Batch) { b.Amount = mix.FinalVolume(units.Volume(inf)) },
		"no water at all":           func(b *mix.Batch) { b.Amount = mix.WaterVolume(0) },
		"above the safe fill":       func(b *mix.Batch) { b.Amount = mix.FinalVolume(33 * units.Litre) },
		"water rises over the safe": func(b *mix.Batch) { b.Amount = mix.WaterLevel(35 * units.Centimetre) },
		"level above the brim":      func(b *mix.Batch) { b.Amount = mix.FinalLevel(41 * units.Centimetre) },
		"level without a vessel":    func(b *mix.Batch) { b.Amount, b.Vessel = mix.WaterLevel(20*units.Centimetre), mix.Vessel{} },
		"present negative":          func(b *mix.Batch) { b.Present.Mass = -1 },
		"present too much":          func(b *mix.Batch) { b.Present = water(t, 20).OfVolume(25 * units.Litre) },
		"present too salt":          func(b *mix.Batch) { b.Present = salty(t, 42, 20).OfVolume(18 * units.Litre) },
		"mark below what is there": func(b *mix.Batch) {
			b.Amount, b.Present = mix.WaterLevel(10*units.Centimetre), water(t, 20).OfVolume(12*units.Litre)
		},
		"scoop without density": func(b *mix.Batch) { b.Scoop.Volume, b.Salt.BulkDensity = 0.1, 0 },
		"scoop given twice":     func(b *mix.Batch) { b.Scoop.Volume, b.Scoop.Mass = 0.1, 100 },
		"scoop negative":        func(b *mix.Batch) { b.Scoop.Mass = -5 },
		"density in g/mL":       func(b *mix.Batch) { b.Scoop.Volume, b.Salt.BulkDensity = 0.1, 1.15 },
	} {
		b := good
		spoil(&b)
		p, err := mix.Plan(b)
		if assert.Error(t, err, name) {
			assert.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange), "%s: %T", name, err)
			assert.Zero(t, p, name)
		}
	}
}

func TestErrorsSayWhatToDo(t *testing.T) {
	b := mix.Batch{Target: units.Practical(35), Amount: mix.FinalVolume(20), Salt: dry}
	_, err := mix.Plan(b)
	assert.EqualError(t, err, "temperature: got nothing, want a temperature\nwaterTemperature: got nothing, want a temperature")
	b.Temperature = units.Celsius(25)
	_, err = mix.Plan(b)
	assert.EqualError(t, err, "waterTemperature: got nothing, want a temperature")
	b.Temperature = units.Celsius(77)
	b.WaterTemperature = units.Celsius(20)
	_, err = mix.Plan(b)
	assert.EqualError(t, err, "temperature: 77 °C is outside -2 to 40 °C (IAPWS SR7-09; kettle water is made by HotWater)")
	b.Temperature = units.Celsius(25)
	b.Salt.SeaSalt = units.Share(95)
	_, err = mix.Plan(b)
	assert.EqualError(t, err, "salt.seaSalt: got 9500.0 % of the product, want 50 to 100 %: check the grams, the litres and the salinity")
}

// A label means one litre or the other; both are undone exactly.
func TestLabel(t *testing.T) {
	at := units.Celsius(25)
	for _, r := range []struct {
		label mix.Label
		make  func(p mix.BatchPlan) units.Volume // the litre that the label means
	}{
		{mix.Label{PerLitreOfWater: 38 * units.GramPerLitre, Gives: units.Practical(35), At: at}, func(p mix.BatchPlan) units.Volume { return p.Water }},
		{mix.Label{PerLitreOfMix: 38 * units.GramPerLitre, Gives: units.Practical(35), At: at}, func(p mix.BatchPlan) units.Volume { return p.Volume }},
	} {
		p, err := mix.Plan(mix.Batch{
			Target: units.Practical(35), Temperature: at, WaterTemperature: at,
			Amount: mix.FinalVolume(50 * units.Litre), Salt: mix.Salt{Label: r.label},
		})
		require.NoError(t, err)
		assert.InEpsilon(t, 38, p.Salt.Grams()/r.make(p).Litres(), 1e-12)
	}
	for _, bad := range []mix.Label{
		{Gives: units.Practical(35), At: at},
		{PerLitreOfWater: 38 * units.GramPerLitre, PerLitreOfMix: 38 * units.GramPerLitre, Gives: units.Practical(35), At: at},
		{PerLitreOfWater: 38 * units.GramPerLitre, At: at},
		{PerLitreOfWater: 38 * units.GramPerLitre, Gives: units.Practical(35)},
		{PerLitreOfWater: 38 * units.GramPerLitre, Gives: units.Practical(50), At: at},
		{PerLitreOfWater: 38 * units.MilligramPerLitre, Gives: units.Practical(35), At: at}, // mg for g
		{PerLitreOfMix: 30 * units.GramPerLitre, Gives: units.Practical(35), At: at},        // less than the salt itself
	} {
		_, err := mix.Salt{Label: bad}.SeaSaltShare()
		assert.Error(t, err, "%+v", bad)
	}
}

// What a batch of known salt gives, calibration finds back.
func TestCalibrationFindsBack(t *testing.T) {
	p, err := mix.Plan(mix.Batch{
		Target: units.Practical(33.7), Temperature: units.Celsius(22), WaterTemperature: units.Celsius(22),
		Amount: mix.WaterVolume(18 * units.Litre), Salt: dry, Scoop: mix.Scoop{Mass: 130},
	})
	require.NoError(t, err)
	s, err := mix.CalibrateScoop(mix.PastBatch{Salt: dry, Scoops: p.Scoops, Water: 18 * units.Litre, WaterTemperature: units.Celsius(22), Gave: units.Practical(33.7)})
	require.NoError(t, err)
	assert.InEpsilon(t, 130, s.Mass.Grams(), 1e-12)
	share, err := mix.SeaSaltOf(p.Salt, p.WaterMass, units.Practical(33.7))
	require.NoError(t, err)
	assert.InEpsilon(t, 0.95, share.Value(), 1e-12)

	for _, bad := range []mix.PastBatch{
		{Salt: dry, Scoops: 0, Water: 18, WaterTemperature: units.Celsius(22), Gave: units.Practical(33)},
		{Salt: dry, Scoops: 5, Water: 0, WaterTemperature: units.Celsius(22), Gave: units.Practical(33)},
		{Salt: dry, Scoops: 5, Water: 18, WaterTemperature: units.Celsius(72), Gave: units.Practical(33)},
		{Salt: dry, Scoops: 5, Water: 18, WaterTemperature: units.Celsius(22), Gave: units.Practical(0)},
		{Salt: dry, Scoops: 5, Water: 18, WaterTemperature: units.Celsius(22), Gave: units.Practical(44)},
		{Scoops: 5, Water: 18, WaterTemperature: units.Celsius(22), Gave: units.Practical(33)},
	} {
		_, err := mix.CalibrateScoop(bad)
		assert.Error(t, err)
	}
	_, err = mix.SeaSaltOf(0, 1000, units.Practical(35))
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = mix.SeaSaltOf(100, 1000, units.Practical(4)) // far too weak for that much
	assert.ErrorIs(t, err, units.ErrInput)
}

func TestVessels(t *testing.T) {
	cm := units.Centimetre
	box, err := mix.Box(50*cm, 40*cm, 30*cm)
	require.NoError(t, err)
	assert.InEpsilon(t, 60, box.Brim().Litres(), 1e-14)
	can, err := mix.Cylinder(40*cm, 50*cm)
	require.NoError(t, err)
	assert.InEpsilon(t, math.Pi*20, can.Brim().Litres(), 1e-14)
	// Frustum of a cone: V = π h (R² + R r + r²) / 3 (any table of solids).
	pail, err := mix.Bucket(26*cm, 30*cm, 36*cm)
	require.NoError(t, err)
	assert.InEpsilon(t, math.Pi*3.6*(1.5*1.5+1.5*1.3+1.3*1.3)/3, pail.Brim().Litres(), 1e-14)
	jug, err := mix.Marked(mix.Mark{Height: 10 * cm, Volume: 5}, mix.Mark{Height: 20 * cm, Volume: 12}, mix.Mark{Height: 25 * cm, Volume: 16})
	require.NoError(t, err)
	for height, want := range map[units.Length]float64{0: 0, 50: 2.5, 100: 5, 150: 8.5, 200: 12, 225: 14, 250: 16} {
		v, err := jug.VolumeAt(height)
		require.NoError(t, err)
		assert.InDelta(t, want, v.Litres(), 1e-12)
	}
	narrowing, err := mix.Bucket(40*cm, 20*cm, 30*cm)
	require.NoError(t, err)
	for _, v := range []mix.Vessel{box, can, pail, jug, narrowing} {
		assert.True(t, v.Exists())
		for i := 0; i <= 20; i++ {
			h := units.Length(i) / 20 * 25 * cm
			volume, err := v.VolumeAt(h)
			require.NoError(t, err)
			back, err := v.LevelOf(volume)
			require.NoError(t, err)
			assert.InDelta(t, h.Millimetres(), back.Millimetres(), 1e-9)
		}
		full, err := v.LevelOf(v.Brim())
		require.NoError(t, err)
		top, err := v.VolumeAt(full)
		require.NoError(t, err)
		assert.InEpsilon(t, v.Brim().Litres(), top.Litres(), 1e-12)
		for _, bad := range []units.Length{-1, 10000, units.Length(math.NaN())} {
			_, err := v.VolumeAt(bad)
			assert.ErrorIs(t, err, units.ErrInput)
			_, err = v.LevelOf(units.Volume(bad))
			assert.ErrorIs(t, err, units.ErrInput)
			_, err = v.SafeFillTo(bad)
			assert.ErrorIs(t, err, units.ErrInput)
		}
	}
	assert.False(t, mix.Vessel{}.Exists())
	_, err = mix.Vessel{}.VolumeAt(1)
	assert.ErrorIs(t, err, units.ErrInput)
	for _, make := range []func() (mix.Vessel, error){
		func() (mix.Vessel, error) { return mix.Box(0, 1, 1) },
		func() (mix.Vessel, error) { return mix.Box(1, -1, 1) },
		func() (mix.Vessel, error) { return mix.Cylinder(units.Length(math.NaN()), 1) },
		func() (mix.Vessel, error) { return mix.Bucket(1, 1, units.Length(math.Inf(1))) },
		func() (mix.Vessel, error) { return mix.Marked() },
		func() (mix.Vessel, error) {
			return mix.Marked(mix.Mark{Height: 10, Volume: 5}, mix.Mark{Height: 5, Volume: 6})
		},
		func() (mix.Vessel, error) {
			return mix.Marked(mix.Mark{Height: 10, Volume: 5}, mix.Mark{Height: 15, Volume: 5})
		},
	} {
		_, err := make()
		assert.ErrorIs(t, err, units.ErrInput)
	}
}

func TestCorrectReachesTheTarget(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	for i := 0; i < 2000; i++ {
		m := mix.Mixed{
			Present:          salty(t, between(1, 42), between(0, 40)).OfVolume(units.Volume(between(5, 100))),
			Target:           units.Practical(between(1, 42)),
			Salt:             mix.Salt{SeaSalt: units.Share(between(0.6, 1))},
			WaterTemperature: units.Celsius(between(0, 40)),
		}
		if i%2 == 0 {
			m.Most = m.Present.Volume() * units.Volume(between(0.8, 1.2))
		}
		c, err := mix.Correct(m)
		require.NoError(t, err)
		assert.InEpsilon(t, m.Target.Value(), c.Mix.Practical().Value(), 1e-12)
		// mass and salt: present - removed + water + product = mix
		removed := m.Present.OfVolume(c.Remove)
		poured := water(t, m.WaterTemperature.Celsius()).OfVolume(c.AddWater)
		assert.InEpsilon(t, float64(m.Present.Mass-removed.Mass+poured.Mass+c.AddSalt), float64(c.Mix.Mass), 1e-12)
		assert.InEpsilon(t, float64(m.Present.Salt()-removed.Salt())+m.Salt.SeaSalt.Value()*float64(c.AddSalt), float64(c.Mix.Salt()), 1e-12)
		assert.True(t, c.AddSalt == 0 || c.AddWater == 0, "never both")
		assert.GreaterOrEqual(t, c.Remove.Litres(), 0.0)
		if m.Most > 0 {
			assert.LessOrEqual(t, c.Volume.Litres(), m.Most.Litres()*(1+1e-9))
		} else {
			assert.Zero(t, c.Remove)
		}
	}
}

func TestCorrectLeavesARightMixAlone(t *testing.T) {
	c, err := mix.Correct(mix.Mixed{Present: salty(t, 35, 25).OfVolume(20), Target: units.Practical(35), Salt: dry, WaterTemperature: units.Celsius(20)})
	require.NoError(t, err)
	assert.Zero(t, c.AddSalt)
	assert.Zero(t, c.AddWater)
	assert.Zero(t, c.Remove)
}

func TestCorrectRefuses(t *testing.T) {
	good := mix.Mixed{Present: salty(t, 36, 25).OfVolume(20), Target: units.Practical(35), Salt: dry, WaterTemperature: units.Celsius(20)}
	for name, spoil := range map[string]func(*mix.Mixed){
		"nothing there":   func(m *mix.Mixed) { m.Present = seawater.Portion{} },
		"target zero":     func(m *mix.Mixed) { m.Target = units.Practical(0) },
		"target too high": func(m *mix.Mixed) { m.Target = units.Practical(50) },
		"no salt":         func(m *mix.Mixed) { m.Salt = mix.Salt{} },
		"no water given":  func(m *mix.Mixed) { m.WaterTemperature = units.Temperature{} },
		"bad scoop":       func(m *mix.Mixed) { m.Scoop.Volume, m.Scoop.Mass = 1, 1 },
		"negative vessel": func(m *mix.Mixed) { m.Most = -1 },
		"water too hot":   func(m *mix.Mixed) { m.WaterTemperature = units.Celsius(90) },
	} {
		m := good
		spoil(&m)
		_, err := mix.Correct(m)
		assert.Error(t, err, name)
	}
}

// 20 kg of pure water by 5 K with 300 W: m c dT / P with c = 4.18 kJ/(kg K)
// (CRC Handbook, heat capacity of water at 20..25 °C: 4.182 and 4.180).
func TestHeatWithoutLoss(t *testing.T) {
	h := mix.Heating{Water: water(t, 20).OfMass(20 * units.Kilogram), To: units.Celsius(25), Heater: 300 * units.Watt}
	p, err := mix.Heat(h)
	require.NoError(t, err)
	assert.InEpsilon(t, 20*4181*5, p.Energy.Joules(), 0.001)
	assert.InEpsilon(t, 20*4181*5/300., p.Time.Seconds(), 0.001)
	assert.Zero(t, p.Hold)

	h.To = units.Celsius(20)
	p, err = mix.Heat(h)
	require.NoError(t, err)
	assert.Zero(t, p.Time)
}

// With a loss the answer is that of the differential equation, here integrated
// step by step; a small loss tends to none.
func TestHeatWithLoss(t *testing.T) {
	h := mix.Heating{
		Water: salty(t, 35, 18).OfVolume(40 * units.Litre), To: units.Celsius(25),
		Heater: 200 * units.Watt, Loss: 4 * units.WattPerKelvin, Room: units.Celsius(16),
	}
	p, err := mix.Heat(h)
	require.NoError(t, err)
	capacity := h.Water.Mass.Kilograms() * float64(h.Water.HeatCapacity())
	temperature, seconds := 18.0, 0.0
	for ; temperature < 25; seconds++ {
		temperature += (200 - 4*(temperature-16)) / capacity
	}
	assert.InEpsilon(t, seconds, p.Time.Seconds(), 0.001)
	assert.InDelta(t, 36, p.Hold.Watts(), 1e-12)
	assert.InEpsilon(t, 200*p.Time.Seconds(), p.Energy.Joules(), 1e-9)

	h.Loss = 1e-9
	small, err := mix.Heat(h)
	require.NoError(t, err)
	h.Loss = 0
	none, err := mix.Heat(h)
	require.NoError(t, err)
	assert.InEpsilon(t, none.Time.Seconds(), small.Time.Seconds(), 1e-6)
}

func TestHeatRefuses(t *testing.T) {
	good := mix.Heating{Water: water(t, 18).OfVolume(40), To: units.Celsius(25), Heater: 100 * units.Watt, Loss: 5, Room: units.Celsius(20)}
	for name, spoil := range map[string]func(*mix.Heating){
		"no water":        func(h *mix.Heating) { h.Water.Mass = 0 },
		"what water":      func(h *mix.Heating) { h.Water = seawater.Portion{Mass: 1000} },
		"no heater":       func(h *mix.Heating) { h.Heater = 0 },
		"negative loss":   func(h *mix.Heating) { h.Loss = -1 },
		"too hot":         func(h *mix.Heating) { h.To = units.Celsius(101) },
		"never gets warm": func(h *mix.Heating) { h.Loss = 50 },
		"cannot hold it":  func(h *mix.Heating) { h.Loss, h.To, h.Room = 50, units.Celsius(18), units.Celsius(10) },
		"no goal":         func(h *mix.Heating) { h.To = units.Temperature{} },
		"no room":         func(h *mix.Heating) { h.Room = units.Temperature{} },
		"room NaN":        func(h *mix.Heating) { h.Room = units.Celsius(math.NaN()) },
		"feeble heater":   func(h *mix.Heating) { h.Heater, h.Loss = 1e-12, 0 },
	} {
		h := good
		spoil(&h)
		_, err := mix.Heat(h)
		assert.Error(t, err, name)
	}
	h := good
	h.Loss = 50
	_, err := mix.Heat(h)
	assert.EqualError(t, err, "to: got 25 °C, want below 22.0 °C, the most that 100 W reach in this room: take a heater of more than 250 W or insulate")
}

func temper(hot, cold seawater.Sample, want units.Temperature, total units.Volume) (ofHot, ofCold units.Volume, err error) {
	p, err := mix.Temper(mix.Tempering{Hot: hot, Cold: cold, Want: want, Total: total})
	return p.Hot, p.Cold, err
}

func TestTemper(t *testing.T) {
	hot, cold := water(t, 38), water(t, 12)
	a, b, err := temper(hot, cold, units.Celsius(25), 30*units.Litre)
	require.NoError(t, err)
	all := seawater.Blend(hot.OfVolume(a), cold.OfVolume(b))
	assert.InDelta(t, 25, all.Temperature().Celsius(), 1e-9)
	assert.InDelta(t, 30, all.Volume().Litres(), 1e-9)
	// Heat balance with nearly constant heat capacity: the shares by mass are
	// those of the temperatures.
	assert.InDelta(t, 0.5, hot.OfVolume(a).Mass.Grams()/all.Mass.Grams(), 0.001)

	// At the ends nothing of the other is poured.
	a, b, err = temper(hot, cold, units.Celsius(38), 30*units.Litre)
	require.NoError(t, err)
	assert.InDelta(t, 30, a.Litres(), 1e-9)
	assert.InDelta(t, 0, b.Litres(), 1e-9)
	a, b, err = temper(cold, cold, units.Celsius(12), 30*units.Litre)
	require.NoError(t, err)
	assert.InDelta(t, 30, (a + b).Litres(), 1e-9)

	_, _, err = temper(hot, seawater.Sample{}, units.Celsius(25), 30)
	assert.ErrorIs(t, err, units.ErrInput)
	for _, bad := range []struct {
		want  float64
		total units.Volume
	}{{39, 30}, {11, 30}, {25, 0}, {math.NaN(), 30}, {25, units.Volume(math.NaN())}} {
		_, _, err := temper(hot, cold, units.Celsius(bad.want), bad.total)
		assert.Error(t, err)
	}
}

// A target that is a specific gravity in the wrong place gets a caution.
func TestAlmostFreshTarget(t *testing.T) {
	p, err := mix.Plan(mix.Batch{
		Target: units.Practical(1.026), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(20),
		Amount: mix.FinalVolume(20), Salt: dry,
	})
	require.NoError(t, err)
	found := false
	for _, c := range p.Cautions {
		found = found || c.ID == "almost-fresh"
	}
	assert.True(t, found)
}

// Plans go to JSON and the water in them comes back.
func TestPlansAreJSON(t *testing.T) {
	p, err := mix.Plan(mix.Batch{
		Target: units.Practical(35), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(20),
		Amount: mix.FinalVolume(20), Salt: mix.Salt{SeaSalt: units.Share(1)},
	})
	require.NoError(t, err)
	text, err := json.Marshal(p)
	require.NoError(t, err)
	var back mix.BatchPlan
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, p, back)
}

// A mix that is right wants nothing, to the last bit, on every processor. On those
// that fuse x*y + z it wanted -3.7e-14 g of salt.
func TestRightMixIsLeftAlone(t *testing.T) {
	for salinity := 1.0; salinity <= 41; salinity += 0.5 {
		for _, celsius := range []float64{0, 12.3, 25, 31.7} {
			made := salty(t, salinity, celsius)
			byMeter, err := seawater.FromConductivity(made.Conductivity(), units.Celsius(celsius))
			require.NoError(t, err)
			byDensity, err := seawater.FromDensity(made.Density(), units.Celsius(celsius))
			require.NoError(t, err)
			for how, found := range map[string]seawater.Sample{"made": made, "by meter": byMeter, "by density": byDensity} {
				for _, liters := range []units.Volume{0.7, 40, 1234.5} {
					present := found.OfVolume(liters)
					c, err := mix.Correct(mix.Mixed{
						Present: present, Target: units.Practical(salinity), Salt: mix.Salt{SeaSalt: units.Share(0.953)}, Most: liters + 1, WaterTemperature: units.Celsius(18),
					})
					require.NoError(t, err)
					if how == "made" {
						assert.Zero(t, c.AddSalt, "%v at %v °C", salinity, celsius)
						assert.Zero(t, c.AddWater)
						assert.Equal(t, present, c.Mix)
					}
					assert.GreaterOrEqual(t, c.AddSalt.Grams(), 0.0)
					assert.GreaterOrEqual(t, c.AddWater.Litres(), 0.0)
					assert.Less(t, c.AddSalt.Grams(), 1e-6*present.Mass.Grams(), how)
					assert.Zero(t, c.Remove)
				}
			}
		}
	}
}

// A batch that is complete already takes no salt and no water.
func TestCompleteBatch(t *testing.T) {
	for salinity := 1.0; salinity <= 41; salinity += 0.5 {
		b := mix.Batch{
			Target: units.Practical(salinity), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(18),
			Amount: mix.FinalVolume(40), Salt: mix.Salt{SeaSalt: units.Share(0.953)}, Present: salty(t, salinity, 25).OfVolume(40),
		}
		p, err := mix.Plan(b)
		if assert.NoError(t, err, salinity) {
			assert.GreaterOrEqual(t, p.Salt.Grams(), 0.0)
			assert.InDelta(t, 0, p.Salt.Grams(), 1e-9)
			assert.InDelta(t, 0, p.Water.Litres(), 1e-9)
		}
		b.Amount = mix.WaterVolume(0)
		p, err = mix.Plan(b)
		if assert.NoError(t, err, salinity) {
			assert.Zero(t, p.Salt)
		}
	}
}

// Numbers that no answer can be given for are errors, which came back as answers.
func TestAnswersThatAreNone(t *testing.T) {
	present := salty(t, 35, 25).OfVolume(40)
	for _, target := range []float64{1e-310, 5e-324, 1e-300} {
		c, err := mix.Correct(mix.Mixed{Present: present, Target: units.Practical(target), Salt: mix.Salt{SeaSalt: units.Share(0.95)}, WaterTemperature: units.Celsius(18)})
		if err == nil {
			assert.False(t, math.IsInf(c.AddWater.Litres(), 0) || math.IsNaN(c.AddWater.Litres()), target)
			continue
		}
		assert.ErrorIs(t, err, units.ErrInput)
		assert.Zero(t, c)
	}
	_, err := mix.Correct(mix.Mixed{Present: present, Target: units.Practical(1e-310), Salt: mix.Salt{SeaSalt: units.Share(0.95)}, WaterTemperature: units.Celsius(18)})
	assert.EqualError(t, err, "target: got 1e-310 PSS-78, want a salinity that this much can be diluted to")
	for _, total := range []units.Volume{1e308, math.MaxFloat64} {
		hot, cold, err := temper(water(t, 38), water(t, 12), units.Celsius(25), total)
		assert.ErrorContains(t, err, "total: got "+total.String()+", want a volume of ordinary size")
		assert.Zero(t, hot+cold)
	}
	for _, l := range [][3]units.Length{{1e308, 1, 1}, {1, 1e308, 1}, {1, 1, 1e308}, {1e200, 1e200, 1e200}, {1e-200, 1e-200, 1e-200}} {
		for name, made := range map[string]func(a, b, c units.Length) (mix.Vessel, error){"box": mix.Box, "bucket": mix.Bucket} {
			v, err := made(l[0], l[1], l[2])
			if err == nil {
				assert.False(t, math.IsInf(v.Brim().Litres(), 0) || math.IsNaN(v.Brim().Litres()), "%s %v", name, l)
				assert.Positive(t, v.Brim().Litres(), "%s %v", name, l)
				continue
			}
			assert.ErrorContains(t, err, name+": got "+l[0].String()+", ")
			assert.False(t, v.Exists())
		}
	}
	_, err = mix.Bucket(1e308, 1, 1)
	assert.EqualError(t, err, "bucket: got 1e+308 mm, 1 mm, 1 mm, want measures of a vessel")
}

// Salt alone brings up a mix that is too weak, so nobody asks for the temperature of water; one
// that is too salt needs it.
func TestCorrectAsksForWaterOnlyToThin(t *testing.T) {
	m := mix.Mixed{Present: salty(t, 33, 25).OfVolume(20), Target: units.Practical(35), Salt: dry}
	without, err := mix.Correct(m)
	require.NoError(t, err)
	assert.Greater(t, without.AddSalt, units.Mass(0))
	m.WaterTemperature = units.Celsius(20)
	with, err := mix.Correct(m)
	require.NoError(t, err)
	assert.Equal(t, with, without)
	m.WaterTemperature = units.Celsius(-30)
	_, err = mix.Correct(m)
	assert.ErrorContains(t, err, "waterTemperature")
	m.WaterTemperature, m.Present = units.Temperature{}, salty(t, 36, 25).OfVolume(20)
	_, err = mix.Correct(m)
	assert.EqualError(t, err, "waterTemperature: got nothing, want a temperature")
	m.Target = m.Present.Practical()
	right, err := mix.Correct(m)
	require.NoError(t, err)
	assert.Zero(t, right.AddSalt)
	assert.Zero(t, right.AddWater)
}
