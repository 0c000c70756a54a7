package develop

import (
	"fmt"
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// steps makes a flight of sides, treads and risers where all its treads are as wide and stand in one line; otherwise,
// and where it is built of blocks, a box for every tread. The last riser is the front of what it lands on.
func (k *work) steps(s *set.Steps, by float64) error {
	treads := s.Treads()
	if len(treads) == 0 {
		k.note("it has one riser, the front of what it lands on, and no tread of its own")
		return nil
	}
	if s.Line != nil {
		return k.stepsAlong(s, by)
	}
	for i := range treads {
		t := &treads[i]
		t.Y0, t.Y1, t.Top, t.Width, t.Mid = t.Y0*by, t.Y1*by, t.Top*by, t.Width*by, t.Mid*by
	}
	straight := true
	for _, t := range treads {
		straight = straight && math.Abs(t.Width-treads[0].Width) <= geom.Tolerance && math.Abs(t.Mid-treads[0].Mid) <= geom.Tolerance
	}
	nosing := s.Nosing * by
	if nosing > 0 && k.tooSmall("its nosing", nosing) {
		nosing = 0
	}
	if s.Blocks || !straight {
		if !s.Blocks {
			k.note("its treads are not all alike, so each stands on a box of its own")
			if nosing > 0 {
				k.note("its nosing, %.1f, is left out", nosing)
			}
		}
		return k.blocks(treads, s.Blocks)
	}
	return k.flight(treads, nosing, s.Meets != "")
}

// blocks makes a box a tread.
func (k *work) blocks(treads []set.Tread, loose bool) error {
	for i, t := range treads {
		what := "step"
		if loose {
			what = "block"
		}
		called := func(name string) string { return fmt.Sprintf("%s %d, %s", what, i+1, name) }
		o := geom.Rectangle(t.Width, t.Y1-t.Y0).Transform(geom.Isometry{A: 1, D: 1, T: geom.Point{X: t.Mid, Y: (t.Y0 + t.Y1) / 2}})
		err := k.box(geom.Region{Outer: o}, t.Top, plan, called("top"), "", func(l *loop, w *wall) string { return called(wallName(l, w)) })
		if err != nil {
			return fmt.Errorf("%s %d: %w", what, i+1, err)
		}
	}
	return nil
}

// flight makes the section of the flight run through between its sides: treads over risers, each riser on the tread
// below it. What meets a deck is open at its back, where it stands against the deck.
func (k *work) flight(treads []set.Tread, nosing float64, meets bool) error {
	t, width := k.card.Thickness, treads[0].Width
	if width <= 2*t+geom.Tolerance {
		return fmt.Errorf("it is only %.2f wide", width)
	}
	run := treads[len(treads)-1].Y1
	pts := []geom.Point{{}, {X: run}}
	for i := len(treads) - 1; i >= 0; i-- {
		pts = append(pts, geom.Point{X: treads[i].Y1, Y: treads[i].Top}, geom.Point{X: treads[i].Y0, Y: treads[i].Top})
	}
	back := func(s geom.Segment) bool {
		return s.Kind == geom.Line && s.From.X >= run-geom.Tolerance && s.To.X >= run-geom.Tolerance
	}
	// The tread or riser that a segment belongs to, counted from the foot.
	number := func(s geom.Segment) int {
		for i, tr := range treads {
			if m := s.From.Lerp(s.To, 0.5); m.X < tr.Y1-geom.Tolerance && m.Y <= tr.Top+geom.Tolerance {
				return i + 1
			}
		}
		return len(treads)
	}
	flat := func(s geom.Segment) bool { return outwardOf(s).Y > 0.5 }
	p := &prism{
		region: geom.Region{Outer: geom.Polygon(pts)}, h: width, frame: sideways(treads[0].Mid - width/2), near: captive, far: captive,
		nearCap: "left side", farCap: "right side", fold: k.folds() && nosing == 0, upward: true,
		open: func(s geom.Segment) bool { return lies(s) || meets && back(s) },
		rank: topsFirst,
		name: func(_ *loop, w *wall) string {
			s := w.spans[0].seg
			switch {
			case len(w.spans) > 1:
				return "treads and risers"
			case back(s):
				return "back"
			case flat(s):
				return fmt.Sprintf("tread %d", number(s))
			}
			return fmt.Sprintf("riser %d", number(s))
		},
	}
	if nosing > 0 {
		p.nosing = func(_ *loop, w *wall) (past [2]float64) {
			if s := w.spans[0].seg; len(w.spans) == 1 && flat(s) {
				past[1] = nosing
			}
			return past
		}
	}
	return k.build(p)
}
