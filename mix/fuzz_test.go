package mix_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// Any numbers at all give a sound plan or a typed error.
func FuzzPlan(f *testing.F) {
	f.Add(35.0, 25.0, 18.0, 40.0, 0.95, 0.0, uint8(0))
	f.Add(1e-9, -2.0, 40.0, 1e9, 0.5, 5.0, uint8(3))
	f.Add(42.0, 40.0, 0.0, 1e-9, 1.0, 1.0, uint8(2))
	f.Fuzz(func(t *testing.T, target, celsius, waterCelsius, amount, share, present float64, kind uint8) {
		vessel, err := mix.Bucket(300, 350, 500)
		require.NoError(t, err)
		b := mix.Batch{
			Target: units.Practical(target), Temperature: units.Celsius(celsius), WaterTemperature: units.Celsius(waterCelsius),
			Salt: mix.Salt{SeaSalt: units.Share(share)},
		}
		switch kind % 4 {
		case 0:
			b.Amount = mix.FinalVolume(units.Volume(amount))
		case 1:
			b.Amount, b.Vessel = mix.FinalLevel(units.Length(amount)), vessel
		case 2:
			b.Amount = mix.WaterVolume(units.Volume(amount))
		case 3:
			b.Amount, b.Vessel = mix.WaterLevel(units.Length(amount)), vessel
		}
		b.Present = water(t, 20).OfVolume(units.Volume(present))
		p, err := mix.Plan(b)
		if err != nil {
			require.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange), "%T", err)
			return
		}
		require.GreaterOrEqual(t, p.Salt.Grams(), 0.0)
		require.GreaterOrEqual(t, p.Water.Litres(), 0.0)
		require.InEpsilon(t, target, p.Mix.Practical().Value(), 1e-9)
		require.False(t, math.IsNaN(p.Volume.Litres()) || math.IsInf(p.Volume.Litres(), 0))
	})
}

// Height to volume and back, for any vessel that can be made.
func FuzzVessel(f *testing.F) {
	f.Add(260.0, 300.0, 360.0, 0.5)
	f.Add(1e-6, 1e6, 1e3, 0.999999)
	f.Add(400.0, 0.1, 300.0, 1e-9)
	f.Fuzz(func(t *testing.T, bottom, top, height, part float64) {
		v, err := mix.Bucket(units.Length(bottom), units.Length(top), units.Length(height))
		if err != nil || !(part >= 0 && part <= 1) || !(v.Brim() > 1e-9 && v.Brim() < 1e9) {
			return
		}
		volume := v.Brim() * units.Volume(part)
		h, err := v.LevelOf(volume)
		require.NoError(t, err)
		back, err := v.VolumeAt(h)
		require.NoError(t, err)
		require.InDelta(t, float64(volume), float64(back), 1e-6*float64(v.Brim()))
	})
}

// typed checks that an error is one of the library, which names a field and quotes
// no more than a message holds, and that the result beside it is empty.
func typed[T any](t *testing.T, err error, result, empty T) {
	t.Helper()
	require.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange) || errors.Is(err, units.ErrNoConvergence), "%T", err)
	require.Less(t, len(err.Error()), 600)
	require.Equal(t, empty, result)
}

// sound checks that a quantity is a number, finite and not negative.
func sound[Q ~float64](t *testing.T, what string, q Q) {
	t.Helper()
	require.True(t, q >= 0 && float64(q) <= math.MaxFloat64, "%s %v", what, q)
}

// Whatever was measured, the correction takes nothing negative, keeps the masses of
// salt and water, ends at the target and within the vessel, or is a typed error.
func FuzzCorrect(f *testing.F) {
	f.Add(35.8, 25.0, 40.0, 35.0, 0.95, 18.0, 0.0, 0.0)
	f.Add(34.1, 25.0, 40.0, 35.0, 0.95, 18.0, 40.0, 250.0)
	f.Add(35.0, 25.0, 40.0, 35.0, 0.95, 18.0, 39.0, 0.0)
	f.Add(35.0, 25.0, 40.0, 1e-310, 0.95, 18.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, measured, celsius, volume, target, share, waterCelsius, most, scoop float64) {
		present, err := seawater.FromPractical(units.Practical(measured), units.Celsius(celsius))
		if err != nil {
			return
		}
		m := mix.Mixed{
			Present: present.OfVolume(units.Volume(volume)), Target: units.Practical(target), Salt: mix.Salt{SeaSalt: units.Share(share)},
			Scoop: mix.Scoop{Mass: units.Mass(scoop)}, Most: units.Volume(most), WaterTemperature: units.Celsius(waterCelsius),
		}
		c, err := mix.Correct(m)
		if err != nil {
			typed(t, err, c, mix.Correction{})
			return
		}
		sound(t, "remove", c.Remove)
		sound(t, "water", c.AddWater)
		sound(t, "salt", c.AddSalt)
		sound(t, "scoops", c.Scoops)
		sound(t, "volume", c.Volume)
		require.False(t, c.AddWater > 0 && c.AddSalt > 0, "one or the other")
		require.InEpsilon(t, target, c.Mix.Practical().Value(), 1e-9)
		if most > 0 {
			require.LessOrEqual(t, float64(c.Volume), most*(1+1e-9))
		} else {
			require.Zero(t, c.Remove)
		}
		if volume < 1e-200 || target < 1e-200 { // the last digits of such numbers are lost
			return
		}
		// The balance, by masses alone.
		pure, err := seawater.PureWater(m.WaterTemperature)
		require.NoError(t, err)
		kept := m.Present.Mass - present.OfVolume(c.Remove).Mass
		require.InDelta(t, 1, float64(kept+pure.OfVolume(c.AddWater).Mass+c.AddSalt)/float64(c.Mix.Mass), 1e-9*float64(m.Present.Mass/c.Mix.Mass)+1e-9)
		salt := float64(kept)*present.Absolute().GramsPerKilogram()/1000 + float64(c.AddSalt)*share
		require.InDelta(t, 1, salt/float64(c.Mix.Salt()), 1e-9*float64(m.Present.Mass/c.Mix.Mass)+1e-9)
	})
}

// A heater takes a time that is none or more and draws its power all the while; the
// water never passes what the loss allows.
func FuzzHeat(f *testing.F) {
	f.Add(35.0, 18.0, 40.0, 25.0, 300.0, 3.5, 20.0)
	f.Add(0.0, 25.0, 1e9, 18.0, 1e-9, 0.0, 0.0)
	f.Add(35.0, 10.0, 40.0, 25.0, 5.0, 3.5, -70.0)
	f.Fuzz(func(t *testing.T, salinity, celsius, volume, to, heater, loss, room float64) {
		water, err := seawater.FromPractical(units.Practical(salinity), units.Celsius(celsius))
		if err != nil {
			return
		}
		h := mix.Heating{Water: water.OfVolume(units.Volume(volume)), To: units.Celsius(to), Heater: units.Power(heater), Loss: units.ThermalConductance(loss), Room: units.Celsius(room)}
		p, err := mix.Heat(h)
		if err != nil {
			typed(t, err, p, mix.HeatPlan{})
			return
		}
		require.GreaterOrEqual(t, p.Time, time.Duration(0))
		sound(t, "energy", p.Energy)
		sound(t, "hold", p.Hold)
		require.Less(t, float64(p.Hold), heater, "the heater can hold what it reaches")
		require.InDelta(t, heater*p.Time.Seconds(), p.Energy.Joules(), 1e-9*p.Energy.Joules()+heater*1e-9+1e-300)
		if to <= celsius {
			require.Zero(t, p.Time)
		}
		// With more power it takes no longer.
		h.Heater *= 2
		stronger, err := mix.Heat(h)
		if err == nil {
			require.LessOrEqual(t, stronger.Time, p.Time+time.Microsecond+p.Time/1e9)
		}
	})
}

// Hot and cold make the temperature and the volume asked for, or an error.
func FuzzTemper(f *testing.F) {
	f.Add(0.0, 38.0, 35.0, 12.0, 25.0, 40.0)
	f.Add(35.0, 25.0, 35.0, 25.0, 25.0, 40.0)
	f.Add(0.0, 38.0, 0.0, 12.0, 12.0, 1e308)
	f.Add(0.0, 95.0, 35.0, 12.0, 45.0, 10.0)
	f.Add(0.0, 12.0, 0.0, 12.0, 12.0, 1e308)
	f.Fuzz(func(t *testing.T, saltHot, celsiusHot, saltCold, celsiusCold, want, total float64) {
		hot, err1 := seawater.HotWater(units.Absolute(saltHot), units.Celsius(celsiusHot))
		cold, err2 := seawater.FromPractical(units.Practical(saltCold), units.Celsius(celsiusCold))
		if err1 != nil || err2 != nil {
			return
		}
		p, err := mix.Temper(mix.Tempering{Hot: hot, Cold: cold, Want: units.Celsius(want), Total: units.Volume(total)})
		a, b := p.Hot, p.Cold
		if err != nil {
			typed(t, err, p, mix.TemperPlan{})
			return
		}
		sound(t, "hot", a)
		sound(t, "cold", b)
		if total < 1e-200 || total > 1e300 {
			return
		}
		all := seawater.Blend(hot.OfVolume(a), cold.OfVolume(b))
		require.InDelta(t, want, all.Temperature().Celsius(), 1e-9)
		require.InEpsilon(t, total, all.Volume().Litres(), 1e-9)
	})
}

// What is doubted makes a width that is a number and not negative, and no doubt none.
func FuzzEstimates(f *testing.F) {
	f.Add(35.0, 25.0, 18.0, 40.0, 0.95, 0.003, 0.01, 0.01, 0.5)
	f.Add(42.0, 40.0, 18.0, 40.0, 0.95, 0.5, 0.9, 0.01, 5.0)
	f.Add(35.0, 25.0, 18.0, 1e300, 0.95, 1e308, 0.0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, target, celsius, waterCelsius, volume, share, salt, water, seaSalt, temperature float64) {
		b := mix.Batch{
			Target: units.Practical(target), Temperature: units.Celsius(celsius), WaterTemperature: units.Celsius(waterCelsius),
			Amount: mix.FinalVolume(units.Volume(volume)), Salt: mix.Salt{SeaSalt: units.Share(share)},
		}
		d := mix.Doubts{Salt: units.Share(salt), Water: units.Share(water), SeaSalt: units.Share(seaSalt), Temperature: units.TemperatureDifference(temperature)}
		list, err := b.Estimates(d)
		if err != nil {
			typed(t, err, list, nil)
			return
		}
		require.Len(t, list, 3)
		p, err := mix.Plan(b)
		require.NoError(t, err)
		require.InEpsilon(t, target, float64(list[0].Value), 1e-9)
		require.InEpsilon(t, p.Volume.Litres(), float64(list[2].Value), 1e-9)
		for _, e := range list {
			sound(t, e.Name, float64(e.Uncertainty))
			require.Equal(t, e.Uncertainty > 0, e.Mostly != "", e.Name)
			if d == (mix.Doubts{}) {
				require.Zero(t, float64(e.Uncertainty))
			}
		}
	})
}

// What an instrument shows of what is dissolved means what is dissolved, for any salt
// that is near to that of the sea.
func FuzzMeans(f *testing.F) {
	f.Add(uint8(1), 35.0, 25.0, 30.0, -20.0)
	f.Add(uint8(201), 35.0, 25.0, 0.0, 0.0)
	f.Add(uint8(2), 5.0, 5.0, 100.0, 0.0)
	f.Fuzz(func(t *testing.T, property uint8, shown, celsius, calcium, sodium float64) {
		c := ions.Reference(units.Practical(35))
		// In equivalents of sodium and calcium with chloride, so that the charges stay even.
		c = c.Add(ions.Calcium, units.AmountPerKilogram(1000*calcium)).Add(ions.Sodium, units.AmountPerKilogram(1000*sodium)).
			Add(ions.Chloride, units.AmountPerKilogram(1000*(2*calcium+sodium)))
		s := mix.Salt{Ions: c}
		by, temperature := ions.Property(property), units.Celsius(celsius)
		x, err := s.Means(by, units.Practical(shown), temperature)
		if err != nil {
			typed(t, err, math.IsNaN(x.GramsPerKilogram()), true)
			return
		}
		require.LessOrEqual(t, by, ions.Index)
		sound(t, "dissolved", x.GramsPerKilogram())
		y, err := s.Shows(by, x, temperature)
		require.NoError(t, err)
		require.InDelta(t, shown, y.Value(), 1e-6)
	})
}

func BenchmarkPlan(b *testing.B) {
	batch := mix.Batch{
		Target: units.Practical(35), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(18),
		Amount: mix.FinalVolume(40), Salt: mix.Salt{SeaSalt: units.Share(0.95)},
	}
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		if _, err := mix.Plan(batch); err != nil {
			b.Fatal(err)
		}
	}
}

// Ice cools a water to what was asked for and mass, salt and heat add up; or an error.
func FuzzChill(f *testing.F) {
	f.Add(35.0, 29.0, 200.0, 27.0, -18.0, false, 0.0)
	f.Add(0.0, 95.0, 1.0, 0.1, 0.0, true, 0.05)
	f.Add(120.0, 20.0, 1e300, -1.9, -200.0, false, 0.0)
	f.Fuzz(func(t *testing.T, salinity, celsius, volume, to, ice float64, bag bool, out float64) {
		water, err := seawater.HotWater(units.Absolute(salinity), units.Celsius(celsius))
		if err != nil {
			return
		}
		c := mix.Chilling{
			Water: water.OfVolume(units.Volume(volume)), To: units.Celsius(to), Ice: units.Celsius(ice), Bag: bag, TakenOut: units.Celsius(out),
		}
		p, err := mix.Chill(c)
		if err != nil {
			typed(t, err, p, mix.ChillPlan{})
			return
		}
		sound(t, "ice", p.Ice)
		sound(t, "volume", p.Volume)
		sound(t, "volume of ice", p.IceVolume)
		require.InDelta(t, to, p.Mix.Temperature().Celsius(), 0)
		if !bag && p.Ice > 0 && volume > 1e-200 {
			melted, err := seawater.Melt(c.Water, p.Ice, c.Ice)
			if err == nil { // at the freezing point the last bit decides
				require.InDelta(t, to, melted.Temperature().Celsius(), 1e-8)
				require.InEpsilon(t, float64(p.Mix.Mass), float64(melted.Mass), 1e-12)
			}
		}
	})
}

// A water drifts towards where it ends and never past it, and the time to a temperature and the temperature after that time
// agree; or an error.
func FuzzDrift(f *testing.F) {
	f.Add(35.0, 26.0, 300.0, 17.0, 9.0, 20.0, 0.05, 22.0)
	f.Add(35.0, 26.0, 300.0, 17.0, 0.0, 20.0, 0.0, 28.0)
	f.Add(0.0, 26.0, 1e-300, 17.0, 1e-300, 0.0, 0.0, 22.0)
	f.Fuzz(func(t *testing.T, salinity, celsius, volume, room, loss, power, evaporation, to float64) {
		water, err := seawater.FromAbsolute(units.Absolute(salinity), units.Celsius(celsius))
		if err != nil {
			return
		}
		d := mix.Drifting{
			Water: water.OfVolume(units.Volume(volume)), Room: units.Celsius(room), Loss: units.ThermalConductance(loss),
			Power: units.Power(power), Evaporation: units.Flow(evaporation), To: units.Celsius(to),
		}
		p, err := mix.Drift(d)
		if err != nil {
			typed(t, err, p, mix.DriftPlan{})
			return
		}
		require.GreaterOrEqual(t, p.Time, time.Duration(0))
		require.False(t, math.IsNaN(p.Ends.Celsius()))
		if p.Time < time.Second {
			return
		}
		d.After = p.Time
		back, err := mix.Drift(d)
		require.NoError(t, err)
		require.InDelta(t, to, back.Temperature.Celsius(), 1e-6*(1+math.Abs(to-celsius)))
	})
}

// What freezes and what is left are the batch; or an error.
func FuzzFreeze(f *testing.F) {
	f.Add(35.0, 5.0, 100.0, -5.0)
	f.Add(0.0, 5.0, 1e300, -60.0)
	f.Add(120.0, 5.0, 1.0, -7.6686)
	f.Fuzz(func(t *testing.T, salinity, celsius, volume, coldest float64) {
		water, err := seawater.FromAbsolute(units.Absolute(salinity), units.Celsius(celsius))
		if err != nil {
			return
		}
		z := mix.Freezing{Water: water.OfVolume(units.Volume(volume)), Coldest: units.Celsius(coldest)}
		p, err := mix.Freeze(z)
		if err != nil {
			typed(t, err, p, mix.FreezePlan{})
			return
		}
		sound(t, "ice", p.Ice)
		sound(t, "left", p.Left)
		sound(t, "volume", p.Volume)
		require.LessOrEqual(t, p.Salinity.GramsPerKilogram(), 120*(1+1e-9))
		require.InEpsilon(t, float64(z.Water.Mass), float64(p.Ice+p.Left), 1e-12)
	})
}
