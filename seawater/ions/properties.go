package ions

import (
	"math"

	"example.org/wellmixed/internal/poly"
	"example.org/wellmixed/seawater/refractometer"
	"example.org/wellmixed/seawater/teos10"
	"example.org/wellmixed/units"
)

// mixture is a composition made ready for its physical properties at one
// temperature.
type mixture struct {
	Composition
	t     float64 // °C
	water float64 // kg of water per kg of solution
	i     float64 // ionic strength, mol per kg of water
	rhoW  float64 // density of pure water, kg/m³
}

func (c *Composition) at(t units.Temperature) mixture {
	water := c.waterShare()
	return mixture{
		Composition: *c,
		t:           t.Celsius(),
		water:       water,
		i:           c.ionicStrength(water),
		rhoW:        float64(teos10.DensityExact(units.Absolute(0), t, 0)),
	}
}

// moles is the content in mol/kg.
func (m *mixture) moles(i Ion) float64 { return float64(m.content[i]) * 1e-6 }

// density adds up the volumes of a kilogram of solution.
//
//	symbol   10⁹/ρ = 10⁶ (w 10³/ρw) + 10³ Σ n φ(t, I)
//	units    kg/m³
func (m *mixture) density() float64 {
	volume := 1e6 * m.water / m.rhoW // cm³
	root := math.Sqrt(m.i)
	for i := Ion(0); i < count; i++ {
		n := m.moles(i)
		if n == 0 {
			continue
		}
		v := &volumeCoef[i]
		volume += n * (poly.P3(m.t, &v.a) + poly.P2(m.t, &v.b)*root + poly.P2(m.t, &v.c)*m.i)
	}
	return 1e6 / volume
}

// conductivity weighs the conductivities of all binary salts of the ions that
// are not paired by their share in the charge.
//
//	symbol   κ = ρ (Σ_c Σ_a N_c N_a Λ_ca/N + n(MgHCO3+) λ)
//	source   [RW69] for the rule, [P08] for its use in seawater
//	units    mS/cm, N eq per kg of solution, ρ kg/L
func (m *mixture) conductivity() float64 {
	free, bicarbonatePair := m.unpaired()
	var lambda [len(saltCoef)]float64
	for s := range saltCoef {
		lambda[s] = m.lambda(s)
	}
	warm := 1 + limitingPerK*(m.t-25)

	// Λ_ca is Λ of the chloride of c and what a adds to it, whatever c is, but
	// for K2SO4. So the double sum falls apart into single ones.
	var cations, anions, chlorides, excess float64
	for _, c := range chlorideOf {
		eq := float64(c.ion.Charge()) * free[c.ion]
		cations += eq
		chlorides += eq * lambda[c.salt]
	}
	anions = free[Chloride]
	for _, a := range insteadOfChloride {
		eq := -float64(a.ion.Charge()) * free[a.ion]
		anions += eq
		excess += eq * (lambda[a.with] - lambda[a.without])
	}
	for _, a := range limiting {
		eq := -float64(a.ion.Charge()) * free[a.ion]
		anions += eq
		excess += eq * (a.value - limitingChloride) * warm
	}
	mean := (cations + anions) / 2
	if mean == 0 {
		return 0
	}
	sum := chlorides*anions + cations*excess
	sum += free[Potassium] * 2 * free[Sulfate] * (lambda[k2SO4] - (lambda[kCl] + lambda[na2SO4] - lambda[naCl]))
	return m.density() / 1000 * (sum/mean + bicarbonatePair*pairConductivity*warm)
}

// lambda is the equivalent conductivity of a salt at the ionic strength of the
// mixture.
func (m *mixture) lambda(salt int) float64 {
	s := &saltCoef[salt]
	root := math.Sqrt(s.f * m.i)
	return poly.P2(m.t, &s.c) - poly.P2(m.t, &s.d)*root/(1+s.b*root)
}

// unpaired returns the contents of the free ions and that of MgHCO3+, in mol per
// kg of solution. The equations of mass balance are iterated; each step brings
// the free ions nearer by a factor below K m/(1 + K m) of both sides, a tenth in
// seawater.
func (m *mixture) unpaired() (free [count]float64, bicarbonatePair float64) {
	for i := range free {
		free[i] = m.moles(Ion(i))
	}
	var k [len(pairedCations)][len(pairedAnions)]float64 // kg of solution per mol
	var cation, anion, cations, anions [3]float64        // free, and in all
	perSolution := 1 / m.water
	for i := range k {
		for j := range k[i] {
			k[i][j] = pairing[i][j] * perSolution
		}
		cations[i], anions[i] = free[pairedCations[i]], free[pairedAnions[i]]
	}
	anion = anions
	for range 200 {
		var moved float64
		for i := range cation {
			cation[i] = cations[i] / (1 + k[i][0]*anion[0] + k[i][1]*anion[1] + k[i][2]*anion[2])
		}
		for j := range anion {
			x := anions[j] / (1 + k[0][j]*cation[0] + k[1][j]*cation[1] + k[2][j]*cation[2])
			moved = max(moved, math.Abs(x-anion[j]))
			anion[j] = x
		}
		if !(moved > 1e-16) {
			break
		}
	}
	for i := range cation {
		free[pairedCations[i]], free[pairedAnions[i]] = cation[i], anion[i]
	}
	return free, k[pairedMagnesium][pairedBicarbonate] * cation[pairedMagnesium] * anion[pairedBicarbonate]
}

// index adds up the molar refractions.
//
//	symbol   L(n)/ρ = w L(nw)/ρw + Σ n R/1000, L(n) = (n² - 1)/(n² + 2)
//	source   Lorentz and Lorenz 1880; nw [MS90]
//	units    ρ g/cm³, index relative to air, sodium D line
func (m *mixture) index(t units.Temperature, rho units.Density) float64 {
	nw := refractometer.Seawater(units.Practical(0), t).Value()
	q := m.water * (nw*nw - 1) / (nw*nw + 2) / (m.rhoW / 1000)
	for i := Ion(0); i < count; i++ {
		q += m.moles(i) * refractionCoef[i] / 1000
	}
	q *= rho.GramsPerMillilitre()
	return math.Sqrt((1 + 2*q) / (1 - q))
}
