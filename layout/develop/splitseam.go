package develop

import (
	"cmp"
	"math"
	"slices"

	"markout/layout/geom"
)

const (
	seamClear  = 8.0  // millimetres that a seam keeps from openings, corners, folds and the ends of tabs, or 4 cards
	neck       = 1.25 // a place is thin where the piece is so many times as wide on both sides of it
	frame      = 0.7  // and no further apart than this share of its length
	stagger    = 20.0 // millimetres between the seams of two layers, or 8 cards
	partLeast  = 20.0 // millimetres of the least part, or 6 cards
	mostParts  = 100  // of one piece
	lapDeep    = 5.0  // millimetres of a lap
	seamLength = 0.1  // millimetres within which two seams are as long as one another
)

// seamClearOf is how far a seam keeps away in card of that thickness (common practice, no source).
func seamClearOf(t float64) float64 { return max(seamClear, 4*t) }

// outlook is what a seam across a piece has to look at, along one axis of the card.
type outlook struct {
	net      net
	upright  bool
	box      [2]float64
	features []float64 // ascending: openings' edges, corners, folds, ends of tabs and of rolls
	widths   [][2]float64
	avoid    []float64 // seams of the layers that it is laid on
	clear    float64
	apart    float64
	edges    []Line    // the outline in straight runs
	crossed  []float64 // for the work at hand
}

// outlookOf looks along a piece. avoid are the places of seams in layers of it.
func outlookOf(p *Piece, n net, upright bool, avoid []float64) *outlook {
	o := &outlook{net: n, upright: upright, clear: seamClearOf(p.Thickness), apart: max(stagger, 8*p.Thickness), avoid: avoid}
	l := seamLine{upright: upright}
	b := p.Outline.Bounds()
	o.box = [2]float64{l.off(b.Min), l.off(b.Max)}
	for _, path := range append([]*geom.Path{n.region.Outer}, n.region.Holes...) {
		var before geom.Point
		count := path.Len()
		if count > 0 {
			before = path.Segment(count - 1).Tangent(1)
		}
		from := path.Start()
		for _, q := range append(path.Flatten(geom.Flatness, nil), from) {
			o.edges = append(o.edges, Line{from, q})
			from = q
		}
		for _, s := range path.Segments() {
			if after := s.Tangent(0); math.Abs(math.Atan2(before.Cross(after), before.Dot(after))) > tangent {
				o.features = append(o.features, l.off(s.From))
			}
			before = s.Tangent(1)
		}
	}
	for _, h := range n.region.Holes {
		b := h.Bounds()
		o.features = append(o.features, l.off(b.Min), l.off(b.Max))
	}
	for _, f := range p.Folds {
		if a, b := l.off(f.Line.From), l.off(f.Line.To); math.Abs(a-b) < geom.Tolerance {
			o.features = append(o.features, a)
		}
	}
	for _, t := range n.tabs {
		o.features = append(o.features, l.off(t.tab.Base.From), l.off(t.tab.Base.To))
	}
	if upright {
		for _, r := range p.Rolls {
			o.features = append(o.features, r.From, r.To)
		}
	}
	slices.Sort(o.features)
	o.features = slices.CompactFunc(o.features, func(a, b float64) bool { return math.Abs(b-a) < geom.Tolerance })
	// The widths between features tell where the piece is thin.
	stops := append([]float64{o.box[0]}, o.features...)
	stops = append(stops, o.box[1])
	for i := 1; i < len(stops); i++ {
		for _, share := range [3]float64{0.1, 0.5, 0.9} {
			at := stops[i-1] + (stops[i]-stops[i-1])*share
			if w, ok := o.width(at); ok {
				o.widths = append(o.widths, [2]float64{at, w})
			}
		}
	}
	return o
}

// width is how much card a seam there cuts through, within a hair: curves are followed in straight runs.
func (o *outlook) width(at float64) (float64, bool) {
	l := seamLine{o.upright, at}
	o.crossed = o.crossed[:0]
	for _, e := range o.edges {
		if a, b := l.off(e.From), l.off(e.To); (a < 0) != (b < 0) {
			o.crossed = append(o.crossed, l.along(e.From.Lerp(e.To, a/(a-b))))
		}
	}
	slices.Sort(o.crossed)
	w := 0.0
	for i := 1; i < len(o.crossed); i += 2 {
		w += o.crossed[i] - o.crossed[i-1]
	}
	return w, w > 0
}

// isThin reports whether a place is a neck: the piece is wider on both sides of it, over less than most of its length, as
// over a door, beside a window, in a waist. A frame is narrow by nature.
func (o *outlook) isThin(at, width float64) bool {
	before, behind := math.Inf(-1), math.Inf(1)
	look := func(x, w float64) {
		switch {
		case w <= neck*width:
		case x < at:
			before = max(before, x)
		default:
			behind = min(behind, x)
		}
	}
	for _, w := range o.widths {
		look(w[0], w[1])
	}
	for _, share := range [...]float64{-1, -0.5, 0.5, 1} {
		if w, ok := o.width(at + share*width); ok {
			look(at+share*width, w)
		}
	}
	return behind-before < frame*(o.box[1]-o.box[0])
}

// seamAt is a place for a seam and what speaks for it.
type seamAt struct {
	at    float64
	thin  bool    // the piece is wider on both sides of it
	clear float64 // distance to the nearest feature
	width float64
	even  float64 // distance from where the parts would be alike
}

// sound reports whether nothing speaks against the place.
func (s seamAt) sound(clear float64) bool { return !s.thin && s.clear >= clear-geom.Tolerance }

// better compares two places: not thin, clear of features, short, even.
func (o *outlook) better(a, b seamAt) int {
	flag := func(b bool) int {
		if b {
			return 1
		}
		return 0
	}
	coarse := func(x float64) float64 { return math.Round(x / seamLength) }
	return cmp.Or(
		cmp.Compare(flag(a.thin), flag(b.thin)),
		-cmp.Compare(coarse(min(a.clear, o.clear)), coarse(min(b.clear, o.clear))),
		cmp.Compare(coarse(a.width), coarse(b.width)),
		cmp.Compare(coarse(a.even), coarse(b.even)),
		cmp.Compare(a.at, b.at),
	)
}

// choose picks the best place for a seam from lo to hi; ok is false where none leaves clean parts.
func (o *outlook) choose(lo, hi, even float64) (best seamAt, ok bool) {
	places := []float64{lo, hi, even, (lo + hi) / 2}
	for i, f := range o.features {
		places = append(places, f-o.clear, f+o.clear)
		if i > 0 {
			places = append(places, (f+o.features[i-1])/2)
		}
	}
	for _, a := range o.avoid {
		places = append(places, a-o.apart, a+o.apart)
	}
	var seams []seamAt
	for _, at := range places {
		if at < lo-geom.Tolerance || at > hi+geom.Tolerance {
			continue
		}
		if width, ok := o.width(at); ok {
			seams = append(seams, seamAt{at: at, clear: o.clearOf(at), width: width, thin: o.isThin(at, width), even: math.Abs(at - even)})
		}
	}
	slices.SortFunc(seams, o.better)
	for _, s := range seams {
		if _, err := cutArea(o.net.region, seamLine{o.upright, s.at}); err == nil {
			return s, true
		}
	}
	return best, false
}

// clearOf is how far a place lies from the nearest feature. Seams of other layers reach as far as o.apart.
func (o *outlook) clearOf(at float64) float64 {
	clear := math.Inf(1)
	i, _ := slices.BinarySearch(o.features, at)
	for _, k := range [2]int{i - 1, i} {
		if k >= 0 && k < len(o.features) {
			clear = min(clear, math.Abs(at-o.features[k]))
		}
	}
	for _, a := range o.avoid {
		if d := math.Abs(at - a); d < o.apart-geom.Tolerance {
			clear = min(clear, d*o.clear/o.apart)
		}
	}
	return clear
}

// seam chooses where a piece is cut that is to go into parts of at most most, each of all but the last with a lap so deep.
func (o *outlook) seam(most, lap, least float64) (seamLine, bool) {
	long := o.box[1] - o.box[0]
	n := math.Ceil((long-lap)/(most-lap) - 1e-9)
	hi := min(most-lap, long-least)
	var found seamAt
	for _, count := range [2]float64{n, n + 1} {
		lo := max(least, long-((count-1)*(most-lap)+lap))
		lo = min(lo, hi)
		s, ok := o.choose(o.box[0]+lo, o.box[0]+hi, o.box[0]+min(max(long/count, lo), hi))
		if ok && (found.width == 0 || !found.sound(o.clear) && o.better(s, found) < 0) {
			found = s
		}
		if ok && s.sound(o.clear) {
			break
		}
	}
	return seamLine{o.upright, found.at}, found.width > 0
}
