package cli

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/unit"
	"markout/layout/view"
	"markout/tiling/grid"
)

// overheadFull lays the fixing templates of rooms over full-size pages: of each piece with places of fixings, and of copies that hang
// otherwise, once as seen from below and once from above.
func (o *drawOptions) overheadFull(s *set.Set, rooms []*overhead.Room) (*grid.Plan, error) {
	var full []*drawing.Drawing
	for _, r := range rooms {
		seen := map[string]bool{}
		for i := range r.Pieces {
			p := &r.Pieces[i]
			for _, below := range [2]bool{true, false} {
				d, up := view.Fixing(s, p, below)
				if d == nil {
					continue
				}
				key := fmt.Sprintf("%s %t %.4f %.4f %v", p.Element.Name, below, up.X, up.Y, about(p))
				if seen[key] {
					continue
				}
				seen[key] = true
				full = append(full, atFullSize(d, p, below, up))
			}
		}
	}
	if len(full) == 0 {
		return nil, fmt.Errorf("%s: no piece overhead has places of fixings; write `fixings -200,150 200,150` under it", s.Name)
	}
	return o.tiles(s, full, "")
}

// about are a piece's fixings about its own 0,0 as it hangs, to the hundredth of a millimetre.
func about(p *overhead.Piece) []string {
	var out []string
	for _, f := range p.Fixings {
		d := f.Sub(p.Overhead.T.Plan())
		out = append(out, fmt.Sprintf("%.2f,%.2f", d.X+0, d.Y+0))
	}
	return out
}

// atFullSize is a template as pages of the size itself show it: how to hold it and which way upstage lies stand on each.
func atFullSize(d *drawing.Drawing, p *overhead.Piece, below bool, up geom.Point) *drawing.Drawing {
	own := *d
	own.View = "above"
	own.Hold = "AS SEEN FROM ABOVE: on top of the surface that it is fixed to, or on the walking floor to plumb up from, print up"
	if below {
		own.View = "below"
		own.Hold = "AS SEEN FROM BELOW: over your head against the surface that it is fixed to, print towards you"
	}
	own.Hold += "; " + upstageWords(up) + ". " + strings.TrimSuffix(overhead.Note, ".")
	own.Title = p.Name + ", fixings seen from " + own.View
	if p.Tag > 0 {
		own.Title = "tag " + strconv.Itoa(p.Tag) + ", " + own.Title
	}
	own.Datum = drawing.Datum{Says: "from the piece's own 0,0, along the paper and up it"}
	return &own
}

// upstageWords says which way of the paper is upstage.
func upstageWords(up geom.Point) string {
	turn := math.Atan2(up.X, up.Y) * 180 / math.Pi // clockwise from the paper's top
	switch {
	case math.Abs(turn) < 0.05:
		return "upstage at the top"
	case turn > 0:
		return "upstage lies " + unit.FormatAngle(turn, 0.1) + " clockwise from the top"
	}
	return "upstage lies " + unit.FormatAngle(-turn, 0.1) + " anticlockwise from the top"
}
