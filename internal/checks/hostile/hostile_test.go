// Package hostile_test calls everything that the library exports with hostile values. The
// lists of what that is are written by package checks, so that they can be written again
// when a name is gone and this does not compile.
package hostile_test

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"path/filepath"
	"reflect"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/dilution"
	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/mix"
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
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/seawater/titration"
	"example.org/wellmixed/seawater/weighing"
	"example.org/wellmixed/units"
)

var rounds = flag.Int("rounds", 200, "how often TestNothingPanics calls everything")

const (
	deadline  = 10 * time.Second // of one call; what is usual takes less than a millisecond
	longError = 1400             // bytes; an error names what was wrong, it does not repeat the input
)

// TestNothingPanics calls every exported function, and every method of every exported
// type and of whatever the calls return, with values that no keeper would give and with
// values of which one is such. No call may panic or outlast the deadline, and beside an
// error stands an empty or NaN result. What is returned without one goes to JSON.
func TestNothingPanics(t *testing.T) {
	a := &attack{t: t, pool: map[reflect.Type][]reflect.Value{}, reported: map[string]bool{}}
	for _, v := range slices.Concat(exportedValues, soundInput()) {
		a.keep(reflect.ValueOf(v))
	}
	type entry struct {
		name string
		call reflect.Value
	}
	var calls []entry
	for name, f := range exportedFunctions {
		calls = append(calls, entry{name, reflect.ValueOf(f)})
	}
	for _, typ := range exportedTypes {
		for name, m := range methodsOf(typ) {
			calls = append(calls, entry{name, m})
		}
	}
	slices.SortFunc(calls, func(a, b entry) int { return strings.Compare(a.name, b.name) })
	for round := range checks.Runs(*rounds, 4) {
		for _, c := range calls {
			h := fnv.New64a()
			h.Write([]byte(c.name))
			a.random = rand.New(rand.NewPCG(h.Sum64(), uint64(round)))
			a.try(c.name, c.call)
		}
	}
	t.Logf("%d functions and methods, %d calls", len(calls), a.made)
	assert.Greater(t, a.answered*5, a.made, "most calls are refused: what comes after the refusals is not reached")
}

// attack makes the calls and keeps what they return as input of later ones.
type attack struct {
	t              *testing.T
	random         *rand.Rand
	hostility      float64 // how often a leaf is hostile
	pool           map[reflect.Type][]reflect.Value
	reported       map[string]bool
	made, answered int
}

// try makes one call.
func (a *attack) try(name string, f reflect.Value) {
	a.hostility = []float64{0, 0.03, 0.3, 1}[a.random.IntN(4)]
	typ := f.Type()
	in := make([]reflect.Value, typ.NumIn())
	for i := range in {
		in[i] = a.value(typ.In(i), 0)
		if in[i].Kind() == reflect.Pointer && in[i].IsNil() { // Go's own panic, and no value of a quantity
			in[i] = reflect.New(typ.In(i).Elem())
		}
	}
	given := describe(in)
	type outcome struct {
		results  []reflect.Value
		panicked string
	}
	done := make(chan outcome, 1)
	go func() {
		var o outcome
		defer func() {
			if r := recover(); r != nil {
				o.panicked = fmt.Sprintf("%v\n%s", r, origin(debug.Stack()))
			}
			done <- o
		}()
		if typ.IsVariadic() {
			o.results = f.CallSlice(in)
		} else {
			o.results = f.Call(in)
		}
		for _, r := range o.results {
			walk(r)
		}
	}()
	late := time.NewTimer(deadline)
	defer late.Stop()
	a.made++
	var o outcome
	select {
	case o = <-done:
	case <-late.C:
		a.t.Fatalf("%s(%s) does not end", name, given)
	}
	switch err := failure(o.results); {
	case o.panicked != "":
		a.report(name, "%s(%s) panics: %s", name, given, o.panicked)
		return
	case err == nil:
		a.answered++
		a.write(name, given, o.results)
	case longest(err) > longError && !strings.HasPrefix(name, "units.Range"): // whose texts are a programmer's
		a.report(name, "%s(%s): an error of %d bytes: %.200s", name, given, longest(err), err)
	default:
		for _, r := range o.results[:len(o.results)-1] {
			if carriesInput[r.Type()] || typ.NumIn() > 0 && r.Type() == typ.In(0) {
				if hasNaN(r) {
					continue
				}
			}
			if r.Kind() == reflect.Slice && slices.ContainsFunc(in, func(v reflect.Value) bool { return v.Type() == r.Type() && v.Pointer() == r.Pointer() }) {
				continue // what was to be appended to
			}
			if comesBack[name] && fmt.Sprint(r) == fmt.Sprint(in[0]) {
				continue
			}
			if !empty(r) {
				a.report(name, "%s(%s) returns the error %v and beside it %s", name, given, err, describe([]reflect.Value{r}))
			}
		}
	}
	for _, r := range o.results {
		a.keep(r)
		if r.Kind() == reflect.Slice && r.Len() > 0 {
			a.keep(r.Index(a.random.IntN(r.Len())))
		}
	}
}

// handedOn are calls that give back numbers of their input, which can be any.
var handedOn = map[string]bool{"recipe.Plan.Missed": true, "tested.Limits.List": true}

// write reports a result that does not go to JSON, because a number in it is unknown or
// infinite and no units.Scalar. The values of firmware and the points of an electrode need not.
func (a *attack) write(name, given string, results []reflect.Value) {
	if handedOn[name] || strings.HasPrefix(name, "control.") {
		return
	}
	for _, r := range results {
		if k := r.Kind(); k != reflect.Struct && k != reflect.Slice && k != reflect.Pointer ||
			strings.HasPrefix(r.Type().Name(), "Point[") {
			continue
		}
		var not *json.UnsupportedValueError
		if _, err := json.Marshal(r.Interface()); errors.As(err, &not) {
			a.report(name, "%s(%s) returns a %s with a number that JSON does not have: %v", name, given, r.Type(), err)
		}
	}
}

// longest returns the length of an error, or of the longest of those that were joined.
func longest(err error) int {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return len(err.Error())
	}
	n := 0
	for _, e := range joined.Unwrap() {
		n = max(n, longest(e))
	}
	return n
}

// report fails the test once for each function.
func (a *attack) report(name, message string, args ...any) {
	if !a.reported[name] {
		a.reported[name] = true
		a.t.Errorf(message, args...)
	}
}

// keep puts a value into the pool, in the place of an older one when there are many.
func (a *attack) keep(v reflect.Value) {
	const many = 16
	kept := a.pool[v.Type()]
	switch {
	case v.Kind() == reflect.Interface || v.Kind() == reflect.Func:
	case len(kept) < many:
		a.pool[v.Type()] = append(kept, v)
	case a.random != nil:
		kept[a.random.IntN(many)] = v
	}
}

// value makes a value: one of the pool, one of the pool of which a part is changed, or a new one.
func (a *attack) value(typ reflect.Type, depth int) reflect.Value {
	v := reflect.New(typ).Elem()
	if kept := a.pool[typ]; len(kept) > 0 && a.random.Float64() < 0.6 {
		v.Set(kept[a.random.IntN(len(kept))])
		if typ.Kind() == reflect.Struct {
			for range a.random.IntN(3) {
				a.change(v, depth)
			}
		}
		if a.random.Float64() >= a.hostility || typ.Kind() == reflect.Struct {
			return v
		}
	}
	a.fill(v, depth)
	return v
}

// change replaces one field of a structure, or of one below it.
func (a *attack) change(v reflect.Value, depth int) {
	switch v.Kind() {
	case reflect.Struct:
		if n := v.NumField(); n > 0 {
			if f := v.Field(a.random.IntN(n)); f.CanSet() {
				a.change(f, depth+1)
			}
		}
	case reflect.Slice:
		if v.Len() == 0 || a.random.IntN(4) == 0 {
			v.Set(a.value(v.Type(), depth+1))
			return
		}
		other := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(other, v)
		v.Set(other)
		a.change(v.Index(a.random.IntN(v.Len())), depth+1)
	default:
		v.Set(a.value(v.Type(), depth+1))
	}
}

var (
	hostileFloats = []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), 1e308, -1e308, 5e-324, -5e-324, -999, 1e-310, 1e15, 1.5e7, 1e4, -1}
	soundFloats   = []float64{0.1, 0.5, 1, 2, 8.1, 20, 25, 35, 100, 400, 2000, 2300}
	hostileInts   = []int64{0, -1, math.MinInt64, math.MaxInt64, math.MaxInt32, math.MinInt32, 1 << 40, 255, -999}
	soundInts     = []int64{0, 1, 2, 3, 5, 10, int64(time.Hour), int64(24 * time.Hour), int64(30 * 24 * time.Hour)}
	hostileTexts  = []string{"", " ", "NaN", "-0", "-999", "1e400", "35 ppt", "+Inf °C", "\xff\xfe\x00", "5 5 5 L", "10³ L", "((((((", "{}", "null", "µ", "1/0",
		strings.Repeat("9", 1<<12), strings.Repeat("(", 1<<12), strings.Repeat("é ", 1<<14), strings.Repeat("1 L ", 1<<12)}
	soundTexts = []string{"35", "25 °C", "20 L", "100 g", "NaCl", "CaCl2.2H2O", "8.1", "15 %", "1.0264", "53 mS/cm", "7 dKH", "420 mg/L"}
)

// fill sets a new value, leaf by leaf.
func (a *attack) fill(v reflect.Value, depth int) {
	hostile := a.random.Float64() < a.hostility
	whole := func(sound, hostileOnes []int64) int64 {
		if hostile {
			return hostileOnes[a.random.IntN(len(hostileOnes))]
		}
		return sound[a.random.IntN(len(sound))]
	}
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(a.random.IntN(2) == 0)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(whole(soundInts, hostileInts))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uintptr:
		v.SetUint(uint64(whole(soundInts[:6], hostileInts)))
	case reflect.Float32, reflect.Float64:
		if hostile {
			v.SetFloat(hostileFloats[a.random.IntN(len(hostileFloats))])
		} else {
			v.SetFloat(soundFloats[a.random.IntN(len(soundFloats))])
		}
	case reflect.String:
		if hostile {
			v.SetString(hostileTexts[a.random.IntN(len(hostileTexts))])
		} else {
			v.SetString(soundTexts[a.random.IntN(len(soundTexts))])
		}
	case reflect.Slice:
		n := a.random.IntN(4)
		if v.Type().Elem().Kind() == reflect.Uint8 {
			v.SetBytes([]byte(slices.Concat(hostileTexts, soundTexts)[a.random.IntN(len(hostileTexts)+len(soundTexts))]))
			return
		}
		if hostile && a.random.IntN(8) == 0 {
			n = 300
		}
		if n == 0 || depth > 4 {
			return // nil
		}
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		for i := range n {
			v.Index(i).Set(a.value(v.Type().Elem(), depth+1))
		}
	case reflect.Array:
		for i := range v.Len() {
			v.Index(i).Set(a.value(v.Type().Elem(), depth+1))
		}
	case reflect.Map:
		if depth > 4 {
			return
		}
		v.Set(reflect.MakeMap(v.Type()))
		for range a.random.IntN(3) {
			v.SetMapIndex(a.value(v.Type().Key(), depth+1), a.value(v.Type().Elem(), depth+1))
		}
	case reflect.Pointer:
		if depth < 5 && !hostile {
			v.Set(reflect.New(v.Type().Elem()))
			v.Elem().Set(a.value(v.Type().Elem(), depth+1))
		}
	case reflect.Struct:
		if v.Type() == reflect.TypeFor[time.Time]() {
			v.Set(reflect.ValueOf(time.Unix(whole(soundInts, hostileInts)/int64(time.Second), 0).UTC()))
			return
		}
		for i := range v.NumField() {
			if f := v.Field(i); f.CanSet() {
				f.Set(a.value(f.Type(), depth+1))
			}
		}
	case reflect.Func:
		typ := v.Type()
		v.Set(reflect.MakeFunc(typ, func([]reflect.Value) (out []reflect.Value) {
			for i := range typ.NumOut() {
				out = append(out, a.value(typ.Out(i), depth+1))
			}
			return out
		}))
	case reflect.Interface:
		if v.Type() == reflect.TypeFor[error]() {
			v.Set(reflect.ValueOf(errors.New("hostile")))
			return
		}
		for typ, kept := range a.pool {
			if typ.Implements(v.Type()) {
				v.Set(kept[0])
				return
			}
		}
	}
}

// walk runs through an iterator that was returned.
func walk(v reflect.Value) {
	if v.Kind() != reflect.Func || v.IsNil() {
		return
	}
	n := 0
	switch {
	case v.Type().CanSeq():
		for range v.Seq() {
			if n++; n > 1000 {
				break
			}
		}
	case v.Type().CanSeq2():
		for range v.Seq2() {
			if n++; n > 1000 {
				break
			}
		}
	}
}

// methodsOf lists the methods of a type and its pointer as functions of their receiver.
func methodsOf(typ reflect.Type) map[string]reflect.Value {
	methods := map[string]reflect.Value{}
	if typ.Kind() != reflect.Interface {
		for _, of := range []reflect.Type{reflect.PointerTo(typ), typ} {
			for i := range of.NumMethod() {
				methods[typ.String()+"."+of.Method(i).Name] = of.Method(i).Func
			}
		}
	}
	return methods
}

// failure is the error that a call returned last, nil if none.
func failure(results []reflect.Value) error {
	if n := len(results); n > 0 {
		err, _ := results[n-1].Interface().(error)
		if n == 1 && results[0].Type() != reflect.TypeFor[error]() {
			return nil // a constructor of an error
		}
		return err
	}
	return nil
}

// empty tells whether nothing stands in a value that could be taken for an answer.
func empty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float32, reflect.Float64:
		return v.Float() == 0 || math.IsNaN(v.Float())
	case reflect.Struct:
		for i := range v.NumField() {
			if !empty(v.Field(i)) {
				return false
			}
		}
		return true
	case reflect.Slice, reflect.Map:
		return v.Len() == 0
	case reflect.Array:
		for i := range v.Len() {
			if !empty(v.Index(i)) {
				return false
			}
		}
		return true
	default:
		return v.IsZero()
	}
}

// hasNaN tells whether a part of a value is NaN, as an offset that could not be found:
// whatever is computed with it is NaN too.
func hasNaN(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float32, reflect.Float64:
		return math.IsNaN(v.Float())
	case reflect.Struct:
		for i := range v.NumField() {
			if hasNaN(v.Field(i)) {
				return true
			}
		}
	}
	return false
}

// describe prints what was given, shortened.
func describe(values []reflect.Value) string {
	var parts []string
	for _, v := range values {
		text := fmt.Sprintf("%+v", v)
		if v.Kind() == reflect.Pointer && !v.IsNil() {
			text = fmt.Sprintf("&%+v", v.Elem())
		}
		if v.Kind() == reflect.String {
			text = fmt.Sprintf("%q", v)
		}
		if len(text) > 1200 {
			text = text[:1200] + "..."
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}

// origin shortens a stack to the innermost calls of the library.
func origin(stack []byte) string {
	var calls []string
	lines := strings.Split(string(stack), "\n")
	for i, line := range lines[:len(lines)-1] {
		if strings.HasPrefix(line, "example.org/wellmixed/") && !strings.Contains(line, "internal/checks/hostile") && len(calls) < 4 {
			file, _, _ := strings.Cut(filepath.Base(lines[i+1]), " ")
			calls = append(calls, filepath.Base(strings.SplitN(line, "(0x", 2)[0])+" "+file)
		}
	}
	return "    in " + strings.Join(calls, "\n    of ")
}

// soundInput are jobs as a keeper gives them, of which the attack changes parts.
func soundInput() []any {
	warm, day := units.Celsius(25), 24*time.Hour
	must := func(s seawater.Sample, err error) seawater.Sample {
		if err != nil {
			panic(err)
		}
		return s
	}
	sea, pure := must(seawater.FromPractical(units.Practical(35), warm)), must(seawater.PureWater(warm))
	compound := func(name string) salts.Reagent {
		c, err := salts.Find(name)
		if err != nil {
			panic(err)
		}
		return salts.Reagent{Compound: c, Purity: units.Share(1)}
	}
	soda, chloride := replenish.Dry(compound("Na2CO3")), replenish.Dry(compound("CaCl2.2H2O"))
	levels := tested.Levels{
		tested.AlkalinityOf(units.DKH(7.4)), tested.Nitrate.Of(25*units.MilligramPerLitre, units.AsNitrate),
		tested.Calcium.Of(400*units.MilligramPerLitre, units.AsCalcium), tested.Magnesium.Of(1250*units.MilligramPerLitre, units.AsMagnesium),
	}
	nitrate := func(mg float64) tested.Levels {
		return tested.Levels{tested.Nitrate.Of(units.MassPerLitre(mg), units.AsNitrate)}
	}
	tank := tested.Water{Portion: sea.OfVolume(250), Levels: levels}
	batch := tested.Water{Portion: sea.OfVolume(50), Levels: levels}
	routine := dilution.Routine{
		Tank: tank, PerDay: nitrate(0.5), Evaporation: 3,
		Changes: []dilution.Renewal{{First: 7 * day, Every: 7 * day, Swap: 20, Batch: batch}},
	}
	unchanged := routine
	unchanged.Changes = nil
	reef := tested.Water{Portion: sea.OfVolume(300), Levels: tested.Levels{
		tested.Calcium.Of(400, units.AsCalcium), tested.Magnesium.Of(1300, units.AsMagnesium), tested.AlkalinityOf(units.DKH(7)),
	}}
	start := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	entry := func(days int, dkh units.Alkalinity) replenish.Test {
		return replenish.Test{At: start.Add(time.Duration(days) * day), Level: tested.AlkalinityOf(units.DKH(dkh.MilliequivalentsPerLitre())), Uncertainty: tested.AlkalinityOf(units.DKH(0.1))}
	}
	shelf := []recipe.Jar{{Reagent: compound("NaCl")}, {Reagent: compound("MgCl2.6H2O")}, {Reagent: compound("CaCl2.2H2O")}, {Reagent: compound("KCl")},
		{Reagent: compound("NaHCO3")}, {Reagent: compound("Na2SO4")}}
	ocean := ions.Reference(units.Practical(35))
	constants := carbonate.At(units.Practical(35), warm, carbonate.Options{})
	return []any{
		sea, pure, sea.OfVolume(200), constants, ocean,
		mix.Batch{Target: units.Practical(35), Temperature: warm, WaterTemperature: warm, Amount: mix.FinalVolume(20), Salt: mix.Salt{SeaSalt: units.Share(0.95)}},
		replenish.Dose{Tank: reef, To: tested.AlkalinityOf(units.DKH(8)), Additive: soda},
		replenish.Dose{Tank: reef, To: tested.Calcium.Of(420, units.AsCalcium), Additive: chloride},
		replenish.Upkeep{Tank: reef, Use: replenish.Use{PerDay: tested.AlkalinityOf(units.DKH(0.4))}, Additive: soda},
		replenish.LimeWater{Tank: reef, TopOff: 4 * units.LitrePerDay, Temperature: warm, Saturation: units.Share(1), Demand: tested.AlkalinityOf(units.DKH(2))},
		replenish.Log{Volume: 300, Tests: []replenish.Test{entry(0, units.MilliequivalentsPerLitre(8)), entry(3, units.MilliequivalentsPerLitre(7.4)), entry(6, units.MilliequivalentsPerLitre(6.9))},
			Doses:   []replenish.Dosed{{From: start, To: start.Add(6 * day), Additive: soda, Amount: replenish.Amount{Mass: 5}}},
			Changes: []replenish.WaterChange{{At: start.Add(4 * day), Swapped: 60, Fresh: []tested.Level{tested.AlkalinityOf(units.DKH(9))}}}},
		dilution.Change{Tank: tank, Batch: batch, Swap: 50}, tank, batch, routine, tested.Limits{},
		dilution.Course{Tank: tank, Batch: batch, Goal: dilution.Goal{Levels: nitrate(10)}, Limits: tested.Limits{}, Every: 7 * day},
		dilution.Schedule{Routine: unchanged, Batch: batch, Span: 60 * day, Swaps: []units.Volume{10, 20, 40}, Every: []time.Duration{7 * day, 14 * day}},
		dilution.Acclimation{Bag: batch, Tank: tank, Limits: tested.Limits{}, Flow: 2 * units.LitrePerHour},
		recipe.Job{Targets: recipe.TargetsOf(ocean, units.Share(0.01)), Shelf: shelf, Volume: 40, Temperature: warm},
		rodi.System{
			Membrane: rodi.Membrane{Rated: rodi.Rating{Flow: 75 * units.USGallonPerDay, Pressure: 50 * units.PSIGauge, Temperature: warm,
				Rejection: units.Share(0.96), Feed: units.TDSReading(250, 0.5), Recovery: units.Share(0.15)}},
			Resin: rodi.Resin{Volume: 0.75, Capacity: 0.6 * units.MolePerLitre, Usable: units.Share(0.7)}, WasteRatio: 3,
		},
		rodi.Feed{TDS: units.TDSReading(310, 0.5), Pressure: 3 * units.BarGauge, Temperature: units.Celsius(12)},
		titration.Vessel{Sample: 100 * units.Gram, Acid: 0.1 * units.MolePerKilogram, Constants: constants}, titration.Closed(2000), titration.AcidWindow(),
		gas.Aeration{Water: carbonate.Water{Salinity: units.Practical(35), Temperature: warm, Alkalinity: 3000, DIC: 2900}, Air: 800, Pressure: units.Atmosphere, Rate: gas.PerHour},
		electrode.Bottle7.Point(2, warm), electrode.Bottle10.Point(-170, warm),
		conductivity.Meter{}, hydrometer.Hydrometer{Pair: units.SG25C(), Expansion: hydrometer.Glass},
		refractometer.Instrument{Graduation: refractometer.PracticalScale(), Zero: refractometer.Zeroing{Standard: refractometer.PureWater(), Temperature: warm}},
		weighing.Air{Temperature: warm, Pressure: units.Atmosphere, Humidity: units.Share(0.5)},
	}
}

// comesBack are methods that return their receiver as it was beside an error, as their
// comments say.
var comesBack = map[string]bool{"tested.Water.Aired": true, "tested.Water.WithDIC": true}

// carriesInput are results in which the question stands beside the answer. Where there
// is none the answer is NaN, as it is in what a method returns of its own type.
var carriesInput = map[reflect.Type]bool{
	reflect.TypeFor[carbonate.System]():  true,
	reflect.TypeFor[titration.Mixture](): true,
	reflect.TypeFor[units.TDS]():         true,
}
