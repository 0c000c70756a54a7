package layout

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"

	"markout/layout/diag"
	"markout/layout/element"
	"markout/layout/notation"
	"markout/layout/set"
)

// mostBytes is the size of the largest file that is read.
const mostBytes = 64 << 20

// Open reads the main file and all that it includes, applies the changes of this run, and works the set out. The list holds
// everything that is wrong, each thing at its place; the set holds what could be worked out all the same, and is nil
// where not even the main file could be read. The set is good to draw from only where the list has no errors.
func Open(files Files, main string, opt Options) (*set.Set, *diag.List) {
	main = path.Clean(main)
	r, ok := read(files, main, opt.Memory)
	if !ok {
		return nil, r.list
	}
	with := r.apply(opt.With)
	s := element.Resolve(r.statements, r.list, element.Options{
		Hall: opt.Hall, Date: opt.Date, Main: strings.TrimSuffix(path.Base(main), ".markout"),
		Read: r.rows, Picture: r.picture, Outlines: opt.Memory.silhouettes(),
	})
	s.Files, s.With = r.sources, with
	for _, d := range r.list.Sorted() {
		if d.Severity == diag.Caution {
			s.Said = append(s.Said, d)
		}
	}
	if len(with) > 0 {
		s.Trial = true
	}
	return s, r.list
}

// read reads the main file and all that it includes; ok is false where not even the main file could be read.
func read(files Files, main string, m *Memory) (r *reader, ok bool) {
	r = &reader{
		files: m.over(files), memory: m, list: &diag.List{Sources: &diag.Sources{}}, kinds: element.Kinds(), read: map[string]bool{}, pictures: map[string]*set.Artwork{},
	}
	text, err := r.load(main)
	if err != nil {
		r.list.Errorf(diag.Span{}, "cannot read %s: %s", main, reason(err))
		return r, false
	}
	r.take(main, text)
	return r, true
}

// reader gathers the statements of the main file and of what it includes.
type reader struct {
	files      Files
	memory     *Memory
	list       *diag.List
	kinds      []notation.Kind
	read       map[string]bool
	pictures   map[string]*set.Artwork // by name; nil for one that cannot be read
	statements []*notation.Statement
	sources    []set.SourceFile
}

func (r *reader) load(name string) ([]byte, error) {
	f, err := r.files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostBytes+1))
	if err == nil && len(text) > mostBytes {
		err = fmt.Errorf("it has more than %d MB, the limit", mostBytes>>20)
	}
	return text, err
}

// reason says in few words why a file cannot be read, without the machine's own path of it.
func reason(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file"
	case errors.Is(err, fs.ErrPermission):
		return "reading it is not permitted"
	}
	if p := (*fs.PathError)(nil); errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

// take reads the statements of one file; those of an included file come where the include stands.
func (r *reader) take(name string, text []byte) {
	r.read[name] = true
	r.sources = append(r.sources, set.SourceFile{Name: name, SHA256: sha256.Sum256(text), Text: text})
	id := r.list.Sources.Add(name, text)
	main := len(r.sources) == 1
	for _, st := range notation.Parse(id, name, text, r.kinds, r.list).Statements {
		switch {
		case st.Word == "include":
			r.include(st)
		case st.Word == "set" && !main:
			r.list.Errorf(st.WordSpan, "the `set` statement stands in the main file, not in one that is included")
		default:
			r.statements = append(r.statements, r.listed(st)...)
		}
	}
}

// listed returns the statements of the list that a statement names in place of a piece (`figure from "figures.csv"`), of any other
// the statement itself.
func (r *reader) listed(st *notation.Statement) []*notation.Statement {
	from, ok := st.Args.Get("from").(*notation.Text)
	kind, known := r.kind(st.Word)
	if !ok || !known || !kind.Listed {
		return []*notation.Statement{st}
	}
	id, text, ok := r.rows(from)
	if !ok {
		return nil
	}
	return notation.Listed(id, text, &kind, st, r.list)
}

// name returns the name of a file that a text names, by its path from the folder of the file in which the text stands.
func (r *reader) name(t *notation.Text, what, example string) (string, bool) {
	if t.Value == "" || strings.ContainsAny(t.Value, "\x00\\") || path.IsAbs(t.Value) {
		r.list.Hintf(t.Span, what+" is named by its path from this file's folder, with slashes", "write `%s`", example)
		return "", false
	}
	return path.Join(path.Dir(r.list.Sources.Name(t.Span.File)), t.Value), true
}

// rows reads a list that the text names; each list once.
func (r *reader) rows(t *notation.Text) (id diag.FileID, text []byte, ok bool) {
	name, ok := r.name(t, "a list", `from "parts.csv"`)
	if !ok {
		return 0, nil, false
	}
	if r.read[name] {
		r.list.Errorf(t.Span, "%s is read already; each file once", name)
		return 0, nil, false
	}
	r.read[name] = true
	text, err := r.load(name)
	if err != nil {
		r.list.Errorf(t.Span, "cannot read %s: %s", name, reason(err))
		return 0, nil, false
	}
	r.sources = append(r.sources, set.SourceFile{Name: name, SHA256: sha256.Sum256(text), Text: text})
	return r.list.Sources.Add(name, text), text, true
}

func (r *reader) include(st *notation.Statement) {
	t, ok := st.Args.Get("").(*notation.Text)
	if !ok {
		return
	}
	name, ok := r.name(t, "an included file", `include "harbour.markout"`)
	if !ok || r.read[name] {
		return
	}
	text, err := r.load(name)
	if err != nil {
		r.read[name] = true
		r.list.Errorf(t.Span, "cannot read %s: %s", name, reason(err))
		return
	}
	r.take(name, text)
}

// apply puts the changes of this run in place of what the files say, and returns those that were understood. Each is a text of
// its own, named --with.
func (r *reader) apply(with []string) []string {
	byName := r.byName()
	var done []string
	for _, w := range with {
		id := r.list.Sources.Add("--with", []byte(w))
		if r.change(id, w, byName) {
			done = append(done, w)
		}
	}
	return done
}

// byName returns the statements that have names, of two with one name the first.
func (r *reader) byName() map[string]*notation.Statement {
	out := map[string]*notation.Statement{}
	for _, st := range r.statements {
		if _, twice := out[st.Name]; st.Name != "" && !twice {
			out[st.Name] = st
		}
	}
	return out
}

func (r *reader) change(id diag.FileID, w string, byName map[string]*notation.Statement) bool {
	span := func(from, to int) diag.Span { return diag.Span{File: id, From: int32(from), To: int32(to)} }
	eq := strings.IndexByte(w, '=')
	if eq < 0 {
		r.list.Hintf(span(0, len(w)), "a change is written NAME.attribute=value or LET=value", "as in `front.risers=8`")
		return false
	}
	target := strings.TrimRight(w[:eq], " ")
	name, word, attribute := strings.Cut(target, ".")
	st := byName[name]
	if st == nil {
		if found, ok := r.material(id, w, eq); found {
			return ok
		}
		r.unknown(span(0, len(name)), name, byName)
		return false
	}
	if !attribute {
		if st.Word != "let" {
			r.list.Hintf(span(0, len(name)), "`"+name+"` is a piece, and one attribute of it is wanted", "as in `%s.height=450`", name)
			return false
		}
		args, ok := notation.ParseForm(id, []byte(w), eq+1, "VALUE", r.list)
		if ok {
			st.Args, st.Bad = notation.Args{{Key: "=", Value: args.Get("")}}, false
		}
		return ok
	}
	kind, ok := r.kind(st.Word)
	if !ok {
		r.list.Errorf(span(len(name), len(target)), "`%s` is a value and has no attributes", name)
		return false
	}
	a := notation.ParseAttribute(id, []byte(w), eq+1, kind, word, r.list)
	if a.Bad {
		return false
	}
	r.replace(st, a)
	return true
}

// replace puts an attribute in place of all of its word, or adds it.
func (r *reader) replace(st *notation.Statement, a *notation.Attribute) {
	kept := st.Attributes[:0]
	put := false
	for _, old := range st.Attributes {
		switch {
		case old.Word != a.Word:
			kept = append(kept, old)
		case !put:
			kept, put = append(kept, a), true
		}
	}
	if !put {
		kept = append(kept, a)
	}
	st.Attributes = kept
}

func (r *reader) kind(word string) (notation.Kind, bool) {
	for _, k := range r.kinds {
		if k.Word == word {
			return k, true
		}
	}
	return notation.Kind{}, false
}

func (r *reader) unknown(at diag.Span, name string, byName map[string]*notation.Statement) {
	names := make([]string, 0, len(byName))
	for _, st := range r.statements {
		if st.Name != "" {
			names = append(names, st.Name)
		}
	}
	message := "there is no `" + name + "`"
	if near := notation.Suggest(name, names); near != "" {
		r.list.Hintf(at, message, "did you mean `%s`?", near)
		return
	}
	r.list.Errorf(at, "%s", message)
}
