package layout

import (
	"strings"

	"markout/layout/diag"
	"markout/layout/notation"
)

// material changes one value of a board, a length or a part for this run: NAME.word=value, NAME in quotes or not, as in
// `ply 18.thick=17.6`. It reports whether there is such a thing, and whether it was changed. What stands in a list of parts is not
// among them.
func (r *reader) material(id diag.FileID, w string, eq int) (found, ok bool) {
	target := strings.TrimRight(w[:eq], " ")
	dot := strings.LastIndexByte(target, '.')
	name := target
	if dot >= 0 {
		name = target[:dot]
	}
	st := r.called(strings.Trim(name, `"`))
	if st == nil {
		return false, false
	}
	kind, _ := r.kind(st.Word)
	words := valueForms(kind.Head)
	at := diag.Span{File: id, From: int32(dot + 1), To: int32(len(target))}
	if dot < 0 {
		at.From = 0
		r.list.Hintf(at, "this is a "+st.Word+", and one value of it is wanted", "as in `%s.%s=…`", name, words[0].word)
		return true, false
	}
	for _, f := range words {
		if f.word != target[dot+1:] {
			continue
		}
		args, ok := notation.ParseForm(id, []byte(w), eq+1, f.form, r.list)
		if ok {
			put(st, f.word, args)
		}
		return true, ok
	}
	list := make([]string, len(words))
	for i, f := range words {
		list[i] = "`" + f.word + "`"
	}
	r.list.Hintf(at, "a "+st.Word+" has no `"+target[dot+1:]+"` that can be changed", "it has %s", strings.Join(list, ", "))
	return true, false
}

// put puts a value in place of the one under a statement's word, or adds it.
func put(st *notation.Statement, word string, args notation.Args) {
	kept := make(notation.Args, 0, len(st.Args)+1)
	for _, a := range st.Args {
		if a.Key != word {
			kept = append(kept, a)
		}
	}
	for _, a := range args {
		kept = append(kept, notation.Arg{Key: word, Value: a.Value})
	}
	st.Args = kept
}

// called returns the board, length or part of a name, nil for none.
func (r *reader) called(name string) *notation.Statement {
	for _, st := range r.statements {
		if st.Bad || st.Word != "board" && st.Word != "length" && st.Word != "part" {
			continue
		}
		switch n := st.Args.Get("").(type) {
		case *notation.Text:
			if n.Value == name {
				return st
			}
		case *notation.Word:
			if n.Value == name {
				return st
			}
		}
	}
	return nil
}

// valueForm is a word of a statement's head and the form of what stands after it.
type valueForm struct{ word, form string }

// valueForms returns the words of a head that a value stands after, in its first way to be written: of
// "SIZE thick VALUE [grain along|across]" thick and grain.
func valueForms(head string) []valueForm {
	head, _, _ = strings.Cut(head, " | ")
	var out []valueForm
	parts := strings.Fields(strings.NewReplacer("[", "", "]", "").Replace(head))
	for i, p := range parts[:max(len(parts)-1, 0)] {
		if p == strings.ToLower(p) && !strings.Contains(p, "|") {
			out = append(out, valueForm{p, parts[i+1]})
		}
	}
	return out
}
