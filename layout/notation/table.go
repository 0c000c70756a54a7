package notation

import "fmt"

// table is a kind made ready for looking up.
type table struct {
	kind  *Kind
	attrs map[string]*Attr
	words []string // of its attributes, for "did you mean"
	head  *Form
	err   error // of the head's form
	line  Attr  // the head as if it were an attribute's line, for hints
}

// tables looks kinds up by their word.
type tables struct {
	kinds []Kind
	byKey map[string]*table
	words []string
}

// newTables joins the caller's kinds and those that stand in every file.
func newTables(kinds []Kind) *tables {
	t := &tables{byKey: map[string]*table{}}
	for _, some := range [][]Kind{kinds, shared} {
		for i := range some {
			if _, ok := t.byKey[some[i].Word]; ok {
				continue
			}
			t.byKey[some[i].Word] = newTable(&some[i])
			t.words = append(t.words, some[i].Word)
		}
	}
	return t
}

func newTable(k *Kind) *table {
	t := &table{kind: k, attrs: make(map[string]*Attr, len(k.Attributes)), line: Attr{Example: headExample(k)}}
	for i := range k.Attributes {
		a := &k.Attributes[i]
		if _, ok := t.attrs[a.Word]; !ok {
			t.attrs[a.Word] = a
			t.words = append(t.words, a.Word)
		}
	}
	t.head, t.err = formOf(k.Head)
	return t
}

// sub returns the attribute's own attribute of that word, nil for none.
func (a *Attr) sub(word string) *Attr {
	if a == nil {
		return nil
	}
	for i := range a.Sub {
		if a.Sub[i].Word == word {
			return &a.Sub[i]
		}
	}
	return nil
}

func (a *Attr) subWords() []string {
	out := make([]string, len(a.Sub))
	for i := range a.Sub {
		out[i] = a.Sub[i].Word
	}
	return out
}

// shared are the statements of every file, whatever kinds the caller brings. A let's value stands under "=", a
// keep's elements under "" and "to" and its length under "least", a dim's points under "" and "to".
var shared = []Kind{
	{
		Word: "let", Named: true, Head: "= VALUE",
		Doc:     "Names a value. Every place that uses the name follows when the value changes.",
		Example: "let rise = 150mm",
	},
	{
		Word: "include", Head: "TEXT",
		Doc:     "Brings in the statements of another file; its path counts from the folder of the file that includes it. Each file is read once.",
		Example: `include "harbour.markout"`,
	},
	{
		Word: "keep", Head: "REF to REF at least VALUE",
		Doc:     "Asks that two elements stay apart; check says where they do not.",
		Example: "keep deck to bollard at least 1800",
	},
	{
		Word: "dim", Head: "POINT to POINT",
		Doc:     "Shows the distance of two places or elements on the plan.",
		Example: "dim deck.left to deck.right",
	},
}

// Shared returns the kinds of the statements let, include, keep and dim, which Parse knows without being told.
func Shared() []Kind { return append([]Kind(nil), shared...) }

// formFailure is the message for a table whose form cannot be read: a slip in the program, not in the text.
func formFailure(err error) string { return fmt.Sprintf("markout's own table is broken: %v", err) }
