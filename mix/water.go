package mix

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// pureAt makes pure water and blames the field that its temperature came from.
func pureAt(field string, t units.Temperature) (seawater.Sample, error) {
	s, err := seawater.PureWater(t)
	if unset := input.Set(field, t); unset != nil {
		return s, unset
	}
	return s, input.As(field, err)
}

// saltAt makes the water of two fields and blames the one that is wrong.
func saltAt(field string, s units.PracticalSalinity, temperatureField string,
	t units.Temperature) (seawater.Sample, error) {
	if water, err := pureAt(temperatureField, t); err != nil {
		return water, err
	}
	water, err := seawater.FromPractical(s, t)
	return water, input.As(field, err)
}
