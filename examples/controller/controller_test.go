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

	"example.org/wellmixed/dilution/control"
	"example.org/wellmixed/units"
)

var update = flag.Bool("update", false, "rewrite the expected report")

// memory keeps the state in the place of a file.
type memory struct {
	state  []byte
	writes int
	err    error
}

func (m *memory) Write(state []byte) error {
	m.writes++
	if m.err == nil {
		m.state = append(m.state[:0], state...)
	}
	return m.err
}

// fresh returns a controller with a state in memory.
func fresh(t testing.TB) (*controller, *memory) {
	c, refusal := newController()
	require.Empty(t, refusal)
	m := &memory{}
	c.file = m
	return c, m
}

// again returns a controller that starts from a state.
func again(t testing.TB, m *memory) *controller {
	c, _ := fresh(t)
	c.file = m
	copy(c.state[:], m.state)
	c.restore()
	return c
}

func TestReport(t *testing.T) {
	in, err := os.ReadFile(filepath.Join("testdata", "samples.txt"))
	require.NoError(t, err)
	c, _ := fresh(t)
	var out bytes.Buffer
	require.NoError(t, run(bytes.NewReader(in), &out, c))
	path := filepath.Join("testdata", "report.txt")
	if *update {
		require.NoError(t, os.WriteFile(path, out.Bytes(), 0o666))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, cmp.Diff(string(want), out.String()))
}

// tank feeds a controller with sensors of a steady water, with their noise, and returns the
// decisions that matter.
type tank struct {
	t     *testing.T
	c     *controller
	now   control.Clock
	level float64
	n     int
}

func (k *tank) line(switches string) []byte {
	k.n++
	k.now += 5000
	wobble := int64(k.n*7%5) - 2
	b := strconv.AppendInt(nil, int64(k.now), 10)
	b = strconv.AppendInt(append(b, ' '), int64(k.level*1000)+200*wobble, 10)
	b = strconv.AppendInt(append(b, ' '), 25000+10*wobble, 10)
	b = strconv.AppendInt(append(b, ' '), 53070+10*wobble, 10)
	return append(append(b, ' '), switches...)
}

// run feeds steps and returns the last answer.
func (k *tank) run(steps int, switches string) (last string) {
	for range steps {
		last = string(k.c.answer(k.line(switches), nil))
		if strings.Contains(last, "pump on") {
			k.level += 20 * 5 / 3600. / 0.12
		}
	}
	return last
}

func (k *tank) say(text string) string { return string(k.c.answer([]byte(text), nil)) }

// A controller knows nothing until a person has spoken, tops off, remembers it over a power
// cut, and forgets nothing that latched.
func TestRemembers(t *testing.T) {
	c, m := fresh(t)
	k := &tank{t: t, c: c, level: -8, now: math.MaxUint32 - 100000}
	assert.Contains(t, k.run(30, "cccc"), "top-off: state lost!")
	for _, text := range []string{"refilled 20000", "alkalinity 1000", "calcium 1000", "acknowledge"} {
		assert.NotContains(t, k.say(text), "bad line")
	}
	assert.Contains(t, k.run(14, "cccc"), "pump on 15000 ms", "once the level has been calm for a minute")
	k.run(100, "cccc")
	pumped := c.top.Pumped().Litres()
	assert.InDelta(t, 8*0.12, pumped, 0.1)
	assert.NotContains(t, k.run(1, "cccc"), "!")

	k.c = again(t, m)
	k.now = 0
	assert.NotContains(t, k.run(30, "cccc"), "!", "a power cut leaves nothing behind")
	assert.InDelta(t, pumped, k.c.top.Pumped().Litres(), 1e-9)
	assert.InDelta(t, 20-pumped, k.c.top.Left().Litres(), 1e-9)

	assert.Contains(t, k.run(1, "cctc"), "top-off: leak!")
	k.say("hold")
	k.run(1, "cccc")
	k.c = again(t, m)
	assert.True(t, k.c.hold)
	k.level = -8
	k.run(40, "cccc")
	k.say("acknowledge")
	assert.NotContains(t, k.run(40, "cccc"), "pump on", "held")
	k.say("resume")
	assert.Contains(t, k.run(20, "cccc"), "pump on")
	assert.Contains(t, k.run(2, "ccct"), "pump cut", "the return pump stands")

	m.state[100] ^= 4
	damaged := again(t, m)
	assert.True(t, damaged.top.Alarms().Has(control.StateLost))
	assert.False(t, damaged.alkalinity.Alarms().Has(control.StateLost), "each part has its own check word")
}

// A pump that was found stuck stays cut while the state file cannot be written.
func TestStuckPumpStaysCut(t *testing.T) {
	c, m := fresh(t)
	k := &tank{t: t, c: c, level: -2}
	for _, text := range []string{"refilled 20000", "alkalinity 1000", "calcium 1000", "acknowledge"} {
		k.say(text)
	}
	require.Contains(t, k.run(40, "cccc"), "pump off")
	for range 40 {
		k.level += 0.2
		k.run(1, "cccc")
	}
	require.Contains(t, k.run(1, "cccc"), "pump cut")
	m.err = errors.New("full")
	k.say("hold")
	for range 3 {
		assert.Contains(t, k.run(1, "cccc"), "pump cut")
	}
	k.say("resume")
	assert.Contains(t, k.run(1, "cccc"), "pump cut")
}

// A leak of the last line before a power cut is still known after it.
func TestLatchBeforePowerCut(t *testing.T) {
	c, m := fresh(t)
	k := &tank{t: t, c: c, level: -2}
	k.say("acknowledge")
	k.run(60, "cccc")
	k.run(1, "cctc")
	k.c, k.now, k.level = again(t, m), 0, -8
	assert.NotContains(t, k.run(40, "cccc"), "pump on")
	assert.Contains(t, k.run(1, "cccc"), "top-off: leak!")
}

// Probes that hang in air say so for as long as they do, and no salinity is made of a
// conductivity that is not there.
func TestProbesInAir(t *testing.T) {
	c, _ := fresh(t)
	k := &tank{t: t, c: c, level: -2}
	k.say("acknowledge")
	k.run(40, "cccc")
	for i := range 30 {
		k.now += 5000
		line := strconv.AppendInt(nil, int64(k.now), 10)
		line = append(line, " -2000 "...)
		line = strconv.AppendInt(line, int64(20000+10*(i%3)), 10)
		line = append(line, " 1500 cccc"...) // a wet cell, above the least of its channel
		assert.Equal(t, 2, strings.Count(string(c.answer(line, nil)), "probe in air"), "sample %d", i)
	}
}

// The hold stands under a word of its own: of all that may be read, one thing means nobody.
func TestHoldIsKept(t *testing.T) {
	c, m := fresh(t)
	require.NoError(t, c.save())
	assert.False(t, again(t, m).hold)
	for i := range len(nobody) {
		for bit := range 8 {
			m.state[holdAt+i] ^= 1 << bit
			assert.True(t, again(t, m).hold)
			m.state[holdAt+i] ^= 1 << bit
		}
	}
}

// What cannot be written down is not pumped.
func TestStateThatCannotBeWritten(t *testing.T) {
	c, m := fresh(t)
	k := &tank{t: t, c: c, level: -8}
	k.say("acknowledge")
	k.run(12, "cccc")
	m.err = errors.New("full")
	for range 30 {
		assert.NotContains(t, k.run(1, "cccc"), "pump on")
	}
	assert.Contains(t, k.run(1, "cccc"), "state file: cannot be written, pumps off")
	m.err = nil
	last := k.run(1, "cccc")
	assert.NotContains(t, last, "state file")
	assert.Contains(t, last, "pump on")
}

func TestStateFile(t *testing.T) {
	name := filepath.Join(t.TempDir(), "tank.state")
	c, _ := fresh(t)
	require.NoError(t, c.load(name), "there need be none")
	c.top.Refilled(7 * units.Litre)
	require.NoError(t, c.save())
	other, _ := newController()
	require.NoError(t, other.load(name))
	assert.Equal(t, 7.0, other.top.Left().Litres())
	require.NoError(t, os.WriteFile(name, []byte("short"), 0o644))
	other, _ = newController()
	require.NoError(t, other.load(name))
	assert.True(t, other.top.Alarms().Has(control.StateLost))
	assert.Error(t, other.load(filepath.Dir(name)), "a folder is no state file")
	other.file = disk(filepath.Join(name, "no", "such"))
	assert.Error(t, other.save())
}

func TestParse(t *testing.T) {
	s, ok := parse([]byte("4294967295  -5400\t25012 - ct?c"))
	require.True(t, ok)
	assert.Equal(t, sample{
		now: math.MaxUint32, level: control.Sample{Value: -5.4, OK: true}, temperature: control.Sample{Value: 25.012, OK: true},
		second: control.Clear, empty: control.Tripped, leak: control.Unknown, returnPump: control.Clear,
	}, s)
	for _, text := range []string{
		"", "1", "1 2 3 4", "1 2 3 4 ccc", "1 2 3 4 ccccc", "1 2 3 4 cccx", "1 2 3 4 cccc 5", "-1 2 3 4 cccc", "4294967296 2 3 4 cccc",
		"1 2.5 3 4 cccc", "1 2 NaN 4 cccc", "1 2 3 99999999999 cccc", "1 2 3 -- cccc", "1 +2 3 4 cccc", "- 2 3 4 cccc", "1 2 3 9999999999999999999999 cccc",
	} {
		_, ok := parse([]byte(text))
		assert.False(t, ok, text)
	}
	c, _ := fresh(t)
	for _, text := range []string{"refilled", "refilled -1", "refilled x", "acknowledge 3", "Acknowledge", "accept", "accept all", "alkalinity", "calcium 1 2"} {
		_, ok := c.person([]byte(text))
		assert.False(t, ok, text)
	}
}

func TestNoAllocations(t *testing.T) {
	c, _ := fresh(t)
	out := make([]byte, 0, 2048)
	k := &tank{level: -8}
	for _, line := range []string{
		"acknowledge", "refilled 20000", string(k.line("cccc")), string(k.line("cccc")), string(k.line("tttt")), "30000 - - - ????",
		"5 99999999 -99999 0 cccc", "hold", "resume", "accept level", "accept temperature", "accept conductivity", "calibrated", "rubbish", "", "1 2 3 4 5 6 7 8 9", "NaN NaN NaN NaN cccc",
	} {
		b := []byte(line)
		assert.Zero(t, testing.AllocsPerRun(20, func() { out = c.answer(b, out[:0]) }), line)
	}
}

// Bad lines are counted, whatever they are; the last needs no newline.
func TestBadLines(t *testing.T) {
	c, _ := fresh(t)
	var out bytes.Buffer
	in := "1000 0 25000 53000 cccc\n\n" + strings.Repeat("9", 10000) + "\n2000\t0 25000 53000 cccc\r\n53.1 25 7\n\x00\xff\nacknowledge"
	require.NoError(t, run(strings.NewReader(in), &out, c))
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	require.Len(t, lines, 7)
	for i, bad := range []bool{false, true, true, false, true, true, false} {
		assert.Equal(t, bad, strings.Contains(lines[i], "bad line"), lines[i])
		assert.True(t, strings.HasPrefix(lines[i], strconv.Itoa(i+1)+": "), lines[i])
	}
	out.Reset()
	c, _ = fresh(t)
	require.NoError(t, run(strings.NewReader(strings.Repeat("9", 10000)), &out, c))
	assert.True(t, strings.HasPrefix(out.String(), "1: bad line"))
}

type broken struct{}

func (broken) Read([]byte) (int, error)  { return 0, errors.New("cut") }
func (broken) Write([]byte) (int, error) { return 0, errors.New("full") }

func TestBrokenPipes(t *testing.T) {
	c, m := fresh(t)
	assert.EqualError(t, run(broken{}, io.Discard, c), "cut")
	assert.Equal(t, 1, m.writes, "the state is kept all the same")
	assert.EqualError(t, run(strings.NewReader("acknowledge\n"), broken{}, c), "full")
	assert.EqualError(t, run(strings.NewReader(strings.Repeat("acknowledge\n", 1000)), broken{}, c), "full")
}

// A report is out as soon as its line is in, though the next line has begun. It was held
// back until the rest of that came.
func TestReportsAtOnce(t *testing.T) {
	c, _ := fresh(t)
	in, sensor := io.Pipe()
	reports, out := io.Pipe()
	done := make(chan error)
	go func() { done <- run(in, out, c) }()
	read := bufio.NewReader(reports)
	for _, part := range []string{"1000 0 25000 53000 cccc\n20", "00 0 25000 53000 cccc\nhold\nre", "sume\nacknowledge\n5"} {
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

// TestMain lets the test program be the controller, for what only a process of its own
// shows.
func TestMain(m *testing.M) {
	if os.Getenv("BE_CONTROLLER") != "" {
		main()
		return
	}
	os.Exit(m.Run())
}

// controllerWith returns a process of the controller.
func controllerWith(args ...string) *exec.Cmd {
	cmd := exec.Command(os.Args[0], args...)
	cmd.Env = append(os.Environ(), "BE_CONTROLLER=1")
	return cmd
}

func TestArguments(t *testing.T) {
	out, err := controllerWith("-h").Output()
	if err != nil {
		t.Skip("this program cannot start itself here: ", err)
	}
	assert.Contains(t, string(out), "usage: controller [state file]")
	assert.Contains(t, string(out), "3.2 L, 35.0 to 34.5 (level reads ever lower)")
	name := filepath.Join(t.TempDir(), "tank.state")
	for _, args := range [][]string{{name, "second"}, {"-x"}, {""}, {filepath.Dir(name)}} {
		out, err := controllerWith(args...).CombinedOutput()
		assert.Error(t, err, args)
		assert.Contains(t, string(out), "controller: ", args)
	}
	cmd := controllerWith(name)
	cmd.Stdin = strings.NewReader("refilled 20000\nacknowledge\n1000 0 25000 53000 cccc\n")
	_, err = cmd.Output()
	require.NoError(t, err)
	state, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Len(t, state, stateSize)
	cmd = controllerWith(name)
	cmd.Stdin = strings.NewReader("1000 0 25000 53000 cccc\n")
	out, err = cmd.Output()
	require.NoError(t, err)
	assert.NotContains(t, string(out), "state lost")
}

// Told to stop, it answers every line that was sent.
func TestSignalLosesNothing(t *testing.T) {
	runs := 20
	if testing.Short() {
		runs = 3
	}
	for range runs {
		cmd := controllerWith()
		in, err := cmd.StdinPipe()
		if err != nil {
			t.Skip("no processes here: ", err)
		}
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		if err := cmd.Start(); err != nil {
			t.Skip("no processes here: ", err)
		}
		read := bufio.NewReader(out)
		_, err = io.WriteString(in, "hold\n")
		require.NoError(t, err)
		if _, err := read.ReadString('\n'); err != nil { // it runs
			cmd.Wait()
			t.Skip("this program cannot start itself here: ", err)
		}
		_, err = io.WriteString(in, strings.Repeat("1000 0 25000 53000 cccc\n", 999))
		require.NoError(t, err)
		require.NoError(t, cmd.Process.Signal(syscall.SIGTERM))
		rest, err := io.ReadAll(read)
		require.NoError(t, err)
		assert.Equal(t, 999, bytes.Count(rest, []byte("\n")))
		assert.NoError(t, cmd.Wait())
	}
}

// The program links neither fmt nor reflect, and names nothing internal of this module: it
// can be copied into a module of its own.
func TestLightAndMovable(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", ".").Output()
	if err != nil {
		t.Skip("no go command here")
	}
	for _, path := range strings.Fields(string(out)) {
		assert.NotContains(t, []string{"fmt", "reflect", "log", "encoding/json", "flag"}, path)
	}
	out, err = exec.Command("go", "list", "-f", "{{.Imports}} {{.TestImports}} {{.XTestImports}}", ".").Output()
	require.NoError(t, err)
	assert.NotContains(t, string(out), "wellmixed/internal")
}

func FuzzRun(f *testing.F) {
	in, err := os.ReadFile(filepath.Join("testdata", "samples.txt"))
	require.NoError(f, err)
	f.Add(in)
	f.Add([]byte("1000 0 25000 53000 cccc\nx\n-1 99\n"))
	f.Fuzz(func(t *testing.T, in []byte) {
		c, _ := fresh(t)
		var out bytes.Buffer
		require.NoError(t, run(bytes.NewReader(in), &out, c))
		lines := bytes.Count(in, []byte("\n"))
		if len(in) > 0 && in[len(in)-1] != '\n' {
			lines++
		}
		require.Equal(t, lines, bytes.Count(out.Bytes(), []byte("\n")))
	})
}

// million returns a million samples of a tank that evaporates, a second apart.
func million() []byte {
	var b []byte
	for i := range 1000000 {
		x := float64(i)
		b = strconv.AppendInt(b, int64(i+1)*1000, 10)
		b = strconv.AppendInt(append(b, ' '), -int64(i%20000)/4+int64(i*7%5)*100, 10)
		b = strconv.AppendInt(append(b, ' '), int64(25000+300*math.Sin(x/3600))+int64(i*3%5)*10, 10)
		b = strconv.AppendInt(append(b, ' '), int64(53000+200*math.Sin(x/86400))+int64(i*11%7)*10, 10)
		b = append(b, " cccc\n"...)
	}
	return b
}

func BenchmarkMillionSamples(b *testing.B) {
	in := million()
	b.ReportAllocs()
	for b.Loop() {
		c, _ := fresh(b)
		if err := run(bytes.NewReader(in), io.Discard, c); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(1e6*float64(b.N)/b.Elapsed().Seconds(), "samples/s")
}

func BenchmarkAnswer(b *testing.B) {
	c, _ := fresh(b)
	k := &tank{level: 1}
	line, out := k.line("cccc"), make([]byte, 0, 1024)
	b.ReportAllocs()
	for b.Loop() {
		out = c.answer(line, out[:0])
	}
}
