package checks_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// name is what a function of a reference implementation is called here, or why it
// is left out.
type name struct{ theirs, ours, leftOut string }

// Reasons to leave a function out.
const (
	position  = "a tank has no position: use the reference composition, or `teos10.DensitySalinity` with the solutes measured"
	profile   = "works on profiles of the ocean"
	sections  = "works on sections and maps of the ocean"
	elsewhere = "the same by another way"
)

// toolbox are the functions of the TEOS-10 oceanographic toolbox (McDougall and
// Barker 2011), in its own order of subjects, without the prefix they share.
var toolbox = []name{
	{"SA_from_SP", "", position},
	{"SA_from_SP_Baltic", "", position},
	{"SA_from_Sstar", "", position},
	{"Sstar_from_SP", "", position},
	{"Sstar_from_SA", "", position},
	{"SP_from_SA", "", position},
	{"SP_from_Sstar", "", position},
	{"deltaSA_from_SP", "teos10.SalinityAnomaly", ""},
	{"SR_from_SP", "teos10.AbsoluteFromPractical", ""},
	{"SP_from_SR", "teos10.PracticalFromAbsolute", ""},
	{"SP_from_C", "pss78.Salinity", ""},
	{"C_from_SP", "pss78.Conductivity", ""},
	{"SP_from_R", "pss78.Ratio.Salinity", ""},
	{"R_from_SP", "pss78.RatioAt", ""},
	{"SP_salinometer", "pss78.Ratio.Salinity", ""},
	{"SP_from_SK", "teos10.PracticalFromKnudsen", ""},
	{"CT_from_t", "teos10.ConservativeFromInSitu", ""},
	{"t_from_CT", "teos10.InSituFromConservative", ""},
	{"CT_from_pt", "teos10.ConservativeFromPotential", ""},
	{"pt_from_CT", "teos10.PotentialFromConservative", ""},
	{"pt0_from_t", "teos10.PotentialFromInSitu", ""},
	{"pt_from_t", "teos10.MovedTemperature", ""},
	{"t_from_pt0", "teos10.InSituFromPotential", ""},
	{"t90_from_t68", "teos10.IPTS68", ""},
	{"t90_from_t48", "teos10.IPTS48", ""},
	{"z_from_p", "eos80.Depth", ""},
	{"p_from_z", "", "no tank is that deep"},
	{"rho", "teos10.Density", ""},
	{"specvol", "teos10.SpecificVolume", ""},
	{"alpha", "teos10.ThermalExpansion", ""},
	{"beta", "teos10.HalineContraction", ""},
	{"kappa", "teos10.Compressibility", ""},
	{"sigma0", "teos10.SurfaceDensity", ""},
	{"sigma1", "", "`teos10.Density` at that pressure, less 1000"},
	{"sound_speed", "teos10.SoundSpeed", ""},
	{"internal_energy", "teos10.InternalEnergy", ""},
	{"enthalpy", "teos10.Enthalpy", ""},
	{"dynamic_enthalpy", "", "`teos10.Enthalpy` less its value at the surface"},
	{"SA_from_rho", "teos10.SalinityFromDensity", ""},
	{"CT_from_rho", "", "two temperatures can have one density near that of its maximum"},
	{"CT_maxdensity", "teos10.MaximumDensityTemperature", ""},
	{"entropy_from_CT", "", "`teos10.EntropyExact` at the temperature in situ"},
	{"rho_t_exact", "teos10.DensityExact", ""},
	{"specvol_t_exact", "teos10.SpecificVolumeExact", ""},
	{"alpha_wrt_t_exact", "teos10.ThermalExpansionExact", ""},
	{"beta_const_t_exact", "teos10.HalineContractionExact", ""},
	{"kappa_t_exact", "teos10.CompressibilityExact", ""},
	{"kappa_const_t_exact", "teos10.IsothermalCompressibilityExact", ""},
	{"sound_speed_t_exact", "teos10.SoundSpeedExact", ""},
	{"internal_energy_t_exact", "teos10.InternalEnergyExact", ""},
	{"enthalpy_t_exact", "teos10.EnthalpyExact", ""},
	{"entropy_from_t", "teos10.EntropyExact", ""},
	{"cp_t_exact", "teos10.HeatCapacityExact", ""},
	{"isochoric_heat_cap_t_exact", "", elsewhere + ": the derivatives of `teos10.Gibbs` give it"},
	{"chem_potential_relative_t_exact", "teos10.RelativePotential", ""},
	{"chem_potential_water_t_exact", "teos10.WaterPotential", ""},
	{"chem_potential_salt_t_exact", "teos10.SaltPotential", ""},
	{"Gibbs_energy_t_exact", "teos10.Gibbs", ""},
	{"Helmholtz_energy_t_exact", "", elsewhere + ": the derivatives of `teos10.Gibbs` give it"},
	{"osmotic_coefficient_t_exact", "teos10.OsmoticCoefficient", ""},
	{"osmotic_pressure_t_exact", "teos10.OsmoticPressure", ""},
	{"gibbs", "teos10.Gibbs", ""},
	{"adiabatic_lapse_rate_from_t", "teos10.LapseRateExact", ""},
	{"CT_freezing", "teos10.FreezingConservative", ""},
	{"CT_freezing_poly", "teos10.FreezingConservativePolynomial", ""},
	{"SA_freezing_from_t", "teos10.FreezingSalinity", ""},
	{"t_from_entropy", "teos10.TemperatureFromEntropyExact", ""},
	{"t_freezing", "teos10.FreezingTemperature", ""},
	{"pressure_freezing_CT", "", "no tank is that deep"},
	{"latentheat_melting", "teos10.MeltingHeat", ""},
	{"latentheat_evap_CT", "teos10.EvaporationHeat", ""},
	{"latentheat_evap_t", "seawater.Sample.EvaporationHeat", ""},
	{"ionic_strength_from_SA", "teos10.IonicStrength", ""},
	{"molality_from_SA", "teos10.Molality", ""},
	{"O2sol", "gas.OxygenGarciaGordon", ""},
	{"gibbs_ice", "teos10.GibbsIce", ""},
	{"rho_ice", "teos10.IceDensity", ""},
	{"cp_ice", "teos10.IceHeatCapacity", ""},
	{"enthalpy_ice", "teos10.IceEnthalpy", ""},
	{"melting_ice_into_seawater", "seawater.Melt", ""},
	{"frazil functions", "", "no tank is that deep: `mix.Freeze` at the surface"},
	{"Nsquared, Turner_Rsubrho, mlp, cabbeling, thermobaric, geo_strf_*", "", profile},
	{"distance, f, grav, interpolation and plots", "", sections},
}

// carbonateNames are the quantities of packages for the CO2 system, by the words
// that they share.
var carbonateNames = []name{
	{"any pair of parameters", "carbonate.Constants.Solve", ""},
	{"alkalinity and DIC, the fast way", "carbonate.Constants.FromAlkalinityDIC", ""},
	{"total alkalinity, TA", "carbonate.Alkalinity", ""},
	{"dissolved inorganic carbon, DIC, TCO2", "carbonate.DIC", ""},
	{"pH on the total, free, seawater, NBS scale", "carbonate.PHTotal", ""},
	{"pCO2; fCO2; xCO2", "carbonate.PartialPressure", ""},
	{"K0, K1, K2, KB, KW, KS, KF, KP, KSi, KNH4, KH2S", "carbonate.At", ""},
	{"choice of K1 and K2, KSO4, KF, total boron", "carbonate.Options", ""},
	{"saturation state of calcite and aragonite", "carbonate.System.Aragonite", ""},
	{"Revelle factor, gamma, beta and omega buffers", "carbonate.System.Buffers", ""},
	{"propagated uncertainty", "carbonate.Constants.Uncertainty", ""},
	{"internal consistency", "carbonate.Constants.Consistency", ""},
	{"conversion between scales of pH", "carbonate.TotalPH.Free", ""},
	{"pressure correction of the constants", "", "tanks are at the surface: ten metres change K1 by 0.1 %"},
	{"isotopes; estimates from satellite or climatology", "", sections},
}

// TestNames writes seawater/NAMES.md, and sees to it that every name in it is one
// of the public surface.
func TestNames(t *testing.T) {
	surface, err := os.ReadFile(filepath.Join("testdata", "api.txt"))
	require.NoError(t, err)
	var out strings.Builder
	out.WriteString("# What an oceanographer knows it as\n\n" +
		"Written by `go test ./internal/checks -update`. The functions of the TEOS-10 toolbox, without the prefix that\n" +
		"they share, and the quantities of packages for the CO₂ system, and what they are called here.\n" +
		"Argument order is salinity, temperature, pressure everywhere; pressure is sea pressure, zero at the surface.\n")
	for _, table := range []struct {
		title string
		rows  []name
	}{{"TEOS-10", toolbox}, {"The CO₂ system", carbonateNames}} {
		fmt.Fprintf(&out, "\n## %s\n\n| there | here |\n|---|---|\n", table.title)
		for _, n := range table.rows {
			switch {
			case n.ours != "":
				assert.True(t, exported(string(surface), n.ours), "%s is no exported name", n.ours)
				fmt.Fprintf(&out, "| %s | `%s` |\n", n.theirs, n.ours)
			default:
				fmt.Fprintf(&out, "| %s | not here: %s |\n", n.theirs, n.leftOut)
			}
		}
	}
	path := filepath.Join(root, "seawater", "NAMES.md")
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(out.String()), 0o644))
		return
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	if diff := cmp.Diff(string(want), out.String()); diff != "" {
		t.Errorf("%s is not what the table says: %s", path, diff)
	}
}

// exported tells whether a name stands in the listing of the public surface:
// "teos10.Density" or "carbonate.System.Aragonite".
func exported(surface, ours string) bool {
	parts := strings.SplitN(ours, ".", 2)
	for _, line := range strings.Split(surface, "\n") {
		dir, what, _ := strings.Cut(line, ": ")
		if dir != parts[0] && !strings.HasSuffix(dir, "/"+parts[0]) {
			continue
		}
		if on, method, is := strings.Cut(parts[1], "."); is {
			if strings.HasPrefix(what, "func (") && strings.Contains(what, on+") "+method+"(") {
				return true
			}
			continue
		}
		if strings.HasPrefix(what, "func "+parts[1]+"(") || strings.HasPrefix(what, "type "+parts[1]+" ") {
			return true
		}
	}
	return false
}
