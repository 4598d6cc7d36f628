package mix

import (
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
	"example.org/wellmixed/units/spread"
)

// Doubts are the standard uncertainties of what a batch is made from. Those that
// are zero are left out.
type Doubts struct {
	Salt        units.Fraction              // of the mass: 0.3 % weighed, 3 to 5 % scooped (common practice)
	Water       units.Fraction              // of the volume: 1 % by a jug, 3 % by a fill line (common practice)
	SeaSalt     units.Fraction              // of the share of sea salt: moisture
	Temperature units.TemperatureDifference // of the thermometer
	Present     units.PracticalSalinity     // of the reading of what the vessel holds before
}

// Estimates returns what comes of a batch that is made by its plan, with the
// uncertainty of it: salinity, specific gravity at 25 °C, volume.
func (b Batch) Estimates(d Doubts) ([]advice.Estimate, error) {
	p, err := Plan(b)
	if err != nil {
		return nil, err
	}
	share, err := b.Salt.SeaSaltShare()
	if err != nil {
		return nil, err
	}
	u, err := d.list()
	if err != nil {
		return nil, err
	}
	value, uncertainty, most, err := spread.Through(u, func(off []float64) ([]float64, error) {
		t := b.Temperature.Add(units.TemperatureDifference(off[3]))
		product := p.Salt * units.Mass(1+off[0])
		present, err := b.present(units.Practical(off[4]))
		if err != nil {
			return nil, err
		}
		salt := float64(product)*share.Value()*(1+off[2]) + float64(present.Salt())
		total := p.WaterMass*units.Mass(1+off[1]) + present.Mass + product
		made, err := seawater.FromAbsolute(units.Absolute(salt/float64(total)*1000), t)
		if err != nil {
			return nil, input.As("doubts", err)
		}
		return []float64{
			made.Practical().Value(),
			made.SpecificGravity(units.SG25C()).Ratio(),
			made.OfMass(total).Volume().Litres(),
		}, nil
	})
	if err != nil {
		return nil, err
	}
	list := []advice.Estimate{
		{Name: "Salinity", Unit: "PSS-78"},
		{Name: "Specific gravity", Unit: "25/25 °C"},
		{Name: "Volume", Unit: "L"},
	}
	for i := range list {
		list[i].Value, list[i].Uncertainty = units.Scalar(value[i]), units.Scalar(uncertainty[i])
		if most[i] >= 0 {
			list[i].Mostly = doubtNames[most[i]]
		}
	}
	return list, nil
}

// doubtNames are the names of the doubts, in the order of list.
var doubtNames = [...]string{"salt", "water", "sea salt in the product", "temperature", "salinity present"}

// list returns the doubts in the order of doubtNames, and refuses those that are none.
func (d *Doubts) list() ([]float64, error) {
	u := []float64{
		d.Salt.Value(), d.Water.Value(), d.SeaSalt.Value(), float64(d.Temperature), d.Present.Value(),
	}
	for i, x := range u {
		if err := input.NotNegative("doubts."+doubtNames[i], x, ""); err != nil {
			return nil, err
		}
	}
	return u, nil
}

// present returns what the vessel holds before, were its salinity read so much higher.
func (b Batch) present(by units.PracticalSalinity) (seawater.Portion, error) {
	if by.Value() == 0 || b.Present.Mass == 0 {
		return b.Present, nil
	}
	s, err := seawater.FromPractical(units.Practical(b.Present.Practical().Value()+by.Value()), b.Present.Temperature())
	if err != nil {
		return seawater.Portion{}, input.As("doubts", err)
	}
	return s.OfVolume(b.Present.Volume()), nil
}

// SaltEstimate returns the mass of salt to weigh for a batch with its standard
// uncertainty, in g: how far off the plan's number may be, before anything is weighed.
//
//	symbol   m = (S L - s)/(f - S), each input moved by its doubt
//	source   JCGM 100:2008, 5.1.2, by differences ([spread.Through])
//
// Of the doubts, Water is that of the amount asked for, by whatever line or jug it is
// measured, and Salt, how well the product is weighed, is not in it.
func (b Batch) SaltEstimate(d Doubts) (advice.Estimate, error) {
	fail := func(err error) (advice.Estimate, error) { return advice.Estimate{}, err }
	p, err := Plan(b)
	if err != nil {
		return fail(err)
	}
	share, err := b.Salt.SeaSaltShare()
	if err != nil {
		return fail(err)
	}
	u, err := d.list()
	if err != nil {
		return fail(err)
	}
	u[0] = 0
	value, uncertainty, most, err := spread.Through(u, func(off []float64) ([]float64, error) {
		moved := b
		moved.Vessel = Vessel{} // what it can hold was seen to by the plan
		moved.Amount = FinalVolume(p.Volume * units.Volume(1+off[1]))
		if b.Amount.by == waterVolume || b.Amount.by == waterLevel {
			moved.Amount = WaterVolume(p.Water * units.Volume(1+off[1]))
		}
		moved.Salt.Label, moved.Salt.SeaSalt = Label{}, units.Share(share.Value()*(1+off[2]))
		moved.Temperature = b.Temperature.Add(units.TemperatureDifference(off[3]))
		moved.WaterTemperature = b.WaterTemperature.Add(units.TemperatureDifference(off[3]))
		var err error
		if moved.Present, err = b.present(units.Practical(off[4])); err != nil {
			return nil, err
		}
		plan, err := Plan(moved)
		return []float64{plan.Salt.Grams()}, err
	})
	if err != nil {
		return fail(input.In("doubts", err))
	}
	e := advice.Estimate{
		Name:        "Salt to weigh",
		Unit:        "g",
		Value:       units.Scalar(value[0]),
		Uncertainty: units.Scalar(uncertainty[0]),
	}
	if most[0] >= 0 {
		e.Mostly = doubtNames[most[0]]
	}
	return e, nil
}
