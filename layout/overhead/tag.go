package overhead

import "markout/layout/set"

// tag numbers the dressing of a room: from the number that a piece is given, its copies one after another, and what follows it in
// the file on from there; past every number that is given elsewhere, so that no two tags of a room are alike. What an earlier issue
// has numbered keeps its number, which is tied to it already, and what is new is numbered on from all that issue's.
func (r *Room) tag(earlier map[string]int) {
	given := map[int]bool{}
	r.dressing(func(p *Piece, d *set.Dressing, copy int) {
		if d.Tag > 0 {
			p.Tag = d.Tag + copy
			given[p.Tag] = true
		}
	})
	r.dressing(func(p *Piece, _ *set.Dressing, _ int) {
		if n := earlier[p.Name]; p.Tag == 0 && n > 0 && !given[n] {
			p.Tag = n
			given[n] = true
		}
	})
	last := 0
	for _, n := range earlier { // the greatest does not hang on their order
		last = max(last, n)
	}
	r.dressing(func(p *Piece, _ *set.Dressing, _ int) {
		if p.Tag == 0 {
			p.Tag = last + 1
			for given[p.Tag] {
				p.Tag++
			}
			last = p.Tag
		} else if len(earlier) == 0 {
			last = p.Tag
		}
	})
}

// dressing goes through what has a tag, in the file's order; copy counts those of an element from 0.
func (r *Room) dressing(each func(p *Piece, d *set.Dressing, copy int)) {
	copy := 0
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if copy++; i == 0 || r.Pieces[i-1].Element != p.Element {
			copy = 0
		}
		if d, ok := p.Element.Shape.(*set.Dressing); ok {
			each(p, d, copy)
		}
	}
}
