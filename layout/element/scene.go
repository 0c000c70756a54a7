package element

import (
	"strconv"

	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// makers are the kinds of pieces in the order in which the reference lists them.
var makers = []maker{hall{}, platform{}, steps{}, ramp{}, post{}, flat{}, ring{}, cone{}, panel{}, figure{}, cloth{}, dressing{}, room{}, mark{}, walk{}, reserve{}}

// Kinds returns the tables of the set statement, of all kinds of pieces and of what they are cut from, for the parser, the formatter and the reference.
func Kinds() []notation.Kind {
	out := []notation.Kind{*setTable}
	for _, m := range makers {
		out = append(out, *m.table())
	}
	return append(out, *boardTable, *lengthTable, *stockTable, *partTable)
}

func makerOf(word string) maker {
	for _, m := range makers {
		if m.table().Word == word {
			return m
		}
	}
	return nil
}

// Options change how a set is worked out.
type Options struct {
	Hall string // the hall worked in, where there are several
	Date string // in place of the issue line's
	Main string // name of the main file: the set's name where no `set` gives one
	// Read reads a list that the text names, from the folder of the file in which it is named, and reports at the name what is
	// wrong. Without it lists are left out.
	Read func(name *notation.Text) (id diag.FileID, text []byte, ok bool)
	// Picture reads artwork that the text names, and reports at the name what is wrong. Without it pieces made of artwork are left out.
	Picture func(name *notation.Text) (*set.Artwork, bool)
	// Outlines are those of sets made from the same files before; nil for none.
	Outlines *Outlines
}

// scene is all elements of a set while they are worked out.
type scene struct {
	ev     *eval.Evaluator
	list   *diag.List
	elems  []*elem
	byName map[string]*elem
	places int
	named  []set.Card // cards of the `set` line

	picture  func(name *notation.Text) (*set.Artwork, bool)
	outlines *Outlines
	untraced map[outlineKey]bool // artwork without an outline, of which that is said already
}

func count(n int) string { return strconv.Itoa(n) }

// Resolve works out a set from the statements of all its files, in order. What is wrong is added to list; the set then
// holds what could be worked out. Statements are let go as they are done with: the caller must not use them afterwards.
func Resolve(statements []*notation.Statement, list *diag.List, opt Options) *set.Set {
	out := &set.Set{Sources: list.Sources, Name: opt.Main, Sides: "stage", Trial: true}
	sc := &scene{list: list, byName: map[string]*elem{}, picture: opt.Picture, outlines: opt.Outlines}
	if sc.outlines == nil {
		sc.outlines = &Outlines{}
	}
	sc.ev = eval.New(unit.Millimetre, list)
	sc.setLine(out, statements, opt)
	sc.named = out.Cards
	named := map[string]diag.Span{}
	for _, st := range statements {
		sc.open(st, named)
	}
	room := sc.hallWorkedIn(opt.Hall)
	if room != nil {
		sc.ev.Station = func(name string) (geom.Point, bool, bool) { return hall{}.station(room, name) }
	}
	for _, st := range statements {
		if st.Word == "let" && st.Name != "" && named[st.Name] == st.NameSpan {
			sc.ev.AskLet(st.Name, st.NameSpan)
		}
	}
	for _, e := range sc.elems {
		el, ok := e.element()
		if !ok {
			continue
		}
		out.Elements = append(out.Elements, el)
		if e == room {
			out.Hall = el
		}
	}
	sc.stand(out)
	sc.looks(out)
	sc.tags(out)
	sc.materials(out, statements, named, opt)
	for _, st := range statements {
		switch {
		case st.Bad:
		case st.Word == "keep":
			sc.keep(out, st)
		case st.Word == "dim":
			sc.dim(out, st)
		}
	}
	return out
}

// open takes up one statement.
func (sc *scene) open(st *notation.Statement, named map[string]diag.Span) {
	if st.Name == "" {
		return
	}
	m := makerOf(st.Word)
	if m == nil && st.Word != "let" {
		sc.ev.Broken(st.Name)
		return
	}
	if first, ok := named[st.Name]; ok {
		sc.list.Errorf(st.NameSpan, "`%s` is a name already; the first is at %s", st.Name, sc.list.Sources.Position(first))
		return
	}
	named[st.Name] = st.NameSpan
	if m == nil {
		sc.ev.Let(st.Name, st.NameSpan, st.Args.Get("="))
		return
	}
	e := &elem{sc: sc, st: st, kind: m, name: st.Name}
	sc.elems = append(sc.elems, e)
	sc.byName[st.Name] = e
	sc.ev.Name(st.Name, e)
}

func (sc *scene) known(name string) bool { return sc.ev.Known(name) }

// element finds the element that a reference names, and the number of the copy that it means.
func (sc *scene) element(ref *notation.Ref) (*elem, int, bool) {
	t, ok := sc.ev.Find(ref)
	if !ok {
		return nil, 0, false
	}
	e := t.(*elem)
	k, ok := e.which(ref)
	return e, k, ok
}

// hallWorkedIn is the only hall, or the one that was asked for.
func (sc *scene) hallWorkedIn(name string) *elem {
	var only, second *elem
	for _, e := range sc.elems {
		if _, ok := e.kind.(hall); !ok {
			continue
		}
		switch {
		case e.name == name:
			return e
		case only == nil:
			only = e
		case second == nil:
			second = e
		}
	}
	switch {
	case name != "":
		sc.list.Errorf(diag.Span{}, "--hall %s: there is no hall of this name", name)
		return nil
	case second != nil:
		sc.list.Hintf(second.st.NameSpan, "there are several halls, and one is worked in", "say which: `--hall %s`", second.name)
	}
	return only
}

// element works the whole element out.
func (e *elem) element() (*set.Element, bool) {
	if e.st.Bad {
		return nil, false
	}
	sh, ok1 := e.shape()
	copies, ok2 := e.resolve()
	if !ok1 || !ok2 || !e.reach(sh, copies) {
		return nil, false
	}
	out := &set.Element{
		Name: e.name, Kind: e.st.Word, Span: e.st.Span, NameSpan: e.st.NameSpan, Shape: sh, Copies: copies,
		Spans: make(map[string]diag.Span, len(e.st.Attributes)), Numbered: e.repeated(),
	}
	ok := e.makeOf(out)
	for _, a := range e.st.Attributes {
		if _, there := out.Spans[a.Word]; !there {
			out.Spans[a.Word] = a.Span
		}
		switch a.Word {
		case "note":
			if t := text(a.Args.Get("")); t != "" {
				out.Notes = append(out.Notes, t)
			}
		case "tape":
			var fine bool
			out.Tape, fine = e.tape(a)
			ok = ok && fine
		case "full-size":
			for _, v := range a.Args {
				out.FullSize = append(out.FullSize, word(v.Value))
			}
		}
	}
	e.settled()
	return out, ok
}

// tape reads the tape's words and its width.
func (e *elem) tape(a *notation.Attribute) (*set.Tape, bool) {
	out := &set.Tape{Colour: text(a.Args.Get(""))}
	if len(a.Args) < 2 {
		return out, len(a.Args) == 1
	}
	w, ok := e.sc.ev.Small(a.Args[1].Value, "tape")
	out.Width = w
	return out, ok
}

// reach reports a copy that lies beyond the greatest coordinate.
func (e *elem) reach(sh set.Shape, copies []set.Copy) bool {
	own := geom.EmptyRect()
	for _, r := range set.Footprints(sh) {
		own = own.Union(r.Outer.Bounds())
	}
	if m, ok := sh.(*set.Mark); ok {
		for _, p := range m.Points {
			own = own.Include(p)
		}
		for _, p := range m.Paths {
			own = own.Union(p.Bounds())
		}
	}
	r := 0.0
	if !own.Empty() {
		r = max(own.Min.Len(), own.Max.Len(), geom.Point{X: own.Min.X, Y: own.Max.Y}.Len(), geom.Point{X: own.Max.X, Y: own.Min.Y}.Len())
	}
	h := set.Height(sh)
	for _, c := range copies {
		for _, pl := range c.Places {
			t := pl.Frame.T
			if max(t.X, -t.X, t.Y, -t.Y)+r > eval.Furthest || max(-t.Z, t.Z+h) > eval.Furthest {
				at := e.st.NameSpan
				for _, w := range [...]string{"repeat", "at", "from", "along", "starts", "meets", "stands", "point", "path", "outline", "level"} {
					if e.has(w) {
						at = e.place(w)
						break
					}
				}
				return e.errorf(at, "`%s` reaches more than 10 km from 0, 0, the limit", e.name)
			}
		}
	}
	return true
}

// settled lets go of what can no longer be asked for: the lines and outlines of the text.
func (e *elem) settled() {
	for _, a := range e.st.Attributes {
		switch a.Word {
		case "outline", "outer", "path", "opening", "hole", "pillar", "panel", "fixings":
			a.Args, a.Sub = nil, nil
		}
	}
}

// keep takes up a distance that must not be less.
func (sc *scene) keep(out *set.Set, st *notation.Statement) {
	a, ok1 := sc.keeps(st.Args.Get(""))
	b, ok2 := sc.keeps(st.Args.Get("to"))
	d, ok3 := sc.ev.Positive(st.Args.Get("least"), "at least")
	if ok1 && ok2 && a == b {
		sc.list.Errorf(st.Args.Get("to").Pos(), "`%s` is as near to itself as can be; two pieces are wanted", a)
		return
	}
	if ok1 && ok2 && ok3 {
		out.Keeps = append(out.Keeps, set.Keep{A: a, B: b, AtLeast: d, Span: st.Span})
	}
}

// keeps is the name of an element, of all its copies or of one.
func (sc *scene) keeps(n notation.Node) (string, bool) {
	ref, ok := n.(*notation.Ref)
	if !ok {
		return "", false
	}
	t, ok := sc.ev.Find(ref)
	if !ok {
		return "", false
	}
	e := t.(*elem)
	if ref.Copy == 0 {
		return e.name, true
	}
	k, ok := e.which(ref)
	return e.copyName(k), ok
}

// dim takes up a distance that people want to see.
func (sc *scene) dim(out *set.Set, st *notation.Statement) {
	a, ok1 := sc.dimEnd(st.Args.Get(""))
	b, ok2 := sc.dimEnd(st.Args.Get("to"))
	if ok1 && ok2 {
		out.Dims = append(out.Dims, set.Dim{A: a, B: b, Span: st.Span})
	}
}

// dimEnd is a place, or a whole element.
func (sc *scene) dimEnd(n notation.Node) (set.Anchor, bool) {
	if n == nil {
		return set.Anchor{}, false
	}
	a := set.Anchor{Words: sc.words(n.Pos())}
	if ref, ok := n.(*notation.Ref); ok && len(ref.Asks) == 0 {
		t, ok := sc.ev.Find(ref)
		if !ok {
			return a, false
		}
		e := t.(*elem)
		k := 1
		a.Element, a.Whole = e.name, true
		if ref.Copy != 0 {
			if k, ok = e.which(ref); !ok {
				return a, false
			}
			a.Element = e.copyName(k)
		}
		p, ok := e.planOf(k)
		a.At = p.at
		return a, ok
	}
	p, ok := sc.ev.Place(n, geom.Move(geom.Point{}, 0))
	if e, fine := p.Of.(*elem); fine {
		a.Element = e.copyName(max(p.Copy, 1))
	}
	a.At = p.At
	return a, ok
}

// words returns the text at a place.
func (sc *scene) words(sp diag.Span) string {
	t := sc.list.Sources.Text(sp.File)
	if int(sp.To) > len(t) {
		return ""
	}
	return string(t[sp.From:sp.To])
}
