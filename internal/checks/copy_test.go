package checks_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each example, copied out into a module of its own that requires this one, builds: it
// stands on public packages alone.
func TestExamplesCanBeCopied(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds all examples")
	}
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("no go command here")
	}
	home, err := filepath.Abs(root)
	require.NoError(t, err)
	dir := t.TempDir()
	entries, err := os.ReadDir(filepath.Join(root, "examples"))
	require.NoError(t, err)
	copied := 0
	for _, e := range entries {
		if !e.IsDir() {
			continue
		}
		copied++
		require.NoError(t, os.CopyFS(filepath.Join(dir, e.Name()), os.DirFS(filepath.Join(root, "examples", e.Name()))))
	}
	assert.Greater(t, copied, 5)
	require.NoError(t, filepath.WalkDir(dir, func(path string, _ os.DirEntry, err error) error {
		if strings.HasSuffix(path, "_test.go") {
			return os.Remove(path)
		}
		if strings.HasSuffix(path, ".go") {
			source, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.False(t, strings.Contains(string(source), "wellmixed/internal/"), "%s stands on an internal package", path)
		}
		return err
	}))
	for _, args := range [][]string{
		{"mod", "init", "example.com/desk"},
		{"mod", "edit", "-require=example.org/wellmixed@v0.0.0", "-replace=example.org/wellmixed=" + home},
		{"build", "./..."},
	} {
		cmd := exec.Command("go", args...)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), "GOFLAGS=-mod=mod", "GOOS=", "GOARCH=")
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "go %s: %s", strings.Join(args, " "), out)
	}
}
