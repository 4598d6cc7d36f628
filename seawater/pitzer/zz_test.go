package pitzer

import (
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
	"math"
	"testing"
)

func TestZZ(t *testing.T) {
	for sa := 0.; sa <= 180; sa += 20 {
		tf := teos10.FreezingTemperature(units.Absolute(sa), 0, units.Share(0))
		k := tf.Kelvin()
		w := (teos10.WaterPotential(units.Absolute(sa), tf, 0) - teos10.WaterPotential(units.Absolute(0), tf, 0))
		t.Log(sa, tf.Celsius(), float64(w)/461.51805/k, iceActivity(k))
	}
	s, _ := Solve(sea, units.Celsius(25))
	fp, err := s.FreezingPoint()
	t.Log(fp.Celsius(), err, s.VapourPressure(), s.PH(), s.TotalPH(), s.mass())
	tf := teos10.FreezingTemperature(units.Absolute(35.16504), 0, units.Share(0))
	t.Log(tf.Celsius())
	m, err := Dissolve(Batch{Water: units.Kilogram, Temperature: units.Celsius(25), Add: []Addition{{"CaCl2·2H2O", 150 * units.Gram}, {"MgSO4·7H2O", 120 * units.Gram}}})
	t.Log(m.Solids, m.Residual, m.NotJudged, m.Water, err)
	for _, f := range []string{"Na2CO3", "NaHCO3", "Ca(OH)2", "HCl", "NaOH", "H2SO4", "KIO3", "Na2SO3", "Na2B4O7·10H2O", "CO2", "(NH4)2SO4", "KNO3", "H2O", "CaO", "", "((((((("} {
		x, err := parseFormula(f)
		t.Log(f, x.hydrogen, x.water, x.mass, err)
	}
	_ = math.Pi
}
func BenchmarkDissolveSea(b *testing.B) {
	b.ReportAllocs()
	bt := Batch{Water: units.Kilogram, Temperature: units.Celsius(25), Present: sea.Scale(20)}
	for b.Loop() {
		m, err := Dissolve(bt)
		if err != nil {
			b.Fatal(err)
		}
		_ = m
	}
}
func BenchmarkDissolveTwo(b *testing.B) {
	b.ReportAllocs()
	bt := Batch{Water: units.Kilogram, Temperature: units.Celsius(25), Add: []Addition{{"CaCl2·2H2O", 150 * units.Gram}, {"MgSO4·7H2O", 120 * units.Gram}}}
	for b.Loop() {
		m, err := Dissolve(bt)
		if err != nil {
			b.Fatal(err)
		}
		_ = m
	}
}
