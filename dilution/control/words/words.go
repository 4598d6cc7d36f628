// Package words has the texts of package control: of its reasons, codes, settings and
// faults. It stands apart so that firmware which shows numbers, or speaks another
// language, can leave it out.
package words

import (
	"math"
	"strconv"

	"example.org/wellmixed/dilution/control"
)

// unknown is the text of what no program of this version says.
const unknown = "unknown"

var qualities = [...]string{"bad", "suspect", "good"}

// Quality returns "bad", "suspect" or "good".
func Quality(q control.Quality) string { return from(qualities[:], int(q)) }

var reasons = [...]string{
	control.Fine:        "fine",
	control.Unset:       "settings refused",
	control.Silent:      "no answer",
	control.OutOfRange:  "out of range",
	control.Settling:    "settling",
	control.Jumped:      "jumped",
	control.Moved:       "jumped and stayed: look, then accept",
	control.Stuck:       "stuck",
	control.Noisy:       "noise grown",
	control.Overdue:     "calibration overdue",
	control.Held:        "answer missing, last one held",
	control.InAir:       "probe in air",
	control.Drifted:     "against the balance of salt",
	control.Alone:       "nothing to compare with",
	control.Disagreeing: "sensors disagree",
	control.Outvoted:    "one sensor apart",
}

// Reason returns the text of a reason.
func Reason(r control.Reason) string { return from(reasons[:], int(r)) }

var codes = [...]string{
	control.NoAlarm:             "none",
	control.Refused:             "settings refused",
	control.ClockOdd:            "clock stood or jumped",
	control.StateLost:           "state lost",
	control.LevelDoubtful:       "level doubtful",
	control.HighLevel:           "level high",
	control.Leak:                "leak",
	control.ReservoirEmpty:      "reservoir empty",
	control.LongRun:             "pump ran too long",
	control.DayCap:              "cap of the day",
	control.NotRising:           "level does not rise",
	control.RisingAlone:         "level rises without the pump",
	control.FallingFast:         "level falls too fast",
	control.SalinityLow:         "salinity low",
	control.SalinityHigh:        "salinity high",
	control.SalinityDoubtful:    "salinity doubtful",
	control.TemperatureDoubtful: "temperature doubtful",
	control.Uncovered:           "heater not surely covered",
	control.TooWarm:             "too warm",
	control.TooCold:             "too cold",
	control.NoEffect:            "heater or cooler without effect",
	control.OnItsOwn:            "warms with the heater off",
	control.PHHigh:              "pH high",
	control.PHDoubtful:          "pH doubtful",
	control.AlkalinityHigh:      "alkalinity high or not known",
	control.ContainerEmpty:      "container empty",
	control.Waiting:             "dose waits",
	control.Imbalance:           "pumps out of balance",
	control.ChangeInterrupted:   "change interrupted",
	control.TooLong:             "change takes too long",
	control.DrainFull:           "drain full",
	control.NoNewWater:          "no new water",
	control.DosedLess:           "dosed less than set",
}

// Code returns the text of the code of an alarm.
func Code(c control.Code) string { return from(codes[:], int(c)) }

// unitsOf are the units of value and limit of an alarm.
var unitsOf = [...]string{
	control.ClockOdd:            "s",
	control.HighLevel:           "mm",
	control.LevelDoubtful:       "mm",
	control.ReservoirEmpty:      "L",
	control.LongRun:             "s",
	control.DayCap:              "L",
	control.NotRising:           "mm",
	control.RisingAlone:         "mm",
	control.FallingFast:         "mm",
	control.TooWarm:             "°C",
	control.TooCold:             "°C",
	control.NoEffect:            "K",
	control.OnItsOwn:            "K",
	control.AlkalinityHigh:      "dKH",
	control.ContainerEmpty:      "L",
	control.Waiting:             "L",
	control.Imbalance:           "L",
	control.TooLong:             "s",
	control.TemperatureDoubtful: "°C",
	control.ChangeInterrupted:   "L",
	control.DosedLess:           "L",
}

// Unit returns the unit of value and limit of an alarm, "" for a plain number such as a
// salinity or a pH.
func Unit(c control.Code) string {
	if int(c) >= len(unitsOf) {
		return ""
	}
	return unitsOf[c]
}

var faults = [...]string{
	control.LevelStuck:     "level stuck",
	control.LevelFalls:     "level reads ever lower",
	control.PumpStuckOn:    "pump stuck on",
	control.Siphon:         "siphon",
	control.ControllerHung: "controller hangs",
	control.ClockJumps:     "clock jumps",
	control.SecondStuck:    "second level stuck",
	control.SaltyReservoir: "salt water in the reservoir",
}

// Fault returns the text of a fault.
func Fault(f control.Fault) string { return from(faults[:], int(f)) }

var settings = [...]string{
	control.NoSetting:          "none",
	control.SetWatchdog:        "watchdog, s",
	control.SetTank:            "tank, L",
	control.SetArea:            "area, m²",
	control.SetSalinity:        "salinity",
	control.SetTemperature:     "temperature, °C",
	control.SetReservoir:       "reservoir, L",
	control.SetFlow:            "flow, L/h",
	control.SetFlowUncertainty: "uncertainty of the flow, L/h",
	control.SetBand:            "band, mm or K",
	control.SetNotice:          "notice, mm or K",
	control.SetSecond:          "second level, mm",
	control.SetValve:           "float valve, mm",
	control.SetHeadroom:        "headroom, L",
	control.SetMaxRun:          "longest run, s",
	control.SetDayCap:          "cap of a day, L",
	control.SetSalinityBand:    "band of the salinity",
	control.SetMin:             "least of the channel",
	control.SetMax:             "most of the channel",
	control.SetPerHour:         "change in an hour",
	control.SetNoise:           "noise",
	control.SetStep:            "step",
	control.SetSpike:           "spike, s",
	control.SetStill:           "still, s",
	control.SetGap:             "gap, s",
	control.SetCalibrate:       "calibration, s",
	control.SetSettle:          "settle, s",
	control.SetTarget:          "target, °C",
	control.SetDead:            "dead band, K",
	control.SetMinOn:           "shortest time on, s",
	control.SetMinOff:          "shortest time off, s",
	control.SetLeast:           "least, °C",
	control.SetMost:            "most, °C",
	control.SetResponse:        "response, s",
	control.SetPerDay:          "dose of a day, L",
	control.SetEach:            "one dose, L",
	control.SetContainer:       "container, L",
	control.SetLine:            "line, L",
	control.SetPHMost:          "highest pH",
	control.SetAlkalinityMost:  "highest alkalinity, dKH",
	control.SetKind:            "kind of additive",
	control.SetSwap:            "swap, L",
	control.SetOut:             "flow out, L/h",
	control.SetIn:              "flow in, L/h",
	control.SetOutUncertainty:  "uncertainty of the flow out, L/h",
	control.SetInUncertainty:   "uncertainty of the flow in, L/h",
	control.SetMostImbalance:   "largest imbalance, L",
	control.SetNewSalinity:     "salinity of the new water",

	control.SetSalinityUncertainty: "uncertainty of the salinity",
}

// Setting returns the name and unit of a setting.
func Setting(s control.Setting) string { return from(settings[:], int(s)) }

// AppendRefusal appends what is wrong with settings: "highest pH: got 19, want 0 to 14".
// It allocates nothing where there is room.
func AppendRefusal(text []byte, r control.Refusal) []byte {
	text = append(text, Setting(r.Setting)...)
	text = append(text, ": got "...)
	text = strconv.AppendFloat(text, r.Value, 'g', 6, 64)
	text = append(text, ", want "...)
	text = strconv.AppendFloat(text, r.Least, 'g', 6, 64)
	text = append(text, " to "...)
	return strconv.AppendFloat(text, r.Most, 'g', 6, 64)
}

// bare are the codes whose value and limit say nothing to a person.
const bare uint64 = 1<<control.NoAlarm | 1<<control.Refused | 1<<control.StateLost | 1<<control.Leak |
	1<<control.Uncovered | 1<<control.DrainFull | 1<<control.NoNewWater | 1<<control.ClockOdd | 1<<control.LevelDoubtful |
	1<<control.SalinityDoubtful | 1<<control.TemperatureDoubtful | 1<<control.PHDoubtful | 1<<control.Waiting

// AppendAlarm appends the text of an alarm, with the value that raised it, the limit, and the
// unit: "pump ran too long! 255, limit 240 s". What latches has the mark.
func AppendAlarm(text []byte, a control.Alarm) []byte {
	text = append(text, Code(a.Code)...)
	if a.Latched {
		text = append(text, '!')
	}
	if a.Code >= 64 || bare>>a.Code&1 == 1 || math.IsNaN(a.Value) {
		return text
	}
	text = strconv.AppendFloat(append(text, ' '), a.Value, 'g', 4, 64)
	if a.Limit != 0 && !math.IsNaN(a.Limit) {
		text = strconv.AppendFloat(append(text, ", limit "...), a.Limit, 'g', 4, 64)
	}
	if unit := Unit(a.Code); unit != "" {
		text = append(append(text, ' '), unit...)
	}
	return text
}

// AppendWorst appends a worst case as "4.1 L, 35.0 to 34.5", and how it is meant.
func AppendWorst(text []byte, w control.Worst) []byte {
	text = strconv.AppendFloat(text, w.Volume.Litres(), 'f', 1, 64)
	text = append(text, " L"...)
	if w.PerDay {
		text = append(text, " a day"...)
	}
	text = append(text, ", "...)
	text = strconv.AppendFloat(text, w.From.Value(), 'f', 1, 64)
	text = append(text, " to "...)
	text = strconv.AppendFloat(text, w.To.Value(), 'f', 1, 64)
	if w.Spill > 0 {
		text = append(text, ", "...)
		text = strconv.AppendFloat(text, w.Spill.Litres(), 'f', 1, 64)
		text = append(text, " L of it on the floor"...)
	}
	return append(append(append(text, " ("...), Fault(w.Fault)...), ')')
}

func from(list []string, i int) string {
	if i < 0 || i >= len(list) || list[i] == "" {
		return unknown
	}
	return list[i]
}
