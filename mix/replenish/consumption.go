package replenish

import (
	"math"
	"time"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"example.org/wellmixed/internal/input"
	"example.org/wellmixed/mix/advice"
	"example.org/wellmixed/mix/tested"
	"example.org/wellmixed/units"
)

// Demand is what a log says of the tank.
type Demand struct {
	Uses          []Use          // of the parameters that were tested often enough
	Calcification *Calcification // nil without alkalinity and calcium among them
	Assumptions   []string
	Cautions      []advice.Caution
}

// Of returns what the tank uses of a parameter.
func (d Demand) Of(p tested.Parameter) (Use, bool) {
	for _, u := range d.Uses {
		if u.Parameter == p {
			return u, true
		}
	}
	return Use{}, false
}

// Use is how fast a tank uses up a parameter, counted as the last test of it
// was.
type Use struct {
	Parameter   tested.Parameter
	PerDay      tested.Level // negative if it accumulates
	Uncertainty tested.Level // standard, of PerDay
	Low, High   tested.Level // PerDay lies between them with a probability of 95 %

	At             time.Time    // of the last entry that concerns it
	Now            tested.Level // fitted, at that time
	NowUncertainty tested.Level // standard

	Tests   int
	Freedom int // degrees of freedom, two fewer than the tests
	// ChiSquare compares the scatter of the tests with their stated
	// uncertainties, and Probability is that of so much or more. Below 5 % the
	// uncertainties above are enlarged by the Birge ratio, sqrt(ChiSquare/Freedom).
	// Enlarged, they come from the scatter, and the interval is Student's. Both are
	// NaN if no uncertainty was stated or nothing is left to compare.
	ChiSquare, Probability units.Scalar

	quantile        float64 // standard uncertainties in half of the 95 % interval
	now, use, joint float64 // variances of Now and PerDay, and their covariance
}

// Calcification compares the use of alkalinity with that of calcium. A skeleton
// takes two equivalents of alkalinity for each mole of calcium, 1 meq/L for
// 20.04 mg/L, and a little less calcium where magnesium and strontium go in with
// it. What is left over points to a wrong test, a wrong strength of an additive,
// or something that was not written down.
type Calcification struct {
	// ByNitrogen is the alkalinity that the nitrogen cycle takes in a day, and
	// gives if it is negative; zero if nitrate was not tested.
	ByNitrogen, NitrogenUncertainty tested.Level
	Alkalinity                      tested.Level // a day, left for calcification
	Ratio, Uncertainty              units.Scalar // NaN if the use of calcium is not two standard uncertainties from zero
	// Off is the alkalinity that calcification used in a day, less twice the
	// calcium, in meq/L, with its standard uncertainty.
	Off, OffUncertainty units.Scalar
	Consistent          bool // Off is within two standard uncertainties of zero
}

// equivalentsPerCalcium and equivalentsPerNitrate are the changes of alkalinity
// per mole.
//
//	source  Wolf-Gladrow et al. 2007, Mar. Chem. 106, 287-300: calcification takes 2 per
//	        mole of calcium; nitrification takes 2, of which the making of ammonium from
//	        food had given 1, so nitrate that accumulates costs 1; heterotrophic
//	        denitrification, and nitrate that plants take up, give 1
const (
	equivalentsPerCalcium = 2
	equivalentsPerNitrate = 1
)

// Consumption works out from a log of tests what the tank uses of each parameter
// in a day, by weighted least squares.
//
//	symbol   c_i = A_i c0 - B_i r + D_i + e_i, by exact bookkeeping:
//	         A, B, D go to (1-f)A, (1-f)B, (1-f)D + f c_fresh in a change of the share f;
//	         D grows by what is dosed, B by the days
//	source   JCGM 100:2008 (standard uncertainties); Student 1908 where they come from the
//	         scatter; Birge 1932, Phys. Rev. 40, 207-227 (enlargement)
//
// The use is taken as steady from the first test to the last: if it is not, the
// scatter about the line says so. A parameter with tests at fewer than two times,
// or with two tests and no stated uncertainty, is left out, which the assumptions
// say.
func Consumption(l Log) (Demand, error) {
	if err := l.check(); err != nil {
		return Demand{}, err
	}
	d := Demand{Assumptions: []string{
		"The tank used the same amount every day from the first test to the last, and kept its " +
			"volume of " + input.Number(l.Volume.Litres()) + " L.",
		"A test at the moment of a dose or a water change was done before it.",
		"Levels of tests at different salinities are compared as they are: top off to one salinity before testing.",
	}}
	enlarged := false
	for _, p := range l.asked() {
		tests, now, err := l.lines(p)
		if err != nil {
			return Demand{}, err
		}
		stated := 0
		for _, t := range tests {
			if t.uncertainty > 0 {
				stated++
			}
		}
		if stated != 0 && stated != len(tests) {
			return Demand{}, input.Bad("tests."+string(p)+".uncertainty", "only some", "one for each test, or none")
		}
		if why := tooFew(tests, stated > 0); why != "" {
			d.Assumptions = append(d.Assumptions, "Nothing is said of "+string(p)+": "+why+".")
			continue
		}
		u, err := fit(p, l.counting(p), tests, now, stated > 0)
		if err != nil {
			return Demand{}, err
		}
		enlarged = enlarged || u.Probability < consistentAt
		d.Uses = append(d.Uses, u)
	}
	if len(d.Uses) == 0 {
		return Demand{}, input.Bad("tests", input.Number(float64(len(l.Tests)))+" tests", "one parameter at least tested "+
			"at three times, or at two with the uncertainty of the kit")
	}
	d.calcify()
	d.Cautions = []advice.Caution{testFirst, adviceFirst}
	if enlarged {
		d.Cautions = append([]advice.Caution{
			{
				ID:       "tests-scatter",
				Severity: advice.Care,
				Text: "Some tests scatter more than their stated uncertainties explain: an entry may be missing or wrong, or " +
					"the use has changed. Uncertainties were enlarged; look before dosing more.",
			},
		}, d.Cautions...)
	}
	if c := d.Calcification; c != nil && !c.Consistent {
		d.Cautions = append([]advice.Caution{
			{
				ID:       "not-two-to-one",
				Severity: advice.Care,
				Text: "Alkalinity and calcium are not used two to one, beyond what the tests leave open: check both tests " +
					"and the strength of the additives before the doses are changed.",
			},
		}, d.Cautions...)
	}
	return d, nil
}

// consistentAt is the probability below which the scatter is not explained.
const consistentAt = 0.05

// tooFew tells why tests do not give a line.
func tooFew(tests []line, stated bool) string {
	times := 0
	for i, t := range tests {
		if i == 0 || !t.at.Equal(tests[i-1].at) {
			times++
		}
	}
	switch {
	case times < 2:
		return "it was tested at one time only"
	case len(tests) < 3 && !stated:
		return "two tests without stated uncertainty leave no way to tell how sure the line is"
	}
	return ""
}

// fit solves the weighted least squares of one parameter.
func fit(p tested.Parameter, as tested.Level, tests []line, now line, stated bool) (Use, error) {
	n := len(tests)
	x, y := mat.NewDense(n, 2, nil), mat.NewVecDense(n, nil)
	for i, t := range tests {
		w := 1.0
		if stated {
			w = 1 / t.uncertainty
		}
		x.SetRow(i, []float64{t.keeps * w, -t.days * w})
		y.SetVec(i, (t.level-t.came)*w)
	}
	var qr mat.QR
	qr.Factorize(x)
	var solution mat.VecDense
	if err := qr.SolveVecTo(&solution, false, y); err != nil {
		return Use{}, input.Bad("tests."+string(p), "tests that give no line", "tests further apart, or fewer water "+
			"changes of nearly the whole tank")
	}
	start, rate := solution.AtVec(0), solution.AtVec(1)

	chi := 0.0
	for i := range tests {
		e := y.AtVec(i) - x.At(i, 0)*start - x.At(i, 1)*rate
		chi += e * e
	}
	nan := units.Scalar(math.NaN())
	u := Use{Parameter: p, At: now.at, Tests: n, Freedom: n - 2, ChiSquare: nan, Probability: nan}
	variance := 1.0
	u.quantile = distuv.UnitNormal.Quantile(0.975)
	switch {
	case !stated:
		variance = chi / float64(u.Freedom)
		u.quantile = student(u.Freedom)
	case u.Freedom > 0:
		u.ChiSquare = units.Scalar(chi)
		u.Probability = units.Scalar(distuv.ChiSquared{K: float64(u.Freedom)}.Survival(chi))
		if u.Probability < consistentAt {
			variance = chi / float64(u.Freedom)
			u.quantile = student(u.Freedom)
		}
	}
	// The covariance is variance · (RᵀR)⁻¹, of the triangle R of the QR.
	var r mat.Dense
	qr.RTo(&r)
	r00, r01, r11 := r.At(0, 0), r.At(0, 1), r.At(1, 1)
	c11 := variance / (r11 * r11)
	c01 := -c11 * r01 / r00
	c00 := variance/(r00*r00) + c11*(r01/r00)*(r01/r00)
	u.use = c11
	u.now = now.keeps*now.keeps*c00 - 2*now.keeps*now.days*c01 + now.days*now.days*c11
	u.joint = now.keeps*c01 - now.days*c11
	level := now.keeps*start - now.days*rate + now.came
	if !finite(rate) || !finite(level) || !finite(u.use) || !finite(u.now) {
		return Use{}, input.Bad("tests."+string(p), "numbers beyond reckoning", "levels and times of ordinary size")
	}
	// What rounding leaves of nothing is nothing.
	largest := math.Abs(level)
	for _, t := range tests {
		largest = max(largest, t.level)
	}
	if math.Abs(rate) <= nothing*largest {
		rate = 0
	}
	if math.Sqrt(u.use) <= nothing*largest {
		u.use, u.joint = 0, 0
	}
	u.PerDay, u.Uncertainty = as.WithBase(rate), as.WithBase(math.Sqrt(u.use))
	u.Low, u.High = as.WithBase(rate-u.quantile*math.Sqrt(u.use)), as.WithBase(rate+u.quantile*math.Sqrt(u.use))
	u.Now, u.NowUncertainty = as.WithBase(level), as.WithBase(math.Sqrt(max(0, u.now)))
	return u, nil
}

// nothing is the part of a level below which a use in a day is none.
const nothing = 1e-9

// student returns how many standard uncertainties from the scatter are half of
// the interval of 95 %.
func student(freedom int) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(freedom)}.Quantile(0.975)
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// calcify compares alkalinity with calcium.
func (d *Demand) calcify() {
	alkalinity, first := d.Of(tested.Alkalinity)
	calcium, second := d.Of(tested.Calcium)
	if !first || !second {
		return
	}
	as := alkalinity.PerDay
	c := &Calcification{ByNitrogen: as.WithBase(0), NitrogenUncertainty: as.WithBase(0)}
	if nitrate, tested := d.Of(tested.Nitrate); tested {
		c.ByNitrogen = as.WithBase(-equivalentsPerNitrate * nitrate.PerDay.Base())
		c.NitrogenUncertainty = as.WithBase(equivalentsPerNitrate * nitrate.Uncertainty.Base())
		d.Assumptions = append(d.Assumptions, "Nitrate that accumulates comes from food and costs one equivalent of "+
			"alkalinity per mole, nitrate that goes gives it back (Wolf-Gladrow et al. 2007); a filter of sulfur would cost "+
			"alkalinity instead.")
	} else {
		d.Assumptions = append(d.Assumptions, "Nitrate was not followed: what the nitrogen cycle takes of the alkalinity, "+
			"0.45 dKH for 10 mg/L of nitrate, is counted as calcification.")
	}
	left := alkalinity.PerDay.Base() - c.ByNitrogen.Base()
	variance := alkalinity.use + c.NitrogenUncertainty.Base()*c.NitrogenUncertainty.Base()
	used := calcium.PerDay.Base()
	c.Alkalinity = as.WithBase(left)
	c.Ratio, c.Uncertainty = units.Scalar(math.NaN()), units.Scalar(math.NaN())
	if used != 0 && math.Abs(used) >= 2*math.Sqrt(calcium.use) {
		c.Ratio = units.Scalar(left / used)
		c.Uncertainty = units.Scalar(math.Sqrt(variance+float64(c.Ratio*c.Ratio)*calcium.use) / math.Abs(used))
	}
	c.Off = units.Scalar(left - equivalentsPerCalcium*used)
	c.OffUncertainty = units.Scalar(math.Sqrt(variance + equivalentsPerCalcium*equivalentsPerCalcium*calcium.use))
	c.Consistent = math.Abs(float64(c.Off)) <= float64(2*c.OffUncertainty)
	d.Calcification = c
}

// Countdown is how long a level lasts, in days from Use.At; +Inf is never.
type Countdown struct {
	Days      units.Scalar
	Low, High units.Scalar // the limit is reached between them with a probability of 95 %
}

// Until tells when the parameter reaches a limit, if it goes on being used, or
// accumulating, as it was, and nothing is dosed or changed.
//
//	symbol   τ = (c - L)/r; Low and High where the band of 95 % about the line crosses L
//	source   Fieller 1954, J. R. Stat. Soc. B 16, 175-185
func (u Use) Until(limit tested.Level) (Countdown, error) {
	nan := units.Scalar(math.NaN())
	none := Countdown{nan, nan, nan}
	if err := limit.Check("limit"); err != nil {
		return none, err
	}
	if limit.Parameter() != u.Parameter || !u.Parameter.Exists() {
		return none, input.Bad("limit", string(limit.Parameter()), "a level of "+string(u.Parameter))
	}
	for _, x := range [...]struct {
		name  string
		level tested.Level
	}{{"use.now", u.Now}, {"use.perDay", u.PerDay}} {
		if x.level.Parameter() != u.Parameter || !finite(x.level.Base()) {
			return none, input.Bad(x.name, x.level.String(), "a level of "+string(u.Parameter)+", as Consumption finds it")
		}
	}
	inf := units.Scalar(math.Inf(1))
	m, r := u.Now.Base()-limit.Base(), u.PerDay.Base()
	c := Countdown{Days: units.Scalar(m / r), Low: inf, High: inf}
	switch {
	case m == 0:
		c.Days = 0
	case !(m/r >= 0) || math.IsInf(m/r, 0):
		c.Days = inf
	}
	// Inside the band (m - r τ)² <= q² (now - 2 joint τ + use τ²).
	q2 := u.quantile * u.quantile
	a, b, e := r*r-q2*u.use, m*r-q2*u.joint, m*m-q2*u.now
	root := b*b - a*e
	if e <= 0 { // already, for all that is known
		c.Low = 0
		if a > 0 && root >= 0 {
			c.High = units.Scalar(max(0, (b+math.Sqrt(root))/a))
		}
		return c, nil
	}
	if !(root >= 0) || !(b+math.Sqrt(root) > 0) {
		return c, nil
	}
	c.Low = units.Scalar(e / (b + math.Sqrt(root)))
	if a > 0 {
		c.High = units.Scalar(max(float64(c.Low), (b+math.Sqrt(root))/a)) // they can be one, but for rounding
	}
	return c, nil
}
