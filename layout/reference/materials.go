package reference

var materialsChapter = page{topic: "materials", title: "Materials: boards, lengths, stock boxes and parts", blocks: []block{
	say("A set says what its pieces are cut from. `markout cutting` then gives the boards, the lengths, the blocks from stock and " +
		"the weights. A board is given as it was measured: one that is sold as 18 mm may be 17.6, and then a deck is 0.4 lower."),
	example(`board "ply 18" 2440 x 1220 thick 17.6 density 620kg/m3 kerf 3 grain along count 6

length "batten 44" 44 x 69 long 4800 density 480kg/m3 kerf 3 count 20

stock box 600 x 400 x 150 count 40
`),
	say("`kerf` is what the saw takes, 3 mm unless said; `kerf 0` is a knife. `count` is how many there are, and without it there is " +
		"any number: what is short is said, and is no error. Without a density nothing of the material is weighed, and totals say " +
		"\"at least\". In a set in feet and inches the thickness and the kerf need their unit."),
	say("`of` says what an element is cut from. What has no `of` is cut from nothing, and is listed with its sizes."),
	example(`platform quay
    outline rect 2400 x 1200
    height  450
    deck    17.6
    of      "ply 18"
`),
	say("What is taken off, by kind:"),
	terms(
		row{"platform", "the deck's board, to its outline; `closed` adds the underside"},
		row{"steps", "of a flight the treads, from the nosing to behind the riser board that stands on them, the riser boards, both as long as " +
			"the flight is wide, and two strings; along a line the treads taper, and strings that turn with it are listed with their sizes alone. " +
			"What is not as thick as the board it is `of` (`riser_board 9`) comes from the board of the file that is"},
		row{"built blocks", "with stock boxes in the file the lids, and what is stacked under them; without any a lid that runs through, front " +
			"and back as wide as the block, ends between them; along a line the lids, and without stock boxes a wall under each straight edge"},
		row{"ramp", "its deck along the slope, and the two sides under it"},
		row{"flat", "one facing with its openings; of a curved one as it lies before it is bent"},
		row{"ring cone", "the top and the straight sides of a ring, the faces of a cone with sides"},
		row{"shape post", "the shape itself; the post's height off a length"},
	),
	say("A board is taken for the one that an attribute means (`deck 18`) up to a tenth off, and the difference is a caution. What is larger " +
		"than its board is split: whole boards first, seams away from narrow places. Frames, legs and braces are not taken off: `part` adds them."),
	say("A `part` is a piece that no element says. Of a length it has a length; of a board a length and a width, and `grain along` " +
		"lays its length along the board's grain, `across` its width; without it the part may lie either way."),
	example(`part rail of "batten 44" length 900 count 4

part patch of "ply 18" length 600 width 300 count 2 grain along
`),
	say("Many parts stand in a list beside the file, comma-separated: `name,of,length,width,count,grain` in any order, of which the " +
		"first three must be there. A cell may hold anything that stands for a value in the file (`7'-6\"`, `2 * rise`), and no " +
		"spreadsheet formula."),
	example("part from \"parts.csv\"\n"),
	say("What if there were four boards, or they were 18 thick? `--with \"ply 18.count=4\"`, `--with \"ply 18.thick=18\"` and " +
		"`--with rail.length=950` change a board, a length or a part of the file for one run; what stands in a list beside it is " +
		"changed there."),
	wrong(`part rail of "batten 44" length 5200
`),
	wrong(`part rail of "batten 44" length 900 width 69
`),
}}
