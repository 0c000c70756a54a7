package set

import "markout/layout/geom"

// Turned is how a room hangs overhead.
type Turned uint8

const (
	Upright    Turned = iota // it stands on its floor
	Lengthways               // turned over about its middle line from front to back: left and right change places
	Crossways                // turned over about its middle line from side to side: front and back change places
	Mirrored                 // neither: every piece is made opposite-handed
)

var turnedWords = [...]string{"upright", "turned lengthways", "turned crossways", "mirrored"}

// String returns the words of the text.
func (t Turned) String() string { return turnedWords[t] }

// Room is an interior. Own axes: x from the middle of its outline's box, y from that box's front, z up from its floor. What is in it is
// placed the right way up in these axes; of a room overhead it then makes the room's turn.
type Room struct {
	Outline  Outline
	Turned   Turned
	Overhead float64   // level of its floor where it hangs, above the set's 0
	Stand    float64   // level of the floor that people walk on beneath it
	Headroom float64   // wanted above that floor; 0 where not said
	Stations []Station // on the walking floor, own axes, as the room lies on the plan
	Panels   []Section // that it is hung in
}

// Section is a part of a room that is hung by itself: its outline in the room's own axes, upright.
type Section struct {
	Name    string
	Outline Outline
}

// Depth returns the room's size from front to back.
func (r *Room) Depth() float64 { return r.Outline.Path.Bounds().H() }

// Turn returns what the room does with a place in its own axes (u across from the middle line, v from the front wall, w up from the
// floor; depth D, overhead floor at H): lengthways u → −u, crossways v → D − v, mirrored neither; w → H − w in all three. Made
// twice it gives the start. Of an upright room it is the identity.
func (r *Room) Turn() geom.Frame {
	f := geom.Identity()
	switch r.Turned {
	case Upright:
		return f
	case Lengthways:
		f.R[0][0] = -1
	case Crossways:
		f.R[1][1], f.T.Y = -1, r.Depth()
	}
	f.R[2][2], f.T.Z = -1, r.Overhead
	return f
}

// Overhead is the turn that a room has made of a piece in it.
type Overhead struct {
	Room     string
	Mirrored bool
	Turn     geom.Frame // in the set's axes; made twice it gives the start
}

// Known says how well a weight is known.
type Known uint8

const (
	Unknown Known = iota
	About
	Measured
)

var knownWords = [...]string{"unknown", "about", "measured"}

// String returns the word of the contract: unknown, about, measured.
func (k Known) String() string { return knownWords[k] }

// Dressing is furniture, a prop, a practical.
type Dressing struct {
	Outline  Outline
	Height   float64
	Weight   float64 // kilograms of one piece; 0 where Unknown
	WeightIs Known
	Lot      float64      // kilograms of all copies together where that is what was weighed; Weight is then its share
	Fixings  []geom.Point // places that it is fixed at, in its own axes
	Count    int          // of fixings, where no places are given
	Loose    bool         // it is not fixed to what it stands on
	Soft     bool         // cloth, paper, cushions: it falls out of shape when it is turned over
	Tag      int          // of copy 1; the others follow
}

// Walk is a way that someone takes. A Path is in the walk's own axes, which lie in those of the room it is in as the room lies on the plan: a
// walk is not turned over.
type Walk struct {
	Path  *geom.Path // nil where Over says the way
	Over  []Foothold
	Tall  float64
	Wide  float64
	Reach float64
}

// Foothold is one piece that a walk goes over, in the order of the walk.
type Foothold struct {
	Element string
	Copy    int
}

func (*Room) Kind() string     { return "room" }
func (*Dressing) Kind() string { return "dressing" }
func (*Walk) Kind() string     { return "walk" }
