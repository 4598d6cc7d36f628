package checks_test

import (
	"encoding"
	"encoding/json"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unsafe"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/dilution/control"
	"example.org/wellmixed/mix"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/recipe"
	"example.org/wellmixed/mix/replenish"
	"example.org/wellmixed/mix/rodi"
	"example.org/wellmixed/mix/salts"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/seawater"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/conductivity"
	"example.org/wellmixed/seawater/electrode"
	"example.org/wellmixed/seawater/gas"
	"example.org/wellmixed/seawater/hydrometer"
	"example.org/wellmixed/seawater/ions"
	"example.org/wellmixed/seawater/pitzer"
	"example.org/wellmixed/seawater/pss78"
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/seawater/titration"
	"example.org/wellmixed/seawater/weighing"
	"example.org/wellmixed/units"
)

// written lists every exported type that holds something, package by package.
var written = []any{
	new(units.AbsoluteSalinity), new(units.AirPressure), new(units.Alkalinity), new(units.AmountPerKilogram),
	new(units.AmountPerLitre), new(units.Area), new(units.BareGravity), new(units.Conductivity), new(units.ConductivityAt),
	new(units.Density), new(units.Duration), new(units.Energy),
	new(units.Flow), new(units.Fraction), new(units.GaugePressure), new(units.GravityPair), new(units.InputError),
	new(units.Length), new(units.Mass), new(units.MassPerKilogram), new(units.MassPerLitre), new(units.MolarMass),
	new(units.Money), new(units.Power), new(units.PracticalSalinity), new(units.Range), new(units.RangeError),
	new(units.Ratio), new(units.Resistivity), new(units.Scalar), new(units.SeaPressure), new(units.SpecificGravity), new(units.SpecificHeat),
	new(units.Speed), new(units.Style), new(units.TDS), new(units.TDSScale), new(units.Temperature),
	new(units.TemperatureDifference), new(units.ThermalConductance), new(units.Voltage), new(units.Volume),
	new(seawater.Agreement), new(seawater.Portion), new(seawater.Reading), new(seawater.Sample),
	new(carbonate.Agreement), new(carbonate.Band), new(carbonate.Minerals), new(carbonate.Saturation), new(carbonate.BoronRatio), new(carbonate.Buffers),
	new(carbonate.Consistency), new(carbonate.ConstantUncertainty), new(carbonate.Constants), new(carbonate.FCO2),
	new(carbonate.FreePH), new(carbonate.Gas), new(carbonate.K1K2), new(carbonate.KF), new(carbonate.KNH4),
	new(carbonate.KS), new(carbonate.Known), new(carbonate.NBSPH), new(carbonate.NoSolutionError),
	new(carbonate.Nutrients), new(carbonate.Options), new(carbonate.PCO2), new(carbonate.SeawaterPH),
	new(carbonate.Species), new(carbonate.System), new(carbonate.Total), new(carbonate.TotalPH),
	new(carbonate.Totals), new(carbonate.TwoSolutionsError), new(carbonate.Uncertainty), new(carbonate.Water),
	new(carbonate.XCO2),
	new(conductivity.Compensation), new(conductivity.Meter), new(conductivity.SalinityMeter),
	new(conductivity.SaltMeter), new(conductivity.Scheme), new(conductivity.Solution), new(conductivity.Standard),
	new(conductivity.TDSMeter), new(conductivity.Uncertainty),
	new(electrode.Buffer), new(electrode.Calibration[carbonate.NBSPH]), new(electrode.Condition), new(electrode.Finding),
	new(electrode.Findings), new(electrode.Point[carbonate.TotalPH]), new(electrode.SeawaterBuffer), new(electrode.SlopeError),
	new(electrode.Uncertainty),
	new(gas.Aeration), new(gas.Air), new(gas.Contents), new(gas.Evaporating), new(gas.Evaporation),
	new(gas.Exponent), new(gas.Outage), new(gas.Pressures), new(gas.Reading), new(gas.Reserve), new(gas.Settled),
	new(gas.Species), new(gas.Surface), new(gas.TransferFit), new(gas.TransferRate),
	new(hydrometer.Densitometer), new(hydrometer.DensityHydrometer), new(hydrometer.Expansion),
	new(hydrometer.Hydrometer), new(hydrometer.Uncertainty),
	new(ions.Closure), new(ions.Composition), new(ions.Deviation), new(ions.Fit), new(ions.Ion),
	new(ions.Measurement), new(ions.Origin), new(ions.Property), new(ions.Reading), new(ions.Readings),
	new(ions.Report), new(ions.UnclosedError),
	new(pitzer.Addition), new(pitzer.Batch), new(pitzer.Brine), new(pitzer.Deposit), new(pitzer.Known), new(pitzer.Limit),
	new(pitzer.Missing), new(pitzer.Mixture), new(pitzer.Saturated), new(pitzer.Solid),
	new(pitzer.Solubility), new(pitzer.Solution),
	new(pitzer.Species), new(pitzer.Stage), new(pitzer.Stock), new(pitzer.Verdict),
	new(ions.Screened),
	new(pss78.Ratio),
	new(refractometer.AirIndex), new(refractometer.Compensation), new(refractometer.Graduation),
	new(refractometer.Instrument), new(refractometer.Liquid), new(refractometer.Reading),
	new(refractometer.Uncertainty), new(refractometer.VacuumIndex), new(refractometer.Wavelength),
	new(refractometer.Zeroing),
	new(teos10.Chlorinity), new(teos10.Chlorosity), new(teos10.ConservativeTemperature), new(teos10.Derivatives),
	new(teos10.KnudsenSalinity), new(teos10.PotentialTemperature), new(teos10.Solutes),
	new(titration.Carbon), new(titration.EndPoint), new(titration.Fit), new(titration.FitUncertainty),
	new(titration.Gran), new(titration.Kit), new(titration.Mixture), new(titration.Point),
	new(titration.TooFewPointsError), new(titration.Uncertainty), new(titration.Vessel), new(titration.Window),
	new(weighing.Air), new(weighing.Flask), new(weighing.Uncertainty), new(weighing.Vessel),
	new(advice.Caution), new(advice.Estimate), new(advice.Severity),
	new(mix.Amount), new(mix.Batch), new(mix.BatchPlan), new(mix.ChillPlan), new(mix.Chilling), new(mix.Cooled),
	new(mix.Correction), new(mix.Doubts), new(mix.DriftPlan), new(mix.Drifting), new(mix.FreezePlan),
	new(mix.Freezing), new(mix.HeatLoss), new(mix.HeatPlan), new(mix.TemperPlan), new(mix.Tempering), new(mix.Heating), new(mix.Label), new(mix.Mark), new(mix.Mixed), new(mix.PastBatch), new(mix.Reads),
	new(mix.Salt), new(mix.Scoop), new(mix.Vessel),
	new(recipe.Basis), new(recipe.Batch), new(recipe.Component), new(recipe.Item), new(recipe.Jar),
	new(recipe.Job), new(recipe.Plan), new(recipe.Recipe), new(recipe.Result), new(recipe.Step),
	new(recipe.Target), new(recipe.Weighed),
	new(replenish.Additive), new(replenish.Aged), new(replenish.Ageing), new(replenish.Amount),
	new(replenish.Calcification), new(replenish.Countdown), new(replenish.Demand), new(replenish.Dose),
	new(replenish.DosePlan), new(replenish.Doubts), new(replenish.Feeding), new(replenish.FeedingPlan), new(replenish.Process), new(replenish.Turnover), new(replenish.Dosed), new(replenish.Ingredient), new(replenish.LimeSupply),
	new(replenish.LimeWater), new(replenish.Log), new(replenish.SalinityRise), new(replenish.Step),
	new(replenish.Test), new(replenish.Upkeep), new(replenish.UpkeepPlan), new(replenish.Use),
	new(replenish.WaterChange),
	new(rodi.Carbon), new(rodi.Checkup), new(rodi.Feed), new(rodi.Filter), new(rodi.Finding),
	new(rodi.FluxConstants), new(rodi.Lasts), new(rodi.Limits), new(rodi.Membrane), new(rodi.Product),
	new(rodi.Rating), new(rodi.Readings), new(rodi.Resin), new(rodi.Run), new(rodi.Stage), new(rodi.System),
	new(rodi.Upkeep), new(rodi.Verdict),
	new(salts.Basis), new(salts.Bottle), new(salts.Bound), new(salts.Compound), new(salts.Formula), new(salts.Ground),
	new(salts.Part), new(salts.Reagent), new(salts.Release), new(salts.Solution), new(salts.Strength), new(salts.Verdict),
	new(tested.Chemistry), new(tested.Hardness), new(tested.Held), new(tested.Level), new(tested.Levels),
	new(tested.Doubts),
	new(tested.Limit), new(tested.Limits), new(tested.Parameter), new(tested.Water),
	new(dilution.Acclimation), new(dilution.AcclimationPlan), new(dilution.Balance), new(dilution.Basin),
	new(dilution.Bounds), new(dilution.Change), new(dilution.ChangePlan), new(dilution.Course),
	new(dilution.CoursePlan), new(dilution.Crossing), new(dilution.Delivery), new(dilution.Dose),
	new(dilution.Doubts), new(dilution.Forecast), new(dilution.Goal), new(dilution.Loss), new(dilution.Manner),
	new(dilution.Move), new(dilution.Near), new(dilution.Option), new(dilution.Periodic[units.MassPerLitre]), new(dilution.Pump),
	new(dilution.Remaining), new(dilution.Renewal), new(dilution.Routine), new(dilution.RoutineDoubts),
	new(dilution.Schedule), new(dilution.SchedulePlan), new(dilution.Settled), new(dilution.Solid),
	new(dilution.Step), new(dilution.Stream), new(dilution.TopOff), new(dilution.Tracer), new(dilution.TracerDoubts),
	new(control.Agreement), new(control.Alarm), new(control.Alarms), new(control.Channel), new(control.Clock),
	new(control.Code), new(control.Decision), new(control.Doser), new(control.DoserInput), new(control.DoserSettings),
	new(control.Exchange), new(control.ExchangeInput), new(control.ExchangeSettings), new(control.Fault),
	new(control.Heat), new(control.Interlock), new(control.Kind), new(control.Median), new(control.Opinion),
	new(control.Pumps), new(control.Quality), new(control.Ramp), new(control.Reading), new(control.Reason),
	new(control.Refusal), new(control.SaltBalance), new(control.Sample), new(control.Setting), new(control.Signal),
	new(control.Smooth), new(control.Switch), new(control.Thermostat), new(control.ThermostatInput),
	new(control.ThermostatSettings), new(control.TopOff), new(control.TopOffInput), new(control.TopOffSettings),
	new(control.TwoPoint), new(control.Worst),
}

// notWritten are the exported types that need not come back from JSON, with the reason.
//
// Those marked "to do" are inputs or results that should come back one day.
var notWritten = map[string]string{
	"seawater/carbonate.System":  "a solution: its Constants and two Known are written, and solved again",
	"seawater/titration.Mixture": "holds a System",
	"seawater/pitzer.Solution":   "a solution: its Brine and its temperature are written, and solved again",
	"seawater/pitzer.Mixture":    "holds a Solution: its Batch is written",
	"seawater/pitzer.Stage":      "holds a Mixture",
	"seawater/electrode.Point":   "remembers why it is refused, which is an error: its buffer and its reading are written",

	"dilution.Forecast":     "remembers its course, to be asked for any time: its Routine is written",
	"dilution.Settled":      "holds a Forecast",
	"dilution.SchedulePlan": "holds a Forecast",

	"dilution/control.Clock":           aCode,
	"dilution/control.Code":            aCode,
	"dilution/control.Fault":           aCode,
	"dilution/control.Kind":            aCode,
	"dilution/control.Quality":         aCode,
	"dilution/control.Reason":          aCode,
	"dilution/control.Setting":         aCode,
	"dilution/control.Switch":          aCode,
	"dilution/control.Agreement":       holdsACode,
	"dilution/control.Alarm":           holdsACode,
	"dilution/control.DoserInput":      holdsACode,
	"dilution/control.DoserSettings":   holdsACode,
	"dilution/control.ExchangeInput":   holdsACode,
	"dilution/control.Opinion":         holdsACode,
	"dilution/control.Reading":         holdsACode,
	"dilution/control.Refusal":         holdsACode,
	"dilution/control.ThermostatInput": holdsACode,
	"dilution/control.TopOffInput":     holdsACode,
	"dilution/control.Worst":           holdsACode,
	"dilution/control.Alarms":          firmwareState,
	"dilution/control.Doser":           firmwareState,
	"dilution/control.Exchange":        firmwareState,
	"dilution/control.Interlock":       firmwareState,
	"dilution/control.Median":          firmwareState,
	"dilution/control.Ramp":            firmwareState,
	"dilution/control.SaltBalance":     firmwareState,
	"dilution/control.Signal":          firmwareState,
	"dilution/control.Smooth":          firmwareState,
	"dilution/control.Thermostat":      firmwareState,
	"dilution/control.TopOff":          firmwareState,
	"dilution/control.TwoPoint":        firmwareState,
}

// Reasons of firmware.
const (
	aCode         = "a number of firmware: its words live apart, in package words, so that firmware can leave them out"
	holdsACode    = "holds a code of firmware"
	firmwareState = "the state of firmware: Save and Restore write what has to last, with a check word"
)

// samples are texts, of which each type that writes itself as text reads at least one.
var samples = []string{
	"20 L", "30 g", "45 cm", "0.6 m²", "25 °C", "1.5 K", "35 PSS-78", "35.2 g/kg", "1.0264 25/25 °C", "2 ppm x0.5", "53 mS/cm",
	"18 MΩ·cm", "2.9 meq/L", "24 mg/L", "24 mg/kg", "24 mmol/L", "24 µmol/kg", "58.44 g/mol", "1013 hPa", "4 bar", "10 dbar",
	"18.5 EUR", "10 %", "1025 kg/m³", "5 L/h", "60 kJ", "300 W", "12 W/K", "3990 J/(kg·K)", "1500 m/s", "-58.2 mV", "3 m/d",
	"8.1 total", "8.2 free", "8.1 seawater", "8.2 NBS", "0.6 cm/h", "19.374 g/kg Cl", "19.85 g/L Cl", "35.13 ‰ Knudsen",
	"35.2 g/kg at 25 °C", "40 g of 35.2 g/kg at 25 °C", "bottle 7", "clean", "Mg", "Na 469 mmol/kg, Cl 546 mmol/kg",
	"24 mg/L NO3", "nitrate", "warning", "40 L of mix", "bucket: 36 cm, 42 cm, 50 cm; safe fill 45 cm", "NaCl",
	"3.5 1/h", "420 µatm", "419 µatm fugacity", "420 ppm", "alkalinity 2300 µmol/kg ± 2", "natural + 20 µmol/kg",
	"nitrification", "care", "2026-11-28T05:00:00Z", "Lee et al. 2010", "Khoo et al. 1977", "Mehrbach et al. 1973 by Dickson and Millero 1987",
	"Bell et al. 2008", "per kg of water", "in steps", "dKH", "carbon", "replace",
	"Na+", "gypsum", "linear", "potassium chloride", "KCl 1413 µS/cm", "nitrogen", "conductivity", "inferred", "19.9 °C conservative",
	"19.8 °C potential", "tris 2018 in 30 PSS-78, 0.04 mol/kg", "1.3394 in air", "1.3398 in vacuum", "Brix at 20 °C",
	"1.026 SG", "3:1", "53 mS/cm at 25 °C", "6 h 35 min", "both", "handbook",
	"sodium chloride 3.5 %", "closed, DIC 2000 µmol/kg", "3 g: pH 4.5 total", "CaCl2.2H2O", "Perez and Fraga 1987",
}

// Every exported input and result goes to JSON and comes back equal; none is written as
// {}, and no choice by its number.
func TestEveryTypeComesBackFromJSON(t *testing.T) {
	for _, p := range written {
		typ := reflect.TypeOf(p).Elem()
		t.Run(typ.String(), func(t *testing.T) {
			if reason, excepted := notWritten[pathOf(typ)]; excepted {
				t.Skip(reason)
			}
			fill(t, reflect.ValueOf(p).Elem(), typ.String(), 0)
			text, err := json.Marshal(p)
			require.NoError(t, err)
			assert.NotContains(t, string(text), "{}")
			back := reflect.New(typ)
			require.NoError(t, json.Unmarshal(text, back.Interface()), "%s", text)
			everything := cmp.Exporter(func(reflect.Type) bool { return true })
			if diff := cmp.Diff(p, back.Interface(), everything); diff != "" {
				t.Errorf("%s came back otherwise: %s", text, diff)
			}
		})
	}
}

// What is unknown or was not given is written as nothing, never as an error.
func TestUnknownGoesToJSON(t *testing.T) {
	for _, p := range written {
		typ := reflect.TypeOf(p).Elem()
		if _, excepted := notWritten[pathOf(typ)]; excepted {
			continue
		}
		t.Run(typ.String(), func(t *testing.T) {
			for _, scalar := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
				v := reflect.New(typ)
				fill(t, v.Elem(), typ.String(), 0)
				forget(v.Elem(), scalar)
				text, err := json.Marshal(v.Interface())
				require.NoError(t, err)
				assert.NotContains(t, string(text), "NaN")
				if !strings.Contains(typ.PkgPath(), "salts") { // a formula of nothing is an empty text
					assert.NotContains(t, string(text), `""`, "unknown is null")
				}
				back := reflect.New(typ)
				require.NoError(t, json.Unmarshal(text, back.Interface()), "%s", text)
				again, err := json.Marshal(back.Interface())
				require.NoError(t, err)
				assert.Equal(t, string(text), string(again))
				if diff := cmp.Diff(scalars(v.Elem()), scalars(back.Elem()), cmpopts.EquateNaNs()); diff != "" {
					t.Errorf("%s came back otherwise: %s", text, diff)
				}
			}
		})
	}
}

// scalar is the type of numbers that may be unknown or infinite.
var scalar = reflect.TypeFor[units.Scalar]()

// forget makes everything in v unknown that can be read from an empty text, and every
// number that may be unknown or infinite x.
func forget(v reflect.Value, x float64) {
	if v.Type() == scalar {
		v.SetFloat(x)
		return
	}
	if reader, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok && v.Kind() != reflect.Pointer {
		before := reflect.New(v.Type()).Elem()
		before.Set(v)
		if reader.UnmarshalText(nil) != nil { // a choice is always made
			v.Set(before)
		}
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		forget(v.Elem(), x)
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			forget(v.Index(i), x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				forget(v.Field(i), x)
			}
		}
	}
}

// scalars are all numbers in v that may be unknown or infinite, in their order.
func scalars(v reflect.Value) []float64 {
	var all []float64
	switch {
	case v.Type() == scalar:
		all = append(all, v.Float())
	case v.Kind() == reflect.Pointer && !v.IsNil():
		all = scalars(v.Elem())
	case v.Kind() == reflect.Slice || v.Kind() == reflect.Array:
		for i := range v.Len() {
			all = append(all, scalars(v.Index(i))...)
		}
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			all = append(all, scalars(v.Field(i))...)
		}
	}
	return all
}

// What the library returns goes to JSON where a number is unknown, or has no end.
func TestUnknownResultsGoToJSON(t *testing.T) {
	nowhere, degrees := units.Practical(math.NaN()), units.Celsius(25)
	constants := carbonate.At(nowhere, degrees, carbonate.Options{})
	system, err := constants.FromAlkalinityDIC(2300, 2000, carbonate.Nutrients{})
	require.Error(t, err)
	fresh := teos10.Gibbs(units.Absolute(0), degrees, 0)
	require.True(t, math.IsInf(float64(fresh.S), -1))
	for _, result := range []any{
		&constants, new(carbonate.Constants), system.Buffers(), system.Brucite(), system.Gypsum(), tested.NoChemistry(),
		fresh, units.Range{Max: 1}.Check(math.NaN()), advice.Estimate{Uncertainty: units.Scalar(math.Inf(1))},
	} {
		text, err := json.Marshal(result)
		require.NoError(t, err, "%T", result)
		back := reflect.New(reflect.Indirect(reflect.ValueOf(result)).Type())
		require.NoError(t, json.Unmarshal(text, back.Interface()), "%s", text)
		again, err := json.Marshal(back.Interface())
		require.NoError(t, err)
		assert.Equal(t, string(text), string(again))
		got, want := scalars(back.Elem()), scalars(reflect.Indirect(reflect.ValueOf(result)))
		require.NotEmpty(t, want, "%T", result)
		assert.Empty(t, cmp.Diff(want, got, cmpopts.EquateNaNs()), "%T", result)
	}
}

// Every exported type stands in the list.
func TestEveryTypeIsListed(t *testing.T) {
	var listed []string
	for _, p := range written {
		listed = append(listed, pathOf(reflect.TypeOf(p).Elem()))
	}
	for _, dir := range publicPackages(t) {
		for line := range strings.Lines(surface(t, root+"/"+dir)) {
			pkg, declared, found := strings.Cut(strings.TrimSpace(line), ": type ")
			typ, what, _ := strings.Cut(declared, " ")
			typ, _, _ = strings.Cut(typ, "[")
			switch {
			case !found, strings.HasPrefix(what, "interface"), strings.HasPrefix(what, "="): // another name for one
			default:
				assert.Contains(t, listed, pkg+"."+typ)
			}
		}
	}
	for excepted := range notWritten {
		assert.True(t, slices.Contains(listed, excepted), "%s is excepted and does not exist", excepted)
	}
}

// pathOf is the path in the module and the name of a type: "seawater/gas.Air".
func pathOf(typ reflect.Type) string {
	base, _, _ := strings.Cut(typ.Name(), "[")
	return strings.TrimPrefix(typ.PkgPath(), "example.org/wellmixed/") + "." + base
}

// deepest ends what holds itself.
const deepest = 8

// fill gives everything in v a value that is not the zero value.
func fill(t *testing.T, v reflect.Value, path string, depth int) {
	if depth > deepest {
		return
	}
	ours := strings.HasPrefix(v.Type().PkgPath(), "example.org/")
	if reader, ok := v.Addr().Interface().(encoding.TextUnmarshaler); ok && v.Kind() != reflect.Pointer {
		for _, text := range samples {
			if reader.UnmarshalText([]byte(text)) == nil && !v.IsZero() {
				return
			}
		}
		t.Fatalf("%s: no sample is read by %s", path, v.Type())
	}
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(3)
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(1)
		if ours {
			t.Errorf("%s: a %s is written by its number", path, v.Type())
		}
	case reflect.Float32, reflect.Float64:
		v.SetFloat(1 + math.Sqrt2)
	case reflect.String:
		v.SetString("some <words> of µ")
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(t, v.Elem(), path, depth+1)
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fallthrough
	case reflect.Array:
		for i := range v.Len() {
			fill(t, v.Index(i), path+"[]", depth+1)
		}
	case reflect.Map:
		key, value := reflect.New(v.Type().Key()).Elem(), reflect.New(v.Type().Elem()).Elem()
		fill(t, key, path+" key", depth+1)
		fill(t, value, path+"[]", depth+1)
		v.Set(reflect.MakeMap(v.Type()))
		v.SetMapIndex(key, value)
	case reflect.Struct:
		for i := range v.NumField() {
			field := v.Field(i)
			if !field.CanSet() { // a hidden field gets lost too
				field = reflect.NewAt(field.Type(), unsafe.Pointer(field.UnsafeAddr())).Elem()
			}
			fill(t, field, path+"."+v.Type().Field(i).Name, depth+1)
		}
	default:
		t.Errorf("%s: a %s does not go to JSON", path, v.Type())
	}
}
