package notation

// Form says what may follow a word, in a small language that the reference prints as it stands:
//
//	repeat:  VALUE ( around POINT radius VALUE [from VALUE] [facing out|in|same] | along PATH|REF [every VALUE] | by PAIR )
//	height:  VALUE
//	opening: door|window|arch|hole [NAME] at VALUE size SIZE
//	station: NAME POINT
//
// An empty form is a flag: nothing follows. Lower-case words and = stand for themselves. `a|b` without spaces is a choice
// between words or values; ` | ` with spaces is a choice between sequences, in `( … | … )` or in the whole form; `[ … ]` may
// be left out; `{ … }` may stand any number of times. Parts in square brackets that stand next to each other may be typed
// in any order, each once. Capital words are values:
//
//	VALUE    one expression (a length, number, angle, slope or weight; its kind is checked by eval)
//	POINT    x, y; an anchor; an anchor plus an offset; or a place by tape (A 2310 B 1885 upstage):
//	         *Pair, *Ref, *Binary, *Paren, *Taped
//	PAIR     x, y: *Pair
//	SIZE     a x b, or a x b x c: *Size
//	LIST     values separated by spaces, or one value with `by` and a step, which may be a pair: *List
//	NUMBERS  plain numbers or copies' numbers, separated by spaces: *List
//	POINTS   points separated by spaces: *List, or *Floats for a long one of plain numbers
//	NAMES    elements separated by commas: *List of *Ref
//	OUTLINE  rect, circle, ellipse, polygon, points, svg, path, sides: *Outline
//	PATH     a drawn line, [path] x,y line … arc … curve …: *Path
//	TEXT     a quoted text: *Text
//	NAME     a new name: *Word
//	REF      an element, or one copy of it (bollard.3): *Ref
//	RAW      the rest of the line, read by the one who asked: *Raw
//	CARDS    thicknesses, each with the name of a card before it or none (wall 1.5 detail 0.3): *List of *Word and values in turn
//
// Capital words of I, V and X alone stand for themselves (class II).
//
// What is matched becomes Args, in the order of the text:
//
//   - A value's Key is the word that stands before it in the form, also where other values stand between: of `from VALUE VALUE`
//     both are under "from", of `NAME POINT` both under "". A key ends with its brackets.
//   - A word that is chosen (out|in|same), and a word after which nothing must follow ([dashed], face's left), is an Arg with a
//     *Word. Its Key is the word directly before it ("facing"), else itself ("dashed"). A chosen word is no key for what follows.
//   - Other words are keys alone, and leave no Arg.
//
// Which way a choice goes is decided by the next word: first a branch that begins with it, otherwise the branch whose value can
// begin so; where several can, the first of them that fits as a whole. A word of the form ends a list that stands before it.
type Form struct {
	source string
	root   *choice
	words  []string // every word of the form: lists end before them
	shapes bool     // an outline or a drawn line is in the form: lists end before their words too
}

// String returns the form as it is written.
func (f *Form) String() string { return f.source }

// Words returns the words of the form that stand for themselves, in their order.
func (f *Form) Words() []string { return f.words }

// choice is one or more sequences of which one stands.
type choice struct{ branches []sequence }

type sequence []item

// item is one part of a sequence: a word or value (or several to choose from), or a part in brackets.
type item struct {
	atoms    []atom
	group    *choice
	optional bool // [ … ]
	repeated bool // { … }
}

// atom is a word, or a value where word is empty.
type atom struct {
	word  string
	value valueForm
}

// word returns the word of an item that is one word and no choice.
func (it *item) word() (string, bool) {
	if len(it.atoms) == 1 && it.atoms[0].word != "" {
		return it.atoms[0].word, true
	}
	return "", false
}

func (it *item) raw() bool {
	return len(it.atoms) == 1 && it.atoms[0].word == "" && it.atoms[0].value == formRaw
}

func (it *item) skippable() bool { return it.optional || it.repeated }

// valueForm is one of the capital words.
type valueForm uint8

const (
	formValue valueForm = iota
	formPoint
	formPair
	formSize
	formList
	formNumbers
	formPoints
	formNames
	formOutline
	formPath
	formText
	formName
	formRef
	formRaw
	formCards
)

// valueForms lists the capital words with what an error message calls them.
var valueForms = [...]struct{ word, called string }{
	formValue:   {"VALUE", "a value"},
	formPoint:   {"POINT", "a point"},
	formPair:    {"PAIR", "a pair `x, y`"},
	formSize:    {"SIZE", "a size `a x b`"},
	formList:    {"LIST", "a value"},
	formNumbers: {"NUMBERS", "a number"},
	formPoints:  {"POINTS", "a point"},
	formNames:   {"NAMES", "the name of an element"},
	formOutline: {"OUTLINE", "an outline (rect, circle, ellipse, polygon, points, svg, path, sides)"},
	formPath:    {"PATH", "a drawn line"},
	formText:    {"TEXT", "a text in double quotes"},
	formName:    {"NAME", "a name"},
	formRef:     {"REF", "the name of an element"},
	formRaw:     {"RAW", "a value"},
	formCards:   {"CARDS", "a thickness"},
}
