package teos10

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// Every value that the IAPWS releases print, to all printed digits. Rows
// marked approx stand on the IAPWS-95 equation for pure water, which SR7-09
// replaces within 5e-4 of the second derivatives.
func TestIAPWSReleases(t *testing.T) {
	const approximation = 5e-4
	tested := 0
	for _, r := range checks.Table(t, "testdata/iapws_releases.csv") {
		in := r.Inputs(t, "inputs")
		sa := units.Absolute(1000 * in["S_kg_kg"])
		temp := units.Celsius(in["T_K"] - 273.15)
		p := units.SeaPressure((in["P_Pa"] - 101325) / 1e4)
		what := r["source"] + " " + r["quantity"] + " " + r["part"] + " " + r["inputs"]
		got, ok := release(r, sa, temp, p)
		if !ok {
			t.Errorf("%s: not computed", what)
			continue
		}
		switch r["usable"] {
		case "yes":
			checks.Printed(t, what, got, r["value"])
		case "approx":
			checks.Relative(t, what, got, r.Float(t, "value"), approximation)
		default: // beyond 40 °C the equation is not meant to hold; it stays finite
			assert.False(t, math.IsNaN(got) || math.IsInf(got, 0), what)
			continue
		}
		tested++
	}
	assert.Equal(t, 128, tested)
}

func release(r checks.Row, sa units.AbsoluteSalinity, t units.Temperature, p units.SeaPressure) (float64, bool) {
	var d Derivatives
	switch r["part"] {
	case "water":
		d = GibbsWater(t, p)
	case "saline":
		d = GibbsSaline(sa, t, p)
	default:
		d = Gibbs(sa, t, p)
	}
	abs := 101325 + 1e4*float64(p)
	switch r["quantity"] {
	case "g":
		return float64(d.G), true
	case "g_S":
		return float64(1000 * d.S), true
	case "g_T":
		return float64(d.T), true
	case "g_P":
		return float64(d.P), true
	case "g_SP":
		return float64(1000 * d.SP), true
	case "g_TT":
		return float64(d.TT), true
	case "g_TP":
		return float64(d.TP), true
	case "g_PP":
		return float64(d.PP), true
	case "h":
		return EnthalpyExact(sa, t, p), true
	case "f":
		return float64(d.G) - abs*float64(d.P), true
	case "u":
		return InternalEnergyExact(sa, t, p), true
	case "s":
		return EntropyExact(sa, t, p), true
	case "rho":
		return float64(DensityExact(sa, t, p)), true
	case "cp":
		return float64(HeatCapacityExact(sa, t, p)), true
	case "w":
		return float64(SoundSpeedExact(sa, t, p)), true
	case "muW":
		return WaterPotential(sa, t, p), true
	case "thermcond_saline_excess":
		return salineConductivity(sa.GramsPerKilogram(), t.Celsius(), abs*1e-6), true
	case "thermal_conductivity":
		return waterConductivity(t.Kelvin()), true
	case "surface_tension":
		return 1000 * SurfaceTension(sa, t), true
	case "viscosity": // of pure water by IAPWS; Viscosity is another formula, see TestTransportGrid
		return viscosityIAPWS(t.Kelvin()), true
	}
	return 0, false
}

// viscosityIAPWS is SR6-08 eq. 7, Pa s times 10⁶, against which the pure-water
// part of Viscosity is judged.
func viscosityIAPWS(kelvin float64) float64 {
	u := kelvin / 300
	return 280.68*math.Pow(u, -1.9) + 511.45*math.Pow(u, -7.7) + 61.131*math.Pow(u, -19.6) + 0.45903*math.Pow(u, -40)
}

// The documented examples of TEOS-10, to the printed digits where these are
// at most 15; rounding of the last bits counts where 16 or 17 are printed.
func TestDocumentedExamples(t *testing.T) {
	for _, r := range checks.Table(t, "testdata/teos10_examples.csv") {
		got, ok := toolbox(t, r)
		what := r["function"] + " " + r["inputs"]
		if !ok {
			t.Errorf("%s: not computed", what)
			continue
		}
		want := r.Float(t, "value")
		tol := math.Max(0.5*checks.LastDigit(r["value"]), exampleRounding(r["function"])*math.Abs(want))
		checks.Absolute(t, what, got, want, tol)
	}
}

// exampleRounding is what the order of operations may change, relative to the
// value: a few bits, but more where
//   - a solved equation ends, or two nearly equal numbers are subtracted;
//   - the toolbox prints the coefficients of the differentiated or integrated
//     polynomial in rounded form, while this package works from the published
//     75 themselves (β, and enthalpy under pressure).
func exampleRounding(function string) float64 {
	switch function {
	case "CT_freezing", "t_freezing", "SA_from_rho":
		return 1e-13
	case "sigma0", "sigma1", "sigma2", "sigma3", "sigma4":
		return 6e-14 // 1.2e-15 of the density
	case "specvol_anom_standard":
		return lastBitsOfADifference // 2e-15 of the specific volume
	case "beta", "rho_first_derivatives.drho_dSA", "enthalpy", "dynamic_enthalpy", "internal_energy":
		return 6e-14
	case "alpha", "rho_first_derivatives.drho_dCT", "alpha_wrt_t_exact", "adiabatic_lapse_rate_from_CT":
		return 2e-14
	}
	return lastBits
}

const lastBits, lastBitsOfADifference = 5e-15, 3e-12

// The toolbox's own check values, each within what the toolbox demands.
func TestToolboxCheckValues(t *testing.T) {
	for _, r := range checks.Table(t, "testdata/teos10_toolbox.csv") {
		got, ok := toolbox(t, r)
		what := r["function"] + " " + r["inputs"]
		if !ok {
			t.Errorf("%s: not computed", what)
			continue
		}
		tol := lastBits * math.Abs(r.Float(t, "value")) // gibbs_*: no tolerance given
		if r["tolerance_published"] != "" {
			tol = r.Float(t, "tolerance_published")
		}
		checks.Absolute(t, what, got, r.Float(t, "value"), tol)
	}
}

// toolbox computes what a function of the toolbox of that name returns.
func toolbox(t *testing.T, r checks.Row) (float64, bool) {
	t.Helper()
	in := r.Inputs(t, "inputs")
	sa, p := units.Absolute(in["SA"]), units.SeaPressure(in["p"])
	temp, ct, pt := units.Celsius(in["t"]), Conservative(in["CT"]), Potential(in["pt"])
	rho := units.Density(in["rho"])
	air := units.Share(in["sat"])
	d := func() Derivatives { return Gibbs(sa, temp, p) }
	switch r["function"] {
	case "specvol":
		return SpecificVolume(sa, ct, p), true
	case "rho":
		return float64(Density(sa, ct, p)), true
	case "sigma0", "sigma1", "sigma2", "sigma3", "sigma4":
		ref := units.SeaPressure(1000 * float64(r["function"][5]-'0'))
		return float64(Density(sa, ct, ref)) - 1000, true
	case "specvol_anom_standard":
		return SpecificVolume(sa, ct, p) - SpecificVolume(units.Absolute(35.16504), Conservative(0), p), true
	case "alpha":
		return ThermalExpansion(sa, ct, p), true
	case "beta":
		return HalineContraction(sa, ct, p), true
	case "rho_first_derivatives.drho_dSA":
		return float64(Density(sa, ct, p)) * HalineContraction(sa, ct, p), true
	case "rho_first_derivatives.drho_dCT":
		return -float64(Density(sa, ct, p)) * ThermalExpansion(sa, ct, p), true
	case "rho_first_derivatives.drho_dp":
		return float64(Density(sa, ct, p)) * Compressibility(sa, ct, p), true
	case "kappa":
		return Compressibility(sa, ct, p), true
	case "sound_speed":
		return float64(SoundSpeed(sa, ct, p)), true
	case "enthalpy":
		return Enthalpy(sa, ct, p), true
	case "dynamic_enthalpy":
		return pascalUnit * volumeIntegral(reduceConservative(sa, ct, p)), true
	case "internal_energy":
		return InternalEnergy(sa, ct, p), true
	case "SA_from_rho":
		return SalinityFromDensity(rho, ct, p).GramsPerKilogram(), true

	case "specvol_t_exact":
		return SpecificVolumeExact(sa, temp, p), true
	case "rho_t_exact":
		return float64(DensityExact(sa, temp, p)), true
	case "pot_rho_t_exact":
		ref := units.SeaPressure(in["p_ref"])
		return float64(DensityExact(sa, MovedTemperature(sa, temp, p, ref), ref)), true
	case "alpha_wrt_t_exact":
		return ThermalExpansionExact(sa, temp, p), true
	case "beta_const_t_exact":
		return HalineContractionExact(sa, temp, p), true
	case "kappa_t_exact":
		return CompressibilityExact(sa, temp, p), true
	case "sound_speed_t_exact":
		return float64(SoundSpeedExact(sa, temp, p)), true
	case "cp_t_exact":
		return float64(HeatCapacityExact(sa, temp, p)), true
	case "isochoric_heat_cap_t_exact":
		d := d()
		return -temp.Kelvin() * float64(d.TT-d.TP*d.TP/d.PP), true
	case "enthalpy_t_exact":
		return EnthalpyExact(sa, temp, p), true
	case "internal_energy_t_exact":
		return InternalEnergyExact(sa, temp, p), true
	case "entropy_from_t":
		return EntropyExact(sa, temp, p), true
	case "entropy_from_CT":
		return EntropyExact(sa, InSituFromConservative(sa, ct, 0), 0), true
	case "adiabatic_lapse_rate_from_CT":
		return LapseRateExact(sa, InSituFromConservative(sa, ct, p), p), true
	case "chem_potential_water_t_exact":
		return WaterPotential(sa, temp, p) / 1000, true
	case "chem_potential_salt_t_exact":
		return SaltPotential(sa, temp, p) / 1000, true
	case "chem_potential_relative_t_exact":
		return RelativePotential(sa, temp, p) / 1000, true
	case "dilution_coefficient_t_exact":
		return sa.GramsPerKilogram() * float64(d().SS), true
	case "Gibbs_energy_t_exact":
		return float64(d().G), true
	case "Helmholtz_energy_t_exact":
		d := d()
		return float64(d.G) - (float64(p)*1e4+101325)*float64(d.P), true
	case "osmotic_coefficient_t_exact":
		return OsmoticCoefficient(sa, temp, p), true
	case "osmotic_pressure_t_exact":
		return float64(OsmoticPressure(sa, temp, p)), true

	case "CT_from_pt":
		return ConservativeFromPotential(sa, pt).Celsius(), true
	case "CT_from_t":
		return ConservativeFromInSitu(sa, temp, p).Celsius(), true
	case "pt_from_CT":
		return PotentialFromConservative(sa, ct).Celsius(), true
	case "t_from_CT":
		return InSituFromConservative(sa, ct, p).Celsius(), true
	case "pt0_from_t":
		return PotentialFromInSitu(sa, temp, p).Celsius(), true
	case "pt_from_t":
		return MovedTemperature(sa, temp, p, units.SeaPressure(in["p_ref"])).Celsius(), true

	case "t_freezing":
		return FreezingTemperature(sa, p, air).Celsius(), true
	case "CT_freezing":
		return FreezingConservative(sa, p, air).Celsius(), true
	case "CT_maxdensity":
		return MaximumDensityTemperature(sa, p).Celsius(), true
	case "CT_freezing_poly":
		return FreezingConservativePolynomial(sa, p, air).Celsius(), true
	case "t_freezing_poly":
		return InSituFromConservative(sa, FreezingConservativePolynomial(sa, p, air), p).Celsius(), true
	case "latentheat_melting":
		return MeltingHeat(sa, p), true
	case "latentheat_evap_CT":
		return EvaporationHeat(sa, ct), true
	case "latentheat_evap_t":
		return EvaporationHeat(sa, ConservativeFromInSitu(sa, temp, 0)), true

	case "SR_from_SP":
		return AbsoluteFromPractical(units.Practical(in["SP"])).GramsPerKilogram(), true
	case "SP_from_SR":
		return PracticalFromAbsolute(units.Absolute(in["SR"])).Value(), true
	case "molality_from_SA":
		return Molality(sa), true
	case "ionic_strength_from_SA":
		return IonicStrength(sa), true

	case "gibbs_S0T0P0":
		return float64(d().G), true
	case "gibbs_S1T0P0":
		return float64(d().S), true
	case "gibbs_S0T1P0":
		return float64(d().T), true
	case "gibbs_S0T0P1":
		return float64(d().P), true
	case "gibbs_S2T0P0":
		return float64(d().SS), true
	case "gibbs_S0T2P0":
		return float64(d().TT), true
	case "gibbs_S0T0P2":
		return float64(d().PP), true
	case "gibbs_S1T1P0":
		return float64(d().ST), true
	case "gibbs_S1T0P1":
		return float64(d().SP), true
	case "gibbs_S0T1P1":
		return float64(d().TP), true
	case "gibbs_S1T1P1": // a third derivative, from the column of g_SP
		x, y, z := reduce(sa, in["t"], in["p"])
		var c column
		c.salineSP(x, z)
		return c.slope(y) / (2 * salinityUnit * kelvinUnit * pascalUnit), true
	case "gibbs_ice_T1":
		_, gT, _ := ice(temp.Kelvin(), 1e4*float64(p))
		return gT, true
	}
	return 0, false
}
