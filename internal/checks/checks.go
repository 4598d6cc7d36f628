// Package checks serves the tests of the other packages: it reads tables of
// published values and judges how near a computed value has to come. It is
// imported by tests only.
package checks

import (
	"bufio"
	"encoding/csv"
	"io"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// Row is one line of a table, by column name.
type Row map[string]string

// Table reads a CSV file in which lines that start with # are comments and
// the first other line names the columns.
func Table(t testing.TB, path string) []Row {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(bufio.NewReader(f))
	r.Comment = '#'
	head, err := r.Read()
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	var rows []Row
	for {
		line, err := r.Read()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		row := Row{}
		for i, name := range head {
			row[name] = line[i]
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		t.Fatalf("%s: no rows", path)
	}
	return rows
}

// Float returns a column as a number and fails the test if it is not one.
func (r Row) Float(t testing.TB, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("column %q of %v: %v", column, r, err)
	}
	return x
}

// Inputs takes a column such as "SP=25;T68=10;p=1000" apart.
func (r Row) Inputs(t testing.TB, column string) map[string]float64 {
	t.Helper()
	in := map[string]float64{}
	for _, part := range strings.Split(r[column], ";") {
		name, text, _ := strings.Cut(part, "=")
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatalf("inputs %q: %v", r[column], err)
		}
		in[name] = x
	}
	return in
}

// Printed fails the test unless got, rounded as the source rounded, is the
// number that the source prints: the tolerance is half a unit of the last
// printed digit. A NaN fails.
func Printed(t testing.TB, what string, got float64, printed string) {
	t.Helper()
	PrintedWithin(t, what, got, printed, 0.5)
}

// PrintedWithin is Printed with a tolerance of units of the last printed
// digit, for sources that state their own rounding.
func PrintedWithin(t testing.TB, what string, got float64, printed string, units float64) {
	t.Helper()
	want, err := strconv.ParseFloat(printed, 64)
	if err != nil {
		t.Fatalf("%s: printed value %q is not a number", what, printed)
	}
	if tol := units * LastDigit(printed) * (1 + 1e-9); !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.12g, source prints %s (tolerance %.2g)", what, got, printed, tol)
	}
}

// Relative fails the test unless got is want within the relative tolerance.
// A NaN fails.
func Relative(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s: got %.17g, want %.17g (relative difference %.2g, tolerance %.2g)",
			what, got, want, math.Abs(got/want-1), tol)
	}
}

// Absolute fails the test unless got is want within the tolerance. A NaN
// fails.
func Absolute(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.17g, want %.17g (difference %.2g, tolerance %.2g)",
			what, got, want, math.Abs(got-want), tol)
	}
}

// LastDigit returns the size of one unit of the last digit of a printed
// number: 0.01 for "12.50", 1e-7 for "3.25e-5".
func LastDigit(printed string) float64 {
	mantissa, exponent := strings.ToLower(printed), 0
	if i := strings.IndexByte(mantissa, 'e'); i >= 0 {
		exponent, _ = strconv.Atoi(mantissa[i+1:])
		mantissa = mantissa[:i]
	}
	if i := strings.IndexByte(mantissa, '.'); i >= 0 {
		exponent -= len(mantissa) - i - 1
	}
	return math.Pow10(exponent)
}

// NoAllocations fails the test if f allocates.
func NoAllocations(t testing.TB, what string, f func()) {
	t.Helper()
	if n := testing.AllocsPerRun(Runs(100, 10), f); n != 0 {
		t.Errorf("%s allocates %v times a call", what, n)
	}
}

// Runs returns how often a loop of a test turns: full, or short where go test
// runs with -short, as for a processor that is emulated.
func Runs(full, short int) int {
	if testing.Short() {
		return short
	}
	return full
}

// Step returns the step of a loop over a grid: full, or with -short the coarser
// one.
func Step(full, short float64) float64 {
	if testing.Short() {
		return short
	}
	return full
}

// Draws returns how many random draws a test takes, full or with -short a
// twentieth of it, and by what its tolerance grows with fewer: as the scatter of
// what they find, by the square root of the ratio.
func Draws(full int) (draws int, wider float64) {
	draws = Runs(full, full/20)
	return draws, math.Sqrt(float64(full) / float64(draws))
}
