package sheet

import (
	"math"

	"markout/layout/geom"
	"markout/tiling/cut"
)

// partOf is a board's part as its record has it, with its sizes. It returns false where cuts lie beyond what they part.
func partOf(r *PartRecord, box geom.Rect, kerf float64) (*cut.Part, bool) {
	return sized(r, box.Min.X, box.Min.Y, box.W(), box.H(), kerf)
}

// sized reckons as the plan of a board does, so that what is printed is the same to the last figure.
func sized(r *PartRecord, x, y, length, width, kerf float64) (*cut.Part, bool) {
	p := &cut.Part{X: x, Y: y, Length: length, Width: width, Placed: -1}
	if r.Near == nil {
		if r.Piece != nil {
			p.Placed = *r.Piece
		}
		return p, true
	}
	ok, rest := true, 0.0
	if r.Across > 0 {
		p.Cut, p.At, rest = cut.Across, r.Across, length-r.Across-kerf
		p.Near, ok = sized(r.Near, x, y, r.Across, width, kerf)
	} else {
		p.Cut, p.At, rest = cut.Along, r.Along, width-r.Along-kerf
		p.Near, ok = sized(r.Near, x, y, length, r.Along, kerf)
	}
	if !ok || rest < -kerf-partSlack {
		return nil, false
	}
	if r.Far == nil {
		return p, true
	}
	if rest <= 0 {
		return nil, false
	}
	if p.Cut == cut.Across {
		p.Far, ok = sized(r.Far, x+r.Across+kerf, y, rest, width, kerf)
	} else {
		p.Far, ok = sized(r.Far, x, y+r.Along+kerf, length, rest, kerf)
	}
	return p, ok
}

// partSlack is how far a piece may be from its part by rounding.
const partSlack = 1e-3

// holds reports whether a piece fills a part.
func holds(p *cut.Part, box geom.Rect) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) <= partSlack }
	return near(p.X, box.Min.X) && near(p.Y, box.Min.Y) && near(p.Length, box.W()) && near(p.Width, box.H())
}

// pruned is a part of which some pieces are gone: place gives each piece's new index, −1 for one that is gone. Cuts that part no piece
// are left out, and what they would have parted is waste.
func pruned(p *cut.Part, place []int) *cut.Part {
	if p == nil {
		return nil
	}
	out := *p
	if p.Cut == cut.None {
		if p.Placed >= 0 {
			out.Placed = place[p.Placed]
		}
		return &out
	}
	out.Near, out.Far = pruned(p.Near, place), pruned(p.Far, place)
	if isWaste(out.Near) && isWaste(out.Far) {
		out.Cut, out.At, out.Near, out.Far = cut.None, 0, nil, nil
	}
	return &out
}

func isWaste(p *cut.Part) bool { return p == nil || p.Cut == cut.None && p.Placed < 0 }
