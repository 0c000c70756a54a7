// Package set is the resolved set: elements, their copies and places, surfaces and floor marks.
// It is plain data in millimetres and degrees, each thing with its place in the text, and what can be said
// of it without choosing a page or a view. Everything downstream of the text reads it and nothing changes it.
package set

import (
	"image"

	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/table"
	"markout/layout/unit"
)

// Set is one whole set.
type Set struct {
	Name       string
	Production string
	Letter     string // issue letter; empty for a trial
	Date       string // of the issue, 2006-01-02; empty for none
	Trial      bool   // values were changed for this run, or there is no issue line
	With       []string
	Units      unit.System
	Scale      float64 // denominator of the card model's scale: 25 for 1:25; 0 where none is given
	ScaleText  string  // as people write it: "1:25", `1/4" = 1'-0"`
	Cards      []Card
	Sides      string // "stage", "house" or "camera"
	Title      TitleBlock
	Span       diag.Span

	Elements []*Element // in the file's order, halls among them
	Hall     *Element   // the one worked in; nil where there is none
	Keeps    []Keep
	Dims     []Dim

	Boards  []Board // what pieces are cut from, each in the file's order
	Lengths []Length
	Stock   []StockBox
	Parts   []Part

	// Called says of elements that an earlier issue calls otherwise what it calls them, by their names; nil without an earlier issue.
	Called map[string]string
	// Tags are the numbers by which an earlier issue knows pieces overhead, by the names that they have now; nil likewise.
	Tags map[string]int

	Sources *diag.Sources
	Files   []SourceFile      // every file read, in the order read
	Said    []diag.Diagnostic // cautions of the files' readers, each at its place: what of artwork is not drawn as it stands
}

// SourceFile is a file that was read and the SHA-256 of its bytes.
type SourceFile struct {
	Name   string // as it was opened, with slashes: the main file as typed, an included one by its path from there
	SHA256 [32]byte
	Text   []byte // nil for a picture made of pixels
	// Pixels is the size of a picture made of pixels, as it is stored; its name, size and digest serve in its place.
	Pixels image.Point
	Bytes  int64
}

// TitleBlock holds the fields of ISO 7200 that a person fills in.
type TitleBlock struct{ Drawn, Checked, Approved, Number, Owner string }

// Card is a named card with its thickness in millimetres.
type Card struct {
	Name      string
	Thickness float64
}

// Keep is a distance that must not be less. A and B name elements (with a copy's number where one is meant).
type Keep struct {
	A, B    string
	AtLeast float64
	Span    diag.Span
}

// Dim is a distance that people want to see.
type Dim struct {
	A, B Anchor
	Span diag.Span
}

// Anchor is a resolved place with the words it was written in.
type Anchor struct {
	Words   string // "deck.front"
	Element string // the element it belongs to, empty for a bare point
	Whole   bool   // the whole element is meant, not one place of it
	At      geom.Point
}

// Element is one named thing of the set.
type Element struct {
	Name     string
	Kind     string // "platform"
	Span     diag.Span
	NameSpan diag.Span
	Spans    map[string]diag.Span // of its attributes by word, the first where several
	Shape    Shape
	Copies   []Copy
	Notes    []string
	Tape     *Tape
	FullSize []string // views wanted on full-size paper: floor, face, side
	Material string   // name of a board or length that it is made of; empty where not said
	Model    string   // how it is modelled: "no", "rod", "tube", the name of a card, or empty
	Lie      Lie      // how its pieces may lie on a sheet
	Numbered bool     // it has a repeat or a stack, so that even an only copy carries its number
}

// Tape is the tape an element is laid with.
type Tape struct {
	Colour string
	Width  float64
}

// Copy is one of a repeated element, or the only one, number 1.
type Copy struct {
	Number int
	Places []Place // Places[0] is the base
}

// Place is where a copy stands.
type Place struct {
	Position string // "scene 2" of an `also`; empty for the base
	Frame    geom.Frame
	In       string    // room or hall whose axes it was placed in
	On       string    // element it sits on
	Over     *Overhead // the turn of the overhead room it is in, Frame has made it; nil for what stands the right way up
	Below    float64   // how far it reaches below its own 0,0, of what hangs upside down
}

// Level returns the height of the underside above the floor: of what hangs upside down, of its lowest point.
func (p Place) Level() float64 { return p.Frame.T.Z - p.Below }

// Upright returns the frame before the turn of the room overhead: where the piece is dressed and measured.
func (p Place) Upright() geom.Frame {
	if p.Over == nil {
		return p.Frame
	}
	return p.Frame.Then(p.Over.Turn)
}

// Repeated reports whether e's copies carry numbers.
func (e *Element) Repeated() bool {
	return len(e.Copies) != 1 || e.Copies[0].Number != 1 || e.Numbered
}

// CopyName returns the name of a copy as people and tables use it: bollard.3, or deck.
func (e *Element) CopyName(c Copy) string {
	if !e.Repeated() {
		return e.Name
	}
	return e.Name + "." + itoa(c.Number)
}

// Surface is something that can be stood on: an outline on the plan and the plane z = A + Bx + Cy over it, in the set's axes.
type Surface struct {
	Region  geom.Region
	A, B, C float64
	Owner   string
}

// Z returns the height at p.
func (s Surface) Z(p geom.Point) float64 { return s.A + s.B*p.X + s.C*p.Y }

// SideNames returns the letters and words of the two sides of the centre line.
// `sides stage`: plan-right is stage left, as seen by a performer who faces the audience.
func (s *Set) SideNames() table.Sides {
	switch s.Sides {
	case "house":
		return table.Sides{Plus: "R", Minus: "L", PlusWord: "HOUSE RIGHT", MinusWord: "HOUSE LEFT", Below: "AUDIENCE"}
	case "camera":
		return table.Sides{Plus: "R", Minus: "L", PlusWord: "CAMERA RIGHT", MinusWord: "CAMERA LEFT", Below: "CAMERA"}
	}
	return table.Sides{Plus: "L", Minus: "R", PlusWord: "STAGE LEFT", MinusWord: "STAGE RIGHT", Below: "AUDIENCE"}
}

// Find returns the element of that name, nil where there is none.
func (s *Set) Find(name string) *Element {
	for _, e := range s.Elements {
		if e.Name == name {
			return e
		}
	}
	return nil
}
