package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"time"

	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

const (
	day     = 24 * 60 * 60 // s
	undated = -1           // before the first sample
)

// statistics gathers values one at a time by the recurrence of Welford (1962,
// Technometrics 4, 419-420), which keeps its digits where a sum of squares loses
// them.
type statistics struct {
	count            int64
	mean, m2         float64 // m2 is the sum of squared distances from the mean
	least, most      float64
	discarded, wrong int64 // samples that are no tank's water; lines that are no samples
	absurd           int64 // samples at a temperature that no tank has
}

func (s *statistics) add(x float64) {
	if s.count == 0 {
		s.least, s.most = x, x
	}
	s.count++
	d := x - s.mean
	s.mean += d / float64(s.count)
	s.m2 += d * (x - s.mean)
	s.least, s.most = min(s.least, x), max(s.most, x)
}

// deviation returns the standard deviation of the samples.
func (s *statistics) deviation() float64 {
	if s.count < 2 {
		return 0
	}
	return math.Sqrt(s.m2 / float64(s.count-1))
}

// merge adds the statistics of other samples (Chan, Golub and LeVeque 1979).
func (s *statistics) merge(o *statistics) {
	s.discarded += o.discarded
	s.wrong += o.wrong
	s.absurd += o.absurd
	if o.count == 0 {
		return
	}
	if s.count == 0 {
		s.least, s.most = o.least, o.most
	}
	n, m := float64(s.count), float64(o.count)
	d := o.mean - s.mean
	s.mean += d * m / (n + m)
	s.m2 += o.m2 + d*d*n*m/(n+m)
	s.least, s.most = min(s.least, o.least), max(s.most, o.most)
	s.count += o.count
}

// leastSalt and mostSalt bound what a tank with a sensor in it has, in ppt: to 42 PSS-78 holds.
const leastSalt, mostSalt = 1, 42

// believable tells whether a salinity is that of a tank with a sensor in it.
func believable(s float64) bool { return s >= leastSalt && s <= mostSalt }

// Temperatures that no tank has, in °C (common practice): a slipped point, °F for °C, a sensor that
// lies in the sun.
const coldest, hottest = 5, 40

// logbook is what is kept of the log so far, and where the days are written.
type logbook struct {
	out        io.Writer
	err        error // of writing
	date       int64 // days since 1970
	today, all statistics
}

// take counts one line.
func (l *logbook) take(line []byte) {
	x, ok := parse(line)
	if !ok {
		l.today.wrong++
		return
	}
	if d := x.second / day; d != l.date {
		l.close()
		l.date = d
	}
	if c := x.temperature.Celsius(); !(c >= coldest && c <= hottest) {
		l.today.absurd++
		return
	}
	s := pss78.Salinity(x.conductivity, x.temperature, 0).Value()
	if !believable(s) {
		l.today.discarded++
		return
	}
	l.today.add(s)
}

// close ends a day.
func (l *logbook) close() {
	if l.today == (statistics{}) {
		return
	}
	l.write(dated(l.date), &l.today)
	l.all.merge(&l.today)
	l.today = statistics{}
}

// errNoSample is the error of what is no log.
var errNoSample = errors.New("no sample in the log: want lines of seconds,conductivity,temperature such as " +
	"1767225600,53.071,25.01")

// garbageError is the error of what is hardly a log, though something was read of it.
type garbageError struct {
	bad, lines int64
	most       units.Fraction
}

func (e *garbageError) Error() string {
	return fmt.Sprintf("%d of %d lines, %.3g %%, are no samples or at temperatures that no tank has: more than the %v "+
		"that -wrong lets pass", e.bad, e.lines, 100*float64(e.bad)/float64(e.lines), e.most)
}

// garbage judges what was read: most is the share of bad lines that may be.
func (s *statistics) garbage(most units.Fraction) error {
	bad := s.wrong + s.absurd
	lines := s.count + s.discarded + bad
	switch {
	case s.count+s.discarded+s.absurd == 0:
		return errNoSample
	case float64(bad) > most.Value()*float64(lines):
		return &garbageError{bad, lines, most}
	case s.count == 0:
		return errNoWater
	}
	return nil
}

// errNoWater is the error of a log of a sensor that hung beside the tank.
var errNoWater = fmt.Errorf("no sample of a tank's water in the log: all are below %d or above %d ppt", leastSalt,
	mostSalt)

// question says what was left out for its temperature.
func (l *logbook) question() {
	if l.err == nil && l.all.absurd > 0 {
		_, l.err = fmt.Fprintf(l.out, "%d samples left out: no tank is below %d or above %d °C. Look at the sensor, the "+
			"point and the unit.\n", l.all.absurd, coldest, hottest)
	}
}

// summarise reads a log and writes a line per day and one for all. A log that breaks
// off is summarised as far as it goes, beside the error, and so is one of which more than a
// share is bad.
func summarise(in io.Reader, out io.Writer, most units.Fraction) error {
	l := logbook{out: out, date: undated}
	_, l.err = fmt.Fprintln(out,
		"day         samples     mean      min      max   st.dev.  discarded  absurd °C  wrong lines")
	r := bufio.NewReaderSize(in, 1<<16)
	var err error
	for number := 1; err == nil && l.err == nil; number++ {
		var line []byte
		line, err = r.ReadSlice('\n')
		long := err == bufio.ErrBufferFull // not a line of a log
		for err == bufio.ErrBufferFull {
			_, err = r.ReadSlice('\n')
		}
		if number == 1 {
			line = bytes.TrimPrefix(line, []byte("\ufeff")) // a byte-order mark
		}
		switch {
		case err != nil && err != io.EOF: // half a line
		case number == 1 && isHeading(line): // not wrong
		case long:
			l.today.wrong++
		case len(line) > 0:
			l.take(line)
		}
	}
	l.close()
	l.write("all", &l.all)
	l.question()
	switch {
	case l.err != nil:
		return l.err
	case err != io.EOF:
		return err
	}
	return l.all.garbage(most)
}

// isHeading tells a line of words from a sample.
func isHeading(line []byte) bool {
	line = bytes.TrimLeft(line, "\" \t#")
	return len(line) > 0 && (line[0]|0x20 >= 'a' && line[0]|0x20 <= 'z')
}

func dated(d int64) string {
	if d == undated {
		return "undated"
	}
	return time.Unix(d*day, 0).UTC().Format(time.DateOnly)
}

// write writes one line of the table, unless one before it failed.
func (l *logbook) write(name string, s *statistics) {
	if l.err != nil {
		return
	}
	if s.count == 0 {
		_, l.err = fmt.Fprintf(l.out, "%-10s %8d        -        -        -         - %10d %10d %12d\n", name, 0, s.discarded,
			s.absurd, s.wrong)
		return
	}
	_, l.err = fmt.Fprintf(l.out, "%-10s %8d %8.3f %8.3f %8.3f %9.4f %10d %10d %12d\n", name, s.count, s.mean, s.least,
		s.most, s.deviation(), s.discarded, s.absurd, s.wrong)
}
