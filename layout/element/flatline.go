package element

import (
	"errors"
	"math"

	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
)

// curved reports whether the flat's face is on a line of its own; false where P and Q say where it is.
func (flat) curved(e *elem) (curved, ok bool) {
	switch {
	case e.has("along") && e.has("from"):
		return false, e.clash("from", "along", "either says where its face is")
	case e.has("from"):
		for _, w := range [...]string{"at", "turn"} {
			if e.has(w) {
				return false, e.clash("from", w, "P and Q say where it stands")
			}
		}
		return false, e.arg("from") != nil
	case !e.has("along"):
		return false, e.hint(e.st.NameSpan, "`"+e.name+"` needs its `from` or its `along`", "write `from -2400, 3000 to 2400, 3000`, or `along path 0,0 arc to 2400,0 radius 2000 right`")
	}
	if ref, ok := e.arg("along").(*notation.Ref); ok {
		if ref.Name == e.name {
			return true, e.errorf(ref.Span, "`%s` cannot run along itself", e.name)
		}
		for _, w := range [...]string{"at", "turn"} {
			if e.has(w) {
				return true, e.clash("along", w, "the line that it is along says where it stands")
			}
		}
	}
	return true, e.arg("along") != nil
}

// faceLine is the line of a curved flat's face in its own axes: one with two ends that meets itself nowhere.
func (flat) faceLine(e *elem) (*geom.Path, bool) {
	return eval.Ask(e.sc.ev, &e.drawnOn, e.cell("along"), e.place("along"), func() (*geom.Path, bool) {
		var line *geom.Path
		n := e.arg("along")
		switch n := n.(type) {
		case *notation.Path:
			var ok bool
			if line, ok = e.sc.ev.Path(n, e.local); !ok {
				return nil, false
			}
		case *notation.Ref:
			other, _, ok := e.sc.element(n)
			if !ok {
				return nil, false
			}
			if line, ok = other.kind.line(other); !ok {
				return nil, false
			}
			if line == nil || line.Empty() {
				return nil, e.hint(n.Span, "`"+n.Name+"` is no line along which a flat can stand", "a mark with a `path` is one")
			}
		default:
			return nil, false
		}
		at := n.Pos()
		if line.Closed() || line.Start().Near(line.End()) {
			return nil, e.hint(at, "this line closes, and a flat has two ends", "end it short of its start, or make two flats of it")
		}
		if onePiece(line) {
			return line, true
		}
		if i, j, where, crosses := line.SelfCrossing(); crosses {
			what := ordinal("piece", i) + " and " + ordinal("piece", j)
			if i == j {
				what = ordinal("piece", i)
			}
			return nil, e.errorf(at, "the line crosses or touches itself: %s at %s, %s", what, e.show(where.X), e.show(where.Y))
		}
		return line, true
	})
}

// onePiece reports whether a line is one straight piece or one arc, which never meets itself: most are, and are not looked
// through.
func onePiece(p *geom.Path) bool {
	kind := p.Segment(0).Kind
	return p.Len() == 1 && (kind == geom.Line || kind == geom.Arc)
}

func ordinal(what string, i int) string { return what + " " + count(i+1) }

// thickEnough reports what keeps a curved flat from having its thickness behind its line.
func (flat) thickEnough(e *elem, f *set.Flat) bool {
	at := e.arg("along").Pos()
	p, err := f.Strip(0, f.Length)
	if bad := (*geom.ParallelError)(nil); errors.As(err, &bad) {
		return e.noBack(f, bad, at)
	}
	if err != nil {
		return e.errorf(at, "%s", err)
	}
	if onePiece(f.Line) {
		return true
	}
	if _, _, where, crosses := p.SelfCrossing(); crosses {
		return e.hint(at, "the flat is "+e.show(math.Abs(f.Behind()))+" thick, and there it runs into itself: at "+e.show(where.X)+", "+e.show(where.Y),
			"make it thinner, or keep the line further from itself")
	}
	return true
}

// noBack says why a flat has no back at its thickness, and what would fit.
func (e *elem) noBack(f *set.Flat, bad *geom.ParallelError, at diag.Span) bool {
	thick, piece := e.show(math.Abs(f.Behind())), ordinal("piece", bad.Segment)
	switch {
	case bad.Turn > 0:
		return e.hint(at, "after "+piece+" the line turns back too sharply for a wall", "a wall can turn by up to 150° in a corner")
	case bad.Radius > 0:
		return e.hint(at, piece+" of the line has a radius of "+e.show(bad.Radius)+", and behind it the flat is "+thick+" thick",
			"a radius of more than %s fits, or a thickness of less than %s", thick, e.show(bad.Radius))
	}
	fits := "make the flat thinner"
	if more := bad.Taken - bad.Length; more > 0.05 {
		fits = "make the piece at least " + e.show(more) + " longer, or the flat thinner"
	}
	return e.hint(at, piece+" of the line is too short for a flat "+thick+" thick: its corners take "+e.show(bad.Taken)+" of the "+e.show(bad.Length)+" behind it", "%s", fits)
}

// onLine is start, end or along(d) of a piece whose face is on a line.
func (e *elem) onLine(line *geom.Path, ask notation.Ask) (spot, bool) {
	d := 0.0
	switch ask.Word {
	case "start":
	case "end":
		d = line.Length()
	default:
		return e.alongPath(line, ask)
	}
	at, ahead := line.At(d)
	return spot{at: at, outward: geom.Point{X: ahead.Y, Y: -ahead.X}}, true
}
