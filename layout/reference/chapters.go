package reference

// chapters returns what is said of all kinds together, in the order in which it is best read.
func chapters() []page {
	return []page{
		textChapter, valuesChapter, listsChapter, measuresChapter, pointsChapter, outlinesChapter, placingChapter,
		copiesChapter, positionsChapter, wallsChapter, artworkChapter, csvChapter, materialsChapter, cardsChapter, limitsChapter, cautionsChapter(), kindsChapter(), commonPage(), formsChapter, surroundingsChapter,
	}
}

var textChapter = page{topic: "text", title: "Text: the shape of a geometry file", blocks: []block{
	say("A geometry file is plain text (UTF-8) that can be read aloud. A line that starts in the first column opens a " +
		"statement; the indented lines under it are its attributes. Blank lines and spaces between words are free."),
	example(`platform quay
    outline rect 3600 x 2400
    height  450
    note    "clad in grey boards"
`),
	say("A line indented deeper than an attribute belongs to that attribute: as an attribute of its own where its first word is " +
		"one (the `sill` of an opening), otherwise as the rest of the line above."),
	example(`flat back
    from      -1800, 9000 to 1800, 9000
    height    2400
    thickness 45
    opening   window lookout at 600 size 900 x 700
        sill  1100

platform apron
    outline points 0,0 2400,0
                   2400,900 0,900
    height  150
`),
	say("`#` starts a comment, which goes to the end of the line; `markout tidy` keeps comments where they are. Indent with " +
		"spaces, all attributes of a statement alike; a tab there is an error."),
	example(`post mast            # stepped through the deck
    # the heel is round
    diameter 120
    height   3600
`),
	say("Order does not matter: a name may be used above the line that defines it, and what depends on a value follows when it " +
		"changes. Two values that wait for each other are an error that names them both."),
	wrong(`let a = b
let b = a
`),
	say("Names are letters, digits and `_`, and begin with a letter or `_`; `Deck` and `deck` are two names. Elements and lets " +
		"share their names. Most words of the language may be names too (`let rise = 150`); these may not, because they join " +
		"values: x at by to from in on of line arc curve close radius through handles long around along every facing least."),
	say("Whatever is wrong is said at its line and column, all of it in one run, with what would mend it where that is known."),
}}

var valuesChapter = page{topic: "values", title: "Values: lengths, angles, slopes, weights and arithmetic", blocks: []block{
	say("A unit touches its number. A bare number is a length in the set's unit (`units mm|cm|m|in|ft`, mm unless said) where a " +
		"length is wanted, and a plain number where a count is."),
	{head: row{"written", "what it is"}, rows: lengthRows()},
	say("Between feet and inches stands a hyphen or nothing. With a space between them they are two values; with spaces on " +
		"both sides the hyphen takes one from the other: `7' - 6\"` is 6'-6\". A number has one decimal point and no exponent. A " +
		"double quote straight after a digit or a fraction is inches; any other opens a text, which the next one closes. In a text " +
		"`\\\"` is a quote and `\\\\` a backslash."),
	wrong(`let leg = 1,5m
`),
	terms(
		row{"22.5deg 22.5°", "angles: anticlockwise on the plan, 0 to plan-right, 90 upstage"},
		row{"1:12", "a slope: one up in twelve along"},
		row{"38kg 85lb", "weights"},
		row{"620kg/m3", "a density"},
	),
	example(`let tilt    = 22.5deg
let fall    = 1:12
let load    = 38kg + 85lb
let board   = 620kg/m3
`),
	say("`+ - * /` and brackets work on all of them, with the names of lets and the measures of other elements. Kinds are " +
		"checked: a length plus an angle is an error, a length times a length is an area. A plain number added to a length, or " +
		"compared with one, is a length in the set's unit. A length over a plain number is a length; to get a count, both need a " +
		"unit: `3600mm / 600mm`."),
	example(`let rise    = 150mm
let risers  = 3
let total   = risers * rise
let per_bay = (deck.height + 300mm) / 2
`),
	wrong(`let twist = 300mm + 15deg
`),
}}

// written lists lengths as they may be typed, with their millimetres.
var written = []struct {
	text string
	mm   float64
}{
	{"2400", 2400},
	{"2400mm", 2400},
	{"240cm", 2400},
	{"2.4m", 2400},
	{`18"`, 457.2},
	{"18in", 457.2},
	{"6'", 1828.8},
	{"6ft", 1828.8},
	{`7'6"`, 2286},
	{`7'-6 1/2"`, 2298.7},
	{`6 1/2"`, 165.1},
	{`3/4"`, 19.05},
	{`7′ - 6″`, 1981.2},
}

var listsChapter = page{topic: "lists", title: "Lists: several values on a line", blocks: []block{
	say("Where one value or one pair is wanted, arithmetic needs no brackets. In a list (`points`, `rises`, `goings`, `widths`, " +
		"the `shift` of a flight, `except`, a drawn line) values are parted by spaces, so that arithmetic stands in brackets, and a " +
		"sign that touches its number after a space belongs to it: `0 60 -40` is three values."),
	example(`steps climb
    starts  0, -3000 heading 90deg
    rises   140 165 150 (150 + 40)
    goings  300 320 280
    widths  1400 by -50
    shift   0 60 -40
`),
	say("Where a list has one value for each tread, a single value serves them all, and `1400 by -50` steps it from the first " +
		"on. A list of the wrong length is an error that gives both counts."),
	wrong(`steps climb
    starts  0, -3000 heading 90deg
    rises   140 165 150 190
    goings  300 320
    width   1200
`),
}}

var measuresChapter = page{topic: "measures", title: "Measures: values asked of other elements", blocks: []block{
	say("A number is typed once. Every attribute that holds one value can be asked of its element by its own word: `deck.height`, " +
		"`front.width`. Besides these:"),
	terms(
		row{".level", "the height of an element's underside above the floor"},
		row{".top", "the height of its top above the floor"},
		row{".risers .rise .total", "of steps: how many risers, the height of each where they are alike, the height of all"},
		row{".going .run", "of steps: the going where they are all alike, and the length on plan from the first riser to the last"},
		row{".rise .run .slope", "of a ramp: the height it climbs, its length on plan, the one over the other"},
		row{".heading", "of steps and ramps: the way they climb, an angle"},
		row{".length", "of a flat along its face, of a ramp and of steps on plan, of a drawn mark along its line"},
	),
	example(`platform bridge
    outline rect 1200 x 900
    at      0, 9000
    height  deck.top + 2 * front.rise

post prop
    at       0, 9000
    diameter 60
    height   bridge.level + front.total

mark run_off
    path     0,0 line (wall.length / 2), 0
    at       0, front.run - 2 * front.going
    turn     front.heading - 90deg
`),
}}

var pointsChapter = page{topic: "points", title: "Points: places, anchors, offsets, and places by tape", blocks: []block{
	say("A point is `x, y`: x from the centre line, positive to the right on the plan, y from the setting line, positive up the plan " +
		"(upstage). In a hall (`in quay_hall`) it counts from that hall's own axes."),
	say("An anchor is a place of another element, as it stands at first:"),
	terms(
		row{"deck.centre", "the middle of a rect, circle, ellipse or polygon; of any other outline its centre of area"},
		row{"deck.front .back .left .right", "the middle of that edge; of a round outline the point of its rim. The front edge looks " +
			"most nearly downstage before the piece's own turn, and turns with it; left and right are as drawn on the plan"},
		row{"deck.stage_left .stage_right", "the same by the performer's sides"},
		row{"deck.edge(3) deck.corner(2)", "edges and corners count anticlockwise, from the front edge and its plan-left end"},
		row{"wall.start .end .along(1200)", "of a thing made along a line"},
		row{"front.foot .landing", "of steps and ramps: the middle of the lower end, and of where they land"},
		row{"bollard.3.centre", "of one copy of a repeated element; without the number it is an error"},
	),
	example(`mark spike
    point   (deck.front + (0, -600))

post lamp
    at       bollard.3.centre + (0, 400)
    diameter 40
    height   1200
`),
	example(`dim deck.left to deck.right
dim deck.stage_left to deck.stage_right
dim deck.edge(3) to deck.corner(2)
dim wall.start to wall.along(1200)
dim front.foot to front.landing
dim bollard.3.centre to bollard.4.centre
dim deck to wall
`),
	say("An offset after an anchor is in the plan's axes (in a hall, in the hall's), in brackets; where several points may stand, so " +
		"that a list is wanted, the whole sum stands in brackets too."),
	say("A point can be placed by tape from two stations of the hall, or from two anchors: the two distances, and the side of the " +
		"line between them on which it lies (upstage, downstage, plan-left, plan-right)."),
	example(`mark trap
    point   A 5000 B 5200 upstage
`),
}}

var outlinesChapter = page{topic: "outlines", title: "Outlines and drawn lines", blocks: []block{
	terms(
		row{"rect 3600 x 2400", "along x and along y, about its middle"},
		row{"circle 900", "by its diameter, about its middle"},
		row{"ellipse 2400 x 1200", "about its middle"},
		row{"polygon 8 across 4800", "regular, from flat to flat (an even number of sides), or `corners 4800` by the circle through its corners; edge 1 faces front"},
		row{"points 0,0 1200,0 900,600", "corners, about the outline's own 0,0"},
		row{"path 0,0 line 1200,0 …", "a drawn line, about its own 0,0"},
		row{`svg "M0 0 H900 V400 Z"`, "SVG path data in millimetres, read as on paper (y down) and so turned over about its 0,0"},
		row{"sides 9012 7988 9005 8010 diagonal 12031", "a measured hall: its walls anticlockwise from the front wall, and the diagonal from that wall's plan-left end"},
	),
	example(`platform bow
    outline path 0,0 line 2400,0 2400,900
                 arc to 1200,1500 radius 1400 left
                 curve to 0,900 handles 800,1500 0,1300
                 close
    at      -6000, 0
    height  300
`),
	example(`platform pool
    outline ellipse 2400 x 1200
    at      -6000, 3000
    height  150

post bitt
    outline  polygon 6 corners 300
    at       6000, 3000
    height   500

shape sign
    outline   points 0,0 1200,0 1200,400 600,700 0,400
    thickness 12
    at        -6000, -2000
`),
	say("A drawn line goes on from where it has got to. Points and handles are places in the line's own axes, not steps:"),
	terms(
		row{"line P Q …", "straight to each point"},
		row{"arc to P radius 300 left", "a circular arc that turns to the left (or right) as one walks it; the short way round unless `long` is added"},
		row{"arc to P through Q", "the arc that passes through Q"},
		row{"curve to P handles C1 C2", "a cubic curve with its two handles"},
		row{"close", "back to the start; an outline closes with a straight line whether it says so or not, a mark only with it"},
	),
	wrong(`mark sweep
    path 0,0 arc to 1000,0 radius 400 left
`),
	say("The arc's chord is longer than twice its radius; the message gives the least radius."),
	example(`hall quay_hall
    outline sides 9012 7988 9005 8010 diagonal 12031
    station A -4000, 400
    station B  4000, 400

shape gull
    outline   svg "M0 0 C100 -80 200 -80 300 0 C200 -40 100 -40 0 0 Z"
    thickness 12
`),
}}

var placingChapter = page{topic: "placing", title: "Placing: where a piece stands", blocks: []block{
	say("`at` places the outline's middle (of drawn outlines their own 0,0), `turn` turns it about that place, anticlockwise. " +
		"`level` is the height of its underside above the floor; `top` gives the height of its top in its place. Without them it " +
		"stands on the floor at 0, 0."),
	example(`platform thrust
    outline rect 2400 x 1200
    at      0, -2000
    turn    15deg
    top     600
    height  150
`),
	say("`on OTHER` sets it on another element, which it goes along with: on steps it stands on the tread under its place, on a " +
		"ramp on the highest point under its footprint. A point after `at` is a place of that element."),
	example(`post lamp
    on       deck at centre + (1200, 0)
    diameter 40
    height   1800
`),
	say("`on WALL at 1500 level 1400` hangs it on a flat's face: so far along the face from P to the middle of the piece, its back " +
		"on the face."),
	example(`shape board
    outline   rect 600 x 400
    thickness 12
    on        wall at 1500 level 1400
`),
	say("`in HALL` counts its places from the hall's own axes: x from the middle, y from the front of the hall's outline, before the " +
		"hall's own turn."),
	example(`platform desk_riser
    outline rect 1200 x 900
    in      quay_hall
    at      -3000, 600
    height  200
`),
}}

var copiesChapter = page{topic: "copies", title: "Copies: repeat, stack, except and shift", blocks: []block{
	say("Copies are numbered from 1 and named `bollard.1`, `bollard.2` …; a copy that is left out keeps its number."),
	terms(
		row{"repeat 12 around P radius 4200 from 15deg", "on a circle, anticlockwise, 360°/12 apart, each facing out (its front " +
			"looks away from P) unless `facing in` or `facing same`; the piece's own turn is added"},
		row{"repeat 5 along kerb every 600", "along a drawn line or an element made along one, from its start, each facing as the " +
			"line runs; without `every` from end to end"},
		row{"repeat 4 by 600, 0", "each by one step in the plan's axes"},
		row{"stack 4", "on top of one another; with a repeat, round by round from the floor up"},
		row{"except 9 10", "leaves copies out"},
		row{"shift 3 by 0, 200", "moves one copy in the plan's axes"},
	),
	example(`post bollard
    repeat   12 around deck.centre radius 4200 from 15deg
    except   9 10
    shift    3 by 0, 200
    diameter 60
    height   700

platform crate
    outline  rect 600 x 400
    at       -5000, 1000
    height   150
    repeat   3 by 700, 0
    stack    4

post stake
    repeat   5 along kerb every 600
    diameter 40
    height   900
`),
}}

var positionsChapter = page{topic: "positions", title: "Positions: one piece in several places", blocks: []block{
	say("`also` gives another position of the same piece, which is built once. What stands on it goes along. Plans show other " +
		"positions with a long-dash double-dot line, tables name them `cart (scene 2)`. It does not go with `repeat` or `stack`."),
	example(`platform cart
    outline rect 1800 x 900
    at      -5000, 2000
    height  300
    also    "scene 2" at 2000, 9000 turn 90deg
    also    "strike" at -6500, 0
`),
}}

var limitsChapter = page{topic: "limits", title: "Limits: what is too much", blocks: []block{
	say("Each of these is an error that names it:"),
	terms(
		row{"10 000", "copies of one element, and the count of one part, board, length or stock box"},
		row{"200 000", "pieces of a set, copies and other positions counted; rows of a list"},
		row{"1000", "brackets within brackets"},
		row{"10 km", "from 0,0 to any place, and any length"},
	),
	wrong(`post forest
    diameter 60
    height   700
    repeat   10000000 by 10, 0
`),
	wrong(`platform island
    outline circle 25000m
    height  450
`),
	say("Of the errors in a run the first 20 are printed, sorted by place, with a count of the rest; `--format json` has them all."),
}}

var formsChapter = page{topic: "forms", title: "Forms: how the reference writes what may follow a word", blocks: []block{
	say("Small letters stand for themselves. `a|b` is a choice; `( … | … )` a choice of longer parts; `[ … ]` may be left out; " +
		"`{ … }` may stand any number of times. Parts in square brackets side by side may be typed in any order. Capital words " +
		"are values:"),
	terms(
		row{"VALUE", "one value, or arithmetic; see values"},
		row{"POINT", "x, y, an anchor, or a place by tape; see points"},
		row{"PAIR", "x, y"},
		row{"SIZE", "a x b"},
		row{"LIST", "values with spaces between, or one value with `by`; see lists"},
		row{"NUMBERS", "plain numbers with spaces between"},
		row{"POINTS", "points with spaces between"},
		row{"NAMES", "elements with commas between"},
		row{"OUTLINE", "see outlines"},
		row{"PATH", "a drawn line; see outlines"},
		row{"TEXT", "words in double quotes"},
		row{"NAME", "a new name"},
		row{"REF", "an element, or one of its copies: bollard.3"},
		row{"CARDS", "thicknesses, each after the name of a card or alone: wall 1.5 detail 0.3"},
		row{"RAW", "the rest of the line, in a form of its own: a date, a scale"},
	),
}}

var surroundingsChapter = page{topic: "surroundings", title: "Surroundings: the set in which the examples work", blocks: []block{
	say("Every example of this reference works below these lines. Where an example defines one of their names itself, its own " +
		"statement takes the place of theirs; an example that opens a set of its own stands alone. An attribute's line works in its " +
		"kind's example, in place of the lines that it does not go with and beside those that it needs. `harbour.markout`, where an " +
		"example includes it, holds one post."),
	example(Surroundings),
}}
