package mix_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/units"
)

// exactly compares whatever is unexported too, and tells a temperature that nobody
// set from 0 °C.
var exactly = cmp.Options{
	cmp.Comparer(func(a, b units.Temperature) bool { return a == b && a.IsSet() == b.IsSet() }),
	cmp.AllowUnexported(units.Fraction{}, mix.Amount{}, mix.Vessel{}, seawater.Sample{}, ions.Composition{}, units.PracticalSalinity{}, units.AbsoluteSalinity{}),
}

func vessels(t *testing.T) map[string]mix.Vessel {
	sound := func(v mix.Vessel, err error) mix.Vessel {
		require.NoError(t, err)
		return v
	}
	return map[string]mix.Vessel{
		"":                              {},
		"box: 500 mm, 400 mm, 300.5 mm": sound(mix.Box(500, 400, 300.5)),
		"bucket: 260 mm, 300 mm, 360 mm; safe fill 330 mm":      sound(sound(mix.Bucket(260, 300, 360)).SafeFillTo(330)),
		"bucket: 457.2 mm, 457.2 mm, 500 mm":                    sound(mix.Cylinder(18*units.Inch, 500)),
		"marks: 200 mm = 22 L, 500 mm = 60 L; safe fill 450 mm": sound(sound(mix.Marked(mix.Mark{Height: 200, Volume: 22}, mix.Mark{Height: 500, Volume: 60})).SafeFillTo(450)),
	}
}

// A batch comes back from JSON as it went: what was set, and what was not. Amount
// and vessel went as {}, and an unset temperature came back as ice water.
func TestBatchAsJSON(t *testing.T) {
	for text, v := range vessels(t) {
		for _, b := range []mix.Batch{
			{Vessel: v},
			{
				Target: units.Practical(35), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(0),
				Amount: mix.FinalVolume(40), Vessel: v, Present: water(t, 20).OfVolume(3),
				Scoop: mix.Scoop{Name: "big", Volume: 0.25},
				Salt: mix.Salt{
					Name: "some", BulkDensity: 1200, Package: 20000, Price: units.Money{Amount: 50, Currency: "EUR"},
					Label: mix.Label{PerLitreOfMix: 38200, Gives: units.Practical(35), At: units.Celsius(25)}, Ions: ions.Reference(units.Practical(35)),
				},
			},
			{Amount: mix.WaterVolume(5 * units.USGallon), Vessel: v},
			{Amount: mix.FinalLevel(36 * units.Centimetre), Vessel: v},
			{Amount: mix.WaterLevel(1. / 3), Vessel: v},
		} {
			out, err := json.Marshal(b)
			require.NoError(t, err)
			var back mix.Batch
			require.NoError(t, json.Unmarshal(out, &back), string(out))
			assert.Empty(t, cmp.Diff(b, back, exactly), string(out))
			assert.Equal(t, text, back.Vessel.String())
		}
	}
	// A plan that can be made is the same plan after the trip.
	pail, err := mix.Bucket(260, 300, 400)
	require.NoError(t, err)
	b := mix.Batch{
		Target: units.Practical(35), Temperature: units.Celsius(25), WaterTemperature: units.Celsius(0),
		Amount: mix.WaterLevel(300), Vessel: pail, Salt: mix.Salt{SeaSalt: units.Share(0.95)}, Scoop: mix.Scoop{Mass: 200}, Present: water(t, 20).OfVolume(3),
	}
	want, err := mix.Plan(b)
	require.NoError(t, err)
	out, err := json.Marshal(b)
	require.NoError(t, err)
	var back mix.Batch
	require.NoError(t, json.Unmarshal(out, &back))
	got, err := mix.Plan(back)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	// What cannot be written is an error.
	for name, bad := range map[string]any{
		"amount": mix.FinalVolume(units.Volume(math.NaN())), "level": mix.WaterLevel(units.Length(math.Inf(1))),
		"present": mix.Batch{Present: seawater.Sample{}.OfMass(3)},
	} {
		_, err := json.Marshal(bad)
		assert.ErrorIs(t, err, units.ErrInput, name)
	}
	// What is unknown is written as null.
	out, err = json.Marshal(mix.Salt{SeaSalt: units.Share(math.NaN())})
	require.NoError(t, err)
	assert.Contains(t, string(out), `"SeaSalt":null`)
}

func TestAmountAsText(t *testing.T) {
	for text, want := range map[string]mix.Amount{
		"": {}, "40 L of mix": mix.FinalVolume(40), "12 US gal of mix": mix.FinalVolume(12 * units.USGallon), "38 L of water": mix.WaterVolume(38),
		"mix up to 45 cm": mix.FinalLevel(450), "water up to 400 mm": mix.WaterLevel(400), "0 L of mix": mix.FinalVolume(0),
	} {
		got, err := units.Parse[mix.Amount](text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
		again, err := units.Parse[mix.Amount](got.String())
		require.NoError(t, err, text)
		assert.Equal(t, want, again, text)
	}
	for text, want := range map[string]string{
		"40 L":             `amount: got "40 L", want an amount such as "40 L of mix", "mix up to 45 cm", "38 L of water" or "water up to 40 cm"`,
		"40 gal of mix":    `amount.volume: got "40 gal", want "US gal" (3.785 L) or "imp gal" (4.546 L)`,
		"mix up to 45":     `amount.length: got "45", want a length such as "40 cm" or "16 in"`,
		"water up to 45 L": `amount.length: got "45 L", want a length such as "40 cm" or "16 in"`,
		"x of water":       `amount.volume: got "x", want a volume such as "20 L" or "5 US gal"`,
		" ":                `amount: got " ", want an amount`,
	} {
		got, err := units.Parse[mix.Amount](text)
		assert.ErrorIs(t, err, units.ErrInput, text)
		assert.ErrorContains(t, err, want)
		assert.Equal(t, mix.Amount{}, got)
	}
}

func TestVesselAsText(t *testing.T) {
	for text, want := range vessels(t) {
		got, err := units.Parse[mix.Vessel](text)
		require.NoError(t, err, text)
		assert.Empty(t, cmp.Diff(want, got, exactly))
		assert.Equal(t, text, got.String())
	}
	can, err := units.Parse[mix.Vessel]("cylinder: 18 in, 50 cm")
	require.NoError(t, err)
	assert.Equal(t, "bucket: 457.2 mm, 457.2 mm, 500 mm", can.String())
	for text, want := range map[string]string{
		"barrel: 5 cm, 5 cm":                    `vessel: got "barrel: 5 cm, 5 cm", want a vessel such as`,
		"box: 5 cm, 5 cm":                       `vessel: got "box: 5 cm, 5 cm", want a vessel such as`,
		"box: 5 cm, 5 cm, 5":                    `vessel.box.length: got " 5", want a length such as "40 cm" or "16 in"`,
		"box: 5 cm, 0 cm, 5 cm":                 `box: got 0 mm, want a number above zero`,
		"marks: 5 cm = 2 L, 4 cm = 3 L":         `vessel.marks: got 40 mm at 3 L, want marks above 50 mm and 2 L`,
		"marks: 5 cm":                           `vessel.marks.volume: got "", want a volume`,
		"marks: 5 = 2 L":                        `vessel.marks.length: got " 5 ", want a length`,
		"box: 5 cm, 5 cm, 5 cm; safe fill 6 cm": `vessel.safeFill: got 60 mm, want above zero and no higher than the brim at 50 mm`,
		"box: 5 cm, 5 cm, 5 cm; safe fill high": `vessel.safeFill.length: got "high", want a length`,
	} {
		got, err := units.Parse[mix.Vessel](text)
		assert.ErrorIs(t, err, units.ErrInput, text)
		assert.ErrorContains(t, err, want)
		assert.False(t, got.Exists(), text)
	}
}

func FuzzText(f *testing.F) {
	for _, text := range []string{"40 L of mix", "water up to 3 in", "box: 5 cm, 4 cm, 3 cm; safe fill 2 cm", "bucket: 5 cm, 4 cm, 3 cm", "marks: 5 cm = 2 L, 6 cm = 3 L"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if a, err := units.Parse[mix.Amount](text); err == nil {
			again, err := units.Parse[mix.Amount](a.String())
			require.NoError(t, err)
			require.Equal(t, a, again)
		} else {
			require.ErrorIs(t, err, units.ErrInput)
			require.Equal(t, mix.Amount{}, a)
		}
		if v, err := units.Parse[mix.Vessel](text); err == nil {
			again, err := units.Parse[mix.Vessel](v.String())
			require.NoError(t, err)
			require.Empty(t, cmp.Diff(v, again, exactly))
			require.Equal(t, text != "", v.Exists())
		} else {
			require.ErrorIs(t, err, units.ErrInput)
			require.False(t, v.Exists())
		}
	})
}
