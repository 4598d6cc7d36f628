package gas

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/seawater/carbonate"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// A temperature printed on IPTS-68, as the functions take it.
func from68(t float64) units.Temperature { return units.Celsius(t / 1.00024) }

var gases = map[string]Species{"oxygen": Oxygen, "nitrogen": Nitrogen, "argon": Argon, "carbon dioxide": CarbonDioxide}

// Every column of the grid, computed by other implementations of the formulas.
func TestSolubilityGrid(t *testing.T) {
	worst := map[string]float64{}
	for _, r := range checks.Table(t, "testdata/solubility_grid.csv") {
		s, c := units.Practical(r.Float(t, "s")), r.Float(t, "t_degc")
		t90, t68 := units.Celsius(c), from68(c)
		k := carbonate.GasAt(s, t90)
		for column, got := range map[string]float64{
			"o2_garcia_gordon1992_umolkg":     float64(OxygenGarciaGordon(s, t68)),
			"o2_garcia_gordon1992_umolkg_t68": float64(OxygenGarciaGordon(s, t90)),
			"o2_garcia_gordon1992_mll":        Oxygen.MillilitresPerLitre(OxygenGarciaGordonPerLitre(s, t68)),
			"o2_benson_krause1984_mgl":        float64(OxygenBensonKrause(s, t68)),
			"o2_weiss1970_mll":                Oxygen.MillilitresPerLitre(Oxygen.SaturationWeiss(s, t68)),
			"n2_weiss1970_mll":                Nitrogen.MillilitresPerLitre(Nitrogen.SaturationWeiss(s, t68)),
			"ar_weiss1970_mll":                Argon.MillilitresPerLitre(Argon.SaturationWeiss(s, t68)),
			"n2_hamme_emerson2004":            float64(NitrogenHammeEmerson(s, t90)),
			"ar_hamme_emerson2004":            float64(ArgonHammeEmerson(s, t90)),
			"co2_weiss1974_k0_kg":             float64(k.K0),
			"co2_weiss1974_k0_l":              CarbonDioxideK0PerLitre(s, t90),
			"co2_weiss_price1980_f_kg":        CarbonDioxideF(s, t90),
			"co2_weiss_price1980_f_l":         CarbonDioxideFPerLitre(s, t90),
			"o2_weiss1970_bunsen":             Oxygen.BunsenWeiss(s, t68),
			"n2_weiss1970_bunsen":             Nitrogen.BunsenWeiss(s, t68),
			"ar_weiss1970_bunsen":             Argon.BunsenWeiss(s, t68),
			"vapour_pressure_atm":             float64(VapourPressure(s, t90) / units.Atmosphere),
		} {
			want := r.Float(t, column)
			checks.Relative(t, column+" "+r["s"]+" "+r["t_degc"], got, want, 2e-13)
			worst[column] = math.Max(worst[column], math.Abs(got/want-1))
		}
	}
	assert.Len(t, worst, 17)
	for column, w := range worst {
		t.Logf("%s: %.1e", column, w)
	}
}

func TestPublishedSolubility(t *testing.T) {
	const double, single = 1e-14, 1e-6
	n := 0
	for _, r := range checks.Table(t, "testdata/solubility_published.csv") {
		g, ok := gases[r["gas"]]
		assert.True(t, ok)
		s, c := units.Practical(r.Float(t, "s")), r.Float(t, "t_degc")
		var got float64
		switch r["formula"] {
		case "garcia_gordon":
			got = float64(OxygenGarciaGordon(s, from68(c)))
		case "garcia_gordon_mll":
			got = g.MillilitresPerLitre(OxygenGarciaGordonPerLitre(s, from68(c)))
		case "garcia_gordon_mol_m3":
			got = float64(OxygenGarciaGordonPerLitre(s, from68(c)))
		case "garcia_gordon_t90":
			got = float64(Oxygen.Saturation(s, units.Celsius(c), 1*units.Atmosphere))
			checks.Relative(t, r["source"], got, r.Float(t, "printed"), double)
			n++
			continue
		case "hamme_emerson":
			got = float64(g.Saturation(s, units.Celsius(c), 1*units.Atmosphere))
		case "k0_litre":
			got = CarbonDioxideK0PerLitre(s, units.Celsius(c))
		case "f_litre":
			// Single precision: seven digits of the coefficients.
			checks.Relative(t, r["source"], CarbonDioxideFPerLitre(s, units.Celsius(c))*100, r.Float(t, "printed")*100, single)
			n++
			continue
		case "bunsen_mmol_m3_atm":
			got = g.BunsenWeiss(s, from68(c)) / 22.4136 * 1e6
		case "bunsen_saturation_mmol_m3":
			pv := float64(VapourPressure(s, units.Celsius(c)) / units.Atmosphere)
			got = g.BunsenWeiss(s, from68(c)) / 22.4136 * 1e6 * g.InDryAir().Value() * (1 - pv)
		case "weiss_mll":
			got = g.MillilitresPerLitre(g.SaturationWeiss(s, from68(c)))
		default:
			t.Fatalf("no formula %q", r["formula"])
		}
		checks.Printed(t, r["source"]+", "+r["gas"]+" "+r["s"]+" "+r["t_degc"], got, r["printed"])
		n++
	}
	assert.Equal(t, 49, n)
}

// numbers reads "S=35 t=25 n=-0.5 CO2 seawater" into the numbers that have names.
func numbers(t *testing.T, conditions string) map[string]float64 {
	t.Helper()
	in := map[string]float64{}
	for _, word := range strings.Fields(conditions) {
		if name, text, ok := strings.Cut(word, "="); ok {
			in[name] = checks.Row{"x": text}.Float(t, "x")
		}
	}
	return in
}

func TestExchangeTable(t *testing.T) {
	fresh := units.Practical(0)
	schmidt := map[string]Species{"CO2": CarbonDioxide, "O2": Oxygen, "N2": Nitrogen}
	n := 0
	for _, r := range checks.Table(t, "testdata/exchange.csv") {
		in := numbers(t, r["conditions"])
		air := Air{units.Celsius(in["air"]), 1 * units.Atmosphere, units.Share(in["rh"])}
		water := units.Celsius(in["water"])
		var got float64
		switch r["quantity"] {
		case "shah_E0":
			got = ShahRate(fresh, water, air)
		case "rho_r_minus_rho_w":
			got = float64(air.DryDensity() - Air{water, air.Pressure, units.Share(1)}.DryDensity())
		case "vdi2089_unoccupied":
			got = VDIRate(fresh, water, air, VDIStill)
		case "vdi2089_example":
			got = 28 * 1000 * VDIRate(fresh, water, air, VDIStill)
		case "ashrae_Fa0.5_v0_Y2442":
			got = carrier(SaturationPressure(water)-air.VapourPressure(), 0, CarrierQuiet, 2442e3)
			// The exported form takes the heat of evaporation from TEOS-10.
			checks.Relative(t, "Carrier", CarrierRate(fresh, water, air, 0, CarrierQuiet)*latent(fresh, water), got*2442e3, 1e-13)
		case "psat_water":
			got = float64(SaturationPressure(units.Celsius(in["t"]))) * 100
		case "psat_wagner":
			got = teos10.VapourPressure(units.Absolute(0), units.Celsius(in["t"]))
			checks.Relative(t, "Hyland and Wexler against Wagner", float64(SaturationPressure(units.Celsius(in["t"])))*100, got, 2.3e-4)
		case "humidity_ratio":
			got = humidityRatio(units.AirPressure(in["pw"]/100), units.AirPressure(in["p"]/100))
		case "W_from_wet_bulb":
			p := units.AirPressure(in["p"] / 100)
			dry := units.Celsius(in["t"])
			got = Air{dry, p, HumidityFromWetBulb(dry, units.Celsius(in["twb"]), p)}.HumidityRatio()
		case "moist_air_volume":
			got = 1 / float64(withRatio(in["t"], in["p"], in["W"]).DryDensity())
		case "enthalpy":
			got = 1000 * withRatio(in["t"], 101325, in["W"]).Enthalpy()
		case "p_isa":
			got = 100 * PressureAtAltitude(units.Length(in["H"]/(1-in["H"]/6356766))*units.Metre).Hectopascals() // H is geopotential
		case "schmidt_w14":
			s := units.Practical(35)
			if strings.Contains(r["conditions"], "fresh") {
				s = fresh
			}
			got = schmidt[strings.Fields(r["conditions"])[0]].Schmidt(s, units.Celsius(in["t"]))
			if _, printed, ok := strings.Cut(r["source"], "computed; "); ok {
				checks.Printed(t, printed, got, strings.Fields(printed)[0])
			}
		case "kla_ratio_CO2_O2":
			got = TransferRate(1).Of(CarbonDioxide, Oxygen, units.Practical(in["S"]), units.Celsius(in["t"]), Exponent(in["n"])).PerHour()
		case "kla_temperature":
			got = TransferRate(in["kLa20"]).Moved(units.Celsius(20), units.Celsius(26)).PerHour()
		case "reaeration_C":
			got = float64(TransferRate(in["kLa"]).After(units.AmountPerKilogram(in["Cs"]), units.AmountPerKilogram(in["C0"]), 24*time.Minute))
		case "diffusivity_eyring":
			got = schmidt[strings.Fields(r["conditions"])[0]].Diffusivity(units.Practical(in["S"]), units.Celsius(in["t"]))
		default:
			t.Fatalf("no quantity %q", r["quantity"])
		}
		checks.Absolute(t, r["quantity"]+" "+r["conditions"], got, r.Float(t, "value"), r.Float(t, "tolerance"))
		if testing.Verbose() {
			t.Logf("%s %s: %.10g, off by %.2g of %s", r["quantity"], r["conditions"], got, got-r.Float(t, "value"), r["tolerance"])
		}
		n++
	}
	assert.Equal(t, 53, n)
}

// withRatio returns air of a humidity ratio.
func withRatio(celsius, pascals, w float64) Air {
	p := units.AirPressure(pascals / 100)
	pa := p * units.AirPressure(w/(vapourRatio+w))
	return Air{units.Celsius(celsius), p, units.Share(float64(pa / SaturationPressure(units.Celsius(celsius))))}
}
