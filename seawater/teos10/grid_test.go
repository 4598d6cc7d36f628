package teos10

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// The reference implementation over the waters of tanks and of the upper
// ocean: 400 points, every quantity within 1e-12 of its value. The
// quantities that pass through zero, or hang on one that does, have an absolute
// tolerance beside that, with the reason.
func TestReferenceGrid(t *testing.T) {
	type computed struct {
		column string
		got    float64
		abs    float64 // absolute tolerance
	}
	const relative = 1e-12
	worst := map[string]float64{}
	for _, r := range checks.Table(t, "testdata/gsw_grid.csv") {
		sp, p := units.Practical(r.Float(t, "SP")), units.SeaPressure(r.Float(t, "p_dbar"))
		sa, temp := units.Absolute(r.Float(t, "SR_g_kg")), units.Celsius(r.Float(t, "t_C"))
		ct := Conservative(r.Float(t, "CT_C"))
		for _, c := range []computed{
			{"SR_g_kg", AbsoluteFromPractical(sp).GramsPerKilogram(), 0},
			// Some bits of 20 °C; CT of standard seawater passes through zero at 0 °C.
			{"pt0_C", PotentialFromInSitu(sa, temp, p).Celsius(), 1e-13},
			{"CT_C", ConservativeFromInSitu(sa, temp, p).Celsius(), 1e-13},
			{"rho_kg_m3", float64(Density(sa, ct, p)), 0},
			{"rho_t_exact_kg_m3", float64(DensityExact(sa, temp, p)), 0},
			{"specvol_m3_kg", SpecificVolume(sa, ct, p), 0},
			// Expansion vanishes at the density maximum of fresh water.
			{"alpha_1_K", ThermalExpansion(sa, ct, p), 1e-17},
			{"beta_kg_g", HalineContraction(sa, ct, p), 0},
			{"alpha_wrt_t_exact_1_K", ThermalExpansionExact(sa, temp, p), 1e-17},
			{"beta_const_t_exact_kg_g", HalineContractionExact(sa, temp, p), 0},
			{"kappa_1_Pa", Compressibility(sa, ct, p), 0},
			{"cp_t_exact_J_kgK", float64(HeatCapacityExact(sa, temp, p)), 0},
			// Energies near 0 °C are small differences of terms of 10⁵ J/kg.
			{"enthalpy_J_kg", Enthalpy(sa, ct, p), 1e-9},
			{"enthalpy_t_exact_J_kg", EnthalpyExact(sa, temp, p), 1e-9},
			{"entropy_J_kgK", EntropyExact(sa, temp, p), 1e-12},
			{"internal_energy_J_kg", InternalEnergy(sa, ct, p), 1e-9},
			{"sound_speed_m_s", float64(SoundSpeed(sa, ct, p)), 0},
			{"sound_speed_t_exact_m_s", float64(SoundSpeedExact(sa, temp, p)), 0},
			{"adiabatic_lapse_rate_K_Pa", LapseRateExact(sa, temp, p), 1e-21},
			{"latentheat_evap_t_J_kg", EvaporationHeat(sa, ConservativeFromInSitu(sa, temp, 0)), 0},
			{"latentheat_evap_CT_J_kg", EvaporationHeat(sa, ct), 0},
			// The reference stops its iteration within 1e-12 K.
			{"t_freezing_airfree_C", FreezingTemperature(sa, p, units.Share(0)).Celsius(), 1e-12},
			{"t_freezing_airsat_C", FreezingTemperature(sa, p, units.Share(1)).Celsius(), 1e-12},
			{"CT_freezing_airfree_C", ConservativeFromInSitu(sa, FreezingTemperature(sa, p, units.Share(0)), p).Celsius(), 1e-12},
			{"osmotic_coefficient", OsmoticCoefficient(sa, temp, p), 0},
			{"osmotic_pressure_dbar", float64(OsmoticPressure(sa, temp, p)), 1e-9},
			{"chem_potential_water_J_g", WaterPotential(sa, temp, p) / 1000, 1e-13},
			{"molality_mol_kg", Molality(sa), 0},
			{"ionic_strength_mol_kg", IonicStrength(sa), 0},
		} {
			want := r.Float(t, c.column)
			tol := math.Max(relative*math.Abs(want), c.abs)
			checks.Absolute(t, c.column+" SP="+r["SP"]+" t="+r["t_C"]+" p="+r["p_dbar"], c.got, want, tol)
			if want != 0 {
				worst[c.column] = math.Max(worst[c.column], math.Abs(c.got/want-1))
			}
		}
		// The way back ends where it began.
		back := InSituFromConservative(sa, ct, p)
		assert.InDelta(t, temp.Celsius(), back.Celsius(), 1e-12)
	}
	for name, w := range worst {
		t.Logf("%-26s largest relative deviation %.1e", name, w)
	}
}

func TestTransportGrid(t *testing.T) {
	for _, r := range checks.Table(t, "testdata/transport_grid.csv") {
		sa, temp := units.Absolute(r.Float(t, "SR_g_kg")), units.Celsius(r.Float(t, "t_C"))
		at := " SP=" + r["SP"] + " t=" + r["t_C"]
		checks.Relative(t, "viscosity"+at, Viscosity(sa, temp), r.Float(t, "mu_sharqawy"), 1e-14)
		checks.Relative(t, "conductivity"+at, ThermalConductivity(sa, temp), r.Float(t, "k_iapws"), 1e-14)
		checks.Relative(t, "surface tension"+at, SurfaceTension(sa, temp), r.Float(t, "sigma"), 1e-14)
		// An ideal vapour is right to 1e-4 of the pressure.
		checks.Relative(t, "vapour pressure"+at, VapourPressure(sa, temp), r.Float(t, "pv_exact_Pa"), 1e-4)
		lowering := math.Exp(-OsmoticCoefficient(sa, temp, 0) * Molality(sa) * 0.018015268)
		checks.Relative(t, "lowering of vapour pressure"+at, VapourPressure(sa, temp),
			lowering*VapourPressure(units.Absolute(0), temp), 1e-13)
		checks.Relative(t, "vapour pressure of water"+at, VapourPressure(units.Absolute(0), temp),
			r.Float(t, "psat_water_wagner_Pa"), 1e-13)
		// The pure-water part of the viscosity against IAPWS SR6-08: 0.02 % to 35 °C.
		if temp.Celsius() <= 35 {
			checks.Relative(t, "viscosity of water"+at, Viscosity(units.Absolute(0), temp),
				r.Float(t, "mu_water_iapws"), 2.1e-4)
		}
	}
}
