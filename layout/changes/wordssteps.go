package changes

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// deckBoard is the board of the deck that a flight stops under, 0 where it does not.
func deckBoard(s *set.Steps) float64 {
	if s.UnderBoard() {
		return s.DeckBoard
	}
	return 0
}

// flight says a flight by its steps: 3 risers, total 450, run 600, width 1800.
func (w wording) flight(s *set.Steps) []string {
	says := []string{risersWords(len(s.Rises)), "total " + w.length(s.Total())}
	if s.Run() > geom.Tolerance {
		says = append(says, "run "+w.length(s.Run()))
	}
	if level(s.Widths) {
		says = append(says, "width "+w.length(s.Widths[0]))
	}
	return says
}

func risersWords(n int) string {
	if n == 1 {
		return "1 riser"
	}
	return strconv.Itoa(n) + " risers"
}

// flightFrom says what changed of the steps of a flight, each by its number from the foot up.
func (c *comparison) flightFrom(p, q *set.Steps) {
	before := len(c.own)
	if n := len(p.Rises); n != len(q.Rises) {
		c.say(strconv.Itoa(n) + plural(" riser", n) + " → " + strconv.Itoa(len(q.Rises)))
	}
	c.say(c.listFrom("rise", "rises", p.Rises, q.Rises)...)
	c.say(c.lengthFrom("total", p.Total(), q.Total(), ""))
	goings := c.landingsFrom(p, q)
	if words := c.listFrom("going", "goings", stepGoings(p), stepGoings(q)); len(words) > 0 {
		goings = append(goings, words...)
	}
	c.say(goings...)
	if len(goings) > 0 || len(p.Rises) == len(q.Rises) || c.footStays() {
		c.say(c.lengthFrom("run", p.Run(), q.Run(), ""))
	}
	c.say(c.listFrom("width", "widths", p.Widths, q.Widths)...)
	c.foot = !same(p.Total(), q.Total()) || !same(p.Run(), q.Run()) || len(c.own) > before
	if p.LineIs != q.LineIs {
		c.say(fromTo("the path is its line", p.LineIs, q.LineIs, "straight"))
	} else {
		c.say(c.shiftsFrom(p, q)...)
	}
	if (p.Line == nil) != (q.Line == nil) || p.Line != nil && !sameLine(p.Line, q.Line) && !trimmed(p.Line, q.Line) {
		c.say("its line redrawn")
	}
	c.size = c.size || len(c.own) > before
}

// footStays reports whether the foot of the first copy stands where it stood.
func (c *comparison) footStays() bool {
	a, b := c.firstOfBoth()
	return a != nil && near(a.Upright().T, b.Upright().T)
}

func plural(word string, n int) string {
	if n == 1 {
		return word
	}
	return word + "s"
}

// stepGoings are the goings of the treads that are no landings.
func stepGoings(s *set.Steps) []float64 {
	var out []float64
	for i, g := range s.Goings {
		if !slices.Contains(s.Landings, i+1) {
			out = append(out, g)
		}
	}
	return out
}

// landingsFrom says which landings are new, gone or of another depth.
func (c *comparison) landingsFrom(p, q *set.Steps) []string {
	var says []string
	depth := func(s *set.Steps, k int) float64 { return s.Goings[min(k, len(s.Goings))-1] }
	for _, k := range q.Landings {
		on := "landing on riser " + strconv.Itoa(k)
		if !slices.Contains(p.Landings, k) {
			says = append(says, on+" added, "+c.length(depth(q, k))+" deep")
		} else if words := c.lengthFrom(on, depth(p, k), depth(q, k), ""); words != "" {
			says = append(says, words+" deep")
		}
	}
	for _, k := range p.Landings {
		if !slices.Contains(q.Landings, k) {
			says = append(says, "landing on riser "+strconv.Itoa(k)+" taken out")
		}
	}
	return says
}

// mostByNumber is how many values of a list are each said by their number.
const mostByNumber = 6

// listFrom says how values that are counted from the foot changed: rise 150 → 112.5 where they are all alike, rise 4 190 → 175 where
// they are not.
func (c *comparison) listFrom(one, many string, a, b []float64) []string {
	if len(a) == 0 && len(b) == 0 {
		return nil
	}
	if level(a) && level(b) {
		if words := c.lengthFrom(one, a[0], b[0], ""); words != "" {
			return []string{words}
		}
		return nil
	}
	var says []string
	for i := range max(len(a), len(b)) {
		label := one + " " + strconv.Itoa(i+1)
		switch {
		case i >= len(a):
			says = append(says, label+" "+c.length(b[i])+" added")
		case i >= len(b):
			says = append(says, label+" "+c.length(a[i])+" taken out")
		default:
			if words := c.lengthFrom(label, a[i], b[i], ""); words != "" {
				says = append(says, words)
			}
		}
	}
	if len(says) > mostByNumber {
		p, q := c.listed(a), c.listed(b)
		return []string{many + " " + arrow(p, q)}
	}
	return says
}

// listed says values one after the other, once where they are all alike.
func (w wording) listed(list []float64) string {
	if level(list) {
		return w.length(list[0])
	}
	words := ""
	for _, x := range list {
		if words != "" {
			words += " "
		}
		words += w.length(x)
	}
	return orNone(words, "none")
}

// shiftsFrom says which treads or blocks move sideways, and where to.
func (c *comparison) shiftsFrom(p, q *set.Steps) []string {
	noun := "tread"
	if q.Blocks {
		noun = "block"
	}
	var ways []float64
	by := map[float64][]int{}
	for k := range q.Goings {
		d := q.Mid(k) - p.Mid(k)
		if k >= len(p.Goings) || math.Abs(d) <= geom.Tolerance {
			continue
		}
		i := slices.IndexFunc(ways, func(w float64) bool { return same(w, d) })
		if i < 0 {
			i = len(ways)
			ways = append(ways, d)
		}
		by[ways[i]] = append(by[ways[i]], k+1)
	}
	var says []string
	for _, d := range ways {
		verb := " moves "
		if len(by[d]) > 1 {
			verb = " move "
		}
		says = append(says, countedWords(noun, noun+"s", by[d])+verb+c.sideways(q, d))
	}
	return says
}

// sideways says a way to the right as one climbs, less than 0 to the left: on the plan where that is the same of all copies.
func (c *comparison) sideways(s *set.Steps, by float64) string {
	if s.Line == nil && len(c.new.Copies) == 1 {
		f := c.new.Copies[0].Places[0].Frame
		from, to := f.Apply(geom.Vec{}), f.Apply(geom.Vec{X: by})
		d := geom.Vec{X: to.X - from.X, Y: to.Y - from.Y}
		if math.Abs(d.Y) <= geom.Tolerance {
			d.Y = 0
			figure := unit.FormatLength(math.Abs(d.X), c.set.Units, 0.5)
			if side, ok := strings.CutPrefix(wayWords(c.set, d), figure+" "); ok {
				return figure + " to " + side
			}
		}
		return wayWords(c.set, d)
	}
	side := " to the right as one climbs"
	if by < 0 {
		side = " to the left as one climbs"
	}
	return unit.FormatLength(math.Abs(by), c.set.Units, 0.5) + side
}

// slope says how steep a ramp was and is.
func (c *comparison) slope(p, q *set.Ramp) {
	c.foot = !same(p.Length, q.Length) || !same(p.Rise, q.Rise)
	if !sameSlope(p, q) && p.Length > 0 && q.Length > 0 {
		c.say(fromTo("slope", slopeWords(p), slopeWords(q), ""))
	}
}

func slopeWords(r *set.Ramp) string { return unit.FormatSlope(math.Abs(r.Rise / r.Length)) }

// trimmed reports whether b is a, longer or shorter at one of its ends.
func trimmed(a, b *geom.Path) bool {
	return bendsAlike(a, b) || bendsAlike(a.Reverse(), b.Reverse())
}

// bendsAlike reports whether two lines start in one place and go on alike from there, but for the length of the last piece.
func bendsAlike(a, b *geom.Path) bool {
	n := min(a.Len(), b.Len())
	if n == 0 || !a.Start().Near(b.Start()) || !a.Segment(0).Tangent(0).Near(b.Segment(0).Tangent(0)) {
		return false
	}
	for i := range n {
		p, q := a.Segment(i), b.Segment(i)
		if p.Kind != q.Kind || p.Kind != geom.Line && p.Kind != geom.Arc {
			return false
		}
		if p.Kind == geom.Arc && (!same(p.RX, q.RX) || p.Sweep*q.Sweep < 0) {
			return false
		}
		if i < n-1 && !same(p.Length(), q.Length()) {
			return false
		}
		if i > 0 && math.Abs(turnAt(a, i)-turnAt(b, i)) > 1e-9 {
			return false
		}
	}
	return true
}

// turnAt is the turn in radians from the segment before the ith to it.
func turnAt(p *geom.Path, i int) float64 {
	u, v := p.Segment(i-1).Tangent(1), p.Segment(i).Tangent(0)
	return math.Atan2(u.Cross(v), u.Dot(v))
}
