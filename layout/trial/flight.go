package trial

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"markout/layout/geom"
	"markout/layout/rules"
	"markout/layout/set"
)

// Flight is what a flight of steps measures, its first copy where it stands first. Lengths are millimetres, places the set's.
type Flight struct {
	Name   string
	Rises  Span
	Goings Span // of treads along the flight's line; landings are left out; the zero Span of a flight of one riser
	// Strides are 2R + G of each riser and the going of the tread it rises from. The riser above a landing has none.
	Strides Span
	Run     float64    // from the first riser to the last
	Foot    geom.Point // middle of the first riser
	Level   float64    // of the foot
	Gap     float64    // of the foot above what lies under it, less than 0 below
	Meets   string     // the piece that it climbs to; empty for none
	Landing geom.Point // middle of the last riser
	Top     float64    // level at which it lands

	shape *set.Steps
}

// Span is the least and the greatest of several lengths, Count of them.
type Span struct {
	Least, Greatest float64
	Count           int
}

func (s *Span) add(x float64) {
	if s.Count == 0 || x < s.Least {
		s.Least = x
	}
	if s.Count == 0 || x > s.Greatest {
		s.Greatest = x
	}
	s.Count++
}

// Flights returns those of a set in its order.
func Flights(s *set.Set) []Flight {
	var out []Flight
	for _, e := range s.Elements {
		if st, ok := e.Shape.(*set.Steps); ok && len(e.Copies) > 0 && len(st.Rises) > 0 {
			out = append(out, flight(e, st))
		}
	}
	return out
}

func flight(e *set.Element, s *set.Steps) Flight {
	frame := e.Copies[0].Places[0].Frame
	at := func(x, y float64) geom.Point {
		p := s.Way(x, y)
		return frame.Apply(geom.Vec{X: p.X, Y: p.Y}).Plan()
	}
	f := Flight{Name: e.Name, Run: s.Run(), Level: frame.T.Z, Gap: s.FootGap, Meets: s.Meets, Top: frame.T.Z + s.Total(), shape: s}
	f.Foot, f.Landing = at(s.Mid(0), 0), at(s.Mid(max(len(s.Goings)-1, 0)), f.Run)
	for i, rise := range s.Rises {
		f.Rises.add(rise)
		if i == 0 || slices.Contains(s.Landings, i) {
			continue
		}
		f.Goings.add(s.Goings[i-1])
		f.Strides.add(rules.Stride(rise, s.Goings[i-1]))
	}
	return f
}

// held lists what a flight keeps of what it is: its top (level), its total, its run, its foot (place and level).
func (f *Flight) held(of *Flight) []string {
	same := func(a, b float64) bool { return math.Abs(a-b) <= geom.Tolerance }
	var out []string
	for _, h := range [...]struct {
		word string
		is   bool
	}{
		{"top", same(f.Top, of.Top)},
		{"total", same(f.Top-f.Level, of.Top-of.Level)},
		{"run", same(f.Run, of.Run)},
		{"foot", same(f.Level, of.Level) && f.Foot.Near(of.Foot)},
	} {
		if h.is {
			out = append(out, h.word)
		}
	}
	return out
}

// unlike reports whether a flight is another than it was.
func (f *Flight) unlike(of *Flight) bool {
	return len(f.held(of)) < 4 || !f.Landing.Near(of.Landing) ||
		!alike(f.shape.Rises, of.shape.Rises) || !alike(f.shape.Goings, of.shape.Goings) ||
		!alike(f.shape.Widths, of.shape.Widths) || !alike(f.shape.Shifts, of.shape.Shifts)
}

func alike(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return math.Abs(x-y) <= geom.Tolerance })
}

// choose gives the options the figures of one flight: that whose attributes are tried, or the only one, or the only one that changes
// in any option.
func (r *Result) choose(as []Flight, options [][]Flight) {
	find := func(list []Flight, name string) *Flight {
		i := slices.IndexFunc(list, func(f Flight) bool { return f.Name == name })
		if i < 0 {
			return nil
		}
		return &list[i]
	}
	var named, changed []string
	for _, t := range r.Trials {
		if find(as, t.Element) != nil && !slices.Contains(named, t.Element) {
			named = append(named, t.Element)
		}
	}
	for i := range as {
		if slices.ContainsFunc(options, func(o []Flight) bool {
			f := find(o, as[i].Name)
			return f != nil && f.unlike(&as[i])
		}) {
			changed = append(changed, as[i].Name)
		}
	}
	switch {
	case len(named) == 1:
		r.Flight = named[0]
	case len(named) > 1:
		r.Why = "flights are tried together (" + strings.Join(named, ", ") + ")"
	case len(as) == 1:
		r.Flight = as[0].Name
	case len(changed) == 1:
		r.Flight = changed[0]
	case len(changed) > 1:
		r.Why = strconv.Itoa(len(changed)) + " flights change (" + strings.Join(changed, ", ") + ")"
	case len(as) > 1:
		r.Why = "no flight of steps changes"
	}
	if r.Flight == "" {
		return
	}
	r.AsIs.Flight = find(as, r.Flight)
	for i := range r.Options {
		if f := find(options[i], r.Flight); f != nil {
			r.Options[i].Flight, r.Options[i].Held = f, f.held(r.AsIs.Flight)
		}
	}
}
