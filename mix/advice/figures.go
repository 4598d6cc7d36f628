package advice

import "example.org/wellmixed/units"

// CommonPractice is the origin of a figure that the trade holds to be gentle
// without a measurement behind it. Such figures differ from keeper to keeper, and
// none is a limit of physiology; where two circulate, the cautious one stands
// here.
const CommonPractice = "common practice"

// How far a stocked tank may move, up or down, within an hour or a day. All are
// common practice.
const (
	// TemperaturePerHour: fish and corals bear a slow drift, not a jump.
	TemperaturePerHour units.TemperatureDifference = 1
	// TemperaturePerDay: about the swing of a day on a shallow reef.
	TemperaturePerDay units.TemperatureDifference = 2
	// PHPerHour holds for one dose and one change of water as well: by day and night
	// a tank swings about as far.
	PHPerHour = 0.2
	// PHPerDay is total scale, as all pH here.
	PHPerDay = 0.3
	// SalinityPerDay is in practical salinity: invertebrates cannot regulate their
	// salt, and a rise is borne worse than a fall.
	SalinityPerDay = 1.0
	// SharePerDay is the part of the water that is new, 1 being all of it: more changes what nobody tested as well.
	SharePerDay = 0.5

	// DKHPerDay: faster changes of alkalinity are followed by loss of coral tissue.
	DKHPerDay = 1.0
	// CalciumPerDay, as Ca: 20 and 50 mg/L circulate; a kit that errs by 20 is common.
	CalciumPerDay = 20 * units.MilligramPerLitre
	// MagnesiumPerDay, as Mg: 50 and 100 mg/L circulate; magnesium salts bring what is
	// not tested along.
	MagnesiumPerDay = 50 * units.MilligramPerLitre
	// PotassiumPerDay, as K: the sea has some 400 mg/L, and too much harms within days.
	PotassiumPerDay = 10 * units.MilligramPerLitre
	// StrontiumPerDay, as Sr: an eighth of what the sea holds.
	StrontiumPerDay = 1 * units.MilligramPerLitre
	// BromidePerDay, as Br: a thirteenth of what the sea holds; ozone turns it into
	// poisonous oxidants.
	BromidePerDay = 5 * units.MilligramPerLitre
	// BoronPerDay, as B: a ninth of what the sea holds, and it moves the alkalinity.
	BoronPerDay = 0.5 * units.MilligramPerLitre
	// FluoridePerDay, as F: a seventh of what the sea holds.
	FluoridePerDay = 0.2 * units.MilligramPerLitre
	// IodinePerDay, as I: a sixth of what the sea holds; iodide is poison a little
	// above it.
	IodinePerDay = 0.01 * units.MilligramPerLitre
	// IronPerDay, as Fe: already a thousand times what the open sea holds.
	IronPerDay = 0.002 * units.MilligramPerLitre
	// NitratePerDay, as NO₃: corals that were starved brown and lose tissue when fed
	// fast.
	NitratePerDay = 2 * units.MilligramPerLitre
	// PhosphatePerDay, as PO₄: for the same reason.
	PhosphatePerDay = 0.02 * units.MilligramPerLitre
)

// Levels that call for a word. Common practice, unless said otherwise.
const (
	// FreeAmmonia is the NH₃ in a litre, counted as NH₃, from which animals are said
	// to suffer over days. The figure circulates without saying whether it counts
	// NH₃ or its nitrogen; as NH₃ it is the stricter by a fifth. The criterion of the
	// US EPA for days is carbonate.ChronicAmmonia.
	FreeAmmonia = 0.02 * units.MilligramPerLitre
	// LowestReefSalinity and HighestReefSalinity, practical, bound what animals of a reef
	// stand for long; they are kept at 33 to 36.
	LowestReefSalinity, HighestReefSalinity = 30.0, 38.0
	// LowestReefPH and HighestReefPH, total scale, bound what animals of a reef
	// stand for long; a reading outside is likelier wrong.
	LowestReefPH, HighestReefPH = 7.0, 9.0
	// LowPH, total scale, is below what a reef has by day and night: what is acid for
	// long may hold ammonia, which the acid keeps harmless.
	LowPH = 7.8
	// LastingSalinity is a lasting rise of practical salinity worth a word: half of
	// SalinityPerDay.
	LastingSalinity = SalinityPerDay / 2

	// SustainedAragonite is the saturation state above which, with grains in the
	// water to start on, precipitation can run away and take more alkalinity than was
	// dosed (Moras et al. 2022, Biogeosciences 19, 3537-3557; from memory).
	SustainedAragonite = 5.0
	// SpontaneousAragonite is the one above which calcium carbonate forms in clear
	// seawater (calcite 18.8, Marion, Millero and Feistel 2009, Ocean Sci. 5,
	// 285-291, after Morse and He 1993; as aragonite, from memory).
	SpontaneousAragonite = 12.3
	// BrucitePH, total scale, is where to be warned of brucite, see
	// carbonate.System.BruciteOnset.
	BrucitePH = 9.0

	// MostOfTheSea: no reef is kept at more than so many times what the sea of its
	// salinity holds of a constituent; MostAlkalinityOfTheSea the same of alkalinity,
	// as reefs are often kept above the sea.
	MostOfTheSea, MostAlkalinityOfTheSea = 1.5, 2.0
	// MostNitrate (as NO₃), MostPhosphate (as PO₄) and MostIron (as Fe) are what no
	// reef is raised to on purpose. MostIodine (as I) is MostOfTheSea times 0.06 mg/L,
	// the content of the sea from memory.
	MostNitrate   = 50 * units.MilligramPerLitre
	MostPhosphate = 0.5 * units.MilligramPerLitre
	MostIodine    = 0.09 * units.MilligramPerLitre
	MostIron      = 0.01 * units.MilligramPerLitre
)

// ScaldingCelsius is from where water is said to scald: 48.9 °C (120 °F) takes
// minutes, 60 °C some five seconds (Moritz and Henriques 1947, American Journal of
// Pathology 23, 695-720; from memory). WarmMixCelsius is from where a mix that is heated is
// worth a word: no tank is that warm.
const ScaldingCelsius, WarmMixCelsius = 48.0, 40.0

// LiftLimit is the load constant of the revised NIOSH lifting equation
// (Waters, Putz-Anderson and Garg 1994, DHHS (NIOSH) 94-110): 23 kg, under
// ideal conditions.
const LiftLimit = 23 * units.Kilogram
