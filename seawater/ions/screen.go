package ions

import (
	"math"
	"slices"
	"strconv"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// slip is by what factor a measurement has to differ from its share in the sea to be
// doubted. Tanks and salts of odd make mostly stay within it; a slipped point (10),
// sulfate counted as its sulfur (2.996) and calcium counted as its carbonate (2.497) do not.
const slip = 2.4

// doubts lists the measurements that differ by more than the factor slip, and by more than
// 3 standard uncertainties, from what goes with the rest of the report in the sea,
// and names the one that differs most. What the sea does not hold is not screened.
func (c *closing) doubts() (list []string, worst string) {
	strength := c.strength()
	largest := 0.
	for i := range c.lines {
		l := &c.lines[i]
		sea := seaOf(l)
		if !(sea > 0) {
			continue
		}
		value, low, high := l.value, sea*strength, sea*strength
		if l.kind == alkalinity || l.kind == carbon { // fresh water has its own
			high = sea * math.Max(1, strength)
		}
		if l.Below { // the most that it can be
			value *= 2
			high = math.Inf(1)
		}
		off := math.Max(low/value, value/high)
		if !(off > slip) || !l.Below && math.Abs(value-sea*strength) <= 3*l.u {
			continue
		}
		list = append(list, l.Quantity+": "+input.Number(l.Value)+" "+l.Unit+" is "+strconv.FormatFloat(value/(sea*strength),
			'g', 2, 64)+
			" times what goes with the rest of the report in the sea: look for a slipped point, a unit, or what it is "+
			"counted as")
		if off > largest {
			largest, worst = off, l.Quantity
		}
	}
	return list, worst
}

// strength is how strong a seawater the report tells of, 1 at salinity 35: the median of
// what its lines say, or what is dissolved if they are too few to outvote a wrong one.
func (c *closing) strength() float64 {
	var votes []float64
	for i := range c.lines {
		if l := &c.lines[i]; !l.Below && seaOf(l) > 0 {
			votes = append(votes, l.value/seaOf(l))
		}
	}
	if len(votes) < 3 {
		return c.made.grams() / (35 * referenceUnit)
	}
	slices.Sort(votes)
	return votes[len(votes)/2]
}

// seaOf is what seawater of salinity 35 has of the quantity of a line, in the unit of its
// value; 0 if it has none.
func seaOf(l *line) float64 {
	sea := Reference(units.Practical(35))
	switch {
	case l.kind == alkalinity:
		return float64(sea.Alkalinity())
	case l.kind == carbon:
		return float64(sea.Carbon())
	case l.kind == bulk && l.whole == byChlorinity:
		return sea.Chlorinity().GramsPerKilogram()
	case l.kind == bulk:
		return sea.grams()
	case l.ion == BoricAcid:
		return float64(sea.Boron())
	}
	return float64(sea.content[l.ion])
}
