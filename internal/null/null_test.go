package null_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/null"
)

type text string

func (t text) MarshalText() ([]byte, error)      { return []byte(t), nil }
func (t text) MarshalJSON() ([]byte, error)      { return null.Write(t) }
func (t *text) UnmarshalText(b []byte) error     { *t = text(b); return nil }
func (t *text) UnmarshalJSON(token []byte) error { return null.Read(token, t) }

// What is written is JSON by encoding/json, and comes back.
func TestThereAndBack(t *testing.T) {
	for _, want := range []text{"", "25 °C", `a "b" \ c/d`, "tab\tline\n\x01\x7f", "½ µ\u00a0 <&>", "\u2028"} {
		out, err := json.Marshal(want)
		require.NoError(t, err)
		assert.True(t, json.Valid(out), string(out))
		assert.Equal(t, want == "", string(out) == "null")
		got := text("something")
		require.NoError(t, json.Unmarshal(out, &got), string(out))
		assert.Equal(t, want, got)
		if want != "" { // as other writers do
			var plain string
			require.NoError(t, json.Unmarshal(out, &plain))
			assert.Equal(t, string(want), plain)
			out, err = json.Marshal(plain)
			require.NoError(t, err)
			require.NoError(t, json.Unmarshal(out, &got))
			assert.Equal(t, want, got)
		}
	}
	var got text
	require.NoError(t, json.Unmarshal([]byte(`"2 m\/s"`), &got))
	assert.Equal(t, text("2 m/s"), got)
	require.NoError(t, json.Unmarshal([]byte(`35`), &got))
	assert.Equal(t, text("35"), got, "a bare number is left to the kind to refuse")
}
