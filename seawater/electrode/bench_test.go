package electrode

import (
	"testing"

	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

var (
	sinkNBS      carbonate.NBSPH
	sinkTotal    carbonate.TotalPH
	sinkVoltage  units.Voltage
	sinkFindings Findings
	sinkNBSC     Calibration[carbonate.NBSPH]
)

func BenchmarkPH(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkNBS, _ = worn.PH(-68, units.Celsius(25.5))
	}
}

func BenchmarkReading(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkVoltage, _ = worn.Reading(carbonate.PHNBS(8.2), units.Celsius(25.5))
	}
}

func BenchmarkEstimate(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkNBS, _, _ = worn.Estimate(-68, units.Celsius(25.5), Uncertainty{Reading: 0.3, Temperature: 0.5})
	}
}

func BenchmarkCalibrate(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkNBSC, _ = Calibrate(carbonate.PHNBS(7), Bottle7.Point(4, units.Celsius(24)), Bottle10.Point(-167, units.Celsius(24)))
	}
}

func BenchmarkBuffer(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkNBS = Phosphate.PH(units.Celsius(23))
	}
}

func BenchmarkTris(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkTotal = Tris(units.Practical(35)).PH(units.Celsius(23))
	}
}

func BenchmarkAtTemperature(b *testing.B) {
	c := carbonate.At(units.Practical(35), units.Celsius(21), carbonate.Options{})
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkTotal, _ = AtTemperature(carbonate.PHTotal(8.1), 2400, carbonate.Nutrients{}, &c, units.Celsius(26))
	}
}
