package teos10

import (
	"encoding/json"
	"testing"

	"example.org/wellmixed/units"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOldScalesText(t *testing.T) {
	type station struct {
		Cl Chlorinity
		Cv Chlorosity
		Sk KnudsenSalinity
	}
	in := station{Cl(19.374), ClPerLitre(19.85), Knudsen(35.13)}
	text, err := json.Marshal(in)
	require.NoError(t, err)
	assert.JSONEq(t, `{"Cl": "19.374 g/kg Cl", "Cv": "19.85 g/L Cl", "Sk": "35.13 ‰ Knudsen"}`, string(text))
	var back station
	require.NoError(t, json.Unmarshal(text, &back))
	assert.Equal(t, in, back)
	assert.Equal(t, "19.374 g/kg Cl 19.85 g/L Cl 35.13 ‰ Knudsen", in.Cl.String()+" "+in.Cv.String()+" "+in.Sk.String())

	old, err := units.Parse[Chlorinity]("  19.374 ‰ Cl ")
	require.NoError(t, err)
	assert.Equal(t, Cl(19.374), old)
	lower, err := units.Parse[Chlorosity]("19.85  g/l cl")
	require.NoError(t, err)
	assert.Equal(t, ClPerLitre(19.85), lower)

	for _, bad := range []string{"", "19", "19.374", "19.374 g/kg", "-1 g/kg Cl", "NaN g/kg Cl", "Inf g/kg Cl", "x g/kg Cl", "19 g/L Cl", "35 ‰ Knudsen", "35 ‰", "1e999 g/kg Cl"} {
		cl, err := units.Parse[Chlorinity](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.True(t, isNaN(cl.GramsPerKilogram()), bad)
	}
	for _, bad := range []string{"", "19.85", "19.85 g/L", "19.85 g/kg Cl", "-1 g/L Cl"} {
		cl, err := units.Parse[Chlorosity](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.True(t, isNaN(cl.GramsPerLitre()), bad)
	}
	for _, bad := range []string{"", "35.13", "35.13 ‰", "35.13 PSS-78", "35.13 ppt", "-1 ‰ Knudsen"} {
		s, err := units.Parse[KnudsenSalinity](bad)
		assert.ErrorIs(t, err, units.ErrInput, bad)
		assert.True(t, isNaN(s.PerMille()), bad)
	}
	for _, x := range []float64{inf, -1} {
		_, err := Cl(x).MarshalText()
		assert.ErrorIs(t, err, units.ErrInput)
		_, err = ClPerLitre(x).MarshalText()
		assert.ErrorIs(t, err, units.ErrInput)
		_, err = Knudsen(x).MarshalText()
		assert.ErrorIs(t, err, units.ErrInput)
	}
}
