package develop

import (
	"fmt"

	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
)

// Model is everything that a set is made of at one scale. Lengths are millimetres of the model, not of the set.
type Model struct {
	Scale  float64 // denominator: 25 for 1:25
	Pieces []Piece // element by element in the file's order, copy by copy, in the order of making
	Joints []Joint
	Rods   []Rod
	Base   []Footprint
	Small  []Small // what is too small to cut at this scale
	Notes  []Note  // where the model differs from the set, and what else a maker should know

	sources *diag.Sources
}

// Piece is one flat piece of card. Its places are millimetres on the card as it lies with the printed side up,
// 0,0 at the lower left of its box.
type Piece struct {
	Element    string // the copy that it belongs to: bollard.3
	Number, Of int    // deck-3/5 is number 3 of the 5 pieces of deck
	Name       string // front wall
	Card       string // the card's name, empty for the only one
	Thickness  float64
	Outline    geom.Region // what is cut, tabs included, openings cut through
	Edges      []Edge      // the edges that join others, with their treatment
	Folds      []Fold
	Rolls      []Roll
	Taper      *Taper // nil of what is not rolled to a cone
	Rims       []Rim  // the curved edges of a tapered piece
	Relief     []Relief
	Tabs       []Tab
	Grain      Grain
	Hidden     bool // printed on the side that is not seen, so drawn opposite-handed
	Lie        set.Lie
	Span       diag.Span // of the element's name in the text

	body body
}

// Label is the piece's number as it is printed: deck-3/5.
func (p *Piece) Label() string { return fmt.Sprintf("%s-%d/%d", p.Element, p.Number, p.Of) }

// Made returns where a place of the flat piece comes to lie in the made model, depth below the printed side: 0 is that
// side, Thickness the other. The axes are the set's at the model's scale. A place on a fold belongs to the panel on the
// right of it, on a seam to the nearer end.
func (p *Piece) Made(at geom.Point, depth float64) geom.Vec {
	if p.Hidden {
		at.X, depth = p.body.width-at.X, p.Thickness-depth
	}
	return p.body.made(geom.Point{X: at.X + p.body.low.X, Y: at.Y + p.body.low.Y}, depth)
}

// Line is a straight line on a piece.
type Line struct{ From, To geom.Point }

// Edge is an edge of a piece that joins another one, and how it is cut there. The cut line runs where the face that
// reaches further ends; the other face stops short of it by Front or Back, and the edge between is bevelled.
type Edge struct {
	Line        Line
	Treatment   Treatment
	Bevel       float64 // degrees off square, 0 for a square edge
	Front, Back float64 // how far the printed face and the other one stop short of the cut line
}

// Treatment says how two pieces are joined at an edge.
type Treatment string

const (
	Through Treatment = "butt, runs through"
	Captive Treatment = "butt, captive"
	Mitre   Treatment = "mitre"
	Stands  Treatment = "butt, stands under"
	Tabbed  Treatment = "tab"
	Open    Treatment = "open edge"
	Laid    Treatment = "laid on one another"
)

// Words says how the edge is cut: "butt, captive, bevel 12.5°".
func (e Edge) Words() string {
	if e.Bevel < 0.05 {
		return string(e.Treatment)
	}
	return fmt.Sprintf("%s, bevel %.1f°", e.Treatment, e.Bevel)
}

// Fold is a line along which the piece is half-cut and folded. The half-cut is on the side that opens, so that the
// panels keep their outside sizes.
type Fold struct {
	Line  Line
	Angle float64 // degrees between the panels' outward directions, more than 0
	Away  bool    // it folds away from the printed side
	Front bool    // half-cut on the printed side; otherwise on the other
}

// Words says on which side the fold is half-cut.
func (f Fold) Words() string { return halfCut(f.Front) }

func halfCut(front bool) string {
	if front {
		return "half-cut front"
	}
	return "half-cut back"
}

// Roll is a part of a piece, upright from From to To, that is rolled round an axis along the piece's y axis. It is as
// long as the middle of the card.
type Roll struct {
	From, To float64 // x
	Radius   float64 // of the seen side
	Sweep    float64 // degrees, more than 0
	Away     bool    // the printed side comes to lie on the outside of the bend
}

// Relief is a half-cut that lets card too thick to roll bend.
type Relief struct {
	Line  Line
	Front bool
}

// Words says on which side the relief cut is made.
func (r Relief) Words() string { return halfCut(r.Front) }

// Tab is folded along Base and glued behind the piece that it joins.
type Tab struct {
	Base  Line
	Angle float64 // degrees it is folded by, 0 for a lap
	Joint int
}

// Grain says how the card's grain is to lie.
type Grain string

const (
	Free  Grain = ""
	Along Grain = "along y" // along the piece's own y axis, the axis of its rolls: card rolls evenly round its grain
)

// Joint is where two pieces are glued. Its sides are the same line in the made model.
type Joint struct {
	Element   string
	Number    int       // in the order of making, counted in each element's copy: J3
	Treatment Treatment // how B is joined to A
	A, B      Side
}

// Label is the joint's number as it is printed: J3.
func (j Joint) Label() string { return fmt.Sprintf("J%d", j.Number) }

// Side is a joint's line on one of its pieces. Depth is 0 on the printed side, the thickness on the other.
type Side struct {
	Piece int // index in Model.Pieces
	Line  []geom.Point
	Depth float64
}

// tapered is the section of a rod that is turned to a cone.
const tapered = "tapered"

// Rod is a post too thin for a tube. Length counts from the base sheet, or from the upper face of the piece in whose hole
// it stands, and never what is in the hole.
type Rod struct {
	Element  string
	Section  string  // "round", "shaped" (with the outline of its footprint), or "tapered": a cone, glued on without a hole
	Diameter float64 // of a shaped one the lesser side of its box
	Length   float64
	Hole     bool   // it stands on the floor, in a hole of the base sheet
	Piece    string // label of the piece in whose hole it stands: deck-1/5; empty where it is no piece's

	stands int // index of its footprint
}

// Footprint is where a copy stands on the base sheet, or over it.
type Footprint struct {
	Element string
	Areas   []geom.Region // in the set's axes at the model's scale
	Level   float64       // of its underside above the base sheet
	Hole    bool          // cut through: a rod stands in it

	NotModelled bool // its place is shown and nothing is glued there: `model no`, or it cannot be made or is too small
}

// Small is a feature that is too small to cut at this scale.
type Small struct {
	Element string
	What    string
	Size    float64
}

// Note is something to know about a piece before it is made.
type Note struct{ Element, Words string }
