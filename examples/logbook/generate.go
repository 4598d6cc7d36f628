package main

import (
	"bufio"
	"io"
	"math"
	"math/rand/v2"
	"strconv"

	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

const newYear = 1767225600 // 2026-01-01, 00:00 UTC

// generate writes an invented log: a tank that evaporates towards 35.3 until
// its top-off comes every eight hours, is changed every two weeks for
// water a little too fresh, warms by day, and has a sensor that is out of the
// water now and then. The same every time.
func generate(out io.Writer, rows int64) error {
	w := bufio.NewWriterSize(out, 1<<16)
	w.WriteString("seconds,conductivity,temperature\n")
	r := rand.New(rand.NewPCG(1, 2))
	line := make([]byte, 0, 64)
	for i := range rows {
		hours := float64(i) / 3600
		salinity := 34.9 + 0.05*math.Mod(hours, 8) - 0.25*math.Exp2(-math.Mod(hours, 14*24)/48)
		celsius := 25 + 0.4*math.Sin(2*math.Pi*hours/24) + 0.6*math.Sin(2*math.Pi*hours/(365*24))
		c := pss78.Conductivity(units.Practical(salinity), units.Celsius(celsius), 0).MillisiemensPerCentimetre()
		if i%500000 > 499940 {
			c = 0.002 // the water is drawn below the sensor
		}
		line = strconv.AppendInt(line[:0], newYear+i, 10)
		line = append(line, ',')
		line = strconv.AppendFloat(line, c+0.004*(r.Float64()-0.5), 'f', 3, 64)
		line = append(line, ',')
		line = strconv.AppendFloat(line, celsius+0.02*(r.Float64()-0.5), 'f', 2, 64)
		if _, err := w.Write(append(line, '\n')); err != nil {
			return err
		}
	}
	return w.Flush()
}
