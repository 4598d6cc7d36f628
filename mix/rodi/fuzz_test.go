package rodi_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

func typed(t *testing.T, err error) {
	t.Helper()
	require.True(t, errors.Is(err, units.ErrInput) || errors.Is(err, units.ErrRange), "%T %v", err, err)
}

// Any numbers at all give a balanced plan or a typed error.
func FuzzProduce(f *testing.F) {
	f.Add(12.0, 4.0, 0.96, 250.0, 280.0, 4.0, 12.0, 3.0, false, 0.2)
	f.Add(12.0, 4.0, 0.96, 0.0, 280.0, 3.0, 5.0, 20.0, true, 0.0)
	f.Add(1e-300, 1e300, 0.5, 1.0, 0.0, 1e-300, 0.0, 1e-300, true, 1e300)
	f.Fuzz(func(t *testing.T, flow, pressure, rejection, test, feed, bar, celsius, waste float64, restrictor bool, gas float64) {
		s := rodi.System{
			Membrane: rodi.Membrane{Rated: rodi.Rating{
				Flow: units.Flow(flow), Pressure: units.GaugePressure(pressure), Temperature: units.Celsius(25),
				Rejection: units.Share(rejection), Feed: tds(test),
			}},
			Resin: rodi.Resin{Volume: 1, Capacity: 700, Usable: units.Share(1), Price: units.Money{Amount: 1, Currency: "EUR"}},
		}
		if restrictor {
			s.Waste = units.Flow(waste)
		} else {
			s.WasteRatio = waste
		}
		p, err := s.Produce(rodi.Feed{TDS: tds(feed), Pressure: units.GaugePressure(bar), Temperature: units.Celsius(celsius), CarbonDioxide: units.AmountPerLitre(gas)})
		if err != nil {
			typed(t, err)
			return
		}
		require.True(t, p.Flow > 0 && p.Feed >= p.Flow && !math.IsInf(float64(p.Feed), 0), "%+v", p)
		require.True(t, p.Rejection.Value() >= 0 && p.Rejection.Value() <= 1)
		for _, x := range []float64{p.AfterMembrane.PPM(), p.WasteTDS.PPM(), float64(p.Lasts.Resin), p.Cost.Amount} {
			require.True(t, x >= 0 && !math.IsInf(x, 0), "%+v", p)
		}
		if run, err := p.Fill(10); err == nil {
			require.GreaterOrEqual(t, run.Feed, run.Waste)
		} else {
			typed(t, err)
		}
	})
}

func FuzzJudge(f *testing.F) {
	f.Add(240.0, 8.0, 0.0, 1.0, 4.0, 3.8, 0.1, 0.0, 0.1)
	f.Fuzz(func(t *testing.T, feed, membrane, resin, step, before, behind, gauge, chlorine, test float64) {
		c, err := rodi.Judge(rodi.Readings{
			Feed: tds(feed), AfterMembrane: tds(membrane), AfterResin: tds(resin), Step: step,
			Before: units.GaugePressure(before), Behind: units.GaugePressure(behind), GaugeStep: units.GaugePressure(gauge),
			Chlorine: units.MassPerLitre(chlorine), ChlorineStep: units.MassPerLitre(test),
		}, rodi.UsualLimits())
		if err != nil {
			typed(t, err)
			return
		}
		require.True(t, c.Rejection.Value() >= 0 && c.Rejection.Value() <= 1)
		for _, x := range c.Findings {
			require.NotEmpty(t, x.Sentence)
		}
	})
}

func FuzzResidue(f *testing.F) {
	f.Add(300.0, 0.125, 0.1, int64(14*24*time.Hour), 0.0, 5.0, int64(365*24*time.Hour))
	f.Fuzz(func(t *testing.T, tank, evaporation, change float64, every int64, present, content float64, after int64) {
		u := rodi.Upkeep{Tank: units.Volume(tank), Evaporation: units.Flow(evaporation), Change: units.Share(change), Every: time.Duration(every)}
		x, err := u.Residue(units.MassPerLitre(present), units.MassPerLitre(content), time.Duration(after))
		if err != nil {
			typed(t, err)
			return
		}
		require.True(t, x >= 0 && !math.IsInf(float64(x), 0), "%v", x)
	})
}

var (
	sinkFloat   float64
	sinkVolume  units.Volume
	sinkProduct rodi.Product
	sinkErr     error
)

func TestNoAllocations(t *testing.T) {
	s, _ := house()
	u := rodi.Upkeep{Tank: 300, Evaporation: 3 * units.LitrePerDay, Change: units.Share(0.1), Every: 14 * day}
	for what, f := range map[string]func(){
		"TemperatureFactor":   func() { sinkFloat = rodi.TemperatureFactor(units.Celsius(12), rodi.FluxConstants{}) },
		"OsmoticPressure":     func() { sinkFloat = float64(rodi.OsmoticPressure(0.02, units.Celsius(12))) },
		"Dissolved":           func() { sinkFloat = float64(rodi.Dissolved(tds(250))) },
		"ConcentrationFactor": func() { sinkFloat = rodi.ConcentrationFactor(units.Share(0.2), units.Share(0.96)) },
		"Rejection":           func() { _, _, sinkErr = rodi.Rejection(tds(240), tds(9), 1) },
		"Equivalents":         func() { sinkFloat = float64(rodi.Equivalents(tds(10))) },
		"MixedBed":            func() { _, _ = rodi.MixedBed(1900, 1200) },
		"FreeCarbonDioxide": func() {
			sinkFloat = float64(rodi.FreeCarbonDioxide(units.MilliequivalentsPerLitre(2), carbonate.PHNBS(7.5), units.Celsius(12)))
		},
		"Resin.Lasts":  func() { sinkVolume, sinkErr = s.Resin.Lasts(tds(10), 0.2) },
		"Carbon.Lasts": func() { sinkVolume, sinkErr = s.Carbon.Lasts(1, 0) },
		"Residue":      func() { _, sinkErr = u.Residue(0, 5, 365*day) },
	} {
		checks.NoAllocations(t, what, f)
	}
}

func BenchmarkTemperatureFactor(b *testing.B) {
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkFloat = rodi.TemperatureFactor(units.Celsius(12), rodi.FluxConstants{})
	}
}

func BenchmarkProduce(b *testing.B) {
	s, f := house()
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkProduct, sinkErr = s.Produce(f)
	}
}

func BenchmarkProduceByRestrictor(b *testing.B) {
	s, f := house()
	s.WasteRatio, s.Waste = 0, 20
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		sinkProduct, sinkErr = s.Produce(f)
	}
}

func BenchmarkResidue(b *testing.B) {
	u := rodi.Upkeep{Tank: 300, Evaporation: 3 * units.LitrePerDay, Change: units.Share(0.1), Every: 14 * day}
	b.ReportAllocs()
	for i := 0; i < b.N; i++ {
		_, sinkErr = u.Residue(0, 5, 365*day)
	}
}
