package paper_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/examples/paper"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

func sample() *paper.Report {
	r := &paper.Report{Title: "A <tank> & more", Verdict: []string{"Do it."}, Steps: []string{"First.", "Then."}}
	r.Glance = &paper.Table{Head: []string{"", "now", "words"}, Left: true}
	r.Glance.Row("Salinity", "35.0", "ppt")
	r.Care("mixing", advice.Caution{ID: "a", Severity: advice.Care, Text: "Lids on."},
		advice.Caution{ID: "b", Severity: advice.Danger, Text: "Mains: unplug."},
		advice.Caution{ID: "c", Severity: advice.Care, Text: "9 K apart (too much): warm it.", Here: true})
	r.Care("dosing", advice.Caution{ID: "b", Severity: advice.Danger, Text: "Mains: unplug."},
		advice.Caution{ID: "d", Severity: advice.Danger, Text: "15 dKH kills; do not.", Here: true})
	r.Assume("Well mixed.", "Well mixed.", "Warm.")
	r.Hides("heater.power", "how long it takes")
	r.Hides("heater.power", "how long it takes")
	c := paper.NewChart("Nitrate", "mg/L", 1)
	for d := range 30 {
		c.Add(time.Duration(d)*24*time.Hour, float64(d))
	}
	c.High = 20
	c.Events = []paper.Event{{At: 24 * time.Hour, What: "change of 20 L & more"}}
	c.Measured = []paper.Measured{{At: 48 * time.Hour, Value: 3, Doubt: 1}}
	r.Add("Ahead", "Some words.", c)
	return r
}

func TestText(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sample().WriteText(&b, paper.Options{}))
	assert.Equal(t, `A <tank> & more
Do it.
 1 First.
 2 Then.
!! 15 dKH kills
!  9 K apart
             now  words
  Salinity  35.0  ppt
?  Not told: heater.power.

Take care, with this job
!! 15 dKH kills; do not.
!  9 K apart (too much): warm it.

Ahead
Some words.
  Nitrate mg/L       ▁▁▁▁▂▂▂▂▃▃▃▃▄▄▄▄▅▅▅▅▆▆▆▆▇▇▇▇████  0.0 to 29.0 <20.0

Not told, and what is left out for it
-  heater.power: how long it takes

Before mixing
-  Mains: unplug.

1 more caution that always holds: -cautions; 2 assumptions: -assumptions.
`, b.String())
	b.Reset()
	require.NoError(t, sample().WriteText(&b, paper.Options{Cautions: true, Assumptions: true, Plain: true}))
	for _, want := range []string{"-  Lids on.\n", "Assumed\n-  Well mixed.\n-  Warm.\n", "____...."} {
		assert.Contains(t, b.String(), want)
	}
	for _, r := range b.String() {
		assert.Less(t, r, rune(128))
	}
	assert.ErrorIs(t, sample().WriteText(full{}, paper.Options{}), errFull)
}

type full struct{}

var errFull = errors.New("full")

func (full) Write([]byte) (int, error) { return 0, errFull }

// wellFormed reads a page as XML, and returns its words.
func wellFormed(t *testing.T, page string) string {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(page))
	d.Entity = xml.HTMLEntity
	var words strings.Builder
	for {
		token, err := d.Token()
		if err == io.EOF {
			return words.String()
		}
		require.NoError(t, err)
		if text, ok := token.(xml.CharData); ok {
			words.Write(text)
		}
	}
}

func TestPage(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sample().WritePage(&b))
	words := wellFormed(t, b.String())
	for _, want := range []string{"A <tank> & more", "First.", "15 dKH kills; do not.", "Lids on.", "Warm.", "how long it takes",
		"change of 20 L & more", "Nitrate mg/L over 29 days, between 0.0 and 29.0, from 0.0 to 29.0; upper limit 20.0; 1 test"} {
		assert.Contains(t, words, want)
	}
	assert.ErrorIs(t, sample().WritePage(full{}), errFull)
}

// Drawings of odd data are drawn soundly or not at all.
func TestOddDrawings(t *testing.T) {
	nan := math.NaN()
	empty, flat, gap := paper.NewChart("a", "", 1), paper.NewChart("b", "", 1), paper.NewChart("c<", "&", 1)
	flat.Add(0, 5)
	flat.Add(time.Hour, 5)
	gap.Add(0, nan)
	gap.Add(time.Hour, 1)
	gap.Add(2*time.Hour, nan)
	gap.Add(3*time.Hour, 1e9)
	gap.Doubt = []float64{nan, math.Inf(1), 1, 2}
	bucket, err := mix.Bucket(30*units.Centimetre, 40*units.Centimetre, 50*units.Centimetre)
	require.NoError(t, err)
	marked, err := mix.Marked(mix.Mark{Height: 200, Volume: 22}, mix.Mark{Height: 500, Volume: 60})
	require.NoError(t, err)
	for _, d := range []paper.Drawing{
		empty, flat, gap,
		&paper.Compare{},
		&paper.Compare{Rows: []paper.Compared{{Name: "a<", Before: nan, New: nan, After: nan, Goal: nan, Low: nan, High: nan},
			{Name: "b", Before: 1, New: 1, After: 1, Goal: nan, Low: nan, High: nan}, {Name: "c", Before: nan, New: 2, After: nan, Goal: 1, Low: 0, High: 3}}},
		&paper.Bucket{}, &paper.Bucket{Vessel: bucket, Water: 400, Full: 402}, &paper.Bucket{Vessel: marked, Water: 300, Full: 302, Scoops: 4},
	} {
		svg := d.SVG()
		wellFormed(t, svg)
		assert.NotContains(t, svg, "NaN")
		assert.NotContains(t, svg, "Inf")
		assert.NotContains(t, d.Words(), "NaN")
		d.Strip(false)
	}
	assert.Empty(t, empty.SVG())
	assert.NotEmpty(t, flat.SVG())
}

// An uncertainty has two digits at most [JCGM 100:2008, 7.2.6], and its value no more decimals.
func TestPlusMinus(t *testing.T) {
	dKH := func(x float64) tested.Level { return tested.AlkalinityOf(units.DKH(x)).In(tested.DKH) }
	for want, of := range map[string][2]float64{
		"0.006 ± 0.004 dKH": {0.00585, 0.0041}, "0.399 ± 0.014 dKH": {0.3987, 0.0141}, "3.2 ± 0.5 dKH": {3.15, 0.48},
		"-0.13 ± 0.09 dKH": {-0.129, 0.091}, "12 ± 20 dKH": {12.3, 20}, "5.0 ± 0.3 dKH": {5, 0.297}, "0.2 dKH": {0.2, 1e-16}, "7.12 dKH": {7.123, math.Inf(1)},
	} {
		assert.Equal(t, want, paper.PlusMinus(dKH(of[0]), dKH(of[1])))
	}
	assert.Equal(t, "2.20 to 4.10 dKH", paper.Between(dKH(2.2), dKH(4.1), dKH(0.24)))
	assert.Empty(t, paper.Between(dKH(2.2), dKH(4.1), tested.Level{}))
	assert.Equal(t, "7 dKH", paper.PlusMinus(dKH(7), tested.Level{}))
}

func TestQuantities(t *testing.T) {
	metric, us, both := paper.Style{}, paper.Style{Units: units.US}, paper.Style{Units: units.Both}
	for got, want := range map[string]string{
		both.Of(48 * units.Litre):                            "12.7 US gal (48 L)",
		metric.Of(310.016 * units.Litre):                     "310 L",
		metric.Of(1617 * units.Gram):                         "1.62 kg",
		us.Of(units.Fahrenheit(78)):                          "78 °F",
		metric.Flow(4 * units.LitrePerDay):                   "4 L a day",
		metric.Flow(7.5 * units.LitrePerHour):                "7.5 L an hour",
		paper.Span(47 * time.Minute):                         "47 min",
		paper.Span(6*time.Hour + 35*time.Minute):             "6 h 35 min",
		paper.Span(time.Hour):                                "1 h",
		paper.Span(5 * time.Hour):                            "5 h",
		paper.Span(24 * time.Hour * 14):                      "14 days",
		paper.Span(24 * time.Hour * 182):                     "26 weeks",
		paper.Span(60 * time.Hour):                           "2.5 days",
		paper.Span(730*time.Hour + 29*time.Minute):           "30 days", // a month
		paper.Span(time.Second):                              "under a minute",
		paper.Digits(0):                                      "0",
		paper.Digits(math.NaN()):                             "?",
		paper.Digits(1234.5):                                 "1234",
		paper.Digits(0.00012345):                             "0.000123",
		paper.Fixed(-0.04, 1):                                "0.0",
		paper.Money(units.Money{}):                           "",
		paper.Money(units.Money{Amount: 3, Currency: "EUR"}): "3.00 EUR",
	} {
		assert.Equal(t, want, got)
	}
}
