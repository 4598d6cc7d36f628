package salts

import (
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/seawater/ions"
)

// compounds is what the package knows, a parent before its hydrates. The first
// entry is what the zero Compound stands for.
//
//	CAS       CRC Handbook of Chemistry and Physics; every number passes its check digit
//	release   species on dissolving in seawater, in the forms that package ions counts: an
//	          acid proton is one hydroxide less, iron(III) is hydrolysed
//	cautions  common practice
var compounds = [...]struct {
	formula  string
	name     string
	cas      string
	parent   string // formula without water of crystallisation, if there is some
	release  []Release
	cautions []advice.Caution
}{
	{name: "no compound"},
	{"NaCl", "sodium chloride", "7647-14-5", "", []Release{{ions.Sodium, 1}, {ions.Chloride, 1}}, nil},
	{"MgCl2", "magnesium chloride", "7786-30-3", "", []Release{{ions.Magnesium, 1}, {ions.Chloride, 2}}, []advice.Caution{heats, dusty}},
	{"MgCl2.6H2O", "magnesium chloride hexahydrate", "7791-18-6", "MgCl2", []Release{{ions.Magnesium, 1}, {ions.Chloride, 2}}, nil},
	{"MgSO4", "magnesium sulfate", "7487-88-9", "", []Release{{ions.Magnesium, 1}, {ions.Sulfate, 1}}, []advice.Caution{warms}},
	{"MgSO4.7H2O", "magnesium sulfate heptahydrate", "10034-99-8", "MgSO4", []Release{{ions.Magnesium, 1}, {ions.Sulfate, 1}}, nil},
	{"CaCl2", "calcium chloride", "10043-52-4", "", []Release{{ions.Calcium, 1}, {ions.Chloride, 2}}, []advice.Caution{heats, irritates}},
	{"CaCl2.2H2O", "calcium chloride dihydrate", "10035-04-8", "CaCl2", []Release{{ions.Calcium, 1}, {ions.Chloride, 2}}, []advice.Caution{warms, irritates}},
	{"CaCl2.6H2O", "calcium chloride hexahydrate", "7774-34-7", "CaCl2", []Release{{ions.Calcium, 1}, {ions.Chloride, 2}}, []advice.Caution{irritates}},
	{"KCl", "potassium chloride", "7447-40-7", "", []Release{{ions.Potassium, 1}, {ions.Chloride, 1}}, nil},
	{"NaHCO3", "sodium hydrogen carbonate", "144-55-8", "", []Release{{ions.Sodium, 1}, {ions.Bicarbonate, 1}}, nil},
	{"Na2CO3", "sodium carbonate", "497-19-8", "", []Release{{ions.Sodium, 2}, {ions.Carbonate, 1}}, []advice.Caution{irritates, raisesPH}},
	{"Na2CO3.10H2O", "sodium carbonate decahydrate", "6132-02-1", "Na2CO3", []Release{{ions.Sodium, 2}, {ions.Carbonate, 1}}, []advice.Caution{irritates, raisesPH}},
	{"KHCO3", "potassium hydrogen carbonate", "298-14-6", "", []Release{{ions.Potassium, 1}, {ions.Bicarbonate, 1}}, nil},
	{"Ca(OH)2", "calcium hydroxide", "1305-62-0", "", []Release{{ions.Calcium, 1}, {ions.Hydroxide, 2}}, []advice.Caution{caustic}},
	{"CaO", "calcium oxide", "1305-78-8", "", []Release{{ions.Calcium, 1}, {ions.Hydroxide, 2}}, []advice.Caution{caustic, heats}},
	{"KBr", "potassium bromide", "7758-02-3", "", []Release{{ions.Potassium, 1}, {ions.Bromide, 1}}, []advice.Caution{irritates}},
	{"NaBr", "sodium bromide", "7647-15-6", "", []Release{{ions.Sodium, 1}, {ions.Bromide, 1}}, []advice.Caution{irritates}},
	{"SrCl2", "strontium chloride", "10476-85-4", "", []Release{{ions.Strontium, 1}, {ions.Chloride, 2}}, []advice.Caution{eyeDamage}},
	{"SrCl2.6H2O", "strontium chloride hexahydrate", "10025-70-4", "SrCl2", []Release{{ions.Strontium, 1}, {ions.Chloride, 2}}, []advice.Caution{eyeDamage}},
	{"H3BO3", "boric acid", "10043-35-3", "", []Release{{ions.BoricAcid, 1}}, []advice.Caution{reproduction}},
	{"Na2B4O7", "sodium tetraborate", "1330-43-4", "", []Release{{ions.Sodium, 2}, {ions.BoricAcid, 2}, {ions.Borate, 2}}, []advice.Caution{reproduction}},
	{"Na2B4O7.10H2O", "sodium tetraborate decahydrate", "1303-96-4", "Na2B4O7", []Release{{ions.Sodium, 2}, {ions.BoricAcid, 2}, {ions.Borate, 2}}, []advice.Caution{reproduction}},
	{"NaF", "sodium fluoride", "7681-49-4", "", []Release{{ions.Sodium, 1}, {ions.Fluoride, 1}}, []advice.Caution{poisonous}},
	{"KI", "potassium iodide", "7681-11-0", "", []Release{{ions.Potassium, 1}, {ions.Iodide, 1}}, []advice.Caution{thyroid, trace}},
	{"KIO3", "potassium iodate", "7758-05-6", "", []Release{{ions.Potassium, 1}, {ions.Iodate, 1}}, []advice.Caution{oxidising, eyeDamage, thyroid, trace}},
	{"Na2SO4", "sodium sulfate", "7757-82-6", "", []Release{{ions.Sodium, 2}, {ions.Sulfate, 1}}, nil},
	{"Na2SO4.10H2O", "sodium sulfate decahydrate", "7727-73-3", "Na2SO4", []Release{{ions.Sodium, 2}, {ions.Sulfate, 1}}, nil},
	{"K2SO4", "potassium sulfate", "7778-80-5", "", []Release{{ions.Potassium, 2}, {ions.Sulfate, 1}}, nil},
	{"CaCO3", "calcium carbonate", "471-34-1", "", []Release{{ions.Calcium, 1}, {ions.Carbonate, 1}}, nil},
	{"MgCO3", "magnesium carbonate", "546-93-0", "", []Release{{ions.Magnesium, 1}, {ions.Carbonate, 1}}, nil},
	{"CaSO4", "calcium sulfate", "7778-18-9", "", []Release{{ions.Calcium, 1}, {ions.Sulfate, 1}}, nil}, // CAS from memory
	{"CaSO4.2H2O", "calcium sulfate dihydrate", "10101-41-4", "CaSO4", []Release{{ions.Calcium, 1}, {ions.Sulfate, 1}}, nil},
	{"LiCl", "lithium chloride", "7447-41-8", "", []Release{{ions.Lithium, 1}, {ions.Chloride, 1}}, []advice.Caution{poisonous}},
	{"BaCl2", "barium chloride", "10361-37-2", "", []Release{{ions.Barium, 1}, {ions.Chloride, 2}}, []advice.Caution{poisonous}},
	{"BaCl2.2H2O", "barium chloride dihydrate", "10326-27-9", "BaCl2", []Release{{ions.Barium, 1}, {ions.Chloride, 2}}, []advice.Caution{poisonous}},
	{"FeCl3", "iron(III) chloride", "7705-08-0", "", []Release{{ions.Iron, 1}, {ions.Chloride, 3}, {ions.Hydroxide, -3}}, []advice.Caution{strongAcid, eyeDamage, trace}},
	{"FeCl3.6H2O", "iron(III) chloride hexahydrate", "10025-77-1", "FeCl3", []Release{{ions.Iron, 1}, {ions.Chloride, 3}, {ions.Hydroxide, -3}}, []advice.Caution{strongAcid, eyeDamage, trace}},
	{"MnCl2", "manganese(II) chloride", "7773-01-5", "", []Release{{ions.Manganese, 1}, {ions.Chloride, 2}}, []advice.Caution{poisonous, eyeDamage, trace}},
	{"MnCl2.4H2O", "manganese(II) chloride tetrahydrate", "13446-34-9", "MnCl2", []Release{{ions.Manganese, 1}, {ions.Chloride, 2}}, []advice.Caution{poisonous, eyeDamage, trace}},
	{"ZnSO4", "zinc sulfate", "7733-02-0", "", []Release{{ions.Zinc, 1}, {ions.Sulfate, 1}}, []advice.Caution{poisonous, eyeDamage, trace}},
	{"ZnSO4.7H2O", "zinc sulfate heptahydrate", "7446-20-0", "ZnSO4", []Release{{ions.Zinc, 1}, {ions.Sulfate, 1}}, []advice.Caution{poisonous, eyeDamage, trace}},
	{"NaNO3", "sodium nitrate", "7631-99-4", "", []Release{{ions.Sodium, 1}, {ions.Nitrate, 1}}, []advice.Caution{oxidising, irritates}},
	{"KNO3", "potassium nitrate", "7757-79-1", "", []Release{{ions.Potassium, 1}, {ions.Nitrate, 1}}, []advice.Caution{oxidising}},
	{"KH2PO4", "potassium dihydrogen phosphate", "7778-77-0", "", []Release{{ions.Potassium, 1}, {ions.Phosphate, 1}, {ions.Hydroxide, -1}}, nil},
	{"Na2HPO4", "disodium hydrogen phosphate", "7558-79-4", "", []Release{{ions.Sodium, 2}, {ions.Phosphate, 1}}, nil},
	{"NaOH", "sodium hydroxide", "1310-73-2", "", []Release{{ions.Sodium, 1}, {ions.Hydroxide, 1}}, []advice.Caution{caustic, heats}},
	{"HCl", "hydrogen chloride", "7647-01-0", "", []Release{{ions.Hydroxide, -1}, {ions.Chloride, 1}}, []advice.Caution{strongAcid}},
	{"NH4Cl", "ammonium chloride", "12125-02-9", "", []Release{{ions.Ammonium, 1}, {ions.Chloride, 1}}, []advice.Caution{ammonia, poisonous, irritates}},
	{"CH3COONa", "sodium acetate", "127-09-3", "", []Release{{ions.Sodium, 1}, {ions.Acetate, 1}}, []advice.Caution{feedsBacteria}},
	{"CH3COONa.3H2O", "sodium acetate trihydrate", "6131-90-4", "CH3COONa", []Release{{ions.Sodium, 1}, {ions.Acetate, 1}}, []advice.Caution{feedsBacteria}},
	{"CH3COOH", "acetic acid", "64-19-7", "", []Release{{ions.Acetate, 1}, {ions.Hydroxide, -1}}, []advice.Caution{strongAcid, flammable, feedsBacteria}},
	{"C2H5OH", "ethanol", "64-17-5", "", nil, []advice.Caution{flammable, irritates, feedsBacteria}},
	{"C6H12O6", "D-glucose", "50-99-7", "", nil, []advice.Caution{feedsBacteria}},
	{"C12H22O11", "sucrose", "57-50-1", "", nil, []advice.Caution{feedsBacteria}},
}
