package set

import (
	"strconv"

	"markout/layout/geom"
)

func itoa(n int) string { return strconv.Itoa(n) }

// Outline is a closed shape as it was given.
type Outline struct {
	Form string // rect, circle, ellipse, polygon, points, path, svg, sides
	// Path is closed and anticlockwise. For straight forms (rect, polygon, points, sides) it starts at the front edge's plan-left
	// end, so that edge 1 is its first segment and corner 1 its start. A drawn one (path, svg) keeps the order in which it was
	// typed, turned to run anticlockwise only where Reversed says so.
	Path     *geom.Path
	Front    int        // index of the segment that is the front edge; 0 for straight forms
	Centre   geom.Point // middle of rect, circle, ellipse, polygon; centre of area of any other
	Reversed bool       // a drawn outline that was typed clockwise
}

// Shape is what an element is, in its own axes: x to its right, y to its back, z up from its underside.
// The concrete types are the kinds.
type Shape interface{ Kind() string }

type (
	// Hall is the room worked in.
	Hall struct {
		Outline  Outline
		Pillars  []Pillar
		Stations []Station
		Ceiling  float64 // height, 0 where not given
		TapeLong float64 // length of the longest tape, 0 where not given
		Class    int     // accuracy class of the tapes, MI-008: 1, 2, 3; 2 unless given
	}
	// Pillar stands in a hall, in the hall's own axes.
	Pillar struct{ Outline Outline } // placed in the hall's axes already
	// Station is a fixed point that tapes start from, in the hall's own axes.
	Station struct {
		Name string
		At   geom.Point
	}
	// Platform is a level.
	Platform struct {
		Outline Outline
		Height  float64
		Deck    float64 // board thickness, 0 where not given
		Closed  bool
	}
	// Steps is a flight or a row of loose blocks. Own axes: the middle of the first riser's foot at 0,0, climbing along +y,
	// x to the right as one climbs. With n risers there are n − 1 treads (the last riser lands).
	//
	// A flight along a path has its Line: y then counts along the line from its start, x square off it to the right, and Way turns
	// such a place into the flight's own axes. Its treads taper where the line is curved.
	Steps struct {
		Line       *geom.Path // nil for a straight flight; open, of lines and circular arcs, it goes up, and it is as long as the goings together
		LineIs     string     // which edge of the treads the line is: inner, centre or outer; the shifts say it too
		Rises      []float64  // n, from the foot
		Goings     []float64  // n − 1, a landing's depth in its place
		Widths     []float64  // n − 1 (one value where n is 1)
		Shifts     []float64  // n − 1: the tread's middle, sideways, right positive; the last riser has the last tread's
		Landings   []int      // tread numbers (tread k lies on riser k) that are landings
		Tread      float64    // board thickness
		RiserBoard float64
		Nosing     float64
		Blocks     bool    // loose blocks, each from the foot's level to its top
		Lid        float64 // board on a block
		Meets      string  // element the flight lands on, empty where it was placed by its foot
		DeckBoard  float64 // board thickness of that element's deck
		FootOn     string  // "floor", or the element whose top the foot stands on, or empty: the foot is in the air
		FootGap    float64 // foot level less the level of what lies under it
	}
	// Ramp rises along +y from 0,0, the middle of its lower edge; x to the right as one climbs.
	Ramp struct {
		Length, Rise, Width float64
		Meets               string
	}
	// Post is a mast, column or bollard.
	Post struct {
		Outline  Outline
		Height   float64
		Diameter float64 // 0 where it has an outline
	}
	// Ring is a kerb, coaming or round bench.
	Ring struct {
		Outer  Outline
		Inner  *Outline // nil for a solid one
		Height float64
	}
	// Panel is a `shape`: any flat piece to be cut. Lying, its own x, y are the plan's. Standing, its own x runs along P→Q,
	// its own z is the outline's y, its thickness goes to +y (behind).
	Panel struct {
		Outline   Outline
		Holes     []Outline
		Thickness float64
		Stands    bool
		Run       float64 // P to Q, of a standing one
		Brace     bool
	}
	// Cone is a tapered piece, round or with flat sides: a funnel, a spire, a planter. It stands about its own 0,0; of one
	// with sides, side 1 looks to the front, as of a polygon.
	Cone struct {
		Lower, Upper float64 // diameters, or sizes across flats where it has sides (twice the distance of a side from the middle); one may be 0
		Height       float64
		Sides        int // 0 for a round one, otherwise 3 or more
	}
	// Flat is a wall piece, straight or curved in plan. Own axes of a straight one: P at 0,0, its face along +x from P to Q at the
	// floor; thickness goes to +y, or to −y with `face left`. A curved one has its face's line at the floor in its own axes;
	// thickness goes to the left of the line, or to its right with `face left`.
	Flat struct {
		Length, Height, Thickness float64    // Length is that of the face's line
		Line                      *geom.Path // nil for a straight one; open, from P to Q
		FaceLeft                  bool
		Openings                  []Opening
	}
	// Opening is a hole through a flat. At is along the face from P to the edge nearer P.
	Opening struct {
		Word, Name    string // door, window, arch, hole; a name if given
		At, Sill      float64
		Width, Height float64
		Arch          float64 // rise of an arched head, 0 for a square one
		Hinge, Opens  string
	}
	// Mark is a spike, a pin to tape from, or a line on the floor.
	Mark struct {
		Points []geom.Point // of a mark of points, usually one
		Paths  []*geom.Path
		Dashed bool
		Corner bool // only corners are marked
	}
	// Reserve is a volume to keep clear.
	Reserve struct {
		Outline Outline
		Height  float64
	}
)

func (*Hall) Kind() string     { return "hall" }
func (*Platform) Kind() string { return "platform" }
func (*Steps) Kind() string    { return "steps" }
func (*Ramp) Kind() string     { return "ramp" }
func (*Post) Kind() string     { return "post" }
func (*Ring) Kind() string     { return "ring" }
func (*Panel) Kind() string    { return "shape" }
func (*Cone) Kind() string     { return "cone" }
func (*Flat) Kind() string     { return "flat" }
func (*Mark) Kind() string     { return "mark" }
func (*Reserve) Kind() string  { return "reserve" }
