package develop

import (
	"fmt"
	"math"
	"slices"

	"markout/layout/diag"
	"markout/layout/geom"
)

const (
	// Backed is a butt at a seam with a strip of the same card glued behind it, a piece of its own.
	Backed Treatment = "butt, strip behind"
	// Edged is a butt at a seam that has no room for a strip, or that the layer which it is laid on holds.
	Edged Treatment = "butt, edge to edge"
	// Lapped is a seam of card that folds: a tab of the one part is glued behind the other.
	Lapped Treatment = "lap"
)

// Split returns the model with every piece that is larger than a sheet cut into parts that fit: a sheet has width × height
// inside, of which gap is kept free along each edge, and its grain runs along the longer side. A piece is as large as it
// is at the best of the turns that its Lie and its Grain allow. m stays as it is.
//
// Seams are straight, square to the card's own x or y, and lie away from openings, corners, folds, ends of tabs and
// rolls, and from where the piece is thin; of such places the one is taken that cuts the least card, then the one that
// leaves the parts most alike (common practice, no source). Card up to 0.6 mm is lapped: the part before the seam has a tab
// that is glued behind the other. Thicker card is butted, with a strip behind the seam, which becomes a piece of its own
// after the parts; layers of card are not cut at the same place and hold one another. A seam comes before the joints of
// its parts in the order of making. Parts are numbered and named in their order, and what is said of the piece is said of
// them.
//
// The areas of the parts without their tabs add up to that of the piece without its own. The list holds, at the element's
// name, what cannot be cut sensibly, with the sheet that would hold it; the element's pieces then stay whole.
func Split(m *Model, width, height, gap float64) (*Model, *diag.List) {
	list := &diag.List{Sources: m.sources}
	s := &splitter{model: m, list: list, w: width - 2*gap, h: height - 2*gap, gap: gap, up: height > width}
	s.take()
	for k := 0; k < len(s.order); k++ {
		for { // the first part takes the place of the whole
			if whole := s.order[k]; !s.tooLarge(whole) || !s.divide(k) {
				break
			}
		}
	}
	return s.give(), list
}

// splitter is a model while its pieces are cut. Pieces are known by their place in the list, which only grows.
type splitter struct {
	model  *Model
	list   *diag.List
	w, h   float64
	gap    float64
	up     bool
	pieces []splitPiece
	order  []int // of making: indices of pieces
	joints []splitJoint
}

// splitPiece is a piece, or a part of one, or a strip.
type splitPiece struct {
	Piece
	of     int  // the piece of the model that it is, or is a part of
	strip  bool // it was not there before
	refuse bool // it stays as it is
	layer  bool // laid on another
	box    *space
}

// splitJoint is a joint or what became of one. Tabs know their joint by from.
type splitJoint struct {
	Joint
	from int
}

// take reads the model.
func (s *splitter) take() {
	for i, p := range s.model.Pieces {
		d := draft{p}.clone()
		s.pieces = append(s.pieces, splitPiece{Piece: d.Piece, of: i})
		s.order = append(s.order, i)
	}
	for i, j := range s.model.Joints {
		s.joints = append(s.joints, splitJoint{j, i})
		if j.Treatment == Laid {
			s.pieces[j.A.Piece].layer, s.pieces[j.B.Piece].layer = true, true
		}
		for _, side := range [2]Side{j.A, j.B} {
			p := &s.pieces[side.Piece]
			for t := range p.Tabs {
				// Tabs are told apart by the joint's number in the copy; here by its place in the list.
				if s.model.Pieces[side.Piece].Tabs[t].Joint == j.Number {
					p.Tabs[t].Joint = i
				}
			}
		}
	}
}

// divide cuts the piece at place k of the order once. It is false, and says why, where it cannot be.
func (s *splitter) divide(k int) bool {
	id := s.order[k]
	p := &s.pieces[id].Piece
	lap := 0.0
	if p.folds() {
		lap = lapDeep
	}
	r := s.roomFor(p, lap)
	if r.count > mostParts {
		s.refuse(id, "a part that fits is too small to be of use")
		return false
	}
	b := p.Outline.Bounds()
	axes := []bool{}
	if b.W() > r.w+fits {
		axes = append(axes, true)
	}
	if b.H() > r.h+fits {
		axes = append(axes, false)
		if b.H()/r.h > b.W()/r.w {
			slices.Reverse(axes)
		}
	}
	n := netOf(p)
	for _, upright := range axes {
		most := r.h
		if upright {
			most = r.w
		}
		o := outlookOf(p, n, upright, s.seamsBeside(id, upright))
		line, ok := o.seam(most, lap, partLeastOf(p.Thickness))
		if !ok {
			continue
		}
		if d, err := divide(p, line); err == nil {
			s.put(k, d)
			return true
		}
	}
	s.refuse(id, "no straight seam divides it")
	return false
}

func (p *Piece) folds() bool { return p.Thickness <= foldable+geom.Tolerance }

// refuse says that a piece cannot be cut, and leaves it, and its other parts, as they are.
func (s *splitter) refuse(id int, why string) {
	of := s.pieces[id].of
	for i := range s.pieces {
		if s.pieces[i].of == of {
			s.pieces[i].refuse = true
		}
	}
	whole := &s.model.Pieces[of]
	b := whole.Outline.Bounds()
	w, h := b.W(), b.H()
	if turns := whole.Turns(s.up); len(turns) > 0 && quarter(turns[0]) {
		w, h = h, w
	}
	up := func(x float64) string { return number(math.Ceil((x+2*s.gap)*10-1e-6) / 10) }
	list := fmt.Sprintf("%s of `%s`, %s x %s, does not fit a sheet of %s x %s and cannot be cut to fit it: %s", whole.Name, whole.Element,
		number(math.Ceil(b.W()*10-1e-6)/10), number(math.Ceil(b.H()*10-1e-6)/10), number(s.w+2*s.gap), number(s.h+2*s.gap), why)
	s.list.Hintf(whole.Span, list, "a sheet of %s x %s, inside its margins, would hold it whole", up(w), up(h))
}

// put takes the parts into the place of the whole, shares its joints and adds those of the seam.
func (s *splitter) put(k int, d *divided) {
	id := s.order[k]
	whole := s.pieces[id]
	ids := make([]int, len(d.parts))
	moved := make([]geom.Point, len(d.parts))
	seams := s.seams(&whole, d)
	for i := range d.parts {
		part := &d.parts[i]
		part.tabbed(d.tabs[i])
		moved[i] = part.settled()
		ids[i] = len(s.pieces)
		s.pieces = append(s.pieces, splitPiece{Piece: *part, of: whole.of, layer: whole.layer})
	}
	s.order = slices.Replace(s.order, k, k+1, ids...)
	on := func(side *Side, part int, line []geom.Point) {
		side.Piece = ids[part]
		side.Line = make([]geom.Point, len(line))
		for i, q := range line {
			side.Line[i] = q.Add(moved[part])
		}
	}
	s.share(d, id, &whole.Piece, on, func(j *Joint) (own, other *Side) { return &j.A, &j.B })
	s.share(d, id, &whole.Piece, on, func(j *Joint) (own, other *Side) { return &j.B, &j.A })
	first := slices.IndexFunc(s.joints, func(j splitJoint) bool { return slices.Contains(ids, j.A.Piece) || slices.Contains(ids, j.B.Piece) })
	if first < 0 {
		first = s.endOf(whole.Element)
	}
	for i := range seams {
		for _, side := range [2]*Side{&seams[i].A, &seams[i].B} {
			on(side, side.Piece, side.Line)
		}
	}
	s.joints = slices.Insert(s.joints, first, seams...)
	s.strips(&whole, d, ids, first+len(seams), k)
}

// share gives the parts of a divided piece the joints that it had on one of their sides.
func (s *splitter) share(d *divided, id int, whole *Piece, on func(*Side, int, []geom.Point), sides func(*Joint) (own, other *Side)) {
	var joints []splitJoint
	for _, j := range s.joints {
		own, other := sides(&j.Joint)
		if own.Piece != id {
			joints = append(joints, j)
			continue
		}
		for _, r := range d.runs(whole, *own, &s.pieces[other.Piece].Piece, *other) {
			n := j
			own, other := sides(&n.Joint)
			on(own, r.part, r.own)
			other.Line = r.other
			joints = append(joints, n)
		}
	}
	s.joints = joints
}

// endOf is the place in the list after the last joint of a copy.
func (s *splitter) endOf(element string) int {
	for i := len(s.joints) - 1; i >= 0; i-- {
		if s.joints[i].Element == element {
			return i + 1
		}
	}
	return len(s.joints)
}

// seams prepares the joints along the seam's chords, and the edges and laps of the parts there. Their sides name parts,
// and their places are the whole's.
func (s *splitter) seams(whole *splitPiece, d *divided) []splitJoint {
	var out []splitJoint
	for _, c := range d.chords {
		how := Edged
		switch {
		case whole.folds():
			how = Lapped
		case !whole.layer && whole.body.bent == nil:
			if b := s.backings(whole, d.line, c); len(b) > 0 {
				d.backings = append(d.backings, b)
				how = Backed
			}
		}
		mid := c.From.Lerp(c.To, 0.5)
		a, b := d.partAt(0, mid), d.partAt(1, mid)
		from := s.newJoint(len(out))
		for _, part := range [2]int{a, b} {
			d.parts[part].Edges = append(d.parts[part].Edges, Edge{Line: c, Treatment: how})
		}
		if how == Lapped {
			for _, base := range d.bases(&whole.Piece, c) {
				if t, ok := lapOn(base, from, whole.Hidden); ok {
					d.tabs[a] = append(d.tabs[a], t)
				}
			}
		}
		depth := 0.0
		if whole.Hidden {
			depth = whole.Thickness
		}
		out = append(out, splitJoint{Joint{
			Element: whole.Element, Treatment: how,
			A: Side{Piece: a, Line: []geom.Point{c.From, c.To}, Depth: depth}, B: Side{Piece: b, Line: []geom.Point{c.From, c.To}, Depth: depth},
		}, from})
	}
	return out
}

// newJoint is the number by which tabs know the next new joint but so many.
func (s *splitter) newJoint(ahead int) int {
	n := len(s.model.Joints)
	for _, j := range s.joints {
		n = max(n, j.from+1)
	}
	return n + ahead
}
