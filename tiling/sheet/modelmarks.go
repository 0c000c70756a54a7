package sheet

import (
	"fmt"
	"math"
	"sync"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/unit"
	"markout/tiling"
)

// edgeMark is what is said of a line on a piece, in the piece's own axes: in full, shorter, and shortest.
type edgeMark struct {
	line  []geom.Point
	forms []string
}

// treatments are the ways to join in words and as the letter that stands for them in little room.
var treatments = []struct {
	of          develop.Treatment
	code, words string
}{
	{develop.Through, "T", "runs through"},
	{develop.Captive, "C", "captive"},
	{develop.Mitre, "M", "mitre"},
	{develop.Stands, "U", "stands under"},
	{develop.Tabbed, "B", "tab"},
	{develop.Laid, "L", "laid on"},
	{develop.Backed, "S", "strip behind"},
	{develop.Edged, "E", "edge to edge"},
	{develop.Lapped, "P", "lap"},
	{develop.Open, "O", "open"},
}

const faceCode, faceWords = "F", "glued on the face"

func treatmentWords(t develop.Treatment) (code, words string) {
	for _, k := range treatments {
		if k.of == t {
			return k.code, k.words
		}
	}
	return "", string(t)
}

// leastBevel is the smallest bevel in degrees that is said.
const leastBevel = 0.05

func bevelWords(deg float64) string { return unit.FormatNumber(deg, 0.1) + "°" }

// marksOf returns what is said along the edges of a piece: its joints in their order, then the bevels of edges that join nothing.
func (c *CardModel) marksOf(piece int) []edgeMark {
	p := &c.Model.Pieces[piece]
	var out []edgeMark
	said := make([]bool, len(p.Edges))
	for _, k := range c.jointsAt[piece] {
		j := &c.Model.Joints[k.joint]
		own, other := &j.A, &j.B
		if k.second {
			own, other = other, own
		}
		out = append(out, c.jointMark(p, j, own, other, said))
	}
	for i, e := range p.Edges {
		if said[i] || e.Bevel < leastBevel {
			continue
		}
		code, words := treatmentWords(e.Treatment)
		out = append(out, edgeMark{
			line:  []geom.Point{e.Line.From, e.Line.To},
			forms: []string{words + ", bevel " + bevelWords(e.Bevel), code + bevelWords(e.Bevel)},
		})
	}
	return out
}

// jointMark is what is said of a joint on one of its pieces.
func (c *CardModel) jointMark(p *develop.Piece, j *develop.Joint, own, other *develop.Side, said []bool) edgeMark {
	m := edgeMark{line: own.Line}
	to := &c.Model.Pieces[other.Piece]
	name := fmt.Sprint(to.Number)
	if to.Element != p.Element {
		name = to.Label()
	}
	i := edgeAt(p, own.Line)
	if i < 0 {
		if how := c.unedged(p, j, other); how != "" {
			code, words := treatmentWords(how)
			m.forms = []string{j.Label() + " to " + name + ": " + words, j.Label() + " " + code, j.Label()}
			return m
		}
		m.forms = []string{j.Label() + ": " + name + " glued on", j.Label() + " " + faceCode, j.Label()}
		return m
	}
	said[i] = true
	e := &p.Edges[i]
	code, words := treatmentWords(e.Treatment)
	full, short := j.Label()+" to "+name+": "+words, j.Label()+" "+code
	if e.Bevel >= leastBevel {
		full, short = full+" "+bevelWords(e.Bevel), short+bevelWords(e.Bevel)
	}
	m.forms = []string{full, short, j.Label()}
	return m
}

// unedged is how a piece is joined where it has no prepared edge: by its tabs along a curve, laid on the other, or held between
// others that run through over its cut edge, as the side of a flight is under its treads; empty where the other is glued on its
// face.
func (c *CardModel) unedged(p *develop.Piece, j *develop.Joint, other *develop.Side) develop.Treatment {
	if j.Treatment == develop.Laid {
		return develop.Laid
	}
	to := &c.Model.Pieces[other.Piece]
	if i := edgeAt(to, other.Line); i >= 0 && to.Edges[i].Treatment == develop.Through {
		return develop.Captive
	}
	for _, t := range p.Tabs {
		if t.Joint == j.Number {
			return develop.Tabbed
		}
	}
	return ""
}

// edgeAt finds the prepared edge of a piece that a joint's line lies along, within the thickness of the card; −1 where there is
// none and the line lies on the piece's face.
func edgeAt(p *develop.Piece, line []geom.Point) int {
	if len(line) < 2 {
		return -1
	}
	a, b := line[0], line[len(line)-1]
	best, least := -1, math.Inf(1)
	for i := range p.Edges {
		l := p.Edges[i].Line
		u := l.To.Sub(l.From).Unit()
		if u == (geom.Point{}) || math.Abs(u.Cross(b.Sub(a).Unit())) > 0.02 {
			continue
		}
		far := max(math.Abs(u.Cross(a.Sub(l.From))), math.Abs(u.Cross(b.Sub(l.From))))
		reach := p.Thickness + max(p.Edges[i].Front, p.Edges[i].Back) + 10*geom.Tolerance
		mid := a.Lerp(b, 0.5).Sub(l.From).Dot(u)
		if far > reach || mid < -reach || mid > l.From.Dist(l.To)+reach {
			continue
		}
		if far < least-geom.Tolerance {
			best, least = i, far
		}
	}
	return best
}

// jointAt is a joint of a piece, and whether the piece is its second.
type jointAt struct {
	joint  int
	second bool
}

// index gathers the joints of each piece.
func (c *CardModel) index() {
	c.jointsAt = make([][]jointAt, len(c.Model.Pieces))
	c.glue = make([]glueFound, len(c.Model.Pieces))
	for i := range c.Model.Joints {
		j := &c.Model.Joints[i]
		c.jointsAt[j.A.Piece] = append(c.jointsAt[j.A.Piece], jointAt{i, false})
		c.jointsAt[j.B.Piece] = append(c.jointsAt[j.B.Piece], jointAt{i, true})
	}
}

// glueLines are the lines on a piece to which others are glued or laid on it, in its own axes.
func (c *CardModel) glueLines(piece int) []*geom.Path {
	g := &c.glue[piece]
	g.once.Do(func() { g.lines = c.findGlueLines(piece) })
	return g.lines
}

// glueFound is a piece's glue lines, found once: sheets are drawn by several workers.
type glueFound struct {
	once  sync.Once
	lines []*geom.Path
}

func (c *CardModel) findGlueLines(piece int) []*geom.Path {
	p := &c.Model.Pieces[piece]
	var out []*geom.Path
	for _, k := range c.jointsAt[piece] {
		j := &c.Model.Joints[k.joint]
		own, other := &j.A, &j.B
		if k.second {
			own, other = other, own
		}
		q := layLine(p, j, own)
		e := edgeAt(p, own.Line)
		if e < 0 && c.unedged(p, j, other) == "" || e >= 0 && j.Treatment != develop.Laid && p.Edges[e].Treatment == develop.Through {
			q = c.glueLine(p, own, other)
		}
		if q != nil {
			out = append(out, q)
		}
	}
	return out
}

// glueLine is where the inner face of a piece that is glued on comes to lie: beside the joint's line, so far in as the other
// piece is thick. Only what is printed on the side that is glued on is drawn; nil where there is nothing to draw.
func (c *CardModel) glueLine(p *develop.Piece, own, other *develop.Side) *geom.Path {
	t := c.Model.Pieces[other.Piece].Thickness
	if own.Depth > geom.Tolerance || t < leastGlue || len(own.Line) < 2 {
		return nil
	}
	var best *geom.Path
	longest := 0.0
	for _, side := range [2]float64{t, -t} {
		if q := insideRun(p.Outline, offsetLine(own.Line, side)); q != nil && q.Length() > longest+geom.Tolerance {
			best, longest = q, q.Length()
		}
	}
	return best
}

// straightened returns an area with straight sides for its curves; asking often whether a place lies in it is then quick.
func straightened(r geom.Region) geom.Region {
	straight := func(p *geom.Path) *geom.Path {
		if p.Straight() {
			return p
		}
		return geom.Polygon(p.Flatten(tiling.Flatness, nil))
	}
	out := geom.Region{Outer: straight(r.Outer)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, straight(h))
	}
	return out
}

// layLine is where the edge of a piece that is laid on comes to lie, on the printed side; nil where it is the piece's own edge.
func layLine(p *develop.Piece, j *develop.Joint, own *develop.Side) *geom.Path {
	if j.Treatment != develop.Laid || own.Depth > geom.Tolerance || len(own.Line) < 2 {
		return nil
	}
	at, dir := placeOn(own.Line, polyLength(own.Line)/2)
	beside := dir.Left().Mul(leastGlue / 2)
	if !p.Outline.Contains(at.Add(beside)) || !p.Outline.Contains(at.Sub(beside)) {
		return nil
	}
	return insideRun(p.Outline, own.Line)
}

// leastGlue is the least thickness in millimetres of which a glue line can be told from the edge.
const leastGlue = 0.6

// offsetLine moves a line to its left.
func offsetLine(line []geom.Point, d float64) []geom.Point {
	out := make([]geom.Point, len(line))
	for i := range line {
		in, to := max(i-1, 0), min(i+1, len(line)-1)
		out[i] = line[i].Add(line[to].Sub(line[in]).Unit().Left().Mul(d))
	}
	return out
}

// insideRun returns the longest run of a line that lies in an area, whose curves are taken as the page draws them.
func insideRun(r geom.Region, line []geom.Point) *geom.Path {
	const steps = 48
	r = straightened(r)
	var best, run []geom.Point
	length := func(ps []geom.Point) float64 {
		l := 0.0
		for i := 1; i < len(ps); i++ {
			l += ps[i-1].Dist(ps[i])
		}
		return l
	}
	end := func() {
		if length(run) > length(best) {
			best = run
		}
		run = nil
	}
	for i := 1; i < len(line); i++ {
		n := max(1, steps/(len(line)-1))
		for k := 0; k <= n; k++ {
			if k == 0 && i > 1 {
				continue
			}
			q := line[i-1].Lerp(line[i], float64(k)/float64(n))
			if r.Contains(q) {
				run = append(run, q)
			} else {
				end()
			}
		}
	}
	end()
	if length(best) < 1 {
		return nil
	}
	if len(line) == 2 {
		best = []geom.Point{best[0], best[len(best)-1]}
	}
	q := geom.NewPath(best[0])
	for _, p := range best[1:] {
		q.LineTo(p)
	}
	return q
}
