package view

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
)

// stepElevations returns the front of a straight flight or of its blocks and its side; of a flight whose line turns its sides laid
// flat: its front hides itself, and its widths stand on the plan.
func stepElevations(s *set.Set, e *set.Element, sh *set.Steps, behind bool) []Elevation {
	if len(sh.Treads()) == 0 {
		return nil
	}
	left, right := sh.Bends()
	if !left && !right {
		front := newElevation(s, e, behind)
		side := newElevation(s, e, false)
		return []Elevation{front.stepsFront(sh), side.stepsSide(sh, true, "side")}
	}
	names := [2]string{"left side", "right side"}
	if left != right {
		names = [2]string{"inner side", "outer side"}
		if right {
			names = [2]string{"outer side", "inner side"}
		}
	}
	var out []Elevation
	for k, n := range names {
		v := newElevation(s, e, false)
		v.say("LAID FLAT: the " + n + " of a flight that turns, in its true length along that edge. From the front it hides itself; its widths and turns stand on the plan.")
		out = append(out, v.stepsSide(sh, k == 1, n))
	}
	return out
}

// stepsFront draws the flight as one sees it who stands before its foot, or behind its top: each tread is as wide as it is and hides
// what lies behind it.
func (v *elevator) stepsFront(sh *set.Steps) Elevation {
	treads := sh.Treads()
	boxes := make([]geom.Rect, len(treads))
	widest := geom.EmptyRect()
	for k, t := range treads {
		low := 0.0
		if k > 0 && !sh.Blocks && !v.behind {
			low = treads[k-1].Top
		}
		boxes[k] = geom.Rect{Min: geom.Point{X: t.Mid - t.Width/2, Y: low}, Max: geom.Point{X: t.Mid + t.Width/2, Y: t.Top}}
		widest = widest.Union(boxes[k])
	}
	uneven := slices.ContainsFunc(treads, func(t set.Tread) bool {
		return !near(t.Width, treads[0].Width) || !near(t.Mid, treads[0].Mid)
	})
	wide := func(k int) string {
		if !uneven {
			return ""
		}
		return ", " + figure(v.s, treads[k].Width) + " wide"
	}
	var nearer []geom.Rect
	for i := range boxes {
		k := i
		if v.behind {
			k = len(boxes) - 1 - i
		}
		v.stepSeen(boxes[k], nearer)
		nearer = append(nearer, geom.Rect{Min: geom.Point{X: boxes[k].Min.X}, Max: boxes[k].Max})
		if board := max(sh.Tread, sh.Lid); board > geom.Tolerance && !v.behind {
			b := boxes[k]
			v.stroke(polyline(v.at(b.Min.X, b.Max.Y-board), v.at(b.Max.X, b.Max.Y-board)), seenThin)
		}
		// Of treads that differ in width only the outermost edges are in the chain; each has its width in words.
		for _, x := range [2]float64{boxes[k].Min.X, boxes[k].Max.X} {
			if near(x, widest.Min.X) || near(x, widest.Max.X) {
				v.width(x, boxes[k].Min.Y)
			}
		}
		v.height(boxes[k].Max.X, treads[k].Top)
		says := "tread "
		if sh.Blocks {
			says = "block "
		}
		v.stack(v.at(boxes[k].Mid().X, treads[k].Top-sh.Rises[k]/2), word(says+strconv.Itoa(k+1)+"  "+level(v.s, treads[k].Top)+wide(k), drawing.Lettering2_5))
	}
	v.height(widest.Max.X, 0)
	v.lastRise(sh, widest)
	if uneven {
		v.say("Middles, from the middle of the foot, right as one climbs: " + v.shifts(treads) + ".")
	}
	v.face(widest.Min.X+widest.Max.X, sh.Total())
	v.stepWords(sh)
	return v.done()
}

// stepSeen draws a tread's or block's box without its foot; what the nearer ones hide of it is dashed.
func (v *elevator) stepSeen(b geom.Rect, nearer []geom.Rect) {
	for _, l := range [3][2]geom.Point{
		{b.Min, {X: b.Min.X, Y: b.Max.Y}}, {{X: b.Max.X, Y: b.Min.Y}, b.Max}, {{X: b.Min.X, Y: b.Max.Y}, b.Max},
	} {
		part := func(t0, t1 float64, n pen) {
			if t1-t0 > geom.Tolerance {
				from, to := l[0].Lerp(l[1], t0), l[0].Lerp(l[1], t1)
				v.stroke(polyline(v.at(from.X, from.Y), v.at(to.X, to.Y)), n)
			}
		}
		t := 0.0
		for _, h := range hiddenParts(l[0], l[1], nearer) {
			part(t, h[0], seenEdge)
			part(max(t, h[0]), h[1], hiddenEdge)
			t = max(t, h[1])
		}
		part(t, 1, seenEdge)
	}
}

// hiddenParts returns which parts of an upright or level segment lie inside boxes, as shares of its length in order.
func hiddenParts(a, b geom.Point, boxes []geom.Rect) [][2]float64 {
	var out [][2]float64
	in := func(lo, hi, x float64) bool { return x > lo+geom.Tolerance && x < hi-geom.Tolerance }
	add := func(from, to, lo, hi float64) {
		t0, t1 := max((lo-from)/(to-from), 0), min((hi-from)/(to-from), 1)
		if t1-t0 > geom.Tolerance {
			out = append(out, [2]float64{t0, t1})
		}
	}
	for _, r := range boxes {
		switch {
		case near(a.X, b.X) && b.Y > a.Y && in(r.Min.X, r.Max.X, a.X):
			add(a.Y, b.Y, r.Min.Y, r.Max.Y)
		case near(a.Y, b.Y) && b.X > a.X && in(r.Min.Y, r.Max.Y, a.Y):
			add(a.X, b.X, r.Min.X, r.Max.X)
		}
	}
	slices.SortFunc(out, func(p, q [2]float64) int { return cmp.Or(cmp.Compare(p[0], q[0]), cmp.Compare(p[1], q[1])) })
	return out
}

// lastRise marks where the flight lands, one rise over its last tread.
func (v *elevator) lastRise(sh *set.Steps, widest geom.Rect) {
	if sh.Total() <= widest.Max.Y+geom.Tolerance {
		return
	}
	v.stroke(polyline(v.at(widest.Min.X, sh.Total()), v.at(widest.Max.X, sh.Total())), hiddenEdge)
	v.height(widest.Max.X, sh.Total())
}

// stepsSide draws the side as it is cut, with treads and riser boards, and dimensions every rise and going.
func (v *elevator) stepsSide(sh *set.Steps, right bool, seen string) Elevation {
	v.seen, v.upLeft = seen, true
	first := len(v.d.Texts)
	v.flightSide(v.s, sh, right)
	v.d.Texts = v.d.Texts[:first]
	for i := range v.d.Strokes {
		if n := &v.d.Strokes[i]; n.Layer == drawing.Cut {
			n.Width = planWide
		} else if n.Type == drawing.Continuous {
			n.Layer, n.Width = drawing.Cut, planNarrow
		} else {
			n.Layer, n.Type, n.Width = drawing.Cut, drawing.Dashed, planNarrow
		}
	}
	notches, treads := sh.Notches(right), sh.Treads()
	run := notches[len(notches)-1].Riser
	v.width(0, 0)
	v.height(0, 0)
	for k, t := range treads {
		v.width(notches[k+1].Riser, 0)
		v.height(notches[k].Riser, t.Top)
	}
	v.height(run, sh.Total())
	if sh.Meets != "" && !sh.UnderBoard() { // whose board's edge is drawn already
		v.stroke(polyline(geom.Point{X: run, Y: treads[len(treads)-1].Top}, geom.Point{X: run, Y: sh.Total()}), hiddenEdge)
	}
	for k, t := range treads {
		what := strconv.Itoa(k + 1)
		if isLanding(sh, k+1) {
			what += " landing"
		}
		v.stack(geom.Point{X: (notches[k].Riser + notches[k+1].Riser) / 2, Y: t.Top - max(sh.Tread, sh.Lid) - sh.Rises[k]/3}, word(what, drawing.Lettering2_5))
	}
	v.d.Hold = "seen from the right as one climbs, foot at the left"
	title := name(v.e.Name, drawing.Lettering5)
	title.At, title.Align, title.Offset = geom.Point{Y: sh.Total()}, drawing.AlignLeft, geom.Point{Y: 8}
	v.text(title)
	t := word("SIDE, seen from the right as one climbs", drawing.Lettering3_5)
	t.At, t.Align, t.Offset = geom.Point{Y: sh.Total()}, drawing.AlignLeft, geom.Point{Y: 2}
	v.text(t)
	v.stepWords(sh)
	return v.done()
}

// stepWords says rises, goings, the total and the boards.
func (v *elevator) stepWords(sh *set.Steps) {
	along := ""
	if sh.Line != nil {
		along = ", along its line"
	}
	v.say(several(len(sh.Rises), "riser") + ", " + several(len(sh.Goings), "tread") + ": total rise " + figure(v.s, sh.Total()) + ", total going " + figure(v.s, sh.Run()) + along + ".")
	v.say("Rises from the foot: " + v.run(sh.Rises) + ".")
	v.say("Goings from the foot" + along + ": " + v.run(sh.Goings) + ".")
	v.thick("A tread is", sh.Tread)
	v.thick("A riser board is", sh.RiserBoard)
	v.thick("The lid of a block is", sh.Lid)
	if sh.Nosing > geom.Tolerance {
		v.say("Nosing " + figure(v.s, sh.Nosing) + ", not counted in the goings.")
	}
	if sh.Meets != "" {
		v.say("The last riser lands on " + sh.Meets + ".")
	}
}

// shifts lists where the middles of treads lie sideways.
func (v *elevator) shifts(treads []set.Tread) string {
	var out []string
	for _, t := range treads {
		switch {
		case t.Mid > geom.Tolerance:
			out = append(out, figure(v.s, t.Mid)+" right")
		case t.Mid < -geom.Tolerance:
			out = append(out, figure(v.s, -t.Mid)+" left")
		default:
			out = append(out, figure(v.s, 0))
		}
	}
	return strings.Join(out, ", ")
}

// run lists lengths, those that follow one another alike as one.
func (v *elevator) run(list []float64) string {
	out := ""
	for i := 0; i < len(list); {
		n := 1
		for i+n < len(list) && near(list[i+n], list[i]) {
			n++
		}
		if i > 0 {
			out += ", "
		}
		if n > 1 {
			out += strconv.Itoa(n) + " of "
		}
		out += figure(v.s, list[i])
		i += n
	}
	return out
}

// rampFront draws the ramp as one sees it who stands before its lower edge, or behind its upper one.
func (v *elevator) rampFront(sh *set.Ramp) Elevation {
	w := sh.Width / 2
	v.stroke(box(-w, 0, w, sh.Rise), seenEdge)
	v.width(-w, 0)
	v.width(w, 0)
	v.height(w, 0)
	v.height(w, sh.Rise)
	v.face(0, sh.Rise)
	v.say(slopeWords(sh) + ".")
	return v.done()
}

// rampSide draws the wedge.
func (v *elevator) rampSide(sh *set.Ramp) Elevation {
	v.seen = "side"
	v.d.Hold = "seen from the right as one climbs, foot at the left"
	v.stroke(geom.Polygon([]geom.Point{{}, {X: sh.Length}, {X: sh.Length, Y: sh.Rise}}), seenEdge)
	v.width(0, 0)
	v.width(sh.Length, 0)
	v.height(sh.Length, 0)
	v.height(sh.Length, sh.Rise)
	title := name(v.e.Name, drawing.Lettering5)
	title.At, title.Align, title.Offset = geom.Point{Y: sh.Rise}, drawing.AlignLeft, geom.Point{Y: 8}
	v.text(title)
	t := word("SIDE, seen from the right as one climbs", drawing.Lettering3_5)
	t.At, t.Align, t.Offset = geom.Point{Y: sh.Rise}, drawing.AlignLeft, geom.Point{Y: 2}
	v.text(t)
	v.say(slopeWords(sh) + "; along the slope " + figure(v.s, geom.Point{X: sh.Length, Y: sh.Rise}.Len()) + ".")
	return v.done()
}
