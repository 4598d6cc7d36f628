package main

import (
	"bufio"
	"bytes"
	"errors"
	"flag"
	"io"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

var update = flag.Bool("update", false, "rewrite the expected report")

func report(t testing.TB, in io.Reader, args ...string) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, start(args, in, &out, io.Discard))
	return out.String()
}

func TestReport(t *testing.T) {
	got := report(t, nil, filepath.Join("testdata", "log.csv"))
	path := filepath.Join("testdata", "report.txt")
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o666))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, cmp.Diff(string(want), got))
}

// The statistics of the small log once more, by two passes over the salinities
// of lines read with strconv.
func TestReportAgain(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("testdata", "log.csv"))
	require.NoError(t, err)
	var all []float64
	for _, line := range strings.Split(string(text), "\n") {
		f := strings.Split(strings.TrimSpace(line), ",")
		if len(f) != 3 {
			continue
		}
		c, err1 := strconv.ParseFloat(f[1], 64)
		celsius, err2 := strconv.ParseFloat(f[2], 64)
		if _, err := strconv.ParseInt(f[0], 10, 64); err != nil || err1 != nil || err2 != nil {
			continue
		}
		if s := pss78.Salinity(units.Conductivity(c), units.Celsius(celsius), 0).Value(); s >= 1 && s <= 42 {
			all = append(all, s)
		}
	}
	var sum, squares float64
	for _, s := range all {
		sum += s
	}
	mean := sum / float64(len(all))
	for _, s := range all {
		squares += (s - mean) * (s - mean)
	}
	l := logbook{out: io.Discard, date: undated}
	for _, line := range bytes.SplitAfter(text, []byte("\n")) {
		l.take(line)
	}
	l.close()
	assert.Equal(t, int64(len(all)), l.all.count)
	assert.InEpsilon(t, mean, l.all.mean, 1e-14)
	assert.InEpsilon(t, math.Sqrt(squares/float64(len(all)-1)), l.all.deviation(), 1e-12)
}

// Two days of an invented log: all samples are there, and the salinity is the one
// that was invented.
func TestGenerated(t *testing.T) {
	var log bytes.Buffer
	require.NoError(t, start([]string{"-generate", "172800"}, nil, &log, io.Discard))
	assert.Equal(t, 172801, bytes.Count(log.Bytes(), []byte("\n")))
	lines := strings.Split(strings.TrimSpace(report(t, &log)), "\n")
	require.Len(t, lines, 4)
	assert.Equal(t, []string{"2026-01-01", "86400", "34.889"}, strings.Fields(lines[1])[:3])
	assert.Equal(t, []string{"all", "172800"}, strings.Fields(lines[3])[:2])
	// By hand, the first day: 34.9 + 0.05·4 - 0.25·(48/ln 2)(1 - 2^-0.5)/24.
	assert.InDelta(t, 35.1-0.25*2/math.Ln2*(1-math.Exp2(-0.5)), number(t, strings.Fields(lines[1])[2]), 0.001)
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return x
}

// decimal gives the very float64 that strconv gives.
func TestDecimal(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 200000 {
		text := strconv.FormatFloat((r.Float64()-0.3)*math.Pow(10, float64(r.IntN(9))), 'f', r.IntN(14), 64)
		want, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		got, rest, ok := decimal([]byte(text + ",x"))
		require.True(t, ok, text)
		require.Equal(t, want, got, text)
		require.Equal(t, ",x", string(rest))
	}
	for text, want := range map[string]float64{
		"53.071": 53.071, "+.5": 0.5, "7.": 7, "-0": 0, "0.1234567890123456789": 0.12345678901234568,
		"123456789012345.": 123456789012345, "99999999999999999999999": 1e23,
	} {
		got, rest, ok := decimal([]byte(text))
		assert.True(t, ok && len(rest) == 0, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", ".", "-", "+.", "e3", "NaN", strings.Repeat("9", 400)} {
		_, _, ok := decimal([]byte(text))
		assert.False(t, ok, text)
	}
}

func TestParse(t *testing.T) {
	want := sample{1767225600, 53.071, units.Celsius(25.01)}
	for _, line := range []string{"1767225600,53.071,25.01\n", "1767225600,53.071,25.01\r\n", "1767225600,53.071,25.01"} {
		got, ok := parse([]byte(line))
		assert.True(t, ok, line)
		assert.Equal(t, want, got)
	}
	for _, line := range []string{"", "\n", "1767225600,53.071\n", "1767225600,53.071,25.01,7\n", "1767225600,53.071,25.01 \n", "-5,53,25\n",
		"1767225600,53,25\n\n", "1767225600,53,25\r", ",53,25\n", "1767225600,,25\n", "1767225600,53,\n", "1234567890123456789,53,25\n", "1767225600,5e1,25\n", "17672256\x00,53,25\n"} {
		_, ok := parse([]byte(line))
		assert.Equal(t, line == "1767225600,53,25\r", ok, "%q", line)
	}
}

// Statistics taken in parts are those of the whole.
func TestMerge(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var whole, total statistics
	for range 7 {
		var part statistics
		for range r.IntN(1000) {
			x := 35 + 0.1*r.NormFloat64()
			whole.add(x)
			part.add(x)
		}
		total.merge(&part)
	}
	assert.Equal(t, whole.count, total.count)
	assert.InEpsilon(t, whole.mean, total.mean, 1e-14)
	assert.InEpsilon(t, whole.deviation(), total.deviation(), 1e-11)
	assert.Equal(t, [2]float64{whole.least, whole.most}, [2]float64{total.least, total.most})
	var one statistics
	assert.Zero(t, one.deviation())
	one.add(35)
	assert.Zero(t, one.deviation())
}

// Lines that are none are counted, wherever they are and however long.
func TestWrongLines(t *testing.T) {
	long := strings.Repeat("9", 1<<17)
	in := "nothing\n\nx\n1767225600,53.1,25\n" + long + "\n1767225601,53.1,25\n1767312000,0,25\n1767312001,53.1,25"
	assert.Equal(t, `day         samples     mean      min      max   st.dev.  discarded  absurd °C  wrong lines
undated           0        -        -        -         -          0          0            2
2026-01-01        2   35.021   35.021   35.021    0.0000          0          0            1
2026-01-02        1   35.021   35.021   35.021    0.0000          1          0            0
all               3   35.021   35.021   35.021    0.0000          1          0            3
`, report(t, strings.NewReader(in), "-wrong", "50 %"))
	for _, none := range []string{"", long, "nothing\n", "\x00\x01\n\n", "seconds,conductivity,temperature\nx\n"} {
		var out bytes.Buffer
		assert.ErrorContains(t, start(nil, strings.NewReader(none), &out, io.Discard), "no sample in the log")
		assert.Contains(t, out.String(), "all               0        -")
	}
	assert.Contains(t, report(t, strings.NewReader("1767225600,53.1,25\n")), "all               1   35.021")
}

// The first sample counts, whatever stands before it. A byte-order mark or a blank
// made it a heading.
func TestFirstLine(t *testing.T) {
	for before, wrong := range map[string]int{
		"": 0, "\ufeff": 0, " ": 0, "\ufeff  ": 0, "seconds,conductivity,temperature\n": 0, "\ufeffseconds,mS/cm,C\n": 0, "\"seconds\",c,t\n": 0, "# a log\n": 0,
		"-1767225600,53.1,25\n": 1, "\n": 1, ",,\n": 1,
	} {
		lines := strings.Split(strings.TrimSpace(report(t, strings.NewReader(before+"1767225600,53.1,25\n1767225601,53.1,25\n"), "-wrong", "50 %")), "\n")
		all := strings.Fields(lines[len(lines)-1])
		assert.Equal(t, "2", all[1], "%q", before)
		assert.Equal(t, strconv.Itoa(wrong), all[len(all)-1], "%q", before)
	}
}

// Garbage ends with an error, and with what was read of it.
func TestGarbage(t *testing.T) {
	good := strings.Repeat("1767225600,53.1,25\n", 19)
	for _, r := range []struct{ in, wrong, want string }{
		{good + "x\n", "5 %", ""},
		{good + "x\n", "4.9 %", "1 of 20 lines, 5 %, are no samples"},
		{good + "x\ny\n", "5 %", "2 of 21 lines, 9.52 %, are no samples or at temperatures that no tank has: more than the 5 %"},
		{good + "1767225600,53.1,250\n1767225600,53.1,-12\n", "5 %", "2 of 21 lines"},
		{good + "x\n", "0 %", "1 of 20 lines"},
		{"x\ny\n1767225600,53.1,25\n", "100 %", ""},
		{"1767225600,0.01,25\n", "5 %", "no sample of a tank's water in the log: all are below 1 or above 42 ppt"},
		{"1767225600,53.1,77\n", "5 %", "1 of 1 lines, 100 %"},
	} {
		var out bytes.Buffer
		err := start([]string{"-wrong", r.wrong}, strings.NewReader(r.in), &out, io.Discard)
		if r.want == "" {
			assert.NoError(t, err, r.in)
		} else {
			assert.ErrorContains(t, err, r.want)
		}
		assert.Contains(t, out.String(), "\nall ", "what was read is told all the same")
	}
}

// A temperature that no tank has is no sample of one, and is asked about.
func TestAbsurdTemperatures(t *testing.T) {
	good := strings.Repeat("1767225600,53.1,25\n", 40)
	got := report(t, strings.NewReader(good+"1767225601,53.1,250.0\n1767225602,53.1,-3\n"))
	lines := strings.Split(strings.TrimSpace(got), "\n")
	assert.Equal(t, []string{"all", "40", "35.021", "35.021", "35.021", "0.0000", "0", "2", "0"}, strings.Fields(lines[2]))
	assert.Equal(t, "2 samples left out: no tank is below 5 or above 40 °C. Look at the sensor, the point and the unit.", lines[3])
	for celsius, absurd := range map[string]int64{"5": 0, "4.99": 1, "40": 0, "40.01": 1} {
		l := logbook{out: io.Discard, date: undated}
		l.take([]byte("1767225600,50," + celsius + "\n"))
		assert.Equal(t, absurd, l.today.absurd, celsius)
	}
}

// What was read before reading failed is written, finished days and the day so far.
func TestBrokenLog(t *testing.T) {
	log := "1767225600,53.1,25\n1767312000,53.1,25\n1767312001,53.1,25\n1767312002,5"
	var out bytes.Buffer
	err := start(nil, io.MultiReader(strings.NewReader(log), broken{}), &out, io.Discard)
	assert.EqualError(t, err, "cut")
	assert.Equal(t, `day         samples     mean      min      max   st.dev.  discarded  absurd °C  wrong lines
2026-01-01        1   35.021   35.021   35.021    0.0000          0          0            0
2026-01-02        2   35.021   35.021   35.021    0.0000          0          0            0
all               3   35.021   35.021   35.021    0.0000          0          0            0
`, out.String())
}

func TestArguments(t *testing.T) {
	log := filepath.Join("testdata", "log.csv")
	for text, args := range map[string][]string{
		`"more.csv": want one file`:            {log, "more.csv"},
		`"log": want no file to read`:          {"-generate", "5", "log"},
		"generate: got -5, want a number":      {"-generate", "-5"},
		"generate: got 0, want a number of se": {"-generate", "0"},
		"wrong: got 101 %, want 0 % to 100 %":  {"-wrong", "101 %"},
	} {
		var out bytes.Buffer
		assert.ErrorContains(t, start(args, strings.NewReader(""), &out, io.Discard), text)
		assert.Empty(t, out.String())
	}
}

// TestMain lets the test program be the logbook, for what only a process of its
// own shows.
func TestMain(m *testing.M) {
	if os.Getenv("BE_LOGBOOK") != "" {
		os.Args = os.Args[:1]
		main()
		return
	}
	os.Exit(m.Run())
}

// A finished day is out at once, and what has come of the next one when the program
// is told to stop.
func TestSignal(t *testing.T) {
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), "BE_LOGBOOK=1")
		in, err := cmd.StdinPipe()
		require.NoError(t, err)
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		if err := cmd.Start(); err != nil {
			t.Skip("no processes here: ", err)
		}
		_, err = io.WriteString(in, "1767225600,53.1,25\n1767312000,53.1,25\n1767312001,53.1,25\n")
		require.NoError(t, err)
		read := bufio.NewReader(out)
		if _, err := read.ReadString('\n'); err != nil {
			cmd.Wait()
			t.Skip("this program cannot start itself here: ", err)
		}
		first, err := read.ReadString('\n')
		require.NoError(t, err)
		assert.Contains(t, first, "2026-01-01        1 ")
		require.NoError(t, cmd.Process.Signal(s))
		rest, err := io.ReadAll(read)
		require.NoError(t, err)
		assert.Contains(t, string(rest), "2026-01-02        2 ")
		assert.Contains(t, string(rest), "all               3 ")
		var exit *exec.ExitError
		assert.ErrorAs(t, cmd.Wait(), &exit, "the log is not at its end")
	}
}

type broken struct{}

func (broken) Read([]byte) (int, error)  { return 0, errors.New("cut") }
func (broken) Write([]byte) (int, error) { return 0, errors.New("full") }

func TestBrokenPipes(t *testing.T) {
	assert.EqualError(t, start(nil, broken{}, io.Discard, io.Discard), "cut")
	assert.EqualError(t, start(nil, strings.NewReader(""), broken{}, io.Discard), "full")
	assert.EqualError(t, start([]string{"-generate", "5"}, nil, broken{}, io.Discard), "full")
	assert.EqualError(t, start([]string{"-generate", "50000"}, nil, broken{}, io.Discard), "full")
	assert.Error(t, start([]string{"no such file"}, nil, io.Discard, io.Discard))
	assert.Error(t, start([]string{"-x"}, nil, io.Discard, io.Discard))
}

func TestNoAllocations(t *testing.T) {
	l := logbook{out: io.Discard, date: 1767225600 / day}
	for _, line := range []string{"1767225600,53.071,25.01\n", "1767225600,0,25\n", "1767225600,53,250\n", "rubbish\n", "1767225600,53.0710000000000000001,25\n"} {
		b := []byte(line)
		assert.Zero(t, testing.AllocsPerRun(100, func() { l.take(b) }), line)
	}
}

func FuzzSummarise(f *testing.F) {
	f.Add([]byte("seconds,conductivity,temperature\n1767225600,53.1,25\nx\n"))
	f.Fuzz(func(t *testing.T, in []byte) {
		if err := summarise(bytes.NewReader(in), io.Discard, units.Percent(100)); err != nil {
			require.Contains(t, []error{errNoSample, errNoWater}, err)
		}
	})
}

func FuzzDecimal(f *testing.F) {
	f.Add("53.071")
	f.Fuzz(func(t *testing.T, text string) {
		got, rest, ok := decimal([]byte(text))
		if !ok {
			return
		}
		want, err := strconv.ParseFloat(text[:len(text)-len(rest)], 64)
		require.NoError(t, err)
		require.Equal(t, math.Float64bits(want), math.Float64bits(got))
	})
}

// tenDays is the invented log of ten days.
func tenDays(b *testing.B) []byte {
	var log bytes.Buffer
	require.NoError(b, generate(&log, 10*day))
	return log.Bytes()
}

func BenchmarkSummarise(b *testing.B) {
	log := tenDays(b)
	b.SetBytes(int64(len(log)))
	b.ReportAllocs()
	b.ResetTimer()
	for i := 0; i < b.N; i++ {
		if err := summarise(bytes.NewReader(log), io.Discard, units.Percent(5)); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(10*day*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
}

var sink sample

// What of that is reading the text.
func BenchmarkParse(b *testing.B) {
	line := []byte("1767225600,53.071,25.01\n")
	b.SetBytes(int64(len(line)))
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sink, _ = parse(line)
	}
}

func BenchmarkTake(b *testing.B) {
	l := logbook{out: io.Discard, date: 1767225600 / day}
	line := []byte("1767225600,53.071,25.01\n")
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		l.take(line)
	}
}
