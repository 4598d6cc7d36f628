package carbonate

import (
	"errors"
	"strconv"
)

// The ways in which two known things can fail to settle a water, for errors.Is.
var (
	// ErrNoSolution: no water has both.
	ErrNoSolution = errors.New("no water has this pair")
	// ErrTwoSolutions: two waters have both.
	ErrTwoSolutions = errors.New("two waters have this pair")
)

// NoSolutionError reports a pair that no water has, and why.
// errors.Is(err, ErrNoSolution) is true for it.
type NoSolutionError struct {
	First, Second Known
	Reason        string
}

// Error reads "DIC 10 µmol/kg and dissolved CO2 20 µmol/kg: no water has this
// pair: CO2 is a part of DIC".
func (e *NoSolutionError) Error() string {
	return e.First.String() + " and " + e.Second.String() + ": " + ErrNoSolution.Error() + ": " + e.Reason
}

// Is makes errors.Is(err, ErrNoSolution) true.
func (e *NoSolutionError) Is(target error) bool { return target == ErrNoSolution }

// TwoSolutionsError reports a pair that two waters have: Constants.SolveBoth
// returns them. errors.Is(err, ErrTwoSolutions) is true for it.
type TwoSolutionsError struct {
	First, Second Known
	Acid, Basic   TotalPH // the pH of the one and of the other
}

// Error reads "alkalinity 2300 µmol/kg and carbonate 200 µmol/kg: two waters
// have this pair: one of pH 8.01, one of pH 10.39".
func (e *TwoSolutionsError) Error() string {
	return e.First.String() + " and " + e.Second.String() + ": " + ErrTwoSolutions.Error() +
		": one of pH " + twoDecimals(e.Acid) + ", one of pH " + twoDecimals(e.Basic)
}

// Is makes errors.Is(err, ErrTwoSolutions) true.
func (e *TwoSolutionsError) Is(target error) bool { return target == ErrTwoSolutions }

// twoDecimals writes a pH to two decimals.
func twoDecimals(p TotalPH) string { return strconv.FormatFloat(p.Value(), 'f', 2, 64) }
