package rodi_test

import (
	"encoding/json"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/units"
)

// The verdict turns where twice the uncertainty of the reading meets the limit.
func TestJudge(t *testing.T) {
	verdict := func(i int, r rodi.Readings) rodi.Verdict {
		t.Helper()
		c, err := rodi.Judge(r, rodi.UsualLimits())
		require.NoError(t, err)
		assert.Equal(t, rodi.Stage(i+1), c.Findings[i].Stage)
		assert.NotEmpty(t, c.Findings[i].Sentence)
		return c.Findings[i].Verdict
	}
	base := rodi.Readings{Feed: tds(240), AfterMembrane: tds(8), Step: 1}
	for _, c := range []struct {
		stage  int
		change func(*rodi.Readings)
		want   rodi.Verdict
	}{
		{0, func(r *rodi.Readings) {}, rodi.NotJudged},
		{0, func(r *rodi.Readings) { r.Before, r.Behind, r.GaugeStep = 4, 3.8, 0.1 }, rodi.Keep},
		{0, func(r *rodi.Readings) { r.Before, r.Behind, r.GaugeStep = 4, 3.3, 0.1 }, rodi.Unsure},
		{0, func(r *rodi.Readings) { r.Before, r.Behind, r.GaugeStep = 4, 3, 0.1 }, rodi.Replace},
		{0, func(r *rodi.Readings) { r.Before, r.Behind, r.GaugeStep = 4, 4.05, 0.1 }, rodi.Keep},
		{1, func(r *rodi.Readings) {}, rodi.NotJudged},
		{1, func(r *rodi.Readings) { r.ChlorineStep = 0.05 }, rodi.Keep},
		{1, func(r *rodi.Readings) { r.Chlorine, r.ChlorineStep = 0.1, 0.05 }, rodi.Unsure},
		{1, func(r *rodi.Readings) { r.Chlorine, r.ChlorineStep = 0.2, 0.05 }, rodi.Replace},
		{1, func(r *rodi.Readings) { r.ChlorineStep = 0.5 }, rodi.Unsure}, // too coarse a test to tell
		{2, func(r *rodi.Readings) {}, rodi.Keep},
		{2, func(r *rodi.Readings) { r.AfterMembrane = tds(24) }, rodi.Unsure},
		{2, func(r *rodi.Readings) { r.AfterMembrane = tds(25) }, rodi.Replace},
		{2, func(r *rodi.Readings) { r.AfterMembrane = tds(23) }, rodi.Keep},
		{2, func(r *rodi.Readings) { r.AfterMembrane = tds(23); r.Step = 10 }, rodi.Unsure},
		{2, func(r *rodi.Readings) { r.AfterMembrane = units.TDSReading(35, 0.7) }, rodi.Replace},
		{3, func(r *rodi.Readings) {}, rodi.NotJudged},
		{3, func(r *rodi.Readings) { r.AfterResin = tds(0) }, rodi.Keep},
		{3, func(r *rodi.Readings) { r.AfterResin = tds(1) }, rodi.Unsure},
		{3, func(r *rodi.Readings) { r.AfterResin = tds(2) }, rodi.Replace},
		{3, func(r *rodi.Readings) { r.AfterResin, r.Step = tds(0.8), 0.1 }, rodi.Keep},
		{3, func(r *rodi.Readings) { r.AfterResin, r.Step = tds(1.1), 0.1 }, rodi.Replace},
		{3, func(r *rodi.Readings) { r.AfterResin, r.Step = units.TDSReading(1.1, 0.7), 0.1 }, rodi.Keep}, // 0.8 on the factor 0.5
		{3, func(r *rodi.Readings) { r.AfterResin = tds(12) }, rodi.Replace},
		{3, func(r *rodi.Readings) { r.AfterMembrane, r.AfterResin = tds(0), tds(1) }, rodi.Unsure},
	} {
		r := base
		c.change(&r)
		assert.Equal(t, c.want, verdict(c.stage, r), "%+v", r)
	}
}

func TestJudgeSays(t *testing.T) {
	c, err := rodi.Judge(rodi.Readings{
		Feed: tds(240), AfterMembrane: tds(25), AfterResin: tds(40), Step: 1,
		Before: 4, Behind: 3.8, GaugeStep: 0.1, Chlorine: 0.5, ChlorineStep: 0.1,
	}, rodi.UsualLimits())
	require.NoError(t, err)
	for i, want := range []string{
		"Sediment filter and carbon take 0.20 ± 0.08 bar; the limit is 0.7 bar: they are free.",
		"Behind the carbon are 0.5 ± 0.058 mg/L of chlorine; the limit is 0.1 mg/L: replace it now, before the membrane is damaged.",
		"The membrane holds back 89.6 ± 0.2 % of the salt; the limit is 90 %: check its seals, the pressure and the waste flow, then replace it.",
		"Behind the resin is more salt than before it: it is used up and gives back what it took. Replace it.",
	} {
		assert.Equal(t, want, c.Findings[i].Sentence)
	}
	assert.InDelta(t, 1-25./240, c.Rejection.Value(), 1e-15)
	text, err := json.Marshal(c.Findings[2])
	require.NoError(t, err)
	assert.Contains(t, string(text), `{"Stage":"membrane","Verdict":"replace",`)
	assert.Equal(t, "unknown", rodi.Stage(9).String())
	assert.Equal(t, "unknown", rodi.Verdict(9).String())
	assert.Equal(t, "not judged keep unsure", rodi.NotJudged.String()+" "+rodi.Keep.String()+" "+rodi.Unsure.String())
	assert.Equal(t, "sediment carbon resin", rodi.StageSediment.String()+" "+rodi.StageCarbon.String()+" "+rodi.StageResin.String())
}

func TestJudgeRefuses(t *testing.T) {
	good := rodi.Readings{Feed: tds(240), AfterMembrane: tds(8), AfterResin: tds(0), Step: 1}
	for says, spoil := range map[string]func(*rodi.Readings, *rodi.Limits){
		"feed: ":                func(r *rodi.Readings, l *rodi.Limits) { r.Feed = units.TDS{} },
		"afterMembrane: ":       func(r *rodi.Readings, l *rodi.Limits) { r.AfterMembrane = tds(300) },
		"step: got NaN":         func(r *rodi.Readings, l *rodi.Limits) { r.Step = nan },
		"step: got none":        func(r *rodi.Readings, l *rodi.Limits) { r.Step = 0 },
		"step: got 1e+308":      func(r *rodi.Readings, l *rodi.Limits) { r.Step, r.Feed = 1e308, tds(8) },
		"afterResin: ":          func(r *rodi.Readings, l *rodi.Limits) { r.AfterResin = tds(-1) },
		"gaugeStep: ":           func(r *rodi.Readings, l *rodi.Limits) { r.GaugeStep = -1 },
		"before: ":              func(r *rodi.Readings, l *rodi.Limits) { r.Before, r.Behind, r.GaugeStep = 3, 4, 0.1 },
		"behind: ":              func(r *rodi.Readings, l *rodi.Limits) { r.Before, r.Behind, r.GaugeStep = 3, -4, 0.1 },
		"chlorine: ":            func(r *rodi.Readings, l *rodi.Limits) { r.Chlorine, r.ChlorineStep = -1, 1 },
		"chlorineStep: ":        func(r *rodi.Readings, l *rodi.Limits) { r.ChlorineStep = -1 },
		"limits.rejection: ":    func(r *rodi.Readings, l *rodi.Limits) { *l = rodi.Limits{} },
		"limits.afterResin: ":   func(r *rodi.Readings, l *rodi.Limits) { l.AfterResin = units.TDS{} },
		"limits.pressureDrop: ": func(r *rodi.Readings, l *rodi.Limits) { l.PressureDrop = -1 },
		"limits.chlorine: ":     func(r *rodi.Readings, l *rodi.Limits) { l.Chlorine = units.MassPerLitre(inf) },
	} {
		r, l := good, rodi.UsualLimits()
		spoil(&r, &l)
		c, err := rodi.Judge(r, l)
		assert.ErrorIs(t, err, units.ErrInput, says)
		assert.ErrorContains(t, err, says)
		assert.Equal(t, rodi.Checkup{}, c)
	}
}

const day = 24 * time.Hour

// The closed form against the tank, step by step.
func TestResidueIsTheSum(t *testing.T) {
	for _, u := range []rodi.Upkeep{
		{Tank: 300, Evaporation: 3 * units.LitrePerDay, Change: units.Share(0.1), Every: 14 * day},
		{Tank: 100, Evaporation: 2 * units.LitrePerDay, Change: units.Share(1e-9), Every: 7 * day},
		{Tank: 100, Evaporation: 2 * units.LitrePerDay, Change: units.Share(1), Every: 7 * day},
		{Tank: 100, Evaporation: 0, Change: units.Share(0.3), Every: day},
		{Tank: 100, Evaporation: 2 * units.LitrePerDay, Change: units.Share(0), Every: day},
		{Tank: 100, Evaporation: 2 * units.LitrePerDay},
	} {
		const c, days = 5., 365
		x := 3.
		for d := 1; d <= days; d++ {
			x += c * u.Evaporation.LitresPerDay() / u.Tank.Litres()
			if u.Every > 0 && time.Duration(d)*day%u.Every == 0 {
				x = x*(1-u.Change.Value()) + c*u.Change.Value()
			}
			got, err := u.Residue(3, c, time.Duration(d)*day)
			require.NoError(t, err)
			assert.InEpsilon(t, x, float64(got), 1e-12, "%+v day %d", u, d)
		}
	}
}

// In the long run a change takes out what it and the top-off bring:
// c (1 + e (1 - s)/s) just after a change.
func TestResidueSettles(t *testing.T) {
	u := rodi.Upkeep{Tank: 300, Evaporation: 3 * units.LitrePerDay, Change: units.Share(0.1), Every: 14 * day}
	got, err := u.Residue(100, 2, 14*day*2000)
	require.NoError(t, err)
	e := 3 * 14 / 300.
	assert.InEpsilon(t, 2*(1+e*0.9/0.1), float64(got), 1e-12)
	got, err = u.Residue(7, 2, 0)
	require.NoError(t, err)
	assert.Equal(t, units.MassPerLitre(7), got)
	u.Change = units.Share(1)
	got, err = u.Residue(7, 2, 0)
	require.NoError(t, err)
	assert.Equal(t, units.MassPerLitre(7), got)
}

func TestResidueRefuses(t *testing.T) {
	good := rodi.Upkeep{Tank: 300, Evaporation: 1, Change: units.Share(0.1), Every: day}
	for says, spoil := range map[string]func(*rodi.Upkeep){
		"tank: ":        func(u *rodi.Upkeep) { u.Tank = 0 },
		"evaporation: ": func(u *rodi.Upkeep) { u.Evaporation = units.Flow(nan) },
		"change: ":      func(u *rodi.Upkeep) { u.Change = units.Share(10) },
		"every: ":       func(u *rodi.Upkeep) { u.Every = 0 },
	} {
		u := good
		spoil(&u)
		x, err := u.Residue(0, 1, day)
		assert.ErrorIs(t, err, units.ErrInput)
		assert.ErrorContains(t, err, says)
		assert.True(t, math.IsNaN(float64(x)))
	}
	for _, bad := range []units.MassPerLitre{-1, units.MassPerLitre(nan), units.MassPerLitre(inf)} {
		_, err := good.Residue(bad, 1, day)
		assert.ErrorContains(t, err, "present: ")
		_, err = good.Residue(0, bad, day)
		assert.ErrorContains(t, err, "content: ")
	}
	_, err := good.Residue(0, 1, -1)
	assert.ErrorContains(t, err, "after: ")
	huge := rodi.Upkeep{Tank: 1e-300, Evaporation: 1e300}
	_, err = huge.Residue(0, 1, day)
	assert.ErrorContains(t, err, "evaporation: ")
}
