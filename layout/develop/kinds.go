package develop

import (
	"fmt"
	"math"
	"slices"

	"markout/layout/geom"
	"markout/layout/set"
)

// frontFirst is the order in which upright walls on a plan run through: the one nearer the front.
func frontFirst(s geom.Segment) float64 {
	return math.Round((s.From.Y+s.To.Y)/2/geom.Tolerance/10) * geom.Tolerance * 10
}

// topsFirst is the order in which the walls of an elevation or a section run through: the one that looks up most.
func topsFirst(s geom.Segment) float64 { return math.Round(-outwardOf(s).Y*1e6) * 1e-6 }

// outwardOf is the direction away from the material at the middle of a segment.
func outwardOf(s geom.Segment) geom.Point { return s.Tangent(0.5).Left().Mul(-1) }

// towards names the direction that a wall of one straight span looks in, within a degree; empty where there is none.
func towards(w *wall, names [4]string) string {
	if len(w.spans) != 1 || w.spans[0].seg.Kind != geom.Line {
		return ""
	}
	o := outwardOf(w.spans[0].seg)
	for i, d := range [4]geom.Point{{Y: -1}, {X: 1}, {Y: 1}, {X: -1}} {
		if o.Dot(d) > math.Cos(math.Pi/180) {
			return names[i]
		}
	}
	return ""
}

// wallName names a wall of a plan.
func wallName(l *loop, w *wall) string {
	name := towards(w, [4]string{"front wall", "right wall", "back wall", "left wall"})
	switch {
	case name != "" && alone(l, w):
	case w.round:
		name = "wall"
	default:
		name = fmt.Sprintf("wall at edge %d", l.edge[w.first]+1)
	}
	if l.hole >= 0 {
		name = "inner " + name
	}
	return name
}

// alone reports whether no other segment of the loop looks the same way as the wall's.
func alone(l *loop, w *wall) bool {
	o, n := outwardOf(w.spans[0].seg), 0
	for _, s := range l.segs {
		if s.Kind == geom.Line && outwardOf(s).Dot(o) > math.Cos(math.Pi/180) {
			n++
		}
	}
	return n == 1
}

// edgeName names a strip on the edge of a board, seen from its face.
func edgeName(l *loop, w *wall) string {
	name := towards(w, [4]string{"lower edge", "right edge", "top edge", "left edge"})
	if name == "" || !alone(l, w) {
		name = fmt.Sprintf("edge %d", l.edge[w.first]+1)
	}
	if l.hole >= 0 {
		return fmt.Sprintf("reveal %d, %s", l.hole+1, name)
	}
	return name
}

// plan is the frame of a prism that stands upright: p, q are x, y.
var plan = geom.Identity()

// box makes an upright prism on an outline: a lid that runs through, walls under it, an underside where it is wanted.
func (k *work) box(region geom.Region, h float64, frame geom.Frame, lid, under string, name func(*loop, *wall) string) error {
	t := k.card.Thickness
	floor := 0.0
	p := &prism{region: region, h: h, frame: frame, far: through, farCap: lid, fold: k.folds(), rank: frontFirst, name: name}
	if under != "" && h-2*t < least {
		k.note("there is no room for its underside")
		under = ""
	}
	if under != "" {
		p.near, p.nearCap, floor = through, under, t
	}
	room := h - t - floor
	switch {
	case h < t-geom.Tolerance:
		return fmt.Errorf("it is only %.2f high there", h)
	case room < least:
		return k.layers(region, h, frame, lid)
	}
	return k.build(p)
}

// layers makes a low piece of card laid on card.
func (k *work) layers(region geom.Region, h float64, frame geom.Frame, name string) error {
	t := k.card.Thickness
	n := max(1, int(math.Round(h/t)))
	if made := float64(n) * t; math.Abs(made-h) > 0.05 {
		k.note("its height is %s of card, %.1f; true would be %.1f", plural(n, "layer"), made, h)
	}
	for i := range n {
		f := geom.Identity()
		f.T.Z = h - float64(i)*t
		called := name
		if i > 0 {
			called = fmt.Sprintf("layer %d below the %s", i, name)
		}
		k.pieceOf(draft{Piece{Name: called, Outline: upright(region), body: body{frame: f.Then(frame)}}})
		if i > 0 {
			line := append(region.Outer.Flatten(0.01, nil), region.Outer.Start())
			k.join(Laid, side(i-1, line, t), side(i, line, 0))
		}
	}
	return nil
}

func (k *work) platform(s *set.Platform, by float64) error {
	under := ""
	if s.Closed {
		under = "underside"
	}
	o := k.withoutShortEdges(scaled(s.Outline.Path, by))
	return k.box(geom.Region{Outer: o}, s.Height*by, plan, "top", under, wallName)
}

func (k *work) post(s *set.Post, by float64) error {
	o := k.withoutShortEdges(scaled(s.Outline.Path, by))
	name := wallName
	if s.Diameter > 0 {
		name = func(*loop, *wall) string { return "tube" }
	}
	return k.box(geom.Region{Outer: o}, s.Height*by, plan, "top", "", name)
}

func (k *work) ring(s *set.Ring, by float64) error {
	r := geom.Region{Outer: k.withoutShortEdges(scaled(s.Outer.Path, by))}
	if s.Inner != nil && !k.tooSmall("its inner edge", lesser(s.Inner.Path.Bounds())*by) {
		r.Holes = []*geom.Path{k.withoutShortEdges(scaled(s.Inner.Path, by))}
	}
	return k.box(r, s.Height*by, plan, "top", "underside", wallName)
}

// ramp makes the section of the ramp run through between its sides: the slope over all, the back under it.
func (k *work) ramp(s *set.Ramp, by float64) error {
	l, h, w, t := s.Length*by, s.Rise*by, s.Width*by, k.card.Thickness
	if h <= t {
		return fmt.Errorf("it rises only %.2f", h)
	}
	if w <= 2*t+geom.Tolerance {
		return fmt.Errorf("it is only %.2f wide", w)
	}
	section := geom.Polygon([]geom.Point{{}, {X: l}, {X: l, Y: h}})
	return k.build(&prism{
		region: geom.Region{Outer: section}, h: w, frame: sideways(-w / 2), near: captive, far: captive,
		nearCap: "left side", farCap: "right side", fold: k.folds(), upward: true,
		open: lies, rank: topsFirst,
		name: func(_ *loop, w *wall) string {
			switch {
			case len(w.spans) > 1:
				return "slope and back"
			case outwardOf(w.spans[0].seg).Y > 0:
				return "slope"
			}
			return "back"
		},
	})
}

// sideways is the frame of a section: p upstage, q up, w to the right from x.
func sideways(x float64) geom.Frame {
	return geom.Frame{R: [3][3]float64{{0, 0, 1}, {1, 0, 0}, {0, 1, 0}}, T: geom.Vec{X: x}}
}

// lies reports whether a segment of a section or an elevation lies on the floor.
func lies(s geom.Segment) bool {
	return s.Kind == geom.Line && math.Abs(s.From.Y) <= geom.Tolerance && math.Abs(s.To.Y) <= geom.Tolerance
}

func (k *work) panel(s *set.Panel, by float64) error {
	r := geom.Region{Outer: scaled(s.Outline.Path, by)}
	for i, h := range s.Holes {
		if !k.tooSmall(fmt.Sprintf("hole %d", i+1), lesser(h.Path.Bounds())*by) {
			r.Holes = append(r.Holes, scaled(h.Path, by))
		}
	}
	thick := s.Thickness * by
	if !s.Stands {
		return k.slab(r, thick, plan, [2]string{"underside", "top"}, nil)
	}
	frame := geom.Frame{R: [3][3]float64{{1, 0, 0}, {0, 0, -1}, {0, 1, 0}}, T: geom.Vec{Y: thick}}
	if err := k.slab(r, thick, frame, [2]string{"back", "face"}, lies); err != nil {
		return err
	}
	if s.Brace {
		k.brace(r, thick)
	}
	return nil
}

// brace adds a right-angled brace behind a standing piece: six tenths as high as the card there, half as deep
// (common practice, no source).
func (k *work) brace(r geom.Region, thick float64) {
	b := r.Bounds()
	mid, high := 0.0, 0.0
	for _, share := range [...]float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
		x, up := b.Min.X+b.W()*share, 0.0
		const steps = 200
		for i := 0; i <= steps && r.Contains(geom.Point{X: x, Y: b.H() * (float64(i) + 0.5) / steps}); i++ {
			up = b.H() * (float64(i) + 0.5) / steps
		}
		if up > 1.5*high {
			mid, high = x, up
		}
	}
	t := k.card.Thickness
	h := 0.6 * high
	if h < 2*t || h < 2*least {
		k.note("there is no room behind it for a brace")
		return
	}
	behind := thick
	if thick < 2*t+least {
		behind = float64(layersOf(thick, t)) * t
	}
	// p to the back, q up, w to the right, from the middle of the card to each side.
	f := sideways(mid + t/2)
	f.T.Y = behind
	outline := geom.Polygon([]geom.Point{{}, {X: h / 2}, {Y: h}})
	i := k.pieceOf(draft{Piece{Name: "brace", Outline: geom.Region{Outer: outline}, body: body{frame: f}}})
	d := &k.drafts[i]
	d.Edges = []Edge{{Line: Line{geom.Point{}, geom.Point{Y: h}}, Treatment: Captive}}
	back := slices.IndexFunc(k.drafts, func(d draft) bool { return d.Name == "back" })
	line := []geom.Point{{}, {Y: h}}
	if back >= 0 && len(k.drafts[back].body.spans) == 0 && k.drafts[back].body.frame.R[1][2] > 0 {
		on := []geom.Point{{X: -(mid + t/2)}, {X: -(mid + t/2), Y: h}}
		k.join(Captive, side(back, on, 0), side(i, line, 0))
		return
	}
	on := []geom.Point{{X: mid + t/2}, {X: mid + t/2, Y: h}}
	last := max(back, 0)
	k.join(Captive, side(last, on, t), side(i, line, 0))
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
