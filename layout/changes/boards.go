package changes

import (
	"markout/layout/set"
	"markout/layout/takeoff"
)

// What a carpenter does to pieces of boards and lengths; Scrap is another.
const (
	CutNew Change = "cut"
	Recut  Change = "recut" // smaller, out of a piece that is there
)

// Cut is a piece, or several alike, that a carpenter cuts, recuts or has over.
type Cut struct {
	Element, Piece string // of what is scrap in the old set, otherwise in the new one
	Change         Change
	Count          int
	Material       string  // the board or length; empty where nothing says it
	Length, Width  float64 // Width is 0 of what is cut from a length
	From           string  // of what is recut, the old piece: front tread 2
	Words          string
}

// Taken is a set and what was taken off it.
type Taken struct {
	Set *set.Set
	*takeoff.Quantities
}

// Boards returns what is cut of boards and lengths: what is recut and cut in the new set's order, then what of the old one is
// over. A piece stays where the old set has one of the same material and sizes or outline, whatever it is called and whosever it
// is; what is of no material that the file names is compared by its sizes. What then is wanted is cut out of old pieces of its material
// that are over, where one is large enough: out of that of its own name first, otherwise out of the least that does. An outline is cut out
// of a rectangle, or out of the old outline of its own name where it lies within it. That a board was measured anew recuts nothing.
func Boards(old, new Taken) []Cut {
	was, is := timbers(old, nil), timbers(new, old.Set)
	keep(was, is, func(t *timber) string { return t.label + t.kind })
	keep(was, is, func(t *timber) string { return t.kind })
	over := map[string]*timber{} // what of a name is left before anything is recut
	for i := range was {
		if t := &was[i]; t.count > 0 && over[t.label] == nil {
			over[t.label] = t
		}
	}
	changed := make([][]Cut, len(is))
	for _, own := range []bool{true, false} {
		stock := byMaterial(was)
		for j := range is {
			t := &is[j]
			for t.count > 0 {
				from := source(stock[t.material], t, own)
				if from == nil {
					break
				}
				n := min(t.count, from.count)
				t.count, from.count = t.count-n, from.count-n
				changed[j] = append(changed[j], recut(from, t, n))
			}
		}
	}
	var out []Cut
	for j := range is {
		out = append(out, changed[j]...)
		if is[j].count > 0 {
			out = append(out, anew(over[is[j].label], &is[j]))
		}
	}
	for i := range was {
		if t := &was[i]; t.count > 0 {
			out = append(out, t.cut(Scrap, t.count, t.named()+" serves nowhere"))
		}
	}
	return out
}

// keep takes from both lists what they have in common, as key has it, in their order.
func keep(was, is []timber, key func(t *timber) string) {
	have := map[string][]*timber{}
	for i := range was {
		if t := &was[i]; t.count > 0 {
			have[key(t)] = append(have[key(t)], t)
		}
	}
	for j := range is {
		t := &is[j]
		if t.count == 0 {
			continue
		}
		k := key(t)
		for list := have[k]; len(list) > 0 && t.count > 0; {
			n := min(t.count, list[0].count)
			t.count, list[0].count = t.count-n, list[0].count-n
			if list[0].count == 0 {
				list = list[1:]
				have[k] = list
			}
		}
	}
}

func byMaterial(list []timber) map[string][]*timber {
	out := map[string][]*timber{}
	for i := range list {
		if t := &list[i]; t.count > 0 {
			out[t.material] = append(out[t.material], t)
		}
	}
	return out
}

// source returns the piece that t can be cut out of: of its own name, or the least, the first of equals; nil for none.
func source(list []*timber, t *timber, own bool) *timber {
	var best *timber
	for _, w := range list {
		if w.count == 0 || own != (w.label == t.label) || best != nil && w.bulk() >= best.bulk() || !w.holds(t, own) {
			continue
		}
		best = w
	}
	return best
}
