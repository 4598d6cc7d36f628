// Package hometest tries a command as a keeper would: whole reports against files, the
// first screen, the page.
package hometest

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/wellmixed/examples/home"
)

// Screen is how many lines a screen has.
const Screen = 24

// Run runs a command.
func Run(c *home.Command, args ...string) (string, error) {
	var out bytes.Buffer
	err := c.Run(args, &out, io.Discard)
	return out.String(), err
}

// File writes a home into a file.
func File(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "home.json")
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// Page runs a command and returns the page that it writes.
func Page(t *testing.T, c *home.Command, args ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "page.html")
	if _, err := Run(c, append(args, "-html", path)...); err != nil {
		t.Fatal(err)
	}
	page, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(page)
}

// Same compares with a file in testdata, or writes it. Numbers may differ in the last
// digit that processors round differently.
func Same(t *testing.T, name, got string, update bool) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if update {
		if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	a, b := strings.Split(string(data), "\n"), strings.Split(got, "\n")
	for i := range max(len(a), len(b)) {
		switch {
		case i >= len(a) || i >= len(b):
			t.Fatalf("%s: %d lines, got %d", name, len(a), len(b))
		case !nearly(name, a[i], b[i]):
			t.Fatalf("%s, line %d:\nwant %s\ngot  %s", name, i+1, a[i], b[i])
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

// FirstScreen checks that the answer fits on a screen, and that the whole report begins
// with it.
func FirstScreen(t *testing.T, c *home.Command, args ...string) {
	t.Helper()
	short, err := Run(c, append(args, "-short")...)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := Run(c, args...)
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(short, "\n"); n > Screen {
		t.Errorf("the first screen has %d lines:\n%s", n, short)
	}
	if !strings.HasPrefix(whole, short) {
		t.Errorf("the report does not begin with the first screen:\n%s", short)
	}
}

// WellFormed checks a page: sound XML, nothing from a network, no script, and each
// drawing named for those who do not see it. It returns how many drawings there are.
func WellFormed(t *testing.T, page string) (drawings int) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(page))
	named := true
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		e, opens := token.(xml.StartElement)
		if !opens {
			continue
		}
		if !named && e.Name.Local != "title" {
			t.Error("a drawing without a title")
		}
		switch named = true; e.Name.Local {
		case "svg":
			drawings++
			named = false
		case "script", "link", "img", "iframe", "object":
			t.Errorf("a page with <%s>", e.Name.Local)
		}
		for _, a := range e.Attr {
			if a.Name.Local == "src" || a.Name.Local == "href" || strings.Contains(a.Value, "NaN") {
				t.Errorf("%s=%q in <%s>", a.Name.Local, a.Value, e.Name.Local)
			}
		}
	}
	return drawings
}

// JSON reads what a command writes for programs.
func JSON(t *testing.T, into any, c *home.Command, args ...string) {
	t.Helper()
	out, err := Run(c, append(args, "-json")...)
	if err == nil {
		err = json.Unmarshal([]byte(out), into)
	}
	if err != nil {
		t.Fatal(err)
	}
}
