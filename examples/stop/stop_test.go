package stop_test

import (
	"bytes"
	"io"
	"os"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/stop"
)

func TestReaderGivesAll(t *testing.T) {
	text := []byte(strings.Repeat("53.1 25\n", 1<<15))
	require.NoError(t, iotest.TestReader(stop.Reader(bytes.NewReader(text), nil), text))
	require.NoError(t, iotest.TestReader(stop.Reader(iotest.OneByteReader(strings.NewReader("short")), nil), []byte("short")))
	got, err := io.ReadAll(stop.Reader(iotest.TimeoutReader(iotest.OneByteReader(strings.NewReader("ab"))), nil))
	assert.Equal(t, "a", string(got))
	assert.Equal(t, iotest.ErrTimeout, err)
}

func TestSignalEndsASilentInput(t *testing.T) {
	in, feed := io.Pipe()
	signals := make(chan os.Signal, 1)
	go func() {
		feed.Write([]byte("before "))
		signals <- os.Interrupt
		feed.Write([]byte("on its way"))
	}()
	got, err := io.ReadAll(stop.Reader(in, signals))
	assert.Equal(t, stop.ErrSignal, err)
	assert.Equal(t, "before on its way", string(got))
}

func TestSignalEndsAnEndlessInput(t *testing.T) {
	signals := make(chan os.Signal, 1)
	signals <- os.Interrupt
	start := time.Now()
	n, err := io.Copy(io.Discard, stop.Reader(endless{}, signals))
	assert.Equal(t, stop.ErrSignal, err)
	assert.Positive(t, n)
	assert.Less(t, time.Since(start), 20*time.Second)
}

type endless struct{}

func (endless) Read(p []byte) (int, error) { return len(p), nil }
