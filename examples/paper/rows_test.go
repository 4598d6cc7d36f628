package paper

import (
	"encoding/xml"
	"io"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Factors have a scale of factors: 0.1 is as far from 1 as 10.
func TestRows(t *testing.T) {
	r := &Rows{What: "Beside the sea", Unit: "times", Log: true, Mark: 1, MarkName: "sea", Band: 1.1, Rows: []Rowed{
		{Name: "less", Value: 0.1}, {Name: "as much", Value: 1, Doubt: 0.02}, {Name: "more", Value: 10}, {Name: "<none>", Value: math.NaN(), Note: "below 2"},
		{Name: "nothing", Value: 0, Doubt: 0.3},
	}}
	at, _, _ := r.scale()
	assert.InDelta(t, 0.5, at(1), 1e-12)
	assert.InDelta(t, at(1)-at(0.1), at(10)-at(1), 1e-12)
	assert.Zero(t, at(0), "below all that a scale of factors has")
	assert.Zero(t, at(-1))
	assert.Equal(t, "Beside the sea: less 0.1; as much 1.00 ± 0.02; more 10; <none> below 2; nothing 0.0 ± 0.3", r.Words())
	assert.Equal(t, []string{
		"  less    ..o.................|....................  0.1",
		"  as much ....................o....................  1.00",
		"  more    ....................|.................o..  10",
		"  <none>  ....................|....................  below 2",
		"  nothing o...................|....................  0.0",
	}, r.Strip(true))
	svg := r.SVG()
	assert.NotContains(t, svg, "NaN")
	assert.NotContains(t, svg, "Inf")
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else {
			require.NoError(t, err)
		}
	}
	assert.Empty(t, (&Rows{Mark: math.NaN()}).SVG())
	one := &Rows{What: "One", Unit: "ppt", Mark: math.NaN(), Rows: []Rowed{{Name: "a", Value: 35, Doubt: 0.25}}}
	assert.Equal(t, "One: a 35.0 ± 0.2", one.Words())
	assert.NotContains(t, one.SVG(), "NaN")
}
