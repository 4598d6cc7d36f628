package control

// Setting names one field of settings, for a Refusal. The text of each is words.Setting.
type Setting uint8

// The settings that can be refused.
const (
	NoSetting Setting = iota
	SetWatchdog
	SetTank
	SetArea
	SetSalinity
	SetTemperature
	SetReservoir
	SetFlow
	SetFlowUncertainty
	SetBand
	SetNotice
	SetSecond
	SetValve
	SetHeadroom
	SetMaxRun
	SetDayCap
	SetSalinityBand
	SetMin
	SetMax
	SetPerHour
	SetNoise
	SetStep
	SetSpike
	SetStill
	SetGap
	SetCalibrate
	SetSettle
	SetTarget
	SetDead
	SetMinOn
	SetMinOff
	SetLeast
	SetMost
	SetResponse
	SetPerDay
	SetEach
	SetContainer
	SetLine
	SetPHMost
	SetAlkalinityMost
	SetKind
	SetSwap
	SetOut
	SetIn
	SetOutUncertainty
	SetInUncertainty
	SetMostImbalance
	SetNewSalinity
	SetSalinityUncertainty
)

// Refusal says which setting cannot be, what it is, and between what it has to be. Its
// zero value refuses nothing.
type Refusal struct {
	Setting            Setting
	Value, Least, Most float64 // in L, L/h, mm, s, °C, practical salinity, dKH, pH, m²
}

// OK tells that nothing is refused.
func (r Refusal) OK() bool { return r.Setting == NoSetting }

// demand is a setting with its bounds.
type demand struct {
	setting            Setting
	value, least, most float64
}

// first returns the first of the demands that is not met.
func first(demands []demand) Refusal {
	for _, d := range demands {
		if !(d.value >= d.least && d.value <= d.most) {
			return Refusal{d.setting, d.value, d.least, d.most}
		}
	}
	return Refusal{}
}

// Bounds of what anyone may set: far more than a tank has, so that no sum overflows.
const (
	little   = 1e-6 // L, L/h, mm
	much     = 1e6
	second   = 1.0 // s
	longest  = 366 * 86400.0
	watchful = 60.0 // s: the longest watchdog
	quick    = 0.01 // s: the shortest
)
