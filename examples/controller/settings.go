package main

import (
	"time"

	"example.org/wellmixed/dilution/control"
	"example.org/wellmixed/units"
)

// The settings of an invented tank of 200 L. Change them for your own, and read what -h and
// TopOffSettings.WorstCase say before anything is connected.

// watchdog is after how long hardware turns all outputs off if no decision came.
const watchdog = 15 * time.Second

var topOff = control.TopOffSettings{
	Watchdog: watchdog,
	Tank:     200 * units.Litre, Area: 0.12 * units.SquareMetre, Headroom: 15 * units.Litre,
	Salinity: units.Practical(35), Temperature: units.Celsius(25),
	Reservoir: 20 * units.Litre, Flow: 20 * units.LitrePerHour, FlowUncertainty: 0.5 * units.LitrePerHour,
	Band: 5 * units.Millimetre, Notice: 3 * units.Millimetre,
	MaxRun: 4 * time.Minute, DayCap: 8 * units.Litre,
	Second: 25 * units.Millimetre, SalinityBand: 1,
	EmptySwitch: true, LeakSwitch: true, SecondRelay: true, AirGap: true,
}

// deepest is the level in mm below which heater and probe may stand dry.
const deepest = -40

func heating() control.ThermostatSettings {
	s := control.UsualThermostat()
	s.Watchdog = watchdog
	return s
}

// dosing is a pump of 50 mL/min for 50 mL a day in doses of 2 mL.
func dosing(kind control.Kind) control.DoserSettings {
	return control.DoserSettings{
		Watchdog: watchdog, Kind: kind,
		PerDay: 50 * units.Millilitre, Each: 2 * units.Millilitre, DayCap: 90 * units.Millilitre,
		Flow: 50 * units.MillilitrePerMinute, FlowUncertainty: 2 * units.MillilitrePerMinute,
		Container: units.Litre, Line: 10 * units.Millilitre,
	}
}

// apart is the time between additives that precipitate: 30 L where they go in, flushed by
// 1500 L/h until 1 % is left, and as much again.
func apart() time.Duration { return 2 * control.TimeApart(30, 1500, units.Percent(1)) }

// The sensors, one sample every second to ten.
var (
	levelSensor = control.Channel{ // mm
		Min: -150, Max: 150, PerHour: 400, Noise: 0.4, Step: 0.1,
		Spike: time.Minute, Settle: 30 * time.Second, Gap: 30 * time.Second,
		Still: control.StillTime(0.1, 0.4, 10*time.Second, 0),
	}
	temperatureSensor = control.Channel{ // °C
		Min: -1, Max: 45, PerHour: 4, Noise: 0.02, Step: 0.01,
		Spike: time.Minute, Settle: 30 * time.Second, Gap: 30 * time.Second,
		Still: control.StillTime(0.01, 0.02, 10*time.Second, 0),
	}
	conductivitySensor = control.Channel{ // mS/cm
		Min: 1, Max: 80, PerHour: 6, Noise: 0.03, Step: 0.01,
		Spike: time.Minute, Settle: 30 * time.Second, Gap: 30 * time.Second,
		Still:     control.StillTime(0.01, 0.03, 10*time.Second, 0),
		Calibrate: 60 * 24 * time.Hour,
	}
)
