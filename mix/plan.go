package mix

import (
	"cmp"
	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/internal/solve"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/units"
)

// Amount says how much to mix, in the way the keeper measures it. It is made
// by [FinalVolume], [FinalLevel], [WaterVolume] or [WaterLevel].
type Amount struct {
	by     amountKind
	volume units.Volume
	level  units.Length
}

type amountKind uint8

const (
	unset amountKind = iota
	finalVolume
	finalLevel
	waterVolume
	waterLevel
)

// FinalVolume asks for so much finished mix.
func FinalVolume(v units.Volume) Amount { return Amount{by: finalVolume, volume: v} }

// FinalLevel asks for finished mix up to a height in the vessel.
func FinalLevel(h units.Length) Amount { return Amount{by: finalLevel, level: h} }

// WaterVolume pours so much pure water, and takes what mix comes of it.
func WaterVolume(v units.Volume) Amount { return Amount{by: waterVolume, volume: v} }

// WaterLevel pours pure water up to a fill line, counting what the vessel
// already holds, and takes what mix comes of it. The level rises with the
// salt.
func WaterLevel(h units.Length) Amount { return Amount{by: waterLevel, level: h} }

// Batch is what a keeper wants mixed and with what.
type Batch struct {
	Target      units.PracticalSalinity
	Temperature units.Temperature // of the finished mix, for its volume and readings
	Amount      Amount
	Salt        Salt
	Scoop       Scoop  // optional
	Vessel      Vessel // optional, except for levels

	WaterTemperature units.Temperature // of the pure water as it is poured
	Present          seawater.Portion  // what the vessel holds before: pure water or an old mix
}

// BatchPlan is the answer to a Batch.
type BatchPlan struct {
	Salt      units.Mass       // of the product, to weigh
	Scoops    float64          // level scoops of it; 0 if no scoop was given
	Water     units.Volume     // pure water to pour, measured at its temperature
	WaterMass units.Mass       // the same, to weigh
	Mix       seawater.Portion // the finished mix: salinity, temperature, mass
	Volume    units.Volume     // of the finished mix

	WaterLevel units.Length // before the salt; 0 if no vessel was given
	FinalLevel units.Length
	Rise       units.Length // how far salt and warming lift the level

	Cost    units.Money // of the salt; no currency if no price was given
	Batches float64     // that one package gives; 0 if the package is not known

	Reads       Reads
	Assumptions []string
	Cautions    []advice.Caution
}

// Plan works out the salt and the water for a batch.
//
// Salt and water are balanced by mass, the water that the product brings
// included; volumes and levels follow from the density of the mix. A batch
// that the vessel cannot hold, or that the water already in it makes
// impossible, is an *units.InputError that says what would be possible.
func Plan(b Batch) (BatchPlan, error) {
	share, noShare := b.Salt.SeaSaltShare()
	scoop, noScoop := b.Scoop.holds(b.Salt)
	target, noTarget := saltAt("target", b.Target, "temperature", b.Temperature)
	water, noWater := pureAt("waterTemperature", b.WaterTemperature)
	err := input.Join(noShare, noScoop,
		cmp.Or(input.Join(input.Positive("target", b.Target.Value(), ""), input.Set("temperature", b.Temperature)), noTarget),
		noWater,
		input.NotNegative("present", float64(b.Present.Mass), "g"),
		b.Salt.checkPrice(), b.Amount.check())
	if err != nil {
		return BatchPlan{}, err
	}

	poured, product, err := b.balance(water, target, share)
	if err != nil {
		return BatchPlan{}, err
	}
	liquid := seawater.Blend(b.Present, poured)
	p := BatchPlan{
		Salt:      product,
		Water:     poured.Volume(),
		WaterMass: poured.Mass,
		Mix:       target.OfMass(liquid.Mass + product),
	}
	var say []string
	if p.Reads, say, err = b.Salt.readsOf(target); err != nil {
		return BatchPlan{}, err
	}
	p.Volume = p.Mix.Volume()
	if err := input.Positive("amount", float64(p.Mix.Mass), "g of mix"); err != nil {
		return BatchPlan{}, err
	}
	if err := p.fit(b.Vessel, liquid.Volume()); err != nil {
		return BatchPlan{}, err
	}
	if scoop > 0 {
		p.Scoops = float64(product / scoop)
	}
	if b.Salt.Package > 0 && product > 0 {
		p.Batches = float64(b.Salt.Package / product)
		p.Cost = b.Salt.Price.Times(float64(product / b.Salt.Package))
	}
	p.Assumptions = append(b.assumptions(share, target), say...)
	p.Cautions = b.cautions(p)
	return p, nil
}

// check refuses an amount that nobody set.
func (a Amount) check() error {
	if a.by == unset {
		return input.Bad("amount", "nothing", "FinalVolume, FinalLevel, WaterVolume or WaterLevel")
	}
	return nil
}

// balance returns the pure water to pour and the mass of the product.
func (b Batch) balance(water, target seawater.Sample,
	share units.Fraction) (poured seawater.Portion, product units.Mass, err error) {
	switch b.Amount.by {
	case finalVolume, finalLevel:
		volume := b.Amount.volume
		if b.Amount.by == finalLevel {
			if volume, err = b.Vessel.VolumeAt(b.Amount.level); err != nil {
				return poured, product, input.In("amount", err)
			}
		}
		if err := input.Positive("amount", float64(volume), "L"); err != nil {
			return poured, product, err
		}
		total := target.OfVolume(volume)
		product = noLess(units.Mass(float64(total.Salt()-b.Present.Salt())/share.Value()), total.Mass)
		poured = water.OfMass(noLess(total.Mass-product-b.Present.Mass, total.Mass))
	case waterVolume:
		if err := input.NotNegative("amount", float64(b.Amount.volume), "L"); err != nil {
			return poured, product, err
		}
		poured = water.OfVolume(b.Amount.volume)
	case waterLevel:
		volume, err := b.Vessel.VolumeAt(b.Amount.level)
		if err != nil {
			return poured, product, input.In("amount", err)
		}
		if poured, err = pourTo(volume, b.Present, water); err != nil {
			return poured, product, err
		}
	}
	if b.Amount.by == waterVolume || b.Amount.by == waterLevel {
		liquid := seawater.Blend(b.Present, poured)
		if err := input.Positive("amount", float64(liquid.Mass), "g of liquid"); err != nil {
			return poured, product, err
		}
		product = dissolve(liquid, share, target)
	}
	if product < 0 {
		return poured, product, input.Bad("present", input.Number(b.Present.Salt().Grams())+" g of salt in the vessel",
			"less than the whole batch needs: use Correct to dilute what is there")
	}
	if poured.Mass < 0 {
		return poured, product, input.Bad("present", b.Present.Volume().String()+" in the vessel",
			"less than the batch: ask for a larger batch, or add salt to what is there with Correct")
	}
	return poured, product, nil
}

// noLess takes what is below zero by the last digits of the whole alone for zero.
func noLess(part, whole units.Mass) units.Mass {
	if part < 0 && part >= -rounding*whole {
		return 0
	}
	return part
}

// pourTo returns the water that fills a vessel up to a volume, over what is
// present.
func pourTo(volume units.Volume, present seawater.Portion, water seawater.Sample) (seawater.Portion, error) {
	short := volume - present.Volume()
	if !(short >= 0) {
		return seawater.Portion{}, input.Bad("amount", "a water level of "+volume.String(),
			"above the "+present.Volume().String()+" that the vessel already holds")
	}
	// Volumes of water at two salinities or temperatures do not quite add
	// up, so the last millilitres are solved for.
	excess := func(m float64) float64 {
		return float64(seawater.Blend(present, water.OfMass(units.Mass(m))).Volume() - volume)
	}
	m, ok := solve.Brent(excess, 0, 1.1*float64(water.OfVolume(short).Mass)+1, 1e-9)
	if !ok {
		return seawater.Portion{}, input.Bad("amount", "a water level of "+volume.String(),
			"a level that pouring water can reach")
	}
	return water.OfMass(units.Mass(m)), nil
}

// fit works out the levels and refuses what the vessel cannot hold.
func (p *BatchPlan) fit(v Vessel, before units.Volume) error {
	if !v.Exists() {
		return nil
	}
	if most := v.SafeFill(); !(p.Volume <= most*(1+1e-12)) {
		return input.Bad("amount", input.Fixed(p.Volume.Litres(), 2)+" L of mix",
			"at most the safe fill of the vessel, "+input.Fixed(most.Litres(), 2)+" L: ask for FinalVolume of that or less")
	}
	var err error
	if p.WaterLevel, err = v.LevelOf(before); err != nil {
		return err
	}
	if p.FinalLevel, err = v.LevelOf(min(p.Volume, v.Brim())); err != nil {
		return err
	}
	p.Rise = p.FinalLevel - p.WaterLevel
	return nil
}

// kind says what salt it is.
func (s Salt) kind() string {
	if s.differs() {
		return "salt of the composition given"
	}
	return "sea salt of the composition of the ocean"
}

func (b Batch) assumptions(share units.Fraction, target seawater.Sample) []string {
	list := []string{
		"Salinity " + input.Number(b.Target.Value()) + " is practical salinity, which the trade writes as ppt: " +
			input.Fixed(target.Absolute().GramsPerKilogram(), 2) + " g of sea salt per kg of mix.",
		"The product is " + input.Fixed(share.Percent(), 1) + " % " + b.Salt.kind() + "; the rest of it counts as water.",
		"The water is pure and poured at " + input.Number(b.WaterTemperature.Celsius()) +
			" °C; volume and readings of the mix are those at " + input.Number(b.Temperature.Celsius()) + " °C.",
	}
	if b.Temperature.Celsius() > 35 {
		list = append(list, "Conductivity above 35 °C is extrapolated: the practical salinity scale was measured up "+
			"to there.")
	}
	if b.Vessel.Exists() && b.Vessel.safe == b.Vessel.brim {
		list = append(list, "No safe fill was given, so the brim was taken as the limit: leave room to stir.")
	}
	return list
}

func (b Batch) cautions(p BatchPlan) []advice.Caution {
	list := []advice.Caution{saltIntoWater, mixUntilClear, mainsNearWater}
	if b.Target.Value() > 1 && b.Target.Value() < 1.1 {
		list = append(list, almostFresh)
	}
	if b.WaterTemperature.Celsius() < b.Temperature.Celsius() {
		list = append(list, heaterDry)
	}
	if heavy, applies := advice.TooHeavy(p.Mix.Mass); applies {
		list = append(list, heavy)
	}
	if p.Scoops > 0 {
		list = append(list, settledSalt)
	}
	return append(list, dustySalt)
}
