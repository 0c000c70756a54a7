package develop

import (
	"fmt"
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// curved is a flat along a line while it is made: its face from the left-hand end of who looks at it, openings counted
// from there.
type curved struct {
	k        *work
	t        float64 // the card
	thick    float64 // from face to back
	h        float64
	face     course
	openings []set.Opening
	prism    *prism
	late     map[int]bool // joints of the back of one piece with the face, by their place in the list
}

// skin is one rolled or folded layer of a curved flat.
type skin struct {
	walls []*wall
	depth float64         // of its outer face behind the flat's face
	line  func(i int) int // the number, on the walls' loop, of the segment that stands for segment i of the face
}

// curvedFlat makes a flat along a line: one rolled layer where it is about as thick as the card (or two), otherwise a skin
// on the face and one on the back with strips on all edges between them. Lengths along the face are true; what is behind
// it is as long as it comes to be there.
func (k *work) curvedFlat(f *set.Flat) error {
	c := &curved{k: k, t: k.card.Thickness, thick: f.Thickness, h: f.Height, face: newCourse(f.Line, f.FaceLeft)}
	for _, o := range f.Openings {
		if f.FaceLeft {
			o.At = c.face.long() - o.At - o.Width
		}
		c.openings = append(c.openings, o)
	}
	if c.thick > 0 && c.face.cornersOnCurve() {
		k.note("a curve ends in a corner of its face: its back goes on there as the curve does; hold it against the next piece before it is glued")
	}
	c.prism = &prism{h: c.h, frame: plan, fold: k.folds(), meets: skinsRun}
	if c.thick >= 2*c.t+least {
		return c.hollow()
	}
	layers := layersOf(c.thick, c.t)
	if made := float64(layers) * c.t; c.thick > 0 && math.Abs(made-c.thick) > 0.05 {
		k.note("its thickness is %s of card, %.1f; true would be %.1f", plural(layers, "layer"), made, c.thick)
	}
	face, err := c.layer("face", 0)
	if err != nil || layers == 1 {
		return err
	}
	back, err := c.layer("back", c.t)
	if err != nil {
		return err
	}
	c.lay(face, back)
	return nil
}

// layer makes a layer of card whose outer face lies at a depth behind the flat's face.
func (c *curved) layer(name string, depth float64) (skin, error) {
	segs, err := c.face.beside(depth)
	if err != nil {
		return skin{}, err
	}
	l, err := course{segs: segs}.band(c.t)
	if err != nil {
		return skin{}, err
	}
	for i := len(segs); i < len(l.segs); i++ {
		l.open[i] = true
	}
	walls, err := c.raise(l, func(*loop, *wall) string { return name })
	if err != nil {
		return skin{}, err
	}
	c.number(walls, name)
	s := skin{walls: walls, depth: depth, line: func(i int) int { return i }}
	return s, c.pierce(s)
}

// lay joins the layer behind to the one before it, along the foot.
func (c *curved) lay(face, back skin) {
	for _, w := range back.walls {
		for _, f := range face.walls {
			var on, off []geom.Point
			for i := range f.spans {
				s := &f.spans[i]
				if _, there := w.flatOn(s.index, geom.Point{}); there == nil {
					continue
				}
				from, to := f.innerOf(i)
				for _, x := range f.samples(i, max(from, s.x0), min(to, s.x1()), nil) {
					y, _ := w.flatOn(s.index, s.at(x, c.t))
					on, off = append(on, geom.Point{X: y}), append(off, geom.Point{X: x})
				}
			}
			if len(on) > 0 {
				c.k.join(Laid, side(f.piece, off, c.t), side(w.piece, on, 0))
			}
		}
	}
}

// raise stands the walls on a band and returns them.
func (c *curved) raise(l *loop, name func(*loop, *wall) string) ([]*wall, error) {
	c.prism.name = name
	if err := c.k.raise(c.prism, l, 0, c.h, [2]int{-1, -1}, c.t); err != nil {
		return nil, err
	}
	var walls []*wall
	for _, s := range c.k.standing {
		walls = append(walls, s.wall)
	}
	c.k.standing = nil
	return walls, nil
}

// number tells the walls of one name apart.
func (c *curved) number(walls []*wall, name string) {
	var same []*wall
	for _, w := range walls {
		if c.k.drafts[w.piece].Name == name {
			same = append(same, w)
		}
	}
	for i, w := range same {
		if len(same) > 1 {
			c.k.drafts[w.piece].Name = fmt.Sprintf("%s, part %d", name, i+1)
		}
	}
}

// hollow makes two skins and what lies between them: ends, a strip along the top and one along the foot, and of each
// opening its jambs, its sill and its head.
func (c *curved) hollow() error {
	k, n := c.k, len(c.face.segs)
	c.late = map[int]bool{}
	l, err := c.face.band(c.thick)
	if err != nil {
		return err
	}
	if _, err := l.inset(c.t); err != nil {
		return err
	}
	k.tabDepth = min(tabDeep, c.thick-2*c.t)
	c.prism.near, c.prism.far = captive, captive
	walls, err := c.raise(l, func(l *loop, w *wall) string {
		switch i := w.spans[0].index; {
		case len(w.spans) > 1 && w.round:
			return "face, back and ends"
		case i < n:
			return "face"
		case i == endOf(n):
			return "right end"
		case i == startOf(n):
			return "left end"
		}
		return "back"
	})
	if err != nil {
		return err
	}
	c.number(walls, "face")
	c.number(walls, "back")
	skins := [2]skin{
		{walls, 0, func(i int) int { return i }},
		{walls, c.thick, func(i int) int { return backOf(n, i) }},
	}
	for _, s := range skins {
		if err := c.pierce(s); err != nil {
			return err
		}
	}
	if err := c.edges(skins); err != nil {
		return err
	}
	c.order(walls)
	return nil
}

// order puts pieces and joints in the order of making: the face, what stands on it, the ends, and the back last, so that
// all glue can be reached.
func (c *curved) order(walls []*wall) {
	k, n := c.k, len(c.face.segs)
	stage := make([]int, len(k.drafts)) // strips by themselves
	for i := range stage {
		stage[i] = 1
	}
	for _, w := range walls {
		switch i := w.spans[0].index; {
		case w.round || i < n:
			stage[w.piece] = 0
		case i == endOf(n) || i == startOf(n):
			stage[w.piece] = 2
		default:
			stage[w.piece] = 3
		}
	}
	pieces := make([]int, len(k.drafts)) // what comes where
	for i := range pieces {
		pieces[i] = i
	}
	slices.SortStableFunc(pieces, func(a, b int) int { return stage[a] - stage[b] })
	to := make([]int, len(pieces))
	drafts := make([]draft, len(pieces))
	for i, p := range pieces {
		to[p], drafts[i] = i, k.drafts[p]
	}
	joints := make([]int, len(k.joints))
	for i := range joints {
		j := &k.joints[i]
		j.a.Piece, j.b.Piece = to[j.a.Piece], to[j.b.Piece]
		joints[i] = i
	}
	when := func(i int) int { // pieces are put on in their order; what closes the hollow comes after all others
		at := max(k.joints[i].a.Piece, k.joints[i].b.Piece)
		switch {
		case k.joints[i].a.Piece == k.joints[i].b.Piece: // the seam
			at += 2 * len(drafts)
		case c.late[i]:
			at += len(drafts)
		}
		return at
	}
	slices.SortStableFunc(joints, func(a, b int) int { return when(a) - when(b) })
	sorted := make([]draftJoint, len(joints))
	number := make([]int, len(joints)+1)
	for i, j := range joints {
		sorted[i], number[j+1] = k.joints[j], i+1
	}
	for i := range drafts {
		for t := range drafts[i].Tabs {
			tab := &drafts[i].Tabs[t]
			tab.Joint = number[tab.Joint]
		}
	}
	k.drafts, k.joints = drafts, sorted
}
