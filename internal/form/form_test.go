package form_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/form"
	"example.org/wellmixed/units"
)

func TestForm(t *testing.T) {
	f, err := form.Read([]byte(`{"tank": {"volume": "310 L", "marks": ["1", "2.5"], "every": "2 weeks"}}`))
	require.NoError(t, err)
	assert.Equal(t, 310*units.Litre, form.Get[units.Volume](f, "tank.volume"))
	_, given := form.Optional[units.Mass](f, "tank.salt")
	assert.False(t, given)
	var sum float64
	f.Each("tank.marks", func(entry string) { sum += f.Number(entry) })
	assert.Equal(t, 3.5, sum)
	assert.Equal(t, 14*24*time.Hour, f.Days("tank.every"))
	f.Rest()
	assert.NoError(t, f.Err)
	assert.True(t, f.Has("tank"))
	assert.False(t, f.Has("tan"))

	for text, want := range map[string]string{
		`[]`:                                "the scenario is not a JSON object: ",
		`{"a": {"b": 3}}`:                   `a.b: got 3, want a text in quotes with its unit, such as "20 L"`,
		`{"volume": "3"}`:                   `volume: got "3", want a volume such as "20 L" or "5 US gal"`,
		`{}`:                                `volume: got nothing, want a volume such as "20 L" or "5 US gal"`,
		`{"volume": "3 L", "volum": "3 L"}`: `volum: got "3 L", want no such field: it is misspelt, or does not go with the others`,
	} {
		f, err := form.Read([]byte(text))
		if err == nil {
			form.Get[units.Volume](f, "volume")
			f.Rest()
			err = f.Err
		}
		assert.ErrorContains(t, err, want, text)
	}
	f, err = form.Read([]byte(`{"n": "-1", "d": "soon", "x": "1"}`))
	require.NoError(t, err)
	f.Number("n")
	f.Days("d")
	assert.EqualError(t, f.Err, `n: got "-1", want a number such as "3"`, "the first complaint stays")
	f.Set("x", "2")
	assert.Equal(t, "2", f.Text("x", ""))
	f.Drop("x")
	assert.False(t, f.Has("x"))
}
