package mix_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

func kettle(t *testing.T, salinity, celsius float64) seawater.Sample {
	t.Helper()
	s, err := seawater.HotWater(units.Absolute(salinity), units.Celsius(celsius))
	require.NoError(t, err)
	return s
}

func ids(list []advice.Caution) []string {
	var out []string
	for _, c := range list {
		out = append(out, c.ID)
	}
	return out
}

// By hand: 95 and 10 °C to 25 °C are 15 parts to 70 by mass, with heat capacities of 4.19 and 4.185 J/(g K); a litre at 95 °C
// weighs 961.9 g, at 25 °C 997.0 g (CRC Handbook).
func TestTemperWithAKettle(t *testing.T) {
	p, err := mix.Temper(mix.Tempering{Hot: kettle(t, 0, 95), Cold: water(t, 10), Want: units.Celsius(25), Total: 20})
	require.NoError(t, err)
	assert.InDelta(t, 20*997.0*15/85/961.9, p.Hot.Litres(), 0.01)
	assert.InDelta(t, 20*997.0*70/85/999.7, p.Cold.Litres(), 0.01)
	assert.InDelta(t, 20, p.Mix.Volume().Litres(), 1e-9)
	assert.InDelta(t, 25, p.Mix.Temperature().Celsius(), 1e-9)
	assert.Equal(t, []string{"scalds"}, ids(p.Cautions))

	p, err = mix.Temper(mix.Tempering{Hot: kettle(t, 35, 60), Cold: water(t, 10), Want: units.Celsius(45), Total: 20})
	require.NoError(t, err)
	assert.Equal(t, []string{"scalds", "heated-mix"}, ids(p.Cautions))
	p, err = mix.Temper(mix.Tempering{Hot: water(t, 38), Cold: water(t, 10), Want: units.Celsius(25), Total: 20})
	require.NoError(t, err)
	assert.Empty(t, p.Cautions)
	same, err := mix.Temper(mix.Tempering{Hot: kettle(t, 0, 60), Cold: kettle(t, 0, 60), Want: units.Celsius(60), Total: 20})
	require.NoError(t, err)
	assert.Equal(t, []string{"scalds"}, ids(same.Cautions))
	assert.InDelta(t, 20, same.Mix.Volume().Litres(), 1e-12)
}

// A kettle of 2 kW brings 1.7 L from 15 to 100 °C in m dh/P, by steam tables from 63.08 (at atmospheric pressure, from
// memory) to 419.17 kJ/kg, 999.1 g/L.
func TestHeatToTheBoil(t *testing.T) {
	h := mix.Heating{Water: water(t, 15).OfVolume(1.7), To: units.Celsius(100), Heater: 2 * units.Kilowatt}
	p, err := mix.Heat(h)
	require.NoError(t, err)
	assert.InEpsilon(t, 1.7*0.9991*(419.17-63.08)*1000/2000, p.Time.Seconds(), 0.0005)
	assert.Equal(t, []string{"heater-dry", "mains-near-water", "scalds"}, ids(p.Cautions))
	assert.False(t, p.Limit.IsSet())
	h.Water = salty(t, 35, 15).OfVolume(1.7)
	_, err = mix.Heat(h)
	assert.EqualError(t, err, "to: 100 °C is outside 40 to 80 °C (IAPWS R13-08, at the pressure of the air)")
	h.To = units.Celsius(60)
	p, err = mix.Heat(h)
	require.NoError(t, err)
	assert.Contains(t, ids(p.Cautions), "heated-mix")
	// What is hot already needs no heater, and scalds as well.
	p, err = mix.Heat(mix.Heating{Water: kettle(t, 0, 90).OfVolume(1), To: units.Celsius(25), Heater: 100})
	require.NoError(t, err)
	assert.Zero(t, p.Time)
	assert.Contains(t, ids(p.Cautions), "scalds")
}

func TestHeatAgainstEvaporation(t *testing.T) {
	h := mix.Heating{
		Water: salty(t, 35, 24).OfVolume(200), To: units.Celsius(26), Heater: 300, Loss: 8, Room: units.Celsius(20),
		Evaporation: 0.1, // L/h
	}
	p, err := mix.Heat(h)
	require.NoError(t, err)
	// 100 mL/h of 2.441 MJ/kg (CRC Handbook, 2442 J/g at 25 °C) are 67.7 W.
	takes := 0.0998 * 2.441e6 / 3600
	assert.InDelta(t, takes+8*6, p.Hold.Watts(), 0.3)
	midway := (salty(t, 35, 24).EvaporationHeat() + salty(t, 35, 26).EvaporationHeat()) / 2
	assert.InEpsilon(t, 0.1*0.998*midway/3600+8*6, p.Hold.Watts(), 1e-12)
	negative := h
	negative.Evaporation = -0.1
	_, err = mix.Heat(negative)
	assert.EqualError(t, err, "evaporation: got -0.1 L/h, want zero or more")
	assert.InDelta(t, 20+(300-takes)/8, p.Limit.Celsius(), 0.05)
	h.Heater = 100
	_, err = mix.Heat(h)
	assert.EqualError(t, err, "to: got 26 °C, want below 24.0 °C, the most that 100 W reach in this room: take a heater of more than 116 W or insulate")
	h.Loss = 0
	h.Heater = 50
	_, err = mix.Heat(h)
	assert.EqualError(t, err, "heater: got 50 W, want a heater of more than 68 W, which evaporation takes alone")
	h.Heater, h.To = 3000, units.Celsius(45)
	_, err = mix.Heat(h)
	assert.EqualError(t, err, "evaporation: got 0.1 L/h, want none: its heat is known up to 40 °C")
}

func TestDriftIsTheDifferentialEquation(t *testing.T) {
	d := mix.Drifting{
		Water: salty(t, 35, 26).OfVolume(300), Room: units.Celsius(17), Loss: 9, Power: 20, Evaporation: 0.05,
		To: units.Celsius(22), After: 12 * time.Hour,
	}
	p, err := mix.Drift(d)
	require.NoError(t, err)
	capacity := d.Water.Mass.Kilograms() * float64(salty(t, 35, 24).HeatCapacity())
	step := func(c float64) float64 { return (20 - p.Evaporating.Watts() - 9*(c-17)) / capacity }
	temperature, seconds := 26.0, 0.0
	for ; temperature > 22; seconds++ {
		temperature += step(temperature)
	}
	assert.InEpsilon(t, seconds, p.Time.Seconds(), 0.001)
	temperature = 26
	for range 12 * 3600 {
		temperature += step(temperature)
	}
	assert.InDelta(t, temperature, p.Temperature.Celsius(), 0.001)
	assert.InDelta(t, 17+(20-p.Evaporating.Watts())/9, p.Ends.Celsius(), 1e-9)

	// Evaporation cools below the room, by Q/U.
	d.Power, d.To = 0, units.Temperature{}
	p, err = mix.Drift(d)
	require.NoError(t, err)
	assert.InDelta(t, 17-0.05*0.998*2.441e6/3600/9, p.Ends.Celsius(), 0.02)
	assert.Equal(t, []string{"air-first"}, ids(p.Cautions))

	// Warming in summer, and evaporation alone.
	p, err = mix.Drift(mix.Drifting{Water: salty(t, 35, 25).OfVolume(300), Room: units.Celsius(33), Loss: 9, To: units.Celsius(28)})
	require.NoError(t, err)
	assert.InEpsilon(t, capacity/9*math.Log(8./5), p.Time.Seconds(), 0.002)
	assert.Empty(t, p.Cautions)
	p, err = mix.Drift(mix.Drifting{Water: salty(t, 35, 25).OfVolume(300), Evaporation: 0.1, After: time.Hour})
	require.NoError(t, err)
	assert.InDelta(t, 25-0.0998*2.44e6/capacity, p.Temperature.Celsius(), 0.001)
	assert.False(t, p.Ends.IsSet())
}

func TestDriftRefuses(t *testing.T) {
	good := mix.Drifting{Water: salty(t, 35, 26).OfVolume(300), Room: units.Celsius(17), Loss: 9, To: units.Celsius(22)}
	for want, spoil := range map[string]func(*mix.Drifting){
		"to: got 16 °C, want between the 26.0 °C of the water and the 17.0 °C where it comes to rest": func(d *mix.Drifting) { d.To = units.Celsius(16) },
		"to: got 27 °C, want between the 26.0 °C of the water and the 17.0 °C where it comes to rest": func(d *mix.Drifting) { d.To = units.Celsius(27) },
		"to: got 27 °C, want below the 26.0 °C of the water, which cools":                             func(d *mix.Drifting) { d.Loss, d.Evaporation, d.To = 0, 1, units.Celsius(27) },
		"to: got 22 °C, want above the 26.0 °C of the water, which warms":                             func(d *mix.Drifting) { d.Loss, d.Power = 0, 1 },
		"to: got 22 °C, want a temperature that it comes to within centuries":                         func(d *mix.Drifting) { d.Loss = 1e-9 },
		"loss: got 0 W/K, want above zero, or a power or an evaporation that moves the temperature":   func(d *mix.Drifting) { d.Loss = 0 },
		"room: got nothing, want a temperature":                                                       func(d *mix.Drifting) { d.Room = units.Temperature{} },
		"to: 45 °C is outside -2 to 40 °C (IAPWS SR7-09; kettle water is made by HotWater)":           func(d *mix.Drifting) { d.To = units.Celsius(45) },
	} {
		d := good
		spoil(&d)
		p, err := mix.Drift(d)
		assert.EqualError(t, err, want)
		assert.Zero(t, p)
	}
	same := good
	same.To = same.Water.Temperature()
	p, err := mix.Drift(same)
	require.NoError(t, err)
	assert.Zero(t, p.Time)
}

// LossOf undoes Drift; its uncertainty is that of the logarithm, by hand.
func TestLossOfANight(t *testing.T) {
	tank := salty(t, 35, 25.4).OfVolume(240)
	for _, d := range []mix.Drifting{
		{Water: tank, Room: units.Celsius(18), Loss: 7.3, After: 8 * time.Hour},
		{Water: tank, Room: units.Celsius(18), Loss: 7.3, Power: 15, Evaporation: 0.04, After: 8 * time.Hour},
		{Water: tank, Room: units.Celsius(31), Loss: 2, After: 3 * time.Hour},
	} {
		p, err := mix.Drift(d)
		require.NoError(t, err)
		back, err := mix.LossOf(mix.Cooled{
			Water: tank, To: p.Temperature, In: d.After, Room: d.Room, Power: d.Power, Evaporation: d.Evaporation,
		})
		require.NoError(t, err)
		assert.InEpsilon(t, d.Loss.WattsPerKelvin(), back.Loss.WattsPerKelvin(), 2e-3, "the heat capacity midway differs a little")
		assert.Zero(t, back.Uncertainty)
	}
	c := mix.Cooled{Water: tank, To: units.Celsius(23.4), In: 8 * time.Hour, Room: units.Celsius(18), Doubt: 0.1}
	loss, err := mix.LossOf(c)
	require.NoError(t, err)
	perLog := tank.Mass.Kilograms() * float64(tank.HeatCapacity()) / (8 * 3600)
	assert.InEpsilon(t, perLog*math.Log(7.4/5.4), loss.Loss.WattsPerKelvin(), 1e-3)
	assert.InEpsilon(t, perLog*0.1*math.Sqrt(1/(7.4*7.4)+1/(5.4*5.4)+(1/5.4-1/7.4)*(1/5.4-1/7.4)), loss.Uncertainty.WattsPerKelvin(), 1e-2)

	for want, spoil := range map[string]func(*mix.Cooled){
		"to: got 26 °C, want a reading between the 25.40 °C of the water and the room, which a loss of heat can explain": func(c *mix.Cooled) { c.To = units.Celsius(26) },
		"to: got 17 °C, want a reading between the 25.40 °C of the water and the room, which a loss of heat can explain": func(c *mix.Cooled) { c.To = units.Celsius(17) },
		"doubt: got 3 K, want less than the readings differ: wait longer":                                                func(c *mix.Cooled) { c.Doubt = 3 },
		"in: got 0 h, want a number above zero":                                                                          func(c *mix.Cooled) { c.In = 0 },
	} {
		bad := c
		spoil(&bad)
		loss, err := mix.LossOf(bad)
		assert.EqualError(t, err, want)
		assert.True(t, math.IsNaN(float64(loss.Loss)))
	}
}

func TestChill(t *testing.T) {
	tank := salty(t, 35, 29).OfVolume(200)
	c := mix.Chilling{Water: tank, To: units.Celsius(27), Ice: units.Celsius(-18)}
	loose, err := mix.Chill(c)
	require.NoError(t, err)
	// By hand, with 3.99 J/(g K) of the sea, 2.05 of ice, 333.5 of melting, 4.18 of water (handbooks).
	assert.InEpsilon(t, tank.Mass.Kilograms()*3.995*2/(18*2.05+333.5+27*4.18), loose.Ice.Kilograms(), 0.003)
	melted, err := seawater.Melt(tank, loose.Ice, c.Ice)
	require.NoError(t, err)
	assert.InDelta(t, 27, melted.Temperature().Celsius(), 1e-9)
	assert.InEpsilon(t, melted.Absolute().GramsPerKilogram(), loose.Mix.Absolute().GramsPerKilogram(), 1e-12)
	assert.InEpsilon(t, float64(melted.Mass), float64(loose.Mix.Mass), 1e-12)
	assert.InEpsilon(t, loose.Ice.Grams()/919.5, loose.IceVolume.Litres(), 1e-3) // ice at -18 °C, 0.9195 g/mL
	assert.Equal(t, []string{"cool-slowly", "pure-ice"}, ids(loose.Cautions))

	c.Bag = true
	bagged, err := mix.Chill(c)
	require.NoError(t, err)
	assert.Equal(t, tank.Mass, bagged.Mix.Mass)
	assert.Equal(t, tank.Absolute(), bagged.Mix.Absolute())
	assert.InEpsilon(t, loose.Ice.Kilograms(), bagged.Ice.Kilograms(), 0.01, "the same heat")
	assert.Equal(t, []string{"cool-slowly", "tight-bag"}, ids(bagged.Cautions))
	c.TakenOut = units.Celsius(0)
	early, err := mix.Chill(c)
	require.NoError(t, err)
	assert.InEpsilon(t, (18*2.05+333.5+27*4.18)/(18*2.05+333.5), early.Ice.Kilograms()/bagged.Ice.Kilograms(), 0.002)

	c = mix.Chilling{Water: tank, To: units.Celsius(20), Ice: units.Celsius(-18)}
	far, err := mix.Chill(c)
	require.NoError(t, err)
	assert.Contains(t, ids(far.Cautions), "freshened")
	none, err := mix.Chill(mix.Chilling{Water: tank, To: units.Celsius(29), Ice: units.Celsius(-18)})
	require.NoError(t, err)
	assert.InDelta(t, 0, none.Ice.Grams(), 1e-6)
	soup, err := mix.Chill(mix.Chilling{Water: kettle(t, 0, 95).OfVolume(1), To: units.Celsius(25), Ice: units.Celsius(0)})
	require.NoError(t, err)
	assert.InEpsilon(t, 961.9*4.19*70/(333.5+25*4.19), soup.Ice.Grams(), 0.004)
	assert.Contains(t, ids(soup.Cautions), "scalds")
}

// Down to where ice and water stand side by side, whatever the air in the water does to that.
func TestChillToTheIcePoint(t *testing.T) {
	for _, bag := range []bool{false, true} {
		c := mix.Chilling{Water: water(t, 20).OfVolume(1), To: units.Celsius(0), Ice: units.Celsius(-18), Bag: bag}
		p, err := mix.Chill(c)
		require.NoError(t, err)
		assert.InEpsilon(t, 998.2*20*4.19/(18*2.05+333.5), p.Ice.Grams(), 0.003)
		require.Len(t, p.Assumptions, 2)
		assert.Equal(t, "No heat comes from the room, the pump and the vessel meanwhile: what does takes more ice.", p.Assumptions[0])
		want := "The ice is pure and all of it melts; what drips off before is not counted."
		if bag {
			want = "The bag is left in until its melt water is at 0 °C; the plastic takes up no heat."
		}
		assert.Equal(t, want, p.Assumptions[1])
	}
	_, err := mix.Chill(mix.Chilling{Water: water(t, 20).OfVolume(1), To: units.Celsius(-0.02), Ice: units.Celsius(-18)})
	assert.EqualError(t, err, "to: got -0.02 °C, want at least 0.00 °C, where what comes of it freezes")
}

func TestTemperRefuses(t *testing.T) {
	for _, want := range []float64{9, 96} {
		_, err := mix.Temper(mix.Tempering{Hot: kettle(t, 0, 95), Cold: water(t, 10), Want: units.Celsius(want), Total: 20})
		assert.EqualError(t, err, "want: got "+units.Celsius(want).String()+", want between 10 °C and 95 °C")
	}
	_, err := mix.Temper(mix.Tempering{Hot: water(t, 10), Cold: water(t, 20), Want: units.Celsius(15), Total: 20})
	assert.EqualError(t, err, "want: got 15 °C, want between 20 °C and 10 °C")
}

func TestChillInAVessel(t *testing.T) {
	box, err := mix.Box(1000, 500, 500)
	require.NoError(t, err)
	box, err = box.SafeFillTo(430)
	require.NoError(t, err)
	c := mix.Chilling{Water: salty(t, 35, 29).OfVolume(200), To: units.Celsius(25), Ice: units.Celsius(-18), Vessel: box}
	p, err := mix.Chill(c)
	require.NoError(t, err)
	assert.InDelta(t, 400, p.Before.Millimetres(), 1e-9)
	// Floating ice takes the room of its weight of water: 6.8 kg over 1022 g/L and half a square metre.
	assert.InDelta(t, p.Ice.Grams()/1021.6/500*1000, (p.Highest - p.Before).Millimetres(), 0.2)
	assert.InDelta(t, p.Volume.Litres()*2, p.After.Millimetres(), 1e-9)
	c.Bag = true
	p, err = mix.Chill(c)
	require.NoError(t, err)
	assert.Greater(t, p.Highest, p.Before)
	assert.Less(t, p.After, p.Before, "cold water is denser")
	c.To = units.Celsius(15)
	_, err = mix.Chill(c)
	assert.ErrorContains(t, err, "vessel: got 215.00 L of safe fill, want room for 2")
}

func TestChillRefuses(t *testing.T) {
	good := mix.Chilling{Water: salty(t, 35, 25).OfVolume(40), To: units.Celsius(20), Ice: units.Celsius(-18)}
	for want, spoil := range map[string]func(*mix.Chilling){
		"to: got 26 °C, want no warmer than the 25.0 °C of the water":                               func(c *mix.Chilling) { c.To = units.Celsius(26) },
		"to: got -1.8 °C, want at least -1.47 °C, where what comes of it freezes":                   func(c *mix.Chilling) { c.To = units.Celsius(-1.8) },
		"takenOut: got -1.8 °C, want 0 °C, where the ice has melted, up to what the water comes to": func(c *mix.Chilling) { c.To, c.Bag = units.Celsius(-1.8), true },
		"takenOut: got 22 °C, want 0 °C, where the ice has melted, up to what the water comes to":   func(c *mix.Chilling) { c.TakenOut, c.Bag = units.Celsius(22), true },
		"ice: got nothing, want a temperature":                                                      func(c *mix.Chilling) { c.Ice = units.Temperature{} },
		"water: got 0 g, want a number above zero":                                                  func(c *mix.Chilling) { c.Water.Mass = 0 },
		"ice: 5 °C is outside -273.15 to 0.01 °C (IAPWS R10-06, ice Ih up to the triple point)":     func(c *mix.Chilling) { c.Ice = units.Celsius(5) },
	} {
		c := good
		spoil(&c)
		p, err := mix.Chill(c)
		assert.EqualError(t, err, want)
		assert.Zero(t, p)
	}
}

// The classic of sea ice: what is left of the sea at -5 °C has some 84 g/kg, so 58 % are ice; a litre of water makes 1.09 L
// of ice.
func TestFreeze(t *testing.T) {
	bin := salty(t, 35, 5).OfVolume(100)
	p, err := mix.Freeze(mix.Freezing{Water: bin, Coldest: units.Celsius(-5)})
	require.NoError(t, err)
	assert.InDelta(t, -1.92, p.Point.Celsius(), 0.01) // UNESCO 1983: -1.922 at 35
	assert.InDelta(t, 84, p.Salinity.GramsPerKilogram(), 2)
	assert.InDelta(t, 1-35.165/84, p.Share.Value(), 0.015)
	assert.InEpsilon(t, float64(bin.Mass), float64(p.Ice+p.Left), 1e-15)
	assert.InEpsilon(t, float64(bin.Salt()), float64(p.Left)*p.Salinity.GramsPerKilogram()/1000, 1e-12)
	assert.InDelta(t, p.Share.Value()*0.09, p.Swells.Value(), 0.02)
	// Ice takes 333 J/g with it, and what is there cools by 10 K.
	assert.InEpsilon(t, p.Ice.Grams()*327+bin.Mass.Grams()*10*3.6, p.Heat.Joules(), 0.03)
	assert.Equal(t, []string{"ice-bursts", "thaw-and-stir", "salts-fall"}, ids(p.Cautions))
	assert.InDelta(t, -5, teos10.FreezingTemperature(p.Salinity, 0, units.Share(1)).Celsius(), 1e-9)

	p, err = mix.Freeze(mix.Freezing{Water: bin, Coldest: units.Celsius(-1)})
	require.NoError(t, err)
	assert.Zero(t, p.Ice)
	assert.Equal(t, bin.Mass, p.Left)
	assert.Empty(t, p.Cautions)

	p, err = mix.Freeze(mix.Freezing{Water: water(t, 5).OfVolume(10), Coldest: units.Celsius(-10)})
	require.NoError(t, err)
	assert.InDelta(t, 1, p.Share.Value(), 1e-15)
	assert.Zero(t, p.Left)
	assert.InDelta(t, 0.0895, p.Swells.Value(), 0.002) // 0.99997/0.9187 (CRC Handbook)
	assert.Equal(t, []string{"ice-bursts"}, ids(p.Cautions))

	_, err = mix.Freeze(mix.Freezing{Water: bin, Coldest: units.Celsius(-15)})
	assert.EqualError(t, err, "coldest: got -15 °C, want no colder than -7.7 °C, where 71 % are ice and the brine has 120 g/kg: below, count all of it as frozen")
	_, err = mix.Freeze(mix.Freezing{Water: bin, Coldest: units.Celsius(math.NaN())})
	assert.ErrorIs(t, err, units.ErrInput)
	_, err = mix.Freeze(mix.Freezing{Water: kettle(t, 0, 60).OfVolume(1), Coldest: units.Celsius(-15)})
	assert.ErrorIs(t, err, units.ErrRange)
}
