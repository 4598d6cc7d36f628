package mix_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix"
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
			Salt: mix.Salt{SeaSalt: units.Fraction(share)},
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

func BenchmarkPlan(b *testing.B) {
	batch := mix.Batch{
		Target: units.Practical(35), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(18),
		Amount: mix.FinalVolume(40), Salt: mix.Salt{SeaSalt: 0.95},
	}
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		if _, err := mix.Plan(batch); err != nil {
			b.Fatal(err)
		}
	}
}
