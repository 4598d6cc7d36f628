package ions

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// Screened is one line of a report beside the sea.
type Screened struct {
	Measurement
	Of   string  // what the line is of, whatever it calls it: "calcium", "boron", "alkalinity"
	Sea  float64 // what goes with the rest of the report in the sea, in the unit of the line; 0: not told
	Slip float64 // by what the value seems to be wrong: 0.1, 10, 2.497; 0: by nothing that slips
	How  string  // how that comes about: "a slipped point", "counted as CaCO3"
}

// Ratio returns how many times what the sea has was found; NaN if that is not told, or if
// the line is below a limit of detection.
func (s Screened) Ratio() float64 {
	if s.Below || !(s.Sea > 0) {
		return math.NaN()
	}
	return s.Value / s.Sea
}

// How near a value has to come to one that slipped. Tanks and salts of odd make differ from
// the sea by themselves: the large ions by a quarter, what is dosed by more (common
// practice). So a slip is named where a ratio is near a power of ten, or near the quotient of
// two ways of counting the same ion, and nowhere else.
const (
	nearTen      = 1.6  // a fifth of a decade
	nearCounting = 1.25 // NO3 to N is 4.43, PO4 to P 3.07, CaCO3 to Ca 2.50, SO4 to S 3.00
	mostDecades  = 6
)

// Screen holds every line of the report against seawater as strong as the report tells, and
// names slips of a factor. It does not need the charges to balance: where [Report.Close] finds
// no water that fits, a slip may be why.
//
//	symbol   ratio r = value/(s × sea of salinity 35), s the median of r at s = 1; of fewer than
//	         three lines that of salinity or the like, or of chloride
//	slip     r within a factor 1.6 of a power of ten, or within 1.25 of a quotient of countings
//
// What the sea does not hold in a steady proportion, nitrate and phosphate among it, is not
// screened. A litre is one of that seawater. The error is that of Close for a line that cannot
// be read; all that cannot are named.
func (r Report) Screen() ([]Screened, error) {
	var c closing
	if err := c.read(r); err != nil {
		return nil, err
	}
	strength, rho := math.NaN(), units.Density(1023)
	for range 2 {
		if err := c.convert(rho); err != nil {
			return nil, err
		}
		if strength = c.said(); !(strength > 0) {
			break
		}
		rho = teos10.DensityExact(units.Absolute(math.Min(strength, 1.2)*35*referenceUnit), c.t, 0)
	}
	list := make([]Screened, len(r))
	for i, m := range r {
		list[i] = Screened{Measurement: m, Of: nameOf(m)}
	}
	for i := range c.lines {
		l := &c.lines[i]
		k := slices.Index(r, l.Measurement)
		if sea := seaOf(l) * strength; sea > 0 && l.kind != bulk {
			list[k].Sea = sea / l.scale.perKilogram(l.counted, rho)
			list[k].Slip, list[k].How = l.slip(list[k].Ratio())
		}
	}
	return list, nil
}

// said is how strong a seawater the lines tell of, 1 at salinity 35.
func (c *closing) said() float64 {
	var votes []float64
	best := math.NaN()
	for i := range c.lines {
		l := &c.lines[i]
		if l.Below || !(seaOf(l) > 0) {
			continue
		}
		vote := l.value / seaOf(l)
		votes = append(votes, vote)
		if l.kind == bulk || l.ion == Chloride && l.kind == content && math.IsNaN(best) {
			best = vote
		}
	}
	if len(votes) < 3 {
		return best
	}
	slices.Sort(votes)
	return votes[len(votes)/2]
}

// nameOf is what a measurement is of.
func nameOf(m Measurement) string {
	q, err := meaning(m.Quantity)
	switch {
	case err != nil || q.kind == trace || q.kind == bulk || q.kind == temperature:
		return strings.TrimSpace(m.Quantity)
	case q.kind == alkalinity:
		return "alkalinity"
	case q.kind == carbon:
		return "carbon"
	case q.kind == acidity:
		return "pH"
	case q.ion == BoricAcid:
		return "boron"
	}
	return species[q.ion].name
}

// apart tells whether a factor is more than tanks make by themselves.
func apart(factor float64) bool { return math.Abs(math.Log(factor)) > math.Log(slip/nearCounting) }

// slip finds the slip that makes a ratio, the nearest of those that come near enough.
func (l *line) slip(ratio float64) (factor float64, how string) {
	if !(ratio > 0) {
		return 0, ""
	}
	nearest := math.Inf(1)
	try := func(f, within float64, text string) {
		if off := math.Abs(math.Log(ratio / f)); off < math.Log(within) && off < nearest {
			nearest, factor, how = off, f, text
		}
	}
	for n := 1; n <= mostDecades; n++ {
		ten := math.Pow(10, float64(n))
		try(ten, nearTen, "the point or the unit, by "+strconv.Itoa(int(ten)))
		try(1/ten, nearTen, "the point or the unit, by "+strconv.Itoa(int(ten)))
	}
	for _, c := range countings {
		if f := c.mass / l.counted; l.kind == content && l.scale.mass && c.ion == l.ion && apart(f) {
			try(f, nearCounting, "a number counted as "+c.as)
		}
	}
	if l.kind == alkalinity {
		dKH, ppm := units.DKH(1).MilliequivalentsPerLitre(), units.PPMCaCO3(1).MilliequivalentsPerLitre()
		meq := units.MilliequivalentsPerLitre(1).MilliequivalentsPerLitre()
		for _, said := range []struct {
			name string
			unit float64
		}{{"dKH", dKH}, {"ppm CaCO3", ppm}, {"meq/L", meq}} {
			if f := l.scale.size / said.unit; apart(f) && l.scale.litre {
				try(f, nearCounting, "a number in "+said.name)
			}
		}
	}
	return factor, how
}
