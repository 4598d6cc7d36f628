package carbonate

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

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
