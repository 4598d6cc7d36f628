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

// Every command takes the file of every other, ignores what it does not need, and answers
// on one screen; and so with a home that says little, and with one that says all.
func TestOneFileForAllCommands(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds all commands")
	}
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("no go command here")
	}
	dir := t.TempDir()
	commands := []string{"waterchange", "forecast", "replenish", "meters", "recipe", "labreport"}
	for _, c := range commands {
		out, err := exec.Command("go", "build", "-o", dir+string(filepath.Separator), root+"/examples/"+c).CombinedOutput()
		require.NoError(t, err, "%s", out)
	}
	files := map[string]string{
		"least": `{"tank": {"volume": "40 L"}, "mix": {"target": "35 ppt"}, "salt": {"per_litre_of_water": "39 g/L"}}`,
		"US": `{"tank": {"volume": "80 US gal", "temperature": "78 °F", "salinity": "1.025 SG", "nitrate": "20 mg/L"},
			"mix": {"target": "1.026 SG"}, "salt": {"package": "44 lb", "package_makes": "135 US gal"}, "change": {"swap": "15 %"}}`,
		"too salty": `{"tank": {"volume": "200 L", "salinity": "39 ppt"}, "mix": {"target": "33 ppt"}, "salt": {"sea_salt": "93 %"}}`,
	}
	full, err := exec.Command(filepath.Join(dir, commands[0]), "-example-full").Output()
	require.NoError(t, err)
	files["full"] = string(full)
	for _, c := range commands {
		text, err := exec.Command(filepath.Join(dir, c), "-example").Output()
		require.NoError(t, err)
		files[c] = string(text)
	}
	for name, text := range files {
		path := filepath.Join(dir, "home.json")
		require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
		for _, c := range commands {
			switch {
			case c == "waterchange" && !strings.Contains(text, `"salt"`):
				continue // without a salt there is nothing to mix
			case (c == "forecast" || c == "replenish") && !strings.Contains(text, `"tank": {"volume"`) &&
				!strings.Contains(text, "\n    \"volume\""):
				continue // of no tank nothing can be foretold
			}
			cmd := exec.Command(filepath.Join(dir, c), "-file", path, "-short")
			var complaint strings.Builder
			cmd.Stderr = &complaint
			out, err := cmd.Output()
			assert.NoError(t, err, "%s with the file of %s: %s", c, name, complaint.String())
			assert.LessOrEqual(t, strings.Count(string(out), "\n"), 24, "%s with the file of %s:\n%s", c, name, out)
		}
	}
}
