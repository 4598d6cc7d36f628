package carbonate

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"example.org/wellmixed/internal/checks"
	"example.org/wellmixed/units"
)

// PHREEQC 3 with pitzer.dat: [Mg][OH]² where seawater becomes saturated with brucite,
// (mol/kg)³, at the points through which the parabolas go.
func TestBruciteProduct(t *testing.T) {
	for _, r := range []struct{ s, t, want float64 }{
		{35, 20, 6.02148261996961e-10}, {35, 25, 7.168570391535262e-10}, {35, 30, 8.387122808734496e-10},
		{30, 25, 5.989686708582589e-10}, {40, 25, 8.401634298248969e-10},
	} {
		checks.Relative(t, "brucite", bruciteProduct(r.s, r.t), r.want, 1e-13)
	}
}

// pitzer.dat: log K of gypsum = 82.381 - 3804.5/T - 29.9952 log T.
func TestGypsumWithTemperature(t *testing.T) {
	logK := func(k float64) float64 { return 82.381 - 3804.5/k - 29.9952*math.Log10(k) }
	warm, cold := At(units.Practical(35), units.Celsius(25), Options{}), At(units.Practical(35), units.Celsius(10), Options{})
	a, _ := warm.FromAlkalinityDIC(2300, 2000, Nutrients{})
	b, _ := cold.FromAlkalinityDIC(2300, 2000, Nutrients{})
	checks.Relative(t, "K(10)/K(25)", float64(a.Gypsum().Likely/b.Gypsum().Likely), math.Pow(10, logK(283.15)-logK(298.15)), 1e-12)
}

// The ranges of the papers, just inside and just outside.
func TestDomains(t *testing.T) {
	for _, d := range [][]domain{k1k2Domains[:], ksDomains[:], kfDomains[:], knh4Domains[:],
		{kbDomain, kwDomain, k0Domain, kpDomain, ksiDomain, kh2sDomain, mucciDomain, vapourDomain}} {
		for _, d := range d {
			if d.unstated {
				continue
			}
			printed, ok := printedDomains[d.name]
			assert.True(t, ok, d.name)
			assert.Equal(t, printed, [4]float64{d.tMin, d.tMax, d.sMin, d.sMax}, d.name)
		}
	}
}

// printedDomains are the temperatures and salinities of the measurements, as the papers
// state them: entered twice, because a wrong limit warns nobody.
var printedDomains = map[string][4]float64{
	"Lueker et al. 2000": {2, 35, 19, 43},
	"Mehrbach et al. 1973 by Dickson and Millero 1987": {2, 35, 20, 40},
	"Hansson 1973 by Dickson and Millero 1987":         {2, 35, 20, 40},
	"Hansson and Mehrbach by Dickson and Millero 1987": {2, 35, 20, 40},
	"Sulpis et al. 2020":                               {-1.67, 31.8, 30.73, 37.57},
	"Roy et al. 1993":                                  {0, 45, 5, 45},
	"Goyet and Poisson 1989":                           {-1, 40, 10, 50},
	"Millero et al. 2006":                              {0, 50, 1, 50},
	"Millero 2010":                                     {0, 50, 1, 50},
	"Waters et al. 2014":                               {0, 50, 1, 50},
	"Waters et al. 2014, total scale":                  {0, 50, 1, 50},
	"Mojica Prieto and Millero 2002":                   {0, 45, 5, 42},
	"Millero et al. 2002":                              {-1.6, 35, 34, 37},
	"Cai and Wang 1998":                                {2, 30, 0, 40},
	"Millero 1979":                                     {0, 50, 0, 0},
	"Schockman and Byrne 2021":                         {15, 35, 19.6, 41},
	"Papadimitriou et al. 2018":                        {-6, 25, 33, 100},
	"Dickson 1990":                                     {0, 45, 5, 45},
	"Khoo et al. 1977":                                 {5, 40, 20, 45},
	"Dickson and Riley 1979":                           {0, 45, 0, 45},
	"Perez and Fraga 1987":                             {9, 33, 10, 40},
	"Clegg and Whitfield 1995":                         {-2, 40, 0, 40},
	"Clegg and Whitfield 1995, free scale":             {-2, 40, 0, 40},
	"Bell et al. 2008":                                 {5, 40, 0, 44.55},
	"Yao and Millero 1995":                             {0, 45, 0, 45},
	"KB: Dickson 1990":                                 {0, 45, 5, 45},
	"KW: Millero 1995":                                 {0, 45, 0, 45},
	"K0: Weiss 1974":                                   {-1, 45, 0, 45},
	"KP: Yao and Millero 1995":                         {0, 45, 0, 45},
	"KSi: Yao and Millero 1995":                        {0, 45, 0, 45},
	"KH2S: Millero et al. 1988":                        {0, 45, 0, 45},
	"Mucci 1983":                                       {5, 40, 5, 44},
	"vapour pressure: Weiss and Price 1980":            {0, 40, 0, 40},
}
