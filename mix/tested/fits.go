package tested

import (
	"errors"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// Extrapolated says which fits a solved water has left, one sentence each, for the
// assumptions of a plan. Where the constants of carbonic acid are among them and
// another set holds, the numbers of that set stand beside.
func Extrapolated(s *carbonate.System) []string {
	err := s.CheckRange()
	if err == nil {
		return nil
	}
	list := []error{err}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		list = joined.Unwrap()
	}
	var out []string
	for _, err := range list {
		out = append(out, "A fit is extrapolated: "+err.Error()+".")
	}
	c := &s.Constants
	var left *units.RangeError
	other := carbonate.Suited(c.Salinity, c.Temperature)
	if !errors.As(list[0], &left) || other == c.Options.K1K2 {
		return out
	}
	w := s.Water()
	w.Options.K1K2 = other
	again, err := w.System()
	if err != nil || carbonate.CheckRange(c.Salinity, c.Temperature, w.Options) != nil {
		return out
	}
	return append(out, "With the constants of "+other.String()+", which hold here, the pH is "+
		input.Fixed(again.PH().Value(), 2)+
		" instead of "+input.Fixed(s.PH().Value(), 2)+" and the saturation of aragonite "+input.Fixed(again.Aragonite(), 2)+
		" instead of "+input.Fixed(s.Aragonite(), 2)+".")
}
