// Package hometest tries the commands that answer from the file of a home.
package hometest

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/home"
)

// Output runs a command and returns what it writes. Beside an error it writes nothing.
func Output(t testing.TB, c *home.Command, args ...string) (string, error) {
	t.Helper()
	var out bytes.Buffer
	err := c.Run(args, &out, io.Discard)
	if err != nil {
		assert.Empty(t, out.String(), "half a report beside an error: %v", args)
	}
	return out.String(), err
}

// File writes a file for a command to read.
func File(t testing.TB, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "home.json")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
	return path
}

// Golden compares a text with the one that is kept, or keeps it.
func Golden(t testing.TB, update bool, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if update {
		require.NoError(t, os.MkdirAll("testdata", 0o777))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o666))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Empty(t, cmp.Diff(string(want), got), name)
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

	page := filepath.Join(t.TempDir(), "page.html")
	whole, err := Output(t, c, append([]string{"-html", page, "-cautions", "-assumptions", "-plain"}, args...)...)
	require.NoError(t, err, args)
	assert.True(t, strings.HasPrefix(whole, strings.TrimSuffix(first, "\n")), "the answer first")
	assert.NotContains(t, whole, "NaN")
	text, err := os.ReadFile(page)
	require.NoError(t, err)
	Page(t, string(text))

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
	assert.Equal(t, string(c.Example), shown)
	assert.LessOrEqual(t, strings.Count(shown, "\n"), screen, "an example is short")
}

// Page asks of a page that it is sound XML, that each drawing has a title, and that it needs
// nothing from elsewhere.
func Page(t testing.TB, page string) {
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
}
