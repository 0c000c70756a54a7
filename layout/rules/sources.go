package rules

import "math"

// Publications the limits are taken from, as they are named beside a figure.
const (
	adkTable   = "Approved Document K (England), 2013 edition, Table 1.1"
	adkStride  = "Approved Document K (England), 2013 edition, rise and going of a normal stair"
	adkWidth   = "Approved Document K (England), 2013 edition, width of stairs, from memory"
	adkLanding = "Approved Document K (England), 2013 edition, landings, from memory"
	adkNosing  = "Approved Document K (England), 2013 edition, nosings, from memory"
	adkFlight  = "Approved Document K (England), 2013 edition, length of flights, from memory"
	adkHead    = "Approved Document K (England), headroom on stairs and ramps"
	adkTaper   = "Approved Document K (England), 2013 edition, tapered treads"
	adkRamp    = "Approved Document K (England), 2013 edition, ramps"
	adkRampRun = "English guidance on access ramps, going and rise of one flight (10 m and 500 mm at 1:20, 5 m and 333 mm at 1:15, 2 m and 166 mm at 1:12)"
	adkEdge    = "Approved Document K (England), 2013 edition, guarding of flights and landings"
	adkFloor   = "Approved Document K (England), 2013 edition, guarding of floors, from memory"
	adkGuard   = "Approved Document K (England), 2013 edition, Diagram 3.1"

	oshaStairs = "US 29 CFR 1910.25(c), as quoted in the letter of interpretation of 17 June 2025"
	oshaEdge   = "US 29 CFR 1910.28(b)(11)"
	oshaGuard  = "US 29 CFR 1910.29"
	abaStairs  = "US accessibility standard for federal buildings (ABA), 504.2"
	usFlight   = "US model building code, rise of one flight"
	usEdge     = "US model building code, from memory"
	usNosing   = "US accessibility standard, 504.5, from memory"
	ircStairs  = "US residential code 2018, R311.7"
	ircWinder  = "US residential code 2018, R311.7.5.2.1, winders, from memory"
	adaRamp    = "US ADA Standards 1991, 4.8"

	practice = "common practice, no source"
)

const (
	inch = 25.4
	foot = 12 * inch
)

// book is the published limits that a set is held against. Of several bands the first decides whether there is a
// caution: a set is walked by many people who do not know it, so that the band for public stairs stands first. The
// others are named with what they say of the same figure.
type book struct {
	rise, going, pitch, stride, width, nosing, landing, headroom []band

	ownLanding  bool // a landing is also held against the flight's own width
	risers      band // risers that follow each other without a landing
	flightRise  band // height climbed without a landing
	drop        []band
	taper       taper
	twoRisers   bool    // the sides of a flight want a guard from two risers on, whatever the drop
	guardFlight float64 // least height of a guard on a flight
	guardLevel  float64 // and on a level
	guardSource string

	rampSlope, rampWidth []band
	rampFlight           func(slope float64) rampFlight
	rampRail             float64 // a ramp that rises more wants a handrail, 0 where not said
}

// rampFlight is the longest going and the greatest rise of one flight of a ramp; 0 is not said.
type rampFlight struct {
	Going, Rise float64
	Source      string
}

// englishRamp: 2 m of going at 1:12, 5 m at 1:15, 10 m at 1:20 and flatter, a metre more for each step of the slope
// between them; the rise is the going over the slope. What is steeper than 1:12 is held against the row of 1:12.
func englishRamp(slope float64) rampFlight {
	per := 20.0
	if slope > 0 {
		per = min(max(1/slope, 12), 20)
	}
	going := (per - 10) * 1000
	return rampFlight{going, math.Floor(going / per), adkRampRun}
}

// americanRamp: 30 in of rise down to 1:12; steeper only on existing sites, 6 in to 1:10 and 3 in to 1:8.
func americanRamp(slope float64) rampFlight {
	const hair = 1e-9
	switch {
	case slope <= 1.0/12+hair:
		return rampFlight{0, 30 * inch, adaRamp}
	case slope <= 1.0/10+hair:
		return rampFlight{0, 6 * inch, adaRamp + ", existing sites to 1:10"}
	}
	return rampFlight{0, 3 * inch, adaRamp + ", existing sites to 1:8"}
}

// uneven is the greatest difference between any two risers of a flight, and so between neighbours.
var uneven = []band{{"the risers of one flight in houses", 0, 0.375 * inch, "US residential code 2018, R311.7, greatest difference between risers"}}

// unevenGoing is the same for goings.
var unevenGoing = []band{{"the treads of one flight in houses", 0, 0.375 * inch, "US residential code 2018, R311.7, from memory"}}

// english holds sets in metres and millimetres.
var english = book{
	rise: []band{
		{"general access stairs", 150, 170, adkTable},
		{"stairs in private houses", 150, 220, adkTable},
	},
	going: []band{
		{"general access stairs", 250, 400, adkTable},
		{"stairs in private houses", 220, 300, adkTable},
	},
	pitch:       []band{{"stairs in private houses", 0, 42, adkTable}},
	stride:      []band{{"normal stairs", 550, 700, adkStride}},
	width:       []band{{"general access stairs", 1200, 0, adkWidth}, {"US fixed stairs at work", 22 * inch, 0, oshaStairs}},
	nosing:      []band{{"nosings", 0, 25, adkNosing}},
	landing:     []band{{"US fixed stairs at work", 30 * inch, 0, oshaStairs}},
	ownLanding:  true,
	risers:      band{"general access stairs", 0, 12, adkFlight},
	headroom:    []band{{"stairs and ramps", 2000, 0, adkHead}},
	drop:        []band{{"floors of other buildings than dwellings", 0, 380, adkFloor}, {"dwellings", 0, 600, adkEdge}},
	taper:       taper{270, 1000, true, []band{{"tapered treads at their narrow end", 50, 0, adkTaper}}},
	twoRisers:   true,
	guardFlight: 900,
	guardLevel:  1100,
	guardSource: adkGuard,
	rampSlope:   []band{{"ramps", 0, 1.0 / 12, adkRamp}},
	rampWidth:   []band{{"US access ramps", 36 * inch, 0, adaRamp}},
	rampFlight:  englishRamp,
	rampRail:    600,
}

// american holds sets in feet and inches.
var american = book{
	rise: []band{
		{"public stairs", 4 * inch, 7 * inch, abaStairs},
		{"stairs in houses", 0, 7.75 * inch, ircStairs},
		{"fixed stairs at work", 0, 9.5 * inch, oshaStairs},
	},
	going: []band{
		{"public stairs", 11 * inch, 0, abaStairs},
		{"stairs in houses", 10 * inch, 0, ircStairs},
		{"fixed stairs at work", 9.5 * inch, 0, oshaStairs},
	},
	pitch:       []band{{"fixed stairs at work", 0, 50, oshaStairs}},
	stride:      []band{{"normal stairs in England", 550, 700, adkStride}},
	width:       []band{{"stairs in houses", 36 * inch, 0, ircStairs}, {"fixed stairs at work", 22 * inch, 0, oshaStairs}},
	nosing:      []band{{"public stairs", 0, 1.5 * inch, usNosing}},
	landing:     []band{{"fixed stairs at work", 30 * inch, 0, oshaStairs}},
	flightRise:  band{"public stairs", 0, 12 * foot, usFlight},
	headroom:    []band{{"fixed stairs at work", 80 * inch, 0, oshaStairs}},
	drop:        []band{{"floors and landings of buildings", 0, 30 * inch, usEdge}, {"landings at work", 0, 48 * inch, oshaEdge}},
	taper:       taper{12 * inch, 24 * inch, false, []band{{"winders in houses, at any place", 6 * inch, 0, ircWinder}}},
	guardFlight: 39 * inch,
	guardLevel:  39 * inch,
	guardSource: oshaGuard,
	rampSlope:   []band{{"access ramps", 0, 1.0 / 12, adaRamp}},
	rampWidth:   []band{{"access ramps", 36 * inch, 0, adaRamp}},
	rampFlight:  americanRamp,
}
