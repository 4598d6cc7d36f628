package pitzer

// Interaction parameters, one row each, and the coefficients of their function of
// temperature, see [term.at]. Where a row has one number only, it holds at 25 °C and is
// kept at all temperatures. B and theta, lambda in kg/mol; C-phi, psi and zeta in
// (kg/mol)². Two ions that are not named have none but the electrostatic one.
//
//	source   [PHREEQC]; rows marked A are fits of [A15], the others
//	         go back to [HMW84] and, for temperature, [PRDC88]

// beta0: β(0) of a cation and an anion.
var beta0 = [...]pairRow{
	{Hydrogen, Chloride, term{0.1775, 0, 0, -0.0003081}},
	{Hydrogen, Bromide, term{0.196, 0, 0, -0.0002049}},
	{Hydrogen, Sulfate, term{0.0298}},
	{Hydrogen, Bisulfate, term{0.2065}},
	{Sodium, Chloride, term{0.07534, 9598.4, 35.48, -0.058731, 1.798e-05, -500000}}, // A
	{Sodium, Bromide, term{0.0973, 0, 0, 0.0007692}},
	{Sodium, Sulfate, term{0.0273, 0, -5.8, 0.00989, 0, -156300}}, // A
	{Sodium, Carbonate, term{0.0399, 0, 0, 0.00179}},
	{Sodium, Hydroxide, term{0.0864, 0, 0, 0.0007}},
	{Sodium, Bicarbonate, term{-0.018, 0, 0, -0.00023}}, // A
	{Sodium, Bisulfate, term{0.0454}},
	{Sodium, Borate, term{-0.0427}},
	{Sodium, Triborate, term{-0.056}},
	{Sodium, Tetraborate, term{-0.11}},
	{Potassium, Chloride, term{0.04808, -758.48, -4.7062, 0.010072, -3.7599e-06}}, // A
	{Potassium, Bromide, term{0.0569, 0, 0, 0.000739}},
	{Potassium, Sulfate, term{0.0317, 0, 0, 0.000928}}, // A
	{Potassium, Carbonate, term{0.1488, 0, 0, 0.001788}},
	{Potassium, Hydroxide, term{0.1298}},
	{Potassium, Bicarbonate, term{0.0296, 0, 0, 0.000996}},
	{Potassium, Bisulfate, term{-0.0003}},
	{Potassium, Borate, term{0.035}},
	{Potassium, Triborate, term{-0.13}},
	{Potassium, Tetraborate, term{-0.022}},
	{Magnesium, Chloride, term{0.351, 0, 0, -0.000932, 5.94e-07}}, // A
	{Magnesium, Bromide, term{0.4327, 0, 0, -5.625e-05}},
	{Magnesium, Sulfate, term{0.2135, -951, 0, -0.0234, 2.28e-05}}, // A
	{Magnesium, Bicarbonate, term{0.329}},
	{Magnesium, Bisulfate, term{0.4746}},
	{Calcium, Chloride, term{0.3159, 0, 0, -0.000327, 1.4e-07}}, // A
	{Calcium, Bromide, term{0.3816, 0, 0, -0.00052275}},
	{Calcium, Hydroxide, term{-0.1747}},
	{Calcium, Bicarbonate, term{0.4}},
	{Calcium, Bisulfate, term{0.2145}},
	{Strontium, Chloride, term{0.2858, 0, 0, 0.000717}},
	{Strontium, Bromide, term{0.331125, 0, 0, -0.00032775}},
	{Strontium, Sulfate, term{0.2, 0, 0, -0.0029}},
	{Strontium, Bicarbonate, term{0.12}},
	{Lithium, Chloride, term{0.1494, 0, 0, -0.0001685}},
	{Lithium, Bromide, term{0.1748, 0, 0, -0.0001819}},
	{Lithium, Sulfate, term{0.136275, 0, 0, 0.0005055}},
	{Lithium, Hydroxide, term{0.015}},
	{Barium, Chloride, term{0.5268, 0, 0, 0, 0, 47500}}, // A
	{Barium, Bromide, term{0.31455, 0, 0, -0.00033825}},
	{Barium, Hydroxide, term{0.17175}},
	{Manganese, Chloride, term{0.327225}},
	{Manganese, Sulfate, term{0.2065}},
	{Iron, Chloride, term{0.335925}},
	{Iron, Sulfate, term{0.2568}},
	{Iron, Bisulfate, term{0.4273}},
	{MagnesiumHydroxide, Chloride, term{-0.1}},
	{MagnesiumBorate, Chloride, term{0.16}},
	{CalciumBorate, Chloride, term{0.12}},

	// Of single salts at 25 °C [MRHK11].
	{Sodium, Fluoride, term{0.02109}},
	{Potassium, Fluoride, term{0.08286}},
	{Ammonium, Chloride, term{0.05094}},
	{Ammonium, Sulfate, term{0.04211}},
	{Ammonium, Nitrate, term{-0.01709}},
	{Sodium, Nitrate, term{0.003614}},
	{Potassium, Nitrate, term{-0.07733}},
	{Magnesium, Nitrate, term{0.3405}},
	{Calcium, Nitrate, term{0.1683}},
	{Strontium, Nitrate, term{0.1022}},
	{Sodium, Iodide, term{0.1261}},
	{Potassium, Iodide, term{0.06468}},
	{Magnesium, Iodide, term{0.4944}},
	{Calcium, Iodide, term{0.4301}},
}

// beta1: β(1); α is 2, or 1.4 of two double charges.
var beta1 = [...]pairRow{
	{Hydrogen, Chloride, term{0.2945, 0, 0, 0.0001419}},
	{Hydrogen, Bromide, term{0.3564, 0, 0, 0.0004467}},
	{Hydrogen, Bisulfate, term{0.5556}},
	{Sodium, Chloride, term{0.2769, 13770, 46.8, -0.069512, 2e-05, -748230}}, // A
	{Sodium, Bromide, term{0.2791, 0, 0, 0.001079}},
	{Sodium, Sulfate, term{0.956, 2663, 0, 0.01158, 0, -319400}}, // A
	{Sodium, Carbonate, term{1.389, 0, 0, 0.00205}},
	{Sodium, Hydroxide, term{0.253, 0, 0, 0.000134}},
	{Sodium, Bicarbonate, term{-0.0101, 0, 0, 0.00172}}, // A
	{Sodium, Bisulfate, term{0.398}},
	{Sodium, Borate, term{0.089}},
	{Sodium, Triborate, term{-0.91}},
	{Sodium, Tetraborate, term{-0.4}},
	{Potassium, Chloride, term{0.2168, 0, -6.895, 0.02262, -9.293e-06, -100000}}, // A
	{Potassium, Bromide, term{0.2212, 0, 0, 0.00174}},
	{Potassium, Sulfate, term{0.756, -15140, -80.3, 0.1091}}, // A
	{Potassium, Carbonate, term{1.43, 0, 0, 0.002051}},
	{Potassium, Hydroxide, term{0.32}},
	{Potassium, Bicarbonate, term{0.25, 0, 0, 0.001104}}, // A
	{Potassium, Bisulfate, term{0.1735}},
	{Potassium, Borate, term{0.14}},
	{Magnesium, Chloride, term{1.65, 0, 0, -0.0109, 2.6e-05}}, // A
	{Magnesium, Bromide, term{1.753, 0, 0, 0.0038625}},
	{Magnesium, Sulfate, term{3.367, -5780, 0, -0.148, 0.0001576}}, // A
	{Magnesium, Bicarbonate, term{0.6072}},
	{Magnesium, Bisulfate, term{1.729}},
	{Calcium, Chloride, term{1.614, 0, 0, 0.00763, -8.19e-07}}, // A
	{Calcium, Bromide, term{1.613, 0, 0, 0.0060375}},
	{Calcium, Sulfate, term{3.546, 0, 0, 0.00577}}, // A
	{Calcium, Hydroxide, term{-0.2303}},
	{Calcium, Bicarbonate, term{2.977}}, // A
	{Calcium, Bisulfate, term{2.53}},
	{Strontium, Chloride, term{1.667, 0, 0, 0.0028425}},
	{Strontium, Bromide, term{1.7115, 0, 0, 0.0065325}},
	{Strontium, Sulfate, term{3.1973, 0, 0, 0.027}},
	{Lithium, Chloride, term{0.3074, 0, 0, 0.0005366}},
	{Lithium, Bromide, term{0.2547, 0, 0, 0.0006636}},
	{Lithium, Sulfate, term{1.2705, 0, 0, 0.00141}},
	{Lithium, Hydroxide, term{0.14}},
	{Barium, Chloride, term{0.687, 0, 0, 0.01417}}, // A
	{Barium, Bromide, term{1.56975, 0, 0, 0.00678}},
	{Barium, Hydroxide, term{1.2}},
	{Manganese, Chloride, term{1.55025}},
	{Manganese, Sulfate, term{2.9511}},
	{Iron, Chloride, term{1.53225}},
	{Iron, Sulfate, term{3.063}},
	{Iron, Bisulfate, term{3.48}},
	{MagnesiumHydroxide, Chloride, term{1.658}},

	// Of single salts at 25 °C [MRHK11].
	{Sodium, Fluoride, term{0.2183}},
	{Potassium, Fluoride, term{0.2004}},
	{Ammonium, Chloride, term{0.2068}},
	{Ammonium, Sulfate, term{0.582}},
	{Ammonium, Nitrate, term{0.09198}},
	{Sodium, Nitrate, term{0.2062}},
	{Potassium, Nitrate, term{0.04925}},
	{Magnesium, Nitrate, term{1.672}},
	{Calcium, Nitrate, term{1.65}},
	{Strontium, Nitrate, term{1.54}},
	{Sodium, Iodide, term{0.317}},
	{Potassium, Iodide, term{0.3112}},
	{Magnesium, Iodide, term{1.834}},
	{Calcium, Iodide, term{1.878}},
}

// beta2: β(2); α is 12.
var beta2 = [...]pairRow{
	{Sodium, Bicarbonate, term{6.84, 0, 0, -0.00711}},               // A
	{Magnesium, Sulfate, term{-32.45, 0, -3236, 21.812, -0.018859}}, // A
	{Calcium, Chloride, term{-1.13, 0, 0, -0.0476}},                 // A
	{Calcium, Sulfate, term{-59.3, 0, 0, -0.443, -3.96e-06}},        // A
	{Calcium, Hydroxide, term{-5.72}},
	{Strontium, Sulfate, term{-54.24, 0, 0, -0.42}},
	{Manganese, Sulfate, term{-40}},
	{Iron, Sulfate, term{-42}},
}

// cPhi: C-phi.
var cPhi = [...]pairRow{
	{Hydrogen, Chloride, term{0.0008, 0, 0, 6.213e-05}},
	{Hydrogen, Bromide, term{0.00827, 0, 0, -5.685e-05}},
	{Hydrogen, Sulfate, term{0.0438}},
	{Sodium, Chloride, term{0.00148, -120.5, -0.2081, 0, 1.166e-07, 11121}}, // A
	{Sodium, Bromide, term{0.00116, 0, 0, -9.3e-05}},
	{Sodium, Sulfate, term{0.003418, -384, 0, -0.0008451, 0, 51770}}, // A
	{Sodium, Carbonate, term{0.0044}},
	{Sodium, Hydroxide, term{0.0044, 0, 0, -0.0001894}},
	{Sodium, Borate, term{0.0114}},
	{Potassium, Chloride, term{-0.000788, 91.27, 0.58643, -0.001298, 4.9567e-07}}, // A
	{Potassium, Bromide, term{-0.0018, 0, 0, -7.004e-05}},
	{Potassium, Sulfate, term{0.00818, -625, -3.3, 0.00406}}, // A
	{Potassium, Carbonate, term{-0.0015}},
	{Potassium, Hydroxide, term{0.0041}},
	{Potassium, Bicarbonate, term{-0.008}},
	{Magnesium, Chloride, term{0.00651, 0, 0, -0.00025, 2.418e-07}}, // A
	{Magnesium, Bromide, term{0.00312}},
	{Magnesium, Sulfate, term{0.02875, 0, -2.084, 0.011428, -8.228e-06}}, // A
	{Calcium, Chloride, term{0.00014, -57, -0.098, -0.000783, 7.18e-07}}, // A
	{Calcium, Bromide, term{-0.00257}},
	{Calcium, Sulfate, term{0.114}}, // A
	{Strontium, Chloride, term{-0.0013}},
	{Strontium, Bromide, term{0.00122506}},
	{Lithium, Chloride, term{0.00359, 0, 0, -4.52e-05}},
	{Lithium, Bromide, term{0.0053, 0, 0, -2.813e-05}},
	{Lithium, Sulfate, term{-0.00399338, 0, 0, -0.000233345}},
	{Barium, Chloride, term{-0.143, -114.5}}, // A
	{Barium, Bromide, term{-0.0159576}},
	{Manganese, Chloride, term{-0.0204972}},
	{Manganese, Sulfate, term{0.01636}},
	{Iron, Chloride, term{-0.00860725}},
	{Iron, Sulfate, term{0.0209}},

	// Of single salts at 25 °C [MRHK11].
	{Sodium, Fluoride, term{-0.001}},
	{Potassium, Fluoride, term{0.000505}},
	{Ammonium, Chloride, term{-0.00285}},
	{Ammonium, Sulfate, term{-0.00134}},
	{Ammonium, Nitrate, term{0.000419}},
	{Sodium, Nitrate, term{-5.18e-05}},
	{Potassium, Nitrate, term{0.005547}},
	{Magnesium, Nitrate, term{-0.00901}},
	{Calcium, Nitrate, term{-0.00687}},
	{Strontium, Nitrate, term{-0.00732}},
	{Sodium, Iodide, term{0.00026}},
	{Potassium, Iodide, term{-0.00213}},
	{Magnesium, Iodide, term{0.00733}},
	{Calcium, Iodide, term{0.001749}},
}

// thetas: θ of two ions of one sign.
var thetas = [...]pairRow{
	{Hydrogen, Sodium, term{0.036}},
	{Hydrogen, Potassium, term{0.005}},
	{Hydrogen, Magnesium, term{0.1}},
	{Hydrogen, Calcium, term{0.092}},
	{Sodium, Potassium, term{-0.012}},
	{Sodium, Magnesium, term{0.07}},
	{Sodium, Calcium, term{0.0922, 0, 0, -0.000429, 1.21e-06}}, // A
	{Sodium, Strontium, term{0.051}},
	{Sodium, Barium, term{0.07}},                         // A
	{Potassium, Calcium, term{-0.00535, 0, 0, 0.000308}}, // A
	{Magnesium, Calcium, term{0.007}},
	{Chloride, Sulfate, term{0.03}}, // A
	{Chloride, Carbonate, term{-0.02}},
	{Chloride, Hydroxide, term{-0.05}},
	{Chloride, Bicarbonate, term{0.0512, 0, 0, -0.000481}}, // A
	{Chloride, Bisulfate, term{-0.006}},
	{Chloride, Borate, term{-0.065}},
	{Chloride, Triborate, term{0.12}},
	{Chloride, Tetraborate, term{0.074}},
	{Bromide, Hydroxide, term{-0.065}},
	{Sulfate, Carbonate, term{0.02}},
	{Sulfate, Hydroxide, term{-0.013}},
	{Sulfate, Bicarbonate, term{0.01}},
	{Sulfate, Borate, term{-0.012}},
	{Sulfate, Triborate, term{0.1}},
	{Sulfate, Tetraborate, term{0.12}},
	{Carbonate, Hydroxide, term{0.1}},
	{Carbonate, Bicarbonate, term{-0.04}},
	{Bicarbonate, Triborate, term{-0.1}},
	{Bicarbonate, Tetraborate, term{-0.087}},
}

// psis: ψ of two ions of one sign and one of the other.
var psis = [...]tripleRow{
	{Hydrogen, Sodium, Chloride, term{-0.004}},
	{Hydrogen, Sodium, Bromide, term{-0.012}},
	{Hydrogen, Sodium, Bisulfate, term{-0.0129}},
	{Hydrogen, Potassium, Chloride, term{-0.011}},
	{Hydrogen, Potassium, Bromide, term{-0.021}},
	{Hydrogen, Potassium, Sulfate, term{0.197}},
	{Hydrogen, Potassium, Bisulfate, term{-0.0265}},
	{Hydrogen, Magnesium, Chloride, term{-0.011}},
	{Hydrogen, Magnesium, Bisulfate, term{-0.0178}},
	{Hydrogen, Calcium, Chloride, term{-0.015}},
	{Sodium, Potassium, Chloride, term{-0.0015, 0, 0, 1.8e-05}}, // A
	{Sodium, Potassium, Bromide, term{-0.0022}},
	{Sodium, Potassium, Sulfate, term{-0.01}},
	{Sodium, Potassium, Carbonate, term{0.003}},
	{Sodium, Potassium, Bicarbonate, term{-0.003}},
	{Sodium, Magnesium, Chloride, term{-0.012, -9.51}}, // A
	{Sodium, Magnesium, Sulfate, term{-0.015}},
	{Sodium, Calcium, Chloride, term{-0.0148, 0, 0, -5.2e-06}}, // A
	{Sodium, Calcium, Sulfate, term{-0.055, 17.2}},             // A
	{Sodium, Strontium, Chloride, term{-0.0021}},
	{Potassium, Magnesium, Chloride, term{-0.022, -14.27}}, // A
	{Potassium, Magnesium, Sulfate, term{-0.048}},
	{Potassium, Calcium, Chloride, term{-0.025}},
	{Potassium, Calcium, Sulfate, term{-0.0365}}, // A
	{Magnesium, Calcium, Chloride, term{-0.012}},
	{Magnesium, Calcium, Sulfate, term{0.024}},
	{Magnesium, MagnesiumHydroxide, Chloride, term{0.028}},
	{Chloride, Sulfate, Potassium, term{-0.001}},               // A
	{Chloride, Sulfate, Magnesium, term{-0.008, 32.63}},        // A
	{Chloride, Sulfate, Calcium, term{-0.122, 0, 0, -0.00121}}, // A
	{Chloride, Carbonate, Sodium, term{0.0085}},
	{Chloride, Carbonate, Potassium, term{0.004}},
	{Chloride, Hydroxide, Sodium, term{-0.006}},
	{Chloride, Hydroxide, Potassium, term{-0.006}},
	{Chloride, Hydroxide, Calcium, term{-0.025}},
	{Chloride, Bicarbonate, Sodium, term{-0.00473, 0, 0, 0.000192}}, // A
	{Chloride, Bicarbonate, Magnesium, term{-0.096}},
	{Chloride, Bisulfate, Hydrogen, term{0.013}},
	{Chloride, Bisulfate, Sodium, term{-0.006}},
	{Chloride, Borate, Sodium, term{-0.0073}},
	{Chloride, Triborate, Sodium, term{-0.024}},
	{Chloride, Tetraborate, Sodium, term{0.026}},
	{Bromide, Hydroxide, Sodium, term{-0.018}},
	{Bromide, Hydroxide, Potassium, term{-0.014}},
	{Sulfate, Carbonate, Sodium, term{-0.005}},
	{Sulfate, Carbonate, Potassium, term{-0.009}},
	{Sulfate, Hydroxide, Sodium, term{-0.009}},
	{Sulfate, Hydroxide, Potassium, term{-0.05}},
	{Sulfate, Bicarbonate, Sodium, term{-0.005}},
	{Sulfate, Bicarbonate, Magnesium, term{-0.161}},
	{Sulfate, Bisulfate, Sodium, term{-0.0094}},
	{Sulfate, Bisulfate, Potassium, term{-0.0677}},
	{Sulfate, Bisulfate, Magnesium, term{-0.0425}},
	{Carbonate, Hydroxide, Sodium, term{-0.017}},
	{Carbonate, Hydroxide, Potassium, term{-0.01}},
	{Carbonate, Bicarbonate, Sodium, term{0.002}},
	{Carbonate, Bicarbonate, Potassium, term{0.012}},
}

// lambdas: λ of a neutral species and another.
var lambdas = [...]pairRow{
	{BoricAcid, Sodium, term{-0.097}},
	{BoricAcid, Potassium, term{-0.14}},
	{BoricAcid, Chloride, term{0.091}},
	{BoricAcid, Sulfate, term{0.018}},
	{BoricAcid, Triborate, term{-0.2}},
	{CarbonDioxide, Sodium, term{0.085}},
	{CarbonDioxide, Potassium, term{0.051}},
	{CarbonDioxide, Magnesium, term{0.183}},
	{CarbonDioxide, Calcium, term{0.183}},
	{CarbonDioxide, Chloride, term{-0.005}},
	{CarbonDioxide, Sulfate, term{0.075}}, // Rumpf and Maurer, 1993.
	{CarbonDioxide, Bisulfate, term{-0.003}},
	{CarbonDioxide, CarbonDioxide, term{-0.0134, 348, 0.803}},    // new VM('CO2'), CO2 solubilities at high P, 0 - 150C
	{SilicicAcid, Sodium, term{0.0566, 75.3, 0.115}},             // A
	{SilicicAcid, Potassium, term{0.0298}},                       // A
	{SilicicAcid, Magnesium, term{0.238, -1788, -9.023, 0.0103}}, // A
	{SilicicAcid, Calcium, term{0.238}},                          // A
	{SilicicAcid, Lithium, term{0.143}},                          // A
	{SilicicAcid, Sulfate, term{-0.085, 0, 0.28, -0.000825}},     // A
}

// zetas: ζ of a neutral species, a cation and an anion.
var zetas = [...]tripleRow{
	{BoricAcid, Hydrogen, Chloride, term{-0.0102}},
	{BoricAcid, Sodium, Sulfate, term{0.046}},
	{CarbonDioxide, Sodium, Sulfate, term{-0.015}},
	{SilicicAcid, Potassium, Chloride, term{-0.0153}}, // A
	{SilicicAcid, Lithium, Chloride, term{-0.0196}},   // A
}
