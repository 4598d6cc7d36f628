package rodi_test

import (
	"fmt"
	"math"
	"time"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/units"
)

// A membrane of 75 US gallons a day on winter water of 8 °C and 3 bar: how long
// does a 60 L bin take, and what runs to the drain?
func ExampleSystem_Produce() {
	system := rodi.System{
		Membrane: rodi.Membrane{Rated: rodi.Rating{
			Flow:        75 * units.USGallonPerDay,
			Pressure:    50 * units.PSIGauge,
			Temperature: units.Fahrenheit(77),
			Rejection:   units.Percent(96),
			Feed:        units.TDSReading(250, 0.5),
			Recovery:    units.Percent(15),
		}},
		Resin: rodi.Resin{
			Volume: 0.75 * units.Litre, Capacity: 0.6 * units.MolePerLitre, Usable: units.Percent(70),
			Price: units.Money{Amount: 12, Currency: "EUR"},
		},
		WasteRatio: 3,
		WaterPrice: units.Money{Amount: 4.2, Currency: "EUR"},
	}
	feed := rodi.Feed{
		TDS:           units.TDSReading(310, 0.5),
		Pressure:      3 * units.BarGauge,
		Temperature:   units.Celsius(8),
		CarbonDioxide: rodi.FreeCarbonDioxide(units.DKH(5), carbonate.PHNBS(7.4), units.Celsius(8)),
	}
	p, err := system.Produce(feed)
	if err != nil {
		fmt.Println(err)
		return
	}
	bin, err := p.Fill(60 * units.Litre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f L/h at %.1f ppm, %.0f ppm to the drain\n", p.Flow.LitresPerHour(), p.AfterMembrane.PPM(), p.WasteTDS.PPM())
	fmt.Printf("60 L take %v, %.0f L of waste and %.2f %s\n", bin.Time.Round(10*time.Minute), bin.Waste.Litres(), bin.Cost.Amount, bin.Cost.Currency)
	fmt.Printf("the resin lasts %.0f L\n", p.Lasts.Resin.Litres())
	fmt.Printf("with a full bin and no shut-off valve, %.0f L a day run off\n", p.Idle(24*time.Hour).Litres())
	// Output:
	// 5.4 L/h at 15.5 ppm, 408 ppm to the drain
	// 60 L take 11h0m0s, 180 L of waste and 2.21 EUR
	// the resin lasts 599 L
	// with a full bin and no shut-off valve, 390 L a day run off
}

// What is left in purified water goes into the plan of the batch that is made of it.
func ExampleProduct_Water() {
	product := rodi.Product{AfterResin: units.TDSReading(40, 0.5)} // the resin is spent
	water, err := product.Water(55*units.Litre, units.Celsius(20))
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := mix.Plan(mix.Batch{
		Target:           units.Practical(35),
		Temperature:      units.Celsius(25),
		WaterTemperature: units.Celsius(20),
		Amount:           mix.FinalVolume(60 * units.Litre),
		Present:          water.Portion,
		Salt:             mix.Salt{SeaSalt: units.Percent(90)},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f g of salts are in the water, %.0f g are to be weighed, %.1f L to be added\n",
		water.Portion.Salt().Grams(), plan.Salt.Grams(), plan.Water.Litres())
	// Output: 2.1 g of salts are in the water, 2397 g are to be weighed, 4.1 L to be added
}

// The first filling of the day: 240 ppm before the membrane, 9 behind it, on a
// meter that shows whole numbers.
func ExampleRejection() {
	r, u, err := rodi.Rejection(units.TDSReading(240, 0.5), units.TDSReading(9, 0.5), 1)
	fmt.Printf("%.1f ± %.1f %%, %v\n", r.Percent(), u.Percent(), err)
	// Output:
	// 96.2 ± 0.1 %, <nil>
}

// Which stage is due?
func ExampleJudge() {
	c, err := rodi.Judge(rodi.Readings{
		Feed:          units.TDSReading(240, 0.5),
		AfterMembrane: units.TDSReading(9, 0.5),
		AfterResin:    units.TDSReading(3, 0.5),
		Step:          1,
	}, rodi.UsualLimits())
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range c.Findings {
		fmt.Printf("%v: %v\n", f.Stage, f.Verdict)
	}
	fmt.Println(c.Findings[3].Sentence)
	// Output:
	// sediment: not judged
	// carbon: not judged
	// membrane: keep
	// resin: replace
	// Behind the resin are 3 ± 0.6 ppm; the limit is 1 ppm: replace it.
}

// A residue of 1, 2, 5 and 20 ppm, of which a tenth is nitrate: what does a tank
// of 300 L hold after a year of 10 % every two weeks and 3 L a day evaporated?
func ExampleUpkeep_Residue() {
	tank := rodi.Upkeep{
		Tank: 300 * units.Litre, Evaporation: 3 * units.LitrePerDay,
		Change: units.Percent(10), Every: 14 * 24 * time.Hour,
	}
	for _, ppm := range []units.MassPerLitre{1, 2, 5, 20} {
		all, err := tank.Residue(0, ppm*units.MilligramPerLitre, 365*24*time.Hour)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%2.0f ppm: %.1f mg/L, %.2f of it nitrate\n", float64(ppm), all.MilligramsPerLitre(), 0.1*all.MilligramsPerLitre())
	}
	// Output:
	//  1 ppm: 2.1 mg/L, 0.21 of it nitrate
	//  2 ppm: 4.2 mg/L, 0.42 of it nitrate
	//  5 ppm: 10.6 mg/L, 1.06 of it nitrate
	// 20 ppm: 42.5 mg/L, 4.25 of it nitrate
}

// The trade's kilograins per cubic foot in the chemist's equivalents.
func ExampleMixedBed() {
	capacity, share := rodi.MixedBed(1.9*units.MolePerLitre, 26*rodi.KilograinPerCubicFoot)
	fmt.Printf("%.2f eq/L with %.0f %% of cation resin\n", float64(capacity/units.MolePerLitre), share.Percent())
	// Output:
	// 0.73 eq/L with 38 % of cation resin
}

// Chloramine of 2.5 mg/L leaves ammonia behind the carbon.
func ExampleAmmoniaFromChloramine() {
	fmt.Printf("%.2f mg/L of nitrogen\n", rodi.AmmoniaFromChloramine(2.5*units.MilligramPerLitre).MilligramsPerLitre())
	// Output:
	// 0.49 mg/L of nitrogen
}

// Water of 10 mg/L of common salt behind a membrane, and resin that takes 1.1 moles of charge:
// a meter that shows 10 ppm at the factor 0.5 stands for a sixth more charge than the salt has.
func ExampleResin_LastsFor() {
	resin := rodi.Resin{Volume: 2 * units.Litre, Capacity: 0.55 * units.MolePerLitre, Usable: units.Percent(100)}
	salt := (units.AsSodium + units.AsChloride).AmountPerLitre(10 * units.MilligramPerLitre)
	known, err := resin.LastsFor(salt)
	if err != nil {
		fmt.Println(err)
		return
	}
	byMeter, err := resin.Lasts(units.TDSReading(10, 0.5), 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	used, err := resin.Used(salt, 1500*units.Litre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f L by the salt, %.0f L by the meter; after 1500 L %.0f %% are used\n", known.Litres(), byMeter.Litres(), used.Percent())
	// Output: 6428 L by the salt, 5500 L by the meter; after 1500 L 23 % are used
}

// A tap of 412 µS/cm and a product of 11.3, shown to 1 and to 0.1: no scale is asked for.
func ExampleRejectionOf() {
	r, u, err := rodi.RejectionOf(412, 11.3, 1/math.Sqrt(12), 0.1/math.Sqrt(12))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f ± %.2f %%\n", r.Percent(), u.Percent())
	// Output: 97.26 ± 0.01 %
}
