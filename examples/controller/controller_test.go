package main

import (
	"bufio"
	"bytes"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

var update = flag.Bool("update", false, "rewrite the expected report")

func TestReport(t *testing.T) {
	in, err := os.ReadFile(filepath.Join("testdata", "samples.txt"))
	require.NoError(t, err)
	l := usual
	l.still = 5
	var out bytes.Buffer
	require.NoError(t, run(bytes.NewReader(in), &out, l))
	path := filepath.Join("testdata", "report.txt")
	if *update {
		require.NoError(t, os.WriteFile(path, out.Bytes(), 0o666))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, cmp.Diff(string(want), out.String()))
}

// steps feeds salinities at a temperature and returns the alarms after each.
func steps(c *controller, celsius float64, salinities ...float64) (all []alarm) {
	for _, s := range salinities {
		cond := pss78.Conductivity(units.Practical(s), units.Celsius(celsius), 0)
		c.step([]byte(strconv.FormatFloat(float64(cond), 'f', 6, 64)+" "+strconv.FormatFloat(celsius, 'f', 3, 64)), nil)
		all = append(all, c.alarms)
	}
	return all
}

func TestAlarms(t *testing.T) {
	for name, c := range map[string]struct {
		celsius    float64
		salinities []float64
		want       []alarm
	}{
		"ends inside the band": {25, []float64{35.9, 36.1, 35.9, 35.6, 35.4, 35.9}, []alarm{0, high, high, high, 0, 0}},
		"low":                  {25, []float64{34.1, 33.9, 34.4, 34.6}, []alarm{0, low, low, 0}},
		"warm":                 {28.1, []float64{35}, []alarm{warm}},
		"cold":                 {22.9, []float64{35}, []alarm{cold}},
		"stuck":                {25, []float64{35, 35, 35, 35, 35.1}, []alarm{0, 0, 0, stuck, 0}},
		"dry":                  {25, []float64{35, 0, 0, 35}, []alarm{0, absurd, absurd, 0}},
		"spike":                {25, []float64{35, 39, 35.1}, []alarm{0, absurd, 0}},
		"jump that lasts":      {25, []float64{35, 38, 38.01, 38.02, 38.03}, []alarm{0, absurd, absurd, absurd, high}},
		"spike after dry":      {25, []float64{35, 0, 0, 0, 0, 39, 35}, []alarm{0, absurd, absurd, absurd, absurd, absurd, 0}},
		"brine":                {25, []float64{50}, []alarm{absurd}},
		"hot":                  {36, []float64{35}, []alarm{absurd}},
	} {
		l := usual
		l.still = 3
		assert.Equal(t, c.want, steps(&controller{limits: l}, c.celsius, c.salinities...), name)
	}
}

func TestNumber(t *testing.T) {
	for text, want := range map[string]float64{"53.1": 53.1, "-0.5": -0.5, "+7": 7, ".5": 0.5, "5.": 5, "0": 0} {
		x, ok := number([]byte(text))
		assert.True(t, ok, text)
		assert.Equal(t, want, x, text)
	}
	for _, text := range []string{"", ".", "-", "1e3", "NaN", "Inf", "0x10", "1_0", "1,5", "1.2.3", "1-2", "53.1 25", "111111111111111111111"} {
		_, ok := number([]byte(text))
		assert.False(t, ok, text)
	}
}

func TestNoAllocations(t *testing.T) {
	c := controller{limits: usual}
	out := make([]byte, 0, 256)
	for _, line := range []string{"53.07 25.01\r\n", "60.1 30", "0 25", "0.02 25", "53 -47", "999999 999999", "rubbish", "NaN 25", "", "1.2.3 25"} {
		b := []byte(line)
		checks.NoAllocations(t, line, func() { out = c.step(b, out[:0]) })
	}
}

// Bad lines are counted, whatever they are; the last needs no newline.
func TestBadLines(t *testing.T) {
	var out bytes.Buffer
	in := "53.1 25\n\n" + strings.Repeat("9", 10000) + "\n53.1\t25.0\r\n53.1 25 7\n\x00\xff\n53.1 25.1"
	require.NoError(t, run(strings.NewReader(in), &out, usual))
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	require.Len(t, lines, 7)
	for i, bad := range []bool{false, true, true, false, true, true, false} {
		assert.Equal(t, bad, strings.Contains(lines[i], "bad line"), lines[i])
		assert.True(t, strings.HasPrefix(lines[i], strconv.Itoa(i+1)+": "), lines[i])
	}
	out.Reset()
	require.NoError(t, run(strings.NewReader(strings.Repeat("9", 10000)), &out, usual))
	assert.True(t, strings.HasPrefix(out.String(), "1: bad line"))
}

type broken struct{}

func (broken) Read([]byte) (int, error)  { return 0, errors.New("cut") }
func (broken) Write([]byte) (int, error) { return 0, errors.New("full") }

func TestBrokenPipes(t *testing.T) {
	assert.EqualError(t, run(broken{}, io.Discard, usual), "cut")
	assert.EqualError(t, run(strings.NewReader("53.1 25\n"), broken{}, usual), "full")
	assert.EqualError(t, run(strings.NewReader(strings.Repeat("53.1 25\n", 1000)), broken{}, usual), "full")
}

// A report is out as soon as its line is in, though the next line has begun. It was
// held back until the rest of that came.
func TestReportsAtOnce(t *testing.T) {
	in, sensor := io.Pipe()
	reports, out := io.Pipe()
	done := make(chan error)
	go func() { done <- run(in, out, usual) }()
	read := bufio.NewReader(reports)
	for _, part := range []string{"53.1 25\n53.", "1 25\n60.1 2", "5.0\n53.1 25.0\n5"} {
		_, err := sensor.Write([]byte(part))
		require.NoError(t, err)
		for range strings.Count(part, "\n") {
			line := make(chan string, 1)
			go func() { text, _ := read.ReadString('\n'); line <- text }()
			select {
			case text := <-line:
				assert.NotEmpty(t, text)
			case <-time.After(20 * time.Second):
				t.Fatal("no report of a line that is in")
			}
		}
	}
	go io.Copy(io.Discard, read)
	require.NoError(t, sensor.Close())
	require.NoError(t, <-done)
}

// TestMain lets the test program be the controller, for what only a process of its
// own shows.
func TestMain(m *testing.M) {
	if os.Getenv("BE_CONTROLLER") != "" {
		main()
		return
	}
	os.Exit(m.Run())
}

// Told to stop, it answers every line that was sent. Up to 89 of 1000 were lost.
func TestSignalLosesNothing(t *testing.T) {
	for range checks.Runs(20, 3) {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), "BE_CONTROLLER=1")
		in, err := cmd.StdinPipe()
		require.NoError(t, err)
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		if err := cmd.Start(); err != nil {
			t.Skip("no processes here: ", err)
		}
		read := bufio.NewReader(out)
		_, err = io.WriteString(in, "53.1 25.0\n")
		require.NoError(t, err)
		if _, err := read.ReadString('\n'); err != nil { // it runs
			cmd.Wait()
			t.Skip("this program cannot start itself here: ", err)
		}
		_, err = io.WriteString(in, strings.Repeat("53.1 25.0\n", 999))
		require.NoError(t, err)
		require.NoError(t, cmd.Process.Signal(syscall.SIGTERM))
		rest, err := io.ReadAll(read)
		require.NoError(t, err)
		assert.Equal(t, 999, bytes.Count(rest, []byte("\n")))
		assert.NoError(t, cmd.Wait())
	}
}

// The program links neither fmt nor reflect.
func TestLight(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", ".").Output()
	if err != nil {
		t.Skip("no go command here")
	}
	for _, path := range strings.Fields(string(out)) {
		assert.NotContains(t, []string{"fmt", "reflect", "log", "encoding/json", "flag"}, path)
	}
}

func FuzzRun(f *testing.F) {
	f.Add([]byte("53.1 25.0\nx\n-1 99\n"))
	f.Fuzz(func(t *testing.T, in []byte) {
		var out bytes.Buffer
		require.NoError(t, run(bytes.NewReader(in), &out, usual))
		lines := bytes.Count(in, []byte("\n"))
		if len(in) > 0 && in[len(in)-1] != '\n' {
			lines++
		}
		require.Equal(t, lines, bytes.Count(out.Bytes(), []byte("\n")))
	})
}

// million returns a million samples of a tank that drifts.
func million() []byte {
	var b []byte
	for i := range 1000000 {
		x := float64(i)
		b = strconv.AppendFloat(b, 53+0.5*math.Sin(x/86400)+0.01*math.Sin(x*12.9898), 'f', 3, 64)
		b = append(b, ' ')
		b = strconv.AppendFloat(b, 25+0.3*math.Sin(x/3600), 'f', 2, 64)
		b = append(b, '\n')
	}
	return b
}

func BenchmarkMillionSamples(b *testing.B) {
	in := million()
	b.ReportAllocs()
	b.ResetTimer()
	for i := 0; i < b.N; i++ {
		if err := run(bytes.NewReader(in), io.Discard, usual); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(1e6*float64(b.N)/b.Elapsed().Seconds(), "samples/s")
}

func BenchmarkStep(b *testing.B) {
	c := controller{limits: usual}
	line, out := []byte("53.071 25.01\n"), make([]byte, 0, 256)
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		out = c.step(line, out[:0])
	}
}
