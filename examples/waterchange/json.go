package main

import (
	"encoding/json"
	"io"
	"math"

	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// json writes the job for programs: every quantity a text with its unit, every
// number in full.
func (j job) json(w io.Writer) error {
	type water struct {
		Volume      units.Volume
		Mass        units.Mass
		Practical   units.PracticalSalinity
		Absolute    units.AbsoluteSalinity
		Temperature units.Temperature
	}
	of := func(p seawater.Portion) water {
		return water{p.Volume(), p.Mass, p.Practical(), p.Absolute(), p.Temperature()}
	}
	type move struct {
		Name, Unit           string
		Before, Batch, After *float64 // null if not measured
	}
	number := func(x float64) *float64 {
		if math.IsNaN(x) {
			return nil
		}
		return &x
	}
	var moves []move
	for _, m := range j.change.Moves() {
		moves = append(moves, move{m.Name, m.Unit, number(m.Before), number(m.Batch), number(m.After)})
	}
	type caution struct {
		ID       string
		Severity advice.Severity
		Text     string
	}
	var cautions []caution
	for _, c := range j.cautions() {
		cautions = append(cautions, caution(c))
	}
	type correction struct {
		Remove, AddWater units.Volume
		AddSalt          units.Mass
		Mix              water
	}
	type membrane struct {
		Flow          units.Flow
		AfterMembrane units.TDS
		ResinLasts    units.Volume
	}
	type stage struct{ Stage, Sentence string }
	type give struct {
		Parameter, Compound, Amount string
		Days                        int
	}
	type goal struct {
		Changes        int
		Each, Total    units.Volume
		Days           float64
		Vessels        int
		Slowed         string
		AdjustMix      bool
		MixFrom, MixTo units.Temperature
		Salinity       units.PracticalSalinity
		Levels         tested.Levels // after it
		Give           []give
	}
	out := struct {
		Name      string
		PureWater struct {
			Need, Waste, TopOff units.Volume
			Hours               float64
			Usable              bool
			Advice              string
			Membrane            *membrane `json:",omitempty"`
			Stages              []stage   `json:",omitempty"`
		}
		Batch struct {
			Salt             units.Mass
			Scoops           float64
			Water            units.Volume
			WaterMass        units.Mass
			Mix              water
			WaterLevel       units.Length
			FinalLevel       units.Length
			Cost             *units.Money `json:",omitempty"`
			BatchesInPackage float64
			SpecificGravity  units.SpecificGravity
			Density          units.Density
			Conductivity     units.Conductivity
			Conductivity25   units.Conductivity
		}
		Heating struct {
			Hours  float64
			Energy units.Energy
			Hold   units.Power
		}
		Correction *correction `json:",omitempty"`
		Change     struct {
			Share     units.Fraction
			BatchLeft units.Volume
			After     water
			Moves     []move
			Estimates []advice.Estimate `json:",omitempty"`
		}
		UntilNext struct {
			DaysWithoutTopOff              float64
			Nitrate                        *units.MassPerLitre // right before the next change
			NitrateSettlesBefore, AndAfter *units.MassPerLitre `json:",omitempty"`
			ShareToHoldNitrate             *units.Fraction     `json:",omitempty"`
		}
		Goal        *goal `json:",omitempty"`
		Assumptions []string
		Cautions    []caution
	}{Name: j.in.name}
	pure := &out.PureWater
	pure.Need, pure.Waste, pure.TopOff = j.pure.need, j.pure.waste, j.pure.topOff
	pure.Hours, pure.Usable, pure.Advice = j.pure.time.Hours(), !j.pure.bad, j.pure.advice
	b := &out.Batch
	b.Salt, b.Scoops, b.Mix = j.batch.Salt, j.batch.Scoops, of(j.batch.Mix)
	b.Water, b.WaterMass = j.batch.Water, j.batch.WaterMass
	b.WaterLevel, b.FinalLevel, b.BatchesInPackage = j.batch.WaterLevel, j.batch.FinalLevel, j.batch.Batches
	if j.batch.Cost.Currency != "" {
		b.Cost = &j.batch.Cost
	}
	r := j.batch.Reads
	b.SpecificGravity, b.Density = r.SpecificGravity, r.Density
	b.Conductivity, b.Conductivity25 = r.Conductivity, r.Conductivity25
	out.Heating.Hours, out.Heating.Energy, out.Heating.Hold = j.heat.Time.Hours(), j.heat.Energy, j.heat.Hold
	if c := j.correction; j.in.corrects {
		out.Correction = &correction{c.Remove, c.AddWater, c.AddSalt, of(c.Mix)}
	}
	out.Change.Share, out.Change.BatchLeft = j.change.Share, j.change.BatchLeft
	out.Change.After, out.Change.Moves = of(j.change.After.Portion), moves
	out.UntilNext.DaysWithoutTopOff, out.UntilNext.Nitrate = j.between.unattended.Hours()/24, j.between.nitrate
	if r := j.between.rounds; r != nil && r.before > 0 {
		out.UntilNext.NitrateSettlesBefore, out.UntilNext.AndAfter = &r.before, &r.after
		if !math.IsNaN(r.share.Value()) {
			out.UntilNext.ShareToHoldNitrate = &r.share
		}
	}
	if x := j.product; x != nil {
		pure.Membrane = &membrane{x.Flow, x.AfterMembrane, x.Lasts.Resin}
	}
	if x := j.checkup; x != nil {
		for _, f := range x.Findings {
			pure.Stages = append(pure.Stages, stage{f.Stage.String(), f.Sentence})
		}
	}
	out.Change.Estimates = j.estimates
	if c := j.course; c != nil {
		out.Goal = &goal{
			Changes: c.Changes, Each: c.Each, Total: c.Total, Days: c.Duration.Hours() / 24, Vessels: c.Vessels,
			Slowed:    c.Slowed,
			AdjustMix: c.Adjust, MixFrom: c.BatchFrom, MixTo: c.BatchTo, Salinity: c.After.Portion.Practical(),
			Levels: c.After.Levels,
		}
		for _, g := range j.give {
			out.Goal.Give = append(out.Goal.Give, give{
				string(g.of),
				g.reagent.Compound.String(),
				g.plan.Amount.String(),
				len(g.plan.Steps),
			})
		}
	}
	out.Assumptions = j.assumptions()
	out.Cautions = cautions
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(out)
}
