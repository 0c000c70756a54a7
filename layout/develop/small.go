package develop

import (
	"fmt"

	"markout/layout/geom"
	"markout/layout/set"
)

// note says something about the element once.
func (k *work) note(format string, args ...any) {
	words := fmt.Sprintf(format, args...)
	for _, n := range k.notes {
		if n == words {
			return
		}
	}
	k.notes = append(k.notes, words)
}

// tooSmall reports, and lists, a feature too small to cut.
func (k *work) tooSmall(what string, size float64) bool {
	if size >= least-geom.Tolerance {
		return false
	}
	k.small = append(k.small, Small{Element: k.e.Name, What: what, Size: size})
	return true
}

func lesser(b geom.Rect) float64 { return min(b.W(), b.H()) }

// vanishes reports, and lists, an element that is too small as a whole. Shapes, figures and flats are never thinner than card.
func (k *work) vanishes(by float64) bool {
	sizes := map[string]float64{}
	order := []string{"its height", "its width"}
	switch s := k.e.Shape.(type) {
	case *set.Platform:
		sizes["its height"], sizes["its width"] = s.Height, lesser(s.Outline.Path.Bounds())
	case *set.Post:
		sizes["its height"], sizes["its width"] = s.Height, lesser(s.Outline.Path.Bounds())
	case *set.Ring:
		sizes["its height"], sizes["its width"] = s.Height, lesser(s.Outer.Path.Bounds())
	case *set.Ramp:
		sizes["its height"], sizes["its width"] = s.Rise, min(s.Length, s.Width)
	case *set.Steps:
		if len(s.Treads()) > 0 {
			sizes["its height"], sizes["its width"] = s.Total(), min(s.Run(), s.Width(0))
		}
	case *set.Flat:
		sizes["its height"], sizes["its width"] = s.Height, s.Length
	case *set.Cone:
		sizes["its height"], sizes["its width"] = s.Height, max(s.Lower, s.Upper)
	case *set.Figure:
		b := s.Box()
		sizes["its height"], sizes["its width"] = b.H(), b.W()
	case *set.Panel:
		b := s.Outline.Path.Bounds()
		sizes["its height"], sizes["its width"] = b.H(), b.W()
	}
	for _, what := range order {
		if x, ok := sizes[what]; ok && k.tooSmall(what, x*by) {
			return true
		}
	}
	return false
}

// withoutShortEdges returns the outline of a box without the straight edges too short to cut, which it lists: the
// corner at the end of each is left out. Runs of them, as of a curve typed point by point, are kept: they are bent, not
// cut.
func (k *work) withoutShortEdges(p *geom.Path) *geom.Path {
	n := p.Len()
	if n <= 3 {
		return p
	}
	segs := make([]geom.Segment, 0, n)
	for _, s := range p.Segments() {
		segs = append(segs, s)
	}
	short := func(i int) bool {
		s := segs[(i+n)%n]
		return s.Kind == geom.Line && s.Length() < least
	}
	drop := make([]bool, n)
	left := n
	for i := range segs {
		next := segs[(i+1)%n]
		if left > 3 && short(i) && !short(i-1) && !short(i+1) && next.Kind == geom.Line && !drop[(i+n-1)%n] {
			k.tooSmall(fmt.Sprintf("edge %d of its outline", i+1), segs[i].Length())
			drop[i] = true
			left--
		}
	}
	if left == n {
		return p
	}
	q := &geom.Path{}
	for i, s := range segs {
		switch {
		case drop[i]:
			continue
		case drop[(i+n-1)%n]:
			s.From = segs[(i+n-1)%n].From
		}
		q.Append(s)
	}
	q.Close()
	return q
}

// rodOf returns the rod that a post is at this scale; nil for what is made of card. `model rod` and `model tube` say it
// outright; otherwise a post is a rod where the tube would be under tubeLeast.
func rodOf(e *set.Element, by float64) *Rod {
	if c, ok := e.Shape.(*set.Cone); ok && e.Model != "no" {
		return coneRod(e, c, by)
	}
	s, ok := e.Shape.(*set.Post)
	if !ok || e.Model == "tube" || e.Model == "no" {
		return nil
	}
	d := lesser(s.Outline.Path.Bounds()) * by
	if d >= tubeLeast-geom.Tolerance && e.Model != "rod" || d < least || s.Height*by < least {
		return nil
	}
	r := &Rod{Section: "shaped", Diameter: d, Length: s.Height * by}
	if s.Diameter > 0 {
		r.Section = "round"
	}
	return r
}
