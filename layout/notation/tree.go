// Package notation reads the geometry file's text into a tree and writes trees back as text. It knows
// the shape of statements and values; which kinds there are, and what attributes they take, it is told
// by tables (type Kind), which stand in package element.
package notation

import (
	"markout/layout/diag"
	"markout/layout/unit"
)

// Kind is the table of one statement word: an element kind, or set, let, include, keep, dim.
// The parser, the formatter, the reference and "did you mean" all read it.
type Kind struct {
	Word       string
	Named      bool   // an element: the word is followed by a new name
	Listed     bool   // a list of them may be named in place of one (ListedForm); Listed reads it
	Head       string // form of what follows the word (after the name), see CompileForm; empty for nothing
	Doc        string // one or two sentences
	Example    string // a whole working geometry file or fragment; the reference's test runs it
	Attributes []Attr
}

// Attr is one attribute a kind takes.
type Attr struct {
	Word     string
	Form     string // see CompileForm
	Several  bool   // may stand several times
	Doc      string
	Example  string // the attribute's line as it would be typed
	Sub      []Attr // attributes of the attribute (an opening's sill)
	Measured bool   // holds one value, so that it can be asked as NAME.word
	Wants    unit.Kind
}

// File is one parsed text.
type File struct {
	ID         diag.FileID
	Name       string
	Statements []*Statement
	Comments   []Comment
}

// Comment is a comment's text from its #, without the line end.
type Comment struct {
	Span diag.Span
	Text string
	Own  bool // alone on its line
}

// Statement opens in the first column.
type Statement struct {
	Span       diag.Span // the whole statement
	Word       string
	WordSpan   diag.Span
	Name       string // of an element or a let
	NameSpan   diag.Span
	Args       Args // of the head form
	Attributes []*Attribute
	// Bad says that an error stands against the statement's word, name or head, so that what lacks or does not fit is no news.
	// Word is then the word that was meant, where that could be guessed, else the word as typed, which no table knows. Name may
	// be empty, Args are; a name that is there is taken, so that what refers to it is no second error.
	Bad bool
}

// Attribute is one indented line under a statement, with what continues it.
type Attribute struct {
	Span     diag.Span
	Word     string
	WordSpan diag.Span
	Args     Args
	Sub      []*Attribute
	// Bad says that an error stands against the attribute's word or value: Word is the word that was meant, Args are empty.
	Bad bool
}

// Arg is one value matched by a form. Key is the literal word of the form that stands before it ("around",
// "radius"), empty where none does; a literal word that is chosen (from in|out|same, or optional on its own)
// is itself an Arg with its Key (the word before, or itself) and a *Word value.
type Arg struct {
	Key   string
	Value Node
}

// Args are the matched values in the order in which they stand.
type Args []Arg

// Get returns the first value under a key, nil where there is none.
func (a Args) Get(key string) Node {
	for i := range a {
		if a[i].Key == key {
			return a[i].Value
		}
	}
	return nil
}

// All returns every value under a key.
func (a Args) All(key string) []Node {
	var out []Node
	for i := range a {
		if a[i].Key == key {
			out = append(out, a[i].Value)
		}
	}
	return out
}

// Has reports whether a word or value stands under a key.
func (a Args) Has(key string) bool { return a.Get(key) != nil }

// Node is a value in the tree.
type Node interface{ Pos() diag.Span }

type (
	// Quantity is a literal: 2400, 7'-6 1/2", 22.5°, 1:12, 38kg. A bare number has Value.Kind Number.
	Quantity struct {
		Span  diag.Span
		Value unit.Value
	}
	// Ref is a name with what is asked of it: rise, front.rise, deck.front, bollard.3.centre, deck.edge(3), wall.along(1200).
	Ref struct {
		Span     diag.Span
		Name     string
		NameSpan diag.Span
		Copy     int // copy number written after the name, 0 for none
		CopySpan diag.Span
		Asks     []Ask // at most one where the text is right
	}
	// Ask is `.word` or `.word(argument)`.
	Ask struct {
		Span     diag.Span
		Word     string
		Argument Node // nil for none
	}
	// Unary is a minus before a value (a plus leaves no node).
	Unary struct {
		Span diag.Span
		X    Node
	}
	// Binary is X op Y with op one of + - * /.
	Binary struct {
		Span diag.Span
		Op   byte
		OpAt diag.Span
		X, Y Node
	}
	// Paren is a value in brackets.
	Paren struct {
		Span diag.Span
		X    Node
	}
	// Pair is `x, y` (in brackets, as an offset, it stands in a Paren).
	Pair struct {
		Span diag.Span
		X, Y Node
	}
	// Taped is a point placed by tape: `A 2310 B 1885 upstage`. A and B are references: a station's name, or an anchor.
	Taped struct {
		Span   diag.Span
		A, B   Node
		DA, DB Node
		Side   string // upstage, downstage, plan-left, plan-right
		SideAt diag.Span
	}
	// Size is `a x b` (two or three values).
	Size struct {
		Span   diag.Span
		Values []Node
	}
	// List is several values with spaces between.
	List struct {
		Span  diag.Span
		Items []Node
		By    Node // step: `1400 by -50`; nil for none
	}
	// Floats is a flat list of literal pairs in one unit: what a long `points` list becomes, so that a set of thousands of
	// outlines costs little. All are of Kind: X holds Numbers as typed, Lengths in millimetres. Pairs is set and the count is
	// even. At finds the place of one of the numbers.
	Floats struct {
		Span  diag.Span
		Kind  unit.Kind
		Pairs bool
		X     []float64
	}
	// Outline is a closed shape: rect, circle, ellipse, polygon, points, svg, path, sides.
	Outline struct {
		Span     diag.Span
		Word     string
		WordSpan diag.Span
		Args     Args  // rect, ellipse: Size under ""; circle: ""; polygon: count "", across|corners; points: List or *Floats ""; svg: Text ""; sides: List "" and "diagonal"
		Path     *Path // of a path
	}
	// Path is a drawn line: a start and steps.
	Path struct {
		Span  diag.Span
		Start Node
		Steps []Step
		Close bool // the word close ends it
	}
	// Step is one piece of a path.
	Step struct {
		Span   diag.Span
		Word   string // line, arc, curve
		Points []Node // line: one or more; arc, curve: the end
		Radius Node   // arc to E radius R left|right [long]
		Left   bool
		Right  bool
		Long   bool
		Via    Node // arc to E through Q
		C1, C2 Node // curve to E handles C1 C2
	}
	// Text is a quoted text with its escapes undone. At finds the place of a part of it.
	Text struct {
		Span    diag.Span
		Value   string
		offsets []int32 // of each byte of Value from Span.From, where the text has escapes
	}
	// Word is a literal word or a bare name standing where a form wants one.
	Word struct {
		Span  diag.Span
		Value string
	}
	// Raw is text that a form reads in its own way: a date, a scale.
	Raw struct {
		Span  diag.Span
		Value string
	}
)

func (n *Quantity) Pos() diag.Span { return n.Span }
func (n *Ref) Pos() diag.Span      { return n.Span }
func (n *Unary) Pos() diag.Span    { return n.Span }
func (n *Binary) Pos() diag.Span   { return n.Span }
func (n *Paren) Pos() diag.Span    { return n.Span }
func (n *Pair) Pos() diag.Span     { return n.Span }
func (n *Taped) Pos() diag.Span    { return n.Span }
func (n *Size) Pos() diag.Span     { return n.Span }
func (n *List) Pos() diag.Span     { return n.Span }
func (n *Floats) Pos() diag.Span   { return n.Span }
func (n *Outline) Pos() diag.Span  { return n.Span }
func (n *Path) Pos() diag.Span     { return n.Span }
func (n *Text) Pos() diag.Span     { return n.Span }
func (n *Word) Pos() diag.Span     { return n.Span }
func (n *Raw) Pos() diag.Span      { return n.Span }

// At returns the place of the bytes [from, to) of Value in the file.
func (n *Text) At(from, to int) diag.Span {
	from = min(max(from, 0), len(n.Value))
	to = min(max(to, from), len(n.Value))
	at := func(i int) int32 {
		switch {
		case i == len(n.Value):
			return n.Span.To - 1
		case n.offsets != nil:
			return n.Span.From + n.offsets[i]
		}
		return n.Span.From + 1 + int32(i)
	}
	sp := diag.Span{File: n.Span.File, From: at(from), To: at(from)}
	if to > from {
		sp.To = at(to-1) + 1
	}
	return sp
}
