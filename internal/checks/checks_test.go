package checks

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLastDigit(t *testing.T) {
	for text, want := range map[string]float64{
		"12.50": 0.01, "7": 1, "-0.650": 0.001, "3.25e-5": 1e-7, "1E3": 1000, "1059.82037": 1e-5,
	} {
		assert.InEpsilon(t, want, LastDigit(text), 1e-12, text)
	}
}

func TestTable(t *testing.T) {
	path := filepath.Join(t.TempDir(), "table.csv")
	require.NoError(t, os.WriteFile(path, []byte("# a comment\nname,in,value\nx,a=1;b=-2.5,3\n"), 0o600))
	rows := Table(t, path)
	require.Len(t, rows, 1)
	assert.Equal(t, "x", rows[0]["name"])
	assert.Equal(t, 3.0, rows[0].Float(t, "value"))
	assert.Equal(t, map[string]float64{"a": 1, "b": -2.5}, rows[0].Inputs(t, "in"))
}
