package teos10

import (
	"math"

	"example.org/wellmixed/units"
)

func absolute(s float64) units.AbsoluteSalinity { return units.Absolute(s) }
func celsius(t float64) units.Temperature       { return units.Celsius(t) }
func pressure(p float64) units.SeaPressure      { return units.SeaPressure(p) }

var nan, inf = math.NaN(), math.Inf(1)
