package element

import (
	"slices"
	"strings"

	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

// What a piece is made of, how it is modelled, and how its flat parts may lie on a sheet.
var (
	ofRow = notation.Attr{Word: "of", Form: "TEXT", Example: `of "ply 18"`,
		Doc: "The board or length that it is made of, by its name."}
	modelRow = notation.Attr{Word: "model", Form: "no|rod|tube|NAME", Example: "model detail",
		Doc: "How the card model shows it: `no` not at all, as a `rod`, as a rolled `tube`, or of the card of that name in `set`."}
	turnsRow = notation.Attr{Word: "turns", Form: "LIST [either side]", Example: "turns 0 180",
		Doc: "The turns, in degrees, at which its flat parts may lie on a sheet; any unless said. A part is never laid face down, unless `either side` is added."}
	grainRow = notation.Attr{Word: "grain", Form: "along|across|free [either side]", Example: "grain along",
		Doc: "How its flat parts lie to the grain of their board: `along` with their own length, `across` with their width, or `free`; in place of `turns`."}
	eitherRow = notation.Attr{Word: "either", Form: "side", Example: "either side",
		Doc: "Its parts may lie face down on a sheet too."}
)

// made are the rows of what is built of something.
var made = []notation.Attr{ofRow, modelRow, turnsRow, grainRow, eitherRow}

// unmade takes those rows out of the rows of a kind that is marked or kept clear, and not built.
func unmade(rows []notation.Attr) []notation.Attr {
	return slices.DeleteFunc(rows, func(a notation.Attr) bool {
		return slices.ContainsFunc(made, func(m notation.Attr) bool { return m.Word == a.Word })
	})
}

// makeOf reads into out what the element is made of.
func (e *elem) makeOf(out *set.Element) bool {
	ok := true
	for _, a := range e.st.Attributes {
		if a.Bad {
			continue
		}
		fine := true
		switch a.Word {
		case "of":
			out.Material = text(a.Args.Get("")) // whether there is such a material is seen when all are known
		case "model":
			out.Model, fine = e.model(a)
		case "turns":
			out.Lie.Turns, fine = e.turns(a)
		case "grain":
			out.Lie.Grain, fine = e.grain(a)
		}
		if a.Word == "either" || a.Args.Has("either") {
			out.Lie.EitherSide = true
		}
		ok = ok && fine
	}
	return ok
}

// model is how a piece is modelled; the name of a card is one of those in `set`.
func (e *elem) model(a *notation.Attribute) (string, bool) {
	if len(a.Args) == 0 {
		return "", false
	}
	w := word(a.Args[0].Value)
	switch w {
	case "no", "rod", "tube":
		return w, true
	}
	at := a.Args[0].Value.Pos()
	names := make([]string, 0, len(e.sc.named))
	for _, c := range e.sc.named {
		if c.Name == w {
			return w, true
		}
		if c.Name != "" {
			names = append(names, c.Name)
		}
	}
	message := "there is no card `" + w + "`"
	if near := notation.Suggest(w, append([]string{"no", "rod", "tube"}, names...)); near != "" {
		return "", e.hint(at, message, "did you mean `%s`?", near)
	}
	if len(names) == 0 {
		return "", e.hint(at, message, "name it in `set`: `card %s 1.5`", w)
	}
	return "", e.hint(at, message, "the cards of `set` are: %s", strings.Join(names, ", "))
}

// turns are the turns in degrees, each once, from 0 up to less than 360.
func (e *elem) turns(a *notation.Attribute) ([]float64, bool) {
	if e.has("grain") {
		return nil, e.clash("turns", "grain", "either says how its parts may lie")
	}
	list, ok := a.Args.Get("").(*notation.List)
	if !ok {
		return nil, false
	}
	if list.By != nil {
		return nil, e.hint(list.By.Pos(), "`turns` lists every turn", "write `%s`", turnsRow.Example)
	}
	var out []float64
	for _, item := range list.Items {
		v, fine := e.sc.ev.Value(item)
		if fine && v.Kind != unit.Number && v.Kind != unit.Angle {
			fine = e.hint(item.Pos(), "`turns` wants angles", "write `%s`", turnsRow.Example)
		}
		if !fine {
			ok = false
			continue
		}
		if v.X < 0 || v.X >= 360 {
			ok = e.errorf(item.Pos(), "a turn is from 0 to less than 360 degrees, and this is %s", unit.FormatNumber(v.X, 0))
			continue
		}
		if slices.Contains(out, v.X) {
			ok = e.errorf(item.Pos(), "this turn stands in the list twice")
			continue
		}
		out = append(out, v.X)
	}
	slices.Sort(out)
	return out, ok
}

func (e *elem) grain(a *notation.Attribute) (set.Grain, bool) {
	if len(a.Args) == 0 {
		return set.GrainFree, false
	}
	switch word(a.Args[0].Value) {
	case "along":
		return set.GrainAlong, true
	case "across":
		return set.GrainAcross, true
	}
	return set.GrainFree, true
}
