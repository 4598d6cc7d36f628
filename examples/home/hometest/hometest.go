// Package hometest tries the commands that answer from the file of a home.
package hometest

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/home"
)

// Run runs a command and returns what it writes.
func Run(c *home.Command, args ...string) (string, error) {
	var out bytes.Buffer
	err := c.Run(args, &out, io.Discard)
	return out.String(), err
}

// Output is Run. Beside an error nothing is written.
func Output(t testing.TB, c *home.Command, args ...string) (string, error) {
	t.Helper()
	out, err := Run(c, args...)
	if err != nil {
		assert.Empty(t, out, "half a report beside an error: %v", args)
	}
	return out, err
}

// File writes a file for a command to read.
func File(t testing.TB, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "home.json")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
	return path
}

// Golden compares a text with the one that is kept, or keeps it. Of JSON and drawings the
// last digits may differ, which processors round differently. The style of a page, which
// stands in package paper, is not kept again.
func Golden(t testing.TB, update bool, name, got string) {
	t.Helper()
	if before, rest, styled := strings.Cut(got, "<style>"); styled {
		_, after, _ := strings.Cut(rest, "</style>")
		got = before + "<style></style>" + after
	}
	path := filepath.Join("testdata", name)
	if update {
		require.NoError(t, os.MkdirAll("testdata", 0o777))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o666))
	}
	kept, err := os.ReadFile(path)
	require.NoError(t, err)
	want, have := strings.Split(string(kept), "\n"), strings.Split(got, "\n")
	if len(want) != len(have) {
		assert.Empty(t, cmp.Diff(want, have), name)
		return
	}
	for i := range want {
		if !nearly(name, want[i], have[i]) {
			assert.Equal(t, want[i], have[i], "%s, line %d", name, i+1)
		}
	}
}

var number = regexp.MustCompile(`-?\d+(\.\d+)?(e[-+]?\d+)?`)

// nearly compares the numbers of JSON to nine digits and places in drawings to a tenth;
// of a text every character.
func nearly(name, a, b string) bool {
	if a == b {
		return true
	}
	x, y := number.FindAllString(a, -1), number.FindAllString(b, -1)
	if strings.HasSuffix(name, ".txt") || number.ReplaceAllString(a, "#") != number.ReplaceAllString(b, "#") {
		return false
	}
	for i := range x {
		p, _ := strconv.ParseFloat(x[i], 64)
		q, _ := strconv.ParseFloat(y[i], 64)
		most := 1e-9*math.Abs(p) + 1e-12
		if strings.HasSuffix(name, ".html") {
			most = 0.101
		}
		if !(math.Abs(p-q) <= most) {
			return false
		}
	}
	return true
}

// screen is how many lines there are on one.
const screen = 24

// Try asks of a command what every one of them has to do with a file: to answer on one
// screen, to write a page that is sound XML with words beside each drawing, and JSON.
func Try(t testing.TB, c *home.Command, args ...string) {
	t.Helper()
	first, err := Output(t, c, append([]string{"-short"}, args...)...)
	require.NoError(t, err, args)
	assert.LessOrEqual(t, strings.Count(first, "\n"), screen, "%v: the first screen\n%s", args, first)
	assert.NotContains(t, first, "NaN")

	whole, err := Output(t, c, append([]string{"-cautions", "-assumptions", "-plain"}, args...)...)
	require.NoError(t, err, args)
	assert.True(t, strings.HasPrefix(whole, strings.TrimSuffix(first, "\n")), "the answer first")
	assert.NotContains(t, whole, "NaN")
	WellFormed(t, PageOf(t, c, args...))

	numbers, err := Output(t, c, append([]string{"-json"}, args...)...)
	require.NoError(t, err, args)
	assert.True(t, json.Valid([]byte(numbers)))
}

// TryAll tries the file of the command itself, the home that says all that can be said, and
// what every command refuses.
func TryAll(t testing.TB, c *home.Command) {
	t.Helper()
	Try(t, c)
	Try(t, c, "-file", File(t, string(home.Full())))
	for name, text := range map[string]string{
		"list": `[]`, "broken": `{`, "two": `{}{}`, "key": `{"tnak": "1 L"}`, "number": `{"tank": {"volume": 5}}`,
	} {
		_, err := Output(t, c, "-file", File(t, text))
		assert.Error(t, err, name)
	}
	_, err := Output(t, c, "-file", "no such file.json")
	assert.ErrorIs(t, err, os.ErrNotExist)
	_, err = Output(t, c, "-unknown")
	assert.Error(t, err)
	_, err = Output(t, c, "-file", File(t, `{"tank": {"volume": "5", "temperature": "25"}}`))
	assert.ErrorContains(t, err, "tank.volume")
	assert.ErrorContains(t, err, "tank.temperature", "all complaints at once")
	shown, err := Output(t, c, "-example")
	require.NoError(t, err)
	if len(c.Start) > 0 {
		Try(t, c, "-file", File(t, shown))
	} else {
		assert.Equal(t, string(c.Example), shown)
	}
	assert.LessOrEqual(t, strings.Count(shown, "\n"), screen, "an example is short")
}

// PageOf runs a command and returns the page that it writes.
func PageOf(t testing.TB, c *home.Command, args ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "page.html")
	_, err := Output(t, c, append(args, "-html", path)...)
	require.NoError(t, err, args)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// JSON reads what a command writes for programs.
func JSON(t testing.TB, into any, c *home.Command, args ...string) {
	t.Helper()
	out, err := Output(t, c, append(args, "-json")...)
	require.NoError(t, err, args)
	require.NoError(t, json.Unmarshal([]byte(out), into))
}

// WellFormed asks of a page that it is sound XML, that each drawing has a title, and that it
// needs nothing from elsewhere. It returns how many drawings there are.
func WellFormed(t testing.TB, page string) int {
	t.Helper()
	assert.NotContains(t, page, "<script")
	assert.NotContains(t, page, "NaN")
	d := xml.NewDecoder(strings.NewReader(page))
	d.Entity = xml.HTMLEntity
	svgs, titles := 0, 0
	var open []string
	for {
		token, err := d.Token()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		switch e := token.(type) {
		case xml.StartElement:
			for _, a := range e.Attr {
				if a.Name.Local == "src" || a.Name.Local == "href" {
					t.Errorf("the page needs %s", a.Value)
				}
			}
			if e.Name.Local == "svg" {
				svgs++
			}
			if n := len(open); e.Name.Local == "title" && n > 0 && open[n-1] == "svg" {
				titles++
			}
			open = append(open, e.Name.Local)
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
	assert.Equal(t, svgs, titles, "drawings, and those with words")
	return svgs
}
