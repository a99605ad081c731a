package fish

import "wirewake/calc/unit"

// The species of the defaults.
const stripedBass = "striped bass"

// Waters of the defaults.
const (
	stateOcean = "ocean, state waters (0–3 nautical miles)"
	federal    = "federal waters (3–200 nautical miles)"
	chesapeake = "Chesapeake Bay"
	newYork    = "New York, marine waters"
	hudson     = "Hudson River above the George Washington Bridge"
)

// upperEnd is what the sources leave open, and how it is taken.
const upperEnd = "At just the upper length the sources differ; here such a fish is released."

// Default is the sets to begin with. They are what the sources said at their dates; states add seasons, sizes, gear and
// days of their own, and change them within a year, so that the judgement tells of both.
func Default() Book {
	coast := slot(stateOcean, 28, 31, 1)
	coast.Note, coast.StatesOwn = upperEnd, true
	coast.Gear = "circle hooks with bait"
	coast.Source = "ASMFC, Addendum II to Amendment 7, January 2024, as reported by the press; circle hooks: Addendum VI, 2019; day of force from memory"
	coast.ValidFrom, coast.CheckedOn = "2024-05-01", "2024-01"

	bay := slot(chesapeake, 19, 24, 1)
	bay.Note, bay.StatesOwn = upperEnd, true
	bay.Gear = "circle hooks with bait"
	bay.Source = coast.Source
	bay.ValidFrom, bay.CheckedOn = coast.ValidFrom, coast.CheckedOn

	zone := Rule{
		Species: stripedBass, Waters: federal, From: Date{1, 1}, To: Date{12, 31}, NoFishing: true,
		Bags:      []Bag{{0, Boat}},
		Note:      "No fishing for, harvest or possession. Transit through the zone off Block Island has rules of its own.",
		Source:    "NOAA Fisheries and 83 FR 50061, 2018; 50 CFR 697.7",
		CheckedOn: "2018-10-04",
	}

	marine := slot(newYork, 28, 31, 1)
	marine.From, marine.To = Date{4, 15}, Date{12, 15}
	marine.Note = upperEnd
	marine.Gear = "in-line circle hooks with bait; no gaffs"
	marine.Source = "New York State Department of Environmental Conservation, bulletin of 2025"
	marine.CheckedOn = "2025"

	river := slot(hudson, 23, 28, 1)
	river.From, river.To = Date{4, 1}, Date{11, 30}
	river.Note = upperEnd + " Only a private site was read, and the bag is from memory."
	river.Gear = "in-line circle hooks with bait"
	river.Source = "reported by a private site; from memory, check"

	return Book{Sets: []Set{
		{Name: "Atlantic coast, striped bass", AsOf: "2024-01", Rules: []Rule{coast, bay, zone}},
		{Name: "New York, striped bass", AsOf: "2025", Rules: []Rule{marine, river, zone}},
	}}
}

// slot is a rule for the whole year: from the least length, in inches, to below the greatest, so many for each person.
func slot(waters string, low, high float64, each int) Rule {
	return Rule{
		Species: stripedBass, Waters: waters, From: Date{1, 1}, To: Date{12, 31},
		Min: low * unit.Inch, MinKept: true, Max: high * unit.Inch,
		Bags: []Bag{{each, Person}},
	}
}
