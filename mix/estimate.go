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
	inputs := [...]struct {
		name  string
		value float64
	}{
		{"salt", d.Salt.Value()},
		{"water", d.Water.Value()},
		{"sea salt in the product", d.SeaSalt.Value()},
		{"temperature", float64(d.Temperature)},
	}
	u := make([]float64, len(inputs))
	for i, x := range inputs {
		if err := input.NotNegative("doubts."+x.name, x.value, ""); err != nil {
			return nil, err
		}
		u[i] = x.value
	}
	value, uncertainty, most, err := spread.Through(u, func(off []float64) ([]float64, error) {
		t := b.Temperature.Add(units.TemperatureDifference(off[3]))
		product := p.Salt * units.Mass(1+off[0])
		salt := float64(product)*share.Value()*(1+off[2]) + float64(b.Present.Salt())
		total := p.WaterMass*units.Mass(1+off[1]) + b.Present.Mass + product
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
			list[i].Mostly = inputs[most[i]].name
		}
	}
	return list, nil
}
