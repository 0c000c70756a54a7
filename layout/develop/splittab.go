package develop

import (
	"slices"

	"markout/layout/geom"
)

// net is a piece without its tabs, which are cut anew on its parts.
type net struct {
	region geom.Region
	tabs   []netTab
}

// netTab is a tab's fold and its two outer corners, from the end of From to that of To.
type netTab struct {
	tab  Tab
	fold *Fold // nil of a lap
	pts  [2]geom.Point
}

// netOf takes the tabs off a piece. Seen from outside the base of a tab runs as the outline does; on card seen from the other
// side the other way.
func netOf(p *Piece) net {
	n := net{region: geom.Region{Holes: p.Outline.Holes}}
	var segs []geom.Segment
	for _, s := range p.Outline.Outer.Segments() {
		segs = append(segs, s)
	}
	for _, t := range p.Tabs {
		nt, base := netTab{tab: t}, t.Base
		if i := slices.IndexFunc(p.Folds, func(f Fold) bool { return f.Line == t.Base }); i >= 0 {
			nt.fold = &p.Folds[i]
		}
		for i := range segs {
			j, k := (i+1)%len(segs), (i+2)%len(segs)
			a, b := segs[i].From, segs[k].To
			from, to := base.From, base.To
			if p.Hidden {
				from, to = to, from
			}
			if !a.Near(from) || !b.Near(to) {
				continue
			}
			nt.pts = [2]geom.Point{segs[i].To, segs[j].To}
			if p.Hidden {
				nt.pts = [2]geom.Point{nt.pts[1], nt.pts[0]}
			}
			segs[i] = geom.Segment{From: a, To: b}
			segs = withoutTwo(segs, j, k)
			n.tabs = append(n.tabs, nt)
			break
		}
	}
	n.region.Outer = pathOf(segs)
	return n
}

// withoutTwo leaves out the segments j and k, which follow one another.
func withoutTwo(segs []geom.Segment, j, k int) []geom.Segment {
	out := segs[:0:0]
	for i, s := range segs {
		if i != j && i != k {
			out = append(out, s)
		}
	}
	return out
}

// pathOf closes segments to an outline.
func pathOf(segs []geom.Segment) *geom.Path {
	p := &geom.Path{}
	for _, s := range segs {
		p.Append(s)
	}
	p.Close()
	return p
}

// cut returns what a seam leaves of the tab on each side, whole where the line does not cross it. Where it is cut its end
// stands in a little, so that the tabs of two parts do not hinder one another; what is narrower than a tab can be is left
// out.
func (n netTab) cut(l seamLine) (sides [2]*netTab) {
	base := n.tab.Base
	a, b := l.off(base.From), l.off(base.To)
	side := 0
	if a+b > 0 {
		side = 1
	}
	if a*b >= -1e-9 {
		sides[side] = &n
		return sides
	}
	at := base.From.Lerp(base.To, a/(a-b))
	dir := base.To.Sub(base.From).Unit()
	deep := dir.Cross(n.pts[0].Sub(base.From)) // to the left of the fold
	for end := range 2 {
		part, keep := n, false
		if end == 0 {
			part.tab.Base.To = at
		} else {
			part.tab.Base.From = at
		}
		from, to := part.tab.Base.From, part.tab.Base.To
		ea, eb := n.pts[0].Sub(base.From).Dot(dir), base.To.Sub(n.pts[1]).Dot(dir)
		if end == 0 {
			eb = min(ea, max(deep, -deep)/4)
		} else {
			ea = min(eb, max(deep, -deep)/4)
		}
		if deep > 0 { // trapezoid builds to the right
			pts, ok := trapezoid(to, from, deep, eb, ea)
			if keep = ok; ok {
				part.pts = [2]geom.Point{pts[1], pts[0]}
			}
		} else {
			pts, ok := trapezoid(from, to, -deep, ea, eb)
			if keep = ok; ok {
				part.pts = [2]geom.Point{pts[0], pts[1]}
			}
		}
		if !keep {
			continue
		}
		if n.fold != nil {
			f := *n.fold
			f.Line = part.tab.Base
			part.fold = &f
		}
		side := 0
		if l.off(from)+l.off(to) > 0 {
			side = 1
		}
		sides[side] = &part
	}
	return sides
}

// tabbed puts the tabs back on a part, anticlockwise, and lists them.
func (p *Piece) tabbed(tabs []netTab) {
	var cuts []tabCut
	for _, n := range tabs {
		base := n.tab.Base
		c := tabCut{base.From, base.To, n.pts[:]}
		if base.To.Sub(base.From).Cross(n.pts[0].Sub(base.From)) > 0 { // it runs against the outline
			c = tabCut{base.To, base.From, []geom.Point{n.pts[1], n.pts[0]}}
		}
		cuts = append(cuts, c)
		p.Tabs = append(p.Tabs, n.tab)
		if n.fold != nil {
			p.Folds = append(p.Folds, *n.fold)
		}
	}
	p.Outline.Outer = withTabs(p.Outline.Outer, cuts)
}
