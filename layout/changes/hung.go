package changes

import (
	"math"
	"strconv"
	"strings"

	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/unit"
)

// What is done to what hangs overhead; Moved is another.
const (
	HangNew  Change = "hang"
	TakeDown Change = "take down"
	Weighs   Change = "weight" // it stays where it hangs and weighs something else, as far as is known
	Retag    Change = "tag"    // nothing of it changes but its number
)

// Hang is a piece in a room overhead that something is done to.
type Hang struct {
	Piece  string // in the old set of what is taken down, otherwise in the new one
	Room   string
	Panel  string // that it is hung in; empty where the room has none there
	Tag    int    // 0 for what has none
	Change Change
	Words  string
}

// Hung returns what is done to pieces that hang in rooms overhead: those of the new set in its order, then those to take down in the
// old one's. A piece is told again by its room and its name, and one that is called otherwise by its shape and where it hangs. Places
// are those in which it hangs, not those in which it was dressed. A piece that changes its shape is taken down and hung anew in one
// row of its new shape. Weights and places inform a competent, licensed rigger or engineer under local codes, who decides: see
// overhead.Note, which stands wherever these words do.
func Hung(old, new *set.Set) []Hang { return HungIn(overhead.Rooms(old), overhead.Rooms(new), new) }

// HungIn is Hung of rooms that are worked out already, the new ones of s.
func HungIn(old, new []*overhead.Room, s *set.Set) []Hang {
	was, is := hangings(old), hangings(new)
	of := again(was, is)
	serves := make([]bool, len(was))
	var out []Hang
	for j, h := range is {
		x := Hang{Piece: h.Name, Room: h.room, Panel: h.Panel, Tag: h.Tag}
		if of[j] < 0 {
			x.Change = HangNew
			x.Words = joinWords("hang at "+placeWords(s, h.Overhead.T.X, h.Overhead.T.Y)+", lowest point at "+unit.FormatLength(h.Lowest, s.Units, 1)+", facing "+
				unit.FormatAngle(overhead.Facing(h.Overhead), 1), weightWords(h.Piece, s), fixingWords(h.Piece), handling(h.Piece))
			out = append(out, x)
			continue
		}
		serves[of[j]] = true
		if x.Change, x.Words = hangChange(&was[of[j]], &is[j], s); x.Change != "" {
			out = append(out, x)
		}
	}
	for i, h := range was {
		if !serves[i] {
			out = append(out, Hang{Piece: h.Name, Room: h.room, Panel: h.Panel, Tag: h.Tag, Change: TakeDown, Words: "take down, " + weightWords(h.Piece, s)})
		}
	}
	return out
}

// hanging is a piece with its room and its shape.
type hanging struct {
	*overhead.Piece
	room, shape string
}

func hangings(rooms []*overhead.Room) []hanging {
	var out []hanging
	for _, r := range rooms {
		shapes := map[*set.Element]string{}
		for i := range r.Pieces {
			p := &r.Pieces[i]
			shape, ok := shapes[p.Element]
			if !ok {
				shape = hangShape(p.Element)
				shapes[p.Element] = shape
			}
			out = append(out, hanging{p, r.Element.Name, shape})
		}
	}
	return out
}

// hangShape writes the shape of what hangs, whatever it is called; of loose blocks all of them, which hang together.
func hangShape(e *set.Element) string {
	var k key
	k.word(e.Kind)
	switch s := e.Shape.(type) {
	case *set.Dressing:
		k.path(s.Outline.Path)
		k.numbers(s.Height)
	case *set.Steps:
		for _, list := range [][]float64{s.Rises, s.Goings, s.Widths, s.Shifts} {
			k.numbers(list...)
		}
		k.flags(s.Blocks)
	default:
		k.shape(e)
	}
	return k.String()
}

// again finds the old piece of each new one, −1 for none.
func again(was, is []hanging) []int {
	of := make([]int, len(is))
	byName := map[[2]string]int{}
	for i, h := range was {
		byName[[2]string{h.room, h.Name}] = i
	}
	taken := make([]bool, len(was))
	for j, h := range is {
		of[j] = -1
		if i, ok := byName[[2]string{h.room, h.Name}]; ok && !taken[i] {
			of[j], taken[i] = i, true
		}
	}
	there := newSpots(len(was))
	for i, h := range was {
		if !taken[i] {
			there.add(h.Overhead.T.Plan(), i)
		}
	}
	for j, h := range is {
		if of[j] >= 0 {
			continue
		}
		i := there.find(h.Overhead.T.Plan(), func(i int) bool {
			w := thingOf(&was[i])
			return !taken[i] && was[i].shape == h.shape && w.stays(thingOf(&is[j]))
		})
		if i >= 0 {
			of[j], taken[i] = i, true
		}
	}
	return of
}

// thingOf is where a piece hangs, its turn being the way it faces. A round piece may hang at any turn, unless the places of its fixings
// turn with it.
func thingOf(h *hanging) *thing {
	sides := 1
	if d, ok := h.Element.Shape.(*set.Dressing); ok && len(h.Fixings) == 0 && likeTurns(d.Outline) == 0 {
		sides = 0
	}
	return &thing{at: h.Overhead.T, turn: overhead.Facing(h.Overhead), sides: sides}
}

// hangChange says what is done to a piece that hung already; nothing where the change is empty.
func hangChange(a, b *hanging, s *set.Set) (Change, string) {
	var moves, says []string
	if a.shape != b.shape {
		moves = append(moves, "its shape changes: take down and hang anew")
	}
	if move := moveWords(s, thingOf(a), thingOf(b)); move != "" {
		moves = append(moves, move)
	}
	if math.Abs(a.Lowest-b.Lowest) > 0.05 {
		moves = append(moves, "lowest point "+unit.FormatLength(a.Lowest, s.Units, 1)+" → "+unit.FormatLength(b.Lowest, s.Units, 1))
	}
	if a.Opposite != b.Opposite {
		moves = append(moves, map[bool]string{true: "opposite-handed now", false: "no longer opposite-handed"}[b.Opposite])
	}
	if was, is := fixingWords(a.Piece), fixingWords(b.Piece); was != is {
		moves = append(moves, orNone(was, "no fixings")+" → "+orNone(is, "no fixings"))
	} else if !sameFixings(a, b) {
		moves = append(moves, "its fixings move on it")
	}
	if a.Panel != b.Panel {
		moves = append(moves, "panel "+orNone(a.Panel, "none")+" → "+orNone(b.Panel, "none"))
	}
	if was, is := handling(a.Piece), handling(b.Piece); was != is {
		moves = append(moves, orNone(was, "neither loose nor soft")+" → "+orNone(is, "neither loose nor soft"))
	}
	change := Moved
	if len(moves) == 0 {
		change = ""
	}
	if a.Is != b.Is || math.Abs(a.Weight-b.Weight) > leastWeight {
		says = append(says, "weight "+weightWords(a.Piece, s)+" → "+weightWords(b.Piece, s))
		if change == "" {
			change = Weighs
		}
	}
	if a.Tag != b.Tag {
		says = append(says, "tag "+strconv.Itoa(a.Tag)+" → "+strconv.Itoa(b.Tag))
		if change == "" {
			change = Retag
		}
	}
	return change, joinWords(append(moves, says...)...)
}

// leastWeight is the least difference of weight that is one, in kilograms: a tenth of a gram.
const leastWeight = 1e-4

func sameFixings(a, b *hanging) bool {
	p, q := a.Overhead.Plan().Inverse(), b.Overhead.Plan().Inverse()
	if len(a.Fixings) != len(b.Fixings) {
		return false
	}
	for i := range a.Fixings {
		if !p.Apply(a.Fixings[i]).Near(q.Apply(b.Fixings[i])) {
			return false
		}
	}
	return true
}

func fixingWords(p *overhead.Piece) string {
	switch p.Count {
	case 0:
		return ""
	case 1:
		return "1 fixing"
	}
	return strconv.Itoa(p.Count) + " fixings"
}

func handling(p *overhead.Piece) string {
	switch {
	case p.Loose && p.Soft:
		return "loose and soft"
	case p.Loose:
		return "loose"
	case p.Soft:
		return "soft"
	}
	return ""
}

func weightWords(p *overhead.Piece, s *set.Set) string {
	kg := unit.FormatWeight(p.Weight, s.Units, 0.01)
	switch p.Is {
	case set.Unknown:
		return "not weighed"
	case set.About:
		return "about " + kg
	}
	return kg
}

// placeWords says a place with the letters of its sides: 1500 R 3350 U.
func placeWords(s *set.Set, x, y float64) string {
	names := s.SideNames()
	one := func(v float64, plus, minus string) string {
		figure := unit.FormatLength(math.Abs(v), s.Units, 1)
		switch {
		case figure == unit.FormatLength(0, s.Units, 1):
			return figure
		case v < 0:
			return figure + " " + minus
		}
		return figure + " " + plus
	}
	return one(x, names.Plus, names.Minus) + " " + one(y, "U", "D")
}

func orNone(word, none string) string {
	if word == "" {
		return none
	}
	return word
}

// joinWords joins what is not empty by commas.
func joinWords(list ...string) string {
	var says []string
	for _, w := range list {
		if w != "" {
			says = append(says, w)
		}
	}
	return strings.Join(says, ", ")
}
