package main

import (
	"fmt"
	"log"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/units"
)

func main() {
	plan, err := mix.Plan(mix.Batch{
		Target:           units.Practical(35),
		Temperature:      units.Celsius(25),
		WaterTemperature: units.Celsius(18),
		Amount:           mix.FinalVolume(10 * units.USGallon),
		Salt:             mix.Salt{SeaSalt: units.Percent(95)}, // or what its label promises
	})
	if err != nil {
		log.Fatal(err)
	}
	found := pss78.Salinity(52.1*units.MillisiemensPerCentimetre, units.Celsius(25), 0)
	left := dilution.Once(units.Percent(15))
	_, err = fmt.Printf(`%.0f g of salt into %.1f L of water
the meter shows 52.1 mS/cm at 25 °C: that is %.1f
nitrate after 15 %%: %.1f mg/L
`, plan.Salt.Grams(), plan.Water.Litres(), found.Value(),
		dilution.Level(20*units.MilligramPerLitre, 0, left).MilligramsPerLitre())
	if err != nil { // the disk may be full
		log.Fatal(err)
	}
}
