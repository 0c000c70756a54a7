package element

import (
	"slices"
	"strings"

	"markout/layout/diag"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

var boardTable = &notation.Kind{
	Word: "board", Head: "TEXT SIZE thick VALUE [density VALUE] [kerf VALUE] [grain along|across|free] [count VALUE]",
	Doc: "A sheet material that pieces are cut from: its name, length x width and thickness as measured (an 18 mm board may be 17.6), " +
		"what it weighs, what the saw takes, which way its grain runs, and how many there are. What the saw takes is 3 mm unless said; " +
		"without a count there is any number.",
	Example: "board \"ply 18\" 2440 x 1220 thick 17.6 density 620kg/m3 kerf 3 grain along count 6\n",
}

var lengthTable = &notation.Kind{
	Word: "length", Head: "TEXT SIZE long VALUE [density VALUE] [kerf VALUE] [count VALUE]",
	Doc: "Timber or tube that is bought by the length: its name, the two sides of its section, how long each is, what it weighs, " +
		"what the saw takes (3 mm unless said), and how many there are.",
	Example: "length \"batten 44\" 44 x 69 long 4800 kerf 3 count 20\n",
}

var stockTable = &notation.Kind{
	Word: "stock", Head: "box SIZE [count VALUE]",
	Doc:     "Boxes that are there already and serve as step blocks: length x width x height, and how many.",
	Example: "stock box 600 x 400 x 150 count 40\n",
}

var partTable = &notation.Kind{
	Word: "part", Head: "NAME of TEXT length VALUE [width VALUE] [count VALUE] [grain along|across|free] | from TEXT",
	Doc: "A piece to be cut that no element says: a rail, a batten, a patch. Of a board it has a length and a width, of a length a " +
		"length alone. `grain along` lays its length along the board's grain. `part from \"parts.csv\"` reads a list: the first row names " +
		"the columns name, of, length, width, count, grain, of which the first three must be there.",
	Example: "length \"batten 44\" 44 x 69 long 4800 kerf 3 count 20\n\npart rail of \"batten 44\" length 900 count 4\n",
}

// mostCount is how many there may be of one thing, as many as an element's copies.
const mostCount = 10000

// usualKerf is what a saw takes where nothing is said (common practice, no source).
const usualKerf = 3

// materials takes up boards, lengths and stock boxes, then the parts cut from them, and sees to it that what is said to be `of`
// something is of one of them.
func (sc *scene) materials(out *set.Set, statements []*notation.Statement, named map[string]diag.Span, opt Options) {
	known := &materials{at: map[string]diag.Span{}}
	for _, st := range statements {
		switch {
		case st.Bad:
			known.unsure = known.unsure || st.Word == "board" || st.Word == "length"
		case st.Word == "board":
			sc.board(out, st, known)
		case st.Word == "length":
			sc.length(out, st, known)
		case st.Word == "stock":
			sc.stock(out, st)
		}
	}
	p := parts{sc: sc, out: out, known: known, named: named, opt: opt}
	for _, st := range statements {
		if st.Word == "part" && !st.Bad {
			p.take(st)
		}
	}
	for _, e := range sc.elems {
		if t, ok := e.arg("of").(*notation.Text); ok {
			sc.of(t.Value, t.Span, known)
		}
	}
}

// materials are the names of boards and lengths.
type materials struct {
	at     map[string]diag.Span
	unsure bool // one could not be read, so that a name that is not known may be its
}

// of reports the name of a material that there is not.
func (sc *scene) of(name string, at diag.Span, known *materials) bool {
	if _, ok := known.at[name]; ok || known.unsure {
		return ok
	}
	message := "there is no board or length called \"" + name + "\""
	names := make([]string, 0, len(known.at))
	for n := range known.at {
		names = append(names, n)
	}
	slices.Sort(names)
	switch near := nearMaterial(name, names); {
	case near != "":
		sc.list.Hintf(at, message, "did you mean \"%s\"?", near)
	case len(names) == 0:
		sc.list.Hintf(at, message, "say what it is: `board \"%s\" 2440 x 1220 thick 17.6`", strings.ReplaceAll(name, `"`, `\"`))
	default:
		sc.list.Errorf(at, "%s", message)
	}
	return false
}

// nearMaterial returns the name that was probably meant: names of materials differ in capitals and blanks besides slips.
func nearMaterial(name string, names []string) string {
	plain := func(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), "")) }
	for _, n := range names {
		if plain(n) == plain(name) {
			return n
		}
	}
	return notation.Suggest(name, names)
}

// name takes up a material's name, which is new.
func (sc *scene) name(st *notation.Statement, known *materials) (string, bool) {
	t, ok := st.Args.Get("").(*notation.Text)
	switch {
	case !ok:
		return "", false
	case strings.TrimSpace(t.Value) == "":
		sc.list.Errorf(t.Span, "a %s needs a name to be called by", st.Word)
		return "", false
	}
	if first, twice := known.at[t.Value]; twice {
		sc.list.Errorf(t.Span, "\"%s\" is there already; the first is at %s", t.Value, sc.list.Sources.Position(first))
		return "", false
	}
	known.at[t.Value] = t.Span
	return t.Value, true
}

func (sc *scene) board(out *set.Set, st *notation.Statement, known *materials) {
	name, ok1 := sc.name(st, known)
	sides, ok2 := sc.size(st, "", 2, "a board is length x width; its thickness stands after `thick`")
	thick, ok3 := sc.ev.Small(st.Args.Get("thick"), "thick")
	density, ok4 := sc.density(st)
	kerf, ok5 := sc.kerf(st)
	n, ok6 := sc.countOf(st)
	if ok2 {
		least := min(sides[0], sides[1])
		ok3 = ok3 && sc.within(st, "thick", thick, "the board's shorter side", least, "a board is length x width, and `thick` is its thickness")
		ok5 = ok5 && sc.within(st, "kerf", kerf, "the board's shorter side", least, usualSaw)
	}
	if ok1 && ok2 && ok3 && ok4 && ok5 && ok6 {
		out.Boards = append(out.Boards, set.Board{Name: name, Length: sides[0], Width: sides[1], Thick: thick, Density: density,
			Kerf: kerf, Grain: grainOf(word(st.Args.Get("grain"))), Count: n, Span: st.Span})
	}
}

func (sc *scene) length(out *set.Set, st *notation.Statement, known *materials) {
	name, ok1 := sc.name(st, known)
	sides, ok2 := sc.size(st, "", 2, "a section has two sides; how long it is stands after `long`")
	long, ok3 := sc.ev.Positive(st.Args.Get("long"), "long")
	density, ok4 := sc.density(st)
	kerf, ok5 := sc.kerf(st)
	n, ok6 := sc.countOf(st)
	if ok3 {
		ok5 = ok5 && sc.within(st, "kerf", kerf, "a whole one", long, usualSaw)
	}
	if ok1 && ok2 && ok3 && ok4 && ok5 && ok6 {
		out.Lengths = append(out.Lengths, set.Length{Name: name, Width: sides[0], Depth: sides[1], Long: long, Density: density,
			Kerf: kerf, Count: n, Span: st.Span})
	}
}

func (sc *scene) stock(out *set.Set, st *notation.Statement) {
	sides, ok1 := sc.size(st, "box", 3, "a box is length x width x height")
	n, ok2 := sc.countOf(st)
	if ok1 && ok2 {
		out.Stock = append(out.Stock, set.StockBox{Length: sides[0], Width: sides[1], Height: sides[2], Count: n, Span: st.Span})
	}
}

// size reads so many sides, each more than 0.
func (sc *scene) size(st *notation.Statement, key string, sides int, hint string) ([]float64, bool) {
	for _, n := range st.Args.All(key) {
		s, ok := n.(*notation.Size)
		if !ok {
			continue
		}
		if len(s.Values) != sides {
			sc.list.Hintf(s.Span, "this has "+count(len(s.Values))+" sides, and "+count(sides)+" are wanted", "%s", hint)
			return nil, false
		}
		out := make([]float64, sides)
		fine := true
		for i, v := range s.Values {
			out[i], ok = sc.ev.Positive(v, "size")
			fine = fine && ok
		}
		return out, fine
	}
	return nil, false
}

// density is 0 where it is not said.
func (sc *scene) density(st *notation.Statement) (float64, bool) {
	n := st.Args.Get("density")
	if n == nil {
		return 0, true
	}
	v, ok := sc.ev.Value(n)
	switch {
	case !ok:
		return 0, false
	case v.Kind == unit.Number:
		sc.list.Hintf(n.Pos(), "`density` needs its unit", "write `%skg/m3`", unit.FormatNumber(v.X, 0))
		return 0, false
	}
	if v, ok = sc.ev.Want(n, unit.Density, "density"); ok && v.X <= 0 {
		sc.list.Errorf(n.Pos(), "`density` is more than 0")
		return 0, false
	}
	return v.X, ok
}

// kerf may be 0: a knife takes nothing. Any other bare number is a slip unless the set is in millimetres.
func (sc *scene) kerf(st *notation.Statement) (float64, bool) {
	n := st.Args.Get("kerf")
	if n == nil {
		return usualKerf, true
	}
	v, ok := sc.ev.Value(n)
	switch {
	case !ok:
		return 0, false
	case v.X <= 0 && (v.Kind == unit.Number || v.Kind == unit.Length):
		return sc.ev.NotNegative(n, "kerf")
	}
	return sc.ev.Small(n, "kerf")
}

// usualSaw is a hint (common practice, no source).
const usualSaw = "a saw takes 2 to 4 mm, a knife 0"

// within reports a value that is larger than a side of the material itself: a slip.
func (sc *scene) within(st *notation.Statement, word string, v float64, sideCalled string, side float64, hint string) bool {
	n := st.Args.Get(word)
	if n == nil || v <= side {
		return true
	}
	sc.list.Hintf(n.Pos(), "`"+word+"` is "+sc.ev.Show(v)+", and "+sideCalled+" is "+sc.ev.Show(side), "%s", hint)
	return false
}

// countOf is how many there are; 0 for any number.
func (sc *scene) countOf(st *notation.Statement) (int, bool) {
	n := st.Args.Get("count")
	if n == nil {
		return 0, true
	}
	return sc.ev.Count(n, "count", 1, mostCount)
}

func grainOf(word string) set.Grain {
	if word == "free" {
		return set.GrainFree
	}
	return set.Grain(word)
}
