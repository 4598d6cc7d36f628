package seawater

import (
	"math"
	"math/bits"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/units"
)

// Reading is what one instrument says of the salinity of a water, with its
// standard uncertainty, as the Estimate methods of the instruments return both.
type Reading struct {
	Name        string
	Salinity    units.AbsoluteSalinity
	Uncertainty units.AbsoluteSalinity // standard uncertainty, above zero
}

// Agreement is what several readings of one water say together.
type Agreement struct {
	Salinity    units.AbsoluteSalinity // weighted mean of the readings that belong together
	Uncertainty units.AbsoluteSalinity // its standard uncertainty

	ChiSquare   float64 // of all readings about their weighted mean
	Freedom     int     // degrees of freedom, one less than the readings
	Probability float64 // of so much scatter or more, if all uncertainties are right
	Birge       float64 // Birge ratio, sqrt(ChiSquare/Freedom): 1 is as expected; 1 for a single reading

	Consistent bool  // Probability is above 5 %
	Apart      []int // the readings that do not belong, if the others outnumber them
	Decided    bool  // Consistent, or it is clear which readings are apart
}

// significance is the level at which scatter counts as too much: 5 % [C02].
const significance = 0.05

// clearly is by how much more χ² than the best another subset of its size has to
// have to be ruled out: the upper 5 % point of χ² with one degree of freedom.
const clearly = 3.841

// mostReadings keeps the search over all subsets short.
const mostReadings = 16

// Agree weighs several readings of one water against each other.
//
// If their scatter is no more than their uncertainties explain, the result is
// their weighted mean. If it is more, the largest subset that is consistent in
// itself is taken for right, provided that it holds more than half of the
// readings and that no other subset of its size fits about as well, with a χ² of
// at most 3.84 more; the rest stand Apart. Two readings that contradict each
// other leave it open which is wrong, and so do 34, 35 and 36 that differ too
// much, where the one in the middle goes with either: then Decided is false, and
// the weighted mean of all comes with an uncertainty enlarged by the Birge ratio.
//
//	symbol   S = Σ w S_i / Σ w, w = 1/u_i²; u² = 1/Σ w; χ² = Σ (S_i - S)²/u_i²
//	source   Cox 2002, Metrologia 39, 589-595, procedure A (weighted mean and χ² test);
//	         Cox 2007, Metrologia 44, 187-200 (largest consistent subset);
//	         Birge 1932, Phys. Rev. 40, 207-227 (ratio)
//	errors   no reading, more than 16, a salinity that is negative or not a number, an
//	         uncertainty that is not above zero, or so far from the others that χ² is beyond
//	         all numbers: *units.InputError
//
// The readings are taken as independent: two instruments calibrated in the same
// standard share its error and count for less than two. Where readings scatter
// too much, every subset is tried: of 16 readings that takes 20 ms of a desktop
// processor and seconds of a small one, of each reading less half as long.
func Agree(readings ...Reading) (Agreement, error) {
	none := Agreement{Salinity: units.Absolute(math.NaN()), Uncertainty: units.Absolute(math.NaN())}
	if n := len(readings); n == 0 || n > mostReadings {
		return none, input.Bad("readings", input.Number(float64(n)), "1 to 16 readings")
	}
	for i, r := range readings {
		if err := r.check(); err != nil {
			return none, input.When(r.name(i), err)
		}
	}
	all := uint(1)<<len(readings) - 1
	mean, u, chi2 := weigh(readings, all)
	a := Agreement{
		ChiSquare:   chi2,
		Freedom:     len(readings) - 1,
		Probability: chiSquareAbove(chi2, len(readings)-1),
		Birge:       1,
	}
	if a.Freedom > 0 {
		a.Birge = math.Sqrt(chi2 / float64(a.Freedom))
	}
	a.Consistent = a.Probability > significance
	subset, alone := all, true
	if !a.Consistent {
		subset, alone = largestConsistent(readings)
	}
	a.Decided = alone && 2*bits.OnesCount(subset) > len(readings)
	if a.Decided {
		mean, u, _ = weigh(readings, subset)
		for i := range readings {
			if subset&(1<<i) == 0 {
				a.Apart = append(a.Apart, i)
			}
		}
	} else {
		u *= a.Birge
	}
	if !(mean <= math.MaxFloat64 && u > 0 && u <= math.MaxFloat64 && chi2 <= math.MaxFloat64) {
		return none, input.Bad("readings", "salinities "+input.Number(math.Sqrt(chi2))+" uncertainties apart",
			"uncertainties of instruments")
	}
	a.Salinity, a.Uncertainty = units.Absolute(mean), units.Absolute(u)
	return a, nil
}

func (r Reading) check() error {
	if err := input.NotNegative("salinity", r.Salinity.GramsPerKilogram(), "g/kg"); err != nil {
		return err
	}
	return input.Positive("uncertainty", r.Uncertainty.GramsPerKilogram(), "g/kg")
}

// name returns what to call the reading at index i.
func (r Reading) name(i int) string {
	if r.Name == "" {
		return "reading " + input.Number(float64(i+1))
	}
	return r.Name
}

// weigh returns the weighted mean of a subset, its standard uncertainty and the
// χ² of the subset about it. The weights are relative to that of the surest
// reading, so that no uncertainty is too small or too large to be squared.
func weigh(readings []Reading, subset uint) (mean, u, chi2 float64) {
	least := math.Inf(1)
	for i, r := range readings {
		if subset&(1<<i) != 0 {
			least = min(least, r.Uncertainty.GramsPerKilogram())
		}
	}
	var sum, weights float64
	for i, r := range readings {
		if subset&(1<<i) != 0 {
			w := least / r.Uncertainty.GramsPerKilogram()
			w *= w
			sum += w * r.Salinity.GramsPerKilogram()
			weights += w
		}
	}
	mean = sum / weights
	for i, r := range readings {
		if subset&(1<<i) != 0 {
			d := (r.Salinity.GramsPerKilogram() - mean) / r.Uncertainty.GramsPerKilogram()
			chi2 += d * d
		}
	}
	return mean, least / math.Sqrt(weights), chi2
}

// largestConsistent returns the largest subset that passes the test, the one of
// least χ² among several, and whether it is clearly that one.
func largestConsistent(readings []Reading) (best uint, alone bool) {
	size, least, second := 0, math.Inf(1), math.Inf(1)
	for subset := uint(1); subset < 1<<len(readings); subset++ {
		n := bits.OnesCount(subset)
		if n < size {
			continue
		}
		_, _, chi2 := weigh(readings, subset)
		switch {
		case !(chiSquareAbove(chi2, n-1) > significance):
		case n > size:
			best, size, least, second = subset, n, chi2, math.Inf(1)
		case chi2 < least:
			best, least, second = subset, chi2, least
		default:
			second = min(second, chi2)
		}
	}
	return best, second-least > clearly
}

// chiSquareAbove returns the probability that χ² with n degrees of freedom
// exceeds x, by the finite sums of Abramowitz and Stegun 1964, 26.4.4 and
// 26.4.5. With no freedom there is no scatter to judge.
func chiSquareAbove(x float64, n int) float64 {
	if n == 0 {
		return 1
	}
	half := x / 2
	if half > 700 { // less than the least float64, and infinity times zero on the way
		return 0
	}
	var sum, term float64
	if n%2 == 0 {
		term = math.Exp(-half) // half^k/k! e^-half from k = 0
	} else {
		sum = math.Erfc(math.Sqrt(half))
		term = math.Sqrt(half) * math.Exp(-half) * 2 / math.SqrtPi // the same with k = 1/2
	}
	k := float64(n%2) / 2
	for i := 0; i < n/2; i++ {
		sum += term
		k++
		term *= half / k
	}
	return sum
}
