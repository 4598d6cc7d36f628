// Package electrode answers what the millivolts of a pH electrode mean: how the
// electrode is calibrated in one, two or more buffers, what pH of a water it
// then shows, how well that is known, and whether the electrode is still fit for
// use.
//
// The electrode is a straight line in pH whose steepness goes with the absolute
// temperature and which turns about one point, the isopotential point, near pH 7:
//
//	E = E0 - s k(T) (pH - pHi)
//
// [Calibrate] finds the slope s and the offset E0 from [Point] values, the readings
// in buffers. A [Calibration] goes both ways: PH from the millivolts to the pH of
// the water, Reading back; Estimate adds the standard uncertainty, and Findings
// judges the electrode and the buffers.
//
//	c, err := electrode.Calibrate(carbonate.PHNBS(7),
//		electrode.Bottle7.Point(4*units.Millivolt, units.Celsius(24)),
//		electrode.Bottle10.Point(-167*units.Millivolt, units.Celsius(24)))
//	ph, err := c.PH(-68*units.Millivolt, units.Celsius(25.5)) // a carbonate.NBSPH
//
// # Scales
//
// The buffer decides the scale of the pH, and the type says so. The bottles 4, 7
// and 10 and the primary buffers of NIST and IUPAC, each a [Buffer], are dilute and
// make a Calibration[carbonate.NBSPH]. Tris and 2-aminopyridine in artificial
// seawater, each a [SeawaterBuffer], make a Calibration[carbonate.TotalPH].
// Points of both do not go into one calibration: it does not compile. In
// seawater of salinity 35 at 25 °C the two scales differ by 0.14, and an electrode
// that comes from a dilute buffer into seawater changes its junction potential
// besides: [TotalFromNBS] goes over, with that doubt. Calibrated in tris it need
// not.
//
// # Temperature
//
// Automatic temperature compensation is the k(T) above: it corrects the slope of
// the electrode and nothing else. The pH of the buffer changes with
// temperature too (that of the bottle 10 by 0.01 per kelvin, of tris by 0.03), for
// which Point wants the temperature at which the buffer was read; and so does the
// pH of the water: [AtTemperature] tells what a sample that was read warm or cold
// has in the tank. Best is to have buffers, sample and tank at one temperature.
//
// A lead that is broken or shorted often shows near 0 mV, which is a sound pH of
// about 7. No calculation can tell.
//
// # Symbols
//
//	E      reading, mV
//	E0     offset: the reading at the isopotential point
//	pHi    isopotential point: the pH at which the reading does not change with temperature
//	k      Nernst slope, mV per unit of pH: R T ln 10/F
//	s      slope of the electrode as a share of k
//	t, T   temperature in °C and in kelvin, ITS-90
//	S      practical salinity
//	b      molality of tris, mol per kg of water
//
// # Sources
//
//	[CODATA] CODATA 2018, the constants of the SI.
//	[NIST]   Wu, Koch, Berezansky and Holland, NIST Special Publication 260-53:
//	         the primary pH standards; the three decimals of the buffers here.
//	[IUPAC]  Buck et al. (2002), Measurement of pH, Pure Appl. Chem. 74, 2169-2200.
//	[JIS]    JIS Z 8802, Methods for determination of pH of aqueous solutions.
//	[H77]    Hetzer, Durst, Robinson and Bates (1977), J. Res. Natl. Bur. Stand.
//	         81A, 21.
//	[HPA]    Hamer, Pinching and Acree (1946), J. Res. Natl. Bur. Stand. 36, 47.
//	[DD98]   DelValls and Dickson (1998), The pH of buffers based on 2-amino-2-
//	         hydroxymethyl-1,3-propanediol (tris) in synthetic sea water, Deep-Sea
//	         Res. I 45, 1541-1554.
//	[M18]    Müller et al. (2018), Front. Mar. Sci. 5, 176.
//	[DSC]    Dickson, Sabine and Christian (2007), Guide to best practices for ocean
//	         CO2 measurements, PICES Special Publication 3, SOP 6a.
//	[T82]    Takahashi et al. (1982), GEOSECS Pacific Expedition 3, p. 80.
//	[GUM]    JCGM 100:2008, Guide to the expression of uncertainty in measurement.
package electrode
