package layout

import (
	"path"
	"slices"
	"strings"
	"unicode"

	"markout/layout/diag"
	"markout/layout/eval"
	"markout/layout/notation"
	"markout/layout/unit"
)

// MostOptions is how many options are tried in one run.
const MostOptions = 1000

// Trial is a value of a set and what is tried in its place.
type Trial struct {
	Word    string // what is tried: front.rise, or the name of a let
	Element string // the piece whose attribute it is; empty of a let and of what pieces are cut from
	Values  []Tried
}

// Tried is one of the values.
type Tried struct {
	Change string // as Options.With has it
	Text   string // as people read it
	Number bool   // X is known; otherwise it is a list, a place or a word, or takes a measure of a piece
	X      float64
}

// ReadTrials reads texts as --try has them, on the files that Open would open with the same options:
//
//	front.risers=2..6             a count, by ones
//	front.rise=6"..7" by 1/4"     other values, by the step that is said; the last is not passed
//	front.built=flight, blocks    whatever the attribute takes, with commas between; in brackets what has commas itself
//	rise=rise - 15                a let by its own value as the file has it
//
// and both mixed. Values are read as the file reads them, lets among them. The list holds what is wrong, each thing at its place in a
// text named --try. With several texts every value of one goes with every value of the others, and that makes at most MostOptions.
func ReadTrials(files Files, main string, opt Options, texts []string) ([]Trial, *diag.List) {
	main = path.Clean(main)
	r, ok := read(files, main, opt.Memory)
	if !ok {
		return nil, r.list
	}
	r.apply(opt.With)
	r.list = &diag.List{Sources: r.list.Sources} // what is wrong with the files themselves, Open says
	t := trials{reader: r, byName: r.byName(), units: r.units()}
	t.evaluator()
	var out []Trial
	seen := map[string]bool{}
	all := 1
	for _, text := range texts {
		l := line{id: r.list.Sources.Add("--try", []byte(text)), text: text}
		tr, ok := t.read(l)
		if !ok {
			continue
		}
		if seen[tr.Word] {
			r.list.Hintf(l.span(0, len(tr.Word)), "`"+tr.Word+"` is tried already", "put all its values into one --try, with commas between")
			continue
		}
		seen[tr.Word] = true
		out = append(out, tr)
		if all *= len(tr.Values); all > MostOptions {
			r.list.Errorf(l.span(0, len(text)), "this makes %d options, and at most %d are tried in one run", all, MostOptions)
			break
		}
	}
	return out, r.list
}

// trials reads the texts of one run.
type trials struct {
	*reader
	byName map[string]*notation.Statement
	units  unit.System
	ev     *eval.Evaluator
}

// line is one text.
type line struct {
	id   diag.FileID
	text string
	eq   int // where its = stands
}

func (l line) span(from, to int) diag.Span {
	return diag.Span{File: l.id, From: int32(from), To: int32(to)}
}

// only returns the text with nothing after its = but one part of it, at its place.
func (l line) only(p part) string {
	return l.text[:l.eq+1] + strings.Repeat(" ", p.from-l.eq-1) + l.text[p.from:p.to]
}

// evaluator knows the lets as they stand now, before any is changed. A piece's measures are not known to it.
func (t *trials) evaluator() {
	t.ev = eval.New(t.units, t.list)
	for name, st := range t.byName {
		if st.Word == "let" && !st.Bad {
			t.ev.Let(name, st.NameSpan, st.Args.Get("="))
		} else {
			t.ev.Broken(name)
		}
	}
}

// units is the unit that bare numbers of the set are in.
func (r *reader) units() unit.System {
	for _, st := range r.statements {
		if st.Word != "set" {
			continue
		}
		for _, a := range st.Attributes {
			if a.Word != "units" || len(a.Args) == 0 {
				continue
			}
			if w, ok := a.Args[0].Value.(*notation.Word); ok {
				u, _ := unit.ParseSystem(w.Value)
				return u
			}
		}
	}
	return unit.Millimetre
}

func (t *trials) read(l line) (Trial, bool) {
	l.eq = strings.IndexByte(l.text, '=')
	if l.eq < 0 {
		t.list.Hintf(l.span(0, len(l.text)), "a trial is written NAME.attribute=values or LET=values", "as in `front.risers=2..6` or `front.rise=135, 150`")
		return Trial{}, false
	}
	tr := Trial{Word: strings.TrimRight(l.text[:l.eq], " ")}
	list := parts(l.text, l.eq+1)
	for i, p := range list {
		first := part{p.from, p.to, 0}
		a, b, by, ranged := p.ends(l.text)
		if ranged {
			first = a
		}
		before := t.list.Errors()
		if first.empty() && (ranged || len(list) > 1) { // alone it is what a word without a value takes
			t.list.Errorf(l.span(first.from-1, first.from), "a value is missing after this")
		} else if i == 0 || !ranged {
			t.change(l.id, l.only(first.bare(l.text)), t.byName)
		}
		if t.list.Errors() > before {
			if i == 0 {
				return tr, false // what is said of the name need be said once
			}
			continue
		}
		w := t.wanted(tr.Word)
		if i == 0 && w.attribute {
			tr.Element, _, _ = strings.Cut(tr.Word, ".")
		}
		if !ranged {
			tr.Values = append(tr.Values, t.value(l, w, tr.Word, p))
			continue
		}
		tr.Values = append(tr.Values, t.steps(l, w, tr.Word, a, b, by)...)
		if len(tr.Values) > MostOptions {
			t.list.Errorf(l.span(p.from, p.to), "this makes %d options, and at most %d are tried in one run", len(tr.Values), MostOptions)
			return tr, false
		}
	}
	return tr, len(tr.Values) > 0
}

// wanted is what an attribute or a let takes.
type wanted struct {
	word      string
	attribute bool // of a piece
	kind      unit.Kind
	single    bool // it takes one value
	known     bool // of the kind
}

func (t *trials) wanted(target string) wanted {
	name, word, dotted := strings.Cut(target, ".")
	if st := t.byName[name]; st != nil {
		if !dotted {
			return wanted{word: name, single: true}
		}
		kind, _ := t.kind(st.Word)
		for _, a := range kind.Attributes {
			if a.Word == word {
				return wanted{word: word, attribute: true, kind: a.Wants, single: a.Measured, known: a.Measured}
			}
		}
	}
	word = target[strings.LastIndexByte(target, '.')+1:]
	w := wanted{word: word, kind: unit.Length, known: true, single: word != "grain" && word != "of"}
	switch word {
	case "count":
		w.kind = unit.Number
	case "density":
		w.kind = unit.Density
	}
	return w
}

// value is a value that is tried as it is typed.
func (t *trials) value(l line, w wanted, word string, p part) Tried {
	b := p.bare(l.text)
	out := Tried{Change: word + "=" + l.text[b.from:b.to], Text: l.text[p.from:p.to]}
	if !w.single {
		return out
	}
	was := t.list
	t.quiet(&diag.List{Sources: was.Sources})
	v, ok := t.figure(l, w, p)
	t.quiet(was)
	out.Number, out.X = ok, v.X
	if suffix, plain := suffixes[v.Kind]; ok && plain && mentions(l.text[p.from:p.to], word) { // rise=rise - 15
		out.Change = word + "=" + unit.FormatNumber(v.X, 0) + suffix
	}
	return out
}

// mentions reports whether a name stands among the words of a text.
func mentions(text, name string) bool {
	return slices.Contains(strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' }), name)
}

// quiet puts what is said into another list.
func (t *trials) quiet(list *diag.List) { t.list, t.ev.List = list, list }

// figure works out a value; ok is false where it has not one that is known here.
func (t *trials) figure(l line, w wanted, p part) (unit.Value, bool) {
	args, ok := notation.ParseForm(l.id, []byte(l.only(p)), l.eq+1, "VALUE", t.list)
	if !ok {
		return unit.Value{}, false
	}
	if w.known {
		return t.ev.Want(args.Get(""), w.kind, w.word)
	}
	return t.ev.Value(args.Get(""))
}
