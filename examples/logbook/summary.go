package main

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"time"

	"example.org/wellmixed/seawater/pss78"
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

// believable tells whether a salinity is that of a tank with a sensor in it.
func believable(s float64) bool { return s >= 1 && s <= 42 }

// logbook is what is kept of the log so far, and where the days are written.
type logbook struct {
	out        io.Writer
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
	write(l.out, dated(l.date), &l.today)
	l.all.merge(&l.today)
	l.today = statistics{}
}

// summarise reads a log and writes a line per day and one for all.
func summarise(in io.Reader, out io.Writer) error {
	fmt.Fprintln(out, "day         samples     mean      min      max   st.dev.  discarded  wrong lines")
	l := logbook{out: out, date: undated}
	r := bufio.NewReaderSize(in, 1<<16)
	for number := 1; ; number++ {
		line, err := r.ReadSlice('\n')
		long := err == bufio.ErrBufferFull // not a line of a log
		for err == bufio.ErrBufferFull {
			_, err = r.ReadSlice('\n')
		}
		if err != nil && err != io.EOF {
			return err
		}
		switch {
		case number == 1 && isHeading(line): // not wrong
		case long:
			l.today.wrong++
		case len(line) > 0:
			l.take(line)
		}
		if err == io.EOF {
			l.close()
			write(out, "all", &l.all)
			return nil
		}
	}
}

// isHeading tells a line of words from a sample.
func isHeading(line []byte) bool { return len(line) > 0 && (line[0] < '0' || line[0] > '9') }

func dated(d int64) string {
	if d == undated {
		return "undated"
	}
	return time.Unix(d*day, 0).UTC().Format(time.DateOnly)
}

func write(out io.Writer, name string, s *statistics) {
	if s.count == 0 {
		fmt.Fprintf(out, "%-10s %8d        -        -        -         - %10d %12d\n", name, 0, s.discarded, s.wrong)
		return
	}
	fmt.Fprintf(out, "%-10s %8d %8.3f %8.3f %8.3f %9.4f %10d %12d\n", name, s.count, s.mean, s.least, s.most, s.deviation(), s.discarded, s.wrong)
}
