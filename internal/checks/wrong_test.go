package checks_test

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is wrong by a bare number does not compile: each of these lines, put into a
// program that is right without them, is refused by the compiler.
func TestWrongByABareNumber(t *testing.T) {
	wrong := []string{
		"dilution.Level(units.DKH(8), 11, half)",                         // 11 what?
		"dilution.Once(15)",                                              // 1500 %
		"dilution.Repeated(15, 3)",                                       // the same
		"dilution.Periodic[units.Alkalinity]{}",                          // alkalinity is no bare number
		"tested.AlkalinityOf(8.2)",                                       // meq/L, dKH or ppm
		"tested.Nitrate.Of(24*units.MilligramPerLitre)",                  // counted as what?
		"mix.Salt{SeaSalt: 95}",                                          // 9500 %
		"mix.Batch{Target: 35}",                                          // which salinity?
		"mix.Batch{Temperature: 25}",                                     // °C, °F or K
		"carbonate.PH(8.1)",                                              // on which scale?
		"pss78.Salinity(53*units.MillisiemensPerCentimetre, 25, 0)",      // °C, °F or K
		"teos10.DensityExact(units.Practical(35), units.Celsius(25), 0)", // practical for absolute
	}
	const right = `package main

import (
	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

func use(...any) {}

func main() {
	half := dilution.Once(units.Percent(50))
	use(half, mix.Salt{SeaSalt: units.Percent(95)}, tested.AlkalinityOf(units.DKH(8.2)), carbonate.PH(carbonate.PHTotal(8.1)))
	use(pss78.Salinity(53*units.MillisiemensPerCentimetre, units.Celsius(25), 0), teos10.DensityExact(units.Absolute(35), units.Celsius(25), 0))
%s}
`
	dir, err := os.MkdirTemp(root, "wrong")
	require.NoError(t, err)
	defer os.RemoveAll(dir)
	build := func(lines ...string) string {
		text := ""
		for _, line := range lines {
			text += "\tuse(" + line + ")\n"
		}
		require.NoError(t, os.WriteFile(filepath.Join(dir, "main.go"), fmt.Appendf(nil, right, text), 0o600))
		out, _ := exec.Command("go", "vet", dir).CombinedOutput()
		if len(lines) == 0 {
			return string(out)
		}
		out, _ = exec.Command("go", "build", "-gcflags=-e", "-o", os.DevNull, dir).CombinedOutput()
		return string(out)
	}
	require.Empty(t, build(), "the program is right without the wrong lines")
	first := strings.Count(right[:strings.Index(right, "%s")], "\n") + 1
	said := build(wrong...)
	for i, line := range wrong {
		assert.Contains(t, said, fmt.Sprintf("main.go:%d:", first+i), "it compiles: %s", line)
	}
}
