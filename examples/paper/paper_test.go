package paper_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"strconv"
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

// What reads the same is one point, and every mark has its number beside it, apart from the
// next one.
func TestCompare(t *testing.T) {
	nan := math.NaN()
	svg := func(r paper.Compared) string { return (&paper.Compare{Rows: []paper.Compared{r}}).SVG() }
	noise := svg(paper.Compared{Name: "Temperature", Unit: "°F", Before: 78, New: 78, After: 78 - 1e-13, Goal: nan, Low: nan, High: nan})
	rows := noise[strings.Index(noise, ">Temperature<"):]
	places := regexp.MustCompile(`<text class="small" x="([0-9.]+)" y="[0-9.]+" text-anchor="middle">78.0<`).FindAllStringSubmatch(rows, -1)
	require.Len(t, places, 2, "the new water above, the tank before and after below")
	assert.Equal(t, places[0][1], places[1][1])
	magnesium := svg(paper.Compared{Name: "Magnesium", Unit: "mg/L", Before: 1270, New: 1310, After: 1276, Goal: 1340, Low: nan, High: nan})
	at := map[string]float64{}
	for _, m := range regexp.MustCompile(`x="([0-9.]+)" y="[0-9.]+" text-anchor="middle">(\d+)<`).FindAllStringSubmatch(magnesium, -1) {
		at[m[2]], _ = strconv.ParseFloat(m[1], 64)
	}
	require.Len(t, at, 4)
	assert.Less(t, at["1270"]+35, at["1276"])
	assert.Less(t, at["1276"], at["1310"])
	assert.Less(t, at["1310"], at["1340"])
	diamond := regexp.MustCompile(`class="after" d="M([0-9.]+)`).FindAllStringSubmatch(magnesium, -1)
	x, _ := strconv.ParseFloat(diamond[1][1], 64) // the first is the legend
	assert.InDelta(t, x, at["1276"], 25)
}

// Words of a line that goes nowhere do not say it four times; a caption has no numbers of it.
func TestCaptions(t *testing.T) {
	flat := paper.NewChart("Magnesium", "mg/L Mg", 0)
	flat.Add(0, 1320.01)
	flat.Add(365*24*time.Hour, 1319.99)
	flat.Doubt = []float64{1, 2}
	assert.Equal(t, "Magnesium mg/L Mg over a year, at 1320 throughout", flat.Words())
	assert.Equal(t, "Over a year; the band is one standard uncertainty to either side.", flat.Caption())
	var b bytes.Buffer
	require.NoError(t, sample().WritePage(&b))
	assert.Contains(t, b.String(), "<figcaption>Over 29 days; the dots are tests.</figcaption>")
	for _, d := range []paper.Drawing{&paper.Compare{}, &paper.Bucket{}, &paper.Rows{What: "What"}} {
		assert.NotEmpty(t, d.Caption())
		assert.Less(t, len(d.Caption()), 80)
	}
}

// A limit is named in the margin, and stands over the band.
func TestLimitsOfAChart(t *testing.T) {
	c := paper.NewChart("Alkalinity", "dKH", 1)
	c.Low, c.High = 7, 9.5
	c.Add(0, 8)
	c.Add(time.Hour, 8.5)
	c.Doubt = []float64{1, 2}
	svg := c.SVG()
	assert.Less(t, strings.Index(svg, `class="band"`), strings.Index(svg, `class="beyond"`))
	edge := 0.
	for _, m := range regexp.MustCompile(`class="limit" x1="[0-9.]+" y1="[0-9.]+" x2="([0-9.]+)"`).FindAllStringSubmatch(svg, -1) {
		edge, _ = strconv.ParseFloat(m[1], 64)
	}
	assert.Positive(t, edge)
	for _, name := range []string{"at most", "9.5", "at least", "7"} {
		m := regexp.MustCompile(`x="([0-9.]+)" y="[0-9.]+" text-anchor="start">` + name + `<`).FindStringSubmatch(svg)
		require.NotNil(t, m, name)
		x, _ := strconv.ParseFloat(m[1], 64)
		assert.Greater(t, x, edge, name)
	}
}

// The scales of the vessel are those that are wanted, by their whole names, and nothing is
// blank above it.
func TestBucketScales(t *testing.T) {
	tall, err := mix.Bucket(30*units.Centimetre, 40*units.Centimetre, 50*units.Centimetre)
	require.NoError(t, err)
	wide, err := mix.Box(100*units.Centimetre, 100*units.Centimetre, 20*units.Centimetre)
	require.NoError(t, err)
	for _, v := range []mix.Vessel{tall, wide} {
		b := &paper.Bucket{Vessel: v, Water: 100, Full: 105, Scoops: 11}
		metric := b.SVG()
		b.Style.Units = units.US
		us := b.SVG()
		b.Style.Units = units.Both
		both := b.SVG()
		assert.NotContains(t, metric, "gal")
		assert.Contains(t, us, " US gal<")
		assert.NotContains(t, us, " L<")
		assert.Contains(t, both, " US gal<")
		assert.Contains(t, both, " L<")
		wall := regexp.MustCompile(`class="wall" points="[0-9.]+,([0-9.]+) `).FindStringSubmatch(metric)
		y, _ := strconv.ParseFloat(wall[1], 64)
		assert.InDelta(t, 16, y, 0.2, "the brim is at the top of the drawing")
	}
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
