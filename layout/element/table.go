package element

import (
	"strings"

	"markout/layout/notation"
	"markout/layout/unit"
)

// The attributes that many kinds take, in the order in which the reference lists them.
var (
	atRow = notation.Attr{Word: "at", Form: "POINT", Example: "at 0, 3600",
		Doc: "Where the piece's own 0,0 stands: the middle of a rect, circle, ellipse or polygon, the 0,0 of a drawn outline. Without it, 0, 0."}
	turnRow = notation.Attr{Word: "turn", Form: "VALUE", Example: "turn 30deg", Measured: true, Wants: unit.Angle,
		Doc: "Turns the piece about its own 0,0, anticlockwise on the plan. At turn 0 its front looks downstage."}
	levelRow = notation.Attr{Word: "level", Form: "VALUE", Example: "level 450", Measured: true, Wants: unit.Length,
		Doc: "The height of its underside above the floor."}
	topRow = notation.Attr{Word: "top", Form: "VALUE", Example: "top 4400", Measured: true, Wants: unit.Length,
		Doc: "The height of its top above the floor, in place of `level`."}
	inRow = notation.Attr{Word: "in", Form: "REF", Example: "in quay_hall",
		Doc: "The hall whose own axes its places count from: x from the middle, y from the front of the hall's outline, before the hall's own turn."}
	onRow = notation.Attr{Word: "on", Form: "REF [at POINT|VALUE [level VALUE]]", Example: "on deck at centre + (200, 0)",
		Doc: "What it sits on, and goes with: on steps the tread under its place, on a ramp the highest point under its footprint. `on WALL at 1500 level 1400` hangs it on a flat's face, so far from P to the middle of its width, its back on the face."}
	repeatRow = notation.Attr{Word: "repeat", Form: "VALUE ( around POINT radius VALUE [from VALUE] [facing out|in|same] | along PATH|REF [every VALUE] | by PAIR )", Example: "repeat 12 around 0, 3600 radius 4200 from 15deg",
		Doc: "Copies of it, numbered from 1. `around` goes anticlockwise, 360°/n apart, each facing out unless said; `along` starts at the line's start and spreads to its end unless `every` says how far apart, each facing the way the line runs; `by` goes on by one step."}
	stackRow = notation.Attr{Word: "stack", Form: "VALUE", Example: "stack 4",
		Doc: "So many on top of one another; with `repeat`, numbered round by round from the floor up."}
	exceptRow = notation.Attr{Word: "except", Form: "NUMBERS", Example: "except 9 10",
		Doc: "Copies to leave out; the others keep their numbers."}
	shiftRow = notation.Attr{Word: "shift", Form: "VALUE by PAIR", Several: true, Example: "shift 3 by 0, 200",
		Doc: "Moves one copy on the plan."}
	alsoRow = notation.Attr{Word: "also", Form: "TEXT at POINT [turn VALUE] [level VALUE]", Several: true, Example: `also "scene 2" at 1200, 3000 turn 30deg`,
		Doc: "Another position of the same piece; what sits on it goes along. Not with `repeat` or `stack`."}
	noteRow = notation.Attr{Word: "note", Form: "TEXT", Several: true, Example: `note "screwed from below"`,
		Doc: "Words for whoever builds or lays it."}
	tapeRow = notation.Attr{Word: "tape", Form: "TEXT [VALUE]", Example: `tape "white" 25mm`,
		Doc: "The tape it is laid with, and the tape's width."}
)

// fullSize is the row of `full-size` with the views that a kind has.
func fullSize(views string) notation.Attr {
	first, _, _ := strings.Cut(views, "|")
	return notation.Attr{Word: "full-size", Form: views + " { " + views + " }", Example: "full-size " + first,
		Doc: "The views wanted as full-size paper: `floor` the footprint, `face` the piece as it is cut, `side` the profile that a carpenter cuts."}
}

// sized is a row of one length.
func sized(word, example, doc string) notation.Attr {
	return notation.Attr{Word: word, Form: "VALUE", Example: example, Doc: doc, Measured: true, Wants: unit.Length}
}

var (
	outlineRow = notation.Attr{Word: "outline", Form: "OUTLINE", Example: "outline rect 2400 x 1200",
		Doc: "Its outline on the plan: rect, circle, ellipse, polygon, points, svg, path, or the sides of a measured hall."}
	heightRow = sized("height", "height 450", "How far it reaches above its underside.")
)

// freely are the rows of a piece that stands anywhere.
func freely(views string) []notation.Attr {
	return append([]notation.Attr{atRow, turnRow}, placed(views)...)
}

// placed are the rows of a piece whose place its own attributes say.
func placed(views string) []notation.Attr {
	rows := []notation.Attr{levelRow, topRow, inRow, onRow, repeatRow, stackRow, exceptRow, shiftRow, alsoRow, noteRow, tapeRow, fullSize(views)}
	return append(rows, made...)
}

// kind joins a kind's own rows with those it shares.
func kind(word, doc, example string, own []notation.Attr, shared []notation.Attr) *notation.Kind {
	return &notation.Kind{Word: word, Named: true, Doc: doc, Example: example, Attributes: append(own, shared...)}
}

// orList says of a kind that a list of pieces may be named in place of one.
func orList(k *notation.Kind) *notation.Kind {
	k.Listed = true
	return k
}
