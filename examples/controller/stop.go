package main

import (
	"errors"
	"io"
	"os"
	"time"
)

// errSignal is the end of an input that a signal ended.
var errSignal = errors.New("stopped by a signal")

const (
	quiet  = 100 * time.Millisecond // without a byte after the signal: all that was sent is here
	utmost = time.Second            // after the signal, for a sender that never pauses
)

// stopReader returns a reader that gives what in gives. After a signal it gives what is on
// its way still, and then errSignal. Its goroutine waits for in until the program ends.
// Firmware, which is not told to stop, goes without.
func stopReader(in io.Reader, signals <-chan os.Signal) io.Reader {
	r := &stopping{signals: signals, chunks: make(chan chunk)}
	go r.pump(in)
	return r
}

type chunk struct {
	data []byte
	err  error
}

type stopping struct {
	signals <-chan os.Signal
	chunks  chan chunk
	rest    []byte
	err     error
	end     time.Time // at the latest, once a signal came
}

// pump reads into one of two buffers while the other is made use of.
func (r *stopping) pump(in io.Reader) {
	var buffers [2][1 << 16]byte
	for i := 0; ; i = 1 - i {
		n, err := in.Read(buffers[i][:])
		r.chunks <- chunk{buffers[i][:n], err}
		if err != nil {
			return
		}
	}
}

func (r *stopping) Read(p []byte) (int, error) {
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
func (r *stopping) wait() {
	var silent <-chan time.Time
	if !r.end.IsZero() {
		silent = time.After(min(quiet, time.Until(r.end)))
	}
	select {
	case c := <-r.chunks:
		r.rest, r.err = c.data, c.err
		if r.err == nil && !r.end.IsZero() && time.Now().After(r.end) {
			r.err = errSignal
		}
	case <-r.signals:
		r.end, r.signals = time.Now().Add(utmost), nil
	case <-silent:
		r.err = errSignal
	}
}
