package fish

// Interval is a value with its 90 % interval.
type Interval struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
}

// Measures is what is known of a striped bass: its length, its mass, or both, and perhaps its girth.
type Measures struct {
	// Length is the total length; 0 when it is not known.
	Length float64 `json:"length" unit:"m" range:"0,2" default:"0"`
	// Girth around the thickest part; 0 when it is not known.
	Girth float64 `json:"girth" unit:"m" range:"0,2" default:"0"`
	// Mass; 0 when it is not known.
	Mass float64 `json:"mass" unit:"kg" range:"0,80" default:"0"`
}

// MeasuresAnswer is all three. What was given has no width.
type MeasuresAnswer struct {
	Length Interval `json:"length" unit:"m"`
	Girth  Interval `json:"girth" unit:"m"`
	Mass   Interval `json:"mass" unit:"kg"`
	// Standard is the mass of a fish in good condition at the middle of Length.
	Standard float64 `json:"standard" unit:"kg"`
	// ByGirth is the mass that the trade's formula gives; 0 when no girth was given.
	ByGirth float64 `json:"byGirth" unit:"kg"`
}

// Date is a day of any year.
type Date struct {
	Month int `json:"month" range:"1,12"`
	Day   int `json:"day" range:"1,31"`
}

// Per says whom a bag is counted for.
type Per string

// The ways to count.
const (
	Person Per = "person"
	Boat   Per = "boat"
)

// Bag is how many fish may be kept in a day.
type Bag struct {
	// Count; with 0 none may be kept.
	Count int `json:"count" range:"0,1000"`
	Per   Per `json:"per"`
}

// Rule is what holds for a species in some waters and season. Where several fit, all of them hold.
type Rule struct {
	Species string `json:"species" chars:"1,60"`
	Waters  string `json:"waters" chars:"1,120"`
	// From and To are the first and the last day of the season, which may span the new year.
	From Date `json:"from"`
	To   Date `json:"to"`
	// Min is the least length that may be kept; 0 for none.
	Min float64 `json:"min" unit:"m" range:"0,5"`
	// MinKept says that a fish of just that length may be kept.
	MinKept bool `json:"minKept"`
	// Max is the greatest length that may be kept; 0 for none.
	Max float64 `json:"max" unit:"m" range:"0,5"`
	// MaxKept says that a fish of just that length may be kept.
	MaxKept bool `json:"maxKept"`
	// Bags all hold; without one, there is no limit.
	Bags []Bag `json:"bags" count:"0,4" optional:"yes"`
	// NoFishing says that it must not even be fished for.
	NoFishing bool `json:"noFishing"`
	// Gear is what the rule asks of gear, in words.
	Gear string `json:"gear" chars:"0,500"`
	// Note is what else to know.
	Note   string `json:"note" chars:"0,500"`
	Source string `json:"source" chars:"0,300"`
	// StatesOwn says that states within these waters set rules of their own, which come first.
	StatesOwn bool `json:"statesOwn"`
	// ValidFrom, ValidTo and CheckedOn are dates of ISO 8601, as far as they are known: 2024-05-01, 2024-05, 2024 or
	// nothing. ValidTo is the last day. CheckedOn is the date of the source when nobody has looked since.
	ValidFrom string `json:"validFrom" chars:"0,10"`
	ValidTo   string `json:"validTo" chars:"0,10"`
	CheckedOn string `json:"checkedOn" chars:"0,10"`
}

// Catch is a fish to be judged.
type Catch struct {
	Rules   []Rule `json:"rules" count:"0,100"`
	Species string `json:"species" chars:"1,60"`
	Waters  string `json:"waters" chars:"1,120"`
	Today   Date   `json:"today"`
	// Year of Today.
	Year int `json:"year" range:"2000,9999"`
	// Length is the total length.
	Length float64 `json:"length" unit:"m" range:"0.01,5"`
	// Ruler is how far off a length measured aboard may be.
	Ruler float64 `json:"ruler" unit:"m" range:"0,0.1" default:"0.006"`
	// ByPerson is how many this person has kept today, ByBoat how many all aboard together.
	ByPerson int `json:"byPerson" range:"0,1000" default:"0"`
	ByBoat   int `json:"byBoat" range:"0,1000" default:"0"`
	// Aboard is how many people fish; 0 when nobody has said.
	Aboard int `json:"aboard" range:"0,100" default:"0"`
	// AsKept says that the rules are as somebody kept them: a date that cannot be read has its rule looked up, and is no
	// fault of the request.
	AsKept bool `json:"asKept" default:"false"`
}

// Verdict says what to do with a fish.
type Verdict string

// The verdicts.
const (
	Keep    Verdict = "keep"
	Release Verdict = "release"
	// Unknown: no rule is there for the species in these waters; it must not be kept by this.
	Unknown Verdict = "unknown"
	// LookUp: the rules are not to be gone by: too old, not in force yet, or with a date that cannot be read.
	LookUp Verdict = "look it up"
	// HowMany: it may be kept if enough people fish, and nobody has said how many do.
	HowMany Verdict = "how many fish"
)

// Why says why a fish is not to be kept.
type Why string

// The reasons.
const (
	NoRule       Why = "no rule"
	NotFished    Why = "not to be fished for"
	OutOfSeason  Why = "out of season"
	TooShort     Why = "too short"
	TooLong      Why = "too long"
	NoneKept     Why = "none may be kept"
	PersonIsFull Why = "bag of the person full"
	BoatIsFull   Why = "bag of the boat full"
)

// Reason is one, with its facts.
type Reason struct {
	Why Why `json:"why"`
	// Rule is its index in the request; −1 of no rule.
	Rule int `json:"rule"`
	// Limit is the length, By is how far beyond it the fish is; both 0 when it is no matter of length.
	Limit float64 `json:"limit" unit:"m"`
	By    float64 `json:"by" unit:"m"`
	// Included says that a fish of just the limit may be kept.
	Included bool `json:"included"`
	// Opens is when the season begins, out of season only.
	Opens *Date `json:"opens" optional:"yes"`
}

// Old says why a rule is not to be gone by before it was looked up.
type Old string

// The reasons to look it up.
const (
	// Unreadable: nobody can say from when or until when it is in force, or when it was checked.
	Unreadable   Old = "date not readable"
	NotYet       Old = "not in force yet"
	PastItsDate  Old = "past its date"
	LongAgo      Old = "not checked for a year"
	NeverChecked Old = "never checked"
)

// Aged is a rule that is not to be gone by before it was looked up.
type Aged struct {
	// Rule is its index in the request.
	Rule int `json:"rule"`
	Why  Old `json:"why"`
	// Date is that which says so, as the rule tells it: its first or last day, or when it was checked.
	Date string `json:"date"`
}

// Stop says who must not keep any more.
type Stop string

// The ways to stop.
const (
	GoOn       Stop = ""
	StopPerson Stop = "person"
	StopBoat   Stop = "boat"
)

// NoLimit is in place of a number of fish where no rule limits it.
const NoLimit = -1

// Judgement is what the rules say of a fish.
type Judgement struct {
	Verdict Verdict `json:"verdict"`
	// ByRules is what the rules say however old they are: to be kept, released or unknown.
	ByRules Verdict  `json:"byRules"`
	Reasons []Reason `json:"reasons"`
	// Aged are the rules for this species in these waters, in any season, that are not to be gone by. Those not in force
	// yet are passed over where another one is.
	Aged []Aged `json:"aged"`
	// StatesOwn says that states within these waters set rules of their own, which come first.
	StatesOwn bool `json:"statesOwn"`
	// AskHowMany says that it depends on how many people fish, which nobody has said.
	AskHowMany bool `json:"askHowMany"`
	// Close says that the length is so near a limit that it should be measured again.
	Close bool `json:"close"`
	// MoreByPerson and MoreByBoat are how many more may be kept after this one; −1 where there is no limit, 0 when
	// the verdict is unknown. While nobody has said how many people fish, MoreByBoat leaves out the bags of persons.
	MoreByPerson int  `json:"moreByPerson"`
	MoreByBoat   int  `json:"moreByBoat"`
	Stop         Stop `json:"stop"`
	// Rules are the indexes of those that hold today.
	Rules []int `json:"rules"`
}

// Set is rules that belong together.
type Set struct {
	Name string `json:"name"`
	// AsOf is the date of the newest source, as far as it is known.
	AsOf  string `json:"asOf"`
	Rules []Rule `json:"rules"`
}

// Book is the sets of rules to begin with: defaults, not the rules in force.
type Book struct {
	Sets []Set `json:"sets"`
}
