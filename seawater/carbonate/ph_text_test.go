package carbonate

import (
	"encoding"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/units"
)

func TestPHText(t *testing.T) {
	type both interface {
		encoding.TextUnmarshaler
		Value() float64
	}
	for _, r := range []struct {
		text string
		into both
	}{
		{"8.1 total", new(TotalPH)}, {" 8.1  (total scale)", new(TotalPH)}, {"8.1 Total scale", new(TotalPH)},
		{"8.1 free", new(FreePH)}, {"8.1 seawater", new(SeawaterPH)}, {"8.1 NBS", new(NBSPH)}, {"8.1 NIST", new(NBSPH)}, {"8.1 nbs", new(NBSPH)},
	} {
		require.NoError(t, r.into.UnmarshalText([]byte(r.text)), r.text)
		assert.Equal(t, 8.1, r.into.Value(), r.text)
	}
	for _, bad := range []string{" ", "8.1", "8.1 NBS", "8.1 free", "pH 8.1 total", "81 total", "NaN total", "8,1 total"} {
		p := PHTotal(8)
		assert.ErrorIs(t, p.UnmarshalText([]byte(bad)), units.ErrInput, bad)
		assert.True(t, math.IsNaN(p.Value()), bad)
	}
	_, err := PHTotal(math.Inf(1)).MarshalText()
	assert.ErrorIs(t, err, units.ErrInput)
	// One that nobody set is written as nothing and read as that; acid of pH 0 is a pH.
	for _, p := range []TotalPH{{}, PHTotal(math.NaN())} {
		text, err := p.MarshalText()
		assert.NoError(t, err)
		assert.Empty(t, text)
		assert.NoError(t, p.UnmarshalText(text))
		assert.Equal(t, TotalPH{}, p)
	}
	zero, err := PHTotal(0).MarshalText()
	assert.NoError(t, err)
	assert.Equal(t, "0 total", string(zero))
	for _, p := range []encoding.TextMarshaler{PHTotal(8.123456789), PHFree(8.123456789), PHSeawater(8.123456789), PHNBS(8.123456789)} {
		text, err := p.MarshalText()
		require.NoError(t, err)
		assert.Contains(t, string(text), "8.123456789 ")
	}
}

func FuzzPHText(f *testing.F) {
	f.Add("8.1 total")
	f.Fuzz(func(t *testing.T, text string) {
		var p TotalPH
		if p.UnmarshalText([]byte(text)) != nil {
			return
		}
		b, err := p.MarshalText()
		require.NoError(t, err)
		q, err := units.Parse[TotalPH](string(b))
		require.NoError(t, err)
		require.Equal(t, p, q)
	})
}
