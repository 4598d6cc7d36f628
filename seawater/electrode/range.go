package electrode

import "example.org/wellmixed/units"

var (
	glassTemperature = units.Range{Quantity: "temperature", Min: -2, Max: 60, Unit: "°C",
		Source: "water that a glass electrode stands"}
	glassVoltage = units.Range{Quantity: "reading", Min: -1000, Max: 1000, Unit: "mV",
		Source: "an ideal electrode gives 463 mV at pH 0 and 60 °C"}
	// A point of 0 is one that was forgotten; the limits are ours.
	glassIsopotential = units.Range{Quantity: "isopotential point", Min: 3, Max: 11,
		Source: "electrodes are made for about 7, common practice"}
	glassPH    = units.Range{Quantity: "pH", Min: 0, Max: 14, Source: "glass electrodes"}
	glassSlope = units.Range{Quantity: "slope", Min: 0.5, Max: 1.2, Source: "a share of the Nernst slope, common practice"}

	dilutePH = units.Range{Quantity: "temperature", Min: 0, Max: 50, Unit: "°C",
		Source: "table of the buffer"}
	tris1998Salinity = units.Range{Quantity: "practical salinity", Min: 20, Max: 40,
		Source: "DelValls and Dickson 1998"}
	tris1998Temperature = units.Range{Quantity: "temperature", Min: 0, Max: 45, Unit: "°C",
		Source: "DelValls and Dickson 1998"}
	tris2018Salinity = units.Range{Quantity: "practical salinity", Min: 5, Max: 40,
		Source: "Müller et al. 2018"}
	tris2018Temperature = units.Range{Quantity: "temperature", Min: 5, Max: 45, Unit: "°C",
		Source: "Müller et al. 2018"}
	tris2018Molality = units.Range{Quantity: "molality of tris", Min: 0.01, Max: 0.04, Unit: "mol/kg",
		Source: "Müller et al. 2018"}
	// Müller et al. 2018 had 0.04 mol/kg above salinity 20 only; the limit
	// below is ours.
	tris2018Brackish = units.Range{Quantity: "molality of tris", Min: 0.01, Max: 0.03, Unit: "mol/kg",
		Source: "Müller et al. 2018, salinity below 20"}
	// The limits of 2-aminopyridine are from memory.
	aminopyridineSalinity = units.Range{Quantity: "practical salinity", Min: 30, Max: 40,
		Source: "Dickson, Sabine and Christian 2007"}
	aminopyridineTemperature = units.Range{Quantity: "temperature", Min: 5, Max: 40, Unit: "°C",
		Source: "Dickson, Sabine and Christian 2007"}

	// fH has been measured in seawater, and in fresh water makes no sense; the
	// limits are ours.
	nbsSalinity = units.Range{Quantity: "practical salinity", Min: 20, Max: 42,
		Source: "fH of Takahashi et al. 1982 is of seawater"}
)
