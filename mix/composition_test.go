package mix_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// altered is a mix that is not the ocean: less sulfate, more calcium and
// potassium, sodium closing the charges.
func altered() ions.Composition {
	c := ions.Reference(units.Practical(35)).
		Add(ions.Calcium, 1.5*units.MillimolePerKilogram).
		Add(ions.Potassium, 2*units.MillimolePerKilogram).
		Add(ions.Sulfate, -10*units.MillimolePerKilogram)
	return c.Add(ions.Sodium, -(2*1.5+2+2*10)*units.MillimolePerKilogram)
}

// A salt whose laboratory report shows less sulfate than the sea: what must the
// instruments show when 35.165 g/kg are dissolved, and what is dissolved when the
// conductivity meter shows 35?
func ExampleSalt_Means() {
	salt := mix.Salt{Name: "house blend", SeaSalt: units.Percent(95), Ions: altered()}
	warm := units.Celsius(25)
	for _, by := range []ions.Property{ions.Density, ions.Conductivity, ions.Index} {
		shown, err := salt.Shows(by, units.Absolute(35.165), warm)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("by %s it shows %.2f\n", by, shown.Value())
	}
	dissolved, err := salt.Means(ions.Conductivity, units.Practical(35), warm)
	fmt.Printf("a meter at 35 means %.2f g/kg, error %v\n", dissolved.GramsPerKilogram(), err)
	// Output:
	// by density it shows 34.72
	// by conductivity it shows 35.71
	// by refractive index it shows 35.28
	// a meter at 35 means 34.47 g/kg, error <nil>
}

// dissolved is the mass of sea salt in water of a practical salinity.
func dissolved(s float64) units.AbsoluteSalinity {
	return teos10.AbsoluteFromPractical(units.Practical(s))
}

// What a mix of the salt holds is what its composition says, and goes into a change of
// water as it is.
func TestSaltHolds(t *testing.T) {
	sea, err := seawater.FromPractical(units.Practical(35), units.Celsius(25))
	require.NoError(t, err)
	plain, err := mix.Salt{SeaSalt: units.Percent(95)}.Holds(sea.OfVolume(40))
	require.NoError(t, err)
	assert.Equal(t, tested.Water{Portion: sea.OfVolume(40)}, plain)
	w, err := mix.Salt{SeaSalt: units.Percent(95), Ions: altered()}.Holds(sea.OfVolume(40))
	require.NoError(t, err)
	assert.Equal(t, sea.OfVolume(40), w.Portion)
	calcium, known := w.Level(tested.Calcium)
	require.True(t, known)
	// 10.2820 mmol/kg of the reference composition (Millero et al. 2008) and 1.5 more, in as
	// many grams of salt as before, with the atomic weights of IUPAC 2021, in water that
	// weighs near 1023.3 kg/m³ at 25 °C (UNESCO 1983).
	grams := 35.16504 + 0.0015*40.078 + 0.002*39.098 - 0.010*96.06 - 0.025*22.990
	assert.InDelta(t, (10.2820+1.5)*35.16504/grams*1.0233*40.078, calcium.MassPerLitre().MilligramsPerLitre(), 0.5)
	_, err = mix.Salt{Ions: altered().With(ions.Calcium, -1)}.Holds(sea.OfVolume(40))
	assert.ErrorContains(t, err, "salt.ions")
}

func TestSaltOfItsOwnComposition(t *testing.T) {
	warm := units.Celsius(25)
	sea := mix.Salt{SeaSalt: units.Percent(95)}
	same := mix.Salt{SeaSalt: units.Percent(95), Ions: ions.Reference(units.Practical(30))}
	other := mix.Salt{SeaSalt: units.Percent(95), Ions: altered()}
	for _, by := range []ions.Property{ions.Density, ions.Conductivity, ions.Index} {
		for _, s := range []float64{20, 33.3, 38} {
			x, err := sea.Shows(by, dissolved(s), warm)
			require.NoError(t, err)
			assert.Equal(t, s, x.Value())
			// The ocean's composition, given at any strength, is the ocean's. Scaling
			// does not move its acids and bases, which the small difference is.
			x, err = same.Shows(by, dissolved(s), warm)
			require.NoError(t, err)
			assert.InDelta(t, s, x.Value(), 1e-6)
			// There and back.
			x, err = other.Shows(by, dissolved(s), warm)
			require.NoError(t, err)
			back, err := other.Means(by, x, warm)
			require.NoError(t, err)
			assert.InDelta(t, dissolved(s).GramsPerKilogram(), back.GramsPerKilogram(), 1e-8)
		}
	}
	batch := mix.Batch{Target: units.Practical(35), Temperature: warm, WaterTemperature: units.Celsius(18), Amount: mix.FinalVolume(50), Salt: other}
	p, err := mix.Plan(batch)
	require.NoError(t, err)
	c := altered()
	c = c.Scale(35.16504 / c.SolutionSalinity().GramsPerKilogram())
	assert.InEpsilon(t, float64(c.Density(warm)), float64(p.Reads.Density), 1e-12)
	assert.InEpsilon(t, float64(c.Conductivity(warm)), float64(p.Reads.Conductivity), 1e-12)
	assert.Contains(t, p.Assumptions[len(p.Assumptions)-2], "a conductivity meter 35.71")
	batch.Salt = sea
	q, err := mix.Plan(batch)
	require.NoError(t, err)
	assert.Equal(t, q.Salt, p.Salt, "what to weigh is the same")
	assert.Equal(t, 35., q.Reads.Meter.Value())

	for name, bad := range map[string]ions.Composition{
		"no number": altered().With(ions.Calcium, units.AmountPerKilogram(math.NaN())),
		"negative":  altered().With(ions.Calcium, -1),
		"one salt":  ions.Composition{}.Add(ions.Magnesium, 400*units.MillimolePerKilogram).Add(ions.Sulfate, 400*units.MillimolePerKilogram),
	} {
		salt := mix.Salt{SeaSalt: units.Percent(95), Ions: bad}
		batch.Salt = salt
		p, err := mix.Plan(batch)
		assert.Error(t, err, name)
		assert.Zero(t, p, name)
		x, err := salt.Shows(ions.Density, dissolved(35), warm)
		assert.Error(t, err, name)
		assert.True(t, math.IsNaN(x.Value()), name)
		y, err := salt.Means(ions.Density, units.Practical(35), warm)
		assert.Error(t, err, name)
		assert.True(t, math.IsNaN(y.GramsPerKilogram()), name)
	}
	_, err = other.Shows(9, dissolved(35), warm)
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = other.Means(ions.Density, units.Practical(60), warm)
	assert.Error(t, err)
}

// A salt with as much magnesium sulfate as the model bears moves a meter by a fifth
// and a hydrometer by an eighth the other way: far beyond what ordinary mixes do.
func TestSaltFarFromTheSea(t *testing.T) {
	warm := units.Celsius(25)
	bitter := mix.Salt{Ions: ions.Reference(units.Practical(35)).Add(ions.Magnesium, 150*units.MillimolePerKilogram).Add(ions.Sulfate, 150*units.MillimolePerKilogram)}
	for by, off := range map[ions.Property]float64{ions.Conductivity: 1.22, ions.Density: 0.88} {
		for _, s := range []float64{15, 25} {
			shown, err := bitter.Shows(by, dissolved(s), warm)
			require.NoError(t, err)
			assert.InDelta(t, off, s/shown.Value(), 0.03, "%v at %v", by, s)
			back, err := bitter.Means(by, shown, warm)
			require.NoError(t, err, "%v at %v", by, s)
			assert.InDelta(t, dissolved(s).GramsPerKilogram(), back.GramsPerKilogram(), 1e-8)
		}
	}
}

// The sentence about the weight of a litre, against the two densities.
func TestWeightOfALitre(t *testing.T) {
	warm := units.Celsius(25)
	for name, c := range map[string]ions.Composition{
		"more": ions.Reference(units.Practical(35)).Add(ions.Magnesium, 20*units.MillimolePerKilogram).Add(ions.Sulfate, 20*units.MillimolePerKilogram),
		"less": ions.Reference(units.Practical(35)).Add(ions.Sodium, 100*units.MillimolePerKilogram).Add(ions.Chloride, 100*units.MillimolePerKilogram),
	} {
		p, err := mix.Plan(mix.Batch{
			Target: units.Practical(35), Temperature: warm, WaterTemperature: warm, Amount: mix.FinalVolume(50),
			Salt: mix.Salt{SeaSalt: units.Percent(95), Ions: c},
		})
		require.NoError(t, err)
		// Sea water of 35 at 25 °C weighs 1023.343 kg/m³ (UNESCO 1983, EOS-80).
		percent := math.Abs(float64(p.Reads.Density)/1023.343-1) * 100
		said := p.Assumptions[len(p.Assumptions)-1]
		var x float64
		var word string
		_, err = fmt.Sscanf(said[strings.Index(said, "weighs"):], "weighs %f %% %s", &x, &word)
		require.NoError(t, err, said)
		assert.Equal(t, name+".", word)
		assert.InDelta(t, percent, x, 0.002, said)
		assert.Greater(t, x, 0.01)
	}
}

// No composition is needed for a property to be wrong.
func TestPropertyThatIsNone(t *testing.T) {
	sea := mix.Salt{SeaSalt: units.Percent(95)}
	x, err := sea.Shows(201, dissolved(35), units.Celsius(25))
	assert.EqualError(t, err, "property: got 201, want density, conductivity or index")
	assert.True(t, math.IsNaN(x.Value()))
	y, err := sea.Means(201, units.Practical(35), units.Celsius(25))
	assert.EqualError(t, err, "property: got 201, want density, conductivity or index")
	assert.True(t, math.IsNaN(y.GramsPerKilogram()))
}
