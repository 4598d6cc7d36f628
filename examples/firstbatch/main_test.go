package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func Example() {
	main()
	// Output:
	// 1434 g of salt into 37.4 L of water
	// the meter shows 52.1 mS/cm at 25 °C: that is 34.3
	// nitrate after 15 %: 17.0 mg/L
}

// TestMain lets the test program be the example.
func TestMain(m *testing.M) {
	if os.Getenv("BE_FIRSTBATCH") != "" {
		main()
		return
	}
	os.Exit(m.Run())
}

// On a full disk the program fails; it said nothing and exited with 0.
func TestFullDisk(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip("no full disk here")
	}
	defer full.Close()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), "BE_FIRSTBATCH=1")
	if out, err := cmd.Output(); err != nil || !strings.Contains(string(out), "g of salt") {
		t.Skip("this program cannot start itself here: ", err)
	}
	cmd = exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), "BE_FIRSTBATCH=1")
	cmd.Stdout = full
	var exit *exec.ExitError
	assert.ErrorAs(t, cmd.Run(), &exit)
}

// The program stands in the README as it is here, and works in another module
// that points to a checkout as the README says.
func TestInAnotherModule(t *testing.T) {
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("no go command here")
	}
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	program, err := os.ReadFile("main.go")
	require.NoError(t, err)
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	assert.Contains(t, string(readme), string(program))

	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "main.go"), program, 0o666))
	for _, args := range [][]string{
		{"mod", "init", "example.com/keeper"},
		{"mod", "edit", "-require=example.org/wellmixed@v0.0.0", "-replace=example.org/wellmixed=" + root},
		{"mod", "tidy"},
		{"run", "."},
	} {
		cmd := exec.Command("go", args...)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), "GOFLAGS=-mod=mod", "GOOS=", "GOARCH=")
		out, err := cmd.CombinedOutput()
		require.NoError(t, err, "go %s: %s", strings.Join(args, " "), out)
		if args[0] == "run" {
			assert.Contains(t, string(out), "1434 g of salt")
		}
	}
}
