// Package develop turns the elements of a set into flat pieces of card or board at a scale: what is cut, where it is
// folded, rolled and bevelled, and which edges are joined to which.
//
// The rules of the trade that it keeps (common practice, no source, where none is named): a top runs through and walls
// stand under it; of two walls that meet square the one nearer the front runs through and the other is shorter by the
// thickness, so that outside sizes are true for card of any thickness; walls that meet at less than a right angle's
// turn are mitred, and every edge that is not square says its bevel; what is rolled is as long as the middle of the card; card up
// to 0.6 mm is folded and has tabs, thicker card is butted. Nothing has an underside but a platform that is `closed`,
// a ring, and a hollow flat along a line, whose strip along the foot keeps it to its curve.
//
// Lengths are millimetres of the model. The package knows neither paper nor sheets.
package develop

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"markout/layout/diag"
	"markout/layout/figures"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// least is the size in millimetres of the smallest feature that is cut.
const least = 0.5

// mostScale is the greatest denominator of a scale.
const mostScale = 1e5

// tubeLeast is the diameter in millimetres from which a post is a tube (common practice, no source).
const tubeLeast = 8

// Options say what the model is made of.
type Options struct {
	Scale        float64 // denominator; 0 for the set's
	Card         float64 // thickness of the one card for everything; 0 for the set's cards
	PrintOutside bool    // print on the side that is seen
}

// Develop makes the pieces of every element that is built: platforms, steps, ramps, posts, flats, rings, cones, shapes, figures and
// what dressing says how it is modelled, each of its own card (cardFor says which) and as its `model` says. Every copy has its place on the base sheet, one that
// is not modelled too. The list holds what cannot be made, each thing at its place in the text with what would fit; its
// element then has no pieces, and its place says so.
func Develop(s *set.Set, opt Options) (*Model, *diag.List) {
	list := &diag.List{Sources: s.Sources}
	m := &Model{Scale: opt.Scale, sources: s.Sources}
	if m.Scale == 0 {
		m.Scale = s.Scale
	}
	if !(m.Scale > 0) {
		list.Hintf(s.Span, "the set has no scale to make a model at", "write `scale 1:25`, or give --scale 1:25")
		return m, list
	}
	if m.Scale > mostScale || m.Scale < 1/mostScale {
		list.Errorf(s.Span, "a model's scale lies between %s:1 and 1:%s", number(mostScale), number(mostScale))
		return m, list
	}
	cards := s.Cards
	if opt.Card != 0 {
		cards = []set.Card{{Thickness: opt.Card}}
	}
	if len(cards) == 0 {
		list.Hintf(s.Span, "the set names no card to make a model of", "write `card 1.5`, or give --card 1.5")
		return m, list
	}
	for _, c := range cards {
		if !(c.Thickness > 0) || c.Thickness > 1000 {
			list.Errorf(s.Span, "card has a thickness of more than 0 and at most 1 m")
			return m, list
		}
	}
	m.leaveOut(s)
	m.mirrored(s)
	for _, e := range s.Elements {
		if e = boxed(e); modelled(e.Shape) {
			m.element(s, e, cardFor(e, cards), opt, list)
		}
	}
	m.drill()
	return m, list
}

func modelled(sh set.Shape) bool {
	switch sh.(type) {
	case *set.Platform, *set.Steps, *set.Ramp, *set.Post, *set.Flat, *set.Ring, *set.Panel, *set.Cone, *set.Figure:
		return true
	}
	return false
}

// element adds the pieces of one element, for each of its copies.
func (m *Model) element(s *set.Set, e *set.Element, card set.Card, opt Options, list *diag.List) {
	k := &work{e: e, card: card, held: figures.OnWall(s, e)}
	by := 1 / m.Scale
	_, post := e.Shape.(*set.Post)
	_, cone := e.Shape.(*set.Cone)
	if !post && (e.Model == "rod" && !cone || e.Model == "tube") {
		list.Hintf(e.Spans["model"], "`"+e.Name+"` is no post, and only a post is modelled as a "+e.Model, "leave `model` out, or write `model no`")
		return
	}
	rod := rodOf(e, by)
	var err error
	switch {
	case e.Model == "no" || rod != nil:
	case k.vanishes(by):
	default:
		err = k.make(by)
	}
	for _, x := range k.small {
		m.Small = append(m.Small, x)
	}
	for _, n := range k.notes {
		m.Notes = append(m.Notes, Note{e.Name, n})
	}
	if err != nil {
		k.say(s, m.Scale, by, err, list)
	}
	for _, c := range e.Copies {
		name, f := e.CopyName(c), scaledFrame(c.Places[0].Frame, by)
		if err == nil {
			m.place(k, name, f, !opt.PrintOutside)
		}
		m.stand(c, Footprint{Element: name, NotModelled: rod == nil && (err != nil || len(k.drafts) == 0)}, e.Shape, by, rod)
	}
}

// make works out the element's pieces in its own axes.
func (k *work) make(by float64) error {
	switch sh := k.e.Shape.(type) {
	case *set.Platform:
		return k.platform(sh, by)
	case *set.Steps:
		return k.steps(sh, by)
	case *set.Ramp:
		return k.ramp(sh, by)
	case *set.Post:
		return k.post(sh, by)
	case *set.Ring:
		return k.ring(sh, by)
	case *set.Flat:
		return k.flat(k.scaledFlat(sh, by))
	case *set.Panel:
		return k.panel(sh, by)
	case *set.Cone:
		return k.cone(sh, by)
	case *set.Figure:
		return k.figure(sh, by)
	}
	return nil
}

// say reports why the element cannot be made, with the thickest card that would do at this scale and the smallest of the
// usual scales at which this card would.
func (k *work) say(s *set.Set, scale, by float64, err error, list *diag.List) {
	at := k.e.NameSpan
	if errors.Is(err, errNoCard) || errors.Is(err, errParts) {
		if sp, ok := k.e.Spans["opening"]; ok {
			at = sp
		}
		message := fmt.Sprintf("`%s` cannot be made: %s", k.e.Name, err)
		if errors.Is(err, errParts) {
			list.Hintf(at, message, "leave card over or under them, or make flats of its parts")
			return
		}
		list.Errorf(at, "%s", message)
		return
	}
	message := fmt.Sprintf("`%s` cannot be made of card %s at 1:%s: %s", k.e.Name, number(k.card.Thickness), number(scale), err)
	makes := func(t, by float64) bool {
		try := &work{e: k.e, card: set.Card{Thickness: t}}
		return !try.vanishes(by) && try.make(by) == nil
	}
	var would []string
	// Halving finds the thickest card that does.
	lo, hi := 0.0, k.card.Thickness
	for range 24 {
		if mid := (lo + hi) / 2; makes(mid, by) {
			lo = mid
		} else {
			hi = mid
		}
	}
	fits := floorTenth(lo)
	if fits >= 0.1 && !makes(fits, by) {
		fits = floorTenth(fits - 0.1)
	}
	if fits >= 0.1 && makes(fits, by) {
		would = append(would, "card up to "+number(fits)+" would do")
	}
	for _, n := range usualScales {
		if n < scale && makes(k.card.Thickness, 1/n) {
			would = append(would, "this card would do at 1:"+number(n))
			break
		}
	}
	if len(would) == 0 {
		list.Errorf(at, "%s", message)
		return
	}
	list.Hintf(at, message, "%s", strings.Join(would, "; "))
}

// usualScales are those that models are made at, the smallest first.
var usualScales = []float64{100, 50, 48, 25, 24, 20, 12, 10, 5, 2, 1}

func floorTenth(x float64) float64 { return float64(int(x*10+1e-6)) / 10 }

// place adds the pieces and joints of one copy, which stands in the frame f.
func (m *Model) place(k *work, name string, f geom.Frame, hidden bool) {
	first := len(m.Pieces)
	for i, d := range k.drafts {
		p := k.settle(d.clone(), !hidden)
		p.Element, p.Number, p.Of = name, i+1, len(k.drafts)
		p.Lie, p.Span = k.e.Lie, k.e.NameSpan
		p.body.frame = p.body.frame.Then(f)
		m.Pieces = append(m.Pieces, p)
	}
	for i, j := range k.joints {
		m.Joints = append(m.Joints, Joint{
			Element: name, Number: i + 1, Treatment: j.how,
			A: settleSide(j.a, &m.Pieces[first+j.a.Piece], first),
			B: settleSide(j.b, &m.Pieces[first+j.b.Piece], first),
		})
	}
}

// stand notes where a copy stands on the base sheet.
func (m *Model) stand(c set.Copy, print Footprint, shape set.Shape, by float64, rod *Rod) {
	pl := c.Places[0]
	plan := pl.Frame.Plan()
	print.Level = pl.Level() * by
	for _, r := range set.Footprints(shape) {
		print.Areas = append(print.Areas, scaledRegion(r.Transform(plan), by))
	}
	if rod != nil {
		r := *rod
		r.Element = print.Element
		r.Hole = r.Section != tapered && math.Abs(print.Level) <= geom.Tolerance
		print.Hole = r.Hole
		r.stands = len(m.Base)
		m.Rods = append(m.Rods, r)
	}
	if len(print.Areas) > 0 {
		m.Base = append(m.Base, print)
	}
}

// scaledFrame returns the frame with its shift at the model's scale.
func scaledFrame(f geom.Frame, by float64) geom.Frame {
	f.T = geom.Vec{X: f.T.X * by, Y: f.T.Y * by, Z: f.T.Z * by}
	return f
}

// number prints a number to at most three decimals, without trailing noughts.
func number(x float64) string { return unit.FormatNumber(x, 0.001) }
