package notation

// A form says what may follow a word, in a small language that the reference prints as it stands:
//
//	repeat:  VALUE ( around POINT radius VALUE [from VALUE] [facing out|in|same] | along PATH|REF [every VALUE] | by PAIR )
//	height:  VALUE
//	opening: door|window|arch|hole [NAME] at VALUE size SIZE
//	station: NAME POINT
//
// Lower-case words stand for themselves. `a|b` between two bare words is a choice between them; `( … | … )` is a
// choice between sequences; `[ … ]` may be left out; `{ … }` may stand any number of times.
// Capital words are values:
//
//	VALUE    one expression (a length, number, angle, slope or weight; its kind is checked by eval)
//	POINT    x, y; an anchor; an anchor plus an offset; or a place by tape (A 2310 B 1885 upstage)
//	PAIR     x, y
//	SIZE     a x b
//	LIST     values separated by spaces, or one value with `by`
//	NUMBERS  plain numbers or copies' numbers, separated by spaces
//	POINTS   points separated by spaces
//	NAMES    names of elements separated by commas
//	OUTLINE  rect, circle, ellipse, polygon, points, svg, path, sides
//	PATH     a drawn line: [path] x,y line … arc … curve …
//	TEXT     a quoted text
//	NAME     a new name
//	REF      the name of an element (or name.number)
//	RAW      the rest of the line, read by the one who asked
//	CARDS    card names with lengths: wall 1.5 detail 0.3
//
// A matched choice is decided by the next token alone: a literal word first, otherwise the branch that starts with a value.
type Form struct {
	source string
	root   any
}

// String returns the form as it is written.
func (f *Form) String() string { return f.source }
