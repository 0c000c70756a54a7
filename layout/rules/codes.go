package rules

import (
	"slices"
	"strings"

	"markout/layout/caution"
)

// Code explains one kind of caution.
type Code struct {
	Code        string
	Title       string // a few words
	Explanation string // a paragraph in plain words, without its last line: Text adds caution.Defer
	Source      string // publications and editions that its figures are from
}

// Text returns the explanation as people read it, in paragraphs: what it is, where its figures are from, and who decides.
func (c Code) Text() []string {
	return []string{c.Code + ": " + c.Title, c.Explanation, "Figures from: " + c.Source + ".", caution.Defer}
}

// Codes returns every code that Check gives, by name.
func Codes() []Code { return slices.Clone(codes) }

// Find returns the code of that name, in capitals or not.
func Find(name string) (Code, bool) {
	name = strings.ToUpper(name)
	i, ok := slices.BinarySearchFunc(codes, name, func(c Code, name string) int { return strings.Compare(c.Code, name) })
	if !ok {
		return Code{}, false
	}
	return codes[i], true
}

func cite(publications ...string) string { return strings.Join(publications, "; ") }

var codes = append(slices.Clone(artworkCodes), []Code{
	{"BOARD-THICK", "a board that is not as thick as the set has it",
		"An attribute says a thickness (`deck 18`, `tread 18`, `lid 18`), and the board that the piece is cut from was measured otherwise: " +
			"17.6, say. The level comes out by the difference, and so do the first and the last riser of a flight. Write what the " +
			"board measures, or choose another board. A board is taken for the one meant up to a tenth off, 1 mm at the least (common practice, no source); what is " +
			"further off is not cut from it.",
		"the board as the file measures it"},
	{"CEILING", "higher than the hall's ceiling",
		"A piece reaches higher than the ceiling that the file gives the hall worked in. The figure is its highest point above " +
			"the floor. It may stand so in the theatre, but not in this room.",
		"the hall's own ceiling, as the file gives it"},
	clothCodes[0], clothCodes[1], clothCodes[2], clothCodes[3],
	{"EDGE-OPEN", "an edge that can be fallen from",
		"A platform, a tread or a ramp lies high above what is beside it, and nothing there keeps people from the edge. The " +
			"program goes along every edge and leaves out the parts where another surface adjoins within 100 mm, or where a " +
			"flat, a standing rectangle or a higher piece stands as high as a guard (from 300 mm inside the edge to 100 mm " +
			"outside it). The figure is the greatest drop and the length of all that is left. English figures: in dwellings a " +
			"drop of more than 600 mm wants a guard; in other buildings a flight of two risers or more, and, from memory, a " +
			"floor edge of more than 380 mm. A guard is 900 mm high on flights and 1100 mm elsewhere. American figures, for " +
			"sets in feet: 30 in (from memory) and 4 ft at work, a guard of 42 in, 3 in more or less.",
		cite(adkEdge, adkFloor, adkGuard, oshaEdge, usEdge, oshaGuard)},
	{"FIG-AIR", "a cut-out in the air that nothing holds",
		"A figure has air under its feet (`ground`), and the file says nothing that holds it up: no brace, no wall, and it is not hung. Stand it on a block, brace it, " +
			"fix it to a wall (`on WALL at …`) or hang it.",
		practice},
	{"FIG-BODIES", "parts of the artwork that are left out of a cut-out",
		"The artwork has more than one body, and a figure is cut from the largest. A hat thrown up, a dropped glove, a stain of the scanner: what lies apart is left out and " +
			"counted here. Join to the figure what belongs to it.",
		practice},
	{"FIG-HUNG", "a cut-out hung overhead",
		"A figure hangs upside down over people. The caution gives its lowest point and, where the board's density is known, what the board weighs, without frame and fixings. Neither says " +
			"that it holds: who fixes it, to what, and with which second line is for a rigger.",
		"no figure is given: a rigger decides"},
	{"FIG-THIN", "a part of a cut-out that is likely to snap",
		"A neck, a beak, a stick or a bridge beside a hole is less than 30 mm wide at life size. The outline is moved inwards by half of that and outwards again, and what is lost is thin, where it is " +
			"longer than it is wide. Back it with a batten, thicken it in the drawing, or leave a web of board and paint it out.",
		practice},
	{"FIG-TIP", "a cut-out that tips",
		"A figure stands on the edge of a board. Its height is held against the depth of its base: the board's thickness, or the foot of its brace, which reaches behind it only, so that nothing but " +
			"the weight on the foot keeps it from falling on its face. More than three times as high as it is deep tips easily. The brace's own sizes are common practice too: two thirds of " +
			"the height for the upright, four tenths for the foot.",
		practice},
	{"FOOTHOLD", "footholds to walk over",
		"A walk goes from piece to piece (`walk … over A, B, C`). The list of footholds gives each one's upper face, the step up or the drop to the next, the gap, the size of the face, the height over it and how far it " +
			"is to the floor. What a piece bears, whether it stays where it is, and how people are held is not known here. The figures beside it are those from which on edges of buildings want a guard.",
		cite(adkEdge, adkFloor, oshaEdge, usEdge)},
	{"FOOTHOLD-NONE", "a foothold that nobody can stand on",
		"The piece lies against what it hangs from: a box on the floor of a room that hangs upside down has that floor above it, and no face to stand on.",
		practice},
	{"HEADROOM", "too little height over a tread or a ramp",
		"Something hangs or stands over a tread, a landing or a ramp so low that a tall person meets it. The figure is the " +
			"least height between the face that is walked on and the underside over it, wherever the two lie over one another " +
			"on the plan. English figure: 2000 mm; American: 6 ft 8 in over any tread.",
		cite(adkHead, oshaStairs)},
	{"KEEP", "a distance that must be kept is not",
		"The file says that two things keep a distance (`keep A to B at least 1800`), and they stand nearer. The figure is the " +
			"clear distance between them on the plan.",
		"the file's own keep line"},
	{"LIFT", "too heavy for one person",
		"A whole board or bar, or a piece, weighs more than one person should lift without thinking. The filter's figures are, men and women: " +
			"10 and 7 kg at shoulder to head height, 20 and 13 at shoulder height, 25 and 16 at elbow height, 20 and 13 at knuckle height, 10 and 7 at the " +
			"lower leg, all held close to the body, less at arm's length. They are no legal limit. A board 2440 x 1220 x 18 of MDF weighs about 39 kg. Weights are reckoned from the " +
			"density that the file gives; what has none is not weighed.",
		lifting},
	{"OVER-HUNG", "a room that hangs over people",
		"A room is dressed the right way up and hung upside down. The transfer gives places, facings, weights and centres of gravity; a piece that was not weighed makes every total an `at least`. Loads on fixings are " +
			"given only as if they were shared equally, and not where the centre of gravity lies outside them. None of it says that anything holds.",
		rigger},
	{"OVER-LOOSE", "loose or soft pieces that are turned over",
		"The file says that a piece only stands where it is (`loose`), or falls out of shape (`soft`). Turned over it falls, or hangs otherwise than it was dressed. Fix it before, or dress it afterwards.",
		practice},
	{"OVER-LOW", "a piece that hangs too low",
		"A room gives the headroom that is wanted above its walking floor, and a piece hangs lower than that. The figure is the least height from what is stood on beneath it to its lowest point.",
		caution.OwnFigure},
	{"OVER-MIRROR", "a room that is mirrored",
		"`mirrored` keeps left and right, front and back, so that the room upside down is the mirror image of the room as dressed: every piece would have to be made opposite-handed. Turning the room over keeps pieces as they are.",
		practice},
	{"OVER-OUT", "a piece outside its room",
		"A piece that is placed in a room reaches out of the room's outline. It hangs from nothing that the room has there, or its place has a slip in it.",
		practice},
	{"OVER-SEAM", "a piece over a seam between panels",
		"The room is hung in panels, and a piece lies on more than one of them. It belongs to the panel under its own place; where panels are hung one by one it cannot be fixed before they are joined.",
		practice},
	{"OVER-THROUGH", "pieces that stand in one another",
		"Two pieces of a room take up the same place. One of their places, sizes or levels has a slip in it.",
		practice},
	{"RAMP-FLIGHT", "a long ramp without a landing",
		"A ramp climbs too high, or goes too far, without a level place to rest. English guidance gives 2 m of length and 166 " +
			"mm of rise at 1:12, 5 m and 333 mm at 1:15, 10 m and 500 mm at 1:20; between them the length grows by a metre " +
			"for each step of the slope; a steeper ramp is held against the figures of 1:12. American: 30 in of rise, on existing sites " +
			"6 in where steeper than 1:12 and 3 in where steeper than 1:10.",
		cite(adkRampRun, adaRamp)},
	{"RAMP-RAIL", "a ramp that wants a handrail",
		"A ramp that rises no more than 600 mm needs no handrail in England; this one rises more.",
		adkRamp},
	{"RAMP-SLOPE", "a steep ramp",
		"The ramp is steeper than 1:12, the steepest that both English and American figures give. A rise of 450 over a length of " +
			"3600 is 1:8. Steep ramps are slippery when wet, and heavy pieces run away on them.",
		cite(adkRamp, adaRamp)},
	{"RAMP-WIDTH", "a narrow ramp",
		"The ramp is narrower than the 36 in (914 mm) of access ramps.",
		adaRamp},
	{"RESERVE", "something stands in a volume kept clear",
		"A `reserve` marks a volume that must stay clear: a turning circle, the sweep of a door, a run-up. Something reaches into it.",
		"the file's own reserve"},
	{"SAW", "cutting boards and bars",
		"A cutting list sends someone to a saw. Guards, riving knife and push sticks, dust taken off at the machine and kept out of the lungs, boards held up on " +
			"both sides: who runs the machine is trained on it, and follows the local rules. Dust of some woods and of boards is harmful.",
		sawGuard},
	{"STEP-2RG", "a flight out of step with the stride",
		"Twice the riser and the going of the tread it rises from, 2R + G, is about the length of a stride on stairs. A normal " +
			"stair has between 550 and 700 mm; 7 in and 11 in make 25 in (635 mm). Outside it people stumble or stretch, even " +
			"where riser and going are each within their own range: 170 and 400 make 740.",
		adkStride},
	{"STEP-FLIGHT", "many risers without a landing",
		"A flight goes on for long without a level place. English figure, from memory: 12 risers on general access stairs. " +
			"American: 12 ft of rise.",
		cite(adkFlight, usFlight)},
	{"STEP-FOOT", "the foot of a flight stands on nothing, or not level with it",
		"A flight that is held by its top (`meets`) and by its riser finds its foot above or below the floor or the top under " +
			"it. The first step is then higher or lower than the others, or the flight does not stand at all. Change the number of " +
			"risers, the rise or the height of what it meets.",
		practice},
	{"STEP-GOING", "a tread too short or too long to walk",
		"The going is the depth of a tread from one riser to the next; a nosing over it does not count. English figures: 250 to " +
			"400 mm for general access, 220 to 300 mm in private houses. American: at least 11 in for the public, 10 in in houses, " +
			"9 1/2 in on fixed stairs at work.",
		cite(adkTable, abaStairs, ircStairs, oshaStairs)},
	{"STEP-GOINGS", "uneven goings",
		"The treads of one flight are not of one depth, landings left out. Feet learn the going of the first treads and trust it " +
			"for the rest. The figure is the longest less the shortest; 3/8 in (9.5 mm) is the most in American houses, from memory.",
		sources(unevenGoing)},
	{"STEP-LANDING", "a shallow landing",
		"A landing is less deep than the flight is wide, the English rule (from memory), or than 30 in, the American one.",
		cite(adkLanding, oshaStairs)},
	{"STEP-NEIGHBOURS", "one riser unlike the next",
		"Two risers that follow each other differ. This is where people trip: the foot lifts as high as it did before. The figure " +
			"is the largest difference between neighbours; 3/8 in (9.5 mm) is the most between any two risers of a flight in " +
			"American houses, and English figures, from memory, want them all alike. Where uneven steps are wanted, tell and show those who walk them.",
		sources(uneven)},
	{"STEP-NOSING", "a long nosing",
		"The front of a tread stands far over the tread below, and a toe catches under it on the way up. English figure, from " +
			"memory: 25 mm; American, from memory: 1 1/2 in.",
		cite(adkNosing, usNosing)},
	{"STEP-PITCH", "a steep flight",
		"The pitch is the angle of a riser over the going of the tread it rises from. Riser and going depend on each other: 220 " +
			"over 245 is just under the 42° of English private houses and 220 over 244 just over it, though each figure alone " +
			"is within its range. American figure: 30° to 50° for fixed stairs at work; a flatter flight gets no caution.",
		cite(adkTable, oshaStairs)},
	{"STEP-RISE", "a riser too high or too low",
		"English figures: 150 to 170 mm for general access, 150 to 220 mm in private houses. American: 4 to 7 in for the public, " +
			"at most 7 3/4 in in houses, at most 9 1/2 in on fixed stairs at work. The first of them decides whether there is a " +
			"caution, because many people who don't know the set walk it; the caution says how the others stand.",
		cite(adkTable, abaStairs, ircStairs, oshaStairs)},
	{"STEP-SPREAD", "uneven risers",
		"The risers of one flight are not of one height. The figure is the highest less the lowest; 3/8 in (9.5 mm) is the most in " +
			"American houses, and English figures, from memory, want them all alike.",
		sources(uneven)},
	{"STEP-TAPER", "a tapered tread that is shallow at its narrow end",
		"Where a flight turns, its treads are deeper at one side than at the other. English figures: at least 50 mm at the narrow " +
			"end; the going is measured in the middle of a flight that is less than 1 m wide, otherwise 270 mm from each side, and " +
			"held there against the same figures as any going. American, from memory: at least 6 in at any place, and the going " +
			"measured 12 in from the narrow side. People keep to the wide side, where two who meet have no room.",
		cite(adkTaper, ircWinder)},
	{"STEP-WIDTH", "a narrow flight",
		"English figure, from memory: 1200 mm for general access. American: 36 in in houses, 22 in on fixed stairs at work.",
		cite(adkWidth, ircStairs, oshaStairs)},
	{"TALL", "a tall narrow piece",
		"A piece more than three times as high as its base is deep tips easily: a loose block, a pile of them, a post that carries " +
			"nothing, a flat without a return, a standing shape without a brace. Fix it, brace it or weight it. A flat has a return where another " +
			"flat meets it at an angle; a post is held where something rests on its head.",
		practice},
	{"WALK-HEAD", "a way that is lower than whoever walks",
		"Along a walk's path, for whoever is as wide and as tall as it says, something hangs or stands so low that the head meets it, or in the way. The way is looked along at every place, on whatever its middle stands on: the floor, " +
			"or what can be stepped up to, 600 mm at most. The figure is the least height, 0 where something stands in the way.",
		cite("British men, 95th percentile of height 1855 mm, with 25 mm of shoes, unless the file says another height", practice)},
}...)
