package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The program under change: what its tests watch, and what they do not.
const program = `package tank

import "errors"

type Litre float64

const most = 500.0

var shares = []Litre{0.25, 0.75}

func Watched(v Litre, lid bool) (Litre, error) {
	if v < 0 || v > most && !lid {
		return 0, errors.New(
			"no tank") // on two lines
	}
	return -shares[0]*v + 2*v - 1, nil
}

func Unwatched(v Litre) (Litre, error) {
	v += 3
	if v < 10 && v > -1 {
		return Watched(v, true)
	}
	return shares[1] * v, errors.New("100%d")
}
`

const programTest = `package tank

import "testing"

func TestWatched(t *testing.T) {
	for _, c := range []struct {
		v, want Litre
		lid, ok bool
	}{{0, -1, false, true}, {500, 874, false, true}, {501, 0, false, false}, {501, 875.75, true, true}, {-1, 0, true, false}, {400, 699, true, true}} {
		got, err := Watched(c.v, c.lid)
		if got != c.want || (err == nil) != c.ok {
			t.Errorf("%v %v: %v %v", c.v, c.lid, got, err)
		}
	}
}
`

// TestRun: of a function whose tests check everything no change survives, of one that
// has none all do, in every kind.
func TestRun(t *testing.T) {
	if testing.Short() {
		t.Skip("needs the go command for the processor it runs on")
	}
	dir := t.TempDir()
	for name, text := range map[string]string{"go.mod": "module tank\n\ngo 1.24\n", "tank.go": program, "tank_test.go": programTest} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	t.Chdir(dir)
	t.Setenv("GOFLAGS", "")
	var out strings.Builder
	survivors, err := run(options{all: true, by: 0.01, kinds: allKinds}, []string{"."}, &out)
	require.NoError(t, err, out.String())
	var left []string
	for line := range strings.Lines(out.String()) {
		if _, what, found := strings.Cut(line, "tank.go:"); found {
			left = append(left, strings.TrimSpace(what))
		}
	}
	assert.Equal(t, []string{
		"9 shares, number: 0.75 -> 0.75749999999999995",
		"20 Unwatched, sign: v += 3 -> v -= 3",
		"20 Unwatched, number: 3 -> 3.0299999999999998",
		"21 Unwatched, boolean: v < 10 && v > -1 -> v < 10 || v > -1",
		"21 Unwatched, bound: v < 10 -> v <= 10",
		"21 Unwatched, comparison: v < 10 -> v >= 10",
		"21 Unwatched, number: 10 -> 10.1",
		"21 Unwatched, bound: v > -1 -> v >= -1",
		"21 Unwatched, comparison: v > -1 -> v <= -1",
		"21 Unwatched, number: -1 -> -1.01",
		"22 Unwatched, return: return Watched(v, true) -> return Watched(v, true), its error nil",
		"24 Unwatched, return: return shares[1] * v, errors.New(\"100%d\") -> return shares[1] * v, nil",
		"24 Unwatched, sign: shares[1] * v -> shares[1] / v",
	}, left)
	assert.Len(t, left, survivors)
	assert.Contains(t, out.String(), "number: 8 changes, 4 not noticed")
}

// A sample is one of each kind in a place, and the same each time.
func TestSample(t *testing.T) {
	all := []change{{kind: "sign", place: "a", line: 1}, {kind: "sign", place: "a", line: 2}, {kind: "number", place: "a"}, {kind: "sign", place: "b"}}
	some := sample(all)
	require.Len(t, some, 3)
	assert.Equal(t, some, sample(all))
}

// A whole constant is changed by as much as was asked for: that of 48 is watched to 10
// and not to 1, so a hundredth passes and tenfold does not.
func TestWholeConstantsTenfold(t *testing.T) {
	if testing.Short() {
		t.Skip("needs the go command for the processor it runs on")
	}
	dir := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":       "module drip\n\ngo 1.24\n",
		"drip.go":      "package drip\n\nconst slowest = 48\n\nfunc Slow(h int) bool { return h > slowest }\n",
		"drip_test.go": "package drip\n\nimport \"testing\"\n\nfunc TestSlow(t *testing.T) {\n\tif Slow(40) || !Slow(58) {\n\t\tt.Fail()\n\t}\n}\n",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	t.Chdir(dir)
	t.Setenv("GOFLAGS", "")
	for by, left := range map[float64]int{0.01: 1, 9: 0} {
		var out strings.Builder
		survivors, err := run(options{all: true, by: by, kinds: []string{"number"}}, []string{"."}, &out)
		require.NoError(t, err, out.String())
		assert.Equal(t, left, survivors, out.String())
	}
}
