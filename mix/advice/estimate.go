package advice

// Estimate is a result with its standard uncertainty: about two thirds of what
// might be true lies within one of it, and 95 % within two.
type Estimate struct {
	Name, Unit         string
	Value, Uncertainty float64
	Mostly             string // the input that contributes most to the uncertainty, if any does
}
