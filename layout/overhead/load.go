package overhead

import (
	"math"

	"markout/layout/geom"
	"markout/layout/set"
)

// direction returns where v points, degrees from 0 up to 360.
func direction(v geom.Point) float64 {
	d := math.Atan2(v.Y, v.X) * 180 / math.Pi
	if d = math.Round(d*1e9) / 1e9; d < 0 {
		d += 360
	}
	if d >= 360 || d == 0 { // −0 too
		return 0
	}
	return d
}

// carry works out what each piece carries: what is fixed to it hangs from it, and what is fixed to that.
func (r *Room) carry() {
	at := make(map[string]int, len(r.Pieces))
	moment := make([]geom.Point, len(r.Pieces)) // kilograms times millimetres, of each load
	for i := range r.Pieces {
		p := &r.Pieces[i]
		at[p.Name] = i
		moment[i] = p.Centre.Mul(p.Weight)
		p.Load, p.LoadKnown, p.LoadAbout = p.Weight, p.Is != set.Unknown, p.Is == set.About
	}
	stack := map[string]int{} // of a stack the copy below
	for i := range r.Pieces {
		p := &r.Pieces[i]
		if j, ok := at[p.Copy.Places[0].On]; ok {
			p.On = j
		}
		if j, ok := r.below(i, stack); ok {
			p.On = j
		}
	}
	// What stands higher in the upright room hangs lower: loads are added from there up the chain.
	for i := range r.Pieces {
		p := &r.Pieces[i]
		for j, steps := p.On, 0; j >= 0 && steps < len(r.Pieces); j, steps = r.Pieces[j].On, steps+1 {
			r.Pieces[j].Load += p.Weight
			moment[j] = moment[j].Add(p.Centre.Mul(p.Weight))
			r.Pieces[j].LoadKnown = r.Pieces[j].LoadKnown && p.Is != set.Unknown
			r.Pieces[j].LoadAbout = r.Pieces[j].LoadAbout || p.Is == set.About
		}
	}
	for i := range r.Pieces {
		if p := &r.Pieces[i]; p.Load > 0 {
			p.LoadCentre = moment[i].Mul(1 / p.Load)
		} else {
			p.LoadCentre = p.Centre
		}
	}
}

// below finds the copy of the same element that a copy is stacked on: the last one before it in the same place whose top is its underside.
func (r *Room) below(i int, last map[string]int) (int, bool) {
	p := &r.Pieces[i]
	name := p.Element.Name
	j, ok := last[name]
	last[name] = i
	if !ok {
		return 0, false
	}
	q := &r.Pieces[j]
	apart := p.Upright.T.Plan().Sub(q.Upright.T.Plan()).Len()
	up := p.Upright.T.Z - q.Upright.T.Z - set.Height(q.Element.Shape)
	return j, apart <= geom.Tolerance && math.Abs(up) <= geom.Tolerance
}

// Shared returns the load of each fixing if all shared it equally, in kilograms. It is withheld (ok false) where the load or
// the places of the fixings are not known, or where the load's centre of gravity lies outside them, so that some would be pulled the other way.
// Of one fixing the centre must lie on it.
func (p *Piece) Shared() (kilograms float64, ok bool) {
	if !p.LoadKnown || len(p.Fixings) == 0 || !within(p.LoadCentre, p.Fixings) {
		return 0, false
	}
	return p.Load / float64(len(p.Fixings)), true
}

// within reports whether q lies in the convex hull of points, its edge included.
func within(q geom.Point, points []geom.Point) bool {
	// q lies outside where a direction has it beyond every point: the directions to try are those off q's own sight lines.
	var bearings []float64
	for _, p := range points {
		d := p.Sub(q)
		if d.Len() <= geom.Tolerance {
			return true
		}
		bearings = append(bearings, math.Atan2(d.Y, d.X))
	}
	for _, a := range bearings {
		widest := 0.0 // the gap that follows the bearing a, anticlockwise
		least := 2 * math.Pi
		for _, b := range bearings {
			g := math.Mod(b-a+4*math.Pi, 2*math.Pi)
			if g > 1e-12 && g < least {
				least = g
			}
		}
		widest = least
		if widest > math.Pi+1e-9 {
			return false
		}
	}
	return true
}
