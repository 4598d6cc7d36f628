package advice

import "example.org/wellmixed/units"

// Estimate is a result with its standard uncertainty: about two thirds of what
// might be true lies within one of it, and 95 % within two.
type Estimate struct {
	Name, Unit         string
	Value, Uncertainty units.Scalar
	Mostly             string // the input that contributes most to the uncertainty, if any does
}
