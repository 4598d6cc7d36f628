// Package stop ends the input of a program that is told to stop, so that nothing
// that has arrived by then goes unanswered.
package stop

import (
	"errors"
	"io"
	"os"
	"time"
)

// ErrSignal is the end of an input that a signal ended.
var ErrSignal = errors.New("stopped by a signal")

const (
	quiet  = 100 * time.Millisecond // without a byte after the signal: all that was sent is here
	utmost = time.Second            // after the signal, for a sender that never pauses
)

// Reader returns a reader that gives what in gives. After a signal it gives what is
// on its way still, and then ErrSignal, even if in has nothing to say. To read
// without end it needs a goroutine, which waits for in until the program ends.
func Reader(in io.Reader, signals <-chan os.Signal) io.Reader {
	r := &reader{signals: signals, chunks: make(chan chunk)}
	go r.pump(in)
	return r
}

type chunk struct {
	data []byte
	err  error
}

type reader struct {
	signals <-chan os.Signal
	chunks  chan chunk
	rest    []byte
	err     error
	end     time.Time // at the latest, once a signal came
}

// pump reads into one of two buffers while the other is made use of.
func (r *reader) pump(in io.Reader) {
	var buffers [2][1 << 16]byte
	for i := 0; ; i = 1 - i {
		n, err := in.Read(buffers[i][:])
		r.chunks <- chunk{buffers[i][:n], err}
		if err != nil {
			return
		}
	}
}

func (r *reader) Read(p []byte) (int, error) {
	for len(r.rest) == 0 {
		if r.err != nil {
			return 0, r.err
		}
		r.wait()
	}
	n := copy(p, r.rest)
	r.rest = r.rest[n:]
	return n, nil
}

// wait waits for what comes next.
func (r *reader) wait() {
	var silent <-chan time.Time
	if !r.end.IsZero() {
		silent = time.After(min(quiet, time.Until(r.end)))
	}
	select {
	case c := <-r.chunks:
		r.rest, r.err = c.data, c.err
		if r.err == nil && !r.end.IsZero() && time.Now().After(r.end) {
			r.err = ErrSignal
		}
	case <-r.signals:
		r.end, r.signals = time.Now().Add(utmost), nil
	case <-silent:
		r.err = ErrSignal
	}
}
