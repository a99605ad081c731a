package produced

// Interval is a value and between what it lies.
type Interval struct {
	Low  float64 `json:"low" digits:"6"`
	Mid  float64 `json:"mid" digits:"6"`
	High float64 `json:"high" digits:"6"`
}

// Ratio is that of two rates. Without events on the other side it has no middle and no upper end, which are 0 then, and
// Open says so.
type Ratio struct {
	Interval Interval `json:"interval"`
	Open     bool     `json:"open"`
}

// Factor is something by which settings are told apart.
type Factor struct {
	Name   string  `json:"name" chars:"1,40"`
	Levels []Named `json:"levels" count:"0,60"`
}

// Named is a level of a factor.
type Named struct {
	Name string `json:"name" chars:"0,200"`
}

// Pair is two factors looked at together, by their places among those of the boat followed by those of a rod.
type Pair struct {
	One   int `json:"one" range:"0,39"`
	Other int `json:"other" range:"0,39"`
}

// Spell is a time in which nothing changed that is the boat's: light, tide, ground, heading, speed.
type Spell struct {
	From float64 `json:"from" unit:"s" range:"0,1e12"`
	To   float64 `json:"to" unit:"s" range:"0,1e12"`
	// Levels of the factors of the boat, in their order; -1 where it was not told.
	Levels []int `json:"levels" range:"-1,59" count:"0,20"`
}

// Set is one rod's line in the water with settings that did not change.
type Set struct {
	From float64 `json:"from" unit:"s" range:"0,1e12"`
	To   float64 `json:"to" unit:"s" range:"0,1e12"`
	// Levels of the factors of a rod, in their order; -1 where it was not told.
	Levels []int `json:"levels" range:"-1,59" count:"0,20"`
}

// Strike is a fish that struck.
type Strike struct {
	At float64 `json:"at" unit:"s" range:"0,1e12"`
	// Set by its place in the trip; -1 when it was not told which rod, or its line is not noted.
	Set    int  `json:"set" range:"-1,9999" default:"-1"`
	Landed bool `json:"landed" default:"false"`
	Kept   bool `json:"kept" default:"false"`
}

// Trip is what is noted of one. Spells must not overlap; sets of several rods do.
type Trip struct {
	Spells  []Spell  `json:"spells" count:"0,2000"`
	Sets    []Set    `json:"sets" count:"0,2000"`
	Strikes []Strike `json:"strikes" count:"0,2000"`
}

// Of is what is counted.
type Of string

// What can be: all strikes, those whose fish came aboard, those whose fish was kept.
const (
	Strikes Of = "strikes"
	Landed  Of = "landed"
	Kept    Of = "kept"
)

// Query is a season's record, and what it is asked for.
type Query struct {
	// Boat are factors of the boat as a whole, Rod those of each rod.
	Boat []Factor `json:"boat" count:"0,20"`
	Rod  []Factor `json:"rod" count:"0,20"`
	// Within is the factor of the boat, such as the light, whose levels are never compared across for another; -1 for none.
	Within int    `json:"within" range:"-1,19" default:"-1"`
	Pairs  []Pair `json:"pairs" count:"0,20" optional:"yes"`
	Trips  []Trip `json:"trips" count:"0,2000"`
	Of     Of     `json:"of" default:"strikes"`
	// School is how close strikes follow one another that are one event.
	School float64 `json:"school" unit:"s" range:"0,7200" default:"300"`
	// Looks is how many such questions the same record was asked, this one included: each is paid for.
	Looks int `json:"looks" range:"1,1000" default:"1"`
}

// Verdict says what may be said of a level.
type Verdict string

// The verdicts. None says that there is no difference, or that something is the best.
const (
	Early    Verdict = "too early"          // less than 60 events in the season
	Few      Verdict = "too few"            // less than 10 events at the level, or at the others, of whom no more were to be expected: a count
	Apart    Verdict = "never side by side" // never in the same trip and light as others
	Untold   Verdict = "not told apart"     // not shown to be better: chance alone can make such a difference, or it is worse
	GoesWith Verdict = "goes with another"  // it does not stand within another factor, which With names
	Better   Verdict = "likely better"      // so far
)

// With is a level of another factor that goes with one. Always says that they were never apart enough to tell which.
type With struct {
	Factor int  `json:"factor"`
	Level  int  `json:"level"`
	Always bool `json:"always"`
}

// Level is what one level of a factor counted, and how it compares with the others.
type Level struct {
	// Level of the factor; of a pair, that of its one, and Other that of its other, else -1.
	Level int `json:"level"`
	Other int `json:"other"`
	// Time of line in the water.
	Time    float64 `json:"time" unit:"s" digits:"6"`
	Strikes int     `json:"strikes"`
	Landed  int     `json:"landed"`
	Kept    int     `json:"kept"`
	// Events of what is asked for: strikes that came at once are one.
	Events int `json:"events"`
	Trips  int `json:"trips"`
	// Rate of events with its 95 % interval; Drawn the same, drawn towards the factor's other levels.
	Rate    Interval `json:"rate" unit:"1/s"`
	Drawn   Interval `json:"drawn" unit:"1/s"`
	Verdict Verdict  `json:"verdict"`
	// Thin says that less than 20 events are on one side of the comparison.
	Thin bool `json:"thin"`
	// Ratio of its rate to that of the others within the same trips and light, with its 95 % interval; zero where nothing is
	// compared.
	Ratio Ratio `json:"ratio"`
	// Chance that its rate is the higher one, by what was seen within the same trips and light; -1 where nothing is compared.
	Chance float64 `json:"chance" digits:"4"`
	// P is the mid-p value of its being no better than the others; Without the same without the trip that speaks for it most.
	// Paid is P once all looks are paid for, Discovery the false discovery rate; 1 where nothing is compared.
	P         float64 `json:"p" digits:"4"`
	Without   float64 `json:"without" digits:"4"`
	Paid      float64 `json:"paid" digits:"4"`
	Discovery float64 `json:"discovery" digits:"4"`
	// More is for how much longer a line would have to be in the water at this level, beside others, to find a doubled rate
	// four times in five; 0 when it was long enough, -1 when nothing tells.
	More float64 `json:"more" unit:"s" digits:"4"`
	With []With  `json:"with"`
}

// Told is what was counted by one factor.
type Told struct {
	// Factor by its place, as Pair tells places; Other that of a pair's other, else -1.
	Factor int `json:"factor"`
	Other  int `json:"other"`
	// Time of line in the water, and events, at levels that were not told.
	Untold       float64 `json:"untold" unit:"s" digits:"6"`
	UntoldEvents int     `json:"untoldEvents"`
	Levels       []Level `json:"levels"`
}

// Answer is the season read.
type Answer struct {
	Strikes int `json:"strikes"`
	Landed  int `json:"landed"`
	Kept    int `json:"kept"`
	// Events of what is asked for, while a line is noted; and Without, those at other times, which count nowhere.
	Events  int     `json:"events"`
	Without int     `json:"without"`
	Time    float64 `json:"time" unit:"s" digits:"6"`
	// Trips with line in the water.
	Trips int      `json:"trips"`
	Rate  Interval `json:"rate" unit:"1/s"`
	// Spread is the standard deviation of the rate between trips, relative, beyond chance.
	Spread float64 `json:"spread" digits:"4"`
	// Early says that it is too early to compare anything, and Missing how many events are missing to that.
	Early   bool `json:"early"`
	Missing int  `json:"missing"`
	// Looks that were paid for: every level of every factor and pair, times the questions.
	Looks   int    `json:"looks"`
	Factors []Told `json:"factors"`
}

// Count is events in a time: any time, as long as all are in the same.
type Count struct {
	Events int     `json:"events" range:"0,100000"`
	Time   float64 `json:"time" unit:"s" range:"1e-9,1e12"`
}

// Rates asks for plain counts alone: no trips, no light, nothing else that differed.
type Rates struct {
	Counts []Count `json:"counts" count:"1,60"`
	// Confidence of the intervals.
	Confidence float64 `json:"confidence" range:"0.5,0.9999" default:"0.95"`
	// Shape and Time of the gamma prior of a rate, for the chances; Jeffreys' without.
	Shape float64 `json:"shape" range:"0.001,1e6" default:"0.5"`
	Time  float64 `json:"time" unit:"s" range:"0,1e12" default:"0"`
}

// Rate is that of one count.
type Rate struct {
	// Rate with Garwood's interval.
	Rate Interval `json:"rate" unit:"1/s"`
	// Posterior is the mean of the gamma posterior and its interval.
	Posterior Interval `json:"posterior" unit:"1/s"`
	// Drawn is the rate drawn towards the others.
	Drawn Interval `json:"drawn" unit:"1/s"`
}

// Versus compares two counts, by their places.
type Versus struct {
	One   int `json:"one"`
	Other int `json:"other"`
	// Ratio with its exact conditional interval, and P, central, two-sided.
	Ratio Ratio   `json:"ratio"`
	P     float64 `json:"p" digits:"6"`
	// Chance that the first rate is the higher one; -1 where a side has no events, which would only tell of the prior.
	Chance float64 `json:"chance" digits:"6"`
}

// RatesAnswer has a rate for each count, and a comparison of each with each later one.
type RatesAnswer struct {
	Rates  []Rate   `json:"rates"`
	Versus []Versus `json:"versus"`
}
