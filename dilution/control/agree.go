package control

import "math"

// Opinion is what one of several sensors says of one thing.
type Opinion struct {
	Reading     Reading
	Uncertainty float64 // standard, in the unit of the channel, above zero
	Fitted      bool    // there is such a sensor
}

// Agreement is what two or three sensors of one thing say together.
type Agreement struct {
	Reading
	Uncertainty float64 // standard, of the weighted mean
	Apart       uint8   // one bit for each sensor that is fitted and not believed
}

// Upper 0.1 % points of χ² with one and two degrees of freedom [NIST], and the 5 % point
// with one, by which the best pair has to be ahead of another. A controller asks all day
// long: seawater.Agree, which is asked once, takes 5 %.
const (
	pairScatter  = 10.828
	threeScatter = 13.816
	clearlyAhead = 3.841
)

// Agree weighs up to three sensors of one thing, as seawater.Agree does, with fixed memory:
// if they scatter no more than their uncertainties explain, the weighted mean is good; if
// they scatter more, the largest subset that agrees, if it is more than half of those that
// are fitted and clearly the best; otherwise the reading is suspect. With one sensor fitted
// its own reading holds; where two are fitted and one has failed, the other is suspect,
// because nothing can be compared any more: fit three to go on with a failed one.
func Agree(sensors [3]Opinion) Agreement {
	fitted, sound := 0, uint8(0)
	var none Agreement
	for i, s := range sensors {
		if !s.Fitted {
			continue
		}
		fitted++
		if s.Reading.good() && positive(s.Uncertainty) {
			sound |= 1 << i
		} else {
			none.Apart |= 1 << i
			none.Value, none.Quality, none.Reason = s.Reading.Value, min(s.Reading.Quality, Suspect), s.Reading.Reason
			if !finite(s.Reading.Value) {
				none.Quality, none.Reason = Bad, OutOfRange
			}
		}
	}
	count := ones(sound)
	mean, variance, chi2 := weigh(sensors, sound)
	if count > 0 && !(finite(mean) && positive(variance) && finite(chi2)) { // uncertainties beyond all squares
		return Agreement{Reading: Reading{Reason: OutOfRange}, Apart: none.Apart | sound}
	}
	all := Agreement{Reading{Value: mean, Quality: Good}, math.Sqrt(variance), none.Apart}
	switch {
	case count == 0 && fitted > 1:
		none.Quality, none.Reason = Bad, Silent
		return none
	case count == 0:
		return none
	case count == 1 && fitted > 1:
		all.Quality, all.Reason = Suspect, Alone
		return all
	case count == 1:
		all.Reason = lone(sensors, sound)
		return all
	case count == 2 && chi2 <= pairScatter, count == 3 && chi2 <= threeScatter:
		if fitted > count {
			all.Reason = Outvoted
		}
		return all
	case count == 3:
		if pair := bestPair(sensors); pair != 0 {
			mean, variance, _ = weigh(sensors, pair)
			return Agreement{Reading{mean, Good, Outvoted}, math.Sqrt(variance), sound &^ pair}
		}
	}
	all.Quality, all.Reason, all.Apart = Suspect, Disagreeing, none.Apart|sound
	return all
}

// lone returns the reason that the only sensor gives for a good reading.
func lone(sensors [3]Opinion, which uint8) Reason {
	for i, s := range sensors {
		if which>>i&1 == 1 {
			return s.Reading.Reason
		}
	}
	return Fine
}

// bestPair returns the pair of three that agrees and is clearly better than the others,
// or 0.
func bestPair(sensors [3]Opinion) uint8 {
	best, next, which := pairScatter+1e300, pairScatter+1e300, uint8(0)
	for _, pair := range [...]uint8{0b011, 0b101, 0b110} {
		_, _, chi2 := weigh(sensors, pair)
		switch {
		case chi2 < best:
			best, next, which = chi2, best, pair
		case chi2 < next:
			next = chi2
		}
	}
	if best > pairScatter || next-best <= clearlyAhead {
		return 0
	}
	return which
}

// weigh returns the mean of some sensors weighted by 1/u², its variance and χ².
func weigh(sensors [3]Opinion, which uint8) (mean, variance, chi2 float64) {
	var sum, weights float64
	for i, s := range sensors {
		if which>>i&1 == 1 {
			w := 1 / float64(s.Uncertainty*s.Uncertainty)
			sum += float64(w * s.Reading.Value)
			weights += w
		}
	}
	if !positive(weights) {
		return 0, 0, 0
	}
	mean = sum / weights
	for i, s := range sensors {
		if which>>i&1 == 1 {
			off := (s.Reading.Value - mean) / s.Uncertainty
			chi2 += float64(off * off)
		}
	}
	return mean, 1 / weights, chi2
}

func ones(x uint8) (n int) {
	for ; x != 0; x &= x - 1 {
		n++
	}
	return n
}
